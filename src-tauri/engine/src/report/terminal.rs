//! The report as an aligned table for the terminal.

use std::fmt::Write as _;

use super::{
    CallsReport, CardForceRow, CardForcesText, CardStanding, CardTeamRow, CardsReport, CirclesReport,
    CutLotText, FindingText, LightsReport, PackingReport, PegOutReport, RaiseReport, Report, ReportSection,
    RigsReport, RingReport, Row, SamePlaceReport, SeasonListText, SeasonReport, SharesReport, ShoppingReport,
    SitingOpeningsText, SitingPatternsText, SitingPlaceText, SitingReport, SpreadReport, StepCardText,
    TensionsReport, ViewReport, WorkshopReport,
};
use crate::cards::CardPhase;
use crate::finding::Severity;
use crate::quantity::visible::visible;
use crate::source::Confidence;

/// Cautions and remedies are broken at this many characters.
const LINE: usize = 96;

/// Writes a report as readable text: headline, findings, then section by section. A caution that several
/// sections share stands once, after the last of them.
pub fn text(report: &Report) -> String {
    let mut out = String::new();
    table(&mut out, &report.headline);
    findings(&mut out, &report.findings);
    for (i, section) in report.sections.iter().enumerate() {
        if section.id == "missing" {
            listed(&mut out, section);
            continue;
        }
        let _ = writeln!(out, "\n{}", visible(&section.title));
        table(&mut out, &section.rows);
        let again = report.sections.iter().skip(i + 1).any(|later| later.caution == section.caution);
        if !section.caution.is_empty() && !again {
            wrapped(&mut out, "  ! ", &section.caution);
        }
    }
    out
}

/// Writes the verdict, what is missing and the findings: what is wrong with a job, and what nobody knows.
pub fn check_text(report: &Report) -> String {
    let mut out = String::new();
    for row in report.headline.iter().filter(|row| row.id == "verdict") {
        let _ = writeln!(out, "{}", row.value);
    }
    findings(&mut out, &report.findings);
    for section in report.sections.iter().filter(|section| section.id == "missing") {
        listed(&mut out, section);
    }
    out
}

/// A section of rows too long for a table: each label with its value under it.
fn listed(out: &mut String, section: &ReportSection) {
    let _ = writeln!(out, "\n{}", visible(&section.title));
    for row in &section.rows {
        wrapped(out, "  ", &row.label);
        wrapped(out, "      ", &row.value);
    }
    wrapped(out, "  ! ", &section.caution);
}

/// Writes what a simulation found.
pub fn spread_text(report: &SpreadReport) -> String {
    let mut out = String::new();
    wrapped(&mut out, "", &report.headline);
    for section in &report.sections {
        let _ = writeln!(out, "\n{}", visible(&section.title));
        for row in &section.rows {
            wrapped(&mut out, "  ", &row.label);
            wrapped(&mut out, "      ", &format!("planned {}", row.planned));
            for words in [&row.drawn, &row.verdict] {
                if !words.is_empty() {
                    wrapped(&mut out, "      ", words);
                }
            }
        }
        if !section.rest.is_empty() {
            wrapped(&mut out, "  ", &section.rest);
        }
    }
    out
}

/// Writes what each reading is worth.
pub fn shares_text(report: &SharesReport) -> String {
    let mut out = String::new();
    wrapped(&mut out, "", &report.headline);
    if let Some(best) = &report.best {
        wrapped(&mut out, "  ", &best.how);
        best.gains.iter().for_each(|gain| wrapped(&mut out, "    ", gain));
    }
    for section in &report.sections {
        let _ = writeln!(out, "\n{}", visible(&section.title));
        for row in &section.rows {
            wrapped(&mut out, "  ", &format!("{}: {}", row.label, row.value));
            for part in &row.parts {
                wrapped(&mut out, "      ", &format!("{}: {}", part.says, part.name));
            }
            if !row.further.is_empty() {
                wrapped(&mut out, "      > ", &row.further);
            }
        }
    }
    for words in [&report.left_out, &report.means] {
        if !words.is_empty() {
            let _ = writeln!(out);
            wrapped(&mut out, "", words);
        }
    }
    out
}

/// Writes where the mast can stand.
pub fn siting_text(report: &SitingReport) -> String {
    let mut out = String::new();
    wrapped(&mut out, "", &report.headline);
    findings(&mut out, &report.waits_for);
    for place in &report.places {
        found_place(&mut out, place);
    }
    if let Some(patterns) = &report.patterns {
        by_pattern(&mut out, patterns);
    }
    if let Some(openings) = &report.openings {
        would_open(&mut out, openings);
    }
    if !report.closed.is_empty() {
        let _ = writeln!(out, "\nWhat closes the rest");
    }
    for closed in &report.closed {
        wrapped(&mut out, "  ", &format!("{}: {}", closed.area, closed.says));
    }
    wrapped(&mut out, "  ! ", &report.caution);
    out
}

fn found_place(out: &mut String, place: &SitingPlaceText) {
    let _ = writeln!(out, "\n{}", visible(&place.title));
    wrapped(out, "  ", &place.marks_say);
    table(out, &place.rows);
    for mark in &place.counted {
        wrapped(out, "    ", &format!("{} ({}): {}", mark.label, mark.weighs, mark.says));
    }
    for finding in place.findings.iter().filter(|it| it.severity <= Severity::Caution) {
        wrapped(out, "  - ", &finding.sentence);
    }
}

fn by_pattern(out: &mut String, patterns: &SitingPatternsText) {
    let _ = writeln!(out, "\nOther patterns of guys");
    for pattern in &patterns.opening {
        wrapped(out, "  ", &format!("{} {}", pattern.sign, pattern.says));
        found_place(out, &pattern.place);
    }
    for sentence in &patterns.opens_nothing {
        wrapped(out, "  - ", sentence);
    }
    if !patterns.opening.is_empty() {
        wrapped(out, "  ! ", &patterns.caution);
    }
}

fn would_open(out: &mut String, openings: &SitingOpeningsText) {
    let _ = writeln!(out, "\nWhat would open a place");
    for opening in &openings.opened {
        wrapped(out, "  ", &opening.says);
        found_place(out, &opening.place);
    }
    for sentence in &openings.opens_nothing {
        wrapped(out, "  - ", sentence);
    }
    if !openings.opened.is_empty() {
        wrapped(out, "  ! ", &openings.caution);
    }
}

/// Whom to call or ask first, for a terminal.
pub fn calls_text(report: &CallsReport) -> String {
    let mut out = String::new();
    if !report.waits_for.is_empty() {
        wrapped(&mut out, "", &report.waits_for);
    }
    for call in &report.calls {
        let by = if call.by.is_empty() { String::new() } else { format!("by {}: ", call.by) };
        let _ = writeln!(out, "\n{by}{} ({})", visible(&call.title), call.state_says);
        wrapped(&mut out, "  ", &call.says);
    }
    wrapped(&mut out, "  ! ", &report.caution);
    out
}

/// What to buy, aisle by aisle, for a terminal.
pub fn shop_text(report: &ShoppingReport) -> String {
    let mut out = String::new();
    wrapped(&mut out, "", &report.headline);
    for aisle in &report.aisles {
        let _ = writeln!(out, "\n{}", aisle.title);
        for item in &aisle.items {
            let tick = if item.done { "[x]" } else { "[ ]" };
            let _ = writeln!(out, "  {tick} {} {}: {}", item.amount, visible(&item.name), item.why);
            item.missing.iter().for_each(|missing| wrapped(&mut out, "      ? ", missing));
        }
    }
    if !report.cost.is_empty() {
        let _ = writeln!(out, "\n{}", report.cost);
    }
    let _ = writeln!(out);
    for step in &report.steps {
        let _ = writeln!(out, "{}: {}", step.when, step.title);
        wrapped(&mut out, "  ", &step.how);
        if !step.waits.is_empty() {
            wrapped(&mut out, "  ", &step.waits);
        }
    }
    wrapped(&mut out, "", &report.not_here);
    report.cautions.iter().for_each(|caution| wrapped(&mut out, "  ! ", caution));
    out
}

/// How each material is cut, for a terminal.
pub fn cut_text(report: &ShoppingReport) -> String {
    let mut out = String::new();
    for lot in &report.lots {
        cut_lot(&mut out, lot);
    }
    wrapped(&mut out, "", &report.not_cut);
    report.cautions.iter().for_each(|caution| wrapped(&mut out, "  ! ", caution));
    out
}

fn cut_lot(out: &mut String, lot: &CutLotText) {
    let buy = if lot.buy.is_empty() { String::new() } else { format!(": {}", lot.buy) };
    let _ = writeln!(out, "{}{buy}", visible(&lot.title));
    for piece in &lot.pieces {
        let tick = if piece.done { "[x]" } else { "[ ]" };
        let _ = writeln!(
            out,
            "  {tick} {} × {} {} {}",
            piece.count,
            piece.length,
            piece.interval,
            visible(&piece.name)
        );
    }
    for bar in &lot.bars {
        let cuts: Vec<String> =
            bar.cuts.iter().map(|cut| format!("{} {}", cut.length, visible(&cut.name))).collect();
        let _ = writeln!(out, "  {}: {}; {}", bar.title, cuts.join(", "), bar.left);
    }
    lot.says.iter().for_each(|says| wrapped(out, "  ", says));
    lot.missing.iter().for_each(|missing| wrapped(out, "  ? ", missing));
    let _ = writeln!(out);
}

/// Topper, ring and strands, for a terminal.
pub fn circles_text(report: &CirclesReport) -> String {
    let mut out = String::new();
    if !report.nothing.is_empty() {
        wrapped(&mut out, "", &report.nothing);
    }
    for card in &report.cards {
        let _ = writeln!(out, "{}", card.title);
        for number in card.numbers.iter().chain(&card.list) {
            let _ = writeln!(out, "  {}  {}", number.number, number.is);
        }
        card.stops.iter().for_each(|stop| wrapped(&mut out, "  STOP ", stop));
        card.says.iter().for_each(|says| wrapped(&mut out, "  ", says));
        card.missing.iter().for_each(|missing| wrapped(&mut out, "  ? ", missing));
        wrapped(&mut out, "  ! ", &card.caution);
        let _ = writeln!(out);
    }
    out
}

/// The lights' current, for a terminal.
pub fn lights_text(report: &LightsReport) -> String {
    let mut out = String::new();
    if !report.headline.is_empty() {
        wrapped(&mut out, "", &report.headline);
        out.push('\n');
    }
    let cards = CirclesReport {
        nothing: report.nothing.clone(),
        cards: report.cards.iter().chain(&report.slack).cloned().collect(),
    };
    out + &circles_text(&cards)
}

/// Writes the way from peg to peg, and what the tapes say.
pub fn peg_out_text(report: &PegOutReport) -> String {
    let mut out = String::new();
    wrapped(&mut out, "", &report.headline);
    for (number, step) in (1..).zip(&report.steps) {
        let done = if step.done { "set, " } else { "" };
        let _ = writeln!(out, "\n{number}. {} ({done}{})", visible(&step.name), step.checked_says);
        table(&mut out, &step.rows);
        wrapped(&mut out, "  ", &step.tolerance_why);
        if !step.measure_after.is_empty() {
            wrapped(&mut out, "  ! ", &step.measure_after);
        }
        let again = report.steps.iter().skip(number).any(|later| later.caution == step.caution);
        if !step.caution.is_empty() && !again {
            wrapped(&mut out, "  ! ", &step.caution);
        }
    }
    out.push('\n');
    for tape in &report.checks {
        let read =
            if tape.read.is_empty() { String::new() } else { format!(", read {}: {}", tape.read, tape.off) };
        wrapped(&mut out, "  ", &format!("{}: {} {}{read}", tape.name, tape.expected, tape.interval));
    }
    out.push('\n');
    wrapped(&mut out, "", &report.says);
    for line in report.suspects.iter().chain(&report.remedies) {
        wrapped(&mut out, "  - ", line);
    }
    wrapped(&mut out, "  ! ", &report.caution);
    out
}

/// Writes how tight the guys are.
pub fn tensions_text(report: &TensionsReport) -> String {
    let mut out = String::new();
    wrapped(&mut out, "", &report.headline);
    wrapped(&mut out, "", &report.tolerance);
    for level in &report.levels {
        let _ = writeln!(out, "\n{}: {}", visible(&level.name), level.planned);
        for guy in &level.guys {
            let found = [&guy.tension, &guy.interval, &guy.says, &guy.does, &guy.turns];
            let found: Vec<&str> =
                found.into_iter().map(String::as_str).filter(|it| !it.is_empty()).collect();
            wrapped(&mut out, "  ", &format!("{}: {}", guy.name, found.join(", ")));
            let by_watch =
                if guy.not_by_watch.is_empty() { String::new() } else { format!("; {}", guy.not_by_watch) };
            wrapped(&mut out, "      ", &format!("{} ({}){by_watch}", guy.swings, guy.swings_beside));
            for reading in &guy.readings {
                wrapped(
                    &mut out,
                    "      - ",
                    &format!("{} {}: {}", reading.when, reading.way, reading.tension),
                );
            }
        }
        wrapped(&mut out, "  ", &level.says);
    }
    wrapped(&mut out, "\n", &report.watch);
    wrapped(&mut out, "  ! ", &report.caution);
    out
}

/// Writes the season's diary.
pub fn season_text(report: &SeasonReport) -> String {
    let mut out = String::new();
    wrapped(&mut out, "", &report.headline);
    report.missing.iter().for_each(|missing| wrapped(&mut out, "  ? ", missing));
    wrapped(&mut out, "", &report.next);
    for mend in &report.to_mend {
        wrapped(&mut out, "  x ", &format!("{}, {}", visible(&mend.name), mend.since));
    }
    for thing in &report.not_looked_at {
        wrapped(&mut out, "  ? ", thing);
    }
    let _ = writeln!(out, "\n{}", report.changes_title);
    for change in std::iter::once(&report.lean).chain(report.guys.iter().map(|guy| &guy.change)) {
        wrapped(&mut out, "  ", &format!("{}: {}", visible(&change.name), change.now));
        for line in [&change.change, &change.trend].into_iter().filter(|line| !line.is_empty()) {
            wrapped(&mut out, "      ", line);
        }
    }
    for round in &report.rounds {
        let _ = writeln!(out, "\n{} {}", round.when, visible(&round.cause));
        for line in round.lines.iter().chain([&round.lean]).filter(|line| !line.is_empty()) {
            wrapped(&mut out, "  ", &visible(line));
        }
    }
    wrapped(&mut out, "  ! ", &report.caution);
    out
}

/// Writes the packing list.
pub fn packing_text(report: &PackingReport) -> String {
    let mut out = String::new();
    for line in [&report.headline, &report.longest, &report.total] {
        wrapped(&mut out, "", line);
    }
    let tick = |on: bool| if on { "  [x] " } else { "  [ ] " };
    let _ = writeln!(out);
    for item in &report.items {
        let line = format!("{}: {}, {}", visible(&item.name), item.length, item.mass);
        wrapped(&mut out, tick(item.packed), &line);
    }
    let _ = writeln!(out);
    for chore in &report.chores {
        wrapped(&mut out, tick(chore.done), &format!("{}: {} ({})", chore.name, chore.why, chore.source));
    }
    wrapped(&mut out, "  ! ", &report.caution);
    out
}

/// Writes what to look at before it stands in the same place again, but for what has changed.
pub fn same_place_text(report: &SamePlaceReport, lessons: &[String]) -> String {
    let mut out = String::new();
    wrapped(&mut out, "", &report.tapes_say);
    for tape in &report.tapes {
        wrapped(&mut out, "  ", &format!("{}: {}, {}", visible(&tape.name), tape.tape, tape.doubt));
    }
    for mark in &report.marks {
        wrapped(
            &mut out,
            if mark.every_way { "    " } else { "  ? " },
            &format!("{}: {}", visible(&mark.name), mark.says),
        );
    }
    for line in [&report.north, &report.north_does].into_iter().filter(|line| !line.is_empty()) {
        wrapped(&mut out, "", line);
    }
    for lesson in lessons {
        wrapped(&mut out, "  * ", &visible(lesson));
    }
    wrapped(&mut out, "  ! ", &report.caution);
    wrapped(&mut out, "", &report.changes_say);
    out
}

/// Writes what to look at for one cause.
pub fn season_list_text(list: &SeasonListText) -> String {
    let mut out = String::new();
    wrapped(&mut out, "", &list.says);
    for item in &list.items {
        wrapped(&mut out, "  [ ] ", &format!("{}: {} ({})", visible(&item.name), item.why, item.source));
    }
    out
}

/// Writes what was just read of one guy.
pub fn ring_text(report: &RingReport) -> String {
    let mut out = String::new();
    if !report.note.is_empty() {
        wrapped(&mut out, "", &format!("{} {}", report.note, report.note_interval));
    }
    if !report.tension.is_empty() {
        wrapped(&mut out, "", &format!("{} {}, {}", report.tension, report.tension_interval, report.says));
    }
    for line in [&report.chance, &report.problem, &report.instead].into_iter().filter(|line| !line.is_empty())
    {
        wrapped(&mut out, "  ", line);
    }
    out
}

/// Writes the step cards of the day, or of one of its phases.
pub fn cards_text(report: &CardsReport, phase: Option<CardPhase>) -> String {
    let mut out = String::new();
    wrapped(&mut out, "", &report.headline);
    wrapped(&mut out, "", &report.first_up.says);
    for about in report.phases.iter().filter(|it| phase.is_none_or(|phase| phase == it.phase)) {
        let _ = writeln!(out, "\n{} ({} / {})", visible(&about.title), about.done, about.of);
        wrapped(&mut out, "  ", &about.people);
        wrapped(&mut out, "  ", &about.tools.join(", "));
        for stop in &about.stops {
            wrapped(&mut out, "  STOP ", &format!("{} {} {}", stop.sentence, stop.numbers, stop.remedy));
        }
        if !about.around.is_empty() {
            wrapped(&mut out, "  ", &about.around);
        }
        if !about.wind.is_empty() {
            wrapped(&mut out, if about.wind_known { "  " } else { "  ? " }, &about.wind);
        }
        for open in &about.not_known {
            wrapped(&mut out, "  ? ", open);
        }
        about.lessons.iter().for_each(|lesson| wrapped(&mut out, "  * ", &visible(lesson)));
        for card in report.cards.iter().filter(|card| card.phase == about.phase) {
            one_card(&mut out, card);
        }
    }
    wrapped(&mut out, "  ! ", &report.caution);
    out
}

fn one_card(out: &mut String, card: &StepCardText) {
    let tick = match card.standing {
        CardStanding::Done => "x",
        CardStanding::MayCome => ">",
        CardStanding::RestsOnNothing => "?",
        CardStanding::Waits => " ",
    };
    let _ = writeln!(out, "\n  [{tick}] {}", visible(&card.title));
    for number in [&card.number].into_iter().chain(&card.more) {
        wrapped(out, "      ", &format!("{}: {}", number.number, number.is));
    }
    for line in
        [&card.missing].into_iter().chain(&card.says).chain(&card.stands).filter(|line| !line.is_empty())
    {
        wrapped(out, "      ", line);
    }
    for line in &card.waits {
        wrapped(out, "      - ", line);
    }
    card.lessons.iter().for_each(|lesson| wrapped(out, "      * ", &visible(lesson)));
    if let Some(forces) = &card.forces {
        by_angle(out, forces);
    }
    wrapped(out, "      ! ", &card.caution);
    wrapped(out, "      ! ", &card.stop);
}

fn by_angle(out: &mut String, forces: &CardForcesText) {
    let _ = writeln!(out, "      {}", forces.title);
    for at in &forces.angles {
        let mark = if at.hardest { ">" } else { " " };
        let CardForceRow { at, force, up, grip, kick_out, .. } = at;
        let _ = writeln!(out, "      {mark} {at:>6}  {force:>9}  {up:>9}  {grip:>14}  {kick_out:>9}");
    }
    wrapped(out, "        ", &forces.note);
    if forces.teams.is_empty() {
        return;
    }
    let _ = writeln!(out, "      {}", forces.teams_title);
    for team in &forces.teams {
        let CardTeamRow { people, each, together, says, .. } = team;
        let _ = writeln!(out, "        {people:>2}  {each:>9}  {together:>9}  {says}");
    }
    wrapped(out, "        ", &forces.teams_note);
}

/// Writes which ways the mast goes up.
pub fn raising_text(report: &RaiseReport) -> String {
    let mut out = String::new();
    wrapped(&mut out, "", &report.headline);
    findings(&mut out, &report.waits_for);
    for way in report.as_said.iter().chain(&report.best) {
        let marks = way.marks.map_or(String::new(), |marks| format!(" ({marks} marks of 100)"));
        let _ = writeln!(out, "\n{}{marks}", visible(&way.title));
        table(&mut out, &way.rows);
        for guy in &way.guys {
            let _ = writeln!(out, "  {}: {}", visible(&guy.name), guy.role);
            for at in &guy.angles {
                let _ = writeln!(out, "    {:>6}  {:<14} {:<20} {}", at.at, at.length, at.slack, at.does);
            }
        }
        for (number, step) in (1..).zip(&way.steps) {
            wrapped(&mut out, "  ", &format!("{number}. {step}"));
        }
        for near in &way.nearest {
            wrapped(&mut out, "  > ", &near.says);
        }
        for finding in way.doubts() {
            wrapped(&mut out, "  - ", &finding.sentence);
        }
    }
    if !report.sectors.is_empty() {
        let _ = writeln!(out, "\nLying towards (true bearings)");
    }
    for sector in &report.sectors {
        wrapped(&mut out, "  ", &format!("{}: {}", sector.bearings, sector.says));
    }
    wrapped(&mut out, "  ! ", &report.caution);
    out
}

/// Writes what is to be made in the workshop.
pub fn workshop_text(report: &WorkshopReport) -> String {
    let mut out = String::new();
    for page in [&report.fit, &report.stages, &report.lift, &report.base, &report.collars] {
        let _ = writeln!(out, "{}", visible(&page.title));
        wrapped(&mut out, "  ", &page.headline);
        findings(&mut out, &page.waits_for);
        findings(&mut out, &page.findings);
        for card in &page.cards {
            let done = if card.done { " (made)" } else { "" };
            let _ = writeln!(out, "\n{}{done}", visible(&card.title));
            table(&mut out, &card.rows);
            for says in &card.says {
                wrapped(&mut out, "  ", says);
            }
        }
        for says in &page.says {
            wrapped(&mut out, "  - ", says);
        }
        wrapped(&mut out, "  ! ", &page.caution);
        out.push('\n');
    }
    out
}

/// Writes which masts can be built.
pub fn rigs_text(report: &RigsReport) -> String {
    let mut out = String::new();
    wrapped(&mut out, "", &report.headline);
    for offer in &report.offers {
        let _ = writeln!(out, "\n{}", visible(&offer.title));
        table(&mut out, &offer.rows);
        for entry in &offer.missing {
            wrapped(&mut out, "  - ", &format!("{}: {}", entry.label, entry.value));
        }
    }
    wrapped(&mut out, "  ! ", &report.caution);
    out
}

/// Writes what is seen from a standpoint.
pub fn view_text(report: &ViewReport) -> String {
    let mut out = String::new();
    let _ = writeln!(out, "{}", visible(&report.title));
    wrapped(&mut out, "  ", &report.standing);
    wrapped(&mut out, "  ", &report.cone);
    let _ = writeln!(out);
    for thing in &report.things {
        wrapped(&mut out, "  - ", &format!("{}: {}", thing.name, thing.says));
    }
    wrapped(&mut out, "  ! ", &report.caution);
    out
}

/// Labels longer than this do not push the values of all others out.
const WIDEST_LABEL: usize = 56;

fn table(out: &mut String, rows: &[Row]) {
    // A name with a line break in it would look like a row of its own.
    let rows: Vec<[String; 3]> = rows
        .iter()
        .map(|row| [&row.label, &with_source(row), &row.interval].map(|words| visible(words)))
        .collect();
    let widths = rows.iter().map(|[label, ..]| label.chars().count());
    let width = widths.filter(|width| *width <= WIDEST_LABEL).max().unwrap_or(0);
    for [label, value, interval] in rows {
        let pad = " ".repeat(width.saturating_sub(label.chars().count()));
        let interval = if interval.is_empty() { interval } else { format!(" {interval}") };
        let _ = writeln!(out, "  {label}{pad}  {value}{interval}");
    }
}

/// The value with whose rule it is by; what was recalled and not looked up says so.
fn with_source(row: &Row) -> String {
    let Some(source) = &row.source else { return row.value.clone() };
    format!("{} (by {}{})", row.value, source.citation, recalled(source.confidence))
}

fn recalled(confidence: Confidence) -> &'static str {
    if confidence == Confidence::FromMemory { "; recalled, not looked up: check it" } else { "" }
}

fn findings(out: &mut String, findings: &[FindingText]) {
    if findings.is_empty() {
        return;
    }
    out.push_str("\nFindings\n");
    for finding in findings {
        let new = if finding.new_since_pegged { " (new since pegged)" } else { "" };
        wrapped(out, "  ", &format!("{}{new}: {}", severity(finding.severity), finding.sentence));
        let source = format!("{}{}", finding.source, recalled(finding.confidence));
        for (what, words) in [("", &finding.numbers), ("by ", &source), ("→ ", &finding.remedy)] {
            if !words.is_empty() {
                wrapped(out, "      ", &format!("{what}{words}"));
            }
        }
    }
}

fn severity(severity: Severity) -> &'static str {
    match severity {
        Severity::Stop => "STOP",
        Severity::Unchecked => "UNCHECKED",
        Severity::Caution => "CAUTION",
        Severity::Note => "NOTE",
    }
}

/// Writes words broken between them, the first line after `indent`, the others under it.
fn wrapped(out: &mut String, indent: &str, words: &str) {
    let hanging = " ".repeat(indent.chars().count());
    let mut line = String::new();
    let mut first = true;
    let mut flush = |line: &mut String, first: &mut bool| {
        let _ = writeln!(out, "{}{line}", if *first { indent } else { hanging.as_str() });
        line.clear();
        *first = false;
    };
    for word in words.split_whitespace() {
        if !line.is_empty() && line.chars().count() + word.chars().count() + 1 > LINE - hanging.len() {
            flush(&mut line, &mut first);
        }
        if !line.is_empty() {
            line.push(' ');
        }
        line.push_str(word);
    }
    if !line.is_empty() {
        flush(&mut line, &mut first);
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::drawing::sample::sample;
    use crate::quantity::UnitSystem;
    use crate::report::report;

    #[test]
    fn no_line_is_wider_than_a_terminal_takes_without_need() {
        let (job, computed) = sample(UnitSystem::Imperial);
        let text = text(&report(&job, &computed));
        assert!(text.lines().filter(|l| l.starts_with("  ! ")).all(|l| l.chars().count() <= LINE));
        assert!(
            text.contains("STOP: The rope of Guy 2 passes nearer to The pavilion than it should."),
            "{text}"
        );
        // Three guys share one caution.
        assert_eq!(text.matches("whips").count(), 1);
    }
}
