//! Everything to be pegged out, in a good order: the mast, the front leg that gives the direction, the other
//! legs, the anchors going round clockwise from the front, the base stakes last.

use super::ties::ties;
use crate::base::{BaseResult, LegResult};
use crate::finding::Subject;
use crate::ground::Ground;
use crate::ground::profile::taut_tape_m;
use crate::guys::GuyResult;
use crate::job::Instruments;
use crate::numerics::real::hypot;
use crate::quantity::bearing;
use crate::stakeout::{Peg, PolarTape};
use crate::survey::PlacedMark;
use crate::survey::north::NorthCorrection;

/// What the pegging list is made from.
#[derive(Debug, Clone, Copy)]
pub struct PegInput<'a> {
    pub ground: &'a Ground,
    pub marks: &'a [PlacedMark],
    pub instruments: &'a Instruments,
    pub north: &'a NorthCorrection,
    /// The mast's axis in plan.
    pub mast: [f64; 2],
    pub base: &'a BaseResult,
    pub guys: &'a [GuyResult],
}

/// The pegs in the order of pegging out. The ring is left out: it is laid by eye and string from the mast.
pub fn pegs(input: &PegInput) -> Vec<Peg> {
    let mut pegs = vec![Peg { from_mast: None, ..input.peg(Subject::Mast, "Mast".into(), input.mast) }];
    pegs.extend(legs_front_first(input.base).into_iter().map(|leg| input.leg(leg)));
    pegs.extend(anchors_going_round(input.guys).into_iter().map(|guy| input.anchor(guy)));
    pegs.extend(input.base.stakes.iter().map(|stake| {
        let subject = Subject::Stake { id: stake.id.clone() };
        input.peg(subject, format!("Stake {}", stake.id), [stake.east_m, stake.north_m])
    }));
    pegs
}

fn legs_front_first(base: &BaseResult) -> Vec<&LegResult> {
    let (mut legs, others): (Vec<_>, Vec<_>) = base.legs.iter().partition(|leg| leg.id == "front");
    legs.extend(others);
    legs
}

fn anchors_going_round(guys: &[GuyResult]) -> Vec<&GuyResult> {
    let mut round: Vec<&GuyResult> = guys.iter().filter(|guy| guy.tells_of_anchor(guys)).collect();
    // A guy straight ahead may come out as 359.999…°: it still goes first.
    let turn = |guy: &GuyResult| bearing::wrap_360(guy.turn_from_front_deg + 1e-6);
    round.sort_by(|a, b| turn(a).total_cmp(&turn(b)).then(a.radius_m.total_cmp(&b.radius_m)));
    round
}

impl PegInput<'_> {
    fn leg(&self, leg: &LegResult) -> Peg {
        let mut words = leg.id.clone();
        if let Some(first) = words.get_mut(0..1) {
            first.make_ascii_uppercase();
        }
        self.peg(Subject::Leg { id: leg.id.clone() }, format!("{words} leg tip"), leg.tip)
    }

    /// One peg for all guys that are made fast to it.
    fn anchor(&self, guy: &GuyResult) -> Peg {
        let subject = Subject::Guy { id: guy.id.clone() };
        let what = if guy.made_fast.is_some() { "fixing" } else { "anchor" };
        let name = format!("{} {what}", guy.anchor_name(self.guys));
        let fixing_height_m = guy.made_fast.as_ref().map(|it| it.height_m);
        let mut guys = vec![guy.id.clone()];
        guys.extend(guy.shared_with.iter().cloned());
        Peg { guys, fixing_height_m, ..self.peg(subject, name, [guy.east_m, guy.north_m]) }
    }

    fn peg(&self, subject: Subject, name: String, at: [f64; 2]) -> Peg {
        Peg {
            subject,
            name,
            guys: Vec::new(),
            east_m: at[0],
            north_m: at[1],
            ground_m: self.ground.height(at),
            fixing_height_m: None,
            from_mast: Some(self.polar_tape(at)),
            ties: ties(at, self.marks, self.ground, self.instruments),
        }
    }

    fn polar_tape(&self, at: [f64; 2]) -> PolarTape {
        let [east, north] = [at[0] - self.mast[0], at[1] - self.mast[1]];
        let bearing_deg = bearing::of_vector(east, north);
        PolarTape {
            bearing_deg,
            reading_deg: self.north.reading_from_true(bearing_deg),
            plan_m: hypot(east, north),
            tape_m: taut_tape_m(self.ground, self.mast, at),
            height_difference_m: self.ground.height(at) - self.ground.height(self.mast),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::base::{ContourTurn, StakePoint, Support};
    use crate::ground::Plane;
    use crate::guys::{GuyInput, guys};
    use crate::job::AnchorLayout;
    use crate::quantity::estimate::Estimate;

    fn leg(id: &str, tip: [f64; 2]) -> LegResult {
        LegResult {
            id: id.into(),
            bearing_deg: 0.0,
            reach_m: 1.0,
            outline: Vec::new(),
            tip,
            support: Support::OnGround,
            gap_centre_m: Estimate { value: 0.0, half_width_95: 0.0 },
            gap_inner_m: 0.0,
            gap_outer_m: 0.0,
            gap_left_m: 0.0,
            gap_right_m: 0.0,
            bevel_along_deg: 0.0,
            bevel_across_deg: 0.0,
        }
    }

    #[test]
    fn pegs_come_in_the_order_of_work() {
        let plane = Plane { height_0_m: 0.0, gradient: [0.0, 0.1], covariance: [[0.0; 3]; 3] };
        let ground = Ground { plane, surface: None };
        let north =
            NorthCorrection { add_to_reading_deg: 3.0, sigma_deg: 0.1, from: crate::survey::NorthFrom::True };
        let instruments = Instruments::default();
        let level = crate::guys::samples::level(AnchorLayout::EqualRadius { radius_m: 4.0 });
        let (guys, _) = guys(&GuyInput {
            ground: &ground,
            levels: &[level],
            free_anchors: &[],
            mast: [1.0, 1.0],
            foot_m: 0.3,
            contacts: &[],
            foot_sigma_m: 0.0,
            front_bearing_deg: 350.0,
            guy_turn_deg: -20.0,
            instruments: &instruments,
            north: &north,
            found: &Default::default(),
            fixings: &[],
        });
        let base = BaseResult {
            underside_m: 0.0,
            legs: vec![leg("right", [2.0, 1.0]), leg("front", [1.0, 2.0])],
            contacts: Vec::new(),
            stakes: vec![StakePoint { id: "front-right".into(), east_m: 1.1, north_m: 1.9, ground_m: 0.19 }],
            contour: ContourTurn::default(),
        };
        let mast = [1.0, 1.0];
        let input = PegInput {
            ground: &ground,
            marks: &[],
            instruments: &instruments,
            north: &north,
            mast,
            base: &base,
            guys: &guys,
        };
        let pegs = pegs(&input);
        let names: Vec<&str> = pegs.iter().map(|peg| peg.name.as_str()).collect();
        let anchors = ["Upper 2 anchor", "Upper 3 anchor", "Upper 1 anchor"]; // turns 100°, 220°, 340°
        assert_eq!(names[..3], ["Mast", "Front leg tip", "Right leg tip"]);
        assert_eq!((&names[3..6], names[6]), (&anchors[..], "Stake front-right"));
        assert!(pegs[0].from_mast.is_none() && pegs[0].ties.is_none());
        let tip = pegs[1].from_mast.as_ref().unwrap();
        assert_eq!((tip.bearing_deg, tip.reading_deg, tip.plan_m), (0.0, 357.0, 1.0));
        assert!(
            (tip.tape_m - hypot(1.0, 0.1)).abs() < 1e-12 && (tip.height_difference_m - 0.1).abs() < 1e-12
        );
    }

    /// A guy straight ahead of the front leg that comes out a hair short of a whole turn goes first all the same.
    #[test]
    fn the_guy_straight_ahead_goes_first() {
        let mut guys = crate::plan::compute(&crate::demo::yardstick()).unwrap().plan.guys;
        for (guy, turn_deg) in guys.iter_mut().zip([240.0, 120.0, 359.999_999_99]) {
            guy.turn_from_front_deg = turn_deg;
        }
        let turns_deg: Vec<f64> =
            anchors_going_round(&guys).into_iter().map(|guy| guy.turn_from_front_deg).collect();
        assert_eq!(turns_deg, [359.999_999_99, 120.0, 240.0]);
    }
}
