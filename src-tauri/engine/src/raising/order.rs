//! What is done one after another, and whether the hinge and the guys hold the mast through all of it.

use super::results::{GuyRole, TiltedGuy};
use crate::finding::raising::{MissingStep, RaisingRemedy, RaisingRule, Unheld};
use crate::finding::{Finding, Severity, Subject};
use crate::job::RaisingStep;

use RaisingStep::{HoldHinge, ReleaseHinge, SetFarGuys, SetSideGuys, SetStopGuys, WalkUp};

/// The order that holds the mast throughout: hinge first, then what keeps it from going over sideways and past plumb; the far
/// guys when it stands, and only then is the edge let go. Common practice.
pub(super) fn usual(guys: &[TiltedGuy], with_base: bool) -> Vec<RaisingStep> {
    let has = |role: GuyRole| guys.iter().any(|guy| guy.role == role);
    let steps = [
        (HoldHinge, true),
        (SetSideGuys, has(GuyRole::Side)),
        (SetStopGuys, has(GuyRole::Stop)),
        (WalkUp, true),
        (SetFarGuys, has(GuyRole::Far)),
        (ReleaseHinge, with_base),
    ];
    steps.into_iter().filter(|(_, is_done)| *is_done).map(|(step, _)| step).collect()
}

/// What is wrong with an order: each finding is a stop.
pub(super) fn check(order: &[RaisingStep], guys: &[TiltedGuy]) -> Vec<Finding> {
    let has = |role: GuyRole| guys.iter().any(|guy| guy.role == role);
    let first = |step: RaisingStep| order.iter().position(|other| *other == step);
    let last = |step: RaisingStep| order.iter().rposition(|other| *other == step);
    let stop = |rule: RaisingRule, remedy: RaisingRemedy| {
        Finding::rule_of_thumb(Severity::Stop, rule, Subject::Mast, remedy)
    };
    let mut found = Vec::new();
    let Some(walks) = first(WalkUp) else {
        let rule = RaisingRule::StepMissing { step: MissingStep::WalkUp };
        return vec![stop(rule, RaisingRemedy::AddTheStep)];
    };
    let before_walking = |step: RaisingStep| first(step).is_some_and(|at| at < walks);
    let unheld = |because: Unheld, remedy| stop(RaisingRule::HingeUnheld { because }, remedy);
    match first(HoldHinge) {
        None => found.push(unheld(Unheld::Never, RaisingRemedy::HoldFirst)),
        Some(at) if at > walks => found.push(unheld(Unheld::TooLate, RaisingRemedy::HoldFirst)),
        Some(_) => {}
    }
    let all_fast = [(SetFarGuys, GuyRole::Far), (SetSideGuys, GuyRole::Side), (SetStopGuys, GuyRole::Stop)];
    let needed = all_fast.into_iter().filter(|(_, role)| has(*role)).map(|(step, _)| last(step));
    // A step that is not there is never done.
    let stands = needed.map(|at| at.unwrap_or(usize::MAX)).fold(walks, usize::max);
    if first(ReleaseHinge).is_some_and(|at| at < stands) {
        found.push(unheld(Unheld::LetGoTooEarly, RaisingRemedy::LetGoLast));
    }
    if has(GuyRole::Stop) && !before_walking(SetStopGuys) {
        found.push(stop(RaisingRule::StopGuysNotSetBefore, RaisingRemedy::MakeFastBefore));
    }
    if has(GuyRole::Side) && !before_walking(SetSideGuys) {
        found.push(stop(RaisingRule::SideGuysNotSetBefore, RaisingRemedy::MakeFastBefore));
    }
    if has(GuyRole::Far) {
        match first(SetFarGuys) {
            Some(at) if at < walks => {
                found.push(stop(RaisingRule::FarGuysSetBefore, RaisingRemedy::UntieUntilPlumb));
            }
            Some(_) => {}
            None => {
                let rule = RaisingRule::StepMissing { step: MissingStep::SetFarGuys };
                found.push(stop(rule, RaisingRemedy::AddTheStep));
            }
        }
    }
    found
}

#[cfg(test)]
mod tests {
    use super::*;

    fn guys() -> Vec<TiltedGuy> {
        let of = |role: GuyRole| TiltedGuy {
            id: String::new(),
            name: String::new(),
            role,
            off_hinge_line_deg: 0.0,
            on_right: false,
            eye_above_hinge_m: 0.0,
            at_plumb_m: 1.0,
            most_short_m: 0.0,
            most_slack_m: 0.0,
            angles: vec![],
        };
        [GuyRole::Stop, GuyRole::Side, GuyRole::Far].map(of).to_vec()
    }

    fn rules(order: &[RaisingStep]) -> Vec<RaisingRule> {
        let found = check(order, &guys()).into_iter();
        found
            .map(|finding| match finding.rule {
                crate::finding::Rule::Raising(rule) => rule,
                other => panic!("{other:?}"),
            })
            .collect()
    }

    #[test]
    fn the_usual_order_holds_throughout() {
        for with_base in [false, true] {
            let order = usual(&guys(), with_base);
            assert_eq!(rules(&order), []);
            assert_eq!(order.contains(&ReleaseHinge), with_base);
        }
    }

    #[test]
    fn an_order_that_leaves_the_hinge_unheld_is_refused() {
        let unheld = |because| vec![RaisingRule::HingeUnheld { because }];
        for (order, because) in [
            (vec![SetSideGuys, SetStopGuys, WalkUp, SetFarGuys], Unheld::Never),
            (vec![SetSideGuys, SetStopGuys, WalkUp, HoldHinge, SetFarGuys], Unheld::TooLate),
            (
                vec![HoldHinge, SetSideGuys, SetStopGuys, ReleaseHinge, WalkUp, SetFarGuys],
                Unheld::LetGoTooEarly,
            ),
            (
                vec![HoldHinge, SetSideGuys, SetStopGuys, WalkUp, ReleaseHinge, SetFarGuys],
                Unheld::LetGoTooEarly,
            ),
            // Held, let go, and never held again.
            (
                vec![HoldHinge, ReleaseHinge, SetSideGuys, SetStopGuys, WalkUp, SetFarGuys],
                Unheld::LetGoTooEarly,
            ),
        ] {
            assert_eq!(rules(&order), unheld(because), "{order:?}");
        }
    }

    #[test]
    fn guys_are_set_when_they_hold() {
        let missing = |step| RaisingRule::StepMissing { step };
        assert_eq!(
            rules(&[HoldHinge, SetSideGuys, WalkUp, SetStopGuys, SetFarGuys]),
            [RaisingRule::StopGuysNotSetBefore]
        );
        assert_eq!(rules(&[HoldHinge, SetStopGuys, WalkUp, SetFarGuys]), [RaisingRule::SideGuysNotSetBefore]);
        assert_eq!(
            rules(&[HoldHinge, SetSideGuys, SetStopGuys, SetFarGuys, WalkUp]),
            [RaisingRule::FarGuysSetBefore]
        );
        assert_eq!(rules(&[HoldHinge, SetSideGuys, SetStopGuys, WalkUp]), [missing(MissingStep::SetFarGuys)]);
        assert_eq!(rules(&[HoldHinge, SetSideGuys]), [missing(MissingStep::WalkUp)]);
    }
}
