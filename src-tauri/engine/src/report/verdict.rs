//! The verdict in words: short for the map, in a line for the headline, and what is missing entry by entry.

use super::rows::row;
use super::{Label, ReportSection, Row, SectionTitle, words};
use crate::finding::Subject;
use crate::quantity::UnitSystem;
use crate::verdict::Verdict;
use crate::wind_capacity::{MastPart, MissingEntry, PartKind};

/// A word or two, for a place as small as the map's corner. None while nobody has judged the plan.
pub fn short(verdict: Option<&Verdict>) -> String {
    match verdict {
        Some(Verdict::Stop { stops: 1, .. }) => "1 stop".into(),
        Some(Verdict::Stop { stops, .. }) => format!("{stops} stops"),
        Some(Verdict::Look { cautions: 0 }) => "Look it over".into(),
        Some(Verdict::Look { cautions }) => format!("{cautions} to look at"),
        Some(Verdict::NotKnown { .. }) | None => words::verdict::NOT_KNOWN.into(),
    }
}

/// One line.
pub fn long(verdict: Option<&Verdict>) -> String {
    words::verdict::long(verdict)
}

/// What is missing, one row an entry in the same order.
pub fn missing(entries: &[MissingEntry], system: UnitSystem) -> Option<ReportSection> {
    let rows = (1..).zip(entries).map(|(number, entry): (usize, _)| entry_row(number, entry, system));
    (!entries.is_empty()).then(|| ReportSection {
        id: "missing".into(),
        title: words::title(&SectionTitle::Missing),
        subject: Some(Subject::Mast),
        rows: rows.collect(),
        caution: words::cautions::MISSING.into(),
    })
}

fn entry_row(number: usize, entry: &MissingEntry, system: UnitSystem) -> Row {
    let value = words::verdict::without_it(&words::unshown(entry.reason, system), &parts(&entry.serves));
    row(Label::Missing { number, kind: entry.kind, about: entry.about.clone() }, value)
}

/// Parts by their kind, several alike told by their number.
fn parts(serves: &[MastPart]) -> String {
    let mut told: Vec<String> = Vec::new();
    for kind in PartKind::ALL {
        let alike: Vec<&MastPart> = serves.iter().filter(|part| part.kind == kind).collect();
        match alike.as_slice() {
            [] => {}
            [part] => told.push(first_small(&words::part(&part.name))),
            parts => told.push(format!("{} {}", parts.len(), plural(kind))),
        }
    }
    told.join(", ")
}

fn plural(kind: PartKind) -> &'static str {
    match kind {
        PartKind::Tube => "tubes",
        PartKind::PinHole => "tubes at their pin holes",
        PartKind::Pin => "pins",
        PartKind::Thread => "threads",
        PartKind::Coupling => "couplings",
        PartKind::Collar => "guy collars",
        PartKind::Rope => "ropes",
        PartKind::Anchor => "anchors",
        PartKind::Strands => "strands",
        PartKind::Timber => "timbers",
        PartKind::BaseTimber => "timbers at their laps",
        PartKind::Foot => "feet",
        PartKind::Ground => "places on the ground",
        PartKind::BaseSliding => "bases against sliding",
        PartKind::BaseTurning => "bases against turning",
        PartKind::WholeMast => "masts",
    }
}

pub(super) fn first_small(name: &str) -> String {
    let mut letters = name.chars();
    letters.next().map_or(String::new(), |first| first.to_lowercase().chain(letters).collect())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::job::blank;
    use crate::plan::compute;
    use crate::quantity::Units;
    use crate::wind_capacity::MissingKind;

    #[test]
    fn a_fresh_job_is_told_what_to_enter() {
        let job = blank(Units { system: UnitSystem::Metric, inch_fraction: 16 });
        let entries = crate::wind_capacity::missing_of(&job, &compute(&job).unwrap().layout);
        let section = missing(&entries, UnitSystem::Metric).unwrap();
        let kinds: Vec<MissingKind> = section
            .rows
            .iter()
            .map(|row| match &row.key {
                Label::Missing { kind, about, .. } => {
                    assert_eq!(about.is_none(), matches!(kind, MissingKind::Soil | MissingKind::Pin));
                    *kind
                }
                other => panic!("{other:?}"),
            })
            .collect();
        assert_eq!(
            kinds,
            [
                MissingKind::WhenLowered,
                MissingKind::Soil,
                MissingKind::AnchorKind,
                MissingKind::RopeStrength,
                MissingKind::RopeFibre,
                MissingKind::PinHole,
                MissingKind::Pin,
                MissingKind::Collar
            ]
        );
        assert_eq!(section.rows[0].label, "How the guys are made fast when the mast is run down, Upper guy");
        assert!(section.rows[3].value.ends_with("hold: 3 ropes."), "{}", section.rows[3].value);
        assert_eq!(short(None), "Not known yet");
        let verdict = Verdict::NotKnown { missing: entries, unchecked: 1 };
        assert_eq!(
            long(Some(&verdict)),
            "Not known yet: 8 entries are missing for what wind it takes, and 1 check that nobody has made."
        );
    }
}
