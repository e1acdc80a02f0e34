//! How much of each pattern, in fractions: the linear programme over patterns that are found as they are needed, by the
//! simplex method with the inverse of its basis kept; and what no whole plan can be cheaper than, by whole numbers.

use std::collections::HashSet;

use super::greedy::Pattern;
use super::knapsack::{Counts, Filling, Grid};
use super::problem::Problem;

/// A reduced cost under this is none: costs are of the order of one here.
const NOTHING: f64 = 1e-10;
/// Duals are lessened by this part before they are checked in whole numbers: what the simplex method leaves.
const LESSENED: f64 = 1.0 - 1e-8;
/// A unit of cost is so many units of a dual in whole numbers, divided by the dearest bar.
const DUAL_UNITS: i64 = 1 << 34;
/// Fillings of one bar are searched for so far.
const FILLING_STEPS: u64 = 300_000;

/// What is still open at a place of the search.
#[derive(Debug, Clone)]
pub(super) struct Open {
    pub(super) need: Counts,
    /// How many bars of each stock there are at least and at most.
    pub(super) least: Vec<u32>,
    pub(super) most: Vec<Option<u32>>,
    /// Patterns that are not used any more, by bar.
    pub(super) forbidden: Vec<HashSet<Counts>>,
}

/// The programme solved.
#[derive(Debug, Clone)]
pub(super) struct Fractions {
    /// Patterns with how much of each.
    pub(super) of: Vec<(Pattern, f64)>,
    /// No whole plan for what is open costs less, in steps of cost.
    pub(super) at_least: i64,
    /// It came to its end; otherwise only the bound counts.
    pub(super) solved: bool,
}

/// Patterns found so far, anywhere in the search.
#[derive(Debug, Clone, Default)]
pub(super) struct Pool {
    patterns: Vec<Pattern>,
    known: HashSet<Pattern>,
}

impl Pool {
    pub(super) fn add(&mut self, pattern: Pattern) -> bool {
        let new = self.known.insert(pattern.clone());
        if new {
            self.patterns.push(pattern);
        }
        new
    }

    /// The patterns as far as they are of use: no more of each piece than is needed.
    fn clipped(&self, open: &Open) -> Vec<Pattern> {
        let mut seen = HashSet::new();
        let clip = |pattern: &Pattern| {
            let counts: Counts = pattern.counts.iter().zip(&open.need).map(|(&a, &b)| a.min(b)).collect();
            let useful =
                counts.iter().any(|&count| count > 0) && !open.forbidden[pattern.bar].contains(&counts);
            useful.then_some(Pattern { bar: pattern.bar, counts })
        };
        self.patterns.iter().filter_map(clip).filter(|it| seen.insert(it.clone())).collect()
    }
}

/// What a row asks.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Row {
    /// So many of a kind at least.
    Kind(usize),
    /// So many bars at least, or at most.
    Least(usize),
    Most(usize),
}

/// A column of the programme: a pattern, or what is over or lacking in a row.
#[derive(Debug, Clone)]
struct Column {
    entries: Vec<(usize, f64)>,
    cost: f64,
    pattern: Option<usize>,
}

struct Simplex {
    rows: Vec<Row>,
    columns: Vec<Column>,
    patterns: Vec<Pattern>,
    basis: Vec<usize>,
    in_basis: Vec<bool>,
    /// The inverse of the basis by rows.
    inverse: Vec<Vec<f64>>,
    values: Vec<f64>,
    duals: Vec<f64>,
}

impl Simplex {
    /// Every row lacks all that it asks, at a cost that no plan has.
    fn new(open: &Open, lacking_cost: f64) -> Self {
        let kinds = (0..open.need.len()).filter(|&kind| open.need[kind] > 0).map(Row::Kind);
        let least = (0..open.least.len()).filter(|&bar| open.least[bar] > 0).map(Row::Least);
        let most = (0..open.most.len()).filter(|&bar| open.most[bar].is_some()).map(Row::Most);
        let rows: Vec<Row> = kinds.chain(least).chain(most).collect();
        let mut simplex = Self {
            columns: Vec::new(),
            patterns: Vec::new(),
            basis: Vec::new(),
            in_basis: Vec::new(),
            inverse: (0..rows.len()).map(|row| unit(row, rows.len())).collect(),
            values: Vec::new(),
            duals: Vec::new(),
            rows,
        };
        for (at, row) in simplex.rows.clone().into_iter().enumerate() {
            let asked = match row {
                Row::Kind(kind) => open.need[kind],
                Row::Least(bar) => open.least[bar],
                Row::Most(bar) => open.most[bar].unwrap_or(0),
            };
            // A hair more, another one in each row: no two rows come to nothing at once, so no pivot is in vain.
            let hair = 1e-7 * (1.0 + ((at * 7919) % 101) as f64 / 101.0);
            simplex.values.push(f64::from(asked) + hair);
            let cost = if matches!(row, Row::Most(_)) { 0.0 } else { lacking_cost };
            simplex.duals.push(cost);
            simplex.basis.push(simplex.columns.len());
            simplex.columns.push(Column { entries: vec![(at, 1.0)], cost, pattern: None });
            simplex.in_basis.push(true);
        }
        for at in 0..simplex.rows.len() {
            if !matches!(simplex.rows[at], Row::Most(_)) {
                simplex.columns.push(Column { entries: vec![(at, -1.0)], cost: 0.0, pattern: None });
                simplex.in_basis.push(false);
            }
        }
        simplex
    }

    fn add(&mut self, pattern: Pattern, cost: f64) {
        let entry = |(at, row): (usize, &Row)| {
            let value = match *row {
                Row::Kind(kind) => f64::from(pattern.counts[kind]),
                Row::Least(bar) | Row::Most(bar) => f64::from(u8::from(bar == pattern.bar)),
            };
            (value > 0.0).then_some((at, value))
        };
        let entries = self.rows.iter().enumerate().filter_map(entry).collect();
        self.columns.push(Column { entries, cost, pattern: Some(self.patterns.len()) });
        self.in_basis.push(false);
        self.patterns.push(pattern);
    }

    /// Pivots until no column that is there makes it cheaper. False where it came to no end.
    fn settle(&mut self, steps: &mut u64, most_steps: u64) -> bool {
        self.duals_anew();
        for _ in 0..20_000 {
            let reduced = |column: &Column| {
                column.cost - column.entries.iter().map(|&(row, value)| self.duals[row] * value).sum::<f64>()
            };
            let open = (0..self.columns.len()).filter(|&at| !self.in_basis[at]);
            let least = open.map(|at| (at, reduced(&self.columns[at]))).min_by(|a, b| a.1.total_cmp(&b.1));
            *steps += (self.columns.len() + self.rows.len() * self.rows.len()) as u64 / 16 + 1;
            let Some((entering, by)) = least.filter(|(_, by)| *by < -NOTHING) else { return true };
            if *steps > most_steps || !self.pivot(entering, by) {
                return false;
            }
        }
        false
    }

    /// From the basis, so that what many pivots left out of the last places does not add up.
    fn duals_anew(&mut self) {
        let mut duals = vec![0.0; self.rows.len()];
        for (&column, row) in self.basis.iter().zip(&self.inverse) {
            let cost = self.columns[column].cost;
            duals.iter_mut().zip(row).for_each(|(dual, value)| *dual += cost * value);
        }
        self.duals = duals;
    }

    fn pivot(&mut self, entering: usize, reduced: f64) -> bool {
        let rows = self.rows.len();
        let along: Vec<f64> = (0..rows)
            .map(|row| {
                self.columns[entering].entries.iter().map(|&(at, value)| self.inverse[row][at] * value).sum()
            })
            .collect();
        let limits = (0..rows).filter(|&row| along[row] > 1e-9);
        let Some(leaving) =
            limits.min_by(|&a, &b| (self.values[a] / along[a]).total_cmp(&(self.values[b] / along[b])))
        else {
            return false;
        };
        let pivot = along[leaving];
        self.inverse[leaving].iter_mut().for_each(|value| *value /= pivot);
        let step = self.values[leaving] / pivot;
        let pivot_row = self.inverse[leaving].clone();
        for row in (0..rows).filter(|&row| row != leaving && along[row] != 0.0) {
            for (value, of_pivot) in self.inverse[row].iter_mut().zip(&pivot_row) {
                *value -= along[row] * of_pivot;
            }
            self.values[row] = (self.values[row] - along[row] * step).max(0.0);
        }
        self.values[leaving] = step;
        self.duals.iter_mut().zip(&pivot_row).for_each(|(dual, of_pivot)| *dual += reduced * of_pivot);
        self.in_basis[self.basis[leaving]] = false;
        self.in_basis[entering] = true;
        self.basis[leaving] = entering;
        true
    }

    fn fractions(&self) -> Vec<(Pattern, f64)> {
        let used = self.basis.iter().zip(&self.values).filter_map(|(&column, &value)| {
            let pattern = self.columns[column].pattern?;
            (value > 1e-6).then(|| (self.patterns[pattern].clone(), value))
        });
        used.collect()
    }
}

fn unit(at: usize, of: usize) -> Vec<f64> {
    let mut row = vec![0.0; of];
    row[at] = 1.0;
    row
}

/// Duals in whole numbers.
struct Duals {
    /// Units of a dual to a step of cost.
    scale: i64,
    of_kinds: Vec<i64>,
    /// What a bar of each stock may cost for its filling to be worth it.
    of_bars: Vec<i64>,
    /// What all pieces that are asked are worth, and all bars.
    kinds_total: i128,
    bars_total: i128,
}

impl Duals {
    fn of(simplex: &Simplex, problem: &Problem, open: &Open) -> Self {
        let dearest = problem.bars.iter().map(|bar| bar.cost).max().unwrap_or(1);
        let scale = (DUAL_UNITS / dearest).max(1);
        let whole = |dual: f64| (dual * (dearest as f64 * scale as f64) * LESSENED).floor() as i64;
        let mut of_kinds = vec![0; problem.kinds.len()];
        let mut of_bars: Vec<i64> = problem.bars.iter().map(|bar| bar.cost * scale).collect();
        let (mut kinds_total, mut bars_total) = (0, 0);
        for (row, &dual) in simplex.rows.iter().zip(&simplex.duals) {
            match *row {
                Row::Kind(kind) => {
                    of_kinds[kind] = whole(dual.max(0.0));
                    kinds_total += i128::from(of_kinds[kind]) * i128::from(open.need[kind]);
                }
                Row::Least(bar) => {
                    let dual = whole(dual.max(0.0));
                    of_bars[bar] -= dual;
                    bars_total += i128::from(dual) * i128::from(open.least[bar]);
                }
                Row::Most(bar) => {
                    // Not lessened but rounded up: what a bar may cost grows by it.
                    let dual = (-dual.min(0.0) * (dearest as f64 * scale as f64)).ceil() as i64;
                    of_bars[bar] += dual;
                    bars_total -= i128::from(dual) * i128::from(open.most[bar].unwrap_or(0));
                }
            }
        }
        Self { scale, of_kinds, of_bars, kinds_total, bars_total }
    }

    /// What no plan is cheaper than, once the worths of the pieces are lessened to a share (a fraction of one) at which no
    /// filling is worth more than its bar may cost.
    ///
    /// # References
    /// [`SourceKey::Farley1990`]: duals divided by the largest ratio of a filling's worth to its bar's cost are a bound.
    ///
    /// [`SourceKey::Farley1990`]: crate::source::SourceKey::Farley1990
    fn at_least(&self, (over, worth): (i128, i128)) -> i64 {
        // Under 2^75 times under 2^50.
        let shown = (self.kinds_total * over).div_euclid(worth.max(1)) + self.bars_total;
        let scale = i128::from(self.scale);
        (shown.max(0) + scale - 1).div_euclid(scale) as i64
    }
}

/// Solves it. A plan that lacks something costs more than `cheaper_than`.
pub(super) fn solve(
    problem: &Problem,
    grid: &Grid,
    open: &Open,
    pool: &mut Pool,
    cheaper_than: i64,
    (steps, most_steps): (&mut u64, u64),
) -> Fractions {
    let dearest = problem.bars.iter().map(|bar| bar.cost).max().unwrap_or(1) as f64;
    let of_bar = |bar: usize| problem.bars[bar].cost as f64 / dearest;
    let mut simplex = Simplex::new(open, (cheaper_than as f64 + 1.0) / dearest);
    let mut there = HashSet::new();
    for pattern in pool.clipped(open) {
        there.insert(pattern.clone());
        let cost = of_bar(pattern.bar);
        simplex.add(pattern, cost);
    }
    let mut at_least = 0;
    loop {
        if !simplex.settle(steps, most_steps) {
            return Fractions { of: simplex.fractions(), at_least, solved: false };
        }
        let duals = Duals::of(&simplex, problem, open);
        let priced = worth_adding(problem, grid, open, &duals, steps);
        at_least = at_least.max(duals.at_least(priced.share));
        let mut new = false;
        for pattern in priced.found.into_iter().filter(|pattern| there.insert(pattern.clone())) {
            new = true;
            pool.add(pattern.clone());
            let cost = of_bar(pattern.bar);
            simplex.add(pattern, cost);
        }
        if !new {
            return Fractions { of: simplex.fractions(), at_least, solved: !priced.stopped };
        }
    }
}

/// Fillings that are worth more than their bar may cost.
struct Priced {
    found: Vec<Pattern>,
    /// The least of what a bar may cost over what its filling is worth; at most one.
    share: (i128, i128),
    stopped: bool,
}

fn worth_adding(problem: &Problem, grid: &Grid, open: &Open, duals: &Duals, steps: &mut u64) -> Priced {
    let table = grid.table(&duals.of_kinds, &open.need, steps);
    let mut priced = Priced { found: Vec::new(), share: (1, 1), stopped: false };
    for bar in 0..problem.bars.len() {
        let (room, over) = (problem.bars[bar].room, duals.of_bars[bar]);
        let worth = match table.best(room, over, &open.forbidden[bar], FILLING_STEPS, steps) {
            Filling::Best { worth, counts } => {
                priced.found.push(Pattern { bar, counts });
                worth
            }
            Filling::Stopped { at_most } => {
                priced.stopped = true;
                at_most
            }
            Filling::None => continue,
        };
        let (over, worth) = (i128::from(over.max(0)), i128::from(worth));
        if over * priced.share.1 < priced.share.0 * worth {
            priced.share = (over, worth);
        }
    }
    priced
}
