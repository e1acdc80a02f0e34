//! What each reading is worth: how much of the ± of feet, guys, anchors and the tightest distances comes from which reading, from north
//! and from setting out, and which one more reading would help most.
//!
//! Every reading, north and every step of setting out is drawn by chance, all at once; the whole work is surveyed, set out and measured
//! each time. What came out is laid through by a sum of one curve an error, of the first and second degree (Hermite polynomials, by least
//! squares): the variance of an error's curve is its part of the number's (Sudret, Reliab. Eng. Syst. Saf. 93 (2008) 964, first-order
//! indices by polynomial chaos). A straight line would not do: turned to either side the base stands higher. What no sum of curves
//! explains is a part of its own.
//!
//! One more reading is put into the job with the value that the plan expects there, and the plan's own ± is computed anew: so nothing
//! but what it knows changes. What hangs on no network (a tree's place, a sighted height) is read again and averaged: its part of the
//! variance is halved (GUM, 4.2.3).

pub(crate) mod errors;
mod further;
mod numbers;
mod results;

use std::collections::BTreeMap;

use nalgebra::linalg::QR;
use nalgebra::{DMatrix, DVector, Dyn};

use crate::job::Job;
use crate::numerics::random::Random;
use crate::plan::{Plan, compute};
use crate::quantity::FieldErrors;
use crate::quantity::estimate::COVERAGE_95;
use errors::as_set_out;
use numbers::SetOut;
pub use results::*;

/// So many draws more than factors of curves: what is left over says how much these do not explain.
const BEYOND: usize = 300;
/// Tapes that do not meet are planned by nobody: so many draws are tried for each that is wanted.
const TRIES: usize = 3;

/// The share of each reading in the ± of the plan's numbers, and the one more reading that would help most. What was measured after
/// pegging out counts as not measured: the plan's own numbers are asked. `progress` is told how many of how many yards were drawn and
/// stops the run by answering false: then no share is known. Nor is any where the ground was not measured both ways: most of what is
/// not known then comes from no reading.
///
/// # Errors
/// As [`compute`]: points that can't be placed.
///
/// # Accuracy
/// By chance, with a seed of its own: the same job has the same shares. They scatter by some hundredths where curves
/// explain half of a number, by less than one where they explain nine tenths.
///
/// # References
/// Sudret (2008); JCGM 101:2008 (GUM, Supplement 1) for the draws.
///
/// # Examples
/// ```
/// use mastwright_engine::{demo, shares};
/// let found = shares::reading_shares(&demo::lantern_green(), &mut |_, _| true).expect("the demo can be placed");
/// let all: f64 = found.numbers[0].shares.iter().map(|it| it.share).sum();
/// assert!((all - 1.0).abs() < 1e-9);
/// ```
pub fn reading_shares(
    job: &Job,
    progress: &mut dyn FnMut(u32, u32) -> bool,
) -> Result<ReadingShares, FieldErrors> {
    let sharp = as_set_out(job);
    let computed = compute(&sharp)?;
    if !computed.plan.knows_slope() {
        return Ok(ReadingShares::default());
    }
    let set_out = SetOut::of(job, &computed.plan);
    let errors = errors_of(&set_out)?;
    let drawn = Drawn::yards(&set_out, errors.len(), progress);
    let numbers = drawn.as_ref().and_then(|drawn| drawn.shares(&errors, &set_out)).unwrap_or_default();
    let mut found =
        ReadingShares { numbers, readings: Vec::new(), best: None, left_out: set_out.spots_left_out() };
    if !found.numbers.is_empty() {
        further::helping(&sharp, &computed, &mut found);
    }
    Ok(found)
}

/// What may be off, in the order in which it is asked for.
fn errors_of(set_out: &SetOut) -> Result<Vec<ErrorOf>, FieldErrors> {
    let mut errors = Vec::new();
    set_out.values(&mut |of| {
        errors.push(of());
        0.0
    })?;
    Ok(errors)
}

/// Yards drawn by chance: what was off in each, and what came out.
struct Drawn {
    draws: usize,
    errors: Vec<f64>,
    values: Vec<Vec<f64>>,
}

impl Drawn {
    /// None where it was stopped, or where too few of the yards can be planned.
    fn yards(set_out: &SetOut, errors: usize, progress: &mut dyn FnMut(u32, u32) -> bool) -> Option<Self> {
        let wanted = 2 * errors + BEYOND;
        let mut random = Random::seeded(1);
        let mut drawn = Self { draws: 0, errors: Vec::new(), values: Vec::new() };
        for _ in 0..TRIES * wanted {
            let mut off = Vec::with_capacity(errors);
            let values = set_out.values(&mut |_| {
                let error = random.normal();
                off.push(error);
                error
            });
            let values = values.ok();
            let Some(values) = values.and_then(|all| all.into_iter().collect::<Option<Vec<f64>>>()) else {
                continue;
            };
            drawn.errors.extend(off);
            drawn.values.push(values);
            drawn.draws += 1;
            if !progress(drawn.draws as u32, wanted as u32) {
                return None;
            }
            if drawn.draws == wanted {
                return Some(drawn);
            }
        }
        None
    }

    fn shares(&self, errors: &[ErrorOf], set_out: &SetOut) -> Option<Vec<NumberShares>> {
        let count = errors.len();
        // All curves together have one height, which is no part of a spread.
        let by = DMatrix::from_fn(self.draws, 2 * count + 1, |draw, column| {
            let error = |at: usize| self.errors[draw * count + at];
            match column {
                0 => 1.0,
                column if column <= count => error(column - 1),
                column => second(error(column - 1 - count)),
            }
        });
        let curves = by.qr();
        let mut first = 0;
        let mut of_number = |of: &SharedOf| {
            let own = first..first + of.values();
            first = own.end;
            let mut parts = Parts::default();
            for value in own {
                self.add(&curves, value, errors, &mut parts)?;
            }
            Some(parts.number(of, set_out.plan))
        };
        set_out.asked.iter().map(&mut of_number).collect()
    }

    /// The variance of each error's curve, and what is left.
    fn add(
        &self,
        curves: &QR<f64, Dyn, Dyn>,
        value: usize,
        errors: &[ErrorOf],
        parts: &mut Parts,
    ) -> Option<()> {
        let mut came_out = DVector::from_iterator(self.draws, self.values.iter().map(|it| it[value]));
        curves.q_tr_mul(&mut came_out);
        let width = 2 * errors.len() + 1;
        let left = came_out.rows(width, self.draws - width).norm_squared();
        parts.not_explained += left / (self.draws - width) as f64;
        let factors = curves.r().solve_upper_triangular(&came_out.rows(0, width).into_owned())?;
        for (of, factor) in errors.iter().chain(errors).zip(factors.iter().skip(1)) {
            *parts.of.entry(of.clone()).or_default() += factor * factor;
        }
        Some(())
    }
}

/// The second of the normal polynomials, of variance 1 for a standard normal number: Abramowitz & Stegun 1964, 22.2.15.
fn second(error: f64) -> f64 {
    (error * error - 1.0) / std::f64::consts::SQRT_2
}

/// Parts of one number's variance.
#[derive(Default)]
struct Parts {
    of: BTreeMap<ErrorOf, f64>,
    not_explained: f64,
}

impl Parts {
    fn number(mut self, of: &SharedOf, plan: &Plan) -> NumberShares {
        self.of.insert(ErrorOf::Together, self.not_explained);
        let variance: f64 = self.of.values().sum();
        let counts = self.of.into_iter().filter(|(_, part)| *part > 0.0);
        let mut shares: Vec<ErrorShare> =
            counts.map(|(of, part)| ErrorShare { of, share: part / variance }).collect();
        shares.sort_by(|a, b| b.share.total_cmp(&a.share));
        NumberShares {
            of: of.clone(),
            value_m: of.planned_m(plan),
            half_width_95_m: COVERAGE_95 * variance.sqrt(),
            shares,
            further: None,
        }
    }
}

#[cfg(test)]
mod tests;
