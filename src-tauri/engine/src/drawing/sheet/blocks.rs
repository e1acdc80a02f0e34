//! Words on the sheet: headings, lines, wrapped paragraphs; the feet and the cautions.

use crate::drawing::labels::text_width_em;
use crate::drawing::scene::{Align, Role};
use crate::drawing::svg::{Text, text};
use crate::job::Job;
use crate::plan::{Computed, LegResult, Support};
use crate::report::{say, verdict};

use super::Block;

pub(super) const SMALL: f64 = 2.2;
pub(super) const LINE: f64 = 3.3;

const CAUTIONS: [&str; 5] = [
    "Power lines: keep the mast, its guys and all people out of the band shown, also while raising, also if it \
     falls. Never touch a line to measure it.",
    "Before digging or driving: have buried services marked by the one-call service or the utilities.",
    "Not for climbing, no ladder against it. Lower it before wind, ice or lightning.",
    "What anchors and stakes hold in this soil is not proven by this sheet.",
    "Local rules come first.",
];

/// Writes one line of text; `bold` for headings.
pub(super) fn line(out: &mut String, at_mm: [f64; 2], size_mm: f64, bold: bool, words: &str) {
    aligned(out, at_mm, size_mm, bold, Align::Start, words);
}

pub(super) fn aligned(
    out: &mut String,
    at_mm: [f64; 2],
    size_mm: f64,
    bold: bool,
    align: Align,
    words: &str,
) {
    text(out, &Text { at_mm, size_mm, align, turn_deg: 0.0, role: Role::Label, bold, rim: false }, words);
}

/// Words cut to a width, with an ellipsis where some are missing.
pub(super) fn cut(words: &str, size_mm: f64, width_mm: f64) -> String {
    if text_width_em(words) * size_mm <= width_mm {
        return words.to_string();
    }
    let mut kept: String = words.to_string();
    while kept.pop().is_some() {
        if text_width_em(&kept) * size_mm + size_mm <= width_mm {
            break;
        }
    }
    format!("{}…", kept.trim_end())
}

/// Words broken into lines of a width.
pub(super) fn wrapped(words: &str, size_mm: f64, width_mm: f64) -> Vec<String> {
    let mut lines: Vec<String> = Vec::new();
    let mut current = String::new();
    for word in words.split_whitespace() {
        let longer = if current.is_empty() { word.to_string() } else { format!("{current} {word}") };
        if text_width_em(&longer) * size_mm > width_mm && !current.is_empty() {
            lines.push(std::mem::replace(&mut current, word.to_string()));
        } else {
            current = longer;
        }
    }
    if !current.is_empty() {
        lines.push(current);
    }
    lines
}

/// What is wrong, what goes under each leg, and the cautions.
pub(super) fn notes(out: &mut String, job: &Job, computed: &Computed, block: Block) {
    let mut y = block.y + 1.5;
    let mut put = |bold: bool, words: &str, out: &mut String| {
        for part in wrapped(words, SMALL * if bold { 1.07 } else { 1.0 }, block.w - 1.0) {
            line(out, [block.x, y], SMALL, bold, &part);
            y += LINE - 0.35;
        }
        y += 0.35;
    };
    put(true, &verdict::long(computed.plan.verdict.as_ref()), out);
    put(true, "Under the legs", out);
    for leg in &computed.plan.base.legs {
        let known = computed.plan.knows_under(&leg.id);
        let words =
            if known { leg_words(job, leg) } else { format!("{}: {}", leg.id, crate::report::NOT_MEASURED) };
        put(false, &words, out);
    }
    if let Some(side_mm) = job.rig.base.joint_pad_mm {
        let side = say::length_small(side_mm, job.units);
        put(false, &format!("joint: a board {side} square, packed tight: without it the timbers bend"), out);
    }
    put(true, "Take care", out);
    for caution in CAUTIONS {
        put(false, caution, out);
    }
}

fn leg_words(job: &Job, leg: &LegResult) -> String {
    let length = |value| say::length(value, job.units);
    let what = match leg.support {
        Support::OnGround => return format!("{}: rests on the ground", leg.id),
        Support::Shim => "shim",
        Support::Foot => "foot",
    };
    let interval = say::length_interval(leg.gap_centre_m.half_width_95, job.units);
    format!(
        "{}: {what} {} {interval} at its centre; inner {}, outer {}, left {}, right {}; bevels {} along, {} across",
        leg.id,
        length(leg.gap_centre_m.value),
        length(leg.gap_inner_m),
        length(leg.gap_outer_m),
        length(leg.gap_left_m),
        length(leg.gap_right_m),
        say::angle(leg.bevel_along_deg),
        say::angle(leg.bevel_across_deg)
    )
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn wrapping_keeps_every_word() {
        let words = CAUTIONS[0];
        let lines = wrapped(words, 2.2, 40.0);
        assert!(lines.len() > 3);
        assert_eq!(lines.join(" "), words.split_whitespace().collect::<Vec<_>>().join(" "));
    }

    #[test]
    fn long_words_are_cut_with_an_ellipsis() {
        assert_eq!(cut("short", 2.0, 50.0), "short");
        assert!(cut("a very long name of a point indeed", 2.0, 20.0).ends_with('…'));
    }
}
