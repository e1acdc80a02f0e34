//! A shape read from another program's file, in a few words.

use super::format;
use crate::exchange::geojson::ImportedShape;
use crate::numerics::real::hypot;
use crate::quantity::Units;

/// How big it is and where it lies, as `5 corners, 62.4 m around`.
pub fn imported(shape: &ImportedShape, units: Units) -> String {
    let length = |m: f64| format::length_short(m, units);
    match shape {
        ImportedShape::Point(at) => format::place(*at, units),
        ImportedShape::Line(points) => format!("{} points, {} long", points.len(), length(run_m(points))),
        ImportedShape::Outline(corners) => {
            let closed: Vec<[f64; 2]> = corners.iter().chain(corners.first()).copied().collect();
            format!("{} corners, {} around", corners.len(), length(run_m(&closed)))
        }
    }
}

fn run_m(points: &[[f64; 2]]) -> f64 {
    points.windows(2).map(|pair| hypot(pair[1][0] - pair[0][0], pair[1][1] - pair[0][1])).sum()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::UnitSystem;

    #[test]
    fn says_how_big_and_where() {
        let units = Units { system: UnitSystem::Metric, inch_fraction: 16 };
        let square = vec![[0.0, 0.0], [3.0, 0.0], [3.0, 4.0], [0.0, 4.0]];
        assert_eq!(imported(&ImportedShape::Line(square.clone()), units), "4 points, 10 m long");
        assert_eq!(imported(&ImportedShape::Outline(square), units), "4 corners, 14 m around");
        let point = imported(&ImportedShape::Point([-1.5, 2.0]), units);
        assert_eq!(point, "2 m north, 1.5 m west of the first mark");
    }
}
