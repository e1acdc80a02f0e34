//! A guy that is made fast to a wall, a building, a post or a tree, where the job says that it may: where its rope ends.

use serde::{Deserialize, Serialize};

pub use crate::finding::guys::NoFixing;
use crate::finding::yard::Thing;
use crate::numerics::real::hypot;
use crate::quantity::bearing;

/// Of a level the one guy that is made fast to a thing.
#[derive(Debug, Clone, PartialEq)]
pub struct LevelFixing {
    /// Its place among the level's guys, from 0.
    pub guy: usize,
    pub thing: Result<FixingThing, NoFixing>,
}

/// A thing that a guy may be made fast to, in its place.
#[derive(Debug, Clone, PartialEq)]
pub struct FixingThing {
    pub id: String,
    pub name: String,
    pub kind: Thing,
    pub shape: FixingShape,
    /// Where the rope ends, above the ground there.
    pub height_m: f64,
    /// What it may be pulled with, where somebody has said it.
    pub holds_n: Option<f64>,
    /// Of its place, as seen from the mast.
    pub covariance: [[f64; 2]; 2],
}

/// What of it a rope can end at, in plan.
#[derive(Debug, Clone, PartialEq)]
pub enum FixingShape {
    /// A trunk or a post: the guy goes to it, wherever the others are.
    Round { at: [f64; 2], radius_m: f64 },
    /// A wall or the sides of a building: the guy ends where its own line meets them first.
    Faces { ends: Vec<[[f64; 2]; 2]>, half_m: f64 },
}

/// To what a guy is made fast.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct MadeFast {
    /// The thing's id.
    pub thing: String,
    pub name: String,
    pub kind: Thing,
    /// Where the rope ends, above the ground there.
    pub height_m: f64,
    /// What it may be pulled with; none where nobody has said it.
    pub holds_n: Option<f64>,
}

impl FixingThing {
    pub(super) fn made_fast(&self, height_m: f64) -> MadeFast {
        let (thing, name) = (self.id.clone(), self.name.clone());
        MadeFast { thing, name, kind: self.kind, height_m, holds_n: self.holds_n }
    }
}

impl FixingShape {
    /// Where a guy that leaves the mast on this bearing ends, in plan.
    ///
    /// # Errors
    /// Where it meets nothing, or the mast stands at it.
    ///
    /// # References
    /// Plane geometry: two lines, each by a point and a direction; a wall of half its thickness is met that much over the sine
    /// of their angle before its middle.
    pub fn end_from(&self, mast: [f64; 2], azimuth_deg: f64) -> Result<[f64; 2], NoFixing> {
        match self {
            Self::Round { at, radius_m } => {
                let way = [at[0] - mast[0], at[1] - mast[1]];
                let far_m = hypot(way[0], way[1]);
                let share = 1.0 - radius_m / far_m;
                let is_out = far_m > *radius_m;
                is_out.then(|| along(mast, way, share)).ok_or(NoFixing::AtMast)
            }
            Self::Faces { ends, half_m } => {
                let toward = bearing::unit(azimuth_deg);
                let met = ends.iter().filter_map(|ends| met_m(mast, toward, *ends, *half_m));
                let nearest_m = met.reduce(f64::min).ok_or(NoFixing::Missed)?;
                (nearest_m > 0.0).then(|| along(mast, toward, nearest_m)).ok_or(NoFixing::AtMast)
            }
        }
    }

    /// How far off the guy's own bearing it then leaves the mast: it may be no more than this for the thing to be the guy's.
    pub fn is_about(&self, mast: [f64; 2], azimuth_deg: f64, within_deg: f64) -> bool {
        match self {
            Self::Round { at, .. } => {
                let to_thing_deg = bearing::of_vector(at[0] - mast[0], at[1] - mast[1]);
                bearing::turn_deg(azimuth_deg, to_thing_deg).abs() <= within_deg
            }
            Self::Faces { .. } => self.end_from(mast, azimuth_deg).is_ok(),
        }
    }
}

fn along(from: [f64; 2], way: [f64; 2], far: f64) -> [f64; 2] {
    [from[0] + far * way[0], from[1] + far * way[1]]
}

/// How far out a line from the mast meets a face, the wall's half thickness before its middle.
fn met_m(mast: [f64; 2], toward: [f64; 2], [a, b]: [[f64; 2]; 2], half_m: f64) -> Option<f64> {
    let (face, from) = ([b[0] - a[0], b[1] - a[1]], [a[0] - mast[0], a[1] - mast[1]]);
    let cross = |p: [f64; 2], q: [f64; 2]| p[0] * q[1] - p[1] * q[0];
    let (across, long_m) = (cross(toward, face), hypot(face[0], face[1]));
    if across == 0.0 {
        return None;
    }
    let (out_m, share) = (cross(from, face) / across, cross(from, toward) / across);
    let sine = across.abs() / long_m;
    (out_m > 0.0 && (0.0..=1.0).contains(&share)).then_some(out_m - half_m / sine)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A trunk of 0.3 m whose middle is 3 m east and 4 m north ends the guy 0.3 m before its 5 m, whatever the guy's turn.
    #[test]
    fn a_trunk_is_gone_to() {
        let tree = FixingShape::Round { at: [4.0, 6.0], radius_m: 0.3 };
        let [east, north] = tree.end_from([1.0, 2.0], 200.0).unwrap();
        assert!((east - (1.0 + 4.7 * 0.6)).abs() < 1e-12 && (north - (2.0 + 4.7 * 0.8)).abs() < 1e-12);
        assert_eq!(tree.end_from([4.0, 6.2], 0.0), Err(NoFixing::AtMast));
        // Its bearing from there: atan(3/4).
        let bearing_deg = 36.869_897_645_844_02;
        assert!(tree.is_about([1.0, 2.0], bearing_deg + 9.9, 10.0));
        assert!(!tree.is_about([1.0, 2.0], bearing_deg - 10.1, 10.0));
    }

    /// A wall 0.4 m thick along x = 6, from y = −2 to 4. From the origin to the north-east it would meet its middle at y = 6 and
    /// goes past it; on the bearing atan(6/3) it meets the middle at (6, 3), its face at x = 5.8, where y = 2.9.
    #[test]
    fn a_wall_is_met_where_the_guys_line_meets_its_face() {
        let wall = FixingShape::Faces { ends: vec![[[6.0, -2.0], [6.0, 4.0]]], half_m: 0.2 };
        assert_eq!(wall.end_from([0.0; 2], 45.0), Err(NoFixing::Missed));
        assert_eq!(wall.end_from([0.0; 2], 243.434_948_822_922), Err(NoFixing::Missed));
        let [east, north] = wall.end_from([0.0; 2], 63.434_948_822_922).unwrap();
        assert!((east - 5.8).abs() < 1e-9 && (north - 2.9).abs() < 1e-9, "{east} {north}");
        assert_eq!(wall.end_from([5.9, 0.0], 90.0), Err(NoFixing::AtMast));
        // Of two sides of a house the nearer one.
        let house = FixingShape::Faces {
            ends: vec![[[9.0, -2.0], [9.0, 4.0]], [[6.0, 4.0], [6.0, -2.0]]],
            half_m: 0.0,
        };
        assert!((house.end_from([0.0; 2], 90.0).unwrap()[0] - 6.0).abs() < 1e-12);
    }
}
