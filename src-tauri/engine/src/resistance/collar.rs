//! What keeps a guy collar up, by AISC 360-16 (J3.6, J7), allowable strength: a bolt through collar and tube, or a shoulder that it
//! lies on; and the sleeve of a pipe coupling.

use std::f64::consts::PI;

use super::SteelTube;
use super::pin::{self, Pinned};
use super::tube::SOFTEST_YIELD_MPA;

/// What a bolt straight through collar and tube may carry: cut twice, and bearing on both walls of the weaker one.
pub fn by_bolt_n(bolt_mm: f64, wall_mm: f64, tube: &SteelTube) -> f64 {
    let pinned = Pinned {
        pin_mm: bolt_mm,
        inner_wall_mm: tube.wall_mm,
        inner_yield_mpa: tube.yield_mpa,
        outer_wall_mm: wall_mm,
        outer_yield_mpa: SOFTEST_YIELD_MPA,
    };
    pin::allowable(&pinned).least_n
}

/// What a shoulder may carry that stands out all round: 1.8·F_y·A over 2.0 (J7-1), A the ring that collar and shoulder touch in.
pub fn by_shoulder_n(shoulder_mm: f64, tube_outside_mm: f64) -> f64 {
    let touching_mm2 = PI * shoulder_mm * (tube_outside_mm + shoulder_mm);
    1.8 * SOFTEST_YIELD_MPA * touching_mm2 / pin::FACTOR
}

/// The steel of a coupling outside the threads, as a tube of its own: its bore is as wide as the pipe that goes in, which is more
/// than its threads leave. None where it is no wider than the pipe.
pub fn coupling_sleeve(coupling_mm: f64, pipe_mm: f64) -> Option<SteelTube> {
    let wall_mm = 0.5 * (coupling_mm - pipe_mm);
    (wall_mm > 0.0).then_some(SteelTube { outside_mm: coupling_mm, wall_mm, yield_mpa: SOFTEST_YIELD_MPA })
}

#[cfg(test)]
mod tests {
    use super::*;

    /// By hand: a bolt of 8 mm cut twice carries 2·27 ksi·π·16 mm²/2 = 9357 N; on two walls of 3 mm of 195 MPa 1.8·195·8·3·2/2 = 8424 N,
    /// of 4 mm and 235 MPa more. A shoulder of 3 mm round 48.3 mm touches π·3·51.3 = 483.5 mm²: 1.8·195·483.5/2 = 84.85 kN.
    #[test]
    fn bolt_and_shoulder_by_hand() {
        let tube = SteelTube { outside_mm: 48.3, wall_mm: 4.0, yield_mpa: 235.0 };
        assert!((by_bolt_n(8.0, 3.0, &tube) - 8424.0).abs() < 1e-6);
        let thick = by_bolt_n(8.0, 4.0, &SteelTube { wall_mm: 5.0, ..tube });
        assert!((thick / 9357.0 - 1.0).abs() < 1e-3, "{thick}");
        // The tube's own wall, where that is the thinner one: 1.8·235·8·2 = 6768 N.
        let thin = by_bolt_n(8.0, 4.0, &SteelTube { wall_mm: 2.0, ..tube });
        assert!((thin - 6768.0).abs() < 1e-6, "{thin}");
        assert!((by_shoulder_n(3.0, 48.3) / 84_851.0 - 1.0).abs() < 1e-4);
        let sleeve = coupling_sleeve(42.0, 33.4).unwrap();
        assert!((sleeve.wall_mm - 4.3).abs() < 1e-12 && coupling_sleeve(33.4, 33.4).is_none());
    }
}
