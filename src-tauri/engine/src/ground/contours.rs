//! Contour lines of the ground within a rectangle.

use std::collections::BTreeMap;

use super::profile::{clipped_to, inside_span};
use super::surface::Surface;
use super::{Ground, Plane};

/// A line of one level. A closed contour ends where it began.
#[derive(Debug, Clone, PartialEq)]
pub struct ContourLine {
    pub level_m: f64,
    pub points: Vec<[f64; 2]>,
}

/// A rectangle in plan by its south-west and north-east corners.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Extent {
    pub low: [f64; 2],
    pub high: [f64; 2],
}

/// More levels than this are a mistyped interval, not a map.
const MOST_LEVELS: i64 = 1000;

/// Contours wanted on a map by [`nice_interval`].
const LEVELS_ON_A_MAP: f64 = 8.0;

/// Ground is drawn without contours below one in a thousand.
const LEAST_GRADE: f64 = 1e-3;

/// Contours at the multiples of an interval, by level. Inside a surface's hull through its triangles, outside
/// it on the plane; at the hull they break off as the ground does. None where the interval is not above zero
/// or gives more than a thousand levels.
pub fn contours(ground: &Ground, extent: Extent, interval_m: f64) -> Vec<ContourLine> {
    let mut lines = Vec::new();
    for step in levels(plane_range(&ground.plane, extent), interval_m) {
        let level_m = step as f64 * interval_m;
        if let Some(line) = plane_line(&ground.plane, extent, level_m) {
            let pieces = outside_hull(ground.surface.as_ref(), line);
            lines.extend(pieces.map(|ends| ContourLine { level_m, points: ends.into() }));
        }
    }
    if let Some(surface) = &ground.surface {
        for line in surface_lines(surface, interval_m) {
            lines.extend(pieces_within(&line, extent));
        }
    }
    lines.sort_by(|a, b| a.level_m.total_cmp(&b.level_m));
    lines
}

/// The 1, 2 or 5 times a power of ten that gives about eight levels over a height range, and none where the
/// ground rises less than one in a thousand over the extent.
pub fn nice_interval(range_m: f64, extent_m: f64) -> f64 {
    let wanted = (range_m.abs() / LEVELS_ON_A_MAP).max(LEAST_GRADE * extent_m.abs());
    if !(wanted > 1e-6 && wanted < 1e9) {
        return 1.0;
    }
    let mut decade = 1e-6;
    while decade * 10.0 <= wanted {
        decade *= 10.0;
    }
    let steps = [1.0, 2.0, 5.0, 10.0].map(|step| step * decade);
    steps.into_iter().find(|&step| step >= wanted * (1.0 - 1e-9)).unwrap_or(10.0 * decade)
}

/// Numbers k of the levels k · interval in a range of heights.
fn levels([low, high]: [f64; 2], interval_m: f64) -> std::ops::RangeInclusive<i64> {
    let nothing = std::ops::RangeInclusive::new(1, 0);
    if !(interval_m > 0.0 && low.is_finite() && high.is_finite()) {
        return nothing;
    }
    let (first, last) = ((low / interval_m).ceil(), (high / interval_m).floor());
    let countable = first.abs() < 1e15 && last.abs() < 1e15 && (last - first) < MOST_LEVELS as f64;
    if countable { first as i64..=last as i64 } else { nothing }
}

fn range(heights: impl Iterator<Item = f64>) -> [f64; 2] {
    heights.fold([f64::INFINITY, f64::NEG_INFINITY], |[low, high], z| [low.min(z), high.max(z)])
}

fn plane_range(plane: &Plane, Extent { low, high }: Extent) -> [f64; 2] {
    let corners = [low, high, [low[0], high[1]], [high[0], low[1]]];
    range(corners.into_iter().map(|corner| plane.height(corner)))
}

/// The plane's contour across the rectangle.
fn plane_line(plane: &Plane, extent: Extent, level_m: f64) -> Option<[[f64; 2]; 2]> {
    let [east, north] = plane.gradient;
    let square = east * east + north * north;
    if square <= 0.0 {
        return None;
    }
    // The foot of the rectangle's middle on the contour, then along the contour past every corner.
    let middle = [0, 1].map(|i| 0.5 * (extent.low[i] + extent.high[i]));
    let off = (level_m - plane.height(middle)) / square;
    let foot = [middle[0] + off * east, middle[1] + off * north];
    let reach = ((extent.high[0] - extent.low[0]) + (extent.high[1] - extent.low[1])) / square.sqrt();
    let ends = [-reach, reach].map(|r| [foot[0] - r * north, foot[1] + r * east]);
    within(ends, extent)
}

/// The parts of a plane's contour that no surface covers.
fn outside_hull(surface: Option<&Surface>, [a, b]: [[f64; 2]; 2]) -> impl Iterator<Item = [[f64; 2]; 2]> {
    let span = surface.and_then(|surface| inside_span(surface, a, b));
    let at = |share: f64| [a[0] + share * (b[0] - a[0]), a[1] + share * (b[1] - a[1])];
    let pieces = match span {
        None => [Some([a, b]), None],
        Some([enter, leave]) => {
            [(enter > 0.0).then(|| [a, at(enter)]), (leave < 1.0).then(|| [at(leave), b])]
        }
    };
    pieces.into_iter().flatten()
}

/// A surface's contours: within each triangle a straight piece, joined end to end.
fn surface_lines(surface: &Surface, interval_m: f64) -> Vec<ContourLine> {
    let all = levels(range(surface.vertices().iter().map(|v| v[2])), interval_m);
    if all.is_empty() {
        return Vec::new();
    }
    let mut pieces: BTreeMap<i64, Vec<[Crossing; 2]>> = BTreeMap::new();
    for &triangle in surface.triangles() {
        for step in levels(range(surface.corners(triangle).iter().map(|v| v[2])), interval_m) {
            let piece = piece_in(surface, triangle, step as f64 * interval_m);
            pieces.entry(step).or_default().extend(piece);
        }
    }
    let joined = pieces.into_iter().flat_map(|(step, pieces)| {
        let level_m = step as f64 * interval_m;
        joined(&pieces).into_iter().map(move |points| ContourLine { level_m, points })
    });
    joined.filter(|line| line.points.len() > 1).collect()
}

/// Where a contour crosses an edge, known by the edge's two vertices, the lower number first.
#[derive(Debug, Clone, Copy)]
struct Crossing {
    edge: [u32; 2],
    at: [f64; 2],
}

/// The contour's piece in a triangle. A corner at the level itself counts as above, so that each contour
/// crosses two edges of a triangle or none, and neighbours agree.
fn piece_in(surface: &Surface, triangle: [u32; 3], level_m: f64) -> Option<[Crossing; 2]> {
    let [a, b, c] = triangle;
    let mut crossings = [[a, b], [b, c], [c, a]].into_iter().filter_map(|edge| {
        let edge = [edge[0].min(edge[1]), edge[0].max(edge[1])];
        let [p, q] = edge.map(|v| surface.vertices().get(v as usize).copied().unwrap_or_default());
        if (p[2] >= level_m) == (q[2] >= level_m) {
            return None;
        }
        let share = (level_m - p[2]) / (q[2] - p[2]);
        Some(Crossing { edge, at: [p[0] + share * (q[0] - p[0]), p[1] + share * (q[1] - p[1])] })
    });
    Some([crossings.next()?, crossings.next()?])
}

/// Joins pieces that share a crossing: first the lines that begin at the hull, then the closed ones.
fn joined(pieces: &[[Crossing; 2]]) -> Vec<Vec<[f64; 2]>> {
    let mut meeting: BTreeMap<[u32; 2], Vec<usize>> = BTreeMap::new();
    for (number, piece) in pieces.iter().enumerate() {
        for crossing in piece {
            meeting.entry(crossing.edge).or_default().push(number);
        }
    }
    let mut used = vec![false; pieces.len()];
    let at_hull = meeting.iter().filter(|(_, numbers)| numbers.len() == 1).map(|(&edge, _)| edge);
    let starts: Vec<[u32; 2]> = at_hull.chain(pieces.iter().map(|[first, _]| first.edge)).collect();
    starts.into_iter().map(|start| line_from(start, pieces, &meeting, &mut used)).collect()
}

/// Follows the unused pieces from an edge on.
fn line_from(
    start: [u32; 2],
    pieces: &[[Crossing; 2]],
    meeting: &BTreeMap<[u32; 2], Vec<usize>>,
    used: &mut [bool],
) -> Vec<[f64; 2]> {
    let (mut edge, mut points) = (start, Vec::new());
    while let Some(&number) = meeting.get(&edge).and_then(|all| all.iter().find(|&&n| !used[n])) {
        used[number] = true;
        let [first, second] = pieces[number];
        let (near, far) = if first.edge == edge { (first, second) } else { (second, first) };
        if points.is_empty() {
            points.push(near.at);
        }
        if points.last() != Some(&far.at) {
            points.push(far.at);
        }
        edge = far.edge;
    }
    points
}

/// The parts of a line within a rectangle.
fn pieces_within(line: &ContourLine, extent: Extent) -> Vec<ContourLine> {
    let mut pieces: Vec<Vec<[f64; 2]>> = Vec::new();
    for ends in line.points.windows(2).filter_map(|pair| within([pair[0], pair[1]], extent)) {
        match pieces.last_mut() {
            Some(piece) if piece.last() == Some(&ends[0]) => piece.push(ends[1]),
            _ => pieces.push(ends.into()),
        }
    }
    pieces.into_iter().map(|points| ContourLine { level_m: line.level_m, points }).collect()
}

/// The part of a straight line within a rectangle, its ends untouched where they lie inside.
fn within([a, b]: [[f64; 2]; 2], Extent { low, high }: Extent) -> Option<[[f64; 2]; 2]> {
    let corners = [low, [high[0], low[1]], high, [low[0], high[1]]];
    let [enter, leave] = clipped_to(&corners, a, b)?;
    let at = |share: f64| [a[0] + share * (b[0] - a[0]), a[1] + share * (b[1] - a[1])];
    Some([if enter > 0.0 { at(enter) } else { a }, if leave < 1.0 { at(leave) } else { b }])
}

#[cfg(test)]
mod tests {
    use super::*;

    const YARD: Extent = Extent { low: [-10.0, -10.0], high: [10.0, 10.0] };

    fn plane(east: f64, north: f64) -> Plane {
        Plane { height_0_m: 0.0, gradient: [east, north], covariance: [[0.0; 3]; 3] }
    }

    #[test]
    fn a_plane_has_straight_lines_at_its_levels() {
        let ground = Ground { plane: plane(0.0, 0.1), surface: None };
        let lines = contours(&ground, YARD, 0.5);
        assert_eq!(lines.iter().map(|l| l.level_m).collect::<Vec<_>>(), [-1.0, -0.5, 0.0, 0.5, 1.0]);
        let next = &lines[3].points;
        assert!(next.iter().all(|p| (p[1] - 5.0).abs() < 1e-12 && (p[0].abs() - 10.0).abs() < 1e-12));
    }

    #[test]
    fn every_point_lies_at_its_level() {
        let ground = Ground { plane: plane(0.07, -0.03), surface: Some(hill()) };
        let lines = contours(&ground, YARD, 0.2);
        assert!(lines.len() > 10);
        for line in &lines {
            let middles =
                line.points.windows(2).map(|w| [0.5 * (w[0][0] + w[1][0]), 0.5 * (w[0][1] + w[1][1])]);
            for at in middles {
                assert!((ground.height(at) - line.level_m).abs() < 1e-9, "{} at {at:?}", line.level_m);
                assert!(at.iter().all(|v| v.abs() <= 10.0 + 1e-9));
            }
        }
    }

    /// A cone on a grid of 1 m, two metres high, six metres across.
    fn hill() -> Surface {
        let points: Vec<_> = (-4..=4)
            .flat_map(|x| (-4..=4).map(move |y| [f64::from(x), f64::from(y)]))
            .map(|[x, y]| [x, y, 2.0 - 0.6 * crate::numerics::real::hypot(x, y)])
            .collect();
        Surface::new(&points).unwrap()
    }

    #[test]
    fn a_hill_has_a_closed_contour() {
        let ground = Ground { plane: plane(0.0, 0.0), surface: Some(hill()) };
        let lines = contours(&ground, YARD, 1.0);
        let round = lines.iter().find(|l| l.level_m == 1.0).unwrap();
        assert_eq!(round.points.first(), round.points.last());
        assert!(round.points.len() > 8);
    }

    #[test]
    fn level_ground_and_bad_intervals_have_none() {
        let level = Ground { plane: plane(0.0, 0.0), surface: None };
        assert!(contours(&level, YARD, 0.5).is_empty());
        let steep = Ground { plane: plane(0.5, 0.0), surface: None };
        for interval in [0.0, -1.0, f64::NAN, 1e-9] {
            assert!(contours(&steep, YARD, interval).is_empty());
        }
    }

    #[test]
    fn intervals_are_one_two_or_five() {
        for (range, expected) in [(4.0, 0.5), (1.0, 0.2), (0.7, 0.1), (9.0, 2.0), (0.0, 0.02), (80.0, 10.0)] {
            assert!((nice_interval(range, 20.0) - expected).abs() < 1e-12, "{range}");
        }
        assert_eq!(nice_interval(0.0, 0.0), 1.0);
        assert_eq!(nice_interval(f64::NAN, f64::NAN), 1.0);
    }
}
