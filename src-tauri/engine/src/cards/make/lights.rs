//! Strands and ring: tested on the ground, hung before the tubes go up, tied to the ring at the end.

use super::{Making, card, count, length};
use crate::cards::card::CardPhase::{Crank, Lights};
use crate::cards::card::*;
use crate::cards::state::{NeedWhy, YardState};
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
        lay_lead(),
        switch_on(),
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
    .stands([CardStand::of(2, StandPlace::OnTheRing)])
    .minds(CardCaution::Electric, StopRule::StrandCatches);
    match up {
        Some(up) => made.needs([(up, NeedWhy::StrandsRunFreely)]),
        None => made,
    }
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

/// What runs in the lead stands on the strands' label, and nobody has entered that.
fn lay_lead() -> Card {
    card(
        Lights,
        "lights:lay-lead",
        CardKind::LayLead,
        CardNumber::missing(NumberOf::Current, CardMissing::StrandLabel),
    )
    .needs([(YardState::PowerOff, NeedWhy::CurrentInHands)])
    .gives([YardState::LeadLaid])
    .stands([CardStand::of(1, StandPlace::AtTheOutlet)])
    .minds(CardCaution::Electric, StopRule::Trips)
}

fn switch_on() -> Card {
    card(
        Lights,
        "lights:switch-on",
        CardKind::SwitchOn,
        CardNumber::missing(NumberOf::Current, CardMissing::StrandLabel),
    )
    .needs([(YardState::StrandsSet, NeedWhy::CurrentInHands), (YardState::LeadLaid, NeedWhy::DoneInTurn)])
    .takes([YardState::PowerOff])
    .gives([YardState::Lit])
    .stands([CardStand::of(1, StandPlace::AtTheOutlet)])
    .minds(CardCaution::Electric, StopRule::Trips)
}
