//! Things that are no long round members: a topper on the mast, lamps along a strand.

use super::member::{MemberLoad, Stream};

/// Force coefficient of a flat thing square to the wind: 1.8 (EN 1991-1-4, 7.4.3, signboards; from memory). Safe for
/// rings, stars and balls, which have less.
pub const FLAT: f64 = 1.8;

/// A thing small against the mast, by the area that the wind sees.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Body {
    /// Its middle in the site frame.
    pub at: [f64; 3],
    pub area_m2: f64,
    pub coefficient: f64,
}

impl Body {
    /// The wind's force c·A·q on the body and its moment about a point. All of it comes onto what carries the body.
    pub fn load(&self, stream: &Stream, about: [f64; 3]) -> MemberLoad {
        let [_, _, z] = self.at;
        let pressure_pa = (stream.pressure_pa)(z - stream.ground_m);
        let force_n = stream.direction.map(|part| part * pressure_pa * self.area_m2 * self.coefficient);
        MemberLoad::of_force(force_n, self.at, about)
    }
}

/// Diameter of a plain strand with the area of one that carries lamps: d + n·A, lamps each of area A, n a metre.
/// A lamp is rounder than a wire and has less drag: on the safe side.
pub fn diameter_with_lamps_m(diameter_m: f64, lamps_per_m: f64, lamp_area_m2: f64) -> f64 {
    diameter_m + lamps_per_m * lamp_area_m2
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_topper_is_plain_arithmetic() {
        // 0.1 m² at 6 m, 300 Pa, c 1.8: 54 N and 324 N·m.
        let even = |_| 300.0;
        let topper = Body { at: [0.0, 0.0, 6.0], area_m2: 0.1, coefficient: FLAT };
        let load = topper.load(&Stream::from_bearing(180.0, 0.0, &even), [0.0; 3]);
        assert!((load.force_n[1] - 54.0).abs() < 1e-9);
        assert!((load.overturning_nm() - 324.0).abs() < 1e-9);
        assert!((diameter_with_lamps_m(0.003, 5.0, 0.0004) - 0.005).abs() < 1e-12);
    }
}
