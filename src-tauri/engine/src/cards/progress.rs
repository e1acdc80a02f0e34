//! Which cards may come next: followed from the cards that are ticked off, never from a list of steps.

use std::collections::BTreeSet;

use serde::Serialize;

use super::card::{Card, CardForces, CardNeed, CardPhase};
use super::prepare::{FirstUp, PhasePrepared};
use super::state::YardState;

/// The cards of a job.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct Deck {
    /// In an order in which they may come.
    pub cards: Vec<Card>,
    /// What holds before the first of them.
    pub begins: Vec<YardState>,
    pub phases: Vec<PhasePrepared>,
    /// A first standing-up of the bare lower tube.
    pub first_up: FirstUp,
    /// None where nobody has said how it turns up, a weight is not known, or a line has no lever.
    pub forces: Option<CardForces>,
}

/// A card that can't come yet.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct CardWaits {
    /// Its place in the deck.
    pub card: usize,
    pub missing: Vec<CardNeed>,
    /// Its phase has a stop.
    pub stopped: bool,
}

/// How far the work is.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Progress {
    pub holds: BTreeSet<YardState>,
    /// In the order in which they came, by their places in the deck.
    pub done: Vec<usize>,
    /// Cards that were ticked off while what they rest on is no longer, or not yet, done: they count as open.
    pub rests_on_nothing: Vec<usize>,
    /// In the order of the deck.
    pub may_come: Vec<usize>,
    pub waits: Vec<CardWaits>,
}

impl Deck {
    /// The cards in an order in which they may come, found by trying: of those that may come next always the one of the earliest phase.
    /// What can never come stands last.
    pub(super) fn in_order(mut cards: Vec<Card>, begins: &[YardState]) -> Vec<Card> {
        let mut holds: BTreeSet<YardState> = begins.iter().copied().collect();
        let mut ordered = Vec::with_capacity(cards.len());
        let earliest = |cards: &[Card], holds: &BTreeSet<YardState>| {
            let may = cards.iter().enumerate().filter(|(_, card)| card.may_come(holds));
            may.min_by_key(|(at, card)| (card.phase, *at)).map(|(at, _)| at)
        };
        while let Some(at) = earliest(&cards, &holds) {
            let card = cards.remove(at);
            apply(&mut holds, &card);
            ordered.push(card);
        }
        ordered.extend(cards);
        ordered
    }

    /// Whether a phase has a stop: then none of its cards may come.
    pub fn stopped(&self, phase: CardPhase) -> bool {
        self.phases.iter().any(|it| it.phase == phase && !it.stops.is_empty())
    }

    /// How far the work is with these cards ticked off, in the order of ticking as far as that is known.
    ///
    /// # Examples
    /// ```
    /// use mastwright_engine::{cards, demo, plan};
    ///
    /// let job = demo::lantern_green();
    /// let computed = plan::compute(&job).expect("it can be placed");
    /// let deck = cards::deck(&job, &computed).expect("every section is known");
    /// let walk_up = deck.cards.iter().position(|card| card.key == "raise:walk-up").expect("it is walked up");
    /// let begin = deck.progress(&[]);
    /// assert!(!begin.may_come.contains(&walk_up), "nobody lifts before the hinge is held");
    /// ```
    pub fn progress(&self, ticked: &[String]) -> Progress {
        let mut holds: BTreeSet<YardState> = self.begins.iter().copied().collect();
        let place = |key: &String| self.cards.iter().position(|card| card.key == *key);
        let mut left: Vec<usize> = Vec::new();
        for at in ticked.iter().filter_map(place) {
            if !left.contains(&at) {
                left.push(at);
            }
        }
        let mut done = Vec::new();
        // Two phones may have ticked in an order that neither saw: what can't come yet is tried again after the rest.
        while let Some(next) = left.iter().position(|at| self.cards[*at].may_come(&holds)) {
            let at = left.remove(next);
            apply(&mut holds, &self.cards[at]);
            done.push(at);
        }
        let mut may_come = Vec::new();
        let mut waits = Vec::new();
        for (at, card) in self.cards.iter().enumerate().filter(|(at, _)| !done.contains(at)) {
            let missing: Vec<CardNeed> =
                card.needs.iter().copied().filter(|need| !holds.contains(&need.state)).collect();
            let stopped = self.stopped(card.phase);
            if missing.is_empty() && !stopped {
                may_come.push(at);
            } else {
                waits.push(CardWaits { card: at, missing, stopped });
            }
        }
        Progress { holds, done, rests_on_nothing: left, may_come, waits }
    }

    /// The ticks that are left once one is taken back: without it, and without every one that rested on it.
    pub fn taken_back(&self, ticked: &[String], key: &str) -> Vec<String> {
        let before = self.progress(ticked);
        let rest: Vec<String> =
            before.done.iter().map(|at| self.cards[*at].key.clone()).filter(|other| other != key).collect();
        self.progress(&rest).done.iter().map(|at| self.cards[*at].key.clone()).collect()
    }
}

fn apply(holds: &mut BTreeSet<YardState>, card: &Card) {
    for state in &card.takes {
        holds.remove(state);
    }
    holds.extend(card.gives.iter().copied());
}
