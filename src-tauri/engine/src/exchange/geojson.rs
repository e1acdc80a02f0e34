//! GeoJSON out and in: points with their uncertainty, outlines of boundary and obstacles.
//!
//! # References
//! RFC 7946: WGS 84 only (4), longitude before latitude (3.1.1), rings closed and of four positions or more,
//! anticlockwise outside (3.1.6), seven decimals are enough (11.2).

use serde_json::{Value, json};

use super::tangent::Tangent;
use crate::job::{Job, Place, read_document};
use crate::numerics::outline::signed_area;
use crate::plan::{LocatedPoint, Plan};
use crate::pointer;
use crate::quantity::{FieldError, FieldErrors, MOST_ERRORS};
use crate::yard::PlacedYard;

/// Seven decimals of a degree are a centimetre (RFC 7946, 11.2).
const DECIMALS: f64 = 1e7;

/// Outlines farther from the origin than this are of another yard: the farthest coordinate of a job.
const FARTHEST_M: f64 = 2000.0;
/// Most corners of one outline in a job.
const MOST_CORNERS: usize = 200;
/// As many as a job may have things in its yard; what comes after them is left out.
const MOST_SHAPES: usize = 2000;

/// The place on Earth of the site frame's origin, where the yard's place is that of a mark.
///
/// # Errors
/// Where the yard's place is missing or unusable, or there is no such mark.
pub fn origin(job: &Job, yard: &PlacedYard, mark: &str) -> Result<Place, FieldError> {
    let plane = tangent(job.yard.place.as_ref())?;
    let Some(found) = yard.marks.iter().find(|it| it.id == mark) else {
        let marks: Vec<&str> = yard.marks.iter().map(|mark| mark.id.as_str()).collect();
        return Err(FieldError::new("/mark", mark, format!("one of the marks {}", marks.join(", "))));
    };
    let [longitude_deg, latitude_deg] = plane.longitude_latitude([-found.at[0], -found.at[1]]);
    Ok(Place { name: String::new(), latitude_deg, longitude_deg, altitude_m: 0.0 })
}

/// The plan's points and the boundary as a GeoJSON document, the site frame's origin lying at `origin`. Each point
/// carries its place in the site frame and its 95 % ellipse, in metres.
///
/// # Errors
/// Where the origin is no place on Earth, or at a pole.
///
/// # Accuracy
/// [`Tangent::at`].
pub fn points_geojson(origin: &Place, plan: &Plan, yard: &PlacedYard) -> Result<String, FieldError> {
    let plane = tangent(Some(origin))?;
    let points = plan.points.iter().map(|point| point_feature(&plane, point));
    let boundary = yard.boundary.iter().map(|outline| {
        json!({
            "type": "Feature",
            "properties": { "kind": "boundary" },
            "geometry": { "type": "Polygon", "coordinates": [ring(&plane, outline)] },
        })
    });
    let features: Vec<Value> = points.chain(boundary).collect();
    Ok(json!({ "type": "FeatureCollection", "features": features }).to_string())
}

fn tangent(place: Option<&Place>) -> Result<Tangent, FieldError> {
    let allowed = "the latitude and longitude of a mark, between 89° south and 89° north";
    let Some(place) = place else { return Err(FieldError::new(pointer!(yard.place), "nothing", allowed)) };
    Tangent::at(place.latitude_deg, place.longitude_deg).ok_or_else(|| {
        let given = format!("latitude {}, longitude {}", place.latitude_deg, place.longitude_deg);
        FieldError::new(pointer!(yard.place), given, allowed)
    })
}

fn position(plane: &Tangent, at: [f64; 2]) -> Value {
    let round = |degrees: f64| (degrees * DECIMALS).round() / DECIMALS;
    json!(plane.longitude_latitude(at).map(round))
}

fn point_feature(plane: &Tangent, point: &LocatedPoint) -> Value {
    let millimetres = |m: f64| (m * 1000.0).round() / 1000.0;
    json!({
        "type": "Feature",
        "geometry": { "type": "Point", "coordinates": position(plane, [point.east_m, point.north_m]) },
        "properties": {
            "name": point.name,
            "path": point.path,
            "east_m": millimetres(point.east_m),
            "north_m": millimetres(point.north_m),
            "ground_m": millimetres(point.ground_m),
            "semi_major_95_m": millimetres(point.ellipse_95.semi_major_m),
            "semi_minor_95_m": millimetres(point.ellipse_95.semi_minor_m),
            "major_axis_bearing_deg": (point.ellipse_95.bearing_deg * 10.0).round() / 10.0,
        },
    })
}

/// A closed ring, anticlockwise seen from above (RFC 7946, 3.1.6).
fn ring(plane: &Tangent, outline: &[[f64; 2]]) -> Vec<Value> {
    let mut corners = outline.to_vec();
    wind_anticlockwise(&mut corners);
    corners.extend(corners.first().copied());
    corners.into_iter().map(|at| position(plane, at)).collect()
}

/// Turns an outline, closed or not, to run anticlockwise, its first corner staying first.
pub fn wind_anticlockwise(outline: &mut [[f64; 2]]) {
    if signed_area(outline) < 0.0 {
        let closed = outline.len() > 1 && outline.first() == outline.last();
        let end = outline.len() - usize::from(closed);
        if let Some(rest) = outline.get_mut(1..end) {
            rest.reverse();
        }
    }
}

/// What a GeoJSON document holds for a yard.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Import {
    pub shapes: Vec<Imported>,
    /// What can't be used, by its field, the first fifty.
    pub skipped: Vec<FieldError>,
    /// How many more of these there are.
    pub skipped_unlisted: usize,
}

impl Import {
    fn skip(&mut self, error: FieldError) {
        if self.skipped.len() < MOST_ERRORS { self.skipped.push(error) } else { self.skipped_unlisted += 1 }
    }

    fn take(&mut self, name: &str, shape: Result<ImportedShape, FieldError>, path: &str) {
        match shape {
            Ok(_) if self.shapes.len() >= MOST_SHAPES => {
                let given = "one more shape";
                self.skip(FieldError::new(path, given, format!("at most {MOST_SHAPES} in one file")));
            }
            // As long as a job's names may be.
            Ok(shape) => self.shapes.push(Imported { name: name.chars().take(200).collect(), shape }),
            Err(error) => self.skip(error),
        }
    }
}

/// A shape read from a GeoJSON document, in the site frame.
#[derive(Debug, Clone, PartialEq)]
pub struct Imported {
    /// From the feature's property `name`; empty without one.
    pub name: String,
    pub shape: ImportedShape,
}

#[derive(Debug, Clone, PartialEq)]
pub enum ImportedShape {
    Point([f64; 2]),
    Line(Vec<[f64; 2]>),
    /// Corners anticlockwise, not closed.
    Outline(Vec<[f64; 2]>),
}

/// Reads points, lines and outlines from a GeoJSON document into a site frame whose origin lies at `origin`. Shapes of
/// several parts come in part by part. Heights are left aside; rings that run the wrong way are turned, as the RFC
/// asks of readers. What can't be used is skipped and said: another coordinate system, what is not degrees or lies
/// farther than 2 km from the origin, rings that are not closed; of an outline with holes the holes.
///
/// # Errors
/// A document that is no GeoJSON, or as a whole in another coordinate system, by the JSON pointer of the field.
pub fn read_geojson(text: &str, origin: &Place) -> Result<Import, FieldErrors> {
    let plane = tangent(Some(origin))?;
    let document = read_document(text)?;
    refuse_other_systems(&document, "")?;
    let reader = Reader { plane };
    let mut import = Import::default();
    match document.get("type").and_then(Value::as_str) {
        Some("FeatureCollection") => {
            for (i, feature) in list(&document, "features", "")?.iter().enumerate() {
                reader.feature(feature, &format!("/features/{i}"), &mut import);
            }
        }
        Some("Feature") => reader.feature(&document, "", &mut import),
        Some(
            "Point" | "LineString" | "Polygon" | "MultiPoint" | "MultiLineString" | "MultiPolygon"
            | "GeometryCollection",
        ) => reader.geometry("", &document, "", &mut import),
        other => {
            let allowed = "a FeatureCollection, a Feature or a geometry such as Polygon";
            return Err(FieldError::new("/type", said(other), allowed).into());
        }
    }
    Ok(import)
}

/// A member `crs` was part of an older draft; RFC 7946, 4 allows WGS 84 only.
fn refuse_other_systems(value: &Value, path: &str) -> Result<(), FieldError> {
    let Some(crs) = value.get("crs").filter(|crs| !crs.is_null()) else { return Ok(()) };
    let name = crs.pointer("/properties/name").and_then(Value::as_str).unwrap_or("unnamed");
    if name.ends_with("CRS84") {
        return Ok(());
    }
    let given = format!("the coordinate system `{name}`");
    Err(FieldError::new(
        format!("{path}/crs"),
        given,
        "WGS 84 longitude and latitude in degrees, without `crs`",
    ))
}

struct Reader {
    plane: Tangent,
}

impl Reader {
    fn feature(&self, feature: &Value, path: &str, import: &mut Import) {
        let kind = feature.get("type").and_then(Value::as_str);
        if kind != Some("Feature") {
            return import.skip(FieldError::new(format!("{path}/type"), said(kind), "Feature"));
        }
        if let Err(other_system) = refuse_other_systems(feature, path) {
            return import.skip(other_system);
        }
        let name = feature.pointer("/properties/name").and_then(Value::as_str).unwrap_or_default();
        let path = format!("{path}/geometry");
        match feature.get("geometry").filter(|geometry| geometry.is_object()) {
            Some(geometry) => self.geometry(name, geometry, &path, import),
            None => import.skip(FieldError::new(path, "no geometry", "a Point, LineString or Polygon")),
        }
    }

    /// A geometry, or each part of one that has several (RFC 7946, 3.1).
    fn geometry(&self, name: &str, geometry: &Value, path: &str, import: &mut Import) {
        let kind = geometry.get("type").and_then(Value::as_str);
        let (single, member) = match kind {
            Some("MultiPoint") => (Some("Point"), "coordinates"),
            Some("MultiLineString") => (Some("LineString"), "coordinates"),
            Some("MultiPolygon") => (Some("Polygon"), "coordinates"),
            Some("GeometryCollection") => (None, "geometries"),
            _ => return self.one(name, kind, geometry, path, import),
        };
        let parts = match list(geometry, member, path) {
            Ok(parts) => parts,
            Err(error) => return import.skip(error),
        };
        for (i, part) in parts.iter().enumerate() {
            let path = format!("{path}/{member}/{i}");
            match single {
                Some(kind) => self.part(name, kind, part, &path, import),
                // RFC 7946, 3.1.8 advises against collections within collections: read one level, no deeper.
                None => self.one(name, part.get("type").and_then(Value::as_str), part, &path, import),
            }
        }
    }

    fn one(&self, name: &str, kind: Option<&str>, geometry: &Value, path: &str, import: &mut Import) {
        match kind {
            Some(kind @ ("Point" | "LineString" | "Polygon")) => {
                let coordinates = geometry.get("coordinates").unwrap_or(&Value::Null);
                self.part(name, kind, coordinates, &format!("{path}/coordinates"), import);
            }
            other => {
                let error =
                    FieldError::new(format!("{path}/type"), said(other), "Point, LineString or Polygon");
                import.skip(error);
            }
        }
    }

    fn part(&self, name: &str, kind: &str, coordinates: &Value, path: &str, import: &mut Import) {
        if let (Some(rings), "Polygon") = (coordinates.as_array(), kind)
            && rings.len() > 1
        {
            let given = format!("{} holes", rings.len() - 1);
            import.skip(FieldError::new(path, given, "an outline without holes: its outer edge was taken"));
        }
        import.take(name, self.shape(kind, coordinates, path), path);
    }

    fn shape(&self, kind: &str, coordinates: &Value, path: &str) -> Result<ImportedShape, FieldError> {
        match kind {
            "Point" => Ok(ImportedShape::Point(self.position(coordinates, path)?)),
            "LineString" => {
                let line = self.positions(coordinates, path)?;
                if line.len() < 2 {
                    return Err(FieldError::new(path, "fewer than two positions", "two or more"));
                }
                Ok(ImportedShape::Line(line))
            }
            _ => self.outline(coordinates, path),
        }
    }

    /// The outer ring of a polygon.
    fn outline(&self, rings: &Value, path: &str) -> Result<ImportedShape, FieldError> {
        let ring = rings.get(0).unwrap_or(&Value::Null);
        let path = format!("{path}/0");
        let corners = ring.as_array().map_or(&[][..], Vec::as_slice);
        // RFC 7946, 3.1.6: four or more positions, the first and last the same.
        if corners.len() < 4 || corners.first() != corners.last() {
            return Err(FieldError::new(
                path,
                "a ring that is not closed",
                "four positions or more, the last as the first",
            ));
        }
        let mut corners = self.positions(ring, &path)?;
        corners.pop();
        wind_anticlockwise(&mut corners);
        Ok(ImportedShape::Outline(corners))
    }

    fn positions(&self, values: &Value, path: &str) -> Result<Vec<[f64; 2]>, FieldError> {
        let values = values.as_array().map_or(&[][..], Vec::as_slice);
        // A ring's last position is its first again.
        if values.len() > MOST_CORNERS + 1 {
            let given = format!("{} positions", values.len());
            return Err(FieldError::new(path, given, format!("at most {MOST_CORNERS}")));
        }
        values.iter().enumerate().map(|(i, value)| self.position(value, &format!("{path}/{i}"))).collect()
    }

    fn position(&self, value: &Value, path: &str) -> Result<[f64; 2], FieldError> {
        let number = |i: usize| value.get(i).and_then(Value::as_f64).filter(|number| number.is_finite());
        let (Some(longitude), Some(latitude)) = (number(0), number(1)) else {
            return Err(FieldError::new(
                path,
                "no longitude and latitude",
                "two numbers: longitude, latitude",
            ));
        };
        for (i, name, value, limit) in [(0, "longitude", longitude, 180.0), (1, "latitude", latitude, 90.0)] {
            if value.abs() > limit {
                let allowed = format!(
                    "WGS 84 degrees from -{limit} to {limit}: metres of another coordinate system have to be converted first"
                );
                return Err(FieldError::new(format!("{path}/{i}"), format!("a {name} of {value}"), allowed));
            }
        }
        let at = self.plane.east_north([longitude, latitude]);
        if at.iter().any(|x| x.abs() > FARTHEST_M) {
            let given =
                format!("longitude {longitude}, latitude {latitude}, far away from the yard's origin");
            return Err(FieldError::new(path, given, "a place in the yard, longitude before latitude"));
        }
        Ok(at)
    }
}

fn list<'a>(value: &'a Value, name: &str, path: &str) -> Result<&'a [Value], FieldError> {
    let found = value.get(name).and_then(Value::as_array);
    found.map(Vec::as_slice).ok_or_else(|| FieldError::new(format!("{path}/{name}"), "no list", "a list"))
}

fn said(kind: Option<&str>) -> String {
    kind.map_or("nothing".to_owned(), |kind| format!("`{}`", kind.chars().take(40).collect::<String>()))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{demo, plan};

    fn place() -> Place {
        Place { name: String::new(), latitude_deg: 44.1, longitude_deg: -72.9, altitude_m: 0.0 }
    }

    #[test]
    fn what_is_written_is_read_back() {
        let job = demo::yardstick();
        let computed = plan::compute(&job).unwrap();
        let text = points_geojson(&place(), &computed.plan, &computed.yard).unwrap();
        let read = read_geojson(&text, &place()).unwrap().shapes;
        assert_eq!(read.len(), computed.plan.points.len() + 1);
        for (point, back) in computed.plan.points.iter().zip(&read) {
            let ImportedShape::Point([east, north]) = back.shape else { panic!("a point") };
            // Half of the seventh decimal is 6 mm.
            assert!((east - point.east_m).abs() < 0.007 && (north - point.north_m).abs() < 0.007);
            assert_eq!(back.name, point.name);
        }
        let ImportedShape::Outline(outline) = &read[read.len() - 1].shape else { panic!("the boundary") };
        assert_eq!(outline.len(), 4);
    }

    /// The field of a whole document that is refused, or else of what is skipped.
    fn wrong_field(text: &str) -> String {
        match read_geojson(text, &place()) {
            Err(refused) => refused.errors[0].path.clone(),
            Ok(import) => {
                assert!(import.shapes.is_empty(), "{import:?}");
                import.skipped[0].path.clone()
            }
        }
    }

    #[test]
    fn what_is_not_wgs_84_degrees_is_told_by_its_field() {
        let check = |text: &str, path: &str| assert_eq!(wrong_field(text), path, "{text}");
        check("{", "");
        check(r#"{"type":"Topology"}"#, "/type");
        check(r#"{"type":"Point","type":"Point"}"#, "/type");
        check(r#"{"type":"Point","coordinates":[692345.1,4885321.7]}"#, "/coordinates/0");
        check(r#"{"type":"Point","coordinates":[-72.9,144.1]}"#, "/coordinates/1");
        check(r#"{"type":"Point","coordinates":[44.1,-72.9]}"#, "/coordinates");
        check(r#"{"type":"Point","coordinates":["east",1]}"#, "/coordinates");
        check(
            r#"{"type":"FeatureCollection","crs":{"type":"name","properties":{"name":"urn:ogc:def:crs:EPSG::25832"}},"features":[]}"#,
            "/crs",
        );
        check(
            r#"{"type":"FeatureCollection","features":[{"type":"Feature","properties":null,"geometry":{"type":"Polygon","coordinates":[[[-72.9,44.1],[-72.899,44.1],[-72.899,44.101]]]}}]}"#,
            "/features/0/geometry/coordinates/0",
        );
        check(r#"{"type":"Feature","geometry":null}"#, "/geometry");
        check(r#"{"type":"Polygon","coordinates":[[],[]]}"#, "/coordinates");
        check(r#"{"type":"FeatureCollection","features":[7]}"#, "/features/0/type");
        check(r#"{"type":"Feature","geometry":{"type":"Circle"}}"#, "/geometry/type");
    }

    const SQUARE: &str = "[[-72.9,44.1],[-72.8999,44.1],[-72.8999,44.1001],[-72.9,44.1]]";

    #[test]
    fn what_can_not_be_used_is_skipped_and_the_rest_comes_in() {
        let feature = |name: &str, kind: &str, coordinates: &str| {
            format!(
                r#"{{"type":"Feature","properties":{{"name":"{name}"}},"geometry":{{"type":"{kind}","coordinates":{coordinates}}}}}"#
            )
        };
        let features = [
            feature("Pond", "Polygon", &format!("[{SQUARE}]")),
            feature("Far", "Point", "[10.0,50.0]"),
            feature("Both sheds", "MultiPolygon", &format!("[[{SQUARE}],[{SQUARE}]]")),
            feature("Island", "Polygon", &format!("[{SQUARE},{SQUARE}]")),
            feature("Odd", "Spiral", "[]"),
        ];
        let text = format!(r#"{{"type":"FeatureCollection","features":[{}]}}"#, features.join(","));
        let import = read_geojson(&text, &place()).unwrap();
        let names: Vec<&str> = import.shapes.iter().map(|shape| shape.name.as_str()).collect();
        assert_eq!(names, ["Pond", "Both sheds", "Both sheds", "Island"]);
        let skipped: Vec<&str> = import.skipped.iter().map(|error| error.path.as_str()).collect();
        assert_eq!(
            skipped,
            [
                "/features/1/geometry/coordinates",
                "/features/3/geometry/coordinates",
                "/features/4/geometry/type"
            ]
        );
    }

    #[test]
    fn more_than_a_job_may_have_is_counted_not_listed() {
        let one = r#"{"type":"Point","coordinates":[-72.9,44.1]}"#;
        let geometries = vec![one; MOST_SHAPES + 60].join(",");
        let text = format!(r#"{{"type":"GeometryCollection","geometries":[{geometries}]}}"#);
        let import = read_geojson(&text, &place()).unwrap();
        assert_eq!(import.shapes.len(), MOST_SHAPES);
        assert_eq!((import.skipped.len(), import.skipped_unlisted), (50, 10));
    }

    #[test]
    fn the_place_may_be_that_of_any_mark() {
        let mut job = demo::yardstick();
        let computed = plan::compute(&job).unwrap();
        let at = |mark: &str| computed.yard.marks.iter().find(|it| it.id == mark).unwrap().at;
        let from_b = origin(&job, &computed.yard, "B").unwrap();
        // A point at the place itself is then where mark B is.
        let text = r#"{"type":"Point","coordinates":[-72.9,44.1]}"#;
        let ImportedShape::Point(read) = read_geojson(text, &from_b).unwrap().shapes[0].shape else {
            panic!("a point")
        };
        // Within the plane's accuracy: the plane at the mark and that at the origin differ by less than a millimetre.
        assert!((read[0] - at("B")[0]).abs() < 1e-3 && (read[1] - at("B")[1]).abs() < 1e-3, "{read:?}");
        assert_eq!(origin(&job, &computed.yard, "Z").unwrap_err().path, "/mark");
        job.yard.place = None;
        assert_eq!(origin(&job, &computed.yard, "A").unwrap_err().path, "/yard/place");
    }
}
