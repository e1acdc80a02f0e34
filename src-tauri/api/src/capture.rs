//! Operations of the phone as an instrument: what its sensors read, with uncertainty and in words.

use mastwright_engine::finding::Finding;
use mastwright_engine::job::{self, Instruments, RoundLean};
use mastwright_engine::plan;
use mastwright_engine::plumbing::PlumbGeometry;
use mastwright_engine::quantity::bearing::wrap_360;
use mastwright_engine::quantity::{FieldError, FieldErrors, Units};
use mastwright_engine::report::capture::{self, Captured};
use mastwright_engine::report::{FindingText, PlumbWords, bearing_how, cautions, finding_text, plumb_words};
use mastwright_engine::survey::flat::{FlatReading, flat_slope as slope_of};
use mastwright_engine::survey::hold::{self, HoldRules, HoldState, Sample, Tilt};
use mastwright_engine::survey::measured_height::{HeightReadings, measured_height};
use mastwright_engine::survey::plumb::{LeanSide, lean};
use mastwright_engine::survey::sights::{self, CompassSample, Sights};
use mastwright_engine::survey::tilt::{GravitySign, RestsOn, gravity_from_orientation};
use mastwright_engine::survey::zero::{self, ZeroError};
use serde::{Deserialize, Serialize};

/// One event of the orientation sensor, which stands in where the motion sensor gives nothing.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
#[serde(deny_unknown_fields)]
pub struct OrientationSample {
    pub time_ms: f64,
    pub beta_deg: f64,
    pub gamma_deg: f64,
}

/// A request to judge whether a phone lies still, from its readings so far.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
#[serde(deny_unknown_fields)]
pub struct HoldRequest {
    /// In order of time, the latest last.
    pub samples: Vec<Sample>,
    /// Which way this device's readings point at rest.
    pub sign: GravitySign,
    /// In place of samples, where the device has only these.
    #[serde(default)]
    pub orientations: Vec<OrientationSample>,
    pub units: Units,
}

/// How a hold stands, in numbers and words.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct HoldAnswer {
    pub state: HoldState,
    /// With noise and rounding as their uncertainty; none until there are readings enough.
    pub long_edge: Option<Captured>,
    pub short_edge: Option<Captured>,
    pub spread: String,
}

pub fn hold(request: &HoldRequest) -> Result<HoldAnswer, FieldErrors> {
    let state = if request.orientations.is_empty() {
        hold::hold(&request.samples, &HoldRules { sign: request.sign, ..HoldRules::default() })
    } else {
        let samples: Vec<Sample> = request.orientations.iter().map(OrientationSample::felt).collect();
        hold::hold(&samples, &HoldRules::default())
    };
    let words = |value: fn(&Tilt) -> f64| {
        state.tilt.map(|tilt| capture::slope(value(&tilt), tilt.standard_uncertainty_deg, request.units))
    };
    Ok(HoldAnswer {
        long_edge: words(|tilt| tilt.long_edge_deg),
        short_edge: words(|tilt| tilt.short_edge_deg),
        spread: capture::slope(state.spread_deg, 0.0, request.units).shown,
        state,
    })
}

impl OrientationSample {
    pub(crate) fn felt(&self) -> Sample {
        Sample {
            time_ms: self.time_ms,
            acceleration: gravity_from_orientation(self.beta_deg, self.gamma_deg),
        }
    }
}

/// A hold, or a hold and its repeat with the phone turned end for end.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
#[serde(deny_unknown_fields)]
pub struct TiltRequest {
    pub first: Tilt,
    pub turned: Option<Tilt>,
    /// The zero errors kept for this device, one for each side it may rest on.
    pub zeros: Vec<ZeroError>,
    /// Milliseconds since 1970, for the age of a zero error.
    pub now_ms: f64,
    pub units: Units,
}

/// Slopes of both edges free of the zero error, as well as that is known.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct TiltAnswer {
    pub rests_on: RestsOn,
    pub long_edge: Captured,
    pub short_edge: Captured,
    /// Uncertainty without what the zero error leaves, and what that leaves to all readings alike.
    pub own_sigma_deg: f64,
    pub zero_sigma_deg: f64,
    /// To keep for the device; none from a single hold.
    pub zero: Option<ZeroError>,
    pub zero_long_edge: Option<Captured>,
    pub findings: Vec<FindingText>,
}

pub fn tilt(request: &TiltRequest) -> Result<TiltAnswer, FieldErrors> {
    let TiltRequest { first, turned, zeros, now_ms, units } = request;
    let reading = match turned {
        Some(turned) => zero::pair(first, turned, zeros, *now_ms),
        None => zero::single(first, zeros, *now_ms),
    }
    .map_err(|error| refused("readings", &error))?;
    Ok(TiltAnswer {
        rests_on: reading.rests_on,
        long_edge: capture::slope(reading.long_edge_deg, reading.sigma_deg, *units),
        short_edge: capture::slope(reading.short_edge_deg, reading.sigma_deg, *units),
        own_sigma_deg: reading.own_sigma_deg,
        zero_sigma_deg: reading.zero_sigma_deg,
        zero_long_edge: reading.zero.map(|zero| capture::slope(zero.long_edge_deg, zero.sigma_deg, *units)),
        zero: reading.zero,
        findings: texts(&reading.findings, *units),
    })
}

/// A phone lying flat with its heading in the yard's bearing reference.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
#[serde(deny_unknown_fields)]
pub struct FlatSlopeRequest {
    pub heading_deg: f64,
    /// None: the instrument's usual one.
    pub heading_sigma_deg: Option<f64>,
    pub long_edge_deg: f64,
    pub short_edge_deg: f64,
    pub sigma_deg: f64,
    pub screen_up: bool,
    pub instruments: Instruments,
    pub units: Units,
}

/// A slope reading for the job, with its slope in words.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct SlopeAlongAnswer {
    pub bearing: Captured,
    pub slope: Captured,
}

/// The ground under a phone lying flat.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct FlatSlopeAnswer {
    pub slope: Captured,
    /// As a reading in the yard's reference; none where the ground may be level.
    pub fall: Option<Captured>,
    /// Along the phone and across it.
    pub readings: [SlopeAlongAnswer; 2],
}

pub fn flat_slope(request: &FlatSlopeRequest) -> Result<FlatSlopeAnswer, FieldErrors> {
    let heading_sigma_deg = request.heading_sigma_deg.unwrap_or(request.instruments.bearing_sigma_deg);
    let units = request.units;
    let flat = slope_of(&FlatReading {
        heading_deg: request.heading_deg,
        heading_sigma_deg,
        long_edge_deg: request.long_edge_deg,
        short_edge_deg: request.short_edge_deg,
        sigma_deg: request.sigma_deg,
        screen_up: request.screen_up,
    })
    .ok_or_else(|| {
        FieldError::new("", "edges no phone lying flat can have", "a phone lying flat, and its heading")
    })?;
    Ok(FlatSlopeAnswer {
        slope: capture::slope(flat.slope_deg, flat.sigma_deg, units),
        fall: flat.fall_bearing_deg.map(|fall| capture::bearing(fall, flat.fall_sigma_deg, units)),
        readings: flat.edges.map(|edge| SlopeAlongAnswer {
            bearing: capture::bearing(edge.bearing_deg, heading_sigma_deg, units),
            slope: capture::slope(edge.slope_deg, edge.sigma_deg, units),
        }),
    })
}

/// A side of the tube, by the leg of the base that lies on it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum TubeSide {
    Front,
    Right,
    Back,
    Left,
}

impl TubeSide {
    pub(crate) fn turn_from_front_deg(self) -> f64 {
        match self {
            Self::Front => 0.0,
            Self::Right => 90.0,
            Self::Back => 180.0,
            Self::Left => 270.0,
        }
    }
}

/// A phone held upright on one side of the tube, its back to it.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
#[serde(deny_unknown_fields)]
pub struct TubeHold {
    pub side: TubeSide,
    pub held: Tilt,
}

/// The holds round the standing tube.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
#[serde(deny_unknown_fields)]
pub struct PlumbRequest {
    #[cfg_attr(feature = "typegen", ts(type = "Job"))]
    pub job: serde_json::Value,
    pub holds: Vec<TubeHold>,
}

/// How the tube leans and what takes it out.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct PlumbAnswer {
    pub words: PlumbWords,
    /// As a reading in the yard's reference.
    pub towards_reading: Captured,
    pub scatter: String,
    pub caution: String,
    /// As the season's diary keeps it.
    pub for_the_diary: RoundLean,
}

pub fn plumb(request: &PlumbRequest) -> Result<PlumbAnswer, FieldErrors> {
    let job = job::read_job_value(&request.job)?;
    let plan = plan::compute(&job)?.plan;
    let front_deg = job.placement.front_bearing_deg;
    let side = |hold: &TubeHold| LeanSide {
        facing_deg: wrap_360(front_deg + hold.side.turn_from_front_deg()),
        held: hold.held,
    };
    let sides: Vec<LeanSide> = request.holds.iter().map(side).collect();
    let lean = lean(&sides).map_err(|error| refused("holds", &error))?;
    let geometry = PlumbGeometry::of(&job, &plan);
    let todo = geometry.plumbing(&lean);
    let units = job.units;
    // How unsure the direction is: the lean's own sigma aside, over the lean.
    let towards_sigma_deg = (lean.sigma_deg / lean.lean_deg.max(1e-6)).to_degrees().min(90.0);
    let reading_deg = wrap_360(lean.towards_deg - plan.north.add_to_reading_deg);
    Ok(PlumbAnswer {
        words: plumb_words(&lean, &todo, geometry.raised_height_m, units),
        towards_reading: capture::bearing(reading_deg, towards_sigma_deg, units),
        scatter: capture::slope(lean.scatter_deg, 0.0, units).shown,
        caution: cautions::PLUMBING.to_owned(),
        for_the_diary: RoundLean {
            to_front_deg: lean.along_deg(front_deg),
            to_right_deg: lean.along_deg(front_deg + TubeSide::Right.turn_from_front_deg()),
            sigma_deg: Some(lean.sigma_deg),
        },
    })
}

/// Sights over a phone's top; each is the compass's events of one aim.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
#[serde(deny_unknown_fields)]
pub struct BearingRequest {
    #[cfg_attr(feature = "typegen", ts(type = "Job"))]
    pub job: serde_json::Value,
    pub forward: Vec<Vec<CompassSample>>,
    #[serde(default)]
    pub back: Vec<Vec<CompassSample>>,
    /// Sights from the same spot along a line whose bearing is known.
    #[serde(default)]
    pub line: Option<SightedLine>,
}

/// Sights along the line between two marks.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
#[serde(deny_unknown_fields)]
pub struct SightedLine {
    pub from: String,
    pub to: String,
    pub sights: Vec<Vec<CompassSample>>,
}

/// A bearing by compass.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct BearingAnswer {
    /// From magnetic north.
    pub compass: Captured,
    /// In the yard's own reference, to be stored; none where that can't be had from the compass alone.
    pub bearing: Option<Captured>,
    /// The same from the plan's north, for what is kept so.
    pub true_deg: Option<f64>,
    /// In words: how it got there, or what is missing.
    pub how: String,
    /// Sights used, and those left out because they stand out.
    pub used: usize,
    pub left_out: usize,
    pub spread: String,
    /// How far the sight back lies from the sight there; none without one.
    pub disagreement: Option<String>,
    /// Nothing speaks against it.
    pub agrees: bool,
    /// A sight along a known line would be better.
    pub line_is_better: bool,
    pub findings: Vec<FindingText>,
}

pub fn bearing(request: &BearingRequest) -> Result<BearingAnswer, FieldErrors> {
    let job = job::read_job_value(&request.job)?;
    let sighted = sights::bearing(
        &Sights {
            forward: &request.forward,
            back: &request.back,
            line: request.line.as_ref().map_or(&[], |line| line.sights.as_slice()),
            compass_sigma_deg: job.yard.instruments.bearing_sigma_deg,
        },
        "sight",
    )
    .map_err(|error| refused("forward", &error))?;
    let units = job.units;
    let line = request.line.as_ref().map(|line| [line.from.as_str(), line.to.as_str()]);
    let yard_bearing = plan::yard_bearing(&job, line, &sighted)?;
    let findings: Vec<Finding> = sighted.findings.iter().chain(&yard_bearing.findings).cloned().collect();
    let disagreement = sighted.both_ways.as_ref();
    Ok(BearingAnswer {
        compass: capture::bearing(sighted.compass_deg, sighted.sigma_deg, units),
        bearing: yard_bearing.reading.map(|[bearing, sigma]| capture::bearing(bearing, sigma, units)),
        true_deg: yard_bearing.true_deg,
        how: bearing_how(&yard_bearing.how),
        used: request.forward.len().saturating_sub(sighted.forward.left_out.len()),
        left_out: sighted.forward.left_out.len(),
        spread: capture::slope(sighted.forward.spread_deg, 0.0, units).shown,
        disagreement: disagreement.map(|both| capture::slope(both.disagreement_deg.abs(), 0.0, units).shown),
        agrees: findings.is_empty(),
        line_is_better: !yard_bearing.by_line && !findings.is_empty(),
        findings: texts(&findings, units),
    })
}

/// The readings of one height.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
#[serde(deny_unknown_fields)]
pub struct HeightRequest {
    pub readings: HeightReadings,
    pub instruments: Instruments,
    pub units: Units,
}

/// A measured height.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct HeightAnswer {
    pub height: Captured,
    pub distance: Option<Captured>,
    /// What would make it surer; empty where it is sure enough.
    pub advice: String,
}

pub fn height(request: &HeightRequest) -> Result<HeightAnswer, FieldErrors> {
    let HeightRequest { readings, instruments, units } = request;
    let found = measured_height(readings, instruments).map_err(|error| refused("readings", &error))?;
    Ok(HeightAnswer {
        height: capture::length(found.height_m.value, found.height_m.sigma, *units),
        distance: found.distance_m.map(|distance| capture::length(distance.value, distance.sigma, *units)),
        advice: if found.rough { capture::ROUGH_HEIGHT.to_owned() } else { String::new() },
    })
}

fn refused(field: &str, error: &dyn std::error::Error) -> FieldErrors {
    FieldError::new(field, "what was measured", error.to_string()).into()
}

fn texts(findings: &[Finding], units: Units) -> Vec<FindingText> {
    findings.iter().map(|finding| finding_text(finding, units)).collect()
}
