//! The key: what each kind of thing is called, and the colours of buried services; how each is painted stands in
//! `paint.rs`. Both are once for paper and for the screens' three skins.
//! `cargo xtask types` writes the screens' style sheet and legend from here.

use super::layers::work::knob;
use super::scene::Role;
use super::{paint, signs};
use crate::job::ServiceKind;
use crate::report::format;

/// How a kind of thing is shown in a legend.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum LegendSample {
    Line,
    Area,
}

/// One kind of thing with its one name, for maps, sheets and screens alike.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Entry {
    pub role: Role,
    pub name: &'static str,
    pub sample: LegendSample,
}

const fn line(role: Role, name: &'static str) -> Entry {
    Entry { role, name, sample: LegendSample::Line }
}

const fn area(role: Role, name: &'static str) -> Entry {
    Entry { role, name, sample: LegendSample::Area }
}

/// All that a legend tells of, the work first. What has its name beside it on the map is not here.
pub const KEY: &[Entry] = &[
    line(Role::MastAxis, "mast"),
    line(Role::Guy, "guy"),
    line(Role::Anchor, "guy anchor"),
    line(Role::PlannedPlace, "planned here, stands elsewhere"),
    area(Role::BaseTimber, "base timber"),
    area(Role::Foot, "foot or shim"),
    line(Role::Stake, "base stake"),
    line(Role::Ring, "ring of the strands"),
    line(Role::Conflict, "STOP: do not build it like this"),
    line(Role::FallCircle, "fall circle of the mast"),
    area(Role::WindRaised, "gust limit, mast raised"),
    line(Role::WindLowered, "gust limit, mast lowered"),
    line(Role::WindScale, "circles of equal gusts"),
    line(Role::WindArrow, "wind from its weakest side"),
    line(Role::Mark, "control mark"),
    line(Role::OpenPoint, "one of two places: ask which side"),
    line(Role::Tie, "tape from a mark"),
    line(Role::Lead, "lead of the lights"),
    line(Role::TripPoint, "crossed here: somebody may trip"),
    line(Role::AnchorEllipse, "where an anchor lands, 95 of 100"),
    line(Role::PointEllipse, "where a point lies, 95 of 100"),
    line(Role::SpotHeight, "spot height"),
    line(Role::ContourIndex, "contour, from origin mark"),
    line(Role::FallLine, "fall line, the way water runs"),
    line(Role::MeasuredEdge, "edge of what was measured"),
    line(Role::Boundary, "boundary"),
    area(Role::BuildingArea, "building"),
    area(Role::TreeCrown, "tree: crown and trunk"),
    area(Role::Hedge, "hedge"),
    area(Role::Wall, "wall"),
    line(Role::Fence, "fence"),
    area(Role::PostArea, "post"),
    area(Role::PathArea, "path"),
    area(Role::KeepOffArea, "keep off"),
    line(Role::OverheadWire, "overhead line"),
    area(Role::OverheadZone, "band to keep out of"),
    line(Role::BuriedElectric, "buried: electric"),
    line(Role::BuriedGasOilSteam, "buried: gas, oil, steam"),
    line(Role::BuriedCommunications, "buried: telephone, data"),
    line(Role::BuriedPotableWater, "buried: drinking water"),
    line(Role::BuriedSewerDrain, "buried: sewer, drain"),
    line(Role::BuriedReclaimedWater, "buried: reclaimed water"),
    line(Role::BuriedUnknown, "buried: nobody knows what"),
    area(Role::BuriedZone, "tolerance zone: drive nothing in it"),
];

/// What a role is called; none where its own label says it.
pub fn name(role: Role) -> Option<&'static str> {
    KEY.iter().find(|entry| entry.role == role).map(|entry| entry.name)
}

/// A class of buried services.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Service {
    pub carries: ServiceKind,
    pub role: Role,
    /// After "buried:", and as the choice on the screens.
    pub name: &'static str,
    /// One colour, on paper and in every skin, drawn on a casing where the ground is not white paper.
    pub colour: &'static str,
}

/// The casing under a buried service on the screens: light enough for black, dark enough for yellow, never white.
pub const CASING: &str = "#d9dcdf";

/// Classes of the APWA Uniform Color Code (ANSI Z535.1): red electric, yellow gas, oil and steam, orange communications,
/// blue potable water, green sewer and drain, purple reclaimed water. White means proposed digging there and pink a
/// survey, so that a service of which nobody knows is black. Yellow and orange are darkened to show on white.
pub const SERVICES: [Service; 7] = [
    service(ServiceKind::PotableWater, Role::BuriedPotableWater, "drinking water", "#0b62c4"),
    service(ServiceKind::Electric, Role::BuriedElectric, "electric", "#d3121a"),
    service(ServiceKind::GasOilSteam, Role::BuriedGasOilSteam, "gas, oil, steam", "#9a7500"),
    service(ServiceKind::Communications, Role::BuriedCommunications, "telephone, data", "#c65400"),
    service(ServiceKind::SewerDrain, Role::BuriedSewerDrain, "sewer, drain", "#12803a"),
    service(ServiceKind::ReclaimedWater, Role::BuriedReclaimedWater, "reclaimed water", "#7d2fa0"),
    service(ServiceKind::Unknown, Role::BuriedUnknown, "nobody knows what", "#000000"),
];

const fn service(carries: ServiceKind, role: Role, name: &'static str, colour: &'static str) -> Service {
    Service { carries, role, name, colour }
}

/// The class of what a service carries.
pub fn service_of(carries: ServiceKind) -> Service {
    let [.., unknown] = SERVICES;
    SERVICES.into_iter().find(|service| service.carries == carries).unwrap_or(unknown)
}

/// The paint of a buried service; none for another role.
pub(crate) fn service_colour(role: Role) -> Option<&'static str> {
    SERVICES.iter().find(|service| service.role == role).map(|service| service.colour)
}

/// A role as the screens spell it, such as `buried_zone`.
fn spelt(role: Role) -> String {
    serde_json::to_value(role).ok().and_then(|name| name.as_str().map(str::to_owned)).unwrap_or_default()
}

/// The screens' style sheet of what is defined here and in `paint.rs`.
pub fn style_sheet() -> String {
    let mut css =
        String::from("/* generated by cargo xtask types from the engine's drawing/key.rs and paint.rs */\n");
    css += &paint::style_sheet(spelt);
    let wide = paint::of(Role::BuriedUnknown).pen.px() + 4.0;
    css + &format!(
        ".scene .world .r-casing {{\n  stroke: {CASING};\n  stroke-width: calc({wide}px * var(--map-wider));\n}}\n"
    )
}

/// The screens' legend and choice of services.
pub fn typescript() -> String {
    let mut text = String::from(
        "// generated by cargo xtask types from the engine's drawing/key.rs\nimport type { Role, ServiceKind } from './types';\n\n\
         /** What the map's lines and signs mean. */\n\
         export const LEGEND: readonly { role: Role; name: string; area?: boolean }[] = [\n",
    );
    for entry in KEY {
        let area = if entry.sample == LegendSample::Area { ", area: true" } else { "" };
        text += &format!(
            "  {{ role: '{}', name: '{}'{area} }},\n",
            spelt(entry.role),
            format::capital(entry.name)
        );
    }
    text += "];\n\n/** Signs in letter heights around their own point, pointing up; what is solid is filled. */\n\
             export const SIGNS: Readonly<Partial<Record<Role, readonly { d: string; solid: boolean }[]>>> = {\n";
    for &role in signs::SIGNED {
        let parts: Vec<String> =
            signs::path(role).iter().map(|(d, solid)| format!("{{ d: '{d}', solid: {solid} }}")).collect();
        text += &format!("  {}: [{}],\n", spelt(role), parts.join(", "));
    }
    text += "};\n\n/** Classes and colours of the APWA Uniform Color Code (ANSI Z535.1). */\n\
             export const SERVICES: readonly { value: ServiceKind; name: string; colour: string }[] = [\n";
    for service in SERVICES {
        let value = serde_json::to_value(service.carries).unwrap_or_default();
        let value = value.as_str().unwrap_or_default().to_owned();
        text += &format!(
            "  {{ value: '{value}', name: '{}', colour: '{}' }},\n",
            format::capital(service.name),
            service.colour
        );
    }
    let [beyond, least, apart] = [knob::BEYOND_TIP_EM, knob::LEAST_EM, knob::APART_EM];
    text + "];\n\n/** Where the turning knobs stand, in letter heights: the engine keeps labels clear of them. */\n"
        + &format!(
            "export const KNOBS = {{ beyondTip: {beyond}, least: {least}, apart: {apart} }} as const;\n"
        )
}

#[cfg(test)]
pub(crate) mod tests {
    use super::*;

    /// WCAG 2.2, relative luminance.
    fn luminance(colour: &str) -> f64 {
        let part = |at: usize| {
            let value = f64::from(u8::from_str_radix(&colour[at..at + 2], 16).unwrap()) / 255.0;
            if value <= 0.04045 {
                value / 12.92
            } else {
                crate::numerics::real::pow((value + 0.055) / 1.055, 2.4)
            }
        };
        0.2126 * part(1) + 0.7152 * part(3) + 0.0722 * part(5)
    }

    pub(crate) fn contrast(a: &str, b: &str) -> f64 {
        let [a, b] = [luminance(a), luminance(b)];
        (a.max(b) + 0.05) / (a.min(b) + 0.05)
    }

    /// WCAG 2.2, 1.4.11: 3:1 on white paper and on the casing; white and pink are taken by the APWA for digging and
    /// surveys.
    #[test]
    fn a_buried_service_is_seen_on_paper_and_on_its_casing_and_is_never_white() {
        for service in SERVICES {
            assert!(contrast(service.colour, "#ffffff") >= 3.0, "{} on paper", service.name);
            let on_casing = contrast(service.colour, CASING);
            assert!(on_casing >= 3.0, "{} on its casing: {on_casing}", service.name);
            assert!(luminance(service.colour) < 0.4, "{} is nearly white", service.name);
        }
        let mut colours: Vec<_> = SERVICES.iter().map(|service| service.colour).collect();
        colours.sort_unstable();
        colours.dedup();
        assert_eq!(colours.len(), SERVICES.len());
    }

    /// By the APWA's list: the largest part of each colour.
    #[test]
    fn the_hues_are_those_of_the_apwa() {
        let rgb = |kind| {
            let colour = service_of(kind).colour;
            [1, 3, 5].map(|at| u8::from_str_radix(&colour[at..at + 2], 16).unwrap())
        };
        let [r, g, b] = rgb(ServiceKind::Electric);
        assert!(r > 4 * g && r > 4 * b, "red");
        let [r, g, b] = rgb(ServiceKind::GasOilSteam);
        assert!(r > b && g > b && f64::from(g) > 0.7 * f64::from(r), "yellow");
        let [r, g, b] = rgb(ServiceKind::Communications);
        assert!(r > g && g > b && f64::from(g) < 0.6 * f64::from(r), "orange");
        let [r, g, b] = rgb(ServiceKind::PotableWater);
        assert!(b > g && g > r, "blue");
        let [r, g, b] = rgb(ServiceKind::SewerDrain);
        assert!(g > r && g > b, "green");
        let [r, g, b] = rgb(ServiceKind::ReclaimedWater);
        assert!(b > g && r > g, "purple");
        assert_eq!(rgb(ServiceKind::Unknown), [0; 3]);
    }

    #[test]
    fn every_kind_has_one_name_and_every_name_one_kind() {
        for (i, entry) in KEY.iter().enumerate() {
            assert!(KEY.iter().skip(i + 1).all(|other| other.role != entry.role && other.name != entry.name));
        }
        for service in SERVICES {
            assert_eq!(name(service.role), Some(format!("buried: {}", service.name).as_str()));
        }
    }
}
