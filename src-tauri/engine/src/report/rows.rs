//! Short ways to write a row: what its value is, and the words for it made in one go, so that neither can leave the
//! other behind.

use serde::{Deserialize, Serialize};

use super::{Label, Row, RowSource, format, words};
use crate::finding::Quantity;
use crate::quantity::Units;
use crate::quantity::estimate::{COVERAGE_95, Estimate};
use crate::source::{Confidence, SourceKey};

/// What a row's value is, for a face that does more with it than show its words.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
#[serde(tag = "kind", rename_all = "snake_case")]
pub enum Cell {
    /// Words alone.
    Words,
    /// Words of which a face may set the first part large.
    Parts {
        lead: String,
        rest: String,
    },
    Quantity {
        quantity: Quantity,
        half_width_95: Option<f64>,
    },
    /// Clockwise from north.
    Bearing {
        bearing_deg: f64,
    },
    Mass {
        mass_kg: f64,
    },
    Frequency {
        frequency_hz: f64,
    },
    Count {
        count: u32,
    },
    Answer {
        answer: Answer,
    },
}

/// What the user said to a question.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum Answer {
    Yes,
    No,
    NotSure,
}

/// A value with its words.
pub(super) struct Said {
    pub(super) words: String,
    pub(super) interval: String,
    pub(super) cell: Cell,
}

impl<T: Into<String>> From<T> for Said {
    fn from(words: T) -> Self {
        said(words.into(), Cell::Words)
    }
}

fn said(words: String, cell: Cell) -> Said {
    Said { words, interval: String::new(), cell }
}

fn quantity(quantity: Quantity, units: Units) -> Said {
    said(format::quantity(quantity, units), Cell::Quantity { quantity, half_width_95: None })
}

pub(super) fn length(value: f64, units: Units) -> Said {
    quantity(Quantity::LengthM { value }, units)
}

pub(super) fn angle(value: f64, units: Units) -> Said {
    quantity(Quantity::AngleDeg { value }, units)
}

pub(super) fn force(value: f64, units: Units) -> Said {
    quantity(Quantity::ForceN { value }, units)
}

/// A length in words of its own.
pub(super) fn length_as(words: String, value: f64) -> Said {
    said(words, Cell::Quantity { quantity: Quantity::LengthM { value }, half_width_95: None })
}

/// A length with its `± …`; none where it is not known.
pub(super) fn length_95(of: &Estimate, units: Units) -> Said {
    Said { interval: format::length_interval(of.half_width_95, units), ..length(of.value, units) }
        .within(of.half_width_95)
}

/// An angle with its `± …`.
pub(super) fn angle_95(of: &Estimate, units: Units) -> Said {
    Said { interval: format::angle_interval(of.half_width_95, units), ..angle(of.value, units) }
        .within(of.half_width_95)
}

/// A length with its standard uncertainty, where that was said.
pub(super) fn length_of(value: f64, sigma_m: Option<f64>, units: Units) -> Said {
    length(value, units).within(sigma_m.map_or(f64::NAN, |sigma_m| COVERAGE_95 * sigma_m))
}

/// An angle with its standard uncertainty, where that was said.
pub(super) fn angle_of(value: f64, sigma_deg: Option<f64>, units: Units) -> Said {
    angle(value, units).within(sigma_deg.map_or(f64::NAN, |sigma_deg| COVERAGE_95 * sigma_deg))
}

pub(super) fn bearing(bearing_deg: f64) -> Said {
    said(format::bearing(bearing_deg), Cell::Bearing { bearing_deg })
}

pub(super) fn mass(mass_kg: f64, units: Units) -> Said {
    said(format::mass(mass_kg, units), Cell::Mass { mass_kg })
}

pub(super) fn frequency(frequency_hz: f64) -> Said {
    said(format::frequency(frequency_hz), Cell::Frequency { frequency_hz })
}

pub(super) fn count(count: usize) -> Said {
    said(count.to_string(), Cell::Count { count: count as u32 })
}

pub(super) fn answer(answer: Answer) -> Said {
    let words = match answer {
        Answer::Yes => "yes",
        Answer::No => "no",
        Answer::NotSure => "not sure",
    };
    said(words.into(), Cell::Answer { answer })
}

/// What is said first, and more of it after a mark such as `: `.
pub(super) fn parts(lead: String, mark: &str, rest: String) -> Said {
    let words = if rest.is_empty() { lead.clone() } else { format!("{lead}{mark}{rest}") };
    said(words, Cell::Parts { lead, rest })
}

impl Said {
    fn within(self, half_width: f64) -> Self {
        let known = (half_width.is_finite() && half_width > 0.0).then_some(half_width);
        let cell = match self.cell {
            Cell::Quantity { quantity, .. } => Cell::Quantity { quantity, half_width_95: known },
            cell => cell,
        };
        Self { cell, ..self }
    }
}

/// A row by its key, which gives its id and its name.
pub(super) fn row(key: Label, value: impl Into<Said>) -> Row {
    let label = words::label(&key);
    named(key, label, value)
}

/// A row whose name depends on more than its key.
pub(super) fn named(key: Label, label: String, value: impl Into<Said>) -> Row {
    let Said { words, interval, cell } = value.into();
    Row { id: key.id(), key, label, value: words, interval, cell, source: None }
}

/// A row with words of its own and `± …`.
pub(super) fn with_interval(key: Label, value: impl Into<Said>, interval: String) -> Row {
    Row { interval, ..row(key, value) }
}

/// The row with whose rule stands behind it.
pub(super) fn sourced(row: Row, key: SourceKey, confidence: Confidence) -> Row {
    let citation = key.source().citation.to_owned();
    Row { source: Some(RowSource { citation, confidence, conditions: String::new() }), ..row }
}

/// The row with what must hold for its value to be true.
pub(super) fn on_condition(row: Row, conditions: String) -> Row {
    Row { source: row.source.map(|source| RowSource { conditions, ..source }), ..row }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::UnitSystem;

    const METRIC: Units = Units { system: UnitSystem::Metric, inch_fraction: 16 };

    #[test]
    fn the_words_in_two_parts_are_the_words_as_a_whole() {
        let of = |rest: &str| row(Label::ToChange, parts("helps much".into(), ": ", rest.into()));
        assert_eq!(of("40 mph").value, "helps much: 40 mph");
        assert_eq!(of("40 mph").cell, Cell::Parts { lead: "helps much".into(), rest: "40 mph".into() });
        assert_eq!(of("").value, "helps much");
    }

    #[test]
    fn a_quantity_stands_beside_its_words_with_its_interval() {
        let row =
            row(Label::GapMeasured, length_95(&Estimate { value: 0.151, half_width_95: 0.006 }, METRIC));
        assert_eq!((row.value.as_str(), row.interval.as_str()), ("151 mm", "± 6 mm"));
        let quantity = Quantity::LengthM { value: 0.151 };
        assert_eq!(row.cell, Cell::Quantity { quantity, half_width_95: Some(0.006) });
        // Not known is no number.
        let unknown = Estimate { value: 0.151, half_width_95: f64::INFINITY };
        let row = super::row(Label::GapMeasured, length_95(&unknown, METRIC));
        assert_eq!((row.interval.as_str(), row.cell), ("", Cell::Quantity { quantity, half_width_95: None }));
    }
}
