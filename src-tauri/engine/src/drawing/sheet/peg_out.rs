//! From peg to peg on paper: the order with its tapes, boxes to tick, and the tapes to read afterwards with room for what they read.

use crate::drawing::pages::block::Block;
use crate::drawing::pages::flow::Drafts;
use crate::drawing::pages::notes::{Notes, Paragraph};
use crate::drawing::pages::table::{Column, Table};
use crate::drawing::pages::title::Title;
use crate::drawing::words::sheet::{COLUMNS_OF_CHECKS, COLUMNS_OF_STEPS};
use crate::job::Job;
use crate::pegging::guide;
use crate::plan::{Computed, FixedPoints, survey};
use crate::report::{CheckTapeText, PegStepText, pegging};

use super::{Wanted, words};

const WORDS_MM: f64 = 2.8;

const STEPS: [Column; 7] = [
    Column { head: "Set", share: 0.07 },
    Column { head: "Point", share: 0.17 },
    Column { head: "Tape", share: 0.2 },
    Column { head: "Tape", share: 0.2 },
    Column { head: "Side", share: 0.17 },
    Column { head: "May be off", share: 0.09 },
    Column { head: "Bearing", share: 0.1 },
];

const CHECKS: [Column; 4] = [
    Column { head: "Between", share: 0.46 },
    Column { head: "Should read", share: 0.2 },
    Column { head: "Within", share: 0.14 },
    Column { head: "Reads", share: 0.2 },
];

/// Nothing where the yard can't be surveyed: then there is no plan either.
pub(super) fn draw(drafts: &mut Drafts, job: &Job, computed: &Computed, wanted: &Wanted) {
    let Ok(surveyed) = survey(&job.yard, job.units) else { return };
    let points = FixedPoints::of(&surveyed, job);
    let report = pegging(job, computed, &guide(&surveyed, &points, job, computed));
    let what = "Peg out".to_owned();
    let title = Title { made: words::made(&wanted.about), ..Title::strip_of(&job.name, &what) };
    let rows = (1..).zip(&report.steps).map(|(number, step)| cells(number, step)).collect();
    let mut blocks = vec![
        Block::Heading(what),
        Block::Notes(Notes {
            paragraphs: vec![Paragraph::plain(report.caution)],
            size_mm: WORDS_MM,
            framed: true,
        }),
        Block::Table(Table { columns: STEPS.to_vec(), rows, note: COLUMNS_OF_STEPS.to_owned() }),
    ];
    if !report.checks.is_empty() {
        let rows = report.checks.iter().map(check_cells).collect();
        blocks.push(Block::Heading("Tapes from peg to peg".to_owned()));
        blocks.push(Block::Table(Table {
            columns: CHECKS.to_vec(),
            rows,
            note: COLUMNS_OF_CHECKS.to_owned(),
        }));
    }
    drafts.flow(wanted.paper, &title, blocks);
}

fn cells(number: usize, step: &PegStepText) -> Vec<String> {
    let ties = step.ties.as_ref();
    let tape = |words: Option<(&str, &str)>| {
        words.map_or("–".to_owned(), |(from, tape)| format!("{from}: {tape}"))
    };
    let set = if step.done { "x" } else { "[  ]" };
    let one = step.tape.as_ref();
    vec![
        format!("{number} {set}"),
        step.name.clone(),
        match ties {
            Some(ties) => tape(Some((&ties.from_a, &ties.tape_a))),
            None => tape(one.map(|one| (one.from.as_str(), one.tape.as_str()))),
        },
        tape(ties.map(|ties| (ties.from_b.as_str(), ties.tape_b.as_str()))),
        ties.map_or_else(String::new, |ties| ties.side.clone()),
        step.tolerance.clone(),
        one.map_or_else(String::new, |one| one.reading.clone()),
    ]
}

fn check_cells(tape: &CheckTapeText) -> Vec<String> {
    vec![tape.name.clone(), tape.expected.clone(), tape.interval.clone(), tape.read.clone()]
}
