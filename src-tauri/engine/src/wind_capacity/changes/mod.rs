//! What to change first: the raised mast's limit found again with one thing changed, and again with another; where
//! none alone helps, with several at once.

mod candidates;
#[cfg(test)]
mod hand_sums;
mod step;
#[cfg(test)]
mod tests;

use super::air;
use super::missing::missing_of;
use super::parts::{Part, larger, parts};
use super::rose::{Guess, bearings_round, blows_to, direction, greatest_pulls, least};
use super::search::{Search, Windy};
use super::standing::Standing;
use super::types::{DirectionLimit, Effect, MastHeight, PartKind, WindChange, WindChanges};
use crate::anchor::proof_pull::PROOF_FACTOR;
use crate::job::Job;
use crate::plan::{Layout, Surveyed, lay_out_as_built};
use crate::structure::ModelError;
use candidates::{Change, addressing, options};

pub use step::{ChangeKind, RepeatedStep, WindStep};

/// Every fifteen degrees: the least of these is within a per cent of the least of 72 for three guys or more.
const DIRECTIONS: u32 = 24;

/// What a forecast can tell apart: less is no help.
pub const LEAST_GAIN_M_PER_S: f64 = 0.5;

/// Id of the change that is several steps at once.
pub const TOGETHER: &str = "together";

/// So many changes at once, where none alone helps.
const MOST_TOGETHER: usize = 8;

/// The limit with one thing changed, for each thing that helps as a rule; the most helpful first. Where no single one
/// helps, several that do so together stand on top. Nothing is compared while an entry is missing.
///
/// The job's yard was surveyed before: nothing that can be changed here changes what was read in it, so every changed job
/// is laid out on that one survey.
///
/// `progress` is told how many changes are done, of how many, and stops by answering false.
///
/// # Errors
/// Where the mast as it is can't be made a structure of.
pub fn wind_changes(
    job: &Job,
    surveyed: &Surveyed,
    layout: &Layout,
    progress: &mut dyn FnMut(u32, u32) -> bool,
) -> Result<WindChanges, ModelError> {
    let missing = missing_of(job, layout);
    let mut found = WindChanges { now: None, missing, changes: Vec::new(), stopped: false };
    if !found.missing.is_empty() {
        return Ok(found);
    }
    let now = least_limit(job, layout)?;
    let options = options(job, layout);
    for (index, option) in options.iter().enumerate() {
        found.changes.extend(tried(surveyed, option, &now));
        let done = index as u32 + 1;
        if !progress(done, options.len() as u32) && done < options.len() as u32 {
            found.stopped = true;
            break;
        }
    }
    if !found.stopped && now.limit.weakest.is_some() && !found.changes.iter().any(WindChange::helps) {
        let all = options.len() as u32;
        found.changes.extend(together(surveyed, (job, layout), &now, &mut || progress(all, all)));
    }
    found.changes.sort_by(|a, b| b.gain_m_per_s.total_cmp(&a.gain_m_per_s));
    found.now = Some(now.limit);
    Ok(found)
}

/// From this gain on a change is said to help much: about one step of the Beaufort scale between 5 and 7.
const MUCH_M_PER_S: f64 = 3.0;

fn effect(gain_m_per_s: f64) -> Effect {
    match gain_m_per_s {
        gain if gain >= MUCH_M_PER_S => Effect::HelpsMuch,
        gain if gain >= LEAST_GAIN_M_PER_S => Effect::HelpsALittle,
        gain if gain > -LEAST_GAIN_M_PER_S => Effect::HardlyAny,
        _ => Effect::Worse,
    }
}

/// The limit of a changed job; nothing where it can't be placed or built, or where the change takes away what is known.
fn least_of(surveyed: &Surveyed, changed: &Job) -> Option<(Layout, Least)> {
    let layout = lay_out_as_built(surveyed, changed).ok()?;
    if !missing_of(changed, &layout).is_empty() {
        return None;
    }
    let least = least_limit(changed, &layout).ok()?;
    Some((layout, least))
}

fn tried(surveyed: &Surveyed, option: &Change, now: &Least) -> Option<WindChange> {
    let (layout, Least { limit, .. }) = least_of(surveyed, &option.job)?;
    let proof_pull_n = (option.step == WindStep::AnchorsProved).then(|| {
        let standing = Standing::of(&option.job, &layout, MastHeight::Raised);
        let mut pulls_n = vec![0.0; standing.anchors.len()];
        let _ = greatest_pulls(&standing, &parts(&standing), limit.gust_m_per_s, DIRECTIONS, &mut pulls_n);
        PROOF_FACTOR * pulls_n.into_iter().fold(0.0, f64::max)
    });
    let steps = vec![RepeatedStep { step: option.step, times: 1 }];
    let (id, pointer) = (option.step.kind().name(), option.pointer.clone());
    Some(WindChange { proof_pull_n, ..change(id, steps, pointer, now, limit) })
}

/// What a change makes of the limit.
fn change(
    id: &str,
    steps: Vec<RepeatedStep>,
    pointer: String,
    now: &Least,
    limit: DirectionLimit,
) -> WindChange {
    let gain_m_per_s = limit.gust_m_per_s - now.limit.gust_m_per_s;
    WindChange {
        id: id.to_owned(),
        steps,
        pointer,
        gust_m_per_s: limit.gust_m_per_s,
        gain_m_per_s,
        effect: effect(gain_m_per_s),
        weakest: limit.weakest,
        proof_pull_n: None,
    }
}

/// Changes one after the other, each the best against the part that is the weakest after those before, until they help
/// together. One part alone need not: two may be used up at the same gust; and a part that bears twice what it may in
/// still air is not put right by one step, perhaps by the same one again.
fn together(
    surveyed: &Surveyed,
    (job, layout): (&Job, &Layout),
    now: &Least,
    goes_on: &mut dyn FnMut() -> bool,
) -> Option<WindChange> {
    let (mut job, mut layout, mut least) = (job.clone(), layout.clone(), now.clone());
    let mut steps: Vec<WindStep> = Vec::new();
    let mut first: Option<String> = None;
    while steps.len() < MOST_TOGETHER
        && least.limit.gust_m_per_s - now.limit.gust_m_per_s < LEAST_GAIN_M_PER_S
        && goes_on()
    {
        let kind: PartKind = least.limit.weakest.as_ref()?.kind;
        // A proof pull needs its load told, which only one change alone has.
        let mut addressing: Vec<ChangeKind> = addressing(kind).to_vec();
        addressing.retain(|kind| *kind != ChangeKind::AnchorsProved);
        // How near a mast that falls is to standing nobody can say: whatever was not done yet comes first.
        addressing.sort_by_key(|kind| steps.iter().filter(|step| step.kind() == *kind).count());
        let mut options = options(&job, &layout);
        let mut best: Option<(Change, Layout, Least)> = None;
        for option in addressing.into_iter().filter_map(|kind| taken(&mut options, kind)) {
            let Some((layout, least)) = least_of(surveyed, &option.job) else { continue };
            if best.as_ref().is_none_or(|(_, _, best)| least.beats(best)) {
                best = Some((option, layout, least));
            }
        }
        let on_the_way = |next: &Least| next.beats(&least) || next.still_use.is_infinite();
        let (option, next_layout, next) = best.filter(|(_, _, next)| on_the_way(next))?;
        steps.push(option.step);
        first.get_or_insert(option.pointer);
        (job, layout, least) = (option.job, next_layout, next);
    }
    Some(change(TOGETHER, each_once(&steps), first?, now, least.limit)).filter(WindChange::helps)
}

fn taken(options: &mut Vec<Change>, kind: ChangeKind) -> Option<Change> {
    let at = options.iter().position(|option| option.step.kind() == kind)?;
    Some(options.remove(at))
}

/// Each step once, in the order of the work, with how many times it is made.
fn each_once(steps: &[WindStep]) -> Vec<RepeatedStep> {
    let mut told: Vec<RepeatedStep> = Vec::new();
    for &step in steps {
        match told.iter_mut().find(|known| known.step == step) {
            Some(known) => known.times += 1,
            None => told.push(RepeatedStep { step, times: 1 }),
        }
    }
    told
}

/// The least limit over the directions looked at.
#[derive(Debug, Clone)]
struct Least {
    limit: DirectionLimit,
    /// The use of the weakest part in still air, where that is already more than all of it; endless where the mast falls.
    still_use: f64,
}

impl Least {
    /// A higher limit; where there is none, less too much in still air.
    fn beats(&self, other: &Self) -> bool {
        let (gust, others) = (self.limit.gust_m_per_s, other.limit.gust_m_per_s);
        gust > others || (gust == others && self.still_use < other.still_use)
    }
}

fn least_limit(job: &Job, layout: &Layout) -> Result<Least, ModelError> {
    let standing = Standing::of(job, layout, MastHeight::Raised);
    let parts: Vec<Part> = parts(&standing);
    let route = air::route(job);
    let mut search: Option<Search> = None;
    let (mut guess, mut directions, mut still_use) = (Guess::default(), Vec::new(), 1.0);
    for from_deg in bearings_round(&standing, DIRECTIONS) {
        let mut windy = Windy::new(&standing, &route, blows_to(from_deg))?;
        let search = search.get_or_insert_with(|| Search::new(&parts, &mut windy));
        let found = search.limit(&mut windy, guess.next());
        if found.gust_squared <= 0.0 {
            still_use = larger(still_use, found.utilisation);
        }
        guess.learn(found.gust_squared);
        directions.push(direction(from_deg, found, &parts));
    }
    let nothing = DirectionLimit { from_deg: 0.0, gust_m_per_s: 0.0, weakest: None };
    Ok(Least { limit: least(&directions).unwrap_or(nothing), still_use })
}
