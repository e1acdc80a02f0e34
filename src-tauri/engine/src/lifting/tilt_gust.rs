//! The gust up to which the bare mast may be turned up.
//!
//! Wind on the tubes with what is tied along them and on the topper, from the lying side, from the other, and across, at every whole
//! degree: its moment about the hinge grows with the square of the gust. Against it stand those who push or pull, no more of them than
//! the mast's weight takes; to each side the guy that holds most, by its rope and anchor where it is fast, by one helper's pull where it
//! is in hands; past plumb the stop guy that holds most. The mast may lean sideways by one in ten (what [`crate::raising::guys`] lets it):
//! its weight's part sideways comes first.

use super::ONE_PULLS_N;
use super::body::Turning;
use super::hands::{degrees, push, team_n};
use super::line::RiggedLine;
use super::results::{GustBy, GustFound, GustLimit, GustMissing, Lie};
use crate::job::{Job, StrandsInTilt};
use crate::numerics::real::{cos_deg, sin_deg};
use crate::numerics::vector::{Vector, add, cross, dot, norm, scale, subtract};
use crate::plan::Computed;
use crate::quantity::convert::STANDARD_GRAVITY;
use crate::raising::guys::LEAN;
use crate::raising::motion::TiltMotion;
use crate::raising::{self, GuyDoes, GuyRole, RaiseWay};
use crate::wind::drag::SUBCRITICAL;
use crate::wind::{Member, Route, Stream};
use crate::wind_capacity::air;
use crate::wind_capacity::parts::{Check, Part};
use crate::wind_capacity::standing::Standing;

/// What the tilt's wind is reckoned from.
pub struct TiltWind<'a> {
    pub job: &'a Job,
    pub computed: &'a Computed,
    pub way: &'a RaiseWay,
    pub turning: &'a Turning,
    pub lie: &'a Lie,
    pub line: Option<&'a RiggedLine>,
    /// Tubes as they are while it turns up, with what they may carry.
    pub standing: &'a Standing<'a>,
    pub parts: &'a [Part],
    /// Those who push or pull.
    pub many: u32,
}

/// A guy that may hold, with what of it counts.
struct Holder {
    name: String,
    on_right: bool,
    role: GuyRole,
    eye: Vector,
    collar: Vector,
    does: Vec<(f64, GuyDoes)>,
    /// By its rope and anchor; none where one of them is not shown.
    allowable_n: Option<f64>,
}

impl TiltWind<'_> {
    pub fn limit(&self) -> GustFound {
        let Some(radius_m) = raising::radius_as_said(self.job, self.computed) else {
            return GustFound::missing(GustMissing::CordThickness);
        };
        let said = &self.job.raising;
        if said.strands == StrandsInTilt::Unsaid && said.strands_hang && self.job.rig.strands.is_some() {
            return GustFound::missing(GustMissing::HangingStrands);
        }
        let route = air::route(self.job);
        let holders = self.holders();
        let mut found = Vec::new();
        for elevation_deg in degrees(self.way.lying_deg) {
            let [against, across] = self.moments(&route, radius_m, elevation_deg);
            found.push(Ok(self.by_hands(against, elevation_deg)));
            for on_right in [false, true] {
                found.push(self.by_side(&holders, on_right, across, elevation_deg));
            }
            if elevation_deg >= 90.0 {
                found.push(by_stop(&self.turn(), &holders, against));
            }
        }
        let mut found = GustFound::least(found);
        // Most angles wait for the same.
        found.missing.sort_unstable();
        found.missing.dedup();
        found
    }

    /// Moments about the hinge of a gust of 1 m/s: in the mast's upright plane, and across it.
    fn moments(&self, route: &Route, radius_m: f64, elevation_deg: f64) -> [f64; 2] {
        // Out to the lying side, to the right, up, from the hinge.
        let axis = [cos_deg(elevation_deg), 0.0, sin_deg(elevation_deg)];
        let pressure = |height_m: f64| route.pressure_pa(1.0, height_m);
        let topper = self.job.rig.topper.as_ref();
        let topper_m = topper.map_or(0.0, |topper| topper.height_m);
        let mast = Member {
            lower: [0.0; 3],
            upper: scale(axis, self.turning.long_m),
            diameter_m: 2.0 * radius_m,
            coefficient: SUBCRITICAL,
        };
        let load = |direction: Vector| {
            let stream = Stream { direction, pressure_pa: &pressure, ground_m: -self.lie.hinge_m };
            let mut moment_nm = mast.load(&stream, [0.0; 3]).moment_nm;
            if let Some(topper) = topper {
                let at = scale(axis, self.turning.long_m + 0.5 * topper_m);
                moment_nm = add(moment_nm, topper.in_wind(at).load(&stream, [0.0; 3]).moment_nm);
            }
            moment_nm
        };
        let [_, against, _] = load([1.0, 0.0, 0.0]);
        let square = [-axis[2], 0.0, axis[0]];
        [against.abs(), dot(load([0.0, 1.0, 0.0]), square).abs()]
    }

    /// Wind that blows back to the lying side, on top of the weight.
    fn by_hands(&self, per_square_nm: f64, elevation_deg: f64) -> GustLimit {
        let (force_n, arm_m, together_n) = match self.line {
            None => {
                let at = push(self.turning, self.lie, elevation_deg);
                (at.force_n, at.grip_m, team_n(self.many))
            }
            Some(rigged) => {
                let at = rigged.pull(self.turning, elevation_deg);
                (at.pull_n, at.arm_m, f64::from(self.many) * ONE_PULLS_N)
            }
        };
        let left_nm = (together_n - force_n).max(0.0) * arm_m.max(0.0);
        limit(left_nm, per_square_nm, GustBy::Hands, elevation_deg)
    }

    /// Wind from one side is held on that side.
    fn by_side(
        &self,
        holders: &[Holder],
        on_right: bool,
        per_square_nm: f64,
        elevation_deg: f64,
    ) -> Result<GustLimit, GustMissing> {
        let turn = self.turn();
        let square = add(scale(turn.toward, -sin_deg(elevation_deg)), [0.0, 0.0, cos_deg(elevation_deg)]);
        // The weight's own part, by the lean that is let.
        let leans_nm = LEAN * self.turning.moment_kg_m * STANDARD_GRAVITY * sin_deg(elevation_deg);
        let own = holders.iter().filter(|it| it.on_right == on_right);
        let held = own.map(|it| (it, it.holds_nm(&turn, square, elevation_deg)));
        best(held, leans_nm, per_square_nm, elevation_deg, |guy| GustBy::Side { guy })
    }

    fn turn(&self) -> TiltMotion {
        TiltMotion::about(self.way.hinge, self.way.lies_toward_deg)
    }

    fn holders(&self) -> Vec<Holder> {
        let mast = &self.computed.plan.mast;
        let each = self.standing.guys.iter().enumerate().filter_map(|(place, guy)| {
            let tilted = self.way.guys.iter().find(|it| it.id == guy.planned.id)?;
            let [off_east, off_north, off_up] = guy.collar_offset_m;
            let up_m = mast.foot_m + guy.attach_height_m + off_up;
            Some(Holder {
                name: tilted.name.clone(),
                on_right: tilted.on_right,
                role: tilted.role,
                eye: guy.planned.eye,
                collar: [mast.east_m + off_east, mast.north_m + off_north, up_m],
                does: tilted.angles.iter().map(|at| (at.elevation_deg, at.does)).collect(),
                allowable_n: guy_holds_n(self.parts, place),
            })
        });
        each.collect()
    }
}

/// What a guy holds by its rope and its anchor, the anchor shared by all guys on it; none where one of them is not shown.
pub(super) fn guy_holds_n(parts: &[Part], place: usize) -> Option<f64> {
    let mut rope = None;
    let mut anchor = None;
    for part in parts {
        match &part.check {
            Check::Rope { guy, allowable_n } if *guy == place => rope = Some(*allowable_n),
            Check::Anchor { guys, allowable_n } if guys.contains(&place) => {
                anchor = Some(allowable_n / guys.len() as f64);
            }
            _ => {}
        }
    }
    Some(f64::min(rope?, anchor?))
}

impl Holder {
    fn does(&self, elevation_deg: f64) -> GuyDoes {
        let before = self.does.iter().rev().find(|(at_deg, _)| *at_deg <= elevation_deg + 1e-9);
        before.map_or(GuyDoes::Untied, |(_, does)| *does)
    }

    /// What it may hold against turning about an axis through the hinge; an error where that is not known, none where it holds nothing.
    fn holds_nm(
        &self,
        turn: &TiltMotion,
        axis: Vector,
        elevation_deg: f64,
    ) -> Result<Option<f64>, GustMissing> {
        let most_n = match self.does(elevation_deg) {
            GuyDoes::Untied => return Ok(None),
            // At plumb the far guys are not fast yet: hands hold it.
            GuyDoes::Fast if self.role == GuyRole::Far => return Ok(None),
            GuyDoes::Tended => ONE_PULLS_N,
            GuyDoes::Fast | GuyDoes::Slack => self.allowable_n.ok_or(GustMissing::RopesAndAnchors)?,
        };
        let collar = turn.at(self.collar, elevation_deg);
        let run = subtract(self.eye, collar);
        let pull = scale(run, most_n / norm(run).max(1e-9));
        Ok(Some(dot(cross(subtract(collar, turn.hinge), pull), axis).abs()))
    }
}

/// Wind that blows it past plumb.
fn by_stop(turn: &TiltMotion, holders: &[Holder], per_square_nm: f64) -> Result<GustLimit, GustMissing> {
    let stop = holders.iter().filter(|it| it.role == GuyRole::Stop);
    let held = stop.map(|it| (it, it.holds_nm(turn, turn.right, 90.0)));
    best(held, 0.0, per_square_nm, 90.0, |guy| GustBy::Stop { guy })
}

/// By the guy that holds most.
fn best<'a>(
    held: impl Iterator<Item = (&'a Holder, Result<Option<f64>, GustMissing>)>,
    first_nm: f64,
    per_square_nm: f64,
    elevation_deg: f64,
    by: impl Fn(String) -> GustBy,
) -> Result<GustLimit, GustMissing> {
    let mut most: Option<(f64, &Holder)> = None;
    let mut open = GustMissing::NothingHolds;
    for (holder, found) in held {
        match found {
            Ok(Some(nm)) if most.is_none_or(|(most, _)| nm > most) => most = Some((nm, holder)),
            Ok(_) => {}
            Err(missing) => open = missing,
        }
    }
    let (nm, holder) = most.ok_or(open)?;
    Ok(limit((nm - first_nm).max(0.0), per_square_nm, by(holder.name.clone()), elevation_deg))
}

/// The gust whose moment is as large as what is left to hold it.
fn limit(left_nm: f64, per_square_nm: f64, by: GustBy, elevation_deg: f64) -> GustLimit {
    let gust_m_per_s = (left_nm / per_square_nm.max(1e-9)).sqrt();
    GustLimit { gust_m_per_s, by, at_deg: Some(elevation_deg) }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Collar 8 m up, eye so far out on the lying side (east) and to its right (south), fast but for helpers.
    fn holder(role: GuyRole, [out, right]: [f64; 2], does: GuyDoes, allowable_n: Option<f64>) -> Holder {
        Holder {
            name: format!("{role:?} {out}"),
            on_right: right > 0.0,
            role,
            eye: [out, -right, 0.0],
            collar: [0.0, 0.0, 8.0],
            does: vec![(0.0, does)],
            allowable_n,
        }
    }

    /// By hand, rope and eye 5 m out: at plumb 1000 N at 8 m hold 8·1000·5/√89 = 4240 N·m against going past it, which is 20.59 m/s where 1 m/s brings
    /// 10 N·m. Of two stop guys the one that holds more counts, 6 m out: 8·1000·6/10 = 4800 N·m, 21.91 m/s. What nobody knows of the only one
    /// is missing; a far guy is not fast yet, and a side guy does not stop it.
    #[test]
    fn what_stops_it_past_plumb_by_hand() {
        let turn = TiltMotion::about([0.0; 3], 90.0);
        let stop = |out: f64, held_n: Option<f64>| holder(GuyRole::Stop, [out, 0.0], GuyDoes::Slack, held_n);
        let limit = |holders: &[Holder]| by_stop(&turn, holders, 10.0);
        let one = limit(&[stop(5.0, Some(1000.0))]).expect("it holds");
        assert!((one.gust_m_per_s - 20.591).abs() < 1e-3 && one.at_deg == Some(90.0), "{one:?}");
        assert_eq!(one.by, GustBy::Stop { guy: "Stop 5".into() });
        let two = limit(&[stop(5.0, Some(1000.0)), stop(6.0, Some(1000.0))]).expect("they hold");
        assert!((two.gust_m_per_s - 21.909).abs() < 1e-3 && two.by == GustBy::Stop { guy: "Stop 6".into() });
        assert_eq!(limit(&[stop(5.0, None)]), Err(GustMissing::RopesAndAnchors));
        let others = [
            holder(GuyRole::Far, [-5.0, 0.0], GuyDoes::Fast, Some(1e4)),
            holder(GuyRole::Side, [1.0, 5.0], GuyDoes::Fast, Some(1e4)),
        ];
        assert_eq!(limit(&others), Err(GustMissing::NothingHolds));
    }

    /// By hand, eye 5 m beside the hinge: at any angle the collar is 8 m along the tube, so 1000 N hold 8·1000·5/√89 = 4240 N·m about the axis square to
    /// it, and a helper's 150 N hold 636 N·m. Less 500 N·m for a leaning weight, at 10 N·m for 1 m/s: 19.34 and 3.69 m/s.
    #[test]
    fn what_holds_it_to_the_side_by_hand() {
        let turn = TiltMotion::about([0.0; 3], 90.0);
        for elevation_deg in [0.0, 30.0, 77.0] {
            let square = add(scale(turn.toward, -sin_deg(elevation_deg)), [0.0, 0.0, cos_deg(elevation_deg)]);
            for (does, gust_m_per_s) in [(GuyDoes::Fast, 19.339), (GuyDoes::Tended, 3.688)] {
                let guy = holder(GuyRole::Side, [0.0, 5.0], does, Some(1000.0));
                let held = std::iter::once((&guy, guy.holds_nm(&turn, square, elevation_deg)));
                let found = best(held, 500.0, 10.0, elevation_deg, |guy| GustBy::Side { guy }).expect("held");
                assert!((found.gust_m_per_s - gust_m_per_s).abs() < 1e-3, "{elevation_deg}: {found:?}");
            }
        }
    }
}
