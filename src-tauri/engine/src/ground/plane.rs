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

    /// Variance of factors · (height_0, g_E, g_N).
    pub fn variance(&self, factors: [f64; 3]) -> f64 {
        let row = |c: &[f64; 3]| c[0] * factors[0] + c[1] * factors[1] + c[2] * factors[2];
        let [first, second, third] = &self.covariance;
        factors[0] * row(first) + factors[1] * row(second) + factors[2] * row(third)
    }
}
