//! The note that a guy of a given tension has.
//!
//! The taut string: f = √(T/m)/(2L) (Mersenne's law; any physics textbook). That is the note that the plan gives a guy; what
//! sag, a phone on the rope or stiff ends change, and the way back from a note to a tension, is the room `ringing`'s.

/// First sideways frequency of a taut rope.
pub fn frequency_hz(length_m: f64, tension_n: f64, mass_kg_per_m: f64) -> f64 {
    (tension_n / mass_kg_per_m).sqrt() / (2.0 * length_m)
}
