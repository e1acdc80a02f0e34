//! Heights as they are taken in a yard: angles sighted along a phone's edge, one tape, a level line, each with
//! the sigma of its instrument.

use serde::{Deserialize, Serialize};

use super::heights::{
    AngleAndTape, Between, HeightError, LevelSetUp, Reading, TwoAngles, angle_and_tape, levelled, two_angles,
};
use crate::job::Instruments;
use crate::numerics::real::hypot;

/// One sigma of aiming along the edge of a phone (common practice).
const AIMING_SIGMA_DEG: f64 = 0.4;

/// One sigma of the height at which the phone is held (common practice).
const EYE_SIGMA_M: f64 = 0.03;

/// One sigma of a rod or tape read at a level line or a water column (common practice).
pub(super) const ROD_SIGMA_M: f64 = 0.003;

/// One sigma of a bubble on a string; a water level has no tilt (common practice).
pub(super) const STRING_TILT_SIGMA_DEG: f64 = 0.15;

/// A height known worse than by this part of itself is worth another measurement (common practice).
const ROUGH: f64 = 0.05;

/// An angle above the level, with its sigma without the zero error; none means the instrument's usual one.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
#[serde(deny_unknown_fields)]
pub struct Angle {
    pub value_deg: f64,
    #[serde(default)]
    pub sigma_deg: Option<f64>,
}

/// What the level line was.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum LevelLine {
    /// Water in a clear hose.
    Water,
    /// A taut string with a small level, or a long level on a board.
    String,
}

/// The readings of one height.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
#[serde(tag = "by", rename_all = "snake_case", deny_unknown_fields)]
pub enum HeightReadings {
    /// From two places in one line with the thing, where its foot can't be taped to.
    TwoAngles {
        near_top: Angle,
        far_top: Angle,
        /// To the foot of the thing, from the near place.
        foot: Angle,
        tape_m: f64,
        /// Rise of the ground from the near to the far place; none for a tape held level over level ground.
        slope: Option<Angle>,
        eye_m: f64,
        /// One sigma of the zero error that the angles share.
        zero_sigma_deg: f64,
    },
    /// To the top, with a tape along the ground to right under it.
    AngleAndTape { top: Angle, tape_m: f64, slope: Option<Angle>, eye_m: f64, zero_sigma_deg: f64 },
    /// Rods or columns on a level line: up from the known point, and up from the new one.
    Levelled { line: LevelLine, known_m: f64, new_m: f64, length_m: f64, turned: bool },
}

/// A measured height.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct MeasuredHeight {
    /// Of the top above the foot of the thing, or of the new point above the known one.
    pub height_m: Reading,
    /// From the near place to the thing, where that follows.
    pub distance_m: Option<Reading>,
    /// So uncertain that another measurement from elsewhere is worth it.
    pub rough: bool,
}

/// The height that readings give, each reading with its instrument's sigma.
///
/// # Errors
/// As in [`super::heights`].
pub fn measured_height(
    readings: &HeightReadings,
    instruments: &Instruments,
) -> Result<MeasuredHeight, HeightError> {
    let aimed = |angle: &Angle| {
        let own = angle.sigma_deg.unwrap_or(instruments.slope_sigma_deg);
        Reading::new(angle.value_deg, hypot(own, AIMING_SIGMA_DEG))
    };
    let laid = |angle: &Option<Angle>| match angle {
        Some(angle) => Reading::new(angle.value_deg, angle.sigma_deg.unwrap_or(instruments.slope_sigma_deg)),
        None => Reading::new(0.0, instruments.slope_sigma_deg),
    };
    let taped = |tape_m: f64| Reading::new(tape_m, instruments.tape_sigma_of_m(tape_m));
    let eye = |eye_m: f64| Reading::new(eye_m, EYE_SIGMA_M);
    match readings {
        HeightReadings::TwoAngles { near_top, far_top, foot, tape_m, slope, eye_m, zero_sigma_deg } => {
            let seen = two_angles(&TwoAngles {
                near_deg: aimed(near_top),
                far_deg: aimed(far_top),
                between: Between::AlongSlope { tape_m: taped(*tape_m), slope_deg: laid(slope) },
                near_eye_m: eye(*eye_m),
                far_eye_m: eye(*eye_m),
                foot_deg: Some(aimed(foot)),
                zero_sigma_deg: *zero_sigma_deg,
            })?;
            Ok(judged(seen.above_foot_m.unwrap_or(seen.above_near_ground_m), Some(seen.distance_m)))
        }
        HeightReadings::AngleAndTape { top, tape_m, slope, eye_m, zero_sigma_deg } => {
            let height = angle_and_tape(&AngleAndTape {
                tape_m: taped(*tape_m),
                slope_deg: laid(slope),
                top_deg: aimed(top),
                eye_m: eye(*eye_m),
                zero_sigma_deg: *zero_sigma_deg,
            })?;
            Ok(judged(height, None))
        }
        HeightReadings::Levelled { line, known_m, new_m, length_m, turned } => {
            let rod = |value| Reading::new(value, ROD_SIGMA_M);
            let tilt_sigma_deg = if *line == LevelLine::Water { 0.0 } else { STRING_TILT_SIGMA_DEG };
            let height = levelled(&[LevelSetUp {
                back_m: rod(*known_m),
                fore_m: rod(*new_m),
                length_m: *length_m,
                tilt_sigma_deg,
                reversed: *turned,
            }])?;
            Ok(MeasuredHeight { height_m: height, distance_m: None, rough: false })
        }
    }
}

fn judged(height_m: Reading, distance_m: Option<Reading>) -> MeasuredHeight {
    MeasuredHeight { height_m, distance_m, rough: height_m.sigma > ROUGH * height_m.value.abs() }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn angle(value_deg: f64) -> Angle {
        Angle { value_deg, sigma_deg: Some(0.1) }
    }

    /// The textbook's tree: 10 m between, 25° and 35°: 13.960 m above the eye; the foot 5° below level adds
    /// x·tan 5° with x = 13.960/tan 35° = 19.937: 1.744 m.
    #[test]
    fn two_angles_over_level_ground() {
        let readings = HeightReadings::TwoAngles {
            near_top: angle(35.0),
            far_top: angle(25.0),
            foot: angle(-5.0),
            tape_m: 10.0,
            slope: Some(Angle { value_deg: 0.0, sigma_deg: Some(0.0) }),
            eye_m: 1.5,
            zero_sigma_deg: 0.0,
        };
        let tree = measured_height(&readings, &Instruments::default()).unwrap();
        assert!((tree.height_m.value - 15.704).abs() < 1e-3, "{tree:?}");
        assert!((tree.distance_m.unwrap().value - 19.937).abs() < 1e-3);
        assert!(tree.rough && tree.height_m.sigma > 0.8);
    }

    #[test]
    fn a_top_that_can_be_taped_to_is_surer() {
        let readings = HeightReadings::AngleAndTape {
            top: angle(40.0),
            tape_m: 15.0,
            slope: None,
            eye_m: 1.5,
            zero_sigma_deg: 0.2,
        };
        let roof = measured_height(&readings, &Instruments::default()).unwrap();
        // By hand: 1.5 + 15·0.83910 = 14.087.
        assert!((roof.height_m.value - 14.0865).abs() < 1e-3 && !roof.rough);
    }

    #[test]
    fn water_finds_its_level_and_a_string_sags_by_its_bubble() {
        let of = |line| {
            let readings =
                HeightReadings::Levelled { line, known_m: 0.4, new_m: 1.25, length_m: 8.0, turned: false };
            measured_height(&readings, &Instruments::default()).unwrap().height_m
        };
        assert!((of(LevelLine::Water).value + 0.85).abs() < 1e-12);
        // By hand: √2·3 mm = 4.24 mm; 8 m at 0.15° is 20.9 mm more.
        assert!((of(LevelLine::Water).sigma - 0.004243).abs() < 1e-6);
        assert!((of(LevelLine::String).sigma - 0.02137).abs() < 1e-4);
    }
}
