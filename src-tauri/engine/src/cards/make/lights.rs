//! Strands and ring: tested on the ground, hung before the tubes go up, tied to the ring at the end.

use super::{Making, card, count, length};
use crate::cards::card::CardPhase::{Crank, Lights};
use crate::cards::card::*;
use crate::cards::state::{NeedWhy, YardState};
use crate::lighting::NumberedStrand;
use crate::numerics::vector::{norm, subtract};
use crate::workshop::circle;

/// Nothing without strands.
pub(super) fn cards(making: &Making) -> Vec<Card> {
    let (Some(_), Some(_)) = (&making.job.rig.strands, &making.plan.ring) else { return Vec::new() };
    vec![
        lay_ring(making),
        hold_ring(making),
        tie_lower_ends(making),
        set_strands(making),
        lay_lead(making),
        switch_on(making),
    ]
}

fn strands(making: &Making) -> usize {
    making.job.rig.strands.as_ref().map_or(0, |strands| usize::from(strands.count))
}

pub(super) fn longest(making: &Making) -> Option<f64> {
    let ring = making.plan.ring.as_ref()?;
    ring.strand_lengths_m.iter().copied().reduce(f64::max)
}

pub(super) fn test(making: &Making, phase: CardPhase) -> Card {
    let number = CardNumber::known(NumberOf::Strands, count(strands(making)));
    card(phase, "lights:test", CardKind::TestStrands, number)
        .gives([YardState::StrandsTested])
        .more(lit(making))
        .stands([CardStand::of(1, StandPlace::AtTheOutlet)])
        .minds(CardCaution::Electric, StopRule::Trips)
}

/// Strands come loose from the mast, or onto it, once it stands and before a tube takes them up.
pub(super) fn on_the_mast(making: &Making) -> Vec<Card> {
    let number = CardNumber::or(NumberOf::LongestStrand, longest(making).map(length), CardMissing::Ground);
    let standing = [
        (YardState::GuysFast, NeedWhy::OnlyGuysHoldIt),
        (YardState::BeneathOpen, NeedWhy::StrapAlone),
        (YardState::PowerOff, NeedWhy::CurrentInHands),
    ];
    let at_top = || CardStand::of(1, StandPlace::AtThePinFromAPlatform { floor_m: 0.0 });
    let made = |key: &str, kind: CardKind| {
        card(Crank, key, kind, number.clone())
            .needs(standing)
            .gives([YardState::StrandsLoose])
            .minds(CardCaution::Electric, StopRule::StrandCatches)
    };
    if super::raise::tied_along(making) {
        vec![
            made("crank:free-strands", CardKind::FreeStrands)
                .needs([(YardState::StrandsTiedAlong, NeedWhy::EasierLow)])
                .takes([YardState::StrandsTiedAlong])
                .stands([CardStand::of(2, StandPlace::AtTheBase)]),
        ]
    } else {
        vec![
            test(making, Crank),
            made("crank:hang-strands", CardKind::HangStrands)
                .needs([(YardState::StrandsTested, NeedWhy::DarkOnTheGround)])
                .stands([at_top(), CardStand::of(1, StandPlace::AtTheBase)]),
        ]
    }
}

fn lay_ring(making: &Making) -> Card {
    let radius = making.plan.ring.as_ref().map(|ring| length(ring.radius_m));
    card(
        Lights,
        "lights:lay-ring",
        CardKind::LayRing,
        CardNumber::or(NumberOf::RingRadius, radius, CardMissing::Ground),
    )
    .needs([
        (YardState::GuysFast, NeedWhy::MeasuredFromTheMast),
        (YardState::BeneathOpen, NeedWhy::StrapAlone),
    ])
    .gives([YardState::RingLaid])
    .stands([CardStand::of(2, StandPlace::OnTheRing)])
    .minds(CardCaution::Heavy, StopRule::AnybodyCallsStop)
}

fn hold_ring(making: &Making) -> Card {
    let supports = making.job.workshop.ring.as_ref().and_then(|ring| ring.supports);
    let ties = supports.map(|supports| count(usize::from(supports)));
    let pull = tie_pull_n(making).map(|value_n| CardValue::Force { value_n });
    card(
        Lights,
        "lights:hold-ring",
        CardKind::HoldRing,
        CardNumber::or(NumberOf::RingTies, ties, CardMissing::RingSupports),
    )
    .needs([(YardState::RingLaid, NeedWhy::RingLifts), (YardState::BeneathOpen, NeedWhy::StrapAlone)])
    .gives([YardState::RingHeld])
    .more([CardNumber::or(NumberOf::TiePull, pull, CardMissing::RingSupports)])
    .stands([CardStand::of(2, StandPlace::OnTheRing)])
    .minds(CardCaution::BuriedServices, StopRule::StakeMeetsSomething)
}

fn tie_pull_n(making: &Making) -> Option<f64> {
    let (plan, strands) = (making.plan.ring.as_ref()?, making.job.rig.strands.as_ref()?);
    circle::tie_pull_n(making.job.workshop.ring.as_ref()?, strands, plan)
}

fn tie_lower_ends(making: &Making) -> Card {
    let apart = making.plan.ring.as_ref().and_then(|ring| match ring.points.as_slice() {
        [first, second, ..] => Some(length(norm(subtract(*first, *second)))),
        _ => None,
    });
    let up = making.bench.stages.stages.last().map(|last| YardState::StageUp { tube: last.tube });
    let made = card(
        Lights,
        "lights:tie-ends",
        CardKind::TieLowerEnds,
        CardNumber::or(NumberOf::BetweenTies, apart, CardMissing::Ground),
    )
    .needs([
        (YardState::RingHeld, NeedWhy::RingLifts),
        (YardState::StrandsLoose, NeedWhy::StrandsRunFreely),
        (YardState::GuysFast, NeedWhy::OnlyGuysHoldIt),
        (YardState::BeneathOpen, NeedWhy::StrapAlone),
        (YardState::PowerOff, NeedWhy::CurrentInHands),
    ])
    .gives([YardState::LowerEndsTied])
    .more([CardNumber::known(NumberOf::Strands, count(strands(making)))])
    .more(ties(making))
    .stands([CardStand::of(2, StandPlace::OnTheRing)])
    .minds(CardCaution::Electric, StopRule::StrandCatches);
    match up {
        Some(up) => made.needs([(up, NeedWhy::StrandsRunFreely)]),
        None => made,
    }
}

/// Strand by strand: how far round the ring its tie is from that of the first, tie to tie in straight lines.
fn ties(making: &Making) -> Vec<CardNumber> {
    let mut round_m = 0.0;
    let strands = making.lighting.iter().flat_map(|lights| &lights.strands);
    let tie = |strand: &NumberedStrand| {
        let at = CardNumber::known(NumberOf::TieAt { strand: strand.number }, length(round_m));
        round_m += strand.to_next_m.unwrap_or(0.0);
        at
    };
    strands.map(tie).collect()
}

fn set_strands(making: &Making) -> Card {
    let tension = making.job.rig.strands.as_ref().map(|it| CardValue::Force { value_n: it.cord.tension_n });
    card(
        Lights,
        "lights:set-strands",
        CardKind::SetStrands,
        CardNumber::or(NumberOf::StrandTension, tension, CardMissing::StrandLabel),
    )
    .needs([(YardState::LowerEndsTied, NeedWhy::DoneInTurn), (YardState::PowerOff, NeedWhy::CurrentInHands)])
    .gives([YardState::StrandsSet])
    .stands([CardStand::of(2, StandPlace::OnTheRing)])
    .minds(CardCaution::RopesRun, StopRule::AnchorMoves)
}

/// Strands that lit when they were plugged in, of all.
fn lit(making: &Making) -> Option<CardNumber> {
    let strands = &making.lighting.as_ref()?.strands;
    let lit = strands.iter().filter(|strand| strand.lit == Some(true)).count();
    Some(CardNumber::known(NumberOf::StrandsLit, count(lit)))
}

/// How long the lead is, where it is crossed, what of it hangs on the mast.
fn lay_lead(making: &Making) -> Card {
    let lead = making.lighting.as_ref().and_then(|lights| lights.lead.as_ref());
    let needed = lead.and_then(|lead| {
        let half_width_95_m = Some(lead.ground_half_width_95_m).filter(|half| *half > 0.0);
        Some(CardValue::Length { value_m: lead.needed_m?, half_width_95_m })
    });
    let mut more = vec![
        CardNumber::or(NumberOf::LeadOnGround, lead.map(|lead| length(lead.ground_m)), CardMissing::LeadWay),
        CardNumber::or(NumberOf::TripPoints, lead.map(|lead| count(lead.trips.len())), CardMissing::LeadWay),
    ];
    let hangs = lead.filter(|lead| lead.up_m != Some(0.0));
    more.extend(hangs.map(|lead| {
        let mass = lead.mass_on_mast_kg.map(|value_kg| CardValue::Mass { value_kg });
        CardNumber::or(NumberOf::LeadOnMast, mass, CardMissing::CordLabel)
    }));
    let kept = making.lighting.as_ref().and_then(|lights| lights.load.drop_percent);
    let kept = kept.map(|value| CardValue::Percent { value });
    more.push(CardNumber::or(NumberOf::VoltageKept, kept, CardMissing::CordLabel));
    card(
        Lights,
        "lights:lay-lead",
        CardKind::LayLead,
        CardNumber::or(NumberOf::LeadLength, needed, CardMissing::LeadWay),
    )
    .needs([(YardState::PowerOff, NeedWhy::CurrentInHands)])
    .gives([YardState::LeadLaid])
    .more(more)
    .stands([CardStand::of(1, StandPlace::AtTheOutlet)])
    .minds(CardCaution::Electric, StopRule::Trips)
}

/// What runs then, and what the breaker has to be for it.
fn switch_on(making: &Making) -> Card {
    let load = making.lighting.as_ref().map(|lights| &lights.load);
    let amps = |value: Option<f64>| value.map(|value_amps| CardValue::Amps { value_amps });
    let current = amps(load.and_then(|load| load.total_amps));
    let needs = amps(load.and_then(|load| load.needs_amps));
    let missing = if current.is_some() { CardMissing::CircuitLabel } else { CardMissing::StrandLabel };
    let runs = load.and_then(|load| load.runs).map(|value| CardValue::Count { value });
    card(
        Lights,
        "lights:switch-on",
        CardKind::SwitchOn,
        CardNumber::or(NumberOf::Current, current, CardMissing::StrandLabel),
    )
    .needs([(YardState::StrandsSet, NeedWhy::CurrentInHands), (YardState::LeadLaid, NeedWhy::DoneInTurn)])
    .takes([YardState::PowerOff])
    .gives([YardState::Lit])
    .more([
        CardNumber::or(NumberOf::BreakerAtLeast, needs, missing),
        CardNumber::or(NumberOf::PlugsAtLead, runs, CardMissing::EndToEnd),
    ])
    .stands([CardStand::of(1, StandPlace::AtTheOutlet)])
    .minds(CardCaution::Electric, StopRule::Trips)
}
