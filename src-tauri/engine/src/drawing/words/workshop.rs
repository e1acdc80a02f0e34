//! Sentences on the sheets of the workshop.

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

pub(crate) const STRIP_CAUTION: &str = "Print at 100 % (actual size); lay a steel rule on both check lines before marking. If the strip does not meet at the \
     seam within a pencil line, the tube is not as thick as this sheet says: measure it. Clamp the tube, glasses on, gloves off. \
     What the pin and the holes carry is not shown here.";

pub(crate) const CIRCLE_CAUTION: &str = "Print at 100 % (actual size); lay a steel rule on both check lines before marking. Step the circle off with the dividers \
     as well before you drill: joined pages are never exact. Round the rims of the holes on both sides.";

pub(crate) const NO_PIN_HOLES: &str =
    "Strips for cross holes: no tube has a pin with its hole entered. Enter it under Tubes.";
pub(crate) const HOLES_DO_NOT_FIT: &str = "Holes round the topper: they would run into one another, or there is no circle. Circles and ring says what works.";
pub(crate) const NO_WINCH_PLATE: &str =
    "Winch plate: not drawn yet. Drill it from the winch's own holes, laid on the plate.";

pub(crate) const STAGES_PICTURE: &str = "How the tubes go up";

/// Under a mast: what was done last.
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

pub(crate) fn divider(setting: &str) -> String {
    format!("dividers {setting}")
}

pub(crate) fn ring_by_string(radius: &str) -> String {
    format!(
        "The ring: too large for paper. Lay it out by a string of {radius} from the mast's axis, held level; its pieces are on \
         Circles and ring."
    )
}

pub(crate) fn too_large(name: &str, [wide, high]: &[String; 2], pages: usize, most: usize) -> String {
    format!(
        "{name}: {wide} by {high} would take {pages} pages of this paper, {most} at most are drawn. Nearest that works: larger \
         paper, or mark it by its numbers."
    )
}

pub(crate) fn foot_not_measured(leg: &str) -> String {
    format!("Foot of the {leg} leg: the ground under it is not measured yet.")
}
