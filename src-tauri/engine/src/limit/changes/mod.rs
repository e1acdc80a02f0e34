//! What to change first: the raised mast's limit found again with one thing changed, and again with another; where
//! none alone helps, with several at once.

mod candidates;
#[cfg(test)]
mod tests;

use super::air;
use super::cautions::cautions;
use super::missing::missing_of;
use super::parts::{Part, parts};
use super::rose::{Guess, bearings_round, blows_to, direction, greatest_pulls, least};
use super::search::{Search, Windy};
use super::standing::Standing;
use super::types::{DirectionLimit, MastHeight, PartKind, WindChange, WindChanges};
use crate::anchor::proof_pull::PROOF_FACTOR;
use crate::job::Job;
use crate::plan::{Plan, compute};
use crate::structure::ModelError;
use candidates::{ANCHORS_PROVED, Change, addressing, options};

/// Every fifteen degrees: the least of these is within a per cent of the least of 72 for three guys or more.
const DIRECTIONS: u32 = 24;

/// What a forecast can tell apart: less is no help.
pub const LEAST_GAIN_M_PER_S: f64 = 0.5;

/// So many changes at once, where none alone helps.
const MOST_TOGETHER: usize = 4;

/// The limit with one thing changed, for each thing that helps as a rule; the most helpful first. Where no single one
/// helps, several that do so together stand on top. Nothing is compared while an entry is missing.
///
/// `progress` is told how many changes are done, of how many, and stops by answering false.
///
/// # Errors
/// Where the mast as it is can't be made a structure of.
pub fn wind_changes(
    job: &Job,
    plan: &Plan,
    progress: &mut dyn FnMut(u32, u32) -> bool,
) -> Result<WindChanges, ModelError> {
    let missing = missing_of(job, plan);
    let mut found =
        WindChanges { now: None, missing, changes: Vec::new(), cautions: cautions(), stopped: false };
    if !found.missing.is_empty() {
        return Ok(found);
    }
    let now = least_limit(job, plan)?;
    let options = options(job, plan);
    for (index, option) in options.iter().enumerate() {
        found.changes.extend(tried(option, &now));
        let done = index as u32 + 1;
        if !progress(done, options.len() as u32) && done < options.len() as u32 {
            found.stopped = true;
            break;
        }
    }
    if !found.stopped && now.weakest.is_some() && !found.changes.iter().any(helps) {
        found.changes.extend(together(job, plan, &now));
    }
    found.changes.sort_by(|a, b| b.gain_m_per_s.total_cmp(&a.gain_m_per_s));
    found.now = Some(now);
    Ok(found)
}

fn helps(change: &WindChange) -> bool {
    change.gain_m_per_s >= LEAST_GAIN_M_PER_S
}

/// The limit of a changed job; nothing where it can't be placed or built, or where the change takes away what is known.
fn limit_of(changed: &Job) -> Option<(Plan, DirectionLimit)> {
    let plan = compute(changed).ok()?.plan;
    if !missing_of(changed, &plan).is_empty() {
        return None;
    }
    let limit = least_limit(changed, &plan).ok()?;
    Some((plan, limit))
}

fn tried(option: &Change, now: &DirectionLimit) -> Option<WindChange> {
    let (plan, limit) = limit_of(&option.job)?;
    let proof_pull_n = (option.id == ANCHORS_PROVED).then(|| {
        let standing = Standing::of(&option.job, &plan, MastHeight::Raised);
        let mut pulls_n = vec![0.0; standing.anchors.len()];
        let _ = greatest_pulls(&standing, &parts(&standing), limit.gust_m_per_s, DIRECTIONS, &mut pulls_n);
        PROOF_FACTOR * pulls_n.into_iter().fold(0.0, f64::max)
    });
    Some(WindChange {
        id: option.id.to_owned(),
        what: option.what.clone(),
        pointer: option.pointer.clone(),
        gust_m_per_s: limit.gust_m_per_s,
        gain_m_per_s: limit.gust_m_per_s - now.gust_m_per_s,
        weakest: limit.weakest,
        proof_pull_n,
    })
}

/// Changes one after the other, each the best against the part that is the weakest after those before, until they help
/// together. One part alone need not: two may be used up at the same gust.
fn together(job: &Job, plan: &Plan, now: &DirectionLimit) -> Option<WindChange> {
    let (mut job, mut plan, mut limit) = (job.clone(), plan.clone(), now.clone());
    let (mut said, mut pointer): (Vec<String>, Option<String>) = (Vec::new(), None);
    while said.len() < MOST_TOGETHER && limit.gust_m_per_s - now.gust_m_per_s < LEAST_GAIN_M_PER_S {
        let kind: PartKind = limit.weakest.as_ref()?.kind;
        let step = options(&job, &plan)
            .into_iter()
            .filter(|option| addressing(kind).contains(&option.id) && !said.contains(&option.what))
            // A proof pull needs its load told, which only one change alone has.
            .filter(|option| option.id != ANCHORS_PROVED)
            .filter_map(|option| limit_of(&option.job).map(|(plan, limit)| (option, plan, limit)))
            .max_by(|a, b| a.2.gust_m_per_s.total_cmp(&b.2.gust_m_per_s))?;
        let (option, next_plan, next) = step;
        pointer = pointer.or(Some(option.pointer));
        said.push(option.what);
        (job, plan, limit) = (option.job, next_plan, next);
    }
    Some(WindChange {
        id: "together".to_owned(),
        what: format!("All of these together: {}", said.join(" ")),
        pointer: pointer?,
        gust_m_per_s: limit.gust_m_per_s,
        gain_m_per_s: limit.gust_m_per_s - now.gust_m_per_s,
        weakest: limit.weakest,
        proof_pull_n: None,
    })
    .filter(helps)
}

fn least_limit(job: &Job, plan: &Plan) -> Result<DirectionLimit, ModelError> {
    let standing = Standing::of(job, plan, MastHeight::Raised);
    let parts: Vec<Part> = parts(&standing);
    let route = air::route(job);
    let mut search: Option<Search> = None;
    let (mut guess, mut directions) = (Guess::default(), Vec::new());
    for from_deg in bearings_round(&standing, DIRECTIONS) {
        let mut windy = Windy::new(&standing, &route, blows_to(from_deg))?;
        let search = search.get_or_insert_with(|| Search::new(&parts, &mut windy));
        let found = search.limit(&mut windy, guess.next());
        guess.learn(found.gust_squared);
        directions.push(direction(from_deg, found, &parts));
    }
    let nothing = DirectionLimit { from_deg: 0.0, gust_m_per_s: 0.0, weakest: None };
    Ok(least(&directions).unwrap_or(nothing))
}
