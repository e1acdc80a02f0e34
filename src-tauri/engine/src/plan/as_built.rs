//! What really stands against what was planned: where the parts were found, what that changes, what is wrong only now.

use std::collections::BTreeMap;

use super::compute::{Built, Extent, InYard, build};
use super::layout::{Layout, PlacedWork, lay_out_at};
use super::points::Points;
use super::surveyed::Surveyed;
use super::{
    AsBuiltGuy, AsBuiltItem, AsBuiltLegResult, AsBuiltResult, Deviation, GuyResult, LocatedPoint, Plan,
};
use crate::finding::points::{PointRemedy, PointRule};
use crate::finding::{Finding, Limit, Quantity, Severity, Subject};
use crate::guys::guy::FoundAnchor;
use crate::job::{AsBuilt, Job, MAST_MARK, Mark, PointFix};
use crate::numerics::chi_square::CHI_SQUARE_95_2;
use crate::numerics::real::hypot;
use crate::pointer;
use crate::quantity::bearing;
use crate::quantity::{FieldError, FieldErrors};
use crate::source::SourceKey;
use crate::stakeout::ties::ties;
use crate::survey::ellipse::{covariance_of_95, ellipse_95};
use crate::survey::positions::{PositionEstimate, Positions};

/// The work as it really stands, with what that changes against the plan.
pub(super) fn as_built(
    in_yard: &InYard,
    built: &AsBuilt,
    planned: &Built,
    points: Points,
) -> Result<Built, FieldErrors> {
    let InYard { job, surveyed, .. } = in_yard;
    let found = Found::of(job, built, surveyed, &planned.layout)?;
    // Where the pegs would go from the mast as it stands: what pegging out can explain is judged from there.
    let from_mast = PlacedWork { anchors: BTreeMap::new(), ..found.placed_work.clone() };
    let expected = lay_out_at(surveyed, &job.rig, &job.placement, from_mast, Extent::Map)?.guys;
    let mut stands = build(in_yard, found.placed_work.clone(), points, Extent::Whole)?;
    let items = found.items(&planned.plan, &expected, &stands.plan);
    let told = |item: &&AsBuiltItem| match &item.subject {
        Subject::Guy { id } => {
            let guys = &planned.plan.guys;
            guys.iter().find(|guy| guy.id == *id).is_none_or(|guy| guy.tells_of_anchor(guys))
        }
        _ => true,
    };
    stands.plan.findings.extend(items.iter().filter(told).filter_map(far_from_plan));
    stands.plan.findings.extend(found.findings);
    stands.plan.findings.sort_by_key(|finding| finding.severity);
    let new_findings = new_findings(&planned.plan.findings, &stands.plan.findings);
    stands.plan.points.extend(found.points);
    stands.plan.as_built = Some(AsBuiltResult { items, legs: legs(built, &planned.plan), new_findings });
    Ok(stands)
}

/// Where the parts of the work really stand.
pub(super) fn placed_as_built(
    job: &Job,
    built: &AsBuilt,
    surveyed: &Surveyed,
    planned: &Layout,
) -> Result<PlacedWork, FieldErrors> {
    Ok(Found::of(job, built, surveyed, planned)?.placed_work)
}

/// The measured points in their places.
struct Found {
    placed_work: PlacedWork,
    mast: Option<PositionEstimate>,
    points: Vec<LocatedPoint>,
    findings: Vec<Finding>,
}

impl Found {
    fn of(job: &Job, built: &AsBuilt, surveyed: &Surveyed, planned: &Layout) -> Result<Self, FieldErrors> {
        let mut found = Self {
            placed_work: planned.placed_work.clone(),
            mast: None,
            points: Vec::new(),
            findings: Vec::new(),
        };
        let mut errors = Vec::new();
        if let Err(error) = found.take_mast(job, built, surveyed, planned) {
            errors.push(error);
        }
        if let Some(reading_deg) = built.front_bearing_deg {
            found.placed_work.front_bearing_deg = surveyed.north.true_from_reading(reading_deg);
        }
        let with_mast = positions_with_mast(job, surveyed, &found.placed_work.mast_fix)?;
        for (index, anchor) in built.anchors.iter().enumerate() {
            if !planned.guys.iter().any(|guy| guy.id == anchor.guy) {
                found.findings.push(belongs_to_nothing(&anchor.guy));
                continue;
            }
            let mut placed = FoundAnchor { at: None, eye_height_m: anchor.eye_height_m };
            if let Some(fix) = &anchor.at {
                let path = pointer!(as_built?.anchors[index].at);
                match found.take_anchor(fix, &path, &with_mast, &anchor.guy) {
                    Ok(at) => placed.at = at,
                    Err(error) => errors.push(error),
                }
            }
            found.placed_work.anchors.insert(anchor.guy.clone(), placed);
        }
        found.share_anchors(&planned.guys);
        found.placed_work.gaps_m = built.legs.iter().map(|leg| (leg.leg.clone(), leg.gap_m)).collect();
        for point in &mut found.points {
            point.ground_m = surveyed.fit.ground.height([point.east_m, point.north_m]);
        }
        if errors.is_empty() { Ok(found) } else { Err(errors.into()) }
    }

    fn take_mast(
        &mut self,
        job: &Job,
        built: &AsBuilt,
        surveyed: &Surveyed,
        planned: &Layout,
    ) -> Result<(), FieldError> {
        const PATH: &str = pointer!(as_built?.mast);
        let Some(fix) = &built.mast else { return Ok(()) };
        if surveyed.positions.is_open(fix, PATH) {
            self.findings.push(side_not_said(Subject::Mast));
            return Ok(());
        }
        let at = surveyed.positions.locate(fix, PATH)?;
        let planned_at = planned.placed_work.mast;
        let ties = ties(planned_at, &surveyed.marks(&job.yard), &surveyed.fit.ground, &surveyed.instruments);
        let tied = ties.as_ref().map(|ties| (ties.mark_a.as_str(), ties.mark_b.as_str()));
        let pegged = surveyed.positions.pegged(planned_at, &job.placement.mast, tied);
        self.mast = Some(surveyed.positions.seen_from(&pegged, fix, PATH)?);
        self.placed_work.mast = at.at;
        self.placed_work.mast_fix = fix.clone();
        self.points.push(point(PATH, "mast as it stands", &at));
        Ok(())
    }

    fn take_anchor(
        &mut self,
        fix: &PointFix,
        path: &str,
        with_mast: &Positions,
        guy: &str,
    ) -> Result<Option<PositionEstimate>, FieldError> {
        if with_mast.is_open(fix, path) {
            self.findings.push(side_not_said(Subject::Guy { id: guy.to_owned() }));
            return Ok(None);
        }
        self.points.push(point(path, guy, &with_mast.locate(fix, path)?));
        match with_mast.at_mark(MAST_MARK) {
            Some(mast) => with_mast.seen_from(&mast, fix, path).map(Some),
            None => with_mast.locate(fix, path).map(Some),
        }
    }

    /// An anchor that several guys were planned to share was measured once, at one of them: it is where it is for all.
    fn share_anchors(&mut self, planned: &[GuyResult]) {
        for guy in planned {
            let at = |id: &String| self.placed_work.anchors.get(id).and_then(|anchor| anchor.at);
            if at(&guy.id).is_some() {
                continue;
            }
            let Some((of, at)) = guy.shared_with.iter().find_map(|id| Some((id, at(id)?))) else { continue };
            let measured_eye = self.placed_work.anchors.get(of).and_then(|anchor| anchor.eye_height_m);
            let anchor = self.placed_work.anchors.entry(guy.id.clone()).or_default();
            anchor.at = Some(at);
            anchor.eye_height_m = anchor.eye_height_m.or(measured_eye);
        }
    }

    fn items(&self, planned: &Plan, expected: &[GuyResult], stands: &Plan) -> Vec<AsBuiltItem> {
        let mut items = Vec::new();
        if let Some(seen) = &self.mast {
            let at = [planned.mast.east_m, planned.mast.north_m];
            items.push(AsBuiltItem {
                subject: Subject::Mast,
                name: "Mast".to_owned(),
                planned: at,
                deviation: Some(deviation(at, seen.at, at, seen.covariance)),
                guy: None,
            });
        }
        for guy in &stands.guys {
            let by_id = |guys: &[GuyResult]| guys.iter().find(|other| other.id == guy.id).cloned();
            let (Some(before), Some(expected)) = (by_id(&planned.guys), by_id(expected)) else { continue };
            let found = self.placed_work.anchors.get(&guy.id).and_then(|anchor| anchor.at);
            items.push(AsBuiltItem {
                subject: Subject::Guy { id: guy.id.clone() },
                name: format!("{} anchor", guy.name),
                planned: [before.east_m, before.north_m],
                deviation: found.map(|found| anchor_deviation(&before, &expected, &found)),
                guy: Some(AsBuiltGuy {
                    planned_cut_m: before.cut_m.value,
                    cut_m: guy.cut_m,
                    planned_angle_deg: before.angle_deg,
                    angle_deg: guy.angle_deg,
                }),
            });
        }
        items
    }
}

/// The marks of the yard with one more where the mast stands, from which anchors may be measured.
fn positions_with_mast(job: &Job, surveyed: &Surveyed, mast: &PointFix) -> Result<Positions, FieldErrors> {
    if job.yard.marks.iter().any(|mark| mark.id == MAST_MARK) {
        return Ok(surveyed.positions.clone());
    }
    let mut with_mast = job.yard.clone();
    let mark = Mark { id: MAST_MARK.to_owned(), name: String::new(), at: mast.clone() };
    with_mast.marks.push(mark);
    Ok(Surveyed::with_north(&with_mast, surveyed.north.clone(), surveyed.units)?.positions)
}

fn point(path: &str, name: &str, located: &PositionEstimate) -> LocatedPoint {
    LocatedPoint {
        path: path.to_owned(),
        name: name.to_owned(),
        east_m: located.at[0],
        north_m: located.at[1],
        ground_m: 0.0,
        ellipse_95: ellipse_95(located),
    }
}

/// How far an anchor stands from its plan, and whether pegging it out from the mast as that stands, and measuring
/// it again, explain it.
fn anchor_deviation(before: &GuyResult, expected: &GuyResult, found: &PositionEstimate) -> Deviation {
    let covariance = sum(covariance_of_95(&expected.landing_95), found.covariance);
    let from = [expected.east_m, expected.north_m];
    deviation([before.east_m, before.north_m], found.at, from, covariance)
}

/// A displacement from the plan; `expected` is where pegging should have put the point, `covariance` that of the
/// difference between it and what was found.
///
/// # References
/// The 95 % region of two variables is dᵀ·Σ⁻¹·d ≤ 5.991: Ghilani, *Adjustment Computations*, ch. 19. From memory.
fn deviation(
    planned: [f64; 2],
    measured_at: [f64; 2],
    expected: [f64; 2],
    covariance: [[f64; 2]; 2],
) -> Deviation {
    let [east, north] = [measured_at[0] - planned[0], measured_at[1] - planned[1]];
    let [off_east, off_north] = [measured_at[0] - expected[0], measured_at[1] - expected[1]];
    let [[ee, en], [_, nn]] = covariance;
    let (determinant, offset_m) = (ee * nn - en * en, hypot(off_east, off_north));
    let squared = (nn * off_east * off_east - 2.0 * en * off_east * off_north + ee * off_north * off_north)
        / determinant;
    let tolerance_95_m = if squared > 0.0 && squared.is_finite() {
        offset_m * (CHI_SQUARE_95_2 / squared).sqrt()
    } else {
        f64::INFINITY
    };
    Deviation {
        measured_at,
        moved_m: hypot(east, north),
        bearing_deg: bearing::of_vector(east, north),
        offset_m,
        tolerance_95_m: tolerance_95_m.is_finite().then_some(tolerance_95_m),
        out_of_tolerance: offset_m > tolerance_95_m,
    }
}

fn sum(a: [[f64; 2]; 2], b: [[f64; 2]; 2]) -> [[f64; 2]; 2] {
    [[a[0][0] + b[0][0], a[0][1] + b[0][1]], [a[1][0] + b[1][0], a[1][1] + b[1][1]]]
}

fn legs(built: &AsBuilt, planned: &Plan) -> Vec<AsBuiltLegResult> {
    let of = |id: &str| planned.base.legs.iter().find(|leg| leg.id == id);
    let leg = |leg: &crate::job::AsBuiltLeg| {
        let planned_gap_m = of(&leg.leg)?.gap_centre_m;
        Some(AsBuiltLegResult { leg: leg.leg.clone(), planned_gap_m, gap_m: leg.gap_m })
    };
    built.legs.iter().filter_map(leg).collect()
}

/// Places in the list of what the plan, as it stands, finds and did not find before.
fn new_findings(before: &[Finding], now: &[Finding]) -> Vec<u32> {
    let known = |finding: &Finding| {
        before.iter().any(|old| old.is_about_the_same(finding) && old.severity <= finding.severity)
    };
    (0..).zip(now).filter(|(_, finding)| !known(finding)).map(|(place, _)| place).collect()
}

fn far_from_plan(item: &AsBuiltItem) -> Option<Finding> {
    let deviation = item.deviation.as_ref().filter(|deviation| deviation.out_of_tolerance)?;
    let (rule, remedy) = (PointRule::StandsFarFromPlan, PointRemedy::MeasureWhatStandsAgain);
    Some(Finding {
        measured: Some(Quantity::LengthM { value: deviation.offset_m }),
        limit: deviation.tolerance_95_m.and_then(|value| Limit::at_most(Quantity::LengthM { value })),
        source: SourceKey::Ghilani,
        ..Finding::rule_of_thumb(Severity::Caution, rule, item.subject.clone(), remedy)
    })
}

fn belongs_to_nothing(guy: &str) -> Finding {
    let subject = Subject::Guy { id: guy.to_owned() };
    let (rule, remedy) = (PointRule::MeasuredAnchorWithoutGuy, PointRemedy::ClearTheAnchor);
    Finding::rule_of_thumb(Severity::Note, rule, subject, remedy)
}

fn side_not_said(subject: Subject) -> Finding {
    let (rule, remedy) = (PointRule::SideNotKnownAsBuilt, PointRemedy::NameItsSide);
    Finding::rule_of_thumb(Severity::Unchecked, rule, subject, remedy)
}

#[cfg(test)]
mod tests;
