//! The yard with every point found.

use crate::job::{BarrierKind, Located as LocatedBy, PathUse, ServiceKind};
use crate::quantity::UnitSystem;
use crate::quantity::bearing::unit;
use crate::survey::PlacedMark;

/// The yard with every point found: what clearances are measured to and what the map shows.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct PlacedYard {
    /// In which habits are round and remedies are said.
    pub system: UnitSystem,
    /// Outline that the work stays within, anticlockwise, not closed.
    pub boundary: Option<Vec<[f64; 2]>>,
    /// Largest standard uncertainty of the boundary's corners in plan.
    pub boundary_sigma_m: f64,
    pub obstacles: Vec<PlacedObstacle>,
    pub overhead_lines: Vec<PlacedOverheadLine>,
    pub buried_services: Vec<PlacedBuriedService>,
    /// Marks: id, name, east/north/ground.
    pub marks: Vec<PlacedMark>,
    pub spot_heights: Vec<PlacedSpot>,
    /// What was asked about further lines.
    pub asked: super::asked::Asked,
}

#[derive(Debug, Clone, PartialEq)]
pub struct PlacedSpot {
    pub id: String,
    pub at: [f64; 2],
    pub height_m: f64,
}

/// An obstacle with its points found.
#[derive(Debug, Clone, PartialEq)]
pub struct PlacedObstacle {
    pub id: String,
    pub name: String,
    /// Given by the user, or the habit of its kind.
    pub keep_off_m: f64,
    pub shape: PlacedShape,
    /// Largest standard uncertainty of its points in plan.
    pub sigma_m: f64,
    /// Standard uncertainty of its height, as it was sighted.
    pub height_sigma_m: f64,
}

/// Outlines are anticlockwise and not closed. `height_m` is what the user entered, `*_z` are levels in the site frame,
/// from which clearances are taken.
#[derive(Debug, Clone, PartialEq)]
pub enum PlacedShape {
    Tree {
        at: [f64; 2],
        trunk_radius_m: f64,
        crown_radius_m: f64,
        crown_base_m: f64,
        height_m: f64,
        /// Over the lowest ground under its crown.
        crown_base_z: f64,
        /// Over the highest ground under its crown.
        top_z: f64,
    },
    Building {
        outline: Vec<[f64; 2]>,
        height_m: f64,
        /// Lowest and highest ground within its outline.
        ground_z: [f64; 2],
        /// Its height above the highest ground within its outline: never underestimated, wherever the height was
        /// measured.
        top_z: f64,
    },
    Barrier {
        what: BarrierKind,
        line: Vec<[f64; 2]>,
        thickness_m: f64,
        /// Above the ground under it, all along.
        height_m: f64,
        /// The highest level that its top reaches anywhere along the line.
        top_z: f64,
    },
    Post {
        at: [f64; 2],
        radius_m: f64,
        height_m: f64,
        /// Over the highest ground that it stands on.
        top_z: f64,
    },
    /// `outline` is the line widened to the path's width, with flat ends.
    Path {
        used_by: PathUse,
        line: Vec<[f64; 2]>,
        width_m: f64,
        outline: Vec<[f64; 2]>,
        headroom_m: f64,
    },
    KeepOff {
        outline: Vec<[f64; 2]>,
    },
}

impl PlacedShape {
    /// Places that its height is measured from: corners, points of a line, the middle and the rim of what is round.
    /// None where nothing stands up.
    pub fn stands_on(&self) -> Vec<[f64; 2]> {
        match self {
            Self::Tree { at, trunk_radius_m, crown_radius_m, .. } => {
                round(*at, trunk_radius_m.max(*crown_radius_m))
            }
            Self::Post { at, radius_m, .. } => round(*at, *radius_m),
            Self::Building { outline, .. } => outline.clone(),
            Self::Barrier { line, .. } => line.clone(),
            Self::Path { .. } | Self::KeepOff { .. } => Vec::new(),
        }
    }
}

fn round(middle: [f64; 2], radius_m: f64) -> Vec<[f64; 2]> {
    let rim = (0..12).map(|i| unit(30.0 * f64::from(i)).map(|way| radius_m * way));
    let rim = rim.map(|[east, north]| [middle[0] + east, middle[1] + north]);
    std::iter::once(middle).chain(rim).collect()
}

#[derive(Debug, Clone, PartialEq)]
pub struct PlacedOverheadLine {
    pub id: String,
    pub name: String,
    pub voltage_kv: Option<f64>,
    /// Supports: the lowest wire's point at each.
    pub supports: Vec<[f64; 3]>,
    /// The lowest wire as a chain of points, sag included.
    pub wire: Vec<[f64; 3]>,
    /// How far from there the wind swings it at the most.
    pub sway_m: f64,
    pub height_sigma_m: f64,
    pub sigma_m: f64,
}

#[derive(Debug, Clone, PartialEq)]
pub struct PlacedBuriedService {
    pub id: String,
    pub name: String,
    pub carries: ServiceKind,
    pub located: LocatedBy,
    pub line: Vec<[f64; 2]>,
    pub width_m: f64,
    /// Given by the user, or the habit.
    pub tolerance_m: f64,
    /// No local rule was entered: the habit's distance is kept.
    pub rule_of_thumb: bool,
    pub sigma_m: f64,
}
