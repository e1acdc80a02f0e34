//! The work against trees, buildings, barriers, posts, ways and areas to keep off.

use super::clearance::{Log, Span};
use super::flat::{Nearest2, Patch, along, sub, way_patches};
use super::parts::{Chain, Parts, Peg, PegKind, approaches, half_width_95};
use super::pieces::{WallPiece, wall_pieces};
use super::say::{Measure, Rule, at_least};
use super::solid::{Bounds, Nearest, P3, Solid, boxed, plan};
use super::{PlacedObstacle, PlacedShape, habits};
use crate::finding::{Severity, Subject};
use crate::ground::Ground;
use crate::ground::highest::breaks_along;
use crate::habits::rounded_up;
use crate::job::PathUse;
use crate::numerics::real::{atan2_deg, hypot};
use crate::quantity::estimate::COVERAGE_95;
use crate::source::SourceKey;

pub(super) fn check(thing: &PlacedObstacle, parts: &Parts, ground: &Ground, log: &mut Log) {
    let to = Subject::Obstacle { id: thing.id.clone() };
    let view = View { thing, to: &to, kind: kind(&thing.shape), parts, ground };
    let solids = Solids::of(&view);
    if !solids.measured.is_empty() {
        view.chains(&parts.ropes, Part::ROPE, &solids, log);
        view.chains(std::slice::from_ref(&parts.mast), Part::MAST, &solids, log);
        view.chains(&parts.strands, Part::STRAND, &solids, log);
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
            view.headroom(&parts.ropes, Part::ROPE, &patches, &limit, log);
            view.headroom(&parts.strands, Part::STRAND, &patches, &limit, log);
        }
        PlacedShape::KeepOff { .. } => {
            view.mast_foot(&patches, log);
            view.ring(&patches, log);
        }
        _ => {}
    }
}

/// A kind of part in the names and words of findings.
#[derive(Clone, Copy)]
struct Part {
    rule: &'static str,
    word: &'static str,
}

impl Part {
    const ROPE: Part = Part { rule: "guy", word: "rope" };
    const MAST: Part = Part { rule: "mast", word: "mast" };
    const STRAND: Part = Part { rule: "strand", word: "strand" };

    fn named(self, chain: &Chain) -> String {
        match self.rule {
            "guy" => format!("The rope of {}", chain.name),
            "mast" => "The mast".to_owned(),
            _ => "A strand".to_owned(),
        }
    }
}

struct Headroom {
    used_by: PathUse,
    limit_m: f64,
}

fn kind(shape: &PlacedShape) -> &'static str {
    match shape {
        PlacedShape::Tree { .. } => "tree",
        PlacedShape::Building { .. } => "building",
        PlacedShape::Barrier { .. } => "barrier",
        PlacedShape::Post { .. } => "post",
        PlacedShape::Path { .. } => "path",
        PlacedShape::KeepOff { .. } => "keep_off",
    }
}

/// A kind as it is spoken of in the list of clearances.
fn in_words(kind: &'static str) -> &'static str {
    if kind == "keep_off" { "ground to keep off" } else { kind }
}

/// What stands up from the ground; nothing for ways and areas.
fn solids(shape: &PlacedShape, ground: &Ground) -> Vec<(Solid, Bounds)> {
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
struct Solids {
    measured: Vec<(Solid, Bounds)>,
    /// Raised by the half-width of its height's 95 % interval, crowns as much lower; none where its height counts as
    /// it stands.
    raised: Option<Vec<(Solid, Bounds)>>,
}

impl Solids {
    fn of(view: &View) -> Self {
        let measured = solids(&view.thing.shape, view.ground);
        let rise_m = COVERAGE_95 * hypot(view.thing.height_sigma_m, view.guessed_ground_sigma_m());
        let raised = || measured.iter().map(|(solid, _)| boxed(solid.clone().raised_by(rise_m))).collect();
        Self { raised: (rise_m > 0.0).then(raised), measured }
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
fn footprint(shape: &PlacedShape) -> Vec<Patch> {
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
    kind: &'static str,
    parts: &'a Parts,
    ground: &'a Ground,
}

impl View<'_> {
    fn rule<'n>(&self, severity: Severity, name: &'n str, subject: &Subject) -> Rule<'n> {
        Rule {
            severity,
            name,
            subject: subject.clone(),
            against: Some(self.to.clone()),
            source: SourceKey::CommonPractice,
        }
    }

    /// Standard uncertainty of the ground under it against the mast's, where it stands outside the spot heights.
    fn guessed_ground_sigma_m(&self) -> f64 {
        let points = self.thing.shape.stands_on();
        let guessed = points.iter().filter(|at| self.ground.outside(**at).is_some());
        guessed.map(|at| self.ground.difference_sigma(plan(self.parts.foot), *at)).fold(0.0, f64::max)
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

    fn list_flat(&self, work: &Subject, what: String, near: Nearest2, log: &mut Log) {
        let (from, to) = (self.on_ground(near.from), self.on_ground(near.to));
        let span = Span { distance_m: near.distance_m, needed_m: self.thing.keep_off_m, from, to };
        log.list(work, self.to, what, span);
    }

    /// Ropes, mast or strands against what stands up. Each guy is found fault with by itself; of the strands only
    /// the nearest.
    fn chains(&self, chains: &[Chain], part: Part, solids: &Solids, log: &mut Log) {
        let (needed_m, sigma_m) = (self.thing.keep_off_m, self.thing.sigma_m);
        let found = approaches(chains, &solids.measured, needed_m, sigma_m);
        let Some((worst, near)) = found.worst else { return };
        let span = Span {
            distance_m: near.distance_m,
            needed_m: self.thing.keep_off_m,
            from: near.from,
            to: near.to,
        };
        log.list(&chains[worst].subject, self.to, format!("{} to {}", part.word, in_words(self.kind)), span);
        let one_by_one = part.rule != "strand";
        // What comes too near only if it is higher than measured is seen by the raised solids alone.
        let raised = solids.raised.as_ref().map(|raised| approaches(chains, raised, needed_m, sigma_m));
        let short = raised.as_ref().map_or(&found.short, |raised| &raised.short);
        for (i, highest) in short.iter().filter(|(i, _)| one_by_one || *i == worst) {
            let near = match raised {
                Some(_) => chains[*i].to_solids(&solids.measured, f64::INFINITY),
                None => *highest,
            };
            let by_height_m = near.distance_m - highest.distance_m;
            self.chain_finding(&chains[*i], part, &near, by_height_m, log);
        }
    }

    /// `by_height_m` is how much nearer it comes if the thing is as high as its 95 % interval reaches.
    fn chain_finding(&self, chain: &Chain, part: Part, near: &Nearest, by_height_m: f64, log: &mut Log) {
        let measure = self.measure(near.distance_m, chain.sigma_m);
        let half_width_95_m = hypot(measure.half_width_95_m, by_height_m);
        let measure = Measure { half_width_95_m, ..measure };
        if !(measure.fails() || measure.in_doubt()) {
            return;
        }
        let severity = if measure.fails() { Severity::Stop } else { Severity::Caution };
        let (who, name) = (part.named(chain), &self.thing.name);
        let sentence = if near.distance_m <= 0.0 {
            format!("{who} runs into {name}.")
        } else if measure.fails() {
            format!("{who} passes nearer to {name} than it should.")
        } else {
            format!("{who} may pass nearer to {name} than it should: the measurements do not decide it.")
        };
        let clear = at_least(measure.shortfall(), near.to, near.from, self.parts.system);
        let remedy = match part.rule {
            "guy" => match self.turn(near, measure.shortfall()) {
                Some(turn) => format!(
                    "Turn this guy {turn}, or move its anchor or the mast, so that the rope passes {clear}."
                ),
                None => format!("Move this guy's anchor or the mast so that the rope passes {clear}."),
            },
            "mast" => format!("Move the mast {clear}."),
            _ => format!(
                "Move the mast, make the ring smaller or turn its open part this way, so that the strands pass {clear}."
            ),
        };
        let rule = format!("{}_near_{}", part.rule, self.kind);
        log.findings.push(self.rule(severity, &rule, &chain.subject).finding(
            Some(&measure),
            sentence,
            remedy,
        ));
    }

    /// Which way and about how far a guy turns about the mast to gain a distance; none where turning helps little.
    fn turn(&self, near: &Nearest, gain_m: f64) -> Option<String> {
        let away = sub(plan(near.from), plan(near.to));
        let arm = sub(plan(near.from), plan(self.parts.foot));
        let arm_m = super::flat::dot(arm, arm).sqrt();
        // Clockwise from above takes the arm (x, y) towards (y, −x).
        let clockwise = away[0] * arm[1] - away[1] * arm[0];
        if arm_m < 0.5 || clockwise.abs() < 0.5 * near.distance_m * arm_m || near.distance_m <= 0.0 {
            return None;
        }
        let turn_deg = atan2_deg(gain_m, arm_m).ceil();
        let way = if clockwise > 0.0 { "clockwise" } else { "anticlockwise" };
        Some(format!("about {turn_deg:.0}° {way}"))
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
            self.list_flat(&peg.subject, format!("{} to {}", kind.word(), in_words(self.kind)), near, log);
        }
    }

    fn peg_finding(&self, peg: &Peg, near: Nearest2, measure: &Measure, log: &mut Log) {
        let word = peg.kind.word();
        let who = match peg.kind {
            PegKind::Anchor => format!("The anchor of {}", peg.name),
            PegKind::Stake => format!("The stake {}", peg.name),
        };
        let name = &self.thing.name;
        let hazard = if self.kind == "path" { " People trip over it." } else { "" };
        let sentence = if near.distance_m <= 0.0 {
            format!("{who} stands in {name}.{hazard}")
        } else if measure.fails() {
            format!("{who} is nearer to {name} than it should be.{hazard}")
        } else {
            format!("{who} may be nearer to {name} than it should be: the measurements do not decide it.")
        };
        let to = self.on_ground(near.to);
        let remedy =
            format!("Move the {word} {}.", at_least(measure.shortfall(), to, peg.at, self.parts.system));
        let severity = if measure.fails() { Severity::Stop } else { Severity::Caution };
        let rule = format!("{word}_near_{}", self.kind);
        log.findings.push(self.rule(severity, &rule, &peg.subject).finding(Some(measure), sentence, remedy));
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
        self.list_flat(&timber.subject, format!("base timber to {}", in_words(self.kind)), near, log);
        let measure = self.measure(near.distance_m, self.parts.sigma_m);
        if !(measure.fails() || measure.in_doubt()) {
            return;
        }
        let name = &self.thing.name;
        let (severity, sentence) = if near.distance_m <= 0.0 {
            (Severity::Stop, format!("The base lies on {name}."))
        } else if measure.fails() {
            (Severity::Stop, format!("The base is nearer to {name} than it should be."))
        } else {
            let doubt = "the measurements do not decide it";
            (Severity::Caution, format!("The base may be nearer to {name} than it should be: {doubt}."))
        };
        let clear = at_least(
            measure.shortfall(),
            self.on_ground(near.to),
            self.on_ground(near.from),
            self.parts.system,
        );
        let remedy = format!("Move the mast {clear}, or turn the base so that this leg points elsewhere.");
        let rule = format!("base_near_{}", self.kind);
        log.findings.push(self.rule(severity, &rule, &timber.subject).finding(
            Some(&measure),
            sentence,
            remedy,
        ));
    }

    /// The mast's foot against a way or an area that has no height of its own.
    fn mast_foot(&self, patches: &[Patch], log: &mut Log) {
        let near = to_patches(plan(self.parts.foot), patches);
        if !near.distance_m.is_finite() {
            return;
        }
        self.list_flat(&Subject::Mast, format!("mast to {}", in_words(self.kind)), near, log);
        let measure = self.measure(near.distance_m, self.parts.sigma_m);
        if measure.fails() || measure.in_doubt() {
            let severity = if measure.fails() { Severity::Stop } else { Severity::Caution };
            let sentence = format!("The mast stands in {} or too near to it.", self.thing.name);
            let clear = at_least(
                measure.shortfall(),
                self.on_ground(near.to),
                self.on_ground(near.from),
                self.parts.system,
            );
            let rule = format!("mast_near_{}", self.kind);
            log.findings.push(self.rule(severity, &rule, &Subject::Mast).finding(
                Some(&measure),
                sentence,
                format!("Move the mast {clear}."),
            ));
        }
    }

    /// Strand ends in an area to keep off: whoever fastens them treads there.
    fn ring(&self, patches: &[Patch], log: &mut Log) {
        let ends = self.parts.ring.iter().map(|end| to_patches(plan(*end), patches));
        let Some(near) = ends.min_by(|a, b| a.distance_m.total_cmp(&b.distance_m)) else { return };
        self.list_flat(&Subject::Ring, "strand end to ground to keep off".to_owned(), near, log);
        let measure = self.measure(near.distance_m, self.parts.sigma_m);
        if measure.fails() || measure.in_doubt() || near.distance_m <= 0.0 {
            let sentence = format!("Strands end in {} or too near to it.", self.thing.name);
            let remedy = "Make the ring smaller, or leave its part over this area open.".to_owned();
            let rule = self.rule(Severity::Caution, "ring_in_keep_off", &Subject::Ring);
            log.findings.push(rule.finding(Some(&measure), sentence, remedy));
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
        let name = &self.thing.name;
        let sentence = format!("If the mast falls that way it reaches {name}.");
        let remedy = format!(
            "Raise and lower it away from {name}, with nobody there, and lower it before strong wind. \
             To be clear of it the mast would have to stand about {} further away.",
            rounded_up(measure.shortfall(), self.parts.system)
        );
        let rule = format!("fall_reaches_{}", self.kind);
        log.findings.push(self.rule(Severity::Caution, &rule, &Subject::Mast).finding(
            Some(&measure),
            sentence,
            remedy,
        ));
    }

    /// The lowest point of each rope over a way.
    fn headroom(&self, chains: &[Chain], part: Part, patches: &[Patch], limit: &Headroom, log: &mut Log) {
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
        log.list(&chain.subject, self.to, format!("headroom under {} over path", part.word), span);
        for (i, (chain, lowest)) in low.iter().enumerate() {
            if i == worst || part.rule != "strand" {
                self.headroom_finding(chain, part, lowest, limit, log);
            }
        }
    }

    fn headroom_finding(&self, chain: &Chain, part: Part, lowest: &Lowest, limit: &Headroom, log: &mut Log) {
        // A path drawn a little off its place is crossed higher or lower by that much times the rope's rise.
        let measure = Measure {
            value_m: lowest.height_m,
            half_width_95_m: half_width_95(chain.sigma_m, self.thing.sigma_m) * lowest.rise,
            limit_m: limit.limit_m,
        };
        if !(measure.fails() || measure.in_doubt()) {
            return;
        }
        let who = match limit.used_by {
            PathUse::Foot => "people",
            PathUse::Vehicles => "vehicles",
        };
        let (severity, hangs) =
            if measure.fails() { (Severity::Stop, "hangs") } else { (Severity::Caution, "may hang") };
        let sentence = format!("{} {hangs} too low over {} for {who}.", part.named(chain), self.thing.name);
        let nearer = if lowest.rise > 0.05 {
            format!(
                "about {} nearer to the mast, where it is higher",
                rounded_up(measure.shortfall() / lowest.rise, self.parts.system)
            )
        } else {
            "nearer to the mast, where it is higher".to_owned()
        };
        let remedy = format!(
            "Turn or move it so that it crosses {nearer}; or close the way, and mark the rope so that nobody runs into it."
        );
        let source = habits::headroom(limit.used_by).source;
        let rule = Rule { source, ..self.rule(severity, "path_headroom", &chain.subject) };
        log.findings.push(rule.finding(Some(&measure), sentence, remedy));
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
