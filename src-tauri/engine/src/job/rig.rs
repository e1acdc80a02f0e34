//! What is to be built.

use serde::{Deserialize, Serialize};

use super::AnchorKind;
use crate::numerics::vector::Vector;
use crate::quantity::convert::STANDARD_GRAVITY;
use crate::quantity::whole;
use crate::resistance::rope::{Breaking, GuyRope, RopeEnd, RopeMaterial};
use crate::resistance::timber::Wood;
use crate::resistance::tube::{CAUTIOUS_YIELD_MPA, SOFTEST_YIELD_MPA};
use crate::resistance::{Resistance, RopeUnshown};
use crate::tube::TubeTable;
use crate::wind::Body;

/// The mast with its base, guys, stakes and strands.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(deny_unknown_fields)]
pub struct Rig {
    /// The tubes, bottom one first.
    #[cfg_attr(feature = "typegen", schemars(length(min = 1, max = 6)))]
    pub tubes: Vec<Tube>,
    #[cfg_attr(feature = "typegen", schemars(length(min = 1, max = 2)))]
    pub guy_levels: Vec<GuyLevel>,
    pub base: Base,
    pub stakes: Stakes,
    #[serde(default)]
    pub strands: Option<Strands>,
    /// What stands on the mast's top.
    #[serde(default)]
    pub topper: Option<Topper>,
}

/// One tube of the mast.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(deny_unknown_fields)]
pub struct Tube {
    #[cfg_attr(feature = "typegen", schemars(length(max = 200)))]
    pub name: String,
    pub section: Section,
    #[cfg_attr(feature = "typegen", schemars(range(min = 0.1, max = 12)))]
    pub length_m: f64,
    /// Length that stays inside the tube below when raised; 0 for the bottom tube and one that is screwed on.
    #[serde(default)]
    #[cfg_attr(feature = "typegen", schemars(range(min = 0, max = 12)))]
    pub overlap_m: f64,
    /// How it is joined to the tube below.
    #[serde(default)]
    pub joint: TubeJoint,
    /// Hole through both tubes for the pin that carries this one; none as long as nobody has measured it.
    #[serde(default)]
    #[cfg_attr(feature = "typegen", schemars(range(min = 1, max = 60)))]
    pub pin_hole_mm: Option<f64>,
    /// Yield strength by the tube's papers; without, a cautious one is taken.
    #[serde(default)]
    #[cfg_attr(feature = "typegen", schemars(range(min = 100, max = 1000)))]
    pub yield_mpa: Option<f64>,
    /// The tube in hand, for what has to slide in what.
    #[serde(default)]
    pub calliper: Calliper,
}

impl Tube {
    /// Yield by its papers, or the least that a tube of its kind has, in MPa.
    pub fn least_yield_mpa(&self) -> f64 {
        self.yield_mpa.unwrap_or_else(|| self.section.least_yield_mpa())
    }
}

/// What a calliper reads of a tube in hand: at each end two readings at right angles, the larger and the smaller of them all. What
/// nobody has read is empty; then the table's limits hold, where it has any.
#[derive(Debug, Clone, Copy, PartialEq, Default, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(deny_unknown_fields, default)]
pub struct Calliper {
    #[cfg_attr(feature = "typegen", schemars(range(min = 5, max = 300)))]
    pub outside_mm: Option<f64>,
    #[cfg_attr(feature = "typegen", schemars(range(min = 5, max = 300)))]
    pub outside_across_mm: Option<f64>,
    #[cfg_attr(feature = "typegen", schemars(range(min = 3, max = 300)))]
    pub bore_mm: Option<f64>,
    #[cfg_attr(feature = "typegen", schemars(range(min = 3, max = 300)))]
    pub bore_across_mm: Option<f64>,
    /// Of the coupling by which the tube is screwed to the one below.
    #[cfg_attr(feature = "typegen", schemars(range(min = 5, max = 400)))]
    pub coupling_mm: Option<f64>,
    /// How far the calliper may be off either way; none for a tenth of a millimetre.
    #[cfg_attr(feature = "typegen", schemars(range(min = 0, max = 2)))]
    pub off_mm: Option<f64>,
}

/// How a tube is joined to the one below.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum TubeJoint {
    /// It stands in the tube below by its overlap.
    #[default]
    Telescoped,
    /// It is screwed to the tube below by a coupling on taper pipe threads.
    Threaded,
}

/// The section of a tube.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(tag = "kind", rename_all = "snake_case", deny_unknown_fields)]
pub enum Section {
    /// A size of a published table.
    Listed {
        table: TubeTable,
        #[cfg_attr(feature = "typegen", schemars(length(min = 1, max = 40)))]
        size: String,
    },
    /// As measured with a calliper.
    Measured {
        #[cfg_attr(feature = "typegen", schemars(range(min = 5, max = 300)))]
        outside_mm: f64,
        #[cfg_attr(feature = "typegen", schemars(range(min = 0.3, max = 50)))]
        wall_mm: f64,
    },
}

impl Section {
    /// What it yields at least without papers, in MPa. A tube known only by its measures may be of the softest steel, so
    /// that not knowing never counts for more than knowing.
    fn least_yield_mpa(&self) -> f64 {
        match self {
            Section::Listed { table: TubeTable::En10255Medium, .. } | Section::Measured { .. } => {
                SOFTEST_YIELD_MPA
            }
            Section::Listed { .. } => CAUTIOUS_YIELD_MPA,
        }
    }
}

/// The guys that leave the mast at one height.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(deny_unknown_fields)]
pub struct GuyLevel {
    #[cfg_attr(feature = "typegen", schemars(length(min = 1, max = 40)))]
    pub id: String,
    #[cfg_attr(feature = "typegen", schemars(length(max = 200)))]
    pub name: String,
    /// Height of the attachment above the foot of the mast, measured along it, mast raised.
    #[cfg_attr(feature = "typegen", schemars(range(min = 0.3, max = 60)))]
    pub attach_height_m: f64,
    /// From the mast's axis to where the rope leaves the collar.
    #[serde(default)]
    #[cfg_attr(feature = "typegen", schemars(range(min = 0, max = 500)))]
    pub collar_radius_mm: f64,
    #[cfg_attr(feature = "typegen", schemars(extend("enum" = [3, 4])))]
    #[serde(deserialize_with = "whole::read")]
    pub count: u8,
    pub anchor_layout: AnchorLayout,
    /// Height of the rope's lower end above the ground at the anchor.
    #[serde(default)]
    #[cfg_attr(feature = "typegen", schemars(range(min = 0, max = 3)))]
    pub anchor_eye_height_m: f64,
    pub rope: Rope,
    /// Tension set in each guy with no wind, at its upper end.
    #[cfg_attr(feature = "typegen", schemars(range(min = 5, max = 20000)))]
    pub tension_n: f64,
    /// Rope for the knot or splice at the mast, beyond the span.
    #[cfg_attr(feature = "typegen", schemars(range(min = 0, max = 5)))]
    pub upper_end_m: f64,
    /// Rope for the knot, tensioner and tail at the anchor, beyond the span.
    #[cfg_attr(feature = "typegen", schemars(range(min = 0, max = 10)))]
    pub lower_end_m: f64,
    /// What carries them on the mast.
    #[serde(default)]
    pub collar: GuyCollar,
    /// What is done with its guys when the mast is run down; it matters where their collar comes down with it.
    #[serde(default)]
    pub when_lowered: WhenLowered,
    /// What its guys are made fast to.
    #[serde(default)]
    pub anchor: AnchorKind,
    /// The pull that every anchor of the level withstood; it goes before every rule.
    #[serde(default)]
    #[cfg_attr(feature = "typegen", schemars(range(min = 1, max = 200000)))]
    pub proof_pull_n: Option<f64>,
    /// The one guy of the level that is made fast to a thing of the yard and not to the ground.
    #[serde(default)]
    pub to_thing: Option<GuyToThing>,
}

/// A guy that is made fast to a thing of the yard that may hold one.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(deny_unknown_fields)]
pub struct GuyToThing {
    /// Its number in the level, the first is 1.
    #[cfg_attr(feature = "typegen", schemars(range(min = 1, max = 4)))]
    #[serde(deserialize_with = "whole::read")]
    pub guy: u8,
    /// The thing's id.
    #[cfg_attr(feature = "typegen", schemars(length(min = 1, max = 40)))]
    pub thing: String,
}

/// The ring or collar round the tube that the guys of a level are made fast to. What nobody has measured is empty.
#[derive(Debug, Clone, Copy, PartialEq, Default, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(deny_unknown_fields, default)]
pub struct GuyCollar {
    pub held: CollarHeld,
    /// Of the one bolt straight through collar and tube.
    #[cfg_attr(feature = "typegen", schemars(range(min = 2, max = 40)))]
    pub bolt_mm: Option<f64>,
    /// How thick the collar itself is where the bolt goes through.
    #[cfg_attr(feature = "typegen", schemars(range(min = 0.5, max = 30)))]
    pub wall_mm: Option<f64>,
    /// How far the shoulder under the collar stands out beyond the tube, all round.
    #[cfg_attr(feature = "typegen", schemars(range(min = 0.5, max = 60)))]
    pub shoulder_mm: Option<f64>,
    /// How round the steel is that the rope bears on: half the thickness of a rod or shackle, the rounding of a plate's hole.
    #[cfg_attr(feature = "typegen", schemars(range(min = 0, max = 60)))]
    pub edge_radius_mm: Option<f64>,
    /// A thimble lies between rope and steel.
    pub thimble: bool,
}

/// What keeps a collar from sliding down the tube.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum CollarHeld {
    /// Nobody has said it.
    #[default]
    Unsaid,
    /// A bolt through collar and tube.
    Bolt,
    /// It lies on a coupling, a welded or pinned ring, or on the mouth of the tube below.
    Shoulder,
    /// By squeezing the tube: nobody shows what that holds.
    Clamped,
}

/// What is done with guys whose collar comes lower when the mast is run down.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum WhenLowered {
    /// Nobody has said it: then nothing shows how the lowered mast is held.
    #[default]
    Unsaid,
    /// Made fast again where the collar then is, and tightened as they were.
    MadeFast,
    /// Left as long as they are: they hang slack.
    Left,
}

/// How the anchors of a level are placed.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(tag = "rule", rename_all = "snake_case", deny_unknown_fields)]
pub enum AnchorLayout {
    /// All at one distance in plan.
    EqualRadius {
        #[cfg_attr(feature = "typegen", schemars(range(min = 0.3, max = 100)))]
        radius_m: f64,
    },
    /// All guys at one angle to the horizontal.
    EqualAngle {
        #[cfg_attr(feature = "typegen", schemars(range(min = 15, max = 75)))]
        angle_deg: f64,
    },
    /// All at one tape along the ground from the mast.
    EqualTape {
        #[cfg_attr(feature = "typegen", schemars(range(min = 0.3, max = 100)))]
        tape_m: f64,
    },
    /// Each where the user puts it, staying there when the mast moves.
    Free {
        #[cfg_attr(feature = "typegen", schemars(length(min = 3, max = 4)))]
        anchors: Vec<super::yard::PointFix>,
    },
}

/// A rope by the numbers that its maker gives.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(deny_unknown_fields)]
pub struct Rope {
    #[cfg_attr(feature = "typegen", schemars(length(max = 200)))]
    pub name: String,
    #[cfg_attr(feature = "typegen", schemars(range(min = 1, max = 60)))]
    pub diameter_mm: f64,
    #[cfg_attr(feature = "typegen", schemars(range(min = 0.5, max = 10000)))]
    pub mass_g_per_m: f64,
    /// Stretch in per cent of length at the tension below.
    #[cfg_attr(feature = "typegen", schemars(range(min = 0.01, max = 60)))]
    pub stretch_percent: f64,
    /// The tension at which the stretch was stated.
    #[cfg_attr(feature = "typegen", schemars(range(min = 1, max = 1000000)))]
    pub stretch_at_n: f64,
    /// What it breaks at, and how it is made fast.
    #[serde(default)]
    pub strength: RopeStrength,
}

/// How strong a guy of a rope is.
#[derive(Debug, Clone, Copy, PartialEq, Default, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(deny_unknown_fields, default)]
pub struct RopeStrength {
    /// The maker's least breaking strength; of an average one enter nine tenths. Without it nothing is shown.
    #[cfg_attr(feature = "typegen", schemars(range(min = 10, max = 1000000)))]
    pub minimum_n: Option<f64>,
    pub material: RopeMaterial,
    /// The weaker of its two ends.
    pub end: RopeEnd,
    /// By which the strength is divided; none for the material's own: 8 on fibre (10 on manila and polypropylene), 2 on
    /// steel. Below 5 and 2 nothing is shown.
    #[cfg_attr(feature = "typegen", schemars(range(min = 1.5, max = 20)))]
    pub design_factor: Option<f64>,
}

impl RopeStrength {
    /// What a guy of it may be pulled with: as strong as it is at the weaker of its ends.
    pub fn resistance(&self) -> Resistance {
        let Some(strength_n) = self.minimum_n else {
            return Resistance::not_shown(RopeUnshown::BreakingStrengthUnknown);
        };
        GuyRope {
            breaking: Breaking::Least { strength_n },
            material: self.material,
            ends: [self.end; 2],
            factor: self.design_factor,
        }
        .resistance()
    }
}

impl Rope {
    /// Axial stiffness E·A in newtons: the secant through the maker's stretch point, by Hooke's law.
    pub fn stiffness_n(&self) -> f64 {
        self.stretch_at_n / (self.stretch_percent / 100.0)
    }

    /// Weight per length in N/m.
    pub fn weight_n_per_m(&self) -> f64 {
        self.mass_g_per_m / 1000.0 * STANDARD_GRAVITY
    }
}

/// The timber base, level under the mast.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(deny_unknown_fields)]
pub struct Base {
    pub pattern: BasePattern,
    /// From the mast's axis to the tip of the front leg.
    #[cfg_attr(feature = "typegen", schemars(range(min = 0.2, max = 6)))]
    pub front_reach_m: f64,
    /// From the mast's axis to each tip of the cross leg.
    #[cfg_attr(feature = "typegen", schemars(range(min = 0.2, max = 6)))]
    pub side_reach_m: f64,
    /// From the mast's axis to the tip of the back leg; an X base only (a T ends at the cross leg's far face).
    #[serde(default)]
    #[cfg_attr(feature = "typegen", schemars(range(min = 0.2, max = 6)))]
    pub back_reach_m: Option<f64>,
    #[cfg_attr(feature = "typegen", schemars(range(min = 20, max = 500)))]
    pub timber_width_mm: f64,
    #[cfg_attr(feature = "typegen", schemars(range(min = 20, max = 500)))]
    pub timber_depth_mm: f64,
    /// From the top of the timber to the foot of the mast (a plate or socket).
    #[serde(default)]
    #[cfg_attr(feature = "typegen", schemars(range(min = -500, max = 1000)))]
    pub seat_height_mm: f64,
    /// Thickness of the foot along its leg; its outer face is flush with the tip.
    #[cfg_attr(feature = "typegen", schemars(range(min = 10, max = 500)))]
    pub foot_thickness_mm: f64,
    /// Width of the foot across its leg.
    #[cfg_attr(feature = "typegen", schemars(range(min = 10, max = 500)))]
    pub foot_width_mm: f64,
    /// A gap up to this is shimmed; a larger one gets a foot.
    #[cfg_attr(feature = "typegen", schemars(range(min = 0, max = 200)))]
    pub shim_up_to_mm: f64,
    /// How the mast's foot is held against turning.
    #[serde(default)]
    pub foot_fixing: FootFixing,
    #[serde(default)]
    pub wood: Wood,
    /// Side of the square plate between the mast's foot and the timber; none where the tube stands on the wood.
    #[serde(default)]
    #[cfg_attr(feature = "typegen", schemars(range(min = 20, max = 600)))]
    pub seat_plate_mm: Option<f64>,
    /// Thickness of that steel plate: it spreads the push as far as it is stiff. None where nobody has measured it; then
    /// it spreads nothing beyond the tube.
    #[serde(default)]
    #[cfg_attr(feature = "typegen", schemars(range(min = 1, max = 60)))]
    pub seat_plate_thickness_mm: Option<f64>,
    /// How deep each timber is cut where they are halved together under the mast; none for half of it.
    #[serde(default)]
    #[cfg_attr(feature = "typegen", schemars(range(min = 1, max = 400)))]
    pub lap_depth_mm: Option<f64>,
    /// Side of the square board that is packed tight between ground and timbers under the mast; none where the timbers
    /// span freely from foot to foot.
    #[serde(default)]
    #[cfg_attr(feature = "typegen", schemars(range(min = 20, max = 1000)))]
    pub joint_pad_mm: Option<f64>,
    /// Side of the square board under each foot; none where the foot itself stands on the ground.
    #[serde(default)]
    #[cfg_attr(feature = "typegen", schemars(range(min = 20, max = 1000)))]
    pub pad_mm: Option<f64>,
}

impl Base {
    /// How deep each timber is cut where they are halved together.
    pub fn lap_cut_mm(&self) -> f64 {
        self.lap_depth_mm.unwrap_or(0.5 * self.timber_depth_mm)
    }
}

/// How the mast's foot is held against turning.
#[derive(Debug, Clone, Copy, PartialEq, Default, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(tag = "kind", rename_all = "snake_case", deny_unknown_fields)]
pub enum FootFixing {
    /// It tips freely: the guys alone hold the mast up.
    #[default]
    Pinned,
    /// The base resists, as measured.
    Spring {
        #[cfg_attr(feature = "typegen", schemars(range(min = 0, max = 10000000)))]
        stiffness_nm_per_rad: f64,
    },
}

/// How the base timbers lie.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum BasePattern {
    /// A front leg and a cross leg, halved together at the mast.
    T,
    /// A front leg, a cross leg and a back leg.
    X,
}

/// The rebar stakes that hold the base.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(deny_unknown_fields)]
pub struct Stakes {
    /// At each leg's tip: 0, 1 (right side) or 2 (both sides).
    #[cfg_attr(feature = "typegen", schemars(range(min = 0, max = 2)))]
    #[serde(deserialize_with = "whole::read")]
    pub per_leg: u8,
    /// From the tip back to the stake.
    #[cfg_attr(feature = "typegen", schemars(range(min = 0, max = 2)))]
    pub inset_m: f64,
    #[cfg_attr(feature = "typegen", schemars(range(min = 5, max = 60)))]
    pub diameter_mm: f64,
    #[cfg_attr(feature = "typegen", schemars(range(min = 0.1, max = 3)))]
    pub length_m: f64,
}

/// The cone of light strands.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(deny_unknown_fields)]
pub struct Strands {
    #[cfg_attr(feature = "typegen", schemars(range(min = 1, max = 200)))]
    #[serde(deserialize_with = "whole::read")]
    pub count: u16,
    /// Height of the topper circle above the foot of the mast.
    #[cfg_attr(feature = "typegen", schemars(range(min = 0.3, max = 60)))]
    pub top_height_m: f64,
    #[cfg_attr(feature = "typegen", schemars(range(min = 0.1, max = 60)))]
    pub ring_radius_m: f64,
    /// Radius of the circle from which they hang at the top; where it is not given, half the topper's width, and
    /// without a topper half the thickness of the tube there.
    #[serde(default)]
    #[cfg_attr(feature = "typegen", schemars(range(min = 0, max = 5)))]
    pub top_radius_m: Option<f64>,
    /// The part of the ring in use: 360 for a full cone.
    #[cfg_attr(feature = "typegen", schemars(range(min = 1, max = 360)))]
    pub sweep_deg: f64,
    /// Turn of the middle of that part from the front leg, clockwise.
    #[serde(default)]
    #[cfg_attr(feature = "typegen", schemars(range(min = -360, max = 360)))]
    pub facing_turn_deg: f64,
    #[serde(default)]
    pub cord: Cord,
}

/// One light strand as the wind and the mast feel it.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(deny_unknown_fields, default)]
pub struct Cord {
    /// Of the cord with its lamps' area spread along it. None where nobody has measured it: then nobody knows what the
    /// wind presses on the strands.
    #[cfg_attr(feature = "typegen", schemars(range(min = 0.5, max = 60)))]
    pub diameter_mm: Option<f64>,
    /// With its lamps. None where nobody has weighed it.
    #[cfg_attr(feature = "typegen", schemars(range(min = 0.5, max = 5000)))]
    pub mass_g_per_m: Option<f64>,
    /// Tension set in each strand with no wind.
    #[cfg_attr(feature = "typegen", schemars(range(min = 1, max = 2000)))]
    pub tension_n: f64,
    /// Stretch in per cent of length at 100 N, hooks and ties included.
    #[cfg_attr(feature = "typegen", schemars(range(min = 0.01, max = 60)))]
    pub stretch_percent: f64,
    /// Whether the strands count as side guys. Nobody shows what their wires and hooks hold.
    pub side_help: bool,
}

impl Default for Cord {
    fn default() -> Self {
        Self {
            diameter_mm: None,
            mass_g_per_m: None,
            // What the plan says to set, hand-tight, so that the cord hardly sags: common practice.
            tension_n: 20.0,
            // Two bare copper wires of half a square millimetre, 117 GPa (common practice of handbooks), and no give in
            // hooks and ties: 100 N / (1 mm² · 117 GPa) = 0.085 %. The stiffer, the harder they pull in wind.
            stretch_percent: 0.1,
            side_help: false,
        }
    }
}

impl Cord {
    /// EA: the secant through its stretch at 100 N.
    pub fn stiffness_n(&self) -> f64 {
        100.0 / (self.stretch_percent / 100.0)
    }
}

/// A star, lantern or the like on the mast's top.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(deny_unknown_fields)]
pub struct Topper {
    /// Its greatest width.
    #[cfg_attr(feature = "typegen", schemars(range(min = 0.01, max = 5)))]
    pub width_m: f64,
    #[cfg_attr(feature = "typegen", schemars(range(min = 0.01, max = 5)))]
    pub height_m: f64,
    #[cfg_attr(feature = "typegen", schemars(range(min = 0, max = 200)))]
    pub mass_kg: f64,
    /// Share of width times height that is not air.
    #[serde(default = "solid")]
    #[cfg_attr(feature = "typegen", schemars(range(min = 1, max = 100)))]
    pub solid_percent: f64,
    /// Force coefficient; 1.8 is that of a flat board square to the wind, safe for everything rounder.
    #[serde(default = "flat")]
    #[cfg_attr(feature = "typegen", schemars(range(min = 0.2, max = 3)))]
    pub drag: f64,
}

impl Topper {
    /// What of it the wind takes hold of, with its middle in a place.
    pub fn in_wind(&self, middle: Vector) -> Body {
        let area_m2 = self.width_m * self.height_m * self.solid_percent / 100.0;
        Body { at: middle, area_m2, coefficient: self.drag }
    }
}

fn solid() -> f64 {
    100.0
}

fn flat() -> f64 {
    crate::wind::body::FLAT
}
