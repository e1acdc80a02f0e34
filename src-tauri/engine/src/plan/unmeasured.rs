//! What stands where nobody measured the ground.

use super::{BaseResult, GuyResult};
use crate::finding::ground::{GroundRemedy, GroundRule, OnGuessedGround};
use crate::finding::{Finding, Quantity, Severity, Subject};
use crate::ground::Ground;
use crate::quantity::estimate::COVERAGE_95;
use crate::yard::{PlacedShape, PlacedYard};

/// Every anchor, leg and obstacle that stands outside the hull of the spot heights, each by its farthest point. The
/// heights there are those of a plane that the ground inside is known not to be.
pub(super) fn findings(
    ground: &Ground,
    mast: [f64; 2],
    guys: &[GuyResult],
    base: &BaseResult,
    yard: &PlacedYard,
) -> Vec<Finding> {
    let Some(_) = &ground.surface else { return Vec::new() };
    let anchors = guys.iter().filter(|guy| guy.tells_of_anchor(guys)).map(|guy| Thing {
        subject: Subject::Guy { id: guy.id.clone() },
        stands: OnGuessedGround::AnchorOf(guy.anchor_name(guys)),
        points: vec![[guy.east_m, guy.north_m]],
    });
    let legs = base.legs.iter().map(|leg| Thing {
        subject: Subject::Leg { id: leg.id.clone() },
        stands: OnGuessedGround::Leg(leg.id.clone()),
        points: leg.outline.clone(),
    });
    let obstacles = yard.obstacles.iter().map(|obstacle| Thing {
        subject: Subject::Obstacle { id: obstacle.id.clone() },
        stands: OnGuessedGround::Obstacle(obstacle.name.clone()),
        points: stands_on(&obstacle.shape),
    });
    anchors.chain(legs).chain(obstacles).filter_map(|thing| thing.finding(ground, mast)).collect()
}

struct Thing {
    subject: Subject,
    stands: OnGuessedGround,
    points: Vec<[f64; 2]>,
}

impl Thing {
    fn finding(self, ground: &Ground, mast: [f64; 2]) -> Option<Finding> {
        let outside = self.points.iter().filter_map(|&at| Some((at, ground.outside(at)?.distance_m)));
        let (at, _) = outside.max_by(|a, b| a.1.total_cmp(&b.1))?;
        let (rule, remedy) = (GroundRule::Guessed { stands: self.stands }, GroundRemedy::MeasureSpotThere);
        Some(Finding {
            measured: Some(Quantity::LengthM { value: COVERAGE_95 * ground.difference_sigma(mast, at) }),
            ..Finding::rule_of_thumb(Severity::Unchecked, rule, self.subject, remedy)
        })
    }
}

/// A path has no height of its own, but headroom is measured from its ground.
fn stands_on(shape: &PlacedShape) -> Vec<[f64; 2]> {
    match shape {
        PlacedShape::Path { line, .. } => line.clone(),
        shape => shape.stands_on(),
    }
}
