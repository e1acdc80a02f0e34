//! The triangulated surface between spot heights.

use spade::{DelaunayTriangulation, HasPosition, Point2, Triangulation};

use super::grid::Grid;

/// Spot heights nearer together than this in plan are one place, and are averaged; a triangle thinner than
/// this is no ground. A tape on grass is read to a centimetre (common practice), so nothing real is lost.
pub const SAME_PLACE_M: f64 = 1e-3;

/// Barycentric weights down to this below zero still count as inside, so that points on an edge are found.
const EDGE_SLACK: f64 = 1e-12;

/// Why spot heights make no surface.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
pub enum SurfaceError {
    #[error("a surface needs at least three different places")]
    TooFewPlaces,
    #[error("the spot heights lie along one line")]
    AlongOneLine,
    #[error("spot height {0} (counted from 0) is not a finite number")]
    NotFinite(usize),
    #[error("the triangulation failed")]
    Triangulation,
}

/// Triangles between spot heights with an index for fast lookup: flat within each triangle, continuous
/// across their edges, nothing outside their hull.
///
/// # References
/// B. Delaunay, Sur la sphère vide (1934); built by the `spade` library with exact predicates.
#[derive(Debug, Clone)]
pub struct Surface {
    vertices: Vec<[f64; 3]>,
    sigmas_m: Vec<f64>,
    triangles: Vec<[u32; 3]>,
    hull: Vec<[f64; 2]>,
    slope_moments: [f64; 3],
    grid: Grid,
    /// How the ground goes on outside, in a yard drawn by chance; none: as the plane.
    beyond: Option<Beyond>,
}

/// How the ground outside the hull departs from the plane: this share of the step at the nearest edge, and a slope away
/// from there.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Beyond {
    pub step_share: f64,
    pub slope: [f64; 2],
}

/// A triangle under a point with the weights of its corners, which add up to 1.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Footing {
    pub triangle: usize,
    pub vertices: [u32; 3],
    pub weights: [f64; 3],
}

impl Surface {
    /// The surface through points (east, north, height), all equally sure.
    ///
    /// # Errors
    /// Where fewer than three places are given, or all along one line.
    pub fn new(points: &[[f64; 3]]) -> Result<Self, SurfaceError> {
        Self::with_sigmas(points, &[])
    }

    /// The surface through points with the standard uncertainty of each height in metres (0 where the list is
    /// too short). Points at one place are averaged by 1/σ².
    ///
    /// # Errors
    /// As [`Surface::new`].
    pub fn with_sigmas(points: &[[f64; 3]], sigmas_m: &[f64]) -> Result<Self, SurfaceError> {
        if let Some(index) = points.iter().position(|p| !p.iter().all(|v| v.is_finite())) {
            return Err(SurfaceError::NotFinite(index));
        }
        let spot = |(i, &at): (usize, &[f64; 3])| (at, sigmas_m.get(i).copied().unwrap_or(0.0));
        let mut spots = same_places_merged(points.iter().enumerate().map(spot).collect());
        loop {
            if spots.len() < 3 {
                return Err(SurfaceError::TooFewPlaces);
            }
            // Checked first because the triangulation takes quadratic time on a line of points.
            if along_one_line(&spots) {
                return Err(SurfaceError::AlongOneLine);
            }
            let triangles = triangulate(&spots)?;
            // A point's nearest neighbour is always one of its Delaunay neighbours, so places that are too near
            // each other show up as short edges.
            let short = short_edges(&spots, &triangles);
            if short.is_empty() {
                return Self::assemble(spots, triangles);
            }
            spots = merged(spots, &short);
        }
    }

    fn assemble(spots: Vec<Spot>, mut triangles: Vec<[u32; 3]>) -> Result<Self, SurfaceError> {
        let (vertices, sigmas_m): (Vec<_>, Vec<_>) = spots.into_iter().unzip();
        triangles.retain(|&t| thinness_m(corners(&vertices, t)) >= SAME_PLACE_M);
        if triangles.is_empty() {
            return Err(SurfaceError::AlongOneLine);
        }
        let boxes: Vec<_> = triangles.iter().map(|&t| bounds(corners(&vertices, t))).collect();
        let hull = convex_hull(vertices.iter().map(|&vertex| plan(vertex)).collect());
        let slope_moments = slope_moments(&vertices, &triangles);
        Ok(Self { grid: Grid::new(&boxes), vertices, sigmas_m, triangles, hull, slope_moments, beyond: None })
    }

    /// Height at a point, none outside the triangles.
    pub fn height(&self, at: [f64; 2]) -> Option<f64> {
        let footing = self.footing(at)?;
        let [a, b, c] = corners(&self.vertices, footing.vertices);
        // From the first corner, so that a level triangle gives its level to the last bit.
        Some(a[2] + footing.weights[1] * (b[2] - a[2]) + footing.weights[2] * (c[2] - a[2]))
    }

    /// Slope at a point, none outside the triangles: dz/dx (east) and dz/dy (north).
    pub fn gradient(&self, at: [f64; 2]) -> Option<[f64; 2]> {
        let footing = self.footing(at)?;
        Some(gradient_of(corners(&self.vertices, footing.vertices)))
    }

    /// The triangle under a point, none outside them all. On an edge the first of its two triangles.
    pub fn footing(&self, at: [f64; 2]) -> Option<Footing> {
        self.grid.at(at).iter().find_map(|&triangle| {
            let vertices = *self.triangles.get(triangle as usize)?;
            let weights = weights(corners(&self.vertices, vertices), at);
            let inside = weights.iter().all(|&w| w >= -EDGE_SLACK);
            inside.then_some(Footing { triangle: triangle as usize, vertices, weights })
        })
    }

    /// Variance of the height at a footing.
    pub(super) fn variance(&self, at: &Footing) -> f64 {
        let parts = at.vertices.iter().zip(at.weights);
        parts.map(|(&vertex, weight)| weight * weight * self.vertex_variance(vertex)).sum()
    }

    /// Variance of the difference of the heights at two footings: a corner that both stand on counts once, with
    /// the difference of its weights.
    pub(super) fn difference_variance(&self, a: &Footing, b: &Footing) -> f64 {
        let weight_in = |footing: &Footing, vertex: u32| {
            let place = footing.vertices.iter().position(|&v| v == vertex);
            place.map_or(0.0, |place| footing.weights[place])
        };
        let only_b = b.vertices.iter().filter(|&v| !a.vertices.contains(v));
        let all = a.vertices.iter().chain(only_b);
        all.map(|&vertex| {
            let weight = weight_in(a, vertex) - weight_in(b, vertex);
            weight * weight * self.vertex_variance(vertex)
        })
        .sum()
    }

    fn vertex_variance(&self, vertex: u32) -> f64 {
        self.sigmas_m.get(vertex as usize).map_or(0.0, |sigma| sigma * sigma)
    }

    /// Corners of the triangles: indices into [`Surface::vertices`], anticlockwise seen from above.
    pub fn triangles(&self) -> &[[u32; 3]] {
        &self.triangles
    }

    /// The places with their heights: east, north, height.
    pub fn vertices(&self) -> &[[f64; 3]] {
        &self.vertices
    }

    /// Standard uncertainty of each vertex's height in metres.
    pub fn sigmas_m(&self) -> &[f64] {
        &self.sigmas_m
    }

    /// The three corners of a triangle.
    pub fn corners(&self, triangle: [u32; 3]) -> [[f64; 3]; 3] {
        corners(&self.vertices, triangle)
    }

    /// The edge of what it covers: anticlockwise, not closed.
    pub fn hull(&self) -> &[[f64; 2]] {
        &self.hull
    }

    /// The steepest slope of each triangle, as a grade, averaged over the area.
    pub fn mean_grade(&self) -> f64 {
        let (mut area_m2, mut rise) = (0.0, 0.0);
        for corners in self.triangles.iter().map(|&triangle| self.corners(triangle)) {
            let [a, b, c] = corners.map(|[x, y, _]| [x, y]);
            let twice_m2 = cross(a, b, c).abs();
            let [east, north] = gradient_of(corners);
            area_m2 += twice_m2;
            rise += twice_m2 * crate::numerics::real::hypot(east, north);
        }
        if area_m2 > 0.0 { rise / area_m2 } else { 0.0 }
    }

    /// Means over its area, at the heights as read: of the slope to the east, to the north, and of the square of both.
    pub(super) fn slope_moments(&self) -> [f64; 3] {
        self.slope_moments
    }

    /// The same triangles at other heights, one for each vertex.
    pub(crate) fn set_heights(&mut self, heights_m: &[f64]) {
        for (vertex, height) in self.vertices.iter_mut().zip(heights_m) {
            vertex[2] = *height;
        }
    }

    /// Lets the ground outside depart from the plane.
    pub(crate) fn set_beyond(&mut self, beyond: Beyond) {
        self.beyond = Some(beyond);
    }

    pub(super) fn beyond(&self) -> Option<Beyond> {
        self.beyond
    }

    /// Triangles near the line from `a` to `b`, in order of their number.
    pub(super) fn near_line(&self, a: [f64; 2], b: [f64; 2]) -> impl Iterator<Item = [[f64; 3]; 3]> + '_ {
        let near = self.grid.along(a, b).into_iter();
        near.filter_map(|t| self.triangles.get(t as usize)).map(|&t| corners(&self.vertices, t))
    }
}

fn slope_moments(vertices: &[[f64; 3]], triangles: &[[u32; 3]]) -> [f64; 3] {
    let (mut sums, mut area) = ([0.0; 3], 0.0);
    for &triangle in triangles {
        let corners = corners(vertices, triangle);
        let [a, b, c] = corners.map(plan);
        let (weight, [east, north]) = (cross(a, b, c), gradient_of(corners));
        let moments = [east, north, east * east + north * north];
        sums.iter_mut().zip(moments).for_each(|(sum, moment)| *sum += weight * moment);
        area += weight;
    }
    sums.map(|sum| sum / area)
}

/// The convex hull of points in plan, anticlockwise, without the points along its sides.
///
/// # References
/// A. M. Andrew, Another efficient algorithm for convex hulls in two dimensions (1979).
pub(crate) fn convex_hull(mut points: Vec<[f64; 2]>) -> Vec<[f64; 2]> {
    points.sort_by(|a, b| a[0].total_cmp(&b[0]).then(a[1].total_cmp(&b[1])));
    points.dedup();
    let mut hull = half_hull(points.iter());
    let upper = half_hull(points.iter().rev());
    hull.pop();
    hull.extend(upper);
    hull.pop();
    hull
}

/// The chain that keeps turning left, from the first point to the last.
fn half_hull<'a>(points: impl Iterator<Item = &'a [f64; 2]>) -> Vec<[f64; 2]> {
    let mut chain: Vec<[f64; 2]> = Vec::new();
    for &point in points {
        while chain.len() >= 2 && cross(chain[chain.len() - 2], chain[chain.len() - 1], point) <= 0.0 {
            chain.pop();
        }
        chain.push(point);
    }
    chain
}

/// A place with its height, and the height's standard uncertainty.
type Spot = ([f64; 3], f64);

/// Twice the signed area of (a, b, c) in plan, positive anticlockwise.
pub(super) fn cross(a: [f64; 2], b: [f64; 2], c: [f64; 2]) -> f64 {
    (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])
}

pub(super) fn plan([x, y, _]: [f64; 3]) -> [f64; 2] {
    [x, y]
}

fn corners(vertices: &[[f64; 3]], triangle: [u32; 3]) -> [[f64; 3]; 3] {
    // Indices come from our own triangulation of these very vertices.
    triangle.map(|vertex| vertices.get(vertex as usize).copied().unwrap_or_default())
}

/// Barycentric weights of a point; they add up to 1.
fn weights(triangle: [[f64; 3]; 3], at: [f64; 2]) -> [f64; 3] {
    let [a, b, c] = triangle.map(plan);
    let whole = cross(a, b, c);
    let (second, third) = (cross(at, c, a) / whole, cross(at, a, b) / whole);
    [cross(at, b, c) / whole, second, third]
}

/// dz/dx and dz/dy of the plane through three points.
pub(super) fn gradient_of([a, b, c]: [[f64; 3]; 3]) -> [f64; 2] {
    let whole = cross(plan(a), plan(b), plan(c));
    let (u, v) = (b[2] - a[2], c[2] - a[2]);
    let east = u * (c[1] - a[1]) - v * (b[1] - a[1]);
    let north = v * (b[0] - a[0]) - u * (c[0] - a[0]);
    [east / whole, north / whole]
}

fn bounds(triangle: [[f64; 3]; 3]) -> [[f64; 2]; 2] {
    let [a, b, c] = triangle;
    let low = [a[0].min(b[0]).min(c[0]), a[1].min(b[1]).min(c[1])];
    let high = [a[0].max(b[0]).max(c[0]), a[1].max(b[1]).max(c[1])];
    [low, high]
}

fn square(a: [f64; 3], b: [f64; 3]) -> f64 {
    (b[0] - a[0]) * (b[0] - a[0]) + (b[1] - a[1]) * (b[1] - a[1])
}

/// The least height of a triangle in plan.
fn thinness_m([a, b, c]: [[f64; 3]; 3]) -> f64 {
    let longest = square(a, b).max(square(b, c)).max(square(c, a)).sqrt();
    cross(plan(a), plan(b), plan(c)).abs() / longest
}

struct Site {
    position: Point2<f64>,
    index: u32,
}

impl HasPosition for Site {
    type Scalar = f64;

    fn position(&self) -> Point2<f64> {
        self.position
    }
}

fn triangulate(spots: &[Spot]) -> Result<Vec<[u32; 3]>, SurfaceError> {
    let site = |(index, &([x, y, _], _)): (usize, &Spot)| Site {
        position: spade::mitigate_underflow(Point2::new(x, y)),
        index: index as u32,
    };
    let sites: Vec<Site> = spots.iter().enumerate().map(site).collect();
    let all = DelaunayTriangulation::<Site>::bulk_load(sites).map_err(|_| SurfaceError::Triangulation)?;
    Ok(all.inner_faces().map(|face| face.vertices().map(|vertex| vertex.data().index)).collect())
}

/// Whether all places lie within [`SAME_PLACE_M`] of the line from the first to the one farthest from it.
fn along_one_line(spots: &[Spot]) -> bool {
    let Some(&(first, _)) = spots.first() else { return true };
    let from_first = |spot: &&Spot| square(first, spot.0);
    let Some(&(far, _)) = spots.iter().max_by(|a, b| from_first(a).total_cmp(&from_first(b))) else {
        return true;
    };
    let length = square(first, far).sqrt();
    spots.iter().all(|&(at, _)| cross(plan(first), plan(far), plan(at)).abs() < SAME_PLACE_M * length)
}

/// Averages the spots that lie at exactly one place; sorts them from west to east.
fn same_places_merged(mut spots: Vec<Spot>) -> Vec<Spot> {
    spots.sort_by(|(a, _), (b, _)| a[0].total_cmp(&b[0]).then(a[1].total_cmp(&b[1])));
    spots.chunk_by(|(a, _), (b, _)| a[0] == b[0] && a[1] == b[1]).map(averaged).collect()
}

/// The mean of spots by 1/σ² (equally where any is called exact), with its standard uncertainty.
fn averaged(spots: &[Spot]) -> Spot {
    if let [one] = spots {
        return *one;
    }
    let exact = spots.iter().any(|&(_, sigma)| sigma <= 0.0);
    let weight = |sigma: f64| if exact { 1.0 } else { 1.0 / (sigma * sigma) };
    let sum: f64 = spots.iter().map(|&(_, sigma)| weight(sigma)).sum();
    let mean = |axis: usize| spots.iter().map(|&(at, sigma)| weight(sigma) * at[axis]).sum::<f64>() / sum;
    ([mean(0), mean(1), mean(2)], if exact { 0.0 } else { (1.0 / sum).sqrt() })
}

fn short_edges(spots: &[Spot], triangles: &[[u32; 3]]) -> Vec<[u32; 2]> {
    let limit = SAME_PLACE_M * SAME_PLACE_M;
    let edges = triangles.iter().flat_map(|&[a, b, c]| [[a, b], [b, c], [c, a]]);
    edges.filter(|&[a, b]| square(spots[a as usize].0, spots[b as usize].0) < limit).collect()
}

/// Averages the spots that short edges join; chains of them become one place.
fn merged(spots: Vec<Spot>, short: &[[u32; 2]]) -> Vec<Spot> {
    let mut group: Vec<usize> = (0..spots.len()).collect();
    for &[a, b] in short {
        let (a, b) = (root(&group, a as usize), root(&group, b as usize));
        group[a.max(b)] = a.min(b);
    }
    let mut members: Vec<(usize, Spot)> =
        spots.into_iter().enumerate().map(|(i, spot)| (root(&group, i), spot)).collect();
    members.sort_by_key(|&(group, _)| group);
    members
        .chunk_by(|(a, _), (b, _)| a == b)
        .map(|chunk| averaged(&chunk.iter().map(|&(_, spot)| spot).collect::<Vec<_>>()))
        .collect()
}

fn root(group: &[usize], mut of: usize) -> usize {
    while group[of] != of {
        of = group[of];
    }
    of
}

#[cfg(test)]
mod tests {
    use super::*;

    const SQUARE: [[f64; 3]; 4] = [[0.0, 0.0, 0.0], [4.0, 0.0, 1.0], [4.0, 4.0, 3.0], [0.0, 4.0, 2.0]];

    /// Two triangles of 1.5 m² each that meet on the line from (0, 0) to (0, 2) and rise by 0.1 to the west and by 0.3 to
    /// the east: (1.5·0.1 + 1.5·0.3)/3 = 0.2.
    #[test]
    fn the_mean_grade_is_by_area() {
        let points = [[0.0, 0.0, 0.0], [0.0, 2.0, 0.0], [-1.5, 1.0, 0.15], [1.5, 1.0, 0.45]];
        assert!((Surface::new(&points).unwrap().mean_grade() - 0.2).abs() < 1e-12);
        // A third point twice as far west makes that triangle twice as large: (3·0.1 + 1.5·0.3)/4.5 = 1/6.
        let points = [[0.0, 0.0, 0.0], [0.0, 2.0, 0.0], [-3.0, 1.0, 0.3], [1.5, 1.0, 0.45]];
        assert!((Surface::new(&points).unwrap().mean_grade() - 1.0 / 6.0).abs() < 1e-12);
    }

    #[test]
    fn meets_its_points_and_nothing_outside() {
        let surface = Surface::new(&SQUARE).unwrap();
        assert_eq!(surface.triangles().len(), 2);
        for [x, y, z] in SQUARE {
            assert!((surface.height([x, y]).unwrap() - z).abs() < 1e-12);
        }
        // These four lie in one plane, so the middle is their mean whichever way the square was cut.
        assert!((surface.height([2.0, 2.0]).unwrap() - 1.5).abs() < 1e-12);
        let [east, north] = surface.gradient([1.0, 2.5]).unwrap();
        assert!((east - 0.25).abs() < 1e-12 && (north - 0.5).abs() < 1e-12);
        assert_eq!(surface.height([4.1, 2.0]), None);
        assert_eq!(surface.height([f64::NAN, 2.0]), None);
    }

    #[test]
    fn triangles_run_anticlockwise() {
        let surface = Surface::new(&SQUARE).unwrap();
        for &triangle in surface.triangles() {
            let [a, b, c] = surface.corners(triangle).map(plan);
            assert!(cross(a, b, c) > 0.0);
        }
    }

    #[test]
    fn refuses_what_is_no_surface() {
        assert_eq!(Surface::new(&SQUARE[..2]).unwrap_err(), SurfaceError::TooFewPlaces);
        let line: Vec<_> = (0..9).map(|i| [f64::from(i), 2.0 * f64::from(i), 1.0]).collect();
        assert_eq!(Surface::new(&line).unwrap_err(), SurfaceError::AlongOneLine);
        let bad = [[0.0, 0.0, 0.0], [1.0, f64::NAN, 0.0], [0.0, 1.0, 0.0]];
        assert_eq!(Surface::new(&bad).unwrap_err(), SurfaceError::NotFinite(1));
        assert_eq!(Surface::new(&[[1.0, 1.0, 1.0]; 5]).unwrap_err(), SurfaceError::TooFewPlaces);
    }

    #[test]
    fn one_place_measured_twice_is_averaged() {
        let mut points = SQUARE.to_vec();
        points.push([4.0, 4.0, 3.2]);
        points.push([0.000_2, 0.0, 0.0]);
        let surface = Surface::with_sigmas(&points, &[0.01, 0.01, 0.01, 0.01, 0.02, 0.01]).unwrap();
        assert_eq!(surface.vertices().len(), 4);
        // Weights 1 : ¼ of 3.0 and 3.2.
        assert!((surface.height([4.0, 4.0]).unwrap() - 3.04).abs() < 1e-12);
        let corner = surface.vertices().iter().position(|v| v[2] > 3.0).unwrap();
        assert!((surface.sigmas_m()[corner] - 0.01 / 1.25_f64.sqrt()).abs() < 1e-12);
    }

    #[test]
    fn long_thin_yards_and_circles_work() {
        let strip: Vec<_> =
            (0..200).map(|i| [f64::from(i), f64::from(i % 2) * 0.5, 0.1 * f64::from(i)]).collect();
        let surface = Surface::new(&strip).unwrap();
        assert!((surface.height([100.3, 0.25]).unwrap() - 10.03).abs() < 0.1);
        let circle: Vec<_> = (0..500)
            .map(|i| crate::quantity::bearing::unit(f64::from(i) * 0.72))
            .map(|[x, y]| [50.0 * x, 50.0 * y, 1.0])
            .collect();
        let surface = Surface::new(&circle).unwrap();
        assert_eq!(surface.height([0.0, 0.0]), Some(1.0));
    }

    /// Against the library's own interpolation, on points of a low-discrepancy sequence (R2, Roberts 2018).
    #[test]
    fn agrees_with_the_library_that_triangulates() {
        use spade::FloatTriangulation;

        struct Spot([f64; 3]);
        impl HasPosition for Spot {
            type Scalar = f64;
            fn position(&self) -> Point2<f64> {
                Point2::new(self.0[0], self.0[1])
            }
        }
        let place = |i: i32| [0.754_877_666, 0.569_840_291].map(|a| (f64::from(i) * a).fract() * 30.0);
        let bent = |[x, y]: [f64; 2]| 0.1 * x - 0.05 * y + 0.01 * x * y;
        let points: Vec<_> = (1..400).map(place).map(|[x, y]| [x, y, bent([x, y])]).collect();
        let surface = Surface::new(&points).unwrap();
        let library: DelaunayTriangulation<Spot> =
            DelaunayTriangulation::bulk_load(points.iter().map(|&p| Spot(p)).collect()).unwrap();
        let mut inside = 0;
        for at in (400..1400).map(place) {
            let theirs = library.barycentric().interpolate(|v| v.data().0[2], Point2::new(at[0], at[1]));
            if let (Some(ours), Some(theirs)) = (surface.height(at), theirs) {
                assert!((ours - theirs).abs() < 1e-9, "{at:?}");
                inside += 1;
            }
        }
        assert!(inside > 900, "{inside}");
    }
}
