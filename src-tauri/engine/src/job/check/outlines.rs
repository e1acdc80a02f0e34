//! Outlines: closed, with an inside, and not crossing themselves. Only those given wholly by coordinates can be
//! looked at here; the plan looks at the others once their points are found.

use crate::job::{Job, PointFix, Shape};
use crate::numerics::outline::{crossing, signed_area};
use crate::pointer;
use crate::quantity::FieldError;

pub(super) fn check(job: &Job, errors: &mut Vec<FieldError>) {
    for (index, obstacle) in job.yard.obstacles.iter().enumerate() {
        if let Shape::Building { outline, .. } | Shape::KeepOff { outline } = &obstacle.shape {
            check_outline(outline, pointer!(yard.obstacles[index].shape as Shape::Building.outline), errors);
        }
    }
    if let Some(boundary) = &job.yard.boundary {
        check_outline(&boundary.outline, pointer!(yard.boundary?.outline).to_owned(), errors);
    }
}

fn check_outline(outline: &[PointFix], path: String, errors: &mut Vec<FieldError>) {
    let corners: Option<Vec<[f64; 2]>> = outline
        .iter()
        .map(|fix| match fix {
            PointFix::Coordinates { east_m, north_m } => Some([*east_m, *north_m]),
            _ => None,
        })
        .collect();
    let Some(mut corners) = corners else { return };
    // The last corner joins the first by itself.
    let after_last = corners.iter().cycle().skip(1);
    for (index, _) in corners.iter().zip(after_last).enumerate().filter(|(_, (corner, next))| corner == next)
    {
        let corner = (index + 1) % corners.len();
        errors.push(FieldError::new(
            format!("{path}/{corner}"),
            "the same point as the corner before it",
            "each corner once",
        ));
    }
    let given = format!("an outline of {} corners that crosses itself or has no inside", corners.len());
    // A doubled corner, named above, is a side of no length, which would seem to cross those beside it.
    corners.dedup();
    while corners.len() > 1 && corners.first() == corners.last() {
        corners.pop();
    }
    // A square millimetre: less than that is a line.
    if crossing(&corners).is_some() || signed_area(&corners).abs() < 1e-6 {
        errors.push(FieldError::new(
            path,
            given,
            "corners in order round the outside, no two sides crossing",
        ));
    }
}
