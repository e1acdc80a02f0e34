//! The wind's forces from one direction, made once for a gust of 1 m/s: they grow with the square of the gust.
//!
//! Tubes keep the drag coefficient 1.2 of slow air at every speed, which is never too little; so only the strands'
//! tension has to be found anew for each gust.

use super::standing::{Standing, StandingStrand, toward};
use super::strand::TautStrand;
use crate::numerics::vector::*;
use crate::resistance::factors::LOADS;
use crate::structure::{LoadCase, Model, PointLoad};
use crate::wind::drag::SUBCRITICAL;
use crate::wind::ice::{ice_weight_n_per_m, iced_diameter_m};
use crate::wind::member::force_per_length_n_per_m;
use crate::wind::{Body, Member, Route, Stream};

const GRAVITY_M_PER_S2: f64 = 9.806_65;

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
    taut: Vec<TautStrand>,
    /// Of topper and strands.
    topper_weight_n: f64,
    strands_weight_n: f64,
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
            taut: Vec::new(),
            topper_weight_n: 0.0,
            strands_weight_n: 0.0,
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
        let strands = add(self.strand_pull_n(gust_squared), scale(self.strands_n, gust_squared));
        let strands = add(strands, [0.0, 0.0, -self.strands_weight_n]);
        let points = [
            PointLoad { node: self.top_node, force_n: topper, moment_n_m: moment },
            PointLoad { node: self.strands_node, force_n: strands, moment_n_m: [0.0; 3] },
        ];
        for (to, point) in case.points.iter_mut().zip(points) {
            *to = point;
        }
    }

    /// Sets a case to the design loads of a gust: everything that loads the mast, weights too, times the factor on loads.
    pub fn set_design(&self, case: &mut LoadCase, model: &Model, gust_squared: f64) {
        case.points.resize(2, NOTHING);
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

    /// What the taut strands pull with along themselves. Any part of it that would hold the mast against the wind is
    /// left out: nobody shows what wires and hooks hold.
    fn strand_pull_n(&self, gust_squared: f64) -> Vector {
        let sum = self
            .taut
            .iter()
            .fold([0.0; 3], |sum, strand| add_scaled(sum, strand.downward, strand.tension_n(gust_squared)));
        let against = dot(sum, self.toward).min(0.0);
        add_scaled(sum, self.toward, -against)
    }

    fn add_topper(&mut self, standing: &Standing, model: &Model, stream: &Stream) {
        let Some(topper) = &standing.job.rig.topper else { return };
        let top_m = add(standing.foot_m, [0.0, 0.0, model.height_m]);
        let at = add(top_m, [0.0, 0.0, 0.5 * topper.height_m]);
        let area_m2 = topper.width_m * topper.height_m * topper.solid_percent / 100.0;
        let load = Body { at, area_m2, coefficient: topper.drag }.load(stream, top_m);
        (self.topper_n, self.topper_nm) = (load.force_n, load.moment_nm);
        self.topper_weight_n = topper.mass_kg * GRAVITY_M_PER_S2;
    }

    fn add_strands(&mut self, standing: &Standing, stream: &Stream) {
        let Some(strands) = &standing.job.rig.strands else { return };
        let cord = &strands.cord;
        let ice_m = standing.job.wind.ice_mm / 1000.0;
        // What is not known has no weight here, and no part is shown to hold then (`Standing::unknown`).
        let bare_m = cord.diameter_mm.unwrap_or(0.0) / 1000.0;
        let diameter_m = iced_diameter_m(bare_m, ice_m);
        let weight_n_per_m =
            cord.mass_g_per_m.unwrap_or(0.0) / 1000.0 * GRAVITY_M_PER_S2 + ice_weight_n_per_m(bare_m, ice_m);
        let top = add(standing.foot_m, [0.0, 0.0, standing.strands_top_m]);
        for strand in &standing.strands {
            if strand.slack {
                self.add_slack(strand, stream, top, diameter_m, weight_n_per_m);
            } else if !cord.side_help {
                let taut = taut(strand, stream, top, diameter_m, weight_n_per_m);
                let taut = TautStrand { stiffness_n: cord.stiffness_n(), tension_n: cord.tension_n, ..taut };
                let member = member(strand, top, diameter_m);
                self.strands_n = add(self.strands_n, member.load(stream, top).at_upper_n);
                self.strands_weight_n += 0.5 * weight_n_per_m * taut.length_m;
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
        self.strands_n = add_scaled(self.strands_n, per_m, 0.5 * strand.length_m);
        self.strands_weight_n += weight_n_per_m * strand.length_m;
    }
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
