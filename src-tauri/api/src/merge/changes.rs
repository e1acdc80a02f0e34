//! What is otherwise in one state of a job than in an earlier one, in words.

use mastwright_engine::quantity::FieldErrors;
use serde::{Deserialize, Serialize};
use serde_json::Value;

use super::conflicts::{SaidValue, about_place, differing_lines};
use super::held::Held;
use super::places;

/// A place of the job that is otherwise than it was.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct JobChange {
    pub place: String,
    /// What it is about: `Thing in the yard “Oak”: height`.
    pub about: String,
    /// It was not there before.
    pub came: bool,
    /// It is not there any more.
    pub gone: bool,
    /// What stood and what stands there, as far as it differs.
    pub was: Vec<SaidValue>,
    pub is: Vec<SaidValue>,
}

/// What counts as yard and parts.
const LOOKED_AT: [&str; 3] = ["/yard/", "/rig/", "/placement/"];

/// Where yard, parts and placement of two states of a job differ, in the order of the places. What came or went as a whole is told once.
///
/// # Errors
/// Where either is no job.
pub fn changes(before: &Value, now: &Value) -> Result<Vec<JobChange>, FieldErrors> {
    let [before, now] = [Held::shape(before)?, Held::shape(now)?];
    let [(was, was_orders), (is, is_orders)] = [&before, &now].map(|job| places::apart(job, &[]));
    let looked_at = |place: &&String| LOOKED_AT.iter().any(|part| place.starts_with(part));
    let mut all: Vec<&String> = was.keys().chain(is.keys()).filter(looked_at).collect();
    all.sort();
    all.dedup();
    let mut found: Vec<JobChange> = Vec::new();
    for place in all {
        let (old, new) = (was.get(place), is.get(place));
        if old.zip(new).is_some_and(|(old, new)| places::same(old, new)) || old == new {
            continue;
        }
        let (came, gone) = (old.is_none(), new.is_none());
        // Its fields came and went with it.
        if found.iter().any(|it| (it.came || it.gone) && place.starts_with(&format!("{}/", it.place))) {
            continue;
        }
        let (job, orders) = if gone { (&before, &was_orders) } else { (&now, &is_orders) };
        let whole = places::is_there_place(place);
        let [was, is] =
            if whole { [Vec::new(), Vec::new()] } else { differing_lines(place, [old, new], &now) };
        found.push(JobChange {
            about: about_place(place, (job, orders)),
            place: place.clone(),
            came,
            gone,
            was,
            is,
        });
    }
    Ok(found)
}

#[cfg(test)]
mod tests {
    use super::*;
    use mastwright_engine::demo::lantern_green;

    /// A pine felled, a tube made longer, a slope read anew: three things, each by its name, with what it was and is in the user's units; a job has
    /// not changed against itself, and the diary is no part of yard or parts.
    #[test]
    fn what_changed_is_told_by_its_name() {
        let before = serde_json::to_value(lantern_green()).unwrap();
        assert_eq!(changes(&before, &before).unwrap(), []);
        let mut job = lantern_green();
        let felled = job.yard.obstacles.remove(1);
        job.rig.tubes[0].length_m = 2.6;
        job.yard.slopes[0].slope_deg = -6.0;
        job.season.change(|it| it.rounds.clear());
        job.name = "Next year".to_owned();
        let found = changes(&before, &serde_json::to_value(job).unwrap()).unwrap();
        assert_eq!(found.len(), 3, "{found:?}");
        let gone: Vec<&JobChange> = found.iter().filter(|it| it.gone).collect();
        assert!(gone.len() == 1 && gone[0].about.contains(&felled.name), "{gone:?}");
        let tube = found.iter().find(|it| it.about.starts_with("Tube")).unwrap();
        // 2.36 m and 2.6 m: 7' 8 15/16" and 8' 6 3/8", to the sixteenth.
        assert_eq!((tube.was[0].value.as_str(), tube.is[0].value.as_str()), ("7' 8 15/16\"", "8' 6 3/8\""));
        assert!(tube.was.len() == 1 && tube.is.len() == 1, "{tube:?}");
        let slope = found.iter().find(|it| it.about.starts_with("Slope")).unwrap();
        assert_eq!((slope.was[0].value.as_str(), slope.is[0].value.as_str()), ("−6.9°", "−6°"));
    }
}
