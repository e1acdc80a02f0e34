//! The unbalanced forces of a state and their stiffness, put together from beams, guys, base and loads. All
//! store is set aside once.

use super::beam::{BeamPart, End, Forces, Stiffness};
use super::cable::Pull;
use super::loads::LoadCase;
use super::model::Model;
use super::parts::BaseSupport;
use crate::numerics::block_tridiagonal::BlockTridiagonal;
use crate::numerics::real::hypot;
use crate::numerics::vector::*;

/// State, forces and stiffness of one model.
#[derive(Debug, Clone)]
pub(super) struct System {
    /// Where every node is.
    pub ends: Vec<End>,
    /// Derivative of the energy by each unknown: what is out of balance.
    pub unbalanced: Vec<f64>,
    pub stiffness: BlockTridiagonal,
    pub forces: Vec<Forces>,
    pub pulls: Vec<Pull>,
    /// By the ground on the foot: force, moment.
    pub reaction: [Vector; 2],
    /// Each guy's solution, the start of the next.
    slack: Vec<f64>,
    /// How the elements are bent in this state, see [`LoadCase::bows`].
    bows: Vec<Vector>,
    places: Vec<Place>,
    fixed: [bool; 6],
    /// The node whose height above the ground each node shares; itself where it has its own.
    carried_by: Vec<usize>,
    /// The nodes that the foot keeps from spinning: its own and those of the tubes that are run down onto it.
    feet: Vec<usize>,
    /// Which unknowns are a node's own, not those of a node before it.
    owns: Vec<[bool; 6]>,
    /// What the last advance did to each node beyond its step, as seen by the energy's slope: movement up, spin.
    lift_m: Vec<f64>,
    extra_spin: Vec<Vector>,
    /// Of level unknowns, each east one with its north one; of the others, each with itself.
    pairs: Vec<[usize; 2]>,
}

/// Where every node of a model is, and how its guys hang: a start for a solution.
#[derive(Debug, Clone)]
pub struct State {
    ends: Vec<End>,
    slack: Vec<f64>,
    bows: Vec<Vector>,
}

/// Where an element's unknowns lie.
#[derive(Debug, Clone, Copy)]
struct Place {
    level: usize,
    /// Within the level, of the lower and the upper node.
    local: [[usize; 6]; 2],
    /// Both levels hold just this node.
    plain: bool,
}

impl System {
    pub fn new(model: &Model) -> Self {
        let stiffness = BlockTridiagonal::new(&model.level_sizes);
        let places = model.elements.iter().map(|element| {
            let nodes = element.nodes.map(|i| &model.nodes[i]);
            let level = nodes[0].level;
            let local = nodes.map(|node| node.unknowns.map(|u| u - stiffness.first(node.level)));
            Place { level, local, plain: stiffness.size(level) == 6 && stiffness.size(level + 1) == 6 }
        });
        let turns_fixed = model.base == BaseSupport::Fixed;
        let mut system = Self {
            ends: Vec::with_capacity(model.nodes.len()),
            unbalanced: vec![0.0; model.unknowns()],
            forces: vec![Forces::default(); model.elements.len()],
            pulls: vec![Pull::default(); model.guys.len()],
            reaction: [[0.0; 3]; 2],
            slack: vec![0.0; model.guys.len()],
            bows: vec![[0.0; 3]; model.elements.len()],
            places: places.collect(),
            // The foot stays where it is and does not spin about the mast's axis.
            fixed: [true, true, true, turns_fixed, turns_fixed, true],
            carried_by: model.nodes.iter().map(|node| first_with_height_of(node, model)).collect(),
            feet: feet(model),
            owns: owned(model),
            lift_m: vec![0.0; model.nodes.len()],
            extra_spin: vec![[0.0; 3]; model.nodes.len()],
            pairs: pairs(model),
            stiffness,
        };
        system.reset(model);
        system
    }

    /// Back to the unloaded place.
    pub fn reset(&mut self, model: &Model) {
        self.ends.clear();
        self.ends.extend(model.nodes.iter().map(|node| End {
            displacement_m: [0.0; 3],
            turn: NO_TURN,
            axis: node.axis,
        }));
        self.slack.fill(0.0);
    }

    /// Nothing has moved.
    pub fn is_unloaded(&self) -> bool {
        self.ends.iter().all(|end| end.displacement_m == [0.0; 3] && end.turn == NO_TURN)
    }

    pub fn state(&self) -> State {
        State { ends: self.ends.clone(), slack: self.slack.clone(), bows: self.bows.clone() }
    }

    pub fn exchange(&mut self, state: &mut State) {
        std::mem::swap(&mut self.ends, &mut state.ends);
        std::mem::swap(&mut self.slack, &mut state.slack);
        std::mem::swap(&mut self.bows, &mut state.bows);
    }

    /// Turns all movements about the upright, and takes them from the unloaded axes of another model of the same
    /// shape.
    pub fn carry_over(&mut self, model: &Model, [cosine, sine]: [f64; 2]) {
        let level = |x: f64, y: f64| [cosine * x - sine * y, sine * x + cosine * y];
        for (end, node) in self.ends.iter_mut().zip(&model.nodes) {
            let [x, y, z] = end.displacement_m;
            let [east, north] = level(x, y);
            end.displacement_m = [east, north, z];
            let [q, x, y, z] = end.turn;
            let [about_east, about_north] = level(x, y);
            end.turn = [q, about_east, about_north, z];
            end.axis = turned(end.turn, node.axis);
        }
        for [x, y, _] in &mut self.bows {
            [*x, *y] = level(*x, *y);
        }
    }

    /// Bends the elements otherwise. A bent beam that leans has its ends at other heights than a straight one: they are set
    /// there, or the beams would be drawn out by thousands of newtons that are none of the mast's.
    pub fn bend(&mut self, model: &Model, bows: &[Vector]) {
        if self.bows == bows {
            return;
        }
        self.lift_m.fill(0.0);
        for (i, element) in model.elements.iter().enumerate() {
            let [a, b] = element.nodes;
            self.carry_lift(a);
            let moved = subtract(self.ends[b].displacement_m, self.ends[a].displacement_m);
            self.lift_m[b] = self.lift_m[a] - dot(subtract(bows[i], self.bows[i]), moved);
            self.ends[b].displacement_m[2] += self.lift_m[b];
        }
        self.bows.copy_from_slice(bows);
    }

    /// A node that shares the height of another goes up with it.
    fn carry_lift(&mut self, node: usize) {
        let carried_by = self.carried_by[node];
        if carried_by != node && self.lift_m[node] != self.lift_m[carried_by] {
            self.lift_m[node] = self.lift_m[carried_by];
            self.ends[node].displacement_m[2] += self.lift_m[node];
        }
    }

    /// Makes the stiffness greater on its diagonal by a share, as much east as north: what is added turns with the yard.
    pub fn stiffen(&mut self, share: f64) {
        for &[a, b] in &self.pairs {
            self.stiffness.stiffen(a, b, share);
        }
    }

    /// The unknowns that the base holds.
    pub fn held(&self, model: &Model) -> impl Iterator<Item = usize> + use<> {
        let (unknowns, fixed) = (model.nodes[0].unknowns, self.fixed);
        (0..6).filter(move |&k| fixed[k]).map(move |k| unknowns[k])
    }

    /// Moves every node by `step`·`share` along the way on which a mast that turns as a whole stays what it is: sideways
    /// movements of nodes and axes are those of the step, heights follow from the beams' lengths.
    pub fn advance(&mut self, model: &Model, from: &[End], step: &[f64], share: f64) {
        for (i, ((end, start), node)) in self.ends.iter_mut().zip(from).zip(&model.nodes).enumerate() {
            let by = node.unknowns.map(|u| share * step[u]);
            end.displacement_m = add(start.displacement_m, [by[0], by[1], by[2]]);
            let spin = [by[3], by[4], by[5]];
            let (turn, rate) = tilt_further(start, spin);
            end.turn = turn;
            end.axis = turned(end.turn, node.axis);
            self.extra_spin[i] = subtract(rate, spin);
        }
        self.keep_lengths(model, from, step, share);
        // Small spins about level axes add up to a turn about the upright one that depends on their order; a foot
        // keeps its turn about a level axis, so that the state at rest does not depend on the way there.
        for &i in &self.feet {
            let foot = &mut self.ends[i];
            let [q, x, y, z] = foot.turn;
            let upright = hypot(q, z);
            let (c, s) = (q / upright, -z / upright);
            foot.turn = [upright, c * x - s * y, c * y + s * x, 0.0];
            foot.axis = turned(foot.turn, model.nodes[i].axis);
        }
    }

    /// A beam that turns moves its ends along a circle, while the step goes along the tangent: a stout tube would be
    /// drawn out by thousands of newtons that are none of the mast's. Each beam keeps the length that the step gives it
    /// in the first order: with d the chord, u its change and u⊥ the part of that square to d, the upper node goes down
    /// by ζ with 2ζ·(d + u)_z − ζ² = u⊥². A retraction (absil2008, ch. 4): the step's first order stays as it is.
    fn keep_lengths(&mut self, model: &Model, from: &[End], step: &[f64], share: f64) {
        self.lift_m.fill(0.0);
        for element in &model.elements {
            let [a, b] = element.nodes;
            self.carry_lift(a);
            let (low, high) = (&model.nodes[a].unknowns, &model.nodes[b].unknowns);
            let by = [0, 1, 2].map(|k| share * (step[high[k]] - step[low[k]]));
            let moved = subtract(from[b].displacement_m, from[a].displacement_m);
            let d = add(element.beam.chord_m, moved);
            let square = 1.0 / dot(d, d);
            let across = add_scaled(by, d, -dot(d, by) * square);
            let bent = [a, b].map(|node| {
                add_scaled(subtract(self.ends[node].axis, from[node].axis), across, -square.sqrt())
            });
            let bowing =
                (2.0 * (dot(bent[0], bent[0]) + dot(bent[1], bent[1])) - dot(bent[0], bent[1])) / 30.0;
            let shorter_2 = dot(across, across) + 2.0 * bowing / square;
            let rise = d[2] + by[2];
            let left = rise * rise - shorter_2;
            let down_m = if rise > 0.0 && left > 0.0 { shorter_2 / (rise + left.sqrt()) } else { 0.0 };
            self.lift_m[b] = self.lift_m[a] - down_m;
            self.ends[b].displacement_m[2] += self.lift_m[b];
        }
    }

    /// Slope of the energy along the way of the last advance, by its share.
    pub fn slope_there(&self, model: &Model, step: &[f64], share: f64) -> f64 {
        let straight: f64 = step.iter().zip(&self.unbalanced).map(|(step, g)| step * g).sum();
        let mut bent = 0.0;
        for (i, node) in model.nodes.iter().enumerate() {
            let (g, owns) = (node.unknowns.map(|u| self.unbalanced[u]), &self.owns[i]);
            if owns[2] {
                bent += 2.0 * self.lift_m[i] * g[2];
            }
            for k in (0..3).filter(|k| owns[3 + k]) {
                bent += self.extra_spin[i][k] * g[3 + k];
            }
        }
        straight + bent / share
    }

    /// Forces out of balance under `share` of the loads (guys' weight and tension are always whole).
    pub fn evaluate(&mut self, model: &Model, case: &LoadCase, share: f64) {
        self.assemble::<false>(model, case, share, BeamPart::Whole);
    }

    /// As [`Self::evaluate`], with the stiffness.
    pub fn evaluate_with_stiffness(&mut self, model: &Model, case: &LoadCase, share: f64, part: BeamPart) {
        self.stiffness.clear();
        self.assemble::<true>(model, case, share, part);
    }

    #[inline(always)]
    fn assemble<const STIFFNESS: bool>(
        &mut self,
        model: &Model,
        case: &LoadCase,
        share: f64,
        part: BeamPart,
    ) {
        self.unbalanced.fill(0.0);
        let mut by_spin = [0.0; 2];
        for (i, element) in model.elements.iter().enumerate() {
            let [a, b] = element.nodes;
            let (ends, nodes) = ([&self.ends[a], &self.ends[b]], [&model.nodes[a], &model.nodes[b]]);
            let (forces, shape) = element.beam.forces(ends, case.bows[i]);
            let foot = self.feet.contains(&a).then_some(ends[0].turn);
            let load = element_load(case.wind_on_elements_n_per_m[i], element.weight_n_per_m, share);
            let half = scale(load, 0.5 * element.beam.length_m);
            let moments = end_moments(load, element.beam.length_m, ends);
            let g = &mut self.unbalanced;
            for k in 0..3 {
                g[nodes[0].unknowns[k]] -= forces.force_n[k] + half[k];
                g[nodes[1].unknowns[k]] += forces.force_n[k] - half[k];
                g[nodes[0].unknowns[3 + k]] += forces.moment_n_m[0][k] - moments[0][k];
                g[nodes[1].unknowns[3 + k]] += forces.moment_n_m[1][k] - moments[1][k];
            }
            if let Some(turn) = foot {
                let by = spin_at_foot(turn);
                for k in 0..2 {
                    let moment = by[k] * forces.moment_n_m[0][2];
                    g[nodes[0].unknowns[3 + k]] += moment;
                    by_spin[k] += moment;
                }
            }
            self.forces[i] = forces;
            if STIFFNESS {
                let mut stiffness = element.beam.stiffness(&shape, part);
                if let Some(turn) = foot {
                    keep_foot(&mut stiffness, spin_at_foot(turn));
                }
                let place = &self.places[i];
                if place.plain {
                    add_plain(&mut self.stiffness, place.level, &stiffness);
                } else {
                    add_scattered(&mut self.stiffness, place, &stiffness);
                }
            }
        }
        self.add_guys::<STIFFNESS>(model, case, share);
        for point in &case.points {
            let unknowns = &model.nodes[point.node].unknowns;
            for k in 0..3 {
                self.unbalanced[unknowns[k]] -= share * point.force_n[k];
                self.unbalanced[unknowns[3 + k]] -= share * point.moment_n_m[k];
            }
        }
        self.hold_base::<STIFFNESS>(model, by_spin);
    }

    #[inline(always)]
    fn add_guys<const STIFFNESS: bool>(&mut self, model: &Model, case: &LoadCase, share: f64) {
        for (i, guy) in model.guys.iter().enumerate() {
            if !case.guy_holds[i] {
                self.pulls[i] = Pull::default();
                continue;
            }
            let node = &model.nodes[guy.node];
            let end = &self.ends[guy.node];
            let arm = turned(end.turn, guy.collar_offset_m);
            let d = add(add(subtract(node.place_m, guy.anchor_m), end.displacement_m), arm);
            let mut load = scale(case.wind_on_guys_n_per_m[i], share);
            load[2] -= guy.weight_n_per_m;
            let (pull, k) = guy.rope.pull(d, load, &mut self.slack[i]);
            self.pulls[i] = pull;
            let moment = cross(arm, pull.upper_n);
            for (k, by) in pull.upper_n.into_iter().chain(moment).enumerate() {
                self.unbalanced[node.unknowns[k]] -= by;
            }
            if STIFFNESS {
                let first = self.stiffness.first(node.level);
                let n = self.stiffness.size(node.level);
                let local = node.unknowns.map(|u| u - first);
                add_guy(self.stiffness.diagonal_mut(node.level), n, &local, &k, arm, pull.upper_n);
            }
        }
    }

    /// Takes the reaction and removes the held unknowns; adds the base's spring. `by_spin` is what holding a leaning foot
    /// from spinning put into its level moments: the ground bears it.
    #[inline(always)]
    fn hold_base<const STIFFNESS: bool>(&mut self, model: &Model, by_spin: [f64; 2]) {
        let unknowns = &model.nodes[0].unknowns;
        let g = &mut self.unbalanced;
        self.reaction = [[0, 1, 2], [3, 4, 5]].map(|part| part.map(|k: usize| g[unknowns[k]]));
        for (moment, by_spin) in self.reaction[1].iter_mut().zip(by_spin) {
            *moment -= by_spin;
        }
        if let BaseSupport::Spring { n_m_per_rad } = model.base {
            // ½·k·(φx² + φy²) with φ = 2·(vector part of the turn).
            let turn = self.ends[0].turn;
            let half = [turn[1], turn[2], 0.0];
            let by = add_scaled(scale(half, turn[0]), cross([turn[1], turn[2], turn[3]], half), 1.0);
            for k in 0..2 {
                g[unknowns[3 + k]] += 2.0 * n_m_per_rad * by[k];
            }
            if STIFFNESS {
                let n = self.stiffness.size(0);
                for at in &unknowns[3..5] {
                    self.stiffness.diagonal_mut(0)[at * n + at] += n_m_per_rad;
                }
            }
        }
        for k in (0..6).filter(|&k| self.fixed[k]) {
            let at = unknowns[k];
            self.unbalanced[at] = 0.0;
            if STIFFNESS {
                let n = self.stiffness.size(0);
                let block = self.stiffness.diagonal_mut(0);
                for c in 0..n {
                    block[at * n + c] = 0.0;
                    block[c * n + at] = 0.0;
                }
                block[at * n + at] = 1.0;
                let m = self.stiffness.size(1);
                self.stiffness.beside_mut(0)[at * m..(at + 1) * m].fill(0.0);
            }
        }
    }
}

/// Turns a node so that its axis' two level parts change by what `spin` does to them in the first order, the upright
/// one by what is left of its length. Gives the turn, and how the node spins there as the spin grows by a share of itself.
/// A stout chain that leans as a whole does so without bending, because its chords do the same.
fn tilt_further(start: &End, spin: Vector) -> (Rotation, Vector) {
    let t = start.axis;
    let by = cross(spin, t);
    let level = [t[0] + by[0], t[1] + by[1]];
    let upright_2 = 1.0 - level[0] * level[0] - level[1] * level[1];
    if !(t[2] > 0.0 && upright_2 > 0.1) {
        return (turn_further(start.turn, spin), spin);
    }
    let upright = upright_2.sqrt();
    let sideways = level[0] * by[0] + level[1] * by[1];
    // Without the difference of two nearly equal numbers.
    let down = (t[0] * by[0] + t[1] * by[1] + sideways) / (upright + t[2]);
    let moved = [by[0], by[1], -down];
    let axis = [level[0], level[1], upright];
    let twist = dot(spin, t);
    let tilt = cross(t, moved);
    let q = then(
        [1.0, 0.5 * twist * t[0], 0.5 * twist * t[1], 0.5 * twist * t[2]],
        [1.0 + dot(t, axis), tilt[0], tilt[1], tilt[2]],
    );
    let turn = then(start.turn, q);
    let length = (turn[0] * turn[0] + turn[1] * turn[1] + turn[2] * turn[2] + turn[3] * turn[3]).sqrt();
    let rate = add_scaled(cross(axis, [by[0], by[1], -sideways / upright]), axis, twist);
    (turn.map(|part| part / length), rate)
}

fn owned(model: &Model) -> Vec<[bool; 6]> {
    let mut seen = vec![false; model.unknowns()];
    let nodes = model.nodes.iter();
    nodes.map(|node| node.unknowns.map(|u| !std::mem::replace(&mut seen[u], true))).collect()
}

fn feet(model: &Model) -> Vec<usize> {
    let held = model.nodes[0].unknowns[5];
    (0..model.nodes.len()).filter(|&i| model.nodes[i].unknowns[5] == held).collect()
}

/// A foot that tilts further keeps its turn about a level axis: how much it spins about the upright one for each spin
/// about east and about north. With q = (c, x, y, 0) its turn and w the spin, the turn's last part stays nothing where
/// c·w_z + w_x·y − w_y·x = 0.
fn spin_at_foot([c, x, y, _]: Rotation) -> [f64; 2] {
    [-y / c, x / c]
}

/// The same for what turns a beam's lower end.
fn keep_foot(k: &mut Stiffness, by: [f64; 2]) {
    let columns = |matrix: &mut Matrix| {
        for row in matrix {
            for j in 0..2 {
                row[j] += by[j] * row[2];
            }
        }
    };
    let rows = |matrix: &mut Matrix| {
        let last = matrix[2];
        for (row, by) in matrix.iter_mut().zip(by) {
            for (to, from) in row.iter_mut().zip(last) {
                *to += by * from;
            }
        }
    };
    columns(&mut k.d1);
    columns(&mut k.m11);
    rows(&mut k.m11);
    rows(&mut k.m12);
}

/// Every unknown once: a level east one with the north one of its node, others with themselves.
fn pairs(model: &Model) -> Vec<[usize; 2]> {
    let of = |node: &super::model::Node| {
        let u = node.unknowns;
        [[u[0], u[1]], [u[2], u[2]], [u[3], u[4]], [u[5], u[5]]]
    };
    let mut pairs: Vec<[usize; 2]> = model.nodes.iter().flat_map(of).collect();
    pairs.sort_unstable();
    pairs.dedup();
    pairs
}

/// The first node that has a node's vertical unknown.
fn first_with_height_of(node: &super::model::Node, model: &Model) -> usize {
    model.nodes.iter().position(|other| other.unknowns[2] == node.unknowns[2]).unwrap_or(0)
}

/// Wind and weight per metre of an element.
pub(super) fn element_load(wind: Vector, weight_n_per_m: f64, share: f64) -> Vector {
    [share * wind[0], share * wind[1], share * (wind[2] - weight_n_per_m)]
}

/// Moments at the two ends that stand for the even load along the cubic between them:
/// ±L²/12·(t × q), from ∫r dx = L·(r₁ + r₂)/2 + L²/12·(t₁ − t₂).
pub(super) fn end_moments(load: Vector, length_m: f64, ends: [&End; 2]) -> [Vector; 2] {
    let share = length_m * length_m / 12.0;
    [scale(cross(ends[0].axis, load), share), scale(cross(ends[1].axis, load), -share)]
}

/// An element whose nodes are alone on their levels.
#[inline(always)]
fn add_plain(matrix: &mut BlockTridiagonal, level: usize, k: &Stiffness) {
    let lower: &mut [f64] = matrix.diagonal_mut(level);
    let lower = &mut lower[..36];
    for r in 0..3 {
        for c in 0..3 {
            lower[r * 6 + c] += k.dd[r][c];
            lower[r * 6 + 3 + c] -= k.d1[r][c];
            lower[(3 + r) * 6 + 3 + c] += k.m11[r][c];
        }
    }
    let upper = &mut matrix.diagonal_mut(level + 1)[..36];
    for r in 0..3 {
        for c in 0..3 {
            upper[r * 6 + c] += k.dd[r][c];
            upper[r * 6 + 3 + c] += k.d2[r][c];
            upper[(3 + r) * 6 + 3 + c] += k.m22[r][c];
        }
    }
    let beside = &mut matrix.beside_mut(level)[..36];
    for r in 0..3 {
        for c in 0..3 {
            beside[r * 6 + c] -= k.dd[r][c];
            beside[r * 6 + 3 + c] -= k.d2[r][c];
            beside[(3 + r) * 6 + c] += k.d1[c][r];
            beside[(3 + r) * 6 + 3 + c] += k.m12[r][c];
        }
    }
}

/// An element with more than one node on a level, some sharing unknowns.
fn add_scattered(matrix: &mut BlockTridiagonal, place: &Place, k: &Stiffness) {
    let [low, high] = &place.local;
    let (n, m) = (matrix.size(place.level), matrix.size(place.level + 1));
    let pick = |r: usize, c: usize, uu: &Matrix, uw: &Matrix, sign: f64, ww: &Matrix| match (r / 3, c / 3) {
        (0, 0) => uu[r][c],
        (0, _) => sign * uw[r][c - 3],
        (_, 0) => sign * uw[c][r - 3],
        _ => ww[r - 3][c - 3],
    };
    for r in 0..6 {
        for c in 0..6 {
            if low[c] >= low[r] {
                let entry = pick(r, c, &k.dd, &k.d1, -1.0, &k.m11);
                matrix.diagonal_mut(place.level)[low[r] * n + low[c]] += entry;
            }
            if high[c] >= high[r] {
                let entry = pick(r, c, &k.dd, &k.d2, 1.0, &k.m22);
                matrix.diagonal_mut(place.level + 1)[high[r] * m + high[c]] += entry;
            }
            let entry = match (r / 3, c / 3) {
                (0, 0) => -k.dd[r][c],
                (0, _) => -k.d2[r][c - 3],
                (_, 0) => k.d1[c][r - 3],
                _ => k.m12[r - 3][c - 3],
            };
            matrix.beside_mut(place.level)[low[r] * m + high[c]] += entry;
        }
    }
}

/// A guy's stiffness on its node, through the collar's arm: with dp = u + ω × arm,
/// K_uω = −K·\[arm×\], K_ωω = −\[arm×\]·K·\[arm×\] + sym(g·armᵀ) − (g·arm)·I, g = −pull.
#[inline(always)]
fn add_guy(block: &mut [f64], n: usize, local: &[usize; 6], k: &Matrix, arm: Vector, pull: Vector) {
    let mut add_entry = |r: usize, c: usize, entry: f64| {
        if local[c] >= local[r] {
            block[local[r] * n + local[c]] += entry;
        }
    };
    for (r, row) in k.iter().enumerate() {
        for (c, &entry) in row.iter().enumerate() {
            add_entry(r, c, entry);
        }
    }
    if arm == [0.0; 3] {
        return;
    }
    let columns = [0, 1, 2].map(|c| [k[0][c], k[1][c], k[2][c]]);
    // Column c of [arm×]·K, which is row c of its transpose K_uω.
    let turning = columns.map(|column| cross(arm, column));
    let mut both = [[0.0; 3]; 3];
    add_both_outer(&mut both, pull, arm, -0.5);
    add_identity(&mut both, dot(pull, arm));
    for r in 0..3 {
        // Row r of [arm×]·K·[arm×]: v ↦ v·[arm×] is −arm × v.
        let row = [turning[0][r], turning[1][r], turning[2][r]];
        let product = cross(arm, row);
        for c in 0..3 {
            add_entry(3 + r, c, turning[c][r]);
            add_entry(r, 3 + c, turning[r][c]);
            add_entry(3 + r, 3 + c, product[c] + both[r][c]);
        }
    }
}
