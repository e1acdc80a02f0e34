//! The Mastwright engine: a [`job::Job`] goes in (what the yard is like, what is to be built, where it stands), a
//! [`plan::Plan`] comes out (where everything goes, how long everything is, how sure that is, what is wrong), and a
//! [`wind_capacity::WindCapacity`] (what wind it can take). It is pure: no files, no clock, no network.
//!
//! # Stages
//! The work is done in four stages, each with a result of its own that the next one takes.
//!
//! | stage | takes | gives | how often |
//! |---|---|---|---|
//! | [`plan::survey()`] | the yard's readings | [`plan::Surveyed`]: north, ground, every point with its uncertainty | once |
//! | [`plan::lay_out()`] | that, a rig, a placement | [`plan::Layout`]: mast, base, guys and ring in their places, how long all is | for each place of the mast, for each change of a part |
//! | [`plan::check()`] | those, the yard | [`plan::Checked`]: clearances, findings | for each layout that is to be built |
//! | [`wind_capacity::withstand()`] | a layout, its job | [`wind_capacity::WindCapacity`]: gust limit all round, when to act | for each layout, where it is asked |
//!
//! ```
//! use mastwright_engine::{demo, plan, wind_capacity};
//!
//! let job = demo::lantern_green();
//! let surveyed = plan::survey(&job.yard, job.units).expect("the marks can be placed");
//! let layout = plan::lay_out(&surveyed, &job.rig, &job.placement).expect("the mast can be placed");
//! let front = &layout.base.legs[0];
//! assert!(front.gap_centre_m.value > 0.0, "the green falls, so the front leg stands on a foot");
//! let checked = plan::check(&surveyed, &job, &layout).expect("the yard can be placed");
//! assert!(!checked.clearances.is_empty(), "trees and a house stand round it");
//! let wind = wind_capacity::withstand(&job, &layout, &mut |_, _, _| true);
//! assert!(wind.lower_at_m_per_s.is_some(), "every part of the demo is known");
//!
//! // The same yard serves for another mast: nothing is surveyed again.
//! let mut rig = job.rig.clone();
//! rig.guy_levels[0].attach_height_m -= 0.2;
//! let other = plan::lay_out(&surveyed, &rig, &job.placement).expect("so can this one");
//! assert!(other.guys[0].chord_m < layout.guys[0].chord_m);
//! ```
//!
//! [`plan::compute()`] is the first three in order; it gathers their results in a plan, and goes on from where the work
//! really stands once it was measured. [`judge::judged()`] adds whether it stands in still air, and the verdict.
//!
//! ```
//! use mastwright_engine::{demo, judge};
//!
//! let plan = judge::judged(&demo::lantern_green()).expect("the demo can be placed").plan;
//! assert_eq!(plan.guys.len(), 6);
//! assert!(plan.verdict.is_some(), "what is to be thought of it all");
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
//! | [`ringing`] | how tight a guy is, from how it swings |
//! | [`strands`] | the ring and the strands |
//! | [`yard`] | what stands in the yard, and how far the work keeps from it |
//! | [`stakeout`] | how to find each peg: bearing and tape, swing ties |
//! | [`verdict`] | stop, not known yet with what is missing, look |
//! | [`plan`] | the whole of it in order, as planned and as built |
//! | [`plumbing`] | what to move so that a leaning mast stands plumb |
//! | [`calls`] | whom to call or ask before anything is driven in, and by when |
//! | [`spread`] | the whole yard drawn by chance |
//! | [`shares`] | how much of the ± comes from which reading, and what to read again |
//! | [`wind_capacity`] | the mast in the wind: the use of every part, the gust limit, what to change first |
//! | [`raising`] | turning the mast up and laying it down: what it sweeps, what each guy does, which ways are clear |
//! | [`pegging`] | the way from peg to peg, how far off each may be, tapes that tell which one is wrong |
//! | [`view`] | what somebody sees who stands in the yard: what hides what, how much of the lit cone shows |
//! | [`siting`] | every place of the yard held against the rules, the best ones with their marks |
//! | [`workshop`] | what is bought, cut, turned and drilled before: fits, stages and pins, the lift |
//! | [`rigs`] | which rig: tubes that reach a height, what they weigh, cost and what wind they take |
//! | [`lifting`] | forces of the day: at the hands, the hinge, in a line over a prop, in the tubes, and the gust up to which to begin |
//! | [`lighting`] | the lights' current: strands numbered, labels added up, the lead along the ground |
//! | [`cards`] | step cards of the day: what must hold before what, which card may come next |
//! | [`season`] | while it stands: what to look at and why, what changed since last time, when to go round again |
//! | [`judge`] | a job looked at whole: plan, still air, verdict |
//! | [`demo`] | Lantern Green |
//! | [`exchange`] | points out as CSV and GeoJSON, shapes in from GeoJSON |
//! | [`report`] | results put into words and units |
//! | [`drawing`] | staking map, profiles, rose, sheet |

#![forbid(unsafe_code)]

pub mod anchor;
pub mod base;
pub mod calls;
pub mod cards;
pub mod demo;
pub mod drawing;
pub mod exchange;
pub mod finding;
pub mod ground;
pub mod guys;
pub mod job;
pub mod judge;
pub mod lifting;
pub mod lighting;
pub mod numerics;
pub mod pegging;
pub mod plan;
pub mod plumbing;
pub mod quantity;
pub mod raising;
pub mod report;
pub mod resistance;
pub mod rigs;
pub mod ringing;
pub mod round_figures;
pub mod season;
pub mod shares;
pub mod siting;
pub mod source;
pub mod spread;
pub mod stakeout;
pub mod strands;
pub mod structure;
pub mod survey;
pub mod tube;
pub mod verdict;
pub mod view;
pub mod wind;
pub mod wind_capacity;
pub mod workshop;
pub mod yard;
