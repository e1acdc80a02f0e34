//! A plucked guy's note gives its tension.
//!
//! The taut string: f = √(T/m)/(2L) (Mersenne's law; any physics textbook). Two things raise the note of a
//! real guy above the string's; both are left out here because on a taut rope they are small:
//!
//! - Sag stiffens the first symmetric mode in the plane of the sag (Irvine1981, ch. 3: by Λ² = (w·l/T)²·l/(T·L/EA)).
//!   The sideways swing across that plane, and the second in-plane mode at twice the note, do not feel it:
//!   pluck the guy sideways. The formula is within 1 % sideways while the sag is under 1/20 of the chord.
//! - Bending stiffness: f rises by about 2·√(EI/T)/L, under 1 % for ropes and for strand over 100 diameters
//!   long at a working tension; a steel rod is another matter.

/// First sideways frequency of a taut rope.
pub fn frequency_hz(length_m: f64, tension_n: f64, mass_kg_per_m: f64) -> f64 {
    (tension_n / mass_kg_per_m).sqrt() / (2.0 * length_m)
}

/// Tension from the first sideways frequency: T = 4·m·L²·f².
pub fn tension_n(length_m: f64, frequency_hz: f64, mass_kg_per_m: f64) -> f64 {
    4.0 * mass_kg_per_m * length_m * length_m * frequency_hz * frequency_hz
}
