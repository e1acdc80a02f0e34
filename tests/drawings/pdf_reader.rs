//! What a PDF shows, read by `lopdf` and a small interpreter of content streams (ISO 32000-1, 8 and 9): it knows nothing
//! of the writer. Lengths in millimetres from the page's upper left corner.

use std::collections::BTreeMap;

use lopdf::content::Content;
use lopdf::{Dictionary, Document, Object, ObjectId};

const MM_PER_PT: f64 = 25.4 / 72.0;

/// One page.
pub struct PageShown {
    pub size_mm: [f64; 2],
    pub strokes: Vec<Stroked>,
    pub words: Vec<Shown>,
}

/// A line as its points, the handles of curves among them.
#[derive(Debug, Clone)]
pub struct Stroked {
    pub points: Vec<[f64; 2]>,
    pub white: bool,
}

/// One run of words.
#[derive(Debug, Clone)]
pub struct Shown {
    pub words: String,
    /// Where its baseline begins, and how long it is.
    pub from: [f64; 2],
    pub length_mm: f64,
}

type Matrix = [f64; 6];

fn times(a: Matrix, b: Matrix) -> Matrix {
    [
        a[0] * b[0] + a[1] * b[2],
        a[0] * b[1] + a[1] * b[3],
        a[2] * b[0] + a[3] * b[2],
        a[2] * b[1] + a[3] * b[3],
        a[4] * b[0] + a[5] * b[2] + b[4],
        a[4] * b[1] + a[5] * b[3] + b[5],
    ]
}

fn apply(m: Matrix, [x, y]: [f64; 2]) -> [f64; 2] {
    [m[0] * x + m[2] * y + m[4], m[1] * x + m[3] * y + m[5]]
}

#[derive(Clone)]
struct State {
    ctm: Matrix,
    white: bool,
}

/// A composite font: the text and the width (of 1000) of each of its glyphs.
struct Font {
    text: BTreeMap<u16, String>,
    widths: BTreeMap<u16, f64>,
}

pub fn read(bytes: &[u8]) -> Document {
    Document::load_mem(bytes).expect("a PDF that another reader reads")
}

pub fn pages(pdf: &Document) -> Vec<PageShown> {
    pdf.get_pages().into_values().map(|id| page(pdf, id)).collect()
}

fn numbers(operands: &[Object]) -> Vec<f64> {
    operands.iter().filter_map(|operand| operand.as_float().ok()).map(f64::from).collect()
}

fn page(pdf: &Document, id: ObjectId) -> PageShown {
    let own = pdf.get_dictionary(id).unwrap();
    let media = numbers(own.get(b"MediaBox").unwrap().as_array().unwrap());
    let height = media[3] - media[1];
    let content = Content::decode(&pdf.get_page_content(id)).unwrap();
    let mut reader = Reader {
        height,
        fonts: fonts(pdf, own),
        state: State { ctm: [1.0, 0.0, 0.0, 1.0, 0.0, 0.0], white: false },
        kept: Vec::new(),
        path: Vec::new(),
        text: [1.0, 0.0, 0.0, 1.0, 0.0, 0.0],
        font: (String::new(), 0.0),
        strokes: Vec::new(),
        words: Vec::new(),
    };
    for operation in content.operations {
        reader.run(&operation.operator, &operation.operands);
    }
    PageShown {
        size_mm: [(media[2] - media[0]) * MM_PER_PT, height * MM_PER_PT],
        strokes: reader.strokes,
        words: reader.words,
    }
}

struct Reader {
    height: f64,
    fonts: BTreeMap<String, Font>,
    state: State,
    kept: Vec<State>,
    path: Vec<[f64; 2]>,
    text: Matrix,
    font: (String, f64),
    strokes: Vec<Stroked>,
    words: Vec<Shown>,
}

impl Reader {
    fn on_page(&self, m: Matrix, at: [f64; 2]) -> [f64; 2] {
        let [x, y] = apply(m, at);
        [x * MM_PER_PT, (self.height - y) * MM_PER_PT]
    }

    fn run(&mut self, operator: &str, operands: &[Object]) {
        let given = numbers(operands);
        match operator {
            "q" => self.kept.push(self.state.clone()),
            "Q" => self.state = self.kept.pop().expect("a state for each Q"),
            "cm" => self.state.ctm = times(given.try_into().unwrap(), self.state.ctm),
            "m" | "l" | "c" => {
                let points: Vec<[f64; 2]> =
                    given.chunks(2).map(|pair| self.on_page(self.state.ctm, [pair[0], pair[1]])).collect();
                self.path.extend(points);
            }
            "re" => {
                let [x, y, w, h] = given.try_into().unwrap();
                for at in [[x, y], [x + w, y], [x + w, y + h], [x, y + h]] {
                    self.path.push(self.on_page(self.state.ctm, at));
                }
            }
            "SCN" | "RG" | "G" | "SC" => self.state.white = given.iter().all(|part| *part > 0.999),
            "S" | "s" | "B" | "b" | "B*" | "b*" => {
                let points = std::mem::take(&mut self.path);
                self.strokes.push(Stroked { points, white: self.state.white });
            }
            "f" | "F" | "f*" | "n" => self.path.clear(),
            "BT" => self.text = [1.0, 0.0, 0.0, 1.0, 0.0, 0.0],
            "Tf" => {
                let name = String::from_utf8_lossy(operands[0].as_name().unwrap()).into_owned();
                self.font = (name, given[0]);
            }
            "Tm" => self.text = given.try_into().unwrap(),
            "Tj" | "TJ" => self.show(operands),
            "Td" | "TD" | "T*" | "'" | "\"" | "Do" => panic!("{operator} is not read here"),
            _ => {}
        }
    }

    fn show(&mut self, operands: &[Object]) {
        let pieces = match &operands[0] {
            Object::Array(pieces) => pieces.clone(),
            one => vec![one.clone()],
        };
        let (name, size) = &self.font;
        let font = &self.fonts[name];
        let (mut words, mut thousandths) = (String::new(), 0.0);
        for piece in &pieces {
            match piece {
                Object::String(bytes, _) => {
                    for pair in bytes.chunks(2) {
                        let glyph = u16::from_be_bytes([pair[0], pair[1]]);
                        words += &font.text[&glyph];
                        thousandths += font.widths.get(&glyph).copied().unwrap_or(1000.0);
                    }
                }
                number => thousandths -= f64::from(number.as_float().unwrap()),
            }
        }
        let length = thousandths / 1000.0 * size;
        let m = times(self.text, self.state.ctm);
        let from = self.on_page(m, [0.0, 0.0]);
        let to = self.on_page(m, [length, 0.0]);
        let length_mm = (to[0] - from[0]).hypot(to[1] - from[1]);
        self.text = times([1.0, 0.0, 0.0, 1.0, length, 0.0], self.text);
        // A run that goes on where the last one ended is the same words: a glyph may change how they are written down.
        self.words.push(Shown { words, from, length_mm });
    }
}

fn dictionary<'a>(pdf: &'a Document, object: &'a Object) -> &'a Dictionary {
    match object {
        Object::Reference(id) => pdf.get_dictionary(*id).unwrap(),
        other => other.as_dict().unwrap(),
    }
}

fn resolved<'a>(pdf: &'a Document, object: &'a Object) -> &'a Object {
    match object {
        Object::Reference(id) => pdf.get_object(*id).unwrap(),
        other => other,
    }
}

fn fonts(pdf: &Document, page: &Dictionary) -> BTreeMap<String, Font> {
    let resources = dictionary(pdf, page.get(b"Resources").unwrap());
    let Ok(fonts) = resources.get(b"Font") else { return BTreeMap::new() };
    let fonts = dictionary(pdf, fonts).iter();
    fonts
        .map(|(name, font)| {
            let font = dictionary(pdf, font);
            let Object::Stream(map) = resolved(pdf, font.get(b"ToUnicode").unwrap()) else { panic!("a map") };
            let map = String::from_utf8_lossy(&map.decompressed_content().unwrap_or(map.content.clone()))
                .into_owned();
            let below = &resolved(pdf, font.get(b"DescendantFonts").unwrap()).as_array().unwrap()[0];
            let widths = widths(resolved(pdf, dictionary(pdf, below).get(b"W").unwrap()).as_array().unwrap());
            (String::from_utf8_lossy(name).into_owned(), Font { text: to_unicode(&map), widths })
        })
        .collect()
}

/// ISO 32000-1, 9.7.4.3: `c [w1 w2 …]` and `first last w`.
fn widths(array: &[Object]) -> BTreeMap<u16, f64> {
    let mut widths = BTreeMap::new();
    let mut rest = array;
    while let [first, second, more @ ..] = rest {
        let from = first.as_i64().unwrap() as u16;
        if let Object::Array(own) = second {
            for (glyph, width) in (from..).zip(own) {
                widths.insert(glyph, f64::from(width.as_float().unwrap()));
            }
            rest = more;
        } else {
            let width = f64::from(more[0].as_float().unwrap());
            for glyph in from..=second.as_i64().unwrap() as u16 {
                widths.insert(glyph, width);
            }
            rest = &more[1..];
        }
    }
    widths
}

/// `<glyph> <utf-16>` between `beginbfchar` and `endbfchar`, and ranges of them.
fn to_unicode(map: &str) -> BTreeMap<u16, String> {
    let mut text = BTreeMap::new();
    let words = |hex: &str| {
        let units: Vec<u16> =
            (0..hex.len() / 4).map(|i| u16::from_str_radix(&hex[4 * i..4 * i + 4], 16).unwrap()).collect();
        String::from_utf16_lossy(&units)
    };
    for part in map.split("beginbfchar").skip(1) {
        let part = part.split("endbfchar").next().unwrap();
        let hexes: Vec<&str> = part.split(['<', '>']).skip(1).step_by(2).collect();
        for pair in hexes.chunks(2).filter(|pair| pair.len() == 2) {
            text.insert(u16::from_str_radix(pair[0], 16).unwrap(), words(pair[1]));
        }
    }
    for part in map.split("beginbfrange").skip(1) {
        let part = part.split("endbfrange").next().unwrap();
        let hexes: Vec<&str> = part.split(['<', '>']).skip(1).step_by(2).collect();
        for three in hexes.chunks(3).filter(|three| three.len() == 3) {
            let [from, to, first] =
                [three[0], three[1], three[2]].map(|hex| u16::from_str_radix(hex, 16).unwrap_or_default());
            for glyph in from..=to {
                text.insert(glyph, String::from_utf16_lossy(&[first + (glyph - from)]));
            }
        }
    }
    text
}
