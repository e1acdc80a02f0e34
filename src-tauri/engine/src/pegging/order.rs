//! The shortest way from peg to peg, stage by stage.
//!
//! # References
//! Held & Karp 1962 (`held-karp1962`): the best way to every set of stops with every last one, exact.

use super::PegStage;
use crate::numerics::real::hypot;

/// A peg as the way sees it.
#[derive(Debug, Clone, PartialEq)]
pub struct Stop {
    pub at: [f64; 2],
    pub stage: PegStage,
    /// Where its two tapes are hooked; empty for a peg without ties.
    pub hooks: Vec<[f64; 2]>,
}

/// More stops than this in one stage are taken in the order of the list: there never are so many.
const MOST_IN_STAGE: usize = 12;

/// Metres walked from one peg to the next: to the marks where its tapes are hooked, as far as they do not hang there already,
/// and on to the peg.
pub fn walk_m(from: Option<&Stop>, to: &Stop) -> f64 {
    let hung = |hook: &&[f64; 2]| from.is_some_and(|from| from.hooks.contains(hook));
    let hooks: Vec<[f64; 2]> = to.hooks.iter().filter(|hook| !hung(hook)).copied().collect();
    let start = from.map(|from| from.at);
    let leg = |a: Option<[f64; 2]>, b: [f64; 2]| a.map_or(0.0, |a| hypot(b[0] - a[0], b[1] - a[1]));
    match hooks[..] {
        [] => leg(start, to.at),
        [one] => leg(start, one) + leg(Some(one), to.at),
        [a, b, ..] => {
            let way = |first, second| leg(start, first) + leg(Some(first), second) + leg(Some(second), to.at);
            way(a, b).min(way(b, a))
        }
    }
}

/// Metres walked from stop to stop in an order.
pub fn length_m(stops: &[Stop], order: &[usize]) -> f64 {
    let before = std::iter::once(None).chain(order.iter().map(Some));
    before.zip(order).map(|(from, &to)| walk_m(from.map(|&from| &stops[from]), &stops[to])).sum()
}

/// A way so far, by its last stop.
#[derive(Clone)]
struct Way {
    walked_m: f64,
    order: Vec<usize>,
}

/// The order with the least walking in which every stage comes after those before it; of equal ones the first by the list.
pub fn order(stops: &[Stop]) -> Vec<usize> {
    let mut stages: Vec<PegStage> = stops.iter().map(|stop| stop.stage).collect();
    stages.sort_unstable();
    stages.dedup();
    let mut ways = vec![Way { walked_m: 0.0, order: Vec::new() }];
    for stage in stages {
        let in_stage: Vec<usize> = (0..stops.len()).filter(|&stop| stops[stop].stage == stage).collect();
        ways = if in_stage.len() > MOST_IN_STAGE {
            ways.into_iter().map(|way| as_listed(stops, way, &in_stage)).collect()
        } else {
            through(stops, &ways, &in_stage)
        };
    }
    shortest(ways).map_or_else(Vec::new, |way| way.order)
}

/// Of ways alike the first is taken, on every machine and however the yard is turned: a base is the same on both sides.
fn rounded(walked_m: f64) -> f64 {
    (walked_m * 1e6).round()
}

fn shortest(ways: Vec<Way>) -> Option<Way> {
    ways.into_iter().min_by(|a, b| rounded(a.walked_m).total_cmp(&rounded(b.walked_m)))
}

fn as_listed(stops: &[Stop], mut way: Way, in_stage: &[usize]) -> Way {
    for &stop in in_stage {
        way.walked_m += walk_m(way.order.last().map(|&last| &stops[last]), &stops[stop]);
        way.order.push(stop);
    }
    way
}

/// The best way through all stops of a stage for each that comes last.
fn through(stops: &[Stop], before: &[Way], in_stage: &[usize]) -> Vec<Way> {
    let count = in_stage.len();
    let all = (1_usize << count) - 1;
    let mut best: Vec<Option<Way>> = vec![None; (all + 1) * count];
    for (place, &stop) in in_stage.iter().enumerate() {
        let from_each = before.iter().map(|way| as_listed(stops, way.clone(), &[stop]));
        best[(1 << place) * count + place] = shortest(from_each.collect());
    }
    for visited in 1..=all {
        for (place, &stop) in in_stage.iter().enumerate().filter(|(place, _)| visited & (1 << place) != 0) {
            let without = visited & !(1 << place);
            if without == 0 {
                continue;
            }
            let lasts = (0..count).filter(|last| without & (1 << last) != 0);
            let ways = lasts.filter_map(|last| best[without * count + last].as_ref());
            let reached =
                |way: &&Way| way.walked_m + walk_m(way.order.last().map(|&last| &stops[last]), &stops[stop]);
            let least = ways.min_by(|a, b| rounded(reached(a)).total_cmp(&rounded(reached(b))));
            best[visited * count + place] = least.map(|way| as_listed(stops, way.clone(), &[stop]));
        }
    }
    (0..count).filter_map(|place| best[all * count + place].take()).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::numerics::random::Random;

    fn stop(at: [f64; 2], hooks: &[[f64; 2]], stage: PegStage) -> Stop {
        Stop { at, stage, hooks: hooks.to_vec() }
    }

    /// Two marks 8 m apart on a line, a peg 3 m from the first on the way to the second and one 3 m beyond the second: hooked at
    /// both once (8 m), back 5 m to the first peg, on 8 m to the other.
    #[test]
    fn a_walk_by_hand() {
        let marks = [[0.0, 0.0], [8.0, 0.0]];
        let near = stop([3.0, 0.0], &marks, PegStage::Anchors);
        let far = stop([11.0, 0.0], &marks, PegStage::Anchors);
        assert_eq!(walk_m(None, &near), 8.0 + 3.0); // second mark first, then the first, then 3 m
        assert_eq!(walk_m(Some(&near), &far), 8.0);
        let other = stop([11.0, 0.0], &[[8.0, 0.0], [8.0, 4.0]], PegStage::Anchors);
        assert_eq!(walk_m(Some(&near), &other), hypot(5.0, 4.0) + 5.0); // one hook is hung already
    }

    /// Every order of five stops tried one by one.
    #[test]
    fn no_other_order_of_a_stage_is_shorter() {
        let mut random = Random::seeded(11);
        let mut point = || [20.0 * random.even(), 20.0 * random.even()];
        for _ in 0..20 {
            let marks = [point(), point(), point()];
            let mut stops = vec![stop(point(), &marks[..2], PegStage::Mast)];
            for number in 0..5 {
                let pair = [marks[number % 3], marks[(number + 1) % 3]];
                stops.push(stop(point(), &pair, PegStage::Anchors));
            }
            let found = order(&stops);
            let mut least = f64::INFINITY;
            permutations(&mut vec![1, 2, 3, 4, 5], 0, &mut |rest| {
                let whole: Vec<usize> = std::iter::once(0).chain(rest.iter().copied()).collect();
                least = least.min(length_m(&stops, &whole));
            });
            assert_eq!(found[0], 0);
            assert!((length_m(&stops, &found) - least).abs() < 1e-9);
        }
    }

    fn permutations(items: &mut Vec<usize>, from: usize, each: &mut dyn FnMut(&[usize])) {
        if from == items.len() {
            return each(items);
        }
        for at in from..items.len() {
            items.swap(from, at);
            permutations(items, from + 1, each);
            items.swap(from, at);
        }
    }
}
