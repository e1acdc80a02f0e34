//! A job with its history: made, changed, merged.

use std::collections::{BTreeMap, BTreeSet};

pub(super) use mastwright_engine::job::check_sum as sum;
use mastwright_engine::job::{
    DeviceName, Document, History, ListKeys, ListOrder, PlaceHistory, Stamp, Writing,
};
use mastwright_engine::quantity::FieldErrors;
use serde_json::Value;

use super::places::{self, Orders, Places, same};
use super::registers::{Seen, Written, joined, shown};
use super::{Came, HISTORY, diary};

/// A job as some device has it.
#[derive(Debug, Clone, PartialEq)]
pub struct Held {
    job: Value,
    history: History,
}

impl Held {
    /// The job as this version writes it, without its history: it has the shape of one, whatever it says.
    ///
    /// # Errors
    /// Where it has not.
    pub fn shape(job: &Value) -> Result<Value, FieldErrors> {
        Ok(Self::parts(job)?.0)
    }

    /// A job that was made, or is heard of for the first time: all of it is written now.
    pub fn new(name: &str, job: Value, by: &Stamp) -> Self {
        Self::with_keys(name, &[], job, by)
    }

    /// The same of a job that an earlier history can't be relied on for: what it calls its items by is true all the same.
    pub fn anew(history: &History, job: Value, by: &Stamp) -> Self {
        Self::with_keys(&history.job, keys_of(history), job, by)
    }

    fn with_keys(name: &str, keys: &[String], job: Value, by: &Stamp) -> Self {
        let history = History {
            job: name.to_owned(),
            made: by.clone(),
            seen: vec![by.clone()],
            names: Vec::new(),
            places: Vec::new(),
            orders: Vec::new(),
            keys: keys_beside(&places::apart(&job, keys).1),
            sum: sum(&job),
        };
        Self { job, history }
    }

    /// None where the history is not of this job.
    pub fn of(job: Value, history: History) -> Option<Self> {
        is_of(&history, &job).then_some(Self { job, history })
    }

    /// Where the history is not of this job somebody changed the job without noting it. What they changed nobody can tell, so
    /// all of the job counts as written anew, by them: where the other differs both are kept and asked about.
    pub fn relied_on(job: Value, history: History) -> Self {
        if is_of(&history, &job) {
            return Self { job, history };
        }
        let at_ms = last(&history).saturating_add(1).min(MOST_MS);
        let by = Stamp { at_ms, device: format!("unnoted-{}", sum(&job)) };
        let mut held = Self::anew(&history, job, &by);
        held.history.names = history.names;
        held
    }

    /// From a document that may have its history in it; without one it is a job of its own.
    ///
    /// # Errors
    /// As of `shape`, and where the history has not the shape of one.
    pub fn from_document(document: &Value, name: &str, by: &Stamp) -> Result<Self, FieldErrors> {
        Ok(match Self::parts(document)? {
            (job, Some(history)) => Self::relied_on(job, history),
            (job, None) => Self::new(name, job, by),
        })
    }

    /// A job and its history as this version writes them: one of an earlier version is brought up with its history.
    fn parts(document: &Value) -> Result<(Value, Option<History>), FieldErrors> {
        let document = Document::read_kept(&document.to_string())?;
        let history = document.job().mastwright_history.clone();
        let mut job = document.value();
        if let Some(members) = job.as_object_mut() {
            members.remove(HISTORY);
        }
        Ok((job, history))
    }

    pub fn job(&self) -> &Value {
        &self.job
    }

    pub fn history(&self) -> &History {
        &self.history
    }

    /// The job taken apart.
    pub(super) fn apart(&self) -> (Places, Orders) {
        places::apart(&self.job, keys_of(&self.history))
    }

    /// Says what a device is called.
    pub fn name_device(&mut self, device: &str, name: &str) {
        let names = &mut self.history.names;
        names.retain(|one| one.device != device);
        names.push(DeviceName { device: device.to_owned(), name: name.chars().take(80).collect() });
        names.sort();
    }

    pub fn into_parts(self) -> (Value, History) {
        (self.job, self.history)
    }

    /// The same after its job was changed: what is otherwise was written by this device, which had seen all that the history
    /// knows of, and so overwrites it.
    ///
    /// # Errors
    /// None that a job of the right shape gives.
    pub fn changed(&self, after: Value, by: &Stamp) -> Result<Self, FieldErrors> {
        let by = self.next(by);
        let (was, was_orders) = self.apart();
        let (now, orders) = places::apart(&after, &self.keys_after(&after, &was_orders, &by));
        let is_new = |place: &str, value: &Value| was.get(place).is_none_or(|was| !same(was, value));
        let written: Vec<(&String, &Value)> =
            now.iter().filter(|(place, value)| is_new(place, value)).collect();
        let gone: Vec<&String> = was.keys().filter(|place| !now.contains_key(*place)).collect();
        let reordered: Vec<&String> = orders
            .iter()
            .filter(|(list, order)| was_orders.get(*list) != Some(order))
            .map(|(list, _)| list)
            .collect();
        let mut table = Table::of(self);
        let touches = !written.is_empty() || !gone.is_empty() || !reordered.is_empty();
        if touches || self.job.get("log") != after.get("log") {
            table.seen.add(&by);
        }
        for (place, value) in written {
            table.write(place, Some(value.clone()), &by);
            places::above(place).for_each(|(above, is)| table.write(above, Some(is), &by));
        }
        for place in gone {
            // Of an item that is gone as a whole the fields keep their last writings, should it be wanted back.
            if places::is_in_what_is_there(place, &now) {
                table.write(place, None, &by);
                places::above(place).for_each(|(above, is)| table.write(above, Some(is), &by));
            }
        }
        for list in reordered {
            table.orders_by.insert(list.clone(), by.clone());
        }
        table.orders = orders;
        let history = table.history(&after);
        Ok(Self { job: after, history })
    }

    fn keys_after(&self, after: &Value, was: &Orders, by: &Stamp) -> Vec<String> {
        let mut count = 0;
        places::keys_after(places::keyed(&self.job), &places::keys(was), places::keyed(after), || {
            count += 1;
            format!("{}-{}-{count}", by.device, by.at_ms)
        })
    }

    /// A stamp later than all that was seen, whatever the clock says.
    pub fn next(&self, by: &Stamp) -> Stamp {
        let at_ms = by.at_ms.max(last(&self.history).saturating_add(1)).min(MOST_MS);
        Stamp { at_ms, device: by.device.clone() }
    }

    /// Both states in one, whichever is which.
    ///
    /// # Errors
    /// Where what was written at some place makes no job.
    pub fn merged(&self, other: &Self) -> Result<Self, FieldErrors> {
        Table::of(self).joined(&Table::of(other)).into_held()
    }

    /// The same state, which of every conflict of values shows what another shows, if that is one of its sides. Which one is
    /// shown is no writing: merged it is as it was before, but that a mark which only the other side wanted comes back last.
    ///
    /// # Errors
    /// Where that makes no job.
    pub fn showing(&self, like: &Self) -> Result<Self, FieldErrors> {
        Table::of(self).into_held_showing(&like.apart().0)
    }
}

/// What a browser's number holds without rounding.
const MOST_MS: u64 = 9_007_199_254_740_991;

fn last(history: &History) -> u64 {
    history.seen.iter().chain([&history.made]).map(|stamp| stamp.at_ms).max().unwrap_or(0)
}

/// Whether it is the history of this job, and every value in it can be read.
fn is_of(history: &History, job: &Value) -> bool {
    let texts = history.places.iter().flat_map(|place| &place.written).filter_map(|one| one.json.as_deref());
    history.sum == sum(job) && texts.into_iter().all(|text| serde_json::from_str::<Value>(text).is_ok())
}

/// What is in one state and another did not have, by the device that wrote it last.
pub(super) fn came(state: &Held, other: &Held) -> Vec<Came> {
    let (table, seen) = (Table::of(state), Seen::of(&other.history));
    let mut units: BTreeMap<&str, &Stamp> = BTreeMap::new();
    for (place, all) in &table.places {
        let news = all.iter().map(|one| &one.by).filter(|by| !seen.has(by));
        if let Some(by) = news.max() {
            let last = units.entry(places::unit(place)).or_insert(by);
            *last = by.max(*last);
        }
    }
    let mut found: BTreeMap<&str, Came> = BTreeMap::new();
    for (unit, by) in units {
        let of = found.entry(&by.device).or_insert_with(|| Came {
            device: by.device.clone(),
            device_name: table.name_of(&by.device).to_owned(),
            readings: 0,
            others: 0,
        });
        if places::is_reading(unit) {
            of.readings += 1;
        } else {
            of.others += 1;
        }
    }
    found.into_values().collect()
}

/// A job's places with all their writings; the log and the orders of lists beside them.
#[derive(Debug, Clone)]
pub(super) struct Table {
    name: String,
    made: Stamp,
    seen: Seen,
    names: BTreeMap<String, String>,
    pub places: BTreeMap<String, Vec<Written>>,
    orders: Orders,
    orders_by: BTreeMap<String, Stamp>,
    log: Vec<Value>,
    versions: [u64; 2],
}

const VERSIONS: [&str; 2] = ["mastwright_job", "mastwright_minor"];

impl Table {
    pub fn of(held: &Held) -> Self {
        let Held { job, history } = held;
        let (values, orders) = held.apart();
        let as_made = |value: &Value| vec![Written::new(&history.made, Some(value.clone()))];
        let mut places: BTreeMap<String, Vec<Written>> =
            values.iter().map(|(place, value)| (place.clone(), as_made(value))).collect();
        for PlaceHistory { place, written } in &history.places {
            if history.keys.is_empty() && places::is_refined(place) {
                places.extend(refined(place, written, places::whole(place, job, &orders)));
                continue;
            }
            let all = written.iter().map(|one| read(one, values.get(place))).collect();
            places.insert(place.clone(), all);
        }
        Self {
            name: history.job.clone(),
            made: history.made.clone(),
            seen: Seen::of(history),
            names: history.names.iter().map(|one| (one.device.clone(), one.name.clone())).collect(),
            places,
            orders,
            orders_by: history.orders.iter().map(|one| (one.list.clone(), one.by.clone())).collect(),
            log: job.get("log").and_then(Value::as_array).cloned().unwrap_or_default(),
            versions: VERSIONS.map(|name| job.get(name).and_then(Value::as_u64).unwrap_or_default()),
        }
    }

    /// What a device is called; empty where nobody said.
    pub fn name_of(&self, device: &str) -> &str {
        self.names.get(device).map(String::as_str).unwrap_or_default()
    }

    pub fn write(&mut self, place: &str, is: Option<Value>, by: &Stamp) {
        self.write_all(place, vec![Written::new(by, is)], by);
    }

    /// Puts several writings of one moment side by side.
    pub fn write_all(&mut self, place: &str, all: Vec<Written>, by: &Stamp) {
        self.places.insert(place.to_owned(), all);
        self.seen.add(by);
    }

    /// Puts what comes back into a list where it stood before: the order of tubes is that of the mast.
    pub fn put_back_in_order(&mut self, was: &Self, list: &str, by: &Stamp) {
        let Some(before) = was.orders.get(list) else { return };
        let now = self.orders.get(list).cloned().unwrap_or_default();
        self.orders.insert(list.to_owned(), with_others(before.clone(), &now));
        self.orders_by.insert(list.to_owned(), by.clone());
    }

    /// Whether somebody wrote it since the job was made.
    pub fn is_written(&self, one: &Written) -> bool {
        one.by != self.made
    }

    /// Puts an item at the end of its list.
    pub fn append(&mut self, list: &str, key: String, by: &Stamp) {
        self.orders.entry(list.to_owned()).or_default().push(key);
        self.orders_by.insert(list.to_owned(), by.clone());
    }

    fn joined(&self, other: &Self) -> Self {
        let mut places = BTreeMap::new();
        for place in self.places.keys().chain(other.places.keys()) {
            if !places.contains_key(place) {
                let of = |table: &Self| table.places.get(place).cloned().unwrap_or_default();
                places.insert(place.clone(), joined(&of(self), &of(other), &self.seen, &other.seen));
            }
        }
        let mut seen = self.seen.clone();
        other.seen.stamps().iter().for_each(|stamp| seen.add(stamp));
        let mut names = self.names.clone();
        for (device, name) in &other.names {
            let known = names.entry(device.clone()).or_default();
            *known = known.clone().max(name.clone());
        }
        let (orders, orders_by) = self.orders_with(other);
        Self {
            name: self.name.clone().min(other.name.clone()),
            made: self.made.clone().min(other.made.clone()),
            seen,
            names,
            places,
            orders,
            orders_by,
            log: diary::merged(&self.log, &other.log),
            versions: [0, 1].map(|i| self.versions[i].max(other.versions[i])),
        }
    }

    /// The order of every list: that of the side which knew of the other's, or which was changed last, with what only the
    /// other has behind what stands before it there.
    fn orders_with(&self, other: &Self) -> (Orders, BTreeMap<String, Stamp>) {
        let (mut orders, mut orders_by) = (Orders::new(), BTreeMap::new());
        let none = Vec::new();
        for list in self.orders.keys().chain(other.orders.keys()) {
            if orders.contains_key(list) {
                continue;
            }
            let side = |table: &Self| {
                let by = table.orders_by.get(list).unwrap_or(&table.made).clone();
                (by, table.orders.get(list).unwrap_or(&none).clone())
            };
            let (mine, its) = (side(self), side(other));
            let knows = (self.seen.has(&its.0), other.seen.has(&mine.0));
            let mine_leads = if knows.0 == knows.1 { mine > its } else { knows.0 };
            let (lead, rest) = if mine_leads { (mine, its) } else { (its, mine) };
            orders_by.insert(list.clone(), lead.0.clone().max(rest.0));
            orders.insert(list.clone(), with_others(lead.1, &rest.1));
        }
        orders_by.retain(|_, by| *by != self.made.clone().min(other.made.clone()));
        (orders, orders_by)
    }

    /// The job that the writings show, with its history.
    ///
    /// # Errors
    /// Where they make no job.
    pub fn into_held(self) -> Result<Held, FieldErrors> {
        self.into_held_showing(&Places::new())
    }

    /// The same, showing of every conflict what stood there `rather`, if that is one of its sides.
    ///
    /// # Errors
    /// As above.
    pub fn into_held_showing(mut self, rather: &Places) -> Result<Held, FieldErrors> {
        let job = Held::shape(&self.job(rather))?;
        // A list has what it shows, in its order.
        self.orders = places::apart(&job, &places::keys(&self.orders)).1;
        let history = self.history(&job);
        Ok(Held { job, history })
    }

    /// The orders of its lists are left as they stand in it.
    fn job(&mut self, rather: &Places) -> Value {
        let mut shown: Places = self
            .places
            .iter()
            .filter_map(|(place, all)| Some((place.clone(), shown(all, rather.get(place))?.is.clone()?)))
            .collect();
        let hidden: Vec<(&String, String)> = self
            .places
            .keys()
            .filter(|place| !shown.contains_key(*place))
            .filter_map(|place| Some((place, places::mark_of(place)?)))
            .collect();
        // A mark that was taken out while another device measured from it is wanted, and with it the mark that it starts from.
        loop {
            let mut orders = self.orders.clone();
            for place in shown.keys() {
                if let Some((list, key)) = places::list_and_key(place) {
                    let order = orders.entry(list.to_owned()).or_default();
                    if !order.contains(&key) {
                        order.push(key);
                    }
                }
            }
            let mut job = places::together(&shown, &orders);
            let wanted: Vec<&String> = hidden
                .iter()
                .filter(|(place, mark)| !shown.contains_key(*place) && places::is_started_from(&job, mark))
                .map(|(place, _)| *place)
                .collect();
            if wanted.is_empty() {
                self.orders = orders;
                let keyed = self.orders.entry(places::KEYED.to_owned()).or_default();
                keyed.retain(|key| shown.contains_key(&format!("{}/{key}", places::KEYED)));
                if let Some(members) = job.as_object_mut() {
                    for (name, version) in VERSIONS.iter().zip(self.versions) {
                        members.insert((*name).to_owned(), version.into());
                    }
                    members.insert("log".to_owned(), Value::Array(self.log.clone()));
                }
                return job;
            }
            for place in wanted {
                shown.insert(place.clone(), places::there());
            }
        }
    }

    /// The history beside this job: of every place what the job itself does not say.
    fn history(&self, job: &Value) -> History {
        let (values, orders) = places::apart(job, &places::keys(&self.orders));
        let untouched = |all: &[Written], value: Option<&Value>| {
            matches!(all, [one] if one.by == self.made)
                && all[0].is.as_ref().zip(value).is_some_and(|(is, value)| same(is, value))
        };
        let places = self.places.iter().filter(|(place, all)| !untouched(all, values.get(*place))).map(
            |(place, all)| PlaceHistory {
                place: place.clone(),
                written: all.iter().map(|one| write(one, values.get(place))).collect(),
            },
        );
        History {
            job: self.name.clone(),
            made: self.made.clone(),
            seen: self.seen.stamps(),
            names: self
                .names
                .iter()
                .map(|(device, name)| DeviceName { device: device.clone(), name: name.clone() })
                .collect(),
            places: places.collect(),
            orders: self
                .orders_by
                .iter()
                .map(|(list, by)| ListOrder { list: list.clone(), by: by.clone() })
                .collect(),
            keys: keys_beside(&orders),
            sum: sum(job),
        }
    }
}

/// The keys of the list whose items have none in the job, as the history keeps them.
fn keys_of(history: &History) -> &[String] {
    history.keys.iter().find(|one| one.list == places::KEYED).map_or(&[], |one| &one.keys)
}

fn keys_beside(orders: &Orders) -> Vec<ListKeys> {
    vec![ListKeys { list: places::KEYED.to_owned(), keys: places::keys(orders) }]
}

/// What a history from before keys says of a place that is several now: each of them was written when the whole was.
fn refined(place: &str, written: &[Writing], in_job: Option<&Value>) -> BTreeMap<String, Vec<Written>> {
    let wholes: Vec<(Written, Places)> = written
        .iter()
        .map(|one| read(one, in_job))
        .map(|one| {
            let parts = one.is.as_ref().map(|whole| places::refined(place, whole)).unwrap_or_default();
            (one, parts)
        })
        .collect();
    let all: BTreeSet<&String> = wholes.iter().flat_map(|(_, parts)| parts.keys()).collect();
    let of = |part: &String| {
        let written =
            wholes.iter().map(|(one, parts)| Written { is: parts.get(part).cloned(), ..one.clone() });
        written.collect()
    };
    all.into_iter().map(|part| (part.clone(), of(part))).collect()
}

fn with_others(mut lead: Vec<String>, rest: &[String]) -> Vec<String> {
    let known: BTreeSet<String> = lead.iter().cloned().collect();
    let mut after = 0;
    for key in rest {
        if known.contains(key) {
            after = lead.iter().position(|one| one == key).map_or(lead.len(), |at| at + 1);
        } else {
            lead.insert(after.min(lead.len()), key.clone());
            after += 1;
        }
    }
    lead
}

fn read(one: &Writing, in_job: Option<&Value>) -> Written {
    let is = match &one.json {
        _ if one.gone => None,
        Some(json) => serde_json::from_str(json).ok(),
        None => in_job.cloned(),
    };
    Written { by: one.by.clone(), first: one.first.clone(), is }
}

fn write(one: &Written, in_job: Option<&Value>) -> Writing {
    let is_in_job = one.is.as_ref().zip(in_job).is_some_and(|(is, value)| same(is, value));
    let json = one.is.as_ref().filter(|_| !is_in_job).map(Value::to_string);
    Writing { by: one.by.clone(), first: one.first.clone(), gone: one.is.is_none(), json }
}
