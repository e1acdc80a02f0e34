//! What holds the base: stakes or friction against sliding, timber and ground under the mast.

use super::soil;
use super::standing::{Standing, StandingTube};
use crate::anchor::footing::{self, SLIDING_FACTOR};
use crate::anchor::soil::Soil;
use crate::anchor::stake::{CAUTIOUS_BAR_YIELD_PA, Stake};
use crate::job::Base;
use crate::numerics::vector::{Vector, dot};
use crate::plan::LegResult;
use crate::quantity::bearing::unit;
use crate::quantity::convert::STANDARD_GRAVITY;
use crate::resistance::factors::STEEL_WHOLE;
use crate::resistance::timber::{self, TimberBearing};
use crate::resistance::tube::CAUTIOUS_YIELD_MPA;
use crate::resistance::{Condition, GroundUnshown, Resistance, Unshown};
use crate::structure::BaseReaction;

/// Share of the mast's push that one foot carries: the mast stands over the cross leg, whose two tips share it.
pub const SHARE_OF_ONE_FOOT: f64 = 0.5;

/// The base against sliding. Stakes and friction are not added up: each alone must do.
#[derive(Debug, Clone, PartialEq)]
pub struct Sliding {
    soil: Soil,
    area_m2: f64,
    /// Level unit vectors along the front leg and to its right.
    front: Vector,
    right: Vector,
    /// What the stakes may take forwards, backwards, to the right and to the left; none where it is not shown.
    stakes_n: Option<[f64; 4]>,
    /// Why, or by what.
    pub resistance: Resistance,
}

impl Sliding {
    pub fn of(standing: &Standing) -> Self {
        let (job, layout) = (standing.job, standing.layout);
        let level = |bearing_deg: f64| {
            let [east, north] = unit(bearing_deg);
            [east, north, 0.0]
        };
        // As it stands, where that was measured.
        let front = layout.base.legs.iter().find(|leg| leg.id == "front");
        let front_deg = front.map_or(job.placement.front_bearing_deg, |leg| leg.bearing_deg);
        let base = &job.rig.base;
        let class = soil::code_class(job.yard.soil);
        let area_m2 = foot_area_m2(base) * layout.base.legs.len() as f64;
        let mut sliding = Self {
            soil: class,
            area_m2,
            front: level(front_deg),
            right: level(front_deg + 90.0),
            stakes_n: None,
            resistance: footing::sliding(standing.layout.mast.mass_kg * STANDARD_GRAVITY, area_m2, class),
        };
        match sliding.stakes(standing) {
            Ok(Some((each, held))) => {
                sliding.stakes_n = Some(held);
                sliding.resistance = each;
            }
            Ok(None) => {}
            Err(reason) if sliding.resistance.allowable_n().is_none() => {
                sliding.resistance = Resistance::not_shown(reason);
            }
            Err(_) => {}
        }
        sliding
    }

    /// Whether anything is shown to hold the base.
    pub fn is_shown(&self) -> bool {
        self.stakes_n.is_some() || footing::sliding_push_n(1.0, self.area_m2, self.soil).is_some()
    }

    /// Push over what holds it, and the push.
    pub fn utilisation(&self, base: &BaseReaction) -> (f64, f64) {
        let ([friction, stakes], push_n) = self.uses(base);
        // Not f64::min, which would lose a NaN.
        (if friction < stakes { friction } else { stakes }, push_n)
    }

    /// What holds the base in this state, with what it may carry there: friction or adhesion under the weight that rests
    /// on it, or the stakes that stand against this push, whichever holds more. The push over it is the part's use.
    pub fn governing(&self, base: &BaseReaction) -> Resistance {
        let ([friction, stakes], push_n) = self.uses(base);
        if friction < stakes {
            return footing::sliding(base.force_n[2], self.area_m2, self.soil)
                .noting(Condition::StakesHoldLess);
        }
        let together_n = push_n / stakes;
        match self.resistance.clone() {
            Resistance::Shown(mut shown) if self.stakes_n.is_some() && together_n.is_finite() => {
                shown.ultimate_n = together_n * shown.factor;
                Resistance::Shown(shown).noting(Condition::StakesTogether)
            }
            other => other,
        }
    }

    /// The use of friction and that of the stakes, each alone, and the push; endless where one is not shown.
    fn uses(&self, base: &BaseReaction) -> ([f64; 2], f64) {
        let push = base.force_n.map(|part| -part);
        let level = [push[0], push[1], 0.0];
        let push_n = dot(level, level).sqrt();
        let friction = footing::sliding_push_n(base.force_n[2], self.area_m2, self.soil)
            .map_or(f64::INFINITY, |held_n| push_n * SLIDING_FACTOR / held_n.max(1e-9));
        let stakes = self.stakes_n.map_or(f64::INFINITY, |[forwards, backwards, right, left]| {
            let along = |component: f64, plus_n: f64, minus_n: f64| {
                let held_n = if component >= 0.0 { plus_n } else { minus_n };
                component.abs() / held_n.max(1e-9)
            };
            along(dot(level, self.front), forwards, backwards) + along(dot(level, self.right), right, left)
        });
        ([friction, stakes], push_n)
    }

    /// Every stake beside a leg holds pushes towards its own side. Gives the weakest stake's resistance, and the sums
    /// by direction; none where there is no stake.
    fn stakes(&self, standing: &Standing) -> Result<Option<(Resistance, [f64; 4])>, Unshown> {
        let layout = standing.layout;
        let mut held = [0.0; 4];
        let mut weakest: Option<Resistance> = None;
        for stake in &layout.base.stakes {
            let Some((leg_id, side)) = stake.id.split_once('-') else { continue };
            let Some(leg) = layout.base.legs.iter().find(|leg| leg.id == leg_id) else { continue };
            let resistance = stake_beside(standing, leg);
            let allowable_n = match (&resistance, resistance.allowable_n()) {
                (_, Some(allowable_n)) => allowable_n,
                (Resistance::NotShown { reason }, _) => return Err(*reason),
                (Resistance::Shown(_), None) => return Err(GroundUnshown::StakesHoldNothing.into()),
            };
            let [east, north] = unit(leg.bearing_deg + if side == "right" { 90.0 } else { -90.0 });
            let toward = [east, north, 0.0];
            let ways = [
                dot(toward, self.front),
                -dot(toward, self.front),
                dot(toward, self.right),
                -dot(toward, self.right),
            ];
            for (held_n, way) in held.iter_mut().zip(ways) {
                if way > 0.5 {
                    *held_n += allowable_n;
                }
            }
            weakest = Some(match weakest {
                Some(before) => before.weaker(resistance),
                None => resistance,
            });
        }
        Ok(weakest.map(|resistance| (resistance, held)))
    }
}

/// What one stake beside a leg holds, pushed sideways.
pub fn stake_beside(standing: &Standing, leg: &LegResult) -> Resistance {
    bar(standing, leg).resistance(soil::SoilState::of(&standing.job.yard).strength())
}

/// The stake beside a leg: pushed at the middle of the timber, its head flush with the timber's top.
fn bar(standing: &Standing, leg: &LegResult) -> Stake {
    let (base, stakes) = (&standing.job.rig.base, &standing.job.rig.stakes);
    let gap_m = leg.gap_centre_m.value.max(0.0);
    let timber_m = base.timber_depth_mm / 1000.0;
    Stake {
        diameter_m: stakes.diameter_mm / 1000.0,
        embedded_m: stakes.length_m - gap_m - timber_m,
        push_height_m: gap_m + 0.5 * timber_m,
        yield_pa: CAUTIOUS_BAR_YIELD_PA,
    }
}

/// Ground that one foot covers, or the board under it.
fn foot_area_m2(base: &Base) -> f64 {
    let foot_mm2 = base.foot_width_mm * base.foot_thickness_mm;
    base.pad_mm.map_or(foot_mm2, |side_mm| side_mm * side_mm) * 1e-6
}

/// What the ground carries under one foot.
pub fn ground(standing: &Standing) -> Resistance {
    let area_m2 = foot_area_m2(&standing.job.rig.base);
    footing::bearing(area_m2, soil::code_class(standing.job.yard.soil))
}

/// What the ground carries under the board that is packed tight under the mast: all of the mast's push, as the feet must
/// carry it too where the board sinks.
pub fn ground_under_joint(standing: &Standing) -> Option<Resistance> {
    let side_mm = standing.job.rig.base.joint_pad_mm?;
    Some(footing::bearing(side_mm * side_mm * 1e-6, soil::code_class(standing.job.yard.soil)))
}

/// What the timber carries under the mast's foot: under the seat's plate as far as it is stiff, or under the tube's own
/// end.
pub fn seat(standing: &Standing) -> Resistance {
    let base = &standing.job.rig.base;
    let side_mm = standing.tubes.first().map_or(0.0, |tube| seat_side_mm(base, tube));
    let contact = TimberBearing {
        along_grain_mm: side_mm,
        across_grain_mm: side_mm.min(base.timber_width_mm),
        from_end_mm: base.front_reach_m.min(base.side_reach_m) * 1000.0,
        is_wet: true,
    };
    timber::bearing(&contact, base.wood)
}

/// Side of the square that presses on the timber.
///
/// A plate spreads the push beyond the tube by c = t·√(f_y/(3·f)), f what the wood takes per area (EN 1993-1-8, 6.2.5 (4),
/// from memory; here both with their factors, f the larger by the bearing area factor). One of unknown thickness bridges
/// the tube and no more.
fn seat_side_mm(base: &Base, tube: &StandingTube) -> f64 {
    let outside_mm = tube.outside_m * 1000.0;
    let Some(plate_mm) = base.seat_plate_mm else {
        return (std::f64::consts::PI * tube.wall_m * (tube.outside_m - tube.wall_m) * 1e6).max(0.0).sqrt();
    };
    // A disc of the tube's outside.
    let bridged_mm = (std::f64::consts::PI / 4.0).sqrt() * outside_mm;
    let pressure_mpa =
        timber::across_grain_mpa(base.wood, true) * timber::area_factor(outside_mm, f64::INFINITY);
    let yield_mpa = CAUTIOUS_YIELD_MPA / STEEL_WHOLE;
    let spread_mm = base
        .seat_plate_thickness_mm
        .map_or(0.0, |thick_mm| thick_mm * (yield_mpa / (3.0 * pressure_mpa)).sqrt());
    plate_mm.min(bridged_mm + 2.0 * spread_mm)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::job::{AsBuilt, BearingReference};
    use crate::wind_capacity::MastHeight;
    use crate::{demo::yardstick, plan::compute};

    #[test]
    fn stakes_hold_along_the_front_leg_as_it_really_points() {
        let mut job = yardstick();
        job.yard.bearings = BearingReference::True;
        let sliding = |job: &crate::job::Job| {
            let layout = compute(job).unwrap().layout;
            Sliding::of(&Standing::of(job, &layout, MastHeight::Raised))
        };
        let planned = sliding(&job);
        job.as_built = Some(AsBuilt { front_bearing_deg: Some(90.0), ..AsBuilt::default() });
        let built = sliding(&job);
        assert!((built.front[0] - 1.0).abs() < 1e-12 && planned.front[0] < 0.0);
        // Turned whole: what its stakes hold to the front and to the sides is the same.
        let holds = |sliding: &Sliding| sliding.stakes_n.unwrap().map(|held_n| held_n > 0.0);
        assert_eq!(holds(&built), holds(&planned));
    }

    fn tube(outside_m: f64, wall_m: f64) -> StandingTube {
        StandingTube {
            bottom_m: 0.0,
            top_m: 3.0,
            outside_m,
            wall_m,
            mass_kg: 13.0,
            radial_gap_m: 0.0,
            telescoped: false,
        }
    }

    /// A tube of 60 by 3 mm on spruce-pine-fir.
    ///
    /// On its own end: π·3·57 = 537.2 mm², a square of 23.18 mm. Bridged by a plate of unknown thickness: the disc of its
    /// outside, √(π/4)·60 = 53.17 mm. By a plate of 10 mm: wood 425 psi·0.67·(1 + 9.525/60) = 2.275 MPa, steel
    /// 205/1.65 = 124.2 MPa, c = 10·√(124.2/(3·2.275)) = 42.67 mm on both sides: 138.51 mm. Never more than the plate.
    #[test]
    fn what_presses_on_the_timber_by_hand() {
        let mut base = yardstick().rig.base;
        base.wood = crate::resistance::timber::Wood::SprucePineFir;
        let mut side_mm = |plate_mm: Option<f64>, thick_mm: Option<f64>| {
            (base.seat_plate_mm, base.seat_plate_thickness_mm) = (plate_mm, thick_mm);
            seat_side_mm(&base, &tube(0.060, 0.003))
        };
        for (plate_mm, thick_mm, by_hand_mm) in [
            (None, Some(10.0), 23.178),
            (Some(200.0), None, 53.174),
            (Some(200.0), Some(10.0), 138.507),
            (Some(200.0), Some(20.0), 200.0),
            (Some(120.0), Some(10.0), 120.0),
            (Some(40.0), None, 40.0),
        ] {
            let found_mm = side_mm(plate_mm, thick_mm);
            assert!((found_mm - by_hand_mm).abs() < 1e-3, "{plate_mm:?} {thick_mm:?}: {found_mm}");
        }
    }

    /// The same tube on a timber of 100 mm, far from its end: 1.96328 MPa·(1 + 9.525/138.507)·138.507·100 = 29063 N; 5 cm
    /// from the end no more than 1.96328·138.507·100 = 27193 N. On its own end, on a lath of 20 mm:
    /// 1.96328·(1 + 9.525/23.178)·23.178·20 = 1284.1 N.
    #[test]
    fn what_the_timber_bears_under_the_seat_by_hand() {
        let bears_n = |change: &dyn Fn(&mut Base)| {
            let mut job = yardstick();
            job.rig.tubes[0].section = crate::job::Section::Measured { outside_mm: 60.0, wall_mm: 3.0 };
            job.rig.tubes[1].section = crate::job::Section::Measured { outside_mm: 50.0, wall_mm: 3.0 };
            let base = &mut job.rig.base;
            base.wood = crate::resistance::timber::Wood::SprucePineFir;
            (base.seat_plate_mm, base.seat_plate_thickness_mm) = (Some(200.0), Some(10.0));
            base.timber_width_mm = 100.0;
            change(base);
            let layout = compute(&job).unwrap().layout;
            seat(&Standing::of(&job, &layout, MastHeight::Raised)).allowable_n().unwrap()
        };
        assert!((bears_n(&|_| {}) - 29_062.8).abs() < 0.1);
        assert!((bears_n(&|base| base.side_reach_m = 0.05) - 27_192.8).abs() < 0.1);
        let on_its_end = bears_n(&|base| (base.seat_plate_mm, base.timber_width_mm) = (None, 20.0));
        assert!((on_its_end - 1284.10).abs() < 0.01, "{on_its_end}");
    }

    /// Boards count with their own area, feet without with theirs: 8 by 9 cm on sand of 2000 psf (95.76 kPa) bear 689.5 N;
    /// a board of 20 cm 3830.4 N; one of 30 cm under the joint 8618.4 N.
    #[test]
    fn what_the_ground_carries_by_hand() {
        let mut job = yardstick();
        job.yard.soil =
            crate::job::SoilFeel::Sand { feel: crate::anchor::soil::SandFeel::Medium, under_water: false };
        (job.rig.base.foot_width_mm, job.rig.base.foot_thickness_mm) = (80.0, 90.0);
        (job.rig.base.pad_mm, job.rig.base.joint_pad_mm) = (None, None);
        let carried = |job: &crate::job::Job| {
            let layout = compute(job).unwrap().layout;
            let standing = Standing::of(job, &layout, MastHeight::Raised);
            let joint = ground_under_joint(&standing).map(|resistance| resistance.allowable_n().unwrap());
            (ground(&standing).allowable_n().unwrap(), joint)
        };
        let (foot_n, joint) = carried(&job);
        assert!((foot_n - 689.476).abs() < 0.01 && joint.is_none(), "{foot_n}");
        (job.rig.base.pad_mm, job.rig.base.joint_pad_mm) = (Some(200.0), Some(300.0));
        let (board_n, joint) = carried(&job);
        assert!((board_n - 3830.42).abs() < 0.01 && (joint.unwrap() - 8618.45).abs() < 0.01);
    }

    /// On sand (0.25 of the weight, factor 1.5), with stakes that hold 100, 200, 300 and 400 N forwards, backwards, right and
    /// left; the front leg points north.
    #[test]
    fn stakes_and_friction_by_hand() {
        let resistance = footing::sliding(500.0, 0.1, Soil::Sand);
        let mut sliding = Sliding {
            soil: Soil::Sand,
            area_m2: 0.1,
            front: [0.0, 1.0, 0.0],
            right: [1.0, 0.0, 0.0],
            stakes_n: Some([100.0, 200.0, 300.0, 400.0]),
            resistance,
        };
        // The force from the ground: the push is the other way.
        let base = |east_n: f64, north_n: f64, up_n: f64| BaseReaction {
            force_n: [-east_n, -north_n, up_n],
            ..BaseReaction::default()
        };
        for (push, by_hand) in [
            // 40/100 + 30/300 against 50·1.5/(0.25·500).
            (base(30.0, 40.0, 500.0), 0.5),
            // 40/200 + 30/400.
            (base(-30.0, -40.0, 500.0), 0.275),
            // 50·1.5/(0.25·2000): the weight holds it.
            (base(30.0, 40.0, 2000.0), 0.15),
            // Lifted nothing rubs.
            (base(30.0, 40.0, -10.0), 0.5),
        ] {
            let (used, push_n) = sliding.utilisation(&push);
            assert!((used - by_hand).abs() < 1e-12 && (push_n - 50.0).abs() < 1e-12, "{used}");
            // What it may carry in this state is the push over its use.
            let may_n = sliding.governing(&push).allowable_n().unwrap();
            assert!((may_n - 50.0 / by_hand).abs() < 1e-9, "{may_n}");
        }
        assert!(sliding.is_shown());
        sliding.stakes_n = None;
        assert!((sliding.utilisation(&base(30.0, 40.0, 500.0)).0 - 0.6).abs() < 1e-12 && sliding.is_shown());
        // In soft ground the code presumes nothing: without stakes nothing is shown to hold.
        sliding.soil = Soil::SoftOrFill;
        assert!(!sliding.is_shown() && sliding.utilisation(&base(30.0, 40.0, 500.0)).0.is_infinite());
    }

    /// A stake beside a leg whose foot stands 10 cm over the ground, past a timber of 14 cm: of 90 cm 66 cm are in the
    /// ground, and it is pushed in the timber's middle, 17 cm up. A tip that was dug in holds it no deeper than flush.
    #[test]
    fn a_stake_is_pushed_in_the_timber_s_middle() {
        let mut job = yardstick();
        (job.rig.base.timber_depth_mm, job.rig.stakes.length_m, job.rig.stakes.diameter_mm) =
            (140.0, 0.9, 16.0);
        let layout = compute(&job).unwrap().layout;
        let standing = Standing::of(&job, &layout, MastHeight::Raised);
        let mut leg = layout.base.legs[0].clone();
        for (gap_m, embedded_m, push_height_m) in [(0.1, 0.66, 0.17), (-0.05, 0.76, 0.07)] {
            leg.gap_centre_m.value = gap_m;
            let stake = bar(&standing, &leg);
            assert!((stake.embedded_m - embedded_m).abs() < 1e-12, "{}", stake.embedded_m);
            assert!((stake.push_height_m - push_height_m).abs() < 1e-12, "{}", stake.push_height_m);
            assert!((stake.diameter_m - 0.016).abs() < 1e-12);
        }
    }
}
