//! What the limit has to say: what is not shown, and where it is too low.

use super::types::{DirectionLimit, GustLimit, PartKind, UnshownPart};
use crate::finding::{Finding, Quantity, Severity, Subject};
use crate::job::Job;
use crate::source::SourceKey;
use crate::structure::ModelError;

/// Everything to be said of a limit.
pub fn all(limit: &GustLimit, job: &Job) -> Vec<Finding> {
    let mut found = Vec::new();
    // Parts with one reason are told of together.
    let mut told: Vec<&str> = Vec::new();
    for part in &limit.not_shown {
        if !told.contains(&part.reason.as_str()) {
            told.push(&part.reason);
            found.push(not_shown(part, limit));
        }
    }
    if let Some(least) = &limit.raised.least {
        found.extend(too_low(least, job));
    }
    if job.rig.tubes.iter().any(|tube| tube.yield_mpa.is_none()) {
        found.push(yield_assumed());
    }
    found
}

fn not_shown(part: &UnshownPart, limit: &GustLimit) -> Finding {
    let alike: Vec<&str> = limit
        .not_shown
        .iter()
        .filter(|other| other.reason == part.reason)
        .map(|other| other.part.name.as_str())
        .collect();
    let pull = limit.proof_pulls.iter().map(|it| it.pull.load_n).fold(0.0, f64::max);
    let is_anchor = part.part.kind == PartKind::Anchor;
    Finding {
        severity: Severity::Unchecked,
        rule: "limit_part_not_shown".into(),
        subject: part.part.guy.as_ref().map_or(Subject::Mast, |id| Subject::Guy { id: id.clone() }),
        against: None,
        sentence: format!(
            "Not in the gust limit, because nobody can show that it holds: {}. {}",
            alike.join(", "),
            part.reason
        ),
        measured: None,
        measured_half_width_95: None,
        limit: (is_anchor && pull > 0.0).then_some(Quantity::ForceN { value: pull }),
        source: if is_anchor { SourceKey::IllinoisTies } else { SourceKey::CommonPractice },
        remedy: if is_anchor {
            "Make the proof pull of the load given, on every anchor, or set anchors whose hold can be shown."
                .into()
        } else {
            "Find out what is missing; until then the limit holds only if this part does.".into()
        },
    }
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

fn yield_assumed() -> Finding {
    Finding {
        severity: Severity::Note,
        rule: "tube_yield_assumed".into(),
        subject: Subject::Mast,
        against: None,
        sentence: "The tubes' yield is not known: that of plain mild steel is taken, 205 MPa.".into(),
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
