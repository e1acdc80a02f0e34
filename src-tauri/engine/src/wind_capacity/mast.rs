//! The mast as the structural solver takes it, leaning as it may from its play and from how it was plumbed.

use super::standing::{Standing, StandingGuy};
use super::types::MastHeight;
use crate::job::{FootFixing, WhenLowered};
use crate::quantity::convert::STANDARD_GRAVITY;
use crate::structure::{BaseSupport, GuyLength, GuyPart, Mast, TubePart};
use crate::wind::ice::ice_weight_n_per_m;

/// How far out of plumb the mast may be set, the way the wind blows: 1 in 200, the first imperfection of
/// EN 1993-1-1, 5.3.2 (3), from memory; the guy trade keeps 1 in 400 (`tia222`).
pub const OUT_OF_PLUMB: f64 = 1.0 / 200.0;

/// No beam is longer than this.
const LONGEST_ELEMENT_M: f64 = 0.5;

/// The mast with its guys for a wind that blows in this direction (east, north).
pub fn mast(standing: &Standing, [east, north]: [f64; 2]) -> Mast {
    let job = standing.job;
    let ice_m = job.wind.ice_mm / 1000.0;
    let tubes = standing.tubes.iter().map(|tube| {
        let part = TubePart::of_steel(tube.bottom_m, tube.top_m, tube.outside_m, tube.wall_m);
        let own = tube.mass_kg * STANDARD_GRAVITY / (tube.top_m - tube.bottom_m);
        TubePart {
            weight_n_per_m: own + ice_weight_n_per_m(tube.outside_m, ice_m),
            play_m: [tube.radial_gap_m * east, tube.radial_gap_m * north],
            ..part
        }
    });
    let guys = standing.guys.iter().map(|guy| {
        let rope = &guy.level.rope;
        GuyPart {
            attach_height_m: guy.attach_height_m,
            collar_offset_m: guy.collar_offset_m,
            anchor_m: guy.planned.eye,
            stiffness_n: rope.stiffness_n(),
            weight_n_per_m: rope.weight_n_per_m() + ice_weight_n_per_m(rope.diameter_mm / 1000.0, ice_m),
            length: length(guy, standing.height),
        }
    });
    Mast {
        lean: [OUT_OF_PLUMB * east, OUT_OF_PLUMB * north],
        base: match job.rig.base.foot_fixing {
            FootFixing::Pinned => BaseSupport::Pinned,
            FootFixing::Spring { stiffness_nm_per_rad } => {
                BaseSupport::Spring { n_m_per_rad: stiffness_nm_per_rad }
            }
        },
        guys: guys.chain(side_guys(standing, ice_m)).collect(),
        stations_m: if standing.strands.is_empty() { Vec::new() } else { vec![standing.strands_top_m] },
        longest_element_m: LONGEST_ELEMENT_M,
        ..Mast::standing_on(standing.foot_m, tubes.collect())
    }
}

/// Set at its tension; but left alone when the mast is run down, it is as long as it was.
fn length(guy: &StandingGuy, height: MastHeight) -> GuyLength {
    if height == MastHeight::Lowered && guy.level.when_lowered == WhenLowered::Left {
        return GuyLength::Unstressed { length_m: guy.planned.unstressed_m.value };
    }
    set_bare(guy.level.tension_n, guy.level.rope.weight_n_per_m())
}

/// Nobody sets a rope with ice on it: what hangs on it later tightens it.
fn set_bare(tension_n: f64, bare_n_per_m: f64) -> GuyLength {
    GuyLength::UpperTensionBare { tension_n, bare_n_per_m }
}

/// The strands that count as guys: none where they do not, or hang loose.
fn side_guys(standing: &Standing, ice_m: f64) -> Vec<GuyPart> {
    let Some(strands) = standing.job.rig.strands.as_ref().filter(|it| it.cord.side_help) else {
        return Vec::new();
    };
    let cord = &strands.cord;
    let bare_n_per_m = cord.mass_g_per_m.unwrap_or(0.0) / 1000.0 * STANDARD_GRAVITY;
    let taut = standing.strands.iter().filter(|strand| !strand.slack);
    taut.map(|strand| GuyPart {
        attach_height_m: standing.strands_top_m,
        collar_offset_m: strand.top_offset_m,
        anchor_m: strand.ring_point,
        stiffness_n: cord.stiffness_n(),
        weight_n_per_m: bare_n_per_m + ice_weight_n_per_m(cord.diameter_mm.unwrap_or(0.0) / 1000.0, ice_m),
        length: set_bare(cord.tension_n, bare_n_per_m),
    })
    .collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::demo::yardstick;
    use crate::job::Job;
    use crate::plan::compute;

    fn made(job: &Job, height: MastHeight) -> Mast {
        let layout = compute(job).unwrap().layout;
        mast(&Standing::of(job, &layout, height), [0.6, 0.8])
    }

    /// By hand, with 5 mm of ice (900 kg/m³): a tube of 60 mm takes on π·0.005·0.065·900·9.80665 = 9.011 N/m, a rope of 6 mm
    /// π·0.005·0.011·900·9.80665 = 1.525 N/m beside its own 0.025·9.80665 = 0.2452 N/m; 3 % at 1500 N is 50 kN of stiffness.
    #[test]
    fn what_the_solver_is_given_by_hand() {
        let mut job = yardstick();
        for (tube, outside_mm) in job.rig.tubes.iter_mut().zip([60.0, 50.0]) {
            tube.section = crate::job::Section::Measured { outside_mm, wall_mm: 3.0 };
        }
        let bare = made(&job, MastHeight::Raised);
        job.wind.ice_mm = 5.0;
        let iced = made(&job, MastHeight::Raised);
        assert!((iced.tubes[0].weight_n_per_m - bare.tubes[0].weight_n_per_m - 9.0109).abs() < 1e-3);
        // π·57·3 mm² of steel, 7850 kg/m³: 41.36 N/m.
        assert!((bare.tubes[0].weight_n_per_m - 41.356).abs() < 0.01, "{}", bare.tubes[0].weight_n_per_m);
        assert!((bare.guys[0].weight_n_per_m - 0.245_17).abs() < 1e-4);
        assert!((iced.guys[0].weight_n_per_m - 0.245_17 - 1.524_9).abs() < 1e-3);
        assert!((bare.guys[0].stiffness_n - 50_000.0).abs() < 1e-6);
        // Set without the ice, at its tension.
        let set = set_bare(130.0, job.rig.guy_levels[0].rope.weight_n_per_m());
        assert_eq!(iced.guys[0].length, set);
        // Out of plumb by 1 in 200 the way the wind blows; in its play (60 − 2·3 − 50)/2 = 2 mm that way.
        assert!((bare.lean[0] - 0.003).abs() < 1e-12 && (bare.lean[1] - 0.004).abs() < 1e-12);
        let play_m = bare.tubes[1].play_m;
        assert!((play_m[0] - 0.0012).abs() < 1e-9 && (play_m[1] - 0.0016).abs() < 1e-9, "{play_m:?}");
        assert_eq!((bare.base, bare.guys.len()), (BaseSupport::Pinned, 3));
    }

    /// Strands that count as guys are guys of their own, but not when they hang loose; a guy left alone is as long as it was.
    #[test]
    fn strands_and_guys_left_alone() {
        let mut job = yardstick();
        job.rig.base.foot_fixing = FootFixing::Spring { stiffness_nm_per_rad: 2000.0 };
        let strands = job.rig.strands.as_mut().unwrap();
        (strands.cord.side_help, strands.count) = (true, 24);
        job.rig.guy_levels[0].when_lowered = WhenLowered::Left;
        let raised = made(&job, MastHeight::Raised);
        assert_eq!((raised.guys.len(), raised.base), (27, BaseSupport::Spring { n_m_per_rad: 2000.0 }));
        // 35 g/m, half a per cent at 100 N.
        assert!((raised.guys[3].weight_n_per_m - 0.035 * 9.806_65).abs() < 1e-9);
        assert!((raised.guys[3].attach_height_m - 5.4).abs() < 1e-12);
        assert_eq!(raised.guys[3].length, set_bare(15.0, 0.035 * STANDARD_GRAVITY));
        let lowered = made(&job, MastHeight::Lowered);
        assert_eq!(lowered.guys.len(), 3);
        let length_m = compute(&job).unwrap().plan.guys[0].unstressed_m.value;
        assert_eq!(lowered.guys[0].length, GuyLength::Unstressed { length_m });
    }
}
