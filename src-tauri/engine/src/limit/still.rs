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
use crate::finding::{Finding, Quantity, Severity, Subject};
use crate::source::SourceKey;
use crate::structure::{ModelError, Outcome, Solver};

/// Which ways the mast's imperfections are tried: every thirty degrees, so that three and four guys are met alike.
const DIRECTIONS: u32 = 12;

/// The rule of a mast that does not stand in still air.
pub const FALLS: &str = "stands_not_in_still_air";

/// The rule of a part that bears too much in still air.
pub const OVERLOADED: &str = "overloaded_in_still_air";

/// At most one stop finding a height, and none of the lowered mast that says the same as of the raised one. `spent` is
/// told what it cost ([`Solver::spent`]).
pub(super) fn still_air(heights: &[Height; 2], spent: &mut u64) -> Vec<Finding> {
    let mut found: Vec<Finding> = Vec::new();
    for (standing, parts) in heights {
        let finding = at_height(standing, parts, spent).unwrap_or_else(|error| Some(no_structure(&error)));
        let known = |finding: &Finding| {
            found.iter().any(|other| (&other.rule, &other.subject) == (&finding.rule, &finding.subject))
        };
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
                return Ok(Some(falls(standing.height, fallen.reason.sentence())));
            }
        }
        return Ok(parts.get(tried.part).map(|part| overloaded(part, tried.utilisation, standing.height)));
    }
    Ok(None)
}

fn how(height: MastHeight) -> &'static str {
    match height {
        MastHeight::Raised => "raised",
        MastHeight::Lowered => "lowered",
    }
}

fn falls(height: MastHeight, reason: &str) -> Finding {
    Finding {
        severity: Severity::Stop,
        rule: FALLS.into(),
        subject: Subject::Mast,
        against: None,
        sentence: format!("The mast does not stand even in still air, {}. {reason}", how(height)),
        measured: None,
        measured_half_width_95: None,
        limit: None,
        source: SourceKey::Geometry,
        remedy: "Set the anchors all round the mast, and rope and tension so that the guys hold it.".into(),
    }
}

fn overloaded(part: &Part, utilisation: f64, height: MastHeight) -> Finding {
    Finding {
        severity: Severity::Stop,
        rule: OVERLOADED.into(),
        subject: stands_with(&part.part),
        against: None,
        sentence: format!(
            "Even in still air more than it may carry rests on: {}, mast {}.",
            part.part.name,
            how(height)
        ),
        measured: utilisation.is_finite().then_some(Quantity::Ratio { value: utilisation }),
        measured_half_width_95: None,
        limit: Some(Quantity::Ratio { value: 1.0 }),
        source: part.source().unwrap_or(SourceKey::CommonPractice),
        remedy: relief(part.part.kind).into(),
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

fn relief(kind: PartKind) -> &'static str {
    match kind {
        PartKind::Ground => {
            "Put boards under the feet and under the joint, larger ones where there are some, set the guys less tight, or \
             hang less on the mast."
        }
        PartKind::BaseTimber => {
            "Pack a board tight under the joint, take thicker timbers, set the guys less tight, or hang less on the mast."
        }
        PartKind::Timber => {
            "Put a larger or thicker plate under the mast's foot, set the guys less tight, or hang less on the mast."
        }
        _ => "Set the guys less tight, take a stronger part, or hang less on the mast.",
    }
}
