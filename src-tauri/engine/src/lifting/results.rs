//! What lifting comes to.

use serde::Serialize;

use super::body::Turning;
use super::hands::HardestPush;
use super::line::{LinePull, RiggedLine};
use crate::source::SourceKey;
use crate::wind_capacity::MastPart;

/// The forces of one job's raising.
#[derive(Debug, Clone, PartialEq)]
pub struct LiftingWork {
    /// None where nobody has said how it turns up, or a weight is not known.
    pub tilt: Option<TiltWork>,
    pub tilt_gust: GustFound,
    /// In the order of the cranking.
    pub stage_gusts: Vec<StageGust>,
}

/// The mast turning up.
#[derive(Debug, Clone, PartialEq)]
pub struct TiltWork {
    pub turning: Turning,
    pub lie: Lie,
    /// With hands alone.
    pub hardest: HardestPush,
    /// On level ground it would be so hard.
    pub level_hardest_n: f64,
    /// The line over a prop where the job has one: at its hardest.
    pub line: Option<LinePull>,
    pub rigged: Option<RiggedLine>,
    pub kick: KickOut,
    /// The most that the hinge is lifted with; none where it is pressed down all the way.
    pub hinge_lifts: Option<HingeLifts>,
    /// The most used tube; none where what it bears is not known.
    pub bend: Option<BendUse>,
    /// By whole degrees from lying to plumb.
    pub angles: Vec<TiltForces>,
}

/// How the ground runs where the mast lies.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Lie {
    /// Hands above the ground on which those who walk it up stand.
    pub hands_m: f64,
    /// The hinge above the ground beneath it.
    pub hinge_m: f64,
    /// Rise over run of the ground from the hinge along the lying mast: below nought where that is downhill.
    pub along: f64,
    /// To the right of who looks along the lying mast.
    pub across: f64,
}

/// The mast at one angle.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TiltForces {
    pub elevation_deg: f64,
    /// At the hands, square to the tube; or in the line.
    pub force_n: f64,
    /// Its part straight up, on the mast.
    pub up_n: f64,
    /// From the hinge along the mast to the hands, or to where the line is tied.
    pub at_m: f64,
    /// Level push of the foot away from the side on which the mast lies.
    pub away_n: f64,
    /// What lifts the hinge; below nought where it is pressed down.
    pub lifts_n: f64,
    pub bend_use: Option<f64>,
}

/// The foot pushed away from those who raise it, and what holds it.
#[derive(Debug, Clone, PartialEq)]
pub struct KickOut {
    pub most_n: f64,
    pub at_deg: f64,
    /// What stakes or ground hold; none where that is not known. Nobody's foot is counted.
    pub holds_n: Option<f64>,
    pub by: HeldBy,
    pub source: Option<SourceKey>,
}

/// What keeps the foot from kicking out.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum HeldBy {
    /// The cross leg lashed to the two stakes outside its edge.
    EdgeStakes,
    /// The base's own stakes, or what rubs under it.
    StakedBase,
}

#[derive(Debug, Clone, Copy, PartialEq)]
pub struct HingeLifts {
    pub most_n: f64,
    pub at_deg: f64,
}

/// A tube bent by the mast's own weight.
#[derive(Debug, Clone, PartialEq)]
pub struct BendUse {
    pub tube: String,
    /// Moment over what the tube may carry: 1 is the limit.
    pub utilisation: f64,
    pub moment_nm: f64,
    pub at_deg: f64,
    /// The hardest that a mouth presses on the tube in it: moment over the distance of its two bearings, with the shear; none without a
    /// tube that goes into another, or where that distance is not known.
    pub socket_n: Option<f64>,
}

/// The gust up to which something holds.
#[derive(Debug, Clone, PartialEq)]
pub struct GustLimit {
    /// As a forecast tells it.
    pub gust_m_per_s: f64,
    pub by: GustBy,
    /// The mast's angle to the level; none of a mast that stands.
    pub at_deg: Option<f64>,
}

/// What gives first.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(tag = "by", rename_all = "snake_case")]
pub enum GustBy {
    /// Those who push or pull, with the people that it takes.
    Hands,
    /// What keeps it from going over sideways, a guy by its name.
    Side { guy: String },
    /// A guy that stops it at plumb.
    Stop { guy: String },
    /// Helpers at ropes in hands.
    RopesInHands,
    /// The strap or its hook.
    Strap,
    /// A part of the standing mast.
    Part { part: MastPart },
    /// Nobody handles such things in more, whatever holds.
    HighWind,
}

/// What has to be known before there is a gust.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum GustMissing {
    HowItTurnsUp,
    CordWeight,
    CordThickness,
    /// What a breeze does to strands that hang is not worked out.
    HangingStrands,
    /// Rope or anchor of a guy that holds it.
    RopesAndAnchors,
    /// Nothing holds one side, or nothing stops it.
    NothingHolds,
    /// What the wind page says is missing.
    PartsInWind,
    StrapLabel,
    RodAndWinch,
}

/// High wind where material is handled: more than 30 mph. Source: 29 CFR 1926.968, definitions, as quoted.
pub const HIGH_WIND_M_PER_S: f64 = 13.4112;

/// A gust, or what is missing for it.
#[derive(Debug, Clone, PartialEq)]
pub struct GustFound {
    pub limit: Option<GustLimit>,
    pub missing: Vec<GustMissing>,
}

impl GustFound {
    pub fn missing(missing: GustMissing) -> Self {
        Self { limit: None, missing: vec![missing] }
    }

    /// The least of several and of high wind; none while one of them is not known.
    pub(super) fn least(found: impl IntoIterator<Item = Result<GustLimit, GustMissing>>) -> Self {
        let mut least = GustLimit { gust_m_per_s: HIGH_WIND_M_PER_S, by: GustBy::HighWind, at_deg: None };
        let mut missing = Vec::new();
        for found in found {
            match found {
                Ok(limit) if limit.gust_m_per_s < least.gust_m_per_s => least = limit,
                Ok(_) => {}
                Err(open) => missing.push(open),
            }
        }
        Self { limit: missing.is_empty().then_some(least), missing }
    }
}

/// One stage of the cranking.
#[derive(Debug, Clone, PartialEq)]
pub struct StageGust {
    /// The tube that goes up.
    pub tube: u32,
    pub found: GustFound,
}
