//! What to buy and how to cut it.

use super::super::format;
use super::tube_size;
use crate::job::{AnchorKind, RingStuff};
use crate::quantity::{Units, sold};
use crate::workshop::shopping::{
    Aisle, Amount, ItemMissing, ListedSize, LotNote, Material, Piece, Ware, Why, WorkTask,
};

/// Beside the lists.
pub(crate) const CAUTIONS: [&str; 3] = [
    "Measure what you bought before you cut: timbers and tubes differ from what is on their label. What is measured as made \
     goes before this list.",
    "Glasses for every cut and bore; the piece clamped, never held by hand; gloves off at anything that turns. Zinc smokes \
     when galvanised tube is welded or ground hot, and the smoke is poison: only in open air with a mask for metal fumes, \
     better not at all. File and saw it cold.",
    "No strength is shown by this list: what holds a mast, its ropes and its anchors is looked at under Checks. Local rules \
     come first.",
];

/// Where lengths are in inches.
pub(crate) const FRACTIONS: &str =
    "Fractions are for tape, rule, drill and bolt; a number with a decimal point is what a calliper reads.";

pub(crate) const NOT_HERE: &str = "What bolts, straps, guides and peg carry is not shown on this list.";

/// Under the cut list.
pub(crate) const NOT_CUT: &str = "Light strands are bought whole and stay whole, so none is on the cut list: their plug, their fuse and their tightness \
     against rain hang on it. The lifting strap is bought by its length, with its label on it.";

/// What has to be known of a lot beside its pieces.
pub(crate) fn lot_note(note: &LotNote, units: Units) -> String {
    let long = |m: f64| format::length(m, units);
    match note {
        LotNote::StraightSides { turn_deg, least_radius_m } => format!(
            "This pipe may not be bent sharper than {}: straight sides from support to support, each corner turned by {}.",
            long(*least_radius_m),
            super::circles::degrees(*turn_deg)
        ),
        LotNote::TooStiff { least_radius_m } => format!(
            "This pipe may not be bent sharper than {}: straight sides, as long as from support to support.",
            long(*least_radius_m)
        ),
        LotNote::BendNotKnown => {
            "How sharply this pipe may be bent is not known: ask its maker before you buy it.".into()
        }
        LotNote::SawnRound => {
            "Squares first, then sawn round: the drawing at full size has rim, bore and holes. Take board for outdoors.".into()
        }
    }
}

pub(crate) fn headline(ticked: usize, of: usize, open: usize) -> String {
    let open = match open {
        0 => String::new(),
        1 => "; one is not known yet".to_owned(),
        open => format!("; {open} are not known yet"),
    };
    format!("{ticked} of {of} things in the cart{open}")
}

pub(crate) fn aisle(aisle: Aisle) -> &'static str {
    match aisle {
        Aisle::Timber => "Timber",
        Aisle::TubeAndPipe => "Tube and pipe",
        Aisle::Fasteners => "Bolts and pins",
        Aisle::Rope => "Rope and what holds it",
        Aisle::Ground => "For the ground",
        Aisle::Lights => "Lights",
        Aisle::Paint => "Paint and glue",
        Aisle::Safety => "For your safety",
    }
}

pub(crate) fn material(of: &Material, units: Units) -> String {
    // By calliper; what is laid along a tape is in its marks.
    let small = |mm: f64| format::length_small(mm, units);
    let tape = |mm: f64| sold::tape(mm, units);
    match of {
        Material::Timber { width_mm, depth_mm } => {
            format!("Timber {} wide, {} deep, as measured", tape(*width_mm), tape(*depth_mm))
        }
        Material::Block { width_mm, depth_mm } => {
            format!("Timber for feet, {} by {}", tape(*width_mm), tape(*depth_mm))
        }
        Material::Tube { outside_mm, size } => match size {
            Some(ListedSize { table, size }) => {
                format!("Tube {} ({} outside)", tube_size(*table, size), small(*outside_mm))
            }
            None => format!("Tube {} outside, as measured", small(*outside_mm)),
        },
        Material::Stake { diameter_mm } => {
            format!("Steel bar {} for stakes", sold::thickness(*diameter_mm, units))
        }
        Material::Ring { stuff, outside_mm } => {
            let stuff = match stuff {
                RingStuff::Pvc => "PVC pipe",
                RingStuff::SteelConduit => "Steel conduit",
                RingStuff::Other => "Pipe",
            };
            let outside = outside_mm.map_or(String::new(), |mm| format!(" {} outside", small(mm)));
            format!("{stuff}{outside}, for the ring")
        }
        Material::Rod { outside_mm, bore_mm } => {
            let what = if *bore_mm > 0.0 { "tube" } else { "bar" };
            let outside = outside_mm.map_or_else(String::new, |mm| format!(", {} outside", small(mm)));
            format!("Steel {what} that lifts{outside}")
        }
        Material::DiscBoard { across_mm, thickness_mm } => {
            let thick =
                thickness_mm.map_or_else(String::new, |mm| format!(", {} thick", sold::thickness(mm, units)));
            format!("Board {} wide{thick}, for the topper", sold::tape_at_least(*across_mm, units))
        }
        Material::SpacerPipe { over_mm } => {
            format!("Pipe at least {} wide inside, between the topper’s discs", small(*over_mm))
        }
        Material::Rope { name, diameter_mm } => {
            let name = if name.is_empty() { "Rope" } else { name };
            format!("{name}, {} thick", sold::thickness(*diameter_mm, units))
        }
    }
}

pub(crate) fn piece(what: &Piece) -> String {
    match what {
        Piece::FrontLeg => "front leg".to_owned(),
        Piece::FrontAndBackLeg => "front and back leg in one".to_owned(),
        Piece::CrossLeg => "cross leg".to_owned(),
        Piece::Foot { leg } => format!("foot of the {leg} leg, longest edge"),
        Piece::Tube { name } if name.is_empty() => "tube".to_owned(),
        Piece::Tube { name } => name.clone(),
        Piece::Stake => "stake".to_owned(),
        Piece::Stool { name } => {
            format!("stool for {}, of its own size", super::super::verdict::first_small(name))
        }
        Piece::Rod => "rod that lifts".to_owned(),
        Piece::TopperDisc => "disc of the topper, a square to saw it from".to_owned(),
        Piece::TopperSpacer => "spacer between the discs".to_owned(),
        Piece::RingSide => "straight side of the ring".to_owned(),
        Piece::Ring { number } => format!("ring piece {number}"),
        Piece::Guy { guy } => format!("guy {guy}, knots and tails in it"),
    }
}

pub(crate) fn ware(ware: &Ware, units: Units) -> String {
    let small = |mm: f64| format::length_small(mm, units);
    let tape = |mm: f64| sold::tape(mm, units);
    let thick = |mm: f64| sold::thickness(mm, units);
    let bolt = |mm: f64| sold::bolt_length(mm, units);
    let long = |m: f64| format::length(m, units);
    match ware {
        Ware::Stock { of, length_m } => format!("{}, {} long", material(of, units), long(*length_m)),
        Ware::Pieces { of } => material(of, units),
        Ware::JointBolt { bolt_mm, least_length_mm } => {
            let thick_mm = bolt_mm.map_or_else(String::new, |mm| format!("{} ", thick(mm)));
            format!("Bolt {thick_mm}with nut and two large washers, {} or longer", bolt(*least_length_mm))
        }
        Ware::FootStrap { length_mm } => format!("Flat steel strap with holes, {} long", tape(*length_mm)),
        Ware::SeatPeg { peg_mm } => {
            format!(
                "Round steel or hardwood, turned to {} by calliper, as long as it is thick",
                small(*peg_mm)
            )
        }
        Ware::Winch => "Hand winch for flat strap, with a brake or a pawl".to_owned(),
        Ware::LiftingStrap { thickness_mm, length_m } => {
            let thick = thickness_mm.map_or_else(String::new, |mm| format!(", {} thick", small(mm)));
            let length = length_m.map_or_else(String::new, |m| format!(", {} or longer", long(m)));
            format!("Strap whose label lets it lift{thick}{length}")
        }
        Ware::StrapHook => "Hook with a latch, marked with what it may lift".to_owned(),
        Ware::RingStock { size: Some(size), length_mm } => {
            format!("{}, {}", super::workshop::stock(size), tape(*length_mm))
        }
        Ware::RingStock { size: None, length_mm } => {
            format!("{}, {}", format::capital(super::workshop::ROUND_BAR), tape(*length_mm))
        }
        Ware::StopSleeve { length_mm } => {
            format!("Plastic pipe that slides over the inner tube, {}", tape(*length_mm))
        }
        Ware::SeatPlate { side_mm, thickness_mm } => {
            let thick = thickness_mm.map_or_else(String::new, |mm| format!(", {} thick", small(mm)));
            format!("Steel plate {} square{thick}", tape(*side_mm))
        }
        Ware::Pin { hole_mm, least_length_mm, .. } => {
            format!(
                "Steel pin for a hole of {}, {} or longer, with clips",
                sold::drill(*hole_mm, units),
                bolt(*least_length_mm)
            )
        }
        Ware::PipeCoupling { .. } => "Pipe coupling".to_owned(),
        Ware::RingCoupling { outside_mm: Some(outside_mm) } => {
            format!("Coupling for pipe of {} outside", small(*outside_mm))
        }
        Ware::RingCoupling { outside_mm: None } => "Coupling for the ring's pipe".to_owned(),
        Ware::WinchPlateSteel { width_mm, height_mm, thickness_mm } => {
            let thick = thickness_mm.map_or(String::new(), |mm| format!(", {} thick", small(mm)));
            format!("Steel plate {} × {}{thick}", sold::tape(*width_mm, units), sold::tape(*height_mm, units))
        }
        Ware::TubeClamp { tube_mm } => {
            format!("U-clamp for a tube of {} outside, with four spacers' length of thread", small(*tube_mm))
        }
        Ware::GuyCollarWare { guys, bore_mm } => {
            format!("Collar with an eye for each guy, bored {}: {guys}", sold::drill(*bore_mm, units))
        }
        Ware::CollarBolt { bolt_mm, least_length_mm } => {
            let long = least_length_mm
                .map_or(String::new(), |mm| format!(", at least {} long", sold::bolt_length(mm, units)));
            format!("Bolt {}{long}, locking nut and two washers", sold::thickness(*bolt_mm, units))
        }
        Ware::BracketBar { width_mm, thickness_mm, length_mm } => {
            let thick = thickness_mm.map_or(String::new(), |mm| format!(" × {}", sold::thickness(mm, units)));
            format!(
                "Flat steel bar {}{thick}, {} long",
                sold::tape(*width_mm, units),
                sold::tape(*length_mm, units)
            )
        }
        Ware::PipeClamp { outside_mm } => {
            let of = outside_mm
                .map_or("the ring's pipe".to_owned(), |mm| format!("pipe of {} outside", small(mm)));
            format!("U-clamp for {of}, and two bolts through the timber")
        }
        Ware::RodGuide { tube_mm } => {
            format!("Bow with a clamp for a tube of {} outside, wide enough for the rod", small(*tube_mm))
        }
        Ware::RingCorner { turn_deg } => {
            format!("Joint for a corner turned by {}", super::circles::degrees(*turn_deg))
        }
        Ware::TopperBolt { bolt_mm, least_length_mm } => format!(
            "Bolt {}, {} or longer, locking nut and two large washers",
            thick(*bolt_mm),
            bolt(*least_length_mm)
        ),
        Ware::TopperSleeve { tube_mm } => {
            format!("Sleeve to squeeze onto a tube of {} outside", small(*tube_mm))
        }
        Ware::TopperUnknown => "Topper for the strands".to_owned(),
        Ware::RingTie => "Tie or hooked peg".to_owned(),
        Ware::RopeClip { diameter_mm } => format!("Wire rope clip for {}", thick(*diameter_mm)),
        Ware::Sleeve { diameter_mm } => format!("Sleeve for {} wire rope", thick(*diameter_mm)),
        Ware::Thimble { diameter_mm } => format!("Thimble for {} rope", thick(*diameter_mm)),
        Ware::Board { side_mm } => format!("Board {} square", tape(*side_mm)),
        Ware::Anchor { anchor, .. } => of_anchor(anchor).to_owned(),
        Ware::Strand { lit_m } => format!("Light strand, lit for {}", long(*lit_m)),
        Ware::StrandUnknown => "Light strand".to_owned(),
        Ware::ColdZinc => "Cold zinc paint".to_owned(),
        Ware::WoodPreservative => "Wood preservative".to_owned(),
        Ware::ThreadSealant => "Thread sealant for steel pipe".to_owned(),
        Ware::PvcCement => "PVC primer and cement".to_owned(),
        Ware::BrightTape => "Bright tape".to_owned(),
        Ware::MarkingPaint => "Marking paint or flags".to_owned(),
        Ware::Glasses => "Safety glasses".to_owned(),
        Ware::Gloves => "Work gloves".to_owned(),
        Ware::DustMask => "Dust mask".to_owned(),
    }
}

fn of_anchor(kind: &AnchorKind) -> &'static str {
    match kind {
        AnchorKind::Unknown => "Anchor",
        AnchorKind::Screw { .. } => "Screw anchor",
        AnchorKind::Plate { .. } => "Plate to bury, with its rod",
        AnchorKind::Deadman { .. } => "Timber or log to bury, with its sling",
        AnchorKind::Pickets { .. } => "Set of pickets",
        AnchorKind::Stake { .. } => "Anchor stake",
        AnchorKind::Ballast { .. } => "Ballast with its sling",
    }
}

pub(crate) fn amount(amount: Amount, units: Units) -> String {
    match amount {
        Amount::Count { count } => format!("{count} ×"),
        Amount::Length { length_m } => format!("{} in all", format::length(length_m, units)),
        Amount::NotKnown => "not known yet".to_owned(),
    }
}

pub(crate) fn why(why: Why) -> &'static str {
    match why {
        Why::CutFrom => "cut as the cut list says",
        Why::HoldsTheLap => "through the crossing of the timbers",
        Why::KeepsTheFootThere => "stands up into the lower tube: its foot cannot slip off",
        Why::HoldsTheFoot => "holds the foot to its timber, one on either side",
        Why::LiftsTheTubes => "cranks the tubes up",
        Why::FillsTheGap => "to turn a ring between two tubes from",
        Why::StopsTheTube => "stops the tube before too little of it stays inside",
        Why::UnderTheMast => "under the mast's foot, spreads its push",
        Why::CarriesTheTube => "carries the raised tube",
        Why::JoinsTubes => "joins the tubes",
        Why::JoinsTheRing => "joins the ring, each on a support",
        Why::GuidesTheRod => "keeps the rod beside the tubes, at the lower tube’s mouth",
        Why::HoldsTheTopper => "under the lower disc: keeps the topper up",
        Why::CarriesTheStrands => "carries the strands",
        Why::HoldsTheRingDown => "holds the ring down: the strands pull it up",
        Why::CarriesTheWinch => "between winch and lower tube",
        Why::CarriesTheGuys => "carries the guys on the mast",
        Why::TiesTheRingToTheBase => "ties the ring to a leg of the base",
        Why::MakesTheRopeFast => "both ends of every guy",
        Why::KeepsTheRopeRound => "keeps the eye of the rope round",
        Why::UnderTheJoint => "packed tight under the crossing",
        Why::UnderTheFeet => "one under each foot",
        Why::HoldsTheGuys => "one for each anchor place",
        Why::TheCone => "the cone of lights",
        Why::CoversBareSteel => "on every cut and hole of galvanised tube",
        Why::CoversSawnEnds => "on every sawn end and bore",
        Why::SealsThreads => "in every threaded joint",
        Why::GluesTheRing => "in every coupling of the ring",
        Why::MakesRopesSeen => "on every guy, as high as a head",
        Why::MarksTheGround => "where pegs and marks go",
        Why::Eyes => "for every cut and bore",
        Why::Hands => "for ropes and sheet, not at a drill",
        Why::Lungs => "for sawdust; for metal fumes it is not enough",
    }
}

pub(crate) fn item_missing(missing: ItemMissing) -> &'static str {
    match missing {
        ItemMissing::CuttingPlan => "How many, and in which lengths: its cut list says what is missing.",
        ItemMissing::BoltSize => {
            "How thick: no bolt has room beside the mast's foot. The page Base says what works."
        }
        ItemMissing::PinStrength => "Which steel: nothing on this list shows what the pin carries.",
        ItemMissing::PlateThickness => "How thick: enter it under the base.",
        ItemMissing::AnchorKind => "Of which kind: choose it under the guys.",
        ItemMissing::Lift => "Which: enter it under Winch and lift.",
        ItemMissing::RingPipe => "How thick: enter the ring's pipe and its supports under Circles and ring.",
        ItemMissing::CollarHold => "What keeps it up, and how thick that is: enter it under Guy collars.",
        ItemMissing::RingCorners => {
            "Which: shops have none for such a turn as a rule. A hose over both ends, or both on a block; nothing shows what that holds."
        }
        ItemMissing::Topper => "How it is made: enter its discs under Circles and ring.",
        ItemMissing::TopperHold => "What it holds is not shown: a bolt through the tube is the surer way.",
        ItemMissing::RingSupports => "How many: enter the ring's supports under Circles and ring.",
        ItemMissing::StrandLength => "Lit length and leads: enter them under Circles and ring.",
    }
}

pub(crate) const ENTER_STOCKS: &str = "Enter the lengths that your shop sells.";
pub(crate) const ENTER_SAW_CUT: &str =
    "Enter how wide your saw cuts: saw into a waste piece and measure the slot.";

pub(crate) fn enter_length(piece: &str) -> String {
    format!("The length of {piece} is not known yet.")
}

pub(crate) fn too_long(piece: &str, length: &str, longest: &str, usual: Option<&str>) -> String {
    let works = usual.map_or_else(
        || "No usual length holds it: join two pieces, or make it shorter.".to_owned(),
        |usual| format!("Nearest that works: a length of {usual}."),
    );
    format!("{piece} is {length}, longer than every length entered ({longest} at most). {works}")
}

pub(crate) fn too_many(given: u32, most: u32) -> String {
    format!("{given} pieces or lengths are more than can be planned at once ({most} at most).")
}

pub(crate) fn proven(by_price: bool) -> &'static str {
    if by_price { "No plan costs less: proven." } else { "No plan takes less length: proven." }
}

pub(crate) fn bounded(at_least: &str) -> String {
    format!("The best found before the search was stopped; no plan takes less than {at_least}.")
}

pub(crate) fn marked(division: &str) -> String {
    format!("Lengths are taken up to the next {division} of the tape, so that none comes out short.")
}

pub(crate) fn bars(count: u32, length: &str) -> String {
    format!("{count} × {length}")
}

pub(crate) fn left(left: &str) -> String {
    format!("{left} left")
}

pub(crate) fn waste(bought: &str, sawn: &str, left: &str) -> String {
    format!("{bought} bought; {sawn} sawdust, {left} left over.")
}

pub(crate) fn cost(cost: f64) -> String {
    format!("{cost:.2} by the prices entered")
}

pub(crate) fn task(task: WorkTask) -> (&'static str, &'static str) {
    match task {
        WorkTask::MeasureWhatWasBought => (
            "Measure what was bought",
            "Width and depth of the timbers, diameter of the tubes at both ends, twice each: enter them before you cut.",
        ),
        WorkTask::CutTimbers => (
            "Saw the timbers and bore them",
            "Longest first, as the cut list says; the half-lap by its template.",
        ),
        WorkTask::PreserveSawnEnds => (
            "Brush preservative on sawn ends",
            "Two coats; the can says how long it dries, a day where it does not.",
        ),
        WorkTask::CutTubes => (
            "Cut and drill the tubes cold",
            "Clamped, with a hacksaw or a cutter; file burrs away inside and out. No torch, no hot grinding.",
        ),
        WorkTask::ZincBareSteel => (
            "Paint bare steel with cold zinc",
            "Outdoors, away from flames; the can says how long it dries, a day where it does not.",
        ),
        WorkTask::MakeUpThreads => (
            "Make up threaded joints",
            "Clean, sealant, turned tight; leave it to cure as its label says, a day where it does not.",
        ),
        WorkTask::GlueTheRing => (
            "Glue the ring's couplings",
            "In open air, no flame near; leave it to cure as its label says, a day where it does not.",
        ),
        WorkTask::CutRopes => {
            ("Cut and mark the ropes", "Tie a label to each as soon as it is cut; seal its ends.")
        }
        WorkTask::TryTogether => (
            "Try it together on the ground",
            "Lying, without raising anything: tubes slide, pins go through, the lap closes, the ring meets.",
        ),
    }
}

pub(crate) fn after_days(days: u32) -> String {
    match days {
        0 => "first day".to_owned(),
        1 => "the day after".to_owned(),
        days => format!("{days} days later"),
    }
}

pub(crate) fn waits(days: u32) -> String {
    match days {
        0 => String::new(),
        1 => "then a day to dry or cure: the label's own time goes before".to_owned(),
        days => format!("then {days} days to dry or cure: the label's own time goes before"),
    }
}

pub(crate) const COLUMNS_CSV: [&str; 7] =
    ["aisle", "what", "how many", "length", "for", "not known yet", "in the cart"];
