//! What has to be entered before there is a gust limit: while a part is not shown to hold, no gust is told.
//!
//! An entry is found by trying: with everything unknown filled in, the parts that are not shown without one entry are
//! those that it serves. So a rule that needs more, or less, is followed without a second list of what it needs.

use super::parts::{Check, Part, parts};
use super::standing::Standing;
use super::types::{MastPart, MissingEntry, MissingKind, PartKind};
use crate::anchor::soil::ClayFeel;
use crate::job::{
    AnchorKind, CollarHeld, Cord, FootFixing, GuyLevel, Job, Obstacle, RopeStrength, SoilFeel, Tube,
    TubeJoint, WhenLowered,
};
use crate::plan::Layout;
use crate::pointer;
use crate::resistance::rope::RopeMaterial;
use crate::resistance::{Resistance, Unshown};

/// Everything missing, in the order that gets to an answer soonest: what serves most parts first, what is known but
/// covered by no rule last; among equals in the order of the job. Empty where every part is shown at both heights.
pub fn missing(heights: &[(Standing, Vec<Part>)]) -> Vec<MissingEntry> {
    let Some((standing, _)) = heights.first() else { return Vec::new() };
    if heights.iter().all(|(_, parts)| parts.iter().all(Part::is_shown)) {
        return Vec::new();
    }
    let (job, layout) = (standing.job, standing.layout);
    let entries = unknown(job);
    let filled = |without: Option<usize>| {
        let mut filled = job.clone();
        for (index, entry) in entries.iter().enumerate() {
            if Some(index) != without {
                (entry.fill)(&mut filled);
            }
        }
        unshown(&filled, layout, heights)
    };
    let never = filled(None);
    let mut found: Vec<MissingEntry> = Vec::new();
    for (index, entry) in entries.iter().enumerate() {
        let mut without = filled(Some(index));
        without.retain(|(part, _)| !never.iter().any(|(other, _)| other.id == part.id));
        let Some(&(_, reason)) = without.first() else { continue };
        let serves = without.into_iter().map(|(part, _)| part).collect();
        let (kind, pointer, about) = (entry.kind, entry.pointer.clone(), entry.about.clone());
        found.push(MissingEntry { kind, pointer, about, serves, reason });
    }
    // A stable sort: the order of the job among equals.
    found.sort_by_key(|entry| std::cmp::Reverse(entry.serves.len()));
    for (part, reason) in never {
        let (kind, pointer, about) = not_covered(&part, job, layout);
        match found.iter_mut().find(|entry| entry.kind == kind && entry.pointer == pointer) {
            Some(entry) => entry.serves.push(part),
            None => found.push(MissingEntry { kind, pointer, about, serves: vec![part], reason }),
        }
    }
    found
}

/// What is missing for a job's mast as planned.
pub fn missing_of(job: &Job, layout: &Layout) -> Vec<MissingEntry> {
    missing(&super::rose::heights(job, layout))
}

/// The parts that are not shown at any of the heights, each once, with the reason.
fn unshown(job: &Job, layout: &Layout, heights: &[(Standing, Vec<Part>)]) -> Vec<(MastPart, Unshown)> {
    let mut found: Vec<(MastPart, Unshown)> = Vec::new();
    for (standing, _) in heights {
        for part in parts(&Standing::of(job, layout, standing.height)) {
            let (Check::NotShown, Some(Resistance::NotShown { reason })) = (part.check, part.resistance)
            else {
                continue;
            };
            if !found.iter().any(|(known, _)| known.id == part.part.id) {
                found.push((part.part, reason));
            }
        }
    }
    found
}

/// An attribute that nobody knows yet.
struct Unknown {
    kind: MissingKind,
    pointer: String,
    about: Option<String>,
    /// Sets it to something that every rule knows.
    fill: Box<dyn Fn(&mut Job)>,
}

fn unknown(job: &Job) -> Vec<Unknown> {
    let mut found = Vec::new();
    if job.yard.soil == SoilFeel::Unknown {
        let fill = Box::new(|job: &mut Job| job.yard.soil = SoilFeel::Clay { feel: ClayFeel::Stiff });
        found.push(Unknown {
            kind: MissingKind::Soil,
            pointer: pointer!(yard.soil).into(),
            about: None,
            fill,
        });
    }
    for (index, level) in job.rig.guy_levels.iter().enumerate() {
        let at = &pointer!(rig.guy_levels[index]);
        let mut add = |kind, pointer: String, fill: Box<dyn Fn(&mut Job)>| {
            found.push(Unknown { kind, pointer, about: Some(level.name.clone()), fill });
        };
        let set_anchor = move |job: &mut Job, is: AnchorKind| {
            if let Some(level) = job.rig.guy_levels.get_mut(index) {
                level.anchor = is;
            }
        };
        match (level.proof_pull_n, level.anchor) {
            (None, AnchorKind::Unknown) => {
                let plate = AnchorKind::Plate { side_m: 0.3, depth_m: 0.9 };
                add(
                    MissingKind::AnchorKind,
                    pointer!(in at, GuyLevel: anchor),
                    Box::new(move |job| set_anchor(job, plate)),
                );
            }
            (None, AnchorKind::Screw { shaft, shaft_mm, torque_nm, helix_mm, depth_m })
                if helix_mm.is_none() || depth_m.is_none() =>
            {
                let helix_mm = helix_mm.unwrap_or(150.0);
                // Deep enough for every rule.
                let (helix_mm, depth_m) = (Some(helix_mm), depth_m.or(Some(0.01 * helix_mm)));
                let measured = AnchorKind::Screw { shaft, shaft_mm, torque_nm, helix_mm, depth_m };
                let first = if matches!(level.anchor, AnchorKind::Screw { helix_mm: None, .. }) {
                    pointer!(in at, GuyLevel: anchor as AnchorKind::Screw.helix_mm)
                } else {
                    pointer!(in at, GuyLevel: anchor as AnchorKind::Screw.depth_m)
                };
                add(MissingKind::ScrewData, first, Box::new(move |job| set_anchor(job, measured)));
            }
            _ => {}
        }
        if level.when_lowered == WhenLowered::Unsaid {
            let fill = move |job: &mut Job| {
                if let Some(level) = job.rig.guy_levels.get_mut(index) {
                    level.when_lowered = WhenLowered::MadeFast;
                }
            };
            add(MissingKind::WhenLowered, pointer!(in at, GuyLevel: when_lowered), Box::new(fill));
        }
        let rope = move |job: &mut Job, change: &dyn Fn(&mut RopeStrength)| {
            if let Some(level) = job.rig.guy_levels.get_mut(index) {
                change(&mut level.rope.strength);
            }
        };
        if level.rope.strength.minimum_n.is_none() {
            let fill = move |job: &mut Job| rope(job, &|strength| strength.minimum_n = Some(10_000.0));
            add(
                MissingKind::RopeStrength,
                pointer!(in at, GuyLevel: rope.strength.minimum_n),
                Box::new(fill),
            );
        }
        if level.rope.strength.material == RopeMaterial::Fibre {
            let fill =
                move |job: &mut Job| rope(job, &|strength| strength.material = RopeMaterial::Polyester);
            add(MissingKind::RopeFibre, pointer!(in at, GuyLevel: rope.strength.material), Box::new(fill));
        }
    }
    found.extend(joints_unmeasured(job));
    found.extend(job.rig.guy_levels.iter().enumerate().filter_map(collar_unsaid));
    found.extend(fixings_unsaid(job));
    if let FootFixing::Spring { .. } = job.rig.base.foot_fixing {
        let fill = Box::new(|job: &mut Job| job.rig.base.foot_fixing = FootFixing::Pinned);
        let pointer = pointer!(rig.base.foot_fixing).into();
        found.push(Unknown { kind: MissingKind::FootFixing, pointer, about: None, fill });
    }
    found.extend(job.rig.strands.as_ref().into_iter().flat_map(|strands| unknown_of_cord(&strands.cord)));
    found
}

/// Pins, their holes and couplings that nobody has measured.
fn joints_unmeasured(job: &Job) -> Vec<Unknown> {
    let mut found = Vec::new();
    let mut add = |kind, pointer: String, about, fill: Box<dyn Fn(&mut Job)>| {
        found.push(Unknown { kind, pointer, about, fill });
    };
    for (index, tube) in job.rig.tubes.iter().enumerate().skip(1) {
        let about = Some(tube.name.clone());
        let set = move |job: &mut Job, change: &dyn Fn(&mut Tube)| {
            job.rig.tubes.get_mut(index).into_iter().for_each(change);
        };
        // As small as any: every tube has a rule for it.
        let hole = move |job: &mut Job| set(job, &|tube| tube.pin_hole_mm = Some(1.0));
        let coupling = move |job: &mut Job| set(job, &|tube| tube.calliper.coupling_mm = Some(400.0));
        match tube.joint {
            TubeJoint::Telescoped if tube.pin_hole_mm.is_none() => {
                add(MissingKind::PinHole, pointer!(rig.tubes[index].pin_hole_mm), about, Box::new(hole));
            }
            TubeJoint::Threaded if tube.calliper.coupling_mm.is_none() => {
                let pointer = pointer!(rig.tubes[index].calliper.coupling_mm);
                add(MissingKind::Coupling, pointer, about, Box::new(coupling));
            }
            _ => {}
        }
    }
    if job.workshop.lift.pin_mm.is_none() {
        let fill = Box::new(|job: &mut Job| job.workshop.lift.pin_mm = Some(10.0));
        add(MissingKind::Pin, pointer!(workshop.lift.pin_mm).into(), None, fill);
    }
    found
}

/// What keeps a level's collar up, where nobody has said or measured it.
fn collar_unsaid((index, level): (usize, &GuyLevel)) -> Option<Unknown> {
    let collar = &level.collar;
    let at = &pointer!(rig.guy_levels[index]);
    let pointer = match collar.held {
        CollarHeld::Unsaid => pointer!(in at, GuyLevel: collar.held),
        CollarHeld::Bolt if collar.bolt_mm.is_none() => pointer!(in at, GuyLevel: collar.bolt_mm),
        CollarHeld::Bolt if collar.wall_mm.is_none() => pointer!(in at, GuyLevel: collar.wall_mm),
        CollarHeld::Shoulder if collar.shoulder_mm.is_none() => pointer!(in at, GuyLevel: collar.shoulder_mm),
        _ => return None,
    };
    let fill = move |job: &mut Job| {
        if let Some(level) = job.rig.guy_levels.get_mut(index) {
            (level.collar.held, level.collar.shoulder_mm) = (CollarHeld::Shoulder, Some(5.0));
        }
    };
    let (kind, about) = (MissingKind::Collar, Some(level.name.clone()));
    Some(Unknown { kind, pointer, about, fill: Box::new(fill) })
}

/// What things of the yard may be pulled with that hold a guy.
fn fixings_unsaid(job: &Job) -> Vec<Unknown> {
    let used =
        |id: &String| job.rig.guy_levels.iter().flat_map(|level| &level.to_thing).any(|to| to.thing == *id);
    let things = job.yard.obstacles.iter().enumerate().filter(|(_, thing)| used(&thing.id));
    let unsaid = things.filter(|(_, thing)| thing.guy_fixing.is_some_and(|leave| leave.holds_n.is_none()));
    let entry = |(index, thing): (usize, &Obstacle)| Unknown {
        kind: MissingKind::FixingHold,
        pointer: pointer!(yard.obstacles[index].guy_fixing?.holds_n),
        about: Some(thing.name.clone()),
        fill: Box::new(move |job: &mut Job| {
            let leave = job.yard.obstacles.get_mut(index).and_then(|thing| thing.guy_fixing.as_mut());
            leave.into_iter().for_each(|leave| leave.holds_n = Some(10_000.0));
        }),
    };
    unsaid.map(entry).collect()
}

fn unknown_of_cord(cord: &Cord) -> Vec<Unknown> {
    let mut found = Vec::new();
    let mut add = |kind, pointer: &str, fill: fn(&mut Cord)| {
        let fill =
            Box::new(move |job: &mut Job| job.rig.strands.iter_mut().for_each(|it| fill(&mut it.cord)));
        found.push(Unknown { kind, pointer: pointer.to_owned(), about: None, fill });
    };
    if cord.diameter_mm.is_none() {
        add(MissingKind::StrandThickness, pointer!(rig.strands?.cord.diameter_mm), |cord| {
            cord.diameter_mm = Some(5.0)
        });
    }
    if cord.mass_g_per_m.is_none() {
        add(MissingKind::StrandMass, pointer!(rig.strands?.cord.mass_g_per_m), |cord| {
            cord.mass_g_per_m = Some(30.0)
        });
    }
    if cord.side_help {
        add(MissingKind::StrandsHelp, pointer!(rig.strands?.cord.side_help), |cord| cord.side_help = false);
    }
    found
}

/// Where to change a part that no rule covers, though everything about it is known.
fn not_covered(part: &MastPart, job: &Job, layout: &Layout) -> (MissingKind, String, Option<String>) {
    let soil = || (MissingKind::OtherSoil, pointer!(yard.soil).to_owned(), None);
    let of_guy = |kind, pointer: fn(usize) -> String| {
        let level_id =
            layout.guys.iter().find(|guy| Some(&guy.id) == part.guy.as_ref()).map(|guy| &guy.level_id);
        let index = job.rig.guy_levels.iter().position(|level| Some(&level.id) == level_id).unwrap_or(0);
        let about = job.rig.guy_levels.get(index).map(|level| level.name.clone());
        (kind, pointer(index), about)
    };
    let of_tube = |pointer: fn(usize) -> String| {
        // Ids are `tube 2`, `pin-hole 2 of joint 1`.
        let number = part.id.split(' ').nth(1).and_then(|number| number.parse::<usize>().ok());
        let index = number.map_or(0, |number| number.saturating_sub(1));
        let about = job.rig.tubes.get(index).map(|tube| tube.name.clone());
        (MissingKind::Tube, pointer(index), about)
    };
    match part.kind {
        PartKind::Tube | PartKind::Thread | PartKind::WholeMast => {
            of_tube(|i| pointer!(rig.tubes[i].section))
        }
        PartKind::Pin => (MissingKind::Tube, pointer!(workshop.lift.pin_mm).into(), None),
        PartKind::Coupling => of_tube(|i| pointer!(rig.tubes[i].calliper.coupling_mm)),
        PartKind::Collar => {
            let id = part.id.strip_prefix("collar ");
            let index =
                job.rig.guy_levels.iter().position(|level| Some(level.id.as_str()) == id).unwrap_or(0);
            let about = job.rig.guy_levels.get(index).map(|level| level.name.clone());
            (MissingKind::OtherCollar, pointer!(rig.guy_levels[index].collar.held), about)
        }
        PartKind::PinHole => of_tube(|i| pointer!(rig.tubes[i].pin_hole_mm)),
        PartKind::Rope => of_guy(MissingKind::RopeEnd, |i| pointer!(rig.guy_levels[i].rope.strength.end)),
        PartKind::Anchor => of_guy(MissingKind::ProofPull, |i| pointer!(rig.guy_levels[i].proof_pull_n)),
        PartKind::BaseTimber | PartKind::Foot => {
            (MissingKind::Seat, pointer!(rig.base.foot_thickness_mm).into(), None)
        }
        PartKind::Timber => (MissingKind::Seat, pointer!(rig.base.seat_plate_mm).into(), None),
        PartKind::Ground | PartKind::BaseSliding => soil(),
        PartKind::Strands => (MissingKind::StrandsHelp, pointer!(rig.strands?.cord.side_help).into(), None),
        PartKind::BaseTurning => (MissingKind::FootFixing, pointer!(rig.base.foot_fixing).into(), None),
    }
}
