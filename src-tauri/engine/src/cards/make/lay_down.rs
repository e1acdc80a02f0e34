//! Laying the mast down: the way it came up, backwards, where that holds.

use super::raise::{at_anchor, hold_edge, lifters, pin_tubes, rig_line, take_ropes, tie_along, tied_along};
use super::{Making, card, count, length};
use crate::cards::card::CardPhase::LayDown;
use crate::cards::card::*;
use crate::cards::state::{NeedWhy, YardState};
use crate::raising::{GuyRole, RaiseWay};

pub(super) fn cards(making: &Making) -> Vec<Card> {
    let Some(way) = &making.way else { return vec![nobody_knows_how()] };
    let mut cards = Vec::new();
    if making.job.rig.strands.is_some() {
        cards.push(strands(making));
    }
    let stages = &making.bench.stages.stages;
    if !stages.is_empty() {
        let mut pinned = standing(pin_tubes(making), "down:pin-tubes");
        pinned.needs.extend(
            stages.iter().map(|it| super::need(YardState::StageDown { tube: it.tube }, NeedWhy::OuterFirst)),
        );
        cards.push(pinned);
    }
    if making.turns_with_base() {
        cards.push(standing(hold_edge(making, way), "down:hold-edge"));
        cards.push(draw_base_stakes(making));
    }
    if !making.tended().is_empty() {
        cards.push(standing(take_ropes(making), "down:take-ropes"));
    }
    if making.job.raising.line.is_some() {
        cards.push(standing(rig_line(making), "down:rig-line"));
    }
    cards.extend([take_mast(making), free_far(making), lay_down(making, way)]);
    cards
}

/// Nobody has said how it turns: one card that waits, so that this is seen.
fn nobody_knows_how() -> Card {
    let number = CardNumber::missing(NumberOf::PeopleNeeded, CardMissing::HowItTurnsUp);
    card(LayDown, "down:take-mast", CardKind::TakeMast, number)
        .needs([(YardState::TubesPinned, NeedWhy::TubesSlideOut)])
        .minds(CardCaution::KicksOut, StopRule::LeavesItsLine)
}

/// What was done while it lay is done while it stands by its guys.
fn standing(made: Card, key: &str) -> Card {
    let mut made = Card { key: key.to_owned(), phase: LayDown, ..made };
    for need in &mut made.needs {
        if need.state == YardState::MastLies {
            (need.state, need.why) = (YardState::GuysFast, NeedWhy::OnlyGuysHoldIt);
        }
    }
    made
}

/// Tied along again, or off the mast, before anybody lets it down.
fn strands(making: &Making) -> Card {
    let mut made = if tied_along(making) {
        let tied = tie_along(making);
        Card {
            needs: tied.needs.into_iter().filter(|it| it.state != YardState::StrandsTested).collect(),
            ..tied
        }
    } else {
        let number = CardNumber::known(
            NumberOf::Strands,
            count(making.job.rig.strands.as_ref().map_or(0, |it| usize::from(it.count))),
        );
        card(LayDown, "", CardKind::TakeStrandsOff, number)
            .needs([
                (YardState::GuysFast, NeedWhy::OnlyGuysHoldIt),
                (YardState::PowerOff, NeedWhy::CurrentInHands),
            ])
            .gives([YardState::StrandsTiedAlong])
            .stands([CardStand::of(2, StandPlace::AtTheBase)])
            .minds(CardCaution::Electric, StopRule::StrandCatches)
    };
    made.needs.push(super::need(YardState::StrandsLoose, NeedWhy::StrandsRunFreely));
    if let Some(last) = making.bench.stages.stages.first() {
        made.needs.push(super::need(YardState::StageDown { tube: last.tube }, NeedWhy::EasierLow));
    }
    standing(made, "down:strands")
}

/// A base that tilts with its mast must not be held by its own stakes; the edge must be, before they go.
fn draw_base_stakes(making: &Making) -> Card {
    let stakes = CardNumber::known(NumberOf::Stakes, count(making.plan.base.stakes.len()));
    card(LayDown, "down:draw-stakes", CardKind::DrawBaseStakes, stakes)
        .needs([
            (YardState::GuysFast, NeedWhy::OnlyGuysHoldIt),
            (YardState::HingeHeld, NeedWhy::FootKicksOut),
        ])
        .takes([YardState::BaseStaked])
        .gives([YardState::BaseFreed])
        .stands([CardStand::of(1, StandPlace::AtTheBase)])
        .minds(CardCaution::KicksOut, StopRule::Rocks)
}

/// Hands, or the line, hold it before the far guys are untied.
fn take_mast(making: &Making) -> Card {
    let mut needs = vec![
        (YardState::GuysFast, NeedWhy::OnlyGuysHoldIt),
        (YardState::EverybodyTold, NeedWhy::NobodyKnowsTheCall),
        (YardState::WayClear, NeedWhy::FallsThere),
        (YardState::HingeHeld, NeedWhy::FootKicksOut),
        (YardState::BaseFreed, NeedWhy::StakesStopTheBase),
        (YardState::TubesPinned, NeedWhy::TubesSlideOut),
        (YardState::StrandsTiedAlong, NeedWhy::LooseStrandsCatch),
        (YardState::RopesInHands, NeedWhy::RopeUntended),
        (YardState::LineRigged, NeedWhy::PropGoesOver),
        (YardState::PowerOff, NeedWhy::CurrentInHands),
    ];
    needs.retain(|(state, _)| match state {
        YardState::BaseFreed => making.turns_with_base(),
        YardState::TubesPinned => !making.bench.stages.stages.is_empty(),
        YardState::StrandsTiedAlong => making.job.rig.strands.is_some(),
        YardState::RopesInHands => !making.tended().is_empty(),
        YardState::LineRigged => making.job.raising.line.is_some(),
        _ => true,
    });
    let number = CardNumber::missing(NumberOf::PeopleNeeded, CardMissing::CordWeight);
    let mut made = card(LayDown, "down:take-mast", CardKind::TakeMast, number);
    made.needs.extend(needs.into_iter().map(|(state, why)| super::need(state, why)));
    made.takes([YardState::HandsFree])
        .gives([YardState::HeldAtPlumb])
        .more(super::rehearsed::numbers(&making.job.cards.lay_down_rehearsed))
        .more([super::forces::gust(making, NumberOf::GustToRaiseIn, &making.lifting.tilt_gust)])
        .stands([at_mast(making)])
        .stands([CardStand::of(1, StandPlace::Caller)])
        .minds(CardCaution::KicksOut, StopRule::LeavesItsLine)
}

fn at_mast(making: &Making) -> CardStand {
    let by_line = making.job.raising.line.is_some();
    let place = if by_line { StandPlace::AtTheLine } else { StandPlace::BesideTheMast };
    CardStand { people: lifters(making), place, escape: None }
}

fn free_far(making: &Making) -> Card {
    let far = making.guys_with(GuyRole::Far);
    let ropes = CardNumber::known(NumberOf::FarGuys, count(far.len()));
    card(LayDown, "down:free-far", CardKind::FreeFarGuys, ropes)
        .goes_on_with(YardState::HeldAtPlumb, NeedWhy::HandsHoldIt)
        .takes([YardState::GuysFast])
        .gives([YardState::FarGuysFree])
        .stands([at_mast(making)])
        .stands(far.into_iter().map(at_anchor))
        .minds(CardCaution::RopesRun, StopRule::LeavesItsLine)
}

fn lay_down(making: &Making, way: &RaiseWay) -> Card {
    let [first, hardest_at] = super::forces::hardest(making, CardMissing::CordWeight);
    card(LayDown, "down:lay", CardKind::LetMastDown, first)
        .goes_on_with(YardState::HeldAtPlumb, NeedWhy::HandsHoldIt)
        .needs([
            (YardState::FarGuysFree, NeedWhy::TooShortUntilPlumb),
            (YardState::HingeHeld, NeedWhy::FootKicksOut),
        ])
        .takes([YardState::HeldAtPlumb])
        .gives([YardState::MastLies, YardState::HandsFree])
        .more([
            hardest_at,
            CardNumber::known(NumberOf::LyingAngle, CardValue::Angle { value_deg: way.lying_deg }),
            CardNumber::known(NumberOf::LiesToward, CardValue::Bearing { value_deg: way.lies_toward_deg }),
            CardNumber::known(NumberOf::CorridorReach, length(making.plan.mast.fall_radius_m)),
        ])
        .more(super::forces::kick(making))
        .stands([at_mast(making)])
        .stands([CardStand::of(1, StandPlace::BesideTheHinge), CardStand::of(1, StandPlace::Caller)])
        .stands(making.tended().into_iter().map(at_anchor))
        .stands([making.outside()])
        .minds(CardCaution::KicksOut, StopRule::LeavesItsLine)
}
