//! What no single field shows: ids that clash, marks that are not there, parts that do not go together. Nothing
//! here needs the position of a point; what does is found by the plan.

mod ids;
mod outlines;
mod points;
mod rig;

use chrono::Datelike;
use serde_json::Value;

use super::{Job, SeasonRound, Shape, is_sha256};
use crate::pointer;
use crate::quantity::FieldError;
use crate::quantity::format;

/// What is wrong with a job whose every field is right by itself; empty where nothing is.
pub fn check_job(job: &Job) -> Vec<FieldError> {
    let mut errors = Vec::new();
    ids::check(job, &mut errors);
    points::check(job, &mut errors);
    outlines::check(job, &mut errors);
    check_date(job, &mut errors);
    check_trees(job, &mut errors);
    rig::check(job, &mut errors);
    check_photos(job, &mut errors);
    check_tensions(job, &mut errors);
    check_season(job, &mut errors);
    errors
}

fn check_photos(job: &Job, errors: &mut Vec<FieldError>) {
    for (index, photo) in job.photos.iter().enumerate().filter(|(_, photo)| !is_sha256(&photo.sha256)) {
        let allowed = "a SHA-256 in 64 small hexadecimal digits";
        errors.push(FieldError::new(pointer!(photos[index].sha256), &photo.sha256, allowed));
    }
}

/// A guy's tension comes of how it swung or of how far a pull brought it aside.
fn check_tensions(job: &Job, errors: &mut Vec<FieldError>) {
    let readings = job.tensions.kept().get("readings").and_then(Value::as_array);
    for (index, reading) in readings.into_iter().flatten().enumerate() {
        let is_there = |field: &str| reading.get(field).is_some_and(|value| !value.is_null());
        let pulled = is_there("pull_n") && is_there("aside_m");
        if !is_there("hz") && !pulled {
            let allowed = "swings a second, or a pull with how far it came aside";
            errors.push(FieldError::new(pointer!(tensions.readings[index].hz), "nothing", allowed));
        }
    }
}

/// A thing is fine or to be mended, not both; and a phone whose clock was never set says 1970.
fn check_season(job: &Job, errors: &mut Vec<FieldError>) {
    let rounds = job.season.kept().get("rounds").and_then(Value::as_array);
    for (index, round) in rounds.into_iter().flatten().enumerate() {
        let at = pointer!(season.rounds[index]);
        let text = |value: &Value| value.as_str().unwrap_or_default().to_owned();
        let taken_at = round.get("taken_at").map(text).unwrap_or_default();
        if taken_at.get(..2) != Some("20") {
            errors.push(FieldError::new(
                pointer!(in at, SeasonRound: taken_at),
                taken_at,
                "a date from 2000 to 2099",
            ));
        }
        let looked = round.get("looked").and_then(Value::as_array);
        let items: Vec<&Value> = looked.into_iter().flatten().filter_map(|it| it.get("item")).collect();
        for (place, item) in items.iter().enumerate() {
            if items[..place].contains(item) {
                errors.push(FieldError::new(
                    pointer!(in at, SeasonRound: looked[place].item),
                    format!("text “{}”", text(item)),
                    "each thing once in a round",
                ));
            }
        }
    }
}

/// The same of a job in which the placement alone is new. Of all these checks only the points' hang on it.
pub fn check_placement(job: &Job) -> Vec<FieldError> {
    let mut errors = Vec::new();
    points::check_mast(job, &mut errors);
    errors
}

fn check_date(job: &Job, errors: &mut Vec<FieldError>) {
    // A phone whose clock was never set says 1970, and the magnetic model knows neither end.
    if let Some(date) = job.yard.surveyed_at.filter(|date| !(2000..2100).contains(&date.year())) {
        errors.push(FieldError::new(
            pointer!(yard.surveyed_at),
            date.to_rfc3339(),
            "a date from 2000 to 2099",
        ));
    }
}

fn check_trees(job: &Job, errors: &mut Vec<FieldError>) {
    for (index, obstacle) in job.yard.obstacles.iter().enumerate() {
        let Shape::Tree { crown_base_m, height_m, .. } = obstacle.shape else { continue };
        if crown_base_m > height_m {
            errors.push(FieldError::new(
                pointer!(yard.obstacles[index].shape as Shape::Tree.crown_base_m),
                format::length(crown_base_m, job.units),
                format!("at most the tree's height, {}", format::length(height_m, job.units)),
            ));
        }
    }
}
