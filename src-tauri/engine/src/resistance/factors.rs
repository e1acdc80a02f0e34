//! The partial factors, in one place: on loads, on what resists, and the imperfections that go with them.
//!
//! A gust's loads are taken twice: as they are, and as *design loads*, [`LOADS`] times. The mast is solved under both,
//! large movements and all. What the design loads do is divided by [`LOADS`] again and held against the resistance over
//! its *whole* factor ([`STEEL_WHOLE`] for tubes): the same as design effects against R/γ_M, but on the scale on which
//! ropes and anchors have their working loads. It is the way of AISC 360-16, C2.1 (d), for allowable loads, too. The
//! larger of the two counts.

/// γ_F on wind, weights, ice and what the strands pull with (EN 12811-1:2003, 10.3.2, from memory: 1.5 on permanent and
/// variable loads; EN 1990, Table A1.2 (B): 1.5 on wind, 1.35 on weight). Tensions set in guys are not loads but lengths:
/// 1.0 (EN 1993-1-11, 5.3, from memory).
///
/// No weight of the mast is on the safe side while it stands pinned; where weight does help, against sliding, the loads
/// as they are are looked at, too.
pub const LOADS: f64 = 1.5;

/// γ_M of steel tubes as used in scaffolds (EN 12811-1:2003, 10.3.2.2, from memory). EN 1993-1-1 has 1.0 for buildings.
pub const STEEL: f64 = 1.1;

/// Loads and steel together.
pub const STEEL_WHOLE: f64 = LOADS * STEEL;

/// Bow of the mast between two supports, as a share of their distance: 1 in 150 (EN 1993-1-1:2005, Table 5.1, curve c,
/// plastic resistance; elastic would be 1 in 200).
pub const BOW: f64 = 1.0 / 150.0;
