//! ISO 2533:1975, Standard Atmosphere: rows of its table (from memory, as every textbook repeats them).

use mastwright_engine::wind::density::{pressure_pa, standard_density_kg_per_m3};

#[test]
fn rows_of_the_table() {
    for (altitude_m, pascal, density) in [
        (0.0, 101_325.0, 1.2250),
        (1000.0, 89_874.0, 1.1117),
        (2000.0, 79_495.0, 1.0065),
        (3000.0, 70_108.0, 0.9091),
    ] {
        assert!((pressure_pa(altitude_m) - pascal).abs() < 2.0, "{altitude_m}");
        assert!((standard_density_kg_per_m3(altitude_m) - density).abs() < 1e-4, "{altitude_m}");
    }
}
