//! Where each anchor of a guy level goes, by the rule that the user chose.

use super::fixing::{FixingShape, NoFixing};
pub use crate::finding::guys::NoAnchor;
use crate::ground::Ground;
use crate::ground::profile::at_tape;
use crate::job::{AnchorLayout, GuyLevel};
use crate::numerics::real::{hypot, tan_deg};
use crate::numerics::roots::{RootRules, brent};
use crate::quantity::bearing;

/// What the layout of one level needs to know.
#[derive(Debug, Clone, Copy)]
pub struct LevelOnGround<'a> {
    pub ground: &'a Ground,
    /// The mast's axis in plan.
    pub mast: [f64; 2],
    /// Level of the mast's foot.
    pub foot_m: f64,
    /// True bearing of the front leg.
    pub front_bearing_deg: f64,
    /// Turn of the first guy from the front leg, clockwise.
    pub guy_turn_deg: f64,
    pub level: &'a GuyLevel,
    /// The located anchors of a level whose anchors are free; unused otherwise.
    pub free_anchors: &'a [[f64; 2]],
}

/// Where one anchor goes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct AnchorPoint {
    pub at: [f64; 2],
    pub ground_m: f64,
    /// True bearing from the mast.
    pub azimuth_deg: f64,
    pub radius_m: f64,
}

/// The anchors of a level in the order of its guys, each found or with the reason why not.
pub fn anchors(input: &LevelOnGround) -> Vec<Result<AnchorPoint, NoAnchor>> {
    match input.level.anchor_layout {
        AnchorLayout::Free { .. } => input.free_anchors.iter().map(|&at| input.free_anchor(at)).collect(),
        AnchorLayout::EqualRadius { radius_m } => input.round(|_| Ok(radius_m)),
        AnchorLayout::EqualTape { tape_m } => {
            input.round(|azimuth_deg| Ok(input.radius_at_tape(azimuth_deg, tape_m)))
        }
        AnchorLayout::EqualAngle { angle_deg } => {
            input.round(|azimuth_deg| input.radius_at_angle(bearing::unit(azimuth_deg), angle_deg))
        }
    }
}

/// How far to look for the anchor of a guy at a given angle, in heights of its attachment.
const FARTHEST_HEIGHTS: f64 = 12.0;
/// Parts into which that stretch is cut to find the first crossing of rope and ground.
const PARTS: u32 = 96;

impl LevelOnGround<'_> {
    fn collar_m(&self) -> f64 {
        self.level.collar_radius_mm / 1000.0
    }

    fn azimuth_deg(&self, i: u8) -> f64 {
        let part = 360.0 * f64::from(i) / f64::from(self.level.count.max(1));
        bearing::wrap_360(self.front_bearing_deg + self.guy_turn_deg + part)
    }

    /// Anchors at even turns, each as far out as the rule says for its azimuth.
    fn round(&self, radius_m: impl Fn(f64) -> Result<f64, NoAnchor>) -> Vec<Result<AnchorPoint, NoAnchor>> {
        (0..self.level.count)
            .map(|i| {
                let azimuth_deg = self.azimuth_deg(i);
                let radius_m = radius_m(azimuth_deg)?;
                if radius_m <= self.collar_m() || radius_m.is_nan() {
                    return Err(NoAnchor::UnderCollar);
                }
                let at = self.along(bearing::unit(azimuth_deg), radius_m);
                Ok(AnchorPoint { at, ground_m: self.ground.height(at), azimuth_deg, radius_m })
            })
            .collect()
    }

    /// An anchor that stands where it stands.
    pub fn free_anchor(&self, at: [f64; 2]) -> Result<AnchorPoint, NoAnchor> {
        let [east, north] = [at[0] - self.mast[0], at[1] - self.mast[1]];
        let radius_m = hypot(east, north);
        if radius_m > self.collar_m() && radius_m > 0.0 {
            let azimuth_deg = bearing::of_vector(east, north);
            Ok(AnchorPoint { at, ground_m: self.ground.height(at), azimuth_deg, radius_m })
        } else {
            Err(NoAnchor::UnderCollar)
        }
    }

    /// The one that its guy has on a thing of the yard. A wall is met on the bearing that the guy would leave the mast by.
    pub(super) fn fixed_to(&self, shape: &FixingShape, guy: usize) -> Result<AnchorPoint, NoFixing> {
        let azimuth_deg = match (&self.level.anchor_layout, self.free_anchors.get(guy)) {
            (AnchorLayout::Free { .. }, Some(at)) => {
                bearing::of_vector(at[0] - self.mast[0], at[1] - self.mast[1])
            }
            _ => self.azimuth_deg(u8::try_from(guy).unwrap_or(u8::MAX)),
        };
        let end = shape.end_from(self.mast, azimuth_deg)?;
        let anchor = self.free_anchor(end).map_err(|_| NoFixing::AtMast)?;
        if anchor.radius_m > self.farthest_m() { Err(NoFixing::TooFar) } else { Ok(anchor) }
    }

    fn along(&self, toward: [f64; 2], radius_m: f64) -> [f64; 2] {
        [self.mast[0] + radius_m * toward[0], self.mast[1] + radius_m * toward[1]]
    }

    /// Height of the ground above a rope that leaves the collar at this angle and ends the eye's height up.
    fn ground_over_rope_m(&self, toward: [f64; 2], slope: f64, radius_m: f64) -> f64 {
        let rope_m = self.foot_m + self.level.attach_height_m - slope * (radius_m - self.collar_m());
        self.ground.height(self.along(toward, radius_m)) + self.level.anchor_eye_height_m - rope_m
    }

    /// The first place going outwards where a rope at the angle meets the ground (raised by the eye's height).
    fn radius_at_angle(&self, toward: [f64; 2], angle_deg: f64) -> Result<f64, NoAnchor> {
        let slope = tan_deg(angle_deg);
        let over = |radius_m: f64| self.ground_over_rope_m(toward, slope, radius_m);
        let collar_m = self.collar_m();
        let start = over(collar_m);
        if start >= 0.0 {
            return Err(NoAnchor::GroundAboveAttachment);
        }
        if self.ground.surface.is_none() {
            // On a plane the gap closes at one rate: ground's rise outwards + rope's fall.
            let [east, north] = self.ground.gradient(self.mast);
            let closing = east * toward[0] + north * toward[1] + slope;
            let radius_m = collar_m - start / closing;
            return if closing > 0.0 && radius_m - collar_m <= self.farthest_m() {
                Ok(radius_m)
            } else {
                Err(NoAnchor::RopeNeverMeetsGround)
            };
        }
        self.first_crossing(collar_m, over).ok_or(NoAnchor::RopeNeverMeetsGround)
    }

    fn farthest_m(&self) -> f64 {
        FARTHEST_HEIGHTS * self.level.attach_height_m
    }

    /// First root outwards of a function that is negative at `from_m`: march, then narrow down.
    fn first_crossing(&self, from_m: f64, f: impl Fn(f64) -> f64) -> Option<f64> {
        let part_m = self.farthest_m() / f64::from(PARTS);
        let reached = (1..=PARTS).find(|&i| f(from_m + part_m * f64::from(i)) >= 0.0)?;
        let high = from_m + part_m * f64::from(reached);
        // Brent's bracket closes on a step of the ground too, so only the step count can fail it.
        Some(brent(f, high - part_m, high, RootRules::default()).unwrap_or(high))
    }

    /// Plan distance at which a taut tape along the ground reads `tape_m`.
    fn radius_at_tape(&self, azimuth_deg: f64, tape_m: f64) -> f64 {
        let [east, north] = at_tape(self.ground, self.mast, azimuth_deg, tape_m);
        hypot(east - self.mast[0], north - self.mast[1])
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::ground::Surface;
    use crate::guys::samples::{level, plane};
    use crate::numerics::real::atan2_deg;

    fn on<'a>(ground: &'a Ground, level: &'a GuyLevel) -> LevelOnGround<'a> {
        let mast = [2.0, 3.0];
        let foot_m = ground.height(mast) + 0.2;
        LevelOnGround {
            ground,
            mast,
            foot_m,
            front_bearing_deg: 200.0,
            guy_turn_deg: 30.0,
            level,
            free_anchors: &[],
        }
    }

    /// At 10° on level ground the anchor is tan 10° times farther out than the rope falls: 5 m up, a foot 0.2 m above the
    /// ground and an eye 0.1 m above it make 5.1/tan 10° = 28.92 m from the collar; at 5° 58.3 m; at 4° it is given up.
    #[test]
    fn a_flat_guy_goes_far_out_and_one_too_flat_nowhere() {
        let at = |angle_deg: f64| {
            let (ground, level) = (plane([0.0, 0.0]), level(AnchorLayout::EqualAngle { angle_deg }));
            anchors(&on(&ground, &level)).remove(0)
        };
        for angle_deg in [10.0, 5.0] {
            let by_hand_m = 0.06 + 5.1 / tan_deg(angle_deg);
            assert!((at(angle_deg).unwrap().radius_m - by_hand_m).abs() < 1e-9);
        }
        assert_eq!(at(4.0), Err(NoAnchor::RopeNeverMeetsGround));
    }

    #[test]
    fn equal_angle_has_the_angle_on_any_slope() {
        let (ground, level) = (plane([0.12, -0.2]), level(AnchorLayout::EqualAngle { angle_deg: 45.0 }));
        let input = on(&ground, &level);
        for anchor in anchors(&input) {
            let anchor = anchor.unwrap();
            let rise = input.foot_m + 5.0 - anchor.ground_m - 0.1;
            assert!((atan2_deg(rise, anchor.radius_m - 0.06) - 45.0).abs() < 1e-9);
            // The march and bisection used on a surface find the plane's closed form.
            let toward = bearing::unit(anchor.azimuth_deg);
            let marched = input.first_crossing(0.06, |r| input.ground_over_rope_m(toward, 1.0, r)).unwrap();
            assert!((marched - anchor.radius_m).abs() < 1e-9);
        }
    }

    /// Anchors at 45°, the first due east, on ground whose heights (east, height) are alike at every north.
    fn anchors_over(heights: &[(f64, f64)]) -> Vec<Result<AnchorPoint, NoAnchor>> {
        let points: Vec<[f64; 3]> =
            heights.iter().flat_map(|&(x, z)| [-30.0, 3.0, 33.0].map(|y| [x, y, z])).collect();
        let ground = Ground { surface: Some(Surface::new(&points).unwrap()), ..plane([0.0, 0.0]) };
        let level = level(AnchorLayout::EqualAngle { angle_deg: 45.0 });
        let mut input = on(&ground, &level);
        (input.front_bearing_deg, input.guy_turn_deg) = (90.0, 0.0);
        anchors(&input)
    }

    #[test]
    fn on_a_surface_the_first_place_where_the_rope_comes_down_counts() {
        // A bank 1 m high that begins 2 m east of the mast, 2 m wide at its foot, level on top.
        let heights = [(-30.0, 0.0), (4.0, 0.0), (6.0, 1.0), (30.0, 1.0)];
        let anchors = anchors_over(&heights);
        // Attachment 0.2 + 5 − 0.1 above the level ground; east of the mast the anchor stands on the bank.
        let radii: Vec<f64> = anchors.into_iter().map(|a| a.unwrap().radius_m).collect();
        assert!((radii[0] - (5.1 - 1.0 + 0.06)).abs() < 1e-9, "{radii:?}");
        assert!(
            (radii[1] - (5.1 + 0.06)).abs() < 1e-9 && (radii[2] - (5.1 + 0.06)).abs() < 1e-9,
            "{radii:?}"
        );
    }

    /// A ridge of 3 m: from 2 m out it rises 3 in 2, from 4 m it falls 5 in 1. The rope at 45° from 5.16 m over the axis meets
    /// its near side where 1.5·(r − 2) = 5.16 − r, at 3.264 m, would come out of it at 4.46 m, and down behind it at 5.16 m.
    #[test]
    fn a_rope_ends_at_the_ridge_that_it_meets_first() {
        let heights = [(-30.0, 0.0), (4.0, 0.0), (6.0, 3.0), (6.6, 0.0), (30.0, 0.0)];
        let anchors = anchors_over(&heights);
        let radius_m = anchors[0].as_ref().unwrap().radius_m;
        assert!((radius_m - 3.264).abs() < 1e-9, "{radius_m}");
    }

    #[test]
    fn azimuths_go_round_from_the_front_and_tape_is_shorter_in_plan() {
        let (ground, level) = (plane([0.3, 0.0]), level(AnchorLayout::EqualTape { tape_m: 4.0 }));
        let found: Vec<_> = anchors(&on(&ground, &level)).into_iter().map(Result::unwrap).collect();
        let azimuths: Vec<f64> = found.iter().map(|a| a.azimuth_deg).collect();
        for (azimuth, expected) in azimuths.iter().zip([230.0, 350.0, 110.0]) {
            assert!((azimuth - expected).abs() < 1e-9);
        }
        for anchor in found {
            let tape = hypot(anchor.radius_m, anchor.ground_m - ground.height([2.0, 3.0]));
            assert!((tape - 4.0).abs() < 1e-9);
        }
    }

    #[test]
    fn impossible_anchors_are_named() {
        let steep = plane([0.0, -0.6]);
        let flat_rope = level(AnchorLayout::EqualAngle { angle_deg: 20.0 });
        let mut input = on(&steep, &flat_rope);
        (input.front_bearing_deg, input.guy_turn_deg) = (0.0, 0.0);
        assert_eq!(anchors(&input)[0], Err(NoAnchor::RopeNeverMeetsGround)); // north falls at 31°
        assert!(anchors(&input)[1].is_ok());
        input.foot_m -= 20.0;
        assert_eq!(anchors(&input)[0], Err(NoAnchor::GroundAboveAttachment));
        let free = level(AnchorLayout::Free { anchors: vec![] });
        let mut input = on(&steep, &free);
        let places = [[2.0, 3.01], [6.0, 3.0]];
        input.free_anchors = &places;
        assert_eq!(anchors(&input)[0], Err(NoAnchor::UnderCollar));
        assert!((anchors(&input)[1].unwrap().azimuth_deg - 90.0).abs() < 1e-12);
    }
}
