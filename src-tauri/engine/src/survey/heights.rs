//! Heights of trees, roofs, lines and ground from angles, tapes and levels, each with its standard uncertainty.
//!
//! Readings are independent but for an instrument's zero error, which all angles of one instrument share.
//! Uncertainties are carried by the numerical form of the law of propagation (GUM 2008, 5.1.3 note 2): each
//! input is moved by its own sigma up and down, and the halves of the differences are added in squares.
//!
//! # References
//! Ghilani & Wolf, Elementary Surveying: trigonometric levelling, differential levelling. From memory; held by
//! hand-reckoned cases here and in `tests/published/elementary_surveying.rs`.

use serde::{Deserialize, Serialize};

use crate::numerics::real::{cos_deg, hypot, sin_deg, tan_deg};

/// A reading with its standard uncertainty, in the unit that its field's name states.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct Reading {
    pub value: f64,
    pub sigma: f64,
}

impl Reading {
    pub fn new(value: f64, sigma: f64) -> Self {
        Self { value, sigma }
    }
}

/// Why readings give no height.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
pub enum HeightError {
    #[error("a reading is not a finite number, or its uncertainty is negative")]
    NotFinite,
    #[error("an angle is 89 degrees or more from the level: stand further away")]
    TooSteep,
    #[error("the distance is not more than nothing")]
    NoDistance,
    #[error(
        "the two lines of sight do not meet beyond the near place: measure the angles again, further apart"
    )]
    SightsDoNotMeet,
}

/// Steeper angles turn a tenth of a degree into metres.
const STEEPEST_DEG: f64 = 89.0;

/// The ground between the two places of a two-angle height.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
#[serde(tag = "taped", rename_all = "snake_case")]
pub enum Between {
    /// A tape held level; the ground at the far place lies this much above that at the near one.
    Level { distance_m: Reading, far_above_near_m: Reading },
    /// A tape along the ground, which rises this much going from the near to the far place.
    AlongSlope { tape_m: Reading, slope_deg: Reading },
}

/// A top sighted from two places in one line with it, one behind the other.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct TwoAngles {
    /// Upward angle to the top from the near place.
    pub near_deg: Reading,
    /// Upward angle to the top from the far place.
    pub far_deg: Reading,
    pub between: Between,
    /// Height of the instrument above the ground at each place.
    pub near_eye_m: Reading,
    pub far_eye_m: Reading,
    /// Angle to the foot of the thing from the near place, mostly downward and so negative; none where the foot
    /// can't be seen.
    pub foot_deg: Option<Reading>,
    /// One sigma of the zero error that all these angles share; 0 after a reversal pair.
    pub zero_sigma_deg: f64,
}

/// What two angles tell.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct Sighted {
    /// Horizontal distance of the thing from the near place.
    pub distance_m: Reading,
    /// The top above the ground at the near place.
    pub above_near_ground_m: Reading,
    /// The top above the thing's own foot, where that was sighted.
    pub above_foot_m: Option<Reading>,
}

/// The height of a top from two places on sloping ground.
///
/// With the near eye at e₁, the far eye at e₂ and a horizontal distance d between them, both sights meet at x from
/// the near one: e₁ + x·tan b = e₂ + (x + d)·tan a. On level ground with equal eyes that is the textbook's
/// h = d/(cot a − cot b) above the eye.
///
/// # Errors
/// When the sights do not meet beyond the near place, an angle is too steep or a number unusable.
///
/// # Examples
/// ```
/// use mastwright_engine::survey::heights::{Between, Reading, TwoAngles, two_angles};
/// let exact = |value| Reading::new(value, 0.0);
/// let tree = two_angles(&TwoAngles {
///     near_deg: Reading::new(35.0, 0.3),
///     far_deg: Reading::new(25.0, 0.3),
///     between: Between::Level { distance_m: exact(10.0), far_above_near_m: exact(0.0) },
///     near_eye_m: exact(1.5), far_eye_m: exact(1.5), foot_deg: None, zero_sigma_deg: 0.0,
/// }).unwrap();
/// assert!((tree.above_near_ground_m.value - 15.460).abs() < 1e-3);
/// ```
pub fn two_angles(seen: &TwoAngles) -> Result<Sighted, HeightError> {
    let (first, second) = match seen.between {
        Between::Level { distance_m, far_above_near_m } => (distance_m, far_above_near_m),
        Between::AlongSlope { tape_m, slope_deg } => (tape_m, slope_deg),
    };
    let foot = seen.foot_deg.unwrap_or(Reading::new(0.0, 0.0));
    let zero = Reading::new(0.0, seen.zero_sigma_deg);
    let inputs = [seen.near_deg, seen.far_deg, first, second, seen.near_eye_m, seen.far_eye_m, foot, zero];
    let along_slope = matches!(seen.between, Between::AlongSlope { .. });
    let solve = |v: [f64; 8]| -> Result<[f64; 3], HeightError> {
        let [near, far, first, second, near_eye, far_eye, foot, zero] = v;
        // H = S·cos s, V = S·sin s: Ghilani & Wolf, slope distance reduced to horizontal.
        let (distance, rise) =
            if along_slope { (first * cos_deg(second), first * sin_deg(second)) } else { (first, second) };
        if distance <= 0.0 {
            return Err(HeightError::NoDistance);
        }
        let (near, far, foot) = (tangent(near + zero)?, tangent(far + zero)?, tangent(foot + zero)?);
        let x = (rise + far_eye - near_eye + distance * far) / (near - far);
        if near - far > 0.0 && x > 0.0 {
            Ok([x, near_eye + x * near, x * (near - foot)])
        } else {
            Err(HeightError::SightsDoNotMeet)
        }
    };
    let [distance_m, above_near_ground_m, above_foot] = propagate(inputs, solve)?;
    Ok(Sighted { distance_m, above_near_ground_m, above_foot_m: seen.foot_deg.map(|_| above_foot) })
}

/// A top whose foot can be taped to.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct AngleAndTape {
    /// Tape along the ground from the observer to the point under the top.
    pub tape_m: Reading,
    /// Slope of the ground along the tape, positive where it rises towards the thing.
    pub slope_deg: Reading,
    /// Upward angle to the top.
    pub top_deg: Reading,
    /// Height of the instrument above the ground.
    pub eye_m: Reading,
    /// One sigma of the zero error that both angles share.
    pub zero_sigma_deg: f64,
}

/// The top above its own foot, from one angle and a tape along the ground: i + S·cos s·tan a − S·sin s.
///
/// # Errors
/// When an angle is too steep, the tape has no length or a number is unusable.
pub fn angle_and_tape(seen: &AngleAndTape) -> Result<Reading, HeightError> {
    let zero = Reading::new(0.0, seen.zero_sigma_deg);
    let [height] = propagate(
        [seen.tape_m, seen.slope_deg, seen.top_deg, seen.eye_m, zero],
        |[tape, slope, top, eye, zero]| {
            let slope = slope + zero;
            if tape * cos_deg(slope) <= 0.0 {
                return Err(HeightError::NoDistance);
            }
            Ok([eye + tape * cos_deg(slope) * tangent(top + zero)? - tape * sin_deg(slope)])
        },
    )?;
    Ok(height)
}

/// Horizontal distance and rise of a tape held along a slope.
///
/// # Errors
/// When a number is unusable.
pub fn slope_tape(tape_m: Reading, slope_deg: Reading) -> Result<[Reading; 2], HeightError> {
    // H = S·cos s, V = S·sin s (Ghilani & Wolf).
    propagate([tape_m, slope_deg], |[tape, slope]| Ok([tape * cos_deg(slope), tape * sin_deg(slope)]))
}

/// One set-up of a level line: a rod or tape read at two places. A water level's two columns are read the same way.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct LevelSetUp {
    /// From the ground (or mark) up to the level line at the place that is known.
    pub back_m: Reading,
    /// The same at the place that is wanted.
    pub fore_m: Reading,
    /// Length of the line between them, and one sigma of its tilt: 0 for a water level, which has none.
    pub length_m: f64,
    pub tilt_sigma_deg: f64,
    /// Whether the level was turned end for end on the line and the two readings averaged: its zero error is then
    /// out, and `tilt_sigma_deg` is that of reading the bubble.
    pub reversed: bool,
}

/// Height of the last place above the first over any number of set-ups: Σ(back − fore).
///
/// A level that was not turned end for end tilts every line the same way, so those parts add up in full; what the
/// bubble leaves after a reversal, and the rod readings, add up in squares.
///
/// # Errors
/// When there is no set-up or a number is unusable.
pub fn levelled(set_ups: &[LevelSetUp]) -> Result<Reading, HeightError> {
    let (mut value, mut common, mut variance) = (0.0, 0.0, 0.0);
    for set_up in set_ups {
        let LevelSetUp { back_m, fore_m, length_m, tilt_sigma_deg, reversed } = *set_up;
        let sound = length_m.is_finite() && length_m >= 0.0 && tilt_sigma_deg >= 0.0;
        if !(sound && usable(&back_m) && usable(&fore_m)) {
            return Err(HeightError::NotFinite);
        }
        value += back_m.value - fore_m.value;
        variance += back_m.sigma * back_m.sigma + fore_m.sigma * fore_m.sigma;
        let tilt = length_m * tangent(tilt_sigma_deg)?;
        if reversed { variance += tilt * tilt } else { common += tilt }
    }
    if set_ups.is_empty() {
        Err(HeightError::NoDistance)
    } else {
        Ok(Reading::new(value, hypot(variance.sqrt(), common)))
    }
}

fn tangent(angle_deg: f64) -> Result<f64, HeightError> {
    if angle_deg.abs() < STEEPEST_DEG { Ok(tan_deg(angle_deg)) } else { Err(HeightError::TooSteep) }
}

fn usable(reading: &Reading) -> bool {
    reading.value.is_finite() && reading.sigma.is_finite() && reading.sigma >= 0.0
}

/// Values and standard uncertainties of a function of independent readings.
/// Source: GUM 2008, 5.1.3 note 2: u(y)² = Σ Z², Z = ½·[f(x + u) − f(x − u)].
fn propagate<const N: usize, const M: usize>(
    inputs: [Reading; N],
    f: impl Fn([f64; N]) -> Result<[f64; M], HeightError>,
) -> Result<[Reading; M], HeightError> {
    if !inputs.iter().all(usable) {
        return Err(HeightError::NotFinite);
    }
    let at = inputs.map(|reading| reading.value);
    let values = f(at)?;
    let mut squares = [0.0; M];
    for (i, reading) in inputs.iter().enumerate().filter(|(_, reading)| reading.sigma > 0.0) {
        let moved = |by: f64| {
            let mut inputs = at;
            inputs[i] += by;
            f(inputs)
        };
        let (up, down) = (moved(reading.sigma)?, moved(-reading.sigma)?);
        for (square, (up, down)) in squares.iter_mut().zip(up.iter().zip(down)) {
            *square += 0.25 * (up - down) * (up - down);
        }
    }
    if !values.iter().chain(&squares).all(|number| number.is_finite()) {
        return Err(HeightError::NotFinite);
    }
    Ok(std::array::from_fn(|k| Reading::new(values[k], squares[k].sqrt())))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn exact(value: f64) -> Reading {
        Reading::new(value, 0.0)
    }

    /// A tree 12 m high, its foot 20 m from the near place and 1 m above it, seen over ground that rises at 5°
    /// going back, with the phone at two heights: sights reckoned forwards must come back.
    #[test]
    fn a_known_tree_on_a_slope_comes_back() {
        let (distance, back_tape, slope) = (20.0, 9.0, 5.0);
        let (near_eye, far_eye, foot, top) = (1.4, 1.7, 1.0, 13.0);
        let far_eye_z = back_tape * sin_deg(slope) + far_eye;
        let far_distance = distance + back_tape * cos_deg(slope);
        let angle = |rise: f64, run: f64| crate::numerics::real::atan2_deg(rise, run);
        let seen = TwoAngles {
            near_deg: Reading::new(angle(top - near_eye, distance), 0.2),
            far_deg: Reading::new(angle(top - far_eye_z, far_distance), 0.2),
            between: Between::AlongSlope {
                tape_m: Reading::new(back_tape, 0.02),
                slope_deg: Reading::new(slope, 0.3),
            },
            near_eye_m: Reading::new(near_eye, 0.01),
            far_eye_m: Reading::new(far_eye, 0.01),
            foot_deg: Some(Reading::new(angle(foot - near_eye, distance), 0.2)),
            zero_sigma_deg: 0.0,
        };
        let tree = two_angles(&seen).unwrap();
        assert!((tree.distance_m.value - 20.0).abs() < 1e-12);
        assert!((tree.above_near_ground_m.value - 13.0).abs() < 1e-12);
        assert!((tree.above_foot_m.unwrap().value - 12.0).abs() < 1e-12);
        // A zero error of the phone makes it worse, and moving back helps.
        let shared = two_angles(&TwoAngles { zero_sigma_deg: 0.4, ..seen }).unwrap();
        assert!(shared.above_foot_m.unwrap().sigma > tree.above_foot_m.unwrap().sigma);
    }

    /// Where the derivative is a closed form: h = i + d·tan a, so σ² = σ_i² + tan²a·σ_d² + (d·sec²a)²·σ_a².
    #[test]
    fn uncertainty_is_that_of_the_closed_form() {
        let seen = AngleAndTape {
            tape_m: Reading::new(20.0, 0.05),
            slope_deg: exact(0.0),
            top_deg: Reading::new(30.0, 0.3),
            eye_m: Reading::new(1.5, 0.02),
            zero_sigma_deg: 0.0,
        };
        let height = angle_and_tape(&seen).unwrap();
        let by_angle = 20.0 / 0.75 * 0.3_f64.to_radians();
        let expected = (0.02_f64 * 0.02 + 0.05 * 0.05 / 3.0 + by_angle * by_angle).sqrt();
        assert!((height.value - 13.047).abs() < 1e-3);
        assert!((height.sigma - expected).abs() < 1e-4 * expected, "{height:?} {expected}");
    }

    #[test]
    fn level_lines_add_up() {
        let rod = |value| Reading::new(value, 0.003);
        let set_up = |back, fore, reversed| LevelSetUp {
            back_m: rod(back),
            fore_m: rod(fore),
            length_m: 10.0,
            tilt_sigma_deg: 0.1,
            reversed,
        };
        // Two lines: 1.20 − 0.35 and 1.05 − 0.40; by hand 10 m at 0.1° is 17.45 mm.
        let turned = levelled(&[set_up(1.2, 0.35, true), set_up(1.05, 0.4, true)]).unwrap();
        assert!((turned.value - 1.5).abs() < 1e-12);
        assert!((turned.sigma - (4.0_f64 * 9.0 + 2.0 * 17.453 * 17.453).sqrt() / 1000.0).abs() < 1e-6);
        let as_it_is = levelled(&[set_up(1.2, 0.35, false), set_up(1.05, 0.4, false)]).unwrap();
        assert!((as_it_is.sigma - (4.0_f64 * 9.0 + 34.907 * 34.907).sqrt() / 1000.0).abs() < 1e-6);
    }

    #[test]
    fn what_gives_no_height_is_refused() {
        let seen = TwoAngles {
            near_deg: exact(35.0),
            far_deg: exact(25.0),
            between: Between::Level { distance_m: exact(10.0), far_above_near_m: exact(0.0) },
            near_eye_m: exact(1.5),
            far_eye_m: exact(1.5),
            foot_deg: None,
            zero_sigma_deg: 0.0,
        };
        let swapped = TwoAngles { near_deg: exact(25.0), far_deg: exact(35.0), ..seen };
        assert_eq!(two_angles(&swapped), Err(HeightError::SightsDoNotMeet));
        assert_eq!(two_angles(&TwoAngles { near_deg: exact(90.0), ..seen }), Err(HeightError::TooSteep));
        assert_eq!(
            two_angles(&TwoAngles { near_eye_m: exact(f64::NAN), ..seen }),
            Err(HeightError::NotFinite)
        );
        // So uncertain that the sights might not meet at all.
        let vague = Reading::new(25.0, 12.0);
        assert_eq!(two_angles(&TwoAngles { far_deg: vague, ..seen }), Err(HeightError::SightsDoNotMeet));
        assert_eq!(levelled(&[]), Err(HeightError::NoDistance));
    }
}
