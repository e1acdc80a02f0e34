//! Running the tubes down again, pull after pull: the weight goes from its pin into the strap, and from the strap back onto a pin or a stool.

use super::crank::Pulling;
use super::{Making, card, count, length};
use crate::cards::card::CardPhase::Lower;
use crate::cards::card::*;
use crate::cards::state::{NeedWhy, YardState};
use crate::workshop::stages::{Reach, WorkStage};

pub(super) fn cards(making: &Making) -> Vec<Card> {
    let mut cards = vec![tell(making), clear(making)];
    if making.job.rig.strands.is_some() {
        cards.extend([power_off(making), loosen(making)]);
    }
    // Last up, first down.
    let mut before: Option<&WorkStage> = None;
    let stages = &making.bench.stages.stages;
    for (number, stage) in (0..).zip(stages).collect::<Vec<(u32, &WorkStage)>>().into_iter().rev() {
        let lift = making.bench.lift.stages.iter().find(|lift| lift.tube == stage.tube);
        let work = Lowering { pulling: Pulling { making, stage, lift } };
        cards.extend(work.cards(before).into_iter().map(|card| Card { stage: Some(number), ..card }));
        before = Some(stage);
    }
    cards
}

/// How many they are is counted once all cards of the phase are there: `phases::count_people`.
fn tell(making: &Making) -> Card {
    let number = CardNumber::missing(NumberOf::PeopleNeeded, CardMissing::CordWeight);
    card(Lower, "down:tell", CardKind::TellEverybody, number)
        .gives([YardState::EverybodyTold])
        .more(super::rehearsed::numbers(&making.job.cards.lower_rehearsed))
        .stands([CardStand::of(1, StandPlace::Caller)])
        .minds(CardCaution::Falls, StopRule::AnybodyCallsStop)
}

fn clear(making: &Making) -> Card {
    let radius = length(making.plan.mast.fall_radius_m);
    card(Lower, "down:clear-way", CardKind::ClearTheWay, CardNumber::known(NumberOf::CorridorReach, radius))
        .gives([YardState::WayClear])
        .stands([making.outside()])
        .minds(CardCaution::Falls, StopRule::AnybodyCallsStop)
}

fn strands(making: &Making) -> CardNumber {
    let many = making.job.rig.strands.as_ref().map_or(0, |strands| usize::from(strands.count));
    CardNumber::known(NumberOf::Strands, count(many))
}

fn power_off(making: &Making) -> Card {
    card(Lower, "down:power-off", CardKind::PowerOff, strands(making))
        .takes([YardState::Lit])
        .gives([YardState::PowerOff])
        .stands([CardStand::of(1, StandPlace::AtTheOutlet)])
        .minds(CardCaution::Electric, StopRule::Trips)
}

fn loosen(making: &Making) -> Card {
    card(Lower, "down:loosen-strands", CardKind::LoosenStrands, strands(making))
        .needs([
            (YardState::PowerOff, NeedWhy::CurrentInHands),
            (YardState::GuysFast, NeedWhy::OnlyGuysHoldIt),
            (YardState::BeneathOpen, NeedWhy::StrapAlone),
        ])
        .takes([YardState::LowerEndsTied, YardState::StrandsSet])
        .gives([YardState::StrandsLoose])
        .stands([CardStand::of(2, StandPlace::OnTheRing)])
        .minds(CardCaution::RopesRun, StopRule::StrandCatches)
}

/// One tube coming down.
struct Lowering<'a> {
    pulling: Pulling<'a>,
}

impl Lowering<'_> {
    fn stage(&self) -> &WorkStage {
        self.pulling.stage
    }

    fn key(&self, what: &str, pull: u32) -> String {
        format!("down:{}-{pull}-{what}", self.stage().tube)
    }

    fn cards(&self, before: Option<&WorkStage>) -> Vec<Card> {
        let pulls = self.pulling.pulls().unwrap_or(1);
        let mut cards = vec![self.give_rope(before), self.second_pin_out(pulls)];
        for pull in (1..=pulls).rev() {
            cards.extend([
                self.pin_rod(pull, pulls),
                self.clear_beneath(pull),
                self.take_load(pull),
                self.draw_pin(pull),
                self.let_down(pull),
            ]);
            // Not all the way: a pin goes in before the weight is handed back.
            cards.extend((pull > 1).then(|| self.pin_in(pull)));
            cards.push(self.hand_back(pull));
        }
        cards.push(self.make_fast());
        cards
    }

    fn at_the_pin(&self) -> CardStand {
        let place = match (self.stage().reach, self.stage().platform_m) {
            (Reach::PoleOrPlatform, floor_m) => {
                StandPlace::AtThePinFromAPlatform { floor_m: floor_m.unwrap_or(0.0) }
            }
            (Reach::ByHandFromTheGround, _) => StandPlace::AtThePinFromTheGround,
        };
        CardStand::of(1, place)
    }

    fn at_the_crank(&self) -> [CardStand; 2] {
        [CardStand::of(1, StandPlace::AtTheCrank), self.at_the_pin()]
    }

    fn give_rope(&self, before: Option<&WorkStage>) -> Card {
        let (tube, name) = (self.stage().tube, self.stage().name.clone());
        let comes =
            CardNumber::known(NumberOf::GuyTakesIn { tube: name.clone() }, length(self.stage().travel_m));
        let made = card(Lower, &self.key("rope", 0), CardKind::UntieToLower { tube: name }, comes)
            .needs([
                (YardState::GuysFast, NeedWhy::OnlyGuysHoldIt),
                (YardState::EverybodyTold, NeedWhy::NobodyKnowsTheCall),
                (YardState::WayClear, NeedWhy::FallsThere),
            ])
            .takes([YardState::GuysFast])
            .gives([YardState::RopeGiven { tube }])
            .more([CardNumber::known(NumberOf::RopesToTend, count(self.pulling.guys().len()))])
            .stands(self.pulling.at_ropes())
            .minds(CardCaution::RopesRun, StopRule::AnchorMoves);
        let made = match before {
            Some(outer) => made.needs([(YardState::StageDown { tube: outer.tube }, NeedWhy::OuterFirst)]),
            None => made,
        };
        if self.pulling.making.job.rig.strands.is_some() {
            made.needs([
                (YardState::PowerOff, NeedWhy::CurrentInHands),
                (YardState::StrandsLoose, NeedWhy::StrandsRunFreely),
            ])
        } else {
            made
        }
    }

    fn second_pin_out(&self, pulls: u32) -> Card {
        let tube = self.stage().tube;
        let [_, upper_m] = self.stage().pins_above_ground_m;
        let number = CardNumber::known(NumberOf::SecondPinHeight, length(upper_m));
        let kind = CardKind::SecondPinOut { tube: self.stage().name.clone() };
        card(Lower, &self.key("second-pin", pulls), kind, number)
            .needs([
                (YardState::WeightOnPin { tube }, NeedWhy::NothingToRestOn),
                (YardState::RopeGiven { tube }, NeedWhy::FastGuyStopsIt),
                (YardState::StrapSlack, NeedWhy::StrapAlone),
                (YardState::BeneathOpen, NeedWhy::StrapAlone),
            ])
            .takes([YardState::SecondPinSet { tube }])
            .gives([YardState::SecondPinDrawn { tube }])
            .stands([self.at_the_pin()])
            .minds(CardCaution::PinAndHeight, StopRule::PinWillNotGo)
    }

    fn pin_rod(&self, pull: u32, pulls: u32) -> Card {
        let (tube, making) = (self.stage().tube, self.pulling.making);
        let above_m = making.bench.stages.foot_above_ground_m;
        let rises_m = self.stage().gain_m(pull);
        let height = rises_m.map(|rises_m| length(self.stage().rod_pin_m + rises_m + above_m));
        let number = CardNumber::or(NumberOf::RodPinHeight, height, CardMissing::RodAndWinch);
        let kind = CardKind::PinRod { tube: self.stage().name.clone(), pull, pulls: self.pulling.pulls() };
        let made = card(Lower, &self.key("rod", pull), kind, number)
            .needs([
                (YardState::RopeGiven { tube }, NeedWhy::FastGuyStopsIt),
                (YardState::WeightOnPin { tube }, NeedWhy::RodCarries),
                (YardState::SecondPinDrawn { tube }, NeedWhy::SecondPinStopsIt),
                (YardState::StrapSlack, NeedWhy::StrapAlone),
                (YardState::BeneathOpen, NeedWhy::StrapAlone),
            ])
            .gives([YardState::RodPinned { tube, pull }])
            .stands([self.at_the_pin()])
            .minds(CardCaution::PinAndHeight, StopRule::PinWillNotGo);
        if pull < pulls {
            made.needs([(YardState::LetDown { tube, pull: pull + 1 }, NeedWhy::PullAfterPull)])
        } else {
            made
        }
    }

    fn clear_beneath(&self, pull: u32) -> Card {
        let (tube, making) = (self.stage().tube, self.pulling.making);
        let radius = length(making.plan.mast.fall_radius_m);
        let kind =
            CardKind::ClearBeneath { tube: self.stage().name.clone(), pull, pulls: self.pulling.pulls() };
        card(Lower, &self.key("clear", pull), kind, CardNumber::known(NumberOf::CorridorReach, radius))
            .needs([
                (YardState::RodPinned { tube, pull }, NeedWhy::NothingToPull),
                (YardState::BeneathOpen, NeedWhy::StrapCanSlip),
            ])
            .takes([YardState::BeneathOpen])
            .gives([YardState::BeneathClear])
            .stands([making.outside()])
            .minds(CardCaution::StrapAndCrank, StopRule::AnybodyCallsStop)
    }

    /// The strap takes the load: only as far as the pin comes free.
    fn take_load(&self, pull: u32) -> Card {
        let tube = self.stage().tube;
        let force = |value: Option<f64>| value.map(|value_n| CardValue::Force { value_n });
        let strap = force(self.pulling.lift.and_then(|lift| lift.strap_n));
        let hand = force(self.pulling.lift.and_then(|lift| lift.hand_n));
        let number = CardNumber::or(NumberOf::OnTheStrap, strap, CardMissing::CordWeight);
        let kind = CardKind::TakeLoad { tube: self.stage().name.clone(), pull, pulls: self.pulling.pulls() };
        card(Lower, &self.key("take", pull), kind, number)
            .needs([
                (YardState::RodPinned { tube, pull }, NeedWhy::NothingToPull),
                (YardState::RopeGiven { tube }, NeedWhy::FastGuyStopsIt),
                (YardState::BeneathClear, NeedWhy::StrapCanSlip),
            ])
            .takes([YardState::HandsFree, YardState::StrapSlack, YardState::WeightOnPin { tube }])
            .gives([YardState::HandOnCrank { tube, pull }])
            .more([CardNumber::or(NumberOf::CrankHand, hand, CardMissing::CrankAndDrum), self.pulling.gust()])
            .stands(self.at_the_crank())
            .stands([CardStand::of(1, StandPlace::Caller)])
            .stands(self.pulling.at_ropes())
            .stands([self.pulling.making.outside()])
            .minds(CardCaution::StrapAndCrank, StopRule::TightSpot)
    }

    fn pin_m(&self) -> CardNumber {
        let [lower_m, _] = self.stage().pins_above_ground_m;
        CardNumber::known(NumberOf::PinHeight, length(lower_m))
    }

    fn draw_pin(&self, pull: u32) -> Card {
        let tube = self.stage().tube;
        let kind = CardKind::DrawPin { tube: self.stage().name.clone() };
        card(Lower, &self.key("pin-out", pull), kind, self.pin_m())
            .goes_on_with(YardState::HandOnCrank { tube, pull }, NeedWhy::StrapFirst)
            .gives([YardState::PinDrawn { tube, pull }])
            .stands(self.at_the_crank())
            .minds(CardCaution::PinAndHeight, StopRule::PinWillNotGo)
    }

    fn let_down(&self, pull: u32) -> Card {
        let tube = self.stage().tube;
        let comes = self.stage().gain_m(pull).map(length);
        let number = CardNumber::or(NumberOf::PullComesDown, comes, CardMissing::RodAndWinch);
        let turns = self.pulling.lift.and_then(|lift| lift.crank_turns);
        let turns = turns.map(|value| CardValue::Turns { value });
        let kind =
            CardKind::LetDownByCrank { tube: self.stage().name.clone(), pull, pulls: self.pulling.pulls() };
        card(Lower, &self.key("lower", pull), kind, number)
            .goes_on_with(YardState::HandOnCrank { tube, pull }, NeedWhy::CrankRunsBack)
            .needs([(YardState::PinDrawn { tube, pull }, NeedWhy::PinStopsIt)])
            .gives([YardState::CameDown { tube, pull }])
            .more([CardNumber::or(NumberOf::CrankTurns, turns, CardMissing::CrankAndDrum)])
            .stands(self.at_the_crank())
            .stands([CardStand::of(1, StandPlace::Caller)])
            .stands(self.pulling.at_ropes())
            .minds(CardCaution::StrapAndCrank, StopRule::TightSpot)
    }

    fn pin_in(&self, pull: u32) -> Card {
        let tube = self.stage().tube;
        let kind = CardKind::SetPin { tube: self.stage().name.clone(), last: false };
        card(Lower, &self.key("pin-in", pull), kind, self.pin_m())
            .goes_on_with(YardState::HandOnCrank { tube, pull }, NeedWhy::CrankRunsBack)
            .needs([(YardState::CameDown { tube, pull }, NeedWhy::PullAfterPull)])
            .gives([YardState::PinThrough { tube, pull }])
            .stands(self.at_the_crank())
            .minds(CardCaution::PinAndHeight, StopRule::PinWillNotGo)
    }

    /// From the strap back onto the pin, or onto the stool: only now may the hand leave the crank.
    fn hand_back(&self, pull: u32) -> Card {
        let tube = self.stage().tube;
        let load =
            self.pulling.lift.and_then(|lift| lift.mass_kg).map(|value_kg| CardValue::Mass { value_kg });
        let number = CardNumber::or(NumberOf::WeightOnPin, load, CardMissing::CordWeight);
        let kind = CardKind::HandBack { tube: self.stage().name.clone(), onto_stool: pull == 1 };
        let made = card(Lower, &self.key("back", pull), kind, number)
            .off_the_strap(tube, pull)
            .needs([(YardState::CameDown { tube, pull }, NeedWhy::PullAfterPull)])
            .gives([YardState::LetDown { tube, pull }])
            .minds(CardCaution::StrapAndCrank, StopRule::TightSpot);
        if pull > 1 {
            made.needs([(YardState::PinThrough { tube, pull }, NeedWhy::NothingToRestOn)])
        } else {
            made
        }
    }

    fn make_fast(&self) -> Card {
        let tube = self.stage().tube;
        let ropes = CardNumber::known(NumberOf::RopesToTend, count(self.pulling.guys().len()));
        let kind = CardKind::MakeFastLower { tube: self.stage().name.clone() };
        card(Lower, &self.key("fast", 0), kind, ropes)
            .needs([
                (YardState::RopeGiven { tube }, NeedWhy::RopeUntended),
                (YardState::LetDown { tube, pull: 1 }, NeedWhy::PullAfterPull),
                (YardState::WeightOnPin { tube }, NeedWhy::NothingToRestOn),
            ])
            .takes([YardState::RopeGiven { tube }, YardState::StageUp { tube }])
            .gives([YardState::GuysFast, YardState::StageDown { tube }])
            .stands(self.pulling.at_ropes())
            .minds(CardCaution::RopesRun, StopRule::AnchorMoves)
    }
}
