//! What can be wrong with a guy.

use super::layout::NoAnchor;
use crate::finding::{Finding, Quantity, Severity, Subject};
use crate::ground::Ground;
use crate::guys::GuyResult;
use crate::job::{AnchorRule, GuyLevel};
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

fn angle(guy: &GuyResult) -> Option<Finding> {
    let (severity, rule, limit_deg, sentence, remedy) = if guy.angle_deg <= 0.0 {
        (
            Severity::Stop,
            "guy_does_not_rise",
            FLATTEST_DEG,
            "The anchor is as high as the guy's attachment, so the guy can't hold the mast down.",
            "Move the anchor downhill or raise the attachment.",
        )
    } else if guy.angle_deg > STEEPEST_DEG {
        (
            Severity::Caution,
            "guy_steep",
            STEEPEST_DEG,
            "This guy is steep: it must pull much harder to hold the same wind, and presses the mast down.",
            "Move its anchor farther out; as far out as the attachment is high gives 45° on level ground.",
        )
    } else if guy.angle_deg < FLATTEST_DEG {
        (
            Severity::Caution,
            "guy_flat",
            FLATTEST_DEG,
            "This guy lies flat: it takes up a lot of yard, sags more and is easily tripped over.",
            "Move its anchor nearer to the mast, or mark the rope where people walk.",
        )
    } else {
        return None;
    };
    Some(Finding {
        severity,
        rule: rule.into(),
        subject: Subject::Guy { id: guy.id.clone() },
        against: None,
        sentence: sentence.into(),
        measured: Some(Quantity::AngleDeg { value: guy.angle_deg }),
        measured_half_width_95: None,
        limit: Some(Quantity::AngleDeg { value: limit_deg }),
        source: SourceKey::CommonPractice,
        remedy: remedy.into(),
    })
}

/// Whether the hanging rope dips into the ground between its ends.
fn rubs(guy: &GuyResult, ground: &Ground) -> Option<Finding> {
    let inner = guy.rope.get(1..guy.rope.len().saturating_sub(1))?;
    let depth_m = inner.iter().map(|p| ground.height([p[0], p[1]]) - p[2]).max_by(f64::total_cmp)?;
    (depth_m > RUBS_M).then(|| Finding {
        severity: Severity::Caution,
        rule: "guy_on_ground".into(),
        subject: Subject::Guy { id: guy.id.clone() },
        against: Some(Subject::Ground),
        sentence: "The ground rises into this guy's line between the mast and its anchor.".into(),
        measured: Some(Quantity::LengthM { value: depth_m }),
        measured_half_width_95: None,
        limit: Some(Quantity::LengthM { value: 0.0 }),
        source: SourceKey::Geometry,
        remedy: "Turn the guys, move this anchor, or raise the rope's lower end.".into(),
    })
}

/// A guy that has no anchor and is therefore missing from the plan.
pub fn no_anchor(id: String, reason: NoAnchor) -> Finding {
    let (sentence, remedy) = match reason {
        NoAnchor::RopeNeverMeetsGround => (
            "At this angle the guy never comes down to the ground, which falls away too steeply; it is left out.",
            "Choose a steeper angle, or place this level's anchors by distance.",
        ),
        NoAnchor::GroundAboveAttachment => (
            "The ground beside the mast is above this guy's attachment; the guy is left out.",
            "Raise the attachment or stand the mast elsewhere.",
        ),
        NoAnchor::UnderCollar => (
            "This anchor is right under the mast's collar, so there is no room for a guy; it is left out.",
            "Move the anchor out from the mast.",
        ),
    };
    Finding {
        severity: Severity::Stop,
        rule: "guy_without_anchor".into(),
        subject: Subject::Guy { id },
        against: None,
        sentence: sentence.into(),
        measured: None,
        measured_half_width_95: None,
        limit: None,
        source: SourceKey::Geometry,
        remedy: remedy.into(),
    }
}

/// A tension that can't hold its own rope up.
pub fn tension_too_small(guy: &GuyResult, tension_n: f64) -> Finding {
    Finding {
        severity: Severity::Stop,
        rule: "guy_tension_too_small".into(),
        subject: Subject::Guy { id: guy.id.clone() },
        against: None,
        sentence:
            "The set tension can't hold up the rope's own weight over this distance; a slack rope is shown \
                   instead, and its lengths are not for cutting."
                .into(),
        measured: Some(Quantity::ForceN { value: tension_n }),
        measured_half_width_95: None,
        limit: None,
        source: SourceKey::Irvine1981,
        remedy: "Set more tension, or use a lighter rope.".into(),
    }
}

/// Free anchors that leave too wide a gap in plan.
pub fn one_sided(level: &GuyLevel, guys: &[GuyResult]) -> Option<Finding> {
    if !matches!(level.anchors, AnchorRule::Free { .. }) || guys.is_empty() {
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
    Finding {
        severity: if open { Severity::Stop } else { Severity::Caution },
        rule: if open { "guys_leave_a_side_open" } else { "guys_far_apart" }.into(),
        subject: Subject::Guy { id: id.into() },
        against: None,
        sentence: if open {
            "All guys of this level pull to one side: nothing holds the mast from falling away from them."
        } else {
            "The gap clockwise of this guy is wide: wind from there loads the two guys beside it heavily."
        }
        .into(),
        measured: Some(Quantity::AngleDeg { value: widest_deg }),
        measured_half_width_95: None,
        limit: Some(Quantity::AngleDeg { value: if open { OPEN_GAP_DEG } else { WIDEST_GAP_DEG } }),
        source: if open { SourceKey::Geometry } else { SourceKey::CommonPractice },
        remedy: "Spread the anchors more evenly round the mast.".into(),
    }
}
