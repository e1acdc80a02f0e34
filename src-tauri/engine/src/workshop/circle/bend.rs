//! How sharply the tube of the ring may be bent.

use crate::job::RingStuff;
use crate::source::SourceKey;

/// The least radius to a tube's middle line, with where it is from.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LeastRadius {
    pub radius_m: f64,
    pub source: SourceKey,
}

/// Rigid PVC bent cold: 300 outside diameters, as makers of conduit and of water pipe say. At it the pipe's outside is
/// stretched by 1/600 ([`strain`]).
const PVC_DIAMETERS: f64 = 300.0;

/// NEC chapter 9, table 2, one-shot and full-shoe benders: outside diameter of rigid conduit up to which a radius holds (ANSI
/// C80.1, trade sizes 1/2 to 4), and that radius in inches.
const BENDERS_IN: [(f64, f64); 10] = [
    (0.840, 4.016),
    (1.050, 4.489),
    (1.315, 5.748),
    (1.660, 7.244),
    (1.900, 8.268),
    (2.375, 9.488),
    (2.875, 10.512),
    (3.500, 12.992),
    (4.000, 14.606),
    (4.500, 15.984),
];
const MM_PER_INCH: f64 = 25.4;

/// None where nobody has said how sharply it may be bent: that is not known, not allowed.
pub fn least_radius(stuff: RingStuff, outside_mm: f64) -> Option<LeastRadius> {
    match stuff {
        RingStuff::Pvc => Some(LeastRadius {
            radius_m: PVC_DIAMETERS * outside_mm / 1000.0,
            source: SourceKey::PvcColdBend,
        }),
        RingStuff::SteelConduit => {
            let outside_in = outside_mm / MM_PER_INCH;
            // A hair more: sizes come in millimetres.
            let row = BENDERS_IN.iter().find(|(outside, _)| outside_in <= outside + 1e-3)?;
            Some(LeastRadius { radius_m: row.1 * MM_PER_INCH / 1000.0, source: SourceKey::NecBends })
        }
        RingStuff::Other => None,
    }
}

/// How much the outside of a tube is stretched that is bent to a radius: T/(2R) ([`SourceKey::Geometry`]).
pub fn strain(outside_mm: f64, radius_m: f64) -> f64 {
    outside_mm / (2000.0 * radius_m)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Published: 1 in PVC of 1.315 in outside, 300 diameters: 32.9 ft, strain 0.167 %. Conduit 1 in: 5.748 in; its outside is
    /// stretched by 11.4 % at 5.75 in.
    #[test]
    fn pvc_wants_many_diameters_and_conduit_a_bender() {
        let outside = 1.315 * MM_PER_INCH;
        let pvc = least_radius(RingStuff::Pvc, outside).unwrap().radius_m;
        assert!((pvc / 0.3048 - 32.875).abs() < 1e-3, "{pvc}");
        assert!((strain(outside, pvc) - 1.0 / 600.0).abs() < 1e-12);
        let steel = least_radius(RingStuff::SteelConduit, outside).unwrap().radius_m;
        assert!((steel - 0.1459992).abs() < 1e-6, "{steel}");
        assert!((strain(outside, 5.75 * 0.0254) - 0.114).abs() < 5e-4);
        // 3/4 in, 1.050: the next larger row for 0.922 in of thin conduit too.
        assert_eq!(least_radius(RingStuff::SteelConduit, 23.4).unwrap().radius_m, 4.489 * 0.0254);
        assert_eq!(least_radius(RingStuff::SteelConduit, 140.0), None);
        assert_eq!(least_radius(RingStuff::Other, 20.0), None);
    }
}
