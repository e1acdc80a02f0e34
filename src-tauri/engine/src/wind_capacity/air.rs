//! The job's wind as a route from a gust to pressure, and what of the ground upwind it counts.

use serde::{Deserialize, Serialize};

use crate::job::{GustTold, Job, Terrain, WindRoute};
use crate::round_figures::keep;
use crate::source::SourceKey;
use crate::tube::telescope::telescope;
use crate::wind::asce7::{self, Edition, Exposure, KD_ROUND};
use crate::wind::forecast::{self, Told};
use crate::wind::{Route, density, en1991};

/// How the ground upwind is counted.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum CountedAs {
    /// Open country, or water or bare ground.
    AsSaid,
    /// Houses or wood all round: less wind than in open country.
    BuiltOrWooded,
    /// Open country: nobody has said that houses or wood reach far enough.
    OpenForShortFetch,
    /// Open country: the gust held against the limit is already one for this place.
    OpenForLocalGust,
}

/// What of the ground upwind is counted.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct GroundUpwind {
    pub counted: CountedAs,
    /// How far houses or wood have to reach on every side to be counted, round in the user's units.
    pub fetch_m: f64,
    pub source: SourceKey,
}

/// What of the ground upwind the job's wind counts.
pub fn ground(job: &Job) -> GroundUpwind {
    let (needed_m, asked_m, source) = fetch(job);
    let reaches = job.wind.rough_for_m.is_some_and(|rough_m| rough_m >= needed_m);
    let counted = match (job.wind.terrain, job.wind.gust_told) {
        (Terrain::WaterOrBare | Terrain::OpenCountry, _) => CountedAs::AsSaid,
        (Terrain::BuiltOrWooded, _) if !reaches => CountedAs::OpenForShortFetch,
        (Terrain::BuiltOrWooded, GustTold::ForThisPlace) => CountedAs::OpenForLocalGust,
        (Terrain::BuiltOrWooded, GustTold::ForOpenCountry) => CountedAs::BuiltOrWooded,
    };
    GroundUpwind { counted, fetch_m: asked_m, source }
}

/// How far the rule wants houses or wood to reach, what is asked of the user for it, and whose rule it is.
///
/// # References
/// ASCE 7-16, 26.7.3: more than 1,500 ft (457 m) up to a height of 30 ft (9.1 m), above it more than 2,600 ft (792 m) and 20
/// times the height; 7-22 has the same (from memory). EN 1991-1-4, A.2, procedure 1: 1 km from categories I to III,
/// 2 km from category 0; nobody here is asked for the sea, so that 2 km are wanted.
fn fetch(job: &Job) -> (f64, f64, SourceKey) {
    const LOW_M: f64 = 9.144;
    let tubes = job.rig.mast_tubes().unwrap_or_default();
    let tubes_m = telescope(&tubes, job.units.system).raised_m;
    let height_m = tubes_m + job.rig.topper.as_ref().map_or(0.0, |topper| topper.height_m);
    let (rule_m, habit, source) = match job.wind.route {
        WindRoute::En1991_1_4 => (2000.0, keep::FETCH_EN1991, SourceKey::En1991_1_4),
        _ if height_m <= LOW_M => (457.2, keep::FETCH_LOW, SourceKey::Asce7Fetch),
        _ => (f64::max(792.48, 20.0 * height_m), keep::FETCH_HIGH, SourceKey::Asce7Fetch),
    };
    (rule_m, habit.of(job.units.system).max(rule_m), source)
}

/// The route that the job chose, for its altitude and temperature.
pub fn route(job: &Job) -> Route {
    let altitude_m = job.yard.place.as_ref().map_or(0.0, |place| place.altitude_m);
    let terrain = counted(job);
    let exposure = exposure(terrain);
    let asce = |edition| {
        Route::Asce7(asce7::AsceSite {
            edition,
            exposure,
            topographic: 1.0,
            directionality: KD_ROUND,
            ground_elevation_m: altitude_m,
        })
    };
    match job.wind.route {
        WindRoute::Forecast => Route::Forecast(forecast::ForecastSite {
            exposure,
            told: Told::OpenCountry,
            density_kg_per_m3: density::density_kg_per_m3(altitude_m, job.wind.temperature_c),
        }),
        WindRoute::Asce7_16 => asce(Edition::Asce7_16),
        WindRoute::Asce7_22 => asce(Edition::Asce7_22),
        WindRoute::En1991_1_4 => Route::En1991(en1991::En1991Site::flat(category(terrain))),
    }
}

/// The terrain that counts.
fn counted(job: &Job) -> Terrain {
    match ground(job).counted {
        CountedAs::AsSaid => job.wind.terrain,
        CountedAs::BuiltOrWooded => Terrain::BuiltOrWooded,
        CountedAs::OpenForShortFetch | CountedAs::OpenForLocalGust => Terrain::OpenCountry,
    }
}

/// ASCE 7, 26.7.
fn exposure(terrain: Terrain) -> Exposure {
    match terrain {
        Terrain::WaterOrBare => Exposure::D,
        Terrain::OpenCountry => Exposure::C,
        Terrain::BuiltOrWooded => Exposure::B,
    }
}

/// EN 1991-1-4, Table 4.1; of the two that are bare the windier.
fn category(terrain: Terrain) -> en1991::TerrainCategory {
    match terrain {
        Terrain::WaterOrBare => en1991::TerrainCategory::Zero,
        Terrain::OpenCountry => en1991::TerrainCategory::II,
        Terrain::BuiltOrWooded => en1991::TerrainCategory::III,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::demo::yardstick;
    use crate::quantity::UnitSystem;

    /// Pressure at 5 m in a gust of 20 m/s.
    fn pressure_pa(change: impl Fn(&mut Job)) -> f64 {
        let mut job = yardstick();
        job.units.system = UnitSystem::Metric;
        job.wind.terrain = Terrain::BuiltOrWooded;
        change(&mut job);
        route(&job).pressure_pa(20.0, 5.0)
    }

    fn told(rough_for_m: Option<f64>, gust_told: GustTold) -> impl Fn(&mut Job) {
        move |job| (job.wind.rough_for_m, job.wind.gust_told) = (rough_for_m, gust_told)
    }

    /// ASCE 7-16, 26.7.3: 457 m and no less; the ratio of Kz by hand, B at 15 ft and more over C:
    /// (2.01·(16.404/1200)^(2/7))/(2.01·(16.404/900)^(2/9.5)) = 0.58987/0.86539.
    #[test]
    fn houses_count_only_with_the_fetch_of_their_rule_and_against_a_gust_for_open_country() {
        let open = pressure_pa(|job| job.wind.terrain = Terrain::OpenCountry);
        for (rough_m, gust) in [
            (None, GustTold::ForOpenCountry),
            (Some(0.0), GustTold::ForOpenCountry),
            (Some(457.0), GustTold::ForOpenCountry),
            (None, GustTold::ForThisPlace),
            (Some(99_999.0), GustTold::ForThisPlace),
        ] {
            assert_eq!(pressure_pa(told(rough_m, gust)), open, "{rough_m:?} {gust:?}");
        }
        let counted = pressure_pa(told(Some(457.2), GustTold::ForOpenCountry));
        assert!((counted / open - 0.58987 / 0.86539).abs() < 1e-4, "{}", counted / open);
        // Higher than 30 ft: 2,600 ft or 20 times the height.
        let high = |tube_m: f64, rough_m: f64| {
            let far = told(Some(rough_m), GustTold::ForOpenCountry);
            let raise = |job: &mut Job| job.rig.tubes[0].length_m = tube_m;
            let counted = pressure_pa(|job| (far(job), raise(job)).0);
            counted < 0.9 * pressure_pa(|job| (job.wind.terrain = Terrain::OpenCountry, raise(job)).0)
        };
        assert!(!high(12.0, 700.0) && high(12.0, 793.0));
        assert!(!high(60.0, 1100.0) && high(60.0, 1400.0));
    }

    /// A bottom tube stands whole, whatever overlap was written beside it: 9.5 m is above 30 ft (9.144 m), so 2,600 ft
    /// (792 m) are wanted and not 1,500 ft (457 m).
    #[test]
    fn the_mast_is_as_high_as_its_telescope_says() {
        let counts = |overlap_m: f64| {
            let mut job = yardstick();
            job.rig.tubes.truncate(1);
            job.rig.topper = None;
            (job.rig.tubes[0].length_m, job.rig.tubes[0].overlap_m) = (9.5, overlap_m);
            (job.wind.terrain, job.wind.rough_for_m) = (Terrain::BuiltOrWooded, Some(500.0));
            job.wind.gust_told = GustTold::ForOpenCountry;
            ground(&job).counted
        };
        assert_eq!(counts(0.0), CountedAs::OpenForShortFetch);
        assert_eq!(counts(0.5), CountedAs::OpenForShortFetch);
    }

    /// EN 1991-1-4, A.2, procedure 1.
    #[test]
    fn by_the_european_standard_houses_have_to_reach_two_kilometres() {
        let european = |rough_m: f64| {
            pressure_pa(|job| {
                job.wind.route = WindRoute::En1991_1_4;
                told(Some(rough_m), GustTold::ForOpenCountry)(job);
            })
        };
        assert!(european(2000.0) < 0.9 * european(1999.0));
        assert_eq!(european(1999.0), european(0.0));
    }

    #[test]
    fn what_is_asked_is_round_and_no_less_than_the_rule() {
        for (system, route, asked_m) in [
            (UnitSystem::Metric, WindRoute::Forecast, 500.0),
            (UnitSystem::Imperial, WindRoute::Forecast, 457.2),
            (UnitSystem::Metric, WindRoute::En1991_1_4, 2000.0),
            (UnitSystem::Imperial, WindRoute::En1991_1_4, 6600.0 * 0.3048),
        ] {
            let mut job = yardstick();
            (job.units.system, job.wind.route) = (system, route);
            assert!((ground(&job).fetch_m - asked_m).abs() < 1e-9, "{}", ground(&job).fetch_m);
        }
    }
}
