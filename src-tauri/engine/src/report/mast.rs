//! The mast with its tubes.

use super::rows::{self, row};
use super::words::cautions;
use super::{Label, ReportSection, Row, SectionTitle, Source, format, words};
use crate::finding::Subject;
use crate::plan::Stage;

pub(super) fn section(source: &Source) -> ReportSection {
    let mast = &source.computed.plan.mast;
    let units = source.units();
    let length = |value| rows::length(value, units);
    let mut rows = vec![
        row(Label::MastEast, length(mast.east_m)),
        row(Label::MastNorth, length(mast.north_m)),
        row(Label::HeightRaised, length(mast.raised_height_m)),
        row(Label::HeightLowered, length(mast.lowered_height_m)),
        row(Label::TopAboveGround, length(mast.top_above_ground_m)),
        row(Label::FallRadius, length(mast.fall_radius_m)),
        row(Label::TubesMass, rows::mass(mast.mass_kg, units)),
    ];
    rows.extend(mast.stages.iter().enumerate().map(|(i, stage)| stage_row(source, i, stage)));
    ReportSection {
        id: "mast".into(),
        title: words::title(&SectionTitle::Mast),
        subject: Some(Subject::Mast),
        rows,
        caution: cautions::MAST.into(),
    }
}

fn stage_row(source: &Source, i: usize, stage: &Stage) -> Row {
    let units = source.units();
    let gap = match stage.radial_gap_mm {
        None => String::new(),
        Some(gap) if gap < 0.0 => "; does NOT go into the tube below".into(),
        Some(gap) => format!("; {} of play all round in the tube below", format::length_small(gap, units)),
    };
    let value = format!(
        "{} outside, {} wall, from {} to {} up, {}{gap}",
        format::length_small(stage.outside_mm, units),
        format::length_small(stage.wall_mm, units),
        format::length(stage.bottom_height_m, units),
        format::length(stage.top_height_m, units),
        format::mass(stage.mass_kg, units)
    );
    row(Label::Tube { number: i + 1, name: stage.name.clone() }, value)
}
