//! What acts on the mast besides its own weight and its guys'.

use super::model::Model;
use crate::numerics::vector::Vector;

/// Dead loads: they keep their direction as the mast moves. Lists are in the order of the model's own.
#[derive(Debug, Clone, PartialEq)]
pub struct LoadCase {
    /// Wind per metre of each element.
    pub wind_on_elements_n_per_m: Vec<Vector>,
    /// Wind per unstressed metre of each guy.
    pub wind_on_guys_n_per_m: Vec<Vector>,
    /// How far each element is bent out of the mast's line before anything loads it: what its upper end is off that line
    /// beyond its lower one, over its length.
    pub bows: Vec<Vector>,
    /// A guy that has failed is out.
    pub guy_holds: Vec<bool>,
    /// Pulls of strands, wind on the topper and the like.
    pub points: Vec<PointLoad>,
}

/// A force and a moment on a node.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PointLoad {
    pub node: usize,
    pub force_n: Vector,
    pub moment_n_m: Vector,
}

impl LoadCase {
    /// Weight and tension alone.
    pub fn still_air(model: &Model) -> Self {
        Self {
            wind_on_elements_n_per_m: vec![[0.0; 3]; model.elements.len()],
            wind_on_guys_n_per_m: vec![[0.0; 3]; model.guys.len()],
            bows: vec![[0.0; 3]; model.elements.len()],
            guy_holds: vec![true; model.guys.len()],
            points: Vec::new(),
        }
    }
}
