//! The picture from a standpoint, as a scene: 100 wide, its middle at nought. All that is in it shows from there, so that
//! nothing of it has to cover anything else but the sky and the ground.

mod labels;
mod scale;

use crate::finding::Subject;
use crate::quantity::Units;
use crate::view::{Camera, FaceKind, LineKind, Look, Seen};

use super::scene::{Bounds, Geometry, Role, Scene, SceneShape};
use super::words::seen as sentences;

/// Half of a picture's width in units of its scene.
const HALF: f64 = 50.0;

/// How a picture is drawn.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PictureWish {
    pub night: bool,
    /// Height of the lettering in hundredths of the picture's width.
    pub text: f64,
}

/// Draws what shows from a standpoint, looking some way.
pub fn picture(seen: &Seen, look: &Look, wish: &PictureWish, units: Units) -> Scene {
    let camera = Camera::new(seen.eyes.position(), *look);
    let half_height = HALF * camera.half_height();
    let bounds = Bounds { min: [-HALF, -half_height], max: [HALF, half_height] };
    let mut picture = Picture {
        seen,
        camera,
        bounds,
        night: wish.night,
        text: wish.text.clamp(0.5, 12.0),
        shapes: Vec::with_capacity(seen.lines.len() + seen.faces.len() + 32),
    };
    picture.sky_and_ground();
    picture.lines(|kind| matches!(kind, LineKind::Net));
    picture.faces();
    picture.lines(|kind| !kind_is_work(kind) && kind != LineKind::Net);
    picture.hidden_work();
    picture.lines(kind_is_work);
    scale::draw(&mut picture);
    labels::draw(&mut picture, units);
    let description = sentences::picture(&seen.things, &picture.things_in(), look);
    Scene {
        title: sentences::title(&seen.eyes.name),
        bounds,
        static_count: 0,
        shapes: picture.shapes,
        description,
    }
}

fn kind_is_work(kind: LineKind) -> bool {
    use LineKind::*;
    matches!(kind, Base | Ring | Guy | Strand | Mast)
}

struct Picture<'a> {
    seen: &'a Seen,
    camera: Camera,
    bounds: Bounds,
    night: bool,
    text: f64,
    shapes: Vec<SceneShape>,
}

/// To a hundredth, finer than any screen shows it: a turning finger waits for every digit.
fn rounded(at: [f64; 2]) -> [f64; 2] {
    at.map(|part| (part * HALF * 100.0).round() / 100.0)
}

impl Picture<'_> {
    fn push(&mut self, role: Role, subject: Option<Subject>, geometry: Geometry) {
        self.shapes.push(SceneShape { role, subject, geometry });
    }

    fn by_night(&self, day: Role, night: Role) -> Role {
        if self.night { night } else { day }
    }

    fn subject(&self, thing: Option<usize>) -> Option<Subject> {
        self.seen.things.get(thing?).map(|thing| thing.subject.clone())
    }

    fn sky_and_ground(&mut self) {
        let Bounds { min, max } = self.bounds;
        let whole = |low: f64, high: f64| vec![[min[0], low], [max[0], low], [max[0], high], [min[0], high]];
        let (sky, far) =
            (self.by_night(Role::SeenSky, Role::NightSky), self.by_night(Role::SeenFar, Role::NightSolid));
        self.push(sky, None, Geometry::Area { points: whole(min[1], max[1]) });
        let horizon = (self.camera.horizon() * HALF).clamp(min[1], max[1]);
        if horizon > min[1] {
            self.push(far, None, Geometry::Area { points: whole(min[1], horizon) });
        }
        let ground = self.ground();
        if ground.len() > 2 {
            let role = self.by_night(Role::SeenGround, Role::NightGround);
            self.push(role, Some(Subject::Ground), Geometry::Area { points: ground });
        }
    }

    /// What lies under the ground's skyline, down to the lower edge.
    fn ground(&self) -> Vec<[f64; 2]> {
        let Bounds { min, max } = self.bounds;
        let mut line: Vec<[f64; 2]> = (self.seen.skyline.iter())
            .filter_map(|&[bearing_deg, rise]| {
                let [east, north] = crate::quantity::bearing::unit(bearing_deg);
                let before = self.camera.turned([east, north, rise]);
                // What lies far aside is at the picture's edge already.
                (before[2] > 0.12).then(|| self.camera.on_picture(before).map(|part| part * HALF))
            })
            .collect();
        line.sort_by(|a, b| a[0].total_cmp(&b[0]));
        let across = Bounds { min: [min[0], -1e9], max: [max[0], 1e9] };
        let pieces =
            line.windows(2).filter_map(|pair| crate::drawing::geometry::clip(pair[0], pair[1], &across));
        let mut points: Vec<[f64; 2]> = pieces.flatten().collect();
        points.dedup();
        // A rise that reaches over the picture, or a fall under it, ends at its edge.
        let outline = points.into_iter().map(|[x, y]| [x, y.clamp(min[1], max[1])]);
        outline
            .chain([max, min].map(|corner| [corner[0], min[1]]))
            .map(|at| rounded(at.map(|part| part / HALF)))
            .collect()
    }

    fn faces(&mut self) {
        let seen = self.seen;
        for face in &seen.faces {
            let corners: Vec<[f64; 2]> = self.camera.area(&face.corners).into_iter().map(rounded).collect();
            if corners.len() > 2 {
                let role = if self.night { Role::NightSolid } else { role_of(face.kind) };
                self.push(role, self.subject(Some(face.thing)), Geometry::Area { points: corners });
            }
        }
    }

    fn lines(&mut self, which: impl Fn(LineKind) -> bool) {
        let seen = self.seen;
        for line in seen.lines.iter().filter(|line| !line.hidden && which(line.kind)) {
            let role = if self.night { night_role(line.kind) } else { day_role(line.kind) };
            self.line(role, self.subject(line.thing), &line.points);
        }
    }

    /// Where the work is behind something else. By night nothing of it shows.
    fn hidden_work(&mut self) {
        if self.night {
            return;
        }
        let seen = self.seen;
        for line in seen.lines.iter().filter(|line| line.hidden) {
            self.line(Role::SeenHidden, self.subject(line.thing), &line.points);
        }
    }

    fn line(&mut self, role: Role, subject: Option<Subject>, points: &[[f64; 3]]) {
        let mut chain: Vec<[f64; 2]> = Vec::new();
        for ends in points.windows(2) {
            let Some([a, b]) = self.camera.line(ends[0], ends[1]) else { continue };
            let (a, b) = (rounded(a), rounded(b));
            if a == b {
                continue;
            }
            if chain.last() != Some(&a) {
                if chain.len() > 1 {
                    self.push(role, subject.clone(), Geometry::Line { points: std::mem::take(&mut chain) });
                }
                chain = vec![a];
            }
            chain.push(b);
        }
        if chain.len() > 1 {
            self.push(role, subject, Geometry::Line { points: chain });
        }
    }

    /// Which things something is drawn of.
    fn things_in(&self) -> Vec<bool> {
        let drawn: std::collections::HashSet<&Subject> =
            self.shapes.iter().filter_map(|shape| shape.subject.as_ref()).collect();
        self.seen.things.iter().map(|thing| drawn.contains(&thing.subject)).collect()
    }
}

fn role_of(kind: FaceKind) -> Role {
    match kind {
        FaceKind::Wall => Role::SeenWall,
        FaceKind::WallShaded => Role::SeenWallShaded,
        FaceKind::Roof => Role::SeenRoof,
        FaceKind::Leaves => Role::SeenLeaves,
        FaceKind::Trunk | FaceKind::Post => Role::SeenTrunk,
        FaceKind::Hedge => Role::SeenHedge,
        FaceKind::Fence => Role::SeenFence,
        FaceKind::Stone => Role::SeenStone,
    }
}

fn day_role(kind: LineKind) -> Role {
    match kind {
        LineKind::Net => Role::SeenNet,
        LineKind::Edge | LineKind::WireSupport => Role::SeenEdge,
        LineKind::Path => Role::SeenPath,
        LineKind::Unknown => Role::SeenUnknown,
        LineKind::Boundary => Role::SeenBoundary,
        LineKind::Wire => Role::SeenWire,
        LineKind::Base => Role::SeenBase,
        LineKind::Ring => Role::SeenRing,
        LineKind::Guy => Role::SeenGuy,
        LineKind::Strand => Role::SeenStrand,
        LineKind::Mast => Role::SeenMast,
    }
}

fn night_role(kind: LineKind) -> Role {
    match kind {
        LineKind::Net => Role::NightNet,
        LineKind::Edge | LineKind::WireSupport | LineKind::Path => Role::NightEdge,
        LineKind::Unknown => Role::NightUnknown,
        LineKind::Boundary | LineKind::Wire => Role::NightLine,
        LineKind::Base | LineKind::Ring | LineKind::Guy | LineKind::Mast => Role::NightWork,
        LineKind::Strand => Role::NightLit,
    }
}
