//! The things of the yard that a guy may be made fast to, found for the guys that a rig has on them.

use super::layout::PlacedWork;
use super::surveyed::Surveyed;
use crate::finding::yard::Thing;
use crate::guys::fixing::{FixingShape, FixingThing, LevelFixing, NoFixing};
use crate::job::{GuyFixing, Obstacle, Rig, Shape, Yard};
use crate::pointer;
use crate::quantity::FieldError;
use crate::stakeout::ties::ties;
use crate::survey::PlacedMark;

/// The yard's things that may hold a guy. A yard without any has nothing of this.
#[derive(Debug, Clone, Default)]
pub struct GuyThings {
    /// With their numbers in the job's list.
    things: Vec<(usize, Obstacle)>,
    marks: Vec<PlacedMark>,
}

impl GuyThings {
    pub(super) fn of(yard: &Yard, marks: impl FnOnce() -> Vec<PlacedMark>) -> Self {
        let all = yard.obstacles.iter().enumerate();
        let things: Vec<(usize, Obstacle)> =
            all.filter(|(_, it)| it.guy_fixing.is_some()).map(|(index, it)| (index, it.clone())).collect();
        let marks = if things.is_empty() { Vec::new() } else { marks() };
        Self { things, marks }
    }

    /// The thing with this number in the job's list, its points found; none where it may hold no guy.
    pub fn shape(&self, surveyed: &Surveyed, index: usize) -> Option<FixingShape> {
        let (_, thing) = self.things.iter().find(|(number, _)| *number == index)?;
        let (_, shape, _) = shape(surveyed, index, &thing.shape).ok()??;
        Some(shape)
    }
}

/// For each level its guy that is made fast to a thing; none of them where no level has one.
///
/// # Errors
/// Where a point of such a thing can't be placed.
pub(super) fn fixings(
    surveyed: &Surveyed,
    rig: &Rig,
    placed: &PlacedWork,
) -> Result<Vec<Option<LevelFixing>>, FieldError> {
    if rig.guy_levels.iter().all(|level| level.to_thing.is_none()) {
        return Ok(Vec::new());
    }
    let of_level = |level: &crate::job::GuyLevel| {
        let Some(to) = &level.to_thing else { return Ok(None) };
        let things = &surveyed.guy_things.things;
        let known = things.iter().find(|(_, thing)| thing.id == to.thing);
        let leave = known.and_then(|(index, thing)| Some((*index, thing, thing.guy_fixing?)));
        let thing = match leave {
            Some((index, thing, leave)) => placed_thing(surveyed, placed, (index, thing), leave)?,
            None => Err(NoFixing::NoLeave),
        };
        Ok(Some(LevelFixing { guy: usize::from(to.guy).saturating_sub(1), thing }))
    };
    rig.guy_levels.iter().map(of_level).collect()
}

fn placed_thing(
    surveyed: &Surveyed,
    placed: &PlacedWork,
    (index, thing): (usize, &Obstacle),
    leave: GuyFixing,
) -> Result<Result<FixingThing, NoFixing>, FieldError> {
    if fixes(index, &thing.shape).any(|(path, fix)| surveyed.positions.is_open(fix, &path)) {
        return Ok(Err(NoFixing::PlaceNotKnown));
    }
    let Some((kind, shape, top_m)) = shape(surveyed, index, &thing.shape)? else {
        return Ok(Err(NoFixing::NothingStands));
    };
    if leave.height_m > top_m {
        return Ok(Err(NoFixing::AboveThing));
    }
    Ok(Ok(FixingThing {
        id: thing.id.clone(),
        name: thing.name.clone(),
        kind,
        shape,
        height_m: leave.height_m,
        holds_n: leave.holds_n,
        covariance: covariance(surveyed, placed, index, &thing.shape)?,
    }))
}

/// What of it a rope can end at, and how high it is; none where nothing of it stands up.
fn shape(
    surveyed: &Surveyed,
    index: usize,
    shape: &Shape,
) -> Result<Option<(Thing, FixingShape, f64)>, FieldError> {
    let mut points = Vec::new();
    for (path, fix) in fixes(index, shape) {
        points.push(surveyed.positions.locate(fix, &path)?.at);
    }
    let round = |radius_m: f64| points.first().map(|&at| FixingShape::Round { at, radius_m });
    let line = || points.windows(2).map(|ends| [ends[0], ends[1]]);
    let found = match *shape {
        Shape::Tree { trunk_radius_m, height_m, .. } => (Thing::Tree, round(trunk_radius_m), height_m),
        Shape::Post { radius_m, height_m, .. } => (Thing::Post, round(radius_m), height_m),
        Shape::Building { height_m, .. } => {
            let closing = points.last().zip(points.first()).map(|(&last, &first)| [last, first]);
            let ends = line().chain(closing).collect();
            (Thing::Building, Some(FixingShape::Faces { ends, half_m: 0.0 }), height_m)
        }
        Shape::Barrier { thickness_m, height_m, .. } => {
            let faces = FixingShape::Faces { ends: line().collect(), half_m: thickness_m / 2.0 };
            (Thing::Barrier, Some(faces), height_m)
        }
        Shape::Path { .. } | Shape::KeepOff { .. } => return Ok(None),
    };
    let (kind, shape, height_m) = found;
    Ok(shape.map(|shape| (kind, shape, height_m)))
}

/// That of the least sure of its points, as seen from the mast where that will be pegged.
fn covariance(
    surveyed: &Surveyed,
    placed: &PlacedWork,
    index: usize,
    shape: &Shape,
) -> Result<[[f64; 2]; 2], FieldError> {
    let positions = &surveyed.positions;
    let ground = &surveyed.fit.ground;
    let ties = ties(placed.mast, &surveyed.guy_things.marks, ground, &surveyed.instruments);
    let tied = ties.as_ref().map(|ties| (ties.mark_a.as_str(), ties.mark_b.as_str()));
    let pegged = positions.pegged(placed.mast, &placed.mast_fix, tied);
    let mut widest = [[0.0; 2]; 2];
    for (path, fix) in fixes(index, shape) {
        let seen = positions.seen_from(&pegged, fix, &path)?.covariance;
        if seen[0][0] + seen[1][1] > widest[0][0] + widest[1][1] {
            widest = seen;
        }
    }
    Ok(widest)
}

/// Its points with their pointers.
fn fixes(index: usize, shape: &Shape) -> impl Iterator<Item = (String, &crate::job::PointFix)> {
    let (part, points) = shape.points();
    let path = format!("{}/{part}", pointer!(yard.obstacles[index].shape));
    let is_one = part == "at";
    points
        .iter()
        .enumerate()
        .map(move |(number, fix)| (if is_one { path.clone() } else { format!("{path}/{number}") }, fix))
}
