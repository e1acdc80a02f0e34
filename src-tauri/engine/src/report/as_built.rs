//! What really stands, against the plan.

use super::rows::{self, row};
use super::words::cautions;
use super::{Label, ReportSection, Row, SectionTitle, Source, format, words};
use crate::finding::Subject;
use crate::plan::{AsBuiltGuy, AsBuiltItem, AsBuiltLegResult, Deviation};
use crate::quantity::Units;

pub(super) fn sections(source: &Source) -> Vec<ReportSection> {
    let Some(built) = &source.computed.plan.as_built else { return Vec::new() };
    let items = built.items.iter().map(|item| item_section(source.units(), item));
    items.chain(built.legs.iter().map(|leg| leg_section(source.units(), leg))).collect()
}

fn section(title: &SectionTitle, subject: Subject, rows: Vec<Row>) -> ReportSection {
    ReportSection {
        id: "as_built".into(),
        title: words::title(title),
        subject: Some(subject),
        rows,
        caution: cautions::AS_BUILT.into(),
    }
}

fn item_section(units: Units, item: &AsBuiltItem) -> ReportSection {
    let mut rows = match &item.deviation {
        Some(deviation) => deviation_rows(units, deviation),
        None => vec![row(Label::WhereItStands, "not measured: taken as planned")],
    };
    rows.extend(item.guy.iter().flat_map(|guy| guy_rows(units, guy)));
    section(&SectionTitle::AsBuilt { name: item.name.clone() }, item.subject.clone(), rows)
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
    section(&SectionTitle::LegAsBuilt { leg: leg.leg.clone() }, Subject::Leg { id: leg.leg.clone() }, rows)
}
