//! The topper of two discs: the upper one carries the strands, the lower one keeps it from rocking on the tube, a spacer stands between
//! them, and a bolt through the tube or a sleeve round it keeps all of it up. That topper and spacing are so is common practice (no
//! source); what discs, bolt and sleeve carry in wind nobody shows here.

use serde::Serialize;

use super::holes::HoleCircle;
use crate::job::{Job, TopperHeld};
use crate::numerics::real::atan_deg;
use crate::plan::{Computed, RingResult};
use crate::quantity::convert::STANDARD_GRAVITY;
use crate::round_figures::shop;
use crate::tube::DiameterRange;
use crate::workshop::joints::BOLT_MORE_MM;
use crate::workshop::stages::holes::edge_mm;

/// Outside the holes, and between them and the bore, stays as much as a hole is wide: common practice (no source) for wood and thin
/// plate, as between two holes.
const EDGE_HOLES: f64 = 1.0;

/// Two discs on the top tube.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct TopperBuild {
    /// Across; as entered, else as small as its holes let it.
    pub disc_mm: f64,
    pub least_disc_mm: f64,
    pub thickness_mm: Option<f64>,
    /// From face to face, as long as the spacer.
    pub apart_mm: Option<f64>,
    /// Through the middle of both: the thickest that the top tube may be and the play.
    pub bore_mm: f64,
    /// What the tube has in it at the most.
    pub play_mm: f64,
    /// Somebody measured that tube's outside; else its list is taken.
    pub measured: bool,
    /// By its play it leans on the tube up to so much; its rim goes up and down by so much.
    pub lean_deg: Option<f64>,
    pub rim_mm: Option<f64>,
    pub held: TopperHeld,
    pub bolt: Option<TopperBolt>,
    /// From the top tube's upper end down to the lower disc's underside.
    pub reaches_down_m: Option<f64>,
    /// So far the top tube has to be cranked up before the topper's place stands out of the tube below; none where it does at once.
    pub after_m: Option<f64>,
    /// What strands and topper press down with in still air, the strands as tight as they are set.
    pub still_n: f64,
    pub trouble: Vec<TopperTrouble>,
    pub missing: Vec<TopperMissing>,
}

/// The bolt under the lower disc, straight through the tube.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct TopperBolt {
    pub bolt_mm: f64,
    pub hole_mm: f64,
    pub least_length_mm: f64,
    /// Of its middle, from the tube's upper end; none while thickness or spacing are not known.
    pub from_upper_end_m: Option<f64>,
}

/// What is wrong with it.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(tag = "kind", rename_all = "snake_case")]
pub enum TopperTrouble {
    DiscTooSmall {
        disc_mm: f64,
        least_mm: f64,
    },
    /// Between bore and holes less stays than this: nearest circle that works.
    BoreMeetsHoles {
        left_mm: f64,
        least_mm: f64,
        radius_mm: f64,
    },
    /// The discs or their bolt lie beyond the tube's upper end: the strands' top at most so high above the mast's foot.
    BeyondTheTube {
        over_m: f64,
        most_height_m: f64,
    },
}

/// What nobody has said of it yet.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum TopperMissing {
    Thickness,
    Apart,
    Held,
    Bolt,
    TubeOutside,
}

/// None where nobody has said that it is of discs, or no tube is there.
pub fn discs(job: &Job, computed: &Computed, plan: &RingResult, circle: &HoleCircle) -> Option<TopperBuild> {
    let (own, strands) = (job.workshop.topper?, job.rig.strands.as_ref()?);
    let tubes = job.rig.mast_tubes().ok()?;
    let top = tubes.last()?;
    let (system, known) = (job.units.system, top.limits.outside);
    let outside = known.unwrap_or(DiameterRange::about(top.section.outside_mm, 0.0));
    let bore_mm = outside.largest_mm + shop::BORED_PLAY.of(system);
    let play_mm = bore_mm - outside.least_mm;
    let around_mm = circle.radius_mm + (0.5 + EDGE_HOLES) * circle.hole_mm;
    let disc_mm = own.disc_mm.unwrap_or(2.0 * around_mm);
    let bears_mm = own.thickness_mm.zip(own.apart_mm).map(|(thick_mm, apart_mm)| apart_mm + 2.0 * thick_mm);
    let lean = bears_mm.map(|bears_mm| play_mm / bears_mm);
    // The strands leave the upper disc at its underside.
    let down_m = computed.plan.mast.raised_height_m - strands.top_height_m;
    let reaches_down_m = own
        .thickness_mm
        .zip(own.apart_mm)
        .map(|(thick_mm, apart_mm)| down_m + (apart_mm + thick_mm) / 1000.0);
    let bolt = own.bolt_mm.filter(|_| own.held == TopperHeld::Bolt).map(|bolt_mm| TopperBolt {
        bolt_mm,
        hole_mm: bolt_mm + shop::BORED_PLAY.of(system),
        least_length_mm: outside.largest_mm + BOLT_MORE_MM,
        from_upper_end_m: reaches_down_m.map(|down_m| down_m + 0.5 * bolt_mm / 1000.0),
    });
    let lowest_m = bolt.and_then(|bolt| bolt.from_upper_end_m).or(reaches_down_m);
    let mut found = TopperBuild {
        disc_mm,
        least_disc_mm: 2.0 * around_mm,
        thickness_mm: own.thickness_mm,
        apart_mm: own.apart_mm,
        bore_mm,
        play_mm,
        measured: known.is_some(),
        lean_deg: lean.map(atan_deg),
        rim_mm: lean.map(|lean| 0.5 * disc_mm * lean),
        held: own.held,
        bolt,
        reaches_down_m,
        after_m: lowest_m
            .filter(|_| top.telescoped && tubes.len() > 1)
            .map(|lowest_m| lowest_m - shop::STANDS_OUT.of(system))
            .filter(|after_m| *after_m > 0.0),
        still_n: super::upward_pull_n(strands, plan)
            + job.rig.topper.as_ref().map_or(0.0, |topper| topper.mass_kg * STANDARD_GRAVITY),
        trouble: Vec::new(),
        missing: not_said(&own, known.is_some()),
    };
    found.trouble = trouble(&found, circle, down_m, strands.top_height_m);
    Some(found)
}

fn not_said(own: &crate::job::TopperDiscs, measured: bool) -> Vec<TopperMissing> {
    let open = [
        (own.thickness_mm.is_none(), TopperMissing::Thickness),
        (own.apart_mm.is_none(), TopperMissing::Apart),
        (own.held == TopperHeld::Unsaid, TopperMissing::Held),
        (own.held == TopperHeld::Bolt && own.bolt_mm.is_none(), TopperMissing::Bolt),
        (!measured, TopperMissing::TubeOutside),
    ];
    open.into_iter().filter(|(open, _)| *open).map(|(_, what)| what).collect()
}

fn trouble(of: &TopperBuild, circle: &HoleCircle, down_m: f64, top_height_m: f64) -> Vec<TopperTrouble> {
    let mut found = Vec::new();
    // A hair: what is entered may have been rounded.
    if of.disc_mm < of.least_disc_mm - 0.1 {
        found.push(TopperTrouble::DiscTooSmall { disc_mm: of.disc_mm, least_mm: of.least_disc_mm });
    }
    let least_mm = EDGE_HOLES * circle.hole_mm;
    let left_mm = circle.radius_mm - 0.5 * (circle.hole_mm + of.bore_mm);
    if left_mm < least_mm {
        let radius_mm = circle.radius_mm + least_mm - left_mm;
        found.push(TopperTrouble::BoreMeetsHoles { left_mm, least_mm, radius_mm });
    }
    // The upper disc has to sit on the tube, and the bolt keep its distance from the tube's end.
    let disc_m = of.thickness_mm.unwrap_or(0.0) / 1000.0 - down_m;
    let bolt_m = of.bolt.and_then(|bolt| Some(edge_mm(bolt.hole_mm) / 1000.0 - bolt.from_upper_end_m?));
    let over_m = bolt_m.map_or(disc_m, |bolt_m| bolt_m.max(disc_m));
    if over_m > 1e-6 {
        found.push(TopperTrouble::BeyondTheTube { over_m, most_height_m: top_height_m - over_m });
    }
    found
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::job::TopperDiscs;

    /// The demo by hand. Top tube 33.5 and 33.4 mm by calliper, 0.1 off: 33.3 to 33.6. Bored 33.6 + 1/16 in = 35.1875 mm, so up to 1.8875 mm
    /// of play. Discs of 1/4 in, 4 in apart: they bear over 114.3 mm, lean 0.016514 (0.946°), the rim of 19 in by 3.985 mm. Holes of 3/8 in on
    /// 220 mm: 2·(220 + 1.5·9.525) = 468.575 mm at the least. 5.81 − 5.5 = 0.31 m down to the upper disc's underside, 107.95 mm to the lower
    /// one's: 0.41795 m, the bolt of 5/16 in 3.96875 mm below.
    #[test]
    fn two_discs_by_hand() {
        let mut job = crate::demo::lantern_green();
        let own = TopperDiscs {
            disc_mm: Some(482.6),
            thickness_mm: Some(6.35),
            apart_mm: Some(101.6),
            held: TopperHeld::Bolt,
            bolt_mm: Some(7.9375),
        };
        job.workshop.topper = Some(own);
        let computed = crate::plan::compute(&job).unwrap();
        let of = |job: &Job| super::super::circles(job, &computed).discs.unwrap();
        let found = of(&job);
        let near = |is: f64, expect: f64| assert!((is - expect).abs() < 1e-3, "{is}, not {expect}");
        near(found.bore_mm, 35.1875);
        near(found.play_mm, 1.8875);
        near(found.least_disc_mm, 468.575);
        near(found.lean_deg.unwrap(), 0.9461);
        near(found.rim_mm.unwrap(), 3.9848);
        near(found.reaches_down_m.unwrap(), 0.41795);
        let bolt = found.bolt.unwrap();
        near(bolt.hole_mm, 9.525);
        near(bolt.least_length_mm, 58.6);
        near(bolt.from_upper_end_m.unwrap(), 0.421_92);
        // Run down the top tube stands out by 6 in.
        near(found.after_m.unwrap(), 0.421_92 - 0.1524);
        assert!(found.trouble.is_empty() && found.missing.is_empty(), "{found:?}");
        // 21 strands of 12 N, a little less than straight down, and 0.9 kg.
        assert!(found.still_n > 0.8 * 252.0 + 8.8 && found.still_n < 252.0 + 8.83, "{}", found.still_n);
        // As made: a tube of 35 mm wants a wider bore.
        job.rig.tubes[2].calliper.outside_mm = Some(35.0);
        near(of(&job).bore_mm, 36.6875);
        // Not entered: as small as its holes let it, and what is not known is named.
        job.workshop.topper = Some(TopperDiscs { disc_mm: None, ..TopperDiscs::default() });
        let open = of(&job);
        near(open.disc_mm, 468.575);
        assert_eq!(open.missing, [TopperMissing::Thickness, TopperMissing::Apart, TopperMissing::Held]);
        assert!(open.lean_deg.is_none() && open.bolt.is_none() && open.after_m.is_none());
        // What does not work says what does.
        job.workshop.topper = Some(TopperDiscs { disc_mm: Some(460.0), ..own });
        assert!(
            matches!(of(&job).trouble[..], [TopperTrouble::DiscTooSmall { least_mm, .. }] if (least_mm - 468.575).abs() < 1e-3)
        );
        job.workshop.topper = Some(own);
        job.rig.strands.as_mut().unwrap().top_height_m = 5.81;
        let [TopperTrouble::BeyondTheTube { over_m, most_height_m }] = of(&job).trouble[..] else { panic!() };
        near(over_m, 0.00635);
        job.rig.strands.as_mut().unwrap().top_height_m = most_height_m;
        assert!(of(&job).trouble.is_empty(), "the nearest that works does");
    }
}
