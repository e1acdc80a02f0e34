//! A point of a walked line in a few words.

use super::format;
use crate::quantity::Units;
use crate::survey::walk::Walked;

/// Half of a 95 % interval in sigmas. Source: GUM 2008, table G.2.
const COVERAGE_95: f64 = 1.96;

/// How far out and how high, as `4.0 m out: 320 mm down ± 20 mm`.
pub fn walked(point: &Walked, units: Units) -> String {
    let interval = format::length_interval(COVERAGE_95 * point.sigma_m, units);
    let height = format::up_or_down(point.height_m, units);
    format!("{} out: {height} {interval}", format::length_short(point.out_m, units)).trim_end().to_owned()
}
