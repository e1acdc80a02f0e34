//! Cutting against published instances whose least number of bars is proven, and against a general MILP solver.
//!
//! Instances (`published-values-2.md`, A8): four widths, Chvátal, Linear Programming (1983), ch. 13: 453 rolls; thirteen widths, the
//! encyclopedia's cutting stock problem: 73; triplets t60_00, Falkenauer (1996), OR-Library binpack5: 20; N1W1B1R0, Scholl, Klein &
//! Jürgens (1997), set 2: 18; a course's small one: 74. SciPy's HiGHS: `scripts/cutting_scipy.py`, `data/cutting_scipy.json`.

use mastwright_engine::workshop::cutting::{CuttingAsked, CuttingPlan, PieceAsked, STEPS, StockOffered, cut};
use serde_json::Value;

/// Lengths in millimetres, whatever the paper's unit; each as often as it says.
fn asked(pieces: &[(f64, u32)], stocks: &[(f64, Option<f64>)], kerf_mm: f64) -> CuttingAsked {
    CuttingAsked {
        pieces: pieces.iter().map(|&(mm, count)| PieceAsked { length_m: mm / 1000.0, count }).collect(),
        stocks: stocks.iter().map(|&(mm, price)| StockOffered { length_m: mm / 1000.0, price }).collect(),
        kerf_m: kerf_mm / 1000.0,
    }
}

/// Counted anew: every piece cut, no bar overfull.
fn held(asked: &CuttingAsked, plan: &CuttingPlan) {
    let mut open: Vec<i64> = asked.pieces.iter().map(|piece| i64::from(piece.count)).collect();
    for bar in &plan.bars {
        let count: u32 = bar.cuts.iter().map(|cut| cut.1).sum();
        let pieces = bar.cuts.iter().map(|&(at, n)| asked.pieces[at as usize].length_m * f64::from(n));
        let used = pieces.sum::<f64>() + f64::from(count - 1) * asked.kerf_m;
        assert!(used <= asked.stocks[bar.stock as usize].length_m + 1e-9);
        bar.cuts.iter().for_each(|&(at, n)| open[at as usize] -= i64::from(n * bar.bars));
    }
    assert!(open.iter().all(|&left| left == 0), "{open:?}");
}

fn bars(stock: f64, pieces: &[(f64, u32)]) -> u32 {
    let asked = asked(pieces, &[(stock, None)], 0.0);
    let plan = cut(&asked, STEPS).unwrap();
    held(&asked, &plan);
    assert!(plan.proven, "{} of at least {}, {} steps", plan.cost, plan.at_least, plan.steps);
    plan.buy[0]
}

fn one_each(lengths: &[u32]) -> Vec<(f64, u32)> {
    lengths.iter().map(|&length| (f64::from(length), 1)).collect()
}

#[test]
fn four_widths_take_453_rolls() {
    assert_eq!(bars(100.0, &[(45.0, 97), (36.0, 610), (31.0, 395), (14.0, 211)]), 453);
}

#[test]
fn thirteen_widths_take_73_rolls() {
    let widths = [
        (1380.0, 22),
        (1520.0, 25),
        (1560.0, 12),
        (1710.0, 14),
        (1820.0, 18),
        (1880.0, 18),
        (1930.0, 20),
        (2000.0, 10),
        (2050.0, 12),
        (2100.0, 14),
        (2140.0, 16),
        (2150.0, 18),
        (2200.0, 20),
    ];
    assert_eq!(bars(5600.0, &widths), 73);
}

/// Every bin is full to the last millimetre; the longest first takes 23.
#[test]
fn triplets_of_sixty_take_20_bins() {
    let pieces = [
        495, 474, 473, 472, 466, 450, 445, 444, 439, 430, 419, 414, 410, 395, 372, 370, 366, 366, 366, 363,
        361, 357, 355, 351, 350, 350, 347, 320, 315, 307, 303, 299, 298, 298, 292, 288, 287, 283, 275, 275,
        274, 273, 273, 272, 272, 271, 269, 269, 268, 263, 262, 261, 259, 258, 255, 254, 252, 252, 252, 251,
    ];
    assert_eq!(pieces.iter().sum::<u32>(), 20_000);
    assert_eq!(bars(1000.0, &one_each(&pieces)), 20);
}

/// The longest first takes 20, the fractions 17.41.
#[test]
fn fifty_pieces_take_18_bins() {
    let pieces = [
        395, 394, 394, 391, 390, 389, 388, 384, 383, 382, 380, 379, 376, 371, 368, 365, 360, 360, 354, 350,
        346, 346, 344, 342, 340, 335, 335, 333, 330, 330, 328, 327, 317, 316, 311, 310, 310, 306, 300, 300,
        297, 296, 295, 294, 294, 286, 285, 278, 275, 275,
    ];
    assert_eq!(pieces.iter().sum::<u32>(), 16_934);
    assert_eq!(bars(1000.0, &one_each(&pieces)), 18);
}

#[test]
fn the_small_one_takes_74() {
    assert_eq!(bars(22.0, &[(7.0, 110), (5.0, 120), (3.0, 80)]), 74);
}

/// 60 pieces over three stock lengths, with and without prices, with and without a saw cut.
#[test]
fn sixty_pieces_cost_what_a_general_solver_finds() {
    let document: Value = serde_json::from_str(include_str!("data/cutting_scipy.json")).unwrap();
    for instance in document["instances"].as_array().unwrap() {
        let pairs = |name: &str| -> Vec<(f64, f64)> {
            let rows = instance[name].as_array().unwrap().iter();
            rows.map(|row| (row[0].as_f64().unwrap(), row[1].as_f64().unwrap())).collect()
        };
        let priced = instance["priced"].as_bool().unwrap();
        let pieces: Vec<(f64, u32)> =
            pairs("pieces").into_iter().map(|(mm, count)| (mm, count as u32)).collect();
        assert_eq!(pieces.iter().map(|piece| piece.1).sum::<u32>(), 60);
        let stocks: Vec<(f64, Option<f64>)> =
            pairs("stocks").into_iter().map(|(mm, price)| (mm, priced.then_some(price))).collect();
        let asked = asked(&pieces, &stocks, instance["kerf"].as_f64().unwrap());
        let least = instance["least"].as_f64().unwrap() / if priced { 1.0 } else { 1000.0 };
        // Thirty-three lengths over bars whose lengths have no common step: not proven in 40 million steps, where the best plan
        // is the solver's and the bound 27 mm under it. What is told of it has to hold all the same.
        let hard = instance["name"] == "metric lengths";
        let plan = cut(&asked, if hard { STEPS / 100 } else { STEPS }).unwrap();
        held(&asked, &plan);
        if hard {
            assert!(
                plan.at_least <= least + 1e-6 && least <= plan.cost + 1e-6,
                "{} {}",
                plan.at_least,
                plan.cost
            );
            continue;
        }
        assert!(plan.proven, "{}: {} of at least {}", instance["name"], plan.cost, plan.at_least);
        assert!((plan.cost - least).abs() < 1e-6, "{}: {} for {least}", instance["name"], plan.cost);
    }
}
