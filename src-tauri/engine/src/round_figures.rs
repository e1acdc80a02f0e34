//! What holds where nobody gave a figure: every limit and default of ours stands here once, with one value for users of
//! metres and one for users of feet and inches, round in either, and with where it comes from.
//!
//! Neither value is the other one converted: 0.5 m is no 1' 7 11/16", and 80 in is no 2.032 m. Where a publication sets
//! a least distance in one system, the other's value is rounded to the safe side.

use crate::quantity::convert::{
    FOOT_M, INCH_M, INCH_PER_100_FEET_MM_PER_M, KSI_MPA, MILE_PER_HOUR_M_PER_S as MILE_PER_HOUR,
    POUND_FORCE_N, POUND_PER_100_FEET_G_PER_M as POUND_PER_100_FEET,
};
use crate::quantity::{UnitSystem, Units, format};
use crate::source::SourceKey;

/// What a habit is a number of, in SI.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum FigureUnit {
    LengthM,
    /// Of a small thing, kept in millimetres.
    LengthMm,
    ForceN,
    MassGPerM,
    SpeedMPerS,
    StressMpa,
    /// What a tape is off by, and grows with it.
    MmPerM,
}

/// One figure, once in each system of units.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RoundFigure {
    pub unit: FigureUnit,
    metric: f64,
    imperial: f64,
    pub source: SourceKey,
}

impl RoundFigure {
    pub const fn of(self, system: UnitSystem) -> f64 {
        match system {
            UnitSystem::Metric => self.metric,
            UnitSystem::Imperial => self.imperial,
        }
    }

    /// As a sentence says it, in the user's units alone.
    pub fn said(self, system: UnitSystem) -> String {
        let (value, units) = (self.of(system), Units { system, inch_fraction: 16 });
        match self.unit {
            FigureUnit::LengthM => format::round_length(value, system),
            FigureUnit::LengthMm => format::length_small(value, units),
            FigureUnit::ForceN => format::force(value, units),
            FigureUnit::MassGPerM => format::field("mass_g_per_m", value, units),
            FigureUnit::SpeedMPerS => format::speed(value, units),
            FigureUnit::StressMpa => format::field("yield_mpa", value, units),
            FigureUnit::MmPerM => format::field("tape_sigma_mm_per_m", value, units),
        }
    }
}

/// A length of so many metres, or so many inches.
const fn length(metres: f64, inches: f64, source: SourceKey) -> RoundFigure {
    RoundFigure { unit: FigureUnit::LengthM, metric: metres, imperial: inches * INCH_M, source }
}

/// A small thing of so many millimetres, or so many inches.
const fn small(millimetres: f64, inches: f64, source: SourceKey) -> RoundFigure {
    RoundFigure {
        unit: FigureUnit::LengthMm,
        metric: millimetres,
        imperial: inches * INCH_M * 1000.0,
        source,
    }
}

use SourceKey::{
    AdaHeadroom, Asce7Fetch, CgaTolerance, CommonPractice, En1991_1_4, HoytClemence1989, NavedtraPickets,
    Nds2018, Tm5_5420, VehicleHeadroom,
};

/// Distances that the work keeps.
pub mod keep {
    use super::*;

    /// A crown moves in the wind and a rope chafes on bark; roots thicken near the trunk.
    pub const TREE: RoundFigure = length(0.5, 20.0, CommonPractice);
    /// A rope that swings must not beat on a gutter or a roof.
    pub const BUILDING: RoundFigure = length(0.5, 20.0, CommonPractice);
    /// Walls, fences, hedges.
    pub const BARRIER: RoundFigure = length(0.3, 12.0, CommonPractice);
    /// Lamp posts, flagpoles, play frames.
    pub const POST: RoundFigure = length(0.3, 12.0, CommonPractice);
    /// Anchors and stakes from the edge of a way: a foot or a wheel strays a little.
    pub const PATH: RoundFigure = length(0.3, 12.0, CommonPractice);
    /// The user drew the area itself: nothing is added.
    pub const KEEP_OFF: RoundFigure = length(0.0, 0.0, CommonPractice);
    /// On each side of the lying mast, and beyond its end: room for those who walk it up.
    pub const WALK_UP: RoundFigure = length(1.0, 40.0, CommonPractice);
    /// Hands of those who walk a mast up, over its hinge: before the chest, where a push is strong. Common practice.
    pub const HANDS_WALKING: RoundFigure = length(1.4, 55.0, CommonPractice);
    /// A loop of the lead that hangs lower than the plug, so that rain drips off there. Common practice.
    pub const DRIP_LOOP: RoundFigure = length(0.3, 12.0, CommonPractice);
    /// What those who walk it up step over.
    pub const STEP_OVER: RoundFigure = length(0.3, 12.0, CommonPractice);
    /// 80 in (2032 mm): 2010 ADA Standards 307.4, from memory.
    pub const HEADROOM_FOOT: RoundFigure = length(2.05, 80.0, AdaHeadroom);
    /// 4.50 m: RASt 06 (Germany), clearance profile of motor traffic, from memory; 14 ft 9 in, so 15 ft. The fire-lane
    /// minimum of IFC 503.2.1, 13 ft 6 in (from memory), lies below both.
    pub const HEADROOM_VEHICLES: RoundFigure = length(4.5, 180.0, VehicleHeadroom);
    /// How far houses or wood reach upwind to be counted, up to 30 ft of height: 1,500 ft (457 m), ASCE 7-16, 26.7.3.
    pub const FETCH_LOW: RoundFigure = length(500.0, 18_000.0, Asce7Fetch);
    /// The same above 30 ft: 2,600 ft (792 m).
    pub const FETCH_HIGH: RoundFigure = length(800.0, 31_200.0, Asce7Fetch);
    /// 2 km: EN 1991-1-4, A.2, procedure 1.
    pub const FETCH_EN1991: RoundFigure = length(2000.0, 79_200.0, En1991_1_4);
    /// 24 in from the outside edge, each side; 0.65 m is not below it. Of the states read 18 in hold in Colorado, New
    /// Mexico, Ohio, South Dakota and Wisconsin, 24 in in California, Indiana, Minnesota and North Dakota, and 48 in in
    /// Michigan (utilities' pages). A yard does not say in which state it lies, so that a finding names the larger one
    /// until a distance is entered.
    pub const BURIED_TOLERANCE: RoundFigure = length(0.65, 24.0, CgaTolerance);
}

/// What somebody sees who looks at the yard.
pub mod view {
    use super::*;

    /// Of a grown person's eyes above the floor.
    pub const EYE: RoundFigure = length(1.6, 63.0, CommonPractice);
    /// From one line of the net over the surveyed ground to the next.
    pub const NET: RoundFigure = length(2.0, 72.0, CommonPractice);
    /// The same in a large yard.
    pub const WIDE_NET: RoundFigure = length(5.0, 216.0, CommonPractice);
    pub const WIDEST_NET: RoundFigure = length(20.0, 720.0, CommonPractice);
}

/// What a new job begins with, until somebody measures.
pub mod begin {
    use super::*;

    pub const MAST_NORTH: RoundFigure = length(5.0, 192.0, CommonPractice);
    pub const TUBE: RoundFigure = length(3.0, 120.0, CommonPractice);
    pub const OVERLAP: RoundFigure = length(0.6, 24.0, CommonPractice);
    pub const ATTACHED: RoundFigure = length(4.0, 156.0, CommonPractice);
    /// As far out as the attachment is high: 45° on level ground.
    pub const ANCHORS_OUT: RoundFigure = ATTACHED;
    pub const COLLAR_RADIUS: RoundFigure = small(50.0, 2.0, CommonPractice);
    pub const EYE_UP: RoundFigure = length(0.05, 2.0, CommonPractice);
    /// Polyester double braid as rope sellers have it: 6 mm or a quarter inch.
    pub const ROPE: RoundFigure = small(6.0, 0.25, CommonPractice);
    pub const ROPE_MASS: RoundFigure = RoundFigure {
        unit: FigureUnit::MassGPerM,
        metric: 27.0,
        imperial: 2.0 * POUND_PER_100_FEET,
        source: CommonPractice,
    };
    pub const STRETCHED_AT: RoundFigure = force(1500.0, 350.0);
    pub const TENSION: RoundFigure = force(300.0, 70.0);
    pub const UPPER_END: RoundFigure = length(0.3, 12.0, CommonPractice);
    pub const LOWER_END: RoundFigure = length(1.0, 36.0, CommonPractice);
    pub const FRONT_REACH: RoundFigure = length(1.2, 48.0, CommonPractice);
    pub const SIDE_REACH: RoundFigure = length(0.9, 36.0, CommonPractice);
    /// A dressed 4×4 is 3 1/2 in: NDS Supplement 2018, Table 1B. Squared timber of builders' merchants: 90 mm.
    pub const TIMBER: RoundFigure = small(90.0, 3.5, Nds2018);
    /// A dressed 2×4 laid flat is 1 1/2 in thick: the same table.
    pub const SHIM_UP_TO: RoundFigure = small(40.0, 1.5, Nds2018);
    /// A board packed under the joint of the timbers, which carries the mast: without it they bend as beams from foot to
    /// foot, and few are stout enough.
    pub const JOINT_BOARD: RoundFigure = small(250.0, 10.0, CommonPractice);
    pub const STAKE_INSET: RoundFigure = length(0.15, 6.0, CommonPractice);
    /// Reinforcing bar no. 4, or 12 mm.
    pub const STAKE: RoundFigure = small(12.0, 0.5, CommonPractice);
    pub const STAKE_LENGTH: RoundFigure = length(0.6, 24.0, CommonPractice);
    /// Tape and level line read to about a centimetre on grass.
    pub const TAPE_SIGMA: RoundFigure = length(0.01, 0.375, CommonPractice);
    /// What a yard tape is off by beside that, as it grows: an inch in 100 ft, or a millimetre in a metre.
    pub const TAPE_GROWING: RoundFigure = RoundFigure {
        unit: FigureUnit::MmPerM,
        metric: 1.0,
        imperial: INCH_PER_100_FEET_MM_PER_M,
        source: CommonPractice,
    };
    /// A finger on the map.
    pub const SKETCH_SIGMA: RoundFigure = length(0.25, 10.0, CommonPractice);
    /// Gusts of force 5 inland. Only a place to begin.
    pub const ASKED_GUST: RoundFigure = RoundFigure {
        unit: FigureUnit::SpeedMPerS,
        metric: 15.0,
        imperial: 35.0 * MILE_PER_HOUR,
        source: CommonPractice,
    };
}

/// A force of so many newtons, or so many pounds.
const fn force(newtons: f64, pounds: f64) -> RoundFigure {
    RoundFigure {
        unit: FigureUnit::ForceN,
        metric: newtons,
        imperial: pounds * POUND_FORCE_N,
        source: CommonPractice,
    }
}

/// Steps by which something is tried otherwise.
pub mod step {
    use super::*;

    pub const LOWER: RoundFigure = length(0.5, 20.0, CommonPractice);
    pub const BOARD: RoundFigure = small(300.0, 12.0, CommonPractice);
    pub const STAKE: RoundFigure = length(0.3, 12.0, CommonPractice);
    pub const PLATE: RoundFigure = length(0.2, 8.0, CommonPractice);
    /// A buried timber: up to nine times as long as high, at least 3 ft deep (TM 5-5420-278-10).
    pub const TIMBER_LENGTH: RoundFigure = length(1.2, 48.0, CommonPractice);
    pub const TIMBER_FACE: RoundFigure = length(0.15, 6.0, CommonPractice);
    pub const TIMBER_DEPTH: RoundFigure = length(1.0, 40.0, CommonPractice);
    /// One push of a button that moves the mast on the map.
    pub const NUDGE: RoundFigure = length(0.1, 4.0, CommonPractice);
    /// Steel of a better sort: S355, or A500 grade C (50 ksi).
    pub const STEEL: RoundFigure = RoundFigure {
        unit: FigureUnit::StressMpa,
        metric: 355.0,
        imperial: 50.0 * KSI_MPA,
        source: CommonPractice,
    };
}

/// Where rules begin and end, as sentences say it. What is a least value is rounded up in the other system.
pub mod rule {
    use super::*;

    /// Pickets of the published values are at least 3 in thick and 5 ft long, driven 3 to 4 ft.
    pub const PICKET_THICK: RoundFigure = small(80.0, 3.0, NavedtraPickets);
    pub const PICKET_LONG: RoundFigure = length(1.55, 60.0, NavedtraPickets);
    pub const PICKET_DRIVEN: RoundFigure = length(0.95, 36.0, NavedtraPickets);
    pub const PICKET_DRIVEN_TO: RoundFigure = length(1.2, 48.0, NavedtraPickets);
    /// The first row of the table of buried timbers: 3 ft.
    pub const DEADMAN_DEEP: RoundFigure = length(0.92, 36.0, Tm5_5420);
    /// The thinnest shaft of a screw whose turning moment was tested.
    pub const SHAFT_TESTED: RoundFigure = small(38.0, 1.5, HoytClemence1989);
    /// The plain bar that tells of sand.
    pub const SOIL_BAR: RoundFigure = small(12.0, 0.5, CommonPractice);
    /// Where that bar stops in dense sand.
    pub const BAR_STOPS: RoundFigure = length(0.3, 12.0, CommonPractice);
    /// How far steel stays from a compass.
    pub const STEEL_OFF: RoundFigure = length(2.0, 78.0, CommonPractice);
    /// How far an anchor may creep in a proof pull (common practice, between Caltrans's 1 mm, which takes a dial gauge,
    /// and the 2 in of the Illinois code, at which an anchor counts as failed).
    pub const CREEP: RoundFigure = small(5.0, 0.1875, CommonPractice);
    /// Longest offset set square by eye, a square or 3-4-5: common practice of chain surveying, about 15 m.
    pub const OFFSET: RoundFigure = length(15.0, 600.0, CommonPractice);
    /// Radial gap above which a bushing is worth its trouble.
    pub const LOOSE_GAP: RoundFigure = small(3.0, 0.125, CommonPractice);
    /// Radial gap below which paint, dents or the weld bead inside a pipe may jam: a feeler gauge tells it.
    pub const TIGHT_GAP: RoundFigure = small(0.4, 0.015, CommonPractice);
    /// What the stretch of a strand is told at.
    pub const CORD_PULLED: RoundFigure = force(100.0, 22.5);
    /// What a strand is pulled with by hand.
    pub const CORD_SET: RoundFigure = force(20.0, 4.5);
    /// How far up a guy a phone is strapped to it.
    pub const PHONE_ON_ROPE: RoundFigure = length(0.3, 12.0, CommonPractice);
    /// How well a phone's place was kept.
    pub const PHONE_PLACE: RoundFigure = length(100.0, 3900.0, CommonPractice);
}

/// What is turned, drilled and lifted in the workshop.
pub mod shop {
    use super::*;

    /// Up to this play a tube slides in the other one by hand and needs nothing between: difference of the diameters.
    pub const SLIDING_PLAY: RoundFigure = small(3.0, 0.125, CommonPractice);
    /// By how much the face of a bushing that slides is turned away from what it slides on.
    pub const TURNED_PLAY: RoundFigure = small(0.5, 0.02, CommonPractice);
    /// By how much the face of a bushing that stays is turned away from what it is glued or pressed to.
    pub const FIXED_PLAY: RoundFigure = small(0.1, 0.004, CommonPractice);
    /// A ring thinner than this breaks on the lathe and under the tube.
    pub const THINNEST_RING: RoundFigure = small(0.9, 0.035, CommonPractice);
    /// How much stock is left to turn off.
    pub const TO_TURN: RoundFigure = small(0.3, 0.012, CommonPractice);
    /// How far a tube that is run down stands out of the one below, for the pin that it hangs on and the rod.
    pub const STANDS_OUT: RoundFigure = length(0.15, 6.0, CommonPractice);
    /// Between the two pairs of cross holes of a joint, a quarter turn apart.
    pub const PAIR_APART: RoundFigure = small(50.0, 2.0, CommonPractice);
    /// From the ends of the rod to its holes.
    pub const ROD_END: RoundFigure = small(30.0, 1.25, CommonPractice);
    /// A pull that gains less is not worth the re-pinning.
    pub const SHORTEST_PULL: RoundFigure = length(0.2, 8.0, CommonPractice);
    /// How high somebody on the ground reaches with a pin in the hand.
    pub const REACH: RoundFigure = length(2.0, 78.0, CommonPractice);
    /// How far below a pin the floor of a platform lies from which it is set.
    pub const BELOW_THE_PIN: RoundFigure = length(1.4, 54.0, CommonPractice);
    /// How far before the planned end the stop comes home: what paint and sawdust take.
    pub const BEFORE_THE_END: RoundFigure = small(10.0, 0.375, CommonPractice);
    /// Between the winch's frame and the rod that slides behind it.
    pub const BEHIND_THE_WINCH: RoundFigure = small(5.0, 0.1875, CommonPractice);
    /// Between the hook at its highest and the middle of the drum.
    pub const BELOW_THE_DRUM: RoundFigure = length(0.15, 6.0, CommonPractice);
    /// Between the hook at its lowest and the mast's foot.
    pub const ABOVE_THE_FOOT: RoundFigure = length(0.1, 4.0, CommonPractice);
    /// By how much a hole is bored wider than the bolt, stake or foot that goes into it.
    pub const BORED_PLAY: RoundFigure = small(1.5, 0.0625, CommonPractice);
    /// What stays of the timber on either side of a socket.
    pub const SOCKET_BESIDE: RoundFigure = small(15.0, 0.625, CommonPractice);
    /// How far the ring may give between two supports.
    pub const RING_GIVES: RoundFigure = small(25.0, 1.0, CommonPractice);
    /// How far a strap reaches over the timber, and over the foot below it.
    pub const STRAP_HOLDS: RoundFigure = small(100.0, 4.0, CommonPractice);
}

/// Those that the screens say, by the name they have there; `ui/src/backend/round-figures.ts` is written from here.
const ON_SCREENS: &[(&str, RoundFigure)] = &[
    ("nudge", step::NUDGE),
    ("picket_thick", rule::PICKET_THICK),
    ("picket_long", rule::PICKET_LONG),
    ("picket_driven", rule::PICKET_DRIVEN),
    ("soil_bar", rule::SOIL_BAR),
    ("bar_stops", rule::BAR_STOPS),
    ("steel_off", rule::STEEL_OFF),
    ("cord_pulled", rule::CORD_PULLED),
    ("cord_set", rule::CORD_SET),
    ("phone_place", rule::PHONE_PLACE),
    ("phone_on_rope", rule::PHONE_ON_ROPE),
    ("eye", view::EYE),
];

/// The screens' copy of what they say: in SI, and in words of either system.
pub fn typescript() -> String {
    let mut text = String::from(
        "// generated by cargo xtask types from the engine's round_figures.rs\nimport type { UnitSystem } from './types';\n\n\
         /** Round figures in sentences: the number in SI, and how it is said. */\nexport const ROUND_FIGURES = {\n",
    );
    for (name, habit) in ON_SCREENS {
        let of = |system: UnitSystem| {
            format!("{{ value: {}, said: `{}` }}", (habit.of(system) * 1e6).round() / 1e6, habit.said(system))
        };
        text += &format!(
            "  {name}: {{ metric: {}, imperial: {} }},\n",
            of(UnitSystem::Metric),
            of(UnitSystem::Imperial)
        );
    }
    text + "} as const satisfies Record<string, Record<UnitSystem, { value: number; said: string }>>;\n"
}

/// All of them, by name.
pub const ALL: &[(&str, RoundFigure)] = &[
    ("keep from a tree", keep::TREE),
    ("keep from a building", keep::BUILDING),
    ("keep from a barrier", keep::BARRIER),
    ("keep from a post", keep::POST),
    ("keep from a path", keep::PATH),
    ("keep-off area", keep::KEEP_OFF),
    ("room to walk it up", keep::WALK_UP),
    ("hands that walk it up", keep::HANDS_WALKING),
    ("stepped over", keep::STEP_OVER),
    ("headroom on foot", keep::HEADROOM_FOOT),
    ("headroom of vehicles", keep::HEADROOM_VEHICLES),
    ("tolerance zone", keep::BURIED_TOLERANCE),
    ("eyes above the floor", view::EYE),
    ("net over the ground", view::NET),
    ("net over a large yard", view::WIDE_NET),
    ("net over the largest yard", view::WIDEST_NET),
    ("fetch, low mast", keep::FETCH_LOW),
    ("fetch, high mast", keep::FETCH_HIGH),
    ("fetch, European", keep::FETCH_EN1991),
    ("mast north", begin::MAST_NORTH),
    ("tube", begin::TUBE),
    ("overlap", begin::OVERLAP),
    ("attached", begin::ATTACHED),
    ("anchors out", begin::ANCHORS_OUT),
    ("collar", begin::COLLAR_RADIUS),
    ("eye", begin::EYE_UP),
    ("rope", begin::ROPE),
    ("rope's mass", begin::ROPE_MASS),
    ("stretched at", begin::STRETCHED_AT),
    ("tension", begin::TENSION),
    ("upper end", begin::UPPER_END),
    ("lower end", begin::LOWER_END),
    ("front reach", begin::FRONT_REACH),
    ("side reach", begin::SIDE_REACH),
    ("timber", begin::TIMBER),
    ("shims", begin::SHIM_UP_TO),
    ("stake's inset", begin::STAKE_INSET),
    ("board under the joint", begin::JOINT_BOARD),
    ("stake", begin::STAKE),
    ("stake's length", begin::STAKE_LENGTH),
    ("tape's sigma", begin::TAPE_SIGMA),
    ("sketch's sigma", begin::SKETCH_SIGMA),
    ("asked gust", begin::ASKED_GUST),
    ("lower by", step::LOWER),
    ("board", step::BOARD),
    ("longer stake", step::STAKE),
    ("plate", step::PLATE),
    ("timber's length", step::TIMBER_LENGTH),
    ("timber's height", step::TIMBER_FACE),
    ("timber's depth", step::TIMBER_DEPTH),
    ("tape's growing sigma", begin::TAPE_GROWING),
    ("nudge", step::NUDGE),
    ("better steel", step::STEEL),
    ("picket's thickness", rule::PICKET_THICK),
    ("picket's length", rule::PICKET_LONG),
    ("picket driven", rule::PICKET_DRIVEN),
    ("picket driven to", rule::PICKET_DRIVEN_TO),
    ("buried timber's depth", rule::DEADMAN_DEEP),
    ("shaft tested", rule::SHAFT_TESTED),
    ("bar into sand", rule::SOIL_BAR),
    ("bar stops", rule::BAR_STOPS),
    ("steel from a compass", rule::STEEL_OFF),
    ("creep", rule::CREEP),
    ("offset", rule::OFFSET),
    ("loose gap", rule::LOOSE_GAP),
    ("tight gap", rule::TIGHT_GAP),
    ("sliding play", shop::SLIDING_PLAY),
    ("turned play", shop::TURNED_PLAY),
    ("play of what stays", shop::FIXED_PLAY),
    ("thinnest ring", shop::THINNEST_RING),
    ("stock to turn off", shop::TO_TURN),
    ("tube stands out", shop::STANDS_OUT),
    ("pairs apart", shop::PAIR_APART),
    ("hole in the rod", shop::ROD_END),
    ("shortest pull", shop::SHORTEST_PULL),
    ("reach with a pin", shop::REACH),
    ("floor below the pin", shop::BELOW_THE_PIN),
    ("stop before the end", shop::BEFORE_THE_END),
    ("rod behind the winch", shop::BEHIND_THE_WINCH),
    ("hook below the drum", shop::BELOW_THE_DRUM),
    ("hook above the foot", shop::ABOVE_THE_FOOT),
    ("bored play", shop::BORED_PLAY),
    ("beside a socket", shop::SOCKET_BESIDE),
    ("ring gives", shop::RING_GIVES),
    ("strap holds", shop::STRAP_HOLDS),
    ("phone's place", rule::PHONE_PLACE),
    ("phone on a rope", rule::PHONE_ON_ROPE),
];

/// The distances of 29 CFR 1926.1408, Table A, which are whole feet; metres are rounded up to the next five centimetres
/// (the table prints 3.05, 4.60, 6.10, 7.62, 10.67, 13.72).
pub fn feet_or_metres(feet: f64, system: UnitSystem) -> f64 {
    match system {
        UnitSystem::Imperial => feet * FOOT_M,
        UnitSystem::Metric => (feet * FOOT_M * 20.0 - 1e-9).ceil() / 20.0,
    }
}

/// A length to look over, rounded up to whole metres, or to whole feet.
pub fn rounded_up_roughly(length_m: f64, system: UnitSystem) -> f64 {
    let step_m = match system {
        UnitSystem::Metric => 1.0,
        UnitSystem::Imperial => FOOT_M,
    };
    ((length_m - 1e-9) / step_m).ceil() * step_m
}

/// A length to act on, rounded up: to ten centimetres, or to whole inches.
pub fn rounded_up(length_m: f64, system: UnitSystem) -> String {
    let up_m = match system {
        UnitSystem::Metric => ((length_m - 1e-9) * 10.0).ceil().max(1.0) / 10.0,
        UnitSystem::Imperial => ((length_m - 1e-9) / INCH_M).ceil().max(1.0) * INCH_M,
    };
    format::round_length(up_m, system)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_to_move_is_rounded_up_in_the_users_own_unit() {
        assert_eq!(rounded_up(0.31, UnitSystem::Metric), "0.4 m");
        assert_eq!(rounded_up(0.31, UnitSystem::Imperial), "1' 1\"");
        assert_eq!(rounded_up(3.048, UnitSystem::Imperial), "10'");
        assert_eq!(rounded_up(3.048, UnitSystem::Metric), "3.1 m");
        assert_eq!(rounded_up(0.0, UnitSystem::Imperial), "1\"");
    }

    #[test]
    fn table_a_in_metres_is_never_below_its_feet() {
        let metres =
            [10.0, 15.0, 20.0, 25.0, 35.0, 45.0].map(|feet| feet_or_metres(feet, UnitSystem::Metric));
        assert_eq!(metres, [3.05, 4.6, 6.1, 7.65, 10.7, 13.75]);
    }
}
