//! Points that are open: two tapes fit two places, and nobody has said yet on which side it is.

use super::fix::follow;
use super::{Positions, references};
use crate::job::{PointFix, Side};

impl Positions {
    /// Whether a point can't be placed until a side is named: its own, or that of a mark or corner it starts from.
    pub fn is_open(&self, fix: &PointFix, path: &str) -> bool {
        match fix {
            PointFix::TwoTapes { side: None, .. } => true,
            PointFix::NextCorner { .. } => self.open_corners.contains(path),
            _ => fix.starts().iter().any(|(_, id)| self.is_open_mark(id)),
        }
    }

    /// Whether a mark could not be placed for want of a side.
    pub(super) fn is_open_mark(&self, id: &str) -> bool {
        self.index.get(id).is_some_and(|mark| self.open_marks.contains(mark))
    }

    /// The two places that fit a pair of tapes without a side: left, right. None for other fixes, for tapes that do
    /// not meet, and where a mark that they start from is open itself.
    pub fn candidates(&self, fix: &PointFix, path: &str) -> Option<[[f64; 2]; 2]> {
        let PointFix::TwoTapes { side: None, from_a, tape_a_m, from_b, tape_b_m } = fix else { return None };
        if [from_a, from_b].iter().any(|id| self.is_open_mark(id)) {
            return None;
        }
        let on = |side: Side| {
            let sided = PointFix::TwoTapes {
                from_a: from_a.clone(),
                tape_a_m: *tape_a_m,
                from_b: from_b.clone(),
                tape_b_m: *tape_b_m,
                side: Some(side),
            };
            references::check_fix(&sided, path, &self.index).is_empty().then_some(())?;
            follow(self, &sided, path).ok().map(|followed| followed.at)
        };
        Some([on(Side::Left)?, on(Side::Right)?])
    }
}
