//! The confidence ellipse of a point in plan.

use serde::{Deserialize, Serialize};

use super::positions::PositionEstimate;
use crate::numerics::chi_square::CHI_SQUARE_95_2;
use crate::numerics::real::hypot;
use crate::quantity::bearing;

/// A confidence ellipse.
#[derive(Debug, Clone, Copy, PartialEq, Default, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct Ellipse {
    pub semi_major_m: f64,
    pub semi_minor_m: f64,
    /// Bearing of the major axis, in [0, 180).
    pub bearing_deg: f64,
}

/// The ellipse that holds the point with 95 % probability, the sigmas taken as known.
///
/// # References
/// Ghilani, *Adjustment Computations*, ch. 19: semi-axes are the roots of the covariance's eigenvalues. From memory.
pub fn ellipse_95(located: &PositionEstimate) -> Ellipse {
    let [[ee, en], [_, nn]] = located.covariance;
    let [largest, least] = principal_variances(located.covariance);
    let axis = |eigenvalue: f64| (CHI_SQUARE_95_2 * eigenvalue.max(0.0)).sqrt();
    // tan 2t = 2·en/(nn − ee) with t clockwise from north; half the bearing of (2·en, nn − ee). A circle gives 0.
    let bearing_deg = bearing::of_vector(2.0 * en, nn - ee) / 2.0;
    Ellipse { semi_major_m: axis(largest), semi_minor_m: axis(least), bearing_deg }
}

/// Σ of a 95 % ellipse: its axes are √5.991 sigmas long.
pub fn covariance_of_95(ellipse: &Ellipse) -> [[f64; 2]; 2] {
    let variance = |axis_m: f64| axis_m * axis_m / CHI_SQUARE_95_2;
    let (along, across) = (variance(ellipse.semi_major_m), variance(ellipse.semi_minor_m));
    let [east, north] = bearing::unit(ellipse.bearing_deg);
    let cross = (along - across) * east * north;
    [
        [along * east * east + across * north * north, cross],
        [cross, along * north * north + across * east * east],
    ]
}

/// The largest and the least variance over all directions: the eigenvalues of a covariance.
pub fn principal_variances([[ee, en], [_, nn]]: [[f64; 2]; 2]) -> [f64; 2] {
    let middle = (ee + nn) / 2.0;
    let spread = hypot((ee - nn) / 2.0, en);
    [middle + spread, middle - spread]
}

#[cfg(test)]
mod tests {
    use super::*;

    fn check(covariance: [[f64; 2]; 2], semi_axes_in_sigmas: [f64; 2], bearing_deg: f64) {
        let ellipse = ellipse_95(&PositionEstimate { at: [0.0, 0.0], covariance });
        let root = CHI_SQUARE_95_2.sqrt();
        assert!((ellipse.semi_major_m - semi_axes_in_sigmas[0] * root).abs() < 1e-9);
        assert!((ellipse.semi_minor_m - semi_axes_in_sigmas[1] * root).abs() < 1e-9);
        assert!((ellipse.bearing_deg - bearing_deg).abs() < 1e-9, "{ellipse:?}");
    }

    #[test]
    fn the_factor_is_the_closed_form() {
        assert!((CHI_SQUARE_95_2 + 2.0 * crate::numerics::real::ln(0.05)).abs() < 1e-12);
    }

    #[test]
    fn axes_and_bearing() {
        check([[9.0, 0.0], [0.0, 4.0]], [3.0, 2.0], 90.0);
        check([[4.0, 0.0], [0.0, 9.0]], [3.0, 2.0], 0.0);
        check([[5.0, 4.0], [4.0, 5.0]], [3.0, 1.0], 45.0);
        check([[5.0, -4.0], [-4.0, 5.0]], [3.0, 1.0], 135.0);
        check([[0.0, 0.0], [0.0, 0.0]], [0.0, 0.0], 0.0);
    }
}
