//! The workshop: fits, stages and the lift, by hand sums on Lantern Green, by statics solved another way, and by what must hold of any
//! mast.

use mastwright_api::messages::JobRequest;
use mastwright_api::workshop::{WorkshopAnswer, WorkshopPlan, workshop};
use mastwright_engine::demo::LANTERN_GREEN;
use mastwright_engine::finding::{Finding, Quantity, Severity};
use mastwright_engine::workshop::circle::bracket::RingBracket;
use mastwright_engine::workshop::fit::{Bushings, FitClass};
use mastwright_engine::workshop::joints::{MastSeat, StakeWork};
use mastwright_engine::workshop::lift::jam::push_n;
use mastwright_engine::workshop::shopping::Ware;
use mastwright_engine::workshop::stages::HolePurpose::{
    CarriesAbove, Lifts, SecondAbove, SecondBelow, StandsBelow,
};
use mastwright_engine::workshop::stages::rises::{RodRig, rises};
use mastwright_engine::workshop::stages::{DrilledTube, HolePurpose};
use serde_json::{Value, json};

fn demo() -> Value {
    let mut job: Value = serde_json::from_str(LANTERN_GREEN).expect("JSON");
    job["units"] = json!({ "system": "metric", "inch_fraction": 16 });
    job
}

fn asked(job: Value) -> WorkshopAnswer {
    workshop(&JobRequest { job }).unwrap_or_else(|errors| panic!("{errors}"))
}

fn but(changes: &[(&str, Value)]) -> WorkshopAnswer {
    let mut job = demo();
    for (at, to) in changes {
        *job.pointer_mut(at).unwrap_or_else(|| panic!("no {at}")) = to.clone();
    }
    asked(job)
}

fn findings(of: &WorkshopAnswer) -> impl Iterator<Item = &Finding> {
    let WorkshopPlan { fit, stages, lift, base, collars, .. } = &of.plan;
    [&fit.findings, &stages.findings, &lift.findings, &base.findings, &collars.findings].into_iter().flatten()
}

#[track_caller]
fn near(is: f64, expect: f64, within: f64) {
    assert!((is - expect).abs() < within, "{is}, not {expect}");
}

/// The three tubes of the demo go up on paper completely: nothing is asked any more, nothing says stop.
#[test]
fn the_demos_three_tubes_go_up_on_paper() {
    let answer = asked(demo());
    let grave: Vec<&str> =
        findings(&answer).filter(|it| it.severity <= Severity::Unchecked).map(|it| it.rule.name()).collect();
    assert!(grave.is_empty(), "{grave:?}");
    let order: Vec<u32> = answer.plan.stages.stages.iter().map(|stage| stage.tube).collect();
    assert_eq!(order, [2, 1], "the innermost first");
    assert_eq!(answer.plan.stages.stages[1].carried, ["Top tube"]);
    for stage in &answer.plan.lift.stages {
        assert!(
            stage.hand_n.is_some()
                && stage.strap_n.is_some()
                && stage.rod.is_some()
                && stage.crank_turns.is_some()
        );
    }
    // The boring words of a page are there, and none is empty.
    for page in [&answer.report.fit, &answer.report.stages, &answer.report.lift, &answer.report.base] {
        assert!(!page.headline.is_empty() && !page.cards.is_empty() && !page.caution.is_empty());
    }
}

/// Calliper 41.9 and 41.7 over 38.4 and 38.3, each 0.1 off: bore 41.6 to 42.0, outside 38.2 to 38.5, play 3.1 to 3.8. Upper ring 41.5
/// outside and 39.0 bored, lower 41.1 and 38.6; slides with 0.5 to 0.8 and 0.5 to 0.9, 40 mm long each.
#[test]
fn rings_between_the_lower_two_tubes_by_hand() {
    let answer = asked(demo());
    let joint = &answer.plan.fit.joints[0];
    let play = joint.play.expect("both were measured");
    near(play.worst.least_mm, 3.1, 1e-9);
    near(play.worst.largest_mm, 3.8, 1e-9);
    // Of 95 in 100: ±1.96·√(0.2² + 0.15²)/√3 about 3.45, and no wider than the worst.
    near(play.likely.largest_mm - 3.45, 1.959_96 * (0.04_f64 + 0.0225).sqrt() / 3.0_f64.sqrt(), 1e-4);
    assert_eq!(joint.class, FitClass::Loose);
    let Bushings::Turned { upper, lower } = &joint.bushings else { panic!("{:?}", joint.bushings) };
    for (is, expect) in [
        (upper.outside_mm, 41.5),
        (upper.bore_mm, 39.0),
        (lower.outside_mm, 41.1),
        (lower.bore_mm, 38.6),
        (upper.length_mm, 40.0),
        (upper.play.least_mm, 0.5),
        (upper.play.largest_mm, 0.8),
        (lower.play.least_mm, 0.5),
        (lower.play.largest_mm, 0.9),
    ] {
        near(is, expect, 1e-9);
    }
    // PVC 1-1/4: 42.03 at the least outside, 35.17 at the most inside.
    assert_eq!(upper.stock.as_ref().map(|stock| stock.size.as_str()), Some("1-1/4"));
    // Bears over 460 − 40 mm; leans (0.8 + 0.9)/2/420; the top is 5.81 − 2.36 m above the mouth.
    near(joint.bearing_m, 0.42, 1e-9);
    let lean: f64 = 0.85 / 420.0;
    near(joint.lean_deg.expect("known"), lean.atan().to_degrees(), 1e-9);
    near(joint.top_wander_m.expect("known"), 0.0004 + 3.45 * lean, 1e-9);
    // The other joint: 34.9 to 35.2 over 33.3 to 33.6, play 1.3 to 1.9, slides without rings.
    let other = &answer.plan.fit.joints[1];
    assert_eq!((other.class, &other.bushings), (FitClass::Sliding, &Bushings::NotNeeded));
    near(
        answer.plan.fit.top_wander_m.expect("known"),
        0.0004 + 3.45 * lean + 0.00095 + (5.81 - 4.19) * 1.9 / 410.0,
        1e-9,
    );
}

/// Drawn pairs of tubes: the play never leaves its worst limits, and 95 in 100 lie within the likely ones.
#[test]
fn likely_play_covers_drawn_pairs() {
    let play = asked(demo()).plan.fit.joints[0].play.expect("known");
    let mut state = 9_u64;
    let mut even = || {
        state = state.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        (state >> 11) as f64 / (1_u64 << 53) as f64
    };
    let inside = (0..20_000)
        .filter(|_| {
            let drawn = (41.6 + 0.4 * even()) - (38.2 + 0.3 * even());
            assert!(drawn >= play.worst.least_mm - 1e-9 && drawn <= play.worst.largest_mm + 1e-9);
            drawn >= play.likely.least_mm && drawn <= play.likely.largest_mm
        })
        .count();
    assert!((18_900..19_600).contains(&inside), "{inside}");
}

fn hole(tube: &DrilledTube, purpose: HolePurpose) -> f64 {
    tube.holes.iter().find(|hole| hole.purpose == purpose).expect("it is there").from_lower_end_m
}

/// A pin goes through both tubes: raised, the hole on which a tube stands lies at the hole that carries in the tube below, and so do
/// the second ones; and the lower end has the planned overlap under the mouth.
#[test]
fn holes_of_two_tubes_meet() {
    let stages = asked(demo()).plan.stages;
    let lengths = [2.36, 2.29, 2.03];
    for (inner, overlap_m) in [(1, 0.46), (2, 0.41)] {
        let raised_m = lengths[inner - 1] - overlap_m;
        let [outer, tube] = [&stages.tubes[inner - 1], &stages.tubes[inner]];
        near(hole(outer, CarriesAbove), raised_m + hole(tube, StandsBelow), 1e-9);
        near(hole(outer, SecondAbove), raised_m + hole(tube, SecondBelow), 1e-9);
        assert!(hole(outer, SecondAbove) > hole(outer, CarriesAbove));
    }
    let turned = |tube: &DrilledTube| tube.holes.iter().filter(|hole| hole.across_the_rod).count();
    assert_eq!(
        stages.tubes.iter().map(turned).collect::<Vec<_>>(),
        [1, 2, 1],
        "a quarter turn in each joint"
    );
}

/// The middle tube: stool 2.36 + 0.15 − 2.29 = 0.22 m, rises 2.36 − 0.46 − 0.22 = 1.68 m, its pin 4 mm over the mouth at 2.364 m; hook
/// from 2.364 − 2.24 = 0.124 m, 1.15 − 0.124 = 1.026 m a pull at the most: two of 0.84 m. The top tube: stool 0.22 + 0.41, rises
/// 1.47 m from a pin at 2.514 m: hook from 0.274 m, two of 0.735 m.
#[test]
fn pulls_of_the_demo_by_hand() {
    let stages = asked(demo()).plan.stages.stages;
    let expect = [(0.63, 1.47, 2.514, 0.274, 0.735), (0.22, 1.68, 2.364, 0.124, 0.84)];
    for (stage, (stool_m, travel_m, pin_m, hook_m, each_m)) in stages.iter().zip(expect) {
        let rises = stage.rises.expect("all is said");
        for (is, expect) in [
            (stage.stool_m, stool_m),
            (stage.travel_m, travel_m),
            (stage.rod_pin_m, pin_m),
            (rises.hook_from_m, hook_m),
            (rises.each_m, each_m),
        ] {
            near(is, expect, 1e-9);
        }
        assert_eq!(rises.pulls, 2);
        assert!(rises.each_m <= rises.stroke_m);
    }
    // Pins above the ground: the mouth's hole, 2.36 − 0.146 m and 2.36 + 0.004 m over the foot.
    let foot_m = asked(demo()).plan.stages.foot_above_ground_m;
    near(stages[1].pins_above_ground_m[0], 2.214 + foot_m, 1e-9);
    near(stages[0].pins_above_ground_m[0], 2.364 + foot_m, 1e-9);
    near(stages[0].pins_above_ground_m[1] - stages[0].pins_above_ground_m[0], 0.05, 1e-9);
    near(stages[0].platform_m.expect("beyond a hand"), 2.364 + foot_m - 1.4, 1e-9);
}

/// Common practice: a rod pushed from half-way up one tube lifts the next by half its length, and needs a further pin stage beyond.
/// Tubes of 2.4 and 2.1 m, the winch half-way up the lower one.
#[test]
fn a_rod_pushed_from_half_way_lifts_by_half() {
    let rig = RodRig { rod_m: 2.4, hook_lowest_m: 0.0, hook_highest_m: 1.2, shortest_m: 0.2 };
    // Pinned at the mouth, 2.4 m up: it gains half of 2.4 m; half of 2.1 m goes in one pull, all but the overlap in two.
    assert_eq!(rises(&rig, 2.4, 1.05).map(|it| (it.pulls, it.each_m)), Ok((1, 1.05)));
    let whole = rises(&rig, 2.4, 1.7).expect("it reaches");
    assert_eq!(whole.pulls, 2);
    near(whole.stroke_m, 1.2, 1e-12);
    near(f64::from(whole.pulls) * whole.each_m, 1.7, 1e-12);
    // A rod as much shorter gains that much less; one that reaches its pin only with the hook at the winch gains nothing.
    near(rises(&RodRig { rod_m: 2.0, ..rig }, 2.4, 1.7).expect("it reaches").stroke_m, 0.8, 1e-12);
    let short = rises(&RodRig { rod_m: 1.1, ..rig }, 2.4, 1.7).expect_err("too short");
    near(short.rod_at_least_m, 1.4, 1e-12);
    assert!(
        rises(&RodRig { rod_m: short.rod_at_least_m, ..rig }, 2.4, 1.7).is_ok(),
        "the nearest that works does"
    );
}

/// The push beside the axis, by the three equations of statics for a rigid tube solved as they stand: F − W − μ(N₁ + N₂) = 0,
/// N₁ − N₂ = 0, and moments about the upper bearing's middle.
#[test]
fn a_push_beside_the_axis_by_a_small_solver() {
    for (weight, friction, arm, beside, bearing) in
        [(300.0, 0.3, 0.08, 0.0, 0.6), (180.0, 0.2, 0.0398, 0.0, 0.42), (250.0, 0.45, 0.05, 0.02, 0.3)]
    {
        // Unknown: F, N₁, N₂. Moments: F·arm + W·beside − N·bearing with both frictions on the axis. Gauss by hand.
        let mut rows = [
            [1.0, -friction, -friction, weight],
            [0.0, 1.0, -1.0, 0.0],
            [arm, 0.0, -bearing, -weight * beside],
        ];
        for pivot in 0..3 {
            let top = rows[pivot];
            for (index, row) in rows.iter_mut().enumerate() {
                if index != pivot {
                    let by = row[pivot] / top[pivot];
                    row.iter_mut().zip(top).for_each(|(cell, above)| *cell -= by * above);
                }
            }
        }
        let force = rows[0][3] / rows[0][0];
        near(push_n(weight, friction, [arm, beside], bearing).expect("it moves"), force, 1e-9 * force);
    }
}

/// Weights by hand: the top tube with topper, upper guys, strands and rod; strap and hand from it.
#[test]
fn strap_and_hand_by_hand() {
    let job = demo();
    let answer = asked(job.clone());
    let plan =
        mastwright_engine::plan::compute(&mastwright_engine::job::read_job_value(&job).expect("it reads"))
            .expect("it has a plan")
            .plan;
    let strands: f64 = plan.ring.expect("a ring").strand_lengths_m.iter().sum::<f64>() * 0.035;
    let upper: f64 =
        plan.guys.iter().filter(|guy| guy.level_id == "upper").map(|guy| guy.cut_m.value * 0.025).sum();
    // 1.68 lb/ft over 2.03 m; 21.3 over 16.1 mm of steel, 2.3 m.
    let tube = 1.68 * 0.453_592_37 / 0.3048 * 2.03;
    let rod = std::f64::consts::PI / 4.0 * (21.3_f64.powi(2) - 16.1_f64.powi(2)) * 1e-6 * 2.3 * 7850.0;
    let stage = &answer.plan.lift.stages[0];
    near(stage.mass_kg.expect("known"), tube + 0.9 + strands + upper + rod, 1e-9);
    // Arm 24.15 + 5 + 10.65 = 39.8 mm; friction 0.2 over 410 mm.
    let strap = stage.mass_kg.expect("known") * 9.806_65 / (1.0 - 2.0 * 0.2 * 0.0398 / 0.41);
    near(stage.strap_n.expect("known"), strap, 1e-6);
    near(stage.jams_at_m.expect("known"), 2.0 * 0.2 * 0.0398, 1e-12);
    let full = answer.plan.lift.strap.expect("known").full_mm;
    near(stage.hand_n.expect("known"), strap * full / 2.0 / (200.0 * 3.2 * 0.66), 1e-6);
    // Full drum: two dead turns and the hook's way from 0.124 to 1.009 m (0.274 + 0.735).
    let wound = std::f64::consts::PI * 2.0 * (40.0 + 2.0 * 1.5) + 885.0;
    near(full, (40.0_f64.powi(2) + 4.0 * 1.5 * wound / std::f64::consts::PI).sqrt(), 1e-9);
    // Turns of the crank wind what a pull gains: between the mean circles at its beginning and its end.
    let turns = stage.crank_turns.expect("known") / 3.2;
    assert!(735.0 / (std::f64::consts::PI * full) < turns && turns < 735.0 / (std::f64::consts::PI * 43.0));
}

/// In still air the pin below the top tube carries what it weighs, the strands and the upper guys as tight as they are set.
#[test]
fn the_pin_carries_what_is_above_it() {
    let answer = asked(demo());
    let [top, middle] = [&answer.plan.stages.stages[0].pin, &answer.plan.stages.stages[1].pin];
    assert!(middle.still_n > top.still_n && top.guys_at_limit_n > top.still_n);
    let looser = but(&[("/rig/guy_levels/1/tension_n", json!(60))]);
    let less = top.still_n.unwrap() - looser.plan.stages.stages[0].pin.still_n.unwrap();
    // Three guys with 60 N less at about 45° to 55°: 60·3·sin.
    assert!((60.0..180.0).contains(&less), "{less}");
    let unknown = but(&[("/rig/guy_levels/1/rope/strength/minimum_n", Value::Null)]);
    assert_eq!(unknown.plan.stages.stages[0].pin.guys_at_limit_n, None);
}

/// The one stop of its rule, with what was measured and what is allowed in metres.
#[track_caller]
fn stop(of: &WorkshopAnswer, rule: &str) -> (f64, f64, String) {
    let finding = findings(of).find(|it| it.rule.name() == rule).unwrap_or_else(|| {
        panic!("no {rule}: {:?}", findings(of).map(|it| it.rule.name()).collect::<Vec<_>>())
    });
    assert_eq!((finding.severity, of.plan.worst), (Severity::Stop, Some(Severity::Stop)));
    let length = |quantity| match quantity {
        Quantity::LengthM { value } | Quantity::ForceN { value } => value,
        other => panic!("{other:?}"),
    };
    let texts = [&of.report.fit, &of.report.stages, &of.report.lift, &of.report.base, &of.report.collars]
        .map(|page| page.findings.clone())
        .concat();
    let text = texts.into_iter().find(|text| text.rule == rule).expect("in words");
    assert!(!text.numbers.is_empty(), "{text:?}");
    (
        length(finding.measured.expect("measured")),
        length(finding.limit.expect("a limit").quantity),
        text.remedy,
    )
}

/// Bad input: which part, what it is, what is allowed, and something near that works when it is taken.
#[test]
fn what_does_not_work_says_what_does() {
    let thick = but(&[
        ("/rig/tubes/1/calliper/outside_mm", json!(42.6)),
        ("/rig/tubes/1/calliper/outside_across_mm", json!(42.4)),
    ]);
    let (is, most, remedy) = stop(&thick, "workshop_does_not_enter");
    near(is, 0.0423, 1e-9);
    near(most, 0.042, 1e-9);
    assert!(remedy.contains("The thickest listed tube"), "{remedy}");

    let shallow = but(&[("/rig/tubes/1/overlap_m", json!(0.2))]);
    let (is, least, remedy) = stop(&shallow, "workshop_overlap_below_least");
    near(is, 0.2, 1e-9);
    near(least, 0.15 + 0.017 + 0.04, 1e-9);
    assert!(remedy.contains("207 mm"), "{remedy}");
    assert_eq!(
        but(&[("/rig/tubes/1/overlap_m", json!(0.21))]).plan.worst.filter(|it| *it == Severity::Stop),
        None
    );

    let (is, least, _) = stop(&but(&[("/rig/tubes/1/overlap_m", json!(0.19))]), "workshop_hole_near_end");
    near(is, 0.19 - 0.146, 1e-9);
    near(least, 0.017 + 0.04, 1e-9);

    let (is, most, remedy) =
        stop(&but(&[("/workshop/lift/rod_length_m", json!(2.6))]), "workshop_rod_too_long");
    near(is, 2.6, 1e-9);
    assert!(remedy.starts_with("A rod of at most"), "{remedy}");
    let taken = but(&[("/workshop/lift/rod_length_m", json!(most))]);
    assert!(
        findings(&taken).all(|it| it.rule.name() != "workshop_rod_too_long"),
        "the nearest that works does"
    );

    let (_, least, _) = stop(&but(&[("/workshop/lift/rod_length_m", json!(1.3))]), "workshop_rod_too_short");
    let taken = but(&[("/workshop/lift/rod_length_m", json!(least))]);
    assert!(findings(&taken).all(|it| it.rule.name() != "workshop_rod_too_short"));

    stop(&but(&[("/workshop/lift/pin_mm", json!(9))]), "workshop_pin_thicker_than_hole");
    stop(
        &but(&[("/workshop/lift/rod_outside_mm", json!(5)), ("/workshop/lift/rod_bore_mm", json!(0))]),
        "workshop_rod_buckles",
    );
    let (is, most, _) =
        stop(&but(&[("/workshop/lift/strap_working_n", json!(100))]), "workshop_strap_too_weak");
    assert!(is > most);
    let (_, most, _) = stop(
        &but(&[("/workshop/lift/gear", json!(0.5)), ("/workshop/lift/crank_mm", json!(50))]),
        "workshop_crank_too_hard",
    );
    near(most, 30.0 * 4.448_221_615, 1e-3);
}

/// Not knowing is never a number: without a calliper the bore of conduit is not known, nor are rings, lean and wander; without rod and
/// winch there are no pulls, and without a weight no force.
#[test]
fn what_nobody_said_is_not_known() {
    let none = json!({ "outside_mm": null, "outside_across_mm": null, "bore_mm": null, "bore_across_mm": null, "off_mm": null });
    let answer = but(&[("/rig/tubes/1/calliper", none)]);
    let joint = &answer.plan.fit.joints[1];
    assert_eq!((joint.play, joint.lean_deg, joint.top_wander_m), (None, None, None));
    assert_eq!((&joint.bushings, answer.plan.fit.top_wander_m), (&Bushings::NotKnown, None));
    assert_eq!(answer.plan.worst, Some(Severity::Unchecked));
    assert!(answer.report.fit.headline.contains("not known yet"));

    for field in ["pin_mm", "rod_length_m", "winch_height_m"] {
        let answer = but(&[(&format!("/workshop/lift/{field}"), Value::Null)]);
        assert!(answer.plan.stages.stages.iter().all(|stage| stage.rises.is_none()), "{field}");
        assert_eq!(answer.plan.worst, Some(Severity::Unchecked), "{field}");
        assert!(answer.report.stages.headline.contains("not known yet"));
    }
    let unweighed = but(&[("/rig/strands/cord/mass_g_per_m", Value::Null)]);
    assert!(unweighed.plan.lift.stages.iter().all(|stage| stage.mass_kg.is_none() && stage.hand_n.is_none()));
    assert_eq!(unweighed.plan.worst, Some(Severity::Unchecked));
}

/// Measured as made goes before what was planned.
#[test]
fn what_is_made_otherwise_changes_what_comes_after() {
    let before = asked(demo()).plan;
    // A tube two millimetres shorter stands two millimetres higher on its stool, and rises two millimetres less.
    let shorter = but(&[("/rig/tubes/1/length_m", json!(2.288))]).plan;
    near(shorter.stages.stages[1].stool_m - before.stages.stages[1].stool_m, 0.002, 1e-9);
    near(before.stages.stages[1].travel_m - shorter.stages.stages[1].travel_m, 0.002, 1e-9);
    // A hole drilled three millimetres low moves the one that has to meet it.
    let made = |part: &str, measured_mm: f64| {
        but(&[("/workshop/made", json!([{ "part": part, "measured_mm": measured_mm }]))]).plan
    };
    let low = made("hole-carries:0", 149.0);
    let moved = hole(&before.stages.tubes[1], StandsBelow) - hole(&low.stages.tubes[1], StandsBelow);
    near(moved, 0.003, 1e-9);
    near(hole(&low.stages.tubes[0], CarriesAbove), 2.36 - 0.149, 1e-9);
    // A ring bored 0.3 mm wider has 0.3 mm more play, one too narrow binds.
    let wide = made("bushing-upper:1", 39.3);
    let Bushings::Turned { upper, .. } = &wide.fit.joints[0].bushings else { panic!() };
    near(upper.play.largest_mm, 1.1, 1e-9);
    assert!(wide.fit.top_wander_m > before.fit.top_wander_m);
    let narrow = made("bushing-upper:1", 38.4);
    assert!(narrow.fit.findings.iter().any(|it| it.rule.name() == "workshop_bushing_binds"));
}

/// Holes measured as made: the demo's middle tube, 0.314 m from its lower end to the hole on which it stands, 0.146 m from the lower tube's
/// mouth to the one that carries it: 0.46 m inside. Pins of 8 mm in holes of 8.5: half a millimetre off still goes.
#[test]
fn holes_as_drilled_are_where_they_were_measured() {
    let made = |all: &[(&str, f64)]| {
        let all: Vec<Value> =
            all.iter().map(|(part, mm)| json!({ "part": part, "measured_mm": mm })).collect();
        but(&[("/workshop/made", json!(all))])
    };
    let named = |answer: &WorkshopAnswer, rule: &str| findings(answer).any(|it| it.rule.name() == rule);
    let before = asked(demo()).plan.stages;
    near(hole(&before.tubes[1], StandsBelow), 0.314, 1e-9);
    // Half a millimetre is the play that the pin has.
    assert!(!named(&made(&[("hole-stands:1", 314.4)]), "workshop_holes_do_not_meet"));
    // Three millimetres up: 0.463 m stay inside, it rises as much less, and the mast comes out lower.
    let off = made(&[("hole-stands:1", 317.0)]);
    let (is, most, remedy) = stop(&off, "workshop_holes_do_not_meet");
    near(is, 0.003, 1e-9);
    near(most, 0.0005, 1e-9);
    assert!(remedy.contains("463 mm"), "{remedy}");
    let stage = &off.plan.stages.stages[1];
    near(before.stages[1].travel_m - stage.travel_m, 0.003, 1e-9);
    near(stage.stop_mark_m, 0.463, 1e-9);
    near(hole(&off.plan.stages.tubes[1], StandsBelow), 0.317, 1e-9);
    let says = &off.report.stages.cards[1].says;
    assert!(says.iter().any(|text| text.contains("317 mm from the lower end, as made")), "{says:?}");
    // What is said to help does.
    let mut job = demo();
    job["workshop"]["made"] = json!([{ "part": "hole-stands:1", "measured_mm": 317.0 }]);
    job["rig"]["tubes"][1]["overlap_m"] = json!(0.463);
    assert!(!named(&asked(job), "workshop_holes_do_not_meet"));
    // Drilled so near its end that too little stays inside.
    let short = made(&[("hole-stands:1", 50.0)]);
    let (is, least, _) = stop(&short, "workshop_overlap_below_least");
    near(is, 0.196, 1e-9);
    near(least, 0.15 + 0.017 + 0.04, 1e-9);
    // The lower tube's second hole moves the one that meets it; measured both, they must meet.
    let second = made(&[("hole-second:0", 90.0)]).plan.stages;
    near(hole(&second.tubes[1], SecondBelow), 0.37, 1e-9);
    near(second.stages[1].pins_m[1] - second.stages[1].pins_m[0], 0.056, 1e-9);
    let both = made(&[("hole-second:0", 90.0), ("hole-second-below:1", 366.0)]);
    let (is, _, remedy) = stop(&both, "workshop_holes_do_not_meet");
    near(is, 0.004, 1e-9);
    // 2.2 holes of 8.5 mm over the higher one of the two, 90 mm from the mouth.
    assert!(remedy.contains("71 mm"), "{remedy}");
    assert!(!named(
        &made(&[("hole-second:0", 90.0), ("hole-second-below:1", 369.8)]),
        "workshop_holes_do_not_meet"
    ));
    // A hole for the rod drilled low wants a higher stool, or its pin would lie in the mouth.
    let low = made(&[("hole-carries:1", 160.0)]).plan.stages;
    near(low.stages[1].stool_m, 2.36 + 0.16 + 0.004 - 2.29, 1e-9);
    near(low.stages[1].rod_pin_m, 2.364, 1e-9);
    // Two pulls of 0.84 m; the second lifting hole 0.1 m low makes the first one 0.94 m and the second 0.74 m.
    let (from_m, pulls) = (0.146, [0.84, 0.84]);
    let gains = |of: &WorkshopAnswer| of.plan.stages.stages[1].gains_m.clone();
    let at = |mm: f64| made(&[("hole-lift-2:1", mm)]);
    for (mm, expect) in [(1000.0 * (from_m + 0.84), pulls), (1000.0 * (from_m + 0.94), [0.94, 0.74])] {
        let found = gains(&at(mm));
        assert!(found.len() == 2 && found.iter().zip(expect).all(|(a, b)| (a - b).abs() < 1e-9), "{found:?}");
    }
    let longer = at(1000.0 * (from_m + 0.94)).plan.lift.stages[1].crank_turns.expect("known");
    assert!(
        longer > asked(demo()).plan.lift.stages[1].crank_turns.expect("known"),
        "the longest pull counts"
    );
    // 1.1 m is more than the strap draws, 1.026 m: one more hole half-way.
    let (is, most, remedy) = stop(&at(1000.0 * (from_m + 1.1)), "workshop_pull_too_long");
    near(is, 1.1, 1e-9);
    near(most, 1.026, 1e-9);
    assert!(remedy.contains("696 mm"), "{remedy}");
    // Every hole is asked for, each from the end from which it is marked.
    let asks: Vec<&str> =
        off.report.stages.cards.iter().flat_map(|card| &card.measured).map(|it| it.part.as_str()).collect();
    let all: usize = off.plan.stages.tubes.iter().map(|tube| tube.holes.len()).sum();
    assert!(asks.len() == all && asks.contains(&"hole-second-below:2"), "{asks:?}");
}

/// What a calliper read goes before the list wherever a tube's outside counts: 49.3 and 49.1 mm of the lower tube, 0.1 mm off at the most.
#[test]
fn the_tube_in_hand_goes_before_its_list() {
    let read = |reading: f64| {
        let mut job = demo();
        job["rig"]["tubes"][0]["calliper"]["outside_mm"] = json!(reading);
        job["rig"]["tubes"][0]["calliper"]["outside_across_mm"] = json!(reading - 0.2);
        job
    };
    let [before, thick] = [48.4, 49.4].map(|reading| asked(read(reading)).plan);
    near(thick.stages.tubes[0].outside_mm, 49.3, 1e-9);
    let arm = |plan: &WorkshopPlan| plan.lift.stand_off.as_ref().expect("known").arm_mm;
    near(arm(&thick) - arm(&before), 0.5, 1e-9);
    near(
        thick.lift.plate.expect("known").clamps_mm[0] - before.lift.plate.expect("known").clamps_mm[0],
        1.0,
        1e-9,
    );
    let list = |job: Value| {
        let request = mastwright_api::workshop::buying::ShoppingRequest { job, begin: None };
        mastwright_api::workshop::buying::shopping(&request).expect("a list").list
    };
    let pin_mm = |job: Value| {
        list(job).items.into_iter().find_map(|item| match item.ware {
            Ware::Pin { least_length_mm, .. } => Some(least_length_mm),
            _ => None,
        })
    };
    near(pin_mm(read(49.4)).expect("a pin"), 49.5 + 30.0, 1e-9);
    // A dent holds what slides once it takes all of its play: the lower ring's 0.5 mm, 34.9 less 33.6 mm of the top tube's.
    let dents: Vec<f64> =
        asked(demo()).plan.lift.stages.iter().map(|it| it.dent_mm.expect("known")).collect();
    near(dents[0], 1.3, 1e-9);
    near(dents[1], 0.5, 1e-9);
}

/// The cut list has what was forgotten: rod, both stools (2.36 + 0.15 − 2.29 = 0.22 m; 0.22 + 0.41 m), two discs and their spacer.
#[test]
fn all_that_is_sawn_is_on_the_cut_list() {
    let list = |job: &Value| {
        let request = mastwright_api::workshop::buying::ShoppingRequest { job: job.clone(), begin: None };
        mastwright_api::workshop::buying::shopping(&request).expect("a list")
    };
    let answer = list(&demo());
    let piece = |part: &str| {
        let all = answer.list.lots.iter().flat_map(|lot| lot.lot.pieces.iter().map(move |it| (lot, it)));
        let found = all.into_iter().find(|(_, piece)| piece.part == part);
        let (lot, piece) = found.unwrap_or_else(|| panic!("no {part}"));
        (lot.lot.material.clone(), piece.length_m.expect("known"), piece.count)
    };
    for (part, material, length_m, count) in [
        ("rod", "rod", 2.3, 1),
        ("stool:1", "tube emt 1-1/4", 0.22, 1),
        ("stool:2", "tube sch40 1", 0.63, 1),
        ("topper:disc", "disc", 0.483, 2),
        ("topper:spacer", "spacer", 0.102, 1),
    ] {
        let (of, is, how_many) = piece(part);
        assert_eq!((of.as_str(), how_many), (material, count), "{part}");
        near(is, length_m, 1e-9);
    }
    assert!(answer.report.not_cut.contains("bought whole"), "{}", answer.report.not_cut);
    let bought: Vec<&str> = answer.list.items.iter().map(|item| item.part.as_str()).collect();
    for part in ["buy:rod guide", "buy:topper hold", "buy:rod 3.048", "buy:disc 1.2192"] {
        assert!(bought.contains(&part), "{part}: {bought:?}");
    }
    // A topper of which nobody has said how it is made is bought all the same, and not known.
    let mut open = demo();
    open["workshop"]["topper"] = Value::Null;
    let item = list(&open).list.items.into_iter().find(|item| item.part == "buy:topper");
    assert!(!item.expect("it is wanted").missing.is_empty());
}

/// A ring that may not be bent is cut as the verdict says: 21 straight sides, 2·2.6·sin(180°/21) = 0.7750 m on level ground, each a little
/// longer where the green falls along it. Conduit bends: as many pieces as pipes hold.
#[test]
fn the_ring_is_cut_as_it_can_be_made() {
    let ring = |pipe: Value| {
        let mut job = demo();
        job["workshop"]["ring"] = pipe;
        let request = mastwright_api::workshop::buying::ShoppingRequest { job, begin: None };
        let answer = mastwright_api::workshop::buying::shopping(&request).expect("a list");
        let at = answer.list.lots.iter().position(|lot| lot.lot.material == "ring").expect("a ring");
        let corners = answer.list.items.iter().any(|item| item.part == "buy:ring corners");
        let couplings = answer.list.items.iter().any(|item| item.part == "buy:ring couplings");
        let says = answer.report.lots[at].says.join(" ");
        (answer.list.lots[at].lot.pieces.clone(), corners, couplings, says)
    };
    let pvc =
        json!({ "stuff": "pvc", "outside_mm": 21.336, "pipe_m": 3.048, "supports": 21, "wall_mm": 2.769 });
    let (sides, corners, couplings, says) = ring(pvc.clone());
    assert_eq!(sides.iter().map(|side| side.count).sum::<u32>(), 21);
    let chord_m = 5.2 * (std::f64::consts::PI / 21.0).sin();
    for side in &sides {
        let length_m = side.length_m.expect("known");
        assert!(
            length_m >= chord_m - 1e-9 && length_m < chord_m / 8.0_f64.to_radians().cos() + 0.001,
            "{length_m}"
        );
    }
    assert!(sides.len() > 1, "the green falls, so not all are alike");
    assert!(corners && !couplings && says.contains("6.401 m") && says.contains("17.14°"), "{says}");
    // Nobody has said how many supports: no length, and why.
    let (sides, _, _, says) = ring(json!({ "stuff": "pvc", "outside_mm": 21.336, "pipe_m": 3.048 }));
    assert!(sides.len() == 1 && sides[0].length_m.is_none() && says.contains("straight sides"), "{says}");
    let (_, _, _, says) = ring(json!({ "stuff": "other", "outside_mm": 20, "pipe_m": 3.0, "supports": 21 }));
    assert!(says.contains("not known"), "{says}");
    // The demo's own ring bends: 16.34 m and a little more on 21 supports, so three of 0.78 m on each pipe of 3.048 m, seven pieces.
    let (pieces, corners, couplings, _) = ring(demo()["workshop"]["ring"].clone());
    assert!(pieces.len() == 7 && pieces.iter().all(|piece| piece.count == 1) && !corners && couplings);
}

/// A pin through the middle of a tube must not meet the lower end of the next one inside it.
#[test]
fn lifting_pins_keep_clear_of_the_tube_inside() {
    let stages = asked(demo()).plan.stages;
    let middle = &stages.tubes[1];
    let lifts: Vec<f64> =
        middle.holes.iter().filter(|hole| hole.purpose == Lifts).map(|hole| hole.from_upper_end_m).collect();
    assert_eq!(lifts.len(), 1, "the first pull takes the hole that carries");
    assert!(lifts[0] > 0.41 + 0.0187);
    // Many short pulls would lay a lifting hole there.
    let short =
        but(&[("/workshop/lift/winch_height_m", json!(0.5)), ("/workshop/lift/rod_length_m", json!(2.3))]);
    assert!(findings(&short).any(|it| it.rule.name() == "workshop_lift_meets_tail"));
}

/// The base of Lantern Green by hand: timbers of 88.9 by 139.7 mm, so 69.85 mm deep; shoulders half a width before the axis. The lower
/// tube is 48.5 mm thick at the most and 41.6 mm wide inside at the least: a peg of 40.1 mm. Bolts of 12 mm lie 18 mm from the edges,
/// 26.45 mm off both middle lines: 37.4 mm from the axis, 24.25 + 12 beside the foot; 139.7 + 9.525 + 25 mm long.
#[test]
fn the_base_by_hand() {
    let base = asked(demo()).plan.base;
    let lap = base.lap.expect("it can be cut");
    near(lap.depth_mm, 69.85, 1e-9);
    near(lap.other_depth_mm, 69.85, 1e-9);
    near(lap.shoulders[0].from_tip_m, 1.42 - 0.044_45, 1e-9);
    near(lap.shoulders[1].from_tip_m, 0.86 - 0.044_45, 1e-9);
    let MastSeat::Plate { side_mm, peg_mm, .. } = base.seat else { panic!("{:?}", base.seat) };
    near(side_mm, 88.9, 1e-9);
    near(peg_mm.expect("a calliper was there"), 40.1, 1e-9);
    let bolts = base.bolts.expect("they fit");
    for (is, expect) in [
        (bolts.bolt_mm, 12.0),
        (bolts.hole_mm, 13.5),
        (bolts.from_edge_mm, 18.0),
        (bolts.from_middle_mm, 26.45),
        (bolts.least_length_mm, 174.225),
        (bolts.plate_edge_mm.expect("through the plate"), 18.0),
    ] {
        near(is, expect, 1e-9);
    }
    // Leaning 15°: 139.7·tan 15° = 37.43 mm farther in on top; the second bore four thicknesses on.
    let leaning = but(&[("/workshop/base/stake_slant_deg", json!(15))]).plan.base;
    let StakeWork::Through { holes, hole_mm, mouth_mm, .. } = leaning.stakes else { panic!() };
    near(hole_mm, 14.2, 1e-9);
    near(mouth_mm, 14.2 / 15.0_f64.to_radians().cos(), 1e-9);
    near(holes[0].on_top_m, 0.18 + 0.1397 * 15.0_f64.to_radians().tan(), 1e-9);
    near(holes[1].underneath_m - holes[0].underneath_m, 0.0508, 1e-9);
    // Cut 2 mm too deep, the other one is left 2 mm higher.
    let made = but(&[("/workshop/made", json!([{ "part": "lap", "measured_mm": 71.85 }]))]).plan.base;
    near(made.lap.expect("it can be cut").other_depth_mm, 67.85, 1e-9);
}

/// A foot's edges lie on the ground's plane: their mean is the gap in the middle, opposite ones differ as the bevels say, and a board's
/// side squared bears the push.
#[test]
fn feet_and_boards_of_the_base() {
    let answer = asked(demo());
    let base = &answer.plan.base;
    assert!(!base.feet.is_empty() && base.not_measured.is_empty());
    let job = mastwright_engine::job::read_job_value(&demo()).expect("it reads");
    let plan = mastwright_engine::plan::compute(&job).expect("it has a plan").plan;
    for foot in &base.feet {
        let leg = plan.base.legs.iter().find(|leg| leg.id == foot.leg).expect("a leg");
        let [outer_right, outer_left, inner_left, inner_right] = foot.edges_mm;
        near(foot.edges_mm.iter().sum::<f64>() / 4.0, 1000.0 * leg.gap_centre_m.value, 1e-6);
        let along = foot.bevel_along_deg.to_radians().tan() * foot.thickness_mm;
        near(inner_right - outer_right, along, 1e-6);
        near(inner_left - outer_left, along, 1e-6);
        near(outer_left - outer_right, foot.bevel_across_deg.to_radians().tan() * foot.width_mm, 1e-6);
        assert!(foot.strap_mm.is_none_or(|strap_mm| (100.0..=200.0).contains(&strap_mm)));
    }
    let boards = base.boards;
    let ground_pa = boards.ground_pa.expect("the soil was felt");
    let side_m = boards.foot.guys_at_limit_mm.expect("all is known") / 1000.0;
    near(side_m * side_m * ground_pa, 0.5 * boards.guys_at_limit_n.expect("known"), 1e-6);
    // The mast weighs on its foot: its tubes alone are more than 10 kg.
    assert!(boards.still_n.expect("known") > 100.0 && boards.guys_at_limit_n > boards.still_n);
    let unfelt = but(&[("/yard/soil", json!({ "kind": "unknown" }))]);
    assert_eq!(unfelt.plan.base.boards.foot.still_mm, None);
    assert_eq!(unfelt.plan.worst, Some(Severity::Unchecked));
    // On the demo's slope a level box does not fit; the T that is planned does.
    let fits: Vec<bool> = base.shapes.iter().map(|shape| shape.fits).collect();
    assert_eq!((base.shapes.len(), base.shapes[0].chosen, fits[0], fits[2]), (3, true, true, false));
    assert!(base.shapes[0].feet >= 1 && base.shapes[0].highest_mm > 50.0);
}

/// Bad input at the base and the winch: what is wrong, what is allowed, and that the nearest that works does.
#[test]
fn a_base_that_does_not_work_says_what_does() {
    let check = |changes: &[(&str, Value)],
                 rule: &str,
                 [is_mm, limit_mm]: [f64; 2],
                 taken: &[(&str, Value)]| {
        let answer = but(changes);
        let finding =
            findings(&answer).find(|it| it.rule.name() == rule).unwrap_or_else(|| panic!("no {rule}"));
        let length = |quantity| match quantity {
            Quantity::LengthM { value } => 1000.0 * value,
            other => panic!("{other:?}"),
        };
        near(length(finding.measured.expect("measured")), is_mm, 0.05);
        near(length(finding.limit.expect("a limit").quantity), limit_mm, 0.05);
        let pages = [&answer.report.base, &answer.report.lift];
        let text =
            pages.iter().flat_map(|page| &page.findings).find(|text| text.rule == rule).expect("in words");
        assert!(!text.numbers.is_empty() && !text.remedy.is_empty(), "{text:?}");
        assert!(
            findings(&but(taken)).all(|it| it.rule.name() != rule),
            "{rule}: the nearest that works does"
        );
    };
    let lap = |mm: f64| ("/rig/base/lap_depth_mm", json!(mm));
    check(&[lap(139.7)], "workshop_lap_not_half", [139.7, 69.85], &[lap(69.85)]);
    let seat = |mm: f64| ("/rig/base/seat_height_mm", json!(mm));
    check(&[seat(-100.0)], "workshop_socket_too_deep", [100.0, 69.85], &[seat(-69.8)]);
    let foot = |mm: f64| ("/workshop/base/foot_outside_mm", json!(mm));
    check(&[seat(-40.0), foot(70.0)], "workshop_socket_too_wide", [71.5, 58.9], &[seat(-40.0), foot(57.3)]);
    let width = |mm: f64| ("/rig/base/timber_width_mm", json!(mm));
    check(&[foot(120.0)], "workshop_no_room_for_bolts", [88.9, 111.34], &[foot(120.0), width(111.4)]);
    let plate = |mm: f64| ("/rig/base/seat_plate_mm", json!(mm));
    check(&[plate(60.0)], "workshop_bolt_near_plate_edge", [3.55, 16.2], &[plate(85.4)]);
    let slant = ("/workshop/base/stake_slant_deg", json!(10));
    let stake = |mm: f64| ("/rig/stakes/diameter_mm", json!(mm));
    check(
        &[slant.clone(), stake(40.0)],
        "workshop_stake_hole_too_wide",
        [40.0, 29.13],
        &[slant.clone(), stake(29.1)],
    );
    let inset = |m: f64| ("/rig/stakes/inset_m", json!(m));
    check(
        &[slant.clone(), inset(0.02)],
        "workshop_stake_hole_near_end",
        [20.0, 50.8],
        &[slant, inset(0.051)],
    );
    let board = but(&[("/rig/base/pad_mm", json!(20))]);
    let finding =
        findings(&board).find(|it| it.rule.name() == "workshop_board_too_small").expect("too small");
    let Some(Quantity::LengthM { value: least_m }) = finding.limit.map(|limit| limit.quantity) else {
        panic!()
    };
    let need = board.plan.base.boards.foot;
    let largest_mm = need.still_mm.expect("known").max(need.guys_at_limit_mm.expect("known"));
    assert!(1000.0 * least_m <= largest_mm + 1e-9);
    let taken = but(&[("/rig/base/pad_mm", json!(largest_mm + 0.1))]);
    assert!(findings(&taken).all(|it| it.rule.name() != "workshop_board_too_small"));
    let winch = |thick_mm: f64| {
        let plate = json!({ "across_mm": 80, "along_mm": 50, "hole_mm": 9, "thickness_mm": thick_mm });
        ("/workshop/winch_plate", plate)
    };
    check(&[winch(2.0)], "workshop_winch_plate_too_thin", [2.0, 3.0], &[winch(3.0)]);
    // Between spacers 8 mm about the clamps' legs, 56.3 mm apart: 40.3 mm, 5 on either side of the rod.
    let rod = |mm: f64| ("/workshop/lift/rod_outside_mm", json!(mm));
    check(&[winch(6.0), rod(32.0)], "workshop_rod_meets_spacers", [32.0, 30.3], &[winch(6.0), rod(30.2)]);
}

/// The winch's plate by hand: clamps 48.3 + 8 mm apart and 2·(18 + 19) mm beyond the winch's rows; 3 mm in front of the drum's pull of
/// P it is bent by P·e/along·37 mm over its net width.
#[test]
fn the_plate_of_the_winch_by_hand() {
    let plate = json!({ "across_mm": 80, "along_mm": 50, "hole_mm": 9, "thickness_mm": null });
    let lift = but(&[("/workshop/winch_plate", plate)]).plan.lift;
    let (work, off) = (lift.plate.expect("all is known"), lift.stand_off.expect("the rod is known"));
    for (is, expect) in [
        (work.clamps_mm[0], 56.3),
        (work.clamps_mm[1], 124.0),
        (work.width_mm, 116.0),
        (work.height_mm, 162.0),
        (work.spacer_mm, 31.3),
        (work.clamp_hole_mm, 9.5),
    ] {
        near(is, expect, 1e-9);
    }
    let pull_n = lift.stages.iter().map(|stage| stage.strap_n.expect("known")).fold(0.0, f64::max);
    let row_n = pull_n * (off.drum_middle_mm.expect("known") - 31.3) / 50.0;
    // Along: over 116 − 19 mm; across: half of it over half of 80 − 56.3, over 37 mm. The one that asks for more steel counts.
    let (along, across) = (row_n * 37.0, 0.5 * row_n * 0.5 * 23.7);
    let governs = if along / 97.0 >= across / 37.0 { along } else { across };
    near(work.moment_nm.expect("known"), governs / 1000.0, 1e-9);
}

/// In a job of feet and inches nobody reads a decimal of an inch off what is bought, bored or set by a tape.
#[test]
fn fractions_where_a_tape_or_a_shop_is_asked() {
    let mut job = demo();
    job["units"] = json!({ "system": "imperial", "inch_fraction": 16 });
    job["workshop"]["base"]["stake_slant_deg"] = json!(15);
    let answer = asked(job.clone());
    let tape = [
        "hole_width",
        "ring_length",
        "winch_frame",
        "arm",
        "drum_middle",
        "drum_full",
        "spacer",
        "thinnest_pin",
        "lap_depth",
        "lap_other",
        "lap_length",
        "lap_left",
        "plate_side",
        "bolt_hole",
        "bolt_length",
        "from_edge",
        "from_middle",
        "stake_hole",
        "stake_mouth",
        "edge_outer_right",
        "foot_strap",
        "board_foot",
        "board_crossing",
        "plate_wide",
        "plate_high",
        "plate_drill",
        "clamp_drill",
        "plate_spacer",
    ];
    let report = &answer.report;
    let mut seen = 0;
    for page in [&report.fit, &report.stages, &report.lift, &report.base] {
        for row in page.cards.iter().flat_map(|card| &card.rows) {
            if tape.contains(&row.id.as_str()) {
                seen += 1;
                assert!(!row.value.contains('.'), "{}: {}", row.id, row.value);
            }
        }
    }
    assert!(seen >= 25, "{seen}");
    let request = mastwright_api::workshop::buying::ShoppingRequest { job, begin: None };
    let list = mastwright_api::workshop::buying::shopping(&request).expect("a list").report;
    let bought: Vec<&str> =
        list.aisles.iter().flat_map(|aisle| &aisle.items).map(|item| item.name.as_str()).collect();
    for (begins, wants) in [("Bolt ", "7\""), ("Steel pin for a hole of", "11/32\"")] {
        let name =
            bought.iter().find(|name| name.starts_with(begins)).unwrap_or_else(|| panic!("no {begins}"));
        assert!(name.contains(wants) && !name.contains('.'), "{name}");
    }
    for begins in [
        "Hand winch",
        "Steel tube that lifts",
        "Strap whose",
        "Hook with",
        "PVC pipe schedule 40",
        "Flat steel strap",
    ] {
        assert!(bought.iter().any(|name| name.starts_with(begins)), "no {begins}: {bought:?}");
    }
}

/// What nobody has measured is told as missing, on every page, and no number follows from it.
#[test]
fn nothing_follows_from_sizes_that_nobody_has_measured() {
    let plate = json!({ "across_mm": 80, "along_mm": null, "hole_mm": 9, "thickness_mm": null });
    for empty in [Value::Null, json!({}), plate] {
        let answer = but(&[("/workshop/winch_plate", empty)]);
        assert!(answer.plan.lift.plate.is_none() && answer.plan.worst == Some(Severity::Unchecked));
        let waits = &answer.report.lift.waits_for;
        assert!(waits.iter().any(|text| text.sentence.contains("how the winch is drilled")), "{waits:?}");
    }
    let mut job = demo();
    let circles = |job: &Value| {
        mastwright_api::workshop::buying::circles(&JobRequest { job: job.clone() }).expect("a job").circles
    };
    let whole = circles(&job);
    let pipe = whole.ring.and_then(|ring| ring.pipe).expect("it is known");
    assert!(pipe.missing.is_empty() && whole.brackets.iter().all(|of| of.least_mm.is_some()));
    job["workshop"]["ring"] = json!({ "stuff": "pvc" });
    job["workshop"]["strand"] = json!({});
    let open = circles(&job);
    let pipe = open.ring.and_then(|ring| ring.pipe).expect("its stuff is known");
    assert_eq!(pipe.missing.len(), 4);
    assert!(pipe.pieces.is_none() && pipe.bore_mm.is_none() && pipe.span_m.is_none());
    assert!(pipe.tie_pull_n.is_none() && pipe.stiffness.is_none() && open.strands.is_none());
    let unknown = |of: &RingBracket| of.least_mm.is_none() && of.clamp_mm.is_none() && of.bar_mm.is_none();
    assert!(open.brackets.iter().all(unknown));
    // Each by itself: what does not hang on it stays known.
    job["workshop"]["ring"] = json!({ "stuff": "pvc", "outside_mm": 21.336, "supports": 21 });
    let pipe = circles(&job).ring.and_then(|ring| ring.pipe).expect("still");
    assert!(pipe.span_m.is_some() && pipe.bore_mm.is_some() && pipe.pieces.is_none());
    let list = mastwright_api::workshop::buying::shopping(
        &serde_json::from_value(json!({ "job": job })).expect("a request"),
    )
    .expect("a list");
    let strands =
        list.report.aisles.iter().flat_map(|aisle| &aisle.items).find(|it| it.part == "buy:strands");
    assert!(!strands.expect("they are bought").missing.is_empty());
}

/// Bad input at a guy collar: what is wrong, what is allowed, and that the nearest that works does; what is not entered is not known.
#[test]
fn a_guy_collar_that_does_not_work_says_what_does() {
    let at = |field: &str| format!("/rig/guy_levels/0/collar/{field}");
    let with = |changes: &[(&str, Value)]| {
        let mut job = demo();
        for (field, to) in changes {
            *job.pointer_mut(&at(field)).expect("a field") = to.clone();
        }
        asked(job)
    };
    let named = |answer: &WorkshopAnswer, rule: &str| findings(answer).any(|it| it.rule.name() == rule);
    let bolt = |mm: Value, wall: Value| [("held", json!("bolt")), ("bolt_mm", mm), ("wall_mm", wall)];
    // A bolt of 2 mm in walls of 0.5 mm: 2·1.8·195·2·0.5/2 = 351 N by bearing, 585 N by shear.
    let weak = with(&bolt(json!(2), json!(0.5)));
    let collar = &weak.plan.collars.levels[0];
    near(collar.carries_n.expect("known"), 351.0, 0.01);
    assert!(collar.at_limit_n.expect("known") > 351.0 && named(&weak, "workshop_collar_too_weak"));
    // The thinnest bolt that is named works, in walls that bear it.
    let stout = with(&bolt(json!(2), json!(5)));
    let bolt_mm = stout.plan.collars.levels[0].thinnest_bolt_mm.expect("there is one");
    assert!(!named(&with(&bolt(json!(bolt_mm), json!(5))), "workshop_collar_too_weak"));
    let sharp = with(&[("thimble", json!(false)), ("edge_radius_mm", json!(1))]);
    let (is, least, _) = stop(&sharp, "workshop_collar_edge_sharp");
    near(is, 0.001, 1e-9);
    let rounder = with(&[("thimble", json!(false)), ("edge_radius_mm", json!(1000.0 * least))]);
    assert!(!named(&rounder, "workshop_collar_edge_sharp"));
    assert!(
        !named(&with(&[("edge_radius_mm", json!(1))]), "workshop_collar_edge_sharp"),
        "a thimble lies there"
    );
    for unknown in [
        with(&[("held", json!("unsaid"))]),
        with(&[("held", json!("clamped"))]),
        with(&bolt(json!(8), Value::Null)),
        with(&[("shoulder_mm", Value::Null)]),
        with(&[("thimble", json!(false)), ("edge_radius_mm", Value::Null)]),
    ] {
        assert_eq!(unknown.plan.worst, Some(Severity::Unchecked), "never a good sign");
        assert!(!unknown.report.collars.waits_for.is_empty());
    }
}
