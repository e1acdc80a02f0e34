//! RFC 7946, The GeoJSON Format: winding, order of numbers, decimals.

use geojson::{FeatureCollection, GeoJson};
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

/// The crate geojson knows nothing of ours: it reads every feature with its geometry and properties.
#[test]
fn another_reader_reads_what_is_written() {
    let job = demo::lantern_green();
    let computed = plan::compute(&job).unwrap();
    let first = origin(&job, &computed.yard, "A").unwrap();
    let text = points_geojson(&first, &computed.plan, &computed.yard).unwrap();
    let read: GeoJson = text.parse().expect("it is GeoJSON");
    let collection = FeatureCollection::try_from(read).expect("it is a collection");
    let ours: Value = serde_json::from_str(&text).unwrap();
    let features = ours["features"].as_array().unwrap();
    assert_eq!(collection.features.len(), features.len());
    assert!(features.len() > computed.plan.points.len() / 2, "{}", features.len());
    let (mut points, mut outlines) = (0, 0);
    for (theirs, ours) in collection.features.iter().zip(features) {
        let names = theirs.properties.as_ref().expect("each has properties");
        assert_eq!(Value::Object(names.clone()), ours["properties"]);
        let numbers: Vec<Vec<f64>> = match &theirs.geometry.as_ref().expect("each has a place").value {
            geojson::Value::Point(at) => {
                points += 1;
                vec![at.clone()]
            }
            geojson::Value::Polygon(rings) => {
                outlines += 1;
                rings.concat()
            }
            other => panic!("{other:?}"),
        };
        // Vermont, where the demo's first mark lies, and nothing farther off than its yard.
        assert!(
            numbers.iter().all(|at| (at[0] + 72.9).abs() < 0.002 && (at[1] - 44.1).abs() < 0.002),
            "{numbers:?}"
        );
    }
    assert!(points > 5 && outlines == 1, "{points} {outlines}");
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
