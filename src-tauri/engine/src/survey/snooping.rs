//! Data snooping: readings that no chance explains are set aside one by one, while the others can tell which they are.
//!
//! # References
//! - W. Baarda, *A testing procedure for use in geodetic networks*, Netherlands Geodetic Commission, Publications on
//!   Geodesy 2 (5), 1968: the w-test of one reading at a time, α₀ = 0.001. From memory.
//! - Ghilani, *Adjustment Computations*, ch. 21: remove the worst, adjust again, repeat. From memory.

use super::adjustment::{Adjusted, AdjustmentError, NetworkPoint, Observation, Residual, adjust};
use crate::numerics::least_squares::WORST_STANDARDISED;

/// By leaving out reading i the misfit χ² falls by wᵢ² (Baarda 1968). One reading is blamed only where it explains the
/// misfit better than any other by this much: χ² with one degree of freedom at 1 %.
const CLEARLY_WORST: f64 = 6.63;

/// A reading whose error would show by less than this share is no suspect: to explain the misfit it would have to be
/// wrong by more than ten times what is seen. Förstner's classes of controllability (from Baarda's internal
/// reliability): not checkable below 0.01. From memory.
const LEAST_REDUNDANCY: f64 = 0.01;

/// Of all readings at most one in so many is set aside; where more seem wrong, so may be those that are left.
const MOST_SET_ASIDE: usize = 4;

/// A network with what was set aside.
#[derive(Debug, Clone)]
pub struct Snooped {
    pub adjusted: Adjusted,
    /// Numbers of the observations that took no part, worst first found.
    pub set_aside: Vec<usize>,
    /// Observations of which one or more must be wrong though nothing tells which, worst first; their residuals in the
    /// adjusted network.
    pub suspects: Vec<Residual>,
}

/// Adjusts a network without the readings that the others show to be wrong. The observation `firm` holds by definition,
/// as a baseline does, and is never blamed.
///
/// # Errors
/// As [`adjust`], of all readings together.
pub fn snoop(
    points: &[NetworkPoint],
    observations: &[Observation],
    firm: Option<usize>,
) -> Result<Snooped, AdjustmentError> {
    let mut kept: Vec<usize> = (0..observations.len()).collect();
    let mut set_aside = Vec::new();
    let mut adjusted = adjust(points, observations)?;
    loop {
        let suspects = suspects(&adjusted, &kept, firm);
        let (Some(worst), None) = (suspects.first(), suspects.get(1)) else {
            return Ok(Snooped { adjusted, set_aside, suspects });
        };
        let without: Vec<usize> = kept.iter().copied().filter(|&one| one != worst.observation).collect();
        let left: Vec<Observation> = without.iter().map(|&one| observations[one]).collect();
        let room = MOST_SET_ASIDE * (set_aside.len() + 1) <= observations.len();
        match adjust(points, &left) {
            Ok(next) if room => {
                set_aside.push(worst.observation);
                kept = without;
                adjusted = next;
            }
            _ => return Ok(Snooped { adjusted, set_aside, suspects }),
        }
    }
}

/// The worst reading if it is beyond chance, and every other that explains the misfit nearly as well.
fn suspects(adjusted: &Adjusted, kept: &[usize], firm: Option<usize>) -> Vec<Residual> {
    let mut residuals: Vec<Residual> = (adjusted.residuals.iter())
        .map(|residual| Residual { observation: kept[residual.observation], ..*residual })
        .filter(|residual| Some(residual.observation) != firm && residual.redundancy > LEAST_REDUNDANCY)
        .collect();
    residuals.sort_by(|a, b| b.standardised.abs().total_cmp(&a.standardised.abs()));
    let square = |residual: &Residual| residual.standardised * residual.standardised;
    let Some(worst) =
        residuals.first().copied().filter(|worst| worst.standardised.abs() > WORST_STANDARDISED)
    else {
        return Vec::new();
    };
    let near = |residual: &Residual| square(&worst) - square(residual) < CLEARLY_WORST;
    let mut found: Vec<Residual> = Vec::new();
    for residual in residuals.into_iter().filter(near) {
        // A sketched point has two numbers, which are one reading.
        if found.iter().all(|other| other.observation != residual.observation) {
            found.push(residual);
        }
    }
    found
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::numerics::random::Random;
    use crate::quantity::bearing;

    const PLACES: [[f64; 2]; 5] = [[0.0, 0.0], [22.0, 3.0], [27.0, 20.0], [9.0, 26.0], [-8.0, 14.0]];

    /// Five marks with a tape along each side and one diagonal, and compass bearings from the first and round the
    /// sides; readings scattered by their sigmas.
    fn yard(random: &mut Random) -> (Vec<NetworkPoint>, Vec<Observation>) {
        let points = PLACES.iter().enumerate();
        let points = points.map(|(i, &at)| NetworkPoint { at: [at[0] + 0.4, at[1] - 0.3], fixed: i == 0 });
        let mut points: Vec<NetworkPoint> = points.collect();
        points[0].at = PLACES[0];
        let mut observations = Vec::new();
        let d = |from: usize, to: usize| [PLACES[to][0] - PLACES[from][0], PLACES[to][1] - PLACES[from][1]];
        for (from, to) in [(0, 1), (1, 2), (2, 3), (3, 4), (4, 0), (0, 2), (1, 3), (0, 3)] {
            let [east, north] = d(from, to);
            let distance_m = crate::numerics::real::hypot(east, north) + 0.02 * random.normal();
            observations.push(Observation::Distance {
                from,
                to,
                distance_m,
                gradient: [0.0; 2],
                sigma_m: 0.02,
            });
        }
        for (from, to) in [(0, 1), (0, 2), (0, 3), (0, 4), (1, 2), (2, 3)] {
            let [east, north] = d(from, to);
            let bearing_deg = bearing::wrap_360(bearing::of_vector(east, north) + 2.0 * random.normal());
            observations.push(Observation::Bearing { from, to, bearing_deg, sigma_deg: 2.0 });
        }
        (points, observations)
    }

    /// How far the worst point lies from its true place.
    fn worst_miss_m(adjusted: &Adjusted) -> f64 {
        let miss = |(at, place): (&[f64; 2], &[f64; 2])| {
            crate::numerics::real::hypot(at[0] - place[0], at[1] - place[1])
        };
        adjusted.points.iter().zip(&PLACES).map(miss).fold(0.0, f64::max)
    }

    /// Compass readings beside a car or a steel fence are out by 13–25° (Lviv Polytechnic 2017, lpnu2017): each bearing
    /// in turn, to either side, in many yards.
    #[test]
    fn a_bad_compass_bearing_is_found_and_does_no_harm() {
        let mut random = Random::seeded(31);
        let (mut runs, mut found, mut wrong) = (0, 0, 0);
        for draw in 0..60 {
            let (points, mut observations) = yard(&mut random);
            let bad = 8 + draw % 6;
            let out = (13.0 + 12.0 * random.even()) * if random.even() < 0.5 { -1.0 } else { 1.0 };
            let Observation::Bearing { bearing_deg, .. } = &mut observations[bad] else {
                panic!("a bearing")
            };
            *bearing_deg = bearing::wrap_360(*bearing_deg + out);
            let snooped = snoop(&points, &observations, None).unwrap();
            runs += 1;
            found += usize::from(snooped.set_aside == [bad]);
            wrong += usize::from(snooped.set_aside.iter().any(|&one| one != bad));
            if snooped.set_aside == [bad] {
                // Five bearings of 2° leave a turn of about 0.9°: three of these over the longest sight.
                assert!(worst_miss_m(&snooped.adjusted) < 3.0 * 0.9_f64.to_radians() * 34.0);
            }
        }
        println!("found {found} of {runs}, wrongly blamed {wrong}");
        assert!(found >= 9 * runs / 10, "{found} of {runs}");
        assert!(wrong <= 2, "{wrong}");
    }

    #[test]
    fn a_misread_tape_is_set_aside_and_sound_yards_are_left_alone() {
        let mut random = Random::seeded(32);
        let mut touched = 0;
        for _ in 0..60 {
            let (points, mut observations) = yard(&mut random);
            touched += usize::from(!snoop(&points, &observations, None).unwrap().set_aside.is_empty());
            let Observation::Distance { distance_m, .. } = &mut observations[6] else { panic!("a tape") };
            *distance_m += 0.3048;
            let snooped = snoop(&points, &observations, None).unwrap();
            assert!(
                snooped.set_aside.contains(&6) || snooped.suspects.iter().any(|one| one.observation == 6)
            );
        }
        // Fourteen readings at 0.1 %: one sound yard in seventy.
        assert!(touched <= 3, "{touched}");
    }

    #[test]
    fn where_nothing_tells_which_is_wrong_none_is_set_aside() {
        let points = [[0.0, 0.0], [10.0, 0.0], [5.0, 5.0]];
        let points = points.map(|at| NetworkPoint { at, fixed: at[1] == 0.0 });
        let tape = |from: usize, distance_m: f64| Observation::Distance {
            from,
            to: 2,
            distance_m,
            gradient: [0.0; 2],
            sigma_m: 0.01,
        };
        let bearing = Observation::Bearing { from: 0, to: 2, bearing_deg: 55.0, sigma_deg: 0.1 };
        let side = 50.0_f64.sqrt();
        let snooped = snoop(&points, &[tape(0, side), tape(1, side), bearing], None).unwrap();
        assert!(snooped.set_aside.is_empty());
        assert!(snooped.suspects.len() >= 2, "{:?}", snooped.suspects);
    }
}
