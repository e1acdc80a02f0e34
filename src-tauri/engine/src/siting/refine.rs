//! The best places moved off the middles of their cells, and their guys off the turns that were tried, to where they have
//! more marks: compass search (Kolda, Lewis & Torczon 2003, SIAM Review 45(3), section 1.2.1: try each way, go the best, else
//! halve the step). Every step is a whole plan, so a place stays accepted on its way.

use crate::numerics::real::hypot;
use crate::quantity::FieldErrors;
use crate::quantity::bearing::wrap_360;
use crate::yard::flat::P2;

use super::poses::Pose;
use super::results::SitingPlace;
use super::search::SitingSearch;

/// Pegs are not set finer (common practice: an inch or two), nor turns read finer by a phone.
const FINEST_M: f64 = 0.05;
const FINEST_DEG: f64 = 1.0;
/// Less than this is no improvement: marks of symmetrical places differ by rounding alone.
const LEAST_GAIN: f64 = 1e-6;

/// A place in one turn, as it was planned.
pub(super) type PlacedTurn = (SitingPlace, Pose);

/// How far a place may be moved.
pub(super) struct Room<'a> {
    /// The middle of its cell.
    pub centre: P2,
    pub cell_m: f64,
    /// From one turn of the guys that was tried to the next.
    pub turn_deg: f64,
    /// The other places, and how far from them it stays.
    pub others: &'a [P2],
    pub apart_m: f64,
}

impl Room<'_> {
    fn holds(&self, at: P2) -> bool {
        let in_cell = (0..2).all(|axis| (at[axis] - self.centre[axis]).abs() <= self.cell_m / 2.0);
        let far = |other: &P2| hypot(other[0] - at[0], other[1] - at[1]) >= self.apart_m;
        in_cell && self.others.iter().all(far)
    }
}

impl SitingSearch<'_> {
    /// The place moved within its room until no small step has more marks.
    ///
    /// # Errors
    /// As the plan's stages.
    pub(super) fn refined(&mut self, from: PlacedTurn, room: &Room<'_>) -> Result<PlacedTurn, FieldErrors> {
        let mut here = from;
        let mut step = [room.cell_m / 4.0, room.turn_deg / 4.0];
        loop {
            let mut best: Option<PlacedTurn> = None;
            for (at, pose) in steps_from(&here, step) {
                let floor = best.as_ref().unwrap_or(&here).0.score.total + LEAST_GAIN;
                if !room.holds(at) {
                    continue;
                }
                if let Some(place) = self.scored(at, pose)?.filter(|place| place.score.total > floor) {
                    best = Some((place, pose));
                }
            }
            match best {
                Some(better) => here = better,
                None if step[0] / 2.0 < FINEST_M && step[1] / 2.0 < FINEST_DEG => return Ok(here),
                None => step = step.map(|it| it / 2.0),
            }
        }
    }
}

/// A step each way over the ground, straight and across, and one each way round, alone and together: along a wall better places
/// lie where one moves and turns at once. Steps that are too fine are left out.
fn steps_from(here: &PlacedTurn, [step_m, step_deg]: [f64; 2]) -> Vec<(P2, Pose)> {
    let (place, pose) = here;
    let each = |step: f64, is_worth: bool| if is_worth { vec![0.0, step, -step] } else { vec![0.0] };
    let over = each(step_m, step_m >= FINEST_M);
    let round = each(step_deg, step_deg >= FINEST_DEG && pose.moved.is_none());
    let turned = |by| Pose { guy_turn_deg: wrap_360(pose.guy_turn_deg + by), ..*pose };
    let mut steps = Vec::new();
    for &east in &over {
        for &north in &over {
            let at = [place.at_m[0] + east, place.at_m[1] + north];
            steps.extend(round.iter().map(|by| (at, turned(*by))));
        }
    }
    // The first is no step.
    steps.split_off(1)
}
