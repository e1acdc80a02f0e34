//! What of a fix's shape makes its point less sure than its readings, and readings that do not meet.

use super::{Positions, fix, references};
use crate::finding::points::{Misses, PointRemedy, PointRule};
use crate::finding::{Finding, Limit, Quantity, Severity, Subject};
use crate::job::PointFix;
use crate::numerics::least_squares::WORST_STANDARDISED;
use crate::numerics::real::hypot;
use crate::quantity::estimate::COVERAGE_95;
use crate::round_figures::rule;
use crate::source::SourceKey;

/// Two tapes cross well between these angles: common practice of setting out by swing ties.
pub const GOOD_CROSSING_DEG: [f64; 2] = [30.0, 150.0];

/// A line produced beyond its second mark is good for as much again: common practice.
pub const FARTHEST_PAST_LINE: f64 = 2.0;

/// Steeper than this a tape's reach hangs more on the angle than on the tape: common practice.
pub const STEEPEST_TAPE_DEG: f64 = 30.0;

/// Corners one from the other before the outline is tied to a mark again: common practice, three sides of a house.
pub const MOST_CORNERS_ON: usize = 3;

impl Positions {
    /// Cautions about the way a point is fixed; `subject` is the thing that stands on it, `path` the fix's pointer.
    pub fn geometry(&self, fix: &PointFix, path: &str, subject: Subject) -> Vec<Finding> {
        if !references::check_fix(fix, path, &self.index).is_empty() || self.is_open(fix, path) {
            return Vec::new();
        }
        let caution = |shape: Shape| shape.finding(subject.clone());
        let mut found: Vec<Finding> = Vec::new();
        match fix {
            PointFix::TwoTapes { .. } | PointFix::ThreeTapes { .. } => {
                let Ok(followed) = fix::follow(self, fix, path) else { return found };
                found.extend(followed.crossing_deg.and_then(poor_crossing).map(caution));
                found
                    .extend(followed.spare.and_then(|spare| self.disagreement(fix, &spare, subject.clone())));
            }
            PointFix::Offset { from, toward, along_m, off_m, .. } => {
                let longest_m = rule::OFFSET.of(self.units.system);
                let (a, b) = (self.start(from).at, self.start(toward).at);
                let line_m = hypot(b[0] - a[0], b[1] - a[1]);
                found.extend((*off_m > longest_m).then(|| caution(Shape::LongOffset(*off_m, longest_m))));
                let past = *along_m > FARTHEST_PAST_LINE * line_m;
                found.extend(past.then(|| caution(Shape::FarPast(*along_m, FARTHEST_PAST_LINE * line_m))));
            }
            PointFix::SlopeTape { vertical_deg, .. } if vertical_deg.abs() > STEEPEST_TAPE_DEG => {
                found.push(caution(Shape::SteepTape(vertical_deg.abs())));
            }
            _ => {}
        }
        found
    }

    /// A caution where three tapes miss each other by more than chance, the marks' errors counted in.
    fn disagreement(&self, fix: &PointFix, spare: &fix::Spare, subject: Subject) -> Option<Finding> {
        let joint = &self.state.joint;
        let mut variance = spare.own_variance;
        for (first, by) in &spare.by_state {
            for (second, with) in &spare.by_state {
                for (i, j) in [(0, 0), (0, 1), (1, 0), (1, 1)] {
                    variance += by[i] * joint[(first + i, second + j)] * with[j];
                }
            }
        }
        let sigma_m = variance.max(0.0).sqrt();
        if spare.too_long_m.abs() <= WORST_STANDARDISED * sigma_m {
            return None;
        }
        let mark = fix.starts().get(spare.arm).map_or("", |(_, id)| *id).to_owned();
        let is = if spare.too_long_m > 0.0 { Misses::Longer } else { Misses::Shorter };
        let rule = PointRule::ThreeTapesDisagree { from: mark.clone(), is };
        Some(Finding {
            against: Some(Subject::Mark { id: mark }),
            measured: Some(Quantity::LengthM { value: spare.too_long_m.abs() }),
            measured_half_width_95: Some(COVERAGE_95 * sigma_m),
            source: SourceKey::Ghilani,
            ..Finding::rule_of_thumb(Severity::Caution, rule, subject, PointRemedy::TapeAllThreeAgain)
        })
    }
}

/// A caution where too many corners of an outline follow one from the other.
pub fn long_chain(chain: &[PointFix], subject: &Subject) -> Option<Finding> {
    let mut longest = 0;
    let mut run = 0;
    for corner in chain {
        run = if matches!(corner, PointFix::NextCorner { .. }) { run + 1 } else { 0 };
        longest = longest.max(run);
    }
    (longest > MOST_CORNERS_ON).then(|| Shape::LongChain(longest).finding(subject.clone()))
}

fn poor_crossing(crossing_deg: f64) -> Option<Shape> {
    let [least_deg, most_deg] = GOOD_CROSSING_DEG;
    let good = (least_deg..=most_deg).contains(&crossing_deg);
    (!good).then_some(Shape::PoorCrossing(crossing_deg))
}

/// A poor shape with its measure.
enum Shape {
    PoorCrossing(f64),
    LongOffset(f64, f64),
    FarPast(f64, f64),
    SteepTape(f64),
    LongChain(usize),
}

impl Shape {
    fn finding(self, subject: Subject) -> Finding {
        let deg = |value: f64| Quantity::AngleDeg { value };
        let length = |value: f64| Quantity::LengthM { value };
        let count = |value: usize| Quantity::Ratio { value: value as f64 };
        let (rule, measured, limit, remedy) = match self {
            Shape::PoorCrossing(crossing_deg) => {
                let [least_deg, most_deg] = GOOD_CROSSING_DEG;
                let limit = if crossing_deg > least_deg {
                    Limit::at_most(deg(most_deg))
                } else {
                    Limit::at_least(deg(least_deg))
                };
                (PointRule::PoorCrossing, deg(crossing_deg), limit, PointRemedy::TapeFromOtherMarks)
            }
            Shape::LongOffset(off_m, longest_m) => {
                let limit = Limit::at_most(length(longest_m));
                (PointRule::LongOffset, length(off_m), limit, PointRemedy::TapeFromBothMarks)
            }
            Shape::FarPast(along_m, most_m) => {
                let limit = Limit::at_most(length(most_m));
                (PointRule::FarPastLine, length(along_m), limit, PointRemedy::MeasureAlongLongerLine)
            }
            Shape::SteepTape(vertical_deg) => {
                let limit = Limit::at_most(deg(STEEPEST_TAPE_DEG));
                (PointRule::SteepTape, deg(vertical_deg), limit, PointRemedy::MeasureInShorterSteps)
            }
            Shape::LongChain(corners) => {
                let limit = Limit::at_most(count(MOST_CORNERS_ON));
                (PointRule::LongChain, count(corners), limit, PointRemedy::TapeAFarCorner)
            }
        };
        let measured = Some(measured);
        Finding { measured, limit, ..Finding::rule_of_thumb(Severity::Caution, rule, subject, remedy) }
    }
}
