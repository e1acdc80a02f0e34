//! The second stage: where every part of a rig goes on the surveyed ground, and how long it is.

use std::collections::BTreeMap;

use super::compute::Extent;
use super::fixings::fixings;
use super::surveyed::Surveyed;
use super::{BaseResult, GuyResult, MastResult, RingResult};
use crate::base::{self, BaseInput};
use crate::finding::Finding;
use crate::ground::fall::Fall;
use crate::guys::guy::{FoundAnchor, GuyInput, guys};
use crate::job::{AnchorLayout, Placement, PointFix, Rig};
use crate::pointer;
use crate::quantity::FieldErrors;
use crate::strands;
use crate::survey::positions::Positions;
use crate::tube::telescope::{Telescope, telescope};

/// Where the parts of the work stand, as far as the user chose or measured it.
#[derive(Debug, Clone)]
pub struct PlacedWork {
    /// The mast's axis in plan.
    pub mast: [f64; 2],
    /// How that was found or chosen.
    pub mast_fix: PointFix,
    /// True bearing of the front leg.
    pub front_bearing_deg: f64,
    /// Anchors that were measured, by the guy's id; all others follow their rule.
    pub anchors: BTreeMap<String, FoundAnchor>,
    /// Gaps measured under the legs' tips, by the leg's id.
    pub gaps_m: BTreeMap<String, f64>,
}

impl PlacedWork {
    /// As a placement has it: nothing was measured after pegging out.
    ///
    /// # Errors
    /// Where the mast's fix leads nowhere.
    pub fn planned(surveyed: &Surveyed, placement: &Placement) -> Result<Self, FieldErrors> {
        let mast_fix = placement.mast.clone();
        Ok(Self {
            mast: surveyed.positions.locate(&mast_fix, pointer!(placement.mast))?.at,
            mast_fix,
            front_bearing_deg: placement.front_bearing_deg,
            anchors: BTreeMap::new(),
            gaps_m: BTreeMap::new(),
        })
    }
}

/// The work as it stands in one place.
#[derive(Debug, Clone)]
pub struct Layout {
    pub placed_work: PlacedWork,
    pub mast: MastResult,
    pub base: BaseResult,
    pub guys: Vec<GuyResult>,
    pub ring: Option<RingResult>,
    /// How the ground falls that it stands on.
    pub fall: Fall,
    /// What is wrong with the parts themselves, wherever other things stand.
    pub findings: Vec<Finding>,
}

/// Lays out a rig where a placement has it.
///
/// # Errors
/// A mast or free anchors that can't be placed, tubes that are in no table: every such field is named.
///
/// # Examples
/// ```
/// use mastwright_engine::{demo, plan};
///
/// let job = demo::lantern_green();
/// let surveyed = plan::survey(&job.yard, job.units).expect("the marks can be placed");
/// let layout = plan::lay_out(&surveyed, &job.rig, &job.placement).expect("the mast can be placed");
/// // The same yard serves for another turn of the base, without being surveyed again.
/// let mut turned = job.placement.clone();
/// turned.front_bearing_deg += 20.0;
/// let other = plan::lay_out(&surveyed, &job.rig, &turned).expect("so can this one");
/// assert_ne!(layout.base.legs[0].gap_centre_m.value, other.base.legs[0].gap_centre_m.value);
/// ```
pub fn lay_out(surveyed: &Surveyed, rig: &Rig, placement: &Placement) -> Result<Layout, FieldErrors> {
    lay_out_at(surveyed, rig, placement, PlacedWork::planned(surveyed, placement)?, Extent::Whole)
}

/// The same without the intervals of the gaps under the legs: for a picture, or for one place of many.
///
/// # Errors
/// As [`lay_out`].
pub fn lay_out_for_map(surveyed: &Surveyed, rig: &Rig, placement: &Placement) -> Result<Layout, FieldErrors> {
    lay_out_at(surveyed, rig, placement, PlacedWork::planned(surveyed, placement)?, Extent::Map)
}

/// The same with what was measured after pegging out in its place.
pub(super) fn lay_out_at(
    surveyed: &Surveyed,
    rig: &Rig,
    placement: &Placement,
    placed_work: PlacedWork,
    extent: Extent,
) -> Result<Layout, FieldErrors> {
    let ground = &surveyed.fit.ground;
    let at = placed_work.mast;
    let telescope = telescope(&rig.mast_tubes()?, surveyed.units.system);
    let mut findings = telescope.findings.clone();
    let base_input = BaseInput {
        base: &rig.base,
        stakes: &rig.stakes,
        ground,
        mast_at: at,
        front_bearing_deg: placed_work.front_bearing_deg,
        turning_sigma_deg: surveyed.instruments.bearing_sigma_deg,
        fall_bearing_deg: surveyed.fall.bearing_deg,
    };
    let mut base = match extent {
        Extent::Whole => base::base(&base_input),
        Extent::Map => base::base_without_intervals(&base_input),
    };
    base::with_measured_gaps(&mut base, &rig.base, &placed_work.gaps_m);
    let mast = mast(rig, at, ground.height(at), &base, telescope);
    let (guys, guy_findings) = guys(&GuyInput {
        ground,
        levels: &rig.guy_levels,
        free_anchors: &free_anchors(rig, &surveyed.positions)?,
        mast: at,
        foot_m: mast.foot_m,
        contacts: &base.contacts,
        foot_sigma_m: base::turning::level_sigma_by_turning_m(&base_input),
        front_bearing_deg: placed_work.front_bearing_deg,
        guy_turn_deg: placement.guy_turn_deg,
        instruments: &surveyed.instruments,
        north: &surveyed.north,
        found: &placed_work.anchors,
        fixings: &fixings(surveyed, rig, &placed_work)?,
    });
    findings.extend(guy_findings);
    let turned = Placement { front_bearing_deg: placed_work.front_bearing_deg, ..placement.clone() };
    let ring = rig.strands.as_ref().map(|strands| strands::ring(rig, strands, &turned, &mast, ground));
    Ok(Layout { placed_work, mast, base, guys, ring, fall: surveyed.fall, findings })
}

fn mast(rig: &Rig, at: [f64; 2], ground_m: f64, base: &BaseResult, telescope: Telescope) -> MastResult {
    let timbers = &rig.base;
    let foot_m = base.underside_m + (timbers.timber_depth_mm + timbers.seat_height_mm) / 1000.0;
    let top_above_ground_m = foot_m + telescope.raised_m - ground_m;
    MastResult {
        east_m: at[0],
        north_m: at[1],
        ground_m,
        foot_m,
        raised_height_m: telescope.raised_m,
        lowered_height_m: telescope.lowered_m,
        top_above_ground_m,
        // Tipping about its foot the mast reaches no farther in plan than its own length; the height above the
        // ground is a little more, and covers a base that tips with it.
        fall_radius_m: top_above_ground_m,
        mass_kg: telescope.mass_kg,
        stages: telescope.stages,
    }
}

/// For each level its anchors where they are free, none otherwise.
fn free_anchors(rig: &Rig, positions: &Positions) -> Result<Vec<Vec<[f64; 2]>>, FieldErrors> {
    let mut errors = Vec::new();
    let mut levels = Vec::new();
    for (i, level) in rig.guy_levels.iter().enumerate() {
        let AnchorLayout::Free { anchors } = &level.anchor_layout else {
            levels.push(Vec::new());
            continue;
        };
        let mut found = Vec::new();
        for (j, fix) in anchors.iter().enumerate() {
            match positions
                .locate(fix, &pointer!(rig.guy_levels[i].anchor_layout as AnchorLayout::Free.anchors[j]))
            {
                Ok(located) => found.push(located.at),
                Err(error) => errors.push(error),
            }
        }
        levels.push(found);
    }
    if errors.is_empty() { Ok(levels) } else { Err(errors.into()) }
}
