//! The workshop in words: a page a subject, a card a part.

mod base;
mod collars;
mod figure;
mod fit;
mod lift;
mod stages;

pub use figure::WorkFigure;

use serde::Serialize;

use super::rows::{Said, length_as, row};
use super::words::workshop as say;
use super::{FindingText, Label, Row, finding_text, format};
use crate::finding::{Finding, Severity};
use crate::job::Job;
use crate::quantity::{UnitSystem, Units, sold};
use crate::tube::DiameterRange;
use crate::workshop::BenchWork;

/// What is made in the workshop, for people.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct WorkshopReport {
    pub fit: WorkPage,
    pub stages: WorkPage,
    pub lift: WorkPage,
    pub base: WorkPage,
    pub collars: WorkPage,
}

/// A page of the workshop.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct WorkPage {
    pub title: String,
    pub headline: String,
    /// What has to be said or measured before all of it is known.
    pub waits_for: Vec<FindingText>,
    /// What is wrong, the worst first.
    pub findings: Vec<FindingText>,
    pub cards: Vec<WorkCard>,
    pub says: Vec<String>,
    pub caution: String,
}

/// A part to make or to look at.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct WorkCard {
    /// What is ticked off; empty where nothing is.
    pub part: String,
    pub title: String,
    pub done: bool,
    pub rows: Vec<Row>,
    /// Ids of the rows to set large.
    pub big: Vec<String>,
    pub says: Vec<String>,
    /// What can be measured of it as made.
    pub measured: Vec<WorkMeasured>,
}

/// Something to measure as made.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct WorkMeasured {
    pub part: String,
    pub label: String,
}

/// Puts the workshop into words.
pub fn workshop(job: &Job, bench: &BenchWork) -> WorkshopReport {
    WorkshopReport {
        fit: self::fit::page(job, &bench.fit),
        stages: self::stages::page(job, &bench.stages, &bench.lift),
        lift: self::lift::page(job, &bench.lift),
        base: self::base::page(job, &bench.base),
        collars: self::collars::page(job, &bench.collars),
    }
}

/// What waits for an entry, and what is wrong, apart.
fn apart(findings: &[Finding], units: Units) -> [Vec<FindingText>; 2] {
    let mut sorted: Vec<&Finding> = findings.iter().collect();
    sorted.sort_by_key(|finding| finding.severity);
    let of = |waits: bool| {
        let chosen = sorted.iter().filter(|finding| (finding.severity == Severity::Unchecked) == waits);
        chosen.map(|finding| finding_text(finding, units)).collect()
    };
    [of(true), of(false)]
}

fn figure(figure: WorkFigure, value: impl Into<Said>) -> Row {
    row(Label::Workshop { figure }, value)
}

/// A small length that is laid out with a tape.
fn tape(value_mm: f64, units: Units) -> Said {
    length_as(sold::tape(value_mm, units), value_mm / 1000.0)
}

/// What a tape shows of a size that must not be less.
fn tape_at_least(value_mm: f64, units: Units) -> Said {
    length_as(sold::tape_at_least(value_mm, units), value_mm / 1000.0)
}

/// The drill for a hole.
fn drill_or(value_mm: Option<f64>, units: Units) -> Said {
    value_mm.map_or_else(
        || say::NOT_KNOWN.into(),
        |value_mm| length_as(sold::drill(value_mm, units), sold::drill_mm(value_mm, units.system) / 1000.0),
    )
}

/// How lengths are to be read, where they are in inches.
fn fractions(units: Units) -> Vec<String> {
    let words = (units.system == UnitSystem::Imperial).then(|| super::words::shopping::FRACTIONS.to_owned());
    words.into_iter().collect()
}

/// What a calliper reads; by the tape's marks where it has one there.
fn small(value_mm: f64, units: Units) -> Said {
    length_as(format::length_small(value_mm, units), value_mm / 1000.0)
}

/// Of what may not be known.
fn small_or(value_mm: Option<f64>, units: Units) -> Said {
    value_mm.map_or_else(|| say::NOT_KNOWN.into(), |value_mm| small(value_mm, units))
}

fn span(span: &DiameterRange, units: Units) -> String {
    let [least, largest] = [span.least_mm, span.largest_mm].map(|mm| format::length_small(mm, units));
    if least == largest { least } else { format!("{least} to {largest}") }
}
