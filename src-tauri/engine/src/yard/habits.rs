//! The habits that hold where the user gives no distance of his own: one small table, each with its source.

use crate::job::{PathUse, Shape};
use crate::source::SourceKey;

/// A distance with the place it comes from.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Habit {
    pub distance_m: f64,
    pub source: SourceKey,
}

const fn habit(distance_m: f64, source: SourceKey) -> Habit {
    Habit { distance_m, source }
}

/// A crown moves in the wind and a rope chafes on bark; roots thicken near the trunk. Common practice.
pub const TREE: Habit = habit(0.5, SourceKey::CommonPractice);
/// A rope that swings must not beat on a gutter or a roof. Common practice.
pub const BUILDING: Habit = habit(0.5, SourceKey::CommonPractice);
/// Walls, fences, hedges. Common practice.
pub const BARRIER: Habit = habit(0.3, SourceKey::CommonPractice);
/// Lamp posts, flagpoles, play frames. Common practice.
pub const POST: Habit = habit(0.3, SourceKey::CommonPractice);
/// Anchors and stakes from the edge of a way: a foot or a wheel strays a little. Common practice.
pub const PATH: Habit = habit(0.3, SourceKey::CommonPractice);
/// The user drew the area itself: nothing is added.
pub const KEEP_OFF: Habit = habit(0.0, SourceKey::CommonPractice);

/// 80 in: 2010 ADA Standards 307.4, from memory.
pub const HEADROOM_FOOT: Habit = habit(2.03, SourceKey::AdaHeadroom);
/// 4.50 m: RASt 06 (Germany), clearance profile of motor traffic, from memory. The fire-lane minimum of
/// IFC 503.2.1, 13 ft 6 in = 4.11 m (from memory), lies below it.
pub const HEADROOM_VEHICLES: Habit = habit(4.5, SourceKey::VehicleHeadroom);

/// 24 in from the outside edge, each side: of the states read 18 in hold in Colorado, New Mexico, Ohio, South Dakota and
/// Wisconsin, 24 in in California, Indiana, Minnesota and North Dakota, and 48 in in Michigan (utilities' pages). A yard
/// does not say in which state it lies, so that a finding names the larger one until a distance is entered.
pub const BURIED_TOLERANCE: Habit = habit(24.0 * 0.0254, SourceKey::CgaTolerance);

/// How far the work keeps from an obstacle of this kind.
pub fn keep_off(shape: &Shape) -> Habit {
    match shape {
        Shape::Tree { .. } => TREE,
        Shape::Building { .. } => BUILDING,
        Shape::Barrier { .. } => BARRIER,
        Shape::Post { .. } => POST,
        Shape::Path { .. } => PATH,
        Shape::KeepOff { .. } => KEEP_OFF,
    }
}

/// How high a rope over a way passes at least.
pub fn headroom(used_by: PathUse) -> Habit {
    match used_by {
        PathUse::Foot => HEADROOM_FOOT,
        PathUse::Vehicles => HEADROOM_VEHICLES,
    }
}
