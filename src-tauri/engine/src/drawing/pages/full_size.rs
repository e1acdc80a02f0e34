//! Figures at 1:1: where one is larger than the paper it is cut into tiles that overlap, each with rulers to check the
//! print, marks that come to lie on each other, and its place among the others.

use crate::drawing::marks::{Area, PageMark, PartOfPage, boxed, ellipse_steps, line as ruled, part, plain};
use crate::drawing::marks::{Path, Stroke};
use crate::drawing::paint::{GREY, INK};
use crate::quantity::UnitSystem;

use super::ruler::{Way, ruler};
use super::text::{LINE_EM, line, wrapped};
use super::{MARGIN_MM, Paper, title};

/// How much two neighbours show alike: room for the register marks and for glue.
pub const OVERLAP_MM: f64 = 10.0;
/// Register marks: half their cross, and their ring.
const CROSS_MM: f64 = 4.0;
const RING_MM: f64 = 2.0;
/// Beside and under the window, for the rulers with their words.
const RULER_MM: f64 = 9.0;
const NAME_MM: f64 = 4.0;
/// How to lay it on, and the caution: read outdoors, at arm's length.
const WORDS_MM: f64 = 2.8;

/// A figure in its own millimetres, from its upper left corner.
#[derive(Debug, Clone, PartialEq)]
pub struct FullSize {
    pub name: String,
    pub size_mm: [f64; 2],
    pub marks: Vec<PageMark>,
    /// How to lay it on, over every tile.
    pub how: String,
    /// What to take care of, under it on every tile.
    pub caution: String,
    pub system: UnitSystem,
}

/// The part of a figure that a tile shows, in the figure's millimetres.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Window {
    pub from_mm: [f64; 2],
    pub size_mm: [f64; 2],
}

/// Rows and columns of tiles, and one of them.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct FigurePlace {
    pub(crate) at: [usize; 2],
    pub(crate) of: [usize; 2],
}

/// One tile of a figure.
#[derive(Debug, Clone, PartialEq)]
pub struct Tile {
    pub(crate) figure: FullSize,
    pub(crate) window: Window,
    pub(crate) place: FigurePlace,
}

/// How many tiles of a length cover a length, each overlapping the one before it.
pub fn tiles_over(length_mm: f64, tile_mm: f64) -> usize {
    if length_mm <= tile_mm {
        return 1;
    }
    // A hair less, so that what fits exactly takes no further tile.
    let more = ((length_mm - tile_mm) / (tile_mm - OVERLAP_MM) - 1e-9).ceil();
    1 + more.max(1.0) as usize
}

/// `A1` for the tile in the first row and column.
pub(crate) fn tile_name([row, column]: [usize; 2]) -> String {
    let (mut letters, mut rest) = (String::new(), row + 1);
    while rest > 0 {
        let letter = char::from(b'A' + ((rest - 1) % 26) as u8);
        letters.insert(0, letter);
        rest = (rest - 1) / 26;
    }
    format!("{letters}{}", column + 1)
}

impl FullSize {
    /// The figure's tiles on a paper, lying or upright, whichever takes fewer; with the size of their pages.
    pub(crate) fn tiles(&self, paper: Paper) -> ([f64; 2], Vec<Tile>) {
        let [short, long] = paper.size_mm();
        let choices = [[short, long], [long, short]].map(|page| (page, self.grid(page)));
        let count = |choice: &([f64; 2], [usize; 2])| choice.1[0] * choice.1[1];
        let [upright, lying] = choices;
        let (page, of) = if count(&lying) < count(&upright) { lying } else { upright };
        let room = self.room(page);
        let mut tiles = Vec::new();
        for row in 0..of[0] {
            for column in 0..of[1] {
                let from = |number: usize, size: f64| number as f64 * (size - OVERLAP_MM);
                let from_mm = [from(column, room[0]), from(row, room[1])];
                // The last ones need not be larger than what is left.
                let size_mm = [0, 1].map(|axis| room[axis].min(self.size_mm[axis] - from_mm[axis]));
                let place = FigurePlace { at: [row, column], of };
                tiles.push(Tile { figure: self.clone(), window: Window { from_mm, size_mm }, place });
            }
        }
        (page, tiles)
    }

    /// Rows and columns.
    fn grid(&self, page: [f64; 2]) -> [usize; 2] {
        let room = self.room(page);
        [tiles_over(self.size_mm[1], room[1]), tiles_over(self.size_mm[0], room[0])]
    }

    /// Width and height that a page has for the figure itself.
    fn room(&self, page: [f64; 2]) -> [f64; 2] {
        let width = page[0] - 2.0 * MARGIN_MM;
        let height = page[1] - 2.0 * MARGIN_MM - title::STRIP_MM - super::GAP_MM;
        let words = self.head_mm(width) + self.foot_mm(width);
        [width - RULER_MM, height - words - RULER_MM]
    }

    fn head(&self, width_mm: f64) -> Vec<String> {
        wrapped(&self.how, WORDS_MM, false, 0.8 * width_mm)
    }

    fn head_mm(&self, width_mm: f64) -> f64 {
        NAME_MM * LINE_EM + (WORDS_MM * LINE_EM * self.head(width_mm).len() as f64).max(12.0) + 1.5
    }

    fn foot_mm(&self, width_mm: f64) -> f64 {
        let lines = wrapped(&self.caution, WORDS_MM, true, width_mm).len();
        WORDS_MM * LINE_EM * lines as f64 + 1.0
    }
}

impl Tile {
    pub(crate) fn name(&self) -> Option<String> {
        (self.place.of != [1, 1]).then(|| tile_name(self.place.at))
    }

    /// Its line in a table of contents.
    pub(crate) fn title(&self) -> String {
        let tile = self.name().map_or_else(String::new, |name| format!(", tile {name}"));
        format!("{}, full size{tile}", self.figure.name)
    }

    /// Where the figure stands within the tile's area.
    pub(crate) fn window_area(&self, area: Area) -> Area {
        let y = area.y + self.figure.head_mm(area.w);
        let [w, h] = self.window.size_mm;
        Area::new(area.x + RULER_MM, y, w, h)
    }

    pub(crate) fn draw(&self, area: Area) -> Vec<PageMark> {
        let window = self.window_area(area);
        let mut head = self.head(area);
        let rest = head.split_off(1);
        let mut marks = vec![part(PartOfPage::Heading, head), part(PartOfPage::Paragraph, rest)];
        let by = [window.x - self.window.from_mm[0], window.y - self.window.from_mm[1]];
        let shown = self.figure.marks.iter().map(|mark| mark.clone().moved(by));
        let shown = shown.chain(self.register().into_iter().map(|mark| mark.moved(by)));
        let shown = PageMark::Within { outline: window.corners().to_vec(), marks: shown.collect() };
        marks.push(part(PartOfPage::Figure(self.title()), vec![shown]));
        marks.push(boxed(window, Some(plain(GREY.paper(), 0.13)), None));
        let system = self.figure.system;
        let bottom = area.bottom() - self.figure.foot_mm(area.w);
        for (at, way) in [([window.x, bottom - 5.0], Way::Across), ([area.x + 4.4, window.y], Way::Down)] {
            marks.push(part(PartOfPage::Paragraph, ruler(at, way, system, 100.0)));
        }
        let caution = wrapped(&self.figure.caution, WORDS_MM, true, area.w);
        let caution = caution.iter().enumerate().map(|(i, words)| {
            let y = bottom + 1.0 + WORDS_MM * LINE_EM * (i as f64 + 0.5);
            line([area.x, y], WORDS_MM, true, words)
        });
        marks.push(part(PartOfPage::Paragraph, caution.collect()));
        marks
    }

    fn head(&self, area: Area) -> Vec<PageMark> {
        let tile = self.name().map_or_else(String::new, |name| {
            let [rows, columns] = self.place.of;
            format!(" – tile {name} of {}", rows * columns)
        });
        let words = format!("{}, full size{tile}", self.figure.name);
        let mut marks = Vec::new();
        let y = area.y + NAME_MM * LINE_EM / 2.0;
        let words = super::text::shortened(&words, NAME_MM, true, 0.8 * area.w);
        marks.push(line([area.x, y], NAME_MM, true, &words));
        for (i, words) in self.figure.head(area.w).iter().enumerate() {
            let y = area.y + NAME_MM * LINE_EM + WORDS_MM * LINE_EM * (i as f64 + 0.5);
            marks.push(line([area.x, y], WORDS_MM, false, words));
        }
        marks.extend(self.key_plan(Area::new(area.x + 0.82 * area.w, area.y, 0.18 * area.w, 16.0)));
        marks
    }

    /// Which of the tiles this one is: a small picture of all, this one filled.
    fn key_plan(&self, area: Area) -> Vec<PageMark> {
        let [rows, columns] = self.place.of;
        if self.place.of == [1, 1] {
            return Vec::new();
        }
        let side = (area.w / columns as f64).min(area.h / rows as f64).min(6.0);
        let left = area.right() - side * columns as f64;
        let all = (0..rows).flat_map(|row| (0..columns).map(move |column| [row, column]));
        all.map(|[row, column]| {
            let own = Area::new(left + side * column as f64, area.y + side * row as f64, side, side);
            let fill = ([row, column] == self.place.at).then(|| INK.paper());
            boxed(own, Some(plain(INK.paper(), 0.25)), fill)
        })
        .collect()
    }

    /// Crosses in the strips that neighbours share, at the same places of the figure on both, and the neighbour's edge.
    fn register(&self) -> Vec<PageMark> {
        let mut marks = Vec::new();
        let room = self.figure_room();
        for axis in [0, 1] {
            // Rows run down, columns across: the axis of a joint's place.
            let joints = self.place.of[1 - axis];
            let own = self.place.at[1 - axis];
            for joint in [own, own + 1].into_iter().filter(|joint| (1..joints).contains(joint)) {
                let middle = joint as f64 * (room[axis] - OVERLAP_MM) + OVERLAP_MM / 2.0;
                let other = 1 - axis;
                for share in [0.25, 0.75] {
                    let along = self.window.from_mm[other] + share * self.window.size_mm[other];
                    let at = if axis == 0 { [middle, along] } else { [along, middle] };
                    marks.extend(cross(at));
                }
            }
        }
        marks
    }

    /// The size of a whole tile: that of the first one.
    fn figure_room(&self) -> [f64; 2] {
        [0, 1].map(|axis| match self.place.at[1 - axis] {
            0 => self.window.size_mm[axis],
            number => self.window.from_mm[axis] / number as f64 + OVERLAP_MM,
        })
    }
}

fn cross([x, y]: [f64; 2]) -> Vec<PageMark> {
    let pen = || plain(INK.paper(), 0.18);
    let ring = Path {
        steps: ellipse_steps([x, y], [RING_MM, RING_MM], 0.0),
        stroke: Some(Stroke { ..pen() }),
        fill: None,
    };
    vec![
        ruled(&[[x - CROSS_MM, y], [x + CROSS_MM, y]], pen()),
        ruled(&[[x, y - CROSS_MM], [x, y + CROSS_MM]], pen()),
        PageMark::Path(ring),
    ]
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn tiles_are_named_by_row_and_column() {
        assert_eq!(tile_name([0, 0]), "A1");
        assert_eq!(tile_name([1, 2]), "B3");
        assert_eq!(tile_name([25, 0]), "Z1");
        assert_eq!(tile_name([26, 0]), "AA1");
    }

    /// Two tiles of 100 mm that share 10 cover 190.
    #[test]
    fn what_fits_exactly_takes_no_further_tile() {
        assert_eq!([100.0, 100.1, 190.0, 190.1].map(|length| tiles_over(length, 100.0)), [1, 2, 2, 3]);
    }
}
