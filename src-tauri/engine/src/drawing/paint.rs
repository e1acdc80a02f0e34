//! How the printed drawing paints each role: line widths of the ISO 128 series and line types that stay apart
//! in black and white; colours of our own, but for buried services, which take the APWA classes.

use super::key::service_colour;
use super::scene::Role;

/// Line widths in millimetres. Source: ISO 128-2:2020, 0.18 to 0.7 of the series 0.13–2.0 (from memory).
const FINE: f64 = 0.18;
const THIN: f64 = 0.25;
const MIDDLE: f64 = 0.35;
const WIDE: f64 = 0.5;
const BOLD: f64 = 0.7;

/// A line type by its strokes and gaps in line widths. Source: ISO 128-2:2020, types 02, 04, 05, 07 with
/// dash 12 d, long dash 24 d, gap 3 d, dot 0.5 d (from memory).
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) enum LineType {
    Continuous,
    Dashed,
    LongDashDot,
    LongDashDoubleDot,
    Dotted,
    /// Shorter than type 02, for short lines: our own.
    ShortDashed,
}

impl LineType {
    /// Strokes and gaps in line widths; empty for a continuous line.
    pub(crate) fn pattern(self) -> &'static [f64] {
        match self {
            LineType::Continuous => &[],
            LineType::Dashed => &[12.0, 3.0],
            LineType::LongDashDot => &[24.0, 3.0, 0.5, 3.0],
            LineType::LongDashDoubleDot => &[24.0, 3.0, 0.5, 3.0, 0.5, 3.0],
            LineType::Dotted => &[0.5, 3.0],
            LineType::ShortDashed => &[6.0, 3.0],
        }
    }
}

/// What fills an area.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) enum Fill {
    None,
    Plain(&'static str),
    /// Strokes at an angle over nothing: angle in degrees, spacing in millimetres.
    Hatch {
        id: &'static str,
        angle_deg: f64,
        spacing_mm: f64,
    },
}

/// How one role is painted.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Paint {
    pub(crate) stroke: &'static str,
    pub(crate) width_mm: f64,
    pub(crate) line: LineType,
    pub(crate) fill: Fill,
}

const INK: &str = "#1d2b36";
const GREY: &str = "#5d6a73";
const SOIL: &str = "#8a6f4d";
const LEAF: &str = "#3f6b46";
const ROPE: &str = "#14507a";
const LIGHT: &str = "#b07d12";
const ALARM: &str = "#b3161b";
const LIVE: &str = "#7a2a86";

const fn line(stroke: &'static str, width_mm: f64, line: LineType) -> Paint {
    Paint { stroke, width_mm, line, fill: Fill::None }
}

const fn filled(stroke: &'static str, width_mm: f64, line: LineType, fill: Fill) -> Paint {
    Paint { stroke, width_mm, line, fill }
}

/// The paint of a role.
pub(crate) fn of(role: Role) -> Paint {
    use LineType::*;
    match role {
        Role::Contour => line(SOIL, FINE, Continuous),
        Role::ContourIndex => line(SOIL, MIDDLE, Continuous),
        Role::FallLine => line(SOIL, WIDE, Continuous),
        Role::MeasuredEdge => line(SOIL, MIDDLE, LongDashDot),
        Role::North | Role::ScaleBar => line(INK, MIDDLE, Continuous),
        Role::Boundary => line(INK, WIDE, LongDashDoubleDot),
        Role::BuildingArea => {
            filled(INK, WIDE, Continuous, Fill::Hatch { id: "building", angle_deg: 45.0, spacing_mm: 1.6 })
        }
        Role::TreeCrown => filled(LEAF, THIN, ShortDashed, Fill::Plain("#e6efe2")),
        Role::TreeTrunk => filled(LEAF, MIDDLE, Continuous, Fill::Plain("#6f8f6a")),
        Role::Wall => filled(INK, THIN, Continuous, Fill::Plain("#8d9397")),
        Role::Fence => line(GREY, MIDDLE, ShortDashed),
        Role::Hedge => filled(LEAF, THIN, Continuous, Fill::Plain("#bfd3b8")),
        Role::PostArea => filled(INK, THIN, Continuous, Fill::Plain("#8d9397")),
        Role::PathArea => filled(GREY, FINE, Dotted, Fill::Plain("#f1ede4")),
        Role::KeepOffArea => {
            filled(INK, MIDDLE, Dashed, Fill::Hatch { id: "keep-off", angle_deg: -45.0, spacing_mm: 3.0 })
        }
        Role::OverheadWire => line(LIVE, WIDE, LongDashDot),
        Role::OverheadSupport => filled(LIVE, MIDDLE, Continuous, Fill::Plain("#ffffff")),
        Role::OverheadZone => {
            filled(LIVE, FINE, Dashed, Fill::Hatch { id: "overhead", angle_deg: 0.0, spacing_mm: 2.4 })
        }
        Role::BuriedElectric
        | Role::BuriedGasOilSteam
        | Role::BuriedCommunications
        | Role::BuriedPotableWater
        | Role::BuriedSewerDrain
        | Role::BuriedReclaimedWater
        | Role::BuriedUnknown => line(service_colour(role).unwrap_or(INK), WIDE, Dashed),
        Role::BuriedZone => filled(GREY, FINE, Dotted, Fill::Plain("#eef1f3")),
        Role::Mark => filled(INK, MIDDLE, Continuous, Fill::Plain("#ffffff")),
        Role::OpenPoint => filled(ALARM, MIDDLE, Continuous, Fill::Plain("#ffffff")),
        Role::SpotHeight => line(SOIL, THIN, Continuous),
        Role::FallCircle => line(INK, MIDDLE, Dashed),
        Role::Ring => line(LIGHT, MIDDLE, ShortDashed),
        Role::Strand => line(LIGHT, FINE, Continuous),
        Role::BaseTimber => filled(INK, MIDDLE, Continuous, Fill::Plain("#e2cda6")),
        Role::Foot => filled(INK, MIDDLE, Continuous, Fill::Plain("#a9814a")),
        Role::Stake => filled(INK, FINE, Continuous, Fill::Plain(INK)),
        Role::Guy => line(ROPE, WIDE, Continuous),
        Role::Anchor => filled(ROPE, MIDDLE, Continuous, Fill::Plain(ROPE)),
        Role::AnchorEllipse => line(ROPE, THIN, ShortDashed),
        Role::PointEllipse => line(GREY, THIN, ShortDashed),
        Role::MastAxis => filled(INK, WIDE, Continuous, Fill::Plain("#ffffff")),
        Role::PlannedPlace => line(GREY, MIDDLE, Continuous),
        Role::MovedFrom => line(GREY, THIN, Dotted),
        Role::Conflict => line(ALARM, BOLD, Continuous),
        Role::Dimension => line(GREY, FINE, Continuous),
        Role::Tie => line(INK, THIN, LongDashDot),
        Role::GroundLine => line(SOIL, BOLD, Continuous),
        Role::LevelLine => line(GREY, THIN, LongDashDot),
        Role::MastTube => filled(INK, WIDE, Continuous, Fill::Plain("#dfe5e9")),
        Role::WindRaised => filled(LIVE, BOLD, Continuous, Fill::Plain("#efe6f2")),
        Role::WindLowered => line(LIVE, MIDDLE, Dashed),
        Role::WindScale => line(GREY, FINE, Continuous),
        Role::WindArrow => line(LIVE, WIDE, Continuous),
        Role::MastBent => line(INK, BOLD, Continuous),
        Role::Label => line(INK, FINE, Continuous),
        Role::LabelQuiet => line("#38454e", FINE, Continuous),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lines_of_the_work_and_of_dangers_differ_without_colour() {
        // Every two of these must differ in width or in line type, so that a black-and-white print tells them apart.
        let roles = [Role::Guy, Role::FallCircle, Role::Boundary, Role::OverheadWire, Role::Conflict];
        for (i, a) in roles.iter().enumerate() {
            for b in &roles[i + 1..] {
                let (a, b) = (of(*a), of(*b));
                assert!(a.line != b.line || a.width_mm != b.width_mm, "{a:?} {b:?}");
            }
        }
    }

    #[test]
    fn widths_are_of_the_iso_series() {
        for role in [Role::Contour, Role::Guy, Role::Conflict, Role::Boundary, Role::BaseTimber] {
            assert!([0.18, 0.25, 0.35, 0.5, 0.7].contains(&of(role).width_mm));
        }
    }
}
