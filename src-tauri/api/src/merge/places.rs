//! A job as a table of places and back. A place is what one hand writes at one time: a field, or a reading as a whole, for half
//! of one reading and half of another is a reading that nobody took. What has no id of its own in the job (a tube) is told from
//! the others by a key that the history keeps beside it (`keys`); what has neither (an outline's points) is one place.

use std::collections::{BTreeMap, BTreeSet};

pub use mastwright_engine::job::canonical;
use mastwright_engine::pointer;
use serde_json::{Map, Value, json};

/// Groups of fields that are looked into: each of their fields is a place.
const GROUPS: [&str; 20] = [
    "",
    pointer!(yard),
    pointer!(yard.instruments),
    pointer!(rig),
    pointer!(rig.base),
    pointer!(rig.stakes),
    pointer!(placement),
    pointer!(raising),
    pointer!(pegging),
    pointer!(cards),
    pointer!(tensions),
    pointer!(season),
    pointer!(lights),
    pointer!(lights.strand),
    pointer!(lights.circuit),
    pointer!(lights.lead),
    pointer!(workshop),
    pointer!(workshop.lift),
    pointer!(workshop.base),
    pointer!(wind),
];

/// The same of groups that may not be there: whether they are is a place of its own.
const MAYBE: [&str; 4] =
    [pointer!(as_built), pointer!(rig.strands), pointer!(rig.topper), pointer!(yard.place)];

/// What a list's items are told apart by, and whether each is one place (a reading) or a group of fields.
struct List {
    at: &'static str,
    /// The name of the field; empty where they have none, but keys beside the job.
    id: &'static str,
    is_reading: bool,
}

/// The list whose items have keys beside the job. A tube is one place: half of one and half of another is a tube that nobody
/// has.
pub const KEYED: &str = pointer!(rig.tubes);

/// A field of a list's items that is of one of several kinds, each with fields of its own: the kind is a place, and so is each
/// field, under the name of its kind. Who writes one of them says of which kind the thing is.
struct OfKinds {
    list: &'static str,
    field: &'static str,
    kind: &'static str,
}

const OF_KINDS: OfKinds = OfKinds { list: pointer!(yard.obstacles), field: "shape", kind: "kind" };

/// A value and how sure it is: one reading, under the name of the first.
const PAIR: [&str; 2] = ["height_m", "height_sigma_m"];

const LISTS: [List; 24] = [
    List { at: KEYED, id: "", is_reading: true },
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
    List { at: pointer!(pegging.done), id: "peg", is_reading: true },
    List { at: pointer!(cards.done), id: "card", is_reading: true },
    List { at: pointer!(tensions.readings), id: "id", is_reading: true },
    List { at: pointer!(season.rounds), id: "id", is_reading: true },
    List { at: pointer!(season.packed), id: "part", is_reading: true },
    List { at: pointer!(season.lessons), id: "id", is_reading: true },
    List { at: pointer!(lights.tested), id: "strand", is_reading: true },
    List { at: pointer!(pegging.tapes), id: "id", is_reading: true },
    List { at: pointer!(workshop.done), id: "part", is_reading: true },
    List { at: pointer!(workshop.made), id: "part", is_reading: true },
    List { at: pointer!(workshop.stocks), id: "id", is_reading: true },
    List { at: pointer!(standpoints), id: "id", is_reading: false },
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

/// The job taken apart. `keys` are those of the list whose items have none of their own, in its order; where they are
/// fewer the rest is numbered.
pub fn apart(job: &Value, keys: &[String]) -> (Places, Orders) {
    let mut apart = Apart { keys, places: Places::new(), orders: Orders::new() };
    apart.visit("", job);
    (apart.places, apart.orders)
}

struct Apart<'a> {
    keys: &'a [String],
    places: Places,
    orders: Orders,
}

impl Apart<'_> {
    fn visit(&mut self, at: &str, value: &Value) {
        if APART.contains(&at) {
            return;
        }
        if let Some(list) = LISTS.iter().find(|list| list.at == at) {
            return self.items(list, value);
        }
        match value {
            Value::Object(members) if GROUPS.contains(&at) => self.fields(at, members),
            Value::Object(members) if MAYBE.contains(&at) => {
                self.put(at, there());
                self.fields(at, members);
            }
            Value::Null if MAYBE.contains(&at) => {}
            other => self.put(at, other.clone()),
        }
    }

    fn fields(&mut self, at: &str, members: &Map<String, Value>) {
        for (name, value) in members {
            self.visit(&format!("{at}/{}", escaped(name)), value);
        }
    }

    fn items(&mut self, list: &List, value: &Value) {
        let mut order = Vec::new();
        let mut taken = BTreeSet::new();
        for (i, item) in value.as_array().into_iter().flatten().enumerate() {
            let number = || i.to_string();
            let key = match list.id {
                "" => own_key(&self.keys.get(i).cloned().unwrap_or_else(number), &mut taken),
                id => own_key(item.get(id).and_then(Value::as_str).unwrap_or_default(), &mut taken),
            };
            let at = format!("{}/{key}", list.at);
            order.push(key);
            match item {
                Value::Object(members) if !list.is_reading => {
                    self.put(&at, there());
                    for (name, value) in members {
                        self.member(list, &at, name, value);
                    }
                }
                item => self.put(&at, item.clone()),
            }
        }
        self.orders.insert(list.at.to_owned(), order);
    }

    fn member(&mut self, list: &List, item: &str, name: &str, value: &Value) {
        let at = format!("{item}/{}", escaped(name));
        if list.at != OF_KINDS.list || name != OF_KINDS.field {
            return self.put(&at, value.clone());
        }
        self.places.extend(of_kinds(&at, value));
    }

    fn put(&mut self, at: &str, value: Value) {
        self.places.insert(at.to_owned(), value);
    }
}

/// The places of a thing of one of several kinds; one place where it is nothing of that sort.
fn of_kinds(at: &str, value: &Value) -> Places {
    let kind = value.get(OF_KINDS.kind).and_then(Value::as_str);
    let (Some(members), Some(kind)) = (value.as_object(), kind) else {
        return [(at.to_owned(), value.clone())].into();
    };
    let mut places: Places = [(at.to_owned(), kind.into())].into();
    let mut pair = Map::new();
    for (name, value) in members.iter().filter(|(name, _)| *name != OF_KINDS.kind) {
        if PAIR.contains(&name.as_str()) {
            pair.insert(name.clone(), value.clone());
        } else {
            places.insert(format!("{at}/{}/{}", escaped(kind), escaped(name)), value.clone());
        }
    }
    if !pair.is_empty() {
        places.insert(format!("{at}/{}/{}", escaped(kind), PAIR[0]), Value::Object(pair));
    }
    places
}

/// What the places of a thing of kinds say, put together.
fn of_one_kind(at: &str, kind: &Value, places: &Places) -> Value {
    let Some(name) = kind.as_str() else { return kind.clone() };
    let mut members = Map::from_iter([(OF_KINDS.kind.to_owned(), kind.clone())]);
    let under = format!("{at}/{}/", escaped(name));
    for (place, value) in places.range(under.clone()..).take_while(|(place, _)| place.starts_with(&under)) {
        let name = unescaped(&place[under.len()..]);
        match value {
            Value::Object(pair) if name == PAIR[0] => members.extend(pair.clone()),
            value => drop(members.insert(name, value.clone())),
        }
    }
    Value::Object(members)
}

/// What histories before keys had as one place, and is several now: their places, with what the value gives them.
pub fn refined(place: &str, whole: &Value) -> Places {
    if place != KEYED {
        return of_kinds(place, whole);
    }
    let items = whole.as_array().into_iter().flatten().enumerate();
    items.map(|(i, item)| (format!("{KEYED}/@{i}"), item.clone())).collect()
}

/// Whether it is such a place; and what stands there in a job.
pub fn is_refined(place: &str) -> bool {
    place == KEYED || kinds_place(place) == Some(place)
}

pub fn whole<'a>(place: &str, job: &'a Value, orders: &Orders) -> Option<&'a Value> {
    if place == KEYED {
        return job.pointer(place);
    }
    let (list, key) = list_of(place.rsplit_once('/')?.0)?;
    let at = orders.get(list.at)?.iter().position(|one| one == key)?;
    job.pointer(&format!("{}/{at}/{}", list.at, OF_KINDS.field))
}

/// The place of the kind that a place is of or under.
fn kinds_place(place: &str) -> Option<&str> {
    let key = place.strip_prefix(OF_KINDS.list)?.strip_prefix("/@")?;
    let item = place.len() - key.len() + key.find('/')?;
    let end = place[item + 1..].find('/').map_or(place.len(), |at| item + 1 + at);
    (&place[item + 1..end] == OF_KINDS.field).then(|| &place[..end])
}

/// The keys of a list's items after it was changed: an item that is the same keeps its own, wherever it stands; of what stood
/// between two that stayed and what stands there now each in its order is taken for the same, changed; `fresh` makes the rest.
pub fn keys_after(
    before: &[Value],
    keys: &[String],
    after: &[Value],
    mut fresh: impl FnMut() -> String,
) -> Vec<String> {
    let alike = |i: usize, j: usize| same(&before[i], &after[j]);
    let mut of: Vec<Option<usize>> = vec![None; after.len()];
    let mut used = vec![false; before.len()];
    let stayed = common(before.len(), after.len(), &alike);
    for &(i, j) in &stayed {
        (of[j], used[i]) = (Some(i), true);
    }
    // Moved.
    for (j, of) in of.iter_mut().enumerate().filter(|(_, of)| of.is_none()) {
        if let Some(i) = (0..before.len()).find(|&i| !used[i] && alike(i, j)) {
            (*of, used[i]) = (Some(i), true);
        }
    }
    let ends = stayed.iter().copied().chain([(before.len(), after.len())]);
    let (mut i, mut j) = (0, 0);
    for (end_i, end_j) in ends {
        let left: Vec<usize> = (i..end_i).filter(|&i| !used[i]).collect();
        let new = (j..end_j).filter(|&j| of[j].is_none()).collect::<Vec<_>>();
        for (i, j) in left.into_iter().zip(new) {
            (of[j], used[i]) = (Some(i), true);
        }
        (i, j) = (end_i + 1, end_j + 1);
    }
    of.into_iter().map(|of| of.and_then(|i| keys.get(i).cloned()).unwrap_or_else(&mut fresh)).collect()
}

/// The longest sequence of items that both lists have in one order (by dynamic programming: Wagner and Fischer 1974, J. ACM
/// 21(1), 168-173; from memory).
fn common(n: usize, m: usize, alike: &impl Fn(usize, usize) -> bool) -> Vec<(usize, usize)> {
    let mut longest = vec![vec![0_usize; m + 1]; n + 1];
    for i in (0..n).rev() {
        for j in (0..m).rev() {
            longest[i][j] = if alike(i, j) {
                longest[i + 1][j + 1] + 1
            } else {
                longest[i + 1][j].max(longest[i][j + 1])
            };
        }
    }
    let (mut i, mut j, mut found) = (0, 0, Vec::new());
    while i < n && j < m {
        if alike(i, j) {
            found.push((i, j));
            (i, j) = (i + 1, j + 1);
        } else if longest[i + 1][j] >= longest[i][j + 1] {
            i += 1;
        } else {
            j += 1;
        }
    }
    found
}

/// The items of the list that has keys beside the job.
pub fn keyed(job: &Value) -> &[Value] {
    job.pointer(KEYED).and_then(Value::as_array).map_or(&[], Vec::as_slice)
}

/// Their keys as they stand beside the job.
pub fn keys(orders: &Orders) -> Vec<String> {
    let order = orders.get(KEYED).map_or(&[][..], Vec::as_slice);
    order.iter().map(|key| unescaped(key.strip_prefix('@').unwrap_or(key))).collect()
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

/// The groups and items that a place is in, each with what says that it is there, or of which kind: a change in it says
/// that they are still wanted.
pub fn above(place: &str) -> impl Iterator<Item = (&str, Value)> {
    place.match_indices('/').filter_map(move |(end, _)| {
        let above = &place[..end];
        if kinds_place(above) == Some(above) {
            let kind = place[end + 1..].split('/').next().unwrap_or_default();
            return Some((above, unescaped(kind).into()));
        }
        (MAYBE.contains(&above) || is_item_group(above)).then(|| (above, there()))
    })
}

/// Whether all that a place is in is there, and of its kind.
pub fn is_in_what_is_there(place: &str, places: &Places) -> bool {
    above(place).all(|(above, is)| places.get(above) == Some(&is))
}

/// Whether the place says of a group or an item that it is there.
pub fn is_there_place(place: &str) -> bool {
    MAYBE.contains(&place) || is_item_group(place)
}

/// Whether the place says of which kind a thing is.
pub fn is_of_kinds(place: &str) -> bool {
    kinds_place(place) == Some(place)
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

/// What a writing there is a part of, for people: the item that the place is in, or the place itself.
pub fn unit(place: &str) -> &str {
    let in_item = |list: &List| {
        let key = place.strip_prefix(list.at)?.strip_prefix('/')?;
        key.starts_with('@').then(|| place.len() - key.len() + key.find('/').unwrap_or(key.len()))
    };
    LISTS.iter().find_map(in_item).map_or(place, |end| &place[..end])
}

/// Whether the place of an item is that of a reading.
pub fn is_reading(place: &str) -> bool {
    list_of(place).is_some_and(|(list, _)| list.is_reading)
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
        if is_in_what_is_there(place, places) && !is_in_item(place) && !is_there_place(place) {
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
    let mut members = Map::new();
    for (place, value) in fields {
        let value = match kinds_place(place) {
            Some(of) if of == place => of_one_kind(place, value, places),
            Some(_) => continue,
            None => value.clone(),
        };
        members.insert(unescaped(&place[under.len()..]), value);
    }
    Some(Value::Object(members))
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
