use super::candidates::*;
use super::*;
use crate::anchor::soil::ClayFeel;
use crate::demo::yardstick;
use crate::job::{AsBuilt, AsBuiltAnchor, Fix, Holdfast, SoilFeel};

fn change(job: &Job, id: &str) -> Option<Change> {
    let plan = compute(job).unwrap().plan;
    options(job, &plan).into_iter().find(|option| option.id == id)
}

#[test]
fn firmer_soil_helps_where_an_anchor_in_it_gives_first() {
    let mut job = yardstick();
    job.yard.soil = SoilFeel::Clay { feel: ClayFeel::Firm };
    job.rig.guy_levels[0].holdfast = Holdfast::Plate { side_m: 0.08, depth_m: 0.6 };
    let now = least_limit(&job, &compute(&job).unwrap().plan).unwrap();
    assert_eq!(now.weakest.as_ref().unwrap().kind, PartKind::Anchor);
    let firmer = change(&job, "soil_firmer").unwrap();
    assert_eq!(firmer.job.yard.soil, SoilFeel::Clay { feel: ClayFeel::Stiff });
    assert!(tried(&firmer, &now).unwrap().gain_m_per_s > 1.0);
}

#[test]
fn measured_anchors_go_farther_out_from_where_they_are() {
    let mut job = yardstick();
    let guy = compute(&job).unwrap().plan.guys[0].clone();
    let at = Fix::Coordinates { east_m: guy.east_m + 0.3, north_m: guy.north_m };
    let measured = AsBuiltAnchor { guy: guy.id, at: Some(at), eye_height_m: None };
    job.as_built = Some(AsBuilt { anchors: vec![measured], ..AsBuilt::default() });
    let stands = compute(&job).unwrap().plan;
    let farther = change(&job, "anchors_farther_out").unwrap();
    for (before, after) in stands.guys.iter().zip(compute(&farther.job).unwrap().plan.guys) {
        assert!((after.radius_m / before.radius_m - 1.2).abs() < 1e-9, "{}", after.id);
    }
    let four = compute(&change(&job, "four_guys").unwrap().job).unwrap().plan;
    let radius_m = |index: usize| four.guys[index].radius_m;
    assert!(four.guys.len() == 4 && (radius_m(0) - radius_m(2)).abs() < 1e-9);
}

#[test]
fn what_nobody_knows_gets_no_firmer() {
    let mut job = yardstick();
    assert!(change(&job, "soil_firmer").is_some());
    job.yard.soil = SoilFeel::Unknown;
    assert!(change(&job, "soil_firmer").is_none());
}
