//! The wind's forces from one direction, made once for a gust of 1 m/s: they grow with the square of the gust.
//!
//! Tubes keep the drag coefficient 1.2 of slow air at every speed, which is never too little; so only the strands'
//! tension has to be found anew for each gust.

use super::standing::{Standing, StandingStrand, toward};
use super::strand::TautStrand;
use crate::numerics::vector::*;
use crate::quantity::convert::STANDARD_GRAVITY;
use crate::resistance::factors::LOADS;
use crate::structure::{LoadCase, Model, PointLoad};
use crate::wind::drag::SUBCRITICAL;
use crate::wind::ice::{ice_weight_n_per_m, iced_diameter_m};
use crate::wind::member::force_per_length_n_per_m;
use crate::wind::{Member, Route, Stream};

const NOTHING: PointLoad = PointLoad { node: 0, force_n: [0.0; 3], moment_n_m: [0.0; 3] };

/// All forces of a wind from one direction.
#[derive(Debug, Clone)]
pub struct WindLoads {
    /// Where it blows to.
    toward: Vector,
    elements_n_per_m: Vec<Vector>,
    guys_n_per_m: Vec<Vector>,
    /// Wind on the topper, and its moment about the mast's top.
    topper_n: Vector,
    topper_nm: Vector,
    /// The strands' wind that comes onto the mast, by the lever rule.
    strands_n: Vector,
    /// The moment of that about the axis at their height: they begin on a circle, not on the axis.
    strands_nm: Vector,
    taut: Vec<TautStrand>,
    /// Of each taut strand's pull: moment about the axis for each newton.
    taut_arms_m: Vec<Vector>,
    /// Of topper and strands.
    topper_weight_n: f64,
    strands_weight_n: f64,
    strands_weight_nm: Vector,
    top_node: usize,
    strands_node: usize,
}

impl WindLoads {
    /// `toward` is a level unit vector.
    pub fn new(standing: &Standing, model: &Model, route: &Route, [east, north]: [f64; 2]) -> Self {
        let pressure = |height_m: f64| route.pressure_pa(1.0, height_m);
        let ground_m = standing.foot_m[2] - standing.foot_above_ground_m;
        let stream = Stream { direction: [east, north, 0.0], pressure_pa: &pressure, ground_m };
        let mut loads = Self {
            toward: stream.direction,
            elements_n_per_m: elements(standing, model, &stream),
            guys_n_per_m: guys(standing, model, &stream),
            topper_n: [0.0; 3],
            topper_nm: [0.0; 3],
            strands_n: [0.0; 3],
            strands_nm: [0.0; 3],
            taut: Vec::new(),
            taut_arms_m: Vec::new(),
            topper_weight_n: 0.0,
            strands_weight_n: 0.0,
            strands_weight_nm: [0.0; 3],
            top_node: model.node_at(model.height_m),
            strands_node: model.node_at(standing.strands_top_m),
        };
        loads.add_topper(standing, model, &stream);
        loads.add_strands(standing, &stream);
        loads
    }

    /// Where the wind blows to.
    pub fn toward(&self) -> [f64; 2] {
        let [east, north, _] = self.toward;
        [east, north]
    }

    /// An empty load case of the right size.
    pub fn case(&self, model: &Model) -> LoadCase {
        let mut case = LoadCase::still_air(model);
        case.points = vec![NOTHING; 2];
        case
    }

    /// Sets a case made by [`Self::case`] to a gust, by its square in m²/s².
    pub fn set(&self, case: &mut LoadCase, gust_squared: f64) {
        for (to, unit) in case.wind_on_elements_n_per_m.iter_mut().zip(&self.elements_n_per_m) {
            *to = scale(*unit, gust_squared);
        }
        for (to, unit) in case.wind_on_guys_n_per_m.iter_mut().zip(&self.guys_n_per_m) {
            *to = scale(*unit, gust_squared);
        }
        let topper = add_scaled([0.0, 0.0, -self.topper_weight_n], self.topper_n, gust_squared);
        let moment = scale(self.topper_nm, gust_squared);
        let (pull_n, pull_nm) = self.strand_pull(gust_squared);
        let strands = add(pull_n, scale(self.strands_n, gust_squared));
        let strands = add(strands, [0.0, 0.0, -self.strands_weight_n]);
        let tips = add(pull_nm, scale(self.strands_nm, gust_squared));
        let tips = add(tips, self.strands_weight_nm);
        let points = [
            PointLoad { node: self.top_node, force_n: topper, moment_n_m: moment },
            PointLoad { node: self.strands_node, force_n: strands, moment_n_m: tips },
        ];
        for (to, point) in case.points.iter_mut().zip(points) {
            *to = point;
        }
    }

    /// Sets a case to the design loads of a gust: everything that loads the mast, weights too, times the factor on loads.
    pub fn set_design(&self, case: &mut LoadCase, model: &Model, gust_squared: f64) {
        self.set(case, gust_squared);
        let weights = model.elements.iter().map(|element| element.weight_n_per_m);
        for (wind, weight_n_per_m) in case.wind_on_elements_n_per_m.iter_mut().zip(weights) {
            *wind = with_factor(*wind, weight_n_per_m);
        }
        for (wind, guy) in case.wind_on_guys_n_per_m.iter_mut().zip(&model.guys) {
            *wind = with_factor(*wind, guy.weight_n_per_m);
        }
        for point in &mut case.points {
            point.force_n = scale(point.force_n, LOADS);
            point.moment_n_m = scale(point.moment_n_m, LOADS);
        }
    }

    /// What the taut strands pull with along themselves, and its moment about the axis. Any part of either that would
    /// hold the mast against the wind is left out: nobody shows what wires and hooks hold.
    fn strand_pull(&self, gust_squared: f64) -> (Vector, Vector) {
        let (mut sum, mut moment) = ([0.0; 3], [0.0; 3]);
        for (strand, arm) in self.taut.iter().zip(&self.taut_arms_m) {
            let tension_n = strand.tension_n(gust_squared);
            sum = add_scaled(sum, strand.downward, tension_n);
            moment = add_scaled(moment, *arm, tension_n);
        }
        let against = dot(sum, self.toward).min(0.0);
        // About this axis the wind tips the mast.
        let [east, north, _] = self.toward;
        let tips = [-north, east, 0.0];
        let holds = dot(moment, tips).min(0.0);
        (add_scaled(sum, self.toward, -against), add_scaled(moment, tips, -holds))
    }

    fn add_topper(&mut self, standing: &Standing, model: &Model, stream: &Stream) {
        let Some(topper) = &standing.job.rig.topper else { return };
        let top_m = add(standing.foot_m, [0.0, 0.0, model.height_m]);
        let at = add(top_m, [0.0, 0.0, 0.5 * topper.height_m]);
        let load = topper.in_wind(at).load(stream, top_m);
        (self.topper_n, self.topper_nm) = (load.force_n, load.moment_nm);
        self.topper_weight_n = topper.mass_kg * STANDARD_GRAVITY;
    }

    fn add_strands(&mut self, standing: &Standing, stream: &Stream) {
        let Some(strands) = &standing.job.rig.strands else { return };
        let cord = &strands.cord;
        let ice_m = standing.job.wind.ice_mm / 1000.0;
        // What is not known has no weight here, and no part is shown to hold then (`Standing::unknown`).
        let bare_m = cord.diameter_mm.unwrap_or(0.0) / 1000.0;
        let diameter_m = iced_diameter_m(bare_m, ice_m);
        let weight_n_per_m =
            cord.mass_g_per_m.unwrap_or(0.0) / 1000.0 * STANDARD_GRAVITY + ice_weight_n_per_m(bare_m, ice_m);
        let on_axis = add(standing.foot_m, [0.0, 0.0, standing.strands_top_m]);
        for strand in &standing.strands {
            let top = add(on_axis, strand.top_offset_m);
            if strand.slack {
                self.add_slack(strand, stream, top, diameter_m, weight_n_per_m);
            } else if !cord.side_help {
                let taut = taut(strand, stream, top, diameter_m, weight_n_per_m);
                let taut = TautStrand { stiffness_n: cord.stiffness_n(), tension_n: cord.tension_n, ..taut };
                let member = member(strand, top, diameter_m);
                self.blow(strand, member.load(stream, top).at_upper_n);
                self.hang(strand, 0.5 * weight_n_per_m * taut.length_m);
                self.taut_arms_m.push(tipping(strand, taut.downward));
                self.taut.push(taut);
            }
        }
    }

    /// A strand that hangs loose from the lowered top: half of its whole wind comes onto the mast, as if all of it
    /// stood square to the wind, and all of its weight.
    fn add_slack(
        &mut self,
        strand: &StandingStrand,
        stream: &Stream,
        top: Vector,
        diameter_m: f64,
        weight_n_per_m: f64,
    ) {
        let pressure_pa = (stream.pressure_pa)(top[2] - stream.ground_m);
        let per_m =
            force_per_length_n_per_m(pressure_pa, stream.direction, [0.0, 0.0, 1.0], SUBCRITICAL, diameter_m);
        self.blow(strand, scale(per_m, 0.5 * strand.length_m));
        self.hang(strand, weight_n_per_m * strand.length_m);
    }

    /// The wind's force where a strand begins.
    fn blow(&mut self, strand: &StandingStrand, force_n: Vector) {
        self.strands_n = add(self.strands_n, force_n);
        self.strands_nm = add(self.strands_nm, tipping(strand, force_n));
    }

    /// A strand's weight where it begins.
    fn hang(&mut self, strand: &StandingStrand, weight_n: f64) {
        self.strands_weight_n += weight_n;
        self.strands_weight_nm = add(self.strands_weight_nm, tipping(strand, [0.0, 0.0, -weight_n]));
    }
}

/// Moment of a force where a strand begins, about the level axes through the mast's. What turns the mast about itself is
/// left out: it bends nothing, and over a whole ring it sums to nothing.
fn tipping(strand: &StandingStrand, force_n: Vector) -> Vector {
    let [east, north, _] = cross(strand.top_offset_m, force_n);
    [east, north, 0.0]
}

/// The factor on wind and on weight; the solver adds the weight itself once.
fn with_factor(wind_n_per_m: Vector, weight_n_per_m: f64) -> Vector {
    let [x, y, z] = scale(wind_n_per_m, LOADS);
    [x, y, z - (LOADS - 1.0) * weight_n_per_m]
}

fn member(strand: &StandingStrand, top: Vector, diameter_m: f64) -> Member {
    Member { lower: strand.ring_point, upper: top, diameter_m, coefficient: SUBCRITICAL }
}

/// The strand with its loads square to it, at the pressure half-way up; stiffness and tension are still to be set.
fn taut(
    strand: &StandingStrand,
    stream: &Stream,
    top: Vector,
    diameter_m: f64,
    weight_n_per_m: f64,
) -> TautStrand {
    let (downward, length_m) = toward(top, strand.ring_point);
    let middle_m = 0.5 * (top[2] + strand.ring_point[2]) - stream.ground_m;
    let pressure_pa = (stream.pressure_pa)(middle_m);
    let weight = [0.0, 0.0, -weight_n_per_m];
    TautStrand {
        downward,
        length_m,
        stiffness_n: 1.0,
        tension_n: 1.0,
        weight_n_per_m: add_scaled(weight, downward, -dot(weight, downward)),
        wind_n_per_m: force_per_length_n_per_m(
            pressure_pa,
            stream.direction,
            downward,
            SUBCRITICAL,
            diameter_m,
        ),
    }
}

fn elements(standing: &Standing, model: &Model, stream: &Stream) -> Vec<Vector> {
    let ice_m = standing.job.wind.ice_mm / 1000.0;
    let wind = model.elements.iter().map(|element| {
        let Some(tube) = standing.tubes.get(element.tube).filter(|_| element.exposed) else {
            return [0.0; 3];
        };
        let middle = element.nodes.iter().filter_map(|&node| model.nodes.get(node)).map(|node| node.height_m);
        let middle_m = 0.5 * middle.sum::<f64>() + standing.foot_above_ground_m;
        let (axis, _) = toward([0.0; 3], element.beam.chord_m);
        let diameter_m = iced_diameter_m(tube.outside_m, ice_m);
        let pressure_pa = (stream.pressure_pa)(middle_m);
        force_per_length_n_per_m(pressure_pa, stream.direction, axis, SUBCRITICAL, diameter_m)
    });
    wind.collect()
}

/// Wind per unstressed metre of each guy, by the mean pressure over its height; the strands that count as guys come
/// after the guys.
fn guys(standing: &Standing, model: &Model, stream: &Stream) -> Vec<Vector> {
    let ice_m = standing.job.wind.ice_mm / 1000.0;
    let bare_mm = standing.guys.iter().map(|guy| guy.level.rope.diameter_mm);
    let cord_mm = standing.job.rig.strands.as_ref().and_then(|strands| strands.cord.diameter_mm);
    let cord_mm = cord_mm.unwrap_or(0.0);
    let diameters = bare_mm.chain(std::iter::repeat(cord_mm));
    let wind = model.guys.iter().enumerate().zip(diameters).map(|((index, guy), bare_mm)| {
        let lower = add(model.foot_m, guy.anchor_m);
        let chord_m = model.guy_chord_m(index);
        let diameter_m = iced_diameter_m(bare_mm / 1000.0, ice_m);
        let rope = Member { lower, upper: add(lower, chord_m), diameter_m, coefficient: SUBCRITICAL };
        scale(rope.load(stream, lower).force_n, 1.0 / guy.rope.unstressed_m.max(1e-9))
    });
    wind.collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::job::{Job, blank};
    use crate::numerics::real::hypot;
    use crate::plan::compute;
    use crate::quantity::{UnitSystem, Units};
    use crate::wind_capacity::MastHeight;
    use crate::wind_capacity::{air, mast};

    /// Level ground, the strands from a circle of 0.2 m at 4 m up to a ring of 3 m, the middle one to the north.
    fn coned(count: u16, sweep_deg: f64) -> Job {
        let mut job = blank(Units { system: UnitSystem::Metric, inch_fraction: 16 });
        let mut strands = crate::demo::yardstick().rig.strands.expect("strands");
        (strands.count, strands.sweep_deg, strands.facing_turn_deg) = (count, sweep_deg, 0.0);
        (strands.top_radius_m, strands.top_height_m, strands.ring_radius_m) = (Some(0.2), 4.0, 3.0);
        (strands.cord.tension_n, strands.cord.mass_g_per_m, strands.cord.diameter_mm) =
            (30.0, Some(50.0), Some(8.0));
        strands.cord.side_help = false;
        job.rig.strands = Some(strands);
        job.wind.ice_mm = 0.0;
        job
    }

    /// The moment that the strands put on the mast, with the gust's square and the way that it blows.
    fn moment(job: &Job, toward: [f64; 2], gust_squared: f64) -> Vector {
        let layout = compute(job).expect("a plain yard").layout;
        let standing = Standing::of(job, &layout, MastHeight::Raised);
        let model = Model::build(&mast::mast(&standing, toward)).expect("a mast");
        let loads = WindLoads::new(&standing, &model, &air::route(job), toward);
        let mut case = loads.case(&model);
        loads.set(&mut case, gust_squared);
        case.points[1].moment_n_m
    }

    /// By hand: of three strands over half a turn the outer two balance about the east–west axis and all three about
    /// nothing else; what is left is the middle one's pull and half its weight, both on a lever of 0.2 m:
    /// 0.2·(30·H/L + 0.05·9.80665·L/2), L = √(2.8² + H²), H the circle's height over the level ring.
    #[test]
    fn strands_pull_where_they_begin() {
        let job = coned(3, 180.0);
        let layout = compute(&job).expect("a plain yard").layout;
        let height_m = layout.mast.foot_m + 4.0 - layout.mast.ground_m;
        let length_m = hypot(2.8, height_m);
        let weight_nm = 0.2 * 0.05 * 9.806_65 * length_m / 2.0;
        let pull_nm = 0.2 * 30.0 * height_m / length_m;
        // Tipping to the north is a moment about the axis that points west.
        let [east, north, up] = moment(&job, [0.0, 1.0], 0.0);
        assert!((east + pull_nm + weight_nm).abs() < 1e-6, "{east} {pull_nm} {weight_nm}");
        assert!(north.abs() < 1e-9 && up == 0.0);
        // Against a wind from there the pull would help: only the weight stays.
        let [east, ..] = moment(&job, [0.0, -1.0], 0.0);
        assert!((east + weight_nm).abs() < 1e-6, "{east} {weight_nm}");
    }

    /// By hand: round the whole turn every lever has its opposite. In a wind those on its two sides pull unlike, for it
    /// presses one down and lifts the other: little is left.
    #[test]
    fn a_whole_cone_pulls_as_if_from_the_axis() {
        for (gust_squared, left) in [(0.0, 1e-9), (400.0, 0.1)] {
            let round = moment(&coned(24, 360.0), [0.6, 0.8], gust_squared);
            let half = moment(&coned(24, 180.0), [0.6, 0.8], gust_squared);
            assert!(norm(round) < left * norm(half), "{round:?} {half:?}");
        }
    }
}
