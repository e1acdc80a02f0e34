//! The mast plumbed live: what a phone on the tube reads now, and what that asks of guys, blocks and legs.

use mastwright_engine::job;
use mastwright_engine::plan;
use mastwright_engine::plumbing::{PlumbGeometry, PlumbState, live, tone_hz};
use mastwright_engine::quantity::bearing::wrap_360;
use mastwright_engine::quantity::{FieldErrors, Units};
use mastwright_engine::report::capture::{self, Captured};
use mastwright_engine::report::{PlumbWords, plumb_state, plumb_sways, plumb_words};
use mastwright_engine::survey::hold::{Sample, Tilt};
use mastwright_engine::survey::plumb::LeanSide;
use mastwright_engine::survey::tilt::GravitySign;
use serde::{Deserialize, Serialize};

use crate::capture::{OrientationSample, TubeHold, TubeSide};
use crate::messages::JobRequest;

/// What a phone on the tube has read up to now. No job: what of it counts was asked for once (`plumb_geometry`).
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
#[serde(deny_unknown_fields)]
pub struct PlumbLiveRequest {
    pub geometry: PlumbGeometry,
    pub units: Units,
    /// Which side of the tube the phone is on now.
    pub side: TubeSide,
    /// Sides that were taken before.
    pub taken: Vec<TubeHold>,
    /// In order of time, the latest last.
    pub samples: Vec<Sample>,
    /// In place of samples, where the device has only these.
    #[serde(default)]
    pub orientations: Vec<OrientationSample>,
    pub sign: GravitySign,
}

/// How the tube stands now.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct PlumbLiveAnswer {
    pub state: PlumbState,
    pub says: String,
    /// To be taken as this side's reading.
    pub tilt: Option<Tilt>,
    pub may_take: bool,
    pub seconds: f64,
    pub sway: String,
    /// While the phone's own error is not known it is in the uncertainty.
    pub lean: Option<Captured>,
    /// The lean's parts as one sees them who looks at the screen: to the right (negative: left), and towards one (negative: away).
    pub to_the_right: Option<Captured>,
    pub towards_you: Option<Captured>,
    /// Only where the lean is known free of the phone's error.
    pub words: Option<PlumbWords>,
    /// Rises towards plumb; none while nothing is known.
    pub tone_hz: Option<f64>,
}

/// What plumbing needs of a job.
pub fn plumb_geometry(request: &JobRequest) -> Result<PlumbGeometry, FieldErrors> {
    let job = job::read_job_value(&request.job)?;
    let plan = plan::compute(&job)?.plan;
    Ok(PlumbGeometry::of(&job, &plan))
}

pub fn plumb_live(request: &PlumbLiveRequest) -> Result<PlumbLiveAnswer, FieldErrors> {
    let PlumbLiveRequest { geometry, units, .. } = request;
    let facing = |side: TubeSide| wrap_360(geometry.front_bearing_deg + side.turn_from_front_deg());
    let side = |hold: &TubeHold| LeanSide { facing_deg: facing(hold.side), held: hold.held };
    let taken: Vec<LeanSide> = request.taken.iter().map(side).collect();
    let facing_deg = facing(request.side);
    let felt: Vec<Sample>;
    let (samples, sign) = if request.orientations.is_empty() {
        (request.samples.as_slice(), request.sign)
    } else {
        felt = request.orientations.iter().map(OrientationSample::felt).collect();
        (felt.as_slice(), GravitySign::Up)
    };
    let found = live(geometry, &taken, facing_deg, samples, sign);
    // The sign says which way; the words beside the arrow say it, so the figure does not.
    let along = |bearing_deg: f64| {
        let part = |lean: mastwright_engine::survey::plumb::Lean| {
            let value = lean.along_deg(bearing_deg);
            Captured { value, ..capture::slope(value.abs(), lean.sigma_deg, *units) }
        };
        found.lean.map(part)
    };
    let known = found.lean.filter(|_| found.todo.is_some());
    Ok(PlumbLiveAnswer {
        state: found.state,
        says: plumb_state(found.state),
        tilt: found.sway.tilt,
        may_take: found.may_take,
        seconds: found.sway.seconds,
        sway: plumb_sways(found.sway.sway_deg, *units),
        lean: found.lean.map(|lean| capture::slope(lean.lean_deg, lean.sigma_deg, *units)),
        // Who looks at a screen that looks along ψ has east of north to the left: their right is ψ − 90°.
        to_the_right: along(facing_deg - 90.0),
        towards_you: along(facing_deg),
        words: known
            .zip(found.todo.as_ref())
            .map(|(lean, todo)| plumb_words(&lean, todo, geometry.raised_height_m, *units)),
        tone_hz: known.map(|lean| tone_hz(lean.lean_deg)),
    })
}
