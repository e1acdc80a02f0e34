//! Which tapes to read once the pegs are in: few, short, and enough that every blunder shows in two of them, so that it can be
//! told from a check tape that was itself read wrongly.

use super::blunders::{KnownBlunder, TapeSet, limit_for};
use super::network::{Network, SetBy};
use crate::numerics::least_squares::DMatrix;
use crate::numerics::real::hypot;

/// A tape laid off or read wrongly by a foot: the blunder of known size that a tie is held against (common practice: one
/// graduation of the tape that is numbered, or hooked at the one-foot mark).
pub const A_FOOT_M: f64 = 0.3048;
/// What hooking a tape costs beside its length, in metres of tape (common practice: a minute's walk about).
const HOOKING_M: f64 = 4.0;
/// A tape shorter than this tells nothing.
const SHORTEST_M: f64 = 0.3;
/// A blunder that is seen by one tape alone counts for so much of one that is seen by two (our choice).
const SEEN_ONCE: f64 = 0.3;
/// A tape that brings less than this share of one blunder is not worth reading (our choice).
const LEAST_GAIN: f64 = 0.02;
/// A shift of so many deviations is seen with 95 %: beyond the limit by 1.645 of its own deviation.
const ONE_SIDED_95: f64 = 1.645;
/// No more than so many tapes to a peg.
const MOST_PER_PEG: usize = 2;

/// A blunder that the tapes shall show, by what it does to every candidate.
struct Wanted {
    node: usize,
    moves_m: Vec<f64>,
}

/// The non-centrality δ² at which a shift of known size is found in 95 of 100 cases: its fall in χ² is normal about δ² with
/// deviation 2δ, and has to pass z².
fn needed(limit: f64) -> f64 {
    let delta = ONE_SIDED_95 + (ONE_SIDED_95 * ONE_SIDED_95 + limit).sqrt();
    delta * delta
}

/// Tapes between nodes that serve as checks; `matters` says from which shift on a peg's blunder counts, by node.
///
/// Greedy: always the tape that brings most of what is still wanted for its length. Wanted is that each blunder is found
/// with any one check tape left out.
pub fn checks(network: &Network, known: &[KnownBlunder], matters_m: &[f64]) -> Vec<[usize; 2]> {
    let candidates = candidates(network);
    let Some(all) = TapeSet::new(network, &candidates) else { return Vec::new() };
    let wanted = wanted(network, known, matters_m, &all);
    let need = needed(limit_for(4 * wanted.len()));
    let mut chosen = Chosen::none(&all, &wanted);
    let pegs = network.nodes().iter().filter(|node| matches!(node.set_by, SetBy::Ties { .. })).count();
    while chosen.rows.len() < MOST_PER_PEG * pegs {
        let now = chosen.worth(need);
        let free = (0..candidates.len()).filter(|row| !chosen.rows.contains(row));
        let gains = free.map(|row| (row, chosen.worth_with(row, need) - now));
        // Rounded, so that of alike ones the first is taken on every machine, however the yard is turned.
        let rate =
            |&(row, gain): &(usize, f64)| (gain / (all.expected_m[row] + HOOKING_M) / need * 1e6).round();
        let better = |a: &(usize, f64), b: &(usize, f64)| rate(a).total_cmp(&rate(b)).then(b.0.cmp(&a.0));
        let Some((row, gain)) = gains.max_by(better) else { break };
        if gain < LEAST_GAIN * need {
            break;
        }
        chosen.take(row);
    }
    chosen.rows.iter().map(|&row| candidates[row]).collect()
}

/// Whether tapes would show every blunder of a peg that matters, any one of them left out.
pub fn covered(
    network: &Network,
    known: &[KnownBlunder],
    matters_m: &[f64],
    tapes: &[[usize; 2]],
) -> Vec<bool> {
    let mut covered = vec![false; network.nodes().len()];
    let Some(all) = TapeSet::new(network, tapes) else { return covered };
    let wanted = wanted(network, known, matters_m, &all);
    let need = needed(limit_for(4 * wanted.len()));
    let mut chosen = Chosen::none(&all, &wanted);
    (0..tapes.len()).for_each(|row| chosen.take(row));
    for (node, set) in network.nodes().iter().enumerate() {
        let tied = matches!(set.set_by, SetBy::Ties { .. });
        let mut own = (0..wanted.len()).filter(|&number| wanted[number].node == node).peekable();
        let any = own.peek().is_some();
        let shown = own.all(|number| chosen.least_without_one(number) >= LEAST_SHARE * need);
        // What nobody looked for was not found sound.
        covered[node] = tied && any && shown;
    }
    covered
}

/// A blunder counts as covered from this share of what is wanted on: four fifths of the shift that is found in 95 of 100
/// cases is found in 80 (`baarda1968`: the usual power).
const LEAST_SHARE: f64 = 0.7;

/// Every pair of points but those of the ties themselves, marks among themselves, and two ends of one short tape.
pub(super) fn candidates(network: &Network) -> Vec<[usize; 2]> {
    let nodes = network.nodes();
    let is_mark = |node: usize| matches!(nodes[node].set_by, SetBy::Mark { .. });
    let is_tie = |from: usize, to: usize| match &nodes[to].set_by {
        SetBy::Ties { from: starts, .. } => starts.contains(&from),
        _ => false,
    };
    let mut all = Vec::new();
    for to in 0..nodes.len() {
        for from in 0..to {
            let apart_m = hypot(nodes[to].at[0] - nodes[from].at[0], nodes[to].at[1] - nodes[from].at[1]);
            let both_marks = is_mark(from) && is_mark(to);
            if !both_marks && !is_tie(from, to) && apart_m >= SHORTEST_M {
                all.push([from, to]);
            }
        }
    }
    all
}

fn wanted(network: &Network, known: &[KnownBlunder], matters_m: &[f64], all: &TapeSet) -> Vec<Wanted> {
    let planned = |node: usize| network.nodes()[node].at;
    let mut wanted = Vec::new();
    for one in known {
        let [east, north] = planned(one.node);
        let moved_m = hypot(one.places[one.node][0] - east, one.places[one.node][1] - north);
        if moved_m > matters_m[one.node] {
            let moves_m = all.moved_m(network, &one.places).iter().copied().collect();
            wanted.push(Wanted { node: one.node, moves_m });
        }
    }
    for (node, set) in network.nodes().iter().enumerate() {
        if matches!(set.set_by, SetBy::Ties { .. }) && matters_m[node] < A_FOOT_M {
            for tape in 0..2 {
                let moves = all.by_tie(network, node, tape) * A_FOOT_M;
                wanted.push(Wanted { node, moves_m: moves.iter().copied().collect() });
            }
        }
    }
    wanted
}

/// Tapes chosen so far, with the inverse of their covariance and what every blunder that is wanted does to them.
struct Chosen<'a> {
    all: &'a TapeSet,
    wanted: &'a [Wanted],
    rows: Vec<usize>,
    weight: DMatrix<f64>,
    /// R⁻¹Δ of each wanted blunder, and ΔᵀR⁻¹Δ.
    weighted: Vec<Vec<f64>>,
    shown: Vec<f64>,
}

/// One more tape beside the chosen ones: what of it they tell already (R⁻¹r), and its own variance that is left.
struct Border {
    by: Vec<f64>,
    left: f64,
}

impl<'a> Chosen<'a> {
    fn none(all: &'a TapeSet, wanted: &'a [Wanted]) -> Self {
        let weighted = vec![Vec::new(); wanted.len()];
        let shown = vec![0.0; wanted.len()];
        Self { all, wanted, rows: Vec::new(), weight: DMatrix::zeros(0, 0), weighted, shown }
    }

    fn border(&self, row: usize) -> Border {
        let shared: Vec<f64> = self.rows.iter().map(|&other| self.all.covariance[(other, row)]).collect();
        let told = |at: usize| shared.iter().enumerate().map(|(k, value)| self.weight[(at, k)] * value).sum();
        let by: Vec<f64> = (0..self.rows.len()).map(told).collect();
        let explained: f64 = by.iter().zip(&shared).map(|(by, shared)| by * shared).sum();
        Border { left: self.all.covariance[(row, row)] - explained, by }
    }

    /// What of a blunder's shift of that tape the others do not tell.
    fn new_part(&self, border: &Border, number: usize, row: usize) -> f64 {
        let moves_m = &self.wanted[number].moves_m;
        let told: f64 = border.by.iter().zip(&self.rows).map(|(by, &other)| by * moves_m[other]).sum();
        moves_m[row] - told
    }

    /// δ² of a blunder with all of them and one more, and the least of it with any one left out: leaving out row k takes
    /// away (R⁻¹Δ)ₖ²/(R⁻¹)ₖₖ. The inverse bordered by one more row (Schur complement).
    fn shown_with(&self, border: &Border, number: usize, row: usize) -> [f64; 2] {
        let part = self.new_part(border, number, row) / border.left;
        let all = self.shown[number] + part * part * border.left;
        let lost = border.by.iter().enumerate().map(|(at, by)| {
            let weighted = self.weighted[number][at] - by * part;
            weighted * weighted / (self.weight[(at, at)] + by * by / border.left)
        });
        let most = lost.fold(part * part * border.left, f64::max);
        [all, (all - most).max(0.0)]
    }

    fn take(&mut self, row: usize) {
        let border = self.border(row);
        let (count, left) = (self.rows.len(), border.left);
        for number in 0..self.wanted.len() {
            let part = self.new_part(&border, number, row) / left;
            self.shown[number] += part * part * left;
            for (weighted, by) in self.weighted[number].iter_mut().zip(&border.by) {
                *weighted -= by * part;
            }
            self.weighted[number].push(part);
        }
        let by = |at: usize| if at < count { border.by[at] } else { -1.0 };
        let old = |row: usize, column: usize| {
            if row < count && column < count { self.weight[(row, column)] } else { 0.0 }
        };
        self.weight = DMatrix::from_fn(count + 1, count + 1, |row, column| {
            old(row, column) + by(row) * by(column) / left
        });
        self.rows.push(row);
    }

    fn least_without_one(&self, number: usize) -> f64 {
        let lost = self.weighted[number].iter().enumerate();
        let lost = lost.map(|(at, weighted)| weighted * weighted / self.weight[(at, at)]);
        (self.shown[number] - lost.fold(0.0, f64::max)).max(0.0)
    }

    /// How much of what is wanted they bring. Being seen at all counts, too, where nothing is seen twice yet.
    fn worth(&self, need: f64) -> f64 {
        let seen = |number: usize| {
            self.least_without_one(number).min(need) + SEEN_ONCE * self.shown[number].min(need)
        };
        (0..self.wanted.len()).map(seen).sum()
    }

    fn worth_with(&self, row: usize, need: f64) -> f64 {
        let border = self.border(row);
        let seen = |number: usize| {
            let [all, without_one] = self.shown_with(&border, number, row);
            without_one.min(need) + SEEN_ONCE * all.min(need)
        };
        (0..self.wanted.len()).map(seen).sum()
    }
}
