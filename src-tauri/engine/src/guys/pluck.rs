//! A plucked guy's note gives its tension.
//!
//! The taut string: f = √(T/m)/(2L) (Mersenne's law; any physics textbook). Three things shift the note of a
//! real guy; they are left out here because on a taut rope they are small:
//!
//! - Sag stiffens the first symmetric mode in the plane of the sag (Irvine1981, ch. 3, from memory: by
//!   λ² = (w·l/H)²·EA/H, which raises the note by some 4 % at λ² = 1). The swing across that plane does not
//!   feel it: pluck the guy sideways. Taking the chord for the length and the mean of the end tensions for T is
//!   within 1 % sideways while the sag is under 1/20 of the chord.
//! - Bending stiffness raises the note by about 2·√(EI/T)/L, relative (stiff string with clamped ends, from
//!   memory). For rope that is nothing; for 7-wire strand at a tenth of its strength it is 1 % at some 500
//!   diameters of length; a steel rod is another matter.
//! - What hangs on the guy (a tensioner, a flag) lowers it.

/// First sideways frequency of a taut rope.
pub fn frequency_hz(length_m: f64, tension_n: f64, mass_kg_per_m: f64) -> f64 {
    (tension_n / mass_kg_per_m).sqrt() / (2.0 * length_m)
}

/// Tension from the first sideways frequency: T = 4·m·L²·f².
pub fn tension_n(length_m: f64, frequency_hz: f64, mass_kg_per_m: f64) -> f64 {
    4.0 * mass_kg_per_m * length_m * length_m * frequency_hz * frequency_hz
}
