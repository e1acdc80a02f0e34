//! Whole numbers, which some writers of JSON give a decimal point: `4.0` is the integer 4 by JSON Schema
//! draft 2020-12, clause 4.2.1 of the core text.

use serde::de::{Deserialize, Deserializer, Error};

/// Reads a whole number of at most 32 bits.
pub(super) fn read<'de, D: Deserializer<'de>, T: TryFrom<u32>>(deserializer: D) -> Result<T, D::Error> {
    let number = f64::deserialize(deserializer)?;
    let in_range = number.fract() == 0.0 && (0.0..=f64::from(u32::MAX)).contains(&number);
    let whole = in_range.then_some(number as u32).and_then(|whole| T::try_from(whole).ok());
    whole.ok_or_else(|| D::Error::custom("not a whole number of the size that fits here"))
}
