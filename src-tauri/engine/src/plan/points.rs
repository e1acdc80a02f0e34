//! Every point that a job fixes: those of the yard and the free anchors once, the mast's for each of its places.

use super::checked::found_yard;
use super::fixes::{FixedPoint, fix_of_the_mast, fixes_but_the_masts};
use super::open;
use super::surveyed::Surveyed;
use super::{LocatedPoint, OpenPoint};
use crate::finding::document::{DocumentRemedy, DocumentRule};
use crate::finding::{Finding, Severity, Subject};
use crate::job::Job;
use crate::quantity::FieldErrors;
use crate::yard::place::FoundYard;

/// All points of a job but its mast's, what is doubtful about them, and the yard in its place: the same wherever the mast is put.
#[derive(Debug, Clone)]
pub struct FixedPoints {
    located: Vec<LocatedPoint>,
    open: Vec<OpenPoint>,
    /// What is doubtful about the readings, and about how single points hang on them.
    doubts: Vec<Finding>,
    long_chains: Vec<Finding>,
    /// The yard with its points found.
    pub(super) yard: Result<FoundYard, FieldErrors>,
}

impl FixedPoints {
    pub fn of(surveyed: &Surveyed, job: &Job) -> Self {
        let fixes = fixes_but_the_masts(job);
        let mut doubts: Vec<Finding> = job.has_newer_fields().then(newer_fields).into_iter().collect();
        doubts.extend(surveyed.findings.iter().cloned());
        doubts.extend(fixes.iter().flat_map(|point| surveyed.geometry(point)));
        Self {
            located: fixes.iter().filter_map(|point| surveyed.located(point)).collect(),
            open: fixes.iter().filter_map(|point| surveyed.open(point)).collect(),
            doubts,
            long_chains: surveyed.long_chains(job),
            yard: found_yard(surveyed, job),
        }
    }

    /// What is doubtful about them, wherever the mast stands.
    pub fn findings(&self) -> Vec<Finding> {
        let doubts = self.doubts.iter().chain(&self.long_chains).cloned();
        doubts.chain(open::findings(&self.open)).collect()
    }

    /// With the mast where the job has it now.
    pub(super) fn with_mast(&self, surveyed: &Surveyed, job: &Job) -> Points {
        let mast: FixedPoint = fix_of_the_mast(job);
        let open: Vec<OpenPoint> = self.open.iter().cloned().chain(surveyed.open(&mast)).collect();
        let mut findings = self.doubts.clone();
        findings.extend(surveyed.geometry(&mast));
        findings.extend(self.long_chains.iter().cloned());
        findings.extend(open::findings(&open));
        let located = self.located.iter().cloned().chain(surveyed.located(&mast)).collect();
        Points { located, open, findings }
    }
}

/// Every point that a job fixes.
#[derive(Debug, Clone)]
pub(super) struct Points {
    pub located: Vec<LocatedPoint>,
    pub open: Vec<OpenPoint>,
    pub findings: Vec<Finding>,
}

/// Entries that nobody looks at may be any that matters.
fn newer_fields() -> Finding {
    let (rule, remedy) = (DocumentRule::NewerFields, DocumentRemedy::UpdateTheApp);
    Finding::rule_of_thumb(Severity::Unchecked, rule, Subject::Job, remedy)
}
