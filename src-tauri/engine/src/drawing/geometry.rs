//! Small plane geometry for drawing: points along lines, bands, clipping.

use std::sync::OnceLock;

use crate::numerics::real::{cos_deg, hypot, sin_deg};
use crate::quantity::bearing;

use super::scene::Bounds;

/// The point `distance_m` away along a bearing.
pub(crate) fn along(from: [f64; 2], bearing_deg: f64, distance_m: f64) -> [f64; 2] {
    let unit = bearing::unit(bearing_deg);
    [from[0] + unit[0] * distance_m, from[1] + unit[1] * distance_m]
}

pub(crate) fn plan(point: [f64; 3]) -> [f64; 2] {
    [point[0], point[1]]
}

pub(crate) fn distance(a: [f64; 2], b: [f64; 2]) -> f64 {
    hypot(b[0] - a[0], b[1] - a[1])
}

pub(crate) fn middle(a: [f64; 2], b: [f64; 2]) -> [f64; 2] {
    [(a[0] + b[0]) / 2.0, (a[1] + b[1]) / 2.0]
}

/// Turn (clockwise, degrees) that lays words along the line from `a` to `b`, never upside down.
pub(crate) fn reading_turn(a: [f64; 2], b: [f64; 2]) -> f64 {
    let turn = bearing::of_vector(b[0] - a[0], b[1] - a[1]) - 90.0;
    if turn > 90.0 {
        turn - 180.0
    } else if turn <= -90.0 {
        turn + 180.0
    } else {
        turn
    }
}

/// A line widened to `half_width_m` on both sides, with flat ends and mitred corners.
pub(crate) fn band(line: &[[f64; 2]], half_width_m: f64) -> Vec<[f64; 2]> {
    let points = without_repeats(line);
    let side = |sign: f64| {
        let offset = |i: usize| corner(&points, i, sign * half_width_m);
        (0..points.len()).filter_map(offset).collect::<Vec<_>>()
    };
    let mut outline = side(1.0);
    let mut back = side(-1.0);
    back.reverse();
    outline.extend(back);
    outline
}

fn without_repeats(line: &[[f64; 2]]) -> Vec<[f64; 2]> {
    let mut points: Vec<[f64; 2]> = Vec::with_capacity(line.len());
    for &point in line {
        if points.last().is_none_or(|&last| distance(last, point) > 1e-9) {
            points.push(point);
        }
    }
    points
}

/// The corner of a line moved sideways, to the left for a positive offset.
fn corner(points: &[[f64; 2]], i: usize, offset_m: f64) -> Option<[f64; 2]> {
    let at = *points.get(i)?;
    let before = i.checked_sub(1).and_then(|before| points.get(before)).map(|&before| left_of(before, at));
    let after = points.get(i + 1).map(|&after| left_of(at, after));
    let (n, scale) = match (before, after) {
        (Some(a), Some(b)) => {
            let sum = [a[0] + b[0], a[1] + b[1]];
            // |a + b|² / 2 = 1 + cos of the bend; a sharp bend would throw its mitre far out, so it is held.
            let bend = ((sum[0] * sum[0] + sum[1] * sum[1]) / 2.0).max(0.25);
            (sum, 1.0 / bend)
        }
        (Some(n), None) | (None, Some(n)) => (n, 1.0),
        (None, None) => return None,
    };
    Some([at[0] + n[0] * scale * offset_m, at[1] + n[1] * scale * offset_m])
}

fn left_of(a: [f64; 2], b: [f64; 2]) -> [f64; 2] {
    let length = distance(a, b);
    [-(b[1] - a[1]) / length, (b[0] - a[0]) / length]
}

/// The part of a segment inside the bounds (Liang and Barsky, 1984).
pub(crate) fn clip(a: [f64; 2], b: [f64; 2], bounds: &Bounds) -> Option<[[f64; 2]; 2]> {
    let (mut from, mut to) = (0.0_f64, 1.0_f64);
    let d = [b[0] - a[0], b[1] - a[1]];
    for axis in 0..2 {
        for (p, q) in [(-d[axis], a[axis] - bounds.min[axis]), (d[axis], bounds.max[axis] - a[axis])] {
            if p == 0.0 && q < 0.0 {
                return None;
            }
            if p < 0.0 {
                from = from.max(q / p);
            } else if p > 0.0 {
                to = to.min(q / p);
            }
        }
    }
    let at = |t: f64| [a[0] + d[0] * t, a[1] + d[1] * t];
    (from < to).then(|| [at(from), at(to)])
}

/// Sides of a circle that labels keep off.
const SIDES: usize = 32;

/// A circle as a closed chain of points, for keeping labels off it.
pub(crate) fn circle_points(centre: [f64; 2], radius_m: f64) -> Vec<[f64; 2]> {
    // A map has dozens of circles and is drawn for every step of a finger.
    static UNIT: OnceLock<Vec<[f64; 2]>> = OnceLock::new();
    let unit = UNIT.get_or_init(|| {
        let turn_deg = |i: usize| 360.0 * i as f64 / SIDES as f64;
        (0..=SIDES).map(|i| [sin_deg(turn_deg(i)), cos_deg(turn_deg(i))]).collect()
    });
    unit.iter().map(|[x, y]| [centre[0] + radius_m * x, centre[1] + radius_m * y]).collect()
}

/// Mean of an outline's corners, weighted by area; the mean of its points where it has no area.
pub(crate) fn centroid(outline: &[[f64; 2]]) -> [f64; 2] {
    let mut doubled = 0.0;
    let mut sum = [0.0, 0.0];
    for (i, a) in outline.iter().enumerate() {
        let b = outline[(i + 1) % outline.len()];
        let cross = a[0] * b[1] - b[0] * a[1];
        doubled += cross;
        sum = [sum[0] + (a[0] + b[0]) * cross, sum[1] + (a[1] + b[1]) * cross];
    }
    if doubled.abs() > 1e-9 {
        return [sum[0] / (3.0 * doubled), sum[1] / (3.0 * doubled)];
    }
    let n = outline.len().max(1) as f64;
    [outline.iter().map(|p| p[0]).sum::<f64>() / n, outline.iter().map(|p| p[1]).sum::<f64>() / n]
}

/// Bounds of points; none where there are none.
pub(crate) fn bounds_of(points: &[[f64; 2]]) -> Option<Bounds> {
    points.iter().map(|&p| Bounds { min: p, max: p }).reduce(Bounds::union)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_band_is_as_wide_as_asked_also_at_a_bend() {
        // Plane geometry: a 90° bend offset by 1 has its outer corner at (−1, 1) from the corner.
        let outline = band(&[[0.0, -5.0], [0.0, 0.0], [5.0, 0.0]], 1.0);
        assert_eq!(outline.len(), 6);
        assert!(distance(outline[1], [-1.0, 1.0]) < 1e-12, "{outline:?}");
        assert!(distance(outline[4], [1.0, -1.0]) < 1e-12, "{outline:?}");
    }

    #[test]
    fn clipping_keeps_what_is_inside() {
        let bounds = Bounds::around([0.0, 0.0], 1.0);
        assert_eq!(clip([-2.0, 0.0], [2.0, 0.0], &bounds), Some([[-1.0, 0.0], [1.0, 0.0]]));
        assert_eq!(clip([-2.0, 2.0], [2.0, 2.0], &bounds), None);
    }

    #[test]
    fn words_are_never_upside_down() {
        for bearing_deg in 0..360 {
            let turn = reading_turn([0.0, 0.0], along([0.0, 0.0], f64::from(bearing_deg), 1.0));
            assert!(turn > -90.0 - 1e-9 && turn <= 90.0 + 1e-9);
        }
    }
}
