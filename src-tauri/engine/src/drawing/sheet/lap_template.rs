//! The half-lap's template at full size: a strip that is laid over three sides of a timber, with the shoulders of the cut and
//! how deep it goes on either side. Both timbers are marked with it, one from above, one from below.

use super::foot_template::WOOD_GROUND;
use crate::drawing::marks::{Area, PageMark, Stroke, boxed, line as ruled, plain};
use crate::drawing::pages::full_size::FullSize;
use crate::drawing::pages::text::{SMALL_MM, shortened};
use crate::drawing::paint::{GREY, INK};
use crate::drawing::scene::Align;
use crate::drawing::scene_marks::words;
use crate::drawing::words::sheet as sentences;
use crate::job::Job;
use crate::quantity::sold;
use crate::report::format;
use crate::workshop::joints::{FLUSH_WITHIN_MM, LapJoint};

/// So much of the timber is shown on either side of the cut, to lay the strip on straight.
const BESIDE_MM: f64 = 25.0;
/// Room on the left for the names of the sides.
const NAMES_MM: f64 = 22.0;
/// Under the strip, for the widths.
const UNDER_MM: f64 = 8.0;
/// The template of the joint under the mast.
pub(super) fn of(job: &Job, lap: &LapJoint) -> FullSize {
    let base = &job.rig.base;
    let (wide, deep) = (base.timber_width_mm, base.timber_depth_mm);
    let strip = [lap.length_mm + 2.0 * BESIDE_MM, wide + 2.0 * deep];
    FullSize {
        name: "Half-lap under the mast".into(),
        size_mm: [NAMES_MM + strip[0] + 1.0, strip[1] + UNDER_MM],
        marks: marks(job, lap, strip),
        how: how(job, lap),
        caution: sentences::BEFORE_THE_LAP.to_owned(),
        system: job.units.system,
    }
}

fn how(job: &Job, lap: &LapJoint) -> String {
    let timber_mm = job.rig.base.timber_depth_mm;
    let small = |mm: f64| sold::tape(mm, job.units);
    let from_tip = |leg: &str| {
        let shoulder = lap.shoulders.iter().find(|shoulder| shoulder.leg == leg)?;
        Some(format::length(shoulder.from_tip_m, job.units))
    };
    let apart_mm = (2.0 * lap.depth_mm - timber_mm).abs();
    let flush = if let Some(made_mm) = lap.made_mm {
        sentences::other_cut(&small(made_mm), &small(lap.to_cut_mm()))
    } else if apart_mm > FLUSH_WITHIN_MM {
        sentences::not_flush([lap.depth_mm, timber_mm, apart_mm].map(small))
    } else {
        String::new()
    };
    let shoulders = ["right", "front"].map(|leg| from_tip(leg).unwrap_or_default());
    format!("{}{flush}", sentences::lap(&shoulders, from_tip("back").as_deref()))
}

fn marks(job: &Job, lap: &LapJoint, strip: [f64; 2]) -> Vec<PageMark> {
    let base = &job.rig.base;
    let (wide, deep) = (base.timber_width_mm, base.timber_depth_mm);
    let [left, right] = [NAMES_MM, NAMES_MM + strip[0]];
    let shoulders = [left + BESIDE_MM, left + BESIDE_MM + lap.length_mm];
    let depth_mm = lap.to_cut_mm();
    let waste = Area::new(shoulders[0], deep - depth_mm, lap.length_mm, wide + 2.0 * depth_mm);
    let mut marks = vec![
        boxed(Area::new(left, 0.0, strip[0], strip[1]), Some(plain(INK.paper(), 0.25)), None),
        boxed(waste, Some(plain(INK.paper(), 0.7)), Some(WOOD_GROUND)),
    ];
    let fold = Stroke { dashes_mm: vec![3.0, 1.5], ..plain(INK.paper(), 0.25) };
    marks.extend([deep, deep + wide].map(|y| ruled(&[[left, y], [right, y]], fold.clone())));
    for (name, y) in [
        ("one side", deep / 2.0),
        ("the cut's side", deep + wide / 2.0),
        ("other side", strip[1] - deep / 2.0),
    ] {
        let name = shortened(name, SMALL_MM, false, NAMES_MM - 2.0);
        marks.push(words([left - 1.5, y], SMALL_MM, false, Align::End, &name));
    }
    let small = |mm: f64| sold::tape(mm, job.units);
    let middle = (shoulders[0] + shoulders[1]) / 2.0;
    marks.push(ruled(
        &[[shoulders[0], strip[1] + 3.0], [shoulders[1], strip[1] + 3.0]],
        plain(GREY.paper(), 0.13),
    ));
    marks.push(words([middle, strip[1] + 5.5], SMALL_MM, true, Align::Middle, &small(lap.length_mm)));
    let deep_at = [middle, deep - depth_mm / 2.0];
    marks.push(words(deep_at, SMALL_MM, true, Align::Middle, &format!("{} deep", small(depth_mm))));
    marks
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::drawing::sample::sample;
    use crate::quantity::UnitSystem;
    use crate::workshop::joints::lap;

    /// By hand: timbers 90 mm wide and 140 mm deep. Halved: 70 mm deep, so the shaded part is 90 mm by 90 + 2 · 70 = 230 mm,
    /// its upper edge 140 − 70 = 70 mm down. Cut 40 mm: 90 mm by 170 mm, 100 mm down, and not flush by 140 − 80 = 60 mm.
    #[test]
    fn the_cut_is_as_long_as_the_other_timber_is_wide_and_as_deep_as_entered() {
        let (mut job, _) = sample(UnitSystem::Metric);
        (job.rig.base.timber_width_mm, job.rig.base.timber_depth_mm) = (90.0, 140.0);
        let waste = |job: &Job| {
            let template = of(job, &lap(job).unwrap());
            let extent = template.marks[1].extent().unwrap();
            assert!((template.size_mm[1] - UNDER_MM - (90.0 + 280.0)).abs() < 1e-9);
            ([extent.w, extent.h, extent.y], template.how)
        };
        for (lap_mm, by_hand, flush) in
            [(None, [90.0, 230.0, 70.0], true), (Some(40.0), [90.0, 170.0, 100.0], false)]
        {
            job.rig.base.lap_depth_mm = lap_mm;
            let (found, how) = waste(&job);
            assert!(found.iter().zip(by_hand).all(|(a, b)| (a - b).abs() < 1e-9), "{found:?}");
            assert_eq!(how.contains("not lie flush, by 60 mm"), !flush, "{how}");
        }
        // The first one came out 43 mm deep: the strip is for the other one, 140 − 43 = 97 mm deep, and both lie flush.
        let made = crate::job::WorkMade { part: "lap".into(), measured_mm: 43.0 };
        job.workshop.made.push(made);
        let (found, how) = waste(&job);
        assert!((found[1] - (90.0 + 2.0 * 97.0)).abs() < 1e-9 && (found[2] - 43.0).abs() < 1e-9, "{found:?}");
        assert!(how.contains("97 mm") && !how.contains("not lie flush"), "{how}");
        job.workshop.made.clear();
        // By hand: 0.900 m to the tip less half of 90 mm; 1.420 m less the same.
        let how = waste(&job).1;
        assert!(how.contains("855 mm") && how.contains("1.375 m"), "{how}");
        // Of four legs the back one is as long as the front one where nobody says otherwise: its cut is marked, too.
        job.rig.base.pattern = crate::job::BasePattern::X;
        let how = waste(&job).1;
        assert_eq!(how.matches("1.375 m").count(), 2, "{how}");
    }

    #[test]
    fn a_cut_through_the_timber_has_no_template() {
        let (mut job, _) = sample(UnitSystem::Metric);
        job.rig.base.lap_depth_mm = Some(job.rig.base.timber_depth_mm);
        assert!(lap(&job).is_none());
    }
}
