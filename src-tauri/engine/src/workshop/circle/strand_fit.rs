//! Strands as they are sold have one lit length and leads at their ends: which height, ring and lean of the ring fit them.

use crate::job::StrandBought;
use crate::numerics::real::{cos_deg, tan_deg};
use crate::numerics::roots::{RootRules, brent};

/// What a strand has over on its way.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Spare {
    /// From the circle at the top to the ring, straight.
    pub way_m: f64,
    /// Lit length over, to be wound up; below nothing where lead hangs in the way: so much of it is dark.
    pub lit_over_m: f64,
    /// What all of it, leads and all, is longer than its way; below nothing it does not reach.
    pub reach_over_m: f64,
}

/// The lengths of a strand that somebody has measured.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct StrandLengths {
    pub lit_m: f64,
    pub lead_top_m: f64,
    pub lead_bottom_m: f64,
}

impl StrandLengths {
    /// None while nobody has said for how long it is lit.
    pub fn of(sold: &StrandBought) -> Option<Self> {
        let StrandBought { lit_m, lead_top_m, lead_bottom_m } = *sold;
        Some(Self { lit_m: lit_m?, lead_top_m, lead_bottom_m })
    }
}

/// All of a strand, leads and all.
pub fn whole_m(strand: &StrandLengths) -> f64 {
    strand.lit_m + strand.lead_top_m + strand.lead_bottom_m
}

/// What a strand has over on a way.
pub fn spare(strand: &StrandLengths, way_m: f64) -> Spare {
    Spare { way_m, lit_over_m: strand.lit_m - way_m, reach_over_m: whole_m(strand) - way_m }
}

/// A ring round a mast on an even slope: what is asked of strands.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ConeToFit {
    /// Of the circle at the top over the ring's middle.
    pub height_m: f64,
    pub top_radius_m: f64,
    pub ring_radius_m: f64,
    /// Of the ring against level.
    pub lean_deg: f64,
}

impl ConeToFit {
    /// The way of a strand so far round from the downhill side: the ring's point lies on the leaning plane, its radius
    /// measured level ([`SourceKey::Geometry`]).
    ///
    /// [`SourceKey::Geometry`]: crate::source::SourceKey::Geometry
    pub fn way_m(&self, from_downhill_deg: f64) -> f64 {
        let out = self.ring_radius_m - self.top_radius_m;
        let drop = self.ring_radius_m * cos_deg(from_downhill_deg) * tan_deg(self.lean_deg);
        let down = self.height_m + drop;
        (out * out + down * down).sqrt()
    }

    pub fn longest_m(&self) -> f64 {
        self.way_m(0.0)
    }

    pub fn shortest_m(&self) -> f64 {
        self.way_m(180.0)
    }
}

/// What fits, each by itself with all else as it is; none where nothing within reason does.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Fits {
    /// Height at which the longest way is as long as the strand is lit.
    pub height_m: Option<f64>,
    pub ring_radius_m: Option<f64>,
    /// The largest lean at which every strand still reaches, leads taken in.
    pub most_lean_deg: Option<f64>,
    /// The largest lean at which lamps reach all the way on every strand.
    pub all_lit_lean_deg: Option<f64>,
}

/// No ring leans more.
const MOST_LEAN_DEG: f64 = 45.0;

/// Height, radius or lean at which strands as sold fit.
pub fn fits(cone: &ConeToFit, strand: &StrandLengths) -> Fits {
    let root = |f: &dyn Fn(f64) -> f64, low: f64, high: f64| {
        brent(f, low, high, RootRules { tolerance: 1e-6, max_steps: 200 }).ok()
    };
    let height = |height_m: f64| ConeToFit { height_m, ..*cone }.longest_m() - strand.lit_m;
    let radius = |ring_radius_m: f64| ConeToFit { ring_radius_m, ..*cone }.longest_m() - strand.lit_m;
    let lean = |length_m: f64| {
        let over = move |lean_deg: f64| ConeToFit { lean_deg, ..*cone }.longest_m() - length_m;
        if over(MOST_LEAN_DEG) <= 0.0 { Some(MOST_LEAN_DEG) } else { root(&over, 0.0, MOST_LEAN_DEG) }
    };
    Fits {
        height_m: root(&height, 0.0, 2.0 * strand.lit_m + 1.0),
        ring_radius_m: root(&radius, cone.top_radius_m, 2.0 * strand.lit_m + cone.top_radius_m + 1.0),
        most_lean_deg: lean(whole_m(strand)),
        all_lit_lean_deg: lean(strand.lit_m),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::numerics::real::sin_deg;

    const CONE: ConeToFit = ConeToFit { height_m: 4.0, top_radius_m: 0.0, ring_radius_m: 3.0, lean_deg: 0.0 };
    const STRAND: StrandLengths = StrandLengths { lit_m: 6.0, lead_top_m: 0.3, lead_bottom_m: 0.5 };

    /// By hand: 3, 4, 5. A strand lit for 6 m has 1 m over, and 1.8 m with its leads.
    #[test]
    fn on_level_ground_every_way_is_the_same() {
        for angle in [0.0, 77.0, 180.0] {
            assert!((CONE.way_m(angle) - 5.0).abs() < 1e-12);
        }
        let over = spare(&STRAND, 5.0);
        assert!((over.lit_over_m - 1.0).abs() < 1e-12 && (over.reach_over_m - 1.8).abs() < 1e-12);
        assert!(spare(&STRAND, 7.0).reach_over_m < 0.0);
    }

    /// The way by vectors: from the circle's point to the leaning plane's.
    #[test]
    fn ways_are_distances_of_points() {
        let cone = ConeToFit { top_radius_m: 0.2, lean_deg: 9.0, ..CONE };
        for angle in [0.0, 33.0, 90.0, 200.0] {
            let (along, across) = (3.0 * cos_deg(angle), 3.0 * sin_deg(angle));
            let low = [along, across, -along * tan_deg(9.0)];
            let top = [0.2 * cos_deg(angle), 0.2 * sin_deg(angle), 4.0];
            let way =
                (0..3).map(|axis| (top[axis] - low[axis]) * (top[axis] - low[axis])).sum::<f64>().sqrt();
            assert!((way - cone.way_m(angle)).abs() < 1e-12, "{angle}");
        }
    }

    /// By hand: lit 6 m, radius 3 m: √27 = 5.196 m high; height 4 m: √20 = 4.472 m wide. Lean: longest² = 9 + (4 + 3·t)²: for
    /// 6 m t = (√27 − 4)/3 = 0.3987, 21.74°; with leads, 6.8 m: t = (√37.24 − 4)/3 = 0.7008, 35.02°.
    #[test]
    fn what_fits_is_found_by_hand() {
        let fits = fits(&CONE, &STRAND);
        let near = |found: Option<f64>, by_hand: f64| (found.unwrap() - by_hand).abs() < 5e-3;
        assert!(near(fits.height_m, 5.196) && near(fits.ring_radius_m, 4.472), "{fits:?}");
        assert!(near(fits.all_lit_lean_deg, 21.74) && near(fits.most_lean_deg, 35.02), "{fits:?}");
        let short = StrandLengths { lit_m: 2.0, ..STRAND };
        let none = super::fits(&CONE, &short);
        assert_eq!((none.height_m, none.ring_radius_m, none.most_lean_deg), (None, None, None));
    }
}
