//! Where the words go: a greedy choice among a few places for each label, the important ones first, so that
//! words keep clear of each other, of signs and, where possible, of lines. The same input always gives the
//! same places.
//!
//! # References
//! The greedy order by priority over fixed candidate positions is the simplest of the methods compared by
//! Christensen, Marks and Shieber, "An empirical study of algorithms for point-feature label placement",
//! ACM Transactions on Graphics 14 (1995): enough for some tens of labels, and it never jumps about.

use crate::finding::Subject;
use crate::numerics::real::{cos_deg, hypot, sin_deg};

use super::blockers::{Blockers, Grid, area, covered_cost, segment_cost, shared};
use super::scene::{Align, Bounds, Geometry, Role, SceneShape};

/// How far apart the lines of one label stand, in letter heights.
const LINE_STEP_EM: f64 = 1.2;
/// A label that need not be shown is dropped where its best place costs more than this.
const DROP_ABOVE: f64 = 12.0;

/// A label that somebody wants shown.
#[derive(Debug, Clone)]
pub struct Wish {
    pub lines: Vec<String>,
    /// `Label` or `LabelQuiet`.
    pub role: Role,
    pub subject: Option<Subject>,
    /// Smaller goes first.
    pub priority: u8,
    /// Shown even where there is no good place for it.
    pub must: bool,
    pub where_to: WhereTo,
}

/// The places that suit a label.
#[derive(Debug, Clone)]
pub enum WhereTo {
    /// Beside a point, clear of a sign of half-size `clear_m`; where possible on the side away from a point.
    Beside { at: [f64; 2], clear_m: f64, away_from: Option<[f64; 2]> },
    /// Centred on one of these points and turned by these degrees, the first ones preferred.
    On { places: Vec<([f64; 2], f64)> },
    /// Exactly here, as on a dimension.
    At { at: [f64; 2], align: Align },
}

/// The places that labels have taken already.
struct Taken {
    boxes: Vec<Bounds>,
    grid: Grid,
}

impl Taken {
    fn push(&mut self, bounds: Bounds) {
        self.grid.insert_box(&bounds);
        self.boxes.push(bounds);
    }
}

/// Width of a text in letter heights.
///
/// # Accuracy
/// By the character widths of a plain sans serif (Adobe's font metrics of Helvetica) with 8 % for wider ones.
pub fn text_width_em(text: &str) -> f64 {
    1.08 * text.chars().map(char_width_em).sum::<f64>()
}

/// Source: Adobe Core 14 AFM, Helvetica, rounded to groups of equal width (from memory).
fn char_width_em(c: char) -> f64 {
    match c {
        'i' | 'j' | 'l' | '\'' | '|' | '′' => 0.22,
        ' ' | '.' | ',' | ':' | ';' | 'f' | 't' | 'I' | '/' | '!' | '·' => 0.28,
        'r' | '-' | '(' | ')' | '"' | '″' | '°' => 0.36,
        'c' | 'k' | 's' | 'v' | 'x' | 'y' | 'z' | 'J' => 0.5,
        'm' | 'M' => 0.83,
        'w' => 0.72,
        'W' | '—' => 0.95,
        '+' | '−' | '±' | '=' | '<' | '>' => 0.58,
        'A'..='Z' => 0.69,
        _ => 0.556,
    }
}

/// Letter height of a role's words, in letter heights of the drawing.
pub fn role_em(role: Role) -> f64 {
    if role == Role::LabelQuiet { 0.85 } else { 1.0 }
}

/// One possible place of a label.
#[derive(Debug, Clone, Copy)]
struct Place {
    centre: [f64; 2],
    half: [f64; 2],
    align: Align,
    turn_deg: f64,
    cost: f64,
    /// The point it belongs to, where it stands so far off that a line has to say so.
    leader: Option<[f64; 2]>,
}

impl Place {
    fn bounds(&self) -> Bounds {
        Bounds {
            min: [self.centre[0] - self.half[0], self.centre[1] - self.half[1]],
            max: [self.centre[0] + self.half[0], self.centre[1] + self.half[1]],
        }
    }
}

impl Place {
    /// From the edge of the words to the point they belong to.
    fn leader_ends(&self) -> Option<[[f64; 2]; 2]> {
        let to = self.leader?;
        let bounds = self.bounds();
        Some([[0, 1].map(|axis| to[axis].clamp(bounds.min[axis], bounds.max[axis])), to])
    }
}

/// Chooses a place for every wish and returns the words as shapes, important ones last (on top).
pub fn place(wishes: &[Wish], blockers: &Blockers, bounds: &Bounds, text_m: f64) -> Vec<SceneShape> {
    let mut order: Vec<usize> = (0..wishes.len()).collect();
    order.sort_by_key(|&i| (wishes[i].priority, i));
    let taken = Taken { boxes: Vec::new(), grid: Grid::over(bounds, text_m) };
    let mut room = Room { blockers, taken, bounds };
    let mut shapes = Vec::with_capacity(wishes.len() * 2);
    for wish in order.into_iter().map(|i| &wishes[i]) {
        // Where the whole does not fit, its first lines may: a name is better than nothing.
        for count in (1..=wish.lines.len().max(1)).rev() {
            let lines = &wish.lines[..count.min(wish.lines.len())];
            if let Some(place) = best_place(wish, lines, &room, text_m) {
                room.taken.push(place.bounds());
                shapes.extend(leader(wish, &place));
                shapes.extend(words(wish, lines, &place, text_m));
                break;
            }
        }
    }
    shapes
}

/// The cheapest place; none where there is no good one and the label need not be shown.
fn best_place(wish: &Wish, lines: &[String], room: &Room, text_m: f64) -> Option<Place> {
    let mut best: Option<(Place, f64)> = None;
    for place in places(wish, lines, text_m) {
        if let Some(cost) = room.cost_below(&place, best.map(|(_, least)| least)) {
            best = Some((place, cost));
        }
    }
    let (place, cost) = best?;
    (wish.must || cost <= DROP_ABOVE).then_some(place)
}

/// What is there already when a label looks for its place.
struct Room<'a> {
    blockers: &'a Blockers,
    taken: Taken,
    bounds: &'a Bounds,
}

impl Room<'_> {
    /// What a place costs; none where that is no less than the `least` so far, which is found out as soon as can be: what
    /// is in the way only adds to a place's own cost.
    fn cost_below(&self, place: &Place, least: Option<f64>) -> Option<f64> {
        let below = |cost: f64| least.is_none_or(|least| place.cost + cost < least).then_some(cost);
        below(0.0)?;
        let own = place.bounds();
        let out = 120.0
            * self.bounds.intersection(own).map_or(1.0, |inner| 1.0 - area(&inner) / area(&own).max(1e-12));
        below(out)?;
        // Words on words can't be read: far dearer than anything else.
        let (mut words, mut signs, mut lines) = (0.0, 0.0, 0.0);
        self.taken.grid.visit(&own, |i| {
            words += covered_cost(20.0, 300.0, shared(&own, &self.taken.boxes[i]));
            true
        });
        below(words)?;
        self.blockers.each_box(&own, |b| signs += covered_cost(10.0, 60.0, shared(&own, b)));
        below(words + signs)?;
        self.blockers.each_segment(&own, |segment| {
            lines += segment_cost(segment, &own);
            below(words + signs + lines).is_some()
        });
        let around = below(words + signs + lines + out)?;
        Some(place.cost + below(around + self.leader_cost(place))?)
    }

    /// A leader that runs over another sign would seem to belong to that.
    fn leader_cost(&self, place: &Place) -> f64 {
        let Some([from, to]) = place.leader_ends() else { return 0.0 };
        let on = |share: f64| [0, 1].map(|axis| from[axis] + (to[axis] - from[axis]) * share);
        let over = [0.0, 0.15, 0.3, 0.45, 0.6, 0.75].map(on);
        let around = Bounds { min: from, max: from }.union(Bounds { min: to, max: to });
        let mut struck = 0.0;
        self.blockers.each_box(&around, |b| {
            if !b.holds(to) && over.iter().any(|&p| b.holds(p)) {
                struck += 1.0;
            }
        });
        30.0 * struck
    }
}

fn places(wish: &Wish, lines: &[String], text_m: f64) -> Vec<Place> {
    let em = role_em(wish.role) * text_m;
    // `Label` is set bold, a little wider.
    let bold = if wish.role == Role::Label { 1.07 } else { 1.0 };
    let width = bold * em * lines.iter().map(|line| text_width_em(line)).fold(0.0, f64::max);
    let half = [width / 2.0, em * LINE_STEP_EM * lines.len() as f64 / 2.0];
    match &wish.where_to {
        WhereTo::Beside { at, clear_m, away_from } => {
            let rings = if wish.must { RINGS_EM.len() } else { NEAR_RINGS };
            beside(*at, *clear_m, *away_from, half, em, rings)
        }
        WhereTo::At { at, align } => vec![exactly(*at, *align, half)],
        WhereTo::On { places } => places
            .iter()
            .enumerate()
            .map(|(i, &(centre, turn_deg))| Place {
                centre,
                half: turned(half, turn_deg),
                align: Align::Middle,
                turn_deg,
                cost: 0.4 * i as f64,
                leader: None,
            })
            .collect(),
    }
}

/// The one place of words that start, end or have their middle at a point.
fn exactly(at: [f64; 2], align: Align, half: [f64; 2]) -> Place {
    let aside = match align {
        Align::Start => half[0],
        Align::Middle => 0.0,
        Align::End => -half[0],
    };
    Place { centre: [at[0] + aside, at[1]], half, align, turn_deg: 0.0, cost: 0.0, leader: None }
}

/// Half-sizes of the box around a turned box.
fn turned(half: [f64; 2], turn_deg: f64) -> [f64; 2] {
    let (s, c) = (sin_deg(turn_deg).abs(), cos_deg(turn_deg).abs());
    [half[0] * c + half[1] * s, half[0] * s + half[1] * c]
}

/// How far off a label may stand, in letter heights; the first ones need no leader.
const RINGS_EM: [f64; 5] = [0.2, 1.0, 2.2, 4.0, 6.5];
const RING_COST: [f64; 5] = [0.0, 1.5, 8.0, 14.0, 22.0];
const NEAR_RINGS: usize = 2;

/// Right, left, the corners, above and below; then the same further out.
const SIDES: [[f64; 2]; 8] =
    [[1.0, 0.0], [-1.0, 0.0], [1.0, 1.0], [1.0, -1.0], [-1.0, 1.0], [-1.0, -1.0], [0.0, 1.0], [0.0, -1.0]];

fn beside(
    at: [f64; 2],
    clear_m: f64,
    away_from: Option<[f64; 2]>,
    half: [f64; 2],
    em: f64,
    rings: usize,
) -> Vec<Place> {
    let away = away_from.map(|from| [at[0] - from[0], at[1] - from[1]]);
    let facing = SIDES.map(|side| facing_cost(away, side));
    let mut places = Vec::with_capacity(rings * SIDES.len());
    for (ring, extra_em) in RINGS_EM.into_iter().enumerate().take(rings) {
        let leader = (ring >= NEAR_RINGS).then_some(at);
        for (i, side) in SIDES.iter().enumerate() {
            let gap = clear_m + extra_em * em;
            // At a corner the sign is round, so the words may come closer.
            let gap = if side[0] != 0.0 && side[1] != 0.0 { 0.7 * gap } else { gap };
            let centre = [at[0] + side[0] * (gap + half[0]), at[1] + side[1] * (gap + half[1])];
            let align = match side[0] {
                1.0 => Align::Start,
                -1.0 => Align::End,
                _ => Align::Middle,
            };
            let cost = 0.05 * i as f64 + RING_COST[ring] + facing[i];
            places.push(Place { centre, half, align, turn_deg: 0.0, cost, leader });
        }
    }
    places
}

/// 0 for the side that looks away from the point to leave free, up to 3 for the side that looks at it.
fn facing_cost(away: Option<[f64; 2]>, side: [f64; 2]) -> f64 {
    let Some(away) = away else { return 0.0 };
    let lengths = hypot(away[0], away[1]) * hypot(side[0], side[1]);
    if lengths < 1e-9 {
        return 0.0;
    }
    1.5 * (1.0 - (away[0] * side[0] + away[1] * side[1]) / lengths)
}

/// The line from a label that stands far off to its point.
fn leader(wish: &Wish, place: &Place) -> Option<SceneShape> {
    let geometry = Geometry::Line { points: place.leader_ends()?.to_vec() };
    Some(SceneShape { role: Role::Dimension, subject: wish.subject.clone(), geometry })
}

fn words(wish: &Wish, lines: &[String], place: &Place, text_m: f64) -> Vec<SceneShape> {
    let step = role_em(wish.role) * text_m * LINE_STEP_EM;
    let x = match place.align {
        Align::Start => place.centre[0] - place.half[0],
        Align::Middle => place.centre[0],
        Align::End => place.centre[0] + place.half[0],
    };
    let top = (lines.len() as f64 - 1.0) / 2.0;
    let (s, c) = (sin_deg(place.turn_deg), cos_deg(place.turn_deg));
    lines
        .iter()
        .enumerate()
        .map(|(i, text)| {
            let up = step * (top - i as f64);
            // A turned block keeps its lines square to its own direction.
            let at = [x + up * s, place.centre[1] + up * c];
            SceneShape {
                role: wish.role,
                subject: wish.subject.clone(),
                geometry: Geometry::Words {
                    at,
                    text: text.clone(),
                    align: place.align,
                    turn_deg: place.turn_deg,
                },
            }
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::drawing::blockers::overlap;

    fn clear() -> Blockers {
        Blockers::new(&Bounds::around([0.0, 0.0], 10.0), 0.3)
    }

    fn wish(text: &str, at: [f64; 2], priority: u8, must: bool) -> Wish {
        Wish {
            lines: vec![text.into()],
            role: Role::Label,
            subject: None,
            priority,
            must,
            where_to: WhereTo::Beside { at, clear_m: 0.2, away_from: None },
        }
    }

    fn extents(shapes: &[SceneShape], text_m: f64) -> Vec<Bounds> {
        shapes
            .iter()
            .filter_map(|shape| match &shape.geometry {
                Geometry::Words { at, text, align, .. } => {
                    let width = text_width_em(text) * text_m;
                    let left = match align {
                        Align::Start => at[0],
                        Align::Middle => at[0] - width / 2.0,
                        Align::End => at[0] - width,
                    };
                    Some(Bounds {
                        min: [left, at[1] - 0.5 * text_m],
                        max: [left + width, at[1] + 0.5 * text_m],
                    })
                }
                _ => None,
            })
            .collect()
    }

    #[test]
    fn labels_of_close_points_keep_clear_of_each_other() {
        let wishes: Vec<Wish> =
            (0..5).map(|i| wish("Guy 1 tape", [0.3 * f64::from(i), 0.0], 1, true)).collect();
        let shapes = place(&wishes, &clear(), &Bounds::around([0.0, 0.0], 10.0), 0.3);
        let boxes = extents(&shapes, 0.3);
        assert_eq!(boxes.len(), 5);
        for (i, a) in boxes.iter().enumerate() {
            for b in &boxes[i + 1..] {
                assert!(!overlap(a, b), "{a:?} {b:?}");
            }
        }
    }

    #[test]
    fn a_label_without_room_is_dropped_unless_it_must_be_shown() {
        let mut blockers = clear();
        blockers.block_box(Bounds::around([0.0, 0.0], 50.0));
        let bounds = Bounds::around([0.0, 0.0], 10.0);
        let shapes = place(
            &[wish("quiet", [0.0, 0.0], 1, false), wish("must", [0.0, 0.0], 2, true)],
            &blockers,
            &bounds,
            0.3,
        );
        assert_eq!(shapes.len(), 1);
    }

    #[test]
    fn an_anchor_label_looks_away_from_the_mast() {
        let mut wish = wish("A", [5.0, 0.0], 1, true);
        wish.where_to = WhereTo::Beside { at: [5.0, 0.0], clear_m: 0.2, away_from: Some([0.0, 0.0]) };
        let shapes = place(&[wish], &clear(), &Bounds::around([0.0, 0.0], 10.0), 0.3);
        let Geometry::Words { at, align, .. } = &shapes[0].geometry else { panic!("words") };
        assert_eq!(*align, Align::Start);
        assert!(at[0] > 5.2);
    }
}
