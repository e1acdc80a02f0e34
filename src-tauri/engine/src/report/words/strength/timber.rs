//! The base's timbers.

use crate::resistance::TimberUnshown;

pub(super) fn unshown(reason: TimberUnshown) -> &'static str {
    match reason {
        TimberUnshown::ContactSizeMissing => "The size of the contact is missing.",
        TimberUnshown::FootSizeMissing => "The size of the foot is missing.",
        TimberUnshown::FootTooSlender => {
            "The foot is too slender a post: over 50 times its side with its free head."
        }
    }
}
