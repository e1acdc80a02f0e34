//! What can be wrong with holes, pins and pulls: each says which part, what it is, what is allowed, and the nearest that works.

use super::holes::{LEAST_EDGE, LEAST_PITCH};
use super::plan::Work;
use super::rises::TooShort;
use super::{DrilledTube, Stages, WorkStage};
use crate::finding::workshop::{WorkshopQuestion, WorkshopRemedy, WorkshopRule};
use crate::finding::{Finding, Limit, Quantity, Severity, Subject};
use crate::job::Job;
use crate::round_figures::shop;
use crate::source::SourceKey;
use crate::workshop::fit::{Bushings, OverlapBecause};

fn about(severity: Severity, rule: WorkshopRule, remedy: WorkshopRemedy) -> Finding {
    Finding::rule_of_thumb(severity, rule, Subject::Mast, remedy)
}

fn length(value: f64) -> Quantity {
    Quantity::LengthM { value }
}

/// What somebody has to say before there are pulls.
pub(super) fn not_said(job: &Job) -> Vec<Finding> {
    if !job.rig.tubes.iter().skip(1).any(|tube| tube.joint == crate::job::TubeJoint::Telescoped) {
        return Vec::new();
    }
    let lift = &job.workshop.lift;
    let open = [
        (
            WorkshopQuestion::PinHole,
            job.rig
                .tubes
                .iter()
                .skip(1)
                .all(|tube| tube.pin_hole_mm.is_some() || tube.joint == crate::job::TubeJoint::Threaded),
        ),
        (WorkshopQuestion::Pin, lift.pin_mm.is_some()),
        (WorkshopQuestion::RodLength, lift.rod_length_m.is_some()),
        (WorkshopQuestion::WinchHeight, lift.winch_height_m.is_some()),
    ];
    let open: Vec<WorkshopQuestion> =
        open.into_iter().filter(|(_, said)| !said).map(|(asked, _)| asked).collect();
    if open.is_empty() {
        return Vec::new();
    }
    vec![about(Severity::Unchecked, WorkshopRule::NotSaid { open }, WorkshopRemedy::SayIt)]
}

pub(super) fn rod_too_short(work: &Work, index: usize, short: &TooShort) -> Finding {
    let ends_m = 2.0 * shop::ROD_END.of(work.job.units.system) / 1000.0;
    let least_m = short.rod_at_least_m + ends_m;
    Finding {
        measured: work.job.workshop.lift.rod_length_m.map(length),
        limit: Limit::at_least(length(least_m)),
        ..about(
            Severity::Stop,
            WorkshopRule::RodTooShort {
                tube: work.tubes.get(index).map_or(String::new(), |tube| tube.name.to_owned()),
            },
            WorkshopRemedy::LongerRodOrHigherWinch { least_m },
        )
    }
}

pub(super) fn of(work: &Work, found: &Stages) -> Vec<Finding> {
    let mut all: Vec<Finding> = rod_too_long(work, found).into_iter().collect();
    for stage in &found.stages {
        all.extend(travel(work, stage));
        all.extend(pin_in_hole(stage));
        all.extend(pin_strength(stage));
        all.extend(tail(work, stage));
        all.extend(first_pair(work, stage));
        all.extend(second_pair(work, stage));
        all.extend(long_pulls(work, stage));
    }
    for tube in &found.tubes {
        all.extend(pitches(work, tube));
    }
    all
}

fn travel(work: &Work, stage: &WorkStage) -> Option<Finding> {
    let index = stage.tube as usize;
    (stage.travel_m <= 0.0).then(|| Finding {
        measured: Some(length(work.overlap_m(index))),
        limit: Limit::at_most(length(work.overlap_m(index) + stage.travel_m)),
        ..about(
            Severity::Stop,
            WorkshopRule::NothingToLift { tube: stage.name.clone() },
            WorkshopRemedy::LessInside { most_m: work.overlap_m(index) + stage.travel_m },
        )
    })
}

/// A rod whose upper end stands out beyond the tube that it lifts is in the way of topper and collar; the shortest such tube counts.
fn rod_too_long(work: &Work, found: &Stages) -> Option<Finding> {
    let rod_m = work.job.workshop.lift.rod_length_m?;
    let end_m = shop::ROD_END.of(work.job.units.system) / 1000.0;
    let most = |stage: &WorkStage| {
        Some((work.top_before_m(stage.tube as usize) - stage.rises?.hook_from_m + end_m, stage.name.clone()))
    };
    let (most_m, tube) = found.stages.iter().filter_map(most).min_by(|a, b| a.0.total_cmp(&b.0))?;
    (rod_m > most_m + 1e-9).then(|| Finding {
        measured: Some(length(rod_m)),
        limit: Limit::at_most(length(most_m)),
        ..about(Severity::Stop, WorkshopRule::RodTooLong { tube }, WorkshopRemedy::ShorterRod { most_m })
    })
}

fn pin_in_hole(stage: &WorkStage) -> Option<Finding> {
    let (hole_mm, pin_mm) = (stage.pin.hole_mm?, stage.pin.pin_mm?);
    (pin_mm >= hole_mm).then(|| Finding {
        measured: Some(length(pin_mm / 1000.0)),
        limit: Limit::at_most(length(hole_mm / 1000.0)),
        ..about(
            Severity::Stop,
            WorkshopRule::PinThickerThanHole { tube: stage.name.clone() },
            WorkshopRemedy::DrillFor { hole_mm: pin_mm + 0.5 },
        )
    })
}

fn pin_strength(stage: &WorkStage) -> Option<Finding> {
    let pin = &stage.pin;
    let strength = pin.strength?;
    let loads = [(Severity::Stop, pin.still_n, true), (Severity::Caution, pin.guys_at_limit_n, false)];
    let (severity, load_n, still) = loads.into_iter().find_map(|(severity, load_n, still)| {
        Some((severity, load_n.filter(|load| *load > strength.least_n)?, still))
    })?;
    Some(Finding {
        measured: Some(Quantity::ForceN { value: load_n }),
        limit: Limit::at_most(Quantity::ForceN { value: strength.least_n }),
        source: SourceKey::AiscPins,
        ..about(
            severity,
            WorkshopRule::PinTooWeak { tube: stage.name.clone(), still },
            WorkshopRemedy::ThickerPin { pin_mm: pin.thinnest_mm },
        )
    })
}

/// The hole on which a tube stands keeps its distance from the tube's lower end, past the bushing there.
fn tail(work: &Work, stage: &WorkStage) -> Option<Finding> {
    let index = stage.tube as usize;
    let below = index.checked_sub(1)?;
    let hole_m = work.stands_hole_m(index);
    let joint = work.fit.joints.iter().find(|joint| joint.tube == stage.tube);
    let bushing_m = match joint.map(|joint| &joint.bushings) {
        Some(Bushings::Turned { lower, .. }) => lower.length_mm / 1000.0,
        _ => 0.0,
    };
    let least_m = bushing_m + work.edge_m(index).max(LEAST_EDGE * stage.pin.hole_mm.unwrap_or(0.0) / 1000.0);
    (hole_m < least_m - 1e-9).then(|| Finding {
        measured: Some(length(hole_m)),
        limit: Limit::at_least(length(least_m)),
        source: SourceKey::En1993_1_8,
        ..about(
            Severity::Stop,
            WorkshopRule::HoleNearEnd { tube: stage.name.clone() },
            WorkshopRemedy::LeaveMoreInside { least_m: least_m + Work::at(&work.carries_m, below) },
        )
    })
}

/// What the holes of a joint may be off and a pin still goes through both tubes: all of the play that it has in its hole.
fn pin_play_m(stage: &WorkStage) -> Option<f64> {
    Some((stage.pin.hole_mm? - stage.pin.pin_mm?).max(0.0) / 1000.0)
}

/// The hole on which a tube stands, as drilled, leaves more or less of it inside than planned: the mast comes out higher or lower. The
/// plan goes on once it is told so.
fn first_pair(work: &Work, stage: &WorkStage) -> Vec<Finding> {
    let (Some(play_m), index) = (pin_play_m(stage), stage.tube as usize) else { return Vec::new() };
    let inside_m = work.inside_m(index);
    let off_m = (inside_m - work.overlap_m(index)).abs();
    if off_m <= play_m + 1e-9 {
        return Vec::new();
    }
    let tube = stage.name.clone();
    let mut found = vec![Finding {
        measured: Some(length(off_m)),
        limit: Limit::at_most(length(play_m)),
        ..about(
            Severity::Stop,
            WorkshopRule::HolesDoNotMeet { tube: tube.clone(), second: false },
            WorkshopRemedy::SayWhatStaysInside { inside_m },
        )
    }];
    let joint = work.fit.joints.iter().find(|joint| joint.tube == stage.tube);
    if let Some(least) =
        joint.map(|joint| joint.least_overlap).filter(|least| inside_m < least.length_m - 1e-9)
    {
        let by_bushings = least.because == OverlapBecause::BushingsAndPin;
        found.push(Finding {
            measured: Some(length(inside_m)),
            limit: Limit::at_least(length(least.length_m)),
            ..about(
                Severity::Stop,
                WorkshopRule::OverlapBelowLeast { inner: tube, by_bushings },
                WorkshopRemedy::LeaveMoreInside { least_m: least.length_m },
            )
        });
    }
    found
}

/// With the first pin in, the second one has to go through both tubes as well.
fn second_pair(work: &Work, stage: &WorkStage) -> Option<Finding> {
    let index = stage.tube as usize;
    let below = index.checked_sub(1)?;
    let off_m = (work.second_below_m(index) - work.meets_second_m(index)).abs();
    let play_m = pin_play_m(stage)?;
    if off_m <= play_m + 1e-9 {
        return None;
    }
    // Both holes from the mouth down. A new one through both tubes keeps clear of either, and of the tube's end.
    let holes_m = [work.second_m(below), work.inside_m(index) - work.second_below_m(index)];
    let hole_m = stage.pin.hole_mm? / 1000.0;
    let from_end_m = holes_m[0].min(holes_m[1]) - LEAST_PITCH * hole_m;
    Some(Finding {
        measured: Some(length(off_m)),
        limit: Limit::at_most(length(play_m)),
        ..about(
            Severity::Stop,
            WorkshopRule::HolesDoNotMeet { tube: stage.name.clone(), second: true },
            WorkshopRemedy::DrillBothAtOnce {
                from_end_m: (from_end_m >= LEAST_EDGE * hole_m).then_some(from_end_m),
            },
        )
    })
}

/// By its lifting holes as drilled a pull would have to gain more than the strap can draw.
fn long_pulls(work: &Work, stage: &WorkStage) -> Option<Finding> {
    let stroke_m = stage.rises?.stroke_m;
    let longest_m = stage.gains_m.iter().copied().fold(0.0, f64::max);
    let at = stage.gains_m.iter().position(|gain_m| *gain_m >= longest_m)?;
    // From the upper end: the hole of that pull, and half of it on.
    let before_m: f64 = stage.gains_m.iter().take(at).sum();
    let from_m = Work::at(&work.carries_m, stage.tube as usize) + before_m + 0.5 * longest_m;
    (longest_m > stroke_m + 1e-6).then(|| Finding {
        measured: Some(length(longest_m)),
        limit: Limit::at_most(length(stroke_m)),
        ..about(
            Severity::Stop,
            WorkshopRule::PullTooLong { tube: stage.name.clone() },
            WorkshopRemedy::OneMoreLiftingHole { from_end_m: from_m },
        )
    })
}

/// Holes of one tube keep their distance from each other, and none but the pair through both tubes may meet the tail of the tube
/// inside.
fn pitches(work: &Work, tube: &DrilledTube) -> Vec<Finding> {
    let index = tube.tube as usize;
    let widest_mm = [index, index + 1]
        .into_iter()
        .filter_map(|i| work.hole_mm.get(i).copied().flatten())
        .fold(0.0, f64::max);
    let least_m = LEAST_PITCH * widest_mm / 1000.0;
    let near = tube.holes.windows(2).filter_map(|pair| match pair {
        [a, b] if b.from_upper_end_m - a.from_upper_end_m < least_m => Some((a, b)),
        _ => None,
    });
    let mut found: Vec<Finding> = near
        .map(|(a, b)| Finding {
            measured: Some(length(b.from_upper_end_m - a.from_upper_end_m)),
            limit: Limit::at_least(length(least_m)),
            source: SourceKey::En1993_1_8,
            ..about(
                Severity::Stop,
                WorkshopRule::HolesTooClose { tube: tube.name.clone() },
                WorkshopRemedy::MoveTheHole { least_m },
            )
        })
        .collect();
    if let (true, Some(inner)) = (work.slides(index + 1), work.tubes.get(index + 1)) {
        let tail_m = work.inside_m(index + 1) + least_m;
        let within = |hole: &&super::CrossHole| {
            hole.purpose == super::HolePurpose::Lifts && hole.from_upper_end_m < tail_m
        };
        found.extend(tube.holes.iter().filter(within).map(|hole| Finding {
            measured: Some(length(hole.from_upper_end_m)),
            limit: Limit::at_least(length(tail_m)),
            ..about(
                Severity::Stop,
                WorkshopRule::LiftMeetsTail { tube: tube.name.clone(), inner: inner.name.to_owned() },
                WorkshopRemedy::LongerPull { by_m: tail_m - hole.from_upper_end_m },
            )
        }));
    }
    found
}
