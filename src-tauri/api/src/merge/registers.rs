//! What stands at a place: the writings that nobody has overwritten. With what each device has seen this is a multi-value
//! register with a version vector: Shapiro, Preguiça, Baquero and Zawirski (2011), *A comprehensive study of Convergent and
//! Commutative Replicated Data Types*, INRIA RR-7506, 3.2.2 (from memory).

use std::collections::BTreeMap;

use mastwright_engine::job::{History, Stamp};
use serde_json::Value;

use super::places::canonical;

/// One writing: a value, or that what stood there is gone.
#[derive(Debug, Clone, PartialEq)]
pub struct Written {
    pub by: Stamp,
    /// Who had written it first, where it was put back.
    pub first: Option<Stamp>,
    pub is: Option<Value>,
}

impl Written {
    pub fn new(by: &Stamp, is: Option<Value>) -> Self {
        Self { by: by.clone(), first: None, is }
    }

    /// The same, put back.
    pub fn again(&self, by: &Stamp) -> Self {
        Self { by: by.clone(), first: Some(self.said_by().clone()), is: self.is.clone() }
    }

    /// Who said it.
    pub fn said_by(&self) -> &Stamp {
        self.first.as_ref().unwrap_or(&self.by)
    }

    /// By time, then by device; what one device wrote at one time, by who had said it first, then by the value.
    fn order(&self) -> (&Stamp, &Stamp, Option<String>) {
        (&self.by, self.said_by(), self.says())
    }

    fn says(&self) -> Option<String> {
        self.is.as_ref().map(canonical)
    }
}

/// What each device had written when it was last heard of.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Seen(pub BTreeMap<String, u64>);

impl Seen {
    pub fn of(history: &History) -> Self {
        let mut seen = Self::default();
        seen.add(&history.made);
        history.seen.iter().for_each(|stamp| seen.add(stamp));
        seen
    }

    pub fn add(&mut self, stamp: &Stamp) {
        let last = self.0.entry(stamp.device.clone()).or_default();
        *last = (*last).max(stamp.at_ms);
    }

    pub fn has(&self, stamp: &Stamp) -> bool {
        self.0.get(&stamp.device).is_some_and(|&last| stamp.at_ms <= last)
    }

    pub fn stamps(&self) -> Vec<Stamp> {
        self.0.iter().map(|(device, &at_ms)| Stamp { at_ms, device: device.clone() }).collect()
    }
}

/// What stands at a place after both: what both have, and what one has and the other has not seen yet. Who has nothing there,
/// not even that it is gone, has nothing to say about it.
pub fn joined(here: &[Written], there: &[Written], seen_here: &Seen, seen_there: &Seen) -> Vec<Written> {
    if here.is_empty() || there.is_empty() {
        return sorted([here, there].concat());
    }
    let stays = |one: &&Written, others: &[Written], seen: &Seen| {
        !seen.has(&one.by) || others.iter().any(|other| other.by == one.by)
    };
    let kept = here.iter().filter(|one| stays(one, there, seen_there));
    sorted(kept.chain(there.iter().filter(|one| stays(one, here, seen_here))).cloned().collect())
}

fn sorted(mut all: Vec<Written>) -> Vec<Written> {
    all.sort_by(|a, b| a.order().cmp(&b.order()));
    all.dedup_by(|a, b| a.order() == b.order());
    all
}

/// The writing that the job shows: the one that says what is shown `rather`, otherwise the last one that left something
/// there.
pub fn shown<'a>(all: &'a [Written], rather: Option<&Value>) -> Option<&'a Written> {
    let left = || all.iter().filter(|one| one.is.is_some());
    let last = || left().max_by(|a, b| a.order().cmp(&b.order()));
    let rather = rather.map(canonical);
    left().find(|one| rather.is_some() && one.says() == rather).or_else(last)
}

/// The different things that the writings say, the last first; more than one is a conflict.
pub fn sayings(all: &[Written]) -> Vec<&Written> {
    let mut found: Vec<&Written> = Vec::new();
    for one in all.iter().rev() {
        let says = one.says();
        if !found.iter().any(|other| other.says() == says) {
            found.push(one);
        }
    }
    found
}
