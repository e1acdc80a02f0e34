//! The bearings along the upper edge, and the line of all that is as high as the eyes.

use super::{HALF, Picture, rounded};
use crate::drawing::scene::{Align, Geometry, Role};
use crate::report::format;

/// From one stroke to the next, and from one number to the next.
const STROKE_DEG: u32 = 5;
const NUMBER_DEG: u32 = 15;

pub(super) fn draw(picture: &mut Picture) {
    let scale = picture.by_night(Role::SeenScale, Role::NightScale);
    let horizon = picture.camera.horizon();
    let edge = picture.bounds.max[1] / HALF;
    if horizon.abs() < edge {
        let role = picture.by_night(Role::SeenHorizon, Role::NightNet);
        let points = vec![rounded([-1.0, horizon]), rounded([1.0, horizon])];
        picture.push(role, None, Geometry::Line { points });
    }
    for bearing_deg in (0..360).step_by(STROKE_DEG as usize) {
        let Some(x) = picture.camera.bearing_at(f64::from(bearing_deg), edge) else { continue };
        if x.abs() > 1.0 {
            continue;
        }
        let has_number = bearing_deg % NUMBER_DEG == 0;
        let long = picture.text / HALF * if has_number { 0.8 } else { 0.45 };
        let points = vec![rounded([x, edge]), rounded([x, edge - long])];
        picture.push(scale, None, Geometry::Line { points });
        if has_number && x.abs() < 1.0 - 1.6 * picture.text / HALF {
            let role = picture.by_night(Role::SeenLabel, Role::NightLabel);
            let at = rounded([x, edge - 1.5 * picture.text / HALF]);
            let text = format::bearing_mark(bearing_deg);
            picture.push(role, None, Geometry::Words { at, text, align: Align::Middle, turn_deg: 0.0 });
        }
    }
}
