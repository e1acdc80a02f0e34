//! Any two histories of one job merge to the same job in either order, and no reading is lost on the way.

use std::collections::BTreeSet;

use mastwright_api::merge::{Deletion, FateSays, Held, JobFate, conflicts, reopen, settle};
use mastwright_engine::job::{History, Job, Stamp, blank};
use mastwright_engine::quantity::{UnitSystem, Units};
use proptest::prelude::*;
use serde_json::{Value, json};

const DEVICES: [&str; 3] = ["laptop", "phone", "other"];

/// What somebody does to a job. Every number that is written is one of its own, so that it can be found again.
#[derive(Debug, Clone)]
enum Act {
    AddSlope,
    WriteSlope(usize),
    StrikeSlope(usize),
    RemoveSlope(usize),
    AddMark,
    RenameMark(usize),
    MoveMark(usize),
    RemoveMark(usize),
    MeasureMastFrom(usize),
    AddThing,
    HeightenThing(usize),
    RedrawThing(usize),
    TurnThingInto(usize, bool),
    WriteTube(usize),
    AddTube(usize),
    RemoveTube(usize),
    TurnTubesRound,
    RemoveThing(usize),
    TurnListRound,
    Rig(usize),
    Strands(bool),
    Log,
    Rename,
}

fn act() -> impl Strategy<Value = Act> {
    use Act::*;
    prop_oneof![
        Just(AddSlope),
        (0..6_usize).prop_map(WriteSlope),
        (0..6_usize).prop_map(StrikeSlope),
        (0..6_usize).prop_map(RemoveSlope),
        Just(AddMark),
        (0..6_usize).prop_map(RenameMark),
        (0..6_usize).prop_map(MoveMark),
        (1..6_usize).prop_map(RemoveMark),
        (0..6_usize).prop_map(MeasureMastFrom),
        Just(AddThing),
        (0..6_usize).prop_map(HeightenThing),
        (0..6_usize).prop_map(RedrawThing),
        (0..6_usize, any::<bool>()).prop_map(|(n, post)| TurnThingInto(n, post)),
        (0..6_usize).prop_map(WriteTube),
        (0..6_usize).prop_map(AddTube),
        (0..6_usize).prop_map(RemoveTube),
        Just(TurnTubesRound),
        (0..6_usize).prop_map(RemoveThing),
        Just(TurnListRound),
        (0..3_usize).prop_map(Rig),
        any::<bool>().prop_map(Strands),
        Just(Log),
        Just(Rename),
    ]
}

/// A device with its state of the job, its clock and its counter of ids.
#[derive(Debug, Clone)]
struct Device {
    name: &'static str,
    held: Held,
    count: u32,
    clock_ms: u64,
}

fn base() -> Held {
    let mut job =
        serde_json::to_value(blank(Units { system: UnitSystem::Metric, inch_fraction: 16 })).unwrap();
    job["yard"]["slopes"] = json!([slope("slope-1", 1.0), slope("slope-2", 2.0)]);
    job["yard"]["marks"].as_array_mut().unwrap().push(mark("B", 1.5));
    job["yard"]["obstacles"] = json!([thing("thing-1", 8.0)]);
    Held::new("job", shape(&job), &Stamp { at_ms: 1000, device: "laptop".into() })
}

fn shape(job: &Value) -> Value {
    Held::shape(job).unwrap_or_else(|errors| panic!("{errors}: {job}"))
}

fn slope(id: &str, slope_deg: f64) -> Value {
    json!({ "id": id, "bearing_deg": 90.0, "slope_deg": slope_deg, "sigma_deg": null, "struck": false })
}

fn mark(id: &str, tape_m: f64) -> Value {
    json!({ "id": id, "name": "", "at": { "by": "bearing_tape", "from": "A", "bearing_deg": 40.0, "tape_m": tape_m } })
}

fn thing(id: &str, height_m: f64) -> Value {
    let at = json!({ "by": "coordinates", "east_m": 5.0, "north_m": 5.0 });
    json!({ "id": id, "name": "", "keep_off_m": null, "shape": { "kind": "tree", "at": at, "trunk_radius_m": 0.3,
        "crown_radius_m": 2.0, "crown_base_m": 2.0, "height_m": height_m, "height_sigma_m": null } })
}

impl Device {
    /// A number that no other act of any device writes: a hundred acts a device stay below 20.
    fn own_number(&mut self) -> f64 {
        self.count += 1;
        let device = DEVICES.iter().position(|name| *name == self.name).unwrap() as u32;
        f64::from(5000 + self.count * 4 + device) / 1024.0
    }

    fn own_id(&mut self, stem: &str) -> String {
        self.count += 1;
        format!("{stem}-{}-{}", self.name, self.count)
    }

    fn does(&mut self, act: &Act) {
        let mut job = self.held.job().clone();
        self.change(&mut job, act);
        // A clock that goes back and forth.
        self.clock_ms = if self.clock_ms.is_multiple_of(3) { self.clock_ms - 20 } else { self.clock_ms + 7 };
        let by = Stamp { at_ms: self.clock_ms, device: self.name.into() };
        self.held = self.held.changed(shape(&job), &by).unwrap();
    }

    fn change(&mut self, job: &mut Value, act: &Act) {
        let number = self.own_number();
        fn nth<'a>(job: &'a mut Value, list: &str, n: usize) -> Option<&'a mut Value> {
            let items = job.pointer_mut(list)?.as_array_mut()?;
            let count = items.len();
            items.get_mut(n % count.max(1))
        }
        fn remove(job: &mut Value, list: &str, n: usize, keep_first: bool) {
            let items = job.pointer_mut(list).unwrap().as_array_mut().unwrap();
            let first = usize::from(keep_first);
            if items.len() > first {
                items.remove(first + n % (items.len() - first));
            }
        }
        let push = |job: &mut Value, list: &str, item: Value| {
            job.pointer_mut(list).unwrap().as_array_mut().unwrap().push(item);
        };
        match *act {
            Act::AddSlope => push(job, "/yard/slopes", slope(&self.own_id("slope"), number)),
            Act::WriteSlope(n) => {
                if let Some(one) = nth(job, "/yard/slopes", n) {
                    one["slope_deg"] = json!(number);
                }
            }
            Act::StrikeSlope(n) => {
                if let Some(one) = nth(job, "/yard/slopes", n) {
                    one["struck"] = json!(!one["struck"].as_bool().unwrap());
                }
            }
            Act::RemoveSlope(n) => remove(job, "/yard/slopes", n, false),
            Act::AddMark => push(job, "/yard/marks", mark(&self.own_id("M"), number)),
            Act::RenameMark(n) => {
                nth(job, "/yard/marks", n).unwrap()["name"] = json!(format!("corner {number}"))
            }
            Act::MoveMark(n) => {
                let one = nth(job, "/yard/marks", n).unwrap();
                if one["at"]["by"] == "bearing_tape" {
                    one["at"]["tape_m"] = json!(number);
                }
            }
            Act::RemoveMark(n) => remove(job, "/yard/marks", n, true),
            Act::MeasureMastFrom(n) => {
                let from = nth(job, "/yard/marks", n).unwrap()["id"].clone();
                job["placement"]["mast"] =
                    json!({ "by": "bearing_tape", "from": from, "bearing_deg": 10.0, "tape_m": number });
            }
            Act::AddThing => push(job, "/yard/obstacles", thing(&self.own_id("thing"), number)),
            Act::HeightenThing(n) => {
                if let Some(one) = nth(job, "/yard/obstacles", n) {
                    one["shape"]["height_m"] = json!(number);
                }
            }
            Act::RedrawThing(n) => {
                if let Some(one) = nth(job, "/yard/obstacles", n) {
                    one["shape"]["at"]["east_m"] = json!(number);
                }
            }
            Act::TurnThingInto(n, post) => {
                if let Some(one) = nth(job, "/yard/obstacles", n) {
                    let (at, height_m) = (one["shape"]["at"].clone(), one["shape"]["height_m"].clone());
                    one["shape"] = if post {
                        json!({ "kind": "post", "at": at, "radius_m": 0.1, "height_m": height_m })
                    } else {
                        thing("", height_m.as_f64().unwrap())["shape"].clone()
                    };
                }
            }
            Act::WriteTube(n) => {
                if let Some(one) = nth(job, "/rig/tubes", n) {
                    one["length_m"] = json!(number);
                }
            }
            Act::AddTube(n) => {
                let tubes = job["rig"]["tubes"].as_array_mut().unwrap();
                // Two devices can each have taken out what the other left.
                let first = || base().job()["rig"]["tubes"][0].clone();
                let mut one = tubes.first().cloned().unwrap_or_else(first);
                one["length_m"] = json!(number);
                tubes.insert(n % (tubes.len() + 1), one);
            }
            Act::RemoveTube(n) => remove(job, "/rig/tubes", n, true),
            Act::TurnTubesRound => job["rig"]["tubes"].as_array_mut().unwrap().reverse(),
            Act::RemoveThing(n) => remove(job, "/yard/obstacles", n, false),
            Act::TurnListRound => job["yard"]["slopes"].as_array_mut().unwrap().reverse(),
            Act::Rig(0) => job["rig"]["base"]["front_reach_m"] = json!(number),
            Act::Rig(1) => job["wind"]["ice_mm"] = json!(number),
            Act::Rig(_) => job["rig"]["guy_levels"][0]["tension_n"] = json!(number * 100.0),
            Act::Strands(there) => {
                job["rig"]["strands"] = if there {
                    json!({ "count": 12, "top_height_m": 4.0, "ring_radius_m": number, "sweep_deg": 360.0 })
                } else {
                    Value::Null
                };
            }
            Act::Log => {
                let log = job["log"].as_array_mut().unwrap();
                let last = log.len();
                let replaces = (last > 0 && self.count.is_multiple_of(2)).then_some(last);
                log.push(json!({ "number": last + 1, "taken_at": format!("2026-05-01T10:{:02}:00Z", self.clock_ms % 60),
                    "who": self.name, "subject": { "kind": "mark", "id": "A" }, "name": format!("{number}"), "part": "at",
                    "action": "read", "value": { "kind": "length", "length_m": number }, "instrument": "typed",
                    "replaces": replaces }));
            }
            Act::Rename => job["name"] = json!(format!("Yard {number}")),
        }
    }
}

/// Devices that began from one job and did something each; where `meets` says so they merged on the way.
fn devices(histories: &[Vec<(Act, bool)>]) -> Vec<Device> {
    let mut all: Vec<Device> = DEVICES
        .iter()
        .take(histories.len())
        .zip([2000, 1500, 900_000])
        .map(|(&name, clock_ms)| Device { name, held: base(), count: 0, clock_ms })
        .collect();
    let longest = histories.iter().map(Vec::len).max().unwrap_or(0);
    for step in 0..longest {
        for (d, history) in histories.iter().enumerate() {
            let Some((act, meets)) = history.get(step) else { continue };
            all[d].does(act);
            if *meets && all.len() > 1 {
                // It takes over what its neighbour has; the neighbour does not hear of it.
                let other = all[(d + 1) % all.len()].held.clone();
                all[d].held = all[d].held.merged(&other).unwrap();
            }
        }
    }
    all
}

fn history() -> impl Strategy<Value = Vec<(Act, bool)>> {
    prop::collection::vec((act(), prop::bool::weighted(0.15)), 0..14)
}

/// Every number that stands in a job or in one of its open conflicts.
fn standing(held: &Held) -> BTreeSet<String> {
    let mut found = BTreeSet::new();
    numbers(held.job(), &mut found);
    for place in &held.history().places {
        for written in &place.written {
            if let Some(json) = &written.json {
                numbers(&serde_json::from_str(json).unwrap(), &mut found);
            }
        }
    }
    found
}

fn numbers(value: &Value, into: &mut BTreeSet<String>) {
    match value {
        Value::Number(number) => drop(into.insert(number.to_string())),
        Value::String(text) => drop(into.insert(text.clone())),
        Value::Array(items) => items.iter().for_each(|item| numbers(item, into)),
        Value::Object(members) => {
            members.iter().filter(|(name, _)| *name != "number").for_each(|(_, item)| numbers(item, into));
        }
        _ => {}
    }
}

/// The slopes of a job by id.
fn slopes(held: &Held) -> Vec<(String, Value)> {
    let items = held.job()["yard"]["slopes"].as_array().unwrap().clone();
    items.into_iter().map(|item| (item["id"].as_str().unwrap().to_owned(), item)).collect()
}

/// The heights of things and the lengths of tubes, each with the place that it was written at.
fn numbers_of_places(held: &Held) -> Vec<(String, String)> {
    let things = held.job()["yard"]["obstacles"].as_array().unwrap().iter().map(|thing| {
        let (id, kind) = (thing["id"].as_str().unwrap(), thing["shape"]["kind"].as_str().unwrap());
        let place = format!("/yard/obstacles/@{id}/shape/{kind}/height_m");
        (place, thing["shape"]["height_m"].to_string())
    });
    let keys = &held.history().keys[0].keys;
    let tubes = keys.iter().zip(held.job()["rig"]["tubes"].as_array().unwrap());
    let tubes = tubes.map(|(key, tube)| (format!("/rig/tubes/@{key}"), tube["length_m"].to_string()));
    things.chain(tubes).collect()
}

/// A job whose lists are in the order of their ids: the order of a list is no reading.
fn unordered(held: &Held) -> Value {
    let mut job = held.job().clone();
    for list in ["/yard/slopes", "/yard/marks", "/yard/obstacles"] {
        let items = job.pointer_mut(list).unwrap().as_array_mut().unwrap();
        items.sort_by_key(|item| item["id"].as_str().unwrap().to_owned());
    }
    job["rig"]["tubes"].as_array_mut().unwrap().sort_by_key(Value::to_string);
    job
}

fn is_seen(stamp: &Stamp, by: &Held) -> bool {
    let history = by.history();
    history.seen.iter().any(|seen| seen.device == stamp.device && stamp.at_ms <= seen.at_ms)
}

/// A mark that was taken out is wanted only by the side that measures from it: where the other side is shown it is not in the
/// list, and coming back it stands last.
fn but_for_the_order_of_marks(held: &Held) -> (Value, History) {
    let (mut job, history) = held.clone().into_parts();
    job["yard"]["marks"].as_array_mut().unwrap().sort_by_key(|mark| mark["id"].as_str().unwrap().to_owned());
    (job, History { sum: String::new(), ..history })
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 16, ..ProptestConfig::default() })]

    #[test]
    fn two_histories_merge_to_the_same_job_in_either_order((a, b) in (history(), history())) {
        let devices = devices(&[a, b]);
        let (a, b) = (&devices[0].held, &devices[1].held);
        let one = a.merged(b).unwrap();
        prop_assert_eq!(&one, &b.merged(a).unwrap());
        prop_assert_eq!(&one.merged(a).unwrap(), &one, "merged again it is the same");
        prop_assert_eq!(&b.merged(&one).unwrap(), &one);
        // Nobody's job is without a first mark, and each of its things is told from the others.
        let job: Job = serde_json::from_value(one.job().clone()).unwrap();
        prop_assert_eq!(&job.yard.marks[0].id, "A");
        let ids: BTreeSet<&String> = job.yard.slopes.iter().map(|slope| &slope.id).collect();
        prop_assert_eq!(ids.len(), job.yard.slopes.len());
    }

    /// A reading is lost only where somebody who had seen it wrote there anew or took it out.
    #[test]
    fn no_reading_is_lost((a, b) in (history(), history())) {
        let devices = devices(&[a, b]);
        let (a, b) = (&devices[0].held, &devices[1].held);
        let one = a.merged(b).unwrap();
        let left = standing(&one);
        for (mine, its) in [(a, b), (b, a)] {
            for (id, reading) in slopes(mine) {
                let place = format!("/yard/slopes/@{id}");
                let written = mine.history().places.iter().find(|it| it.place == place);
                let by = written.map_or(&mine.history().made, |it| &it.written.last().unwrap().by);
                let has_it = slopes(its).iter().any(|(other, _)| *other == id);
                let overwritten = is_seen(by, its);
                if !overwritten {
                    prop_assert!(left.contains(&reading["slope_deg"].to_string()), "{id} of {by:?}: {reading}");
                } else if has_it {
                    prop_assert!(slopes(&one).iter().any(|(other, _)| *other == id));
                }
            }
            // Nor is a height that somebody gave a thing, or a length of a tube, whatever the other did to it elsewhere.
            for (place, number) in numbers_of_places(mine) {
                let written = mine.history().places.iter().find(|it| it.place == place);
                let by = written.map_or(&mine.history().made, |it| &it.written.last().unwrap().by);
                prop_assert!(is_seen(by, its) || left.contains(&number), "{place} of {by:?}: {number}");
            }
            // The log is never overwritten.
            for entry in mine.job()["log"].as_array().unwrap() {
                let says = |log: &Value| log.as_array().unwrap().iter().any(|it| it["name"] == entry["name"]);
                prop_assert!(says(&one.job()["log"]), "{entry}");
            }
        }
        // What the log refers to is what it referred to.
        let log = one.job()["log"].as_array().unwrap();
        for (i, entry) in log.iter().enumerate() {
            prop_assert_eq!(entry["number"].as_u64(), Some(i as u64 + 1));
            if let Some(of) = entry["replaces"].as_u64() {
                prop_assert!((of as usize) <= i);
            }
        }
    }

    /// Which side of a conflict a device shows is no writing: whatever each shows, what they make together is the same.
    #[test]
    fn what_a_device_shows_changes_nothing_of_what_is_merged((a, b, c) in (history(), history(), history())) {
        let devices = devices(&[a, b, c]);
        let [a, b, c] = [0, 1, 2].map(|i| &devices[i].held);
        let one = a.merged(b).unwrap();
        let (on_a, on_b) = (one.showing(a).unwrap(), one.showing(b).unwrap());
        let is = but_for_the_order_of_marks;
        prop_assert_eq!(is(&on_a.merged(&on_b).unwrap()), is(&one));
        prop_assert_eq!(is(&on_a.showing(&one).unwrap()), is(&one));
        prop_assert_eq!(is(&on_a.showing(a).unwrap()), is(&on_a));
        prop_assert_eq!(is(&on_b.merged(c).unwrap()), is(&one.merged(c).unwrap()));
        // Of the names that nobody chose between each device has its own still; one that was overwritten is none of them.
        for open in conflicts(&on_a).iter().filter(|open| open.place == "/name") {
            let says = |name: &Value| open.sides.iter().flat_map(|side| &side.says).any(|said| *name == json!(said.value));
            for (shown, own) in [(&on_a, a), (&on_b, b)] {
                prop_assert!(says(&shown.job()["name"]), "{open:?}");
                if says(&own.job()["name"]) {
                    prop_assert_eq!(&shown.job()["name"], &own.job()["name"]);
                }
            }
        }
    }

    /// Of three states it does not matter which two are merged first, but for the order of lists.
    #[test]
    fn three_histories_merge_to_the_same_job_but_for_the_order_of_lists((a, b, c) in (history(), history(), history())) {
        let devices = devices(&[a, b, c]);
        let [a, b, c] = [0, 1, 2].map(|i| &devices[i].held);
        let left = a.merged(b).unwrap().merged(c).unwrap();
        let right = a.merged(&b.merged(c).unwrap()).unwrap();
        prop_assert_eq!(unordered(&left), unordered(&right));
        prop_assert_eq!(&left.history().places, &right.history().places);
        prop_assert_eq!(&left.history().seen, &right.history().seen);
        let places = |held: &Held| conflicts(held).into_iter().map(|it| (it.place, it.sides)).collect::<Vec<_>>();
        prop_assert_eq!(places(&left), places(&right));
    }

    /// Whoever settles all that is open, the other device takes it over unasked.
    #[test]
    fn what_is_settled_stays_settled((a, b) in (history(), history()), sides in prop::collection::vec(0..2_u32, 40)) {
        let devices = devices(&[a, b]);
        let (a, b) = (&devices[0].held, &devices[1].held);
        let mut one = a.merged(b).unwrap();
        let by = Stamp { at_ms: 1, device: "phone".into() };
        for side in sides {
            let Some(first) = conflicts(&one).into_iter().next() else { break };
            one = settle(&one, &first.place, Some(side), &by).unwrap();
            prop_assert!(conflicts(&one).iter().all(|it| it.place != first.place || it.sides.len() > 1));
        }
        let open = conflicts(&one).len();
        let again = b.merged(&one).unwrap();
        prop_assert_eq!(&again, &one);
        prop_assert_eq!(conflicts(&again).len(), open);
    }

    /// Undo of an answer: the question is asked again, by everybody, with the same sides by the same devices, and the job is what
    /// it was; also where another device had taken the answer over, or had never heard of it.
    #[test]
    fn what_was_said_of_a_conflict_can_be_taken_back((a, b) in (history(), history()), side in 0..3_u32, at in 0..9_usize) {
        let devices = devices(&[a, b]);
        let (a, b) = (&devices[0].held, &devices[1].held);
        let before = a.merged(b).unwrap();
        let open = conflicts(&before);
        prop_assume!(!open.is_empty());
        let asked = &open[at % open.len()];
        let side = (side < 2 || !asked.can_keep_both).then_some(side % 2);
        let by = Stamp { at_ms: 1, device: "phone".into() };
        let settled = settle(&before, &asked.place, side, &by).unwrap();
        let said = settled.history().places.iter().find(|it| it.place == asked.place).unwrap().written[0].by.clone();
        let back = reopen(&settled, &before, &said, &by).unwrap();
        let questions = |held: &Held| {
            conflicts(held).into_iter().map(|it| (it.place, it.about, it.asks, it.sides)).collect::<Vec<_>>()
        };
        prop_assert_eq!(questions(&back), questions(&before));
        prop_assert_eq!(unordered(&back), unordered(&before));
        for other in [&settled, &before, a, b] {
            let one = back.merged(other).unwrap();
            prop_assert_eq!(questions(&one), questions(&before));
            prop_assert_eq!(&one, &other.merged(&back).unwrap());
        }
        // Taken back it can be said anew, and once it was written over there is nothing to take back.
        let again = settle(&back, &asked.place, side, &by).unwrap();
        // A mark that is taken out and still measured from stays a question, by whoever said so last.
        let open = |held: &Held| conflicts(held).into_iter().map(|it| (it.place, it.asks)).collect::<Vec<_>>();
        prop_assert_eq!(open(&again), open(&settled));
        prop_assert!(reopen(&again, &before, &said, &by).is_err());
    }

    /// A job that was deleted goes only where whoever deleted it knew every reading; and what is known of deletions comes to the
    /// same in any order.
    #[test]
    fn a_deletion_takes_no_reading_that_it_did_not_know((a, b, c) in (history(), history(), history()), wanted in 0..8_u8) {
        let devices = devices(&[a, b, c]);
        let deleted: Vec<JobFate> = devices
            .iter()
            .zip(0_u8..)
            .map(|(device, n)| {
                let by = Stamp { at_ms: device.clock_ms, device: device.name.into() };
                let kept = if wanted & (1 << n) == 0 { vec![] } else { vec![by.clone()] };
                let seen = device.held.history().seen.clone();
                JobFate { deleted: vec![Deletion { by, device_name: String::new(), seen }], kept }
            })
            .collect();
        let [x, y, z] = [&deleted[0], &deleted[1], &deleted[2]];
        let all = x.merged(y).merged(z);
        prop_assert_eq!(&all, &z.merged(x).merged(y));
        prop_assert_eq!(&all, &x.merged(&y.merged(z)));
        prop_assert_eq!(&all.merged(x), &all);
        for device in &devices {
            let says = all.says(&device.held.history().seen);
            let open: Vec<&Held> = devices.iter().zip(0_u8..).filter(|(_, n)| wanted & (1 << n) == 0).map(|(it, _)| &it.held).collect();
            if open.is_empty() {
                prop_assert_eq!(says, FateSays::Stays);
                continue;
            }
            let knew_every_reading = |who: &&Held| slopes(&device.held).iter().all(|(id, _)| {
                let place = format!("/yard/slopes/@{id}");
                let written = device.held.history().places.iter().find(|it| it.place == place);
                let by = written.map_or(&device.held.history().made, |it| &it.written.last().unwrap().by);
                is_seen(by, who)
            });
            if says == FateSays::Goes {
                prop_assert!(open.iter().any(knew_every_reading));
            }
            // Who deleted it has nothing that they did not know.
            if open.contains(&&device.held) {
                prop_assert_eq!(says, FateSays::Goes);
            }
            prop_assert_ne!(says, FateSays::Stays);
        }
    }
}
