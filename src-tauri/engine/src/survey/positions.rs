//! Where the marks and every point fixed from them lie in the site frame, and how sure that is.

/// A point in plan with its covariance.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Located {
    /// East and north in metres.
    pub at: [f64; 2],
    /// Covariance in m², rows and columns east, north.
    pub covariance: [[f64; 2]; 2],
}
