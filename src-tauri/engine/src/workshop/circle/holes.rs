//! Holes round a circle, stepped off with dividers or turned to by angle.

use std::f64::consts::PI;

use crate::numerics::real::{cos_deg, sin, sin_deg};

/// Holes at equal steps round a circle, or a part of it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct HoleCircle {
    pub radius_mm: f64,
    pub count: u32,
    /// 360 for the whole circle; a part has a hole at each of its ends.
    pub sweep_deg: f64,
    pub hole_mm: f64,
}

/// Why no such circle can be drilled.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum HolesError {
    NoHoles,
    /// Between neighbours less stays than this: nearest radius and hole that work.
    TooClose {
        left_mm: f64,
        least_mm: f64,
        radius_mm: f64,
        hole_mm: f64,
    },
}

/// Between two holes a hole's width stays: common practice (no source) for wood and thin plate.
const WEB_HOLES: f64 = 1.0;

impl HoleCircle {
    /// As many steps as holes round the whole circle, one less on a part.
    pub fn steps(&self) -> u32 {
        if self.sweep_deg >= 360.0 { self.count } else { self.count.saturating_sub(1) }
    }

    /// From hole to hole.
    pub fn step_deg(&self) -> f64 {
        self.sweep_deg.min(360.0) / f64::from(self.steps().max(1))
    }

    /// What the dividers are set to: the straight way from hole to hole, 2R·sin(step/2) ([`SourceKey::Geometry`]).
    ///
    /// [`SourceKey::Geometry`]: crate::source::SourceKey::Geometry
    pub fn divider_mm(&self) -> f64 {
        2.0 * self.radius_mm * sin(self.step_deg() * PI / 360.0)
    }

    /// Where so many steps come to lie off the last hole if the dividers are set wrong by so much: an error adds up all the way
    /// round.
    pub fn closing_error_mm(&self, off_mm: f64) -> f64 {
        off_mm * f64::from(self.steps())
    }

    /// Each hole's angle from the first, clockwise, and its place: right and up from the centre, the first one straight up.
    pub fn holes(&self) -> Vec<(f64, [f64; 2])> {
        let at = |index: u32| {
            let angle = self.step_deg() * f64::from(index);
            (angle, [self.radius_mm * sin_deg(angle), self.radius_mm * cos_deg(angle)])
        };
        (0..self.count).map(at).collect()
    }

    /// # Errors
    /// Where the circle has no holes, or too little stays between them.
    pub fn check(&self) -> Result<(), HolesError> {
        if self.count == 0 || self.radius_mm <= 0.0 {
            return Err(HolesError::NoHoles);
        }
        let (left_mm, least_mm) = (self.divider_mm() - self.hole_mm, WEB_HOLES * self.hole_mm);
        if self.steps() == 0 || left_mm >= least_mm {
            return Ok(());
        }
        let shared = sin(self.step_deg() * PI / 360.0);
        Err(HolesError::TooClose {
            left_mm,
            least_mm,
            radius_mm: (1.0 + WEB_HOLES) * self.hole_mm / (2.0 * shared),
            hole_mm: self.divider_mm() / (1.0 + WEB_HOLES),
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn circle(count: u32, sweep_deg: f64) -> HoleCircle {
        HoleCircle { radius_mm: 100.0, count, sweep_deg, hole_mm: 6.0 }
    }

    /// Published: chord 2R·sin(π/n) at R 100: 12 51.764, 16 39.018, 18 34.730, 24 26.105, 30 20.906, 32 19.603.
    #[test]
    fn dividers_are_set_to_the_chord() {
        for (count, chord) in
            [(12, 51.764), (16, 39.018), (18, 34.730), (24, 26.105), (30, 20.906), (32, 19.603)]
        {
            assert!((circle(count, 360.0).divider_mm() - chord).abs() < 5e-4, "{count}");
        }
        // By hand: four holes over a half circle stand 60° apart: the chord is the radius.
        assert!((circle(4, 180.0).divider_mm() - 100.0).abs() < 1e-9);
        assert!((circle(18, 360.0).closing_error_mm(0.2) - 3.6).abs() < 1e-12);
    }

    /// Every hole lies a divider's setting from the next, and on the circle; by hand: the second of four is at three o'clock.
    #[test]
    fn angles_and_dividers_put_the_holes_in_the_same_places() {
        let holes = circle(4, 360.0).holes();
        assert!((holes[1].1[0] - 100.0).abs() < 1e-9 && holes[1].1[1].abs() < 1e-9);
        let of = circle(18, 360.0);
        let holes = of.holes();
        for pair in holes.windows(2) {
            let [a, b] = [pair[0].1, pair[1].1];
            let apart = ((a[0] - b[0]) * (a[0] - b[0]) + (a[1] - b[1]) * (a[1] - b[1])).sqrt();
            assert!((apart - of.divider_mm()).abs() < 1e-9);
        }
        assert!((holes[17].0 - 340.0).abs() < 1e-9);
    }

    /// By hand: 32 holes of 12 mm at R 100 stand 19.603 mm apart: 7.603 mm stay, 12 are asked; R 122.4 gives 24 mm.
    #[test]
    fn holes_that_run_into_each_other_are_refused_with_what_works() {
        let crowded = HoleCircle { hole_mm: 12.0, ..circle(32, 360.0) };
        let Err(HolesError::TooClose { left_mm, least_mm, radius_mm, hole_mm }) = crowded.check() else {
            panic!("they do not fit")
        };
        assert!((left_mm - 7.603).abs() < 5e-4 && least_mm == 12.0);
        assert!((HoleCircle { radius_mm, ..crowded }.divider_mm() - 24.0).abs() < 1e-9);
        assert!(HoleCircle { hole_mm, ..crowded }.check().is_ok() && (hole_mm - 9.8015).abs() < 5e-4);
        assert_eq!(circle(0, 360.0).check(), Err(HolesError::NoHoles));
        assert!(circle(1, 90.0).check().is_ok());
    }
}
