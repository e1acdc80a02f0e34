//! Why a disk refused, and what helps. The engine touches no disk: the faces say which of these it was.

/// What stands between the work and the disk.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum DiskRefusal {
    /// No room left, on the disk or of what this user may have.
    Full,
    /// The system lets no file grow that large here.
    TooLarge,
    /// Nothing can be written to this disk at all.
    ReadOnly,
    /// This user may not.
    NotAllowed,
    /// A file stands where a folder should be, or a folder where a file should be.
    InTheWay,
    /// Not there, or no more.
    NotThere,
    /// Another program has it.
    InUse,
    /// The disk itself failed, or something that nobody foresaw.
    Failed,
}

/// What it was and what helps, to stand after a colon.
pub fn disk_refusal(refusal: DiskRefusal) -> &'static str {
    match refusal {
        DiskRefusal::Full => "there is no room left there. Delete or move away what nobody needs",
        DiskRefusal::TooLarge => {
            "the system lets no file grow that large there. Make room, or choose another folder"
        }
        DiskRefusal::ReadOnly => {
            "this disk can be read but not written. A card may be locked by its slider, a disk may be failing: save to \
             another one"
        }
        DiskRefusal::NotAllowed => {
            "you may not do that there. The folder or file belongs to somebody else or is locked: unlock it, or choose \
             another folder"
        }
        DiskRefusal::InTheWay => "something else of that name is in the way. Rename it",
        DiskRefusal::NotThere => {
            "it is not there, or is there no more. Was the folder moved, or the disk taken out?"
        }
        DiskRefusal::InUse => "another program has it. Close that first",
        DiskRefusal::Failed => "the disk or the system failed",
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_full_disk_and_a_locked_one_need_different_things() {
        assert!(disk_refusal(DiskRefusal::Full).contains("no room left"));
        assert!(disk_refusal(DiskRefusal::ReadOnly).contains("not written"));
        assert!(disk_refusal(DiskRefusal::NotAllowed).contains("belongs to somebody else"));
    }
}
