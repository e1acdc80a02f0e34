//! Guy collars, ring brackets and the base's joints against AISC, textbook and handbook values.
//!
//! - AISC Design Examples v13, D.7 (read, `published-values-2.md`, A3): a pin of 1 in in a plate of 1/2 in of 36 ksi bears 32.4 kip, 16.2 kip
//!   over 2.00; AISC Manual, table 7-1 (from memory): a 3/4 in A307 bolt carries 5.97 kip in single shear, 11.9 kip in double, over 2.00
//! - AISC 360-16, J7 (read there, too): 1.8·F_y·A over 2.00 is 0.9·F_y, 32.4 ksi for 36 ksi
//! - Beer & Johnston, Mechanics of Materials, app. D (from memory): cantilever with a load at its end, P·L³/(3·E·I); W = b·h²/6
//! - NDS 2018 (geometry worked in `published-values-2.md`, A7): a 4 × 4 half-lapped keeps 1.786 of 7.146 in³

use mastwright_engine::demo::lantern_green;
use mastwright_engine::job::{CollarHeld, Job};
use mastwright_engine::plan::compute;
use mastwright_engine::quantity::UnitSystem;
use mastwright_engine::resistance::SteelTube;
use mastwright_engine::resistance::collar::{by_bolt_n, by_shoulder_n, coupling_sleeve};
use mastwright_engine::resistance::tube::SOFTEST_YIELD_MPA;
use mastwright_engine::workshop::circle::bracket::BracketArm;
use mastwright_engine::workshop::collars::{CollarWork, collars};
use mastwright_engine::workshop::joints::lap;
use mastwright_engine::workshop::lift::{PlateBent, thickness_mm};

const KIP_N: f64 = 4_448.221_615_260_5;
const INCH_MM: f64 = 25.4;
const KSI_MPA: f64 = KIP_N / (INCH_MM * INCH_MM);

/// In walls so thick that the bolt is cut first: 11.9 kip. In a tube's walls of 1/2 in of 36 ksi a bolt of 1 in would bear 2·16.2 kip;
/// cut it carries 2·27·0.7854/2 = 21.2 kip, which is less.
#[test]
fn a_collar_s_bolt_by_the_manual() {
    let thick = SteelTube { outside_mm: 150.0, wall_mm: 30.0, yield_mpa: 36.0 * KSI_MPA };
    let three_quarters = by_bolt_n(0.75 * INCH_MM, 30.0, &thick) / KIP_N;
    assert!((three_quarters - 11.9).abs() < 0.05, "{three_quarters}");
    let half_inch = SteelTube { wall_mm: 0.5 * INCH_MM, ..thick };
    let one = by_bolt_n(INCH_MM, 60.0, &half_inch) / KIP_N;
    assert!((one - 21.2).abs() < 0.05, "{one}");
    // A wall of a quarter of that bears a quarter of 32.4 kip.
    let thin = by_bolt_n(INCH_MM, 60.0, &SteelTube { wall_mm: 0.125 * INCH_MM, ..thick }) / KIP_N;
    assert!((thin - 8.1).abs() < 0.01, "{thin}");
}

/// 1 in² of touching steel of 36 ksi bears 32.4 kip: of 195 MPa by as much less. A ring of 0.1 in round 3.0831 in is 1 in²: π·0.1·3.1831.
#[test]
fn a_shoulder_bears_nine_tenths_of_its_yield() {
    let one_square_inch = by_shoulder_n(0.1 * INCH_MM, 3.0831 * INCH_MM) / KIP_N;
    let by_manual = 32.4 * SOFTEST_YIELD_MPA / (36.0 * KSI_MPA);
    assert!((one_square_inch / by_manual - 1.0).abs() < 1e-4, "{one_square_inch} {by_manual}");
    // A coupling of a 1 in pipe (1.315 in), 1.576 in outside: A = π/4·(1.576² − 1.315²) = 0.5926 in² (by hand).
    let sleeve = coupling_sleeve(1.576 * INCH_MM, 1.315 * INCH_MM).expect("it is wider");
    assert!((sleeve.area_mm2() / (INCH_MM * INCH_MM) - 0.5926).abs() < 1e-4);
}

/// A bar of 40 by 10 mm, 300 mm long, E 200 GPa, under 100 N at its end: W = 667 mm³, M = 30 Nm, 45 MPa; I = 3333 mm⁴, it gives
/// 100·300³/(3·200,000·3333) = 1.350 mm (Beer & Johnston's formulas by hand).
#[test]
fn a_bracket_is_a_cantilever() {
    let arm = BracketArm { pull_n: 100.0, arm_mm: 300.0, width_mm: 40.0, hole_mm: 0.0 };
    assert!((arm.stiff_mm(1.35) - 10.0).abs() < 0.01, "{}", arm.stiff_mm(1.35));
    // The thickness that 45 MPa times 1.67 ask for.
    let bent = PlateBent { moment_nmm: 30_000.0, width_mm: 40.0 };
    assert!((thickness_mm(&bent, 45.0 * 1.67) - 10.0).abs() < 1e-9);
    assert!((arm.strong_mm() - thickness_mm(&bent, 205.0)).abs() < 1e-9);
}

/// 3.5 in deep: each timber keeps 1.75 in, W = 3.5·1.75²/6 = 1.786 in³ of 7.146 in³: a quarter.
#[test]
fn a_half_lap_keeps_a_quarter_of_its_modulus() {
    let mut job = lantern_green();
    (job.rig.base.timber_width_mm, job.rig.base.timber_depth_mm) = (3.5 * INCH_MM, 3.5 * INCH_MM);
    job.rig.base.lap_depth_mm = None;
    job.workshop.made.clear();
    let lap = lap(&job).expect("it can be cut");
    let left_in = lap.left_mm / INCH_MM;
    assert!(
        (lap.depth_mm / INCH_MM - 1.75).abs() < 1e-9 && (3.5 * left_in * left_in / 6.0 - 1.786).abs() < 1e-3
    );
}

fn of(job: &Job) -> Vec<CollarWork> {
    collars(job, &compute(job).unwrap().plan).unwrap().levels
}

/// By hand, Lantern Green: every guy of a level leaves by its own angle; the sum of tension · sine of it pulls the collar down. The bolt's
/// hole is 1.5 mm wider, the collar goes over the widest tube by as much.
#[test]
fn what_pulls_a_collar_down_is_the_sum_of_its_guys() {
    let mut job = lantern_green();
    job.units.system = UnitSystem::Metric;
    let plan = compute(&job).unwrap().plan;
    for collar in of(&job) {
        let level = job.rig.guy_levels.iter().find(|level| level.id == collar.level).unwrap();
        let sines = plan
            .guys
            .iter()
            .filter(|guy| guy.level_id == level.id)
            .map(|guy| guy.angle_deg.to_radians().sin());
        let down_n: f64 = sines.map(|sine| level.tension_n * sine).sum();
        assert!((collar.still_n / down_n - 1.0).abs() < 1e-9, "{}: {}", level.id, collar.still_n);
        assert!(collar.at_limit_n.unwrap() > collar.still_n && collar.carries_n.is_some());
        assert_eq!(collar.eye_turns_deg.len(), usize::from(level.count));
        assert!(collar.eye_turns_deg[0].abs() < 1e-9);
        assert!((collar.least_edge_mm - level.rope.diameter_mm).abs() < 1e-12);
    }
    let collar = &mut job.rig.guy_levels[0].collar;
    (collar.held, collar.bolt_mm, collar.wall_mm) = (CollarHeld::Bolt, Some(8.0), None);
    let bolted = &of(&job)[0];
    // Without its wall nobody knows what it carries.
    assert_eq!((bolted.carries_n, bolted.bolt_hole_mm), (None, Some(9.5)));
    job.rig.guy_levels[0].collar.wall_mm = Some(3.0);
    assert!(of(&job)[0].carries_n.is_some_and(|carries_n| carries_n < 9358.0));
}
