//! What each guy does while the mast turns up: how long it would have to be, and so what is done with it.

use super::motion::TiltMotion;
use super::results::{GuyAtAngle, GuyDoes, GuyRole, SideHold, TiltedGuy};
use crate::numerics::real::atan2_deg;
use crate::numerics::vector::{Vector, norm, subtract};

/// A guy whose anchor is this near to the hinge line, seen from the hinge, is a side guy. Common practice: "near the line".
pub const SIDE_WITHIN_DEG: f64 = 15.0;

/// A helper can hold the mast to one side with a guy that leaves at least this far off the mast's upright plane: then at
/// least half of its pull goes sideways (sin 30°).
pub const TENDS_FROM_DEG: f64 = 30.0;

/// A slack side guy that lets the mast lean farther sideways than one in ten has to be tended: common practice.
pub const LEAN: f64 = 0.1;

/// Nearer to its length at plumb than this nobody sees it slack.
const TAUT_M: f64 = 1e-3;

/// A step of the table of lengths.
const STEP_DEG: f64 = 5.0;

/// A guy as the turning needs it.
#[derive(Debug, Clone, PartialEq)]
pub struct GuyToTilt {
    pub id: String,
    pub name: String,
    pub eye: Vector,
    /// Its upper end with the mast plumb.
    pub collar: Vector,
    /// How much longer it may be pulled than at plumb: that pull is its set tension once more, by Hooke's law.
    pub gives_m: f64,
}

/// The straight length from the eye to the collar, and the least and the most of it on the whole way.
///
/// The square of that length is a constant less 2·r·(e·cos a + h·sin a), with r the collar's distance from the hinge line,
/// a its angle there, e how far out the eye lies on the mast's side and h how far over the hinge: a sine, whose ends and
/// turning points are all that can be least or most.
///
/// # References
/// Plane and solid geometry: the law of cosines.
pub fn extremes(turn: &TiltMotion, guy: &GuyToTilt, lying_deg: f64) -> [f64; 2] {
    let arm = turn.arm(guy.collar);
    let [out, _, up] = turn.seen(guy.eye);
    let eye_deg = atan2_deg(up, out);
    // The elevation at which the collar points towards the eye, and the one opposite.
    let standing_deg = arm.standing_rad.to_degrees();
    let toward = eye_deg - standing_deg + 90.0;
    let turning = [toward - 360.0, toward - 180.0, toward, toward + 180.0];
    let within = turning.into_iter().filter(|deg| (lying_deg..=90.0).contains(deg));
    let lengths = within.chain([lying_deg, 90.0]).map(|deg| length_at(turn, guy, deg));
    lengths.fold([f64::INFINITY, 0.0], |[least, most], m| [least.min(m), most.max(m)])
}

pub fn length_at(turn: &TiltMotion, guy: &GuyToTilt, elevation_deg: f64) -> f64 {
    norm(subtract(turn.at(guy.collar, elevation_deg), guy.eye))
}

/// Lying, every 5° above that, and plumb.
pub fn elevations(lying_deg: f64) -> Vec<f64> {
    let first = (lying_deg / STEP_DEG).floor() + 1.0;
    let steps = (0..=40).map(|step| (first + f64::from(step)) * STEP_DEG).take_while(|deg| *deg < 90.0);
    std::iter::once(lying_deg).chain(steps).chain([90.0]).collect()
}

/// Every guy with what it does.
pub fn tilted(turn: &TiltMotion, guys: &[GuyToTilt], lying_deg: f64) -> (Vec<TiltedGuy>, [SideHold; 2]) {
    let mut all: Vec<TiltedGuy> = guys.iter().map(|guy| of_guy(turn, guy, lying_deg)).collect();
    let held = [false, true].map(|right| hold(&mut all, right));
    (all, held)
}

fn of_guy(turn: &TiltMotion, guy: &GuyToTilt, lying_deg: f64) -> TiltedGuy {
    let [out, right, up] = turn.seen(guy.eye);
    let off_deg = atan2_deg(out, right.abs());
    let role = if off_deg.abs() <= SIDE_WITHIN_DEG {
        GuyRole::Side
    } else if off_deg > 0.0 {
        GuyRole::Stop
    } else {
        GuyRole::Far
    };
    let at_plumb_m = length_at(turn, guy, 90.0);
    let [least_m, most_m] = extremes(turn, guy, lying_deg);
    let (short_m, slack_m) = (most_m - at_plumb_m, at_plumb_m - least_m);
    let stays = short_m <= guy.gives_m && (role == GuyRole::Stop || leans(turn, guy, slack_m) <= LEAN);
    let does = |elevation_deg: f64, beyond_m: f64| match role {
        _ if elevation_deg >= 90.0 => GuyDoes::Fast,
        GuyRole::Far => GuyDoes::Untied,
        _ if !stays => GuyDoes::Tended,
        _ if beyond_m < -guy.gives_m.max(TAUT_M) => GuyDoes::Slack,
        _ => GuyDoes::Fast,
    };
    let at = |elevation_deg: f64| {
        let length_m = length_at(turn, guy, elevation_deg);
        let beyond_plumb_m = length_m - at_plumb_m;
        GuyAtAngle { elevation_deg, length_m, beyond_plumb_m, does: does(elevation_deg, beyond_plumb_m) }
    };
    TiltedGuy {
        id: guy.id.clone(),
        name: guy.name.clone(),
        role,
        off_hinge_line_deg: off_deg,
        on_right: right > 0.0,
        eye_above_hinge_m: up,
        at_plumb_m,
        most_short_m: short_m,
        most_slack_m: slack_m,
        taut_from_deg: (role != GuyRole::Far && stays).then(|| taut_from(turn, guy, lying_deg, at_plumb_m)),
        angles: elevations(lying_deg).into_iter().map(at).collect(),
    }
}

/// From plumb down to where it first hangs slack: by whole degrees, and the last of them by tenths.
fn taut_from(turn: &TiltMotion, guy: &GuyToTilt, lying_deg: f64, at_plumb_m: f64) -> f64 {
    let least_m = at_plumb_m - guy.gives_m.max(TAUT_M);
    let taut = |deg: f64| length_at(turn, guy, deg) >= least_m;
    let down = |from_deg: f64, step_deg: f64| {
        let below = (1..).map(|step| from_deg - f64::from(step) * step_deg);
        below.take_while(|deg| *deg > lying_deg && taut(*deg)).last().unwrap_or(from_deg)
    };
    let from_deg = down(down(90.0, 1.0), 0.1);
    if from_deg - lying_deg <= 0.1 + 1e-9 && taut(lying_deg) { lying_deg } else { from_deg }
}

/// How far the mast leans sideways before a guy that is slack by so much is taut: the collar goes by slack·length/run, its
/// run being how far the anchor lies to the side (the first term of the length's growth).
fn leans(turn: &TiltMotion, guy: &GuyToTilt, slack_m: f64) -> f64 {
    let [_, right, _] = turn.seen(guy.eye);
    let arm = turn.arm(guy.collar);
    let sideways = (right - arm.right_m).abs();
    slack_m * length_at(turn, guy, 90.0) / (sideways * arm.radius_m).max(1e-9)
}

/// Who holds one side. Where no side guy stays fast, a side guy is tended, or else the far or the stop guy that pulls most
/// sideways; a far guy is then no longer untied.
fn hold(guys: &mut [TiltedGuy], right: bool) -> SideHold {
    let on_side = |guy: &TiltedGuy| guy.on_right == right;
    let tended = |guy: &TiltedGuy| guy.angles.iter().any(|at| at.does == GuyDoes::Tended);
    if guys.iter().any(|guy| on_side(guy) && guy.role == GuyRole::Side && !tended(guy)) {
        return SideHold::Fast;
    }
    if guys.iter().any(|guy| on_side(guy) && guy.role == GuyRole::Side) {
        return SideHold::Tended;
    }
    let reaches = |guy: &&mut TiltedGuy| guy.off_hinge_line_deg.abs() <= 90.0 - TENDS_FROM_DEG;
    let sideways = guys.iter_mut().filter(|guy| on_side(guy)).filter(reaches);
    // Of two on about one bearing the longer one holds more: it is made fast higher up.
    let nearest = sideways.min_by(|a, b| {
        let off = |guy: &TiltedGuy| (guy.off_hinge_line_deg.abs() / 5.0).round();
        off(a).total_cmp(&off(b)).then(b.at_plumb_m.total_cmp(&a.at_plumb_m))
    });
    let Some(guy) = nearest else { return SideHold::Nobody };
    let last = guy.angles.len().saturating_sub(1);
    guy.angles.iter_mut().take(last).for_each(|at| at.does = GuyDoes::Tended);
    guy.taut_from_deg = None;
    SideHold::Tended
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::numerics::real::{cos, cos_deg, hypot, sin, sin_deg};

    /// The length by the law of cosines, with the hinge at the origin.
    fn by_law_of_cosines(r: f64, eye: [f64; 3], elevation_deg: f64) -> f64 {
        let a = elevation_deg.to_radians();
        let own = hypot(hypot(eye[0], eye[1]), eye[2]);
        (r * r + own * own - 2.0 * r * (eye[0] * cos(a) + eye[2] * sin(a))).sqrt()
    }

    /// Hinge at the origin, the mast lying to the east; the collar 8 m up.
    fn turn() -> TiltMotion {
        TiltMotion::about([0.0; 3], 90.0)
    }

    /// An eye so far out on the lying side, to the left (north) and up.
    fn guy(out: f64, left: f64, up: f64) -> GuyToTilt {
        let eye = [out, left, up];
        GuyToTilt { id: "a".into(), name: "A".into(), eye, collar: [0.0, 0.0, 8.0], gives_m: 0.02 }
    }

    /// `published-values-2.md`: vector geometry by another hand.
    #[test]
    fn lengths_are_those_of_the_published_table() {
        let on_line = guy(0.0, 5.0, 0.0);
        for deg in [0.0, 17.0, 45.0, 90.0] {
            assert!((length_at(&turn(), &on_line, deg) - 9.434).abs() < 5e-4);
        }
        let ends = |guy: &GuyToTilt| [0.0, 90.0].map(|deg| length_at(&turn(), guy, deg));
        let near = |[a, b]: [f64; 2], [c, d]: [f64; 2]| (a - c).abs() < 5e-5 && (b - d).abs() < 5e-5;
        assert!(near(ends(&guy(0.0, 5.0, 0.4)), [9.4425, 9.0973]));
        assert!(near(ends(&guy(0.5, 5.0, 0.0)), [9.0139, 9.4472]));
        let far = [13.000, 12.895, 12.581, 12.065, 11.358, 10.474, 9.434];
        for (step, length_m) in (0..).zip(far) {
            let found = length_at(&turn(), &guy(-5.0, 0.0, 0.0), 15.0 * f64::from(step));
            assert!((found - length_m).abs() < 5e-4, "{found} {length_m}");
        }
    }

    #[test]
    fn the_law_of_cosines_says_the_same_and_where_it_is_most() {
        for (eye, lying) in [([4.0, 3.0, 0.7], 0.0), ([-3.0, -4.0, 1.5], -8.0), ([0.3, 6.0, 2.0], 4.0)] {
            let guy = guy(eye[0], eye[1], eye[2]);
            let all =
                (0..=9800).map(|i| -8.0 + f64::from(i) * 0.01).filter(|deg| (lying..=90.0).contains(deg));
            let lengths: Vec<f64> = all.map(|deg| by_law_of_cosines(8.0, eye, deg)).collect();
            let by_hand = lengths.iter().fold([f64::INFINITY, 0.0_f64], |[a, b], m| [a.min(*m), b.max(*m)]);
            let found = extremes(&turn(), &guy, lying);
            for (a, b) in found.into_iter().zip(by_hand) {
                assert!((a - b).abs() < 1e-5, "{found:?} {by_hand:?}");
            }
            assert!((length_at(&turn(), &guy, 33.0) - by_law_of_cosines(8.0, eye, 33.0)).abs() < 1e-12);
        }
    }

    #[test]
    fn the_roles_by_hand() {
        let of = |guy: GuyToTilt| of_guy(&turn(), &guy, 0.0);
        let stop = of(guy(5.0, 0.0, 0.0));
        assert_eq!(stop.role, GuyRole::Stop);
        // Lying 8 m out, its collar is 3 m from the eye, and 9.434 m at plumb.
        assert!(
            (stop.most_slack_m - (89.0_f64.sqrt() - 3.0)).abs() < 1e-12 && stop.most_short_m.abs() < 1e-12
        );
        assert_eq!(stop.angles[0].does, GuyDoes::Slack);
        // 89 − 80·cos θ = (√89 − 0.02)² where cos θ = 0.0047118, 89.730°: taut from there on, by tenths 89.8°, and as slack before as the table says.
        assert!((stop.taut_from_deg.expect("fast") - 89.8).abs() < 1e-9, "{:?}", stop.taut_from_deg);
        assert!(
            (stop.angles[6].beyond_plumb_m - ((89.0 - 80.0 * 0.75_f64.sqrt()).sqrt() - 89.0_f64.sqrt()))
                .abs()
                < 1e-12
        );
        let far = of(guy(-5.0, 0.0, 0.0));
        assert_eq!((far.role, far.angles[0].does), (GuyRole::Far, GuyDoes::Untied));
        assert!((far.most_short_m - (13.0 - 89.0_f64.sqrt())).abs() < 1e-12);
        assert_eq!(far.angles.last().map(|at| at.does), Some(GuyDoes::Fast));
        let side = of(guy(0.0, -5.0, 0.0));
        assert_eq!((side.role, side.on_right, side.angles[3].does), (GuyRole::Side, true, GuyDoes::Fast));
        // Beside the hinge it is as long all the way: taut from where it lies.
        assert_eq!((side.taut_from_deg, far.taut_from_deg), (Some(0.0), None));
        // An eye 0.4 m over the hinge asks for 0.345 m more than at plumb while it lies: nobody leaves that fast.
        let high = of(guy(0.0, 5.0, 0.4));
        assert_eq!((high.role, high.angles[0].does), (GuyRole::Side, GuyDoes::Tended));
        // 14° off the line is near it, 16° is not.
        let at = |deg: f64| guy(5.0 * sin_deg(deg), 5.0 * cos_deg(deg), 0.0);
        assert_eq!(
            [14.0, 16.0, -16.0].map(|deg| of(at(deg)).role),
            [GuyRole::Side, GuyRole::Stop, GuyRole::Far]
        );
    }

    /// Four guys square to each other: two side guys hold. Three, one of them a stop guy: the two far guys are tended. A side
    /// without any guy has nobody.
    #[test]
    fn the_sides_are_held_by_whom_a_drawing_shows() {
        let square = [guy(5.0, 0.0, 0.0), guy(0.0, 5.0, 0.0), guy(-5.0, 0.0, 0.0), guy(0.0, -5.0, 0.0)];
        let (guys, held) = tilted(&turn(), &square, 0.0);
        assert_eq!(held, [SideHold::Fast; 2]);
        assert_eq!(guys[2].angles[0].does, GuyDoes::Untied);
        let (run, rise) = (-2.5, 5.0 * 0.75_f64.sqrt());
        let three = [guy(5.0, 0.0, 0.0), guy(run, rise, 0.0), guy(run, -rise, 0.0)];
        let (guys, held) = tilted(&turn(), &three, 0.0);
        assert_eq!(held, [SideHold::Tended; 2]);
        assert!(
            guys[1..].iter().all(|guy| guy.role == GuyRole::Far && guy.angles[0].does == GuyDoes::Tended)
        );
        let (_, held) = tilted(&turn(), &three[..2], 0.0);
        assert_eq!(held, [SideHold::Tended, SideHold::Nobody]);
        // A guy 70° off the line pulls too little sideways.
        let steep = guy(-5.0 * sin_deg(70.0), 5.0 * cos_deg(70.0), 0.0);
        assert_eq!(tilted(&turn(), &[steep], 0.0).1, [SideHold::Nobody; 2]);
    }

    #[test]
    fn the_table_goes_in_steps_of_five_degrees() {
        assert_eq!(elevations(-3.2)[..3], [-3.2, 0.0, 5.0]);
        assert_eq!(elevations(0.0)[..2], [0.0, 5.0]);
        assert_eq!(elevations(84.0), [84.0, 85.0, 90.0]);
    }
}
