//! Plane network adjustment: unknown points from distances, bearings and coordinates, all weighted.
//!
//! Gauss–Newton on the observation equations. Distances may lie along sloping ground: the observation
//! equation then measures on the plane, so that nothing has to be reduced beforehand and a later turn of the
//! line is followed exactly.
//!
//! # References
//! - Ghilani, *Adjustment Computations*, ch. 14 (distances), ch. 15 (azimuths), ch. 16 (networks), ch. 21
//!   (standardised residuals). From memory; the trilateration example's inputs were read in the book's
//!   companion sheet and stand in `tests/published/ghilani_trilateration.rs`.

mod normal;

use crate::numerics::least_squares::DMatrix;
use crate::numerics::real::hypot;
use crate::quantity::bearing;
use normal::{Pattern, Precision, Step};

/// A point of the network, at its given or approximate place: (east, north) in metres.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct NetworkPoint {
    pub at: [f64; 2],
    pub fixed: bool,
}

/// One observation; points are given by their index.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Observation {
    /// A distance along a plane of this gradient (dz/dx, dz/dy); `[0, 0]` for a horizontal distance.
    Distance { from: usize, to: usize, distance_m: f64, gradient: [f64; 2], sigma_m: f64 },
    /// A true bearing (surveyor's azimuth).
    Bearing { from: usize, to: usize, bearing_deg: f64, sigma_deg: f64 },
    /// Coordinates believed to `sigma_m` in each direction.
    Coordinates { point: usize, at: [f64; 2], sigma_m: f64 },
    /// How far along the line `from` → `to` the foot of the square from `point` lies, measured on the plane.
    Along { from: usize, to: usize, point: usize, along_m: f64, gradient: [f64; 2], sigma_m: f64 },
    /// How far `point` lies to the left of the line `from` → `to`, square to it, measured on the plane.
    Left { from: usize, to: usize, point: usize, left_m: f64, gradient: [f64; 2], sigma_m: f64 },
}

/// Which number of an observation a residual is of.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Component {
    DistanceM,
    BearingDeg,
    EastM,
    NorthM,
}

/// How far an observation lies from the adjusted network.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Residual {
    /// Index of the observation.
    pub observation: usize,
    pub component: Component,
    /// Observed minus computed, in metres or degrees by `component`.
    pub value: f64,
    /// The residual's own standard deviation, from its cofactor.
    pub sigma: f64,
    /// `value / sigma`; 0 where no other observation checks this one.
    pub standardised: f64,
    /// The share of an error in this observation that shows in `value`.
    pub redundancy: f64,
}

/// The adjusted network.
#[derive(Debug, Clone, PartialEq)]
pub struct Adjusted {
    /// (east, north) of every point, fixed ones as given.
    pub points: Vec<[f64; 2]>,
    /// Covariance of each point in m² with the sigmas taken as known, rows and columns east, north; zero for a
    /// fixed point.
    pub blocks: Vec<[[f64; 2]; 2]>,
    /// Joint covariance of all points: rows and columns 2i (east), 2i + 1 (north) of point i. Only from
    /// [`adjust`]: it grows with the square of the points.
    pub joint: Option<DMatrix<f64>>,
    /// Change of the coordinates (rows as in `joint`) with the plane's gradient (dz/dx, dz/dy), for
    /// distances along the ground: what an error of the slope does to the network.
    pub by_gradient: DMatrix<f64>,
    pub residuals: Vec<Residual>,
    pub degrees_of_freedom: usize,
    /// S0²; none without redundancy.
    pub variance_factor: Option<f64>,
    pub iterations: usize,
}

impl Adjusted {
    /// Covariance of one point in m², rows and columns east, north.
    pub fn block(&self, point: usize) -> [[f64; 2]; 2] {
        self.blocks.get(point).copied().unwrap_or_default()
    }
}

/// How far an observation that took no part lies from the adjusted network, with the sigma of that: its own and the
/// network's. Nothing where it names a point that is not there, or was adjusted without joint covariance.
///
/// # References
/// Ghilani, *Adjustment Computations*, ch. 21 (residual of a deleted observation). From memory.
pub fn against(adjusted: &Adjusted, observation: Observation) -> Vec<Residual> {
    let Some(joint) = &adjusted.joint else { return Vec::new() };
    let free: Vec<NetworkPoint> =
        adjusted.points.iter().map(|&at| NetworkPoint { at, fixed: false }).collect();
    if check(&free, &[observation]).is_err() {
        return Vec::new();
    }
    let rows = linearise(&adjusted.points, &[observation]).unwrap_or_default();
    rows.iter()
        .map(|row| {
            let terms: Vec<(usize, f64)> = (row.terms.iter())
                .filter(|(point, _)| *point < adjusted.points.len())
                .flat_map(|&(point, by)| [(2 * point, by[0]), (2 * point + 1, by[1])])
                .collect();
            let network: f64 =
                terms.iter().flat_map(|a| terms.iter().map(move |b| a.1 * b.1 * joint[(a.0, b.0)])).sum();
            let sigma = hypot(row.sigma, network.max(0.0).sqrt());
            let (value, component) = (row.misclosure, row.component);
            Residual { observation: 0, component, value, sigma, standardised: value / sigma, redundancy: 1.0 }
        })
        .collect()
}

/// Why a network has no adjustment.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum AdjustmentError {
    #[error("the observations do not hold the points {points:?} in place")]
    Undetermined { points: Vec<usize> },
    #[error("observation {observation} joins two points on one spot, or a point with itself")]
    Coincident { observation: usize },
    #[error("observation {observation} names a point that is not there")]
    UnknownPoint { observation: usize },
    #[error("observation {observation} is not finite or its sigma is not a positive number")]
    BadObservation { observation: usize },
    #[error("the observations contradict each other so much that no adjustment settles")]
    DidNotSettle,
}

/// Gauss–Newton settles in four or five steps on any sensible yard; fifty is the end of patience.
const MOST_ITERATIONS: usize = 50;
/// Settled: no coordinate moves by more than this share of the network's size.
const SETTLED: f64 = 1e-10;

/// Adjusts a network by weighted least squares, with the joint covariance of all points.
///
/// # Units
/// Metres and degrees; any other length unit serves as well, if used throughout.
///
/// # Errors
/// When a point is not held, two joined points coincide, a number is unusable, or the iteration does not settle.
///
/// # Accuracy
/// The normal equations are factored sparse, which is as good as the dense orthogonal way (kept as the reference
/// in the tests) to 1e-9 of a metre on any yard; where their pivots show that it would not be, the dense way is
/// taken.
pub fn adjust(points: &[NetworkPoint], observations: &[Observation]) -> Result<Adjusted, AdjustmentError> {
    run(points, observations, Precision::Joint)
}

/// The same with each point's own covariance only, for large networks.
///
/// # Errors
/// As [`adjust`].
pub fn adjust_large(
    points: &[NetworkPoint],
    observations: &[Observation],
) -> Result<Adjusted, AdjustmentError> {
    run(points, observations, Precision::Blocks)
}

fn run(
    points: &[NetworkPoint],
    observations: &[Observation],
    wanted: Precision,
) -> Result<Adjusted, AdjustmentError> {
    check(points, observations)?;
    let unknowns = Unknowns::of(points);
    let mut at: Vec<[f64; 2]> = points.iter().map(|point| point.at).collect();
    let mut rows = linearise(&at, observations)?;
    let pattern = Pattern::of(&rows, &unknowns);
    for iteration in 1..=MOST_ITERATIONS {
        let step = pattern.step(&rows, &unknowns)?;
        let (moved, next_rows) = step_down(&mut at, &rows, &step, &unknowns, observations)?;
        rows = next_rows;
        if moved <= SETTLED * size_of(&at) {
            // Once more at the settled place, for residuals and covariance that belong to it.
            let step = pattern.step(&rows, &unknowns)?;
            return Ok(result(at, &rows, step, &unknowns, wanted, iteration));
        }
    }
    Err(AdjustmentError::DidNotSettle)
}

/// Where each unknown coordinate stands among the parameters.
struct Unknowns {
    /// For each point the first of its two parameters; none for a fixed point.
    first: Vec<Option<usize>>,
    /// For each pair of parameters its point.
    points: Vec<usize>,
}

impl Unknowns {
    fn of(points: &[NetworkPoint]) -> Self {
        let free: Vec<usize> = (0..points.len()).filter(|&point| !points[point].fixed).collect();
        let mut first = vec![None; points.len()];
        for (index, &point) in free.iter().enumerate() {
            first[point] = Some(2 * index);
        }
        Self { first, points: free }
    }

    fn count(&self) -> usize {
        2 * self.points.len()
    }
}

/// In place of a point where a row has fewer than three.
const NO_POINT: (usize, [f64; 2]) = (usize::MAX, [0.0, 0.0]);

/// A linearised scalar observation.
struct Row {
    observation: usize,
    component: Component,
    /// Observed minus computed at the present approximation.
    misclosure: f64,
    sigma: f64,
    /// Derivatives by the coordinates of at most three points.
    terms: [(usize, [f64; 2]); 3],
    /// Derivative by the plane's gradient.
    by_gradient: [f64; 2],
}

impl Row {
    /// The terms of points that are not fixed: first parameter, derivatives.
    fn free_terms<'a>(&'a self, unknowns: &'a Unknowns) -> impl Iterator<Item = (usize, [f64; 2])> + 'a {
        self.terms.iter().filter_map(|&(point, by)| Some(((*unknowns.first.get(point)?)?, by)))
    }
}

fn check(points: &[NetworkPoint], observations: &[Observation]) -> Result<(), AdjustmentError> {
    for (observation, seen) in observations.iter().enumerate() {
        let (from, to, numbers, sigma) = match *seen {
            Observation::Distance { from, to, distance_m, gradient, sigma_m } => {
                (from, to, [distance_m, gradient[0], gradient[1]], sigma_m)
            }
            Observation::Bearing { from, to, bearing_deg, sigma_deg } => {
                (from, to, [bearing_deg, 0.0, 0.0], sigma_deg)
            }
            Observation::Coordinates { point, at, sigma_m } => (point, point, [at[0], at[1], 0.0], sigma_m),
            Observation::Along { from, to, point, along_m: length_m, gradient, sigma_m }
            | Observation::Left { from, to, point, left_m: length_m, gradient, sigma_m } => {
                (from.max(point), to, [length_m, gradient[0], gradient[1]], sigma_m)
            }
        };
        if from >= points.len() || to >= points.len() {
            return Err(AdjustmentError::UnknownPoint { observation });
        }
        if !(sigma.is_finite() && sigma > 0.0 && numbers.iter().all(|number| number.is_finite())) {
            return Err(AdjustmentError::BadObservation { observation });
        }
    }
    Ok(())
}

fn linearise(at: &[[f64; 2]], observations: &[Observation]) -> Result<Vec<Row>, AdjustmentError> {
    let mut rows = Vec::with_capacity(observations.len());
    for (observation, seen) in observations.iter().enumerate() {
        match *seen {
            Observation::Distance { from, to, distance_m, gradient, sigma_m } => {
                let d = difference(at, from, to, observation)?;
                // On the plane: L² = dE² + dN² + (g·d)²; with g = 0 it is Ghilani's distance equation (14.9).
                let rise = gradient[0] * d[0] + gradient[1] * d[1];
                let computed = hypot(hypot(d[0], d[1]), rise);
                let by = [(d[0] + gradient[0] * rise) / computed, (d[1] + gradient[1] * rise) / computed];
                rows.push(Row {
                    observation,
                    component: Component::DistanceM,
                    misclosure: distance_m - computed,
                    sigma: sigma_m,
                    terms: [(from, [-by[0], -by[1]]), (to, by), NO_POINT],
                    by_gradient: [rise * d[0] / computed, rise * d[1] / computed],
                });
            }
            Observation::Bearing { from, to, bearing_deg, sigma_deg } => {
                let d = difference(at, from, to, observation)?;
                let squared = d[0] * d[0] + d[1] * d[1];
                // Azimuth = atan2(dE, dN); its derivatives, Ghilani (15.9), here in degrees a metre.
                let by = [(d[1] / squared).to_degrees(), (-d[0] / squared).to_degrees()];
                rows.push(Row {
                    observation,
                    component: Component::BearingDeg,
                    misclosure: bearing::turn_deg(bearing::of_vector(d[0], d[1]), bearing_deg),
                    sigma: sigma_deg,
                    terms: [(from, [-by[0], -by[1]]), (to, by), NO_POINT],
                    by_gradient: [0.0, 0.0],
                });
            }
            Observation::Coordinates { point, at: given, sigma_m } => {
                for (axis, component) in [(0, Component::EastM), (1, Component::NorthM)] {
                    let mut by = [0.0, 0.0];
                    by[axis] = 1.0;
                    rows.push(Row {
                        observation,
                        component,
                        misclosure: given[axis] - at[point][axis],
                        sigma: sigma_m,
                        terms: [(point, by), NO_POINT, NO_POINT],
                        by_gradient: [0.0, 0.0],
                    });
                }
            }
            Observation::Along { from, to, point, along_m, gradient, sigma_m } => {
                let square = Square::of(at, [from, to, point], gradient, observation)?;
                rows.push(square.row(observation, square.along(), along_m, sigma_m));
            }
            Observation::Left { from, to, point, left_m, gradient, sigma_m } => {
                let square = Square::of(at, [from, to, point], gradient, observation)?;
                rows.push(square.row(observation, square.left(), left_m, sigma_m));
            }
        }
    }
    Ok(rows)
}

/// A point seen from a line: its foot along it and its distance off it, in plan, with what the plane makes of them.
struct Square {
    points: [usize; 3],
    gradient: [f64; 2],
    /// Unit vectors along the line and to its left, and its length.
    u: [f64; 2],
    n: [f64; 2],
    line_m: f64,
    along_m: f64,
    left_m: f64,
}

/// A length computed on the plane: value, derivatives by the point and by a turn of the line, by the gradient.
struct OnPlane {
    value: f64,
    by_point: [f64; 2],
    by_turn: f64,
    by_gradient: [f64; 2],
}

impl Square {
    fn of(
        at: &[[f64; 2]],
        points: [usize; 3],
        gradient: [f64; 2],
        observation: usize,
    ) -> Result<Self, AdjustmentError> {
        let [from, to, point] = points;
        let d = difference(at, from, to, observation)?;
        let line_m = hypot(d[0], d[1]);
        let u = [d[0] / line_m, d[1] / line_m];
        let n = [-u[1], u[0]];
        let p = [at[point][0] - at[from][0], at[point][1] - at[from][1]];
        Ok(Self { points, gradient, u, n, line_m, along_m: dot(p, u), left_m: dot(p, n) })
    }

    /// A plan length s along a direction of slope g·e is s·√(1 + (g·e)²) on the plane; when the line turns by dφ,
    /// u turns into n and n into −u.
    fn along(&self) -> OnPlane {
        let (rise_u, rise_n) = (dot(self.gradient, self.u), dot(self.gradient, self.n));
        let longer = hypot(1.0, rise_u);
        OnPlane {
            value: self.along_m * longer,
            by_point: self.u.map(|u| u * longer),
            by_turn: self.left_m * longer + self.along_m * rise_u * rise_n / longer,
            by_gradient: self.u.map(|u| self.along_m * rise_u / longer * u),
        }
    }

    fn left(&self) -> OnPlane {
        let (rise_u, rise_n) = (dot(self.gradient, self.u), dot(self.gradient, self.n));
        let longer = hypot(1.0, rise_n);
        OnPlane {
            value: self.left_m * longer,
            by_point: self.n.map(|n| n * longer),
            by_turn: -self.along_m * longer - self.left_m * rise_u * rise_n / longer,
            by_gradient: self.n.map(|n| self.left_m * rise_n / longer * n),
        }
    }

    fn row(&self, observation: usize, computed: OnPlane, observed_m: f64, sigma: f64) -> Row {
        let [from, to, point] = self.points;
        let by_to = self.n.map(|n| computed.by_turn * n / self.line_m);
        let by_from: [f64; 2] = std::array::from_fn(|i| -computed.by_point[i] - by_to[i]);
        Row {
            observation,
            component: Component::DistanceM,
            misclosure: observed_m - computed.value,
            sigma,
            terms: [(from, by_from), (to, by_to), (point, computed.by_point)],
            by_gradient: computed.by_gradient,
        }
    }
}

fn dot(a: [f64; 2], b: [f64; 2]) -> f64 {
    a[0] * b[0] + a[1] * b[1]
}

fn difference(
    at: &[[f64; 2]],
    from: usize,
    to: usize,
    observation: usize,
) -> Result<[f64; 2], AdjustmentError> {
    let d = [at[to][0] - at[from][0], at[to][1] - at[from][1]];
    // A direction is lost on one spot; NaN fails the comparison too.
    if d[0] * d[0] + d[1] * d[1] > 1e-18 { Ok(d) } else { Err(AdjustmentError::Coincident { observation }) }
}

/// Takes the step, or the longest half, quarter … of it that does not make the fit worse. Gives the largest
/// coordinate change and the rows at the new place.
fn step_down(
    at: &mut Vec<[f64; 2]>,
    rows: &[Row],
    step: &Step,
    unknowns: &Unknowns,
    observations: &[Observation],
) -> Result<(f64, Vec<Row>), AdjustmentError> {
    let before = chi_square(rows);
    let mut share = 1.0;
    for _ in 0..40 {
        let mut next = at.clone();
        let mut moved: f64 = 0.0;
        for (index, &point) in unknowns.points.iter().enumerate() {
            for (axis, coordinate) in next[point].iter_mut().enumerate() {
                let change = share * step.parameters[2 * index + axis];
                *coordinate += change;
                moved = moved.max(change.abs());
            }
        }
        // A hair of slack, or rounding at the bottom of the valley would halve for ever.
        if let Ok(next_rows) = linearise(&next, observations)
            && chi_square(&next_rows) <= before * (1.0 + 1e-9) + 1e-15
        {
            *at = next;
            return Ok((moved, next_rows));
        }
        share *= 0.5;
    }
    Err(AdjustmentError::DidNotSettle)
}

fn chi_square(rows: &[Row]) -> f64 {
    rows.iter().map(|row| (row.misclosure / row.sigma) * (row.misclosure / row.sigma)).sum()
}

fn size_of(at: &[[f64; 2]]) -> f64 {
    at.iter().flatten().fold(1.0, |size: f64, value| size.max(value.abs()))
}

/// Redundancy below this is rounding: no other observation checks this one.
const UNCHECKED_REDUNDANCY: f64 = 1e-8;

fn result(
    at: Vec<[f64; 2]>,
    rows: &[Row],
    step: Step,
    unknowns: &Unknowns,
    wanted: Precision,
    iterations: usize,
) -> Adjusted {
    let mut by_gradient = DMatrix::zeros(2 * at.len(), 2);
    for axis in 0..2 {
        let pull = step.solve(slope_moment(rows, unknowns, axis));
        for (index, &point) in unknowns.points.iter().enumerate() {
            by_gradient[(2 * point, axis)] = pull[2 * index];
            by_gradient[(2 * point + 1, axis)] = pull[2 * index + 1];
        }
    }
    // Observed minus computed after the last step, which is as good as none.
    let residuals: Vec<f64> = rows.iter().map(|row| row.misclosure - step.taken(row, unknowns)).collect();
    let quality = step.quality(rows, unknowns, at.len(), wanted);
    let chi_square: f64 =
        rows.iter().zip(&residuals).map(|(row, value)| (value / row.sigma) * (value / row.sigma)).sum();
    let degrees_of_freedom = rows.len().saturating_sub(unknowns.count());
    let judged = rows.iter().zip(&residuals).zip(&quality.redundancy);
    let residuals = judged
        .map(|((row, &value), &redundancy)| {
            // σ_v = σ·√r: Ghilani, ch. 21.
            let sigma = row.sigma * redundancy.sqrt();
            let standardised = if redundancy > UNCHECKED_REDUNDANCY { value / sigma } else { 0.0 };
            Residual {
                observation: row.observation,
                component: row.component,
                value,
                sigma,
                standardised,
                redundancy,
            }
        })
        .collect();
    Adjusted {
        points: at,
        blocks: quality.blocks,
        joint: quality.joint,
        by_gradient,
        residuals,
        degrees_of_freedom,
        variance_factor: (degrees_of_freedom > 0).then(|| chi_square / degrees_of_freedom as f64),
        iterations,
    }
}

/// −AᵀP·∂f/∂g: what a change of the gradient adds to the right-hand side, as the adjustment absorbs what the
/// slope adds to each computed distance.
fn slope_moment(rows: &[Row], unknowns: &Unknowns, axis: usize) -> Vec<f64> {
    let mut moment = vec![0.0; unknowns.count()];
    for row in rows {
        let weight = 1.0 / (row.sigma * row.sigma);
        for (first, by) in row.free_terms(unknowns) {
            moment[first] -= weight * by[0] * row.by_gradient[axis];
            moment[first + 1] -= weight * by[1] * row.by_gradient[axis];
        }
    }
    moment
}

#[cfg(test)]
mod reference;

#[cfg(test)]
mod tests {
    use super::*;

    const LEVEL: [f64; 2] = [0.0, 0.0];

    fn fixed(at: [f64; 2]) -> NetworkPoint {
        NetworkPoint { at, fixed: true }
    }

    fn free(at: [f64; 2]) -> NetworkPoint {
        NetworkPoint { at, fixed: false }
    }

    fn distance(from: usize, to: usize, distance_m: f64) -> Observation {
        Observation::Distance { from, to, distance_m, gradient: LEVEL, sigma_m: 0.01 }
    }

    /// What stands in the equations for a point off a line on a slope, against differences of the lengths themselves.
    #[test]
    fn a_square_s_derivatives_are_those_of_its_lengths() {
        const STEP: f64 = 1e-6;
        let square = |gradient: [f64; 2], p: [f64; 2], turn: f64| {
            let u = [crate::numerics::real::sin(0.7 + turn), crate::numerics::real::cos(0.7 + turn)];
            let n = [-u[1], u[0]];
            Square { points: [0, 1, 2], gradient, u, n, line_m: 9.0, along_m: dot(p, u), left_m: dot(p, n) }
        };
        let (gradient, p) = ([0.21, -0.13], [4.0, 2.5]);
        for of in [Square::along, Square::left] {
            let here = of(&square(gradient, p, 0.0));
            for axis in 0..2 {
                let (mut steeper, mut moved) = (gradient, p);
                steeper[axis] += STEP;
                moved[axis] += STEP;
                let by_gradient = (of(&square(steeper, p, 0.0)).value - here.value) / STEP;
                let by_point = (of(&square(gradient, moved, 0.0)).value - here.value) / STEP;
                assert!((here.by_gradient[axis] - by_gradient).abs() < 1e-5, "gradient, axis {axis}");
                assert!((here.by_point[axis] - by_point).abs() < 1e-5, "point, axis {axis}");
            }
            // Anticlockwise, as the line's left is turned to; bearings run the other way.
            let by_turn = (of(&square(gradient, p, -STEP)).value - here.value) / STEP;
            assert!((here.by_turn - by_turn).abs() < 1e-5, "turn: {} {by_turn}", here.by_turn);
        }
    }

    #[test]
    fn bearing_and_distance_have_the_ellipse_of_polar_coordinates() {
        // Due east over 10 m: sigma along is the tape's, across is the distance times the bearing's in radians.
        let observations = [
            distance(0, 1, 10.0),
            Observation::Bearing { from: 0, to: 1, bearing_deg: 90.0, sigma_deg: 2.0 },
        ];
        let adjusted = adjust(&[fixed([0.0, 0.0]), free([8.0, 3.0])], &observations).unwrap();
        assert!((adjusted.points[1][0] - 10.0).abs() < 1e-12 && adjusted.points[1][1].abs() < 1e-12);
        let block = adjusted.block(1);
        assert!((block[0][0].sqrt() - 0.01).abs() < 1e-12);
        assert!((block[1][1].sqrt() - 10.0 * 2.0_f64.to_radians()).abs() < 1e-12);
        assert_eq!((adjusted.degrees_of_freedom, adjusted.variance_factor), (0, None));
    }

    #[test]
    fn a_tape_down_the_slope_reaches_its_cosine() {
        let gradient = [0.0, -0.5];
        let observations = [
            Observation::Distance { from: 0, to: 1, distance_m: 10.0, gradient, sigma_m: 0.01 },
            Observation::Bearing { from: 0, to: 1, bearing_deg: 0.0, sigma_deg: 1.0 },
        ];
        let adjusted = adjust(&[fixed([0.0, 0.0]), free([0.1, 9.0])], &observations).unwrap();
        assert!((adjusted.points[1][1] - 10.0 / 1.25_f64.sqrt()).abs() < 1e-12);
        // d = 10/√(1 + g²), so dd/dg = −10·g/(1 + g²)^(3/2).
        let expected = 10.0 * 0.5 / (1.25 * 1.25_f64.sqrt());
        assert!((adjusted.by_gradient[(3, 1)] - expected).abs() < 1e-10);
    }

    #[test]
    fn a_point_that_swings_free_is_named() {
        let points = [fixed([0.0, 0.0]), free([5.0, 1.0]), free([3.0, 4.0])];
        let observations =
            [Observation::Coordinates { point: 1, at: [5.0, 0.0], sigma_m: 0.1 }, distance(0, 2, 5.0)];
        assert_eq!(adjust(&points, &observations), Err(AdjustmentError::Undetermined { points: vec![2] }));
    }

    #[test]
    fn a_blunder_has_the_largest_standardised_residual() {
        let square = [[0.0, 0.0], [10.0, 0.0], [10.0, 10.0], [0.0, 10.0]];
        let points = [fixed(square[0]), fixed(square[1]), free(square[2]), free(square[3])];
        let diagonal = 200.0_f64.sqrt();
        let observations = [
            distance(1, 2, 10.0),
            distance(2, 3, 10.0),
            distance(3, 0, 10.0),
            distance(0, 2, diagonal + 0.2),
            distance(1, 3, diagonal),
            Observation::Bearing { from: 0, to: 2, bearing_deg: 45.0, sigma_deg: 0.05 },
            Observation::Bearing { from: 1, to: 3, bearing_deg: 315.0, sigma_deg: 0.05 },
        ];
        let adjusted = adjust(&points, &observations).unwrap();
        let worst = adjusted
            .residuals
            .iter()
            .max_by(|a, b| a.standardised.abs().total_cmp(&b.standardised.abs()))
            .unwrap();
        assert_eq!((worst.observation, worst.component), (3, Component::DistanceM));
        assert!(worst.standardised > 3.0);
    }

    #[test]
    fn unusable_observations_are_named() {
        let points = [fixed([0.0, 0.0]), free([0.0, 0.0])];
        let check = |observation, error| assert_eq!(adjust(&points, &[observation]), Err(error));
        check(distance(0, 1, 1.0), AdjustmentError::Coincident { observation: 0 });
        check(distance(0, 7, 1.0), AdjustmentError::UnknownPoint { observation: 0 });
        check(distance(0, 1, f64::NAN), AdjustmentError::BadObservation { observation: 0 });
    }
}
