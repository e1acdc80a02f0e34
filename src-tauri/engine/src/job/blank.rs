//! An empty job to fill in: nothing measured, a rig of ordinary parts.

use super::*;
use crate::quantity::{UnitSystem, Units};
use crate::resistance::timber::Wood;
use crate::round_figures::{RoundFigure, begin};
use crate::tube::TubeTable;

/// A job with an empty yard and a modest rig: two nesting tubes, three guys at one level, a T base. What is
/// not measured is said so by the plan's findings.
pub fn blank(units: Units) -> Job {
    let of = |habit: RoundFigure| habit.of(units.system);
    Job {
        mastwright_job: FORMAT_VERSION,
        mastwright_minor: FORMAT_MINOR,
        name: "My yard".to_owned(),
        notes: String::new(),
        units,
        yard: Yard {
            place: None,
            surveyed_at: None,
            bearings: BearingReference::Magnetic { declination_deg: None },
            tape_held: TapeHeld::AlongGround,
            instruments: Instruments {
                tape_sigma_m: of(begin::TAPE_SIGMA),
                spot_height_sigma_m: of(begin::TAPE_SIGMA),
                sketched_sigma_m: of(begin::SKETCH_SIGMA),
                tape_sigma_mm_per_m: of(begin::TAPE_GROWING),
                ..Instruments::default()
            },
            marks: vec![Mark { id: "A".to_owned(), name: "First mark".to_owned(), at: PointFix::Origin }],
            measurements: Vec::new(),
            slopes: Vec::new(),
            spot_heights: Vec::new(),
            obstacles: Vec::new(),
            boundary: None,
            overhead_lines: Vec::new(),
            buried_services: Vec::new(),
            overhead: Overhead::NotLooked,
            underground: Underground::NotAsked,
            digging: crate::job::Digging::default(),
            soil: SoilFeel::Unknown,
            wet_season: None,
        },
        rig: rig(units.system),
        placement: Placement {
            mast: PointFix::Coordinates { east_m: 0.0, north_m: of(begin::MAST_NORTH) },
            front_bearing_deg: 0.0,
            guy_turn_deg: 60.0,
        },
        standpoints: Vec::new(),
        raising: Raising::default(),
        pegging: super::Unread::default(),
        workshop: Workshop::default(),
        cards: super::Unread::default(),
        tensions: super::Unread::default(),
        lights: super::Unread::default(),
        season: super::Unread::default(),
        wind: Wind { asked_gust_m_per_s: of(begin::ASKED_GUST), ..Wind::default() },
        as_built: None,
        log: Vec::new(),
        photos: Vec::new(),
        mastwright_history: None,
    }
}

fn rig(system: UnitSystem) -> Rig {
    let of = |habit: RoundFigure| habit.of(system);
    let tube = |name: &str, size: &str, overlap_m: f64| Tube {
        name: name.to_owned(),
        section: Section::Listed { table: TubeTable::Rmc, size: size.to_owned() },
        length_m: of(begin::TUBE),
        overlap_m,
        joint: TubeJoint::Telescoped,
        pin_hole_mm: None,
        yield_mpa: None,
        calliper: Default::default(),
    };
    Rig {
        tubes: vec![tube("Lower tube", "2", 0.0), tube("Upper tube", "1-1/2", of(begin::OVERLAP))],
        guy_levels: vec![guys(system)],
        base: base(system),
        stakes: Stakes {
            per_leg: 2,
            inset_m: of(begin::STAKE_INSET),
            diameter_mm: of(begin::STAKE),
            length_m: of(begin::STAKE_LENGTH),
        },
        strands: None,
        topper: None,
    }
}

fn guys(system: UnitSystem) -> GuyLevel {
    let of = |habit: RoundFigure| habit.of(system);
    let rope = match system {
        UnitSystem::Metric => "6 mm polyester",
        UnitSystem::Imperial => "1/4\" polyester",
    };
    GuyLevel {
        id: "upper".to_owned(),
        name: "Upper guy".to_owned(),
        attach_height_m: of(begin::ATTACHED),
        collar_radius_mm: of(begin::COLLAR_RADIUS),
        count: 3,
        anchor_layout: AnchorLayout::EqualRadius { radius_m: of(begin::ANCHORS_OUT) },
        anchor_eye_height_m: of(begin::EYE_UP),
        rope: Rope {
            name: rope.to_owned(),
            diameter_mm: of(begin::ROPE),
            mass_g_per_m: of(begin::ROPE_MASS),
            stretch_percent: 3.0,
            stretch_at_n: of(begin::STRETCHED_AT),
            strength: RopeStrength::default(),
        },
        tension_n: of(begin::TENSION),
        upper_end_m: of(begin::UPPER_END),
        lower_end_m: of(begin::LOWER_END),
        collar: Default::default(),
        when_lowered: WhenLowered::default(),
        anchor: AnchorKind::Unknown,
        proof_pull_n: None,
        to_thing: None,
    }
}

fn base(system: UnitSystem) -> Base {
    let of = |habit: RoundFigure| habit.of(system);
    Base {
        pattern: BasePattern::T,
        front_reach_m: of(begin::FRONT_REACH),
        side_reach_m: of(begin::SIDE_REACH),
        back_reach_m: None,
        timber_width_mm: of(begin::TIMBER),
        timber_depth_mm: of(begin::TIMBER),
        seat_height_mm: 0.0,
        foot_thickness_mm: of(begin::TIMBER),
        foot_width_mm: of(begin::TIMBER),
        shim_up_to_mm: of(begin::SHIM_UP_TO),
        foot_fixing: FootFixing::Pinned,
        wood: Wood::UnknownSoftwood,
        seat_plate_mm: None,
        seat_plate_thickness_mm: None,
        lap_depth_mm: None,
        joint_pad_mm: Some(of(begin::JOINT_BOARD)),
        pad_mm: None,
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
