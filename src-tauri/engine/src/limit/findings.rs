//! What the limit has to say beside its numbers: where it is too low, and what was assumed.

use super::air::CountedAs;
use super::types::{DirectionLimit, GustLimit};
use crate::finding::{Finding, Quantity, Severity, Subject};
use crate::job::{Job, WhenLowered};
use crate::source::SourceKey;
use crate::structure::ModelError;

/// Everything to be said of a limit.
pub fn all(limit: &GustLimit, job: &Job) -> Vec<Finding> {
    let mut found = Vec::new();
    let falls = limit.findings.iter().any(|finding| finding.severity == Severity::Stop);
    if let Some(least) = limit.raised.least.as_ref().filter(|_| !falls) {
        found.extend(too_low(least, job));
    }
    found.extend(guys_when_lowered(limit));
    found.extend(terrain_not_counted(limit));
    if job.rig.tubes.iter().any(|tube| tube.yield_mpa.is_none()) {
        found.push(yield_assumed());
    }
    found
}

fn too_low(least: &DirectionLimit, job: &Job) -> Option<Finding> {
    let asked = job.wind.asked_gust_m_per_s;
    let nothing = least.gust_m_per_s <= 0.0;
    (nothing || least.gust_m_per_s < asked).then(|| {
        let part = least.weakest.as_ref().map_or("the mast", |part| part.name.as_str());
        let sentence = if nothing {
            format!("Even in still air more than it may carry rests on: {part}.")
        } else {
            format!(
                "The mast is not shown to take the gust that you ask for; the first to be fully used: {part}."
            )
        };
        Finding {
            severity: if nothing { Severity::Stop } else { Severity::Caution },
            rule: "limit_below_asked_gust".into(),
            subject: Subject::Mast,
            against: None,
            sentence,
            measured: Some(Quantity::SpeedMPerS { value: least.gust_m_per_s }),
            measured_half_width_95: None,
            limit: Some(Quantity::SpeedMPerS { value: asked }),
            source: SourceKey::CommonPractice,
            remedy: "Look at what to change first, or lower the mast in good time.".into(),
        }
    })
}

/// How the guys are made fast when the mast is run down: the limit run down rests on it.
fn guys_when_lowered(limit: &GustLimit) -> impl Iterator<Item = Finding> + '_ {
    limit.guys_run_down.iter().filter_map(|guys| {
        let (sentence, remedy) = match guys.how {
            // It stands among what is missing.
            WhenLowered::Unsaid => return None,
            WhenLowered::MadeFast => (
                format!(
                    "The limit of the mast run down counts on this: the guys of {} are made fast again where their \
                     collar then is, and tightened as they were.",
                    guys.name
                ),
                "Height and tension stand with when to act. If you will not do that, say so in the guys' settings: they \
                 are then taken to hang slack.",
            ),
            WhenLowered::Left => (
                format!("When the mast is run down the guys of {} hang slack: they are left as they are.", guys.name),
                "Make them fast again where their collar then is, and tighten them: then the lowered mast is held.",
            ),
        };
        Some(Finding::by_habit(Severity::Note, "guys_when_lowered", Subject::Mast, &sentence, remedy))
    })
}

/// Houses or wood all round that count for nothing, with what they would need to.
fn terrain_not_counted(limit: &GustLimit) -> Option<Finding> {
    let (sentence, remedy) = match limit.ground.counted {
        CountedAs::OpenForShortFetch => (
            "Houses or wood all round are not counted: nobody has said that they reach far enough on every side. Open \
             ground is taken, where the wind is stronger.",
            "Say on the page of the wind how far it is like that.",
        ),
        CountedAs::OpenForLocalGust => (
            "Houses or wood all round are not counted: a gust of a forecast or station for this place is already one for \
             its own ground, and nothing may be taken off twice.",
            "Only if you will go by a gust told for open country, such as an airport's, say so on the page of the wind.",
        ),
        CountedAs::AsSaid | CountedAs::BuiltOrWooded => return None,
    };
    let note = Finding::by_habit(Severity::Note, "terrain_not_counted", Subject::Mast, sentence, remedy);
    Some(Finding { source: limit.ground.source, ..note })
}

fn yield_assumed() -> Finding {
    Finding {
        severity: Severity::Note,
        rule: "tube_yield_assumed".into(),
        subject: Subject::Mast,
        against: None,
        sentence: "The tubes' yield is not known: the least of their kind is taken.".into(),
        measured: None,
        measured_half_width_95: None,
        limit: None,
        source: SourceKey::CommonPractice,
        remedy: "Enter the yield strength from the tube's papers, if there are any.".into(),
    }
}

/// The mast can't be made a structure of.
pub fn no_structure(error: &ModelError) -> Finding {
    Finding {
        severity: Severity::Stop,
        rule: "limit_not_found".into(),
        subject: Subject::Mast,
        against: None,
        sentence: format!("No gust limit could be found: {error}."),
        measured: None,
        measured_half_width_95: None,
        limit: None,
        source: SourceKey::CommonPractice,
        remedy: "Put right what is named; the other findings of the plan may say more.".into(),
    }
}
