//! The largest gust from one direction: the first at which a part that can be shown to hold is fully used, or at
//! which the mast as a whole has too little in hand: it must stand in the wind's pressure times the factor on loads
//! (EN 1993-1-1, 5.2.2, from memory: second order, under the design loads).
//!
//! Use is reckoned against the square of the gust, in which nearly everything grows in a straight line, so that the
//! secant needs two or three solutions. A gust in between is looked at too: where a part is used more in less wind,
//! the lower gust is the limit.

use super::bow::{Bows, combinations};
use super::loads::WindLoads;
use super::mast::mast;
use super::parts::{Check, Part, anchor_pull_n, is_more, larger};
use super::standing::Standing;
use super::states::{Starts, States};
use crate::resistance::en1993::FACTOR;
use crate::structure::{LoadCase, Model, ModelError, Outcome, State};
use crate::wind::Route;

/// No stronger gust is looked at: 80 m/s.
pub const MOST_M_PER_S: f64 = 80.0;
const MOST_SQUARED: f64 = MOST_M_PER_S * MOST_M_PER_S;
/// Used this much and less than all is at the limit: a tenth of a per cent of the gust.
const NEARLY_ALL: f64 = 0.998;
/// Where the secant aims.
const AIM: f64 = 0.999;
/// Where only standing or falling is known, the gust's square is found to this share.
const NEAR: f64 = 2e-3;
/// The same where falling makes the limit: one and a half per cent of the gust.
const NEAR_FALLING: f64 = 3e-2;
const MOST_TRIES: u32 = 40;
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
    /// Share of the loads under which it stood: all of them where it stands.
    stood_at_share: f64,
}

/// Keeps solver and parts from one direction to the next.
pub struct Search<'a> {
    parts: &'a [Part],
    states: States,
    /// In still air, where the secant begins.
    still: Tried,
    /// The gust's square of the direction before, where the mast as a whole was the limit.
    fell_before: Option<f64>,
    /// The mast as it stood, in the direction before, in the gust below the limit and in the one above: the next
    /// solutions start there.
    below: Starts,
    above: State,
    /// Where the wind blew to then.
    toward: [f64; 2],
}

impl<'a> Search<'a> {
    pub fn new(parts: &'a [Part], windy: &mut Windy) -> Self {
        let nothing = Tried { gust_squared: 0.0, utilisation: 0.0, part: 0, stood_at_share: 1.0 };
        let mut states = States::new(&windy.model);
        states.bend(vec![1.0; windy.bows.spans()]);
        let (below, above) = (states.starts(), states.service().state());
        let mut search = Self {
            parts,
            states,
            still: nothing,
            fell_before: None,
            below,
            above,
            toward: windy.loads.toward(),
        };
        search.still = search.at(windy, 0.0);
        search
    }

    /// What a gust does, by its square.
    pub fn at(&mut self, windy: &mut Windy, gust_squared: f64) -> Tried {
        let mut most = Tried { gust_squared, utilisation: 0.0, part: self.whole(), stood_at_share: 1.0 };
        match self.states.settle(windy, gust_squared) {
            Err(fallen) => {
                (most.utilisation, most.stood_at_share) = (f64::INFINITY, fallen.stood_at_share);
            }
            Ok(()) => self.take_uses(windy, &mut most),
        }
        most
    }

    fn take_uses(&self, windy: &Windy, most: &mut Tried) {
        for (index, part) in self.parts.iter().enumerate() {
            let used = part.used(&windy.model, self.states.at_rest()).utilisation;
            if is_more(used, most.utilisation) {
                (most.utilisation, most.part) = (used, index);
            }
        }
    }

    /// The largest gust. `guess` is a gust's square near it, such as that of the direction before. Gives the gust
    /// just below the limit, and the part that is at it there; endless use where even still air is too much.
    pub fn limit(&mut self, windy: &mut Windy, guess: f64) -> Tried {
        // A mast that falls in still air falls from every direction.
        if self.still.utilisation.is_infinite() {
            return self.still;
        }
        let turn = self.turn_to(windy.loads.toward());
        self.states.carry_over(&windy.model, turn);
        let found = self.first_full(windy, guess);
        let found = self.in_the_worst_shape(windy, found);
        if found.gust_squared <= 0.0 {
            return found;
        }
        // Half of it: a part that is used more in less wind shows itself there.
        self.states.exchange(&mut self.below);
        self.states.carry_over(&windy.model, turn);
        let below = self.at(windy, 0.5 * found.gust_squared);
        self.states.exchange(&mut self.below);
        let found = if below.utilisation >= 1.0 { self.first_full(windy, below.gust_squared) } else { found };
        self.states.service().exchange(&mut self.above);
        self.states.service().carry_over(&windy.model, turn);
        let found = self.with_stability(windy, found);
        self.states.service().exchange(&mut self.above);
        found
    }

    /// How far the wind has turned since the last direction, as cosine and sine.
    fn turn_to(&mut self, toward: [f64; 2]) -> [f64; 2] {
        let [x, y] = std::mem::replace(&mut self.toward, toward);
        [x * toward[0] + y * toward[1], x * toward[1] - y * toward[0]]
    }

    /// The mast's spans may be bent with the wind or against it; and with the wind along a guy and slack ones to its
    /// sides the mast may swing out to either side. The worst of all counts.
    fn in_the_worst_shape(&mut self, windy: &mut Windy, mut found: Tried) -> Tried {
        for signs in combinations(windy.bows.spans()) {
            let before = self.states.bent().to_vec();
            if found.gust_squared <= 0.0 || before == signs {
                continue;
            }
            let mut here = self.states.starts();
            self.states.bend(signs);
            if self.is_worse(windy, found) {
                found = self.first_full(windy, found.gust_squared);
            } else {
                self.states.exchange(&mut here);
                self.states.bend(before);
            }
        }
        let mut here = self.states.starts();
        if found.gust_squared > 0.0 && self.states.swing_over(&windy.model, windy.loads.toward()) {
            if self.is_worse(windy, found) {
                return self.first_full(windy, found.gust_squared);
            }
            self.states.exchange(&mut here);
        }
        found
    }

    /// Whether another shape of the mast is fully used where one was found to be nearly so.
    fn is_worse(&mut self, windy: &mut Windy, found: Tried) -> bool {
        let mut other = Tried { utilisation: 0.0, ..found };
        // The loads as they are know no bow.
        match self.states.settle_service(windy, found.gust_squared) {
            Ok(()) => match self.states.settle_design(windy, found.gust_squared) {
                Ok(()) => self.take_uses(windy, &mut other),
                Err(_) => return true,
            },
            Err(_) => return true,
        }
        other.utilisation.is_nan() || other.utilisation >= 1.0
    }

    fn first_full(&mut self, windy: &mut Windy, guess: f64) -> Tried {
        let (mut low, mut high): (Option<Tried>, Option<Tried>) = (None, None);
        let mut next = guess.clamp(1.0, MOST_SQUARED);
        for _ in 0..MOST_TRIES {
            let tried = self.at(windy, next);
            if tried.utilisation < 1.0 {
                let done = tried.utilisation >= NEARLY_ALL || next >= MOST_SQUARED;
                low = Some(tried);
                if done {
                    return tried;
                }
            } else {
                if next <= 0.0 {
                    return tried;
                }
                high = Some(tried);
            }
            next = self.next(low, high);
            if let (Some(low), Some(high)) = (low, high)
                && high.gust_squared - low.gust_squared <= NEAR * high.gust_squared
                && (high.utilisation.is_infinite() || next <= low.gust_squared)
            {
                return Tried { part: high.part, ..low };
            }
        }
        // The part that is over the limit just above names the weakest.
        match (low, high) {
            (Some(low), Some(high)) => Tried { part: high.part, ..low },
            (Some(low), None) => low,
            _ => Tried { utilisation: f64::INFINITY, ..self.still },
        }
    }

    /// Where to look next: where the line through two known uses comes to the aim; in the middle where that is no use.
    fn next(&self, low: Option<Tried>, high: Option<Tried>) -> f64 {
        match (low, high) {
            (Some(low), None) => {
                let on_line = line(self.still, low).unwrap_or(f64::INFINITY);
                on_line.clamp(1.001 * low.gust_squared, 4.0 * low.gust_squared).min(MOST_SQUARED)
            }
            (None, Some(high)) if high.gust_squared < 0.1 => 0.0,
            (None, Some(high)) if high.utilisation.is_infinite() => {
                high.gust_squared * (0.98 * high.stood_at_share).clamp(0.05, 0.95)
            }
            (None, Some(high)) => {
                let on_line = line(self.still, high).unwrap_or(0.0);
                on_line.clamp(0.1 * high.gust_squared, 0.9999 * high.gust_squared)
            }
            (Some(low), Some(high)) => {
                let (a, b) = (low.gust_squared, high.gust_squared);
                let within = |next: f64| next > a && next < b;
                let stood = 1.01 * high.stood_at_share * b;
                match line(low, high) {
                    Some(on_line) if within(on_line) => on_line,
                    None if high.utilisation.is_infinite() && within(stood) => stood,
                    _ => 0.5 * (a + b),
                }
            }
            (None, None) => 1.0,
        }
    }

    /// Less where the mast as a whole has too little in hand.
    fn with_stability(&mut self, windy: &mut Windy, found: Tried) -> Tried {
        let Err(share) = self.stands_in(windy, FACTOR * found.gust_squared) else {
            self.fell_before = None;
            return found;
        };
        let (mut low, mut high) = (0.0, found.gust_squared);
        // It stood at this share of all loads, and will do so at about this share of the wind; or a little below where
        // it did in the direction before.
        let mut next = self.fell_before.map_or(share * high, |before| 0.985 * before);
        while high - low > NEAR_FALLING * high && high > 0.1 {
            if !(next > low && next < high) {
                next = 0.5 * (low + high);
            }
            match self.stands_in(windy, FACTOR * next) {
                Ok(()) => {
                    low = next;
                    next = (1.0 + 0.9 * NEAR_FALLING) * low;
                }
                Err(share) => {
                    high = next;
                    next = (share * high).min(0.98 * high);
                }
            }
        }
        self.fell_before = (low > 0.0).then_some(low);
        Tried { gust_squared: low, utilisation: 1.0, part: self.whole(), stood_at_share: 1.0 }
    }

    /// Whether the mast stands in a gust; if not, at which share of the loads it still stood.
    fn stands_in(&mut self, windy: &mut Windy, gust_squared: f64) -> Result<(), f64> {
        windy.loads.set(&mut windy.case, gust_squared);
        match self.states.service().solve(&windy.model, &windy.case) {
            Outcome::Stands(_) => Ok(()),
            Outcome::Unstable(fallen) => Err(fallen.stood_at_share),
        }
    }

    /// How many times the wind's pressure the mast stands in, for a gust in which it does.
    ///
    /// # Accuracy
    /// 5 %, on the low side; [`MOST_TIMES`] where it stands in all of that.
    pub fn stands_times(&mut self, windy: &mut Windy, gust_squared: f64) -> f64 {
        if self.stands_in(windy, MOST_TIMES * gust_squared).is_ok() {
            return MOST_TIMES;
        }
        let (mut low, mut high) = (1.0, MOST_TIMES);
        while high > 1.05 * low {
            let middle = (low * high).sqrt();
            if self.stands_in(windy, middle * gust_squared).is_ok() { low = middle } else { high = middle }
        }
        low
    }

    /// Index of the mast as a whole among the parts.
    pub fn whole(&self) -> usize {
        self.parts.iter().position(|part| part.check == Check::Whole).unwrap_or(0)
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

/// Where the straight line through two uses comes to the aim; none where it does not rise.
fn line(a: Tried, b: Tried) -> Option<f64> {
    let rise = b.utilisation - a.utilisation;
    let on_line = a.gust_squared + (AIM - a.utilisation) * (b.gust_squared - a.gust_squared) / rise;
    (rise.is_finite() && rise > 0.0 && on_line.is_finite()).then_some(on_line)
}
