//! The guide from peg to peg in words.

use serde::Serialize;

use super::clearances::name;
use super::pegs::side_words;
use super::rows::{self, row};
use super::words::{cautions, pegging as say};
use super::{Label, Row, Source, format};
use crate::finding::Subject;
use crate::job::Job;
use crate::pegging::{
    Blunder, CheckTape, Driven, IntoGround, PegChecked, PegOutGuide, PegStep, StakeOutState, StakeOutTest,
    Tolerance,
};
use crate::plan::{Computed, SwingTies};
use crate::quantity::Units;

/// The guide, for people.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct PegOutReport {
    pub headline: String,
    /// In the order of pegging out.
    pub steps: Vec<PegStepText>,
    pub checks: Vec<CheckTapeText>,
    /// What the tapes say of the whole.
    pub says: String,
    /// What may be wrong, the likeliest first, a sentence each.
    pub suspects: Vec<String>,
    /// What to do about it.
    pub remedies: Vec<String>,
    /// Something speaks against the stake-out.
    pub doubted: bool,
    pub caution: String,
}

/// A peg in words.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct PegStepText {
    pub key: String,
    pub subject: Subject,
    pub name: String,
    pub stage: String,
    pub done: bool,
    pub as_built: bool,
    /// The two tapes that set it; none where no pair serves.
    pub ties: Option<PegTiesText>,
    /// One tape with a bearing.
    pub tape: Option<PegTapeText>,
    /// True bearing along that tape, for a compass that points.
    pub bearing_deg: Option<f64>,
    pub tolerance: String,
    pub tolerance_why: String,
    /// Empty where its tapes reach well enough.
    pub measure_after: String,
    /// What goes into the ground; none for a peg that only marks a place.
    pub into_ground: Vec<Row>,
    pub caution: String,
    pub checked: PegChecked,
    pub checked_says: String,
    pub rows: Vec<Row>,
}

/// One tape with a bearing, in words.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct PegTapeText {
    pub from: String,
    pub tape: String,
    pub interval: String,
    pub reading: String,
    pub height: String,
}

/// Two tapes in words.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct PegTiesText {
    pub from_a: String,
    pub tape_a: String,
    pub interval_a: String,
    pub from_b: String,
    pub tape_b: String,
    pub interval_b: String,
    pub side: String,
    pub crossing: String,
    pub good: bool,
}

/// A check tape in words.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct CheckTapeText {
    pub id: String,
    pub from: String,
    pub to: String,
    pub name: String,
    pub expected: String,
    pub interval: String,
    /// Empty where it was not read yet.
    pub read: String,
    pub off: String,
}

/// Puts a guide into words. `computed` is the plan that it is of.
pub fn pegging(job: &Job, computed: &Computed, guide: &PegOutGuide) -> PegOutReport {
    let told = Told { units: job.units, guide, source: Source { job, computed } };
    let set = guide.steps.iter().filter(|step| step.done).count();
    let way = |metres| format::length_short(metres, job.units);
    let test = &guide.test;
    PegOutReport {
        headline: say::headline(guide.steps.len(), set, &way(guide.walk_m), &way(guide.listed_walk_m)),
        steps: guide.steps.iter().map(|step| told.step(step)).collect(),
        checks: guide.checks.iter().map(|tape| told.check(tape)).collect(),
        says: told.says(),
        suspects: test.suspects.iter().map(|suspect| told.blunder(&suspect.blunder)).collect(),
        remedies: told.remedies(test),
        doubted: matches!(
            test.state,
            StakeOutState::Named | StakeOutState::OneOfSeveral | StakeOutState::Unexplained
        ),
        caution: say::CAUTION.to_owned(),
    }
}

struct Told<'a> {
    units: Units,
    guide: &'a PegOutGuide,
    source: Source<'a>,
}

impl Told<'_> {
    /// What a point is called within a sentence.
    fn name(&self, key: &str) -> String {
        if let Some(mark) = key.strip_prefix("mark:") {
            return say::mark(mark);
        }
        let step = self.guide.steps.iter().find(|step| step.key == key);
        step.map_or_else(|| key.to_owned(), |step| say::peg(&step.name))
    }

    fn step(&self, step: &PegStep) -> PegStepText {
        let ties = step.ties.as_ref();
        let far = step.tolerance.landing_m.filter(|landing_m| *landing_m > step.tolerance.off_m);
        let far = far.filter(|_| !step.as_built);
        let mut rows = self.tape_rows(step);
        rows.extend(ties.iter().flat_map(|ties| self.tie_rows(&ties.ties)));
        rows.push(row(Label::PegOff, rows::length(step.tolerance.off_m, self.units)));
        let into_ground = step.into_ground.as_ref();
        let into_ground = into_ground.map_or_else(Vec::new, |it| self.ground_rows(it));
        rows.extend(into_ground.iter().cloned());
        PegStepText {
            key: step.key.clone(),
            subject: step.subject.clone(),
            name: step.name.clone(),
            stage: say::stage(step.stage).to_owned(),
            done: step.done,
            as_built: step.as_built,
            ties: ties.map(|ties| PegTiesText {
                from_a: self.name(&ties.ties.mark_a),
                tape_a: format::length(ties.ties.tape_a_m, self.units),
                interval_a: format::length_interval(ties.half_width_a_m, self.units),
                from_b: self.name(&ties.ties.mark_b),
                tape_b: format::length(ties.ties.tape_b_m, self.units),
                interval_b: format::length_interval(ties.half_width_b_m, self.units),
                side: side_words(&self.named(&ties.ties)),
                crossing: format::angle(ties.ties.crossing_deg),
                good: ties.ties.good,
            }),
            tape: step.from.as_ref().map(|from| PegTapeText {
                from: self.name(&from.key),
                tape: format::length(from.tape_m.value, self.units),
                interval: format::length_interval(from.tape_m.half_width_95, self.units),
                reading: format::bearing(from.reading_deg),
                height: format::up_or_down(from.height_difference_m, self.units),
            }),
            bearing_deg: step.from.as_ref().map(|from| from.bearing_deg),
            tolerance: format::length(step.tolerance.off_m, self.units),
            tolerance_why: self.why(&step.tolerance),
            measure_after: far.map_or_else(String::new, |landing_m| {
                say::measure_after(&format::length(landing_m, self.units), as_built_takes(&step.key))
            }),
            caution: self.caution(step),
            into_ground,
            checked: step.checked,
            checked_says: say::checked(step.checked, step.check_covers).to_owned(),
            rows,
        }
    }

    /// The ties with their points called as people do.
    fn named(&self, ties: &SwingTies) -> SwingTies {
        SwingTies { mark_a: self.name(&ties.mark_a), mark_b: self.name(&ties.mark_b), ..ties.clone() }
    }

    fn tape_rows(&self, step: &PegStep) -> Vec<Row> {
        let Some(from) = &step.from else { return Vec::new() };
        vec![
            row(Label::PegTapeFrom { from: self.name(&from.key) }, rows::length_95(&from.tape_m, self.units)),
            row(Label::PegReading, rows::bearing(from.reading_deg)),
            row(Label::PegRise, format::up_or_down(from.height_difference_m, self.units)),
        ]
    }

    fn tie_rows(&self, ties: &SwingTies) -> Vec<Row> {
        let named = self.named(ties);
        vec![
            row(Label::TieFromFirst { mark: named.mark_a.clone() }, rows::length(ties.tape_a_m, self.units)),
            row(Label::TieFromSecond { mark: named.mark_b.clone() }, rows::length(ties.tape_b_m, self.units)),
            row(Label::TieSide, side_words(&named)),
            row(Label::TiesCross, say::crossing(&format::angle(ties.crossing_deg), ties.good)),
        ]
    }

    fn ground_rows(&self, it: &IntoGround) -> Vec<Row> {
        let mut all = vec![row(Label::PegDriven, say::driven(it.what))];
        if let Some(depth_m) = it.depth_m.filter(|_| it.what != Driven::Ballast) {
            all.push(row(Label::PegDepth, rows::length(depth_m, self.units)));
        } else if matches!(it.what, Driven::NotChosen | Driven::Screw) {
            all.push(row(Label::PegDepth, say::NOBODY_SAID));
        }
        if let Some(height_m) = it.above_ground_m {
            all.push(row(Label::PegAboveGround, rows::length(height_m, self.units)));
        }
        if let Some(batter_deg) = it.batter_deg {
            let toward = it.leans_reading_deg.map(format::bearing);
            let words = say::batter(it.what, &format::angle(batter_deg), toward.as_deref());
            all.push(row(Label::PegBatter, words));
        }
        if let (Some(reading_deg), Some(rises_deg)) = (it.pull_reading_deg, it.pull_rises_deg) {
            let words = say::pull(&format::bearing(reading_deg), &format::angle(rises_deg));
            all.push(row(Label::PegPull, words));
        }
        all
    }

    fn caution(&self, step: &PegStep) -> String {
        match step.into_ground.as_ref().map(|it| it.what) {
            None | Some(Driven::Ballast) => String::new(),
            Some(Driven::Fixing) => say::FIXING.to_owned(),
            Some(Driven::FixingOnTree) => say::FIXING_ON_TREE.to_owned(),
            Some(what) => format!("{} {}", cautions::DIGGING, say::driving(what)),
        }
    }

    fn why(&self, tolerance: &Tolerance) -> String {
        let about = |subject: &Subject| name(&self.source, subject);
        let guy = |id: &str| {
            let guys = &self.source.computed.plan.guys;
            guys.iter().find(|guy| guy.id == id).map_or_else(|| id.to_owned(), |guy| guy.name.clone())
        };
        say::tolerance(&tolerance.by, &about, &guy, self.units)
    }

    fn check(&self, tape: &CheckTape) -> CheckTapeText {
        let off = tape.off_m.map_or_else(String::new, |off_m| {
            let length = format::length(off_m.abs(), self.units);
            say::off(&length, length == format::length(0.0, self.units), off_m > 0.0)
        });
        CheckTapeText {
            id: tape.id.clone(),
            from: tape.from.clone(),
            to: tape.to.clone(),
            name: say::between(&self.name(&tape.from), &self.name(&tape.to)),
            expected: format::length(tape.expected_m.value, self.units),
            interval: format::length_interval(tape.expected_m.half_width_95, self.units),
            read: tape.read_m.map_or_else(String::new, |read_m| format::length(read_m, self.units)),
            off,
        }
    }

    fn says(&self) -> String {
        let test = &self.guide.test;
        let covered = self.guide.steps.iter().filter(|step| step.checked == PegChecked::Agrees).count();
        say::test(test.state, test.read, covered, self.guide.steps.len(), test.more_than_one)
    }

    fn blunder(&self, blunder: &Blunder) -> String {
        let sized = |by_m: f64| {
            (format::length(by_m.abs(), self.units), by_m > 0.0, say::like(by_m, self.units.system))
        };
        match blunder {
            Blunder::Swapped { peg } => {
                let (a, b) = self.tied(peg);
                say::swapped(&self.name(peg), &a, &b)
            }
            Blunder::WrongSide { peg } => {
                let (a, b) = self.tied(peg);
                say::wrong_side(&self.name(peg), &a, &b)
            }
            Blunder::TieOff { peg, from, by_m } => {
                let (by, long, like) = sized(*by_m);
                say::tie_off(&self.name(peg), &self.name(from), &by, long, like)
            }
            Blunder::TapeOff { tape, by_m } => {
                let (by, long, like) = sized(*by_m);
                say::tape_off(&self.tape_name(tape), &by, long, like)
            }
        }
    }

    fn tied(&self, peg: &str) -> (String, String) {
        let step = self.guide.steps.iter().find(|step| step.key == peg);
        let ties = step.and_then(|step| step.ties.as_ref());
        ties.map_or_else(Default::default, |it| (self.name(&it.ties.mark_a), self.name(&it.ties.mark_b)))
    }

    fn tape_name(&self, id: &str) -> String {
        let tape = self.guide.checks.iter().find(|tape| tape.id == id);
        tape.map_or_else(|| id.to_owned(), |it| say::between(&self.name(&it.from), &self.name(&it.to)))
    }

    fn remedies(&self, test: &StakeOutTest) -> Vec<String> {
        let mut all = Vec::new();
        if let Some([from, to]) = &test.measure_next {
            let known = self
                .guide
                .checks
                .iter()
                .any(|tape| tape.read_m.is_some() && [&tape.from, &tape.to] == [from, to]);
            all.push(say::measure_next(&say::between(&self.name(from), &self.name(to)), known));
        }
        let peg = test.suspects.first().and_then(|suspect| suspect.blunder.peg());
        if let Some(peg) = peg.filter(|_| test.state == StakeOutState::Named) {
            all.push(say::set_again(&self.name(peg), as_built_takes(peg)));
        }
        if test.state == StakeOutState::Unexplained || test.more_than_one {
            all.push(say::READ_ALL_AGAIN.to_owned());
        }
        all.extend(test.without_peg.iter().map(|id| say::without_peg(id)));
        all
    }
}

/// What stands elsewhere may be taken over as it stands.
fn as_built_takes(peg: &str) -> bool {
    peg == "mast" || peg.starts_with("guy:")
}
