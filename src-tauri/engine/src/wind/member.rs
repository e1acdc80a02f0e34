//! Wind force on straight members at any slant, and on a cone of strands.
//!
//! Cross-flow principle (Hoerner, Fluid-Dynamic Drag, ch. 3, from memory): only the wind's part across a long round
//! member presses on it, so that the force per length is c·D·q·|n|·n with n = w − (w·t)·t, where w is the wind's
//! direction and t the member's. The small friction along the member (Hoerner: 0.02) is left out. No strand
//! shelters another.

use crate::numerics::vector::{add, cross, dot, scale, subtract};

/// The wind that blows on everything.
#[derive(Clone, Copy)]
pub struct Stream<'a> {
    /// Where it blows *to*: a unit vector, east, north, up.
    pub direction: [f64; 3],
    /// Pressure at a height above the ground at the mast.
    pub pressure_pa: &'a dyn Fn(f64) -> f64,
    /// Height of that ground in the site frame.
    pub ground_m: f64,
}

impl<'a> Stream<'a> {
    /// A level wind that comes *from* a bearing, as forecasts say it.
    pub fn from_bearing(from_deg: f64, ground_m: f64, pressure_pa: &'a dyn Fn(f64) -> f64) -> Self {
        let [east, north] = crate::quantity::bearing::unit(from_deg);
        Stream { direction: [-east, -north, 0.0], pressure_pa, ground_m }
    }
}

/// A straight round member.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Member {
    /// Ends in the site frame.
    pub lower: [f64; 3],
    pub upper: [f64; 3],
    pub diameter_m: f64,
    /// Force coefficient across the wind.
    pub coefficient: f64,
}

/// What the wind does to members.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct MemberLoad {
    /// The whole force.
    pub force_n: [f64; 3],
    /// The part that comes onto the upper ends, by the lever rule; the rest goes to the lower ends. A sagging
    /// strand's own tension is not in it.
    pub at_upper_n: [f64; 3],
    /// Moment of the whole force about the point asked for.
    pub moment_nm: [f64; 3],
}

impl MemberLoad {
    /// A single force at a point; all of it comes onto the upper end.
    pub(super) fn of_force(force_n: [f64; 3], at: [f64; 3], about: [f64; 3]) -> Self {
        MemberLoad { force_n, at_upper_n: force_n, moment_nm: cross(subtract(at, about), force_n) }
    }

    /// Takes another load in: loads of several members add up.
    pub fn add(&mut self, other: &MemberLoad) {
        self.force_n = add(self.force_n, other.force_n);
        self.at_upper_n = add(self.at_upper_n, other.at_upper_n);
        self.moment_nm = add(self.moment_nm, other.moment_nm);
    }

    /// Moment that turns the whole about a level axis: what overturns a mast.
    pub fn overturning_nm(&self) -> f64 {
        let [x, y, _] = self.moment_nm;
        (x * x + y * y).sqrt()
    }
}

/// Force per length on a member of this direction.
///
/// # Units
/// `direction` and `axis` are unit vectors; N/m.
pub fn force_per_length_n_per_m(
    pressure_pa: f64,
    direction: [f64; 3],
    axis: [f64; 3],
    coefficient: f64,
    diameter_m: f64,
) -> [f64; 3] {
    let along = dot(direction, axis);
    let across = add(direction, scale(axis, -along));
    scale(across, coefficient * diameter_m * pressure_pa * dot(across, across).sqrt())
}

/// Nodes and weights on (0, 1) of three-point Gauss quadrature (Abramowitz & Stegun, Table 25.4, from memory).
const GAUSS: [(f64, f64); 3] =
    [(0.112_701_665_379_258_3, 5.0 / 18.0), (0.5, 8.0 / 18.0), (0.887_298_334_620_741_7, 5.0 / 18.0)];

/// Pieces of a member for the quadrature: the profile's kink at its lowest height then costs under 0.1 %.
const PIECES: u32 = 8;

impl Member {
    pub fn length_m(&self) -> f64 {
        let run = subtract(self.upper, self.lower);
        dot(run, run).sqrt()
    }

    /// The wind's force on the member and its moment about a point.
    pub fn load(&self, stream: &Stream, about: [f64; 3]) -> MemberLoad {
        let length_m = self.length_m();
        let mut load = MemberLoad::default();
        if !(length_m > 0.0 && length_m.is_finite()) {
            return load;
        }
        let run = subtract(self.upper, self.lower);
        let axis = scale(run, 1.0 / length_m);
        for piece in 0..PIECES {
            for (node, weight) in GAUSS {
                let share = (f64::from(piece) + node) / f64::from(PIECES);
                let at = add(self.lower, scale(run, share));
                let [_, _, z] = at;
                let pressure_pa = (stream.pressure_pa)(z - stream.ground_m);
                let per_m = force_per_length_n_per_m(
                    pressure_pa,
                    stream.direction,
                    axis,
                    self.coefficient,
                    self.diameter_m,
                );
                let force_n = scale(per_m, length_m * weight / f64::from(PIECES));
                let moment_nm = cross(subtract(at, about), force_n);
                load.add(&MemberLoad { force_n, at_upper_n: scale(force_n, share), moment_nm });
            }
        }
        load
    }
}

/// A full or part cone of strands from one top to points of a ring.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Cone<'a> {
    pub top: [f64; 3],
    /// Lower ends, one a strand, wherever the ground is.
    pub ring: &'a [[f64; 3]],
    pub diameter_m: f64,
    /// Force coefficient of a strand, usually [`SUBCRITICAL`](super::drag::SUBCRITICAL).
    pub coefficient: f64,
}

impl Cone<'_> {
    /// The wind's force on all strands together and its moment about a point, such as the mast's foot.
    pub fn load(&self, stream: &Stream, about: [f64; 3]) -> MemberLoad {
        let mut load = MemberLoad::default();
        for &lower in self.ring {
            let strand =
                Member { lower, upper: self.top, diameter_m: self.diameter_m, coefficient: self.coefficient };
            load.add(&strand.load(stream, about));
        }
        load
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn near(a: [f64; 3], b: [f64; 3], tolerance: f64) {
        for (x, y) in a.iter().zip(b) {
            assert!((x - y).abs() < tolerance, "{a:?} {b:?}");
        }
    }

    #[test]
    fn an_upright_tube_in_an_even_wind_is_plain_arithmetic() {
        // 6 m of 50 mm tube at 400 Pa and c 1.2: 144 N at 3 m.
        let even = |_| 400.0;
        let tube =
            Member { lower: [1.0, 2.0, 0.0], upper: [1.0, 2.0, 6.0], diameter_m: 0.05, coefficient: 1.2 };
        let load = tube.load(&Stream::from_bearing(270.0, 0.0, &even), [1.0, 2.0, 0.0]);
        near(load.force_n, [144.0, 0.0, 0.0], 1e-9);
        near(load.at_upper_n, [72.0, 0.0, 0.0], 1e-9);
        near(load.moment_nm, [0.0, 432.0, 0.0], 1e-9);
        assert!((load.overturning_nm() - 432.0).abs() < 1e-9);
    }

    #[test]
    fn a_member_in_line_with_the_wind_is_not_pressed() {
        let even = |_| 400.0;
        let rope = Member { lower: [0.0; 3], upper: [5.0, 0.0, 0.0], diameter_m: 0.01, coefficient: 1.2 };
        near(rope.load(&Stream::from_bearing(270.0, 0.0, &even), [0.0; 3]).force_n, [0.0; 3], 1e-12);
        let point = Member { upper: [0.0; 3], ..rope };
        assert_eq!(point.load(&Stream::from_bearing(0.0, 0.0, &even), [0.0; 3]), MemberLoad::default());
    }
}
