//! Every point that a job fixes, with its JSON pointer, a name and what stands there.

use crate::finding::Subject;
use crate::job::{AnchorLayout, Job, Obstacle, PointFix};
use crate::pointer;

/// A point of the job.
pub struct FixedPoint<'a> {
    pub path: String,
    pub name: String,
    pub subject: Subject,
    pub fix: &'a PointFix,
}

/// The fixes of a job in the order of the document, but for the mast's, which comes last of all.
pub fn fixes_but_the_masts(job: &Job) -> Vec<FixedPoint<'_>> {
    let yard = &job.yard;
    let mut all = Vec::new();
    for (i, mark) in yard.marks.iter().enumerate() {
        let subject = Subject::Mark { id: mark.id.clone() };
        all.push(FixedPoint {
            path: pointer!(yard.marks[i].at),
            name: mark.name.clone(),
            subject,
            fix: &mark.at,
        });
    }
    for (i, spot) in yard.spot_heights.iter().enumerate() {
        let (path, subject) = (pointer!(yard.spot_heights[i].at), Subject::Reading { id: spot.id.clone() });
        all.push(FixedPoint { path, name: format!("height {}", spot.id), subject, fix: &spot.at });
    }
    for (i, obstacle) in yard.obstacles.iter().enumerate() {
        all.extend(of_obstacle(&pointer!(yard.obstacles[i].shape), obstacle));
    }
    if let Some(boundary) = &yard.boundary {
        all.extend(corners(
            pointer!(yard.boundary?.outline),
            "boundary",
            Subject::Boundary,
            &boundary.outline,
        ));
    }
    for (i, line) in yard.overhead_lines.iter().enumerate() {
        for (j, support) in line.supports.iter().enumerate() {
            let path = pointer!(yard.overhead_lines[i].supports[j].at);
            let subject = Subject::OverheadLine { id: line.id.clone() };
            all.push(FixedPoint {
                path,
                name: format!("{} {}", line.name, j + 1),
                subject,
                fix: &support.at,
            });
        }
    }
    for (i, service) in yard.buried_services.iter().enumerate() {
        let (path, subject) =
            (pointer!(yard.buried_services[i].line), Subject::BuriedService { id: service.id.clone() });
        all.extend(corners(&path, &service.name, subject, &service.line));
    }
    for (i, level) in job.rig.guy_levels.iter().enumerate() {
        if let AnchorLayout::Free { anchors } = &level.anchor_layout {
            for (j, fix) in anchors.iter().enumerate() {
                let subject = Subject::Guy { id: format!("{}-{}", level.id, j + 1) };
                let path = pointer!(rig.guy_levels[i].anchor_layout as AnchorLayout::Free.anchors[j]);
                all.push(FixedPoint { path, name: format!("{} {}", level.name, j + 1), subject, fix });
            }
        }
    }
    all
}

pub fn fix_of_the_mast(job: &Job) -> FixedPoint<'_> {
    FixedPoint {
        path: pointer!(placement.mast).to_owned(),
        name: "mast".to_owned(),
        subject: Subject::Mast,
        fix: &job.placement.mast,
    }
}

fn of_obstacle<'a>(path: &str, obstacle: &'a Obstacle) -> Vec<FixedPoint<'a>> {
    let subject = Subject::Obstacle { id: obstacle.id.clone() };
    let (part, points) = obstacle.shape.points();
    if let ("at", [fix]) = (part, points) {
        return vec![FixedPoint { path: format!("{path}/at"), name: obstacle.name.clone(), subject, fix }];
    }
    corners(&format!("{path}/{part}"), &obstacle.name, subject, points).collect()
}

fn corners<'a>(
    path: &str,
    name: &str,
    subject: Subject,
    fixes: &'a [PointFix],
) -> impl Iterator<Item = FixedPoint<'a>> {
    fixes.iter().enumerate().map(move |(i, fix)| FixedPoint {
        path: format!("{path}/{i}"),
        name: format!("{name} {}", i + 1),
        subject: subject.clone(),
        fix,
    })
}
