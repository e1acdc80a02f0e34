//! What a tube's diameters may be, as the mast's tubes have them, and by what that is known.

use super::{SizeBy, TubeDiameters};
use crate::job::{Section, Tube};
use crate::tube::{DiameterRange, MastTube};

/// The diameters of a tube of the job, as it stands in the mast.
pub fn of(tube: &Tube, placed: &MastTube) -> TubeDiameters {
    let (calliper, section, limits) = (&tube.calliper, &placed.section, placed.limits);
    let by = |span: Option<DiameterRange>, readings: [Option<f64>; 2]| match (span, &tube.section) {
        (None, _) => SizeBy::ListAlone,
        (Some(_), Section::Measured { .. }) => SizeBy::Calliper,
        (Some(_), _) if readings.iter().any(Option::is_some) => SizeBy::Calliper,
        (Some(_), Section::Listed { .. }) => SizeBy::Standard,
    };
    let middle = |span: Option<DiameterRange>, by: SizeBy, nominal_mm: f64| match (span, by) {
        (Some(span), SizeBy::Calliper) => span.middle_mm(),
        _ => nominal_mm,
    };
    let (outside_by, bore_by) = (by(limits.outside, calliper.outside()), by(limits.bore, calliper.bore()));
    TubeDiameters {
        outside_mm: middle(limits.outside, outside_by, section.outside_mm),
        bore_mm: middle(limits.bore, bore_by, section.inside_mm()),
        outside: limits.outside,
        bore: limits.bore,
        outside_by,
        bore_by,
    }
}
