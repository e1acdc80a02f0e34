//! Overhead lines with the band to keep out of, buried services with their tolerance zones.

use crate::drawing::canvas::Canvas;
use crate::drawing::geometry::{band, plan};
use crate::drawing::key::service_of;
use crate::drawing::labels::{WhereTo, Wish};
use crate::drawing::scene::Role;
use crate::finding::Subject;
use crate::job::{Located, ServiceKind};
use crate::report::format;
use crate::yard::overhead::band_m;
use crate::yard::{PlacedBuriedService, PlacedOverheadLine};

use super::{View, along_line, priority};

pub(crate) fn buried(canvas: &mut Canvas, view: &View) {
    for service in &view.computed.yard.buried_services {
        let subject = Some(Subject::BuriedService { id: service.id.clone() });
        let half = service.width_m / 2.0 + service.tolerance_m;
        canvas.area(Role::BuriedZone, subject.clone(), band(&service.line, half));
        canvas.line(service_of(service.carries).role, subject.clone(), service.line.clone());
        let aside = 0.8 * canvas.text_m;
        canvas.label(Wish {
            lines: vec![buried_words(service)],
            role: Role::LabelQuiet,
            subject,
            priority: priority::BURIED,
            must: true,
            where_to: WhereTo::On { places: along_line(&service.line, aside, &canvas.bounds) },
        });
    }
}

/// What it carries, in words.
pub(crate) fn carries_words(carries: ServiceKind) -> &'static str {
    service_of(carries).name
}

fn buried_words(service: &PlacedBuriedService) -> String {
    let sure = match service.located {
        Located::MarkedByUtility => "",
        Located::Exposed => ", seen",
        Located::Guessed => ", place guessed",
    };
    format!("{} ({}{sure})", service.name, carries_words(service.carries))
}

pub(crate) fn overhead_zones(canvas: &mut Canvas, view: &View) {
    for line in &view.computed.yard.overhead_lines {
        let subject = Some(Subject::OverheadLine { id: line.id.clone() });
        let wire: Vec<[f64; 2]> = line.wire.iter().copied().map(plan).collect();
        canvas.area(Role::OverheadZone, subject, band(&wire, keep_out_m(view, line)));
    }
}

pub(crate) fn overhead_lines(canvas: &mut Canvas, view: &View) {
    for line in &view.computed.yard.overhead_lines {
        let subject = Some(Subject::OverheadLine { id: line.id.clone() });
        let supports: Vec<[f64; 2]> = line.supports.iter().copied().map(plan).collect();
        let where_to = WhereTo::On { places: along_line(&supports, 0.8 * canvas.text_m, &canvas.bounds) };
        canvas.line(Role::OverheadWire, subject.clone(), supports.clone());
        for support in supports {
            canvas.sign(Role::OverheadSupport, subject.clone(), support, 0.0);
        }
        canvas.label(Wish {
            lines: vec![overhead_words(view, line)],
            role: Role::Label,
            subject,
            priority: priority::OVERHEAD,
            must: true,
            where_to,
        });
    }
}

/// How far the work keeps from the wire: as the clearances say; where there are none, by the band of 29 CFR
/// 1926.1408 Table A, its least one for an unknown voltage (which the findings call unchecked).
fn keep_out_m(view: &View, line: &PlacedOverheadLine) -> f64 {
    let subject = Subject::OverheadLine { id: line.id.clone() };
    let needed = view.computed.plan.clearances.iter().filter(|c| c.to == subject).map(|c| c.needed_m);
    needed.reduce(f64::max).unwrap_or_else(|| band_m(line, view.computed.yard.system))
}

fn overhead_words(view: &View, line: &PlacedOverheadLine) -> String {
    let volts = line.voltage_kv.map_or_else(|| "voltage not known".to_string(), format::voltage);
    let lowest =
        line.wire.iter().map(|&w| w[2] - view.computed.ground.height(plan(w))).fold(f64::INFINITY, f64::min);
    if lowest.is_finite() {
        let height = format::length_short(lowest.max(0.0), view.units());
        format!("{}: {volts}, wire {height} up", line.name)
    } else {
        format!("{}: {volts}", line.name)
    }
}
