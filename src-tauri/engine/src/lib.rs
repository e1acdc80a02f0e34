//! The Mastwright engine.

#![forbid(unsafe_code)]

pub mod anchor;
pub mod base;
pub mod demo;
pub mod drawing;
pub mod exchange;
pub mod finding;
pub mod ground;
pub mod guys;
pub mod habits;
pub mod job;
pub mod limit;
pub mod numerics;
pub mod plan;
pub mod plumbing;
pub mod quantity;
pub mod report;
pub mod resistance;
pub mod simulate;
pub mod source;
pub mod stakeout;
pub mod strands;
pub mod structure;
pub mod survey;
pub mod tube;
pub mod verdict;
pub mod wind;
pub mod yard;
