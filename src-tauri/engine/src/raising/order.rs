//! What is done one after another, and whether the hinge and the guys hold the mast through all of it.

use super::results::{GuyRole, OrderMove, OrderStep, RaiseOrder, TiltedGuy};
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

/// What has to be done before a step. Common practice, as [`usual`].
fn needs(step: RaisingStep, guys: &[TiltedGuy], with_base: bool) -> Vec<RaisingStep> {
    let before: &[RaisingStep] = match step {
        HoldHinge | SetSideGuys | SetStopGuys => &[],
        WalkUp => &[HoldHinge, SetSideGuys, SetStopGuys],
        SetFarGuys => &[WalkUp],
        ReleaseHinge => &[SetSideGuys, SetStopGuys, WalkUp, SetFarGuys],
    };
    let done = usual(guys, with_base);
    before.iter().copied().filter(|step| done.contains(step)).collect()
}

/// An order step by step, and which of its steps may be done sooner or later. `said` is empty for the usual order.
pub(super) fn laid_out(said: &[RaisingStep], guys: &[TiltedGuy], with_base: bool) -> RaiseOrder {
    let usual = usual(guys, with_base);
    let order = if said.is_empty() { usual.clone() } else { said.to_vec() };
    let findings = check(&order, guys);
    let swapped = |at: usize, other: Option<usize>| {
        let other = other.filter(|other| *other < order.len())?;
        let mut order = order.clone();
        order.swap(at, other);
        let is_new = |it: &Finding| !findings.iter().any(|known| known.rule == it.rule);
        let refused = check(&order, guys).into_iter().find(is_new);
        Some(OrderMove { order: if order == usual { Vec::new() } else { order }, refused })
    };
    let steps = order.iter().enumerate().map(|(at, step)| OrderStep {
        step: *step,
        needs: needs(*step, guys, with_base),
        sooner: swapped(at, at.checked_sub(1)),
        later: swapped(at, Some(at + 1)),
    });
    RaiseOrder { steps: steps.collect(), is_usual: order == usual, findings: findings.clone() }
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
            taut_from_deg: None,
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

    /// Of the six steps the first three may change places with each other, and nothing else with anything: each of the six
    /// orders that are reached so is a linear extension of what is stated, and there are no others (3! = 6).
    #[test]
    fn just_the_orders_that_the_prerequisites_allow_are_reached() {
        let mut reached = vec![usual(&guys(), true)];
        let mut next = 0;
        while let Some(order) = reached.get(next).cloned() {
            next += 1;
            let laid = laid_out(&order, &guys(), true);
            assert!(laid.findings.is_empty() && laid.is_usual == (order == reached[0]), "{order:?}");
            let first = order.iter().position(|step| *step == WalkUp);
            assert_eq!(first, Some(3), "{order:?}");
            for step in &laid.steps {
                let at = order.iter().position(|other| *other == step.step).unwrap();
                assert!(step.needs.iter().all(|need| order[..at].contains(need)), "{order:?} {step:?}");
                for to in step.sooner.iter().chain(&step.later).filter(|to| to.refused.is_none()) {
                    let order = if to.order.is_empty() { reached[0].clone() } else { to.order.clone() };
                    if !reached.contains(&order) {
                        reached.push(order);
                    }
                }
            }
        }
        assert_eq!(reached.len(), 6);
        let laid = laid_out(&[], &guys(), true);
        let walk = &laid.steps[3];
        let refused =
            |to: &Option<OrderMove>| to.as_ref().and_then(|to| to.refused.clone()).map(|it| it.rule);
        assert_eq!(refused(&walk.sooner), Some(RaisingRule::StopGuysNotSetBefore.into()));
        let unheld = RaisingRule::HingeUnheld { because: Unheld::LetGoTooEarly };
        assert_eq!(refused(&laid.steps[5].sooner), Some(unheld.into()));
        assert!(laid.steps[0].sooner.is_none() && laid.steps[5].later.is_none());
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
