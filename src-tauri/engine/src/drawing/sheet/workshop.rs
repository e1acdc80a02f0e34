//! The sheets of the workshop: what to buy, how to cut it, and drawings at full size to lay on the work.

use crate::drawing::pages::block::Block;
use crate::drawing::pages::flow::Drafts;
use crate::drawing::pages::full_size::FullSize;
use crate::drawing::pages::notes::{Notes, Paragraph};
use crate::drawing::pages::table::{Column, Table};
use crate::drawing::pages::title::Title;
use crate::drawing::words::workshop as sentences;
use crate::job::{Job, Section};
use crate::plan::{Computed, Support};
use crate::quantity::sold;
use crate::report::{self, CutLotText, ShoppingReport, format};
use crate::tube::section::listed;
use crate::workshop::circle::{circles, hole_circle};
use crate::workshop::collars::CollarWork;
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
            not_drawn.push(sentences::too_large(&figure.name, &large, tiles, MOST_TILES));
        } else {
            drafts.full_size(wanted.paper, &title, &figure);
        }
    }
    if !not_drawn.is_empty() {
        let blocks = vec![Block::Heading(sentences::NOT_TO_SCALE.to_owned()), notes(not_drawn, false)];
        drafts.flow(wanted.paper, &title, blocks);
    }
}

/// What is drawn at full size, and what is not, with the reason.
fn figures(job: &Job, computed: &Computed, bench: &BenchWork, not_drawn: &mut Vec<String>) -> Vec<FullSize> {
    let mut figures: Vec<FullSize> =
        cross_holes(job).iter().map(|holes| wrap_strip::of(holes, job.units)).collect();
    if figures.is_empty() {
        not_drawn.push(sentences::NO_PIN_HOLES.to_owned());
    }
    figures.extend(collar_bolts(job, bench).iter().map(|holes| wrap_strip::of(holes, job.units)));
    not_drawn.extend(bench.collars.levels.iter().map(|collar| sentences::collar_not_drawn(&collar.name)));
    for bracket in circles(job, computed).brackets {
        match bracket_template::of(&bracket, job.units) {
            Some(figure) => figures.push(figure),
            None => not_drawn.push(sentences::bracket_not_known(&bracket.leg)),
        }
    }
    if let (Some(strands), Some(ring)) = (&job.rig.strands, &computed.plan.ring) {
        let circle = hole_circle(job, strands, ring);
        if circle.check().is_ok() {
            figures.push(circle_figure::of(&circle, job.units));
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

/// The tube under every collar that a bolt holds.
fn collar_bolts(job: &Job, bench: &BenchWork) -> Vec<CrossHoles> {
    let bolted = bench.collars.levels.iter().filter_map(|collar| Some((collar, collar.bolt_hole_mm?)));
    let of = |(collar, hole_mm): (&CollarWork, f64)| {
        let tube = job.rig.tubes.iter().find(|tube| tube.name == collar.tube)?;
        let section = tube.section.found("").ok()?;
        Some(CrossHoles {
            tube: collar.tube.clone(),
            end: sentences::at_the_collar(&collar.name, &format::length(collar.height_m, job.units)),
            outside_mm: section.outside_mm,
            measured: matches!(tube.section, Section::Measured { .. }),
            hole_mm,
        })
    };
    bolted.filter_map(of).collect()
}

/// Both tubes of every joint that a pin holds: the lower one's upper end, the upper one's lower end.
fn cross_holes(job: &Job) -> Vec<CrossHoles> {
    let outside = |section: &Section| match section {
        Section::Listed { table, size } => listed(*table, size).map_or(0.0, |it| it.outside_mm),
        Section::Measured { outside_mm, .. } => *outside_mm,
    };
    let of = |index: usize, end: &str, hole_mm: f64| {
        let tube = &job.rig.tubes[index];
        CrossHoles {
            tube: tube.name.clone(),
            end: end.to_owned(),
            outside_mm: outside(&tube.section),
            measured: matches!(tube.section, Section::Measured { .. }),
            hole_mm,
        }
    };
    let pinned =
        job.rig.tubes.iter().enumerate().skip(1).filter_map(|(at, tube)| Some((at, tube.pin_hole_mm?)));
    pinned
        .flat_map(|(at, hole_mm)| {
            [of(at - 1, sentences::UPPER_END, hole_mm), of(at, sentences::LOWER_END, hole_mm)]
        })
        .filter(|holes| holes.outside_mm > 0.0)
        .collect()
}
