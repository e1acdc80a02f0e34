//! The plan as sections of rows in the words and units of the user: what the command line prints and the
//! screens show. Numbers are put into words here and nowhere else.

mod as_built;
mod base;
mod calls;
pub mod capture;
mod cards;
mod circles;
mod clearances;
mod findings;
pub(crate) mod format;
mod ground;
mod guys;
mod headline;
mod imported;
mod label;
mod lights;
mod log;
mod mast;
mod next_year;
mod north;
mod pegging;
mod pegs;
mod plumbing;
mod raising;
mod rigs;
mod ring;
mod rows;
mod season;
mod section_title;
mod seen;
mod shares;
mod shopping;
mod siting;
mod spread;
mod tensions;
mod terminal;
pub mod verdict;
mod walked;
pub mod wind;
pub(crate) mod words;
mod workshop;

pub use calls::{CallText, CallsReport, calls};
pub use cards::{
    CardFirstUpText, CardForceRow, CardForcesText, CardPhaseText, CardPicture, CardStanding, CardStopText,
    CardTeamRow, CardsReport, StepCardText, cards,
};
pub use circles::{BigNumber, CircleText, CirclesReport, circles};
pub use findings::finding_text;
pub use headline::NOT_MEASURED;
pub use imported::imported;
pub use label::Label;
pub use lights::{LightsReport, LightsStanding, lights};
pub use log::{Fate, LogDay, LogLine, LogText, LogThing, log_counts, log_plain, log_text};
pub use next_year::{
    MarkTapeText, MarkWatchedText, PackChoreText, PackItemText, PackingReport, SamePlaceReport, packing,
    same_place,
};
pub use pegging::{CheckTapeText, PegOutReport, PegStepText, PegTapeText, PegTiesText, pegging};
pub use plumbing::{FootText, Move, PlumbWords, plumb_state, plumb_sways, plumb_words};
pub use raising::{
    RaiseAngleText, RaiseGuyText, RaiseMoveText, RaiseNearText, RaiseOrderReport, RaiseReport,
    RaiseSectorText, RaiseStepText, RaiseWayText, raise_order, raising,
};
pub(crate) use raising::{own_way, raise_caution};
pub use rigs::{RigOfferText, RigsReport, rigs};
pub use rows::{Answer, Cell};
pub use season::{
    SeasonChangeText, SeasonGuyText, SeasonItemText, SeasonListText, SeasonMendText, SeasonReport,
    SeasonRoundText, season, season_reminder,
};
pub use section_title::SectionTitle;
pub use seen::{ViewReport, ViewThingText, view};
pub use shares::{BestFurtherText, SharePartText, SharesReport, SharesRow, SharesSection, shares};
pub use shopping::{
    AisleText, BarCutText, BarText, CutLotText, CutPieceText, CutState, ItemText, ShoppingReport, UsualText,
    WorkStepText, shopping, shopping_csv,
};
pub use siting::{
    SitingClosed, SitingMarkText, SitingOpeningText, SitingOpeningsText, SitingPatternText,
    SitingPatternsText, SitingPlaceText, SitingReport, siting,
};
pub use spread::{SpreadOutcome, SpreadPicture, SpreadReport, SpreadRow, SpreadSection, spread};
pub use tensions::{
    RingPicture, RingReport, TensionGuyText, TensionLevelText, TensionReadingText, TensionsReport, ring,
    tensions,
};
pub use terminal::{
    calls_text, cards_text, check_text, circles_text, cut_text, lights_text, packing_text, peg_out_text,
    raising_text, rigs_text, ring_text, same_place_text, season_list_text, season_text, shares_text,
    shop_text, siting_text, spread_text, tensions_text, text, view_text, workshop_text,
};
pub use walked::walked;
pub use words::{DiskRefusal, bearing_how, cautions, disk_refusal, north_from};
pub use workshop::{WorkCard, WorkFigure, WorkMeasured, WorkPage, WorkshopReport, workshop};

use serde::{Deserialize, Serialize};

use crate::finding::{Severity, Subject};
use crate::job::{Job, Terrain};
use crate::plan::Computed;
use crate::quantity::Units;
use crate::source::Confidence;
use crate::verdict::Verdict;
use crate::wind_capacity::MissingEntry;

/// A whole report.
#[derive(Debug, Clone, Default, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct Report {
    /// The first few numbers anybody wants.
    pub headline: Vec<Row>,
    /// What is known of the ground in half a sentence, for a page that shows no rows.
    pub ground_so_far: String,
    /// Every spot height against the first mark, in the order of the job.
    pub spot_heights: Vec<String>,
    pub sections: Vec<ReportSection>,
    pub findings: Vec<FindingText>,
}

/// Rows under one heading.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS), ts(rename = "ReportSection"))]
pub struct ReportSection {
    /// Stable id: `missing`, `ground`, `mast`, `base`, `guy`, `as_built`, `peg`, `clearance`, `ring`.
    pub id: String,
    pub title: String,
    pub subject: Option<Subject>,
    pub rows: Vec<Row>,
    /// The usual caution for this part of the work; empty where none is needed.
    pub caution: String,
}

/// One value with its name.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct Row {
    /// Stable id within the section, such as `foot_centre`: that of the key.
    pub id: String,
    /// What it is about.
    #[serde(skip)]
    pub key: Label,
    /// The key in words.
    pub label: String,
    /// In the user's unit and fraction.
    pub value: String,
    /// `± …` where the interval matters, else empty.
    pub interval: String,
    /// What the value is.
    pub cell: Cell,
    /// By whose rule it is, where one stands behind it.
    pub source: Option<RowSource>,
}

/// Whose rule stands behind a value.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct RowSource {
    pub citation: String,
    /// How sure it is that the source says so.
    pub confidence: Confidence,
    /// What must hold for the value to be true; empty where the rule says nothing of that.
    pub conditions: String,
}

/// A finding in words.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct FindingText {
    pub severity: Severity,
    pub rule: String,
    pub subject: Subject,
    pub against: Option<Subject>,
    pub sentence: String,
    /// `measured 0.42 m ± 0.05 m, needed at least 0.60 m`; empty where there is no number.
    pub numbers: String,
    pub source: String,
    /// How sure it is that the source says so.
    pub confidence: Confidence,
    pub remedy: String,
    /// It was not there before pegging out: what stands brings it.
    pub new_since_pegged: bool,
}

/// What every section is written from.
struct Source<'a> {
    job: &'a Job,
    computed: &'a Computed,
}

impl Source<'_> {
    fn units(&self) -> Units {
        self.job.units
    }
}

/// Puts a computed plan into words and numbers in the user's units.
pub fn report(job: &Job, computed: &Computed) -> Report {
    let source = Source { job, computed };
    let mut sections: Vec<ReportSection> =
        verdict::missing(missing_in(computed), job.units.system).into_iter().collect();
    sections.extend([ground::section(&source), north::section(&source), mast::section(&source)]);
    sections.extend(base::sections(&source));
    sections.extend(guys::sections(&source));
    sections.extend(as_built::sections(&source));
    sections.extend(ring::section(&source));
    sections.extend(pegs::sections(&source));
    sections.extend(clearances::section(&source));
    // Only then is something asked about it.
    if job.wind.terrain == Terrain::BuiltOrWooded {
        sections.push(wind::ground_upwind(job));
    }
    let (ground_so_far, spot_heights) = (ground::so_far(&source), ground::spot_heights(job));
    Report {
        headline: headline::rows(&source),
        ground_so_far,
        spot_heights,
        sections,
        findings: findings::texts(&source),
    }
}

fn missing_in(computed: &Computed) -> &[MissingEntry] {
    computed.plan.verdict.as_ref().map_or(&[], Verdict::missing)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::drawing::sample::sample;
    use crate::finding::guys::{GuyRemedy, GuyRule};
    use crate::finding::{Finding, Limit, Quantity};
    use crate::quantity::UnitSystem;

    fn value<'a>(report: &'a Report, section: &str, subject: Option<&Subject>, row: &str) -> &'a Row {
        let of = |s: &&ReportSection| s.id == section && (subject.is_none() || s.subject.as_ref() == subject);
        let section = report.sections.iter().find(of).expect("section");
        section.rows.iter().find(|r| r.id == row).expect("row")
    }

    /// A fresh yard is level by default, not by measurement: 0 would be sawn to.
    #[test]
    fn on_ground_that_nobody_measured_no_foot_has_a_height() {
        let mut job = crate::job::blank(Units { system: UnitSystem::Metric, inch_fraction: 16 });
        let said = |job: &Job| {
            let report = report(job, &crate::plan::compute(job).unwrap());
            let base = report.sections.iter().find(|section| section.id == "base").unwrap().clone();
            (report.headline[0].value.clone(), base.rows)
        };
        let (foot, rows) = said(&job);
        assert_eq!(foot, NOT_MEASURED);
        assert!(rows.iter().all(|row| !row.id.starts_with("foot")), "{rows:?}");
        let slope = |id: &str, bearing_deg| crate::job::SlopeReading {
            id: id.into(),
            bearing_deg,
            slope_deg: 4.0,
            sigma_deg: None,
            struck: false,
        };
        job.yard.slopes = vec![slope("a", 0.0), slope("b", 90.0)];
        assert_ne!(said(&job).0, NOT_MEASURED);
    }

    #[test]
    fn the_front_foot_reads_in_the_users_unit() {
        let front = Subject::Leg { id: "front".into() };
        for (system, shown) in [(UnitSystem::Metric, "151 mm"), (UnitSystem::Imperial, "5 15/16\"")] {
            let (job, computed) = sample(system);
            let report = report(&job, &computed);
            // 0.151 m = 5.945 in: 95.1 sixteenths.
            assert_eq!(value(&report, "base", Some(&front), "foot_centre").value, shown);
            assert_eq!(report.headline[0].value, shown);
        }
    }

    #[test]
    fn a_tie_names_its_side_in_words() {
        let (job, computed) = sample(UnitSystem::Metric);
        let report = report(&job, &computed);
        let subject = Subject::Guy { id: "upper-1".into() };
        assert_eq!(value(&report, "peg", Some(&subject), "side").value, "left of the line A → B");
    }

    #[test]
    fn a_source_from_memory_says_so() {
        let (job, computed) = sample(UnitSystem::Metric);
        let texts = report(&job, &computed).findings;
        assert_eq!(texts[0].numbers, "found 420 mm ± 50 mm, needed at least 600 mm: 180 mm too little");
        assert!(!texts[0].source.contains("from memory"), "{}", texts[0].source);
        assert_eq!(texts[0].confidence, Confidence::FromMemory);
    }

    #[test]
    fn two_lengths_that_the_tape_shows_alike_are_shown_finer() {
        let gap = |value: f64, limit: f64| {
            let measured = Some(Quantity::LengthM { value });
            let limit = Limit::at_least(Quantity::LengthM { value: limit });
            let (rule, remedy) = (GuyRule::Steep, GuyRemedy::AnchorFartherOut);
            let finding = Finding::rule_of_thumb(Severity::Caution, rule, Subject::Mast, remedy);
            Finding { measured, limit, ..finding }
        };
        let imperial = Units { system: UnitSystem::Imperial, inch_fraction: 16 };
        let metric = Units { system: UnitSystem::Metric, inch_fraction: 16 };
        // 3.1 mm and 3.3 mm are both 1/8" at the nearest sixteenth, and 3 mm.
        let numbers = |units| finding_text(&gap(0.0031, 0.0033), units).numbers;
        assert_eq!(numbers(metric), "found 3.1 mm, needed at least 3.3 mm: 0.2 mm too little");
        let words = numbers(imperial);
        assert!(
            words.starts_with("found 0.122\", needed at least 0.13") && words.ends_with(" too little"),
            "{words}"
        );
        assert!(!finding_text(&gap(0.5, 0.3), metric).numbers.contains("too little"));
    }

    #[test]
    fn a_reading_is_called_by_its_kind_not_by_its_id() {
        let job = crate::demo::lantern_green();
        let computed = crate::plan::compute(&job).unwrap();
        let words = text(&report(&job, &computed));
        for id in
            job.yard.slopes.iter().map(|one| &one.id).chain(job.yard.spot_heights.iter().map(|one| &one.id))
        {
            assert!(!words.contains(&format!(" {id}:")), "{id}");
        }
        assert!(words.contains("slope reading ") || words.contains("spot height "), "{words}");
    }

    #[test]
    fn dangerous_work_carries_its_caution() {
        let (job, computed) = sample(UnitSystem::Metric);
        let report = report(&job, &computed);
        let cautions = |id: &str| {
            report.sections.iter().filter(|s| s.id == id).map(|s| s.caution.clone()).collect::<String>()
        };
        assert!(cautions("clearance").contains("power line"));
        assert!(cautions("guy").contains("buried"));
        assert!(cautions("mast").contains("climb"));
    }

    /// Lower ground is below, not above by less than nothing.
    #[test]
    fn a_spot_height_is_said_from_the_first_mark() {
        let mut job = crate::demo::lantern_green();
        job.units.system = UnitSystem::Metric;
        let heights = [-1.816, 0.0, 0.25];
        for (spot, height_m) in job.yard.spot_heights.iter_mut().zip(heights) {
            spot.height_m = height_m;
        }
        let said = report(&job, &crate::plan::compute(&job).unwrap()).spot_heights;
        assert_eq!(said.len(), job.yard.spot_heights.len());
        let expected =
            ["1.816 m below the first mark", "Level with the first mark", "250 mm above the first mark"];
        assert_eq!(said[..3], expected);
    }

    #[test]
    fn row_ids_are_unique_in_each_section() {
        let (job, computed) = sample(UnitSystem::Metric);
        for section in report(&job, &computed).sections {
            let mut ids: Vec<_> = section.rows.iter().map(|r| r.id.clone()).collect();
            ids.sort();
            let count = ids.len();
            ids.dedup();
            assert_eq!(ids.len(), count, "{}", section.title);
        }
    }
}
