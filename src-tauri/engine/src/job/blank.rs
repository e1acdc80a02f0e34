//! An empty job to fill in: nothing measured, a rig of ordinary parts.

use super::*;
use crate::resistance::timber::Wood;

/// A job with an empty yard and a modest rig: two nesting tubes, three guys at one level, a T base. What is
/// not measured is said so by the plan's findings.
pub fn blank(units: Units) -> Job {
    Job {
        mastwright_job: FORMAT_VERSION,
        name: "My yard".to_owned(),
        notes: String::new(),
        units,
        yard: Yard {
            place: None,
            surveyed_at: None,
            bearings: BearingReference::Magnetic { declination_deg: None },
            tape_held: TapeHeld::AlongGround,
            instruments: Instruments::default(),
            marks: vec![Mark { id: "A".to_owned(), name: "First mark".to_owned(), at: Fix::Origin }],
            measurements: Vec::new(),
            slopes: Vec::new(),
            spot_heights: Vec::new(),
            obstacles: Vec::new(),
            boundary: None,
            overhead_lines: Vec::new(),
            buried_services: Vec::new(),
            soil: SoilFeel::Unknown,
            wet_season: None,
        },
        rig: rig(),
        placement: Placement {
            mast: Fix::Coordinates { east_m: 0.0, north_m: 5.0 },
            front_bearing_deg: 0.0,
            guy_turn_deg: 60.0,
        },
        wind: Wind::default(),
        as_built: None,
        log: Vec::new(),
    }
}

fn rig() -> Rig {
    let tube = |name: &str, size: &str, overlap_m: f64| Tube {
        name: name.to_owned(),
        section: Section::Listed { table: TubeTable::Rmc, size: size.to_owned() },
        length_m: 3.0,
        overlap_m,
        joint: TubeJoint::Telescoped,
        pin_hole_mm: None,
        yield_mpa: None,
    };
    Rig {
        tubes: vec![tube("Lower tube", "2", 0.0), tube("Upper tube", "1-1/2", 0.6)],
        guy_levels: vec![GuyLevel {
            id: "upper".to_owned(),
            name: "Upper guy".to_owned(),
            attach_height_m: 4.0,
            collar_radius_mm: 50.0,
            count: 3,
            anchors: AnchorRule::EqualRadius { radius_m: 4.0 },
            anchor_eye_height_m: 0.05,
            rope: Rope {
                name: "6 mm polyester".to_owned(),
                diameter_mm: 6.0,
                mass_g_per_m: 27.0,
                stretch_percent: 3.0,
                stretch_at_n: 1500.0,
                strength: RopeStrength::default(),
            },
            tension_n: 300.0,
            upper_end_m: 0.3,
            lower_end_m: 1.0,
            holdfast: Holdfast::Unknown,
            proof_pull_n: None,
        }],
        base: Base {
            pattern: BasePattern::T,
            front_reach_m: 1.2,
            side_reach_m: 0.9,
            back_reach_m: None,
            timber_width_mm: 89.0,
            timber_depth_mm: 89.0,
            seat_height_mm: 0.0,
            foot_thickness_mm: 89.0,
            foot_width_mm: 89.0,
            shim_up_to_mm: 38.0,
            foot_fixing: FootFixing::Pinned,
            wood: Wood::UnknownSoftwood,
            seat_plate_mm: None,
            pad_mm: None,
        },
        stakes: Stakes { per_leg: 2, inset_m: 0.15, diameter_mm: 12.7, length_m: 0.6 },
        strands: None,
        topper: None,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_empty_job_reads_and_its_plan_says_what_is_unmeasured() {
        let job = blank(Units { system: UnitSystem::Metric, inch_fraction: 16 });
        assert_eq!(read_job(&write_job(&job)), Ok(job.clone()));
        let plan = crate::plan::compute(&job).expect("an empty yard can be planned").plan;
        let unchecked =
            plan.findings.iter().filter(|finding| finding.severity == crate::finding::Severity::Unchecked);
        // Ground, north and what lies underground.
        assert!(unchecked.count() >= 3);
    }
}
