//! `mastwright season`: the season's diary.

use std::path::Path;

use chrono::{DateTime, FixedOffset, Local};
use mastwright_api::messages::DatedRequest;
use mastwright_api::messages::JobRequest;
use mastwright_api::run;
use mastwright_api::season::SamePlaceRequest;
use mastwright_engine::job::read_job_value;
use mastwright_engine::report;
use mastwright_engine::season::SeasonStanding;
use mastwright_engine::season::again::MarkSeen;

use crate::arguments::{JobSource, RoundFor};
use crate::outcome::{Failure, Outcome};
use crate::{print, print_json, read, read_path, write};

/// Exit code 1 where something is to be mended or has moved, 4 where it is not known how it stands, else 0. A list of what to look at, and
/// a calendar, are 0.
pub fn season(
    source: &JobSource,
    after: Option<RoundFor>,
    calendar: Option<&Path>,
    now: Option<DateTime<FixedOffset>>,
    json: bool,
) -> Result<Outcome, Failure> {
    let job = read(source)?;
    let request = DatedRequest { job, now: now.unwrap_or_else(|| Local::now().fixed_offset()) };
    if let Some(path) = calendar {
        write(&run::season_calendar(&request)?.text, Some(path))?;
        return Ok(Outcome::Done);
    }
    let answer = run::season(&request)?;
    if let Some(after) = after {
        let wanted = answer.report.lists.iter().filter(|list| list.cause == after.cause());
        for list in wanted {
            if json {
                print_json(list)?
            } else {
                print(&report::season_list_text(list))?
            };
        }
        return Ok(Outcome::Done);
    }
    if json {
        print_json(&answer.diary)?
    } else {
        print(&report::season_text(&answer.report))?
    };
    Ok(match answer.diary.standing {
        SeasonStanding::ToMend | SeasonStanding::Moved => Outcome::Stop,
        SeasonStanding::NotKnown => Outcome::NotKnown,
        SeasonStanding::Fine | SeasonStanding::Down => Outcome::Done,
    })
}

/// Exit code 4 while the weight of a thing, or the length of one that does not roll up, is not known, else 0.
pub fn pack(source: &JobSource, json: bool) -> Result<Outcome, Failure> {
    let answer = run::packing(&JobRequest { job: read(source)? })?;
    if json {
        print_json(&answer.list)?
    } else {
        print(&report::packing_text(&answer.report))?
    };
    let known = answer.list.masses_missing == 0 && answer.list.lengths_missing == 0;
    Ok(if known { Outcome::Done } else { Outcome::NotKnown })
}

/// Exit code 4 where no tape shows every mark, or nobody has the job as it was, else 0.
pub fn again(
    source: &JobSource,
    before: Option<&Path>,
    now: Option<DateTime<FixedOffset>>,
    json: bool,
) -> Result<Outcome, Failure> {
    let job = read(source)?;
    let before = before.map(read_path).transpose()?;
    let now = now.unwrap_or_else(|| Local::now().fixed_offset());
    let lessons = read_job_value(&job)?.season.lessons.clone();
    let known_then = before.is_some();
    let answer = run::same_place(&SamePlaceRequest { job, now, before })?;
    if json {
        print_json(&answer.place)?;
    } else {
        let lessons: Vec<String> = lessons.iter().map(|it| format!("{}: {}", it.card, it.text)).collect();
        let mut text = report::same_place_text(&answer.report, &lessons);
        for change in &answer.changes {
            let said = |lines: &[mastwright_api::merge::SaidValue]| -> String {
                let lines: Vec<String> = lines
                    .iter()
                    .map(|line| format!("{} {}", line.label, line.value).trim().to_owned())
                    .collect();
                lines.join(", ")
            };
            let how = match (change.came, change.gone) {
                (true, _) => "new".to_owned(),
                (_, true) => "gone".to_owned(),
                _ => format!("{} → {}", said(&change.was), said(&change.is)),
            };
            text.push_str(&format!("  {}: {how}\n", change.about));
        }
        print(&text)?;
    }
    let every = answer.place.check.marks.iter().all(|mark| matches!(mark.seen, MarkSeen::EveryWay { .. }));
    Ok(if every && known_then { Outcome::Done } else { Outcome::NotKnown })
}
