//! Each guy in full: anchor, rope, lengths with their uncertainty, and what is wrong with it.

use super::catenary::{Catenary, Span, points_for};
use super::cut_length::{Allowances, cut_length_m};
use super::findings;
use super::layout::{AnchorPoint, LevelOnGround, anchors};
use super::pluck;
use crate::finding::Finding;
use crate::ground::Ground;
use crate::ground::profile::taut_tape_m;
use crate::job::{GuyLevel, Instruments};
use crate::numerics::real::{atan2_deg, hypot};
use crate::plan::{Ellipse, GuyResult};
use crate::quantity::bearing;
use crate::quantity::estimate::Estimate;
use crate::survey::ellipse::ellipse_95;
use crate::survey::north::NorthCorrection;
use crate::survey::positions::Located;

/// What the guys are computed from.
#[derive(Debug, Clone, Copy)]
pub struct GuyInput<'a> {
    pub ground: &'a Ground,
    pub levels: &'a [GuyLevel],
    /// For each level in order, its located anchors where they are free; may be empty or shorter otherwise.
    pub free_anchors: &'a [Vec<[f64; 2]>],
    /// The mast's axis in plan.
    pub mast: [f64; 2],
    /// Level of the mast's foot, in the site frame.
    pub foot_m: f64,
    /// True bearing of the front leg.
    pub front_bearing_deg: f64,
    /// Turn of each level's first guy from the front leg, clockwise.
    pub guy_turn_deg: f64,
    pub instruments: &'a Instruments,
    pub north: &'a NorthCorrection,
}

/// Every guy of every level, and what is wrong with any. A guy whose anchor can't be placed is left out, with
/// a finding that says so.
pub fn guys(input: &GuyInput) -> (Vec<GuyResult>, Vec<Finding>) {
    let (mut results, mut found) = (Vec::new(), Vec::new());
    for (i, level) in input.levels.iter().enumerate() {
        let placed = anchors(&LevelOnGround {
            ground: input.ground,
            mast: input.mast,
            foot_m: input.foot_m,
            front_bearing_deg: input.front_bearing_deg,
            guy_turn_deg: input.guy_turn_deg,
            level,
            free_anchors: input.free_anchors.get(i).map_or(&[], Vec::as_slice),
        });
        let first = results.len();
        for (number, anchor) in placed.into_iter().enumerate() {
            let id = format!("{}-{}", level.id, number + 1);
            match anchor {
                Ok(anchor) => {
                    let name = format!("{} {}", level.name, number + 1);
                    let guy = Guy { input, level, anchor };
                    let (result, mut guy_findings) = guy.result(id, name);
                    found.append(&mut guy_findings);
                    results.push(result);
                }
                Err(reason) => found.push(findings::no_anchor(id, reason)),
            }
        }
        found.extend(findings::one_sided(level, results.get(first..).unwrap_or(&[])));
    }
    (results, found)
}

/// One guy under way.
struct Guy<'a> {
    input: &'a GuyInput<'a>,
    level: &'a GuyLevel,
    anchor: AnchorPoint,
}

/// Standard uncertainties of where the pegged anchor's ground lies, seen from the mast.
struct PegSigmas {
    /// Outwards, in plan.
    along_m: f64,
    /// Sideways, in plan.
    across_m: f64,
    /// Of its ground above the ground at the mast.
    height_m: f64,
}

impl Guy<'_> {
    fn result(&self, id: String, name: String) -> (GuyResult, Vec<Finding>) {
        let (attach, eye) = (self.attach(), self.eye());
        let span = self.span();
        let (rope, held) = self.rope(span);
        let sigmas = self.peg_sigmas();
        let unstressed_m = Estimate::from_sigma(rope.unstressed_m, self.length_sigma_m(&rope, &sigmas));
        let ends = Allowances { upper_m: self.level.upper_end_m, lower_m: self.level.lower_end_m };
        let sag_m = rope.sag_m();
        let toward_mast = bearing::unit(self.anchor.azimuth_deg + 180.0);
        let result = GuyResult {
            level_id: self.level.id.clone(),
            east_m: self.anchor.at[0],
            north_m: self.anchor.at[1],
            ground_m: self.anchor.ground_m,
            azimuth_deg: self.anchor.azimuth_deg,
            reading_deg: self.input.north.reading_from_true(self.anchor.azimuth_deg),
            turn_from_front_deg: bearing::wrap_360(self.anchor.azimuth_deg - self.input.front_bearing_deg),
            radius_m: self.anchor.radius_m,
            tape_m: self.tape_m(),
            height_difference_m: self.height_difference_m(),
            attach,
            eye,
            chord_m: span.chord_m(),
            angle_deg: atan2_deg(span.rise_m, span.span_m),
            unstressed_m,
            cut_m: cut_length_m(unstressed_m, ends),
            sag_m,
            tension_top_n: rope.tension_top_n,
            tension_bottom_n: rope.tension_bottom_n,
            horizontal_n: rope.horizontal_n,
            pluck_hz: self.pluck_hz(&rope),
            landing_95: landing_ellipse(&sigmas, &self.anchor),
            rope: rope.shape(eye, toward_mast, points_for(sag_m)),
            id,
            name,
        };
        let mut found = findings::of_guy(&result, self.input.ground);
        if !held {
            found.push(findings::tension_too_small(&result, self.level.tension_n));
        }
        (result, found)
    }

    /// Upper end of the rope: at the collar, on the anchor's side.
    fn attach(&self) -> [f64; 3] {
        let toward = bearing::unit(self.anchor.azimuth_deg);
        let collar_m = self.level.collar_radius_mm / 1000.0;
        let [east, north] = self.input.mast;
        [
            east + collar_m * toward[0],
            north + collar_m * toward[1],
            self.input.foot_m + self.level.attach_height_m,
        ]
    }

    /// Lower end of the rope.
    fn eye(&self) -> [f64; 3] {
        let [east, north] = self.anchor.at;
        [east, north, self.anchor.ground_m + self.level.anchor_eye_height_m]
    }

    fn span(&self) -> Span {
        Span {
            span_m: self.anchor.radius_m - self.level.collar_radius_mm / 1000.0,
            rise_m: self.input.foot_m + self.level.attach_height_m + -self.anchor.ground_m
                - self.level.anchor_eye_height_m,
            weight_n_per_m: self.level.rope.weight_n_per_m(),
            stiffness_n: self.level.rope.stiffness_n(),
        }
    }

    /// The rope at the set tension, and whether that tension can hold it; where not, a rope 2 % longer than
    /// its chord stands in, so that there is something to draw beside the finding.
    fn rope(&self, span: Span) -> (Catenary, bool) {
        if let Ok(rope) = span.with_upper_tension(self.level.tension_n) {
            return (rope, true);
        }
        let slack = span.with_unstressed_length(1.02 * span.chord_m());
        let straight = || Catenary {
            span,
            unstressed_m: span.chord_m(),
            stretched_m: span.chord_m(),
            horizontal_n: self.level.tension_n,
            vertical_top_n: 0.0,
            tension_top_n: self.level.tension_n,
            tension_bottom_n: self.level.tension_n,
        };
        (slack.unwrap_or_else(|_| straight()), false)
    }

    fn ground_at_mast_m(&self) -> f64 {
        self.input.ground.height(self.input.mast)
    }

    fn height_difference_m(&self) -> f64 {
        self.anchor.ground_m - self.ground_at_mast_m()
    }

    fn tape_m(&self) -> f64 {
        taut_tape_m(self.input.ground, self.input.mast, self.anchor.at)
    }

    fn pluck_hz(&self, rope: &Catenary) -> f64 {
        let mass_kg_per_m = self.level.rope.mass_g_per_m / 1000.0 * rope.unstressed_m / rope.stretched_m;
        let mean_n = 0.5 * (rope.tension_top_n + rope.tension_bottom_n);
        pluck::frequency_hz(rope.span.chord_m(), mean_n, mass_kg_per_m)
    }

    /// How well the anchor lands when pegged out from the mast by bearing and tape. The bearing is read once
    /// more for that, with the instrument's own uncertainty; that of the north correction adds to it. The
    /// readings that placed other things in the yard are not counted again here: these are distances from
    /// the mast, whatever the mast's own place.
    fn peg_sigmas(&self) -> PegSigmas {
        let instruments = self.input.instruments;
        let tape_m = self.tape_m();
        let tape_sigma_m = hypot(instruments.tape_sigma_m, instruments.tape_sigma_mm_per_m / 1000.0 * tape_m);
        let bearing_sigma_deg = hypot(instruments.bearing_sigma_deg, self.input.north.sigma_deg);
        PegSigmas {
            along_m: tape_sigma_m * self.anchor.radius_m / tape_m,
            across_m: bearing_sigma_deg.to_radians() * self.anchor.radius_m,
            height_m: self.input.ground.difference_sigma(self.input.mast, self.anchor.at),
        }
    }

    /// Standard uncertainty of the unstressed length: the anchor lands a little farther out, to the side or
    /// higher, and the ground under it goes with it. The foot is taken to stand where the plan has it.
    ///
    /// # References
    /// Gum2008, 5.1.2 (propagation of independent uncertainties).
    fn length_sigma_m(&self, rope: &Catenary, sigmas: &PegSigmas) -> f64 {
        let rates = rope.length_rates();
        let gradient = self.input.ground.gradient(self.anchor.at);
        let toward = bearing::unit(self.anchor.azimuth_deg);
        let outwards = gradient[0] * toward[0] + gradient[1] * toward[1];
        let sideways = gradient[0] * toward[1] - gradient[1] * toward[0];
        let by_tape = (rates.per_span - rates.per_rise * outwards) * sigmas.along_m;
        let by_bearing = rates.per_rise * sideways * sigmas.across_m;
        let by_height = rates.per_rise * sigmas.height_m;
        let sigma = hypot(hypot(by_tape, by_bearing), by_height);
        // A rope that does not hold (see `rope`) has no meaningful rates.
        if sigma.is_finite() { sigma } else { sigmas.along_m + sigmas.height_m }
    }
}

fn landing_ellipse(sigmas: &PegSigmas, anchor: &AnchorPoint) -> Ellipse {
    let [east, north] = bearing::unit(anchor.azimuth_deg);
    let (along, across) = (sigmas.along_m * sigmas.along_m, sigmas.across_m * sigmas.across_m);
    // Turned into east and north: along the azimuth, and square to it.
    let cross = (along - across) * east * north;
    let covariance = [
        [along * east * east + across * north * north, cross],
        [cross, along * north * north + across * east * east],
    ];
    ellipse_95(&Located { at: anchor.at, covariance })
}
