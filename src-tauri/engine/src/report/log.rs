//! The survey log in words and in the user's units, newest entry first.

use std::collections::BTreeMap;

use serde::{Deserialize, Serialize};

use super::rows::{self, Cell};
use crate::finding::Subject;
use crate::job::{Capture, Instrument, Job, LogAction, LogEntry, Logged, PointFix, SampleSummary, Side};
use crate::quantity::Units;
use crate::quantity::format;
use crate::survey::log::standing;

/// The survey log, day by day.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct LogText {
    /// The latest day first.
    pub days: Vec<LogDay>,
    /// Everything that the whole log has entries about, the latest first.
    pub things: Vec<LogThing>,
}

/// The entries of one day.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct LogDay {
    pub title: String,
    /// The latest entry first.
    pub lines: Vec<LogLine>,
}

/// One entry in words.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct LogLine {
    pub number: u32,
    /// Hour and minute, with the zone.
    pub time: String,
    pub subject: Subject,
    /// What was measured, such as `Old oak: height`.
    pub thing: String,
    /// What was done.
    pub action: LogAction,
    /// The value, or what was done to it.
    pub says: String,
    /// The value's numbers, in the order of the words; none of how a point was found.
    pub cells: Vec<Cell>,
    /// By what, from how many readings, by whom.
    pub how: String,
    /// What became of it, and what it took the place of; may be empty.
    pub note: String,
    /// What became of a reading; none of an entry that is no reading.
    pub fate: Option<Fate>,
    /// Whether the value is struck out, replaced or removed by now.
    pub void: bool,
}

/// Something that the log has entries about.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct LogThing {
    pub subject: Subject,
    pub name: String,
    pub entries: u32,
}

/// The log of a job, whole or about one thing.
pub fn log_text(job: &Job, subject: Option<&Subject>) -> LogText {
    let fates = fates(&job.log);
    let by_number: BTreeMap<u32, &LogEntry> = job.log.iter().map(|entry| (entry.number, entry)).collect();
    let mut days: Vec<LogDay> = Vec::new();
    for entry in job.log.iter().rev().filter(|entry| subject.is_none_or(|subject| *subject == entry.subject))
    {
        let title = entry.taken_at.format("%A %-d %B %Y").to_string();
        let before = entry.replaces.and_then(|number| by_number.get(&number)).map(|before| &before.value);
        let line = line(entry, before, fates.get(&entry.number), job.units);
        match days.last_mut().filter(|day| day.title == title) {
            Some(day) => day.lines.push(line),
            None => days.push(LogDay { title, lines: vec![line] }),
        }
    }
    LogText { days, things: things(&job.log) }
}

/// The log as text for a terminal.
pub fn log_plain(job: &Job) -> String {
    let text = log_text(job, None);
    if text.days.is_empty() {
        return "The survey log is empty.\n".to_owned();
    }
    let mut out = String::new();
    for day in text.days {
        out.push_str(&format!("{}\n", day.title));
        for line in day.lines {
            let void = if line.void { "×" } else { " " };
            out.push_str(&format!(
                "{void}{:>5}  {}  {}: {}\n",
                line.number, line.time, line.thing, line.says
            ));
            let rest = [line.how, line.note].into_iter().filter(|text| !text.is_empty());
            out.push_str(&format!("{:22}{}\n", "", rest.collect::<Vec<_>>().join("; ")));
        }
    }
    out
}

/// What became of a reading, by the number of the entry that did it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
#[serde(tag = "kind", rename_all = "snake_case")]
pub enum Fate {
    InForce,
    Replaced { by: u32 },
    StruckOut { by: u32 },
    Removed { by: u32 },
}

/// By the number of the entry that took the reading.
fn fates(log: &[LogEntry]) -> BTreeMap<u32, Fate> {
    let mut fates = BTreeMap::new();
    for entry in log {
        let fate = match entry.action {
            LogAction::Read => Fate::Replaced { by: entry.number },
            LogAction::StruckOut => Fate::StruckOut { by: entry.number },
            LogAction::PutBack => Fate::InForce,
            LogAction::Removed => Fate::Removed { by: entry.number },
        };
        if let Some(of) = entry.replaces {
            // A reading that was struck out before another took its place stays struck out.
            let struck = matches!(fates.get(&of), Some(Fate::StruckOut { .. }));
            if !(struck && entry.action == LogAction::Read) {
                fates.insert(of, fate);
            }
        }
        fates.entry(entry.number).or_insert(Fate::InForce);
    }
    fates
}

fn line(entry: &LogEntry, before: Option<&Logged>, fate: Option<&Fate>, units: Units) -> LogLine {
    let value = match (&entry.value, before) {
        (Logged::Points { at }, Some(Logged::Points { at: was })) => changed_points(at, was, units),
        _ => value(entry, units),
    };
    let says = match entry.action {
        LogAction::Read => value,
        LogAction::StruckOut => format!("struck out: {value}"),
        LogAction::PutBack => format!("put back: {value}"),
        LogAction::Removed => format!("taken off the list: {value}"),
    };
    let fate = fate.filter(|_| entry.action == LogAction::Read);
    LogLine {
        number: entry.number,
        time: entry.taken_at.format("%H:%M %:z").to_string(),
        subject: entry.subject.clone(),
        thing: match part_name(&entry.part) {
            "" => entry.name.clone(),
            part => format!("{}: {part}", entry.name),
        },
        action: entry.action,
        says,
        cells: cells(&entry.value, units),
        how: how(entry),
        note: note(entry, fate),
        fate: fate.copied(),
        void: fate.is_some_and(|fate| *fate != Fate::InForce),
    }
}

fn part_name(part: &str) -> &str {
    match part.rsplit('/').next().unwrap_or(part) {
        "at" | "supports" | "mast" => "place",
        "front_bearing_deg" => "front leg points",
        "eye_height_m" => "rope’s end above the ground",
        "gap_m" => "gap",
        "outline" => "corners",
        "line" | "way" => "course",
        "outlet_height_m" => "outlet above the ground",
        "height_m" => "height",
        "crown_base_m" => "lowest branches",
        "crown_radius_m" => "radius of the crown",
        "trunk_radius_m" => "radius of the trunk",
        "radius_m" => "radius",
        "thickness_m" => "thickness",
        "width_m" => "width",
        "wire_heights" => "wire above the ground",
        "sag_m" => "sag",
        "slope" | "tape" | "bearing" => "",
        other => other,
    }
}

fn value(entry: &LogEntry, units: Units) -> String {
    let length = |value_m: &f64| format::length(*value_m, units);
    match &entry.value {
        Logged::Slope { bearing_deg, slope_deg, sigma_deg } => {
            let sure = sigma_deg.map(|sigma| format!(", give or take {}", fine(sigma)));
            let way = format::bearing(*bearing_deg);
            format!("{} along {way}{}", fine(*slope_deg), sure.unwrap_or_default())
        }
        Logged::Tape { tape_m, .. } => format!("tape {}", length(tape_m)),
        Logged::Bearing { bearing_deg, .. } => format!("bearing {}", format::bearing(*bearing_deg)),
        Logged::Point { at } => fix(at, units),
        Logged::Points { at } => listed(at.iter().map(|at| fix(at, units))),
        Logged::SpotHeight { height_m, sigma_m } => {
            let sure =
                sigma_m.map(|sigma| format!(", give or take {}", format::field("sigma_m", sigma, units)));
            format!("{}{}", over_origin(*height_m, units), sure.unwrap_or_default())
        }
        Logged::Length { length_m, sigma_m } => {
            let sure =
                sigma_m.map(|sigma| format!(", give or take {}", format::field("sigma_m", sigma, units)));
            format!("{}{}", length(length_m), sure.unwrap_or_default())
        }
        Logged::Lengths { lengths_m } => listed(lengths_m.iter().map(length)),
        Logged::Turned { bearing_deg } => format::bearing(*bearing_deg),
    }
}

/// The numbers of a reading. How a point was found is the job's own: `PointFix` has it.
fn cells(value: &Logged, units: Units) -> Vec<Cell> {
    let length = |value: f64, sigma_m: Option<f64>| rows::length_of(value, sigma_m, units).cell;
    match value {
        Logged::Slope { bearing_deg, slope_deg, sigma_deg } => {
            vec![rows::angle_of(*slope_deg, *sigma_deg, units).cell, rows::bearing(*bearing_deg).cell]
        }
        Logged::Tape { tape_m, .. } => vec![length(*tape_m, None)],
        Logged::Bearing { bearing_deg, .. } | Logged::Turned { bearing_deg } => {
            vec![rows::bearing(*bearing_deg).cell]
        }
        Logged::SpotHeight { height_m: value, sigma_m } | Logged::Length { length_m: value, sigma_m } => {
            vec![length(*value, *sigma_m)]
        }
        Logged::Lengths { lengths_m } => lengths_m.iter().map(|value| length(*value, None)).collect(),
        Logged::Point { .. } | Logged::Points { .. } => Vec::new(),
    }
}

/// Of an outline whose points are as many as before, those that are new.
fn changed_points(at: &[PointFix], was: &[PointFix], units: Units) -> String {
    let told = |(n, at): (usize, &PointFix)| format!("{n}. {}", fix(at, units));
    let as_many = at.len() == was.len();
    let is_new = |&(n, at): &(usize, &PointFix)| !as_many || was.get(n - 1) != Some(at);
    let changed: Vec<String> = (1..).zip(at).filter(is_new).map(told).collect();
    if changed.is_empty() {
        return listed(at.iter().map(|at| fix(at, units)));
    }
    let rest = if changed.len() < at.len() { "; the others as before" } else { "" };
    format!("{}{rest}", changed.join("; "))
}

fn fine(value_deg: f64) -> String {
    format::field(
        "slope_deg",
        value_deg,
        Units { inch_fraction: 16, system: crate::quantity::UnitSystem::Metric },
    )
}

fn over_origin(height_m: f64, units: Units) -> String {
    let way = if height_m < 0.0 { "below" } else { "above" };
    format!("{} {way} the first mark", format::length(height_m.abs(), units))
}

fn listed(items: impl Iterator<Item = String>) -> String {
    let items: Vec<String> = items.zip(1..).map(|(item, n)| format!("{n}. {item}")).collect();
    items.join("; ")
}

/// How a point was found, with its numbers.
fn fix(fix: &PointFix, units: Units) -> String {
    let length = |value_m: f64| format::length(value_m, units);
    match fix {
        PointFix::Origin => "the first mark".to_owned(),
        PointFix::Coordinates { east_m, north_m } => {
            let way = |value_m: f64, positive: &str, negative: &str| {
                format!("{} {}", length(value_m.abs()), if value_m < 0.0 { negative } else { positive })
            };
            format!("{}, {}", way(*east_m, "east", "west"), way(*north_m, "north", "south"))
        }
        PointFix::BearingTape { from, bearing_deg, tape_m } => {
            format!("from {from}: {}, tape {}", format::bearing(*bearing_deg), length(*tape_m))
        }
        PointFix::TwoTapes { from_a, tape_a_m, from_b, tape_b_m, side } => {
            let tapes =
                format!("tape {} from {from_a}, {} from {from_b}", length(*tape_a_m), length(*tape_b_m));
            match side {
                Some(side) => format!("{tapes}, {} of the way from {from_a} to {from_b}", side_word(*side)),
                None => format!("{tapes}, on a side not said yet"),
            }
        }
        PointFix::ThreeTapes { from_a, tape_a_m, from_b, tape_b_m, from_c, tape_c_m } => format!(
            "tape {} from {from_a}, {} from {from_b}, {} from {from_c}",
            length(*tape_a_m),
            length(*tape_b_m),
            length(*tape_c_m),
        ),
        PointFix::Offset { from, toward, along_m, off_m, side } => format!(
            "{} from {from} towards {toward}, then {} square off to the {}",
            length(*along_m),
            length(*off_m),
            side_word(*side),
        ),
        PointFix::SlopeTape { from, bearing_deg, tape_m, vertical_deg } => format!(
            "from {from}: {}, straight tape {} at {}",
            format::bearing(*bearing_deg),
            length(*tape_m),
            fine(*vertical_deg),
        ),
        PointFix::NextCorner { turn, turn_deg, tape_m } => {
            format!("{} to the {}, then tape {}", fine(*turn_deg), side_word(*turn), length(*tape_m))
        }
    }
}

fn side_word(side: Side) -> &'static str {
    match side {
        Side::Left => "left",
        Side::Right => "right",
    }
}

fn how(entry: &LogEntry) -> String {
    let mut words: Vec<String> = entry.captures.iter().map(captured).collect();
    let (known, count) = (entry.action == LogAction::Read, words.len());
    if known && (count == 0 || !all_captured(&entry.value, count)) {
        let rest = if count == 0 { "" } else { "the rest " };
        words.push(format!("{rest}{}", instrument(entry.instrument)));
    }
    if !entry.who.is_empty() {
        words.push(format!("by {}", entry.who));
    }
    words.join("; ")
}

/// Whether nothing of a reading is left to the instrument of the entry as a whole.
fn all_captured(value: &Logged, count: usize) -> bool {
    let values = match value {
        Logged::Slope { .. } => 2,
        Logged::Point { at } => serde_json::to_value(at)
            .ok()
            .and_then(|at| at.as_object().map(|at| at.values().filter(|value| value.is_number()).count()))
            .unwrap_or(1),
        Logged::Points { .. } | Logged::Lengths { .. } => return false,
        _ => 1,
    };
    count >= values
}

fn captured(capture: &Capture) -> String {
    let what = match capture.path.rsplit('/').next().unwrap_or_default() {
        name if name.contains("bearing") => "bearing by ",
        name if name.contains("slope") => "slope by ",
        name if name.contains("tape") => "tape by ",
        _ => "",
    };
    let samples = capture.samples.map_or_else(String::new, |samples| format!(", {}", sampled(&samples)));
    format!("{what}{}{samples}", instrument(capture.instrument))
}

fn sampled(samples: &SampleSummary) -> String {
    let spread =
        samples.deviation_deg.map(|deviation| format!(", each within {} (one sigma)", fine(deviation)));
    format!("{} readings in {:.1} s{}", samples.count, samples.seconds, spread.unwrap_or_default())
}

fn instrument(instrument: Instrument) -> &'static str {
    match instrument {
        Instrument::BeforeLog => "in the job before its log began",
        Instrument::Typed => "typed",
        Instrument::Map => "put on the map",
        Instrument::PhoneTilt => "phone’s tilt",
        Instrument::PhoneCompass => "phone’s compass",
        Instrument::PhoneSight => "two angles along the phone",
        Instrument::WaterLevel => "water level",
        Instrument::StringLevel => "string level",
        Instrument::LevelAndRod => "level and rod",
        Instrument::File => "out of a file",
        Instrument::Undone => "brought back by undo",
    }
}

fn note(entry: &LogEntry, fate: Option<&Fate>) -> String {
    let mut words = Vec::new();
    if let (LogAction::Read, Some(before)) = (entry.action, entry.replaces) {
        words.push(format!("in place of no. {before}"));
    }
    match fate {
        Some(Fate::Replaced { by }) => words.push(format!("replaced by no. {by}")),
        Some(Fate::StruckOut { by }) => words.push(format!("struck out by no. {by}")),
        Some(Fate::Removed { by }) => words.push(format!("taken off by no. {by}")),
        Some(Fate::InForce) | None => {}
    }
    if let (LogAction::StruckOut | LogAction::PutBack | LogAction::Removed, Some(of)) =
        (entry.action, entry.replaces)
    {
        words.push(format!("no. {of}"));
    }
    words.join(", ")
}

fn things(log: &[LogEntry]) -> Vec<LogThing> {
    let mut counts: BTreeMap<&Subject, u32> = BTreeMap::new();
    for entry in log {
        *counts.entry(&entry.subject).or_default() += 1;
    }
    let mut things: Vec<LogThing> = Vec::new();
    for entry in log.iter().rev() {
        if let Some(entries) = counts.remove(&entry.subject) {
            things.push(LogThing { subject: entry.subject.clone(), name: thing_name(entry), entries });
        }
    }
    things
}

/// Readings of one kind share a name: their value tells one from the other.
fn thing_name(entry: &LogEntry) -> String {
    match &entry.value {
        Logged::Slope { bearing_deg, .. } => {
            format!("Slope along {}", format::bearing(*bearing_deg))
        }
        _ => entry.name.clone(),
    }
}

/// How many readings of the log are in force, struck out and removed.
///
/// # Examples
/// ```
/// use mastwright_engine::{demo, report};
///
/// assert_eq!(report::log_counts(&demo::lantern_green()), [0, 0, 0]);
/// ```
pub fn log_counts(job: &Job) -> [usize; 3] {
    let standing = standing(&job.log);
    let count = |of: fn(bool, bool) -> bool| {
        standing.values().filter(|reading| of(reading.struck, reading.removed)).count()
    };
    [
        count(|struck, removed| !struck && !removed),
        count(|struck, removed| struck && !removed),
        count(|_, removed| removed),
    ]
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::demo::yardstick;
    use crate::survey::log::{How, record};

    fn begun() -> Job {
        let mut job = yardstick();
        add(&mut job, "2026-11-14T14:20:00-05:00", Instrument::BeforeLog, vec![]);
        job
    }

    fn add(job: &mut Job, at: &str, instrument: Instrument, captures: Vec<Capture>) {
        let taken_at = chrono::DateTime::parse_from_rfc3339(at).expect("a date");
        let how = How { taken_at, who: String::new(), instrument, captures, open: vec![] };
        job.log.extend(record(job, &how));
    }

    /// What a face may do more with than show its words: the numbers, and what became of them.
    #[test]
    fn a_readings_numbers_stand_beside_its_words() {
        let job = begun();
        let lines: Vec<LogLine> = log_text(&job, None).days.into_iter().flat_map(|day| day.lines).collect();
        for (entry, line) in job.log.iter().rev().zip(&lines) {
            assert_eq!((line.action, line.fate), (entry.action, Some(Fate::InForce)));
            let number = |cell: &Cell| match cell {
                Cell::Quantity { quantity: crate::finding::Quantity::LengthM { value }, .. }
                | Cell::Quantity { quantity: crate::finding::Quantity::AngleDeg { value }, .. }
                | Cell::Bearing { bearing_deg: value } => *value,
                other => panic!("{other:?}"),
            };
            let numbers: Vec<f64> = line.cells.iter().map(number).collect();
            let expected = match &entry.value {
                Logged::Slope { bearing_deg, slope_deg, .. } => vec![*slope_deg, *bearing_deg],
                Logged::Tape { tape_m, .. } => vec![*tape_m],
                Logged::SpotHeight { height_m, .. } => vec![*height_m],
                Logged::Length { length_m, .. } => vec![*length_m],
                Logged::Lengths { lengths_m } => lengths_m.clone(),
                Logged::Bearing { bearing_deg, .. } | Logged::Turned { bearing_deg } => vec![*bearing_deg],
                Logged::Point { .. } | Logged::Points { .. } => vec![],
            };
            assert_eq!(numbers, expected, "{line:?}");
        }
        assert!(lines.iter().filter(|line| !line.cells.is_empty()).count() > 5);
    }

    #[test]
    fn a_sighted_height_is_told_with_its_doubt() {
        let mut job = begun();
        let at = |job: &Job| {
            let stands = |shape: &crate::job::Shape| matches!(shape, crate::job::Shape::Building { .. });
            job.yard.obstacles.iter().position(|obstacle| stands(&obstacle.shape)).expect("a building")
        };
        let at = at(&job);
        let subject = Subject::Obstacle { id: job.yard.obstacles[at].id.clone() };
        if let crate::job::Shape::Building { height_m, height_sigma_m, .. } =
            &mut job.yard.obstacles[at].shape
        {
            (*height_m, *height_sigma_m) = (4.8768, Some(0.1524));
        }
        add(&mut job, "2026-11-15T09:05:00-05:00", Instrument::PhoneSight, vec![]);
        let said = log_text(&job, Some(&subject));
        let says: Vec<&str> =
            said.days.iter().flat_map(|day| &day.lines).map(|line| line.says.as_str()).collect();
        // 16 feet, give or take 6 inches: the yardstick is in feet.
        assert!(says.contains(&"16' 0\", give or take 6\""), "{says:?}");
        // A height without its doubt says none, and a changed doubt alone is a reading of its own.
        let before = job.log.len();
        if let crate::job::Shape::Building { height_sigma_m, .. } = &mut job.yard.obstacles[at].shape {
            *height_sigma_m = None;
        }
        add(&mut job, "2026-11-15T09:06:00-05:00", Instrument::Typed, vec![]);
        assert_eq!(job.log.len(), before + 1);
        let said = log_text(&job, Some(&subject));
        assert!(said.days.iter().flat_map(|day| &day.lines).any(|line| line.says == "16' 0\""), "{said:?}");
    }

    #[test]
    fn days_run_back_and_void_readings_say_what_became_of_them() {
        let mut job = begun();
        let id = Subject::Reading { id: job.yard.slopes[0].id.clone() };
        job.yard.slopes[0].slope_deg = 4.25;
        let samples = Some(SampleSummary { count: 240, seconds: 4.0, deviation_deg: Some(0.04) });
        let path = "/yard/slopes/0/slope_deg".to_owned();
        let capture = Capture { path, instrument: Instrument::PhoneTilt, samples };
        add(&mut job, "2026-11-15T09:05:00-05:00", Instrument::Typed, vec![capture]);
        job.yard.slopes[0].struck = true;
        add(&mut job, "2026-11-15T09:06:00-05:00", Instrument::Typed, vec![]);
        let text = log_text(&job, Some(&id));
        let titles: Vec<_> = text.days.iter().map(|day| day.title.as_str()).collect();
        assert_eq!(titles, ["Sunday 15 November 2026", "Saturday 14 November 2026"]);
        let [struck, taken] = &text.days[0].lines[..] else { panic!("{:?}", text.days[0]) };
        assert!(struck.says.starts_with("struck out: 4.25°") && !struck.void, "{struck:?}");
        assert_eq!(taken.time, "09:05 -05:00");
        assert_eq!(
            taken.how,
            "slope by phone’s tilt, 240 readings in 4.0 s, each within 0.04° (one sigma); the rest typed"
        );
        assert!(taken.void && taken.note.contains("struck out by no."), "{taken:?}");
        let first = &text.days[1].lines[0];
        assert!(first.void && first.note.contains("replaced by no."), "{first:?}");
        assert_eq!(log_counts(&job)[1], 1);
        assert_eq!(text.things.len(), log_text(&job, None).things.len());
        assert!(log_plain(&job).contains("Sunday 15 November 2026"));
    }

    #[test]
    fn a_struck_reading_put_back_is_in_force_again() {
        let mut job = begun();
        for struck in [true, false] {
            job.yard.slopes[0].struck = struck;
            add(&mut job, "2026-11-15T09:06:00-05:00", Instrument::Typed, vec![]);
        }
        let subject = Subject::Reading { id: job.yard.slopes[0].id.clone() };
        let lines: Vec<LogLine> =
            log_text(&job, Some(&subject)).days.into_iter().flat_map(|day| day.lines).collect();
        assert!(lines.iter().all(|line| !line.void), "{lines:?}");
        assert!(lines[0].says.starts_with("put back"));
    }

    #[test]
    fn of_an_outline_only_the_moved_corner_is_told() {
        let mut job = begun();
        let outline = &mut job.yard.boundary.as_mut().expect("the demo has a boundary").outline;
        outline[1] = PointFix::Coordinates { east_m: 3.0, north_m: 4.0 };
        add(&mut job, "2026-11-15T09:06:00-05:00", Instrument::Map, vec![]);
        let text = log_text(&job, Some(&Subject::Boundary));
        let says = &text.days[0].lines[0].says;
        assert!(says.starts_with("2. ") && says.ends_with("; the others as before"), "{says}");
    }

    #[test]
    fn points_are_told_as_they_were_taped() {
        let units = Units { system: crate::quantity::UnitSystem::Imperial, inch_fraction: 16 };
        let told = fix(&PointFix::BearingTape { from: "A".into(), bearing_deg: 45.0, tape_m: 1.8542 }, units);
        assert_eq!(told, "from A: 045.0°, tape 6' 1\"");
        let told = fix(
            &PointFix::Coordinates { east_m: -1.0, north_m: 2.0 },
            Units { system: crate::quantity::UnitSystem::Metric, ..units },
        );
        assert_eq!(told, "1.000 m west, 2.000 m north");
    }
}
