//! The printed staking map: map at a round scale, table of pegs, feet, legend, cautions, title block.

mod blocks;
mod legend;
mod scale;
mod table;
mod title;

use serde::{Deserialize, Serialize};

use crate::job::Job;
use crate::plan::Computed;

use super::scene::{Bounds, Scene};
use super::staking_map::{extent, staking_map_of};
use super::svg::{self, Frame, SvgStyle, number, rect};
use scale::Scale;

/// Paper for a printed sheet.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum Paper {
    /// Source: ISO 216, A4, 210 mm × 297 mm.
    A4,
    /// Source: ANSI/ASME Y14.1, size A, 8.5 in × 11 in.
    Letter,
}

impl Paper {
    /// Short side, long side.
    fn size_mm(self) -> [f64; 2] {
        match self {
            Paper::A4 => [210.0, 297.0],
            Paper::Letter => [215.9, 279.4],
        }
    }
}

/// Free rim, as most printers need. ISO 5457 asks for 10 mm (from memory).
const MARGIN: f64 = 10.0;
/// Letter heights on the sheet; ISO 3098-1 has 1.8 and 2.5 mm in its series (from memory).
const MAP_TEXT: f64 = 2.5;
const TITLE_HEIGHT: f64 = 25.0;
const GAP: f64 = 3.0;

/// A box on the page: left, top, width, height in millimetres.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Block {
    x: f64,
    y: f64,
    w: f64,
    h: f64,
}

/// What stands where.
struct Layout {
    page: [f64; 2],
    map: Block,
    pegs: Block,
    legend: Block,
    notes: Block,
    title: Block,
}

/// Writes the staking map as a sheet to print, portrait or landscape, whichever gives the larger scale.
///
/// # References
/// ISO 5455 scales; ISO 128-2 lines; ISO 5457 sheet border (the last three from memory).
pub fn map_sheet(job: &Job, computed: &Computed, paper: Paper) -> String {
    // With a rim for the signs and the words of what lies at its edge.
    let work = extent(job, computed);
    let work = work.grown(0.04 * work.width().max(work.height()));
    let rows = table::row_count(computed);
    let [short, long] = paper.size_mm();
    let layouts = [portrait([short, long], rows), landscape([long, short])];
    let scales =
        layouts.each_ref().map(|layout| scale::choose(&work, layout.map.w, layout.map.h, job.units.system));
    let wide = scales[1].denominator < scales[0].denominator
        || (scales[1].denominator == scales[0].denominator && work.width() > work.height());
    let [upright, lying] = layouts;
    let (layout, scale) = if wide { (lying, &scales[1]) } else { (upright, &scales[0]) };
    write(job, computed, &layout, scale, &work)
}

/// Map above, tables below.
fn portrait(page: [f64; 2], rows: usize) -> Layout {
    let w = page[0] - 2.0 * MARGIN;
    let bottom = page[1] - MARGIN;
    let title = Block { x: MARGIN, y: bottom - TITLE_HEIGHT, w, h: TITLE_HEIGHT };
    let low = 48.0;
    let legend = Block { x: MARGIN, y: title.y - GAP - low, w: 0.5 * w - GAP, h: low };
    let notes = Block { x: MARGIN + 0.5 * w, y: legend.y, w: 0.5 * w, h: low };
    let most = 0.3 * page[1];
    let peg_height = table::height_mm(rows).min(most);
    let pegs = Block { x: MARGIN, y: legend.y - GAP - peg_height, w, h: peg_height };
    let map = Block { x: MARGIN, y: MARGIN, w, h: pegs.y - GAP - MARGIN };
    Layout { page, map, pegs, legend, notes, title }
}

/// Map on the left, tables in a column on the right.
fn landscape(page: [f64; 2]) -> Layout {
    let (w, bottom) = (page[0] - 2.0 * MARGIN, page[1] - MARGIN);
    let title = Block { x: MARGIN, y: bottom - TITLE_HEIGHT, w, h: TITLE_HEIGHT };
    let column = 118.0;
    let x = page[0] - MARGIN - column;
    let height = title.y - GAP - MARGIN;
    let map = Block { x: MARGIN, y: MARGIN, w: w - column - GAP, h: height };
    let pegs = Block { x, y: MARGIN, w: column, h: 0.44 * height };
    let low = MARGIN + pegs.h + GAP;
    let legend = Block { x, y: low, w: 0.52 * column, h: title.y - GAP - low };
    let notes = Block { x: x + 0.54 * column, y: low, w: 0.46 * column, h: legend.h };
    Layout { page, map, pegs, legend, notes, title }
}

fn write(job: &Job, computed: &Computed, layout: &Layout, scale: &Scale, work: &Bounds) -> String {
    let scene = scene_of(job, computed, layout, scale, work);
    let mut out = String::with_capacity(64 * 1024);
    svg::open(&mut out, layout.page, &scene.title, &scene.description);
    rect(&mut out, [0.0, 0.0, layout.page[0], layout.page[1]], "fill=\"#ffffff\"");
    map(&mut out, &scene, layout.map, scale);
    table::pegs(&mut out, job, computed, layout.pegs);
    legend::draw(&mut out, &scene, layout.legend);
    blocks::notes(&mut out, job, computed, layout.notes);
    title::draw(&mut out, job, computed, layout.title, scale);
    out.push_str("</svg>\n");
    out
}

/// The map of just the part of the yard that the frame shows.
fn scene_of(job: &Job, computed: &Computed, layout: &Layout, scale: &Scale, work: &Bounds) -> Scene {
    let m_per_mm = scale.denominator / 1000.0;
    let half = [layout.map.w * m_per_mm / 2.0, layout.map.h * m_per_mm / 2.0];
    let centre = [(work.min[0] + work.max[0]) / 2.0, (work.min[1] + work.max[1]) / 2.0];
    let bounds = Bounds {
        min: [centre[0] - half[0], centre[1] - half[1]],
        max: [centre[0] + half[0], centre[1] + half[1]],
    };
    staking_map_of(job, computed, bounds, MAP_TEXT * m_per_mm)
}

fn map(out: &mut String, scene: &Scene, block: Block, scale: &Scale) {
    let style = SvgStyle {
        width_mm: block.w,
        height_mm: block.h,
        scale_denominator: Some(scale.denominator),
        text_mm: MAP_TEXT,
    };
    let frame = Frame::new(scene, &style, [block.x, block.y]);
    let [x, y, w, h] = [block.x, block.y, block.w, block.h].map(number);
    out.push_str(&format!(
        "<clipPath id=\"map-frame\"><rect x=\"{x}\" y=\"{y}\" width=\"{w}\" height=\"{h}\"/></clipPath>\n\
         <g clip-path=\"url(#map-frame)\">\n"
    ));
    for shape in &scene.shapes {
        frame.shape(out, shape);
    }
    out.push_str("</g>\n");
    rect(out, [block.x, block.y, block.w, block.h], &framed(0.5));
}

/// A frame line in the drawing's ink.
fn framed(width_mm: f64) -> String {
    format!("fill=\"none\" stroke=\"{}\" stroke-width=\"{}\"", super::paint::INK.paper(), number(width_mm))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::drawing::sample::sample;
    use crate::quantity::UnitSystem;

    #[test]
    fn the_sheet_names_its_scale_and_every_peg() {
        let (job, computed) = sample(UnitSystem::Metric);
        let sheet = map_sheet(&job, &computed, Paper::A4);
        assert!(sheet.contains("Scale 1:75"));
        for peg in &computed.plan.pegs {
            assert!(sheet.contains(&peg.name), "{}", peg.name);
        }
        assert!(sheet.contains("Power lines"));
        assert!(sheet.contains("STOP: 1 finding says not"));
    }

    #[test]
    fn hostile_names_stay_text() {
        let (mut job, computed) = sample(UnitSystem::Metric);
        job.name = "</text><script>alert(1)</script>".into();
        assert!(!map_sheet(&job, &computed, Paper::Letter).contains("<script"));
    }

    #[test]
    fn look() {
        let Ok(folder) = std::env::var("DRAW_TO") else { return };
        for (name, system, paper) in
            [("metric", UnitSystem::Metric, Paper::A4), ("imperial", UnitSystem::Imperial, Paper::Letter)]
        {
            let (job, computed) = sample(system);
            std::fs::write(format!("{folder}/sheet-{name}.svg"), map_sheet(&job, &computed, paper)).unwrap();
        }
    }
}
