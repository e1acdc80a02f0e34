//! The points of a stake-out by their keys, and the stages in which they are set.

use super::PegStage;
use crate::finding::Subject;
use crate::guys::shared::ONE_PEG_M;
use crate::job::Job;
use crate::numerics::real::hypot;
use crate::plan::Computed;
use crate::raising::as_said;

/// A peg to be set.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct PegPlace {
    pub key: String,
    pub subject: Subject,
    pub name: String,
    pub stage: PegStage,
    pub at: [f64; 2],
    /// Its place is the measured one of what stands.
    pub as_built: bool,
}

/// The key by which a peg is named in the job; none of what is no peg.
pub(super) fn key(subject: &Subject) -> Option<String> {
    Some(match subject {
        Subject::Mast => "mast".to_owned(),
        Subject::Leg { id } => format!("leg:{id}"),
        Subject::Guy { id } => format!("guy:{id}"),
        Subject::Stake { id } => format!("stake:{id}"),
        Subject::Mark { id } => format!("mark:{id}"),
        _ => return None,
    })
}

/// Everything to be pegged out, in the order of the plan's list; last the temporary stakes of an edge that is the hinge.
pub(super) fn places(job: &Job, computed: &Computed) -> Vec<PegPlace> {
    let built = &computed.layout.placed_work;
    let measured = job.as_built.as_ref();
    let place = |peg: &crate::plan::Peg| {
        let as_built = match &peg.subject {
            Subject::Mast => measured.is_some_and(|built| built.mast.is_some()),
            Subject::Guy { id } => built.anchors.get(id).is_some_and(|anchor| anchor.at.is_some()),
            _ => false,
        };
        Some(PegPlace {
            key: key(&peg.subject)?,
            subject: peg.subject.clone(),
            name: peg.name.clone(),
            stage: stage(&peg.subject),
            at: [peg.east_m, peg.north_m],
            as_built,
        })
    };
    let mut all: Vec<PegPlace> = computed.plan.pegs.iter().filter_map(place).collect();
    let edge = as_said(job, computed).map(|way| way.temporary_stakes).unwrap_or_default();
    for (at, side) in edge.into_iter().zip(["left", "right"]) {
        // A stake of the base that stands there holds the edge, too.
        let apart_m = |place: &PegPlace| hypot(place.at[0] - at[0], place.at[1] - at[1]);
        if all.iter().any(|place| apart_m(place) < ONE_PEG_M) {
            continue;
        }
        let subject = Subject::Stake { id: format!("hinge-{side}") };
        all.push(PegPlace {
            key: format!("stake:hinge-{side}"),
            subject,
            name: format!("Stake hinge-{side}"),
            stage: PegStage::Stakes,
            at,
            as_built: false,
        });
    }
    all
}

fn stage(subject: &Subject) -> PegStage {
    match subject {
        Subject::Mast => PegStage::Mast,
        Subject::Leg { id } if id == "front" => PegStage::Front,
        Subject::Leg { .. } => PegStage::Legs,
        Subject::Guy { .. } => PegStage::Anchors,
        _ => PegStage::Stakes,
    }
}
