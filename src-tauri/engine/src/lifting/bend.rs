//! The turning mast as a beam between its hinge and the hands (or the line's tie), under its own weight.
//!
//! Square to the tube the weight presses with w·cos θ for each metre; the hinge gives what hands and weight leave. Where tubes lie in
//! each other, the outermost carries all of the moment; at a mouth the tube that goes into it carries all of the moment there: more than
//! either has.

use super::body::TurningBody;
use super::results::BendUse;
use crate::numerics::real::cos_deg;
use crate::quantity::convert::STANDARD_GRAVITY;
use crate::wind_capacity::parts::{Check, Part};

/// What a tube may carry in bending, from the rules of the wind capacity.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BendStrength {
    pub tube: usize,
    pub allowable_nm: f64,
}

/// The weakest section of every tube; none where one of them is not shown to bear anything.
pub fn strengths(parts: &[Part], tubes: usize) -> Option<Vec<BendStrength>> {
    let of = |tube: usize| {
        let mut least: Option<f64> = None;
        for part in parts {
            let own = match &part.check {
                Check::Tube { tube: it, .. } | Check::Weak { tube: it, .. } => *it == tube,
                _ => false,
            };
            if own {
                let allowable_nm = part.allowable_nm?;
                least = Some(least.map_or(allowable_nm, |least| least.min(allowable_nm)));
            }
        }
        least.map(|allowable_nm| BendStrength { tube, allowable_nm })
    };
    (0..tubes).map(of).collect()
}

/// Moment at a distance from the hinge, at an angle, with the hands at the grip: weight beyond less what the hands take off.
pub fn moment_nm(body: &TurningBody, elevation_deg: f64, grip_m: f64, at_m: f64) -> f64 {
    let moment = |it: &Beyond| it.mass_kg * (it.centre_m - at_m);
    let weight_nm = beyond(body, at_m).map(|it| moment(&it)).sum::<f64>() * square(elevation_deg);
    weight_nm - force_n(body, elevation_deg, grip_m) * (grip_m - at_m).max(0.0)
}

/// Shear at a distance, square to the tube.
fn shear_n(body: &TurningBody, elevation_deg: f64, grip_m: f64, at_m: f64) -> f64 {
    let weight_n = beyond(body, at_m).map(|it| it.mass_kg).sum::<f64>() * square(elevation_deg);
    weight_n - if grip_m > at_m { force_n(body, elevation_deg, grip_m) } else { 0.0 }
}

/// What weighs square to the tube for each kilogram.
fn square(elevation_deg: f64) -> f64 {
    STANDARD_GRAVITY * cos_deg(elevation_deg)
}

/// Of the hands at the grip, square to the tube.
fn force_n(body: &TurningBody, elevation_deg: f64, grip_m: f64) -> f64 {
    body.turning().moment_kg_m * square(elevation_deg) / grip_m.max(1e-6)
}

/// A part of the weight that lies beyond a place, with its centre from the hinge.
struct Beyond {
    mass_kg: f64,
    centre_m: f64,
}

fn beyond(body: &TurningBody, at_m: f64) -> impl Iterator<Item = Beyond> {
    let tubes = body.tubes.iter().map(move |tube| {
        let from_m = tube.low_m.max(at_m);
        let share = ((tube.high_m - from_m) / (tube.high_m - tube.low_m)).max(0.0);
        Beyond { mass_kg: tube.mass_kg * share, centre_m: 0.5 * (from_m + tube.high_m) }
    });
    tubes.chain([Beyond { mass_kg: body.end_kg, centre_m: body.long_m().max(at_m) }])
}

/// Stretches in which a tube is the outermost, from the bottom up.
fn outermost(body: &TurningBody) -> Vec<(usize, f64, f64)> {
    let mut from_m = 0.0;
    let mut found = Vec::new();
    for tube in &body.tubes {
        if tube.high_m > from_m {
            found.push((tube.tube, from_m, tube.high_m));
            from_m = tube.high_m;
        }
    }
    found
}

/// The most used tube at one angle. `bearings_m` has for each tube the distance of the two places at which it is held in the one below.
pub fn most_used(
    body: &TurningBody,
    strengths: &[BendStrength],
    bearings_m: &[Option<f64>],
    elevation_deg: f64,
    grip_m: f64,
) -> Option<(usize, BendUse)> {
    const STEPS: u32 = 24;
    let mut most: Option<(usize, BendUse)> = None;
    let mut socket_n: Option<f64> = None;
    for (place, (tube, from_m, to_m)) in outermost(body).into_iter().enumerate() {
        let allowable_nm = strengths.iter().find(|it| it.tube == tube)?.allowable_nm;
        let steps = (0..=STEPS).map(|step| from_m + (to_m - from_m) * f64::from(step) / f64::from(STEPS));
        let grip = (from_m..=to_m).contains(&grip_m).then_some(grip_m);
        for at_m in steps.chain(grip) {
            let moment_nm = moment_nm(body, elevation_deg, grip_m, at_m);
            let utilisation = moment_nm.abs() / allowable_nm;
            if most.as_ref().is_none_or(|(_, most)| utilisation > most.utilisation) {
                let used = BendUse {
                    tube: String::new(),
                    utilisation,
                    moment_nm,
                    at_deg: elevation_deg,
                    socket_n: None,
                };
                most = Some((tube, used));
            }
        }
        if let (1.., Some(bearing_m)) = (place, bearings_m.get(tube).copied().flatten()) {
            let at_mouth = moment_nm(body, elevation_deg, grip_m, from_m).abs() / bearing_m.max(1e-3)
                + shear_n(body, elevation_deg, grip_m, from_m).abs();
            socket_n = Some(socket_n.map_or(at_mouth, |most| most.max(at_mouth)));
        }
    }
    most.map(|(tube, used)| (tube, BendUse { socket_n, ..used }))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::lifting::body::TurningTube;

    fn one(mass_kg: f64, long_m: f64) -> TurningBody {
        TurningBody { tubes: vec![TurningTube { tube: 0, mass_kg, low_m: 0.0, high_m: long_m }], end_kg: 0.0 }
    }

    /// Handbooks' beam of even load on two supports: hands at the end, w·L²/8 in the middle, nothing at the ends; hands in the middle: all
    /// of it hangs from there, w·L²/8 over the hands; 12 kg on 4 m: 12·9.80665·4/8 = 58.84 N·m, at 60° half of that.
    #[test]
    fn a_beam_on_two_supports_and_one_that_hangs_over() {
        let body = one(12.0, 4.0);
        let near = |ours: f64, by_hand: f64| assert!((ours - by_hand).abs() < 1e-2, "{ours} {by_hand}");
        near(moment_nm(&body, 0.0, 4.0, 2.0), -58.84);
        near(moment_nm(&body, 0.0, 4.0, 0.0), 0.0);
        near(moment_nm(&body, 0.0, 2.0, 2.0), 58.84);
        near(moment_nm(&body, 60.0, 2.0, 2.0), 29.42);
        // The handbook's beam with an overhang: supports at 0 and 3 of 4 m; over the support w·a²/2 = 29.42·1/2 = 14.71.
        near(moment_nm(&body, 0.0, 3.0, 3.0), 14.71);
    }

    /// By hand: 10 kg of 2 m within 2 kg that goes on to 3 m from 1 m, hands at the end of the outer one. Beyond its mouth: 1 kg with its centre
    /// 0.5 m out: 4.903 N·m. Bearings 1 m apart: 4.903 + the 9.807 N beyond it less the hands' force, which is at the mouth.
    #[test]
    fn the_tube_that_sticks_out_carries_what_is_beyond_the_mouth() {
        let body = TurningBody {
            tubes: vec![
                TurningTube { tube: 0, mass_kg: 10.0, low_m: 0.0, high_m: 2.0 },
                TurningTube { tube: 1, mass_kg: 2.0, low_m: 1.0, high_m: 3.0 },
            ],
            end_kg: 0.0,
        };
        let weak = |nm: f64| {
            vec![BendStrength { tube: 0, allowable_nm: 1e3 }, BendStrength { tube: 1, allowable_nm: nm }]
        };
        let (tube, used) = most_used(&body, &weak(10.0), &[None, Some(1.0)], 0.0, 2.0).expect("known");
        assert_eq!(tube, 1);
        assert!((used.utilisation - 0.4903).abs() < 1e-3, "{used:?}");
        assert!((used.socket_n.expect("known") - 14.71).abs() < 0.01, "{used:?}");
        // Twice as heavy, twice as used: heavier is never easier.
        let heavier = TurningBody {
            tubes: body.tubes.iter().map(|it| TurningTube { mass_kg: 2.0 * it.mass_kg, ..*it }).collect(),
            end_kg: 0.0,
        };
        let (_, twice) = most_used(&heavier, &weak(10.0), &[None, Some(1.0)], 0.0, 2.0).expect("known");
        assert!((twice.utilisation - 2.0 * used.utilisation).abs() < 1e-9);
    }
}
