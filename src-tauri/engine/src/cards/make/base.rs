//! Setting the base: timbers in place, what goes under each leg, and, where that is chosen, the bare lower tube stood up first.

use super::{Making, card, count};
use crate::base::Support;
use crate::cards::card::CardPhase::Base;
use crate::cards::card::*;
use crate::cards::state::{NeedWhy, YardState};

pub(super) fn cards(making: &Making) -> Vec<Card> {
    let mut cards = vec![lay(making)];
    let first = making.first_up().chosen;
    if first {
        cards.extend(bare_tube(making));
    }
    let feet: Vec<&crate::base::LegResult> =
        making.plan.base.legs.iter().filter(|leg| leg.support != Support::OnGround).collect();
    for leg in &feet {
        cards.push(foot(making, leg, first));
    }
    cards.push(level(making, first));
    if !making.turns_with_base() {
        cards.push(stake(making));
    }
    cards
}

fn at_the_base(people: u32) -> CardStand {
    CardStand::of(people, StandPlace::AtTheBase)
}

fn lay(making: &Making) -> Card {
    // The front leg's bearing as it was really measured, where it was.
    let front_deg = making.way.as_ref().filter(|_| making.turns_with_base()).map(|way| way.front_bearing_deg);
    let planned_deg = making.plan.base.legs.iter().find(|leg| leg.id == "front").map(|leg| leg.bearing_deg);
    let bearing = front_deg.or(planned_deg).map(|value_deg| CardValue::Bearing { value_deg });
    let number = CardNumber::or(NumberOf::FrontLegBearing, bearing, CardMissing::HowItTurnsUp);
    card(Base, "base:lay", CardKind::LayBase, number)
        .gives([YardState::BaseLaid])
        .stands([at_the_base(2)])
        .minds(CardCaution::Heavy, StopRule::Rocks)
}

/// A tube that one person holds finds plumb before anything is cut.
fn bare_tube(making: &Making) -> [Card; 3] {
    let value_kg = making.first_up().tube_kg;
    let weight = CardNumber::known(NumberOf::BareTubeWeight, CardValue::Mass { value_kg });
    let front = making.plan.base.legs.iter().find(|leg| leg.id == "front");
    let gap = front.map(|leg| gap(making, leg));
    let gap = gap
        .unwrap_or(CardNumber::missing(NumberOf::GapUnder { leg: "front".to_owned() }, CardMissing::Ground));
    let holder = || [at_the_base(2), making.outside()];
    [
        card(Base, "base:bare-tube", CardKind::StandBareTube, weight.clone())
            .needs([
                (YardState::BaseLaid, NeedWhy::StandsOnIt),
                (YardState::EverybodyTold, NeedWhy::NobodyKnowsTheCall),
                (YardState::WayClear, NeedWhy::FallsThere),
            ])
            .takes([YardState::HandsFree])
            .gives([YardState::BareTubeHeld])
            .stands(holder())
            .minds(CardCaution::Falls, StopRule::AnybodyCallsStop),
        card(Base, "base:measure-foot", CardKind::MeasureFoot, gap)
            .goes_on_with(YardState::BareTubeHeld, NeedWhy::FootIsCutToIt)
            .gives([YardState::FootMeasured])
            .stands(holder())
            .minds(CardCaution::Falls, StopRule::AnybodyCallsStop),
        card(Base, "base:lay-bare-tube", CardKind::LayBareTube, weight)
            .goes_on_with(YardState::BareTubeHeld, NeedWhy::HandsHoldIt)
            .needs([(YardState::FootMeasured, NeedWhy::FootIsCutToIt)])
            .takes([YardState::BareTubeHeld])
            .gives([YardState::HandsFree])
            .stands(holder())
            .minds(CardCaution::Falls, StopRule::AnybodyCallsStop),
    ]
}

fn gap(making: &Making, leg: &crate::base::LegResult) -> CardNumber {
    let of = &leg.gap_centre_m;
    let known = making.plan.knows_under(&leg.id);
    let value =
        known.then_some(CardValue::Length { value_m: of.value, half_width_95_m: Some(of.half_width_95) });
    CardNumber::or(NumberOf::GapUnder { leg: leg.id.clone() }, value, CardMissing::Ground)
}

fn foot(making: &Making, leg: &crate::base::LegResult, first: bool) -> Card {
    let made = card(
        Base,
        &format!("base:foot-{}", leg.id),
        CardKind::SetFoot { leg: leg.id.clone() },
        gap(making, leg),
    )
    .needs([(YardState::BaseLaid, NeedWhy::StandsOnIt)])
    .gives([YardState::FootSet { leg: leg_number(making, &leg.id) }])
    .stands([at_the_base(2)])
    .minds(CardCaution::Heavy, StopRule::Rocks);
    if first { made.needs([(YardState::FootMeasured, NeedWhy::FootIsCutToIt)]) } else { made }
}

fn leg_number(making: &Making, id: &str) -> u32 {
    making.plan.base.legs.iter().position(|leg| leg.id == id).map_or(0, |at| at as u32)
}

fn level(making: &Making, first: bool) -> Card {
    let number = CardNumber::known(
        NumberOf::LeansAtMost,
        CardValue::Angle { value_deg: crate::plumbing::tolerance_deg() },
    );
    let mut made = card(Base, "base:level", CardKind::LevelBase, number)
        .needs([(YardState::BaseLaid, NeedWhy::StandsOnIt)])
        .gives([YardState::BaseLevel])
        .stands([at_the_base(1)])
        .minds(CardCaution::Heavy, StopRule::Rocks);
    if first {
        made = made.needs([(YardState::FootMeasured, NeedWhy::FootIsCutToIt)]);
    }
    for leg in making.plan.base.legs.iter().filter(|leg| leg.support != Support::OnGround) {
        let state = YardState::FootSet { leg: leg_number(making, &leg.id) };
        made = made.needs([(state, NeedWhy::StandsOnIt)]);
    }
    made
}

/// The base that carries a pin stays where it is: its stakes hold the hinge.
fn stake(making: &Making) -> Card {
    let stakes = &making.plan.base.stakes;
    let number = CardNumber::known(NumberOf::Stakes, count(stakes.len()));
    card(Base, "base:stake", CardKind::StakeBase, number)
        .needs([(YardState::BaseLevel, NeedWhy::StandsOnIt)])
        .gives([YardState::BaseStaked, YardState::HingeHeld])
        .more(super::forces::kick(making))
        .stands([at_the_base(1)])
        .minds(CardCaution::BuriedServices, StopRule::StakeMeetsSomething)
}
