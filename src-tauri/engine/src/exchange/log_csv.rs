//! The survey log as comma-separated values.

use super::csv::{Table, as_text};
use super::in_units;
use crate::job::{Job, LogEntry};
use crate::quantity::Units;

/// One row an entry, oldest first, with a head row. Values stand as JSON, in the user's units, which each name says; struck out
/// readings are there like all others. Lines end in CR LF.
///
/// # References
/// RFC 4180: quoting, line ends. From memory. RFC 3339 for dates, RFC 8259 for the values.
pub fn log_csv(job: &Job) -> String {
    const HEAD: &str = "number,taken_at,who,subject,id,name,part,action,value,instrument,captures,replaces";
    let mut table = Table::new();
    table.row(HEAD.split(',').map(str::to_owned));
    for entry in &job.log {
        table.row(cells(entry, job.units).map(|cell| as_text(&cell)));
    }
    table.text()
}

fn cells(entry: &LogEntry, units: Units) -> [String; 12] {
    let subject = serde_json::to_value(&entry.subject).unwrap_or_default();
    let word = |name: &str| subject.get(name).and_then(|word| word.as_str()).unwrap_or_default().to_owned();
    [
        entry.number.to_string(),
        entry.taken_at.to_rfc3339(),
        entry.who.clone(),
        word("kind"),
        word("id"),
        entry.name.clone(),
        entry.part.clone(),
        json(&entry.action, units).trim_matches('"').to_owned(),
        json(&entry.value, units),
        json(&entry.instrument, units).trim_matches('"').to_owned(),
        captures(entry, units),
        entry.replaces.map_or_else(String::new, |number| number.to_string()),
    ]
}

/// What instruments put in, with the paths of the values as they are named here.
fn captures(entry: &LogEntry, units: Units) -> String {
    if entry.captures.is_empty() {
        return String::new();
    }
    let mut captures = entry.captures.clone();
    for capture in &mut captures {
        let steps: Vec<String> = capture.path.split('/').map(|step| in_units::name(step, units)).collect();
        capture.path = steps.join("/");
    }
    json(&captures, units)
}

fn json(value: &impl serde::Serialize, units: Units) -> String {
    in_units::json(serde_json::to_value(value).unwrap_or_default(), units).to_string()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::job::Instrument;
    use crate::survey::log::{How, record};

    #[test]
    fn one_row_an_entry_and_quotes_doubled() {
        let mut job = crate::demo::yardstick();
        let taken_at = chrono::DateTime::parse_from_rfc3339("2026-11-14T14:20:00-05:00").expect("a date");
        let how = How {
            taken_at,
            who: "=Ada".into(),
            instrument: Instrument::Typed,
            captures: vec![],
            open: vec![],
        };
        job.log = record(&job, &how);
        let text = log_csv(&job);
        let rows: Vec<&str> = text.split_terminator("\r\n").collect();
        assert_eq!(rows.len(), 1 + job.log.len());
        assert!(rows[1].starts_with("1,2026-11-14T14:20:00-05:00,'=Ada,mark,"), "{}", rows[1]);
        assert!(rows[1].contains("\"\"kind\"\":\"\"point\"\""), "{}", rows[1]);
    }
}
