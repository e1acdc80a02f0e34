//! The survey drawn by chance: north, ground, marks and every point fixed from them.

use crate::ground::surface::{Beyond, SAME_PLACE_M};
use crate::ground::{Ground, Plane, SpotObservation};
use crate::job::{Job, PointFix, TapeHeld};
use crate::numerics::least_squares::DMatrix;
use crate::numerics::random::Random;
use crate::plan::Plan;
use crate::plan::surveyed::{Surveyed, spots, used_spots};
use crate::pointer;
use crate::quantity::{FieldError, FieldErrors};
use crate::survey::north::{NorthCorrection, north};
use crate::survey::positions::{Positions, Site};

/// North is turned by this much to see how the yard answers; small enough to be straight, large enough for digits.
const NORTH_STEP_DEG: f64 = 0.05;

/// The parts of a survey that do not change from draw to draw.
pub(super) struct Survey {
    ground: Ground,
    positions: Positions,
    turned: Option<Positions>,
    north_sigma_deg: f64,
    /// Change of the plane by a standard normal error of each slope.
    slopes: Vec<[f64; 3]>,
    spots: Vec<SampledSpot>,
    /// What the misfit of the origin does to the plane.
    origin: [f64; 3],
    /// Root of the covariance that comes from what was taken as level for want of readings.
    unmeasured: [[f64; 3]; 3],
    tapes_along_ground: bool,
    plane_by_north: [f64; 3],
    /// Of the marks and corners with the ground known; and how they move with it.
    readings_root: DMatrix<f64>,
    points_by_gradient: DMatrix<f64>,
    mast: SampledPoint,
    /// The points that clearances hang on.
    places: Vec<SampledPoint>,
    vertices: Vec<Vertex>,
    /// Overhead lines.
    wires: usize,
    /// Obstacles.
    things: usize,
    /// One sigma of the slope by which the ground goes on outside the spot heights, off the plane's.
    beyond_slope: Option<f64>,
}

/// A spot height under way.
struct SampledSpot {
    place: SampledPoint,
    sigma_m: f64,
    /// Slope of the ground there: what a wrong place does to the height.
    gradient: [f64; 2],
    /// Change of the plane for each metre of this spot.
    plane: [f64; 3],
    /// How its place moves with the gradient of the tapes' ground, its marks' moves counted in.
    by_gradient: [[f64; 2]; 2],
}

impl SampledSpot {
    fn rise(&self, moved: [f64; 2]) -> f64 {
        self.gradient[0] * moved[0] + self.gradient[1] * moved[1]
    }
}

/// A point with its answer to a turn of north.
struct SampledPoint {
    site: Site,
    by_north: [f64; 2],
}

impl SampledPoint {
    fn moved(&self, yard: &SampledYard, random: &mut Random) -> [f64; 2] {
        let [east, north] = self.site.displacement(&yard.state, random.pair());
        [east + self.by_north[0] * yard.north_deg, north + self.by_north[1] * yard.north_deg]
    }
}

/// A vertex of the surface: its height, and the spots that make it with their weights.
struct Vertex {
    height_m: f64,
    spots: Vec<(usize, f64)>,
}

/// One drawn yard.
pub(super) struct SampledYard {
    pub north_deg: f64,
    pub ground: Ground,
    pub mast_moved: [f64; 2],
    /// Displacements of the places that clearances hang on.
    pub moved: Vec<[f64; 2]>,
    /// A normal number for each overhead line.
    pub wires: Vec<f64>,
    /// A normal number for each obstacle's height.
    pub things: Vec<f64>,
    state: Vec<f64>,
    numbers: Vec<f64>,
    spot_errors: Vec<f64>,
    heights: Vec<f64>,
}

impl Survey {
    pub(super) fn of(job: &Job, plan: &Plan) -> Result<Self, FieldErrors> {
        let (correction, _) = north(&job.yard);
        let surveyed = Surveyed::with_north(&job.yard, correction.clone(), job.units)?;
        let turned = turned(job, &correction)?;
        let sensitivities = &surveyed.fit.sensitivities;
        let scale = sensitivities.widened_by.sqrt();
        let spot_rows = spots(&job.yard, &surveyed.positions, surveyed.fit.ground.plane.gradient)?.seen;
        let positions = &surveyed.positions;
        let plane_by_north = turned.as_ref().map_or([0.0; 3], |turned| {
            let of = |plane: &Plane| [plane.height_0_m, plane.gradient[0], plane.gradient[1]];
            let (a, b) = (of(&surveyed.fit.ground.plane), of(&turned.fit.ground.plane));
            std::array::from_fn(|i| (b[i] - a[i]) / NORTH_STEP_DEG)
        });
        let mut spots = Vec::new();
        let mut survey = Survey {
            north_sigma_deg: correction.sigma_deg,
            slopes: sensitivities.slopes.iter().map(|by| by.map(|by| scale * by)).collect(),
            spots: Vec::new(),
            origin: sensitivities.origin.map(|by| scale * by),
            unmeasured: root(
                sensitivities.unmeasured.map(|row| row.map(|cell| cell * sensitivities.widened_by)),
                surveyed.fit.ground.plane.covariance,
            ),
            tapes_along_ground: job.yard.tape_held == TapeHeld::AlongGround,
            plane_by_north,
            readings_root: positions.readings_root(),
            points_by_gradient: positions.by_gradient().clone(),
            mast: mast(job, plan, positions, &turned)?,
            places: Vec::new(),
            vertices: Vec::new(),
            wires: job.yard.overhead_lines.len(),
            things: job.yard.obstacles.len(),
            beyond_slope: surveyed.fit.ground.departure_slope(),
            ground: surveyed.fit.ground.clone(),
            positions: surveyed.positions,
            turned: turned.map(|turned| turned.positions),
        };
        for ((path, spot), plane) in used_spots(&job.yard, &survey.positions).zip(&sensitivities.spots) {
            let place = survey.find(&spot.at, &path)?;
            let gradient = survey.ground.gradient(place.site.at);
            // What widens the plane where the readings fit none is no error of a height: on a surface they stand.
            let sigma_m = spot.sigma_m.unwrap_or(job.yard.instruments.spot_height_sigma_m);
            let by_gradient =
                [[1.0, 0.0], [0.0, 1.0]].map(|along| survey.positions.by_ground(&place.site, along));
            let plane = plane.map(|by| scale * by);
            spots.push(SampledSpot { gradient, sigma_m, plane, by_gradient, place });
        }
        survey.spots = spots;
        survey.vertices = vertices(&survey.ground, &spot_rows);
        Ok(survey)
    }

    fn find(&self, fix: &PointFix, path: &str) -> Result<SampledPoint, FieldError> {
        let site = self.positions.site(fix, path)?;
        let by_north = match &self.turned {
            Some(turned) => per_degree(site.at, turned.locate(fix, path)?.at),
            None => [0.0; 2],
        };
        Ok(SampledPoint { site, by_north })
    }

    /// Adds a point to those that are drawn; gives its number and place.
    pub(super) fn add(&mut self, fix: &PointFix, path: &str) -> Result<(usize, [f64; 2]), FieldError> {
        let place = self.find(fix, path)?;
        let at = place.site.at;
        self.places.push(place);
        Ok((self.places.len() - 1, at))
    }

    pub(super) fn ground(&self) -> &Ground {
        &self.ground
    }

    pub(super) fn locate(&self, fix: &PointFix, path: &str) -> Result<[f64; 2], FieldError> {
        Ok(self.positions.locate(fix, path)?.at)
    }

    pub(super) fn start(&self) -> SampledYard {
        SampledYard {
            north_deg: 0.0,
            ground: self.ground.clone(),
            mast_moved: [0.0; 2],
            moved: vec![[0.0; 2]; self.places.len()],
            wires: vec![0.0; self.wires],
            things: vec![0.0; self.things],
            state: vec![0.0; 2 + self.readings_root.nrows()],
            numbers: vec![0.0; self.readings_root.nrows()],
            spot_errors: vec![0.0; self.spots.len()],
            heights: vec![0.0; self.vertices.len()],
        }
    }

    pub(super) fn draw(&self, yard: &mut SampledYard, random: &mut Random) {
        yard.north_deg = self.north_sigma_deg * random.normal();
        let mut plane = [0.0; 3];
        let mut add = |by: &[f64; 3], error: f64| (0..3).for_each(|k| plane[k] += by[k] * error);
        self.slopes.iter().for_each(|by| add(by, random.normal()));
        let level: [f64; 3] = std::array::from_fn(|_| random.normal());
        add(&std::array::from_fn(|k| dot(self.unmeasured[k], level)), 1.0);
        add(&self.origin, if self.spots.is_empty() { 0.0 } else { random.normal() });
        self.draw_points(yard, random);
        for (i, spot) in self.spots.iter().enumerate() {
            let own = spot.place.site.displacement(&yard.state, random.pair());
            yard.spot_errors[i] = spot.sigma_m * random.normal() - spot.rise(own);
            add(&spot.plane, yard.spot_errors[i]);
        }
        add(&self.plane_by_north, yard.north_deg);
        self.move_with_ground(yard, [plane[1], plane[2]]);
        self.lay_ground(yard, plane);
        self.go_on_outside(yard, random);
        yard.mast_moved = self.mast.moved(yard, random);
        for (i, place) in self.places.iter().enumerate() {
            yard.moved[i] = place.moved(yard, random);
        }
        yard.wires.iter_mut().for_each(|wire| *wire = random.normal());
        yard.things.iter_mut().for_each(|thing| *thing = random.normal());
    }

    /// How the ground goes on where nobody measured it: as far off the plane as the plan's interval takes it to be.
    fn go_on_outside(&self, yard: &mut SampledYard, random: &mut Random) {
        let (Some(sigma), Some(surface)) = (self.beyond_slope, &mut yard.ground.surface) else { return };
        let step_share = random.normal();
        let slope = random.pair().map(|number| sigma * number);
        surface.set_beyond(Beyond { step_share, slope });
    }

    /// The marks as their own readings scatter them, the ground as planned.
    fn draw_points(&self, yard: &mut SampledYard, random: &mut Random) {
        yard.numbers.iter_mut().for_each(|number| *number = random.normal());
        yard.state[..2].fill(0.0);
        for i in 0..yard.numbers.len() {
            yard.state[2 + i] = (0..=i).map(|k| self.readings_root[(i, k)] * yard.numbers[k]).sum();
        }
    }

    /// All points moved on by the ground of this draw and by north, and what that makes of the heights at the spots'
    /// planned places. (The plane has had its answer to both already.)
    fn move_with_ground(&self, yard: &mut SampledYard, gradient: [f64; 2]) {
        // North is in `plane_by_north` and in each place's own answer to it: the gradient's part is without it.
        let by_north = [self.plane_by_north[1], self.plane_by_north[2]].map(|by| by * yard.north_deg);
        let alone = [gradient[0] - by_north[0], gradient[1] - by_north[1]];
        if self.tapes_along_ground {
            yard.state[..2].copy_from_slice(&alone);
            for i in 0..yard.numbers.len() {
                let by = &self.points_by_gradient;
                yard.state[2 + i] += by[(i, 0)] * alone[0] + by[(i, 1)] * alone[1];
            }
        }
        for (error, spot) in yard.spot_errors.iter_mut().zip(&self.spots) {
            let moved = spot.by_gradient.map(|by| by[0] * alone[0] + by[1] * alone[1]);
            let turned = spot.place.by_north.map(|by| by * yard.north_deg);
            *error -= spot.rise([moved[0] + turned[0], moved[1] + turned[1]]);
        }
    }

    fn lay_ground(&self, yard: &mut SampledYard, moved: [f64; 3]) {
        let planned = &self.ground.plane;
        yard.ground.plane.height_0_m = planned.height_0_m + moved[0];
        yard.ground.plane.gradient = [planned.gradient[0] + moved[1], planned.gradient[1] + moved[2]];
        let SampledYard { heights, spot_errors, ground, .. } = yard;
        for (height, vertex) in heights.iter_mut().zip(&self.vertices) {
            let moved: f64 = vertex.spots.iter().map(|&(spot, weight)| weight * spot_errors[spot]).sum();
            *height = vertex.height_m + moved;
        }
        if let Some(surface) = &mut ground.surface {
            surface.set_heights(heights);
        }
    }
}

/// The survey with north a little turned; none where north has no error.
fn turned(job: &Job, correction: &NorthCorrection) -> Result<Option<Surveyed>, FieldErrors> {
    if correction.sigma_deg <= 0.0 {
        return Ok(None);
    }
    let add_to_reading_deg = correction.add_to_reading_deg + NORTH_STEP_DEG;
    let turned = NorthCorrection { add_to_reading_deg, ..correction.clone() };
    Surveyed::with_north(&job.yard, turned, job.units).map(Some)
}

fn per_degree(at: [f64; 2], turned: [f64; 2]) -> [f64; 2] {
    [(turned[0] - at[0]) / NORTH_STEP_DEG, (turned[1] - at[1]) / NORTH_STEP_DEG]
}

/// The mast as it is pegged out: by its own fix where that was from marks, by the plan's ties, or by bearing and tape.
fn mast(
    job: &Job,
    plan: &Plan,
    positions: &Positions,
    turned: &Option<Surveyed>,
) -> Result<SampledPoint, FieldErrors> {
    let fix = &job.placement.mast;
    let at = [plan.mast.east_m, plan.mast.north_m];
    let peg = plan.pegs.iter().find(|peg| peg.subject == crate::finding::Subject::Mast);
    let ties = peg.and_then(|peg| peg.ties.as_ref()).map(|ties| (ties.mark_a.as_str(), ties.mark_b.as_str()));
    let pegged = positions.pegged(at, fix, ties);
    let site = positions.pegged_site(&pegged);
    let by_north = match turned {
        None => [0.0; 2],
        Some(turned) if fix.is_from_marks() => {
            per_degree(at, turned.positions.locate(fix, pointer!(placement.mast))?.at)
        }
        // The ties turn with their marks about the origin; so does a bearing from one.
        Some(_) => [at[1].to_radians(), -at[0].to_radians()],
    };
    Ok(SampledPoint { site, by_north })
}

/// Lower root of a covariance that may be flat; below a millionth of `whole` it is rounding.
fn root(m: [[f64; 3]; 3], whole: [[f64; 3]; 3]) -> [[f64; 3]; 3] {
    let mut l = [[0.0; 3]; 3];
    for i in 0..3 {
        for j in 0..i {
            let known: f64 = (0..j).map(|k| l[i][k] * l[j][k]).sum();
            l[i][j] = if l[j][j] > 0.0 { (m[i][j] - known) / l[j][j] } else { 0.0 };
        }
        let left = m[i][i] - (0..i).map(|k| l[i][k] * l[i][k]).sum::<f64>();
        l[i][i] = if left > 1e-6 * whole[i][i] { left.sqrt() } else { 0.0 };
    }
    l
}

/// For each vertex of the surface the spots at its place; the origin has none and stays.
fn vertices(ground: &Ground, spots: &[SpotObservation]) -> Vec<Vertex> {
    let Some(surface) = &ground.surface else { return Vec::new() };
    let mut from_west: Vec<usize> = (0..spots.len()).collect();
    from_west.sort_by(|&a, &b| spots[a].at[0].total_cmp(&spots[b].at[0]));
    let same_m = 2.0 * SAME_PLACE_M;
    let of = |vertex: &[f64; 3]| {
        let first = from_west.partition_point(|&i| spots[i].at[0] < vertex[0] - same_m);
        let beside = from_west[first..].iter().take_while(|&&i| spots[i].at[0] <= vertex[0] + same_m);
        let near: Vec<usize> =
            beside.copied().filter(|&i| (spots[i].at[1] - vertex[1]).abs() <= same_m).collect();
        let weight = 1.0 / near.len().max(1) as f64;
        Vertex { height_m: vertex[2], spots: near.into_iter().map(|spot| (spot, weight)).collect() }
    };
    surface.vertices().iter().map(of).collect()
}

fn dot(a: [f64; 3], b: [f64; 3]) -> f64 {
    a[0] * b[0] + a[1] * b[1] + a[2] * b[2]
}
