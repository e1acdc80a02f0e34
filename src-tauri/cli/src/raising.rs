//! `mastwright raise-ways`: which ways the mast can be walked up and laid down.

use mastwright_api::messages::JobRequest;
use mastwright_api::run;
use mastwright_engine::report;

use crate::arguments::JobSource;
use crate::outcome::{Failure, Outcome};
use crate::{print, print_json, progress, read};

/// Exit code 0 where the job's own way is clear, or any way where the job has none; 1 where not; 4 where nobody can say yet.
pub fn raise_ways(source: &JobSource, json: bool) -> Result<Outcome, Failure> {
    let job = read(source)?;
    let mut line = progress::Line::new("looking all round");
    let answer = run::raise_ways(&JobRequest { job }, &mut |told| line.tell(&told))?;
    drop(line);
    if json {
        print_json(&answer.ways)?
    } else {
        print(&report::raising_text(&answer.report))?
    };
    let ways = &answer.ways;
    let clear = ways.as_said.as_ref().map_or(ways.best.is_some(), |way| way.clear);
    // A way that is not clear stays so whatever else is found out.
    Ok(match (clear, ways.waits_for.is_empty()) {
        (false, _) if !ways.bearings.is_empty() => Outcome::Stop,
        (_, false) => Outcome::NotKnown,
        (true, true) => Outcome::Done,
        (false, true) => Outcome::Stop,
    })
}
