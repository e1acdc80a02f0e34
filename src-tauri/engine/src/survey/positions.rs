//! Where the marks and every point fixed from them lie in the site frame, and how sure that is.
//!
//! Marks are first found one from the other, as the yard's owner fixed them. Where further measurements or a
//! baseline say more than is needed, all marks are then adjusted as one network. Points beyond the marks
//! (trees, corners, the mast) are fixed from marks and do not move them.
//!
//! What the covariances hold: the readings' own sigmas and, for tapes along the ground, the slope's. What they
//! leave out: the north correction's sigma. It turns the whole yard about the origin at once and so changes no
//! distance or angle between points; the plan states it beside the north correction.

mod corners;
mod fix;
pub mod geometry;
mod network;
mod open;
mod references;
mod relative;
mod sites;
mod state;

use std::collections::{BTreeMap, BTreeSet};

use crate::finding::{Finding, Subject};
use crate::ground::Plane;
use crate::ground::fall::gradient_covariance;
use crate::job::{Instruments, PointFix, TapeHeld, Yard};
use crate::numerics::least_squares::DMatrix;
use crate::pointer;
use crate::quantity::{FieldError, FieldErrors, Units};
use crate::survey::Ellipse;
use crate::survey::north::NorthCorrection;
use fix::Followed;
pub use relative::Pegged;
pub(crate) use sites::Site;
use state::FixState;

/// A point in plan with its covariance.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PositionEstimate {
    /// East and north in metres.
    pub at: [f64; 2],
    /// Covariance in m², rows and columns east, north.
    pub covariance: [[f64; 2]; 2],
}

/// The marks in their places, and the means to find every other point from them.
#[derive(Debug, Clone)]
pub struct Positions {
    /// In which what is wrong is said.
    units: Units,
    readings: Readings,
    index: BTreeMap<String, usize>,
    ids: Vec<String>,
    /// The points of the state: the marks, then the corners that others follow from.
    points: Vec<PositionEstimate>,
    state: FixState,
    /// Corners of the state by their JSON pointers.
    corners: BTreeMap<String, usize>,
    /// Marks and corners that wait for a side to be named.
    open_marks: BTreeSet<usize>,
    open_corners: BTreeSet<String>,
}

/// How readings become lengths and bearings, and how sure they are.
#[derive(Debug, Clone)]
struct Readings {
    instruments: Instruments,
    /// Gradient that tapes run along; zero where they were held level.
    gradient: [f64; 2],
    add_to_reading_deg: f64,
}

impl Readings {
    fn of(yard: &Yard, north: &NorthCorrection, plane: &Plane) -> Self {
        let gradient = match yard.tape_held {
            TapeHeld::AlongGround => plane.gradient,
            TapeHeld::Level => [0.0, 0.0],
        };
        Self { instruments: yard.instruments, gradient, add_to_reading_deg: north.add_to_reading_deg }
    }

    fn tape_sigma_m(&self, tape_m: f64) -> f64 {
        // A tape without any error would break the weights.
        self.instruments.tape_sigma_of_m(tape_m).max(1e-6)
    }

    fn bearing_sigma_deg(&self) -> f64 {
        self.instruments.bearing_sigma_deg.max(1e-6)
    }

    fn slope_sigma_deg(&self) -> f64 {
        self.instruments.slope_sigma_deg.max(1e-6)
    }

    fn square_sigma(&self) -> f64 {
        self.instruments.square_sigma_deg.max(1e-6).to_radians()
    }

    /// A turn of 90° was taken as square; any other one was read, as the difference of two bearings.
    fn turn_sigma(&self, turn_deg: f64) -> f64 {
        let read = std::f64::consts::SQRT_2 * self.bearing_sigma_deg().to_radians();
        if turn_deg.abs() == 90.0 { self.square_sigma() } else { read }
    }

    fn sketched_sigma_m(&self) -> f64 {
        self.instruments.sketched_sigma_m.max(1e-6)
    }

    fn true_bearing_deg(&self, reading_deg: f64) -> f64 {
        crate::quantity::bearing::wrap_360(reading_deg + self.add_to_reading_deg)
    }
}

/// What the straight-lined law of propagation leaves out where a bearing swings a point on its circle: the point
/// also comes nearer by d·(1 − cos δ) ≈ d·δ²/2, whose mean square is 3/4·d²·σ⁴ for a normal δ (fourth moment
/// 3σ⁴; GUM 5.1.2, note, on terms of higher order). With a compass of 2° it outweighs the tape from 35 m on.
fn curve_sigma(plan_m: f64, sigma_rad: f64) -> f64 {
    0.75_f64.sqrt() * plan_m * sigma_rad * sigma_rad
}

impl Positions {
    /// Locates all marks of a yard on the ground's plane.
    ///
    /// # Errors
    /// All at once: an unknown, repeated or circular mark, an origin that is not the first mark, tapes that do
    /// not meet, a number out of range, measurements that can't be adjusted together.
    pub fn new(
        yard: &Yard,
        north: &NorthCorrection,
        plane: &Plane,
        units: Units,
    ) -> Result<(Positions, Vec<Finding>), FieldErrors> {
        let index = references::check(yard).map_err(FieldErrors::from)?;
        let points = yard.marks.len() + corners::count(yard);
        let mut positions = Positions {
            units,
            readings: Readings::of(yard, north, plane),
            index,
            ids: yard.marks.iter().map(|mark| mark.id.clone()).collect(),
            points: vec![PositionEstimate { at: [0.0, 0.0], covariance: [[0.0; 2]; 2] }; points],
            state: FixState::of_points(points),
            corners: BTreeMap::new(),
            open_marks: BTreeSet::new(),
            open_corners: BTreeSet::new(),
        };
        positions.follow_marks(yard).map_err(FieldErrors::from)?;
        let mut findings = Vec::new();
        if network::is_redundant(yard) {
            findings.extend(network::adjust_marks(&mut positions, yard)?);
        }
        positions.follow_corners(yard);
        positions.join_ground(tapes_ground(yard, plane), &DMatrix::zeros(2 * positions.points.len(), 2));
        findings.extend(positions.geometry_of_marks(yard));
        Ok((positions, findings))
    }

    /// Finds a point from the marks.
    ///
    /// # Errors
    /// When the fix leads nowhere: an unknown mark, tapes that do not meet, a number out of range. `path` is
    /// the fix's JSON pointer.
    pub fn locate(&self, fix: &PointFix, path: &str) -> Result<PositionEstimate, FieldError> {
        let followed = self.follow(fix, path)?;
        Ok(PositionEstimate { at: followed.at, covariance: self.covariance_of(&followed) })
    }

    /// Follows the fix of a point other than the first mark.
    fn follow(&self, fix: &PointFix, path: &str) -> Result<Followed, FieldError> {
        if let Some(&corner) = self.corners.get(path) {
            return Ok(Followed::of_state(self.start_at(corner)));
        }
        if let Some(error) = references::check_fix(fix, path, &self.index).into_iter().next() {
            return Err(error);
        }
        if matches!(fix, PointFix::Origin) {
            return Err(references::misplaced_origin(path));
        }
        if let Some((field, id)) = fix.starts().into_iter().find(|(_, id)| self.is_open_mark(id)) {
            return Err(references::open_mark(path, field, id));
        }
        fix::follow(self, fix, path)
    }

    /// A mark by its id; none where it is not there or waits for its side to be named.
    pub fn mark(&self, id: &str) -> Option<&PositionEstimate> {
        let index = self.index.get(id).filter(|mark| !self.open_marks.contains(mark))?;
        self.points.get(*index)
    }

    /// The marks that are placed, with their ids, in the job's order.
    pub fn marks(&self) -> impl Iterator<Item = (&str, &PositionEstimate)> {
        let placed = |(mark, _): &(usize, _)| !self.open_marks.contains(mark);
        self.ids.iter().map(String::as_str).zip(&self.points).enumerate().filter(placed).map(|(_, mark)| mark)
    }

    /// The ellipse that holds a point with 95 % probability.
    pub fn ellipse_95(located: &PositionEstimate) -> Ellipse {
        super::ellipse::ellipse_95(located)
    }

    fn geometry_of_marks(&self, yard: &Yard) -> Vec<Finding> {
        let lone = yard.marks.iter().enumerate().filter(|(_, mark)| !network::touches(yard, &mark.id));
        lone.flat_map(|(number, mark)| {
            let subject = Subject::Mark { id: mark.id.clone() };
            self.geometry(&mark.at, &pointer!(yard.marks[number].at), subject)
        })
        .collect()
    }

    /// Follows each mark's fix once the marks it starts from are found.
    fn follow_marks(&mut self, yard: &Yard) -> Result<(), Vec<FieldError>> {
        let mut errors = Vec::new();
        // `check` has made sure that there is no circle, so each round finds a mark or meets one that failed.
        let mut found = vec![false; yard.marks.len()];
        let mut waiting: Vec<usize> = (0..yard.marks.len()).collect();
        loop {
            let (ready, later): (Vec<usize>, Vec<usize>) = waiting.iter().partition(|&&mark| {
                let starts = yard.marks[mark].at.starts();
                starts.iter().all(|(_, id)| self.index.get(*id).is_some_and(|&start| found[start]))
            });
            if ready.is_empty() {
                break;
            }
            for mark in ready {
                let at = &yard.marks[mark].at;
                let path = pointer!(yard.marks[mark].at);
                if self.is_open(at, &path) {
                    self.open_marks.insert(mark);
                    found[mark] = true;
                    continue;
                }
                match fix::follow(self, at, &path) {
                    Ok(followed) => {
                        self.place(mark, &followed);
                        found[mark] = true;
                    }
                    Err(error) => errors.push(error),
                }
            }
            waiting = later;
        }
        if errors.is_empty() { Ok(()) } else { Err(errors) }
    }
}

/// Covariance of the gradient that tapes ran along; nothing where they were held level.
fn tapes_ground(yard: &Yard, plane: &Plane) -> [[f64; 2]; 2] {
    let covariance = gradient_covariance(plane);
    let finite = covariance.iter().flatten().all(|value| value.is_finite());
    if yard.tape_held == TapeHeld::AlongGround && finite { covariance } else { [[0.0; 2]; 2] }
}

#[cfg(test)]
mod tests;
