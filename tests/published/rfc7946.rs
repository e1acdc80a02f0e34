//! RFC 7946, The GeoJSON Format: winding, order of numbers, decimals.

use mastwright_engine::exchange::geojson::{origin, points_geojson, wind_anticlockwise};
use mastwright_engine::{demo, plan};
use serde_json::Value;

/// 3.1.6: exterior rings are anticlockwise. The clockwise square of geojson-rewind's documentation is turned as printed
/// there: [[100,0],[100,1],[101,1],[101,0],[100,0]] → [[100,0],[101,0],[101,1],[100,1],[100,0]].
#[test]
fn a_clockwise_square_is_rewound() {
    let mut square = [[100.0, 0.0], [100.0, 1.0], [101.0, 1.0], [101.0, 0.0], [100.0, 0.0]];
    let expected = [[100.0, 0.0], [101.0, 0.0], [101.0, 1.0], [100.0, 1.0], [100.0, 0.0]];
    wind_anticlockwise(&mut square);
    assert_eq!(square, expected);
    wind_anticlockwise(&mut square);
    assert_eq!(square, expected);
}

/// 3.1.1, 3.1.6, 4, 11.2: longitude first, rings closed, no `crs`, at most seven decimals.
#[test]
fn the_demo_is_written_as_the_rfc_asks() {
    let job = demo::lantern_green();
    let computed = plan::compute(&job).unwrap();
    let first = origin(&job, &computed.yard, "A").unwrap();
    let text = points_geojson(&first, &computed.plan, &computed.yard).unwrap();
    let document: Value = serde_json::from_str(&text).unwrap();
    assert!(document.get("crs").is_none());
    let features = document["features"].as_array().unwrap();
    let first = &features[0]["geometry"]["coordinates"];
    assert_eq!((first[0].as_f64(), first[1].as_f64()), (Some(-72.9), Some(44.1)));
    let mut rings = 0;
    for feature in features {
        let coordinates = &feature["geometry"]["coordinates"];
        let positions: Vec<&Value> = match feature["geometry"]["type"].as_str() {
            Some("Point") => vec![coordinates],
            _ => {
                let ring = coordinates[0].as_array().unwrap();
                assert!(ring.len() >= 4 && ring.first() == ring.last());
                let at = |i: usize, axis: usize| ring[i][axis].as_f64().unwrap();
                let twice: f64 = (1..ring.len())
                    .map(|i| {
                        (at(i - 1, 0) + 72.9) * (at(i, 1) - 44.1) - (at(i, 0) + 72.9) * (at(i - 1, 1) - 44.1)
                    })
                    .sum();
                assert!(twice > 0.0);
                rings += 1;
                ring.iter().collect()
            }
        };
        for number in positions.iter().flat_map(|position| position.as_array().unwrap()) {
            let decimals = number.to_string().split_once('.').map_or(0, |(_, after)| after.len());
            assert!(decimals <= 7, "{number}");
        }
    }
    assert_eq!(rings, 1);
}
