//! Points in and out of open formats: CSV and GeoJSON.

pub mod csv;
pub mod geojson;
pub mod log_csv;
pub mod tangent;
