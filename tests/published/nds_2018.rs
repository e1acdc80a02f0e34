//! NDS Supplement 2018, pressure across the grain: 425 psi read in two open-source libraries, the area factor from
//! memory.

use mastwright_engine::resistance::timber::{TimberBearing, Wood, area_factor, bearing};

const POUND_N: f64 = 4.448_222;

/// A 3.5 × 3.5 in post on spruce-pine-fir (425 psi): 12.25·425 = 5,206 lb at the end of the timber; with C_b =
/// 3.875/3.5 = 1.107 in its middle 5,764 lb.
#[test]
fn post_on_a_sill() {
    let side = 3.5 * 25.4;
    let post = |from_end_mm| TimberBearing {
        along_grain_mm: side,
        across_grain_mm: side,
        from_end_mm,
        is_wet: false,
    };
    for (from_end_mm, pounds) in [(0.0, 5206.0), (300.0, 5764.0)] {
        let carried = bearing(&post(from_end_mm), Wood::SprucePineFir).allowable_n().unwrap() / POUND_N;
        assert!((carried - pounds).abs() < 1.0, "{carried}");
    }
    assert!((area_factor(side, 300.0) - 1.107).abs() < 5e-4);
}
