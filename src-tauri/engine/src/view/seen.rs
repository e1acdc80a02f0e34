//! What shows from one place, whichever way one looks.

mod faces;

use super::camera::{Look, P3, between, dot, length, sub};
use super::eyes::Eyes;
use super::hidden::Hiders;
use super::results::{ConeSeen, HeightOf, LookTaken, Shown, StandpointSeen, ThingKind, ThingSeen, ViewSeen};
use super::shadow::Shadow;
use super::world::{Thing, YardToSee};
use crate::finding::Subject;
use crate::numerics::outline::contains;
use crate::numerics::real::{atan2_deg, hypot};
use crate::quantity::bearing;
use crate::yard::flat::{point_to_edge, point_to_line};
use faces::Facing;

/// What a line is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum LineKind {
    Net,
    /// Of a solid.
    Edge,
    Path,
    /// Round a thing whose height nobody entered.
    Unknown,
    Boundary,
    Wire,
    WireSupport,
    Base,
    Ring,
    Guy,
    Strand,
    Mast,
}

impl LineKind {
    /// Hidden parts of the work are told of, too: one wants to know where it is behind the house.
    fn is_work(self) -> bool {
        matches!(self, Self::Guy | Self::Strand | Self::Mast)
    }
}

/// What an area is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum FaceKind {
    Wall,
    /// A wall on the side away from the light.
    WallShaded,
    Roof,
    Leaves,
    Trunk,
    Hedge,
    Fence,
    Stone,
    Post,
}

/// A part of a line, all of it shown or all of it hidden.
#[derive(Debug, Clone, PartialEq)]
pub struct SeenLine {
    pub kind: LineKind,
    /// In the list of things.
    pub thing: Option<usize>,
    pub hidden: bool,
    pub points: Vec<P3>,
}

/// A part of a side that faces the eyes and that nothing hides: flat and convex.
#[derive(Debug, Clone, PartialEq)]
pub struct SeenFace {
    pub kind: FaceKind,
    pub thing: usize,
    pub corners: Vec<P3>,
}

/// All that shows from one place. A camera there may turn: nothing of this changes by it.
#[derive(Debug, Clone)]
pub struct Seen {
    pub eyes: Eyes,
    /// No two of them lie before each other: what is behind was taken off.
    pub faces: Vec<SeenFace>,
    pub lines: Vec<SeenLine>,
    /// How high the ground reaches at bearings all round: each with the tangent of its angle over the horizontal.
    pub skyline: Vec<[f64; 2]>,
    pub things: Vec<ThingSeen>,
    /// Where the name of each stands.
    pub labels: Vec<P3>,
    pub cone: Option<ConeSeen>,
    /// Angles of the mast's foot and top over the horizontal, and its bearing.
    pub mast_deg: [f64; 3],
}

/// Bearings of the ground's skyline, and how far it is looked for.
const SKYLINE_BEARINGS: u32 = 180;
const SKYLINE_STEPS: i32 = 36;
const SKYLINE_FROM_M: f64 = 0.4;
const SKYLINE_GROWS: f64 = 1.2;

/// So much of a thing is all of it, or none.
const ALL: f64 = 0.999;

/// Length or area of what shows of a thing, and of all of it.
#[derive(Clone, Copy, Default)]
struct Part {
    shown: f64,
    whole: f64,
}

impl YardToSee {
    /// What shows from a pair of eyes.
    pub fn seen_from(&self, eyes: &Eyes) -> Seen {
        let eye = eyes.position();
        let around: Vec<bool> = self.things_around(eye);
        let facing: Vec<(usize, Facing)> = (self.bodies.iter().enumerate())
            .filter(|(_, body)| !around.get(body.thing).copied().unwrap_or(false))
            .map(|(number, body)| (number, Facing::of(body, eye)))
            .collect();
        let mut shadows: Vec<(Option<usize>, Shadow)> = Vec::with_capacity(facing.len());
        for (number, facing) in &facing {
            shadows.extend(facing.shadow.clone().map(|shadow| (Some(*number), shadow)));
        }
        shadows.extend(self.ground_shadows(eye).map(|shadow| (None, shadow)));
        let hiders = Hiders { eye, shadows };
        let mut scene = Gathered {
            hiders: &hiders,
            faces: Vec::new(),
            lines: Vec::new(),
            parts: vec![(Part::default(), Part::default()); self.things.len()],
            cone: ConeSeen {
                share: 0.0,
                seen_m: 0.0,
                length_m: 0.0,
                strands: 0,
                wholly_seen: 0,
                wholly_hidden: 0,
            },
        };
        for line in &self.lines {
            scene.line(line.kind, line.thing, &line.points, None);
        }
        for (number, facing) in &facing {
            let thing = self.bodies[*number].thing;
            for (kind, corners) in &facing.faces {
                scene.face(*kind, thing, corners.clone(), *number);
            }
            for edge in &facing.edges {
                scene.line(LineKind::Edge, Some(thing), edge, Some(*number));
            }
        }
        if let Some(topper) = &self.topper {
            scene.line(LineKind::Mast, Some(topper.thing), &faces::diamond(topper, eye), None);
        }
        let Gathered { faces, lines, parts, cone, .. } = scene;
        let things: Vec<ThingSeen> = self
            .things
            .iter()
            .zip(&parts)
            .zip(&around)
            .map(|((thing, parts), around)| thing_seen(thing, eye, *parts, *around))
            .collect();
        Seen {
            eyes: eyes.clone(),
            faces,
            lines,
            skyline: self.skyline(eye),
            labels: self.things.iter().map(|thing| thing.label).collect(),
            mast_deg: self.mast_deg(eye),
            things,
            cone: (cone.strands > 0).then(|| ConeSeen { share: cone.seen_m / cone.length_m, ..cone }),
        }
    }

    /// Which things the eyes are within.
    fn things_around(&self, eye: P3) -> Vec<bool> {
        let mut around = vec![false; self.things.len()];
        for body in self.bodies.iter().filter(|body| faces::holds(&body.shape, eye)) {
            around[body.thing] = true;
        }
        around
    }

    /// A line of sight that goes into the ground comes out where the ground falls away from the eyes: only there does it hide
    /// what stands above it.
    fn ground_shadows(&self, eye: P3) -> impl Iterator<Item = Shadow> + '_ {
        let away = self.rises.iter().filter(move |rise| dot(rise.up, sub(eye, rise.corners[0])) < 0.0);
        away.filter_map(move |rise| Shadow::of_area(eye, &rise.corners))
    }

    fn skyline(&self, eye: P3) -> Vec<[f64; 2]> {
        let highest = |bearing_deg: f64| {
            let [east, north] = bearing::unit(bearing_deg);
            let mut far_m = SKYLINE_FROM_M;
            let mut highest = f64::NEG_INFINITY;
            for _ in 0..SKYLINE_STEPS {
                let z = self.ground.height([eye[0] + far_m * east, eye[1] + far_m * north]);
                highest = highest.max((z - eye[2]) / far_m);
                far_m *= SKYLINE_GROWS;
            }
            highest
        };
        let bearings = (0..SKYLINE_BEARINGS).map(|i| 360.0 * f64::from(i) / f64::from(SKYLINE_BEARINGS));
        bearings.map(|deg| [deg, highest(deg)]).collect()
    }

    fn mast_deg(&self, eye: P3) -> [f64; 3] {
        let Some(mast) = self.things.iter().find(|thing| thing.subject == Subject::Mast) else {
            return [0.0; 3];
        };
        // With what stands on it: all of it has to find room in the picture.
        let way = sub(mast.label, eye);
        let flat_m = hypot(way[0], way[1]);
        let foot_z = self.ground.height([mast.label[0], mast.label[1]]);
        let bearing_deg = bearing::of_vector(way[0], way[1]);
        [atan2_deg(foot_z - eye[2], flat_m), atan2_deg(way[2], flat_m), bearing_deg]
    }
}

struct Gathered<'a> {
    hiders: &'a Hiders,
    faces: Vec<SeenFace>,
    lines: Vec<SeenLine>,
    /// Of each thing: of its areas, of its lines.
    parts: Vec<(Part, Part)>,
    cone: ConeSeen,
}

impl Gathered<'_> {
    fn face(&mut self, kind: FaceKind, thing: usize, corners: Vec<P3>, own: usize) {
        let whole = super::shadow::area_m2(&corners);
        let shown = self.hiders.shown_of(corners, Some(own));
        let area: f64 = shown.iter().map(|piece| super::shadow::area_m2(piece)).sum();
        if let Some((areas, _)) = self.parts.get_mut(thing) {
            areas.whole += whole;
            areas.shown += area;
        }
        self.faces.extend(shown.into_iter().map(|corners| SeenFace { kind, thing, corners }));
    }

    fn line(&mut self, kind: LineKind, thing: Option<usize>, points: &[P3], own: Option<usize>) {
        let (mut seen_m, mut whole_m) = (0.0, 0.0);
        for ends in points.windows(2) {
            let [a, b] = [ends[0], ends[1]];
            let long_m = length(sub(b, a));
            let shown = self.hiders.shown_along(a, b, own);
            whole_m += long_m;
            seen_m += shown.iter().map(|[from, to]| (to - from) * long_m).sum::<f64>();
            if kind.is_work() {
                let mut from = 0.0;
                for [begin, end] in shown.iter().copied().chain([[1.0, 1.0]]) {
                    self.add(kind, thing, true, a, b, [from, begin]);
                    from = end;
                }
            }
            for part in shown {
                self.add(kind, thing, false, a, b, part);
            }
        }
        if let Some((_, lines)) = thing.and_then(|thing| self.parts.get_mut(thing)) {
            lines.whole += whole_m;
            lines.shown += seen_m;
        }
        if kind == LineKind::Strand {
            let cone = &mut self.cone;
            cone.seen_m += seen_m;
            cone.length_m += whole_m;
            cone.strands += 1;
            cone.wholly_seen += u32::from(seen_m >= ALL * whole_m);
            cone.wholly_hidden += u32::from(seen_m <= (1.0 - ALL) * whole_m);
        }
    }

    /// A part of a line; it goes on with the part before where that ends there.
    fn add(
        &mut self,
        kind: LineKind,
        thing: Option<usize>,
        hidden: bool,
        a: P3,
        b: P3,
        [from, to]: [f64; 2],
    ) {
        if to <= from {
            return;
        }
        let at = |share: f64| {
            if share <= 0.0 {
                a
            } else if share >= 1.0 {
                b
            } else {
                between(a, b, share)
            }
        };
        let (from, to) = (at(from), at(to));
        if let Some(last) = self.lines.last_mut() {
            let goes_on = (last.kind, last.thing, last.hidden) == (kind, thing, hidden);
            if goes_on && last.points.last() == Some(&from) {
                last.points.push(to);
                return;
            }
        }
        self.lines.push(SeenLine { kind, thing, hidden, points: vec![from, to] });
    }
}

fn thing_seen(thing: &Thing, eye: P3, (areas, lines): (Part, Part), around: bool) -> ThingSeen {
    let part = if areas.whole > 0.0 { areas } else { lines };
    let share = if around || part.whole <= 0.0 { 0.0 } else { (part.shown / part.whole).min(1.0) };
    let way = sub(thing.top, eye);
    ThingSeen {
        subject: thing.subject.clone(),
        kind: thing.kind,
        name: thing.name.clone(),
        distance_m: if around { 0.0 } else { distance_m(thing, [eye[0], eye[1]]) },
        bearing_deg: bearing::of_vector(way[0], way[1]),
        top_deg: matches!(thing.height, HeightOf::Known { .. }).then(|| top_deg(thing, eye)),
        height: thing.height,
        shown: match share {
            _ if around => Shown::AroundYou,
            share if share >= ALL => Shown::Wholly,
            share if share <= 1.0 - ALL => Shown::Hidden,
            _ => Shown::Partly,
        },
        share,
    }
}

/// Of what has a level top the nearest part stands highest before the eyes, where that is over them; the farthest below.
fn top_deg(thing: &Thing, eye: P3) -> f64 {
    let over = |p: &[f64; 2]| atan2_deg(thing.top[2] - eye[2], hypot(p[0] - eye[0], p[1] - eye[1]));
    let middle = over(&[thing.top[0], thing.top[1]]);
    // The strands hang from one height in the middle; what they reach all round is the ground.
    if !thing.closed || thing.kind == ThingKind::Strands {
        return middle;
    }
    thing.footprint.iter().map(over).fold(middle, f64::max)
}

fn distance_m(thing: &Thing, at: [f64; 2]) -> f64 {
    let footprint = &thing.footprint[..];
    let to_middle = match footprint {
        [] => f64::INFINITY,
        [one] => hypot(one[0] - at[0], one[1] - at[1]),
        outline if thing.closed && contains(outline, at) => 0.0,
        outline if thing.closed => point_to_edge(at, outline).distance_m,
        line => point_to_line(at, line).distance_m,
    };
    (to_middle - thing.radius_m).max(0.0)
}

impl Seen {
    /// The look that is asked for, or where nothing is said of it one towards the mast, level if the mast finds room so.
    pub fn look(&self, toward_deg: Option<f64>, pitch_deg: Option<f64>, field_deg: f64, aspect: f64) -> Look {
        let [foot_deg, top_deg, bearing_deg] = self.mast_deg;
        let look = Look { toward_deg: toward_deg.unwrap_or(bearing_deg), pitch_deg: 0.0, field_deg, aspect };
        Look { pitch_deg: pitch_deg.unwrap_or_else(|| look.pitch_for(foot_deg, top_deg)), ..look }
    }

    /// In numbers.
    pub fn told(&self, look: &Look) -> ViewSeen {
        let eyes = &self.eyes;
        let mut things = self.things.clone();
        things.sort_by(|a, b| a.distance_m.total_cmp(&b.distance_m));
        ViewSeen {
            standpoint: StandpointSeen {
                id: eyes.id.clone(),
                name: eyes.name.clone(),
                east_m: eyes.east_m,
                north_m: eyes.north_m,
                ground_m: eyes.ground_m,
                floor_height_m: eyes.floor_height_m,
                eye_height_m: eyes.eye_height_m,
                eye_m: eyes.position()[2],
            },
            look: LookTaken {
                toward_deg: look.toward_deg,
                pitch_deg: look.pitch_deg,
                field_deg: look.field_deg,
                field_up_deg: look.field_up_deg(),
            },
            cone: self.cone,
            things,
        }
    }
}

#[cfg(test)]
pub(super) mod faces_for_tests {
    pub(in crate::view) use super::faces::{egg, stem};
}
