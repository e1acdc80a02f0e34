//! What an anchor is shown to hold, pulled along its guy or by several guys together.

use super::soil::{self, SoilState};
use super::standing::{Standing, StandingGuy};
use crate::anchor::ballast::{self, Ballast};
use crate::anchor::deadman::Deadman;
use crate::anchor::picket;
use crate::anchor::plate::{self, Plate};
use crate::anchor::proof_pull::proved;
use crate::anchor::screw::{Screw, Shaft};
use crate::job::{AnchorKind, GuyLevel, ScrewShaft, SoilFeel};
use crate::numerics::real::{atan2_deg, hypot, tan_deg};
use crate::numerics::vector::{add, subtract};
use crate::quantity::bearing::turn_deg;
use crate::quantity::convert::STANDARD_GRAVITY;
use crate::resistance::{Condition, GroundUnshown, Resistance};
use crate::source::SourceKey;

/// Into so many parts the way from the flattest to the steepest guy of one anchor is cut: the sum of their pulls lies
/// between them.
const BETWEEN: u32 = 8;

/// The pull that the anchor of these guys may take, whichever way between theirs it points. A proof pull goes before
/// every rule.
///
/// An anchor that guys of two levels share is one thing, said once at either level; where both say, the weaker counts.
pub fn resistance(guys: &[&StandingGuy], standing: &Standing) -> Resistance {
    if let Some(thing) = guys.iter().find_map(|guy| guy.planned.made_fast.as_ref()) {
        return of_thing(&thing.thing, guys.len(), standing);
    }
    let one_peg = guys.iter().all(|guy| guy.planned.shared_with.len() + 1 >= guys.len());
    let says =
        |guy: &&&StandingGuy| guy.level.anchor != AnchorKind::Unknown || guy.level.proof_pull_n.is_some();
    let mut saying: Vec<&StandingGuy> = guys.iter().filter(says).copied().collect();
    if saying.is_empty() || !one_peg {
        saying = guys.to_vec();
    }
    let elevations = elevations_deg(guys, standing);
    let soil = SoilState::of(&standing.job.yard);
    let mut weakest: Option<Resistance> = None;
    for guy in saying {
        for &elevation_deg in &elevations {
            let pull = PullDirection { azimuth_deg: guy.planned.azimuth_deg + 180.0, elevation_deg };
            let here = of_level(guy.level, pull, soil, standing);
            weakest = Some(match weakest {
                Some(before) => before.weaker(here),
                None => here,
            });
        }
    }
    let found = weakest.unwrap_or_else(|| Resistance::not_shown(GroundUnshown::NoGuyPulls));
    match guys {
        [_] => found,
        _ if one_peg => found.noting(Condition::GuysPullTogether),
        _ => found.noting(Condition::NearAnchorsCountAsOne),
    }
}

/// What a thing of the yard may be pulled with is what somebody who answers for it has said, and nothing else: no rule of ours
/// and no proof pull of the level's other anchors shows it. It is what it carries in use, so it is divided by nothing.
fn of_thing(id: &str, guys: usize, standing: &Standing) -> Resistance {
    let thing = standing.job.yard.obstacles.iter().find(|thing| thing.id == id);
    let Some(holds_n) = thing.and_then(|thing| thing.guy_fixing?.holds_n) else {
        return Resistance::not_shown(GroundUnshown::FixingHoldUnknown);
    };
    let said = Resistance::shown(holds_n, 1.0, SourceKey::CommonPractice, Condition::HoldAsSaid);
    if guys > 1 { said.noting(Condition::GuysPullTogether) } else { said }
}

/// Which way an anchor is pulled.
#[derive(Debug, Clone, Copy)]
struct PullDirection {
    /// Bearing towards the mast.
    azimuth_deg: f64,
    /// Above the level.
    elevation_deg: f64,
}

/// The angles of the guys, and between them where there are several.
fn elevations_deg(guys: &[&StandingGuy], standing: &Standing) -> Vec<f64> {
    let angle_deg = |guy: &&StandingGuy| {
        let on_axis = add(standing.foot_m, [0.0, 0.0, guy.attach_height_m]);
        let [east, north, rise_m] = subtract(add(on_axis, guy.collar_offset_m), guy.planned.eye);
        atan2_deg(rise_m, hypot(east, north))
    };
    let own: Vec<f64> = guys.iter().map(angle_deg).collect();
    let (low, high) =
        (own.iter().copied().fold(f64::INFINITY, f64::min), own.iter().copied().fold(-90.0, f64::max));
    if own.len() < 2 {
        return own;
    }
    (0..=BETWEEN).map(|part| low + (high - low) * f64::from(part) / f64::from(BETWEEN)).collect()
}

fn of_level(level: &GuyLevel, pull: PullDirection, soil: SoilState, standing: &Standing) -> Resistance {
    if let Some(held_n) = level.proof_pull_n {
        return proved(held_n);
    }
    match level.anchor {
        AnchorKind::Unknown => Resistance::not_shown(GroundUnshown::NothingSaid),
        AnchorKind::Screw { shaft, shaft_mm, torque_nm, helix_mm, depth_m } => match soil.feel {
            // By the soil goes what a wet season leaves, and what the ground over the helix holds.
            SoilFeel::Unknown => Resistance::not_shown(GroundUnshown::SoilUnknownForScrew),
            SoilFeel::Rock => Resistance::not_shown(GroundUnshown::ScrewInRock),
            _ => as_wet(
                Screw {
                    shaft: shaft_of(shaft, shaft_mm),
                    torque_nm,
                    helix_m: helix_mm.map(|mm| mm / 1000.0),
                    depth_m,
                }
                .resistance(soil.strength(), soil.torque_share()),
                soil,
            ),
        },
        // An inclined pull has more soil in front of it than an upright one (Meyerhof 1973, from memory): the whole
        // pull is held against what the plate holds straight up.
        AnchorKind::Plate { side_m, depth_m } => {
            as_wet(plate::uplift(Plate::square(side_m, depth_m), soil.strength()), soil)
        }
        AnchorKind::Deadman { length_m, face_m, is_log, depth_m } => {
            let deadman = Deadman { length_m, face_m, is_log, mean_depth_m: depth_m };
            deadman.resistance(1.0 / tan_deg(pull.elevation_deg), soil.military_class())
        }
        AnchorKind::Pickets { pattern } => picket::resistance(pattern, soil.military_class()),
        AnchorKind::Stake { .. } => Resistance::not_shown(GroundUnshown::BarDrawnOut),
        AnchorKind::Ballast { mass_kg } => {
            let fall = &standing.layout.fall;
            let fall_deg = fall.bearing_deg.unwrap_or(pull.azimuth_deg);
            let ballast = Ballast {
                weight_n: mass_kg * STANDARD_GRAVITY,
                slope_deg: fall.slope_deg.value,
                // The guy pulls towards the mast.
                pull_from_downhill_deg: turn_deg(fall_deg, pull.azimuth_deg),
                pull_elevation_deg: pull.elevation_deg,
            };
            ballast::resistance(&ballast, soil::code_class(soil.feel))
        }
    }
}

/// Says that the soil was taken to be wet.
fn as_wet(held: Resistance, soil: SoilState) -> Resistance {
    if soil.wet { held.noting(Condition::GetsWetThrough) } else { held }
}

fn shaft_of(shaft: ScrewShaft, size_mm: f64) -> Shaft {
    match shaft {
        ScrewShaft::Round => Shaft::Round { diameter_mm: size_mm },
        ScrewShaft::Square => Shaft::Square { side_mm: size_mm },
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::anchor::soil::SandFeel;
    use crate::job::{Job, blank};
    use crate::numerics::real::{cos_deg, sin_deg};
    use crate::plan::compute;
    use crate::quantity::{UnitSystem, Units};
    use crate::wind_capacity::MastHeight;

    /// What the anchor of a plain mast's first guy may be pulled with, on level ground; and the guy's angle.
    fn held(change: impl Fn(&mut Job)) -> (Option<f64>, f64) {
        let mut job = blank(Units { system: UnitSystem::Metric, inch_fraction: 16 });
        job.yard.soil = SoilFeel::Sand { feel: SandFeel::Medium, under_water: false };
        change(&mut job);
        let layout = compute(&job).expect("a plain yard").layout;
        let standing = Standing::of(&job, &layout, MastHeight::Raised);
        let guys = [&standing.guys[0]];
        (resistance(&guys, &standing).allowable_n(), elevations_deg(&guys, &standing)[0])
    }

    /// A weight of 200 kg on level sand, pulled at θ it slides at T·cos θ = 0.25·(W − T·sin θ), and may be pulled with half of that.
    #[test]
    fn a_weight_slides_where_its_friction_ends() {
        let (held_n, angle_deg) =
            held(|job| job.rig.guy_levels[0].anchor = AnchorKind::Ballast { mass_kg: 200.0 });
        let (sin, cos) = (sin_deg(angle_deg), cos_deg(angle_deg));
        let slides_n = 0.25 * 200.0 * 9.806_65 / (cos + 0.25 * sin);
        let factor = slides_n / held_n.unwrap();
        assert!((factor - 2.0).abs() < 1e-6, "{factor}");
    }

    /// What a proof pull showed goes before every rule; where nothing is said nothing holds, nor a bar that is drawn out.
    #[test]
    fn a_proof_pull_goes_before_the_rules() {
        let proved = |kind: AnchorKind| {
            held(|job| {
                job.rig.guy_levels[0].anchor = kind;
                job.rig.guy_levels[0].proof_pull_n = Some(3000.0);
            })
            .0
        };
        let plate = AnchorKind::Plate { side_m: 0.05, depth_m: 0.1 };
        // By 1.5.
        assert_eq!(proved(plate), Some(2000.0));
        assert_eq!(proved(AnchorKind::Unknown), Some(2000.0));
        assert!(held(|job| job.rig.guy_levels[0].anchor = AnchorKind::Unknown).0.is_none());
        let unknown_soil = |job: &mut Job| {
            job.yard.soil = SoilFeel::Unknown;
            job.rig.guy_levels[0].anchor = AnchorKind::Screw {
                shaft: ScrewShaft::Square,
                shaft_mm: 40.0,
                torque_nm: Some(500.0),
                helix_mm: Some(200.0),
                depth_m: Some(1.5),
            };
        };
        assert!(held(unknown_soil).0.is_none());
    }

    /// Two guys from one anchor: their pulls' sum points anywhere between them, which is looked at in eighths.
    #[test]
    fn the_pull_of_two_guys_lies_between_them() {
        let mut job = blank(Units { system: UnitSystem::Metric, inch_fraction: 16 });
        let mut lower = job.rig.guy_levels[0].clone();
        (lower.id, lower.attach_height_m) = ("lower".into(), 0.5 * lower.attach_height_m);
        job.rig.guy_levels.insert(0, lower);
        let layout = compute(&job).expect("a plain yard").layout;
        let standing = Standing::of(&job, &layout, MastHeight::Raised);
        let of_first: Vec<&StandingGuy> =
            standing.anchors[0].iter().filter_map(|&place| standing.guys.get(place)).collect();
        assert_eq!(of_first.len(), 2);
        let [low, high] = [0, 1].map(|i| elevations_deg(&of_first[i..=i], &standing)[0]);
        let between = elevations_deg(&of_first, &standing);
        assert!(high > low + 10.0 && between.len() == 9);
        for (eighth, angle_deg) in between.iter().enumerate() {
            assert!((angle_deg - low - (high - low) * eighth as f64 / 8.0).abs() < 1e-9);
        }
        // The angle of the rope's chord, which the plan gives.
        assert!((high - of_first[1].planned.angle_deg).abs() < 1e-9);
    }
}
