//! What can be wrong with a guy.

use super::MadeFast;
use super::fixing::NoFixing;
use super::layout::NoAnchor;
use crate::finding::guys::{GuyRemedy, GuyRule};
use crate::finding::yard::Thing;
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
    let found = [angle(guy), rubs(guy, ground)].into_iter().flatten();
    found.chain(guy.made_fast.iter().flat_map(|thing| to_thing(guy, thing))).collect()
}

/// Nothing but what somebody said shows that a thing of the yard holds; of a tree the ground's movement in the wind comes on
/// top. Common practice.
fn to_thing(guy: &GuyResult, to: &MadeFast) -> Vec<Finding> {
    let name = || to.name.clone();
    let remedy = match to.kind {
        Thing::Tree => GuyRemedy::BandRoundTheTree,
        _ => GuyRemedy::OwnerAndLicensedPerson,
    };
    let against = Some(Subject::Obstacle { id: to.thing.clone() });
    let rule = GuyRule::MadeFastToThing { thing: to.kind, name: name() };
    let mut found = vec![Finding { against: against.clone(), ..about(guy, Severity::Caution, rule, remedy) }];
    if to.holds_n.is_none() {
        let rule = GuyRule::FixingHoldUnknown { name: name() };
        let about = about(guy, Severity::Unchecked, rule, GuyRemedy::EnterWhatItHolds);
        found.push(Finding { against, ..about });
    }
    found
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

/// A guy that can't be made fast to the thing that was chosen, and is therefore missing from the plan.
pub fn no_fixing(id: String, because: NoFixing) -> Finding {
    let remedy = match because {
        NoFixing::NoLeave | NoFixing::NothingStands => GuyRemedy::GiveLeaveOrGround,
        NoFixing::PlaceNotKnown => GuyRemedy::NameTheThingsSide,
        NoFixing::AboveThing => GuyRemedy::FixLowerOrGround,
        NoFixing::Missed => GuyRemedy::TurnGuysOrAnotherThing,
        NoFixing::AtMast | NoFixing::TooFar => GuyRemedy::StandElsewhereOrGround,
        NoFixing::NoSuchGuy => GuyRemedy::ChooseAnotherGuy,
    };
    let rule = GuyRule::WithoutFixing { because };
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

/// Free anchors, or one on a thing of the yard, that leave too wide a gap in plan.
pub fn one_sided(level: &GuyLevel, guys: &[GuyResult]) -> Option<Finding> {
    let is_free = matches!(level.anchor_layout, AnchorLayout::Free { .. });
    let may_be_uneven = is_free || guys.iter().any(|guy| guy.made_fast.is_some());
    if !may_be_uneven || guys.is_empty() {
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

#[cfg(test)]
mod tests {
    use super::*;
    use crate::ground::Plane;
    use crate::{demo, plan};

    fn guy() -> GuyResult {
        plan::compute(&demo::yardstick()).unwrap().plan.guys[0].clone()
    }

    fn deg(value: f64) -> Quantity {
        Quantity::AngleDeg { value }
    }

    /// Common practice: 25° to 60°; what does not rise at all stops.
    #[test]
    fn an_angle_is_held_against_its_limit() {
        let found = |angle_deg: f64| angle(&GuyResult { angle_deg, ..guy() });
        for (angle_deg, severity, rule, limit) in [
            (-3.0, Severity::Stop, GuyRule::DoesNotRise, Limit::at_least(deg(25.0))),
            (0.0, Severity::Stop, GuyRule::DoesNotRise, Limit::at_least(deg(25.0))),
            (24.9, Severity::Caution, GuyRule::Flat, Limit::at_least(deg(25.0))),
            (60.1, Severity::Caution, GuyRule::Steep, Limit::at_most(deg(60.0))),
        ] {
            let finding = found(angle_deg).unwrap();
            assert_eq!((finding.severity, &finding.rule), (severity, &rule.into()), "{angle_deg}");
            assert_eq!((finding.measured, finding.limit), (Some(deg(angle_deg)), limit), "{angle_deg}");
            assert_eq!(finding.subject, Subject::Guy { id: guy().id });
        }
        for good_deg in [25.0, 45.0, 60.0] {
            assert!(found(good_deg).is_none(), "{good_deg}");
        }
    }

    /// On level ground a rope rubs that is more than a centimetre under it anywhere but at its ends.
    #[test]
    fn a_rope_under_the_ground_rubs() {
        let plane = Plane { height_0_m: 0.0, gradient: [0.0; 2], covariance: [[0.0; 3]; 3] };
        let ground = Ground { plane, surface: None };
        let hanging = |middle_m: [f64; 3]| {
            let at = |(i, z): (usize, f64)| [i as f64, 0.0, z];
            let rope = [-0.2, middle_m[0], middle_m[1], middle_m[2], 3.0];
            rubs(&GuyResult { rope: rope.into_iter().enumerate().map(at).collect(), ..guy() }, &ground)
        };
        let finding = hanging([0.1, -0.03, 0.4]).unwrap();
        assert_eq!(finding.measured, Some(Quantity::LengthM { value: 0.03 }));
        assert_eq!(finding.limit, Limit::at_most(Quantity::LengthM { value: 0.0 }));
        assert_eq!((finding.against, finding.source), (Some(Subject::Ground), SourceKey::Geometry));
        assert_eq!(finding.severity, Severity::Caution);
        assert!(hanging([0.1, -0.009, 0.4]).is_none() && hanging([-0.02, 0.3, 0.4]).is_some());
    }

    #[test]
    fn a_guy_without_an_anchor_stops_by_geometry_and_one_too_slack_by_its_catenary() {
        let finding = no_anchor("g-1".into(), NoAnchor::UnderCollar);
        assert_eq!((finding.severity, finding.source), (Severity::Stop, SourceKey::Geometry));
        assert_eq!(finding.subject, Subject::Guy { id: "g-1".into() });
        assert_eq!(finding.remedy, GuyRemedy::AnchorOutFromMast.into());
        let finding = tension_too_small(&guy(), 4.0);
        assert_eq!((finding.severity, finding.source), (Severity::Stop, SourceKey::Irvine1981));
        assert_eq!(finding.measured, Some(Quantity::ForceN { value: 4.0 }));
    }

    /// Anchors put freely: 120° each is even; a gap of more than 150° is told, one of 180° and more stops. It is named by the
    /// guy before it, going clockwise, wherever north lies.
    #[test]
    fn the_widest_gap_in_plan_is_told() {
        let mut level = demo::yardstick().rig.guy_levels[0].clone();
        level.anchor_layout = AnchorLayout::Free { anchors: Vec::new() };
        let found = |azimuths_deg: &[f64]| {
            let guys: Vec<GuyResult> = azimuths_deg
                .iter()
                .map(|&azimuth_deg| GuyResult { azimuth_deg, id: format!("at {azimuth_deg}"), ..guy() })
                .collect();
            one_sided(&level, &guys)
        };
        assert!(found(&[0.0, 120.0, 240.0]).is_none() && found(&[10.0, 160.0, 300.0]).is_none());
        for (azimuths_deg, severity, widest_deg, most_deg, source, id) in [
            (&[0.0, 100.0, 200.0][..], Severity::Caution, 160.0, 150.0, SourceKey::CommonPractice, "at 200"),
            (&[300.0, 40.0, 140.0], Severity::Caution, 160.0, 150.0, SourceKey::CommonPractice, "at 140"),
            (&[0.0, 90.0, 180.0], Severity::Stop, 180.0, 180.0, SourceKey::Geometry, "at 180"),
            (&[350.0, 20.0, 80.0], Severity::Stop, 270.0, 180.0, SourceKey::Geometry, "at 80"),
            (&[70.0], Severity::Stop, 360.0, 180.0, SourceKey::Geometry, "at 70"),
        ] {
            let finding = found(azimuths_deg).unwrap();
            assert_eq!((finding.severity, finding.source), (severity, source), "{azimuths_deg:?}");
            assert_eq!(finding.measured, Some(deg(widest_deg)), "{azimuths_deg:?}");
            assert_eq!(finding.limit, Limit::at_most(deg(most_deg)), "{azimuths_deg:?}");
            assert_eq!(finding.subject, Subject::Guy { id: id.into() });
        }
    }
}
