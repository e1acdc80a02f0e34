//! What the limit has to say beside its numbers: where it is too low, and what was assumed.

use super::air::CountedAs;
use super::types::{DirectionLimit, WindCapacity};
use crate::finding::wind::{NotCounted, WindRemedy, WindRule};
use crate::finding::{Finding, Limit, Quantity, Severity, Subject};
use crate::job::{Job, WhenLowered};
use crate::structure::ModelError;

/// Everything to be said of a limit.
pub fn all(limit: &WindCapacity, job: &Job) -> Vec<Finding> {
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
    let severity = if nothing { Severity::Stop } else { Severity::Caution };
    let part = least.weakest.as_ref().map(|part| part.name.clone());
    let rule = WindRule::LimitBelowAskedGust { part, even_in_still_air: nothing };
    (nothing || least.gust_m_per_s < asked).then(|| Finding {
        measured: Some(Quantity::SpeedMPerS { value: least.gust_m_per_s }),
        limit: Limit::at_least(Quantity::SpeedMPerS { value: asked }),
        ..Finding::rule_of_thumb(severity, rule, Subject::Mast, WindRemedy::ChangeOrLower)
    })
}

/// How the guys are made fast when the mast is run down: the limit run down rests on it.
fn guys_when_lowered(limit: &WindCapacity) -> impl Iterator<Item = Finding> + '_ {
    limit.guys_run_down.iter().filter_map(|guys| {
        let (made_fast, remedy) = match guys.how {
            // It stands among what is missing.
            WhenLowered::Unsaid => return None,
            WhenLowered::MadeFast => (true, WindRemedy::StandsWithWhenToAct),
            WhenLowered::Left => (false, WindRemedy::MakeThemFastAgain),
        };
        Some(note(WindRule::GuysWhenLowered { guys: guys.name.clone(), made_fast }, remedy))
    })
}

/// Houses or wood all round that count for nothing, with what they would need to.
fn terrain_not_counted(limit: &WindCapacity) -> Option<Finding> {
    let (because, remedy) = match limit.ground.counted {
        CountedAs::OpenForShortFetch => (NotCounted::ShortFetch, WindRemedy::SayHowFar),
        CountedAs::OpenForLocalGust => (NotCounted::LocalGust, WindRemedy::SayIfForOpenCountry),
        CountedAs::AsSaid | CountedAs::BuiltOrWooded => return None,
    };
    let note = note(WindRule::TerrainNotCounted { because }, remedy);
    Some(Finding { source: limit.ground.source, ..note })
}

fn note(rule: WindRule, remedy: WindRemedy) -> Finding {
    Finding::rule_of_thumb(Severity::Note, rule, Subject::Mast, remedy)
}

fn yield_assumed() -> Finding {
    note(WindRule::TubeYieldAssumed, WindRemedy::EnterYield)
}

/// The mast can't be made a structure of.
pub fn no_structure(error: &ModelError) -> Finding {
    let rule = WindRule::LimitNotFound { error: error.to_string() };
    Finding::rule_of_thumb(Severity::Stop, rule, Subject::Mast, WindRemedy::PutRightWhatIsNamed)
}
