//! The ground under the lying mast and beside it: where those who walk it up tread.

use super::findings::YardFinding;
use super::motion::TiltMotion;
use crate::finding::raising::{RaisingRemedy, RaisingRule};
use crate::finding::yard::Thing;
use crate::finding::{Finding, Severity, Subject};
use crate::numerics::outline::contains;
use crate::numerics::real::cos_deg;
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
}

impl Corridor {
    pub fn of(turn: &TiltMotion, length_m: f64, lying_deg: f64, system: UnitSystem) -> Self {
        let beside_m = keep::WALK_UP.of(system);
        let out_m = length_m * cos_deg(lying_deg);
        let corner = |out: f64, right: f64| turn.plan(out, right);
        let far_m = out_m + beside_m;
        // Anticlockwise, as outlines are: out along the right side, back along the left one.
        let strip = vec![
            corner(0.0, beside_m),
            corner(far_m, beside_m),
            corner(far_m, -beside_m),
            corner(0.0, -beside_m),
        ];
        Self { strip, mast: [corner(0.0, 0.0), corner(out_m, 0.0)] }
    }

    /// What a thing does to it.
    pub fn against(
        &self,
        thing: &PlacedObstacle,
        patches: &[Patch],
        sigma_m: f64,
        system: UnitSystem,
    ) -> Option<Finding> {
        let nearest = patches
            .iter()
            .map(|patch| patch.near_area(&self.strip))
            .fold(f64::INFINITY, |m, near| near.distance_m.min(m));
        if nearest >= half_width_95(sigma_m, thing.sigma_m).max(1e-9) {
            return None;
        }
        let (of, name) = (kind(&thing.shape), thing.name.clone());
        let about = |severity| YardFinding::mast(severity, Subject::Obstacle { id: thing.id.clone() });
        match of {
            Thing::KeepOff => {
                let rule = RaisingRule::CorridorOn { thing: of, name };
                Some(about(Severity::Stop).finding(rule, None, RaisingRemedy::ClearTheGround))
            }
            Thing::Path => {
                let rule = RaisingRule::CorridorOn { thing: of, name };
                Some(about(Severity::Caution).finding(rule, None, RaisingRemedy::CloseTheWay))
            }
            _ if stepped_over(&thing.shape, system) => None,
            _ => {
                let rule = RaisingRule::CorridorBlocked { thing: of, name };
                Some(about(Severity::Caution).finding(rule, None, RaisingRemedy::ClearTheGround))
            }
        }
    }

    /// The lying mast beyond the boundary is a stop; ground that somebody treads there asks for a neighbour's word.
    pub fn over_boundary(&self, yard: &PlacedYard, sigma_m: f64) -> Option<Finding> {
        let outline = yard.boundary.as_ref()?;
        let measure = |depth_m: f64| Measure {
            value_m: depth_m,
            half_width_95_m: half_width_95(sigma_m, yard.boundary_sigma_m),
            limit_m: 0.0,
        };
        let least = |points: &[P2]| {
            measure(points.iter().map(|p| depth(outline, *p).0).fold(f64::INFINITY, f64::min))
        };
        let mast = least(&self.mast);
        // Where the yard is not convex, a side of it may reach in between the mast's ends: that it does is no less sure
        // where an end is in doubt.
        let is_over = mast.fails() || leaves(outline, self.mast);
        if is_over || mast.in_doubt() {
            let rule = RaisingRule::CorridorOverBoundary { mast_too: true };
            let severity = if is_over { Severity::Stop } else { Severity::Caution };
            let about = YardFinding::mast(severity, Subject::Boundary);
            return Some(about.finding(rule, Some(&mast), RaisingRemedy::LayWithinTheBoundary));
        }
        let strip = least(&self.strip);
        if strip.fails() || corner_inside(outline, &self.strip) {
            let rule = RaisingRule::CorridorOverBoundary { mast_too: false };
            let about = YardFinding::mast(Severity::Caution, Subject::Boundary);
            return Some(about.finding(rule, Some(&strip), RaisingRemedy::LayWithinTheBoundary));
        }
        None
    }
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
