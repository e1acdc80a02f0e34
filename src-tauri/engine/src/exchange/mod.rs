//! Points in and out of open formats: CSV and GeoJSON.

pub mod calendar;
pub mod csv;
pub mod geojson;
mod in_units;
pub mod log_csv;
pub mod tangent;
