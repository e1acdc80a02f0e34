//! Weighted linear least squares with covariance.
