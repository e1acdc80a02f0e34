//! The work against trees, buildings, barriers, posts, ways and areas to keep off.

use std::borrow::Cow;

use super::approach::{Approach, ChainKind};
use super::clearance::{Log, Span};
use super::flat::{Nearest2, Patch, along, sub, way_patches};
use super::measure::{Measure, YardFinding, clear};
use super::parts::{Chain, Parts, Peg, approaches, half_width_95};
use super::pieces::{WallPiece, wall_pieces};
use super::solid::{BoundingBox, Nearest, P3, Solid, boxed, plan};
use super::{PlacedObstacle, PlacedShape, default_clearances};
use crate::finding::yard::{Nearness, PegKind, Thing, Turn, WorkPart, YardRemedy, YardRule};
use crate::finding::{Clear, Severity, Subject};
use crate::ground::Ground;
use crate::ground::highest::breaks_along;
use crate::job::PathUse;
use crate::numerics::real::{atan2_deg, hypot};
use crate::quantity::estimate::COVERAGE_95;
use crate::source::SourceKey;

pub(super) fn check(thing: &PlacedObstacle, parts: &Parts, ground: &Ground, log: &mut Log) {
    let to = Subject::Obstacle { id: thing.id.clone() };
    let view = View { thing, to: &to, kind: kind(&thing.shape), parts, ground };
    let solids = Solids::of(thing, ground, plan(parts.foot));
    if !solids.measured.is_empty() {
        view.chains(&ropes_off(thing, &parts.ropes), ChainKind::Rope, &solids, log);
        view.chains(std::slice::from_ref(&parts.mast), ChainKind::Mast, &solids, log);
        view.chains(&parts.strands, ChainKind::Strand, &solids, log);
    }
    let patches = footprint(&thing.shape);
    for kind in PegKind::ALL {
        view.pegs(kind, &patches, log);
    }
    view.timbers(&patches, log);
    match &thing.shape {
        PlacedShape::Building { .. } => view.fall(&patches, log),
        PlacedShape::Path { used_by, headroom_m, .. } => {
            view.mast_foot(&patches, log);
            view.fall(&patches, log);
            let limit = Headroom { used_by: *used_by, limit_m: *headroom_m };
            view.headroom(&parts.ropes, ChainKind::Rope, &patches, &limit, log);
            view.headroom(&parts.strands, ChainKind::Strand, &patches, &limit, log);
        }
        PlacedShape::KeepOff { .. } => {
            view.mast_foot(&patches, log);
            view.ring(&patches, log);
        }
        _ => {}
    }
}

/// A guy that is made fast to the thing touches it there; on its way to the mast it keeps off it as any other does. Its end is
/// left out for so many times the distance that is kept: a rope at 60° to the thing's face is clear of it by then.
const OWN_END: f64 = 2.0;

fn ropes_off<'a>(thing: &PlacedObstacle, ropes: &'a [Chain]) -> Cow<'a, [Chain]> {
    let is_own = |rope: &Chain| rope.fast_to.as_ref() == Some(&thing.id);
    if !ropes.iter().any(is_own) {
        return Cow::Borrowed(ropes);
    }
    let off =
        |rope: &Chain| if is_own(rope) { rope.without_end(OWN_END * thing.keep_off_m) } else { rope.clone() };
    Cow::Owned(ropes.iter().map(off).collect())
}

/// Standard uncertainty of the ground under a thing against that at a place, where it stands outside the spot heights.
fn guessed_ground_sigma_m(shape: &PlacedShape, ground: &Ground, seen_from: [f64; 2]) -> f64 {
    let points = shape.stands_on();
    let guessed = points.iter().filter(|at| ground.outside(**at).is_some());
    guessed.map(|at| ground.difference_sigma(seen_from, *at)).fold(0.0, f64::max)
}

struct Headroom {
    used_by: PathUse,
    limit_m: f64,
}

pub(crate) fn kind(shape: &PlacedShape) -> Thing {
    match shape {
        PlacedShape::Tree { .. } => Thing::Tree,
        PlacedShape::Building { .. } => Thing::Building,
        PlacedShape::Barrier { .. } => Thing::Barrier,
        PlacedShape::Post { .. } => Thing::Post,
        PlacedShape::Path { .. } => Thing::Path,
        PlacedShape::KeepOff { .. } => Thing::KeepOff,
    }
}

/// What stands up from the ground; nothing for ways and areas.
fn solids(shape: &PlacedShape, ground: &Ground) -> Vec<(Solid, BoundingBox)> {
    let standing = f64::NEG_INFINITY;
    let solids = match shape {
        PlacedShape::Tree { at, trunk_radius_m, crown_radius_m, crown_base_z, top_z, .. } => vec![
            Solid::Upright { a: *at, b: *at, radius_m: *trunk_radius_m, z0: standing, z1: *top_z },
            Solid::Upright { a: *at, b: *at, radius_m: *crown_radius_m, z0: *crown_base_z, z1: *top_z },
        ],
        PlacedShape::Building { outline, top_z, .. } => {
            vec![Solid::Prism { outline: outline.clone(), top_z: *top_z }]
        }
        PlacedShape::Barrier { line, thickness_m, height_m, .. } => line
            .windows(2)
            .flat_map(|ends| barrier(ends[0], ends[1], thickness_m / 2.0, *height_m, ground))
            .collect(),
        PlacedShape::Post { at, radius_m, top_z, .. } => {
            vec![Solid::Upright { a: *at, b: *at, radius_m: *radius_m, z0: standing, z1: *top_z }]
        }
        PlacedShape::Path { .. } | PlacedShape::KeepOff { .. } => Vec::new(),
    };
    solids.into_iter().map(boxed).collect()
}

/// What stands up, as it was measured and as high as it may be.
pub(crate) struct Solids {
    pub measured: Vec<(Solid, BoundingBox)>,
    /// Raised by the half-width of its height's 95 % interval, crowns as much lower; none where its height counts as
    /// it stands.
    pub raised: Option<Vec<(Solid, BoundingBox)>>,
}

impl Solids {
    /// Its height is over the ground at a place, seen from which the ground under it may be a guess.
    pub(crate) fn of(thing: &PlacedObstacle, ground: &Ground, seen_from: [f64; 2]) -> Self {
        let measured = solids(&thing.shape, ground);
        let guessed_m = guessed_ground_sigma_m(&thing.shape, ground, seen_from);
        let rise_m = COVERAGE_95 * hypot(thing.height_sigma_m, guessed_m);
        let raised = || measured.iter().map(|(solid, _)| boxed(solid.clone().raised_by(rise_m))).collect();
        Self { raised: (rise_m > 0.0).then(raised), measured }
    }

    /// As high as it may be.
    pub(crate) fn highest(&self) -> &[(Solid, BoundingBox)] {
        self.raised.as_deref().unwrap_or(&self.measured)
    }
}

/// Pieces of a wall that follow the ground, each as high as it is over its highest ground.
fn barrier(a: [f64; 2], b: [f64; 2], radius_m: f64, height_m: f64, ground: &Ground) -> Vec<Solid> {
    let upright = |piece: WallPiece| {
        let z1 = piece.ground_z(ground) + height_m;
        Solid::Upright { a: piece.a, b: piece.b, radius_m, z0: f64::NEG_INFINITY, z1 }
    };
    wall_pieces(a, b, radius_m).map(upright).collect()
}

/// The ground that it takes up. Of a tree only the trunk: an anchor may stand under the crown.
pub(crate) fn footprint(shape: &PlacedShape) -> Vec<Patch> {
    match shape {
        PlacedShape::Tree { at, trunk_radius_m: half_m, .. }
        | PlacedShape::Post { at, radius_m: half_m, .. } => {
            vec![Patch::Strip { a: *at, b: *at, half_m: *half_m }]
        }
        PlacedShape::Building { outline, .. } | PlacedShape::KeepOff { outline } => {
            vec![Patch::Area(outline.clone())]
        }
        PlacedShape::Barrier { line, thickness_m, .. } => {
            line.windows(2).map(|e| Patch::Strip { a: e[0], b: e[1], half_m: thickness_m / 2.0 }).collect()
        }
        PlacedShape::Path { line, width_m, .. } => way_patches(line, *width_m),
    }
}

fn to_patches(p: [f64; 2], patches: &[Patch]) -> Nearest2 {
    patches.iter().fold(Nearest2::FAR, |best, patch| best.or_nearer(patch.near_point(p)))
}

/// One obstacle as the checks look at it.
struct View<'a> {
    thing: &'a PlacedObstacle,
    to: &'a Subject,
    kind: Thing,
    parts: &'a Parts,
    ground: &'a Ground,
}

impl View<'_> {
    fn about(&self, severity: Severity, subject: &Subject) -> YardFinding {
        let (subject, against) = (subject.clone(), Some(self.to.clone()));
        YardFinding { severity, subject, against, source: SourceKey::CommonPractice }
    }

    /// A part of the work that comes too near, or may.
    fn near(&self, part: WorkPart, distance_m: f64, measure: &Measure) -> YardRule {
        let how = if distance_m <= 0.0 {
            Nearness::Inside
        } else if measure.fails() {
            Nearness::TooNear
        } else {
            Nearness::InDoubt
        };
        YardRule::Near { part, thing: self.kind, name: self.thing.name.clone(), how }
    }

    fn measure(&self, value_m: f64, sigma_m: f64) -> Measure {
        Measure {
            value_m,
            half_width_95_m: half_width_95(sigma_m, self.thing.sigma_m),
            limit_m: self.thing.keep_off_m,
        }
    }

    fn on_ground(&self, p: [f64; 2]) -> P3 {
        [p[0], p[1], self.ground.height(p)]
    }

    fn list_flat(&self, work: &Subject, what: Approach, near: Nearest2, log: &mut Log) {
        let (from, to) = (self.on_ground(near.from), self.on_ground(near.to));
        let span = Span { distance_m: near.distance_m, needed_m: self.thing.keep_off_m, from, to };
        log.list(work, self.to, what, span);
    }

    /// Ropes, mast or strands against what stands up. Each guy is found fault with by itself; of the strands only
    /// the nearest.
    fn chains(&self, chains: &[Chain], kind: ChainKind, solids: &Solids, log: &mut Log) {
        let (needed_m, sigma_m) = (self.thing.keep_off_m, self.thing.sigma_m);
        let found = approaches(chains, &solids.measured, needed_m, sigma_m);
        let Some((worst, near)) = found.worst else { return };
        let span = Span {
            distance_m: near.distance_m,
            needed_m: self.thing.keep_off_m,
            from: near.from,
            to: near.to,
        };
        log.list(&chains[worst].subject, self.to, Approach::Chain { kind, to: self.kind }, span);
        let one_by_one = kind != ChainKind::Strand;
        // What comes too near only if it is higher than measured is seen by the raised solids alone.
        let raised = solids.raised.as_ref().map(|raised| approaches(chains, raised, needed_m, sigma_m));
        let short = raised.as_ref().map_or(&found.short, |raised| &raised.short);
        for (i, highest) in short.iter().filter(|(i, _)| one_by_one || *i == worst) {
            let near = match raised {
                Some(_) => chains[*i].to_solids(&solids.measured, f64::INFINITY),
                None => *highest,
            };
            let by_height_m = near.distance_m - highest.distance_m;
            self.chain_finding(&chains[*i], kind, &near, by_height_m, log);
        }
    }

    /// `by_height_m` is how much nearer it comes if the thing is as high as its 95 % interval reaches.
    fn chain_finding(&self, chain: &Chain, kind: ChainKind, near: &Nearest, by_height_m: f64, log: &mut Log) {
        let measure = self.measure(near.distance_m, chain.sigma_m);
        let half_width_95_m = hypot(measure.half_width_95_m, by_height_m);
        let measure = Measure { half_width_95_m, ..measure };
        if !(measure.fails() || measure.in_doubt()) {
            return;
        }
        let rule = self.near(chain.named(kind), near.distance_m, &measure);
        let clear = clear(measure.shortfall(), near.to, near.from);
        let remedy = match kind {
            ChainKind::Rope => YardRemedy::MoveGuy { turn: self.turn(near, measure.shortfall()), clear },
            ChainKind::Mast => YardRemedy::MoveMast { clear },
            ChainKind::Strand | ChainKind::Cone => YardRemedy::MoveStrands { clear },
        };
        let about = self.about(measure.severity(), &chain.subject);
        log.findings.push(about.finding(rule, Some(&measure), remedy));
    }

    /// Which way and about how far a guy turns about the mast to gain a distance; none where turning helps little.
    fn turn(&self, near: &Nearest, gain_m: f64) -> Option<Turn> {
        let away = sub(plan(near.from), plan(near.to));
        let arm = sub(plan(near.from), plan(self.parts.foot));
        let arm_m = super::flat::dot(arm, arm).sqrt();
        // Clockwise from above takes the arm (x, y) towards (y, −x).
        let clockwise = away[0] * arm[1] - away[1] * arm[0];
        if arm_m < 0.5 || clockwise.abs() < 0.5 * near.distance_m * arm_m || near.distance_m <= 0.0 {
            return None;
        }
        Some(Turn { about_deg: atan2_deg(gain_m, arm_m).ceil(), clockwise: clockwise > 0.0 })
    }

    fn pegs(&self, kind: PegKind, patches: &[Patch], log: &mut Log) {
        let mut worst: Option<(&Peg, Nearest2)> = None;
        for peg in self.parts.pegs.iter().filter(|peg| peg.kind == kind) {
            let near = to_patches(plan(peg.at), patches);
            if !near.distance_m.is_finite() {
                continue;
            }
            let measure = self.measure(near.distance_m, peg.sigma_m);
            if measure.fails() || measure.in_doubt() {
                self.peg_finding(peg, near, &measure, log);
            }
            if worst.is_none_or(|(_, least)| near.distance_m < least.distance_m) {
                worst = Some((peg, near));
            }
        }
        if let Some((peg, near)) = worst {
            self.list_flat(&peg.subject, Approach::Peg { kind, to: self.kind }, near, log);
        }
    }

    fn peg_finding(&self, peg: &Peg, near: Nearest2, measure: &Measure, log: &mut Log) {
        let rule = self.near(WorkPart::Peg(peg.named()), near.distance_m, measure);
        let clear = clear(measure.shortfall(), self.on_ground(near.to), peg.at);
        let kind = peg.kind;
        let remedy = match self.kind {
            Thing::Path => YardRemedy::MoveOrMarkPeg { kind, clear },
            _ => YardRemedy::MovePeg { kind, clear },
        };
        log.findings.push(self.about(measure.severity(), &peg.subject).finding(rule, Some(measure), remedy));
    }

    fn timbers(&self, patches: &[Patch], log: &mut Log) {
        let nearest = |outline: &[[f64; 2]]| {
            patches.iter().fold(Nearest2::FAR, |best, patch| best.or_nearer(patch.near_area(outline)))
        };
        let all = self.parts.timbers.iter().map(|timber| (timber, nearest(&timber.outline)));
        let Some((timber, near)) = all.min_by(|a, b| a.1.distance_m.total_cmp(&b.1.distance_m)) else {
            return;
        };
        if !near.distance_m.is_finite() {
            return;
        }
        self.list_flat(&timber.subject, Approach::Timber { to: self.kind }, near, log);
        let measure = self.measure(near.distance_m, self.parts.sigma_m);
        if !(measure.fails() || measure.in_doubt()) {
            return;
        }
        let severity = if near.distance_m <= 0.0 { Severity::Stop } else { measure.severity() };
        let rule = self.near(WorkPart::Base, near.distance_m, &measure);
        let remedy = YardRemedy::MoveMastOrTurnBase { clear: self.clear_of(near, &measure) };
        log.findings.push(self.about(severity, &timber.subject).finding(rule, Some(&measure), remedy));
    }

    fn clear_of(&self, near: Nearest2, measure: &Measure) -> Clear {
        clear(measure.shortfall(), self.on_ground(near.to), self.on_ground(near.from))
    }

    /// The mast's foot against a way or an area that has no height of its own.
    fn mast_foot(&self, patches: &[Patch], log: &mut Log) {
        let near = to_patches(plan(self.parts.foot), patches);
        if !near.distance_m.is_finite() {
            return;
        }
        self.list_flat(&Subject::Mast, Approach::MastFoot { to: self.kind }, near, log);
        let measure = self.measure(near.distance_m, self.parts.sigma_m);
        if measure.fails() || measure.in_doubt() {
            let rule = self.near(WorkPart::Mast, near.distance_m, &measure);
            let remedy = YardRemedy::MoveMast { clear: self.clear_of(near, &measure) };
            let about = self.about(measure.severity(), &Subject::Mast);
            log.findings.push(about.finding(rule, Some(&measure), remedy));
        }
    }

    /// Strand ends in an area to keep off: whoever fastens them treads there.
    fn ring(&self, patches: &[Patch], log: &mut Log) {
        let ends = self.parts.ring.iter().map(|end| to_patches(plan(*end), patches));
        let Some(near) = ends.min_by(|a, b| a.distance_m.total_cmp(&b.distance_m)) else { return };
        self.list_flat(&Subject::Ring, Approach::StrandEnd, near, log);
        let measure = self.measure(near.distance_m, self.parts.sigma_m);
        if measure.fails() || measure.in_doubt() || near.distance_m <= 0.0 {
            let rule = YardRule::RingInKeepOff { name: self.thing.name.clone() };
            let about = self.about(Severity::Caution, &Subject::Ring);
            log.findings.push(about.finding(rule, Some(&measure), YardRemedy::SmallerRing));
        }
    }

    /// What the falling mast would reach.
    fn fall(&self, patches: &[Patch], log: &mut Log) {
        let near = to_patches(plan(self.parts.foot), patches);
        let measure = Measure {
            limit_m: self.parts.fall_radius_m,
            ..self.measure(near.distance_m, self.parts.sigma_m)
        };
        if !(measure.fails() || measure.in_doubt()) {
            return;
        }
        let name = self.thing.name.clone();
        let rule = YardRule::FallReaches { thing: self.kind, name: name.clone() };
        let remedy = YardRemedy::FallElsewhere { name, farther_m: measure.shortfall() };
        let about = self.about(Severity::Caution, &Subject::Mast);
        log.findings.push(about.finding(rule, Some(&measure), remedy));
    }

    /// The lowest point of each rope over a way.
    fn headroom(
        &self,
        chains: &[Chain],
        kind: ChainKind,
        patches: &[Patch],
        limit: &Headroom,
        log: &mut Log,
    ) {
        let over = chains.iter().filter_map(|chain| Some((chain, self.lowest_over(&chain.points, patches)?)));
        let low: Vec<(&Chain, Lowest)> = over.collect();
        let Some(worst) = (0..low.len()).min_by(|a, b| low[*a].1.height_m.total_cmp(&low[*b].1.height_m))
        else {
            return;
        };
        let (chain, lowest) = &low[worst];
        let span = Span {
            distance_m: lowest.height_m,
            needed_m: limit.limit_m,
            from: lowest.at,
            to: self.on_ground(plan(lowest.at)),
        };
        log.list(&chain.subject, self.to, Approach::Headroom { kind }, span);
        for (i, (chain, lowest)) in low.iter().enumerate() {
            if i == worst || kind != ChainKind::Strand {
                self.headroom_finding(chain, kind, lowest, limit, log);
            }
        }
    }

    fn headroom_finding(
        &self,
        chain: &Chain,
        kind: ChainKind,
        lowest: &Lowest,
        limit: &Headroom,
        log: &mut Log,
    ) {
        // A path drawn a little off its place is crossed higher or lower by that much times the rope's rise.
        let measure = Measure {
            value_m: lowest.height_m,
            half_width_95_m: half_width_95(chain.sigma_m, self.thing.sigma_m) * lowest.rise,
            limit_m: limit.limit_m,
        };
        if !(measure.fails() || measure.in_doubt()) {
            return;
        }
        let rule = YardRule::PathHeadroom {
            part: chain.named(kind),
            name: self.thing.name.clone(),
            vehicles: limit.used_by == PathUse::Vehicles,
            in_doubt: !measure.fails(),
        };
        // A level rope is no higher nearer to the mast.
        let nearer_m = (lowest.rise > 0.05).then(|| measure.shortfall() / lowest.rise);
        let source = default_clearances::headroom(limit.used_by).source;
        let about = YardFinding { source, ..self.about(measure.severity(), &chain.subject) };
        let remedy = YardRemedy::CrossNearerToMast { nearer_m };
        log.findings.push(about.finding(rule, Some(&measure), remedy));
    }

    /// Each straight piece is clipped to the way; its height over the ground is taken at both ends and wherever the
    /// ground under it changes its slope, which is exact.
    fn lowest_over(&self, chain: &[P3], patches: &[Patch]) -> Option<Lowest> {
        let mut lowest: Option<Lowest> = None;
        for ends in chain.windows(2) {
            for patch in patches {
                let Some((t0, t1)) = patch.clip(plan(ends[0]), plan(ends[1])) else { continue };
                let run = super::flat::distance(plan(ends[0]), plan(ends[1])).max(1e-9);
                let rise = (ends[1][2] - ends[0][2]).abs() / run;
                let [from, to] = [t0, t1].map(|t| along(ends[0], ends[1], t));
                // Both ends by themselves: an upright piece has no length in plan.
                let mut take = |at: P3, ground_z: f64| {
                    let height_m = at[2] - ground_z;
                    if lowest.as_ref().is_none_or(|low| height_m < low.height_m) {
                        lowest = Some(Lowest { at, height_m, rise });
                    }
                };
                [from, to].into_iter().for_each(|end| take(end, self.ground.height(plan(end))));
                let way = super::flat::distance(plan(from), plan(to)).max(1e-9);
                breaks_along(self.ground, plan(from), plan(to), &mut |p, ground_z| {
                    let share = super::flat::distance(plan(from), p) / way;
                    take(along(from, to, share.min(1.0)), ground_z);
                });
            }
        }
        lowest
    }
}

struct Lowest {
    at: P3,
    height_m: f64,
    /// How much the rope rises per metre in plan there.
    rise: f64,
}
