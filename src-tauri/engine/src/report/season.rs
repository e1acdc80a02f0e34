//! The season's diary in words.

use chrono::{DateTime, FixedOffset, NaiveDate};
use serde::Serialize;

use super::format;
use super::words::season as say;
use crate::finding::Quantity;
use crate::job::{Job, LookFound, RoundCause, RoundLean, SeasonRound};
use crate::quantity::Units;
use crate::quantity::estimate::Estimate;
use crate::season::{
    GuyHistory, LeanHistory, LookCause, LookItem, LookList, SeasonDiary, SeasonRoundFound, SeasonStanding,
    SeasonTrend,
};

/// The diary, for people.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct SeasonReport {
    pub headline: String,
    pub standing: SeasonStanding,
    pub missing: Vec<String>,
    /// When the next round is due.
    pub next: String,
    #[cfg_attr(feature = "typegen", ts(type = "string | null"))]
    pub due_on: Option<NaiveDate>,
    pub late: bool,
    pub to_mend: Vec<SeasonMendText>,
    /// What nobody has looked at since it was to be looked at.
    pub not_looked_at: Vec<String>,
    /// What there is to look at, for every cause.
    pub lists: Vec<SeasonListText>,
    pub changes_title: String,
    pub lean: SeasonChangeText,
    pub guys: Vec<SeasonGuyText>,
    /// The newest first.
    pub rounds: Vec<SeasonRoundText>,
    pub caution: String,
}

/// What to look at for one cause.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct SeasonListText {
    pub cause: LookCause,
    pub name: String,
    pub says: String,
    pub items: Vec<SeasonItemText>,
}

/// A thing to look at.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct SeasonItemText {
    pub key: String,
    pub name: String,
    /// What to look for, and why.
    pub why: String,
    /// Who says so.
    pub source: String,
}

/// A thing to be mended.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct SeasonMendText {
    pub item: String,
    pub name: String,
    pub since: String,
}

/// What changed since last time.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct SeasonChangeText {
    pub name: String,
    /// As it was last read; that it is not known yet, where nobody did.
    pub now: String,
    /// Against the time before.
    pub change: String,
    /// It is more than its ±.
    pub moved: bool,
    pub trend: String,
}

/// A guy since last time.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct SeasonGuyText {
    pub guy_id: String,
    pub change: SeasonChangeText,
}

/// A round in words.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct SeasonRoundText {
    pub id: String,
    pub when: String,
    pub cause: String,
    pub of_this_standing: bool,
    /// Who, what was found, how many photos, the note; one line each.
    pub lines: Vec<String>,
    /// How the mast leaned then; empty where nobody measured it.
    pub lean: String,
}

/// What stands in a calendar on the day of the next round: its title, and what to do.
pub fn season_reminder() -> [&'static str; 2] {
    [say::DUE, say::DUE_SAYS]
}

/// Puts the diary into words.
pub fn season(job: &Job, diary: &SeasonDiary, lists: &[LookList]) -> SeasonReport {
    let units = job.units;
    let next = diary.next;
    let entries = &job.season.rounds;
    SeasonReport {
        headline: say::headline(diary).to_owned(),
        standing: diary.standing,
        missing: diary.missing.iter().map(say::missing).collect(),
        next: say::next(diary.taken_down, next.every_days, next.due_on.map(day).as_deref(), next.late),
        due_on: next.due_on,
        late: next.late,
        to_mend: diary
            .to_mend
            .iter()
            .map(|it| SeasonMendText {
                item: it.item.clone(),
                name: it.name.clone(),
                since: say::mend_since(&day(it.since.date_naive())),
            })
            .collect(),
        not_looked_at: diary.not_looked_at.iter().map(say::not_looked_at).collect(),
        lists: lists.iter().map(list).collect(),
        changes_title: say::CHANGES.to_owned(),
        lean: lean(&diary.lean, units),
        guys: diary.guys.iter().map(|guy| guy_text(guy, units)).collect(),
        rounds: diary.rounds.iter().filter_map(|round| round_text(job, entries, round)).collect(),
        caution: say::CAUTION.to_owned(),
    }
}

fn list(list: &LookList) -> SeasonListText {
    let item = |item: &LookItem| SeasonItemText {
        key: item.key.clone(),
        name: say::thing(&item.thing),
        why: say::why(item.why).to_owned(),
        source: item.source.source().citation.to_owned(),
    };
    SeasonListText {
        cause: list.cause,
        name: say::cause(list.cause).to_owned(),
        says: say::list(list.cause).to_owned(),
        items: list.items.iter().map(item).collect(),
    }
}

fn lean(history: &LeanHistory, units: Units) -> SeasonChangeText {
    let now = history.readings.last().map_or_else(
        || say::NOT_KNOWN.to_owned(),
        |last| {
            let parts = lean_parts(last.to_front_deg.value, last.to_right_deg.value, units);
            say::lean_now(&parts, &angle_up(last.to_front_deg.half_width_95, units), &moment(last.taken_at))
        },
    );
    let change = history.change.as_ref().map(|change| {
        let parts = lean_parts(change.to_front_deg.value, change.to_right_deg.value, units);
        let by = angle(change.by_deg, units);
        let within = angle_up(change.within_95_deg, units);
        say::lean_change(&by, &within, &parts, &moment(change.since), change.moved)
    });
    let trend = match (history.trend_to_front, history.trend_to_right) {
        (Some(front), Some(right)) => {
            let of = |trend: SeasonTrend, [plus, minus]: [&str; 2]| {
                let way = if trend.per_week.value < 0.0 { minus } else { plus };
                let by = angle(trend.per_week.value.abs(), units);
                let within = angle_up(trend.per_week.half_width_95, units);
                say::trend_along(way, &by, &within, trend.is_sure)
            };
            say::lean_trend(&of(front, say::FRONT), &of(right, say::RIGHT), front.readings)
        }
        _ => say::trend_not_known(history.readings.len()),
    };
    SeasonChangeText {
        name: say::LEAN.to_owned(),
        now,
        moved: history.change.as_ref().is_some_and(|change| change.moved),
        change: change.unwrap_or_else(|| say::change_not_known(history.readings.len())),
        trend,
    }
}

/// Both parts by the legs; `0.12° towards the front leg, 0.05° to the left`.
fn lean_parts(front_deg: f64, right_deg: f64, units: Units) -> String {
    let part = |value_deg: f64, [plus, minus]: [&str; 2]| {
        let way = if value_deg < 0.0 { minus } else { plus };
        format!("{} {way}", angle(value_deg.abs(), units))
    };
    format!("{}, {}", part(front_deg, say::FRONT), part(right_deg, say::RIGHT))
}

fn guy_text(guy: &GuyHistory, units: Units) -> SeasonGuyText {
    let force =
        |found: Estimate| format!("{} {}", format::force(found.value, units), force_interval(found, units));
    let now = guy.latest_n.zip(guy.latest_at);
    let change = guy.change.as_ref().map(|change| {
        let by = format::force(change.by_n.value.abs(), units);
        let tighter = change.by_n.value > 0.0;
        let within = force_interval(change.by_n, units);
        say::tension_change(&by, &within, tighter, &moment(change.since), change.moved)
    });
    let trend = guy.trend.map(|trend| {
        let by = format::force(trend.per_week.value.abs(), units);
        let within = force_interval(trend.per_week, units);
        say::tension_trend(&by, &within, trend.per_week.value > 0.0, trend.is_sure, trend.readings)
    });
    let days = guy.days as usize;
    SeasonGuyText {
        guy_id: guy.guy_id.clone(),
        change: SeasonChangeText {
            name: guy.name.clone(),
            now: now.map_or_else(
                || say::NOT_KNOWN.to_owned(),
                |(found, at)| say::read_on(&force(found), &moment(at)),
            ),
            moved: guy.change.as_ref().is_some_and(|change| change.moved),
            change: change.unwrap_or_else(|| say::change_not_known(days)),
            trend: trend.unwrap_or_else(|| say::trend_not_known(days)),
        },
    }
}

fn round_text(job: &Job, rounds: &[SeasonRound], found: &SeasonRoundFound) -> Option<SeasonRoundText> {
    let round = rounds.iter().find(|round| round.id == found.id)?;
    Some(SeasonRoundText {
        id: round.id.clone(),
        when: moment(round.taken_at),
        cause: round_cause(round.cause, job.units),
        of_this_standing: found.of_this_standing,
        lines: round_lines(job, round, found),
        lean: round.lean.as_ref().map_or_else(String::new, |lean| round_lean(job, lean)),
    })
}

fn round_lines(job: &Job, round: &SeasonRound, found: &SeasonRoundFound) -> Vec<String> {
    let mut lines = Vec::new();
    if !round.who.is_empty() {
        lines.push(say::looked_by(&round.who));
    }
    let to_mend = round.looked.iter().filter(|looked| looked.found == LookFound::ToMend);
    let names: Vec<&str> = to_mend.map(|looked| looked.name.as_str()).collect();
    if !round.looked.is_empty() {
        lines.push(say::found(found.fine, &names));
    }
    let photos = job.photos.iter().filter(|photo| photo.shows == round.id).count();
    if photos > 0 {
        lines.push(say::photos(photos));
    }
    if !found.not_looked_at.is_empty() {
        lines.push(say::left_out(found.not_looked_at.len()));
    }
    if !round.note.is_empty() {
        lines.push(round.note.clone());
    }
    lines
}

fn round_lean(job: &Job, lean: &RoundLean) -> String {
    let sigma_deg = lean.sigma_deg.unwrap_or(job.yard.instruments.slope_sigma_deg);
    let half_deg = Estimate::from_sigma(0.0, sigma_deg).half_width_95;
    let parts = lean_parts(lean.to_front_deg, lean.to_right_deg, job.units);
    say::leaned(&parts, &angle_up(half_deg, job.units))
}

fn round_cause(cause: RoundCause, units: Units) -> String {
    let gust = match cause {
        RoundCause::Wind { gust_m_per_s: Some(gust) } => Some(format::speed(gust, units)),
        _ => None,
    };
    say::cause_with_gust(LookCause::of(cause), gust.as_deref())
}

/// A small angle to the hundredth: a mast that moves, moves by little.
fn angle(value_deg: f64, units: Units) -> String {
    format::field("lean_deg", (100.0 * value_deg).round() / 100.0, units)
}

/// Rounded up: an interval is never shown narrower than it is.
fn angle_up(half_deg: f64, units: Units) -> String {
    format!("± {}", format::field("lean_deg", (100.0 * half_deg - 1e-9).ceil() / 100.0, units))
}

fn force_interval(found: Estimate, units: Units) -> String {
    crate::quantity::format::interval(Quantity::ForceN { value: found.half_width_95 }, units)
}

fn moment(at: DateTime<FixedOffset>) -> String {
    at.format("%Y-%m-%d %H:%M").to_string()
}

fn day(day: NaiveDate) -> String {
    day.format("%A %-d %B %Y").to_string()
}
