//! The rig: parts that go together.

use crate::job::{AnchorLayout, Base, BasePattern, GuyLevel, Job, Rig, Section, TubeJoint};
use crate::pointer;
use crate::quantity::format;
use crate::quantity::{FieldError, Units};

/// Nearer than this two collars are at one height: a job written in feet may miss by the last bit.
const SAME_HEIGHT_M: f64 = 1e-6;

pub(super) fn check(job: &Job, errors: &mut Vec<FieldError>) {
    let mut rig = Check { units: job.units, errors };
    rig.tubes(&job.rig);
    let top_m = raised_top_m(&job.rig);
    for (index, level) in job.rig.guy_levels.iter().enumerate() {
        rig.level(level, index, top_m);
    }
    rig.levels_apart(&job.rig.guy_levels);
    rig.base(&job.rig.base);
    rig.stakes(&job.rig);
    if let Some(strands) = &job.rig.strands {
        rig.at_most(
            pointer!(rig.strands?.top_height_m),
            strands.top_height_m,
            top_m,
            "the raised mast's top",
        );
    }
}

/// Top of the mast above its foot, raised: the tubes less what stays inside one another.
fn raised_top_m(rig: &Rig) -> f64 {
    let lengths: f64 = rig.tubes.iter().map(|tube| tube.length_m).sum();
    let overlaps: f64 = rig.tubes.iter().skip(1).map(|tube| tube.overlap_m).sum();
    lengths - overlaps
}

struct Check<'a> {
    units: Units,
    errors: &'a mut Vec<FieldError>,
}

impl Check<'_> {
    fn length(&self, value_m: f64) -> String {
        format::length(value_m, self.units)
    }

    fn at_most(&mut self, path: &str, value_m: f64, most_m: f64, what: &str) {
        // A mast made up of feet and inches may miss its own top by the last bit.
        if value_m > most_m + 1e-9 {
            let allowed = format!("at most {what}, {}", self.length(most_m));
            self.errors.push(FieldError::new(path, self.length(value_m), allowed));
        }
    }

    fn less_than(&mut self, path: &str, value_m: f64, limit_m: f64, what: &str) {
        if value_m >= limit_m {
            let allowed = format!("less than {what}, {}", self.length(limit_m));
            self.errors.push(FieldError::new(path, self.length(value_m), allowed));
        }
    }

    fn tubes(&mut self, rig: &Rig) {
        for (index, tube) in rig.tubes.iter().enumerate() {
            let path = pointer!(rig.tubes[index].overlap_m);
            match index.checked_sub(1).and_then(|below| rig.tubes.get(below)) {
                None if tube.overlap_m != 0.0 => {
                    let allowed = "0: the bottom tube stands in no other";
                    self.errors.push(FieldError::new(path, self.length(tube.overlap_m), allowed));
                }
                None => {}
                Some(_) if tube.joint == TubeJoint::Threaded && tube.overlap_m != 0.0 => {
                    let allowed = "0: this tube is screwed on, not run in";
                    self.errors.push(FieldError::new(path, self.length(tube.overlap_m), allowed));
                }
                Some(_) if tube.joint == TubeJoint::Threaded => {}
                Some(_) if tube.overlap_m == 0.0 => {
                    let allowed = "more than 0: a tube must reach into the one below";
                    self.errors.push(FieldError::new(path, self.length(0.0), allowed));
                }
                Some(below) => {
                    let shorter = tube.length_m.min(below.length_m);
                    self.less_than(&path, tube.overlap_m, shorter, "the length of both tubes");
                }
            }
            if let Section::Measured { outside_mm, wall_mm } = tube.section {
                self.wall(index, outside_mm, wall_mm);
            }
        }
    }

    fn wall(&mut self, index: usize, outside_mm: f64, wall_mm: f64) {
        if 2.0 * wall_mm >= outside_mm {
            self.errors.push(FieldError::new(
                pointer!(rig.tubes[index].section as Section::Measured.wall_mm),
                format::length_small(wall_mm, self.units),
                format!(
                    "less than half the outside diameter, {}",
                    format::length_small(outside_mm / 2.0, self.units)
                ),
            ));
        }
    }

    fn level(&mut self, level: &GuyLevel, index: usize, top_m: f64) {
        let path = pointer!(rig.guy_levels[index]);
        self.at_most(
            &pointer!(in path, GuyLevel: attach_height_m),
            level.attach_height_m,
            top_m,
            "the raised mast's top",
        );
        self.less_than(
            &pointer!(in path, GuyLevel: anchor_eye_height_m),
            level.anchor_eye_height_m,
            level.attach_height_m,
            "the height of the attachment",
        );
        if let AnchorLayout::Free { anchors } = &level.anchor_layout
            && anchors.len() != usize::from(level.count)
        {
            self.errors.push(FieldError::new(
                pointer!(in path, GuyLevel: anchor_layout as AnchorLayout::Free.anchors),
                format!("a list of {}", anchors.len()),
                format!("a list of {}, one anchor for each guy", level.count),
            ));
        }
    }

    /// Levels may stand in any order, but not two at one height. Both fields are named: whichever is being
    /// entered is the one to change.
    fn levels_apart(&mut self, levels: &[GuyLevel]) {
        for (index, level) in levels.iter().enumerate() {
            let same = |other: &&GuyLevel| {
                other.id != level.id && (other.attach_height_m - level.attach_height_m).abs() < SAME_HEIGHT_M
            };
            if let Some(other) = levels.iter().find(same) {
                let path = pointer!(rig.guy_levels[index].attach_height_m);
                let given = self.length(level.attach_height_m);
                let name = if other.name.is_empty() { "the other level" } else { other.name.as_str() };
                let allowed =
                    format!("another height than that of {name}, {}", self.length(other.attach_height_m));
                self.errors.push(FieldError::new(path, given, allowed));
            }
        }
    }

    fn base(&mut self, base: &Base) {
        if base.pattern == BasePattern::X && base.back_reach_m.is_none() {
            let allowed = "the reach of the back leg: an X base has one";
            self.errors.push(FieldError::new(pointer!(rig.base.back_reach_m), "nothing", allowed));
        }
        let shortest = shortest_reach_m(base);
        self.less_than(
            pointer!(rig.base.foot_thickness_mm),
            base.foot_thickness_mm / 1000.0,
            shortest,
            "the shortest reach",
        );
        self.less_than(
            pointer!(rig.base.timber_width_mm),
            base.timber_width_mm / 1000.0,
            shortest,
            "the shortest reach",
        );
    }

    fn stakes(&mut self, rig: &Rig) {
        self.less_than(
            pointer!(rig.stakes.inset_m),
            rig.stakes.inset_m,
            shortest_reach_m(&rig.base),
            "the shortest reach",
        );
    }
}

/// The reach of the shortest leg that the base has.
fn shortest_reach_m(base: &Base) -> f64 {
    let back = base.back_reach_m.filter(|_| base.pattern == BasePattern::X);
    base.front_reach_m.min(base.side_reach_m).min(back.unwrap_or(f64::INFINITY))
}

#[cfg(test)]
mod tests {
    use serde_json::{Value, json};

    use crate::demo::{YARDSTICK, yardstick};
    use crate::job::read_job_value;

    /// The demo with one value changed is refused at this path (or taken, with none).
    fn check(changed: &str, to: Value, refused_at: Option<&str>) {
        let mut document = serde_json::to_value(yardstick()).expect("JSON");
        *document.pointer_mut(changed).expect("the demo has this field") = to;
        let paths: Vec<String> = match read_job_value(&document) {
            Ok(_) => vec![],
            Err(errors) => errors.errors.into_iter().map(|error| error.path).collect(),
        };
        assert_eq!(paths.first().map(String::as_str), refused_at, "{changed}: {paths:?}");
    }

    #[test]
    fn parts_that_do_not_go_together() {
        check("/rig/tubes/1/overlap_m", json!(3.048), Some("/rig/tubes/1/overlap_m"));
        check("/rig/tubes/1/overlap_m", json!(0), Some("/rig/tubes/1/overlap_m"));
        check("/rig/tubes/0/overlap_m", json!(0.2), Some("/rig/tubes/0/overlap_m"));
        check("/rig/guy_levels/0/attach_height_m", json!(5.5), Some("/rig/guy_levels/0/attach_height_m"));
        check("/rig/guy_levels/0/attach_height_m", json!(5.4864), None);
        check("/rig/tubes/1/joint", json!("threaded"), Some("/rig/tubes/1/overlap_m"));
        check("/rig/strands/top_height_m", json!(5.6), Some("/rig/strands/top_height_m"));
        check("/rig/base/pattern", json!("x"), Some("/rig/base/back_reach_m"));
        check("/rig/base/foot_thickness_mm", json!(500), None);
        check("/rig/stakes/inset_m", json!(1.0), Some("/rig/stakes/inset_m"));
        check(
            "/rig/tubes/0/section",
            json!({ "kind": "measured", "outside_mm": 40, "wall_mm": 20 }),
            Some("/rig/tubes/0/section/wall_mm"),
        );
        let here = json!({ "by": "coordinates", "east_m": 1, "north_m": 2 });
        let four = json!({ "rule": "free", "anchors": [here, here, here, here] });
        check("/rig/guy_levels/0/anchor_layout", four, Some("/rig/guy_levels/0/anchor_layout/anchors"));
    }

    /// The yardstick with a second level at a height, before or after the first one in the list.
    fn second_level(
        attach_height_m: f64,
        first: bool,
    ) -> Result<crate::job::Job, crate::quantity::FieldErrors> {
        let mut document: Value = serde_json::from_str(YARDSTICK).expect("the yardstick is JSON");
        let levels = document["rig"]["guy_levels"].as_array_mut().expect("levels are a list");
        levels.truncate(1);
        levels[0]["attach_height_m"] = json!(3.5);
        let mut other = levels[0].clone();
        (other["id"], other["name"]) = (json!("other"), json!("Other guys"));
        other["attach_height_m"] = json!(attach_height_m);
        levels.insert(usize::from(!first), other);
        read_job_value(&document)
    }

    #[test]
    fn guy_levels_are_taken_in_any_order_but_not_at_one_height() {
        for first in [true, false] {
            assert!(second_level(2.0, first).is_ok());
            assert!(second_level(5.0, first).is_ok());
            let errors = second_level(3.5, first).expect_err("two levels at one height").errors;
            let paths: Vec<&str> = errors.iter().map(|error| error.path.as_str()).collect();
            assert_eq!(paths, [0, 1].map(|i| format!("/rig/guy_levels/{i}/attach_height_m")));
            let other = errors.iter().find(|error| error.allowed.contains("Other guys"));
            assert!(other.is_some_and(|error| error.allowed.starts_with("another height than that of")));
        }
    }

    #[test]
    fn points_that_lead_nowhere() {
        check("/yard/marks/1/at/from", json!("Z"), Some("/yard/marks/1/at/from"));
        check("/yard/marks/1/at", json!({ "by": "origin" }), Some("/yard/marks/1/at/by"));
        check(
            "/yard/marks/0/at",
            json!({ "by": "coordinates", "east_m": 0, "north_m": 0 }),
            Some("/yard/marks/0/at/by"),
        );
        check("/yard/obstacles/1/shape/at/from_b", json!("B"), Some("/yard/obstacles/1/shape/at/from_b"));
        check("/yard/measurements/0/to", json!("B"), Some("/yard/measurements/0/to"));
        check(
            "/yard/bearings",
            json!({ "kind": "baseline", "from": "A", "to": "A", "bearing_deg": 0 }),
            Some("/yard/bearings/to"),
        );
        check("/placement/mast", json!({ "by": "origin" }), Some("/placement/mast/by"));
    }

    #[test]
    fn clashes_crossings_and_dates() {
        check("/yard/marks/2/id", json!("B"), Some("/yard/marks/2/id"));
        check("/yard/slopes/0/id", json!("H1"), Some("/yard/spot_heights/0/id"));
        check("/yard/obstacles/2/id", json!("apple"), Some("/yard/obstacles/2/id"));
        check("/yard/surveyed_at", json!("1970-01-01T00:00:00Z"), Some("/yard/surveyed_at"));
        check("/yard/obstacles/1/shape/crown_base_m", json!(6), Some("/yard/obstacles/1/shape/crown_base_m"));
        let corner = |east: f64, north: f64| json!({ "by": "coordinates", "east_m": east, "north_m": north });
        let bow_tie = json!([corner(0.0, 0.0), corner(2.0, 2.0), corner(2.0, 0.0), corner(0.0, 2.0)]);
        check("/yard/boundary/outline", bow_tie, Some("/yard/boundary/outline"));
        let closed = json!([corner(0.0, 0.0), corner(2.0, 0.0), corner(2.0, 2.0), corner(0.0, 0.0)]);
        check("/yard/boundary/outline", closed, Some("/yard/boundary/outline/0"));
        let flat = json!([corner(0.0, 0.0), corner(1.0, 0.0), corner(2.0, 0.0)]);
        check("/yard/boundary/outline", flat, Some("/yard/boundary/outline"));
    }

    #[test]
    fn errors_come_all_at_once() {
        let mut document: Value = serde_json::from_str(YARDSTICK).expect("the yardstick is JSON");
        document["yard"]["slopes"][2]["slope_deg"] = json!(60);
        document["rig"]["tubes"][0]["length_m"] = json!(-3);
        document["placement"]["wind"] = json!("west");
        let errors = read_job_value(&document).expect_err("three fields are wrong").errors;
        let paths: Vec<&str> = errors.iter().map(|error| error.path.as_str()).collect();
        assert_eq!(paths, ["/placement/wind", "/rig/tubes/0/length_m", "/yard/slopes/2/slope_deg"]);
        assert_eq!(errors[1].given, "−9' 10 1/8\"");
        assert_eq!(errors[1].allowed, "from 4\" to 39'");
        assert_eq!(errors[2].allowed, "a number above -60 and below 60 degrees");
        assert_eq!(errors[1].field, "rig › tubes › 1st › length");
    }
}
