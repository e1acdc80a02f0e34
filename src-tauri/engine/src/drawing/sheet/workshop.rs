//! The sheets of the workshop: what to buy, how to cut it, and drawings at full size to lay on the work.

use crate::drawing::pages::Paper;
use crate::drawing::pages::block::Block;
use crate::drawing::pages::flow::Drafts;
use crate::drawing::pages::full_size::FullSize;
use crate::drawing::pages::notes::{Notes, Paragraph};
use crate::drawing::pages::table::{Column, Table};
use crate::drawing::pages::title::Title;
use crate::drawing::words::workshop as sentences;
use crate::job::Job;
use crate::plan::{Computed, Support};
use crate::quantity::sold;
use crate::report::{self, CutLotText, ShoppingReport, format};
use crate::workshop::circle::{Circles, circles, hole_circle};
use crate::workshop::collars::CollarWork;
use crate::workshop::fit::SizeBy;
use crate::workshop::{BenchWork, bench_work, shopping};

use super::wrap_strip::CrossHoles;
use super::{
    Wanted, bracket_template, foot_template, going_up, hole_circle as circle_figure, lap_template,
    seat_template, stake_template, winch_plate, words, wrap_strip,
};

const WORDS_MM: f64 = 2.8;
/// A drawing of more pages than this is no help on the bench: the sheet says how to mark it instead.
const MOST_TILES: usize = 12;

const ITEMS: [Column; 4] = [
    Column { head: "Have", share: 0.08 },
    Column { head: "How many", share: 0.2 },
    Column { head: "What", share: 0.42 },
    Column { head: "For", share: 0.3 },
];
const PIECES: [Column; 4] = [
    Column { head: "Cut", share: 0.08 },
    Column { head: "How many", share: 0.14 },
    Column { head: "Length", share: 0.28 },
    Column { head: "What", share: 0.5 },
];
const BARS: [Column; 3] = [
    Column { head: "Take", share: 0.2 },
    Column { head: "Mark from one end at", share: 0.6 },
    Column { head: "Rest", share: 0.2 },
];

pub(super) fn draw(drafts: &mut Drafts, job: &Job, computed: &Computed, wanted: &Wanted) {
    // What was computed has sections: this can't fail.
    let Ok(bench) = bench_work(job, computed) else { return };
    let list = shopping::list(job, computed, &bench, None);
    let report = report::shopping(job, &list);
    to_buy(drafts, job, wanted, &report);
    to_cut(drafts, job, wanted, &report);
    going_up::draw(drafts, job, &bench.stages, wanted);
    full_size(drafts, job, computed, &bench, wanted);
}

fn title_of(job: &Job, wanted: &Wanted, what: &str) -> Title {
    Title { made: words::made(&wanted.about), ..Title::strip_of(&job.name, what) }
}

fn notes(words: impl IntoIterator<Item = String>, framed: bool) -> Block {
    let paragraphs = words.into_iter().map(Paragraph::plain).collect();
    Block::Notes(Notes { paragraphs, size_mm: WORDS_MM, framed })
}

fn tick(done: bool) -> String {
    if done { "x".to_owned() } else { "[  ]".to_owned() }
}

fn to_buy(drafts: &mut Drafts, job: &Job, wanted: &Wanted, report: &ShoppingReport) {
    let what = sentences::TO_BUY;
    let mut blocks = vec![Block::Heading(what.to_owned()), notes(report.cautions.clone(), true)];
    for aisle in &report.aisles {
        let rows = aisle.items.iter().map(|item| {
            let missing = item.missing.join(" ");
            let name =
                if missing.is_empty() { item.name.clone() } else { format!("{} ({missing})", item.name) };
            vec![tick(item.done), item.amount.clone(), name, item.why.clone()]
        });
        blocks.push(Block::Heading(aisle.title.clone()));
        blocks.push(Block::Table(Table {
            columns: ITEMS.to_vec(),
            rows: rows.collect(),
            note: String::new(),
        }));
    }
    let steps = report.steps.iter().map(|step| {
        let waits = if step.waits.is_empty() { String::new() } else { format!(" – {}", step.waits) };
        format!("{}: {}{waits}. {}", format::capital(&step.when), step.title, step.how)
    });
    blocks.push(Block::Heading(sentences::IN_ORDER.to_owned()));
    blocks.push(notes(steps, false));
    blocks.push(notes(
        [report.cost.clone(), report.not_here.clone()].into_iter().filter(|it| !it.is_empty()),
        false,
    ));
    drafts.flow(wanted.paper, &title_of(job, wanted, what), blocks);
}

fn to_cut(drafts: &mut Drafts, job: &Job, wanted: &Wanted, report: &ShoppingReport) {
    let what = sentences::TO_CUT;
    let mut blocks = vec![Block::Heading(what.to_owned()), notes(report.cautions.clone(), true)];
    for lot in &report.lots {
        let buy = if lot.buy.is_empty() { String::new() } else { format!(": {}", lot.buy) };
        blocks.push(Block::Heading(format!("{}{buy}", lot.title)));
        let piece = |it: &report::CutPieceText| {
            vec![
                tick(it.done),
                it.count.to_string(),
                format!("{} {}", it.length, it.interval),
                format::capital(&it.name),
            ]
        };
        let rows = lot.pieces.iter().map(piece).collect();
        blocks.push(Block::Table(Table { columns: PIECES.to_vec(), rows, note: String::new() }));
        if !lot.bars.is_empty() {
            let rows = lot.bars.iter().map(bar_cells).collect();
            blocks.push(Block::Table(Table { columns: BARS.to_vec(), rows, note: String::new() }));
        }
        blocks.push(notes(says(lot), false));
    }
    blocks.push(notes([report.not_cut.clone()], false));
    drafts.flow(wanted.paper, &title_of(job, wanted, what), blocks);
}

fn bar_cells(bar: &report::BarText) -> Vec<String> {
    let cut = |cut: &report::BarCutText| format!("{} ({}, {})", cut.mark, cut.name, cut.length);
    let marks: Vec<String> = bar.cuts.iter().map(cut).collect();
    vec![bar.title.clone(), marks.join("; "), bar.left.clone()]
}

fn says(lot: &CutLotText) -> impl Iterator<Item = String> + '_ {
    lot.says.iter().chain(&lot.missing).cloned()
}

fn full_size(drafts: &mut Drafts, job: &Job, computed: &Computed, bench: &BenchWork, wanted: &Wanted) {
    let title = title_of(job, wanted, sentences::FULL_SIZE);
    let mut not_drawn = Vec::new();
    for figure in figures(job, computed, bench, &mut not_drawn) {
        let tiles = figure.tiles(wanted.paper).1.len();
        if tiles > MOST_TILES {
            let large = figure.size_mm.map(|mm| sold::tape(mm, job.units));
            let works = larger(&figure, wanted.paper);
            not_drawn.push(sentences::too_large(&figure.name, &large, [tiles, MOST_TILES], works));
        } else {
            drafts.full_size(wanted.paper, &title, &figure);
        }
    }
    if !not_drawn.is_empty() {
        let blocks = vec![Block::Heading(sentences::NOT_TO_SCALE.to_owned()), notes(not_drawn, false)];
        drafts.flow(wanted.paper, &title, blocks);
    }
}

/// The smallest paper on which a drawing takes few enough pages, with how many.
fn larger(figure: &FullSize, than: Paper) -> Option<(Paper, usize)> {
    let area = |paper: Paper| paper.size_mm().into_iter().product::<f64>();
    let fits = |paper: Paper| {
        let tiles = figure.tiles(paper).1.len();
        (tiles <= MOST_TILES).then_some((paper, tiles))
    };
    let mut larger: Vec<Paper> = Paper::ALL.into_iter().filter(|paper| area(*paper) > area(than)).collect();
    larger.sort_by(|a, b| area(*a).total_cmp(&area(*b)));
    larger.into_iter().find_map(fits)
}

/// What is drawn at full size, and what is not, with the reason.
fn figures(job: &Job, computed: &Computed, bench: &BenchWork, not_drawn: &mut Vec<String>) -> Vec<FullSize> {
    let mut figures: Vec<FullSize> =
        cross_holes(job, bench).iter().map(|holes| wrap_strip::of(holes, job.units)).collect();
    if figures.is_empty() {
        not_drawn.push(sentences::NO_PIN_HOLES.to_owned());
    }
    figures.extend(collar_bolts(job, bench).iter().map(|holes| wrap_strip::of(holes, job.units)));
    not_drawn.extend(bench.collars.levels.iter().map(|collar| sentences::collar_not_drawn(&collar.name)));
    let Circles { brackets, discs, .. } = circles(job, computed);
    for bracket in brackets {
        match bracket_template::of(&bracket, job.units) {
            Some(figure) => figures.push(figure),
            None => not_drawn.push(sentences::bracket_not_known(&bracket.leg)),
        }
    }
    if let (Some(strands), Some(ring)) = (&job.rig.strands, &computed.plan.ring) {
        let circle = hole_circle(job, strands, ring);
        if circle.check().is_ok() {
            figures.push(circle_figure::of(&circle, discs.as_ref(), job.units));
        } else {
            not_drawn.push(sentences::HOLES_DO_NOT_FIT.to_owned());
        }
        not_drawn.push(sentences::ring_by_string(&format::length(ring.radius_m, job.units)));
    }
    for leg in computed.plan.base.legs.iter().filter(|leg| leg.support == Support::Foot) {
        if computed.plan.knows_under(&leg.id) {
            figures.push(foot_template::of(job, leg));
        } else {
            not_drawn.push(sentences::foot_not_measured(&leg.id));
        }
    }
    figures.extend(bench.base.lap.as_ref().map(|lap| lap_template::of(job, lap)));
    figures.push(seat_template::of(job, &bench.base));
    figures.extend(stake_template::of(job, &bench.base.stakes));
    match bench.lift.plate.zip(bench.stages.tubes.first()) {
        Some((plate, tube)) => figures.push(winch_plate::of(&plate, tube.outside_mm, job.units)),
        None => not_drawn.push(sentences::NO_WINCH_PLATE.to_owned()),
    }
    figures
}

/// A strip is as long as the tube in hand is round: by calliper where somebody read it, else by its table. Of a tube out of round the
/// middle of both readings, which is right to a part in a thousand.
fn strip(bench: &BenchWork, index: usize, hole_mm: f64, [tube, end]: [String; 2]) -> Option<CrossHoles> {
    let size = bench.diameters.get(index)?;
    let measured = size.outside_by == SizeBy::Calliper;
    Some(CrossHoles { tube, end, outside_mm: size.outside_mm, measured, hole_mm })
}

/// The tube under every collar that a bolt holds.
fn collar_bolts(job: &Job, bench: &BenchWork) -> Vec<CrossHoles> {
    let bolted = bench.collars.levels.iter().filter_map(|collar| Some((collar, collar.bolt_hole_mm?)));
    let of = |(collar, hole_mm): (&CollarWork, f64)| {
        let end = sentences::at_the_collar(&collar.name, &format::length(collar.height_m, job.units));
        strip(bench, collar.tube_index as usize, hole_mm, [collar.tube.clone(), end])
    };
    bolted.filter_map(of).collect()
}

/// Both tubes of every joint that a pin holds: the lower one's upper end, the upper one's lower end.
fn cross_holes(job: &Job, bench: &BenchWork) -> Vec<CrossHoles> {
    let tubes = &job.rig.tubes;
    let of = |index: usize, end: &str, hole_mm: f64| {
        let name = tubes.get(index).map_or(String::new(), |tube| tube.name.clone());
        strip(bench, index, hole_mm, [name, end.to_owned()])
    };
    let pinned = tubes.iter().enumerate().skip(1).filter_map(|(at, tube)| Some((at, tube.pin_hole_mm?)));
    pinned
        .flat_map(|(at, hole_mm)| {
            [of(at - 1, sentences::UPPER_END, hole_mm), of(at, sentences::LOWER_END, hole_mm)]
        })
        .flatten()
        .filter(|holes| holes.outside_mm > 0.0)
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::UnitSystem;

    fn square(side_mm: f64) -> FullSize {
        FullSize {
            name: "A disc".to_owned(),
            size_mm: [side_mm, side_mm],
            marks: Vec::new(),
            how: String::new(),
            caution: String::new(),
            system: UnitSystem::Metric,
        }
    }

    /// A square of 1 m takes more than 12 pages of A4 and no more of A3, which is twice as large: A3 is named with its pages, and takes them.
    /// One of 4 m fits none: then it is marked by its numbers.
    #[test]
    fn a_drawing_larger_than_its_paper_names_the_one_that_does() {
        let disc = square(1000.0);
        assert!(disc.tiles(Paper::A4).1.len() > MOST_TILES);
        let (paper, pages) = larger(&disc, Paper::A4).expect("one does");
        assert!(pages <= MOST_TILES && pages == disc.tiles(paper).1.len());
        assert!(
            Paper::ALL
                .into_iter()
                .filter(|it| *it != paper && it.size_mm()[0] * it.size_mm()[1] < 60_000.0 * 2.0)
                .all(|smaller| disc.tiles(smaller).1.len() > MOST_TILES),
            "the smallest that does"
        );
        let words = sentences::too_large(
            "A disc",
            &["1 m".into(), "1 m".into()],
            [20, MOST_TILES],
            Some((paper, pages)),
        );
        assert!(
            words.contains(sentences::paper(paper)) && words.contains(&format!("on {pages} pages")),
            "{words}"
        );
        assert_eq!(larger(&square(4000.0), Paper::A4), None);
        let words = sentences::too_large("A disc", &["4 m".into(), "4 m".into()], [300, MOST_TILES], None);
        assert!(words.contains("mark it by its numbers") && !words.contains("A3"), "{words}");
    }
}
