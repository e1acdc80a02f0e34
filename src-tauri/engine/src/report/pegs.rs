//! How to find each point on the ground.

use super::rows::{self, row};
use super::words::cautions;
use super::{Label, ReportSection, Row, SectionTitle, Source, format, words};
use crate::finding::Subject;
use crate::job::Side;
use crate::plan::{Peg, PolarTape, SwingTies};

pub(super) fn sections(source: &Source) -> Vec<ReportSection> {
    source.computed.plan.pegs.iter().map(|peg| section(source, peg)).collect()
}

fn section(source: &Source, peg: &Peg) -> ReportSection {
    let mut rows = Vec::new();
    if let Some(polar) = &peg.from_mast {
        rows.extend(polar_rows(source, polar));
    }
    match &peg.ties {
        Some(ties) => rows.extend(tie_rows(source, ties)),
        None => rows.push(row(Label::Ties, "no pair of marks serves")),
    }
    ReportSection {
        id: "peg".into(),
        title: words::title(&SectionTitle::Peg { name: peg.name.clone() }),
        subject: Some(peg.subject.clone()),
        rows,
        caution: if is_driven(&peg.subject) { cautions::DIGGING.into() } else { String::new() },
    }
}

/// Whether something goes into the ground there.
fn is_driven(subject: &Subject) -> bool {
    matches!(subject, Subject::Guy { .. } | Subject::Stake { .. })
}

fn polar_rows(source: &Source, polar: &PolarTape) -> Vec<Row> {
    let units = source.units();
    vec![
        row(Label::PegTape, rows::length(polar.tape_m, units)),
        row(Label::BearingFromMast, rows::bearing(polar.bearing_deg)),
        row(Label::AsReadHere, rows::bearing(polar.reading_deg)),
        row(Label::PegInPlan, rows::length(polar.plan_m, units)),
        row(Label::PegHeight, format::up_or_down(polar.height_difference_m, units)),
    ]
}

fn tie_rows(source: &Source, ties: &SwingTies) -> Vec<Row> {
    let units = source.units();
    let well = if ties.good { "" } else { ", poor: outside 30°–150°" };
    let landing = &ties.landing_95;
    vec![
        row(Label::TieFromFirst { mark: ties.mark_a.clone() }, rows::length(ties.tape_a_m, units)),
        row(Label::TieFromSecond { mark: ties.mark_b.clone() }, rows::length(ties.tape_b_m, units)),
        row(Label::TieSide, side_words(ties)),
        row(Label::TiesCross, format!("{}{well}", format::angle(ties.crossing_deg))),
        row(
            Label::Landing,
            format!(
                "{} by {}",
                format::length(landing.semi_major_m, units),
                format::length(landing.semi_minor_m, units)
            ),
        ),
    ]
}

/// The side in words, as walked from the first mark to the second.
pub(crate) fn side_words(ties: &SwingTies) -> String {
    let side = match ties.side {
        Side::Left => "left",
        Side::Right => "right",
    };
    format!("{side} of the line {} → {}", ties.mark_a, ties.mark_b)
}
