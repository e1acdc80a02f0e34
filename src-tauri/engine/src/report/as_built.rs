//! What really stands, against the plan.

use super::rows::{self, row};
use super::{Label, ReportSection, Row, Source, format};
use crate::finding::Subject;
use crate::plan::{AsBuiltGuy, AsBuiltItem, AsBuiltLegResult, Deviation};
use crate::quantity::Units;

const CAUTION: &str = "The rest of the plan now goes on from what stands. A rope that was cut to the first plan may \
be too short: measure it before you count on it. An anchor that was pulled, bent or driven anew holds what its own \
proof pull shows, nothing more.";

pub(super) fn sections(source: &Source) -> Vec<ReportSection> {
    let Some(built) = &source.computed.plan.as_built else { return Vec::new() };
    let items = built.items.iter().map(|item| item_section(source.units(), item));
    items.chain(built.legs.iter().map(|leg| leg_section(source.units(), leg))).collect()
}

fn section(title: String, subject: Subject, rows: Vec<Row>) -> ReportSection {
    ReportSection { id: "as_built".into(), title, subject: Some(subject), rows, caution: CAUTION.into() }
}

fn item_section(units: Units, item: &AsBuiltItem) -> ReportSection {
    let mut rows = match &item.deviation {
        Some(deviation) => deviation_rows(units, deviation),
        None => vec![row(Label::WhereItStands, "not measured: taken as planned")],
    };
    rows.extend(item.guy.iter().flat_map(|guy| guy_rows(units, guy)));
    section(format!("What really stands: {}", item.name), item.subject.clone(), rows)
}

fn deviation_rows(units: Units, deviation: &Deviation) -> Vec<Row> {
    let length = |value_m| format::length(value_m, units);
    let far = if length(deviation.moved_m) == length(0.0) {
        "just as planned".to_owned()
    } else {
        length(deviation.moved_m)
    };
    let way = format!(
        "{}, {}",
        format::compass_point(deviation.bearing_deg),
        format::bearing(deviation.bearing_deg)
    );
    let explained = match (deviation.out_of_tolerance, deviation.tolerance_95_m) {
        (true, Some(tolerance_95_m)) => {
            format!("no: {} off, up to {} explained", length(deviation.offset_m), length(tolerance_95_m))
        }
        (true, None) => "no".to_owned(),
        (false, _) => "yes".to_owned(),
    };
    vec![row(Label::Moved, far), row(Label::MovedWay, way), row(Label::Explained, explained)]
}

fn guy_rows(units: Units, guy: &AsBuiltGuy) -> Vec<Row> {
    let length = |value_m: f64| format::length(value_m, units);
    let change_m = guy.cut_m.value - guy.planned_cut_m;
    let change = if length(change_m.abs()) == length(0.0) {
        "as planned".to_owned()
    } else {
        format!("{} {}", length(change_m.abs()), if change_m > 0.0 { "longer" } else { "shorter" })
    };
    let angle = format!("{}, planned {}", format::angle(guy.angle_deg), format::angle(guy.planned_angle_deg));
    vec![
        row(Label::RopeToCutNow, rows::length_95(&guy.cut_m, units)),
        row(Label::AgainstPlan, change),
        row(Label::GuyAngle, angle),
    ]
}

fn leg_section(units: Units, leg: &AsBuiltLegResult) -> ReportSection {
    let rows = vec![
        row(Label::GapMeasured, rows::length(leg.gap_m, units)),
        row(Label::GapPlanned, rows::length_95(&leg.planned_gap_m, units)),
    ];
    section(format!("What really stands: {} leg", leg.leg), Subject::Leg { id: leg.leg.clone() }, rows)
}
