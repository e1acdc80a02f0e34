//! How long to cut the rope.

use crate::quantity::estimate::Estimate;

/// Rope used up at each end of a guy, beyond the span.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Allowances {
    /// Knot or splice at the mast.
    pub upper_m: f64,
    /// Knot, tensioner and tail at the anchor.
    pub lower_m: f64,
}

/// The rope to cut: the unstressed length and both allowances. The allowances are what the user chose, so the
/// uncertainty is that of the unstressed length.
pub fn cut_length_m(unstressed_m: Estimate, allowances: Allowances) -> Estimate {
    Estimate { value: unstressed_m.value + allowances.upper_m + allowances.lower_m, ..unstressed_m }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn ends_add_length_and_no_doubt() {
        let cut = cut_length_m(
            Estimate { value: 5.0, half_width_95: 0.1 },
            Allowances { upper_m: 0.4, lower_m: 1.1 },
        );
        assert_eq!(cut, Estimate { value: 6.5, half_width_95: 0.1 });
    }
}
