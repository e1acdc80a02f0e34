//! With how much the lying mast is pushed up by hand.
//!
//! Virtual work about the hinge: a push F square to the tube at the distance s along it does F·s·dθ, the weight W whose centre lies c
//! along the tube takes W·c·cos θ·dθ, so F = W·c·cos θ/s. Hands stay at one height h over the ground on which those who push stand
//! while they walk towards the hinge. Where that ground rises by tan α for each metre out from the hinge, and the hinge stands g over
//! it, s·(sin θ − cos θ·tan α) = h − g as far as the tube is that long; so F = W·c·cos θ·sin(θ − α)/((h − g)·cos α), hardest at
//! θ = 45° + α/2 with W·c·(1 − sin α)/(2·(h − g)·cos α). A mast that lies downhill (α below nought) is harder to walk up.

use serde::Serialize;

use super::body::Turning;
use super::results::Lie;
use crate::numerics::real::{cos_deg, sin_deg};
use crate::quantity::convert::STANDARD_GRAVITY;
use crate::rigs::LOAD_CONSTANT_KG;

/// What one person lifts at best. Source: NIOSH 94-110, load constant 23 kg; from memory, and taken as a habit: nobody lifts this for long.
pub const ONE_PERSON_N: f64 = LOAD_CONSTANT_KG * STANDARD_GRAVITY;

/// More of them than this get in each other's way. Source: HSE L23, team handling: teams of more than four are unlikely to work (as quoted).
pub const MOST_IN_A_TEAM: u32 = 4;

/// What so many lift together at best: of the sum of what each lifts alone two thirds for two and a half for three. Source: HSE L23, team handling
/// (as quoted). Nobody publishes it for four: 2/(n + 1), which all three follow, goes on to two fifths, less than the half of three. More than
/// four lift no more than four.
pub fn team_n(people: u32) -> f64 {
    let counted = f64::from(people.min(MOST_IN_A_TEAM));
    ONE_PERSON_N * counted * 2.0 / (counted + 1.0)
}

/// A team at the mast where it is hardest.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct TeamAtMast {
    pub people: u32,
    /// Of the hands' force, for each alike.
    pub each_n: f64,
    /// What all of them lift together at best.
    pub together_n: f64,
    pub enough: bool,
}

/// One to four people at a force.
pub fn teams(force_n: f64) -> [TeamAtMast; MOST_IN_A_TEAM as usize] {
    [1, 2, 3, 4].map(|people| TeamAtMast {
        people,
        each_n: force_n / f64::from(people),
        together_n: team_n(people),
        enough: force_n <= team_n(people),
    })
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

impl Lie {
    /// Level ground in the hinge's own height.
    pub fn level(hands_m: f64) -> Self {
        Self { hands_m, hinge_m: 0.0, along: 0.0, across: 0.0 }
    }

    /// From the hinge along the tube to the hands.
    pub fn grip_m(&self, long_m: f64, elevation_deg: f64) -> f64 {
        let rises = sin_deg(elevation_deg) - cos_deg(elevation_deg) * self.along;
        // A hinge as high as the hands: then nothing is known of a grip below it.
        let over_m = (self.hands_m - self.hinge_m).max(0.1);
        if rises * long_m > over_m { over_m / rises } else { long_m }
    }
}

/// The push with the mast at an angle to the level.
pub fn push(turning: &Turning, lie: &Lie, elevation_deg: f64) -> HardestPush {
    let grip_m = lie.grip_m(turning.long_m, elevation_deg);
    let force_n = turning.moment_kg_m * STANDARD_GRAVITY * cos_deg(elevation_deg) / grip_m.max(1e-6);
    HardestPush { force_n, up_n: force_n * cos_deg(elevation_deg), elevation_deg, grip_m }
}

/// Lying, every whole degree above that, and plumb.
pub fn degrees(lying_deg: f64) -> impl Iterator<Item = f64> {
    std::iter::once(lying_deg).chain((lying_deg.floor() as i32 + 1..=90).map(f64::from))
}

/// The hardest push from lying to plumb, by whole degrees.
pub fn hardest(turning: &Turning, lie: &Lie, lying_deg: f64) -> HardestPush {
    most_on_the_way(lying_deg, |deg| push(turning, lie, deg), |at| at.force_n)
}

/// Where on the way something is largest; of equals the first.
pub(super) fn most_on_the_way<T>(lying_deg: f64, at: impl Fn(f64) -> T, force_n: impl Fn(&T) -> f64) -> T {
    let harder = |worst: T, at: T| if force_n(&at) > force_n(&worst) { at } else { worst };
    degrees(lying_deg).map(&at).fold(at(lying_deg), harder)
}

/// How many it takes; none where it is more than any team lifts.
pub fn people(force_n: f64) -> Option<u32> {
    teams(force_n).into_iter().find(|team| team.enough).map(|team| team.people)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn level(hands_m: f64) -> Lie {
        Lie::level(hands_m)
    }

    /// By hand: 40 kg with its centre 2 m from the hinge, 4 m long, hands at 1.5 m: at 45° W·c/(2·h) = 40·9.80665·2/3 = 261.5 N, and lying
    /// W·c/s = 40·9.80665·2/4 = 196.1 N at the upper end.
    #[test]
    fn the_hardest_push_by_hand() {
        let turning = Turning { moment_kg_m: 80.0, mass_kg: 40.0, long_m: 4.0 };
        let worst = hardest(&turning, &level(1.5), 0.0);
        assert!((worst.force_n - 261.51).abs() < 0.01 && worst.elevation_deg == 45.0, "{worst:?}");
        assert!((worst.up_n - 184.91).abs() < 0.01);
        assert!((push(&turning, &level(1.5), 0.0).force_n - 196.13).abs() < 0.01);
        assert_eq!(people(worst.force_n), Some(2));
    }

    /// NIOSH 94-110, examples 1 and 2 (the project's collected values, from memory, multipliers as printed): 51 lb × .44 × .89 × .86 × 1.00 × .95 =
    /// 16.3 lb recommended for 44 lb, lifting index 2.7; × .56 × .89 × .91 × .86 × 1.00 × .95 = 18.9 lb for 40 lb, index 2.1. Their load constant is
    /// 51 lb or 23 kg, 0.6 % apart; a push of ours counts as one at which every multiplier is 1.
    #[test]
    fn the_load_constant_gives_the_recommended_weights_of_worked_examples() {
        let constant_lb = ONE_PERSON_N / STANDARD_GRAVITY / 0.453_592_37;
        let examples = [
            ([0.44, 0.89, 0.86, 1.0, 0.95], 44.0, 16.3, 2.7),
            ([0.56, 0.89, 0.91 * 0.86, 1.0, 0.95], 40.0, 18.9, 2.1),
        ];
        for (multipliers, load_lb, recommended_lb, index) in examples {
            let found_lb = constant_lb * multipliers.iter().product::<f64>();
            assert!((found_lb / recommended_lb - 1.0_f64).abs() < 0.01, "{found_lb} {recommended_lb}");
            assert!((load_lb / found_lb - index).abs() < 0.05, "{}", load_lb / found_lb);
        }
    }

    /// HSE L23 as collected: two lift 2/3 and three 1/2 of the sum. One 23 kg·9.80665 = 225.55 N, two 2·225.55·2/3 = 300.74 N, three
    /// 3·225.55/2 = 338.33 N, four (ours) 4·225.55·2/5 = 360.88 N; at 320 N each of two has 160 N, and they are not enough.
    #[test]
    fn a_team_lifts_less_than_the_sum() {
        for (count, by_hand_n) in
            [(1, 225.55), (2, 300.74), (3, 338.33), (4, 360.88), (5, 360.88), (9, 360.88)]
        {
            assert!((team_n(count) - by_hand_n).abs() < 0.01, "{count}: {}", team_n(count));
        }
        let needed = [(225.0, 1), (226.0, 2), (300.0, 2), (301.0, 3), (338.0, 3), (339.0, 4), (360.0, 4)];
        assert!(needed.iter().all(|(force_n, by_hand)| people(*force_n) == Some(*by_hand)));
        assert_eq!(people(361.0), None);
        let of = teams(320.0);
        assert_eq!(of.map(|team| team.enough), [false, false, true, true]);
        let each = [320.0, 160.0, 106.67, 80.0];
        assert!(of.iter().zip(each).all(|(team, by_hand_n)| (team.each_n - by_hand_n).abs() < 0.01));
    }

    /// The project's collected values, "Hand at constant height h walking in under a pole" (statics): L 9 m, 300 N, h 1.70 m, at 15, 30 and
    /// 45°: 198.5, 343.9, 397.1 N square to the pole, hands 6.57, 3.40, 2.40 m up it. At 15°: 300·4.5·cos 15°/6.568 = 198.5.
    #[test]
    fn a_pole_walked_up_as_in_the_collected_values() {
        let mass_kg = 300.0 / STANDARD_GRAVITY;
        let turning = Turning { moment_kg_m: 4.5 * mass_kg, mass_kg, long_m: 9.0 };
        for (deg, square_n, grip_m) in [(15.0, 198.5, 6.57), (30.0, 343.9, 3.40), (45.0, 397.1, 2.40)] {
            let at = push(&turning, &level(1.7), deg);
            assert!((at.force_n - square_n).abs() < 0.06 && (at.grip_m - grip_m).abs() < 0.006, "{at:?}");
        }
    }

    /// Work done by the hands from lying to plumb is what the weight rises, W·c·(1 − sin of the lying angle), whatever grip and slope.
    #[test]
    fn the_pushes_do_the_work_of_lifting() {
        let turning = Turning { moment_kg_m: 57.0, mass_kg: 30.0, long_m: 3.7 };
        for (lie, lying_deg) in [
            (level(1.4), 0.0),
            (Lie { hinge_m: 0.2, along: 0.15, ..level(1.4) }, 8.0),
            (Lie { along: -0.2, ..level(1.4) }, -11.0),
        ] {
            let (steps, span_deg) = (9000, 90.0 - lying_deg);
            let work: f64 = (0..steps)
                .map(|step| {
                    let deg = lying_deg + span_deg * (f64::from(step) + 0.5) / f64::from(steps);
                    let at = push(&turning, &lie, deg);
                    at.force_n * at.grip_m * span_deg.to_radians() / f64::from(steps)
                })
                .sum();
            let rises = 57.0 * STANDARD_GRAVITY * (1.0 - sin_deg(lying_deg));
            assert!((work - rises).abs() < 1e-3, "{work} {rises}");
        }
    }

    /// By hand: at 10° of slope, W·c·(1 − sin α)/(2·h·cos α): downhill (1 + 0.17365)/0.98481 = 1.19175 times the level ground's, uphill
    /// (1 − 0.17365)/0.98481 = 0.83910 times, at 40° and 50°.
    #[test]
    fn downhill_it_is_harder_and_uphill_easier() {
        let turning = Turning { moment_kg_m: 80.0, mass_kg: 40.0, long_m: 9.0 };
        let tan = crate::numerics::real::tan_deg(10.0);
        let flat_n = hardest(&turning, &level(1.5), 0.0).force_n;
        for (along, lying_deg, times, at_deg) in [(-tan, -10.0, 1.19175, 40.0), (tan, 10.0, 0.83910, 50.0)] {
            let worst = hardest(&turning, &Lie { along, ..level(1.5) }, lying_deg);
            assert!((worst.force_n / flat_n - times).abs() < 1e-4, "{worst:?}");
            assert_eq!(worst.elevation_deg, at_deg);
        }
    }
}
