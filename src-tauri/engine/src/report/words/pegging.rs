//! From peg to peg: what to do, how far off it may be, what the tapes say.

use super::{UnitSystem, Units};
use crate::finding::Subject;
use crate::pegging::{Driven, PegChecked, PegStage, StakeOutState, ToleranceBy};

/// Beside the guide, whatever stands in it.
pub(crate) const CAUTION: &str = "Pegs that only mark a place may be small and shallow. Nothing is driven, screwed in or dug before the \
locate service has answered and every line is marked, private ones too: then dig by hand inside the tolerance zone. The \
compass only points roughly: the tapes decide. Look up for wires before you lift anything long.";

/// Where somebody has yet to choose.
pub(crate) const NOBODY_SAID: &str = "nobody has said it: Parts, Guys, what they are made fast to";

pub(crate) const READ_ALL_AGAIN: &str = "Read the tapes again that are farthest off, from the other end, and then those of the pegs between them.";

pub(crate) fn headline(pegs: usize, set: usize, walk: &str, listed: &str) -> String {
    let state = match set {
        0 => "none set yet".to_owned(),
        set if set >= pegs => "all set".to_owned(),
        set => format!("{set} set"),
    };
    let less = if walk == listed { String::new() } else { format!("; by the list it would be {listed}") };
    format!("{pegs} points, {state}. In this order about {walk} to walk{less}.")
}

pub(crate) fn mark(id: &str) -> String {
    format!("mark {id}")
}

/// A peg's name within a sentence.
pub(crate) fn peg(name: &str) -> String {
    match name {
        "Mast" => "the mast".to_owned(),
        name => name.to_owned(),
    }
}

pub(crate) fn stage(stage: PegStage) -> &'static str {
    match stage {
        PegStage::Mast => "Mast and hinge",
        PegStage::Front => "Direction",
        PegStage::Legs => "Base",
        PegStage::Anchors => "Anchors",
        PegStage::Stakes => "Stakes",
    }
}

pub(crate) fn crossing(angle: &str, good: bool) -> String {
    if good { angle.to_owned() } else { format!("{angle}, poor: outside 30°–150°") }
}

pub(crate) fn between(from: &str, to: &str) -> String {
    format!("{from} to {to}")
}

/// Where its tapes do not reach as well as is wanted; `measured` where what stands of it is measured anew.
pub(crate) fn measure_after(landing: &str, measured: bool) -> String {
    let then = if measured {
        "measure it once it stands, and save it under What really stands."
    } else {
        "let the timbers say where, and measure the gap under each tip before a foot is sawn."
    };
    format!("Its tapes reach {landing} (95 of 100), more than it may be off: {then}")
}

pub(crate) fn driven(what: Driven) -> &'static str {
    match what {
        Driven::NotChosen => "not chosen yet",
        Driven::Screw => "screw anchor, turned in along the line of the guy",
        Driven::Plate => "buried plate, its rod along the line of the guy",
        Driven::Deadman => "log or timber, buried level and square across the pull",
        Driven::Pickets => "pickets in line with the pull",
        Driven::Bar => "steel bar",
        Driven::Ballast => "weight on the ground",
        Driven::Fixing | Driven::FixingOnTree => "nothing: mark the fixing on what it is made fast to",
        Driven::BaseStake => "stake beside the timber, its head flush with the timber’s top",
    }
}

pub(crate) fn batter(what: Driven, angle: &str, toward: Option<&str>) -> String {
    match (what, toward) {
        (Driven::Pickets, Some(toward)) => {
            format!("{angle} from plumb, heads away from the mast (to {toward} as read here)")
        }
        (_, Some(toward)) => format!("{angle} from plumb, head towards the mast (to {toward} as read here)"),
        (_, None) => "plumb".to_owned(),
    }
}

pub(crate) fn pull(reading: &str, rises: &str) -> String {
    format!("to {reading} as read here, {rises} up")
}

/// Beside a guy that is made fast to a thing of the yard.
pub(crate) const FIXING: &str = "Its owner and a licensed person decide whether and how a guy is made fast there, and what it may \
pull. Measure the height from the ground beneath, and the rope from the fixing as it is.";

/// The same of a tree.
pub(crate) const FIXING_ON_TREE: &str = "Its owner and a tree surgeon decide whether a guy is made fast there, and what it may \
pull. Lay a broad band round the trunk over padding; drive no screw or nail into it. It sways: look at the guy again in wind.";

/// Beside what is put in by force.
pub(crate) fn driving(what: Driven) -> &'static str {
    match what {
        Driven::Plate | Driven::Deadman => "Keep the hole covered while nobody is there.",
        Driven::Screw => "Turn a screw anchor in by hand: a bar that slips strikes the arms.",
        _ => {
            "Eyes and hands: wear safety glasses and gloves, hold a stake with tongs or a pipe and not by hand while another \
             strikes, and put a cap on what sticks out."
        }
    }
}

pub(crate) fn tolerance(
    by: &ToleranceBy,
    about: &dyn Fn(&Subject) -> String,
    guy: &dyn Fn(&str) -> String,
    units: Units,
) -> String {
    match by {
        ToleranceBy::Finding { finding } => {
            format!("Farther off, at {}: {}", about(&finding.subject), super::sentence(finding, units))
        }
        ToleranceBy::Pull { guy: id } => {
            format!("Farther off {} pulls over a twentieth harder in the same wind.", guy(id))
        }
        ToleranceBy::Rope { guy: id } => {
            format!(
                "Farther off the rope of {}, cut to the plan, has under half of its lower end left.",
                guy(id)
            )
        }
        ToleranceBy::Gap { leg } => format!("Farther off what goes under the {leg} leg no longer fits."),
        ToleranceBy::TimberEnd => "Along the timber; across it the timber’s side says where.".to_owned(),
        ToleranceBy::Near { to } => format!("Farther off a stake may come too near to {}.", about(to)),
        ToleranceBy::NothingFound => "So far was tried, and nothing went wrong.".to_owned(),
        ToleranceBy::NoPlan => "Farther off it can’t be planned.".to_owned(),
    }
}

pub(crate) fn checked(state: PegChecked, covers: bool) -> &'static str {
    match (state, covers) {
        (PegChecked::Agrees, _) => "checked: the tapes agree",
        (PegChecked::Doubted, _) => "the tapes speak against it",
        (PegChecked::NotYet, true) => "not checked yet",
        (PegChecked::NotYet, false) => "not checked by the list of tapes: look at it twice",
    }
}

pub(crate) fn off(length: &str, none: bool, longer: bool) -> String {
    match (none, longer) {
        (true, _) => "as expected".to_owned(),
        (_, true) => format!("{length} longer"),
        (_, false) => format!("{length} shorter"),
    }
}

pub(crate) fn test(state: StakeOutState, read: u32, covered: usize, pegs: usize, more: bool) -> String {
    let tapes = if read == 1 { "tape".to_owned() } else { format!("{read} tapes") };
    let again = if more { " Something else is wrong besides." } else { "" };
    match state {
        StakeOutState::NotRead => {
            "Not checked: no tape from peg to peg was read. A peg that is set wrongly looks like any other."
                .to_owned()
        }
        StakeOutState::Agrees if covered == pegs => format!("All {tapes} agree, and every peg is checked."),
        StakeOutState::Agrees => {
            format!(
                "The {tapes} agree so far; {covered} of {pegs} points are checked by them, the others not yet."
            )
        }
        StakeOutState::Named => format!("The {tapes} do not agree. One thing explains it:{again}"),
        StakeOutState::OneOfSeveral => format!("The {tapes} do not agree. One of these explains it:{again}"),
        StakeOutState::Unexplained => {
            format!("The {tapes} do not agree, and no single mistake explains it.")
        }
        StakeOutState::CannotTell => {
            "Nobody can tell: too little is known of where the marks are, or of the ground.".to_owned()
        }
    }
}

pub(crate) fn swapped(peg: &str, a: &str, b: &str) -> String {
    format!(
        "At {peg} the two tapes were swapped: the length of {a} was laid off from {b}, and the other way round."
    )
}

pub(crate) fn wrong_side(peg: &str, a: &str, b: &str) -> String {
    format!(
        "At {peg} the wrong one of the two crossings was taken: it stands on the other side of the line {a} → {b}."
    )
}

pub(crate) fn tie_off(peg: &str, from: &str, by: &str, long: bool, like: &str) -> String {
    let way = if long { "long" } else { "short" };
    format!("At {peg} the tape from {from} was laid off {by} too {way}{like}.")
}

pub(crate) fn tape_off(tape: &str, by: &str, long: bool, like: &str) -> String {
    let way = if long { "much" } else { "little" };
    format!("The check tape {tape} was read {by} too {way}{like}.")
}

/// What a round blunder comes from (common practice); nothing where it is none.
pub(crate) fn like(by_m: f64, system: UnitSystem) -> &'static str {
    const FOOT_M: f64 = 0.3048;
    let is = |length_m: f64, within_m: f64| (by_m.abs() - length_m).abs() < within_m;
    match system {
        UnitSystem::Imperial if is(FOOT_M, 0.06) => ": a foot misread, or hooked at the one-foot mark",
        UnitSystem::Imperial if is(10.0 * FOOT_M, 0.1) => ": a ten misread",
        UnitSystem::Metric if is(1.0, 0.06) => ": a metre misread",
        UnitSystem::Metric if is(0.1, 0.03) => ": ten centimetres misread, or hooked at the first ten",
        UnitSystem::Metric if is(10.0, 0.1) => ": a ten misread",
        _ => "",
    }
}

pub(crate) fn measure_next(tape: &str, again: bool) -> String {
    if again { format!("Read again: {tape}, from the other end.") } else { format!("Read next: {tape}.") }
}

pub(crate) fn set_again(peg: &str, may_stay: bool) -> String {
    if may_stay {
        format!(
            "Set {peg} anew by its tapes; or leave it, measure where it stands and save that under What really stands."
        )
    } else {
        format!("Set {peg} anew by its tapes.")
    }
}

pub(crate) fn without_peg(id: &str) -> String {
    format!("The tape {id} belongs to no point of this plan any more: it was left out.")
}
