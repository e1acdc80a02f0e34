//! What a refusal of the disk means, in the same words on every face that has one.

use std::io::{Error, ErrorKind};
use std::path::Path;

use mastwright_engine::report::{DiskRefusal, disk_refusal};

/// What it was and what helps, with the system's own words behind for whoever looks it up.
pub fn refused(error: &Error) -> String {
    format!("{} ({error}).", disk_refusal(kind_of(error)))
}

/// The same with the path that it is about in front.
pub fn refused_at(path: &Path, error: &Error) -> String {
    format!("{}: {}", path.display(), refused(error))
}

fn kind_of(error: &Error) -> DiskRefusal {
    match error.kind() {
        ErrorKind::StorageFull | ErrorKind::QuotaExceeded => DiskRefusal::Full,
        ErrorKind::FileTooLarge => DiskRefusal::TooLarge,
        ErrorKind::ReadOnlyFilesystem => DiskRefusal::ReadOnly,
        ErrorKind::PermissionDenied => DiskRefusal::NotAllowed,
        ErrorKind::NotADirectory | ErrorKind::IsADirectory | ErrorKind::AlreadyExists => {
            DiskRefusal::InTheWay
        }
        ErrorKind::NotFound => DiskRefusal::NotThere,
        ErrorKind::WouldBlock | ErrorKind::ResourceBusy | ErrorKind::ExecutableFileBusy => DiskRefusal::InUse,
        _ => DiskRefusal::Failed,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Numbers as Linux's errno(3) lists them.
    #[cfg(target_os = "linux")]
    #[test]
    fn the_systems_numbers_are_told_apart() {
        let of = |number| kind_of(&Error::from_raw_os_error(number));
        let (enoent, eio, eacces, eexist, enotdir, efbig, enospc, erofs, edquot) =
            (2, 5, 13, 17, 20, 27, 28, 30, 122);
        assert_eq!(of(enospc), DiskRefusal::Full);
        assert_eq!(of(edquot), DiskRefusal::Full);
        assert_eq!(of(efbig), DiskRefusal::TooLarge);
        assert_eq!(of(erofs), DiskRefusal::ReadOnly);
        assert_eq!(of(eacces), DiskRefusal::NotAllowed);
        assert_eq!(of(enotdir), DiskRefusal::InTheWay);
        assert_eq!(of(eexist), DiskRefusal::InTheWay);
        assert_eq!(of(enoent), DiskRefusal::NotThere);
        assert_eq!(of(eio), DiskRefusal::Failed);
    }
}
