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
