//! What stands in the yard, lies on it and hangs over it. What nobody gave a height stays an outline on the ground.

use super::pieces::convex_pieces;
use super::{Body, BodyShape, Side, Thing, YardToSee};
use crate::finding::Subject;
use crate::job::BarrierKind;
use crate::numerics::outline::sides;
use crate::view::camera::P3;
use crate::view::draped::{draped, draped_line, draped_outline, round};
use crate::view::results::{HeightOf, ThingKind};
use crate::view::seen::{FaceKind, LineKind};
use crate::yard::pieces::wall_pieces;
use crate::yard::{PlacedObstacle, PlacedOverheadLine, PlacedShape, PlacedYard};

/// Corners round a post, a trunk or a crown on the ground.
const CORNERS: u32 = 24;
/// A post thicker than this is a block of many sides, a thinner one an upright strip.
const THIN_M: f64 = 0.3;
/// A fence that nobody gave a thickness.
const LEAST_HALF_M: f64 = 0.01;

pub(super) fn put(yard: &mut YardToSee, placed: &PlacedYard) {
    for obstacle in &placed.obstacles {
        put_obstacle(yard, obstacle);
    }
    for line in &placed.overhead_lines {
        put_wire(yard, line);
    }
    if let Some(outline) = placed.boundary.as_ref().filter(|outline| outline.len() > 2) {
        let thing = yard.thing(Thing {
            subject: Subject::Boundary,
            kind: ThingKind::Boundary,
            name: "Boundary".to_owned(),
            height: HeightOf::OnGround,
            footprint: outline.iter().chain(outline.first()).copied().collect(),
            closed: false,
            radius_m: 0.0,
            top: on_ground(yard, outline[0]),
            label: on_ground(yard, outline[0]),
        });
        let points = draped_outline(&yard.ground, outline);
        yard.line(thing, LineKind::Boundary, points);
    }
}

fn on_ground(yard: &YardToSee, at: [f64; 2]) -> P3 {
    [at[0], at[1], yard.ground.height(at)]
}

/// A height of nothing is none: nobody builds a house of 0 m.
fn entered(height_m: f64, sigma_m: f64) -> HeightOf {
    if height_m > 0.0 { HeightOf::Known { height_m, sigma_m } } else { HeightOf::NotKnown }
}

fn put_obstacle(yard: &mut YardToSee, obstacle: &PlacedObstacle) {
    let sigma_m = obstacle.height_sigma_m;
    let thing = |kind, height, footprint: Vec<[f64; 2]>, closed, radius_m, top| Thing {
        subject: Subject::Obstacle { id: obstacle.id.clone() },
        kind,
        name: obstacle.name.clone(),
        height,
        footprint,
        closed,
        radius_m,
        top,
        label: top,
    };
    match &obstacle.shape {
        PlacedShape::Tree { at, trunk_radius_m, crown_radius_m, height_m, crown_base_z, top_z, .. } => {
            let height = entered(*height_m, sigma_m);
            let top = [at[0], at[1], *top_z];
            let radius_m = crown_radius_m.max(*trunk_radius_m);
            let tree = yard.thing(thing(ThingKind::Tree, height, vec![*at], false, radius_m, top));
            if height == HeightOf::NotKnown {
                return put_unknown(
                    yard,
                    tree,
                    &[round(*at, *trunk_radius_m, CORNERS), round(*at, *crown_radius_m, CORNERS)],
                );
            }
            let foot_z = yard.ground.height(*at);
            let half_height_m = 0.5 * (top_z - crown_base_z);
            let has_crown = *crown_radius_m > 0.0 && half_height_m > 0.0;
            // Up to where it goes into the egg.
            let share = trunk_radius_m / crown_radius_m.max(*trunk_radius_m);
            let into = 1.0 - share * share;
            let trunk_z = if has_crown { top_z - half_height_m * (1.0 + into.sqrt()) } else { *top_z };
            if *trunk_radius_m > 0.0 {
                put_round(yard, tree, FaceKind::Trunk, *at, *trunk_radius_m, [foot_z, trunk_z]);
            }
            if has_crown {
                let middle = [at[0], at[1], top_z - half_height_m];
                let shape = BodyShape::Egg { middle, radius_m: *crown_radius_m, half_height_m };
                yard.bodies.push(Body { thing: tree, kind: FaceKind::Leaves, shape });
            }
        }
        PlacedShape::Post { at, radius_m, height_m, top_z } => {
            let height = entered(*height_m, sigma_m);
            let top = [at[0], at[1], *top_z];
            let post = yard.thing(thing(ThingKind::Post, height, vec![*at], false, *radius_m, top));
            if height == HeightOf::NotKnown {
                return put_unknown(yard, post, &[round(*at, radius_m.max(0.1), CORNERS)]);
            }
            let foot_z = yard.ground.height(*at);
            put_round(yard, post, FaceKind::Post, *at, radius_m.max(LEAST_HALF_M), [foot_z, *top_z]);
        }
        PlacedShape::Building { outline, height_m, ground_z, top_z } => {
            let height = entered(*height_m, sigma_m);
            let middle = middle_of(outline);
            let house = yard.thing(thing(
                ThingKind::Building,
                height,
                outline.clone(),
                true,
                0.0,
                [middle[0], middle[1], *top_z],
            ));
            if height == HeightOf::NotKnown {
                return put_unknown(yard, house, std::slice::from_ref(outline));
            }
            for (piece, own) in convex_pieces(outline) {
                put_block(yard, house, FaceKind::Wall, piece, &own, [ground_z[0], *top_z]);
            }
        }
        PlacedShape::Barrier { what, line, thickness_m, height_m, top_z } => {
            let height = entered(*height_m, sigma_m);
            let (kind, face) = match what {
                BarrierKind::Wall => (ThingKind::Wall, FaceKind::Stone),
                BarrierKind::Fence => (ThingKind::Fence, FaceKind::Fence),
                BarrierKind::Hedge => (ThingKind::Hedge, FaceKind::Hedge),
            };
            let middle = line.get(line.len() / 2).copied().unwrap_or_default();
            let top = [middle[0], middle[1], *top_z];
            let barrier = yard.thing(thing(kind, height, line.clone(), false, thickness_m / 2.0, top));
            if height == HeightOf::NotKnown {
                let points = draped_line(&yard.ground, line);
                return yard.line(barrier, LineKind::Unknown, points);
            }
            put_barrier(yard, barrier, face, line, (thickness_m / 2.0).max(LEAST_HALF_M), *height_m);
        }
        PlacedShape::Path { outline, line, .. } => {
            let middle = line.get(line.len() / 2).copied().unwrap_or_default();
            let top = on_ground(yard, middle);
            let path =
                yard.thing(thing(ThingKind::Path, HeightOf::OnGround, outline.clone(), true, 0.0, top));
            let points = draped_outline(&yard.ground, outline);
            yard.line(path, LineKind::Path, points);
        }
        PlacedShape::KeepOff { outline } => {
            // A pond, or an outline that another program gave: whether it stands up nobody has said.
            let top = on_ground(yard, middle_of(outline));
            let area =
                yard.thing(thing(ThingKind::KeepOff, HeightOf::NotKnown, outline.clone(), true, 0.0, top));
            put_unknown(yard, area, std::slice::from_ref(outline));
        }
    }
}

fn middle_of(outline: &[[f64; 2]]) -> [f64; 2] {
    let n = outline.len().max(1) as f64;
    outline.iter().fold([0.0; 2], |sum, p| [sum[0] + p[0] / n, sum[1] + p[1] / n])
}

fn put_unknown(yard: &mut YardToSee, thing: usize, outlines: &[Vec<[f64; 2]>]) {
    let middle = outlines.last().map_or([0.0; 2], |outline| middle_of(outline));
    let top = on_ground(yard, middle);
    if let Some(thing) = yard.things.get_mut(thing) {
        (thing.top, thing.label) = (top, top);
    }
    for outline in outlines.iter().filter(|outline| outline.len() > 2) {
        let points = draped_outline(&yard.ground, outline);
        yard.line(thing, LineKind::Unknown, points);
    }
}

fn put_round(yard: &mut YardToSee, thing: usize, kind: FaceKind, at: [f64; 2], radius_m: f64, z: [f64; 2]) {
    if radius_m > THIN_M {
        let outline = round(at, radius_m, CORNERS);
        let own = vec![true; outline.len()];
        return put_block(yard, thing, kind, outline, &own, z);
    }
    let shape = BodyShape::Stem { at, radius_m, foot_z: z[0], top_z: z[1] };
    yard.bodies.push(Body { thing, kind, shape });
}

/// `own` says of each side whether it is one of the thing's.
fn put_block(
    yard: &mut YardToSee,
    thing: usize,
    kind: FaceKind,
    outline: Vec<[f64; 2]>,
    own: &[bool],
    [foot_z, top_z]: [f64; 2],
) {
    let is_round = outline.len() >= CORNERS as usize;
    let n = own.len();
    let side = |(i, (a, b)): (usize, ([f64; 2], [f64; 2]))| Side {
        foot: if own[i] { draped(&yard.ground, a, b) } else { Vec::new() },
        has_edge: !is_round && (own[i] || own[(i + n - 1) % n]),
        is_drawn: own[i],
    };
    let sides = sides(&outline).enumerate().map(side).collect();
    yard.bodies.push(Body { thing, kind, shape: BodyShape::Block { outline, foot_z, top_z, sides } });
}

/// In the pieces that clearances are taken from.
fn put_barrier(
    yard: &mut YardToSee,
    thing: usize,
    kind: FaceKind,
    line: &[[f64; 2]],
    half_m: f64,
    height_m: f64,
) {
    let of = |ends: &[[f64; 2]]| wall_pieces(ends[0], ends[1], half_m).collect::<Vec<_>>();
    let straight: Vec<_> = line.windows(2).map(of).collect();
    for pieces in straight {
        let last = pieces.len().saturating_sub(1);
        for (i, piece) in pieces.iter().enumerate() {
            let way = [piece.b[0] - piece.a[0], piece.b[1] - piece.a[1]];
            let long = (way[0] * way[0] + way[1] * way[1]).sqrt();
            if long <= 0.0 {
                continue;
            }
            let aside = [-way[1] / long * half_m, way[0] / long * half_m];
            let corner = |p: [f64; 2], to: f64| [p[0] + to * aside[0], p[1] + to * aside[1]];
            let outline =
                [corner(piece.a, -1.0), corner(piece.b, -1.0), corner(piece.b, 1.0), corner(piece.a, 1.0)];
            let foot_z = outline.iter().map(|&p| yard.ground.height(p)).fold(f64::INFINITY, f64::min);
            let top_z = piece.ground_z(&yard.ground) + height_m;
            let edges = [i == 0, i == last, i == last, i == 0];
            let side = |(k, (a, b)): (usize, ([f64; 2], [f64; 2]))| Side {
                foot: draped(&yard.ground, a, b),
                has_edge: edges[k],
                // The ends of a piece between two others are no ends of the wall.
                is_drawn: k % 2 == 0 || (k == 1 && i == last) || (k == 3 && i == 0),
            };
            let sides = sides(&outline).enumerate().map(side).collect();
            let shape = BodyShape::Block { outline: outline.to_vec(), foot_z, top_z, sides };
            yard.bodies.push(Body { thing, kind, shape });
        }
    }
}

fn put_wire(yard: &mut YardToSee, line: &PlacedOverheadLine) {
    let over = |p: &P3| p[2] - yard.ground.height([p[0], p[1]]);
    let lowest_m = line.supports.iter().map(over).fold(f64::INFINITY, f64::min);
    let plan: Vec<[f64; 2]> = line.supports.iter().map(|p| [p[0], p[1]]).collect();
    let Some(middle) = line.wire.get(line.wire.len() / 2).copied() else { return };
    let height = entered(lowest_m, line.height_sigma_m);
    let thing = yard.thing(Thing {
        subject: Subject::OverheadLine { id: line.id.clone() },
        kind: ThingKind::OverheadLine,
        name: line.name.clone(),
        height,
        footprint: plan.clone(),
        closed: false,
        radius_m: 0.0,
        top: middle,
        label: middle,
    });
    if height == HeightOf::NotKnown {
        let points = draped_line(&yard.ground, &plan);
        return yard.line(thing, LineKind::Unknown, points);
    }
    yard.line(thing, LineKind::Wire, line.wire.clone());
    for support in &line.supports {
        let foot = on_ground(yard, [support[0], support[1]]);
        yard.line(thing, LineKind::WireSupport, vec![foot, *support]);
    }
}
