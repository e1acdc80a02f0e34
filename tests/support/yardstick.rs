//! A job that stays as it is while the demo may change: what tests take that need some whole job.

use std::sync::OnceLock;

use mastwright_engine::job::{Job, read_job};

/// The demo as it was at 53a387c: two tubes, one level of guys.
pub const YARDSTICK: &str = include_str!("../data/yardstick-53a387c.json");

/// Read once: tests take it some ten thousand times.
pub fn yardstick() -> Job {
    static READ: OnceLock<Job> = OnceLock::new();
    READ.get_or_init(|| read_job(YARDSTICK).expect("the yardstick reads")).clone()
}

/// What the gust limit of the demo cost at 53a387c, both heights and all directions: factorisations and steps, each times
/// the entries of the stiffness, as [`mastwright_engine::structure::Solver::spent`] counts them. Counted on 26 Nov 2026 in
/// a worktree of that commit to which the same count was added: 2,954,272 for factorisations, 6,216,008 for steps. It took
/// 27.6 ms of processor time there (median of 40 runs).
#[allow(dead_code)]
pub const SPENT_AT_53A387C: u64 = 9_170_280;
