//! Cranking the tubes up, pull after pull: the weight goes from its pin into the strap and back onto a pin.

use super::{Making, card, count, length, need};
use crate::cards::card::CardPhase::Crank;
use crate::cards::card::*;
use crate::cards::state::{NeedWhy, YardState};
use crate::workshop::lift::LiftStage;
use crate::workshop::stages::{Reach, WorkStage};

pub(super) fn cards(making: &Making) -> Vec<Card> {
    let stages = &making.bench.stages.stages;
    let mut cards = Vec::new();
    if making.job.rig.strands.is_some() {
        cards.extend(super::lights::on_the_mast(making));
    }
    let mut before: Option<&WorkStage> = None;
    for (number, stage) in (0..).zip(stages) {
        let lift = making.bench.lift.stages.iter().find(|lift| lift.tube == stage.tube);
        let work = Pulling { making, stage, lift };
        cards.extend(work.cards(before).into_iter().map(|card| Card { stage: Some(number), ..card }));
        before = Some(stage);
    }
    if let Some(last) = before {
        let value_deg = crate::plumbing::tolerance_deg();
        let number = CardNumber::known(NumberOf::LeansAtMost, CardValue::Angle { value_deg });
        let up = (YardState::StageUp { tube: last.tube }, NeedWhy::PullAfterPull);
        cards.push(
            card(Crank, "crank:plumb-again", CardKind::PlumbAgain, number)
                .needs([up, (YardState::GuysFast, NeedWhy::OnlyGuysHoldIt)])
                .stands([CardStand::of(1, StandPlace::AtTheBase)])
                .minds(CardCaution::RopesRun, StopRule::AnchorMoves),
        );
    }
    cards
}

/// One tube going up.
pub(super) struct Pulling<'a> {
    pub making: &'a Making<'a>,
    pub stage: &'a WorkStage,
    pub lift: Option<&'a LiftStage>,
}

impl Pulling<'_> {
    pub fn pulls(&self) -> Option<u32> {
        self.stage.rises.map(|rises| rises.pulls)
    }

    pub fn key(&self, what: &str, pull: u32) -> String {
        format!("crank:{}-{pull}-{what}", self.stage.tube)
    }

    fn cards(&self, before: Option<&WorkStage>) -> Vec<Card> {
        let mut cards = vec![self.give_rope(before)];
        let pulls = self.pulls().unwrap_or(1);
        for pull in 1..=pulls {
            let last = pull == pulls;
            cards.extend([
                self.pin_rod(pull),
                self.clear_beneath(pull),
                self.crank(pull),
                self.set_pin(pull, last),
                self.lower(pull, last),
            ]);
        }
        cards.push(self.second_pin(pulls));
        cards.push(self.make_fast());
        cards
    }

    /// Guys whose collars rise with it.
    pub fn guys(&self) -> Vec<&crate::guys::GuyResult> {
        let mast = &self.making.plan.mast;
        let below = (self.stage.tube as usize).saturating_sub(1);
        let mouth_m = mast.stages.get(below).map_or(0.0, |tube| tube.top_height_m);
        self.making.plan.guys.iter().filter(|guy| guy.attach[2] - mast.foot_m > mouth_m).collect()
    }

    /// Where the guys that rise are made fast, each with somebody who gives rope.
    pub fn at_ropes(&self) -> Vec<CardStand> {
        let guys = self.guys();
        guys.iter().map(|guy| CardStand::of(1, StandPlace::AtAnchor { guy: guy.name.clone() })).collect()
    }

    fn give_rope(&self, before: Option<&WorkStage>) -> Card {
        let name = self.stage.name.clone();
        let rises = CardNumber::known(NumberOf::GuyGives { tube: name.clone() }, length(self.stage.travel_m));
        let made = card(Crank, &self.key("rope", 0), CardKind::GiveRope { tube: name }, rises)
            .needs([
                (YardState::GuysFast, NeedWhy::OnlyGuysHoldIt),
                (YardState::MastPlumb, NeedWhy::BindsOutOfPlumb),
                (YardState::EverybodyTold, NeedWhy::NobodyKnowsTheCall),
            ])
            .takes([YardState::GuysFast])
            .gives([YardState::RopeGiven { tube: self.stage.tube }])
            .more([CardNumber::known(NumberOf::RopesToTend, count(self.guys().len()))])
            .stands(self.at_ropes())
            .minds(CardCaution::RopesRun, StopRule::AnchorMoves);
        let made = match before {
            Some(inner) => made.needs([(YardState::StageUp { tube: inner.tube }, NeedWhy::InnerFirst)]),
            None => made,
        };
        if self.making.job.rig.strands.is_some() {
            made.needs([(YardState::StrandsLoose, NeedWhy::StrandsRunFreely)])
        } else {
            made
        }
    }

    fn at_the_pin(&self) -> CardStand {
        let place = match (self.stage.reach, self.stage.platform_m) {
            (Reach::PoleOrPlatform, floor_m) => {
                StandPlace::AtThePinFromAPlatform { floor_m: floor_m.unwrap_or(0.0) }
            }
            (Reach::ByHandFromTheGround, _) => StandPlace::AtThePinFromTheGround,
        };
        CardStand::of(1, place)
    }

    fn pin_rod(&self, pull: u32) -> Card {
        let (tube, above_m) = (self.stage.tube, self.making.bench.stages.foot_above_ground_m);
        let height = self.stage.rises.map(|_| length(self.stage.rod_pin_m + above_m));
        let number = CardNumber::or(NumberOf::RodPinHeight, height, CardMissing::RodAndWinch);
        let kind = CardKind::PinRod { tube: self.stage.name.clone(), pull, pulls: self.pulls() };
        let made = card(Crank, &self.key("rod", pull), kind, number)
            .needs([
                (YardState::RopeGiven { tube }, NeedWhy::FastGuyStopsIt),
                (YardState::WeightOnPin { tube }, NeedWhy::RodCarries),
                (YardState::StrapSlack, NeedWhy::StrapAlone),
                (YardState::BeneathOpen, NeedWhy::StrapAlone),
            ])
            .gives([YardState::RodPinned { tube, pull }])
            .stands([self.at_the_pin()])
            .minds(CardCaution::PinAndHeight, StopRule::PinWillNotGo);
        if pull > 1 {
            made.needs([(YardState::Pulled { tube, pull: pull - 1 }, NeedWhy::PullAfterPull)])
        } else {
            made
        }
    }

    fn clear_beneath(&self, pull: u32) -> Card {
        let tube = self.stage.tube;
        let radius = length(self.making.plan.mast.fall_radius_m);
        let kind = CardKind::ClearBeneath { tube: self.stage.name.clone(), pull, pulls: self.pulls() };
        card(Crank, &self.key("clear", pull), kind, CardNumber::known(NumberOf::CorridorReach, radius))
            .needs([
                (YardState::RodPinned { tube, pull }, NeedWhy::NothingToPull),
                (YardState::BeneathOpen, NeedWhy::StrapCanSlip),
            ])
            .takes([YardState::BeneathOpen])
            .gives([YardState::BeneathClear])
            .stands([self.making.outside()])
            .minds(CardCaution::StrapAndCrank, StopRule::AnybodyCallsStop)
    }

    fn crank(&self, pull: u32) -> Card {
        let tube = self.stage.tube;
        let rises = self.stage.gain_m(pull).map(length);
        let number = CardNumber::or(NumberOf::PullRises, rises, CardMissing::RodAndWinch);
        let kind = CardKind::CrankTube { tube: self.stage.name.clone(), pull, pulls: self.pulls() };
        let turns = self.lift.and_then(|lift| lift.crank_turns).map(|value| CardValue::Turns { value });
        let hand = self.lift.and_then(|lift| lift.hand_n).map(|value_n| CardValue::Force { value_n });
        let strap = self.lift.and_then(|lift| lift.strap_n).map(|value_n| CardValue::Force { value_n });
        let mut more = vec![
            self.gust(),
            CardNumber::or(NumberOf::CrankTurns, turns, CardMissing::CrankAndDrum),
            CardNumber::or(NumberOf::CrankHand, hand, CardMissing::CrankAndDrum),
            CardNumber::or(NumberOf::OnTheStrap, strap, CardMissing::CordWeight),
        ];
        if Some(pull) == self.pulls() {
            more.insert(0, CardNumber::known(NumberOf::MarkStopsAt, length(self.stage.stop_mark_m)));
        }
        more.extend(self.strands(pull));
        card(Crank, &self.key("crank", pull), kind, number)
            .needs([
                (YardState::RodPinned { tube, pull }, NeedWhy::NothingToPull),
                (YardState::RopeGiven { tube }, NeedWhy::FastGuyStopsIt),
                (YardState::BeneathClear, NeedWhy::StrapCanSlip),
            ])
            .takes([YardState::HandsFree, YardState::StrapSlack, YardState::WeightOnPin { tube }])
            .gives([YardState::HandOnCrank { tube, pull }])
            .more(more)
            .says([self.runs_freely()])
            .stands([CardStand::of(1, StandPlace::AtTheCrank), self.at_the_pin()])
            .stands([CardStand::of(1, StandPlace::Caller)])
            .stands(self.at_ropes())
            .stands([self.making.outside()])
            .minds(CardCaution::StrapAndCrank, StopRule::TightSpot)
    }

    fn runs_freely(&self) -> CardSays {
        let rise = self.guys();
        let names = |rises: bool| -> Vec<String> {
            let of = |guy: &&crate::guys::GuyResult| rise.iter().any(|it| it.id == guy.id) == rises;
            self.making.plan.guys.iter().filter(of).map(|guy| guy.name.clone()).collect()
        };
        let strands = self.making.job.rig.strands.is_some();
        CardSays::RunsFreely {
            tube: self.stage.name.clone(),
            strands,
            slack: names(true),
            fast: names(false),
        }
    }

    /// What the strands, tied to the ring already, need before the last tube goes up, and what they get when it is up.
    fn strands(&self, pull: u32) -> Vec<CardNumber> {
        let is_last = self.making.bench.stages.stages.last().is_some_and(|last| last.tube == self.stage.tube);
        let last = self.making.lighting.as_ref().and_then(|lights| lights.last_tube.as_ref());
        let Some(last) = last.filter(|_| is_last) else { return Vec::new() };
        let known = |what: NumberOf, value: Option<CardValue>| {
            CardNumber::or(what, value, CardMissing::StrandStretch)
        };
        let ends = |of: &dyn Fn(&crate::lighting::StrandSlack) -> Option<f64>| {
            let all: Option<Vec<f64>> = last.strands.iter().map(of).collect();
            let all = all.unwrap_or_default();
            [all.iter().copied().reduce(f64::min), all.iter().copied().reduce(f64::max)]
        };
        let mut numbers = Vec::new();
        if pull == 1 {
            let [least, most] = ends(&|strand| strand.slack_m).map(|m| m.map(length));
            numbers
                .extend([known(NumberOf::StrandSlackLeast, least), known(NumberOf::StrandSlackMost, most)]);
        }
        if pull == self.pulls().unwrap_or(1) {
            let force = |value_n: f64| CardValue::Force { value_n };
            let [least, most] = ends(&|strand| strand.tension_n).map(|n| n.map(force));
            numbers.extend([
                known(NumberOf::StrandsStraightBelow, last.tie_below_m.map(length)),
                known(NumberOf::StrandPullsLeast, least),
                known(NumberOf::StrandPullsMost, most),
            ]);
        }
        numbers
    }

    pub fn gust(&self) -> CardNumber {
        let found = self.making.lifting.stage_gusts.iter().find(|it| it.tube == self.stage.tube);
        match found {
            Some(stage) => super::forces::gust(self.making, NumberOf::GustToCrankIn, &stage.found),
            None => CardNumber::missing(NumberOf::GustToCrankIn, CardMissing::RodAndWinch),
        }
    }

    fn set_pin(&self, pull: u32, last: bool) -> Card {
        let tube = self.stage.tube;
        let [lower_m, _] = self.stage.pins_above_ground_m;
        let number = CardNumber::known(NumberOf::PinHeight, length(lower_m));
        let kind = CardKind::SetPin { tube: self.stage.name.clone(), last };
        let floor = self.stage.platform_m.map(|m| CardNumber::known(NumberOf::PlatformFloor, length(m)));
        card(Crank, &self.key("pin", pull), kind, number)
            .goes_on_with(YardState::HandOnCrank { tube, pull }, NeedWhy::CrankRunsBack)
            .gives([YardState::PinThrough { tube, pull }])
            .more(floor)
            .stands([CardStand::of(1, StandPlace::AtTheCrank), self.at_the_pin()])
            .minds(CardCaution::PinAndHeight, StopRule::PinWillNotGo)
    }

    /// Only now may the hand leave the crank.
    fn lower(&self, pull: u32, last: bool) -> Card {
        let tube = self.stage.tube;
        let load = self.lift.and_then(|lift| lift.mass_kg).map(|value_kg| CardValue::Mass { value_kg });
        let kind = CardKind::LowerOntoPin { tube: self.stage.name.clone(), last };
        card(
            Crank,
            &self.key("lower", pull),
            kind,
            CardNumber::or(NumberOf::WeightOnPin, load, CardMissing::CordWeight),
        )
        .off_the_strap(tube, pull)
        .needs([(YardState::PinThrough { tube, pull }, NeedWhy::NothingToRestOn)])
        .gives([YardState::Pulled { tube, pull }])
        .minds(CardCaution::StrapAndCrank, StopRule::PinWillNotGo)
    }

    fn second_pin(&self, pulls: u32) -> Card {
        let tube = self.stage.tube;
        let [_, upper_m] = self.stage.pins_above_ground_m;
        let number = CardNumber::known(NumberOf::SecondPinHeight, length(upper_m));
        let kind = CardKind::SecondPin { tube: self.stage.name.clone() };
        card(Crank, &self.key("second-pin", pulls), kind, number)
            .needs([
                (YardState::Pulled { tube, pull: pulls }, NeedWhy::PullAfterPull),
                (YardState::WeightOnPin { tube }, NeedWhy::NothingToRestOn),
                (YardState::BeneathOpen, NeedWhy::StrapAlone),
            ])
            .gives([YardState::SecondPinSet { tube }])
            .stands([self.at_the_pin()])
            .minds(CardCaution::PinAndHeight, StopRule::PinWillNotGo)
    }

    fn make_fast(&self) -> Card {
        let tube = self.stage.tube;
        let guys = self.guys();
        let mut lengths: Vec<CardNumber> = guys
            .iter()
            .map(|guy| {
                CardNumber::known(NumberOf::EyeToCollar { guy: guy.name.clone() }, length(guy.chord_m))
            })
            .collect();
        let first = if lengths.is_empty() {
            CardNumber::known(NumberOf::RopesToTend, count(0))
        } else {
            lengths.remove(0)
        };
        // Only the last tube brings their collars to where they belong.
        let whole = self.making.bench.stages.stages.last().is_some_and(|last| last.tube == tube);
        let number = if whole { first } else { CardNumber::known(NumberOf::RopesToTend, count(guys.len())) };
        let mut made = card(
            Crank,
            &self.key("fast", 0),
            CardKind::MakeFastAgain { tube: self.stage.name.clone() },
            number,
        )
        .takes([YardState::RopeGiven { tube }])
        .gives([YardState::GuysFast, YardState::StageUp { tube }])
        .more(if whole { lengths } else { Vec::new() })
        .stands(self.at_ropes())
        .minds(CardCaution::RopesRun, StopRule::AnchorMoves);
        made.needs.push(need(YardState::RopeGiven { tube }, NeedWhy::RopeUntended));
        made.needs([(YardState::SecondPinSet { tube }, NeedWhy::SecondPinHoldsToo)])
    }
}
