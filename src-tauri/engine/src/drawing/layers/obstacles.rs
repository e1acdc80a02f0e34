//! The boundary and what stands in the yard.

use crate::drawing::canvas::Canvas;
use crate::drawing::geometry::{band, bounds_of, centroid, middle};
use crate::drawing::labels::{WhereTo, Wish};
use crate::drawing::scene::{Bounds, Role};
use crate::finding::Subject;
use crate::job::{BarrierKind, PathUse};
use crate::report::format;
use crate::yard::{PlacedObstacle, PlacedShape};

use super::{View, along_line, priority};

/// Where the ground under a building differs by more, its label says from where its height counts: less than this
/// is lost in the rounding of the label.
const LEVEL_FOOTPRINT_M: f64 = 0.05;

pub(crate) fn draw(canvas: &mut Canvas, view: &View) {
    // Flat things first, so that what stands is painted over them.
    for flat in [true, false] {
        for obstacle in &view.computed.yard.obstacles {
            let lies_flat = matches!(obstacle.shape, PlacedShape::Path { .. } | PlacedShape::KeepOff { .. });
            if lies_flat == flat {
                draw_obstacle(canvas, view, obstacle);
            }
        }
    }
}

pub(crate) fn boundary(canvas: &mut Canvas, view: &View) {
    let Some(outline) = &view.computed.yard.boundary else { return };
    let mut line = outline.clone();
    line.extend(outline.first().copied());
    let places = along_line(&line, 0.8 * canvas.text_m, &canvas.bounds);
    canvas.label(super::quiet(vec!["boundary".into()], Some(Subject::Boundary), priority::BOUNDARY, places));
    canvas.line(Role::Boundary, Some(Subject::Boundary), line);
}

fn draw_obstacle(canvas: &mut Canvas, view: &View, obstacle: &PlacedObstacle) {
    let subject = Some(Subject::Obstacle { id: obstacle.id.clone() });
    match &obstacle.shape {
        PlacedShape::Tree { at, trunk_radius_m, crown_radius_m, .. } => {
            canvas.circle(Role::TreeCrown, subject.clone(), *at, *crown_radius_m);
            canvas.circle(Role::TreeTrunk, subject, *at, *trunk_radius_m);
        }
        PlacedShape::Building { outline, .. } => {
            canvas.area(Role::BuildingArea, subject, outline.clone());
        }
        PlacedShape::Barrier { what, line, thickness_m, .. } => match what {
            BarrierKind::Wall => canvas.area(Role::Wall, subject, band(line, thickness_m / 2.0)),
            BarrierKind::Hedge => canvas.area(Role::Hedge, subject, band(line, thickness_m / 2.0)),
            BarrierKind::Fence => canvas.line(Role::Fence, subject, line.clone()),
        },
        PlacedShape::Post { at, radius_m, .. } => {
            canvas.circle(Role::PostArea, subject, *at, *radius_m);
        }
        PlacedShape::Path { outline, .. } => canvas.area(Role::PathArea, subject, outline.clone()),
        PlacedShape::KeepOff { outline } => canvas.area(Role::KeepOffArea, subject, outline.clone()),
    }
    label(canvas, view, obstacle);
}

/// Name and height in words, inside what is wide, along what is long, beside what is small.
fn label(canvas: &mut Canvas, view: &View, obstacle: &PlacedObstacle) {
    let em = canvas.text_m;
    let where_to = match &obstacle.shape {
        PlacedShape::Tree { at, crown_radius_m, trunk_radius_m, .. } => {
            if *crown_radius_m > 3.0 * em {
                let off = trunk_radius_m + 1.4 * em;
                let places = [[0.0, -off], [0.0, off], [off, 0.0], [-off, 0.0]];
                WhereTo::On { places: places.map(|o| ([at[0] + o[0], at[1] + o[1]], 0.0)).to_vec() }
            } else {
                WhereTo::Beside { at: *at, clear_m: crown_radius_m.max(0.3 * em), away_from: None }
            }
        }
        PlacedShape::Post { at, radius_m, .. } => {
            WhereTo::Beside { at: *at, clear_m: radius_m.max(0.3 * em), away_from: None }
        }
        PlacedShape::Building { outline, .. } | PlacedShape::KeepOff { outline } => {
            WhereTo::On { places: inside(outline, &canvas.bounds) }
        }
        PlacedShape::Barrier { line, thickness_m, .. } => {
            WhereTo::On { places: along_line(line, thickness_m / 2.0 + 0.8 * em, &canvas.bounds) }
        }
        PlacedShape::Path { line, width_m, .. } => {
            let aside = if *width_m > 1.2 * em { 0.0 } else { width_m / 2.0 + 0.8 * em };
            WhereTo::On { places: along_line(line, aside, &canvas.bounds) }
        }
    };
    canvas.label(Wish {
        lines: words(view, obstacle),
        role: Role::LabelQuiet,
        subject: Some(Subject::Obstacle { id: obstacle.id.clone() }),
        priority: priority::OBSTACLE,
        must: false,
        where_to,
    });
}

/// Places for words in an outline: its middle in view, then towards its corners.
fn inside(outline: &[[f64; 2]], bounds: &Bounds) -> Vec<([f64; 2], f64)> {
    let seen: Vec<[f64; 2]> = outline
        .iter()
        .map(|p| [p[0].clamp(bounds.min[0], bounds.max[0]), p[1].clamp(bounds.min[1], bounds.max[1])])
        .collect();
    let centre = centroid(&seen);
    let mut places = vec![(centre, 0.0)];
    for i in 0..seen.len() {
        let edge = middle(seen[i], seen[(i + 1) % seen.len()]);
        places.extend([seen[i], edge].map(|p| (middle(centre, p), 0.0)));
    }
    places
}

fn words(view: &View, obstacle: &PlacedObstacle) -> Vec<String> {
    let high = |height_m: f64| format!("{} high", format::length_short(height_m, view.units()));
    let name = obstacle.name.clone();
    match &obstacle.shape {
        PlacedShape::Tree { height_m, crown_base_m, .. } => {
            let branches = format::length_short(*crown_base_m, view.units());
            vec![name, high(*height_m), format!("branches from {branches}")]
        }
        PlacedShape::Building { height_m, ground_z: [lowest, highest], .. }
            if highest - lowest > LEVEL_FOOTPRINT_M =>
        {
            vec![name, high(*height_m), "from its highest ground".into()]
        }
        PlacedShape::Building { height_m, .. } | PlacedShape::Post { height_m, .. } => {
            vec![name, high(*height_m)]
        }
        // It follows the ground, so its height is the same all along.
        PlacedShape::Barrier { height_m, .. } => vec![format!("{name}, {}", high(*height_m))],
        PlacedShape::Path { used_by, headroom_m, .. } => {
            let who = match used_by {
                PathUse::Foot => "on foot",
                PathUse::Vehicles => "vehicles",
            };
            vec![format!("{name} ({who}, headroom {})", format::length_short(*headroom_m, view.units()))]
        }
        PlacedShape::KeepOff { .. } => vec![name, "keep off".into()],
    }
}

/// The box around each obstacle.
pub(crate) fn extents(yard: &crate::yard::PlacedYard) -> Vec<Bounds> {
    yard.obstacles
        .iter()
        .filter_map(|obstacle| {
            let bounds = bounds_of(&outline_points(&obstacle.shape))?;
            let crown = if let PlacedShape::Tree { crown_radius_m, .. } = obstacle.shape {
                crown_radius_m
            } else {
                0.0
            };
            Some(bounds.grown(crown))
        })
        .collect()
}

/// Points that stand for an obstacle where only nearness matters.
pub(crate) fn outline_points(shape: &PlacedShape) -> Vec<[f64; 2]> {
    match shape {
        PlacedShape::Tree { at, .. } | PlacedShape::Post { at, .. } => vec![*at],
        PlacedShape::Building { outline, .. }
        | PlacedShape::KeepOff { outline }
        | PlacedShape::Path { outline, .. } => outline.clone(),
        PlacedShape::Barrier { line, .. } => line.clone(),
    }
}
