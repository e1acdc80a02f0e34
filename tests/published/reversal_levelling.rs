//! Reversing a level: reading, turning the instrument end for end, and reading again takes its zero error out.
//!
//! C. D. Ghilani and P. R. Wolf, Elementary Surveying: instrumental errors eliminated by reversing (relation
//! recalled, not read here); numbers worked from it by hand.

use mastwright_engine::survey::tilt::reversal;

/// +2.3° and, turned, −1.7°: the slope is 2.0°, the instrument shows 0.3° too much.
#[test]
fn slope_and_zero_error() {
    let found = reversal(2.3, -1.7);
    assert!((found.slope_deg - 2.0).abs() < 1e-12);
    assert!((found.zero_error_deg - 0.3).abs() < 1e-12);
}

/// Taking the zero error off each reading gives the slope, seen once from each end.
#[test]
fn zero_error_corrects_single_readings() {
    for (first, turned) in [(2.3, -1.7), (-4.1, 4.9), (0.4, 0.4)] {
        let found = reversal(first, turned);
        assert!((first - found.zero_error_deg - found.slope_deg).abs() < 1e-12);
        assert!((turned - found.zero_error_deg + found.slope_deg).abs() < 1e-12);
    }
}
