//! The units that numbers of fields have for users of feet, by the suffix of the field's name.

use super::convert::{
    FOOT_M, FOOT_POUND_FORCE_NM, INCH_MM, INCH_PER_100_FEET_MM_PER_M, KSI_MPA, MILE_PER_HOUR_M_PER_S,
    POUND_FORCE_N, POUND_KG, POUND_PER_100_FEET_G_PER_M,
};

/// The suffix that takes the place of a document's one, and what one of its units is in the document's; none for what has
/// one unit for everybody, and for degrees, which begin elsewhere.
pub(crate) fn imperial(suffix: &str) -> Option<(&'static str, f64)> {
    Some(match suffix {
        "_m" => ("_ft", FOOT_M),
        "_mm" => ("_in", INCH_MM),
        "_n" => ("_lbf", POUND_FORCE_N),
        "_kg" => ("_lb", POUND_KG),
        "_g_per_m" => ("_lb_per_100ft", POUND_PER_100_FEET_G_PER_M),
        "_mm_per_m" => ("_in_per_100ft", INCH_PER_100_FEET_MM_PER_M),
        "_m_per_s" => ("_mph", MILE_PER_HOUR_M_PER_S),
        "_nm" => ("_ft_lbf", FOOT_POUND_FORCE_NM),
        "_mpa" => ("_ksi", KSI_MPA),
        _ => return None,
    })
}
