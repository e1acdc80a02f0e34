//! Where the marks and every point fixed from them lie in the site frame, and how sure that is.
//!
//! Marks are first found one from the other, as the yard's owner fixed them. Where further measurements or a
//! baseline say more than is needed, all marks are then adjusted as one network. Points beyond the marks
//! (trees, corners, the mast) are fixed from marks and do not move them.
//!
//! What the covariances hold: the readings' own sigmas and, for tapes along the ground, the slope's. What they
//! leave out: the north correction's sigma. It turns the whole yard about the origin at once and so changes no
//! distance or angle between points; the plan states it beside the north correction.

mod fix;
mod network;
mod references;
mod relative;
mod sites;

use std::collections::BTreeMap;

use crate::finding::{Finding, Quantity, Severity, Subject};
use crate::ground::Plane;
use crate::job::{FieldError, FieldErrors, Fix, Instruments, TapeHeld, Yard};
use crate::numerics::least_squares::DMatrix;
use crate::plan::Ellipse;
use crate::source::SourceKey;
use crate::survey::north::NorthCorrection;
use fix::Followed;
pub use relative::Pegged;
pub(crate) use sites::Site;

/// Two tapes cross well between these angles: common practice of setting out by swing ties.
pub const GOOD_CROSSING_DEG: [f64; 2] = [30.0, 150.0];

/// A point in plan with its covariance.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Located {
    /// East and north in metres.
    pub at: [f64; 2],
    /// Covariance in m², rows and columns east, north.
    pub covariance: [[f64; 2]; 2],
}

/// The marks in their places, and the means to find every other point from them.
#[derive(Debug, Clone)]
pub struct Positions {
    readings: Readings,
    index: BTreeMap<String, usize>,
    ids: Vec<String>,
    marks: Vec<Located>,
    /// Joint covariance: rows and columns 0, 1 the ground's gradient, then 2 + 2i (east), 3 + 2i (north) of
    /// mark i.
    joint: DMatrix<f64>,
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
        let growing_m = self.instruments.tape_sigma_mm_per_m * tape_m / 1000.0;
        // The two parts are independent: GUM 5.1.2. A tape without any error would break the weights.
        crate::numerics::real::hypot(self.instruments.tape_sigma_m, growing_m).max(1e-6)
    }

    fn bearing_sigma_deg(&self) -> f64 {
        self.instruments.bearing_sigma_deg.max(1e-6)
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
    ) -> Result<(Positions, Vec<Finding>), FieldErrors> {
        let index = references::check(yard).map_err(|errors| FieldErrors { errors })?;
        let mut positions = Positions {
            readings: Readings::of(yard, north, plane),
            index,
            ids: yard.marks.iter().map(|mark| mark.id.clone()).collect(),
            marks: vec![Located { at: [0.0, 0.0], covariance: [[0.0; 2]; 2] }; yard.marks.len()],
            joint: DMatrix::zeros(2 + 2 * yard.marks.len(), 2 + 2 * yard.marks.len()),
        };
        positions.set_gradient_covariance(yard, plane);
        let mut findings = positions.follow_marks(yard).map_err(|errors| FieldErrors { errors })?;
        if network::is_redundant(yard) {
            let adjusted = network::adjust_marks(&mut positions, yard);
            findings.extend(adjusted?);
        }
        Ok((positions, findings))
    }

    /// Finds a point from the marks.
    ///
    /// # Errors
    /// When the fix leads nowhere: an unknown mark, tapes that do not meet, a number out of range. `path` is
    /// the fix's JSON pointer.
    pub fn locate(&self, fix: &Fix, path: &str) -> Result<Located, FieldError> {
        let followed = self.followed(fix, path)?;
        let cross = self.cross_covariance(&followed);
        Ok(Located { at: followed.at, covariance: self.own_covariance(&followed, &cross) })
    }

    /// Follows the fix of a point other than the first mark.
    fn followed(&self, fix: &Fix, path: &str) -> Result<Followed, FieldError> {
        if let Some(error) = references::check_fix(fix, path, &self.index).into_iter().next() {
            return Err(error);
        }
        if matches!(fix, Fix::Origin) {
            return Err(references::misplaced_origin(path));
        }
        fix::follow(self, fix, path)
    }

    /// A mark by its id.
    pub fn mark(&self, id: &str) -> Option<&Located> {
        self.index.get(id).and_then(|&index| self.marks.get(index))
    }

    /// The marks with their ids, in the job's order.
    pub fn marks(&self) -> impl Iterator<Item = (&str, &Located)> {
        self.ids.iter().map(String::as_str).zip(&self.marks)
    }

    /// The ellipse that holds a point with 95 % probability.
    pub fn ellipse_95(located: &Located) -> Ellipse {
        super::ellipse::ellipse_95(located)
    }

    /// A caution where a point is fixed by two tapes that cross at a poor angle; `subject` is the thing that
    /// stands on the point.
    pub fn poor_crossing(&self, fix: &Fix, subject: Subject) -> Option<Finding> {
        if !references::check_fix(fix, "", &self.index).is_empty() {
            return None;
        }
        let crossing_deg = fix::follow(self, fix, "").ok()?.crossing_deg?;
        let [least_deg, most_deg] = GOOD_CROSSING_DEG;
        if (least_deg..=most_deg).contains(&crossing_deg) {
            return None;
        }
        let limit_deg = if crossing_deg < least_deg { least_deg } else { most_deg };
        Some(Finding {
            severity: Severity::Caution,
            rule: "poor_crossing".to_owned(),
            subject,
            against: None,
            sentence: "The two tapes that fix this point cross at a poor angle, so a small error of a tape \
                       moves it far."
                .to_owned(),
            measured: Some(Quantity::AngleDeg { value: crossing_deg }),
            measured_half_width_95: None,
            limit: Some(Quantity::AngleDeg { value: limit_deg }),
            source: SourceKey::CommonPractice,
            remedy: "Tape it from another pair of marks, or take a bearing and one tape.".to_owned(),
        })
    }

    fn set_gradient_covariance(&mut self, yard: &Yard, plane: &Plane) {
        let covariance = plane.covariance;
        let finite = covariance.iter().flatten().all(|value| value.is_finite());
        if yard.tape_held == TapeHeld::AlongGround && finite {
            let [_, [_, ee, en], [_, ne, nn]] = covariance;
            for (cell, value) in [((0, 0), ee), ((0, 1), en), ((1, 0), ne), ((1, 1), nn)] {
                self.joint[cell] = value;
            }
        }
    }

    /// Follows each mark's fix once the marks it starts from are found. Gives cautions for poor crossings.
    fn follow_marks(&mut self, yard: &Yard) -> Result<Vec<Finding>, Vec<FieldError>> {
        let mut errors = Vec::new();
        let mut findings = Vec::new();
        // `check` has made sure that there is no circle, so each round finds a mark or meets one that failed.
        let mut found = vec![false; yard.marks.len()];
        let mut waiting: Vec<usize> = (0..yard.marks.len()).collect();
        loop {
            let (ready, later): (Vec<usize>, Vec<usize>) = waiting.iter().partition(|&&mark| {
                let starts = references::starts(&yard.marks[mark].at);
                starts.iter().all(|id| self.index.get(*id).is_some_and(|&start| found[start]))
            });
            if ready.is_empty() {
                break;
            }
            for mark in ready {
                let at = &yard.marks[mark].at;
                match fix::follow(self, at, &format!("/yard/marks/{mark}/at")) {
                    Ok(followed) => {
                        self.place(mark, &followed);
                        found[mark] = true;
                        if !network::touches(yard, &yard.marks[mark].id) {
                            findings
                                .extend(self.poor_crossing(at, Subject::Mark { id: self.ids[mark].clone() }));
                        }
                    }
                    Err(error) => errors.push(error),
                }
            }
            waiting = later;
        }
        if errors.is_empty() { Ok(findings) } else { Err(errors) }
    }

    fn place(&mut self, mark: usize, followed: &Followed) {
        let cross = self.cross_covariance(followed);
        let covariance = self.own_covariance(followed, &cross);
        let first = 2 + 2 * mark;
        for axis in 0..2 {
            for other in 0..self.joint.ncols() {
                self.joint[(first + axis, other)] = cross[(axis, other)];
                self.joint[(other, first + axis)] = cross[(axis, other)];
            }
        }
        for (row, covariance_row) in covariance.iter().enumerate() {
            for (column, value) in covariance_row.iter().enumerate() {
                self.joint[(first + row, first + column)] = *value;
            }
        }
        self.marks[mark] = Located { at: followed.at, covariance };
    }

    /// Covariance of a followed point with everything of the joint state: J·Σ (law of propagation, GUM 5.2.2).
    fn cross_covariance(&self, followed: &Followed) -> DMatrix<f64> {
        let mut cross = DMatrix::zeros(2, self.joint.ncols());
        for (first, by) in &followed.by_state {
            for (row, by_row) in by.iter().enumerate() {
                for column in 0..self.joint.ncols() {
                    cross[(row, column)] += by_row[0] * self.joint[(*first, column)]
                        + by_row[1] * self.joint[(first + 1, column)];
                }
            }
        }
        cross
    }

    /// J·Σ·Jᵀ and the readings' own part.
    fn own_covariance(&self, followed: &Followed, cross: &DMatrix<f64>) -> [[f64; 2]; 2] {
        let mut covariance = followed.own;
        for (first, by) in &followed.by_state {
            for (row, covariance_row) in covariance.iter_mut().enumerate() {
                for (column, cell) in covariance_row.iter_mut().enumerate() {
                    *cell += cross[(row, *first)] * by[column][0] + cross[(row, first + 1)] * by[column][1];
                }
            }
        }
        // Rounding must not make it lopsided.
        let mixed = (covariance[0][1] + covariance[1][0]) / 2.0;
        [[covariance[0][0], mixed], [mixed, covariance[1][1]]]
    }
}

#[cfg(test)]
mod tests;
