//! The fit of the ground to slope readings and spot heights, and the choice between plane and surface.

mod findings;
mod shared;
mod solve;

use super::surface::SAME_PLACE_M;
use super::{Ground, Plane, Surface};
use crate::finding::Finding;
use crate::ground::{GroundModelKind, ReadingResidual};
use crate::numerics::chi_square::upper_tail;
use crate::numerics::least_squares::{DMatrix, WORST_STANDARDISED};
use crate::numerics::real::{atan_deg, cos_deg, hypot, sin_deg, tan_deg};
use solve::{ReadingRow, Solution, solve};

/// Where nothing tells of the slope in some direction, it is taken as level give or take this much (one
/// sigma): steeper lawns are mown on the contour or not at all. Common practice; stated in a finding.
pub const UNMEASURED_SLOPE_SIGMA_DEG: f64 = 10.0;

/// A fit is doubted where chance alone would misfit as badly in one case of a hundred.
/// Source: Ghilani, Adjustment Computations: goodness-of-fit (chi-square) test at α = 0.01.
pub const TEST_LEVEL: f64 = 0.01;

/// A reading is called in question above this standardised residual: 0.1 %, so that a survey of a dozen sound
/// readings is rarely doubted. Source: Baarda 1968 (w-test); Ghilani, Adjustment Computations, ch. 21, rejects there.
pub const STANDS_OUT: f64 = WORST_STANDARDISED;

/// Spot heights needed before they can show that the ground is not a plane: three always fit one.
pub const LEAST_SPOTS_FOR_SURFACE: usize = 4;

/// A slope read along a true bearing.
#[derive(Debug, Clone, PartialEq)]
pub struct SlopeObservation {
    pub id: String,
    pub bearing_true_deg: f64,
    /// Positive where the ground rises along the bearing.
    pub slope_deg: f64,
    pub sigma_deg: f64,
}

/// A height of the ground at (east, north) above the ground at the origin mark.
#[derive(Debug, Clone, PartialEq)]
pub struct SpotObservation {
    pub id: String,
    pub at: [f64; 2],
    pub height_m: f64,
    /// Of the reading; what its place adds is in [`SpotPlace`].
    pub sigma_m: f64,
}

/// What spot heights' places hang on.
#[derive(Debug, Clone)]
pub struct Places {
    /// Of each spot, in their order.
    pub of: Vec<SpotPlace>,
    /// Covariance of the errors that the places share.
    pub shared: DMatrix<f64>,
    /// The gradient of the ground on which the places were found.
    pub gradient: [f64; 2],
}

/// What one spot height's place hangs on.
#[derive(Debug, Clone, Default)]
pub struct SpotPlace {
    /// What the part of its place that it shares with no other makes of the height.
    pub own_sigma_m: f64,
    /// How much more the height at the place changes with the gradient than by its distance from the origin: the
    /// tapes that found the place ran along the ground.
    pub by_gradient: [f64; 2],
    /// Shared errors by their numbers: what a unit of each makes of the height read.
    pub shared: Vec<(usize, f64)>,
}

/// What the plane answers to its readings, as numbers that do not hang on each other.
#[derive(Debug, Clone, Default)]
pub struct Sensitivities {
    /// To an error of each slope of one sigma.
    pub slopes: Vec<[f64; 3]>,
    /// To a metre of each spot height.
    pub spots: Vec<[f64; 3]>,
    /// To one sigma of the origin's misfit.
    pub origin: [f64; 3],
    /// To a unit of each of the errors that places share.
    pub to_shared: Vec<[f64; 3]>,
    /// Covariance that comes from what was taken as level for want of readings.
    pub unmeasured: [[f64; 3]; 3],
    /// Where the readings disagree beyond chance the covariance is widened by this; else 1.
    pub widened_by: f64,
}

/// The ground as the readings have it, and how well they agree.
#[derive(Debug, Clone)]
pub struct GroundFit {
    pub ground: Ground,
    pub kind: GroundModelKind,
    /// Of the plane's fit, slopes first, in the order given; readings that can't be used are left out.
    pub readings: Vec<ReadingResidual>,
    pub findings: Vec<Finding>,
    /// Sum of the squared residuals of the plane's fit, each in units of its sigma.
    pub chi_square: f64,
    /// Readings beyond those that a plane needs.
    pub degrees_of_freedom: usize,
    pub sensitivities: Sensitivities,
}

/// Fits the ground to slopes and spot heights, by weighted least squares on z = h₀ + gE·x + gN·y.
///
/// A slope read along bearing b is an apparent dip: tan(reading) = gE·sin b + gN·cos b, so the fit is linear in
/// the tangents. The site's zero is the ground at the origin mark. With slopes alone h₀ is 0 exactly; with
/// spot heights the origin counts as one more spot of height 0, as sure as the middle one of them, so that h₀
/// is the small distance by which the best plane misses the origin mark.
///
/// Sigmas are taken as known. Where the readings disagree beyond chance (chi-square at 1 %) they can't all be
/// right, and the plane's covariance is widened by χ²/degrees of freedom.
///
/// Where the spot heights by themselves depart from every plane beyond chance, the ground is a surface
/// through them and the origin, with the plane outside its hull.
///
/// # References
/// Ragan, Structural Geology: apparent dip. Ghilani, Adjustment Computations: weighted least squares,
/// standardised residuals, goodness-of-fit test. R. T. Birge, Phys. Rev. 40 (1932) 207: widening by χ².
///
/// # Examples
/// ```
/// use mastwright_engine::ground::fit::{SlopeObservation, fit};
///
/// // Lantern Green: 5° up to the north, level to the east, and in between.
/// let slope = |bearing_true_deg, slope_deg| SlopeObservation {
///     id: format!("s{bearing_true_deg}"), bearing_true_deg, slope_deg, sigma_deg: 0.3,
/// };
/// let fit = fit(&[slope(0.0, 5.0), slope(90.0, 0.0), slope(45.0, 3.54)], &[]);
/// assert!((fit.ground.height([0.0, 10.0]) - 0.875).abs() < 0.001);
/// ```
pub fn fit(slopes: &[SlopeObservation], spots: &[SpotObservation]) -> GroundFit {
    let of = vec![SpotPlace::default(); spots.len()];
    fit_placed(slopes, spots, &Places { of, shared: DMatrix::zeros(0, 0), gradient: [0.0; 2] })
}

/// The same where the spots' places share errors, such as those of the marks and bearings that found them.
///
/// Where tapes along the ground found the places, a place moves with the gradient: the height at it then changes by
/// more than its distance from the origin. Fitted again with the places on the ground just found, until it settles,
/// this is Gauss–Newton on places and ground together.
pub fn fit_placed(slopes: &[SlopeObservation], spots: &[SpotObservation], places: &Places) -> GroundFit {
    let mut findings = unusable(slopes, spots);
    let slopes: Vec<&SlopeObservation> = slopes.iter().filter(|s| usable_slope(s)).collect();
    let standing = spots.iter().zip(&places.of).filter(|(s, _)| usable_spot(s));
    let spots: Vec<Spot> = standing.map(|(seen, place)| Spot { seen, place, places }).collect();
    let heights = spots.iter().map(Spot::row).chain(origin_row(spots.iter()));
    let rows: Vec<ReadingRow> = slopes.iter().map(|s| slope_row(s)).chain(heights).collect();
    let mut solution = solve(&rows, &places.shared);
    let readings = residuals(&slopes, &spots, &rows, &solution);
    let departure = departure(&spots, &places.shared);
    let surface = departure.as_ref().and_then(|_| surface_through(&spots));
    let doubted = upper_tail(solution.chi_square, solution.degrees_of_freedom) < TEST_LEVEL;
    findings.extend(findings::of_the_plane(&solution, &readings, doubted, surface.is_some()));
    let kind = match (&surface, &departure) {
        (Some(_), Some(departure)) => {
            findings.push(findings::not_a_plane(departure, &spots));
            GroundModelKind::Surface
        }
        _ if solution.nothing_known() => GroundModelKind::AssumedLevel,
        _ => GroundModelKind::Plane,
    };
    let mut sensitivities = sensitivities(&slopes, &spots, &rows, &solution, places);
    if doubted {
        sensitivities.widened_by = solution.widen();
    }
    GroundFit {
        ground: Ground { plane: solution.plane(), surface },
        kind,
        readings,
        findings,
        chi_square: solution.chi_square,
        degrees_of_freedom: solution.degrees_of_freedom,
        sensitivities,
    }
}

/// A spot height with what its place hangs on.
struct Spot<'a> {
    seen: &'a SpotObservation,
    place: &'a SpotPlace,
    places: &'a Places,
}

impl Spot<'_> {
    fn row(&self) -> ReadingRow {
        let [x, y] = self.seen.at;
        let [by_east, by_north] = self.place.by_gradient;
        let [east, north] = self.places.gradient;
        ReadingRow {
            factors: [1.0, x + by_east, y + by_north],
            // The row is straight in the gradient about the one on which the place was found.
            value: self.seen.height_m + east * by_east + north * by_north,
            sigma: self.own_sigma_m(),
            load: self.place.shared.clone(),
        }
    }

    /// Sigma of the height with what of its place it shares with no other.
    fn own_sigma_m(&self) -> f64 {
        hypot(self.seen.sigma_m, self.place.own_sigma_m)
    }

    /// Sigma of the height with all that its place hangs on.
    fn whole_sigma_m(&self) -> f64 {
        let cell = |i: usize, j: usize| self.places.shared[(i, j)];
        let load = &self.place.shared;
        let shared: f64 =
            load.iter().flat_map(|a| load.iter().map(move |b| a.1 * b.1 * cell(a.0, b.0))).sum();
        hypot(self.own_sigma_m(), shared.max(0.0).sqrt())
    }
}

fn sensitivities(
    slopes: &[&SlopeObservation],
    spots: &[Spot],
    rows: &[ReadingRow],
    solution: &Solution,
    places: &Places,
) -> Sensitivities {
    let unit: Vec<[f64; 3]> = rows.iter().map(|row| solution.answer(row)).collect();
    let (of_slopes, rest) = unit.split_at(slopes.len());
    let (of_spots, of_origin) = rest.split_at(spots.len());
    let scaled = |(answer, row): (&[f64; 3], &ReadingRow)| answer.map(|by| by * row.sigma);
    let slopes: Vec<[f64; 3]> = of_slopes.iter().zip(rows).map(scaled).collect();
    let origin = of_origin.iter().zip(rows.last()).map(scaled).next().unwrap_or([0.0; 3]);
    let mut to_shared = vec![[0.0; 3]; places.shared.nrows()];
    for (answer, row) in of_spots.iter().zip(&rows[slopes.len()..]) {
        for &(number, by) in &row.load {
            (0..3).for_each(|k| to_shared[number][k] += answer[k] * by);
        }
    }
    let own = of_spots.iter().zip(&rows[slopes.len()..]).map(scaled);
    let drawn: Vec<[f64; 3]> = slopes.iter().copied().chain(own).chain([origin]).collect();
    // What the readings leave of the covariance is what was taken as level for want of any.
    let unmeasured = std::array::from_fn(|i| {
        std::array::from_fn(|j| {
            let read: f64 = drawn.iter().map(|by| by[i] * by[j]).sum();
            let shared: f64 = shared_covariance(&to_shared, &places.shared, i, j);
            solution.covariance[i][j] - read - shared
        })
    });
    Sensitivities { slopes, spots: of_spots.to_vec(), origin, to_shared, unmeasured, widened_by: 1.0 }
}

/// What the shared errors make of a cell of the plane's covariance.
fn shared_covariance(by_error: &[[f64; 3]], shared: &DMatrix<f64>, i: usize, j: usize) -> f64 {
    let with = |row: usize| {
        by_error.iter().enumerate().map(|(column, by)| shared[(row, column)] * by[j]).sum::<f64>()
    };
    by_error.iter().enumerate().map(|(row, by)| by[i] * with(row)).sum()
}

fn usable_slope(s: &SlopeObservation) -> bool {
    let finite = s.bearing_true_deg.is_finite() && s.slope_deg.is_finite() && s.sigma_deg.is_finite();
    finite && s.sigma_deg > 0.0 && s.slope_deg.abs() < 89.0
}

fn usable_spot(s: &SpotObservation) -> bool {
    let finite = s.at.iter().all(|v| v.is_finite()) && s.height_m.is_finite() && s.sigma_m.is_finite();
    finite && s.sigma_m > 0.0
}

fn unusable(slopes: &[SlopeObservation], spots: &[SpotObservation]) -> Vec<Finding> {
    let slopes = slopes.iter().filter(|s| !usable_slope(s)).map(|s| &s.id);
    let spots = spots.iter().filter(|s| !usable_spot(s)).map(|s| &s.id);
    slopes.chain(spots).map(|id| findings::unusable(id)).collect()
}

fn slope_row(s: &SlopeObservation) -> ReadingRow {
    let tangent = tan_deg(s.slope_deg);
    ReadingRow {
        // Apparent dip: tan α = gE·sin b + gN·cos b. Source: Ragan, Structural Geology.
        factors: [0.0, sin_deg(s.bearing_true_deg), cos_deg(s.bearing_true_deg)],
        value: tangent,
        // d(tan α)/dα = sec² α = 1 + tan² α.
        sigma: s.sigma_deg.to_radians() * (1.0 + tangent * tangent),
        load: Vec::new(),
    }
}

/// The origin as one more spot: every height was read against the level's reading on the origin mark, which is as
/// sure as the middle one of those given. None without spots.
fn origin_row<'a>(spots: impl Iterator<Item = &'a Spot<'a>>) -> Option<ReadingRow> {
    let mut sigmas: Vec<f64> = spots.map(|spot| spot.seen.sigma_m).collect();
    sigmas.sort_by(f64::total_cmp);
    let sigma = *sigmas.get(sigmas.len().saturating_sub(1) / 2)?;
    Some(ReadingRow { factors: [1.0, 0.0, 0.0], value: 0.0, sigma, load: Vec::new() })
}

fn residuals(
    slopes: &[&SlopeObservation],
    spots: &[Spot],
    rows: &[ReadingRow],
    solution: &Solution,
) -> Vec<ReadingResidual> {
    let of_slope = slopes.iter().map(|s| {
        // The row of a slope is in tangents; the user reads degrees.
        let computed = move |row: &ReadingRow| s.slope_deg - atan_deg(solution.computed(row));
        (&s.id, Box::new(computed) as Box<dyn Fn(&ReadingRow) -> f64>)
    });
    let of_spot = spots.iter().map(|s| {
        let computed = move |row: &ReadingRow| row.value - solution.computed(row);
        (&s.seen.id, Box::new(computed) as Box<dyn Fn(&ReadingRow) -> f64>)
    });
    of_slope
        .chain(of_spot)
        .zip(rows)
        .map(|((id, residual), row)| ReadingResidual {
            id: id.clone(),
            residual: residual(row),
            standardised: solution.standardised(row),
        })
        .collect()
}

/// How the spot heights depart from their own best plane.
struct Departure {
    /// Index of the spot that stands out most, and by how much.
    worst: usize,
    worst_m: f64,
    /// Whether all the others fit a plane without it.
    alone: bool,
}

/// The departure of the spot heights from a plane; none where chance explains it or there are too few.
/// The spots are tested by themselves: a slope reading that disagrees with them is no proof of a hump.
fn departure(spots: &[Spot], shared: &DMatrix<f64>) -> Option<Departure> {
    let all: Vec<&Spot> = spots.iter().collect();
    if spots.len() < LEAST_SPOTS_FOR_SURFACE || are_plane(&all, shared)? {
        return None;
    }
    let rows: Vec<ReadingRow> = spots.iter().map(Spot::row).chain(origin_row(spots.iter())).collect();
    let own = solve(&rows, shared);
    let (worst, row) = rows
        .iter()
        .take(spots.len())
        .enumerate()
        .max_by(|(_, a), (_, b)| own.standardised(a).abs().total_cmp(&own.standardised(b).abs()))?;
    let others: Vec<&Spot> = spots.iter().enumerate().filter(|&(i, _)| i != worst).map(|(_, s)| s).collect();
    let alone = others.len() >= LEAST_SPOTS_FOR_SURFACE && are_plane(&others, shared) == Some(true);
    Some(Departure { worst, worst_m: row.value - own.computed(row), alone })
}

/// Whether the spots fit one plane within chance; none where they lie along one line.
fn are_plane(spots: &[&Spot], shared: &DMatrix<f64>) -> Option<bool> {
    let own = spots.iter().map(|spot| spot.row());
    let rows: Vec<ReadingRow> = own.chain(origin_row(spots.iter().copied())).collect();
    let own = solve(&rows, shared);
    own.unmeasured.is_empty().then(|| upper_tail(own.chi_square, own.degrees_of_freedom) >= TEST_LEVEL)
}

/// The surface through the spots and the origin, whose height is 0 by definition and so without uncertainty.
fn surface_through(spots: &[Spot]) -> Option<Surface> {
    let away: Vec<&Spot> =
        spots.iter().filter(|s| hypot(s.seen.at[0], s.seen.at[1]) >= SAME_PLACE_M).collect();
    let mut points: Vec<[f64; 3]> =
        away.iter().map(|s| [s.seen.at[0], s.seen.at[1], s.seen.height_m]).collect();
    let mut sigmas: Vec<f64> = away.iter().map(|s| s.whole_sigma_m()).collect();
    points.push([0.0; 3]);
    sigmas.push(0.0);
    Surface::with_sigmas(&points, &sigmas).ok()
}

impl Solution {
    fn plane(&self) -> Plane {
        let [height_0_m, east, north] = self.unknowns;
        Plane { height_0_m, gradient: [east, north], covariance: self.covariance }
    }
}

#[cfg(test)]
mod tests;
