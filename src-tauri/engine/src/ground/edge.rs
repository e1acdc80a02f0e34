//! Outside the hull of the spot heights: how far, and how sure the ground can be there.
//!
//! Where the spot heights are no plane, the plane outside their hull is a guess. Two things are known of it: by how much
//! the surface and the plane differ at the nearest edge of the hull (the step), and how the slopes inside differ from
//! the plane's (their root mean square, by area). That the ground goes on beyond the hull as it does inside, its slope
//! off the plane's by as much, is a judgement: the height d beyond the edge is then off by the step and by d times that
//! slope.

use super::Ground;
use super::surface::Surface;
use crate::numerics::outline::sides;
use crate::numerics::real::hypot;

/// A point on the very edge is looked up this part of the way towards the middle of the hull.
const INWARDS: f64 = 1e-9;

/// Where the nearest edge of what was measured lies.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Outside {
    pub distance_m: f64,
    pub nearest: [f64; 2],
}

impl Ground {
    /// How far a point lies outside the hull of the spot heights; none inside it, and none where the ground is a plane
    /// by all that was read, which has no edge.
    pub fn outside(&self, at: [f64; 2]) -> Option<Outside> {
        let surface = self.surface.as_ref()?;
        if surface.footing(at).is_some() {
            return None;
        }
        let near = |(a, b): ([f64; 2], [f64; 2])| {
            let way = [b[0] - a[0], b[1] - a[1]];
            let share =
                ((at[0] - a[0]) * way[0] + (at[1] - a[1]) * way[1]) / (way[0] * way[0] + way[1] * way[1]);
            let share = share.clamp(0.0, 1.0);
            let nearest = [a[0] + share * way[0], a[1] + share * way[1]];
            Outside { distance_m: hypot(at[0] - nearest[0], at[1] - nearest[1]), nearest }
        };
        sides(surface.hull()).map(near).min_by(|a, b| a.distance_m.total_cmp(&b.distance_m))
    }

    /// Mean square of the ground's departure from the plane at a point outside; 0 inside.
    pub(super) fn departure_variance(&self, at: [f64; 2]) -> f64 {
        let (Some(outside), Some(surface)) = (self.outside(at), &self.surface) else { return 0.0 };
        let step_m = step_m(surface, self, outside.nearest);
        step_m * step_m + self.departure_slope2(surface) * outside.distance_m * outside.distance_m
    }

    /// The same of the difference between two points outside: no more than their distance makes of it, and no more than
    /// both by themselves.
    pub(super) fn departure_between(&self, a: [f64; 2], b: [f64; 2]) -> f64 {
        let Some(surface) = &self.surface else { return 0.0 };
        let apart_m = hypot(a[0] - b[0], a[1] - b[1]);
        let by_slope = self.departure_slope2(surface) * apart_m * apart_m;
        by_slope.min(self.departure_variance(a) + self.departure_variance(b))
    }

    /// By how much the ground at a point outside departs from the plane, in a yard drawn by chance; 0 in one as planned.
    pub(super) fn departure(&self, at: [f64; 2]) -> f64 {
        let Some(surface) = &self.surface else { return 0.0 };
        let Some(beyond) = surface.beyond() else { return 0.0 };
        let Some(outside) = self.outside(at) else { return 0.0 };
        let away = [at[0] - outside.nearest[0], at[1] - outside.nearest[1]];
        beyond.step_share * step_m(surface, self, outside.nearest)
            + beyond.slope[0] * away[0]
            + beyond.slope[1] * away[1]
    }

    /// Standard deviation of the slope by which the ground goes on outside, off the plane's; none where nothing is known
    /// of it.
    pub(crate) fn departure_slope(&self) -> Option<f64> {
        self.surface.as_ref().map(|surface| self.departure_slope2(surface).sqrt())
    }

    /// Mean square of the slope inside, off the plane's.
    fn departure_slope2(&self, surface: &Surface) -> f64 {
        let [east, north] = self.plane.gradient;
        let [mean_east, mean_north, mean_square] = surface.slope_moments();
        (mean_square - 2.0 * (east * mean_east + north * mean_north) + east * east + north * north).max(0.0)
    }
}

fn step_m(surface: &Surface, ground: &Ground, edge: [f64; 2]) -> f64 {
    let count = surface.hull().len().max(1) as f64;
    let middle = [0, 1].map(|axis| surface.hull().iter().map(|corner| corner[axis]).sum::<f64>() / count);
    let inside = [0, 1].map(|axis| edge[axis] + INWARDS * (middle[axis] - edge[axis]));
    surface.height(inside).map_or(0.0, |height_m| height_m - ground.plane.height(edge))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::ground::Plane;

    /// A ridge along north at east 2, 1 m high, 4 m wide and long; the plane is level at 0.3 m.
    fn ridge() -> Ground {
        let points: Vec<[f64; 3]> = [(0.0, 0.0), (2.0, 1.0), (4.0, 0.0)]
            .iter()
            .flat_map(|&(x, z)| [[x, 0.0, z], [x, 4.0, z]])
            .collect();
        let plane = Plane { height_0_m: 0.3, gradient: [0.0; 2], covariance: [[0.0; 3]; 3] };
        Ground { plane, surface: Surface::new(&points).ok() }
    }

    /// By hand: slopes of ± 0.5 all over, so 0.5 a metre off the plane; at the east edge the surface is 0.3 m below it:
    /// 3 m out 0.09 + 0.25·9 = 2.34 m².
    #[test]
    fn the_doubt_grows_from_the_step_at_the_edge() {
        let ground = ridge();
        assert_eq!(ground.outside([1.0, 1.0]), None);
        let out = ground.outside([7.0, 1.0]).unwrap();
        assert!((out.distance_m - 3.0).abs() < 1e-12 && out.nearest == [4.0, 1.0]);
        assert!((ground.departure_variance([7.0, 1.0]) - 2.34).abs() < 1e-6);
        assert!((ground.difference_sigma([1.0, 1.0], [7.0, 1.0]) - 2.34_f64.sqrt()).abs() < 1e-6);
        // Two points outside, 0.1 m apart: 0.05 m.
        assert!((ground.difference_sigma([7.0, 1.0], [7.1, 1.0]) - 0.05).abs() < 1e-9);
        let sigmas = [4.5, 6.0, 9.0, 15.0].map(|east| ground.difference_sigma([1.0, 1.0], [east, 1.0]));
        assert!(sigmas.windows(2).all(|pair| pair[0] < pair[1]));
    }
}
