//! How the yard's points are found, and how surely they lie as seen from the mast.

use super::flat::nearest_on;
use crate::job::PointFix;
use crate::quantity::FieldError;
use crate::survey::positions::{Pegged, PositionEstimate, Positions};

/// Finds points for `place`.
pub trait Finder {
    /// Where a fix lies; `path` is its JSON pointer in the job.
    ///
    /// # Errors
    /// Where it leads nowhere.
    fn locate(&self, fix: &PointFix, path: &str) -> Result<PositionEstimate, FieldError>;

    /// Whether a fix waits for a side to be named, so that nobody knows yet where it lies.
    fn is_open(&self, fix: &PointFix, path: &str) -> bool;
}

/// A chain of fixes with their pointers, and where they lie.
#[derive(Debug, Clone)]
pub struct Fixes {
    pub points: Vec<(PointFix, String)>,
    pub at: Vec<[f64; 2]>,
    pub closed: bool,
    /// The largest standard uncertainty of any of them in any direction, among the marks.
    pub most_sigma_m: f64,
}

/// How surely the yard's things lie as seen from somewhere.
pub trait Sight {
    /// One sigma of the distance to the nearest point of a chain.
    fn sigma_m(&self, fixes: &Fixes) -> f64;
}

/// The yard as seen from the mast.
pub struct FromMast<'a> {
    pub positions: &'a Positions,
    pub pegged: &'a Pegged,
    pub mast: [f64; 2],
}

impl Finder for Positions {
    fn locate(&self, fix: &PointFix, path: &str) -> Result<PositionEstimate, FieldError> {
        Positions::locate(self, fix, path)
    }

    fn is_open(&self, fix: &PointFix, path: &str) -> bool {
        Positions::is_open(self, fix, path)
    }
}

impl Sight for FromMast<'_> {
    /// The parts of the work stand round the mast, so the point of a long thing that lies nearest to it is the
    /// one whose uncertainty counts; its ends may be less sure without mattering.
    fn sigma_m(&self, fixes: &Fixes) -> f64 {
        let Some((from, to, share)) = nearest_on(self.mast, &fixes.at, fixes.closed) else { return 0.0 };
        let end = |index: usize| fixes.points.get(index).map(|(fix, path)| (fix, path.as_str()));
        let ends = end(from).zip(end(to));
        ends.and_then(|(a, b)| self.positions.distance_sigma_m(self.pegged, [a, b], share)).unwrap_or(0.0)
    }
}
