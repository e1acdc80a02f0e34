//! What happens where the disk is full or locked, the clock goes back, or two programs want one job.

use std::fs::File;
use std::io::{BufRead, BufReader};
use std::process::{Command, Stdio};
use std::time::{Duration, SystemTime};

use super::*;

const JOB: &str = "k3f9x2a-1";
const FOLDER: &str = "MASTWRIGHT_REFUSED_FOLDER";

fn job_in(folder: &Path) -> Storage {
    let storage = Storage::at(folder.join("data"));
    storage.start().unwrap();
    assert!(storage.create(JOB, "{\"name\":\"Orchard\"}", "{\"n\":0}").unwrap());
    assert!(storage.hold(JOB).unwrap());
    storage
}

fn said<T: std::fmt::Debug>(refused: Result<T, StorageError>) -> String {
    refused.unwrap_err().to_string()
}

fn child_of(test: &str, folder: &Path) -> Command {
    let mut child = Command::new(std::env::current_exe().unwrap());
    child.args(["--exact", &format!("storage::refused_tests::{test}"), "--ignored", "--nocapture"]);
    child.env(FOLDER, folder);
    child
}

/// The device that is always full stands in for the journal and for the file of a version that is being written.
#[cfg(target_os = "linux")]
#[test]
fn a_write_that_finds_no_room_is_told_in_words_and_what_was_kept_stays() {
    use std::os::unix::fs::symlink;
    let folder = tempfile::tempdir().unwrap();
    let storage = job_in(folder.path());
    storage.append(JOB, "1 aa {}").unwrap();
    let path = storage.job_path(JOB).unwrap();
    symlink("/dev/full", path.join("job-00000001.json.part")).unwrap();
    let refused = said(storage.snapshot(JOB, 1, "{\"n\":1}", &[0], 1));
    assert!(refused.contains("Could not write") && refused.contains("no room left there"), "{refused}");
    let kept = storage.read(JOB).unwrap();
    assert_eq!((kept.versions.len(), kept.journal.len()), (1, 1), "nothing was let go for it");

    fs::rename(path.join("journal"), path.join("away")).unwrap();
    symlink("/dev/full", path.join("journal")).unwrap();
    storage.let_go(JOB);
    assert!(storage.hold(JOB).unwrap());
    assert!(said(storage.append(JOB, "2 bb {}")).contains("no room left there"));
    // There is room again: it goes on, with the whole job first as the screens do.
    fs::rename(path.join("away"), path.join("journal")).unwrap();
    storage.snapshot(JOB, 2, "{\"n\":2}", &[], 0).unwrap();
    storage.append(JOB, "3 cc {}").unwrap();
    assert_eq!(storage.read(JOB).unwrap().journal, ["1 aa {}", "3 cc {}"]);
}

/// Not a test of its own: it fills the small disk that the next test gave it, then finds it locked.
#[test]
#[ignore = "runs only on the small disk of the test below"]
fn on_a_small_disk() {
    let Some(disk) = std::env::var_os(FOLDER) else { return };
    let disk = Path::new(&disk);
    let ballast = disk.join("ballast");
    fs::write(&ballast, vec![0; 64 * 1024]).unwrap();
    let storage = job_in(disk);
    let mut kept = 0_u64;
    let refused = loop {
        match storage.append(JOB, &format!("{} aa {}", kept + 1, "x".repeat(1000))) {
            Ok(()) => kept += 1,
            Err(error) => break error.to_string(),
        }
        assert!(kept < 1000, "the disk is not small");
    };
    assert!(refused.contains("no room left there"), "{refused}");
    assert!(
        said(storage.snapshot(JOB, kept, &"v".repeat(20_000), &[0], kept)).contains("no room left there")
    );
    assert!(said(storage.create("k3f9x2a-2", "{}", &"v".repeat(20_000))).contains("no room left there"));
    assert_eq!(storage.cards().unwrap().len(), 1, "nothing of the other job stays");

    // A fresh start on the full disk: everything that was confirmed is there.
    drop(storage);
    let storage = Storage::at(disk.join("data"));
    assert_eq!(storage.start().unwrap().cards.len(), 1);
    assert!(storage.hold(JOB).unwrap());
    let whole = |kept: &Kept| kept.journal.iter().filter(|line| line.len() > 1000).count() as u64;
    assert_eq!(whole(&storage.read(JOB).unwrap()), kept);
    fs::remove_file(ballast).unwrap();
    storage.append(JOB, &format!("{} aa {}", kept + 1, "x".repeat(1000))).unwrap();
    assert_eq!(whole(&storage.read(JOB).unwrap()), kept + 1);
    locked(disk, &storage);
}

/// The same disk, which lets nobody write any more.
fn locked(disk: &Path, storage: &Storage) {
    // A disk with a file open for writing is not locked by the system.
    storage.let_go(JOB);
    let remounted = Command::new("mount").args(["-o", "remount,ro"]).arg(disk).status();
    assert!(remounted.is_ok_and(|status| status.success()), "a mount of our own can be locked");
    let journal = storage.read(JOB).unwrap().journal.len();
    let storage = Storage::at(disk.join("data"));
    assert_eq!(storage.start().unwrap().cards.len(), 1);
    assert!(storage.hold(JOB).unwrap(), "it can be opened to be looked at");
    assert_eq!(storage.read(JOB).unwrap().journal.len(), journal);
    for refused in [
        said(storage.append(JOB, "999 aa {}")),
        said(storage.snapshot(JOB, 999, "{}", &[0], 999)),
        said(storage.put_card(JOB, "{}")),
        said(storage.create("k3f9x2a-3", "{}", "{}")),
    ] {
        assert!(refused.contains("can be read but not written"), "{refused}");
    }
    assert_eq!(storage.read(JOB).unwrap().versions.len(), 1);
    println!("was full and locked");
}

/// Mounts need the right to make a world of one's own, which root has and most systems give to everybody.
#[cfg(target_os = "linux")]
#[test]
fn a_full_disk_and_a_locked_one_lose_nothing() {
    let folder = tempfile::tempdir().unwrap();
    let small = "mount -t tmpfs -o size=160k none \"$1\" && shift && exec \"$@\"";
    for how in [&["-m"][..], &["-r", "-m"]] {
        let allowed = Command::new("unshare")
            .args(how)
            .args(["sh", "-c", "mount -t tmpfs none \"$1\"", "sh"])
            .arg(folder.path())
            .stderr(Stdio::null())
            .status();
        if !allowed.is_ok_and(|status| status.success()) {
            continue;
        }
        let child = child_of("on_a_small_disk", folder.path());
        let mut command = Command::new("unshare");
        command.args(how).args(["sh", "-c", small, "sh"]).arg(folder.path());
        command.arg(child.get_program()).args(child.get_args()).env(FOLDER, folder.path());
        let output = command.output().unwrap();
        let told = String::from_utf8_lossy(&output.stdout);
        let why = String::from_utf8_lossy(&output.stderr);
        assert!(output.status.success() && told.contains("was full and locked"), "{told}{why}");
        return;
    }
    // No silent pass: what was not tried is said, and the test above has tried a full device all the same.
    eprintln!("NOT TRIED: this system lets nobody mount a small disk of their own.");
}

/// A folder that belongs to somebody else can't be made on a machine of which one is root: a file stands in the way.
#[test]
fn a_folder_that_cannot_be_made_is_told_in_words() {
    let folder = tempfile::tempdir().unwrap();
    fs::write(folder.path().join("data"), "a file where the folder should be").unwrap();
    let storage = Storage::at(folder.path().join("data"));
    let refused = said(storage.create(JOB, "{}", "{}"));
    assert!(refused.contains("something else of that name is in the way"), "{refused}");
}

#[test]
fn a_job_that_was_never_finished_being_made_is_none() {
    let folder = tempfile::tempdir().unwrap();
    let storage = job_in(folder.path());
    let half = storage.folder.join(JOBS).join("k3f9x2a-2");
    fs::create_dir(&half).unwrap();
    for name in ["lock", "card.json", "job-00000000.json.part"] {
        fs::write(half.join(name), "{").unwrap();
    }
    assert_eq!(storage.cards().unwrap().len(), 1);
    storage.start().unwrap();
    assert!(!half.exists());
    assert!(storage.create("k3f9x2a-2", "{}", "{}").unwrap());
}

#[test]
fn a_clock_that_went_back_changes_no_order() {
    let folder = tempfile::tempdir().unwrap();
    let storage = job_in(folder.path());
    let path = storage.job_path(JOB).unwrap();
    let day = Duration::from_secs(86_400);
    let now = SystemTime::now();
    for (n, at) in [(0, now + 30 * day), (3, now), (5, now - 400 * day), (7, SystemTime::UNIX_EPOCH)] {
        storage.append(JOB, &format!("{n} aa {{}}")).unwrap();
        storage.snapshot(JOB, n, &format!("{{\"n\":{n}}}"), &[], 0).unwrap();
        let file = File::options().write(true).open(job_folder::version_path(&path, n)).unwrap();
        file.set_modified(at).unwrap();
    }
    let kept = storage.read(JOB).unwrap();
    assert_eq!(kept.versions.iter().map(|version| version.n).collect::<Vec<_>>(), [0, 3, 5, 7]);
    assert_eq!(kept.versions[3].at_ms, 0.0, "before there was time there is no time");
    assert_eq!(kept.journal.last().unwrap(), "7 aa {}");
}

/// Not a test of its own: another Mastwright with the job open.
#[test]
#[ignore = "runs only as the child of the tests below"]
fn another_program_with_the_job() {
    let Some(folder) = std::env::var_os(FOLDER) else { return };
    let storage = Storage::at(Path::new(&folder).join("data"));
    storage.start().unwrap();
    assert!(storage.hold(JOB).unwrap());
    storage.append(JOB, "1 theirs {}").unwrap();
    println!("\nholds");
    std::thread::sleep(Duration::from_secs(60));
}

/// Not a test of its own: another Mastwright that starts, over and over.
#[test]
#[ignore = "runs only as the child of the tests below"]
fn another_program_that_starts() {
    let Some(folder) = std::env::var_os(FOLDER) else { return };
    println!("\nholds");
    loop {
        Storage::at(Path::new(&folder).join("data")).start().unwrap();
    }
}

fn with_another(test: &str, folder: &Path, work: impl FnOnce(&mut std::process::Child)) {
    let mut child = child_of(test, folder).stdout(Stdio::piped()).stderr(Stdio::null()).spawn().unwrap();
    let mut lines = BufReader::new(child.stdout.take().unwrap()).lines().map_while(Result::ok);
    assert!(lines.any(|line| line == "holds"), "the other program came up");
    work(&mut child);
    let _ = child.kill();
    child.wait().unwrap();
}

#[test]
fn of_two_programs_one_has_the_job_and_the_other_is_told() {
    let folder = tempfile::tempdir().unwrap();
    let storage = job_in(folder.path());
    storage.let_go(JOB);
    with_another("another_program_with_the_job", folder.path(), |child| {
        assert!(!storage.hold(JOB).unwrap());
        let refused = said(storage.append(JOB, "1 ours {}"));
        assert!(refused.contains("not open in this window"), "{refused}");
        assert!(said(storage.snapshot(JOB, 9, "{}", &[0], 9)).contains("nothing is written"));
        assert!(storage.remove(JOB).is_err());
        assert_eq!(storage.start().unwrap().cards.len(), 1, "it can be seen all the same");
        // The system itself ends the hold of a program that is killed.
        child.kill().unwrap();
        child.wait().unwrap();
        assert!(storage.hold(JOB).unwrap());
        assert_eq!(storage.read(JOB).unwrap().journal, ["1 theirs {}"]);
    });
}

#[test]
fn who_has_a_job_for_a_moment_only_is_waited_for() {
    let folder = tempfile::tempdir().unwrap();
    let storage = job_in(folder.path());
    storage.let_go(JOB);
    let starting = JobFolder::hold(&storage.job_path(JOB).unwrap()).unwrap().unwrap();
    std::thread::scope(|scope| {
        scope.spawn(move || {
            std::thread::sleep(Duration::from_millis(60));
            drop(starting);
        });
        assert!(storage.hold(JOB).unwrap());
    });
}

#[test]
fn a_program_that_only_starts_keeps_nobody_from_a_job() {
    let folder = tempfile::tempdir().unwrap();
    let storage = job_in(folder.path());
    storage.let_go(JOB);
    with_another("another_program_that_starts", folder.path(), |_| {
        for round in 0..300 {
            assert!(storage.hold(JOB).unwrap(), "round {round}");
            storage.let_go(JOB);
        }
    });
}
