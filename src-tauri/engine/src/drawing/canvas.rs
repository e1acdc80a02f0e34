//! A canvas gathers shapes, wishes for labels, and what the labels should keep clear of.

use crate::finding::Subject;

use super::blockers::Blockers;
use super::geometry::circle_points;
use super::labels::{Wish, place};
use super::scene::{Bounds, Geometry, Role, Scene, SceneShape};
use super::signs;

/// Shapes so far, in painting order.
pub(crate) struct Canvas {
    pub(crate) text_m: f64,
    pub(crate) bounds: Bounds,
    /// Radius of the handle over the mast; 0 where there is none.
    pub(crate) handle_m: f64,
    shapes: Vec<SceneShape>,
    static_count: usize,
    wishes: Vec<Wish>,
    blockers: Blockers,
}

impl Canvas {
    pub(crate) fn new(bounds: Bounds, text_m: f64) -> Self {
        Self {
            text_m,
            bounds,
            handle_m: 0.0,
            shapes: Vec::with_capacity(256),
            static_count: 0,
            wishes: Vec::new(),
            blockers: Blockers::new(&bounds, text_m),
        }
    }

    fn push(&mut self, role: Role, subject: Option<Subject>, geometry: Geometry) {
        self.shapes.push(SceneShape { role, subject, geometry });
    }

    pub(crate) fn line(&mut self, role: Role, subject: Option<Subject>, points: Vec<[f64; 2]>) {
        self.block(role, &points);
        self.push(role, subject, Geometry::Line { points });
    }

    pub(crate) fn area(&mut self, role: Role, subject: Option<Subject>, points: Vec<[f64; 2]>) {
        self.block(role, &points);
        if let (Some(&last), Some(&first)) = (points.last(), points.first()) {
            self.block(role, &[last, first]);
        }
        self.push(role, subject, Geometry::Area { points });
    }

    pub(crate) fn circle(&mut self, role: Role, subject: Option<Subject>, centre: [f64; 2], radius_m: f64) {
        self.block(role, &circle_points(centre, radius_m));
        self.push(role, subject, Geometry::Circle { centre, radius_m });
    }

    pub(crate) fn ellipse(
        &mut self,
        role: Role,
        subject: Option<Subject>,
        at: [f64; 2],
        ellipse: &crate::plan::Ellipse,
    ) {
        let (semi_major_m, semi_minor_m) = (ellipse.semi_major_m, ellipse.semi_minor_m);
        let bearing_deg = ellipse.bearing_deg;
        self.push(role, subject, Geometry::Ellipse { centre: at, semi_major_m, semi_minor_m, bearing_deg });
    }

    pub(crate) fn sign(&mut self, role: Role, subject: Option<Subject>, at: [f64; 2], turn_deg: f64) {
        // Signs are round: words may reach into the corners of the square around them.
        self.blockers.box_around(at, 0.65 * signs::half_size_em(role) * self.text_m);
        self.push(role, subject, Geometry::Sign { at, turn_deg });
    }

    /// Keeps labels out of a box, as for a scale bar.
    pub(crate) fn keep_clear(&mut self, bounds: Bounds) {
        self.blockers.block_box(bounds);
    }

    /// How much lies in a box already. Where it is no less than `least`, any number that is not.
    pub(crate) fn crowding(&self, bounds: &Bounds, least: f64) -> f64 {
        self.blockers.crowding(bounds, least)
    }

    pub(crate) fn label(&mut self, wish: Wish) {
        self.wishes.push(wish);
    }

    /// Says that the shapes so far stay as they are wherever the mast is put.
    pub(crate) fn static_until_here(&mut self) {
        self.static_count = self.shapes.len();
    }

    /// How much a label minds lying across a line of this role.
    fn block(&mut self, role: Role, points: &[[f64; 2]]) {
        let weight = match role {
            Role::Guy | Role::Conflict => 6.0,
            Role::BaseTimber | Role::Foot => 4.0,
            Role::Tie | Role::OverheadWire | Role::BuildingArea | Role::Wall => 3.0,
            Role::FallLine => 5.0,
            Role::Boundary | Role::FallCircle | Role::Ring => 1.5,
            Role::Contour | Role::ContourIndex => 0.25,
            Role::GroundLine | Role::LevelLine | Role::MastTube | Role::MastBent | Role::Dimension => 3.0,
            Role::Strand => return,
            _ => 0.8,
        };
        self.blockers.line(points, weight);
    }

    /// Places the labels and hands the scene over.
    pub(crate) fn finish(mut self, title: String, description: String) -> Scene {
        let words = place(&self.wishes, &self.blockers, &self.bounds, self.text_m);
        self.shapes.extend(words);
        Scene {
            title,
            bounds: self.bounds,
            static_count: self.static_count,
            shapes: self.shapes,
            description,
        }
    }
}
