//! How the tubes stand in each other, raised and run down.

use super::findings;
use super::mast::Stage;
use super::section::TubeSection;
use super::tolerance::{DiameterLimits, DiameterRange};
use crate::finding::Finding;
use crate::numerics::real::atan_deg;
use crate::quantity::UnitSystem;

/// A tube of the mast.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct MastTube<'a> {
    pub name: &'a str,
    pub section: TubeSection,
    pub length_m: f64,
    /// How much of it is inside the tube below when raised; no longer than either of them.
    pub overlap_m: f64,
    /// It slides in the tube below; otherwise it is screwed onto it.
    pub telescoped: bool,
    /// Between what its diameters lie: by a calliper, else by its standard.
    pub limits: DiameterLimits,
}

impl MastTube<'_> {
    /// The thickest and the thinnest that its outside may be; as listed where nobody knows.
    fn outside_mm(&self) -> DiameterRange {
        self.limits.outside.unwrap_or(DiameterRange::about(self.section.outside_mm, 0.0))
    }

    /// The same of its bore.
    fn bore_mm(&self) -> DiameterRange {
        self.limits.bore.unwrap_or(DiameterRange::about(self.section.inside_mm(), 0.0))
    }
}

/// The mast as a telescope.
#[derive(Debug, Clone, PartialEq)]
pub struct Telescope {
    /// Bottom tube first.
    pub stages: Vec<Stage>,
    /// Top above the foot with every tube raised to its overlap.
    pub raised_m: f64,
    /// Top above the foot with every tube run down as far as it goes.
    pub lowered_m: f64,
    pub mass_kg: f64,
    pub findings: Vec<Finding>,
}

/// A tube with its section, as it meets the tube below.
pub(super) struct Joint<'a> {
    pub tube: &'a MastTube<'a>,
    /// Play on each side when centred, by the listed sizes.
    pub radial_gap_mm: f64,
    /// The same of the thickest tube and the narrowest bore that there may be, and of the thinnest and the widest; negative
    /// where it does not go in.
    pub tightest_gap_mm: f64,
    pub loosest_gap_mm: f64,
}

impl Joint<'_> {
    /// How far the tube can lean in the one below: it touches at the top of the overlap on one side and at
    /// its own lower end on the other, so the whole play (twice the radial gap) lies over the overlap.
    pub fn wander_deg(&self) -> f64 {
        atan_deg(2.0 * self.radial_gap_mm.max(0.0) / (1000.0 * self.tube.overlap_m))
    }
}

/// The stages of the mast with its heights and mass, the bottom tube first.
pub fn telescope(tubes: &[MastTube], system: UnitSystem) -> Telescope {
    let mut telescope =
        Telescope { stages: Vec::new(), raised_m: 0.0, lowered_m: 0.0, mass_kg: 0.0, findings: Vec::new() };
    // The lower ends of the tube last placed, raised and run down, and the tube itself.
    let mut below: Option<(&MastTube, f64, f64)> = None;
    for tube in tubes {
        let section = &tube.section;
        let (mut raised_m, mut lowered_m, mut radial_gap_mm) = (0.0, 0.0, None);
        if let Some((lower, lower_raised_m, lower_lowered_m)) = below {
            let gap_mm = (lower.section.inside_mm() - section.outside_mm) / 2.0;
            let rise_m = lower.length_m - tube.overlap_m;
            raised_m = lower_raised_m + rise_m;
            // Run down inside, both lower ends meet; one that does not go in stays up.
            lowered_m =
                if tube.telescoped && gap_mm >= 0.0 { lower_lowered_m } else { lower_lowered_m + rise_m };
            if tube.telescoped {
                radial_gap_mm = Some(gap_mm);
                let (bore, outside) = (lower.bore_mm(), tube.outside_mm());
                let joint = Joint {
                    tube,
                    radial_gap_mm: gap_mm,
                    tightest_gap_mm: 0.5 * (bore.least_mm - outside.largest_mm),
                    loosest_gap_mm: 0.5 * (bore.largest_mm - outside.least_mm),
                };
                telescope.findings.extend(findings::of_joint(&joint, system));
            }
        }
        let mass_kg = section.mass_kg_per_m * tube.length_m;
        telescope.stages.push(Stage {
            name: tube.name.to_owned(),
            outside_mm: section.outside_mm,
            wall_mm: section.wall_mm,
            bottom_height_m: raised_m,
            top_height_m: raised_m + tube.length_m,
            mass_kg,
            radial_gap_mm,
        });
        telescope.mass_kg += mass_kg;
        // A tube longer than those round it sticks out at the top, whichever it is.
        telescope.raised_m = telescope.raised_m.max(raised_m + tube.length_m);
        telescope.lowered_m = telescope.lowered_m.max(lowered_m + tube.length_m);
        below = Some((tube, raised_m, lowered_m));
    }
    telescope
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::tube::TubeTable;
    use crate::tube::section::{listed, measured};

    fn tube(size: &str, length_m: f64, overlap_m: f64) -> MastTube<'_> {
        let section = listed(TubeTable::Rmc, size).unwrap();
        let limits = DiameterLimits::listed(TubeTable::Rmc, size);
        MastTube { name: size, section, length_m, overlap_m, telescoped: true, limits }
    }

    fn rules(telescope: &Telescope) -> Vec<&str> {
        telescope.findings.iter().map(|f| f.rule.name()).collect()
    }

    #[test]
    fn tubes_stand_on_their_overlaps_and_run_down_inside() {
        let mast = telescope(&[tube("2", 3.0, 0.0), tube("1-1/2", 3.2, 0.6)], UnitSystem::Metric);
        assert!((mast.raised_m - 5.6).abs() < 1e-12);
        assert_eq!(mast.lowered_m, 3.2); // the upper tube is the longer one and sticks out
        assert!((mast.stages[1].bottom_height_m - 2.4).abs() < 1e-12);
        assert!((mast.stages[1].radial_gap_mm.unwrap() - 0.0915 * 25.4).abs() < 1e-9);
        assert!((mast.mass_kg - (3.0 * 3.32 + 3.2 * 2.49) * 0.45359237 / 0.3048).abs() < 1e-9);
        assert!(mast.findings.is_empty(), "{:?}", mast.findings);
    }

    #[test]
    fn a_tube_too_thick_does_not_go_in_and_stays_up() {
        let mast = telescope(&[tube("1-1/2", 3.0, 0.0), tube("1-1/4", 3.0, 0.5)], UnitSystem::Metric);
        assert_eq!(rules(&mast), ["tube_does_not_go_in"]);
        assert_eq!(mast.lowered_m, 5.5);
    }

    #[test]
    fn a_tube_screwed_on_stands_on_the_one_below_and_stays_up() {
        let upper = MastTube { telescoped: false, ..tube("2", 3.0, 0.0) };
        let mast = telescope(&[tube("2", 3.0, 0.0), upper], UnitSystem::Metric);
        assert_eq!((mast.raised_m, mast.lowered_m), (6.0, 6.0));
        assert_eq!(mast.stages[1].radial_gap_mm, None);
        assert!(mast.findings.is_empty(), "{:?}", mast.findings);
    }

    #[test]
    fn play_and_short_overlaps_are_noticed() {
        let loose = telescope(&[tube("2-1/2", 3.0, 0.0), tube("1-1/2", 3.0, 0.05)], UnitSystem::Metric);
        assert_eq!(rules(&loose), ["tube_overlap_short", "tube_fit_loose"]);
        let wanders = telescope(&[tube("2", 3.0, 0.0), tube("1-1/2", 3.0, 0.3)], UnitSystem::Metric);
        assert_eq!(rules(&wanders), ["tube_leans_by_play"]);
        // Play 2 × 2.324 mm over 300 mm.
        let joint_deg = (4.6482_f64 / 300.0).to_degrees();
        let Some(crate::finding::Quantity::AngleDeg { value }) = wanders.findings[0].measured else {
            panic!()
        };
        assert!((value - joint_deg).abs() < 1e-3);
    }

    /// IMC 2 has a bore of 2.170 in (55.12 mm); from 0.035 in less (54.23 mm) to 0.005 in more (55.25 mm) is within its standard. A
    /// tube measured with 54.8 mm, 0.1 either way, goes into some of them and not into others, and so does one of 55.2 mm; one of
    /// 55.4 mm into none.
    #[test]
    fn a_bore_within_its_tolerance_may_be_too_narrow() {
        let (section, limits) =
            (listed(TubeTable::Imc, "2").unwrap(), DiameterLimits::listed(TubeTable::Imc, "2"));
        let lower = MastTube { section, limits, ..tube("2", 3.0, 0.0) };
        let upper = |outside_mm| {
            let limits = DiameterLimits::measured(outside_mm, 2.0);
            MastTube { section: measured(outside_mm, 2.0).unwrap(), limits, ..tube("1-1/2", 3.0, 0.6) }
        };
        let in_imc = |outside_mm| telescope(&[lower, upper(outside_mm)], UnitSystem::Metric);
        assert_eq!(rules(&in_imc(54.8)), ["tube_may_not_go_in"]);
        assert_eq!(rules(&in_imc(53.6)), ["tube_fit_tight"]);
        assert!(rules(&in_imc(53.0)).is_empty());
        assert_eq!(rules(&in_imc(55.2)), ["tube_may_not_go_in"]);
        assert_eq!(rules(&in_imc(55.4)), ["tube_does_not_go_in"]);
    }

    /// EN 10255: DN50 59.7 mm outside at the least, wall 3.6 mm and a tenth more: bore 51.78 mm; DN40 48.8 mm at the most: play
    /// on each side 1.49 mm, and 2.4 mm by the listed sizes.
    #[test]
    fn medium_tubes_are_fitted_between_their_limits() {
        let of = |size| DiameterLimits::listed(TubeTable::En10255Medium, size);
        let (outer, inner) = (of("DN50").bore.unwrap(), of("DN40").outside.unwrap());
        let tightest = (outer.least_mm - inner.largest_mm) / 2.0;
        assert!((tightest - 1.49).abs() < 1e-9, "{tightest}");
        assert!((outer.least_mm - 51.78).abs() < 1e-9 && (inner.least_mm - 47.9).abs() < 1e-9);
    }

    /// What a calliper reads goes before the table: RMC 1-1/4 (1.660 in) does not go into RMC 1-1/2 (1.624 in), whatever they
    /// measure within 0.015 in; a bore read as 43.5 mm takes it.
    #[test]
    fn a_calliper_goes_before_the_table() {
        let lower = tube("1-1/2", 3.0, 0.0);
        let upper = tube("1-1/4", 3.0, 0.5);
        assert_eq!(rules(&telescope(&[lower, upper], UnitSystem::Metric)), ["tube_does_not_go_in"]);
        let bore = Some(DiameterRange::about(43.5, 0.1));
        let read = MastTube { limits: DiameterLimits { bore, ..lower.limits }, ..lower };
        assert!(rules(&telescope(&[read, upper], UnitSystem::Metric)).is_empty());
    }
}
