//! The seat of the mast's foot: a socket in the crossing, a plate with a peg, or the bare wood.

use super::MastSeat;
use crate::job::Job;
use crate::quantity::FieldErrors;
use crate::round_figures::shop;

/// The lower end of the mast.
pub(super) struct Foot {
    /// The thickest that it may be: the coupling's where there is one.
    pub outside_mm: f64,
    /// The narrowest that the lower tube's bore may be; none where nobody knows.
    bore_mm: Option<f64>,
}

impl Foot {
    pub fn of(job: &Job) -> Result<Self, FieldErrors> {
        let tubes = job.rig.mast_tubes()?;
        let lower = tubes.first();
        let listed_mm = lower.map_or(0.0, |tube| tube.section.outside_mm);
        let thickest_mm =
            lower.and_then(|tube| tube.limits.outside).map_or(listed_mm, |limits| limits.largest_mm);
        Ok(Self {
            outside_mm: job.workshop.base.foot_outside_mm.unwrap_or(thickest_mm),
            bore_mm: lower.and_then(|tube| tube.limits.bore).map(|limits| limits.least_mm),
        })
    }
}

/// By the seat's height: under the timbers' tops it is a socket.
pub(super) fn seat(job: &Job, foot: &Foot) -> MastSeat {
    let (base, system) = (&job.rig.base, job.units.system);
    let peg_mm = foot.bore_mm.map(|bore_mm| bore_mm - shop::BORED_PLAY.of(system));
    if base.seat_height_mm < 0.0 {
        let bore_mm = foot.outside_mm + shop::BORED_PLAY.of(system);
        let depth_mm = -base.seat_height_mm;
        return MastSeat::Socket {
            bore_mm,
            depth_mm,
            left_below_mm: super::crossing::thick_mm(job) - depth_mm,
            left_beside_mm: 0.5 * (base.timber_width_mm - bore_mm),
        };
    }
    match base.seat_plate_mm {
        Some(side_mm) => MastSeat::Plate { side_mm, thickness_mm: base.seat_plate_thickness_mm, peg_mm },
        None => MastSeat::OnWood { peg_mm },
    }
}
