//! A scene: shapes with a role and a subject, in metres of the drawing's own plane. The screen paints them;
//! `svg` writes them. Colours and line widths belong to the painter; the role says what a shape is.

use std::hash::{DefaultHasher, Hash, Hasher};

use serde::{Deserialize, Serialize};

use crate::finding::Subject;

/// A picture in metres; for a plan view x is east and y is north, for a profile x is out and y is up.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct Scene {
    pub title: String,
    /// The part of the plane worth showing.
    pub bounds: Bounds,
    /// So many of the first shapes stay as they are wherever the mast is put: the yard under the work.
    pub static_count: usize,
    /// In painting order.
    pub shapes: Vec<SceneShape>,
    /// A description in words, for those who can't see it.
    pub description: String,
}

#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct Bounds {
    pub min: [f64; 2],
    pub max: [f64; 2],
}

impl Bounds {
    /// The square around a point, `half_m` to each side.
    pub fn around(at: [f64; 2], half_m: f64) -> Self {
        Self { min: [at[0] - half_m, at[1] - half_m], max: [at[0] + half_m, at[1] + half_m] }
    }

    /// The smallest bounds that hold both.
    pub fn union(self, other: Self) -> Self {
        Self {
            min: [self.min[0].min(other.min[0]), self.min[1].min(other.min[1])],
            max: [self.max[0].max(other.max[0]), self.max[1].max(other.max[1])],
        }
    }

    /// The part that both share; none where they lie apart.
    pub fn intersection(self, other: Self) -> Option<Self> {
        let min = [self.min[0].max(other.min[0]), self.min[1].max(other.min[1])];
        let max = [self.max[0].min(other.max[0]), self.max[1].min(other.max[1])];
        (min[0] <= max[0] && min[1] <= max[1]).then_some(Self { min, max })
    }

    /// Grown by `by_m` on every side.
    pub fn grown(self, by_m: f64) -> Self {
        Self { min: [self.min[0] - by_m, self.min[1] - by_m], max: [self.max[0] + by_m, self.max[1] + by_m] }
    }

    pub fn width(&self) -> f64 {
        self.max[0] - self.min[0]
    }

    pub fn height(&self) -> f64 {
        self.max[1] - self.min[1]
    }

    pub fn holds(&self, at: [f64; 2]) -> bool {
        (self.min[0]..=self.max[0]).contains(&at[0]) && (self.min[1]..=self.max[1]).contains(&at[1])
    }
}

impl Scene {
    /// The same scene to the tenth of a millimetre, finer than any screen shows it: written out it is half as
    /// long, and a dragging finger waits for it.
    #[must_use]
    pub fn rounded(mut self) -> Self {
        for shape in &mut self.shapes {
            shape.geometry.round();
        }
        self
    }
}

impl Scene {
    /// A name for the static shapes: the same shapes have the same name. Only compared with names of the same run, so it
    /// may differ between releases.
    pub fn static_name(&self) -> String {
        let mut hasher = AnyWidth::default();
        for shape in self.shapes.iter().take(self.static_count) {
            shape.role.hash(&mut hasher);
            shape.subject.hash(&mut hasher);
            shape.geometry.hash_to(&mut hasher);
        }
        format!("{:016x}", hasher.finish())
    }
}

fn tenth_mm(value: f64) -> f64 {
    let rounded = (value * 10_000.0).round() / 10_000.0;
    if rounded.is_finite() { rounded } else { value }
}

fn round_point(point: &mut [f64; 2]) {
    *point = point.map(tenth_mm);
}

/// One shape of a scene.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS), ts(rename = "SceneShape"))]
pub struct SceneShape {
    pub role: Role,
    /// What a tap on it means; none for decoration.
    pub subject: Option<Subject>,
    pub geometry: Geometry,
}

/// The enum with all its variants in a list, so that what must be said of every role can be checked for each.
macro_rules! roles {
    ($(#[$about:meta])* pub enum Role { $($(#[$said:meta])* $role:ident,)* }) => {
        $(#[$about])*
        pub enum Role { $($(#[$said])* $role,)* }

        impl Role {
            pub const ALL: &'static [Role] = &[$(Role::$role),*];
        }
    };
}

roles! {
    /// What a shape is; decides how it is painted.
    #[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
    #[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
    #[serde(rename_all = "snake_case")]
    pub enum Role {
        Contour,
        ContourIndex,
        FallLine,
        /// Where the spot heights end: outside it the ground is a guess.
        MeasuredEdge,
        North,
        ScaleBar,
        Boundary,
        BuildingArea,
        TreeCrown,
        TreeTrunk,
        Wall,
        Fence,
        Hedge,
        PostArea,
        PathArea,
        KeepOffArea,
        OverheadWire,
        OverheadSupport,
        OverheadZone,
        BuriedElectric,
        BuriedGasOilSteam,
        BuriedCommunications,
        BuriedPotableWater,
        BuriedSewerDrain,
        BuriedReclaimedWater,
        BuriedUnknown,
        BuriedZone,
        Mark,
        /// One of two places that fit a point's tapes.
        OpenPoint,
        SpotHeight,
        FallCircle,
        Ring,
        Strand,
        BaseTimber,
        Foot,
        Stake,
        Guy,
        Anchor,
        AnchorEllipse,
        PointEllipse,
        MastAxis,
        /// Where something that was measured was planned.
        PlannedPlace,
        /// From there to where it stands.
        MovedFrom,
        /// A guy or point that a finding forbids.
        Conflict,
        Dimension,
        Tie,
        /// The lead of the lights on the ground.
        Lead,
        /// Where somebody crosses it.
        TripPoint,
        /// Profile: the ground in section.
        GroundLine,
        /// Profile: the level underside of the timbers.
        LevelLine,
        MastTube,
        /// Gust limit by where the wind comes from, mast raised.
        WindRaised,
        /// The same, mast lowered.
        WindLowered,
        /// Circles of one gust.
        WindScale,
        /// Which way the wind blows.
        WindArrow,
        /// The mast as the wind bends it.
        MastBent,
        /// Seen from a standpoint by day: what is over the horizon and under it, the surveyed ground and the net on it.
        SeenSky,
        SeenFar,
        SeenGround,
        SeenNet,
        SeenWall,
        SeenWallShaded,
        SeenRoof,
        SeenLeaves,
        SeenTrunk,
        SeenHedge,
        SeenFence,
        SeenStone,
        SeenEdge,
        SeenPath,
        /// Round a thing whose height nobody entered.
        SeenUnknown,
        SeenBoundary,
        SeenWire,
        SeenBase,
        SeenRing,
        SeenGuy,
        SeenStrand,
        SeenMast,
        /// A part of the work that something hides.
        SeenHidden,
        /// All that lies as high as the eyes.
        SeenHorizon,
        SeenScale,
        SeenLabel,
        /// The same by night.
        NightSky,
        NightGround,
        NightNet,
        NightSolid,
        NightEdge,
        NightLine,
        NightUnknown,
        NightWork,
        NightLit,
        NightScale,
        NightLabel,
        Label,
        LabelQuiet,
    }
}

/// Where a shape lies.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
#[serde(tag = "kind", rename_all = "snake_case")]
pub enum Geometry {
    Line {
        points: Vec<[f64; 2]>,
    },
    Area {
        points: Vec<[f64; 2]>,
    },
    Circle {
        centre: [f64; 2],
        radius_m: f64,
    },
    Ellipse {
        centre: [f64; 2],
        semi_major_m: f64,
        semi_minor_m: f64,
        bearing_deg: f64,
    },
    /// A sign of fixed size on paper or screen, chosen by the role, turned by `turn_deg` clockwise. Unturned
    /// it points up. Its half-size in letter heights is `signs::half_size_em`; labels keep clear of that.
    Sign {
        at: [f64; 2],
        turn_deg: f64,
    },
    /// Words of fixed size on paper or screen: one letter height (em) for `Label`, 0.85 of it for
    /// `LabelQuiet`. `at` is halfway up the letters, so a painter puts the baseline 0.35 em lower.
    Words {
        at: [f64; 2],
        text: String,
        align: Align,
        turn_deg: f64,
    },
}

/// The usual hasher, to which a count is as wide on every machine: a browser's is half as wide as a desk's.
#[derive(Default)]
struct AnyWidth(DefaultHasher);

impl Hasher for AnyWidth {
    fn finish(&self) -> u64 {
        self.0.finish()
    }

    fn write(&mut self, bytes: &[u8]) {
        self.0.write(bytes);
    }

    fn write_usize(&mut self, count: usize) {
        self.0.write_u64(count as u64);
    }

    fn write_isize(&mut self, number: isize) {
        self.0.write_i64(number as i64);
    }
}

fn hash_numbers(numbers: &[f64], hasher: &mut impl Hasher) {
    numbers.len().hash(hasher);
    numbers.iter().for_each(|number| number.to_bits().hash(hasher));
}

impl Geometry {
    /// Feeds all of it to a hasher.
    fn hash_to(&self, hasher: &mut impl Hasher) {
        std::mem::discriminant(self).hash(hasher);
        match self {
            Self::Line { points } | Self::Area { points } => hash_numbers(points.as_flattened(), hasher),
            Self::Circle { centre: [x, y], radius_m } => hash_numbers(&[*x, *y, *radius_m], hasher),
            Self::Ellipse { centre: [x, y], semi_major_m, semi_minor_m, bearing_deg } => {
                hash_numbers(&[*x, *y, *semi_major_m, *semi_minor_m, *bearing_deg], hasher);
            }
            Self::Sign { at: [x, y], turn_deg } => hash_numbers(&[*x, *y, *turn_deg], hasher),
            Self::Words { at: [x, y], text, align, turn_deg } => {
                hash_numbers(&[*x, *y, *turn_deg], hasher);
                (text, std::mem::discriminant(align)).hash(hasher);
            }
        }
    }

    fn round(&mut self) {
        match self {
            Self::Line { points } | Self::Area { points } => points.iter_mut().for_each(round_point),
            Self::Circle { centre, radius_m } => {
                round_point(centre);
                *radius_m = tenth_mm(*radius_m);
            }
            Self::Ellipse { centre, semi_major_m, semi_minor_m, bearing_deg } => {
                round_point(centre);
                for value in [semi_major_m, semi_minor_m, bearing_deg] {
                    *value = tenth_mm(*value);
                }
            }
            Self::Sign { at, turn_deg } | Self::Words { at, turn_deg, .. } => {
                round_point(at);
                *turn_deg = tenth_mm(*turn_deg);
            }
        }
    }
}

/// Which part of the words stands at their point.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum Align {
    Start,
    Middle,
    End,
}

#[cfg(test)]
mod tests {
    use super::*;

    /// One letter, number or role that differs makes another name; what moves makes none.
    #[test]
    fn static_shapes_have_a_name_of_their_own() {
        let line = |x: f64| Geometry::Line { points: vec![[x, 0.0], [1.0, 2.0]] };
        let words = |text: &str| Geometry::Words {
            at: [0.0, 1.0],
            text: text.to_owned(),
            align: Align::Start,
            turn_deg: 0.0,
        };
        let named = |role: Role, geometry: Geometry, moving: f64| {
            let bounds = Bounds::around([0.0, 0.0], 1.0);
            let shape = |role, geometry| SceneShape { role, subject: None, geometry };
            let shapes = vec![shape(role, geometry), shape(Role::Guy, line(moving))];
            Scene { title: String::new(), bounds, static_count: 1, shapes, description: String::new() }
                .static_name()
        };
        let first = named(Role::Wall, line(0.0), 3.0);
        assert_eq!(first, named(Role::Wall, line(0.0), 4.0));
        let others = [
            named(Role::Fence, line(0.0), 3.0),
            named(Role::Wall, line(1e-4), 3.0),
            named(Role::Wall, words("a"), 3.0),
            named(Role::Wall, words("b"), 3.0),
            named(Role::Wall, Geometry::Sign { at: [0.0, 0.0], turn_deg: 1.0 }, 3.0),
        ];
        let all: std::collections::BTreeSet<&String> = others.iter().chain([&first]).collect();
        assert_eq!(all.len(), 6, "{all:?}");
    }

    #[test]
    fn rounds_every_coordinate_to_a_tenth_of_a_millimetre() {
        let geometry = Geometry::Line { points: vec![[1.234_567, -0.000_04], [1e308, 2.0]] };
        let shapes = vec![SceneShape { role: Role::Guy, subject: None, geometry }];
        let bounds = Bounds::around([0.0, 0.0], 1.0);
        let scene =
            Scene { title: String::new(), bounds, static_count: 0, shapes, description: String::new() }
                .rounded();
        let expected = Geometry::Line { points: vec![[1.234_6, 0.0], [1e308, 2.0]] };
        assert_eq!(scene.shapes[0].geometry, expected);
    }
}
