//! The first stage: the ground and every point, from the readings. It knows nothing of what is to be built or where, so
//! that one survey serves for as many places of the mast as wanted.

use std::collections::BTreeMap;

use crate::finding::{Finding, Subject};
use crate::ground::fall::{Fall, fall, gradient_covariance};
use crate::ground::fit::{GroundFit, Places, SlopeObservation, SpotObservation, SpotPlace, fit, fit_placed};
use crate::job::{Instruments, Job, Mark, SlopeReading, SpotHeight, TapeHeld, Yard};
use crate::numerics::least_squares::DMatrix;
use crate::numerics::real::hypot;
use crate::pointer;
use crate::quantity::bearing::unit;
use crate::quantity::estimate::COVERAGE_95;
use crate::quantity::{FieldError, FieldErrors, Units};
use crate::survey::PlacedMark;
use crate::survey::ellipse::ellipse_95;
use crate::survey::north::{NorthCorrection, north};
use crate::survey::positions::Positions;
use crate::survey::positions::geometry::long_chain;

use super::fixes::FixedPoint;
use super::fixings::GuyThings;
use super::{GroundResult, LocatedPoint, North, OpenPoint};

/// What the readings say.
#[derive(Debug, Clone)]
pub struct Surveyed {
    /// In which errors are said and limits are round.
    pub units: Units,
    pub north: NorthCorrection,
    pub fit: GroundFit,
    pub fall: Fall,
    pub positions: Positions,
    /// How surely the things that were measured with read.
    pub instruments: Instruments,
    /// What is doubtful about the readings themselves.
    pub findings: Vec<Finding>,
    /// What in the yard a guy may be made fast to.
    pub guy_things: GuyThings,
}

/// Surveys a yard: north, ground and marks from its readings. In `units` errors are said and limits are round.
///
/// # Errors
/// Marks or spot heights that can't be placed, all at once.
///
/// # Examples
/// ```
/// use mastwright_engine::{demo, plan};
///
/// let job = demo::lantern_green();
/// let surveyed = plan::survey(&job.yard, job.units).expect("the marks can be placed");
/// assert!(surveyed.fall.slope_deg.value > 1.0, "the green falls");
/// ```
pub fn survey(yard: &Yard, units: Units) -> Result<Surveyed, FieldErrors> {
    let (north, mut findings) = north(yard);
    let mut surveyed = Surveyed::with_north(yard, north, units)?;
    findings.append(&mut surveyed.findings);
    surveyed.findings = findings;
    Ok(surveyed)
}

impl Surveyed {
    /// From the readings of a yard whose north is known.
    ///
    /// Tapes along the ground are as long in plan as the ground's slope makes them, and spot heights tell of the
    /// slope at the places that tapes found: so places and ground are found in turn until they settle. Each round
    /// is a step of Gauss–Newton on both together, from the ground that the slope readings alone give.
    ///
    /// # Errors
    /// Marks or spot heights that can't be placed, all at once.
    pub(crate) fn with_north(yard: &Yard, north: NorthCorrection, units: Units) -> Result<Self, FieldErrors> {
        let slopes = slopes(yard, &north);
        let mut plane = fit(&slopes, &[]).ground.plane;
        let mut rounds = 0;
        loop {
            let (mut positions, mut findings) = Positions::new(yard, &north, &plane, units)?;
            let spots = spots(yard, &positions, plane.gradient)?;
            let fit = fit_placed(&slopes, &spots.seen, &spots.places);
            let moved = gap(plane.gradient, fit.ground.plane.gradient);
            plane = fit.ground.plane;
            rounds += 1;
            if !spots.seen.is_empty() && moved > SETTLED_GRADIENT && rounds < MOST_ROUNDS {
                continue;
            }
            spots.join(&mut positions, yard, &fit);
            findings.extend(fit.findings.iter().cloned());
            let fall = fall(&plane);
            let instruments = yard.instruments;
            let guy_things = GuyThings::default();
            let mut done = Self { units, north, fall, fit, positions, instruments, findings, guy_things };
            done.guy_things = GuyThings::of(yard, || done.marks(yard));
            return Ok(done);
        }
    }

    pub fn north_result(&self) -> North {
        North {
            add_to_reading_deg: self.north.add_to_reading_deg,
            add_to_reading_half_width_95_deg: COVERAGE_95 * self.north.sigma_deg,
            from: self.north.from.clone(),
        }
    }

    pub fn ground_result(&self) -> GroundResult {
        let ground = &self.fit.ground;
        let [gradient_east, gradient_north] = ground.plane.gradient;
        let half_width_deg = hypot(self.fall.bearing_half_width_95_deg, COVERAGE_95 * self.north.sigma_deg);
        GroundResult {
            model: self.fit.kind,
            slope_deg: self.fall.slope_deg,
            grade_percent: self.fall.grade_percent,
            fall_bearing_deg: self.fall.bearing_deg,
            fall_reading_deg: self.fall.bearing_deg.map(|bearing| self.north.reading_from_true(bearing)),
            fall_half_width_95_deg: half_width_deg.min(180.0),
            gradient_east,
            gradient_north,
            gradient_covariance: gradient_covariance(&ground.plane),
            readings: self.fit.readings.clone(),
            surface_triangles: ground
                .surface
                .as_ref()
                .map_or_else(Vec::new, |surface| surface.triangles().to_vec()),
            surface_vertices: ground
                .surface
                .as_ref()
                .map_or_else(Vec::new, |surface| surface.vertices().to_vec()),
        }
    }

    /// The marks on the ground, as their network was adjusted.
    pub fn marks(&self, yard: &Yard) -> Vec<PlacedMark> {
        let placed = |mark: &Mark| {
            let located = self.positions.mark(&mark.id)?;
            Some(PlacedMark {
                id: mark.id.clone(),
                name: mark.name.clone(),
                at: [located.at[0], located.at[1], self.fit.ground.height(located.at)],
                covariance: located.covariance,
            })
        };
        yard.marks.iter().filter_map(placed).collect()
    }

    /// A fixed point with its uncertainty. One that can't be located was refused earlier.
    pub(super) fn located(&self, point: &FixedPoint) -> Option<LocatedPoint> {
        // A mark lies where the network put it, not where its own fix alone would.
        let located = match &point.subject {
            Subject::Mark { id } => *self.positions.mark(id)?,
            _ => self.positions.locate(point.fix, &point.path).ok()?,
        };
        Some(LocatedPoint {
            path: point.path.clone(),
            name: point.name.clone(),
            east_m: located.at[0],
            north_m: located.at[1],
            ground_m: self.fit.ground.height(located.at),
            ellipse_95: ellipse_95(&located),
        })
    }

    /// Cautions about the way a point is fixed, where that makes it unsure. Marks have theirs from the network.
    pub(super) fn geometry(&self, point: &FixedPoint) -> Vec<Finding> {
        if let Subject::Mark { .. } = point.subject {
            return Vec::new();
        }
        self.positions.geometry(point.fix, &point.path, point.subject.clone())
    }

    /// Cautions about long rows of corners, each fixed from the one before it.
    pub(super) fn long_chains(&self, job: &Job) -> Vec<Finding> {
        let chains = job.yard.chains().into_iter().zip(chain_subjects(job));
        chains.filter_map(|((_, chain), subject)| long_chain(chain, &subject)).collect()
    }

    /// A point that two places fit, as nobody has named its side; or one that hangs on such a point.
    pub(super) fn open(&self, point: &FixedPoint) -> Option<OpenPoint> {
        let candidates = || self.positions.candidates(point.fix, &point.path).map(Vec::from);
        self.positions.is_open(point.fix, &point.path).then(|| OpenPoint {
            candidates: candidates().unwrap_or_default(),
            path: point.path.clone(),
            name: match &point.subject {
                Subject::Mark { id } => format!("Mark {id}"),
                _ => point.name.clone(),
            },
            subject: point.subject.clone(),
        })
    }
}

/// What each of the yard's chains stands for, in their order.
fn chain_subjects(job: &Job) -> Vec<Subject> {
    let yard = &job.yard;
    let obstacles = yard.obstacles.iter().filter(|obstacle| obstacle.shape.points().0 != "at");
    let obstacles = obstacles.map(|obstacle| Subject::Obstacle { id: obstacle.id.clone() });
    let boundary = yard.boundary.iter().map(|_| Subject::Boundary);
    let services = yard.buried_services.iter();
    let services = services.map(|service| Subject::BuriedService { id: service.id.clone() });
    obstacles.chain(boundary).chain(services).collect()
}

/// The slope readings on true bearings. A bearing's own error turns into an error of slope where the ground
/// changes with direction, so it is added once the ground is roughly known (effective variance).
///
/// Source: Orear, Am. J. Phys. 50 (1982) 912: σ² = σ_y² + (dy/dx)²·σ_x².
pub(crate) fn slopes(yard: &Yard, north: &NorthCorrection) -> Vec<SlopeObservation> {
    let used = yard.slopes.iter().filter(|reading| !reading.struck);
    let plain: Vec<SlopeObservation> = used.map(|reading| observation(yard, north, reading)).collect();
    let [east, north_grade] = fit(&plain, &[]).ground.plane.gradient;
    let bearing_sigma_deg = yard.instruments.bearing_sigma_deg;
    let widened = |slope: SlopeObservation| {
        let [sin, cos] = unit(slope.bearing_true_deg);
        // d(slope)/d(bearing) of tan r = gE·sin b + gN·cos b, both angles in degrees.
        let grade = east * sin + north_grade * cos;
        let per_degree = (east * cos - north_grade * sin) / (1.0 + grade * grade);
        SlopeObservation { sigma_deg: hypot(slope.sigma_deg, per_degree * bearing_sigma_deg), ..slope }
    };
    plain.into_iter().map(widened).collect()
}

fn observation(yard: &Yard, north: &NorthCorrection, reading: &SlopeReading) -> SlopeObservation {
    SlopeObservation {
        id: reading.id.clone(),
        bearing_true_deg: north.true_from_reading(reading.bearing_deg),
        slope_deg: reading.slope_deg,
        sigma_deg: reading.sigma_deg.unwrap_or(yard.instruments.slope_sigma_deg),
    }
}

/// The ground has settled when its gradient moves by less: a hair's breadth at the yard's far end.
const SETTLED_GRADIENT: f64 = 1e-8;

/// The rounds come four times nearer each on the steepest ground; more than this is no yard.
const MOST_ROUNDS: usize = 20;

fn gap(a: [f64; 2], b: [f64; 2]) -> f64 {
    hypot(a[0] - b[0], a[1] - b[1])
}

/// The spot heights in use, in their places.
pub(crate) struct Spots {
    pub seen: Vec<SpotObservation>,
    pub places: Places,
    /// For each shared error its coordinate of the state's points.
    shared: Vec<usize>,
}

/// The spot heights in use, in their places, as sure as reading and place make them. On a slope a spot that lies
/// elsewhere than thought stands too high or too low: its own part of that is added to its sigma (effective
/// variance), what it shares with others by their marks is told to the fit as shared errors.
///
/// Source: Orear, Am. J. Phys. 50 (1982) 912: σ² = σ_z² + gᵀ·Σ·g; with correlated places GUM 5.2.2.
pub(crate) fn spots(yard: &Yard, positions: &Positions, gradient: [f64; 2]) -> Result<Spots, FieldErrors> {
    let mut seen = Vec::new();
    let mut of: Vec<SpotPlace> = Vec::new();
    let mut numbers: BTreeMap<usize, usize> = BTreeMap::new();
    let mut errors: Vec<FieldError> = Vec::new();
    let down = gradient.map(|g| -g);
    for (path, spot) in used_spots(yard, positions) {
        let site = match positions.site(&spot.at, &path) {
            Ok(site) => site,
            Err(error) => {
                errors.push(error);
                continue;
            }
        };
        seen.push(SpotObservation {
            id: spot.id.clone(),
            at: site.at,
            height_m: spot.height_m,
            sigma_m: spot.sigma_m.unwrap_or(yard.instruments.spot_height_sigma_m),
        });
        let mut shared = Vec::new();
        for (first, by) in site.by_points(down) {
            for (coordinate, by) in [(first, by[0]), (first + 1, by[1])] {
                let next = numbers.len();
                shared.push((*numbers.entry(coordinate).or_insert(next), by));
            }
        }
        let own_sigma_m = site.own_variance(gradient).sqrt();
        of.push(SpotPlace { own_sigma_m, by_gradient: positions.by_ground(&site, gradient), shared });
    }
    if !errors.is_empty() {
        return Err(errors.into());
    }
    let mut shared = vec![0; numbers.len()];
    numbers.into_iter().for_each(|(coordinate, number)| shared[number] = coordinate);
    let covariance = positions.readings_covariance();
    let cell = |row: usize, column: usize| covariance[(shared[row], shared[column])];
    let places = Places { of, shared: DMatrix::from_fn(shared.len(), shared.len(), cell), gradient };
    Ok(Spots { seen, places, shared })
}

/// The spot heights that are in use and placed, with their fixes' pointers.
pub(crate) fn used_spots<'a>(
    yard: &'a Yard,
    positions: &'a Positions,
) -> impl Iterator<Item = (String, &'a SpotHeight)> + 'a {
    let spots = yard.spot_heights.iter().enumerate().filter(|(_, spot)| !spot.struck);
    let placed = spots.map(|(index, spot)| (pointer!(yard.spot_heights[index].at), spot));
    placed.filter(|(path, spot)| !positions.is_open(&spot.at, path))
}

impl Spots {
    /// Tells the positions how sure the ground under their tapes is, and what it shares with them: spot heights that
    /// were found from a mark turn with it.
    fn join(&self, positions: &mut Positions, yard: &Yard, fit: &GroundFit) {
        if yard.tape_held == TapeHeld::Level {
            return;
        }
        let covariance = positions.readings_covariance();
        let mut with_points = DMatrix::zeros(covariance.nrows(), 2);
        // The plane's answer to each shared error, by all points that these errors are correlated with.
        for (answer, &coordinate) in fit.sensitivities.to_shared.iter().zip(&self.shared) {
            for point in 0..covariance.nrows() {
                for axis in 0..2 {
                    with_points[(point, axis)] += covariance[(point, coordinate)] * answer[1 + axis];
                }
            }
        }
        positions.join_ground(gradient_covariance(&fit.ground.plane), &with_points);
    }
}
