//! A phone on a tube that sways: how it stands on average, and how sure that is.
//!
//! What the phone feels beside gravity is the swaying itself; over whole sways both average out. The longer it is read the
//! surer it is, unless somebody moves the tube meanwhile: so of several stretches up to now, whose means agree with that of the
//! last seconds, the surest counts. After a guy was taken in that is a short one, which grows again.

use super::noise::{mean_of, standard_uncertainty};
use super::{HoldRules, LEAST_READINGS, Sample, Tilt, resting, usable};
use crate::survey::tilt::{GravitySign, edge_slopes, rests_on};

/// Stretches that are tried, in milliseconds (common practice: a guyed mast sways once in one to three seconds).
const STRETCHES_MS: [f64; 5] = [3000.0, 5000.0, 8000.0, 12_000.0, 20_000.0];
/// Farther than this from the last half second and the phone was moved, not the mast.
const MOVED_DEG: f64 = 9.0;
/// Sways wider than this to either side say more of the wind than of the mast (common practice).
const MOST_SWAY_DEG: f64 = 3.0;
/// So long a mast is read before it is said that it sways too much.
const PATIENCE_MS: f64 = 10_000.0;
/// Not known to this after that: too much.
const SURE_ENOUGH_DEG: f64 = 0.25;
/// Means of a short and a longer stretch of the same swaying differ by no more than this and so much of the sway: of a sway
/// once in two seconds three seconds leave 2/(3π) of its height (the mean of a sine over a part of a turn).
const STILL_THE_SAME_DEG: f64 = 0.1;
const SWAY_LEFT: f64 = 0.35;
/// Of five stretches the surest was chosen, which looks surer than it is by about so much (`tests.rs` counts).
const CHOSEN: f64 = 1.25;

/// How a tube that sways is read.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Sway {
    /// On average; none until there are readings enough.
    pub tilt: Option<Tilt>,
    pub seconds: f64,
    /// Half of the way from one end of a sway to the other.
    pub sway_deg: f64,
    /// Too much to tell, and it was waited for.
    pub too_much: bool,
    pub axes_missing: bool,
}

/// The readings of up to twenty seconds, the latest last.
///
/// # Accuracy
/// The standard uncertainty is that of block means (Law & Kelton, from memory) of the surest stretch, times 1.25; truth
/// lies within ±95 % of it in simulated swaying at least as often (`tests.rs`). Laying the phone on is not in it.
pub fn sway(samples: &[Sample], sign: GravitySign) -> Sway {
    let usable = usable(samples);
    let axes_missing = usable.is_empty() && !samples.is_empty();
    let rules = HoldRules { movement_deg: MOVED_DEG, ..HoldRules::default() };
    let resting = resting(&usable, &rules);
    let Some(last_ms) = resting.last().map(|last| last.time_ms) else {
        return Sway { tilt: None, seconds: 0.0, sway_deg: 0.0, too_much: false, axes_missing };
    };
    let held_ms = last_ms - resting[0].time_ms;
    let since = |stretch_ms: f64| &resting[resting.partition_point(|it| it.time_ms < last_ms - stretch_ms)..];
    let of_stretch = |stretch_ms: &f64| averaged(since(*stretch_ms), sign);
    // The shortest is tried even where it is not whole yet; the longer ones only once they are.
    let whole = |stretch_ms: &&f64| **stretch_ms <= held_ms.max(STRETCHES_MS[0]);
    let now = averaged(since(STRETCHES_MS[0]), sign);
    let off_deg = STILL_THE_SAME_DEG + SWAY_LEFT * sway_deg(since(STRETCHES_MS[0]), sign);
    // A longer stretch counts only while its mean is still that of the last seconds: else somebody moved the tube.
    let same = |tilt: &Tilt| {
        now.is_none_or(|now| {
            (tilt.screen_deg - now.screen_deg).abs() <= off_deg
                && (tilt.short_edge_deg - now.short_edge_deg).abs() <= off_deg
        })
    };
    let found = STRETCHES_MS.iter().filter(whole).filter_map(of_stretch).filter(same);
    let tilt = found.min_by(|a, b| a.standard_uncertainty_deg.total_cmp(&b.standard_uncertainty_deg));
    let sway_deg = sway_deg(since(PATIENCE_MS), sign);
    let unsure = tilt.is_none_or(|tilt| tilt.standard_uncertainty_deg > SURE_ENOUGH_DEG);
    let too_much = held_ms >= PATIENCE_MS && (sway_deg > MOST_SWAY_DEG || unsure);
    Sway { tilt, seconds: held_ms / 1000.0, sway_deg, too_much, axes_missing }
}

fn averaged(samples: &[Sample], sign: GravitySign) -> Option<Tilt> {
    if samples.len() < LEAST_READINGS {
        return None;
    }
    let readings: Vec<[f64; 3]> = samples.iter().map(|it| it.acceleration).collect();
    let mean = mean_of(&readings);
    let slopes = edge_slopes(mean, sign)?;
    Some(Tilt {
        long_edge_deg: slopes.long_edge_deg,
        short_edge_deg: slopes.short_edge_deg,
        screen_deg: slopes.screen_deg,
        rests_on: rests_on(mean, sign)?,
        standard_uncertainty_deg: CHOSEN * standard_uncertainty(&readings, mean).to_degrees(),
        acceleration: mean,
    })
}

/// √2 times the standard deviation of the less steady axis: the height of a sine that scatters so.
fn sway_deg(samples: &[Sample], sign: GravitySign) -> f64 {
    let slopes: Vec<_> = samples.iter().filter_map(|it| edge_slopes(it.acceleration, sign)).collect();
    let scatter = |values: Vec<f64>| {
        let n = values.len().max(1) as f64;
        let mean = values.iter().sum::<f64>() / n;
        (2.0 * values.iter().map(|x| (x - mean) * (x - mean)).sum::<f64>() / n).sqrt()
    };
    let of = |edge: fn(f64, f64) -> f64| {
        scatter(slopes.iter().map(|it| edge(it.screen_deg, it.short_edge_deg)).collect())
    };
    of(|screen, _| screen).max(of(|_, short| short))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::numerics::random::Random;
    use crate::numerics::real::{cos_deg, sin, sin_deg};

    const TURN: f64 = 2.0 * core::f64::consts::PI;

    /// A phone upright on a tube that leans by `lean` away from its screen and sways by `sway` once in `period_s`: gravity and
    /// the swaying's own acceleration at 1.5 m up, noise, and a browser's steps of 0.1 m/s².
    fn read(lean: f64, sway: f64, period_s: f64, seconds: f64, random: &mut Random) -> Vec<Sample> {
        let start = random.even();
        (0..(60.0 * seconds) as usize)
            .map(|i| {
                let t = i as f64 / 60.0;
                let phase = sin(TURN * (t / period_s + start));
                let angle = lean + sway * phase;
                // Away from the screen: the screen's axis dips, z feels gravity's part; a = −ω²·x at the phone.
                let moving = -1.5 * sin_deg(sway) * phase * (TURN / period_s) * (TURN / period_s);
                let felt = [0.0, 9.81 * cos_deg(angle), -9.81 * sin_deg(angle) - moving * cos_deg(angle)];
                let rounded = felt.map(|a| ((a + 0.05 * random.normal()) * 10.0).round() / 10.0);
                Sample { time_ms: 1000.0 * t, acceleration: rounded }
            })
            .collect()
    }

    /// The check: 200 swaying tubes, read for 3 to 20 seconds.
    #[test]
    fn the_truth_lies_in_its_interval() {
        let mut random = Random::seeded(13);
        let mut held = 0;
        for _ in 0..200 {
            let (lean, wide) = (2.0 * random.even() - 1.0, 0.8 * random.even());
            let (period_s, seconds) = (0.8 + 2.2 * random.even(), 3.0 + 17.0 * random.even());
            let found =
                sway(&read(lean, wide, period_s, seconds, &mut random), GravitySign::Up).tilt.unwrap();
            // The phone's screen looks down by the lean.
            held += u32::from((found.screen_deg + lean).abs() <= 1.96 * found.standard_uncertainty_deg);
        }
        println!("truth in {held} of 200 intervals");
        assert!(held >= 188, "{held} of 200");
    }

    #[test]
    fn longer_is_surer_and_a_move_counts_anew() {
        let mut random = Random::seeded(14);
        let long = read(0.5, 0.3, 1.3, 20.0, &mut random);
        let sigma =
            |samples: &[Sample]| sway(samples, GravitySign::Up).tilt.unwrap().standard_uncertainty_deg;
        assert!(sigma(&long) < 0.7 * sigma(&long[..200]), "{} {}", sigma(&long), sigma(&long[..200]));
        // A guy is taken in at 20 s: four seconds later the figure is that of the new lean.
        let mut moved = long.clone();
        let after = read(-0.9, 0.3, 1.3, 4.0, &mut random);
        moved.extend(after.iter().map(|it| Sample { time_ms: it.time_ms + 20_000.0, ..*it }));
        let found = sway(&moved, GravitySign::Up).tilt.unwrap();
        assert!((found.screen_deg - 0.9).abs() <= 1.96 * found.standard_uncertainty_deg + 0.05, "{found:?}");
        assert!(found.standard_uncertainty_deg < 0.3);
    }

    #[test]
    fn too_much_is_said_only_after_waiting() {
        let mut random = Random::seeded(15);
        let wild = read(0.0, 4.0, 2.1, 12.0, &mut random);
        assert!(sway(&wild, GravitySign::Up).too_much);
        assert!(!sway(&wild[..240], GravitySign::Up).too_much);
        let calm = sway(&read(0.2, 0.2, 1.7, 12.0, &mut random), GravitySign::Up);
        assert!(!calm.too_much && calm.sway_deg < 0.6, "{calm:?}");
        let missing = Sample { time_ms: 1.0, acceleration: [f64::NAN; 3] };
        assert!(sway(&[missing], GravitySign::Up).axes_missing);
        assert!(sway(&[], GravitySign::Up).tilt.is_none());
    }
}
