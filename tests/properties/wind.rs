//! What must hold for every wind.

use mastwright_engine::wind::asce7::{self, Edition, Exposure};
use mastwright_engine::wind::drag::{reynolds, round_coefficient};
use mastwright_engine::wind::en1991::{self, TerrainCategory};
use mastwright_engine::wind::forecast::{self, Told};
use mastwright_engine::wind::ice::{ice_weight_n_per_m, iced_diameter_m};
use mastwright_engine::wind::member::{Cone, Member, Stream};
use mastwright_engine::wind::{Route, beaufort, density};
use proptest::prelude::*;

const EXPOSURES: [Exposure; 3] = [Exposure::B, Exposure::C, Exposure::D];
const TERRAINS: [TerrainCategory; 5] = [
    TerrainCategory::Zero,
    TerrainCategory::I,
    TerrainCategory::II,
    TerrainCategory::III,
    TerrainCategory::IV,
];

fn route(which: usize) -> Route {
    let exposure = EXPOSURES[which % 3];
    match which / 3 {
        0 => Route::Forecast(forecast::ForecastSite {
            exposure,
            told: Told::OpenCountry,
            density_kg_per_m3: 1.2,
        }),
        1 | 2 => Route::Asce7(asce7::AsceSite {
            edition: if which / 3 == 1 { Edition::Asce7_16 } else { Edition::Asce7_22 },
            exposure,
            topographic: 1.0,
            directionality: 0.95,
            ground_elevation_m: 300.0,
        }),
        _ => Route::En1991(en1991::En1991Site::flat(TERRAINS[(which - 9) % 5])),
    }
}

fn ring(radius: f64, count: u16) -> Vec<[f64; 3]> {
    let turn = |i: u16| f64::from(i) * std::f64::consts::TAU / f64::from(count);
    (0..count).map(|i| [radius * turn(i).cos(), radius * turn(i).sin(), 0.1 * turn(i).sin()]).collect()
}

fn turned([x, y, z]: [f64; 3], by_deg: f64) -> [f64; 3] {
    let (s, c) = by_deg.to_radians().sin_cos();
    [x * c + y * s, y * c - x * s, z]
}

fn size(v: [f64; 3]) -> f64 {
    v.iter().map(|x| x * x).sum::<f64>().sqrt()
}

proptest! {
    /// A stronger gust and a greater height never press less, on any route.
    #[test]
    fn pressure_grows_with_gust_and_height(
        which in 0usize..14, gust in 0.0..60.0, more in 0.0..30.0, height in -2.0..60.0, higher in 0.0..40.0,
    ) {
        let route = route(which);
        let pressure = route.pressure_pa(gust, height);
        prop_assert!(pressure >= 0.0 && pressure.is_finite());
        prop_assert!(route.pressure_pa(gust + more, height) >= pressure);
        prop_assert!(route.pressure_pa(gust, height + higher) >= pressure);
        let unit = route.pressure_pa(1.0, height);
        prop_assert!((pressure - unit * gust * gust).abs() <= 1e-12 * pressure);
    }

    /// More wind never lowers the force on a tube, although its coefficient falls.
    #[test]
    fn more_wind_never_lowers_the_force(
        diameter in 0.002..1.0, roughness in 1e-6..0.05, gust in 0.5..80.0, factor in 1.0..1.5,
    ) {
        let force = |v: f64| round_coefficient(reynolds(diameter, v), roughness / diameter) * v * v;
        prop_assert!(force(gust * factor) >= force(gust) * (1.0 - 1e-12));
    }

    /// Turning wind and cone together turns the force and the moment, and changes neither in size.
    #[test]
    fn turning_everything_turns_everything(
        from in 0.0..360.0, by in -180.0..180.0, count in 1u16..20, radius in 0.5..8.0, top in 1.0..12.0, which in 0usize..14,
    ) {
        let route = route(which);
        let pressure = |height: f64| route.pressure_pa(22.0, height);
        let before_ring = ring(radius, count);
        let after_ring: Vec<[f64; 3]> = before_ring.iter().map(|&p| turned(p, by)).collect();
        let load = |ring: &[[f64; 3]], from: f64| {
            Cone { top: [0.0, 0.0, top], ring, diameter_m: 0.003, coefficient: 1.2 }
                .load(&Stream::from_bearing(from, 0.0, &pressure), [0.0; 3])
        };
        let (before, after) = (load(&before_ring, from), load(&after_ring, from + by));
        let scale = size(before.force_n) + size(before.moment_nm);
        for (a, b) in [(before.force_n, after.force_n), (before.moment_nm, after.moment_nm),
                       (before.at_upper_n, after.at_upper_n)] {
            let turned_a = turned(a, by);
            for (x, y) in turned_a.iter().zip(b) {
                prop_assert!((x - y).abs() < 1e-9 * scale, "{turned_a:?} {b:?}");
            }
        }
    }

    /// No force along a member; a force is never against the wind; and a member cut in two bears the same in all.
    #[test]
    fn a_member_is_pressed_across_only(
        upper in prop::array::uniform3(0.5..9.0), cut in 0.1..0.9, from in 0.0..360.0, which in 0usize..14,
    ) {
        let route = route(which);
        let pressure = |height: f64| route.pressure_pa(18.0, height);
        let stream = Stream::from_bearing(from, 0.0, &pressure);
        let whole = Member { lower: [0.0; 3], upper, diameter_m: 0.02, coefficient: 1.2 };
        let load = whole.load(&stream, [1.0, 1.0, 0.0]);
        let along: f64 = load.force_n.iter().zip(upper).map(|(f, u)| f * u).sum();
        prop_assert!(along.abs() < 1e-9 * (1.0 + size(load.force_n) * size(upper)));
        let with_wind: f64 = load.force_n.iter().zip(stream.direction).map(|(f, w)| f * w).sum();
        prop_assert!(with_wind >= -1e-12);
        let between = upper.map(|x| x * cut);
        let low = Member { upper: between, ..whole }.load(&stream, [1.0, 1.0, 0.0]);
        let high = Member { lower: between, ..whole }.load(&stream, [1.0, 1.0, 0.0]);
        for i in 0..3 {
            // The profile's kink is integrated over: 0.2 %.
            let sum = low.force_n[i] + high.force_n[i];
            prop_assert!((sum - load.force_n[i]).abs() < 2e-3 * size(load.force_n) + 1e-12);
        }
    }

    /// Thicker ice never weighs less nor catches less wind; colder air is never lighter.
    #[test]
    fn ice_and_cold_never_help(d in 0.001..0.1, t in 0.0..0.05, more in 0.0..0.02, c in -50.0..50.0, warmer in 0.0..20.0) {
        prop_assert!(ice_weight_n_per_m(d, t + more) >= ice_weight_n_per_m(d, t));
        prop_assert!(iced_diameter_m(d, t + more) >= iced_diameter_m(d, t));
        prop_assert!(density::density_kg_per_m3(200.0, c) >= density::density_kg_per_m3(200.0, c + warmer));
    }

    #[test]
    fn beaufort_numbers_rise_with_the_wind(mean in 0.0..50.0, more in 0.0..20.0) {
        prop_assert!(beaufort::of_mean(mean + more).number >= beaufort::of_mean(mean).number);
    }
}
