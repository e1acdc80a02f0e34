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
        let (job, plan) = (standing.job, standing.plan);
        let level = |bearing_deg: f64| {
            let [east, north] = unit(bearing_deg);
            [east, north, 0.0]
        };
        // As it stands, where that was measured.
        let front = plan.base.legs.iter().find(|leg| leg.id == "front");
        let front_deg = front.map_or(job.placement.front_bearing_deg, |leg| leg.bearing_deg);
        let base = &job.rig.base;
        let class = soil::code_class(job.yard.soil);
        let area_m2 = foot_area_m2(base) * plan.base.legs.len() as f64;
        let mut sliding = Self {
            soil: class,
            area_m2,
            front: level(front_deg),
            right: level(front_deg + 90.0),
            stakes_n: None,
            resistance: footing::sliding(standing.plan.mast.mass_kg * STANDARD_GRAVITY, area_m2, class),
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
        let (job, plan) = (standing.job, standing.plan);
        let mut held = [0.0; 4];
        let mut weakest: Option<Resistance> = None;
        for stake in &plan.base.stakes {
            let Some((leg_id, side)) = stake.id.split_once('-') else { continue };
            let Some(leg) = plan.base.legs.iter().find(|leg| leg.id == leg_id) else { continue };
            let resistance = bar(standing, leg).resistance(soil::SoilState::of(&job.yard).strength());
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
            let plan = compute(job).unwrap().plan;
            Sliding::of(&Standing::of(job, &plan, MastHeight::Raised))
        };
        let planned = sliding(&job);
        job.as_built = Some(AsBuilt { front_bearing_deg: Some(90.0), ..AsBuilt::default() });
        let built = sliding(&job);
        assert!((built.front[0] - 1.0).abs() < 1e-12 && planned.front[0] < 0.0);
        // Turned whole: what its stakes hold to the front and to the sides is the same.
        let holds = |sliding: &Sliding| sliding.stakes_n.unwrap().map(|held_n| held_n > 0.0);
        assert_eq!(holds(&built), holds(&planned));
    }
}
