//! The taut string, f = √(T/m)/(2L): worked problems read in two places.

use mastwright_engine::guys::pluck::{frequency_hz, tension_n};

/// A textbook violin string (csr.engine.ac.nz/encuentra/8432884): 0.81 m, 2 g, 394 Hz: 1.006e3 N; unrounded
/// 1005.93 N. 0.1 %.
#[test]
fn violin_string() {
    let mass_kg_per_m = 0.002 / 0.81;
    let tension = tension_n(0.81, 394.0, mass_kg_per_m);
    assert!((tension - 1005.93).abs() < 0.01, "{tension}");
    assert!((frequency_hz(0.81, tension, mass_kg_per_m) - 394.0).abs() < 1e-9);
}

/// Shortening a string from 1.0 m to 0.4 m takes 256 Hz to 640 Hz (physicsforums.com, thread 466298).
#[test]
fn shortened_string() {
    let tension = tension_n(1.0, 256.0, 0.001);
    assert!((frequency_hz(0.4, tension, 0.001) - 640.0).abs() < 1e-9);
}
