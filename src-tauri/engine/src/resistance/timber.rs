//! Timber: pressed across its grain, bent, sheared, and standing as a foot (NDS for Wood Construction and its Supplement).
//!
//! Design values are those of grade No. 2, wet, loaded for two months; they are safe ones already: factor 1.

use serde::{Deserialize, Serialize};

use super::condition::Condition;
use super::unshown::TimberUnshown;
use super::verdict::Resistance;
use crate::source::SourceKey;

/// Pounds per square inch in MPa.
const PSI_MPA: f64 = 0.006_894_757;

/// The wood.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum Wood {
    DouglasFirLarch,
    SouthernPine,
    SprucePineFir,
    HemFir,
    /// Spruce, pine and fir of the south of the United States.
    SprucePineFirSouth,
    /// Softwood of no known kind: the weakest of the above.
    #[default]
    UnknownSoftwood,
}

impl Wood {
    /// Allowable pressure across the grain F_c⊥ in psi (NDS Supplement, Table 4A: read in open-source libraries, but
    /// for the last, which is from memory).
    fn across_grain_psi(self) -> f64 {
        match self {
            Wood::DouglasFirLarch => 625.0,
            Wood::SouthernPine => 565.0,
            Wood::SprucePineFir => 425.0,
            Wood::HemFir => 405.0,
            Wood::SprucePineFirSouth | Wood::UnknownSoftwood => 335.0,
        }
    }
}

/// A part standing on a timber.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TimberBearing {
    /// Length of the contact along the grain, l_b.
    pub along_grain_mm: f64,
    pub across_grain_mm: f64,
    /// From the contact to the nearer end of the timber.
    pub from_end_mm: f64,
    /// Lying outdoors it is wet, whatever it was when bought.
    pub is_wet: bool,
}

/// Bearing area factor C_b = (l_b + 9.5 mm)/l_b for contacts under 150 mm along the grain and 75 mm or more from the
/// end; 1 otherwise (NDS 3.10.4, from memory).
pub fn area_factor(along_grain_mm: f64, from_end_mm: f64) -> f64 {
    if along_grain_mm < 6.0 * 25.4 && from_end_mm >= 3.0 * 25.4 {
        1.0 + 0.375 * 25.4 / along_grain_mm
    } else {
        1.0
    }
}

/// Wet service factor C_M of pressure across the grain: 0.67 (NDS Supplement, Table 4A, from memory).
pub const WET_FACTOR: f64 = 0.67;

/// Allowable pressure across the grain, without the area factor.
pub fn across_grain_mpa(wood: Wood, is_wet: bool) -> f64 {
    wood.across_grain_psi() * PSI_MPA * if is_wet { WET_FACTOR } else { 1.0 }
}

/// What the timber carries across its grain under the part. The allowable pressure is a safe one already: factor 1.
pub fn bearing(contact: &TimberBearing, wood: Wood) -> Resistance {
    let TimberBearing { along_grain_mm, across_grain_mm, from_end_mm, is_wet } = *contact;
    if !(along_grain_mm > 0.0 && across_grain_mm > 0.0) {
        return Resistance::not_shown(TimberUnshown::ContactSizeMissing);
    }
    let pressure_mpa = across_grain_mpa(wood, is_wet) * area_factor(along_grain_mm, from_end_mm);
    // The area and wet factors are from memory.
    Resistance::shown(
        pressure_mpa * along_grain_mm * across_grain_mm,
        1.0,
        SourceKey::Nds2018,
        Condition::WoodGives,
    )
    .from_memory()
}

/// Load duration factor of two months (NDS Table 2.3.2, from memory). Ten minutes of wind would have 1.6: not taken, since
/// the set tensions press for weeks.
pub const DURATION: f64 = 1.15;

/// A timber thicker than this both ways is no dimension lumber (nominal 5 in).
const THICK_MM: f64 = 4.5 * 25.4;

/// Reference values in psi: bending, shear, compression along the grain, modulus for stability.
struct Reference {
    bending: f64,
    shear: f64,
    along_grain: f64,
    modulus: f64,
}

impl Wood {
    /// Table 4A, No. 2 (and No. 1/No. 2); southern pine Table 4B, for the widest of its sizes. Spruce-pine-fir 875 and its
    /// southern group 775 agree with public code; the rest is from memory.
    fn reference(self) -> Reference {
        let of = |bending, shear, along_grain, modulus| Reference { bending, shear, along_grain, modulus };
        match self {
            Wood::DouglasFirLarch => of(900.0, 180.0, 1350.0, 580e3),
            Wood::SouthernPine => of(750.0, 175.0, 1250.0, 510e3),
            Wood::SprucePineFir => of(875.0, 135.0, 1150.0, 510e3),
            Wood::HemFir => of(850.0, 150.0, 1300.0, 470e3),
            Wood::SprucePineFirSouth | Wood::UnknownSoftwood => of(775.0, 135.0, 1000.0, 400e3),
        }
    }

    /// Size factor C_F of bending by depth (Supplement, Table 4A); southern pine's values have it in them.
    fn size_factor(self, depth_mm: f64) -> f64 {
        const STEPS: [(f64, f64); 6] =
            [(3.5, 1.5), (4.5, 1.4), (5.5, 1.3), (7.25, 1.2), (9.25, 1.1), (11.25, 1.0)];
        if self == Wood::SouthernPine {
            return if depth_mm <= 11.25 * 25.4 + 0.5 { 1.0 } else { 0.9 };
        }
        let depth_in = (depth_mm - 0.5) / 25.4;
        STEPS.iter().find(|(up_to, _)| depth_in <= *up_to).map_or(0.9, |(_, factor)| *factor)
    }
}

/// Allowable bending stress of a timber on edge: F_b·C_D·C_M·C_F. C_M is 0.85 only where F_b·C_F is over 1150 psi
/// (Table 4A). Of timbers 5 in and thicker No. 2 has 475 psi at least (Table 4D, from memory).
pub fn bending_mpa(wood: Wood, width_mm: f64, depth_mm: f64) -> f64 {
    let sized = if width_mm.min(depth_mm) >= THICK_MM {
        475.0
    } else {
        wood.reference().bending * wood.size_factor(depth_mm)
    };
    let wet = if sized > 1150.0 { 0.85 } else { 1.0 };
    sized * wet * DURATION * PSI_MPA
}

/// Allowable shear stress along the grain: F_v·C_D·C_M, C_M 0.97 (Table 4A).
pub fn shear_mpa(wood: Wood) -> f64 {
    wood.reference().shear * 0.97 * DURATION * PSI_MPA
}

/// Buckling length of a post that is free to sway at its head, over its length: 2.1 (NDS appendix G, from memory).
const SWAY: f64 = 2.1;

/// What a post of timber carries along its grain, its head free to sway.
///
/// # References
/// NDS 3.7.1: C_P with c 0.8 and F_cE = 0.822·E_min/(l_e/d)²; wet C_M 0.8 on F_c, 0.9 on E_min; no more than l_e/d 50.
pub fn post(length_mm: f64, least_side_mm: f64, other_side_mm: f64, wood: Wood) -> Resistance {
    let slenderness = SWAY * length_mm / least_side_mm;
    if !(least_side_mm > 0.0 && other_side_mm > 0.0 && slenderness >= 0.0) {
        return Resistance::not_shown(TimberUnshown::FootSizeMissing);
    }
    if slenderness > 50.0 {
        return Resistance::not_shown(TimberUnshown::FootTooSlender);
    }
    let reference = wood.reference();
    let crush = reference.along_grain * 0.8 * DURATION;
    let ratio = 0.822 * 0.9 * reference.modulus / (slenderness * slenderness).max(1e-9) / crush;
    let half = (1.0 + ratio) / 1.6;
    // The smaller root, without the difference of two large numbers.
    let stability = ratio / 0.8 / (half + (half * half - ratio / 0.8).sqrt());
    let held_n = crush * PSI_MPA * stability * least_side_mm * other_side_mm;
    Resistance::shown(held_n, 1.0, SourceKey::Nds2018, Condition::SawnPost).from_memory()
}

#[cfg(test)]
mod tests {
    use super::*;

    const POST: TimberBearing =
        TimberBearing { along_grain_mm: 88.9, across_grain_mm: 88.9, from_end_mm: 500.0, is_wet: false };

    #[test]
    fn wet_or_near_the_end_it_carries_less() {
        let carried = |contact: TimberBearing| bearing(&contact, Wood::HemFir).allowable_n().unwrap();
        assert!((carried(TimberBearing { is_wet: true, ..POST }) / carried(POST) - 0.67).abs() < 1e-12);
        assert!(carried(TimberBearing { from_end_mm: 20.0, ..POST }) < carried(POST));
        assert!(
            bearing(&TimberBearing { along_grain_mm: f64::NAN, ..POST }, Wood::HemFir)
                .allowable_n()
                .is_none()
        );
    }

    #[test]
    fn wet_takes_from_bending_only_where_the_value_is_high() {
        let psi = |wood, width_in: f64, depth_in: f64| {
            bending_mpa(wood, width_in * 25.4, depth_in * 25.4) / PSI_MPA / DURATION
        };
        // 875·1.3 = 1137.5 psi: not over 1150, nothing off. 875·1.5 = 1312.5: 0.85 of it.
        assert!((psi(Wood::SprucePineFir, 1.5, 5.5) - 1137.5).abs() < 1e-6);
        assert!((psi(Wood::SprucePineFir, 1.5, 3.5) - 0.85 * 1312.5).abs() < 1e-6);
        // The southern group is another row; a thick timber another table.
        assert!((psi(Wood::SprucePineFirSouth, 1.5, 5.5) - 1007.5).abs() < 1e-6);
        assert!((psi(Wood::SprucePineFir, 5.5, 5.5) - 475.0).abs() < 1e-6);
        assert!((psi(Wood::SprucePineFir, 1.5, 13.25) - 0.9 * 875.0).abs() < 1e-6);
    }

    #[test]
    fn a_post_carries_what_a_sum_by_hand_says() {
        // 3.5 × 3.5 in, 20 in high, spruce-pine-fir, wet, two months. F_c* = 1150·0.8·1.15 = 1058 psi; l_e/d = 2.1·20/3.5 =
        // 12; F_cE = 0.822·459,000/144 = 2620.1 psi; ratio 2.4765; (1 + 2.4765)/1.6 = 2.1728; √(2.1728² − 3.0956) =
        // 1.2749; C_P = 0.8979; 1058·0.8979·12.25 = 11,637 lb.
        let carried = |length_in: f64| {
            post(length_in * 25.4, 88.9, 88.9, Wood::SprucePineFir).allowable_n().map(|n| n / 4.448_222)
        };
        assert!((carried(20.0).unwrap() - 11_637.0).abs() < 12.0, "{:?}", carried(20.0));
        assert!((carried(0.0).unwrap() - 1058.0 * 12.25).abs() < 1.0);
        assert!(carried(84.0).is_none());
    }
}
