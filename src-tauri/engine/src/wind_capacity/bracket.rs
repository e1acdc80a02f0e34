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

#[cfg(test)]
mod tests {
    use super::*;

    /// By hand: from 0.2 in still air to 0.6 at 100 the use comes to 1 at 200, and to 0.8 at 150.
    #[test]
    fn a_line_comes_to_the_aim_where_it_does() {
        let still = (0.0, 0.2);
        assert!((line(still, (100.0, 0.6), 1.0).unwrap() - 200.0).abs() < 1e-9);
        assert!((line(still, (100.0, 0.6), 0.8).unwrap() - 150.0).abs() < 1e-9);
        // From beyond it back.
        assert!((line(still, (400.0, 1.8), 1.0).unwrap() - 200.0).abs() < 1e-9);
        for level_or_falling in [0.2, 0.1] {
            assert!(line(still, (100.0, level_or_falling), 1.0).is_none());
        }
        // Used up in still air already: there is no gust before which it is not.
        assert!(line((0.0, 1.5), (100.0, 1.6), 1.0).is_none());
    }

    /// u = 0.1 + 0.001·q + 0.00001·q² is 0.84 at 225.8 and 1 at 254.14 (from the quadratic formula).
    #[test]
    fn a_parabola_comes_to_the_aim_where_it_does() {
        let use_at = |q: f64| (q, 0.1 + 0.001 * q + 1e-5 * q * q);
        let at = |aim: f64| curve(use_at(0.0), use_at(150.0), use_at(220.0), aim).unwrap();
        let root = |aim: f64| (-0.001 + (1e-6 + 4e-5 * (aim - 0.1)).sqrt()) / 2e-5;
        assert!((root(1.0) - 254.138).abs() < 1e-3);
        for aim in [0.84, 1.0] {
            assert!((at(aim) - root(aim)).abs() < 0.01, "{} {}", at(aim), root(aim));
        }
        // A bend that leads far from what is known says nothing: the line through the last two does, 100 + 0.9/0.009.
        let bent = curve((0.0, 0.0), (90.0, 0.01), (100.0, 0.1), 1.0).unwrap();
        assert!((bent - 200.0).abs() < 1e-9, "{bent}");
    }

    /// The search's way with a bracket, on a mast whose parts' uses in a gust are known; none where it falls. Gives what it
    /// finds, and after how many gusts.
    fn found(
        mut bracket: Bracket,
        first: f64,
        guess: f64,
        uses_in: impl Fn(f64) -> Option<Vec<f64>>,
    ) -> (Tried, u32) {
        let mut next = first;
        for round in 0..MOST_TRIES {
            let uses = uses_in(next).unwrap_or_default();
            let falls = uses.is_empty();
            let most = uses.iter().copied().fold(0.0, f64::max);
            let part = uses.iter().position(|used| *used == most).unwrap_or(9);
            let utilisation = if falls { f64::INFINITY } else { most };
            let tried = Tried { gust_squared: next, utilisation, part, falls };
            if falls && bracket.is_close(next) {
                return (bracket.low_up_to(tried), round + 1);
            }
            if let Some(found) = bracket.learn(tried, &uses, 0.0) {
                return (found, round + 1);
            }
            next = if round == 0 && bracket.high.is_none() {
                bracket.at_guess(guess)
            } else {
                bracket.next(round)
            };
        }
        (bracket.best(), MOST_TRIES)
    }

    fn from_still(uses: &[f64], fell: bool) -> Bracket {
        let utilisation = uses.iter().copied().fold(0.0, f64::max);
        let still = Tried { gust_squared: 0.0, utilisation, part: 0, falls: false };
        Bracket::new(still, uses.to_vec(), fell)
    }

    /// What grows in a straight line is found by the line through still air and one gust; what bends, by one more.
    #[test]
    fn what_grows_in_a_straight_line_is_found_at_once() {
        let straight = |q: f64| Some(vec![0.2 + 0.004 * q]);
        for (first, guess, tries) in
            [(50.0, 100.0, 3), (100.0, 150.0, 3), (500.0, 1000.0, 2), (100.0, 400.0, 3)]
        {
            let (limit, after) = found(from_still(&[0.2], false), first, guess, straight);
            assert!((199.6..200.0).contains(&limit.gust_squared), "{limit:?}");
            assert!(!limit.falls && after == tries, "{after} from {first}");
        }
        let bent = |q: f64| Some(vec![0.1 + 0.001 * q + 1e-5 * q * q]);
        let (limit, after) = found(from_still(&[0.1], false), 100.0, 200.0, bent);
        assert!((253.5..254.14).contains(&limit.gust_squared) && after <= 4, "{limit:?} after {after}");
    }

    /// The first of several: one that is used most in still air, one that the wind uses up, at 100, one that it spares.
    #[test]
    fn the_first_part_is_found_whichever_is_used_most_before() {
        let uses = |q: f64| Some(vec![0.5 + 0.0005 * q, 0.01 * q, 0.6 - 0.001 * q]);
        let (limit, after) = found(from_still(&[0.5, 0.0, 0.6], false), 20.0, 40.0, uses);
        assert!((99.8..100.0).contains(&limit.gust_squared) && limit.part == 1, "{limit:?}");
        assert!(after <= 4, "{after}");
    }

    /// It falls at 150, without a warning, little used: found to a thousandth, from wherever it is looked for.
    #[test]
    fn a_fall_is_found_to_a_thousandth() {
        let falls = |q: f64| (q < 150.0).then(|| vec![0.001 * q]);
        for (first, guess, fell, most_tries) in [
            (50.0, 100.0, false, 20),
            (200.0, 400.0, false, 20),
            // It fell in the direction before: hardly nearer, or a good way off, to either side.
            (75.0, 149.9, true, 6),
            (75.0, 140.0, true, 16),
            (75.0, 160.0, true, 16),
        ] {
            let (limit, after) = found(from_still(&[0.0], fell), first, guess, falls);
            assert!(limit.falls && limit.part == 9, "{limit:?}");
            let near = 150.0 * (1.0 - 1.1 * NEAR)..150.0;
            assert!(near.contains(&limit.gust_squared), "{} from {first}, {guess}", limit.gust_squared);
            assert!(after <= most_tries, "{after} tries from {first}, {guess}");
        }
    }

    /// A part that springs from half used to twice used at 150, as a slack rope that comes taut: the limit is below, and
    /// names it.
    #[test]
    fn a_use_that_jumps_is_found_between() {
        let jumps = |q: f64| Some(vec![0.001 * q, if q < 150.0 { 0.5 } else { 2.0 }]);
        let (limit, _) = found(from_still(&[0.0, 0.5], false), 50.0, 100.0, jumps);
        assert!(!limit.falls && limit.part == 1, "{limit:?}");
        assert!((150.0 * (1.0 - 1.1 * NEAR)..150.0).contains(&limit.gust_squared), "{limit:?}");
    }

    /// No stronger gust than 80 m/s is looked at.
    #[test]
    fn what_holds_in_any_wind_ends_at_the_strongest() {
        let (limit, _) = found(from_still(&[0.0], false), 50.0, 100.0, |q| Some(vec![1e-5 * q]));
        assert_eq!((limit.gust_squared, limit.falls), (MOST_SQUARED, false));
    }

    #[test]
    fn the_best_known_is_below_what_uses_it_up() {
        let mut bracket = from_still(&[0.1], false);
        let tried = |gust_squared: f64, utilisation: f64, part: usize| Tried {
            gust_squared,
            utilisation,
            part,
            falls: false,
        };
        assert!(bracket.best().falls && bracket.best().utilisation.is_infinite());
        assert!(bracket.learn(tried(100.0, 0.4, 2), &[0.4], 0.0).is_none());
        assert_eq!(bracket.best(), tried(100.0, 0.4, 2));
        assert!(bracket.learn(tried(200.0, 1.3, 5), &[1.3], 0.0).is_none());
        assert_eq!(bracket.best(), tried(100.0, 0.4, 5));
        // Near by a thousandth of the gust's square.
        assert!(bracket.is_close(100.09) && !bracket.is_close(100.2));
    }
}
