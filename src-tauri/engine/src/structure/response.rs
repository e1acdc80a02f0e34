//! What the mast does under its load.

use crate::numerics::vector::Vector;

/// Everything at equilibrium; lists are in the order of the model's own. Vectors are in the site frame.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Response {
    pub nodes: Vec<NodeResponse>,
    pub elements: Vec<ElementResponse>,
    pub guys: Vec<GuyResponse>,
    pub base: BaseReaction,
    /// Largest force or moment left over at any node, as a share of all forces.
    pub residual: f64,
}

#[derive(Debug, Clone, Copy, Default, PartialEq)]
pub struct NodeResponse {
    /// From where it was unloaded.
    pub displacement_m: Vector,
    /// Turned about this axis by this angle (for small turns; 2·sin of half the angle exactly).
    pub turn_rad: Vector,
}

#[derive(Debug, Clone, Copy, Default, PartialEq)]
pub struct ElementResponse {
    /// Axial force at the lower and the upper end, tension positive.
    pub axial_n: [f64; 2],
    /// Bending moment at the lower and the upper end.
    pub bending_n_m: [f64; 2],
    /// Largest shear at either end, square to the chord.
    pub shear_n: f64,
    pub torque_n_m: f64,
    /// By the beam on its lower and its upper node.
    pub force_on_nodes_n: [Vector; 2],
    pub moment_on_nodes_n_m: [Vector; 2],
}

#[derive(Debug, Clone, Copy, Default, PartialEq)]
pub struct GuyResponse {
    pub tension_upper_n: f64,
    pub tension_lower_n: f64,
    pub on_mast_n: Vector,
    pub on_anchor_n: Vector,
}

/// By the ground on the mast's foot.
#[derive(Debug, Clone, Copy, Default, PartialEq)]
pub struct BaseReaction {
    pub force_n: Vector,
    pub moment_n_m: Vector,
}

impl Response {
    /// Largest bending moment of any element.
    pub fn largest_bending_n_m(&self) -> f64 {
        self.elements.iter().flat_map(|element| element.bending_n_m).fold(0.0, f64::max)
    }

    /// Largest compression of any element.
    pub fn largest_compression_n(&self) -> f64 {
        self.elements.iter().flat_map(|element| element.axial_n).fold(0.0, |most, axial| most.max(-axial))
    }
}
