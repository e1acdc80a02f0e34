//! Each clearance as the distance between two points that move from draw to draw.

use super::SampledWork;
use super::survey::{SampledYard, Survey};
use crate::finding::Subject;
use crate::ground::Ground;
use crate::job::{Job, PointFix, Shape};
use crate::numerics::real::hypot;
use crate::plan::{Clearance, Plan};
use crate::pointer;
use crate::quantity::{FieldError, FieldErrors};
use crate::yard::approach::Approach;
use crate::yard::flat::nearest_on;

/// Nearer than this two things touch and no direction is left between them.
const TOUCHING_M: f64 = 1e-6;

/// A point of the work, by what it moves with.
#[derive(Debug, Clone, Copy)]
enum WorkPoint {
    /// On the ground at an anchor.
    Anchor(usize),
    /// On a guy's rope, this share of the way up from its eye.
    Rope { guy: usize, up: f64 },
    /// On the mast's axis.
    Mast,
    /// On the base: it turns about the mast.
    Base,
    /// On a strand, this share of the way up from the ring.
    Strand { up: f64 },
}

/// What stands in the yard, between two drawn points.
#[derive(Debug, Clone, Copy)]
struct Thing {
    from: usize,
    to: usize,
    share: f64,
    height: Option<Sighted>,
}

/// A height that was estimated or sighted: which one of the yard's, and one sigma of it.
#[derive(Debug, Clone, Copy)]
enum Sighted {
    Wire(usize, f64),
    Thing(usize, f64),
}

impl Sighted {
    fn error_m(self, yard: &SampledYard) -> f64 {
        match self {
            Self::Wire(line, sigma_m) => sigma_m * yard.wires[line],
            Self::Thing(thing, sigma_m) => sigma_m * yard.things[thing],
        }
    }
}

/// A clearance that is followed to first order.
pub(super) struct Link {
    margin_m: f64,
    part: WorkPoint,
    thing: Thing,
    /// Nearest points as planned, with the ground's height under each.
    from: [f64; 3],
    to: [f64; 3],
    from_ground_m: f64,
    to_ground_m: f64,
    mast: [f64; 2],
    kind: Kind,
}

enum Kind {
    /// Along the unit vector from the work to the thing; the sign turns where the work lies beyond a boundary.
    Apart { toward: [f64; 3], sign: f64 },
    /// Height over a path: the rope falls `per_m` for each metre that the path's edge moves outwards along it, and an
    /// edge with this normal moves (n·d)/(n·t) along it.
    Headroom { per_edge: [f64; 2] },
}

impl Link {
    pub(super) fn margin_m(&self, yard: &SampledYard, work: &SampledWork) -> f64 {
        let thing = self.thing_moved(yard);
        let part = self.part_moved(yard, work);
        let [east, north, up] = [thing[0] - part[0], thing[1] - part[1], thing[2] - part[2]];
        match &self.kind {
            Kind::Apart { toward, sign } => {
                self.margin_m + sign * (toward[0] * east + toward[1] * north + toward[2] * up)
            }
            Kind::Headroom { per_edge } => {
                // The ground under the crossing rises with the thing; the rope's own rise is in `part`.
                self.margin_m - up + per_edge[0] * east + per_edge[1] * north
            }
        }
    }

    fn thing_moved(&self, yard: &SampledYard) -> [f64; 3] {
        let (a, b) = (yard.moved[self.thing.from], yard.moved[self.thing.to]);
        let at = |axis: usize| a[axis] + self.thing.share * (b[axis] - a[axis]);
        let (east, north) = (at(0), at(1));
        let height_m = self.thing.height.map_or(0.0, |height| height.error_m(yard));
        let ground_m = yard.ground.height([self.to[0] + east, self.to[1] + north]);
        [east, north, ground_m - self.to_ground_m + height_m]
    }

    fn part_moved(&self, yard: &SampledYard, work: &SampledWork) -> [f64; 3] {
        let [mast_east, mast_north] = work.mast_moved;
        // A point at `arm` from the mast turns clockwise with the base.
        let arm = [self.from[0] - self.mast[0], self.from[1] - self.mast[1]];
        let turned = [mast_east + work.turned_rad * arm[1], mast_north - work.turned_rad * arm[0]];
        let rise = |moved: [f64; 2]| {
            yard.ground.height([self.from[0] + moved[0], self.from[1] + moved[1]]) - self.from_ground_m
        };
        match self.part {
            WorkPoint::Mast => [mast_east, mast_north, work.foot_rise_m],
            WorkPoint::Base => [turned[0], turned[1], rise(turned)],
            WorkPoint::Anchor(guy) => {
                let ([east, north], up) = work.anchors[guy];
                [east, north, up]
            }
            WorkPoint::Rope { guy, up } => {
                let ([east, north], rise) = work.anchors[guy];
                let mix = |low: f64, high: f64| (1.0 - up) * low + up * high;
                [mix(east, mast_east), mix(north, mast_north), mix(rise, work.foot_rise_m)]
            }
            WorkPoint::Strand { up } => {
                let mix = |low: f64, high: f64| (1.0 - up) * low + up * high;
                [turned[0], turned[1], mix(rise(turned), work.foot_rise_m)]
            }
        }
    }
}

/// The plan's clearances as links; none where two things touch as planned.
pub(super) fn links(job: &Job, plan: &Plan, survey: &mut Survey) -> Result<Vec<Option<Link>>, FieldErrors> {
    let ground = survey.ground().clone();
    let mut things = Things { job, survey, drawn: Vec::new() };
    plan.clearances.iter().map(|clearance| link(clearance, plan, &ground, &mut things)).collect()
}

fn link(
    it: &Clearance,
    plan: &Plan,
    ground: &Ground,
    things: &mut Things,
) -> Result<Option<Link>, FieldErrors> {
    let (from, to) = (it.from_point, it.to_point);
    let Some(part) = part(it, plan) else { return Ok(None) };
    let Some(thing) = things.nearest(&it.to, [to[0], to[1]])? else { return Ok(None) };
    let kind = if matches!(it.what, Approach::Headroom { .. }) {
        headroom(it, part, plan, ground, things, thing)
    } else {
        apart(it)
    };
    let plan_of = |p: [f64; 3]| [p[0], p[1]];
    Ok(kind.map(|kind| Link {
        margin_m: it.distance_m - it.needed_m,
        part,
        thing,
        from,
        to,
        from_ground_m: ground.height(plan_of(from)),
        to_ground_m: ground.height(plan_of(to)),
        mast: [plan.mast.east_m, plan.mast.north_m],
        kind,
    }))
}

/// The direction of a distance; in plan where it was measured in plan.
fn apart(it: &Clearance) -> Option<Kind> {
    let mut way: [f64; 3] = std::array::from_fn(|i| it.to_point[i] - it.from_point[i]);
    let in_plan_m = hypot(way[0], way[1]);
    let in_space_m = hypot(in_plan_m, way[2]);
    let measured_m = it.distance_m.abs();
    if measured_m < TOUCHING_M || in_space_m < TOUCHING_M {
        return None;
    }
    if (measured_m - in_plan_m).abs() <= (measured_m - in_space_m).abs() {
        way[2] = 0.0;
    }
    let length_m = hypot(hypot(way[0], way[1]), way[2]);
    if length_m < TOUCHING_M {
        return None;
    }
    let sign = if it.distance_m < 0.0 { -1.0 } else { 1.0 };
    Some(Kind::Apart { toward: way.map(|x| x / length_m), sign })
}

/// How the height over a path answers to the path's edge moving against the rope.
fn headroom(
    it: &Clearance,
    part: WorkPoint,
    plan: &Plan,
    ground: &Ground,
    things: &Things,
    thing: Thing,
) -> Option<Kind> {
    let (low, high) = match part {
        WorkPoint::Rope { guy, .. } => (plan.guys.get(guy)?.eye, plan.guys.get(guy)?.attach),
        _ => {
            let mast = &plan.mast;
            let top_m = mast.foot_m + mast.raised_height_m;
            (it.from_point, [mast.east_m, mast.north_m, top_m])
        }
    };
    let out = [low[0] - high[0], low[1] - high[1]];
    let run_m = hypot(out[0], out[1]);
    if run_m < TOUCHING_M {
        return None;
    }
    let t = [out[0] / run_m, out[1] / run_m];
    let gradient = ground.gradient([it.from_point[0], it.from_point[1]]);
    let per_m = (low[2] - high[2]) / run_m - gradient[0] * t[0] - gradient[1] * t[1];
    let (a, b) = (things.drawn[thing.from].2, things.drawn[thing.to].2);
    let along = [b[0] - a[0], b[1] - a[1]];
    let length_m = hypot(along[0], along[1]);
    if length_m < TOUCHING_M {
        return None;
    }
    let n = [along[1] / length_m, -along[0] / length_m];
    let crossing = n[0] * t[0] + n[1] * t[1];
    // A rope that runs along the path is over it all the way: its lowest point stays.
    let per_edge = if crossing.abs() < 0.1 { [0.0; 2] } else { n.map(|n| per_m * n / crossing) };
    Some(Kind::Headroom { per_edge })
}

fn part(it: &Clearance, plan: &Plan) -> Option<WorkPoint> {
    let p = it.from_point;
    match &it.work {
        Subject::Guy { id } => {
            let guy = plan.guys.iter().position(|guy| guy.id == *id)?;
            if it.what.is_of_anchor() {
                return Some(WorkPoint::Anchor(guy));
            }
            let (eye, attach) = (plan.guys[guy].eye, plan.guys[guy].attach);
            let way = [attach[0] - eye[0], attach[1] - eye[1]];
            let square = way[0] * way[0] + way[1] * way[1];
            let up = ((p[0] - eye[0]) * way[0] + (p[1] - eye[1]) * way[1]) / square;
            Some(WorkPoint::Rope { guy, up: up.clamp(0.0, 1.0) })
        }
        Subject::Mast => Some(WorkPoint::Mast),
        Subject::Leg { .. } | Subject::Stake { .. } | Subject::Base => Some(WorkPoint::Base),
        Subject::Ring => {
            let ring = plan.ring.as_ref()?;
            let out_m = hypot(p[0] - plan.mast.east_m, p[1] - plan.mast.north_m);
            let up = (ring.radius_m - out_m) / (ring.radius_m - ring.top_radius_m);
            Some(WorkPoint::Strand { up: if up.is_finite() { up.clamp(0.0, 1.0) } else { 0.0 } })
        }
        _ => None,
    }
}

/// The yard's things, their points drawn once however many clearances they have.
struct Things<'a> {
    job: &'a Job,
    survey: &'a mut Survey,
    /// JSON pointer, number among the drawn points, place.
    drawn: Vec<(String, usize, [f64; 2])>,
}

/// The fixes of a thing in order, with their JSON pointers.
struct Chain<'a> {
    fixes: Vec<(&'a PointFix, String)>,
    closed: bool,
    height: Option<Sighted>,
}

impl<'a> Things<'a> {
    fn nearest(&mut self, to: &Subject, at: [f64; 2]) -> Result<Option<Thing>, FieldErrors> {
        let Some(chain) = self.chain(to) else { return Ok(None) };
        let places: Result<Vec<[f64; 2]>, FieldError> =
            chain.fixes.iter().map(|(fix, path)| self.survey.locate(fix, path)).collect();
        let places = places?;
        let Some((from, to, share)) = nearest_on(at, &places, chain.closed) else { return Ok(None) };
        let from = self.draw(&chain.fixes[from])?;
        let to = self.draw(&chain.fixes[to])?;
        Ok(Some(Thing { from, to, share, height: chain.height }))
    }

    fn draw(&mut self, (fix, path): &(&PointFix, String)) -> Result<usize, FieldErrors> {
        if let Some((_, number, _)) = self.drawn.iter().find(|(known, ..)| known == path) {
            return Ok(*number);
        }
        let (number, at) = self.survey.add(fix, path)?;
        self.drawn.push((path.clone(), number, at));
        Ok(number)
    }

    fn chain(&self, to: &Subject) -> Option<Chain<'a>> {
        let yard = &self.job.yard;
        let listed = |fixes: &'a [PointFix], path: String, closed: bool| {
            let fixes = fixes.iter().enumerate().map(|(i, fix)| (fix, format!("{path}/{i}"))).collect();
            Chain { fixes, closed, height: None }
        };
        match to {
            Subject::Boundary => yard
                .boundary
                .as_ref()
                .map(|b| listed(&b.outline, pointer!(yard.boundary?.outline).to_owned(), true)),
            Subject::Obstacle { id } => {
                let i = yard.obstacles.iter().position(|obstacle| obstacle.id == *id)?;
                let path = pointer!(yard.obstacles[i].shape);
                let shape = &yard.obstacles[i].shape;
                let sighted = Some(shape.height_sigma_m()).filter(|sigma_m| *sigma_m > 0.0);
                let chain = match shape {
                    Shape::Tree { at, .. } | Shape::Post { at, .. } => Chain {
                        fixes: vec![(at, pointer!(in path, Shape::Tree.at))],
                        closed: false,
                        height: None,
                    },
                    Shape::Building { outline, .. } | Shape::KeepOff { outline } => {
                        listed(outline, pointer!(in path, Shape::Building.outline), true)
                    }
                    Shape::Barrier { line, .. } | Shape::Path { line, .. } => {
                        listed(line, pointer!(in path, Shape::Path.line), false)
                    }
                };
                Some(Chain { height: sighted.map(|sigma_m| Sighted::Thing(i, sigma_m)), ..chain })
            }
            Subject::OverheadLine { id } => {
                let i = yard.overhead_lines.iter().position(|line| line.id == *id)?;
                let line = &yard.overhead_lines[i];
                let path = |j: usize| pointer!(yard.overhead_lines[i].supports[j].at);
                let fixes = line.supports.iter().enumerate().map(|(j, support)| (&support.at, path(j)));
                let height = Some(Sighted::Wire(i, line.height_sigma_m));
                Some(Chain { fixes: fixes.collect(), closed: false, height })
            }
            Subject::BuriedService { id } => {
                let i = yard.buried_services.iter().position(|service| service.id == *id)?;
                Some(listed(&yard.buried_services[i].line, pointer!(yard.buried_services[i].line), false))
            }
            _ => None,
        }
    }
}
