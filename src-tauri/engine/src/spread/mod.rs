//! The whole yard drawn by chance, many times over: how far foot heights, guy lengths and clearances may come out
//! other than planned.
//!
//! Each draw is a yard as it may really be, given the readings, and the work as it may really be set out in it. What
//! is drawn, and in which approximation:
//!
//! - **North**: one error of the declination for all bearings; how the yard answers to it is taken from the whole
//!   survey computed once more with north a little turned.
//! - **Slopes and spot heights**: an error for each; the plane answers by the factors of its normal equations, which
//!   is exact as long as the readings' weights stay. A surface moves at its vertices, its triangles stay.
//! - **Marks**: from their joint covariance, which the network's adjustment of all tapes and bearings gave, in step
//!   with the slope error drawn above. To first order this is the same as drawing every tape and bearing and
//!   adjusting again.
//! - **Every other point**: to first order in its own tape, bearing or sketch errors and in those of its marks.
//! - **Setting out**: the mast by its ties or its own fix, the base turned by the compass's error, each anchor by its
//!   own bearing and tape along the ground as it really is.
//! - **Foot heights and guy lengths**: by the engine's own frame and catenary, exactly, on the drawn ground.
//! - **Clearances**: the distance between the two nearest points as planned changes by their displacements along the
//!   line between them. Where another part becomes the nearest, or things already touch, this is not followed: what
//!   touches is listed as touching.
//!
//! # References
//! JCGM 101:2008 (GUM Supplement 1): propagation of distributions by simulation.

mod links;
pub mod of_number;
mod survey;

use nalgebra::{Matrix2, Vector2};
use serde::{Deserialize, Serialize};

use crate::base::foot::gap_at_centre;
use crate::base::frame::Frame;
use crate::finding::Subject;
use crate::ground::Ground;
use crate::ground::profile::at_tape;
use crate::job::{GuyLevel, Job};
use crate::numerics::least_squares::DMatrix;
use crate::numerics::lower_root::lower_root;
use crate::numerics::random::Random;
use crate::numerics::real::hypot;
use crate::plan::{GuyResult, Plan, compute};
use crate::quantity::FieldErrors;
use crate::shares::errors::as_set_out;
use crate::structure::catenary::Span;
use crate::survey::ellipse::covariance_of_95;
use crate::yard::approach::Approach;
use links::Link;
pub use of_number::{Histogram, Spread};
use survey::Survey;

/// Fewest and most draws of one run.
pub const DRAWS: std::ops::RangeInclusive<u32> = 100..=100_000;

/// Progress is told after so many draws.
const BATCH: u32 = 250;

/// What a simulation found.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct YardSpread {
    /// Draws made: fewer than asked for where it was stopped.
    pub draws: u32,
    pub stopped: bool,
    pub feet: Vec<FootSpread>,
    pub guys: Vec<GuySpread>,
    /// In the order of the plan's clearances.
    pub clearances: Vec<ClearanceSpread>,
}

/// Spread of the height of what stands under a leg's tip.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct FootSpread {
    /// `front`, `right`, `back`, `left`.
    pub leg: String,
    pub gap_m: Spread,
    /// Share of the draws within the plan's 95 % interval.
    pub share_in_plan: f64,
}

/// Spread of a guy's unstressed length.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct GuySpread {
    pub id: String,
    pub unstressed_m: Spread,
    /// Share of the draws within the plan's 95 % interval.
    pub share_in_plan: f64,
}

/// Spread of a clearance's margin.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct ClearanceSpread {
    pub work: Subject,
    pub to: Subject,
    pub what: Approach,
    /// Distance as planned.
    pub planned_m: f64,
    pub needed_m: f64,
    /// Distance less what is needed; none where the two already touch as planned, so that no direction is left in
    /// which to follow them.
    pub margin_m: Option<Spread>,
    /// Share of the draws in which it is too near. What touches as planned counts as too near in all of them.
    pub share_failing: f64,
}

/// Draws the whole yard `draws` times. `progress` is told the draws done and stops the run by answering false; what
/// was drawn until then is reported.
///
/// # Errors
/// As [`compute`]: points that can't be placed.
///
/// # Examples
/// ```
/// use mastwright_engine::{demo, spread::yard_spread};
/// let found = yard_spread(&demo::lantern_green(), 500, 1, &mut |_| true).expect("the demo can be placed");
/// assert!(found.feet[0].gap_m.low < found.feet[0].gap_m.high);
/// ```
pub fn yard_spread(
    job: &Job,
    draws: u32,
    seed: u64,
    progress: &mut dyn FnMut(u32) -> bool,
) -> Result<YardSpread, FieldErrors> {
    let wanted = draws.clamp(*DRAWS.start(), *DRAWS.end());
    let model = Model::of(job)?;
    let mut random = Random::seeded(seed);
    let mut columns: Vec<Vec<f64>> = vec![Vec::with_capacity(wanted as usize); model.width()];
    let mut drawn = Drawn::of(&model);
    let (mut done, mut stopped) = (0, false);
    while done < wanted {
        drawn.draw(&model, &mut random);
        for (column, value) in columns.iter_mut().zip(&drawn.values) {
            column.push(*value);
        }
        done += 1;
        if (done % BATCH == 0 || done == wanted) && !progress(done) {
            stopped = done < wanted;
            break;
        }
    }
    Ok(model.report(columns, done, stopped))
}

/// All that does not change from draw to draw.
struct Model<'a> {
    job: &'a Job,
    plan: Plan,
    survey: Survey,
    links: Vec<Option<Link>>,
    guys: Vec<GuyModel<'a>>,
}

/// A guy as it is set out.
struct GuyModel<'a> {
    level: &'a GuyLevel,
    azimuth_deg: f64,
    tape_m: f64,
    tape_sigma_m: f64,
    at: [f64; 2],
    ground_m: f64,
    /// Of the rope's lower end above the ground.
    eye_m: f64,
    /// Made fast to a thing of the yard: the lower triangular root of its place's covariance, as seen from the mast. Nobody pegs
    /// that out.
    stands_by: Option<Matrix2<f64>>,
    /// Unstressed length over chord as planned, for draws in which the tension holds no rope.
    slack: f64,
}

impl<'a> Model<'a> {
    fn of(job: &'a Job) -> Result<Self, FieldErrors> {
        let plan = compute(&as_set_out(job))?.plan;
        let mut survey = Survey::of(job, &plan)?;
        let links = links::links(job, &plan, &mut survey)?;
        let level = |guy: &GuyResult| job.rig.guy_levels.iter().find(|level| level.id == guy.level_id);
        let guys = plan.guys.iter().filter_map(|guy| Some(GuyModel::of(guy, level(guy)?, job))).collect();
        Ok(Self { job, plan, survey, links, guys })
    }

    fn width(&self) -> usize {
        self.plan.base.legs.len() + self.guys.len() + self.links.len()
    }

    fn report(&self, mut columns: Vec<Vec<f64>>, draws: u32, stopped: bool) -> YardSpread {
        let share = |column: &[f64], within: &dyn Fn(f64) -> bool| {
            column.iter().filter(|value| within(**value)).count() as f64 / column.len().max(1) as f64
        };
        let (feet, rest) = columns.split_at_mut(self.plan.base.legs.len());
        let (guys, clearances) = rest.split_at_mut(self.guys.len());
        let feet = self.plan.base.legs.iter().zip(feet).map(|(leg, column)| {
            let planned = leg.gap_centre_m;
            let share_in_plan = share(column, &|gap| (gap - planned.value).abs() <= planned.half_width_95);
            FootSpread { leg: leg.id.clone(), gap_m: Spread::of(column), share_in_plan }
        });
        let guys = self.plan.guys.iter().zip(guys).map(|(guy, column)| {
            let planned = guy.unstressed_m;
            let share_in_plan =
                share(column, &|length| (length - planned.value).abs() <= planned.half_width_95);
            GuySpread { id: guy.id.clone(), unstressed_m: Spread::of(column), share_in_plan }
        });
        let clearances =
            self.plan.clearances.iter().zip(&self.links).zip(clearances).map(|((it, link), column)| {
                let share_failing = if link.is_some() { share(column, &|margin| margin < 0.0) } else { 1.0 };
                ClearanceSpread {
                    work: it.work.clone(),
                    to: it.to.clone(),
                    what: it.what,
                    planned_m: it.distance_m,
                    needed_m: it.needed_m,
                    margin_m: link.is_some().then(|| Spread::of(column)),
                    share_failing,
                }
            });
        let (feet, guys, clearances) = (feet.collect(), guys.collect(), clearances.collect());
        YardSpread { draws, stopped, feet, guys, clearances }
    }
}

impl<'a> GuyModel<'a> {
    fn of(guy: &GuyResult, level: &'a GuyLevel, job: &Job) -> Self {
        Self {
            level,
            azimuth_deg: guy.azimuth_deg,
            tape_m: guy.tape_m,
            tape_sigma_m: job.yard.instruments.tape_sigma_of_m(guy.tape_m),
            at: [guy.east_m, guy.north_m],
            ground_m: guy.ground_m,
            eye_m: guy.eye[2] - guy.ground_m,
            stands_by: guy.made_fast.as_ref().map(|_| root(covariance_of_95(&guy.landing_95))),
            slack: guy.unstressed_m.value / guy.chord_m,
        }
    }

    /// The unstressed length between the collar and an anchor as it came to stand.
    fn length_m(&self, mast: [f64; 2], foot_m: f64, anchor: [f64; 2], ground_m: f64) -> f64 {
        let level = self.level;
        let span = Span {
            span_m: hypot(anchor[0] - mast[0], anchor[1] - mast[1]) - level.collar_radius_mm / 1000.0,
            rise_m: foot_m + level.attach_height_m - ground_m - self.eye_m,
            weight_n_per_m: level.rope.weight_n_per_m(),
            stiffness_n: level.rope.stiffness_n(),
        };
        span.with_upper_tension(level.tension_n).map_or(self.slack * span.chord_m(), |rope| rope.unstressed_m)
    }
}

fn root([[ee, en], [ne, nn]]: [[f64; 2]; 2]) -> Matrix2<f64> {
    let root = lower_root(&DMatrix::from_row_slice(2, 2, &[ee, en, ne, nn]));
    Matrix2::new(root[(0, 0)], 0.0, root[(1, 0)], root[(1, 1)])
}

/// One draw, its memory kept from draw to draw.
struct Drawn {
    values: Vec<f64>,
    yard: survey::SampledYard,
    /// The work as it came to stand.
    work: SampledWork,
}

/// The work as it came to stand in one draw, against the plan.
#[derive(Default)]
struct SampledWork {
    mast: [f64; 2],
    mast_moved: [f64; 2],
    /// Turn of the base and ring, in radians, clockwise.
    turned_rad: f64,
    foot_rise_m: f64,
    /// Of each anchor: displacement in plan and rise of its ground.
    anchors: Vec<([f64; 2], f64)>,
}

impl Drawn {
    fn of(model: &Model) -> Self {
        let work = SampledWork { anchors: vec![([0.0; 2], 0.0); model.guys.len()], ..SampledWork::default() };
        Self { values: vec![0.0; model.width()], yard: model.survey.start(), work }
    }

    fn draw(&mut self, model: &Model, random: &mut Random) {
        model.survey.draw(&mut self.yard, random);
        self.set_out(model, random);
        let feet_and_guys = model.plan.base.legs.len() + model.guys.len();
        for (value, link) in self.values[feet_and_guys..].iter_mut().zip(&model.links) {
            *value = link.as_ref().map_or(f64::NAN, |link| link.margin_m(&self.yard, &self.work));
        }
    }

    /// Base, mast and guys on the drawn ground.
    fn set_out(&mut self, model: &Model, random: &mut Random) {
        let (job, yard, work) = (model.job, &self.yard, &mut self.work);
        let ground: &Ground = &yard.ground;
        let bearing_sigma_deg = job.yard.instruments.bearing_sigma_deg;
        let (mast, base) = (&model.plan.mast, &job.rig.base);
        work.mast_moved = yard.mast_moved;
        work.mast = [mast.east_m + yard.mast_moved[0], mast.north_m + yard.mast_moved[1]];
        let turn = yard.north_deg + bearing_sigma_deg * random.normal();
        work.turned_rad = turn.to_radians();
        let frame = Frame::lay(base, ground, work.mast, job.placement.front_bearing_deg + turn);
        for (value, leg) in self.values.iter_mut().zip(&frame.legs) {
            *value = gap_at_centre(leg, &frame, base, ground);
        }
        let foot_m = frame.underside_m + (base.timber_depth_mm + base.seat_height_mm) / 1000.0;
        work.foot_rise_m = foot_m - mast.foot_m;
        let lengths = self.values[model.plan.base.legs.len()..].iter_mut();
        for ((value, guy), anchor) in lengths.zip(&model.guys).zip(&mut work.anchors) {
            let azimuth_deg = guy.azimuth_deg + yard.north_deg + bearing_sigma_deg * random.normal();
            let tape_m = guy.tape_m + guy.tape_sigma_m * random.normal();
            let at = match guy.stands_by {
                None => at_tape(ground, work.mast, azimuth_deg, tape_m),
                // It lies off its place, seen from the mast, by chance.
                Some(root) => {
                    let off = root * Vector2::new(random.normal(), random.normal());
                    [guy.at[0] + work.mast_moved[0] + off.x, guy.at[1] + work.mast_moved[1] + off.y]
                }
            };
            let ground_m = ground.height(at);
            *anchor = ([at[0] - guy.at[0], at[1] - guy.at[1]], ground_m - guy.ground_m);
            *value = guy.length_m(work.mast, foot_m, at, ground_m);
        }
    }
}

#[cfg(test)]
mod tests;
