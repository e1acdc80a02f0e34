use super::*;
use crate::demo::yardstick;
use crate::job::{Capture, Instrument, Job, LogAction, Logged, PointFix, SampleSummary};

fn how(instrument: Instrument) -> How {
    let taken_at = chrono::DateTime::parse_from_rfc3339("2026-11-25T13:20:00-05:00").expect("a date");
    How { taken_at, who: "Ada".to_owned(), instrument, captures: Vec::new(), open: Vec::new() }
}

fn logged(job: &mut Job, how: &How) -> Vec<(LogAction, String, Option<u32>)> {
    let entries = record(job, how);
    let says = entries.iter().map(|e| (e.action, e.part.clone(), e.replaces)).collect();
    job.log.extend(entries);
    says
}

fn begun() -> Job {
    let mut job = yardstick();
    logged(&mut job, &how(Instrument::BeforeLog));
    job
}

#[test]
fn a_log_begins_with_every_reading_and_is_then_up_to_date() {
    let job = begun();
    assert_eq!(job.log.len(), readings(&job).len());
    assert!(job.log.len() > 20 && job.log.iter().zip(1..).all(|(entry, n)| entry.number == n));
    assert_eq!(record(&job, &how(Instrument::Typed)), []);
    assert!(!compass_read(&job, &job.log));
}

#[test]
fn a_reading_is_replaced_struck_out_put_back_and_removed_and_stays() {
    let mut job = begun();
    let typed = how(Instrument::Typed);
    let (first, next) = (number_of(&job, "slope"), job.log.len() as u32 + 1);
    job.yard.slopes[0].slope_deg += 0.5;
    assert_eq!(logged(&mut job, &typed), [(LogAction::Read, "slope".to_owned(), Some(first))]);
    job.yard.slopes[0].struck = true;
    assert_eq!(logged(&mut job, &typed), [(LogAction::StruckOut, "slope".to_owned(), Some(next))]);
    job.yard.slopes[0].struck = false;
    assert_eq!(logged(&mut job, &typed), [(LogAction::PutBack, "slope".to_owned(), Some(next))]);
    let slope = job.yard.slopes.remove(0);
    assert_eq!(logged(&mut job, &typed), [(LogAction::Removed, "slope".to_owned(), Some(next))]);
    // As undo brings it, at the other end of its list.
    job.yard.slopes.push(slope);
    assert_eq!(logged(&mut job, &typed), [(LogAction::PutBack, "slope".to_owned(), Some(next))]);
    assert_eq!(logged(&mut job, &typed), []);
    assert!(compass_read(&job, &job.log));
}

fn number_of(job: &Job, part: &str) -> u32 {
    job.log.iter().find(|entry| entry.part == part).expect("an entry").number
}

#[test]
fn a_capture_goes_to_the_reading_of_its_field_alone() {
    let mut job = begun();
    job.yard.slopes[1].slope_deg = 4.25;
    job.yard.slopes[2].slope_deg = 4.5;
    let samples = Some(SampleSummary { count: 240, seconds: 4.0, deviation_deg: Some(0.04) });
    let capture =
        Capture { path: "/yard/slopes/1/slope_deg".to_owned(), instrument: Instrument::PhoneTilt, samples };
    let entries = record(&job, &How { captures: vec![capture.clone()], ..how(Instrument::Typed) });
    let kept = Capture { path: "/slope_deg".to_owned(), ..capture };
    let by: Vec<_> = entries.iter().map(|e| e.captures.clone()).collect();
    assert_eq!(by, [vec![kept.clone()], vec![]]);
    job.log.extend(entries);
    // The bearing is typed anew: the slope is still the phone's. Then the slope is typed too.
    job.yard.slopes[1].bearing_deg += 1.0;
    let entries = record(&job, &how(Instrument::Typed));
    assert_eq!(entries[0].captures, [kept]);
    job.log.extend(entries);
    job.yard.slopes[1].slope_deg = 5.0;
    assert_eq!(record(&job, &how(Instrument::Typed))[0].captures, []);
}

#[test]
fn only_a_bearing_by_compass_asks_for_its_date() {
    let mut job = begun();
    job.yard.spot_heights[0].height_m += 0.1;
    let entries = record(&job, &how(Instrument::Typed));
    assert!(entries.len() == 1 && !compass_read(&job, &entries));
    job.yard.marks[1].at = PointFix::BearingTape { from: "A".into(), bearing_deg: 10.0, tape_m: 5.0 };
    let entries = record(&job, &how(Instrument::Typed));
    assert!(compass_read(&job, &entries));
    job.yard.bearings = crate::job::BearingReference::True;
    assert!(!compass_read(&job, &entries));
}

#[test]
fn an_outline_is_one_reading() {
    let mut job = begun();
    let boundary = job.yard.boundary.as_mut().expect("the demo has a boundary");
    boundary.outline[0] = PointFix::Coordinates { east_m: -30.0, north_m: 1.0 };
    let entries = record(&job, &how(Instrument::Map));
    assert_eq!(entries.len(), 1);
    assert!(matches!(&entries[0].value, Logged::Points { at } if at.len() >= 3));
    assert_eq!(entries[0].instrument, Instrument::Map);
}

/// Two devices read one slope each for itself. Each shows its own until somebody says which holds: meanwhile neither log says
/// that anything was read anew, or the two would tell each other for ever.
#[test]
fn of_two_readings_that_wait_for_somebody_the_log_takes_either() {
    let mut job = begun();
    let typed = how(Instrument::Typed);
    let of =
        |deg: f64| How { open: vec!["/yard/slopes/0".to_owned()], who: deg.to_string(), ..typed.clone() };
    for deg in [4.25, 5.5] {
        job.yard.slopes[0].slope_deg = deg;
        assert_eq!(logged(&mut job, &typed).len(), 1);
    }
    for deg in [4.25, 5.5] {
        job.yard.slopes[0].slope_deg = deg;
        assert_eq!(record(&job, &of(deg)), []);
    }
    // What the log does not have is taken there, too, and so is what stands elsewhere.
    job.yard.slopes[0].slope_deg = 6.0;
    job.yard.slopes[1].slope_deg = 7.0;
    assert_eq!(record(&job, &of(6.0)).len(), 2);
    // Once somebody has said which holds, that is told.
    job.yard.slopes[1].slope_deg = begun().yard.slopes[1].slope_deg;
    job.yard.slopes[0].slope_deg = 4.25;
    assert_eq!(record(&job, &typed).len(), 1);
}

/// The lead's points are measured from the marks like everything else, and are given back by undo like everything else.
#[test]
fn the_lead_of_the_lights_is_logged() {
    let mut job = begun();
    let typed = how(Instrument::Typed);
    let way = vec![PointFix::BearingTape { from: "A".to_owned(), bearing_deg: 286.0, tape_m: 5.02 }];
    job.lights.change(|lights| lights.lead.way = way.clone());
    job.lights.change(|lights| lights.lead.outlet_height_m = Some(0.45));
    let read = |part: &str| (LogAction::Read, part.to_owned(), None);
    assert_eq!(logged(&mut job, &typed), [read("way"), read("outlet_height_m")]);
    assert!(matches!(&job.log[job.log.len() - 2].value, Logged::Points { at } if *at == way));
    let number = number_of(&job, "way");
    job.lights.change(|lights| lights.lead.way.clear());
    assert_eq!(logged(&mut job, &typed), [(LogAction::Removed, "way".to_owned(), Some(number))]);
}
