//! What must hold whatever the yard: inverses, balance, order, coverage.

#[path = "../support/cramped_yard.rs"]
mod cramped_yard;
#[path = "../support/moved.rs"]
mod moved;
#[path = "../support/random_jobs.rs"]
mod random_jobs;
#[path = "../support/rough.rs"]
mod rough;
#[path = "../support/yardstick.rs"]
mod yardstick;

#[path = "../support/bumpy_yard.rs"]
mod bumpy_yard;

mod anchors;
mod any_job;
mod as_built;
mod asked;
mod base_sliding;
mod both_units;
mod calls;
mod clearance;
mod cone;
mod contour_turn;
mod cost;
mod coverage;
mod dependencies;
mod every_finding;
mod floors;
mod ground;
mod guy_levels;
mod guy_to_thing;
mod guys;
mod job_reading;
mod lifting;
mod merging;
mod names;
mod not_known;
mod one_system;
mod outlines;
mod pages;
mod pegging;
mod phones;
mod pointers;
mod positions;
mod printed_kinds;
mod printed_numbers;
mod quantity;
mod raising;
mod raising_rules;
mod resistance;
mod rigs;
mod rough_ground;
mod round_in_both_systems;
mod screens;
mod season;
mod sentences;
mod shared_anchor;
mod siting;
mod siting_marks;
mod siting_masks;
mod siting_near;
mod siting_openings;
mod siting_patterns;
mod siting_way_up;
mod spot_sigmas;
mod structure;
mod survey_log;
mod surveyed_again;
mod sweep;
mod uneven_ground;
mod versions;
mod views;
mod what_to_change;
mod whole_plan;
mod wind;
mod wind_capacity;
mod workshop;
