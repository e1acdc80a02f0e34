//! Anchors so near to each other that one loosens the ground of the other: they hold no more than one of them.

use super::shared::{self, grouped};
use crate::finding::guys::{GuyRemedy, GuyRule};
use crate::finding::{Finding, Limit, Quantity, Severity, Subject};
use crate::guys::GuyResult;
use crate::job::{AnchorKind, GuyLevel, SoilFeel};
use crate::source::SourceKey;

/// How many breadths apart, middle to middle, anchors stand at least, in this soil.
///
/// # References
/// 3 diameters (a maker's manual of helical anchors, p. 40); 5 in dense sand (Shaheen & Demars 1995). Where the soil is
/// neither clay nor known, the larger one.
fn breadths_apart(soil: SoilFeel) -> (f64, SourceKey) {
    match soil {
        SoilFeel::Clay { .. } | SoilFeel::Loam => (3.0, SourceKey::HelixManual),
        _ => (5.0, SourceKey::ScrewSpacing),
    }
}

/// How far apart two anchors stand at least, where a rule says; none where they have no breadth to go by.
///
/// Plates influence each other as helices do (Kouzer & Kumar 2009, by its abstract); a buried log by the height of its
/// face, beside its length (common practice).
pub fn needed_m(a: &AnchorKind, b: &AnchorKind, soil: SoilFeel) -> Option<(f64, SourceKey)> {
    let (breadths, source) = breadths_apart(soil);
    let reach_m = |anchor: &AnchorKind| match *anchor {
        AnchorKind::Screw { helix_mm, .. } => helix_mm.map(|mm| breadths * mm / 1000.0),
        AnchorKind::Plate { side_m, .. } => Some(breadths * side_m),
        AnchorKind::Deadman { length_m, face_m, .. } => Some(length_m + breadths * face_m),
        AnchorKind::Unknown
        | AnchorKind::Pickets { .. }
        | AnchorKind::Stake { .. }
        | AnchorKind::Ballast { .. } => None,
    };
    match (reach_m(a), reach_m(b)) {
        (Some(a), Some(b)) => Some((a.max(b), source)),
        (Some(one), None) | (None, Some(one)) => Some((one, source)),
        (None, None) => None,
    }
}

/// How far apart the anchors of two guys stand at least.
fn needed_by(a: &GuyResult, b: &GuyResult, levels: &[GuyLevel], soil: SoilFeel) -> Option<(f64, SourceKey)> {
    if a.made_fast.is_some() || b.made_fast.is_some() {
        return None;
    }
    let anchor = |guy: &GuyResult| levels.iter().find(|level| level.id == guy.level_id).map(|it| it.anchor);
    needed_m(&anchor(a)?, &anchor(b)?, soil)
}

/// The guys of each anchor, and of anchors too near to each other to count twice, by their places in the list.
pub fn counted_once(guys: &[&GuyResult], levels: &[GuyLevel], soil: SoilFeel) -> Vec<Vec<usize>> {
    grouped(guys.len(), |a, b| {
        let (Some(a), Some(b)) = (guys.get(a), guys.get(b)) else { return false };
        let too_near =
            || needed_by(a, b, levels, soil).is_some_and(|(needed_m, _)| shared::apart_m(a, b) < needed_m);
        shared::is_one(a, b) || on_one_thing(a, b) || too_near()
    })
}

/// What a thing of the yard holds is said of all guys on it together.
fn on_one_thing(a: &GuyResult, b: &GuyResult) -> bool {
    a.made_fast.as_ref().zip(b.made_fast.as_ref()).is_some_and(|(a, b)| a.thing == b.thing)
}

/// Anchors that stand too near to each other: each pair once.
pub fn findings(guys: &[GuyResult], levels: &[GuyLevel], soil: SoilFeel) -> Vec<Finding> {
    let anchors: Vec<&GuyResult> = guys.iter().filter(|guy| guy.tells_of_anchor(guys)).collect();
    let pairs = anchors
        .iter()
        .enumerate()
        .flat_map(|(place, a)| anchors.iter().skip(place + 1).map(move |b| (*a, *b)));
    let too_near = |(a, b): (&GuyResult, &GuyResult)| {
        let (limit_m, source) = needed_by(a, b, levels, soil)?;
        let apart_m = shared::apart_m(a, b);
        (apart_m < limit_m).then(|| finding(a, b, apart_m, limit_m, source))
    };
    pairs.filter_map(too_near).collect()
}

fn finding(a: &GuyResult, b: &GuyResult, apart_m: f64, limit_m: f64, source: SourceKey) -> Finding {
    let rule = GuyRule::AnchorsTooNear { guys: [a.name.clone(), b.name.clone()] };
    let subject = Subject::Guy { id: a.id.clone() };
    Finding {
        against: Some(Subject::Guy { id: b.id.clone() }),
        measured: Some(Quantity::LengthM { value: apart_m }),
        limit: Limit::at_least(Quantity::LengthM { value: limit_m }),
        source,
        ..Finding::rule_of_thumb(Severity::Caution, rule, subject, GuyRemedy::OneFartherOrShared)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::job::ScrewShaft;

    /// Three breadths in loam, five where the soil is not known: a plate of 0.3 m, a helix of 150 mm, a log 1.2 m long with a
    /// face of 0.2 m. Of two different ones the wider asks; a picket asks for nothing.
    #[test]
    fn so_many_breadths_apart() {
        let plate = AnchorKind::Plate { side_m: 0.3, depth_m: 0.8 };
        let screw = AnchorKind::Screw {
            shaft: ScrewShaft::Round,
            shaft_mm: 19.0,
            torque_nm: None,
            helix_mm: Some(150.0),
            depth_m: Some(1.0),
        };
        let log = AnchorKind::Deadman { length_m: 1.2, face_m: 0.2, is_log: true, depth_m: 0.9 };
        let needed = |a, b, soil| needed_m(a, b, soil).map(|(m, _)| m);
        for (kind, loam_m, unknown_m) in [(&plate, 0.9, 1.5), (&screw, 0.45, 0.75), (&log, 1.8, 2.2)] {
            let [in_loam, in_unknown] =
                [SoilFeel::Loam, SoilFeel::Unknown].map(|soil| needed(kind, kind, soil));
            assert!((in_loam.unwrap() - loam_m).abs() < 1e-12, "{kind:?}");
            assert!((in_unknown.unwrap() - unknown_m).abs() < 1e-12, "{kind:?}");
        }
        assert_eq!(needed(&plate, &log, SoilFeel::Loam), needed(&log, &log, SoilFeel::Loam));
        assert_eq!(
            needed(&AnchorKind::Unknown, &plate, SoilFeel::Loam),
            needed(&plate, &plate, SoilFeel::Loam)
        );
        assert_eq!(needed(&AnchorKind::Unknown, &AnchorKind::Unknown, SoilFeel::Loam), None);
    }

    /// Plates of 30 cm in clay stand 90 cm apart at least, by the maker's manual; in gravel 1.5 m, by the tests of screws.
    #[test]
    fn anchors_too_near_are_told_by_their_rule() {
        let job = crate::demo::yardstick();
        let mut level = job.rig.guy_levels[0].clone();
        level.anchor = AnchorKind::Plate { side_m: 0.3, depth_m: 0.8 };
        let guy = crate::plan::compute(&job).unwrap().plan.guys[0].clone();
        let at = |id: &str, east_m: f64| GuyResult {
            id: id.into(),
            name: id.into(),
            east_m,
            north_m: 0.0,
            eye: [east_m, 0.0, guy.eye[2]],
            ..guy.clone()
        };
        let found = |apart_m: f64, soil: SoilFeel| {
            findings(&[at("a", 0.0), at("b", apart_m), at("c", 50.0)], std::slice::from_ref(&level), soil)
        };
        let clay = SoilFeel::Clay { feel: crate::anchor::soil::ClayFeel::Firm };
        for (soil, limit_m, source) in
            [(clay, 0.9, SourceKey::HelixManual), (SoilFeel::Gravel, 1.5, SourceKey::ScrewSpacing)]
        {
            assert!(found(limit_m + 0.01, soil).is_empty());
            let [finding] = &found(limit_m - 0.1, soil)[..] else { panic!("one pair") };
            assert_eq!((finding.severity, finding.source), (Severity::Caution, source));
            assert_eq!(finding.subject, Subject::Guy { id: "a".into() });
            assert_eq!(finding.against, Some(Subject::Guy { id: "b".into() }));
            let Some(Quantity::LengthM { value }) = finding.measured else { panic!("a length") };
            assert!((value - limit_m + 0.1).abs() < 1e-9);
            let limit = finding.limit.as_ref().map(|limit| limit.quantity);
            let Some(Quantity::LengthM { value }) = limit else { panic!("a limit") };
            assert!((value - limit_m).abs() < 1e-9);
        }
    }
}
