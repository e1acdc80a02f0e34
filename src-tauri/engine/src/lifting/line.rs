//! The other way to raise it: a line from the mast over a prop to those who pull, or to an anchor.
//!
//! Virtual work about the hinge: the pull T, whose line passes the hinge at the distance a, takes over from W·c·cos θ = T·a. Over the
//! prop's head it runs as over a pulley, as hard on both sides, so that the head is pushed by the sum of both; once the straight way
//! from the mast to the anchor passes over the head, the line leaves it and the prop carries nothing.

use super::body::Turning;
use super::hands::most_on_the_way;
use super::results::Lie;
use crate::job::PullLine;
use crate::numerics::real::{cos_deg, hypot, sin_deg};
use crate::quantity::convert::STANDARD_GRAVITY;

/// A line with the mast at an angle. Points and parts: away from the lying mast, and up, from the hinge.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LinePull {
    pub elevation_deg: f64,
    /// In the line, and at its anchor; endless where it has no lever.
    pub pull_n: f64,
    /// From the hinge to the line.
    pub arm_m: f64,
    /// Parts of the pull on the mast.
    pub on_mast_n: [f64; 2],
    /// The prop's head is pushed down, and towards the lying mast (below nought: away from it).
    pub prop_down_n: f64,
    pub prop_toward_n: f64,
}

/// A line as it is rigged, by places from the hinge.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RiggedLine {
    /// Along the mast.
    pub tied_m: f64,
    /// Away from the lying mast, and up.
    pub head: [f64; 2],
    pub anchor: [f64; 2],
}

impl RiggedLine {
    /// Of a job's line; `foot_m` is the mast's foot over the hinge, `ground_m` the ground at the mast over it.
    pub fn of(line: &PullLine, lie: &Lie, foot_m: f64, ground_m: f64) -> Self {
        // Behind the hinge the ground goes on as it runs under the mast.
        let ground_there_m = -lie.hinge_m - lie.along * line.pulled_from_m;
        Self {
            tied_m: foot_m + line.tied_m,
            head: [line.prop_behind_m, ground_m + line.prop_height_m],
            anchor: [line.pulled_from_m, ground_there_m],
        }
    }

    /// Where it pulls hardest.
    pub fn hardest(&self, turning: &Turning, lying_deg: f64) -> LinePull {
        most_on_the_way(lying_deg, |deg| self.pull(turning, deg), |at| at.pull_n)
    }

    /// The pull that holds a turning mast at an angle.
    pub fn pull(&self, turning: &Turning, elevation_deg: f64) -> LinePull {
        let (sin, cos) = (sin_deg(elevation_deg), cos_deg(elevation_deg));
        let tie = [-self.tied_m * cos, self.tied_m * sin];
        let (to_anchor, _) = toward(tie, self.anchor);
        let (to_head, _) = toward(tie, self.head);
        // Whether the straight way to the anchor passes over the head: then its slope there is the gentler one.
        let free = cross(to_anchor, to_head) <= 0.0;
        let way = if free { to_anchor } else { to_head };
        let arm_m = -cross(tie, way);
        let work_nm = turning.moment_kg_m * STANDARD_GRAVITY * cos;
        let pull_n = if arm_m > 1e-6 { work_nm / arm_m } else { f64::INFINITY };
        let (beyond, _) = toward(self.head, self.anchor);
        let on_prop =
            if free { [0.0; 2] } else { [pull_n * (beyond[0] - way[0]), pull_n * (beyond[1] - way[1])] };
        LinePull {
            elevation_deg,
            pull_n,
            arm_m,
            on_mast_n: way.map(|part| pull_n * part),
            prop_down_n: -on_prop[1],
            prop_toward_n: -on_prop[0],
        }
    }
}

fn cross(a: [f64; 2], b: [f64; 2]) -> f64 {
    a[0] * b[1] - a[1] * b[0]
}

fn toward(from: [f64; 2], to: [f64; 2]) -> ([f64; 2], f64) {
    let run = [to[0] - from[0], to[1] - from[1]];
    let far = hypot(run[0], run[1]).max(1e-9);
    (run.map(|part| part / far), far)
}

/// How many pull.
pub fn people(pull_n: f64) -> Option<u32> {
    let many = (pull_n / super::ONE_PULLS_N).ceil().max(1.0);
    (many <= 1000.0).then_some(many as u32)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn turning(weight_n: f64, centre_m: f64, long_m: f64) -> Turning {
        let mass_kg = weight_n / STANDARD_GRAVITY;
        Turning { moment_kg_m: mass_kg * centre_m, mass_kg, long_m }
    }

    /// The project's collected values (statics, worked again): pole of 9 m and 300 N, rope from 3 m straight above the hinge to 6 m up the pole: 503.1 N
    /// lying, 389.7 N at 30°, 278.8 N at 60°. The anchor lies so far that the rope never leaves the head.
    #[test]
    fn a_rope_over_a_gin_as_in_the_collected_values() {
        let line = RiggedLine { tied_m: 6.0, head: [0.0, 3.0], anchor: [1.0, -1e6] };
        for (deg, by_hand_n) in [(0.0, 503.1), (30.0, 389.7), (60.0, 278.8)] {
            let pull_n = line.pull(&turning(300.0, 4.5, 9.0), deg).pull_n;
            assert!((pull_n - by_hand_n).abs() < 0.05, "{deg}: {pull_n}");
        }
    }

    /// Young & Freedman's flagpole (as collected): 5.00 m, 195 N, 600 N at its end, held by a wire of 1,070 N at its end at 40.68°, from 4.30 m
    /// up the wall; 0.52 m lower the wire has 1,157.0 N.
    #[test]
    fn the_flagpole_of_a_handbook() {
        let both = turning(795.0, (195.0 * 2.5 + 600.0 * 5.0) / 795.0, 5.0);
        for (up_m, by_hand_n) in [(4.297, 1070.0), (3.777, 1157.0)] {
            let line = RiggedLine { tied_m: 5.0, head: [0.0, up_m], anchor: [1.0, -1e6] };
            let pull_n = line.pull(&both, 0.0).pull_n;
            assert!((pull_n - by_hand_n).abs() < 0.5, "{up_m}: {pull_n}");
        }
    }

    /// By hand: head 2 m up over the hinge, tied 4 m up the lying mast, anchor level 2 m behind: 26.57° on the one side, 45° on the other. Arm
    /// 4·sin 26.57° = 1.789 m; 100 N·m/1.789 m = 55.9 N; the head is pushed down by 55.9·(0.4472 + 0.7071) = 64.5 N and towards the
    /// mast by 55.9·(0.8944 − 0.7071) = 10.5 N.
    #[test]
    fn what_the_prop_gets_by_hand() {
        let line = RiggedLine { tied_m: 4.0, head: [0.0, 2.0], anchor: [2.0, 0.0] };
        let at = line.pull(&turning(50.0, 2.0, 4.0), 0.0);
        assert!((at.arm_m - 1.7889).abs() < 1e-4 && (at.pull_n - 55.90).abs() < 0.01, "{at:?}");
        assert!((at.prop_down_n - 64.53).abs() < 0.01 && (at.prop_toward_n - 10.47).abs() < 0.01, "{at:?}");
        // Once the mast is up, the straight line from 4 m up to the anchor passes over the head at 2 m: it left it at the same height.
        let up = line.pull(&turning(50.0, 2.0, 4.0), 80.0);
        assert_eq!((up.prop_down_n, up.prop_toward_n), (0.0, 0.0));
    }

    /// What is pulled in, over all of the way, does the work of lifting: ∫T·a·dθ, and T·(line shortens) alike.
    #[test]
    fn the_line_does_the_work_of_lifting() {
        let (mast, line) =
            (turning(300.0, 2.0, 5.0), RiggedLine { tied_m: 4.0, head: [0.3, 2.5], anchor: [6.0, 0.0] });
        let long_m = |deg: f64| {
            let tie = [-4.0 * cos_deg(deg), 4.0 * sin_deg(deg)];
            let (direct, straight_m) = toward(tie, line.anchor);
            let (to_head, first_m) = toward(tie, line.head);
            let (_, second_m) = toward(line.head, line.anchor);
            if cross(direct, to_head) <= 0.0 { straight_m } else { first_m + second_m }
        };
        let steps = 9000;
        let work: f64 = (0..steps)
            .map(|step| {
                let [from, to] = [step, step + 1].map(|at| 90.0 * f64::from(at) / f64::from(steps));
                line.pull(&mast, 0.5 * (from + to)).pull_n * (long_m(from) - long_m(to))
            })
            .sum();
        assert!((work - 600.0).abs() < 0.01, "{work}");
    }
}
