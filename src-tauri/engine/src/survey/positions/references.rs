//! Whether the yard's fixes and measurements name marks that are there, lead somewhere and hold usable numbers.

use std::collections::BTreeMap;
use std::fmt::Arguments;

use crate::field;
use crate::job::{BearingReference, Measurement, PointFix, Yard};
use crate::pointer;
use crate::quantity::FieldError;

/// Longest tape and farthest coordinate that the document format allows.
const LONGEST_TAPE_M: f64 = 1000.0;
const FARTHEST_COORDINATE_M: f64 = 2000.0;
/// Steepest tape through the air.
const STEEPEST_TAPE_DEG: f64 = 60.0;

/// Checks everything that the marks' network rests on; gives the place of each mark id in the list.
pub(super) fn check(yard: &Yard) -> Result<BTreeMap<String, usize>, Vec<FieldError>> {
    let mut errors = Vec::new();
    let index = index_marks(yard, &mut errors);
    check_origin(yard, &mut errors);
    for (number, mark) in yard.marks.iter().enumerate() {
        let path = pointer!(yard.marks[number].at);
        errors.extend(check_fix(&mark.at, &path, &index));
        errors.extend(check_apart(&mark.at, &path));
        errors.extend(check_circle(yard, number, &path, &index));
    }
    check_baseline(yard, &index, &mut errors);
    for (number, measurement) in yard.measurements.iter().enumerate() {
        check_measurement(measurement, &pointer!(yard.measurements[number]), &index, &mut errors);
    }
    if errors.is_empty() { Ok(index) } else { Err(errors) }
}

/// What is wrong with one fix, wherever it stands.
pub(super) fn check_fix(fix: &PointFix, path: &str, index: &BTreeMap<String, usize>) -> Vec<FieldError> {
    let mut errors = Vec::new();
    let starts = fix.starts();
    for (number, (field, id)) in starts.iter().enumerate() {
        check_id(id, format_args!("{path}/{field}"), index, &mut errors);
        if starts[..number].iter().any(|(_, before)| before == id) {
            errors.push(FieldError::new(format!("{path}/{field}"), (*id).to_owned(), "another mark"));
        }
    }
    let tapes: &[(&str, f64)] = match fix {
        PointFix::Origin | PointFix::Coordinates { .. } => &[],
        PointFix::BearingTape { tape_m, .. }
        | PointFix::SlopeTape { tape_m, .. }
        | PointFix::NextCorner { tape_m, .. } => &[(field!(PointFix::BearingTape.tape_m), *tape_m)],
        PointFix::TwoTapes { tape_a_m, tape_b_m, .. } => &[
            (field!(PointFix::TwoTapes.tape_a_m), *tape_a_m),
            (field!(PointFix::TwoTapes.tape_b_m), *tape_b_m),
        ],
        PointFix::ThreeTapes { tape_a_m, tape_b_m, tape_c_m, .. } => &[
            (field!(PointFix::ThreeTapes.tape_a_m), *tape_a_m),
            (field!(PointFix::ThreeTapes.tape_b_m), *tape_b_m),
            (field!(PointFix::ThreeTapes.tape_c_m), *tape_c_m),
        ],
        PointFix::Offset { along_m, off_m, .. } => {
            &[(field!(PointFix::Offset.along_m), *along_m), (field!(PointFix::Offset.off_m), *off_m)]
        }
    };
    for (field, tape_m) in tapes {
        check_tape(*tape_m, format_args!("{path}/{field}"), &mut errors);
    }
    let mut within = |field: &str, value: f64, most: f64, unit: &str| {
        if !(-most..=most).contains(&value) {
            let allowed = format!("from -{most}{unit} to {most}{unit}");
            errors.push(FieldError::new(format!("{path}/{field}"), format!("{value}{unit}"), allowed));
        }
    };
    match fix {
        PointFix::Coordinates { east_m, north_m } => {
            within(field!(PointFix::Coordinates.east_m), *east_m, FARTHEST_COORDINATE_M, " m");
            within(field!(PointFix::Coordinates.north_m), *north_m, FARTHEST_COORDINATE_M, " m");
        }
        PointFix::NextCorner { turn_deg, .. } => {
            within(field!(PointFix::NextCorner.turn_deg), *turn_deg, 180.0, "°")
        }
        PointFix::SlopeTape { vertical_deg, bearing_deg, .. } => {
            within(field!(PointFix::SlopeTape.vertical_deg), *vertical_deg, STEEPEST_TAPE_DEG, "°");
            let field = field!(PointFix::SlopeTape.bearing_deg);
            check_bearing(*bearing_deg, format_args!("{path}/{field}"), &mut errors);
        }
        PointFix::BearingTape { bearing_deg, .. } => {
            let field = field!(PointFix::BearingTape.bearing_deg);
            check_bearing(*bearing_deg, format_args!("{path}/{field}"), &mut errors);
        }
        _ => {}
    }
    errors
}

/// Two tapes that nobody has given a side.
pub(super) fn no_side(path: &str, from_a: &str, from_b: &str) -> FieldError {
    let allowed = format!("left or right, walking from {from_a} to {from_b}: two places fit these tapes");
    FieldError::new(pointer!(in path, PointFix::TwoTapes.side), "nothing", allowed)
}

/// A mark that waits for its side to be named.
pub(super) fn open_mark(path: &str, field: &str, id: &str) -> FieldError {
    let given = format!("{id}, of which nobody has said yet on which side it lies");
    FieldError::new(
        format!("{path}/{field}"),
        given,
        "a mark that is placed: say first whether it lies left or right",
    )
}

/// A next corner without two corners before it.
pub(super) fn lost_corner(path: &str) -> FieldError {
    FieldError::new(
        path,
        "a corner found from the two before it",
        "two corners of this outline before it, both found",
    )
}

/// Whether two pointers are of one list.
pub(super) fn same_list(a: &str, b: &str) -> bool {
    let list = |path: &str| path.rsplit_once('/').map(|(list, _)| list.to_owned());
    list(a) == list(b)
}

pub(super) fn misplaced_origin(path: &str) -> FieldError {
    FieldError::new(path, "origin", "any other way to fix a point: only the first mark is the origin")
}

fn index_marks(yard: &Yard, errors: &mut Vec<FieldError>) -> BTreeMap<String, usize> {
    let mut index = BTreeMap::new();
    if yard.marks.is_empty() {
        errors.push(FieldError::new(pointer!(yard.marks), "none", "at least one mark, the origin"));
    }
    for (number, mark) in yard.marks.iter().enumerate() {
        if index.contains_key(&mark.id) {
            errors.push(FieldError::new(
                pointer!(yard.marks[number].id),
                mark.id.clone(),
                "an id that no other mark has",
            ));
        } else {
            index.insert(mark.id.clone(), number);
        }
    }
    index
}

fn check_origin(yard: &Yard, errors: &mut Vec<FieldError>) {
    for (number, mark) in yard.marks.iter().enumerate() {
        let path = pointer!(yard.marks[number].at);
        match (number, matches!(mark.at, PointFix::Origin)) {
            (0, false) => errors.push(FieldError::new(
                path,
                how_fixed(&mark.at),
                "origin: the first mark is where the site's coordinates start",
            )),
            (1.., true) => errors.push(misplaced_origin(&path)),
            _ => {}
        }
    }
}

fn how_fixed(fix: &PointFix) -> &'static str {
    match fix {
        PointFix::Origin => "origin",
        PointFix::Coordinates { .. } => "coordinates",
        PointFix::BearingTape { .. } => "a bearing and a tape",
        PointFix::TwoTapes { .. } => "two tapes",
        PointFix::ThreeTapes { .. } => "three tapes",
        PointFix::Offset { .. } => "a line and an offset",
        PointFix::SlopeTape { .. } => "a bearing and a sloping tape",
        PointFix::NextCorner { .. } => "the corners before it",
    }
}

/// Two marks on one spot give no direction to measure by.
fn check_apart(fix: &PointFix, path: &str) -> Option<FieldError> {
    let zero = |field: &str| {
        Some(FieldError::new(format!("{path}/{field}"), "0", "more than 0: two marks can't share a spot"))
    };
    match fix {
        PointFix::BearingTape { tape_m, .. } | PointFix::SlopeTape { tape_m, .. } if *tape_m == 0.0 => {
            zero(field!(PointFix::BearingTape.tape_m))
        }
        PointFix::TwoTapes { tape_a_m, .. } | PointFix::ThreeTapes { tape_a_m, .. } if *tape_a_m == 0.0 => {
            zero(field!(PointFix::TwoTapes.tape_a_m))
        }
        PointFix::TwoTapes { tape_b_m, .. } | PointFix::ThreeTapes { tape_b_m, .. } if *tape_b_m == 0.0 => {
            zero(field!(PointFix::TwoTapes.tape_b_m))
        }
        PointFix::ThreeTapes { tape_c_m, .. } if *tape_c_m == 0.0 => {
            zero(field!(PointFix::ThreeTapes.tape_c_m))
        }
        PointFix::Offset { along_m, off_m, .. } if *along_m == 0.0 && *off_m == 0.0 => {
            zero(field!(PointFix::Offset.along_m))
        }
        PointFix::NextCorner { .. } => Some(lost_corner(path)),
        _ => None,
    }
}

/// Whether following a mark's starts leads back to it.
fn check_circle(yard: &Yard, mark: usize, path: &str, index: &BTreeMap<String, usize>) -> Option<FieldError> {
    let next = |mark: usize| {
        let starts = yard.marks[mark].at.starts();
        starts.into_iter().filter_map(|(_, id)| index.get(id).copied()).collect::<Vec<usize>>()
    };
    let mut seen = vec![false; yard.marks.len()];
    let mut to_visit = next(mark);
    if to_visit.contains(&mark) {
        return Some(FieldError::new(path, format!("{} from itself", yard.marks[mark].id), "other marks"));
    }
    while let Some(start) = to_visit.pop() {
        if start == mark {
            let given = format!("{} from marks that are fixed from it", yard.marks[mark].id);
            return Some(FieldError::new(path, given, "marks that can be found without this one"));
        }
        if !std::mem::replace(&mut seen[start], true) {
            to_visit.extend(next(start));
        }
    }
    None
}

fn check_baseline(yard: &Yard, index: &BTreeMap<String, usize>, errors: &mut Vec<FieldError>) {
    let BearingReference::Baseline { from, to, bearing_deg } = &yard.bearings else { return };
    let [from_path, to_path, bearing_path] = [
        pointer!(yard.bearings as BearingReference::Baseline.from),
        pointer!(yard.bearings as BearingReference::Baseline.to),
        pointer!(yard.bearings as BearingReference::Baseline.bearing_deg),
    ];
    check_id(from, format_args!("{from_path}"), index, errors);
    check_id(to, format_args!("{to_path}"), index, errors);
    check_bearing(*bearing_deg, format_args!("{bearing_path}"), errors);
    if from == to {
        errors.push(FieldError::new(
            pointer!(yard.bearings as BearingReference::Baseline.to),
            to.clone(),
            "a second mark",
        ));
    }
}

fn check_measurement(
    measurement: &Measurement,
    path: &str,
    index: &BTreeMap<String, usize>,
    errors: &mut Vec<FieldError>,
) {
    let (from, to) = match measurement {
        // What is struck out is not used, so it can't be in the way either.
        Measurement::Tape { struck: true, .. } | Measurement::Bearing { struck: true, .. } => return,
        Measurement::Tape { from, to, tape_m, .. } => {
            let tape_path = pointer!(in path, Measurement::Tape.tape_m);
            check_tape(*tape_m, format_args!("{tape_path}"), errors);
            if *tape_m == 0.0 {
                errors.push(FieldError::new(tape_path, "0", "more than 0"));
            }
            (from, to)
        }
        Measurement::Bearing { from, to, bearing_deg, .. } => {
            let field = field!(Measurement::Bearing.bearing_deg);
            check_bearing(*bearing_deg, format_args!("{path}/{field}"), errors);
            (from, to)
        }
    };
    check_id(from, format_args!("{path}/{}", field!(Measurement::Tape.from)), index, errors);
    check_id(to, format_args!("{path}/{}", field!(Measurement::Tape.to)), index, errors);
    if from == to {
        errors.push(FieldError::new(pointer!(in path, Measurement::Tape.to), to.clone(), "a second mark"));
    }
}

// Points of the yard are checked at every step of a finger: their pointers are spelt out only where something is wrong.

fn check_id(id: &str, path: Arguments, index: &BTreeMap<String, usize>, errors: &mut Vec<FieldError>) {
    if !index.contains_key(id) {
        let known: Vec<&str> = index.keys().take(12).map(String::as_str).collect();
        let more = if index.len() > known.len() { ", …" } else { "" };
        let allowed = format!("the id of a mark: {}{more}", known.join(", "));
        let given: String = id.chars().take(40).collect();
        errors.push(FieldError::new(path.to_string(), given, allowed));
    }
}

fn check_tape(tape_m: f64, path: Arguments, errors: &mut Vec<FieldError>) {
    if !(0.0..=LONGEST_TAPE_M).contains(&tape_m) {
        errors.push(FieldError::new(
            path.to_string(),
            format!("{tape_m} m"),
            format!("from 0 m to {LONGEST_TAPE_M} m"),
        ));
    }
}

fn check_bearing(bearing_deg: f64, path: Arguments, errors: &mut Vec<FieldError>) {
    if !(0.0..=360.0).contains(&bearing_deg) {
        errors.push(FieldError::new(path.to_string(), format!("{bearing_deg}°"), "from 0° to 360°"));
    }
}
