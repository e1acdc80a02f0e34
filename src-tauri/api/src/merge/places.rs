//! A job as a table of places and back. A place is what one hand writes at one time: a field, or a reading as a whole, for half
//! of one reading and half of another is a reading that nobody took.

use std::collections::{BTreeMap, BTreeSet};

pub use mastwright_engine::job::canonical;
use mastwright_engine::pointer;
use serde_json::{Map, Value, json};

/// Groups of fields that are looked into: each of their fields is a place.
const GROUPS: [&str; 8] = [
    "",
    pointer!(yard),
    pointer!(yard.instruments),
    pointer!(rig),
    pointer!(rig.base),
    pointer!(rig.stakes),
    pointer!(placement),
    pointer!(wind),
];

/// The same of groups that may not be there: whether they are is a place of its own.
const MAYBE: [&str; 4] =
    [pointer!(as_built), pointer!(rig.strands), pointer!(rig.topper), pointer!(yard.place)];

/// What a list's items are told apart by, and whether each is one place (a reading) or a group of fields.
struct List {
    at: &'static str,
    id: &'static str,
    is_reading: bool,
}

const LISTS: [List; 11] = [
    List { at: pointer!(yard.marks), id: "id", is_reading: false },
    List { at: pointer!(yard.measurements), id: "id", is_reading: true },
    List { at: pointer!(yard.slopes), id: "id", is_reading: true },
    List { at: pointer!(yard.spot_heights), id: "id", is_reading: true },
    List { at: pointer!(yard.obstacles), id: "id", is_reading: false },
    List { at: pointer!(yard.overhead_lines), id: "id", is_reading: false },
    List { at: pointer!(yard.buried_services), id: "id", is_reading: false },
    List { at: pointer!(rig.guy_levels), id: "id", is_reading: false },
    List { at: pointer!(as_built?.anchors), id: "guy", is_reading: true },
    List { at: pointer!(as_built?.legs), id: "leg", is_reading: true },
    List { at: pointer!(photos), id: "id", is_reading: false },
];

/// What is no place: the versions go by the larger number, the log by its entries.
const APART: [&str; 4] = ["/mastwright_job", "/mastwright_minor", "/log", "/mastwright_history"];

pub type Places = BTreeMap<String, Value>;
/// The ids of each list's items in their order, as they stand in places.
pub type Orders = BTreeMap<String, Vec<String>>;

/// What says of a group or an item that it is there.
pub fn there() -> Value {
    Value::Bool(true)
}

/// The job taken apart.
pub fn apart(job: &Value) -> (Places, Orders) {
    let (mut places, mut orders) = (Places::new(), Orders::new());
    visit("", job, &mut places, &mut orders);
    (places, orders)
}

fn visit(at: &str, value: &Value, places: &mut Places, orders: &mut Orders) {
    if APART.contains(&at) {
        return;
    }
    if let Some(list) = LISTS.iter().find(|list| list.at == at) {
        return items(list, value, places, orders);
    }
    match value {
        Value::Object(members) if GROUPS.contains(&at) => fields(at, members, places, orders),
        Value::Object(members) if MAYBE.contains(&at) => {
            places.insert(at.to_owned(), there());
            fields(at, members, places, orders);
        }
        Value::Null if MAYBE.contains(&at) => {}
        other => drop(places.insert(at.to_owned(), other.clone())),
    }
}

fn fields(at: &str, members: &Map<String, Value>, places: &mut Places, orders: &mut Orders) {
    for (name, value) in members {
        visit(&format!("{at}/{}", escaped(name)), value, places, orders);
    }
}

fn items(list: &List, value: &Value, places: &mut Places, orders: &mut Orders) {
    let mut order = Vec::new();
    let mut taken = BTreeSet::new();
    for item in value.as_array().into_iter().flatten() {
        let id = item.get(list.id).and_then(Value::as_str).unwrap_or_default();
        let key = own_key(id, &mut taken);
        let at = format!("{}/{key}", list.at);
        order.push(key);
        match item {
            Value::Object(members) if !list.is_reading => {
                places.insert(at.clone(), there());
                for (name, value) in members {
                    places.insert(format!("{at}/{}", escaped(name)), value.clone());
                }
            }
            item => drop(places.insert(at, item.clone())),
        }
    }
    orders.insert(list.at.to_owned(), order);
}

/// Ids are unique in a job that can be planned; in one under way the second of an id is told from the first.
fn own_key(id: &str, taken: &mut BTreeSet<String>) -> String {
    let first = format!("@{}", escaped(id));
    let mut key = first.clone();
    let mut count = 1;
    while !taken.insert(key.clone()) {
        count += 1;
        key = format!("{first}~2{count}");
    }
    key
}

/// RFC 6901, 3: `~0` is a tilde and `~1` a slash.
fn escaped(name: &str) -> String {
    name.replace('~', "~0").replace('/', "~1")
}

pub fn unescaped(step: &str) -> String {
    step.replace("~1", "/").replace("~0", "~")
}

/// The groups and items that a place is in, the nearest first: a change in it says that they are still wanted.
pub fn above(place: &str) -> impl Iterator<Item = &str> {
    place
        .match_indices('/')
        .map(move |(end, _)| &place[..end])
        .filter(|above| MAYBE.contains(above) || is_item_group(above))
}

/// Whether the place says of a group or an item that it is there.
pub fn is_there_place(place: &str) -> bool {
    MAYBE.contains(&place) || is_item_group(place)
}

/// Whether it is an item of a list, and so may be there twice.
pub fn is_item(place: &str) -> bool {
    list_of(place).is_some()
}

fn list_of(place: &str) -> Option<(&'static List, &str)> {
    let (at, key) = place.rsplit_once('/')?;
    let list = LISTS.iter().find(|list| list.at == at)?;
    key.starts_with('@').then_some((list, key))
}

fn is_item_group(place: &str) -> bool {
    list_of(place).is_some_and(|(list, _)| !list.is_reading)
}

fn is_in_item(place: &str) -> bool {
    place.match_indices("/@").any(|(end, _)| LISTS.iter().any(|list| list.at == &place[..end]))
}

/// The id of the mark whose place this is.
pub fn mark_of(place: &str) -> Option<String> {
    let (list, key) = list_of(place)?;
    (list.at == pointer!(yard.marks)).then(|| unescaped(&key[1..]))
}

/// The name of the field by which an item is told from others.
pub fn id_field(place: &str) -> Option<&'static str> {
    list_of(place).map(|(list, _)| list.id)
}

/// The list an item is in, and its key there.
pub fn list_and_key(place: &str) -> Option<(&'static str, String)> {
    list_of(place).map(|(list, key)| (list.at, key.to_owned()))
}

/// The key of an item with this id.
pub fn key_of(id: &str) -> String {
    format!("@{}", escaped(id))
}

/// The job put together again. `orders` names the items of each list in their order; those whose group is not there are
/// left out.
pub fn together(places: &Places, orders: &Orders) -> Value {
    let mut job = json!({});
    for group in GROUPS.iter().filter(|group| !group.is_empty()) {
        set(&mut job, group, json!({}));
    }
    for group in MAYBE {
        let is_there = places.contains_key(group);
        set(&mut job, group, if is_there { json!({}) } else { Value::Null });
    }
    for (place, value) in places {
        let is_hidden = above(place).any(|above| !places.contains_key(above));
        if !is_hidden && !is_in_item(place) && !is_there_place(place) {
            set(&mut job, place, value.clone());
        }
    }
    for list in &LISTS {
        if job.pointer(list.at.rsplit_once('/').map_or("", |(group, _)| group)).is_none_or(Value::is_null) {
            continue;
        }
        let order = orders.get(list.at).map(Vec::as_slice).unwrap_or_default();
        let items: Vec<Value> = order.iter().filter_map(|key| item(list, key, places)).collect();
        set(&mut job, list.at, Value::Array(items));
    }
    job
}

fn item(list: &List, key: &str, places: &Places) -> Option<Value> {
    let at = format!("{}/{key}", list.at);
    let there = places.get(&at)?;
    if list.is_reading {
        return Some(there.clone());
    }
    let under = format!("{at}/");
    let fields = places.range(under.clone()..).take_while(|(place, _)| place.starts_with(&under));
    Some(fields.map(|(place, value)| (unescaped(&place[under.len()..]), value.clone())).collect())
}

fn set(job: &mut Value, at: &str, value: Value) {
    let Some((group, name)) = at.rsplit_once('/') else { return };
    if let Some(members) = job.pointer_mut(group).and_then(Value::as_object_mut) {
        members.insert(unescaped(name), value);
    }
}

/// Whether anything of the job starts from a mark of this id.
pub fn is_started_from(job: &Value, mark: &str) -> bool {
    match job {
        Value::Object(members) => members.iter().any(|(name, value)| {
            (is_start(name) && value.as_str() == Some(mark))
                || (name != "log" && name != "mastwright_history" && is_started_from(value, mark))
        }),
        Value::Array(items) => items.iter().any(|item| is_started_from(item, mark)),
        _ => false,
    }
}

/// The fields that name a mark (`PointFix::starts`, measurements between marks, the baseline).
fn is_start(name: &str) -> bool {
    matches!(name, "from" | "to" | "toward" | "from_a" | "from_b" | "from_c")
}

/// Two values that say the same: `3` and `3.0` are one number (RFC 8259, 6), as browsers write them alike.
pub fn same(a: &Value, b: &Value) -> bool {
    canonical(a) == canonical(b)
}
