//! The Plan: where everything goes, how long everything is, how sure that is, and what is wrong.

mod types;

pub use types::*;

use crate::job::Job;

/// Computes the whole plan of a job.
///
/// # Errors
/// Only where the job can't be placed at all (a fix that leads nowhere); everything else is a finding.
pub fn plan(_job: &Job) -> Result<Plan, crate::job::FieldErrors> {
    todo!()
}

/// A plan with what it was computed on, as the drawings need it.
#[derive(Debug, Clone)]
pub struct Computed {
    pub plan: Plan,
    pub yard: crate::yard::PlacedYard,
    pub ground: crate::ground::Ground,
}
