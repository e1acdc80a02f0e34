//! Where the mast comes to rest: Newton with line search on its energy, from the last state or in load steps.
//!
//! Rest is a least of the energy, so every step goes downhill: where the stiffness has a negative eigenvalue its
//! diagonal is raised until it has none (nocedal2006, §3.4), and a state in balance whose own stiffness has one
//! is a false equilibrium: the mast is pushed off it along that eigenvector and goes on.

use super::beam::{BeamPart, End};
use super::loads::LoadCase;
use super::model::Model;
use super::response::{BaseReaction, ElementResponse, GuyResponse, NodeResponse, Response};
use super::system::{State, System, element_load, end_moments};
use crate::numerics::real::hypot;
use crate::numerics::vector::*;

/// Out of balance by less than this share of all forces is at rest, beyond what rounding leaves.
const TOLERANCE: f64 = 2e-10;

/// On the way from one load to the next so many tolerances are little enough: 4e-7 of all forces.
const ENOUGH_ON_THE_WAY: f64 = 2e3;

/// So many times what rounding does to a force is not told from rest.
const ROUNDINGS: f64 = 8.0;

/// Newton at its end leaves rounding and nothing else: where a step with new factors gains less than this, and no more
/// than [`STALLED`] is left, nothing better will be found.
const STALLS: f64 = 0.5;

/// In tolerances.
const STALLED: f64 = 1e3;

/// With a step that left less than this of what was out of balance, the next uses the same factors again.
const QUICK: f64 = 0.2;

/// The inertia of a factor holds for the state at rest when the step made with it leaves no more than this, in
/// tolerances.
const NEAR: f64 = 5e5;

/// With more tolerances out of balance than this, the first step is rarely the last to need a new factorisation.
const FAR: f64 = 5e3;

/// Off a false equilibrium it is pushed by a thousandth of its height; comes it back, as where the energy is as good as level
/// just beyond a buckling load, so many times farther.
const PUSH: f64 = 1e-3;
const PUSHED_FARTHER: f64 = 4.0;

/// By a larger share than this the diagonal is raised where the stiffness is far from positive definite.
const RAISED_BY_MUCH: f64 = 1e-5;

/// A column of thirty short beams just beyond its buckling load needs ninety to come to rest, half a metre to one side.
const MOST_STEPS: u32 = 120;

/// From a state nearby rest is found in some five.
const MOST_STEPS_GOING_ON: u32 = 14;

/// At rest every node must be within 0.5 rad of where it stood: cos of half of it.
const LEAST_COSINE: f64 = 0.968_912_421_710_645;

/// On the way there it may lean further, but not for so many steps on end.
const MOST_STEPS_LEANING: u32 = 6;

/// The next load step is never smaller.
const LEAST_LOAD_STEP: f64 = 1.0 / 64.0;

/// Which ways to rest are allowed.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Ways {
    /// Downhill wherever it leads.
    Any,
    /// Only through states that are stable themselves.
    Stable,
}

/// What became of a load case.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Outcome {
    /// In stable equilibrium; see [`Solver::response`].
    Stands(SolveEffort),
    /// No stable equilibrium with the whole load.
    Unstable(Instability),
}

/// How the equilibrium was found.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct SolveEffort {
    /// Newton steps, over all load steps.
    pub steps: u32,
    /// How many of them made a new factorisation.
    pub factorisations: u32,
    /// How many times it was pushed off a false equilibrium.
    pub pushed: u32,
}

/// How a mast fails to stand.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Instability {
    pub reason: Reason,
    /// Share of the load under which it still stood, found in steps.
    pub stood_at_share: f64,
}

/// Why it does not stand.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Reason {
    /// It gives way and leans further than half a radian (29°).
    LeansAway,
    /// In balance, but the least push makes it give way: it buckles.
    Buckles,
    /// The search for an equilibrium did not end.
    NotSettled,
}

/// Finds equilibria of one model; keeps its store and its last state.
#[derive(Debug, Clone)]
pub struct Solver {
    pub(super) system: System,
    start: Vec<End>,
    step: Vec<f64>,
    response: Response,
    count: SolveEffort,
    /// See [`Self::spent`].
    spent: u64,
    /// All forces together: the measure for what is out of balance.
    scale_n: f64,
    /// With so many tolerances out of balance a stable state is at rest.
    enough: f64,
    /// By what share the diagonal was raised last.
    raised: f64,
    /// What rounding alone may leave out of balance at each unknown.
    rounding: Vec<f64>,
}

impl Solver {
    /// Sets aside all the store that solving needs.
    pub fn new(model: &Model) -> Self {
        let system = System::new(model);
        let response = Response {
            nodes: vec![NodeResponse::default(); model.nodes.len()],
            elements: vec![ElementResponse::default(); model.elements.len()],
            guys: vec![GuyResponse::default(); model.guys.len()],
            ..Response::default()
        };
        Self {
            start: system.ends.clone(),
            step: vec![0.0; model.unknowns()],
            system,
            response,
            count: SolveEffort::default(),
            spent: 0,
            scale_n: 1.0,
            enough: 1.0,
            raised: 0.0,
            rounding: rounding(model),
        }
    }

    /// Back to the unloaded place, from which the next solution starts.
    pub fn reset(&mut self, model: &Model) {
        self.system.reset(model);
    }

    /// The state at hand, from which the next solution would start.
    pub fn state(&self) -> State {
        self.system.state()
    }

    /// Exchanges the state at hand for another.
    pub fn exchange(&mut self, state: &mut State) {
        self.system.exchange(state);
    }

    /// How far a node has moved in the state at hand.
    pub fn moved_m(&self, node: usize) -> Vector {
        self.system.ends.get(node).map_or([0.0; 3], |end| end.displacement_m)
    }

    /// Takes the state at hand over to a model of the same shape, such as the same mast leaning another way, all
    /// movements turned anticlockwise about the upright: a start for a wind that has turned as much.
    pub fn carry_over(&mut self, model: &Model, [cosine, sine]: [f64; 2]) {
        self.system.carry_over(model, [cosine, sine]);
    }

    /// What the last solution took.
    pub fn count(&self) -> SolveEffort {
        self.count
    }

    /// All work since the solver was made: factorisations and steps, each times the stiffness's entries. What a solution costs
    /// grows with it, and unlike time it is the same on every machine.
    pub fn spent(&self) -> u64 {
        self.spent
    }

    /// How far the mast is from losing its stability, at the last equilibrium found: the logarithm of its stiffness's
    /// determinant, which goes to nothing there.
    pub fn firmness(&self) -> f64 {
        self.system.stiffness.log_determinant()
    }

    /// The last equilibrium found; without meaning after an [`Outcome::Unstable`].
    pub fn response(&self) -> &Response {
        &self.response
    }

    /// Finds the equilibrium under a load case, starting from the last state; where that fails, from the
    /// unloaded mast in load steps. `case` must be made for `model`, and `self` too.
    ///
    /// # Accuracy
    /// Out of balance by less than 2e-10 of all forces, 4e-7 after [`Self::go_on`] and [`Self::swing`]; where the beams are
    /// so stiff that the last bit of a movement is a larger force than that, by no more than that bit.
    pub fn solve(&mut self, model: &Model, case: &LoadCase) -> Outcome {
        self.count = SolveEffort::default();
        self.scale_n = force_scale(model, case);
        self.enough = 1.0;
        let unloaded = self.system.is_unloaded();
        let outcome = match self.settle(model, case, 1.0, Ways::Stable) {
            Ok(()) => Outcome::Stands(self.count),
            // From the unloaded mast the whole load was just tried.
            Err(_) => self.in_load_steps(model, case, if unloaded { 0.25 } else { 1.0 }),
        };
        if let Outcome::Stands(_) = outcome {
            self.respond(model, case);
        } else {
            self.system.reset(model);
        }
        outcome
    }

    /// Goes on from the state at hand, which stands in nearly the same load, without leaving what is stable on the way:
    /// a reason where that fails, be it that the mast falls or that the load grew too much at once. The state is then
    /// none; take another.
    ///
    /// # Errors
    /// What hindered it.
    pub fn go_on(&mut self, model: &Model, case: &LoadCase) -> Result<SolveEffort, Reason> {
        self.go(model, case, Ways::Stable)
    }

    /// Goes from the state at hand wherever it is downhill, as a mast does that swings to another position: to the side,
    /// where a guy behind it went slack.
    ///
    /// # Errors
    /// Where it finds no rest within 0.5 rad.
    pub fn swing(&mut self, model: &Model, case: &LoadCase) -> Result<SolveEffort, Reason> {
        self.go(model, case, Ways::Any)
    }

    fn go(&mut self, model: &Model, case: &LoadCase, ways: Ways) -> Result<SolveEffort, Reason> {
        self.count = SolveEffort::default();
        self.scale_n = force_scale(model, case);
        self.enough = ENOUGH_ON_THE_WAY;
        self.settle(model, case, 1.0, ways)?;
        self.respond(model, case);
        Ok(self.count)
    }

    /// From the unloaded mast along what is stable; where that leads no further, downhill: first under a little more of the
    /// load, then under all of it. What stands is so the same whatever was solved before.
    fn in_load_steps(&mut self, model: &Model, case: &LoadCase, first: f64) -> Outcome {
        self.system.reset(model);
        let (mut stood, mut step, mut fell) = (0.0_f64, first, f64::INFINITY);
        // The state that stood, so that a failed step starts again from there.
        let mut standing = self.system.state();
        loop {
            let share = (stood + step).min(1.0);
            match self.settle(model, case, share, Ways::Stable) {
                Ok(()) if share >= 1.0 => return Outcome::Stands(self.count),
                Ok(()) => {
                    stood = share;
                    standing = self.system.state();
                    if share >= fell {
                        (step, fell) = (2.0 * step, f64::INFINITY);
                    }
                }
                Err(stable) if step <= LEAST_LOAD_STEP => {
                    self.system.exchange(&mut standing);
                    let little = self.settle(model, case, share, Ways::Any);
                    let Err(reason) = little.and_then(|()| self.settle(model, case, 1.0, Ways::Any)) else {
                        return Outcome::Stands(self.count);
                    };
                    // Not found downhill of where it lost its stability: that it buckled is known all the same. And what had
                    // to be pushed off a balance before it leaned away has buckled.
                    let lost =
                        stable == Reason::Buckles && reason == Reason::NotSettled || self.count.pushed > 0;
                    let reason = if lost { Reason::Buckles } else { reason };
                    return Outcome::Unstable(Instability { reason, stood_at_share: stood });
                }
                Err(_) => {
                    self.system.exchange(&mut standing.clone());
                    (step, fell) = (step / 4.0, share);
                }
            }
        }
    }

    /// Newton to rest under a share of the load.
    fn settle(&mut self, model: &Model, case: &LoadCase, share: f64, ways: Ways) -> Result<(), Reason> {
        let enough = if share < 1.0 { ENOUGH_ON_THE_WAY } else { self.enough };
        self.system.bend(model, &case.bows);
        self.system.evaluate_with_stiffness(model, case, share, BeamPart::Whole);
        let mut left = self.out_of_balance();
        let (mut pushes, mut by) = (0, PUSH);
        let (mut steps, mut leaning) = (0, 0);
        // What the step before left, where it was made with new factors of a stable state.
        let mut settled_to = f64::INFINITY;
        let most_steps = if ways == Ways::Stable { MOST_STEPS_GOING_ON } else { MOST_STEPS };
        let mut raised = false;
        while steps < most_steps && left.is_finite() {
            // Far from rest, where its diagonal had to be raised by much a step before, it has to be again.
            raised = raised && left > FAR && self.raised > RAISED_BY_MUCH;
            let true_minimum = !raised && self.factorise() == 0;
            if !true_minimum && ways == Ways::Stable {
                return Err(Reason::Buckles);
            }
            let stalled = true_minimum && left <= STALLED && left > STALLS * settled_to;
            settled_to = if true_minimum { left } else { f64::INFINITY };
            // A false equilibrium is one only where hardly anything is left: what still creeps is on its way.
            if left <= if true_minimum { enough } else { 1.0 } || stalled {
                if true_minimum {
                    return self.within_reach(pushes);
                }
                if pushes == 3 {
                    return Err(Reason::Buckles);
                }
                self.push(model, by);
                by *= PUSHED_FARTHER;
                pushes += 1;
                self.count.pushed += 1;
                self.system.evaluate_with_stiffness(model, case, share, BeamPart::Whole);
                left = self.out_of_balance();
                continue;
            }
            if !true_minimum {
                self.raise(model, case, share, !raised);
            }
            raised = !true_minimum;
            let before = left;
            let ahead = steps == 0 && before > FAR;
            left = self.newton_step(model, case, share, ahead);
            let near = true_minimum && left <= NEAR;
            steps += 1;
            leaning = if self.leans_away() { leaning + 1 } else { 0 };
            if leaning > MOST_STEPS_LEANING {
                return Err(fell(pushes));
            }
            if ahead {
                continue;
            }
            if true_minimum && left < QUICK * before {
                left = self.steps_with_same_factors(model, case, share, left);
            }
            if near && left <= enough {
                return self.within_reach(pushes);
            }
            self.system.evaluate_with_stiffness(model, case, share, BeamPart::Whole);
        }
        Err(if pushes > 0 { Reason::Buckles } else { Reason::NotSettled })
    }

    /// At rest: it stands where it does not lean too far there, whichever step brought it.
    fn within_reach(&self, pushes: u32) -> Result<(), Reason> {
        if self.leans_away() { Err(fell(pushes)) } else { Ok(()) }
    }

    /// Number of negative eigenvalues.
    fn factorise(&mut self) -> usize {
        self.count.factorisations += 1;
        self.spent += self.system.stiffness.entries() as u64;
        self.system.stiffness.factorise()
    }

    /// Makes the stiffness positive definite by more on its diagonal; `anew` where it is not at hand any more.
    fn raise(&mut self, model: &Model, case: &LoadCase, share: f64, mut anew: bool) {
        // What did before is a good beginning.
        let mut more = (self.raised / 4.0).max(1e-8);
        while more < 10.0 {
            if std::mem::replace(&mut anew, true) {
                self.system.evaluate_with_stiffness(model, case, share, BeamPart::Whole);
            }
            self.system.stiffen(more);
            if self.factorise() == 0 {
                self.raised = more;
                return;
            }
            more *= 4.0;
        }
    }

    /// One step, as far as it goes downhill; `ahead` with the stiffness at its end. Gives what is out of balance there.
    fn newton_step(&mut self, model: &Model, case: &LoadCase, share: f64, ahead: bool) -> f64 {
        self.count.steps += 1;
        self.spent += self.system.stiffness.entries() as u64;
        self.find_step();
        // No further than the model reaches in one go.
        let most = model.nodes.iter().fold(0.0_f64, |most, node| {
            let by = node.unknowns.map(|u| self.step[u]);
            most.max(norm([by[3], by[4], by[5]]) / 0.3)
                .max(norm([by[0], by[1], by[2]]) / (0.2 * model.height_m))
        });
        let mut along = if most > 1.0 { 1.0 / most } else { 1.0 };
        let slope_0 = self.slope();
        let before = self.out_of_balance();
        self.start.copy_from_slice(&self.system.ends);
        // Shares of the step with the slope there: still downhill, and uphill.
        let (mut low, mut high) = ((0.0, slope_0), None);
        for _ in 0..12 {
            self.system.advance(model, &self.start, &self.step, along);
            if ahead {
                self.system.evaluate_with_stiffness(model, case, share, BeamPart::Whole);
            } else {
                self.system.evaluate(model, case, share);
            }
            let (slope, left) = (self.system.slope_there(model, &self.step, along), self.out_of_balance());
            // Good where it still goes down, or up by less than it went down before; cut once, not by too much.
            let (least, most) = (0.5 * slope_0, 0.8 * slope_0.abs());
            if left < 0.5 * before || (slope <= most && (high.is_none() || slope >= least)) {
                break;
            }
            if !slope.is_finite() {
                along *= 0.1;
                continue;
            }
            if slope > 0.0 {
                high = Some((along, slope))
            } else {
                low = (along, slope)
            }
            along = between(low, high.unwrap_or((along, slope)));
        }
        self.out_of_balance()
    }

    /// Steps with the factors at hand, as long as they gain much. Gives what is out of balance at their end: never more than
    /// before.
    fn steps_with_same_factors(&mut self, model: &Model, case: &LoadCase, share: f64, before: f64) -> f64 {
        let (mut left, mut gained) = (before, true);
        while gained && left > self.enough {
            let before = left;
            left = self.step_with_same_factors(model, case, share);
            gained = left < QUICK * before;
            if left > before || left.is_nan() {
                // The state had gone out of where these factors hold: back, and on with new ones.
                self.system.ends.copy_from_slice(&self.start);
                left = before;
            }
        }
        left
    }

    fn step_with_same_factors(&mut self, model: &Model, case: &LoadCase, share: f64) -> f64 {
        self.count.steps += 1;
        self.spent += self.system.stiffness.entries() as u64;
        self.find_step();
        self.start.copy_from_slice(&self.system.ends);
        self.system.advance(model, &self.start, &self.step, 1.0);
        self.system.evaluate(model, case, share);
        self.out_of_balance()
    }

    fn find_step(&mut self) {
        for (step, unbalanced) in self.step.iter_mut().zip(&self.system.unbalanced) {
            *step = -unbalanced;
        }
        self.system.stiffness.solve(&mut self.step);
    }

    /// Off a false equilibrium along the eigenvector of the eigenvalue nearest nothing, found by inverse
    /// iteration with the factors at hand, by so much of the height at most.
    fn push(&mut self, model: &Model, share: f64) {
        // Begun in a direction that turns with the yard, and in no plane of symmetry of its own.
        let [east, north] = beside_first_guy(model);
        for (i, node) in model.nodes.iter().enumerate() {
            let by = 1.0 + 0.1 * (i % 7) as f64;
            let parts = [by * east, by * north, by, -by * north, by * east, by];
            for (unknown, part) in node.unknowns.into_iter().zip(parts) {
                self.step[unknown] = part;
            }
        }
        // The held unknowns' rows are those of the identity: their eigenvectors are none of the mast's.
        for unknown in self.system.held(model) {
            self.step[unknown] = 0.0;
        }
        for _ in 0..6 {
            self.system.stiffness.solve(&mut self.step);
            let most = self.step.iter().fold(f64::MIN_POSITIVE, |most, x| most.max(x.abs()));
            self.step.iter_mut().for_each(|x| *x /= most);
        }
        // In balance it goes down to both sides alike: what is left of a slope there is rounding, no way to choose by.
        self.start.copy_from_slice(&self.system.ends);
        self.system.advance(model, &self.start, &self.step, share * model.height_m);
    }

    /// Slope of the energy along the step.
    fn slope(&self) -> f64 {
        self.step.iter().zip(&self.system.unbalanced).map(|(step, g)| step * g).sum()
    }

    /// Largest of what is out of balance, each in its tolerance: at rest where it is one or less.
    fn out_of_balance(&self) -> f64 {
        let allowed = TOLERANCE * self.scale_n;
        // Not f64::max, which would lose a NaN.
        self.system.unbalanced.iter().zip(&self.rounding).fold(0.0_f64, |most, (g, rounding)| {
            let left = g.abs() / (allowed + ROUNDINGS * rounding);
            if left <= most { most } else { left }
        })
    }

    /// The same as a share of all forces.
    fn residual(&self) -> f64 {
        self.system.unbalanced.iter().fold(0.0_f64, |most, g| most.max(g.abs())) / self.scale_n
    }

    fn leans_away(&self) -> bool {
        self.system.ends.iter().any(|end| end.turn[0].abs() < LEAST_COSINE || end.turn[0].is_nan())
    }

    /// Puts the state's forces into the response.
    fn respond(&mut self, model: &Model, case: &LoadCase) {
        let residual = self.residual();
        let (system, response) = (&self.system, &mut self.response);
        response.residual = residual;
        for (to, end) in response.nodes.iter_mut().zip(&system.ends) {
            let [_, x, y, z] = end.turn;
            *to = NodeResponse { displacement_m: end.displacement_m, turn_rad: [2.0 * x, 2.0 * y, 2.0 * z] };
        }
        for (i, element) in model.elements.iter().enumerate() {
            let ends = element.nodes.map(|node| &system.ends[node]);
            let forces = &system.forces[i];
            let load = element_load(case.wind_on_elements_n_per_m[i], element.weight_n_per_m, 1.0);
            let half = scale(load, 0.5 * element.beam.length_m);
            let moments = end_moments(load, element.beam.length_m, ends);
            let on_beam = [0, 1].map(|k| subtract(forces.moment_n_m[k], moments[k]));
            // In the bent beam's own line: what its axial force pushes sideways is no shear.
            let straight = add_scaled(forces.force_n, case.bows[i], -forces.axial_n);
            let at_ends = [subtract(scale(straight, -1.0), half), subtract(straight, half)];
            let bend = |moment: Vector, axis: Vector| norm(cross(axis, moment));
            let shear = |force: Vector, axis: Vector| norm(cross(axis, force));
            response.elements[i] = ElementResponse {
                axial_n: [-dot(at_ends[0], ends[0].axis), dot(at_ends[1], ends[1].axis)],
                bending_n_m: [bend(on_beam[0], ends[0].axis), bend(on_beam[1], ends[1].axis)],
                shear_n: shear(at_ends[0], ends[0].axis).max(shear(at_ends[1], ends[1].axis)),
                torque_n_m: forces.torque_n_m,
                force_on_nodes_n: [add(forces.force_n, half), subtract(half, forces.force_n)],
                moment_on_nodes_n_m: on_beam.map(|moment| scale(moment, -1.0)),
            };
        }
        for (to, pull) in response.guys.iter_mut().zip(&system.pulls) {
            *to = GuyResponse {
                tension_upper_n: norm(pull.upper_n),
                tension_lower_n: norm(pull.lower_n),
                on_mast_n: pull.upper_n,
                on_anchor_n: pull.lower_n,
            };
        }
        let [force_n, moment_n_m] = system.reaction;
        response.base = BaseReaction { force_n, moment_n_m };
    }
}

/// Where the slope comes to nothing between two shares of a step, by the straight line through their slopes.
fn between((low, slope_low): (f64, f64), (high, slope_high): (f64, f64)) -> f64 {
    let share = slope_low / (slope_low - slope_high);
    low + (high - low) * share.clamp(0.1, 0.7)
}

/// Why a mast leans away: pushed off a false equilibrium it buckled.
fn fell(pushes: u32) -> Reason {
    if pushes > 0 { Reason::Buckles } else { Reason::LeansAway }
}

/// A level direction thirty-odd degrees beside the first guy's anchor.
fn beside_first_guy(model: &Model) -> [f64; 2] {
    let [x, y, _] = model.guys.first().map_or([1.0, 0.0, 0.0], |guy| guy.anchor_m);
    let far = hypot(x, y);
    if far > 0.0 { [(0.8 * x - 0.6 * y) / far, (0.6 * x + 0.8 * y) / far] } else { [0.8, 0.6] }
}

/// The sum of all loads and set tensions.
fn force_scale(model: &Model, case: &LoadCase) -> f64 {
    let mut sum = 1.0;
    for (element, &wind) in model.elements.iter().zip(&case.wind_on_elements_n_per_m) {
        sum += norm(element_load(wind, element.weight_n_per_m, 1.0)) * element.beam.length_m;
    }
    for (guy, &wind) in model.guys.iter().zip(&case.wind_on_guys_n_per_m) {
        sum += guy.set_tension_n.unwrap_or(0.0) + norm(wind) * guy.rope.unstressed_m;
    }
    sum + case.points.iter().map(|point| norm(point.force_n)).sum::<f64>()
}

/// What rounding may do to the force or moment at each unknown. A place is known to the last bit of its coordinate, a
/// direction to the last bit of one: the beams' stiffness makes forces of them.
fn rounding(model: &Model) -> Vec<f64> {
    let mut sum = vec![0.0; model.unknowns()];
    for element in &model.elements {
        let beam = &element.beam;
        let l = beam.length_m;
        // A movement is rarely more than a twentieth of the height.
        let place = 1.0 + 0.05 * model.height_m / l;
        let force_n = f64::EPSILON * (beam.axial_n * place + 12.0 * beam.bending_n_m2 / (l * l) * place);
        let moment_n_m = f64::EPSILON * (6.0 * beam.bending_n_m2 / l * place + beam.axial_n * l / 30.0);
        for &node in &element.nodes {
            let Some(node) = model.nodes.get(node) else { continue };
            for (k, &unknown) in node.unknowns.iter().enumerate() {
                sum[unknown] += if k < 3 { force_n } else { moment_n_m };
            }
        }
    }
    sum
}

#[cfg(test)]
mod tests;
