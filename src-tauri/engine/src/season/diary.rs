//! All rounds together.

use chrono::{DateTime, Days, FixedOffset, NaiveDate};
use serde::Serialize;

use super::changes::{GuyHistory, LeanHistory, leans, of_guy};
use super::look::{LookCause, SeasonThing, things, why};
use crate::job::{Job, LookFound, RoundCause, SeasonRound};
use crate::plan::Plan;
use crate::ringing::levels::{self, TENSION_TOLERANCE};

/// How it stands with the mast, as the diary has it.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct SeasonDiary {
    pub standing: SeasonStanding,
    /// Why nothing good can be said; empty where all is known.
    pub missing: Vec<SeasonMissing>,
    /// The last entry says that it was taken down.
    pub taken_down: bool,
    pub next: NextRound,
    /// Things that were found to be mended and not found fine since.
    pub to_mend: Vec<OpenItem>,
    /// Things that nobody has looked at since a round that was for them, or never: they never count as fine.
    pub not_looked_at: Vec<SeasonThing>,
    /// The newest first, those of earlier seasons too.
    pub rounds: Vec<SeasonRoundFound>,
    pub lean: LeanHistory,
    pub guys: Vec<GuyHistory>,
}

/// What is to be thought of it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum SeasonStanding {
    /// Something is to be mended.
    ToMend,
    /// The mast leans otherwise than last time, or a guy is otherwise tight, by more than readings leave open.
    Moved,
    /// Nobody has looked, or not at everything, or it is too long ago.
    NotKnown,
    /// All that was to be looked at was found fine.
    Fine,
    /// It does not stand.
    Down,
}

/// What is missing.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(tag = "kind", rename_all = "snake_case")]
pub enum SeasonMissing {
    /// No round since it stood up.
    NoRound,
    /// Things that a round was for and that nobody has looked at since, or never.
    NotLookedAt { count: u32 },
    /// The next round was due.
    Late,
    /// Nobody has said how often somebody goes round.
    NoInterval,
}

/// When to go round again.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct NextRound {
    pub every_days: Option<u16>,
    /// None where nobody has chosen how often, has gone round yet, or it is down.
    #[cfg_attr(feature = "typegen", schemars(with = "Option<String>"), ts(type = "string | null"))]
    pub due_on: Option<NaiveDate>,
    pub late: bool,
}

/// A thing that is to be mended.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct OpenItem {
    pub item: String,
    pub name: String,
    #[cfg_attr(feature = "typegen", ts(type = "string"))]
    pub since: DateTime<FixedOffset>,
}

/// What a round came to.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct SeasonRoundFound {
    pub id: String,
    #[cfg_attr(feature = "typegen", ts(type = "string"))]
    pub taken_at: DateTime<FixedOffset>,
    pub cause: RoundCause,
    pub fine: u32,
    /// Names of what was to be mended.
    pub to_mend: Vec<String>,
    /// It belongs to the mast as it stands, or stood last: with what stood before it nothing is compared.
    pub of_this_standing: bool,
    /// Things of the plan that this round was for and that nobody looked at; empty of an earlier standing, whose plan
    /// nobody knows.
    pub not_looked_at: Vec<SeasonThing>,
}

/// The diary of a job as seen on a day.
pub fn diary(job: &Job, plan: &Plan, today: NaiveDate) -> SeasonDiary {
    let mut all: Vec<&SeasonRound> = job.season.rounds.iter().collect();
    all.sort_by_key(|round| round.taken_at);
    let standing = Standing::of(&all);
    let rounds = &all[standing.from..standing.to];
    let things = things(job, plan);
    let found = |(index, round): (usize, &&SeasonRound)| {
        let of_this_standing = (standing.from..standing.to).contains(&index);
        let asked = if of_this_standing { things.as_slice() } else { &[] };
        round_found(job, round, of_this_standing, asked)
    };
    let found: Vec<SeasonRoundFound> = all.iter().enumerate().map(found).rev().collect();
    let next = next_round(job, rounds, standing.taken_down, today);
    let to_mend = open_items(rounds);
    let lean = leans(rounds, job.yard.instruments.slope_sigma_deg);
    let guys = guys(job, plan, &standing);
    let not_looked_at = if standing.taken_down { Vec::new() } else { not_looked_at(job, rounds, things) };
    let missing = missing(rounds, &not_looked_at, next);
    let moved = lean.change.as_ref().is_some_and(|change| change.moved)
        || guys.iter().any(|guy| guy.change.as_ref().is_some_and(|change| change.matters));
    let standing_now = if standing.taken_down {
        SeasonStanding::Down
    } else if !to_mend.is_empty() {
        SeasonStanding::ToMend
    } else if moved {
        SeasonStanding::Moved
    } else if !missing.is_empty() {
        SeasonStanding::NotKnown
    } else {
        SeasonStanding::Fine
    };
    SeasonDiary {
        standing: standing_now,
        missing: if standing.taken_down { Vec::new() } else { missing },
        taken_down: standing.taken_down,
        next,
        to_mend,
        not_looked_at,
        rounds: found,
        lean,
        guys,
    }
}

/// Which rounds belong to the mast as it stands, or stood last: it is stood up anew each time, and what it leaned by before says nothing.
struct Standing {
    from: usize,
    to: usize,
    taken_down: bool,
    begins: Option<DateTime<FixedOffset>>,
    stood_up: bool,
    ends: Option<DateTime<FixedOffset>>,
}

impl Standing {
    /// `all` in the order of time.
    fn of(all: &[&SeasonRound]) -> Self {
        let taken_down = all.last().is_some_and(|last| last.cause == RoundCause::TakenDown);
        let to = if taken_down { all.len() - 1 } else { all.len() };
        let begins =
            |round: &&SeasonRound| matches!(round.cause, RoundCause::StoodUp | RoundCause::TakenDown);
        let first = all[..to].iter().rposition(begins);
        let stood_up = first.is_some_and(|at| all[at].cause == RoundCause::StoodUp);
        // Standing up is a round of its own; of taking down only the end counts.
        let from = first.map_or(0, |at| if stood_up { at } else { at + 1 });
        Self {
            from,
            to,
            taken_down,
            begins: first.map(|at| all[at].taken_at),
            stood_up,
            ends: all.get(to).map(|round| round.taken_at),
        }
    }

    /// Guys are set on the day on which it is stood up, before anybody writes that down.
    fn holds(&self, at: DateTime<FixedOffset>) -> bool {
        let begun = self.begins.is_none_or(|begins| {
            if self.stood_up { at.date_naive() >= begins.date_naive() } else { at > begins }
        });
        begun && self.ends.is_none_or(|ends| at <= ends)
    }
}

fn round_found(
    job: &Job,
    round: &SeasonRound,
    of_this_standing: bool,
    things: &[SeasonThing],
) -> SeasonRoundFound {
    let cause = LookCause::of(round.cause);
    let was_looked_at = |thing: &SeasonThing| {
        let key = thing.key();
        round.looked.iter().any(|looked| looked.item == key)
    };
    let asked = things.iter().filter(|thing| why(cause, thing, job.yard.soil).is_some());
    let to_mend = round.looked.iter().filter(|looked| looked.found == LookFound::ToMend);
    let fine = round.looked.iter().filter(|looked| looked.found == LookFound::Fine).count();
    SeasonRoundFound {
        id: round.id.clone(),
        taken_at: round.taken_at,
        cause: round.cause,
        fine: u32::try_from(fine).unwrap_or(u32::MAX),
        to_mend: to_mend.map(|looked| looked.name.clone()).collect(),
        of_this_standing,
        not_looked_at: asked.filter(|thing| !was_looked_at(thing)).cloned().collect(),
    }
}

/// A round after the last one, by the days that were chosen.
fn next_round(job: &Job, rounds: &[&SeasonRound], taken_down: bool, today: NaiveDate) -> NextRound {
    let every_days = job.season.every_days;
    let last = rounds.last().filter(|_| !taken_down);
    let due_on = last
        .zip(every_days)
        .and_then(|(last, days)| last.taken_at.date_naive().checked_add_days(Days::new(u64::from(days))));
    NextRound { every_days, due_on, late: due_on.is_some_and(|due| due < today) }
}

/// What was last found to be mended. A round on which nobody looked at a thing changes nothing about it.
fn open_items(rounds: &[&SeasonRound]) -> Vec<OpenItem> {
    let mut open: Vec<OpenItem> = Vec::new();
    for round in rounds {
        for looked in &round.looked {
            let at = open.iter().position(|item| item.item == looked.item);
            match (looked.found, at) {
                (LookFound::Fine, Some(at)) => drop(open.remove(at)),
                (LookFound::ToMend, None) => open.push(OpenItem {
                    item: looked.item.clone(),
                    name: looked.name.clone(),
                    since: round.taken_at,
                }),
                (LookFound::Fine, None) | (LookFound::ToMend, Some(_)) => {}
            }
        }
    }
    open
}

fn guys(job: &Job, plan: &Plan, standing: &Standing) -> Vec<GuyHistory> {
    let levels = levels::levels(job, &plan.guys);
    let of_level = |level: &levels::LevelTension| -> Vec<GuyHistory> {
        let tolerance_n = TENSION_TOLERANCE * level.planned_n;
        level.guys.iter().map(|guy| of_guy(guy, tolerance_n, |at| standing.holds(at))).collect()
    };
    levels.iter().flat_map(of_level).collect()
}

/// A round after rain that left out the guys says nothing good of the gust of the week before: what a round was for stays open until
/// somebody has looked.
fn not_looked_at(job: &Job, rounds: &[&SeasonRound], things: Vec<SeasonThing>) -> Vec<SeasonThing> {
    let is_open = |thing: &SeasonThing| {
        let key = thing.key();
        let looked = rounds.iter().rposition(|round| round.looked.iter().any(|it| it.item == key));
        let asks = |round: &&SeasonRound| why(LookCause::of(round.cause), thing, job.yard.soil).is_some();
        let asked = rounds.iter().rposition(asks);
        looked.is_none() || asked > looked
    };
    things.into_iter().filter(is_open).collect()
}

fn missing(rounds: &[&SeasonRound], not_looked_at: &[SeasonThing], next: NextRound) -> Vec<SeasonMissing> {
    let mut missing = Vec::new();
    if rounds.is_empty() {
        missing.push(SeasonMissing::NoRound);
    } else if !not_looked_at.is_empty() {
        let count = u32::try_from(not_looked_at.len()).unwrap_or(u32::MAX);
        missing.push(SeasonMissing::NotLookedAt { count });
    }
    if next.every_days.is_none() {
        missing.push(SeasonMissing::NoInterval);
    } else if next.late {
        missing.push(SeasonMissing::Late);
    }
    missing
}
