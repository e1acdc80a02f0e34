//! One section for each guy.

use super::rows::{self, row};
use super::{Row, Section, Source, say};
use crate::finding::Subject;
use crate::job::WhenLowered;
use crate::limit::MastHeight;
use crate::limit::standing::Standing;
use crate::plan::GuyResult;

const CAUTION: &str = "Before an anchor goes in, have buried services marked by the one-call service or the \
utilities. A tensioned rope that lets go whips: stand aside of its line, wear eye protection, never stand \
astride it. Flag each guy where people pass. The anchor's strength in your soil is for you to prove by pulling.";

pub(super) fn sections(source: &Source) -> Vec<Section> {
    source.computed.plan.guys.iter().map(|guy| section(source, guy)).collect()
}

/// Which other guys pull at its anchor.
fn shared_rows(source: &Source, guy: &GuyResult) -> Vec<Row> {
    let others = source.computed.plan.guys.iter().filter(|other| guy.shared_with.contains(&other.id));
    let names = crate::guys::shared::name(others);
    if names.is_empty() {
        return Vec::new();
    }
    vec![row("shared_with", "Made fast to one anchor with", names)]
}

/// Where and how tight it is made fast when the mast is run down.
fn lowered_rows(source: &Source, guy: &GuyResult) -> Vec<Row> {
    let (job, plan, units) = (source.job, &source.computed.plan, source.units());
    let lowered = Standing::of(job, plan, MastHeight::Lowered);
    let Some(standing) = lowered.guys.iter().find(|it| it.planned.id == guy.id) else { return Vec::new() };
    if job.rig.tubes.len() < 2 {
        return Vec::new();
    }
    let height = rows::length(standing.attach_height_m, units);
    // Nothing is done with a guy whose collar stays where it is.
    if !standing.comes_down() {
        return Vec::new();
    }
    let (how, tension) = match standing.level.when_lowered {
        WhenLowered::Unsaid => (
            "Run down: its collar is above the foot at",
            "not said yet: nothing shows what holds the mast then".into(),
        ),
        WhenLowered::MadeFast => {
            ("Run down: make it fast above the foot at", rows::force(standing.level.tension_n, units))
        }
        WhenLowered::Left => ("Run down: its collar is above the foot at", "none: it hangs slack".into()),
    };
    vec![
        row("lowered_at", how, height),
        row("lowered_tension", "Run down: tension at the mast, no wind", tension),
    ]
}

fn section(source: &Source, guy: &GuyResult) -> Section {
    let units = source.units();
    let length = |value| rows::length(value, units);
    let uncertain = |id: &str, label: &str, e: &crate::quantity::estimate::Estimate| {
        row(id, label, rows::length_95(e, units))
    };
    let mut rows = shared_rows(source, guy);
    rows.extend([
        row("tape", "Tape along the ground, mast to anchor", length(guy.tape_m)),
        row("bearing", "True bearing from the mast", rows::bearing(guy.azimuth_deg)),
        row("reading", "The same as read in this yard", rows::bearing(guy.reading_deg)),
        row(
            "turn_from_front",
            "Turn from the front leg, clockwise",
            rows::angle(guy.turn_from_front_deg, units),
        ),
        row("radius", "Distance in plan", length(guy.radius_m)),
        row(
            "height_difference",
            "Anchor against the ground at the mast",
            say::up_or_down(guy.height_difference_m, units),
        ),
        row("chord", "Straight line, anchor to collar", length(guy.chord_m)),
        row("angle", "Angle to the horizontal", rows::angle(guy.angle_deg, units)),
        uncertain("unstressed", "Rope between its ends, slack", &guy.unstressed_m),
        uncertain("cut", "Rope to cut, knots and tails included", &guy.cut_m),
        row("sag", "Sag below the straight line", length(guy.sag_m)),
        row("tension_top", "Tension at the mast, no wind", rows::force(guy.tension_top_n, units)),
        row("tension_bottom", "Tension at the anchor, no wind", rows::force(guy.tension_bottom_n, units)),
        row("pluck", "Plucked, it swings sideways at", rows::frequency(guy.pluck_hz)),
    ]);
    rows.extend(lowered_rows(source, guy));
    Section {
        id: "guy".into(),
        title: guy.name.clone(),
        subject: Some(Subject::Guy { id: guy.id.clone() }),
        rows,
        caution: CAUTION.into(),
    }
}
