//! Wind in words: the action card, what a gust does to each part, what to change first. Speeds are rounded down.

use serde::Serialize;

use super::rows::{self, Answer, Said, named, on_condition, row, sourced};
use super::words::cautions;
use super::{
    FindingText, Label, Report, ReportSection, Row, SectionTitle, finding_text, format, verdict, words,
};
use crate::finding::Subject;
use crate::job::{Job, RehearsedTime, Terrain, WhenLowered, WindRoute};
use crate::quantity::convert::{FOOT_M, INCH_M};
use crate::quantity::{UnitSystem, Units};
use crate::resistance::en1993::FACTOR;
use crate::resistance::{Resistance, ShownResistance};
use crate::source::Confidence;
use crate::verdict::Verdict;
use crate::wind::beaufort;
use crate::wind::gust::Upwind;
use crate::wind_capacity::air::{self, CountedAs};
use crate::wind_capacity::search::{MOST_M_PER_S, MOST_TIMES};
use crate::wind_capacity::{
    DirectionLimit, Effect, GustRose, MastHeight, PartKind, PartUse, WindCapacity, WindChange, WindChanges,
    WindTable,
};

/// The limit's card, its directions and its findings; or what is missing for them.
pub fn of_limit(job: &Job, limit: &WindCapacity) -> Report {
    let units = job.units;
    let mut sections: Vec<ReportSection> =
        verdict::missing(&limit.missing, units.system).into_iter().collect();
    let known = sections.is_empty();
    if known {
        sections.push(card(job, limit));
    }
    sections.extend(run_down(limit, units));
    sections.push(ground_upwind(job));
    if known {
        sections.extend([&limit.raised, &limit.lowered].map(|rose| directions(rose, units)));
    }
    sections.extend(proof_pulls(limit, units));
    let by_eye: Vec<&str> = limit.look_at_by_eye.iter().map(|part| cautions::by_eye(*part)).collect();
    sections.push(listed("wind_by_eye", &SectionTitle::ByEye, &by_eye));
    sections.push(listed("wind_not_reckoned", &SectionTitle::NotReckoned, &cautions::NOT_RECKONED));
    sections.push(listed("wind_cautions", &SectionTitle::WindCautions, &cautions::WIND));
    let findings = texts(limit, units);
    Report { headline: headline(limit, units), sections, findings, ..Report::default() }
}

fn texts(limit: &WindCapacity, units: Units) -> Vec<FindingText> {
    limit.findings.iter().map(|finding| finding_text(finding, units)).collect()
}

fn headline(limit: &WindCapacity, units: Units) -> Vec<Row> {
    let mut rows = vec![row(Label::WindVerdict, verdict::long(Some(&limit.verdict)))];
    if limit.missing.is_empty() {
        let told = told_for(limit.ground.counted);
        let of = |key: Label, rose: &GustRose| row(key, least_in_words(&rose.least, units, told));
        rows.push(of(Label::GustRaised, &limit.raised));
        rows.push(of(Label::GustLowered, &limit.lowered));
        rows.push(row(Label::OnlyByEye, by_eye(limit)));
    }
    rows
}

/// The parts to look at in one line.
fn by_eye(limit: &WindCapacity) -> String {
    let mut names = limit.look_at_by_eye.iter().map(|part| cautions::by_eye(*part));
    let first = names.next().unwrap_or_default().to_owned();
    names.fold(first, |line, name| format!("{line}; {}", verdict::first_small(name)))
}

/// Said with every gust from which houses or wood all round have taken some.
pub(super) fn told_for(counted: CountedAs) -> &'static str {
    match counted {
        CountedAs::BuiltOrWooded => " told for open country",
        _ => "",
    }
}

pub(super) fn least_in_words(least: &Option<DirectionLimit>, units: Units, told: &str) -> String {
    let Some(least) = least else { return "not known".into() };
    let gust = format!("{}{told}", format::speed_rounded_down(least.gust_m_per_s, units));
    let from = format::compass_point(least.from_deg);
    match &least.weakest {
        Some(part) => format!("{gust}, wind from the {from}; first fully used: {}", words::part(&part.name)),
        None => format!("more than {gust}"),
    }
}

/// What to do when. The Beaufort number is that of the mean wind whose gusts usually reach the gust.
fn card(job: &Job, limit: &WindCapacity) -> ReportSection {
    let units = job.units;
    let told = match limit.ground.counted {
        CountedAs::BuiltOrWooded => " for open country (an airport's, not a forecast for this place)",
        _ => "",
    };
    let act = |key: Label, at: Option<f64>, moves_m: Option<f64>| {
        let Some(gust) = at else { return row(key, "not known: do not leave it standing in wind") };
        if gust < 1.0 {
            return row(key, "at once: even light wind is too much");
        }
        let force = beaufort::of_usual_gust(gust, Upwind::InLand);
        let before =
            format!("before gusts of {} are forecast{told}", format::speed_rounded_down(gust, units));
        let comes_with = format!(
            "That usually comes with a mean wind of force {} ({}): {}{}",
            force.number,
            words::beaufort::name(force.name).to_lowercase(),
            words::beaufort::on_land(force.name),
            moves_m.map_or(String::new(), |moves_m| top_moves(moves_m, units)),
        );
        row(key, rows::parts(before, ". ", comes_with))
    };
    ReportSection {
        id: "wind_card".into(),
        title: words::title(&SectionTitle::WhenToAct),
        subject: Some(Subject::Mast),
        rows: vec![
            act(Label::LowerIt, limit.lower_at_m_per_s, limit.top_moves_at_lower_m),
            takes(job, Label::LowerTakes, &job.cards.lower_rehearsed, limit.lower_at_m_per_s),
            act(Label::LayItDown, limit.lay_down_at_m_per_s, limit.top_moves_at_lay_down_m),
            takes(job, Label::LayDownTakes, &job.cards.lay_down_rehearsed, limit.lay_down_at_m_per_s),
            row(Label::OnlyByEye, by_eye(limit)),
            row(Label::WhichWind, words::gust::WHICH_WIND),
        ],
        caution: cautions::WIND.join(" "),
    }
}

/// The minutes of the rehearsal, counted against when a gust is forecast that asks for it.
fn takes(job: &Job, key: Label, time: &RehearsedTime, act_at: Option<f64>) -> Row {
    let Some(minutes) = time.minutes else { return row(key, words::gust::NOT_REHEARSED) };
    let took = words::gust::took(minutes, time.people);
    let cards = &job.cards;
    let (Some(gust), Some(in_minutes)) = (cards.forecast_gust_m_per_s, cards.forecast_in_minutes) else {
        return row(key, format!("{took}{}", words::gust::NO_TIME_FORECAST));
    };
    let gust_words = format::speed(gust, job.units);
    let asks = act_at.is_none_or(|at| gust >= at);
    let counted = match (asks, in_minutes - minutes) {
        (false, _) => words::gust::need_not(&gust_words),
        (true, left) if left >= 0.0 => words::gust::begin_within(&gust_words, in_minutes, left),
        (true, _) => words::gust::too_late(&gust_words, in_minutes),
    };
    row(key, format!("{took}{counted}"))
}

/// How far the top moves, told no finer than it is known and never too small: whole half centimetres or quarter inches.
fn top_moves(moves_m: f64, units: Units) -> String {
    let step_m = match units.system {
        UnitSystem::Metric => 0.005,
        UnitSystem::Imperial => INCH_M / 4.0,
    };
    let shown =
        format::length((moves_m / step_m - 1e-9).ceil() * step_m, Units { inch_fraction: 4, ..units });
    words::gust::top_moves(&shown)
}

/// How the guys that come down with the mast are made fast then; none where no collar comes down.
fn run_down(limit: &WindCapacity, units: Units) -> Option<ReportSection> {
    let rows = limit.guys_run_down.iter().map(|guys| {
        let at = format::length(guys.attach_height_m, units);
        let value = match (guys.how, guys.tension_n) {
            (WhenLowered::MadeFast, Some(tension_n)) => {
                let tension = format::force(tension_n, units);
                format!(
                    "made fast again {at} above the foot, each tightened to {tension}: the limit counts on it"
                )
            }
            (WhenLowered::Left, _) => {
                format!("left as they are, their collar {at} above the foot: slack, they hold little")
            }
            _ => "not said yet: nothing shows what holds the mast then".into(),
        };
        row(Label::RunDown { level: guys.level.clone(), name: guys.name.clone() }, value)
    });
    (!limit.guys_run_down.is_empty()).then(|| ReportSection {
        id: "wind_run_down".into(),
        title: words::title(&SectionTitle::GuysRunDown),
        subject: Some(Subject::Mast),
        rows: rows.collect(),
        caution: String::new(),
    })
}

/// What of the ground upwind is counted, what is asked of the user for it, and by which rule a gust becomes pressure.
pub fn ground_upwind(job: &Job) -> ReportSection {
    let (ground, wind) = (air::ground(job), &job.wind);
    let mut rows = Vec::new();
    if wind.terrain == Terrain::BuiltOrWooded {
        let far = rows::length_as(far(ground.fetch_m, job.units), ground.fetch_m);
        let asked = sourced(row(Label::Fetch, far), ground.source, Confidence::Read);
        rows.push(asked);
        let answer = match wind.rough_for_m {
            None => Answer::NotSure,
            Some(_) if ground.counted == CountedAs::OpenForShortFetch => Answer::No,
            Some(_) => Answer::Yes,
        };
        rows.push(row(Label::Reaches, rows::answer(answer)));
    }
    let counted = match (ground.counted, wind.terrain) {
        (CountedAs::AsSaid, Terrain::WaterOrBare) => "water or bare ground: more wind than in open country",
        (CountedAs::AsSaid, _) => "open country: nothing is taken off the gust",
        (CountedAs::BuiltOrWooded, _) => {
            "houses or wood all round: less wind than the gust told for open country. A forecast for this place has that in \
             it already: never hold one against this limit"
        }
        (CountedAs::OpenForShortFetch, _) => {
            "open country: nobody has said that houses or wood reach far enough on every side"
        }
        (CountedAs::OpenForLocalGust, _) => {
            "open country: a gust told for this place has its houses and woods in it already"
        }
    };
    rows.push(row(Label::CountedAs, counted));
    let route = air::route(job).source();
    rows.push(sourced(row(Label::PressureRule, rule(wind.route)), route, route.source().confidence));
    ReportSection {
        id: "wind_ground".into(),
        title: words::title(&SectionTitle::GroundUpwind),
        subject: Some(Subject::Mast),
        rows,
        caution: String::new(),
    }
}

fn rule(route: WindRoute) -> &'static str {
    match route {
        WindRoute::Forecast => "the forecast's own gust",
        WindRoute::Asce7_16 => "ASCE 7-16",
        WindRoute::Asce7_22 => "ASCE 7-22",
        WindRoute::En1991_1_4 => "EN 1991-1-4",
    }
}

/// A distance over land, in whole metres or feet; read back as it stands.
fn far(distance_m: f64, units: Units) -> String {
    match units.system {
        UnitSystem::Metric => format!("{:.0} m", distance_m.ceil()),
        UnitSystem::Imperial => format!("{:.0} ft", (distance_m / FOOT_M - 1e-6).ceil()),
    }
}

/// The limit from one direction in words.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct DirectionText {
    /// The bearing alone, as the user reads it.
    pub bearing: String,
    pub label: String,
    pub value: String,
}

/// Every direction that was looked at, in the order of the rose.
pub fn of_directions(rose: &GustRose, units: Units) -> Vec<DirectionText> {
    let said = |limit: &DirectionLimit| {
        let part = limit
            .weakest
            .as_ref()
            .map_or(String::new(), |part| format!("; first fully used: {}", words::part(&part.name)));
        DirectionText {
            bearing: format::bearing(limit.from_deg),
            label: words::label(&Label::WindFrom { from_deg: limit.from_deg, exact: true }),
            value: format!("up to gusts of {}{part}", format::speed_rounded_down(limit.gust_m_per_s, units)),
        }
    };
    rose.directions.iter().map(said).collect()
}

/// The eight points of the compass; between them a face shows the rose.
fn directions(rose: &GustRose, units: Units) -> ReportSection {
    let eight = rose.directions.iter().step_by(9);
    let rows = eight.map(|limit| {
        let part =
            limit.weakest.as_ref().map_or_else(|| "nothing".to_owned(), |part| words::part(&part.name));
        let value = format!("{} · {part}", format::speed_rounded_down(limit.gust_m_per_s, units));
        row(Label::WindFrom { from_deg: limit.from_deg, exact: false }, value)
    });
    let (id, lowered) = match rose.height {
        MastHeight::Raised => ("wind_raised", false),
        MastHeight::Lowered => ("wind_lowered", true),
    };
    ReportSection {
        id: id.into(),
        title: words::title(&SectionTitle::GustByDirection { lowered }),
        subject: Some(Subject::Mast),
        rows: rows.collect(),
        caution: String::new(),
    }
}

fn proof_pulls(limit: &WindCapacity, units: Units) -> Option<ReportSection> {
    let first = limit.proof_pulls.first()?;
    let mut rows: Vec<Row> = limit
        .proof_pulls
        .iter()
        .map(|it| {
            row(
                Label::ProofPull { guy: it.guy.clone(), name: it.name.clone() },
                format::force(it.pull.load_n, units),
            )
        })
        .collect();
    rows.push(row(Label::HoldPull, format!("{} minutes", first.pull.hold_minutes)));
    rows.push(row(Label::MayCreep, format::length_small(first.pull.creep_limit_mm, units)));
    let steps = cautions::PROOF_PULL.iter().zip(1..);
    rows.extend(steps.map(|(step, number)| row(Label::ProofStep { number }, *step)));
    Some(ReportSection {
        id: "wind_proof_pull".into(),
        title: words::title(&SectionTitle::ProofPull),
        subject: None,
        rows,
        caution: cautions::PROOF_PULLED.into(),
    })
}

fn listed(id: &str, title: &SectionTitle, lines: &[&str]) -> ReportSection {
    let rows = lines.iter().zip(1..).map(|(line, number)| row(Label::Line { number }, *line));
    ReportSection {
        id: id.into(),
        title: words::title(title),
        subject: Some(Subject::Mast),
        rows: rows.collect(),
        caution: String::new(),
    }
}

/// The table of one gust: every part's use in per cent, what it bears and what it may.
pub fn of_table(job: &Job, table: &WindTable) -> Report {
    let units = job.units;
    let from = format!("the {} ({})", format::compass_point(table.from_deg), format::bearing(table.from_deg));
    let worst = if table.worst { ", the worst direction" } else { "" };
    let mut headline =
        vec![row(Label::Gust, format!("{} from {from}{worst}", format::speed(table.gust_m_per_s, units)))];
    if let Some(reason) = &table.not_known_because {
        headline.push(row(
            Label::DoesItHold,
            words::gust::not_known_because(&words::unshown(*reason, units.system)),
        ));
        return Report { headline, sections: vec![parts_section(table, units)], ..Report::default() };
    }
    let unknown =
        table.parts.iter().filter(|part| matches!(part.carries, Some(Resistance::NotShown { .. }))).count();
    if unknown > 0 {
        headline.push(row(Label::DoesItHold, words::gust::not_shown(unknown)));
    }
    match &table.falls_because {
        Some(why) => headline.push(row(Label::MastFalls, words::collapse(*why))),
        None => {
            headline.push(row(Label::TopMoves, rows::length(table.top_movement_m, units)));
            headline.push(row(Label::FootDown, rows::force(table.foot_down_n, units)));
            headline.push(row(Label::FootSideways, rows::force(table.foot_sideways_n, units)));
            let ballast = table.box_ballast_kg.map_or_else(
                || rows::Said::from(words::workshop::NOT_KNOWN),
                |ballast_kg| rows::mass(ballast_kg, units),
            );
            headline.push(row(Label::BoxBallast, ballast));
        }
    }
    Report { headline, sections: vec![parts_section(table, units)], ..Report::default() }
}

fn parts_section(table: &WindTable, units: Units) -> ReportSection {
    ReportSection {
        id: "wind_parts".into(),
        title: words::title(&SectionTitle::PartsUsed),
        subject: Some(Subject::Mast),
        rows: table.parts.iter().map(|part| part_row(part, units)).collect(),
        caution: cautions::WIND.join(" "),
    }
}

fn part_row(part: &PartUse, units: Units) -> Row {
    let value = match (&part.utilisation, &part.carries) {
        (_, Some(Resistance::NotShown { reason })) => {
            format!("not shown to hold. {}", words::unshown(*reason, units.system)).into()
        }
        (Some(used), carries) => {
            let mut percent = format!("{:.0} %", (100.0 * used).ceil());
            if part.part.kind == PartKind::WholeMast && *used <= FACTOR / MOST_TIMES {
                percent.push_str(" or less");
            }
            let mut words = part.force_n.map_or_else(String::new, |force_n| format::force(force_n, units));
            if let Some(moment_nm) = part.moment_nm {
                words.push_str(&format!(" and {}", format::torque(moment_nm, units)));
            }
            if let Some(allowed) = shown_in(carries.as_ref()).map(|shown| allowed(part, shown, units)) {
                words.push_str(&format!(", may carry {allowed}"));
            }
            // A part that nothing pulls at has no force to begin with.
            match part.force_n {
                Some(_) => rows::parts(percent, ": ", words),
                None => format!("{percent}{words}").into(),
            }
        }
        (None, _) => "the mast does not stand".into(),
    };
    let row = row(Label::Part { id: part.part.id.clone(), name: part.part.name.clone() }, value);
    match shown_in(part.carries.as_ref()) {
        Some(shown) => {
            let conditions = words::conditions(&shown.conditions, units.system);
            on_condition(sourced(row, shown.source, shown.confidence), conditions)
        }
        None => row,
    }
}

fn shown_in(carries: Option<&Resistance>) -> Option<&ShownResistance> {
    match carries {
        Some(Resistance::Shown(shown)) => Some(shown),
        _ => None,
    }
}

fn allowed(part: &PartUse, shown: &ShownResistance, units: Units) -> String {
    let force = format::force(shown.allowable_n(), units);
    part.allowed_moment(units).map_or(force.clone(), |moment| format!("{force} or {moment} alone"))
}

impl PartUse {
    fn allowed_moment(&self, units: Units) -> Option<String> {
        self.carries_nm.map(|moment_nm| format::torque(moment_nm, units))
    }
}

/// What to change first, the most helpful on top; or what is missing for that.
pub fn of_changes(job: &Job, changes: &WindChanges) -> Report {
    let units = job.units;
    let Some(now) = &changes.now else {
        let sections = verdict::missing(&changes.missing, units.system).into_iter().collect();
        let verdict = Verdict::of(&[], changes.missing.clone());
        let headline = vec![row(Label::WindVerdict, verdict::long(Some(&verdict)))];
        return Report { headline, sections, ..Report::default() };
    };
    let told = told_for(air::ground(job).counted);
    let rows = changes.changes.iter().map(|change| {
        let key = Label::Change { id: change.id.clone() };
        named(key, words::change(change, units), change_in_words(change, units))
    });
    let section = ReportSection {
        id: "wind_changes".into(),
        title: words::title(&SectionTitle::ChangeFirst),
        subject: Some(Subject::Mast),
        rows: rows.collect(),
        caution: cautions::WIND.join(" "),
    };
    let mut headline = vec![row(Label::GustNow, least_in_words(&Some(now.clone()), units, told))];
    if now.weakest.is_none() {
        let most = format::speed_rounded_down(MOST_M_PER_S, units);
        headline.push(row(Label::ToChange, words::gust::nothing_to_change(&most)));
    } else if !changes.changes.iter().any(WindChange::helps) {
        headline.push(row(Label::ToChange, words::gust::no_step_helps(now.weakest.as_ref())));
    }
    Report { headline, sections: vec![section], ..Report::default() }
}

fn change_in_words(change: &WindChange, units: Units) -> Said {
    let to = format::speed_rounded_down(change.gust_m_per_s, units);
    let how = match change.effect {
        Effect::HelpsMuch => "helps much",
        Effect::HelpsALittle => "helps a little",
        Effect::HardlyAny => "changes hardly anything",
        Effect::Worse => "makes it worse",
    };
    let then = change
        .weakest
        .as_ref()
        .map_or(String::new(), |part| format!("; then first: {}", words::part(&part.name)));
    let pull = change.proof_pull_n.map_or(String::new(), |pull_n| {
        format!("; each anchor pulled with {}", format::force(pull_n, units))
    });
    rows::parts(how.to_owned(), ": ", format!("{to}{then}{pull}"))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::wind_capacity::{MastPart, PartName};

    fn section<'a>(report: &'a Report, id: &str) -> &'a ReportSection {
        report.sections.iter().find(|section| section.id == id).expect(id)
    }

    fn value<'a>(section: &'a ReportSection, id: &str) -> &'a str {
        &section.rows.iter().find(|row| row.id == id).expect(id).value
    }

    fn limit_of(job: &Job) -> Report {
        let layout = crate::plan::compute(job).unwrap().layout;
        of_limit(job, &crate::wind_capacity::withstand(job, &layout, &mut |_, _, _| true))
    }

    fn metric() -> Job {
        let mut job = crate::demo::yardstick();
        job.units.system = UnitSystem::Metric;
        job
    }

    /// The yardstick's upper tube runs into a lower one of 10 ft: its collar stops at 3.048 m. Both are told with when to
    /// act, on every face that shows this report.
    #[test]
    fn the_card_says_how_the_guys_are_made_fast_and_how_far_the_top_moves() {
        let mut job = metric();
        let report = limit_of(&job);
        assert_eq!(
            value(section(&report, "wind_run_down"), "run_down_upper"),
            "made fast again 3.048 m above the foot, each tightened to 130 N: the limit counts on it"
        );
        for id in ["lower", "lay_down"] {
            let words = value(section(&report, "wind_card"), id);
            assert!(words.contains(". Its top then moves by up to about "), "{words}");
            assert!(words.ends_with(" in the gust.") && !words.contains(".."), "{words}");
        }
        let printed = crate::report::text(&report);
        assert!(
            printed.contains("3.048 m above the foot") && printed.contains("Its top then moves"),
            "{printed}"
        );
        job.rig.guy_levels[0].when_lowered = WhenLowered::Unsaid;
        let report = limit_of(&job);
        assert!(value(section(&report, "wind_run_down"), "run_down_upper").starts_with("not said yet"));
        let first = &section(&report, "missing").rows[0].key;
        assert!(
            matches!(first, Label::Missing { kind: crate::wind_capacity::MissingKind::WhenLowered, .. }),
            "{first:?}"
        );
    }

    /// By hand: 40 minutes against a gust in 60 leave 20; in 30 it is too late; a gust below the speed at which one acts asks for nothing.
    #[test]
    fn the_minutes_of_the_rehearsal_are_counted_against_the_forecast() {
        let mut job = metric();
        job.cards.change(|it| it.lower_rehearsed = RehearsedTime::default());
        let said = |job: &Job| takes(job, Label::LowerTakes, &job.cards.lower_rehearsed, Some(12.0)).value;
        assert!(said(&job).starts_with("not known"));
        job.cards.change(|it| it.lower_rehearsed.minutes = Some(40.0));
        job.cards.change(|it| it.lower_rehearsed.people = Some(3));
        assert!(
            said(&job).starts_with("40 min with 3 people") && said(&job).contains("enter the forecast gust")
        );
        job.cards.change(|it| (it.forecast_gust_m_per_s, it.forecast_in_minutes) = (Some(15.0), Some(60.0)));
        assert!(
            said(&job).ends_with("gusts of 15 m/s are forecast in 60 min: begin within 20 min"),
            "{}",
            said(&job)
        );
        job.cards.change(|it| it.forecast_in_minutes = Some(30.0));
        assert!(said(&job).contains("too late to begin"));
        job.cards.change(|it| it.forecast_gust_m_per_s = Some(11.0));
        assert!(said(&job).contains("do not ask for it"));
    }

    #[test]
    fn a_movement_is_never_told_smaller_than_it_is() {
        let units = |system| Units { system, inch_fraction: 16 };
        assert_eq!(
            top_moves(0.0201, units(UnitSystem::Metric)),
            " Its top then moves by up to about 25 mm in the gust."
        );
        assert_eq!(
            top_moves(0.025, units(UnitSystem::Metric)),
            " Its top then moves by up to about 25 mm in the gust."
        );
        // 20.1 mm = 0.791 in.
        assert_eq!(
            top_moves(0.0201, units(UnitSystem::Imperial)),
            " Its top then moves by up to about 1\" in the gust."
        );
    }

    /// Where houses or wood take something off, every gust is told for open country; where they do not, it is said why.
    #[test]
    fn what_lies_upwind_is_said_beside_the_number() {
        let mut job = metric();
        job.wind.terrain = Terrain::BuiltOrWooded;
        let ground = ground_upwind(&job);
        assert_eq!((value(&ground, "fetch"), value(&ground, "reaches")), ("500 m", "not sure"));
        job.wind.rough_for_m = Some(0.0);
        assert_eq!(value(&ground_upwind(&job), "reaches"), "no");
        job.wind.rough_for_m = Some(500.0);
        assert_eq!(value(&ground_upwind(&job), "reaches"), "yes");
        assert!(
            value(&ground_upwind(&job), "counted").starts_with("open country: a gust told for this place")
        );
        let report = limit_of(&job);
        assert!(report.findings.iter().any(|finding| finding.rule == "terrain_not_counted"));
        assert!(!value(section(&report, "wind_card"), "lower").contains("open country"));
        job.wind.gust_told = crate::job::GustTold::ForOpenCountry;
        let report = limit_of(&job);
        assert!(
            value(section(&report, "wind_card"), "lower")
                .contains("are forecast for open country (an airport's")
        );
        assert!(
            report.headline.iter().filter(|row| row.value.contains(" told for open country")).count() == 2
        );
        assert!(!report.findings.iter().any(|finding| finding.rule == "terrain_not_counted"));
        job.units.system = UnitSystem::Imperial;
        assert_eq!(value(&ground_upwind(&job), "fetch"), "1500 ft");
    }

    /// Whose rule it is stands beside a row, not in its words; the terminal has both.
    #[test]
    fn a_rows_source_is_no_part_of_its_value() {
        let job = metric();
        let layout = crate::plan::compute(&job).unwrap().layout;
        let question = crate::wind_capacity::WindQuestion {
            height: MastHeight::Raised,
            gust_m_per_s: 12.0,
            from_deg: Some(0.0),
        };
        let mut table = crate::wind_capacity::wind_table(&job, &layout, &question).unwrap();
        for part in &mut table.parts {
            if let Some(Resistance::Shown(shown)) = &mut part.carries {
                shown.confidence = Confidence::FromMemory;
            }
        }
        let report = of_table(&job, &table);
        let rows = &section(&report, "wind_parts").rows;
        let sourced: Vec<&Row> = rows.iter().filter(|row| row.source.is_some()).collect();
        assert!(sourced.len() > 10);
        for row in sourced {
            let citation = &row.source.as_ref().unwrap().citation;
            assert!(!row.value.contains(citation.as_str()) && !row.value.contains("memory"), "{}", row.value);
        }
        assert!(crate::report::text(&report).contains("; recalled, not looked up: check it)"));
    }

    /// Where no step helps, the last word still says what to build otherwise, by the part that is the weakest.
    #[test]
    fn what_to_change_ends_in_something_for_every_part() {
        let job = metric();
        let mut said: Vec<String> = Vec::new();
        for kind in PartKind::ALL {
            let part = MastPart {
                id: "part".into(),
                kind,
                name: PartName::Tube { tube: "That part".into() },
                guy: None,
            };
            let now = DirectionLimit { from_deg: 0.0, gust_m_per_s: 9.0, weakest: Some(part) };
            let changes =
                WindChanges { now: Some(now), missing: Vec::new(), changes: Vec::new(), stopped: false };
            let report = of_changes(&job, &changes);
            let words = &report.headline.iter().find(|row| row.id == "none").unwrap().value;
            let (_, way) = words.split_once("fully used is That part: ").unwrap();
            assert!(way.len() > 60 && !words.contains("None of them helps"), "{kind:?}: {words}");
            said.push(way.to_owned());
        }
        said.sort();
        said.dedup();
        assert!(said.len() >= 8);
    }

    #[test]
    fn a_direction_says_where_from_how_strong_and_what_gives_first() {
        let part = MastPart {
            id: "rope".into(),
            kind: PartKind::Rope,
            name: PartName::RopeOf { guy: "Upper guy 1".into() },
            guy: None,
        };
        let limit = |from_deg, weakest| DirectionLimit { from_deg, gust_m_per_s: 20.0, weakest };
        let directions = vec![limit(225.0, Some(part)), limit(230.0, None)];
        let rose = GustRose { height: MastHeight::Raised, top_m: 5.0, directions, least: None };
        let rows = of_directions(&rose, Units { system: UnitSystem::Imperial, inch_fraction: 16 });
        assert_eq!(rows[0].label, "Wind from the south-west (225.0°)");
        assert_eq!(rows[0].bearing, "225.0°");
        // 20 m/s = 44.74 mph, rounded down.
        assert_eq!(rows[0].value, "up to gusts of 44 mph; first fully used: Rope of Upper guy 1");
        assert_eq!(rows[1].value, "up to gusts of 44 mph");
    }
}
