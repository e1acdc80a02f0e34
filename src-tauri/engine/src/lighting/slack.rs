//! How slack each strand has to be while the last tube still has to go up, and how tight it gets when it has.
//!
//! A strand is a straight elastic cord, with a spring where there is one: L = L₀·(1 + T/EA) + T/k (Hooke; its weight is left out, as in
//! [`circles`](crate::workshop::circle)). Its upper end goes straight up with the tube, its lower one stays tied to the ring.

use super::results::{LastTube, StrandSlack};
use crate::job::{Job, Lights};
use crate::numerics::vector::{norm, subtract};
use crate::plan::Plan;
use crate::workshop::stages::Stages;

/// How a strand gives.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Give {
    /// EA of the cord.
    pub stiffness_n: f64,
    /// Of the spring at its end, a metre a newton; nothing where there is none.
    pub spring_m_per_n: f64,
}

impl Give {
    /// None while nobody has measured it.
    pub(super) fn of(lights: &Lights, stiffness_n: f64) -> Option<Self> {
        let spring_m_per_n = match (lights.spring_pull_n, lights.spring_gives_mm) {
            (None, None) => 0.0,
            (Some(pull_n), Some(gives_mm)) => gives_mm / 1000.0 / pull_n,
            _ => return None,
        };
        lights.stretch_measured.then_some(Self { stiffness_n, spring_m_per_n })
    }

    /// Length without tension of what is `long_m` under it; none where the spring gives more than that.
    pub(super) fn unstressed_m(&self, long_m: f64, tension_n: f64) -> Option<f64> {
        let cord_m = (long_m - tension_n * self.spring_m_per_n) / (1.0 + tension_n / self.stiffness_n);
        (cord_m > 0.0).then_some(cord_m)
    }

    /// What pulls when it is drawn out from its length without tension.
    pub(super) fn tension_n(&self, unstressed_m: f64, long_m: f64) -> f64 {
        (long_m - unstressed_m).max(0.0) / (unstressed_m / self.stiffness_n + self.spring_m_per_n)
    }
}

/// How far below its place the upper end of a strand is where it is just straight, as long as it is without tension; none where it
/// would not be even beside its lower end.
fn just_straight_below_m(way: [f64; 3], unstressed_m: f64) -> Option<f64> {
    let level2 = way[0] * way[0] + way[1] * way[1];
    let up2 = unstressed_m * unstressed_m - level2;
    (up2 >= 0.0).then(|| way[2] - up2.sqrt())
}

/// The strands before the last tube goes up; none where nothing is cranked, or where the strands do not hang from that tube or one
/// above it.
pub(super) fn last_tube(job: &Job, plan: &Plan, stages: &Stages) -> Option<LastTube> {
    let (strands, ring, stage) = (job.rig.strands.as_ref()?, plan.ring.as_ref()?, stages.stages.last()?);
    let mouth = (stage.tube as usize).checked_sub(1).and_then(|below| plan.mast.stages.get(below))?;
    if strands.top_height_m <= mouth.top_height_m {
        return None;
    }
    let give = Give::of(&job.lights, strands.cord.stiffness_n());
    let set_n = strands.cord.tension_n;
    let drop_m = stage.travel_m;
    let ways: Vec<[f64; 3]> =
        ring.tops.iter().zip(&ring.points).map(|(top, at)| subtract(*top, *at)).collect();
    let unstressed = |way: &[f64; 3]| give.and_then(|give| give.unstressed_m(norm(*way), set_n));
    let below: Option<Vec<f64>> =
        ways.iter().map(|way| just_straight_below_m(*way, unstressed(way)?)).collect();
    // The soonest one: none is then drawn tighter than it is to be.
    let tie_below_m = below.and_then(|all| all.into_iter().reduce(f64::min));
    let strand = |(number, way): (u32, &[f64; 3])| {
        let lowered = |by_m: f64| norm([way[0], way[1], way[2] - by_m]);
        let tension = give.zip(tie_below_m).map(|(give, by_m)| give.tension_n(lowered(by_m), norm(*way)));
        StrandSlack {
            number,
            slack_m: unstressed(way).map(|unstressed| (unstressed - lowered(drop_m)).max(0.0)),
            tension_n: tension,
        }
    };
    let strands: Vec<StrandSlack> = (1..).zip(&ways).map(strand).collect();
    Some(LastTube { tube: stage.name.clone(), drop_m, set_n, tie_below_m, strands })
}

#[cfg(test)]
mod tests {
    use super::*;

    const WAY: [f64; 3] = [3.0, 0.0, 4.0];
    const STIFF: Give = Give { stiffness_n: 20_000.0, spring_m_per_n: 0.0 };
    const SPRUNG: Give = Give { stiffness_n: 20_000.0, spring_m_per_n: 0.002 };

    /// By hand: 5 m under 100 N with EA 20 kN are 5/1.005 = 4.975 124 m without tension. A spring of 2 mm a newton takes 0.2 m of it:
    /// 4.8/1.005 = 4.776 119 m.
    #[test]
    fn a_strand_stretches_as_hooke_has_it() {
        let near = |found: f64, by_hand: f64| assert!((found - by_hand).abs() < 1e-6, "{found}");
        near(STIFF.unstressed_m(5.0, 100.0).expect("a length"), 4.975_124);
        near(SPRUNG.unstressed_m(5.0, 100.0).expect("a length"), 4.776_119);
        for give in [STIFF, SPRUNG] {
            let unstressed = give.unstressed_m(5.0, 100.0).expect("a length");
            near(give.tension_n(unstressed, 5.0), 100.0);
            near(give.tension_n(unstressed, unstressed - 0.1), 0.0);
        }
        assert_eq!(SPRUNG.unstressed_m(0.1, 100.0), None, "the spring alone gives more");
    }

    /// By vectors, 3, 4, 5: lowered to 3.5 m up it is √21.25 = 4.609 772 m long; 4.609 772 m without tension is just straight 0.5 m below.
    #[test]
    fn the_upper_end_goes_straight_up() {
        let below = just_straight_below_m(WAY, 21.25_f64.sqrt()).expect("a height");
        assert!((below - 0.5).abs() < 1e-12, "{below}");
        assert_eq!(just_straight_below_m(WAY, 2.9), None, "nearer to the mast than the ring is");
    }

    /// Outside model: the same strand as two springs in a row, settled by bisection until both pull alike.
    #[test]
    fn two_springs_in_a_row_pull_alike() {
        let (unstressed, long) = (4.7, 5.0);
        let (mut low, mut high) = (0.0_f64, long - unstressed);
        for _ in 0..200 {
            let cord = (low + high) / 2.0;
            let (by_cord, by_spring) =
                (cord / unstressed * SPRUNG.stiffness_n, (long - unstressed - cord) / SPRUNG.spring_m_per_n);
            if by_cord < by_spring { low = cord } else { high = cord }
        }
        let settled = low / unstressed * SPRUNG.stiffness_n;
        assert!((SPRUNG.tension_n(unstressed, long) - settled).abs() < 1e-6, "{settled}");
    }
}
