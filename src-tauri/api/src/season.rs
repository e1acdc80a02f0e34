//! The season's diary: the operations and their messages.

use chrono::{DateTime, FixedOffset, Utc};
use mastwright_engine::exchange::calendar::{CalendarDay, CalendarOf, calendar};
use mastwright_engine::job::{self, Job};
use mastwright_engine::plan;
use mastwright_engine::quantity::{FieldError, FieldErrors};
use mastwright_engine::report::{self, PackingReport, SamePlaceReport, SeasonReport};
use mastwright_engine::season::{
    PackingList, SamePlace, SeasonDiary, diary, lists, packing as packing_list, same_place as place_again,
};
use mastwright_engine::workshop::bench_work;
use mastwright_engine::{pointer, season};
use serde::{Deserialize, Serialize};
use serde_json::json;

use crate::merge::{JobChange, changes};
use crate::messages::{DatedRequest, JobRequest, TextAnswer};

/// The season's diary, as data and in words.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct SeasonAnswer {
    pub diary: SeasonDiary,
    pub report: SeasonReport,
}

pub fn season(request: &DatedRequest) -> Result<SeasonAnswer, FieldErrors> {
    let job = job::read_job_value(&request.job)?;
    answer(&job, request)
}

/// The day of the next round for a calendar (RFC 5545).
pub fn season_calendar(request: &DatedRequest) -> Result<TextAnswer, FieldErrors> {
    let job = job::read_job_value(&request.job)?;
    let found = answer(&job, request)?;
    let due = found.report.due_on.ok_or_else(|| no_day(&found.diary))?;
    let [title, says] = report::season_reminder();
    let day = CalendarDay {
        // The same for every next round: a calendar taken in again moves it.
        uid: format!("{}@mastwright", job::check_sum(&json!([job.name, "season"]))),
        day: due,
        title: format!("{title} ({})", job.name),
        text: format!("{says}\n\n{}", found.report.caution),
    };
    let text = calendar(CalendarOf::Season, &job.name, &[day], request.now.with_timezone(&Utc));
    Ok(TextAnswer { text })
}

fn answer(job: &Job, request: &DatedRequest) -> Result<SeasonAnswer, FieldErrors> {
    let plan = plan::compute(job)?.plan;
    let diary = diary(job, &plan, request.now.date_naive());
    let report = report::season(job, &diary, &lists(job, &plan));
    Ok(SeasonAnswer { diary, report })
}

/// A calendar needs a day (RFC 5545, 3.6: at least one component).
fn no_day(diary: &season::SeasonDiary) -> FieldErrors {
    if diary.taken_down || diary.next.every_days.is_some() {
        return FieldError::new(pointer!(season.rounds), "none", "a round since it stands").into();
    }
    FieldError::new(pointer!(season.every_days), "nothing", "days from one round to the next").into()
}

/// What is packed when it has come down, as data and in words.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct PackingAnswer {
    pub list: PackingList,
    pub report: PackingReport,
}

pub fn packing(request: &JobRequest) -> Result<PackingAnswer, FieldErrors> {
    let job = job::read_job_value(&request.job)?;
    let computed = plan::compute(&job)?;
    let bench = bench_work(&job, &computed)?;
    let list = packing_list(&job, &computed, &bench);
    Ok(PackingAnswer { report: report::packing(&job, &list), list })
}

/// A request for what to look at before a job is built in the same place again.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
#[serde(deny_unknown_fields)]
pub struct SamePlaceRequest {
    #[cfg_attr(feature = "typegen", ts(type = "Job"))]
    pub job: serde_json::Value,
    /// The day on which it is asked, with the zone.
    #[cfg_attr(feature = "typegen", ts(type = "string"))]
    pub now: DateTime<FixedOffset>,
    /// The job as it was when the mast came down; none where nobody has it.
    #[serde(default)]
    #[cfg_attr(feature = "typegen", ts(type = "Job | null"))]
    pub before: Option<serde_json::Value>,
}

/// The same place again, as data and in words.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct SamePlaceAnswer {
    pub place: SamePlace,
    /// Where yard, parts and placement differ from then; empty without a state of then, too.
    pub changes: Vec<JobChange>,
    pub report: SamePlaceReport,
}

pub fn same_place(request: &SamePlaceRequest) -> Result<SamePlaceAnswer, FieldErrors> {
    let job = job::read_job_value(&request.job)?;
    let surveyed = plan::survey(&job.yard, job.units)?;
    let place = place_again(&job, &surveyed, request.now);
    let changed = request.before.as_ref().map(|before| changes(before, &request.job)).transpose()?;
    let report = report::same_place(&job, &place, changed.as_ref().map(Vec::len));
    Ok(SamePlaceAnswer { place, changes: changed.unwrap_or_default(), report })
}
