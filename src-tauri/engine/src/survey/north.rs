//! From a bearing as read to a true bearing.

use crate::quantity::bearing;

/// What to add to a bearing as read to have it from true north.
#[derive(Debug, Clone, PartialEq)]
pub struct NorthCorrection {
    pub add_to_reading_deg: f64,
    /// Standard uncertainty of the correction; it turns the whole yard at once.
    pub sigma_deg: f64,
    /// In words: from what the correction came.
    pub how: String,
}

impl NorthCorrection {
    /// The true bearing of a bearing as read, in [0, 360).
    pub fn true_from_reading(&self, reading_deg: f64) -> f64 {
        bearing::wrap_360(reading_deg + self.add_to_reading_deg)
    }

    /// What the compass or baseline shows for a true bearing, in [0, 360).
    pub fn reading_from_true(&self, true_deg: f64) -> f64 {
        bearing::wrap_360(true_deg - self.add_to_reading_deg)
    }
}
