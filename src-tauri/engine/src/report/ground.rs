//! The ground: slope, fall line, how well the readings agree.

use super::rows::{self, row, with_interval};
use super::{Row, Section, Source, say};
use crate::finding::Subject;
use crate::plan::GroundModelKind;

/// A residual beyond this many of its own standard deviations is named. Source: common practice; 3 leaves one
/// good reading in some 370 named without cause (normal distribution).
const NAMED_FROM: f64 = 3.0;

pub(super) fn section(source: &Source) -> Section {
    let ground = &source.computed.plan.ground;
    let model = match ground.model {
        GroundModelKind::AssumedLevel => "level ground assumed: nothing was measured",
        GroundModelKind::Plane => "a plane through the readings",
        GroundModelKind::Surface => "triangles between the spot heights, a plane outside them",
    };
    let mut rows = vec![
        row("model", "Ground taken as", model),
        slope_row(source),
        row("grade", "Grade", format!("{:.1} %", ground.grade_percent)),
        fall_row(source),
    ];
    if let Some(reading) = ground.fall_reading_deg {
        rows.push(row("fall_reading", "Fall line, as read in this yard", rows::bearing(reading)));
    }
    rows.push(row("readings", "Readings used", ground.readings.len().to_string()));
    rows.extend(worst_reading(source));
    Section {
        id: "ground".into(),
        title: "Ground".into(),
        subject: Some(Subject::Ground),
        rows,
        caution: String::new(),
    }
}

pub(super) fn slope_row(source: &Source) -> Row {
    let slope = &source.computed.plan.ground.slope_deg;
    row("slope", "Slope of the ground", rows::angle_95(slope, source.units()))
}

pub(super) fn fall_row(source: &Source) -> Row {
    let ground = &source.computed.plan.ground;
    let label = "Ground falls towards (true bearing)";
    match ground.fall_bearing_deg {
        Some(fall) => {
            let value = format!("{}, {}", say::compass_point(fall), say::bearing(fall));
            with_interval(
                "fall",
                label,
                value,
                say::angle_interval(ground.fall_half_width_95_deg, source.units()),
            )
        }
        None => row("fall", label, "not certain: too near level for these readings"),
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
    Some(row("worst_reading", "Reading that fits least", value))
}
