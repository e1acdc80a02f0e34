//! The names of what shows, as far as they find room: the nearer things first.

use super::{HALF, Picture, rounded, sentences};
use crate::drawing::labels::text_width_em;
use crate::drawing::scene::{Align, Geometry, Role};
use crate::quantity::Units;
use crate::view::{HeightOf, Shown, ThingKind, ThingSeen};

/// Over the thing, and how much a line of letters takes, in letter heights.
const OVER_EM: f64 = 0.75;
const LINE_EM: f64 = 1.25;
/// The scale of bearings has the uppermost part.
const SCALE_EM: f64 = 2.4;

pub(super) fn draw(picture: &mut Picture, units: Units) {
    let mut order: Vec<usize> = (0..picture.seen.things.len()).collect();
    order.sort_by(|&a, &b| {
        let key = |i: usize| (rank(&picture.seen.things[i]), picture.seen.things[i].distance_m);
        let ((rank_a, far_a), (rank_b, far_b)) = (key(a), key(b));
        rank_a.cmp(&rank_b).then(far_a.total_cmp(&far_b))
    });
    let mut taken: Vec<[f64; 4]> = Vec::new();
    for number in order {
        let thing = &picture.seen.things[number];
        if rank(thing) == NEVER || matches!(thing.shown, Shown::Hidden | Shown::AroundYou) {
            continue;
        }
        let before = picture.camera.before(picture.seen.labels[number]);
        if before[2] < 0.3 {
            continue;
        }
        let [x, y] = picture.camera.on_picture(before).map(|part| part * HALF);
        let words = sentences::label(thing, units);
        let half = [0.5 * text_width_em(&words) * picture.text, 0.5 * LINE_EM * picture.text];
        let at = [x, y + OVER_EM * picture.text];
        let Some(at) = kept_within(picture, at, half) else { continue };
        let own = [at[0] - half[0], at[1] - half[1], at[0] + half[0], at[1] + half[1]];
        if taken.iter().any(|other| meet(&own, other)) {
            continue;
        }
        taken.push(own);
        let role = picture.by_night(Role::SeenLabel, Role::NightLabel);
        let subject = Some(thing.subject.clone());
        let at = rounded(at.map(|part| part / HALF));
        picture.push(role, subject, Geometry::Words { at, text: words, align: Align::Middle, turn_deg: 0.0 });
    }
}

const NEVER: u8 = 9;

/// The smaller the sooner.
fn rank(thing: &ThingSeen) -> u8 {
    match thing.kind {
        ThingKind::Mast => 0,
        ThingKind::OverheadLine => 1,
        ThingKind::KeepOff => 4,
        _ if thing.height == HeightOf::NotKnown => 2,
        ThingKind::Building | ThingKind::Tree | ThingKind::Post => 3,
        ThingKind::Wall | ThingKind::Fence | ThingKind::Hedge => 5,
        ThingKind::Guy | ThingKind::Strands | ThingKind::Base | ThingKind::Boundary | ThingKind::Path => {
            NEVER
        }
    }
}

/// Moved inside where it reaches a little over the edge; none where the thing itself is out of the picture.
fn kept_within(picture: &Picture, at: [f64; 2], half: [f64; 2]) -> Option<[f64; 2]> {
    let (min, max) = (picture.bounds.min, picture.bounds.max);
    let top = max[1] - SCALE_EM * picture.text;
    let is_in = at[0].abs() <= HALF && at[1] >= min[1] && at[1] <= max[1] + 2.0 * picture.text;
    let room = [HALF - half[0], half[1]];
    (is_in && room[0] > 0.0)
        .then(|| [at[0].clamp(-room[0], room[0]), at[1].min(top - half[1]).max(min[1] + half[1])])
}

fn meet(a: &[f64; 4], b: &[f64; 4]) -> bool {
    a[0] < b[2] && b[0] < a[2] && a[1] < b[3] && b[1] < a[3]
}
