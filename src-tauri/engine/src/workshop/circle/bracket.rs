//! Flat bars that hold the ring to the legs of the base where it passes over them or before their tips.
//!
//! A bar lies on the timber's top, held by two bolts, and reaches out to the pipe, which a clamp of two legs holds down on it. The strands
//! draw the pipe up with P, a from the outer bolt: M = P·a bends the bar over its width less a bolt's hole, σ = M/S with S = b·t²/6
//! (Beer & Johnston), allowed F_y/1.67 (AISC 360-16, F1); its end gives by P·a³/(3·E·I) (Beer & Johnston, table of deflections of beams).
//! About the inner bolt the outer one holds P·(a + d)/d, d from bolt to bolt.

use serde::Serialize;

use crate::job::Job;
use crate::numerics::real;
use crate::plan::{Computed, RingResult};
use crate::quantity::UnitSystem;
use crate::quantity::bearing::unit;
use crate::quantity::convert::INCH_MM;
use crate::resistance::aisc360::ELASTICITY_MPA;
use crate::resistance::tube::CAUTIOUS_YIELD_MPA;
use crate::round_figures::shop;
use crate::workshop::lift::{PlateBent, thickness_mm};
use crate::workshop::stages::holes::edge_mm;

/// The bolts of a bracket and the legs of its pipe clamp: 8 mm and 6 mm, 5/16 in and 1/4 in; common practice.
const BOLT_MM: f64 = 8.0;
const CLAMP_MM: f64 = 6.0;
/// Flat bars that shops have, wide and thick.
const METRIC_MM: (f64, [f64; 5]) = (40.0, [5.0, 6.0, 8.0, 10.0, 12.0]);
const IMPERIAL_IN: (f64, [f64; 5]) = (1.5, [0.1875, 0.25, 0.3125, 0.375, 0.5]);

/// A bracket from a leg of the base to the ring.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct RingBracket {
    /// What is ticked off.
    pub part: String,
    pub leg: String,
    /// From the leg's tip out to the middle of the pipe, level; below nothing where the ring passes over the timber.
    pub beyond_tip_m: f64,
    /// The ground under the pipe over the timber's top: so much the bar is bent up, or down below nothing.
    pub rise_m: f64,
    pub width_mm: f64,
    /// All of the bar, laid flat.
    pub length_mm: f64,
    /// From its inner end to its two bolts.
    pub bolts_mm: [f64; 2],
    pub bolt_hole_mm: f64,
    /// From its inner end to the clamp's legs; none where nobody has measured the pipe.
    pub clamp_mm: Option<[f64; 2]>,
    pub clamp_hole_mm: f64,
    /// What the strands draw it up with in still air; none where nobody has said how many supports there are.
    pub pull_n: Option<f64>,
    pub moment_nm: Option<f64>,
    /// What the outer bolt is drawn up with.
    pub bolt_pull_n: Option<f64>,
    /// By strength and by how far its end gives.
    pub least_mm: Option<f64>,
    /// The thinnest bar of the shop's that is as thick; none where none is.
    pub bar_mm: Option<f64>,
}

/// A cantilever of flat bar.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BracketArm {
    pub pull_n: f64,
    pub arm_mm: f64,
    pub width_mm: f64,
    pub hole_mm: f64,
}

impl BracketArm {
    pub fn moment_nmm(&self) -> f64 {
        self.pull_n * self.arm_mm
    }

    /// By strength, over its width less a hole.
    pub fn strong_mm(&self) -> f64 {
        let bent = PlateBent { moment_nmm: self.moment_nmm(), width_mm: self.width_mm - self.hole_mm };
        thickness_mm(&bent, CAUTIOUS_YIELD_MPA)
    }

    /// So thick that its end gives by no more: t³ = 4·P·a³/(E·b·δ).
    pub fn stiff_mm(&self, gives_mm: f64) -> f64 {
        let cube = self.arm_mm * self.arm_mm * self.arm_mm;
        real::cbrt(4.0 * self.pull_n * cube / (ELASTICITY_MPA * self.width_mm * gives_mm))
    }
}

/// The bars that shops have, as wide as the brackets are and as thick as there are.
fn bars_mm(system: UnitSystem) -> (f64, [f64; 5]) {
    match system {
        UnitSystem::Metric => METRIC_MM,
        UnitSystem::Imperial => (IMPERIAL_IN.0 * INCH_MM, IMPERIAL_IN.1.map(|inches| inches * INCH_MM)),
    }
}

/// A bracket for every leg that the ring passes.
pub(super) fn brackets(
    job: &Job,
    computed: &Computed,
    plan: &RingResult,
    pull_n: Option<f64>,
) -> Vec<RingBracket> {
    let Some(strands) = &job.rig.strands else { return Vec::new() };
    let middle_deg = job.placement.front_bearing_deg + strands.facing_turn_deg;
    let passes = |bearing_deg: f64| {
        let off_deg = (bearing_deg - middle_deg + 180.0).rem_euclid(360.0) - 180.0;
        strands.sweep_deg >= 360.0 || off_deg.abs() <= 0.5 * strands.sweep_deg + 1e-9
    };
    let legs = computed.plan.base.legs.iter().filter(|leg| passes(leg.bearing_deg));
    legs.map(|leg| {
        let [east, north] = unit(leg.bearing_deg);
        let mast = &computed.plan.mast;
        let at = [mast.east_m + plan.radius_m * east, mast.north_m + plan.radius_m * north];
        let top_m = mast.foot_m - job.rig.base.seat_height_mm / 1000.0;
        let place = Beyond { tip_m: plan.radius_m - leg.reach_m, rise_m: computed.ground.height(at) - top_m };
        bracket(job, &leg.id, &place, pull_n)
    })
    .collect()
}

/// Where the pipe lies from a leg's tip.
struct Beyond {
    tip_m: f64,
    rise_m: f64,
}

fn bracket(job: &Job, leg: &str, at: &Beyond, pull_n: Option<f64>) -> RingBracket {
    let system = job.units.system;
    let (width_mm, thick_mm) = bars_mm(system);
    let play_mm = shop::BORED_PLAY.of(system);
    let (bolt_hole_mm, clamp_hole_mm) = (BOLT_MM + play_mm, CLAMP_MM + play_mm);
    let apart_mm = shop::STRAP_HOLDS.of(system);
    let end_mm = edge_mm(bolt_hole_mm);
    // As far from the timber's end as half of what lies between the bolts.
    let to_tip_mm = 0.5 * apart_mm;
    let reach_mm = 1000.0 * at.tip_m;
    // Bent up or down to the pipe the bar is longer than its way on the level.
    let outwards_mm = to_tip_mm + reach_mm;
    let rise_mm = 1000.0 * at.rise_m;
    let arm_mm =
        if reach_mm > 0.0 { to_tip_mm + real::hypot(reach_mm, rise_mm) } else { outwards_mm.max(apart_mm) };
    let pipe_mm = job.workshop.ring.and_then(|pipe| pipe.outside_mm);
    let half_mm = pipe_mm.map(|pipe_mm| 0.5 * (pipe_mm + CLAMP_MM));
    let middle_mm = end_mm + apart_mm + arm_mm;
    let arm = pull_n.map(|pull_n| BracketArm { pull_n, arm_mm, width_mm, hole_mm: bolt_hole_mm });
    let least_mm = arm.map(|arm| arm.strong_mm().max(arm.stiff_mm(shop::RING_GIVES.of(system))));
    RingBracket {
        part: format!("bracket:{leg}"),
        leg: leg.to_owned(),
        beyond_tip_m: at.tip_m,
        rise_m: at.rise_m,
        width_mm,
        length_mm: middle_mm + half_mm.unwrap_or(0.0) + edge_mm(clamp_hole_mm),
        bolts_mm: [end_mm, end_mm + apart_mm],
        bolt_hole_mm,
        clamp_mm: half_mm.map(|half_mm| [middle_mm - half_mm, middle_mm + half_mm]),
        clamp_hole_mm,
        pull_n,
        moment_nm: arm.map(|arm| arm.moment_nmm() / 1000.0),
        bolt_pull_n: pull_n.map(|pull_n| pull_n * (arm_mm + apart_mm) / apart_mm),
        least_mm,
        bar_mm: least_mm.and_then(|least_mm| thick_mm.into_iter().find(|thick_mm| *thick_mm >= least_mm)),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// By hand: 60 N on an arm of 500 mm are 30 Nm. Over 40 − 9.5 mm: t = √(6·30,000·1.67/(30.5·205)) = 6.934 mm. Its end gives 25 mm
    /// where t³ = 4·60·500³/(200,000·40·25) = 150: 5.313 mm.
    #[test]
    fn an_arm_of_flat_bar_by_hand() {
        let arm = BracketArm { pull_n: 60.0, arm_mm: 500.0, width_mm: 40.0, hole_mm: 9.5 };
        assert!((arm.moment_nmm() - 30_000.0).abs() < 1e-9);
        assert!((arm.strong_mm() - 6.9337).abs() < 1e-3, "{}", arm.strong_mm());
        assert!((arm.stiff_mm(25.0) - 5.3133).abs() < 2e-2, "{}", arm.stiff_mm(25.0));
    }

    /// Lantern Green: the ring lies 4 ft 6 in or more beyond every tip, and each bracket reaches from its bolts to the pipe's middle.
    #[test]
    fn a_bracket_reaches_from_its_bolts_to_the_pipe() {
        let job = crate::demo::lantern_green();
        let computed = crate::plan::compute(&job).unwrap();
        let ring = computed.plan.ring.as_ref().unwrap();
        let all = brackets(&job, &computed, ring, Some(20.0));
        assert_eq!(all.len(), computed.plan.base.legs.len());
        for (of, leg) in all.iter().zip(&computed.plan.base.legs) {
            assert!((of.beyond_tip_m - (ring.radius_m - leg.reach_m)).abs() < 1e-12);
            let [low, high] = of.clamp_mm.unwrap();
            let way =
                1000.0 * real::hypot(of.beyond_tip_m, of.rise_m) + 0.5 * (of.bolts_mm[1] - of.bolts_mm[0]);
            assert!((0.5 * (low + high) - of.bolts_mm[1] - way).abs() < 1e-6, "{}", of.leg);
            assert!((high - low - 17.93 - CLAMP_MM).abs() < 1e-9);
            // About the inner bolt: what draws at the end by its lever is what the outer one holds by its own.
            let (d, a) = (of.bolts_mm[1] - of.bolts_mm[0], way);
            assert!((of.bolt_pull_n.unwrap() * d - 20.0 * (a + d)).abs() < 1e-6);
            assert!(of.length_mm > high);
            let thicker = of.bar_mm.is_none_or(|bar_mm| bar_mm >= of.least_mm.unwrap());
            assert!(thicker, "{of:?}");
        }
        let unknown = brackets(&job, &computed, ring, None);
        assert!(unknown.iter().all(|of| of.least_mm.is_none() && of.bar_mm.is_none()));
    }
}
