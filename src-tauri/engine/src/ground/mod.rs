//! The ground: a plane from slopes and spot heights, a triangulated surface where it departs from one.
//!
//! Where there is a surface, it holds inside the hull of its spot heights and the plane outside; at the hull
//! the two meet with a step. Nothing is smoothed: a smooth join would be ground that nobody measured.

pub mod contours;
pub mod edge;
pub mod fall;
pub mod fit;
mod grid;
pub mod highest;
pub mod plane;
pub mod profile;
mod results;
pub mod surface;

pub use contours::{ContourLine, Extent, contours, nice_interval};
pub use fall::{Fall, fall};
pub use fit::{GroundFit, SlopeObservation, SpotObservation, fit};
pub use plane::Plane;
pub use profile::{at_tape, profile, taut_tape_m};
pub use results::{GroundModelKind, GroundResult, ReadingResidual};
pub use surface::{Surface, SurfaceError};

/// The ground as the engine uses it.
#[derive(Debug, Clone)]
pub struct Ground {
    pub plane: Plane,
    /// Triangles between spot heights; outside them, and without them, the plane.
    pub surface: Option<Surface>,
}

impl Ground {
    /// Height of the ground at (east, north), in metres above the ground at the origin.
    pub fn height(&self, at: [f64; 2]) -> f64 {
        self.surface
            .as_ref()
            .and_then(|surface| surface.height(at))
            .unwrap_or_else(|| self.height_outside(at))
    }

    /// Height at a point that lies outside the surface, if there is one, or on its edge.
    fn height_outside(&self, at: [f64; 2]) -> f64 {
        self.plane.height(at) + self.departure(at)
    }

    /// Slope of the ground at a point: dz/dx (east) and dz/dy (north).
    pub fn gradient(&self, at: [f64; 2]) -> [f64; 2] {
        self.surface.as_ref().and_then(|surface| surface.gradient(at)).unwrap_or(self.plane.gradient)
    }

    /// Standard uncertainty in metres of height(a) − height(b).
    ///
    /// By the plane's covariance, in which a common shift of the whole plane cancels. Where both points lie on
    /// the surface, from the spot heights at the corners of their triangles, weighted as the height is; how much
    /// the ground bends between the spots is not in it. Where only one does, both parts together, as though
    /// they were independent: they share spot heights, so this is on the safe side. Outside the surface the ground may
    /// go on departing from the plane as it does inside ([`edge`]), the more the further out.
    ///
    /// # References
    /// ISO/IEC Guide 98-3:2008 (GUM), 5.1.2 and 5.2.2: law of propagation of uncertainty.
    pub fn difference_sigma(&self, a: [f64; 2], b: [f64; 2]) -> f64 {
        self.difference_variance(a, b).max(0.0).sqrt()
    }

    /// Variance in m² of height(a) − height(b), by which [`Ground::difference_sigma`] goes.
    pub fn difference_variance(&self, a: [f64; 2], b: [f64; 2]) -> f64 {
        let on_surface = |at| self.surface.as_ref().and_then(|s| Some((s, s.footing(at)?)));
        match (on_surface(a), on_surface(b)) {
            (None, None) => {
                self.plane.variance([0.0, a[0] - b[0], a[1] - b[1]]) + self.departure_between(a, b)
            }
            (Some((surface, at_a)), Some((_, at_b))) => surface.difference_variance(&at_a, &at_b),
            (Some((surface, at_a)), None) => {
                surface.variance(&at_a) + self.plane.variance([1.0, b[0], b[1]]) + self.departure_variance(b)
            }
            (None, Some((surface, at_b))) => {
                surface.variance(&at_b) + self.plane.variance([1.0, a[0], a[1]]) + self.departure_variance(a)
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn differences_on_the_plane_grow_with_distance() {
        let covariance = [[4e-4, 1e-5, 0.0], [1e-5, 25e-6, 0.0], [0.0, 0.0, 9e-6]];
        let ground =
            Ground { plane: Plane { height_0_m: 0.0, gradient: [0.0; 2], covariance }, surface: None };
        assert_eq!(ground.difference_sigma([3.0, 4.0], [3.0, 4.0]), 0.0);
        assert!((ground.difference_sigma([12.0, 4.0], [2.0, 4.0]) - 0.05).abs() < 1e-12);
        assert!((ground.difference_sigma([2.0, 14.0], [2.0, 4.0]) - 0.03).abs() < 1e-12);
    }

    #[test]
    fn differences_on_the_surface_come_from_its_corners() {
        let points = [[0.0, 0.0, 0.0], [4.0, 0.0, 1.0], [0.0, 4.0, 2.0]];
        let surface = Surface::with_sigmas(&points, &[0.01, 0.02, 0.04]).ok();
        let plane = Plane { height_0_m: 0.0, gradient: [0.0; 2], covariance: [[0.0; 3]; 3] };
        let ground = Ground { plane, surface };
        let corners = ground.difference_sigma([0.0, 0.0], [4.0, 0.0]);
        assert!((corners - (0.01_f64 * 0.01 + 0.02 * 0.02).sqrt()).abs() < 1e-12);
        // Half-way along an edge: half of each corner.
        let middle = ground.difference_sigma([2.0, 0.0], [9.0, 9.0]);
        let beyond = ground.departure_variance([9.0, 9.0]);
        assert!((middle - (0.005_f64 * 0.005 + 0.01 * 0.01 + beyond).sqrt()).abs() < 1e-12 && beyond > 0.0);
        assert!(ground.difference_sigma([1.0, 1.0], [1.0, 1.0]) < 1e-15);
    }
}
