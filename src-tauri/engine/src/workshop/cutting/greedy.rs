//! Plans that are good at once: what the search begins with, and what it rounds to.

use std::collections::HashSet;

use super::knapsack::{Counts, Filling, Grid};
use super::problem::Problem;

/// A bar with what is cut from it.
#[derive(Debug, Clone, PartialEq, Eq, Hash)]
pub(super) struct Pattern {
    pub(super) bar: usize,
    pub(super) counts: Counts,
}

pub(super) fn cost(problem: &Problem, bars: &[Pattern]) -> i64 {
    bars.iter().map(|pattern| problem.bars[pattern.bar].cost).sum()
}

/// The longest piece that still fits, over and over, in bars of each of the stock lengths in turn; each bar is then
/// exchanged for the cheapest that holds what is cut from it. The cheapest of those plans.
pub(super) fn longest_first(problem: &Problem, need: &[u32]) -> Vec<Pattern> {
    let plans = (0..problem.bars.len()).map(|bar| longest_first_from(problem, need, bar));
    plans.min_by_key(|bars| cost(problem, bars)).unwrap_or_default()
}

fn longest_first_from(problem: &Problem, need: &[u32], wanted: usize) -> Vec<Pattern> {
    let mut open: Vec<(i64, Counts)> = Vec::new();
    for (kind, &count) in need.iter().enumerate() {
        let weight = problem.kinds[kind].weight;
        // A piece that the wanted bar is too short for has the shortest that holds it.
        let room = problem.bars[wanted].room;
        let room = if weight <= room {
            room
        } else {
            let holding = problem.bars.iter().map(|bar| bar.room).filter(|&room| room >= weight);
            holding.min().unwrap_or(weight)
        };
        for _ in 0..count {
            let at = open.iter().position(|(rest, _)| *rest >= weight).unwrap_or_else(|| {
                open.push((room, vec![0; need.len()]));
                open.len() - 1
            });
            open[at].0 -= weight;
            open[at].1[kind] += 1;
        }
    }
    open.into_iter().filter_map(|(_, counts)| in_the_cheapest(problem, counts)).collect()
}

/// What is cut from one bar, in the cheapest that holds it.
pub(super) fn in_the_cheapest(problem: &Problem, counts: Counts) -> Option<Pattern> {
    problem.cheapest(problem.weight(&counts)).map(|bar| Pattern { bar, counts })
}

/// The fullest bar that can be cut from what is still needed, over and over; of the stock lengths the one with the least
/// cost for what it gives.
pub(super) fn fullest_first(problem: &Problem, grid: &Grid, need: &[u32], steps: &mut u64) -> Vec<Pattern> {
    let worths: Vec<i64> = problem.kinds.iter().map(|kind| kind.weight).collect();
    let mut need = need.to_vec();
    let mut bars = Vec::new();
    while need.iter().any(|&count| count > 0) {
        let table = grid.table(&worths, &need, steps);
        let fullest = |bar: usize, steps: &mut u64| match table.best(
            problem.bars[bar].room,
            0,
            &HashSet::new(),
            2000,
            steps,
        ) {
            Filling::Best { worth, counts } => Some((worth, bar, counts)),
            _ => None,
        };
        let all: Vec<_> = (0..problem.bars.len()).filter_map(|bar| fullest(bar, steps)).collect();
        // Cost for what is given: a / b < c / d as a · d < c · b.
        let best = all.into_iter().reduce(|a, b| {
            let (of_a, of_b) = (i128::from(problem.bars[a.1].cost), i128::from(problem.bars[b.1].cost));
            if of_b * i128::from(a.0) < of_a * i128::from(b.0) { b } else { a }
        });
        let Some((_, _, counts)) = best else { return longest_first(problem, &problem.need()) };
        need.iter_mut().zip(&counts).for_each(|(need, count)| *need -= count);
        bars.extend(in_the_cheapest(problem, counts));
    }
    bars
}
