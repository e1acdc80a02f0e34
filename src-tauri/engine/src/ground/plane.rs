//! The ground plane and its fit to readings.

/// z = height_0 + g_E·x + g_N·y with the covariance of (height_0, g_E, g_N).
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Plane {
    pub height_0_m: f64,
    pub gradient: [f64; 2],
    pub covariance: [[f64; 3]; 3],
}

impl Plane {
    /// Height in metres at (east, north).
    pub fn height(&self, at: [f64; 2]) -> f64 {
        self.height_0_m + self.gradient[0] * at[0] + self.gradient[1] * at[1]
    }
}
