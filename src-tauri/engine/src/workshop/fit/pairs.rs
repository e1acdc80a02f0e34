//! What of the tables slides in a tube.

use super::joint::class;
use super::{FitClass, ListedFit, TubeDiameters};
use crate::quantity::UnitSystem;
use crate::tube::{DiameterRange, TubeTable, sizes, tolerance::tolerance};

/// No more of them are named.
const MOST: usize = 6;

/// Listed tubes that slide in a bore whatever both measure within their limits, the least play first; none where the bore is not
/// known. Only tubes whose outside is known are named.
pub fn go_in(outer: &TubeDiameters, system: UnitSystem) -> Vec<ListedFit> {
    let Some(bore) = outer.bore else { return Vec::new() };
    let all =
        TubeTable::ALL.into_iter().flat_map(|table| sizes(table).iter().map(move |row| (table, row.size)));
    let mut found: Vec<ListedFit> = all
        .filter_map(|(table, size)| {
            let outside = tolerance(table, size)?.outside?;
            let play = DiameterRange {
                least_mm: bore.least_mm - outside.largest_mm,
                largest_mm: bore.largest_mm - outside.least_mm,
            };
            let class = class(play.least_mm, Some(play), system);
            let slides = matches!(class, FitClass::Tight | FitClass::Sliding | FitClass::Loose);
            slides.then(|| ListedFit { table, size: size.to_owned(), play, class })
        })
        .collect();
    found.sort_by(|a, b| a.play.least_mm.total_cmp(&b.play.least_mm));
    found.truncate(MOST);
    found
}

/// The one with the least play.
pub fn thickest(fits: &[ListedFit]) -> Option<&ListedFit> {
    fits.first()
}
