//! The job's wind as a route from a gust to pressure.

use crate::job::{Job, Terrain, WindRoute};
use crate::wind::asce7::{self, Edition, Exposure, KD_ROUND};
use crate::wind::forecast::{self, Told};
use crate::wind::{Route, density, en1991};

/// The route that the job chose, for its altitude and temperature.
pub fn route(job: &Job) -> Route {
    let altitude_m = job.yard.place.as_ref().map_or(0.0, |place| place.altitude_m);
    let exposure = exposure(job.wind.terrain);
    let asce = |edition| {
        Route::Asce7(asce7::Site {
            edition,
            exposure,
            topographic: 1.0,
            directionality: KD_ROUND,
            ground_elevation_m: altitude_m,
        })
    };
    match job.wind.route {
        WindRoute::Forecast => Route::Forecast(forecast::Site {
            exposure,
            told: Told::OpenCountry,
            density_kg_per_m3: density::density_kg_per_m3(altitude_m, job.wind.temperature_c),
        }),
        WindRoute::Asce7_16 => asce(Edition::Asce7_16),
        WindRoute::Asce7_22 => asce(Edition::Asce7_22),
        WindRoute::En1991_1_4 => Route::En1991(en1991::Site::flat(category(job.wind.terrain))),
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
fn category(terrain: Terrain) -> en1991::Terrain {
    match terrain {
        Terrain::WaterOrBare => en1991::Terrain::Zero,
        Terrain::OpenCountry => en1991::Terrain::II,
        Terrain::BuiltOrWooded => en1991::Terrain::III,
    }
}
