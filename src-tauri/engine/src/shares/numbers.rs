//! The numbers of a plan whose ± is looked into, as they come out where readings and setting out are off.

use std::collections::BTreeSet;

use super::errors::{Counted, NextError, reread};
use super::results::{ErrorOf, SharedOf};
use crate::finding::Subject;
use crate::ground::profile::at_tape;
use crate::guys::guy::FoundAnchor;
use crate::job::{Job, Placement, PointFix};
use crate::numerics::real::hypot;
use crate::plan::{
    Clearance, FixedPoints, GuyResult, LegResult, PlacedWork, Plan, Trial, survey, try_placed,
};
use crate::pointer;
use crate::quantity::FieldErrors;
use crate::quantity::bearing::wrap_360;
use crate::survey::positions::PositionEstimate;

/// So many distances are looked into, each to another thing: the tightest.
const DISTANCES: usize = 3;
/// Of more spot heights than this those nearest to the mast are drawn, the others count as exact.
const SPOTS: usize = 60;

/// The plan that is set out, and what is asked of it.
pub(super) struct SetOut<'a> {
    job: &'a Job,
    pub plan: &'a Plan,
    placement: Placement,
    /// Each with the place of its first value; an anchor has two.
    pub asked: Vec<SharedOf>,
    /// The spot heights that are drawn; none where all are.
    spots: Option<BTreeSet<usize>>,
}

impl<'a> SetOut<'a> {
    pub fn of(job: &'a Job, plan: &'a Plan) -> Self {
        let legs = plan.base.legs.iter().filter(|leg| plan.knows_under(&leg.id));
        let feet = legs.map(|leg| SharedOf::Foot { leg: leg.id.clone() });
        let guys = plan.guys.iter().map(|guy| SharedOf::GuyLength { guy: guy.id.clone() });
        let anchors = plan.guys.iter().filter(|guy| is_pegged(guy));
        let anchors = anchors.map(|guy| SharedOf::AnchorPlace { guy: guy.id.clone() });
        let distances = tightest(&plan.clearances).into_iter().map(|it| SharedOf::Distance {
            work: it.work.clone(),
            to: it.to.clone(),
            what: it.what,
        });
        let asked = feet.chain(guys).chain(anchors).chain(distances).collect();
        Self { job, plan, placement: placement(job, plan), asked, spots: nearest_spots(job, plan) }
    }

    pub fn spots_left_out(&self) -> u32 {
        self.spots.as_ref().map_or(0, |near| self.job.yard.spot_heights.len() - near.len()) as u32
    }

    /// The values where everything is off by these numbers; none of a distance that is no longer there, and none at all where the ground
    /// would be taken for one of another kind: chance calls one plane in a hundred bent, which is another model and no spread.
    ///
    /// # Errors
    /// Where that leaves a point that can't be placed, such as two tapes that do not meet.
    pub fn values(&self, next: &mut NextError) -> Result<Vec<Option<f64>>, FieldErrors> {
        let drawn = reread(self.job, self, next);
        let surveyed = survey(&drawn.yard, drawn.units)?;
        if surveyed.fit.kind != self.plan.ground.model {
            return Ok(vec![None; self.asked.iter().map(SharedOf::values).sum()]);
        }
        let points = FixedPoints::of(&surveyed, &drawn);
        let north_deg = surveyed.north.add_to_reading_deg - self.plan.north.add_to_reading_deg;
        let placement = self.pegged(next);
        let mut placed = PlacedWork::planned(&surveyed, &placement)?;
        let instruments = &self.job.yard.instruments;
        let turned_deg = instruments.bearing_sigma_deg * next(&|| ErrorOf::SetOutTurn);
        placed.front_bearing_deg = wrap_360(placed.front_bearing_deg + north_deg + turned_deg);
        for guy in self.plan.guys.iter().filter(|guy| is_pegged(guy)) {
            let of = || ErrorOf::SetOutAnchor { guy: guy.id.clone() };
            let off_deg = north_deg + instruments.bearing_sigma_deg * next(&of);
            let tape_m = guy.tape_m + instruments.tape_sigma_of_m(guy.tape_m) * next(&of);
            let at = at_tape(&surveyed.fit.ground, placed.mast, guy.azimuth_deg + off_deg, tape_m);
            let at = PositionEstimate { at, covariance: [[0.0; 2]; 2] };
            placed.anchors.insert(guy.id.clone(), FoundAnchor { at: Some(at), eye_height_m: None });
        }
        let trial = try_placed(&surveyed, &points, &drawn, placed)?;
        let Trial { layout, clearances, .. } = &trial;
        let came = Came { legs: &layout.base.legs, guys: &layout.guys, clearances };
        Ok(self.asked.iter().flat_map(|of| of.read(&came)).collect())
    }

    /// The mast by the tapes that peg it out, each as far off as tapes are.
    fn pegged(&self, next: &mut NextError) -> Placement {
        let instruments = &self.job.yard.instruments;
        let mut placement = self.placement.clone();
        let mut tape = |tape_m: &mut f64| {
            *tape_m += instruments.tape_sigma_of_m(*tape_m) * next(&|| ErrorOf::SetOutMast);
        };
        match &mut placement.mast {
            PointFix::TwoTapes { tape_a_m, tape_b_m, .. } => {
                tape(tape_a_m);
                tape(tape_b_m);
            }
            PointFix::ThreeTapes { tape_a_m, tape_b_m, tape_c_m, .. } => {
                [tape_a_m, tape_b_m, tape_c_m].into_iter().for_each(tape);
            }
            PointFix::Offset { along_m, off_m, .. } => {
                tape(along_m);
                tape(off_m);
            }
            PointFix::BearingTape { bearing_deg, tape_m, .. }
            | PointFix::SlopeTape { bearing_deg, tape_m, .. } => {
                tape(tape_m);
                let off_deg = instruments.bearing_sigma_deg * next(&|| ErrorOf::SetOutMast);
                *bearing_deg = wrap_360(*bearing_deg + off_deg);
            }
            PointFix::Coordinates { east_m, north_m } => {
                for metres in [east_m, north_m] {
                    *metres += instruments.sketched_sigma_m * next(&|| ErrorOf::SetOutMast);
                }
            }
            PointFix::Origin | PointFix::NextCorner { .. } => {}
        }
        placement
    }
}

impl Counted for SetOut<'_> {
    /// Whether a thing of the yard moves any of the numbers.
    fn counts(&self, thing: &Subject) -> bool {
        let of_distance =
            self.asked.iter().any(|it| matches!(it, SharedOf::Distance { to, .. } if to == thing));
        let holds = |guy: &GuyResult| guy.made_fast.is_some();
        of_distance || (matches!(thing, Subject::Obstacle { .. }) && self.plan.guys.iter().any(holds))
    }

    fn counts_spot(&self, number: usize) -> bool {
        self.spots.as_ref().is_none_or(|near| near.contains(&number))
    }
}

/// Of very many spot heights those nearest to the mast.
fn nearest_spots(job: &Job, plan: &Plan) -> Option<BTreeSet<usize>> {
    let spots = &job.yard.spot_heights;
    if spots.len() <= SPOTS {
        return None;
    }
    let surveyed = survey(&job.yard, job.units).ok()?;
    let mast = [plan.mast.east_m, plan.mast.north_m];
    let away_m = |number: usize| {
        let at = surveyed.positions.locate(&spots[number].at, &pointer!(yard.spot_heights[number].at));
        at.map_or(f64::INFINITY, |it| hypot(it.at[0] - mast[0], it.at[1] - mast[1]))
    };
    let mut by_distance: Vec<(f64, usize)> = (0..spots.len()).map(|at| (away_m(at), at)).collect();
    by_distance.sort_by(|a, b| a.0.total_cmp(&b.0));
    Some(by_distance.into_iter().take(SPOTS).map(|(_, at)| at).collect())
}

/// Where the plan pegs the mast out by two tapes, it stands where these meet.
fn placement(job: &Job, plan: &Plan) -> Placement {
    let mut placement = job.placement.clone();
    let peg = plan.pegs.iter().find(|peg| peg.subject == Subject::Mast);
    if let Some(ties) = peg.and_then(|peg| peg.ties.as_ref()).filter(|_| !placement.mast.is_from_marks()) {
        placement.mast = PointFix::TwoTapes {
            from_a: ties.mark_a.clone(),
            tape_a_m: ties.tape_a_m,
            from_b: ties.mark_b.clone(),
            tape_b_m: ties.tape_b_m,
            side: Some(ties.side),
        };
    }
    placement
}

/// A guy on a thing of the yard is pegged out by nobody.
fn is_pegged(guy: &GuyResult) -> bool {
    guy.made_fast.is_none()
}

/// The tightest distances, the first of each thing. What touches has no direction to move in.
fn tightest(all: &[Clearance]) -> Vec<&Clearance> {
    let mut found: Vec<&Clearance> = Vec::new();
    for clearance in all.iter().filter(|it| it.distance_m > 1e-6) {
        if found.len() < DISTANCES && found.iter().all(|it| it.to != clearance.to) {
            found.push(clearance);
        }
    }
    found
}

/// The work as it came out: as planned, or where something was off.
struct Came<'a> {
    legs: &'a [LegResult],
    guys: &'a [GuyResult],
    clearances: &'a [Clearance],
}

impl Came<'_> {
    fn guy(&self, id: &str) -> Option<&GuyResult> {
        self.guys.iter().find(|guy| guy.id == id)
    }
}

impl SharedOf {
    /// How many values it has.
    pub(super) fn values(&self) -> usize {
        if matches!(self, Self::AnchorPlace { .. }) { 2 } else { 1 }
    }

    fn read(&self, of: &Came) -> Vec<Option<f64>> {
        match self {
            Self::Foot { leg } => {
                let leg = of.legs.iter().find(|it| it.id == *leg);
                vec![leg.map(|leg| leg.gap_centre_m.value)]
            }
            Self::GuyLength { guy } => vec![of.guy(guy).map(|guy| guy.unstressed_m.value)],
            Self::AnchorPlace { guy } => {
                let at = of.guy(guy).map(|guy| [guy.east_m, guy.north_m]);
                (0..2).map(|axis| at.map(|at| at[axis])).collect()
            }
            Self::Distance { work, to, what } => {
                let is_it = |it: &&Clearance| it.work == *work && it.to == *to && it.what == *what;
                vec![of.clearances.iter().find(is_it).map(|it| it.distance_m)]
            }
        }
    }

    /// As planned; of an anchor how far from the mast.
    pub(super) fn planned_m(&self, plan: &Plan) -> f64 {
        let planned = Came { legs: &plan.base.legs, guys: &plan.guys, clearances: &plan.clearances };
        let found = match self {
            Self::AnchorPlace { guy } => planned.guy(guy).map(|guy| guy.radius_m),
            other => other.read(&planned).into_iter().next().flatten(),
        };
        found.unwrap_or(f64::NAN)
    }

    /// The plan's own ±, where it gives one.
    pub(super) fn plan_95_m(&self, plan: &Plan) -> Option<f64> {
        match self {
            Self::Foot { leg } => {
                let leg = plan.base.legs.iter().find(|it| it.id == *leg)?;
                Some(leg.gap_centre_m.half_width_95)
            }
            Self::GuyLength { guy } => {
                let guy = plan.guys.iter().find(|it| it.id == *guy)?;
                Some(guy.unstressed_m.half_width_95)
            }
            Self::AnchorPlace { .. } | Self::Distance { .. } => None,
        }
    }
}
