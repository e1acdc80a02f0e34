//! The cutting problem in whole numbers: every later sum is exact.

use std::collections::BTreeMap;

use super::{CuttingAsked, CuttingError, LEAST_M, MOST_M, MOST_PIECES, MOST_STOCKS};

/// A length's unit: 10 nm. A millimetre and a 1/256 inch of 99,218.75 nm are whole to within half of it.
const UNITS_PER_M: f64 = 1e8;
/// A price's unit: a hundredth of a cent.
const PRICE_UNITS: f64 = 1e4;

/// Pieces of one length.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Kind {
    /// Piece and one cut: a bar holds pieces whose sum with their cuts is at most the bar with one cut.
    pub(super) weight: i64,
    pub(super) count: u32,
    /// The pieces asked that are of it, by their places.
    pub(super) of: Vec<(usize, u32)>,
}

/// A bar on offer.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Bar {
    /// Its length and one cut.
    pub(super) room: i64,
    /// In steps of the problem's costs.
    pub(super) cost: i64,
    /// Which of the stocks asked.
    pub(super) of: usize,
}

/// Longest kind first, shortest bar first.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Problem {
    pub(super) kinds: Vec<Kind>,
    pub(super) bars: Vec<Bar>,
    pub(super) kerf: i64,
    /// The cost of every plan is a multiple of it: so many units of price or length.
    pub(super) cost_step: i64,
    pub(super) priced: bool,
}

fn units(length_m: f64) -> i64 {
    (length_m * UNITS_PER_M).round() as i64
}

pub(super) fn metres(units: i64) -> f64 {
    units as f64 / UNITS_PER_M
}

fn greatest_common(a: i64, b: i64) -> i64 {
    if b == 0 { a } else { greatest_common(b, a % b) }
}

/// The largest length of which all of these are multiples.
pub(super) fn common_step(lengths: impl Iterator<Item = i64>) -> i64 {
    lengths.fold(0, greatest_common).max(1)
}

impl Problem {
    /// A cost in steps as the person knows it: money, or metres bought.
    pub(super) fn cost(&self, steps: i64) -> f64 {
        let units = steps as f64 * self.cost_step as f64;
        if self.priced { units / PRICE_UNITS } else { metres(units as i64) }
    }

    pub(super) fn need(&self) -> Vec<u32> {
        self.kinds.iter().map(|kind| kind.count).collect()
    }

    /// How much of a bar these take, each with its cut.
    pub(super) fn weight(&self, counts: &[u32]) -> i64 {
        self.kinds.iter().zip(counts).map(|(kind, &count)| kind.weight * i64::from(count)).sum()
    }

    /// The cheapest bar that holds so much; none where none does.
    pub(super) fn cheapest(&self, weight: i64) -> Option<usize> {
        let holding = (0..self.bars.len()).filter(|&bar| self.bars[bar].room >= weight);
        holding.min_by_key(|&bar| (self.bars[bar].cost, self.bars[bar].room))
    }

    /// # Errors
    /// The first thing by which nothing can be cut.
    pub(super) fn of(asked: &CuttingAsked) -> Result<Self, CuttingError> {
        in_range(asked)?;
        let kerf = units(asked.kerf_m);
        let longest = asked.stocks.iter().map(|stock| units(stock.length_m)).max().unwrap_or(0);
        let mut by_length: BTreeMap<i64, Kind> = BTreeMap::new();
        for (at, piece) in asked.pieces.iter().enumerate().filter(|(_, piece)| piece.count > 0) {
            let length = units(piece.length_m);
            if length > longest {
                return Err(CuttingError::TooLong {
                    piece: at,
                    length_m: piece.length_m,
                    longest_m: metres(longest),
                });
            }
            let weight = length + kerf;
            let kind = by_length.entry(weight).or_insert(Kind { weight, count: 0, of: Vec::new() });
            kind.count += piece.count;
            kind.of.push((at, piece.count));
        }
        let priced = asked.stocks.iter().all(|stock| stock.price.is_some());
        let bar = |(of, stock): (usize, &super::StockOffered)| {
            let length = units(stock.length_m);
            let cost =
                stock.price.filter(|_| priced).map_or(length, |price| (price * PRICE_UNITS).round() as i64);
            Bar { room: length + kerf, cost, of }
        };
        let mut bars: Vec<Bar> = asked.stocks.iter().enumerate().map(bar).collect();
        bars.sort_by_key(|bar| (bar.room, bar.cost, bar.of));
        let cost_step = common_step(bars.iter().map(|bar| bar.cost));
        bars.iter_mut().for_each(|bar| bar.cost /= cost_step);
        Ok(Self { kinds: by_length.into_values().rev().collect(), bars, kerf, cost_step, priced })
    }
}

fn in_range(asked: &CuttingAsked) -> Result<(), CuttingError> {
    let pieces: u64 = asked.pieces.iter().map(|piece| u64::from(piece.count)).sum();
    if pieces > MOST_PIECES {
        return Err(CuttingError::TooMany { given: pieces, most: MOST_PIECES });
    }
    if asked.stocks.len() > MOST_STOCKS {
        return Err(CuttingError::TooMany { given: asked.stocks.len() as u64, most: MOST_STOCKS as u64 });
    }
    if asked.stocks.is_empty() && pieces > 0 {
        return Err(CuttingError::NoStock);
    }
    let length = |value: f64| value.is_finite() && (LEAST_M..=MOST_M).contains(&value);
    let piece = asked.pieces.iter().position(|piece| !length(piece.length_m));
    if let Some(piece) = piece {
        return Err(CuttingError::NotALength { piece: Some(piece) });
    }
    let price = |price: Option<f64>| price.is_none_or(|it| it.is_finite() && (0.01..=1e6).contains(&it));
    let stocks = asked.stocks.iter().all(|stock| length(stock.length_m) && price(stock.price));
    if !stocks || !asked.kerf_m.is_finite() || !(0.0..=0.05).contains(&asked.kerf_m) {
        return Err(CuttingError::NotALength { piece: None });
    }
    Ok(())
}
