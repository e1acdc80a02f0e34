//! A foot's template at full size: its four sides unrolled in one strip with the saw cut's line, to be wrapped round the
//! block.

use crate::drawing::marks;
use crate::drawing::marks::{PageMark, Path, Step, Stroke, line as ruled, plain, steps_through};
use crate::drawing::pages::full_size::FullSize;
use crate::drawing::pages::text::{SMALL_MM, line, shortened};
use crate::drawing::paint::{GREY, INK};
use crate::drawing::scene::Align;
use crate::drawing::scene_marks::words;
use crate::drawing::words::sheet as sentences;
use crate::job::{Base, Job};
use crate::plan::LegResult;
use crate::quantity::UnitSystem;
use crate::report::format;
use crate::workshop::joints::feet::FootCut;

/// Beside the strip: room for the words at its first corner.
const BESIDE_MM: f64 = 12.0;
/// A flap to stick the strip's end under its beginning.
const FLAP_MM: f64 = 12.0;
/// Under the strip: two rows of heights and one of names.
const UNDER_MM: f64 = 16.0;
/// The cut is a plane. Where the ground is less flat than this under the foot, the sheet says so: the thickness of a
/// pencil line on a rough timber, as for shims (common practice).
const FLAT_WITHIN_MM: f64 = 3.0;
pub(super) const WOOD_GROUND: &str = "#f3ead9";

/// A foot whose cut lies farther down than this has the lower part alone on its template: fewer tiles, fewer errors.
const SHORT_MM: f64 = 180.0;
/// So much of the sides is left over the cut then.
const OVER_CUT_MM: f64 = 60.0;

/// Where the template of such heights begins: a whole number of centimetres or inches down.
fn begins_mm(heights: &[f64; 5], system: UnitSystem) -> f64 {
    let least = heights.iter().copied().fold(f64::INFINITY, f64::min);
    if least < SHORT_MM {
        return 0.0;
    }
    let step = if system == UnitSystem::Metric { 10.0 } else { 25.4 };
    ((least - OVER_CUT_MM) / step).floor() * step
}
/// How far the plan's gaps at the middles of the four sides lie from the plane at most.
fn off_mm(cut: &FootCut, leg: &LegResult, base: &Base) -> f64 {
    let (out, side) = (base.foot_thickness_mm / 2.0, base.foot_width_mm / 2.0);
    [
        (out, 0.0, leg.gap_outer_m),
        (-out, 0.0, leg.gap_inner_m),
        (0.0, side, leg.gap_right_m),
        (0.0, -side, leg.gap_left_m),
    ]
    .into_iter()
    .map(|(out, right, gap_m)| (cut.height_mm(out, right) - 1000.0 * gap_m).abs())
    .fold(0.0, f64::max)
}

/// Heights of the foot at its edges, in the order that they come round it, and the first again.
fn corners_mm(cut: &FootCut, base: &Base) -> [f64; 5] {
    let [a, b, c, d] = cut.edges_mm(base);
    [a, b, c, d, a]
}

/// The template of what stands under a leg.
pub(super) fn of(job: &Job, leg: &LegResult) -> FullSize {
    let base = &job.rig.base;
    let cut = FootCut::of(leg);
    let heights = corners_mm(&cut, base);
    let from_mm = begins_mm(&heights, job.units.system);
    let on_strip = heights.map(|height| height - from_mm);
    let (thick, wide) = (base.foot_thickness_mm, base.foot_width_mm);
    let folds = [0.0, wide, wide + thick, 2.0 * wide + thick, 2.0 * (wide + thick)].map(|x| BESIDE_MM + x);
    let tallest = on_strip.into_iter().fold(0.0, f64::max);
    let size_mm = [folds[4] + FLAP_MM + 2.0, tallest + UNDER_MM];
    let mut marks = strip(&folds, &on_strip);
    marks.extend(words_of(job, leg, &folds, &on_strip, from_mm));
    let off = off_mm(&cut, leg, base);
    let uneven = if off > FLAT_WITHIN_MM {
        sentences::not_flat(&format::length_small(off, job.units))
    } else {
        String::new()
    };
    FullSize {
        name: format!("Foot of the {} leg", leg.id),
        size_mm,
        marks,
        how: format!("{}{uneven}", sentences::strip_for_foot(from_mm, job.units)),
        caution: sentences::BEFORE_SAWING.to_owned(),
        system: job.units.system,
    }
}

fn strip(folds: &[f64; 5], heights: &[f64; 5]) -> Vec<PageMark> {
    let [left, .., right] = *folds;
    let cut: Vec<[f64; 2]> = folds.iter().zip(heights).map(|(&x, &y)| [x, y]).collect();
    let outline: Vec<[f64; 2]> = [[right, 0.0], [left, 0.0]].into_iter().chain(cut.iter().copied()).collect();
    let flap_y = heights[4];
    let flap = [
        [right, 0.0],
        [right + FLAP_MM, 4.0_f64.min(flap_y / 3.0)],
        [right + FLAP_MM, flap_y * 0.8],
        [right, flap_y],
    ];
    let fill = Some(marks::Fill { colour: WOOD_GROUND, opacity: 1.0 });
    let mut marks = vec![
        PageMark::Path(Path {
            steps: steps_through(&outline, true),
            stroke: Some(plain(INK.paper(), 0.25)),
            fill,
        }),
        ruled(&flap, plain(GREY.paper(), 0.18)),
        PageMark::Path(Path {
            steps: steps_through(&cut, false),
            stroke: Some(plain(INK.paper(), 0.7)),
            fill: None,
        }),
    ];
    let fold = Stroke { dashes_mm: vec![3.0, 1.5], ..plain(INK.paper(), 0.25) };
    for (&x, &height) in folds.iter().zip(heights).skip(1) {
        let steps = vec![Step::Move([x, 0.0]), Step::Line([x, height])];
        marks.push(PageMark::Path(Path { steps, stroke: Some(fold.clone()), fill: None }));
    }
    marks
}

/// Heights are told from the block's upper end, wherever the strip begins.
fn words_of(
    job: &Job,
    leg: &LegResult,
    folds: &[f64; 5],
    on_strip: &[f64; 5],
    from_mm: f64,
) -> Vec<PageMark> {
    let tallest = on_strip.iter().copied().fold(0.0, f64::max);
    let mut marks = Vec::new();
    for (i, (&x, &height)) in folds.iter().zip(on_strip).enumerate() {
        // In two rows, so that those of a thin foot stand clear of each other.
        let y = tallest + 3.5 + 3.6 * (i % 2) as f64;
        marks.push(ruled(&[[x, height], [x, y - 1.8]], plain(GREY.paper(), 0.13)));
        marks.push(words(
            [x, y],
            SMALL_MM,
            true,
            Align::Middle,
            &format::length((height + from_mm) / 1000.0, job.units),
        ));
    }
    for (pair, name) in folds.windows(2).zip(["outer face", "left side", "inner face", "right side"]) {
        let (width, middle) = (pair[1] - pair[0], (pair[0] + pair[1]) / 2.0);
        let name = shortened(name, SMALL_MM, false, width - 1.0);
        marks.push(words([middle, tallest + 12.5], SMALL_MM, false, Align::Middle, &name));
    }
    let least = on_strip.iter().copied().fold(f64::INFINITY, f64::min);
    if least > 8.0 {
        let name = if from_mm > 0.0 {
            let from = format::length(from_mm / 1000.0, job.units);
            format!("{} leg – this edge {from} under the upper end", leg.id)
        } else {
            format!("{} leg – upper end, against the timber", leg.id)
        };
        let name = shortened(&name, SMALL_MM, false, folds[4] - folds[0] - 4.0);
        marks.push(line([folds[0] + 2.0, 3.0], SMALL_MM, false, &name));
    }
    marks
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::drawing::sample::sample;

    /// By hand: a gap of 150 mm at the centre, ground rising 45° outwards under a foot 40 mm thick takes 20 mm off at the
    /// outer face and adds 20 mm at the inner one; level across.
    #[test]
    fn the_corners_are_those_of_the_plane_through_the_gap() {
        let (job, computed) = sample(UnitSystem::Metric);
        let mut leg = computed.plan.base.legs[0].clone();
        leg.gap_centre_m.value = 0.150;
        (leg.bevel_along_deg, leg.bevel_across_deg) = (45.0, 0.0);
        let mut base = job.rig.base.clone();
        (base.foot_thickness_mm, base.foot_width_mm) = (40.0, 90.0);
        let expected = [130.0, 130.0, 170.0, 170.0, 130.0];
        for (height, by_hand) in corners_mm(&FootCut::of(&leg), &base).into_iter().zip(expected) {
            assert!((height - by_hand).abs() < 1e-9, "{height} for {by_hand}");
        }
        // Rising to the right at 45° under a foot 90 mm wide: 45 mm less on the right side.
        (leg.bevel_along_deg, leg.bevel_across_deg) = (0.0, 45.0);
        let expected = [105.0, 195.0, 195.0, 105.0, 105.0];
        for (height, by_hand) in corners_mm(&FootCut::of(&leg), &base).into_iter().zip(expected) {
            assert!((height - by_hand).abs() < 1e-9, "{height} for {by_hand}");
        }
    }

    /// On a plane the template's heights at the middles of the faces are the gaps that the plan says.
    #[test]
    fn on_even_ground_the_template_agrees_with_the_plan() {
        let (mut job, _) = sample(UnitSystem::Metric);
        let slope = |id: &str, bearing_deg, slope_deg| crate::job::SlopeReading {
            id: id.into(),
            bearing_deg,
            slope_deg,
            sigma_deg: None,
            struck: false,
        };
        job.yard.slopes = vec![slope("a", 60.0, 9.0), slope("b", 150.0, -4.0)];
        job.rig.base.shim_up_to_mm = 10.0;
        let computed = crate::plan::compute(&job).unwrap();
        let feet = computed.plan.base.legs.iter().filter(|leg| leg.support == crate::plan::Support::Foot);
        let mut seen = 0;
        for leg in feet {
            assert!(off_mm(&FootCut::of(leg), leg, &job.rig.base) < 0.01, "{}", leg.id);
            seen += 1;
        }
        assert!(seen > 0, "the sample has a foot");
    }

    /// By hand: cuts at 470 to 490 mm, 60 mm of the sides over them: 410 mm down; 16 inches are 406.4 mm.
    #[test]
    fn a_long_foot_has_its_lower_part_alone_on_its_template() {
        let (mut job, computed) = sample(UnitSystem::Metric);
        let mut leg = computed.plan.base.legs[0].clone();
        leg.gap_centre_m.value = 0.480;
        (leg.bevel_along_deg, leg.bevel_across_deg) = (0.0, 45.0);
        job.rig.base.foot_width_mm = 20.0;
        let metric = of(&job, &leg);
        assert!((metric.size_mm[1] - (490.0 - 410.0 + UNDER_MM)).abs() < 1e-6, "{:?}", metric.size_mm);
        assert!(metric.how.contains("410 mm under its upper end"), "{}", metric.how);
        job.units.system = UnitSystem::Imperial;
        let imperial = of(&job, &leg);
        assert!((imperial.size_mm[1] - (490.0 - 406.4 + UNDER_MM)).abs() < 1e-6, "{:?}", imperial.size_mm);
        // The heights written are those of the whole foot.
        let written = imperial.marks.iter().filter_map(|mark| match mark {
            PageMark::Words(words) => Some(words.words.as_str()),
            _ => None,
        });
        let by_hand = format::length(0.490, job.units);
        assert!(written.clone().any(|words| words == by_hand), "{:?}", written.collect::<Vec<_>>());
    }

    #[test]
    fn ground_that_is_not_flat_is_said() {
        let (job, computed) = sample(UnitSystem::Metric);
        let mut leg = computed.plan.base.legs[0].clone();
        assert!(!of(&job, &leg).how.contains("not flat"));
        leg.gap_left_m += 0.02;
        assert!(of(&job, &leg).how.contains("not flat under this foot"));
    }
}
