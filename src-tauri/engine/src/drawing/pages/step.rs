//! A step of the work: one thing to do, one number, one picture.

use crate::drawing::marks::{Area, PageMark, PartOfPage, boxed, part, plain};
use crate::drawing::paint::GREY;
use crate::drawing::scene::Scene;
use crate::drawing::scene_marks::SheetFrame;

use super::notes::{Notes, Paragraph};
use super::text::{LINE_EM, line, wrapped};

/// Three of them under a heading and a caution, on Letter too.
const HEIGHT_MM: f64 = 70.0;
/// The picture's part of the width.
const PICTURE: f64 = 0.6;
const RIM_MM: f64 = 2.0;
const TITLE_MM: f64 = 4.0;
/// To be read from where the saw is.
const NUMBER_MM: f64 = 8.0;
const WORDS_MM: f64 = 3.0;

/// One thing to do.
#[derive(Debug, Clone, PartialEq)]
pub struct StepBlock {
    pub(crate) title: String,
    /// The one number, and what it is.
    pub(crate) number: String,
    pub(crate) number_is: String,
    pub(crate) words: Vec<String>,
    /// Lines across the whole width under picture and words: further numbers.
    pub(crate) more: Vec<String>,
    pub(crate) picture: Scene,
    /// The letter height that the picture was laid out with.
    pub(crate) picture_text_m: f64,
}

impl StepBlock {
    pub(crate) fn height_mm(&self, width_mm: f64) -> f64 {
        HEIGHT_MM.max(self.words_mm(width_mm)) + self.more_mm(width_mm)
    }

    /// What stands under picture and words takes, with the rim below it.
    fn more_mm(&self, width_mm: f64) -> f64 {
        if self.more.is_empty() {
            return 0.0;
        }
        notes(&self.more).height_mm(width_mm - 2.0 * RIM_MM) + RIM_MM
    }

    fn column(&self, width_mm: f64) -> f64 {
        (1.0 - PICTURE) * width_mm - 3.0 * RIM_MM
    }

    /// Words in large letters: they are broken where they are too long for the column.
    fn large(&self, width_mm: f64) -> Vec<(f64, bool, String)> {
        let column = self.column(width_mm);
        [(TITLE_MM, true, &self.title), (NUMBER_MM, true, &self.number), (WORDS_MM, false, &self.number_is)]
            .into_iter()
            .flat_map(|(size, bold, words)| {
                wrapped(words, size, bold, column).into_iter().map(move |words| (size, bold, words))
            })
            .collect()
    }

    fn words_mm(&self, width_mm: f64) -> f64 {
        let large: f64 = self.large(width_mm).iter().map(|(size, ..)| size * LINE_EM).sum();
        large + 2.0 * RIM_MM + RIM_MM + notes(&self.words).height_mm(self.column(width_mm))
    }

    pub(crate) fn draw(&self, area: Area) -> Vec<PageMark> {
        let mut marks = vec![boxed(area, Some(plain(GREY.paper(), 0.25)), None)];
        let more_mm = self.more_mm(area.w);
        let high_mm = area.h - more_mm;
        let picture =
            Area::new(area.x + RIM_MM, area.y + RIM_MM, PICTURE * area.w - RIM_MM, high_mm - 2.0 * RIM_MM);
        let shown = SheetFrame::fitted(&self.picture, picture, self.picture_text_m).marks(&self.picture);
        marks.push(part(PartOfPage::Figure(self.picture.description.clone()), vec![shown]));
        let x = area.x + PICTURE * area.w + 2.0 * RIM_MM;
        let mut y = area.y + RIM_MM;
        let large = self.large(area.w);
        for own in large.chunk_by(|(one, ..), (next, ..)| one == next) {
            let is = if own[0].0 == TITLE_MM { PartOfPage::Heading } else { PartOfPage::Paragraph };
            let mut lines = Vec::with_capacity(own.len());
            for (size, bold, words) in own {
                y += size * LINE_EM;
                lines.push(line([x, y - size * LINE_EM / 2.0], *size, *bold, words));
            }
            marks.push(part(is, lines));
        }
        y += RIM_MM;
        let column = self.column(area.w);
        marks.extend(notes(&self.words).draw(Area::new(x, y, column, area.y + high_mm - y)));
        if !self.more.is_empty() {
            let across = Area::new(area.x + RIM_MM, area.y + high_mm, area.w - 2.0 * RIM_MM, more_mm);
            marks.extend(notes(&self.more).draw(across));
        }
        marks
    }
}

fn notes(lines: &[String]) -> Notes {
    let paragraphs = lines.iter().map(|words| Paragraph::plain(words.as_str())).collect();
    Notes { paragraphs, size_mm: WORDS_MM, framed: false }
}
