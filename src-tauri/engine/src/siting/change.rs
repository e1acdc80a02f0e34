//! Changes of what is built, or of what is wished, that may open a yard in which nothing fits.

use serde::{Deserialize, Serialize};

use crate::job::{AnchorLayout, GuyLevel, Job, Obstacle, Rig, Shape, Tube, TubeJoint};
use crate::numerics::real::tan_deg;
use crate::quantity::UnitSystem;

use super::poses::GuyMove;
use super::wishes::SitingWishes;

/// A change, by how much.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(tag = "kind", rename_all = "snake_case")]
pub enum SitingChange {
    /// One guy of each level has its anchor nearer to the mast, in plan; the others stay.
    OneGuyNearer {
        by_m: f64,
    },
    /// One guy of each level has its anchor farther out.
    OneGuyFarther {
        by_m: f64,
    },
    /// Every anchor nearer, unless all guys keep one angle.
    GuysNearer {
        by_m: f64,
    },
    GuysFarther {
        by_m: f64,
    },
    /// Every guy steeper, where all keep one angle.
    GuysSteeper {
        by_deg: f64,
    },
    GuysFlatter {
        by_deg: f64,
    },
    /// The top tube raised less, with what is made fast to it.
    MastLower {
        by_m: f64,
    },
    /// So many guys a level.
    GuyCount {
        count: u8,
    },
    /// One guy of each level made fast to a thing of the yard that may hold one: its number in the job's list.
    GuyToThing {
        thing: u32,
    },
    /// The wish given up that the falling mast reaches nothing.
    FallReaches,
}

/// One way of changing, from a little to as much as is tried.
#[derive(Debug, Clone, Copy)]
pub(super) struct Scale {
    of: fn(f64) -> SitingChange,
    pub step: f64,
    pub steps: u32,
}

impl Scale {
    /// After so many steps.
    pub fn at(&self, steps: u32) -> SitingChange {
        (self.of)(self.step * f64::from(steps))
    }
}

/// The finest change of a length that anybody would make: a tenth of a metre, four inches (common practice).
fn step_m(system: UnitSystem) -> f64 {
    match system {
        UnitSystem::Metric => 0.1,
        UnitSystem::Imperial => 4.0 * 0.0254,
    }
}
/// Anchors are moved by no more than this part of how far out they are: with more it is another mast (common practice).
const MOST_OF_RADIUS: f64 = 0.4;
/// A mast is let down by no more than this part of its height (common practice).
const MOST_OF_HEIGHT: f64 = 0.4;
const STEP_DEG: f64 = 1.0;
const MOST_DEG: f64 = 20.0;
/// Anchors come no nearer than the job allows (`anchors.radius_m` of its schema).
const NEAREST_M: f64 = 0.3;

/// Every way of changing that this job has, with its yard's wish; the counts of guys beside.
pub(super) fn scales(job: &Job, raised_m: f64) -> Vec<Scale> {
    let rig = &job.rig;
    let step = step_m(job.units.system);
    let mut scales = Vec::new();
    let mut add = |of: fn(f64) -> SitingChange, step: f64, most: f64| {
        let steps = (most / step + 1e-9).floor();
        if steps >= 1.0 {
            scales.push(Scale { of, step, steps: steps as u32 });
        }
    };
    // The level that reaches least far; none where an anchor stands where it stands.
    let reaches: Option<Vec<f64>> = rig.guy_levels.iter().map(reach_m).collect();
    if let Some(reach_m) = reaches.and_then(|reaches| reaches.into_iter().reduce(f64::min)) {
        let nearer_m = (MOST_OF_RADIUS * reach_m).min(reach_m - NEAREST_M);
        let farther_m = MOST_OF_RADIUS * reach_m;
        if turn_together(rig) {
            add(|by_m| SitingChange::OneGuyNearer { by_m }, step, nearer_m);
            add(|by_m| SitingChange::OneGuyFarther { by_m }, step, farther_m);
        }
        // Guys that all keep one angle are told by their angle.
        if !rig.guy_levels.iter().all(by_angle) {
            add(|by_m| SitingChange::GuysNearer { by_m }, step, nearer_m);
            add(|by_m| SitingChange::GuysFarther { by_m }, step, farther_m);
        }
    }
    if rig.guy_levels.iter().all(by_angle) {
        add(|by_deg| SitingChange::GuysSteeper { by_deg }, STEP_DEG, MOST_DEG);
        add(|by_deg| SitingChange::GuysFlatter { by_deg }, STEP_DEG, MOST_DEG);
    }
    add(|by_m| SitingChange::MastLower { by_m }, step, MOST_OF_HEIGHT * raised_m);
    scales
}

/// What has no more and no less.
pub(super) fn switches(job: &Job, wishes: &SitingWishes) -> Vec<SitingChange> {
    let counts = [3, 4].map(|count| SitingChange::GuyCount { count });
    let fall = wishes.clear_of_fall.then_some(SitingChange::FallReaches);
    let differs = |change: &SitingChange| change.applied_to(&job.rig).is_some_and(|rig| rig != job.rig);
    counts.into_iter().filter(differs).chain(to_things(job)).chain(fall).collect()
}

/// So many things that may hold a guy are tried: each is a search of its own.
const MOST_THINGS: usize = 4;

/// A guy made fast to a thing, for each thing of the yard of which the job says that it may hold one: where every level has as
/// many guys, stands by a rule, and has none on a thing yet.
fn to_things(job: &Job) -> impl Iterator<Item = SitingChange> + '_ {
    let none_yet = |level: &GuyLevel| level.to_thing.is_none() && reach_m(level).is_some();
    let may = turn_together(&job.rig) && job.rig.guy_levels.iter().all(none_yet);
    let things = (0..).zip(&job.yard.obstacles).filter(move |(_, thing)| may && may_hold_a_guy(thing));
    things.map(|(thing, _)| SitingChange::GuyToThing { thing }).take(MOST_THINGS)
}

fn may_hold_a_guy(thing: &Obstacle) -> bool {
    thing.guy_fixing.is_some() && !matches!(thing.shape, Shape::Path { .. } | Shape::KeepOff { .. })
}

/// Patterns of guys that are tried beside the job's own, the least change first: one guy moved by half as much as is tried at
/// the most, and by all of it; then another number of guys.
pub(super) fn patterns(job: &Job) -> Vec<SitingChange> {
    let one_guy = |scale: &Scale| {
        matches!(scale.at(1), SitingChange::OneGuyNearer { .. } | SitingChange::OneGuyFarther { .. })
    };
    let scales: Vec<Scale> = scales(job, 0.0).into_iter().filter(one_guy).collect();
    let half = scales.iter().map(|scale| scale.at(scale.steps.div_ceil(2)));
    let most = scales.iter().filter(|scale| scale.steps > 1).map(|scale| scale.at(scale.steps));
    let counts = switches(job, &SitingWishes::default());
    half.chain(most).chain(counts).collect()
}

impl SitingChange {
    /// The parts with the change made; none where they don't allow it. What is made for each place on its own is not in them
    /// ([`Self::guy_move`]).
    pub(super) fn applied_to(self, rig: &Rig) -> Option<Rig> {
        let mut rig = rig.clone();
        let done = match self {
            _ if self.guy_move(&rig).is_some() => true,
            Self::OneGuyNearer { .. } | Self::OneGuyFarther { .. } => true,
            Self::GuyToThing { .. } | Self::FallReaches => true,
            Self::GuysNearer { by_m } => rig.guy_levels.iter_mut().all(|level| move_out(level, -by_m)),
            Self::GuysFarther { by_m } => rig.guy_levels.iter_mut().all(|level| move_out(level, by_m)),
            Self::GuysSteeper { by_deg } => rig.guy_levels.iter_mut().all(|level| tip(level, by_deg)),
            Self::GuysFlatter { by_deg } => rig.guy_levels.iter_mut().all(|level| tip(level, -by_deg)),
            Self::MastLower { by_m } => let_down(&mut rig, by_m),
            Self::GuyCount { count } => rig.guy_levels.iter_mut().all(|level| counted(level, count)),
        };
        done.then_some(rig)
    }

    pub(super) fn wished(self, wishes: &SitingWishes) -> SitingWishes {
        let clear_of_fall = wishes.clear_of_fall && self != Self::FallReaches;
        SitingWishes { clear_of_fall, best: 1, ..wishes.clone() }
    }

    /// What is moved in each place on its own: one guy, or all of them where a level is pegged by a distance and another by
    /// an angle.
    pub(super) fn guy_move(self, rig: &Rig) -> Option<GuyMove> {
        let mixed = !rig.guy_levels.iter().all(by_distance);
        match self {
            Self::OneGuyNearer { by_m } => Some(GuyMove::One { out_m: -by_m }),
            Self::OneGuyFarther { by_m } => Some(GuyMove::One { out_m: by_m }),
            Self::GuyToThing { thing } => Some(GuyMove::ToThing { thing }),
            Self::GuysNearer { by_m } if mixed => Some(GuyMove::All { out_m: -by_m }),
            Self::GuysFarther { by_m } if mixed => Some(GuyMove::All { out_m: by_m }),
            _ => None,
        }
    }
}

/// About how far out its anchors are, in plan; none where they stand where they stand.
fn reach_m(level: &GuyLevel) -> Option<f64> {
    match level.anchor_layout {
        AnchorLayout::EqualRadius { radius_m } => Some(radius_m),
        AnchorLayout::EqualTape { tape_m } => Some(tape_m),
        AnchorLayout::EqualAngle { angle_deg } => Some(level.attach_height_m / tan_deg(angle_deg)),
        AnchorLayout::Free { .. } => None,
    }
}

fn by_distance(level: &GuyLevel) -> bool {
    matches!(level.anchor_layout, AnchorLayout::EqualRadius { .. } | AnchorLayout::EqualTape { .. })
}

fn by_angle(level: &GuyLevel) -> bool {
    matches!(level.anchor_layout, AnchorLayout::EqualAngle { .. })
}

/// Whether the first guys of all levels stand one above the other, and so the second, and so on.
fn turn_together(rig: &Rig) -> bool {
    rig.guy_levels.windows(2).all(|levels| levels[0].count == levels[1].count)
}

fn move_out(level: &mut GuyLevel, by_m: f64) -> bool {
    match &mut level.anchor_layout {
        AnchorLayout::EqualRadius { radius_m: distance_m }
        | AnchorLayout::EqualTape { tape_m: distance_m } => {
            *distance_m += by_m;
            *distance_m >= NEAREST_M
        }
        AnchorLayout::EqualAngle { .. } | AnchorLayout::Free { .. } => false,
    }
}

/// The angles that the job allows (`anchors.angle_deg` of its schema).
fn tip(level: &mut GuyLevel, by_deg: f64) -> bool {
    let AnchorLayout::EqualAngle { angle_deg } = &mut level.anchor_layout else { return false };
    *angle_deg += by_deg;
    (15.0..=75.0).contains(angle_deg)
}

fn counted(level: &mut GuyLevel, count: u8) -> bool {
    level.count = count;
    !matches!(level.anchor_layout, AnchorLayout::Free { .. })
}

/// The top tube stands deeper in the one below; collars and the lights' top that are on it come down with it.
fn let_down(rig: &mut Rig, by_m: f64) -> bool {
    let [.., below, top] = rig.tubes.as_mut_slice() else { return false };
    top.overlap_m += by_m;
    let fits = top.joint == TubeJoint::Telescoped && top.overlap_m <= top.length_m.min(below.length_m);
    let above_m = raised_to_top_of(&rig.tubes[..rig.tubes.len() - 1]);
    for level in rig.guy_levels.iter_mut().filter(|level| level.attach_height_m > above_m) {
        level.attach_height_m = (level.attach_height_m - by_m).max(above_m);
    }
    if let Some(strands) = rig.strands.as_mut().filter(|strands| strands.top_height_m > above_m) {
        strands.top_height_m = (strands.top_height_m - by_m).max(above_m);
    }
    fits
}

fn raised_to_top_of(tubes: &[Tube]) -> f64 {
    tubes.iter().map(|tube| tube.length_m - tube.overlap_m).sum()
}
