//! Cramped yards by chance, for searches of a place: the yardstick's mast among things that stand anywhere.

use mastwright_engine::job::{Job, read_job_value};
use serde_json::{Value, json};

use crate::random_jobs::Chance;
use crate::yardstick::yardstick;

/// A yard of a seed. Some slope as a plane, some are bumpy; some have a wire, some a pipe.
///
/// # Panics
/// Where the document made is not a legal one: that is a fault of this file.
pub fn cramped(seed: u64) -> Job {
    let mut chance = Chance::new(seed);
    let mut job = serde_json::to_value(yardstick()).expect("a job is JSON");
    let size_m = [chance.between(12.0, 26.0), chance.between(12.0, 26.0)];
    let yard = &mut job["yard"];
    yard["bearings"] = json!({ "kind": "true" });
    yard["marks"] = json!([
        { "id": "A", "name": "A", "at": { "by": "origin" } },
        { "id": "B", "name": "B", "at": at([size_m[0], 0.0]) },
    ]);
    yard["measurements"] = json!([]);
    let slopes = [("s1", 0.0), ("s2", 90.0), ("s3", 45.0)];
    yard["slopes"] = slopes
        .map(|(id, bearing_deg)| {
            json!({ "id": id, "bearing_deg": bearing_deg, "slope_deg": chance.between(-7.0, 7.0) })
        })
        .to_vec()
        .into();
    yard["spot_heights"] = spots(&mut chance, size_m);
    yard["boundary"] = json!({ "outline": outline(&mut chance, size_m) });
    let count = chance.whole(2, 9);
    yard["obstacles"] = (0..count).map(|number| thing(&mut chance, number, size_m)).collect();
    yard["overhead_lines"] = wires(&mut chance, size_m);
    yard["buried_services"] = pipes(&mut chance, size_m);
    yard["underground"] = json!({ "kind": "marked" });
    yard["overhead"] = json!({ "kind": "none_within", "distance_m": 60.0 });
    let rule = match chance.whole(0, 3) {
        0 => json!({ "rule": "equal_angle", "angle_deg": 47.0 }),
        1 => json!({ "rule": "equal_tape", "tape_m": 3.6 }),
        _ => json!({ "rule": "equal_radius", "radius_m": 3.4 }),
    };
    job["rig"]["guy_levels"][0]["anchor_layout"] = rule;
    job["rig"]["guy_levels"][0]["count"] = json!(chance.one_of(&[3, 3, 4]));
    job["placement"]["mast"] = at([size_m[0] / 2.0, size_m[1] / 2.0]);
    read_job_value(&job).unwrap_or_else(|errors| panic!("yard {seed}: {errors}"))
}

pub fn at([east_m, north_m]: [f64; 2]) -> Value {
    json!({ "by": "coordinates", "east_m": east_m, "north_m": north_m })
}

fn anywhere(chance: &mut Chance, size_m: [f64; 2]) -> [f64; 2] {
    size_m.map(|size| chance.between(0.0, size))
}

/// Four corners, none where it would be in a square.
fn outline(chance: &mut Chance, [width_m, depth_m]: [f64; 2]) -> Vec<Value> {
    let corners = [[0.0, 0.0], [width_m, 0.0], [width_m, depth_m], [0.0, depth_m]];
    corners.map(|corner| at(corner.map(|x| x + chance.between(-1.5, 1.5)))).to_vec()
}

fn spots(chance: &mut Chance, size_m: [f64; 2]) -> Value {
    if !chance.in_so_many(0.4) {
        return json!([]);
    }
    let spot = |number: u32| {
        let place = [f64::from(number % 4) / 3.0 * size_m[0], f64::from(number / 4) / 3.0 * size_m[1]];
        json!({ "id": format!("h{number}"), "at": at(place), "height_m": chance.between(-0.6, 0.6) })
    };
    (0..16).map(spot).collect()
}

fn thing(chance: &mut Chance, number: u32, size_m: [f64; 2]) -> Value {
    let [x, y] = anywhere(chance, size_m);
    let corners = |w: f64, d: f64| json!([at([x, y]), at([x + w, y]), at([x + w, y + d]), at([x, y + d])]);
    let (w, d) = (chance.between(1.0, 4.0), chance.between(1.0, 4.0));
    let other = anywhere(chance, size_m);
    let shape = match chance.whole(0, 5) {
        0 => json!({
            "kind": "tree", "at": at([x, y]), "trunk_radius_m": 0.2, "crown_radius_m": chance.between(0.5, 2.5),
            "crown_base_m": chance.between(1.0, 9.0), "height_m": 10.0,
        }),
        1 => json!({ "kind": "building", "outline": corners(w, d), "height_m": chance.between(2.0, 6.0) }),
        2 => json!({
            "kind": "barrier", "what": "wall", "line": [at([x, y]), at(other)], "thickness_m": 0.2,
            "height_m": chance.between(0.5, 2.0),
        }),
        3 => {
            json!({ "kind": "post", "at": at([x, y]), "radius_m": 0.1, "height_m": chance.between(1.0, 5.0) })
        }
        4 => json!({
            "kind": "path", "used_by": "foot", "line": [at([x, y]), at(other)],
            "width_m": chance.between(0.6, 1.5),
        }),
        _ => json!({ "kind": "keep_off", "outline": corners(w, d) }),
    };
    let keep_off_m = if chance.in_so_many(0.5) { json!(chance.between(0.0, 0.8)) } else { Value::Null };
    json!({ "id": format!("t{number}"), "name": format!("Thing {number}"), "shape": shape, "keep_off_m": keep_off_m })
}

fn wires(chance: &mut Chance, [width_m, depth_m]: [f64; 2]) -> Value {
    if !chance.in_so_many(0.3) {
        return json!([]);
    }
    let off_m = chance.between(2.0, 12.0);
    let supports = [[-5.0, depth_m + off_m], [width_m + 5.0, depth_m + off_m]];
    let supports = supports.map(|place| json!({ "at": at(place), "wire_height_m": 6.5 }));
    json!([{ "id": "wire", "name": "Wire", "voltage_kv": 0.24, "supports": supports, "sag_m": 0.3 }])
}

fn pipes(chance: &mut Chance, size_m: [f64; 2]) -> Value {
    if !chance.in_so_many(0.5) {
        return json!([]);
    }
    let ends = [anywhere(chance, size_m), anywhere(chance, size_m)].map(at);
    json!([{
        "id": "pipe", "name": "Pipe", "carries": "potable_water", "located": "marked_by_utility", "line": ends,
        "width_m": 0.05, "tolerance_m": chance.between(0.4, 1.0),
    }])
}
