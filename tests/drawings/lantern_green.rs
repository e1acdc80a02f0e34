//! The demo's drawings against the ones that were looked at and found good.
//!
//! A difference is not a mistake in itself: look at the new drawing (`rsvg-convert`, or any browser), and where it
//! is right, keep it: `MASTWRIGHT_BLESS=1 cargo test -p mastwright-tests --test drawings`.

use std::path::PathBuf;

use mastwright_engine::drawing::scene::{Geometry, Role, Scene};
use mastwright_engine::drawing::sheet::Wanted;
use mastwright_engine::drawing::{MapOptions, Paper, SvgStyle, leg_profile, sheets, staking_map, svg};
use mastwright_engine::finding::Subject;
use mastwright_engine::job::Job;
use mastwright_engine::judge::judged;
use mastwright_engine::plan::Computed;
use mastwright_engine::quantity::UnitSystem;
use mastwright_engine::report::{report, text};

fn demo() -> (Job, Computed) {
    demo_in(UnitSystem::Imperial)
}

fn demo_in(system: UnitSystem) -> (Job, Computed) {
    let mut job = mastwright_engine::demo::lantern_green();
    job.units.system = system;
    let computed = judged(&job).expect("the demo can be placed");
    (job, computed)
}

/// Compares a text with the file of this name, or keeps it there.
fn check(name: &str, drawn: &str) {
    let path: PathBuf = [env!("CARGO_MANIFEST_DIR"), "drawings", "lantern_green", name].iter().collect();
    if std::env::var_os("MASTWRIGHT_BLESS").is_some() {
        std::fs::write(&path, drawn).expect("a place to keep it");
        return;
    }
    let kept = std::fs::read_to_string(&path).unwrap_or_default();
    let differs = kept.lines().zip(drawn.lines()).position(|(a, b)| a != b);
    let line = differs.unwrap_or(kept.lines().count().min(drawn.lines().count())) + 1;
    assert!(kept == drawn, "{name} differs from line {line} on; see the head of this file");
}

/// The map as on a phone: 360 by 480 CSS pixels at 96 to the inch, letters of 12 pixels.
fn phone_map(job: &Job, computed: &Computed) -> String {
    let style = SvgStyle::fitted(95.25, 127.0, 3.175);
    let rough = staking_map(job, computed, &MapOptions::lettering(0.5));
    let text_m = style.text_m(&rough.bounds);
    svg(&staking_map(job, computed, &MapOptions::lettering(text_m)), &style)
}

#[test]
fn map_on_a_phone() {
    let (job, computed) = demo();
    check("map_phone.svg", &phone_map(&job, &computed));
}

#[test]
fn sheets_on_a4_and_on_letter() {
    for (system, paper, name) in
        [(UnitSystem::Metric, Paper::A4, "a4"), (UnitSystem::Imperial, Paper::Letter, "letter")]
    {
        let (job, computed) = demo_in(system);
        let pages = sheets(&job, &computed, &Wanted::on(paper)).svg();
        for (number, page) in (1..).zip(&pages) {
            check(&format!("sheet_{name}_{number}.svg"), page);
        }
    }
}

#[test]
fn profile_along_the_front_leg() {
    let (job, computed) = demo();
    check("profile.svg", &svg(&leg_profile(&job, &computed), &SvgStyle::fitted(95.25, 60.0, 2.9)));
}

#[test]
fn report_as_text() {
    let (job, computed) = demo_in(UnitSystem::Metric);
    check("report.txt", &text(&report(&job, &computed)));
}

/// Each anchor of the plan is on the map, at its place, with its words.
#[test]
fn every_anchor_is_on_the_map_where_the_plan_says() {
    let (job, computed) = demo();
    let scene = staking_map(&job, &computed, &MapOptions::lettering(0.5));
    for guy in &computed.plan.guys {
        let subject = Subject::Guy { id: guy.id.clone() };
        assert!(
            signs(&scene, Role::Anchor, &subject).contains(&[guy.east_m, guy.north_m]),
            "{} is not on the map",
            guy.name
        );
        let named = scene.shapes.iter().any(|s| {
            s.subject.as_ref() == Some(&subject)
                && matches!(&s.geometry, Geometry::Words { text, .. } if *text == guy.name)
        });
        assert!(named, "{} has no words", guy.name);
    }
}

fn signs(scene: &Scene, role: Role, subject: &Subject) -> Vec<[f64; 2]> {
    let own = scene.shapes.iter().filter(|s| s.role == role && s.subject.as_ref() == Some(subject));
    own.filter_map(|s| match s.geometry {
        Geometry::Sign { at, .. } => Some(at),
        _ => None,
    })
    .collect()
}
