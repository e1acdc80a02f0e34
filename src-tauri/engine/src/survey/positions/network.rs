//! All marks adjusted as one network, where more was measured than is needed.

use super::fix::{self, polar};
use super::{PositionEstimate, Positions};
use crate::finding::points::{Misses, PointRemedy, PointRule, ReadingName, ReadingOf};
use crate::finding::{Finding, Quantity, Severity, Subject};
use crate::job::{BearingReference, Measurement, PointFix, Yard};
use crate::numerics::least_squares::{DMatrix, DVector};
use crate::numerics::real::hypot;
use crate::pointer;
use crate::quantity::FieldError;
use crate::quantity::estimate::COVERAGE_95;
use crate::source::SourceKey;
use crate::survey::adjustment::{
    Adjusted, AdjustmentError, Component, NetworkPoint, Observation, Residual, against,
};
use crate::survey::snooping::{Snooped, snoop};

const BASELINE_PATH: &str = pointer!(yard.bearings);

/// The baseline defines the frame, so its bearing holds by definition; a tiny sigma keeps it a plain observation.
const BASELINE_SIGMA_DEG: f64 = 1e-3;

/// Whether there is more than each mark's own fix.
pub(super) fn is_redundant(yard: &Yard) -> bool {
    matches!(yard.bearings, BearingReference::Baseline { .. }) || yard.measurements.iter().any(in_use)
}

/// Whether a measurement in use ends at this mark.
pub(super) fn touches(yard: &Yard, id: &str) -> bool {
    yard.measurements.iter().filter(|measurement| in_use(measurement)).any(|measurement| {
        let (from, to) = ends(measurement);
        from == id || to == id
    })
}

/// Adjusts all marks and puts them where the network says.
pub(super) fn adjust_marks(positions: &mut Positions, yard: &Yard) -> Result<Vec<Finding>, FieldError> {
    let seen = observations(positions, yard);
    let marks = positions.ids.len();
    let held = |mark: usize| mark == 0 || positions.open_marks.contains(&mark);
    let points: Vec<NetworkPoint> = (positions.points[..marks].iter().enumerate())
        .map(|(mark, located)| NetworkPoint { at: located.at, fixed: held(mark) })
        .collect();
    let plain: Vec<Observation> = seen.iter().map(|seen| seen.observation).collect();
    let baseline = seen.iter().position(|seen| seen.path == BASELINE_PATH);
    let snooped = snoop(&points, &plain, baseline).map_err(|error| field_error(&error, &seen))?;
    store(positions, &snooped.adjusted);
    Ok(doubts(&snooped, &seen))
}

/// An observation of the network and what it came from.
struct NetworkObservation {
    observation: Observation,
    /// JSON pointer of what was read.
    path: String,
    subject: Subject,
    name: ReadingName,
}

impl NetworkObservation {
    /// One that is no mark's own fix: of two tapes between the same marks its name tells which.
    fn further(mut self) -> Self {
        self.name.further = true;
        self
    }
}

fn in_use(measurement: &Measurement) -> bool {
    match measurement {
        Measurement::Tape { struck, .. } | Measurement::Bearing { struck, .. } => !struck,
    }
}

fn ends(measurement: &Measurement) -> (&str, &str) {
    match measurement {
        Measurement::Tape { from, to, .. } | Measurement::Bearing { from, to, .. } => (from, to),
    }
}

fn observations(positions: &Positions, yard: &Yard) -> Vec<NetworkObservation> {
    let mut seen = Vec::new();
    let open = |id: &str| positions.is_open_mark(id);
    for (number, mark) in yard.marks.iter().enumerate().filter(|(_, mark)| !open(&mark.id)) {
        let reader = Reader { positions, subject: Subject::Mark { id: mark.id.clone() } };
        reader.fix(&mark.at, &mark.id, &pointer!(yard.marks[number].at), &mut seen);
    }
    let placed = |one: &Measurement| {
        let (from, to) = ends(one);
        in_use(one) && !open(from) && !open(to)
    };
    for (number, measurement) in yard.measurements.iter().enumerate().filter(|(_, one)| placed(one)) {
        let path = pointer!(yard.measurements[number]);
        match measurement {
            Measurement::Tape { id, from, to, tape_m, .. } => {
                let reader = Reader { positions, subject: Subject::Reading { id: id.clone() } };
                seen.push(
                    reader.tape(from, to, *tape_m, pointer!(in path, Measurement::Tape.tape_m)).further(),
                );
            }
            Measurement::Bearing { id, from, to, bearing_deg, .. } => {
                let reader = Reader { positions, subject: Subject::Reading { id: id.clone() } };
                seen.push(
                    reader
                        .bearing(from, to, *bearing_deg, pointer!(in path, Measurement::Bearing.bearing_deg))
                        .further(),
                );
            }
        }
    }
    if let BearingReference::Baseline { from, to, .. } = &yard.bearings
        && !open(from)
        && !open(to)
    {
        let reader = Reader { positions, subject: Subject::Mark { id: to.clone() } };
        seen.push(NetworkObservation {
            observation: Observation::Bearing {
                from: reader.index(from),
                to: reader.index(to),
                bearing_deg: positions.readings.true_bearing_deg(0.0),
                sigma_deg: BASELINE_SIGMA_DEG,
            },
            name: read(ReadingOf::Baseline { from: from.clone(), to: to.clone() }),
            path: BASELINE_PATH.to_owned(),
            subject: reader.subject,
        });
    }
    seen
}

struct Reader<'a> {
    positions: &'a Positions,
    subject: Subject,
}

impl Reader<'_> {
    fn index(&self, id: &str) -> usize {
        // Ids were checked; an unknown one would be caught by the adjustment's own check.
        self.positions.index.get(id).copied().unwrap_or(usize::MAX)
    }

    fn start(&self, point: usize) -> fix::Start {
        self.positions.start_at(point)
    }

    fn fix(&self, fix: &PointFix, id: &str, path: &str, seen: &mut Vec<NetworkObservation>) {
        match fix {
            PointFix::Origin => {}
            PointFix::Coordinates { east_m, north_m } => seen.push(NetworkObservation {
                observation: Observation::Coordinates {
                    point: self.index(id),
                    at: [*east_m, *north_m],
                    sigma_m: self.positions.readings.sketched_sigma_m(),
                },
                path: path.to_owned(),
                subject: self.subject.clone(),
                name: read(ReadingOf::SketchedPlace { id: id.to_owned() }),
            }),
            PointFix::BearingTape { from, bearing_deg, tape_m } => {
                seen.push(self.bearing(
                    from,
                    id,
                    *bearing_deg,
                    pointer!(in path, PointFix::BearingTape.bearing_deg),
                ));
                seen.push(self.tape(from, id, *tape_m, pointer!(in path, PointFix::BearingTape.tape_m)));
            }
            PointFix::SlopeTape { from, bearing_deg, tape_m, vertical_deg } => {
                seen.push(self.bearing(
                    from,
                    id,
                    *bearing_deg,
                    pointer!(in path, PointFix::BearingTape.bearing_deg),
                ));
                let reach = polar::in_plan(&self.positions.readings, *tape_m, *vertical_deg);
                seen.push(self.distance(
                    from,
                    id,
                    reach,
                    [0.0, 0.0],
                    pointer!(in path, PointFix::SlopeTape.tape_m),
                ));
            }
            PointFix::TwoTapes { from_a, tape_a_m, from_b, tape_b_m, side: _ } => {
                seen.push(self.tape(from_a, id, *tape_a_m, pointer!(in path, PointFix::ThreeTapes.tape_a_m)));
                seen.push(self.tape(from_b, id, *tape_b_m, pointer!(in path, PointFix::ThreeTapes.tape_b_m)));
            }
            PointFix::ThreeTapes { from_a, tape_a_m, from_b, tape_b_m, from_c, tape_c_m } => {
                seen.push(self.tape(from_a, id, *tape_a_m, pointer!(in path, PointFix::ThreeTapes.tape_a_m)));
                seen.push(self.tape(from_b, id, *tape_b_m, pointer!(in path, PointFix::ThreeTapes.tape_b_m)));
                seen.push(self.tape(from_c, id, *tape_c_m, pointer!(in path, PointFix::ThreeTapes.tape_c_m)));
            }
            PointFix::Offset { from, toward, along_m, off_m, side } => {
                self.offset([from, toward, id], *along_m, fix::to_the_left(*side, *off_m), path, seen);
            }
            // Marks have no outline; `references` has refused it.
            PointFix::NextCorner { .. } => {}
        }
    }

    /// Along the line by the tape, less sure by what an error of the right angle makes of a long offset; then off it.
    fn offset(
        &self,
        ids: [&str; 3],
        along_m: f64,
        left_m: f64,
        path: &str,
        seen: &mut Vec<NetworkObservation>,
    ) {
        let [from, to, point] = ids.map(|id| self.index(id));
        let readings = &self.positions.readings;
        let gradient = readings.gradient;
        let foot_sigma_m =
            fix::square::foot_m(readings, self.start(from), self.start(to), left_m) * readings.square_sigma();
        let sigma_m = hypot(readings.tape_sigma_m(along_m), foot_sigma_m);
        let [a, b, id] = ids.map(str::to_owned);
        seen.push(NetworkObservation {
            observation: Observation::Along { from, to, point, along_m, gradient, sigma_m },
            path: pointer!(in path, PointFix::Offset.along_m),
            subject: self.subject.clone(),
            name: read(ReadingOf::TapeAlong { id: id.clone(), from: a.clone(), to: b.clone() }),
        });
        let sigma_m = readings.tape_sigma_m(left_m.abs());
        seen.push(NetworkObservation {
            observation: Observation::Left { from, to, point, left_m, gradient, sigma_m },
            path: pointer!(in path, PointFix::Offset.off_m),
            subject: self.subject.clone(),
            name: read(ReadingOf::Offset { id, from: a, to: b }),
        });
    }

    fn tape(&self, from: &str, to: &str, tape_m: f64, path: String) -> NetworkObservation {
        let readings = &self.positions.readings;
        self.distance(from, to, [tape_m, readings.tape_sigma_m(tape_m)], readings.gradient, path)
    }

    fn distance(
        &self,
        from: &str,
        to: &str,
        [distance_m, sigma_m]: [f64; 2],
        gradient: [f64; 2],
        path: String,
    ) -> NetworkObservation {
        let (a, b) = (self.index(from), self.index(to));
        NetworkObservation {
            observation: Observation::Distance { from: a, to: b, distance_m, gradient, sigma_m },
            path,
            subject: self.subject.clone(),
            name: read(ReadingOf::Tape { from: from.to_owned(), to: to.to_owned() }),
        }
    }

    fn bearing(&self, from: &str, to: &str, reading_deg: f64, path: String) -> NetworkObservation {
        NetworkObservation {
            observation: Observation::Bearing {
                from: self.index(from),
                to: self.index(to),
                bearing_deg: self.positions.readings.true_bearing_deg(reading_deg),
                sigma_deg: self.positions.readings.bearing_sigma_deg(),
            },
            path,
            subject: self.subject.clone(),
            name: read(ReadingOf::Bearing { from: from.to_owned(), to: to.to_owned() }),
        }
    }
}

/// Puts the adjusted places and their joint covariance, the slope's part included, where the marks are kept.
fn store(positions: &mut Positions, adjusted: &Adjusted) {
    let size = 2 * adjusted.points.len();
    // `adjust` always gives the joint covariance: the points fixed from the marks share their errors.
    let joint = adjusted.joint.clone().unwrap_or_else(|| DMatrix::zeros(size, size));
    let curve = curve(adjusted, &joint);
    let marks = joint + &curve * curve.transpose();
    positions.state.readings.view_mut((0, 0), (size, size)).copy_from(&marks);
    positions.state.by_gradient.view_mut((0, 0), (size, 2)).copy_from(&adjusted.by_gradient);
    for (mark, &at) in adjusted.points.iter().enumerate() {
        positions.points[mark] = PositionEstimate { at, covariance: [[0.0; 2]; 2] };
    }
}

/// The network's bearings leave it free to turn a little about the origin as a whole; on its circle each mark
/// then also comes nearer, all by the same share (see `curve_sigma`). The turn's variance is that of the
/// best-fitting turn, tᵀΣt/(tᵀt)² with t the marks' places turned by 90°.
fn curve(adjusted: &Adjusted, joint: &DMatrix<f64>) -> DVector<f64> {
    let origin = adjusted.points.first().copied().unwrap_or([0.0, 0.0]);
    let from_origin = |mark: usize| {
        let at = adjusted.points[mark];
        [at[0] - origin[0], at[1] - origin[1]]
    };
    let size = 2 * adjusted.points.len();
    let places = DVector::from_fn(size, |index, _| from_origin(index / 2)[index % 2]);
    let turned = DVector::from_fn(size, |index, _| {
        let [east, north] = from_origin(index / 2);
        if index % 2 == 0 { north } else { -east }
    });
    let squared = turned.norm_squared();
    if squared == 0.0 {
        return places;
    }
    let sigma_rad = ((joint * &turned).dot(&turned) / (squared * squared)).max(0.0).sqrt();
    places * super::curve_sigma(1.0, sigma_rad)
}

/// What the network says of its readings.
fn doubts(snooped: &Snooped, seen: &[NetworkObservation]) -> Vec<Finding> {
    let of = |&number: &usize| {
        let residuals = against(&snooped.adjusted, seen[number].observation);
        let worst =
            residuals.into_iter().max_by(|a, b| a.standardised.abs().total_cmp(&b.standardised.abs()))?;
        Some(set_aside(&worst, &seen[number]))
    };
    let mut findings: Vec<Finding> = snooped.set_aside.iter().filter_map(of).collect();
    findings.extend(disagreement(&snooped.suspects, seen));
    findings
}

/// A reading that took no part: all others together show it to be wrong.
fn set_aside(off: &Residual, seen: &NetworkObservation) -> Finding {
    let rule = PointRule::ReadingSetAside { reading: seen.name.clone(), is: misses(off) };
    Finding {
        measured_half_width_95: Some(COVERAGE_95 * off.sigma),
        ..doubted(rule, PointRemedy::MeasureAgainOrStrike, off, seen)
    }
}

/// Readings of which one is wrong, though the others can't tell which: all of them took part.
fn disagreement(suspects: &[Residual], seen: &[NetworkObservation]) -> Option<Finding> {
    let worst = suspects.first()?;
    let or = suspects.iter().skip(1).take(5).map(|one| seen[one.observation].name.clone()).collect();
    let seen = &seen[worst.observation];
    let rule = PointRule::MeasurementDisagrees { reading: seen.name.clone(), is: misses(worst), or };
    Some(doubted(rule, PointRemedy::MeasureTheseAgain, worst, seen))
}

fn doubted(rule: PointRule, remedy: PointRemedy, off: &Residual, seen: &NetworkObservation) -> Finding {
    // A residual of the network itself shows only a share of the error; over its redundancy it is all of it.
    let share = off.redundancy.max(1e-6);
    let quantity = |value: f64| match off.component {
        Component::BearingDeg => Quantity::AngleDeg { value },
        Component::DistanceM | Component::EastM | Component::NorthM => Quantity::LengthM { value },
    };
    Finding {
        // Beyond chance is no limit that anything must keep, so none is shown.
        measured: Some(quantity(off.value.abs() / share)),
        source: SourceKey::Ghilani,
        ..Finding::rule_of_thumb(Severity::Caution, rule, seen.subject.clone(), remedy)
    }
}

fn misses(off: &Residual) -> Misses {
    match (off.component, off.value > 0.0) {
        (Component::DistanceM, true) => Misses::Longer,
        (Component::DistanceM, false) => Misses::Shorter,
        (Component::BearingDeg, true) => Misses::ToTheRight,
        (Component::BearingDeg, false) => Misses::ToTheLeft,
        (Component::EastM | Component::NorthM, _) => Misses::Away,
    }
}

fn read(of: ReadingOf) -> ReadingName {
    ReadingName { further: false, of }
}

fn field_error(error: &AdjustmentError, seen: &[NetworkObservation]) -> FieldError {
    let at =
        |observation: usize| seen.get(observation).map_or(pointer!(yard.marks), |seen| seen.path.as_str());
    match error {
        AdjustmentError::Coincident { observation } => {
            FieldError::new(at(*observation), "two marks on one spot", "marks that stand apart")
        }
        AdjustmentError::UnknownPoint { observation } | AdjustmentError::BadObservation { observation } => {
            FieldError::new(
                at(*observation),
                "a measurement that can't be used",
                "a finite number between marks",
            )
        }
        AdjustmentError::Undetermined { points } => {
            let first = points.first().copied().unwrap_or(0);
            FieldError::new(
                pointer!(yard.marks[first].at),
                "a fix that leaves the mark free to move",
                "tapes that cross, or a bearing and a tape",
            )
        }
        AdjustmentError::DidNotSettle => FieldError::new(
            pointer!(yard.measurements),
            "measurements that contradict each other",
            "measurements that fit one yard: strike out the wrong one",
        ),
    }
}
