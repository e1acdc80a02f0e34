//! Not knowing never beats knowing: of every attribute that a part's strength hangs on, not knowing it gives no limit at
//! all, and the worst that is known gives no more than anything better.

use mastwright_engine::anchor::picket::Pickets;
use mastwright_engine::anchor::soil::{ClayFeel, SandFeel};
use mastwright_engine::job::{
    AnchorKind, AnchorLayout, FootFixing, Job, ScrewShaft, Section, SoilFeel, read_job,
};
use mastwright_engine::judge::judged;
use mastwright_engine::plan::{Computed, compute, survey};
use mastwright_engine::resistance::rope::{RopeEnd, RopeMaterial};
use mastwright_engine::resistance::timber::Wood;
use mastwright_engine::tube::TubeTable;
use mastwright_engine::verdict::Verdict;
use mastwright_engine::wind_capacity::parts::parts;
use mastwright_engine::wind_capacity::rose::{bearings, blows_to};
use mastwright_engine::wind_capacity::search::{Search, Windy};
use mastwright_engine::wind_capacity::standing::Standing;
use mastwright_engine::wind_capacity::{MastHeight, PartKind, air, missing_of, wind_changes, withstand};

/// A mast whose parts are known, in soil that every rule knows.
fn known() -> Job {
    let mut job = read_job(include_str!("../data/yardstick-53a387c.json")).unwrap();
    job.yard.soil = SoilFeel::Clay { feel: ClayFeel::Stiff };
    job.rig.guy_levels[0].anchor = AnchorKind::Plate { side_m: 0.12, depth_m: 0.6 };
    job
}

/// The least of six directions, raised; none where something is missing, and then nothing anywhere has a gust.
fn least(job: &Job) -> Option<f64> {
    let layout = compute(job).unwrap().layout;
    if !missing_of(job, &layout).is_empty() {
        has_no_gust(job);
        return None;
    }
    let standing = Standing::of(job, &layout, MastHeight::Raised);
    let parts = parts(&standing);
    assert!(parts.iter().all(|part| part.is_shown()));
    let mut search: Option<Search> = None;
    let gusts = bearings(6).map(|from_deg| {
        let mut windy = Windy::new(&standing, &air::route(job), blows_to(from_deg)).unwrap();
        let search = search.get_or_insert_with(|| Search::new(&parts, &mut windy));
        search.limit(&mut windy, 100.0).gust_squared.sqrt()
    });
    Some(gusts.fold(f64::INFINITY, f64::min))
}

/// No speed of a gust in the whole answer but the one that the user asks for, and no plan that is "looked over".
fn has_no_gust(job: &Job) {
    let Computed { plan, layout, .. } = judged(job).unwrap();
    let limit = withstand(job, &layout, &mut |_, _, _| true);
    let answer = serde_json::to_value(&limit).unwrap();
    assert_eq!(speeds(&answer), Vec::<String>::new());
    assert!(matches!(limit.verdict, Verdict::NotKnown { .. } | Verdict::Stop { .. }));
    assert!(!matches!(plan.verdict, Some(Verdict::Look { .. }) | None));
    let changes = serde_json::to_value(
        wind_changes(job, &survey(&job.yard, job.units).unwrap(), &layout, &mut |_, _| true).unwrap(),
    )
    .unwrap();
    assert_eq!(speeds(&changes), Vec::<String>::new());
    for entry in &limit.missing {
        assert!(!entry.serves.is_empty() && entry.pointer.starts_with('/'), "{entry:?}");
    }
}

/// Names of all fields that hold a speed.
fn speeds(value: &serde_json::Value) -> Vec<String> {
    match value {
        serde_json::Value::Object(fields) => fields
            .iter()
            .flat_map(|(name, value)| {
                let own = name.ends_with("_m_per_s") && value.is_number();
                own.then(|| name.clone()).into_iter().chain(speeds(value))
            })
            .collect(),
        serde_json::Value::Array(items) => items.iter().flat_map(speeds).collect(),
        _ => Vec::new(),
    }
}

/// Each step may be worth no less than the one before, but for what the search leaves.
fn never_falls(what: &str, steps: &[&dyn Fn(&mut Job)]) {
    let limits: Vec<f64> = steps
        .iter()
        .map(|step| {
            let mut job = known();
            step(&mut job);
            least(&job).unwrap_or(0.0)
        })
        .collect();
    for pair in limits.windows(2) {
        assert!(pair[0] <= 1.003 * pair[1], "{what}: {limits:?}");
    }
    assert!(limits.last().unwrap() > &0.0, "{what}: {limits:?}");
}

fn is_none(what: &str, change: impl Fn(&mut Job)) {
    let mut job = known();
    change(&mut job);
    assert_eq!(least(&job), None, "{what}");
}

#[test]
fn soil() {
    is_none("soil", |job| job.yard.soil = SoilFeel::Unknown);
    let clay = |feel| move |job: &mut Job| job.yard.soil = SoilFeel::Clay { feel };
    use ClayFeel::{Firm, Hard, Soft, Stiff, VerySoft, VeryStiff};
    never_falls(
        "clay",
        &[&clay(VerySoft), &clay(Soft), &clay(Firm), &clay(Stiff), &clay(VeryStiff), &clay(Hard)],
    );
    let sand = |feel, under_water| move |job: &mut Job| job.yard.soil = SoilFeel::Sand { feel, under_water };
    use SandFeel::{Dense, Loose, Medium};
    never_falls("wet sand", &[&sand(Loose, true), &sand(Medium, true), &sand(Dense, true)]);
    never_falls("dry sand", &[&sand(Loose, false), &sand(Medium, false), &sand(Dense, false)]);
    for feel in [Loose, Medium, Dense] {
        never_falls("under water", &[&sand(feel, true), &sand(feel, false)]);
    }
}

#[test]
fn anchor() {
    let anchor = |anchor| move |job: &mut Job| job.rig.guy_levels[0].anchor = anchor;
    is_none("anchor", anchor(AnchorKind::Unknown));
    is_none("bar", anchor(AnchorKind::Stake { diameter_mm: 20.0, driven_m: 0.9 }));
    let screw = |torque_nm, helix_mm, depth_m| {
        anchor(AnchorKind::Screw { shaft: ScrewShaft::Round, shaft_mm: 25.0, torque_nm, helix_mm, depth_m })
    };
    is_none("screw", screw(None, None, None));
    is_none("helix of no known depth", screw(None, Some(150.0), None));
    is_none("torque without the helix", screw(Some(150.0), None, None));
    let torque = |torque_nm| screw(Some(torque_nm), Some(150.0), Some(1.2));
    never_falls("torque", &[&torque(30.0), &torque(60.0), &torque(120.0)]);
    let helix = |helix_mm, depth_m| screw(None, Some(helix_mm), Some(depth_m));
    never_falls("helix", &[&helix(100.0, 0.05), &helix(80.0, 1.2), &helix(120.0, 1.2), &helix(120.0, 1.5)]);
    let plate = |side_m, depth_m| anchor(AnchorKind::Plate { side_m, depth_m });
    never_falls("plate", &[&plate(0.08, 0.5), &plate(0.15, 0.5), &plate(0.15, 0.8)]);
    let timber = |length_m, depth_m| {
        move |job: &mut Job| {
            let level = &mut job.rig.guy_levels[0];
            // The published table begins at a pull of 45°.
            level.anchor_layout = AnchorLayout::EqualRadius { radius_m: 7.0 };
            level.anchor = AnchorKind::Deadman { length_m, face_m: 0.1, is_log: false, depth_m };
        }
    };
    is_none("a timber not deep enough for any rule", timber(0.8, 0.5));
    never_falls("timber", &[&timber(0.8, 0.5), &timber(0.5, 0.95), &timber(0.8, 0.95), &timber(0.8, 1.3)]);
    let pickets = |pattern| anchor(AnchorKind::Pickets { pattern });
    use Pickets::{OneOne, OneOneOne, Single, ThreeTwoOne, TwoOne};
    never_falls(
        "pickets",
        &[&pickets(Single), &pickets(OneOne), &pickets(OneOneOne), &pickets(TwoOne), &pickets(ThreeTwoOne)],
    );
    let proof = |pull_n| move |job: &mut Job| job.rig.guy_levels[0].proof_pull_n = Some(pull_n);
    never_falls("proof pull", &[&proof(1200.0), &proof(2400.0), &proof(9600.0)]);
}

#[test]
fn rope() {
    is_none("strength", |job| job.rig.guy_levels[0].rope.strength.minimum_n = None);
    let strength =
        |newtons| move |job: &mut Job| job.rig.guy_levels[0].rope.strength.minimum_n = Some(newtons);
    never_falls("strength", &[&strength(4000.0), &strength(6000.0), &strength(9000.0)]);
    let made_of = |material, end| {
        move |job: &mut Job| {
            let strength = &mut job.rig.guy_levels[0].rope.strength;
            (strength.material, strength.end) = (material, end);
        }
    };
    use RopeMaterial::{Fibre, Hmpe, Natural, Polyester, Steel};
    is_none("fibre", made_of(Fibre, RopeEnd::Knot));
    is_none("a knot that slips", made_of(Hmpe, RopeEnd::Knot));
    is_none("a knot in wire", made_of(Steel, RopeEnd::Knot));
    let (unknown, worst) = (made_of(Fibre, RopeEnd::Knot), made_of(Natural, RopeEnd::Knot));
    never_falls(
        "fibre",
        &[&unknown, &worst, &made_of(Polyester, RopeEnd::Knot), &made_of(Steel, RopeEnd::Clips)],
    );
    let end = |end| move |job: &mut Job| job.rig.guy_levels[0].rope.strength.end = end;
    // What nobody chose is the weakest.
    let default = end(RopeEnd::default());
    is_none("reef knot", end(RopeEnd::ReefKnot));
    for better in [RopeEnd::Knot, RopeEnd::FigureEightLoop, RopeEnd::EyeSplice] {
        never_falls("end", &[&default, &end(better)]);
    }
    let factor =
        |factor| move |job: &mut Job| job.rig.guy_levels[0].rope.strength.design_factor = Some(factor);
    never_falls("factor", &[&factor(12.0), &factor(8.0), &factor(5.0)]);
}

/// A tube's yield and the wood's kind may be left open: then the least that a publication gives is taken.
#[test]
fn what_is_taken_where_nobody_knows_is_the_least() {
    let mpa = |mpa| move |job: &mut Job| job.rig.tubes.iter_mut().for_each(|tube| tube.yield_mpa = mpa);
    let open = mpa(None);
    never_falls(
        "yield",
        &[&mpa(Some(120.0)), &mpa(Some(170.0)), &open, &mpa(Some(235.0)), &mpa(Some(355.0))],
    );
    let wood = |wood| {
        move |job: &mut Job| {
            job.rig.base.wood = wood;
            // The tube on the wood, so that it governs.
            job.rig.base.seat_plate_mm = None;
        }
    };
    for better in [Wood::SprucePineFirSouth, Wood::HemFir, Wood::SouthernPine, Wood::DouglasFirLarch] {
        never_falls("wood", &[&wood(Wood::default()), &wood(better)]);
    }
}

/// A tube of EN 10255 has 195 MPa by its standard (table 2): one of the same measures without papers never takes more.
#[test]
fn a_tube_without_papers_takes_no_more_than_the_weakest_of_its_kind() {
    let en10255 = |yield_mpa: Option<f64>| {
        let mut job = known();
        for tube in &mut job.rig.tubes {
            tube.section = Section::Listed { table: TubeTable::En10255Medium, size: "DN40".to_owned() };
            (tube.yield_mpa, tube.pin_hole_mm) = (yield_mpa, None);
        }
        job
    };
    let uses = |job: &Job| {
        let computed = compute(job).expect("it can be placed");
        let standing = Standing::of(job, &computed.layout, MastHeight::Raised);
        let tube = parts(&standing).into_iter().find(|part| part.part.kind == PartKind::Tube);
        tube.and_then(|part| part.allowable_nm).expect("its bending is known")
    };
    assert!((uses(&en10255(None)) - uses(&en10255(Some(195.0)))).abs() < 1e-9);
    assert!(uses(&en10255(None)) < uses(&en10255(Some(205.0))));
}

#[test]
fn what_is_counted_on_without_being_shown_has_no_limit() {
    is_none("strands as guys", |job| job.rig.strands.as_mut().unwrap().cord.side_help = true);
    is_none("held foot", |job| job.rig.base.foot_fixing = FootFixing::Spring { stiffness_nm_per_rad: 500.0 });
}

/// What the wind takes hold of and what hangs on the mast: unknown, there is no limit; the more of it, the lower.
#[test]
fn strands() {
    use mastwright_engine::job::Cord;
    let cord =
        |change: fn(&mut Cord)| move |job: &mut Job| change(&mut job.rig.strands.as_mut().unwrap().cord);
    is_none("thickness", cord(|cord| cord.diameter_mm = None));
    is_none("mass", cord(|cord| cord.mass_g_per_m = None));
    is_none("a cord of which nothing is said", cord(|it| *it = Cord::default()));
    never_falls(
        "thickness",
        &[
            &cord(|cord| cord.diameter_mm = Some(14.0)),
            &cord(|cord| cord.diameter_mm = Some(9.0)),
            &cord(|cord| cord.diameter_mm = Some(5.0)),
            &cord(|cord| cord.diameter_mm = Some(2.5)),
        ],
    );
    // Neither a light nor a heavy strand is the safe one: hung at the same tension the light one is straighter and pulls
    // harder once the wind bows it, the heavy one weighs more. So no mass may stand in for one that is not known.
    never_falls(
        "mass",
        &[&cord(|cord| cord.mass_g_per_m = Some(15.0)), &cord(|cord| cord.mass_g_per_m = Some(80.0))],
    );
    // The stretch has a value of its own where none is given: that of bare copper, which softer ties only better.
    let stretch =
        |percent: f64| move |job: &mut Job| job.rig.strands.as_mut().unwrap().cord.stretch_percent = percent;
    never_falls("stretch", &[&stretch(Cord::default().stretch_percent), &stretch(0.5), &stretch(3.0)]);
}

/// Nothing is said of the guys when the mast is run down, as in every job from before it was asked.
#[test]
fn guys_when_the_mast_is_run_down() {
    use mastwright_engine::job::WhenLowered;
    let said = |how| move |job: &mut Job| job.rig.guy_levels[0].when_lowered = how;
    is_none("when lowered", said(WhenLowered::Unsaid));
    // A collar that stays where it is asks for nothing.
    let mut low = known();
    low.rig.guy_levels[0].attach_height_m = 2.4;
    low.rig.guy_levels[0].when_lowered = WhenLowered::Unsaid;
    let layout = compute(&low).unwrap().layout;
    assert_eq!(missing_of(&low, &layout), []);
    let mut left = known();
    left.rig.guy_levels[0].when_lowered = WhenLowered::Left;
    let lowered = |job: &Job| {
        let layout = compute(job).unwrap().layout;
        withstand(job, &layout, &mut |_, _, _| true).lowered.least.map_or(0.0, |least| least.gust_m_per_s)
    };
    assert!(lowered(&left) <= lowered(&known()));
}

/// While nobody knows what the wind takes hold of, no table has a number either, and no anchor gets a pull to be proved
/// with that is too small.
#[test]
fn a_load_that_nobody_knows_gives_no_number_anywhere() {
    use mastwright_engine::wind_capacity::{WindQuestion, wind_table};
    let mut job = known();
    job.yard.soil = SoilFeel::Unknown;
    let layout = compute(&job).unwrap().layout;
    let pulls = |job: &Job| withstand(job, &layout, &mut |_, _, _| true).proof_pulls.len();
    assert!(pulls(&job) > 0, "of an anchor in unknown soil it is told what pull proves it");
    job.rig.strands.as_mut().unwrap().cord.diameter_mm = None;
    assert_eq!(pulls(&job), 0);
    for height in [MastHeight::Raised, MastHeight::Lowered] {
        let question = WindQuestion { height, gust_m_per_s: 15.0, from_deg: None };
        let table = wind_table(&job, &layout, &question).unwrap();
        assert!(table.not_known_because.is_some() && table.bent.is_empty());
        assert!(!table.parts.is_empty() && table.parts.iter().all(|part| part.utilisation.is_none()));
        assert!(table.parts.iter().all(|part| part.force_n.is_none() && part.moment_nm.is_none()));
        assert_eq!((table.top_movement_m, table.foot_down_n, table.foot_sideways_n), (0.0, 0.0, 0.0));
    }
}
