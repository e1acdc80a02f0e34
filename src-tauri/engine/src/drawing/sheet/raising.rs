//! How the mast goes up, for those who hold it: the order with boxes to tick, what each guy does meanwhile, and what to mind.

use crate::drawing::pages::block::Block;
use crate::drawing::pages::flow::Drafts;
use crate::drawing::pages::notes::{Notes, Paragraph};
use crate::drawing::pages::table::{Column, Table};
use crate::drawing::pages::title::Title;
use crate::drawing::words::sheet::COLUMNS_OF_ROPES;
use crate::job::Job;
use crate::plan::Computed;
use crate::raising::{as_said, order_as_said};
use crate::report::{
    RaiseAngleText, RaiseGuyText, RaiseOrderReport, RaiseWayText, own_way, raise_caution, raise_order,
};

use super::{Wanted, words};

const WORDS_MM: f64 = 2.8;

const STEPS: [Column; 3] = [
    Column { head: "Done", share: 0.1 },
    Column { head: "What", share: 0.6 },
    Column { head: "When", share: 0.3 },
];

const ROPES: [Column; 5] = [
    Column { head: "Guy", share: 0.28 },
    Column { head: "Lying", share: 0.18 },
    Column { head: "A third up", share: 0.18 },
    Column { head: "Two thirds up", share: 0.18 },
    Column { head: "Plumb", share: 0.18 },
];

/// Nothing where nobody has said how it goes up: the verdict on the first page says that it is not known.
pub(super) fn draw(drafts: &mut Drafts, job: &Job, computed: &Computed, wanted: &Wanted) {
    let Some(way) = as_said(job, computed) else { return };
    let order = raise_order(job, &order_as_said(job, computed));
    let way = own_way(job, &way);
    let what = "How it goes up".to_owned();
    let title = Title { made: words::made(&wanted.about), ..Title::strip_of(&job.name, &what) };
    let mut about: Vec<Paragraph> =
        way.rows.iter().map(|row| Paragraph::plain(format!("{}: {}", row.label, row.value))).collect();
    about.extend(way.doubts().map(|finding| Paragraph::plain(finding.sentence.clone())));
    about.extend(way.nearest.iter().map(|near| Paragraph::plain(near.says.clone())));
    let notes = |paragraphs, framed| Block::Notes(Notes { paragraphs, size_mm: WORDS_MM, framed });
    let blocks = vec![
        Block::Heading(what),
        notes(vec![Paragraph::plain(raise_caution())], true),
        notes(about, false),
        Block::Table(steps(&order)),
        Block::Table(ropes(&way)),
    ];
    drafts.flow(wanted.paper, &title, blocks);
}

fn steps(order: &RaiseOrderReport) -> Table {
    let row = |(number, step): (usize, &crate::report::RaiseStepText)| {
        vec![format!("{number} [  ]"), step.says.clone(), step.after.clone()]
    };
    Table {
        columns: STEPS.to_vec(),
        rows: (1..).zip(&order.steps).map(row).collect(),
        note: order.says.clone(),
    }
}

fn ropes(way: &RaiseWayText) -> Table {
    let row = |guy: &RaiseGuyText| {
        let last = guy.angles.len().saturating_sub(1);
        let at = [0, last / 3, 2 * last / 3, last].map(|index| guy.angles.get(index));
        let cell = |at: &RaiseAngleText| match at.slack.as_str() {
            "" => format!("{}, {}", at.length, at.does),
            slack => format!("{}, {}, {slack}", at.length, at.does),
        };
        let cells = at.map(|at| at.map(cell).unwrap_or_default());
        std::iter::once(format!("{}, {}", guy.name, guy.role)).chain(cells).collect()
    };
    Table {
        columns: ROPES.to_vec(),
        rows: way.guys.iter().map(row).collect(),
        note: COLUMNS_OF_ROPES.to_owned(),
    }
}
