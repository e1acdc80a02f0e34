//! The Mastwright engine: a [`job::Job`] goes in (what the yard is like, what is to be built, where it stands), a
//! [`plan::Plan`] comes out (where everything goes, how long everything is, how sure that is, what is wrong), and a
//! [`wind_capacity::WindCapacity`] (what wind it can take). It is pure: no files, no clock, no network.
//!
//! # Examples
//! ```
//! use mastwright_engine::{demo, judge, wind_capacity};
//!
//! let job = demo::lantern_green();
//! let computed = judge::judged(&job).expect("the demo can be placed");
//! let front = &computed.plan.base.legs[0];
//! assert!(front.gap_centre_m.value > 0.0, "the green falls, so the front leg stands on a foot");
//! let wind = wind_capacity::wind_capacity(&job, &computed.plan, &mut |_, _, _| true);
//! assert!(wind.lower_at_m_per_s.is_some(), "every part of the demo is known");
//! ```
//!
//! # Contents
//! From the bottom up. A room uses only rooms above it in this table (`tests/properties/floors.rs` holds that).
//!
//! | room | what is in it |
//! |---|---|
//! | [`numerics`] | elementary functions, roots, least squares, linear algebra, random numbers |
//! | [`source`] | the publications, one line each, with how sure we are of them |
//! | [`finding`] | what is wrong, as data: rule, severity, subject, measured, limit, source, remedy |
//! | [`quantity`] | units, bearings, values with an interval; reading and showing as people write them |
//! | [`round_figures`] | limits and defaults of ours, round in metres and in inches |
//! | [`tube`] | tables of tubes, sections, how they telescope |
//! | [`resistance`] | what tubes, threads, ropes and timbers carry |
//! | [`anchor`] | what the ground holds: screws, plates, deadmen, pickets, stakes, ballast; the proof pull |
//! | [`wind`] | gust to pressure, drag, forces on members and on the cone |
//! | [`structure`] | the guyed mast as beams and hanging ropes, at rest under its loads |
//! | [`job`] | the document: its fields with their ranges, reading with every error named |
//! | [`ground`] | plane and surface from slopes and heights, profile, contours, fall line |
//! | [`survey`] | from readings to angles, bearings and positions, each with its uncertainty |
//! | [`base`] | the level frame on the slope, feet and shims, stakes, the turn onto the contour |
//! | [`guys`] | where anchors go, how the rope hangs, how long to cut it |
//! | [`strands`] | the ring and the strands |
//! | [`yard`] | what stands in the yard, and how far the work keeps from it |
//! | [`stakeout`] | how to find each peg: bearing and tape, swing ties |
//! | [`verdict`] | stop, not known yet with what is missing, look |
//! | [`plan`] | the whole of it in order, as planned and as built |
//! | [`plumbing`] | what to move so that a leaning mast stands plumb |
//! | [`spread`] | the whole yard drawn by chance |
//! | [`wind_capacity`] | the mast in the wind: the use of every part, the gust limit, what to change first |
//! | [`judge`] | a job looked at whole: plan, still air, verdict |
//! | [`demo`] | Lantern Green |
//! | [`exchange`] | points out as CSV and GeoJSON, shapes in from GeoJSON |
//! | [`report`] | results put into words and units |
//! | [`drawing`] | staking map, profiles, rose, sheet |

#![forbid(unsafe_code)]

pub mod anchor;
pub mod base;
pub mod demo;
pub mod drawing;
pub mod exchange;
pub mod finding;
pub mod ground;
pub mod guys;
pub mod job;
pub mod judge;
pub mod numerics;
pub mod plan;
pub mod plumbing;
pub mod quantity;
pub mod report;
pub mod resistance;
pub mod round_figures;
pub mod source;
pub mod spread;
pub mod stakeout;
pub mod strands;
pub mod structure;
pub mod survey;
pub mod tube;
pub mod verdict;
pub mod wind;
pub mod wind_capacity;
pub mod yard;
