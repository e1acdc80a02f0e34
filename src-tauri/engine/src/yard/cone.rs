//! The strands as the cone that they span, and the ring as the line on which they end: what reaches in between two strands,
//! and what the ring passes over between their ends. The strands themselves, and their ends, are measured by [`super::check`].

use super::approach::{Approach, ChainKind};
use super::boundary::depth;
use super::buried::to_edge;
use super::clearance::{Clearance, Log, Span};
use super::flat::P2;
use super::measure::{Measure, YardFinding, clear};
use super::obstacle::{Solids, footprint, kind};
use super::overhead::{band_m, curtains};
use super::parts::half_width_95;
use super::solid::{BoundingBox, Nearest, P3, Solid, plan};
use super::{PlacedBuriedService, PlacedObstacle, PlacedOverheadLine, PlacedYard};
use crate::finding::buried::{BuriedRemedy, BuriedRule};
use crate::finding::overhead::{OverheadRemedy, OverheadRule};
use crate::finding::yard::{Nearness, OverBoundary, Thing, WorkPart, YardRemedy, YardRule};
use crate::finding::{Finding, Severity, Subject};
use crate::ground::Ground;
use crate::numerics::certified::{WITHIN_M, least};
use crate::numerics::real::hypot;
use crate::quantity::bearing;
use crate::source::SourceKey;
use crate::strands::RingResult;

/// The surface over which strands could hang all the way from the first to the last: from the circle at the top straight down
/// to the ring, which is round in plan, and as high between two ends as the line between them.
#[derive(Debug, Clone)]
pub struct StrandCone<'a> {
    ring: &'a RingResult,
    middle: P2,
    first_deg: f64,
    step_deg: f64,
    /// Between how many pairs of neighbours it lies.
    gaps: usize,
}

impl<'a> StrandCone<'a> {
    /// None where fewer than two strands hang.
    pub fn of(ring: &'a RingResult, middle: P2, sweep_deg: f64) -> Option<Self> {
        let count = ring.points.len().min(ring.tops.len());
        let first = ring.points.first().filter(|_| count >= 2)?;
        let is_full = sweep_deg >= 360.0;
        let gaps = if is_full { count } else { count - 1 };
        let first_deg = bearing::of_vector(first[0] - middle[0], first[1] - middle[1]);
        Some(Self { ring, middle, first_deg, step_deg: sweep_deg.min(360.0) / gaps as f64, gaps })
    }

    /// The strand that would hang so many gaps on from the first, from its upper end to its lower one.
    pub fn strand(&self, gaps_on: f64) -> [P3; 2] {
        let [east, north] = bearing::unit(self.first_deg + self.step_deg * gaps_on);
        let out = |radius_m: f64, up_m: f64| {
            [self.middle[0] + radius_m * east, self.middle[1] + radius_m * north, up_m]
        };
        let count = self.ring.points.len();
        let before = (gaps_on.max(0.0) as usize).min(self.gaps - 1);
        let share = gaps_on - before as f64;
        let height = |ends: &[P3]| {
            let [from, to] = [ends[before % count][2], ends[(before + 1) % count][2]];
            from + share * (to - from)
        };
        let ring = self.ring;
        [out(ring.top_radius_m, height(&ring.tops)), out(ring.radius_m, height(&ring.points))]
    }

    /// How far any point of a strand goes for each gap, at the most.
    fn speed_m(&self) -> f64 {
        let count = self.ring.points.len();
        let rise = |ends: &[P3]| {
            let of_gap = |i: usize| (ends[(i + 1) % count][2] - ends[i % count][2]).abs();
            (0..self.gaps).map(of_gap).fold(0.0, f64::max)
        };
        let around = |radius_m: f64| radius_m * self.step_deg.to_radians();
        let ring = self.ring;
        let end_m = |radius_m: f64, ends: &[P3]| hypot(around(radius_m), rise(ends));
        end_m(ring.radius_m, &ring.points).max(end_m(ring.top_radius_m, &ring.tops))
    }

    fn bounds(&self) -> BoundingBox {
        let around = |ends: &[P3], radius_m: f64| {
            let z = |worse: fn(f64, f64) -> f64, from: f64| ends.iter().map(|p| p[2]).fold(from, worse);
            let [x, y] = self.middle;
            let low = [x - radius_m, y - radius_m, z(f64::min, f64::INFINITY)];
            [low, [x + radius_m, y + radius_m, z(f64::max, f64::NEG_INFINITY)]]
        };
        let ring = self.ring;
        let corners = around(&ring.points, ring.radius_m).into_iter();
        BoundingBox::of(corners.chain(around(&ring.tops, ring.top_radius_m)))
    }

    /// Where the cone comes nearest to solids, as far as that is below `cut_m`.
    ///
    /// # Accuracy
    /// Never more than the true distance, and less by no more than [`WITHIN_M`]: each strand's own distance is exact, and from
    /// one strand to the next it can't change faster than a strand's end goes.
    pub fn near(&self, solids: &[(Solid, BoundingBox)], cut_m: f64) -> Option<Nearest> {
        let (around, speed_m, all) = (self.bounds(), self.speed_m(), [0.0, self.gaps as f64]);
        let mut found: Option<Nearest> = None;
        for (solid, bounds) in solids {
            let cut_m = found.map_or(cut_m, |near| near.distance_m + WITHIN_M);
            if around.gap(bounds) >= cut_m {
                continue;
            }
            let near = |at: f64| {
                let [top, end] = self.strand(at);
                solid.near_segment(top, end)
            };
            if let Some(least) = least(|at| near(at).distance_m, all, speed_m, cut_m) {
                found = Some(Nearest { distance_m: (least.value - WITHIN_M).max(0.0), ..near(least.at) });
            }
        }
        found
    }

    /// The least along the ring of a measure that changes by no more than a metre each metre, with where it is; as far as it
    /// is below `cut_m`. At most [`WITHIN_M`] less than it is.
    fn least_on_ring(&self, of: impl Fn(P2) -> f64, cut_m: f64) -> Option<(f64, P3)> {
        let end = |at: f64| self.strand(at)[1];
        // Far over nought, where nothing nearer is looked for any more.
        const OVER_M: f64 = 1e6;
        let around_m = self.ring.radius_m * self.step_deg.to_radians();
        let all = [0.0, self.gaps as f64];
        let least = least(|at| of(plan(end(at))) + OVER_M, all, around_m, cut_m + OVER_M)?;
        Some((least.value - OVER_M - WITHIN_M, end(least.at)))
    }
}

/// What only the surface comes too near to, and no strand or end of one: a caution, since nothing touches it as long as nothing
/// moves; near wires a stop. `known` is what was found of the strands: of what they come too near to themselves nothing is said
/// again. Beside each finding stands where it is.
pub fn check(
    yard: &PlacedYard,
    cone: &StrandCone,
    sigma_m: f64,
    ground: &Ground,
    known: &[Finding],
) -> (Vec<Finding>, Vec<Clearance>) {
    let mut view = View { cone, sigma_m, known, log: Log::default() };
    for thing in &yard.obstacles {
        view.thing(thing, &Solids::of(thing, ground, cone.middle));
    }
    for line in &yard.overhead_lines {
        view.wire(line, band_m(line, yard.system));
    }
    for service in &yard.buried_services {
        view.service(service);
    }
    view.boundary(yard);
    (view.log.findings, view.log.clearances)
}

struct View<'a> {
    cone: &'a StrandCone<'a>,
    /// Of where the mast stands, as everywhere in the checks.
    sigma_m: f64,
    known: &'a [Finding],
    log: Log,
}

impl View<'_> {
    fn measure(&self, value_m: f64, sigma_m: f64, limit_m: f64) -> Measure {
        Measure { value_m, half_width_95_m: half_width_95(self.sigma_m, sigma_m), limit_m }
    }

    /// Far enough off that it is out of all doubt.
    fn cut_m(&self, sigma_m: f64, limit_m: f64) -> f64 {
        limit_m + half_width_95(self.sigma_m, sigma_m).max(1e-6)
    }

    fn is_said(&self, to: &Subject) -> bool {
        let of_ring = |it: &&Finding| it.subject == Subject::Ring && it.against.as_ref() == Some(to);
        self.known.iter().filter(of_ring).any(|it| it.severity <= Severity::Caution)
    }

    fn put(&mut self, finding: Finding, to: &Subject, what: Approach, span: Span) {
        self.log.findings.push(finding);
        self.log.list(&Subject::Ring, to, what, span);
    }

    fn thing(&mut self, thing: &PlacedObstacle, solids: &Solids) {
        let to = Subject::Obstacle { id: thing.id.clone() };
        if self.is_said(&to) {
            return;
        }
        let of = kind(&thing.shape);
        if of == Thing::KeepOff {
            return self.keep_off(thing, &to);
        }
        // As high as it may be it comes nearest; what it measures counts by itself.
        let cut_m = self.cut_m(thing.sigma_m, thing.keep_off_m);
        let Some(high) = self.cone.near(solids.highest(), cut_m) else { return };
        let measured = solids.raised.as_ref().and_then(|_| self.cone.near(&solids.measured, f64::INFINITY));
        let near = measured.unwrap_or(high);
        let measure = self.measure(near.distance_m, thing.sigma_m, thing.keep_off_m);
        let half_width_95_m = hypot(measure.half_width_95_m, near.distance_m - high.distance_m);
        let measure = Measure { half_width_95_m, ..measure };
        if !(measure.fails() || measure.in_doubt()) {
            return;
        }
        let how = match near.distance_m {
            m if m <= 0.0 => Nearness::Inside,
            _ if measure.fails() => Nearness::TooNear,
            _ => Nearness::InDoubt,
        };
        let rule = YardRule::Near { part: WorkPart::Cone, thing: of, name: thing.name.clone(), how };
        let remedy = YardRemedy::MoveStrands { clear: clear(measure.shortfall(), near.to, near.from) };
        let finding =
            about(Severity::Caution, &to, SourceKey::CommonPractice).finding(rule, Some(&measure), remedy);
        self.put(finding, &to, Approach::Chain { kind: ChainKind::Cone, to: of }, span(&near, &measure));
    }

    /// Whoever fastens strands treads all along the ring.
    fn keep_off(&mut self, thing: &PlacedObstacle, to: &Subject) {
        let patches = footprint(&thing.shape);
        let off_m =
            |p: P2| patches.iter().map(|it| it.near_point(p).distance_m).fold(f64::INFINITY, f64::min);
        let cut_m = self.cut_m(thing.sigma_m, thing.keep_off_m);
        let Some((least_m, at)) = self.cone.least_on_ring(off_m, cut_m) else { return };
        let measure = self.measure(least_m.max(0.0), thing.sigma_m, thing.keep_off_m);
        let rule = YardRule::RingInKeepOff { name: thing.name.clone() };
        let about = about(Severity::Caution, to, SourceKey::CommonPractice);
        let finding = about.finding(rule, Some(&measure), YardRemedy::SmallerRing);
        self.put(finding, to, Approach::StrandEnd, at_one(at, &measure));
    }

    /// Doubt counts as failure here: the whole 95 % interval must be clear.
    fn wire(&mut self, line: &PlacedOverheadLine, band_m: f64) {
        let to = Subject::OverheadLine { id: line.id.clone() };
        let is_stop = |it: &Finding| it.severity == Severity::Stop && it.subject == Subject::Ring;
        if self.known.iter().any(|it| is_stop(it) && it.against.as_ref() == Some(&to)) {
            return;
        }
        let Some(near) = self.cone.near(&curtains(line), self.cut_m(line.sigma_m, band_m)) else { return };
        let measure = self.measure(near.distance_m, line.sigma_m, band_m);
        let in_doubt = !measure.fails();
        let rule = OverheadRule::Near { part: WorkPart::Cone, line: line.name.clone(), in_doubt };
        let remedy = OverheadRemedy::MoveTheWork { by_m: measure.shortfall() };
        let about = about(Severity::Stop, &to, SourceKey::Cfr1926_1408);
        let voltage_known = line.voltage_kv.is_some();
        let what = Approach::ChainToWire { kind: ChainKind::Cone, voltage_known };
        self.put(about.finding(rule, Some(&measure), remedy), &to, what, span(&near, &measure));
    }

    fn service(&mut self, service: &PlacedBuriedService) {
        let to = Subject::BuriedService { id: service.id.clone() };
        if self.is_said(&to) {
            return;
        }
        let cut_m = self.cut_m(service.sigma_m, service.tolerance_m);
        let off_m = |p: P2| to_edge(service, p).distance_m;
        let Some((least_m, at)) = self.cone.least_on_ring(off_m, cut_m) else { return };
        let measure = self.measure(least_m.max(0.0), service.sigma_m, service.tolerance_m);
        let rule = BuriedRule::RingInZone { service: service.name.clone() };
        let about = about(Severity::Caution, &to, SourceKey::CgaTolerance);
        let finding = about.finding(rule, Some(&measure), BuriedRemedy::WeighTheRingDown);
        self.put(finding, &to, Approach::RingToService, at_one(at, &measure));
    }

    fn boundary(&mut self, yard: &PlacedYard) {
        let Some(outline) = yard.boundary.as_ref().filter(|_| !self.is_said(&Subject::Boundary)) else {
            return;
        };
        let cut_m = self.cut_m(yard.boundary_sigma_m, 0.0);
        let Some((depth_m, at)) = self.cone.least_on_ring(|p| depth(outline, p).0, cut_m) else { return };
        let measure = self.measure(depth_m, yard.boundary_sigma_m, 0.0);
        let edge = depth(outline, plan(at)).1;
        let edge = [edge[0], edge[1], at[2]];
        let (back, front) = if measure.fails() { (at, edge) } else { (edge, at) };
        let rule = YardRule::OverBoundary { part: OverBoundary::Ring, in_doubt: !measure.fails() };
        let remedy = YardRemedy::MoveInside { clear: clear(measure.shortfall(), back, front) };
        let about = about(measure.severity(), &Subject::Boundary, SourceKey::Geometry);
        let span = Span { distance_m: depth_m, needed_m: 0.0, from: at, to: edge };
        let what = Approach::Boundary { of: OverBoundary::Ring };
        self.put(about.finding(rule, Some(&measure), remedy), &Subject::Boundary, what, span);
    }
}

fn about(severity: Severity, to: &Subject, source: SourceKey) -> YardFinding {
    YardFinding { severity, subject: Subject::Ring, against: Some(to.clone()), source }
}

fn span(near: &Nearest, measure: &Measure) -> Span {
    Span { distance_m: near.distance_m, needed_m: measure.limit_m, from: near.from, to: near.to }
}

fn at_one(at: P3, measure: &Measure) -> Span {
    Span { distance_m: measure.value_m, needed_m: measure.limit_m, from: at, to: at }
}
