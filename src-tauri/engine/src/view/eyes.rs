//! Where the eyes are: over a mark or a place of the map, on the surveyed ground or an upper floor.

use super::camera::P3;
use crate::job::Standpoint;
use crate::plan::Surveyed;
use crate::quantity::{FieldError, FieldErrors};
use crate::round_figures::view::EYE;

/// Somebody who stands in a place and looks.
#[derive(Debug, Clone, PartialEq)]
pub struct Eyes {
    /// Empty where the job has no such standpoint.
    pub id: String,
    pub name: String,
    pub east_m: f64,
    pub north_m: f64,
    /// Of the surveyed ground there.
    pub ground_m: f64,
    pub floor_height_m: f64,
    pub eye_height_m: f64,
}

impl Eyes {
    pub fn position(&self) -> P3 {
        [self.east_m, self.north_m, self.ground_m + self.floor_height_m + self.eye_height_m]
    }
}

/// The eyes of somebody in one of the job's standpoints; `path` is where the job has its place.
///
/// # Errors
/// A place that can't be found, or of which two fit its tapes.
pub fn eyes_of(surveyed: &Surveyed, standpoint: &Standpoint, path: &str) -> Result<Eyes, FieldErrors> {
    if surveyed.positions.is_open(&standpoint.at, path) {
        let (given, allowed) = ("a place on either side", "the side of the line between its marks");
        return Err(FieldError::new(path, given, allowed).into());
    }
    let at = surveyed.positions.locate(&standpoint.at, path)?.at;
    Ok(Eyes {
        id: standpoint.id.clone(),
        name: standpoint.name.clone(),
        east_m: at[0],
        north_m: at[1],
        ground_m: surveyed.fit.ground.height(at),
        floor_height_m: standpoint.floor_height_m,
        eye_height_m: standpoint.eye_height_m.unwrap_or(EYE.of(surveyed.units.system)),
    })
}
