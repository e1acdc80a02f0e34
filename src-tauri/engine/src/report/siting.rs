//! Where the mast can stand, in words.

use std::collections::BTreeMap;

use serde::Serialize;

use super::clearances::name;
use super::rows::{angle, bearing, count, length, row};
use super::{FindingText, Label, Row, Source, finding_text, format, wind, words};
use crate::job::{Job, Placement, Rig};
use crate::plan::Computed;
use crate::siting::{
    Siting, SitingArea, SitingChange, SitingMark, SitingMerit, SitingOpening, SitingOpenings, SitingPattern,
    SitingPatterns, SitingPlace, SitingState, SitingWayUp,
};
use crate::wind_capacity::air;

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
    /// What other patterns of guys open.
    pub patterns: Option<SitingPatternsText>,
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

/// What other patterns of guys open.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct SitingPatternsText {
    /// In the order of the patterns tried: what the map says where one opens a place, and where it may.
    pub here: Vec<[String; 2]>,
    /// Those that open places.
    pub opening: Vec<SitingPatternText>,
    /// Of the others, a sentence each.
    pub opens_nothing: Vec<String>,
    pub caution: String,
}

/// A pattern of guys that opens places.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct SitingPatternText {
    /// The letter that stands for it on the map.
    pub sign: String,
    /// Its number among the patterns tried.
    pub number: u32,
    /// The change alone, for a key.
    pub change: String,
    pub says: String,
    /// The parts as they are in its best place.
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
    /// Marks out of a hundred; what is not known adds nothing.
    pub marks: u32,
    /// So many more of the hundred nobody knows.
    pub not_known: u32,
    /// Both in words.
    pub marks_say: String,
    pub counted: Vec<SitingMarkText>,
    pub rows: Vec<Row>,
    pub findings: Vec<FindingText>,
}

/// One mark of a place in words.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct SitingMarkText {
    pub merit: SitingMerit,
    pub label: String,
    /// `counts 2`.
    pub weighs: String,
    /// `74 of 100`, or that it is not known yet and what is missing.
    pub says: String,
    pub known: bool,
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
    let places =
        (1..).zip(&found.best).map(|(number, place)| place_text(&source, &number.to_string(), place));
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
        patterns: found.area.as_ref().zip(found.patterns.as_ref()).map(|it| patterns(&source, it.0, it.1)),
        closed,
        rules,
        refusals: texts(&found.refusals),
    }
}

fn said(source: &Source, change: SitingChange) -> String {
    let thing = match change {
        SitingChange::GuyToThing { thing } => source.job.yard.obstacles.get(thing as usize),
        _ => None,
    };
    words::siting::change(change, thing.map(|thing| thing.name.as_str()), source.units())
}

fn openings(source: &Source, tried: &SitingOpenings) -> SitingOpeningsText {
    let opened =
        (1..).zip(&tried.opened).map(|(number, SitingOpening { change, rig, place })| SitingOpeningText {
            says: words::siting::opens(&said(source, *change)),
            rig: rig.clone(),
            place: place_text(source, &number.to_string(), place),
        });
    let switch = |change| {
        use SitingChange::{FallReaches, GuyCount, GuyToThing};
        matches!(change, GuyCount { .. } | GuyToThing { .. } | FallReaches)
    };
    let closed = tried
        .closed
        .iter()
        .map(|change| words::siting::opens_nothing(&said(source, *change), switch(*change)));
    SitingOpeningsText {
        opened: opened.collect(),
        opens_nothing: closed.collect(),
        caution: words::siting::OPENING_CAUTION.to_owned(),
    }
}

fn patterns(source: &Source, area: &SitingArea, found: &SitingPatterns) -> SitingPatternsText {
    let units = source.units();
    let ground = |cells: u32| format::area(f64::from(cells) * area.cell_m * area.cell_m, units);
    let change = |it: &SitingPattern| said(source, it.change);
    let may = |it: &SitingPattern| (it.may_open_cells > 0).then(|| ground(it.may_open_cells));
    let mut text = SitingPatternsText {
        here: Vec::new(),
        opening: Vec::new(),
        opens_nothing: Vec::new(),
        caution: words::siting::OPENING_CAUTION.to_owned(),
    };
    for (number, it) in (0..).zip(&found.tried) {
        let (sign, change, may) = (sign(number), change(it), may(it));
        text.here.push([true, false].map(|accepted| words::siting::pattern_here(&sign, &change, accepted)));
        match &it.best {
            Some(SitingOpening { rig, place, .. }) => text.opening.push(SitingPatternText {
                says: words::siting::pattern_opens(&change, &ground(it.opens_cells), may.as_deref()),
                place: place_text(source, &sign, place),
                sign,
                number,
                change,
                rig: rig.clone(),
            }),
            None => text.opens_nothing.push(words::siting::pattern_opens_nothing(&change, may.as_deref())),
        }
    }
    text
}

/// A, B, C …
fn sign(number: u32) -> String {
    char::from_u32('A' as u32 + number % 26).map_or_else(String::new, String::from)
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

fn place_text(source: &Source, sign: &str, place: &SitingPlace) -> SitingPlaceText {
    let units = source.units();
    let score = &place.score;
    let mut rows = vec![
        row(Label::PlaceFront, bearing(place.placement.front_bearing_deg)),
        row(Label::PlaceGuyTurn, angle(place.placement.guy_turn_deg, units)),
    ];
    rows.extend(score.least_margin_m.map(|margin_m| row(Label::PlaceMargin, length(margin_m, units))));
    rows.push(row(Label::PlaceFoot, length(score.tallest_foot_m, units)));
    rows.push(row(Label::PlaceFall, count(score.within_fall as usize)));
    rows.extend(score.gust_limit.clone().map(|least| {
        let told = wind::told_for(air::ground(source.job).counted);
        row(Label::PlaceGust, wind::least_in_words(&Some(least), units, told))
    }));
    rows.extend(score.cone_shows.map(|share| row(Label::PlaceShows, words::siting::of_hundred(share))));
    rows.extend(score.walk_m.map(|walk_m| row(Label::PlaceWalk, length(walk_m, units))));
    rows.push(way_up(place.way_up));
    let [marks, not_known] = [score.total, score.not_known].map(|share| (100.0 * share).round() as u32);
    SitingPlaceText {
        title: words::siting::place(sign, &format::place(place.at_m, units)),
        placement: place.placement.clone(),
        marks,
        not_known,
        marks_say: words::siting::marks(marks, not_known),
        counted: score.marks.iter().map(mark_text).collect(),
        rows,
        findings: place.findings.iter().map(|finding| finding_text(finding, units)).collect(),
    }
}

fn way_up(way_up: SitingWayUp) -> Row {
    match way_up {
        SitingWayUp::Clear { lies_toward_deg } => row(Label::PlaceWayUp, bearing(lies_toward_deg)),
        SitingWayUp::NotLookedAt => row(Label::PlaceWayUp, words::siting::WAY_UP_NOT_LOOKED_AT),
        SitingWayUp::NotSaid => row(Label::PlaceWayUp, words::siting::WAY_UP_NOT_SAID),
        SitingWayUp::NoneClear { looked_at } => row(Label::PlaceWayUp, words::siting::no_way_up(looked_at)),
    }
}

fn mark_text(mark: &SitingMark) -> SitingMarkText {
    let missing = mark.unknown.as_ref().map(words::siting::unknown).unwrap_or_default();
    let not_known = || words::siting::not_known(&missing);
    SitingMarkText {
        merit: mark.merit,
        label: words::siting::merit(mark.merit).to_owned(),
        weighs: words::siting::weighs(mark.weight),
        says: mark.mark.map_or_else(not_known, words::siting::of_hundred),
        known: mark.mark.is_some(),
    }
}
