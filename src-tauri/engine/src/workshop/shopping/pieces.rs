//! Everything that is cut, by what it is cut from: how long, how often.

use serde::Serialize;

use crate::job::{BasePattern, Job, RingStuff, Section};
use crate::numerics::real::tan_deg;
use crate::plan::{Computed, LegResult, Support};
use crate::quantity::convert::INCH_M;
use crate::quantity::{UnitSystem, Units};
use crate::tube::TubeTable;
use crate::workshop::BenchWork;
use crate::workshop::circle::topper::TopperBuild;
use crate::workshop::circle::{Bend, Circles, circles, ring, ring_bend};
use crate::workshop::key;

/// What pieces are cut from.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(tag = "kind", rename_all = "snake_case")]
pub enum Material {
    /// Timber of the base, its actual width and depth.
    Timber {
        width_mm: f64,
        depth_mm: f64,
    },
    /// Timber of another section for the feet.
    Block {
        width_mm: f64,
        depth_mm: f64,
    },
    /// Steel tube of the mast; a size of a table where it is of one.
    Tube {
        outside_mm: f64,
        size: Option<ListedSize>,
    },
    Stake {
        diameter_mm: f64,
    },
    Ring {
        stuff: RingStuff,
        /// None where nobody has measured it.
        outside_mm: Option<f64>,
    },
    Rope {
        name: String,
        diameter_mm: f64,
    },
    /// The rod that lifts: a tube or, without a bore, a bar.
    Rod {
        outside_mm: Option<f64>,
        bore_mm: f64,
    },
    /// Board as wide as the topper's discs, which are sawn round from its squares.
    DiscBoard {
        across_mm: f64,
        thickness_mm: Option<f64>,
    },
    /// Pipe that goes over the top tube.
    SpacerPipe {
        over_mm: f64,
    },
}

/// A size of a published table.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct ListedSize {
    pub table: TubeTable,
    pub size: String,
}

/// What a piece is.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(tag = "kind", rename_all = "snake_case")]
pub enum Piece {
    FrontLeg,
    FrontAndBackLeg,
    CrossLeg,
    /// Of a leg by its id, cut at its longest edge.
    Foot {
        leg: String,
    },
    /// A tube by its name.
    Tube {
        name: String,
    },
    Stake,
    /// What a tube stands on run down, by that tube's name: of its own size.
    Stool {
        name: String,
    },
    Rod,
    TopperDisc,
    TopperSpacer,
    /// A straight side of the ring.
    RingSide,
    /// A piece of the ring, counted from 1.
    Ring {
        number: u32,
    },
    /// A guy by its id, knots and tails in it.
    Guy {
        guy: String,
    },
}

/// Pieces that are alike.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct CutPiece {
    /// What it is ticked off as.
    pub part: String,
    pub what: Piece,
    /// Marked on the tape: up to the next of its divisions. None where nobody can say it yet.
    pub length_m: Option<f64>,
    /// Half of the range that it is sure to within (95 %), where that is known.
    pub half_width_95_m: f64,
    pub count: u32,
}

/// Pieces of one material.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct Lot {
    /// What lengths on offer name it by.
    pub material: String,
    pub of: Material,
    pub pieces: Vec<CutPiece>,
    /// What has to be known beside its pieces.
    pub note: Option<LotNote>,
}

/// What is said of a lot.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(tag = "kind", rename_all = "snake_case")]
pub enum LotNote {
    /// The pipe does not bend to the ring: straight sides, each corner turned by so much.
    StraightSides { turn_deg: f64, least_radius_m: f64 },
    /// It does not bend to the ring, and nobody has said how many supports there are.
    TooStiff { least_radius_m: f64 },
    /// How sharply it may be bent is not known.
    BendNotKnown,
    /// Discs: squares first, then sawn round and bored.
    SawnRound,
}

/// A length as it is marked: up to the next division of the tape, so that no piece comes out short by it.
pub fn marked_m(length_m: f64, units: Units) -> f64 {
    let division_m = match units.system {
        UnitSystem::Metric => 0.001,
        UnitSystem::Imperial => INCH_M / f64::from(units.inch_fraction.max(1)),
    };
    // A hair, so that a length that is a whole number of them stays.
    (length_m / division_m - 1e-6).ceil().max(0.0) * division_m
}

/// All lots of a job, in the order of the shop: timber, tubes, what lifts them, stakes, ring, topper, ropes.
pub fn lots(job: &Job, computed: &Computed, bench: &BenchWork) -> Vec<Lot> {
    let mut lots = Lots { units: job.units, all: Vec::new() };
    timbers(job, computed, &mut lots);
    tubes(job, &mut lots);
    stools(job, bench, &mut lots);
    rod(job, bench, &mut lots);
    stakes(job, computed, &mut lots);
    ring_pieces(job, computed, &mut lots);
    topper(&circles(job, computed), &mut lots);
    guys(job, computed, &mut lots);
    lots.all
}

struct Lots {
    units: Units,
    all: Vec<Lot>,
}

impl Lots {
    fn put(
        &mut self,
        material: &str,
        of: Material,
        piece: (String, Piece),
        length: Option<(f64, f64)>,
        count: u32,
    ) {
        let lot = self.all.iter().position(|lot| lot.material == material).unwrap_or_else(|| {
            self.all.push(Lot { material: material.to_owned(), of, pieces: Vec::new(), note: None });
            self.all.len() - 1
        });
        let (part, what) = piece;
        let length_m = length.map(|(length_m, _)| marked_m(length_m, self.units));
        let half_width_95_m = length.map_or(0.0, |(_, half)| half);
        self.all[lot].pieces.push(CutPiece { part, what, length_m, half_width_95_m, count });
    }
}

impl Lots {
    fn note(&mut self, material: &str, note: LotNote) {
        if let Some(lot) = self.all.iter_mut().find(|lot| lot.material == material) {
            lot.note = Some(note);
        }
    }
}

fn timbers(job: &Job, computed: &Computed, lots: &mut Lots) {
    let base = &job.rig.base;
    let timber = || Material::Timber { width_mm: base.timber_width_mm, depth_mm: base.timber_depth_mm };
    let half_width_m = base.timber_width_mm / 2000.0;
    let front = match base.pattern {
        // It ends at the cross leg's far face.
        BasePattern::T => (Piece::FrontLeg, base.front_reach_m + half_width_m),
        BasePattern::X => {
            (Piece::FrontAndBackLeg, base.front_reach_m + base.back_reach_m.unwrap_or(base.front_reach_m))
        }
    };
    let exact = |length_m: f64| Some((length_m, 0.0));
    lots.put("timber", timber(), ("timber:front".into(), front.0), exact(front.1), 1);
    lots.put("timber", timber(), ("timber:cross".into(), Piece::CrossLeg), exact(2.0 * base.side_reach_m), 1);
    let (wide, thick) = (base.foot_width_mm, base.foot_thickness_mm);
    let alike = |a: f64, b: f64| (a - b).abs() < 0.5;
    let (width, depth) = (base.timber_width_mm, base.timber_depth_mm);
    let same = (alike(wide, width) && alike(thick, depth)) || (alike(wide, depth) && alike(thick, width));
    for leg in computed.plan.base.legs.iter().filter(|leg| leg.support == Support::Foot) {
        let known = computed.plan.knows_under(&leg.id);
        let length = known.then(|| (longest_edge_m(leg, wide, thick), leg.gap_centre_m.half_width_95));
        let piece = (format!("foot:{}", leg.id), Piece::Foot { leg: leg.id.clone() });
        let (material, of) = if same {
            ("timber", timber())
        } else {
            ("block", Material::Block { width_mm: wide, depth_mm: thick })
        };
        lots.put(material, of, piece, length, 1);
    }
}

/// The longest of a foot's four edges: its height at the centre and what both bevels add at a corner.
fn longest_edge_m(leg: &LegResult, wide_mm: f64, thick_mm: f64) -> f64 {
    let along = tan_deg(leg.bevel_along_deg).abs() * thick_mm / 2000.0;
    let across = tan_deg(leg.bevel_across_deg).abs() * wide_mm / 2000.0;
    leg.gap_centre_m.value + along + across
}

/// What a tube is cut from, and what lengths on offer name it by.
pub fn tube_material(section: &Section) -> (String, Material) {
    match section {
        Section::Listed { table, size } => {
            let listed = crate::tube::section::listed(*table, size);
            let outside_mm = listed.map_or(0.0, |section| section.outside_mm);
            let size = ListedSize { table: *table, size: size.clone() };
            (material_of(&size), Material::Tube { outside_mm, size: Some(size) })
        }
        Section::Measured { outside_mm, wall_mm } => {
            (format!("tube {outside_mm} x {wall_mm}"), Material::Tube { outside_mm: *outside_mm, size: None })
        }
    }
}

fn tubes(job: &Job, lots: &mut Lots) {
    for (index, tube) in job.rig.tubes.iter().enumerate() {
        let (material, of) = tube_material(&tube.section);
        let piece = (key("tube", index), Piece::Tube { name: tube.name.clone() });
        lots.put(&material, of, piece, Some((tube.length_m, 0.0)), 1);
    }
}

/// Each of its tube's own size: it stands where that tube stands in the end.
fn stools(job: &Job, bench: &BenchWork, lots: &mut Lots) {
    for stage in bench.stages.stages.iter().filter(|stage| stage.stool_m > 0.0) {
        let index = stage.tube as usize;
        let Some(tube) = job.rig.tubes.get(index) else { continue };
        let (material, of) = tube_material(&tube.section);
        let piece = (key("stool", index), Piece::Stool { name: tube.name.clone() });
        lots.put(&material, of, piece, Some((stage.stool_m, 0.0)), 1);
    }
}

fn rod(job: &Job, bench: &BenchWork, lots: &mut Lots) {
    if bench.stages.stages.is_empty() {
        return;
    }
    let lift = &job.workshop.lift;
    let of = Material::Rod { outside_mm: lift.rod_outside_mm, bore_mm: lift.rod_bore_mm };
    lots.put("rod", of, ("rod".into(), Piece::Rod), lift.rod_length_m.map(|length_m| (length_m, 0.0)), 1);
}

/// Two discs and what stands between them.
fn topper(circles: &Circles, lots: &mut Lots) {
    let Some(TopperBuild { disc_mm, thickness_mm, apart_mm, bore_mm, .. }) = &circles.discs else { return };
    let board = Material::DiscBoard { across_mm: *disc_mm, thickness_mm: *thickness_mm };
    let disc = ("topper:disc".into(), Piece::TopperDisc);
    lots.put("disc", board, disc, Some((disc_mm / 1000.0, 0.0)), 2);
    lots.note("disc", LotNote::SawnRound);
    let pipe = Material::SpacerPipe { over_mm: *bore_mm };
    let spacer = ("topper:spacer".into(), Piece::TopperSpacer);
    lots.put("spacer", pipe, spacer, apart_mm.map(|apart_mm| (apart_mm / 1000.0, 0.0)), 1);
}

fn material_of(size: &ListedSize) -> String {
    let table = match size.table {
        TubeTable::Rmc => "rmc",
        TubeTable::Imc => "imc",
        TubeTable::Emt => "emt",
        TubeTable::Sch40 => "sch40",
        TubeTable::En39 => "en 39",
        TubeTable::En10255Medium => "en 10255",
    };
    format!("tube {table} {}", size.size)
}

fn stakes(job: &Job, computed: &Computed, lots: &mut Lots) {
    let stakes = &job.rig.stakes;
    let count = computed.plan.base.stakes.len() as u32;
    if count > 0 {
        let of = Material::Stake { diameter_mm: stakes.diameter_mm };
        lots.put("stake", of, ("stake".into(), Piece::Stake), Some((stakes.length_m, 0.0)), count);
    }
}

fn ring_pieces(job: &Job, computed: &Computed, lots: &mut Lots) {
    let (Some(pipe), Some(strands)) = (&job.workshop.ring, &job.rig.strands) else { return };
    let (Some(length_m), Some(plan)) = (ring_length_m(job, computed), &computed.plan.ring) else { return };
    let of = || Material::Ring { stuff: pipe.stuff, outside_mm: pipe.outside_mm };
    let known = match ring_bend(pipe, strands, plan) {
        Bend::TooSharp { least_radius_m, straight: Some(straight), .. } => {
            straight_sides(job, computed, straight.pieces, lots, of());
            let turn_deg = straight.turn_deg;
            return lots.note("ring", LotNote::StraightSides { turn_deg, least_radius_m });
        }
        Bend::TooSharp { least_radius_m, straight: None, .. } => Some(LotNote::TooStiff { least_radius_m }),
        Bend::NotKnown => Some(LotNote::BendNotKnown),
        Bend::Bends { .. } => None,
    };
    let closed = strands.sweep_deg >= 360.0;
    let pieces = pipe
        .supports
        .zip(pipe.pipe_m)
        .map(|(supports, pipe_m)| ring::pieces(length_m, closed, u32::from(supports), pipe_m));
    match pieces {
        Some(Ok(ring)) => {
            for (index, piece_m) in ring.pieces_m.iter().enumerate() {
                let piece = (key("ring", index), Piece::Ring { number: index as u32 + 1 });
                lots.put("ring", of(), piece, Some((*piece_m, 0.0)), 1);
            }
        }
        _ => lots.put("ring", of(), (key("ring", 0), Piece::Ring { number: 1 }), None, 1),
    }
    if let Some(note) = known {
        lots.note("ring", note);
    }
}

/// Sides that come out alike on the tape are cut together.
fn straight_sides(job: &Job, computed: &Computed, count: u32, lots: &mut Lots, of: Material) {
    let mut alike: Vec<(f64, u32)> = Vec::new();
    for side_m in ring_sides_m(job, computed, count) {
        let marked_m = marked_m(side_m, job.units);
        match alike.iter_mut().find(|(length_m, _)| (length_m - marked_m).abs() < 1e-6) {
            Some((_, count)) => *count += 1,
            None => alike.push((marked_m, 1)),
        }
    }
    for (index, (length_m, count)) in alike.into_iter().enumerate() {
        lots.put("ring", of.clone(), (key("ring", index), Piece::RingSide), Some((length_m, 0.0)), count);
    }
}

fn ring_sides_m(job: &Job, computed: &Computed, count: u32) -> Vec<f64> {
    let Some((centre, radius_m, turn_deg)) = ring_place(job, computed) else { return Vec::new() };
    ring::sides_on_ground(centre, radius_m, turn_deg, count, |at| computed.ground.height(at))
}

/// Where the ring lies: its centre, its radius, from which bearing over which sweep; none without strands.
fn ring_place(job: &Job, computed: &Computed) -> Option<([f64; 2], f64, [f64; 2])> {
    let strands = job.rig.strands.as_ref()?;
    let mast = &computed.plan.mast;
    let middle_deg = job.placement.front_bearing_deg + strands.facing_turn_deg;
    let sweep_deg = strands.sweep_deg.min(360.0);
    Some(([mast.east_m, mast.north_m], strands.ring_radius_m, [middle_deg - sweep_deg / 2.0, sweep_deg]))
}

/// How long the ring is on the ground; none without strands.
pub fn ring_length_m(job: &Job, computed: &Computed) -> Option<f64> {
    let (centre, radius_m, turn_deg) = ring_place(job, computed)?;
    Some(ring::length_on_ground(centre, radius_m, turn_deg, |at| computed.ground.height(at)))
}

fn guys(job: &Job, computed: &Computed, lots: &mut Lots) {
    for guy in &computed.plan.guys {
        let Some(level) = job.rig.guy_levels.iter().find(|level| level.id == guy.level_id) else { continue };
        let rope = &level.rope;
        let of = Material::Rope { name: rope.name.clone(), diameter_mm: rope.diameter_mm };
        let first = job
            .rig
            .guy_levels
            .iter()
            .find(|other| other.rope.name == rope.name && other.rope.diameter_mm == rope.diameter_mm);
        let material = format!("rope {}", first.map_or(&level.id, |first| &first.id));
        let piece = (format!("guy:{}", guy.id), Piece::Guy { guy: guy.id.clone() });
        lots.put(&material, of, piece, Some((guy.cut_m.value, guy.cut_m.half_width_95)), 1);
    }
}
