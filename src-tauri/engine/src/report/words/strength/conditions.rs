//! What must hold for a number to be true.

use crate::quantity::UnitSystem;
use crate::resistance::Condition;
use crate::round_figures::rule;

/// All of them, one after the other.
pub(crate) fn conditions(conditions: &[Condition], system: UnitSystem) -> String {
    let words: Vec<String> = conditions.iter().map(|condition| said(*condition, system)).collect();
    words.join(" ")
}

fn said(condition: Condition, system: UnitSystem) -> String {
    let words = match condition {
        Condition::LeastYieldTaken => {
            "Yield not known: the least that steel of its kind has is taken. Straight and undented."
        }
        Condition::YieldOfPapers => "By the yield of its papers. Straight and undented.",
        Condition::PlainSteelPin => {
            "A pin of plain steel without papers, cut twice and bearing on both walls of the weaker tube."
        }
        Condition::CollarBolt => {
            "A bolt of plain steel without papers through collar and tube takes what pulls down; sideways the collar has to \
             lie close round the tube."
        }
        Condition::CollarShoulder => {
            "The collar lies on its shoulder all round. What carries the shoulder itself is not looked at: a weld, a pin, a \
             coupling or the tube below."
        }
        Condition::CouplingSleeve => {
            "The coupling's steel outside its threads, of the least strength; both threads made up tight."
        }
        Condition::NetSection => {
            "The net section, elastic; nothing is said of the pin or the coupling itself."
        }
        Condition::NewRope => {
            "A new rope, out of the sun and off sharp edges; old, chafed or knotted in the middle it holds less."
        }
        Condition::NewRopeWet => {
            "A new rope, wet, out of the sun and off sharp edges; old, chafed or knotted in the middle it holds less."
        }
        Condition::WoodGives => {
            "The wood gives a millimetre at this load; sound wood, no knot under the part."
        }
        Condition::SawnPost => {
            "Sawn of sound wood of grade No. 2 at least, standing upright, its head free to sway."
        }
        Condition::LapSpansFreely => {
            "The section left by the lap, wet, No. 2 at least. It is taken to span freely from foot to foot: pack a board \
             tight under the joint, and it need not. NDS wants no notch there at all."
        }
        Condition::LapOverBoard => {
            "The section left by the lap, wet, No. 2 at least. The board under the joint is taken to carry the mast: keep \
             it packed tight."
        }
        Condition::TorqueAtFullDepth => {
            "Torque at full depth, averaged over the last turns; pulled in line with the shaft."
        }
        Condition::ShaftThinnerThanTested => "Nobody tested shafts this thin: the rule is stretched to them.",
        Condition::InLineWithShaft => {
            "Pulled in line with the shaft, in soil that the screw went into without spinning."
        }
        Condition::GetsWetThrough => {
            "For ground that gets wet through, which leaves about half in clay and garden soil."
        }
        Condition::PulledStraightUp => "For a straight upward pull, with the hole filled and trodden firm.",
        Condition::UndercutAcrossThePull => {
            "Undercut into soil that was never dug, across the pull; the rope leaves through a slot."
        }
        Condition::StoutPickets => return stout_pickets(system),
        Condition::BareSoilFriction => {
            "Friction as presumed for concrete on bare soil; wet grass or a tarpaulin under it has less."
        }
        Condition::ProvedAsItWas => {
            "Proved by a pull in the ground as it was that day; wetter ground may hold half as much."
        }
        Condition::HoldAsSaid => {
            "As whoever answers for it has said, and by nothing else: its owner and a licensed person decide."
        }
        Condition::SoilGivesFirst => {
            "The soil gives way first. Level ground in front of the stake; a push across it only."
        }
        Condition::BarBendsFirst => {
            "The bar bends first. Level ground in front of the stake; a push across it only."
        }
        Condition::UndisturbedSoil => {
            "On undisturbed soil, turf taken off; a foot on a slope needs soil in front of it."
        }
        Condition::TimberOnBareSoil => {
            "Timber on bare, undisturbed soil; on wet grass it slides more easily, and nobody has published how much."
        }
        Condition::StakesHoldLess => "What the stakes hold is less and does not come on top.",
        Condition::StakesTogether => "All stakes that stand against this push, together.",
        Condition::GuysPullTogether => "All guys on it pull together; it points between them.",
        Condition::NearAnchorsCountAsOne => "Anchors this near to each other count as one.",
    };
    words.into()
}

fn stout_pickets(system: UnitSystem) -> String {
    let [thick, long, driven, driven_to] =
        [rule::PICKET_THICK, rule::PICKET_LONG, rule::PICKET_DRIVEN, rule::PICKET_DRIVEN_TO]
            .map(|habit| habit.said(system));
    format!(
        "Wooden pickets at least {thick} thick and {long} long, driven {driven} to {driven_to} deep, leaning 15° away \
         from the pull, lashed in line."
    )
}
