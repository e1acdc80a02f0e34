//! The ground: slope, fall line, how well the readings agree.

use super::rows::{self, row, with_interval};
use super::verdict::first_small;
use super::{Label, ReportSection, Row, SectionTitle, Source, format, words};
use crate::finding::Subject;
use crate::job::{Job, SpotHeight};
use crate::plan::GroundModelKind;

/// A residual beyond this many of its own standard deviations is named. Source: common practice; 3 leaves one
/// good reading in some 370 named without cause (normal distribution).
const NAMED_FROM: f64 = 3.0;

pub(super) fn section(source: &Source) -> ReportSection {
    let ground = &source.computed.plan.ground;
    let mut rows = taken_as(source).to_vec();
    rows.push(fall_row(source));
    if let Some(reading) = ground.fall_reading_deg {
        rows.push(row(Label::FallReading, rows::bearing(reading)));
    }
    rows.push(row(Label::ReadingsUsed, ground.readings.len().to_string()));
    rows.extend(worst_reading(source));
    ReportSection {
        id: "ground".into(),
        title: words::title(&SectionTitle::Ground),
        subject: Some(Subject::Ground),
        rows,
        caution: String::new(),
    }
}

/// What the ground is taken as, and how steep.
fn taken_as(source: &Source) -> [Row; 3] {
    let ground = &source.computed.plan.ground;
    let model = match ground.model {
        GroundModelKind::AssumedLevel => "level ground assumed: nothing was measured",
        GroundModelKind::Plane => "a plane through the readings",
        GroundModelKind::Surface => "triangles between the spot heights, a plane outside them",
    };
    [
        row(Label::GroundModel, model),
        slope_row(source),
        row(Label::Grade, format!("{:.1} %", ground.grade_percent)),
    ]
}

/// The same in half a sentence.
pub(super) fn so_far(source: &Source) -> String {
    taken_as(source).map(|row| format!("{} {}", first_small(&row.label), row.value)).join(", ")
}

/// Every spot height as one says it, in the order of the job.
pub(super) fn spot_heights(job: &Job) -> Vec<String> {
    let say = |spot: &SpotHeight| {
        let height = |metres: f64| format::field("height_m", metres, job.units);
        match spot.height_m {
            0.0 => "Level with the first mark".to_owned(),
            m if m < 0.0 => format!("{} below the first mark", height(-m)),
            m => format!("{} above the first mark", height(m)),
        }
    };
    job.yard.spot_heights.iter().map(say).collect()
}

pub(super) fn slope_row(source: &Source) -> Row {
    let slope = &source.computed.plan.ground.slope_deg;
    row(Label::Slope, rows::angle_95(slope, source.units()))
}

pub(super) fn fall_row(source: &Source) -> Row {
    let ground = &source.computed.plan.ground;
    match ground.fall_bearing_deg {
        Some(fall) => {
            let value = format!("{}, {}", format::compass_point(fall), format::bearing(fall));
            with_interval(
                Label::Fall,
                value,
                format::angle_interval(ground.fall_half_width_95_deg, source.units()),
            )
        }
        None => row(Label::Fall, "not certain: too near level for these readings"),
    }
}

fn worst_reading(source: &Source) -> Option<Row> {
    let readings = &source.computed.plan.ground.readings;
    let worst = readings.iter().max_by(|a, b| a.standardised.abs().total_cmp(&b.standardised.abs()))?;
    let times = worst.standardised.abs();
    let reading = super::clearances::reading(source, &worst.id);
    let value = if times >= NAMED_FROM {
        format!("{reading}: {times:.1} times its own uncertainty off, read it again")
    } else {
        format!("{reading}: {times:.1} times its own uncertainty off, within reason")
    };
    Some(row(Label::WorstReading, value))
}
