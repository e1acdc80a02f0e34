//! Topper, ring and strands as bought.

use crate::job::TopperHeld;
use crate::workshop::circle::PipeMissing;
use crate::workshop::circle::topper::TopperMissing;

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

pub(crate) const DISCS: &str = "Topper of two discs";
pub(crate) const DISC_ACROSS: &str = "both discs across, at least";
pub(crate) const DISC_BORE: &str = "bore of both for the top tube, as measured, and the play";
pub(crate) const DISC_BORE_BY_LIST: &str = "bore of both for the top tube, by its list: measure it first";
pub(crate) const DISCS_APART: &str = "from disc to disc: the spacer";
pub(crate) const TOPPER_BOLT_HOLE: &str = "drill through the top tube for the bolt";
pub(crate) const TOPPER_BOLT_AT: &str = "from the top tube's upper end to the middle of the bolt";
pub(crate) const DISCS_HOW: &str = "The upper disc carries the strands, the lower one keeps it from rocking, the spacer round the tube stands \
                         between them: common practice. What discs and spacer carry in wind is not shown. Weigh it when it is made and \
                         enter that under the topper: lift and wind go on from there.";
pub(crate) const SAW_ROUND: &str = "Clamp both discs together to bore and to saw them. Glasses on, gloves and loose sleeves off. Round every edge that a \
                         cable or a hand meets. The bolt's holes weaken the tube there, which the gust limit does not know.";
pub(crate) const ENTER_DISCS: &str =
    "Enter the discs' thickness, how far apart they are and what holds them.";

pub(crate) fn topper_hold(held: TopperHeld) -> &'static str {
    match held {
        TopperHeld::Unsaid => "What keeps it up is not known yet.",
        TopperHeld::Bolt => {
            "A bolt straight through the tube, a washer over it, under the lower disc. Secure it from above as well: a strand that \
             springs lifts it. What the bolt carries is not shown."
        }
        TopperHeld::Sleeve => {
            "A sleeve squeezed onto the tube under the lower disc: what its grip holds nobody shows. A bolt through the tube is the surer \
             way."
        }
    }
}

pub(crate) fn topper_rocks(play: &str, lean: &str, rim: &str) -> String {
    format!(
        "With up to {play} of play it leans on the tube by up to {lean}: its rim goes up and down by {rim}."
    )
}

pub(crate) fn topper_push(push: &str) -> String {
    format!(
        "In still air strands and topper press down with {push}; wind pulls more, which is not shown here."
    )
}

/// Where its place is inside the tube below at first.
pub(crate) fn topper_after(by: &str) -> String {
    format!(
        "Run down, the topper's place is inside the tube below: put it on once the top tube has been cranked up by {by}, and take it off \
         before it is run down farther."
    )
}

pub(crate) fn enter_topper(missing: TopperMissing) -> &'static str {
    match missing {
        TopperMissing::Thickness => "Enter how thick the discs are.",
        TopperMissing::Apart => "Enter how far apart the discs are.",
        TopperMissing::Held => "Say what keeps the topper up.",
        TopperMissing::Bolt => "Enter how thick its bolt is.",
        TopperMissing::TubeOutside => {
            "Put a calliper to the top tube: between what its outside lies is not known yet."
        }
    }
}

pub(crate) fn disc_too_small(disc: &str, least: &str) -> String {
    format!("Discs of {disc} leave too little outside their holes. Nearest that works: {least}.")
}

pub(crate) fn bore_meets_holes(left: &str, least: &str, radius: &str) -> String {
    format!(
        "Between bore and holes {left} stays, {least} at least is wanted. Nearest that works: a circle of {radius} radius."
    )
}

pub(crate) fn beyond_the_tube(over: &str, most: &str) -> String {
    format!(
        "The topper lacks {over} of tube at its upper end. Nearest that works: the strands' top at most {most} above the mast's foot."
    )
}

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
