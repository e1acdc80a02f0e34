//! The layers of the staking map, one subject a file, from the ground up to what must not be missed.

pub(crate) mod as_built;
pub(crate) mod conflicts;
pub(crate) mod ground;
pub(crate) mod marks;
pub(crate) mod north_and_scale;
pub(crate) mod obstacles;
pub(crate) mod services;
pub(crate) mod ties;
pub(crate) mod work;

use crate::job::Job;
use crate::plan::Computed;
use crate::quantity::Units;

use super::labels::{WhereTo, Wish};
use super::scene::Role;
use crate::finding::Subject;

/// What every layer draws from.
pub(crate) struct View<'a> {
    pub(crate) job: &'a Job,
    pub(crate) computed: &'a Computed,
}

impl View<'_> {
    pub(crate) fn units(&self) -> Units {
        self.job.units
    }

    pub(crate) fn mast(&self) -> [f64; 2] {
        let mast = &self.computed.plan.mast;
        [mast.east_m, mast.north_m]
    }
}

/// Which labels go first: the work before the yard, the yard before the ground.
pub(crate) mod priority {
    pub(crate) const ANCHOR: u8 = 1;
    pub(crate) const MAST: u8 = 2;
    pub(crate) const MARK: u8 = 3;
    pub(crate) const TIE: u8 = 4;
    pub(crate) const OVERHEAD: u8 = 5;
    pub(crate) const BURIED: u8 = 6;
    pub(crate) const OBSTACLE: u8 = 7;
    pub(crate) const FALL_LINE: u8 = 8;
    pub(crate) const CIRCLE: u8 = 9;
    pub(crate) const FOOT: u8 = 10;
    pub(crate) const BOUNDARY: u8 = 11;
    pub(crate) const SPOT: u8 = 12;
    pub(crate) const CONTOUR: u8 = 13;
}

/// A quiet label that is dropped where there is no room.
pub(crate) fn quiet(
    lines: Vec<String>,
    subject: Option<Subject>,
    priority: u8,
    places: Vec<([f64; 2], f64)>,
) -> Wish {
    Wish { lines, role: Role::LabelQuiet, subject, priority, must: false, where_to: WhereTo::On { places } }
}

/// Places along a line for words that lie along it: the middle of each part, longest part first, set a
/// little aside so that the line does not strike the words through.
pub(crate) fn along_line(
    line: &[[f64; 2]],
    aside_m: f64,
    within: &super::scene::Bounds,
) -> Vec<([f64; 2], f64)> {
    use super::geometry::{clip, distance, reading_turn};
    let mut parts: Vec<[[f64; 2]; 2]> =
        line.windows(2).filter_map(|pair| clip(pair[0], pair[1], within)).collect();
    parts.sort_by(|a, b| distance(b[0], b[1]).total_cmp(&distance(a[0], a[1])));
    let mut places = Vec::new();
    for [a, b] in parts.into_iter().take(3) {
        let turn_deg = reading_turn(a, b);
        // Up, seen by the reader of the turned words.
        let up = crate::quantity::bearing::unit(turn_deg);
        for share in [0.5, 0.3, 0.7, 0.15, 0.85] {
            let on = [a[0] + (b[0] - a[0]) * share, a[1] + (b[1] - a[1]) * share];
            for side in [1.0, -1.0] {
                let at = [on[0] + up[0] * side * aside_m, on[1] + up[1] * side * aside_m];
                places.push((at, turn_deg));
            }
        }
    }
    places
}
