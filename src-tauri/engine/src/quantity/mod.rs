//! Quantities as people read and write them: bearings, lengths with fractions of an inch, values with an
//! uncertainty; the units on the user's tape, and what is wrong with a field.

pub mod bearing;
pub mod convert;
pub mod entry;
pub mod estimate;
mod field;
pub mod format;
pub(crate) mod imperial;
pub mod range;
pub mod sold;
mod units;
pub mod visible;
pub(crate) mod whole;

pub use field::{FieldError, FieldErrors};
pub(crate) use field::{MOST_ERRORS, split_unit};
pub use units::{UnitSystem, Units};
