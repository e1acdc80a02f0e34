//! The base's timbers under the mast's load: bent where they are halved together, their feet as posts.
//!
//! Assumed, and said with each: the timbers span freely from foot to foot, as over hollow ground; no ground between the
//! feet relieves them, but a board packed tight under the joint takes the whole push (and is held against the ground,
//! while the feet are still held against all of it). The mast stands over the cross leg; where that touches with its
//! uphill edge, half a timber behind the axis, the front leg takes its share by the lever. In an X each pair of opposite
//! legs must do alone, since four feet rock on two. What pushes the mast's foot sideways turns over at the ground.

use super::parts::Use;
use super::standing::Standing;
use super::types::PartName;
use crate::job::{Base, BasePattern};
use crate::numerics::vector::{Vector, dot, norm};
use crate::plan::{LegResult, Support};
use crate::quantity::bearing::unit;
use crate::resistance::{Condition, Resistance, timber};
use crate::source::SourceKey;
use crate::structure::BaseReaction;

/// How a leg of the base is loaded at its foot.
#[derive(Debug, Clone, PartialEq)]
pub struct LegLoad {
    pub id: String,
    /// Level, outwards.
    out: Vector,
    /// From the mast's axis to the middle of the foot.
    arm_m: f64,
    /// Share of the mast's push that comes onto the foot, by the lever.
    share: f64,
    /// Between the two supports that a sideways push turns about.
    span_m: f64,
    /// The mast's foot above the ground at this leg.
    height_m: f64,
}

impl LegLoad {
    fn of(leg: &LegResult, all: &[LegResult], base: &Base) -> Self {
        let arm_m = |leg: &LegResult| leg.reach_m - base.foot_thickness_mm / 2000.0;
        let here_m = arm_m(leg);
        let opposite = match leg.id.as_str() {
            "right" => "left",
            "left" => "right",
            "front" => "back",
            _ => "front",
        };
        // Of a T's front leg the other support is the cross leg's far edge.
        let there_m = all.iter().find(|leg| leg.id == opposite).map_or(base.timber_width_mm / 2000.0, arm_m);
        let [east, north] = unit(leg.bearing_deg);
        let gap_m = leg.gap_centre_m.value.max(0.0);
        Self {
            id: leg.id.clone(),
            out: [east, north, 0.0],
            arm_m: here_m,
            share: there_m / (here_m + there_m),
            span_m: here_m + there_m,
            height_m: gap_m + (base.timber_depth_mm + base.seat_height_mm.max(0.0)) / 1000.0,
        }
    }

    /// What comes onto the foot: of the mast's push this part of the share, of the sideways push what presses it down.
    fn on_foot_n(&self, base: &BaseReaction, part: f64) -> f64 {
        let [east, north, down_n] = base.force_n;
        let outward_n = -dot([east, north, 0.0], self.out);
        let turning_nm = if outward_n > 0.0 { outward_n * self.height_m } else { 0.0 };
        let held_nm = norm(base.moment_n_m);
        part * self.share * down_n + (turning_nm + held_nm) / self.span_m
    }
}

/// A timber where it is halved into the other, under the mast.
#[derive(Debug, Clone, PartialEq)]
pub struct Lap {
    /// `cross` or `front`.
    pub which: &'static str,
    pub name: PartName,
    /// The legs that are this timber.
    legs: Vec<LegLoad>,
    /// How much of the mast's push bends it: all, or none over a board.
    part: f64,
    pub allowable_nm: f64,
    allowable_n: f64,
}

/// The cross leg and the front one (with the back one of an X).
pub fn laps(standing: &Standing) -> Vec<Lap> {
    let (base, legs) = (&standing.job.rig.base, &standing.layout.base.legs);
    let lap = |which, name, ids: [&str; 2]| {
        let own = legs.iter().filter(|leg| ids.contains(&leg.id.as_str()));
        let left_mm = (base.timber_depth_mm - base.lap_cut_mm()).max(0.0);
        let bending_mpa = timber::bending_mpa(base.wood, base.timber_width_mm, base.timber_depth_mm);
        Lap {
            which,
            name,
            legs: own.map(|leg| LegLoad::of(leg, legs, base)).collect(),
            part: if base.joint_pad_mm.is_some() { 0.0 } else { 1.0 },
            allowable_nm: bending_mpa * base.timber_width_mm * left_mm * left_mm / 6.0 / 1000.0,
            // 1.5·V/(b·d), NDS 3.4.2.
            allowable_n: timber::shear_mpa(base.wood) * base.timber_width_mm * left_mm / 1.5,
        }
    };
    let front = match base.pattern {
        BasePattern::T => PartName::FrontTimberAtLap,
        BasePattern::X => PartName::FrontAndBackTimberAtLap,
    };
    vec![lap("cross", PartName::CrossTimberAtLap, ["right", "left"]), lap("front", front, ["front", "back"])]
}

impl Lap {
    pub fn resistance(&self) -> Resistance {
        let lies = if self.part > 0.0 { Condition::LapSpansFreely } else { Condition::LapOverBoard };
        Resistance::shown(self.allowable_n, 1.0, SourceKey::Nds2018, lies).from_memory()
    }

    /// By the foot's push times its arm, and by that push as shear.
    pub fn used(&self, base: &BaseReaction) -> Use {
        let mut most = Use::default();
        for leg in &self.legs {
            let force_n = leg.on_foot_n(base, self.part);
            let moment_nm = force_n * leg.arm_m;
            let (bent, sheared) = (moment_nm / self.allowable_nm, force_n / self.allowable_n);
            let utilisation = super::parts::larger(bent, sheared);
            if super::parts::is_more(utilisation, most.utilisation) || most.force_n.is_none() {
                most = Use { utilisation, force_n: Some(force_n), moment_nm: Some(moment_nm) };
            }
        }
        most
    }
}

/// A foot under a leg, standing on the ground.
#[derive(Debug, Clone, PartialEq)]
pub struct BaseFoot {
    pub leg: LegLoad,
    pub resistance: Resistance,
}

/// Every leg's foot, where it has one.
pub fn feet(standing: &Standing) -> Vec<BaseFoot> {
    let (base, legs) = (&standing.job.rig.base, &standing.layout.base.legs);
    let on_feet = legs.iter().filter(|leg| leg.support == Support::Foot);
    let foot = |leg: &LegResult| {
        let longest_m = leg.gap_inner_m.max(leg.gap_outer_m).max(leg.gap_centre_m.value);
        let sides = [base.foot_thickness_mm, base.foot_width_mm];
        let (least, other) = (sides[0].min(sides[1]), sides[0].max(sides[1]));
        let resistance = timber::post(longest_m * 1000.0, least, other, base.wood);
        BaseFoot { leg: LegLoad::of(leg, legs, base), resistance }
    };
    on_feet.map(foot).collect()
}

impl BaseFoot {
    pub fn used(&self, base: &BaseReaction) -> Use {
        let force_n = self.leg.on_foot_n(base, 1.0);
        let utilisation = self.resistance.allowable_n().map_or(f64::NAN, |allowable_n| force_n / allowable_n);
        Use { utilisation, force_n: Some(force_n), moment_nm: None }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::job::{Job, blank};
    use crate::plan::compute;
    use crate::quantity::{UnitSystem, Units};
    use crate::resistance::timber::Wood;
    use crate::wind_capacity::MastHeight;

    /// 2×6 in on edge of spruce-pine-fir, side reach 1.0 m, front reach 1.42 m, feet 88.9 mm.
    fn job() -> Job {
        let mut job = blank(Units { system: UnitSystem::Metric, inch_fraction: 16 });
        let base = &mut job.rig.base;
        (base.timber_width_mm, base.timber_depth_mm, base.wood) = (38.1, 139.7, Wood::SprucePineFir);
        (base.side_reach_m, base.front_reach_m, base.foot_thickness_mm) = (1.0, 1.42, 88.9);
        (base.foot_width_mm, base.seat_height_mm) = (88.9, 0.0);
        base.joint_pad_mm = None;
        job
    }

    fn used(job: &Job, force_n: [f64; 3]) -> Vec<Use> {
        let layout = compute(job).unwrap().layout;
        let standing = Standing::of(job, &layout, MastHeight::Raised);
        let base = BaseReaction { force_n, moment_n_m: [0.0; 3] };
        laps(&standing).iter().map(|lap| lap.used(&base)).collect()
    }

    #[test]
    fn the_cross_leg_bends_at_its_lap_as_a_sum_by_hand_says() {
        // 1000 N down: 500 N on a foot, 955.55 mm out: 477.8 N·m. Half of 139.7 mm is left: 38.1·69.85²/6 = 30,982 mm³, at
        // 1137.5 psi·1.15 = 9.0193 MPa: 279.4 N·m. 477.8/279.4 = 1.710.
        let cross = used(&job(), [0.0, 0.0, 1000.0])[0];
        assert!((cross.moment_nm.unwrap() - 477.8).abs() < 0.1 && (cross.utilisation - 1.710).abs() < 2e-3);
        // A third cut away instead of half: (2/3)²/(1/2)² = 16/9 of the strength.
        let mut less = job();
        less.rig.base.lap_depth_mm = Some(139.7 / 3.0);
        let third = used(&less, [0.0, 0.0, 1000.0])[0];
        assert!((cross.utilisation / third.utilisation - 16.0 / 9.0).abs() < 1e-9);
        // 100 N to the right (east, with the front to the north), 139.7 mm above the ground, over 1911.1 mm: 7.31 N more.
        let pushed = used(&job(), [-100.0, 0.0, 1000.0])[0];
        assert!((pushed.force_n.unwrap() - 507.31).abs() < 0.01);
        // A board under the joint leaves what the sideways push does.
        let mut packed = job();
        packed.rig.base.joint_pad_mm = Some(250.0);
        assert!((used(&packed, [-100.0, 0.0, 1000.0])[0].force_n.unwrap() - 7.31).abs() < 0.01);
    }

    #[test]
    fn the_front_leg_takes_its_share_by_the_lever() {
        // Half a timber, 19.05 mm, behind the axis the cross leg touches; the foot's middle is 1375.55 mm in front of it:
        // 1000·19.05/1394.6 = 13.66 N; 100 N forwards at 139.7 mm: 10.02 N.
        let front = used(&job(), [0.0, -100.0, 1000.0])[1];
        assert!((front.force_n.unwrap() - 13.66 - 10.02).abs() < 0.01, "{front:?}");
        // An X whose back leg is as long must do with two opposite feet: half the push.
        let mut cross = job();
        cross.rig.base.pattern = BasePattern::X;
        assert!((used(&cross, [0.0, 0.0, 1000.0])[1].force_n.unwrap() - 500.0).abs() < 1e-9);
    }

    #[test]
    fn a_foot_is_a_post_under_its_leg() {
        let job = crate::demo::lantern_green();
        let layout = compute(&job).unwrap().layout;
        let standing = Standing::of(&job, &layout, MastHeight::Raised);
        let feet = feet(&standing);
        assert!(!feet.is_empty());
        for foot in feet {
            let base = BaseReaction { force_n: [0.0, 0.0, 2000.0], moment_n_m: [0.0; 3] };
            let used = foot.used(&base);
            assert!(used.force_n.unwrap() > 0.0 && used.utilisation < 0.2, "{used:?}");
        }
    }
}
