//! What takes more than the plan of a place: its gust limit, what of the lights shows from the standpoints, the walk when
//! it is pegged out, and whether the mast can be walked up there. The best places alone are looked at so.

use crate::job::{Job, Placement, Rig, Strands};
use crate::numerics::real::cos_deg;
use crate::pegging;
use crate::plan::{Computed, FixedPoints, Surveyed, compute_on_points};
use crate::pointer;
use crate::quantity::FieldErrors;
use crate::quantity::bearing::of_vector;
use crate::raising::{WayUpFound, way_up};
use crate::view::{Eyes, YardToSee, eyes_of};
use crate::wind_capacity::rose::DIRECTIONS;
use crate::wind_capacity::{DirectionLimit, withstand};

use super::results::{SitingPlace, SitingWayUp};
use super::score::{Marked, SitingMerit, SitingUnknown};

/// No mark for a limit of a fresh breeze's gusts, full marks for a storm's (common practice: with the first it comes down on
/// many days, with the second on few; gusts of Beaufort 5 and 10).
const GUSTS_M_PER_S: [f64; 2] = [10.0, 30.0];
/// Full marks for a walk of so much, none for more than the second (common practice: a few minutes, half an hour's to and fro).
const WALKS_M: [f64; 2] = [50.0, 400.0];

/// What the places are looked at in.
pub(super) struct BestMarks<'a> {
    surveyed: &'a Surveyed,
    points: &'a FixedPoints,
    job: &'a Job,
    eyes: Result<Vec<Eyes>, SitingUnknown>,
}

impl<'a> BestMarks<'a> {
    pub fn new(surveyed: &'a Surveyed, points: &'a FixedPoints, job: &'a Job) -> Self {
        Self { surveyed, points, job, eyes: eyes(surveyed, job) }
    }

    /// The place with these marks as far as they count, and whether the mast can be walked up; with the parts as they are there.
    ///
    /// # Errors
    /// As the plan's stages.
    pub fn give(&self, place: &mut SitingPlace, rig: &Rig) -> Result<(), FieldErrors> {
        let job = there(self.job, rig, &place.placement);
        let computed = compute_on_points(self.surveyed, self.points, &job)?;
        place.way_up = match way_up(&job, &computed) {
            WayUpFound::NotSaid => SitingWayUp::NotSaid,
            WayUpFound::Clear { lies_toward_deg } => SitingWayUp::Clear { lies_toward_deg },
            WayUpFound::NoneClear { looked_at } => SitingWayUp::NoneClear { looked_at },
        };
        let score = &mut place.score;
        if score.counts(SitingMerit::Wind) {
            let limit = gust_limit(&job, &computed);
            score.gust_limit = limit.as_ref().ok().cloned();
            score.set(SitingMerit::Wind, limit.map(|least| of_gust(least.gust_m_per_s)));
        }
        if score.counts(SitingMerit::View) {
            let view = self.view(&job, &computed);
            score.cone_shows = view.as_ref().ok().map(|[shows, _]| *shows);
            score.set(SitingMerit::View, view.map(|[_, mark]| mark));
        }
        if score.counts(SitingMerit::Walking) {
            let walk = self.walk_m(&job, &computed);
            score.walk_m = walk.as_ref().ok().copied();
            score.set(SitingMerit::Walking, walk.map(of_walk));
        }
        Ok(())
    }

    /// How much of the cone shows on average, and the same counted by how far its open side is turned to whoever looks.
    fn view(&self, job: &Job, computed: &Computed) -> Result<[f64; 2], SitingUnknown> {
        let strands = job.rig.strands.as_ref().ok_or(SitingUnknown::NoStrands)?;
        let eyes = self.eyes.as_ref().map_err(Clone::clone)?;
        let yard = YardToSee::of(job, computed);
        let (mut shows, mut counted) = (0.0, 0.0);
        for eyes in eyes {
            let share = yard.seen_from(eyes).cone.ok_or(SitingUnknown::NoStrands)?.share;
            shows += share;
            counted += share * faces(job, strands, computed.layout.placed_work.mast, eyes);
        }
        Ok([shows, counted].map(|sum| sum / eyes.len() as f64))
    }

    fn walk_m(&self, job: &Job, computed: &Computed) -> Marked {
        if computed.yard.marks.len() < 2 {
            return Err(SitingUnknown::TooFewMarks);
        }
        Ok(pegging::walk_m(self.surveyed, job, computed))
    }
}

fn there(job: &Job, rig: &Rig, placement: &Placement) -> Job {
    Job { rig: rig.clone(), placement: placement.clone(), as_built: None, ..job.clone() }
}

fn eyes(surveyed: &Surveyed, job: &Job) -> Result<Vec<Eyes>, SitingUnknown> {
    if job.standpoints.is_empty() {
        return Err(SitingUnknown::NoStandpoint);
    }
    let found = |(number, standpoint): (usize, &crate::job::Standpoint)| {
        let path = pointer!(standpoints[number].at);
        let lost = |_| SitingUnknown::StandpointNotFound { name: standpoint.name.clone() };
        eyes_of(surveyed, standpoint, &path).map_err(lost)
    };
    job.standpoints.iter().enumerate().map(found).collect()
}

/// The weakest direction of the raised mast: the first half of what [`withstand`] looks at.
fn gust_limit(job: &Job, computed: &Computed) -> Result<DirectionLimit, SitingUnknown> {
    let found = withstand(job, &computed.layout, &mut |done, _, _| done < DIRECTIONS);
    match found.raised.least {
        Some(least) if found.missing.is_empty() => Ok(least),
        _ => Err(SitingUnknown::NoGustLimit { missing: found.missing }),
    }
}

fn of_gust(gust_m_per_s: f64) -> f64 {
    let [least, most] = GUSTS_M_PER_S;
    ((gust_m_per_s - least) / (most - least)).clamp(0.0, 1.0)
}

fn of_walk(walk_m: f64) -> f64 {
    let [short, long] = WALKS_M;
    1.0 - ((walk_m - short) / (long - short)).clamp(0.0, 1.0)
}

/// A whole cone faces everybody; the middle of a part faces whoever stands before it wholly, and nobody behind it.
fn faces(job: &Job, strands: &Strands, mast: [f64; 2], eyes: &Eyes) -> f64 {
    if strands.sweep_deg >= 360.0 {
        return 1.0;
    }
    let middle_deg = job.placement.front_bearing_deg + strands.facing_turn_deg;
    let toward_deg = of_vector(eyes.east_m - mast[0], eyes.north_m - mast[1]);
    (1.0 + cos_deg(toward_deg - middle_deg)) / 2.0
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Half way from a fresh breeze to a storm is half a mark, and half way from a short walk to a long one; beyond the ends
    /// nothing changes.
    #[test]
    fn scales_by_hand() {
        assert_eq!([5.0, 10.0, 20.0, 30.0, 44.0].map(of_gust), [0.0, 0.0, 0.5, 1.0, 1.0]);
        assert_eq!([20.0, 50.0, 225.0, 400.0, 900.0].map(of_walk), [1.0, 1.0, 0.5, 0.0, 0.0]);
    }
}
