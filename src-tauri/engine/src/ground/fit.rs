//! The fit of the ground to slope readings and spot heights, and the choice between plane and surface.

mod findings;
mod solve;

use super::surface::SAME_PLACE_M;
use super::{Ground, Plane, Surface};
use crate::finding::Finding;
use crate::numerics::chi_square::upper_tail;
use crate::numerics::real::{atan_deg, cos_deg, hypot, sin_deg, tan_deg};
use crate::plan::{GroundModelKind, ReadingResidual};
use solve::{Row, Solution, solve};

/// Where nothing tells of the slope in some direction, it is taken as level give or take this much (one
/// sigma): steeper lawns are mown on the contour or not at all. Common practice; stated in a finding.
pub const UNMEASURED_SLOPE_SIGMA_DEG: f64 = 10.0;

/// A fit is doubted where chance alone would misfit as badly in one case of a hundred.
/// Source: Ghilani, Adjustment Computations: goodness-of-fit (chi-square) test at α = 0.01.
pub const TEST_LEVEL: f64 = 0.01;

/// A reading is called in question above this standardised residual.
/// Source: Ghilani, Adjustment Computations, blunder detection: 3.29 at 99.9 % (Baarda); 3 is stricter.
pub const STANDS_OUT: f64 = 3.0;

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
    pub sigma_m: f64,
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
    let mut findings = unusable(slopes, spots);
    let slopes: Vec<&SlopeObservation> = slopes.iter().filter(|s| usable_slope(s)).collect();
    let spots: Vec<&SpotObservation> = spots.iter().filter(|s| usable_spot(s)).collect();
    let rows: Vec<Row> =
        slopes.iter().map(|s| slope_row(s)).chain(spot_rows(&spots)).chain(origin_row(&spots)).collect();
    let mut solution = solve(&rows);
    let readings = residuals(&slopes, &spots, &rows, &solution);
    let departure = departure(&spots);
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
    if doubted {
        solution.widen();
    }
    GroundFit {
        ground: Ground { plane: solution.plane(), surface },
        kind,
        readings,
        findings,
        chi_square: solution.chi_square,
        degrees_of_freedom: solution.degrees_of_freedom,
    }
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

fn slope_row(s: &SlopeObservation) -> Row {
    let tangent = tan_deg(s.slope_deg);
    Row {
        // Apparent dip: tan α = gE·sin b + gN·cos b. Source: Ragan, Structural Geology.
        factors: [0.0, sin_deg(s.bearing_true_deg), cos_deg(s.bearing_true_deg)],
        value: tangent,
        // d(tan α)/dα = sec² α = 1 + tan² α.
        sigma: s.sigma_deg.to_radians() * (1.0 + tangent * tangent),
    }
}

fn spot_rows<'a>(spots: &'a [&SpotObservation]) -> impl Iterator<Item = Row> + 'a {
    spots.iter().map(|s| Row { factors: [1.0, s.at[0], s.at[1]], value: s.height_m, sigma: s.sigma_m })
}

/// The origin as one more spot, as sure as the middle one of those given; none without spots.
fn origin_row(spots: &[&SpotObservation]) -> Option<Row> {
    let mut sigmas: Vec<f64> = spots.iter().map(|s| s.sigma_m).collect();
    sigmas.sort_by(f64::total_cmp);
    let sigma = *sigmas.get(sigmas.len().saturating_sub(1) / 2)?;
    Some(Row { factors: [1.0, 0.0, 0.0], value: 0.0, sigma })
}

fn residuals(
    slopes: &[&SlopeObservation],
    spots: &[&SpotObservation],
    rows: &[Row],
    solution: &Solution,
) -> Vec<ReadingResidual> {
    let of_slope = slopes.iter().map(|s| {
        // The row of a slope is in tangents; the user reads degrees.
        let computed = move |row: &Row| s.slope_deg - atan_deg(solution.computed(row));
        (&s.id, Box::new(computed) as Box<dyn Fn(&Row) -> f64>)
    });
    let of_spot = spots.iter().map(|s| {
        let computed = move |row: &Row| row.value - solution.computed(row);
        (&s.id, Box::new(computed) as Box<dyn Fn(&Row) -> f64>)
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
fn departure(spots: &[&SpotObservation]) -> Option<Departure> {
    if spots.len() < LEAST_SPOTS_FOR_SURFACE || spots_are_plane(spots)? {
        return None;
    }
    let rows: Vec<Row> = spot_rows(spots).chain(origin_row(spots)).collect();
    let own = solve(&rows);
    let (worst, row) = rows
        .iter()
        .take(spots.len())
        .enumerate()
        .max_by(|(_, a), (_, b)| own.standardised(a).abs().total_cmp(&own.standardised(b).abs()))?;
    let others: Vec<&SpotObservation> =
        spots.iter().enumerate().filter(|&(i, _)| i != worst).map(|(_, s)| *s).collect();
    let alone = others.len() >= LEAST_SPOTS_FOR_SURFACE && spots_are_plane(&others) == Some(true);
    Some(Departure { worst, worst_m: row.value - own.computed(row), alone })
}

/// Whether the spots fit one plane within chance; none where they lie along one line.
fn spots_are_plane(spots: &[&SpotObservation]) -> Option<bool> {
    let rows: Vec<Row> = spot_rows(spots).chain(origin_row(spots)).collect();
    let own = solve(&rows);
    own.unmeasured.is_empty().then(|| upper_tail(own.chi_square, own.degrees_of_freedom) >= TEST_LEVEL)
}

/// The surface through the spots and the origin, whose height is 0 by definition and so without uncertainty.
fn surface_through(spots: &[&SpotObservation]) -> Option<Surface> {
    let away: Vec<_> = spots.iter().filter(|s| hypot(s.at[0], s.at[1]) >= SAME_PLACE_M).collect();
    let mut points: Vec<[f64; 3]> = away.iter().map(|s| [s.at[0], s.at[1], s.height_m]).collect();
    let mut sigmas: Vec<f64> = away.iter().map(|s| s.sigma_m).collect();
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
