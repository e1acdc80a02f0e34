//! The ring on the ground: how long it is on the slope, in which pieces, with its couplings on supports.

use std::f64::consts::PI;

use crate::numerics::real::{hypot, sin};
use crate::quantity::bearing::unit;

/// Steps by which the ground under the ring is followed.
const STEP_DEG: f64 = 0.5;

/// Length of a ring that follows the ground, between two turns: each step an arc in plan that rises evenly.
///
/// # Units
/// Metres; degrees.
///
/// # Accuracy
/// On a plane to one part in a million: a step's rise is taken as even. Ground that bends within half a degree is cut short.
///
/// # References
/// Geometry; on a plane the closed ring is an ellipse, against the complete elliptic integral in
/// `tests/published/worked_by_hand.rs`.
pub fn length_on_ground(
    centre: [f64; 2],
    radius_m: f64,
    [from_deg, sweep_deg]: [f64; 2],
    height: impl Fn([f64; 2]) -> f64,
) -> f64 {
    let steps = (sweep_deg / STEP_DEG).ceil().max(1.0);
    let at = |step: f64| {
        let [east, north] = unit(from_deg + sweep_deg * step / steps);
        height([centre[0] + radius_m * east, centre[1] + radius_m * north])
    };
    let arc_m = radius_m * sweep_deg / steps * PI / 180.0;
    let mut below = at(0.0);
    (1..=steps as usize)
        .map(|step| {
            let here = at(step as f64);
            let rise = here - std::mem::replace(&mut below, here);
            hypot(arc_m, rise)
        })
        .sum()
}

/// A ring in pieces, each from support to support.
#[derive(Debug, Clone, PartialEq)]
pub struct RingPieces {
    /// From support to support.
    pub span_m: f64,
    /// In order round the ring.
    pub pieces_m: Vec<f64>,
    pub couplings: u32,
}

/// Why it can't be pieced together.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum RingError {
    NoSupports,
    /// The way from support to support is longer than a pipe: so many supports would do.
    SpanTooLong {
        span_m: f64,
        pipe_m: f64,
        supports: u32,
    },
}

/// The fewest pieces whose joints all lie on supports, as even as they come.
///
/// # Errors
/// As [`RingError`] says.
pub fn pieces(length_m: f64, closed: bool, supports: u32, pipe_m: f64) -> Result<RingPieces, RingError> {
    let spans = if closed { supports } else { supports.saturating_sub(1) };
    if spans == 0 || length_m <= 0.0 || pipe_m <= 0.0 {
        return Err(RingError::NoSupports);
    }
    let span_m = length_m / f64::from(spans);
    // A hair, so that a pipe that is just as long holds them.
    let each = (pipe_m / span_m + 1e-9).floor() as u32;
    if each == 0 {
        let spans = (length_m / pipe_m - 1e-9).ceil() as u32;
        let supports = if closed { spans } else { spans + 1 };
        return Err(RingError::SpanTooLong { span_m, pipe_m, supports });
    }
    let count = spans.div_ceil(each);
    let (even, longer) = (spans / count, spans % count);
    let of = |piece: u32| span_m * f64::from(even + u32::from(piece < longer));
    Ok(RingPieces {
        span_m,
        pieces_m: (0..count).map(of).collect(),
        couplings: if closed { count } else { count - 1 },
    })
}

/// A ring of straight pieces, or a part of one: how long each is from corner to corner on level ground, and how much each corner turns.
///
/// # References
/// Geometry: a chord of the circle through the corners, 2R·sin(sweep/2n).
pub fn straight_pieces(radius_m: f64, count: u32, sweep_deg: f64) -> (f64, f64) {
    let turn_deg = sweep_deg.min(360.0) / f64::from(count.max(1));
    (2.0 * radius_m * sin(turn_deg * PI / 360.0), turn_deg)
}

/// The sides of such a ring in order, each from corner to corner on the ground.
///
/// # Units
/// Metres; degrees.
///
/// # References
/// Geometry: the chord in plan and the rise between its ends.
pub fn sides_on_ground(
    centre: [f64; 2],
    radius_m: f64,
    [from_deg, sweep_deg]: [f64; 2],
    count: u32,
    height: impl Fn([f64; 2]) -> f64,
) -> Vec<f64> {
    let (chord_m, turn_deg) = straight_pieces(radius_m, count, sweep_deg);
    let at = |corner: u32| {
        let [east, north] = unit(from_deg + turn_deg * f64::from(corner));
        height([centre[0] + radius_m * east, centre[1] + radius_m * north])
    };
    (0..count).map(|side| hypot(chord_m, at(side + 1) - at(side))).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn on_level_ground_it_is_the_circumference() {
        let level = length_on_ground([3.0, -2.0], 2.5, [40.0, 360.0], |_| 7.0);
        assert!((level - 5.0 * PI).abs() < 1e-9, "{level}");
        let quarter = length_on_ground([0.0; 2], 2.0, [0.0, 90.0], |_| 0.0);
        assert!((quarter - PI).abs() < 1e-9);
    }

    /// On a plane that rises 1 in 1 to the east it is an ellipse of half axes R and R·√2: 4·R·√2·E(m = 1/2), with
    /// E(1/2) = 1.3506438810 (Abramowitz & Stegun, table 17.1).
    #[test]
    fn on_a_plane_it_is_an_ellipse() {
        let long = length_on_ground([1.0, 1.0], 3.0, [0.0, 360.0], |at| at[0]);
        let by_table = 12.0 * 2.0_f64.sqrt() * 1.350_643_881_0;
        assert!((long / by_table - 1.0).abs() < 2e-6, "{long} for {by_table}");
    }

    /// By hand: 15.7 m on 16 supports is 0.98125 m a span; a pipe of 3 m holds 3 of them: 6 pieces, four of 3 spans and two of
    /// 2, six couplings. Half a ring of 9 m on 4 supports: three spans of 3 m, a pipe each, two couplings.
    #[test]
    fn joints_lie_on_supports() {
        let ring = pieces(15.7, true, 16, 3.0).unwrap();
        assert_eq!((ring.pieces_m.len(), ring.couplings), (6, 6));
        let spans: Vec<f64> = ring.pieces_m.iter().map(|piece| (piece / ring.span_m).round()).collect();
        assert_eq!(spans, [3.0, 3.0, 3.0, 3.0, 2.0, 2.0]);
        assert!((ring.pieces_m.iter().sum::<f64>() - 15.7).abs() < 1e-9);
        let half = pieces(9.0, false, 4, 3.0).unwrap();
        assert_eq!((half.pieces_m, half.couplings), (vec![3.0; 3], 2));
        assert_eq!(
            pieces(15.7, true, 4, 3.0),
            Err(RingError::SpanTooLong { span_m: 3.925, pipe_m: 3.0, supports: 6 })
        );
        assert_eq!(pieces(15.7, true, 0, 3.0), Err(RingError::NoSupports));
    }

    /// By hand: a hexagon's side is its radius, and each corner turns 60°.
    #[test]
    fn straight_pieces_are_chords() {
        let (side, turn) = straight_pieces(2.0, 6, 360.0);
        assert!((side - 2.0).abs() < 1e-12 && turn == 60.0);
        // Half a ring on three sides is half of that hexagon.
        let (side, turn) = straight_pieces(2.0, 3, 180.0);
        assert!((side - 2.0).abs() < 1e-12 && turn == 60.0);
    }

    /// By hand: a square whose corners lie north, east, south and west on ground that rises 1 in 1 to the east: each side is √2·R in plan
    /// and climbs or falls R, √3·R in all. On level ground √2·R.
    #[test]
    fn straight_sides_follow_the_ground() {
        for (slope, each) in [(1.0, 3.0_f64.sqrt()), (0.0, 2.0_f64.sqrt())] {
            let sides = sides_on_ground([4.0, 1.0], 1.5, [0.0, 360.0], 4, |at| slope * at[0]);
            assert_eq!(sides.len(), 4);
            assert!(sides.iter().all(|side| (side - 1.5 * each).abs() < 1e-9), "{sides:?}");
        }
    }
}
