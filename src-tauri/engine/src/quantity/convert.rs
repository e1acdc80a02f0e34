//! Exact conversions between the units people use and those of the document.

/// The international foot. Source: Federal Register 24 FR 5348 (1 July 1959); NIST SP 811 (2008), B.8: exact.
/// The US survey foot differs by 2 parts in a million and was withdrawn on 1 January 2023 (85 FR 62698).
pub const FOOT_M: f64 = 0.3048;
/// The inch, a twelfth of the foot. Source: as for the foot, exact.
pub const INCH_M: f64 = 0.0254;
/// The inch in millimetres.
pub const INCH_MM: f64 = 25.4;
/// The yard, three feet. Source: as for the foot, exact.
pub const YARD_M: f64 = 0.9144;
/// The avoirdupois pound. Source: 24 FR 5348 (1959); NIST SP 811 (2008), B.8: exact.
pub const POUND_KG: f64 = 0.453_592_37;
/// Standard gravity, by which the pound-force and the kilogram-force are defined. Source: NIST SP 811 (2008), B.8.
pub const STANDARD_GRAVITY: f64 = 9.806_65;
/// The pound-force: the pound times standard gravity. Source: NIST SP 811 (2008), B.8.
pub const POUND_FORCE_N: f64 = 4.448_221_615_260_5;
/// The mile per hour: 1609.344 m in 3600 s. Source: NIST SP 811 (2008), B.8: exact.
pub const MILE_PER_HOUR_M_PER_S: f64 = 0.447_04;
/// The kilometre per hour.
pub const KILOMETRE_PER_HOUR_M_PER_S: f64 = 1.0 / 3.6;
/// The knot: 1852 m in 3600 s. Source: NIST SP 811 (2008), B.8.
pub const KNOT_M_PER_S: f64 = 1852.0 / 3600.0;
/// The foot pound-force.
pub const FOOT_POUND_FORCE_NM: f64 = POUND_FORCE_N * FOOT_M;
/// A thousand pounds-force per square inch, in MPa.
pub const KSI_MPA: f64 = POUND_FORCE_N / (INCH_MM * INCH_MM) * 1000.0;
/// A mass per length of one pound per hundred feet, in grams a metre: 453.592 37 g / 30.48 m.
pub const POUND_PER_100_FEET_G_PER_M: f64 = POUND_KG * 1000.0 / (100.0 * FOOT_M);
/// An inch in a hundred feet, in millimetres a metre: 25.4 mm / 30.48 m.
pub const INCH_PER_100_FEET_MM_PER_M: f64 = INCH_MM / (100.0 * FOOT_M);

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_definitions_hang_together() {
        assert!((12.0 * INCH_MM - FOOT_M * 1000.0).abs() < 1e-12);
        assert!((3.0 * FOOT_M - YARD_M).abs() < 1e-15);
        assert!((POUND_KG * STANDARD_GRAVITY - POUND_FORCE_N).abs() < 1e-15);
        // NIST SP 811 (2008), B.8: foot pound-force 1.355 818 N·m, ksi 6.894 757 MPa.
        assert!((FOOT_POUND_FORCE_NM - 1.355_818).abs() < 5e-7);
        assert!((KSI_MPA - 6.894_757).abs() < 5e-7);
        // NIST SP 811 (2008), B.8: pound per foot = 1.488 164 kg/m.
        assert!((POUND_PER_100_FEET_G_PER_M * 100.0 / 1000.0 - 1.488_164).abs() < 5e-7);
    }
}
