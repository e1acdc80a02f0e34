//! What to move so that the mast stands plumb, in words.

use serde::{Deserialize, Serialize};

use super::capture::{self, Captured};
use super::words::plumbing as say;
use super::words::tensions;
use super::{FindingText, finding_text, format};
use crate::finding::Severity;
use crate::plumbing::{PlumbedFoot, Plumbing, RopeMove};
use crate::quantity::Units;
use crate::survey::plumb::Lean;

/// One thing to move.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct Move {
    /// Id of the guy or the leg.
    pub id: String,
    pub name: String,
    /// Such as `take in 34 mm`.
    pub does: String,
    pub interval: String,
    /// In turns of a turnbuckle; empty without one.
    pub turns: String,
    /// Up for taking in and raising.
    pub up: bool,
    /// Smaller than its own uncertainty.
    pub slight: bool,
}

/// A foot to be cut.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct FootText {
    pub title: String,
    pub interval: String,
    pub edges: Vec<String>,
    pub holds_if: String,
}

/// All that takes a lean out, and what is thought of it.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct PlumbWords {
    pub lean: Captured,
    pub towards: String,
    pub top_aside: Captured,
    pub verdict: FindingText,
    pub ropes: Vec<Move>,
    pub blocks: Vec<Move>,
    /// Of the cross leg along the slope; none where the ground is too level or was not measured.
    pub swing: Option<Move>,
    pub feet: Vec<FootText>,
    /// The rope that has to move most; none where nothing needs to.
    pub first: Option<Move>,
    /// As it is read out.
    pub aloud: String,
}

/// Puts the moves into words.
pub fn plumb_words(lean: &Lean, todo: &Plumbing, raised_height_m: f64, units: Units) -> PlumbWords {
    let said = capture::slope(lean.lean_deg, lean.sigma_deg, units);
    let towards = capture::towards(lean.towards_deg, lean.lean_deg, lean.sigma_deg);
    let most = todo.ropes.iter().max_by(|a, b| a.take_in_m.abs().total_cmp(&b.take_in_m.abs()));
    let first = most.filter(|_| todo.verdict.severity == Severity::Caution).map(|rope| of_rope(rope, units));
    let aloud = match (&first, todo.verdict.severity) {
        (Some(first), _) => say::aloud(&said.shown, &towards, &first.name, &first.does, &first.turns),
        (None, Severity::Note) => say::aloud_plumb(&said.shown),
        (None, _) => say::aloud_cannot_tell(&said.shown),
    };
    let block = |block: &crate::plumbing::BlockMove| {
        moved(
            &block.leg_id,
            &block.leg_id,
            [block.raise_m, block.sigma_m],
            capture::block(block.raise_m, units),
            units,
        )
    };
    let swing = todo.swing.as_ref().map(|swing| {
        let does = say::swing(swing.turn_deg > 0.0, &format::length(swing.tip_m.abs(), units));
        moved("right", say::SWING_NAME, [swing.tip_m, swing.sigma_m], does, units)
    });
    PlumbWords {
        top_aside: capture::length(todo.top_aside_m, raised_height_m * lean.sigma_deg.to_radians(), units),
        verdict: finding_text(&todo.verdict, units),
        ropes: todo.ropes.iter().map(|rope| of_rope(rope, units)).collect(),
        blocks: todo.blocks.iter().map(block).collect(),
        swing,
        feet: todo.feet.iter().map(|foot| of_foot(foot, units)).collect(),
        first,
        aloud,
        lean: said,
        towards,
    }
}

fn of_rope(rope: &RopeMove, units: Units) -> Move {
    let does = capture::rope(rope.take_in_m, units);
    let turns = rope.turns.map(|turns| say::turns(&tensions::turns((4.0 * turns.abs()).round() as i64)));
    let turns = turns.unwrap_or_default();
    Move { turns, ..moved(&rope.guy_id, &rope.name, [rope.take_in_m, rope.sigma_m], does, units) }
}

fn moved(id: &str, name: &str, [by_m, sigma_m]: [f64; 2], does: String, units: Units) -> Move {
    Move {
        id: id.to_owned(),
        name: name.to_owned(),
        does,
        interval: capture::length(by_m, sigma_m, units).interval,
        turns: String::new(),
        up: by_m > 0.0,
        slight: by_m.abs() < sigma_m,
    }
}

fn of_foot(foot: &PlumbedFoot, units: Units) -> FootText {
    let length = |value_m: f64| format::length(value_m, units);
    let [inner, outer, left, right] = [foot.inner_m, foot.outer_m, foot.left_m, foot.right_m].map(length);
    FootText {
        title: say::foot(&foot.leg_id, &length(foot.centre_m)),
        interval: capture::length(foot.centre_m, foot.sigma_m, units).interval,
        edges: say::edges(&inner, &outer, &left, &right).to_vec(),
        holds_if: say::FOOT_IF.to_owned(),
    }
}

/// What a live reading says before and while the lean is known.
pub fn plumb_state(state: crate::plumbing::PlumbState) -> String {
    say::state(state).to_owned()
}

pub fn plumb_sways(sway_deg: f64, units: Units) -> String {
    say::sways(&capture::slope(sway_deg, 0.0, units).shown)
}
