//! Where the eyes are: over a mark or a place of the map, on the surveyed ground or an upper floor.

use super::camera::P3;
use crate::job::{Standpoint, StandsAt};
use crate::plan::Computed;
use crate::pointer;
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

/// The eyes of somebody in one of the job's standpoints.
///
/// # Errors
/// A mark that is not there, or that nobody can place yet.
pub fn eyes_of(computed: &Computed, standpoint: &Standpoint) -> Result<Eyes, FieldErrors> {
    let at = match &standpoint.at {
        StandsAt::Place { east_m, north_m } => [*east_m, *north_m],
        StandsAt::Mark { from } => {
            let marks = &computed.yard.marks;
            let found = marks.iter().find(|mark| mark.id == *from);
            let found = found.ok_or_else(|| {
                let known: Vec<&str> = marks.iter().take(12).map(|mark| mark.id.as_str()).collect();
                let path = pointer!(in "/standpoint", Standpoint: at as StandsAt::Mark.from);
                FieldError::new(
                    path,
                    format!("text “{from}”"),
                    format!("a mark that is placed: {}", known.join(", ")),
                )
            })?;
            [found.at[0], found.at[1]]
        }
    };
    Ok(Eyes {
        id: standpoint.id.clone(),
        name: standpoint.name.clone(),
        east_m: at[0],
        north_m: at[1],
        ground_m: computed.ground.height(at),
        floor_height_m: standpoint.floor_height_m,
        eye_height_m: standpoint.eye_height_m.unwrap_or(EYE.of(computed.yard.system)),
    })
}
