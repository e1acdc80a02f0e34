//! Quantities as people read and write them: bearings, lengths with fractions of an inch, values with an
//! uncertainty.

pub mod bearing;
pub mod convert;
pub mod entry;
pub mod estimate;
pub mod show;
pub mod visible;
