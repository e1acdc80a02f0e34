//! Blocks down the pages, and the document of all drafts.

use std::collections::VecDeque;

use crate::drawing::marks::Area;

use super::block::Block;
use super::full_size::FullSize;
use super::title::Title;
use super::{About, GAP_MM, MARGIN_MM, Page, Paper, PaperDocument, Placed};

/// A heading is not left alone at the foot of a page: so much has to find room under it.
const UNDER_HEADING_MM: f64 = 30.0;

/// A page whose number is not known yet.
#[derive(Debug)]
pub(crate) struct Draft {
    name: String,
    description: String,
    size_mm: [f64; 2],
    title: Title,
    blocks: Vec<(Area, Block)>,
}

impl Draft {
    pub(crate) fn new(name: String, description: String, size_mm: [f64; 2], title: Title) -> Self {
        Self { name, description, size_mm, title, blocks: Vec::new() }
    }

    pub(crate) fn put(&mut self, area: Area, block: Block) {
        self.blocks.push((area, block));
    }

    /// As much of a block as its area takes; the rest is handed back.
    pub(crate) fn put_what_fits(&mut self, area: Area, block: Block) -> Option<Block> {
        let (first, rest) = if block.height_mm(area.w) <= area.h {
            (Some(block), None)
        } else {
            block.split(area.w, area.h, false)
        };
        if let Some(first) = first {
            self.put(area, first);
        }
        rest
    }

    /// What the margins and the title leave.
    pub(crate) fn room(&self) -> Area {
        let [w, h] = self.size_mm;
        let title = self.title_area();
        Area::new(MARGIN_MM, MARGIN_MM, w - 2.0 * MARGIN_MM, h - (h - title.y) - GAP_MM - MARGIN_MM)
    }

    fn title_area(&self) -> Area {
        let [w, h] = self.size_mm;
        let height = self.title.height_mm();
        Area::new(MARGIN_MM, h - MARGIN_MM - height, w - 2.0 * MARGIN_MM, height)
    }

    fn page(self, number: usize, of: usize) -> Page {
        let area = self.title_area();
        let title = Block::Title(Title { page: [number, of], ..self.title });
        let blocks = self.blocks.into_iter().chain([(area, title)]);
        let placed = |(area, block): (Area, Block)| Placed {
            kind: block.kind(),
            area,
            window: block.window(),
            marks: block.draw(area),
        };
        Page {
            name: self.name,
            size_mm: self.size_mm,
            description: self.description,
            blocks: blocks.map(placed).collect(),
        }
    }
}

/// Pages so far.
#[derive(Debug, Default)]
pub struct Drafts(Vec<Draft>);

impl Drafts {
    pub(crate) fn push(&mut self, draft: Draft) {
        self.0.push(draft);
    }

    /// Blocks one under the other, on as many upright pages as they take.
    pub fn flow(&mut self, paper: Paper, title: &Title, blocks: Vec<Block>) {
        let name = title.what.clone();
        let new = || Draft::new(name.clone(), name.clone(), paper.size_mm(), title.clone());
        let mut waiting: VecDeque<Block> = blocks.into();
        let mut draft = new();
        let mut room = draft.room();
        while let Some(block) = waiting.pop_front() {
            let height = block.height_mm(room.w);
            let needed = if matches!(block, Block::Heading(_)) { height + UNDER_HEADING_MM } else { height };
            if needed <= room.h {
                draft.put(Area { h: height, ..room }, block);
                room = below(room, height);
                continue;
            }
            let (first, rest) = block.split(room.w, room.h, draft.blocks.is_empty());
            if let Some(first) = first {
                let height = first.height_mm(room.w).min(room.h);
                draft.put(Area { h: height, ..room }, first);
                room = below(room, height);
            }
            if let Some(rest) = rest {
                waiting.push_front(rest);
                self.push(std::mem::replace(&mut draft, new()));
                room = draft.room();
            }
        }
        if !draft.blocks.is_empty() {
            self.push(draft);
        }
    }

    /// A figure at 1:1, a page for each of its tiles.
    pub fn full_size(&mut self, paper: Paper, title: &Title, figure: &FullSize) {
        let (page, tiles) = figure.tiles(paper);
        for tile in tiles {
            let name = tile.title();
            let mut draft = Draft::new(name.clone(), figure.how.clone(), page, title.strip(&name));
            let room = draft.room();
            draft.put(room, Block::FullSize(tile));
            self.push(draft);
        }
    }

    /// Numbers the pages.
    pub fn finish(self, about: About) -> PaperDocument {
        let of = self.0.len();
        let pages = (1..).zip(self.0).map(|(number, draft)| draft.page(number, of)).collect();
        PaperDocument { about, pages }
    }
}

fn below(room: Area, height: f64) -> Area {
    let taken = height + GAP_MM;
    Area { y: room.y + taken, h: room.h - taken, ..room }
}
