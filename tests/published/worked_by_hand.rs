//! The sums by hand of docs/methods/wind.md and docs/methods/anchors.md, to the digits shown there.

use mastwright_engine::anchor::ballast::{Ballast, sliding_tension_n};
use mastwright_engine::anchor::screw::{Helix, Screw, Shaft, by_bearing, by_torque};
use mastwright_engine::anchor::soil::Strength;
use mastwright_engine::anchor::stake::Stake;
use mastwright_engine::wind::asce7::Exposure;
use mastwright_engine::wind::density::density_kg_per_m3;
use mastwright_engine::wind::drag::{TubeSurface, tube_coefficient};
use mastwright_engine::wind::forecast::{ForecastSite, Told};
use mastwright_engine::wind::member::{Member, Stream};

fn near(value: f64, expected: f64, tolerance: f64) {
    assert!((value - expected).abs() < tolerance, "{value} is not {expected}");
}

#[test]
fn wind() {
    let density_kg_per_m3 = density_kg_per_m3(300.0, 5.0);
    near(density_kg_per_m3, 1.22455, 5e-6);
    let site = ForecastSite { exposure: Exposure::C, told: Told::OpenCountry, density_kg_per_m3 };
    let gust = site.gust_m_per_s(20.0, 6.0);
    near(gust, 18.953, 5e-4);
    let pressure_pa = site.pressure_pa(20.0, 6.0);
    near(pressure_pa, 219.94, 0.005);
    let tube_m = 0.060325;
    near(tube_coefficient(tube_m, TubeSurface::Galvanised, gust) * tube_m * pressure_pa, 15.92, 0.005);
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

/// A strand starts at the circle at the top. By hand, on level ground: the foot stands 0.089 m over it (the timber), the
/// circle 5 m over the foot, the ring is 2.2 m out. From the edge of a topper 0.5 m wide: √(1.95² + 5.089²) = 5.4498 m;
/// from a circle of 0.1 m: √(2.1² + 5.089²) = 5.5053 m; with neither from the upper tube, 1.900 in across, 0.02413 m
/// out: √(2.17587² + 5.089²) = 5.5346 m. From the axis it would be 5.5442 m.
#[test]
fn a_strand_starts_at_the_circle_at_the_top() {
    use mastwright_engine::job::{Cord, Strands, Topper, blank};
    use mastwright_engine::plan::compute;
    use mastwright_engine::quantity::{UnitSystem, Units};

    let mut job = blank(Units { system: UnitSystem::Metric, inch_fraction: 16 });
    job.rig.base.timber_depth_mm = 89.0;
    job.rig.strands = Some(Strands {
        count: 4,
        top_height_m: 5.0,
        ring_radius_m: 2.2,
        top_radius_m: None,
        sweep_deg: 360.0,
        facing_turn_deg: 0.0,
        cord: Cord::default(),
    });
    let length = |job: &mastwright_engine::job::Job| {
        let ring = compute(job).expect("a plain yard").plan.ring.expect("a ring");
        for (top, point) in ring.tops.iter().zip(&ring.points) {
            // Both ends on one bearing from the mast at (0, 5).
            assert!((top[0] * (point[1] - 5.0) - point[0] * (top[1] - 5.0)).abs() < 1e-12);
        }
        ring.strand_lengths_m[0]
    };
    assert!((length(&job) - 5.5346).abs() < 1e-4, "{}", length(&job));
    job.rig.topper =
        Some(Topper { width_m: 0.5, height_m: 0.5, mass_kg: 1.0, solid_percent: 60.0, drag: 1.8 });
    assert!((length(&job) - 5.4498).abs() < 1e-4, "{}", length(&job));
    if let Some(strands) = &mut job.rig.strands {
        strands.top_radius_m = Some(0.1);
    }
    assert!((length(&job) - 5.5053).abs() < 1e-4, "{}", length(&job));
}
