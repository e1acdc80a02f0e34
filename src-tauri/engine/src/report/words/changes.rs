//! What to change first.

use crate::quantity::{Units, format};
use crate::round_figures::step;
use crate::wind_capacity::changes::TOGETHER;
use crate::wind_capacity::{RepeatedStep, WindChange, WindStep};

/// What to do.
pub(crate) fn change(change: &WindChange, units: Units) -> String {
    let steps: Vec<String> = change.steps.iter().map(|step| repeated(*step, units)).collect();
    let steps = steps.join(" ");
    if change.id == TOGETHER { format!("All of these together: {steps}") } else { steps }
}

/// A step made several times says so.
fn repeated(RepeatedStep { step, times }: RepeatedStep, units: Units) -> String {
    let what = said(step, units);
    match times {
        0 | 1 => what,
        2 => format!("{}, and then by as much again.", what.trim_end_matches('.')),
        times => format!("{}, and then by as much {} times more.", what.trim_end_matches('.'), times - 1),
    }
}

fn said(step: WindStep, units: Units) -> String {
    let system = units.system;
    let length = |length_m: f64| format::length(length_m, units);
    let words = match step {
        WindStep::AnchorsFartherOut => "Set the anchors a fifth farther out.",
        WindStep::GuysTighter => "Set the guys half as tight again.",
        WindStep::GuysLooser => "Set the guys a third less tight.",
        WindStep::RopeThicker => "Take rope one size up, a quarter thicker.",
        WindStep::RopeStiffer => "Take rope that stretches half as much.",
        WindStep::RopeEndsBetter => "Tie the guys with a figure-eight loop instead of another knot.",
        WindStep::FourGuys => "Set four guys a level instead of three.",
        WindStep::SecondLevel => "Add a second level of guys, half as high.",
        WindStep::AnchorsProved => "Show the anchors to hold more by a proof pull.",
        WindStep::AnchorsBigger => {
            "Set the anchors a quarter bigger and a quarter deeper; screws turned in to half as much again."
        }
        WindStep::AnchorsTimber => {
            let [long, high, deep] = [step::TIMBER_LENGTH, step::TIMBER_FACE, step::TIMBER_DEPTH]
                .map(|habit| length(habit.of(system)));
            return format!("Bury a timber for every anchor, {long} long, {high} high, {deep} deep.");
        }
        WindStep::SandDenser => {
            "If the sand lay one class denser (try again with the rod, or move to firmer ground)."
        }
        WindStep::SoilStiffer => {
            "If the soil were one class stiffer (dig and feel again, or move to firmer ground)."
        }
        WindStep::TubesStronger => {
            return format!("Take tubes with papers of stronger steel, {} yield.", step::STEEL.said(system));
        }
        WindStep::TubesLarger => "Take every tube a fifth larger, wall and all.",
        WindStep::PinHoleSmaller => "Drill for a pin a quarter thinner.",
        WindStep::TopTubeLower => {
            return format!("Raise the top tube {} less.", length(step::LOWER.of(system)));
        }
        WindStep::MastShorter => return format!("Cut {} off the mast.", length(step::LOWER.of(system))),
        WindStep::Boards => {
            let side = length(step::BOARD.of(system) / 1000.0);
            return format!("Put boards of {side} by {side} under the feet.");
        }
        WindStep::BoardsWider => "Put boards half as wide again under the feet.",
        WindStep::SeatPlate => {
            let side = length(step::PLATE.of(system));
            return format!("Put a stout steel plate of {side} by {side} under the mast's foot.");
        }
        WindStep::SeatPlateWider => "Take a plate half as wide again under the mast's foot.",
        WindStep::TimberWider => "Take base timbers half as wide again, and half as deep.",
        WindStep::JointPacked => "Pack a board tight between the ground and the timbers under the mast.",
        WindStep::FootThicker => "Take feet half as thick again.",
        WindStep::WoodHarder => "Take Douglas fir or larch for the base.",
        WindStep::MoreStakes => "Drive a stake on both sides of every leg.",
        WindStep::LongerStakes => return format!("Drive stakes {} longer.", length(step::STAKE.of(system))),
        WindStep::ThickerStakes => "Drive stakes half as thick again.",
        WindStep::FewerStrands => "Hang a third fewer strands.",
        WindStep::StrandsLooser => "Hang the strands half as tight.",
        WindStep::NoTopper => "Leave the topper off.",
    };
    words.into()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::UnitSystem;
    use crate::wind_capacity::Effect;

    #[test]
    fn several_steps_are_said_together_and_one_made_again_says_so() {
        let units = Units { system: UnitSystem::Metric, inch_fraction: 16 };
        let of = |id: &str, steps: &[(WindStep, u32)]| {
            let steps = steps.iter().map(|&(step, times)| RepeatedStep { step, times }).collect();
            let change = WindChange {
                id: id.into(),
                steps,
                pointer: String::new(),
                gust_m_per_s: 20.0,
                gain_m_per_s: 1.0,
                effect: Effect::HelpsALittle,
                weakest: None,
                proof_pull_n: None,
            };
            super::change(&change, units)
        };
        assert_eq!(of("no_topper", &[(WindStep::NoTopper, 1)]), "Leave the topper off.");
        assert_eq!(
            of(TOGETHER, &[(WindStep::GuysLooser, 2), (WindStep::RopeThicker, 3), (WindStep::Boards, 1)]),
            "All of these together: Set the guys a third less tight, and then by as much again. Take rope one size up, a \
             quarter thicker, and then by as much 2 times more. Put boards of 300 mm by 300 mm under the feet."
        );
    }
}
