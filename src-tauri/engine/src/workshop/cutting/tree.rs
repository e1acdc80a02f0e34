//! The search for a whole plan: how many bars of each stock first, then which pattern is used once more, or not again.

use std::collections::HashSet;

use super::greedy::{self, Pattern};
use super::knapsack::{Counts, Grid};
use super::master::{self, Fractions, Open, Pool};
use super::problem::{Problem, common_step};

/// How near a fraction is to a whole number for it to be one.
const WHOLE: f64 = 1e-4;
/// Costs up to so many steps are looked at one by one.
const MOST_COSTS: i64 = 1 << 20;

/// The best plan found, with what no plan is cheaper than, in steps of cost.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Found {
    pub(super) bars: Vec<Pattern>,
    pub(super) cost: i64,
    pub(super) at_least: i64,
    pub(super) steps: u64,
}

/// What is left to do after some bars are chosen.
#[derive(Debug, Clone)]
struct Place {
    open: Open,
    taken: Vec<Pattern>,
    at_least: i64,
}

struct Search<'a> {
    problem: &'a Problem,
    grid: Grid,
    pool: Pool,
    best: Vec<Pattern>,
    cost: i64,
    /// Which costs some number of bars comes to.
    costs: Vec<bool>,
    steps: u64,
    most_steps: u64,
    /// A place could not be solved: the search ends there.
    halted: bool,
}

pub(super) fn solve(problem: &Problem, most_steps: u64) -> Found {
    let need = problem.need();
    if need.iter().all(|&count| count == 0) {
        return Found { bars: Vec::new(), cost: 0, at_least: 0, steps: 0 };
    }
    let mut search = Search::new(problem, &need, most_steps);
    let root = Place { open: search.whole(need), taken: Vec::new(), at_least: 0 };
    let fractions = search.fractions(&root);
    let at_least = search.next_cost(fractions.at_least.max(by_material(problem)));
    let root = Place { at_least, ..root };
    // What is nearest to the fractions is often as cheap as any already: a part of the steps for that.
    let rounded = search.rounded_down(&root, &fractions);
    search.most_steps = search.steps + most_steps.saturating_sub(search.steps) / 3;
    search.descend(rounded, at_least);
    (search.most_steps, search.halted) = (most_steps, false);
    let at_least = if at_least < search.cost { search.descend(root, at_least) } else { at_least };
    Found { cost: search.cost, at_least: at_least.min(search.cost), steps: search.steps, bars: search.best }
}

/// No bar gives more length for its cost than the best of them does.
fn by_material(problem: &Problem) -> i64 {
    let weight = i128::from(problem.weight(&problem.need()));
    let of = |bar: &super::problem::Bar| {
        let (cost, room) = (i128::from(bar.cost), i128::from(bar.room));
        ((weight * cost + room - 1) / room) as i64
    };
    problem.bars.iter().map(of).min().unwrap_or(0)
}

impl<'a> Search<'a> {
    fn new(problem: &'a Problem, need: &[u32], most_steps: u64) -> Self {
        let weights: Vec<i64> = problem.kinds.iter().map(|kind| kind.weight).collect();
        let rooms: Vec<i64> = problem.bars.iter().map(|bar| bar.room).collect();
        let step = common_step(weights.iter().chain(&rooms).copied());
        let grid = Grid::of(weights, &rooms, step);
        let mut steps = 0;
        let plans =
            [greedy::longest_first(problem, need), greedy::fullest_first(problem, &grid, need, &mut steps)];
        let mut pool = Pool::default();
        plans.iter().flatten().for_each(|pattern| {
            pool.add(pattern.clone());
        });
        let best = plans.into_iter().min_by_key(|bars| greedy::cost(problem, bars)).unwrap_or_default();
        let cost = greedy::cost(problem, &best);
        let costs = costs_up_to(problem, cost);
        Self { problem, grid, pool, best, cost, costs, steps, most_steps, halted: false }
    }

    fn whole(&self, need: Counts) -> Open {
        let bars = self.problem.bars.len();
        Open { need, least: vec![0; bars], most: vec![None; bars], forbidden: vec![HashSet::new(); bars] }
    }

    fn fractions(&mut self, place: &Place) -> Fractions {
        let steps = (&mut self.steps, self.most_steps);
        master::solve(self.problem, &self.grid, &place.open, &mut self.pool, self.cost, steps)
    }

    /// The least cost that bars come to and that is no less than this.
    fn next_cost(&self, at_least: i64) -> i64 {
        let from = at_least.max(0) as usize;
        let more = self.costs.get(from..).and_then(|costs| costs.iter().position(|&possible| possible));
        more.map_or(at_least, |more| at_least.max(0) + more as i64)
    }

    /// Whole patterns taken, as many of each as its fraction holds.
    fn rounded_down(&self, place: &Place, fractions: &Fractions) -> Place {
        let mut down = place.clone();
        for (pattern, value) in &fractions.of {
            for _ in 0..(value + WHOLE).floor() as u32 {
                take(&mut down, pattern);
            }
        }
        down
    }

    fn offer(&mut self, bars: Vec<Pattern>) {
        let cost = greedy::cost(self.problem, &bars);
        if cost < self.cost {
            (self.best, self.cost) = (bars, cost);
        }
    }

    /// Searches everything under a place, the most promising way first, until a plan costs no more than `enough`. What is
    /// answered: no plan from here is cheaper.
    fn descend(&mut self, from: Place, enough: i64) -> i64 {
        let mut waiting = vec![from];
        while let Some(place) = waiting.pop() {
            if place.at_least >= self.cost {
                continue;
            }
            if self.cost <= enough || self.halted || self.steps >= self.most_steps {
                let open = waiting.iter().map(|place| place.at_least).fold(place.at_least, i64::min);
                return open.min(self.cost);
            }
            self.expand(place, &mut waiting);
        }
        self.cost
    }

    fn expand(&mut self, place: Place, waiting: &mut Vec<Place>) {
        if place.open.need.iter().all(|&count| count == 0) {
            // Bars that have to be bought still, with nothing to cut from them, make no plan cheaper.
            self.offer(place.taken);
            return;
        }
        let fractions = self.fractions(&place);
        let spent = greedy::cost(self.problem, &place.taken);
        let at_least = self.next_cost(spent + fractions.at_least).max(place.at_least);
        let mut down = self.rounded_down(&place, &fractions);
        let rest = greedy::longest_first(self.problem, &down.open.need);
        down.taken.extend(rest);
        self.offer(down.taken);
        if at_least >= self.cost {
            return;
        }
        let place = Place { at_least, ..place };
        if !fractions.solved {
            // Nothing to go by: it stays open.
            self.halted = true;
            waiting.push(place);
        } else if let Some((bar, bars)) = self.fraction_of_bars(&fractions) {
            branch_on_bars(&place, bar, bars, waiting);
        } else {
            branch_on_pattern(&place, &fractions, waiting);
        }
    }

    /// The stock of which the fractions take least of a whole number of bars.
    fn fraction_of_bars(&self, fractions: &Fractions) -> Option<(usize, f64)> {
        if self.problem.bars.len() < 2 {
            return None;
        }
        let of = |bar: usize| -> f64 {
            fractions.of.iter().filter(|(pattern, _)| pattern.bar == bar).map(|(_, value)| value).sum()
        };
        let apart = |value: f64| (value - value.round()).abs();
        let all = (0..self.problem.bars.len()).map(|bar| (bar, of(bar)));
        all.filter(|(_, value)| apart(*value) > WHOLE).max_by(|a, b| apart(a.1).total_cmp(&apart(b.1)))
    }
}

fn branch_on_bars(place: &Place, bar: usize, bars: f64, waiting: &mut Vec<Place>) {
    let down = bars.floor();
    let (mut fewer, mut more) = (place.clone(), place.clone());
    fewer.open.most[bar] = Some(down as u32);
    more.open.least[bar] = down as u32 + 1;
    // The nearer one is looked at first.
    let order = if bars - down < 0.5 { [more, fewer] } else { [fewer, more] };
    waiting.extend(order);
}

fn branch_on_pattern(place: &Place, fractions: &Fractions, waiting: &mut Vec<Place>) {
    // One that is used whole already stays so most likely; then the largest fraction.
    let likely = fractions.of.iter().max_by(|a, b| a.1.total_cmp(&b.1));
    let Some((pattern, _)) = likely else { return };
    let (mut without, mut with) = (place.clone(), place.clone());
    without.open.forbidden[pattern.bar].insert(pattern.counts.clone());
    take(&mut with, pattern);
    waiting.extend([without, with]);
}

/// Cuts one bar by a pattern, as far as its pieces are needed.
fn take(place: &mut Place, pattern: &Pattern) {
    let counts: Counts = pattern.counts.iter().zip(&place.open.need).map(|(&a, &b)| a.min(b)).collect();
    if counts.iter().all(|&count| count == 0) {
        return;
    }
    place.open.need.iter_mut().zip(&counts).for_each(|(need, count)| *need -= count);
    let bar = pattern.bar;
    place.open.least[bar] = place.open.least[bar].saturating_sub(1);
    place.open.most[bar] = place.open.most[bar].map(|most| most.saturating_sub(1));
    place.taken.push(Pattern { bar, counts });
}

/// Every cost up to the best known plan's that some number of bars comes to; none where they are too many to look at.
fn costs_up_to(problem: &Problem, most: i64) -> Vec<bool> {
    if most > MOST_COSTS {
        return Vec::new();
    }
    let mut possible = vec![false; most as usize + 1];
    possible[0] = true;
    for bar in &problem.bars {
        let cost = bar.cost.max(1) as usize;
        for at in cost..possible.len() {
            possible[at] |= possible[at - cost];
        }
    }
    possible
}
