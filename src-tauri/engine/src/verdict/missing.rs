//! What has to be entered before anybody can say, and the parts of the mast that it is about.

use serde::{Deserialize, Serialize};

use crate::finding::wind::PartName;
use crate::resistance::Unshown;

/// A part that can be the weakest.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct MastPart {
    /// Such as `rope upper-1`; the same from one answer to the next.
    pub id: String,
    pub kind: PartKind,
    pub name: PartName,
    /// The guy it belongs to, such as `upper-1`.
    pub guy: Option<String>,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum PartKind {
    Tube,
    /// The tubes where they are drilled for a pin.
    PinHole,
    /// The pin that carries a tube in the one below.
    Pin,
    /// The coupling by which a tube is screwed on.
    Coupling,
    /// What keeps the collar of a level of guys up.
    Collar,
    /// The thread of a tube that is screwed on.
    Thread,
    Rope,
    Anchor,
    Strands,
    /// The timber under the mast's foot.
    Timber,
    /// A timber of the base, bent where it is halved into the other.
    BaseTimber,
    /// A foot under a leg of the base, as a post.
    Foot,
    /// The ground under the base.
    Ground,
    /// The base against sliding, by its stakes or by friction.
    BaseSliding,
    /// The base against turning, where the mast's foot is held in it.
    BaseTurning,
    /// The mast as a whole: whether it stands at all.
    WholeMast,
}

impl PartKind {
    /// Every kind, in the order of the table in docs/methods/wind-capacity.md.
    pub const ALL: [PartKind; 16] = [
        PartKind::Tube,
        PartKind::PinHole,
        PartKind::Pin,
        PartKind::Thread,
        PartKind::Coupling,
        PartKind::Collar,
        PartKind::Rope,
        PartKind::Anchor,
        PartKind::Timber,
        PartKind::BaseTimber,
        PartKind::Foot,
        PartKind::Ground,
        PartKind::BaseSliding,
        PartKind::WholeMast,
        PartKind::Strands,
        PartKind::BaseTurning,
    ];

    /// What the kind is called in that table. Every kind is covered by the analysis: while one part is not shown to
    /// hold, there is no limit.
    pub fn title(self) -> &'static str {
        match self {
            PartKind::Tube => "tube",
            PartKind::PinHole => "at a pin hole",
            PartKind::Pin => "pin",
            PartKind::Thread => "thread",
            PartKind::Coupling => "coupling",
            PartKind::Collar => "guy collar",
            PartKind::Rope => "guy rope",
            PartKind::Anchor => "anchor",
            PartKind::Timber => "timber",
            PartKind::BaseTimber => "base timber",
            PartKind::Foot => "foot",
            PartKind::Ground => "ground",
            PartKind::BaseSliding => "base sliding",
            PartKind::WholeMast => "mast as a whole",
            PartKind::Strands => "strands as side guys",
            PartKind::BaseTurning => "base against turning",
        }
    }
}

/// What an entry that is missing says.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum MissingKind {
    /// The soil under the turf.
    Soil,
    /// The soil is known, and no rule shows what it carries.
    OtherSoil,
    /// What a level's guys are made fast to.
    AnchorKind,
    /// A screw's helix and how deep it lies.
    ScrewData,
    /// The anchor is known, and no rule shows what it holds: a proof pull does.
    ProofPull,
    /// What a thing of the yard may be pulled with that holds a guy.
    FixingHold,
    /// What a rope breaks at.
    RopeStrength,
    /// What fibre it is of.
    RopeFibre,
    /// Its end is known, and no rule shows that it holds.
    RopeEnd,
    /// A tube, hole or thread that no rule covers.
    Tube,
    /// How wide the holes are through which a tube is pinned to the one below.
    PinHole,
    /// How thick the pins are.
    Pin,
    /// How thick the coupling is by which a tube is screwed on.
    Coupling,
    /// What keeps the collar of a level's guys from sliding down.
    Collar,
    /// A collar that is only squeezed onto the tube: no rule shows what it holds.
    OtherCollar,
    /// What the mast stands on.
    Seat,
    /// How thick one strand is: what the wind takes hold of.
    StrandThickness,
    /// What one strand weighs.
    StrandMass,
    /// How a level's guys are made fast when the mast is run down.
    WhenLowered,
    /// The strands are counted on as guys.
    StrandsHelp,
    /// The foot is counted on against turning.
    FootFixing,
}

/// An entry without which there is no gust limit.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct MissingEntry {
    pub kind: MissingKind,
    /// Where in the job it is entered, as a JSON pointer.
    pub pointer: String,
    /// The guy level or tube that it is about, by its name.
    pub about: Option<String>,
    /// The parts that can't be shown to hold without it.
    pub serves: Vec<MastPart>,
    /// Why they can't.
    pub reason: Unshown,
}
