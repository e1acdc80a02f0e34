//! What is to be added to the log, and what the log says is in force.

use std::collections::{BTreeMap, BTreeSet};

use chrono::{DateTime, FixedOffset};

use super::{LoggedReading, ReadingKey, readings};
use crate::job::{BearingReference, Capture, Instrument, Job, LogAction, LogEntry, Logged};

/// How a change of the job came about.
#[derive(Debug, Clone, PartialEq)]
pub struct How {
    pub taken_at: DateTime<FixedOffset>,
    pub who: String,
    /// Of every value that has no capture of its own.
    pub instrument: Instrument,
    /// By the JSON pointer in the job as it now stands.
    pub captures: Vec<Capture>,
    /// Places, as JSON pointers, of which two devices wrote each its own and nobody has said which holds. The log of both has
    /// both readings there, and is right whichever of them the job shows.
    pub open: Vec<String>,
}

/// The reading that a log says is the latest of its kind.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct EntryState<'a> {
    /// The entry that took it.
    pub entry: &'a LogEntry,
    pub struck: bool,
    pub removed: bool,
}

/// Plays a log back: the latest reading of each kind.
pub fn standing(log: &[LogEntry]) -> BTreeMap<ReadingKey, EntryState<'_>> {
    let mut latest: BTreeMap<ReadingKey, EntryState> = BTreeMap::new();
    for entry in log {
        let key = ReadingKey { subject: entry.subject.clone(), part: entry.part.clone() };
        let before = latest.get(&key).copied();
        let taken = EntryState { entry, struck: false, removed: false };
        let now = match (entry.action, before) {
            (LogAction::Read, _) | (_, None) => taken,
            (LogAction::StruckOut, Some(before)) => EntryState { struck: true, ..before },
            (LogAction::PutBack, Some(before)) => EntryState { struck: false, removed: false, ..before },
            (LogAction::Removed, Some(before)) => EntryState { removed: true, ..before },
        };
        latest.insert(key, now);
    }
    latest
}

/// The entries that bring the log of a job up to its readings. Empty where it is up to them already.
pub fn record(job: &Job, how: &How) -> Vec<LogEntry> {
    let standing = standing(&job.log);
    let last = job.log.iter().map(|entry| entry.number).max().unwrap_or(0);
    let mut new = New { how, last, entries: Vec::new() };
    let mut present = BTreeSet::new();
    for reading in readings(job) {
        if !(is_open(&reading, how) && has(&job.log, &reading)) {
            new.bring_up(&reading, standing.get(&reading.key));
        }
        present.insert(reading.key);
    }
    for (key, gone) in standing {
        if !gone.removed && !present.contains(&key) {
            new.removed(gone.entry);
        }
    }
    new.entries
}

fn is_open(reading: &LoggedReading, how: &How) -> bool {
    how.open.iter().any(|open| within(open, &reading.path).is_some())
}

fn has(log: &[LogEntry], reading: &LoggedReading) -> bool {
    let ReadingKey { subject, part } = &reading.key;
    log.iter().any(|entry| entry.subject == *subject && entry.part == *part && entry.value == reading.value)
}

/// Whether entries hold a bearing that was read by a compass, which says nothing without its date.
pub fn compass_read(job: &Job, entries: &[LogEntry]) -> bool {
    let by_compass = matches!(job.yard.bearings, BearingReference::Magnetic { .. });
    let taken =
        |entry: &LogEntry| entry.action == LogAction::Read && entry.instrument != Instrument::BeforeLog;
    by_compass && entries.iter().any(|entry| taken(entry) && holds_bearing(&entry.value))
}

/// Any way to fix a point may hold a bearing, by the name that all bearings as read have.
fn holds_bearing(value: &Logged) -> bool {
    serde_json::to_string(value).is_ok_and(|text| text.contains("\"bearing_deg\":"))
}

struct New<'a> {
    how: &'a How,
    last: u32,
    entries: Vec<LogEntry>,
}

impl New<'_> {
    fn bring_up(&mut self, reading: &LoggedReading, standing: Option<&EntryState>) {
        let same = standing.filter(|standing| standing.entry.value == reading.value);
        let Some(same) = same else {
            let number = self.taken(reading, standing.map(|standing| standing.entry));
            if reading.struck {
                self.act(LogAction::StruckOut, reading, number);
            }
            return;
        };
        // An entry that puts a reading back leaves the taking of it in force.
        let number = same.entry.number;
        if same.removed || (same.struck && !reading.struck) {
            self.act(LogAction::PutBack, reading, number);
        }
        if reading.struck && (same.removed || !same.struck) {
            self.act(LogAction::StruckOut, reading, number);
        }
    }

    /// A reading that was taken.
    fn taken(&mut self, reading: &LoggedReading, before: Option<&LogEntry>) -> u32 {
        let within = |capture: &Capture| {
            Some(Capture { path: within(&capture.path, &reading.path)?.to_owned(), ..capture.clone() })
        };
        let mut captures: Vec<Capture> = self.how.captures.iter().filter_map(within).collect();
        // Another value of the same reading may have been captured earlier, and stands.
        let stands = |capture: &Capture| {
            let value = before.map(|before| value_in(&before.value, &capture.path));
            value == Some(value_in(&reading.value, &capture.path))
        };
        let earlier = before.map_or(&[][..], |before| &before.captures).iter().filter(|it| stands(it));
        for capture in earlier {
            if !captures.iter().any(|new| new.path == capture.path) {
                captures.push(capture.clone());
            }
        }
        self.push(LogEntry {
            captures,
            instrument: self.how.instrument,
            replaces: before.map(|before| before.number),
            ..self.entry(LogAction::Read, reading)
        })
    }

    /// Something done on the screen to a reading that stays as it was.
    fn act(&mut self, action: LogAction, reading: &LoggedReading, to: u32) {
        self.push(LogEntry { replaces: Some(to), ..self.entry(action, reading) });
    }

    fn removed(&mut self, of: &LogEntry) {
        let (key, path) = (ReadingKey { subject: of.subject.clone(), part: of.part.clone() }, String::new());
        let reading =
            LoggedReading { key, name: of.name.clone(), path, value: of.value.clone(), struck: false };
        self.act(LogAction::Removed, &reading, of.number);
    }

    fn entry(&self, action: LogAction, reading: &LoggedReading) -> LogEntry {
        LogEntry {
            number: 0,
            taken_at: self.how.taken_at,
            who: self.how.who.clone(),
            subject: reading.key.subject.clone(),
            name: reading.name.clone(),
            part: reading.key.part.clone(),
            action,
            value: reading.value.clone(),
            instrument: Instrument::Typed,
            captures: Vec::new(),
            replaces: None,
        }
    }

    fn push(&mut self, entry: LogEntry) -> u32 {
        self.last = self.last.saturating_add(1);
        self.entries.push(LogEntry { number: self.last, ..entry });
        self.last
    }
}

/// A pointer as seen from a reading: empty for the whole of it, none where it lies elsewhere.
fn within<'a>(path: &'a str, reading: &str) -> Option<&'a str> {
    match path.strip_prefix(reading) {
        Some(rest) => (rest.is_empty() || rest.starts_with('/')).then_some(rest),
        None => reading.strip_prefix(path).filter(|rest| rest.starts_with('/')).map(|_| ""),
    }
}

/// The value at a place within a reading; the fields of a point lie within its fix.
fn value_in(value: &Logged, path: &str) -> Option<serde_json::Value> {
    let value = serde_json::to_value(value).ok()?;
    value.pointer(path).or_else(|| value.pointer(&format!("/at{path}"))).cloned()
}
