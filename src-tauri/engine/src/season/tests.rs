use chrono::{DateTime, FixedOffset, NaiveDate};

use super::again::{self, MarkSeen, MarkTape, NorthAgain, mark_check, north_again};
use super::changes::leans;
use super::look::{LookCause, LookWhy, SeasonThing, lists, things};
use super::packing::{PackChore, packing};
use super::trend::{TrendPoint, trend};
use super::{SeasonDiary, SeasonMissing, SeasonStanding, diary};
use crate::anchor::soil::{ClayFeel, SandFeel};
use crate::demo::lantern_green;
use crate::job::{
    BearingReference, Job, LookFound, LookedAt, Mark, PackedPart, PointFix, RoundCause, RoundLean,
    SeasonRound, SoilFeel, SwingPlane, TensionReading, TensionWay,
};
use crate::plan::{self, Plan};
use crate::source::SourceKey;
use crate::survey::declination::{Geodetic, magnetic_field};

fn at(text: &str) -> DateTime<FixedOffset> {
    DateTime::parse_from_rfc3339(text).unwrap()
}

fn on(day: u32) -> DateTime<FixedOffset> {
    at(&format!("2026-12-{day:02}T09:00:00-05:00"))
}

fn today(day: u32) -> NaiveDate {
    NaiveDate::from_ymd_opt(2026, 12, day).unwrap()
}

/// The demo with an empty diary.
fn green() -> (Job, Plan) {
    let mut job = lantern_green();
    job.season = Default::default();
    job.tensions = Default::default();
    let plan = plan::compute(&job).unwrap().plan;
    (job, plan)
}

fn round(day: u32, cause: RoundCause, looked: &[(&str, LookFound)]) -> SeasonRound {
    let looked = looked.iter().map(|(item, found)| LookedAt {
        item: (*item).to_owned(),
        name: format!("the {item}"),
        found: *found,
    });
    SeasonRound {
        id: format!("round-{day}"),
        taken_at: on(day),
        who: String::new(),
        cause,
        looked: looked.collect(),
        lean: None,
        note: String::new(),
    }
}

/// A round on which all that its cause asks for was found fine.
fn all_fine(job: &Job, plan: &Plan, day: u32, cause: RoundCause) -> SeasonRound {
    let list = lists(job, plan).into_iter().find(|list| list.cause == LookCause::of(cause)).unwrap();
    let keys: Vec<(&str, LookFound)> =
        list.items.iter().map(|item| (item.key.as_str(), LookFound::Fine)).collect();
    round(day, cause, &keys)
}

fn keep(job: &mut Job, round: SeasonRound) {
    job.season.change(|it| it.rounds.push(round));
}

fn seen(job: &Job, plan: &Plan, day: u32) -> SeasonDiary {
    diary(job, plan, today(day))
}

/// What there is to look at is this plan's: three anchors and guys a level, a pin for each tube but the lowest, the base's stakes.
#[test]
fn what_there_is_to_look_at_is_counted_off_the_plan() {
    let (job, plan) = green();
    let all = things(&job, &plan);
    let count = |is: fn(&SeasonThing) -> bool| all.iter().filter(|thing| is(thing)).count();
    assert_eq!(count(|thing| matches!(thing, SeasonThing::Pin { .. })), job.rig.tubes.len() - 1);
    assert_eq!(count(|thing| matches!(thing, SeasonThing::Guys { .. })), job.rig.guy_levels.len());
    assert_eq!(count(|thing| matches!(thing, SeasonThing::Stake { .. })), plan.base.stakes.len());
    let anchors = count(|thing| matches!(thing, SeasonThing::Anchor { .. } | SeasonThing::Fixing { .. }));
    let sharing = plan.guys.iter().filter(|guy| !guy.shared_with.is_empty()).count();
    assert_eq!(anchors, plan.guys.len() - sharing / 2, "an anchor that two guys share is one anchor");
    let mut keys: Vec<String> = all.iter().map(SeasonThing::key).collect();
    keys.sort();
    keys.dedup();
    assert_eq!(keys.len(), all.len(), "each thing has a key of its own");
}

/// Wet clay is `wet-ground`'s, sand washes away, rock does neither; soil that nobody has felt is taken for the worse.
#[test]
fn what_rain_does_to_an_anchor_hangs_on_the_soil() {
    let anchor = SeasonThing::Anchor { guy: "upper-1".to_owned(), name: String::new() };
    let why = |soil| super::look::why(LookCause::Rain, &anchor, soil);
    let clay = SoilFeel::Clay { feel: ClayFeel::Stiff };
    assert_eq!(why(clay), Some(LookWhy::ClayWentSoft));
    assert_eq!(why(clay).unwrap().source(), SourceKey::WetGround);
    assert_eq!(why(SoilFeel::Unknown), Some(LookWhy::ClayWentSoft));
    assert_eq!(why(SoilFeel::Sand { feel: SandFeel::Dense, under_water: false }), Some(LookWhy::WashedOut));
    assert_eq!(why(SoilFeel::Rock), None);
    assert_eq!(LookWhy::AnchorDrawn.source(), SourceKey::Tia222Inspection);
    assert_eq!(LookWhy::FrostLifted.source(), SourceKey::CommonPractice);
}

/// Nothing is fine before everything was looked at, what was to be mended stays so until it is found fine, and a round for something
/// else opens nothing and closes nothing.
#[test]
fn what_nobody_looked_at_never_counts_as_fine() {
    let (mut job, plan) = green();
    job.season.change(|it| it.every_days = Some(7));
    assert_eq!(seen(&job, &plan, 1).missing, [SeasonMissing::NoRound]);
    let mut first = all_fine(&job, &plan, 1, RoundCause::StoodUp);
    let left_out = first.looked.pop().unwrap();
    keep(&mut job, first);
    let found = seen(&job, &plan, 2);
    assert_eq!(found.standing, SeasonStanding::NotKnown);
    assert_eq!(found.missing, [SeasonMissing::NotLookedAt { count: 1 }]);
    assert_eq!(found.not_looked_at[0].key(), left_out.item);
    // A round after heat that leaves out the guys: the guys are open, and so is what was left out on the first.
    keep(&mut job, round(3, RoundCause::Heat, &[]));
    let heat = lists(&job, &plan).into_iter().find(|list| list.cause == LookCause::Heat).unwrap();
    let open = seen(&job, &plan, 3).not_looked_at;
    assert_eq!(
        open.len(),
        heat.items.len() + usize::from(!heat.items.iter().any(|it| it.key == left_out.item))
    );
    let next = all_fine(&job, &plan, 4, RoundCause::Routine);
    keep(&mut job, next);
    assert_eq!(seen(&job, &plan, 4).standing, SeasonStanding::Fine);
    // To be mended, not looked at on the next round, then fine.
    keep(&mut job, round(5, RoundCause::Heat, &[("guys:upper", LookFound::ToMend)]));
    keep(&mut job, round(6, RoundCause::Heat, &[]));
    let found = seen(&job, &plan, 6);
    assert_eq!(found.standing, SeasonStanding::ToMend);
    assert_eq!((found.to_mend[0].item.as_str(), found.to_mend[0].since), ("guys:upper", on(5)));
    let next = all_fine(&job, &plan, 7, RoundCause::Wind { gust_m_per_s: None });
    keep(&mut job, next);
    assert_eq!(seen(&job, &plan, 7).standing, SeasonStanding::Fine);
}

/// Seven days after 7 December is the 14th: due that day, late the day after, and then nothing good is said. The order of the list does not matter.
#[test]
fn the_next_round_is_due_by_the_days_that_were_chosen() {
    let (mut job, plan) = green();
    let next = all_fine(&job, &plan, 7, RoundCause::Routine);
    keep(&mut job, next);
    assert_eq!(seen(&job, &plan, 8).missing, [SeasonMissing::NoInterval]);
    job.season.change(|it| it.every_days = Some(7));
    let next = all_fine(&job, &plan, 2, RoundCause::Routine);
    keep(&mut job, next);
    let found = seen(&job, &plan, 14);
    assert_eq!((found.next.due_on, found.next.late), (Some(today(14)), false));
    assert_eq!(found.standing, SeasonStanding::Fine);
    let late = seen(&job, &plan, 15);
    assert_eq!((late.standing, late.missing), (SeasonStanding::NotKnown, vec![SeasonMissing::Late]));
}

/// By hand: from (0.10, −0.05) to (0.40, 0.35) are 0.30 and 0.40, together 0.50. Two readings of 0.10 have √2 · 0.10 = 0.1414 each
/// way; 2.4477 of it (chi-square of two, `published/…` holds 5.991) are 0.346: it has moved. With 0.20 they are 0.692: it has not.
#[test]
fn a_lean_has_moved_when_both_parts_together_leave_their_circle() {
    let lean =
        |to_front_deg, to_right_deg, sigma_deg| Some(RoundLean { to_front_deg, to_right_deg, sigma_deg });
    let mut rounds = [round(1, RoundCause::StoodUp, &[]), round(8, RoundCause::Routine, &[])];
    rounds[0].lean = lean(0.10, -0.05, Some(0.10));
    assert_eq!(leans(&[&rounds[0]], 0.3).change, None);
    rounds[1].lean = lean(0.40, 0.35, Some(0.10));
    let change = leans(&[&rounds[0], &rounds[1]], 0.3).change.unwrap();
    assert!((change.by_deg - 0.5).abs() < 1e-12 && (change.within_95_deg - 0.346_16).abs() < 1e-4);
    assert!(
        (change.to_front_deg.value - 0.3).abs() < 1e-12 && (change.to_right_deg.value - 0.4).abs() < 1e-12
    );
    assert!((change.to_front_deg.half_width_95 - 0.277_18).abs() < 1e-4, "1.96 · 0.1414");
    assert!(change.moved && change.since == on(1));
    // Who does not say how sure it is has the yard's slopes' uncertainty.
    rounds.iter_mut().for_each(|round| round.lean.as_mut().unwrap().sigma_deg = None);
    let change = leans(&[&rounds[0], &rounds[1]], 0.2).change.unwrap();
    assert!(!change.moved && (change.within_95_deg - 0.692_32).abs() < 2e-4);
}

/// By hand: 1, 3, 5 a week apart rise by 2 a week; of sigma 0.5 the slope has 0.5/√2 = 0.3536 (Σ(t − t̄)² = 2), ±0.693. Of 0, 2, 0 the line is
/// level, and S0² = Σ(v/σ)²/1 = (0.667² + 1.333² + 0.667²)/0.01 = 266.7 makes the slope's ± 1.96·0.1/√2·16.33 = 2.263.
#[test]
fn a_trend_is_the_line_of_three_readings_or_more() {
    let week = |number: u32, value: f64, sigma: f64| TrendPoint { at: on(1 + 7 * number), value, sigma };
    assert_eq!(trend(&[week(0, 1.0, 0.5), week(1, 3.0, 0.5)]), None);
    let rising = trend(&[week(0, 1.0, 0.5), week(1, 3.0, 0.5), week(2, 5.0, 0.5)]).unwrap();
    assert!((rising.per_week.value - 2.0).abs() < 1e-12);
    assert!((rising.per_week.half_width_95 - 0.692_95).abs() < 1e-4, "{rising:?}");
    assert!(rising.is_sure && rising.readings == 3 && (rising.over_days - 14.0).abs() < 1e-9);
    let scattered = trend(&[week(0, 0.0, 0.1), week(1, 2.0, 0.1), week(2, 0.0, 0.1)]).unwrap();
    assert!(scattered.per_week.value.abs() < 1e-12 && !scattered.is_sure);
    assert!((scattered.per_week.half_width_95 - 2.263).abs() < 1e-3, "{scattered:?}");
    // All at one moment, or of unknown uncertainty: no line.
    assert_eq!(trend(&[week(0, 1.0, 0.5); 3]), None);
    assert_eq!(trend(&[week(0, 1.0, 0.0), week(1, 3.0, 0.0), week(2, 5.0, 0.0)]), None);
}

fn swing(day: u32, hour: u32, hz: f64) -> TensionReading {
    TensionReading {
        id: format!("t-{day}-{hour}"),
        guy: "upper-1".to_owned(),
        taken_at: at(&format!("2026-12-{day:02}T{hour:02}:00:00-05:00")),
        who: String::new(),
        way: TensionWay::Watch,
        hz: Some(hz),
        sigma_hz: Some(0.004),
        swings: None,
        plane: SwingPlane::Sideways,
        phone_at_m: None,
        pull_n: None,
        aside_m: None,
    }
}

/// A taut string's tension goes by the square of its note (Mersenne): 5.0 Hz after 4.5 Hz is 1.2346 times as tight, and a difference has
/// both readings' own sigmas, 2·σ/f of the tension each. Of the second day the last reading counts.
#[test]
fn guys_are_held_against_the_day_before() {
    let (mut job, plan) = green();
    job.tensions.change(|kept| kept.readings = vec![swing(1, 9, 4.5), swing(8, 9, 6.0), swing(8, 10, 5.0)]);
    let guys = seen(&job, &plan, 9).guys;
    let guy = guys.iter().find(|guy| guy.guy_id == "upper-1").unwrap();
    let change = guy.change.as_ref().unwrap();
    let (now, was) = (guy.latest_n.unwrap().value, guy.latest_n.unwrap().value - change.by_n.value);
    assert!((now / was - 1.2346).abs() < 0.006, "{now} {was}");
    let by_hand = 1.96 * crate::numerics::real::hypot(2.0 * 0.004 / 4.5 * was, 2.0 * 0.004 / 5.0 * now);
    assert!((change.by_n.half_width_95 / by_hand - 1.0).abs() < 0.02, "{change:?} {by_hand}");
    assert!(change.moved && change.matters && guy.trend.is_none() && guy.days == 2);
    job.tensions.change(|kept| kept.readings.push(swing(15, 9, 5.5)));
    let guys = seen(&job, &plan, 15).guys;
    let trend = guys.iter().find(|guy| guy.guy_id == "upper-1").unwrap().trend.unwrap();
    assert!(trend.per_week.value > 0.0 && trend.readings == 3);
    assert!(
        guys.iter()
            .filter(|guy| guy.guy_id != "upper-1")
            .all(|guy| guy.latest_n.is_none() && guy.change.is_none())
    );
}

/// Taken down and stood up again next year: every entry is still there, and nothing of the one year is compared with the other.
#[test]
fn the_diary_outlives_the_mast() {
    let (mut job, plan) = green();
    job.season.change(|it| it.every_days = Some(7));
    let mut first = all_fine(&job, &plan, 1, RoundCause::StoodUp);
    first.lean = Some(RoundLean { to_front_deg: 0.5, to_right_deg: 0.0, sigma_deg: Some(0.05) });
    keep(&mut job, first);
    keep(&mut job, round(20, RoundCause::TakenDown, &[]));
    job.tensions.change(|kept| kept.readings = vec![swing(1, 8, 4.5)]);
    let down = seen(&job, &plan, 25);
    assert_eq!((down.standing, down.next.due_on, down.rounds.len()), (SeasonStanding::Down, None, 2));
    assert_eq!(down.lean.readings.len(), 1, "what it leaned by while it stood");
    // Next year.
    let mut again = all_fine(&job, &plan, 28, RoundCause::StoodUp);
    again.lean = Some(RoundLean { to_front_deg: -0.5, to_right_deg: 0.0, sigma_deg: Some(0.05) });
    keep(&mut job, again);
    job.tensions.change(|kept| kept.readings.push(swing(28, 7, 6.0)));
    let stands = seen(&job, &plan, 29);
    assert_eq!((stands.standing, stands.rounds.len()), (SeasonStanding::Fine, 3));
    assert_eq!((stands.lean.readings.len(), stands.lean.change.clone()), (1, None));
    let guy = stands.guys.iter().find(|guy| guy.guy_id == "upper-1").unwrap();
    assert!(
        guy.days == 1 && guy.change.is_none(),
        "set on the day on which it was stood up, before that was written down"
    );
    assert_eq!(stands.rounds.iter().filter(|round| round.of_this_standing).count(), 1);
}

/// By hand for Lantern Green: its lower tube is 2.36 m of 48.3 × 3.2 at 3.56 kg/m (EN 39) = 8.40 kg; a guy of 25 g/m weighs its cut length's worth; a stake is
/// a bar of steel at 7850 kg/m³. Timber is weighed by nobody, so the whole is not known.
#[test]
fn what_is_packed_is_weighed_as_far_as_anybody_knows() {
    let job = lantern_green();
    let computed = plan::compute(&job).unwrap();
    let list = packing(&job, &computed, &crate::workshop::bench_work(&job, &computed).unwrap());
    let of = |part: &str| list.items.iter().find(|item| item.part == format!("pack:{part}")).unwrap();
    assert!((of("tube:0").mass_kg.unwrap() - 8.40).abs() < 0.02, "{:?}", of("tube:0"));
    assert_eq!(of("tube:0").length_m.map(|m| (m - 2.36).abs() < 0.001), Some(true));
    let guy = &computed.plan.guys[0];
    let rope = &job.rig.guy_levels.iter().find(|level| level.id == guy.level_id).unwrap().rope;
    let by_hand = guy.cut_m.value * rope.mass_g_per_m / 1000.0;
    assert!((of(&format!("guy:{}", guy.id)).mass_kg.unwrap() - by_hand).abs() < 1e-9);
    let stakes = &job.rig.stakes;
    let thick_m = stakes.diameter_mm / 1000.0;
    let bar = std::f64::consts::PI / 4.0 * thick_m * thick_m * stakes.length_m * 7850.0;
    assert!((of("stake").mass_kg.unwrap() / bar - 1.0).abs() < 1e-2, "{bar}");
    assert_eq!(of("stake").count as usize, computed.plan.base.stakes.len());
    assert!(of("timber:cross").mass_kg.is_none() && list.masses_missing > 0 && list.total_kg().is_none());
    // The longest that does not roll up: no guy, though guys are longer than any timber.
    let longest = list.items.iter().find(|item| Some(&item.part) == list.longest.as_ref()).unwrap();
    let stiff = list.items.iter().filter(|item| !item.rolls_up).filter_map(|item| item.length_m);
    assert_eq!(longest.length_m, stiff.reduce(f64::max));
    assert!(guy.cut_m.value > longest.length_m.unwrap());
    let known: f64 = list.items.iter().filter_map(|item| Some(item.mass_kg? * f64::from(item.count))).sum();
    assert!((list.known_kg - known).abs() < 1e-9 && known > 20.0, "{known}");
}

/// What is ticked off stays ticked, and nothing else is.
#[test]
fn what_is_packed_is_ticked_off() {
    let mut job = lantern_green();
    let computed = plan::compute(&job).unwrap();
    job.season.change(|it| {
        it.packed =
            ["pack:tube:1", "chore:holes-filled"].map(|part| PackedPart { part: part.to_owned() }).to_vec()
    });
    let list = packing(&job, &computed, &crate::workshop::bench_work(&job, &computed).unwrap());
    let packed: Vec<&str> = list.items.iter().filter(|it| it.packed).map(|it| it.part.as_str()).collect();
    assert_eq!(packed, ["pack:tube:1"]);
    let done: Vec<PackChore> = list.chores.iter().filter(|it| it.done).map(|it| it.chore).collect();
    assert_eq!(done, [PackChore::HolesFilled]);
}

/// Quantiles of the normal: 1.95996 and 1.64485 (any table), 2.39398 at 1 − 0.05/6 (Bonferroni's of three). Two square tapes of 1 cm show least at 45°:
/// a shift s moves either by s/√2, found at 4.03883 cm of it: 5.712 cm.
#[test]
fn the_least_shift_of_a_mark_by_hand() {
    for (tapes, doubt) in [(1, 1.959_964), (3, 2.393_980)] {
        let [from, found] = again::multiples(tapes);
        assert!((from - doubt).abs() < 1e-5 && (found - doubt - 1.644_854).abs() < 1e-5, "{from} {found}");
    }
    let worst = again::worst_direction(&[[100.0, 0.0], [0.0, 100.0]]);
    let [_, found] = again::multiples(3);
    assert!((found / worst - 0.057_118).abs() < 1e-5, "{}", found / worst);
    assert_eq!(again::worst_direction(&[[100.0, 0.0]]), 0.0);
    assert!(again::worst_direction(&[[100.0, 0.0], [-100.0, 0.0]]) < 1e-9);
}

/// The worst direction of two and three tapes against 3,600 directions tried one by one.
#[test]
fn the_worst_direction_is_the_worst_of_all() {
    let sets: [&[[f64; 2]]; 4] = [
        &[[100.0, 20.0], [-30.0, 70.0]],
        &[[10.0, 90.0], [80.0, -40.0], [50.0, 50.0]],
        &[[100.0, 0.0], [100.0, 5.0]],
        &[[60.0, 0.0], [-30.0, 52.0], [-30.0, -52.0]],
    ];
    for pulls in sets {
        let shown = |tenth: u32| {
            let [east, north] = crate::quantity::bearing::unit(f64::from(tenth) / 10.0);
            pulls.iter().map(|pull| (pull[0] * east + pull[1] * north).abs()).fold(0.0, f64::max)
        };
        let tried = (0..3600).map(shown).fold(f64::INFINITY, f64::min);
        let worst = again::worst_direction(pulls);
        assert!(worst <= tried + 1e-9 && worst > tried - 0.2, "{worst} {tried}");
    }
}

/// Lantern Green has three marks, so three tapes: the triangle shows every mark. A fourth is told to be seen by none of them. Shifting a mark by what is told
/// to be found moves a tape, measured anew by Pythagoras, by the 4.039 sigmas that finding takes.
#[test]
fn three_tapes_show_which_mark_moved() {
    let mut job = lantern_green();
    let surveyed = plan::survey(&job.yard, job.units).unwrap();
    let check = mark_check(&job, &surveyed);
    assert_eq!((check.tapes.len(), check.sets_tried), (3, 1));
    let marks = surveyed.marks(&job.yard);
    let place = |id: &str| marks.iter().find(|mark| mark.id == id).unwrap().at;
    for watched in &check.marks {
        let MarkSeen::EveryWay { least_m } = watched.seen else { panic!("{watched:?}") };
        assert!((0.01..0.5).contains(&least_m), "{watched:?}");
        let shown = |degrees: u32| {
            let [east, north] = crate::quantity::bearing::unit(f64::from(degrees));
            let moved = |tape: &MarkTape| {
                let [a, b] = [place(&tape.from), place(&tape.to)];
                let sign = if tape.from == watched.mark { -1.0 } else { 1.0 };
                let by = [b[0] - a[0], b[1] - a[1], b[2] - a[2]];
                let after = [by[0] + sign * least_m * east, by[1] + sign * least_m * north, by[2]];
                let length = |by: [f64; 3]| by.iter().map(|part| part * part).sum::<f64>().sqrt();
                (length(after) - length(by)).abs() / tape.sigma_m
            };
            let touching = check.tapes.iter().filter(|it| [&it.from, &it.to].contains(&&watched.mark));
            touching.map(moved).fold(0.0, f64::max)
        };
        let worst = (0..360).map(shown).fold(f64::INFINITY, f64::min);
        assert!((worst / 4.0388 - 1.0).abs() < 0.03, "{worst} {watched:?}");
    }
    job.yard.marks.push(Mark {
        id: "D".to_owned(),
        name: "Fourth".to_owned(),
        at: PointFix::Coordinates { east_m: -30.0, north_m: -30.0 },
    });
    let surveyed = plan::survey(&job.yard, job.units).unwrap();
    let four = mark_check(&job, &surveyed);
    // Six lines, twenty threes.
    assert_eq!(four.sets_tried, 20);
    let every = four.marks.iter().filter(|mark| matches!(mark.seen, MarkSeen::EveryWay { .. })).count();
    assert_eq!(every, 3, "three tapes hold three marks: {four:?}");
    assert_eq!(four.marks.iter().filter(|mark| mark.seen == MarkSeen::NotAtAll).count(), 1);
    job.yard.marks.truncate(1);
    job.yard.measurements.clear();
    job.yard.spot_heights.clear();
    let surveyed = plan::survey(&job.yard, job.units).unwrap();
    let one = mark_check(&job, &surveyed);
    assert!(one.tapes.is_empty() && one.marks[0].seen == MarkSeen::NotAtAll);
}

/// A year on the compass has turned by what the model's own rate says (WMM2025: linear in five years), and a baseline by nothing.
#[test]
fn the_compass_turns_from_year_to_year() {
    let job = lantern_green();
    let later = at("2027-11-14T14:20:00-05:00");
    let NorthAgain::Turned { then_deg, now_deg, shows_more_deg, out_of_date } = north_again(&job.yard, later)
    else {
        panic!()
    };
    let place = job.yard.place.as_ref().unwrap();
    let there = Geodetic {
        latitude_deg: place.latitude_deg,
        longitude_deg: place.longitude_deg,
        height_m: place.altitude_m,
    };
    let rate = magnetic_field(there, 2027.37).rates.declination_deg;
    assert!((now_deg - then_deg - rate).abs() < 1e-3, "{then_deg} {now_deg} {rate}");
    assert!((shows_more_deg + (now_deg - then_deg)).abs() < 1e-9 && !out_of_date);
    let NorthAgain::Turned { out_of_date, .. } = north_again(&job.yard, at("2031-11-14T14:20:00-05:00"))
    else {
        panic!()
    };
    assert!(out_of_date, "the model ends with 2029");
    let mut yard = job.yard.clone();
    yard.bearings = BearingReference::Baseline { from: "A".into(), to: "B".into(), bearing_deg: 270.0 };
    assert_eq!(north_again(&yard, later), NorthAgain::AsItWas);
    yard.bearings = BearingReference::Magnetic { declination_deg: None };
    yard.place = None;
    assert_eq!(north_again(&yard, later), NorthAgain::NotKnown);
}
