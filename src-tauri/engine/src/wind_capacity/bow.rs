//! The mast's bow between its supports: every span is a little bent before anything loads it, with the wind
//! or against it, whichever is worse for the part that is used most.
//!
//! EN 1993-1-1, 5.3.4 (3) and 5.2.2 (7) a: sections alone may be verified only where the second-order analysis holds
//! the bow of the members beside the mast's lean. The beams take it as what they are off the mast's line; in the first
//! order that is what the forces of 5.3.2 (7) do. Spans run from the foot to the
//! first guys and from guys to guys; what stands out above the last guys has no bow of its own, it leans (5.3.2 (3)).

use super::standing::Standing;
use crate::numerics::vector::*;
use crate::resistance::factors::BOW;
use crate::structure::{Model, Response};

/// Supports closer than this are one.
const SAME_M: f64 = 1e-6;

/// Every span with or against the wind: all combinations, the first with it. Bit by bit of the number.
pub fn combinations(spans: usize) -> impl Iterator<Item = Vec<f64>> {
    let spans = spans.min(4);
    (0..1_u32 << spans)
        .map(move |bits| (0..spans).map(|span| if bits >> span & 1 == 0 { 1.0 } else { -1.0 }).collect())
}

/// What the mast's spans look like unloaded: for each, the shapes of its imperfection.
#[derive(Debug, Clone, PartialEq)]
pub struct Bows {
    spans: Vec<Span>,
    /// Where the wind blows to, level: by its play every tube leans that way.
    toward: Vector,
}

#[derive(Debug, Clone, PartialEq)]
struct Span {
    from_m: f64,
    to_m: f64,
    /// Where a tube begins in the one before, and the angle of its play there.
    kinks: Vec<Kink>,
}

#[derive(Debug, Clone, Copy, PartialEq)]
struct Kink {
    at_m: f64,
    angle: f64,
}

impl Bows {
    pub fn of(standing: &Standing, toward: [f64; 2]) -> Self {
        let mut supports: Vec<f64> = standing.guys.iter().map(|guy| guy.attach_height_m).collect();
        supports.push(0.0);
        supports.sort_by(f64::total_cmp);
        supports.dedup_by(|b, a| *b - *a < SAME_M);
        let mut kinks = Vec::new();
        for pair in standing.tubes.windows(2) {
            let [below, tube] = pair else { continue };
            let overlap_m = below.top_m.min(tube.top_m) - tube.bottom_m;
            if tube.telescoped && overlap_m > SAME_M {
                kinks.push(Kink { at_m: tube.bottom_m, angle: 2.0 * tube.radial_gap_m / overlap_m });
            }
        }
        let span = |pair: &[f64]| {
            let (from_m, to_m) = (pair[0], pair[1]);
            let within = kinks.iter().filter(|kink| kink.at_m > from_m && kink.at_m < to_m);
            Span { from_m, to_m, kinks: within.copied().collect() }
        };
        let [east, north] = toward;
        Self { spans: supports.windows(2).map(span).collect(), toward: [east, north, 0.0] }
    }

    pub fn spans(&self) -> usize {
        self.spans.len()
    }

    /// The lines along which the spans are bent: along those in which the loads bend them, with the wind rather than
    /// against it; along the wind where they hardly do.
    pub fn lines(&self, model: &Model, response: &Response) -> Vec<Vector> {
        let moved = |height_m: f64| {
            let node = response.nodes.get(model.node_at(height_m));
            node.map_or([0.0; 3], |node| node.displacement_m)
        };
        let line = |span: &Span| {
            let middle_m = model.nodes.get(model.node_at(0.5 * (span.from_m + span.to_m)));
            let middle_m = middle_m.map_or(span.from_m, |node| node.height_m);
            let share = (middle_m - span.from_m) / (span.to_m - span.from_m);
            let chord = add_scaled(scale(moved(span.from_m), 1.0 - share), moved(span.to_m), share);
            let [x, y, _] = subtract(moved(middle_m), chord);
            let bent = [x, y, 0.0];
            let (far, along) = (norm(bent), dot(bent, self.toward));
            // Nearly square to the wind is no way to tell with from against.
            if along.abs() < 0.2 * far || far < 1e-9 {
                return self.toward;
            }
            scale(bent, along.signum() / far)
        };
        self.spans.iter().map(line).collect()
    }

    /// How far each beam is bent out of the mast's line, with the spans bent along these ways: what its upper end is off
    /// that line beyond its lower one, over its length.
    pub fn slopes(&self, model: &Model, ways: &[Vector], slopes: &mut [Vector]) {
        for (slope, element) in slopes.iter_mut().zip(&model.elements) {
            *slope = [0.0; 3];
            let [lower, upper] = element.nodes;
            let (Some(low), Some(high)) = (model.nodes.get(lower), model.nodes.get(upper)) else { continue };
            let span =
                self.spans.iter().zip(ways).find(|(span, _)| {
                    low.height_m > span.from_m - SAME_M && high.height_m < span.to_m + SAME_M
                });
            let Some((span, &way)) = span else { continue };
            let with_wind = dot(way, self.toward);
            let rise = span.offset_m(high.height_m, with_wind) - span.offset_m(low.height_m, with_wind);
            *slope = scale(way, rise / (high.height_m - low.height_m));
        }
    }
}

impl Span {
    /// How far the unloaded span is off the line between its ends, beyond what the model already has. `with_wind` is
    /// the cosine between the bow's way and the wind's.
    ///
    /// In the model every tube leans with the wind by its play, which puts the joint off to the other side of that
    /// line. Where that is not the worst way the play is turned round.
    fn offset_m(&self, height_m: f64, with_wind: f64) -> f64 {
        let length_m = self.to_m - self.from_m;
        let (below, above) = (height_m - self.from_m, self.to_m - height_m);
        let bow = 4.0 * BOW * below * above / length_m;
        let kinks = self.kinks.iter().map(|kink| {
            let (under, over) = (kink.at_m - self.from_m, self.to_m - kink.at_m);
            kink.angle * if height_m <= kink.at_m { below * over } else { under * above } / length_m
        });
        bow + (1.0 + with_wind) * kinks.sum::<f64>()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::structure::{Mast, NodeResponse, TubePart};

    #[test]
    fn a_span_is_bent_by_a_hundred_and_fiftieth_and_a_loose_joint_kinks_it_the_same_way() {
        let kinks = vec![Kink { at_m: 2.0, angle: 0.004 }];
        let span = Span { from_m: 1.0, to_m: 4.0, kinks };
        // The line between the ends has none of it.
        assert!(span.offset_m(1.0, 1.0).abs() < 1e-12 && span.offset_m(4.0, 1.0).abs() < 1e-12);
        // Bent against the wind, as the play already has it: 3 m/150 in the middle.
        assert!((span.offset_m(2.5, -1.0) - 0.02).abs() < 1e-12);
        // With the wind: the model's kink of 0.004·1·2/3 m at the joint is turned round, so twice that.
        let bow = 4.0 * 1.0 * 2.0 / (150.0 * 3.0);
        assert!((span.offset_m(2.0, 1.0) - bow - 2.0 * 0.004 * 2.0 / 3.0).abs() < 1e-12);
    }

    /// Nodes at 0, 1, 2 and 3 m: the one nearest the middle stands a third or two thirds of the way up, where a mast that
    /// leans as a whole is off by as much of what its top is. Bent by 3 and 4 cm it is bent along (0.6, 0.8), with the wind
    /// rather than against it; square to the wind it is no telling.
    #[test]
    fn the_line_of_a_bend_is_told_from_a_lean_and_goes_with_the_wind() {
        let tube = TubePart::of_steel(0.0, 3.0, 0.05, 0.003);
        let mast = Mast { longest_element_m: 1.0, ..Mast::standing_on([0.0; 3], vec![tube]) };
        let model = Model::build(&mast).unwrap();
        let spans = vec![Span { from_m: 0.0, to_m: 3.0, kinks: vec![] }];
        let bows = Bows { spans, toward: [1.0, 0.0, 0.0] };
        let line = |bent_m: [f64; 2]| {
            let nodes = model.nodes.iter().map(|node| {
                let lean_m = [0.02 * node.height_m, -0.03 * node.height_m, 0.0];
                let bent = node.height_m > 0.5 && node.height_m < 2.5;
                let bent_m = if bent { [bent_m[0], bent_m[1], 0.0] } else { [0.0; 3] };
                NodeResponse { displacement_m: add(lean_m, bent_m), ..NodeResponse::default() }
            });
            bows.lines(&model, &Response { nodes: nodes.collect(), ..Response::default() })[0]
        };
        for (bent_m, way) in [
            ([0.0, 0.0], [1.0, 0.0]),
            ([0.03, 0.04], [0.6, 0.8]),
            ([-0.03, -0.04], [0.6, 0.8]),
            ([0.03, -0.04], [0.6, -0.8]),
            ([0.005, 0.04], [1.0, 0.0]),
        ] {
            let found = line(bent_m);
            assert!(norm(subtract(found, [way[0], way[1], 0.0])) < 1e-9, "{bent_m:?}: {found:?}");
        }
    }
}
