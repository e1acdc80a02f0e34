//! What somebody wishes of a place, and how fine it is looked for.

use serde::{Deserialize, Serialize};

use crate::quantity::format;
use crate::quantity::{FieldError, FieldErrors, Units};

use super::score::SitingMerit;

/// How places are looked for and weighed against each other.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(default, deny_unknown_fields)]
pub struct SitingWishes {
    /// From one place that is looked at to the next, east and north; where nothing is said, as fine as every place of this
    /// yard can still be planned in reasonable time.
    pub step_m: Option<f64>,
    /// Turns of the guys that are tried with each turn of the base, spread over what makes a difference.
    pub guy_turns: u32,
    /// Turns of the base that are tried, spread over the whole circle; one: only the one that points the front leg
    /// downhill, or that of the job where nobody knows the fall.
    pub base_turns: u32,
    /// Only places from which the falling mast reaches no building, no way and no neighbour.
    pub clear_of_fall: bool,
    /// How many of the best places to tell of.
    pub best: u32,
    /// How far apart these stand at least, so that they are different places.
    pub apart_m: f64,
    /// What counts how much where places are weighed against each other.
    pub weights: SitingWeights,
}

/// Shares in the score of a place; only their ratio counts.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(default, deny_unknown_fields)]
pub struct SitingWeights {
    /// The tightest clearance.
    pub clearance: f64,
    /// A low foot.
    pub low_foot: f64,
    /// Guys near 45°.
    pub guy_angles: f64,
    /// Nothing within the mast's fall.
    pub fall: f64,
    /// Swing ties to the mast that cross well.
    pub ties: f64,
    /// A high gust limit.
    pub wind: f64,
    /// The lit cone seen from the job's standpoints.
    pub view: f64,
    /// A short way when it is pegged out.
    pub walking: f64,
}

/// Common practice: clearance and the wind first; the rest alike, but for what costs a few steps only.
impl Default for SitingWeights {
    fn default() -> Self {
        Self {
            clearance: 2.0,
            low_foot: 1.0,
            guy_angles: 1.0,
            fall: 1.0,
            ties: 1.0,
            wind: 2.0,
            view: 1.0,
            walking: 0.5,
        }
    }
}

impl SitingWeights {
    pub fn of(&self, merit: SitingMerit) -> f64 {
        match merit {
            SitingMerit::Clearance => self.clearance,
            SitingMerit::LowFoot => self.low_foot,
            SitingMerit::GuyAngles => self.guy_angles,
            SitingMerit::Fall => self.fall,
            SitingMerit::Ties => self.ties,
            SitingMerit::Wind => self.wind,
            SitingMerit::View => self.view,
            SitingMerit::Walking => self.walking,
        }
    }

    pub fn set(&mut self, merit: SitingMerit, weight: f64) {
        let place = match merit {
            SitingMerit::Clearance => &mut self.clearance,
            SitingMerit::LowFoot => &mut self.low_foot,
            SitingMerit::GuyAngles => &mut self.guy_angles,
            SitingMerit::Fall => &mut self.fall,
            SitingMerit::Ties => &mut self.ties,
            SitingMerit::Wind => &mut self.wind,
            SitingMerit::View => &mut self.view,
            SitingMerit::Walking => &mut self.walking,
        };
        *place = weight;
    }
}

impl Default for SitingWishes {
    fn default() -> Self {
        Self {
            step_m: None,
            guy_turns: 12,
            base_turns: 1,
            clear_of_fall: false,
            best: 5,
            apart_m: 2.0,
            weights: SitingWeights::default(),
        }
    }
}

/// Ways to stand in one place that one search keeps apart.
pub(super) const MOST_POSES: u32 = 64;
const STEPS_M: [f64; 2] = [0.02, 10.0];
const MOST_BEST: u32 = 50;
const MOST_APART_M: f64 = 100.0;

/// Steps that are taken by themselves, and how many places at the most.
const USUAL_STEPS_M: [f64; 6] = [0.1, 0.25, 0.5, 1.0, 2.0, 5.0];
const USUAL_PLACES: f64 = 10_000.0;

impl SitingWishes {
    /// The step as wished; else the finest usual one that makes no more than the usual number of places of so much ground.
    pub(super) fn step_over(&self, ground_m2: f64) -> f64 {
        let places = |step_m: f64| ground_m2 / (step_m * step_m);
        let usual = || USUAL_STEPS_M.into_iter().find(|step_m| places(*step_m) <= USUAL_PLACES);
        self.step_m.or_else(usual).unwrap_or(STEPS_M[1])
    }

    /// # Errors
    /// Every wish that can't be met by any yard, with what is allowed in the user's unit.
    pub(super) fn checked(&self, units: Units) -> Result<(), FieldErrors> {
        let mut errors = Vec::new();
        let mut length = |field: &str, value: f64, [least, most]: [f64; 2]| {
            if !(least..=most).contains(&value) {
                let shown = |metres| format::field(field, metres, units);
                let allowed = format!("{} to {}", shown(least), shown(most));
                errors.push(FieldError::new(format!("/siting/{field}"), shown(value), allowed));
            }
        };
        length("step_m", self.step_m.unwrap_or(STEPS_M[0]), STEPS_M);
        length("apart_m", self.apart_m, [0.0, MOST_APART_M]);
        let mut count = |field: &str, value: u32, most: u32| {
            if !(1..=most).contains(&value) {
                errors.push(FieldError::new(
                    format!("/siting/{field}"),
                    value.to_string(),
                    format!("1 to {most}"),
                ));
            }
        };
        count("best", self.best, MOST_BEST);
        count("guy_turns", self.guy_turns, MOST_POSES);
        count("base_turns", self.base_turns, MOST_POSES / self.guy_turns.clamp(1, MOST_POSES));
        for merit in SitingMerit::ALL {
            let weight = self.weights.of(merit);
            if !(0.0..=MOST_WEIGHT).contains(&weight) {
                let (field, allowed) = (merit.name(), format!("0 to {MOST_WEIGHT}"));
                errors.push(FieldError::new(format!("/siting/weights/{field}"), weight.to_string(), allowed));
            }
        }
        if errors.is_empty() && SitingMerit::ALL.iter().all(|merit| self.weights.of(*merit) == 0.0) {
            let allowed = "at least one weight above 0".to_owned();
            errors.push(FieldError::new("/siting/weights", "0 everywhere".to_owned(), allowed));
        }
        if errors.is_empty() { Ok(()) } else { Err(errors.into()) }
    }
}

const MOST_WEIGHT: f64 = 100.0;

#[cfg(test)]
mod tests {
    use super::*;

    /// A garden of 8 m by 10 m goes in steps of 0.1 m, a green of 50 m by 40 m in 0.5 m, ten hectares in 5 m; a wish goes
    /// before all of these.
    #[test]
    fn the_step_fits_the_yard() {
        let step = |ground_m2| SitingWishes::default().step_over(ground_m2);
        assert_eq!([step(80.0), step(2000.0), step(100_000.0)], [0.1, 0.5, 5.0]);
        assert_eq!(step(1e9), 10.0);
        assert_eq!(SitingWishes { step_m: Some(0.3), ..SitingWishes::default() }.step_over(1e9), 0.3);
    }
}
