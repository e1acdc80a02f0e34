//! The sums by hand of docs/methods/wind.md and docs/methods/anchors.md, to the digits shown there.

use mastwright_engine::anchor::ballast::{Ballast, sliding_tension_n};
use mastwright_engine::anchor::screw::{Helix, Screw, Shaft, by_bearing, by_torque};
use mastwright_engine::anchor::soil::Strength;
use mastwright_engine::anchor::stake::Stake;
use mastwright_engine::wind::asce7::Exposure;
use mastwright_engine::wind::density::density_kg_per_m3;
use mastwright_engine::wind::drag::{Surface, tube_coefficient};
use mastwright_engine::wind::forecast::{Site, Told};
use mastwright_engine::wind::member::{Member, Stream};

fn near(value: f64, expected: f64, tolerance: f64) {
    assert!((value - expected).abs() < tolerance, "{value} is not {expected}");
}

#[test]
fn wind() {
    let density_kg_per_m3 = density_kg_per_m3(300.0, 5.0);
    near(density_kg_per_m3, 1.22455, 5e-6);
    let site = Site { exposure: Exposure::C, told: Told::OpenCountry, density_kg_per_m3 };
    let gust = site.gust_m_per_s(20.0, 6.0);
    near(gust, 18.953, 5e-4);
    let pressure_pa = site.pressure_pa(20.0, 6.0);
    near(pressure_pa, 219.94, 0.005);
    let tube_m = 0.060325;
    near(tube_coefficient(tube_m, Surface::Galvanised, gust) * tube_m * pressure_pa, 15.92, 0.005);
    let pressure = |height_m: f64| site.pressure_pa(20.0, height_m);
    let strand =
        Member { lower: [3.0, 0.0, 0.0], upper: [0.0, 0.0, 6.0], diameter_m: 0.003, coefficient: 1.2 };
    let load = strand.load(&Stream::from_bearing(270.0, 0.0, &pressure), [0.0; 3]);
    near(load.force_n[0], 3.615, 0.001);
    near(load.force_n[2], 1.808, 0.001);
}

#[test]
fn anchors() {
    let screw = by_torque(Shaft::Round { diameter_mm: 16.0 }, 60.0);
    near(screw.allowable_n().unwrap(), 885.8, 0.05);
    // The same screw with its helix: 0.15 m, 0.9 m down in clay of 50 kPa, dry and wet.
    let helix = Helix { diameter_m: 0.15, shaft_m: 0.016, depth_m: 0.9 };
    let clay = |undrained_pa| Strength::Clay { undrained_pa };
    near(by_bearing(helix, clay(50e3)).allowable_n().unwrap() * 2.0, 4717.0, 0.5);
    let whole = Screw {
        shaft: Shaft::Round { diameter_mm: 16.0 },
        torque_nm: Some(60.0),
        helix_m: Some(0.15),
        depth_m: Some(0.9),
    };
    near(whole.resistance(clay(25e3), 0.5).allowable_n().unwrap(), 442.9, 0.05);
    let stake = Stake { diameter_m: 0.016, embedded_m: 0.75, push_height_m: 0.05, yield_pa: 235e6 };
    near(stake.push_in_clay(25e3).push_n, 943.9, 0.05);
    near(stake.push_in_clay(25e3).moment_nm, 193.6, 0.05);
    near(stake.bending_push_in_clay_n(25e3), 840.9, 0.05);
    near(stake.resistance(Strength::Clay { undrained_pa: 25e3 }).allowable_n().unwrap(), 420.4, 0.05);
    let weight = |pull_from_downhill_deg| Ballast {
        weight_n: 1000.0,
        slope_deg: 8.0,
        pull_from_downhill_deg,
        pull_elevation_deg: 45.0,
    };
    near(sliding_tension_n(&weight(0.0), 0.25), 135.2, 0.05);
    near(sliding_tension_n(&weight(180.0), 0.25), 407.5, 0.05);
}
