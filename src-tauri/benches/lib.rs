//! Measurements of the engine; `cargo xtask bench` runs them. Here: what is measured on both sides without an operation of
//! the api.

use mastwright_engine::workshop::cutting::{CuttingAsked, CuttingPlan, PieceAsked, STEPS, StockOffered, cut};
use serde_json::Value;
use wasm_bindgen::prelude::wasm_bindgen;

/// Sixty pieces over three stock lengths, five times, with the least cost that a general solver found.
const SIXTY: &str = include_str!("../../tests/published/data/cutting_scipy.json");

/// Which of them are measured: the four that are proven. The fifth runs to the end of its steps.
pub const SIXTY_PIECES: [(&str, &str); 4] = [
    ("cut_sixty_few_kinds", "metric, few kinds"),
    ("cut_sixty_without_saw_cut", "no saw cut, tight"),
    ("cut_sixty_at_metric_prices", "metric prices"),
    ("cut_sixty_of_half_inches", "half inches, prices"),
];

/// What is asked by the row of that name; none where there is no such row.
pub fn sixty_pieces(row: &str) -> Option<CuttingAsked> {
    let (_, name) = SIXTY_PIECES.iter().find(|(of, _)| *of == row)?;
    let document: Value = serde_json::from_str(SIXTY).ok()?;
    let instance = document["instances"].as_array()?.iter().find(|it| it["name"] == *name)?;
    let priced = instance["priced"].as_bool()?;
    let pairs = |of: &str| -> Option<Vec<(f64, f64)>> {
        instance[of].as_array()?.iter().map(|row| Some((row[0].as_f64()?, row[1].as_f64()?))).collect()
    };
    let piece = |(mm, count): (f64, f64)| PieceAsked { length_m: mm / 1000.0, count: count as u32 };
    let stock =
        |(mm, price): (f64, f64)| StockOffered { length_m: mm / 1000.0, price: priced.then_some(price) };
    Some(CuttingAsked {
        pieces: pairs("pieces")?.into_iter().map(piece).collect(),
        stocks: pairs("stocks")?.into_iter().map(stock).collect(),
        kerf_m: instance["kerf"].as_f64()? / 1000.0,
    })
}

/// Their plan, where it is proven.
pub fn proven(asked: &CuttingAsked) -> Option<CuttingPlan> {
    cut(asked, STEPS).ok().filter(|plan| plan.proven)
}

/// Whether the row's plan is proven, for `in_wasm.mjs`.
#[wasm_bindgen]
pub fn cut_sixty(row: &str) -> bool {
    sixty_pieces(row).is_some_and(|asked| proven(&asked).is_some())
}

/// The rows that [`cut_sixty`] knows.
#[wasm_bindgen]
pub fn sixty_rows() -> Vec<String> {
    SIXTY_PIECES.iter().map(|(row, _)| (*row).to_owned()).collect()
}
