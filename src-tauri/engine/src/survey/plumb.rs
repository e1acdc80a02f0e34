//! The lean of the standing tube, from a phone held upright along it on several of its sides.
//!
//! The phone's zero error is the same on every side while the lean turns with the side, so readings all round
//! tell them apart, as a reversal pair does on the ground.

use super::hold::Tilt;
use super::tilt::RestsOn;
use super::zero::{LAYING_SIGMA_DEG, UNKNOWN_ZERO_SIGMA_DEG};
use crate::numerics::least_squares::{DMatrix, DVector, solve};
use crate::numerics::real::{atan2_deg, hypot, sin_deg, tan_deg};
use crate::quantity::bearing::{of_vector, unit};

/// One hold against the tube, top of the phone up, its back to the tube.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LeanSide {
    /// True bearing in which the screen looks.
    pub facing_deg: f64,
    pub held: Tilt,
}

/// How the tube leans.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Lean {
    pub lean_deg: f64,
    /// Standard uncertainty of the lean in any one direction.
    pub sigma_deg: f64,
    /// True bearing that its top leans to.
    pub towards_deg: f64,
    /// How well the sides agree: standard deviation of one reading.
    pub scatter_deg: f64,
    /// The phone's own errors, which the readings all round took out: outwards and sideways.
    pub phone_error_deg: [f64; 2],
    /// Standard uncertainty of either of them.
    pub phone_sigma_deg: f64,
}

/// A phone's own errors where it is held upright, its back to a tube: outwards and sideways.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PhoneZero {
    pub error_deg: [f64; 2],
    pub sigma_deg: f64,
}

impl PhoneZero {
    /// Of a phone that nobody has held against opposite sides yet.
    pub const UNKNOWN: Self = Self { error_deg: [0.0; 2], sigma_deg: UNKNOWN_ZERO_SIGMA_DEG };
}

impl Lean {
    /// The phone's own errors as the sides show them.
    pub fn phone_zero(&self) -> PhoneZero {
        PhoneZero { error_deg: self.phone_error_deg, sigma_deg: self.phone_sigma_deg }
    }

    /// The lean's part along a true bearing, positive where the top leans that way.
    pub fn along_deg(&self, bearing_deg: f64) -> f64 {
        let [east, north] = unit(bearing_deg);
        let [to_east, to_north] = unit(self.towards_deg);
        let along = tan_deg(self.lean_deg) * (east * to_east + north * to_north);
        atan2_deg(along, 1.0)
    }
}

/// Why the readings give no lean.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
pub enum NoLean {
    #[error("the phone did not stand upright along the tube, its top end up")]
    NotUpright,
    #[error("read at least two opposite sides of the tube; all four are good")]
    TooFewSides,
    #[error("a reading is not a finite number, or its uncertainty is negative")]
    NotFinite,
}

/// The lean that fits the readings of all sides best, with the phone's own errors as two more unknowns.
///
/// For a top that leans by λE, λN (small) a phone that looks along ψ sees its screen look down by λ·(sin ψ, cos ψ)
/// and its right side, which points along ψ − 90°, down by λ·(−cos ψ, sin ψ), each beside its own constant error.
///
/// # Accuracy
/// First order in the lean: at 3° the second order is below 0.005°. The sigma of one reading is what the sides'
/// scatter shows, but not less than [`LAYING_SIGMA_DEG`].
///
/// # Errors
/// When a phone was not upright, the sides leave the lean open, or a number is unusable.
///
/// # References
/// Vector geometry as above; least squares as in `numerics::least_squares`.
pub fn lean(sides: &[LeanSide]) -> Result<Lean, NoLean> {
    if sides.iter().any(|side| side.held.rests_on != RestsOn::Bottom) {
        return Err(NoLean::NotUpright);
    }
    let rows = 2 * sides.len();
    let mut design = DMatrix::zeros(rows, 4);
    let mut observed = DVector::zeros(rows);
    let mut sigmas = Vec::with_capacity(rows);
    for (i, side) in sides.iter().enumerate() {
        let [east, north] = unit(side.facing_deg);
        let (outwards, sideways) = (2 * i, 2 * i + 1);
        for (row, parts) in [(outwards, [east, north, 1.0, 0.0]), (sideways, [-north, east, 0.0, 1.0])] {
            for (column, part) in parts.into_iter().enumerate() {
                design[(row, column)] = part;
            }
        }
        observed[outwards] = -side.held.screen_deg;
        observed[sideways] = -side.held.short_edge_deg;
        let sigma = hypot(side.held.standard_uncertainty_deg, LAYING_SIGMA_DEG);
        if !(sigma.is_finite() && side.held.standard_uncertainty_deg >= 0.0) {
            return Err(NoLean::NotFinite);
        }
        sigmas.extend([sigma, sigma]);
    }
    if !observed.iter().all(|reading| reading.is_finite()) {
        return Err(NoLean::NotFinite);
    }
    if !turns_enough(sides) {
        return Err(NoLean::TooFewSides);
    }
    let fit = solve(&design, &observed, &sigmas).map_err(|_| NoLean::TooFewSides)?;
    // The sides' own agreement counts where it is worse than the phone's usual.
    let factor = fit.variance_factor.unwrap_or(1.0);
    let [east, north] = [fit.parameters[0], fit.parameters[1]];
    Ok(Lean {
        lean_deg: hypot(east, north),
        sigma_deg: fit.sigma(0).max(fit.sigma(1)) * factor.max(1.0).sqrt(),
        towards_deg: of_vector(east, north),
        scatter_deg: LAYING_SIGMA_DEG * factor.sqrt(),
        phone_error_deg: [fit.parameters[2], fit.parameters[3]],
        phone_sigma_deg: fit.sigma(2).max(fit.sigma(3)) * factor.max(1.0).sqrt(),
    })
}

/// The lean from one side alone, the phone's own errors being known: both equations of [`lean`] solved for λE and λN.
///
/// # Errors
/// When the phone was not upright, or a number is unusable.
pub fn lean_of_side(side: &LeanSide, zero: &PhoneZero) -> Result<Lean, NoLean> {
    if side.held.rests_on != RestsOn::Bottom {
        return Err(NoLean::NotUpright);
    }
    let outwards_deg = -side.held.screen_deg - zero.error_deg[0];
    let sideways_deg = -side.held.short_edge_deg - zero.error_deg[1];
    let [facing_e, facing_n] = unit(side.facing_deg);
    let east = outwards_deg * facing_e - sideways_deg * facing_n;
    let north = outwards_deg * facing_n + sideways_deg * facing_e;
    let sigma_deg = hypot(hypot(side.held.standard_uncertainty_deg, LAYING_SIGMA_DEG), zero.sigma_deg);
    if !(east.is_finite() && north.is_finite() && sigma_deg.is_finite()) {
        return Err(NoLean::NotFinite);
    }
    Ok(Lean {
        lean_deg: hypot(east, north),
        sigma_deg,
        towards_deg: of_vector(east, north),
        scatter_deg: LAYING_SIGMA_DEG,
        phone_error_deg: zero.error_deg,
        phone_sigma_deg: zero.sigma_deg,
    })
}

/// Whether some two sides look nearly opposite ways: sides that look alike can't tell the lean from the phone.
fn turns_enough(sides: &[LeanSide]) -> bool {
    /// Half the turn between two sides must have at least this sine: 120° apart (common practice).
    const LEAST_HALF_TURN_SINE: f64 = 0.866;
    sides.iter().any(|a| {
        sides.iter().any(|b| sin_deg(0.5 * (a.facing_deg - b.facing_deg)).abs() >= LEAST_HALF_TURN_SINE)
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::numerics::real::{asin, cos_deg};
    use crate::survey::tilt::{GravitySign, edge_slopes};

    /// A phone on a tube that leans by `lean` towards `to`, looking along `facing`, with a zero error. The tube's
    /// axis and the phone's are built as vectors, not by the formula that is tested.
    fn side(lean: f64, to: f64, facing: f64, error: [f64; 2]) -> LeanSide {
        let [e, n] = unit(to);
        let y = [sin_deg(lean) * e, sin_deg(lean) * n, cos_deg(lean)];
        let [fe, fn_] = unit(facing);
        // The screen looks along `facing` as nearly as square to the tube allows.
        let dot = fe * y[0] + fn_ * y[1];
        let z = [fe - dot * y[0], fn_ - dot * y[1], -dot * y[2]];
        let length = hypot(hypot(z[0], z[1]), z[2]);
        let z = z.map(|part| part / length);
        let x_up = y[0] * z[1] - y[1] * z[0];
        let felt = [x_up, y[2], z[2]];
        let slopes = edge_slopes(felt, GravitySign::Up).unwrap();
        LeanSide {
            facing_deg: facing,
            held: Tilt {
                long_edge_deg: slopes.long_edge_deg,
                short_edge_deg: slopes.short_edge_deg - error[1],
                screen_deg: slopes.screen_deg - error[0],
                rests_on: RestsOn::Bottom,
                standard_uncertainty_deg: 0.03,
                acceleration: felt,
            },
        }
    }

    #[test]
    fn four_sides_give_the_lean_and_take_the_phones_error_out() {
        let four = [225.0, 315.0, 45.0, 135.0].map(|facing| side(0.9, 40.0, facing, [0.7, -0.4]));
        let found = lean(&four).unwrap();
        assert!((found.lean_deg - 0.9).abs() < 1e-3, "{found:?}");
        assert!((found.towards_deg - 40.0).abs() < 0.1);
        assert!(
            (found.phone_error_deg[0] - 0.7).abs() < 1e-3 && (found.phone_error_deg[1] + 0.4).abs() < 1e-3
        );
        // By hand: each of λE, λN has four sin² + cos² rows of weight, so σ = √(0.03² + 0.2²)/2 = 0.101.
        assert!((found.sigma_deg - 0.1011).abs() < 1e-3);
        assert!((found.along_deg(220.0) + 0.9).abs() < 1e-3 && found.along_deg(130.0).abs() < 1e-3);
        // Upright by the arcsine too.
        assert!((asin(sin_deg(0.9)).to_degrees() - found.along_deg(40.0)).abs() < 1e-3);
    }

    /// Two opposite sides tell the phone's error; then one side alone tells the lean, wherever it is.
    #[test]
    fn after_a_reversal_one_side_is_enough() {
        let two = [45.0, 225.0].map(|facing| side(1.2, 100.0, facing, [0.6, -0.3]));
        let zero = lean(&two).unwrap().phone_zero();
        // By hand: each error has two rows of weight, σ = √(0.03² + 0.2²)/√2 = 0.143.
        assert!((zero.sigma_deg - 0.143).abs() < 1e-3, "{zero:?}");
        for facing in [45.0, 135.0, 300.0] {
            let found = lean_of_side(&side(0.8, 200.0, facing, [0.6, -0.3]), &zero).unwrap();
            assert!(
                (found.lean_deg - 0.8).abs() < 2e-3 && (found.towards_deg - 200.0).abs() < 0.2,
                "{found:?}"
            );
            assert!((found.sigma_deg - 0.2479).abs() < 1e-3, "{found:?}");
        }
        let mut lying = two[0];
        lying.held.rests_on = RestsOn::Back;
        assert_eq!(lean_of_side(&lying, &zero), Err(NoLean::NotUpright));
    }

    #[test]
    fn two_opposite_sides_are_the_least() {
        let two = [10.0, 190.0].map(|facing| side(1.5, 300.0, facing, [0.5, 0.5]));
        assert!((lean(&two).unwrap().lean_deg - 1.5).abs() < 2e-3);
        assert_eq!(lean(&two[..1]), Err(NoLean::TooFewSides));
        assert_eq!(lean(&[]), Err(NoLean::TooFewSides));
        let alike = [10.0, 40.0].map(|facing| side(1.5, 300.0, facing, [0.0, 0.0]));
        assert_eq!(lean(&alike), Err(NoLean::TooFewSides));
    }

    #[test]
    fn a_crooked_side_makes_it_less_sure_and_a_lying_phone_is_refused() {
        let mut four = [0.0, 90.0, 180.0, 270.0].map(|facing| side(0.5, 90.0, facing, [0.0, 0.0]));
        let calm = lean(&four).unwrap().sigma_deg;
        four[2].held.screen_deg += 3.0;
        assert!(lean(&four).unwrap().sigma_deg > 2.0 * calm);
        four[0].held.rests_on = RestsOn::Back;
        assert_eq!(lean(&four), Err(NoLean::NotUpright));
    }
}
