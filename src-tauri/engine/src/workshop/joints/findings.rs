//! What can be wrong with the base's joints: each says which part, what it is, what is allowed, and the nearest that works.

use super::crossing::{BOLT_EDGE, FLUSH_WITHIN_MM};
use super::stakes::{BESIDE, END};
use super::{BaseJoints, BoardNeed, CrossingBolts, MastSeat, StakeWork};
use crate::finding::workshop::{WorkshopQuestion, WorkshopRemedy, WorkshopRule};
use crate::finding::{Finding, Limit, Quantity, Severity, Subject};
use crate::job::Job;
use crate::round_figures::shop;
use crate::source::SourceKey;
use crate::workshop::stages::holes::LEAST_EDGE;

fn about(severity: Severity, rule: WorkshopRule, remedy: WorkshopRemedy) -> Finding {
    Finding::rule_of_thumb(severity, rule, Subject::Base, remedy)
}

fn small(value_mm: f64) -> Quantity {
    Quantity::LengthM { value: value_mm / 1000.0 }
}

pub(super) fn of(job: &Job, found: &BaseJoints) -> Vec<Finding> {
    let mut all: Vec<Finding> = not_said(found).into_iter().collect();
    all.extend(lap(job));
    all.extend(seat(job, &found.seat));
    match &found.bolts {
        Some(bolts) => all.extend(plate_edge(bolts)),
        None => all.extend(no_bolt_fits(job)),
    }
    all.extend(stakes(job, &found.stakes));
    all.extend(board(&found.boards.foot, false));
    all.extend(found.boards.crossing.as_ref().and_then(|need| board(need, true)));
    all
}

fn not_said(found: &BaseJoints) -> Option<Finding> {
    let open = [
        (WorkshopQuestion::Soil, found.boards.ground_pa.is_some()),
        (WorkshopQuestion::WeightsAndRopes, found.boards.guys_at_limit_n.is_some()),
        (WorkshopQuestion::GroundUnderFeet, found.not_measured.is_empty()),
    ];
    let open: Vec<WorkshopQuestion> =
        open.into_iter().filter(|(_, said)| !said).map(|(asked, _)| asked).collect();
    (!open.is_empty())
        .then(|| about(Severity::Unchecked, WorkshopRule::NotSaid { open }, WorkshopRemedy::EnterIt))
}

/// Cut through, or tops that do not lie flush.
fn lap(job: &Job) -> Option<Finding> {
    let base = &job.rig.base;
    let (cut_mm, timber_mm) = (base.lap_cut_mm(), base.timber_depth_mm);
    let half_mm = 0.5 * timber_mm;
    let cut_off = cut_mm >= timber_mm;
    let first_mm = job.workshop.made_mm("lap").unwrap_or(cut_mm);
    let apart_mm = (2.0 * cut_mm - timber_mm).abs();
    // Made deeper or shallower than planned, the other one makes up for it.
    let planned_apart = job.workshop.made_mm("lap").is_none() && apart_mm > FLUSH_WITHIN_MM;
    let severity = if cut_off || first_mm >= timber_mm { Severity::Stop } else { Severity::Caution };
    (cut_off || first_mm >= timber_mm || planned_apart).then(|| Finding {
        measured: Some(small(first_mm)),
        limit: Limit::at_most(small(half_mm)),
        ..about(
            severity,
            WorkshopRule::LapNotHalf { through: severity == Severity::Stop },
            WorkshopRemedy::CutHalf { depth_mm: half_mm },
        )
    })
}

/// So much of the crossing stays under a socket, as a share of the timber's depth: common practice.
const BELOW_SOCKET: f64 = 0.5;

fn seat(job: &Job, seat: &MastSeat) -> Option<Finding> {
    let MastSeat::Socket { bore_mm, depth_mm, left_below_mm, left_beside_mm } = *seat else { return None };
    let least_mm = shop::SOCKET_BESIDE.of(job.units.system);
    if left_beside_mm < least_mm {
        return Some(Finding {
            measured: Some(small(bore_mm)),
            limit: Limit::at_most(small(bore_mm + 2.0 * (left_beside_mm - least_mm))),
            ..about(
                Severity::Stop,
                WorkshopRule::SocketTooWide,
                WorkshopRemedy::WiderTimber { width_mm: bore_mm + 2.0 * least_mm },
            )
        });
    }
    let below_mm = BELOW_SOCKET * job.rig.base.timber_depth_mm;
    let most_mm = depth_mm + left_below_mm - below_mm;
    (left_below_mm < below_mm - 1e-9).then(|| Finding {
        measured: Some(small(depth_mm)),
        limit: Limit::at_most(small(most_mm.max(0.0))),
        ..about(
            Severity::Stop,
            WorkshopRule::SocketTooDeep,
            WorkshopRemedy::ShallowerSocket { depth_mm: most_mm.max(0.0) },
        )
    })
}

/// 1.2 holes from the plate's edge at the least (EN 1993-1-8, Table 3.3).
fn plate_edge(bolts: &CrossingBolts) -> Option<Finding> {
    let least_mm = LEAST_EDGE * bolts.hole_mm;
    let edge_mm = bolts.plate_edge_mm.filter(|edge_mm| *edge_mm < least_mm)?;
    Some(Finding {
        measured: Some(small(edge_mm)),
        limit: Limit::at_least(small(least_mm)),
        source: SourceKey::En1993_1_8,
        ..about(
            Severity::Caution,
            WorkshopRule::BoltNearPlateEdge,
            WorkshopRemedy::LargerPlate { side_mm: 2.0 * (bolts.from_middle_mm + least_mm) },
        )
    })
}

fn no_bolt_fits(job: &Job) -> Option<Finding> {
    let width_mm = job.rig.base.timber_width_mm;
    let outside_mm = super::seat::Foot::of(job).ok()?.outside_mm;
    let thinnest_mm = super::crossing::thinnest_mm(job.units.system);
    // √2·(b/2 − 1.5·d) = D/2 + d.
    let least_mm = 2.0 * ((0.5 * outside_mm + thinnest_mm) / 2.0_f64.sqrt() + BOLT_EDGE * thinnest_mm);
    Some(Finding {
        measured: Some(small(width_mm)),
        limit: Limit::at_least(small(least_mm)),
        ..about(
            Severity::Caution,
            WorkshopRule::NoRoomForBolts,
            WorkshopRemedy::WiderTimber { width_mm: least_mm },
        )
    })
}

fn stakes(job: &Job, work: &StakeWork) -> Option<Finding> {
    let StakeWork::Through { holes, left_beside_mm, hole_mm, .. } = work else { return None };
    let thick_mm = job.rig.stakes.diameter_mm;
    let play_mm = hole_mm - thick_mm;
    let least_mm = BESIDE * thick_mm;
    if *left_beside_mm < least_mm - 1e-9 {
        let width_mm = job.rig.base.timber_width_mm;
        return Some(Finding {
            measured: Some(small(thick_mm)),
            limit: Limit::at_most(small((width_mm - play_mm) / (1.0 + 2.0 * BESIDE))),
            ..about(
                Severity::Stop,
                WorkshopRule::StakeHoleTooWide,
                WorkshopRemedy::WiderTimber { width_mm: hole_mm + 2.0 * least_mm },
            )
        });
    }
    let end_m = holes.iter().map(|hole| hole.underneath_m).fold(f64::INFINITY, f64::min);
    let least_m = END * thick_mm / 1000.0;
    (end_m < least_m - 1e-9).then(|| Finding {
        measured: Some(Quantity::LengthM { value: end_m }),
        limit: Limit::at_least(Quantity::LengthM { value: least_m }),
        ..about(Severity::Stop, WorkshopRule::StakeHoleNearEnd, WorkshopRemedy::StakesFartherIn { least_m })
    })
}

fn board(need: &BoardNeed, crossing: bool) -> Option<Finding> {
    let wanted = [(Severity::Stop, need.still_mm, true), (Severity::Caution, need.guys_at_limit_mm, false)];
    let (severity, least_mm, still) = wanted.into_iter().find_map(|(severity, least_mm, still)| {
        Some((severity, least_mm.filter(|least_mm| *least_mm > need.has_mm)?, still))
    })?;
    let largest_mm = need.still_mm.into_iter().chain(need.guys_at_limit_mm).fold(least_mm, f64::max);
    Some(Finding {
        measured: Some(small(need.has_mm)),
        limit: Limit::at_least(small(least_mm)),
        source: SourceKey::Ibc1806,
        ..about(
            severity,
            WorkshopRule::BoardTooSmall { crossing, still },
            WorkshopRemedy::LargerBoard { side_mm: largest_mm },
        )
    })
}
