//! McKenna, Scott & Fenves, OpenSees, by openseespy 3.7.1: the use of every part of a two-tube mast with two levels of
//! guys, at the gust limit that the program reports, for three stretches of rope; and of a slim one of one level near its
//! buckling load, where the bow grows many times over and its shortening slackens the guys. The script is
//! `scripts/wind_capacity_opensees.py`, its results `data/wind_capacity_opensees.json`. It builds mast and wind anew from the
//! job's plain numbers, and bends the spans really, in all combinations of with and against the wind, where the program
//! takes straight elements with the bow in their strain.
//!
//! Within 1 %: the use of tubes and at pin holes, the pulls of ropes and on anchors that count, the foot's push.

use mastwright_engine::anchor::soil::ClayFeel;
use mastwright_engine::job::*;
use mastwright_engine::plan::compute;
use mastwright_engine::quantity::{UnitSystem, Units};
use mastwright_engine::resistance::rope::RopeMaterial;
use mastwright_engine::wind_capacity::parts::parts;
use mastwright_engine::wind_capacity::rose::blows_to;
use mastwright_engine::wind_capacity::search::{Search, Windy};
use mastwright_engine::wind_capacity::standing::Standing;
use mastwright_engine::wind_capacity::{MastHeight, WindQuestion, WindTable, air, wind_table};
use serde_json::Value;

/// Everything but the tubes is stout: they are the first to be used up.
fn job(mast: &str, stretch_percent: f64) -> Job {
    let mut job = blank(Units { system: UnitSystem::Metric, inch_fraction: 16 });
    job.yard.bearings = BearingReference::True;
    job.yard.soil = SoilFeel::Clay { feel: ClayFeel::Hard };
    (job.wind.temperature_c, job.placement.front_bearing_deg, job.placement.guy_turn_deg) = (0.0, 0.0, 0.0);
    let tube = |outside_mm, wall_mm, length_m, overlap_m, pin_hole_mm| Tube {
        name: "Tube".into(),
        section: Section::Measured { outside_mm, wall_mm },
        length_m,
        overlap_m,
        joint: TubeJoint::Telescoped,
        pin_hole_mm,
        yield_mpa: Some(205.0),
        calliper: Default::default(),
    };
    let slim = mast == "slim";
    let [(d1, w1), (d2, w2)] = if slim { [(32.0, 2.0), (26.0, 2.0)] } else { [(60.3, 3.65), (48.3, 3.25)] };
    job.rig.tubes =
        vec![tube(d1, w1, 3.4, 0.0, None), tube(d2, w2, 3.2, 0.7, Some(if slim { 6.0 } else { 11.0 }))];
    let level = |id: &str, attach_height_m, tension_n, radius_m| {
        let mut level = job.rig.guy_levels[0].clone();
        (level.id, level.name) = (id.into(), id.into());
        (level.attach_height_m, level.tension_n, level.collar_radius_mm) = (attach_height_m, tension_n, 0.0);
        level.anchor_layout = AnchorLayout::EqualRadius { radius_m };
        level.anchor_eye_height_m = 0.089;
        (level.rope.mass_g_per_m, level.rope.stretch_percent) = (25.0, stretch_percent);
        level.rope.strength.minimum_n = Some(100_000.0);
        level.rope.strength.material = RopeMaterial::Polyester;
        level.proof_pull_n = Some(100_000.0);
        level
    };
    job.rig.guy_levels = match slim {
        true => vec![level("upper", 5.2, 220.0, 3.6)],
        false => vec![level("lower", 2.5, 180.0, 2.6), level("upper", 5.2, 160.0, 3.6)],
    };
    job.rig.topper =
        Some(Topper { width_m: 0.4, height_m: 0.4, mass_kg: 1.0, solid_percent: 60.0, drag: 1.8 });
    job
}

fn table(job: &Job, from_deg: f64, gust_m_per_s: f64) -> WindTable {
    let layout = compute(job).unwrap().layout;
    let question = WindQuestion { height: MastHeight::Raised, gust_m_per_s, from_deg: Some(from_deg) };
    wind_table(job, &layout, &question).unwrap()
}

/// The gust at which the first tube is used up, whatever the base may carry.
fn limit_of_tubes(job: &Job, from_deg: f64) -> f64 {
    let layout = compute(job).unwrap().layout;
    let standing = Standing::of(job, &layout, MastHeight::Raised);
    let mut parts = parts(&standing);
    parts.retain(|part| ["tube", "pin-hole", "whole-mast"].iter().any(|kind| part.part.id.starts_with(kind)));
    let mut windy = Windy::new(&standing, &air::route(job), blows_to(from_deg)).unwrap();
    let mut search = Search::new(&parts, &mut windy);
    search.limit(&mut windy, 400.0).gust_squared.sqrt()
}

#[test]
fn uses_at_the_limit_agree_with_opensees() {
    let fixture: Value = serde_json::from_str(include_str!("data/wind_capacity_opensees.json")).unwrap();
    let cases = fixture["cases"].as_array().unwrap();
    assert_eq!(cases.len(), 5);
    let mut wrong = Vec::new();
    for case in cases {
        let number = |name: &str| case[name].as_f64().unwrap();
        let (stretch, from_deg, gust) =
            (number("stretch_percent"), number("from_deg"), number("gust_m_per_s"));
        let mast = case["mast"].as_str().unwrap();
        let job = job(mast, stretch);
        let limit = limit_of_tubes(&job, from_deg);
        println!(
            "{{\"mast\": \"{mast}\", \"stretch_percent\": {stretch}, \"from_deg\": {from_deg}, \"gust_m_per_s\": {limit:.4}}}"
        );
        if (limit / gust - 1.0).abs() > 0.003 {
            wrong.push(format!("{mast}, {stretch} %: limit {limit}, not {gust}"));
            continue;
        }
        let table = table(&job, from_deg, gust);
        let found = |id: &str| table.parts.iter().find(|part| part.part.id == id).unwrap();
        let levels: &[&str] = if mast == "slim" { &["upper"] } else { &["lower", "upper"] };
        let guy = |k: usize| format!("{}-{}", levels[k / 3], k % 3 + 1);
        let worst = case["worst"].as_object().unwrap();
        let hardest = |kind: &str| {
            let of_kind = worst.iter().filter(|(name, _)| name.starts_with(kind));
            of_kind.map(|(_, value)| value.as_f64().unwrap()).fold(0.0, f64::max)
        };
        let mut most = 0.0_f64;
        for (name, expected) in worst {
            let expected = expected.as_f64().unwrap();
            let (found, of) = match name.split_once(' ') {
                Some((kind @ ("rope" | "anchor"), k)) => {
                    let id = format!("{kind} {}", guy(k.parse().unwrap()));
                    (found(&id).force_n.unwrap(), hardest(kind))
                }
                None => (found("timber").force_n.unwrap(), expected),
                Some(_) => {
                    most = most.max(expected);
                    (found(name).utilisation.unwrap(), 1.0)
                }
            };
            let off = (found - expected) / of;
            println!("  {name:22} {found:10.4} {expected:10.4} {:7.3} %", 100.0 * off);
            if off.abs() > 0.01 || off.is_nan() {
                wrong.push(format!("{stretch} % {name}: {found} {expected}"));
            }
        }
        assert!((0.985..1.01).contains(&most), "the first is just used up: {most}");
    }
    assert!(wrong.is_empty(), "{wrong:#?}");
}
