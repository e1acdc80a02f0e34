//! Pages whatever stands on them: blocks keep to their areas and to the paper, tables lose no row, tiles leave no gap.

use mastwright_engine::drawing::marks::{Area, PageMark};
use mastwright_engine::drawing::pages::block::{Block, Kind};
use mastwright_engine::drawing::pages::flow::Drafts;
use mastwright_engine::drawing::pages::full_size::{FullSize, OVERLAP_MM, Window};
use mastwright_engine::drawing::pages::table::{Column, Table};
use mastwright_engine::drawing::pages::title::Title;
use mastwright_engine::drawing::pages::{About, MARGIN_MM, Page, Paper, PaperDocument};
use mastwright_engine::drawing::sheet::Wanted;
use mastwright_engine::drawing::sheets;
use mastwright_engine::job::{Job, Mark as ControlMark, PointFix};
use mastwright_engine::judge::judged;
use mastwright_engine::quantity::UnitSystem;
use proptest::prelude::*;

use crate::yardstick::yardstick;

/// What is wrong with a page: a block off the paper or over another one, a mark outside its block.
fn wrong(page: &Page) -> Vec<String> {
    let [w, h] = page.size_mm;
    let printable = Area::new(MARGIN_MM, MARGIN_MM, w - 2.0 * MARGIN_MM, h - 2.0 * MARGIN_MM);
    let mut wrong = Vec::new();
    for (i, block) in page.blocks.iter().enumerate() {
        if !printable.holds(block.area) {
            wrong.push(format!("{}: {:?} leaves the page: {:?}", page.name, block.kind, block.area));
        }
        for other in &page.blocks[i + 1..] {
            if block.area.shared(other.area).is_some_and(|shared| shared.w > 1e-6 && shared.h > 1e-6) {
                wrong.push(format!("{}: {:?} lies over {:?}", page.name, block.kind, other.kind));
            }
        }
        for mark in &block.marks {
            if let Some(extent) = mark.extent()
                && !block.area.holds(extent)
            {
                wrong.push(format!("{}: {:?} {:?} leaves {:?}", page.name, block.kind, mark, block.area));
            }
        }
    }
    wrong
}

/// A job of the yardstick with other names, steepness, base and number of marks.
fn odd_job() -> impl Strategy<Value = Job> {
    let name =
        prop_oneof![Just(String::new()), "[a-zA-Zäß ]{1,80}", "W{60,80}", Just("竿の庭 🌲".to_owned())];
    let marks = prop::collection::vec(("[A-Za-z ]{0,80}", -40.0..40.0f64, -40.0..40.0f64), 0..30);
    let base = (20.0..500.0f64, 20.0..500.0f64, 0.3..3.0f64, -30.0..30.0f64);
    (name, marks, base, any::<bool>()).prop_map(|(name, marks, (thick, wide, reach, slope), metric)| {
        let mut job = yardstick();
        job.name = name;
        job.units.system = if metric { UnitSystem::Metric } else { UnitSystem::Imperial };
        for (i, (name, east_m, north_m)) in marks.into_iter().enumerate() {
            job.yard.marks.push(ControlMark {
                id: format!("m{i}"),
                name,
                at: PointFix::Coordinates { east_m, north_m },
            });
        }
        job.rig.base.foot_thickness_mm = thick;
        job.rig.base.foot_width_mm = wide;
        job.rig.base.front_reach_m = reach;
        for reading in &mut job.yard.slopes {
            reading.slope_deg += slope;
        }
        job
    })
}

fn paper() -> impl Strategy<Value = Paper> {
    prop::sample::select(Paper::ALL.to_vec())
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 20, ..ProptestConfig::default() })]

    #[test]
    fn blocks_never_overlap_or_leave_the_page(job in odd_job(), paper in paper()) {
        let computed = judged(&job);
        prop_assume!(computed.is_ok());
        let computed = computed.unwrap();
        let document = sheets(&job, &computed, &Wanted::on(paper));
        for page in &document.pages {
            let wrong = wrong(page);
            prop_assert!(wrong.is_empty(), "{:?}: {:#?}", paper, wrong);
        }
        let titles = document.pages.iter().map(|page| page.blocks.iter().filter(|b| b.kind == Kind::Title).count());
        prop_assert!(titles.into_iter().all(|count| count == 1), "one title block a page");
    }
}

fn words<'a>(marks: impl Iterator<Item = &'a PageMark>) -> Vec<(String, [f64; 2])> {
    marks
        .flat_map(|mark| match mark {
            PageMark::Words(own) => vec![(own.words.clone(), own.at_mm)],
            PageMark::Within { marks, .. } | PageMark::Part { marks, .. } => words(marks.iter()),
            PageMark::Path(_) => Vec::new(),
        })
        .collect()
}

/// Blocks down the pages, and a page for each tile of the figures after them.
fn laid_out(paper: Paper, blocks: Vec<Block>, figures: &[FullSize]) -> PaperDocument {
    let title = Title::strip_of("T", "Of a test");
    let mut drafts = Drafts::default();
    drafts.flow(paper, &title, blocks);
    for figure in figures {
        drafts.full_size(paper, &title, figure);
    }
    drafts.finish(About::default())
}

fn tables(document: &PaperDocument) -> Vec<Vec<(String, [f64; 2])>> {
    let blocks = document.pages.iter().flat_map(|page| &page.blocks);
    blocks.filter(|block| block.kind == Kind::Table).map(|block| words(block.marks.iter())).collect()
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 24, ..ProptestConfig::default() })]

    /// Each row begins with a word of its own; every one is met once, in order, under a head on every page.
    #[test]
    fn a_table_breaks_without_losing_a_row(
        lengths in prop::collection::vec(0..60usize, 1..120), paper in paper(), note in "[a-z ]{0,200}"
    ) {
        let columns = vec![Column { head: "First", share: 0.3 }, Column { head: "Second", share: 0.7 }];
        let row = |(i, length): (usize, &usize)| vec![format!("row{i}"), "ab ".repeat(*length)];
        let rows: Vec<Vec<String>> = lengths.iter().enumerate().map(row).collect();
        let table = Block::Table(Table { columns, rows, note });
        let document = laid_out(paper, vec![table], &[]);
        let parts = tables(&document);
        let mut met = Vec::new();
        for part in &parts {
            prop_assert!(part.iter().any(|(words, _)| words == "First"), "a part without its head");
            met.extend(part.iter().filter(|(words, _)| words.starts_with("row")).map(|(words, _)| words.clone()));
        }
        prop_assert_eq!(met, (0..lengths.len()).map(|i| format!("row{i}")).collect::<Vec<_>>());
        let cells: usize = parts.iter().flatten().map(|(words, _)| words.matches("ab").count()).sum();
        prop_assert!(cells >= lengths.iter().sum(), "words of a cell were lost");
        for page in &document.pages {
            let wrong = wrong(page);
            prop_assert!(wrong.is_empty(), "{wrong:#?}");
        }
    }
}

/// The windows along one axis, from the smallest on.
fn along(windows: &[Window], axis: usize) -> Vec<[f64; 2]> {
    let mut spans: Vec<[f64; 2]> = windows
        .iter()
        .map(|window| [window.from_mm[axis], window.from_mm[axis] + window.size_mm[axis]])
        .collect();
    spans.sort_by(|a, b| a[0].total_cmp(&b[0]));
    spans.dedup_by(|a, b| (a[0] - b[0]).abs() < 1e-9);
    spans
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 64, ..ProptestConfig::default() })]

    #[test]
    fn tiles_cover_a_full_size_figure_with_the_overlap_they_say(
        w in 1.0..3000.0f64, h in 1.0..3000.0f64, paper in paper()
    ) {
        let figure = FullSize {
            name: "Figure".into(),
            size_mm: [w, h],
            marks: Vec::new(),
            how: "Lay it on.".into(),
            caution: "Check it.".into(),
            system: UnitSystem::Metric,
        };
        let document = laid_out(paper, Vec::new(), &[figure]);
        let tiles: Vec<_> = document.pages.iter().flat_map(|page| &page.blocks).filter(|b| b.window.is_some()).collect();
        let windows: Vec<Window> = tiles.iter().filter_map(|tile| tile.window).collect();
        prop_assert_eq!(windows.len(), document.pages.len());
        let spans = [along(&windows, 0), along(&windows, 1)];
        prop_assert_eq!(windows.len(), spans[0].len() * spans[1].len(), "a whole grid");
        for (spans, length) in spans.iter().zip([w, h]) {
            prop_assert!(spans[0][0].abs() < 1e-9);
            prop_assert!((spans[spans.len() - 1][1] - length).abs() < 1e-9, "up to its end");
            for pair in spans.windows(2) {
                prop_assert!((pair[0][1] - pair[1][0] - OVERLAP_MM).abs() < 1e-9, "{pair:?}");
            }
        }
        for page in &document.pages {
            let wrong = wrong(page);
            prop_assert!(wrong.is_empty(), "{wrong:#?}");
        }
    }
}

/// The same point of a figure lies on both of two neighbours where their register marks are.
#[test]
fn register_marks_of_neighbours_come_to_lie_on_each_other() {
    let figure = FullSize {
        name: "Figure".into(),
        size_mm: [400.0, 500.0],
        marks: Vec::new(),
        how: String::new(),
        caution: String::new(),
        system: UnitSystem::Metric,
    };
    let document = laid_out(Paper::A4, Vec::new(), &[figure]);
    let mut met: std::collections::BTreeMap<[i64; 2], usize> = std::collections::BTreeMap::new();
    for block in document.pages.iter().flat_map(|page| &page.blocks).filter(|block| block.window.is_some()) {
        let window = block.window.unwrap();
        let inside = block.marks.iter().flat_map(|mark| match mark {
            PageMark::Part { marks, .. } => marks.as_slice(),
            mark => std::slice::from_ref(mark),
        });
        let windows: Vec<_> = inside.filter(|mark| matches!(mark, PageMark::Within { .. })).collect();
        let [PageMark::Within { outline, marks }] = windows[..] else { panic!("a tile has one window") };
        let corner = outline[0];
        // Every second one is the upright line of a cross; the ring is a third: take what is 4 mm round.
        for extent in marks
            .iter()
            .filter_map(PageMark::extent)
            .filter(|e| (e.w - 4.0).abs() < 0.1 && (e.h - 4.0).abs() < 0.1)
        {
            let place = [extent.x + extent.w / 2.0, extent.y + extent.h / 2.0];
            let at = [0, 1].map(|i| ((place[i] - corner[i] + window.from_mm[i]) * 1000.0).round() as i64);
            *met.entry(at).or_default() += 1;
        }
    }
    assert!(met.len() >= 8, "{met:?}");
    assert!(met.values().all(|count| *count == 2), "each on two tiles: {met:?}");
}
