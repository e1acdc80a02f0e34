//! How readings were brought to true north.

use super::rows::{row, with_interval};
use super::{Label, ReportSection, SectionTitle, Source, format, words};

pub(super) fn section(source: &Source) -> ReportSection {
    let north = &source.computed.plan.north;
    let add = north.add_to_reading_deg;
    let sign = if add > 0.0 { "+" } else { "" };
    let rows = vec![
        with_interval(
            Label::AddToReading,
            format!("{sign}{}", format::angle(add)),
            format::angle_interval(north.add_to_reading_half_width_95_deg, source.units()),
        ),
        row(Label::NorthFrom, words::north_from(&north.from)),
    ];
    ReportSection {
        id: "north".into(),
        title: words::title(&SectionTitle::North),
        subject: None,
        rows,
        caution: words::cautions::COMPASS.into(),
    }
}
