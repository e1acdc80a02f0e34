//! Finds every point of the yard, and says which can't be used.

use std::collections::BTreeSet;

use super::flat::{distance, widened};
use super::parts::half_width_95;
use super::pieces::wall_pieces;
use super::sight::{Finder, Fixes, Sight};
use super::*;
use crate::ground::Ground;
use crate::ground::highest::{range_round, range_within};
use crate::job::{self, PointFix, Shape};
use crate::numerics::outline::{crossing, signed_area};
use crate::pointer;
use crate::quantity::{FieldError, FieldErrors, UnitSystem};
use crate::round_figures::keep::BURIED_TOLERANCE;
use crate::survey::PlacedMark;
use crate::survey::ellipse::principal_variances;
use crate::survey::positions::PositionEstimate;

/// Pieces of a wire between two supports. The wire hangs below its chain by sag/1024 at most.
const PIECES: u32 = 32;

/// An outline's corners nearer to each other than this are one corner.
const SAME_CORNER_M: f64 = 1e-3;

/// An outline with less than a square centimetre holds nothing.
const LEAST_AREA_M2: f64 = 1e-4;

/// Finds every point of the yard and turns heights above the ground into levels of the site frame.
///
/// The marks come placed, as their network was adjusted. A struck spot height is left out, and so is what waits for a
/// side to be named: the plan asks for it. Outlines come out anticlockwise, without doubled corners.
///
/// # Errors
/// All that is wrong at once: points that can't be found, outlines that cross themselves or hold no area, ids used
/// twice; each with its path such as `/yard/obstacles/2/shape/outline/0`.
pub fn place(
    yard: &job::Yard,
    system: UnitSystem,
    marks: Vec<PlacedMark>,
    finder: &dyn Finder,
    ground: &Ground,
) -> Result<FoundYard, FieldErrors> {
    let mut placer = Placer { system, finder, ground, fixes: Vec::new(), errors: Vec::new() };
    placer.unique(pointer!(yard.spot_heights), yard.spot_heights.iter().map(|s| s.id.as_str()));
    placer.unique(pointer!(yard.obstacles), yard.obstacles.iter().map(|o| o.id.as_str()));
    placer.unique(pointer!(yard.overhead_lines), yard.overhead_lines.iter().map(|l| l.id.as_str()));
    placer.unique(pointer!(yard.buried_services), yard.buried_services.iter().map(|b| b.id.as_str()));

    let outline = yard.boundary.as_ref().map(|b| corners(pointer!(yard.boundary?.outline), &b.outline));
    let boundary = outline
        .filter(|outline| !placer.any_open(outline))
        .map(|outline| placer.outline(outline, pointer!(yard.boundary?.outline)));
    let placed = PlacedYard {
        system,
        // Filled in by the plan's check, which knows the whole job.
        asked: asked::Asked::default(),
        boundary_sigma_m: 0.0,
        boundary,
        marks,
        spot_heights: placer.each(&yard.spot_heights, pointer!(yard.spot_heights), |p, spot, path| {
            let at = pointer!(in path, job::SpotHeight: at);
            (!spot.struck && !p.finder.is_open(&spot.at, &at)).then(|| p.spot(spot, &at))
        }),
        obstacles: placer.each(&yard.obstacles, pointer!(yard.obstacles), |p, obstacle, path| {
            let (part, points) = obstacle.shape.points();
            let at = format!("{}/{part}", pointer!(in path, job::Obstacle: shape));
            let points =
                if part == "at" { vec![(points[0].clone(), at.clone())] } else { corners(&at, points) };
            (!p.any_open(&points)).then(|| p.obstacle(obstacle, points, &at))
        }),
        overhead_lines: placer.each(&yard.overhead_lines, pointer!(yard.overhead_lines), |p, line, path| {
            let at = |(i, support): (usize, _)| -> (PointFix, String) {
                let support: &job::LineSupport = support;
                (support.at.clone(), pointer!(in path, job::OverheadLine: supports[i].at))
            };
            let points: Vec<(PointFix, String)> = line.supports.iter().enumerate().map(at).collect();
            (!p.any_open(&points)).then(|| p.overhead(line, points))
        }),
        buried_services: placer.each(
            &yard.buried_services,
            pointer!(yard.buried_services),
            |p, service, path| {
                let points = corners(&pointer!(in path, job::BuriedService: line), &service.line);
                (!p.any_open(&points)).then(|| p.buried(service, points))
            },
        ),
    };
    let Placer { fixes, errors, .. } = placer;
    if !errors.is_empty() {
        return Err(errors.into());
    }
    let around = placed.obstacles.iter().map(|thing| Around::of(thing, ground)).collect();
    Ok(FoundYard { yard: placed, fixes, around })
}

/// A yard with every point found, wherever the mast stands.
#[derive(Debug, Clone)]
pub struct FoundYard {
    /// Without the uncertainties, which are those of distances from the mast.
    yard: PlacedYard,
    /// Of each thing with an uncertainty, in the order of [`FoundYard::seen`].
    fixes: Vec<Fixes>,
    /// Of each obstacle.
    around: Vec<Around>,
}

/// A circle that an obstacle lies within.
#[derive(Debug, Clone, Copy)]
struct Around {
    middle: [f64; 2],
    radius_m: f64,
    /// Part of it stands where nobody measured the ground: that is said however far off it is.
    on_guessed_ground: bool,
}

impl Around {
    fn of(thing: &PlacedObstacle, ground: &Ground) -> Self {
        let mut points = thing.shape.stands_on();
        let beside_m = match &thing.shape {
            PlacedShape::Path { line, width_m, .. } => {
                points.extend(line);
                width_m / 2.0
            }
            PlacedShape::KeepOff { outline } => {
                points.extend(outline);
                0.0
            }
            PlacedShape::Barrier { thickness_m, .. } => thickness_m / 2.0,
            _ => 0.0,
        };
        let bounds = |axis: usize, worse: fn(f64, f64) -> f64, from: f64| {
            points.iter().map(|p| p[axis]).fold(from, worse)
        };
        let middle = [0, 1].map(|axis| {
            0.5 * (bounds(axis, f64::min, f64::INFINITY) + bounds(axis, f64::max, f64::NEG_INFINITY))
        });
        let radius_m = beside_m + points.iter().map(|p| distance(middle, *p)).fold(0.0, f64::max);
        let on_guessed_ground =
            ground.surface.is_some() && points.iter().any(|at| ground.outside(*at).is_some());
        Self { middle, radius_m, on_guessed_ground }
    }
}

/// How far the work reaches, for what lies too far from it to matter.
#[derive(Debug, Clone, Copy)]
pub struct WorkReach {
    pub mast: [f64; 2],
    /// From the mast to its farthest part, and as much room beyond it as counts.
    pub reach_m: f64,
    /// The largest standard uncertainty of any part against the mast.
    pub sigma_m: f64,
    /// That of the mast among the marks.
    pub pegged_sigma_m: f64,
}

impl FoundYard {
    pub fn marks(&self) -> &[PlacedMark] {
        &self.yard.marks
    }

    /// As it is seen from a mast: with the standard uncertainty of each thing's distance from it.
    pub fn seen(&self, sight: &dyn Sight) -> PlacedYard {
        self.seen_of(sight, &mut |_, _| true)
    }

    /// The same with those obstacles alone that the work may come too near to, or has no more room to than counts; the others
    /// say nothing of this place.
    pub fn seen_near(&self, sight: &dyn Sight, reach: &WorkReach) -> PlacedYard {
        self.seen_of(sight, &mut |index, fixes| {
            let (Some(around), Some(thing)) = (self.around.get(index), self.yard.obstacles.get(index)) else {
                return true;
            };
            let gap_m = distance(reach.mast, around.middle) - around.radius_m - thing.keep_off_m;
            // The deviation of a difference is no more than those of its parts together, whatever they share (Minkowski).
            let unsure_m = half_width_95(reach.sigma_m, fixes.most_sigma_m + reach.pegged_sigma_m);
            let too_far = gap_m > reach.reach_m + unsure_m;
            around.on_guessed_ground || !too_far
        })
    }

    fn seen_of(&self, sight: &dyn Sight, counts: &mut dyn FnMut(usize, &Fixes) -> bool) -> PlacedYard {
        let mut fixes = self.fixes.iter();
        let known = &self.yard;
        let boundary = known.boundary.as_ref().and_then(|_| fixes.next());
        // In this order a zip takes no fix that is none of theirs.
        let things = known.obstacles.iter().zip(fixes.by_ref()).enumerate();
        let things = things.filter(|(index, (_, fixes))| counts(*index, fixes));
        let mut yard = PlacedYard {
            obstacles: things
                .map(|(_, (thing, fixes))| PlacedObstacle { sigma_m: sight.sigma_m(fixes), ..thing.clone() })
                .collect(),
            system: known.system,
            boundary: known.boundary.clone(),
            boundary_sigma_m: boundary.map_or(0.0, |fixes| sight.sigma_m(fixes)),
            overhead_lines: known.overhead_lines.clone(),
            buried_services: known.buried_services.clone(),
            marks: known.marks.clone(),
            spot_heights: known.spot_heights.clone(),
            asked: known.asked.clone(),
        };
        let lines = yard.overhead_lines.iter_mut().map(|line| &mut line.sigma_m);
        let services = yard.buried_services.iter_mut().map(|service| &mut service.sigma_m);
        lines.chain(services).zip(fixes).for_each(|(sigma_m, fixes)| *sigma_m = sight.sigma_m(fixes));
        yard
    }
}

struct Placer<'a> {
    system: UnitSystem,
    finder: &'a dyn Finder,
    ground: &'a Ground,
    fixes: Vec<Fixes>,
    errors: Vec<FieldError>,
}

impl Placer<'_> {
    fn each<T, U>(
        &mut self,
        items: &[T],
        path: &str,
        mut place: impl FnMut(&mut Self, &T, &str) -> Option<U>,
    ) -> Vec<U> {
        items.iter().enumerate().filter_map(|(i, item)| place(self, item, &format!("{path}/{i}"))).collect()
    }

    fn any_open(&self, points: &[(PointFix, String)]) -> bool {
        points.iter().any(|(fix, path)| self.finder.is_open(fix, path))
    }

    fn refuse(&mut self, path: String, given: String, allowed: &str) {
        self.errors.push(FieldError::new(path, given, allowed));
    }

    fn unique<'s>(&mut self, path: &str, ids: impl Iterator<Item = &'s str>) {
        let mut seen = BTreeSet::new();
        for (i, id) in ids.enumerate() {
            if !seen.insert(id) {
                self.refuse(
                    format!("{path}/{i}/id"),
                    format!("`{id}`, which is taken"),
                    "an id that no other has",
                );
            }
        }
    }

    /// A point that can't be found is noted and stands in the origin until the errors are handed back.
    fn located(&mut self, fix: &PointFix, path: &str) -> PositionEstimate {
        let problem = match self.finder.locate(fix, path) {
            Ok(found) if found.at.iter().all(|x| x.is_finite()) => return found,
            Ok(_) => FieldError::new(path, "a point that lies nowhere", "measurements that meet in a point"),
            Err(error) => error,
        };
        self.errors.push(problem);
        PositionEstimate { at: [0.0; 2], covariance: [[0.0; 2]; 2] }
    }

    fn line(&mut self, points: Vec<(PointFix, String)>) -> Vec<[f64; 2]> {
        self.chain(points, false)
    }

    fn chain(&mut self, points: Vec<(PointFix, String)>, closed: bool) -> Vec<[f64; 2]> {
        let found: Vec<PositionEstimate> = points.iter().map(|(fix, path)| self.located(fix, path)).collect();
        let most = found.iter().map(|it| principal_variances(it.covariance)[0]).fold(0.0, f64::max);
        let at: Vec<[f64; 2]> = found.iter().map(|it| it.at).collect();
        self.fixes.push(Fixes { points, at: at.clone(), closed, most_sigma_m: most.sqrt() });
        at
    }

    fn outline(&mut self, points: Vec<(PointFix, String)>, path: &str) -> Vec<[f64; 2]> {
        let before = self.errors.len();
        let mut found = self.chain(points, true);
        found.dedup_by(|a, b| distance(*a, *b) < SAME_CORNER_M);
        while found.len() > 1 && distance(found[0], found[found.len() - 1]) < SAME_CORNER_M {
            found.pop();
        }
        if self.errors.len() > before {
            return found; // its shape means nothing while corners are missing
        }
        if let Some((i, j)) = crossing(&found) {
            let given = format!("an outline whose side {} meets its side {}", i + 1, j + 1);
            self.refuse(path.to_owned(), given, "an outline whose sides meet only at its corners");
            return found;
        }
        let area = signed_area(&found);
        if area.abs() < LEAST_AREA_M2 {
            self.refuse(
                path.to_owned(),
                "an outline without area".to_owned(),
                "three corners or more around an area",
            );
        } else if area < 0.0 {
            found.reverse();
        }
        found
    }

    fn spot(&mut self, spot: &job::SpotHeight, path: &str) -> PlacedSpot {
        let found = self.located(&spot.at, path);
        PlacedSpot { id: spot.id.clone(), at: found.at, height_m: spot.height_m }
    }

    fn obstacle(
        &mut self,
        obstacle: &job::Obstacle,
        points: Vec<(PointFix, String)>,
        path: &str,
    ) -> PlacedObstacle {
        let shape = self.shape(&obstacle.shape, points, path);
        PlacedObstacle {
            id: obstacle.id.clone(),
            name: obstacle.name.clone(),
            keep_off_m: obstacle
                .keep_off_m
                .unwrap_or(default_clearances::keep_off(&obstacle.shape).of(self.system)),
            shape,
            sigma_m: 0.0,
            height_sigma_m: obstacle.shape.height_sigma_m(),
        }
    }

    fn shape(&mut self, shape: &Shape, points: Vec<(PointFix, String)>, path: &str) -> PlacedShape {
        match shape {
            Shape::Tree {
                at: _,
                trunk_radius_m,
                crown_radius_m,
                crown_base_m,
                height_m,
                height_sigma_m: _,
            } => {
                let found = self.line(points);
                let at = found[0];
                // Whoever measured it stood somewhere under its crown.
                let on = range_round(self.ground, at, crown_radius_m.max(*trunk_radius_m));
                PlacedShape::Tree {
                    at,
                    trunk_radius_m: *trunk_radius_m,
                    crown_radius_m: *crown_radius_m,
                    crown_base_m: *crown_base_m,
                    height_m: *height_m,
                    crown_base_z: on.lowest_m + crown_base_m.min(*height_m),
                    top_z: on.highest_m + height_m,
                }
            }
            Shape::Building { outline: _, height_m, height_sigma_m: _ } => {
                let found = self.outline(points, path);
                // An outline that was refused holds no corner.
                let ground_z =
                    range_within(self.ground, &found).map_or([0.0; 2], |r| [r.lowest_m, r.highest_m]);
                let top_z = ground_z[1] + height_m;
                PlacedShape::Building { outline: found, height_m: *height_m, ground_z, top_z }
            }
            Shape::Barrier { what, line: _, thickness_m, height_m, height_sigma_m: _ } => {
                let found = self.line(points);
                let pieces = found.windows(2).flat_map(|e| wall_pieces(e[0], e[1], thickness_m / 2.0));
                let tops = pieces.map(|piece| piece.ground_z(self.ground) + height_m);
                let top_z = tops.reduce(f64::max).unwrap_or(*height_m);
                PlacedShape::Barrier {
                    what: *what,
                    line: found,
                    thickness_m: *thickness_m,
                    height_m: *height_m,
                    top_z,
                }
            }
            Shape::Post { at: _, radius_m, height_m, height_sigma_m: _ } => {
                let found = self.line(points);
                let at = found[0];
                let top_z = range_round(self.ground, at, *radius_m).highest_m + height_m;
                PlacedShape::Post { at, radius_m: *radius_m, height_m: *height_m, top_z }
            }
            Shape::Path { used_by, line: _, width_m, headroom_m } => {
                let found = self.line(points);
                PlacedShape::Path {
                    used_by: *used_by,
                    outline: widened(&found, *width_m),
                    line: found,
                    width_m: *width_m,
                    headroom_m: headroom_m.unwrap_or(default_clearances::headroom(*used_by).of(self.system)),
                }
            }
            Shape::KeepOff { outline: _ } => PlacedShape::KeepOff { outline: self.outline(points, path) },
        }
    }

    fn overhead(&mut self, line: &job::OverheadLine, points: Vec<(PointFix, String)>) -> PlacedOverheadLine {
        let found = self.line(points);
        let wire = |(at, support): (&[f64; 2], &job::LineSupport)| {
            [at[0], at[1], self.ground.height(*at) + support.wire_height_m]
        };
        let supports: Vec<[f64; 3]> = found.iter().zip(&line.supports).map(wire).collect();
        PlacedOverheadLine {
            id: line.id.clone(),
            name: line.name.clone(),
            voltage_kv: line.voltage_kv,
            wire: hang(&supports, line.sag_m),
            // Swung out by 60° about the line between its supports a wire is 2·sag·sin 30° from where it hangs, which is its sag:
            // a wind that presses as hard as 1.7 times its weight (tan 60°). Common practice.
            sway_m: line.sag_m,
            supports,
            height_sigma_m: line.height_sigma_m,
            sigma_m: 0.0,
        }
    }

    fn buried(
        &mut self,
        service: &job::BuriedService,
        points: Vec<(PointFix, String)>,
    ) -> PlacedBuriedService {
        PlacedBuriedService {
            id: service.id.clone(),
            name: service.name.clone(),
            carries: service.carries,
            located: service.located,
            line: self.line(points),
            width_m: service.width_m,
            tolerance_m: service.tolerance_m.unwrap_or(BURIED_TOLERANCE.of(self.system)),
            rule_of_thumb: service.tolerance_m.is_none(),
            sigma_m: 0.0,
        }
    }
}

fn corners(list: &str, fixes: &[PointFix]) -> Vec<(PointFix, String)> {
    fixes.iter().enumerate().map(|(i, fix)| (fix.clone(), format!("{list}/{i}"))).collect()
}

/// The wire between its supports: a parabola `sag_m` below the straight line at mid-span.
/// Source: Irvine, Cable Structures (1981), ch. 2: a flat cable hangs as z = 4·sag·u·(1 − u) below its chord.
fn hang(supports: &[[f64; 3]], sag_m: f64) -> Vec<[f64; 3]> {
    let mut wire: Vec<[f64; 3]> = supports.first().copied().into_iter().collect();
    for ends in supports.windows(2) {
        for piece in 1..=PIECES {
            let u = f64::from(piece) / f64::from(PIECES);
            let mut at: [f64; 3] = std::array::from_fn(|i| ends[0][i] + u * (ends[1][i] - ends[0][i]));
            at[2] -= 4.0 * sag_m * u * (1.0 - u);
            wire.push(at);
        }
    }
    wire
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::ground::Plane;

    fn ground() -> Ground {
        let plane = Plane { height_0_m: 0.0, gradient: [0.1, 0.0], covariance: [[0.0; 3]; 3] };
        Ground { plane, surface: None }
    }

    /// Coordinates as drawn, each thing as sure as 0.2 m.
    struct Drawn;

    impl Finder for Drawn {
        fn locate(&self, fix: &PointFix, path: &str) -> Result<PositionEstimate, FieldError> {
            match fix {
                PointFix::Coordinates { east_m, north_m } => {
                    Ok(PositionEstimate { at: [*east_m, *north_m], covariance: [[0.0; 2]; 2] })
                }
                PointFix::Origin => Ok(PositionEstimate { at: [0.0; 2], covariance: [[0.0; 2]; 2] }),
                _ => Err(FieldError::new(path, "x", "y")),
            }
        }

        fn is_open(&self, _: &PointFix, _: &str) -> bool {
            false
        }
    }

    impl Sight for Drawn {
        fn sigma_m(&self, _: &Fixes) -> f64 {
            0.2
        }
    }

    fn place(
        yard: &job::Yard,
        system: UnitSystem,
        marks: Vec<PlacedMark>,
        drawn: &Drawn,
        ground: &Ground,
    ) -> Result<PlacedYard, FieldErrors> {
        Ok(super::place(yard, system, marks, drawn, ground)?.seen(drawn))
    }

    fn yard(json: serde_json::Value) -> job::Yard {
        let mut whole = serde_json::json!({"bearings": {"kind": "true"}, "marks": [{"id": "A", "name": "nail", "at": {"by": "origin"}}]});
        whole.as_object_mut().unwrap().extend(json.as_object().unwrap().clone());
        serde_json::from_value(whole).unwrap()
    }

    fn at(points: &[[f64; 2]]) -> serde_json::Value {
        points
            .iter()
            .map(|p| serde_json::json!({"by": "coordinates", "east_m": p[0], "north_m": p[1]}))
            .collect()
    }

    fn building(corners: &[[f64; 2]]) -> job::Yard {
        yard(
            serde_json::json!({"obstacles": [{"id": "h", "name": "House", "shape": {"kind": "building", "outline": at(corners), "height_m": 5.0}}]}),
        )
    }

    fn problems(yard: &job::Yard) -> Vec<String> {
        let errors = place(yard, UnitSystem::Metric, Vec::new(), &Drawn, &ground()).unwrap_err().errors;
        errors.into_iter().map(|e| format!("{}: {}", e.path, e.given)).collect()
    }

    #[test]
    fn a_building_is_turned_anticlockwise_and_reaches_up_from_its_highest_ground() {
        let placed = place(
            &building(&[[0.0, 0.0], [0.0, 4.0], [6.0, 4.0], [6.0, 0.0], [0.0, 0.0]]),
            UnitSystem::Metric,
            Vec::new(),
            &Drawn,
            &ground(),
        );
        let placed = placed.unwrap();
        let PlacedShape::Building { outline, ground_z, top_z, .. } = &placed.obstacles[0].shape else {
            panic!()
        };
        assert_eq!(outline, &[[6.0, 0.0], [6.0, 4.0], [0.0, 4.0], [0.0, 0.0]]);
        assert!((top_z - 5.6).abs() < 1e-12 && ground_z[0] == 0.0);
        assert!((placed.obstacles[0].sigma_m - 0.2).abs() < 1e-15);
    }

    #[test]
    fn a_bow_tie_is_refused() {
        let found = problems(&building(&[[0.0, 0.0], [4.0, 4.0], [4.0, 0.0], [0.0, 4.0]]));
        assert_eq!(found, ["/yard/obstacles/0/shape/outline: an outline whose side 1 meets its side 3"]);
    }

    #[test]
    fn a_spike_and_a_line_are_refused() {
        assert_eq!(problems(&building(&[[0.0, 0.0], [4.0, 0.0], [2.0, 0.0]])).len(), 1);
        assert_eq!(problems(&building(&[[0.0, 0.0], [4.0, 0.0], [4.0, 0.0]])).len(), 1);
    }

    #[test]
    fn every_error_is_collected() {
        let bad = serde_json::json!({"by": "bearing_tape", "from": "Z", "bearing_deg": 1.0, "tape_m": 2.0});
        let yard = yard(serde_json::json!({
            "spot_heights": [{"id": "s", "at": bad, "height_m": 0.0}, {"id": "s", "at": {"by": "origin"}, "height_m": 0.0}],
            "overhead_lines": [{"id": "o", "name": "line", "supports": [{"at": {"by": "origin"}, "wire_height_m": 6.0}, {"at": bad, "wire_height_m": 6.0}]}],
        }));
        let paths =
            ["/yard/spot_heights/1/id", "/yard/spot_heights/0/at", "/yard/overhead_lines/0/supports/1/at"];
        let found = problems(&yard);
        assert!(found.iter().zip(paths).all(|(f, p)| f.starts_with(p)) && found.len() == 3, "{found:?}");
    }

    #[test]
    fn a_wire_hangs_its_sag_below_the_middle() {
        let wire = hang(&[[0.0, 0.0, 6.0], [20.0, 0.0, 8.0]], 0.5);
        assert_eq!(wire[16], [10.0, 0.0, 6.5]);
        assert_eq!((wire.len(), wire[32]), (33, [20.0, 0.0, 8.0]));
    }

    /// Tells things apart by the pointer of their first point.
    struct ByPointer;

    impl Sight for ByPointer {
        fn sigma_m(&self, fixes: &Fixes) -> f64 {
            let first = &fixes.points[0].1;
            let kinds = ["boundary", "obstacles/0", "obstacles/1", "overhead_lines", "buried_services"];
            let at = kinds.iter().position(|kind| first.starts_with(&format!("/yard/{kind}")));
            at.map_or(f64::NAN, |at| at as f64 + 1.0)
        }
    }

    /// Boundary, obstacles, wires and pipes come by their own uncertainty, not by a neighbour's in the list.
    #[test]
    fn each_thing_is_as_sure_as_its_own_points() {
        let line = at(&[[0.0, 0.0], [9.0, 1.0]]);
        let square = at(&[[-20.0, -20.0], [20.0, -20.0], [20.0, 20.0], [-20.0, 20.0]]);
        let point = at(&[[3.0, 3.0]])[0].clone();
        let supports: Vec<_> = line
            .as_array()
            .unwrap()
            .iter()
            .map(|at| serde_json::json!({ "at": at, "wire_height_m": 6.0 }))
            .collect();
        let post = serde_json::json!({ "kind": "post", "at": point, "radius_m": 0.1, "height_m": 2.0 });
        let house = serde_json::json!({
            "kind": "building", "outline": at(&[[5.0, 5.0], [8.0, 5.0], [8.0, 8.0]]), "height_m": 3.0
        });
        let yard = yard(serde_json::json!({
            "boundary": { "outline": square },
            "obstacles": [
                { "id": "p", "name": "Post", "shape": post }, { "id": "h", "name": "House", "shape": house }
            ],
            "overhead_lines": [{ "id": "w", "name": "Wire", "supports": supports, "sag_m": 0.2 }],
            "buried_services": [
                { "id": "g", "name": "Gas", "carries": "gas_oil_steam", "located": "guessed", "line": line }
            ]
        }));
        let found = super::place(&yard, UnitSystem::Metric, Vec::new(), &Drawn, &ground()).unwrap();
        let seen = found.seen(&ByPointer);
        assert_eq!(seen.boundary_sigma_m, 1.0);
        assert_eq!(seen.obstacles.iter().map(|thing| thing.sigma_m).collect::<Vec<_>>(), [2.0, 3.0]);
        assert_eq!([seen.overhead_lines[0].sigma_m, seen.buried_services[0].sigma_m], [4.0, 5.0]);
    }
}
