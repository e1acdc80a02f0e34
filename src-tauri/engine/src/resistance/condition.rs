//! What must hold for the number of a part to be true. Data without a sentence; `report::words::conditions` makes those.

use serde::Serialize;

/// What must hold for a resistance to be true, or what it was reckoned with.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum Condition {
    // Tubes.
    LeastYieldTaken,
    YieldOfPapers,
    NetSection,
    /// A pin without papers, cut twice, and bearing on both walls.
    PlainSteelPin,
    /// A bolt without papers through collar and tube takes what pulls down; the collar bears sideways on the tube.
    CollarBolt,
    /// What carries the shoulder itself is not looked at.
    CollarShoulder,
    /// The coupling's steel outside the threads; made up tight.
    CouplingSleeve,
    // Ropes.
    NewRope,
    NewRopeWet,
    // Timber.
    WoodGives,
    SawnPost,
    /// The section left by a lap, spanning freely.
    LapSpansFreely,
    /// The same over a board under the joint.
    LapOverBoard,
    // Screws.
    TorqueAtFullDepth,
    ShaftThinnerThanTested,
    InLineWithShaft,
    /// What a wet season leaves is counted.
    GetsWetThrough,
    // Other anchors.
    PulledStraightUp,
    UndercutAcrossThePull,
    StoutPickets,
    BareSoilFriction,
    ProvedAsItWas,
    /// A thing of the yard, by the word of whoever answers for it.
    HoldAsSaid,
    // Stakes.
    SoilGivesFirst,
    BarBendsFirst,
    // The base on the ground.
    UndisturbedSoil,
    TimberOnBareSoil,
    StakesHoldLess,
    StakesTogether,
    // Several guys.
    GuysPullTogether,
    NearAnchorsCountAsOne,
}

/// The ground that a resistance was reckoned for, by the class of its rule.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum GroundClass {
    SolidRock,
    LayeredRock,
    Gravel,
    Sand,
    Clay,
    ClayOrSilt,
    SoftOrFill,
    Loam,
    RockOrHardpan,
    WetFineGrained,
    SandySoil,
    Unknown,
}
