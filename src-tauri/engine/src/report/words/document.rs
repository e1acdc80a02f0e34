//! The job's document as a whole.

use crate::finding::document::{DocumentRemedy, DocumentRule};

pub(super) fn sentence(rule: &DocumentRule) -> &'static str {
    match rule {
        DocumentRule::NewerFields => {
            "A newer Mastwright saved this job and may have added entries. They are kept, but this one does not look at \
             them."
        }
    }
}

pub(super) fn remedy(remedy: &DocumentRemedy) -> &'static str {
    match remedy {
        DocumentRemedy::UpdateTheApp => "Update this Mastwright before you build from the plan.",
    }
}
