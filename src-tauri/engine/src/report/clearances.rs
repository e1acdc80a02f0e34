//! The nearest approaches, worst margin first.

use super::rows::row;
use super::words::cautions;
use super::{Label, ReportSection, Row, SectionTitle, Source, format, words};
use crate::finding::Subject;
use crate::plan::Clearance;
use crate::yard::approach::Approach;

pub(super) fn section(source: &Source) -> Option<ReportSection> {
    let clearances = &source.computed.plan.clearances;
    if clearances.is_empty() {
        return None;
    }
    let rows =
        (1..).zip(clearances).map(|(number, clearance)| clearance_row(source, Some(number), clearance));
    Some(ReportSection {
        id: "clearance".into(),
        title: words::title(&SectionTitle::Clearances),
        subject: None,
        rows: rows.collect(),
        caution: cautions::CLEARANCES.into(),
    })
}

/// The clearance with the least to spare.
pub(super) fn worst_row(source: &Source) -> Option<Row> {
    let margin = |c: &Clearance| c.distance_m - c.needed_m;
    let worst = source.computed.plan.clearances.iter().min_by(|a, b| margin(a).total_cmp(&margin(b)))?;
    Some(clearance_row(source, None, worst))
}

fn clearance_row(source: &Source, number: Option<usize>, clearance: &Clearance) -> Row {
    let units = source.units();
    let (work, to) = (name(source, &clearance.work), name(source, &clearance.to));
    let key = Label::Clearance { number, work, to, what: clearance.what };
    let verdict = if clearance.distance_m < clearance.needed_m { "TOO NEAR: " } else { "" };
    let value = format!(
        "{verdict}{}, needed at least {}",
        format::length(clearance.distance_m, units),
        format::length(clearance.needed_m, units)
    );
    row(key, value)
}

/// A reading by its kind and its place in its list: nobody knows it by its name.
pub(super) fn reading(source: &Source, id: &str) -> String {
    let yard = &source.job.yard;
    let slope = yard.slopes.iter().position(|one| one.id == id).map(|i| format!("slope reading {}", i + 1));
    let height =
        || yard.spot_heights.iter().position(|one| one.id == id).map(|i| format!("spot height {}", i + 1));
    slope.or_else(height).unwrap_or_else(|| "a measurement between marks".to_owned())
}

/// What a subject is called.
/// What keeps from what, and how that is taken.
pub(super) fn pair(source: &Source, work: &Subject, to: &Subject, what: Approach) -> String {
    format!("{} – {} ({})", format::capital(&name(source, work)), name(source, to), words::approach(what))
}

pub(crate) fn name(source: &Source, subject: &Subject) -> String {
    let yard = &source.computed.yard;
    let plan = &source.computed.plan;
    let found = match subject {
        Subject::Job => Some("the job".into()),
        Subject::Ground => Some("the ground".into()),
        Subject::Mast => Some("mast".into()),
        Subject::Base => Some("base".into()),
        Subject::Ring => Some("ring".into()),
        Subject::Boundary => Some("boundary".into()),
        Subject::Leg { id } => Some(format!("{id} leg")),
        Subject::Stake { id } => Some(format!("stake {id}")),
        Subject::Mark { id } => Some(format!("mark {id}")),
        Subject::Reading { id } => Some(reading(source, id)),
        Subject::Guy { id } => plan.guys.iter().find(|g| g.id == *id).map(|g| g.name.clone()),
        Subject::Obstacle { id } => yard.obstacles.iter().find(|o| o.id == *id).map(|o| o.name.clone()),
        Subject::OverheadLine { id } => {
            yard.overhead_lines.iter().find(|o| o.id == *id).map(|o| o.name.clone())
        }
        Subject::BuriedService { id } => {
            yard.buried_services.iter().find(|o| o.id == *id).map(|o| o.name.clone())
        }
    };
    found.unwrap_or_else(|| "unknown".into())
}
