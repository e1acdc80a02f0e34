//! The best filling of a bar by given worths of the pieces: exact at any resolution. A table over a grid bounds from
//! above what the later kinds can still add; a search over the kinds, the longest first, is cut off by it.

use std::collections::HashSet;

/// Cells of the grid at most: where lengths are multiples of a step that gives fewer, the table is exact.
const MOST_CELLS: i64 = 4096;

/// How often each kind is cut from one bar.
pub(super) type Counts = Vec<u32>;

/// The kinds on a grid.
#[derive(Debug, Clone)]
pub(super) struct Grid {
    weights: Vec<i64>,
    cell: i64,
    cells: usize,
}

/// Worths with the table of what each kind and those after it can add in so many cells.
pub(super) struct Table<'a> {
    grid: &'a Grid,
    worths: &'a [i64],
    most: &'a [u32],
    /// Kinds that are worth something and needed, the longest first.
    live: Vec<usize>,
    /// Of `live[place..]` in so many cells.
    rows: Vec<Vec<i64>>,
}

/// The best filling that was asked for.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) enum Filling {
    Best {
        worth: i64,
        counts: Counts,
    },
    /// None is worth more than what was asked.
    None,
    /// The search came to its end unfinished; none is worth more than this.
    Stopped {
        at_most: i64,
    },
}

impl Grid {
    pub(super) fn of(weights: Vec<i64>, rooms: &[i64], step: i64) -> Self {
        let largest = rooms.iter().copied().max().unwrap_or(0);
        let cell = step.max(largest.div_euclid(MOST_CELLS) + 1).max(1);
        // On a step that divides everything the grid is exact; a coarser one bounds.
        let cell = if largest / step.max(1) <= MOST_CELLS { step.max(1) } else { cell };
        Self { weights, cell, cells: (largest / cell) as usize + 1 }
    }

    /// # Accuracy
    /// Weights and rooms are rounded down, so that whatever fits still fits: a bound from above.
    pub(super) fn table<'a>(&'a self, worths: &'a [i64], most: &'a [u32], steps: &mut u64) -> Table<'a> {
        let needed = |&kind: &usize| worths[kind] > 0 && most[kind] > 0;
        let live: Vec<usize> = (0..worths.len()).filter(needed).collect();
        let mut rows = vec![vec![0; self.cells]; live.len() + 1];
        for place in (0..live.len()).rev() {
            let kind = live[place];
            let (size, worth) = ((self.weights[kind] / self.cell) as usize, worths[kind]);
            let (before, after) = rows.split_at_mut(place + 1);
            fill(&mut before[place], &after[0], size, worth, most[kind]);
        }
        *steps += (self.cells * live.len() / 16) as u64;
        Table { grid: self, worths, most, live, rows }
    }
}

/// One kind more, taken up to so often.
fn fill(row: &mut [i64], without: &[i64], size: usize, worth: i64, most: u32) {
    row.copy_from_slice(without);
    // One after the other: after the n-th pass the row is the best with at most n of it.
    let rounds = (row.len() - 1).checked_div(size).map_or(1, |fit| fit.min(most as usize));
    if size == 0 {
        row.iter_mut().for_each(|cell| *cell += worth * i64::from(most));
        return;
    }
    if rounds == most as usize && rounds <= 1 {
        for at in size..row.len() {
            row[at] = row[at].max(without[at - size] + worth);
        }
        return;
    }
    if rounds < most as usize {
        // More are needed than fit: no limit.
        for at in size..row.len() {
            row[at] = row[at].max(row[at - size] + worth);
        }
        return;
    }
    for at in size..row.len() {
        for taken in 1..=rounds.min(at / size) {
            row[at] = row[at].max(without[at - taken * size] + worth * taken as i64);
        }
    }
}

impl Table<'_> {
    /// What a room holds at most, by the grid.
    pub(super) fn at_most(&self, room: i64) -> i64 {
        self.rows[0][(room / self.grid.cell) as usize]
    }

    /// The filling of a room that is worth most, where that is more than `over`, among those not forbidden.
    pub(super) fn best(
        &self,
        room: i64,
        over: i64,
        forbidden: &HashSet<Counts>,
        most_steps: u64,
        steps: &mut u64,
    ) -> Filling {
        let mut search = Search {
            table: self,
            forbidden,
            best: over,
            found: None,
            now: vec![0; self.worths.len()],
            left: most_steps,
        };
        search.from(0, room, 0);
        *steps += most_steps - search.left;
        let stopped = search.left == 0;
        match search.found {
            _ if stopped => Filling::Stopped { at_most: self.at_most(room).max(over) },
            Some(counts) => Filling::Best { worth: search.best, counts },
            None => Filling::None,
        }
    }
}

struct Search<'a> {
    table: &'a Table<'a>,
    forbidden: &'a HashSet<Counts>,
    best: i64,
    found: Option<Counts>,
    now: Counts,
    left: u64,
}

impl Search<'_> {
    fn from(&mut self, place: usize, room: i64, worth: i64) {
        if self.left == 0 {
            return;
        }
        self.left -= 1;
        let table = self.table;
        let bound = |place: usize, room: i64| table.rows[place][(room / table.grid.cell) as usize];
        if worth + bound(place, room) <= self.best {
            return;
        }
        let Some(&kind) = table.live.get(place) else {
            if !self.forbidden.contains(&self.now) {
                self.best = worth;
                self.found = Some(self.now.clone());
            }
            return;
        };
        let (weight, each) = (table.grid.weights[kind], table.worths[kind]);
        let most = (room / weight).min(i64::from(table.most[kind]));
        let reach = |count: i64| worth + each * count + bound(place + 1, room - weight * count);
        // The count that promises most first: where the table is exact, the first way down is the best.
        let promising = (0..=most).rev().max_by_key(|&count| reach(count)).unwrap_or(0);
        for count in std::iter::once(promising).chain((0..=most).rev().filter(|&it| it != promising)) {
            if reach(count) > self.best {
                self.now[kind] = count as u32;
                self.from(place + 1, room - weight * count, worth + each * count);
                self.now[kind] = 0;
            }
        }
    }
}
