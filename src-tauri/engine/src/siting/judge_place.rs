//! Whether the whole plan accepts a place: nothing says stop, and what keeps a distance keeps it with its whole 95 %
//! interval.

use std::borrow::Cow;

use crate::finding::guys::GuyRule;
use crate::finding::{Finding, Rule, Severity, Subject};
use crate::job::{Job, Placement, PointFix, Rig};
use crate::plan::{
    Checked, FixedPoints, Layout, Surveyed, check_near, check_placed, lay_out_for_map, surfaces,
};
use crate::quantity::FieldErrors;
use crate::yard::flat::P2;

use super::poses::{Pose, anchored_rig};
use super::score::{AMPLE_CLEARANCE_M, falls_on};

/// A place with its whole layout held against the yard.
pub(super) struct TriedPlace {
    pub layout: Layout,
    pub checked: Checked,
    /// Why it was refused; none where it is good.
    pub refused: Option<Finding>,
}

pub(super) fn placement(mast: P2, pose: Pose) -> Placement {
    Placement {
        mast: PointFix::Coordinates { east_m: mast[0], north_m: mast[1] },
        front_bearing_deg: pose.front_bearing_deg,
        guy_turn_deg: pose.guy_turn_deg,
    }
}

impl TriedPlace {
    /// Whether something refuses it that is not about guys: mast, base and strands are where they are however those are turned.
    pub fn is_refused_without_guys(&self) -> bool {
        let refuses = |finding: &&Finding| {
            finding.severity == Severity::Stop || (finding.may_pass_its_limit() && !falls_on(finding))
        };
        let without_guys = |finding: &Finding| {
            let of = &finding.subject;
            matches!(of, Subject::Mast | Subject::Base | Subject::Ring)
                || matches!(of, Subject::Leg { .. } | Subject::Stake { .. })
        };
        self.findings().filter(refuses).chain(&self.refused).any(without_guys)
    }

    pub fn findings(&self) -> impl Iterator<Item = &Finding> {
        self.layout.findings.iter().chain(&self.checked.findings)
    }
}

/// The yard and the rig, with every point of them in its place: the same wherever the mast stands.
pub(super) struct InYard<'a> {
    pub surveyed: &'a Surveyed,
    pub job: &'a Job,
    pub points: FixedPoints,
}

impl InYard<'_> {
    /// What reaches in between two strands, which the plan's stages leave to whoever does not drag.
    fn between_strands(&self, place: &TriedPlace) -> Option<Finding> {
        let known: Vec<Finding> = place.findings().cloned().collect();
        let ground = &self.surveyed.fit.ground;
        let (found, _) = surfaces(self.job, &place.layout, &place.checked.yard, ground, &known);
        let stop = found.iter().find(|finding| finding.severity == Severity::Stop);
        stop.or_else(|| found.iter().find(|finding| finding.may_pass_its_limit())).cloned()
    }

    /// The parts as they are in this place: where a guy is moved, each anchor stands where it stands. An anchor that has no
    /// place is the plan's to find fault with.
    pub fn rig(&self, mast: P2, pose: Pose) -> Cow<'_, Rig> {
        let moved = pose.moved.and_then(|_| anchored_rig(self.surveyed, self.job, mast, pose));
        moved.map_or(Cow::Borrowed(&self.job.rig), Cow::Owned)
    }

    /// The stages of the plan in their order, for one place.
    ///
    /// # Errors
    /// As the stages.
    pub fn tried(&self, mast: P2, pose: Pose, clear_of_fall: bool) -> Result<TriedPlace, FieldErrors> {
        let layout = self.laid_out(mast, pose)?;
        let checked = check_placed(self.surveyed, &self.points, self.job, &layout)?;
        Ok(self.judged(layout, checked, pose, clear_of_fall))
    }

    /// The same, without what is so far off that it neither refuses the place nor takes a mark from it.
    ///
    /// # Errors
    /// As the stages.
    pub fn tried_near(&self, mast: P2, pose: Pose, clear_of_fall: bool) -> Result<TriedPlace, FieldErrors> {
        let layout = self.laid_out(mast, pose)?;
        let checked = check_near(self.surveyed, &self.points, self.job, &layout, AMPLE_CLEARANCE_M)?;
        Ok(self.judged(layout, checked, pose, clear_of_fall))
    }

    fn laid_out(&self, mast: P2, pose: Pose) -> Result<Layout, FieldErrors> {
        lay_out_for_map(self.surveyed, &self.rig(mast, pose), &placement(mast, pose))
    }

    fn judged(&self, layout: Layout, checked: Checked, pose: Pose, clear_of_fall: bool) -> TriedPlace {
        let mut place = TriedPlace { layout, checked, refused: None };
        let stop = place.findings().find(|finding| finding.severity == Severity::Stop);
        let doubt = || place.findings().find(|finding| finding.may_pass_its_limit() && !falls_on(finding));
        let fall = || place.findings().find(|finding| clear_of_fall && falls_on(finding));
        // A guy that the search itself makes fast to a thing leaves the others evenly spread.
        let to_thing = pose.moved.is_some_and(|moved| moved.to_thing.is_some());
        let uneven =
            || place.findings().find(|finding| to_thing && finding.rule == Rule::Guys(GuyRule::FarApart));
        let refused = stop.or_else(doubt).or_else(fall).or_else(uneven).cloned();
        place.refused = refused.or_else(|| self.between_strands(&place));
        place
    }
}
