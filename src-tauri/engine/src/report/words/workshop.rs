//! The workshop: tubes that slide, stages and pins, winch and lift.

use super::{Units, format};
use crate::finding::workshop::{WorkshopQuestion, WorkshopRemedy, WorkshopRule};
use crate::report::WorkFigure;
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
        WorkshopQuestion::StrandsWeight => "what a strand weighs",
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
    }
}

pub(super) fn remedy(remedy: &WorkshopRemedy, units: Units) -> String {
    let length = |value_m: f64| format::length(value_m, units);
    let small = |value_mm: f64| format::length_small(value_mm, units);
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
        WorkshopRemedy::DrillFor { hole_mm } => format!("Drill {}, or take thinner pins.", small(*hole_mm)),
        WorkshopRemedy::ThickerPin { pin_mm: Some(pin_mm) } => {
            format!("A pin of {} carries it.", small(*pin_mm))
        }
        WorkshopRemedy::ThickerPin { pin_mm: None } => {
            "Take a thicker pin, thicker tubes, or less tension in the guys.".into()
        }
        WorkshopRemedy::MoreGuides { apart_m: Some(apart_m) } => {
            format!("Guide it at most {} apart, or take a thicker rod.", length(*apart_m))
        }
        WorkshopRemedy::MoreGuides { apart_m: None } => "Take a thicker rod.".into(),
        WorkshopRemedy::StrongerStrap => "Take a strap whose label lets it lift that much.".into(),
        WorkshopRemedy::StrongerHook => "Take a hook that is marked for that much.".into(),
        WorkshopRemedy::SlowerWinch => {
            "Take a winch with more gear, a longer crank or a thinner drum.".into()
        }
    }
}
