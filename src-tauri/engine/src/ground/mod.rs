//! The ground: a plane from slopes and spot heights, a triangulated surface where it departs from one.

pub mod plane;
pub mod profile;
pub mod surface;

pub use plane::Plane;
pub use surface::Surface;

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
        self.surface.as_ref().and_then(|surface| surface.height(at)).unwrap_or_else(|| self.plane.height(at))
    }

    /// Slope of the ground at a point: dz/dx (east) and dz/dy (north).
    pub fn gradient(&self, at: [f64; 2]) -> [f64; 2] {
        self.surface.as_ref().and_then(|surface| surface.gradient(at)).unwrap_or(self.plane.gradient)
    }
}
