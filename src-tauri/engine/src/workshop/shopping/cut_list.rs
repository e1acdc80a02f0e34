//! One material's pieces over the lengths that the person entered.

use serde::Serialize;

use super::pieces::{Lot, Material};
use crate::job::{Job, StockLength};
use crate::quantity::UnitSystem;
use crate::quantity::convert::FOOT_M;
use crate::workshop::cutting::{self, CuttingAsked, CuttingError, CuttingPlan, PieceAsked, StockOffered};

/// A lot with how it is cut.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct CutLot {
    pub lot: Lot,
    pub plan: LotPlan,
}

/// How a lot is cut, or why nobody can say it.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(tag = "state", rename_all = "snake_case")]
pub enum LotPlan {
    NotKnown {
        missing: Vec<LotMissing>,
    },
    /// A piece, by its place in the lot, is longer than every length entered; the shortest usual length that holds it.
    TooLong {
        piece: u32,
        length_m: f64,
        longest_m: f64,
        usual_m: Option<f64>,
    },
    /// More than can be planned here.
    TooMany {
        given: u32,
        most: u32,
    },
    Planned {
        /// As the plan counts them, each with its price.
        stocks: Vec<(f64, Option<f64>)>,
        saw_cut_m: f64,
        plan: CuttingPlan,
    },
}

/// What a cutting plan waits for.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(tag = "kind", rename_all = "snake_case")]
pub enum LotMissing {
    /// Nobody has entered a length that is sold.
    Stocks,
    SawCut,
    /// A piece by its place in the lot.
    Length {
        piece: u32,
    },
}

/// Lengths in which a material is usually sold: common practice, offered to be entered, never taken for granted.
pub fn usual_lengths_m(of: &Material, system: UnitSystem) -> Vec<f64> {
    let feet = |lengths: &[f64]| lengths.iter().map(|feet| feet * FOOT_M).collect();
    match (of, system) {
        (Material::Timber { .. } | Material::Block { .. }, UnitSystem::Imperial) => {
            feet(&[8.0, 10.0, 12.0, 16.0])
        }
        (Material::Timber { .. } | Material::Block { .. }, UnitSystem::Metric) => vec![3.0, 4.0, 5.0, 6.0],
        (
            Material::Tube { .. }
            | Material::Ring { .. }
            | Material::Rod { .. }
            | Material::SpacerPipe { .. },
            UnitSystem::Imperial,
        ) => feet(&[10.0, 20.0]),
        (
            Material::Tube { .. }
            | Material::Ring { .. }
            | Material::Rod { .. }
            | Material::SpacerPipe { .. },
            UnitSystem::Metric,
        ) => vec![3.0, 6.0],
        (Material::DiscBoard { .. }, UnitSystem::Imperial) => feet(&[2.0, 4.0, 8.0]),
        (Material::DiscBoard { .. }, UnitSystem::Metric) => vec![0.6, 1.2, 2.5],
        (Material::Stake { .. }, UnitSystem::Imperial) => feet(&[2.0, 4.0, 10.0, 20.0]),
        (Material::Stake { .. }, UnitSystem::Metric) => vec![1.0, 2.0, 6.0],
        (Material::Rope { .. }, UnitSystem::Imperial) => feet(&[50.0, 100.0, 200.0]),
        (Material::Rope { .. }, UnitSystem::Metric) => vec![20.0, 50.0, 100.0],
    }
}

pub(super) fn plan(job: &Job, lot: Lot) -> CutLot {
    let plan = planned(job, &lot);
    CutLot { lot, plan }
}

fn planned(job: &Job, lot: &Lot) -> LotPlan {
    let offered: Vec<&StockLength> =
        job.workshop.stocks.iter().filter(|stock| stock.material == lot.material).collect();
    // A knife takes nothing off a rope.
    let saw_cut_mm =
        if matches!(lot.of, Material::Rope { .. }) { Some(0.0) } else { job.workshop.saw_cut_mm };
    let mut missing = Vec::new();
    if offered.is_empty() {
        missing.push(LotMissing::Stocks);
    }
    if saw_cut_mm.is_none() {
        missing.push(LotMissing::SawCut);
    }
    let unknown = (0..).zip(&lot.pieces).filter(|(_, piece)| piece.length_m.is_none());
    missing.extend(unknown.map(|(piece, _)| LotMissing::Length { piece }));
    let (Some(saw_cut_mm), true) = (saw_cut_mm, missing.is_empty()) else {
        return LotPlan::NotKnown { missing };
    };
    let asked = CuttingAsked {
        pieces: lot
            .pieces
            .iter()
            .map(|piece| PieceAsked { length_m: piece.length_m.unwrap_or(0.0), count: piece.count })
            .collect(),
        stocks: offered
            .iter()
            .map(|stock| StockOffered { length_m: stock.length_m, price: stock.price })
            .collect(),
        kerf_m: saw_cut_mm / 1000.0,
    };
    match cutting::cut(&asked, cutting::STEPS_ON_A_PAGE) {
        Ok(plan) => LotPlan::Planned {
            stocks: asked.stocks.iter().map(|stock| (stock.length_m, stock.price)).collect(),
            saw_cut_m: asked.kerf_m,
            plan,
        },
        Err(CuttingError::TooLong { piece, length_m, longest_m }) => LotPlan::TooLong {
            piece: piece as u32,
            length_m,
            longest_m,
            usual_m: usual_lengths_m(&lot.of, job.units.system).into_iter().find(|usual| *usual >= length_m),
        },
        Err(CuttingError::TooMany { given, most }) => {
            LotPlan::TooMany { given: u32::try_from(given).unwrap_or(u32::MAX), most: most as u32 }
        }
        Err(CuttingError::NoStock) => LotPlan::NotKnown { missing: vec![LotMissing::Stocks] },
        Err(CuttingError::NotALength { piece }) => LotPlan::NotKnown {
            missing: vec![
                piece.map_or(LotMissing::Stocks, |piece| LotMissing::Length { piece: piece as u32 }),
            ],
        },
    }
}
