//! What has to be there before each phase begins.

use super::Making;
use crate::cards::card::{Card, CardMissing, CardNumber, CardPhase, CardStand, CardValue, NumberOf};
use crate::cards::prepare::{PhaseGust, PhasePrepared, PhaseStop, PhaseWays, Tool, WaysLooked, YardPeople};
use crate::finding::{Finding, Severity};
use crate::lifting::{GustFound, ONE_PULLS_N, hands, line};

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
    if matches!(phase, CardPhase::Raise | CardPhase::LayDown) {
        if let WaysLooked::NoneClear { degrees } = making.looked {
            stops.push(PhaseStop::NoWayClear { degrees });
        }
        stops.extend(too_few(making));
        stops.extend(by_forces(making));
    }
    let gust = gust(making, phase);
    stops.extend(gust.as_ref().filter(|_| goes_up(phase)).and_then(forecast_too_strong));
    stops.extend(too_late(making, phase));
    let mut missing: Vec<CardMissing> = own
        .iter()
        .flat_map(|card| [&card.number].into_iter().chain(&card.more))
        .filter_map(|it| it.missing)
        .collect();
    if matches!(phase, CardPhase::Raise | CardPhase::LayDown) && making.way.is_none() {
        missing.push(CardMissing::HowItTurnsUp);
    }
    missing.extend(gusts(making, phase).flat_map(|it| &it.missing).map(|it| super::forces::missing(*it)));
    missing.sort_unstable();
    missing.dedup();
    let lifting = matches!(phase, CardPhase::Raise | CardPhase::LayDown);
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
        around: lifting.then(|| PhaseWays {
            own_clear: making.way.as_ref().map(|way| way.clear),
            looked: making.looked,
        }),
        gust,
    }
}

/// Whoever is told who calls is told with how many: as many as the card of the same phase takes that takes most. So a card and the
/// list before its phase cannot differ.
pub(super) fn count_people(cards: &mut [Card]) {
    for phase in CardPhase::ALL {
        let own: Vec<&Card> = cards.iter().filter(|card| card.phase == phase).collect();
        let Some(value) = most_at_once(&own) else { continue };
        for card in cards.iter_mut().filter(|card| card.phase == phase) {
            // One card without anybody on it is no count: nobody has said how it turns.
            if card.number.what == NumberOf::PeopleNeeded && value > 0 {
                card.number = CardNumber::known(NumberOf::PeopleNeeded, CardValue::Count { value });
            }
        }
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
        CardPhase::Raise | CardPhase::LayDown => making.way_findings.iter().collect(),
        CardPhase::Crank | CardPhase::Lower => {
            making.bench.stages.findings.iter().chain(&making.bench.lift.findings).collect()
        }
        CardPhase::Lights => making.lighting.iter().flat_map(|lights| &lights.findings).collect(),
    }
}

/// Nobody has named anybody: then the number of people is told and nothing is refused.
fn too_few(making: &Making) -> Option<PhaseStop> {
    let (tilt, named) = (making.tilt()?, u32::from(making.job.cards.lifters?));
    let (force_n, together_n, needed) = match &tilt.line {
        Some(pull) => (pull.pull_n, f64::from(named) * ONE_PULLS_N, line::people(pull.pull_n)?),
        None => {
            let force_n = tilt.hardest.force_n;
            (force_n, hands::team_n(named), hands::people(force_n)?)
        }
    };
    let by_line = tilt.line.is_some();
    (named < needed).then_some(PhaseStop::TooFewHands { force_n, together_n, named, needed, by_line })
}

/// What foot, hinge and tubes do not bear.
fn by_forces(making: &Making) -> Vec<PhaseStop> {
    let Some(tilt) = making.tilt() else { return Vec::new() };
    let mut stops = Vec::new();
    if tilt.line.as_ref().is_some_and(|pull| line::people(pull.pull_n).is_none()) {
        return vec![PhaseStop::LineHasNoLever];
    }
    let force_n = tilt.hardest.force_n;
    if tilt.line.is_none() && hands::people(force_n).is_none() {
        let (people, together_n) = (hands::MOST_IN_A_TEAM, hands::team_n(hands::MOST_IN_A_TEAM));
        stops.push(PhaseStop::TooHeavyForHands { force_n, together_n, people });
    }
    if let (Some(holds_n), Some(source)) = (tilt.kick.holds_n, tilt.kick.source)
        && tilt.kick.most_n > holds_n
    {
        stops.push(PhaseStop::KicksOut { away_n: tilt.kick.most_n, holds_n, source });
    }
    let lifted = tilt.hinge_lifts.map(|it| PhaseStop::HingeLifts { lifts_n: it.most_n, at_deg: it.at_deg });
    stops.extend(lifted);
    let bent = tilt.bend.as_ref().filter(|bend| bend.utilisation > 1.0);
    stops.extend(
        bent.map(|bend| PhaseStop::TubeBends { tube: bend.tube.clone(), percent: 100.0 * bend.utilisation }),
    );
    stops
}

/// The gusts of a phase: through the tilt, or at every stage.
fn gusts<'a>(making: &'a Making, phase: CardPhase) -> impl Iterator<Item = &'a GustFound> {
    let lifting = &making.lifting;
    let tilt = matches!(phase, CardPhase::Raise | CardPhase::LayDown).then_some(&lifting.tilt_gust);
    let stages =
        lifting.stage_gusts.iter().filter(move |_| matches!(phase, CardPhase::Crank | CardPhase::Lower));
    tilt.into_iter().chain(stages.map(|stage| &stage.found))
}

/// The least gust of a phase; not known where one of them is not.
fn gust(making: &Making, phase: CardPhase) -> Option<PhaseGust> {
    let all: Vec<&GustFound> = gusts(making, phase).collect();
    if all.is_empty() {
        return None;
    }
    let known: Option<Vec<_>> = all.into_iter().map(|found| found.limit.as_ref()).collect();
    let least =
        known.and_then(|all| all.into_iter().min_by(|a, b| a.gust_m_per_s.total_cmp(&b.gust_m_per_s)));
    let limit_m_per_s = least.map(|least| least.gust_m_per_s);
    Some(PhaseGust {
        limit_m_per_s,
        begin_m_per_s: limit_m_per_s.map(|limit| super::forces::begins(making, limit)),
        margin_percent: making.job.wind.margin_percent,
        by: least.map(|least| least.by.clone()),
        forecast_m_per_s: making.job.cards.forecast_gust_m_per_s,
    })
}

/// Coming down is what a forecast gust asks for: it stops what goes up.
fn goes_up(phase: CardPhase) -> bool {
    matches!(phase, CardPhase::Raise | CardPhase::Crank)
}

/// What is begun and not finished when the gust comes is worse than what stands.
fn too_late(making: &Making, phase: CardPhase) -> Option<PhaseStop> {
    let cards = &making.job.cards;
    let time = match phase {
        CardPhase::Lower => &cards.lower_rehearsed,
        CardPhase::LayDown => &cards.lay_down_rehearsed,
        _ => return None,
    };
    let [takes_minutes, left_minutes] = super::rehearsed::too_long(making, time)?;
    let keep_off_m = making.plan.mast.fall_radius_m;
    Some(PhaseStop::TooLate { takes_minutes, left_minutes, keep_off_m })
}

fn forecast_too_strong(gust: &PhaseGust) -> Option<PhaseStop> {
    let (forecast_m_per_s, begin_m_per_s) = gust.forecast_m_per_s.zip(gust.begin_m_per_s)?;
    (forecast_m_per_s > begin_m_per_s).then_some(PhaseStop::GustForecast { forecast_m_per_s, begin_m_per_s })
}

/// Common practice.
fn tools(phase: CardPhase) -> Vec<Tool> {
    use Tool::*;
    match phase {
        CardPhase::Base => vec![Gloves, Glasses, Tape, SpiritLevel, Saw, Shims, Mallet],
        CardPhase::Raise | CardPhase::LayDown => {
            vec![WindForecast, Helmets, Gloves, Glasses, Mallet, SpareStakes, SpareLine, Pins, Tape]
        }
        CardPhase::Crank | CardPhase::Lower => {
            vec![WindForecast, Helmets, Gloves, CrankAndStrap, Pins, StandForPins, Oil, SpareLine]
        }
        CardPhase::Lights => vec![Gloves, Tape, Ties, Mallet, Tester, ResidualCurrentDevice],
    }
}
