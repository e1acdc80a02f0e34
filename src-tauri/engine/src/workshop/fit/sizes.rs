//! What a tube's diameters may be: as a calliper has them, else as its standard allows.

use super::{SizeBy, TubeDiameters};
use crate::job::{Calliper, Section, Tube};
use crate::tube::TubeSection;
use crate::tube::tolerance::{DiameterRange, tolerance};

/// How far a calliper in a yard may be off, where nobody says: common practice.
pub const CALLIPER_OFF_MM: f64 = 0.1;

/// The diameters of a tube of the job.
pub fn of(tube: &Tube, section: &TubeSection) -> TubeDiameters {
    let calliper = &tube.calliper;
    let listed = listed(&tube.section, section);
    let read = |readings, off_mm| spread(readings, off_mm).map(|span| (span, SizeBy::Calliper));
    let off_mm = calliper.off_mm.unwrap_or(CALLIPER_OFF_MM);
    let outside = read(outside(calliper), off_mm).or(listed.0);
    let bore = read(bore(calliper), off_mm).or(listed.1);
    let middle = |known: Option<(DiameterRange, SizeBy)>, nominal_mm: f64| match known {
        Some((span, SizeBy::Calliper)) => span.middle_mm(),
        _ => nominal_mm,
    };
    let by = |known: Option<(DiameterRange, SizeBy)>| known.map_or(SizeBy::ListAlone, |(_, by)| by);
    TubeDiameters {
        outside_mm: middle(outside, section.outside_mm),
        bore_mm: middle(bore, section.inside_mm()),
        outside: outside.map(|(span, _)| span),
        bore: bore.map(|(span, _)| span),
        outside_by: by(outside),
        bore_by: by(bore),
    }
}

/// The two readings of the outside.
pub fn outside(calliper: &Calliper) -> [Option<f64>; 2] {
    [calliper.outside_mm, calliper.outside_across_mm]
}

/// The two readings of the bore.
pub fn bore(calliper: &Calliper) -> [Option<f64>; 2] {
    [calliper.bore_mm, calliper.bore_across_mm]
}

/// From the smaller reading to the larger one, with what the calliper may be off.
fn spread(readings: [Option<f64>; 2], off_mm: f64) -> Option<DiameterRange> {
    let known = readings.into_iter().flatten();
    let span = known.fold(None, |span: Option<DiameterRange>, reading_mm| {
        let of = |span: DiameterRange| DiameterRange {
            least_mm: span.least_mm.min(reading_mm),
            largest_mm: span.largest_mm.max(reading_mm),
        };
        Some(span.map_or(DiameterRange::about(reading_mm, 0.0), of))
    })?;
    Some(DiameterRange { least_mm: span.least_mm - off_mm, largest_mm: span.largest_mm + off_mm })
}

type Known = Option<(DiameterRange, SizeBy)>;

/// By its table, or by the two sizes of a tube that was measured: there the bore hangs on three readings.
fn listed(how: &Section, section: &TubeSection) -> (Known, Known) {
    match how {
        Section::Measured { .. } => (
            Some((DiameterRange::about(section.outside_mm, CALLIPER_OFF_MM), SizeBy::Calliper)),
            Some((DiameterRange::about(section.inside_mm(), 3.0 * CALLIPER_OFF_MM), SizeBy::Calliper)),
        ),
        Section::Listed { table, size } => {
            let found = tolerance(*table, size.trim());
            let by = |span: Option<DiameterRange>| span.map(|span| (span, SizeBy::Standard));
            (by(found.and_then(|it| it.outside)), by(found.and_then(|it| it.bore)))
        }
    }
}
