//! Every point that a job fixes, with its JSON pointer and a name.

use crate::job::{AnchorRule, Fix, Job, Obstacle, Shape};

/// The fixes of a job in the order of the document.
pub fn fixes(job: &Job) -> Vec<(String, String, &Fix)> {
    let yard = &job.yard;
    let mut all = Vec::new();
    for (i, mark) in yard.marks.iter().enumerate() {
        all.push((format!("/yard/marks/{i}/at"), mark.name.clone(), &mark.at));
    }
    for (i, spot) in yard.spot_heights.iter().enumerate() {
        all.push((format!("/yard/spot_heights/{i}/at"), format!("height {}", spot.id), &spot.at));
    }
    for (i, obstacle) in yard.obstacles.iter().enumerate() {
        all.extend(of_obstacle(&format!("/yard/obstacles/{i}/shape"), obstacle));
    }
    if let Some(boundary) = &yard.boundary {
        all.extend(corners("/yard/boundary/outline", "boundary", &boundary.outline));
    }
    for (i, line) in yard.overhead_lines.iter().enumerate() {
        for (j, support) in line.supports.iter().enumerate() {
            let path = format!("/yard/overhead_lines/{i}/supports/{j}/at");
            all.push((path, format!("{} {}", line.name, j + 1), &support.at));
        }
    }
    for (i, service) in yard.buried_services.iter().enumerate() {
        all.extend(corners(&format!("/yard/buried_services/{i}/line"), &service.name, &service.line));
    }
    for (i, level) in job.rig.guy_levels.iter().enumerate() {
        if let AnchorRule::Free { anchors } = &level.anchors {
            all.extend(corners(&format!("/rig/guy_levels/{i}/anchors/anchors"), &level.name, anchors));
        }
    }
    all.push(("/placement/mast".to_owned(), "mast".to_owned(), &job.placement.mast));
    all
}

fn of_obstacle<'a>(path: &str, obstacle: &'a Obstacle) -> Vec<(String, String, &'a Fix)> {
    let name = &obstacle.name;
    match &obstacle.shape {
        Shape::Tree { at, .. } | Shape::Post { at, .. } => vec![(format!("{path}/at"), name.clone(), at)],
        Shape::Building { outline, .. } | Shape::KeepOff { outline } => {
            corners(&format!("{path}/outline"), name, outline).collect()
        }
        Shape::Barrier { line, .. } | Shape::Path { line, .. } => {
            corners(&format!("{path}/line"), name, line).collect()
        }
    }
}

fn corners<'a>(path: &str, name: &str, fixes: &'a [Fix]) -> impl Iterator<Item = (String, String, &'a Fix)> {
    fixes.iter().enumerate().map(move |(i, fix)| (format!("{path}/{i}"), format!("{name} {}", i + 1), fix))
}
