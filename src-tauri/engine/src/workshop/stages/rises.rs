//! How far one pull of the rod lifts, and how many pulls a tube needs.
//!
//! The rod stands beside the tubes. Its lower end hangs in the hook of the strap and is drawn up to the winch; its upper end is
//! pinned to the tube that rises, just above the mouth of the one below. Then the tube is pinned, the rod goes down again, and is
//! pinned to a lower hole.

/// The rod and the winch, heights above the mast's foot.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RodRig {
    /// Between the rod's two end holes.
    pub rod_m: f64,
    pub hook_lowest_m: f64,
    pub hook_highest_m: f64,
    /// A pull that gains less is none.
    pub shortest_m: f64,
}

/// How a tube rises.
#[derive(Debug, Clone, Copy, PartialEq, serde::Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct Rises {
    pub pulls: u32,
    pub each_m: f64,
    /// From the hook's hole in the rod to the hole that takes the tube's pin.
    pub rod_hole_m: f64,
    /// The hook at the beginning of each pull.
    pub hook_from_m: f64,
    /// What one pull can gain.
    pub stroke_m: f64,
}

/// What the rod has to be for any pull at all.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TooShort {
    pub stroke_m: f64,
    /// Between its end holes.
    pub rod_at_least_m: f64,
}

/// The pulls by which a tube rises its travel when it is pinned to the rod at a height.
///
/// # Errors
/// Where the rod reaches the pin only with the hook so high that nothing is left to pull.
pub fn rises(rig: &RodRig, pin_m: f64, travel_m: f64) -> Result<Rises, TooShort> {
    let rod_hole_m = rig.rod_m.min(pin_m - rig.hook_lowest_m);
    let hook_from_m = pin_m - rod_hole_m;
    let stroke_m = rig.hook_highest_m - hook_from_m;
    if stroke_m < rig.shortest_m.min(travel_m) - 1e-9 || stroke_m <= 0.0 {
        return Err(TooShort { stroke_m, rod_at_least_m: pin_m - rig.hook_highest_m + rig.shortest_m });
    }
    let pulls = (travel_m / stroke_m - 1e-9).ceil().max(1.0);
    Ok(Rises { pulls: pulls as u32, each_m: travel_m / pulls, rod_hole_m, hook_from_m, stroke_m })
}
