//! Which habit holds for which thing of the yard.

use crate::job::{PathUse, Shape};
use crate::round_figures::{RoundFigure, keep};

/// How far the work keeps from an obstacle of this kind.
pub fn keep_off(shape: &Shape) -> RoundFigure {
    match shape {
        Shape::Tree { .. } => keep::TREE,
        Shape::Building { .. } => keep::BUILDING,
        Shape::Barrier { .. } => keep::BARRIER,
        Shape::Post { .. } => keep::POST,
        Shape::Path { .. } => keep::PATH,
        Shape::KeepOff { .. } => keep::KEEP_OFF,
    }
}

/// How high a rope over a way passes at least.
pub fn headroom(used_by: PathUse) -> RoundFigure {
    match used_by {
        PathUse::Foot => keep::HEADROOM_FOOT,
        PathUse::Vehicles => keep::HEADROOM_VEHICLES,
    }
}
