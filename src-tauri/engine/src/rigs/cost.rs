//! What the tubes of an offered mast cost, by the stock lengths and prices that the job has. Nothing is guessed: a size without a
//! price is named.

use crate::job::{Job, Rig, Section};
use crate::workshop::cutting::{CuttingAsked, PieceAsked, STEPS_ON_A_PAGE, StockOffered, cut};
use crate::workshop::shopping::{ListedSize, tube_material};

/// A disc's cut; common practice (no source).
const WIDE_CUT_MM: f64 = 5.0;

/// The sum, or what it waits for.
pub(super) struct TubesCost {
    pub sum: Option<f64>,
    pub open: Vec<ListedSize>,
}

/// The cheapest bars for the tubes of each size.
pub(super) fn of_tubes(job: &Job, rig: &Rig) -> TubesCost {
    let mut by_size: Vec<(&Section, Vec<f64>)> = Vec::new();
    for tube in &rig.tubes {
        match by_size.iter_mut().find(|(section, _)| **section == tube.section) {
            Some((_, lengths_m)) => lengths_m.push(tube.length_m),
            None => by_size.push((&tube.section, vec![tube.length_m])),
        }
    }
    let (mut sum, mut open) = (0.0, Vec::new());
    for (section, lengths_m) in by_size {
        match (of_size(job, section, &lengths_m), section) {
            (Some(cost), _) => sum += cost,
            (None, Section::Listed { table, size }) => {
                open.push(ListedSize { table: *table, size: size.clone() });
            }
            // Only listed ones are offered.
            (None, Section::Measured { .. }) => {}
        }
    }
    TubesCost { sum: open.is_empty().then_some(sum), open }
}

/// None where a length that is long enough has no price.
fn of_size(job: &Job, section: &Section, lengths_m: &[f64]) -> Option<f64> {
    let (material, _) = tube_material(section);
    let offered = job.workshop.stocks.iter().filter(|stock| stock.material == material);
    let stocks: Vec<StockOffered> = offered
        .filter(|stock| stock.price.is_some())
        .map(|stock| StockOffered { length_m: stock.length_m, price: stock.price })
        .collect();
    let asked = CuttingAsked {
        pieces: lengths_m.iter().map(|&length_m| PieceAsked { length_m, count: 1 }).collect(),
        stocks,
        // Where nobody has measured it a wide one: more bars rather than too few.
        kerf_m: job.workshop.saw_cut_mm.unwrap_or(WIDE_CUT_MM) / 1000.0,
    };
    cut(&asked, STEPS_ON_A_PAGE).ok().filter(|plan| plan.priced).map(|plan| plan.cost)
}
