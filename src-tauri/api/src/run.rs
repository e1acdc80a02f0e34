//! What each operation does: read the request, ask the engine, gather the answer.

use mastwright_engine::job::{self, FieldError, FieldErrors, Job};

use crate::messages::*;

fn coming(what: &str) -> FieldErrors {
    FieldErrors { errors: vec![FieldError::new("", what, "an operation that this version has")] }
}

pub fn demo(_: &Nothing) -> Result<Job, FieldErrors> {
    Err(coming("demo"))
}

pub fn blank(_: &BlankRequest) -> Result<Job, FieldErrors> {
    Err(coming("blank"))
}

pub fn check(request: &JobRequest) -> Result<CheckAnswer, FieldErrors> {
    let errors = job::read_job_value(&request.job).err().map_or_else(Vec::new, |errors| errors.errors);
    Ok(CheckAnswer { errors })
}

pub fn plan(_: &PlanRequest) -> Result<PlanAnswer, FieldErrors> {
    Err(coming("plan"))
}

pub fn read_entry(_: &EntryRequest) -> Result<EntryAnswer, FieldErrors> {
    Err(coming("read_entry"))
}

pub fn map_sheet(_: &MapSheetRequest) -> Result<SvgAnswer, FieldErrors> {
    Err(coming("map_sheet"))
}

pub fn job_text(request: &JobRequest) -> Result<TextAnswer, FieldErrors> {
    Ok(TextAnswer { text: job::write_job(&job::read_job_value(&request.job)?) })
}

pub fn tube_sizes(_: &Nothing) -> Result<TubeSizesAnswer, FieldErrors> {
    Err(coming("tube_sizes"))
}
