//! Wind in words: the action card, what a gust does to each part, what to change first. Speeds are rounded down.

use super::rows::{row, with_interval};
use super::{FindingText, Report, Row, Section, finding_text, say, verdict};
use crate::finding::Subject;
use crate::job::Job;
use crate::limit::search::{MOST_M_PER_S, MOST_TIMES};
use crate::limit::{
    DirectionLimit, GustLimit, GustRose, LEAST_GAIN_M_PER_S, PartKind, PartUse, WindChange, WindChanges,
    WindTable,
};
use crate::quantity::Units;
use crate::quantity::show;
use crate::resistance::Resistance;
use crate::resistance::en1993::FACTOR;
use crate::source::Confidence;
use crate::verdict::Verdict;
use crate::wind::beaufort;
use crate::wind::gust::Upwind;

/// The limit's card, its directions and its findings; or what is missing for them.
pub fn of_limit(job: &Job, limit: &GustLimit) -> Report {
    let units = job.units;
    let mut sections: Vec<Section> = verdict::missing(&limit.missing).into_iter().collect();
    if sections.is_empty() {
        sections.push(card(limit, units));
        sections.extend([&limit.raised, &limit.lowered].map(|rose| directions(rose, units)));
    }
    sections.extend(proof_pulls(limit, units));
    sections.push(cautions("wind_by_eye", "Look at by eye: no rule covers them", &limit.look_at_by_eye));
    sections.push(cautions("wind_not_reckoned", "What the limit does not look at", &limit.not_reckoned));
    sections.push(cautions("wind_cautions", "Before you rely on it", &limit.cautions));
    Report { headline: headline(limit, units), sections, findings: texts(limit, units) }
}

fn texts(limit: &GustLimit, units: Units) -> Vec<FindingText> {
    limit.findings.iter().map(|finding| finding_text(finding, units)).collect()
}

fn headline(limit: &GustLimit, units: Units) -> Vec<Row> {
    let mut rows = vec![row("verdict", "Verdict on the wind", verdict::long(Some(&limit.verdict)))];
    if limit.missing.is_empty() {
        let of = |id: &str, label: &str, rose: &GustRose| row(id, label, least_in_words(&rose.least, units));
        rows.push(of("raised", "Gust limit, mast raised", &limit.raised));
        rows.push(of("lowered", "Gust limit, mast lowered", &limit.lowered));
        rows.push(row("by_eye", "Only if these hold, which you look at by eye", by_eye(limit)));
    }
    rows
}

/// The parts to look at in one line.
fn by_eye(limit: &GustLimit) -> String {
    let mut names = limit.look_at_by_eye.iter();
    let first = names.next().cloned().unwrap_or_default();
    names.fold(first, |line, name| format!("{line}; {}", verdict::first_small(name)))
}

fn least_in_words(least: &Option<DirectionLimit>, units: Units) -> String {
    let Some(least) = least else { return "not known".into() };
    let gust = say::speed_rounded_down(least.gust_m_per_s, units);
    let from = say::compass_point(least.from_deg);
    match &least.weakest {
        Some(part) => format!("{gust}, wind from the {from}; first fully used: {}", part.name),
        None => format!("more than {gust}"),
    }
}

/// What to do when. The Beaufort number is that of the mean wind whose gusts usually reach the gust.
fn card(limit: &GustLimit, units: Units) -> Section {
    let act = |id: &str, label: &str, at: Option<f64>| {
        let Some(gust) = at else { return row(id, label, "not known: do not leave it standing in wind") };
        if gust < 1.0 {
            return row(id, label, "at once: even light wind is too much");
        }
        let force = beaufort::of_usual_gust(gust, Upwind::InLand);
        let value = format!(
            "before gusts of {} are forecast. That usually comes with a mean wind of force {} ({}): {}",
            say::speed_rounded_down(gust, units),
            force.number,
            force.name.to_lowercase(),
            force.on_land
        );
        row(id, label, value)
    };
    Section {
        id: "wind_card".into(),
        title: "When to act".into(),
        subject: Some(Subject::Mast),
        rows: vec![
            act("lower", "Lower it", limit.lower_at_m_per_s),
            act("lay_down", "Lay it down", limit.lay_down_at_m_per_s),
            row("by_eye", "Only if these hold, which you look at by eye", by_eye(limit)),
            row(
                "which_wind",
                "Which wind",
                "The gust, the strongest three seconds: a forecast names it beside the mean wind, which is the smaller \
                 number. Inland a gust is about 1.7 times the ten-minute mean.",
            ),
        ],
        caution: limit.cautions.join(" "),
    }
}

/// Every direction that was looked at, in the order of the rose.
pub fn of_directions(rose: &GustRose, units: Units) -> Vec<Row> {
    let said = |limit: &DirectionLimit| {
        let from = format!(
            "Wind from the {} ({})",
            say::compass_point(limit.from_deg),
            say::bearing(limit.from_deg)
        );
        let part =
            limit.weakest.as_ref().map_or(String::new(), |part| format!("; first fully used: {}", part.name));
        let value = format!("up to gusts of {}{part}", say::speed_rounded_down(limit.gust_m_per_s, units));
        row(&format!("from_{:.0}", limit.from_deg), &from, value)
    };
    rose.directions.iter().map(said).collect()
}

/// The eight points of the compass; between them a face shows the rose.
fn directions(rose: &GustRose, units: Units) -> Section {
    let eight = rose.directions.iter().step_by(9);
    let rows = eight.map(|limit| {
        let part = limit.weakest.as_ref().map_or("nothing", |part| part.name.as_str());
        let value = format!("{} · {part}", say::speed_rounded_down(limit.gust_m_per_s, units));
        row(
            &format!("from_{:.0}", limit.from_deg),
            &format!("Wind from the {}", say::compass_point(limit.from_deg)),
            value,
        )
    });
    let (id, name) = match rose.height {
        crate::limit::MastHeight::Raised => ("wind_raised", "raised"),
        crate::limit::MastHeight::Lowered => ("wind_lowered", "lowered"),
    };
    Section {
        id: id.into(),
        title: format!("Gust limit by direction, mast {name}"),
        subject: Some(Subject::Mast),
        rows: rows.collect(),
        caution: String::new(),
    }
}

fn proof_pulls(limit: &GustLimit, units: Units) -> Option<Section> {
    let first = limit.proof_pulls.first()?;
    let mut rows: Vec<Row> = limit
        .proof_pulls
        .iter()
        .map(|it| {
            row(&it.guy, &format!("Pull the anchor of {} with", it.name), say::force(it.pull.load_n, units))
        })
        .collect();
    rows.push(row("hold", "Hold it for", format!("{} minutes", first.pull.hold_minutes)));
    rows.push(row("creep", "It may creep", show::length_small(first.pull.creep_limit_mm, units)));
    let steps = first.pull.steps.iter().enumerate();
    rows.extend(
        steps.map(|(i, step)| row(&format!("step_{}", i + 1), &format!("Step {}", i + 1), step.as_str())),
    );
    Some(Section {
        id: "wind_proof_pull".into(),
        title: "Show that the anchors hold, for the gust that you ask for: the proof pull".into(),
        subject: None,
        rows,
        caution: "Stand aside: a rope under load that lets go kills.".into(),
    })
}

fn cautions(id: &str, title: &str, lines: &[String]) -> Section {
    let rows = lines.iter().enumerate().map(|(i, line)| row(&format!("line_{}", i + 1), "", line.as_str()));
    Section {
        id: id.into(),
        title: title.into(),
        subject: Some(Subject::Mast),
        rows: rows.collect(),
        caution: String::new(),
    }
}

/// The table of one gust: every part's use in per cent, what it bears and what it may.
pub fn of_table(job: &Job, table: &WindTable) -> Report {
    let units = job.units;
    let from = format!("the {} ({})", say::compass_point(table.from_deg), say::bearing(table.from_deg));
    let worst = if table.worst { ", the worst direction" } else { "" };
    let mut headline =
        vec![row("gust", "Gust", format!("{} from {from}{worst}", show::speed(table.gust_m_per_s, units)))];
    let unknown =
        table.parts.iter().filter(|part| matches!(part.carries, Some(Resistance::NotShown { .. }))).count();
    if unknown > 0 {
        let parts = if unknown == 1 { "one part is".into() } else { format!("{unknown} parts are") };
        headline.push(row("not_known", "Does it hold?", format!("Not known yet: {parts} not shown to.")));
    }
    match &table.falls_because {
        Some(reason) => headline.push(row("falls", "The mast", reason.as_str())),
        None => {
            headline.push(row("top", "Its top moves", say::length(table.top_movement_m, units)));
            headline.push(row("foot_down", "Its foot presses down", say::force(table.foot_down_n, units)));
            headline.push(row(
                "foot_sideways",
                "Its foot pushes sideways",
                say::force(table.foot_sideways_n, units),
            ));
        }
    }
    let parts = Section {
        id: "wind_parts".into(),
        title: "How far each part is used".into(),
        subject: Some(Subject::Mast),
        rows: table.parts.iter().map(|part| part_row(part, units)).collect(),
        caution: table.cautions.join(" "),
    };
    Report { headline, sections: vec![parts], findings: Vec::new() }
}

fn part_row(part: &PartUse, units: Units) -> Row {
    let value = match (&part.utilisation, &part.carries) {
        (_, Some(Resistance::NotShown { reason })) => format!("not shown to hold. {reason}"),
        (Some(used), carries) => {
            let mut words = format!("{:.0} %", (100.0 * used).ceil());
            if part.part.kind == PartKind::WholeMast && *used <= FACTOR / MOST_TIMES {
                words.push_str(" or less");
            }
            if let Some(force_n) = part.force_n {
                words.push_str(&format!(": {}", say::force(force_n, units)));
            }
            if let Some(moment_nm) = part.moment_nm {
                words.push_str(&format!(" and {}", say::torque(moment_nm, units)));
            }
            if let Some(allowed) = allowed(part, carries.as_ref(), units) {
                words.push_str(&format!(", may carry {allowed}"));
            }
            words
        }
        (None, _) => "the mast does not stand".into(),
    };
    with_interval(&part.part.id, &part.part.name, value, String::new())
}

fn allowed(part: &PartUse, carries: Option<&Resistance>, units: Units) -> Option<String> {
    let Some(Resistance::Shown(shown)) = carries else { return None };
    let memory = if shown.confidence == Confidence::FromMemory { ", from memory" } else { "" };
    let source = shown.source.source().citation;
    let force = say::force(shown.allowable_n(), units);
    let both =
        part.allowed_moment(units).map_or(force.clone(), |moment| format!("{force} or {moment} alone"));
    Some(format!("{both} ({source}{memory})"))
}

impl PartUse {
    fn allowed_moment(&self, units: Units) -> Option<String> {
        self.carries_nm.map(|moment_nm| say::torque(moment_nm, units))
    }
}

/// What to change first, the most helpful on top; or what is missing for that.
pub fn of_changes(job: &Job, changes: &WindChanges) -> Report {
    let units = job.units;
    let Some(now) = &changes.now else {
        let sections = verdict::missing(&changes.missing).into_iter().collect();
        let verdict = Verdict::of(&[], changes.missing.clone());
        let headline = vec![row("verdict", "Verdict on the wind", verdict::long(Some(&verdict)))];
        return Report { headline, sections, findings: Vec::new() };
    };
    let rows =
        changes.changes.iter().map(|change| row(&change.id, &change.what, change_in_words(change, units)));
    let section = Section {
        id: "wind_changes".into(),
        title: "What to change first".into(),
        subject: Some(Subject::Mast),
        rows: rows.collect(),
        caution: changes.cautions.join(" "),
    };
    let mut headline =
        vec![row("now", "Gust limit now, mast raised", least_in_words(&Some(now.clone()), units))];
    if now.weakest.is_none() {
        let most = say::speed_rounded_down(MOST_M_PER_S, units);
        let words =
            format!("Nothing: no part is fully used in gusts up to {most}, and none stronger is looked at.");
        headline.push(row("none", "To change", words));
    } else if !changes.changes.iter().any(|change| change.gain_m_per_s >= LEAST_GAIN_M_PER_S) {
        let words = "Each of these raises it by less than a forecast can tell apart, and so do several at once: keep \
                     to the limit, and lower the mast in good time.";
        headline.push(row("none", "To change", words));
    }
    Report { headline, sections: vec![section], findings: Vec::new() }
}

fn change_in_words(change: &WindChange, units: Units) -> String {
    let to = say::speed_rounded_down(change.gust_m_per_s, units);
    let how = match change.gain_m_per_s {
        gain if gain >= 3.0 => "helps much",
        gain if gain >= LEAST_GAIN_M_PER_S => "helps a little",
        gain if gain > -LEAST_GAIN_M_PER_S => "changes hardly anything",
        _ => "makes it worse",
    };
    let then = change.weakest.as_ref().map_or(String::new(), |part| format!("; then first: {}", part.name));
    let pull = change
        .proof_pull_n
        .map_or(String::new(), |pull_n| format!("; each anchor pulled with {}", say::force(pull_n, units)));
    format!("{how}: {to}{then}{pull}")
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::limit::{MastHeight, MastPart, PartKind};
    use crate::quantity::UnitSystem;

    #[test]
    fn a_direction_says_where_from_how_strong_and_what_gives_first() {
        let part = MastPart {
            id: "rope".into(),
            kind: PartKind::Rope,
            name: "Rope of Upper guy 1".into(),
            guy: None,
        };
        let limit = |from_deg, weakest| DirectionLimit { from_deg, gust_m_per_s: 20.0, weakest };
        let directions = vec![limit(225.0, Some(part)), limit(230.0, None)];
        let rose = GustRose { height: MastHeight::Raised, top_m: 5.0, directions, least: None };
        let rows = of_directions(&rose, Units { system: UnitSystem::Imperial, inch_fraction: 16 });
        assert_eq!(rows[0].label, "Wind from the south-west (225.0°)");
        // 20 m/s = 44.74 mph, rounded down.
        assert_eq!(rows[0].value, "up to gusts of 44 mph; first fully used: Rope of Upper guy 1");
        assert_eq!(rows[1].value, "up to gusts of 44 mph");
    }
}
