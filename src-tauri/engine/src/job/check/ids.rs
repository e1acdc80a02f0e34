//! Ids: each names one thing.

use std::collections::BTreeMap;

use serde_json::Value;

use crate::job::{Job, Measurement};
use crate::pointer;
use crate::quantity::FieldError;

pub(super) fn check(job: &Job, errors: &mut Vec<FieldError>) {
    let yard = &job.yard;
    each_once(pointer!(yard.marks), yard.marks.iter().map(|mark| &mark.id), errors);
    each_once(pointer!(yard.obstacles), yard.obstacles.iter().map(|obstacle| &obstacle.id), errors);
    each_once(pointer!(yard.overhead_lines), yard.overhead_lines.iter().map(|line| &line.id), errors);
    each_once(pointer!(yard.buried_services), yard.buried_services.iter().map(|service| &service.id), errors);
    each_once(pointer!(rig.guy_levels), job.rig.guy_levels.iter().map(|level| &level.id), errors);
    each_once(pointer!(standpoints), job.standpoints.iter().map(|standpoint| &standpoint.id), errors);
    each_once(pointer!(photos), job.photos.iter().map(|photo| &photo.id), errors);
    let pegs = named(job.pegging.kept(), "done", "peg");
    each_once(pointer!(pegging.done), pegs.iter(), errors);
    let ticked = named(job.cards.kept(), "done", "card");
    each_once(pointer!(cards.done), ticked.iter(), errors);
    let readings = named(job.tensions.kept(), "readings", "id");
    each_once(pointer!(tensions.readings), readings.iter(), errors);
    let tested = named(job.lights.kept(), "tested", "strand");
    each_once(pointer!(lights.tested), tested.iter(), errors);
    let rounds = named(job.season.kept(), "rounds", "id");
    each_once(pointer!(season.rounds), rounds.iter(), errors);
    let packed = named(job.season.kept(), "packed", "part");
    each_once(pointer!(season.packed), packed.iter(), errors);
    let lessons = named(job.season.kept(), "lessons", "id");
    each_once(pointer!(season.lessons), lessons.iter(), errors);
    let tapes = named(job.pegging.kept(), "tapes", "id");
    each_once(pointer!(pegging.tapes), tapes.iter(), errors);
    each_once(pointer!(workshop.stocks), job.workshop.stocks.iter().map(|stock| &stock.id), errors);
    if let Some(built) = &job.as_built {
        each_once(pointer!(as_built?.anchors), built.anchors.iter().map(|anchor| &anchor.guy), errors);
        each_once(pointer!(as_built?.legs), built.legs.iter().map(|leg| &leg.leg), errors);
    }
    // A finding names a reading by its id alone, so measurements, slopes and spot heights share their ids.
    let measurements = yard.measurements.iter().map(|measurement| match measurement {
        Measurement::Tape { id, .. } | Measurement::Bearing { id, .. } => id,
    });
    let readings = located(pointer!(yard.measurements), measurements)
        .chain(located(pointer!(yard.slopes), yard.slopes.iter().map(|slope| &slope.id)))
        .chain(located(pointer!(yard.spot_heights), yard.spot_heights.iter().map(|spot| &spot.id)));
    once(readings, errors);
}

/// The ids of a list in a part that is not read here.
fn named(part: &Value, list: &str, id: &str) -> Vec<String> {
    let items = part.get(list).and_then(Value::as_array).into_iter().flatten();
    items.filter_map(|item| Some(item.get(id)?.as_str()?.to_owned())).collect()
}

fn each_once<'a>(list: &'static str, ids: impl Iterator<Item = &'a String>, errors: &mut Vec<FieldError>) {
    once(located(list, ids), errors);
}

fn located<'a>(
    list: &'static str,
    ids: impl Iterator<Item = &'a String>,
) -> impl Iterator<Item = (Place, &'a String)> {
    ids.enumerate().map(move |(index, id)| (Place { list, index }, id))
}

/// Where an id stands; its pointer is only written out for an error.
#[derive(Clone, Copy)]
struct Place {
    list: &'static str,
    index: usize,
}

fn once<'a>(ids: impl Iterator<Item = (Place, &'a String)>, errors: &mut Vec<FieldError>) {
    let mut first: BTreeMap<&String, Place> = BTreeMap::new();
    for (place, id) in ids {
        match first.get(id) {
            Some(taken) => errors.push(FieldError::new(
                format!("{}/{}/id", place.list, place.index),
                format!("text “{id}”"),
                format!("an id of its own: {}/{} has this one", taken.list, taken.index),
            )),
            None => {
                first.insert(id, place);
            }
        }
    }
}
