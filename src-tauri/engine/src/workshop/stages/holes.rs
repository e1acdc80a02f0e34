//! Cross holes: how far from an end and from each other, and what a pair of them leaves of the tube.

use crate::numerics::real::asin;

/// From the middle of a hole to the end of its tube, in diameters of the hole: 1.2 at the least (EN 1993-1-8, Table 3.3).
pub const LEAST_EDGE: f64 = 1.2;
/// From hole to hole along the pull: 2.2 diameters at the least (the same table).
pub const LEAST_PITCH: f64 = 2.2;
/// What is laid out: two diameters from an end. A hand drill wanders; common practice.
const EDGE: f64 = 2.0;

/// From a hole's middle to an end, as laid out.
pub fn edge_mm(hole_mm: f64) -> f64 {
    EDGE * hole_mm
}

/// What a pair of holes through both walls leaves of a tube.
#[derive(Debug, Clone, Copy, PartialEq, serde::Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct NetSection {
    pub area_mm2: f64,
    /// Bent so that the holes lie at the most strained fibres.
    pub second_moment_worst_mm4: f64,
    /// Bent so that they lie where nothing is strained.
    pub second_moment_best_mm4: f64,
    /// Shares of the whole tube that are left.
    pub area_share: f64,
    pub stiffness_share: f64,
}

/// The net section of a tube with a hole straight through; none where the hole is no small one (over 0.4 of the outside).
///
/// Exact: both walls lose what lies between the circles of radius R outside and r inside over the hole's width 2h,
/// A: 2·∫(y_R − y_r)dx, second moment about the axis square to the hole: 2·∫(y_R³ − y_r³)/3 dx, about the hole's axis:
/// 2·∫x²(y_R − y_r)dx, each from −h to h with y = √(R² − x²).
pub fn net(outside_mm: f64, wall_mm: f64, hole_mm: f64) -> Option<NetSection> {
    let inside_mm = outside_mm - 2.0 * wall_mm;
    let small = hole_mm > 0.0 && hole_mm <= 0.4 * outside_mm && wall_mm > 0.0 && hole_mm < inside_mm;
    if !small {
        return None;
    }
    let (outer, inner) = (Cut::of(0.5 * outside_mm, 0.5 * hole_mm), Cut::of(0.5 * inside_mm, 0.5 * hole_mm));
    let square = |value: f64| value * value;
    let area = 0.25 * std::f64::consts::PI * (square(outside_mm) - square(inside_mm));
    let moment = std::f64::consts::PI / 64.0 * (square(square(outside_mm)) - square(square(inside_mm)));
    let area_mm2 = area - 2.0 * (outer.height - inner.height);
    let worst = moment - 2.0 / 3.0 * (outer.cube - inner.cube);
    let best = moment - 2.0 * (outer.moment - inner.moment);
    Some(NetSection {
        area_mm2,
        second_moment_worst_mm4: worst,
        second_moment_best_mm4: best,
        area_share: area_mm2 / area,
        stiffness_share: worst / moment,
    })
}

/// Integrals over the width of a hole, from −h to h, of y, y³ and x²y with y = √(R² − x²).
struct Cut {
    height: f64,
    cube: f64,
    moment: f64,
}

impl Cut {
    fn of(radius: f64, half: f64) -> Self {
        let square = radius * radius;
        let root = (square - half * half).max(0.0).sqrt();
        let arc = asin((half / radius).clamp(-1.0, 1.0));
        Self {
            height: half * root + square * arc,
            cube: 0.5 * half * root * root * root
                + 0.75 * square * half * root
                + 0.75 * square * square * arc,
            moment: -0.5 * half * root * root * root
                + 0.25 * square * half * root
                + 0.25 * square * square * arc,
        }
    }
}
