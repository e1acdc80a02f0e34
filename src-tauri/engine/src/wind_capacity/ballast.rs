//! The ballast of a level box that stands on the ground without stakes.

use super::soil::code_class;
use crate::anchor::footing::{SLIDING_FACTOR, sliding_push_n};
use crate::job::Job;
use crate::quantity::convert::STANDARD_GRAVITY;

/// What a box as wide as the base's legs reach has to weigh, so that what rests on the ground holds a sideways push with the code's
/// friction, or on clay with its cohesion over the box's bottom, over 1.5; none where no weight does, or nothing is known of the soil.
///
/// # References
/// IBC 2012, Table 1806.2 and 1806.3.2, as [`sliding_push_n`] has them.
pub(super) fn box_ballast_kg(job: &Job, push_n: f64, down_n: f64) -> Option<f64> {
    let base = &job.rig.base;
    let side_m = 2.0 * base.front_reach_m.max(base.side_reach_m);
    let (area_m2, soil) = (side_m * side_m, code_class(job.yard.soil));
    let asked_n = SLIDING_FACTOR * push_n;
    // What holds grows evenly with the weight, up to what cohesion has over that area.
    let by_each = sliding_push_n(1.0, f64::INFINITY, soil).filter(|share| *share > 0.0)?;
    let weight_n = asked_n / by_each;
    let holds =
        sliding_push_n(weight_n, area_m2, soil).is_some_and(|held_n| held_n >= asked_n * (1.0 - 1e-9));
    let least_n = weight_n - down_n;
    holds.then_some(if least_n > 0.0 { least_n / STANDARD_GRAVITY } else { 0.0 })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::anchor::soil::{ClayFeel, SandFeel};
    use crate::demo::lantern_green;
    use crate::job::SoilFeel;

    /// By hand, 200 N sideways, 300 N down: 1.5·200 = 300 N. On sand (0.25) 1200 N rest, 900 N of them the box: 91.77 kg. On gravel (0.35)
    /// 857.1 N, 56.81 kg. On clay half of the weight counts: 600 N, 30.59 kg, as long as 130 psf over the box's bottom are more; of
    /// 0.2 m by 0.2 m they are 249 N.
    #[test]
    fn ballast_by_hand() {
        let mut job = lantern_green();
        let mut kg = |soil: SoilFeel, reach_m: f64| {
            job.yard.soil = soil;
            (job.rig.base.front_reach_m, job.rig.base.side_reach_m) = (reach_m, 0.5 * reach_m);
            box_ballast_kg(&job, 200.0, 300.0)
        };
        let clay = SoilFeel::Clay { feel: ClayFeel::Stiff };
        for (soil, by_hand) in [
            (SoilFeel::Sand { feel: SandFeel::Medium, under_water: false }, 91.774),
            (SoilFeel::Gravel, 56.812),
            (clay, 30.591),
        ] {
            let found = kg(soil, 1.0).expect("the code presumes it");
            assert!((found - by_hand).abs() < 2e-3, "{found} {by_hand}");
        }
        assert_eq!(kg(clay, 0.1), None);
        assert_eq!(kg(SoilFeel::Unknown, 1.0), None);
        assert_eq!(box_ballast_kg(&lantern_green(), 10.0, 300.0), Some(0.0));
    }
}
