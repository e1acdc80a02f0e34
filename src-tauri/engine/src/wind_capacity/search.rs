//! The largest gust from one direction: the first at which a part that can be shown to hold is fully used, or at
//! which the mast as a whole has too little in hand: it must stand in the wind's pressure times the factor on loads
//! (EN 1993-1-1, 5.2.2, from memory: second order, under the design loads).
//!
//! Use is reckoned against the square of the gust, in which nearly everything grows in a straight line, so that the
//! secant needs two or three solutions. A gust in between is looked at too: where a part is used more in less wind,
//! the lower gust is the limit.

use super::bow::{Bows, combinations};
use super::bracket::{Bracket, MOST_TRIES};
use super::fold::WayUp;
use super::loads::WindLoads;
use super::mast::mast;
use super::parts::{Part, anchor_pull_n, is_more, larger};
use super::standing::Standing;
use super::states::{SolverWay, Starts, States};
use super::types::PartKind;
use crate::resistance::en1993::FACTOR;
use crate::structure::{LoadCase, Model, ModelError, Solver, State};
use crate::wind::Route;

/// No stronger gust is looked at: 80 m/s.
pub const MOST_M_PER_S: f64 = 80.0;
pub(super) const MOST_SQUARED: f64 = MOST_M_PER_S * MOST_M_PER_S;
/// Where only standing or falling is known, the gust's square is found to this share: a twentieth of a per cent of the
/// gust.
pub(super) const NEAR: f64 = 1e-3;
/// Used more than this in still air, the spans' bows may bring a part to all.
const MUCH: f64 = 0.5;
const MOST_TRIES_TO_FALL: u32 = 80;
/// How often on its way up in one direction a mast may swing to another position.
const MOST_SWINGS: u32 = 8;
/// A mast that stands in so many times the pressure is not looked at further.
pub const MOST_TIMES: f64 = 4.0;

/// The mast in a wind from one direction.
pub struct Windy {
    pub model: Model,
    pub loads: WindLoads,
    /// The loads as they are.
    pub case: LoadCase,
    /// The design loads.
    pub design: LoadCase,
    pub bows: Bows,
}

impl Windy {
    /// `toward` is where the wind blows to.
    ///
    /// # Errors
    /// Where the mast can't be made a structure of, such as a guy too heavy for its tension.
    pub fn new(standing: &Standing, route: &Route, toward: [f64; 2]) -> Result<Self, ModelError> {
        let model = Model::build(&mast(standing, toward))?;
        let loads = WindLoads::new(standing, &model, route, toward);
        let case = loads.case(&model);
        let bows = Bows::of(standing, toward);
        Ok(Self { model, loads, design: case.clone(), case, bows })
    }
}

/// What a gust does.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Tried {
    pub gust_squared: f64,
    /// Of the most used part; endless where the mast falls.
    pub utilisation: f64,
    pub part: usize,
    /// The mast does not stand in it, or was not found to.
    pub falls: bool,
}

impl Tried {
    pub fn standing(gust_squared: f64, part: usize) -> Self {
        Self { gust_squared, utilisation: 0.0, part, falls: false }
    }
}

/// Keeps solvers and parts from one direction to the next.
///
/// In every direction the mast is followed from still air up, as a rising wind would take it, beginning with the mast as
/// it was set up. From the direction before comes only where to look first: not what is found there.
pub struct Search<'a> {
    parts: &'a [Part],
    states: States,
    /// Of every part, in the gust looked at last.
    uses: Vec<f64>,
    /// In still air, where the secant begins; and every part's use there.
    still: Tried,
    still_uses: Vec<f64>,
    /// The mast in still air.
    calm: Starts,
    /// The mast under the loads as they are in the strongest wind of this direction in which it was found to stand, and
    /// that gust's square.
    standing: (State, f64),
    /// How it came there.
    way: WayUp,
    /// The gust's square in which it falls: found in this direction, and in the one before.
    falls: Option<f64>,
    fell_before: Option<f64>,
    /// In the direction before: the first full use as a share of the limit, by the gust's square; and whether it was a fall.
    full_share: f64,
    fell_first: bool,
}

impl<'a> Search<'a> {
    pub fn new(parts: &'a [Part], windy: &mut Windy) -> Self {
        let nothing = Tried::standing(0.0, 0);
        let mut states = States::new(&windy.model);
        states.bend(vec![1.0; windy.bows.spans()]);
        let (calm, standing) = (states.starts(), (states.service().state(), 0.0));
        let mut search = Self {
            parts,
            states,
            uses: Vec::new(),
            still: nothing,
            still_uses: Vec::new(),
            calm,
            standing,
            way: WayUp::default(),
            falls: None,
            fell_before: None,
            full_share: 1.0,
            fell_first: false,
        };
        search.begin(windy);
        search
    }

    /// As [`Solver::spent`], over all directions.
    pub fn spent(&self) -> u64 {
        self.states.spent()
    }

    /// Begins a direction in still air, with the mast as it was set up: nothing of the direction before is left but where
    /// to look first. Gives what still air does, the spans bent the worst way where much is used.
    pub fn begin(&mut self, windy: &mut Windy) -> Tried {
        self.fell_before = self.falls.take();
        self.states.begin(&windy.model);
        self.still = self.at(windy, 0.0);
        self.still_uses.clone_from(&self.uses);
        self.calm = self.states.starts();
        self.standing = (self.states.service().state(), 0.0);
        // Where it falls, or more than all is used already, no other shape makes it less than nothing.
        let settled = self.still.utilisation < MUCH || is_more(self.still.utilisation, 1.0);
        if settled { self.still } else { self.worst_in_still_air(windy) }
    }

    fn worst_in_still_air(&mut self, windy: &mut Windy) -> Tried {
        let (mut worst, bent) = (self.still, self.states.bent().to_vec());
        for signs in combinations(windy.bows.spans()).filter(|signs| *signs != bent) {
            self.states.bend(signs);
            self.states.exchange(&mut self.calm.clone());
            let tried = self.at(windy, 0.0);
            if is_more(tried.utilisation, worst.utilisation) {
                worst = tried;
            }
            if worst.falls {
                break;
            }
        }
        self.states.bend(bent);
        self.states.exchange(&mut self.calm.clone());
        worst
    }

    /// What a gust does, by its square.
    pub fn at(&mut self, windy: &mut Windy, gust_squared: f64) -> Tried {
        let came = self.states.settle(windy, gust_squared).is_ok();
        self.came_to(windy, gust_squared, came)
    }

    fn take_uses(&mut self, windy: &Windy, most: &mut Tried) {
        let used = self.parts.iter().map(|part| part.used(&windy.model, self.states.at_rest()).utilisation);
        self.uses.clear();
        self.uses.extend(used);
        for (index, &used) in self.uses.iter().enumerate() {
            if is_more(used, most.utilisation) {
                (most.utilisation, most.part) = (used, index);
            }
        }
    }

    /// The largest gust. `guess` is a gust's square near it, such as that of the direction before. Gives the gust
    /// just below the limit, and the part that is at it there; full use in still air where even that is too much.
    pub fn limit(&mut self, windy: &mut Windy, guess: f64) -> Tried {
        let still = self.begin(windy);
        if is_more(still.utilisation, 1.0) {
            return still;
        }
        let guess = (self.full_share * guess).clamp(1.0, MOST_SQUARED);
        let mut found = self.first_full(windy, 0.5 * guess, guess);
        self.fell_first = found.falls;
        // Half of it: a part that is used more in less wind shows itself there. From half of the guess it came.
        if found.gust_squared > 1.5 * guess || found.gust_squared < 0.75 * guess {
            let mut here = self.states.starts();
            let below = self.at(windy, 0.5 * found.gust_squared);
            if below.utilisation >= 1.0 {
                found = self.first_full(windy, 0.5 * below.gust_squared, below.gust_squared);
            } else {
                self.states.exchange(&mut here);
            }
        }
        let found = self.in_the_worst_shape(windy, found);
        if found.gust_squared <= 0.0 {
            return found;
        }
        let limit = self.with_stability(windy, found);
        let share = found.gust_squared / limit.gust_squared;
        self.full_share = if share.is_finite() { share } else { 1.0 };
        limit
    }

    /// The mast's spans may be bent with the wind or against it; and with the wind along a guy and slack ones to its
    /// sides the mast may swing out to either side. The worst of all counts.
    fn in_the_worst_shape(&mut self, windy: &mut Windy, mut found: Tried) -> Tried {
        for signs in combinations(windy.bows.spans()) {
            let before = self.states.bent().to_vec();
            if found.gust_squared <= 0.0 || before == signs {
                continue;
            }
            let mut here = self.states.design_start();
            self.states.bend(signs);
            match self.in_this_shape(windy, found) {
                Some(less) => found = less,
                None => {
                    self.states.exchange_design(&mut here);
                    self.states.bend(before);
                }
            }
        }
        let mut here = self.states.design_start();
        if found.gust_squared > 0.0 && self.states.swing_over(&windy.model, windy.loads.toward()) {
            match self.use_of_design(windy, found, false) {
                Some(other) if other.utilisation >= 1.0 => {
                    return self.first_full(windy, 0.9 * found.gust_squared, found.gust_squared);
                }
                _ => self.states.exchange_design(&mut here),
            }
        }
        found
    }

    /// The gust of the first full use with the spans bent as they are now, where that is less than what was found. The
    /// loads as they are know no bow: they are looked at no further than where they stand.
    fn in_this_shape(&mut self, windy: &mut Windy, found: Tried) -> Option<Tried> {
        let less = match self.use_of_design(windy, found, true) {
            Some(other) if other.utilisation >= 1.0 => {
                self.first_full(windy, 0.9 * found.gust_squared, found.gust_squared)
            }
            Some(_) => return None,
            // Perhaps too much at once: as the wind rises, then.
            None => {
                self.states.exchange(&mut self.calm.clone());
                self.first_full(windy, 0.5 * found.gust_squared, found.gust_squared)
            }
        };
        (less.gust_squared < found.gust_squared).then_some(less)
    }

    /// What the gust found does under the design loads alone, in another shape than that in which it was found; none where
    /// the mast does not come to stand in it.
    fn use_of_design(&mut self, windy: &mut Windy, found: Tried, straight: bool) -> Option<Tried> {
        self.states.settle_service(windy, found.gust_squared).ok()?;
        self.states.reshape(windy, found.gust_squared, straight).ok()?;
        let mut other = Tried { utilisation: 0.0, ..found };
        self.take_uses(windy, &mut other);
        if other.utilisation.is_nan() {
            other.utilisation = f64::INFINITY;
        }
        Some(other)
    }

    /// What a gust does to the mast that goes on into it from the states at hand, without leaving what is stable. Where it
    /// does not come there, the states at hand are none.
    fn follow(&mut self, windy: &mut Windy, gust_squared: f64) -> Tried {
        let came = self.states.go_on(windy, gust_squared).is_ok();
        self.came_to(windy, gust_squared, came)
    }

    fn came_to(&mut self, windy: &Windy, gust_squared: f64, came: bool) -> Tried {
        let mut most = Tried::standing(gust_squared, self.whole());
        if came {
            self.take_uses(windy, &mut most);
        } else {
            (most.utilisation, most.falls) = (f64::INFINITY, true);
        }
        most
    }

    /// The gust in which the first part is fully used, looked for from `first` on, then at `guess`. Every gust is gone into
    /// from the strongest one below it in which the mast was found to stand, or from the states at hand; so a fall is
    /// told only from nearby.
    fn first_full(&mut self, windy: &mut Windy, first: f64, guess: f64) -> Tried {
        let mut bracket = Bracket::new(self.still, self.still_uses.clone(), self.fell_first);
        let mut below = self.states.starts();
        let mut next = first;
        for round in 0..MOST_TRIES {
            let mut tried = if next > 0.0 { self.follow(windy, next) } else { self.at(windy, 0.0) };
            if tried.falls {
                self.states.exchange(&mut below.clone());
                if bracket.is_close(next) {
                    // No way on through stable states; yet it may swing to another position and stand there.
                    let came = self.states.swing(windy, next).is_ok();
                    tried = self.came_to(windy, next, came);
                    bracket.swung();
                }
                if tried.falls && bracket.is_close(next) {
                    self.states.exchange(&mut below);
                    return bracket.low_up_to(tried);
                }
            }
            if tried.utilisation >= 1.0 && next <= 0.0 {
                return tried;
            }
            if tried.utilisation < 1.0 {
                below = self.states.starts();
            }
            if let Some(found) = bracket.learn(tried, &self.uses, self.states.firmness()) {
                return found;
            }
            next = if round == 0 && bracket.high.is_none() {
                bracket.at_guess(guess)
            } else {
                bracket.next(round)
            };
        }
        bracket.best()
    }

    /// Less where the mast as a whole has too little in hand.
    fn with_stability(&mut self, windy: &mut Windy, found: Tried) -> Tried {
        self.stands_here(windy, found.gust_squared);
        let wanted = FACTOR * found.gust_squared;
        let stood = self.stands_up_to(windy, wanted, !found.falls);
        if stood >= wanted {
            return found;
        }
        Tried { utilisation: 1.0, ..Tried::standing(stood / FACTOR, self.whole()) }
    }

    /// The largest gust's square up to `wanted` in which the mast stands, to a thousandth.
    fn stands_up_to(&mut self, windy: &mut Windy, wanted: f64, by_design: bool) -> f64 {
        // Under the design loads it stands in nearly as much: from there it is not far.
        if self.goes_on(windy, wanted) || by_design && self.goes_on_from_design(windy, wanted) {
            return self.stands_at(wanted);
        }
        self.climb(windy, wanted)
    }

    /// Goes up to `wanted`, or to where the mast falls: in steps that are four times as long where it comes through, half as
    /// long where it does not, and to where its way up is about to end once that is seen.
    fn climb(&mut self, windy: &mut Windy, wanted: f64) -> f64 {
        let before = self.fell_before.filter(|&at| at < wanted && at > self.standing.1);
        // Right below where it fell in the direction before, otherwise half of the way.
        let below = before.map(|at| (1.0 - 0.6 * NEAR) * at - self.standing.1).filter(|&step| step > 0.0);
        let mut step = below.unwrap_or(0.5 * (wanted - self.standing.1));
        let (mut failed, mut swings) = (f64::INFINITY, 0);
        let mut beside = below.is_some();
        for _ in 0..MOST_TRIES_TO_FALL {
            let stood = self.standing.1;
            let next = (stood + step).min(wanted);
            let near = NEAR * next;
            if self.goes_on(windy, next) {
                self.stands_at(next);
                if next >= wanted {
                    return wanted;
                }
                failed = if next < failed { failed } else { f64::INFINITY };
                // Not past what failed, from farther away, in one go.
                step = match (beside, failed.is_finite()) {
                    (true, _) => near,
                    (false, true) => {
                        let left = failed - next;
                        self.beyond(failed).unwrap_or(step.clamp(0.5 * left, left).max(near))
                    }
                    (false, false) => 4.0 * step,
                };
                beside = false;
                continue;
            }
            (failed, beside) = (next, false);
            if next - stood > near * 1.000_001 {
                step = self.beyond(next).unwrap_or((0.5 * (next - stood)).max(near));
                continue;
            }
            // No way on through stable states; yet it may swing to another position and stand there.
            swings += 1;
            // Right where it loses its stability the energy is as good as level: a little farther on it is seen which way it
            // swings.
            let farther = [next, (1.0 + 8.0 * NEAR) * next].map(|at| at.min(wanted));
            let swung = farther.into_iter().find(|&at| self.swings(windy, at));
            let Some(at) = swung.filter(|_| swings <= MOST_SWINGS) else {
                self.falls = Some(next);
                break;
            };
            self.way = WayUp::default();
            self.stands_at(at);
            if at >= wanted {
                return wanted;
            }
            (step, failed) = (4.0 * near, f64::INFINITY);
        }
        self.states.service().exchange(&mut self.standing.0.clone());
        self.standing.1
    }

    fn stands_at(&mut self, gust_squared: f64) -> f64 {
        let service = self.states.service();
        self.way.stood(gust_squared, service.firmness());
        self.standing = (service.state(), gust_squared);
        gust_squared
    }

    /// Begins the way up of the loads as they are in a gust in which the mast was found to stand.
    fn stands_here(&mut self, windy: &mut Windy, gust_squared: f64) {
        if self.states.settle_service(windy, gust_squared).is_ok() {
            self.way = WayUp::default();
            self.stands_at(gust_squared);
        }
    }

    /// The step from where the mast stands to where its way up is about to end; none where that is not before the fall.
    fn beyond(&self, falls: f64) -> Option<f64> {
        let next = self.way.look_at(self.standing.1, falls)?;
        Some((next - self.standing.1).max(NEAR * next))
    }

    /// Whether the mast stands in a gust that is near to the one in which it was found to stand last.
    fn goes_on(&mut self, windy: &mut Windy, gust_squared: f64) -> bool {
        self.comes_to_rest(windy, gust_squared, self.standing.0.clone(), Solver::go_on)
    }

    /// The same from where it stands under the design loads of another gust.
    fn goes_on_from_design(&mut self, windy: &mut Windy, gust_squared: f64) -> bool {
        self.comes_to_rest(windy, gust_squared, self.states.design_start(), Solver::go_on)
    }

    /// Whether it swings to some position in which it stands.
    fn swings(&mut self, windy: &mut Windy, gust_squared: f64) -> bool {
        self.comes_to_rest(windy, gust_squared, self.standing.0.clone(), Solver::swing)
    }

    /// Whether the mast comes to rest in a gust, under the loads as they are, from this state and in this way.
    fn comes_to_rest(
        &mut self,
        windy: &mut Windy,
        gust_squared: f64,
        mut from: State,
        way: SolverWay,
    ) -> bool {
        windy.loads.set(&mut windy.case, gust_squared);
        let service = self.states.service();
        service.exchange(&mut from);
        way(service, &windy.model, &windy.case).is_ok()
    }

    /// How many times the wind's pressure the mast stands in, for a gust in which it does; [`MOST_TIMES`] where it stands
    /// in all of that.
    pub fn stands_times(&mut self, windy: &mut Windy, gust_squared: f64) -> f64 {
        if gust_squared <= 0.0 {
            return MOST_TIMES;
        }
        self.stands_here(windy, gust_squared);
        self.stands_up_to(windy, MOST_TIMES * gust_squared, false) / gust_squared
    }

    /// Index of the mast as a whole among the parts.
    pub fn whole(&self) -> usize {
        self.parts.iter().position(|part| part.part.kind == PartKind::WholeMast).unwrap_or(0)
    }

    /// The hardest pulls at anchors, each given by its guys, at a gust, taken into the list; false where the mast does not
    /// stand in it.
    pub fn greatest_pulls(
        &mut self,
        windy: &mut Windy,
        gust_squared: f64,
        anchors: &[Vec<usize>],
        pulls_n: &mut [f64],
    ) -> bool {
        self.begin(windy);
        if self.states.settle(windy, gust_squared).is_err() {
            return false;
        }
        for (response, share) in self.states.at_rest() {
            for (most, guys) in pulls_n.iter_mut().zip(anchors) {
                *most = larger(*most, share * anchor_pull_n(response, guys));
            }
        }
        true
    }
}
