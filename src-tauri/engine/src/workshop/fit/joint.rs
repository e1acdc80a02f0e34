//! How a tube stands in the one below: play, class, overlap, what it leans by.

use super::bushing::{self, TubesBetween};
use super::{
    Bushings, FitClass, FitJoint, LeastOverlap, OverlapBecause, Play, SizeBy, TubeDiameters, checks, pairs,
};
use crate::finding::workshop::{WorkshopRemedy, WorkshopRule};
use crate::finding::{Finding, Limit, Quantity, Severity, Subject};
use crate::job::{Job, Tube, TubeJoint};
use crate::numerics::real::atan_deg;
use crate::quantity::UnitSystem;
use crate::quantity::estimate::COVERAGE_95;
use crate::round_figures::{rule, shop};
use crate::tube::{DiameterRange, LEAST_OVERLAP_DIAMETERS, MastTube, source};
use crate::workshop::stages::holes::edge_mm;

/// Two readings at right angles may differ by this share of the diameter. Common practice.
pub(super) const OVAL_SHARE: f64 = 0.01;

/// The mast's top above its foot.
pub(super) fn top_m(tubes: &[MastTube]) -> f64 {
    tubes.iter().map(|tube| tube.length_m - tube.overlap_m).sum()
}

/// The play between two tubes; none where a diameter is not known.
pub fn play(inner: &TubeDiameters, outer: &TubeDiameters) -> Option<Play> {
    let (outside, bore) = (inner.outside?, outer.bore?);
    let worst = DiameterRange {
        least_mm: bore.least_mm - outside.largest_mm,
        largest_mm: bore.largest_mm - outside.least_mm,
    };
    // Two independent diameters, each as likely anywhere between its limits: variances add (GUM 5.1.2).
    let sigma_mm = (bore.sigma_mm() * bore.sigma_mm() + outside.sigma_mm() * outside.sigma_mm()).sqrt();
    let middle_mm = bore.middle_mm() - outside.middle_mm();
    let half_mm = (COVERAGE_95 * sigma_mm).min(0.5 * (worst.largest_mm - worst.least_mm));
    Some(Play { worst, likely: DiameterRange::about(middle_mm, half_mm) })
}

/// The class of a fit by hand: by its worst play where that is known, else by the nominal one.
pub fn class(nominal_mm: f64, worst: Option<DiameterRange>, system: UnitSystem) -> FitClass {
    let least_mm = worst.map_or(nominal_mm, |span| span.least_mm);
    let largest_mm = worst.map_or(nominal_mm, |span| span.largest_mm);
    if largest_mm < 0.0 {
        FitClass::DoesNotEnter
    } else if least_mm < 0.0 {
        FitClass::MayNotEnter
    } else if largest_mm > shop::SLIDING_PLAY.of(system) {
        FitClass::Loose
    } else if least_mm < 2.0 * rule::TIGHT_GAP.of(system) {
        FitClass::Tight
    } else {
        FitClass::Sliding
    }
}

/// The joint of a tube with the one below; none where it is screwed on.
pub(super) fn between(
    job: &Job,
    tubes: &[MastTube],
    all: &[TubeDiameters],
    index: usize,
    top_m: f64,
    findings: &mut Vec<Finding>,
) -> Option<FitJoint> {
    let below = index.checked_sub(1)?;
    let (tube, under) = (tubes.get(index)?, tubes.get(below)?);
    let part = job.rig.tubes.get(index)?;
    if part.joint != TubeJoint::Telescoped {
        return None;
    }
    let (inner, outer) = (*all.get(index)?, *all.get(below)?);
    let system = job.units.system;
    let play = play(&inner, &outer);
    let nominal_mm = outer.bore_mm - inner.outside_mm;
    let class = class(nominal_mm, play.map(|play| play.worst), system);
    let bushings = bushing::between(job, index, &TubesBetween { inner, outer, class }, system);
    let least_overlap = least_overlap(part, inner.outside_mm, &bushings, system);
    let bearing = bearing(tube.overlap_m, &bushings, play);
    // Centred it moves half the play of the upper bearing; beyond it leans with half of both over their distance.
    let mouth_m = top_of(tubes, below);
    let lean = bearing.play.map(|[upper_mm, lower_mm]| (upper_mm + lower_mm) / 2000.0 / bearing.length_m);
    let wander =
        bearing.play.zip(lean).map(|([upper_mm, _], lean)| upper_mm / 2000.0 + (top_m - mouth_m) * lean);
    let joint = FitJoint {
        tube: index as u32,
        inner: tube.name.to_owned(),
        outer: under.name.to_owned(),
        inner_sizes: inner,
        outer_sizes: outer,
        nominal_play_mm: nominal_mm,
        play,
        class,
        overlap_m: tube.overlap_m,
        least_overlap,
        bearing_m: bearing.length_m,
        lean_deg: lean.map(atan_deg),
        top_wander_m: wander,
        checks: checks::of(&inner, &outer, play, tube.length_m),
        goes_in: pairs::go_in(&outer, system),
        bushings,
    };
    findings.extend(of_joint(job, &joint, part));
    Some(joint)
}

/// Where the upper end of a tube stands, raised.
fn top_of(tubes: &[MastTube], index: usize) -> f64 {
    top_m(tubes.get(..=index).unwrap_or(tubes))
}

/// What a tube bears on.
struct Bearing {
    length_m: f64,
    /// The largest play at its upper and at its lower bearing.
    play: Option<[f64; 2]>,
}

fn bearing(overlap_m: f64, bushings: &Bushings, play: Option<Play>) -> Bearing {
    match bushings {
        Bushings::Turned { upper, lower } => Bearing {
            length_m: (overlap_m - 0.5 * (upper.length_mm + lower.length_mm) / 1000.0).max(1e-3),
            play: Some([upper.play.largest_mm.max(0.0), lower.play.largest_mm.max(0.0)]),
        },
        _ => Bearing {
            length_m: overlap_m.max(1e-3),
            play: play.map(|play| [play.worst.largest_mm.max(0.0); 2]),
        },
    }
}

fn least_overlap(part: &Tube, outside_mm: f64, bushings: &Bushings, system: UnitSystem) -> LeastOverlap {
    let diameters_m = LEAST_OVERLAP_DIAMETERS * outside_mm / 1000.0;
    let by_bushings_m = match bushings {
        Bushings::Turned { lower, .. } => {
            // From the mouth down: the holes of the pins, an edge's distance, the lower bushing.
            let edge_mm = edge_mm(part.pin_hole_mm.unwrap_or(0.0));
            shop::STANDS_OUT.of(system) + (edge_mm + lower.length_mm) / 1000.0
        }
        _ => 0.0,
    };
    if by_bushings_m > diameters_m {
        LeastOverlap { length_m: by_bushings_m, because: OverlapBecause::BushingsAndPin }
    } else {
        LeastOverlap { length_m: diameters_m, because: OverlapBecause::TwoDiameters }
    }
}

fn of_joint(job: &Job, joint: &FitJoint, part: &Tube) -> Vec<Finding> {
    let mut found = Vec::new();
    let system = job.units.system;
    let about = |severity, rule: WorkshopRule, remedy: WorkshopRemedy| {
        Finding::rule_of_thumb(severity, rule, Subject::Mast, remedy)
    };
    let (inner, outer) = (joint.inner.clone(), joint.outer.clone());
    if joint.class == FitClass::DoesNotEnter {
        let outside_mm = joint.inner_sizes.outside.map_or(joint.inner_sizes.outside_mm, |span| span.least_mm);
        let bore_mm = joint.outer_sizes.bore.map_or(joint.outer_sizes.bore_mm, |span| span.largest_mm);
        let nearest = pairs::thickest(&joint.goes_in)
            .map(|it| format!("{}, {}", source(it.table).source().citation, it.size));
        found.push(Finding {
            measured: Some(small(outside_mm)),
            limit: Limit::at_most(small(bore_mm)),
            ..about(
                Severity::Stop,
                WorkshopRule::DoesNotEnter { inner: inner.clone(), outer },
                WorkshopRemedy::TakeInstead { nearest },
            )
        });
        return found;
    }
    let missing = [
        (joint.outer_sizes.bore_by == SizeBy::ListAlone).then(|| (joint.outer.clone(), true)),
        (joint.inner_sizes.outside_by == SizeBy::ListAlone).then(|| (joint.inner.clone(), false)),
    ];
    for (tube, bore) in missing.into_iter().flatten() {
        found.push(about(
            Severity::Unchecked,
            WorkshopRule::DiameterNotKnown { tube, bore },
            WorkshopRemedy::MeasureIt,
        ));
    }
    if let (FitClass::MayNotEnter, Some(play)) = (joint.class, joint.play) {
        found.push(Finding {
            measured: Some(small(play.worst.least_mm)),
            limit: Limit::at_least(small(0.0)),
            ..about(
                Severity::Caution,
                WorkshopRule::MayNotEnter { inner: inner.clone(), outer: joint.outer.clone() },
                WorkshopRemedy::MeasureIt,
            )
        });
    }
    if joint.overlap_m < joint.least_overlap.length_m {
        let by_bushings = joint.least_overlap.because == OverlapBecause::BushingsAndPin;
        let more_m = joint.least_overlap.length_m;
        found.push(Finding {
            measured: Some(Quantity::LengthM { value: joint.overlap_m }),
            limit: Limit::at_least(Quantity::LengthM { value: more_m }),
            ..about(
                Severity::Stop,
                WorkshopRule::OverlapBelowLeast { inner: inner.clone(), by_bushings },
                WorkshopRemedy::LeaveMoreInside { least_m: more_m },
            )
        });
    }
    // The bottom tube has no joint of its own.
    let bottom =
        job.rig.tubes.first().filter(|_| joint.tube == 1).map(|tube| (&tube.calliper, joint.outer.clone()));
    for (calliper, tube) in [(&part.calliper, joint.inner.clone())].into_iter().chain(bottom) {
        for readings in [calliper.outside(), calliper.bore()] {
            let [Some(one), Some(other)] = readings else { continue };
            let most_mm = OVAL_SHARE * joint.inner_sizes.outside_mm;
            if (one - other).abs() > most_mm {
                found.push(Finding {
                    measured: Some(small((one - other).abs())),
                    limit: Limit::at_most(small(most_mm)),
                    ..about(
                        Severity::Caution,
                        WorkshopRule::Oval { tube: tube.clone() },
                        WorkshopRemedy::TakeARounderTube,
                    )
                });
            }
        }
    }
    if let Bushings::Turned { upper, lower } = &joint.bushings {
        for bushing in [upper, lower].into_iter().filter(|it| it.play.least_mm < 0.0) {
            found.push(Finding {
                measured: Some(small(bushing.play.least_mm)),
                limit: Limit::at_least(small(0.0)),
                ..about(
                    Severity::Stop,
                    WorkshopRule::BushingBinds { inner: inner.clone(), upper: bushing.part == upper.part },
                    WorkshopRemedy::TurnItFurther {
                        by_mm: shop::TURNED_PLAY.of(system) - bushing.play.least_mm,
                    },
                )
            });
        }
    }
    found
}

pub(crate) fn small(value_mm: f64) -> Quantity {
    Quantity::LengthM { value: value_mm / 1000.0 }
}
