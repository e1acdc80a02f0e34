//! Turning the mast up and laying it down.

use super::at_least;
use crate::finding::raising::{MissingStep, RaisingQuestion, RaisingRemedy, RaisingRule, SweptPart, Unheld};
use crate::finding::yard::{Nearness, Thing};
use crate::job::{Hinge, RaisingStep};
use crate::quantity::{UnitSystem, Units};
use crate::raising::{GuyDoes, GuyRole, SideHold};
use crate::report::format;
use crate::round_figures::rounded_up;

pub(super) fn sentence(rule: &RaisingRule, units: Units) -> String {
    match rule {
        RaisingRule::WhenRunDown { rule } => {
            format!("With the mast run down and its guys made fast again: {}", super::rule(rule, units))
        }
        RaisingRule::NotSaid { open } => {
            let what: Vec<&str> = open.iter().map(|question| asked(*question)).collect();
            format!("Nobody has said {}: what the mast sweeps while it goes up is not known.", listed(&what))
        }
        RaisingRule::StrandThicknessUnknown => {
            "The strands are tied along the mast while it goes up, and nobody has measured how thick a cord is.".into()
        }
        RaisingRule::SweepNear { part, name, how, at_deg, .. } => {
            let (who, at) = (named(part), at_angle(*at_deg));
            match how {
                Nearness::Inside => format!("{who} runs into {name} while the mast goes up, {at}."),
                Nearness::TooNear => {
                    format!("{who} passes nearer to {name} than it should while the mast goes up, nearest {at}.")
                }
                Nearness::InDoubt => format!(
                    "{who} may pass nearer to {name} than it should while the mast goes up, nearest {at}: the measurements do not \
                     decide it."
                ),
            }
        }
        RaisingRule::SweepNearLine { part, line, in_doubt, at_deg } => {
            let comes = if *in_doubt { "may come" } else { "comes" };
            format!(
                "{} {comes} within the danger distance of {line} while the mast goes up, nearest {}.",
                named(part),
                at_angle(*at_deg)
            )
        }
        RaisingRule::LooseEndNearLine { part, line, at_deg } => format!(
            "{}, let loose while the mast goes up, can swing into the danger distance of {line}, most {}.",
            named(part),
            at_angle(*at_deg)
        ),
        RaisingRule::TrailsOnGround { what, within } => trailing(what, within),
        RaisingRule::SlackRopeOver { guy, name, at_deg, .. } => {
            let nearest = at_deg.map_or_else(String::new, |deg| format!(", nearest {}", at_angle(deg)));
            format!("The rope of {guy} lies over {name}, or catches on it, while the mast goes up{nearest}.")
        }
        RaisingRule::CorridorBlocked { name, .. } => {
            format!("{name} stands where the mast lies or is walked up.")
        }
        RaisingRule::CorridorOn { thing: Thing::KeepOff, name } => {
            format!("The mast lies on {name}, or those who walk it up tread there.")
        }
        RaisingRule::CorridorOn { name, .. } => {
            format!("The mast lies across {name}, or those who walk it up do so there.")
        }
        RaisingRule::CorridorOverBoundary { mast_too: true } => {
            "The lying mast reaches over the boundary, or may.".into()
        }
        RaisingRule::CorridorOverBoundary { mast_too: false } => {
            "Those who walk the mast up tread beyond the boundary.".into()
        }
        RaisingRule::BackLegInTheWay => {
            "The base has a back leg on the side on which the mast lies, so it can't tilt about its cross leg.".into()
        }
        RaisingRule::BaseFacesElsewhere { turn_deg } => format!(
            "The base tilts with its front leg going up, so the mast can't lie along that bearing: the base faces {} off \
             it.",
            format::angle(turn_deg.abs())
        ),
        RaisingRule::HingeUnheld { because } => match because {
            Unheld::NoStakes => "No stakes hold the base that carries the pin: it kicks out when the mast is pushed up.",
            Unheld::Never => "Nothing in the order holds the hinge: it kicks out when the mast is pushed up.",
            Unheld::TooLate => "The hinge is held only after the mast is walked up: it kicks out on the way.",
            Unheld::LetGoTooEarly => "The hinge is let go before all guys are fast: the mast can kick out and come down.",
        }
        .to_owned(),
        RaisingRule::StakeHasNoPlace { name, in_doubt } => {
            let comes = if *in_doubt { "may come" } else { "comes" };
            format!("A stake that holds the edge of the base {comes} too near to {name}.")
        }
        RaisingRule::NoStopGuy => {
            "No guy has its anchor on the side where the mast lay: nothing stops it at plumb.".into()
        }
        RaisingRule::StopGuyNotFast { guy } => {
            format!("{guy} is a stop guy and is not made fast before: the mast can go over past plumb.")
        }
        RaisingRule::StopGuysNotSetBefore => {
            "The stop guys are not made fast before the mast is walked up: it can go over past plumb.".into()
        }
        RaisingRule::SideGuysNotSetBefore => {
            "The side guys are not made fast before the mast is walked up: it can go over sideways.".into()
        }
        RaisingRule::TooShortUntilPlumb { guy } => {
            format!("{guy} is made fast before, and is too short until the mast is plumb: it holds the mast down or breaks.")
        }
        RaisingRule::FarGuysSetBefore => {
            "The far guys are made fast before the mast is walked up, and are too short until it is plumb.".into()
        }
        RaisingRule::SideNotHeld { on_right } => {
            format!("No guy can keep the mast from going over to the {} while it goes up.", side(*on_right))
        }
        RaisingRule::Tended { guy } => {
            format!("A helper has to give and take in the rope of {guy} all the way up.")
        }
        RaisingRule::StepMissing { step: MissingStep::WalkUp } => {
            "The order of the steps does not say when the mast is walked up.".into()
        }
        RaisingRule::StepMissing { step: MissingStep::SetFarGuys } => {
            "The order of the steps does not say when the far guys are made fast.".into()
        }
        RaisingRule::NoSuchGuy { id } => format!("No guy of this mast is called {id}."),
    }
}

/// More things than this are counted.
const NAMED: usize = 6;

fn trailing(what: &[SweptPart], within: &[String]) -> String {
    let parts: Vec<String> = what.iter().map(|part| named(part).replacen("The ", "the ", 1)).collect();
    let parts: Vec<&str> = parts.iter().map(String::as_str).collect();
    let one = matches!(what, [SweptPart::LooseRope { .. }]);
    let trails = if one { "trails" } else { "trail" };
    let begin = format!("Untied, {} {trails} on the ground while the mast lies and goes up", listed(&parts));
    if within.is_empty() {
        return format!("{begin}. Nothing that was entered lies within reach.");
    }
    let mut things: Vec<&str> = within.iter().take(NAMED).map(String::as_str).collect();
    let more = within.len().saturating_sub(NAMED);
    let more = format!("{more} more");
    if within.len() > NAMED {
        things.push(&more);
    }
    let they = if one { "it lies" } else { "they lie" };
    format!("{begin}, within reach of {}. How {they} there was not checked.", listed(&things))
}

pub(crate) fn side(on_right: bool) -> &'static str {
    if on_right { "right" } else { "left" }
}

fn asked(question: RaisingQuestion) -> &'static str {
    match question {
        RaisingQuestion::Hinge => "about what the mast turns up",
        RaisingQuestion::Bearing => "along which bearing it lies before it goes up",
        RaisingQuestion::Tubes => "whether its tubes are run down then",
        RaisingQuestion::Strands => "where the strands are then",
        RaisingQuestion::FastBefore => "which guys are made fast before",
    }
}

fn listed(what: &[&str]) -> String {
    match what {
        [] => String::new(),
        [one] => (*one).to_owned(),
        [first @ .., last] => format!("{} and {last}", first.join(", ")),
    }
}

fn at_angle(elevation_deg: f64) -> String {
    format!("with the mast at {} to the level", format::angle(elevation_deg))
}

/// How near a part comes to a thing, beside the place on the map.
pub(crate) fn nearest(part: &SweptPart, name: &str, distance: &str, needed: &str, at_deg: f64) -> String {
    format!("{} to {name}: {distance}, keep {needed}; mast at {}", named(part), format::angle(at_deg))
}

/// A part as the start of a sentence.
pub(crate) fn named(part: &SweptPart) -> String {
    match part {
        SweptPart::Mast => "The mast".into(),
        SweptPart::Topper => "The topper".into(),
        SweptPart::FrontLeg => "The front leg of the base".into(),
        SweptPart::CrossLeg => "The cross leg of the base".into(),
        SweptPart::Rope { guy } => format!("The rope of {guy}"),
        SweptPart::Strands => "The hanging strands".into(),
        SweptPart::LooseRope { guy } => format!("The loose rope of {guy}"),
    }
}

const KEEP_AWAY: &str = "Keep yourself, the mast, ropes and ladders away from the line, and ask the utility what distance it \
     wants and whether it can switch off or cover the line. The distances of 29 CFR 1926.1408 are a crane rule, used here \
     as the least habit, and as far as a wire sags more is kept, since it swings.";

pub(super) fn remedy(remedy: &RaisingRemedy, system: UnitSystem) -> String {
    match remedy {
        RaisingRemedy::SayHowItTurnsUp => {
            "Say it under Build, How it goes up. Until then nobody knows what stands in the way.".into()
        }
        RaisingRemedy::EnterTheStrandsThickness => {
            "Measure a cord with its lamps and enter it with the strands. Until then it is taken as thick.".into()
        }
        RaisingRemedy::LayElsewhere { clear } => format!(
            "Lay the mast along another bearing, or move it {}.",
            at_least(clear, system)
        ),
        RaisingRemedy::KeepAwayFromTheLine { by_m } => format!(
            "Lay the mast along another bearing, or move it at least {} further from the line. {KEEP_AWAY}",
            rounded_up(*by_m, system)
        ),
        RaisingRemedy::LiftTheRope => {
            "Have a helper lift the rope over it all the way up, or lay the mast along another bearing.".into()
        }
        RaisingRemedy::KeepHoldOfIt => format!(
            "Coil it and tie it to the mast before anybody lifts, or have its end held all the way, in still air only. {KEEP_AWAY}"
        ),
        RaisingRemedy::CoilAndTie => "Coil each of them and tie it to the mast before anybody lifts, or have its end carried all \
             the way up. Before that walk the ground within reach and look for what can catch: stakes, shrubs, steps, edges of \
             beds, lamps."
            .into(),
        RaisingRemedy::ClearTheGround => {
            "Clear the ground there, or lay the mast along another bearing.".into()
        }
        RaisingRemedy::CloseTheWay => {
            "Close the way while the mast goes up and while it is laid down, with somebody there.".into()
        }
        RaisingRemedy::LayWithinTheBoundary => {
            "Ask whoever owns that ground, or lay the mast along another bearing.".into()
        }
        RaisingRemedy::TakeOffTheBackLeg => {
            "Fit the back leg once the mast stands, use a T base, or turn the mast up about a pin.".into()
        }
        RaisingRemedy::TurnTheBase { front_bearing_deg } => format!(
            "Turn the base so that its front leg points to {}, or lay the mast opposite to the front leg.",
            format::bearing(*front_bearing_deg)
        ),
        RaisingRemedy::StakeTheBase => "Give each leg at least one stake, driven before the mast goes up.".into(),
        RaisingRemedy::HoldFirst => {
            "Drive the stakes that hold the hinge first, and try with a hard push that they do.".into()
        }
        RaisingRemedy::LetGoLast => "Draw the temporary stakes only when every guy is fast.".into(),
        RaisingRemedy::MoveTheStake => {
            "Have what lies there marked, and find the stake another place along the edge, or turn the base.".into()
        }
        RaisingRemedy::AnchorOnTheLyingSide => {
            "Lay the mast towards an anchor, or turn the guys so that one is there.".into()
        }
        RaisingRemedy::MakeFastBefore => "Make it fast, as long as it is at plumb, before anybody lifts.".into(),
        RaisingRemedy::UntieUntilPlumb => {
            "Leave it untied, or in a helper's hands, and make it fast when the mast is plumb.".into()
        }
        RaisingRemedy::SetALine => {
            "Set a line to that side near the hinge line for as long as it goes up, or lay the mast along another bearing."
                .into()
        }
        RaisingRemedy::PutAHelper => {
            "Put a helper with gloves at its anchor, with a turn of the rope round something that holds.".into()
        }
        RaisingRemedy::AddTheStep => "Put the step in its place.".into(),
        RaisingRemedy::NameAGuy => "Choose the guys again that are made fast before.".into(),
    }
}

pub(crate) const AS_SAID: &str = "As the job has it";
pub(crate) const BEST: &str = "The best way";
pub(crate) const CLEAR: &str = "Clear.";

/// Beside every answer about turning up.
pub(crate) const CAUTION: &str = "Nobody stands under the mast, beyond its end or within its length on either side while it goes up \
or down, but for those who hold it. One person calls; in wind that moves twigs nobody lifts. A way is clear by what was \
measured, and by nothing else: look up for wires first. The forces at the hinge and in people's hands are not worked out here.";

/// A side guy, by how far its lower end lies above or below the hinge.
pub(crate) fn side_guy(role: &str, off: &str, above: bool) -> String {
    let way = if above { "above" } else { "below" };
    format!("{role}, its lower end {off} {way} the hinge")
}

pub(crate) fn role(role: GuyRole) -> &'static str {
    match role {
        GuyRole::Stop => "stop guy",
        GuyRole::Side => "side guy",
        GuyRole::Far => "far guy",
    }
}

/// What is done with a guy, as the end of `At 45°: …`.
pub(crate) fn does(does: GuyDoes) -> &'static str {
    match does {
        // By how much it is slack stands beside it.
        GuyDoes::Fast | GuyDoes::Slack => "fast",
        GuyDoes::Tended => "tended",
        GuyDoes::Untied => "untied",
    }
}

pub(crate) fn slack_by(by: &str) -> String {
    format!("{by} slack")
}

pub(crate) fn short_by(by: &str) -> String {
    format!("{by} short")
}

pub(crate) fn held(held: SideHold) -> &'static str {
    match held {
        SideHold::Fast => "by a side guy that stays fast",
        SideHold::Tended => "by a guy that a helper tends",
        SideHold::Nobody => "by nothing",
    }
}

pub(crate) fn step(step: RaisingStep, hinge: Hinge) -> &'static str {
    match step {
        RaisingStep::HoldHinge if hinge == Hinge::BaseEdge => {
            "Have the front foot cut, or blocks of its height laid ready where the front leg comes down. Then drive the temporary stakes outside the edge about which the base tilts, and lash the cross leg to them: it is pushed away from them."
        }
        RaisingStep::HoldHinge => "Drive the stakes of the base that carries the pin.",
        RaisingStep::SetSideGuys => "Make the side guys fast that stay fast; give the others to helpers.",
        RaisingStep::SetStopGuys => "Make the stop guys fast, as long as they are at plumb.",
        RaisingStep::WalkUp => "Walk the mast up, and hold it at plumb against the stop guys.",
        RaisingStep::SetFarGuys => "Make the far guys fast: the mast stands.",
        RaisingStep::ReleaseHinge => "Drive the base's own stakes, and draw the temporary ones.",
    }
}

pub(crate) const NO_ORDER: &str = "Nobody has said yet how it goes up, so there is no order.";

pub(crate) fn whose_order(is_usual: bool) -> &'static str {
    if is_usual { "In the usual order." } else { "In an order of your own." }
}

/// What has to be done before a step, as a note beside it.
pub(crate) fn after(needs: &[RaisingStep]) -> String {
    let what: Vec<&str> = needs.iter().map(|step| done(*step)).collect();
    if what.is_empty() { String::new() } else { format!("Only once {}.", listed(&what)) }
}

fn done(step: RaisingStep) -> &'static str {
    match step {
        RaisingStep::HoldHinge => "the hinge is held",
        RaisingStep::SetSideGuys => "the side guys are set",
        RaisingStep::SetStopGuys => "the stop guys are set",
        RaisingStep::WalkUp => "the mast stands plumb",
        RaisingStep::SetFarGuys => "the far guys are fast",
        RaisingStep::ReleaseHinge => "the edge is let go",
    }
}

pub(crate) fn headline(clear_deg: u32, best: Option<&str>, waits: bool) -> String {
    match (clear_deg, best) {
        _ if waits && best.is_none() && clear_deg == 0 => {
            "Nobody can say yet which way it goes up: say first how it turns.".to_owned()
        }
        (0, _) | (_, None) => "It can't be walked up along any bearing as it stands here.".to_owned(),
        (_, Some(best)) if waits => format!(
            "As far as anybody knows it can be walked up from {clear_deg} of 360 bearings, best lying towards {best}. What is \
             still open may close all of them."
        ),
        (_, Some(best)) => {
            format!("It can be walked up from {clear_deg} of 360 bearings, best lying towards {best}.")
        }
    }
}

/// One sector of bearings.
pub(crate) fn sector(from_deg: u32, to_deg: u32) -> String {
    if from_deg == to_deg { format!("{from_deg}°") } else { format!("{from_deg}° to {to_deg}°") }
}
