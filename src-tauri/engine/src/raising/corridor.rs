//! The ground under the lying mast and beside it: where those who walk it up tread.

use super::findings::YardFinding;
use super::motion::TiltMotion;
use crate::finding::raising::{RaisingRemedy, RaisingRule};
use crate::finding::yard::Thing;
use crate::finding::{Finding, Severity, Subject};
use crate::numerics::certified::least;
use crate::numerics::outline::contains;
use crate::numerics::real::{cos_deg, hypot};
use crate::quantity::UnitSystem;
use crate::round_figures::keep;
use crate::yard::boundary::depth;
use crate::yard::flat::{P2, Patch, sides};
use crate::yard::measure::Measure;
use crate::yard::obstacle::kind;
use crate::yard::parts::half_width_95;
use crate::yard::{PlacedObstacle, PlacedShape, PlacedYard};

/// The lying mast in plan, and the strip round it.
pub(super) struct Corridor {
    pub strip: Vec<P2>,
    /// From the hinge to the end of the lying mast.
    pub mast: [P2; 2],
    turn: TiltMotion,
    out_m: f64,
    beside_m: f64,
}

impl Corridor {
    pub fn of(turn: &TiltMotion, length_m: f64, lying_deg: f64, system: UnitSystem) -> Self {
        let beside_m = keep::WALK_UP.of(system);
        let out_m = length_m * cos_deg(lying_deg);
        let mast = [turn.plan(0.0, 0.0), turn.plan(out_m, 0.0)];
        Self { strip: strip_of(turn, out_m, beside_m), mast, turn: *turn, out_m, beside_m }
    }

    /// How near a thing within the strip comes to the lying mast, to its side or beyond its end; less than it is by no more
    /// than a millimetre.
    fn comes_near_m(&self, patches: &[Patch]) -> f64 {
        let [mut reached, mut free] = [self.beside_m, 0.0];
        // Halved down to 40 in / 2¹¹.
        for _ in 0..11 {
            let middle = 0.5 * (reached + free);
            let touches = off_m(patches, &strip_of(&self.turn, self.out_m, middle)) <= 1e-9;
            if touches { reached = middle } else { free = middle }
        }
        free
    }

    /// What a thing does to it.
    pub fn against(
        &self,
        thing: &PlacedObstacle,
        patches: &[Patch],
        sigma_m: f64,
        system: UnitSystem,
    ) -> Option<Finding> {
        let (beyond_m, half_width_95_m) =
            (off_m(patches, &self.strip), half_width_95(sigma_m, thing.sigma_m));
        if beyond_m >= half_width_95_m.max(1e-9) {
            return None;
        }
        let (of, name) = (kind(&thing.shape), thing.name.clone());
        if !matches!(of, Thing::KeepOff | Thing::Path) && stepped_over(&thing.shape, system) {
            return None;
        }
        let value_m = if beyond_m > 1e-9 { self.beside_m + beyond_m } else { self.comes_near_m(patches) };
        let measure = Measure { value_m, half_width_95_m, limit_m: self.beside_m };
        let (severity, rule, remedy) = match of {
            Thing::KeepOff => {
                let rule = RaisingRule::CorridorOn { thing: of, name };
                (Severity::Stop, rule, RaisingRemedy::ClearTheGround)
            }
            Thing::Path => {
                let rule = RaisingRule::CorridorOn { thing: of, name };
                (Severity::Caution, rule, RaisingRemedy::CloseTheWay)
            }
            _ => {
                let rule = RaisingRule::CorridorBlocked { thing: of, name };
                (Severity::Caution, rule, RaisingRemedy::ClearTheGround)
            }
        };
        let about = YardFinding::mast(severity, Subject::Obstacle { id: thing.id.clone() });
        Some(about.finding(rule, Some(&measure), remedy))
    }

    /// The lying mast beyond the boundary is a stop; ground that somebody treads there asks for a neighbour's word.
    pub fn over_boundary(&self, yard: &PlacedYard, sigma_m: f64) -> Option<Finding> {
        let outline = yard.boundary.as_ref()?;
        let measure = |depth_m: f64| Measure {
            value_m: depth_m,
            half_width_95_m: half_width_95(sigma_m, yard.boundary_sigma_m),
            limit_m: 0.0,
        };
        let at_points = |points: &[P2]| {
            measure(points.iter().map(|p| depth(outline, *p).0).fold(f64::INFINITY, f64::min))
        };
        let mast = at_points(&self.mast);
        // Where the yard is not convex, a side of it may reach in between the mast's ends: that it does is no less sure
        // where an end is in doubt.
        let is_over = mast.fails() || leaves(outline, self.mast);
        if is_over || mast.in_doubt() {
            let mast = measure(if is_over { deepest_m(outline, &[self.mast]) } else { mast.value_m });
            let rule = RaisingRule::CorridorOverBoundary { mast_too: true };
            let severity = if is_over { Severity::Stop } else { Severity::Caution };
            let about = YardFinding::mast(severity, Subject::Boundary);
            return Some(about.finding(rule, Some(&mast), RaisingRemedy::LayWithinTheBoundary));
        }
        let strip = at_points(&self.strip);
        if strip.fails() || corner_inside(outline, &self.strip) {
            let all: Vec<[P2; 2]> = sides(&self.strip).map(|(a, b)| [a, b]).collect();
            let strip = measure(deepest_m(outline, &all));
            let rule = RaisingRule::CorridorOverBoundary { mast_too: false };
            let about = YardFinding::mast(Severity::Caution, Subject::Boundary);
            return Some(about.finding(rule, Some(&strip), RaisingRemedy::LayWithinTheBoundary));
        }
        None
    }
}

/// So wide to each side of the lying mast and so far beyond its end; anticlockwise, as outlines are: out along the right side,
/// back along the left one.
fn strip_of(turn: &TiltMotion, out_m: f64, beside_m: f64) -> Vec<P2> {
    let far_m = out_m + beside_m;
    let corners = [[0.0, beside_m], [far_m, beside_m], [far_m, -beside_m], [0.0, -beside_m]];
    corners.map(|[out, right]| turn.plan(out, right)).to_vec()
}

fn off_m(patches: &[Patch], strip: &[P2]) -> f64 {
    patches.iter().map(|patch| patch.near_area(strip).distance_m).fold(f64::INFINITY, f64::min)
}

/// The least depth within an outline along straight ways, below nought where one is outside: less than it is by no more than a
/// millimetre. A depth changes no faster than a point goes.
fn deepest_m(outline: &[P2], ways: &[[P2; 2]]) -> f64 {
    // Far over nought, where nothing nearer is looked for any more.
    const OVER_M: f64 = 1e6;
    let along = |[a, b]: &[P2; 2], share: f64| [0, 1].map(|axis| a[axis] + share * (b[axis] - a[axis]));
    let of_way = |way: &[P2; 2]| {
        let long_m = hypot(way[1][0] - way[0][0], way[1][1] - way[0][1]);
        let over = |share: f64| depth(outline, along(way, share)).0 + OVER_M;
        least(over, [0.0, 1.0], long_m, f64::INFINITY).map_or(f64::INFINITY, |it| it.value - OVER_M)
    };
    ways.iter().map(of_way).fold(f64::INFINITY, f64::min)
}

fn corner_inside(outline: &[P2], strip: &[P2]) -> bool {
    outline.iter().any(|corner| contains(strip, *corner))
}

/// Whether a straight way between two points leaves an outline.
fn leaves(outline: &[P2], [a, b]: [P2; 2]) -> bool {
    let side = |p: P2, q: P2, r: P2| (q[0] - p[0]) * (r[1] - p[1]) - (q[1] - p[1]) * (r[0] - p[0]);
    sides(outline).any(|(p, q)| side(a, b, p) * side(a, b, q) < 0.0 && side(p, q, a) * side(p, q, b) < 0.0)
}

fn stepped_over(shape: &PlacedShape, system: UnitSystem) -> bool {
    let height_m = match shape {
        PlacedShape::Building { height_m, .. }
        | PlacedShape::Barrier { height_m, .. }
        | PlacedShape::Post { height_m, .. } => *height_m,
        _ => f64::INFINITY,
    };
    height_m <= keep::STEP_OVER.of(system)
}
