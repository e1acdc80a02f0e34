//! What tapes from peg to peg tell of the pegs: whether one was set wrongly, and which, or whether a tape was read wrongly.
//!
//! Under the plan the misfits r of the check tapes are normal about nought with covariance R: what setting out, marks,
//! ground and reading leave open. A blunder of known kind moves them by a known Δ (swapped tapes, the wrong side), one of
//! unknown size by b·g. It explains as much as χ² = rᵀR⁻¹r falls with it; for one reading that fall is the square of the
//! w-test.
//!
//! # References
//! - W. Baarda 1968 (`baarda1968`): one suspect at a time, w² = (gᵀR⁻¹r)²/(gᵀR⁻¹g).
//! - Dunn 1961 (`dunn1961`): the level shared among all suspects, so that a sound stake-out is doubted at most that often.

use super::network::{Network, SetBy, SetOtherwise, reading_sigma_m};
use super::{Blunder, StakeOutState, Suspect};
use crate::job::Side;
use crate::numerics::chi_square::upper_tail;
use crate::numerics::least_squares::{DMatrix, DVector};
use crate::numerics::real::erfc;

/// A sound stake-out is doubted this often, whatever the number of suspects (common practice).
pub const LEVEL: f64 = 0.01;
/// The same for a misfit that no single blunder explains: Baarda 1968 (`baarda1968`), α₀ = 0.001.
const UNEXPLAINED_LEVEL: f64 = 0.001;
/// Others that explain the misfit within this are named beside the best: χ² with one degree of freedom at 1 %.
pub const CLEARLY_WORST: f64 = 6.63;
/// One more number that is fitted has to explain this more: χ² with one degree of freedom at 5 %.
const ONE_MORE_NUMBER: f64 = 3.84;

/// A tape between two nodes as it was read.
#[derive(Debug, Clone, PartialEq)]
pub struct CheckReading {
    pub id: String,
    pub from: usize,
    pub to: usize,
    pub tape_m: f64,
}

/// A blunder whose size is known: it moves the tapes by so much.
#[derive(Debug, Clone)]
pub struct KnownBlunder {
    pub blunder: Blunder,
    pub node: usize,
    /// Where all pegs then lie.
    pub places: Vec<[f64; 2]>,
}

/// Every peg's tapes taken one for the other, and every peg on the wrong side, as far as the tapes meet then.
pub fn known_blunders(network: &Network) -> Vec<KnownBlunder> {
    let mut all = Vec::new();
    for (node, set) in network.nodes().iter().enumerate() {
        let SetBy::Ties { tapes_m: [a_m, b_m], side, .. } = set.set_by else { continue };
        let other = if side == Side::Left { Side::Right } else { Side::Left };
        let peg = || set.key.clone();
        let kinds = [
            (Blunder::Swapped { peg: peg() }, SetOtherwise { node, tapes_m: [b_m, a_m], side }),
            (Blunder::WrongSide { peg: peg() }, SetOtherwise { node, tapes_m: [a_m, b_m], side: other }),
        ];
        for (blunder, otherwise) in kinds {
            if let Some(places) = network.places_if(&otherwise) {
                all.push(KnownBlunder { blunder, node, places });
            }
        }
    }
    all
}

/// Tapes with what the plan leaves open of them.
#[derive(Debug, Clone)]
pub struct TapeSet {
    pub ends: Vec<[usize; 2]>,
    pub expected_m: Vec<f64>,
    answers: Vec<DVector<f64>>,
    /// Covariance of the misfits, and its inverse.
    pub covariance: DMatrix<f64>,
    pub weight: DMatrix<f64>,
}

impl TapeSet {
    /// None where the covariance is no covariance: nothing is known of marks or ground.
    pub fn new(network: &Network, ends: &[[usize; 2]]) -> Option<Self> {
        let answers: Vec<DVector<f64>> = ends.iter().map(|&[from, to]| network.answer(from, to)).collect();
        let places: Vec<[f64; 2]> = network.nodes().iter().map(|node| node.at).collect();
        let expected_m: Vec<f64> = ends.iter().map(|&[from, to]| network.tape_m(&places, from, to)).collect();
        let mut covariance = DMatrix::zeros(ends.len(), ends.len());
        for row in 0..ends.len() {
            for column in 0..=row {
                let shared = network.covariance(&answers[row], &answers[column]);
                (covariance[(row, column)], covariance[(column, row)]) = (shared, shared);
            }
            let sigma_m = reading_sigma_m(network.instruments, expected_m[row]);
            covariance[(row, row)] += sigma_m * sigma_m;
        }
        let weight = covariance.clone().cholesky()?.inverse();
        let finite = weight.iter().chain(covariance.iter()).all(|value| value.is_finite());
        finite.then(|| Self { ends: ends.to_vec(), expected_m, answers, covariance, weight })
    }

    /// By how much these places of the pegs make the tapes longer than planned.
    pub fn moved_m(&self, network: &Network, places: &[[f64; 2]]) -> DVector<f64> {
        let tape = |row: usize| {
            let [from, to] = self.ends[row];
            network.tape_m(places, from, to) - self.expected_m[row]
        };
        DVector::from_fn(self.ends.len(), |row, _| tape(row))
    }

    /// How the tapes answer to an error of one of a node's own tapes.
    pub fn by_tie(&self, network: &Network, node: usize, tape: usize) -> DVector<f64> {
        DVector::from_fn(self.ends.len(), |row, _| network.answer_to_tie(&self.answers[row], node, tape))
    }

    /// aᵀR⁻¹b.
    pub fn product(&self, a: &DVector<f64>, b: &DVector<f64>) -> f64 {
        a.dot(&(&self.weight * b))
    }
}

/// What the tapes tell.
#[derive(Debug, Clone, PartialEq)]
pub struct StakeOutFound {
    pub state: StakeOutState,
    pub chi_square: f64,
    /// The best explanation first, with those about as good; a tape by its number.
    pub suspects: Vec<Suspect>,
    pub more_than_one: bool,
}

/// Tests tapes that were read against pegs as they were meant to be set.
pub fn told(network: &Network, known: &[KnownBlunder], readings: &[CheckReading]) -> StakeOutFound {
    let nothing =
        |state| StakeOutFound { state, chi_square: 0.0, suspects: Vec::new(), more_than_one: false };
    if readings.is_empty() {
        return nothing(StakeOutState::NotRead);
    }
    let ends: Vec<[usize; 2]> = readings.iter().map(|reading| [reading.from, reading.to]).collect();
    let Some(tapes) = TapeSet::new(network, &ends) else { return nothing(StakeOutState::CannotTell) };
    let off = DVector::from_fn(readings.len(), |row, _| readings[row].tape_m - tapes.expected_m[row]);
    let test = Test { network, tapes: &tapes, readings, chi_square: tapes.product(&off, &off), off: &off };
    test.told(known)
}

/// The tape that tells suspects apart best once it is read: of those that tell them apart by so much that chance can't hide it,
/// the shortest. A tape that was read already may be read once more.
pub fn next_tape(
    network: &Network,
    known: &[KnownBlunder],
    told: &StakeOutFound,
    readings: &[CheckReading],
    candidates: &[[usize; 2]],
) -> Option<[usize; 2]> {
    /// So many deviations apart.
    const PLAIN: f64 = 5.0;
    if let [Suspect { blunder: Blunder::TapeOff { tape, .. }, .. }] = told.suspects.as_slice() {
        return readings.iter().find(|reading| reading.id == *tape).map(|it| [it.from, it.to]);
    }
    let (first, others) = told.suspects.split_first()?;
    let mut ends = candidates.to_vec();
    ends.extend(readings.iter().map(|reading| [reading.from, reading.to]));
    let tapes = TapeSet::new(network, &ends)?;
    let moved = |suspect: &Suspect| moved_by(network, known, &tapes, &suspect.blunder);
    let (first, others) = (moved(first), others.iter().map(moved).collect::<Vec<_>>());
    let apart = |row: usize| {
        let sigma_m = tapes.covariance[(row, row)].sqrt();
        others.iter().map(|other| (other[row] - first[row]).abs() / sigma_m).fold(f64::INFINITY, f64::min)
    };
    let rated =
        (0..ends.len()).map(|row| (row, apart(row).min(PLAIN))).filter(|(_, apart)| apart.is_finite());
    let better = |a: &(usize, f64), b: &(usize, f64)| {
        a.1.total_cmp(&b.1).then(tapes.expected_m[b.0].total_cmp(&tapes.expected_m[a.0]))
    };
    let (row, apart) = rated.max_by(better)?;
    (!others.is_empty() && apart > 1.0).then(|| ends[row])
}

/// What a blunder does to tapes; nothing where it is one of another tape.
fn moved_by(network: &Network, known: &[KnownBlunder], tapes: &TapeSet, blunder: &Blunder) -> DVector<f64> {
    let nothing = || DVector::zeros(tapes.ends.len());
    if let Some(one) = known.iter().find(|one| one.blunder == *blunder) {
        return tapes.moved_m(network, &one.places);
    }
    let Blunder::TieOff { peg, from, by_m } = blunder else { return nothing() };
    let Some((node, start)) = network.node(peg).zip(network.node(from)) else { return nothing() };
    let SetBy::Ties { from, mut tapes_m, side } = network.nodes()[node].set_by else { return nothing() };
    let tape = usize::from(from[1] == start);
    tapes_m[tape] += by_m;
    match network.places_if(&SetOtherwise { node, tapes_m, side }) {
        Some(places) => tapes.moved_m(network, &places),
        None => nothing(),
    }
}

struct Test<'a> {
    network: &'a Network<'a>,
    tapes: &'a TapeSet,
    readings: &'a [CheckReading],
    off: &'a DVector<f64>,
    chi_square: f64,
}

/// A suspect with the numbers it fits.
struct Tried {
    suspect: Suspect,
    numbers: usize,
}

impl Tried {
    fn score(&self) -> f64 {
        self.suspect.explains - ONE_MORE_NUMBER * self.numbers as f64
    }
}

impl Test<'_> {
    fn told(&self, known: &[KnownBlunder]) -> StakeOutFound {
        let mut tried = self.known(known);
        tried.extend(self.tapes_off());
        tried.extend(self.ties_off());
        let limit = limit_for(tried.len());
        let (count, chi_square) = (self.readings.len(), self.chi_square);
        let doubted = tried.iter().any(|one| one.suspect.explains > limit);
        if !doubted {
            let unexplained = upper_tail(chi_square, count) < UNEXPLAINED_LEVEL;
            let state = if unexplained { StakeOutState::Unexplained } else { StakeOutState::Agrees };
            return StakeOutFound { state, chi_square, suspects: Vec::new(), more_than_one: false };
        }
        tried.sort_by(|a, b| b.score().total_cmp(&a.score()));
        let best = tried.first().map_or(0.0, Tried::score);
        tried.retain(|one| best - one.score() < CLEARLY_WORST);
        let left = tried.first().map_or(0.0, |best| chi_square - best.suspect.explains);
        let suspects: Vec<Suspect> = tried.into_iter().map(|one| one.suspect).collect();
        let state = if suspects.len() == 1 { StakeOutState::Named } else { StakeOutState::OneOfSeveral };
        let more_than_one = upper_tail(left, count) < UNEXPLAINED_LEVEL;
        StakeOutFound { state, chi_square, suspects, more_than_one }
    }

    fn known(&self, known: &[KnownBlunder]) -> Vec<Tried> {
        let explains = |one: &KnownBlunder| {
            let left = self.off - self.tapes.moved_m(self.network, &one.places);
            self.chi_square - self.tapes.product(&left, &left)
        };
        let tried = |one: &KnownBlunder| Tried {
            suspect: Suspect { blunder: one.blunder.clone(), explains: explains(one) },
            numbers: 0,
        };
        known.iter().map(tried).collect()
    }

    /// A tape that was read wrongly: its own w-test.
    fn tapes_off(&self) -> Vec<Tried> {
        let weighted = &self.tapes.weight * self.off;
        let tried = |row: usize| {
            let weight = self.tapes.weight[(row, row)];
            let blunder =
                Blunder::TapeOff { tape: self.readings[row].id.clone(), by_m: weighted[row] / weight };
            let explains = weighted[row] * weighted[row] / weight;
            Tried { suspect: Suspect { blunder, explains }, numbers: 1 }
        };
        (0..self.readings.len()).map(tried).collect()
    }

    fn ties_off(&self) -> Vec<Tried> {
        let nodes = self.network.nodes().iter().enumerate();
        let tied = nodes.filter_map(|(number, node)| match node.set_by {
            SetBy::Ties { from, tapes_m, side } => Some((number, node, from, tapes_m, side)),
            _ => None,
        });
        let both = tied.flat_map(|(number, node, from, tapes_m, side)| {
            [0, 1].map(|tape| {
                let (by_m, explains) = self.tie_off(number, tape, tapes_m, side)?;
                let starts = &self.network.nodes().get(from[tape])?.key;
                let blunder = Blunder::TieOff { peg: node.key.clone(), from: starts.clone(), by_m };
                Some(Tried { suspect: Suspect { blunder, explains }, numbers: 1 })
            })
        });
        both.flatten().collect()
    }

    /// The error of a peg's own tape that explains most, by Gauss–Newton on where the peg then lies; none where no tape
    /// would show one.
    fn tie_off(&self, node: usize, tape: usize, tapes_m: [f64; 2], side: Side) -> Option<(f64, f64)> {
        const STEPS: usize = 8;
        let by_tie = self.tapes.by_tie(self.network, node, tape);
        let information = self.tapes.product(&by_tie, &by_tie);
        if information.is_nan() || information <= INFORMATION_M2.recip() {
            return None;
        }
        let mut by_m = self.tapes.product(&by_tie, self.off) / information;
        let linear = by_m * by_m * information;
        // Nothing that is small needs more than its derivative.
        if linear < CLEARLY_WORST {
            return Some((by_m, linear));
        }
        let explains = |by_m: f64| {
            let mut tapes_m = tapes_m;
            tapes_m[tape] += by_m;
            let places = self.network.places_if(&SetOtherwise { node, tapes_m, side })?;
            let moved = self.tapes.moved_m(self.network, &places);
            let left = self.off - &moved;
            Some((self.chi_square - self.tapes.product(&left, &left), left))
        };
        let mut best = None;
        for _ in 0..STEPS {
            by_m = by_m.clamp(-0.9 * tapes_m[tape], 10.0 * tapes_m[tape]);
            let Some((fall, left)) = explains(by_m) else {
                by_m /= 2.0;
                continue;
            };
            if best.is_none_or(|(_, most)| fall > most) {
                best = Some((by_m, fall));
            }
            const SMALL_M: f64 = 1e-4;
            let Some((_, further)) = explains(by_m + SMALL_M) else { break };
            let slope = (&left - further) / SMALL_M;
            let step = self.tapes.product(&slope, &left) / self.tapes.product(&slope, &slope);
            if !step.is_finite() || step.abs() < SMALL_M {
                break;
            }
            by_m += step;
        }
        best.or(Some((by_m, 0.0)))
    }
}

/// An error of a tape that would have to be larger than this (one sigma, metres) to be seen is no suspect.
const INFORMATION_M2: f64 = 10.0 * 10.0;

/// By how much χ² has to fall with the best of so many suspects: the square of the two-sided normal point at the shared
/// level (`dunn1961`). A blunder of known size meets it less often still: its fall is normal about −δ² with 2δ, and
/// Φ(−(δ² + z²)/2δ) is at most Φ(−z).
pub fn limit_for(suspects: usize) -> f64 {
    let z = two_sided_normal_point(LEVEL / suspects.max(1) as f64);
    z * z
}

/// Beyond ±z lies this share of a normal variable: bisection on erfc.
fn two_sided_normal_point(share: f64) -> f64 {
    let (mut low, mut high) = (0.0, 40.0);
    for _ in 0..80 {
        let middle = 0.5 * (low + high);
        if erfc(middle * std::f64::consts::FRAC_1_SQRT_2) > share {
            low = middle;
        } else {
            high = middle;
        }
    }
    0.5 * (low + high)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// 3.2905 at 0.1 %, 2.576 at 1 %: as published for Baarda's test.
    #[test]
    fn the_normal_point_is_the_published_one() {
        assert!((two_sided_normal_point(0.001) - 3.2905).abs() < 5e-5);
        assert!((two_sided_normal_point(0.01) - 2.5758).abs() < 5e-5);
        assert!((limit_for(10) - 3.2905 * 3.2905).abs() < 1e-3);
    }
}
