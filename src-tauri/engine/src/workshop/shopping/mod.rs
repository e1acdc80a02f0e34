//! What to buy and how to cut it: [`list()`] takes a job as planned and tells every piece, the stock lengths that give them for
//! the least, everything else that is bought, aisle by aisle, and the steps that need a night to dry.

mod cut_list;
mod items;
mod pieces;
mod steps;

pub use cut_list::{CutLot, LotMissing, LotPlan, usual_lengths_m};
pub use items::{Aisle, Amount, Item, ItemMissing, Ware, Why};
pub use pieces::{
    CutPiece, ListedSize, Lot, LotNote, Material, Piece, lots, marked_m, ring_length_m, tube_material,
};
pub use steps::{WorkStep, WorkTask};

use chrono::NaiveDate;
use serde::Serialize;

use crate::job::Job;
use crate::plan::Computed;
use crate::workshop::BenchWork;

/// Everything to buy and to cut.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct ShoppingList {
    pub lots: Vec<CutLot>,
    /// Aisle by aisle.
    pub items: Vec<Item>,
    pub steps: Vec<WorkStep>,
    /// What the stock lengths cost together; none where a price or a plan is missing.
    pub stock_cost: Option<f64>,
    /// Nothing is missing, nothing too long, and every cutting plan is proven.
    pub complete: bool,
}

/// Lists it, `bench` being what is made of it. `begin` is the day on which the work in the shop begins; none where nobody has said it.
pub fn list(job: &Job, computed: &Computed, bench: &BenchWork, begin: Option<NaiveDate>) -> ShoppingList {
    let lots: Vec<CutLot> =
        lots(job, computed, bench).into_iter().map(|lot| cut_list::plan(job, lot)).collect();
    let items = items::items(job, computed, bench, &lots);
    let cost = |lot: &CutLot| match &lot.plan {
        LotPlan::Planned { plan, .. } if plan.priced => Some(plan.cost),
        _ => None,
    };
    let stock_cost = lots.iter().map(cost).sum();
    let proven = |lot: &CutLot| matches!(&lot.plan, LotPlan::Planned { plan, .. } if plan.proven);
    let complete = lots.iter().all(proven) && items.iter().all(|item| item.missing.is_empty());
    let steps = steps::steps(job, &items, begin);
    ShoppingList { steps, lots, items, stock_cost, complete }
}
