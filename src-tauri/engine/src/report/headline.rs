//! The first few numbers anybody wants.

use super::rows::{self, row};
use super::{Label, Row, Source, clearances, ground, verdict};
use crate::plan::{LegResult, Support};

/// Where nobody measured the ground there is no height to cut to, and 0 would be one.
pub const NOT_MEASURED: &str = "not known: measure the ground";

pub(super) fn rows(source: &Source) -> Vec<Row> {
    let plan = &source.computed.plan;
    let mut rows: Vec<Row> = plan
        .base
        .legs
        .iter()
        .find(|leg| leg.id == "front")
        .map(|leg| foot(source, leg))
        .into_iter()
        .collect();
    rows.push(ground::slope_row(source));
    rows.push(ground::fall_row(source));
    rows.push(row(Label::MastRaised, rows::length(plan.mast.raised_height_m, source.units())));
    rows.push(row(Label::Verdict, verdict::long(plan.verdict.as_ref())));
    rows.extend(clearances::worst_row(source));
    rows
}

fn foot(source: &Source, leg: &LegResult) -> Row {
    let units = source.units();
    if !source.computed.plan.knows_under(&leg.id) {
        return row(Label::FrontFoot, NOT_MEASURED);
    }
    let label = match leg.support {
        Support::Foot => Label::FrontFootHeight,
        Support::Shim => Label::FrontShim,
        Support::OnGround => Label::FrontLegOnGround,
    };
    row(label, rows::length_95(&leg.gap_centre_m, units))
}
