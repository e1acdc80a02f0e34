//! Random jobs that the reader lets through: short and tall masts, stout and slim ones, stiff and soft rope, level and
//! steep ground. The same seed gives the same job everywhere.

use mastwright_engine::job::{Job, read_job_value};
use serde_json::{Value, json};

/// The job of a seed. Everything about it that a gust limit needs is known.
///
/// # Panics
/// Where the document made is not a legal one: that is a fault of this file.
pub fn random_job(seed: u64) -> Job {
    let mut chance = Chance::new(seed);
    let document = document(&mut chance);
    read_job_value(&document).unwrap_or_else(|errors| panic!("job {seed}: {errors}\n{document:#}"))
}

/// Numbers by chance: splitmix64.
pub struct Chance(u64);

impl Chance {
    pub fn new(seed: u64) -> Self {
        Self(seed.wrapping_mul(0x9E37_79B9_7F4A_7C15) ^ 0x5DEE_CE66_D1CE_4E5B)
    }

    /// From 0 up to 1.
    pub fn share(&mut self) -> f64 {
        self.0 = self.0.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        ((z ^ (z >> 31)) >> 11) as f64 / (1u64 << 53) as f64
    }

    pub fn between(&mut self, least: f64, most: f64) -> f64 {
        least + (most - least) * self.share()
    }

    /// As likely in each doubling.
    pub fn scaled(&mut self, least: f64, most: f64) -> f64 {
        least * (most / least).powf(self.share())
    }

    pub fn whole(&mut self, least: u32, most: u32) -> u32 {
        (least + (f64::from(most - least + 1) * self.share()) as u32).min(most)
    }

    pub fn one_of<T: Clone>(&mut self, all: &[T]) -> T {
        all[self.whole(0, all.len() as u32 - 1) as usize].clone()
    }

    pub fn in_so_many(&mut self, share: f64) -> bool {
        self.share() < share
    }
}

/// To a tenth of a millimetre and the like, as a person would enter it.
fn rounded(value: f64) -> f64 {
    (value * 1e4).round() / 1e4
}

/// The mast's tubes, with its raised height and that at which it stands lowered.
struct Tubes {
    document: Value,
    top_m: f64,
}

fn tubes(chance: &mut Chance) -> Tubes {
    let count = chance.one_of(&[1, 2, 2, 2, 3, 3, 4]);
    let length_m = chance.scaled(0.8, 6.0);
    let mut outside_mm = rounded(chance.scaled(22.0, 115.0));
    let mut wall_mm = rounded((outside_mm * chance.scaled(0.03, 0.12)).clamp(1.2, 10.0));
    let (mut tubes, mut top_m) = (Vec::new(), 0.0);
    for index in 0..count {
        let own_m = rounded(length_m * chance.between(0.8, 1.0));
        let threaded = index > 0 && chance.in_so_many(0.1);
        let overlap_m = rounded(own_m * chance.between(0.1, 0.35));
        if index > 0 && !threaded {
            let inside_mm = outside_mm - 2.0 * wall_mm;
            outside_mm = rounded(inside_mm - chance.between(0.3, 4.0));
            wall_mm = rounded((outside_mm * chance.scaled(0.04, 0.12)).clamp(1.0, 10.0));
        }
        if outside_mm < 12.0 {
            break;
        }
        let overlap_m = if index == 0 || threaded { 0.0 } else { overlap_m };
        top_m += own_m - overlap_m;
        tubes.push(json!({
            "name": format!("Tube {}", index + 1),
            "section": { "kind": "measured", "outside_mm": outside_mm, "wall_mm": wall_mm },
            "length_m": own_m,
            "overlap_m": overlap_m,
            "joint": if threaded { "threaded" } else { "telescoped" },
            "pin_hole_mm": if index > 0 && !threaded { json!(rounded(chance.between(6.0, 12.0))) } else { Value::Null },
            "yield_mpa": chance.one_of(&[json!(205.0), json!(235.0), json!(355.0)]),
            "calliper": { "coupling_mm": if threaded { json!(rounded(1.25 * outside_mm)) } else { Value::Null } },
        }));
    }
    Tubes { document: json!(tubes), top_m }
}

fn level(chance: &mut Chance, id: &str, attach_m: f64, radius_m: f64) -> Value {
    let steel = chance.in_so_many(0.15);
    let diameter_mm = rounded(if steel { chance.scaled(2.0, 6.0) } else { chance.scaled(4.0, 14.0) });
    let area = diameter_mm * diameter_mm;
    let (strength_n, mass) = if steel { (500.0 * area, 4.0 * area) } else { (217.0 * area, 0.7 * area) };
    let stretch_percent = if steel { chance.scaled(0.05, 0.5) } else { chance.scaled(0.5, 12.0) };
    let anchors = match chance.whole(0, 3) {
        0 => json!({ "rule": "equal_angle", "angle_deg": rounded(chance.between(35.0, 60.0)) }),
        1 => json!({ "rule": "equal_tape", "tape_m": radius_m }),
        _ => json!({ "rule": "equal_radius", "radius_m": radius_m }),
    };
    json!({
        "id": id,
        "name": format!("{id} guy"),
        "attach_height_m": attach_m,
        "collar_radius_mm": rounded(chance.between(0.0, 60.0)),
        "count": chance.one_of(&[3, 3, 4]),
        "anchor_layout": anchors,
        "anchor_eye_height_m": rounded(chance.between(0.0, 0.15)),
        "rope": {
            "name": "Rope",
            "diameter_mm": diameter_mm,
            "mass_g_per_m": rounded(mass),
            "stretch_percent": rounded(stretch_percent),
            "stretch_at_n": rounded(strength_n * chance.between(0.1, 0.3)),
            "strength": {
                "minimum_n": rounded(strength_n),
                "material": if steel { "steel" } else { "fibre" },
                "end": if steel { "sleeve" } else { "figure_eight_loop" },
                "design_factor": null,
            },
        },
        "tension_n": rounded(chance.scaled(40.0, (0.06 * strength_n).max(60.0))),
        "upper_end_m": 0.5,
        "lower_end_m": 1.0,
        "collar": { "held": "shoulder", "shoulder_mm": 4.0 },
        "when_lowered": "made_fast",
        "anchor": {
            "kind": "screw", "shaft": "round", "shaft_mm": 20.0, "torque_nm": rounded(chance.scaled(60.0, 600.0)),
            "helix_mm": 150.0, "depth_m": 0.9,
        },
        "proof_pull_n": if chance.in_so_many(0.4) { json!(rounded(chance.scaled(500.0, 20e3))) } else { Value::Null },
    })
}

fn levels(chance: &mut Chance, top_m: f64) -> Value {
    let upper_m = rounded((top_m * chance.between(0.6, 1.0)).max(0.4));
    let radius_m = rounded((upper_m * chance.between(0.45, 1.4)).max(0.6));
    let upper = level(chance, "upper", upper_m, radius_m);
    let lower_m = rounded(upper_m * chance.between(0.4, 0.7));
    if lower_m > 0.4 && chance.in_so_many(0.4) {
        let radius_m = if chance.in_so_many(0.5) { radius_m } else { rounded(0.8 * radius_m).max(0.5) };
        json!([level(chance, "lower", lower_m, radius_m), upper])
    } else {
        json!([upper])
    }
}

fn strands(chance: &mut Chance, top_m: f64) -> Value {
    if top_m < 0.4 || chance.in_so_many(0.3) {
        return Value::Null;
    }
    let top_height_m = rounded(top_m * chance.between(0.8, 0.99));
    json!({
        "count": chance.whole(4, 60),
        "top_height_m": top_height_m,
        "ring_radius_m": rounded((top_height_m * chance.between(0.3, 0.9)).max(0.2)),
        "sweep_deg": chance.one_of(&[360.0, 360.0, 180.0, 220.0]),
        "facing_turn_deg": rounded(chance.between(-180.0, 180.0)),
        "cord": {
            "diameter_mm": rounded(chance.between(3.0, 14.0)),
            "mass_g_per_m": rounded(chance.between(15.0, 80.0)),
            "tension_n": rounded(chance.scaled(5.0, 60.0)),
            "stretch_percent": rounded(chance.scaled(0.1, 3.0)),
            "side_help": chance.in_so_many(0.05),
        },
    })
}

fn soil(chance: &mut Chance) -> Value {
    let clay = |feel: &str| json!({ "kind": "clay", "feel": feel });
    let sand = |feel: &str| json!({ "kind": "sand", "feel": feel, "under_water": false });
    chance.one_of(&[clay("firm"), clay("stiff"), clay("very_stiff"), sand("medium"), sand("dense")])
}

fn yard(chance: &mut Chance) -> Value {
    let (steep_deg, falls_to_deg) = (chance.between(0.0, 30.0), chance.between(0.0, 360.0));
    // Along a bearing the ground rises by tan s·cos of the angle to the way up.
    let slopes: Vec<Value> = [0.0, 65.0, 120.0, 200.0]
        .iter()
        .enumerate()
        .map(|(index, off_deg): (usize, &f64)| {
            let along = -steep_deg.to_radians().tan() * off_deg.to_radians().cos();
            json!({
                "id": format!("S{index}"),
                "bearing_deg": (falls_to_deg + off_deg).rem_euclid(360.0),
                "slope_deg": along.atan().to_degrees(),
            })
        })
        .collect();
    json!({
        "bearings": { "kind": "true" },
        "marks": [{ "id": "A", "name": "A nail", "at": { "by": "origin" } }],
        "slopes": slopes,
        "soil": soil(chance),
    })
}

fn base(chance: &mut Chance) -> Value {
    let fixing = if chance.in_so_many(0.1) {
        json!({ "kind": "spring", "stiffness_nm_per_rad": rounded(chance.scaled(100.0, 2e4)) })
    } else {
        json!({ "kind": "pinned" })
    };
    json!({
        "pattern": "t",
        "front_reach_m": rounded(chance.between(0.6, 1.8)),
        "side_reach_m": rounded(chance.between(0.6, 1.4)),
        "timber_width_mm": 45.0,
        "timber_depth_mm": 145.0,
        "seat_height_mm": 6.0,
        "foot_thickness_mm": 90.0,
        "foot_width_mm": 90.0,
        "shim_up_to_mm": 25.0,
        "foot_fixing": fixing,
        "wood": "spruce_pine_fir",
        "seat_plate_mm": rounded(chance.between(80.0, 200.0)),
        "seat_plate_thickness_mm": 10.0,
        "joint_pad_mm": 300.0,
        "pad_mm": rounded(chance.between(200.0, 400.0)),
    })
}

fn document(chance: &mut Chance) -> Value {
    let mast = tubes(chance);
    let topper = if chance.in_so_many(0.5) {
        json!({
            "width_m": rounded(chance.between(0.1, 0.8)),
            "height_m": rounded(chance.between(0.1, 0.8)),
            "mass_kg": rounded(chance.between(0.2, 8.0)),
            "solid_percent": 60.0,
            "drag": 1.5,
        })
    } else {
        Value::Null
    };
    json!({
        "mastwright_job": 3,
        "name": "By chance",
        "units": { "system": "metric", "inch_fraction": 16 },
        "yard": yard(chance),
        "rig": {
            "tubes": mast.document,
            "guy_levels": levels(chance, mast.top_m),
            "base": base(chance),
            "stakes": { "per_leg": 2, "inset_m": 0.15, "diameter_mm": rounded(chance.between(12.0, 25.0)), "length_m": 0.9 },
            "strands": strands(chance, mast.top_m),
            "topper": topper,
        },
        "placement": {
            "mast": { "by": "coordinates", "east_m": rounded(chance.between(-20.0, 20.0)), "north_m": rounded(chance.between(-20.0, 20.0)) },
            "front_bearing_deg": rounded(chance.between(0.0, 360.0)),
            "guy_turn_deg": rounded(chance.between(-180.0, 180.0)),
        },
        "workshop": { "lift": { "pin_mm": 6.0 } },
        "wind": {
            "terrain": chance.one_of(&["open_country", "open_country", "water_or_bare"]),
            "route": chance.one_of(&["forecast", "forecast", "asce7_16", "en1991_1_4"]),
            "temperature_c": rounded(chance.between(-20.0, 25.0)),
            "ice_mm": if chance.in_so_many(0.15) { rounded(chance.between(1.0, 15.0)) } else { 0.0 },
        },
    })
}
