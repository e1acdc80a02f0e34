//! How far the mast is from buckling.

use super::beam::BeamPart;
use super::loads::LoadCase;
use super::model::Model;
use super::solve::Solver;
use crate::numerics::block_tridiagonal::BlockTridiagonal;

/// Looked no further: the axial forces are no danger.
const MOST: f64 = 1e6;

/// The least factor λ on the beams' axial forces at which the mast, in the state of the solver's last
/// equilibrium and with its guys as stiff as they are there, would buckle: det(K_M + λ·K_G) = 0, K_M what the
/// beams and guys are without axial force in the beams, K_G what those forces add. Nothing where no factor up to
/// a million does.
///
/// # Accuracy
/// 1e-6 relative, by bisection on the number of negative eigenvalues.
/// # References
/// przemieniecki1968, §15.3.
pub fn buckling_factor(solver: &Solver, model: &Model, case: &LoadCase) -> Option<f64> {
    let mut system = solver.system.clone();
    system.evaluate_with_stiffness(model, case, 1.0, BeamPart::Material);
    let material = system.stiffness.clone();
    system.evaluate_with_stiffness(model, case, 1.0, BeamPart::Whole);
    let whole = system.stiffness.clone();
    // K_M + λ·(K − K_M)
    let mut geometric = whole.clone();
    geometric.set_sum(&whole, &material, -1.0);
    let mut work = whole;
    let (mut low, mut high) = (0.0, 1.0);
    while !buckles(&mut work, &material, &geometric, high) {
        low = high;
        high *= 2.0;
        if high > MOST {
            return None;
        }
    }
    while high - low > 1e-7 * high {
        let middle = 0.5 * (low + high);
        if buckles(&mut work, &material, &geometric, middle) {
            high = middle;
        } else {
            low = middle;
        }
    }
    Some(0.5 * (low + high))
}

fn buckles(
    work: &mut BlockTridiagonal,
    material: &BlockTridiagonal,
    geometric: &BlockTridiagonal,
    factor: f64,
) -> bool {
    work.set_sum(material, geometric, factor);
    work.factorise() > 0
}
