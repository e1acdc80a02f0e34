//! What the cards of the demo must be, by an account of the world that shares nothing with the cards' own needs.

use std::collections::BTreeSet;

use super::*;
use crate::job::{FastBefore, Hinge, Job, PullLine, SoilFeel, StrandsInTilt, TiltedTubes};
use crate::numerics::random::Random;
use crate::numerics::real::{atan_deg, cos_deg, sin_deg};
use crate::raising::{BearingRun, GuyDoes, RaiseWays};
use crate::{demo, plan};

fn demo_deck(change: impl Fn(&mut Job)) -> Deck {
    let mut job = demo::lantern_green();
    change(&mut job);
    let computed = plan::compute(&job).expect("plan");
    let mut deck = deck(&job, &computed).expect("cards");
    // What the yard says against it is tested apart.
    deck.phases.iter_mut().for_each(|phase| phase.stops.clear());
    deck
}

const LINE: PullLine = PullLine { prop_height_m: 2.0, prop_behind_m: 0.2, pulled_from_m: 8.0, tied_m: 2.4 };

fn on_a_pin(job: &mut Job) {
    job.raising.hinge = Hinge::Pin { height_m: 0.4 };
    job.raising.lies_toward_deg = Some(45.0);
}

fn keys(deck: &Deck, places: &[usize]) -> Vec<String> {
    places.iter().map(|at| deck.cards[*at].key.clone()).collect()
}

/// The yard as a bystander sees it: told by the kinds of cards alone.
#[derive(Default)]
struct Bystander {
    hinge: bool,
    side: bool,
    stop: bool,
    far: bool,
    lying: bool,
    standing: bool,
    in_hands: bool,
    hanging: Option<String>,
    pinned: bool,
    cleared: bool,
    base_staked: bool,
    line: bool,
    told: bool,
    way_clear: bool,
    tubes_pinned: bool,
    tied_along: bool,
    ropes: bool,
    plumb: bool,
    strands_loose: bool,
}

/// What there is to do in this yard at all.
struct Yard {
    side: bool,
    with_base: bool,
    pins: bool,
    tied_along: bool,
    ropes: bool,
    strands: bool,
}

impl Yard {
    fn of(deck: &Deck, with_base: bool) -> Self {
        let has = |is: fn(&CardKind) -> bool| deck.cards.iter().any(|card| is(&card.kind));
        Self {
            with_base,
            side: has(|kind| *kind == CardKind::SetSideGuys),
            pins: has(|kind| *kind == CardKind::PinTubes),
            tied_along: has(|kind| *kind == CardKind::TieStrandsAlong),
            ropes: has(|kind| *kind == CardKind::TakeRopes),
            strands: has(|kind| matches!(kind, CardKind::FreeStrands | CardKind::HangStrands)),
        }
    }
}

impl Bystander {
    /// Told, out of the way, and nothing on the mast or at its ropes that is loose.
    fn ready_to_lift(&self, yard: &Yard) -> Result<(), &'static str> {
        if !(self.told && self.way_clear) {
            return Err("lifted before everybody knows the calls, or with somebody in the way");
        }
        if yard.pins && !self.tubes_pinned {
            return Err("lifted with a tube that slides out");
        }
        if yard.tied_along && !self.tied_along {
            return Err("lifted with strands that trail");
        }
        if yard.ropes && !self.ropes {
            return Err("lifted with a rope that nobody holds");
        }
        Ok(())
    }

    /// What is wrong with doing this now; nothing where all is well.
    fn sees(&mut self, kind: &CardKind, yard: &Yard) -> Result<(), &'static str> {
        let (has_side, with_base) = (yard.side, yard.with_base);
        if self.in_hands && !matches!(kind, CardKind::SetFarGuys) {
            return Err("somebody lets go of the mast");
        }
        let on_crank = matches!(kind, CardKind::SetPin { .. } | CardKind::LowerOntoPin { .. });
        if self.hanging.is_some() && !on_crank {
            return Err("the strap holds alone while somebody does something else");
        }
        match kind {
            CardKind::TellEverybody => self.told = true,
            CardKind::ClearTheWay => self.way_clear = true,
            CardKind::PinTubes => self.tubes_pinned = true,
            CardKind::TieStrandsAlong => self.tied_along = true,
            CardKind::StandBareTube | CardKind::TakeRopes | CardKind::GiveRope { .. } if !self.told => {
                return Err("begun before everybody knows the calls");
            }
            CardKind::StandBareTube | CardKind::LayMast if !self.way_clear => {
                return Err("stood up or laid where somebody is");
            }
            CardKind::GiveRope { .. } if !self.plumb => return Err("untied to go up while it leans"),
            CardKind::GiveRope { .. } if yard.strands && !self.strands_loose => {
                return Err("a tube goes up against strands that are tied");
            }
            CardKind::TakeRopes => self.ropes = true,
            CardKind::PlumbMast => self.plumb = true,
            CardKind::FreeStrands | CardKind::HangStrands => self.strands_loose = true,
            CardKind::LayMast if !with_base && !self.hinge => return Err("put on a base that slides"),
            CardKind::LayMast => self.lying = true,
            CardKind::StakeBase => {
                self.base_staked = true;
                self.hinge |= !with_base;
            }
            CardKind::HoldEdge => self.hinge = true,
            CardKind::SetSideGuys => self.side = true,
            CardKind::SetStopGuys => self.stop = true,
            CardKind::RigLine => self.line = true,
            CardKind::PullUp if !self.line => return Err("pulled before the prop stands"),
            CardKind::WalkUp | CardKind::PullUp => {
                let held = self.hinge && self.stop && (self.side || !has_side) && !self.far && self.lying;
                if !held {
                    return Err("lifted before hinge, side and stop guys hold");
                }
                self.ready_to_lift(yard)?;
                (self.in_hands, self.standing, self.lying) = (true, true, false);
            }
            CardKind::SetFarGuys => {
                if !self.standing {
                    return Err("far guys before plumb");
                }
                (self.far, self.in_hands) = (true, false);
            }
            CardKind::LetGoEdge if !(self.far && self.base_staked) => return Err("edge let go too early"),
            CardKind::ClearBeneath { .. } => self.cleared = true,
            CardKind::PinRod { .. } => {
                if self.cleared {
                    return Err("somebody goes beneath what was cleared");
                }
                self.pinned = false;
            }
            CardKind::CrankTube { tube, .. } => {
                if !(self.cleared && self.far) {
                    return Err("cranked with somebody beneath, or with no guys");
                }
                self.hanging = Some(tube.clone());
            }
            CardKind::SetPin { .. } => self.pinned = true,
            CardKind::LowerOntoPin { .. } => {
                if !self.pinned {
                    return Err("let down onto nothing");
                }
                self.hanging = None;
                self.cleared = false;
            }
            CardKind::LayRing | CardKind::HoldRing | CardKind::TieLowerEnds if self.cleared => {
                return Err("somebody walks in beneath");
            }
            _ => {}
        }
        Ok(())
    }
}

/// Every way of choosing among what may come, by chance: nothing goes wrong, and every card is reached.
fn all_is_well(deck: &Deck, with_base: bool, seed: u64) {
    let mut random = Random::seeded(seed);
    let yard = Yard::of(deck, with_base);
    let (mut bystander, mut ticked) = (Bystander::default(), Vec::new());
    loop {
        let progress = deck.progress(&ticked);
        assert!(progress.rests_on_nothing.is_empty());
        let Some(at) = random.choose(&progress.may_come) else { break };
        let card = &deck.cards[at];
        if let Err(wrong) = bystander.sees(&card.kind, &yard) {
            panic!("{wrong}: {} after {ticked:?}", card.key);
        }
        ticked.push(card.key.clone());
    }
    let left = deck.progress(&ticked).waits;
    let left: Vec<(&str, &[CardNeed])> =
        left.iter().map(|it| (deck.cards[it.card].key.as_str(), it.missing.as_slice())).collect();
    assert!(left.is_empty(), "never reached: {left:?}");
    // Two phones' ticks in any order are the same work.
    random.shuffle(&mut ticked);
    assert_eq!(deck.progress(&ticked).done.len(), deck.cards.len());
}

trait ByChance {
    fn choose(&mut self, of: &[usize]) -> Option<usize>;
    fn shuffle(&mut self, keys: &mut [String]);
}

impl ByChance for Random {
    fn choose(&mut self, of: &[usize]) -> Option<usize> {
        let at = (self.even() * of.len() as f64) as usize;
        of.get(at.min(of.len().saturating_sub(1))).copied()
    }

    fn shuffle(&mut self, keys: &mut [String]) {
        for at in (1..keys.len()).rev() {
            let other = (self.even() * (at + 1) as f64) as usize;
            keys.swap(at, other.min(at));
        }
    }
}

#[test]
fn no_order_that_may_be_chosen_breaks_a_prerequisite() {
    type Change<'a> = &'a dyn Fn(&mut Job);
    let jobs: [(Change, bool); 6] = [
        (&|_| {}, true),
        (&on_a_pin, false),
        (&|job| job.cards.change(|it| it.bare_tube_first = true), true),
        (&|job| job.raising.line = Some(LINE), true),
        (&|job| job.raising.strands = StrandsInTilt::PutOnLater, true),
        (
            &|job| {
                on_a_pin(job);
                job.rig.strands = None;
                job.raising.tubes = TiltedTubes::DrawnOut;
            },
            false,
        ),
    ];
    for (which, (change, with_base)) in jobs.into_iter().enumerate() {
        let deck = demo_deck(change);
        for seed in 0..20 {
            all_is_well(&deck, with_base, 100 * which as u64 + seed);
        }
    }
}

/// A job drawn by chance: so many tubes, either way of turning up, strands anywhere or nowhere, some things left open.
fn drawn(random: &mut Random) -> (Job, bool) {
    let mut job = demo::lantern_green();
    let mut coin = |share: f64| random.even() < share;
    let tubes = if coin(0.3) { 1 } else { 1 + 2 * usize::from(coin(0.6)) };
    if tubes == 1 {
        job.rig.tubes.truncate(1);
        job.rig.tubes.iter_mut().for_each(|tube| tube.length_m = 5.8);
    } else if coin(0.4) {
        // A fourth tube, as the second and the third are.
        let mut inner = job.rig.tubes[2].clone();
        inner.name = "Innermost tube".to_owned();
        inner.section = crate::job::Section::Measured { outside_mm: 25.0, wall_mm: 2.5 };
        inner.calliper = Default::default();
        job.rig.tubes.push(inner);
    }
    let with_base = coin(0.5);
    if !with_base {
        on_a_pin(&mut job);
        job.raising.lies_toward_deg = Some(10.0 * f64::from(u8::from(coin(0.5))) + 20.0);
    }
    job.raising.tubes = if coin(0.5) { TiltedTubes::RunDown } else { TiltedTubes::DrawnOut };
    if coin(0.3) {
        job.rig.strands = None;
    } else if coin(0.5) {
        job.raising.strands = StrandsInTilt::PutOnLater;
    }
    job.cards.change(|it| it.bare_tube_first = coin(0.5));
    if coin(0.3) {
        job.workshop.lift.rod_length_m = None;
    }
    (job, with_base)
}

#[test]
fn no_order_of_a_job_drawn_by_chance_breaks_one() {
    let mut random = Random::seeded(11);
    let mut lengths = BTreeSet::new();
    for draw in 0..14 {
        let (job, with_base) = drawn(&mut random);
        let computed = plan::compute(&job).expect("it can be placed");
        let mut deck = deck(&job, &computed).expect("every section is known");
        deck.phases.iter_mut().for_each(|phase| phase.stops.clear());
        lengths.insert(deck.cards.len());
        for seed in 0..4 {
            all_is_well(&deck, with_base, 1000 + 10 * draw + seed);
        }
    }
    assert!(lengths.len() > 5, "the jobs differ: {lengths:?}");
}

#[test]
fn the_order_follows_from_what_cards_need_and_not_from_their_list() {
    let deck = demo_deck(|_| {});
    let mut cards = deck.cards.clone();
    cards.reverse();
    let ordered = Deck { cards: Deck::in_order(cards, &deck.begins), ..deck.clone() };
    let all: Vec<String> = ordered.cards.iter().map(|card| card.key.clone()).collect();
    // As it stands in the deck, each card may come when its turn is.
    assert_eq!(ordered.progress(&all).done, (0..all.len()).collect::<Vec<_>>());
    let own: Vec<String> = deck.cards.iter().map(|card| card.key.clone()).collect();
    assert_eq!(deck.progress(&own).done, (0..own.len()).collect::<Vec<_>>());
    assert_ne!(all, own, "there is a choice");
    assert_eq!(own.iter().collect::<BTreeSet<_>>().len(), own.len(), "every card has a key of its own");
}

/// Cards of the lights could come at any time: not while hands hold the mast, the crank, or the bare tube.
#[test]
fn while_hands_are_full_only_what_frees_them_may_come() {
    let deck = demo_deck(|job| job.cards.change(|it| it.bare_tube_first = true));
    let all: Vec<String> = deck.cards.iter().map(|card| card.key.clone()).collect();
    let follows = |key: &str| {
        let at = all.iter().position(|other| other == key).expect(key);
        keys(&deck, &deck.progress(&all[..=at]).may_come)
    };
    assert!(follows("raise:stop-guys").contains(&"lights:lay-lead".to_owned()));
    assert_eq!(follows("raise:walk-up"), ["raise:far-guys"]);
    assert_eq!(follows("base:bare-tube"), ["base:measure-foot"]);
    assert_eq!(follows("base:measure-foot"), ["base:lay-bare-tube"]);
    assert_eq!(follows("crank:2-1-crank"), ["crank:2-1-pin"]);
    assert_eq!(follows("crank:2-1-pin"), ["crank:2-1-lower"]);
}

#[test]
fn the_hinge_has_its_card_in_either_way_of_turning_up() {
    let with_base = demo_deck(|_| {});
    let on_pin = demo_deck(on_a_pin);
    let gives_hinge = |deck: &Deck| {
        let gives = deck.cards.iter().filter(|card| card.gives.contains(&YardState::HingeHeld));
        gives.map(|card| card.key.clone()).collect::<Vec<_>>()
    };
    assert_eq!(gives_hinge(&with_base), ["raise:hold-edge"]);
    assert_eq!(gives_hinge(&on_pin), ["base:stake"]);
    assert!(!on_pin.cards.iter().any(|card| card.kind == CardKind::LetGoEdge));
}

#[test]
fn who_waits_is_told_for_what_and_why() {
    let deck = demo_deck(|_| {});
    let begin = deck.progress(&[]);
    let place = |key: &str| deck.cards.iter().position(|card| card.key == key).expect(key);
    let walk = begin.waits.iter().find(|it| it.card == place("raise:walk-up")).expect("it waits");
    let missing: Vec<(YardState, NeedWhy)> = walk.missing.iter().map(|it| (it.state, it.why)).collect();
    assert!(missing.contains(&(YardState::HingeHeld, NeedWhy::FootKicksOut)), "{missing:?}");
    assert!(missing.contains(&(YardState::StopGuysSet, NeedWhy::GoesOverPastPlumb)), "{missing:?}");
    assert!(!missing.contains(&(YardState::FarGuysFree, NeedWhy::TooShortUntilPlumb)), "they are free");
}

#[test]
fn a_tick_that_is_taken_back_takes_along_what_rested_on_it() {
    let deck = demo_deck(|_| {});
    let all: Vec<String> = deck.cards.iter().map(|card| card.key.clone()).collect();
    let far = all.iter().position(|key| key == "raise:far-guys").expect("far");
    let ticked = &all[..=far];
    let left = deck.taken_back(ticked, "raise:hold-edge");
    for gone in ["raise:hold-edge", "raise:walk-up", "raise:far-guys"] {
        assert!(!left.contains(&gone.to_owned()), "{gone} in {left:?}");
    }
    for stays in ["base:lay", "raise:side-guys", "raise:lay"] {
        assert!(left.contains(&stays.to_owned()), "{stays} not in {left:?}");
    }
    // The last one takes nothing along.
    assert_eq!(deck.taken_back(ticked, "raise:far-guys").len(), far);
    // And what stays ticked in the job without it counts as open.
    let holey: Vec<String> = ticked.iter().filter(|key| *key != "raise:hold-edge").cloned().collect();
    let open = keys(&deck, &deck.progress(&holey).rests_on_nothing);
    assert_eq!(open, ["raise:walk-up", "raise:far-guys"]);
}

#[test]
fn the_numbers_are_those_of_the_rooms_they_come_from() {
    let job = demo::lantern_green();
    let computed = plan::compute(&job).expect("plan");
    let deck = deck(&job, &computed).expect("cards");
    let card = |key: &str| deck.cards.iter().find(|card| card.key == key).expect("card");
    let bench = crate::workshop::bench_work(&job, &computed).expect("bench");
    let (first, lift) = (&bench.stages.stages[0], &bench.lift.stages[0]);
    let of = |key: &str| card(key).number.value.expect("known");
    let rises = first.rises.expect("rod and winch are known");
    let crank = format!("crank:{}-1-crank", first.tube);
    assert_eq!(of(&crank), CardValue::Length { value_m: rises.each_m, half_width_95_m: None });
    let turns = lift.crank_turns.map(|value| CardValue::Turns { value });
    assert!(card(&crank).more.iter().any(|it| it.what == NumberOf::CrankTurns && it.value == turns));
    let pin = format!("crank:{}-1-pin", first.tube);
    let pin_m = first.pins_above_ground_m[0];
    assert_eq!(of(&pin), CardValue::Length { value_m: pin_m, half_width_95_m: None });
    // By hand, over the demo's tubes run down on their stools and all else at the top.
    let CardValue::Force { value_n } = of("raise:walk-up") else { panic!("a force") };
    let way = crate::raising::as_said(&job, &computed).expect("way");
    let foot_m = computed.plan.mast.foot_m - way.hinge[2];
    let tubes = computed.plan.mast.stages.iter().zip(&bench.stages.tubes);
    let tubes: Vec<(f64, f64, f64)> =
        tubes.map(|(stage, tube)| (stage.mass_kg, tube.stands_m, tube.length_m)).collect();
    let all_kg = crate::workshop::stages::weight_kg(&job, &computed.plan, &bench.fit, 0).unwrap().unwrap();
    let rest_kg = all_kg - tubes.iter().map(|it| it.0).sum::<f64>();
    let long_m = foot_m + tubes.iter().map(|it| it.1 + it.2).fold(0.0, f64::max);
    let moment: f64 =
        tubes.iter().map(|it| it.0 * (foot_m + it.1 + it.2 / 2.0)).sum::<f64>() + rest_kg * long_m;
    // Longer than the grip, it is hardest at 45° + α/2: W·c·(1 − sin α)/(2·(h − g)·cos α), the demo's hands at 55 in over its own slope α
    // along the lying mast, the hinge g over it, by whole degrees; or lying, at its end, W·c·cos θ/long, where it is as short as here.
    let [east, north] = crate::quantity::bearing::unit(way.lies_toward_deg);
    let ground =
        |out_m: f64| computed.ground.height([way.hinge[0] + out_m * east, way.hinge[1] + out_m * north]);
    let slope_deg = atan_deg((ground(way.reach_m) - ground(0.0)) / way.reach_m);
    let over_m = 55.0 * 0.0254 - (way.hinge[2] - ground(0.0));
    let walking_n = moment * 9.80665 * (1.0 - sin_deg(slope_deg)) / (2.0 * over_m * cos_deg(slope_deg));
    let by_hand_n = walking_n.max(moment * 9.80665 * cos_deg(way.lying_deg) / long_m);
    assert!((value_n / by_hand_n - 1.0).abs() < 1e-3, "{value_n} {by_hand_n} {slope_deg}");
}

#[test]
fn what_nobody_entered_is_no_number() {
    let deck = demo_deck(|job| {
        job.workshop.lift.rod_length_m = None;
        job.workshop.lift.drum_mm = None;
        if let Some(strands) = &mut job.rig.strands {
            strands.cord.mass_g_per_m = None;
        }
    });
    let card = |key: &str| deck.cards.iter().find(|card| card.key == key).expect("card");
    assert_eq!(card("raise:walk-up").number.missing, Some(CardMissing::CordWeight));
    assert_eq!(card("raise:walk-up").number.value, None);
    assert_eq!(card("crank:2-1-crank").number.missing, Some(CardMissing::RodAndWinch));
    let people = deck.phases.iter().find(|it| it.phase == CardPhase::Raise).map(|it| it.people.at_least);
    assert_eq!(people, Some(None), "nobody knows how many it takes");
    let unsaid = demo_deck(|job| job.raising.fast_before = FastBefore::Unsaid);
    assert!(!unsaid.cards.iter().any(|card| card.kind == CardKind::WalkUp));
    let raise = unsaid.phases.iter().find(|it| it.phase == CardPhase::Raise).expect("raise");
    assert!(raise.missing.contains(&CardMissing::HowItTurnsUp) && !raise.not_known.is_empty());
}

/// Whoever is told is told of as many as the list before the phase asks for, in every phase and both ways up and down; and somebody
/// calls wherever a tube or the mast moves.
#[test]
fn who_is_told_and_who_is_asked_for_are_as_many() {
    let changes: [&dyn Fn(&mut Job); 4] = [
        &|_| {},
        &|job| job.cards.change(|it| it.comes_down = true),
        &|job| job.rig.strands = None,
        &|job| {
            job.raising.line =
                Some(PullLine { prop_height_m: 2.5, prop_behind_m: 0.0, pulled_from_m: 9.0, tied_m: 2.5 });
        },
    ];
    let mut told = 0;
    for change in changes {
        let deck = demo_deck(change);
        for card in &deck.cards {
            let phase = deck.phases.iter().find(|phase| phase.phase == card.phase).expect("its phase");
            if let (NumberOf::PeopleNeeded, Some(value)) = (&card.number.what, card.number.value) {
                let people = phase.people.at_least.expect("known");
                assert_eq!(value, CardValue::Count { value: people }, "{}", card.key);
                told += 1;
            }
            let moves = matches!(
                card.kind,
                CardKind::WalkUp
                    | CardKind::PullUp
                    | CardKind::LetMastDown
                    | CardKind::CrankTube { .. }
                    | CardKind::TakeLoad { .. }
                    | CardKind::LetDownByCrank { .. }
            );
            let calls = card.stands.iter().any(|stand| stand.place == StandPlace::Caller);
            assert!(calls || !moves, "nobody calls at {}", card.key);
        }
    }
    assert_eq!(told, 5, "one told of each way up, and of running down and laying down");
}

/// Nobody lifts where all round was looked at and no bearing is clear; where nobody looked that is said, and nothing stops. A search that was
/// cut short says nothing.
#[test]
fn no_bearing_that_is_clear_is_a_stop_and_one_not_looked_for_is_said() {
    let job = demo::lantern_green();
    let computed = plan::compute(&job).expect("plan");
    let raise = |looked: WaysLooked| {
        let deck = planned_around(&job, &computed, looked).expect("cards").deck;
        let phase = deck.phases.iter().find(|it| it.phase == CardPhase::Raise).cloned().expect("raise");
        (deck, phase)
    };
    let (deck, stopped) = raise(WaysLooked::NoneClear { degrees: 360 });
    assert!(stopped.stops.contains(&PhaseStop::NoWayClear { degrees: 360 }));
    let may_come = deck.progress(&[]).may_come;
    assert!(may_come.iter().all(|at| deck.cards[*at].phase != CardPhase::Raise));
    let (_, open) = raise(WaysLooked::NotYet);
    assert!(open.stops.is_empty(), "{:?}", open.stops);
    assert_eq!(open.around, Some(PhaseWays { own_clear: Some(true), looked: WaysLooked::NotYet }));
    let run = |to_deg: u32| {
        let bearings = vec![BearingRun { from_deg: 0, to_deg, refused_by: Some(0) }];
        RaiseWays { waits_for: vec![], bearings, refusals: vec![], best: None, as_said: None }
    };
    assert_eq!(WaysLooked::of(&run(359)), WaysLooked::NoneClear { degrees: 360 });
    assert_eq!(WaysLooked::of(&run(99)), WaysLooked::NotYet, "stopped half way");
    let best = crate::raising::as_said(&job, &computed);
    let best_deg = best.as_ref().expect("a way").lies_toward_deg;
    assert_eq!(WaysLooked::of(&RaiseWays { best, ..run(99) }), WaysLooked::Clear { best_deg });
}

/// The strands' slack and pull stand on the cards of the last tube alone, the first and the last pull, and every tie on its card: from
/// the room that works them out.
#[test]
fn the_last_tube_s_cards_say_what_the_strands_need() {
    let deck = demo_deck(|_| {});
    let with = |what: &dyn Fn(&NumberOf) -> bool| -> Vec<(&str, Option<CardValue>)> {
        let all = deck.cards.iter().flat_map(|card| card.more.iter().map(move |number| (card, number)));
        all.filter(|(_, number)| what(&number.what))
            .map(|(card, number)| (card.key.as_str(), number.value))
            .collect()
    };
    let least = with(&|what| *what == NumberOf::StrandSlackLeast);
    let [(key, Some(CardValue::Length { value_m, .. }))] = least.as_slice() else { panic!("{least:?}") };
    assert!(key.ends_with("-1-crank") && *value_m > 0.1, "{key} {value_m}");
    let most = with(&|what| *what == NumberOf::StrandPullsMost);
    let [(_, Some(CardValue::Force { value_n }))] = most.as_slice() else { panic!("{most:?}") };
    assert!((value_n - 12.0).abs() < 1e-6, "the tightest gets what is to be set: {value_n}");
    assert_eq!(with(&|what| matches!(what, NumberOf::TieAt { .. })).len(), 21);
    let unsaid = demo_deck(|job| job.lights.change(|lights| lights.stretch_measured = false));
    let numbers = unsaid.cards.iter().flat_map(|card| &card.more);
    let open: Vec<_> = numbers.filter(|number| number.missing == Some(CardMissing::StrandStretch)).collect();
    assert_eq!(open.len(), 5);
    assert!(open.iter().all(|number| number.value.is_none()));
}

#[test]
fn a_stop_of_its_phase_keeps_every_card_of_it() {
    let mut job = demo::lantern_green();
    // More than one person's 23 kg at the hands, and less than two lift together.
    job.rig.topper.as_mut().expect("a topper").mass_kg += 12.0;
    let computed = plan::compute(&job).expect("plan");
    let of = |job: &Job| deck(job, &computed).expect("cards");
    let raise = |deck: &Deck| deck.phases.iter().find(|it| it.phase == CardPhase::Raise).cloned().unwrap();
    let needed = raise(&of(&job)).people.lifting.expect("known");
    assert!(needed > 1, "the demo's mast is more than one can push");
    let too_few =
        |deck: &Deck| raise(deck).stops.iter().any(|it| matches!(it, PhaseStop::TooFewHands { .. }));
    job.cards.change(|it| it.lifters = Some(1));
    assert!(too_few(&of(&job)));
    assert!(of(&job).stopped(CardPhase::Raise));
    let progress = of(&job).progress(&[]);
    assert!(progress.may_come.iter().all(|at| of(&job).cards[*at].phase != CardPhase::Raise));
    job.cards.change(|it| it.lifters = Some(needed as u8));
    assert!(!too_few(&of(&job)), "as many as it takes");
    // More than four lift together: a stop whoever is named, and nobody counts how many it takes.
    let too_heavy =
        |deck: &Deck| raise(deck).stops.iter().any(|it| matches!(it, PhaseStop::TooHeavyForHands { .. }));
    assert!(!too_heavy(&of(&job)));
    job.rig.topper.as_mut().expect("a topper").mass_kg += 30.0;
    for lifters in [None, Some(1), Some(8)] {
        job.cards.change(|it| it.lifters = lifters);
        let deck = of(&job);
        assert!(too_heavy(&deck) && !too_few(&deck) && raise(&deck).people.lifting.is_none());
    }
}

/// A line over a prop takes the place of the walk, and its prop stands before anybody pulls; with a gust forecast above the one up to which
/// anybody begins nothing of the phase may come.
#[test]
fn the_other_way_up_and_the_forecast() {
    let of = |change: &dyn Fn(&mut Job)| {
        let mut job = demo::lantern_green();
        change(&mut job);
        let computed = plan::compute(&job).expect("plan");
        deck(&job, &computed).expect("cards")
    };
    let pulled = of(&|job| job.raising.line = Some(LINE));
    let has = |deck: &Deck, kind: &CardKind| deck.cards.iter().any(|card| card.kind == *kind);
    assert!(
        has(&pulled, &CardKind::PullUp)
            && has(&pulled, &CardKind::RigLine)
            && !has(&pulled, &CardKind::WalkUp)
    );
    let raise =
        |deck: &Deck| deck.phases.iter().find(|it| it.phase == CardPhase::Raise).cloned().expect("raise");
    let begin = raise(&of(&|_| ())).gust.and_then(|gust| gust.begin_m_per_s).expect("all is known");
    let stops = |gust: f64| {
        let deck = of(&|job| job.cards.change(|it| it.forecast_gust_m_per_s = Some(gust)));
        raise(&deck).stops.iter().any(|stop| matches!(stop, PhaseStop::GustForecast { .. }))
    };
    assert!(stops(begin + 0.01) && !stops(begin - 0.01));
    // The margin of the job: a quarter.
    let limit = raise(&of(&|_| ())).gust.and_then(|gust| gust.limit_m_per_s).expect("known");
    assert!((begin - 0.75 * limit).abs() < 1e-12);
    // What holds the foot is not known without the soil: no number and no good sign.
    let open = raise(&of(&|job| job.yard.soil = SoilFeel::Unknown));
    assert!(
        open.missing.contains(&CardMissing::StakesInSoil)
            && open.missing.contains(&CardMissing::RopesAndAnchors)
    );
    assert_eq!(open.gust.and_then(|gust| gust.limit_m_per_s), None);
}

/// Everybody who is where it moves or falls has a side to step to, square to the lying mast; the others are out of its way.
#[test]
fn everybody_has_a_side_to_step_to() {
    let deck = demo_deck(|_| {});
    for card in deck.cards.iter().filter(|card| matches!(card.phase, CardPhase::Raise | CardPhase::Crank)) {
        for stand in &card.stands {
            let outside = matches!(stand.place, StandPlace::OutsideTheFall { .. });
            assert_eq!(stand.escape.is_none(), outside, "{}: {stand:?}", card.key);
        }
    }
    let walk = deck.cards.iter().find(|card| card.kind == CardKind::WalkUp).expect("it is walked up");
    let own = walk.stands.iter().find_map(|stand| match stand.escape {
        Some(CardEscape::OwnSide { left_deg, right_deg }) => Some((left_deg, right_deg)),
        _ => None,
    });
    // The demo's front leg points along 225°, so it lies along 45°.
    assert_eq!(own, Some((315.0, 135.0)));
}

/// Coming down as a bystander sees it: told by the kinds of cards alone.
#[derive(Default)]
struct WatcherBelow {
    power_off: bool,
    strands_loose: bool,
    untied: bool,
    cleared: bool,
    rod: bool,
    strap: bool,
    pin_in: bool,
    let_down: bool,
    second_pins: usize,
    hinge: bool,
    held: bool,
    far_free: bool,
    stakes_drawn: bool,
    lies: bool,
}

impl WatcherBelow {
    /// What is wrong with doing this now.
    fn sees(
        &mut self,
        kind: &CardKind,
        lit: bool,
        stages: usize,
        with_base: bool,
    ) -> Result<(), &'static str> {
        use CardKind as K;
        let at_crank = matches!(
            kind,
            K::DrawPin { .. } | K::LetDownByCrank { .. } | K::SetPin { .. } | K::HandBack { .. }
        );
        if self.strap && !at_crank {
            return Err("the strap holds alone while somebody does something else");
        }
        if self.held && !matches!(kind, K::FreeFarGuys | K::LetMastDown) {
            return Err("somebody lets go of the mast");
        }
        match kind {
            K::PowerOff => self.power_off = true,
            K::LoosenStrands | K::TieStrandsAlong | K::TakeStrandsOff if !self.power_off => {
                return Err("current in hands");
            }
            K::LoosenStrands => self.strands_loose = true,
            K::UntieToLower { .. } if lit && !(self.power_off && self.strands_loose) => {
                return Err("strands hold the tube");
            }
            K::UntieToLower { .. } => (self.untied, self.pin_in) = (true, true),
            K::SecondPinOut { .. } if !self.untied => return Err("second pin before the guys"),
            K::SecondPinOut { .. } => self.second_pins += 1,
            K::PinRod { .. } if self.cleared => return Err("somebody goes beneath what was cleared"),
            K::PinRod { .. } => self.rod = true,
            K::ClearBeneath { .. } => self.cleared = true,
            K::TakeLoad { .. } if !(self.cleared && self.rod && self.untied) => {
                return Err("cranked with somebody beneath, without a rod, or against fast guys");
            }
            K::TakeLoad { .. } => self.strap = true,
            K::DrawPin { .. } if !self.strap => {
                return Err("pin drawn before the strap carries: all of it falls");
            }
            K::DrawPin { .. } => (self.pin_in, self.let_down) = (false, false),
            K::LetDownByCrank { .. } if self.pin_in => return Err("let down against a pin"),
            K::LetDownByCrank { .. } => self.let_down = true,
            K::SetPin { .. } if !self.let_down => return Err("pin in before it came down"),
            K::SetPin { .. } => self.pin_in = true,
            K::HandBack { onto_stool, .. } => {
                if !(*onto_stool || self.pin_in) || !self.let_down {
                    return Err("handed back onto nothing");
                }
                (self.strap, self.cleared, self.rod, self.pin_in) = (false, false, false, true);
            }
            K::MakeFastLower { .. } => self.untied = false,
            K::HoldEdge => self.hinge = true,
            K::DrawBaseStakes if !self.hinge => return Err("stakes drawn before the edge is held"),
            K::DrawBaseStakes => self.stakes_drawn = true,
            K::TakeMast => {
                let ready = self.second_pins == stages
                    && !self.untied
                    && (!with_base || self.hinge && self.stakes_drawn);
                if !ready {
                    return Err("taken hold of before it is run down, fast and hinged");
                }
                self.held = true;
            }
            K::FreeFarGuys if !self.held => return Err("far guys untied with nobody at the mast"),
            K::FreeFarGuys => self.far_free = true,
            K::LetMastDown => {
                if !self.far_free {
                    return Err("let down against the far guys");
                }
                (self.held, self.lies) = (false, true);
            }
            _ => {}
        }
        Ok(())
    }
}

#[test]
fn no_order_of_coming_down_breaks_one() {
    let mut random = Random::seeded(23);
    let (mut kinds, mut back) = (BTreeSet::new(), 0);
    for draw in 0..10 {
        let (mut job, with_base) = drawn(&mut random);
        job.cards.change(|it| it.comes_down = true);
        let computed = plan::compute(&job).expect("it can be placed");
        let mut deck = deck(&job, &computed).expect("every section is known");
        deck.phases.iter_mut().for_each(|phase| phase.stops.clear());
        kinds.insert(deck.cards.len());
        back += deck.cards.iter().filter(|card| matches!(card.kind, CardKind::HandBack { .. })).count();
        let stages =
            deck.cards.iter().filter(|card| matches!(card.kind, CardKind::SecondPinOut { .. })).count();
        for seed in 0..6 {
            let mut chance = Random::seeded(100 * draw + seed);
            let (mut watcher, mut ticked) = (WatcherBelow::default(), Vec::new());
            loop {
                let progress = deck.progress(&ticked);
                let Some(at) = chance.choose(&progress.may_come) else { break };
                let card = &deck.cards[at];
                if let Err(wrong) = watcher.sees(&card.kind, job.rig.strands.is_some(), stages, with_base) {
                    panic!("{wrong}: {} after {ticked:?}", card.key);
                }
                ticked.push(card.key.clone());
            }
            let left = deck.progress(&ticked).waits;
            let left: Vec<&str> = left.iter().map(|it| deck.cards[it.card].key.as_str()).collect();
            assert!(left.is_empty() && watcher.lies, "never reached: {left:?}");
        }
    }
    assert!(kinds.len() > 3 && back > 8, "the jobs differ: {kinds:?}");
}

/// The outermost tube comes down first, all of each card's reasons stand beside its needs, and minutes are those that were entered.
#[test]
fn it_comes_down_the_other_way_round() {
    let down = |change: &dyn Fn(&mut Job)| {
        demo_deck(|job| {
            job.cards.change(|it| it.comes_down = true);
            change(job);
        })
    };
    let deck = down(&|job| job.cards.change(|it| it.lower_rehearsed = Default::default()));
    let places: Vec<usize> = ["down:1-0-fast", "down:2-0-rope", "down:take-mast"]
        .iter()
        .map(|key| deck.cards.iter().position(|card| card.key == *key).expect("a card"))
        .collect();
    assert!(places.is_sorted(), "{places:?}");
    assert!(!deck.cards.iter().any(|card| matches!(card.phase, CardPhase::Raise | CardPhase::Lights)));
    let lower =
        |deck: &Deck| deck.phases.iter().find(|it| it.phase == CardPhase::Lower).cloned().expect("lower");
    assert!(lower(&deck).missing.contains(&CardMissing::Rehearsal));
    let mut job = demo::lantern_green();
    job.cards.change(|it| it.comes_down = true);
    job.cards.change(|it| it.lower_rehearsed.minutes = Some(30.0));
    job.cards.change(|it| it.lower_rehearsed.people = Some(4));
    let stops = |left: f64| {
        let mut job = job.clone();
        job.cards.change(|it| it.forecast_in_minutes = Some(left));
        let computed = plan::compute(&job).expect("plan");
        lower(&super::deck(&job, &computed).expect("cards")).stops
    };
    assert!(stops(29.0).iter().any(|stop| matches!(stop, PhaseStop::TooLate { .. })));
    assert!(!stops(31.0).iter().any(|stop| matches!(stop, PhaseStop::TooLate { .. })));
    let rehearsed = down(&|job| {
        job.cards.change(|it| it.lower_rehearsed.minutes = Some(30.0));
        job.cards.change(|it| it.lower_rehearsed.people = Some(4));
    });
    assert!(!lower(&rehearsed).missing.contains(&CardMissing::Rehearsal));
}

/// States that others of a card's states bring with them as the cards are today, so that no order of today shows them missing: they stand there all
/// the same, since another day's cards may not bring them. Both ways up, and down.
#[test]
fn each_card_names_all_that_must_hold_and_not_only_what_comes_last() {
    use YardState as S;
    let lift = [S::EverybodyTold, S::WayClear, S::TubesPinned, S::HingeHeld, S::StopGuysSet, S::FarGuysFree];
    let names = |change: &dyn Fn(&mut Job), key: &str, states: &[YardState]| {
        let deck = demo_deck(change);
        let card = deck.cards.iter().find(|card| card.key == key).unwrap_or_else(|| panic!("{key}"));
        for state in states {
            assert!(card.needs.iter().any(|need| need.state == *state), "{key} without {state:?}");
        }
    };
    let down = |job: &mut Job| job.cards.change(|it| it.comes_down = true);
    names(&|_| {}, "raise:walk-up", &lift);
    names(&|_| {}, "raise:walk-up", &[S::StrandsTiedAlong, S::RopesInHands]);
    names(&|job| job.raising.line = Some(LINE), "raise:pull-up", &lift);
    names(&|job| job.raising.line = Some(LINE), "raise:pull-up", &[S::StrandsTiedAlong, S::RopesInHands]);
    names(&|_| {}, "raise:lay", &[S::WayClear]);
    names(&|_| {}, "raise:take-ropes", &[S::EverybodyTold]);
    for key in ["crank:2-0-rope", "crank:1-0-rope"] {
        names(&|_| {}, key, &[S::EverybodyTold, S::MastPlumb, S::StrandsLoose, S::GuysFast]);
    }
    let first = |job: &mut Job| job.cards.change(|it| it.bare_tube_first = true);
    names(&first, "base:bare-tube", &[S::EverybodyTold, S::WayClear]);
    for key in ["down:1-0-rope", "down:2-0-rope"] {
        names(&down, key, &[S::EverybodyTold, S::WayClear, S::StrandsLoose, S::PowerOff]);
    }
    let take =
        [S::EverybodyTold, S::WayClear, S::TubesPinned, S::StrandsTiedAlong, S::RopesInHands, S::HingeHeld];
    names(&down, "down:take-mast", &take);
    names(&down, "down:strands", &[S::StrandsLoose]);
    names(&|_| {}, "lights:tie-ends", &[S::StrandsLoose]);
}

/// By hand, at the demo's crank: the mark is as far from a tube's lower end as it stays in the one below, 0.41 m and 0.46 m, on its last pull alone.
/// On the strap P·(1 − 2·μ·a/b) = W with oiled steel's μ of 0.2, the rod's arm a and the bearings b apart; W what comes to stand on the pin. The hand
/// on a crank of 200 mm and a gear of 3.2 at the fullest drum d: P·(d/2)/(200·3.2·0.66).
#[test]
fn what_the_crank_card_says_by_hand() {
    let job = demo::lantern_green();
    let computed = plan::compute(&job).expect("plan");
    let deck = deck(&job, &computed).expect("cards");
    let lift = crate::workshop::bench_work(&job, &computed).expect("bench").lift;
    let (arm_m, full_mm) =
        (lift.stand_off.as_ref().expect("a rod").arm_mm / 1000.0, lift.strap.expect("a strap").full_mm);
    for (tube, inside_m) in [(2, 0.41), (1, 0.46)] {
        let of = |what: &str| -> Vec<&Card> {
            let own =
                |card: &&Card| card.key.starts_with(&format!("crank:{tube}-")) && card.key.ends_with(what);
            deck.cards.iter().filter(own).collect()
        };
        let more = |card: &Card, what: NumberOf| {
            card.more.iter().find(|number| number.what == what).and_then(|it| it.value)
        };
        let cranked = of("-crank");
        let marks: Vec<Option<CardValue>> =
            cranked.iter().map(|card| more(card, NumberOf::MarkStopsAt)).collect();
        let (last, before) = marks.split_last().expect("it is cranked");
        assert!(before.iter().all(Option::is_none));
        let Some(CardValue::Length { value_m, .. }) = last else { panic!("{last:?}") };
        assert!((value_m - inside_m).abs() < 1e-9, "{tube}: {value_m}");
        let Some(CardValue::Mass { value_kg }) = of("-lower")[0].number.value else { panic!("weighed") };
        let bearing_m = lift.stages.iter().find(|stage| stage.tube == tube).expect("lifted").bearing_m;
        let strap_n = value_kg * 9.80665 / (1.0 - 2.0 * 0.2 * arm_m / bearing_m);
        let hand_n = strap_n * 0.5 * full_mm / (200.0 * 3.2 * 0.66);
        for (what, by_hand_n) in [(NumberOf::OnTheStrap, strap_n), (NumberOf::CrankHand, hand_n)] {
            let Some(CardValue::Force { value_n }) = more(cranked[0], what.clone()) else {
                panic!("{what:?}")
            };
            assert!((value_n / by_hand_n - 1.0).abs() < 1e-9, "{tube}, {what:?}: {value_n} {by_hand_n}");
        }
    }
}

/// By hand, on level ground: from tie to tie 2·2.6 m·sin(180°/21) = 0.77505 m, so the twenty-first is 15.501 m round from the first.
#[test]
fn ties_go_round_the_ring_chord_by_chord() {
    let deck = demo_deck(|job| {
        job.yard.slopes.clear();
        job.yard.spot_heights.clear();
        job.as_built = None;
    });
    let numbers = deck.cards.iter().flat_map(|card| &card.more);
    let ties = numbers.filter_map(|number| match (&number.what, number.value) {
        (NumberOf::TieAt { strand }, Some(CardValue::Length { value_m, .. })) => Some((*strand, value_m)),
        _ => None,
    });
    let ties: Vec<(u32, f64)> = ties.collect();
    assert_eq!(ties.len(), 21);
    for (place, (strand, at_m)) in ties.into_iter().enumerate() {
        assert_eq!(strand as usize, place + 1);
        assert!((at_m - 0.775_05 * place as f64).abs() < 1e-3, "{strand}: {at_m}");
    }
}

/// At the crank, what goes up and what stays: the top tube takes the upper guys along while the lower ones stay fast, with the middle tube all six
/// rise and none stays. On the way up, each guy that is fast has its angle; a helper's has none.
#[test]
fn what_runs_freely_and_what_takes_over_is_said() {
    let deck = demo_deck(|_| {});
    let runs: Vec<&CardSays> = deck.cards.iter().flat_map(|card| &card.says).collect();
    let runs: Vec<(&str, usize, usize)> = runs
        .into_iter()
        .filter_map(|says| match says {
            CardSays::RunsFreely { tube, strands: true, slack, fast } => {
                assert!(slack.iter().all(|guy| !fast.contains(guy)));
                Some((tube.as_str(), slack.len(), fast.len()))
            }
            _ => None,
        })
        .collect();
    let of =
        |tube: &str| runs.iter().filter(|it| it.0 == tube).map(|it| (it.1, it.2)).collect::<BTreeSet<_>>();
    assert_eq!((of("Top tube"), of("Middle tube")), (BTreeSet::from([(3, 3)]), BTreeSet::from([(6, 0)])));
    let cranks = deck.cards.iter().filter(|card| matches!(card.kind, CardKind::CrankTube { .. }));
    assert_eq!(cranks.count(), runs.len());
    let job = demo::lantern_green();
    let computed = plan::compute(&job).expect("plan");
    let way = crate::raising::as_said(&job, &computed).expect("way");
    let walk = deck.cards.iter().find(|card| card.kind == CardKind::WalkUp).expect("it is walked up");
    let mut told = 0;
    for guy in &way.guys {
        let on_the_way = &guy.angles[..guy.angles.len() - 1];
        let fast = on_the_way.iter().all(|at| matches!(at.does, GuyDoes::Fast | GuyDoes::Slack));
        let says = walk.says.iter().find_map(|says| match says {
            CardSays::GuyHolds { guy: name, from_deg, .. } if *name == guy.name => Some(*from_deg),
            _ => None,
        });
        assert_eq!(says.is_some(), fast, "{guy:?}");
        let Some(from_deg) = says else { continue };
        told += 1;
        // The table of lengths has it slack below that angle, and as long as at plumb above it.
        for at in on_the_way {
            assert!((at.does == GuyDoes::Slack) == (at.elevation_deg < from_deg), "{from_deg}: {at:?}");
        }
    }
    assert!(told > 0);
    let pulled = demo_deck(|job| job.raising.line = Some(LINE));
    let rig = pulled.cards.iter().find(|card| card.kind == CardKind::RigLine).expect("a prop");
    let anchor = rig.more.iter().find(|number| number.what == NumberOf::LineAnchor).expect("a place");
    assert_eq!(anchor.value, Some(CardValue::Length { value_m: 8.0, half_width_95_m: None }));
}
