//! What the fits of a mast come to.

use serde::Serialize;

use crate::finding::Finding;
use crate::source::SourceKey;
use crate::tube::DiameterRange;

/// How the tubes of a mast slide in each other.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct TubeFit {
    /// The lowest first; tubes that are screwed on have none.
    pub joints: Vec<FitJoint>,
    /// How far the mast's top moves to either side by the play of all joints together, guys slack; none where a play is not known.
    pub top_wander_m: Option<f64>,
    pub findings: Vec<Finding>,
}

/// What is known of a tube's diameters.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct TubeDiameters {
    pub outside_mm: f64,
    pub bore_mm: f64,
    /// Between what the outside lies; none where nobody has measured it and its standard was not found to say.
    pub outside: Option<DiameterRange>,
    pub bore: Option<DiameterRange>,
    pub outside_by: SizeBy,
    pub bore_by: SizeBy,
}

/// By what a diameter is known.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum SizeBy {
    Calliper,
    /// By what its standard allows.
    Standard,
    /// By the listed size alone.
    ListAlone,
}

/// How a tube slides in another, by the difference of the diameters; for work by hand, common practice.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum FitClass {
    /// No tube of these sizes goes in.
    DoesNotEnter,
    /// Some do, some do not.
    MayNotEnter,
    /// Less play than paint and dents take.
    Tight,
    Sliding,
    /// It slides, and leans: rings at both ends of the overlap are worth their trouble.
    Loose,
}

/// The difference of the diameters.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct Play {
    /// Thickest tube in narrowest bore, and thinnest in widest.
    pub worst: DiameterRange,
    /// Of 95 in 100 pairs, every size between the limits as likely.
    pub likely: DiameterRange,
}

/// Two tubes, one in the other.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct FitJoint {
    /// The inner tube, counted from 0 at the bottom.
    pub tube: u32,
    pub inner: String,
    pub outer: String,
    pub inner_sizes: TubeDiameters,
    pub outer_sizes: TubeDiameters,
    /// By the listed sizes, or the middle of what was measured.
    pub nominal_play_mm: f64,
    /// None where a diameter is not known.
    pub play: Option<Play>,
    pub class: FitClass,
    pub overlap_m: f64,
    pub least_overlap: LeastOverlap,
    pub bushings: Bushings,
    /// Between what the tube bears on: the middles of the two bushings, else the ends of the overlap.
    pub bearing_m: f64,
    /// How far it leans at the most by its play.
    pub lean_deg: Option<f64>,
    /// What this joint alone moves the mast's top by, to either side.
    pub top_wander_m: Option<f64>,
    pub checks: Vec<ShopCheck>,
    /// What else of the tables slides in the outer tube, the least play first.
    pub goes_in: Vec<ListedFit>,
}

/// The shortest overlap that still holds.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct LeastOverlap {
    pub length_m: f64,
    pub because: OverlapBecause,
}

/// What asks for the least overlap.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum OverlapBecause {
    /// Twice the inner tube's outside.
    TwoDiameters,
    /// Both bushings and the pin's hole between them, with its distances.
    BushingsAndPin,
}

/// What goes between two tubes.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(tag = "kind", rename_all = "snake_case")]
pub enum Bushings {
    /// It slides well enough without.
    NotNeeded,
    /// Nobody knows yet between what they go.
    NotKnown,
    /// They would come out thinner than a ring can be turned.
    TooThin {
        wall_mm: f64,
    },
    Turned {
        upper: Box<Bushing>,
        lower: Box<Bushing>,
    },
}

/// A ring to turn.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct Bushing {
    /// What it is called where it is ticked off and measured: its sliding face.
    pub part: String,
    pub outside_mm: f64,
    pub bore_mm: f64,
    pub length_mm: f64,
    pub wall_mm: f64,
    /// From what it is turned; none where no listed pipe holds it: then from round bar.
    pub stock: Option<Stock>,
    /// Play of its sliding face.
    pub play: DiameterRange,
    /// What its sliding face measures as made.
    pub made_mm: Option<f64>,
}

/// A pipe to turn a bushing from.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct Stock {
    /// PVC schedule 40 by its trade size.
    pub size: String,
    pub outside: DiameterRange,
    pub bore: DiameterRange,
    pub source: SourceKey,
}

/// A tube that slides in the one of a joint.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct ListedFit {
    pub table: crate::tube::TubeTable,
    pub size: String,
    pub play: DiameterRange,
    pub class: FitClass,
}

/// What to look at in the shop, with the number that passes.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct ShopCheck {
    pub what: ShopLook,
    /// At most, or at least for a bore; none where it hangs on what nobody has measured.
    pub limit_mm: Option<f64>,
    pub source: SourceKey,
}

/// What is looked at.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum ShopLook {
    /// The largest reading of the inner tube's outside, all along it.
    LargestOutside,
    /// The smallest reading of the outer tube's bore.
    SmallestBore,
    /// Two readings at right angles differ by this at most.
    Ovality,
    /// How deep a dent may be, in either tube.
    Dent,
    /// How far a taut line along the inner tube stands off it.
    Straightness,
    /// How high the weld's bead may stand inside the outer tube.
    WeldSeam,
    /// How much thread may lie within the length that slides.
    Thread,
}
