//! By hand; published instances and a second solver are in `tests/published/cutting_stock.rs`.

use super::*;

pub(super) fn asked(pieces: &[(f64, u32)], stocks: &[(f64, Option<f64>)], kerf_mm: f64) -> CuttingAsked {
    CuttingAsked {
        pieces: pieces.iter().map(|&(mm, count)| PieceAsked { length_m: mm / 1000.0, count }).collect(),
        stocks: stocks.iter().map(|&(mm, price)| StockOffered { length_m: mm / 1000.0, price }).collect(),
        kerf_m: kerf_mm / 1000.0,
    }
}

fn bars(plan: &CuttingPlan) -> u32 {
    plan.buy.iter().sum()
}

/// Every piece is cut as often as asked, no bar holds more than it is long, and the sums are those of the bars.
fn holds(asked: &CuttingAsked, plan: &CuttingPlan) {
    let mut cut = vec![0; asked.pieces.len()];
    let (mut bought, mut cost) = (0.0, 0.0);
    for bar in &plan.bars {
        let stock = asked.stocks[bar.stock as usize];
        let count: u32 = bar.cuts.iter().map(|(_, count)| count).sum();
        let pieces: f64 =
            bar.cuts.iter().map(|&(piece, n)| asked.pieces[piece as usize].length_m * f64::from(n)).sum();
        let used = pieces + f64::from(count - 1) * asked.kerf_m;
        assert!(used <= stock.length_m + 1e-9, "{bar:?}");
        let left = (stock.length_m - used - asked.kerf_m).max(0.0);
        assert!((bar.left_m - left).abs() < 1e-8, "{bar:?} {left}");
        bar.cuts.iter().for_each(|&(piece, count)| cut[piece as usize] += count * bar.bars);
        bought += stock.length_m * f64::from(bar.bars);
        let of_one = stock.price.filter(|_| plan.priced).unwrap_or(stock.length_m);
        cost += of_one * f64::from(bar.bars);
    }
    assert_eq!(cut, asked.pieces.iter().map(|piece| piece.count).collect::<Vec<_>>());
    let of_stocks: u32 = plan.bars.iter().map(|bar| bar.bars).sum();
    assert_eq!(of_stocks, bars(plan));
    assert!((plan.bought_m - bought).abs() < 1e-6 && (plan.cost - cost).abs() < 1e-6, "{plan:?}");
    let parts = plan.pieces_m + plan.sawn_m + plan.left_m;
    assert!((plan.bought_m - parts).abs() < 1e-6, "{plan:?}");
    assert!(plan.at_least <= plan.cost + 1e-9 && plan.proven == (plan.at_least == plan.cost));
}

fn planned(asked: &CuttingAsked) -> CuttingPlan {
    let plan = cut(asked, STEPS).unwrap();
    holds(asked, &plan);
    plan
}

/// Open-source test files: the saw takes something between two pieces only. Three of 1998 mm with cuts of 3 mm are 6000 mm exactly.
#[test]
fn the_cut_counts_between_pieces_only() {
    let five = |kerf_mm| asked(&[(1500.0, 2), (1000.0, 3)], &[(3000.0, None)], kerf_mm);
    assert_eq!([0.0, 3.0, 5.0].map(|kerf| bars(&planned(&five(kerf)))), [2, 3, 3]);
    let three = |mm: f64| planned(&asked(&[(mm, 3)], &[(6000.0, None)], 3.0));
    assert_eq!((bars(&three(1990.0)), bars(&three(1998.0)), bars(&three(1998.01))), (1, 1, 2));
    assert!((three(1990.0).sawn_m - 0.009).abs() < 1e-9 && (three(1990.0).left_m - 0.021).abs() < 1e-9);
    assert!((three(1998.0).sawn_m - 0.006).abs() < 1e-9 && three(1998.0).left_m == 0.0);
}

/// By hand: 2.0 + 2.0 + 1.5 m. One of 6 m costs 30; one of 4 and one of 2 cost 14 + 8 = 22. By length: 6 m either way. Where 2 m
/// cost 20 the long one is cheaper than 34.
#[test]
fn prices_decide_where_there_are_any() {
    let pieces = [(2000.0, 2), (1500.0, 1)];
    let by =
        |short| asked(&pieces, &[(6000.0, Some(30.0)), (4000.0, Some(14.0)), (2000.0, Some(short))], 0.0);
    let cheap = planned(&by(8.0));
    assert_eq!((cheap.cost, cheap.buy.as_slice()), (22.0, [0, 1, 1].as_slice()));
    let dear = planned(&by(20.0));
    // 4 m twice: 28.
    assert_eq!((dear.cost, dear.buy.as_slice()), (28.0, [0, 2, 0].as_slice()));
    let unpriced = planned(&asked(&pieces, &[(6000.0, Some(30.0)), (4000.0, None)], 0.0));
    assert!(!unpriced.priced && (unpriced.cost - 6.0).abs() < 1e-9);
}

#[test]
fn what_cannot_be_cut_is_refused() {
    let long = cut(&asked(&[(900.0, 1), (3100.0, 1)], &[(3000.0, None), (2000.0, None)], 3.0), STEPS);
    assert_eq!(long, Err(CuttingError::TooLong { piece: 1, length_m: 3.1, longest_m: 3.0 }));
    // A piece as long as the bar takes no cut.
    assert_eq!(bars(&planned(&asked(&[(3000.0, 2)], &[(3000.0, None)], 3.0))), 2);
    assert_eq!(cut(&asked(&[(1.0, 1)], &[], 3.0), STEPS), Err(CuttingError::NoStock));
    assert_eq!(
        cut(&asked(&[(f64::NAN, 1)], &[(3000.0, None)], 3.0), STEPS),
        Err(CuttingError::NotALength { piece: Some(0) })
    );
    let many = cut(&asked(&[(10.0, 4_000_000_000)], &[(3000.0, None)], 3.0), STEPS);
    assert!(matches!(many, Err(CuttingError::TooMany { .. })));
    let price = cut(&asked(&[(10.0, 1)], &[(3000.0, Some(-1.0))], 3.0), STEPS);
    assert_eq!(price, Err(CuttingError::NotALength { piece: None }));
    let nothing = cut(&asked(&[(10.0, 0)], &[], 3.0), STEPS).unwrap();
    assert!(nothing.proven && nothing.bars.is_empty() && nothing.cost == 0.0);
}

/// A search that is stopped says so, with a bound that is one.
#[test]
fn a_stopped_search_tells_its_bound() {
    let pieces: Vec<(f64, u32)> = (0..40).map(|i| (700.0 + 37.3 * f64::from(i), 1)).collect();
    let asked = asked(&pieces, &[(3000.0, None), (4000.0, None)], 3.0);
    let whole = planned(&asked);
    let stopped = cut(&asked, 1).unwrap();
    holds(&asked, &stopped);
    assert!(!stopped.proven && whole.proven, "{whole:?}");
    assert!(stopped.at_least <= whole.cost && whole.cost <= stopped.cost);
    // No length is got for nothing: what the pieces take.
    assert!(stopped.at_least >= whole.pieces_m);
}

/// Every way to cut, tried by hand of a machine: all partitions of few pieces into bars of either length.
#[test]
fn few_pieces_are_cut_as_cheaply_as_by_trying_all() {
    fn least(pieces: &[f64], bars: &mut Vec<f64>) -> f64 {
        let stocks = [(3003.0, 9.5), (4003.0, 12.0), (5003.0, 16.0)];
        let Some((&piece, rest)) = pieces.split_first() else {
            let cost =
                |used: &f64| stocks.iter().find(|(room, _)| used <= room).map_or(f64::INFINITY, |it| it.1);
            return bars.iter().map(cost).sum();
        };
        let mut best = f64::INFINITY;
        for at in 0..=bars.len() {
            if at == bars.len() {
                bars.push(0.0)
            }
            bars[at] += piece + 3.0;
            if bars[at] <= 5003.0 {
                best = best.min(least(rest, bars))
            }
            bars[at] -= piece + 3.0;
            if at + 1 == bars.len() && bars[at] == 0.0 {
                bars.pop();
            }
        }
        best
    }
    let mut seed = 7_u64;
    for _ in 0..12 {
        let pieces: Vec<f64> = (0..8)
            .map(|_| {
                seed = seed.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
                600.0 + ((seed >> 33) % 1900) as f64
            })
            .collect();
        let by_all = least(&pieces, &mut Vec::new());
        let kinds: Vec<(f64, u32)> = pieces.iter().map(|&mm| (mm, 1)).collect();
        let stocks = [(3000.0, Some(9.5)), (4000.0, Some(12.0)), (5000.0, Some(16.0))];
        let plan = planned(&asked(&kinds, &stocks, 3.0));
        assert!(plan.proven && (plan.cost - by_all).abs() < 1e-9, "{} for {by_all}", plan.cost);
    }
}
