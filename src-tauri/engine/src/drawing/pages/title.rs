//! The title block: what this is, of which job, at which scale, which page of how many, and when it was made.

use crate::drawing::letters::width_em;
use crate::drawing::marks::{Area, PageMark, PartOfPage, boxed, part, plain};
use crate::drawing::paint::INK;
use crate::drawing::scene::Align;
use crate::drawing::scene_marks::words;
use crate::quantity::UnitSystem;

use super::ruler::{Way, ruler};
use super::text::{SMALL_MM, line, shortened, wrapped};

pub(crate) const FULL_MM: f64 = 25.0;
pub(crate) const STRIP_MM: f64 = 9.0;
const RIM_MM: f64 = 2.5;

/// A title block.
#[derive(Debug, Clone, PartialEq)]
pub struct Title {
    pub(crate) job: String,
    pub(crate) what: String,
    /// Such as when it was made.
    pub(crate) made: String,
    /// A page with a figure at a scale has the large block.
    pub(crate) scaled: Option<Scaled>,
    /// Which page of how many; set when all pages are there.
    pub(crate) page: [usize; 2],
}

/// What the large block says of a figure at a scale.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Scaled {
    pub(crate) scale: String,
    pub(crate) facts: Vec<String>,
    pub(crate) north: String,
    pub(crate) system: UnitSystem,
}

impl Title {
    /// The small block of a page without a figure at a scale.
    pub fn strip_of(job: &str, what: &str) -> Self {
        Self { job: job.to_owned(), what: what.to_owned(), made: String::new(), scaled: None, page: [0, 0] }
    }

    pub(crate) fn height_mm(&self) -> f64 {
        if self.scaled.is_some() { FULL_MM } else { STRIP_MM }
    }

    /// The same for a page that goes on with what found no room.
    pub(crate) fn strip(&self, what: &str) -> Self {
        Self { what: what.to_owned(), scaled: None, ..self.clone() }
    }

    fn page(&self) -> String {
        let [page, of] = self.page;
        format!("Page {page} of {of}")
    }

    pub(crate) fn draw(&self, area: Area) -> Vec<PageMark> {
        let mut marks = vec![boxed(area, Some(plain(INK.paper(), 0.5)), None)];
        let mut own = match &self.scaled {
            Some(scaled) => self.full(scaled, area),
            None => self.small(area),
        };
        // The job and what of it this is are the page's heading; the rest is told after it.
        let rest = own.split_off(2);
        marks.push(part(PartOfPage::Title, own));
        marks.push(part(PartOfPage::Paragraph, rest));
        marks
    }

    fn small(&self, area: Area) -> Vec<PageMark> {
        let y = area.y + area.h / 2.0;
        let half = area.w / 2.0 - 2.0 * RIM_MM;
        let page = format!("{} · Mastwright", self.page());
        let job = shortened(&self.job, 3.5, true, 0.8 * half);
        let job_mm = 3.5 * width_em(&job, true);
        let what_x = area.x + RIM_MM + job_mm + 3.0;
        let right = area.right() - RIM_MM;
        let tail = if self.made.is_empty() { page } else { format!("{} · {page}", self.made) };
        let tail_mm = SMALL_MM * width_em(&tail, false);
        let what = shortened(&self.what, 2.8, false, (right - tail_mm - 3.0 - what_x).max(5.0));
        vec![
            line([area.x + RIM_MM, y], 3.5, true, &job),
            line([what_x, y], 2.8, false, &what),
            words([right, y], SMALL_MM, false, Align::End, &tail),
        ]
    }

    fn full(&self, scaled: &Scaled, area: Area) -> Vec<PageMark> {
        let left = area.x + RIM_MM;
        let half = 0.5 * area.w - 4.0;
        let page = self.page();
        let what = format!("{}. {page}", self.what);
        let mut marks = vec![
            line([left, area.y + 4.6], 4.5, true, &shortened(&self.job, 4.5, true, half)),
            line([left, area.y + 9.4], 2.8, false, &shortened(&what, 2.8, false, half)),
        ];
        let facts = scaled.facts.iter().chain((!self.made.is_empty()).then_some(&self.made));
        for (i, fact) in facts.enumerate() {
            let at = [left, area.y + 13.4 + 3.15 * i as f64];
            marks.push(line(at, SMALL_MM, false, &shortened(fact, SMALL_MM, false, half)));
        }
        let middle = area.x + 0.5 * area.w;
        marks.push(line([middle, area.y + 4.6], 3.5, true, &format!("Scale {}", scaled.scale)));
        let north = wrapped(&scaled.north, SMALL_MM, false, half);
        for (i, said) in north.iter().take(2).enumerate() {
            let missing = if i == 1 && north.len() > 2 { "…" } else { "" };
            let at = [middle, area.y + 8.8 + 3.0 * i as f64];
            marks.push(line(
                at,
                SMALL_MM,
                false,
                &shortened(&format!("{said}{missing}"), SMALL_MM, false, half),
            ));
        }
        marks.extend(ruler([middle, area.y + 19.8], Way::Across, scaled.system, half.min(80.0)));
        marks
    }
}
