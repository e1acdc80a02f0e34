//! Ropes and strands whose lower ends nobody holds trail on the ground while the mast lies and goes up: how they lie there
//! nobody can work out, so whatever lies within their reach is named.

use super::body::{NearestOnWay, StiffPiece, nearest_on_way};
use super::motion::TiltMotion;
use super::results::SweptPart;
use crate::finding::raising::{RaisingRemedy, RaisingRule};
use crate::finding::{Finding, Limit, Quantity, Severity, Subject};
use crate::ground::Ground;
use crate::ground::highest::{breaks_along, breaks_within};
use crate::numerics::vector::Vector;
use crate::yard::flat::Patch;
use crate::yard::solid::{BoundingBox, Solid, boxed};

/// What is fast at its upper end only.
pub(super) struct LooseEnd {
    pub part: SweptPart,
    pub subject: Subject,
    /// Its upper end, of the standing mast.
    pub top: Vector,
    pub long_m: f64,
}

impl LooseEnd {
    /// Where its upper end comes nearest to solids, as far as that is below `cut_m`.
    pub fn nearest(
        &self,
        turn: &TiltMotion,
        way: [f64; 2],
        solids: &[(Solid, BoundingBox)],
        cut_m: f64,
    ) -> Option<NearestOnWay> {
        let end = StiffPiece { part: self.part.clone(), ends: [self.top, self.top], radius_m: 0.0 };
        nearest_on_way(&end, turn, way, solids, cut_m)
    }
}

/// A thing that a rope can lie on or catch on, as high as it may be.
pub(super) struct ThingToCatch<'a> {
    pub name: &'a str,
    pub to: &'a Subject,
    pub solids: Vec<(Solid, BoundingBox)>,
}

/// Ground without a height of its own, up to the highest of it.
pub(super) fn as_solid(patch: &Patch, ground: &Ground) -> (Solid, BoundingBox) {
    let mut top_z = f64::NEG_INFINITY;
    let mut visit = |_: [f64; 2], height_m: f64| top_z = top_z.max(height_m);
    match patch {
        Patch::Strip { a, b, half_m } => {
            breaks_along(ground, *a, *b, &mut visit);
            boxed(Solid::Upright { a: *a, b: *b, radius_m: *half_m, z0: f64::NEG_INFINITY, z1: top_z })
        }
        Patch::Area(outline) => {
            breaks_within(ground, outline, &mut visit);
            boxed(Solid::Prism { outline: outline.clone(), top_z })
        }
    }
}

/// What trails, and what of the yard lies within its reach: no farther from its upper end, at any angle, than it is long. The
/// number is that of the thing that lies farthest within. A caution; where nothing lies within reach a note.
pub(super) fn on_ground(
    ends: &[LooseEnd],
    turn: &TiltMotion,
    way: [f64; 2],
    things: &[ThingToCatch],
) -> Option<Finding> {
    let first = ends.first()?;
    let each = things.iter().filter_map(|thing| {
        let near = ends.iter().filter_map(|end| {
            let near = end.nearest(turn, way, &thing.solids, end.long_m)?;
            Some((end, near.distance_m))
        });
        let (end, distance_m) = near.min_by(|a, b| (a.1 - a.0.long_m).total_cmp(&(b.1 - b.0.long_m)))?;
        Some((thing, end, distance_m))
    });
    let mut reached: Vec<(&ThingToCatch, &LooseEnd, f64)> = each.collect();
    reached.sort_by(|a, b| (a.2 - a.1.long_m).total_cmp(&(b.2 - b.1.long_m)));
    let rule = RaisingRule::TrailsOnGround {
        what: ends.iter().map(|end| end.part.clone()).collect(),
        within: reached.iter().map(|(thing, ..)| thing.name.to_owned()).collect(),
    };
    let length = |value: f64| Quantity::LengthM { value };
    let of = |severity, end: &LooseEnd| {
        Finding::rule_of_thumb(severity, rule.clone(), end.subject.clone(), RaisingRemedy::CoilAndTie)
    };
    Some(match reached.first() {
        None => of(Severity::Note, first),
        Some((thing, end, distance_m)) => Finding {
            against: Some(thing.to.clone()),
            measured: Some(length(*distance_m)),
            limit: Limit::at_least(length(end.long_m)),
            ..of(Severity::Caution, end)
        },
    })
}
