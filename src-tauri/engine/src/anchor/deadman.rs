//! Deadmen: a log or timber buried level across the pull, in undisturbed loam.

use serde::{Deserialize, Serialize};

use super::ANCHOR_FACTOR;
use super::soil::PSF_PA;
use crate::resistance::{Condition, GroundClass, GroundUnshown, Resistance};
use crate::source::SourceKey;

const FOOT_M: f64 = 0.3048;

/// Mean depths of the table's rows, feet.
const DEPTHS_FT: [f64; 5] = [3.0, 4.0, 5.0, 6.0, 7.0];
/// Run over rise of the pull in the table's columns: 1:1 (45°) to 1:4 (14°).
const RUNS: [f64; 4] = [1.0, 2.0, 3.0, 4.0];
/// Holding power in loam, pounds per square foot of bearing face (TM 5-5420-278-10, Table 9).
const LOAM_PSF: [[f64; 4]; 5] = [
    [950.0, 1300.0, 1450.0, 1500.0],
    [1750.0, 2200.0, 2600.0, 2700.0],
    [2800.0, 3600.0, 4000.0, 4100.0],
    [3800.0, 5100.0, 5800.0, 6000.0],
    [5100.0, 7000.0, 8000.0, 8400.0],
];

/// The soil by the classes of the military tables.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum MilitarySoil {
    Loam,
    /// Rock or hardpan.
    Hard,
    /// Fine-grained and wet.
    Wet,
    Sandy,
    Unknown,
}

impl MilitarySoil {
    /// By what the values for loam are multiplied (TM 5-5420-278-10, Table 9, notes); none for the unknown.
    pub fn factor(self) -> Option<f64> {
        match self {
            MilitarySoil::Loam => Some(1.0),
            MilitarySoil::Hard => Some(5.0),
            MilitarySoil::Wet | MilitarySoil::Sandy => Some(0.5),
            MilitarySoil::Unknown => None,
        }
    }

    pub fn class(self) -> GroundClass {
        match self {
            MilitarySoil::Loam => GroundClass::Loam,
            MilitarySoil::Hard => GroundClass::RockOrHardpan,
            MilitarySoil::Wet => GroundClass::WetFineGrained,
            MilitarySoil::Sandy => GroundClass::SandySoil,
            MilitarySoil::Unknown => GroundClass::Unknown,
        }
    }
}

/// Holding power per bearing face, between the table's values in a straight line each way.
///
/// # Units
/// `run_over_rise` is the pull's level distance over its height: 1 at 45°, 4 at 14°. Pa.
/// # Accuracy
/// The table's own values exactly. Deeper than 7 ft and flatter than 1:4 count as those; none where the log lies less
/// than 3 ft deep or the pull is steeper than 45°.
pub fn holding_pa(mean_depth_m: f64, run_over_rise: f64, soil: MilitarySoil) -> Option<f64> {
    let (row, down) = between(&DEPTHS_FT, mean_depth_m / FOOT_M)?;
    let (column, across) = between(&RUNS, run_over_rise)?;
    let cell = |row: usize, column: usize| LOAM_PSF.get(row).and_then(|values| values.get(column)).copied();
    let along = |row: usize| {
        let (from, to) = (cell(row, column)?, cell(row, column + 1)?);
        Some(from + (to - from) * across)
    };
    let (upper, lower) = (along(row)?, along(row + 1)?);
    Some((upper + (lower - upper) * down) * PSF_PA * soil.factor()?)
}

/// The step that a value lies in and its share of it; none under the first, the end of the last step above the last.
fn between(steps: &[f64], value: f64) -> Option<(usize, f64)> {
    // A depth typed as 0.914 m is meant as the table's 3 ft: 2 mm under a row still count as the row.
    const SLACK: f64 = 0.002 / FOOT_M;
    let first = *steps.first()?;
    if value.is_nan() || value < first - SLACK {
        return None;
    }
    for (index, pair) in steps.windows(2).enumerate() {
        if let [from, to] = *pair
            && value <= to
        {
            return Some((index, ((value - from) / (to - from)).max(0.0)));
        }
    }
    Some((steps.len().checked_sub(2)?, 1.0))
}

/// A buried log or timber.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Deadman {
    pub length_m: f64,
    /// Height of the face that bears on the soil: the timber's height or the log's diameter.
    pub face_m: f64,
    pub is_log: bool,
    /// From the ground down to the middle of the face.
    pub mean_depth_m: f64,
}

/// Length that the rope's slot through the soil takes off the bearing face: 1 ft.
const SLOT_M: f64 = FOOT_M;

impl Deadman {
    /// Longest useful length over thickness: 9 for sawn timber, 5 for a log (TM 5-5420-278-10), lest it break.
    pub fn longest_ratio(&self) -> f64 {
        if self.is_log { 5.0 } else { 9.0 }
    }

    /// What the deadman holds.
    ///
    /// # References
    /// TM 5-5420-278-10: length = pull/(holding power·face) + 1 ft, turned round.
    pub fn resistance(&self, run_over_rise: f64, soil: MilitarySoil) -> Resistance {
        if soil == MilitarySoil::Unknown {
            return Resistance::not_shown(GroundUnshown::SoilUnknown);
        }
        // One part in a thousand over the ratio is a rounded length, not a longer timber.
        if self.length_m > self.face_m * self.longest_ratio() * 1.001 {
            return Resistance::not_shown(GroundUnshown::DeadmanTooLong);
        }
        let Some(pressure_pa) = holding_pa(self.mean_depth_m, run_over_rise, soil) else {
            return Resistance::not_shown(outside_table(self.mean_depth_m, run_over_rise));
        };
        let ultimate_n = pressure_pa * self.face_m * (self.length_m - SLOT_M).max(0.0);
        Resistance::shown(ultimate_n, ANCHOR_FACTOR, SourceKey::Tm5_5420, Condition::UndercutAcrossThePull)
            .in_soil(soil.class())
    }
}

/// Which end of the table is passed, or both; the steep one where neither is, as a number that is none.
fn outside_table(mean_depth_m: f64, run_over_rise: f64) -> GroundUnshown {
    let too_shallow = between(&DEPTHS_FT, mean_depth_m / FOOT_M).is_none();
    let too_steep = between(&RUNS, run_over_rise).is_none() || !too_shallow;
    GroundUnshown::OutsideDeadmanTable { too_shallow, too_steep }
}

/// Length that holds a pull: pull/(holding power·face) + 1 ft.
///
/// # References
/// TM 5-5420-278-10.
pub fn length_for_pull_m(pull_n: f64, holding_pa: f64, face_m: f64) -> f64 {
    pull_n / (holding_pa * face_m) + SLOT_M
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::UnitSystem;
    use crate::resistance::Unshown;
    use crate::round_figures::rule;

    #[test]
    fn outside_the_table_nothing_is_shown() {
        assert!(holding_pa(0.6, 1.0, MilitarySoil::Loam).is_none());
        assert!(holding_pa(1.2, 0.8, MilitarySoil::Loam).is_none());
        assert!(holding_pa(f64::NAN, 1.0, MilitarySoil::Loam).is_none());
        assert_eq!(holding_pa(9.0, 9.0, MilitarySoil::Loam), holding_pa(8.0, 5.0, MilitarySoil::Loam));
        let log = Deadman { length_m: 1.2, face_m: 0.15, is_log: true, mean_depth_m: 1.2 };
        assert!(log.resistance(1.0, MilitarySoil::Loam).allowable_n().is_none(), "8 diameters long");
        let timber = Deadman { is_log: false, ..log };
        assert!(timber.resistance(1.0, MilitarySoil::Loam).allowable_n().is_some());
        assert!(timber.resistance(1.0, MilitarySoil::Unknown).allowable_n().is_none());
    }

    /// The depth that the habit names is one that the table takes; a pull at 45° is none too steep.
    #[test]
    fn it_is_said_which_end_of_the_table_is_passed() {
        let timber = Deadman { length_m: 1.2, face_m: 0.15, is_log: false, mean_depth_m: 0.6 };
        let ends = |timber: Deadman, run| match timber.resistance(run, MilitarySoil::Loam) {
            Resistance::NotShown {
                reason: Unshown::Ground(GroundUnshown::OutsideDeadmanTable { too_shallow, too_steep }),
            } => [too_shallow, too_steep],
            Resistance::NotShown { reason } => panic!("{reason:?}"),
            Resistance::Shown(_) => [false; 2],
        };
        assert_eq!(ends(timber, 1.0), [true, false]);
        assert_eq!(ends(timber, 0.9), [true, true]);
        for system in [UnitSystem::Metric, UnitSystem::Imperial] {
            let deep = Deadman { mean_depth_m: rule::DEADMAN_DEEP.of(system), ..timber };
            assert_eq!(ends(deep, 1.0), [false, false]);
            assert_eq!(ends(deep, 0.9), [false, true]);
        }
    }
}
