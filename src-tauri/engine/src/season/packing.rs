//! What is packed when the mast has come down: every piece with its length and weight, and what is easily forgotten.

use serde::Serialize;

use super::look::{SeasonThing, things};
use crate::job::{AnchorKind, GuyLevel, Job};
use crate::plan::Computed;
use crate::quantity::convert::STANDARD_GRAVITY;
use crate::source::SourceKey;
use crate::tube::section::STEEL_KG_PER_M3;
use crate::workshop::BenchWork;
use crate::workshop::circle::stiff::BentPipe;
use crate::workshop::circle::strand_fit::{StrandLengths, whole_m};
use crate::workshop::lift::rod::Rod;
use crate::workshop::shopping::{CutPiece, Lot, Material, Piece, lots};

/// What a packed thing is.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(tag = "kind", rename_all = "snake_case")]
pub enum PackWhat {
    /// As it was cut.
    Cut {
        piece: Piece,
    },
    Anchors {
        level: String,
        name: String,
    },
    Collars {
        level: String,
        name: String,
    },
    Strands,
    Topper,
    WinchAndStrap,
    Lead,
}

/// Things that are alike.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct PackItem {
    /// What it is ticked off as.
    pub part: String,
    pub what: PackWhat,
    pub count: u32,
    /// Of one; none where nobody has said it.
    pub length_m: Option<f64>,
    /// It is rolled up: its length asks for no room.
    pub rolls_up: bool,
    /// Of one; none where nobody has weighed it and nothing tells it.
    pub mass_kg: Option<f64>,
    pub packed: bool,
}

/// What is easily forgotten.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum PackChore {
    RopesDried,
    StrandsDried,
    TubesDrained,
    ScrewsOut,
    StakesOut,
    HolesFilled,
    MarksKept,
    TakenDownWritten,
}

impl PackChore {
    fn key(self) -> &'static str {
        match self {
            Self::RopesDried => "ropes-dried",
            Self::StrandsDried => "strands-dried",
            Self::TubesDrained => "tubes-drained",
            Self::ScrewsOut => "screws-out",
            Self::StakesOut => "stakes-out",
            Self::HolesFilled => "holes-filled",
            Self::MarksKept => "marks-kept",
            Self::TakenDownWritten => "taken-down-written",
        }
    }

    /// What it is ticked off as.
    pub fn part(self) -> String {
        format!("chore:{}", self.key())
    }

    pub fn source(self) -> SourceKey {
        match self {
            // Natural fibre loses half of its strength wet, and rots; wet nylon loses 10–20 %.
            Self::RopesDried => SourceKey::WetRope,
            _ => SourceKey::CommonPractice,
        }
    }
}

/// A chore and whether it is done.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct PackChoreItem {
    pub chore: PackChore,
    pub done: bool,
}

/// The packing list.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct PackingList {
    pub items: Vec<PackItem>,
    pub chores: Vec<PackChoreItem>,
    /// The longest that does not roll up, by its part; none where no length is known.
    pub longest: Option<String>,
    /// Lengths that are not known might be longer.
    pub lengths_missing: u32,
    /// Of all whose weight is known.
    pub known_kg: f64,
    /// So many things have a weight that nobody knows.
    pub masses_missing: u32,
}

impl PackingList {
    /// The whole weight; none while that of a thing is not known.
    pub fn total_kg(&self) -> Option<f64> {
        (self.masses_missing == 0).then_some(self.known_kg)
    }
}

/// Lists all that is packed, for a job as planned.
///
/// # Accuracy
/// Tubes and guys weigh what their tables and the rope's entry say; a stake and the rod what solid steel of their size does; the ring what pipe of its wall does. Timber is
/// weighed by nobody here: wet and dry differ by half.
///
/// # References
/// Steel 7850 kg/m³: EN 1991-1-1:2002, Table A.4 (`en1991-1-1`).
pub fn packing(job: &Job, computed: &Computed, bench: &BenchWork) -> PackingList {
    let mut items = cut_pieces(job, computed, bench);
    items.extend(of_levels(job, computed));
    items.extend(of_strands(job));
    items.extend(job.rig.topper.as_ref().map(|topper| PackItem {
        length_m: Some(topper.width_m.max(topper.height_m)),
        mass_kg: Some(topper.mass_kg),
        ..thing("topper", PackWhat::Topper, 1)
    }));
    items.extend(of_lift(job));
    items.iter_mut().for_each(|item| item.packed = is_packed(job, &item.part));
    let stiff = || items.iter().filter(|item| !item.rolls_up);
    let known = stiff().filter_map(|item| Some((item.length_m?, &item.part)));
    let longest = known.max_by(|a, b| a.0.total_cmp(&b.0)).map(|(_, part)| part.clone());
    let count = |missing: &dyn Fn(&&PackItem) -> bool| -> u32 {
        items.iter().filter(missing).map(|item| item.count).sum()
    };
    PackingList {
        longest,
        lengths_missing: count(&|item| !item.rolls_up && item.length_m.is_none()),
        known_kg: items.iter().filter_map(|item| Some(item.mass_kg? * f64::from(item.count))).sum(),
        masses_missing: count(&|item| item.mass_kg.is_none()),
        chores: chores(job, computed),
        items,
    }
}

fn thing(part: &str, what: PackWhat, count: u32) -> PackItem {
    let part = format!("pack:{part}");
    PackItem { part, what, count, length_m: None, rolls_up: false, mass_kg: None, packed: false }
}

fn is_packed(job: &Job, part: &str) -> bool {
    job.season.packed.iter().any(|packed| packed.part == part)
}

fn cut_pieces(job: &Job, computed: &Computed, bench: &BenchWork) -> Vec<PackItem> {
    let of_lot = |lot: Lot| -> Vec<PackItem> {
        let rolls_up = matches!(lot.of, Material::Rope { .. });
        let item = |piece: &CutPiece| PackItem {
            length_m: piece.length_m,
            rolls_up,
            mass_kg: mass_kg(job, computed, &lot.of, piece),
            ..thing(&piece.part, PackWhat::Cut { piece: piece.what.clone() }, piece.count)
        };
        lot.pieces.iter().map(item).collect()
    };
    // Discs and spacers go as the topper that they make.
    let of_topper = |of: &Material| matches!(of, Material::DiscBoard { .. } | Material::SpacerPipe { .. });
    lots(job, computed, bench).into_iter().filter(|lot| !of_topper(&lot.of)).flat_map(of_lot).collect()
}

fn mass_kg(job: &Job, computed: &Computed, of: &Material, piece: &CutPiece) -> Option<f64> {
    match of {
        // Its own name tells the tube: two of one size may differ in length.
        Material::Tube { .. } => {
            let stages = &computed.plan.mast.stages;
            let index = piece.part.rsplit(':').next()?.parse::<usize>().ok()?;
            stages.get(index).map(|stage| stage.mass_kg)
        }
        Material::Rope { .. } => {
            let Piece::Guy { guy } = &piece.what else { return None };
            let found = computed.plan.guys.iter().find(|it| it.id == *guy)?;
            let level = job.rig.guy_levels.iter().find(|level| level.id == found.level_id)?;
            Some(level.rope.mass_g_per_m / 1000.0 * found.cut_m.value)
        }
        Material::Stake { diameter_mm } => Some(bar_kg(*diameter_mm, 0.0, piece.length_m?)),
        Material::Ring { stuff, outside_mm } => {
            let pipe = BentPipe::of(*stuff, (*outside_mm)?, job.workshop.ring.as_ref()?.wall_mm?)?;
            Some(pipe.weight_n_per_m() / STANDARD_GRAVITY * piece.length_m?)
        }
        Material::Rod { .. } => rod_kg(job),
        Material::Timber { .. }
        | Material::Block { .. }
        | Material::DiscBoard { .. }
        | Material::SpacerPipe { .. } => None,
    }
}

/// A round bar or tube of steel.
fn bar_kg(outside_mm: f64, bore_mm: f64, length_m: f64) -> f64 {
    let rod = Rod { outside_mm, bore_mm, yield_mpa: 0.0 };
    rod.area_mm2() * 1e-6 * length_m * STEEL_KG_PER_M3
}

fn of_levels(job: &Job, computed: &Computed) -> Vec<PackItem> {
    let things = things(job, &computed.plan);
    let of_level = |level: &GuyLevel| {
        let is_own =
            |guy: &String| computed.plan.guys.iter().any(|it| it.id == *guy && it.level_id == level.id);
        let own = |thing: &&SeasonThing| matches!(thing, SeasonThing::Anchor { guy, .. } if is_own(guy));
        let in_ground = u32::try_from(things.iter().filter(own).count()).unwrap_or(u32::MAX);
        let (id, name) = (level.id.clone(), level.name.clone());
        let mut found = Vec::new();
        if in_ground > 0 {
            let what = PackWhat::Anchors { level: id.clone(), name: name.clone() };
            let (length_m, mass_kg) = anchor(&level.anchor);
            let part = format!("anchors:{}", level.id);
            found.push(PackItem { length_m, mass_kg, ..thing(&part, what, in_ground) });
        }
        // It lies in the hand and asks for no room.
        let part = format!("collars:{}", level.id);
        found.push(PackItem { rolls_up: true, ..thing(&part, PackWhat::Collars { level: id, name }, 1) });
        found
    };
    job.rig.guy_levels.iter().flat_map(of_level).collect()
}

/// Length and weight of one anchor, as far as its entries tell them.
fn anchor(kind: &AnchorKind) -> (Option<f64>, Option<f64>) {
    match kind {
        AnchorKind::Deadman { length_m, .. } => (Some(*length_m), None),
        AnchorKind::Plate { side_m, .. } => (Some(*side_m), None),
        AnchorKind::Ballast { mass_kg } => (None, Some(*mass_kg)),
        // Of a screw and a stake only what is in the ground is entered.
        _ => (None, None),
    }
}

fn of_strands(job: &Job) -> Vec<PackItem> {
    let Some(strands) = &job.rig.strands else { return Vec::new() };
    let whole_m = job.workshop.strand.as_ref().and_then(StrandLengths::of).map(|strand| whole_m(&strand));
    // Leads weigh less than the cord with its lamps: counted as that, the strand is not lighter than told.
    let mass_kg = whole_m.zip(strands.cord.mass_g_per_m).map(|(whole_m, g_per_m)| whole_m * g_per_m / 1000.0);
    vec![
        PackItem {
            length_m: whole_m,
            rolls_up: true,
            mass_kg,
            ..thing("strands", PackWhat::Strands, u32::from(strands.count))
        },
        PackItem { rolls_up: true, ..thing("lead", PackWhat::Lead, 1) },
    ]
}

/// Of the rod, where its diameters are entered.
fn rod_kg(job: &Job) -> Option<f64> {
    let lift = &job.workshop.lift;
    let rod = lift.rod_outside_mm.zip(lift.rod_length_m);
    rod.map(|(outside_mm, length_m)| bar_kg(outside_mm, lift.rod_bore_mm, length_m))
}

fn of_lift(job: &Job) -> Vec<PackItem> {
    let lifted = job.rig.tubes.len() > 1;
    lifted
        .then(|| PackItem { rolls_up: true, ..thing("winch", PackWhat::WinchAndStrap, 1) })
        .into_iter()
        .collect()
}

fn chores(job: &Job, computed: &Computed) -> Vec<PackChoreItem> {
    let in_ground = computed.plan.guys.iter().any(|guy| guy.made_fast.is_none());
    let staked = !computed.plan.base.stakes.is_empty();
    let asked = [
        (PackChore::RopesDried, !computed.plan.guys.is_empty()),
        (PackChore::StrandsDried, job.rig.strands.is_some()),
        (PackChore::TubesDrained, true),
        (PackChore::ScrewsOut, in_ground),
        (PackChore::StakesOut, staked),
        (PackChore::HolesFilled, in_ground || staked),
        (PackChore::MarksKept, true),
        (PackChore::TakenDownWritten, true),
    ];
    let item = |(chore, asked): (PackChore, bool)| {
        asked.then(|| PackChoreItem { chore, done: is_packed(job, &chore.part()) })
    };
    asked.into_iter().filter_map(item).collect()
}
