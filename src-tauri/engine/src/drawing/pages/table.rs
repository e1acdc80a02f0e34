//! A table that breaks over pages: its head stands over every part, and no row is lost.

use crate::drawing::marks::{Area, PageMark, PartOfPage, boxed, line as ruled, part, plain};
use crate::drawing::paint::GREY;
use crate::drawing::words::sheet::MORE;

use super::text::{LINE_EM, SMALL_MM, line, wrapped};

const HEAD_MM: f64 = 4.6;
/// Lettering of the cells where the table is as narrow as beside a map on A4; a wider one has larger letters.
const CELL_MM: f64 = 2.1;
const NARROW_MM: f64 = 118.0;
const LARGEST_CELL_MM: f64 = 2.8;
/// The same of the note under them.
const NOTE_MM: f64 = 1.8;
/// Room above and below a row's words, and beside them.
const ABOVE_MM: f64 = 0.55;
const BESIDE_MM: f64 = 0.6;
const HEAD_GROUND: &str = "#e9edf0";

/// Rows under a head.
#[derive(Debug, Clone, PartialEq)]
pub struct Table {
    pub columns: Vec<Column>,
    /// Each with a cell for every column.
    pub rows: Vec<Vec<String>>,
    /// What the columns mean, under every part.
    pub note: String,
}

#[derive(Debug, Clone, PartialEq)]
pub struct Column {
    pub head: &'static str,
    /// Part of the table's width.
    pub share: f64,
}

/// Letter height in a table of a width, of what is so high in the narrowest one.
fn letters_mm(narrow_mm: f64, width_mm: f64) -> f64 {
    (narrow_mm * width_mm / NARROW_MM).clamp(narrow_mm, LARGEST_CELL_MM)
}

impl Table {
    fn cells(&self, row: &[String], width_mm: f64) -> Vec<Vec<String>> {
        let broken = row.iter().zip(&self.columns);
        broken
            .map(|(cell, column)| {
                wrapped(cell, letters_mm(CELL_MM, width_mm), false, column.share * width_mm - 2.0 * BESIDE_MM)
            })
            .collect()
    }

    fn row_mm(&self, row: &[String], width_mm: f64) -> f64 {
        let lines = self.cells(row, width_mm).iter().map(Vec::len).max().unwrap_or(0).max(1);
        letters_mm(CELL_MM, width_mm) * LINE_EM * lines as f64 + 2.0 * ABOVE_MM
    }

    fn note_lines(&self, width_mm: f64) -> Vec<String> {
        wrapped(&self.note, letters_mm(NOTE_MM, width_mm), false, width_mm)
    }

    fn note_mm(&self, width_mm: f64) -> f64 {
        ABOVE_MM + letters_mm(NOTE_MM, width_mm) * LINE_EM * self.note_lines(width_mm).len() as f64
    }

    pub fn height_mm(&self, width_mm: f64) -> f64 {
        let rows: f64 = self.rows.iter().map(|row| self.row_mm(row, width_mm)).sum();
        HEAD_MM + rows + self.note_mm(width_mm)
    }

    /// The rows that find room under a head and over the note, and the rest; `force` takes one at least.
    pub fn split(self, width_mm: f64, room_mm: f64, force: bool) -> (Option<Self>, Option<Self>) {
        if self.height_mm(width_mm) <= room_mm {
            return (Some(self), None);
        }
        let more =
            Self { note: format!("{MORE} {}", self.note), rows: Vec::new(), columns: self.columns.clone() };
        let mut left = room_mm - more.height_mm(width_mm);
        let mut count = 0;
        for row in &self.rows {
            left -= self.row_mm(row, width_mm);
            if left < 0.0 {
                break;
            }
            count += 1;
        }
        let count = if force { count.max(1) } else { count }.min(self.rows.len());
        if count == 0 {
            return (None, Some(self));
        }
        let Self { columns, mut rows, note } = self;
        let rest = rows.split_off(count);
        if rest.is_empty() {
            return (Some(Self { columns, rows, note }), None);
        }
        (Some(Self { rows, ..more }), Some(Self { columns, rows: rest, note }))
    }

    pub(crate) fn draw(&self, area: Area) -> Vec<PageMark> {
        let mut marks = vec![boxed(Area::new(area.x, area.y, area.w, HEAD_MM), None, Some(HEAD_GROUND))];
        let lefts: Vec<f64> = self
            .columns
            .iter()
            .scan(area.x, |x, column| {
                let left = *x;
                *x += column.share * area.w;
                Some(left + BESIDE_MM)
            })
            .collect();
        let head = self.columns.iter().zip(&lefts).map(|(column, &x)| {
            let words = line([x, area.y + HEAD_MM / 2.0], SMALL_MM, true, column.head);
            part(PartOfPage::HeadCell, vec![words])
        });
        let mut rows = vec![part(PartOfPage::Row, head.collect())];
        let size = letters_mm(CELL_MM, area.w);
        let mut y = area.y + HEAD_MM;
        for row in &self.rows {
            let mut own = Vec::with_capacity(self.columns.len() + 1);
            for (cell, &x) in self.cells(row, area.w).iter().zip(&lefts) {
                let lines = cell.iter().enumerate().map(|(i, words)| {
                    line([x, y + ABOVE_MM + size * LINE_EM * (i as f64 + 0.5)], size, false, words)
                });
                own.push(part(PartOfPage::Cell, lines.collect()));
            }
            y += self.row_mm(row, area.w);
            own.push(ruled(&[[area.x, y], [area.right(), y]], plain(GREY.paper(), 0.13)));
            rows.push(part(PartOfPage::Row, own));
        }
        marks.push(part(PartOfPage::Table, rows));
        let note = self.note_lines(area.w);
        let letters = letters_mm(NOTE_MM, area.w);
        let note = note.iter().enumerate().map(|(i, words)| {
            line([area.x, y + ABOVE_MM + letters * LINE_EM * (i as f64 + 0.5)], letters, false, words)
        });
        marks.push(part(PartOfPage::Paragraph, note.collect()));
        marks
    }
}
