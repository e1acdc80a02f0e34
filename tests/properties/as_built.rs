//! What stands against what was planned: measuring just what was planned changes nothing, and an anchor pulled out
//! along its guy on level ground lengthens the chord as the right triangle has it (Pythagoras, Euclid I.47).

use mastwright_engine::job::{
    AnchorLayout, AsBuilt, AsBuiltAnchor, BearingReference, Job, PointFix, SlopeReading, TapeHeld,
};
use mastwright_engine::plan::{GuyResult, Plan, compute};
use proptest::prelude::*;

use crate::yardstick::yardstick;

fn plan(job: &Job) -> Plan {
    compute(job).expect("the demo can be placed").plan
}

fn coordinates([east_m, north_m]: [f64; 2]) -> PointFix {
    PointFix::Coordinates { east_m, north_m }
}

fn at(guy: &GuyResult) -> [f64; 2] {
    [guy.east_m, guy.north_m]
}

fn found(guy: &GuyResult, at: [f64; 2]) -> AsBuiltAnchor {
    AsBuiltAnchor { guy: guy.id.clone(), at: Some(coordinates(at)), eye_height_m: None }
}

/// The demo with readings that are sure, so that measuring does not widen any interval.
fn sure(east_m: f64, north_m: f64, front_bearing_deg: f64) -> Job {
    let mut job = yardstick();
    job.yard.bearings = BearingReference::True;
    job.yard.instruments.sketched_sigma_m = 0.001;
    job.placement.mast = coordinates([east_m, north_m]);
    job.placement.front_bearing_deg = front_bearing_deg;
    job
}

fn level(radius_m: f64) -> Job {
    let mut job = sure(3.0, -4.0, 30.0);
    job.yard.spot_heights.clear();
    let flat = |id: &str, bearing_deg| SlopeReading {
        id: id.to_owned(),
        bearing_deg,
        slope_deg: 0.0,
        sigma_deg: None,
        struck: false,
    };
    job.yard.slopes = vec![flat("one", 0.0), flat("two", 90.0)];
    job.yard.tape_held = TapeHeld::Level;
    job.rig.guy_levels[0].anchor_layout = AnchorLayout::EqualRadius { radius_m };
    job
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(24))]

    #[test]
    fn what_stands_as_planned_changes_nothing(
        east_m in -12.0..4.0_f64, north_m in -24.0..-8.0_f64, front_deg in 0.0..360.0_f64,
    ) {
        let mut job = sure(east_m, north_m, front_deg);
        let before = plan(&job);
        job.as_built = Some(AsBuilt {
            mast: Some(coordinates([before.mast.east_m, before.mast.north_m])),
            front_bearing_deg: Some(front_deg),
            anchors: before.guys.iter().map(|guy| found(guy, at(guy))).collect(),
            ..AsBuilt::default()
        });
        let after = plan(&job);
        prop_assert_eq!(&before.mast, &after.mast);
        for (was, is) in before.guys.iter().zip(&after.guys) {
            prop_assert!((was.cut_m.value - is.cut_m.value).abs() < 1e-9);
            prop_assert!((was.angle_deg - is.angle_deg).abs() < 1e-9);
        }
        let distances = |plan: &Plan| plan.clearances.iter().map(|c| c.distance_m).collect::<Vec<_>>();
        let (mut was, mut is) = (distances(&before), distances(&after));
        was.sort_by(f64::total_cmp);
        is.sort_by(f64::total_cmp);
        prop_assert_eq!(was.len(), is.len());
        prop_assert!(was.iter().zip(&is).all(|(was, is)| (was - is).abs() < 1e-6));
        let built = after.as_built.expect("something was measured");
        prop_assert!(built.items.iter().all(|item| item.deviation.is_some_and(|it| it.moved_m < 1e-9 && !it.out_of_tolerance)));
        prop_assert_eq!(built.new_findings, Vec::<u32>::new());
    }

    #[test]
    fn an_anchor_pulled_out_lengthens_the_chord_as_the_right_triangle_has_it(
        radius_m in 3.0..7.0_f64, out_m in -1.0..2.0_f64, which in 0_usize..3,
    ) {
        let mut job = level(radius_m);
        let before = plan(&job);
        let guy = before.guys[which].clone();
        let share = (guy.radius_m + out_m) / guy.radius_m;
        let mast = [before.mast.east_m, before.mast.north_m];
        let pulled = [0, 1].map(|i| mast[i] + share * (at(&guy)[i] - mast[i]));
        job.as_built = Some(AsBuilt { anchors: vec![found(&guy, pulled)], ..AsBuilt::default() });
        let after = plan(&job);
        let collar_m = job.rig.guy_levels[0].collar_radius_mm / 1000.0;
        let rise_m = guy.attach[2] - guy.eye[2];
        let chord_m = (guy.radius_m + out_m - collar_m).hypot(rise_m);
        prop_assert!((after.guys[which].chord_m - chord_m).abs() < 1e-9);
        let angle_deg = rise_m.atan2(guy.radius_m + out_m - collar_m).to_degrees();
        prop_assert!((after.guys[which].angle_deg - angle_deg).abs() < 1e-9);
        for other in (0..3).filter(|other| *other != which) {
            prop_assert_eq!(&after.guys[other], &before.guys[other]);
        }
        let item = &after.as_built.expect("something was measured").items[which];
        prop_assert!((item.deviation.expect("measured").moved_m - out_m.abs()).abs() < 1e-9);
    }

    /// A mast that was set elsewhere takes its pegs along: an anchor found a little beside where its peg goes from the
    /// mast as it stands is off by that little, however far the two moved together.
    #[test]
    fn an_anchor_is_judged_from_the_mast_as_it_stands(
        radius_m in 3.0..7.0_f64, moved in prop::array::uniform2(-1.5..1.5_f64),
        beside in prop::array::uniform2(-0.2..0.2_f64), which in 0_usize..3,
    ) {
        let mut job = level(radius_m);
        let before = plan(&job);
        let guy = before.guys[which].clone();
        let mast = [before.mast.east_m + moved[0], before.mast.north_m + moved[1]];
        let anchor = [0, 1].map(|i| at(&guy)[i] + moved[i] + beside[i]);
        job.as_built = Some(AsBuilt {
            mast: Some(coordinates(mast)),
            anchors: vec![found(&guy, anchor)],
            ..AsBuilt::default()
        });
        let built = plan(&job).as_built.expect("something was measured");
        let item = built.items.iter().find(|item| item.name == format!("{} anchor", guy.name)).expect("the anchor");
        let deviation = item.deviation.expect("measured");
        prop_assert!((deviation.moved_m - (moved[0] + beside[0]).hypot(moved[1] + beside[1])).abs() < 1e-9);
        prop_assert!((deviation.offset_m - beside[0].hypot(beside[1])).abs() < 1e-9, "{deviation:?}");
    }
}
