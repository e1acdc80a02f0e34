//! A job that stays as it is while the demo may change: what tests take that need some whole job.

use mastwright_engine::job::{Job, read_job};

/// The demo as it was at 53a387c: two tubes, one level of guys.
pub const YARDSTICK: &str = include_str!("../data/yardstick-53a387c.json");

pub fn yardstick() -> Job {
    read_job(YARDSTICK).expect("the yardstick reads")
}
