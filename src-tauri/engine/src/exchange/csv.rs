//! The plan's points as comma-separated values.

use csv::{Terminator, Writer, WriterBuilder};

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
    let heads = LENGTHS.map(|head| in_units::name(head, units));
    let mut table = Table::new();
    let head = ["name", "path"].map(str::to_owned).into_iter().chain(heads);
    table.row(head.chain(["major_axis_bearing_deg".to_owned()]));
    let length = |value_m: f64| format!("{:.3}", in_units::number("length_m", value_m, units));
    for point in points {
        let ellipse = &point.ellipse_95;
        // A name in one line: a point is a row.
        let named = [as_text(&visible(&point.name)), as_text(&point.path)];
        let lengths =
            [point.east_m, point.north_m, point.ground_m, ellipse.semi_major_m, ellipse.semi_minor_m];
        let bearing = format!("{:.1}", ellipse.bearing_deg);
        table.row(named.into_iter().chain(lengths.map(length)).chain([bearing]));
    }
    table.text()
}

/// Rows of cells, each as text. Lines end in CR LF.
///
/// # References
/// RFC 4180: quoting, line ends. From memory.
pub fn of_rows(rows: impl IntoIterator<Item = Vec<String>>) -> String {
    let mut table = Table::new();
    for row in rows {
        table.row(row.iter().map(|cell| as_text(&visible(cell))));
    }
    table.text()
}

/// A table of cells, quoted where they must be.
pub(super) struct Table(Writer<Vec<u8>>);

impl Table {
    pub(super) fn new() -> Self {
        Self(WriterBuilder::new().terminator(Terminator::CRLF).flexible(true).from_writer(Vec::new()))
    }

    pub(super) fn row(&mut self, cells: impl IntoIterator<Item = String>) {
        // Rows of any length, into memory: nothing can fail.
        let _ = self.0.write_record(cells.into_iter().map(String::into_bytes));
    }

    pub(super) fn text(self) -> String {
        self.0.into_inner().ok().and_then(|bytes| String::from_utf8(bytes).ok()).unwrap_or_default()
    }
}

/// A cell that no spreadsheet takes for a formula.
pub(super) fn as_text(text: &str) -> String {
    let formula = text.starts_with(['=', '+', '-', '@', '\t', '\r']);
    if formula { format!("'{text}") } else { text.to_owned() }
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
