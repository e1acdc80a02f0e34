//! A bearing of the phone's compass brought into the reference that the yard's bearings are kept in.

use super::{compute, known_line};
use crate::finding::north::{NorthRemedy, NorthRule};
use crate::finding::{Finding, Severity, Subject};
use crate::job::{BearingReference, Job, Yard};
use crate::numerics::real::hypot;
use crate::quantity::FieldErrors;
use crate::quantity::bearing::wrap_360;
use crate::survey::north::north;
use crate::survey::sights::SightedBearing;

/// How a bearing got into the yard's reference.
#[derive(Debug, Clone, PartialEq)]
pub enum BearingHow {
    /// Turned from the line between these marks.
    FromLine {
        from: String,
        to: String,
    },
    AsTheCompassHasIt,
    TurnedToTrue,
    /// It did not: what is to be done first.
    Missing(NorthRemedy),
}

/// A bearing to be stored with the job.
#[derive(Debug, Clone, PartialEq)]
pub struct YardBearing {
    /// The bearing and its sigma; none where the compass alone can't give it.
    pub reading: Option<[f64; 2]>,
    /// The bearing from the plan's north.
    pub true_deg: Option<f64>,
    pub how: BearingHow,
    /// It was turned from a known line, so what pulls the needle at that spot is out of it.
    pub by_line: bool,
    pub findings: Vec<Finding>,
}

/// The sighted bearing in the yard's reference; `line` names the two marks of the known line sighted with it.
///
/// # Errors
/// Where the job has no plan.
pub fn yard_bearing(
    job: &Job,
    line: Option<[&str; 2]>,
    sighted: &SightedBearing,
) -> Result<YardBearing, FieldErrors> {
    if let (Some([from, to]), Some([turn, sigma])) = (line, sighted.from_line) {
        let plan = compute(job)?.plan;
        if let Some(known) = known_line(&plan, &job.yard, from, to) {
            let reading_deg = wrap_360(known.reading_deg + turn);
            return Ok(YardBearing {
                reading: Some([reading_deg, hypot(sigma, known.sigma_deg)]),
                true_deg: Some(wrap_360(reading_deg + plan.north.add_to_reading_deg)),
                how: BearingHow::FromLine { from: from.to_owned(), to: to.to_owned() },
                by_line: true,
                findings: Vec::new(),
            });
        }
    }
    Ok(by_compass(&job.yard, sighted))
}

fn by_compass(yard: &Yard, sighted: &SightedBearing) -> YardBearing {
    let declination_deg = match yard.bearings {
        BearingReference::Magnetic { declination_deg } => declination_deg,
        _ => None,
    };
    let known = declination_deg.is_some() || (yard.place.is_some() && yard.surveyed_at.is_some());
    let (correction, doubts) =
        north(&Yard { bearings: BearingReference::Magnetic { declination_deg }, ..yard.clone() });
    let (compass, sigma) = (sighted.compass_deg, sighted.sigma_deg);
    let found = |reading: [f64; 2], how: BearingHow| YardBearing {
        true_deg: Some(wrap_360(compass + correction.add_to_reading_deg)),
        reading: Some(reading),
        how,
        by_line: false,
        // That the place is missing is said by the plan.
        findings: if known { doubts.clone() } else { Vec::new() },
    };
    match &yard.bearings {
        BearingReference::Magnetic { .. } => found([compass, sigma], BearingHow::AsTheCompassHasIt),
        BearingReference::True if known => found(
            [wrap_360(compass + correction.add_to_reading_deg), hypot(sigma, correction.sigma_deg)],
            BearingHow::TurnedToTrue,
        ),
        BearingReference::True => missing(NorthRemedy::EnterPlaceAndDateFirst),
        BearingReference::Baseline { from, to, .. } => {
            missing(NorthRemedy::SightAlong { from: from.clone(), to: to.clone() })
        }
    }
}

fn missing(remedy: NorthRemedy) -> YardBearing {
    let how = BearingHow::Missing(remedy.clone());
    let finding =
        Finding::rule_of_thumb(Severity::Unchecked, NorthRule::BearingWithoutReference, Subject::Job, remedy);
    YardBearing { reading: None, true_deg: None, how, by_line: false, findings: vec![finding] }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::demo;
    use crate::survey::sights::{CompassSample, Sights, bearing};

    fn sighted(forward: f64, line: Option<f64>) -> SightedBearing {
        let aim = |heading_deg| vec![CompassSample::Heading { heading_deg, accuracy_deg: None }];
        let line: Vec<_> = line.into_iter().map(aim).collect();
        let sights = Sights { forward: &[aim(forward)], back: &[], line: &line, compass_sigma_deg: 2.0 };
        bearing(&sights, "r").unwrap()
    }

    #[test]
    fn each_reference_takes_its_own() {
        let mut job = demo::yardstick();
        job.yard.bearings = BearingReference::Magnetic { declination_deg: None };
        let of = |job: &Job, line| yard_bearing(job, line, &sighted(100.0, Some(40.0))).unwrap();
        assert!((of(&job, None).reading.unwrap()[0] - 100.0).abs() < 1e-9);

        // Lantern Green's declination is -13.56° on its date (docs/methods/north.md).
        job.yard.bearings = BearingReference::True;
        assert!((of(&job, None).reading.unwrap()[0] - 86.44).abs() < 0.02);
        job.yard.place = None;
        assert_eq!(of(&job, None).findings[0].rule, "bearing_without_reference");

        let [from, to] = [0, 1].map(|i| job.yard.marks[i].id.clone());
        job.yard.bearings =
            BearingReference::Baseline { from: from.clone(), to: to.clone(), bearing_deg: 77.0 };
        assert_eq!(of(&job, None).reading, None);
        let turned = of(&job, Some([&from, &to]));
        assert!(turned.by_line && (turned.reading.unwrap()[0] - 60.0).abs() < 1e-9);
    }
}
