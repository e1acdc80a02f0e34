//! A taut strand in the wind: it bows, and so pulls harder at its top.

use crate::numerics::real::cbrt;
use crate::numerics::vector::*;

/// A taut strand between two points that stay where they are.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TautStrand {
    /// From its top to its ring point: unit vector.
    pub downward: Vector,
    pub length_m: f64,
    /// EA.
    pub stiffness_n: f64,
    /// Set with no wind.
    pub tension_n: f64,
    /// Weight square to the strand.
    pub weight_n_per_m: Vector,
    /// Wind square to the strand at a gust of 1 m/s; it grows with the square.
    pub wind_n_per_m: Vector,
}

impl TautStrand {
    /// Its tension in a gust.
    ///
    /// # Accuracy
    /// That of a flat parabola: 1 % while it sags less than an eighth of its length.
    /// # References
    /// irvine1981, ch. 2: T²·(T − T0 + EA·p0²·L²/(24·T0²)) = EA·p²·L²/24, with p the load square to the chord.
    pub fn tension_n(&self, gust_squared: f64) -> f64 {
        let load = add_scaled(self.weight_n_per_m, self.wind_n_per_m, gust_squared);
        let k = self.stiffness_n * self.length_m * self.length_m / 24.0;
        let still = dot(self.weight_n_per_m, self.weight_n_per_m) / (self.tension_n * self.tension_n);
        // T³ + a·T² = b has one root above nothing.
        let (a, b) = (k * still - self.tension_n, k * dot(load, load));
        // At this start the cubic is not below b, and from there up it bends one way: Newton comes down without
        // passing the root.
        let mut t = cbrt(b) + (-a).max(0.0);
        for _ in 0..40 {
            let step = (t * t * (t + a) - b) / (t * (3.0 * t + 2.0 * a));
            t -= step;
            if step.is_nan() || step.abs() <= 1e-9 * t {
                break;
            }
        }
        t
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::structure::catenary::Span;

    const LEVEL: TautStrand = TautStrand {
        downward: [1.0, 0.0, 0.0],
        length_m: 6.0,
        stiffness_n: 20e3,
        tension_n: 20.0,
        weight_n_per_m: [0.0, 0.0, -0.3],
        wind_n_per_m: [0.0, 0.004, 0.0],
    };

    #[test]
    fn in_still_air_it_keeps_the_tension_set_and_wind_never_slackens_it() {
        assert!((LEVEL.tension_n(0.0) - 20.0).abs() < 1e-6);
        let pulls: Vec<f64> = (0..30).map(|gust| LEVEL.tension_n(f64::from(gust * gust))).collect();
        assert!(pulls.is_sorted());
    }

    #[test]
    fn it_agrees_with_the_exact_elastic_catenary() {
        // Level span: the length that has 20 N at 0.3 N/m, then the same length under √(0.3² + 1.6²) N/m.
        let rope = |weight_n_per_m| Span { span_m: 6.0, rise_m: 0.0, weight_n_per_m, stiffness_n: 20e3 };
        let unstressed_m = rope(0.3).with_upper_tension(20.0).unwrap().unstressed_m;
        let windy = rope(crate::numerics::real::hypot(0.3, 1.6));
        let exact = windy.with_unstressed_length(unstressed_m).unwrap().tension_top_n;
        let parabola = LEVEL.tension_n(400.0);
        assert!((parabola / exact - 1.0).abs() < 0.01, "{parabola} {exact}");
    }
}
