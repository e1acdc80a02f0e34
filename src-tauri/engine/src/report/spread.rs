//! What a simulation found, in words, with a small picture for each number.

use serde::{Deserialize, Serialize};

use super::clearances::pair;
use super::rows::{self, Cell};
use super::{SectionTitle, Source, format, words};
use crate::finding::Subject;
use crate::job::Job;
use crate::plan::{Computed, Support};
use crate::quantity::Units;
use crate::quantity::estimate::Estimate;
use crate::spread::{ClearanceSpread, FootSpread, GuySpread, Spread, YardSpread};

/// A clearance that fails in fewer draws than this is not counted as in danger.
const RARELY: f64 = 0.001;
/// So many of the clearances that hold are listed too: the tightest.
const HOLDING_SHOWN: usize = 4;

/// How sure the plan's numbers are, for people.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct SpreadReport {
    /// The whole in one or two sentences.
    pub headline: String,
    pub sections: Vec<SpreadSection>,
}

/// Numbers of one kind.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct SpreadSection {
    /// `feet`, `guys`, `clearances`.
    pub id: String,
    pub title: String,
    pub rows: Vec<SpreadRow>,
    /// What is not in the rows, in words; empty where everything is.
    pub rest: String,
}

/// One number of the plan and how it came out in the yards drawn.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct SpreadRow {
    pub subject: Subject,
    pub label: String,
    /// As planned, with its interval where the plan gives one.
    pub planned: String,
    pub planned_cell: Cell,
    /// What a distance has to keep.
    pub needed_m: Option<f64>,
    /// Between what it came out.
    pub drawn: String,
    /// Between what it came out in 95 of 100 draws; none where it was not followed.
    pub drawn_m: Option<[f64; 2]>,
    /// What that means.
    pub verdict: String,
    pub outcome: SpreadOutcome,
    /// Whether something is too near often enough to act on.
    pub fails: bool,
    pub picture: Option<SpreadPicture>,
}

/// How a number came out in the yards drawn.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
#[serde(tag = "kind", rename_all = "snake_case")]
pub enum SpreadOutcome {
    /// Within the plan's own interval, in this share of them.
    Within {
        share: f64,
    },
    /// The plan gives no interval to hold it against.
    NoInterval,
    /// They touch as planned: not followed further.
    Touching,
    /// Too near, in this share of them.
    TooNear {
        share: f64,
    },
    FarEnough,
}

/// A histogram with what was planned, laid out from 0 (left) to 1 (right).
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct SpreadPicture {
    /// Heights of bars of equal width, the tallest 1.
    pub bars: Vec<f64>,
    /// From where to where the bars go.
    pub bars_across: [f64; 2],
    /// 95 % of the draws.
    pub drawn: [f64; 2],
    /// The plan's 95 % interval, where it gives one.
    pub planned: Option<[f64; 2]>,
    /// Left of here it is too near.
    pub limit: Option<f64>,
    /// What the ends of the picture stand for.
    pub left: String,
    pub right: String,
}

/// Puts what a simulation found into words and numbers in the user's units.
pub fn spread(job: &Job, computed: &Computed, found: &YardSpread) -> SpreadReport {
    let source = Source { job, computed };
    let sections = vec![feet(&source, found), guys(&source, found), clearances(&source, found)];
    SpreadReport { headline: headline(found), sections }
}

fn headline(found: &YardSpread) -> String {
    let drawn = format!("{} yards were drawn, each as yours may really be", thousands(found.draws));
    let failing = found.clearances.iter().filter(|it| it.share_failing >= RARELY).count();
    let stopped = if found.stopped { words::spread::STOPPED } else { "" };
    let what = match (failing, found.clearances.len()) {
        (_, 0) => "there is nothing to be too near to".to_owned(),
        (0, all) => format!("all {all} distances are kept in at least 999 of 1,000 of them"),
        (1, all) => format!("1 of {all} distances is too short in some of them"),
        (some, all) => format!("{some} of {all} distances are too short in some of them"),
    };
    format!("{drawn}; {what}.{stopped}")
}

fn feet(source: &Source, found: &YardSpread) -> SpreadSection {
    let row = |foot: &FootSpread| {
        let leg = source.computed.plan.base.legs.iter().find(|leg| leg.id == foot.leg)?;
        let label = leg_label(source, &foot.leg);
        let subject = Subject::Leg { id: foot.leg.clone() };
        Some(length_row(source.units(), subject, label, leg.gap_centre_m, &foot.gap_m, foot.share_in_plan))
    };
    let rows = found.feet.iter().filter_map(row).collect();
    SpreadSection {
        id: "feet".into(),
        title: words::title(&SectionTitle::SpreadOfFeet),
        rows,
        rest: String::new(),
    }
}

/// What the height under a leg's tip is called.
pub(super) fn leg_label(source: &Source, leg: &str) -> String {
    let found = source.computed.plan.base.legs.iter().find(|it| it.id == leg);
    let what = match found.map(|leg| leg.support) {
        Some(Support::OnGround) | None => "gap under its tip",
        Some(Support::Shim) => "shims",
        Some(Support::Foot) => "foot",
    };
    format!("{} leg: {what}", format::capital(leg))
}

fn guys(source: &Source, found: &YardSpread) -> SpreadSection {
    let row = |spread: &GuySpread| {
        let guy = source.computed.plan.guys.iter().find(|guy| guy.id == spread.id)?;
        let label = words::spread::guy_length(&guy.name);
        let subject = Subject::Guy { id: guy.id.clone() };
        Some(length_row(
            source.units(),
            subject,
            label,
            guy.unstressed_m,
            &spread.unstressed_m,
            spread.share_in_plan,
        ))
    };
    let rows = found.guys.iter().filter_map(row).collect();
    SpreadSection {
        id: "guys".into(),
        title: words::title(&SectionTitle::SpreadOfGuys),
        rows,
        rest: String::new(),
    }
}

fn length_row(
    units: Units,
    subject: Subject,
    label: String,
    planned: Estimate,
    spread: &Spread,
    share_in_plan: f64,
) -> SpreadRow {
    let said = rows::length_95(&planned, units);
    let interval = said.interval;
    let outcome = if interval.is_empty() {
        SpreadOutcome::NoInterval
    } else {
        SpreadOutcome::Within { share: share_in_plan }
    };
    let span = [planned.value - planned.half_width_95, planned.value + planned.half_width_95];
    SpreadRow {
        subject,
        label,
        planned: format!("{} {interval}", said.words).trim_end().to_owned(),
        planned_cell: said.cell,
        needed_m: None,
        drawn: between(spread, units),
        drawn_m: Some([spread.low, spread.high]),
        verdict: verdict(outcome, &interval),
        outcome,
        fails: false,
        picture: Some(picture(spread, Some(span), None, units)),
    }
}

fn clearances(source: &Source, found: &YardSpread) -> SpreadSection {
    let mut all: Vec<&ClearanceSpread> = found.clearances.iter().collect();
    let tightest = |it: &ClearanceSpread| it.margin_m.as_ref().map_or(f64::NEG_INFINITY, |margin| margin.low);
    all.sort_by(|a, b| b.share_failing.total_cmp(&a.share_failing).then(tightest(a).total_cmp(&tightest(b))));
    let failing = all.iter().take_while(|it| it.share_failing >= RARELY).count();
    let shown = (failing + HOLDING_SHOWN).min(all.len());
    let rows = all.iter().take(shown).map(|it| clearance_row(source, it)).collect();
    let rest = words::spread::not_shown(all.len() - shown);
    SpreadSection {
        id: "clearances".into(),
        title: words::title(&SectionTitle::SpreadOfClearances),
        rows,
        rest,
    }
}

fn clearance_row(source: &Source, it: &ClearanceSpread) -> SpreadRow {
    let units = source.units();
    let fails = it.share_failing >= RARELY;
    let outcome = match &it.margin_m {
        None => SpreadOutcome::Touching,
        Some(_) if it.share_failing > 0.0 => SpreadOutcome::TooNear { share: it.share_failing },
        Some(_) => SpreadOutcome::FarEnough,
    };
    let distance = |margin: f64| it.needed_m + margin;
    SpreadRow {
        subject: it.work.clone(),
        label: pair(source, &it.work, &it.to, it.what),
        planned: format!(
            "{}, needed at least {}",
            format::length(it.planned_m, units),
            format::length(it.needed_m, units)
        ),
        planned_cell: rows::length(it.planned_m, units).cell,
        needed_m: Some(it.needed_m),
        drawn: it
            .margin_m
            .as_ref()
            .map_or_else(String::new, |margin| between_m(distance(margin.low), distance(margin.high), units)),
        drawn_m: it.margin_m.as_ref().map(|margin| [margin.low, margin.high].map(distance)),
        verdict: verdict(outcome, ""),
        outcome,
        fails,
        picture: it.margin_m.as_ref().map(|margin| {
            let mut shifted = margin.clone();
            for value in
                [&mut shifted.low, &mut shifted.high, &mut shifted.histogram.from, &mut shifted.histogram.to]
            {
                *value += it.needed_m;
            }
            picture(&shifted, None, Some(it.needed_m), units)
        }),
    }
}

/// What an outcome means; the interval as it was planned.
fn verdict(outcome: SpreadOutcome, interval: &str) -> String {
    match outcome {
        SpreadOutcome::Within { share } => words::spread::within(interval, &yards(share)),
        SpreadOutcome::NoInterval => String::new(),
        SpreadOutcome::Touching => words::spread::TOUCHING.into(),
        SpreadOutcome::TooNear { share } => words::spread::too_near(&yards(share)),
        SpreadOutcome::FarEnough => words::spread::FAR_ENOUGH.into(),
    }
}

/// The frame holds all bars and the plan's interval; a limit only where it lies within or just beside them.
fn picture(spread: &Spread, planned: Option<[f64; 2]>, limit: Option<f64>, units: Units) -> SpreadPicture {
    let bars = &spread.histogram;
    let [mut from, mut to] =
        planned.map_or([bars.from, bars.to], |[low, high]| [low.min(bars.from), high.max(bars.to)]);
    let near = to - from;
    if let Some(limit) = limit.filter(|limit| *limit > from - near && *limit < to + near) {
        (from, to) = (from.min(limit), to.max(limit));
    }
    // Draws that do not differ still want a frame to stand in: a millimetre.
    let margin = (0.04 * (to - from)).max(0.0005);
    (from, to) = (from - margin, to + margin);
    let place = |value: f64| (value - from) / (to - from);
    let tallest = f64::from(bars.counts.iter().copied().max().unwrap_or(1).max(1));
    SpreadPicture {
        bars: bars.counts.iter().map(|count| f64::from(*count) / tallest).collect(),
        bars_across: [place(bars.from), place(bars.to)],
        drawn: [place(spread.low), place(spread.high)],
        planned: planned.map(|span| span.map(place)),
        limit: limit.map(place).filter(|at| (0.0..=1.0).contains(at)),
        left: format::length(from, units),
        right: format::length(to, units),
    }
}

fn between(spread: &Spread, units: Units) -> String {
    between_m(spread.low, spread.high, units)
}

fn between_m(low_m: f64, high_m: f64, units: Units) -> String {
    let (low, high) = (format::length(low_m, units), format::length(high_m, units));
    if low == high {
        format!("{low} in 95 of 100 yards")
    } else {
        format!("{low} to {high} in 95 of 100 yards")
    }
}

/// A share in words: of a hundred yards, or of a thousand where it is small.
fn yards(share: f64) -> String {
    if share <= 0.0 {
        "no yard drawn".to_owned()
    } else if share < 0.001 {
        "fewer than 1 yard of 1,000".to_owned()
    } else if share < 0.0095 {
        format!("{:.0} of 1,000 yards", share * 1000.0)
    } else if share >= 1.0 {
        "every yard drawn".to_owned()
    } else if share > 0.995 {
        "more than 99 of 100 yards".to_owned()
    } else {
        format!("{:.0} of 100 yards", share * 100.0)
    }
}

/// `10,000`.
fn thousands(count: u32) -> String {
    let (thousands, rest) = (count / 1000, count % 1000);
    if thousands == 0 { rest.to_string() } else { format!("{thousands},{rest:03}") }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::demo::yardstick;
    use crate::plan::compute;
    use crate::quantity::UnitSystem;
    use crate::spread::yard_spread;

    fn demo_in(system: UnitSystem) -> SpreadReport {
        let mut job = yardstick();
        job.units.system = system;
        let found = yard_spread(&job, 1000, 3, &mut |_| true).unwrap();
        spread(&job, &compute(&job).unwrap(), &found)
    }

    #[test]
    fn shares_are_said_as_people_count() {
        let check = |share: f64, words: &str| assert_eq!(yards(share), words);
        check(0.0, "no yard drawn");
        check(0.0002, "fewer than 1 yard of 1,000");
        check(0.004, "4 of 1,000 yards");
        check(0.0096, "1 of 100 yards");
        check(0.37, "37 of 100 yards");
        check(0.9991, "more than 99 of 100 yards");
        check(1.0, "every yard drawn");
        assert_eq!((thousands(250), thousands(10_000)), ("250".to_owned(), "10,000".to_owned()));
    }

    #[test]
    fn every_foot_and_guy_has_a_row_and_the_clearances_come_worst_first() {
        let job = yardstick();
        let plan = compute(&job).unwrap().plan;
        let report = demo_in(UnitSystem::Metric);
        let [feet, guys, clearances] = report.sections.as_slice() else { panic!("three sections") };
        assert_eq!((feet.rows.len(), guys.rows.len()), (plan.base.legs.len(), plan.guys.len()));
        assert!(clearances.rows.first().is_some_and(|row| row.fails), "the demo's mast stands badly");
        assert!(clearances.rows.is_sorted_by_key(|row| !row.fails));
        let others = plan.clearances.len() - clearances.rows.len();
        assert!(clearances.rest.starts_with(&others.to_string()), "{}", clearances.rest);
    }

    /// Cells are the numbers of the plan and of the draws, whatever the units of the words beside them.
    #[test]
    fn what_was_planned_and_drawn_stands_beside_its_words() {
        let plan = compute(&yardstick()).unwrap().plan;
        for system in [UnitSystem::Metric, UnitSystem::Imperial] {
            let report = demo_in(system);
            let foot = &report.sections[0].rows[0];
            let planned =
                plan.base.legs.iter().find(|leg| Subject::Leg { id: leg.id.clone() } == foot.subject);
            let planned = planned.unwrap().gap_centre_m;
            let quantity = crate::finding::Quantity::LengthM { value: planned.value };
            let half_width_95 = Some(planned.half_width_95);
            assert_eq!(foot.planned_cell, Cell::Quantity { quantity, half_width_95 });
            let rows = report.sections.iter().flat_map(|section| &section.rows);
            for row in rows {
                assert!(row.drawn_m.is_none_or(|[low, high]| low <= high));
                assert_eq!(row.drawn_m.is_none(), row.outcome == SpreadOutcome::Touching);
                let share = match row.outcome {
                    SpreadOutcome::TooNear { share } => share,
                    _ => 0.0,
                };
                assert_eq!(row.fails, share >= RARELY || row.outcome == SpreadOutcome::Touching, "{row:?}");
            }
        }
    }

    #[test]
    fn pictures_stay_in_their_frame() {
        for system in [UnitSystem::Metric, UnitSystem::Imperial] {
            let report = demo_in(system);
            let rows = report.sections.iter().flat_map(|section| &section.rows);
            for picture in rows.filter_map(|row| row.picture.as_ref()) {
                assert!(picture.bars.contains(&1.0));
                let places =
                    picture.bars_across.iter().chain(&picture.drawn).chain(picture.planned.iter().flatten());
                assert!(places.chain(&picture.limit).all(|at| (0.0..=1.0).contains(at)), "{picture:?}");
            }
            let unit = if system == UnitSystem::Metric { "m" } else { "\"" };
            assert!(report.sections[0].rows[0].planned.contains(unit));
        }
    }
}
