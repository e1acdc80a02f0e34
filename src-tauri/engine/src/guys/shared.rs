//! Guys that come down to one anchor: by one rule of distance both levels' anchors fall on one another.
//!
//! What two guys pull at one anchor adds up as vectors, and the anchor is pegged out once.

use crate::guys::GuyResult;
use crate::numerics::real::hypot;

/// Anchors nearer to each other than this are one: nobody sets two beside each other so close. Common practice.
pub const ONE_PEG_M: f64 = 0.03;

/// The guys of each anchor, by their places in the list; anchors in the order of their first guy.
pub fn anchors(guys: &[GuyResult]) -> Vec<Vec<usize>> {
    grouped(guys.len(), |a, b| match (guys.get(a), guys.get(b)) {
        (Some(a), Some(b)) => is_one(a, b),
        _ => false,
    })
}

/// Whether two guys come down to one anchor: both in the ground, or both on the same thing.
pub fn is_one(a: &GuyResult, b: &GuyResult) -> bool {
    let things = [a, b].map(|guy| guy.made_fast.as_ref().map(|it| &it.thing));
    apart_m(a, b) < ONE_PEG_M && things[0] == things[1]
}

/// How far apart two guys' anchors stand, in plan.
pub fn apart_m(a: &GuyResult, b: &GuyResult) -> f64 {
    hypot(a.east_m - b.east_m, a.north_m - b.north_m)
}

/// What is joined to anything of a group belongs to the group.
pub fn grouped(count: usize, joined: impl Fn(usize, usize) -> bool) -> Vec<Vec<usize>> {
    let mut groups: Vec<Vec<usize>> = Vec::new();
    for item in 0..count {
        let (with, mut others): (Vec<_>, Vec<_>) =
            groups.into_iter().partition(|group| group.iter().any(|&other| joined(other, item)));
        let mut group: Vec<usize> = with.into_iter().flatten().collect();
        group.push(item);
        group.sort_unstable();
        others.push(group);
        others.sort_unstable();
        groups = others;
    }
    groups
}

/// Notes at every guy which others share its anchor.
pub fn note(guys: &mut [GuyResult]) {
    for group in anchors(guys) {
        let ids: Vec<String> =
            group.iter().filter_map(|&place| guys.get(place)).map(|guy| guy.id.clone()).collect();
        for place in group {
            if let Some(guy) = guys.get_mut(place) {
                guy.shared_with = ids.iter().filter(|id| **id != guy.id).cloned().collect();
            }
        }
    }
}

/// The anchor's name by all its guys, such as `Upper 1 + Lower 1`.
pub fn name<'a>(guys: impl IntoIterator<Item = &'a GuyResult>) -> String {
    guys.into_iter().map(|guy| guy.name.as_str()).collect::<Vec<_>>().join(" + ")
}

impl GuyResult {
    /// Whether the anchor is told of at this guy: at the first of those that share it.
    pub fn tells_of_anchor(&self, all: &[GuyResult]) -> bool {
        let first = all.iter().find(|other| other.id == self.id || self.shared_with.contains(&other.id));
        first.is_none_or(|first| first.id == self.id)
    }

    /// The name of its anchor, with every guy on it.
    pub fn anchor_name(&self, all: &[GuyResult]) -> String {
        let here = |other: &&GuyResult| other.id == self.id || self.shared_with.contains(&other.id);
        let name = name(all.iter().filter(here));
        if name.is_empty() { self.name.clone() } else { name }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn groups_join_by_any_of_their_members() {
        // 0 and 2 are joined only by 4.
        let joined = |a: usize, b: usize| [(0, 4), (2, 4)].contains(&(a, b));
        assert_eq!(grouped(5, joined), [vec![0, 2, 4], vec![1], vec![3]]);
        assert!(grouped(0, joined).is_empty());
    }
}
