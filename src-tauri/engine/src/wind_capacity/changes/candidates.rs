//! The things that can be changed, each as a changed job; and which of them address which part.

use super::step::{ChangeKind, WindStep};
use crate::anchor::picket::Pickets;
use crate::job::{AnchorKind, AnchorLayout, GuyLevel, Job, PointFix, Section, SoilFeel, Tube, TubeJoint};
use crate::numerics::real::{atan_deg, tan_deg};
use crate::plan::{GuyResult, Layout};
use crate::pointer;
use crate::resistance::rope::RopeEnd;
use crate::resistance::timber::Wood;
use crate::round_figures::step;
use crate::wind_capacity::missing::missing_of;
use crate::wind_capacity::soil;
use crate::wind_capacity::types::PartKind;

/// A pull that no guy reaches: the anchor is out of the question.
const ANY_PULL_N: f64 = 200_000.0;

/// A job with one thing changed.
#[derive(Debug, Clone)]
pub struct Change {
    pub step: WindStep,
    /// The field that changes it, as a JSON pointer.
    pub pointer: String,
    pub job: Job,
}

/// The changes that address a part, the likeliest first. A part kind without one would end the list of what to change in
/// nothing: a test looks at each.
pub fn addressing(kind: PartKind) -> &'static [ChangeKind] {
    use ChangeKind as To;
    match kind {
        PartKind::Tube => {
            &[To::TubesStronger, To::TubesLarger, To::SecondLevel, To::LessHigh, To::GuysLooser]
        }
        PartKind::Coupling => &[To::AnchorsFartherOut, To::SecondLevel, To::LessHigh, To::GuysLooser],
        PartKind::Pin | PartKind::Collar => {
            &[To::AnchorsFartherOut, To::LessHigh, To::SecondLevel, To::FourGuys, To::GuysLooser]
        }
        PartKind::PinHole => {
            &[To::PinHoleSmaller, To::TubesStronger, To::TubesLarger, To::SecondLevel, To::GuysLooser]
        }
        PartKind::Thread => &[To::TubesStronger, To::SecondLevel, To::LessHigh, To::GuysLooser],
        PartKind::Rope => {
            &[To::RopeThicker, To::RopeEndsBetter, To::AnchorsFartherOut, To::GuysLooser, To::FourGuys]
        }
        PartKind::Anchor => &[
            To::AnchorsBigger,
            To::AnchorsTimber,
            To::AnchorsProved,
            To::SoilFirmer,
            To::AnchorsFartherOut,
            To::FourGuys,
            To::GuysLooser,
        ],
        PartKind::Timber => &[To::SeatPlate, To::TimberWider, To::WoodHarder, To::GuysLooser],
        PartKind::BaseTimber => &[To::JointPacked, To::TimberWider, To::WoodHarder, To::GuysLooser],
        PartKind::Foot => &[To::FootThicker, To::WoodHarder, To::GuysLooser],
        PartKind::Ground => &[To::BiggerPads, To::SoilFirmer, To::GuysLooser],
        PartKind::BaseSliding => &[
            To::MoreStakes,
            To::LongerStakes,
            To::ThickerStakes,
            To::BiggerPads,
            To::SoilFirmer,
            To::SecondLevel,
        ],
        PartKind::WholeMast => {
            &[To::SecondLevel, To::RopeStiffer, To::GuysTighter, To::FourGuys, To::TubesLarger, To::LessHigh]
        }
        // What is counted on without being shown blocks the limit, so that it never governs one.
        PartKind::Strands | PartKind::BaseTurning => &[],
    }
}

/// Every change that the job allows.
pub fn options(job: &Job, layout: &Layout) -> Vec<Change> {
    let mut list = List { job, options: Vec::new() };
    guys(&mut list, layout);
    tubes(&mut list, layout);
    base(&mut list);
    what_hangs_on_it(&mut list);
    list.options
}

struct List<'a> {
    job: &'a Job,
    options: Vec<Change>,
}

impl List<'_> {
    fn with(&mut self, step: WindStep, pointer: &str, change: &dyn Fn(&mut Job) -> bool) {
        self.leading_to(step, &|_| pointer.to_owned(), change);
    }

    /// A change of guy levels, which leads to the first one that it changes.
    fn with_levels(
        &mut self,
        step: WindStep,
        field: &dyn Fn(&str) -> String,
        change: &dyn Fn(&mut Job) -> bool,
    ) {
        let before = &self.job.rig.guy_levels;
        let to_the_first = |changed: &Job| {
            let mut both = before.iter().zip(&changed.rig.guy_levels);
            let first = both.position(|(before, after)| before != after).unwrap_or(0);
            field(&pointer!(rig.guy_levels[first]))
        };
        self.leading_to(step, &to_the_first, change);
    }

    fn leading_to(
        &mut self,
        step: WindStep,
        pointer: &dyn Fn(&Job) -> String,
        change: &dyn Fn(&mut Job) -> bool,
    ) {
        let mut changed = self.job.clone();
        if change(&mut changed) {
            self.options.push(Change { step, pointer: pointer(&changed), job: changed });
        }
    }
}

fn guys(list: &mut List, layout: &Layout) {
    list.with_levels(
        WindStep::AnchorsFartherOut,
        &|level| pointer!(in level, GuyLevel: anchor_layout),
        &|job| {
            measured_farther_out(job, layout);
            each_level(job, |level| farther_out(level, layout))
        },
    );
    list.with_levels(WindStep::GuysTighter, &|level| pointer!(in level, GuyLevel: tension_n), &|job| {
        each_level(job, |level| tension(level, 1.5))
    });
    list.with_levels(WindStep::GuysLooser, &|level| pointer!(in level, GuyLevel: tension_n), &|job| {
        each_level(job, |level| tension(level, 1.0 / 1.5))
    });
    list.with_levels(
        WindStep::RopeThicker,
        &|level| pointer!(in level, GuyLevel: rope.diameter_mm),
        &|job| each_level(job, thicker),
    );
    list.with_levels(
        WindStep::RopeStiffer,
        &|level| pointer!(in level, GuyLevel: rope.stretch_percent),
        &|job| {
            each_level(job, |level| {
                level.rope.stretch_percent /= 2.0;
                true
            })
        },
    );
    list.with_levels(
        WindStep::RopeEndsBetter,
        &|level| pointer!(in level, GuyLevel: rope.strength.end),
        &|job| {
            each_level(job, |level| {
                let knotted =
                    level.rope.strength.end == RopeEnd::Knot && level.rope.strength.minimum_n.is_some();
                if knotted {
                    level.rope.strength.end = RopeEnd::FigureEightLoop;
                }
                knotted
            })
        },
    );
    list.with_levels(WindStep::FourGuys, &|level| pointer!(in level, GuyLevel: count), &|job| {
        four_guys(job, layout)
    });
    list.with_levels(WindStep::SecondLevel, &|level| level.to_owned(), &|job| second_level(job));
    anchors(list, layout);
}

fn anchors(list: &mut List, layout: &Layout) {
    let shown = missing_of(list.job, layout).is_empty();
    list.with_levels(WindStep::AnchorsProved, &|level| pointer!(in level, GuyLevel: proof_pull_n), &|job| {
        shown
            && each_level(job, |level| {
                level.proof_pull_n = Some(ANY_PULL_N);
                true
            })
    });
    list.with_levels(WindStep::AnchorsBigger, &|level| pointer!(in level, GuyLevel: anchor), &|job| {
        each_level(job, anchors_bigger)
    });
    // Sawn timber up to nine times as long as thick, at least 3 ft deep (TM 5-5420-278-10).
    let system = list.job.units.system;
    let [length_m, face_m, depth_m] =
        [step::TIMBER_LENGTH, step::TIMBER_FACE, step::TIMBER_DEPTH].map(|habit| habit.of(system));
    list.with_levels(WindStep::AnchorsTimber, &|level| pointer!(in level, GuyLevel: anchor), &|job| {
        each_level(job, |level| {
            let other = !matches!(level.anchor, AnchorKind::Deadman { .. });
            level.anchor = AnchorKind::Deadman { length_m, face_m, is_log: false, depth_m };
            level.proof_pull_n = None;
            other
        })
    });
    // Nobody chooses the soil: what it would change says whether digging once more is worth the while.
    let is_sand = matches!(list.job.yard.soil, SoilFeel::Sand { .. });
    list.with(
        if is_sand { WindStep::SandDenser } else { WindStep::SoilStiffer },
        pointer!(yard.soil),
        &|job| {
            let firmer = soil::one_class_firmer(job.yard.soil);
            job.yard.soil = firmer.unwrap_or(job.yard.soil);
            firmer.is_some()
        },
    );
}

fn tubes(list: &mut List, layout: &Layout) {
    let system = list.job.units.system;
    let strong_mpa = step::STEEL.of(system);
    let is_weaker = |tube: &Tube| tube.yield_mpa.is_none_or(|mpa| mpa < strong_mpa);
    let weak = list.job.rig.tubes.iter().position(is_weaker).unwrap_or(0);
    list.with(WindStep::TubesStronger, &pointer!(rig.tubes[weak].yield_mpa), &|job| {
        each(&mut job.rig.tubes, |tube| {
            let weaker = is_weaker(tube);
            tube.yield_mpa = Some(tube.yield_mpa.unwrap_or(0.0).max(strong_mpa));
            weaker
        })
    });
    list.with(WindStep::TubesLarger, &pointer!(rig.tubes[0].section), &|job| {
        job.rig.tubes.iter_mut().zip(&layout.mast.stages).for_each(|(tube, stage)| {
            tube.section =
                Section::Measured { outside_mm: 1.2 * stage.outside_mm, wall_mm: 1.2 * stage.wall_mm };
        });
        // A taper thread is known by its size alone.
        job.rig.tubes.iter().all(|tube| tube.joint == TubeJoint::Telescoped)
    });
    let drilled = list.job.rig.tubes.iter().position(|tube| tube.pin_hole_mm.is_some()).unwrap_or(0);
    let hole = pointer!(rig.tubes[drilled].pin_hole_mm);
    list.with(WindStep::PinHoleSmaller, &hole, &|job| {
        each(&mut job.rig.tubes, |tube| {
            tube.pin_hole_mm = tube.pin_hole_mm.map(|hole_mm| 0.75 * hole_mm);
            tube.pin_hole_mm.is_some()
        })
    });
    let less_m = step::LOWER.of(system);
    let top = list.job.rig.tubes.len().saturating_sub(1);
    let telescoped =
        list.job.rig.tubes.last().is_some_and(|tube| tube.joint == TubeJoint::Telescoped && top > 0);
    let (pointer, step) = if telescoped {
        (pointer!(rig.tubes[top].overlap_m), WindStep::TopTubeLower)
    } else {
        (pointer!(rig.tubes[top].length_m), WindStep::MastShorter)
    };
    list.with(step, &pointer, &|job| less_high(job, less_m, telescoped));
}

fn base(list: &mut List) {
    let pad_m = step::BOARD.of(list.job.units.system) / 1000.0;
    let bigger = list.job.rig.base.pad_mm.is_some_and(|side_mm| side_mm >= 1000.0 * pad_m - 1.0);
    let boards = if bigger { WindStep::BoardsWider } else { WindStep::Boards };
    list.with(boards, pointer!(rig.base.pad_mm), &|job| {
        let before = job.rig.base.pad_mm;
        let next = before.filter(|_| bigger).map_or(1000.0 * pad_m, |side_mm| (1.5 * side_mm).min(1000.0));
        job.rig.base.pad_mm = Some(next);
        before.is_none_or(|side_mm| side_mm < next)
    });
    let plate_m = step::PLATE.of(list.job.units.system);
    let has_plate = list.job.rig.base.seat_plate_mm.is_some_and(|side_mm| side_mm >= 1000.0 * plate_m - 1.0);
    let plate = if has_plate { WindStep::SeatPlateWider } else { WindStep::SeatPlate };
    list.with(plate, pointer!(rig.base.seat_plate_mm), &|job| {
        let before = job.rig.base.seat_plate_mm;
        let next =
            before.filter(|_| has_plate).map_or(1000.0 * plate_m, |side_mm| (1.5 * side_mm).min(600.0));
        job.rig.base.seat_plate_mm = Some(next);
        // A plate is as good as it is stiff: 10 mm or more.
        let thick_mm = job.rig.base.seat_plate_thickness_mm.map_or(10.0, |thick_mm| thick_mm.max(10.0));
        job.rig.base.seat_plate_thickness_mm = Some(thick_mm);
        before.is_none_or(|side_mm| side_mm < next)
    });
    list.with(WindStep::TimberWider, pointer!(rig.base.timber_width_mm), &|job| {
        let base = &mut job.rig.base;
        (base.timber_width_mm, base.timber_depth_mm) =
            ((1.5 * base.timber_width_mm).min(500.0), (1.5 * base.timber_depth_mm).min(500.0));
        true
    });
    list.with(WindStep::JointPacked, pointer!(rig.base.joint_pad_mm), &|job| {
        let base = &mut job.rig.base;
        let before = base.joint_pad_mm;
        base.joint_pad_mm = Some(before.unwrap_or(0.0).max(300.0));
        before.is_none()
    });
    list.with(WindStep::FootThicker, pointer!(rig.base.foot_thickness_mm), &|job| {
        let base = &mut job.rig.base;
        (base.foot_thickness_mm, base.foot_width_mm) =
            ((1.5 * base.foot_thickness_mm).min(500.0), (1.5 * base.foot_width_mm).min(500.0));
        true
    });
    list.with(WindStep::WoodHarder, pointer!(rig.base.wood), &|job| {
        let before = std::mem::replace(&mut job.rig.base.wood, Wood::DouglasFirLarch);
        before != Wood::DouglasFirLarch
    });
    list.with(WindStep::MoreStakes, pointer!(rig.stakes.per_leg), &|job| {
        let before = std::mem::replace(&mut job.rig.stakes.per_leg, 2);
        before < 2
    });
    let longer_m = step::STAKE.of(list.job.units.system);
    list.with(WindStep::LongerStakes, pointer!(rig.stakes.length_m), &|job| {
        job.rig.stakes.length_m += longer_m;
        job.rig.stakes.per_leg > 0
    });
    list.with(WindStep::ThickerStakes, pointer!(rig.stakes.diameter_mm), &|job| {
        job.rig.stakes.diameter_mm = (1.5 * job.rig.stakes.diameter_mm).min(60.0);
        job.rig.stakes.per_leg > 0
    });
}

fn what_hangs_on_it(list: &mut List) {
    list.with(WindStep::FewerStrands, pointer!(rig.strands?.count), &|job| {
        job.rig.strands.as_mut().is_some_and(|strands| {
            strands.count = strands.count * 2 / 3;
            strands.count > 0
        })
    });
    list.with(WindStep::StrandsLooser, pointer!(rig.strands?.cord.tension_n), &|job| {
        job.rig.strands.as_mut().is_some_and(|strands| {
            strands.cord.tension_n /= 2.0;
            strands.cord.tension_n >= 1.0
        })
    });
    list.with(WindStep::NoTopper, pointer!(rig.topper), &|job| job.rig.topper.take().is_some());
}

/// Changes every one; whether any was.
fn each<T>(items: &mut [T], mut change: impl FnMut(&mut T) -> bool) -> bool {
    let mut any = false;
    for item in items {
        any |= change(item);
    }
    any
}

/// False where the level's anchors hold by a proof pull, or by no rule.
fn anchors_bigger(level: &mut GuyLevel) -> bool {
    const BIGGER: f64 = 1.25;
    if level.proof_pull_n.is_some() {
        return false;
    }
    match &mut level.anchor {
        AnchorKind::Screw { helix_mm: Some(helix_mm), depth_m: Some(depth_m), torque_nm, .. } => {
            *helix_mm *= BIGGER;
            *depth_m *= BIGGER;
            *torque_nm = torque_nm.map(|moment_nm| 1.5 * moment_nm);
        }
        AnchorKind::Plate { side_m, depth_m } => {
            *side_m *= BIGGER;
            *depth_m *= BIGGER;
        }
        AnchorKind::Deadman { length_m, face_m, depth_m, .. } => {
            *length_m *= BIGGER;
            *face_m *= BIGGER;
            *depth_m *= BIGGER;
        }
        AnchorKind::Pickets { pattern } => {
            let next = match pattern {
                Pickets::Single => Pickets::OneOne,
                Pickets::OneOne => Pickets::OneOneOne,
                Pickets::OneOneOne => Pickets::TwoOne,
                Pickets::TwoOne => Pickets::ThreeTwoOne,
                Pickets::ThreeTwoOne => return false,
            };
            *pattern = next;
        }
        AnchorKind::Ballast { mass_kg } => *mass_kg *= 1.5,
        AnchorKind::Unknown | AnchorKind::Screw { .. } | AnchorKind::Stake { .. } => return false,
    }
    true
}

/// A copy of the only level, half as high, before it: levels go from the ground up.
fn second_level(job: &mut Job) -> bool {
    let [level] = job.rig.guy_levels.as_slice() else { return false };
    let mut lower = level.clone();
    lower.id = format!("{}-lower", level.id);
    lower.name = "Lower guys".into();
    lower.attach_height_m = 0.5 * level.attach_height_m;
    let possible = lower.attach_height_m >= 0.3;
    job.rig.guy_levels.insert(0, lower);
    possible
}

fn each_level(job: &mut Job, change: impl FnMut(&mut GuyLevel) -> bool) -> bool {
    each(&mut job.rig.guy_levels, change)
}

fn tension(level: &mut GuyLevel, by: f64) -> bool {
    level.tension_n *= by;
    true
}

fn thicker(level: &mut GuyLevel) -> bool {
    let (rope, area) = (&mut level.rope, 1.25 * 1.25);
    rope.diameter_mm *= 1.25;
    rope.mass_g_per_m *= area;
    // Stiffness and strength go with the area.
    rope.stretch_at_n *= area;
    rope.strength.minimum_n = rope.strength.minimum_n.map(|strength_n| strength_n * area);
    true
}

/// Anchors measured for three guys are set anew with the fourth.
fn four_guys(job: &mut Job, layout: &Layout) -> bool {
    let three =
        |level: &&mut GuyLevel| level.count == 3 && !matches!(level.anchor_layout, AnchorLayout::Free { .. });
    let mut changed = Vec::new();
    for level in job.rig.guy_levels.iter_mut().filter(three) {
        level.count = 4;
        changed.push(level.id.clone());
    }
    let anew = |id: &str| layout.guys.iter().any(|guy| guy.id == id && changed.contains(&guy.level_id));
    job.as_built.iter_mut().for_each(|built| built.anchors.retain(|anchor| !anew(&anchor.guy)));
    !changed.is_empty()
}

/// How much farther out the anchors are tried.
const FARTHER: f64 = 1.2;

fn farther_out(level: &mut GuyLevel, layout: &Layout) -> bool {
    match &mut level.anchor_layout {
        AnchorLayout::EqualRadius { radius_m } => *radius_m *= FARTHER,
        AnchorLayout::EqualTape { tape_m } => *tape_m *= FARTHER,
        AnchorLayout::EqualAngle { angle_deg } => *angle_deg = atan_deg(tan_deg(*angle_deg) / FARTHER),
        AnchorLayout::Free { anchors } => {
            let placed = layout.guys.iter().filter(|guy| guy.level_id == level.id);
            *anchors = placed.map(|guy| farther_from_mast(guy, layout)).collect();
        }
    }
    true
}

/// Anchors measured in their places go out from there: they stand before every rule.
fn measured_farther_out(job: &mut Job, layout: &Layout) {
    for anchor in job.as_built.iter_mut().flat_map(|built| &mut built.anchors) {
        if let Some(guy) = layout.guys.iter().find(|guy| guy.id == anchor.guy) {
            anchor.at = anchor.at.as_ref().map(|_| farther_from_mast(guy, layout));
        }
    }
}

fn farther_from_mast(guy: &GuyResult, layout: &Layout) -> PointFix {
    let from = |mast_m: f64, at_m: f64| mast_m + FARTHER * (at_m - mast_m);
    PointFix::Coordinates {
        east_m: from(layout.mast.east_m, guy.east_m),
        north_m: from(layout.mast.north_m, guy.north_m),
    }
}

/// The top of the mast goes down, with everything that is on it.
fn less_high(job: &mut Job, less_m: f64, telescoped: bool) -> bool {
    let below = job.rig.tubes.iter().rev().nth(1).map_or(f64::INFINITY, |tube| tube.length_m);
    let was_m = top_m(&job.rig.tubes);
    let Some(top) = job.rig.tubes.last_mut() else { return false };
    let room = if telescoped {
        top.overlap_m += less_m;
        top.overlap_m < 0.9 * top.length_m.min(below)
    } else {
        top.length_m -= less_m;
        top.length_m > 2.0 * less_m
    };
    let top_length_m = top.length_m;
    let is_m = top_m(&job.rig.tubes);
    // Where the tube below ends, what is on the top tube begins.
    let overlap_m = job.rig.tubes.last().map_or(0.0, |tube| tube.overlap_m);
    let on_top_m = if job.rig.tubes.len() > 1 { is_m - top_length_m + overlap_m } else { 0.0 };
    // On a tube that is cut short only what was above its new end comes down.
    let moved = |height_m: f64| {
        if telescoped && height_m > on_top_m {
            (height_m - less_m).max(on_top_m)
        } else {
            height_m.min(is_m - (was_m - height_m).clamp(0.0, 0.05))
        }
    };
    for level in &mut job.rig.guy_levels {
        level.attach_height_m = moved(level.attach_height_m);
    }
    if let Some(strands) = &mut job.rig.strands {
        strands.top_height_m = moved(strands.top_height_m);
    }
    room
}

fn top_m(tubes: &[Tube]) -> f64 {
    tubes.iter().map(|tube| tube.length_m - tube.overlap_m).sum()
}
