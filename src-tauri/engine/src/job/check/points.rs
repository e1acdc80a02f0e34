//! Points: fixed from marks that are there, and one origin.

use std::collections::BTreeSet;

use serde::Deserialize;

use crate::job::wording::{listed, nearest, shortened};
use crate::job::{AnchorLayout, BearingReference, Job, MAST_MARK, Measurement, PointFix, Shape};
use crate::pointer;
use crate::quantity::FieldError;

pub(super) fn check(job: &Job, errors: &mut Vec<FieldError>) {
    let marks = Marks { ids: job.yard.marks.iter().map(|mark| mark.id.as_str()).collect() };
    each_fix(job, &mut |path, fix| check_fix(&marks, path, fix, errors));
    let with_mast = Marks { ids: marks.ids.iter().copied().chain([MAST_MARK]).collect() };
    each_anchor_found(job, &mut |path, fix| check_fix(&with_mast, path, fix, errors));
    if let Some(first) = job.yard.marks.first().filter(|mark| mark.at != PointFix::Origin) {
        let given = format!("mark “{}” fixed from elsewhere", shortened(&first.id));
        errors.push(FieldError::new(
            pointer!(yard.marks[0].at) + "/by",
            given,
            "\"origin\": the first mark is the origin",
        ));
    }
    if let BearingReference::Baseline { from, to, .. } = &job.yard.bearings {
        check_pair(&marks, pointer!(yard.bearings), from, to, errors);
    }
    for (index, measurement) in job.yard.measurements.iter().enumerate() {
        let (Measurement::Tape { from, to, struck, .. } | Measurement::Bearing { from, to, struck, .. }) =
            measurement;
        // What is struck out is kept as it was, even where its mark is gone.
        if !struck {
            check_pair(&marks, &pointer!(yard.measurements[index]), from, to, errors);
        }
    }
}

struct Marks<'a> {
    ids: BTreeSet<&'a str>,
}

impl Marks<'_> {
    fn check(&self, path: String, id: &str, errors: &mut Vec<FieldError>) {
        if self.ids.contains(id) {
            return;
        }
        let known: Vec<String> = self.ids.iter().take(12).map(|id| (*id).to_owned()).collect();
        let perhaps = nearest(id, self.ids.iter().copied()).filter(|_| id.len() > 2);
        let perhaps = perhaps.map(|near| format!("; perhaps {near}")).unwrap_or_default();
        let allowed = format!("the id of a mark, such as {}{perhaps}", listed(&known));
        errors.push(FieldError::new(path, format!("text “{}”", shortened(id)), allowed));
    }
}

fn check_pair(marks: &Marks, path: &str, from: &str, to: &str, errors: &mut Vec<FieldError>) {
    marks.check(format!("{path}/from"), from, errors);
    marks.check(format!("{path}/to"), to, errors);
    if from == to {
        errors.push(FieldError::new(
            format!("{path}/to"),
            format!("text “{}”", shortened(to)),
            "another mark than `from`",
        ));
    }
}

fn check_fix(marks: &Marks, path: &str, fix: &PointFix, errors: &mut Vec<FieldError>) {
    match fix {
        PointFix::Origin if path == pointer!(yard.marks[0].at) => {}
        PointFix::Origin => {
            let allowed = "any other way to fix a point: only the first mark is the origin";
            errors.push(FieldError::new(format!("{path}/by"), "text “origin”", allowed));
        }
        PointFix::NextCorner { .. } => {
            let mut steps = path.rsplit('/');
            let corner = steps.next().and_then(|last| last.parse::<usize>().ok());
            let in_order = matches!(steps.next(), Some("outline" | "line"));
            if !in_order || corner.is_none_or(|corner| corner < 2) {
                let allowed =
                    "another way to fix this point: a next corner follows two others of its outline";
                errors.push(FieldError::new(format!("{path}/by"), "text “next_corner”", allowed));
            }
        }
        measured => {
            let starts = measured.starts();
            for (number, (field, id)) in starts.iter().enumerate() {
                marks.check(format!("{path}/{field}"), id, errors);
                if let Some((first, _)) = starts[..number].iter().find(|(_, before)| before == id) {
                    let given = format!("text “{}”", shortened(id));
                    let allowed = format!("another mark than `{first}`");
                    errors.push(FieldError::new(format!("{path}/{field}"), given, allowed));
                }
            }
        }
    }
}

/// The mast's fix alone, of a job whose other fields were looked at before.
pub(super) fn check_mast(job: &Job, errors: &mut Vec<FieldError>) {
    let marks = Marks { ids: job.yard.marks.iter().map(|mark| mark.id.as_str()).collect() };
    check_fix(&marks, pointer!(placement.mast), &job.placement.mast, errors);
}

/// Visits every fix of the job with its JSON pointer.
fn each_fix(job: &Job, visit: &mut impl FnMut(&str, &PointFix)) {
    let yard = &job.yard;
    for (index, mark) in yard.marks.iter().enumerate() {
        visit(&pointer!(yard.marks[index].at), &mark.at);
    }
    for (index, spot) in yard.spot_heights.iter().enumerate() {
        visit(&pointer!(yard.spot_heights[index].at), &spot.at);
    }
    for (index, obstacle) in yard.obstacles.iter().enumerate() {
        each_of_shape(&obstacle.shape, &pointer!(yard.obstacles[index].shape), visit);
    }
    if let Some(boundary) = &yard.boundary {
        each_of(&boundary.outline, pointer!(yard.boundary?.outline), visit);
    }
    for (index, line) in yard.overhead_lines.iter().enumerate() {
        for (support, of) in line.supports.iter().enumerate() {
            visit(&pointer!(yard.overhead_lines[index].supports[support].at), &of.at);
        }
    }
    for (index, service) in yard.buried_services.iter().enumerate() {
        each_of(&service.line, &pointer!(yard.buried_services[index].line), visit);
    }
    for (index, standpoint) in job.standpoints.iter().enumerate() {
        visit(&pointer!(standpoints[index].at), &standpoint.at);
    }
    each_of(&lead_way(job), pointer!(lights.lead.way), visit);
    for (index, level) in job.rig.guy_levels.iter().enumerate() {
        if let AnchorLayout::Free { anchors } = &level.anchor_layout {
            each_of(
                anchors,
                &pointer!(rig.guy_levels[index].anchor_layout as AnchorLayout::Free.anchors),
                visit,
            );
        }
    }
    visit(pointer!(placement.mast), &job.placement.mast);
    if let Some(mast) = job.as_built.as_ref().and_then(|built| built.mast.as_ref()) {
        visit(pointer!(as_built?.mast), mast);
    }
}

/// Read without the rest of its part, which nobody asks for here.
fn lead_way(job: &Job) -> Vec<PointFix> {
    let way = job.lights.kept().pointer("/lead/way");
    way.and_then(|way| Vec::deserialize(way).ok()).unwrap_or_default()
}

/// The anchors as they stand, which may be fixed from the mast, too.
fn each_anchor_found(job: &Job, visit: &mut impl FnMut(&str, &PointFix)) {
    for (index, anchor) in job.as_built.iter().flat_map(|built| &built.anchors).enumerate() {
        if let Some(at) = &anchor.at {
            visit(&pointer!(as_built?.anchors[index].at), at);
        }
    }
}

fn each_of_shape(shape: &Shape, path: &str, visit: &mut impl FnMut(&str, &PointFix)) {
    match shape.points() {
        ("at", [at]) => visit(&format!("{path}/at"), at),
        (part, points) => each_of(points, &format!("{path}/{part}"), visit),
    }
}

fn each_of(fixes: &[PointFix], path: &str, visit: &mut impl FnMut(&str, &PointFix)) {
    for (index, fix) in fixes.iter().enumerate() {
        visit(&format!("{path}/{index}"), fix);
    }
}
