//! The taut string, f = √(T/m)/(2L): worked problems read in two places.

use mastwright_engine::guys::pluck::frequency_hz;
use mastwright_engine::job::SwingPlane;
use mastwright_engine::ringing::Note;
use mastwright_engine::ringing::rope::SwingingRope;
use mastwright_engine::structure::catenary::Span;

/// A string of the books: it hardly stretches.
fn string(length_m: f64, mass_kg_per_m: f64) -> SwingingRope {
    let span =
        Span { span_m: length_m, rise_m: 0.0, weight_n_per_m: 9.80665 * mass_kg_per_m, stiffness_n: 1e9 };
    SwingingRope { span, mass_kg_per_m, bending_at_most_nm2: 0.0 }
}

fn tension_n(length_m: f64, hz: f64, mass_kg_per_m: f64) -> f64 {
    let note = Note { hz, sigma_hz: 0.0, chance_wrong: None };
    string(length_m, mass_kg_per_m).at_note(note, SwingPlane::Sideways, None).unwrap().upper.value
}

/// A textbook violin string (csr.engine.ac.nz/encuentra/8432884): 0.81 m, 2 g, 394 Hz: 1.006e3 N; unrounded
/// 1005.93 N. 0.1 %.
#[test]
fn violin_string() {
    let mass_kg_per_m = 0.002 / 0.81;
    let tension = tension_n(0.81, 394.0, mass_kg_per_m);
    assert!((tension - 1005.93).abs() < 0.01, "{tension}");
    assert!((frequency_hz(0.81, tension, mass_kg_per_m) - 394.0).abs() < 1e-2);
}

/// Shortening a string from 1.0 m to 0.4 m takes 256 Hz to 640 Hz (physicsforums.com, thread 466298).
#[test]
fn shortened_string() {
    let tension = tension_n(1.0, 256.0, 0.001);
    assert!((frequency_hz(0.4, tension, 0.001) - 640.0).abs() < 1e-2);
    let hz = string(0.4, 0.001).hz(tension, SwingPlane::Sideways, None).unwrap();
    assert!((hz - 640.0).abs() < 1e-2, "{hz}");
}
