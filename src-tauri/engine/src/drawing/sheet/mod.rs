//! The printed sheets of a job: the staking map with its table, the way from peg to peg, what goes under each leg, how it
//! goes up, and templates at full size.

mod bracket_template;
mod cards;
mod feet;
mod foot_template;
mod going_up;
mod hole_circle;
mod lap_template;
mod map_page;
mod peg_out;
mod pegs;
mod raising;
mod seat_template;
mod seen;
mod stake_template;
mod winch_plate;
mod words;
mod workshop;
mod wrap_strip;

use std::collections::BTreeSet;

use serde::{Deserialize, Serialize};

use crate::job::Job;
use crate::plan::Computed;

use super::pages::flow::Drafts;
use super::pages::{About, Paper, PaperDocument};

/// Which sheets.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum SheetSet {
    /// For the yard: staking map, the way from peg to peg, what goes under each leg.
    #[default]
    Yard,
    /// For the shop and the bench: what to buy, the cut list, drawings at full size.
    Workshop,
    /// For the day it goes up: step cards.
    Day,
}

/// What the sheets say of themselves, and on which paper.
#[derive(Debug, Clone, PartialEq)]
pub struct Wanted {
    pub paper: Paper,
    pub about: About,
    pub set: SheetSet,
}

impl Wanted {
    /// On a paper, with nothing said of who made it and when.
    pub fn on(paper: Paper) -> Self {
        Self { paper, about: About::default(), set: SheetSet::Yard }
    }
}

/// Lays out the sheets of a job.
///
/// # References
/// ISO 5455 scales; ISO 128-2 lines; ISO 5457 sheet border (the last three from memory).
pub fn sheets(job: &Job, computed: &Computed, wanted: &Wanted) -> PaperDocument {
    let document = laid_out(job, computed, wanted, &BTreeSet::new());
    let unknown = document.unknown_letters();
    // What says so takes room on the sheet: all is laid out once more around it.
    if unknown.is_empty() { document } else { laid_out(job, computed, wanted, &unknown) }
}

fn laid_out(job: &Job, computed: &Computed, wanted: &Wanted, unknown: &BTreeSet<char>) -> PaperDocument {
    let mut drafts = Drafts::default();
    let about = About { title: title(job, wanted), ..wanted.about.clone() };
    if wanted.set == SheetSet::Workshop {
        workshop::draw(&mut drafts, job, computed, wanted);
        return drafts.finish(about);
    }
    if wanted.set == SheetSet::Day {
        cards::draw(&mut drafts, job, computed, wanted);
        return drafts.finish(about);
    }
    map_page::draw(&mut drafts, job, computed, wanted, unknown);
    peg_out::draw(&mut drafts, job, computed, wanted);
    feet::draw(&mut drafts, job, computed, wanted);
    raising::draw(&mut drafts, job, computed, wanted);
    seen::draw(&mut drafts, job, computed, wanted);
    drafts.finish(about)
}

fn title(job: &Job, wanted: &Wanted) -> String {
    let what = match wanted.set {
        SheetSet::Yard => "staking sheets",
        SheetSet::Workshop => "workshop sheets",
        SheetSet::Day => "step cards",
    };
    if wanted.about.title.is_empty() {
        format!("{} – {what}", job.name)
    } else {
        wanted.about.title.clone()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::drawing::sample::sample;
    use crate::quantity::UnitSystem;

    fn svg(job: &Job, computed: &Computed, paper: Paper) -> String {
        sheets(job, computed, &Wanted::on(paper)).svg().concat()
    }

    #[test]
    fn the_sheets_name_their_scale_and_every_peg() {
        let (job, computed) = sample(UnitSystem::Metric);
        let sheet = svg(&job, &computed, Paper::A4);
        // 1:75 would leave no room for the note under the table in letters that can be read.
        assert!(sheet.contains("Scale 1:100"));
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
        assert!(!svg(&job, &computed, Paper::Letter).contains("<script"));
    }

    /// Letters of a name that paper has not are named on a page, by their numbers in Unicode; those of other
    /// scripts that it has are not.
    #[test]
    fn letters_that_paper_lacks_are_named_on_it() {
        let (mut job, computed) = sample(UnitSystem::Metric);
        job.name = "Zażółć gęślą jaźń, Ελλάδα, Вечір, Łódź".into();
        let fine = sheets(&job, &computed, &Wanted::on(Paper::A4));
        assert!(fine.unknown_letters().is_empty(), "{:?}", fine.unknown_letters());
        assert_eq!(fine.letters_not_shown(), None);
        assert!(!fine.svg().concat().contains("U+"));
        job.name = "竹竿 🎄 竹".into();
        let document = sheets(&job, &computed, &Wanted::on(Paper::A4));
        assert_eq!(document.unknown_letters(), BTreeSet::from(['竹', '竿', '🎄']));
        let beside = document.letters_not_shown().expect("what a face says beside it");
        assert!(["U+7AF9", "U+7AFF", "U+1F384"].iter().all(|letter| beside.contains(letter)), "{beside}");
        let shown = document.svg().concat();
        for said in ["U+7AF9", "U+7AFF", "U+1F384"] {
            assert_eq!(shown.matches(said).count(), 1, "{said}");
        }
    }

    /// ISO 216: A4 is 210 mm × 297 mm. ANSI/ASME Y14.1: size A is 8.5 in × 11 in, 215.9 mm × 279.4 mm.
    #[test]
    fn every_page_is_as_large_as_its_paper() {
        for (system, paper, [short_mm, long_mm]) in [
            (UnitSystem::Metric, Paper::A4, [210.0, 297.0]),
            (UnitSystem::Imperial, Paper::Letter, [215.9, 279.4]),
        ] {
            let (job, computed) = sample(system);
            let pages = sheets(&job, &computed, &Wanted::on(paper)).svg();
            assert!(pages.len() >= 2, "the map and the feet");
            let upright = format!("width=\"{short_mm}mm\" height=\"{long_mm}mm\"");
            let lying = format!("width=\"{long_mm}mm\" height=\"{short_mm}mm\"");
            for page in pages {
                assert!(page.contains(&upright) || page.contains(&lying), "{}", &page[..200]);
            }
        }
    }
}
