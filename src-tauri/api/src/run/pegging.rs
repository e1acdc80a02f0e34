//! The way from peg to peg.

use mastwright_engine::quantity::FieldErrors;
use mastwright_engine::{job, pegging, plan, report};

use crate::messages::{JobRequest, PegOutAnswer};

pub fn peg_out(request: &JobRequest) -> Result<PegOutAnswer, FieldErrors> {
    let job = job::read_job_value(&request.job)?;
    let surveyed = plan::survey(&job.yard, job.units)?;
    let points = plan::FixedPoints::of(&surveyed, &job);
    let computed = plan::compute_on_points(&surveyed, &points, &job)?;
    let guide = pegging::guide(&surveyed, &points, &job, &computed);
    let report = report::pegging(&job, &computed, &guide);
    Ok(PegOutAnswer { guide, report })
}
