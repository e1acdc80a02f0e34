//! The signs of fixed size, each drawn in letter heights around its own point, pointing up.

use super::scene::Role;

/// Roles with a sign of their own; every other one has a cross.
pub const SIGNED: &[Role] = &[
    Role::MastAxis,
    Role::Anchor,
    Role::PlannedPlace,
    Role::Conflict,
    Role::Mark,
    Role::OpenPoint,
    Role::Stake,
    Role::SpotHeight,
    Role::OverheadSupport,
    Role::North,
    Role::FallLine,
    Role::Dimension,
    Role::WindArrow,
    Role::TripPoint,
];

/// Half the size of a role's sign, in letter heights.
pub fn half_size_em(role: Role) -> f64 {
    match role {
        Role::MastAxis => 0.7,
        Role::Anchor => 0.6,
        Role::PlannedPlace => 0.4,
        Role::Conflict => 0.75,
        Role::Mark => 0.5,
        Role::OpenPoint => 0.6,
        Role::Stake => 0.3,
        Role::SpotHeight => 0.2,
        Role::OverheadSupport => 0.5,
        Role::North => 1.6,
        Role::FallLine => 0.6,
        Role::Dimension => 0.35,
        Role::WindArrow => 0.6,
        Role::TripPoint => 0.65,
        _ => 0.4,
    }
}

/// A sign as SVG path data in letter heights, y down, pointing up; `true` where it is filled.
pub(crate) fn path(role: Role) -> &'static [(&'static str, bool)] {
    match role {
        // A ring with a centre point: a tube seen from above on its axis.
        Role::MastAxis => &[
            ("M0.55,0 A0.55,0.55 0 1 1 -0.55,0 A0.55,0.55 0 1 1 0.55,0 Z", true),
            ("M-0.7,0 H0.7 M0,-0.7 V0.7", false),
        ],
        // A spade's blade driven outwards: the point looks away from the mast.
        Role::Anchor => &[("M0,-0.6 L0.45,0.1 H0.16 V0.5 H-0.16 V0.1 H-0.45 Z", true)],
        // A ring with nothing in it: nothing stands there.
        Role::PlannedPlace => &[("M0.38,0 A0.38,0.38 0 1 1 -0.38,0 A0.38,0.38 0 1 1 0.38,0 Z", false)],
        Role::Conflict => &[
            ("M-0.35,-0.75 H0.35 L0.75,-0.35 V0.35 L0.35,0.75 H-0.35 L-0.75,0.35 V-0.35 Z", true),
            ("M-0.35,-0.35 L0.35,0.35 M0.35,-0.35 L-0.35,0.35", false),
        ],
        // A nail seen from above, in a square.
        Role::Mark => &[
            ("M-0.42,-0.42 H0.42 V0.42 H-0.42 Z", true),
            ("M-0.42,-0.42 L0.42,0.42 M0.42,-0.42 L-0.42,0.42", false),
        ],
        Role::OpenPoint => &[
            ("M0.6,0 A0.6,0.6 0 1 1 -0.6,0 A0.6,0.6 0 1 1 0.6,0 Z", true),
            ("M-0.2,-0.16 C-0.2,-0.44 0.22,-0.44 0.22,-0.16 C0.22,0.02 0,0.02 0,0.2 M0,0.36 V0.4", false),
        ],
        Role::Stake => &[("M0,-0.26 L0.26,0 L0,0.26 L-0.26,0 Z", true)],
        Role::SpotHeight => &[("M-0.18,0 H0.18 M0,-0.18 V0.18", false)],
        Role::OverheadSupport => &[
            ("M0.4,0 A0.4,0.4 0 1 1 -0.4,0 A0.4,0.4 0 1 1 0.4,0 Z", true),
            ("M-0.75,-0.12 H0.75 M-0.75,0.12 H0.75", false),
        ],
        Role::North => &[
            ("M0,-1.1 L0.42,1 L0,0.62 L-0.42,1 Z", false),
            ("M0,-1.1 L0.42,1 L0,0.62 Z", true),
            ("M-0.22,-1.25 V-1.75 L0.22,-1.25 V-1.75", false),
        ],
        Role::FallLine => &[("M0,-0.1 L0.32,0.75 L0,0.55 L-0.32,0.75 Z", true)],
        Role::Dimension => &[("M0,0 L0.13,0.5 H-0.13 Z", true)],
        // A triangle, as warning signs have it, with a cord across.
        Role::TripPoint => {
            &[("M0,-0.62 L0.6,0.45 H-0.6 Z", true), ("M-0.28,0.14 C-0.14,-0.02 0.14,0.3 0.28,0.14", false)]
        }
        Role::WindArrow => &[("M0,-0.6 L0.3,0.1 H0.1 V0.6 H-0.1 V0.1 H-0.3 Z", true)],
        _ => &[("M-0.3,0 H0.3 M0,-0.3 V0.3", false)],
    }
}
