//! What turns about the hinge: the tubes where they are then, and all else at the upper end.

use crate::job::{Job, TiltedTubes};
use crate::plan::Plan;
use crate::quantity::FieldErrors;
use crate::raising::RaiseWay;
use crate::workshop::BenchWork;
use crate::workshop::stages;

/// A weight that turns about the hinge.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Turning {
    /// Sum of each part's mass and its distance from the hinge along the tube.
    pub moment_kg_m: f64,
    pub mass_kg: f64,
    /// From the hinge to the upper end.
    pub long_m: f64,
}

/// A tube of it, by distances from the hinge.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TurningTube {
    /// Its place in the rig.
    pub tube: usize,
    pub mass_kg: f64,
    pub low_m: f64,
    pub high_m: f64,
}

/// All that turns.
#[derive(Debug, Clone, PartialEq)]
pub struct TurningBody {
    /// From the bottom up.
    pub tubes: Vec<TurningTube>,
    /// Topper, ropes and cords: all at the upper end, which is more than there is.
    pub end_kg: f64,
}

impl TurningBody {
    pub fn long_m(&self) -> f64 {
        self.tubes.iter().map(|tube| tube.high_m).fold(0.0, f64::max)
    }

    /// Mass and centre together.
    pub fn turning(&self) -> Turning {
        let long_m = self.long_m();
        let moment: f64 = self.tubes.iter().map(|it| it.mass_kg * 0.5 * (it.low_m + it.high_m)).sum();
        let mass_kg = self.tubes.iter().map(|it| it.mass_kg).sum::<f64>() + self.end_kg;
        Turning { moment_kg_m: moment + self.end_kg * long_m, mass_kg, long_m }
    }
}

/// What turns up of a job's mast. None where a cord was not weighed, or nobody has said whether the tubes are run down.
///
/// # Errors
/// Where a section is unknown.
pub fn turning_body(
    job: &Job,
    plan: &Plan,
    bench: &BenchWork,
    way: &RaiseWay,
) -> Result<Option<TurningBody>, FieldErrors> {
    let Some(mass_kg) = stages::weight_kg(job, plan, &bench.fit, 0)? else { return Ok(None) };
    let foot_m = plan.mast.foot_m - way.hinge[2];
    let mut tubes = Vec::new();
    for (tube, (stage, drilled)) in plan.mast.stages.iter().zip(&bench.stages.tubes).enumerate() {
        let bottom_m = match job.raising.tubes {
            TiltedTubes::RunDown => drilled.stands_m,
            TiltedTubes::DrawnOut => stage.bottom_height_m,
            TiltedTubes::Unsaid if plan.mast.stages.len() == 1 => stage.bottom_height_m,
            TiltedTubes::Unsaid => return Ok(None),
        };
        let low_m = foot_m + bottom_m;
        tubes.push(TurningTube { tube, mass_kg: stage.mass_kg, low_m, high_m: low_m + drilled.length_m });
    }
    let of_tubes_kg: f64 = tubes.iter().map(|tube| tube.mass_kg).sum();
    Ok(Some(TurningBody { end_kg: (mass_kg - of_tubes_kg).max(0.0), tubes }))
}
