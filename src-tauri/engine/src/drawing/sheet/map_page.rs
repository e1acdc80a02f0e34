//! The staking map's page: the map at a round scale, the pegs, the key, the notes. What finds no room beside the map goes
//! on on the next page.

use std::collections::BTreeSet;

use crate::drawing::marks::Area;
use crate::drawing::pages::block::{Block, Figure};
use crate::drawing::pages::flow::{Draft, Drafts};
use crate::drawing::pages::legend::Key;
use crate::drawing::pages::scale::{self, Scale};
use crate::drawing::pages::table::Table;
use crate::drawing::pages::title::{FULL_MM, Scaled, Title};
use crate::drawing::pages::{GAP_MM, MARGIN_MM};
use crate::drawing::scene::{Bounds, Scene};
use crate::drawing::staking_map::{extent, staking_map_of};
use crate::job::Job;
use crate::plan::Computed;

use super::{Wanted, pegs, words};

/// Letter height on the map; ISO 3098-1 has 2.5 mm in its series (from memory).
const MAP_TEXT_MM: f64 = 2.5;
/// The tables' column beside a map on paper that lies.
pub(super) const COLUMN_MM: f64 = 118.0;
/// Key and notes under a map on upright paper.
const LOW_MM: f64 = 48.0;

/// What stands where.
struct Layout {
    page: [f64; 2],
    map: Area,
    pegs: Area,
    key: Area,
    notes: Area,
}

/// Portrait or landscape, whichever gives the larger scale.
pub(super) fn draw(
    drafts: &mut Drafts,
    job: &Job,
    computed: &Computed,
    wanted: &Wanted,
    unknown: &BTreeSet<char>,
) {
    // With a rim for the signs and the words of what lies at its edge.
    let work = extent(job, computed);
    let work = work.grown(0.04 * work.width().max(work.height()));
    let table = pegs::table(job, computed);
    let [short, long] = wanted.paper.size_mm();
    let layouts = [portrait([short, long], &table), landscape([long, short], &table)];
    let scales =
        layouts.each_ref().map(|layout| scale::choose(&work, layout.map.w, layout.map.h, job.units.system));
    let wide = scales[1].denominator < scales[0].denominator
        || (scales[1].denominator == scales[0].denominator && work.width() > work.height());
    let [upright, lying] = layouts;
    let (layout, scale) = if wide { (lying, &scales[1]) } else { (upright, &scales[0]) };
    let scene = scene_of(job, computed, &layout, scale, &work);
    let title = title(job, computed, wanted, scale);
    let mut draft = Draft::new("Staking map".into(), scene.description.clone(), layout.page, title.clone());
    let key = Block::Key(Key::of(&scene));
    let figure = Figure { scene, scale_denominator: scale.denominator, text_mm: MAP_TEXT_MM };
    draft.put(layout.map, Block::Figure(figure));
    let notes = Block::Notes(words::notes(job, computed, unknown));
    let blocks = [(layout.pegs, Block::Table(table)), (layout.key, key), (layout.notes, notes)];
    let rest = blocks.into_iter().filter_map(|(area, block)| draft.put_what_fits(area, block)).collect();
    drafts.push(draft);
    drafts.flow(wanted.paper, &title.strip("Staking map, continued"), rest);
}

/// Map above, tables below.
fn portrait(page: [f64; 2], table: &Table) -> Layout {
    let w = page[0] - 2.0 * MARGIN_MM;
    let title_top = page[1] - MARGIN_MM - FULL_MM;
    let key = Area::new(MARGIN_MM, title_top - GAP_MM - LOW_MM, 0.5 * w - GAP_MM, LOW_MM);
    let notes = Area::new(MARGIN_MM + 0.5 * w, key.y, 0.5 * w, LOW_MM);
    let peg_height = table.height_mm(w).min(0.3 * page[1]);
    let pegs = Area::new(MARGIN_MM, key.y - GAP_MM - peg_height, w, peg_height);
    let map = Area::new(MARGIN_MM, MARGIN_MM, w, pegs.y - GAP_MM - MARGIN_MM);
    Layout { page, map, pegs, key, notes }
}

/// Map on the left, tables in a column on the right.
fn landscape(page: [f64; 2], table: &Table) -> Layout {
    let w = page[0] - 2.0 * MARGIN_MM;
    let title_top = page[1] - MARGIN_MM - FULL_MM;
    // On larger paper a wider column, in larger letters.
    let column = COLUMN_MM.max(0.4 * w);
    let x = page[0] - MARGIN_MM - column;
    let height = title_top - GAP_MM - MARGIN_MM;
    let map = Area::new(MARGIN_MM, MARGIN_MM, w - column - GAP_MM, height);
    let pegs = Area::new(x, MARGIN_MM, column, table.height_mm(column).min(0.5 * height));
    let low = pegs.bottom() + GAP_MM;
    let key = Area::new(x, low, 0.52 * column, title_top - GAP_MM - low);
    let notes = Area::new(x + 0.54 * column, low, 0.46 * column, key.h);
    Layout { page, map, pegs, key, notes }
}

fn title(job: &Job, computed: &Computed, wanted: &Wanted, scale: &Scale) -> Title {
    let scaled = Scaled {
        scale: scale.words.clone(),
        facts: words::facts(job),
        north: words::north(job, computed),
        system: job.units.system,
    };
    let made = words::made(&wanted.about);
    Title { job: job.name.clone(), what: "Staking map".into(), made, scaled: Some(scaled), page: [0, 0] }
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
    staking_map_of(job, computed, bounds, MAP_TEXT_MM * m_per_mm)
}
