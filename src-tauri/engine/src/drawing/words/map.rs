//! The staking map in words, for those who can't see it.

use crate::report::{format, verdict};

use crate::drawing::layers::View;

/// Where the mast stands, how the ground falls, where each anchor is, and how much is wrong.
pub(crate) fn of_map(view: &View) -> String {
    let mut sentences = vec![mast(view), ground(view)];
    sentences.extend(view.computed.plan.guys.iter().map(|guy| {
        format!(
            "{}: anchor at tape {} from the mast, true bearing {}, angle {} to the horizontal.",
            guy.name,
            format::length(guy.tape_m, view.units()),
            format::bearing(guy.azimuth_deg),
            format::angle(guy.angle_deg)
        )
    }));
    sentences.push(stops(view));
    sentences.join(" ")
}

fn mast(view: &View) -> String {
    let mast = &view.computed.plan.mast;
    let side = |value_m: f64, positive: &str, negative: &str| {
        let way = if value_m < 0.0 { negative } else { positive };
        format!("{} {way}", format::length(value_m.abs(), view.units()))
    };
    let origin = view.computed.yard.marks.first().map_or("the origin", |mark| mark.id.as_str());
    format!(
        "The mast stands {} and {} of mark {origin}; raised it is {} high.",
        side(mast.east_m, "east", "west"),
        side(mast.north_m, "north", "south"),
        format::length(mast.raised_height_m, view.units())
    )
}

fn ground(view: &View) -> String {
    let ground = &view.computed.plan.ground;
    let slope = format::angle(ground.slope_deg.value);
    match ground.fall_bearing_deg {
        Some(fall_deg) => {
            let way = format::compass_point(fall_deg);
            format!("The ground falls {slope} to the {way}, true bearing {}.", format::bearing(fall_deg))
        }
        None => format!("The ground slopes {slope}; no fall direction is certain."),
    }
}

fn stops(view: &View) -> String {
    verdict::long(view.computed.plan.verdict.as_ref())
}

/// Under a guy's tape: the thing of the yard that it is made fast to, and how high.
pub(crate) fn made_fast(name: &str, height: &str) -> String {
    format!("on {name}, {height} up")
}

pub(crate) const OUTLET: &str = "outlet";

pub(crate) fn lead_title(job: &str) -> String {
    format!("Lead of the lights: {job}")
}

/// Beside a place where somebody crosses the lead.
pub(crate) fn trip(number: u32, along: &str) -> String {
    format!("{number}: {along}")
}

pub(crate) fn lead(long: &str, trips: &[String]) -> String {
    let crossed = if trips.is_empty() {
        "No way that was entered crosses it.".to_owned()
    } else {
        format!("It is crossed by: {}.", trips.join(", "))
    };
    format!("The lead lies along {long} of ground from the outlet to the mast. {crossed}")
}
