//! A line whose bearing is known without the compass: the yard's baseline, or two marks that tapes have fixed.

use super::Plan;
use crate::job::{BearingReference, Yard};
use crate::numerics::real::{atan2_deg, hypot};
use crate::pointer;
use crate::quantity::bearing::{of_vector, wrap_360};

/// Semi-axes of a 95 % ellipse are this many sigmas: √(−2·ln 0.05).
const SIGMAS_IN_ELLIPSE: f64 = 2.447_7;

/// A direction in the yard's own bearing reference.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct KnownLine {
    pub reading_deg: f64,
    pub sigma_deg: f64,
}

/// The line from one mark to another; none where they are not two marks of the plan.
///
/// # Accuracy
/// Both ellipses' long axes against the distance: never too sure. A baseline is exact, for bearings are read from it.
pub fn known_line(plan: &Plan, yard: &Yard, from: &str, to: &str) -> Option<KnownLine> {
    if let BearingReference::Baseline { from: first, to: second, .. } = &yard.bearings {
        match (from == first && to == second, from == second && to == first) {
            (true, _) => return Some(KnownLine { reading_deg: 0.0, sigma_deg: 0.0 }),
            (_, true) => return Some(KnownLine { reading_deg: 180.0, sigma_deg: 0.0 }),
            _ => {}
        }
    }
    let point = |id: &str| {
        let index = yard.marks.iter().position(|mark| mark.id == id)?;
        let path = pointer!(yard.marks[index].at);
        plan.points.iter().find(|point| point.path == path)
    };
    let (a, b) = (point(from)?, point(to)?);
    let (east, north) = (b.east_m - a.east_m, b.north_m - a.north_m);
    let distance = hypot(east, north);
    let aside = hypot(a.ellipse_95.semi_major_m, b.ellipse_95.semi_major_m) / SIGMAS_IN_ELLIPSE;
    (distance > 0.0).then(|| KnownLine {
        reading_deg: wrap_360(of_vector(east, north) - plan.north.add_to_reading_deg),
        sigma_deg: atan2_deg(aside, distance),
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{demo, plan};

    #[test]
    fn a_line_between_marks_is_the_one_that_was_measured() {
        let job = demo::yardstick();
        let plan = plan::compute(&job).unwrap().plan;
        let [a, b] = [0, 1].map(|i| job.yard.marks[i].id.as_str());
        let line = known_line(&plan, &job.yard, a, b).unwrap();
        let back = known_line(&plan, &job.yard, b, a).unwrap();
        assert!((wrap_360(line.reading_deg + 180.0) - back.reading_deg).abs() < 1e-9);
        assert!(line.sigma_deg > 0.0 && line.sigma_deg < 10.0);
        assert_eq!(known_line(&plan, &job.yard, a, a), None);
        assert_eq!(known_line(&plan, &job.yard, a, "nobody"), None);
    }

    #[test]
    fn the_baseline_reads_nought() {
        let mut job = demo::yardstick();
        let [from, to] = [0, 1].map(|i| job.yard.marks[i].id.clone());
        let plan = plan::compute(&job).unwrap().plan;
        job.yard.bearings =
            BearingReference::Baseline { from: from.clone(), to: to.clone(), bearing_deg: 77.0 };
        let exact = |reading_deg| Some(KnownLine { reading_deg, sigma_deg: 0.0 });
        assert_eq!(known_line(&plan, &job.yard, &from, &to), exact(0.0));
        assert_eq!(known_line(&plan, &job.yard, &to, &from), exact(180.0));
    }
}
