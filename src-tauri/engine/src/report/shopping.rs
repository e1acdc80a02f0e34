//! What to buy and how to cut it, in words.

use serde::Serialize;

use super::format;
use super::words::shopping as say;
use crate::exchange::csv;
use crate::job::Job;
use crate::quantity::{UnitSystem, Units};
use crate::workshop::cutting::CuttingPlan;
use crate::workshop::shopping::{
    Amount, CutLot, Item, Lot, LotMissing, LotPlan, ShoppingList, WorkStep, usual_lengths_m,
};

/// The lists, for people.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct ShoppingReport {
    pub headline: String,
    pub aisles: Vec<AisleText>,
    pub lots: Vec<CutLotText>,
    pub steps: Vec<WorkStepText>,
    /// What the stock lengths cost; empty where a price is missing.
    pub cost: String,
    pub not_here: String,
    /// Why what is bought whole is not on the cut list.
    pub not_cut: String,
    pub cautions: Vec<String>,
}

/// One part of the shop.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct AisleText {
    pub title: String,
    pub items: Vec<ItemText>,
}

/// A line of the list.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct ItemText {
    pub part: String,
    pub name: String,
    pub amount: String,
    pub why: String,
    pub missing: Vec<String>,
    pub done: bool,
}

/// How one material is cut.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct CutLotText {
    pub material: String,
    pub title: String,
    pub state: CutState,
    pub pieces: Vec<CutPieceText>,
    pub bars: Vec<BarText>,
    /// What to buy, as one says it at the counter; empty where nobody knows.
    pub buy: String,
    /// Whether it is proven, what it wastes; or what is wrong.
    pub says: Vec<String>,
    /// What it waits for.
    pub missing: Vec<String>,
    /// Lengths that are usual, to be entered by one tap.
    pub usual: Vec<UsualText>,
}

/// How it stands with a cutting plan.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum CutState {
    Proven,
    /// Stopped early: there may be a better one.
    Look,
    NotKnown,
    Stop,
}

/// Pieces that are alike.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct CutPieceText {
    pub part: String,
    pub name: String,
    pub length: String,
    pub interval: String,
    pub count: u32,
    pub done: bool,
}

/// Bars that are cut alike.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct BarText {
    pub title: String,
    pub cuts: Vec<BarCutText>,
    pub left: String,
    /// Of the bar's length.
    pub left_share: f64,
}

/// One piece of a bar, from its one end.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct BarCutText {
    pub name: String,
    pub length: String,
    /// Where its end is marked, from the bar's end.
    pub mark: String,
    /// Of the bar's length.
    pub share: f64,
}

/// A usual length.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct UsualText {
    pub length_m: f64,
    pub label: String,
}

/// A step of the work in the shop.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct WorkStepText {
    pub title: String,
    pub how: String,
    /// Its day, or how long after the beginning.
    pub when: String,
    pub waits: String,
}

/// Puts the lists into words.
pub fn shopping(job: &Job, list: &ShoppingList) -> ShoppingReport {
    let units = job.units;
    let ticked = list.items.iter().filter(|item| item.done).count();
    let open = list.items.iter().filter(|item| !item.missing.is_empty()).count();
    let mut aisles: Vec<(crate::workshop::shopping::Aisle, AisleText)> = Vec::new();
    for item in &list.items {
        if aisles.last().is_none_or(|(aisle, _)| *aisle != item.aisle) {
            aisles.push((
                item.aisle,
                AisleText { title: say::aisle(item.aisle).to_owned(), items: Vec::new() },
            ));
        }
        if let Some((_, aisle)) = aisles.last_mut() {
            aisle.items.push(item_text(item, units));
        }
    }
    ShoppingReport {
        headline: say::headline(ticked, list.items.len(), open),
        aisles: aisles.into_iter().map(|(_, text)| text).collect(),
        lots: list.lots.iter().map(|lot| lot_text(job, lot)).collect(),
        steps: list.steps.iter().map(step_text).collect(),
        cost: list.stock_cost.filter(|_| !list.lots.is_empty()).map(say::cost).unwrap_or_default(),
        not_here: say::NOT_HERE.to_owned(),
        not_cut: say::NOT_CUT.to_owned(),
        cautions: cautions(units),
    }
}

fn cautions(units: Units) -> Vec<String> {
    let fractions = (units.system == UnitSystem::Imperial).then(|| say::FRACTIONS.to_owned());
    say::CAUTIONS.map(str::to_owned).into_iter().chain(fractions).collect()
}

fn item_text(item: &Item, units: Units) -> ItemText {
    ItemText {
        part: item.part.clone(),
        name: say::ware(&item.ware, units),
        amount: say::amount(item.amount, units),
        why: say::why(item.why).to_owned(),
        missing: item.missing.iter().map(|missing| say::item_missing(*missing).to_owned()).collect(),
        done: item.done,
    }
}

fn lot_text(job: &Job, cut: &CutLot) -> CutLotText {
    let units = job.units;
    let lot = &cut.lot;
    let length = |m: f64| format::length(m, units);
    let pieces = lot.pieces.iter().map(|piece| CutPieceText {
        part: piece.part.clone(),
        name: say::piece(&piece.what),
        length: piece.length_m.map_or_else(|| super::NOT_MEASURED.to_owned(), length),
        interval: format::length_interval(piece.half_width_95_m, units),
        count: piece.count,
        done: job.workshop.is_done(&piece.part),
    });
    let usual = usual_lengths_m(&lot.of, units.system).into_iter();
    let mut text = CutLotText {
        material: lot.material.clone(),
        title: say::material(&lot.of, units),
        state: CutState::NotKnown,
        pieces: pieces.collect(),
        bars: Vec::new(),
        buy: String::new(),
        says: lot.note.iter().map(|note| say::lot_note(note, units)).collect(),
        missing: Vec::new(),
        usual: usual
            .map(|length_m| UsualText { length_m, label: format::round_length(length_m, units.system) })
            .collect(),
    };
    let name = |piece: u32| {
        lot.pieces
            .get(piece as usize)
            .map_or_else(String::new, |piece| format::capital(&say::piece(&piece.what)))
    };
    match &cut.plan {
        LotPlan::NotKnown { missing } => {
            text.missing = missing.iter().map(|it| missing_text(it, name)).collect()
        }
        LotPlan::TooLong { piece, length_m, longest_m, usual_m } => {
            text.state = CutState::Stop;
            let usual = usual_m.map(|usual| format::round_length(usual, units.system));
            text.says =
                vec![say::too_long(&name(*piece), &length(*length_m), &length(*longest_m), usual.as_deref())];
        }
        LotPlan::TooMany { given, most } => {
            text.state = CutState::Stop;
            text.says = vec![say::too_many(*given, *most)];
        }
        LotPlan::Planned { stocks, saw_cut_m, plan } => {
            planned(&mut text, lot, stocks, *saw_cut_m, plan, units)
        }
    }
    text
}

fn missing_text(missing: &LotMissing, name: impl Fn(u32) -> String) -> String {
    match missing {
        LotMissing::Stocks => say::ENTER_STOCKS.to_owned(),
        LotMissing::SawCut => say::ENTER_SAW_CUT.to_owned(),
        LotMissing::Length { piece } => say::enter_length(&name(*piece)),
    }
}

fn planned(
    text: &mut CutLotText,
    lot: &Lot,
    stocks: &[(f64, Option<f64>)],
    saw_cut_m: f64,
    plan: &CuttingPlan,
    units: Units,
) {
    let length = |m: f64| format::length(m, units);
    text.state = if plan.proven { CutState::Proven } else { CutState::Look };
    let bought = stocks.iter().zip(&plan.buy).filter(|(_, count)| **count > 0);
    let bought: Vec<String> =
        bought.map(|(&(m, _), &count)| say::bars(count, &format::round_length(m, units.system))).collect();
    text.buy = bought.join(", ");
    for bar in &plan.bars {
        let Some(&(bar_m, _)) = stocks.get(bar.stock as usize) else { continue };
        let (mut cuts, mut from_m) = (Vec::new(), 0.0);
        for &(piece, count) in &bar.cuts {
            let Some(of) = lot.pieces.get(piece as usize) else { continue };
            let piece_m = of.length_m.unwrap_or(0.0);
            for _ in 0..count {
                cuts.push(BarCutText {
                    name: say::piece(&of.what),
                    length: length(piece_m),
                    mark: length(from_m + piece_m),
                    share: piece_m / bar_m,
                });
                from_m += piece_m + saw_cut_m;
            }
        }
        text.bars.push(BarText {
            title: say::bars(bar.bars, &format::round_length(bar_m, units.system)),
            cuts,
            left: say::left(&length(bar.left_m)),
            left_share: (bar.left_m / bar_m).clamp(0.0, 1.0),
        });
    }
    let least = if plan.priced { format!("{:.2}", plan.at_least) } else { length(plan.at_least) };
    text.says.push(if plan.proven { say::proven(plan.priced).to_owned() } else { say::bounded(&least) });
    text.says.push(say::waste(&length(plan.bought_m), &length(plan.sawn_m), &length(plan.left_m)));
    let division = match units.system {
        UnitSystem::Metric => "1 mm".to_owned(),
        UnitSystem::Imperial => format!("1/{} in", units.inch_fraction),
    };
    text.says.push(say::marked(&division));
}

fn step_text(step: &WorkStep) -> WorkStepText {
    let (title, how) = say::task(step.task);
    let when = step
        .on
        .map_or_else(|| say::after_days(step.after_days), |day| day.format("%A %-d %B %Y").to_string());
    WorkStepText { title: title.to_owned(), how: how.to_owned(), when, waits: say::waits(step.waits_days) }
}

/// The list as comma-separated values, a row a thing, in the user's units.
///
/// # References
/// RFC 4180, from memory.
pub fn shopping_csv(report: &ShoppingReport, list: &ShoppingList, units: Units) -> String {
    let head = say::COLUMNS_CSV.map(str::to_owned).to_vec();
    let texts = report.aisles.iter().flat_map(|aisle| aisle.items.iter().map(move |item| (aisle, item)));
    let rows = texts.zip(&list.items).map(|((aisle, text), item)| {
        let (count, length) = match item.amount {
            Amount::Count { count } => (count.to_string(), String::new()),
            Amount::Length { length_m } => (String::new(), format::length(length_m, units)),
            Amount::NotKnown => (String::new(), String::new()),
        };
        let in_the_cart = if text.done { "x".to_owned() } else { String::new() };
        let missing = text.missing.join(" ");
        vec![aisle.title.clone(), text.name.clone(), count, length, text.why.clone(), missing, in_the_cart]
    });
    csv::of_rows(std::iter::once(head).chain(rows))
}
