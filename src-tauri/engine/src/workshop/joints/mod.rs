//! The base on the bench: the crossing of its timbers, the seat of the mast, bolts, stakes, feet, boards; and which shapes of a base
//! this ground takes.
//!
//! [`joints()`] gathers it of a job as planned; a file a joint. How and how well: `docs/methods/workshop.md`.

mod boards;
mod crossing;
pub mod feet;
mod findings;
mod results;
mod seat;
mod shapes;
mod stakes;

pub use crossing::{BOLT_MORE_MM, FLUSH_WITHIN_MM, lap};
pub use results::*;

use crate::job::Job;
use crate::plan::Computed;
use crate::quantity::FieldErrors;
use crate::workshop::fit::TubeFit;

/// The base's joints.
///
/// # Errors
/// Where a section is unknown.
pub fn joints(job: &Job, computed: &Computed, fit: &TubeFit) -> Result<BaseJoints, FieldErrors> {
    let foot = seat::Foot::of(job)?;
    let seat = seat::seat(job, &foot);
    let boards = boards::boards(job, computed, fit)?;
    let mut found = BaseJoints {
        lap: crossing::lap(job),
        bolts: crossing::bolts(job, &foot),
        seat,
        stakes: stakes::stakes(job),
        feet: feet::feet(job, &computed.plan),
        not_measured: feet::not_measured(&computed.plan),
        boards,
        shapes: shapes::shapes(job, computed),
        findings: Vec::new(),
    };
    found.findings = findings::of(job, &found);
    Ok(found)
}
