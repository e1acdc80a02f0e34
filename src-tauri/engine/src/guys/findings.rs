//! What can be wrong with a guy.

use super::layout::NoAnchor;
use crate::finding::guys::{GuyRemedy, GuyRule};
use crate::finding::{Finding, Limit, Quantity, Severity, Subject};
use crate::ground::Ground;
use crate::guys::GuyResult;
use crate::job::{AnchorLayout, GuyLevel};
use crate::quantity::bearing;
use crate::source::SourceKey;

/// Steeper guys hold less sideways for the same pull and press the mast down more. Common practice: 45°, with
/// anchors seldom nearer than 60 % of the height (59°).
const STEEPEST_DEG: f64 = 60.0;
/// Flatter guys need a wide yard and are easily tripped over. Common practice.
const FLATTEST_DEG: f64 = 25.0;
/// Between neighbours in plan; 120° is even for three. Common practice.
const WIDEST_GAP_DEG: f64 = 150.0;
/// Parallel in plan: past this nothing holds the mast from falling into the gap.
const OPEN_GAP_DEG: f64 = 180.0;
/// A rope this far under the ground's surface rubs on it (a tall blade of grass does not count).
const RUBS_M: f64 = 0.01;

/// Whatever is wrong with a placed guy.
pub fn of_guy(guy: &GuyResult, ground: &Ground) -> Vec<Finding> {
    [angle(guy), rubs(guy, ground)].into_iter().flatten().collect()
}

fn about(guy: &GuyResult, severity: Severity, rule: GuyRule, remedy: GuyRemedy) -> Finding {
    Finding::rule_of_thumb(severity, rule, Subject::Guy { id: guy.id.clone() }, remedy)
}

fn angle(guy: &GuyResult) -> Option<Finding> {
    let deg = |value| Quantity::AngleDeg { value };
    let (severity, rule, limit, remedy) = if guy.angle_deg <= 0.0 {
        let remedy = GuyRemedy::AnchorDownhillOrAttachHigher;
        (Severity::Stop, GuyRule::DoesNotRise, Limit::at_least(deg(FLATTEST_DEG)), remedy)
    } else if guy.angle_deg > STEEPEST_DEG {
        let remedy = GuyRemedy::AnchorFartherOut;
        (Severity::Caution, GuyRule::Steep, Limit::at_most(deg(STEEPEST_DEG)), remedy)
    } else if guy.angle_deg < FLATTEST_DEG {
        (Severity::Caution, GuyRule::Flat, Limit::at_least(deg(FLATTEST_DEG)), GuyRemedy::AnchorNearer)
    } else {
        return None;
    };
    Some(Finding { measured: Some(deg(guy.angle_deg)), limit, ..about(guy, severity, rule, remedy) })
}

/// Whether the hanging rope dips into the ground between its ends.
fn rubs(guy: &GuyResult, ground: &Ground) -> Option<Finding> {
    let inner = guy.rope.get(1..guy.rope.len().saturating_sub(1))?;
    let depth_m = inner.iter().map(|p| ground.height([p[0], p[1]]) - p[2]).max_by(f64::total_cmp)?;
    (depth_m > RUBS_M).then(|| Finding {
        against: Some(Subject::Ground),
        measured: Some(Quantity::LengthM { value: depth_m }),
        limit: Limit::at_most(Quantity::LengthM { value: 0.0 }),
        source: SourceKey::Geometry,
        ..about(guy, Severity::Caution, GuyRule::OnGround, GuyRemedy::TurnOrRaise)
    })
}

/// A guy that has no anchor and is therefore missing from the plan.
pub fn no_anchor(id: String, because: NoAnchor) -> Finding {
    let remedy = match because {
        NoAnchor::RopeNeverMeetsGround => GuyRemedy::SteeperOrByDistance,
        NoAnchor::GroundAboveAttachment => GuyRemedy::AttachHigherOrElsewhere,
        NoAnchor::UnderCollar => GuyRemedy::AnchorOutFromMast,
    };
    let rule = GuyRule::WithoutAnchor { because };
    let finding = Finding::rule_of_thumb(Severity::Stop, rule, Subject::Guy { id }, remedy);
    Finding { source: SourceKey::Geometry, ..finding }
}

/// A tension that can't hold its own rope up.
pub fn tension_too_small(guy: &GuyResult, tension_n: f64) -> Finding {
    Finding {
        measured: Some(Quantity::ForceN { value: tension_n }),
        source: SourceKey::Irvine1981,
        ..about(guy, Severity::Stop, GuyRule::TensionTooSmall, GuyRemedy::MoreTensionOrLighterRope)
    }
}

/// Free anchors that leave too wide a gap in plan.
pub fn one_sided(level: &GuyLevel, guys: &[GuyResult]) -> Option<Finding> {
    if !matches!(level.anchors, AnchorLayout::Free { .. }) || guys.is_empty() {
        return None;
    }
    let mut azimuths: Vec<(f64, &str)> = guys.iter().map(|g| (g.azimuth_deg, g.id.as_str())).collect();
    azimuths.sort_by(|a, b| a.0.total_cmp(&b.0));
    let after = azimuths.iter().cycle().skip(1);
    let gap = |(a, b): (&(f64, &str), &(f64, &str))| {
        let turn = bearing::wrap_360(b.0 - a.0);
        if turn == 0.0 && azimuths.len() == 1 { 360.0 } else { turn }
    };
    let (widest_deg, id) =
        azimuths.iter().zip(after).map(|pair| (gap(pair), pair.0.1)).max_by(|a, b| a.0.total_cmp(&b.0))?;
    (widest_deg > WIDEST_GAP_DEG).then(|| one_sided_finding(widest_deg, id))
}

fn one_sided_finding(widest_deg: f64, id: &str) -> Finding {
    let open = widest_deg >= OPEN_GAP_DEG - 1e-9;
    let (severity, rule, most_deg, source) = if open {
        (Severity::Stop, GuyRule::LeaveASideOpen, OPEN_GAP_DEG, SourceKey::Geometry)
    } else {
        (Severity::Caution, GuyRule::FarApart, WIDEST_GAP_DEG, SourceKey::CommonPractice)
    };
    Finding {
        measured: Some(Quantity::AngleDeg { value: widest_deg }),
        limit: Limit::at_most(Quantity::AngleDeg { value: most_deg }),
        source,
        ..Finding::rule_of_thumb(severity, rule, Subject::Guy { id: id.into() }, GuyRemedy::SpreadAnchors)
    }
}
