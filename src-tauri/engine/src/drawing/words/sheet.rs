//! Sentences on paper.

use std::collections::BTreeSet;

use crate::plan::{LegResult, Support};
use crate::quantity::Units;
use crate::report::format;

pub(crate) const CAUTIONS: [&str; 5] = [
    "Power lines: keep the mast, its guys and all people out of the band shown, also while raising, also if it \
     falls. Never touch a line to measure it.",
    "Before digging or driving: have buried services marked by the one-call service or the utilities.",
    "Not for climbing, no ladder against it. Lower it before wind, ice or lightning.",
    "What anchors and stakes hold in this soil is not proven by this sheet.",
    "Local rules come first.",
];

/// Under a part of a table.
pub(crate) const MORE: &str = "More on the next page.";

pub(crate) const HEIGHTS_FROM: &str = "Mastwright. Heights from the origin mark.";

/// What the columns of the table of pegs mean.
pub(crate) const COLUMNS_OF_PEGS: &str = "Tape along the ground from the mast; read: bearing as read in this yard; height against the ground at \
                    the mast; ties: tapes from two marks, and the angle they cross at (! where that is a poor one).";

/// What the columns of the way from peg to peg mean.
pub(crate) const COLUMNS_OF_STEPS: &str = "In the order of pegging out, each tied from marks and pegs that stand by then. Both tapes taut along the \
                    ground; side: walking from the first to the second; may be off: in every direction, all else as \
                    planned; bearing: from the mast (the mast: from the nearest mark), as read in this yard.";

/// What the columns of the tapes to read afterwards mean.
pub(crate) const COLUMNS_OF_CHECKS: &str = "Read each once the pegs are in, before you look at what it should read. One that is off by more than it is \
                    within speaks against a peg or a tape: enter them all under Peg out, which says what is wrong.";

/// What the columns of what each guy does mean.
pub(crate) const COLUMNS_OF_ROPES: &str = "From the anchor's eye straight to the collar, and what is done with the rope, as the mast goes up from where it lies to \
                    plumb. Fast: made fast as long as it is at plumb. Tended: a helper gives and takes. Untied: coiled and tied to \
                    the mast.";

/// Before work under the legs.
pub(crate) const FEET: &str = "Take care. Nobody stands under a timber that is held up by hand or by loose blocks. Before you saw, \
                       lay the frame level where it will stand and measure each gap again: the ground under it counts, not \
                       this sheet. A foot must stand on firm ground, all of its lower end.";

/// On the template of a foot.
pub(crate) const BEFORE_SAWING: &str = "Print at 100 % (actual size). Paper shrinks and swells with damp: lay a steel rule on both check lines \
                       before marking; if one is not as long as it says, go by the written heights alone. Measure the gap \
                       again under the level timber before you saw.";

/// On the template of the joint.
pub(crate) const BEFORE_THE_LAP: &str = "Print at 100 % (actual size); lay a steel rule on both check lines before marking. Measure both timbers: \
                       the cut is as wide as the other timber is at the joint, whatever this sheet says. Saw inside the \
                       lines and pare to fit: what is left over the cut bears the mast.";

/// So many letters are named one by one.
const MOST_LETTERS: usize = 12;

/// Letters that paper has not, by their numbers: they can't be shown. None where it has them all.
pub(crate) fn not_shown(unknown: &BTreeSet<char>) -> Option<String> {
    let named: Vec<String> =
        unknown.iter().take(MOST_LETTERS).map(|&letter| format!("U+{:04X}", u32::from(letter))).collect();
    let more = if unknown.len() > named.len() { " and others" } else { "" };
    (!named.is_empty()).then(|| {
        format!(
            "Letters of a name that the PDF has not stand in it as an empty box: {}{more}. Printed from a browser they \
             may be there.",
            named.join(", ")
        )
    })
}

/// Of a leg under which nothing goes.
pub(crate) fn rests(leg: &str) -> String {
    format!("{leg} leg: rests on the ground, nothing goes under it.")
}

/// What to make and where it goes.
pub(crate) fn foot(leg: &LegResult, units: Units) -> Vec<String> {
    let length = |value| format::length(value, units);
    let mut words = vec![
        format!("Inner face {}, outer face {}.", length(leg.gap_inner_m), length(leg.gap_outer_m)),
        format!(
            "Left side {}, right side {}, seen from the mast.",
            length(leg.gap_left_m),
            length(leg.gap_right_m)
        ),
    ];
    if leg.support == Support::Foot {
        words.push(format!(
            "Saw bevel {} along the leg, {} across it: its template is one of the next pages.",
            format::angle(leg.bevel_along_deg.abs()),
            format::angle(leg.bevel_across_deg.abs())
        ));
        words.push("Its outer face is flush with the timber's end.".into());
    } else {
        words.push(
            "Pack it tight at the timber's end, thin ones on thick ones, so that nothing rocks.".into(),
        );
    }
    words.push("The timber is level all along.".into());
    words
}

/// How to lay a strip on a foot whose upper edge is so far under the block's upper end.
pub(crate) fn strip_for_foot(from_mm: f64, units: Units) -> String {
    let upper_edge = if from_mm > 0.0 {
        let from = format::length(from_mm / 1000.0, units);
        format!(
            "Square a line round the block {from} under its upper end (the end under the timber); the strip's upper edge lies on it"
        )
    } else {
        "Its upper edge lies on the block's upper end (the end under the timber)".to_owned()
    };
    format!(
        "Cut the strip out along its outer lines and wrap it round the block, printed side out, fold lines on the block's \
         edges, outer face away from the mast. {upper_edge}. Saw along the heavy line, all round."
    )
}

/// Where the ground departs from the cut.
pub(crate) fn not_flat(off: &str) -> String {
    format!(
        " The ground is not flat under this foot: it departs up to {off} from the cut. Pack it, or cut to the ground."
    )
}

/// Of two cuts that do not make up the timber's depth: the cut's depth, the timber's, and by how much they differ.
pub(crate) fn not_flush([cut, timber, apart]: [String; 3]) -> String {
    format!(
        " Two cuts of {cut} are not the timber's depth of {timber}: the timbers do not lie flush, by {apart}."
    )
}

/// The first timber is cut already, and not as planned.
pub(crate) fn other_cut(made: &str, depth: &str) -> String {
    format!(
        " The first timber came out {made} deep: this strip is for the other one, {depth} deep, so that the two lie flush."
    )
}

/// How to lay the joint's strip on; where the shoulders lie from the tips of the cross timber and of the front one, and from
/// the back tip where there is one.
pub(crate) fn lap([cross, front]: &[String; 2], back: Option<&str>) -> String {
    let back = back
        .map_or_else(|| "which is cut to its end".to_owned(), |back| format!("and {back} from its back tip"));
    format!(
        "Lay the strip over three sides, its folds on the timber's edges: on one timber from above, on the other from \
         below. The cross timber's shoulders lie {cross} from its tips; the front one's {front} from its front tip, {back}. Saw \
         the shoulders down to the depth line and take out what is shaded."
    )
}

/// Of the pegs' table: no peg, but a place on a thing of the yard, so high above the ground.
pub(crate) fn fixing_up(name: &str, height: &str) -> String {
    format!("{name}, {height} up")
}
