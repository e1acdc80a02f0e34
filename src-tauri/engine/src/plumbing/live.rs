//! The standing tube while somebody pulls at it: what a phone on one of its sides reads now.

use serde::{Deserialize, Serialize};

use super::{PlumbGeometry, Plumbing};
use crate::survey::hold::{Sample, Sway, sway};
use crate::survey::plumb::{Lean, LeanSide, PhoneZero, lean, lean_of_side};
use crate::survey::tilt::{GravitySign, RestsOn};

/// Where a live reading stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum PlumbState {
    NoReadings,
    AxesMissing,
    NotUpright,
    /// Not sure enough yet to be shown.
    Gathering,
    /// Nothing tells the phone's own error from the lean yet.
    NeedsOppositeSide,
    SwaysTooMuch,
    Live,
}

/// A tube is read surely enough to take a side at this standard uncertainty: the phone lies on no better (`LAYING_SIGMA_DEG`).
const TAKEN_SIGMA_DEG: f64 = 0.25;

/// As long as a hold that is still (`HoldRules`).
const TAKEN_AFTER_S: f64 = 2.0;

/// What the phone reads now.
#[derive(Debug, Clone, PartialEq)]
pub struct PlumbLive {
    pub state: PlumbState,
    pub sway: Sway,
    /// Whether the side may be taken.
    pub may_take: bool,
    /// With an uncertain zero where no opposite sides were taken; none until there are readings.
    pub lean: Option<Lean>,
    /// Only where the phone's own error is known.
    pub todo: Option<Plumbing>,
}

/// The lean as the latest readings have it, the phone looking along `facing_deg`; `taken` are sides that were taken before,
/// from which the phone's own error follows once two of them are opposite.
pub fn live(
    geometry: &PlumbGeometry,
    taken: &[LeanSide],
    facing_deg: f64,
    samples: &[Sample],
    sign: GravitySign,
) -> PlumbLive {
    let sway = sway(samples, sign);
    let zero = lean(taken).ok().map(|lean| lean.phone_zero());
    let side = sway.tilt.map(|held| LeanSide { facing_deg, held });
    let found = side.and_then(|side| lean_of_side(&side, &zero.unwrap_or(PhoneZero::UNKNOWN)).ok());
    let state = match sway.tilt {
        None if sway.axes_missing => PlumbState::AxesMissing,
        None if samples.is_empty() => PlumbState::NoReadings,
        None => PlumbState::Gathering,
        Some(tilt) if tilt.rests_on != RestsOn::Bottom => PlumbState::NotUpright,
        Some(_) if sway.too_much => PlumbState::SwaysTooMuch,
        Some(_) if zero.is_none() => PlumbState::NeedsOppositeSide,
        Some(_) => PlumbState::Live,
    };
    let upright = sway.tilt.is_some_and(|tilt| tilt.rests_on == RestsOn::Bottom);
    let sure = sway.tilt.is_some_and(|tilt| tilt.standard_uncertainty_deg <= TAKEN_SIGMA_DEG);
    PlumbLive {
        state,
        sway,
        may_take: upright && sure && sway.seconds >= TAKEN_AFTER_S && !sway.too_much,
        todo: found.filter(|_| state == PlumbState::Live).map(|lean| geometry.plumbing(&lean)),
        lean: found,
    }
}

/// The pitch of the tone: three octaves from 220 Hz, highest at plumb (common practice: an ear tells a tenth of a tone).
pub fn tone_hz(lean_deg: f64) -> f64 {
    const LOWEST_HZ: f64 = 220.0;
    const LOWEST_AT_DEG: f64 = 3.0;
    let near = 1.0 - (lean_deg.abs() / LOWEST_AT_DEG).min(1.0);
    LOWEST_HZ * crate::numerics::real::exp2(3.0 * near)
}
