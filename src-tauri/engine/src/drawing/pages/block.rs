//! The kinds of blocks: what height each takes at a width, how it is broken, how it is drawn into its area.

use crate::drawing::marks::{Area, PageMark, PartOfPage, boxed, part, plain};
use crate::drawing::paint::INK;
use crate::drawing::scene::Scene;
use crate::drawing::scene_marks::SheetFrame;

use super::full_size::{Tile, Window};
use super::legend::Key;
use super::notes::Notes;
use super::step::StepBlock;
use super::table::Table;
use super::text::{LINE_EM, line, shortened};
use super::title::Title;

const HEADING_MM: f64 = 5.0;

/// A part of a page.
#[derive(Debug, Clone, PartialEq)]
pub enum Block {
    Heading(String),
    Figure(Figure),
    FullSize(Tile),
    Table(Table),
    Step(StepBlock),
    Notes(Notes),
    Key(Key),
    Title(Title),
}

/// What a block is, once it is drawn.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Kind {
    Heading,
    Figure,
    FullSize,
    Table,
    Step,
    Notes,
    Caution,
    Key,
    Title,
}

/// A scene at a scale, cut off at its frame.
#[derive(Debug, Clone, PartialEq)]
pub struct Figure {
    pub(crate) scene: Scene,
    pub(crate) scale_denominator: f64,
    pub(crate) text_mm: f64,
}

impl Figure {
    fn draw(&self, area: Area) -> Vec<PageMark> {
        let frame = SheetFrame::at_scale(&self.scene, area, self.scale_denominator, self.text_mm);
        let picture =
            part(PartOfPage::Figure(self.scene.description.clone()), vec![frame.marks(&self.scene)]);
        vec![picture, boxed(area, Some(plain(INK.paper(), 0.5)), None)]
    }
}

impl Block {
    pub(crate) fn kind(&self) -> Kind {
        match self {
            Self::Heading(_) => Kind::Heading,
            Self::Figure(_) => Kind::Figure,
            Self::FullSize(_) => Kind::FullSize,
            Self::Table(_) => Kind::Table,
            Self::Step(_) => Kind::Step,
            Self::Notes(notes) if notes.framed => Kind::Caution,
            Self::Notes(_) => Kind::Notes,
            Self::Key(_) => Kind::Key,
            Self::Title(_) => Kind::Title,
        }
    }

    /// The height it takes at a width; a figure takes what its page has for it, 0 here.
    pub(crate) fn height_mm(&self, width_mm: f64) -> f64 {
        match self {
            Self::Heading(_) => HEADING_MM * LINE_EM,
            Self::Figure(_) | Self::FullSize(_) => 0.0,
            Self::Table(table) => table.height_mm(width_mm),
            Self::Step(step) => step.height_mm(width_mm),
            Self::Notes(notes) => notes.height_mm(width_mm),
            Self::Key(key) => key.height_mm(width_mm),
            Self::Title(title) => title.height_mm(),
        }
    }

    /// What of it finds room in a height, and what does not. With `force` something always does, so that a block larger
    /// than a page comes to its end.
    pub(crate) fn split(self, width_mm: f64, room_mm: f64, force: bool) -> (Option<Self>, Option<Self>) {
        let whole = |block: Self| if force { (Some(block), None) } else { (None, Some(block)) };
        match self {
            Self::Table(table) => both(table.split(width_mm, room_mm, force), Self::Table),
            Self::Notes(notes) => both(notes.split(width_mm, room_mm, force), Self::Notes),
            Self::Key(key) => both(key.split(width_mm, room_mm, force), Self::Key),
            other => whole(other),
        }
    }

    pub(crate) fn draw(&self, area: Area) -> Vec<PageMark> {
        match self {
            Self::Heading(words) => {
                let at = [area.x, area.y + HEADING_MM * LINE_EM / 2.0];
                let words = line(at, HEADING_MM, true, &shortened(words, HEADING_MM, true, area.w));
                vec![part(PartOfPage::Heading, vec![words])]
            }
            Self::Figure(figure) => figure.draw(area),
            Self::FullSize(tile) => tile.draw(area),
            Self::Table(table) => table.draw(area),
            Self::Step(step) => step.draw(area),
            Self::Notes(notes) => notes.draw(area),
            Self::Key(key) => key.draw(area),
            Self::Title(title) => title.draw(area),
        }
    }

    pub(crate) fn window(&self) -> Option<Window> {
        match self {
            Self::FullSize(tile) => Some(tile.window),
            _ => None,
        }
    }
}

fn both<T>((first, rest): (Option<T>, Option<T>), block: fn(T) -> Block) -> (Option<Block>, Option<Block>) {
    (first.map(block), rest.map(block))
}
