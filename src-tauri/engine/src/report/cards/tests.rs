//! Cards in words: what is read aloud, which picture stands beside which card, and every stop with its remedy.

use super::*;
use crate::anchor::soil::ClayFeel;
use crate::cards::{CardMissing, deck};
use crate::finding::Rule;
use crate::finding::raising::RaisingRule;
use crate::job::{FastBefore, Hinge, PullLine, SoilFeel, TiltedTubes};
use crate::lifting::{TiltWork, hands, lifting_work};
use crate::numerics::real::{cos_deg, sin_deg};
use crate::quantity::convert::STANDARD_GRAVITY;
use crate::raising::GuyRole;
use crate::{demo, plan, raising, workshop};

/// The profile is the front leg's: no other leg's height stands beside it.
#[test]
fn the_profile_stands_beside_the_front_leg_s_number_alone() {
    let job = crate::demo::lantern_green();
    let computed = crate::plan::compute(&job).expect("it can be placed");
    let deck = crate::cards::deck(&job, &computed).expect("every section is known");
    let feet: Vec<(&str, bool)> = deck
        .cards
        .iter()
        .filter_map(|card| match &card.kind {
            CardKind::SetFoot { leg } => Some((leg.as_str(), picture(card) == CardPicture::Profile)),
            _ => None,
        })
        .collect();
    assert_eq!(feet, [("front", true), ("right", false), ("left", false)]);
}

/// Who hears a card hears all of its numbers, and of each that is not known what has to be entered; on the demo as it is and with a
/// drum and a cord that nobody measured.
#[test]
fn every_number_is_read_aloud_and_so_is_what_is_missing() {
    let spoken = |job: &Job| {
        let computed = crate::plan::compute(job).expect("it can be placed");
        let deck = crate::cards::deck(job, &computed).expect("every section is known");
        let report = cards(job, &deck);
        let mut counted = [0, 0];
        for (card, text) in deck.cards.iter().zip(&report.cards) {
            let numbers = [&card.number].into_iter().chain(&card.more);
            let texts = [&text.number].into_iter().chain(&text.more);
            for (number, said) in numbers.zip(texts) {
                let whole = format!("{}, {}", said.number, said.is);
                assert!(text.aloud.contains(&whole), "{}: {whole}: {}", card.key, text.aloud);
                let remedy = number.missing.map_or("", say::missing);
                assert_eq!(number.value.is_none(), number.missing.is_some());
                assert!(text.aloud.matches(remedy).count() == 1 || remedy.is_empty(), "{}", text.aloud);
                counted[usize::from(number.value.is_none())] += 1;
            }
            assert!(text.stands.iter().all(|stand| text.aloud.contains(stand)));
            assert!(text.aloud.ends_with(&text.stop) && text.aloud.contains(&text.caution));
        }
        counted
    };
    let mut job = crate::demo::lantern_green();
    let [known, open] = spoken(&job);
    job.workshop.lift.drum_mm = None;
    job.rig.strands.as_mut().expect("strands").cord.mass_g_per_m = None;
    let [less, more] = spoken(&job);
    assert!(known > 100 && less < known && more > open, "{known} {open}, then {less} {more}");
}

/// The demo changed: what it weighs on the way up, and the stops of raising as data and in words.
struct Raised {
    tilt: TiltWork,
    stops: Vec<(PhaseStop, CardStopText)>,
    deck: Deck,
}

impl Raised {
    fn of(change: &dyn Fn(&mut Job)) -> Self {
        let mut job = demo::lantern_green();
        change(&mut job);
        let computed = plan::compute(&job).expect("it can be placed");
        let bench = workshop::bench_work(&job, &computed).expect("every section is known");
        let way = raising::as_said(&job, &computed);
        let work = lifting_work(&job, &computed, &bench, way.as_ref()).expect("every section is known");
        let deck = deck(&job, &computed).expect("every section is known");
        let report = cards(&job, &deck);
        let phase = deck.phases.iter().position(|it| it.phase == CardPhase::Raise).expect("it is raised");
        let stops = deck.phases[phase].stops.iter().cloned().zip(report.phases[phase].stops.clone());
        Self { tilt: work.tilt.expect("all of it is said"), stops: stops.collect(), deck }
    }

    /// A stop of its kind in words, which no card of the phase may pass; none where there is none.
    fn stop(&self, is: impl Fn(&PhaseStop) -> bool) -> Option<&CardStopText> {
        let found = self.stops.iter().find(|(stop, _)| is(stop)).map(|(_, said)| said);
        let open = self.deck.progress(&[]).may_come;
        let waits = open.iter().all(|at| self.deck.cards[*at].phase != CardPhase::Raise);
        assert!(found.is_none() || waits, "a card of a part that has a stop");
        found
    }

    /// A part of the push at every whole degree, at its largest.
    fn most(&self, part: fn(f64) -> f64) -> f64 {
        let tilt = &self.tilt;
        let at = |deg: f64| hands::push(&tilt.turning, &tilt.lie, deg).force_n * part(deg);
        tilt.angles.iter().map(|it| at(it.elevation_deg)).fold(0.0, f64::max)
    }
}

fn heavier(job: &mut Job, by_kg: f64) {
    job.rig.topper.as_mut().expect("a topper").mass_kg += by_kg;
}

/// It comes up where F·sin θ at its largest is more than what the stakes hold, and only there; with both forces and the remedy. What nobody knows of
/// the soil is no stop and no good sign.
#[test]
fn a_foot_that_kicks_out_is_a_stop() {
    let mut seen = [0; 2];
    for (by_kg, feel) in
        [(0.0, ClayFeel::Stiff), (60.0, ClayFeel::Stiff), (0.0, ClayFeel::Soft), (60.0, ClayFeel::Soft)]
    {
        let raised = Raised::of(&|job| {
            heavier(job, by_kg);
            job.yard.soil = SoilFeel::Clay { feel };
        });
        let (away_n, holds_n) = (raised.most(sin_deg), raised.tilt.kick.holds_n.expect("clay is known"));
        let stop = raised.stop(|stop| matches!(stop, PhaseStop::KicksOut { .. }));
        assert_eq!(stop.is_some(), away_n > holds_n, "{by_kg} kg, {feel:?}: {away_n} N, {holds_n} N");
        seen[usize::from(stop.is_some())] += 1;
        let Some(said) = stop else { continue };
        for force_n in [away_n, holds_n] {
            let force = format::force(force_n, demo::lantern_green().units);
            assert!(said.sentence.contains(&force), "{force}: {}", said.sentence);
        }
        assert!(
            said.remedy.contains("stakes") && said.remedy.contains("Nobody's foot holds it"),
            "{}",
            said.remedy
        );
        assert!(!said.source.is_empty());
    }
    assert!(seen.iter().all(|count| *count > 0), "{seen:?}");
    let open = Raised::of(&|job| {
        heavier(job, 60.0);
        job.yard.soil = SoilFeel::Unknown;
    });
    assert!(open.stop(|stop| matches!(stop, PhaseStop::KicksOut { .. })).is_none());
    let raise = open.deck.phases.iter().find(|it| it.phase == CardPhase::Raise).expect("raise");
    assert!(raise.missing.contains(&CardMissing::StakesInSoil));
}

/// It comes up where F·cos θ at its largest is more than the weight, and only there: drawn out with weight at the top, not run down.
#[test]
fn a_hinge_that_is_lifted_is_a_stop() {
    for (tubes, by_kg, lifts) in [
        (TiltedTubes::RunDown, 0.0, false),
        (TiltedTubes::RunDown, 20.0, false),
        (TiltedTubes::DrawnOut, 20.0, true),
    ] {
        let raised = Raised::of(&|job| {
            heavier(job, by_kg);
            job.raising.tubes = tubes;
        });
        let lifts_n = raised.most(cos_deg) - raised.tilt.turning.mass_kg * STANDARD_GRAVITY;
        assert_eq!(lifts_n > 0.0, lifts, "{tubes:?}, {by_kg} kg: {lifts_n} N");
        let stop = raised.stop(|stop| matches!(stop, PhaseStop::HingeLifts { .. }));
        assert_eq!(stop.is_some(), lifts);
        let Some(said) = stop else { continue };
        assert!(
            said.sentence.contains(&format::force(lifts_n, demo::lantern_green().units)),
            "{}",
            said.sentence
        );
        assert!(
            said.remedy.contains("line over a prop") && said.remedy.contains("A stake does not hold it down")
        );
    }
}

/// A hundred kilograms more at the top of the drawn-out mast bends a tube of it by more than it may carry; as it is, none. By hand: what of that weight
/// alone hangs over the hands at 45°, 100 kg·g·cos 45° times the tube beyond 1.98 m, is more than any of the demo's tubes may carry (the largest,
/// 48.3 by 3.2 mm of 235 MPa: 4.80 cm³·235/1.65 = 684 N·m).
#[test]
fn a_tube_that_is_bent_too_far_is_a_stop() {
    let bends = |stop: &PhaseStop| matches!(stop, PhaseStop::TubeBends { .. });
    assert!(Raised::of(&|_| ()).stop(bends).is_none());
    let raised = Raised::of(&|job| {
        heavier(job, 100.0);
        job.raising.tubes = TiltedTubes::DrawnOut;
    });
    let at = hands::push(&raised.tilt.turning, &raised.tilt.lie, 45.0);
    let hangs_nm = 100.0 * STANDARD_GRAVITY * cos_deg(45.0) * (raised.tilt.turning.long_m - at.grip_m);
    assert!(hangs_nm > 684.0, "{hangs_nm}");
    let said = raised.stop(bends).expect("it bends");
    let bend = raised.tilt.bend.as_ref().expect("known");
    assert!(said.sentence.contains(&say::percent(100.0 * bend.utilisation)), "{}", said.sentence);
    assert!(said.sentence.contains(&bend.tube.to_lowercase()), "{}", said.sentence);
    assert!(said.remedy.contains("Take weight off the top") && bend.utilisation > 1.0);
}

/// A line whose prop's head is lower than the hinge passes beneath it: nobody pulls the mast up by it, and its card has no number.
#[test]
fn a_line_without_a_lever_is_a_stop() {
    let line = |prop_height_m: f64| {
        Raised::of(&|job| {
            job.raising.hinge = Hinge::Pin { height_m: 0.4 };
            job.raising.lies_toward_deg = Some(45.0);
            job.raising.line =
                Some(PullLine { prop_height_m, prop_behind_m: 0.2, pulled_from_m: 8.0, tied_m: 2.4 });
        })
    };
    let no_lever = |stop: &PhaseStop| *stop == PhaseStop::LineHasNoLever;
    assert!(line(2.0).stop(no_lever).is_none());
    let low = line(0.05);
    let said = low.stop(no_lever).expect("no lever");
    assert!(said.remedy.contains("Set the prop higher"), "{}", said.remedy);
    let pull = low.deck.cards.iter().find(|card| card.kind == CardKind::PullUp).expect("a card");
    assert_eq!(pull.number.value, None);
}

/// A side guy that gets too short on the way, named as fast by the job, keeps every card of raising, with its remedy; left to the plan it is tended and
/// nothing stops. The demo's guys are turned until one of them is such a guy.
#[test]
fn a_side_guy_too_short_for_the_tilt_is_a_stop() {
    let short = |stop: &PhaseStop| match stop {
        PhaseStop::Found { finding } => {
            matches!(finding.rule, Rule::Raising(RaisingRule::TooShortUntilPlumb { .. }))
        }
        _ => false,
    };
    let turned = |turn_deg: f64, fast: FastBefore| {
        move |job: &mut Job| {
            job.placement.guy_turn_deg += turn_deg;
            job.raising.fast_before = fast.clone();
        }
    };
    let found = (-11..12).map(|step| 5.0 * f64::from(step)).find_map(|turn_deg| {
        let mut job = demo::lantern_green();
        turned(turn_deg, FastBefore::AsNeeded)(&mut job);
        let computed = plan::compute(&job).ok()?;
        let way = raising::as_said(&job, &computed)?;
        let side = way.guys.iter().find(|guy| guy.role == GuyRole::Side && guy.most_short_m > 0.1)?;
        Some((turn_deg, side.id.clone(), side.name.clone()))
    });
    let (turn_deg, id, name) = found.expect("one of them gets too short");
    assert!(Raised::of(&turned(turn_deg, FastBefore::AsNeeded)).stop(short).is_none());
    let named = Raised::of(&turned(turn_deg, FastBefore::These { guys: vec![id] }));
    let said = named.stop(short).expect("too short");
    assert!(said.sentence.contains(&name) && said.sentence.contains("too short"), "{}", said.sentence);
    assert!(!said.remedy.is_empty() && !said.numbers.is_empty());
}

/// The largest push of the table is the one number of the card, at its angle; at every angle the part straight up is the push times the angle's
/// cosine and the foot's push times its sine, at the hands' place along the tube by hand; and each of a team has his part of it. On no other card.
#[test]
fn the_table_of_forces_is_that_of_the_card() {
    let line = PullLine { prop_height_m: 2.0, prop_behind_m: 0.2, pulled_from_m: 8.0, tied_m: 2.4 };
    for (by_kg, line) in [(0.0, None), (12.0, None), (0.0, Some(line))] {
        let mut job = demo::lantern_green();
        heavier(&mut job, by_kg);
        job.raising.line = line;
        let raised = Raised::of(&|own| *own = job.clone());
        let report = cards(&job, &raised.deck);
        let forces = raised.deck.forces.as_ref().expect("known");
        let raises = |card: &&Card| matches!(card.kind, CardKind::WalkUp | CardKind::PullUp);
        let card = raised.deck.cards.iter().find(raises).expect("it is raised");
        let Some(CardValue::Force { value_n }) = card.number.value else { panic!("{:?}", card.number) };
        let most_n = forces.angles.iter().map(|at| at.force_n).fold(0.0, f64::max);
        assert_eq!(most_n, value_n);
        let hardest: Vec<&CardForceAt> = forces.angles.iter().filter(|at| at.hardest).collect();
        assert!(hardest.len() == 1 && hardest[0].force_n == value_n && forces.angles.len() > 15);
        let lie = raised.tilt.lie;
        for at in forces.angles.iter().filter(|_| line.is_none()) {
            let (sin, cos) = (sin_deg(at.elevation_deg), cos_deg(at.elevation_deg));
            let near = |found: f64, by_hand: f64| (found - by_hand).abs() < 1e-9 * value_n.max(1.0);
            assert!(near(at.up_n, at.force_n * cos) && near(at.kick_out_n, at.force_n * sin), "{at:?}");
            // As far up as hands at their height over the ground reach, or at its end.
            let rises = sin - cos * lie.along;
            let reach_m = if rises > 0.0 { (lie.hands_m - lie.hinge_m) / rises } else { f64::INFINITY };
            assert!(near(at.at_m, reach_m.min(raised.tilt.turning.long_m)), "{at:?}");
        }
        let each = forces.teams.iter().map(|team| team.each_n * f64::from(team.people) - value_n);
        assert!(
            each.into_iter().all(|off_n| off_n.abs() < 1e-9) && forces.teams.is_empty() == line.is_some()
        );
        let with: Vec<&StepCardText> = report.cards.iter().filter(|card| card.forces.is_some()).collect();
        assert_eq!(with.iter().map(|text| text.key.as_str()).collect::<Vec<_>>(), [card.key.as_str()]);
        let said = with[0].forces.as_ref().expect("a table");
        let row = said.angles.iter().find(|row| row.hardest).expect("a row");
        assert!(row.force == with[0].number.number && said.angles.len() == forces.angles.len());
        assert_eq!(said.teams.len(), forces.teams.len());
    }
}
