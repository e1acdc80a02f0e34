//! What there is to see, wherever one stands: taken from the plan once.

mod ground_mesh;
mod of_work;
mod of_yard;
mod pieces;

use super::camera::P3;
use super::results::{HeightOf, ThingKind};
use super::seen::{FaceKind, LineKind};
use crate::finding::Subject;
use crate::ground::Ground;
use crate::job::Job;
use crate::plan::Computed;

pub(super) use ground_mesh::GroundFacet;

/// The yard with the work in it, as solids, lines and ground.
#[derive(Debug, Clone)]
pub struct YardToSee {
    pub(super) ground: Ground,
    pub(super) things: Vec<Thing>,
    pub(super) bodies: Vec<Body>,
    pub(super) lines: Vec<Line>,
    /// Parts of the ground that may hide what is behind them.
    pub(super) rises: Vec<GroundFacet>,
    pub(super) topper: Option<Topper>,
}

/// Something with a name.
#[derive(Debug, Clone)]
pub(super) struct Thing {
    pub subject: Subject,
    pub kind: ThingKind,
    pub name: String,
    pub height: HeightOf,
    /// What it takes up in plan, for how far off it is.
    pub footprint: Vec<[f64; 2]>,
    /// Whether that is an outline.
    pub closed: bool,
    pub radius_m: f64,
    /// Its upper end, over its middle.
    pub top: P3,
    /// Where its name stands.
    pub label: P3,
}

/// What hides what is behind it.
#[derive(Debug, Clone)]
pub(super) struct Body {
    pub thing: usize,
    pub kind: FaceKind,
    pub shape: BodyShape,
}

#[derive(Debug, Clone)]
pub(super) enum BodyShape {
    /// Upright over a convex outline, anticlockwise.
    Block { outline: Vec<[f64; 2]>, foot_z: f64, top_z: f64, sides: Vec<Side> },
    /// A thin upright cylinder.
    Stem { at: [f64; 2], radius_m: f64, foot_z: f64, top_z: f64 },
    /// A tree's crown: the egg that fits the cylinder which clearances are taken from.
    Egg { middle: P3, radius_m: f64, half_height_m: f64 },
}

/// A side of a block, from one corner to the next.
#[derive(Debug, Clone)]
pub(super) struct Side {
    /// Along the ground; none where it is no side of the thing, but a cut through it.
    pub foot: Vec<P3>,
    /// Whether the upright edge at its first corner is drawn.
    pub has_edge: bool,
    /// Whether its foot and its upper edge are.
    pub is_drawn: bool,
}

#[derive(Debug, Clone)]
pub(super) struct Line {
    pub thing: Option<usize>,
    pub kind: LineKind,
    pub points: Vec<P3>,
}

/// What stands on the mast.
#[derive(Debug, Clone)]
pub(super) struct Topper {
    pub middle: P3,
    pub half_width_m: f64,
    pub half_height_m: f64,
    pub thing: usize,
}

impl YardToSee {
    /// All that the plan knows the place of.
    pub fn of(job: &Job, computed: &Computed) -> Self {
        let mut yard = Self {
            ground: computed.ground.clone(),
            things: Vec::new(),
            bodies: Vec::new(),
            lines: Vec::new(),
            rises: Vec::new(),
            topper: None,
        };
        of_work::put(&mut yard, job, computed);
        of_yard::put(&mut yard, &computed.yard);
        ground_mesh::put(&mut yard, computed.yard.system);
        yard
    }

    fn thing(&mut self, thing: Thing) -> usize {
        self.things.push(thing);
        self.things.len() - 1
    }

    fn line(&mut self, thing: usize, kind: LineKind, points: Vec<P3>) {
        self.lines.push(Line { thing: Some(thing), kind, points });
    }
}
