//! Outlines whose corners follow from one another along the walls.
//!
//! What others follow from shares its errors with them, so the corners of such an outline are points of the joint
//! state, found by their JSON pointers. All other points stand alone and are followed when they are asked for.

use super::{Positions, fix, references};
use crate::job::{PointFix, Yard};
use fix::{Followed, Start};

/// How many points the state holds beside the marks, at most.
pub(super) fn count(yard: &Yard) -> usize {
    yard.chains().iter().filter(|(_, chain)| follows_on(chain)).map(|(_, chain)| chain.len()).sum()
}

fn follows_on(chain: &[PointFix]) -> bool {
    chain.iter().any(|fix| matches!(fix, PointFix::NextCorner { .. }))
}

impl Positions {
    /// Puts the corners of such outlines into the state. One that can't be found is left out: it is refused where it
    /// is asked for.
    pub(super) fn follow_corners(&mut self, yard: &Yard) {
        for (list, chain) in yard.chains().into_iter().filter(|(_, chain)| follows_on(chain)) {
            let mut before: [Option<Start>; 2] = [None, None];
            for (number, corner) in chain.iter().enumerate() {
                let path = format!("{list}/{number}");
                let found = self.corner(corner, before, &path);
                before = [before[1], found.map(|followed| self.keep_corner(path, &followed))];
            }
        }
    }

    fn corner(&mut self, corner: &PointFix, before: [Option<Start>; 2], path: &str) -> Option<Followed> {
        let PointFix::NextCorner { turn, turn_deg, tape_m } = corner else {
            if self.is_open(corner, path) {
                self.open_corners.insert(path.to_owned());
            }
            return self.follow(corner, path).ok();
        };
        let [Some(first), Some(last)] = before else {
            // Left open by the corners before it, or after something that is refused by itself.
            if self.open_corners.iter().any(|open| references::same_list(open, path)) {
                self.open_corners.insert(path.to_owned());
            }
            return None;
        };
        let left_deg = fix::to_the_left(*turn, *turn_deg);
        let usable = references::check_fix(corner, path, &self.index).is_empty();
        usable
            .then(|| fix::square::next_corner(&self.readings, first, last, left_deg, *tape_m).ok())
            .flatten()
    }

    fn keep_corner(&mut self, path: String, followed: &Followed) -> Start {
        let point = self.ids.len() + self.corners.len();
        self.place(point, followed);
        self.corners.insert(path, point);
        self.start_at(point)
    }
}
