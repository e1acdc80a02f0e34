//! The season's diary: its calendar read by hand, and that nothing of it is lost when the mast comes down and the job is copied.

use chrono::{DateTime, FixedOffset};
use mastwright_api::cards::CardsRequest;
use mastwright_api::messages::DatedRequest;
use mastwright_api::run;
use mastwright_api::season::SamePlaceRequest;
use mastwright_engine::cards::WaysLooked;
use mastwright_engine::demo::lantern_green;
use mastwright_engine::job::{Document, Job, RoundCause, SeasonLesson, SeasonRound};
use mastwright_engine::season::SeasonStanding;

fn moment(text: &str) -> DateTime<FixedOffset> {
    DateTime::parse_from_rfc3339(text).expect("a moment")
}

fn request(job: &Job, now: &str) -> DatedRequest {
    DatedRequest { job: serde_json::to_value(job).expect("a job is JSON"), now: moment(now) }
}

/// The demo's last round is of 21 November 2026 and comes again after seven days: one whole day, the 28th, which ends on the 29th (RFC 5545,
/// 3.6.1), under the name that the next one has, too. Without a day there is no calendar: RFC 5545 asks for at least one component (3.6).
#[test]
fn the_next_round_in_a_calendar_by_hand() {
    let mut job = lantern_green();
    let now = "2026-11-22T10:00:00-05:00";
    let text = run::season_calendar(&request(&job, now)).expect("it has a day").text;
    assert!(text.split_inclusive('\n').all(|line| line.ends_with("\r\n") && line.len() <= 77));
    let lines = text.replace("\r\n ", "");
    let value = |lines: &str, name: &str| {
        let line = lines.lines().find(|line| line.starts_with(name)).expect("the line is there");
        line.split_once(':').expect("a line has a value").1.to_owned()
    };
    assert_eq!(lines.matches("BEGIN:VEVENT").count(), 1);
    assert_eq!(value(&lines, "DTSTART;VALUE=DATE"), "20261128");
    assert_eq!(value(&lines, "DTEND;VALUE=DATE"), "20261129");
    assert_eq!(value(&lines, "DTSTAMP"), "20261122T150000Z");
    let mut next = job.season.rounds[1].clone();
    (next.id, next.taken_at) = ("round-3".to_owned(), moment("2026-11-27T23:30:00-05:00"));
    job.season.change(|it| it.rounds.push(next));
    let later = run::season_calendar(&request(&job, now)).expect("it has a day").text.replace("\r\n ", "");
    assert_eq!(value(&later, "DTSTART;VALUE=DATE"), "20261204");
    assert_eq!(value(&later, "UID"), value(&lines, "UID"));
    job.season.change(|it| it.every_days = None);
    let refused = run::season_calendar(&request(&job, now)).expect_err("nobody has said how often");
    assert_eq!(refused.errors[0].path, "/season/every_days");
}

/// The demo says of itself: something is to be mended, five things were looked at twice, the rest never.
#[test]
fn the_demo_is_not_called_fine() {
    let job = lantern_green();
    let answer = run::season(&request(&job, "2026-11-22T10:00:00-05:00")).expect("it can be read");
    assert_eq!(answer.diary.standing, SeasonStanding::ToMend);
    // By hand: from (0.05, −0.08) to (0.26, −0.02) are 0.21 and 0.06, together 0.2184; 2.4477 · √2 · 0.05 = 0.1731.
    let change = answer.diary.lean.change.expect("measured twice");
    assert!((change.by_deg - 0.2184).abs() < 1e-4 && (change.within_95_deg - 0.1731).abs() < 1e-4);
    assert!(
        change.moved
            && answer.report.lean.change.contains("0.22°")
            && answer.report.lean.change.contains("± 0.18°")
    );
    // What it was called in the diary is what the plan calls it now.
    let names: Vec<&str> =
        answer.report.lists.iter().flat_map(|list| &list.items).map(|it| it.name.as_str()).collect();
    for looked in job.season.rounds.iter().flat_map(|round| &round.looked) {
        assert!(names.contains(&looked.name.as_str()), "{}", looked.name);
    }
}

/// Taken down, handed over as a document, given another name and other guys for the next year: every entry is as it was, to the letter.
#[test]
fn the_diary_survives_take_down_and_next_years_copy() {
    let mut job = lantern_green();
    let of_this_year = job.season.rounds.clone();
    job.cards.change(|it| it.comes_down = true);
    let down = SeasonRound {
        id: "round-3".to_owned(),
        taken_at: moment("2027-01-09T11:00:00-05:00"),
        who: "Robin".to_owned(),
        cause: RoundCause::TakenDown,
        looked: Vec::new(),
        lean: None,
        note: "Ropes dried.".to_owned(),
    };
    let all = [of_this_year.as_slice(), &[down]].concat();
    job.season.change(|it| it.rounds = all.clone());
    let document = Document::of(&serde_json::to_value(&job).expect("a job is JSON")).expect("it is right");
    let mut copy = Document::read(&document.text()).expect("it can be read again").into_job();
    assert_eq!(copy.season.rounds, all);
    copy.name = "Lantern Green 2027".to_owned();
    copy.cards = Default::default();
    copy.rig.guy_levels.remove(0);
    let answer = run::season(&request(&copy, "2027-11-20T10:00:00-05:00")).expect("it can be read");
    assert_eq!((answer.diary.standing, answer.report.rounds.len()), (SeasonStanding::Down, 3));
    let mend = answer.report.rounds.iter().find(|round| round.id == "round-2").expect("it is there");
    assert!(mend.lines.iter().any(|line| line.contains("to mend: Guys: Upper guy")), "{:?}", mend.lines);
    assert!(mend.lean.contains("0.26°"), "{}", mend.lean);
}

/// A note stands on the card that it names, with its day, and one of a part of the day stands there; on no other.
#[test]
fn a_note_stands_where_it_belongs() {
    let mut job = lantern_green();
    let note = |id: &str, card: &str| SeasonLesson {
        id: id.to_owned(),
        card: card.to_owned(),
        text: "Two more at the line.".to_owned(),
        noted_at: moment("2027-01-09T11:00:00-05:00"),
    };
    job.season.change(|it| it.lessons = vec![note("l1", "raise:walk-up"), note("l2", "raise")]);
    let job = serde_json::to_value(&job).expect("a job is JSON");
    let request = CardsRequest { job, looked: WaysLooked::default() };
    let report = run::cards(&request).expect("the demo has cards").report;
    let noted: Vec<(&str, &[String])> = report
        .cards
        .iter()
        .filter(|card| !card.lessons.is_empty())
        .map(|card| (card.key.as_str(), card.lessons.as_slice()))
        .collect();
    assert_eq!(
        noted,
        [("raise:walk-up", &["Noted before: Two more at the line. (2027-01-09)".to_owned()][..])]
    );
    let parts: Vec<usize> = report.phases.iter().map(|part| part.lessons.len()).collect();
    assert_eq!(parts.iter().sum::<usize>(), 1);
}

/// What differs from the job of then is told by its place and nothing else is; without that job it is not known, and never "nothing".
#[test]
fn what_changed_since_then_is_told_and_not_known_without_it() {
    let job = serde_json::to_value(lantern_green()).expect("a job is JSON");
    let now = moment("2027-11-20T09:00:00-05:00");
    let asked = |before: Option<serde_json::Value>| {
        let request = SamePlaceRequest { job: job.clone(), now, before };
        run::same_place(&request).expect("the demo stands again")
    };
    let mut then = job.clone();
    then["rig"]["guy_levels"][0]["attach_height_m"] = serde_json::json!(1.75);
    let changed = asked(Some(then));
    assert_eq!(changed.changes.len(), 1, "{:?}", changed.changes);
    let place = serde_json::to_string(&changed.changes[0]).expect("JSON");
    assert!(place.contains("attach_height"), "{place}");
    let [same, unknown] = [asked(Some(job.clone())), asked(None)];
    assert!(same.changes.is_empty() && unknown.changes.is_empty());
    let says = [&changed, &same, &unknown].map(|answer| answer.report.changes_say.clone());
    assert!(says[2].contains("not known yet"), "{says:?}");
    assert!(!says[1].contains("not known") && says[0] != says[1] && says[1] != says[2], "{says:?}");
}
