//! How each role is painted, once for paper and for the screens' skins: colour, line width, line type, fill. Widths are
//! of the ISO 128 series and line types stay apart in black and white; colours of our own, but for buried services,
//! which take the APWA classes. `style_sheet` writes the screens' copy.

use super::key::service_colour;
use super::paint_seen;
use super::scene::Role;

/// A line width. Source: ISO 128-2:2020, 0.18 to 0.7 of the series 0.13–2.0 (from memory).
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) enum Pen {
    Fine,
    Thin,
    Middle,
    Wide,
    Bold,
}

/// Pixels of a screen that a millimetre of pen takes: the finest line is one of them.
const PX_PER_MM: f64 = 1.0 / 0.18;

impl Pen {
    pub(crate) fn mm(self) -> f64 {
        match self {
            Pen::Fine => 0.18,
            Pen::Thin => 0.25,
            Pen::Middle => 0.35,
            Pen::Wide => 0.5,
            Pen::Bold => 0.7,
        }
    }

    /// To a quarter of a pixel; it stays so at every zoom.
    pub(crate) fn px(self) -> f64 {
        (self.mm() * PX_PER_MM * 4.0).round() / 4.0
    }
}

/// A line type by its strokes and gaps in line widths. Source: ISO 128-2:2020, types 02, 04, 05, 07 with
/// dash 12 d, long dash 24 d, gap 3 d, dot 0.5 d (from memory).
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
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

    /// The same on a screen: strokes half as long, because a phone shows little of a line at once; its round ends take
    /// a width off every gap.
    fn on_screen(self) -> Vec<f64> {
        self.pattern().iter().map(|&part| if part >= 6.0 { part / 2.0 } else { part }).collect()
    }
}

/// One colour: on paper and in daylight, by lantern light, in full sun.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct Colour {
    name: &'static str,
    skins: [&'static str; 3],
}

impl Colour {
    pub(crate) const fn paper(self) -> &'static str {
        self.skins[0]
    }
}

const fn colour(name: &'static str, paper: &'static str, lantern: &'static str, sun: &'static str) -> Colour {
    Colour { name, skins: [paper, lantern, sun] }
}

/// A colour that is the same everywhere.
pub(super) const fn fixed(name: &'static str, everywhere: &'static str) -> Colour {
    colour(name, everywhere, everywhere, everywhere)
}

pub(crate) const INK: Colour = colour("ink", "#1d2b36", "#f6eddc", "#000000");
pub(crate) const GREY: Colour = colour("grey", "#56626b", "#b9b6ac", "#262626");
const SOIL: Colour = colour("soil", "#80663f", "#b39a74", "#6b5020");
const LEAF: Colour = colour("leaf", "#3f6b46", "#8cc08f", "#1f5527");
const ROPE: Colour = colour("rope", "#14507a", "#86c5f0", "#003a66");
const LIGHT: Colour = colour("light", "#8b6400", "#ffe08a", "#7a5800");
const ALARM: Colour = colour("alarm", "#b3161b", "#ff9d90", "#8f0000");
const LIVE: Colour = colour("live", "#7a2a86", "#e0a3ea", "#5c1568");
const WIND: Colour = colour("wind", "#0a5a55", "#86d8cb", "#00423e");
const SHEET: Colour = colour("sheet", "#ffffff", "#1a212d", "#ffffff");
const MAST: Colour = colour("mast", "#ffb938", "#ffb938", "#ffc400");
const TRUNK: Colour = colour("trunk", "#6f8f6a", "#5c7a58", "#6f8f6a");
const STONE: Colour = colour("stone", "#8d9397", "#646b70", "#a6a6a6");
const WAY: Colour = colour("way", "#e9e2d2", "#30363a", "#e6e6e6");
const TIMBER: Colour = colour("timber", "#e2cda6", "#8f6a3c", "#e2cda6");
const BLOCK: Colour = colour("block", "#a9814a", "#c98a4b", "#a9814a");
const TUBE: Colour = colour("tube", "#dfe5e9", "#3d4757", "#dfe5e9");

const COLOURS: [Colour; 17] = [
    INK, GREY, SOIL, LEAF, ROPE, LIGHT, ALARM, LIVE, WIND, SHEET, MAST, TRUNK, STONE, WAY, TIMBER, BLOCK,
    TUBE,
];

/// A skin of the screens: where it stands in a colour, how it is chosen, the ground of the map, and how much wider its
/// lines are.
struct Skin {
    at: usize,
    selector: &'static str,
    ground: &'static str,
    wider: f64,
}

/// Full sun washes thin lines out.
const SKINS: [Skin; 3] = [
    Skin { at: 0, selector: ":root", ground: "#eef0df", wider: 1.0 },
    Skin { at: 1, selector: ":root[data-skin='lantern']", ground: "#161d1f", wider: 1.0 },
    Skin { at: 2, selector: ":root[data-skin='sun']", ground: "#ffffff", wider: 1.5 },
];

/// What fills an area.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) enum SkinFill {
    None,
    Plain(Colour),
    /// The line's own colour, seen through: how much of it.
    Tint(f64),
    /// Strokes at an angle over nothing: angle in degrees, spacing in millimetres. Screens have a tint instead.
    Hatch {
        id: &'static str,
        angle_deg: f64,
        spacing_mm: f64,
    },
}

/// A hatch's strokes take so much of the ground.
const HATCH_TINT: f64 = 0.18;

/// How one role is painted.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Paint {
    pub(crate) ink: Colour,
    pub(crate) pen: Pen,
    pub(crate) line: LineType,
    pub(crate) fill: SkinFill,
}

pub(super) const fn line(ink: Colour, pen: Pen, line: LineType) -> Paint {
    Paint { ink, pen, line, fill: SkinFill::None }
}

const fn filled(ink: Colour, pen: Pen, line: LineType, fill: SkinFill) -> Paint {
    Paint { ink, pen, line, fill }
}

pub(super) const fn plain(ink: Colour, pen: Pen, fill: Colour) -> Paint {
    filled(ink, pen, LineType::Continuous, SkinFill::Plain(fill))
}

/// The paint of a role.
pub(crate) fn of(role: Role) -> Paint {
    use LineType::*;
    use Pen::*;
    match role {
        Role::Contour => line(SOIL, Fine, Continuous),
        Role::ContourIndex => line(SOIL, Middle, Continuous),
        Role::FallLine => line(SOIL, Wide, Continuous),
        Role::MeasuredEdge => line(SOIL, Middle, LongDashDot),
        Role::North | Role::ScaleBar => line(INK, Middle, Continuous),
        Role::Boundary => line(INK, Wide, LongDashDoubleDot),
        Role::BuildingArea => filled(
            INK,
            Wide,
            Continuous,
            SkinFill::Hatch { id: "building", angle_deg: 45.0, spacing_mm: 1.6 },
        ),
        Role::TreeCrown => filled(LEAF, Thin, ShortDashed, SkinFill::Tint(0.15)),
        Role::TreeTrunk => plain(LEAF, Middle, TRUNK),
        Role::Wall | Role::PostArea => plain(INK, Thin, STONE),
        Role::Fence => line(GREY, Middle, ShortDashed),
        Role::Hedge => filled(LEAF, Thin, Continuous, SkinFill::Tint(0.35)),
        Role::PathArea => filled(GREY, Fine, Dotted, SkinFill::Plain(WAY)),
        Role::KeepOffArea => {
            filled(INK, Middle, Dashed, SkinFill::Hatch { id: "keep-off", angle_deg: -45.0, spacing_mm: 3.0 })
        }
        Role::OverheadWire => line(LIVE, Wide, LongDashDot),
        Role::OverheadSupport => plain(LIVE, Middle, SHEET),
        Role::OverheadZone => {
            filled(LIVE, Fine, Dashed, SkinFill::Hatch { id: "overhead", angle_deg: 0.0, spacing_mm: 2.4 })
        }
        Role::BuriedElectric
        | Role::BuriedGasOilSteam
        | Role::BuriedCommunications
        | Role::BuriedPotableWater
        | Role::BuriedSewerDrain
        | Role::BuriedReclaimedWater
        | Role::BuriedUnknown => line(fixed("", service_colour(role).unwrap_or("#000000")), Wide, Dashed),
        Role::BuriedZone => filled(GREY, Fine, Dotted, SkinFill::Tint(0.1)),
        Role::Mark => plain(INK, Middle, SHEET),
        Role::OpenPoint => plain(ALARM, Middle, SHEET),
        Role::SpotHeight => line(SOIL, Thin, Continuous),
        Role::FallCircle => line(INK, Middle, Dashed),
        Role::Ring => line(LIGHT, Middle, ShortDashed),
        Role::Strand => line(LIGHT, Fine, Continuous),
        Role::BaseTimber => plain(INK, Middle, TIMBER),
        Role::Foot => plain(INK, Middle, BLOCK),
        Role::Stake => plain(INK, Fine, INK),
        Role::Guy => line(ROPE, Wide, Continuous),
        Role::Anchor => plain(ROPE, Middle, ROPE),
        Role::AnchorEllipse => line(ROPE, Thin, ShortDashed),
        Role::PointEllipse => line(GREY, Thin, ShortDashed),
        Role::MastAxis => plain(INK, Wide, MAST),
        Role::PlannedPlace => line(GREY, Middle, Continuous),
        Role::MovedFrom => line(GREY, Thin, Dotted),
        Role::Conflict => line(ALARM, Bold, Continuous),
        Role::Dimension => line(GREY, Fine, Continuous),
        Role::Tie => line(INK, Thin, LongDashDot),
        Role::Lead => line(LIGHT, Bold, Continuous),
        Role::TripPoint => plain(ALARM, Middle, SHEET),
        Role::GroundLine => line(SOIL, Bold, Continuous),
        Role::LevelLine => line(GREY, Thin, LongDashDot),
        Role::MastTube => plain(INK, Wide, TUBE),
        Role::WindRaised => filled(WIND, Bold, Continuous, SkinFill::Tint(0.15)),
        Role::WindLowered => line(WIND, Middle, Dashed),
        Role::WindScale => line(GREY, Fine, Dotted),
        Role::WindArrow => line(WIND, Wide, Continuous),
        Role::MastBent => line(INK, Bold, Continuous),
        Role::Label => line(INK, Fine, Continuous),
        Role::LabelQuiet => line(GREY, Fine, Continuous),
        seen => paint_seen::of(seen),
    }
}

/// The colours of a role's sign: of its strokes, and of what is solid in it.
pub(crate) fn of_sign(role: Role) -> (Colour, Colour) {
    let paint = of(role);
    match paint.fill {
        // A stop is a full octagon with a cross cut out of it.
        _ if role == Role::Conflict => (SHEET, ALARM),
        SkinFill::Plain(fill) => (paint.ink, fill),
        _ => (paint.ink, paint.ink),
    }
}

/// Width of a sign's strokes in letter heights, which are 2.5 mm on paper.
pub(crate) fn sign_stroke_em(role: Role) -> f64 {
    of(role).pen.mm().min(Pen::Middle.mm()) / 2.5
}

/// How the screens spell the colour of a role that is no buried service.
fn variable(colour: Colour) -> String {
    if colour.name.is_empty() { colour.paper().to_owned() } else { format!("var(--map-{})", colour.name) }
}

/// The screens' style sheet of all roles, `spelt` as the classes of their shapes.
pub(crate) fn style_sheet(spelt: impl Fn(Role) -> String) -> String {
    let mut css = String::new();
    for skin in SKINS {
        css += &format!(
            "{} {{\n  --map-ground: {};\n  --map-wider: {};\n",
            skin.selector, skin.ground, skin.wider
        );
        for colour in COLOURS {
            css += &format!("  --map-{}: {};\n", colour.name, colour.skins[skin.at]);
        }
        css += "}\n";
    }
    for &role in Role::ALL {
        let name = spelt(role);
        match role {
            Role::Label | Role::LabelQuiet | Role::SeenLabel | Role::NightLabel => {
                css += &format!(".scene .words .w-{name} {{\n  fill: {};\n}}\n", variable(of(role).ink));
            }
            _ => {
                css += &format!(".scene .world .r-{name} {{\n{}}}\n", line_rule(of(role)));
                let (stroke, fill) = of_sign(role);
                css += &format!(
                    ".scene .signs .s-{name} {{\n  fill: {};\n  stroke: {};\n  stroke-width: {:.2};\n}}\n",
                    variable(fill),
                    variable(stroke),
                    sign_stroke_em(role)
                );
            }
        }
    }
    css
}

fn line_rule(paint: Paint) -> String {
    let ink = variable(paint.ink);
    let fill = match paint.fill {
        SkinFill::None => String::new(),
        SkinFill::Plain(fill) => format!("  fill: {};\n", variable(fill)),
        SkinFill::Tint(share) => format!("  fill: {ink};\n  fill-opacity: {share};\n"),
        SkinFill::Hatch { .. } => format!("  fill: {ink};\n  fill-opacity: {HATCH_TINT};\n"),
    };
    let dashes: Vec<f64> = paint.line.on_screen().iter().map(|part| part * paint.pen.px()).collect();
    let dashes = dashes.first().map_or(String::new(), |first| {
        let parts: Vec<String> = dashes.iter().map(|px| format!("{px:.1}")).collect();
        // Begun within the first stroke, so that a short sample shows the gap and the dots too.
        format!("  stroke-dasharray: {};\n  stroke-dashoffset: {:.1};\n", parts.join(" "), 0.65 * first)
    });
    format!(
        "{fill}  stroke: {ink};\n  stroke-width: calc({}px * var(--map-wider));\n{dashes}",
        paint.pen.px()
    )
}

#[cfg(test)]
mod tests {
    use super::super::key::tests::contrast;
    use super::*;

    #[test]
    fn lines_of_the_work_and_of_dangers_differ_without_colour() {
        // Every two of these must differ in width or in line type, so that a black-and-white print tells them apart.
        let roles = [Role::Guy, Role::FallCircle, Role::Boundary, Role::OverheadWire, Role::Conflict];
        for (i, a) in roles.iter().enumerate() {
            for b in &roles[i + 1..] {
                let (a, b) = (of(*a), of(*b));
                assert!(a.line != b.line || a.pen != b.pen, "{a:?} {b:?}");
            }
        }
    }

    #[test]
    fn widths_are_of_the_iso_series() {
        for &role in Role::ALL {
            assert!([0.18, 0.25, 0.35, 0.5, 0.7].contains(&of(role).pen.mm()));
        }
    }

    /// WCAG 2.2, 1.4.11: 3:1 of every line and sign on the ground that it is drawn on.
    #[test]
    fn every_role_is_seen_on_its_ground_in_every_skin() {
        for &role in Role::ALL {
            let ink = of(role).ink;
            if ink.name.is_empty() {
                continue; // on a casing of its own: key.rs
            }
            for skin in SKINS {
                let colour = ink.skins[skin.at];
                assert!(contrast(colour, skin.ground) >= 3.0, "{role:?} {colour} on {}", skin.ground);
            }
            assert!(contrast(ink.paper(), "#ffffff") >= 3.0, "{role:?} on paper");
        }
    }

    /// The screens' rules come from the same paint: width in the same order, dashes where the print has dashes.
    #[test]
    fn the_style_sheet_has_every_role_with_the_prints_line_type() {
        let css = style_sheet(|role| format!("{role:?}"));
        for &role in Role::ALL {
            if [Role::Label, Role::LabelQuiet, Role::SeenLabel, Role::NightLabel].contains(&role) {
                assert!(css.contains(&format!(".w-{role:?} {{")), "{role:?}");
                continue;
            }
            let rule = css.split(&format!(".r-{role:?} {{")).nth(1).unwrap().split('}').next().unwrap();
            assert_eq!(rule.contains("stroke-dasharray"), of(role).line != LineType::Continuous, "{role:?}");
            assert!(rule.contains(&format!("calc({}px", of(role).pen.px())), "{role:?} {rule}");
        }
        let pens = [Pen::Fine, Pen::Thin, Pen::Middle, Pen::Wide, Pen::Bold];
        assert!(pens.windows(2).all(|pair| pair[0].px() < pair[1].px() && pair[0].mm() < pair[1].mm()));
    }
}
