//! From the description of a mast to its chain of nodes, beams and guys.

use super::beam::Beam;
use super::cable::CableRope;
use super::parts::{BaseSupport, GuyLength, GuyPart, Mast, ModelError, TubePart};
use crate::numerics::real::hypot;
use crate::numerics::vector::*;
use crate::structure::catenary::Span;

/// Heights closer than this are one.
const SAME_M: f64 = 1e-6;

/// A tube run down into another one is held all along where bending by its play strains the wider of the two by no more than
/// this: 10 N/mm² in steel. Own choice, see docs/decisions/0026.
const SNUG_STRAIN: f64 = 5e-5;

/// A node: a place on one tube.
#[derive(Debug, Clone, PartialEq)]
pub struct Node {
    /// Along the mast above the foot.
    pub height_m: f64,
    pub tube: usize,
    pub level: usize,
    /// Unloaded, from the foot.
    pub place_m: Vector,
    /// Of the tube, unloaded.
    pub axis: Vector,
    /// Its three movements and three turns among all unknowns; nodes that bear on each other share some.
    pub unknowns: [usize; 6],
}

/// A beam between two nodes of a tube.
#[derive(Debug, Clone, PartialEq)]
pub struct Element {
    pub beam: Beam,
    pub nodes: [usize; 2],
    pub tube: usize,
    pub weight_n_per_m: f64,
    /// Not inside another tube: the wind meets it.
    pub exposed: bool,
}

/// A guy with its length settled.
#[derive(Debug, Clone, PartialEq)]
pub struct Guy {
    pub rope: CableRope,
    pub node: usize,
    pub collar_offset_m: Vector,
    /// From the mast's foot.
    pub anchor_m: Vector,
    pub weight_n_per_m: f64,
    /// Tension at the upper end when set; nothing known where the length was given.
    pub set_tension_n: Option<f64>,
    /// What it weighed then.
    pub set_n_per_m: f64,
}

/// The chain.
#[derive(Debug, Clone, PartialEq)]
pub struct Model {
    pub nodes: Vec<Node>,
    pub elements: Vec<Element>,
    pub guys: Vec<Guy>,
    pub base: BaseSupport,
    pub foot_m: Vector,
    pub height_m: f64,
    /// Unknowns of each level, base first.
    pub(super) level_sizes: Vec<usize>,
}

impl Model {
    /// Divides the mast into nodes and beams.
    ///
    /// # Errors
    /// Where a number is out of its range, tubes do not follow on each other, or a guy can't have its tension.
    pub fn build(mast: &Mast) -> Result<Self, ModelError> {
        check(mast)?;
        let heights = heights(mast);
        let lines = lines(mast);
        let mut model = Self {
            nodes: Vec::new(),
            elements: Vec::new(),
            guys: Vec::new(),
            base: mast.base,
            foot_m: mast.foot_m,
            height_m: mast.tubes.iter().fold(0.0, |top: f64, tube| top.max(tube.top_m)),
            level_sizes: Vec::new(),
        };
        let mut unknowns = 0;
        for (level, &height_m) in heights.iter().enumerate() {
            unknowns = model.add_level(mast, &lines, level, height_m, unknowns);
        }
        model.connect(mast);
        for (i, guy) in mast.guys.iter().enumerate() {
            let guy = model.guy(i, guy)?;
            model.guys.push(guy);
        }
        Ok(model)
    }

    /// The outermost tube's node nearest to a height.
    pub fn node_at(&self, height_m: f64) -> usize {
        let mut nearest = 0;
        for (i, node) in self.nodes.iter().enumerate() {
            let off = |at: &Node| (at.height_m - height_m).abs();
            if off(node) < off(&self.nodes[nearest]) - SAME_M {
                nearest = i;
            }
        }
        nearest
    }

    /// Where a guy holds on to the mast, unloaded, seen from its anchor.
    pub fn guy_chord_m(&self, guy: usize) -> Vector {
        let guy = &self.guys[guy];
        subtract(add(self.nodes[guy.node].place_m, guy.collar_offset_m), guy.anchor_m)
    }

    pub fn unknowns(&self) -> usize {
        self.level_sizes.iter().sum()
    }

    fn add_level(&mut self, mast: &Mast, lines: &[Line], level: usize, height_m: f64, first: usize) -> usize {
        let mut next = first;
        let mut outer: Option<usize> = None;
        for (tube, part) in mast.tubes.iter().enumerate() {
            if height_m < part.bottom_m - SAME_M || height_m > part.top_m + SAME_M {
                continue;
            }
            let shared = match outer.and_then(|node| self.nodes.get(node)) {
                Some(outer) => shared(mast, outer.tube, tube, height_m),
                None => [false; 6],
            };
            let mut unknowns = [0; 6];
            for (k, unknown) in unknowns.iter_mut().enumerate() {
                match outer {
                    Some(node) if shared[k] => *unknown = self.nodes[node].unknowns[k],
                    _ => {
                        *unknown = next;
                        next += 1;
                    }
                }
            }
            let line = &lines[tube];
            let place_m = add_scaled(line.bottom_m, line.axis, height_m - part.bottom_m);
            self.nodes.push(Node { height_m, tube, level, place_m, axis: line.axis, unknowns });
            outer = Some(self.nodes.len() - 1);
        }
        self.level_sizes.push(next - first);
        next
    }

    fn connect(&mut self, mast: &Mast) {
        for (tube, part) in mast.tubes.iter().enumerate() {
            let own: Vec<usize> = (0..self.nodes.len()).filter(|&i| self.nodes[i].tube == tube).collect();
            for pair in own.windows(2) {
                let (a, b) = (&self.nodes[pair[0]], &self.nodes[pair[1]]);
                let chord_m = subtract(b.place_m, a.place_m);
                let middle_m = 0.5 * (a.height_m + b.height_m);
                self.elements.push(Element {
                    beam: Beam {
                        chord_m,
                        length_m: norm(chord_m),
                        axial_n: part.axial_n,
                        bending_n_m2: part.bending_n_m2,
                        torsion_n_m2: part.torsion_n_m2,
                    },
                    nodes: [pair[0], pair[1]],
                    tube,
                    weight_n_per_m: part.weight_n_per_m,
                    exposed: mast.tubes[..tube].iter().all(|outer| outer.top_m < middle_m),
                });
            }
        }
    }

    fn guy(&self, index: usize, part: &GuyPart) -> Result<Guy, ModelError> {
        let node = self.node_at(part.attach_height_m);
        let mut guy = Guy {
            rope: CableRope { unstressed_m: 0.0, stiffness_n: part.stiffness_n },
            node,
            collar_offset_m: part.collar_offset_m,
            anchor_m: subtract(part.anchor_m, self.foot_m),
            weight_n_per_m: part.weight_n_per_m,
            set_tension_n: None,
            set_n_per_m: part.weight_n_per_m,
        };
        let tension_n = match part.length {
            GuyLength::Unstressed { length_m } => {
                guy.rope.unstressed_m = length_m;
                return Ok(guy);
            }
            GuyLength::UpperTension { tension_n } => tension_n,
            GuyLength::UpperTensionBare { tension_n, bare_n_per_m } => {
                guy.set_n_per_m = bare_n_per_m;
                tension_n
            }
        };
        guy.set_tension_n = Some(tension_n);
        let chord_m = subtract(add(self.nodes[node].place_m, part.collar_offset_m), guy.anchor_m);
        guy.rope.unstressed_m = unstressed_m(part.stiffness_n, guy.set_n_per_m, chord_m, tension_n)
            .map_err(|cause| ModelError::GuyLength { guy: index, cause })?;
        Ok(guy)
    }
}

/// The unstressed length of a guy with this tension at its upper end in still air.
pub(super) fn unstressed_m(
    stiffness_n: f64,
    weight_n_per_m: f64,
    chord_m: Vector,
    tension_n: f64,
) -> Result<f64, crate::structure::catenary::CatenaryError> {
    let span_m = hypot(chord_m[0], chord_m[1]);
    let span = Span { span_m, rise_m: chord_m[2], weight_n_per_m, stiffness_n };
    Ok(span.with_upper_tension(tension_n)?.unstressed_m)
}

/// Where a tube stands unloaded.
struct Line {
    /// From the mast's foot.
    bottom_m: Vector,
    axis: Vector,
}

fn upper_bearing_m(before: &TubePart, tube: &TubePart) -> f64 {
    before.top_m.min(tube.top_m)
}

/// A tube that stands on the one before rather than in it.
fn stands_on(before: &TubePart, tube: &TubePart) -> bool {
    tube.bottom_m > before.top_m - SAME_M
}

/// The first of the tubes that stand on each other with this one among them: together they are one piece.
fn foot_of_piece(tubes: &[TubePart], tube: usize) -> usize {
    let stands = |&at: &usize| at == 0 || !stands_on(&tubes[at - 1], &tubes[at]);
    (0..=tube).rev().find(stands).unwrap_or(0)
}

/// The top of a tube's whole piece.
fn top_of_piece_m(tubes: &[TubePart], tube: usize) -> f64 {
    let further = tubes.windows(2).skip(tube).take_while(|pair| stands_on(&pair[0], &pair[1]));
    further.fold(tubes[tube].top_m, |_, pair| pair[1].top_m)
}

/// Which of its six unknowns a tube's node has in common with that of the tube about it, or under it, at the same
/// height. A piece bears in the one about it at its own lower end and at the other's upper end, whichever of its tubes
/// is there: a joint run down into a tube is not held there. One that is run down and snug touches it in between too.
fn shared(mast: &Mast, outer: usize, tube: usize, height_m: f64) -> [bool; 6] {
    let here = |at_m: f64| (height_m - at_m).abs() <= SAME_M;
    let tubes = &mast.tubes;
    let foot = foot_of_piece(tubes, tube);
    if outer >= foot {
        return [true; 6];
    }
    let upper_m = upper_end_of_overlap_m(tubes, foot);
    if here(tubes[foot].bottom_m) {
        // The lower end: held sideways, and the pin through it carries weight and keeps it from turning.
        [true, true, true, false, false, true]
    } else if here(upper_m) {
        [true, true, false, false, false, false]
    } else if height_m < upper_m && is_nested(tubes, foot) {
        // They bend as one and slide along each other; of twist there is hardly any, and the pin's end has none between them.
        [true, true, false, true, true, true]
    } else {
        [false; 6]
    }
}

/// Where a piece that stands in another leaves it, or ends in it.
fn upper_end_of_overlap_m(tubes: &[TubePart], foot: usize) -> f64 {
    top_of_piece_m(tubes, foot - 1).min(top_of_piece_m(tubes, foot))
}

/// A piece that is run down, to the lower end of the tube about it, and too slim to bend freely in it: bent by more than its
/// play it touches all along, and with one curvature for both their moments and so their rigidities add up. What bending
/// one of them by the play does before is left out; it is little for a piece that is snug.
fn is_nested(tubes: &[TubePart], foot: usize) -> bool {
    let (about, piece) = (&tubes[foot - 1], &tubes[foot]);
    let over_m = upper_end_of_overlap_m(tubes, foot) - piece.bottom_m;
    let play_m = hypot(piece.play_m[0], piece.play_m[1]);
    // An arc over the overlap that is off its chord by the play in the middle.
    let strain = 8.0 * play_m * radius_m(about).max(radius_m(piece)) / (over_m * over_m);
    (piece.bottom_m - about.bottom_m).abs() <= SAME_M && strain <= SNUG_STRAIN
}

/// Of the middle of a round tube's wall: I/A is half its square.
fn radius_m(tube: &TubePart) -> f64 {
    (2.0 * tube.bending_n_m2 / tube.axial_n).sqrt()
}

/// Every tube's line: the first with the mast's lean, each further one leaning in the one before by its play.
fn lines(mast: &Mast) -> Vec<Line> {
    let along = scale([mast.lean[0], mast.lean[1], 1.0], 1.0 / norm([mast.lean[0], mast.lean[1], 1.0]));
    let mut lines: Vec<Line> = Vec::with_capacity(mast.tubes.len());
    for (i, tube) in mast.tubes.iter().enumerate() {
        let line = match i.checked_sub(1) {
            None => Line { bottom_m: [0.0; 3], axis: along },
            Some(below) => {
                let (before, line) = (&mast.tubes[below], &lines[below]);
                let at = |height_m: f64| add_scaled(line.bottom_m, line.axis, height_m - before.bottom_m);
                let play = [tube.play_m[0], tube.play_m[1], 0.0];
                let (low, high) = (at(tube.bottom_m), at(upper_bearing_m(before, tube)));
                if stands_on(before, tube) {
                    Line { bottom_m: low, axis: line.axis }
                } else {
                    // The pin keeps the lower end central, and its load on the axis; all play is at the top.
                    let high = add_scaled(high, play, 2.0);
                    let along = subtract(high, low);
                    Line { bottom_m: low, axis: scale(along, 1.0 / norm(along)) }
                }
            }
        };
        lines.push(line);
    }
    lines
}

/// The heights of all levels: tube ends, guys and stations, and even parts between them.
fn heights(mast: &Mast) -> Vec<f64> {
    let top_m = mast.tubes.iter().fold(0.0, |top: f64, tube| top.max(tube.top_m));
    let mut marks: Vec<f64> = mast
        .tubes
        .iter()
        .flat_map(|tube| [tube.bottom_m, tube.top_m])
        .chain(mast.guys.iter().map(|guy| guy.attach_height_m))
        .chain(mast.stations_m.iter().copied().filter(|&m| m > 0.0 && m < top_m))
        .collect();
    marks.sort_by(f64::total_cmp);
    marks.dedup_by(|b, a| *b - *a < SAME_M);
    let mut heights = Vec::new();
    for pair in marks.windows(2) {
        let parts = ((pair[1] - pair[0]) / mast.longest_element_m - 1e-9).ceil().max(1.0);
        for k in 0..parts as usize {
            heights.push(pair[0] + (pair[1] - pair[0]) * k as f64 / parts);
        }
    }
    heights.extend(marks.last());
    heights
}

fn check(mast: &Mast) -> Result<(), ModelError> {
    let numbers = mast.foot_m.iter().chain(&mast.lean).chain(&mast.stations_m);
    if let Some(&given) = numbers.into_iter().find(|x| !within_reason(**x)) {
        return Err(ModelError::Mast { what: "a place", allowed: "a number within reason", given });
    }
    if !(mast.longest_element_m >= 0.01 && mast.longest_element_m.is_finite()) {
        let given = mast.longest_element_m;
        return Err(ModelError::Mast { what: "the longest element", allowed: "0.01 m or more", given });
    }
    if let BaseSupport::Spring { n_m_per_rad: given } = mast.base
        && !(given >= 0.0 && given.is_finite())
    {
        return Err(ModelError::Mast { what: "the base's spring", allowed: "nothing or more", given });
    }
    for (i, tube) in mast.tubes.iter().enumerate() {
        check_tube(i, tube, i.checked_sub(1).and_then(|i| mast.tubes.get(i)))?;
    }
    let top_m = mast.tubes.iter().fold(0.0, |top: f64, tube| top.max(tube.top_m));
    for (i, guy) in mast.guys.iter().enumerate() {
        check_guy(i, guy, top_m)?;
    }
    if mast.tubes.is_empty() { Err(ModelError::NoTube) } else { Ok(()) }
}

fn within_reason(x: f64) -> bool {
    x.abs() < 1e6
}

fn check_tube(tube: usize, part: &TubePart, before: Option<&TubePart>) -> Result<(), ModelError> {
    let wrong = |what, allowed, given| Err(ModelError::Tube { tube, what, allowed, given });
    let stiff = [
        ("axial stiffness", part.axial_n),
        ("bending stiffness", part.bending_n_m2),
        ("torsional stiffness", part.torsion_n_m2),
    ];
    for (what, given) in stiff {
        if !(given > 0.0 && given < 1e15) {
            return wrong(what, "above nothing and within reason", given);
        }
    }
    if !(part.weight_n_per_m >= 0.0 && within_reason(part.weight_n_per_m)) {
        return wrong("weight per metre", "nothing or more", part.weight_n_per_m);
    }
    if let Some(&given) = part.play_m.iter().find(|x| !within_reason(**x)) {
        return wrong("play", "a number within reason", given);
    }
    if !(within_reason(part.top_m) && part.top_m - part.bottom_m >= 0.01) {
        return wrong("the top", "above the bottom", part.top_m);
    }
    match before {
        None if part.bottom_m != 0.0 => wrong("the bottom", "0 for the first tube", part.bottom_m),
        Some(before) if !(before.bottom_m..=before.top_m + SAME_M).contains(&part.bottom_m) => {
            wrong("the bottom", "within the tube before, or at its top", part.bottom_m)
        }
        // A bearing wants an arm.
        Some(before) if !stands_on(before, part) && upper_bearing_m(before, part) - part.bottom_m < 0.01 => {
            wrong("the bottom", "0.01 m or more below the top of the tube before, or at it", part.bottom_m)
        }
        _ => Ok(()),
    }
}

fn check_guy(guy: usize, part: &GuyPart, top_m: f64) -> Result<(), ModelError> {
    let wrong = |what, allowed, given| Err(ModelError::Guy { guy, what, allowed, given });
    if !(part.attach_height_m > 0.0 && part.attach_height_m <= top_m + SAME_M) {
        return wrong("the attachment height", "on the mast, above its foot", part.attach_height_m);
    }
    for (what, given) in [("stiffness", part.stiffness_n), ("weight per metre", part.weight_n_per_m)] {
        if !(given > 0.0 && given < 1e15) {
            return wrong(what, "above nothing and within reason", given);
        }
    }
    if let Some(&given) = part.anchor_m.iter().chain(&part.collar_offset_m).find(|x| !within_reason(**x)) {
        return wrong("a place", "a number within reason", given);
    }
    match part.length {
        GuyLength::Unstressed { length_m } if !(length_m > 0.0 && within_reason(length_m)) => {
            wrong("the unstressed length", "above nothing and within reason", length_m)
        }
        GuyLength::UpperTensionBare { bare_n_per_m, .. } if !(bare_n_per_m > 0.0 && bare_n_per_m < 1e15) => {
            wrong("weight per metre without ice", "above nothing and within reason", bare_n_per_m)
        }
        _ => Ok(()),
    }
}

#[cfg(test)]
mod tests;
