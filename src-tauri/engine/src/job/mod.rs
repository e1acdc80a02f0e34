//! The Job: what the yard is like, what is to be built, where it stands. All that is stored; everything
//! else is computed from it.

mod anchor;
mod as_built;
mod asked;
mod blank;
mod cards;
mod check;
mod check_sum;
mod document;
mod file;
mod history;
mod lights;
mod log;
mod pegging;
mod photo;
mod placement;
mod pointer;
mod raising;
mod read;
mod rig;
mod schema;
mod season;
mod shown;
mod standpoint;
mod syntax;
mod tensions;
mod tubes;
mod unread;
mod versions;
mod wind;
mod wording;
mod workshop;
mod yard;

pub use anchor::*;
pub use as_built::*;
pub use asked::*;
pub use blank::blank;
pub use cards::*;
pub use check::check_job;
pub use check_sum::{canonical, check_sum};
pub use document::Document;
pub use file::{MOST_FILE_BYTES, text_of_file};
pub use history::*;
pub use lights::*;
pub use log::*;
pub use pegging::*;
pub use photo::{Photo, is_sha256};
pub use placement::Placement;
pub use raising::*;
pub use read::{place, read_document, read_job, read_job_value, write_job};
pub use rig::*;
pub use schema::JOB_SCHEMA;
pub use season::*;
pub use shown::shown;
pub use standpoint::*;
pub use tensions::*;
pub use unread::Unread;
pub use versions::{FORMAT_MINOR, FORMAT_VERSION, is_of_newer_version};
pub use wind::*;
pub use workshop::*;
pub use yard::*;

use serde::{Deserialize, Serialize};

use crate::quantity::{Units, whole};

/// A whole job, as kept in one readable JSON document.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(deny_unknown_fields)]
pub struct Job {
    /// Version of this document's format.
    #[cfg_attr(feature = "typegen", schemars(range(min = 3, max = 3)))]
    #[serde(deserialize_with = "whole::read")]
    pub mastwright_job: u32,
    /// Counts the additions to that version. A larger one than a program knows may hold fields it does not know: it
    /// keeps them.
    #[cfg_attr(feature = "typegen", schemars(range(min = 0, max = 1000000)))]
    #[serde(default, deserialize_with = "whole::read")]
    pub mastwright_minor: u32,
    /// What the user calls this job.
    #[cfg_attr(feature = "typegen", schemars(length(max = 200)))]
    pub name: String,
    #[serde(default)]
    #[cfg_attr(feature = "typegen", schemars(length(max = 20000)))]
    pub notes: String,
    /// How quantities are shown; the document itself is always metric.
    pub units: Units,
    pub yard: Yard,
    pub rig: Rig,
    pub placement: Placement,
    /// Places that the yard is looked at from.
    #[serde(default)]
    #[cfg_attr(feature = "typegen", schemars(length(max = 50)))]
    pub standpoints: Vec<Standpoint>,
    /// How it is turned up and laid down.
    #[serde(default)]
    pub raising: Raising,
    /// What was done and read while pegging out.
    #[serde(default)]
    #[cfg_attr(feature = "typegen", schemars(with = "Pegging"), ts(as = "Pegging"))]
    pub pegging: Unread<Pegging>,
    /// What was made before that, and what it measures.
    #[serde(default)]
    pub workshop: Workshop,
    /// What was done of the step cards on the day.
    #[serde(default)]
    #[cfg_attr(feature = "typegen", schemars(with = "CardWork"), ts(as = "CardWork"))]
    pub cards: Unread<CardWork>,
    /// How tight the guys were found to be.
    #[serde(default)]
    #[cfg_attr(feature = "typegen", schemars(with = "Tensions"), ts(as = "Tensions"))]
    pub tensions: Unread<Tensions>,
    /// The lights' current: labels, lead and circuit.
    #[serde(default)]
    #[cfg_attr(feature = "typegen", schemars(with = "Lights"), ts(as = "Lights"))]
    pub lights: Unread<Lights>,
    /// What was seen of it while it stood, season after season.
    #[serde(default)]
    #[cfg_attr(feature = "typegen", schemars(with = "Season"), ts(as = "Season"))]
    pub season: Unread<Season>,
    /// The wind it stands in, and the margin to its limit.
    #[serde(default)]
    pub wind: Wind,
    /// What really stands, once measured after pegging out.
    #[serde(default)]
    pub as_built: Option<AsBuilt>,
    /// The survey log, oldest entry first: what was read, when and by what. Nothing is computed from it.
    #[serde(default)]
    #[cfg_attr(feature = "typegen", schemars(length(max = 1000000)))]
    pub log: Vec<LogEntry>,
    /// Photos of the yard.
    #[serde(default)]
    #[cfg_attr(feature = "typegen", schemars(length(max = 100)))]
    pub photos: Vec<Photo>,
    /// Who wrote what, where the job was handed over: with it two devices bring their states of it together. Nothing is
    /// computed from it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub mastwright_history: Option<History>,
}

impl Job {
    /// Whether a newer minor version wrote the document: what that added is kept, and not looked at.
    pub fn has_newer_fields(&self) -> bool {
        self.mastwright_minor > FORMAT_MINOR
    }
}
