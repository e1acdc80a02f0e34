//! With how much the lying mast is pushed up by hand.
//!
//! Virtual work about the hinge: a push F square to the tube at the distance s along it does F·s·dθ, the weight W whose centre lies c
//! along the tube takes W·c·cos θ·dθ, so F = W·c·cos θ/s. Hands stay at one height h while they walk towards the hinge, s = h/sin θ, as far
//! as the tube is that long: then F = W·c·cos θ·sin θ/h, and it is hardest at 45° with W·c/(2·h).

use crate::job::{Job, TiltedTubes};
use crate::numerics::real::{cos_deg, sin_deg};
use crate::plan::Plan;
use crate::quantity::FieldErrors;
use crate::quantity::convert::STANDARD_GRAVITY;
use crate::raising::RaiseWay;
use crate::rigs::LOAD_CONSTANT_KG;
use crate::round_figures::keep;
use crate::workshop::BenchWork;
use crate::workshop::stages;

/// What one person lifts at best. Source: NIOSH 94-110, load constant 23 kg; from memory, and taken as a habit: nobody lifts this for long.
pub const ONE_PERSON_N: f64 = LOAD_CONSTANT_KG * STANDARD_GRAVITY;

/// A weight that turns about the hinge.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Turning {
    /// Sum of each part's mass and its distance from the hinge along the tube.
    pub moment_kg_m: f64,
    pub mass_kg: f64,
    /// From the hinge to the upper end.
    pub long_m: f64,
}

/// The hardest push on the way.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct HardestPush {
    /// Square to the tube.
    pub force_n: f64,
    /// Its part straight up.
    pub up_n: f64,
    /// Of the mast to the level.
    pub elevation_deg: f64,
    /// From the hinge along the tube to the hands.
    pub grip_m: f64,
}

/// The push with the mast at an angle to the level, hands at a height above the hinge.
pub fn push(turning: &Turning, hands_m: f64, elevation_deg: f64) -> HardestPush {
    let sin = sin_deg(elevation_deg);
    let grip_m = if sin * turning.long_m > hands_m { hands_m / sin } else { turning.long_m };
    let force_n = turning.moment_kg_m * STANDARD_GRAVITY * cos_deg(elevation_deg) / grip_m.max(1e-6);
    HardestPush { force_n, up_n: force_n * cos_deg(elevation_deg), elevation_deg, grip_m }
}

/// The hardest push from lying to plumb, by whole degrees.
pub fn hardest(turning: &Turning, hands_m: f64, lying_deg: f64) -> HardestPush {
    let from = push(turning, hands_m, lying_deg);
    let degrees = (lying_deg.ceil() as i32)..=90;
    degrees
        .map(|deg| push(turning, hands_m, f64::from(deg)))
        .fold(from, |worst, at| if at.force_n > worst.force_n { at } else { worst })
}

/// What turns up of a job's mast: its tubes where they are then, and all that is not tube at its upper end, which is more than there is.
/// None where a cord was not weighed, or nobody has said whether the tubes are run down.
///
/// # Errors
/// Where a section is unknown.
pub fn turning(
    job: &Job,
    plan: &Plan,
    bench: &BenchWork,
    way: &RaiseWay,
) -> Result<Option<Turning>, FieldErrors> {
    let Some(mass_kg) = stages::weight_kg(job, plan, &bench.fit, 0)? else { return Ok(None) };
    let foot_m = plan.mast.foot_m - way.hinge[2];
    let mut tubes = Vec::new();
    for (stage, drilled) in plan.mast.stages.iter().zip(&bench.stages.tubes) {
        let bottom_m = match job.raising.tubes {
            TiltedTubes::RunDown => drilled.stands_m,
            TiltedTubes::DrawnOut => stage.bottom_height_m,
            TiltedTubes::Unsaid if plan.mast.stages.len() == 1 => stage.bottom_height_m,
            TiltedTubes::Unsaid => return Ok(None),
        };
        tubes.push((stage.mass_kg, bottom_m, bottom_m + drilled.length_m));
    }
    let long_m = foot_m + tubes.iter().map(|tube| tube.2).fold(0.0, f64::max);
    let of_tubes_kg: f64 = tubes.iter().map(|tube| tube.0).sum();
    let moment: f64 =
        tubes.iter().map(|(mass_kg, low_m, high_m)| mass_kg * (foot_m + 0.5 * (low_m + high_m))).sum();
    let rest_kg = (mass_kg - of_tubes_kg).max(0.0);
    Ok(Some(Turning { moment_kg_m: moment + rest_kg * long_m, mass_kg: of_tubes_kg + rest_kg, long_m }))
}

/// The hardest push on a job's own way.
pub fn hardest_as_said(job: &Job, turning: &Turning, way: &RaiseWay) -> HardestPush {
    hardest(turning, keep::HANDS_WALKING.of(job.units.system), way.lying_deg)
}

/// How many it takes.
pub fn people(force_n: f64) -> u32 {
    (force_n / ONE_PERSON_N).ceil().max(1.0) as u32
}

#[cfg(test)]
mod tests {
    use super::*;

    /// By hand: 40 kg with its centre 2 m from the hinge, 4 m long, hands at 1.5 m: at 45° W·c/(2·h) = 40·9.80665·2/3 = 261.5 N, and lying
    /// W·c/s = 40·9.80665·2/4 = 196.1 N at the upper end.
    #[test]
    fn the_hardest_push_by_hand() {
        let turning = Turning { moment_kg_m: 80.0, mass_kg: 40.0, long_m: 4.0 };
        let worst = hardest(&turning, 1.5, 0.0);
        assert!((worst.force_n - 261.51).abs() < 0.01 && worst.elevation_deg == 45.0, "{worst:?}");
        assert!((worst.up_n - 184.91).abs() < 0.01);
        assert!((push(&turning, 1.5, 0.0).force_n - 196.13).abs() < 0.01);
        assert_eq!(people(worst.force_n), 2);
        assert_eq!(people(225.0), 1);
    }

    /// Work done by the hands from lying to plumb is what the weight rises: ∫F·s·dθ = W·c, whatever the grip.
    #[test]
    fn the_pushes_do_the_work_of_lifting() {
        let turning = Turning { moment_kg_m: 57.0, mass_kg: 30.0, long_m: 3.7 };
        let steps = 9000;
        let work: f64 = (0..steps)
            .map(|step| {
                let at = push(&turning, 1.4, 90.0 * (f64::from(step) + 0.5) / f64::from(steps));
                at.force_n * at.grip_m * std::f64::consts::FRAC_PI_2 / f64::from(steps)
            })
            .sum();
        assert!((work - 57.0 * STANDARD_GRAVITY).abs() < 1e-3, "{work}");
    }
}
