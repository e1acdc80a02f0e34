//! What each reading is worth, in words.

use serde::{Deserialize, Serialize};

use super::clearances::{name, pair};
use super::{SectionTitle, Source, format, spread, words};
use crate::finding::Subject;
use crate::job::{Job, Measurement};
use crate::plan::Computed;
use crate::quantity::estimate::Estimate;
use crate::quantity::{Units, format as quantity};
use crate::shares::{BestFurther, ErrorOf, FurtherReading, NumberShares, ReadingShares, SharedOf};

/// So many parts of a ± are named, and none that is less than a twentieth of it; the rest is told together.
const NAMED: usize = 4;
const LEAST_NAMED: f64 = 0.05;

/// How sure each number is, why, and what to read again.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct SharesReport {
    /// The one reading that would help most, in a sentence; that none would is said as well.
    pub headline: String,
    pub best: Option<BestFurtherText>,
    pub sections: Vec<SharesSection>,
    /// What was not looked at; empty where everything was.
    pub left_out: String,
    /// What the shares are shares of, and what they leave out.
    pub means: String,
}

/// The one more reading that would help most.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct BestFurtherText {
    /// What to do.
    pub says: String,
    /// How, with the usual caution.
    pub how: String,
    /// Where that is, where the map can show it.
    pub at: Option<Subject>,
    /// JSON pointer of what to read again.
    pub pointer: Option<String>,
    /// What it does to each number that it helps.
    pub gains: Vec<String>,
}

#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct SharesSection {
    pub title: String,
    pub rows: Vec<SharesRow>,
}

/// One number and what its ± comes from.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct SharesRow {
    pub subject: Subject,
    pub label: String,
    /// With its ±.
    pub value: String,
    pub parts: Vec<SharePartText>,
    /// What would help this number most; empty where nothing would.
    pub further: String,
}

#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct SharePartText {
    pub name: String,
    /// Of the number's variance, from nought to one.
    pub share: f64,
    /// The same in words.
    pub says: String,
    /// Where it is entered; none of setting out, and of all the rest together.
    pub pointer: Option<String>,
}

/// Puts the shares into words.
pub fn shares(job: &Job, computed: &Computed, found: &ReadingShares) -> SharesReport {
    let source = Source { job, computed };
    let best = found.best.as_ref().and_then(|best| best_text(&source, found, best));
    let of_kind = |title: &SectionTitle, is: fn(&SharedOf) -> bool| {
        let numbers = found.numbers.iter().filter(|number| is(&number.of));
        let rows = numbers.map(|number| row(&source, found, number)).collect();
        SharesSection { title: words::title(title), rows }
    };
    let sections = vec![
        of_kind(&SectionTitle::SpreadOfFeet, |of| matches!(of, SharedOf::Foot { .. })),
        of_kind(&SectionTitle::SpreadOfGuys, |of| matches!(of, SharedOf::GuyLength { .. })),
        of_kind(&SectionTitle::SharesOfAnchors, |of| matches!(of, SharedOf::AnchorPlace { .. })),
        of_kind(&SectionTitle::SpreadOfClearances, |of| matches!(of, SharedOf::Distance { .. })),
    ];
    SharesReport {
        headline: match &best {
            Some(best) => words::shares::helps_most(&best.says),
            None if !computed.plan.knows_slope() => words::shares::GROUND_FIRST.to_owned(),
            None if found.numbers.is_empty() => words::shares::NOT_LOOKED_FOR.to_owned(),
            None => words::shares::NOTHING_HELPS.to_owned(),
        },
        best,
        sections: sections.into_iter().filter(|section| !section.rows.is_empty()).collect(),
        left_out: words::shares::left_out(found.left_out),
        means: words::shares::MEANS.to_owned(),
    }
}

fn best_text(source: &Source, found: &ReadingShares, best: &BestFurther) -> Option<BestFurtherText> {
    let reading = found.readings.get(best.reading as usize)?;
    let units = source.units();
    let interval = |metres: f64| format::length_interval(metres, units);
    let gains = best.gains.iter().filter_map(|gain| {
        let number = found.numbers.get(gain.number as usize)?;
        let (before, after) = (interval(gain.before_95_m), interval(gain.after_95_m));
        let (label, _) = label(source, &number.of);
        (before != after).then(|| words::shares::gain(&label, &before, &after))
    });
    let at = match reading {
        FurtherReading::Height { at, .. } => Some(at.clone()),
        FurtherReading::Slope { .. } => Some(Subject::Mast),
        FurtherReading::Tape { .. } | FurtherReading::Again { .. } => None,
    };
    let pointer = match reading {
        FurtherReading::Again { of } => of.pointer(),
        _ => None,
    };
    Some(BestFurtherText {
        says: further(source, reading),
        how: words::shares::how(reading).to_owned(),
        at,
        pointer,
        gains: gains.collect(),
    })
}

fn row(source: &Source, found: &ReadingShares, number: &NumberShares) -> SharesRow {
    let units = source.units();
    let (label, subject) = label(source, &number.of);
    let value = Estimate { value: number.value_m, half_width_95: number.half_width_95_m };
    let named: Vec<_> = number.shares.iter().filter(|it| it.share >= LEAST_NAMED).take(NAMED).collect();
    let rest = 1.0 - named.iter().map(|it| it.share).sum::<f64>();
    let mut parts: Vec<SharePartText> =
        named.into_iter().map(|it| part(error_name(source, &it.of), it.share, it.of.pointer())).collect();
    if !number.shares.is_empty() && rest > 0.005 {
        parts.push(part(words::shares::THE_REST.to_owned(), rest, None));
    }
    let further = number.further.as_ref().and_then(|it| {
        let reading = found.readings.get(it.reading as usize)?;
        let [before, after] = [it.before_95_m, it.after_95_m].map(|m| format::length_interval(m, units));
        (before != after).then(|| words::shares::would(&further(source, reading), &before, &after))
    });
    SharesRow { subject, label, value: said(&value, units), parts, further: further.unwrap_or_default() }
}

fn said(value: &Estimate, units: Units) -> String {
    let length = super::rows::length_95(value, units);
    format!("{} {}", length.words, length.interval).trim_end().to_owned()
}

fn part(name: String, share: f64, pointer: Option<String>) -> SharePartText {
    SharePartText { name, share, says: words::shares::of_hundred(share), pointer }
}

/// What a number is called, and what the map shows of it.
fn label(source: &Source, of: &SharedOf) -> (String, Subject) {
    match of {
        SharedOf::Foot { leg } => (spread::leg_label(source, leg), Subject::Leg { id: leg.clone() }),
        SharedOf::GuyLength { guy } => {
            let subject = Subject::Guy { id: guy.clone() };
            (words::spread::guy_length(&format::capital(&name(source, &subject))), subject)
        }
        SharedOf::AnchorPlace { guy } => {
            let subject = Subject::Guy { id: guy.clone() };
            (words::shares::anchor_place(&format::capital(&name(source, &subject))), subject)
        }
        SharedOf::Distance { work, to, what } => (pair(source, work, to, *what), work.clone()),
    }
}

/// What a reading is called.
fn error_name(source: &Source, of: &ErrorOf) -> String {
    let (job, units) = (source.job, source.units());
    match of {
        ErrorOf::North => words::shares::NORTH.to_owned(),
        ErrorOf::Slope { number, .. } => {
            let read = job.yard.slopes.get(*number as usize);
            let along = read.map(|it| quantity::field("bearing_deg", it.bearing_deg, units));
            words::shares::slope(&along.unwrap_or_default())
        }
        ErrorOf::SpotHeight { number, .. } => words::shares::spot_height(number + 1),
        ErrorOf::Mark { id, .. } => words::shares::mark(id),
        ErrorOf::Measurement { number, .. } => match job.yard.measurements.get(*number as usize) {
            Some(Measurement::Tape { from, to, .. }) => words::shares::tape(from, to),
            Some(Measurement::Bearing { from, to, .. }) => words::shares::bearing(from, to),
            None => String::new(),
        },
        ErrorOf::Point { subject, number, .. } => {
            let alone = matches!(subject, Subject::Obstacle { .. }) && is_at_one_point(job, subject);
            words::shares::point(&name(source, subject), (!alone).then_some(*number))
        }
        ErrorOf::HeightOf { subject, .. } => words::shares::height(&name(source, subject)),
        ErrorOf::Together => words::shares::TOGETHER.to_owned(),
        ErrorOf::SetOutMast => words::shares::PEG_MAST.to_owned(),
        ErrorOf::SetOutTurn => words::shares::TURN_BASE.to_owned(),
        ErrorOf::SetOutAnchor { guy } => {
            words::shares::peg_anchor(&name(source, &Subject::Guy { id: guy.clone() }))
        }
    }
}

fn is_at_one_point(job: &Job, subject: &Subject) -> bool {
    let Subject::Obstacle { id } = subject else { return false };
    let thing = job.yard.obstacles.iter().find(|it| it.id == *id);
    thing.is_some_and(|it| it.shape.points().0 == "at")
}

/// What to read, as something to do.
fn further(source: &Source, reading: &FurtherReading) -> String {
    let units = source.units();
    match reading {
        FurtherReading::Slope { reading_deg, .. } => {
            words::shares::read_slope(&quantity::field("bearing_deg", reading_deg.round(), units))
        }
        FurtherReading::Height { at: Subject::Leg { id }, .. } => words::shares::read_height_under(id),
        FurtherReading::Height { at, .. } => words::shares::read_height_at(&name(source, at)),
        FurtherReading::Tape { from, to } => words::shares::read_tape(from, to),
        FurtherReading::Again { of } => words::shares::read_again(&error_name(source, of)),
    }
}
