//! Whom to call first: what a job asks for, by hand, and its calendar as another program reads it.

use chrono::{DateTime, FixedOffset, NaiveDate};
use mastwright_api::messages::DatedRequest;
use mastwright_api::run;
use mastwright_engine::calls::{Call, CallKind, CallList, CallState, calls};
use mastwright_engine::job::{CallMade, Job, Located, Underground};
use mastwright_engine::plan;

use crate::cramped_yard::cramped;

fn moment(text: &str) -> DateTime<FixedOffset> {
    DateTime::parse_from_rfc3339(text).expect("a moment")
}

fn on(year: i32, month: u32, day: u32) -> NaiveDate {
    NaiveDate::from_ymd_opt(year, month, day).expect("a day")
}

/// Digging on Friday, 4 December 2026; nobody has asked the utilities.
fn job() -> Job {
    let mut job = cramped(2);
    job.yard.buried_services.clear();
    job.yard.underground = Underground::NotAsked;
    job.yard.digging.begins_at = Some(moment("2026-12-04T09:00:00-05:00"));
    job
}

fn list(job: &Job, today: NaiveDate) -> CallList {
    calls(job, &plan::compute(job).expect("it can be planned").plan, today)
}

fn service(list: &CallList) -> &Call {
    let is_service = |call: &&Call| {
        matches!(call.what, CallKind::LocateService { .. } | CallKind::LocateServiceAgain { .. })
    };
    list.calls.iter().find(is_service).expect("it is always on the list")
}

/// By South Carolina's calendar (sc811.com): called in on Monday, dug on Friday. Late on Tuesday; made is not answered.
#[test]
fn the_locate_service_is_called_in_time() {
    let mut job = job();
    let (monday, tuesday) = (on(2026, 11, 30), on(2026, 12, 1));
    assert_eq!(service(&list(&job, monday)).by, Some(monday));
    assert_eq!(service(&list(&job, monday)).state, CallState::Open);
    assert_eq!(service(&list(&job, tuesday)).state, CallState::Late);
    // Two days, as Alabama and Illinois ask.
    job.yard.digging.notice_working_days = Some(2);
    assert_eq!(service(&list(&job, monday)).by, Some(tuesday));
    job.yard.digging.calls_made = vec![CallMade::LocateService];
    assert_eq!(service(&list(&job, on(2026, 12, 3))).state, CallState::Made);
}

/// An answer of 16 November holds for fourteen days where it says nothing (CGA 5.23: ten working days): until the 30th, so
/// it does not serve for the 4th of December, and does where it says so itself.
#[test]
fn an_answer_that_ends_before_the_digging_is_asked_for_again() {
    let mut job = job();
    let answer = |holds_until: Option<&str>| Underground::NoneThere {
        answered_at: Some(moment("2026-11-16T12:00:00-05:00")),
        holds_until: holds_until.map(moment),
        reference: String::new(),
    };
    job.yard.underground = answer(None);
    let again = list(&job, on(2026, 11, 20));
    let CallKind::LocateServiceAgain { holds_until, .. } = service(&again).what else {
        panic!("{again:?}");
    };
    assert_eq!((holds_until, service(&again).state), (on(2026, 11, 30), CallState::Open));
    // One that holds on the day itself serves.
    for holds_until in ["2026-12-04T23:59:00-05:00", "2026-12-10T12:00:00-05:00"] {
        job.yard.underground = answer(Some(holds_until));
        assert_eq!(service(&list(&job, on(2026, 11, 20))).state, CallState::Answered);
    }
}

/// Marks without a day say nothing of the day of the digging: they never count as more than an answer with one. By hand: what
/// was made is ticked off, all else is open, then late.
#[test]
fn marks_without_a_day_are_no_answer() {
    let mut job = (0..60)
        .map(cramped)
        .find(|job| !job.yard.buried_services.is_empty())
        .expect("some have a line in the ground");
    job.yard.buried_services.iter_mut().for_each(|line| line.located = Located::MarkedByUtility);
    job.yard.digging.begins_at = Some(moment("2026-12-04T09:00:00-05:00"));
    job.yard.digging.notice_working_days = None;
    for underground in [Underground::Marked, Underground::NotAsked] {
        job.yard.underground = underground;
        job.yard.digging.calls_made.clear();
        assert_eq!(service(&list(&job, on(2026, 11, 30))).state, CallState::Open);
        assert_eq!(service(&list(&job, on(2026, 12, 1))).state, CallState::Late);
        job.yard.digging.calls_made = vec![CallMade::LocateService];
        assert_eq!(service(&list(&job, on(2026, 12, 1))).state, CallState::Made);
    }
}

/// Without a day nothing has a last day and nothing is late; the calls are the same.
#[test]
fn without_a_day_nothing_is_late() {
    let mut job = job();
    let dated = list(&job, on(2030, 1, 1));
    job.yard.digging.begins_at = None;
    let undated = list(&job, on(2030, 1, 1));
    assert!(undated.calls.iter().all(|call| call.by.is_none() && call.state == CallState::Open));
    assert_eq!(undated.calls.len(), dated.calls.len());
    assert!(dated.calls.iter().all(|call| call.state == CallState::Late));
}

/// A wire of unknown voltage has its owner asked; one whose voltage is known does not.
#[test]
fn owners_of_wires_are_asked_for_the_voltage() {
    let mut job =
        (0..40).map(cramped).find(|job| !job.yard.overhead_lines.is_empty()).expect("some have one");
    let owners = |job: &Job| {
        let list = list(job, on(2026, 11, 20));
        list.calls.iter().filter(|call| matches!(call.what, CallKind::LineOwner { .. })).count()
    };
    job.yard.overhead_lines.iter_mut().for_each(|line| line.voltage_kv = None);
    assert_eq!(owners(&job), job.yard.overhead_lines.len());
    job.yard.overhead_lines.iter_mut().for_each(|line| line.voltage_kv = Some(0.4));
    assert_eq!(owners(&job), 0);
}

/// The calendar read by hand: an event for every call that is to be made, whole days, each with a name of its own that stays
/// the same, a reminder, and text that comes back as it was. Lines hold no more than 75 octets and end in CR LF, a line that
/// begins with a space goes on with the one before (RFC 5545, 3.1); commas, semicolons and strokes are escaped (3.3.11).
/// `tests/browser/calls.spec.ts` has another library read it.
#[test]
fn the_calendar_by_hand() {
    let mut job = job();
    job.name = "Lantern Green; 2026, north\\side – très haut".to_owned();
    job.yard.digging.calls_made = vec![CallMade::Forecast];
    let now = moment("2026-11-27T10:00:00-05:00");
    let request = DatedRequest { job: serde_json::to_value(&job).expect("a job is JSON"), now };
    let text = run::calls_calendar(&request).expect("it can be written").text;
    for line in text.split_inclusive('\n') {
        assert!(line.ends_with("\r\n") && line.len() <= 77, "{line:?}");
    }
    let lines = text.replace("\r\n ", "");
    let answer = run::calls(&request).expect("it can be listed");
    let to_do: Vec<_> = answer.report.calls.iter().filter(|it| it.state != CallState::Made).collect();
    assert_eq!(to_do.len() + 1, answer.report.calls.len());
    let events: Vec<&str> = lines.split("BEGIN:VEVENT\r\n").skip(1).collect();
    assert_eq!(events.len(), to_do.len());
    let mut names = Vec::new();
    for (event, call) in events.iter().zip(to_do) {
        let value = |name: &str| {
            let begins =
                |line: &&str| line.starts_with(&format!("{name}:")) || line.starts_with(&format!("{name};"));
            let line = event.lines().find(begins).unwrap_or_else(|| panic!("{name} of {event}"));
            line.split_once(':').expect("a line has a value").1.to_owned()
        };
        assert_eq!(value("DTSTART"), call.by_date.expect("it has a day").format("%Y%m%d").to_string());
        assert!(event.contains("DTSTART;VALUE=DATE:"), "{event}");
        let after = call.by_date.and_then(|day| day.succ_opt()).expect("it has a day after");
        assert_eq!(value("DTEND"), after.format("%Y%m%d").to_string());
        assert_eq!(value("DTSTAMP"), "20261127T150000Z");
        let summary = value("SUMMARY").replace("\\,", ",").replace("\\;", ";").replace("\\\\", "\\");
        assert_eq!(summary, format!("{} ({})", call.title, job.name));
        assert_eq!((value("ACTION").as_str(), value("TRIGGER").as_str()), ("DISPLAY", "-PT15H"));
        names.push(value("UID"));
    }
    let count = names.len();
    names.sort();
    names.dedup();
    assert_eq!(names.len(), count, "{names:?}");
    assert_eq!(run::calls_calendar(&request).expect("again").text, text);
}
