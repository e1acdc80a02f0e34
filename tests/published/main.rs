//! Checks against publications, a file a publication. Read the book named at a file's top beside it.

#[path = "../support/guyed_mast.rs"]
mod guyed_mast;
// Nothing here is seen in a mirror.
#[allow(dead_code)]
#[path = "../support/moved.rs"]
mod moved;
#[path = "../support/random_jobs.rs"]
mod random_jobs;
#[path = "../support/yardstick.rs"]
mod yardstick;

mod ahrs_tilt;
mod aisc_360_16;
mod aisc_pins;
mod apparent_dip;
mod asce7;
mod asme_b1_20_1;
mod beam_columns;
mod beaufort;
mod beer_johnston_collar;
mod bowditch_traverse;
mod broms_1964;
mod common_practice;
mod cone_sampled;
mod cutting_stock;
mod elastic_catenary;
mod elementary_surveying;
mod en1991_1_4;
mod en1993_1_8;
mod en39_struts;
mod flat_strap;
mod ghilani_trilateration;
mod guy_collars;
mod guyed_masts;
mod hoerner_cross_flow;
mod hoyt_clemence_1989;
mod ibc_1806;
mod iso2533;
mod job_schema;
mod meyerhof_adams_1968;
mod navedtra_14251;
mod nds_2018;
mod networks_scipy;
mod nist_norris;
mod osha_1926_1408;
mod pegging_scipy;
mod perspective;
mod pipe_tolerances;
mod raising_shapely;
mod references;
mod reversal_levelling;
mod rfc7946;
mod rope_ends;
mod slope_taping;
mod sloping_anchors;
mod soil_by_feel;
mod taut_string;
mod thinner_rope;
mod three_guy_statics;
mod tm_5_5420_278_10;
mod tube_tables;
mod whole_plan_shapely;
mod wind_capacity_by_hand;
mod wind_capacity_opensees;
mod wmm2025;
mod worked_by_hand;
