//! The workshop: tubes that slide, stages and pins, winch and lift.

use super::{Units, format};
use crate::finding::workshop::{WorkshopQuestion, WorkshopRemedy, WorkshopRule};
use crate::job::CollarHeld;
use crate::quantity::sold;
use crate::report::WorkFigure;
use crate::report::verdict::first_small;
use crate::workshop::fit::{FitClass, OverlapBecause, SizeBy};
use crate::workshop::stages::{HolePurpose, Reach};

pub(crate) const FIT_TITLE: &str = "Tubes that slide";
pub(crate) const STAGES_TITLE: &str = "Pins and stages";
pub(crate) const LIFT_TITLE: &str = "Winch and lift";

pub(crate) const FIT_CAUTION: &str = "Try the two real tubes in each other over their whole length before you pay. On the lathe: glasses, no \
gloves, no loose sleeves, the ring held by more than its edge. Do not breathe the dust of PVC, and never the smoke of zinc.";

pub(crate) const STAGES_CAUTION: &str = "Drill on the bench, tube clamped, both hands on the drill, glasses on: a drill that catches turns the \
tube. Nobody climbs the mast or leans a ladder on it. The load goes onto the strap before a pin is drawn, and onto the pin before a \
hand leaves the crank. The strap never holds alone with anybody beneath. What a cross hole takes of a tube counts in the wind as \
well.";

pub(crate) const LIFT_CAUTION: &str = "One person cranks and looks up, one minds each level of guys; nobody else stands within the mast's \
height. The winch needs a brake or a pawl of its own: a crank that runs back breaks arms. A strap made for lashing is not \
made for lifting: read its label. Look up for wires before every pull.";

/// What a dent does while a tube goes up.
pub(crate) const DENT: &str = "A dent takes of the play where it comes past: up to half of it the tube rubs, from all of it steel stands \
against steel and the tube stays there, however hard anybody cranks. Before the mast is up draw each tube by hand through all of its way; what \
catches is filed, pressed out over a bar, or cut off.";

/// Where the rod is guided, above the foot.
pub(crate) fn guides([winch, mouth]: &[String; 2]) -> String {
    format!(
        "Two guides keep the rod beside the tubes: the gap behind the winch’s plate, at {winch}, and a bow round the rod on a clamp just under \
         the lower tube’s pin holes, near its mouth at {mouth}, loose enough that the rod slides. What a bow holds is not shown."
    )
}

/// When cranking stops.
pub(crate) const STOP_RULES: [&str; 6] = [
    "Stop when the crank goes half as hard again as at the beginning: something rubs, and friction only grows from there.",
    "Stop when the rod bows so that you see it, or leaves a guide.",
    "Stop at the mark on the tube, whatever the plan says: less must not stay inside.",
    "Stop when a guy pulls tight before its helper has given rope.",
    "Stop in wind that moves twigs, and at the first thunder: pin it as it stands, or crank it down.",
    "Lay the hook aside for good when its mouth has opened by 15 %, when it is twisted by 10° or has any crack.",
];

pub(crate) fn fit_headline(joints: usize, wander: Option<&str>) -> String {
    match (joints, wander) {
        (0, _) => "No tube of this mast slides in another one.".into(),
        (_, None) => "How far the top moves by the play is not known yet.".into(),
        (1, Some(wander)) => {
            format!("The play lets the mast’s top move {wander} to either side until the guys hold it.")
        }
        (_, Some(wander)) => {
            format!(
                "The play of all joints together lets the mast’s top move {wander} to either side until the guys hold it."
            )
        }
    }
}

pub(crate) fn stages_headline(stages: usize, pulls: Option<u32>) -> String {
    match (stages, pulls) {
        (0, _) => "Nothing is cranked up: no tube slides in another one.".into(),
        (_, None) => "In how many pulls it goes up is not known yet.".into(),
        (1, Some(pulls)) => format!("One tube goes up in {pulls} pulls of the rod."),
        (_, Some(pulls)) => format!(
            "The innermost tube goes up first and is pinned, then the next one with it: {pulls} pulls in all."
        ),
    }
}

pub(crate) fn lift_headline(hand: Option<&str>, strap: Option<&str>) -> String {
    match (hand, strap) {
        (Some(hand), Some(strap)) => {
            format!("The strap pulls with {strap} at the most, the hand on the crank with {hand}.")
        }
        (None, Some(strap)) => {
            format!("The strap pulls with {strap} at the most; how hard the crank goes is not known yet.")
        }
        _ => "What the strap pulls with is not known yet.".into(),
    }
}

pub(crate) fn joint_title(inner: &str, outer: &str) -> String {
    format!("{inner} in {outer}")
}

pub(crate) fn class(class: FitClass) -> &'static str {
    match class {
        FitClass::DoesNotEnter => "does not go in",
        FitClass::MayNotEnter => "may not go in: some do, some do not",
        FitClass::Tight => "tight: paint or a dent may hold it",
        FitClass::Sliding => "slides by hand",
        FitClass::Loose => "loose: wants rings at both ends",
    }
}

pub(crate) fn by(by: SizeBy) -> &'static str {
    match by {
        SizeBy::Calliper => "by calliper",
        SizeBy::Standard => "by its standard",
        SizeBy::ListAlone => "by its list alone: not known",
    }
}

pub(crate) fn because(because: OverlapBecause) -> &'static str {
    match because {
        OverlapBecause::TwoDiameters => "twice the inner tube’s outside",
        OverlapBecause::BushingsAndPin => "room for the pins and the lower ring",
    }
}

pub(crate) const NOT_KNOWN: &str = "not known yet";
pub(crate) const NO_THREAD: &str = "none within what slides";
pub(crate) const NO_RINGS: &str = "It slides without rings: it bears on the mouth and on its own lower end.";
pub(crate) const RINGS_NOT_KNOWN: &str =
    "Whether it wants rings is not known yet: put a calliper to both tubes.";
pub(crate) const ROUND_BAR: &str = "plastic round bar";
pub(crate) const UPPER_RING: &str = "Upper ring: stays in the mouth of the outer tube";
pub(crate) const LOWER_RING: &str = "Lower ring: stays on the lower end of the inner tube";

pub(crate) fn too_thin(wall: &str) -> String {
    format!(
        "Rings would come out {wall} thin and break: wind the tube with smooth tape over that length, or live with the play."
    )
}

pub(crate) fn stock(size: &str) -> String {
    format!("PVC pipe schedule 40, size {size}")
}

pub(crate) fn goes_in(listed: &[String]) -> String {
    format!("What else of the tables slides in it whatever both measure: {}.", listed.join("; "))
}

pub(crate) fn hole_title(tube: &str) -> String {
    format!("{tube}: holes straight through")
}

/// What is asked where a hole is measured; lifting holes have numbers.
pub(crate) fn measured_hole(purpose: HolePurpose, pull: Option<&str>) -> String {
    let end = if purpose.from_upper_end() { "upper end" } else { "lower end" };
    let number = pull.map_or_else(String::new, |pull| format!(" {pull}"));
    format!("Middle of the hole from the {end}: {}{number}", self::purpose(purpose))
}

pub(crate) fn purpose(purpose: HolePurpose) -> &'static str {
    match purpose {
        HolePurpose::CarriesAbove => "pin that carries the tube above",
        HolePurpose::SecondAbove => "second pin of that joint",
        HolePurpose::StandsBelow => "pin on which it stands",
        HolePurpose::SecondBelow => "second pin below",
        HolePurpose::Lifts => "pin through tube and rod",
    }
}

/// A hole after its distance from an end.
pub(crate) fn hole(from: &str, upper_end: bool, purpose: &str, across: bool, made: bool) -> String {
    let end = if upper_end { "upper end" } else { "lower end" };
    let turned = if across { "a quarter turn from the rod" } else { "on the rod’s side" };
    let made = if made { ", as made" } else { "" };
    format!("{from} from the {end}{made}: {purpose}, {turned}.")
}

pub(crate) fn net(area: f64, stiffness: f64) -> String {
    format!(
        "A pair of holes leaves {:.0} % of its steel and, bent across the holes, {:.0} % of its stiffness.",
        100.0 * area,
        100.0 * stiffness
    )
}

pub(crate) fn stage_title(number: usize, tube: &str, carried: &[String]) -> String {
    match carried {
        [] => format!("{number}. {tube} goes up"),
        carried => format!("{number}. {tube} goes up with {}", carried.join(" and ")),
    }
}

pub(crate) fn stool(length: &str) -> String {
    format!(
        "Before: put a stool of {length} under it, an offcut of its own size, so that it stands out for the rod and the pins."
    )
}

/// One pull of the rod.
pub(crate) fn pull(number: u32, hook: &str, to: &str, gains: &str, turns: Option<&str>) -> String {
    let turns = turns.map_or(String::new(), |turns| format!(", {turns} turns of the crank"));
    let again = if number == 1 {
        "Pin the rod to the tube just above the mouth"
    } else {
        "Lower the rod and pin it to the next hole down"
    };
    format!(
        "Pull {number}: {again}. Crank the hook from {hook} to {to} above the foot: it gains {gains}{turns}."
    )
}

pub(crate) const BETWEEN_PULLS: &str = "After each pull put a pin through the hole that stands just above the mouth and ease the tube down onto it, before the rod is taken off.";
pub(crate) const LAST_PULL: &str =
    "Then put both pins of the joint in and ease the load onto them before anybody lets go of the crank.";

pub(crate) fn reach(reach: Reach, platform: Option<&str>) -> String {
    match (reach, platform) {
        (Reach::PoleOrPlatform, Some(floor)) => format!(
            "Beyond a hand from the ground: set the pins from the ground by a pole with a fork that holds them, or from a platform that \
             stands by itself, its floor at {floor}. Never from a ladder that leans on the mast."
        ),
        (Reach::PoleOrPlatform, None) => "Beyond a hand from the ground: by a pole with a fork, never from a ladder that leans on the mast.".into(),
        (Reach::ByHandFromTheGround, _) => "In reach of a hand from the ground.".into(),
    }
}

pub(crate) const PLATE: &str = "Plate of the winch";
pub(crate) const PLATE_HOW: &str = "Two clamps hold it round the lower tube, a spacer on every leg; the rod slides between tube and plate. Lay the winch on it and check its holes before you drill.";
pub(crate) const NO_PLATE: &str = "Its plate is not known yet: enter how the winch is drilled.";
pub(crate) const COLLARS_TITLE: &str = "Guy collars";
pub(crate) const COLLARS_CAUTION: &str = "A collar that slides lets every guy of its level go slack at once. Nothing here looks at its eyes, welds and \
shackles: take marked ones, and pull each eye by a guy’s limit on the bench before it goes up. No welding or grinding of zinc without \
air and a mask.";

/// What ropes and collars want all season.
pub(crate) const COLLAR_CARE: [&str; 3] = [
    "A collar that stays put may still turn: leave it free to, or the ropes wind round the tube while it is cranked up.",
    "Run a cloth over every place that a rope touches: what catches the cloth chafes the rope. File it round.",
    "Look at the ropes under their eyes each time the mast comes down: fluff, flat or glazed fibres mean a new rope.",
];

pub(crate) const THIMBLE: &str = "A thimble lies in each rope’s eye: the rope bears on its groove.";
pub(crate) const NO_THIMBLE: &str = "No thimble: the rope itself bears on the collar’s steel.";

pub(crate) fn collar_title(guys: &str) -> String {
    format!("Collar of {}", first_small(guys))
}

pub(crate) fn collars_headline(levels: usize, known: usize) -> String {
    match (levels, known) {
        (levels, known) if known == levels => {
            "What keeps each guy collar up is known, and stands in the gust limit.".into()
        }
        (1, _) => {
            "What the guy collar may carry is not known yet, and does not stand in the gust limit.".into()
        }
        _ => "What not every guy collar may carry is known yet: such a one does not stand in the gust limit."
            .into(),
    }
}

pub(crate) fn collar_held(held: CollarHeld, tube: &str) -> String {
    match held {
        CollarHeld::Unsaid => format!("On {tube}; what keeps it up is not known yet."),
        CollarHeld::Bolt => format!(
            "On {tube}; one bolt straight through collar and tube, through the middle of both. Its holes weaken the tube, which stands in \
             the gust limit too."
        ),
        CollarHeld::Shoulder => {
            format!(
                "On {tube}; it lies on a shoulder all round, loose enough to turn, and cannot slide up: secure it from above."
            )
        }
        CollarHeld::Clamped => format!("Squeezed onto {tube}: what that holds is not known."),
    }
}

pub(crate) fn from_to(least: &str, most: &str) -> String {
    format!("{least} to {most}")
}

pub(crate) const BASE_TITLE: &str = "Base: crossing, seat, feet";
pub(crate) const BASE_CAUTION: &str = "Clamp the timber; glasses on; both hands on the saw, the other hand never before its teeth. Try the \
crossing, the seat and every foot on level ground before anything goes into the yard. What the bolts and straps carry is not shown \
here: they keep the parts together while they are carried; what holds the mast is looked at under Checks.";
pub(crate) const LAP: &str = "Crossing of the timbers";
pub(crate) const SEAT: &str = "Seat of the mast";
pub(crate) const BOLTS: &str = "Bolts through the crossing";
pub(crate) const STAKES: &str = "Stakes at the tips";
pub(crate) const BOARDS: &str = "Boards on the ground";
pub(crate) const SHAPES: &str = "Which base this ground takes";
pub(crate) const NO_LAP: &str = "No half-lap can be cut: it would take all of a timber, or nothing.";
pub(crate) const SEAT_ON_WOOD: &str =
    "The tube’s own end stands on the wood: it digs in. A plate under it spreads the push.";
pub(crate) const PEG: &str = "Fix the peg to the seat’s middle: it stands up into the tube, so that the foot cannot slip off while the mast goes up.";
pub(crate) const SOCKET: &str = "Bore it square into the crossing’s middle, through the upper timber first, and let rain out by a thin hole from its floor down.";
pub(crate) const TWO_BOLTS: &str = "Two of them, across a diagonal of the crossing, a large washer under head and nut: the middle belongs to the mast.";
pub(crate) const THROUGH_PLATE: &str = "They go through the plate as well: drill plate and timbers together.";
pub(crate) const NO_STAKES: &str = "No stakes are planned.";
pub(crate) const STAKES_BESIDE: &str =
    "Upright beside the timber, touching it: no hole. Mark both faces and drive them along a level.";
pub(crate) const STAKES_THROUGH: &str = "The head leans towards the mast. Bore from the top along a bevel set to this lean; the stake comes out where the map has it.";
pub(crate) const BLOCK: &str = "Lay the block with its outer face up. Mark the four edges from its square upper end, join the marks round it, saw along the line.";
pub(crate) const STRAPS: &str =
    "One strap on either side, nailed or screwed to timber and block alike; flush with the outer face.";
pub(crate) const NO_STRAP: &str =
    "Too short for straps: screw it on through the timber, aslant from both sides.";
pub(crate) const BOX_BALLAST: &str = "What a level box has to weigh hangs on the gust: Wind tells it for one gust from its side, by friction alone. Ask for \
the worst side, and for the gust in which you lower the mast.";
pub(crate) const SHAPES_AS_TURNED: &str = "Each turned as the base is now, by the ground as measured.";

pub(crate) fn foot_title(leg: &str) -> String {
    format!("Foot of the {leg} leg")
}

pub(crate) fn foot_not_measured(leg: &str) -> String {
    format!("Foot of the {leg} leg: the ground under it is not measured yet.")
}

pub(crate) fn shoulder(leg: &str, from: &str) -> String {
    format!("On the {leg} leg the cut begins {from} from its tip.")
}

pub(crate) fn shape(fits: bool, chosen: bool, feet: u32, highest: &str, most: &str) -> String {
    let fits = if fits { "fits" } else { "does not fit" };
    let chosen = if chosen { ", the one planned" } else { "" };
    let feet = match feet {
        0 => "no foot".to_owned(),
        1 => "one foot".to_owned(),
        feet => format!("{feet} feet"),
    };
    format!("{fits}{chosen}: {feet}, largest gap {highest} of {most} at most")
}

pub(crate) fn base_headline(feet: usize, shape: Option<&str>) -> String {
    let feet = match feet {
        0 => "No foot is sawn".to_owned(),
        1 => "One foot is sawn".to_owned(),
        feet => format!("{feet} feet are sawn"),
    };
    match shape {
        Some(shape) => format!("{feet}. Also fits here: {shape}."),
        None => format!("{feet}."),
    }
}

pub(crate) fn figure(figure: WorkFigure) -> &'static str {
    match figure {
        WorkFigure::Fit => "How it fits",
        WorkFigure::NominalPlay => "Play by the listed sizes",
        WorkFigure::WorstPlay => "Play, at the worst",
        WorkFigure::LikelyPlay => "Play, of 95 in 100",
        WorkFigure::InnerOutside => "Outside of the inner tube",
        WorkFigure::OuterBore => "Bore of the outer tube",
        WorkFigure::Overlap => "Stays inside",
        WorkFigure::LeastOverlap => "Must stay inside at least",
        WorkFigure::Bearing => "Bears over",
        WorkFigure::Lean => "Leans by its play up to",
        WorkFigure::TopWander => "Moves the mast’s top by",
        WorkFigure::LargestOutside => "Look: inner tube nowhere thicker than",
        WorkFigure::SmallestBore => "Look: outer tube’s bore nowhere below",
        WorkFigure::Ovality => "Look: two readings at right angles differ by at most",
        WorkFigure::Dent => "Look: no dent deeper than",
        WorkFigure::Straightness => "Look: a taut line, or the floor when rolled, stands off by at most",
        WorkFigure::WeldSeam => "Look: weld’s bead inside no higher than",
        WorkFigure::Thread => "Look: thread",
        WorkFigure::TurnOutside => "Turn outside to",
        WorkFigure::BoreTo => "Bore to",
        WorkFigure::RingLength => "Length",
        WorkFigure::RingStock => "From",
        WorkFigure::RingPlay => "Then it slides with",
        WorkFigure::Length => "Length",
        WorkFigure::HoleWidth => "Drill",
        WorkFigure::Travel => "Rises by",
        WorkFigure::Pulls => "Pulls of the rod",
        WorkFigure::EachPull => "Each pull gains",
        WorkFigure::RodHole => "Hole in the rod, from the hook’s",
        WorkFigure::PinHeight => "Pins set above the ground",
        WorkFigure::PinInTheEnd => "Lower pin in the end, above the foot",
        WorkFigure::StopMark => "Stop mark, from its lower end",
        WorkFigure::StopSleeve => "Stop sleeve between the rings",
        WorkFigure::PinStill => "On the pin in still air",
        WorkFigure::PinAtLimit => "With every guy at its limit",
        WorkFigure::PinCarries => "The pin may carry",
        WorkFigure::ThinnestPin => "Thinnest pin that does",
        WorkFigure::Mass => "Goes up",
        WorkFigure::CentreBefore => "Centre above the foot, before",
        WorkFigure::CentreAfter => "Centre above the foot, after",
        WorkFigure::StrapPull => "Pull in the strap",
        WorkFigure::HandForce => "Hand on the crank",
        WorkFigure::CrankTurns => "Turns of the crank a pull",
        WorkFigure::JamsAt => "Jams when it bears over less than",
        WorkFigure::DentHolds => "A dent holds it from a depth of",
        WorkFigure::RodFree => "Longest free piece of the rod",
        WorkFigure::RodCarries => "There the rod may carry",
        WorkFigure::GuidesApart => "Guides at most apart",
        WorkFigure::Arm => "Rod beside the tubes’ axis",
        WorkFigure::WinchFrame => "Winch’s frame off the tube",
        WorkFigure::DrumMiddle => "Middle of the drum off the tube",
        WorkFigure::StrapLength => "Strap",
        WorkFigure::StrapLayers => "Layers on the drum",
        WorkFigure::DrumFull => "Over the full drum",
        WorkFigure::Spacer => "Spacer between rod and tube",
        WorkFigure::PlateWide => "Plate, across the tube",
        WorkFigure::PlateHigh => "Plate, along the tube",
        WorkFigure::PlateHoles => "Winch’s holes, across and along",
        WorkFigure::PlateDrill => "Drill for the winch",
        WorkFigure::ClampHoles => "Clamps’ holes, across and along",
        WorkFigure::ClampDrill => "Drill for the clamps",
        WorkFigure::PlateSpacer => "Spacers between tube and plate",
        WorkFigure::PlateMoment => "Bends the plate",
        WorkFigure::PlateLeast => "Plate at least thick",
        WorkFigure::LapDepth => "Cut each timber by",
        WorkFigure::LapLength => "As long as the other is wide",
        WorkFigure::LapOther => "Cut the other one by",
        WorkFigure::LapLeft => "Stays of each there",
        WorkFigure::SocketBore => "Bore",
        WorkFigure::SocketDepth => "As deep as",
        WorkFigure::LeftBelow => "Stays below it",
        WorkFigure::LeftBeside => "Stays on either side",
        WorkFigure::PlateSide => "Plate, square",
        WorkFigure::PlateThick => "Its thickness",
        WorkFigure::Peg => "Peg into the tube’s bore, thick",
        WorkFigure::BoltThick => "Bolts",
        WorkFigure::BoltHole => "Drill for them",
        WorkFigure::BoltLength => "Length, at least",
        WorkFigure::FromEdge => "Middle of a bolt from both edges",
        WorkFigure::FromMiddle => "From both middle lines",
        WorkFigure::PlateEdge => "From the plate’s edge",
        WorkFigure::StakeFromTip => "From the tip",
        WorkFigure::StakeOnTop => "On the timber’s top, from the tip",
        WorkFigure::StakeUnder => "Underneath, from the tip",
        WorkFigure::StakeSlant => "Leans from upright",
        WorkFigure::StakeHole => "Bore",
        WorkFigure::StakeMouth => "Its mouth on the top, along the timber",
        WorkFigure::StakeOffFace => "Middle of the stake off the timber’s face",
        WorkFigure::EdgeOuterRight => "Outer edge on the right",
        WorkFigure::EdgeOuterLeft => "Outer edge on the left",
        WorkFigure::EdgeInnerLeft => "Inner edge on the left",
        WorkFigure::EdgeInnerRight => "Inner edge on the right",
        WorkFigure::BevelAlong => "Saw’s bevel along the leg",
        WorkFigure::BevelAcross => "Saw’s bevel across it",
        WorkFigure::FootStrap => "Two straps, each long",
        WorkFigure::FootPush => "The mast presses with, in still air",
        WorkFigure::FootPushAtLimit => "With every guy at its limit, pressing",
        WorkFigure::BoardFoot => "Board under each foot, at least",
        WorkFigure::BoardFootHas => "Now under each foot",
        WorkFigure::BoardCrossing => "Board under the crossing, at least",
        WorkFigure::BoardCrossingHas => "Now under the crossing",
        WorkFigure::CollarHeight => "Above the mast’s foot",
        WorkFigure::CollarBore => "Bore of the collar",
        WorkFigure::EyeRadius => "Ropes leave so far from the mast’s axis",
        WorkFigure::EyeTurns => "Eyes turned from the first one, clockwise",
        WorkFigure::RopeDown => "Ropes leave below level by",
        WorkFigure::CollarStill => "Pulled down in still air by",
        WorkFigure::CollarAtLimit => "With all its guys at their limit by",
        WorkFigure::CollarCarries => "May be pulled down by",
        WorkFigure::CollarBoltHole => "Drill collar and tube for the bolt",
        WorkFigure::ThinnestBolt => "Thinnest bolt for its guys at their limit",
        WorkFigure::EdgeHas => "Steel under the rope, its rounding",
        WorkFigure::EdgeLeast => "Rounding at least, without a thimble",
        WorkFigure::ShapeTee => "T: front leg and cross leg",
        WorkFigure::ShapeCross => "X: four legs",
        WorkFigure::ShapeBox => "Level box with ballast",
    }
}

fn asked(question: WorkshopQuestion) -> &'static str {
    match question {
        WorkshopQuestion::PinHole => "how wide the holes for the pins are",
        WorkshopQuestion::Pin => "how thick the pins are",
        WorkshopQuestion::RodLength => "how long the rod is",
        WorkshopQuestion::WinchHeight => "how high the winch sits",
        WorkshopQuestion::Rod => "how thick the rod is",
        WorkshopQuestion::Drum => "how thick the winch’s bare drum is",
        WorkshopQuestion::Crank => "its crank and gear",
        WorkshopQuestion::StrapThickness => "how thick the strap is",
        WorkshopQuestion::StrapStrength => "what the strap’s label lets it lift",
        WorkshopQuestion::HookStrength => "what its hook may lift",
        WorkshopQuestion::WinchHoles => "how the winch is drilled",
        WorkshopQuestion::StrandsWeight => "what a strand weighs",
        WorkshopQuestion::CollarHeld => "what keeps a guy collar up",
        WorkshopQuestion::CollarSizes => {
            "how thick a collar’s bolt and wall are, or how wide its shoulder is"
        }
        WorkshopQuestion::CollarEdge => "how round the steel is that a guy bears on",
        WorkshopQuestion::Soil => "what the soil is",
        WorkshopQuestion::WeightsAndRopes => "what strands weigh or ropes carry",
        WorkshopQuestion::GroundUnderFeet => "how the ground lies under a foot",
    }
}

fn listed(what: &[&str]) -> String {
    match what {
        [] => String::new(),
        [one] => (*one).to_owned(),
        [first @ .., last] => format!("{} and {last}", first.join(", ")),
    }
}

pub(super) fn sentence(rule: &WorkshopRule) -> String {
    match rule {
        WorkshopRule::NotSaid { open } => {
            let what: Vec<&str> = open.iter().map(|question| asked(*question)).collect();
            format!("Nobody has said {}: what hangs on it is not known yet.", listed(&what))
        }
        WorkshopRule::DoesNotEnter { inner, outer } => {
            format!("{inner} does not enter {outer}: its outside is wider than the bore.")
        }
        WorkshopRule::MayNotEnter { inner, outer } => {
            format!("{inner} may not enter {outer}: some tubes of these sizes do, some do not.")
        }
        WorkshopRule::DiameterNotKnown { tube, bore: true } => {
            format!("Between what the bore of {tube} lies is not known: its standard was not found to say.")
        }
        WorkshopRule::DiameterNotKnown { tube, bore: false } => {
            format!(
                "Between what the outside of {tube} lies is not known: its standard was not found to say."
            )
        }
        WorkshopRule::OverlapBelowLeast { inner, by_bushings: true } => {
            format!("Too little of {inner} stays inside for its pins and its lower ring.")
        }
        WorkshopRule::OverlapBelowLeast { inner, by_bushings: false } => {
            format!("Too little of {inner} stays inside.")
        }
        WorkshopRule::Oval { tube } => format!("{tube} is out of round: its two readings differ too much."),
        WorkshopRule::BushingBinds { inner, upper } => {
            let which = if *upper { "upper" } else { "lower" };
            format!("The {which} ring of {inner} as made has no play: it binds.")
        }
        WorkshopRule::NothingToLift { tube } => {
            format!("{tube} stands as high run down as it should stand raised: there is nothing to lift.")
        }
        WorkshopRule::RodTooShort { tube } => {
            format!(
                "The rod is too short for {tube}: when it reaches its pin, the hook is at the winch already."
            )
        }
        WorkshopRule::RodTooLong { tube } => {
            format!("The rod is too long for {tube}: it stands out beyond its upper end.")
        }
        WorkshopRule::HoleNearEnd { tube } => {
            format!("The hole on which {tube} stands lies too near to its lower end or to the ring there.")
        }
        WorkshopRule::HolesTooClose { tube } => format!("Two holes of {tube} lie too close to each other."),
        WorkshopRule::LiftMeetsTail { tube, inner } => {
            format!("A lifting pin of {tube} would meet the lower end of {inner} inside it.")
        }
        WorkshopRule::HolesDoNotMeet { tube, second: false } => format!(
            "As drilled, the hole on which {tube} stands does not meet the one below where the plan has it: the mast comes out at \
             another height."
        ),
        WorkshopRule::HolesDoNotMeet { tube, second: true } => format!(
            "As drilled, the second holes of {tube} and of the tube below do not meet: with the first pin in, the second one does not go \
             through."
        ),
        WorkshopRule::PullTooLong { tube } => {
            format!("As its lifting holes are drilled, a pull of {tube} is longer than the strap can draw.")
        }
        WorkshopRule::PinThickerThanHole { tube } => format!("The pin of {tube} does not go into its hole."),
        WorkshopRule::PinTooWeak { tube, still: true } => {
            format!("The pin below {tube} is too weak for what stands on it in still air.")
        }
        WorkshopRule::PinTooWeak { tube, still: false } => {
            format!("The pin below {tube} is too weak should every guy above pull with all that it may.")
        }
        WorkshopRule::RodPinBends { tube } => {
            format!("The pin that sticks out to the rod bends under {tube}.")
        }
        WorkshopRule::Jams { tube } => {
            format!(
                "{tube} jams: the rod pushes so far beside its axis that friction holds it, whatever pulls."
            )
        }
        WorkshopRule::RodBuckles { tube } => format!("The rod buckles between its guides under {tube}."),
        WorkshopRule::StrapTooWeak { tube } => format!("The strap may not lift {tube}."),
        WorkshopRule::HookTooWeak { tube } => format!("The strap’s hook may not lift {tube}."),
        WorkshopRule::CrankTooHard { tube } => format!("The crank goes too hard under {tube}."),
        WorkshopRule::WinchPlateTooThin => "The winch’s plate is too thin: the strap’s pull bends it.".into(),
        WorkshopRule::RodMeetsSpacers => {
            "The rod does not pass between the spacers behind the winch’s plate.".into()
        }
        WorkshopRule::LapNotHalf { through: true } => "The half-lap cuts a timber through.".into(),
        WorkshopRule::LapNotHalf { through: false } => {
            "The half-lap is not half of the timber’s depth: the two do not lie flush.".into()
        }
        WorkshopRule::CollarClamped { guys } => {
            format!("The collar of {} is squeezed onto the tube: nobody shows what that holds.", first_small(guys))
        }
        WorkshopRule::CollarTooWeak { guys, still: true } => {
            format!("What keeps the collar of {} up is too weak for its guys in still air.", first_small(guys))
        }
        WorkshopRule::CollarTooWeak { guys, still: false } => format!(
            "What keeps the collar of {} up is too weak should every guy of it pull with all that it may.",
            first_small(guys)
        ),
        WorkshopRule::CollarEdgeSharp { guys } => {
            format!("The steel that the ropes of {} bear on is less round than they are thick: it cuts them.", first_small(guys))
        }
        WorkshopRule::SocketTooWide => "The socket leaves too little of the timber on either side.".into(),
        WorkshopRule::SocketTooDeep => "The socket leaves too little of the crossing below it.".into(),
        WorkshopRule::NoRoomForBolts => {
            "No bolt has room beside the mast’s foot in timbers of this width.".into()
        }
        WorkshopRule::BoltNearPlateEdge => "A bolt’s hole lies too near the edge of the seat’s plate.".into(),
        WorkshopRule::StakeHoleTooWide => {
            "The bore for a stake leaves too little of the timber on either side: the stake is too thick for it."
                .into()
        }
        WorkshopRule::StakeHoleNearEnd => "The bore for a stake lies too near the timber’s end.".into(),
        WorkshopRule::BoardTooSmall { crossing, still } => {
            let under = if *crossing { "under the crossing" } else { "under a foot" };
            let when = if *still { "in still air" } else { "should every guy pull with all that it may" };
            format!("What lies on the ground {under} is too small for this soil {when}.")
        }
    }
}

pub(super) fn remedy(remedy: &WorkshopRemedy, units: Units) -> String {
    let length = |value_m: f64| format::length(value_m, units);
    let small = |value_mm: f64| format::length_small(value_mm, units);
    let tape = |value_mm: f64| sold::tape(value_mm, units);
    let at_least = |value_mm: f64| sold::tape_at_least(value_mm, units);
    match remedy {
        WorkshopRemedy::SayIt => "Say it under Build, Buy and cut.".into(),
        WorkshopRemedy::MeasureIt => {
            "Put a calliper to both tubes, at both ends, and enter what it reads.".into()
        }
        WorkshopRemedy::TakeInstead { nearest: Some(nearest) } => {
            format!("The thickest listed tube that goes in whatever both measure: {nearest}.")
        }
        WorkshopRemedy::TakeInstead { nearest: None } => {
            "Take a thinner tube, or a wider one below it, and try both.".into()
        }
        WorkshopRemedy::LeaveMoreInside { least_m } => {
            format!("Leave at least {} of it inside.", length(*least_m))
        }
        WorkshopRemedy::LessInside { most_m } => {
            format!("Leave at most {} of it inside, or take longer tubes.", length(*most_m))
        }
        WorkshopRemedy::TakeARounderTube => {
            "Take a rounder tube, or cut off the end that was squeezed.".into()
        }
        WorkshopRemedy::TurnItFurther { by_mm } => {
            format!("Turn its sliding face by {} more.", small(*by_mm))
        }
        WorkshopRemedy::LongerRodOrHigherWinch { least_m } => {
            format!("A rod of at least {} works, or set the winch higher by what it lacks.", length(*least_m))
        }
        WorkshopRemedy::ShorterRod { most_m } => format!("A rod of at most {} works.", length(*most_m)),
        WorkshopRemedy::MoveTheHole { least_m } => {
            format!("Lay them at least {} apart, middle to middle.", length(*least_m))
        }
        WorkshopRemedy::LongerPull { by_m } => format!(
            "Make each pull {} longer, by a longer rod or a higher winch, or leave less of the inner tube inside.",
            length(*by_m)
        ),
        WorkshopRemedy::DrillFor { hole_mm } => {
            format!("Drill {}, or take thinner pins.", sold::drill(*hole_mm, units))
        }
        WorkshopRemedy::SayWhatStaysInside { inside_m } => format!(
            "Enter under Tubes that {} of it stays inside: heights, guys and gust limit go on from there. Or drill anew, a quarter turn \
             round.",
            length(*inside_m)
        ),
        WorkshopRemedy::DrillBothAtOnce { from_end_m: Some(from_end_m) } => format!(
            "Put the first pin in and drill a new second hole through both tubes at once, {} from the lower tube’s upper end.",
            length(*from_end_m)
        ),
        WorkshopRemedy::DrillBothAtOnce { from_end_m: None } => {
            "No place is left for another hole above it: take a new tube, or cut the end off and plan it anew.".into()
        }
        WorkshopRemedy::OneMoreLiftingHole { from_end_m } => format!(
            "One more lifting hole {} from its upper end works, with one pull more.",
            length(*from_end_m)
        ),
        WorkshopRemedy::ThickerPin { pin_mm: Some(pin_mm) } => {
            format!("A pin of {} carries it.", sold::thickness(*pin_mm, units))
        }
        WorkshopRemedy::ThickerPin { pin_mm: None } => {
            "Take a thicker pin, thicker tubes, or less tension in the guys.".into()
        }
        WorkshopRemedy::MoreGuides { apart_m: Some(apart_m) } => {
            format!("Guide it at most {} apart, or take a thicker rod.", length(*apart_m))
        }
        WorkshopRemedy::MoreGuides { apart_m: None } => "Take a thicker rod.".into(),
        WorkshopRemedy::BoltOrShoulder => {
            "Put a bolt through collar and tube, or let it lie on a shoulder.".into()
        }
        WorkshopRemedy::ThickerCollarBolt { bolt_mm: Some(bolt_mm) } => {
            format!("A bolt of {} carries it.", sold::thickness(*bolt_mm, units))
        }
        WorkshopRemedy::ThickerCollarBolt { bolt_mm: None } => {
            "Take a thicker bolt and a collar with thicker walls, or let it lie on a shoulder.".into()
        }
        WorkshopRemedy::WiderShoulder => "Take a wider shoulder, or a bolt through collar and tube.".into(),
        WorkshopRemedy::RounderEdge { radius_mm } => {
            format!("A thimble in each rope’s eye works, or steel rounded to {} at least.", small(*radius_mm))
        }
        WorkshopRemedy::StrongerStrap => "Take a strap whose label lets it lift that much.".into(),
        WorkshopRemedy::StrongerHook => "Take a hook that is marked for that much.".into(),
        WorkshopRemedy::EnterIt => "Enter it under Measure, or under the rig.".into(),
        WorkshopRemedy::ThickerPlate { thickness_mm } => {
            format!("A steel plate of at least {} works.", small(*thickness_mm))
        }
        WorkshopRemedy::ThinnerRod { most_mm } => format!("A rod of at most {} works.", small(*most_mm)),
        WorkshopRemedy::CutHalf { depth_mm } => format!("Cut {} out of each.", tape(*depth_mm)),
        WorkshopRemedy::WiderTimber { width_mm } => {
            format!(
                "Timbers of at least {} in width work, or stakes and foot that are thinner.",
                at_least(*width_mm)
            )
        }
        WorkshopRemedy::ShallowerSocket { depth_mm } => {
            format!("A socket of at most {} works, or deeper timbers.", tape(*depth_mm))
        }
        WorkshopRemedy::LargerPlate { side_mm } => {
            format!("A plate of at least {} square works.", at_least(*side_mm))
        }
        WorkshopRemedy::StakesFartherIn { least_m } => {
            format!("Set the stakes at least {} in from the tip.", at_least(1000.0 * least_m))
        }
        WorkshopRemedy::LargerBoard { side_mm } => {
            format!("A board of at least {} square does for both.", at_least(*side_mm))
        }
        WorkshopRemedy::SlowerWinch => {
            "Take a winch with more gear, a longer crank or a thinner drum.".into()
        }
    }
}
