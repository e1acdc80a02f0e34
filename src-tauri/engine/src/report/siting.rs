//! Where the mast can stand, in words.

use std::collections::BTreeMap;

use serde::Serialize;

use super::clearances::name;
use super::rows::{angle, bearing, count, length, row};
use super::{FindingText, Label, Row, Source, finding_text, format, words};
use crate::job::{Job, Placement, Rig};
use crate::plan::Computed;
use crate::siting::{
    Siting, SitingArea, SitingChange, SitingOpening, SitingOpenings, SitingPlace, SitingState,
};

/// The places found, for people.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct SitingReport {
    pub headline: String,
    pub caution: String,
    /// What has to be measured or asked before any place is good.
    pub waits_for: Vec<FindingText>,
    /// The best first.
    pub places: Vec<SitingPlaceText>,
    /// Where nothing fits: what would have to change.
    pub openings: Option<SitingOpeningsText>,
    /// What closes the rest of the yard, the most ground first.
    pub closed: Vec<SitingClosed>,
    /// What each rule of the search says, in their order.
    pub rules: Vec<String>,
    /// What each refusal of a whole plan says, in their order.
    pub refusals: Vec<FindingText>,
}

/// Changes tried where nothing fits.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct SitingOpeningsText {
    /// The smallest first.
    pub opened: Vec<SitingOpeningText>,
    /// A sentence each.
    pub opens_nothing: Vec<String>,
    pub caution: String,
}

/// A change that opens a place.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct SitingOpeningText {
    pub says: String,
    /// The parts with the change made.
    pub rig: Rig,
    pub place: SitingPlaceText,
}

/// Ground that one rule keeps closed.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct SitingClosed {
    pub says: String,
    pub area: String,
}

/// A good place in words.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct SitingPlaceText {
    pub title: String,
    pub placement: Placement,
    /// Marks out of a hundred.
    pub marks: u32,
    pub rows: Vec<Row>,
    pub findings: Vec<FindingText>,
}

/// Puts a search's answer into words. `computed` names the things: any plan of the same job.
pub fn siting(job: &Job, computed: &Computed, found: &Siting) -> SitingReport {
    let source = Source { job, computed };
    let rules: Vec<String> =
        found.rules.iter().map(|rule| words::siting::rule(rule, &name(&source, &rule.against))).collect();
    let binds =
        found.binds_most.as_ref().map(|rule| words::siting::rule(rule, &name(&source, &rule.against)));
    let closed = found.area.as_ref().map_or_else(Vec::new, |area| closed(job, area, &rules));
    let (good, known) = found.area.as_ref().map_or((0.0, 0.0), open_m2);
    let places = (1..).zip(&found.best).map(|(number, place)| place_text(&source, number, place));
    let texts = |findings: &[crate::finding::Finding]| {
        findings.iter().map(|it| finding_text(it, job.units)).collect()
    };
    SitingReport {
        headline: words::siting::headline(
            found.end,
            &format::area(good + known, job.units),
            known > 0.0,
            found.best.len(),
            binds.as_deref(),
        ),
        caution: words::siting::CAUTION.to_owned(),
        waits_for: texts(&found.waits_for),
        places: places.collect(),
        openings: found.openings.as_ref().map(|tried| openings(&source, tried)),
        closed,
        rules,
        refusals: texts(&found.refusals),
    }
}

fn openings(source: &Source, tried: &SitingOpenings) -> SitingOpeningsText {
    let units = source.units();
    let opened =
        (1..).zip(&tried.opened).map(|(number, SitingOpening { change, rig, place })| SitingOpeningText {
            says: words::siting::opens(&words::siting::change(*change, units)),
            rig: rig.clone(),
            place: place_text(source, number, place),
        });
    let switch = |change| matches!(change, SitingChange::GuyCount { .. } | SitingChange::FallReaches);
    let closed = tried
        .closed
        .iter()
        .map(|change| words::siting::opens_nothing(&words::siting::change(*change, units), switch(*change)));
    SitingOpeningsText {
        opened: opened.collect(),
        opens_nothing: closed.collect(),
        caution: words::siting::OPENING_CAUTION.to_owned(),
    }
}

/// So many reasons are enough to read.
const CLOSED_SHOWN: usize = 6;

/// Ground by the rule that closes it; rules that read alike are one.
fn closed(job: &Job, area: &SitingArea, rules: &[String]) -> Vec<SitingClosed> {
    let mut cells: BTreeMap<&str, u32> = BTreeMap::new();
    for [state, count] in &area.runs {
        let Some(SitingState::Refused { by }) = area.states.get(*state as usize) else { continue };
        let Some(says) = rules.get(*by as usize) else { continue };
        *cells.entry(says).or_default() += count;
    }
    let mut most: Vec<(&str, u32)> = cells.into_iter().collect();
    most.sort_by_key(|(_, count)| std::cmp::Reverse(*count));
    let cell_m2 = area.cell_m * area.cell_m;
    let said = |(says, count): (&str, u32)| SitingClosed {
        says: says.to_owned(),
        area: format::area(f64::from(count) * cell_m2, job.units),
    };
    most.into_iter().take(CLOSED_SHOWN).map(said).collect()
}

/// Ground that is good, and ground that is as far as anybody knows, in square metres.
fn open_m2(area: &SitingArea) -> (f64, f64) {
    let cells = |wanted: &SitingState| -> u32 {
        let is_wanted = |state: u32| area.states.get(state as usize) == Some(wanted);
        area.runs.iter().filter(|[state, _]| is_wanted(*state)).map(|[_, count]| count).sum()
    };
    let cell_m2 = area.cell_m * area.cell_m;
    let of = |state| f64::from(cells(&state)) * cell_m2;
    (of(SitingState::Good), of(SitingState::AsFarAsKnown))
}

fn place_text(source: &Source, number: usize, place: &SitingPlace) -> SitingPlaceText {
    let units = source.units();
    let score = &place.score;
    let mut rows = vec![
        row(Label::PlaceFront, bearing(place.placement.front_bearing_deg)),
        row(Label::PlaceGuyTurn, angle(place.placement.guy_turn_deg, units)),
    ];
    rows.extend(score.least_margin_m.map(|margin_m| row(Label::PlaceMargin, length(margin_m, units))));
    rows.push(row(Label::PlaceFoot, length(score.tallest_foot_m, units)));
    rows.push(row(Label::PlaceFall, count(score.within_fall as usize)));
    SitingPlaceText {
        title: words::siting::place(number, &format::place(place.at_m, units)),
        placement: place.placement.clone(),
        marks: (100.0 * score.total).round() as u32,
        rows,
        findings: place.findings.iter().map(|finding| finding_text(finding, units)).collect(),
    }
}
