//! The gusts looked at on the way to the first full use, and where to look next.

use super::fold::WayUp;
use super::search::{MOST_SQUARED, NEAR, Tried};

/// Used this much of what still air leaves, and less than all, is at the limit: a tenth of a per cent of the gust.
const NEARLY_ALL: f64 = 0.998;
/// Where the secant aims.
const AIM: f64 = 0.999;
pub const MOST_TRIES: u32 = 60;
/// Farther apart than this share of the gust's square is far from the guess.
const NOT_NEAR: f64 = 0.1;
/// So many times farther than it came before goes a mast that once did not come through.
const STRIDES: f64 = 4.0;
/// After so many tries only halving is trusted.
const MANY: u32 = 12;

/// A gust with every part's use in it.
struct Seen {
    tried: Tried,
    uses: Vec<f64>,
}

/// What is known.
pub struct Bracket {
    still: Seen,
    /// The strongest gust in which less than all is used, and the weakest in which all is, or the mast falls.
    pub low: Option<Tried>,
    pub high: Option<Tried>,
    /// The first gust in which it fell, while none was known in which it stands.
    fell_first_at: Option<Tried>,
    /// The low from which the high was looked at.
    high_from: f64,
    /// The last two gusts with a use.
    last: Option<Seen>,
    before: Option<Seen>,
    /// How far the mast came in one step after it once did not come through: the next goes no more than [`STRIDES`] times
    /// as far.
    stride: Option<f64>,
    /// The way up on which the low was found.
    way: WayUp,
    /// How far from the guess a fall is looked for next, where it was a fall in the direction before.
    apart: Option<f64>,
}

impl Bracket {
    /// Still air, with every part's use. `fell` says that it was a fall in the direction before: the guess is then where
    /// it falls.
    pub fn new(still: Tried, uses: Vec<f64>, fell: bool) -> Self {
        let apart = fell.then_some(0.9 * NEAR);
        let still = Seen { tried: still, uses };
        Self {
            still,
            low: None,
            high: None,
            fell_first_at: None,
            high_from: 0.0,
            last: None,
            before: None,
            stride: None,
            way: WayUp::default(),
            apart,
        }
    }

    /// Whether a gust is so near above one in which the mast stands that a fall in it is settled.
    pub fn is_close(&self, gust_squared: f64) -> bool {
        let near = |low: Tried| gust_squared - low.gust_squared <= NEAR * gust_squared;
        self.low.is_some_and(near)
    }

    /// A little below a fall that is expected: there it still stands.
    pub fn at_guess(&self, guess: f64) -> f64 {
        if self.apart.is_some() { (1.0 - 0.6 * NEAR) * guess } else { guess }
    }

    /// It stands elsewhere from here on: this is another way up.
    pub fn swung(&mut self) {
        self.way = WayUp::default();
    }

    /// Takes in what a gust does, with how firm the mast stands there. Gives the limit where it is found.
    pub fn learn(&mut self, tried: Tried, uses: &[f64], firmness: f64) -> Option<Tried> {
        if !tried.falls {
            self.before = self.last.replace(Seen { tried, uses: uses.to_vec() });
        }
        if tried.utilisation < 1.0 {
            if self.high.is_some_and(|high| high.falls) {
                let from = self.low.map_or(0.0, |low| low.gust_squared);
                self.stride = Some((tried.gust_squared - from).max(NEAR * tried.gust_squared));
            } else {
                self.stride = self.stride.map(|stride| STRIDES * stride);
            }
            self.way.stood(tried.gust_squared, firmness);
            // It was not come to from still air: from there it is.
            let first = self.fell_first_at.filter(|_| self.low.is_none());
            self.low = Some(tried);
            self.high = first.or(self.high);
            // What was not come to from farther away was no fall.
            self.high = self.high.filter(|high| high.gust_squared > tried.gust_squared);
            // By what the wind adds: a part that is nearly used up in still air tells little of the gust.
            let nearly = 1.0 - tried.utilisation <= (1.0 - NEARLY_ALL) * (1.0 - self.still.tried.utilisation);
            return (nearly || tried.gust_squared >= MOST_SQUARED).then_some(tried);
        }
        if tried.falls && self.low.is_none() {
            self.fell_first_at = self.fell_first_at.or(Some(tried));
        }
        self.high = Some(tried);
        self.high_from = self.low.map_or(0.0, |low| low.gust_squared);
        (!tried.falls && self.is_close(tried.gust_squared)).then(|| self.low_up_to(tried))
    }

    /// The gust below one in which a part is fully used, with that part: it is the weakest.
    pub fn low_up_to(&self, high: Tried) -> Tried {
        Tried { part: high.part, falls: high.falls, ..self.low.unwrap_or(self.still.tried) }
    }

    /// The best that is known.
    pub fn best(&self) -> Tried {
        match (self.low, self.high) {
            (Some(_), Some(high)) => self.low_up_to(high),
            (Some(low), None) => low,
            _ => Tried { utilisation: f64::INFINITY, falls: true, ..self.still.tried },
        }
    }

    /// Where to look next: where the line through known uses comes to the aim; in the middle where that is no use.
    pub fn next(&mut self, round: u32) -> f64 {
        let on_line = self.on_line();
        match (self.low, self.high) {
            (None, None) => 1.0,
            (None, Some(high)) if high.gust_squared < 0.1 || high.falls && round > 1 => 0.0,
            (None, Some(high)) if high.falls => self.down_from(high.gust_squared, 0.5),
            (None, Some(high)) => {
                on_line.unwrap_or(0.0).clamp(0.1 * high.gust_squared, 0.9999 * high.gust_squared)
            }
            (Some(low), None) => {
                let most = self.step().map_or(4.0, |apart| 1.0 + apart);
                let most =
                    self.stride.map_or(most, |stride| most.min(1.0 + STRIDES * stride / low.gust_squared));
                let least = most.min(1.001);
                let wanted = on_line.unwrap_or(f64::INFINITY);
                wanted.clamp(least * low.gust_squared, most * low.gust_squared).min(MOST_SQUARED)
            }
            (Some(low), Some(high)) => self.between(low, high, on_line, round),
        }
    }

    fn between(&mut self, low: Tried, high: Tried, on_line: Option<f64>, round: u32) -> f64 {
        let (a, b) = (low.gust_squared, high.gust_squared);
        // Once more, from here, where it was looked at from much farther away.
        if high.falls && (self.is_close(b) || b - a < 0.3 * (b - self.high_from)) {
            return b;
        }
        let middle = 0.5 * (a + b);
        if round > if high.falls { MANY } else { 2 * MANY } {
            return middle;
        }
        let within = |next: &f64| *next > a && *next < b;
        if !high.falls {
            return on_line.filter(within).unwrap_or(middle);
        }
        // Where it does not stand any more is seen from below.
        if let Some(end) = self.way.look_at(a, b).filter(within) {
            return on_line.filter(within).map_or(end, |full| full.min(end));
        }
        // Near a fall the use says little; where it does it lies nearer.
        let full = on_line.filter(|next| *next > a && *next < middle);
        full.or_else(|| Some(self.beside_guess(a, b)).filter(within)).unwrap_or(middle)
    }

    /// On from where it stands, or back from where it does not, whichever was tried last.
    fn beside_guess(&mut self, low: f64, high: f64) -> f64 {
        // Not yet near it: half of the way.
        if high - low > NOT_NEAR * high {
            return f64::NAN;
        }
        let stood_last = self.last.as_ref().is_some_and(|last| last.tried.gust_squared == low);
        match self.step() {
            Some(apart) if stood_last => (1.0 + apart) * low,
            Some(apart) => (1.0 - apart) * high,
            None => f64::NAN,
        }
    }

    fn down_from(&mut self, high: f64, otherwise: f64) -> f64 {
        high * self.step().map_or(otherwise, |apart| (1.0 - apart).max(otherwise))
    }

    /// How far to go beside the guess, four times farther each time.
    fn step(&mut self) -> Option<f64> {
        let apart = self.apart;
        self.apart = apart.map(|apart| 4.0 * apart).filter(|&apart| apart < 0.5);
        apart
    }

    /// Where the first part's use comes to the aim.
    fn on_line(&self) -> Option<f64> {
        let aim = 1.0 - (1.0 - AIM) * (1.0 - self.still.tried.utilisation);
        // In the low no part is used up: what says so of one had another way up before it.
        let low = self.low.map_or(0.0, |low| low.gust_squared);
        let last = self.last.as_ref()?;
        let before = self.before.as_ref();
        let at = |seen: &Seen, part: usize| {
            let used = seen.uses.get(part).copied().unwrap_or(f64::NAN);
            (seen.tried.gust_squared, used)
        };
        let full = (0..last.uses.len()).filter_map(|part| {
            let (still, last) = (at(&self.still, part), at(last, part));
            match before {
                Some(before) => curve(still, at(before, part), last, aim).or_else(|| line(still, last, aim)),
                None => line(still, last, aim),
            }
            .filter(|&full| full > low)
        });
        full.min_by(f64::total_cmp)
    }
}

/// Where the straight line through two uses, each with its gust before it, comes to the aim; none where it does not rise.
fn line((a, used_a): (f64, f64), (b, used_b): (f64, f64), aim: f64) -> Option<f64> {
    let rise = (used_b - used_a) / (b - a);
    let at = b + (aim - used_b) / rise;
    (rise > 0.0 && at.is_finite() && at > 0.0).then_some(at)
}

/// The same by the parabola through three, in Newton's form, from the line through the last two.
fn curve(a: (f64, f64), b: (f64, f64), c: (f64, f64), aim: f64) -> Option<f64> {
    let rise = |x: (f64, f64), y: (f64, f64)| (y.1 - x.1) / (y.0 - x.0);
    let bend = (rise(b, c) - rise(a, b)) / (c.0 - a.0);
    let by_line = line(b, c, aim)?;
    let mut at = by_line;
    for _ in 0..4 {
        at = c.0 + (aim - c.1) / (rise(b, c) + (at - b.0) * bend);
    }
    // Far from what is known a parabola says nothing.
    Some(if (0.8..1.25).contains(&(at / by_line)) { at } else { by_line })
}
