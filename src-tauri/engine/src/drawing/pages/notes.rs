//! Paragraphs: notes, and cautions in a frame of their own.

use crate::drawing::marks::{Area, PageMark, PartOfPage, boxed, part, plain};
use crate::drawing::paint::INK;

use super::text::{LINE_EM, line, wrapped};

/// Between two paragraphs, in letter heights.
const BREAK_EM: f64 = 0.35;
/// Between a caution's frame and its words.
const RIM_MM: f64 = 1.6;

/// Words in paragraphs.
#[derive(Debug, Clone, PartialEq)]
pub struct Notes {
    pub(crate) paragraphs: Vec<Paragraph>,
    pub(crate) size_mm: f64,
    /// Whether they stand in a frame, as a caution does.
    pub(crate) framed: bool,
}

#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Paragraph {
    pub(crate) bold: bool,
    pub(crate) words: String,
}

impl Paragraph {
    pub(crate) fn heading(words: impl Into<String>) -> Self {
        Self { bold: true, words: words.into() }
    }

    pub(crate) fn plain(words: impl Into<String>) -> Self {
        Self { bold: false, words: words.into() }
    }
}

impl Notes {
    fn rim(&self) -> f64 {
        if self.framed { RIM_MM } else { 0.0 }
    }

    fn lines(&self, width_mm: f64) -> Vec<(usize, bool, String)> {
        let width = width_mm - 2.0 * self.rim();
        let broken = self.paragraphs.iter().enumerate().map(|(i, paragraph)| {
            wrapped(&paragraph.words, self.size_mm, paragraph.bold, width)
                .into_iter()
                .map(move |words| (i, paragraph.bold, words))
        });
        broken.flatten().collect()
    }

    /// The height of so many of its first lines.
    fn height_of(&self, lines: &[(usize, bool, String)]) -> f64 {
        let breaks = lines.windows(2).filter(|pair| pair[0].0 != pair[1].0).count();
        self.size_mm * (LINE_EM * lines.len() as f64 + BREAK_EM * breaks as f64) + 2.0 * self.rim()
    }

    pub(crate) fn height_mm(&self, width_mm: f64) -> f64 {
        self.height_of(&self.lines(width_mm))
    }

    /// As many lines as find room, and the rest; `force` takes one at least.
    pub(crate) fn split(self, width_mm: f64, room_mm: f64, force: bool) -> (Option<Self>, Option<Self>) {
        let lines = self.lines(width_mm);
        let fitting = (0..=lines.len()).rev().find(|&n| self.height_of(&lines[..n]) <= room_mm).unwrap_or(0);
        let mut count = if force { fitting.max(1).min(lines.len()) } else { fitting };
        // A heading stays with what it is the heading of.
        while count > 0 && count < lines.len() && lines[count - 1].1 && !force {
            count -= 1;
        }
        let part = |lines: &[(usize, bool, String)]| {
            let mut paragraphs: Vec<(usize, Paragraph)> = Vec::new();
            for (i, bold, words) in lines {
                match paragraphs.last_mut() {
                    Some((same, paragraph)) if same == i => paragraph.words += &format!(" {words}"),
                    _ => paragraphs.push((*i, Paragraph { bold: *bold, words: words.clone() })),
                }
            }
            let paragraphs: Vec<Paragraph> = paragraphs.into_iter().map(|(_, paragraph)| paragraph).collect();
            (!paragraphs.is_empty()).then(|| Self { paragraphs, ..self.clone() })
        };
        (part(&lines[..count]), part(&lines[count..]))
    }

    pub(crate) fn draw(&self, area: Area) -> Vec<PageMark> {
        let mut marks = Vec::new();
        if self.framed {
            let height = self.height_mm(area.w).min(area.h);
            marks.push(boxed(Area::new(area.x, area.y, area.w, height), Some(plain(INK.paper(), 0.5)), None));
        }
        let mut y = area.y + self.rim() + self.size_mm * LINE_EM / 2.0;
        let lines = self.lines(area.w);
        for own in lines.chunk_by(|(one, ..), (next, ..)| one == next) {
            let is = if own[0].1 { PartOfPage::Heading } else { PartOfPage::Paragraph };
            let mut paragraph = Vec::with_capacity(own.len());
            for (_, bold, words) in own {
                paragraph.push(line([area.x + self.rim(), y], self.size_mm, *bold, words));
                y += self.size_mm * LINE_EM;
            }
            marks.push(part(is, paragraph));
            y += self.size_mm * BREAK_EM;
        }
        marks
    }
}
