//! The fonts of paper: Inter 4.001, regular and bold (SIL Open Font License 1.1, `fonts/OFL.txt`).

use krilla::text::{Font, GlyphId, KrillaGlyph};
use mastwright_engine::drawing::marks::Words;
use skrifa::instance::{LocationRef, Size};
use skrifa::metrics::GlyphMetrics;
use skrifa::{FontRef, MetadataProvider};

static REGULAR: &[u8] = include_bytes!("../fonts/Inter_400Regular.ttf");
static BOLD: &[u8] = include_bytes!("../fonts/Inter_700Bold.ttf");

/// One weight of the letters.
pub(crate) struct Letters {
    pub(crate) font: Font,
    tables: FontRef<'static>,
    metrics: GlyphMetrics<'static>,
    per_em: f32,
}

impl Letters {
    fn read(data: &'static [u8]) -> Option<Self> {
        let tables = FontRef::new(data).ok()?;
        let metrics = tables.glyph_metrics(Size::unscaled(), LocationRef::default());
        let font = Font::new(data.into(), 0)?;
        let per_em = font.units_per_em();
        Some(Self { font, tables, metrics, per_em })
    }

    /// Regular and bold.
    pub(crate) fn both() -> Option<[Self; 2]> {
        Some([Self::read(REGULAR)?, Self::read(BOLD)?])
    }

    /// A letter's glyph and its width in letter heights; the box of a missing letter where the font has none.
    pub(crate) fn glyph(&self, letter: char) -> (u32, f32) {
        let id = self.tables.charmap().map(letter).unwrap_or_default();
        (id.to_u32(), self.metrics.advance_width(id).unwrap_or_default() / self.per_em)
    }

    /// The glyphs of words, spaced so that they are as wide as they were laid out.
    pub(crate) fn glyphs(&self, words: &Words) -> Vec<KrillaGlyph> {
        let letters: Vec<(usize, char, u32, f32)> = words
            .words
            .char_indices()
            .map(|(at, letter)| {
                let (id, width) = self.glyph(letter);
                (at, letter, id, width)
            })
            .collect();
        let natural: f32 = letters.iter().map(|(.., width)| width).sum();
        let wanted = (words.width_mm() / words.size_mm) as f32;
        let stretch = if natural > 0.0 { wanted / natural } else { 1.0 };
        letters
            .into_iter()
            .map(|(at, letter, id, width)| {
                let range = at..at + letter.len_utf8();
                KrillaGlyph::new(GlyphId::new(id), width * stretch, 0.0, 0.0, 0.0, range, None)
            })
            .collect()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use mastwright_engine::drawing::letters::{known, letter_em};

    /// The engine's table against the font's own: half a thousandth of a letter height is its rounding.
    #[test]
    fn the_widths_that_pages_are_laid_out_with_are_the_fonts_own() {
        let [regular, bold] = Letters::both().unwrap();
        let mut seen = 0;
        for letter in known() {
            for (letters, is_bold) in [(&regular, false), (&bold, true)] {
                let (id, width) = letters.glyph(letter);
                assert_ne!(id, 0, "{letter} is not in the font");
                let said = letter_em(letter, is_bold);
                assert!((f64::from(width) - said).abs() <= 0.000_501, "{letter}: {width} and {said}");
                seen += 1;
            }
        }
        assert!(seen > 1000, "{seen} letters");
    }
}
