//! Swing ties: tapes from two marks whose arcs cross at the point.

use crate::ground::Ground;
use crate::ground::profile::taut_tape_m;
use crate::job::{Instruments, Side};
use crate::numerics::real::{atan2_deg, hypot, sin_deg};
use crate::stakeout::SwingTies;
use crate::survey::PlacedMark;
use crate::survey::ellipse::{ellipse_95, principal_variances};
use crate::survey::positions::PositionEstimate;
use crate::survey::positions::geometry::GOOD_CROSSING_DEG;

/// A tape shorter than this can't be swung.
const SHORTEST_TAPE_M: f64 = 0.05;
/// Arcs that cross flatter than this are of no use at all.
const FLATTEST_CROSSING_DEG: f64 = 3.0;
/// Only the nearest marks are tried.
const MARKS_TRIED: usize = 24;

/// A mark as seen from the point.
struct Arm<'a> {
    mark: &'a PlacedMark,
    /// Unit vector from the mark to the point.
    out: [f64; 2],
    plan_m: f64,
    tape_m: f64,
    /// Variance of the plan distance, by the tape. The marks are what they are: how surely they are known
    /// to lie on the map moves every peg alike and is no error of pegging out.
    variance_m2: f64,
}

/// The pair of marks whose tapes land a point best; none where no two marks serve.
///
/// # References
/// Common practice: ties that cross between 30° and 150° are good. Ellipse: Ghilani, Adjustment Computations,
/// error propagation in distance intersection (from memory).
pub fn ties(
    point: [f64; 2],
    marks: &[PlacedMark],
    ground: &Ground,
    instruments: &Instruments,
) -> Option<SwingTies> {
    let arms = arms(point, marks, ground, instruments);
    let pairs = arms.iter().enumerate().flat_map(|(i, a)| arms.iter().skip(i + 1).map(move |b| (a, b)));
    let landed = pairs.filter_map(|(a, b)| Some((a, b, landing_covariance(a, b)?)));
    let largest = |covariance| principal_variances(covariance)[0];
    let good = |a: &Arm, b: &Arm| (GOOD_CROSSING_DEG[0]..=GOOD_CROSSING_DEG[1]).contains(&crossing_deg(a, b));
    // A good crossing goes before a poor one: what is flat lands worse than its ellipse says. Then the largest axis decides;
    // the first of equal pairs wins, so that the answer is always the same one.
    let (a, b, covariance) = landed
        .min_by(|x, y| good(y.0, y.1).cmp(&good(x.0, x.1)).then(largest(x.2).total_cmp(&largest(y.2))))?;
    let crossing_deg = crossing_deg(a, b);
    Some(SwingTies {
        mark_a: a.mark.id.clone(),
        plan_a_m: a.plan_m,
        tape_a_m: a.tape_m,
        mark_b: b.mark.id.clone(),
        plan_b_m: b.plan_m,
        tape_b_m: b.tape_m,
        side: side(a.mark.at, b.mark.at, point),
        crossing_deg,
        good: good(a, b),
        landing_95: ellipse_95(&PositionEstimate { at: point, covariance }),
    })
}

/// Where a pair of plan distances from two marks lands, on the given side walking from A to B; none where
/// the arcs do not meet.
pub fn landing(a: [f64; 2], plan_a_m: f64, b: [f64; 2], plan_b_m: f64, side: Side) -> Option<[f64; 2]> {
    let base_m = hypot(b[0] - a[0], b[1] - a[1]);
    let along = [(b[0] - a[0]) / base_m, (b[1] - a[1]) / base_m];
    // Foot of the point on A → B by the cosine rule, and its distance from that line.
    let foot_m = (base_m + (plan_a_m - plan_b_m) * (plan_a_m + plan_b_m) / base_m) / 2.0;
    let off_m = ((plan_a_m - foot_m) * (plan_a_m + foot_m)).sqrt();
    let left_m = if side == Side::Left { off_m } else { -off_m };
    off_m
        .is_finite()
        .then(|| [a[0] + foot_m * along[0] - left_m * along[1], a[1] + foot_m * along[1] + left_m * along[0]])
}

fn arms<'a>(
    point: [f64; 2],
    marks: &'a [PlacedMark],
    ground: &Ground,
    instruments: &Instruments,
) -> Vec<Arm<'a>> {
    let far = |mark: &PlacedMark| hypot(point[0] - mark.at[0], point[1] - mark.at[1]);
    let mut near: Vec<(usize, f64)> = marks.iter().map(far).enumerate().collect();
    near.retain(|&(_, plan_m)| plan_m.is_finite() && plan_m >= SHORTEST_TAPE_M);
    near.sort_by(|x, y| x.1.total_cmp(&y.1));
    near.truncate(MARKS_TRIED);
    near.sort_by_key(|&(i, _)| i); // back in the yard's order: A comes before B as the user knows them
    near.into_iter()
        .filter_map(|(i, plan_m)| Some(arm(point, marks.get(i)?, plan_m, ground, instruments)))
        .collect()
}

fn arm<'a>(
    point: [f64; 2],
    mark: &'a PlacedMark,
    plan_m: f64,
    ground: &Ground,
    instruments: &Instruments,
) -> Arm<'a> {
    let out = [(point[0] - mark.at[0]) / plan_m, (point[1] - mark.at[1]) / plan_m];
    let tape_m = taut_tape_m(ground, [mark.at[0], mark.at[1]], point).max(plan_m);
    let sigma_m = instruments.tape_sigma_of_m(tape_m);
    let plan_sigma_m = sigma_m * plan_m / tape_m;
    Arm { mark, out, plan_m, tape_m, variance_m2: plan_sigma_m * plan_sigma_m }
}

/// Covariance of the point where two arcs cross: the inverse of the two directions applied to their
/// variances. None where the marks are one or the arcs run along each other.
fn landing_covariance(a: &Arm, b: &Arm) -> Option<[[f64; 2]; 2]> {
    let apart_m = hypot(a.mark.at[0] - b.mark.at[0], a.mark.at[1] - b.mark.at[1]);
    let turn = a.out[0] * b.out[1] - a.out[1] * b.out[0]; // sine of the crossing angle
    if apart_m < SHORTEST_TAPE_M || turn.abs() < sin_deg(FLATTEST_CROSSING_DEG) {
        return None;
    }
    let (va, vb) = (a.variance_m2 / (turn * turn), b.variance_m2 / (turn * turn));
    let cross = -(va * b.out[0] * b.out[1] + vb * a.out[0] * a.out[1]);
    let east = va * b.out[1] * b.out[1] + vb * a.out[1] * a.out[1];
    let north = va * b.out[0] * b.out[0] + vb * a.out[0] * a.out[0];
    Some([[east, cross], [cross, north]])
}

/// Angle between the two tapes at the point, in (0, 180).
fn crossing_deg(a: &Arm, b: &Arm) -> f64 {
    let sine = (a.out[0] * b.out[1] - a.out[1] * b.out[0]).abs();
    atan2_deg(sine, a.out[0] * b.out[0] + a.out[1] * b.out[1])
}

fn side(a: [f64; 3], b: [f64; 3], point: [f64; 2]) -> Side {
    let cross = (b[0] - a[0]) * (point[1] - a[1]) - (b[1] - a[1]) * (point[0] - a[0]);
    if cross > 0.0 { Side::Left } else { Side::Right }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::ground::Plane;

    fn ground() -> Ground {
        let plane = Plane { height_0_m: 0.0, gradient: [0.1, 0.05], covariance: [[0.0; 3]; 3] };
        Ground { plane, surface: None }
    }

    fn mark(id: &str, at: [f64; 2]) -> PlacedMark {
        let at = [at[0], at[1], ground().height(at)];
        PlacedMark { id: id.into(), name: id.into(), at, covariance: [[0.0; 2]; 2] }
    }

    fn tied(point: [f64; 2], marks: &[PlacedMark]) -> Option<SwingTies> {
        ties(point, marks, &ground(), &Instruments::default())
    }

    #[test]
    fn the_pair_that_crosses_squarely_is_chosen() {
        let marks = [mark("A", [0.0, 0.0]), mark("B", [10.0, 0.0]), mark("C", [9.0, 0.4])];
        let found = tied([5.0, 5.0], &marks).unwrap();
        assert_eq!((found.mark_a.as_str(), found.mark_b.as_str()), ("A", "B"));
        assert!((found.crossing_deg - 90.0).abs() < 1e-9 && found.good);
        assert_eq!(found.side, Side::Left); // walking east, north is on the left
        // Square arcs of equal tapes: a circle of the tape's own uncertainty.
        assert!((found.landing_95.semi_major_m / found.landing_95.semi_minor_m - 1.0).abs() < 0.02);
        assert!((found.tape_a_m - hypot(50.0_f64.sqrt(), 0.75)).abs() < 1e-12);
    }

    #[test]
    fn flat_crossings_are_called_so_and_hopeless_ones_left_out() {
        let flat = tied([5.0, 1.0], &[mark("A", [0.0, 0.0]), mark("B", [10.0, 0.0])]).unwrap();
        assert!(!flat.good && flat.crossing_deg > 150.0);
        assert!(flat.landing_95.semi_major_m > 4.0 * flat.landing_95.semi_minor_m);
        assert!(tied([5.0, 0.01], &[mark("A", [0.0, 0.0]), mark("B", [10.0, 0.0])]).is_none());
        assert!(tied([5.0, 5.0], &[mark("A", [0.0, 0.0]), mark("B", [0.01, 0.0])]).is_none());
        assert!(tied([5.0, 5.0], &[mark("A", [5.0, 5.0]), mark("B", [0.0, 0.0])]).is_none());
        assert!(tied([5.0, 5.0], &[]).is_none());
    }

    /// Two marks near by, 0.6 m to the east and 0.61 m to the west, whose tapes cross at 171°, and two far ones that cross squarely:
    /// the near tapes' ellipse would be the smaller one.
    #[test]
    fn a_good_crossing_goes_before_a_poor_one() {
        let near = [mark("A", [0.6, 0.05]), mark("B", [-0.61, 0.04])];
        let far = [mark("C", [60.0, 60.0]), mark("D", [-60.0, 60.0])];
        let axis = |marks: &[PlacedMark]| tied([0.0, 0.0], marks).unwrap().landing_95.semi_major_m;
        let all: Vec<PlacedMark> = near.iter().chain(&far).cloned().collect();
        let found = tied([0.0, 0.0], &all).unwrap();
        assert!(found.good, "{} {} {}", found.mark_a, found.mark_b, found.crossing_deg);
        assert!(axis(&near) > 0.0 && !tied([0.0, 0.0], &near).unwrap().good);
    }

    #[test]
    fn a_point_lands_on_itself() {
        let marks = [mark("A", [-3.0, 2.0]), mark("B", [8.0, -1.0]), mark("C", [2.0, 9.0])];
        for point in [[0.5, 0.5], [12.0, 7.0], [-4.0, -6.0], [2.0, 2.5]] {
            let found = tied(point, &marks).unwrap();
            let at = |id: &str| marks.iter().find(|m| m.id == id).map(|m| [m.at[0], m.at[1]]).unwrap();
            let (a, b) = (at(&found.mark_a), at(&found.mark_b));
            let [east, north] = landing(a, found.plan_a_m, b, found.plan_b_m, found.side).unwrap();
            assert!(hypot(east - point[0], north - point[1]) < 1e-9);
        }
    }

    /// Nails 12 cm apart are two marks, and the tapes to them from a peg 20 cm off cross at 2·atan(0.06/0.2) = 33.4°; nails
    /// 4 cm apart are one: who reads one for the other lands anywhere.
    #[test]
    fn two_marks_a_hand_apart_are_no_pair() {
        let pair = |apart_m: f64| {
            let half_m = 0.5 * apart_m;
            tied([10.0, 5.0], &[mark("A", [9.8, 5.0 - half_m]), mark("B", [9.8, 5.0 + half_m])])
        };
        let found = pair(0.12).unwrap();
        assert!((found.crossing_deg - 33.398).abs() < 1e-3, "{}", found.crossing_deg);
        assert!(pair(0.04).is_none());
    }

    /// Two tapes with errors of 2 and 3 cm that cross at θ. Each error moves the point along the other tape's arc, by the
    /// error over sin θ: tape A to the east and B at 30° from it, the point moves by 2 cm/sin 30° square to B, and by
    /// 3 cm/sin 30° square to A.
    #[test]
    fn where_two_arcs_cross_by_hand() {
        let (sine, cosine) = (0.5, 0.75_f64.sqrt());
        let marks = [mark("A", [-4.0, 0.0]), mark("B", [-4.0 * cosine, -4.0 * sine])];
        let arm = |mark, out, variance_m2| Arm { mark, out, plan_m: 4.0, tape_m: 4.0, variance_m2 };
        let a = arm(&marks[0], [1.0, 0.0], 4e-4);
        let b = arm(&marks[1], [cosine, sine], 9e-4);
        let moved = [[0.04 * -sine, 0.04 * cosine], [0.0, 0.06]];
        let by_hand = |i: usize, j: usize| moved.iter().map(|by| by[i] * by[j]).sum::<f64>();
        let found = landing_covariance(&a, &b).unwrap();
        let back = landing_covariance(&b, &a).unwrap();
        for (i, j) in [(0, 0), (0, 1), (1, 0), (1, 1)] {
            assert!(
                (found[i][j] - by_hand(i, j)).abs() < 1e-15,
                "{i} {j}: {} {}",
                found[i][j],
                by_hand(i, j)
            );
            assert!((found[i][j] - back[i][j]).abs() < 1e-18);
        }
    }
}
