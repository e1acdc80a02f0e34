//! What can be changed for more wind, as data; `report::words::changes` says each step.

use serde::{Deserialize, Serialize};

/// A kind of change, by which the parts that it addresses ask for it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum ChangeKind {
    AnchorsFartherOut,
    GuysTighter,
    GuysLooser,
    RopeThicker,
    RopeStiffer,
    RopeEndsBetter,
    FourGuys,
    SecondLevel,
    AnchorsProved,
    AnchorsBigger,
    AnchorsTimber,
    SoilFirmer,
    TubesStronger,
    TubesLarger,
    PinHoleSmaller,
    LessHigh,
    BiggerPads,
    SeatPlate,
    TimberWider,
    JointPacked,
    FootThicker,
    WoodHarder,
    MoreStakes,
    LongerStakes,
    ThickerStakes,
    FewerStrands,
    StrandsLooser,
    NoTopper,
}

/// One step, as it is made in this job.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum WindStep {
    AnchorsFartherOut,
    GuysTighter,
    GuysLooser,
    RopeThicker,
    RopeStiffer,
    RopeEndsBetter,
    FourGuys,
    SecondLevel,
    /// Needs a load told with it.
    AnchorsProved,
    AnchorsBigger,
    AnchorsTimber,
    /// The sand one class denser.
    SandDenser,
    /// Any other soil one class stiffer.
    SoilStiffer,
    TubesStronger,
    TubesLarger,
    PinHoleSmaller,
    /// The telescoped top tube raised less.
    TopTubeLower,
    /// A length cut off the top.
    MastShorter,
    /// Boards under the feet where there are none, or small ones.
    Boards,
    /// Those that are there half as wide again.
    BoardsWider,
    /// A plate under the mast's foot where there is none, or a small one.
    SeatPlate,
    /// The one that is there half as wide again.
    SeatPlateWider,
    TimberWider,
    JointPacked,
    FootThicker,
    WoodHarder,
    MoreStakes,
    LongerStakes,
    ThickerStakes,
    FewerStrands,
    StrandsLooser,
    NoTopper,
}

/// A step, and how many times it is made.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct RepeatedStep {
    pub step: WindStep,
    pub times: u32,
}

impl WindStep {
    pub fn kind(self) -> ChangeKind {
        match self {
            WindStep::AnchorsFartherOut => ChangeKind::AnchorsFartherOut,
            WindStep::GuysTighter => ChangeKind::GuysTighter,
            WindStep::GuysLooser => ChangeKind::GuysLooser,
            WindStep::RopeThicker => ChangeKind::RopeThicker,
            WindStep::RopeStiffer => ChangeKind::RopeStiffer,
            WindStep::RopeEndsBetter => ChangeKind::RopeEndsBetter,
            WindStep::FourGuys => ChangeKind::FourGuys,
            WindStep::SecondLevel => ChangeKind::SecondLevel,
            WindStep::AnchorsProved => ChangeKind::AnchorsProved,
            WindStep::AnchorsBigger => ChangeKind::AnchorsBigger,
            WindStep::AnchorsTimber => ChangeKind::AnchorsTimber,
            WindStep::SandDenser | WindStep::SoilStiffer => ChangeKind::SoilFirmer,
            WindStep::TubesStronger => ChangeKind::TubesStronger,
            WindStep::TubesLarger => ChangeKind::TubesLarger,
            WindStep::PinHoleSmaller => ChangeKind::PinHoleSmaller,
            WindStep::TopTubeLower | WindStep::MastShorter => ChangeKind::LessHigh,
            WindStep::Boards | WindStep::BoardsWider => ChangeKind::BiggerPads,
            WindStep::SeatPlate | WindStep::SeatPlateWider => ChangeKind::SeatPlate,
            WindStep::TimberWider => ChangeKind::TimberWider,
            WindStep::JointPacked => ChangeKind::JointPacked,
            WindStep::FootThicker => ChangeKind::FootThicker,
            WindStep::WoodHarder => ChangeKind::WoodHarder,
            WindStep::MoreStakes => ChangeKind::MoreStakes,
            WindStep::LongerStakes => ChangeKind::LongerStakes,
            WindStep::ThickerStakes => ChangeKind::ThickerStakes,
            WindStep::FewerStrands => ChangeKind::FewerStrands,
            WindStep::StrandsLooser => ChangeKind::StrandsLooser,
            WindStep::NoTopper => ChangeKind::NoTopper,
        }
    }
}

impl ChangeKind {
    /// The stable short name, such as `anchors_farther_out`.
    pub fn name(self) -> &'static str {
        match self {
            ChangeKind::AnchorsFartherOut => "anchors_farther_out",
            ChangeKind::GuysTighter => "guys_tighter",
            ChangeKind::GuysLooser => "guys_looser",
            ChangeKind::RopeThicker => "rope_thicker",
            ChangeKind::RopeStiffer => "rope_stiffer",
            ChangeKind::RopeEndsBetter => "rope_ends_better",
            ChangeKind::FourGuys => "four_guys",
            ChangeKind::SecondLevel => "second_level",
            ChangeKind::AnchorsProved => "anchors_proved",
            ChangeKind::AnchorsBigger => "anchors_bigger",
            ChangeKind::AnchorsTimber => "anchors_timber",
            ChangeKind::SoilFirmer => "soil_firmer",
            ChangeKind::TubesStronger => "tubes_stronger",
            ChangeKind::TubesLarger => "tubes_larger",
            ChangeKind::PinHoleSmaller => "pin_hole_smaller",
            ChangeKind::LessHigh => "less_high",
            ChangeKind::BiggerPads => "bigger_pads",
            ChangeKind::SeatPlate => "seat_plate",
            ChangeKind::TimberWider => "timber_wider",
            ChangeKind::JointPacked => "joint_packed",
            ChangeKind::FootThicker => "foot_thicker",
            ChangeKind::WoodHarder => "wood_harder",
            ChangeKind::MoreStakes => "more_stakes",
            ChangeKind::LongerStakes => "longer_stakes",
            ChangeKind::ThickerStakes => "thicker_stakes",
            ChangeKind::FewerStrands => "fewer_strands",
            ChangeKind::StrandsLooser => "strands_looser",
            ChangeKind::NoTopper => "no_topper",
        }
    }
}
