//! Which places the quick rules leave open, against the same rules asked of everything in the yard one by one, without an index:
//! points from the plan's own layout, distances from school geometry.

use mastwright_engine::job::{AnchorLayout, Job, Placement, PointFix};
use mastwright_engine::plan::{FixedPoints, Layout, Surveyed, compute_on_points, lay_out_for_map};
use mastwright_engine::siting::SitingWishes;
use mastwright_engine::yard::{PlacedShape, PlacedYard};

use crate::cramped_yard::cramped;
use crate::random_jobs::Chance;
use crate::siting::{cells, is_open, middle, of_plans, searched, surveyed};

type P2 = [f64; 2];

fn to_segment_m(p: P2, a: P2, b: P2) -> f64 {
    let way = [b[0] - a[0], b[1] - a[1]];
    let square = way[0] * way[0] + way[1] * way[1];
    let t = if square > 0.0 {
        (((p[0] - a[0]) * way[0] + (p[1] - a[1]) * way[1]) / square).clamp(0.0, 1.0)
    } else {
        0.0
    };
    (p[0] - a[0] - t * way[0]).hypot(p[1] - a[1] - t * way[1])
}

fn sides(outline: &[P2]) -> impl Iterator<Item = [P2; 2]> + '_ {
    (0..outline.len()).map(|i| [outline[i], outline[(i + 1) % outline.len()]])
}

/// By the crossings of a ray to the east.
fn within(outline: &[P2], p: P2) -> bool {
    let crosses = |[a, b]: [P2; 2]| {
        (a[1] > p[1]) != (b[1] > p[1]) && p[0] < a[0] + (p[1] - a[1]) / (b[1] - a[1]) * (b[0] - a[0])
    };
    sides(outline).filter(|side| crosses(*side)).count() % 2 == 1
}

/// What a thing takes up on the ground: lines as wide as they are, or an outline.
enum OnGround {
    Lines(Vec<P2>, f64),
    Outline(Vec<P2>),
}

fn on_ground(shape: &PlacedShape) -> OnGround {
    match shape {
        PlacedShape::Tree { at, trunk_radius_m, .. } => OnGround::Lines(vec![*at, *at], *trunk_radius_m),
        PlacedShape::Post { at, radius_m, .. } => OnGround::Lines(vec![*at, *at], *radius_m),
        PlacedShape::Barrier { line, thickness_m, .. } => OnGround::Lines(line.clone(), thickness_m / 2.0),
        // Of two points in these yards, and cut off square at its ends.
        PlacedShape::Path { line, width_m, .. } => OnGround::Outline(across(line[0], line[1], width_m / 2.0)),
        PlacedShape::Building { outline, .. } | PlacedShape::KeepOff { outline } => {
            OnGround::Outline(outline.clone())
        }
    }
}

fn across(a: P2, b: P2, half_m: f64) -> Vec<P2> {
    let long_m = (b[0] - a[0]).hypot(b[1] - a[1]);
    let aside = [-(b[1] - a[1]) * half_m / long_m, (b[0] - a[0]) * half_m / long_m];
    let [left, right] = [1.0, -1.0].map(|sign| [sign * aside[0], sign * aside[1]]);
    [(a, left), (b, left), (b, right), (a, right)].map(|(p, by)| [p[0] + by[0], p[1] + by[1]]).to_vec()
}

impl OnGround {
    fn lines(&self) -> Vec<[P2; 2]> {
        match self {
            Self::Lines(line, _) => line.windows(2).map(|ends| [ends[0], ends[1]]).collect(),
            Self::Outline(outline) => sides(outline).collect(),
        }
    }

    fn half_m(&self) -> f64 {
        if let Self::Lines(_, half_m) = self { *half_m } else { 0.0 }
    }

    fn to_point_m(&self, p: P2) -> f64 {
        if let Self::Outline(outline) = self
            && within(outline, p)
        {
            return 0.0;
        }
        let least =
            self.lines().into_iter().map(|[a, b]| to_segment_m(p, a, b)).fold(f64::INFINITY, f64::min);
        (least - self.half_m()).max(0.0)
    }

    /// From a convex outline, which two lines that cross come no nearer to.
    fn to_outline_m(&self, timber: &[P2]) -> f64 {
        let corners = timber.iter().map(|p| self.to_point_m(*p));
        let ends = self.lines().into_iter().flatten().map(|p| {
            let aside = sides(timber).map(|[a, b]| to_segment_m(p, a, b)).fold(f64::INFINITY, f64::min);
            (if within(timber, p) { 0.0 } else { aside } - self.half_m()).max(0.0)
        });
        let crossed = self.lines().into_iter().any(|[a, b]| sides(timber).any(|[c, d]| cross(a, b, c, d)));
        if crossed { 0.0 } else { corners.chain(ends).fold(f64::INFINITY, f64::min) }
    }
}

fn cross(a: P2, b: P2, c: P2, d: P2) -> bool {
    let turn = |p: P2, q: P2, r: P2| (q[0] - p[0]) * (r[1] - p[1]) - (q[1] - p[1]) * (r[0] - p[0]);
    turn(a, b, c) * turn(a, b, d) < 0.0 && turn(c, d, a) * turn(c, d, b) < 0.0
}

/// By how much the nearest rule is kept in one place and turn, in metres: less than nought where one is broken.
fn kept_by_m(job: &Job, yard: &PlacedYard, layout: &Layout, ground_m: f64) -> f64 {
    let outline = yard.boundary.as_deref().expect("it has one");
    let inside_m = |p: P2| {
        let edge_m = sides(outline).map(|[a, b]| to_segment_m(p, a, b)).fold(f64::INFINITY, f64::min);
        if within(outline, p) { edge_m } else { -edge_m }
    };
    let anchors = layout.guys.iter().map(|guy| [guy.east_m, guy.north_m]);
    let stakes = layout.base.stakes.iter().map(|stake| [stake.east_m, stake.north_m]);
    let driven: Vec<P2> = anchors.chain(stakes).collect();
    let timbers: Vec<&[P2]> = layout.base.legs.iter().map(|leg| leg.outline.as_slice()).collect();
    let mut kept = f64::INFINITY;
    let mut keep = |by_m: f64| kept = kept.min(by_m);
    driven.iter().chain(timbers.iter().copied().flatten()).for_each(|p| keep(inside_m(*p)));
    let mast = layout.placed_work.mast;
    let [low, high] = [ground_m, ground_m + layout.mast.raised_height_m];
    for thing in &yard.obstacles {
        let taken = on_ground(&thing.shape);
        driven.iter().for_each(|p| keep(taken.to_point_m(*p) - thing.keep_off_m));
        timbers.iter().for_each(|timber| keep(taken.to_outline_m(timber) - thing.keep_off_m));
        if let PlacedShape::Tree { at, crown_radius_m, crown_base_z, top_z, .. } = &thing.shape
            && *crown_base_z <= high
            && *top_z >= low
        {
            let radius_m = layout.mast.stages.iter().map(|it| it.outside_mm / 2000.0).fold(0.0, f64::max);
            let off_m = ((mast[0] - at[0]).hypot(mast[1] - at[1]) - crown_radius_m).max(0.0);
            keep(off_m - thing.keep_off_m - radius_m);
        }
    }
    for pipe in &yard.buried_services {
        let taken = OnGround::Lines(pipe.line.clone(), pipe.width_m / 2.0);
        driven.iter().for_each(|p| keep(taken.to_point_m(*p) - pipe.tolerance_m));
    }
    assert!(job.yard.overhead_lines.is_empty());
    kept
}

fn placed(surveyed: &Surveyed, job: &Job, mast: P2, guy_turn_deg: f64) -> Layout {
    let placement = Placement {
        mast: PointFix::Coordinates { east_m: mast[0], north_m: mast[1] },
        front_bearing_deg: surveyed.fall.bearing_deg.unwrap_or(job.placement.front_bearing_deg),
        guy_turn_deg,
    };
    lay_out_for_map(surveyed, &job.rig, &placement).unwrap_or_else(|errors| panic!("{errors}"))
}

/// A sixth of the cells of 14 yards without wires: open where some turn breaks nothing, closed where every turn does. Within a
/// tenth of a millimetre of a limit rounding may decide.
#[test]
fn masks_are_those_of_every_thing_asked_one_by_one() {
    let (mut open, mut closed) = (0, 0);
    for seed in 0..14 {
        let mut job = cramped(seed);
        job.yard.overhead_lines.clear();
        job.rig.guy_levels[0].anchor_layout = AnchorLayout::EqualRadius { radius_m: 3.4 };
        let surveyed = surveyed(&job);
        let points = FixedPoints::of(&surveyed, &job);
        let yard =
            compute_on_points(&surveyed, &points, &job).unwrap_or_else(|errors| panic!("{errors}")).yard;
        let wishes = SitingWishes { step_m: Some(0.8), guy_turns: 4, ..of_plans() };
        let area = searched(&job, &wishes, 0).area.expect("there is a boundary");
        let step_deg = 360.0 / f64::from(job.rig.guy_levels[0].count) / 4.0;
        let mut chance = Chance::new(seed + 400);
        for (cell, state) in cells(&area).into_iter().enumerate() {
            if chance.whole(0, 5) > 0 {
                continue;
            }
            let at = middle(&area, cell);
            let ground_m = surveyed.fit.ground.height(at);
            let turns = (0..4).map(|turn| job.placement.guy_turn_deg + step_deg * f64::from(turn));
            let by_m = turns.map(|turn| kept_by_m(&job, &yard, &placed(&surveyed, &job, at, turn), ground_m));
            let by_m = by_m.fold(f64::NEG_INFINITY, f64::max);
            if by_m.abs() < 1e-4 {
                continue;
            }
            assert_eq!(is_open(state), by_m > 0.0, "yard {seed}, {at:?}: {state:?}, by {by_m} m");
            open += u32::from(by_m > 0.0);
            closed += u32::from(by_m < 0.0);
        }
    }
    assert!(open > 60 && closed > 300, "{open} open, {closed} closed");
}
