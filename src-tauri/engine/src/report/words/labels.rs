//! What a row is called.

use super::approach;
use crate::report::{Label, format};
use crate::wind_capacity::{MissingKind, PartName};

pub(crate) fn label(label: &Label) -> String {
    let words = match label {
        Label::FrontFoot => "Front foot",
        Label::FrontFootHeight => "Front foot, height at its centre",
        Label::FrontShim => "Front shim, at its centre",
        Label::FrontLegOnGround => "Front leg lies on the ground",
        Label::MastRaised => "Mast, raised",
        Label::Verdict => "Verdict",
        Label::GroundModel => "Ground taken as",
        Label::Slope => "Slope of the ground",
        Label::Grade => "Grade",
        Label::Fall => "Ground falls towards (true bearing)",
        Label::FallReading => "Fall line, as read in this yard",
        Label::ReadingsUsed => "Readings used",
        Label::WorstReading => "Reading that fits least",
        Label::AddToReading => "Add to a bearing as read to get the true one",
        Label::NorthFrom => "From",
        Label::MastEast => "Mast east of the origin mark",
        Label::MastNorth => "Mast north of the origin mark",
        Label::HeightRaised => "Height raised, foot to top",
        Label::HeightLowered => "Height run down",
        Label::TopAboveGround => "Top above the ground, raised",
        Label::FallRadius => "Radius of the fall circle",
        Label::TubesMass => "Mass of the tubes",
        Label::LegPoints => "Points towards (true bearing)",
        Label::LegReach => "Reach, mast axis to tip",
        Label::UnderTip => "Under its tip",
        Label::TipGap => "Gap at the tip",
        Label::FootCentre => "Height at the centre of the foot",
        Label::FootInner => "at the face towards the mast",
        Label::FootOuter => "at the face away from the mast",
        Label::FootLeft => "at the left side, looking out",
        Label::FootRight => "at the right side, looking out",
        Label::BevelAlong => "Saw bevel along the leg",
        Label::BevelAcross => "Saw bevel across the leg",
        Label::Underside => "Underside of the timbers, above the origin mark",
        Label::JointBoard => "Board packed tight under the joint",
        Label::OnContour => "Cross leg on the contour",
        Label::TurnToContour => "To lay the cross leg on the contour",
        Label::FootOnContour => "Front foot's height at its centre then",
        Label::BaseStakes => "Base stakes",
        Label::SharedWith => "Made fast to one anchor with",
        Label::GuyTape => "Tape along the ground, mast to anchor",
        Label::BearingFromMast => "True bearing from the mast",
        Label::AsReadHere => "The same as read in this yard",
        Label::TurnFromFront => "Turn from the front leg, clockwise",
        Label::GuyRadius | Label::PegInPlan => "Distance in plan",
        Label::AnchorHeight => "Anchor against the ground at the mast",
        Label::Chord => "Straight line, anchor to collar",
        Label::GuyAngle => "Angle to the horizontal",
        Label::Unstressed => "Rope between its ends, slack",
        Label::RopeToCut => "Rope to cut, knots and tails included",
        Label::Sag => "Sag below the straight line",
        Label::TensionTop => "Tension at the mast, no wind",
        Label::TensionBottom => "Tension at the anchor, no wind",
        Label::PluckedFrequency => "Plucked, it swings sideways at",
        Label::CollarRunDown => "Run down: its collar is above the foot at",
        Label::MakeFastRunDown => "Run down: make it fast above the foot at",
        Label::TensionRunDown => "Run down: tension at the mast, no wind",
        Label::WhereItStands => "Where it stands",
        Label::Moved => "Stands from its planned place",
        Label::MovedWay => "Which way from there",
        Label::Explained => "Pegging out and measuring explain that (95 %)",
        Label::RopeToCutNow => "Rope to cut now",
        Label::AgainstPlan => "Against the plan",
        Label::GapMeasured => "Gap as measured",
        Label::GapPlanned => "As planned",
        Label::RingRadius => "Radius of the ring",
        Label::TopRadius => "Radius of the circle at the top",
        Label::Strands => "Strands",
        Label::ShortestStrand => "Shortest strand, straight",
        Label::LongestStrand => "Longest strand, straight",
        Label::PegTape => "Tape along the ground from the mast",
        Label::PegHeight => "Against the ground at the mast",
        Label::Ties => "Tapes from two marks",
        Label::TieSide => "Which of the two crossings",
        Label::TiesCross => "The tapes cross at",
        Label::Landing => "Found so, 95 of 100 land within",
        Label::WindVerdict => "Verdict on the wind",
        Label::GustRaised => "Gust limit, mast raised",
        Label::GustLowered => "Gust limit, mast lowered",
        Label::GustNow => "Gust limit now, mast raised",
        Label::OnlyByEye => "Only if these hold, which you look at by eye",
        Label::LowerIt => "Lower it",
        Label::LayItDown => "Lay it down",
        Label::WhichWind => "Which wind",
        Label::Fetch => "Houses or wood have to reach on every side for",
        Label::Reaches => "Do they?",
        Label::CountedAs => "Counted as",
        Label::PressureRule => "A gust becomes pressure by",
        Label::HoldPull => "Hold it for",
        Label::MayCreep => "It may creep",
        Label::Gust => "Gust",
        Label::DoesItHold => "Does it hold?",
        Label::MastFalls => "The mast",
        Label::TopMoves => "Its top moves",
        Label::FootDown => "Its foot presses down",
        Label::FootSideways => "Its foot pushes sideways",
        Label::PlaceFront => "Front leg points towards (true bearing)",
        Label::PlaceGuyTurn => "First guy, clockwise from the front leg",
        Label::PlaceMargin => "Tightest clearance, beyond what is needed",
        Label::PlaceFoot => "Tallest foot or shim",
        Label::PlaceFall => "Things that the falling mast would reach",
        Label::ToChange => "To change",
        Label::Tube { number, name } => return format!("Tube {number}: {name}"),
        Label::TieFromFirst { mark } | Label::TieFromSecond { mark } => return format!("Tape from {mark}"),
        Label::Clearance { number, work, to, what } => {
            let first = if number.is_none() { "Tightest clearance: " } else { "" };
            return format!("{first}{work} – {to} ({})", approach(*what));
        }
        Label::Missing { kind, about, .. } => return missing(*kind, about.as_deref()),
        Label::RunDown { name, .. } => name,
        Label::Part { name, .. } => return part(name),
        Label::WindFrom { from_deg, exact } => {
            let from = format::compass_point(*from_deg);
            let exactly = if *exact { format!(" ({})", format::bearing(*from_deg)) } else { String::new() };
            return format!("Wind from the {from}{exactly}");
        }
        Label::ProofPull { name, .. } => return format!("Pull the anchor of {name} with"),
        Label::ProofStep { number } => return format!("Step {number}"),
        // What there is to say is the row's value, or depends on the units: `words::change`.
        Label::Line { .. } | Label::Change { .. } => "",
    };
    words.to_owned()
}

/// What a part of the mast is called.
pub(crate) fn part(name: &PartName) -> String {
    let words = match name {
        PartName::Tube { tube } => tube,
        PartName::TubeAtThread { tube } => return format!("{tube} at its thread"),
        PartName::TubeAtLowerPinHole { tube } => return format!("{tube} at its lower pin hole"),
        PartName::TubeAtUpperPinHole { tube } => return format!("{tube} at its upper pin hole"),
        PartName::RopeOf { guy } => return format!("Rope of {guy}"),
        PartName::AnchorOf { guys } => return format!("Anchor of {}", guys.join(" + ")),
        PartName::StrandsAsGuys => "Strands as side guys",
        PartName::TimberUnderMast => "Timber under the mast",
        PartName::CrossTimberAtLap => "Cross timber at its lap",
        PartName::FrontTimberAtLap => "Front timber at its lap",
        PartName::FrontAndBackTimberAtLap => "Front and back timber at its lap",
        PartName::FootOf { leg } => return format!("Foot of the {leg} leg"),
        PartName::GroundUnderCrossLeg => "Ground under the feet of the cross leg",
        PartName::GroundUnderJointBoard => "Ground under the board at the joint",
        PartName::BaseAgainstSliding => "Base against sliding",
        PartName::BaseAgainstTurning => "Base against turning",
        PartName::WholeMast => "The mast as a whole",
    };
    words.to_owned()
}

/// What to enter.
fn missing(kind: MissingKind, about: Option<&str>) -> String {
    let of = about.map_or(String::new(), |name| format!(", {name}"));
    match kind {
        MissingKind::Soil => "The soil, by thumb and bar".into(),
        MissingKind::OtherSoil => "Other ground: no publication says what this soil carries".into(),
        MissingKind::AnchorKind => format!("What the guys are made fast to{of}"),
        MissingKind::ScrewData => format!("The screw's helix and how deep it lies{of}"),
        MissingKind::ProofPull => format!("A proof pull of the anchors, or other anchors{of}"),
        MissingKind::RopeStrength => format!("The rope's least breaking strength{of}"),
        MissingKind::RopeFibre => format!("What fibre the rope is of{of}"),
        MissingKind::RopeEnd => format!("Another end of the rope, or another factor{of}"),
        MissingKind::Tube => format!("A tube, hole or thread that a rule covers{of}"),
        MissingKind::Seat => "A plate under the mast's foot".into(),
        MissingKind::StrandThickness => "How thick one strand of lights is".into(),
        MissingKind::StrandMass => "What one strand of lights weighs".into(),
        MissingKind::WhenLowered => format!("How the guys are made fast when the mast is run down{of}"),
        MissingKind::StrandsHelp => "That the strands do not count as side guys".into(),
        MissingKind::FootFixing => "That the mast's foot tips freely".into(),
    }
}
