//! Every part that can be the weakest, with what it may carry; and how far a state of the mast uses it.

use super::anchors;
use super::base::{self, SHARE_OF_ONE_FOOT, Sliding};
use super::section::{WeakSection, threaded, with_pin_hole};
use super::standing::{Standing, StandingGuy};
use super::timbers::{self, BaseFoot, Lap};
use super::types::{MastHeight, MastPart, PartKind, PartName};
use crate::job::{FootFixing, TubeJoint};
use crate::numerics::vector::{add, norm, scale};
use crate::resistance::pin::{self, Pinned};
use crate::resistance::tube::strength;
use crate::resistance::{Condition, MastUnshown, Resistance, SteelTube, TubeCode, TubeStrength, TubeUnshown};
use crate::source::SourceKey;
use crate::structure::{BaseReaction, Model, Response};

/// A part and its check.
#[derive(Debug, Clone, PartialEq)]
pub struct Part {
    pub part: MastPart,
    pub check: Check,
    /// None for the mast as a whole.
    pub resistance: Option<Resistance>,
    /// What it may carry in bending.
    pub allowable_nm: Option<f64>,
}

/// How a part's use is reckoned.
#[derive(Debug, Clone, PartialEq)]
pub enum Check {
    /// Not shown to hold: the reason stands in the resistance.
    NotShown,
    Tube {
        tube: usize,
        strength: TubeStrength,
    },
    /// A weakened stretch of a tube, by heights above the foot.
    Weak {
        tube: usize,
        from_m: f64,
        to_m: f64,
        section: WeakSection,
    },
    /// Carries a tube at the mouth of the one below, at a height above the foot.
    Pin {
        tube: usize,
        mouth_m: f64,
        allowable_n: f64,
    },
    /// By what all guys of a level pull it down with together.
    Collar {
        guys: Vec<usize>,
        allowable_n: f64,
    },
    Rope {
        guy: usize,
        allowable_n: f64,
    },
    /// By what all its guys pull together.
    Anchor {
        guys: Vec<usize>,
        allowable_n: f64,
    },
    /// Under the mast's foot, which carries this share of its push.
    Under {
        share: f64,
        allowable_n: f64,
    },
    Sliding(Sliding),
    Lap(Lap),
    Foot(BaseFoot),
    /// Whether it stands at all; the solver says so.
    Whole,
}

/// How far a part is used, and by what.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Use {
    pub utilisation: f64,
    pub force_n: Option<f64>,
    pub moment_nm: Option<f64>,
}

/// All parts of what stands, foot to top and guys after; the whole mast last. Where nobody can say what stands bears,
/// none is shown to hold, whatever it may carry.
pub fn parts(standing: &Standing) -> Vec<Part> {
    let mut parts = as_they_are(standing);
    if let Some(reason) = standing.unknown {
        for part in &mut parts {
            (part.check, part.resistance) = (Check::NotShown, Some(Resistance::not_shown(reason)));
        }
    }
    parts
}

fn as_they_are(standing: &Standing) -> Vec<Part> {
    let mut parts = tubes(standing);
    parts.extend(super::collars::parts(standing));
    for (index, guy) in standing.guys.iter().enumerate() {
        parts.push(rope_of(index, guy));
        // Each anchor once, after the rope of its first guy.
        let anchor = standing.anchors.iter().find(|guys| guys.first() == Some(&index));
        parts.extend(anchor.map(|guys| anchor_of(guys, standing)));
    }
    let under = |kind, name, resistance: Resistance, share| {
        let check = resistance.allowable_n().map(|allowable_n| Check::Under { share, allowable_n });
        part(kind, "", name, None, check, Some(resistance))
    };
    parts.push(under(PartKind::Timber, PartName::TimberUnderMast, base::seat(standing), 1.0));
    parts.extend(base_timbers(standing));
    let ground = base::ground(standing);
    parts.push(under(PartKind::Ground, PartName::GroundUnderCrossLeg, ground, SHARE_OF_ONE_FOOT));
    if let Some(ground) = base::ground_under_joint(standing) {
        let check = ground.allowable_n().map(|allowable_n| Check::Under { share: 1.0, allowable_n });
        let name = PartName::GroundUnderJointBoard;
        parts.push(part(PartKind::Ground, "joint", name, None, check, Some(ground)));
    }
    let sliding = Sliding::of(standing);
    let resistance = sliding.resistance.clone();
    let check = sliding.is_shown().then_some(Check::Sliding(sliding));
    parts.push(part(PartKind::BaseSliding, "", PartName::BaseAgainstSliding, None, check, Some(resistance)));
    if let FootFixing::Spring { .. } = standing.job.rig.base.foot_fixing {
        let resistance = Some(Resistance::not_shown(MastUnshown::FootHoldsTurning));
        parts.push(part(PartKind::BaseTurning, "", PartName::BaseAgainstTurning, None, None, resistance));
    }
    if standing.job.rig.strands.as_ref().is_some_and(|strands| strands.cord.side_help) {
        let resistance = Some(Resistance::not_shown(MastUnshown::StrandsAsGuys));
        parts.push(part(PartKind::Strands, "", PartName::StrandsAsGuys, None, None, resistance));
    }
    parts.push(part(PartKind::WholeMast, "", PartName::WholeMast, None, Some(Check::Whole), None));
    parts
}

/// The timbers at their laps, and every leg's foot.
fn base_timbers(standing: &Standing) -> Vec<Part> {
    let mut parts = Vec::new();
    for lap in timbers::laps(standing) {
        let (name, resistance) = (lap.name.clone(), lap.resistance());
        let (which, allowable_nm) = (lap.which, lap.allowable_nm);
        let mut part = part(PartKind::BaseTimber, which, name, None, Some(Check::Lap(lap)), Some(resistance));
        part.allowable_nm = Some(allowable_nm);
        parts.push(part);
    }
    for foot in timbers::feet(standing) {
        let (which, resistance) = (foot.leg.id.clone(), foot.resistance.clone());
        let name = PartName::FootOf { leg: foot.leg.id.clone() };
        let check = resistance.allowable_n().map(|_| Check::Foot(foot));
        parts.push(part(PartKind::Foot, &which, name, None, check, Some(resistance)));
    }
    parts
}

pub(super) fn part(
    kind: PartKind,
    which: &str,
    name: PartName,
    guy: Option<String>,
    check: Option<Check>,
    resistance: Option<Resistance>,
) -> Part {
    let word = match kind {
        PartKind::Tube => "tube",
        PartKind::PinHole => "pin-hole",
        PartKind::Pin => "pin",
        PartKind::Thread => "thread",
        PartKind::Coupling => "coupling",
        PartKind::Collar => "collar",
        PartKind::Rope => "rope",
        PartKind::Anchor => "anchor",
        PartKind::Strands => "strands",
        PartKind::Timber => "timber",
        PartKind::BaseTimber => "base-timber",
        PartKind::Foot => "foot",
        PartKind::Ground => "ground",
        PartKind::BaseSliding => "base-sliding",
        PartKind::BaseTurning => "base-turning",
        PartKind::WholeMast => "whole-mast",
    };
    let id = if which.is_empty() { word.to_owned() } else { format!("{word} {which}") };
    let check = check.unwrap_or(Check::NotShown);
    Part { part: MastPart { id, kind, name, guy }, check, resistance, allowable_nm: None }
}

fn tubes(standing: &Standing) -> Vec<Part> {
    let mut parts = Vec::new();
    for (index, tube) in standing.job.rig.tubes.iter().enumerate() {
        let Some(steel) = steel(standing, index) else { continue };
        parts.push(whole_tube(index, &tube.name, &steel, tube.yield_mpa.is_none()));
        let Some(below) = index.checked_sub(1) else { continue };
        let (Some(under), Some(here)) = (standing.tubes.get(below), standing.tubes.get(index)) else {
            continue;
        };
        if tube.joint == TubeJoint::Threaded {
            // The lower tube's thread bears the same as the upper one's.
            let at = (here.bottom_m, here.bottom_m);
            parts.push(weakened(PartKind::Thread, index, &tube.name, threaded(&steel, tube), index, at));
            parts.extend(super::collars::coupling(standing, index, here.bottom_m));
        } else {
            // Anywhere in the overlap, in both tubes.
            let overlap = (here.bottom_m, under.top_m.min(here.top_m));
            for drilled in [below, index] {
                let Some(steel) = self::steel(standing, drilled) else { continue };
                let name = standing.job.rig.tubes.get(drilled).map_or("", |tube| tube.name.as_str());
                let hole_mm = tube.pin_hole_mm.ok_or(TubeUnshown::PinHoleUnmeasured);
                let section = hole_mm.and_then(|hole_mm| with_pin_hole(&steel, hole_mm));
                parts.push(weakened(PartKind::PinHole, drilled, name, section, index, overlap));
            }
            parts.extend(pin(standing, index, overlap.1));
        }
    }
    parts
}

/// The pin below a tube; run down the tubes stand on their stools.
fn pin(standing: &Standing, index: usize, mouth_m: f64) -> Option<Part> {
    if standing.height != MastHeight::Raised {
        return None;
    }
    let (inner, outer) = (steel(standing, index)?, steel(standing, index.checked_sub(1)?)?);
    let allowable_n = standing.job.workshop.lift.pin_mm.map(|pin_mm| {
        let strength = pin::allowable(&Pinned {
            pin_mm,
            inner_wall_mm: inner.wall_mm,
            inner_yield_mpa: inner.yield_mpa,
            outer_wall_mm: outer.wall_mm,
            outer_yield_mpa: outer.yield_mpa,
        });
        strength.least_n
    });
    let resistance = allowable_n.map_or(Resistance::not_shown(TubeUnshown::PinUnmeasured), |allowable_n| {
        by_pins(allowable_n, Condition::PlainSteelPin)
    });
    let name = PartName::PinBelow { tube: standing.job.rig.tubes.get(index)?.name.clone() };
    let check = allowable_n.map(|allowable_n| Check::Pin { tube: index, mouth_m, allowable_n });
    Some(part(PartKind::Pin, &(index + 1).to_string(), name, None, check, Some(resistance)))
}

/// What may be carried in use by the rules for pins, told with its factor.
pub(super) fn by_pins(allowable_n: f64, condition: Condition) -> Resistance {
    Resistance::shown(pin::FACTOR * allowable_n, pin::FACTOR, SourceKey::AiscPins, condition)
}

pub(super) fn steel(standing: &Standing, index: usize) -> Option<SteelTube> {
    let (tube, part) = (standing.tubes.get(index)?, standing.job.rig.tubes.get(index)?);
    Some(SteelTube {
        outside_mm: tube.outside_m * 1000.0,
        wall_mm: tube.wall_m * 1000.0,
        yield_mpa: part.least_yield_mpa(),
    })
}

/// The whole section; buckling is in the mast's second-order analysis, so no strut length is taken.
fn whole_tube(tube: usize, name: &str, steel: &SteelTube, assumed: bool) -> Part {
    let by = if assumed { Condition::LeastYieldTaken } else { Condition::YieldOfPapers };
    let number = (tube + 1).to_string();
    let name = PartName::Tube { tube: name.to_owned() };
    match strength(steel, None, TubeCode::En1993) {
        Ok(strength) => {
            let resistance =
                Resistance::shown(strength.axial_n, strength.factor, TubeCode::En1993.source(), by);
            let check = Check::Tube { tube, strength };
            let mut part = part(PartKind::Tube, &number, name, None, Some(check), Some(resistance));
            part.allowable_nm = Some(strength.moment_nm / strength.factor);
            part
        }
        Err(reason) => part(PartKind::Tube, &number, name, None, None, Some(Resistance::not_shown(reason))),
    }
}

fn weakened(
    kind: PartKind,
    tube: usize,
    name: &str,
    section: Result<WeakSection, TubeUnshown>,
    joint: usize,
    (from_m, to_m): (f64, f64),
) -> Part {
    let which = format!("{} of joint {joint}", tube + 1);
    // A tube between two joints is drilled at both ends.
    let (of, is_lower) = (name.to_owned(), tube == joint);
    let name = match kind {
        PartKind::Thread => PartName::TubeAtThread { tube: of },
        _ if is_lower => PartName::TubeAtLowerPinHole { tube: of },
        _ => PartName::TubeAtUpperPinHole { tube: of },
    };
    weak(kind, &which, name, Where { tube, from_m, to_m }, section, Condition::NetSection)
}

/// A stretch of a tube.
pub(super) struct Where {
    pub tube: usize,
    pub from_m: f64,
    pub to_m: f64,
}

/// A section that is weaker than its tube, or stands in for it.
pub(super) fn weak(
    kind: PartKind,
    which: &str,
    name: PartName,
    Where { tube, from_m, to_m }: Where,
    section: Result<WeakSection, TubeUnshown>,
    condition: Condition,
) -> Part {
    use crate::resistance::en1993::FACTOR;
    match section {
        Ok(section) => {
            let source = TubeCode::En1993.source();
            let resistance = Resistance::shown(section.axial_n, FACTOR, source, condition);
            let check = Check::Weak { tube, from_m, to_m, section };
            let part = part(kind, which, name, None, Some(check), Some(resistance));
            Part { allowable_nm: Some(section.moment_nm / FACTOR), ..part }
        }
        Err(reason) => part(kind, which, name, None, None, Some(Resistance::not_shown(reason))),
    }
}

fn rope_of(guy: usize, standing: &StandingGuy) -> Part {
    let resistance = standing.level.rope.strength.resistance();
    let check = resistance.allowable_n().map(|allowable_n| Check::Rope { guy, allowable_n });
    let (id, name) = (&standing.planned.id, PartName::RopeOf { guy: standing.planned.name.clone() });
    part(PartKind::Rope, id, name, Some(id.clone()), check, Some(resistance))
}

fn anchor_of(places: &[usize], standing: &Standing) -> Part {
    let guys: Vec<&StandingGuy> = places.iter().filter_map(|&place| standing.guys.get(place)).collect();
    let resistance = anchors::resistance(&guys, standing);
    let guys_of = || places.to_vec();
    let check = resistance.allowable_n().map(|allowable_n| Check::Anchor { guys: guys_of(), allowable_n });
    let id = guys.first().map_or(String::new(), |guy| guy.planned.id.clone());
    let name = PartName::AnchorOf { guys: guys.iter().map(|guy| guy.planned.name.clone()).collect() };
    part(PartKind::Anchor, &id, name, Some(id.clone()), check, Some(resistance))
}

/// What guys pull at the one anchor that they share: the length of the sum of their forces.
pub(super) fn anchor_pull_n(response: &Response, guys: &[usize]) -> f64 {
    let pulls = guys.iter().filter_map(|&place| response.guys.get(place)).map(|guy| guy.on_anchor_n);
    norm(pulls.fold([0.0; 3], add))
}

/// What these guys pull the mast down with together; nothing where they do not.
pub(super) fn pull_down_n(response: &Response, guys: &[usize]) -> f64 {
    let pulls = guys.iter().filter_map(|&place| response.guys.get(place)).map(|guy| -guy.on_mast_n[2]);
    let down_n: f64 = pulls.sum();
    // A comparison, not f64::max: a force that is not a number is no pass.
    if down_n < 0.0 { 0.0 } else { down_n }
}

impl Part {
    /// By whose rule it holds; none where that is not shown, or where the solver says so.
    pub fn source(&self) -> Option<SourceKey> {
        match &self.resistance {
            Some(Resistance::Shown(shown)) => Some(shown.source),
            _ => None,
        }
    }

    pub fn is_shown(&self) -> bool {
        self.check != Check::NotShown
    }

    /// What the part may carry where states of the mast at rest use it most: the base's hold goes with the weight on it and
    /// the way of the push.
    pub fn carries<'a>(&self, at_rest: impl IntoIterator<Item = (&'a Response, f64)>) -> Option<Resistance> {
        let Check::Sliding(sliding) = &self.check else { return self.resistance.clone() };
        let mut most: Option<(f64, BaseReaction)> = None;
        for (response, share) in at_rest {
            let base = base_in(response, share);
            let (used, _) = sliding.utilisation(&base);
            if most.is_none_or(|(before, _)| is_more(used, before)) {
                most = Some((used, base));
            }
        }
        most.map_or_else(|| self.resistance.clone(), |(_, base)| Some(sliding.governing(&base)))
    }

    /// How far states of the mast at rest use the part; nothing for one that is not shown. Every state comes with the
    /// share of its forces that counts; the largest use is given.
    pub fn used<'a>(&self, model: &Model, at_rest: impl IntoIterator<Item = (&'a Response, f64)>) -> Use {
        let mut most = Use::default();
        for (response, share) in at_rest {
            let used = self.used_in(model, response, share);
            if is_more(used.utilisation, most.utilisation) || most.force_n.is_none() {
                most = used;
            }
        }
        most
    }

    fn used_in(&self, model: &Model, response: &Response, share: f64) -> Use {
        match &self.check {
            Check::NotShown | Check::Whole => Use::default(),
            Check::Tube { tube, strength } => {
                let all = Stretch { tube: *tube, from_m: f64::NEG_INFINITY, to_m: f64::INFINITY };
                let by = |n, m| strength.utilisation(n, m);
                let mut used = worst_section(model, response, share, all, by);
                for (element, force) in model.elements.iter().zip(&response.elements) {
                    if element.tube == *tube {
                        used.utilisation =
                            larger(used.utilisation, strength.shear_utilisation(share * force.shear_n));
                    }
                }
                used
            }
            Check::Weak { tube, from_m, to_m, section } => {
                let stretch = Stretch { tube: *tube, from_m: *from_m, to_m: *to_m };
                worst_section(model, response, share, stretch, |n, m| section.utilisation(n, m))
            }
            Check::Pin { tube, mouth_m, allowable_n } => {
                // All that comes down the tube goes over to the one below by the pin, or up where it is pulled.
                let stretch = Stretch { tube: *tube, from_m: *mouth_m, to_m: *mouth_m };
                let used = worst_section(model, response, share, stretch, |n, _| n.abs() / allowable_n);
                Use { moment_nm: None, ..used }
            }
            Check::Collar { guys, allowable_n } => force(share * pull_down_n(response, guys), *allowable_n),
            Check::Rope { guy, allowable_n } => {
                let pull_n = response.guys.get(*guy).map_or(0.0, |guy| guy.tension_upper_n);
                force(share * pull_n, *allowable_n)
            }
            Check::Anchor { guys, allowable_n } => force(share * anchor_pull_n(response, guys), *allowable_n),
            Check::Under { share: of_push, allowable_n } => {
                force(share * of_push * response.base.force_n[2], *allowable_n)
            }
            Check::Sliding(sliding) => {
                let (utilisation, push_n) = sliding.utilisation(&base_in(response, share));
                Use { utilisation, force_n: Some(push_n), moment_nm: None }
            }
            Check::Lap(lap) => lap.used(&base_in(response, share)),
            Check::Foot(foot) => foot.used(&base_in(response, share)),
        }
    }
}

/// The share of the reaction under the foot that counts.
fn base_in(response: &Response, share: f64) -> BaseReaction {
    let BaseReaction { force_n, moment_n_m } = response.base;
    BaseReaction { force_n: scale(force_n, share), moment_n_m: scale(moment_n_m, share) }
}

fn force(force_n: f64, allowable_n: f64) -> Use {
    Use { utilisation: force_n / allowable_n, force_n: Some(force_n), moment_nm: None }
}

/// A stretch of a tube, by heights above the foot.
struct Stretch {
    tube: usize,
    from_m: f64,
    to_m: f64,
}

/// The most used end of any beam that reaches into the stretch; forces and moments count with their share.
fn worst_section(
    model: &Model,
    response: &Response,
    share: f64,
    stretch: Stretch,
    utilisation: impl Fn(f64, f64) -> f64,
) -> Use {
    let mut worst = Use::default();
    for (element, forces) in model.elements.iter().zip(&response.elements) {
        if element.tube != stretch.tube {
            continue;
        }
        for (end, &node) in element.nodes.iter().enumerate() {
            let height_m = model.nodes.get(node).map_or(f64::NAN, |node| node.height_m);
            if !(stretch.from_m - 1e-6..=stretch.to_m + 1e-6).contains(&height_m) {
                continue;
            }
            let (compression_n, moment_nm) = (-share * forces.axial_n[end], share * forces.bending_n_m[end]);
            let used = utilisation(compression_n, moment_nm);
            if is_more(used, worst.utilisation) || worst.force_n.is_none() {
                worst = Use { utilisation: used, force_n: Some(compression_n), moment_nm: Some(moment_nm) };
            }
        }
    }
    worst
}

/// Whether a use is more than another; what is not a number is more than anything, so that it is never lost.
pub(super) fn is_more(used: f64, than: f64) -> bool {
    used.is_nan() || used > than
}

/// The larger of two uses or forces.
pub(super) fn larger(a: f64, b: f64) -> f64 {
    if is_more(b, a) { b } else { a }
}
