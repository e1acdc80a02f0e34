//! From a fix to a point, with its derivatives.

use super::{Positions, Readings};
use crate::job::{FieldError, Fix, Side};
use crate::numerics::real::{atan2_deg, hypot};
use crate::quantity::bearing;

/// Below this sine of the crossing the two tapes run along one line and fix nothing across it.
const LEAST_CROSSING_SINE: f64 = 1e-3;

/// Rows east, north.
type Matrix2 = [[f64; 2]; 2];

/// A point found from marks.
#[derive(Debug, Clone)]
pub(super) struct Followed {
    pub at: [f64; 2],
    /// Derivatives of the point by pairs of the joint state: its first index (0 the gradient, 2 + 2i mark i).
    pub by_state: Vec<(usize, Matrix2)>,
    /// Covariance from this fix's own readings.
    pub own: Matrix2,
    /// Plan angle at the point between the directions to the two marks, for two tapes.
    pub crossing_deg: Option<f64>,
}

/// Follows a fix whose references were checked and whose marks are found.
pub(super) fn follow(positions: &Positions, fix: &Fix, path: &str) -> Result<Followed, FieldError> {
    let state = |id: &str| positions.index.get(id).map_or(0, |&mark| 2 + 2 * mark);
    let at = |id: &str| positions.mark(id).map_or([0.0, 0.0], |located| located.at);
    match fix {
        Fix::Origin => Ok(known([0.0, 0.0], 0.0)),
        Fix::Coordinates { east_m, north_m } => {
            Ok(known([*east_m, *north_m], positions.readings.sketched_sigma_m()))
        }
        Fix::BearingTape { from, bearing_deg, tape_m } => {
            Ok(polar(&positions.readings, at(from), state(from), *bearing_deg, *tape_m))
        }
        Fix::TwoTapes { from_a, tape_a_m, from_b, tape_b_m, side } => {
            let a = Arm { at: at(from_a), state: state(from_a), tape_m: *tape_a_m };
            let b = Arm { at: at(from_b), state: state(from_b), tape_m: *tape_b_m };
            two_tapes(&positions.readings, &a, &b, *side)
                .map_err(|miss| FieldError::new(path, given_tapes(&a, &b), miss.sentence()))
        }
    }
}

/// A point whose place is chosen, as it comes to lie when tapes from two marks find it.
pub(super) fn tied(positions: &Positions, at: [f64; 2], mark_a: &str, mark_b: &str) -> Option<Followed> {
    let arm = |id: &str| {
        let from = positions.mark(id)?.at;
        let state = 2 + 2 * positions.index.get(id)?;
        Some(Arm { at: from, state, tape_m: along_slope_m(&positions.readings, minus(at, from)) })
    };
    differentiate(&positions.readings, &arm(mark_a)?, &arm(mark_b)?, at).ok()
}

/// A point whose place is chosen, as it comes to lie when a bearing and a tape from the nearest mark find it.
pub(super) fn polar_to(positions: &Positions, at: [f64; 2]) -> Followed {
    let far = |(_, mark): &(usize, &super::Located)| {
        let [east, north] = minus(at, mark.at);
        hypot(east, north)
    };
    let nearest = positions.marks.iter().enumerate().min_by(|a, b| far(a).total_cmp(&far(b)));
    let Some((index, mark)) = nearest else { return known(at, 0.0) };
    let [east, north] = minus(at, mark.at);
    let reading_deg = bearing::of_vector(east, north) - positions.readings.add_to_reading_deg;
    let tape_m = along_slope_m(&positions.readings, [east, north]);
    polar(&positions.readings, mark.at, 2 + 2 * index, reading_deg, tape_m)
}

fn along_slope_m(readings: &Readings, plan: [f64; 2]) -> f64 {
    hypot(hypot(plan[0], plan[1]), dot(readings.gradient, plan))
}

fn known(at: [f64; 2], sigma_m: f64) -> Followed {
    let variance = sigma_m * sigma_m;
    Followed { at, by_state: vec![], own: [[variance, 0.0], [0.0, variance]], crossing_deg: None }
}

/// A bearing and a tape that runs along the ground's plane: plan distance d = L·cos s with tan s = g·u the
/// apparent slope along the bearing (apparent dip, Ragan, *Structural Geology*).
fn polar(readings: &Readings, from: [f64; 2], state: usize, reading_deg: f64, tape_m: f64) -> Followed {
    let g = readings.gradient;
    let u = bearing::unit(readings.true_bearing_deg(reading_deg));
    let across = [u[1], -u[0]]; // du/dθ, θ clockwise
    let slope = dot(g, u);
    let squared = 1.0 + slope * slope;
    let cos_slope = 1.0 / squared.sqrt();
    let plan_m = tape_m * cos_slope;
    let by_slope = -tape_m * slope * cos_slope / squared; // dd/d(tan s)
    let by_tape = scale(u, cos_slope);
    let turn = dot(g, across) * by_slope;
    let by_bearing = [plan_m * across[0] + turn * u[0], plan_m * across[1] + turn * u[1]];
    let tape_sigma_m = readings.tape_sigma_m(tape_m);
    let bearing_sigma = readings.bearing_sigma_deg().to_radians();
    let curve = scale(u, super::curve_sigma(plan_m, bearing_sigma));
    let straight = add(
        outer(scale(by_tape, tape_sigma_m), scale(by_tape, tape_sigma_m)),
        outer(scale(by_bearing, bearing_sigma), scale(by_bearing, bearing_sigma)),
    );
    Followed {
        at: [from[0] + plan_m * u[0], from[1] + plan_m * u[1]],
        by_state: vec![(state, IDENTITY), (0, outer(scale(u, by_slope), u))],
        own: add(straight, outer(curve, curve)),
        crossing_deg: None,
    }
}

/// A tape from a mark.
struct Arm {
    at: [f64; 2],
    state: usize,
    tape_m: f64,
}

/// Why two tapes fix no point.
enum Miss {
    SameSpot,
    Short {
        apart_m: f64,
        by_m: f64,
    },
    /// One tape reaches past the other's whole circle.
    Over {
        apart_m: f64,
        by_m: f64,
    },
    InLine,
}

impl Miss {
    fn sentence(&self) -> String {
        match self {
            Miss::SameSpot => "two marks that stand apart".to_owned(),
            Miss::Short { apart_m, by_m } => format!(
                "tapes that meet: the two marks are {apart_m:.3} m apart along the tape, so these fall short \
                 of each other by {by_m:.3} m"
            ),
            Miss::Over { apart_m, by_m } => format!(
                "tapes that meet: the two marks are {apart_m:.3} m apart along the tape, so the longer one \
                 overshoots the other's reach by {by_m:.3} m"
            ),
            Miss::InLine => {
                "tapes that cross: these run along one line, so they fix nothing across it; take \
                             a bearing and one tape instead"
                    .to_owned()
            }
        }
    }
}

fn given_tapes(a: &Arm, b: &Arm) -> String {
    format!("tapes of {} m and {} m", a.tape_m, b.tape_m)
}

/// Two tapes along the ground's plane.
///
/// Lengths on the plane are plan lengths in the metric M = I + g·gᵀ. Its root S = I + c·g·gᵀ stretches the
/// plan along the fall line by 1/cos s, in which both tapes are plain circles: they are crossed there and the
/// point is brought back by S⁻¹, exactly and without iteration.
fn two_tapes(readings: &Readings, a: &Arm, b: &Arm, side: Side) -> Result<Followed, Miss> {
    let g = readings.gradient;
    let steep = (1.0 + dot(g, g)).sqrt();
    let c = 1.0 / (steep + 1.0); // (√(1 + g²) − 1)/g² without the division by zero on level ground
    let stretch = |v: [f64; 2]| plus(v, scale(g, c * dot(g, v)));
    let unstretch = |v: [f64; 2]| plus(v, scale(g, -c / steep * dot(g, v)));

    let line = stretch(minus(b.at, a.at));
    let apart_m = hypot(line[0], line[1]);
    let from_a = cross_circles(a.tape_m, b.tape_m, apart_m)?;
    let e = scale(line, 1.0 / apart_m);
    let left = [-e[1], e[0]];
    let off = match side {
        Side::Left => from_a.off_m,
        Side::Right => -from_a.off_m,
    };
    let at = plus(a.at, unstretch(plus(scale(e, from_a.along_m), scale(left, off))));
    differentiate(readings, a, b, at)
}

struct Crossing {
    along_m: f64,
    off_m: f64,
}

/// Two circles of radii `a`, `b`, their centres `apart` on one line: the crossing's place along and off it.
fn cross_circles(a: f64, b: f64, apart: f64) -> Result<Crossing, Miss> {
    if apart < 1e-9 {
        return Err(Miss::SameSpot);
    }
    let short = apart - (a + b);
    let over = (a - b).abs() - apart;
    if short > 0.0 {
        return Err(Miss::Short { apart_m: apart, by_m: short });
    }
    if over > 0.0 {
        return Err(Miss::Over { apart_m: apart, by_m: over });
    }
    let along_m = (apart + (a - b) * (a + b) / apart) / 2.0;
    // Heron's form of the height: it keeps its digits where the triangle is flat.
    let off_m = ((a + b + apart) * -short * (apart + (a - b)) * (apart - (a - b))).sqrt() / (2.0 * apart);
    Ok(Crossing { along_m, off_m })
}

/// Derivatives by the implicit equations L_A(P, A, g) = tape a, L_B(P, B, g) = tape b.
fn differentiate(readings: &Readings, a: &Arm, b: &Arm, at: [f64; 2]) -> Result<Followed, Miss> {
    let g = readings.gradient;
    let rows = [a, b].map(|arm| {
        let d = minus(at, arm.at);
        let rise = dot(g, d);
        let length = hypot(hypot(d[0], d[1]), rise);
        let by_point = scale(plus(d, scale(g, rise)), 1.0 / length);
        (d, by_point, scale(d, rise / length))
    });
    let [(d_a, r_a, g_a), (d_b, r_b, g_b)] = rows;
    let determinant = r_a[0] * r_b[1] - r_a[1] * r_b[0];
    // A tape of no length has no direction and gives NaN.
    if determinant.is_nan() || determinant.abs() < LEAST_CROSSING_SINE {
        return Err(Miss::InLine);
    }
    let by_a = scale([r_b[1], -r_b[0]], 1.0 / determinant); // dP/d(tape a)
    let by_b = scale([-r_a[1], r_a[0]], 1.0 / determinant); // dP/d(tape b)
    let (sigma_a, sigma_b) = (readings.tape_sigma_m(a.tape_m), readings.tape_sigma_m(b.tape_m));
    let by_gradient = scale_matrix(add(outer(by_a, g_a), outer(by_b, g_b)), -1.0);
    let crossing_deg = atan2_deg((d_a[0] * d_b[1] - d_a[1] * d_b[0]).abs(), dot(d_a, d_b));
    Ok(Followed {
        at,
        by_state: vec![(a.state, outer(by_a, r_a)), (b.state, outer(by_b, r_b)), (0, by_gradient)],
        own: add(
            outer(scale(by_a, sigma_a), scale(by_a, sigma_a)),
            outer(scale(by_b, sigma_b), scale(by_b, sigma_b)),
        ),
        crossing_deg: Some(crossing_deg),
    })
}

const IDENTITY: Matrix2 = [[1.0, 0.0], [0.0, 1.0]];

fn dot(a: [f64; 2], b: [f64; 2]) -> f64 {
    a[0] * b[0] + a[1] * b[1]
}

fn plus(a: [f64; 2], b: [f64; 2]) -> [f64; 2] {
    [a[0] + b[0], a[1] + b[1]]
}

fn minus(a: [f64; 2], b: [f64; 2]) -> [f64; 2] {
    [a[0] - b[0], a[1] - b[1]]
}

fn scale(v: [f64; 2], factor: f64) -> [f64; 2] {
    [v[0] * factor, v[1] * factor]
}

fn outer(a: [f64; 2], b: [f64; 2]) -> Matrix2 {
    [[a[0] * b[0], a[0] * b[1]], [a[1] * b[0], a[1] * b[1]]]
}

pub(super) fn add(a: Matrix2, b: Matrix2) -> Matrix2 {
    [plus(a[0], b[0]), plus(a[1], b[1])]
}

pub(super) fn scale_matrix(m: Matrix2, factor: f64) -> Matrix2 {
    [scale(m[0], factor), scale(m[1], factor)]
}
