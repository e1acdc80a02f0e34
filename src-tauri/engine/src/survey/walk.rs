//! A line walked over the ground step by step: a tape and a rise at each, so that its points become spot heights.

use serde::{Deserialize, Serialize};

use super::measured_height::{ROD_SIGMA_M, STRING_TILT_SIGMA_DEG};
use super::{North, PlacedMark};
use crate::ground::Ground;
use crate::job::{Job, PointFix, Side, TapeHeld};
use crate::numerics::real::{atan_deg, cos_deg, hypot, sin_deg, tan_deg};
use crate::pointer;
use crate::quantity::{FieldError, FieldErrors, bearing, format, range};

/// Steps of one walk.
const MOST_STEPS: usize = 200;
/// As steep as a job's fix may be.
const STEEPEST_DEG: f64 = 60.0;
/// As far as a job's fix may reach.
const LONGEST_M: f64 = 1000.0;

/// A walk as it was read.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
#[serde(deny_unknown_fields)]
pub struct Walk {
    /// The mark where it begins.
    pub from: String,
    pub along: Along,
    pub steps: Vec<WalkStep>,
}

/// Which way.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
#[serde(tag = "by", rename_all = "snake_case", deny_unknown_fields)]
pub enum Along {
    /// As read, in the yard's bearing reference.
    Bearing { bearing_deg: f64 },
    /// Towards another mark, and on beyond it.
    Toward { mark: String },
}

/// From one point of the walk to the next.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
#[serde(deny_unknown_fields)]
pub struct WalkStep {
    /// From the point before, held as the yard's tapes are.
    pub tape_m: f64,
    pub rise: Rise,
}

/// How much higher the next point is.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
#[serde(tag = "by", rename_all = "snake_case", deny_unknown_fields)]
pub enum Rise {
    /// By a water level, or a line with a spirit level.
    Height { rise_m: f64 },
    /// A level line against a rod: up from the point before, and up from this one.
    Rod { before_m: f64, here_m: f64 },
    /// The slope of the straight line between them, as a phone on a board reads it.
    Slope { slope_deg: f64, sigma_deg: Option<f64> },
}

/// A point that was reached.
#[derive(Debug, Clone, PartialEq)]
pub struct Walked {
    /// From the start, in plan.
    pub out_m: f64,
    /// Above the ground at the first mark.
    pub height_m: f64,
    /// Standard uncertainty of the height.
    pub sigma_m: f64,
    pub fix: PointFix,
}

/// The points of a walk; the first is where it begins.
///
/// # Accuracy
/// Each height carries the uncertainties of all steps before it and of the start. That neighbours share them is not
/// carried into the plan: it takes every spot height as independent of the others.
///
/// # Errors
/// By JSON pointer within the walk: marks that are not there, steps that can't be.
///
/// # References
/// Differential levelling: rise = backsight − foresight; slope distances by vertical angle: Ghilani & Wolf, *Elementary
/// Surveying*, from memory. GUM 5.1.2.
pub fn walked(
    job: &Job,
    marks: &[PlacedMark],
    ground: &Ground,
    walk: &Walk,
) -> Result<Vec<Walked>, FieldErrors> {
    let from = mark(marks, &walk.from, "/from")?;
    if let Along::Toward { mark: to } = &walk.along {
        mark(marks, to, "/along/mark")?;
        if *to == walk.from {
            return Err(FieldError::new("/along/mark", to.clone(), "another mark than the start").into());
        }
    }
    if walk.steps.len() > MOST_STEPS {
        let given = walk.steps.len().to_string();
        return Err(FieldError::new("/steps", given, format!("at most {MOST_STEPS} steps")).into());
    }
    let mut reached = vec![start(ground, walk, from)];
    let (mut tape_m, mut variance) = (0.0, reached.first().map_or(0.0, |it| it.sigma_m * it.sigma_m));
    for (i, step) in walk.steps.iter().enumerate() {
        let moved = moved(job, step, &format!("/steps/{i}"))?;
        tape_m += step.tape_m;
        variance += moved.sigma_m * moved.sigma_m;
        let (before, first) = (&reached[reached.len() - 1], &reached[0]);
        let (out_m, height_m) = (before.out_m + moved.plan_m, before.height_m + moved.rise_m);
        let fix = fix(job, walk, tape_m, out_m, height_m - first.height_m, &format!("/steps/{i}"))?;
        reached.push(Walked { out_m, height_m, sigma_m: variance.sqrt(), fix });
    }
    Ok(reached)
}

fn mark(marks: &[PlacedMark], id: &str, path: &str) -> Result<[f64; 2], FieldErrors> {
    let found = marks.iter().find(|mark| mark.id == id);
    let all = || marks.iter().map(|mark| mark.id.as_str()).collect::<Vec<_>>().join(", ");
    let missing = || FieldError::new(path, id, format!("one of the marks {}", all())).into();
    found.map(|mark| [mark.at[0], mark.at[1]]).ok_or_else(missing)
}

/// At the first mark the height is nought by definition; at any other it is what the plan has of the ground there.
fn start(ground: &Ground, walk: &Walk, at: [f64; 2]) -> Walked {
    let origin = [0.0, 0.0];
    let (height_m, sigma_m) = if at == origin {
        (0.0, 0.0)
    } else {
        (ground.height(at) - ground.height(origin), ground.difference_sigma(at, origin))
    };
    let fix =
        PointFix::SlopeTape { from: walk.from.clone(), bearing_deg: 0.0, tape_m: 0.0, vertical_deg: 0.0 };
    Walked { out_m: 0.0, height_m, sigma_m, fix }
}

struct TapedStep {
    plan_m: f64,
    rise_m: f64,
    sigma_m: f64,
}

fn moved(job: &Job, step: &WalkStep, path: &str) -> Result<TapedStep, FieldErrors> {
    let (instruments, level) = (&job.yard.instruments, job.yard.tape_held == TapeHeld::Level);
    let tape_m = step.tape_m;
    if !(tape_m > 0.0 && tape_m <= LONGEST_M) {
        return Err(FieldError::new(
            pointer!(in path, WalkStep: tape_m),
            format::length(tape_m, job.units),
            not_too_far(job),
        )
        .into());
    }
    let (rise_m, sigma_m) = match step.rise {
        Rise::Height { rise_m } => (rise_m, instruments.spot_height_sigma_m),
        Rise::Rod { before_m, here_m } => {
            // Both readings, and what a line's bubble leaves over the step.
            let bubble_m = tape_m * STRING_TILT_SIGMA_DEG.to_radians();
            (before_m - here_m, hypot(hypot(ROD_SIGMA_M, ROD_SIGMA_M), bubble_m))
        }
        Rise::Slope { slope_deg, sigma_deg } => {
            if slope_deg.is_nan() || slope_deg.abs() >= STEEPEST_DEG {
                let allowed = "less than 60° up or down";
                return Err(FieldError::new(
                    pointer!(in path, WalkStep: rise as Rise::Slope.slope_deg),
                    format!("{slope_deg}°"),
                    allowed,
                )
                .into());
            }
            let sigma = sigma_deg.unwrap_or(instruments.slope_sigma_deg).to_radians();
            // d(L·sin v) = L·cos v·dv along the ground; d(L·tan v) = L/cos²v·dv for a level tape.
            let cos = cos_deg(slope_deg);
            if level {
                (tape_m * tan_deg(slope_deg), tape_m / (cos * cos) * sigma)
            } else {
                (tape_m * sin_deg(slope_deg), tape_m * cos * sigma)
            }
        }
    };
    let plan_m = if level { tape_m } else { (tape_m * tape_m - rise_m * rise_m).max(0.0).sqrt() };
    let too_steep = !rise_m.is_finite() || atan_deg(rise_m.abs() / plan_m.max(1e-9)) >= STEEPEST_DEG;
    if too_steep {
        let [rise, tape] = [rise_m, tape_m].map(|m| format::length(m, job.units));
        let given = format!("a rise of {rise} over a tape of {tape}");
        return Err(
            FieldError::new(pointer!(in path, WalkStep: rise), given, "a slope of less than 60°").into()
        );
    }
    Ok(TapedStep { plan_m, rise_m, sigma_m })
}

/// Longest walk, and tape of a step.
fn not_too_far(job: &Job) -> String {
    range::allowed("tape_m", Some(0.0), Some(LONGEST_M), job.units)
}

/// How the point is found again from the start: by the straight line to it, or along the line of two marks.
fn fix(
    job: &Job,
    walk: &Walk,
    tape_m: f64,
    out_m: f64,
    rise_m: f64,
    path: &str,
) -> Result<PointFix, FieldErrors> {
    let millimetre = |m: f64| (m * 1000.0).round() / 1000.0;
    let from = walk.from.clone();
    Ok(match &walk.along {
        Along::Bearing { bearing_deg } => {
            if !(0.0..=360.0).contains(bearing_deg) {
                let given = format!("{bearing_deg}°");
                return Err(FieldError::new("/along/bearing_deg", given, "0° to 360°").into());
            }
            if hypot(out_m, rise_m) > LONGEST_M {
                let given = format!("a walk of {}", format::length(hypot(out_m, rise_m), job.units));
                return Err(FieldError::new(path, given, not_too_far(job)).into());
            }
            let vertical_deg = (atan_deg(rise_m / out_m) * 1000.0).round() / 1000.0;
            let tape_m = millimetre(hypot(out_m, rise_m));
            PointFix::SlopeTape { from, bearing_deg: *bearing_deg, tape_m, vertical_deg }
        }
        Along::Toward { mark } => PointFix::Offset {
            from,
            toward: mark.clone(),
            along_m: millimetre(tape_m),
            off_m: 0.0,
            side: Side::Left,
        },
    })
}

impl Walk {
    /// True bearing of the walk.
    pub fn true_bearing_deg(&self, marks: &[PlacedMark], north: &North) -> f64 {
        let at = |id: &str| marks.iter().find(|mark| mark.id == id).map(|mark| mark.at);
        match &self.along {
            Along::Bearing { bearing_deg } => bearing_deg + north.add_to_reading_deg,
            Along::Toward { mark } => match (at(&self.from), at(mark)) {
                (Some(from), Some(to)) => bearing::of_vector(to[0] - from[0], to[1] - from[1]),
                _ => 0.0,
            },
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{demo, plan};

    fn walk(steps: Vec<WalkStep>) -> Walk {
        Walk { from: "A".into(), along: Along::Bearing { bearing_deg: 30.0 }, steps }
    }

    fn step(tape_m: f64, rise: Rise) -> WalkStep {
        WalkStep { tape_m, rise }
    }

    fn on_the_demo(walk: &Walk) -> Result<Vec<Walked>, FieldErrors> {
        let job = demo::yardstick();
        let computed = plan::compute(&job).unwrap();
        walked(&job, &computed.yard.marks, &computed.ground, walk)
    }

    /// 3-4-5 and 5-12-13 triangles: 4 m and 12 m out, 3 m up and 5 m down again.
    #[test]
    fn tapes_along_the_ground_come_to_plan_by_their_rise() {
        let rod = Rise::Rod { before_m: 1.0, here_m: 6.0 };
        let points =
            on_the_demo(&walk(vec![step(5.0, Rise::Height { rise_m: 3.0 }), step(13.0, rod)])).unwrap();
        let places: Vec<[f64; 2]> = points.iter().map(|it| [it.out_m, it.height_m]).collect();
        assert_eq!(places, [[0.0, 0.0], [4.0, 3.0], [16.0, -2.0]]);
        // 10 mm of the water level; then two rod readings of 3 mm and 0.15° over 13 m, 34 mm: √(10² + 18 + 34.03²) mm.
        assert!((points[2].sigma_m - 0.035_73).abs() < 1e-5, "{}", points[2].sigma_m);
    }

    /// By hand: 10 m at 30° rises 5 m over 8.660 m; 0.3° of a phone there are 10·cos 30°·0.005236 = 45 mm.
    #[test]
    fn a_phone_on_a_board_gives_rise_and_its_uncertainty() {
        let slope = Rise::Slope { slope_deg: 30.0, sigma_deg: Some(0.3) };
        let points = on_the_demo(&walk(vec![step(10.0, slope)])).unwrap();
        assert!((points[1].out_m - 8.660_254).abs() < 1e-6 && (points[1].height_m - 5.0).abs() < 1e-9);
        assert!((points[1].sigma_m - 0.045_345).abs() < 1e-6);
    }

    /// The job puts the walked points where the walk had them.
    #[test]
    fn the_fix_finds_the_point_again() {
        for along in [Along::Bearing { bearing_deg: 200.0 }, Along::Toward { mark: "B".into() }] {
            let mut job = demo::yardstick();
            let computed = plan::compute(&job).unwrap();
            let steps =
                vec![step(6.0, Rise::Height { rise_m: 0.2 }), step(5.0, Rise::Height { rise_m: -0.9 })];
            let walk = Walk { from: "A".into(), along, steps };
            let last = walked(&job, &computed.yard.marks, &computed.ground, &walk).unwrap().pop().unwrap();
            let id = "walked".to_owned();
            job.yard.spot_heights.push(crate::job::SpotHeight {
                id: id.clone(),
                at: last.fix,
                height_m: last.height_m,
                sigma_m: Some(last.sigma_m),
                struck: false,
            });
            let computed = plan::compute(&job).unwrap();
            let spot = computed.yard.spot_heights.iter().find(|spot| spot.id == id).unwrap();
            let [east, north] =
                bearing::unit(walk.true_bearing_deg(&computed.yard.marks, &computed.plan.north));
            let off = hypot(spot.at[0] - last.out_m * east, spot.at[1] - last.out_m * north);
            // Along the line of two marks the tape is reduced by the plane's slope: it need not be the walk's own.
            assert!(off < if matches!(walk.along, Along::Bearing { .. }) { 0.002 } else { 0.1 }, "{off}");
        }
    }

    #[test]
    fn what_cannot_be_is_refused_by_its_field() {
        let path = |walk: &Walk| on_the_demo(walk).unwrap_err().errors[0].path.clone();
        assert_eq!(path(&walk(vec![step(0.0, Rise::Height { rise_m: 0.0 })])), "/steps/0/tape_m");
        assert_eq!(path(&walk(vec![step(1.0, Rise::Height { rise_m: 2.0 })])), "/steps/0/rise");
        assert_eq!(path(&Walk { from: "Z".into(), ..walk(vec![]) }), "/from");
        assert_eq!(path(&Walk { along: Along::Toward { mark: "A".into() }, ..walk(vec![]) }), "/along/mark");
    }

    /// From a mark at (3, 2) to one at (6, 6) it goes 3 m east and 4 m north: 36.87°. A reading of 30° under a declination of
    /// −14° is 16°.
    #[test]
    fn a_walk_s_true_bearing_by_hand() {
        let mark = |id: &str, at: [f64; 3]| PlacedMark {
            id: id.into(),
            name: id.into(),
            at,
            covariance: [[0.0; 2]; 2],
        };
        let marks = [mark("A", [3.0, 2.0, 0.0]), mark("B", [6.0, 6.0, 0.0])];
        let mut north = plan::compute(&demo::yardstick()).unwrap().plan.north;
        north.add_to_reading_deg = -14.0;
        let along_line = Walk { along: Along::Toward { mark: "B".into() }, ..walk(Vec::new()) };
        assert!((along_line.true_bearing_deg(&marks, &north) - 36.869_897_6).abs() < 1e-6);
        assert!((walk(Vec::new()).true_bearing_deg(&marks, &north) - 16.0).abs() < 1e-12);
    }
}
