//! How sure distances are from a point that is pegged out among the marks.
//!
//! What turns or shifts all marks together says nothing about whether an anchor clears a pipe: both move with
//! it. So a clearance is judged by the covariance of the difference of two points, with all that they share,
//! along the line between them.

use super::fix::algebra;
use super::{Followed, PositionEstimate, Positions, fix};
use crate::job::PointFix;
use crate::numerics::least_squares::DMatrix;
use crate::numerics::real::hypot;
use crate::quantity::FieldError;
use crate::survey::ellipse::principal_variances;

/// Nearer than this the line between two points has no direction to speak of.
const NO_DIRECTION_M: f64 = 0.5;

/// A point pegged out among the marks, from which others are seen.
#[derive(Debug, Clone)]
pub struct Pegged {
    pub(super) followed: Followed,
}

impl Positions {
    /// The point `at`, pegged out as the user fixed it where that was from marks; where it was chosen on the
    /// map, by tapes from the two marks `ties`, or by bearing and tape from the nearest mark without them.
    pub fn pegged(&self, at: [f64; 2], chosen: &PointFix, ties: Option<(&str, &str)>) -> Pegged {
        let as_fixed = chosen.is_from_marks().then(|| self.follow(chosen, "").ok()).flatten();
        let by_ties = || ties.and_then(|(a, b)| fix::tied(self, at, a, b));
        let followed = as_fixed.or_else(by_ties).unwrap_or_else(|| fix::polar_to(self, at));
        Pegged { followed }
    }

    /// Joint covariance of the ground's gradient (rows 0, 1) and of these marks (two rows each, east and north), in the order
    /// asked for; a mark that is not there is left out as known.
    pub fn joint_covariance(&self, marks: &[&str]) -> DMatrix<f64> {
        let joint = &self.state.joint;
        let mut rows: Vec<Option<usize>> = vec![Some(0), Some(1)];
        for id in marks {
            let first = self.index.get(*id).map(|point| 2 + 2 * point);
            rows.extend([first, first.map(|row| row + 1)]);
        }
        DMatrix::from_fn(rows.len(), rows.len(), |row, column| match (rows[row], rows[column]) {
            (Some(row), Some(column)) => joint[(row, column)],
            _ => 0.0,
        })
    }

    /// A mark as the point from which others are seen.
    pub fn at_mark(&self, id: &str) -> Option<Pegged> {
        let index = *self.index.get(id)?;
        Some(Pegged { followed: Followed::of_state(self.start_at(index)) })
    }

    /// A point as seen from another, with the covariance of the difference: what both share falls out.
    ///
    /// # Errors
    /// Where the fix leads nowhere.
    pub fn seen_from(
        &self,
        from: &Pegged,
        fix: &PointFix,
        path: &str,
    ) -> Result<PositionEstimate, FieldError> {
        let to = self.follow(fix, path)?;
        let difference = difference(&to, &to, 0.0, &from.followed);
        Ok(PositionEstimate { at: to.at, covariance: self.covariance_of(&difference) })
    }

    /// The pegged point's largest standard uncertainty in any direction, among the marks.
    pub fn most_sigma_m(&self, pegged: &Pegged) -> f64 {
        principal_variances(self.covariance_of(&pegged.followed))[0].max(0.0).sqrt()
    }

    /// One sigma of the distance from the pegged point to the point that lies `share` of the way from `a` to
    /// `b`; none where either leads nowhere.
    ///
    /// # References
    /// Law of propagation with correlated inputs: GUM 2008, 5.2.2, applied to the difference of two points.
    pub fn distance_sigma_m(
        &self,
        pegged: &Pegged,
        [(a, a_path), (b, b_path)]: [(&PointFix, &str); 2],
        share: f64,
    ) -> Option<f64> {
        let (a, b) = (self.follow(a, a_path).ok()?, self.follow(b, b_path).ok()?);
        let difference = difference(&a, &b, share, &pegged.followed);
        let covariance = self.covariance_of(&difference);
        let [[ee, en], [_, nn]] = covariance;
        let [east, north] = difference.at;
        let far_m = hypot(east, north);
        let variance = if far_m < NO_DIRECTION_M {
            principal_variances(covariance)[0]
        } else {
            (east * east * ee + 2.0 * east * north * en + north * north * nn) / (far_m * far_m)
        };
        Some(variance.max(0.0).sqrt())
    }
}

/// (1 − share)·a + share·b − from, with its derivatives and own covariance.
fn difference(a: &Followed, b: &Followed, share: f64, from: &Followed) -> Followed {
    let parts = [(a, 1.0 - share), (b, share), (from, -1.0)];
    let mut difference = Followed::known([0.0; 2], 0.0);
    for (part, weight) in parts {
        difference.at[0] += weight * part.at[0];
        difference.at[1] += weight * part.at[1];
        difference.own = algebra::add(difference.own, algebra::scale_matrix(part.own, weight * weight));
        difference
            .by_state
            .extend(part.by_state.iter().map(|(state, by)| (*state, algebra::scale_matrix(*by, weight))));
    }
    difference
}
