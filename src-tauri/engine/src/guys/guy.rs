//! Each guy in full: anchor, rope, lengths with their uncertainty, and what is wrong with it.

use std::collections::BTreeMap;

use super::cut_length::{Allowances, cut_length_m};
use super::findings;
use super::fixing::{FixingThing, LevelFixing, NoFixing};
use super::layout::{AnchorPoint, LevelOnGround, anchors};
use super::{pluck, shared};
use crate::finding::Finding;
use crate::ground::Ground;
use crate::ground::profile::taut_tape_m;
use crate::guys::GuyResult;
use crate::job::{GuyLevel, Instruments};
use crate::numerics::real::{atan2_deg, hypot};
use crate::quantity::bearing;
use crate::quantity::estimate::Estimate;
use crate::structure::catenary::{Catenary, Span, points_for};
use crate::survey::Ellipse;
use crate::survey::ellipse::ellipse_95;
use crate::survey::north::NorthCorrection;
use crate::survey::positions::PositionEstimate;

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
    /// Where the base that carries the foot touches the ground; none where the foot stands on the ground under it.
    pub contacts: &'a [[f64; 3]],
    /// One sigma of the foot's level from a base laid down a little turned.
    pub foot_sigma_m: f64,
    /// True bearing of the front leg.
    pub front_bearing_deg: f64,
    /// Turn of each level's first guy from the front leg, clockwise.
    pub guy_turn_deg: f64,
    pub instruments: &'a Instruments,
    pub north: &'a NorthCorrection,
    /// Anchors that were measured after pegging out, by the guy's id.
    pub found: &'a BTreeMap<String, FoundAnchor>,
    /// For each level in order, its guy that is made fast to a thing of the yard; may be empty or shorter.
    pub fixings: &'a [Option<LevelFixing>],
}

/// An anchor as it was measured.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct FoundAnchor {
    /// Where it stands, with the covariance as seen from the mast.
    pub at: Option<PositionEstimate>,
    /// Height of the rope's lower end above the ground, where not that of its level.
    pub eye_height_m: Option<f64>,
}

/// Every guy of every level, the lowest level first whatever the order of entry, and what is wrong with any. A guy whose anchor can't be placed is left out, with
/// a finding that says so.
pub fn guys(input: &GuyInput) -> (Vec<GuyResult>, Vec<Finding>) {
    let (mut results, mut found) = (Vec::new(), Vec::new());
    let mut levels: Vec<(usize, &GuyLevel)> = input.levels.iter().enumerate().collect();
    levels.sort_by(|(_, a), (_, b)| a.attach_height_m.total_cmp(&b.attach_height_m));
    for (i, level) in levels {
        let on_ground = LevelOnGround {
            ground: input.ground,
            mast: input.mast,
            foot_m: input.foot_m,
            front_bearing_deg: input.front_bearing_deg,
            guy_turn_deg: input.guy_turn_deg,
            level,
            free_anchors: input.free_anchors.get(i).map_or(&[], Vec::as_slice),
        };
        let placed = anchors(&on_ground);
        let fixing = input.fixings.get(i).and_then(Option::as_ref);
        if let Some(fixing) = fixing.filter(|fixing| fixing.guy >= placed.len()) {
            let id = format!("{}-{}", level.id, fixing.guy + 1);
            found.push(findings::no_fixing(id, NoFixing::NoSuchGuy));
        }
        let first = results.len();
        for (number, anchor) in placed.into_iter().enumerate() {
            let id = format!("{}-{}", level.id, number + 1);
            let found_anchor = input.found.get(&id).copied().unwrap_or_default();
            let to_thing = fixing.filter(|fixing| fixing.guy == number).map(|fixing| fixing.thing.as_ref());
            let to_thing = match to_thing.transpose() {
                Ok(thing) => thing,
                Err(&reason) => {
                    found.push(findings::no_fixing(id, reason));
                    continue;
                }
            };
            let anchor = match (found_anchor.at, to_thing) {
                (Some(located), _) => on_ground.free_anchor(located.at),
                (None, Some(thing)) => match on_ground.fixed_to(&thing.shape, number) {
                    Ok(anchor) => Ok(anchor),
                    Err(reason) => {
                        found.push(findings::no_fixing(id, reason));
                        continue;
                    }
                },
                (None, None) => anchor,
            };
            match anchor {
                Ok(anchor) => {
                    let name = format!("{} {}", level.name, number + 1);
                    let guy = Guy { input, level, anchor, found: found_anchor, to_thing };
                    let (result, mut guy_findings) = guy.result(id, name);
                    found.append(&mut guy_findings);
                    results.push(result);
                }
                Err(reason) => found.push(findings::no_anchor(id, reason)),
            }
        }
        found.extend(findings::one_sided(level, results.get(first..).unwrap_or(&[])));
    }
    shared::note(&mut results);
    (results, found)
}

/// One guy under way.
struct Guy<'a> {
    input: &'a GuyInput<'a>,
    level: &'a GuyLevel,
    anchor: AnchorPoint,
    found: FoundAnchor,
    to_thing: Option<&'a FixingThing>,
}

/// Standard uncertainties of where the pegged anchor's ground lies, seen from the mast.
struct PegSigmas {
    /// Outwards, in plan.
    along_m: f64,
    /// Sideways, in plan.
    across_m: f64,
    /// Of its ground below that on which the mast's base stands.
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
            shared_with: Vec::new(),
            made_fast: self.to_thing.map(|thing| thing.made_fast(self.eye_height_m())),
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
            natural_frequency_hz: self.natural_frequency_hz(&rope),
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

    fn eye_height_m(&self) -> f64 {
        let planned_m = self.to_thing.map_or(self.level.anchor_eye_height_m, |thing| thing.height_m);
        self.found.eye_height_m.unwrap_or(planned_m)
    }

    /// Lower end of the rope.
    fn eye(&self) -> [f64; 3] {
        let [east, north] = self.anchor.at;
        [east, north, self.anchor.ground_m + self.eye_height_m()]
    }

    fn span(&self) -> Span {
        Span {
            span_m: self.anchor.radius_m - self.level.collar_radius_mm / 1000.0,
            rise_m: self.input.foot_m + self.level.attach_height_m + -self.anchor.ground_m
                - self.eye_height_m(),
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

    fn natural_frequency_hz(&self, rope: &Catenary) -> f64 {
        let mass_kg_per_m = self.level.rope.mass_g_per_m / 1000.0 * rope.unstressed_m / rope.stretched_m;
        let mean_n = 0.5 * (rope.tension_top_n + rope.tension_bottom_n);
        pluck::frequency_hz(rope.span.chord_m(), mean_n, mass_kg_per_m)
    }

    /// How well the anchor lands when pegged out from the mast by bearing and tape. The bearing is read once
    /// more for that, with the instrument's own uncertainty; that of the north correction adds to it. The
    /// readings that placed other things in the yard are not counted again here: these are distances from
    /// the mast, whatever the mast's own place.
    ///
    /// An anchor that was measured lies as surely as it was measured from the mast.
    fn peg_sigmas(&self) -> PegSigmas {
        if let Some(covariance) = self.stands_with() {
            return self.found_sigmas(covariance);
        }
        let instruments = self.input.instruments;
        let tape_m = self.tape_m();
        let tape_sigma_m = instruments.tape_sigma_of_m(tape_m);
        let bearing_sigma_deg = hypot(instruments.bearing_sigma_deg, self.input.north.sigma_deg);
        PegSigmas {
            along_m: tape_sigma_m * self.anchor.radius_m / tape_m,
            across_m: bearing_sigma_deg.to_radians() * self.anchor.radius_m,
            height_m: self.height_sigma_m(),
        }
    }

    /// As seen from the mast, of an anchor that is not pegged out: it was measured, or it is on a thing of the yard.
    fn stands_with(&self) -> Option<[[f64; 2]; 2]> {
        self.found.at.map(|located| located.covariance).or(self.to_thing.map(|thing| thing.covariance))
    }

    /// Along and across the guy, each by itself.
    ///
    /// # References
    /// Gum2008, 5.2.2: variance along a direction u is uᵀ·Σ·u.
    fn found_sigmas(&self, [[ee, en], [_, nn]]: [[f64; 2]; 2]) -> PegSigmas {
        let [east, north] = bearing::unit(self.anchor.azimuth_deg);
        let along = east * east * ee + 2.0 * east * north * en + north * north * nn;
        let across = north * north * ee - 2.0 * east * north * en + east * east * nn;
        PegSigmas {
            along_m: along.max(0.0).sqrt(),
            across_m: across.max(0.0).sqrt(),
            height_m: self.height_sigma_m(),
        }
    }

    /// The base comes down until it touches, uphill of the mast, so the foot's level goes with the ground there and
    /// not with that under the mast. Where it touches at several places the least certain of them counts.
    fn height_sigma_m(&self) -> f64 {
        let ground = self.input.ground;
        let from = |at: [f64; 2]| ground.difference_sigma(at, self.anchor.at);
        let contacts = self.input.contacts.iter().map(|contact| from([contact[0], contact[1]]));
        contacts.reduce(f64::max).unwrap_or_else(|| from(self.input.mast))
    }

    /// Standard uncertainty of the unstressed length: the anchor lands a little farther out, to the side or
    /// higher, and the ground under it goes with it. A tape along ground that rises more than planned also ends
    /// nearer: with slope s outwards and δ of height at the tape's end, its plan length changes by −s·δ/(1 + s²).
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
        let by_taped_rise = (rates.per_rise + rates.per_span * outwards) / (1.0 + outwards * outwards);
        // An anchor that was measured stays where it is when the ground is otherwise; one under a taut tape does not.
        let per_ground_rise = if self.stands_with().is_some() { rates.per_rise } else { by_taped_rise };
        let by_height = per_ground_rise * sigmas.height_m;
        // Off to the side the ground rises too.
        let by_bearing = per_ground_rise * sideways * sigmas.across_m;
        let by_foot = rates.per_rise * self.input.foot_sigma_m;
        let sigma = hypot(hypot(by_tape, by_bearing), hypot(by_height, by_foot));
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
    ellipse_95(&PositionEstimate { at: anchor.at, covariance })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::finding::{Limit, Quantity, Severity};
    use crate::guys::samples::{level, plane};
    use crate::job::AnchorLayout;
    use crate::numerics::real::{cos_deg, sin_deg};

    fn with<T>(ground: &Ground, level: GuyLevel, free: Vec<[f64; 2]>, then: impl FnOnce(GuyInput) -> T) -> T {
        let north = NorthCorrection {
            add_to_reading_deg: 12.0,
            sigma_deg: 0.5,
            from: crate::survey::NorthFrom::True,
        };
        then(GuyInput {
            ground,
            levels: &[level],
            free_anchors: &[free],
            mast: [2.0, 3.0],
            foot_m: ground.height([2.0, 3.0]) + 0.2,
            contacts: &[],
            foot_sigma_m: 0.0,
            front_bearing_deg: 200.0,
            guy_turn_deg: 0.0,
            instruments: &Instruments::default(),
            north: &north,
            found: &BTreeMap::new(),
            fixings: &[],
        })
    }

    fn rules(found: &[Finding]) -> Vec<&str> {
        found.iter().map(|f| f.rule.name()).collect()
    }

    /// The ground rises 6.7 m over the 5.16 m to the anchor, and the collar is 5 m up: its angle is too small, not too
    /// great.
    #[test]
    fn a_guy_that_does_not_rise_falls_short_of_an_angle() {
        let level = level(AnchorLayout::EqualRadius { radius_m: 5.16 });
        let (_, found) = with(&plane([0.0, -1.3]), level, vec![], |input| super::guys(&input));
        let down = found.iter().find(|finding| finding.rule == "guy_does_not_rise").expect("it goes down");
        assert_eq!(down.limit, Limit::at_least(Quantity::AngleDeg { value: 25.0 }));
    }

    /// A measured anchor is as sure along its guy and across it as its covariance is in those directions, uᵀ·Σ·u (GUM 2008,
    /// 5.2.2). The first guy goes to 200°: u = (sin 200°, cos 200°) = (−0.342020, −0.939693). With Σ = (4, 1; 1, 2) cm² by
    /// hand along 4·0.116978 + 2·0.321394 + 2·0.883022 = 2.876744, across 4·0.883022 − 2·0.321394 + 2·0.116978 = 3.123256.
    #[test]
    fn a_measured_anchor_lies_as_surely_as_it_was_measured() {
        let level = level(AnchorLayout::EqualRadius { radius_m: 5.16 });
        let ground = plane([0.0, 0.0]);
        let at = [2.0 + 5.0 * sin_deg(200.0), 3.0 + 5.0 * cos_deg(200.0)];
        let covariance = [[4e-4, 1e-4], [1e-4, 2e-4]];
        let anchor = FoundAnchor { at: Some(PositionEstimate { at, covariance }), eye_height_m: None };
        let found = BTreeMap::from([("upper-1".to_owned(), anchor)]);
        let (guys, _) =
            with(&ground, level, vec![], |input| super::guys(&GuyInput { found: &found, ..input }));
        let axis_cm = |variance_cm2: f64| (5.991_464_547 * variance_cm2).sqrt();
        let landing = &guys[0].landing_95;
        assert!((100.0 * landing.semi_major_m - axis_cm(3.123_256)).abs() < 1e-5, "{landing:?}");
        assert!((100.0 * landing.semi_minor_m - axis_cm(2.876_744)).abs() < 1e-5, "{landing:?}");
    }

    #[test]
    fn a_guy_is_described_in_full() {
        let level = level(AnchorLayout::EqualRadius { radius_m: 5.16 });
        let (guys, found) = with(&plane([0.0, 0.0]), level, vec![], |input| super::guys(&input));
        assert!(found.is_empty(), "{found:?}");
        let [first, second, _] = &guys[..] else { panic!("three guys") };
        assert_eq!(
            (first.id.as_str(), first.name.as_str(), first.level_id.as_str()),
            ("upper-1", "Upper 1", "upper")
        );
        assert!(
            (first.reading_deg - 188.0).abs() < 1e-9 && (second.turn_from_front_deg - 120.0).abs() < 1e-9
        );
        // Level ground, 5.1 m up and 5.1 m out from the collar.
        assert!((first.angle_deg - 45.0).abs() < 1e-9 && (first.chord_m - 5.1 * 2.0_f64.sqrt()).abs() < 1e-9);
        assert!((first.tape_m - 5.16).abs() < 1e-12 && first.tension_top_n == 150.0);
        // By hand: 7.212 m of chord at 150 N on EA = 33,333 N stretch by 0.45 %: 7.180 m of rope, 8.480 m to cut.
        assert!((first.unstressed_m.value - 7.180).abs() < 1e-3, "{:?}", first.unstressed_m);
        assert!((first.cut_m.value - first.unstressed_m.value - 1.3).abs() < 1e-12);
        // √(150/0.025)/(2·7.212) = 5.37 Hz, a little more on the stretched rope.
        assert!((first.natural_frequency_hz - 5.37).abs() < 0.03, "{}", first.natural_frequency_hz);
        assert_eq!(first.rope.len(), 9);
        assert_eq!((first.rope[0], first.eye), (first.eye, [first.east_m, first.north_m, 1.1]));
        let gap: f64 = (0..3).map(|i| (first.rope[8][i] - first.attach[i]).abs()).sum();
        assert!(gap < 1e-12);
        // By tape 0.0113 m outwards, by bearing √(2² + 0.5²)° of 5.16 m across; 95 % in the plane is 2.448 σ.
        let across = 4.25_f64.sqrt().to_radians() * 5.16;
        assert!((first.landing_95.semi_major_m - 2.4477 * across).abs() < 1e-4);
        assert!((first.landing_95.bearing_deg - 110.0).abs() < 1e-6); // square to 200°
        assert!((first.landing_95.semi_minor_m - 2.4477 * hypot(0.01, 0.00516)).abs() < 1e-5);
    }

    /// The stated 95 % interval against a simulation of pegging the anchor out on ground that is a little other
    /// than planned: GUM Supplement 1 (2008), propagation by sampling.
    #[test]
    fn the_interval_of_the_length_agrees_with_a_simulation() {
        let sigma_gradient = [0.02, 0.03];
        let mut ground = plane([0.05, -0.22]);
        ground.plane.covariance[1][1] = sigma_gradient[0] * sigma_gradient[0];
        ground.plane.covariance[2][2] = sigma_gradient[1] * sigma_gradient[1];
        let planned = with(&ground, level(AnchorLayout::EqualTape { tape_m: 4.6 }), vec![], |input| {
            super::guys(&input)
        })
        .0;
        let foot_m = ground.height([2.0, 3.0]) + 0.2;
        let mut chance = crate::numerics::random::Random::seeded(20);
        let mut normal = || chance.normal();
        for guy in planned {
            let lengths: Vec<f64> = (0..4000)
                .map(|_| {
                    let toward = bearing::unit(guy.azimuth_deg + hypot(2.0, 0.5) * normal());
                    let g = [0.05 + sigma_gradient[0] * normal(), -0.22 + sigma_gradient[1] * normal()];
                    let tape_m = 4.6 + hypot(0.01, 0.0046) * normal();
                    // The tape lies along the true ground.
                    let slope = g[0] * toward[0] + g[1] * toward[1];
                    let radius_m = tape_m / hypot(1.0, slope);
                    let ground_m = foot_m - 0.2 + radius_m * (g[0] * toward[0] + g[1] * toward[1]);
                    let level = level(AnchorLayout::EqualTape { tape_m });
                    let span = Span {
                        span_m: radius_m - 0.06,
                        rise_m: foot_m + 5.0 - ground_m - 0.1,
                        weight_n_per_m: level.rope.weight_n_per_m(),
                        stiffness_n: level.rope.stiffness_n(),
                    };
                    span.with_upper_tension(150.0).unwrap().unstressed_m
                })
                .collect();
            let inside =
                |length: &&f64| (*length - guy.unstressed_m.value).abs() <= guy.unstressed_m.half_width_95;
            let share = lengths.iter().filter(inside).count() as f64 / lengths.len() as f64;
            assert!((share - 0.95).abs() < 0.012, "{share} of {:?}", guy.unstressed_m); // 3.5 sigma of the count
        }
    }

    #[test]
    fn steep_flat_and_open_guys_are_noticed() {
        let ground = plane([0.0, 0.0]);
        let free = |places: Vec<[f64; 2]>| {
            with(&ground, level(AnchorLayout::Free { anchors: vec![] }), places, |input| super::guys(&input))
        };
        let (guys, found) = free(vec![[2.0, 5.0], [20.0, 3.0], [-2.0, 2.0]]);
        assert_eq!(guys.len(), 3);
        assert_eq!(rules(&found), ["guy_steep", "guy_flat", "guys_far_apart"]);
        let (_, found) = free(vec![[2.0, 8.0], [7.0, 3.0], [2.0, 3.0]]);
        assert_eq!(rules(&found), ["guy_without_anchor", "guys_leave_a_side_open"]);
        assert_eq!(found[1].severity, Severity::Stop);
    }

    #[test]
    fn a_rope_too_heavy_for_its_tension_is_drawn_and_stopped() {
        let mut heavy = level(AnchorLayout::EqualRadius { radius_m: 5.0 });
        (heavy.rope.mass_g_per_m, heavy.tension_n) = (9000.0, 5.0);
        let (guys, found) = with(&plane([0.0, 0.0]), heavy, vec![], |input| super::guys(&input));
        assert_eq!(guys.len(), 3);
        assert!(found.iter().filter(|f| f.rule == "guy_tension_too_small").count() == 3);
        assert!(guys.iter().all(|g| g.unstressed_m.half_width_95.is_finite()));
        // What is drawn hangs 2 % longer than its chord.
        assert!(guys.iter().all(|g| (g.unstressed_m.value / g.chord_m - 1.02).abs() < 1e-9));
    }

    /// The widest gap goes round the circle: of guys at 0° and 120° it is 240°, of one alone 360°. Only anchors that were put
    /// where somebody wished are asked.
    #[test]
    fn the_widest_gap_of_free_anchors_goes_all_the_way_round() {
        let even = level(AnchorLayout::EqualRadius { radius_m: 5.16 });
        let (guys, _) = with(&plane([0.0, 0.0]), even.clone(), vec![], |input| super::guys(&input));
        let free = level(AnchorLayout::Free { anchors: vec![] });
        let widest = |level: &GuyLevel, guys: &[GuyResult]| {
            findings::one_sided(level, guys).map(|finding| finding.measured)
        };
        for (count, gap_deg) in [(1, 360.0), (2, 240.0)] {
            let Some(Some(Quantity::AngleDeg { value })) = widest(&free, &guys[..count]) else {
                panic!("{count} guys leave a side open")
            };
            assert!((value - gap_deg).abs() < 1e-9, "{count}: {value}");
            assert_eq!(widest(&even, &guys[..count]), None);
        }
        assert_eq!(widest(&free, &guys), None);
        assert_eq!(widest(&free, &[]), None);
    }

    #[test]
    fn a_hump_under_the_rope_is_noticed() {
        let level = level(AnchorLayout::EqualRadius { radius_m: 8.0 });
        let points: Vec<[f64; 3]> = [(-9.0, 0.0), (2.0, 0.0), (7.0, 3.0), (9.0, 0.0), (20.0, 0.0)]
            .iter()
            .flat_map(|&(x, z)| [-20.0, 3.0, 26.0].map(|y| [x, y, z]))
            .collect();
        let ground =
            Ground { surface: Some(crate::ground::Surface::new(&points).unwrap()), ..plane([0.0, 0.0]) };
        let found = with(&ground, level, vec![], |mut input| {
            input.front_bearing_deg = 90.0;
            super::guys(&input).1
        });
        assert!(found.iter().any(|f| f.rule == "guy_on_ground"), "{found:?}");
    }
}
