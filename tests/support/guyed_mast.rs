//! Masts from the fixture of `published/scripts/guyed_masts_opensees.py`.

use mastwright_engine::structure::*;
use serde_json::Value;

pub fn number(value: &Value) -> f64 {
    value.as_f64().unwrap()
}

pub fn vector(value: &Value) -> [f64; 3] {
    [0, 1, 2].map(|i| number(&value[i]))
}

pub fn fixture() -> Value {
    serde_json::from_str(include_str!("../published/data/guyed_masts.json")).unwrap()
}

/// The mast of a case.
pub fn mast(case: &Value, longest_element_m: f64) -> Mast {
    let tubes = case["tubes"].as_array().unwrap().iter().map(tube).collect();
    let guys = case["guys"].as_array().unwrap().iter().map(guy).collect();
    let base = match case["base"]["kind"].as_str().unwrap() {
        "pinned" => BaseSupport::Pinned,
        "fixed" => BaseSupport::Fixed,
        "spring" => BaseSupport::Spring { n_m_per_rad: number(&case["base"]["n_m_per_rad"]) },
        other => panic!("{other}"),
    };
    Mast { base, guys, longest_element_m, ..Mast::standing_on([0.0; 3], tubes) }
}

fn tube(tube: &Value) -> TubePart {
    let get = |name: &str| number(&tube[name]);
    let play_m = tube.get("play_m").map_or([0.0; 2], |play| [number(&play[0]), number(&play[1])]);
    TubePart {
        bottom_m: get("bottom_m"),
        top_m: get("top_m"),
        axial_n: get("axial_n"),
        bending_n_m2: get("bending_n_m2"),
        torsion_n_m2: get("torsion_n_m2"),
        weight_n_per_m: get("weight_n_per_m"),
        play_m,
    }
}

fn guy(guy: &Value) -> GuyPart {
    GuyPart {
        attach_height_m: number(&guy["attach_height_m"]),
        collar_offset_m: [0.0; 3],
        anchor_m: vector(&guy["anchor_m"]),
        stiffness_n: number(&guy["stiffness_n"]),
        weight_n_per_m: number(&guy["weight_n_per_m"]),
        length: GuyLength::Unstressed { length_m: number(&guy["unstressed_m"]) },
    }
}

/// Its loads.
pub fn loads(case: &Value, model: &Model) -> LoadCase {
    let mut loads = LoadCase::still_air(model);
    for (wind, element) in loads.wind_on_elements_n_per_m.iter_mut().zip(&model.elements) {
        if element.exposed {
            *wind = vector(&case["tubes"][element.tube]["wind_n_per_m"]);
        }
    }
    for (i, guy) in case["guys"].as_array().unwrap().iter().enumerate() {
        loads.wind_on_guys_n_per_m[i] = vector(&guy["wind_n_per_m"]);
        loads.guy_holds[i] = guy["holds"].as_bool().unwrap();
    }
    let node = model.nodes.len() - 1;
    loads.points.push(PointLoad { node, force_n: vector(&case["top_force_n"]), moment_n_m: [0.0; 3] });
    loads
}
