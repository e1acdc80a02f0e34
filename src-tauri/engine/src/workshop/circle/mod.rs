//! The two circles of the strands: holes round the topper, the ring round the foot; and whether strands as they are sold fit
//! between them. [`circles()`] gathers it of a job as planned.

pub mod bend;
pub mod bracket;
pub mod holes;
pub mod ring;
pub mod stiff;
pub mod strand_fit;
pub mod topper;

use serde::Serialize;

use crate::job::{Job, RingPipe, RingStuff, Strands};
use crate::plan::{Computed, RingResult};
use crate::quantity::UnitSystem;
use crate::round_figures::shop;
use crate::source::SourceKey;
use crate::workshop::shopping::ring_length_m;
use bracket::RingBracket;
use holes::{HoleCircle, HolesError};
use ring::RingError;
use stiff::{BentPipe, RingStiffness};
use strand_fit::{ConeToFit, Fits, Spare, StrandLengths, fits, spare};
use topper::TopperBuild;

/// All of it; each none without strands.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct Circles {
    /// None where the strands hang from one point.
    pub topper: Option<TopperHoles>,
    /// None where nobody has said that the topper is of discs.
    pub discs: Option<TopperBuild>,
    pub ring: Option<RingWork>,
    /// From each leg of the base that the ring passes.
    pub brackets: Vec<RingBracket>,
    /// None where nobody has said how the strands are sold.
    pub strands: Option<StrandWork>,
}

/// Holes round the topper.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct TopperHoles {
    pub radius_mm: f64,
    pub count: u32,
    /// How often the dividers are set on: once more than it, the first hole is met again on a whole circle.
    pub steps: u32,
    pub step_deg: f64,
    pub divider_mm: f64,
    /// From the first hole, clockwise.
    pub angles_deg: Vec<f64>,
    /// None where nobody has said how thick the strands are at their hook.
    pub hole_mm: Option<f64>,
    pub trouble: Option<HolesTrouble>,
}

/// Holes that run into one another.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct HolesTrouble {
    pub left_mm: f64,
    pub least_mm: f64,
    /// Either of these works.
    pub radius_mm: f64,
    pub hole_mm: f64,
}

/// How the ring is bent and pieced together.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct RingWork {
    pub radius_m: f64,
    pub closed: bool,
    /// On the ground, up and down with it.
    pub length_m: f64,
    /// None where nobody has said what it is made of.
    pub pipe: Option<PipeWork>,
}

/// A ring of a pipe.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct PipeWork {
    /// None where a pipe is shorter than the way between supports, is too stiff to be bent so sharply, or what it hangs on is missing.
    pub pieces: Option<RingPiecesResult>,
    /// How many supports would do, where these are too few.
    pub supports_needed: Option<u32>,
    /// None while nobody has said how many supports there are.
    pub span_m: Option<f64>,
    pub bend: Bend,
    /// What the strands pull a support up with, in still air: by the tension that is set.
    pub tie_pull_n: Option<f64>,
    /// Bored through the supports for the pipe.
    pub bore_mm: Option<f64>,
    /// None where its wall or its stuff is not known.
    pub stiffness: Option<RingStiffness>,
    /// What nobody has measured or chosen yet.
    pub missing: Vec<PipeMissing>,
}

/// What is not known of the ring's pipe.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum PipeMissing {
    Outside,
    PipeLength,
    Supports,
    Wall,
}

/// Pieces with their joints on supports.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct RingPiecesResult {
    pub pieces_m: Vec<f64>,
    pub couplings: u32,
}

/// Whether the pipe bends to the ring.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(tag = "state", rename_all = "snake_case")]
pub enum Bend {
    /// No limit is known of such a pipe.
    NotKnown,
    Bends {
        least_radius_m: f64,
        source: SourceKey,
    },
    /// Straight pieces instead, from support to support.
    TooSharp {
        least_radius_m: f64,
        source: SourceKey,
        /// None while nobody has said how many supports there are.
        straight: Option<StraightPieces>,
    },
}

/// A ring of straight pieces.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct StraightPieces {
    pub pieces: u32,
    pub piece_m: f64,
    pub turn_deg: f64,
}

/// How strands as they are sold fit.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct StrandWork {
    /// Of each strand, in the order of the ring.
    pub spares: Vec<StrandSpare>,
    /// How many are dark somewhere on their way, and how many do not reach.
    pub dark: u32,
    pub short: u32,
    /// Height of the strands' top above the mast's foot at which the longest way is just lit, all else as it is.
    pub top_height_m: Option<f64>,
    pub ring_radius_m: Option<f64>,
    /// How far the ring leans with the ground.
    pub lean_deg: f64,
    pub most_lean_deg: Option<f64>,
    pub all_lit_lean_deg: Option<f64>,
}

/// What one strand has over.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct StrandSpare {
    pub way_m: f64,
    /// Below nothing: so much of its way is dark.
    pub lit_over_m: f64,
    /// Below nothing: so much it lacks.
    pub reach_over_m: f64,
}

/// Gathers it.
pub fn circles(job: &Job, computed: &Computed) -> Circles {
    let (Some(strands), Some(plan)) = (&job.rig.strands, &computed.plan.ring) else {
        return Circles { topper: None, discs: None, ring: None, brackets: Vec::new(), strands: None };
    };
    let ring = ring_work(job, computed, strands, plan);
    let pull_n = ring.pipe.as_ref().and_then(|pipe| pipe.tie_pull_n);
    Circles {
        topper: topper_holes(job, strands, plan),
        discs: topper::discs(job, computed, plan, &hole_circle(job, strands, plan)),
        brackets: bracket::brackets(job, computed, plan, pull_n),
        ring: Some(ring),
        strands: strand_work(job, computed, strands, plan),
    }
}

/// The circle of holes that a job asks for.
pub fn hole_circle(job: &Job, strands: &Strands, plan: &RingResult) -> HoleCircle {
    HoleCircle {
        radius_mm: 1000.0 * plan.top_radius_m,
        count: u32::from(strands.count),
        sweep_deg: strands.sweep_deg,
        hole_mm: job.workshop.topper_hole_mm.unwrap_or(0.0),
    }
}

fn topper_holes(job: &Job, strands: &Strands, plan: &RingResult) -> Option<TopperHoles> {
    let circle = hole_circle(job, strands, plan);
    let trouble = match circle.check() {
        Err(HolesError::NoHoles) => return None,
        Err(HolesError::TooClose { left_mm, least_mm, radius_mm, hole_mm }) => {
            Some(HolesTrouble { left_mm, least_mm, radius_mm, hole_mm })
        }
        Ok(()) => None,
    };
    Some(TopperHoles {
        radius_mm: circle.radius_mm,
        count: circle.count,
        steps: circle.steps(),
        step_deg: circle.step_deg(),
        divider_mm: circle.divider_mm(),
        angles_deg: circle.holes().into_iter().map(|(angle_deg, _)| angle_deg).collect(),
        hole_mm: job.workshop.topper_hole_mm,
        trouble,
    })
}

fn ring_work(job: &Job, computed: &Computed, strands: &Strands, plan: &RingResult) -> RingWork {
    let length_m = ring_length_m(job, computed).unwrap_or(0.0);
    let closed = strands.sweep_deg >= 360.0;
    RingWork {
        radius_m: plan.radius_m,
        closed,
        length_m,
        pipe: job
            .workshop
            .ring
            .as_ref()
            .map(|pipe| pipe_work(pipe, strands, plan, (length_m, closed), job.units.system)),
    }
}

/// What each support is pulled up with: the strands' pull, as tight as they are set, shared by all; none where nobody has said how many.
pub fn tie_pull_n(pipe: &RingPipe, strands: &Strands, plan: &RingResult) -> Option<f64> {
    Some(upward_pull_n(strands, plan) / f64::from(pipe.supports?.max(1)))
}

/// What all strands together pull the ring up with: each its tension by the rise over its length.
fn upward_pull_n(strands: &Strands, plan: &RingResult) -> f64 {
    let up =
        |((top, low), way): ((&[f64; 3], &[f64; 3]), &f64)| strands.cord.tension_n * (top[2] - low[2]) / way;
    plan.tops.iter().zip(&plan.points).zip(&plan.strand_lengths_m).map(up).sum()
}

fn pipe_work(
    pipe: &RingPipe,
    strands: &Strands,
    plan: &RingResult,
    (length_m, closed): (f64, bool),
    system: UnitSystem,
) -> PipeWork {
    let supports = pipe.supports.map(u32::from);
    let spans = pipe.supports.map(|supports| spans(supports, closed));
    let pieces = supports.zip(pipe.pipe_m).map(|(all, pipe_m)| ring::pieces(length_m, closed, all, pipe_m));
    let bend = ring_bend(pipe, strands, plan);
    let supports_needed = match &pieces {
        Some(Err(RingError::SpanTooLong { supports, .. })) => Some(*supports),
        _ => None,
    };
    let pulls = upward_pull_n(strands, plan);
    let span_m = spans.map(|spans| length_m / f64::from(spans));
    let bent = pipe
        .outside_mm
        .zip(pipe.wall_mm)
        .and_then(|(outside_mm, wall_mm)| BentPipe::of(pipe.stuff, outside_mm, wall_mm));
    let round = RoundTheRing { length_m, radius_m: plan.radius_m, closed, stuff: pipe.stuff, pulls_n: pulls };
    PipeWork {
        bore_mm: pipe.outside_mm.map(|outside_mm| outside_mm + shop::BORED_PLAY.of(system)),
        stiffness: bent
            .zip(span_m)
            .map(|(bent, span_m)| round.stiffness(&bent, span_m, shop::RING_GIVES.of(system))),
        pieces: pieces
            .and_then(Result::ok)
            .filter(|_| !matches!(bend, Bend::TooSharp { .. }))
            .map(|it| RingPiecesResult { pieces_m: it.pieces_m, couplings: it.couplings }),
        supports_needed,
        span_m,
        bend,
        tie_pull_n: tie_pull_n(pipe, strands, plan),
        missing: not_measured(pipe),
    }
}

fn not_measured(pipe: &RingPipe) -> Vec<PipeMissing> {
    let open = [
        (pipe.outside_mm.is_none(), PipeMissing::Outside),
        (pipe.pipe_m.is_none(), PipeMissing::PipeLength),
        (pipe.supports.is_none(), PipeMissing::Supports),
        (pipe.wall_mm.is_none(), PipeMissing::Wall),
    ];
    open.into_iter().filter(|(open, _)| *open).map(|(_, what)| what).collect()
}

/// The ring as its pipe feels it.
struct RoundTheRing {
    length_m: f64,
    radius_m: f64,
    closed: bool,
    stuff: RingStuff,
    /// All strands up, in still air.
    pulls_n: f64,
}

impl RoundTheRing {
    fn stiffness(&self, bent: &BentPipe, span_m: f64, gives_mm: f64) -> RingStiffness {
        let weight = bent.weight_n_per_m();
        // Slack strands leave it its weight, taut ones draw it up.
        let load = weight.max(self.pulls_n / self.length_m.max(1e-9) - weight);
        let apart_m = bent.span_m(load, gives_mm / 1000.0);
        let spans = (self.length_m / apart_m - 1e-9).ceil().max(1.0) as u32;
        // Steel goes past its yield at such a bend, which is what a bender is for: only plastic is held in shape.
        let held = self.stuff == RingStuff::Pvc;
        let spring_nm = held.then(|| bent.stiffness_nm2() / self.radius_m.max(1e-9));
        RingStiffness {
            sag_mm: 1000.0 * bent.sag_m(load, span_m),
            most_mm: gives_mm,
            apart_m,
            supports: if self.closed { spans.max(2) } else { spans + 1 },
            spring_nm,
            spring_n: spring_nm.map(|spring_nm| spring_nm / span_m.max(1e-9)),
        }
    }
}

/// From support to support: how many ways round the ring, at least one.
fn spans(supports: u16, closed: bool) -> u32 {
    let all = u32::from(supports);
    if closed { all } else { all.saturating_sub(1) }.max(1)
}

/// Whether the pipe bends to the ring. Straight pieces from support to support where that is too sharp, as long as somebody has said how
/// many there are.
pub fn ring_bend(pipe: &RingPipe, strands: &Strands, plan: &RingResult) -> Bend {
    let least = pipe.outside_mm.and_then(|outside_mm| bend::least_radius(pipe.stuff, outside_mm));
    let Some(least) = least else { return Bend::NotKnown };
    let (radius_m, least_radius_m, source) = (plan.radius_m, least.radius_m, least.source);
    if radius_m >= least_radius_m {
        return Bend::Bends { least_radius_m, source };
    }
    let closed = strands.sweep_deg >= 360.0;
    let straight = pipe.supports.map(|supports| {
        let pieces = spans(supports, closed).max(if closed { 3 } else { 1 });
        let (piece_m, turn_deg) = ring::straight_pieces(radius_m, pieces, strands.sweep_deg);
        StraightPieces { pieces, piece_m, turn_deg }
    });
    Bend::TooSharp { least_radius_m, source, straight }
}

fn strand_work(job: &Job, computed: &Computed, strands: &Strands, plan: &RingResult) -> Option<StrandWork> {
    let sold = StrandLengths::of(&job.workshop.strand?)?;
    let spares: Vec<Spare> = plan.strand_lengths_m.iter().map(|&way_m| spare(&sold, way_m)).collect();
    let counted = |is: fn(&Spare) -> bool| spares.iter().filter(|it| is(it)).count() as u32;
    let middle_m = plan.points.iter().map(|point| point[2]).sum::<f64>() / plan.points.len().max(1) as f64;
    let top_m = plan.tops.first().map_or(0.0, |top| top[2]);
    let [east, north] = computed.ground.plane.gradient;
    let cone = ConeToFit {
        height_m: top_m - middle_m,
        top_radius_m: plan.top_radius_m,
        ring_radius_m: plan.radius_m,
        lean_deg: crate::numerics::real::atan_deg(crate::numerics::real::hypot(east, north)),
    };
    let Fits { height_m, ring_radius_m, most_lean_deg, all_lit_lean_deg } = fits(&cone, &sold);
    Some(StrandWork {
        dark: counted(|it| it.lit_over_m < 0.0),
        short: counted(|it| it.reach_over_m < 0.0),
        top_height_m: height_m.map(|height_m| strands.top_height_m + height_m - cone.height_m),
        ring_radius_m,
        lean_deg: cone.lean_deg,
        most_lean_deg,
        all_lit_lean_deg,
        spares: spares
            .into_iter()
            .map(|it| StrandSpare {
                way_m: it.way_m,
                lit_over_m: it.lit_over_m,
                reach_over_m: it.reach_over_m,
            })
            .collect(),
    })
}
