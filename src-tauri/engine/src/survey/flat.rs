//! Slope and fall of the ground from one reading of a phone lying flat on a board, and a heading.

use super::tilt::{GravitySign, full_tilt, lying_flat};
use crate::numerics::real::{acos, hypot, tan_deg};
use crate::quantity::bearing::wrap_360;

/// Half-width of a 95 % region of two normal errors in sigmas, √5.991: χ² with two degrees of freedom at 0.95.
/// Source: any table of χ²; −2·ln 0.05 = 5.991.
const SIGMAS_95_IN_TWO: f64 = 2.447_7;

/// A phone lying flat, its slopes free of the zero error as well as that is known.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FlatReading {
    /// Where the phone's top points, in whatever reference the answer is wanted.
    pub heading_deg: f64,
    pub heading_sigma_deg: f64,
    pub long_edge_deg: f64,
    pub short_edge_deg: f64,
    pub sigma_deg: f64,
    pub screen_up: bool,
}

/// The slope along a bearing that one edge shows.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct EdgeReading {
    pub bearing_deg: f64,
    pub slope_deg: f64,
    pub sigma_deg: f64,
}

/// What a flat reading tells of the ground.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FlatSlope {
    pub slope_deg: f64,
    pub sigma_deg: f64,
    /// Where water runs; none where the 95 % region of the slope holds level ground.
    pub fall_bearing_deg: Option<f64>,
    pub fall_sigma_deg: f64,
    /// The same as two slope readings, along the phone and across it.
    pub edges: [EdgeReading; 2],
}

/// Slope, fall and the two readings that the ground's fit takes; none where no phone can lie so.
///
/// # Accuracy
/// First order: the fall's sigma is that of the heading and of the tilt over tan s, added in squares.
///
/// # References
/// Vector geometry: see [`full_tilt`], and the comment on the edges' bearings.
pub fn flat_slope(read: &FlatReading) -> Option<FlatSlope> {
    let FlatReading { heading_deg, heading_sigma_deg, long_edge_deg, short_edge_deg, sigma_deg, screen_up } =
        *read;
    let numbers = [heading_deg, heading_sigma_deg, long_edge_deg, short_edge_deg, sigma_deg];
    if !numbers.iter().all(|number| number.is_finite()) || sigma_deg < 0.0 || heading_sigma_deg < 0.0 {
        return None;
    }
    let up = lying_flat(long_edge_deg, short_edge_deg, screen_up)?;
    let tilt = full_tilt(up, GravitySign::Up, heading_deg)?;
    let sloping = tilt.slope_deg > SIGMAS_95_IN_TWO * sigma_deg;
    // The edges stand square to each other in space, so with elevations l and s their bearings differ by the angle
    // whose cosine is −tan l · tan s: a little off 90° on a steep slope. Face down, right is left.
    let across = acos((-tan_deg(long_edge_deg) * tan_deg(short_edge_deg)).clamp(-1.0, 1.0)).to_degrees();
    let across_bearing = wrap_360(heading_deg + if screen_up { across } else { -across });
    Some(FlatSlope {
        slope_deg: tilt.slope_deg,
        sigma_deg,
        fall_bearing_deg: tilt.fall_bearing_deg.filter(|_| sloping),
        fall_sigma_deg: hypot(heading_sigma_deg, sigma_deg / tan_deg(tilt.slope_deg)).min(180.0),
        edges: [
            EdgeReading { bearing_deg: wrap_360(heading_deg), slope_deg: long_edge_deg, sigma_deg },
            EdgeReading { bearing_deg: across_bearing, slope_deg: short_edge_deg, sigma_deg },
        ],
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::bearing::turn_deg;
    use crate::survey::tilt::{SlopeAlong, apparent_slope_deg, gradient_from_two};

    fn lying(heading: f64, long: f64, short: f64) -> FlatReading {
        FlatReading {
            heading_deg: heading,
            heading_sigma_deg: 2.0,
            long_edge_deg: long,
            short_edge_deg: short,
            sigma_deg: 0.3,
            screen_up: true,
        }
    }

    #[test]
    fn both_edges_are_apparent_dips_of_the_slope() {
        let found = flat_slope(&lying(30.0, 14.0, -9.0)).unwrap();
        for edge in found.edges {
            let seen = apparent_slope_deg(
                found.slope_deg,
                edge.bearing_deg - found.fall_bearing_deg.unwrap() - 180.0,
            );
            assert!((seen - edge.slope_deg).abs() < 1e-9, "{edge:?}");
        }
        // And the ground's own equations bring the slope back from them.
        let [a, b] = found.edges.map(|e| SlopeAlong { bearing_deg: e.bearing_deg, slope_deg: e.slope_deg });
        let [east, north] = gradient_from_two(a, b).unwrap();
        assert!((hypot(east, north) - tan_deg(found.slope_deg)).abs() < 1e-12);
    }

    #[test]
    fn ground_that_may_be_level_has_no_fall() {
        assert_eq!(flat_slope(&lying(0.0, 0.5, 0.2)).unwrap().fall_bearing_deg, None);
        // Top raised by 8°, pointing north: water runs south.
        let south = flat_slope(&lying(0.0, 8.0, 0.0)).unwrap();
        assert!(turn_deg(180.0, south.fall_bearing_deg.unwrap()).abs() < 1e-9);
        // By hand: 0.3/tan 8° = 2.135°, with 2° in squares 2.925°.
        assert!((south.fall_sigma_deg - 2.925).abs() < 1e-3);
        assert_eq!(flat_slope(&lying(f64::NAN, 8.0, 0.0)), None);
    }
}
