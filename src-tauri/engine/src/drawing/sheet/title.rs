//! The title block with the line to measure after printing.

use crate::drawing::layers::View;
use crate::drawing::layers::furniture::north_words;
use crate::drawing::svg::{number, rect};
use crate::job::Job;
use crate::plan::Computed;
use crate::quantity::UnitSystem;

use super::Block;
use super::blocks::{SMALL, cut, line, wrapped};
use super::scale::Scale;

pub(super) fn draw(out: &mut String, job: &Job, computed: &Computed, block: Block, scale: &Scale) {
    rect(out, [block.x, block.y, block.w, block.h], &super::framed(0.5));
    let left = block.x + 2.5;
    let half = 0.5 * block.w - 4.0;
    line(out, [left, block.y + 4.8], 4.5, true, &cut(&job.name, 4.9, half));
    line(out, [left, block.y + 9.6], 2.8, false, "Staking map");
    for (i, words) in facts(job).iter().enumerate() {
        line(out, [left, block.y + 14.0 + 3.6 * i as f64], SMALL, false, &cut(words, SMALL, half));
    }
    let middle = block.x + 0.5 * block.w;
    line(out, [middle, block.y + 4.6], 3.5, true, &format!("Scale {}", scale.words));
    let north = north_words(&View { job, computed }).join(", ");
    let north = format!("North: {north}. {}", computed.plan.north.how);
    let lines = wrapped(&north, SMALL, half);
    for (i, words) in lines.iter().take(2).enumerate() {
        let missing = if i == 1 && lines.len() > 2 { "…" } else { "" };
        line(out, [middle, block.y + 8.8 + 3.2 * i as f64], SMALL, false, &format!("{words}{missing}"));
    }
    ruler(out, job.units.system, [middle, block.y + 19.6]);
}

fn facts(job: &Job) -> Vec<String> {
    let surveyed = job.yard.surveyed_at.map_or_else(
        || "Date of the survey not noted".to_string(),
        |at| format!("Surveyed {}", at.format("%Y-%m-%d %H:%M %:z")),
    );
    let place = job.yard.place.as_ref().map_or_else(
        || "Place not noted".to_string(),
        |place| format!("{} {:.5}, {:.5}", place.name, place.latitude_deg, place.longitude_deg),
    );
    vec![surveyed, place.trim().to_string(), "Mastwright. Heights from the origin mark.".to_string()]
}

/// A line of a known length: if a ruler says otherwise, the print is not to scale.
fn ruler(out: &mut String, system: UnitSystem, at: [f64; 2]) {
    let (parts, part_mm, words) = match system {
        UnitSystem::Metric => (8, 10.0, "Check: 80 mm long on paper, or the print is not to scale"),
        UnitSystem::Imperial => (3, 25.4, "Check: 3 in long on paper, or the print is not to scale"),
    };
    let [x, y] = at;
    let mut path = format!("M{},{} h{}", number(x), number(y), number(f64::from(parts) * part_mm));
    for i in 0..=parts {
        let tick = if i == 0 || i == parts { 3.0 } else { 1.6 };
        path += &format!(" M{},{} v{}", number(x + f64::from(i) * part_mm), number(y), number(-tick));
    }
    out.push_str(&format!("<path d=\"{path}\" {}/>\n", super::framed(0.25)));
    line(out, [x, y + 2.6], 2.0, false, words);
}
