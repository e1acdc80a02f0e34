//! The page model: a document of pages, each of blocks that keep to their areas. It is laid out once, here; writers (SVG
//! below, PDF in `mastwright-paper`) only show it.
//!
//! - [`block`]: the kinds of blocks, what height each takes, how it is broken over pages
//! - `table`, `notes`, `step`, `legend`, `title`, `ruler`: the blocks
//! - [`full_size`]: figures at 1:1, in tiles where they are larger than the paper
//! - `flow`: blocks down the pages; the document from its drafts
//! - `scale`: round scales; `text`: words broken into lines

pub mod block;
pub mod flow;
pub mod full_size;
pub(crate) mod legend;
pub(crate) mod notes;
pub(crate) mod ruler;
pub(crate) mod scale;
pub(crate) mod step;
pub mod table;
pub(crate) mod text;
pub mod title;

use std::collections::BTreeSet;

use chrono::{DateTime, FixedOffset};
use serde::{Deserialize, Serialize};

use super::marks::{Area, PageMark};
use super::words::sheet;
use super::{letters, svg};
use block::Kind;
use full_size::Window;

/// Paper for printed sheets.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum Paper {
    /// Source: ISO 216, A4, 210 mm × 297 mm.
    A4,
    /// Source: ISO 216, A3, 297 mm × 420 mm.
    A3,
    /// Source: ANSI/ASME Y14.1, size A, 8.5 in × 11 in.
    Letter,
    /// Source: ANSI/ASME Y14.1, size B, 11 in × 17 in.
    Tabloid,
}

impl Paper {
    pub const ALL: [Self; 4] = [Self::A4, Self::A3, Self::Letter, Self::Tabloid];

    /// Short side, long side.
    pub fn size_mm(self) -> [f64; 2] {
        match self {
            Self::A4 => [210.0, 297.0],
            Self::A3 => [297.0, 420.0],
            Self::Letter => [215.9, 279.4],
            Self::Tabloid => [279.4, 431.8],
        }
    }
}

/// Free rim, as most printers need. ISO 5457 asks for 10 mm (from memory).
pub const MARGIN_MM: f64 = 10.0;
/// Between two blocks.
pub(crate) const GAP_MM: f64 = 3.0;

/// What a document says of itself; the engine has no clock and knows nobody.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct About {
    pub title: String,
    pub author: Option<String>,
    pub made_at: Option<DateTime<FixedOffset>>,
}

/// Pages to print, in order.
#[derive(Debug, Clone, PartialEq)]
pub struct PaperDocument {
    pub about: About,
    pub pages: Vec<Page>,
}

/// One sheet of paper.
#[derive(Debug, Clone, PartialEq)]
pub struct Page {
    /// As a table of contents has it.
    pub name: String,
    /// Width, height.
    pub size_mm: [f64; 2],
    /// In words, for those who can't see it.
    pub description: String,
    pub blocks: Vec<Placed>,
}

/// A block in its place.
#[derive(Debug, Clone, PartialEq)]
pub struct Placed {
    pub kind: Kind,
    pub area: Area,
    /// Which part of a full-size figure this is.
    pub window: Option<Window>,
    pub marks: Vec<PageMark>,
}

impl Page {
    /// All marks, in painting order.
    pub fn marks(&self) -> impl Iterator<Item = &PageMark> {
        self.blocks.iter().flat_map(|block| &block.marks)
    }

    /// The page as an SVG document; `number` keeps its parts apart from those of other pages in one browser page.
    pub fn svg(&self, number: usize) -> String {
        svg::written(self.size_mm, &self.name, &self.description, &format!("p{number}"), self.marks())
    }
}

impl PaperDocument {
    /// The letters in its words that the letters of paper lack, each once, in the order of Unicode.
    pub fn unknown_letters(&self) -> BTreeSet<char> {
        let words = self.pages.iter().flat_map(Page::marks).flat_map(PageMark::words);
        words.flat_map(|words| words.words.chars()).filter(|&letter| !letters::is_known(letter)).collect()
    }

    /// The same in words, for a face beside the pages; none where the letters of paper have them all.
    pub fn letters_not_shown(&self) -> Option<String> {
        sheet::not_shown(&self.unknown_letters())
    }

    /// Every page as an SVG document.
    pub fn svg(&self) -> Vec<String> {
        (1..).zip(&self.pages).map(|(number, page)| page.svg(number)).collect()
    }
}
