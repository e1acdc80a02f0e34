//! The line to lay a rule on after printing: if it is not as long as it says, the print is not to scale.

use crate::drawing::marks::{PageMark, Path, Step, plain};
use crate::drawing::paint::INK;
use crate::drawing::scene::Align;
use crate::drawing::scene_marks::words;
use crate::quantity::UnitSystem;

/// How a ruler lies.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Way {
    Across,
    Down,
}

/// How long a ruler is that takes no more than `most_mm`, in whole centimetres or inches, and how that is written.
pub(crate) fn length(system: UnitSystem, most_mm: f64) -> (f64, String) {
    match system {
        UnitSystem::Metric => {
            let centimetres = (most_mm / 10.0).floor().clamp(1.0, 10.0);
            (10.0 * centimetres, format!("{} mm", 10.0 * centimetres))
        }
        UnitSystem::Imperial => {
            let inches = (most_mm / 25.4).floor().clamp(1.0, 4.0);
            (25.4 * inches, format!("{inches} in"))
        }
    }
}

/// A ruler from a point to the right or down, its ticks and words on its left (or upper) side and below.
pub(crate) fn ruler(from: [f64; 2], way: Way, system: UnitSystem, most_mm: f64) -> Vec<PageMark> {
    let (length_mm, says) = length(system, most_mm);
    let part_mm = if system == UnitSystem::Metric { 10.0 } else { 25.4 };
    let parts = (length_mm / part_mm).round() as u32;
    // Along the ruler and to its side.
    let at = |along: f64, aside: f64| match way {
        Way::Across => [from[0] + along, from[1] - aside],
        Way::Down => [from[0] + aside, from[1] + along],
    };
    let mut steps = vec![Step::Move(at(0.0, 0.0)), Step::Line(at(length_mm, 0.0))];
    for part in 0..=parts {
        let tick = if part == 0 || part == parts { 3.0 } else { 1.6 };
        let along = f64::from(part) * part_mm;
        steps.extend([Step::Move(at(along, 0.0)), Step::Line(at(along, tick))]);
    }
    let line = PageMark::Path(Path { steps, stroke: Some(plain(INK.paper(), 0.25)), fill: None });
    let label = match words(
        at(0.0, -2.4),
        2.2,
        false,
        Align::Start,
        &format!("Check: {says} long on paper, or the print is not to scale"),
    ) {
        PageMark::Words(label) if way == Way::Down => {
            PageMark::Words(crate::drawing::marks::Words { turn_deg: 90.0, ..label })
        }
        label => label,
    };
    vec![line, label]
}
