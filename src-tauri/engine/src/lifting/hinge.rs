//! What the foot does while the mast goes up, and what holds it.
//!
//! Equilibrium of the turning mast: what the hinge gives is all that the other forces leave. A push F square to the tube, θ to the level,
//! leaves F·sin θ level, away from the side on which the mast lies, and W − F·cos θ downwards; a line's pull leaves its own two parts.

use super::results::{HeldBy, KickOut, Lie, TiltForces};
use crate::job::{Hinge, Job};
use crate::numerics::real::{cos_deg, sin_deg};
use crate::plan::Computed;
use crate::quantity::bearing::unit;
use crate::quantity::convert::STANDARD_GRAVITY;
use crate::raising::RaiseWay;
use crate::resistance::{Resistance, ShownResistance};
use crate::source::SourceKey;
use crate::structure::BaseReaction;
use crate::wind_capacity::MastHeight;
use crate::wind_capacity::base::{Sliding, stake_beside};
use crate::wind_capacity::standing::Standing;

/// Level push of the foot away from the lying side, and what lifts the hinge (below nought where it is pressed down), of a force whose
/// parts on the mast are towards the side away from the lying mast, and up.
pub fn left_over(mass_kg: f64, [back_n, up_n]: [f64; 2]) -> [f64; 2] {
    [back_n, up_n - mass_kg * STANDARD_GRAVITY]
}

/// The parts of a push square to the tube.
pub fn of_push(force_n: f64, elevation_deg: f64) -> [f64; 2] {
    [force_n * sin_deg(elevation_deg), force_n * cos_deg(elevation_deg)]
}

/// How the ground runs from the hinge under the lying mast.
pub fn lie(computed: &Computed, way: &RaiseWay, hands_m: f64) -> Lie {
    let [east, north] = unit(way.lies_toward_deg);
    let [x, y, z] = way.hinge;
    let ground = &computed.ground;
    let here_m = ground.height([x, y]);
    let far_m = way.reach_m.max(1.0);
    let along = (ground.height([x + far_m * east, y + far_m * north]) - here_m) / far_m;
    let beside = |right_m: f64| ground.height([x + right_m * north, y - right_m * east]);
    Lie { hands_m, hinge_m: z - here_m, along, across: 0.5 * (beside(1.0) - beside(-1.0)) }
}

/// The worst kick-out of all angles against what holds it: that angle at which least is left.
pub fn kick_out(job: &Job, computed: &Computed, way: &RaiseWay, angles: &[TiltForces]) -> KickOut {
    let by = if job.raising.hinge == Hinge::BaseEdge { HeldBy::EdgeStakes } else { HeldBy::StakedBase };
    let standing = Standing::of(job, &computed.layout, MastHeight::Lowered);
    let edge = edge_stakes(&standing);
    let sliding = Sliding::of(&standing);
    let holds = |at: &TiltForces| match by {
        HeldBy::EdgeStakes => edge,
        HeldBy::StakedBase => base_holds(&sliding, way, at),
    };
    let nothing = TiltForces { elevation_deg: way.lying_deg, ..TiltForces::NOTHING };
    let used = |at: &TiltForces| holds(at).map_or(at.away_n, |(held_n, _)| at.away_n / held_n.max(1e-9));
    let worst = angles.iter().fold(&nothing, |worst, at| if used(at) > used(worst) { at } else { worst });
    let held = holds(worst);
    KickOut {
        most_n: worst.away_n,
        at_deg: worst.elevation_deg,
        holds_n: held.map(|it| it.0),
        by,
        source: held.map(|it| it.1),
    }
}

/// Both stakes outside the edge, the cross leg lashed to them: each as the stake beside that leg is. None where one is not shown to hold.
fn edge_stakes(standing: &Standing) -> Option<(f64, SourceKey)> {
    let legs = standing.layout.base.legs.iter().filter(|leg| leg.id == "left" || leg.id == "right");
    let shown = |held: Resistance| match held {
        Resistance::Shown(shown) => Some((shown.allowable_n(), shown.source)),
        Resistance::NotShown { .. } => None,
    };
    let each: Option<Vec<(f64, SourceKey)>> = legs.map(|leg| shown(stake_beside(standing, leg))).collect();
    let each = each.filter(|each| each.len() == 2)?;
    Some((each.iter().map(|it| it.0).sum(), each.first()?.1))
}

fn base_holds(sliding: &Sliding, way: &RaiseWay, at: &TiltForces) -> Option<(f64, SourceKey)> {
    if !sliding.is_shown() {
        return None;
    }
    let [east, north] = unit(way.lies_toward_deg);
    // By the ground on the foot: against the push.
    let force_n = [at.away_n * east, at.away_n * north, (-at.lifts_n).max(0.0)];
    let base = BaseReaction { force_n, ..BaseReaction::default() };
    let (used, push_n) = sliding.utilisation(&base);
    let Resistance::Shown(ShownResistance { source, .. }) = sliding.governing(&base) else { return None };
    // Nothing is pushed: then anything holds it.
    Some((if used > 0.0 { push_n / used } else { f64::MAX }, source))
}

impl TiltForces {
    pub(super) const NOTHING: Self = Self {
        elevation_deg: 0.0,
        force_n: 0.0,
        up_n: 0.0,
        at_m: 0.0,
        away_n: 0.0,
        lifts_n: f64::MIN,
        bend_use: None,
    };
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::lifting::body::Turning;
    use crate::lifting::hands::push;

    /// Ladder of Halliday, Resnick & Walker, sample problem (12 m long, 45 kg with its centre a third of the way up, somebody of 72 kg half-way, a
    /// wall without friction at 9.3 m; g 9.8): foot 7.583 m out, wall and friction 407.5 N, ground 1146.6 N. The wall's force taken as
    /// the push: its part square to the ladder does the work, its part along it comes onto the foot besides.
    #[test]
    fn the_ladder_against_a_wall_of_a_handbook() {
        let g = 9.8 / STANDARD_GRAVITY;
        let (mass_kg, moment) = (117.0 * g, (45.0 * 4.0 + 72.0 * 6.0) * g);
        let out_m = (12.0_f64 * 12.0 - 9.3 * 9.3).sqrt();
        let elevation_deg = crate::numerics::real::atan2_deg(9.3, out_m);
        let turning = Turning { moment_kg_m: moment, mass_kg, long_m: 12.0 };
        let square_n = push(&turning, &Lie::level(1e9), elevation_deg).force_n;
        // Level: F with F·sin θ square to the ladder.
        let wall_n = square_n / sin_deg(elevation_deg);
        let [away_n, lifts_n] = left_over(mass_kg, [wall_n, 0.0]);
        assert!((away_n - 407.5).abs() < 0.5 && (lifts_n + 1146.6).abs() < 0.1, "{away_n} {lifts_n}");
    }

    /// Forces and moments of the free mast add up to nothing at every angle: push, weight, hinge.
    #[test]
    fn virtual_work_and_equilibrium_are_one() {
        let turning = Turning { moment_kg_m: 57.0, mass_kg: 30.0, long_m: 3.7 };
        let lie = Lie { hinge_m: 0.1, along: -0.12, ..Lie::level(1.4) };
        let weight_n = 30.0 * STANDARD_GRAVITY;
        let centre_m = 57.0 / 30.0;
        for deg in -7..=90 {
            let at = push(&turning, &lie, f64::from(deg));
            let (sin, cos) = (sin_deg(at.elevation_deg), cos_deg(at.elevation_deg));
            let [away_n, lifts_n] = left_over(30.0, of_push(at.force_n, at.elevation_deg));
            // Out (to the lying side) and up: the push, the weight, the hinge on the mast.
            type Force = ([f64; 2], [f64; 2]);
            let forces: [Force; 3] = [
                ([at.grip_m * cos, at.grip_m * sin], [-at.force_n * sin, at.force_n * cos]),
                ([centre_m * cos, centre_m * sin], [0.0, -weight_n]),
                ([0.0, 0.0], [away_n, -lifts_n]),
            ];
            let sum = |part: &dyn Fn(&Force) -> f64| forces.iter().map(part).sum::<f64>();
            let moment = sum(&|(at, force)| at[0] * force[1] - at[1] * force[0]);
            let sums = [sum(&|(_, force)| force[0]), sum(&|(_, force)| force[1]), moment];
            assert!(sums.iter().all(|sum| sum.abs() < 1e-9 * weight_n), "{deg}: {sums:?}");
        }
    }

    /// By hand: 40 kg, centre 4 m out, hands at 1.5 m on level ground. F·cos θ = W·c·cos²θ·sin θ/h is largest at sin²θ = 1/3, 35.26°, with
    /// 0.3849·W·c/h = 1.0264·W: the hinge is lifted by 0.0264·W = 10.4 N; a centre 3 m out presses it down.
    #[test]
    fn a_high_centre_lifts_the_hinge() {
        let lifts = |centre_m: f64| {
            let turning = Turning { moment_kg_m: 40.0 * centre_m, mass_kg: 40.0, long_m: 9.0 };
            let at = |deg: f64| {
                let push = push(&turning, &Lie::level(1.5), deg);
                left_over(40.0, of_push(push.force_n, deg))[1]
            };
            (0..=900).map(|tenth| at(f64::from(tenth) / 10.0)).fold(f64::MIN, f64::max)
        };
        assert!((lifts(4.0) - 10.36).abs() < 0.05, "{}", lifts(4.0));
        assert!(lifts(3.0) < 0.0);
    }
}
