//! The motion: everything on the mast turns as one about a level line, the hinge.

use crate::numerics::real::{atan2, cos_deg, hypot, sin_deg};
use crate::numerics::vector::{Vector, add_scaled, dot, subtract};
use crate::quantity::bearing::unit;

/// Turning about a level line through a point, square to the bearing along which the mast lies.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TiltMotion {
    /// On the hinge line, where the mast's upright plane meets it.
    pub hinge: Vector,
    /// True bearing along which the mast lies.
    pub lies_toward_deg: f64,
    /// Unit vector along that bearing.
    pub toward: Vector,
    /// Unit vector along the hinge line, to the right of who looks along the bearing.
    pub right: Vector,
}

/// A point as the turning sees it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Arm {
    /// From the hinge line, square to it.
    pub radius_m: f64,
    /// Along the hinge line, to the right.
    pub right_m: f64,
    /// Angle at the hinge above the level towards the lying side, of the standing mast.
    pub standing_rad: f64,
}

impl TiltMotion {
    pub fn about(hinge: Vector, lies_toward_deg: f64) -> Self {
        let [east, north] = unit(lies_toward_deg);
        Self { hinge, lies_toward_deg, toward: [east, north, 0.0], right: [north, -east, 0.0] }
    }

    /// Where a point of the standing mast is when the mast stands at an angle to the level: 90° is plumb, 0° is lying level.
    pub fn at(&self, standing: Vector, elevation_deg: f64) -> Vector {
        let from = subtract(standing, self.hinge);
        let (out, right, up) = (dot(from, self.toward), dot(from, self.right), from[2]);
        // Fallen by 90° − elevation towards the lying side.
        let (sin_fallen, cos_fallen) = (cos_deg(elevation_deg), sin_deg(elevation_deg));
        let out_then = out * cos_fallen + up * sin_fallen;
        let up_then = up * cos_fallen - out * sin_fallen;
        let level = add_scaled(add_scaled(self.hinge, self.toward, out_then), self.right, right);
        [level[0], level[1], level[2] + up_then]
    }

    pub fn arm(&self, standing: Vector) -> Arm {
        let from = subtract(standing, self.hinge);
        let (out, right_m, up) = (dot(from, self.toward), dot(from, self.right), from[2]);
        Arm { radius_m: hypot(out, up), right_m, standing_rad: atan2(up, out) }
    }

    /// How far a point lies out along the bearing, to the right, and above the hinge.
    pub fn seen(&self, at: Vector) -> Vector {
        let from = subtract(at, self.hinge);
        [dot(from, self.toward), dot(from, self.right), from[2]]
    }

    /// The plan point so far out along the bearing and to the right.
    pub fn plan(&self, out_m: f64, right_m: f64) -> [f64; 2] {
        let at = add_scaled(add_scaled(self.hinge, self.toward, out_m), self.right, right_m);
        [at[0], at[1]]
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::numerics::vector::norm;

    /// The mast 8 m high stands at the origin, its hinge 0.1 m to the north of it and 0.3 m lower, and lies to the north:
    /// its top then is 8.3 m out from the hinge, and 0.1 m above it.
    #[test]
    fn it_lies_where_a_drawing_has_it() {
        let turn = TiltMotion::about([0.0, 0.1, -0.3], 0.0);
        let top = [0.0, 0.0, 8.0];
        let off = |elevation_deg, at: Vector| norm(subtract(turn.at(top, elevation_deg), at));
        assert!(off(90.0, top) < 1e-12 && off(0.0, [0.0, 8.4, -0.2]) < 1e-12);
        let (run, rise) = (0.5, 0.75_f64.sqrt());
        // At 30° the axis is 8.3 m along it and 0.1 m square above it.
        let [along, above] = [8.3, 0.1];
        let at = [0.0, 0.1 + along * rise - above * run, -0.3 + along * run + above * rise];
        assert!(off(30.0, at) < 1e-12);
    }

    #[test]
    fn nothing_on_it_changes_its_distance_from_the_hinge_line() {
        let turn = TiltMotion::about([3.0, -2.0, 0.4], 237.0);
        for (point, elevation_deg) in [([3.4, -1.0, 6.0], 11.0), ([2.0, -2.5, 0.2], 71.0)] {
            let [was, is] = [point, turn.at(point, elevation_deg)].map(|at| turn.seen(at));
            assert!(
                (hypot(was[0], was[2]) - hypot(is[0], is[2])).abs() < 1e-12 && (was[1] - is[1]).abs() < 1e-12
            );
            assert!((turn.arm(point).radius_m - hypot(was[0], was[2])).abs() < 1e-12);
        }
    }
}
