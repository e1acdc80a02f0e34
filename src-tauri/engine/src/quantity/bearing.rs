//! Bearings: degrees clockwise from true north, in [0, 360).

use crate::numerics::real::{atan2_deg, cos_deg, sin_deg};

/// The bearing brought into [0, 360).
pub fn wrap_360(bearing_deg: f64) -> f64 {
    let wrapped = bearing_deg.rem_euclid(360.0);
    // rem_euclid of a tiny negative number rounds up to 360 itself.
    if wrapped >= 360.0 { 0.0 } else { wrapped }
}

/// The signed turn from one bearing to another, in (−180, 180], clockwise positive.
pub fn turn_deg(from_deg: f64, to_deg: f64) -> f64 {
    let turn = wrap_360(to_deg - from_deg);
    if turn > 180.0 { turn - 360.0 } else { turn }
}

/// The unit vector (east, north) of a bearing.
pub fn unit(bearing_deg: f64) -> [f64; 2] {
    [sin_deg(bearing_deg), cos_deg(bearing_deg)]
}

/// The bearing of the vector (east, north); 0 for the null vector.
pub fn of_vector(east: f64, north: f64) -> f64 {
    wrap_360(atan2_deg(east, north))
}
