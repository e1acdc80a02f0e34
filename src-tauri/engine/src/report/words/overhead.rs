//! Overhead lines, and whether anybody looked up.

use super::yard::{named, peg};
use crate::finding::overhead::{OverheadRemedy, OverheadRule};
use crate::quantity::UnitSystem;
use crate::report::format;
use crate::round_figures::rounded_up;

/// Every remedy about an overhead line ends with this.
const KEEP_AWAY: &str = "Keep yourself, the mast, ropes, strands and ladders away from the line. Ask the utility what \
     distance it wants and whether it can switch off or cover the line. Never find its height by touching: no pole, \
     no tape, no thrown line. The distances of 29 CFR 1926.1408 are a crane rule, used here as the least habit; as far as \
     a wire sags it can swing, and by so much more is kept.";

pub(super) fn sentence(rule: &OverheadRule) -> String {
    match rule {
        OverheadRule::VoltageUnknown { line } => {
            format!("Nobody has asked which voltage {line} carries, so how far to keep from it is not known.")
        }
        OverheadRule::BeyondTable { line } => {
            format!("{line} carries more than the table of distances covers.")
        }
        OverheadRule::Near { part, line, in_doubt } => {
            let comes = if *in_doubt { "may come" } else { "comes" };
            format!("{} {comes} within the danger distance of {line}.", named(part))
        }
        OverheadRule::Reach { line, in_doubt } => {
            let reaches = if *in_doubt { "may reach" } else { "reaches" };
            format!("If the mast falls that way it {reaches} the danger distance of {line}.")
        }
        OverheadRule::LooseReach { part, line } => {
            format!("{}, let loose at one end, can swing into the danger distance of {line}.", named(part))
        }
        OverheadRule::PegUnder { peg: under, line } => {
            format!("A {} ({}) stands under {line} or close beside it.", peg(under.kind), under.name)
        }
        OverheadRule::LinesUnknown { looked: false } => {
            "Nobody has said whether a wire hangs over the work or within reach of it.".into()
        }
        OverheadRule::LinesUnknown { looked: true } => {
            "Somebody looked up for wires, but not as far as this mast and its ropes reach if they come loose.".into()
        }
    }
}

pub(super) fn remedy(remedy: &OverheadRemedy, system: UnitSystem) -> String {
    let say = match remedy {
        OverheadRemedy::AskForTheVoltage => {
            "Ask the utility for the voltage and for the distance to keep; until then this line is not checked, whatever \
             the distances say."
                .to_owned()
        }
        OverheadRemedy::BuildElsewhere => {
            "Build somewhere else unless the utility has set a distance in writing.".to_owned()
        }
        OverheadRemedy::MoveTheWork { by_m } => {
            format!("Move the work at least {} further from the line.", rounded_up(*by_m, system))
        }
        OverheadRemedy::MoveOrLowerMast { by_m, toward_deg } => {
            let way =
                toward_deg.map_or_else(String::new, |deg| format!(" to the {}", format::compass_point(deg)));
            let by = rounded_up(*by_m, system);
            format!("Move the mast at least {by}{way}, or make it lower by as much.")
        }
        OverheadRemedy::NeverLetGo => {
            "Never let go of a loose end: tie it off before it is freed, in still air only, or use a place further from \
             the line."
                .to_owned()
        }
        OverheadRemedy::MovePeg { by_m } => format!(
            "Move it at least {} further from the line, or carry bars and stakes lying down there.",
            rounded_up(*by_m, system)
        ),
        OverheadRemedy::LookUp { reach_m } => format!(
            "Stand where the mast, each anchor and the ring will be, and look up and round, {} far at least. Enter each \
             wire, or that there is none.",
            rounded_up(*reach_m, system)
        ),
    };
    format!("{say} {KEEP_AWAY}")
}
