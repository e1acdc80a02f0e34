//! Topper, ring and strands as bought.

use crate::workshop::circle::PipeMissing;

pub(crate) const NO_STRANDS: &str = "There are no strands: this page waits for a cone.";

pub(crate) const TOPPER: &str = "Holes round the topper";
pub(crate) const RING: &str = "Ring on the ground";
pub(crate) const STRANDS: &str = "Strands as they are sold";

pub(crate) const DIVIDERS: &str = "dividers set to, from hole to hole";
pub(crate) const RADIUS: &str = "radius of the holes' circle";
pub(crate) const HOLES: &str = "holes";
pub(crate) const STEP: &str = "turn from hole to hole";
pub(crate) const BORE: &str = "bore";
pub(crate) const ROUND: &str = "once round, up and down with the ground";
pub(crate) const PART_ROUND: &str = "from end to end, up and down with the ground";
pub(crate) const RING_RADIUS: &str = "radius, measured level";
pub(crate) const SPAN: &str = "from support to support";
pub(crate) const COUPLINGS: &str = "couplings";
pub(crate) const LONGEST_WAY: &str = "longest way, top to ring";
pub(crate) const SHORTEST_WAY: &str = "shortest way";
pub(crate) const DARK: &str = "dark on the longest way";
pub(crate) const WIND_UP: &str = "to wind up on the longest way";

pub(crate) const DRILL: &str = "Clamp the disc on waste wood. Glasses on, gloves and loose sleeves off at the drill. A hole's rim \
                     cuts a cable: round it on both sides.";
pub(crate) const BEND_WITH_CARE: &str = "A pipe bent by hand springs back hard: two people, glasses on, ends held until both are tied. Nothing \
                              here shows what the ties hold in wind.";
pub(crate) const NO_CUTTING: &str = "Never cut or lengthen a light strand: its plug, its fuse and its tightness against rain hang on it. \
                          Its maker says how many may be joined.";

pub(crate) const ENTER_HOLE: &str = "Enter the bore: as wide as what goes through it.";
pub(crate) const ENTER_PIPE: &str = "Enter the ring's pipe and its supports.";
pub(crate) const ENTER_STRAND: &str = "Enter the lit length and the leads of a strand.";
pub(crate) const BEND_NOT_KNOWN: &str =
    "How sharply this pipe may be bent is not known: ask its maker, or take straight pieces.";
pub(crate) const BRACKET_CAUTION: &str = "Nothing here shows what a bracket holds in wind. File every corner of the bar round: it lies where feet go. \
                               Bend it cold in a vice, never where a hole is.";
pub(crate) const BEYOND_THE_TIP: &str = "from the leg's tip out to the middle of the pipe";
pub(crate) const ON_THE_LEG: &str = "from the leg's tip back to the middle of the pipe";
pub(crate) const BENT_UP: &str = "up from the timber's top to the ground there";
pub(crate) const BENT_DOWN: &str = "down from the timber's top to the ground there";
pub(crate) const BAR: &str = "flat steel bar";
pub(crate) const BAR_LENGTH: &str = "its length, laid flat";

pub(crate) fn bracket_title(leg: &str) -> String {
    format!("Bracket from the {leg} leg to the ring")
}

pub(crate) fn flat_bar(wide: &str, thick: &str) -> String {
    format!("{wide} × {thick}")
}

pub(crate) fn too_far_for_a_bar(way: &str) -> String {
    format!("{way} are too far for a flat bar of the shop's: give the ring a support of its own there.")
}

pub(crate) fn both([first, second]: &[String; 2]) -> String {
    format!("{first}, {second}")
}

pub(crate) fn bracket_bolts(drill: &str) -> String {
    format!("from the bar's inner end: its two bolts through the timber, drill {drill}")
}

pub(crate) fn bracket_clamp(drill: &str) -> String {
    format!("from there too: the legs of the clamp over the pipe, drill {drill}")
}

pub(crate) fn bracket_pull(pull: &str, moment: &str, bolt: &str) -> String {
    format!(
        "In still air the strands draw its end up with {pull} and bend it by {moment}; its outer bolt holds {bolt}."
    )
}

pub(crate) const JOINTS_ON_SUPPORTS: &str = "Every joint lies on a support.";
pub(crate) const ALL_LIT: &str = "Every strand is lit from top to ring.";

pub(crate) fn degrees(degrees: f64) -> String {
    let text = format!("{degrees:.2}");
    format!("{}°", text.trim_end_matches('0').trim_end_matches('.'))
}

pub(crate) fn hole(number: usize) -> String {
    format!("hole {number}, from the first")
}

pub(crate) fn step_off(steps: u32, closed: bool) -> String {
    let end = if closed {
        "the last step meets the first hole: if it does not, spread what is over on all and try again"
    } else {
        "the last one ends the part of the circle"
    };
    format!("Scribe the circle, mark the first hole, step off {steps} times before you drill any: {end}.")
}

pub(crate) fn rest_adds_up(by: &str, short: bool) -> String {
    let way = if short { "short of" } else { "past" };
    format!(
        "Set without the rest, the last step comes to lie {by} {way} where it should: spread that on all steps."
    )
}

pub(crate) fn holes_too_close(left: &str, least: &str, radius: &str, hole: &str) -> String {
    format!(
        "Between two holes {left} stays, {least} at least is wanted. Nearest that works: a circle of {radius} radius, or \
         a bore of {hole}."
    )
}

pub(crate) fn ring_piece(number: usize) -> String {
    format!("piece {number}")
}

pub(crate) fn span_too_long(span: &str, supports: u32) -> String {
    format!(
        "From support to support it is {span}, longer than a pipe: a joint would hang free. Nearest that works: {supports} \
         supports."
    )
}

pub(crate) fn ties(pull: &str) -> String {
    format!(
        "In still air the strands pull up each support with {pull}; wind pulls more, which is not shown here."
    )
}

pub(crate) const SUPPORT_BORE: &str = "bored through the supports";
pub(crate) const GIVES_NOT_KNOWN: &str =
    "How a pipe of such stuff gives between supports is not known: try a piece of it between two chairs.";

pub(crate) fn enter(missing: PipeMissing) -> &'static str {
    match missing {
        PipeMissing::Outside => "Enter the pipe's outside: bend and bore are not known yet.",
        PipeMissing::PipeLength => {
            "Enter the length in which the pipe is sold: its pieces are not known yet."
        }
        PipeMissing::Supports => {
            "Enter how many supports stand round the ring: pieces, spans and ties are not known yet."
        }
        PipeMissing::Wall => "Enter the pipe's wall: how it gives between supports is not known yet.",
    }
}

pub(crate) fn gives(sag: &str, apart: &str) -> String {
    format!("Between two supports it gives by {sag} in still air; supports may be {apart} apart.")
}

pub(crate) fn springs(force: &str, moment: &str) -> String {
    format!(
        "Bent to the ring it springs back with {moment}: hold the end of a piece with {force} until it is tied."
    )
}

pub(crate) fn gives_too_much(sag: &str, most: &str, supports: u32) -> String {
    format!(
        "Between two supports it gives by {sag}, {most} at most are wanted. Nearest that works: {supports} supports, or a \
         stouter pipe."
    )
}

pub(crate) fn bends(radius: &str, least: &str, source: &str) -> String {
    format!("Bends cold to {radius}: {least} is the least ({source}).")
}

pub(crate) fn too_sharp(radius: &str, least: &str, source: &str) -> String {
    format!("A ring of {radius} radius is too sharp for this pipe: {least} is the least ({source}).")
}

pub(crate) fn straight(pieces: u32, piece: &str, turn: &str) -> String {
    format!(
        "Nearest that works: {pieces} straight pieces of {piece}, each corner turned by {turn}; or a thinner pipe."
    )
}

pub(crate) fn does_not_reach(count: u32) -> String {
    let which = if count == 1 { "One strand does".to_owned() } else { format!("{count} strands do") };
    format!("{which} not reach from top to ring, leads and all.")
}

pub(crate) fn dark(count: u32) -> String {
    let which = if count == 1 { "One strand hangs".to_owned() } else { format!("{count} strands hang") };
    format!("{which} by a lead for a part of the way: it is dark there.")
}

pub(crate) fn fits_by_height(height: Option<&str>) -> String {
    height.map_or_else(
        || "No height makes the longest way as long as a strand is lit.".to_owned(),
        |height| {
            format!("By height: with the top at {height} above the mast's foot the longest way is just lit.")
        },
    )
}

pub(crate) fn fits_by_radius(radius: Option<&str>) -> String {
    radius.map_or_else(
        || "No ring makes the longest way as long as a strand is lit.".to_owned(),
        |radius| format!("By the ring: at {radius} radius the longest way is just lit."),
    )
}

pub(crate) fn fits_by_lean(lean: &str, all_lit: Option<&str>, most: Option<&str>) -> String {
    let all_lit = all_lit.map_or_else(
        || "however level it lies, lamps do not reach all round".to_owned(),
        |deg| format!("up to {deg} lamps reach all round"),
    );
    let most = most.map_or_else(
        || "and strands do not reach at all".to_owned(),
        |deg| format!("up to {deg} every strand reaches"),
    );
    format!("By the ring's lean, {lean} on this ground taken as even: {all_lit}, {most}.")
}

pub(crate) fn strand(number: usize, way: &str, dark: bool, short: bool) -> String {
    let what = match (dark, short) {
        (_, true) => "dark, and it does not reach",
        (true, false) => "dark",
        (false, false) => "to wind up",
    };
    format!("{what}: strand {number}, {way} long")
}
