//! Turning the mast up, for both ways: fixed in its base, which turns about the cross leg's edge, or about a pin on a base that stays.

use super::{Making, card, count, length};
use crate::cards::card::CardPhase::Raise;
use crate::cards::card::*;
use crate::cards::state::{NeedWhy, YardState};
use crate::job::StrandsInTilt;
use crate::lifting::{hands, line};
use crate::raising::{GuyRole, RaiseWay, TiltedGuy};

pub(super) fn cards(making: &Making) -> Vec<Card> {
    let mut cards = vec![tell(making), clear(making)];
    let Some(way) = &making.way else { return cards };
    cards.push(lie(making, way));
    if !making.bench.stages.stages.is_empty() {
        cards.push(pin_tubes(making));
    }
    if tied_along(making) {
        cards.push(super::lights::test(making, Raise));
        cards.push(tie_along(making));
    }
    if making.turns_with_base() {
        cards.push(hold_edge(making, way));
    }
    let (side, stop) = (making.guys_with(GuyRole::Side), making.guys_with(GuyRole::Stop));
    if !side.is_empty() {
        cards.push(fast("raise:side-guys", CardKind::SetSideGuys, &side).gives([YardState::SideGuysFast]));
    }
    if !stop.is_empty() {
        cards.push(fast("raise:stop-guys", CardKind::SetStopGuys, &stop).gives([YardState::StopGuysSet]));
    }
    if !making.tended().is_empty() {
        cards.push(take_ropes(making));
    }
    if making.job.raising.line.is_some() {
        cards.push(rig_line(making));
    }
    cards.push(walk_up(making, way));
    cards.push(far(making));
    if making.turns_with_base() {
        cards.push(stake(making));
        cards.push(let_go(way));
    }
    cards.push(plumb(making));
    cards
}

/// Whether the strands are on the mast while it goes up.
pub(super) fn tied_along(making: &Making) -> bool {
    making.job.rig.strands.is_some() && making.job.raising.strands == StrandsInTilt::TiedAlong
}

/// Those who push at the mast, or pull at the line; none where the force is not known, or nobody pulls so hard.
pub(super) fn lifters(making: &Making) -> Option<u32> {
    let tilt = making.tilt()?;
    match &tilt.line {
        Some(pull) => line::people(pull.pull_n),
        None => hands::people(tilt.hardest.force_n),
    }
}

/// The push of those who hold it at plumb, near nothing: two of them.
fn holding(making: &Making) -> Option<u32> {
    if making.job.raising.line.is_some() { Some(2) } else { lifters(making) }
}

/// How many they are is counted once all cards of the phase are there: `phases::count_people`.
fn tell(making: &Making) -> Card {
    // Where the force is known and nobody lifts or pulls so hard, how it goes up has to be changed.
    let unweighed = making.way.is_some() && making.tilt().is_none();
    let missing = if unweighed { CardMissing::CordWeight } else { CardMissing::HowItTurnsUp };
    card(Raise, "raise:tell", CardKind::TellEverybody, CardNumber::missing(NumberOf::PeopleNeeded, missing))
        .gives([YardState::EverybodyTold])
        .stands([CardStand::of(1, StandPlace::Caller)])
        .minds(CardCaution::Falls, StopRule::AnybodyCallsStop)
}

fn clear(making: &Making) -> Card {
    let radius = CardValue::Length { value_m: making.plan.mast.fall_radius_m, half_width_95_m: None };
    card(Raise, "raise:clear-way", CardKind::ClearTheWay, CardNumber::known(NumberOf::CorridorReach, radius))
        .gives([YardState::WayClear])
        .stands([making.outside()])
        .minds(CardCaution::Falls, StopRule::AnybodyCallsStop)
}

fn lie(making: &Making, way: &RaiseWay) -> Card {
    let toward = CardValue::Bearing { value_deg: way.lies_toward_deg };
    let beside = lifters(making).map_or(2, |people| people.max(2));
    let whole = making.tilt().map(|tilt| CardValue::Mass { value_kg: tilt.turning.mass_kg });
    let made = card(Raise, "raise:lay", CardKind::LayMast, CardNumber::known(NumberOf::LiesToward, toward))
        .needs([(YardState::BaseLevel, NeedWhy::StandsOnIt), (YardState::WayClear, NeedWhy::FallsThere)])
        .gives([YardState::MastLies])
        .more([CardNumber::or(NumberOf::WholeWeight, whole, CardMissing::CordWeight)])
        .stands([CardStand::of(beside, StandPlace::BesideTheMast)])
        .minds(CardCaution::Heavy, StopRule::AnybodyCallsStop);
    // The base that carries a pin must not slide as the mast is put on it.
    if making.turns_with_base() { made } else { made.needs([(YardState::HingeHeld, NeedWhy::FootKicksOut)]) }
}

pub(super) fn pin_tubes(making: &Making) -> Card {
    let tubes = count(making.bench.stages.stages.len());
    card(Raise, "raise:pin-tubes", CardKind::PinTubes, CardNumber::known(NumberOf::TubesToPin, tubes))
        .needs([(YardState::MastLies, NeedWhy::DoneWhileItLies)])
        .gives([YardState::TubesPinned])
        .stands([CardStand::of(1, StandPlace::BesideTheMast)])
        .minds(CardCaution::PinAndHeight, StopRule::PinWillNotGo)
}

pub(super) fn tie_along(making: &Making) -> Card {
    let longest = super::lights::longest(making).map(length);
    card(
        Raise,
        "raise:tie-along",
        CardKind::TieStrandsAlong,
        CardNumber::or(NumberOf::LongestStrand, longest, CardMissing::Ground),
    )
    .needs([
        (YardState::MastLies, NeedWhy::DoneWhileItLies),
        (YardState::StrandsTested, NeedWhy::DarkOnTheGround),
        (YardState::PowerOff, NeedWhy::CurrentInHands),
    ])
    .gives([YardState::StrandsTiedAlong])
    .stands([CardStand::of(2, StandPlace::BesideTheMast)])
    .minds(CardCaution::Electric, StopRule::StrandCatches)
}

pub(super) fn hold_edge(making: &Making, way: &RaiseWay) -> Card {
    let stakes = count(way.temporary_stakes.len());
    card(Raise, "raise:hold-edge", CardKind::HoldEdge, CardNumber::known(NumberOf::Stakes, stakes))
        .needs([(YardState::MastLies, NeedWhy::DoneWhileItLies)])
        .gives([YardState::HingeHeld])
        .more(super::forces::kick(making))
        .stands([CardStand::of(1, StandPlace::BesideTheHinge)])
        .minds(CardCaution::BuriedServices, StopRule::StakeMeetsSomething)
}

/// Guys that are made fast, as long as they are at plumb, while it lies.
fn fast(key: &str, kind: CardKind, guys: &[&TiltedGuy]) -> Card {
    let lengths = guys.iter().map(|guy| {
        CardNumber::known(NumberOf::EyeToCollar { guy: guy.name.clone() }, length(guy.at_plumb_m))
    });
    let mut lengths: Vec<CardNumber> = lengths.collect();
    let slack_m = guys.iter().map(|guy| guy.most_slack_m).fold(0.0, f64::max);
    lengths.push(CardNumber::known(NumberOf::SlackAtMost, length(slack_m)));
    let first = lengths.remove(0);
    card(Raise, key, kind, first)
        .needs([(YardState::MastLies, NeedWhy::DoneWhileItLies)])
        .more(lengths)
        .stands(guys.iter().map(|guy| at_anchor(guy)))
        .minds(CardCaution::RopesRun, StopRule::AnchorMoves)
}

pub(super) fn at_anchor(guy: &TiltedGuy) -> CardStand {
    CardStand::of(1, StandPlace::AtAnchor { guy: guy.name.clone() })
}

pub(super) fn take_ropes(making: &Making) -> Card {
    let tended = making.tended();
    let ropes = CardNumber::known(NumberOf::RopesToTend, count(tended.len()));
    card(Raise, "raise:take-ropes", CardKind::TakeRopes, ropes)
        .needs([
            (YardState::MastLies, NeedWhy::DoneWhileItLies),
            (YardState::EverybodyTold, NeedWhy::NobodyKnowsTheCall),
        ])
        .gives([YardState::RopesInHands])
        .stands(tended.into_iter().map(at_anchor))
        .minds(CardCaution::RopesRun, StopRule::AnchorMoves)
}

fn walk_up(making: &Making, way: &RaiseWay) -> Card {
    let by_line = making.job.raising.line.is_some();
    let missing = CardMissing::CordWeight;
    let mut needs = vec![
        (YardState::MastLies, NeedWhy::DoneWhileItLies),
        (YardState::EverybodyTold, NeedWhy::NobodyKnowsTheCall),
        (YardState::WayClear, NeedWhy::FallsThere),
        (YardState::HingeHeld, NeedWhy::FootKicksOut),
        (YardState::SideGuysFast, NeedWhy::GoesOverSideways),
        (YardState::StopGuysSet, NeedWhy::GoesOverPastPlumb),
        (YardState::FarGuysFree, NeedWhy::TooShortUntilPlumb),
        (YardState::TubesPinned, NeedWhy::TubesSlideOut),
        (YardState::StrandsTiedAlong, NeedWhy::LooseStrandsCatch),
        (YardState::RopesInHands, NeedWhy::RopeUntended),
        (YardState::LineRigged, NeedWhy::PropGoesOver),
    ];
    needs.retain(|(state, _)| match state {
        // A side that is held by ropes in hands has them among its needs.
        YardState::SideGuysFast => !making.guys_with(GuyRole::Side).is_empty(),
        YardState::TubesPinned => !making.bench.stages.stages.is_empty(),
        YardState::StrandsTiedAlong => tied_along(making),
        YardState::RopesInHands => !making.tended().is_empty(),
        YardState::LineRigged => by_line,
        // Without a stop guy nothing stops it: nobody lifts, and the plan has its stop.
        _ => true,
    });
    let (key, kind) =
        if by_line { ("raise:pull-up", CardKind::PullUp) } else { ("raise:walk-up", CardKind::WalkUp) };
    let [first, hardest_at] = super::forces::hardest(making, missing);
    let mut made = card(Raise, key, kind, first);
    made.needs.extend(needs.into_iter().map(|(state, why)| super::need(state, why)));
    let place = if by_line { StandPlace::AtTheLine } else { StandPlace::BesideTheMast };
    let at_mast = CardStand { people: lifters(making), place, escape: None };
    let at_ropes = making.tended().into_iter().map(at_anchor);
    let hinge = [CardStand::of(1, StandPlace::BesideTheHinge), CardStand::of(1, StandPlace::Caller)];
    made.takes([YardState::HandsFree, YardState::MastLies])
        .gives([YardState::HeldAtPlumb])
        .more([
            super::forces::gust(making, NumberOf::GustToRaiseIn, &making.lifting.tilt_gust),
            hardest_at,
            CardNumber::known(NumberOf::LyingAngle, CardValue::Angle { value_deg: way.lying_deg }),
        ])
        .more(super::forces::on_the_way(making))
        .says(guys_take_over(way))
        .stands([at_mast])
        .stands(hinge)
        .stands(at_ropes)
        .stands([making.outside()])
        .minds(CardCaution::KicksOut, StopRule::LeavesItsLine)
}

/// When the guys that are fast take over from the hands.
fn guys_take_over(way: &RaiseWay) -> impl Iterator<Item = CardSays> {
    way.guys.iter().filter_map(|guy| {
        let from_deg = guy.taut_from_deg?;
        let all_the_way = from_deg <= way.lying_deg;
        let side = guy.role == GuyRole::Side;
        Some(CardSays::GuyHolds { guy: guy.name.clone(), side, from_deg, all_the_way })
    })
}

/// The prop stands before anybody pulls.
pub(super) fn rig_line(making: &Making) -> Card {
    let line = making.job.raising.line.as_ref();
    let high = line.map(|line| length(line.prop_height_m));
    let number = CardNumber::or(NumberOf::PropHeight, high, CardMissing::HowItTurnsUp);
    card(Raise, "raise:rig-line", CardKind::RigLine, number)
        .needs([(YardState::MastLies, NeedWhy::DoneWhileItLies)])
        .gives([YardState::LineRigged])
        .more(super::forces::prop(making))
        .stands([CardStand::of(2, StandPlace::BesideTheHinge)])
        .minds(CardCaution::RopesRun, StopRule::AnchorMoves)
}

/// With it in hands nobody turns to anything else.
fn far(making: &Making) -> Card {
    let guys = making.guys_with(GuyRole::Far);
    let mut lengths: Vec<CardNumber> = guys
        .iter()
        .map(|guy| CardNumber::known(NumberOf::EyeToCollar { guy: guy.name.clone() }, length(guy.at_plumb_m)))
        .collect();
    let first = if lengths.is_empty() {
        CardNumber::known(NumberOf::RopesToTend, count(making.tended().len()))
    } else {
        lengths.remove(0)
    };
    let at_mast = CardStand { people: holding(making), place: StandPlace::BesideTheMast, escape: None };
    card(Raise, "raise:far-guys", CardKind::SetFarGuys, first)
        .goes_on_with(YardState::HeldAtPlumb, NeedWhy::HandsHoldIt)
        .takes([YardState::HeldAtPlumb, YardState::FarGuysFree])
        .gives([YardState::GuysFast, YardState::HandsFree])
        .more(lengths)
        .stands([at_mast])
        .stands(guys.into_iter().map(at_anchor))
        .minds(CardCaution::RopesRun, StopRule::AnchorMoves)
}

/// The base that turned with the mast stands now: it gets its own stakes.
fn stake(making: &Making) -> Card {
    let stakes = CardNumber::known(NumberOf::Stakes, count(making.plan.base.stakes.len()));
    card(Raise, "raise:stake-base", CardKind::StakeBase, stakes)
        .needs([(YardState::GuysFast, NeedWhy::OnlyGuysHoldIt)])
        .gives([YardState::BaseStaked])
        .stands([CardStand::of(1, StandPlace::AtTheBase)])
        .minds(CardCaution::BuriedServices, StopRule::StakeMeetsSomething)
}

fn let_go(way: &RaiseWay) -> Card {
    let stakes = CardNumber::known(NumberOf::Stakes, count(way.temporary_stakes.len()));
    card(Raise, "raise:let-go-edge", CardKind::LetGoEdge, stakes)
        .needs([
            (YardState::GuysFast, NeedWhy::OnlyGuysHoldIt),
            (YardState::BaseStaked, NeedWhy::StillHeldByIt),
        ])
        .takes([YardState::HingeHeld])
        .stands([CardStand::of(1, StandPlace::BesideTheHinge)])
        .minds(CardCaution::KicksOut, StopRule::Rocks)
}

fn plumb(making: &Making) -> Card {
    let value_deg = crate::plumbing::tolerance_deg();
    card(
        Raise,
        "raise:plumb",
        CardKind::PlumbMast,
        CardNumber::known(NumberOf::LeansAtMost, CardValue::Angle { value_deg }),
    )
    .needs([(YardState::GuysFast, NeedWhy::OnlyGuysHoldIt), (YardState::BaseStaked, NeedWhy::StandsOnIt)])
    .gives([YardState::MastPlumb])
    .stands([CardStand::of(1, StandPlace::AtTheBase)])
    .stands(
        making
            .plan
            .guys
            .iter()
            .take(1)
            .map(|guy| CardStand::of(1, StandPlace::AtAnchor { guy: guy.name.clone() })),
    )
    .minds(CardCaution::RopesRun, StopRule::AnchorMoves)
}
