//! Sentences on the sheets of the workshop.

use crate::drawing::Paper;

pub(crate) const TO_BUY: &str = "What to buy";
pub(crate) const TO_CUT: &str = "Cut list";
pub(crate) const FULL_SIZE: &str = "Full-size drawings";
pub(crate) const IN_ORDER: &str = "The work in its order";
pub(crate) const NOT_TO_SCALE: &str = "Not drawn at full size";

pub(crate) const UPPER_END: &str = "upper end";
pub(crate) const LOWER_END: &str = "lower end";
pub(crate) const SEAM: &str = "seam: the tube is once round at the other heavy line";
pub(crate) const LAP: &str = "lap";
pub(crate) const HOLE_CIRCLE: &str = "Holes round the topper";
pub(crate) const TWO_DISCS: &str = "Topper: two discs";

pub(crate) const STRIP_CAUTION: &str = "Print at 100 % (actual size); lay a steel rule on both check lines before marking. If the strip does not meet at the \
     seam within a pencil line, the tube is not as thick as this sheet says: measure it. Clamp the tube, glasses on, gloves off. \
     What the pin and the holes carry is not shown here.";

pub(crate) const CIRCLE_CAUTION: &str = "Print at 100 % (actual size); lay a steel rule on both check lines before marking. Step the circle off with the dividers \
     as well before you drill: joined pages are never exact. Round the rims of the holes on both sides.";

pub(crate) const NO_PIN_HOLES: &str =
    "Strips for cross holes: no tube has a pin with its hole entered. Enter it under Tubes.";
pub(crate) const HOLES_DO_NOT_FIT: &str = "Holes round the topper: they would run into one another, or there is no circle. Circles and ring says what works.";
pub(crate) const SEAT: &str = "Seat under the mast";
pub(crate) const STAKES: &str = "Stakes at a leg's tip";
pub(crate) const FRONT: &str = "front leg";
pub(crate) const TOP_FACE: &str = "tip, top of the timber";
pub(crate) const SIDE_FACE: &str = "tip, its side";

pub(crate) const BASE_CAUTION: &str = "Print at 100 % (actual size); lay a steel rule on both check lines before marking. Clamp the timber, glasses on, gloves off at \
     the drill. What bolts and stakes carry is not shown here.";

pub(crate) fn seat_how(bolts: Option<&[String; 2]>) -> String {
    let bolts = bolts.map_or_else(
        || "No bolt has room beside the foot.".to_owned(),
        |[hole, off]| {
            format!("Drill D1 and D2 {hole} straight through; each lies {off} off both middle lines.")
        },
    );
    format!(
        "Lay the heavy square on the crossing, its middle lines on those of the timbers. The circle is the socket's rim, or the peg \
         that stands up into the tube. {bolts}"
    )
}

pub(crate) fn stakes_beside_how(from: &str) -> String {
    format!(
        "Lay the left edge on the timber's tip. The heavy line, {from} from it, goes over the top and down both sides: there the \
         stakes stand upright, touching the timber. No hole is bored."
    )
}

pub(crate) fn stakes_through_how(hole: &str, slant: &str) -> String {
    format!(
        "Fold along the dashed line and lay it over top and side, the left edge on the timber's tip. Bore {hole} in the middle of the \
         mouth, along the slanting line on the side: {slant} from upright."
    )
}

pub(crate) fn at_the_collar(guys: &str, height: &str) -> String {
    format!("collar of {guys}, {height} above the mast's foot")
}

pub(crate) fn collar_not_drawn(guys: &str) -> String {
    format!("Collar of {guys}: it is bought or made by a smith; its measures are on Guy collars.")
}

pub(crate) fn bracket_not_known(leg: &str) -> String {
    format!(
        "Bracket from the {leg} leg to the ring: the ring's pipe or its supports are not entered yet, or no flat bar of the shop's \
         reaches so far. Circles and ring says which."
    )
}

pub(crate) fn bracket_name(leg: &str) -> String {
    format!("Bracket from the {leg} leg to the ring")
}

pub(crate) const BRACKET_CAUTION: &str = "Print at 100 % (actual size); lay a steel rule on both check lines before marking. Clamp the bar, glasses on, gloves off at \
     the drill. Round its corners. What it holds in wind is not shown here.";

pub(crate) fn bracket_how(bar: &str, bolts: &str, clamp: &str, rise: &str, down: bool) -> String {
    let way = if down { "down" } else { "up" };
    format!(
        "Stick it on a flat steel bar {bar} thick. Drill {bolts} at B1 and B2 for the bolts through the timber, {clamp} at C1 and C2 for \
         the clamp over the pipe. The dashed line comes to lie over the timber's tip: bend it there until the pipe lies {rise} {way} from \
         the timber's top."
    )
}

/// Between the two ends of a bar that is drawn broken.
pub(crate) fn bracket_apart(apart: &str) -> String {
    format!("B2 to C1, along the flat bar: {apart}")
}

pub(crate) fn bracket_broken(apart: &str, whole: &str) -> String {
    format!(
        " Both ends are drawn, the bare bar between them is not: mark C1 {apart} from B2 by a tape, both on the middle line. The bar is \
         {whole} long in all."
    )
}

pub(crate) const NO_WINCH_PLATE: &str =
    "Winch plate: how the winch is drilled is not entered yet. Enter it under Winch and lift.";
pub(crate) const WINCH_PLATE: &str = "Plate of the winch";
pub(crate) const PLATE_CAUTION: &str = "Print at 100 % (actual size); lay a steel rule on both check lines before marking. Lay the winch on the holes before you \
     drill. Plate clamped, glasses on, gloves off at the drill. What the winch's and the clamps' bolts carry is not shown here.";

pub(crate) fn plate_how(hole: &str, clamp: &str, spacer: &str, least: Option<&str>) -> String {
    let least = least.map_or_else(
        || "How thick it must be is not known yet.".to_owned(),
        |least| format!("Steel of at least {least}."),
    );
    format!(
        "Stick it on the plate, its upright middle line along the tube. Drill {hole} at the four W for the winch, {clamp} at the four C \
         for two clamps round the tube (dashed). Spacers of {spacer} on every leg of the clamps: the rod slides between. {least}"
    )
}

pub(crate) const STAGES_PICTURE: &str = "How the tubes go up";

/// Under a mast: what was done last.
pub(crate) const TILT_PICTURE: &str = "The mast turning up, from the side";
pub(crate) const HINGE: &str = "hinge";

pub(crate) fn tilt(force: &str, at_deg: f64, grip: &str) -> String {
    format!(
        "The mast lying, at {} to the level, where it is pushed hardest with {force} square to the tube {grip} from the hinge, and plumb.",
        crate::report::format::angle(at_deg)
    )
}

pub(crate) fn tilt_by_line(force: &str, at_deg: f64) -> String {
    format!(
        "The mast lying, half-way and plumb; the line over its prop, hardest at {} to the level with {force}.",
        crate::report::format::angle(at_deg)
    )
}

pub(crate) fn after_stage(done: usize, tube: &str) -> Vec<String> {
    if done == 0 { vec!["run down".into()] } else { vec![format!("{done}: {tube}"), "up, pinned".into()] }
}

pub(crate) fn stands_so(name: &str, top: &str) -> String {
    format!("{}: top {top} above the ground.", crate::report::format::capital(name))
}

/// Beside a pair of pins, above the ground.
pub(crate) fn pins_at([lower, upper]: &[String; 2]) -> Vec<String> {
    vec!["pins at".into(), upper.clone(), lower.clone()]
}

pub(crate) fn strip_name(tube: &str, end: &str) -> String {
    let tube = if tube.is_empty() { "Tube" } else { tube };
    format!("Strip for cross holes, {tube}, {end}")
}

pub(crate) fn strip_how(outside: &str, round: &str, measured: bool) -> String {
    let by = if measured { "as measured" } else { "by its table: measure it" };
    format!(
        "Cut the strip out along its outer lines and wrap it tight round the tube ({outside} outside, {by}; {round} round): one \
         heavy line comes to lie on the other. Bring the dashed line over the mark of the holes, square all round. Punch A1 and A2 \
         for the pin: each goes through one wall. B1 and B2 are for a second pair at right angles, where there is one, on a dashed \
         line of its own."
    )
}

pub(crate) fn strip_round(round: &str) -> String {
    format!("{round} from heavy line to heavy line")
}

pub(crate) fn circle_how(count: u32, divider: &str, radius: &str, bored: bool) -> String {
    let bore = if bored { "" } else { " The bore is not entered yet: crosses alone." };
    format!(
        "Lay the centre cross on the disc's centre and punch the {count} crosses. By dividers: circle of {radius} radius, set to \
         {divider}.{bore}"
    )
}

/// Before how its holes are laid out.
pub(crate) fn two_discs(across: &str, bore: &str) -> String {
    format!(
        "Two alike: saw both round along the outer line ({across} across) and bore both {bore} along the inner one, clamped together. \
         The numbered holes are for the upper disc alone. "
    )
}

pub(crate) fn divider(setting: &str) -> String {
    format!("dividers {setting}")
}

pub(crate) fn ring_by_string(radius: &str) -> String {
    format!(
        "The ring: too large for paper. Lay it out by a string of {radius} from the mast's axis, held level; its pieces are on \
         Circles and ring."
    )
}

pub(crate) fn paper(paper: Paper) -> &'static str {
    match paper {
        Paper::A4 => "A4",
        Paper::A3 => "A3",
        Paper::Letter => "Letter",
        Paper::Tabloid => "Tabloid",
    }
}

/// Pages that it would take of the paper in hand, and the most; the paper that would do, with its pages.
pub(crate) fn too_large(
    name: &str,
    [wide, high]: &[String; 2],
    [pages, most]: [usize; 2],
    works: Option<(Paper, usize)>,
) -> String {
    let works = works.map_or_else(
        || "No paper here is large enough: mark it by its numbers.".to_owned(),
        |(larger, pages)| format!("Nearest that works: {} paper, on {pages} pages.", paper(larger)),
    );
    format!(
        "{name}: {wide} by {high} would take {pages} pages of this paper, {most} at most are drawn. {works}"
    )
}

pub(crate) fn foot_not_measured(leg: &str) -> String {
    format!("Foot of the {leg} leg: the ground under it is not measured yet.")
}
