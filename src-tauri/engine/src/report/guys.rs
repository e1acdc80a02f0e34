//! One section for each guy.

use super::rows::{self, row};
use super::words::cautions;
use super::{Label, ReportSection, Row, SectionTitle, Source, format, words};
use crate::finding::Subject;
use crate::finding::yard::Thing;
use crate::job::WhenLowered;
use crate::plan::GuyResult;
use crate::wind_capacity::MastHeight;
use crate::wind_capacity::standing::Standing;

pub(super) fn sections(source: &Source) -> Vec<ReportSection> {
    source.computed.plan.guys.iter().map(|guy| section(source, guy)).collect()
}

/// Which other guys pull at its anchor.
fn shared_rows(source: &Source, guy: &GuyResult) -> Vec<Row> {
    let others = source.computed.plan.guys.iter().filter(|other| guy.shared_with.contains(&other.id));
    let names = crate::guys::shared::name(others);
    if names.is_empty() {
        return Vec::new();
    }
    vec![row(Label::SharedWith, names)]
}

/// Where it is made fast to a thing of the yard, and what that may be pulled with.
fn fixing_rows(source: &Source, guy: &GuyResult) -> Vec<Row> {
    let Some(fast) = &guy.made_fast else { return Vec::new() };
    let units = source.units();
    let holds = match fast.holds_n {
        Some(holds_n) => rows::force(holds_n, units),
        None => words::guys::HOLD_NOT_KNOWN.into(),
    };
    vec![
        row(Label::MadeFastTo, fast.name.clone()),
        row(Label::PegAboveGround, rows::length(fast.height_m, units)),
        row(Label::FixingHolds, holds),
    ]
}

/// Where and how tight it is made fast when the mast is run down.
fn lowered_rows(source: &Source, guy: &GuyResult) -> Vec<Row> {
    let (job, units) = (source.job, source.units());
    let lowered = Standing::of(job, &source.computed.layout, MastHeight::Lowered);
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
        WhenLowered::Unsaid => {
            (Label::CollarRunDown, "not said yet: nothing shows what holds the mast then".into())
        }
        WhenLowered::MadeFast => (Label::MakeFastRunDown, rows::force(standing.level.tension_n, units)),
        WhenLowered::Left => (Label::CollarRunDown, "none: it hangs slack".into()),
    };
    vec![row(how, height), row(Label::TensionRunDown, tension)]
}

fn section(source: &Source, guy: &GuyResult) -> ReportSection {
    let units = source.units();
    let length = |value| rows::length(value, units);
    let uncertain = |key: Label, e: &crate::quantity::estimate::Estimate| row(key, rows::length_95(e, units));
    let mut rows = shared_rows(source, guy);
    rows.extend(fixing_rows(source, guy));
    rows.extend([
        row(Label::GuyTape, length(guy.tape_m)),
        row(Label::BearingFromMast, rows::bearing(guy.azimuth_deg)),
        row(Label::AsReadHere, rows::bearing(guy.reading_deg)),
        row(Label::TurnFromFront, rows::angle(guy.turn_from_front_deg, units)),
        row(Label::GuyRadius, length(guy.radius_m)),
        row(Label::AnchorHeight, format::up_or_down(guy.height_difference_m, units)),
        row(Label::Chord, length(guy.chord_m)),
        row(Label::GuyAngle, rows::angle(guy.angle_deg, units)),
        uncertain(Label::Unstressed, &guy.unstressed_m),
        uncertain(Label::RopeToCut, &guy.cut_m),
        row(Label::Sag, length(guy.sag_m)),
        row(Label::TensionTop, rows::force(guy.tension_top_n, units)),
        row(Label::TensionBottom, rows::force(guy.tension_bottom_n, units)),
        row(Label::PluckedFrequency, rows::frequency(guy.natural_frequency_hz)),
    ]);
    rows.extend(lowered_rows(source, guy));
    ReportSection {
        id: "guy".into(),
        title: words::title(&SectionTitle::Guy { name: guy.name.clone() }),
        subject: Some(Subject::Guy { id: guy.id.clone() }),
        rows,
        caution: match &guy.made_fast {
            Some(fast) if fast.kind == Thing::Tree => words::pegging::FIXING_ON_TREE.into(),
            Some(_) => words::pegging::FIXING.into(),
            None => cautions::GUYS.into(),
        },
    }
}
