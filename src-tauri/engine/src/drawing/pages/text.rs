//! Words on paper: a line, words broken into lines, words cut to a width.

use crate::drawing::letters::{letter_em, width_em};
use crate::drawing::marks::PageMark;
use crate::drawing::scene::Align;
use crate::drawing::scene_marks::words;

/// Letter heights; ISO 3098-1 has 1.8 and 2.5 mm in its series (from memory). 2.2 mm is 6 point and more: at arm's length.
pub(crate) const SMALL_MM: f64 = 2.2;
/// From line to line, in letter heights.
pub(crate) const LINE_EM: f64 = 1.34;

/// One line of words from a point to the right.
pub(crate) fn line(at_mm: [f64; 2], size_mm: f64, bold: bool, text: &str) -> PageMark {
    words(at_mm, size_mm, bold, Align::Start, text)
}

/// Words cut to a width, with an ellipsis where some are missing.
pub(crate) fn shortened(text: &str, size_mm: f64, bold: bool, width_mm: f64) -> String {
    if width_em(text, bold) * size_mm <= width_mm {
        return text.to_owned();
    }
    let room = width_mm - letter_em('…', bold) * size_mm;
    let mut kept = text.to_owned();
    while kept.pop().is_some() {
        if width_em(kept.trim_end(), bold) * size_mm <= room {
            break;
        }
    }
    format!("{}…", kept.trim_end())
}

/// Words broken into lines of a width; a word that is longer is broken between its letters.
pub(crate) fn wrapped(text: &str, size_mm: f64, bold: bool, width_mm: f64) -> Vec<String> {
    let wide = |words: &str| width_em(words, bold) * size_mm > width_mm;
    let mut lines: Vec<String> = Vec::new();
    let mut current = String::new();
    for word in text.split_whitespace() {
        let longer = if current.is_empty() { word.to_owned() } else { format!("{current} {word}") };
        if !wide(&longer) {
            current = longer;
            continue;
        }
        if !current.is_empty() {
            lines.push(std::mem::take(&mut current));
        }
        for letter in word.chars() {
            current.push(letter);
            if wide(&current) && current.chars().count() > 1 {
                current.pop();
                lines.push(std::mem::replace(&mut current, letter.to_string()));
            }
        }
    }
    if !current.is_empty() {
        lines.push(current);
    }
    lines
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn wrapping_keeps_every_word() {
        let words = "Power lines: keep the mast, its guys and all people out of the band shown.";
        let lines = wrapped(words, 2.2, false, 40.0);
        assert!(lines.len() > 1);
        assert_eq!(lines.join(" "), words);
    }

    #[test]
    fn a_word_without_a_break_is_broken_and_nothing_is_lost() {
        let lines = wrapped("abcdefghijklmnopqrstuvwxyz", 3.0, false, 12.0);
        assert!(lines.iter().all(|line| width_em(line, false) * 3.0 <= 12.0));
        assert_eq!(lines.concat(), "abcdefghijklmnopqrstuvwxyz");
    }

    #[test]
    fn long_words_are_cut_with_an_ellipsis() {
        assert_eq!(shortened("short", 2.0, false, 50.0), "short");
        let cut = shortened("a very long name of a point indeed", 2.0, true, 20.0);
        assert!(cut.ends_with('…') && width_em(&cut, true) * 2.0 <= 20.0, "{cut}");
    }
}
