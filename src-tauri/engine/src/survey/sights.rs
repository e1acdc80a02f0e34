//! A bearing from a phone's compass: from its orientation to where its top points, several sights averaged, a
//! sight back from the other end, and a known line sighted from the same spot.

use serde::{Deserialize, Serialize};

use super::compass::{MeanBearing, ThereAndBack, mean_bearing, spread_finding, there_and_back};
use crate::finding::Finding;
use crate::numerics::real::{cos_deg, hypot, sin_deg};
use crate::quantity::bearing::{of_vector, turn_deg, wrap_360};

/// Beyond this rise of its long edge a phone's top points nowhere along the ground (common practice).
const STEEPEST_DEG: f64 = 60.0;

/// Within one aim a compass at rest wanders less than this; more is a phone being turned (common practice).
const TURNING_DEG: f64 = 6.0;

/// One event of the phone's compass.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
#[serde(tag = "from", rename_all = "snake_case")]
pub enum CompassSample {
    /// The angles of an absolute orientation event.
    Orientation { alpha_deg: f64, beta_deg: f64, gamma_deg: f64 },
    /// The heading that an iPhone's browser gives, with its own idea of how good it is (below zero: none).
    Heading { heading_deg: f64, accuracy_deg: Option<f64> },
}

impl CompassSample {
    /// Where the phone's top points, clockwise from magnetic north; none where it points too steeply.
    ///
    /// # References
    /// W3C Device Orientation and Motion: with R = Rz(α)·Rx(β)·Ry(γ) the top's horizontal part is
    /// cos β · (−sin α, cos α) east and north. Android's rotation vector, which Chromium passes on, takes magnetic
    /// north for north, and so does Apple's heading: both from memory.
    pub fn heading_deg(&self) -> Option<f64> {
        let heading = match *self {
            Self::Heading { heading_deg, .. } => wrap_360(heading_deg),
            Self::Orientation { alpha_deg, beta_deg, .. } => {
                let level = cos_deg(beta_deg);
                if level.abs() < cos_deg(STEEPEST_DEG) {
                    return None;
                }
                of_vector(-sin_deg(alpha_deg) * level, cos_deg(alpha_deg) * level)
            }
        };
        heading.is_finite().then_some(heading)
    }

    fn accuracy_deg(&self) -> Option<f64> {
        match *self {
            Self::Heading { accuracy_deg, .. } => accuracy_deg.filter(|accuracy| accuracy.is_finite()),
            Self::Orientation { .. } => None,
        }
    }
}

/// What was sighted; each sight is the events of one aim.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Sights<'a> {
    pub forward: &'a [Vec<CompassSample>],
    /// Back from the other end.
    pub back: &'a [Vec<CompassSample>],
    /// Along a known line, from where `forward` was read.
    pub line: &'a [Vec<CompassSample>],
    /// One sigma of one compass bearing.
    pub compass_sigma_deg: f64,
}

/// A bearing as the compass has it.
#[derive(Debug, Clone, PartialEq)]
pub struct SightedBearing {
    /// From magnetic north.
    pub compass_deg: f64,
    pub sigma_deg: f64,
    pub forward: MeanBearing,
    pub both_ways: Option<ThereAndBack>,
    /// Clockwise from the known line, with its sigma.
    pub from_line: Option<[f64; 2]>,
    pub findings: Vec<Finding>,
}

/// Why there is no bearing.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
pub enum NoBearing {
    #[error("there is no sight yet, or the phone was held too steeply: hold it flat, its top at the target")]
    NoSight,
    #[error("the phone was still turning: hold it at the target for a second or two, then take the sight")]
    Turning,
    #[error("the sights point every which way: something of steel or a magnet is near the phone")]
    EveryWay,
}

/// The bearing of all sights together.
///
/// # Errors
/// When there is no usable sight forwards, or the sights of one kind point every way.
///
/// # References
/// The compass's own sigma after calibration: Lviv Polytechnic study (`lpnu2017`). A turn between two sights holds
/// both their errors, √2 of one; what pulls the needle at that spot falls out of it.
pub fn bearing(sights: &Sights, reading_id: &str) -> Result<SightedBearing, NoBearing> {
    let forward = mean(sights.forward)?.ok_or(NoBearing::NoSight)?;
    let stated = sights.forward.iter().flatten().filter_map(CompassSample::accuracy_deg).fold(0.0, f64::max);
    let compass_sigma = sights.compass_sigma_deg.max(stated);
    let one = hypot(compass_sigma, forward.sigma_deg);
    let back = mean(sights.back)?;
    let both_ways =
        back.as_ref().and_then(|back| there_and_back(forward.bearing_deg, back.bearing_deg, compass_sigma));
    let from_line = mean(sights.line)?.map(|line| {
        let turn = wrap_360(turn_deg(line.bearing_deg, forward.bearing_deg));
        [turn, hypot(one, hypot(compass_sigma, line.sigma_deg))]
    });
    let findings = spread_finding(reading_id, &forward, compass_sigma)
        .into_iter()
        .chain(both_ways.as_ref().and_then(|both| both.finding(reading_id, compass_sigma)))
        .collect();
    // Two ends that do not agree are no better than one of them, nor is it known which: half their disagreement.
    let (compass_deg, sigma_deg) = match &both_ways {
        Some(both) if both.agrees => (both.bearing_deg, hypot(both.sigma_deg, forward.sigma_deg)),
        Some(both) => (both.bearing_deg, hypot(one, 0.5 * both.disagreement_deg)),
        None => (forward.bearing_deg, one),
    };
    Ok(SightedBearing { compass_deg, sigma_deg, forward, both_ways, from_line, findings })
}

/// The mean of the means of each aim; none without an aim.
fn mean(sights: &[Vec<CompassSample>]) -> Result<Option<MeanBearing>, NoBearing> {
    let aims: Vec<Vec<f64>> = sights
        .iter()
        .map(|sight| sight.iter().filter_map(CompassSample::heading_deg).collect())
        .filter(|aim: &Vec<f64>| !aim.is_empty())
        .collect();
    if aims.is_empty() {
        return Ok(None);
    }
    let means: Vec<f64> = aims.iter().map(|aim| steady_mean(aim)).collect::<Result<_, _>>()?;
    mean_bearing(&means).map(Some).ok_or(NoBearing::EveryWay)
}

/// The mean of one aim, whose first and last events must point alike.
fn steady_mean(aim: &[f64]) -> Result<f64, NoBearing> {
    let mean = mean_bearing(aim).ok_or(NoBearing::Turning)?;
    let strays =
        aim.iter().filter(|&&heading| turn_deg(mean.bearing_deg, heading).abs() > TURNING_DEG).count();
    // A single stray event is the compass's; a quarter of them is the hand's.
    if 4 * strays > aim.len() { Err(NoBearing::Turning) } else { Ok(mean.bearing_deg) }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn aim(heading: f64) -> Vec<CompassSample> {
        (0..5)
            .map(|i| CompassSample::Heading {
                heading_deg: heading + 0.2 * f64::from(i - 2),
                accuracy_deg: None,
            })
            .collect()
    }

    fn sights<'a>(forward: &'a [Vec<CompassSample>], back: &'a [Vec<CompassSample>]) -> Sights<'a> {
        Sights { forward, back, line: &[], compass_sigma_deg: 2.0 }
    }

    /// By the axes: α counts against the clock, so a phone flat with its top to the east has α = 270°.
    #[test]
    fn orientation_says_where_the_top_points() {
        let at = |alpha_deg, beta_deg| CompassSample::Orientation { alpha_deg, beta_deg, gamma_deg: 3.0 };
        assert!((at(270.0, 0.0).heading_deg().unwrap() - 90.0).abs() < 1e-9);
        assert!((at(30.0, 20.0).heading_deg().unwrap() - 330.0).abs() < 1e-9);
        // Face down, tipped over its short side: the top points the other way.
        assert!((at(0.0, 170.0).heading_deg().unwrap() - 180.0).abs() < 1e-9);
        assert_eq!(at(0.0, 85.0).heading_deg(), None);
        assert_eq!(at(f64::NAN, 0.0).heading_deg(), None);
    }

    #[test]
    fn sights_average_on_the_circle_and_both_ends_together_are_surer() {
        let forward = [aim(359.0), aim(1.0), aim(3.0)];
        let one_way = bearing(&sights(&forward, &[]), "r").unwrap();
        assert!(turn_deg(1.0, one_way.compass_deg).abs() < 1e-9 && one_way.findings.is_empty());
        // By hand: spread 2°, over √3 1.155°, with 2° in squares 2.309°.
        assert!((one_way.sigma_deg - 2.309).abs() < 1e-3);
        let both = bearing(&sights(&forward, &[aim(184.0)]), "r").unwrap();
        assert!(turn_deg(2.5, both.compass_deg).abs() < 1e-9 && both.sigma_deg < one_way.sigma_deg);
    }

    #[test]
    fn ends_that_disagree_are_named_and_cost_certainty() {
        let found = bearing(&sights(&[aim(40.0)], &[aim(240.0)]), "r").unwrap();
        assert!(!found.both_ways.as_ref().unwrap().agrees && found.sigma_deg > 10.0);
        assert_eq!(found.findings[0].rule, "steel_nearby");
    }

    #[test]
    fn a_known_line_takes_out_what_pulls_the_needle() {
        // Both pulled by 17°: the turn from the line stays.
        let (forward, line) = ([aim(117.0)], [aim(47.0)]);
        let with_line = Sights { line: &line, ..sights(&forward, &[]) };
        let [turn, sigma] = bearing(&with_line, "r").unwrap().from_line.unwrap();
        assert!((turn - 70.0).abs() < 1e-9 && (sigma - 8.5_f64.sqrt()).abs() < 1e-9);
        // A phone that says it is unsure is believed.
        let unsure = [vec![CompassSample::Heading { heading_deg: 10.0, accuracy_deg: Some(25.0) }]];
        assert!(bearing(&sights(&unsure, &[]), "r").unwrap().sigma_deg > 25.0);
    }

    #[test]
    fn no_sight_no_bearing() {
        assert_eq!(bearing(&sights(&[], &[]), "r"), Err(NoBearing::NoSight));
        let turning: Vec<CompassSample> = (0..20)
            .map(|i| CompassSample::Heading { heading_deg: 2.0 * f64::from(i), accuracy_deg: None })
            .collect();
        assert_eq!(bearing(&sights(&[turning], &[]), "r"), Err(NoBearing::Turning));
        let every_way = [aim(0.0), aim(120.0), aim(240.0)];
        assert_eq!(bearing(&sights(&every_way, &[]), "r"), Err(NoBearing::EveryWay));
    }
}
