//! Outlines: closed, with an inside, and not crossing themselves. Only those given wholly by coordinates can be
//! looked at here; the plan looks at the others once their points are found.

use geo::{Area, Coord, LineString, Polygon, Validation};

use crate::job::{Job, PointFix, Shape};
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
    let corners: Option<Vec<Coord>> = outline
        .iter()
        .map(|fix| match fix {
            PointFix::Coordinates { east_m, north_m } => Some(Coord { x: *east_m, y: *north_m }),
            _ => None,
        })
        .collect();
    let Some(corners) = corners else { return };
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
    let outline = Polygon::new(LineString::new(corners), vec![]);
    // A square millimetre: less than that is a line.
    if !outline.is_valid() || outline.unsigned_area() < 1e-6 {
        errors.push(FieldError::new(
            path,
            given,
            "corners in order round the outside, no two sides crossing",
        ));
    }
}
