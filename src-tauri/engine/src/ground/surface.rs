//! The triangulated surface between spot heights.

/// Triangles between spot heights with an index for fast lookup.
#[derive(Debug, Clone)]
pub struct Surface {}

impl Surface {
    /// Height at a point, none outside the triangles.
    pub fn height(&self, _at: [f64; 2]) -> Option<f64> {
        None
    }

    /// Slope at a point, none outside the triangles.
    pub fn gradient(&self, _at: [f64; 2]) -> Option<[f64; 2]> {
        None
    }
}
