//! What has to be there before each phase begins.

use super::Making;
use crate::cards::card::{Card, CardMissing, CardPhase, CardStand};
use crate::cards::hands;
use crate::cards::prepare::{PhasePrepared, PhaseStop, Tool, YardPeople};
use crate::finding::{Finding, Severity};

pub(super) fn prepared(making: &Making, cards: &[Card]) -> Vec<PhasePrepared> {
    let has = |phase: &CardPhase| cards.iter().any(|card| card.phase == *phase);
    CardPhase::ALL.into_iter().filter(has).map(|phase| one(making, cards, phase)).collect()
}

fn one(making: &Making, cards: &[Card], phase: CardPhase) -> PhasePrepared {
    let own: Vec<&Card> = cards.iter().filter(|card| card.phase == phase).collect();
    let findings = findings(making, phase);
    let of = |severity: Severity| findings.iter().filter(move |it| it.severity == severity);
    let mut stops: Vec<PhaseStop> = of(Severity::Stop)
        .map(|finding| PhaseStop::Found { finding: Box::new((*finding).clone()) })
        .collect();
    if phase == CardPhase::Raise {
        stops.extend(too_few(making));
    }
    let mut missing: Vec<CardMissing> = own
        .iter()
        .flat_map(|card| [&card.number].into_iter().chain(&card.more))
        .filter_map(|it| it.missing)
        .collect();
    if phase == CardPhase::Raise && making.way.is_none() {
        missing.push(CardMissing::HowItTurnsUp);
    }
    missing.sort_unstable();
    missing.dedup();
    let lifting = phase == CardPhase::Raise;
    PhasePrepared {
        phase,
        tools: tools(phase),
        people: YardPeople {
            at_least: most_at_once(&own),
            lifting: lifting.then(|| super::raise::lifters(making)).flatten(),
        },
        stops,
        not_known: of(Severity::Unchecked).map(|finding| (*finding).clone()).collect(),
        missing,
        gust_not_known: matches!(phase, CardPhase::Raise | CardPhase::Crank),
    }
}

/// None where one card does not know.
fn most_at_once(cards: &[&Card]) -> Option<u32> {
    let here =
        |stand: &&CardStand| !matches!(stand.place, crate::cards::card::StandPlace::OutsideTheFall { .. });
    let on_one = |card: &&Card| -> Option<u32> { card.stands.iter().filter(here).map(|it| it.people).sum() };
    let all: Option<Vec<u32>> = cards.iter().map(on_one).collect();
    all?.into_iter().max()
}

/// What the plan says of a phase.
fn findings<'a>(making: &'a Making, phase: CardPhase) -> Vec<&'a Finding> {
    match phase {
        CardPhase::Base => making.plan.findings.iter().chain(&making.bench.base.findings).collect(),
        CardPhase::Raise => making.way_findings.iter().collect(),
        CardPhase::Crank => making.bench.stages.findings.iter().chain(&making.bench.lift.findings).collect(),
        CardPhase::Lights => Vec::new(),
    }
}

/// Nobody has named anybody: then the number of people is told and nothing is refused.
fn too_few(making: &Making) -> Option<PhaseStop> {
    let (push, named) = (making.hardest?, u32::from(making.job.cards.lifters?));
    let needed = hands::people(push.force_n);
    (named < needed).then_some(PhaseStop::TooFewHands {
        force_n: push.force_n,
        one_person_n: hands::ONE_PERSON_N,
        named,
        needed,
    })
}

/// Common practice.
fn tools(phase: CardPhase) -> Vec<Tool> {
    use Tool::*;
    match phase {
        CardPhase::Base => vec![Gloves, Glasses, Tape, SpiritLevel, Saw, Shims, Mallet],
        CardPhase::Raise => {
            vec![WindForecast, Helmets, Gloves, Glasses, Mallet, SpareStakes, SpareLine, Pins, Tape]
        }
        CardPhase::Crank => {
            vec![WindForecast, Helmets, Gloves, CrankAndStrap, Pins, StandForPins, Oil, SpareLine]
        }
        CardPhase::Lights => vec![Gloves, Tape, Ties, Mallet, Tester, ResidualCurrentDevice],
    }
}
