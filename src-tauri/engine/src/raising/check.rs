//! One way of turning the mast up, held against the yard.

use super::body::{Moving, NearestOnWay, TurningRope, nearest_on_way, swept_outline};
use super::corridor::Corridor;
use super::findings::{YardFinding, not_said, of_mast};
use super::guys::{GuyToTilt, tilted};
use super::lying::{LyingMast, lying_deg};
use super::motion::TiltMotion;
use super::order;
use super::results::*;
use super::said::{BaseOnGround, Setup, open_questions};
use super::trailing::{self, LooseEnd, ThingToCatch};
use crate::finding::raising::{RaisingRemedy, RaisingRule, Unheld};
use crate::finding::yard::{Nearness, Thing};
use crate::finding::{Finding, Limit, Quantity, Rule, Severity, Subject};
use crate::job::{BasePattern, FastBefore, Hinge, Job};
use crate::numerics::real::{cos_deg, hypot, sin_deg};
use crate::plan::Computed;
use crate::quantity::bearing::{turn_deg, wrap_360};
use crate::source::SourceKey;
use crate::yard::buried::to_edge;
use crate::yard::flat::{P2, Patch};
use crate::yard::measure::{Measure, clear};
use crate::yard::obstacle::{Solids, footprint, kind};
use crate::yard::overhead::{band_m, curtains};
use crate::yard::parts::half_width_95;
use crate::yard::solid::{BoundingBox, Solid, plan};
use crate::yard::{PlacedObstacle, PlacedOverheadLine};

/// The job's own way; none where something of it was not said.
pub fn as_said(job: &Job, computed: &Computed) -> Option<RaiseWay> {
    if !open_questions(job, true).is_empty() {
        return None;
    }
    let setup = Setup::of(job, computed);
    Some(Way::of(&setup, &Yard::of(&setup), own_bearing_deg(job, computed)).whole(true))
}

/// What there is to say of how the job's mast is turned up: what stands in its way, or what nobody has said of it.
pub fn findings_as_said(job: &Job, computed: &Computed) -> Vec<Finding> {
    match as_said(job, computed) {
        Some(way) => way.findings,
        None => not_said(open_questions(job, true)).into_iter().collect(),
    }
}

/// The order of the job's own way, and which of its steps may be done sooner or later.
///
/// # Errors
/// What nobody has said of the way: a check that could not be made.
pub fn order_as_said(job: &Job, computed: &Computed) -> Result<RaiseOrder, Box<Finding>> {
    if let Some(open) = not_said(open_questions(job, true)) {
        return Err(Box::new(open));
    }
    let setup = Setup::of(job, computed);
    let guys = Way::of(&setup, &Yard::of(&setup), own_bearing_deg(job, computed)).guys;
    Ok(order::laid_out(&job.raising.order, &guys, setup.turns_with_base()))
}

/// Half the mast's thickness while it turns up, with what is tied along it; none where nobody has said how it turns up, or a cord's
/// thickness is not known.
pub fn radius_as_said(job: &Job, computed: &Computed) -> Option<f64> {
    if !open_questions(job, true).is_empty() {
        return None;
    }
    let setup = Setup::of(job, computed);
    (!setup.strand_thickness_unknown()).then(|| setup.mast_radius_m())
}

pub(super) fn own_bearing_deg(job: &Job, computed: &Computed) -> f64 {
    let by_base = || computed.layout.placed_work.front_bearing_deg + 180.0;
    wrap_360(job.raising.lies_toward_deg.unwrap_or_else(by_base))
}

/// The yard's things as the sweep meets them, made once for all ways.
pub(super) struct Yard<'a> {
    things: Vec<ThingInWay<'a>>,
    lines: Vec<LineInWay<'a>>,
}

struct ThingInWay<'a> {
    thing: &'a PlacedObstacle,
    kind: Thing,
    to: Subject,
    solids: Solids,
    patches: Vec<Patch>,
}

struct LineInWay<'a> {
    line: &'a PlacedOverheadLine,
    to: Subject,
    band_m: f64,
    curtains: Vec<(Solid, BoundingBox)>,
}

impl<'a> Yard<'a> {
    pub fn of(setup: &Setup<'a>) -> Self {
        let (yard, ground) = (&setup.computed.yard, &setup.computed.ground);
        let thing = |thing: &'a PlacedObstacle| ThingInWay {
            thing,
            kind: kind(&thing.shape),
            to: Subject::Obstacle { id: thing.id.clone() },
            solids: Solids::of(thing, ground, setup.mast_at()),
            patches: footprint(&thing.shape),
        };
        let line = |line: &'a PlacedOverheadLine| LineInWay {
            line,
            to: Subject::OverheadLine { id: line.id.clone() },
            band_m: band_m(line, yard.system),
            curtains: curtains(line),
        };
        Self {
            things: yard.obstacles.iter().map(thing).collect(),
            lines: yard.overhead_lines.iter().map(line).collect(),
        }
    }
}

/// One way, as far as it is known before it is held against the yard.
pub(super) struct Way<'a> {
    setup: &'a Setup<'a>,
    yard: &'a Yard<'a>,
    base: BaseOnGround,
    turn: TiltMotion,
    lying_deg: f64,
    length_m: f64,
    corridor: Corridor,
    guys: Vec<TiltedGuy>,
    to_tilt: Vec<GuyToTilt>,
    held: [SideHold; 2],
    moving: Vec<Box<dyn Moving>>,
    /// Those that are fast or tended, with the number of their guy.
    ropes: Vec<(usize, TurningRope)>,
    ropes_near: Vec<TiltClearance>,
    clearances: Vec<TiltClearance>,
    findings: Vec<Finding>,
}

/// How surely a helper lays the mast along its bearing is how surely bearings are read.
const DEGREE: f64 = std::f64::consts::PI / 180.0;

impl<'a> Way<'a> {
    pub fn of(setup: &'a Setup<'a>, yard: &'a Yard<'a>, lies_toward_deg: f64) -> Self {
        let base = setup.base_for(lies_toward_deg);
        let turn = setup.turn(&base, lies_toward_deg);
        let length_m = base.foot_m + setup.top_m() - turn.hinge[2];
        let mast = LyingMast {
            axis_m: setup.axis_off_hinge_m(),
            radius_m: setup.mast_radius_m(),
            length_m,
            rest_height_m: setup.job.raising.rest_height_m,
        };
        let lying_deg = lying_deg(&turn, &mast, &setup.computed.ground, &setup.bumps(&base, &turn));
        let to_tilt = setup.guys(&base);
        let (guys, held) = tilted(&turn, &to_tilt, lying_deg);
        let pieces = setup.pieces(&base, &turn).into_iter();
        let pieces = pieces.map(|piece| Box::new(piece) as Box<dyn Moving>);
        let hanging = setup.hanging(&base).map(|strands| Box::new(strands) as Box<dyn Moving>);
        let moving = pieces.chain(hanging).collect();
        // Ropes that are made fast or tended while it turns; the others are coiled and go with their collars.
        let is_on = |guy: &TiltedGuy| guy.angles.iter().rev().skip(1).any(|at| at.does != GuyDoes::Untied);
        let fast = guys.iter().zip(&to_tilt).enumerate().filter(|(_, (guy, _))| is_on(guy));
        let rope = |(index, (guy, tilt)): (usize, (&TiltedGuy, &GuyToTilt))| {
            let part = SweptPart::Rope { guy: guy.name.clone() };
            (index, TurningRope { part, eye: tilt.eye, collar: tilt.collar })
        };
        let ropes = fast.map(rope).collect();
        let corridor = Corridor::of(&turn, length_m, lying_deg, setup.computed.yard.system);
        Self {
            setup,
            yard,
            base,
            turn,
            lying_deg,
            length_m,
            corridor,
            guys,
            to_tilt,
            held,
            moving,
            ropes,
            ropes_near: Vec::new(),
            clearances: Vec::new(),
            findings: Vec::new(),
        }
    }

    /// Held against everything. `own` is the job's own way, of which it says more.
    pub fn whole(mut self, own: bool) -> RaiseWay {
        let yard = self.yard;
        yard.things.iter().for_each(|thing| self.against_thing(thing));
        yard.lines.iter().for_each(|line| self.against_line(line));
        yard.lines.iter().for_each(|line| self.loose_against_line(line));
        let over = self.corridor.over_boundary(&self.setup.computed.yard, self.aside_m(self.length_m));
        self.findings.extend(over);
        self.hinge();
        self.guys_hold();
        if own {
            self.as_the_job_has_it();
        }
        self.findings.sort_by_key(|finding| finding.severity);
        self.clearances.sort_by(|a, b| (a.distance_m - a.needed_m).total_cmp(&(b.distance_m - b.needed_m)));
        self.result()
    }

    fn way(&self) -> [f64; 2] {
        [self.lying_deg, 90.0]
    }

    /// One sigma of how far a point so far from the mast lies beside its place, the bearing being read.
    fn aside_m(&self, far_m: f64) -> f64 {
        far_m * self.setup.job.yard.instruments.bearing_sigma_deg * DEGREE
    }

    fn aside_at(&self, near: &NearestOnWay) -> f64 {
        let [out, right, _] = self.turn.seen(near.from);
        self.aside_m(hypot(out, right))
    }

    fn against_thing(&mut self, it: &ThingInWay) {
        let (thing, needed_m) = (it.thing, it.thing.keep_off_m);
        // Only what is nearer than this is told.
        let cut_m = needed_m + half_width_95(self.aside_m(self.length_m), thing.sigma_m) + TOLD_M;
        let nearest = |moving: &dyn Moving, solids: &[(Solid, BoundingBox)]| {
            nearest_on_way(moving, &self.turn, self.way(), solids, cut_m)
        };
        let worst = self.moving.iter().filter_map(|moving| {
            let high = nearest(moving.as_ref(), it.solids.highest())?;
            // None where its height counts as it stands: both are the same.
            let measured = it.solids.raised.as_ref().map(|_| &it.solids.measured);
            let near = measured.and_then(|solids| nearest(moving.as_ref(), solids)).unwrap_or(high);
            Some((moving.part().clone(), near, high))
        });
        let worst = worst.min_by(|a, b| a.2.distance_m.total_cmp(&b.2.distance_m));
        if let Some((part, near, high)) = worst {
            let sideways_m = half_width_95(self.aside_at(&near), thing.sigma_m);
            let measure = Measure {
                value_m: near.distance_m,
                half_width_95_m: hypot(sideways_m, near.distance_m - high.distance_m),
                limit_m: needed_m,
            };
            self.clearances.push(row(&part, &it.to, &near, &measure));
            if measure.fails() || measure.in_doubt() {
                let how = match near.distance_m {
                    m if m <= 0.0 => Nearness::Inside,
                    _ if measure.fails() => Nearness::TooNear,
                    _ => Nearness::InDoubt,
                };
                let (name, at_deg) = (thing.name.clone(), near.elevation_deg);
                let rule = RaisingRule::SweepNear { part, thing: it.kind, name, how, at_deg };
                let clear = clear(measure.shortfall(), near.to, near.from);
                let about = YardFinding::mast(measure.severity(), it.to.clone());
                self.findings.push(about.finding(
                    rule,
                    Some(&measure),
                    RaisingRemedy::LayElsewhere { clear },
                ));
            }
        }
        for (index, rope) in self.ropes.clone() {
            self.rope_against(index, &rope, it, cut_m);
        }
        let sigma_m = self.aside_m(self.length_m);
        let system = self.setup.computed.yard.system;
        self.findings.extend(self.corridor.against(thing, &it.patches, sigma_m, system));
        self.stakes_against(&it.patches, needed_m, thing.sigma_m, &thing.name, &it.to);
    }

    /// A slack rope hangs anywhere beneath the way of the taut one: over everything in the triangle of its eye and its
    /// collar's way in plan, and on what the taut one comes near to; ground to keep off is trailed over only where it hangs. A
    /// caution: somebody can lift it over.
    fn rope_against(&mut self, index: usize, rope: &TurningRope, it: &ThingInWay, cut_m: f64) {
        let triangle = self.under(rope);
        let under = it.patches.iter().any(|patch| patch.near_area(&triangle).distance_m <= 0.0);
        let stands = !it.solids.measured.is_empty();
        let Some(guy) = self.guys.get(index) else { return };
        // Its lower end is made fast there, and stays. A slack rope may still catch in a crown.
        if it.kind != Thing::Tree && self.setup.is_fast_to(&guy.id, &it.thing.id) {
            return;
        }
        let near = nearest_on_way(rope, &self.turn, self.way(), it.solids.highest(), cut_m);
        let hangs = guy.angles.iter().any(|at| matches!(at.does, GuyDoes::Slack | GuyDoes::Tended));
        let (guy, id) = (guy.name.clone(), Subject::Guy { id: guy.id.clone() });
        let about = YardFinding { subject: id, ..YardFinding::mast(Severity::Caution, it.to.clone()) };
        if let Some(near) = near.filter(|near| near.distance_m < it.thing.keep_off_m) {
            let measure =
                Measure { value_m: near.distance_m, half_width_95_m: 0.0, limit_m: it.thing.keep_off_m };
            self.ropes_near.push(row(&rope.part, &it.to, &near, &measure));
            let (thing, name, at_deg) = (it.kind, it.thing.name.clone(), Some(near.elevation_deg));
            let rule = RaisingRule::SlackRopeOver { guy, thing, name, at_deg };
            self.findings.push(about.finding(rule, Some(&measure), RaisingRemedy::LiftTheRope));
        } else if under && (stands || it.kind == Thing::Path || hangs) {
            let (thing, name) = (it.kind, it.thing.name.clone());
            let rule = RaisingRule::SlackRopeOver { guy, thing, name, at_deg: None };
            self.findings.push(about.finding(rule, None, RaisingRemedy::LiftTheRope));
        }
    }

    /// The ground under each part's way, and under each rope's.
    fn swept(&self) -> Vec<SweptOutline> {
        let parts = self.moving.iter().map(|moving| SweptOutline {
            part: moving.part().clone(),
            outline: swept_outline(moving.as_ref(), &self.turn, self.way()),
        });
        let ropes = self.ropes.iter();
        let ropes = ropes
            .map(|(_, rope)| SweptOutline { part: rope.part.clone(), outline: self.under(rope).to_vec() });
        parts.chain(ropes).collect()
    }

    /// The triangle in plan under a rope on its way.
    fn under(&self, rope: &TurningRope) -> [P2; 3] {
        let lying = self.turn.at(rope.collar, self.lying_deg.max(0.0));
        [rope.eye, lying, rope.collar].map(plan)
    }

    /// The whole 95 % interval must keep the danger distance: a stop in doubt, too.
    fn against_line(&mut self, it: &LineInWay) {
        let sigma_m = half_width_95(self.aside_m(self.length_m), it.line.sigma_m);
        let cut_m = it.band_m + sigma_m + TOLD_M;
        let nearest =
            |moving: &dyn Moving| nearest_on_way(moving, &self.turn, self.way(), &it.curtains, cut_m);
        let turning =
            self.moving.iter().filter_map(|it| Some((it.part().clone(), None, nearest(it.as_ref())?)));
        let worst = turning.min_by(|a, b| a.2.distance_m.total_cmp(&b.2.distance_m));
        let roped =
            |(index, rope): &(usize, TurningRope)| Some((rope.part.clone(), Some(*index), nearest(rope)?));
        let all: Vec<(SweptPart, Option<usize>, NearestOnWay)> =
            worst.into_iter().chain(self.ropes.iter().filter_map(roped)).collect();
        for (part, guy, near) in all {
            let measure = Measure {
                value_m: near.distance_m,
                half_width_95_m: half_width_95(self.aside_at(&near), it.line.sigma_m),
                limit_m: it.band_m,
            };
            self.clearances.push(row(&part, &it.to, &near, &measure));
            if !(measure.fails() || measure.in_doubt()) {
                continue;
            }
            let of_guy = guy.and_then(|index| self.guys.get(index));
            let subject = of_guy.map_or(Subject::Mast, |guy| Subject::Guy { id: guy.id.clone() });
            let (severity, source) = (Severity::Stop, SourceKey::Cfr1926_1408);
            let about = YardFinding { severity, subject, against: Some(it.to.clone()), source };
            let (line, in_doubt) = (it.line.name.clone(), !measure.fails());
            let at_deg = near.elevation_deg;
            let rule = RaisingRule::SweepNearLine { part, line, in_doubt, at_deg };
            let remedy = RaisingRemedy::KeepAwayFromTheLine { by_m: measure.shortfall() };
            self.findings.push(about.finding(rule, Some(&measure), remedy));
        }
    }

    /// What is fast at its upper end only swings round that as far as it is long: ropes that nobody made fast or that slip out of
    /// a helper's hands, and strands that hang. What reaches in at plumb, too, is the plan's own checks' to tell.
    fn loose_against_line(&mut self, it: &LineInWay) {
        let loose = self.loose_ends(&[GuyDoes::Untied, GuyDoes::Tended]);
        let tried = loose.into_iter().filter_map(|end| {
            let limit_m = end.long_m + it.band_m;
            let doubt_m = half_width_95(self.aside_m(self.length_m), it.line.sigma_m);
            let cut_m = limit_m + doubt_m.max(1e-6);
            let nearest = |way: [f64; 2]| end.nearest(&self.turn, way, &it.curtains, cut_m);
            let near = nearest(self.way())?;
            let half_width_95_m = half_width_95(self.aside_at(&near), it.line.sigma_m);
            let measure = Measure { value_m: near.distance_m, half_width_95_m, limit_m };
            let is_new = nearest([90.0, 90.0]).is_none() && (measure.fails() || measure.in_doubt());
            is_new.then_some((end.part, end.subject, near, measure))
        });
        // The one that reaches in farthest is named.
        let worst = tried.min_by(|a, b| a.3.margin().total_cmp(&b.3.margin()));
        let Some((part, subject, near, measure)) = worst else { return };
        let rule = RaisingRule::LooseEndNearLine {
            part: part.clone(),
            line: it.line.name.clone(),
            at_deg: near.elevation_deg,
        };
        let (severity, source) = (Severity::Caution, SourceKey::Cfr1926_1408);
        let about = YardFinding { severity, subject, against: Some(it.to.clone()), source };
        self.ropes_near.push(row(&part, &it.to, &near, &measure));
        self.findings.push(about.finding(rule, Some(&measure), RaisingRemedy::KeepHoldOfIt));
    }

    /// Ropes with which one of these is done on the way, and strands that hang.
    fn loose_ends(&self, done: &[GuyDoes]) -> Vec<LooseEnd> {
        let is_loose = |guy: &TiltedGuy| guy.angles.iter().rev().skip(1).any(|at| done.contains(&at.does));
        let lengths = self.setup.rope_lengths_m();
        let each = self.guys.iter().zip(&self.to_tilt).zip(lengths).filter(|((guy, _), _)| is_loose(guy));
        let ropes = each.map(|((guy, tilt), long_m)| LooseEnd {
            part: SweptPart::LooseRope { guy: guy.name.clone() },
            subject: Subject::Guy { id: guy.id.clone() },
            top: tilt.collar,
            long_m,
        });
        let strands = self.setup.hanging(&self.base).map(|strands| LooseEnd {
            part: SweptPart::Strands,
            subject: Subject::Ring,
            top: strands.top,
            long_m: strands.length_m + strands.radius_m,
        });
        ropes.chain(strands).collect()
    }

    /// What nobody holds at its lower end, against all that stands or lies within its reach.
    fn trails_on_ground(&self) -> Option<Finding> {
        let ends = self.loose_ends(&[GuyDoes::Untied]);
        let ground = &self.setup.computed.ground;
        let thing = |it: &'a ThingInWay<'a>| {
            let flat = || it.patches.iter().map(|patch| trailing::as_solid(patch, ground)).collect();
            let high = it.solids.highest();
            let solids = if high.is_empty() { flat() } else { high.to_vec() };
            ThingToCatch { name: &it.thing.name, to: &it.to, solids }
        };
        let things: Vec<ThingToCatch> = self.yard.things.iter().map(thing).collect();
        trailing::on_ground(&ends, &self.turn, self.way(), &things)
    }

    /// Stakes of the edge against a thing's ground.
    fn stakes_against(&mut self, patches: &[Patch], keep_m: f64, sigma_m: f64, name: &str, to: &Subject) {
        let stakes = self.temporary_stakes();
        let near = |patch: &Patch| {
            stakes.iter().map(|at| patch.near_point(*at).distance_m).fold(f64::INFINITY, f64::min)
        };
        let nearest = patches.iter().map(near).fold(f64::INFINITY, f64::min);
        self.stake_finding(nearest, keep_m, sigma_m, name, to, SourceKey::CommonPractice);
    }

    fn stake_finding(
        &mut self,
        nearest_m: f64,
        keep_m: f64,
        sigma_m: f64,
        name: &str,
        to: &Subject,
        source: SourceKey,
    ) {
        let half_width_95_m = half_width_95(sigma_m, 0.0);
        let measure = Measure { value_m: nearest_m, half_width_95_m, limit_m: keep_m };
        if measure.fails() || measure.in_doubt() {
            let rule = RaisingRule::StakeHasNoPlace { name: name.to_owned(), in_doubt: !measure.fails() };
            let about = YardFinding {
                subject: Subject::Base,
                source,
                ..YardFinding::mast(measure.severity(), to.clone())
            };
            self.findings.push(about.finding(rule, Some(&measure), RaisingRemedy::MoveTheStake));
        }
    }

    /// Whether the hinge is there and can be held.
    fn hinge(&mut self) {
        let base = &self.setup.job.rig.base;
        if self.setup.turns_with_base() {
            if base.pattern == BasePattern::X {
                let (rule, remedy) = (RaisingRule::BackLegInTheWay, RaisingRemedy::TakeOffTheBackLeg);
                self.findings.push(of_mast(Severity::Stop, rule, remedy));
            }
            let stakes = self.temporary_stakes();
            for service in &self.setup.computed.yard.buried_services {
                let off = |at: &P2| to_edge(service, *at).distance_m;
                let edge_m = stakes.iter().map(off).fold(f64::INFINITY, f64::min);
                let to = Subject::BuriedService { id: service.id.clone() };
                let (keep_m, sigma_m, source) =
                    (service.tolerance_m, service.sigma_m, SourceKey::CgaTolerance);
                self.stake_finding(edge_m, keep_m, sigma_m, &service.name, &to, source);
            }
        } else if self.setup.job.rig.stakes.per_leg == 0 {
            let rule = RaisingRule::HingeUnheld { because: Unheld::NoStakes };
            self.findings.push(of_mast(Severity::Stop, rule, RaisingRemedy::StakeTheBase));
        }
    }

    /// Outside the edge, as far in from the cross leg's tips as the base's own stakes are.
    fn temporary_stakes(&self) -> Vec<P2> {
        if !self.setup.turns_with_base() {
            return Vec::new();
        }
        let rig = &self.setup.job.rig;
        let right_m = (rig.base.side_reach_m - rig.stakes.inset_m).max(0.0);
        let out_m = rig.stakes.diameter_mm / 2000.0;
        [-right_m, right_m].map(|right_m| self.turn.plan(out_m, right_m)).to_vec()
    }

    /// Whether it is kept from going over past plumb and sideways.
    fn guys_hold(&mut self) {
        if !self.guys.iter().any(|guy| guy.role == GuyRole::Stop) {
            let (rule, remedy) = (RaisingRule::NoStopGuy, RaisingRemedy::AnchorOnTheLyingSide);
            self.findings.push(of_mast(Severity::Stop, rule, remedy));
        }
        for (held, on_right) in self.held.into_iter().zip([false, true]) {
            if held == SideHold::Nobody {
                let rule = RaisingRule::SideNotHeld { on_right };
                self.findings.push(of_mast(Severity::Stop, rule, RaisingRemedy::SetALine));
            }
        }
        let tended = self.guys.iter().filter(|guy| guy.angles.iter().any(|at| at.does == GuyDoes::Tended));
        let note = |guy: &TiltedGuy| Finding {
            measured: Some(Quantity::LengthM { value: guy.most_short_m.max(guy.most_slack_m) }),
            ..Finding::rule_of_thumb(
                Severity::Note,
                RaisingRule::Tended { guy: guy.name.clone() },
                Subject::Guy { id: guy.id.clone() },
                RaisingRemedy::PutAHelper,
            )
        };
        let notes: Vec<Finding> = tended.map(note).collect();
        self.findings.extend(notes);
    }

    /// What the job says of its own way: where the base faces, which guys are fast, in what order.
    fn as_the_job_has_it(&mut self) {
        let said = &self.setup.job.raising;
        let own_deg = self.setup.computed.layout.placed_work.front_bearing_deg;
        let turn = turn_deg(own_deg, self.base.front_bearing_deg);
        if said.hinge == Hinge::BaseEdge && turn.abs() > FACES_WITHIN_DEG {
            let rule = RaisingRule::BaseFacesElsewhere { turn_deg: turn };
            let remedy = RaisingRemedy::TurnTheBase { front_bearing_deg: self.base.front_bearing_deg };
            self.findings.push(Finding {
                measured: Some(Quantity::AngleDeg { value: turn.abs() }),
                limit: Limit::at_most(Quantity::AngleDeg { value: FACES_WITHIN_DEG }),
                ..of_mast(Severity::Stop, rule, remedy)
            });
        }
        if self.setup.strand_thickness_unknown() {
            self.findings.push(thickness_unknown());
        }
        let trails = self.trails_on_ground();
        self.findings.extend(trails);
        let fast: Vec<&str> = match &said.fast_before {
            FastBefore::These { guys } => guys.iter().map(String::as_str).collect(),
            FastBefore::AsNeeded | FastBefore::Unsaid => self.stay_fast().collect(),
        };
        let unknown = fast.iter().filter(|id| self.guys.iter().all(|guy| guy.id != **id));
        let unknown = unknown.map(|id| {
            let rule = RaisingRule::NoSuchGuy { id: (*id).to_owned() };
            of_mast(Severity::Caution, rule, RaisingRemedy::NameAGuy)
        });
        let mut found: Vec<Finding> = unknown.collect();
        for (guy, tilt) in self.guys.iter().zip(&self.to_tilt) {
            found.extend(fast_or_not(guy, tilt, fast.contains(&guy.id.as_str())));
        }
        if !said.order.is_empty() {
            found.extend(order::check(&said.order, &self.guys));
        }
        self.findings.extend(found);
    }

    /// Stop guys and side guys that are never too short.
    fn stay_fast(&self) -> impl Iterator<Item = &str> {
        let stays = |(guy, tilt): &(&TiltedGuy, &GuyToTilt)| {
            guy.role != GuyRole::Far && guy.most_short_m <= tilt.gives_m
        };
        self.guys.iter().zip(&self.to_tilt).filter(stays).map(|(guy, _)| guy.id.as_str())
    }

    fn result(self) -> RaiseWay {
        let said = &self.setup.job.raising.order;
        let steps = if said.is_empty() {
            order::usual(&self.guys, self.setup.turns_with_base())
        } else {
            said.clone()
        };
        let half_m = self.setup.job.rig.base.side_reach_m;
        let at_hinge = |right_m: f64| {
            let [east, north] = self.turn.plan(0.0, right_m);
            [east, north, self.turn.hinge[2]]
        };
        let clear = !self.findings.iter().any(blocks);
        let swept = self.swept();
        let mut way = RaiseWay {
            lies_toward_deg: self.turn.lies_toward_deg,
            front_bearing_deg: self.base.front_bearing_deg,
            hinge: self.turn.hinge,
            ground_m: self.setup.computed.layout.mast.ground_m,
            hinge_line: [at_hinge(-half_m), at_hinge(half_m)],
            lying_deg: self.lying_deg,
            reach_m: self.moving.iter().map(|it| it.speed_m(&self.turn) + it.radius_m()).fold(0.0, f64::max),
            temporary_stakes: self.temporary_stakes(),
            corridor: self.corridor.strip,
            guys: self.guys,
            held: self.held,
            clearances: self.clearances,
            ropes_near: self.ropes_near,
            swept,
            steps,
            findings: self.findings,
            clear,
            score: None,
        };
        way.score = clear.then(|| super::ways::score(&way));
        way
    }
}

fn row(part: &SweptPart, to: &Subject, near: &NearestOnWay, measure: &Measure) -> TiltClearance {
    TiltClearance {
        part: part.clone(),
        to: to.clone(),
        distance_m: near.distance_m,
        half_width_95_m: measure.half_width_95_m,
        needed_m: measure.limit_m,
        elevation_deg: near.elevation_deg,
        from_point: near.from,
        to_point: near.to,
    }
}

/// How far beyond what is needed a thing is still listed.
const TOLD_M: f64 = 1.5;

/// How far the base may face beside the bearing that was said: what a helper's eye gives.
/// Common practice.
const FACES_WITHIN_DEG: f64 = 2.0;

/// Whether a finding keeps a way from being clear: a stop, and what is in doubt; a rope that can be lifted does not.
pub(super) fn blocks(finding: &Finding) -> bool {
    let lifts = matches!(
        finding.rule,
        Rule::Raising(RaisingRule::SlackRopeOver { .. } | RaisingRule::LooseEndNearLine { .. })
    );
    // Where people tread: a caution asks for clearing or closing, not for another way.
    let strip = matches!(
        finding.rule,
        Rule::Raising(
            RaisingRule::CorridorOverBoundary { mast_too: false }
                | RaisingRule::CorridorOn { .. }
                | RaisingRule::CorridorBlocked { .. }
        )
    );
    finding.severity == Severity::Stop || (!lifts && !strip && finding.may_pass_its_limit())
}

pub(super) fn thickness_unknown() -> Finding {
    let (rule, remedy) = (RaisingRule::StrandThicknessUnknown, RaisingRemedy::EnterTheStrandsThickness);
    of_mast(Severity::Unchecked, rule, remedy)
}

/// A guy that the job has made fast before, or has not.
fn fast_or_not(guy: &TiltedGuy, tilt: &GuyToTilt, is_fast: bool) -> Option<Finding> {
    let of = |severity, rule, remedy| {
        Finding::rule_of_thumb(severity, rule, Subject::Guy { id: guy.id.clone() }, remedy)
    };
    let name = guy.name.clone();
    if is_fast && guy.most_short_m > tilt.gives_m {
        let rule = RaisingRule::TooShortUntilPlumb { guy: name };
        return Some(Finding {
            measured: Some(Quantity::LengthM { value: guy.most_short_m }),
            limit: Limit::at_most(Quantity::LengthM { value: tilt.gives_m }),
            source: SourceKey::Geometry,
            ..of(Severity::Stop, rule, RaisingRemedy::UntieUntilPlumb)
        });
    }
    let rule = RaisingRule::StopGuyNotFast { guy: name };
    // One that has to be tended is in a helper's hands.
    let stays = guy.most_short_m <= tilt.gives_m;
    (!is_fast && stays && guy.role == GuyRole::Stop)
        .then(|| of(Severity::Stop, rule, RaisingRemedy::MakeFastBefore))
}

impl Setup<'_> {
    /// How far the mast's axis lies over the hinge while the mast lies level.
    fn axis_off_hinge_m(&self) -> f64 {
        if self.turns_with_base() { self.job.rig.base.timber_width_mm / 2000.0 } else { 0.0 }
    }

    /// Upper edges of the timbers that the mast can come to lie on when the base stays where it is: so far out, so high over
    /// the hinge.
    fn bumps(&self, base: &BaseOnGround, turn: &TiltMotion) -> Vec<[f64; 2]> {
        if self.turns_with_base() {
            return Vec::new();
        }
        let timbers = &self.job.rig.base;
        let up_m = base.frame.underside_m + timbers.timber_depth_mm / 1000.0 - turn.hinge[2];
        let (half_m, radius_m) = (timbers.timber_width_mm / 2000.0, self.mast_radius_m());
        let legs = base.frame.legs.iter().filter_map(|leg| {
            let off_deg = turn_deg(turn.lies_toward_deg, leg.bearing_deg).abs();
            let (cos, sin) = (cos_deg(off_deg), sin_deg(off_deg));
            if cos <= 0.1 {
                return None;
            }
            // Until the mast's side leaves the leg's.
            let leaves_m = if sin > 1e-6 { (radius_m * cos + half_m) / sin } else { f64::INFINITY };
            Some([(leg.reach_m * cos + half_m * sin).min(leaves_m.max(0.0)), up_m])
        });
        legs.collect()
    }
}
