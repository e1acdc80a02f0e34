//! All sentences for the user, made from data by exhaustive matches, one file a subject. Nothing else in the engine holds
//! one (`tests/properties/sentences.rs` reads the sources for it).

pub(crate) mod beaufort;
mod buried;
pub(crate) mod calls;
pub(crate) mod cards;
pub mod cautions;
mod changes;
pub(crate) mod circles;
mod disk;
mod document;
mod ground;
pub(crate) mod gust;
pub(crate) mod guys;
mod labels;
pub(crate) mod lights;
mod mast;
pub(crate) mod next_year;
mod north;
mod overhead;
pub(crate) mod pegging;
pub(crate) mod plumbing;
mod points;
pub(crate) mod raising;
pub(crate) mod rigs;
pub(crate) mod season;
pub(crate) mod seen;
pub(crate) mod shares;
pub(crate) mod shopping;
pub(crate) mod siting;
pub(crate) mod spread;
mod strength;
pub(crate) mod tensions;
mod titles;
pub(crate) mod verdict;
mod wind;
pub(crate) mod workshop;
mod yard;

pub(crate) use changes::change;
pub use disk::{DiskRefusal, disk_refusal};
pub(crate) use labels::{label, missing, part};
pub(crate) use mast::tube_size;
pub use north::{bearing_how, north_from};
pub(crate) use strength::{conditions, unshown};
pub(crate) use titles::title;
pub(crate) use wind::collapse;
pub(crate) use yard::approach;

use super::format;
use crate::finding::{Clear, Finding, Remedy, Rule};
use crate::quantity::{UnitSystem, Units};
use crate::round_figures::rounded_up;

/// What a finding says, without its numbers.
pub(crate) fn sentence(finding: &Finding, units: Units) -> String {
    rule(&finding.rule, units)
}

fn rule(rule: &Rule, units: Units) -> String {
    match rule {
        Rule::Document(rule) => document::sentence(rule).to_owned(),
        Rule::Ground(rule) => ground::sentence(rule, units),
        Rule::Points(rule) => points::sentence(rule),
        Rule::North(rule) => north::sentence(rule),
        Rule::Guys(rule) => guys::sentence(rule),
        Rule::Mast(rule) => mast::sentence(rule),
        Rule::Yard(rule) => yard::sentence(rule),
        Rule::Buried(rule) => buried::sentence(rule),
        Rule::Overhead(rule) => overhead::sentence(rule),
        Rule::Wind(rule) => wind::sentence(rule),
        Rule::Raising(rule) => raising::sentence(rule, units),
        Rule::Workshop(rule) => workshop::sentence(rule),
        Rule::Lights(rule) => lights::sentence(rule),
    }
}

/// What would put it right.
pub(crate) fn remedy(remedy: &Remedy, units: Units) -> String {
    match remedy {
        Remedy::Document(remedy) => document::remedy(remedy).to_owned(),
        Remedy::Ground(remedy) => ground::remedy(remedy).to_owned(),
        Remedy::Points(remedy) => points::remedy(remedy).to_owned(),
        Remedy::North(remedy) => north::remedy(remedy),
        Remedy::Guys(remedy) => guys::remedy(remedy).to_owned(),
        Remedy::Mast(remedy) => mast::remedy(remedy).to_owned(),
        Remedy::Yard(remedy) => yard::remedy(remedy, units.system),
        Remedy::Buried(remedy) => buried::remedy(remedy, units.system),
        Remedy::Overhead(remedy) => overhead::remedy(remedy, units.system),
        Remedy::Wind(remedy) => wind::remedy(remedy).to_owned(),
        Remedy::Raising(remedy) => raising::remedy(remedy, units.system),
        Remedy::Workshop(remedy) => workshop::remedy(remedy, units),
        Remedy::Lights(remedy) => lights::remedy(remedy).to_owned(),
    }
}

/// `at least 1' 4" to the north-east`.
fn at_least(clear: &Clear, system: UnitSystem) -> String {
    let by = rounded_up(clear.by_m, system);
    match clear.toward_deg {
        Some(toward_deg) => format!("at least {by} to the {}", format::compass_point(toward_deg)),
        None => format!("clear of it, and then at least {by} more"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_way_out_is_rounded_up_and_has_a_point_of_the_compass() {
        let clear = |toward_deg| at_least(&Clear { by_m: 0.11, toward_deg }, UnitSystem::Metric);
        assert_eq!(clear(Some(44.0)), "at least 0.2 m to the north-east");
        assert_eq!(clear(None), "clear of it, and then at least 0.2 m more");
    }
}
