//! Whole numbers, which some writers of JSON give a decimal point: `4.0` is the integer 4 by JSON Schema
//! draft 2020-12, clause 4.2.1 of the core text.

use serde::de::{Deserialize, Deserializer, Error};

/// Reads a whole number of at most 32 bits.
pub(crate) fn read<'de, D: Deserializer<'de>, T: TryFrom<u32>>(deserializer: D) -> Result<T, D::Error> {
    whole(f64::deserialize(deserializer)?).ok_or_else(not_whole)
}

/// The same where there may be none.
pub(crate) fn read_option<'de, D: Deserializer<'de>, T: TryFrom<u32>>(
    deserializer: D,
) -> Result<Option<T>, D::Error> {
    let number = Option::<f64>::deserialize(deserializer)?;
    number.map(|number| whole(number).ok_or_else(not_whole)).transpose()
}

fn whole<T: TryFrom<u32>>(number: f64) -> Option<T> {
    let in_range = number.fract() == 0.0 && (0.0..=f64::from(u32::MAX)).contains(&number);
    in_range.then_some(number as u32).and_then(|whole| T::try_from(whole).ok())
}

fn not_whole<E: Error>() -> E {
    E::custom("not a whole number of the size that fits here")
}
