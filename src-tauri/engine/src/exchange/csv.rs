//! The plan's points as comma-separated values.

use super::in_units;
use crate::plan::LocatedPoint;
use crate::quantity::Units;
use crate::quantity::visible::visible;

/// One row a point, with a head row: name, place in the site frame and its 95 % ellipse. Lines end in CR LF.
///
/// # Units
/// The user's: metres to the millimetre or feet to the thousandth, as the head row says; degrees to a tenth.
///
/// # References
/// RFC 4180: quoting, line ends. From memory. A name that a spreadsheet would take for a formula gets an apostrophe
/// before it (common practice).
pub fn points_csv(points: &[LocatedPoint], units: Units) -> String {
    const LENGTHS: [&str; 5] = ["east_m", "north_m", "ground_m", "semi_major_95_m", "semi_minor_95_m"];
    let heads = LENGTHS.map(|head| in_units::name(head, units)).join(",");
    let mut text = format!("name,path,{heads},major_axis_bearing_deg\r\n");
    let length = |value_m: f64| in_units::number("length_m", value_m, units);
    for point in points {
        let ellipse = &point.ellipse_95;
        text.push_str(&format!(
            "{},{},{:.3},{:.3},{:.3},{:.3},{:.3},{:.1}\r\n",
            // A name in one line: a point is a row.
            field(&visible(&point.name)),
            field(&point.path),
            length(point.east_m),
            length(point.north_m),
            length(point.ground_m),
            length(ellipse.semi_major_m),
            length(ellipse.semi_minor_m),
            ellipse.bearing_deg,
        ));
    }
    text
}

/// A cell, quoted where it must be.
pub(super) fn field(text: &str) -> String {
    let formula = text.starts_with(['=', '+', '-', '@', '\t', '\r']);
    let text = if formula { format!("'{text}") } else { text.to_owned() };
    if text.contains([',', '"', '\r', '\n']) { format!("\"{}\"", text.replace('"', "\"\"")) } else { text }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::plan::Ellipse;
    use crate::quantity::UnitSystem;

    #[test]
    fn names_are_quoted_and_never_formulas() {
        let point = |name: &str| LocatedPoint {
            path: crate::pointer!(yard.marks[0].at),
            name: name.to_owned(),
            east_m: 1.23456,
            north_m: -2.0,
            ground_m: 0.0,
            ellipse_95: Ellipse { semi_major_m: 0.1, semi_minor_m: 0.05, bearing_deg: 33.33 },
        };
        let points = [point("Oak, \"old\""), point("=1+1")];
        let units = |system| Units { system, inch_fraction: 16 };
        let text = points_csv(&points, units(UnitSystem::Metric));
        let rows: Vec<&str> = text.split("\r\n").collect();
        assert_eq!(rows[1], "\"Oak, \"\"old\"\"\",/yard/marks/0/at,1.235,-2.000,0.000,0.100,0.050,33.3");
        assert!(rows[2].starts_with("'=1+1,"));
        assert_eq!((rows.len(), rows[3]), (4, ""));
        // −2 m are −6.562 ft, 1.23456 m 4.050 ft.
        let feet = points_csv(&points, units(UnitSystem::Imperial));
        assert!(feet.starts_with("name,path,east_ft,north_ft,ground_ft,semi_major_95_ft,"), "{feet}");
        assert!(feet.contains(",4.050,-6.562,0.000,0.328,0.164,33.3"), "{feet}");
    }
}
