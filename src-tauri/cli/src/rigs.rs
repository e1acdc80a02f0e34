//! `mastwright rigs`: masts that reach a height with tubes that can be bought.

use mastwright_api::messages::RigsRequest;
use mastwright_api::run;
use mastwright_engine::job;
use mastwright_engine::quantity::{FieldErrors, entry};
use mastwright_engine::report;
use mastwright_engine::rigs::RigWishes;
use mastwright_engine::round_figures::begin;
use mastwright_engine::tube::TubeTable;

use crate::arguments::JobSource;
use crate::outcome::{Failure, Outcome};
use crate::{print, print_json, read};

/// What is wished, as it was typed.
pub struct Asked {
    pub lights_at: String,
    pub longest_piece: Option<String>,
    pub strands: Option<u16>,
    pub strand_length: Option<String>,
    pub tables: Vec<TubeTable>,
}

/// Exit code 0 where every offer's gust limit is as large as the gust asked for; 1 where none can be built, or one holds less;
/// 4 where a limit is not known yet.
pub fn rigs(source: &JobSource, asked: &Asked, json: bool) -> Result<Outcome, Failure> {
    let job = read(source)?;
    let read_job = job::read_job_value(&job)?;
    let units = read_job.units;
    let typed = |field: &str, text: &str| {
        entry::read_quantity(field, text, units).map_err(|error| Failure::from(FieldErrors::from(error)))
    };
    let wishes = RigWishes {
        light_height_m: typed("light_height_m", &asked.lights_at)?,
        longest_piece_m: match &asked.longest_piece {
            Some(text) => typed("longest_piece_m", text)?,
            None => begin::TUBE.of(units.system),
        },
        strand_count: asked.strands,
        strand_length_m: asked
            .strand_length
            .as_deref()
            .map(|text| typed("strand_length_m", text))
            .transpose()?,
        tables: asked.tables.clone(),
    };
    let answer = run::rigs(&RigsRequest { job, wishes })?;
    if json {
        print_json(&answer.choice)?
    } else {
        print(&report::rigs_text(&answer.report))?
    };
    let offers = &answer.choice.offers;
    let holds: Vec<Option<bool>> = offers
        .iter()
        .map(|offer| offer.gust_m_per_s.map(|gust| gust >= read_job.wind.asked_gust_m_per_s))
        .collect();
    Ok(if holds.is_empty() || holds.contains(&Some(false)) {
        Outcome::Stop
    } else if holds.contains(&None) {
        Outcome::NotKnown
    } else {
        Outcome::Done
    })
}
