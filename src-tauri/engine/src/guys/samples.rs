//! What the unit tests of this folder share.

use crate::ground::{Ground, Plane};
use crate::job::{AnchorKind, AnchorLayout, GuyLevel, Rope, RopeStrength};

pub fn level(anchors: AnchorLayout) -> GuyLevel {
    GuyLevel {
        id: "upper".into(),
        name: "Upper".into(),
        attach_height_m: 5.0,
        collar_radius_mm: 60.0,
        count: 3,
        anchor_layout: anchors,
        anchor_eye_height_m: 0.1,
        rope: Rope {
            name: "rope".into(),
            diameter_mm: 6.0,
            mass_g_per_m: 25.0,
            stretch_percent: 3.0,
            stretch_at_n: 1000.0,
            strength: RopeStrength::default(),
        },
        tension_n: 150.0,
        upper_end_m: 0.3,
        lower_end_m: 1.0,
        collar: Default::default(),
        when_lowered: Default::default(),
        anchor: AnchorKind::default(),
        proof_pull_n: None,
        to_thing: None,
    }
}

pub fn plane(gradient: [f64; 2]) -> Ground {
    Ground { plane: Plane { height_0_m: 1.0, gradient, covariance: [[0.0; 3]; 3] }, surface: None }
}
