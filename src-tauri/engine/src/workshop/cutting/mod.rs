//! From which lengths on offer to cut which pieces, so that it costs least: proven, or with how much less it could be.
//!
//! Patterns are found as they are needed (column generation) and the rest is branched over (branch and price); why so and
//! not by a general solver: `docs/decisions/0041-cutting-by-patterns.md`. All sums that decide are of whole numbers, so the
//! proof does not rest on a tolerance: a solver in floating point proposes duals, whole numbers check them.
//!
//! # References
//! [`SourceKey::GilmoreGomory1961`] (patterns as columns, the knapsack that finds them); [`SourceKey::Farley1990`] (the
//! bound of a search that is stopped).
//!
//! [`SourceKey::GilmoreGomory1961`]: crate::source::SourceKey::GilmoreGomory1961
//! [`SourceKey::Farley1990`]: crate::source::SourceKey::Farley1990

mod greedy;
mod knapsack;
mod master;
mod problem;
mod tree;

#[cfg(test)]
mod tests;

use serde::Serialize;

use problem::{Problem, metres};

/// More pieces than a garden needs are refused, not tried.
pub const MOST_PIECES: u64 = 5000;
/// Stock lengths on offer.
pub const MOST_STOCKS: usize = 12;
/// Shortest and longest bar or piece.
pub const LEAST_M: f64 = 0.001;
pub const MOST_M: f64 = 100.0;
/// Steps after which a search is stopped and tells its bound.
pub const STEPS: u64 = 40_000_000;
/// The same where a page waits for it, once for each material.
pub const STEPS_ON_A_PAGE: u64 = STEPS / 8;

/// Pieces that are all alike.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PieceAsked {
    pub length_m: f64,
    pub count: u32,
}

/// A length that the shop sells, as many as are wanted.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct StockOffered {
    pub length_m: f64,
    /// Of one bar, in any money. Where one has no price, the plan takes the least length in all.
    pub price: Option<f64>,
}

/// What is to be cut from what.
#[derive(Debug, Clone, PartialEq)]
pub struct CuttingAsked {
    pub pieces: Vec<PieceAsked>,
    pub stocks: Vec<StockOffered>,
    /// Width of the saw cut. It counts between two pieces, and after the last one where anything is left.
    pub kerf_m: f64,
}

/// Why nothing can be cut.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum CuttingError {
    /// A piece, by its place, is longer than every stock length.
    TooLong {
        piece: usize,
        length_m: f64,
        longest_m: f64,
    },
    NoStock,
    TooMany {
        given: u64,
        most: u64,
    },
    /// A length, price or saw cut out of its range; a piece by its place, else a stock or the saw cut.
    NotALength {
        piece: Option<usize>,
    },
}

/// How bars that are cut alike are cut.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct BarPlan {
    /// Which stock, by its place.
    pub stock: u32,
    pub bars: u32,
    /// From one end: which piece (by its place) how often. The longest first.
    pub cuts: Vec<(u32, u32)>,
    /// What is left of each bar behind the last cut.
    pub left_m: f64,
}

/// What is bought and how it is cut.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct CuttingPlan {
    pub bars: Vec<BarPlan>,
    /// How many of each stock to buy, in the order asked.
    pub buy: Vec<u32>,
    /// By price where every stock has one; otherwise the length bought, in metres.
    pub cost: f64,
    pub priced: bool,
    /// No plan costs less than this.
    pub at_least: f64,
    /// The plan is as cheap as any.
    pub proven: bool,
    pub bought_m: f64,
    pub pieces_m: f64,
    /// What the saw takes.
    pub sawn_m: f64,
    pub left_m: f64,
    /// How far the search went.
    pub steps: u32,
}

/// The cheapest way to cut all the pieces, where it is found within so many steps; else the best found, with a bound.
///
/// # Units
/// Metres; money as typed. Lengths are taken to 10 nm, prices to a hundredth of a cent.
///
/// # Errors
/// As [`CuttingError`] says, the first that is found.
///
/// # Accuracy
/// Exact: feasibility, cost and bound are sums of whole numbers.
pub fn cut(asked: &CuttingAsked, most_steps: u64) -> Result<CuttingPlan, CuttingError> {
    let problem = Problem::of(asked)?;
    let found = tree::solve(&problem, most_steps);
    Ok(told(asked, &problem, &found))
}

fn told(asked: &CuttingAsked, problem: &Problem, found: &tree::Found) -> CuttingPlan {
    let mut waiting: Vec<Vec<(usize, u32)>> = problem.kinds.iter().map(|kind| kind.of.clone()).collect();
    let mut bars: Vec<BarPlan> = Vec::new();
    let mut buy = vec![0; asked.stocks.len()];
    let (mut sawn, mut left) = (0, 0);
    for pattern in &found.bars {
        let bar = problem.bars[pattern.bar];
        let used = problem.weight(&pattern.counts);
        let pieces: i64 = pattern.counts.iter().map(|&n| i64::from(n)).sum();
        // The last cut falls off the end where less than its width is left.
        let rest = (bar.room - problem.kerf - used).max(0);
        sawn += bar.room - problem.kerf - (used - pieces * problem.kerf) - rest;
        left += rest;
        buy[bar.of] += 1;
        let cuts = taken(&pattern.counts, &mut waiting);
        let left_m = metres(rest);
        match bars.iter_mut().find(|it| it.stock == bar.of as u32 && it.cuts == cuts) {
            Some(alike) => alike.bars += 1,
            None => bars.push(BarPlan { stock: bar.of as u32, bars: 1, cuts, left_m }),
        }
    }
    bars.sort_by(|a, b| {
        let length = |plan: &BarPlan| asked.stocks[plan.stock as usize].length_m;
        length(b).total_cmp(&length(a)).then(a.left_m.total_cmp(&b.left_m))
    });
    let bought: i64 = found.bars.iter().map(|pattern| problem.bars[pattern.bar].room - problem.kerf).sum();
    CuttingPlan {
        bars,
        buy,
        cost: problem.cost(found.cost),
        priced: problem.priced,
        at_least: problem.cost(found.at_least),
        proven: found.at_least == found.cost,
        bought_m: metres(bought),
        pieces_m: metres(bought - sawn - left),
        sawn_m: metres(sawn),
        left_m: metres(left),
        steps: u32::try_from(found.steps).unwrap_or(u32::MAX),
    }
}

/// Hands out so many pieces of each kind, in the order in which they were asked.
fn taken(counts: &[u32], waiting: &mut [Vec<(usize, u32)>]) -> Vec<(u32, u32)> {
    let mut cuts = Vec::new();
    for (&count, waiting) in counts.iter().zip(waiting) {
        let mut open = count;
        for (piece, rest) in waiting.iter_mut().filter(|(_, rest)| *rest > 0) {
            let now = open.min(*rest);
            if now > 0 {
                cuts.push((*piece as u32, now));
            }
            *rest -= now;
            open -= now;
        }
    }
    cuts
}
