//! What a guy's anchor is shown to hold, pulled along its guy.

use super::soil;
use super::standing::StandingGuy;
use crate::anchor::ballast::{self, Ballast};
use crate::anchor::deadman::Deadman;
use crate::anchor::picket;
use crate::anchor::plate::{self, Plate};
use crate::anchor::proof_pull::proved;
use crate::anchor::screw::{self, Helix, Shaft};
use crate::job::{Holdfast, ScrewShaft, SoilFeel};
use crate::numerics::real::{atan_deg, hypot};
use crate::numerics::vector::subtract;
use crate::plan::GroundResult;
use crate::quantity::bearing::turn_deg;
use crate::resistance::Resistance;

const GRAVITY_M_PER_S2: f64 = 9.806_65;

/// The pull that the anchor may take along its guy. A proof pull goes before every rule.
pub fn resistance(
    guy: &StandingGuy,
    attach: [f64; 3],
    soil_feel: SoilFeel,
    ground: &GroundResult,
) -> Resistance {
    if let Some(held_n) = guy.level.proof_pull_n {
        return proved(held_n);
    }
    let [run_east, run_north, rise_m] = subtract(attach, guy.planned.eye);
    let run_m = hypot(run_east, run_north);
    let strength = soil::strength(soil_feel);
    match guy.level.holdfast {
        Holdfast::Unknown => Resistance::not_shown(
            "Nobody has said what this guy is made fast to: say it, or make the proof pull.",
        ),
        Holdfast::Screw { shaft, shaft_mm, torque_nm, helix_mm, depth_m } => {
            match (torque_nm, helix_mm, depth_m) {
                (Some(torque_nm), ..) => screw::by_torque(shaft_of(shaft, shaft_mm), torque_nm),
                (None, Some(helix_mm), Some(depth_m)) => screw::by_bearing(
                    Helix { diameter_m: helix_mm / 1000.0, shaft_m: shaft_mm / 1000.0, depth_m },
                    strength,
                ),
                _ => Resistance::not_shown(
                    "Neither the turning moment nor the helix and its depth are known: measure one, or make the proof pull.",
                ),
            }
        }
        // An inclined pull has more soil in front of it than an upright one (Meyerhof 1973, from memory): the whole
        // pull is held against what the plate holds straight up.
        Holdfast::Plate { side_m, depth_m } => plate::uplift(Plate::square(side_m, depth_m), strength),
        Holdfast::Deadman { length_m, face_m, is_log, depth_m } => {
            let deadman = Deadman { length_m, face_m, is_log, mean_depth_m: depth_m };
            deadman.resistance(run_m / rise_m, soil::holdfast_class(soil_feel))
        }
        Holdfast::Pickets { pattern } => picket::resistance(pattern, soil::holdfast_class(soil_feel)),
        Holdfast::Stake { .. } => Resistance::not_shown(
            "No rule shows that a single bar is not drawn out by a guy that pulls up: take a screw, a plate or a \
             deadman, or make the proof pull.",
        ),
        Holdfast::Ballast { mass_kg } => {
            let fall_deg = ground.fall_bearing_deg.unwrap_or(guy.planned.azimuth_deg + 180.0);
            let ballast = Ballast {
                weight_n: mass_kg * GRAVITY_M_PER_S2,
                slope_deg: ground.slope_deg.value,
                // The guy pulls towards the mast.
                pull_from_downhill_deg: turn_deg(fall_deg, guy.planned.azimuth_deg + 180.0),
                pull_elevation_deg: atan_deg(rise_m / run_m),
            };
            ballast::resistance(&ballast, soil::code_class(soil_feel))
        }
    }
}

fn shaft_of(shaft: ScrewShaft, size_mm: f64) -> Shaft {
    match shaft {
        ScrewShaft::Round => Shaft::Round { diameter_mm: size_mm },
        ScrewShaft::Square => Shaft::Square { side_mm: size_mm },
    }
}
