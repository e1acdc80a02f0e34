//! How large the boards on soft ground have to be: the mast's push over what the ground bears.

use super::{BoardNeed, BoardsNeeded};
use crate::anchor::footing;
use crate::job::Job;
use crate::plan::Computed;
use crate::quantity::FieldErrors;
use crate::wind_capacity::base::SHARE_OF_ONE_FOOT;
use crate::wind_capacity::soil::code_class;
use crate::workshop::fit::TubeFit;
use crate::workshop::stages::foot_push;

pub(super) fn boards(job: &Job, computed: &Computed, fit: &TubeFit) -> Result<BoardsNeeded, FieldErrors> {
    let base = &job.rig.base;
    let push = foot_push(job, &computed.plan, fit)?;
    // Presumptive bearing (IBC 1806.2), as the base's own check has it.
    let ground_pa = footing::bearing(1.0, code_class(job.yard.soil)).allowable_n();
    let need = |share: f64, has_mm: f64| {
        let side_mm = |push_n: Option<f64>| {
            push_n
                .zip(ground_pa)
                .map(|(push_n, ground_pa)| 1000.0 * (share * push_n.max(0.0) / ground_pa).sqrt())
        };
        BoardNeed { has_mm, still_mm: side_mm(push.still_n), guys_at_limit_mm: side_mm(push.guys_at_limit_n) }
    };
    let foot_mm = (base.foot_width_mm * base.foot_thickness_mm).sqrt();
    Ok(BoardsNeeded {
        still_n: push.still_n,
        guys_at_limit_n: push.guys_at_limit_n,
        ground_pa,
        foot: need(SHARE_OF_ONE_FOOT, base.pad_mm.unwrap_or(foot_mm)),
        crossing: base.joint_pad_mm.map(|side_mm| need(1.0, side_mm)),
    })
}
