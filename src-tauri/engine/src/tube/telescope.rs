//! How the tubes stand in each other, raised and run down.

use super::findings;
use super::section::{TubeSection, section};
use crate::finding::Finding;
use crate::job::{Rig, Tube, TubeJoint};
use crate::numerics::real::atan_deg;
use crate::plan::Stage;
use crate::quantity::{FieldError, FieldErrors};

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
    pub tube: &'a Tube,
    pub section: TubeSection,
    /// Play on each side when centred; negative where it does not go in.
    pub radial_gap_mm: f64,
    /// The same of the thickest tube and the narrowest bore that the tables allow.
    pub tightest_gap_mm: f64,
}

impl Joint<'_> {
    /// How far the tube can lean in the one below: it touches at the top of the overlap on one side and at
    /// its own lower end on the other, so the whole play (twice the radial gap) lies over the overlap.
    pub fn wander_deg(&self) -> f64 {
        atan_deg(2.0 * self.radial_gap_mm.max(0.0) / (1000.0 * self.tube.overlap_m))
    }
}

/// The stages of the mast with its heights and mass.
///
/// # Errors
/// Where a section is unknown or an overlap is longer than the tubes that share it.
pub fn telescope(rig: &Rig) -> Result<Telescope, FieldErrors> {
    let sections = sections(rig)?;
    let mut telescope =
        Telescope { stages: Vec::new(), raised_m: 0.0, lowered_m: 0.0, mass_kg: 0.0, findings: Vec::new() };
    // The lower ends of the tube last placed, raised and run down, and the tube itself.
    let mut below: Option<(&Tube, TubeSection, f64, f64)> = None;
    for (tube, section) in rig.tubes.iter().zip(sections) {
        let (mut raised_m, mut lowered_m, mut radial_gap_mm) = (0.0, 0.0, None);
        if let Some((lower, lower_section, lower_raised_m, lower_lowered_m)) = below {
            let gap_mm = (lower_section.inside_mm() - section.outside_mm) / 2.0;
            let rise_m = lower.length_m - tube.overlap_m;
            let telescoped = tube.joint == TubeJoint::Telescoped;
            raised_m = lower_raised_m + rise_m;
            // Run down inside, both lower ends meet; one that does not go in stays up.
            lowered_m = if telescoped && gap_mm >= 0.0 { lower_lowered_m } else { lower_lowered_m + rise_m };
            if telescoped {
                radial_gap_mm = Some(gap_mm);
                let off_mm = lower_section.bore_less_mm + section.outside_more_mm;
                let tightest_gap_mm = gap_mm - off_mm / 2.0;
                let joint = Joint { tube, section, radial_gap_mm: gap_mm, tightest_gap_mm };
                telescope.findings.extend(findings::of_joint(&joint));
            }
        }
        let mass_kg = section.mass_kg_per_m * tube.length_m;
        telescope.stages.push(Stage {
            name: tube.name.clone(),
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
        below = Some((tube, section, raised_m, lowered_m));
    }
    Ok(telescope)
}

/// Every tube's section, or all that is wrong with them at once.
fn sections(rig: &Rig) -> Result<Vec<TubeSection>, FieldErrors> {
    let (mut found, mut errors) = (Vec::new(), Vec::new());
    let mut lower_length_m = None;
    for (i, tube) in rig.tubes.iter().enumerate() {
        match section(&tube.section, &format!("/rig/tubes/{i}/section")) {
            Ok(section) => found.push(section),
            Err(error) => errors.push(error),
        }
        if let Some(lower_m) = lower_length_m
            && tube.overlap_m > tube.length_m.min(lower_m)
        {
            let path = format!("/rig/tubes/{i}/overlap_m");
            let allowed = "no longer than this tube and than the tube below";
            errors.push(FieldError::new(path, format!("{} m", tube.overlap_m), allowed));
        }
        lower_length_m = Some(tube.length_m);
    }
    if errors.is_empty() { Ok(found) } else { Err(errors.into()) }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::job::{Base, BasePattern, FootFixing, Section, Stakes, TubeTable};

    fn rig(tubes: Vec<Tube>) -> Rig {
        let base = Base {
            pattern: BasePattern::T,
            front_reach_m: 1.3,
            side_reach_m: 1.0,
            back_reach_m: None,
            timber_width_mm: 90.0,
            timber_depth_mm: 90.0,
            seat_height_mm: 0.0,
            foot_thickness_mm: 90.0,
            foot_width_mm: 90.0,
            shim_up_to_mm: 20.0,
            foot_fixing: FootFixing::Pinned,
            wood: Default::default(),
            seat_plate_mm: None,
            seat_plate_thickness_mm: None,
            lap_depth_mm: None,
            joint_pad_mm: None,
            pad_mm: None,
        };
        let stakes = Stakes { per_leg: 1, inset_m: 0.1, diameter_mm: 16.0, length_m: 0.9 };
        Rig { tubes, guy_levels: Vec::new(), base, stakes, strands: None, topper: None }
    }

    fn tube(size: &str, length_m: f64, overlap_m: f64) -> Tube {
        let section = Section::Listed { table: TubeTable::Rmc, size: size.into() };
        let joint = TubeJoint::Telescoped;
        Tube { name: size.into(), section, length_m, overlap_m, joint, pin_hole_mm: None, yield_mpa: None }
    }

    fn rules(telescope: &Telescope) -> Vec<&str> {
        telescope.findings.iter().map(|f| f.rule.as_str()).collect()
    }

    #[test]
    fn tubes_stand_on_their_overlaps_and_run_down_inside() {
        let mast = telescope(&rig(vec![tube("2", 3.0, 0.0), tube("1-1/2", 3.2, 0.6)])).unwrap();
        assert!((mast.raised_m - 5.6).abs() < 1e-12);
        assert_eq!(mast.lowered_m, 3.2); // the upper tube is the longer one and sticks out
        assert!((mast.stages[1].bottom_height_m - 2.4).abs() < 1e-12);
        assert!((mast.stages[1].radial_gap_mm.unwrap() - 0.0915 * 25.4).abs() < 1e-9);
        assert!((mast.mass_kg - (3.0 * 3.32 + 3.2 * 2.49) * 0.45359237 / 0.3048).abs() < 1e-9);
        assert!(mast.findings.is_empty(), "{:?}", mast.findings);
    }

    #[test]
    fn a_tube_too_thick_does_not_go_in_and_stays_up() {
        let mast = telescope(&rig(vec![tube("1-1/2", 3.0, 0.0), tube("1-1/4", 3.0, 0.5)])).unwrap();
        assert_eq!(rules(&mast), ["tube_does_not_go_in"]);
        assert_eq!(mast.lowered_m, 5.5);
    }

    #[test]
    fn a_tube_screwed_on_stands_on_the_one_below_and_stays_up() {
        let upper = Tube { joint: TubeJoint::Threaded, ..tube("2", 3.0, 0.0) };
        let mast = telescope(&rig(vec![tube("2", 3.0, 0.0), upper])).unwrap();
        assert_eq!((mast.raised_m, mast.lowered_m), (6.0, 6.0));
        assert_eq!(mast.stages[1].radial_gap_mm, None);
        assert!(mast.findings.is_empty(), "{:?}", mast.findings);
    }

    #[test]
    fn play_and_short_overlaps_are_noticed() {
        let loose = telescope(&rig(vec![tube("2-1/2", 3.0, 0.0), tube("1-1/2", 3.0, 0.05)])).unwrap();
        assert_eq!(rules(&loose), ["tube_overlap_short", "tube_fit_loose"]);
        let wanders = telescope(&rig(vec![tube("2", 3.0, 0.0), tube("1-1/2", 3.0, 0.3)])).unwrap();
        assert_eq!(rules(&wanders), ["tube_leans_by_play"]);
        // Play 2 × 2.324 mm over 300 mm.
        let joint_deg = (4.6482_f64 / 300.0).to_degrees();
        let Some(crate::finding::Quantity::AngleDeg { value }) = wanders.findings[0].measured else {
            panic!()
        };
        assert!((value - joint_deg).abs() < 1e-3);
    }

    #[test]
    fn everything_wrong_is_named_at_once() {
        let errors = telescope(&rig(vec![tube("7", 3.0, 0.0), tube("1", 1.0, 1.5)])).unwrap_err().errors;
        let paths: Vec<&str> = errors.iter().map(|e| e.path.as_str()).collect();
        assert_eq!(paths, ["/rig/tubes/0/section/size", "/rig/tubes/1/overlap_m"]);
    }

    fn listed(table: TubeTable, size: &str, overlap_m: f64) -> Tube {
        Tube { section: Section::Listed { table, size: size.into() }, ..tube(size, 3.0, overlap_m) }
    }

    /// IMC 2 has a bore of 2.170 in at the most; 0.035 in less is within its standard. EMT 2 is no good in it, RMC 1-1/2
    /// (1.900 in) has room; a measured tube of 54.8 mm goes into 55.12 mm, but not into every such conduit: 54.23 mm.
    #[test]
    fn a_bore_within_its_tolerance_may_be_too_narrow() {
        let measured = |outside_mm| Tube {
            section: Section::Measured { outside_mm, wall_mm: 2.0 },
            ..tube("upper", 3.0, 0.6)
        };
        let in_imc = |upper| telescope(&rig(vec![listed(TubeTable::Imc, "2", 0.0), upper])).unwrap();
        assert_eq!(rules(&in_imc(measured(54.8))), ["tube_may_not_go_in"]);
        assert_eq!(rules(&in_imc(measured(53.6))), ["tube_fit_tight"]);
        assert!(rules(&in_imc(measured(53.0))).is_empty());
        assert_eq!(rules(&in_imc(measured(55.2))), ["tube_does_not_go_in"]);
    }

    /// EN 10255: DN50 nominal bore 60.3 − 7.2 = 53.1 mm, least 52.5; DN40 48.3 mm, largest 48.8: gap 2.4 nominal, 1.85 at
    /// the tightest.
    #[test]
    fn medium_tubes_are_fitted_between_their_limits() {
        let (outer, inner) =
            (listed(TubeTable::En10255Medium, "DN50", 0.0), listed(TubeTable::En10255Medium, "DN40", 0.6));
        let sections = sections(&rig(vec![outer, inner])).unwrap();
        let [outer, inner] = sections.as_slice() else { panic!("two") };
        let nominal = (outer.inside_mm() - inner.outside_mm) / 2.0;
        let tightest = nominal - (outer.bore_less_mm + inner.outside_more_mm) / 2.0;
        assert!((nominal - 2.4).abs() < 1e-9 && (tightest - 1.85).abs() < 1e-9, "{nominal} {tightest}");
    }
}
