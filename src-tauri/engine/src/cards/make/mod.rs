//! The cards of a job, from its plan: a file a phase.

mod base;
mod crank;
mod escape;
mod forces;
mod lay_down;
mod lights;
mod lower;
mod phases;
mod raise;
mod rehearsed;

use super::card::*;
use super::prepare::{FirstUp, WaysLooked};
use super::progress::Deck;
use super::state::{NeedWhy, YardState};
use crate::job::{Hinge, Job};
use crate::lifting::body::Turning;
use crate::lifting::hands::HardestPush;
use crate::lifting::line::{LinePull, RiggedLine};
use crate::lifting::{LiftingWork, TiltWork, lifting_work};
use crate::lighting::{self, LeadWork, LightsWork};
use crate::plan::{Computed, Plan};
use crate::quantity::FieldErrors;
use crate::raising::{self, GuyDoes, GuyRole, RaiseWay};
use crate::rigs::LOAD_CONSTANT_KG;
use crate::workshop::stages::Stages;
use crate::workshop::{BenchWork, bench_work};

/// The cards of a job as planned, in an order in which they may come.
///
/// # Errors
/// Where a section is unknown.
pub fn deck(job: &Job, computed: &Computed) -> Result<Deck, FieldErrors> {
    Ok(planned(job, computed)?.deck)
}

/// The cards, with what their pictures are drawn from.
#[derive(Debug, Clone, PartialEq)]
pub struct CardsPlan {
    pub deck: Deck,
    pub stages: Stages,
    /// None where nobody has said how it turns up, or a weight is not known.
    pub tilt: Option<TiltPlan>,
    /// None while nobody knows where the lights' lead lies.
    pub lead: Option<LeadWork>,
}

/// The mast turning up.
#[derive(Debug, Clone, PartialEq)]
pub struct TiltPlan {
    pub way: RaiseWay,
    pub turning: Turning,
    pub hardest: HardestPush,
    /// A line over a prop with its hardest pull; none where it is walked up.
    pub line: Option<(RiggedLine, LinePull)>,
}

/// The same as [`deck()`], with what is drawn.
///
/// # Errors
/// Where a section is unknown.
pub fn planned(job: &Job, computed: &Computed) -> Result<CardsPlan, FieldErrors> {
    planned_around(job, computed, WaysLooked::NotYet)
}

/// The same where somebody has looked all round for ways that are clear.
///
/// # Errors
/// Where a section is unknown.
pub fn planned_around(job: &Job, computed: &Computed, looked: WaysLooked) -> Result<CardsPlan, FieldErrors> {
    let making = Making { looked, ..Making::of(job, computed)? };
    let begins = making.begins();
    let mut cards = Vec::new();
    if job.cards.comes_down {
        cards.extend(lower::cards(&making));
        cards.extend(lay_down::cards(&making));
    } else {
        cards.extend(base::cards(&making));
        cards.extend(raise::cards(&making));
        cards.extend(crank::cards(&making));
        cards.extend(lights::cards(&making));
    }
    cards.iter_mut().for_each(|card| escape::add(&making, card));
    phases::count_people(&mut cards);
    let phases = phases::prepared(&making, &cards);
    let deck = Deck {
        cards: Deck::in_order(cards, &begins),
        begins,
        phases,
        first_up: making.first_up(),
        forces: forces::on_the_way_up(&making),
    };
    let drawn = making.way.zip(making.lifting.tilt);
    let tilt = drawn.map(|(way, tilt)| TiltPlan {
        way,
        turning: tilt.turning,
        hardest: tilt.hardest,
        line: tilt.rigged.zip(tilt.line).filter(|(_, pull)| pull.pull_n.is_finite()),
    });
    let lead = making.lighting.and_then(|lights| lights.lead);
    Ok(CardsPlan { deck, stages: making.bench.stages, tilt, lead })
}

/// What all cards are made from.
pub(super) struct Making<'a> {
    pub job: &'a Job,
    pub plan: &'a Plan,
    pub bench: BenchWork,
    /// None where nobody has said how it turns up.
    pub way: Option<RaiseWay>,
    /// Forces and gusts.
    pub lifting: LiftingWork,
    /// What was found all round.
    pub looked: WaysLooked,
    /// None without strands.
    pub lighting: Option<LightsWork>,
    /// What is wrong with the way, or open about it.
    pub way_findings: Vec<crate::finding::Finding>,
}

impl<'a> Making<'a> {
    fn of(job: &'a Job, computed: &'a Computed) -> Result<Self, FieldErrors> {
        let (plan, bench) = (&computed.plan, bench_work(job, computed)?);
        let way = raising::as_said(job, computed);
        let lifting = lifting_work(job, computed, &bench, way.as_ref())?;
        let way_findings = match &way {
            Some(way) => way.findings.clone(),
            None => raising::findings_as_said(job, computed),
        };
        let lighting = lighting::lights(job, computed, &bench.stages);
        Ok(Self { job, plan, bench, way, lifting, lighting, looked: WaysLooked::NotYet, way_findings })
    }

    /// All of it stands and is lit.
    fn stands(&self) -> Vec<YardState> {
        let mut begins = vec![
            YardState::HandsFree,
            YardState::GuysFast,
            YardState::SideGuysFast,
            YardState::StopGuysSet,
            YardState::BaseStaked,
            YardState::StrapSlack,
            YardState::BeneathOpen,
        ];
        if self.job.rig.strands.is_some() {
            begins.extend([YardState::Lit, YardState::LowerEndsTied, YardState::StrandsSet]);
        } else {
            begins.push(YardState::PowerOff);
        }
        if !self.turns_with_base() {
            begins.push(YardState::HingeHeld);
        }
        for tube in self.bench.stages.stages.iter().map(|it| it.tube) {
            let up = [
                YardState::WeightOnPin { tube },
                YardState::SecondPinSet { tube },
                YardState::StageUp { tube },
            ];
            begins.extend(up);
        }
        begins
    }

    /// Tubes stand on their stools, nothing is tied, nobody has anything in hand.
    fn begins(&self) -> Vec<YardState> {
        if self.job.cards.comes_down {
            return self.stands();
        }
        let mut begins = vec![
            YardState::HandsFree,
            YardState::FarGuysFree,
            YardState::StrapSlack,
            YardState::BeneathOpen,
            YardState::PowerOff,
        ];
        begins.extend(self.bench.stages.stages.iter().map(|it| YardState::WeightOnPin { tube: it.tube }));
        begins
    }

    pub fn tilt(&self) -> Option<&TiltWork> {
        self.lifting.tilt.as_ref()
    }

    pub fn turns_with_base(&self) -> bool {
        self.job.raising.hinge == Hinge::BaseEdge
    }

    fn first_up(&self) -> FirstUp {
        let tube_kg = self.plan.mast.stages.first().map_or(0.0, |tube| tube.mass_kg);
        let offered = tube_kg > 0.0 && tube_kg <= LOAD_CONSTANT_KG;
        let chosen = offered && self.job.cards.bare_tube_first;
        FirstUp { offered, chosen, tube_kg, most_kg: LOAD_CONSTANT_KG }
    }

    pub fn guys_with(&self, role: GuyRole) -> Vec<&raising::TiltedGuy> {
        self.way.iter().flat_map(|way| &way.guys).filter(|guy| guy.role == role).collect()
    }

    /// Guys that somebody gives and takes in on the way.
    pub fn tended(&self) -> Vec<&raising::TiltedGuy> {
        let tended = |guy: &&raising::TiltedGuy| guy.angles.iter().any(|at| at.does == GuyDoes::Tended);
        self.way.iter().flat_map(|way| &way.guys).filter(tended).collect()
    }

    /// Everybody who has nothing to do stands outside the circle in which it can fall.
    pub fn outside(&self) -> CardStand {
        CardStand {
            people: None,
            place: StandPlace::OutsideTheFall { radius_m: self.plan.mast.fall_radius_m },
            escape: None,
        }
    }
}

pub(super) fn need(state: YardState, why: NeedWhy) -> CardNeed {
    CardNeed { state, why }
}

pub(super) fn length(value_m: f64) -> CardValue {
    CardValue::Length { value_m, half_width_95_m: None }
}

pub(super) fn count(value: usize) -> CardValue {
    CardValue::Count { value: u32::try_from(value).unwrap_or(u32::MAX) }
}

/// A card that begins with free hands and leaves them free; what it needs and does is added to it.
pub(super) fn card(phase: CardPhase, key: &str, kind: CardKind, number: CardNumber) -> Card {
    Card {
        key: key.to_owned(),
        phase,
        kind,
        number,
        more: Vec::new(),
        says: Vec::new(),
        stands: Vec::new(),
        stage: None,
        caution: CardCaution::Heavy,
        stop_rule: StopRule::AnybodyCallsStop,
        needs: vec![need(YardState::HandsFree, NeedWhy::HandsAreFull)],
        gives: Vec::new(),
        takes: Vec::new(),
    }
}

impl Card {
    pub(super) fn needs<const N: usize>(mut self, needs: [(YardState, NeedWhy); N]) -> Self {
        self.needs.extend(needs.map(|(state, why)| need(state, why)));
        self
    }

    /// It goes on with what somebody has in hand, and so does not ask for free hands.
    pub(super) fn goes_on_with(mut self, state: YardState, why: NeedWhy) -> Self {
        self.needs.retain(|it| it.state != YardState::HandsFree);
        self.needs.push(need(state, why));
        self
    }

    /// Whoever has the crank in hand gives the weight off the strap, onto what waits for it; only then are hands free.
    pub(super) fn off_the_strap(self, tube: u32, pull: u32) -> Self {
        let in_hand = YardState::HandOnCrank { tube, pull };
        self.goes_on_with(in_hand, NeedWhy::CrankRunsBack)
            .takes([in_hand, YardState::RodPinned { tube, pull }, YardState::BeneathClear])
            .gives([
                YardState::WeightOnPin { tube },
                YardState::StrapSlack,
                YardState::HandsFree,
                YardState::BeneathOpen,
            ])
            .stands([CardStand::of(1, StandPlace::AtTheCrank)])
    }

    pub(super) fn gives<const N: usize>(mut self, states: [YardState; N]) -> Self {
        self.gives.extend(states);
        self
    }

    pub(super) fn takes<const N: usize>(mut self, states: [YardState; N]) -> Self {
        self.takes.extend(states);
        self
    }

    pub(super) fn more(mut self, numbers: impl IntoIterator<Item = CardNumber>) -> Self {
        self.more.extend(numbers);
        self
    }

    pub(super) fn says(mut self, says: impl IntoIterator<Item = CardSays>) -> Self {
        self.says.extend(says);
        self
    }

    pub(super) fn stands(mut self, stands: impl IntoIterator<Item = CardStand>) -> Self {
        self.stands.extend(stands);
        self
    }

    pub(super) fn minds(mut self, caution: CardCaution, stop_rule: StopRule) -> Self {
        (self.caution, self.stop_rule) = (caution, stop_rule);
        self
    }
}
