//! The normal equations of a network: sparse, in an order that keeps them near the diagonal.

use super::{AdjustmentError, Row, Unknowns};
use crate::numerics::least_squares::{self, DMatrix, DVector, LeastSquaresError};
use crate::numerics::ordering::reverse_cuthill_mckee;
use crate::numerics::skyline::{Cholesky, Skyline};

/// A pivot below this share of its own diagonal means that the normal equations have lost half the digits:
/// the dense orthogonal way decides then whether anything is left.
const LEAST_PIVOT: f64 = 1e-9;

/// The dense way takes n³; beyond this many unknowns weak pivots are an error at once.
const DENSE_UP_TO: usize = 400;

/// How much of the covariance is wanted.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Precision {
    /// That of every point with every other.
    Joint,
    /// That of each point.
    Blocks,
}

/// Which unknowns meet in which rows: the same for every step.
pub(super) struct Pattern {
    /// Place of each pair of parameters in the sparse order.
    place: Vec<usize>,
    first: Vec<usize>,
}

impl Pattern {
    pub(super) fn of(rows: &[Row], unknowns: &Unknowns) -> Self {
        let pairs = unknowns.points.len();
        let mut neighbours: Vec<Vec<usize>> = vec![Vec::new(); pairs];
        let met =
            |row: &Row| -> Vec<usize> { row.free_terms(unknowns).map(|(first, _)| first / 2).collect() };
        for row in rows {
            let pairs = met(row);
            for (i, &a) in pairs.iter().enumerate() {
                for &b in pairs[..i].iter().filter(|&&b| b != a) {
                    neighbours[a].push(b);
                    neighbours[b].push(a);
                }
            }
        }
        for near in &mut neighbours {
            near.sort_unstable();
            near.dedup();
        }
        let mut place = vec![0; pairs];
        for (at, pair) in reverse_cuthill_mckee(&neighbours).into_iter().enumerate() {
            place[pair] = at;
        }
        let mut first: Vec<usize> = (0..2 * pairs).map(|row| row / 2 * 2).collect();
        for (pair, near) in neighbours.iter().enumerate() {
            let earliest = near.iter().map(|&n| place[n]).min().unwrap_or(place[pair]).min(place[pair]);
            first[2 * place[pair]] = 2 * earliest;
            first[2 * place[pair] + 1] = 2 * earliest;
        }
        Self { place, first }
    }

    fn at(&self, parameter: usize) -> usize {
        2 * self.place[parameter / 2] + parameter % 2
    }

    /// One step of Gauss–Newton.
    pub(super) fn step(&self, rows: &[Row], unknowns: &Unknowns) -> Result<Step, AdjustmentError> {
        finite(rows)?;
        let (normal, right) = self.assemble(rows, unknowns);
        let scale: Vec<f64> = (0..normal.size())
            .map(|i| normal.get(i, i))
            .map(|d| if d > 0.0 { 1.0 / d.sqrt() } else { 1.0 })
            .collect();
        let place: Vec<usize> = (0..normal.size()).map(|parameter| self.at(parameter)).collect();
        match self.scaled(&normal, &scale).cholesky(LEAST_PIVOT) {
            Ok(factor) => {
                let solver = Solver::Sparse { factor, scale, place };
                Ok(Step { parameters: solver.solve(right), solver })
            }
            Err(_) if unknowns.count() <= DENSE_UP_TO => dense(rows, unknowns),
            Err(bad) => {
                let mut points: Vec<usize> = (0..unknowns.count())
                    .filter(|&parameter| bad.contains(&place[parameter]))
                    .map(|parameter| unknowns.points[parameter / 2])
                    .collect();
                points.dedup();
                Err(AdjustmentError::Undetermined { points })
            }
        }
    }

    /// AᵀPA in the sparse order, AᵀP·l in the parameters' own.
    fn assemble(&self, rows: &[Row], unknowns: &Unknowns) -> (Skyline, Vec<f64>) {
        let mut normal = Skyline::zeros(self.first.clone());
        let mut right = vec![0.0; unknowns.count()];
        for row in rows {
            let weight = 1.0 / (row.sigma * row.sigma);
            let terms: Vec<(usize, f64)> = row
                .free_terms(unknowns)
                .flat_map(|(first, by)| [(first, by[0]), (first + 1, by[1])])
                .collect();
            for (i, &(a, by_a)) in terms.iter().enumerate() {
                right[a] += weight * by_a * row.misclosure;
                // Each pair once: both halves of the matrix are one cell.
                for &(b, by_b) in &terms[..=i] {
                    normal.add(self.at(a), self.at(b), weight * by_a * by_b);
                }
            }
        }
        (normal, right)
    }

    /// With ones on the diagonal, so that one tolerance serves metres and degrees.
    fn scaled(&self, normal: &Skyline, scale: &[f64]) -> Skyline {
        let mut scaled = Skyline::zeros(self.first.clone());
        for (row, &first) in self.first.iter().enumerate() {
            for column in first..=row {
                scaled.add(row, column, normal.get(row, column) * scale[row] * scale[column]);
            }
        }
        scaled
    }
}

fn finite(rows: &[Row]) -> Result<(), AdjustmentError> {
    let sound = |row: &&Row| {
        let by = row.terms.iter().flat_map(|(_, by)| by);
        row.misclosure.is_finite() && by.into_iter().all(|by| by.is_finite())
    };
    match rows.iter().find(|row| !sound(row)) {
        Some(row) => Err(AdjustmentError::BadObservation { observation: row.observation }),
        None => Ok(()),
    }
}

/// By QR of the whole design matrix.
pub(super) fn dense(rows: &[Row], unknowns: &Unknowns) -> Result<Step, AdjustmentError> {
    let mut design = DMatrix::zeros(rows.len(), unknowns.count());
    for (index, row) in rows.iter().enumerate() {
        for (first, by) in row.free_terms(unknowns) {
            design[(index, first)] += by[0];
            design[(index, first + 1)] += by[1];
        }
    }
    let misclosures = DVector::from_fn(rows.len(), |index, _| rows[index].misclosure);
    let sigmas: Vec<f64> = rows.iter().map(|row| row.sigma).collect();
    let fit = least_squares::solve(&design, &misclosures, &sigmas).map_err(|error| match error {
        LeastSquaresError::Underdetermined { parameters } => {
            let mut points: Vec<usize> =
                parameters.iter().map(|parameter| unknowns.points[parameter / 2]).collect();
            points.dedup();
            AdjustmentError::Undetermined { points }
        }
        LeastSquaresError::BadSigma { observation } | LeastSquaresError::NotFinite { observation } => {
            AdjustmentError::BadObservation { observation: rows[observation].observation }
        }
        LeastSquaresError::Shape { .. } => AdjustmentError::DidNotSettle,
    })?;
    Ok(Step { parameters: fit.parameters.iter().copied().collect(), solver: Solver::Dense(fit.covariance) })
}

/// A step with the means to tell how good it is.
pub(super) struct Step {
    pub(super) parameters: Vec<f64>,
    solver: Solver,
}

enum Solver {
    /// `place` and `scale` lead from a parameter to its row of the factor.
    Sparse { factor: Cholesky, scale: Vec<f64>, place: Vec<usize> },
    /// The covariance of the parameters.
    Dense(DMatrix<f64>),
}

impl Solver {
    fn solve(&self, right: Vec<f64>) -> Vec<f64> {
        match self {
            Solver::Dense(covariance) => (covariance * DVector::from_vec(right)).iter().copied().collect(),
            Solver::Sparse { factor, scale, place } => {
                let mut ordered = vec![0.0; right.len()];
                for (parameter, value) in right.iter().enumerate() {
                    ordered[place[parameter]] = value * scale[place[parameter]];
                }
                factor.solve(&mut ordered);
                place.iter().map(|&at| ordered[at] * scale[at]).collect()
            }
        }
    }
}

/// How sure the adjusted points are.
pub(super) struct Quality {
    pub(super) blocks: Vec<[[f64; 2]; 2]>,
    pub(super) joint: Option<DMatrix<f64>>,
    pub(super) redundancy: Vec<f64>,
}

impl Step {
    /// (AᵀPA)⁻¹ · right.
    pub(super) fn solve(&self, right: Vec<f64>) -> Vec<f64> {
        self.solver.solve(right)
    }

    /// What this step takes off a row's misclosure.
    pub(super) fn taken(&self, row: &Row, unknowns: &Unknowns) -> f64 {
        let by = |(first, by): (usize, [f64; 2])| {
            by[0] * self.parameters[first] + by[1] * self.parameters[first + 1]
        };
        row.free_terms(unknowns).map(by).sum()
    }

    pub(super) fn quality(
        &self,
        rows: &[Row],
        unknowns: &Unknowns,
        points: usize,
        wanted: Precision,
    ) -> Quality {
        match (&self.solver, wanted) {
            (Solver::Dense(covariance), _) => {
                let all = |a: usize, b: usize| covariance[(a, b)];
                let joint = (wanted == Precision::Joint).then(|| spread(&all, unknowns, points));
                read_off(&all, joint, rows, unknowns, points)
            }
            (Solver::Sparse { factor, scale, place }, Precision::Joint) => {
                let inverse = factor.inverse();
                let cell = |a: usize, b: usize| {
                    let (a, b) = (place[a], place[b]);
                    inverse[(a, b)] * scale[a] * scale[b]
                };
                read_off(&cell, Some(spread(&cell, unknowns, points)), rows, unknowns, points)
            }
            (Solver::Sparse { factor, scale, place }, Precision::Blocks) => {
                let inverse = factor.selected_inverse();
                let cell = |a: usize, b: usize| {
                    let (a, b) = (place[a], place[b]);
                    inverse.get(a, b) * scale[a] * scale[b]
                };
                read_off(&cell, None, rows, unknowns, points)
            }
        }
    }
}

/// The covariance of the parameters set out for all points, fixed ones with zeros.
fn spread(cell: &dyn Fn(usize, usize) -> f64, unknowns: &Unknowns, points: usize) -> DMatrix<f64> {
    let mut joint = DMatrix::zeros(2 * points, 2 * points);
    let full = |parameter: usize| 2 * unknowns.points[parameter / 2] + parameter % 2;
    for column in 0..unknowns.count() {
        for row in 0..unknowns.count() {
            joint[(full(row), full(column))] = cell(row, column);
        }
    }
    joint
}

fn read_off(
    cell: &dyn Fn(usize, usize) -> f64,
    joint: Option<DMatrix<f64>>,
    rows: &[Row],
    unknowns: &Unknowns,
    points: usize,
) -> Quality {
    let mut blocks = vec![[[0.0; 2]; 2]; points];
    for (index, &point) in unknowns.points.iter().enumerate() {
        let (east, north) = (2 * index, 2 * index + 1);
        let mixed = cell(north, east);
        blocks[point] = [[cell(east, east), mixed], [mixed, cell(north, north)]];
    }
    // The leverage a·Qxx·aᵀ/σ² of a row needs only points that it joins, which are neighbours in the pattern.
    let redundancy = rows
        .iter()
        .map(|row| {
            let terms: Vec<(usize, f64)> = row
                .free_terms(unknowns)
                .flat_map(|(first, by)| [(first, by[0]), (first + 1, by[1])])
                .collect();
            let leverage: f64 =
                terms.iter().flat_map(|a| terms.iter().map(move |b| a.1 * b.1 * cell(a.0, b.0))).sum();
            (1.0 - leverage / (row.sigma * row.sigma)).max(0.0)
        })
        .collect();
    Quality { blocks, joint, redundancy }
}
