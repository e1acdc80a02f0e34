//! Where each peg comes to lie by the tapes it is set with, and how an error of any of them moves it and all that is tied
//! from it.
//!
//! A tape between two points of the ground is as long as a taut one along it. Set by two tapes, a peg lies where both are
//! right: so its place answers to an error of either, of the points it is tied from, and of the ground's slope. All these
//! answers together, with the covariance of the errors, say how far what is measured afterwards may be from the plan.

use crate::ground::Ground;
use crate::ground::profile::taut_tape_m;
use crate::job::{Instruments, Side};
use crate::numerics::least_squares::{DMatrix, DVector};
use crate::numerics::real::hypot;
use crate::stakeout::ties::landing;

/// What a tape does when one of its ends or the ground moves: derivatives of its length.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TapeLine {
    pub length_m: f64,
    pub by_from: [f64; 2],
    pub by_to: [f64; 2],
    /// By the gradient of the ground (dz/dx, dz/dy).
    pub by_gradient: [f64; 2],
}

/// The tape along the ground from one point to another.
///
/// On a plane L² = d² + (g·d)², so ∂L/∂d = (d + (g·d)·g)/L and ∂L/∂g = (g·d)·d/L. On a surface the chord stands for the
/// tape in the derivatives, not in the length.
pub fn tape_line(ground: &Ground, from: [f64; 2], to: [f64; 2]) -> TapeLine {
    let d = [to[0] - from[0], to[1] - from[1]];
    let plan_m = hypot(d[0], d[1]);
    let rise_m = ground.height(to) - ground.height(from);
    let chord_m = hypot(plan_m, rise_m).max(f64::MIN_POSITIVE);
    let (g_from, g_to) = (ground.gradient(from), ground.gradient(to));
    let along = |axis: usize, g: [f64; 2]| (d[axis] + rise_m * g[axis]) / chord_m;
    TapeLine {
        length_m: taut_tape_m(ground, from, to).max(plan_m),
        by_from: [-along(0, g_from), -along(1, g_from)],
        by_to: [along(0, g_to), along(1, g_to)],
        by_gradient: [rise_m * d[0] / chord_m, rise_m * d[1] / chord_m],
    }
}

/// Standard deviation of one reading of a tape, by the job's instruments.
pub fn reading_sigma_m(instruments: &Instruments, tape_m: f64) -> f64 {
    // A tape without any error would break the weights.
    instruments.tape_sigma_of_m(tape_m).max(1e-6)
}

/// How a point of the stake-out got its place.
#[derive(Debug, Clone, PartialEq)]
pub enum SetBy {
    /// A mark: its number among those of the joint covariance.
    Mark { number: usize },
    /// Two tapes from earlier points, on a side of the line from the first to the second.
    Ties { from: [usize; 2], tapes_m: [f64; 2], side: Side },
    /// Otherwise, with this covariance of its own.
    Otherwise { covariance: [[f64; 2]; 2] },
}

/// A point of the stake-out.
#[derive(Debug, Clone, PartialEq)]
pub struct StakedPoint {
    pub key: String,
    /// Where the plan has it.
    pub at: [f64; 2],
    pub set_by: SetBy,
}

/// One peg set otherwise than meant.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SetOtherwise {
    pub node: usize,
    pub tapes_m: [f64; 2],
    pub side: Side,
}

/// Marks and pegs, each after those it is tied from.
#[derive(Debug, Clone)]
pub struct Network<'a> {
    pub ground: &'a Ground,
    pub instruments: &'a Instruments,
    nodes: Vec<StakedPoint>,
    /// Covariance of the errors of ground and marks.
    known: DMatrix<f64>,
    /// Variances (and for a point that was set otherwise covariances) of the errors of setting, two to each node.
    own: Vec<[[f64; 2]; 2]>,
    /// Answer of each node's place to all errors: two rows a node.
    answers: Vec<[DVector<f64>; 2]>,
}

impl<'a> Network<'a> {
    /// Of ground and marks whose errors have this joint covariance: the gradient first, then two to each mark.
    pub fn new(ground: &'a Ground, instruments: &'a Instruments, known: DMatrix<f64>) -> Self {
        Self { ground, instruments, nodes: Vec::new(), known, own: Vec::new(), answers: Vec::new() }
    }

    pub fn nodes(&self) -> &[StakedPoint] {
        &self.nodes
    }

    pub fn node(&self, key: &str) -> Option<usize> {
        self.nodes.iter().position(|node| node.key == key)
    }

    /// Adds a point after those it is tied from.
    pub fn add(&mut self, node: StakedPoint) {
        let (known, own_first) = (self.known.nrows(), self.known.nrows() + 2 * self.nodes.len());
        let mut answers = [DVector::zeros(own_first + 2), DVector::zeros(own_first + 2)];
        let mut own = [[0.0; 2]; 2];
        match &node.set_by {
            SetBy::Mark { number } => {
                for (axis, answer) in answers.iter_mut().enumerate() {
                    let column = 2 + 2 * number + axis;
                    if column < known {
                        answer[column] = 1.0;
                    }
                }
            }
            SetBy::Otherwise { covariance } => {
                own = *covariance;
                for (axis, answer) in answers.iter_mut().enumerate() {
                    answer[own_first + axis] = 1.0;
                }
            }
            SetBy::Ties { from, tapes_m, .. } => {
                for tape in 0..2 {
                    let sigma_m = reading_sigma_m(self.instruments, tapes_m[tape]);
                    own[tape][tape] = sigma_m * sigma_m;
                }
                self.tied(node.at, *from, own_first, &mut answers);
            }
        }
        self.nodes.push(node);
        self.own.push(own);
        self.answers.push(answers);
    }

    /// N·dP = e − n_a·dA − n_b·dB − (∂L/∂g)·dg for both tapes, solved for dP.
    fn tied(&self, at: [f64; 2], from: [usize; 2], own_first: usize, answers: &mut [DVector<f64>; 2]) {
        let size = own_first + 2;
        let mut right = [DVector::zeros(size), DVector::zeros(size)];
        let mut rows = [[0.0; 2]; 2];
        for tape in 0..2 {
            let start = from[tape];
            let line = tape_line(self.ground, self.nodes[start].at, at);
            rows[tape] = line.by_to;
            right[tape][own_first + tape] = 1.0;
            for axis in 0..2 {
                right[tape][axis] -= line.by_gradient[axis];
                let answer = &self.answers[start][axis];
                for (column, value) in answer.iter().enumerate() {
                    right[tape][column] -= line.by_from[axis] * value;
                }
            }
        }
        let determinant = rows[0][0] * rows[1][1] - rows[0][1] * rows[1][0];
        let inverse = [
            [rows[1][1] / determinant, -rows[0][1] / determinant],
            [-rows[1][0] / determinant, rows[0][0] / determinant],
        ];
        for axis in 0..2 {
            answers[axis] = &right[0] * inverse[axis][0] + &right[1] * inverse[axis][1];
        }
    }

    /// Answer of a tape between two nodes to all errors, that of its own reading left out.
    pub fn answer(&self, from: usize, to: usize) -> DVector<f64> {
        let line = tape_line(self.ground, self.nodes[from].at, self.nodes[to].at);
        let mut answer = DVector::zeros(self.size());
        for axis in 0..2 {
            answer[axis] += line.by_gradient[axis];
            for (node, by) in [(from, line.by_from[axis]), (to, line.by_to[axis])] {
                for (column, value) in self.answers[node][axis].iter().enumerate() {
                    answer[column] += by * value;
                }
            }
        }
        answer
    }

    /// How a tape between two nodes answers to an error of one of a node's own tapes.
    pub fn answer_to_tie(&self, answer: &DVector<f64>, node: usize, tape: usize) -> f64 {
        answer[self.known.nrows() + 2 * node + tape]
    }

    /// Number of all errors.
    pub fn size(&self) -> usize {
        self.known.nrows() + 2 * self.nodes.len()
    }

    /// Covariance of two combinations of all errors.
    pub fn covariance(&self, a: &DVector<f64>, b: &DVector<f64>) -> f64 {
        let known = self.known.nrows();
        let mut sum = 0.0;
        for row in 0..known {
            for column in 0..known {
                sum += a[row] * self.known[(row, column)] * b[column];
            }
        }
        for (node, own) in self.own.iter().enumerate() {
            let first = known + 2 * node;
            for (row, cells) in own.iter().enumerate() {
                for (column, cell) in cells.iter().enumerate() {
                    sum += a[first + row] * cell * b[first + column];
                }
            }
        }
        sum
    }

    /// Covariance of a node's place as seen from another, with the marks and the ground taken as they are.
    pub fn seen_from(&self, from: usize, to: usize) -> [[f64; 2]; 2] {
        let known = self.known.nrows();
        let differences: Vec<DVector<f64>> = (0..2)
            .map(|axis| {
                let mut difference = DVector::zeros(self.size());
                for (node, sign) in [(from, -1.0), (to, 1.0)] {
                    for (column, value) in self.answers[node][axis].iter().enumerate().skip(known) {
                        difference[column] += sign * value;
                    }
                }
                difference
            })
            .collect();
        let cell = |row: usize, column: usize| self.covariance(&differences[row], &differences[column]);
        [[cell(0, 0), cell(0, 1)], [cell(1, 0), cell(1, 1)]]
    }

    /// Where all nodes lie if one was set otherwise than meant: those tied from it by their own tapes from where it is.
    /// None where the tapes do not meet anywhere.
    pub fn places_if(&self, changed: &SetOtherwise) -> Option<Vec<[f64; 2]>> {
        let mut places: Vec<[f64; 2]> = Vec::with_capacity(self.nodes.len());
        let mut moved = vec![false; self.nodes.len()];
        for (number, node) in self.nodes.iter().enumerate() {
            let SetBy::Ties { from, tapes_m, side } = &node.set_by else {
                places.push(node.at);
                continue;
            };
            let starts = [places[from[0]], places[from[1]]];
            if number == changed.node {
                moved[number] = true;
                places.push(self.meet(starts, changed.tapes_m, changed.side)?);
            } else if moved[from[0]] || moved[from[1]] {
                moved[number] = true;
                // Where the tapes do not reach each other any more it is put beside the nearer of the two, as it was meant.
                let near = usize::from(tapes_m[1] < tapes_m[0]);
                let shift = |axis: usize| places[from[near]][axis] - self.nodes[from[near]].at[axis];
                let shifted = [node.at[0] + shift(0), node.at[1] + shift(1)];
                places.push(self.meet(starts, *tapes_m, *side).unwrap_or(shifted));
            } else {
                places.push(node.at);
            }
        }
        Some(places)
    }

    /// Where two taut tapes meet on a side of the line between their starts.
    fn meet(&self, starts: [[f64; 2]; 2], tapes_m: [f64; 2], side: Side) -> Option<[f64; 2]> {
        const STEPS: usize = 40;
        const CLOSE_M: f64 = 1e-9;
        let mut at = landing(starts[0], tapes_m[0], starts[1], tapes_m[1], side)?;
        for _ in 0..STEPS {
            let lines = [tape_line(self.ground, starts[0], at), tape_line(self.ground, starts[1], at)];
            let short = [tapes_m[0] - lines[0].length_m, tapes_m[1] - lines[1].length_m];
            let [a, b] = [lines[0].by_to, lines[1].by_to];
            let determinant = a[0] * b[1] - a[1] * b[0];
            let step = [
                (short[0] * b[1] - short[1] * a[1]) / determinant,
                (short[1] * a[0] - short[0] * b[0]) / determinant,
            ];
            if !(step[0].is_finite() && step[1].is_finite()) {
                return None;
            }
            // A flat crossing must not throw it to the other side.
            let length_m = hypot(step[0], step[1]);
            let share = if length_m > 1.0 { 1.0 / length_m } else { 1.0 };
            at = [at[0] + share * step[0], at[1] + share * step[1]];
            if length_m < CLOSE_M {
                return Some(at);
            }
        }
        None
    }

    /// Length of a tape between two nodes in these places.
    pub fn tape_m(&self, places: &[[f64; 2]], from: usize, to: usize) -> f64 {
        let plan_m = hypot(places[to][0] - places[from][0], places[to][1] - places[from][1]);
        taut_tape_m(self.ground, places[from], places[to]).max(plan_m)
    }
}
