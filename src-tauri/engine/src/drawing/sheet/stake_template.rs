//! Where stakes meet a leg, at full size: the timber's top from its tip, and its side below with the lean of the bore.

use super::foot_template::WOOD_GROUND;
use crate::drawing::marks::{Area, PageMark, Path, Stroke, boxed, ellipse_steps, line as ruled, plain};
use crate::drawing::pages::full_size::FullSize;
use crate::drawing::pages::text::SMALL_MM;
use crate::drawing::paint::{GREY, INK};
use crate::drawing::scene::Align;
use crate::drawing::scene_marks::words;
use crate::drawing::words::workshop as sentences;
use crate::job::Job;
use crate::quantity::sold;
use crate::report::format;
use crate::workshop::joints::{StakeHole, StakeWork};

/// Timber shown beyond the last mark.
const BEYOND_MM: f64 = 20.0;
/// Room above for the stakes beside it, and at the tip for a word.
const ABOVE_MM: f64 = 18.0;

/// None without stakes.
pub(super) fn of(job: &Job, stakes: &StakeWork) -> Option<FullSize> {
    let base = &job.rig.base;
    let (wide, deep) = (base.timber_width_mm, base.timber_depth_mm);
    let units = job.units;
    let (far_mm, how) = match stakes {
        StakeWork::NoStakes => return None,
        StakeWork::Beside { from_tip_m, .. } => {
            (1000.0 * from_tip_m, sentences::stakes_beside_how(&format::length(*from_tip_m, units)))
        }
        StakeWork::Through { holes, slant_deg, hole_mm, .. } => {
            let far_m = holes.iter().map(|hole| hole.on_top_m).fold(0.0, f64::max);
            let how =
                sentences::stakes_through_how(&sold::drill(*hole_mm, units), &format::angle(*slant_deg));
            (1000.0 * far_m, how)
        }
    };
    let long = far_mm + BEYOND_MM;
    Some(FullSize {
        name: sentences::STAKES.to_owned(),
        size_mm: [long + 2.0, 2.0 * ABOVE_MM + wide + deep + 8.0],
        marks: marks(job, stakes, long),
        how,
        caution: sentences::BASE_CAUTION.to_owned(),
        system: units.system,
    })
}

fn marks(job: &Job, stakes: &StakeWork, long: f64) -> Vec<PageMark> {
    let base = &job.rig.base;
    let (wide, deep) = (base.timber_width_mm, base.timber_depth_mm);
    let (top, side) = (ABOVE_MM, ABOVE_MM + wide);
    let face = |y: f64, high: f64| {
        boxed(Area::new(0.0, y, long, high), Some(plain(INK.paper(), 0.25)), Some(WOOD_GROUND))
    };
    let fold = Stroke { dashes_mm: vec![3.0, 1.5], ..plain(INK.paper(), 0.25) };
    let mut marks = vec![face(top, wide), face(side, deep), ruled(&[[0.0, side], [long, side]], fold)];
    let name = |y: f64, what: &str| words([3.0, y], SMALL_MM, false, Align::Start, what);
    marks.push(name(top + 4.0, sentences::TOP_FACE));
    marks.push(name(side + deep - 4.0, sentences::SIDE_FACE));
    match stakes {
        StakeWork::NoStakes => {}
        StakeWork::Beside { per_leg, from_tip_m, off_face_mm } => {
            let x = 1000.0 * from_tip_m;
            marks.push(ruled(&[[x, top], [x, side + deep]], plain(INK.paper(), 0.5)));
            let round = |y: f64| {
                let steps = ellipse_steps([x, y], [*off_face_mm, *off_face_mm], 0.0);
                PageMark::Path(Path { steps, stroke: Some(plain(INK.paper(), 0.35)), fill: None })
            };
            // The first stands on the right, which lies above here: looking out along the leg.
            marks.push(round(top - off_face_mm));
            if *per_leg > 1 {
                let far = ruled(&[[x - 4.0, side], [x + 4.0, side]], plain(INK.paper(), 0.5));
                marks.push(far);
            }
        }
        StakeWork::Through { holes, hole_mm, mouth_mm, .. } => {
            for hole in holes {
                marks.extend(through(hole, [*hole_mm, *mouth_mm], [top + 0.5 * wide, side, side + deep]));
            }
        }
    }
    marks
}

/// The mouth on the top, and the bore's middle line down the side.
fn through(hole: &StakeHole, [hole_mm, mouth_mm]: [f64; 2], [middle, from, to]: [f64; 3]) -> Vec<PageMark> {
    let (on_top, under) = (1000.0 * hole.on_top_m, 1000.0 * hole.underneath_m);
    let steps = ellipse_steps([on_top, middle], [0.5 * mouth_mm, 0.5 * hole_mm], 0.0);
    let reach = 0.5 * mouth_mm + 3.0;
    let cross = || plain(INK.paper(), 0.18);
    vec![
        PageMark::Path(Path { steps, stroke: Some(plain(INK.paper(), 0.5)), fill: None }),
        ruled(&[[on_top - reach, middle], [on_top + reach, middle]], cross()),
        ruled(&[[on_top, middle - reach], [on_top, from]], cross()),
        ruled(&[[on_top, from], [under, to]], plain(INK.paper(), 0.5)),
        ruled(
            &[[on_top, from], [on_top, to]],
            Stroke { dashes_mm: vec![1.2, 0.8], ..plain(GREY.paper(), 0.18) },
        ),
    ]
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::drawing::sample::sample;
    use crate::quantity::UnitSystem;
    use crate::workshop::{fit::fit, joints::joints};

    /// By hand: a stake of 12 mm at 180 mm under a timber 140 mm deep, leaning 15°: on top 180 + 140·tan 15° = 217.5 mm from the tip;
    /// bore 13.5 mm, its mouth 13.5/cos 15° = 13.98 mm long.
    #[test]
    fn a_leaning_bore_comes_out_where_the_stake_stands() {
        let (mut job, computed) = sample(UnitSystem::Metric);
        job.rig.base.timber_depth_mm = 140.0;
        (job.rig.stakes.per_leg, job.rig.stakes.inset_m, job.rig.stakes.diameter_mm) = (1, 0.18, 12.0);
        job.workshop.base.stake_slant_deg = Some(15.0);
        let found = joints(&job, &computed, &fit(&job).unwrap()).unwrap();
        let figure = of(&job, &found.stakes).unwrap();
        let mouth = figure.marks.iter().filter_map(PageMark::extent);
        let mouth: Vec<_> =
            mouth.filter(|it| (it.w - 13.976).abs() < 0.02 && (it.h - 13.5).abs() < 0.02).collect();
        assert_eq!(mouth.len(), 1);
        assert!((mouth[0].x + mouth[0].w / 2.0 - 217.513).abs() < 0.02, "{mouth:?}");
        let line = figure.marks.iter().filter_map(PageMark::extent);
        assert!(line.into_iter().any(|it| (it.w - 37.513).abs() < 0.01 && (it.h - 140.0).abs() < 0.01));
    }

    #[test]
    fn without_stakes_there_is_no_drawing() {
        let (mut job, computed) = sample(UnitSystem::Metric);
        job.rig.stakes.per_leg = 0;
        let found = joints(&job, &computed, &fit(&job).unwrap()).unwrap();
        assert!(of(&job, &found.stakes).is_none());
    }
}
