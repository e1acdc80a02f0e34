//! Which tube slides in which, with how much play, by the tubes in hand or by what their standards allow, and what goes between.
//!
//! [`sizes`] is what each tube may measure, [`joint`] how two of them meet, [`bushing`] the rings to turn, [`checks`] what to look at in
//! the shop, [`pairs`] what else would go in. How and how well: `docs/methods/workshop.md`.

pub mod bushing;
pub mod checks;
pub mod joint;
pub mod pairs;
mod results;
pub mod sizes;

pub use results::*;

use crate::job::Job;
use crate::quantity::FieldErrors;

/// The diameters of every tube of the job, the bottom one first: what somebody measured goes before what is listed.
///
/// # Errors
/// Where a section is unknown.
pub fn diameters(job: &Job) -> Result<Vec<TubeDiameters>, FieldErrors> {
    let tubes = job.rig.mast_tubes()?;
    Ok(job.rig.tubes.iter().zip(&tubes).map(|(tube, placed)| sizes::of(tube, placed)).collect())
}

/// Every joint of the mast, the lowest first.
///
/// # Errors
/// Where a section is unknown or a tube is not there to be fitted.
pub fn fit(job: &Job) -> Result<TubeFit, FieldErrors> {
    let tubes = job.rig.mast_tubes()?;
    let sizes = diameters(job)?;
    let top_m = joint::top_m(&tubes);
    let mut found = TubeFit { joints: Vec::new(), top_wander_m: Some(0.0), findings: Vec::new() };
    for index in 1..tubes.len() {
        let Some(joint) = joint::between(job, &tubes, &sizes, index, top_m, &mut found.findings) else {
            continue;
        };
        found.top_wander_m = found.top_wander_m.zip(joint.top_wander_m).map(|(sum, more)| sum + more);
        found.joints.push(joint);
    }
    if found.joints.is_empty() {
        found.top_wander_m = None;
    }
    Ok(found)
}
