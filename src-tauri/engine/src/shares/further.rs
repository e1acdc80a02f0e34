//! One more reading: what might be read, and how much surer the numbers would be.

use super::results::*;
use crate::finding::Subject;
use crate::ground::profile::taut_tape_m;
use crate::job::{Job, Measurement, PointFix, SlopeReading, SpotHeight, TapeHeld};
use crate::numerics::real::{atan, hypot};
use crate::plan::{Computed, Plan, compute};
use crate::quantity::bearing::{of_vector, unit, wrap_360};
use crate::survey::PlacedMark;

/// What helps by less than this part of a ± is not worth the walk: common practice.
const LEAST_GAIN: f64 = 0.05;
/// Tapes between so many marks are looked at: the first of the job.
const MARKS: usize = 8;
/// The id of a reading that nobody took.
const NOBODYS: &str = "one-more";

/// Looks for what would help, and writes it to the numbers.
pub(super) fn helping(job: &Job, computed: &Computed, found: &mut ReadingShares) {
    let plan = &computed.plan;
    let tried = tried(job, computed, found);
    let mut used: Vec<FurtherReading> = Vec::new();
    let mut place = |reading: &FurtherReading| {
        let at = used.iter().position(|it| it == reading).unwrap_or_else(|| {
            used.push(reading.clone());
            used.len() - 1
        });
        at as u32
    };
    let before: Vec<f64> = found.numbers.iter().map(|it| before_95_m(it, plan)).collect();
    for (number, shared) in found.numbers.iter_mut().enumerate() {
        let before_95_m = before[number];
        let best = tried.iter().min_by(|a, b| a.after_95_m[number].total_cmp(&b.after_95_m[number]));
        shared.further =
            best.filter(|it| it.after_95_m[number] < (1.0 - LEAST_GAIN) * before_95_m).map(|it| FurtherFor {
                reading: place(&it.reading),
                before_95_m,
                after_95_m: it.after_95_m[number],
            });
    }
    let planned: Vec<usize> = (0..before.len())
        .filter(|&at| found.numbers[at].of.plan_95_m(plan).is_some_and(|it| it > 0.0))
        .collect();
    let gain = |it: &Tried| {
        let gains = planned.iter().map(|&at| 1.0 - it.after_95_m[at] / before[at]);
        gains.sum::<f64>() / planned.len().max(1) as f64
    };
    let best = tried.iter().max_by(|a, b| gain(a).total_cmp(&gain(b)));
    found.best = best.filter(|it| gain(it) >= LEAST_GAIN).map(|it| BestFurther {
        reading: place(&it.reading),
        gains: planned
            .iter()
            .map(|&at| FurtherGain {
                number: at as u32,
                before_95_m: before[at],
                after_95_m: it.after_95_m[at],
            })
            .collect(),
    });
    found.readings = used;
}

/// The plan's own ±; where it gives none, what all errors make together.
fn before_95_m(number: &NumberShares, plan: &Plan) -> f64 {
    number.of.plan_95_m(plan).unwrap_or(number.half_width_95_m)
}

/// A reading that was put in, and the ± of every number with it.
struct Tried {
    reading: FurtherReading,
    after_95_m: Vec<f64>,
}

fn tried(job: &Job, computed: &Computed, found: &ReadingShares) -> Vec<Tried> {
    let plan = &computed.plan;
    let put_in = further(job, computed).into_iter().filter_map(|(reading, job)| {
        let with = compute(&job).ok()?.plan;
        let after = |number: &NumberShares| {
            let before_95_m = before_95_m(number, plan);
            // What is no longer known with it is no surer by it.
            number.of.plan_95_m(&with).filter(|_| number.of.plan_95_m(plan).is_some()).unwrap_or(before_95_m)
        };
        Some(Tried { reading, after_95_m: found.numbers.iter().map(after).collect() })
    });
    let mut again: Vec<&ErrorOf> = Vec::new();
    for share in found.numbers.iter().flat_map(|number| &number.shares) {
        if share.of.is_read() && !is_put_in(&share.of) && !again.contains(&&share.of) {
            again.push(&share.of);
        }
    }
    let averaged = again.into_iter().map(|of| {
        let after = |number: &NumberShares| {
            let own = number.shares.iter().find(|it| it.of == *of).map_or(0.0, |it| it.share);
            // The mean of two readings has half the variance of one: GUM 4.2.3, eq. 5.
            let part = 0.5 * own * number.half_width_95_m * number.half_width_95_m;
            let before_95_m = before_95_m(number, plan);
            (before_95_m * before_95_m - part).max(0.0).sqrt()
        };
        let after_95_m = found.numbers.iter().map(after).collect();
        Tried { reading: FurtherReading::Again { of: of.clone() }, after_95_m }
    });
    put_in.chain(averaged).collect()
}

/// Those that can stand in the job twice.
fn is_put_in(of: &ErrorOf) -> bool {
    matches!(of, ErrorOf::Slope { .. } | ErrorOf::SpotHeight { .. } | ErrorOf::Measurement { .. })
}

/// Every reading that might be taken, in a job that has it with the value that is expected there.
fn further(job: &Job, computed: &Computed) -> Vec<(FurtherReading, Job)> {
    let mut all = slopes(job, computed);
    all.extend(heights(job, computed));
    all.extend(tapes(job, computed));
    all.extend(once_more(job, computed));
    all
}

/// Along the front leg and square to it.
fn slopes(job: &Job, computed: &Computed) -> Vec<(FurtherReading, Job)> {
    let front_deg = computed.layout.placed_work.front_bearing_deg;
    let along = |bearing_deg: f64| {
        let bearing_deg = wrap_360(bearing_deg);
        let reading_deg = wrap_360(bearing_deg - computed.plan.north.add_to_reading_deg);
        let mut with = job.clone();
        with.yard.slopes.push(SlopeReading {
            id: NOBODYS.to_owned(),
            bearing_deg: reading_deg,
            slope_deg: slope_deg(computed, bearing_deg),
            sigma_deg: None,
            struck: false,
        });
        (FurtherReading::Slope { bearing_deg, reading_deg }, with)
    };
    [front_deg, front_deg + 90.0].map(along).to_vec()
}

/// How the plane rises along a true bearing.
fn slope_deg(computed: &Computed, bearing_deg: f64) -> f64 {
    let ([east, north], gradient) = (unit(bearing_deg), computed.ground.plane.gradient);
    atan(gradient[0] * east + gradient[1] * north).to_degrees()
}

/// Under the tips of the legs and at the anchors.
fn heights(job: &Job, computed: &Computed) -> Vec<(FurtherReading, Job)> {
    let plan = &computed.plan;
    let legs = plan.base.legs.iter().map(|leg| (Subject::Leg { id: leg.id.clone() }, leg.tip));
    let anchors = plan.guys.iter().filter(|guy| guy.made_fast.is_none());
    let anchors = anchors.map(|guy| (Subject::Guy { id: guy.id.clone() }, [guy.east_m, guy.north_m]));
    let of = |(at, [east_m, north_m]): (Subject, [f64; 2])| {
        let mut with = job.clone();
        with.yard.spot_heights.push(SpotHeight {
            id: NOBODYS.to_owned(),
            at: taped(job, computed, [east_m, north_m])?,
            height_m: computed.ground.height([east_m, north_m]),
            sigma_m: None,
            struck: false,
        });
        Some((FurtherReading::Height { at, east_m, north_m }, with))
    };
    legs.chain(anchors).filter_map(of).collect()
}

/// A place by bearing and tape from the nearest mark, as somebody with a phone would find it.
fn taped(job: &Job, computed: &Computed, at: [f64; 2]) -> Option<PointFix> {
    let away = |mark: &PlacedMark| hypot(at[0] - mark.at[0], at[1] - mark.at[1]);
    let mark = computed.yard.marks.iter().min_by(|a, b| away(a).total_cmp(&away(b)))?;
    Some(PointFix::BearingTape {
        from: mark.id.clone(),
        bearing_deg: reading_deg(computed, plan_of(mark), at),
        tape_m: tape_m(job, computed, plan_of(mark), at),
    })
}

fn plan_of(mark: &PlacedMark) -> [f64; 2] {
    [mark.at[0], mark.at[1]]
}

/// What the yard's bearings show from one place to another.
fn reading_deg(computed: &Computed, from: [f64; 2], to: [f64; 2]) -> f64 {
    wrap_360(of_vector(to[0] - from[0], to[1] - from[1]) - computed.plan.north.add_to_reading_deg)
}

/// What a tape shows from one place to another, held as the yard's tapes are.
fn tape_m(job: &Job, computed: &Computed, from: [f64; 2], to: [f64; 2]) -> f64 {
    match job.yard.tape_held {
        TapeHeld::AlongGround => taut_tape_m(&computed.ground, from, to),
        TapeHeld::Level => hypot(to[0] - from[0], to[1] - from[1]),
    }
}

/// Between marks that no tape joins yet.
fn tapes(job: &Job, computed: &Computed) -> Vec<(FurtherReading, Job)> {
    let marks = &computed.yard.marks[..computed.yard.marks.len().min(MARKS)];
    let mut all = Vec::new();
    for (at, a) in marks.iter().enumerate() {
        for b in &marks[at + 1..] {
            if is_taped(job, &a.id, &b.id) {
                continue;
            }
            let mut with = job.clone();
            with.yard.measurements.push(Measurement::Tape {
                id: NOBODYS.to_owned(),
                from: a.id.clone(),
                to: b.id.clone(),
                tape_m: tape_m(job, computed, plan_of(a), plan_of(b)),
                struck: false,
            });
            all.push((FurtherReading::Tape { from: a.id.clone(), to: b.id.clone() }, with));
        }
    }
    all
}

fn is_taped(job: &Job, a: &str, b: &str) -> bool {
    let measured = job.yard.measurements.iter().any(|it| match it {
        Measurement::Tape { from, to, struck, .. } => {
            !struck && ((from == a && to == b) || (from == b && to == a))
        }
        Measurement::Bearing { .. } => false,
    });
    let starts = |mark: &str, from: &str| {
        let of = job.yard.marks.iter().find(|it| it.id == mark);
        of.is_some_and(|mark| mark.at.starts().iter().any(|(_, id)| *id == from))
    };
    measured || starts(a, b) || starts(b, a)
}

/// Slopes, further tapes and bearings that are there, read a second time.
fn once_more(job: &Job, computed: &Computed) -> Vec<(FurtherReading, Job)> {
    let mut all = Vec::new();
    for (at, slope) in job.yard.slopes.iter().enumerate().filter(|(_, it)| !it.struck) {
        let mut with = job.clone();
        let bearing_deg = wrap_360(slope.bearing_deg + computed.plan.north.add_to_reading_deg);
        let slope_deg = slope_deg(computed, bearing_deg);
        with.yard.slopes.push(SlopeReading { id: NOBODYS.to_owned(), slope_deg, ..slope.clone() });
        let of = ErrorOf::Slope { id: slope.id.clone(), number: at as u32 };
        all.push((FurtherReading::Again { of }, with));
    }
    for (at, measurement) in job.yard.measurements.iter().enumerate() {
        let Some((id, other)) = between_marks_again(job, computed, measurement) else { continue };
        let mut with = job.clone();
        with.yard.measurements.push(other);
        let of = ErrorOf::Measurement { id, number: at as u32 };
        all.push((FurtherReading::Again { of }, with));
    }
    all
}

/// A further measurement's id, and the same between the same marks as the plan expects it; none of one that is struck out.
fn between_marks_again(
    job: &Job,
    computed: &Computed,
    measurement: &Measurement,
) -> Option<(String, Measurement)> {
    let place = |id: &str| computed.yard.marks.iter().find(|mark| mark.id == id).map(plan_of);
    let nobodys = NOBODYS.to_owned();
    match measurement.clone() {
        Measurement::Tape { id, from, to, struck: false, .. } => {
            let tape_m = tape_m(job, computed, place(&from)?, place(&to)?);
            Some((id, Measurement::Tape { id: nobodys, from, to, tape_m, struck: false }))
        }
        Measurement::Bearing { id, from, to, struck: false, .. } => {
            let bearing_deg = reading_deg(computed, place(&from)?, place(&to)?);
            Some((id, Measurement::Bearing { id: nobodys, from, to, bearing_deg, struck: false }))
        }
        Measurement::Tape { .. } | Measurement::Bearing { .. } => None,
    }
}
