use super::*;
use crate::demo::yardstick;
use crate::job::{AnchorKind, FootFixing, Job, SoilFeel};
use crate::plan::{Layout, compute, survey};

fn planned(job: &Job) -> Layout {
    compute(job).expect("it can be placed").layout
}

fn limit_of(job: &Job) -> WindCapacity {
    withstand(job, &planned(job), &mut |_, _, _| true)
}

fn table_at(job: &Job, gust_m_per_s: f64, from_deg: f64) -> WindTable {
    let question = WindQuestion { height: MastHeight::Raised, gust_m_per_s, from_deg: Some(from_deg) };
    wind_table(job, &planned(job), &question).expect("a structure")
}

/// The limit and the table are two ways to one thing: at the limit some part is just fully used.
#[test]
fn at_the_limit_the_weakest_part_is_fully_used() {
    let job = yardstick();
    let limit = limit_of(&job);
    for direction in limit.raised.directions.iter().step_by(12) {
        let table = table_at(&job, direction.gust_m_per_s, direction.from_deg);
        let most = table.parts[0].utilisation.unwrap();
        assert!((0.997..1.0).contains(&most), "{most} from {}", direction.from_deg);
        assert_eq!(Some(&table.parts[0].part), direction.weakest.as_ref());
    }
}

#[test]
fn one_acts_before_the_limit_and_lowering_helps() {
    let limit = limit_of(&yardstick());
    let least = |rose: &GustRose| rose.least.as_ref().unwrap().gust_m_per_s;
    assert!((limit.lower_at_m_per_s.unwrap() - 0.75 * least(&limit.raised)).abs() < 1e-12);
    assert!(least(&limit.lowered) > 1.2 * least(&limit.raised));
    assert_eq!(limit.raised.directions.len(), 72);
    assert!(limit.not_shown.is_empty() && limit.proof_pulls.is_empty());
}

/// Soil, anchor and rope unknown: no gust anywhere, and what to enter in its place, the soonest first.
#[test]
fn what_is_not_known_has_no_gust_but_a_list_of_entries() {
    let mut job = yardstick();
    job.rig.guy_levels[0].anchor = AnchorKind::Unknown;
    job.rig.guy_levels[0].rope.strength.minimum_n = None;
    job.yard.soil = SoilFeel::Unknown;
    let limit = limit_of(&job);
    let kinds: Vec<PartKind> = limit.not_shown.iter().map(|part| part.part.kind).collect();
    for kind in [PartKind::Rope, PartKind::Anchor, PartKind::Ground, PartKind::BaseSliding] {
        assert!(kinds.contains(&kind), "{kind:?}");
    }
    assert!(limit.raised.directions.is_empty() && limit.lowered.directions.is_empty());
    assert!(
        limit.raised.least.is_none()
            && limit.lower_at_m_per_s.is_none()
            && limit.lay_down_at_m_per_s.is_none()
    );
    let asked: Vec<MissingKind> = limit.missing.iter().map(|entry| entry.kind).collect();
    // The soil serves the ground, also under the board at the joint, the base and every anchor.
    assert_eq!(asked, [MissingKind::Soil, MissingKind::AnchorKind, MissingKind::RopeStrength]);
    assert_eq!(limit.missing[0].serves.len(), 6);
    let document: serde_json::Value = serde_json::to_value(&job).unwrap();
    for entry in &limit.missing {
        assert!(document.pointer(&entry.pointer).is_some(), "{}", entry.pointer);
    }
    let changes =
        wind_changes(&job, &survey(&job.yard, job.units).unwrap(), &planned(&job), &mut |_, _| true).unwrap();
    assert!(changes.now.is_none() && changes.changes.is_empty() && changes.missing == limit.missing);
    // The pull to prove the anchors with is that of the gust asked for: there is no limit to take it from.
    assert_eq!(limit.proof_pulls.len(), 3);
    for pull in &limit.proof_pulls {
        assert!((pull.pull.load_n - 1.5 * pull.greatest_tension_n).abs() < 1e-9);
        assert!(pull.greatest_tension_n > job.rig.guy_levels[0].tension_n);
    }
    // Proved with it, the anchors hold in the gust asked for.
    let most = limit.proof_pulls.iter().map(|it| it.pull.load_n).fold(0.0, f64::max);
    job.rig.guy_levels[0].proof_pull_n = Some(1.001 * most);
    let table = table_at(&job, job.wind.asked_gust_m_per_s, limit.proof_pulls.len() as f64 * 30.0);
    let anchors = table.parts.iter().filter(|part| part.part.kind == PartKind::Anchor);
    assert!(anchors.clone().count() == 3 && anchors.into_iter().all(|part| part.utilisation.unwrap() < 1.0));
}

/// The list of what blocks the limit is the one in the methods, row by row.
#[test]
fn the_methods_list_every_part_that_is_covered() {
    let page = include_str!("../../../../docs/methods/wind-capacity.md");
    let rows: Vec<&str> = page
        .lines()
        .skip_while(|line| !line.starts_with("| part | load | allowed |"))
        .skip(2)
        .take_while(|line| line.starts_with('|'))
        .map(|line| line.split('|').nth(1).unwrap_or_default().trim())
        .collect();
    let titles: Vec<&str> = PartKind::ALL.iter().map(|kind| kind.title()).collect();
    assert_eq!(rows, titles);
}

/// The demo's middle tube is drilled at both ends.
#[test]
fn no_two_parts_have_one_name() {
    let table = table_at(&crate::demo::lantern_green(), 10.0, 0.0);
    let names: Vec<&PartName> = table.parts.iter().map(|part| &part.part.name).collect();
    for (i, name) in names.iter().enumerate() {
        assert!(!names[..i].contains(name), "{names:?}");
    }
    let is_hole = |name: &PartName| {
        matches!(name, PartName::TubeAtLowerPinHole { .. } | PartName::TubeAtUpperPinHole { .. })
    };
    assert_eq!(names.iter().filter(|name| is_hole(name)).count(), 4, "{names:?}");
    // Joint 1 is at the second tube's lower end, joint 2 at its upper one.
    let of = |id: &str| &table.parts.iter().find(|part| part.part.id == id).unwrap().part.name;
    assert!(matches!(of("pin-hole 2 of joint 1"), PartName::TubeAtLowerPinHole { .. }));
    assert!(matches!(of("pin-hole 2 of joint 2"), PartName::TubeAtUpperPinHole { .. }));
}

#[test]
fn a_mast_that_can_t_stand_is_a_result_with_a_reason() {
    // Guys of hardly any stretch resistance on a mast with a heavy top.
    let mut job = yardstick();
    job.rig.guy_levels[0].rope.stretch_percent = 60.0;
    job.rig.guy_levels[0].rope.stretch_at_n = 20.0;
    job.rig.guy_levels[0].tension_n = 5.0;
    job.rig.topper.as_mut().unwrap().mass_kg = 200.0;
    let limit = limit_of(&job);
    let least = limit.raised.least.unwrap();
    assert!(least.gust_m_per_s < 2.0, "{least:?}");
    assert_eq!(least.weakest.unwrap().kind, PartKind::WholeMast);
    let says = |rule: &str| limit.findings.iter().any(|finding| finding.rule == rule);
    assert!(says("limit_below_asked_gust") || says("stands_not_in_still_air"));
    let table = table_at(&job, 10.0, 0.0);
    assert!(table.falls_because.is_some() && table.bent.is_empty());
    assert!(table.parts.iter().all(|part| part.utilisation.is_none()));
}

#[test]
fn a_guy_too_heavy_for_its_tension_is_a_finding() {
    let mut job = yardstick();
    (job.rig.guy_levels[0].rope.mass_g_per_m, job.rig.guy_levels[0].tension_n) = (9000.0, 5.0);
    let limit = limit_of(&job);
    assert!(limit.raised.least.is_none() && limit.lower_at_m_per_s.is_none());
    assert!(limit.findings.iter().any(|finding| finding.rule == "limit_not_found"));
}

#[test]
fn it_stops_when_told_and_keeps_what_it_has() {
    let job = yardstick();
    let limit = withstand(&job, &planned(&job), &mut |done, _, _| done < 12);
    assert!(limit.stopped && limit.raised.directions.len() == 12 && limit.raised.least.is_none());
    assert!(limit.lower_at_m_per_s.is_none());
}

#[test]
fn strands_as_side_guys_and_a_held_foot_are_never_passed_silently() {
    let mut job = yardstick();
    job.rig.strands.as_mut().unwrap().cord.side_help = true;
    job.rig.base.foot_fixing = FootFixing::Spring { stiffness_nm_per_rad: 2000.0 };
    let helped = table_at(&job, 15.0, 0.0);
    let unshown = |kind| helped.parts.iter().any(|part| part.part.kind == kind && part.utilisation.is_none());
    assert!(unshown(PartKind::Strands) && unshown(PartKind::BaseTurning));
    assert!(helped.top_movement_m < table_at(&yardstick(), 15.0, 0.0).top_movement_m);
}

#[test]
fn ice_and_open_water_press_harder() {
    let top = |change: &dyn Fn(&mut Job)| {
        let mut job = yardstick();
        change(&mut job);
        table_at(&job, 15.0, 45.0).top_movement_m
    };
    let plain = top(&|_| {});
    assert!(top(&|job| job.wind.ice_mm = 5.0) > plain);
    assert!(top(&|job| job.wind.terrain = crate::job::Terrain::WaterOrBare) > plain);
    let built = |job: &mut Job| job.wind.terrain = crate::job::Terrain::BuiltOrWooded;
    // Not with anything less than all that it asks for: `air`.
    assert_eq!(top(&built), plain);
    assert!(
        top(&|job| {
            built(job);
            job.wind.rough_for_m = Some(3000.0);
            job.wind.gust_told = crate::job::GustTold::ForOpenCountry;
        }) < plain
    );
    assert!(top(&|job| job.wind.temperature_c = 30.0) < plain);
}

#[test]
fn what_helps_most_comes_first() {
    let job = yardstick();
    let changes =
        wind_changes(&job, &survey(&job.yard, job.units).unwrap(), &planned(&job), &mut |_, _| true).unwrap();
    assert!(changes.changes.windows(2).all(|pair| pair[0].gain_m_per_s >= pair[1].gain_m_per_s));
    let gain = |id: &str| changes.changes.iter().find(|change| change.id == id).unwrap().gain_m_per_s;
    assert!(gain("no_topper") > 0.5 && gain("fewer_strands") > 0.5 && gain("four_guys") > 0.0);
    // Of 24 directions the least is hardly above that of 72.
    let all = limit_of(&job).raised.least.unwrap().gust_m_per_s;
    assert!((changes.now.unwrap().gust_m_per_s / all - 1.0).abs() < 0.01);
}

/// Run down, guys that nobody makes fast again hang slack, and a mast on a pinned foot is held by nothing.
#[test]
fn guys_left_alone_when_lowered_hold_nothing() {
    let mut job = yardstick();
    let told =
        |limit: &WindCapacity| limit.findings.iter().any(|finding| finding.rule == "guys_when_lowered");
    let made_fast = limit_of(&job);
    job.rig.guy_levels[0].when_lowered = crate::job::WhenLowered::Left;
    let left = limit_of(&job);
    let least = |limit: &WindCapacity| limit.lowered.least.as_ref().map_or(0.0, |least| least.gust_m_per_s);
    assert!(
        least(&made_fast) > 10.0 && least(&left) < 0.5 * least(&made_fast),
        "{} {}",
        least(&left),
        least(&made_fast)
    );
    assert!(told(&made_fast) && told(&left));
    assert_eq!(left.raised, made_fast.raised);
    // It holds less run down than up: it is laid down at once, with a quarter in hand.
    assert!(least(&left) < left.raised.least.as_ref().unwrap().gust_m_per_s);
    assert_eq!(left.lower_at_m_per_s, left.lay_down_at_m_per_s);
    assert!((left.lay_down_at_m_per_s.unwrap() - 0.75 * least(&left)).abs() < 1e-12);
}

/// A tube of 60 by 3 mm of 235 MPa, drilled by 12 mm, with the factor 1.65. Whole: A = π·57·3 = 537.21 mm², plastic modulus
/// (60³ − 54³)/6 = 9756 mm³. Drilled: 72 mm² less; π·(60⁴ − 54⁴)/(32·60) − 72·28.5²/30 = 5343.3 mm³ elastic.
#[test]
fn what_a_tube_may_carry_by_hand() {
    let mut job = yardstick();
    for (tube, (outside_mm, yield_mpa)) in job.rig.tubes.iter_mut().zip([(60.0, Some(235.0)), (50.0, None)]) {
        tube.section = crate::job::Section::Measured { outside_mm, wall_mm: 3.0 };
        tube.yield_mpa = yield_mpa;
    }
    job.rig.tubes[1].pin_hole_mm = Some(12.0);
    let table = table_at(&job, 8.0, 0.0);
    let carries = |id: &str| {
        let part = table.parts.iter().find(|part| part.part.id == id).expect(id);
        (part.carries.as_ref().unwrap().allowable_n().unwrap(), part.carries_nm.unwrap())
    };
    for (id, by_hand_n, by_hand_nm) in [
        ("tube 1", 76_512.0, 1389.49),
        ("pin-hole 1 of joint 1", 66_257.0, 761.02),
        // Without papers, measured: 195 MPa. A = 442.96 mm², (50³ − 44³)/6 = 6636 mm³.
        ("tube 2", 52_350.0, 784.25),
    ] {
        let (carries_n, carries_nm) = carries(id);
        assert!((carries_n / by_hand_n - 1.0).abs() < 1e-4, "{id}: {carries_n}");
        assert!((carries_nm / by_hand_nm - 1.0).abs() < 1e-4, "{id}: {carries_nm}");
    }
}

/// Lantern Green's pins of 8 mm: 2·27 ksi·π·16 mm² over 2.0 = 9357 N by shear; on the walls of the two tubes more. They carry what stands
/// above them, and a pin of a millimetre is what fails first; without its thickness, or that of its holes, no gust is told.
#[test]
fn pins_are_a_part_of_the_limit() {
    let mut job = crate::demo::lantern_green();
    let pins = |job: &Job| -> Vec<PartUse> {
        let table = table_at(job, 5.0, 200.0);
        table.parts.into_iter().filter(|part| part.part.kind == PartKind::Pin).collect()
    };
    let two = pins(&job);
    assert_eq!(two.len(), 2);
    let of = |id: &str| two.iter().find(|part| part.part.id == id).expect(id);
    let carries_n = |part: &PartUse| part.carries.as_ref().unwrap().allowable_n().unwrap();
    let by_hand = 27.0 * 6.894_757_293 * std::f64::consts::PI * 16.0;
    assert!(carries_n(of("pin 2")) <= by_hand * (1.0 + 1e-9));
    for part in &two {
        let used = part.force_n.unwrap() / carries_n(part);
        assert!((part.utilisation.unwrap() - used).abs() < 1e-9, "{}", part.part.id);
    }
    // In still air a solver of the standing mast and a sum of weights, strands and guys as set come to the same.
    let computed = crate::plan::compute(&job).unwrap();
    let fit = crate::workshop::fit::fit(&job).unwrap();
    let stages = crate::workshop::stages::plan(&job, &computed.plan, &fit).unwrap();
    let still = table_at(&job, 0.1, 200.0);
    for stage in &stages.stages {
        let id = format!("pin {}", stage.tube + 1);
        let solved_n = still.parts.iter().find(|part| part.part.id == id).unwrap().force_n.unwrap();
        let summed_n = stage.pin.still_n.unwrap();
        assert!((solved_n / summed_n - 1.0).abs() < 0.1, "{id}: {solved_n} {summed_n}");
    }
    let [top_n, middle_n] = ["pin 3", "pin 2"].map(|id| of(id).force_n.unwrap());
    // The lower pin bears the upper one's load, its own tube and the lower guys.
    assert!(top_n > 100.0 && middle_n > top_n + 30.0, "{top_n} {middle_n}");
    assert!(of("pin 3").utilisation.unwrap() < 0.2);
    job.workshop.lift.pin_mm = Some(2.0);
    let thin = pins(&job);
    let used = |part: &PartUse| part.utilisation.unwrap();
    assert!(thin.iter().all(|part| used(part) > 5.0 * used(of(&part.part.id))));
    job.workshop.lift.pin_mm = None;
    let waits = waits_for(&job);
    assert_eq!(
        waits,
        [(MissingKind::Pin, "/workshop/lift/pin_mm".into(), vec!["pin 2".into(), "pin 3".into()])]
    );
    job.workshop.lift.pin_mm = Some(8.0);
    job.rig.tubes[2].pin_hole_mm = None;
    // Both tubes are drilled there.
    let drilled = vec!["pin-hole 2 of joint 2".to_owned(), "pin-hole 3 of joint 2".into()];
    assert_eq!(waits_for(&job), [(MissingKind::PinHole, "/rig/tubes/2/pin_hole_mm".into(), drilled)]);
}

/// What a job's gust limit waits for, with the parts that each entry serves; where there is any, no gust is told.
fn waits_for(job: &Job) -> Vec<(MissingKind, String, Vec<String>)> {
    let limit = withstand(job, &planned(job), &mut |_, _, _| true);
    assert_eq!(limit.missing.is_empty(), limit.raised.least.is_some());
    assert!(limit.missing.is_empty() || (limit.lower_at_m_per_s, limit.lay_down_at_m_per_s) == (None, None));
    let ids = |entry: &MissingEntry| entry.serves.iter().map(|part| part.id.clone()).collect();
    limit.missing.iter().map(|entry| (entry.kind, entry.pointer.clone(), ids(entry))).collect()
}

/// Lantern Green's collars: what they carry is held against the pull of all their guys, which in still air is the sum of what each is set
/// to by its angle. A thin bolt is used up first, its hole weakens the tube; while one is not measured, or only squeezes the tube, no gust is told.
#[test]
fn collars_are_a_part_of_the_limit() {
    use crate::job::CollarHeld;
    let mut job = crate::demo::lantern_green();
    let of = |job: &Job, gust: f64, kind: PartKind| -> Vec<PartUse> {
        table_at(job, gust, 200.0).parts.into_iter().filter(|part| part.part.kind == kind).collect()
    };
    let still = of(&job, 0.1, PartKind::Collar);
    let found = crate::workshop::collars::collars(&job, &crate::plan::compute(&job).unwrap().plan).unwrap();
    assert_eq!(still.len(), found.levels.len());
    for collar in &found.levels {
        let id = format!("collar {}", collar.level);
        let part = still.iter().find(|part| part.part.id == id).expect("it is known");
        let carries_n = part.carries.as_ref().unwrap().allowable_n().unwrap();
        assert!((carries_n / collar.carries_n.unwrap() - 1.0).abs() < 1e-9);
        let solved_n = part.force_n.unwrap();
        assert!((solved_n / collar.still_n - 1.0).abs() < 0.15, "{id}: {solved_n} {}", collar.still_n);
        assert!((part.utilisation.unwrap() - solved_n / carries_n).abs() < 1e-9);
    }
    // Run down, guys whose collar comes lower are made fast elsewhere, which nobody has measured.
    let layout = planned(&job);
    let lowered = super::standing::Standing::of(&job, &layout, MastHeight::Lowered);
    let counted: Vec<String> = super::parts::parts(&lowered).into_iter().map(|part| part.part.id).collect();
    let down = |level: &str| lowered.guys.iter().any(|guy| guy.level.id == level && guy.comes_down());
    assert!(job.rig.guy_levels.iter().any(|level| down(&level.id)));
    for level in &job.rig.guy_levels {
        assert_eq!(counted.contains(&format!("collar {}", level.id)), !down(&level.id), "{}", level.id);
    }
    let blown = of(&job, 9.0, PartKind::Collar);
    assert!(blown.iter().map(|part| part.force_n.unwrap()).sum::<f64>() > 0.0);
    let level = job.rig.guy_levels[0].id.clone();
    let holes = of(&job, 9.0, PartKind::PinHole).len();
    let collar = &mut job.rig.guy_levels[0].collar;
    (collar.held, collar.bolt_mm, collar.wall_mm) = (CollarHeld::Bolt, Some(3.0), Some(2.0));
    let bolted = of(&job, 9.0, PartKind::Collar);
    let part = |all: &[PartUse]| {
        all.iter().find(|part| part.part.id == format!("collar {level}")).unwrap().utilisation.unwrap()
    };
    // 3 mm cut twice carry 1316 N, or less by bearing; a shoulder of 4.8 mm ninety times as much.
    assert!(part(&bolted) > 20.0 * part(&blown), "{} {}", part(&bolted), part(&blown));
    assert_eq!(of(&job, 9.0, PartKind::PinHole).len(), holes + 1);
    assert!(waits_for(&job).is_empty());
    job.rig.guy_levels[0].collar.wall_mm = None;
    let of_level = |kind, field: &str| {
        [(kind, format!("/rig/guy_levels/0/collar/{field}"), vec![format!("collar {level}")])]
    };
    assert_eq!(waits_for(&job), of_level(MissingKind::Collar, "wall_mm"));
    job.rig.guy_levels[0].collar.held = CollarHeld::Unsaid;
    assert_eq!(waits_for(&job), of_level(MissingKind::Collar, "held"));
    job.rig.guy_levels[0].collar.held = CollarHeld::Clamped;
    assert_eq!(waits_for(&job), of_level(MissingKind::OtherCollar, "held"));
}

/// A coupling of 0.6 mm more than its pipe is a ring of 0.3 mm: A = π·(D + 0.3)·0.3, of 195 MPa over 1.65. By hand of 60.325 mm: 57.14 mm²,
/// 6753 N. While nobody has measured it, or it is no wider than its pipe, no gust is told.
#[test]
fn a_coupling_is_a_part_of_the_limit() {
    let mut job = yardstick();
    job.rig.tubes[1].joint = crate::job::TubeJoint::Threaded;
    job.rig.tubes[1].overlap_m = 0.0;
    let coupling = |job: &Job| -> Option<PartUse> {
        table_at(job, 5.0, 0.0).parts.into_iter().find(|part| part.part.kind == PartKind::Coupling)
    };
    let pointer = "/rig/tubes/1/calliper/coupling_mm".to_owned();
    let serves = vec!["coupling 2".to_owned()];
    assert_eq!(waits_for(&job), [(MissingKind::Coupling, pointer.clone(), serves.clone())]);
    let outside_mm = job.rig.tubes[1].section.found("").unwrap().outside_mm;
    job.rig.tubes[1].calliper.coupling_mm = Some(outside_mm - 0.1);
    assert_eq!(waits_for(&job), [(MissingKind::Tube, pointer, serves)]);
    job.rig.tubes[1].calliper.coupling_mm = Some(outside_mm + 0.6);
    let part = coupling(&job).expect("it is known");
    let by_hand_n = 195.0 * std::f64::consts::PI * (outside_mm + 0.3) * 0.3 / 1.65;
    let carries_n = part.carries.as_ref().unwrap().allowable_n().unwrap();
    assert!((carries_n / by_hand_n - 1.0).abs() < 1e-6, "{carries_n} {by_hand_n}");
    assert!((part.part.id.as_str(), part.utilisation.unwrap() > 0.0) == ("coupling 2", true));
}

/// In every row of a table the use is the load told over what may be carried, where one force says it.
#[test]
fn a_row_s_use_is_its_load_over_what_it_may_carry() {
    let job = yardstick();
    for from_deg in [20.0, 200.0] {
        let table = table_at(&job, 11.0, from_deg);
        let mut seen = Vec::new();
        for row in &table.parts {
            let carried = row.carries.as_ref().and_then(|carries| carries.allowable_n());
            let (Some(used), Some(force_n), Some(carries_n)) = (row.utilisation, row.force_n, carried) else {
                continue;
            };
            let by_force = force_n / carries_n;
            match row.part.kind {
                PartKind::Rope
                | PartKind::Anchor
                | PartKind::Collar
                | PartKind::Timber
                | PartKind::Ground
                | PartKind::Foot
                | PartKind::BaseSliding => {
                    assert!((used - by_force).abs() < 1e-9, "{}: {used} {by_force}", row.part.id);
                }
                PartKind::Pin => assert!((used - by_force.abs()).abs() < 1e-9, "{}", row.part.id),
                PartKind::BaseTimber => {
                    let bent = row.moment_nm.unwrap() / row.carries_nm.unwrap();
                    assert!((used - by_force.max(bent)).abs() < 1e-9, "{}", row.part.id);
                }
                // Compression and bending together are more than either alone.
                PartKind::PinHole | PartKind::Thread | PartKind::Coupling => {
                    let together = by_force.max(0.0) + row.moment_nm.unwrap() / row.carries_nm.unwrap();
                    assert!((used - together).abs() < 1e-9, "{}", row.part.id);
                }
                PartKind::Tube => assert!(used > row.moment_nm.unwrap() / row.carries_nm.unwrap() - 1e-9),
                PartKind::WholeMast | PartKind::Strands | PartKind::BaseTurning => {}
            }
            seen.push(row.part.kind);
        }
        for kind in
            [PartKind::Rope, PartKind::Anchor, PartKind::Timber, PartKind::BaseSliding, PartKind::PinHole]
        {
            assert!(seen.contains(&kind), "{kind:?}");
        }
        // What the mast presses with comes down on the seat whole, and on a foot by half.
        let force_n = |kind: PartKind| {
            table.parts.iter().find(|row| row.part.kind == kind).and_then(|row| row.force_n).unwrap()
        };
        assert!(force_n(PartKind::Timber) >= table.foot_down_n * (1.0 - 1e-9));
        assert!(table.parts.windows(2).all(|two| two[0].utilisation >= two[1].utilisation));
        assert_eq!((table.worst, table.from_deg), (false, from_deg));
    }
    let worst = wind_table(
        &job,
        &planned(&job),
        &WindQuestion { height: MastHeight::Raised, gust_m_per_s: 11.0, from_deg: None },
    )
    .unwrap();
    let most = |table: &WindTable| table.parts[0].utilisation.unwrap();
    assert!(worst.worst && most(&worst) >= most(&table_at(&job, 11.0, 200.0)) - 1e-9);
}

/// What the limit has to say, by hand: below the gust asked for a caution with both; nothing where a stop already says that
/// it does not stand; in still air used up a stop.
#[test]
fn a_limit_below_the_gust_asked_for_is_told_with_both() {
    let mut job = yardstick();
    job.wind.asked_gust_m_per_s = 15.0;
    job.rig.tubes.iter_mut().for_each(|tube| tube.yield_mpa = Some(235.0));
    let mut limit = limit_of(&job);
    limit.findings.clear();
    let told = |gust_m_per_s: f64, beside: Option<crate::finding::Severity>, limit: &mut WindCapacity| {
        limit.raised.least.as_mut().unwrap().gust_m_per_s = gust_m_per_s;
        let other = |severity| crate::finding::Finding {
            severity,
            ..super::findings::no_structure(&crate::structure::ModelError::NoTube)
        };
        limit.findings = beside.map(other).into_iter().collect();
        let all = super::findings::all(limit, &job);
        all.into_iter().find(|finding| finding.rule == "limit_below_asked_gust")
    };
    use crate::finding::{Limit, Quantity, Severity};
    let finding = told(10.0, None, &mut limit).unwrap();
    assert_eq!(finding.severity, Severity::Caution);
    assert_eq!(finding.measured, Some(Quantity::SpeedMPerS { value: 10.0 }));
    assert_eq!(finding.limit, Limit::at_least(Quantity::SpeedMPerS { value: 15.0 }));
    assert!(told(10.0, Some(Severity::Caution), &mut limit).is_some());
    assert!(told(10.0, Some(Severity::Stop), &mut limit).is_none());
    assert!(told(15.0, None, &mut limit).is_none());
    assert_eq!(told(0.0, None, &mut limit).unwrap().severity, Severity::Stop);
}

/// What a rope is made of has to be named before anything is shown of it; where it is, nobody is asked.
#[test]
fn an_unnamed_fibre_is_asked_for_and_a_named_one_is_not() {
    use crate::resistance::rope::RopeMaterial;
    let asked = |material: RopeMaterial| -> Vec<MissingKind> {
        let mut job = yardstick();
        job.rig.guy_levels[0].rope.strength.material = material;
        super::missing::missing_of(&job, &planned(&job)).iter().map(|entry| entry.kind).collect()
    };
    assert_eq!(asked(RopeMaterial::Fibre), [MissingKind::RopeFibre]);
    assert_eq!(asked(RopeMaterial::Polyester), []);
}

/// Run down, a collar 13 ft up stops at the lower tube's top, 10 ft up; one on the lower tube stays and is not told.
#[test]
fn guys_that_come_down_are_told_with_where_and_how_tight() {
    let mut job = yardstick();
    let mut lower = job.rig.guy_levels[0].clone();
    (lower.id, lower.name, lower.attach_height_m) = ("low".into(), "Low guy".into(), 2.5);
    job.rig.guy_levels.insert(0, lower);
    for (how, tension_n) in
        [(crate::job::WhenLowered::MadeFast, Some(130.0)), (crate::job::WhenLowered::Left, None)]
    {
        job.rig.guy_levels[1].when_lowered = how;
        // Told before anything is looked for.
        let stopped = withstand(&job, &planned(&job), &mut |_, _, _| false);
        let [told] = &stopped.guys_run_down[..] else { panic!("one level: {:?}", stopped.guys_run_down) };
        assert_eq!((told.level.as_str(), told.how, told.tension_n), ("upper", how, tension_n));
        assert!((told.attach_height_m - 3.048).abs() < 1e-12);
    }
}

/// In still air the foot bears what hangs on it: tubes, topper, the guys' pull down, the strands' pull down and half their
/// weight; and it pushes sideways by hardly anything. With a wind of 10 m/s what pushes it sideways is less than the wind,
/// and there.
#[test]
fn the_foot_bears_what_hangs_on_it() {
    let job = yardstick();
    let plan = planned(&job);
    let (strands, topper) = (job.rig.strands.as_ref().unwrap(), job.rig.topper.as_ref().unwrap());
    let ring = plan.ring.as_ref().unwrap();
    let of_strands: f64 = ring
        .points
        .iter()
        .zip(&ring.tops)
        .zip(&ring.strand_lengths_m)
        .map(|((point, top), length_m)| {
            strands.cord.tension_n * (top[2] - point[2]) / length_m + 0.5 * 0.035 * 9.806_65 * length_m
        })
        .sum();
    let of_guys: f64 = plan.guys.iter().map(|guy| 130.0 * (guy.attach[2] - guy.eye[2]) / guy.chord_m).sum();
    let by_hand_n = (plan.mast.mass_kg + topper.mass_kg) * 9.806_65 + of_guys + of_strands;
    let still = table_at(&job, 0.0, 0.0);
    assert!((still.foot_down_n / by_hand_n - 1.0).abs() < 0.02, "{} {by_hand_n}", still.foot_down_n);
    assert!(still.foot_sideways_n < 0.02 * by_hand_n, "{}", still.foot_sideways_n);
    let windy = table_at(&job, 10.0, 0.0);
    assert!(windy.foot_sideways_n > still.foot_sideways_n && windy.foot_down_n > still.foot_down_n);
}

/// Of soft ground and fill no rule says anything: one entry, and all that stands in it hangs on it.
#[test]
fn what_no_rule_covers_is_one_entry_however_many_parts_it_serves() {
    let mut job = yardstick();
    job.yard.soil = SoilFeel::SoftOrFill;
    let missing = super::missing::missing_of(&job, &planned(&job));
    let soil: Vec<_> = missing.iter().filter(|entry| entry.pointer == "/yard/soil").collect();
    assert_eq!(soil.len(), 1, "{missing:?}");
    assert!(soil[0].kind == MissingKind::OtherSoil && soil[0].serves.len() >= 2, "{soil:?}");
}

/// The limits of so many directions one after the other, and the solver's work for them.
fn searched(job: &Job, height: MastHeight, directions: u32) -> (Vec<f64>, u64) {
    let layout = planned(job);
    let standing = super::standing::Standing::of(job, &layout, height);
    let parts = super::parts::parts(&standing);
    let route = super::air::route(job);
    let (mut search, mut limits, mut guess) = (None, Vec::new(), 100.0);
    for from_deg in super::rose::bearings_round(&standing, directions) {
        let toward = super::rose::blows_to(from_deg);
        let mut windy = super::search::Windy::new(&standing, &route, toward).unwrap();
        let search = search.get_or_insert_with(|| super::search::Search::new(&parts, &mut windy));
        let found = search.limit(&mut windy, guess).gust_squared;
        guess = if found > 0.0 { found } else { guess };
        limits.push(found);
    }
    (limits, search.map_or(0, |search| search.spent()))
}

/// What is not right about where the search looks next shows in its work, though it ends at the same limit: on a mast whose
/// parts are used up before it falls, on one that falls first, and on one run down.
#[test]
fn a_search_takes_no_more_work_than_it_has_to() {
    let stout = yardstick();
    let mut slim = yardstick();
    for tube in &mut slim.rig.tubes {
        tube.yield_mpa = Some(900.0);
    }
    slim.rig.guy_levels[0].rope.stretch_percent = 8.0;
    // Counted on 27 November 2026; one in a hundred more is let pass.
    for (name, job, height, counted) in [
        ("stout", &stout, MastHeight::Raised, 1_580_488),
        ("slim", &slim, MastHeight::Raised, 2_195_648),
        ("run down", &stout, MastHeight::Lowered, 1_769_564),
    ] {
        let (_, spent) = searched(job, height, 12);
        assert!(100 * spent <= 101 * counted, "{name}: {spent}");
    }
}
