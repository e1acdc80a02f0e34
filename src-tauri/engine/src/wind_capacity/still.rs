//! Whether the mast stands in still air, raised and lowered: what does not is a stop, whatever else is known.
//!
//! A dozen solutions a height are dear beside a plan of a drag, so this is asked once the finger has let go
//! (docs/decisions/0011-one-verdict.md).

use super::air;
use super::findings::no_structure;
use super::parts::Part;
use super::rose::{Height, bearings, blows_to};
use super::search::{Search, Windy};
use super::standing::Standing;
use super::types::{MastHeight, MastPart, PartKind};
use crate::finding::wind::{Collapse, WindRemedy, WindRule};
use crate::finding::{Finding, Limit, Quantity, Severity, Subject};
use crate::source::SourceKey;
use crate::structure::{ModelError, Outcome, Reason, Solver};

/// Which ways the mast's imperfections are tried: every thirty degrees, so that three and four guys are met alike.
const DIRECTIONS: u32 = 12;

/// At most one stop finding a height, and none of the lowered mast that says the same as of the raised one. `spent` is
/// told what it cost ([`Solver::spent`]).
pub(super) fn still_air(heights: &[Height; 2], spent: &mut u64) -> Vec<Finding> {
    let mut found: Vec<Finding> = Vec::new();
    for (standing, parts) in heights {
        let finding = at_height(standing, parts, spent).unwrap_or_else(|error| Some(no_structure(&error)));
        let known = |finding: &Finding| found.iter().any(|other| other.is_about_the_same(finding));
        found.extend(finding.filter(|finding| !known(finding)));
    }
    found
}

fn at_height(standing: &Standing, parts: &[Part], spent: &mut u64) -> Result<Option<Finding>, ModelError> {
    let route = air::route(standing.job);
    let mut search: Option<Search> = None;
    for from_deg in bearings(DIRECTIONS) {
        let mut windy = Windy::new(standing, &route, blows_to(from_deg))?;
        let search = search.get_or_insert_with(|| Search::new(parts, &mut windy));
        let before = search.spent();
        let tried = search.begin(&mut windy);
        *spent += search.spent() - before;
        if tried.utilisation < 1.0 {
            continue;
        }
        if tried.utilisation.is_infinite() {
            windy.loads.set(&mut windy.case, 0.0);
            if let Outcome::Unstable(fallen) = Solver::new(&windy.model).solve(&windy.model, &windy.case) {
                return Ok(Some(falls(standing.height, collapse(fallen.reason))));
            }
        }
        return Ok(parts.get(tried.part).map(|part| overloaded(part, tried.utilisation, standing.height)));
    }
    Ok(None)
}

/// Why it does not stand, as a finding and a table have it.
pub(super) fn collapse(reason: Reason) -> Collapse {
    match reason {
        Reason::LeansAway => Collapse::LeansAway,
        Reason::Buckles => Collapse::Buckles,
        Reason::NotSettled => Collapse::NotSettled,
    }
}

fn falls(height: MastHeight, because: Collapse) -> Finding {
    let rule = WindRule::StandsNotInStillAir { lowered: height == MastHeight::Lowered, because };
    let finding = Finding::rule_of_thumb(Severity::Stop, rule, Subject::Mast, WindRemedy::AnchorsAllRound);
    Finding { source: SourceKey::Geometry, ..finding }
}

fn overloaded(part: &Part, utilisation: f64, height: MastHeight) -> Finding {
    let (name, lowered) = (part.part.name.clone(), height == MastHeight::Lowered);
    let rule = WindRule::OverloadedInStillAir { part: name, lowered };
    Finding {
        measured: utilisation.is_finite().then_some(Quantity::Ratio { value: utilisation }),
        limit: Limit::at_most(Quantity::Ratio { value: 1.0 }),
        source: part.source().unwrap_or(SourceKey::CommonPractice),
        ..Finding::rule_of_thumb(Severity::Stop, rule, stands_with(&part.part), relief(part.part.kind))
    }
}

/// Where the part is entered: who follows the finding must find the field that changes it.
fn stands_with(part: &MastPart) -> Subject {
    use PartKind::{BaseSliding, BaseTimber, BaseTurning, Foot, Ground, Strands, Timber};
    match (&part.guy, part.kind) {
        (Some(id), _) => Subject::Guy { id: id.clone() },
        (None, Timber | BaseTimber | Foot | Ground | BaseSliding | BaseTurning) => Subject::Base,
        (None, Strands) => Subject::Ring,
        _ => Subject::Mast,
    }
}

fn relief(kind: PartKind) -> WindRemedy {
    match kind {
        PartKind::Ground => WindRemedy::RelieveGround,
        PartKind::BaseTimber => WindRemedy::RelieveBaseTimber,
        PartKind::Timber => WindRemedy::RelieveFootTimber,
        _ => WindRemedy::RelievePart,
    }
}
