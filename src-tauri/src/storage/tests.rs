use super::*;

const JOB: &str = "k3f9x2a-1";

fn fresh() -> (tempfile::TempDir, Storage) {
    let folder = tempfile::tempdir().unwrap();
    let storage = Storage::at(folder.path().join("data"));
    (folder, storage)
}

fn with_job() -> (tempfile::TempDir, Storage) {
    let (folder, storage) = fresh();
    assert!(storage.create(JOB, "{\"name\":\"Orchard\"}", "{\"n\":0}").unwrap());
    assert!(storage.hold(JOB).unwrap());
    (folder, storage)
}

fn numbers(storage: &Storage) -> Vec<u64> {
    storage.read(JOB).unwrap().versions.iter().map(|version| version.n).collect()
}

#[test]
fn a_job_gives_back_its_versions_journal_and_card() {
    let (_folder, storage) = with_job();
    storage.append(JOB, "1 aa {}").unwrap();
    storage.append(JOB, "2 bb {}").unwrap();
    storage.snapshot(JOB, 2, "{\"n\":2}", &[], 0).unwrap();
    storage.append(JOB, "3 cc {}").unwrap();

    assert_eq!(numbers(&storage), [0, 2]);
    assert_eq!(storage.version(JOB, 2).unwrap().as_deref(), Some("{\"n\":2}"));
    assert_eq!(storage.read(JOB).unwrap().journal, ["1 aa {}", "2 bb {}", "3 cc {}"]);
    let card = Card { id: JOB.to_owned(), text: Some("{\"name\":\"Orchard\"}".to_owned()) };
    assert_eq!(storage.cards().unwrap(), [card]);
}

#[test]
fn a_snapshot_lets_go_only_what_it_is_told_to() {
    let (_folder, storage) = with_job();
    for n in 1..=6 {
        storage.append(JOB, &format!("{n} aa {{}}")).unwrap();
    }
    storage.snapshot(JOB, 3, "{\"n\":3}", &[], 0).unwrap();
    // Its own number among those to drop is a mistake of the caller's, not an order.
    storage.snapshot(JOB, 5, "{\"n\":5}", &[0, 5], 3).unwrap();
    assert_eq!(numbers(&storage), [3, 5]);
    assert_eq!(storage.read(JOB).unwrap().journal, ["4 aa {}", "5 aa {}", "6 aa {}"]);
    storage.append(JOB, "7 aa {}").unwrap();
    assert_eq!(storage.read(JOB).unwrap().journal.len(), 4);
}

#[test]
fn a_job_is_never_made_over_another() {
    let (_folder, storage) = with_job();
    assert!(!storage.create(JOB, "{}", "{\"other\":1}").unwrap());
    assert_eq!(storage.version(JOB, 0).unwrap().as_deref(), Some("{\"n\":0}"));
}

#[test]
fn a_second_program_does_not_get_a_held_job_until_it_is_let_go() {
    let (_folder, storage) = with_job();
    let second = Storage::at(storage.folder.clone());
    assert!(!second.hold(JOB).unwrap());
    assert!(matches!(second.append(JOB, "1 aa {}"), Err(StorageError::NotHeld(_))));
    assert!(matches!(second.snapshot(JOB, 9, "{}", &[0], 9), Err(StorageError::NotHeld(_))));
    assert!(storage.hold(JOB).unwrap(), "the first one has it already");
    storage.let_go(JOB);
    assert!(second.hold(JOB).unwrap());
    assert!(!storage.hold(JOB).unwrap());
}

#[test]
fn what_cannot_be_used_is_set_aside_whole() {
    let (_folder, storage) = with_job();
    storage.snapshot(JOB, 4, "{\"n\":4}", &[], 0).unwrap();
    let path = job_folder::version_path(&storage.job_path(JOB).unwrap(), 4);
    fs::write(&path, b"{\"n\": \xff").unwrap();
    assert_eq!(storage.version(JOB, 4).unwrap(), None);

    let name = storage.set_aside(JOB, 4).unwrap();
    assert_eq!(numbers(&storage), [0]);
    assert_eq!(storage.read(JOB).unwrap().aside, std::slice::from_ref(&name));
    assert_eq!(fs::read(path.with_file_name(&name)).unwrap(), b"{\"n\": \xff");
    assert!(storage.aside(JOB, &name).unwrap().unwrap().starts_with("{\"n\": "));
    assert_eq!(storage.aside(JOB, "../../device").unwrap(), None);
}

#[test]
fn half_written_files_are_removed_at_the_start_but_not_from_under_a_writer() {
    let (_folder, storage) = with_job();
    let jobs = storage.job_path(JOB).unwrap();
    let left = jobs.join("job-00000007.json.part");
    let old_left = storage.folder.join("job-00000002.part");
    let gone = storage.folder.join(JOBS).join("k3f9x2a-9.gone");
    fs::create_dir(&gone).unwrap();
    for path in [&left, &old_left, &gone.join("card.json")] {
        fs::write(path, "{\"n\":").unwrap();
    }
    let second = Storage::at(storage.folder.clone());
    second.start().unwrap();
    assert!(left.exists(), "the first program may be writing it");
    assert!(!old_left.exists() && !gone.exists());
    storage.let_go(JOB);
    second.start().unwrap();
    assert!(!left.exists());
    assert_eq!(numbers(&second), [0]);
}

#[test]
fn a_torn_line_does_not_spoil_the_next_one() {
    let (_folder, storage) = with_job();
    storage.append(JOB, "1 aa {}").unwrap();
    let journal = storage.job_path(JOB).unwrap().join("journal");
    fs::write(&journal, "1 aa {}\n2 bb {\"half").unwrap();
    let next = Storage::at(storage.folder.clone());
    storage.let_go(JOB);
    assert!(next.hold(JOB).unwrap());
    next.append(JOB, "2 bb {\"whole\":1}").unwrap();
    assert_eq!(next.read(JOB).unwrap().journal, ["1 aa {}", "2 bb {\"half", "2 bb {\"whole\":1}"]);
}

#[test]
fn a_cleared_folder_is_told_and_a_snapshot_makes_it_again() {
    let (_folder, storage) = with_job();
    storage.append(JOB, "1 aa {}").unwrap();
    fs::remove_dir_all(&storage.folder).unwrap();
    assert!(storage.append(JOB, "2 bb {}").is_err(), "a deleted file swallows what is written to it");

    storage.put_card(JOB, "{}").unwrap();
    storage.snapshot(JOB, 2, "{\"n\":2}", &[], 0).unwrap();
    storage.append(JOB, "3 cc {}").unwrap();
    assert_eq!(numbers(&storage), [2]);
    assert_eq!(storage.read(JOB).unwrap().journal, ["3 cc {}"]);
    assert!(!Storage::at(storage.folder.clone()).hold(JOB).unwrap(), "it is held again");
}

#[test]
fn a_deleted_job_is_gone_and_a_lost_card_loses_no_job() {
    let (_folder, storage) = with_job();
    fs::remove_file(job_folder::card_path(&storage.job_path(JOB).unwrap())).unwrap();
    assert_eq!(storage.cards().unwrap(), [Card { id: JOB.to_owned(), text: None }]);
    storage.remove(JOB).unwrap();
    assert_eq!(storage.cards().unwrap(), []);
    assert!(!storage.job_path(JOB).unwrap().exists());
}

#[test]
fn an_id_never_leads_out_of_the_folder() {
    let (_folder, storage) = fresh();
    for id in ["", "..", "a/b", "A", "a.gone", "c:\\x", &"a".repeat(41)] {
        assert!(matches!(storage.create(id, "{}", "{}"), Err(StorageError::NotAJob(_))), "{id}");
        assert!(matches!(storage.version(id, 0), Err(StorageError::NotAJob(_))), "{id}");
    }
}

#[test]
fn saves_of_the_old_kind_are_handed_over_in_order_and_forgotten_only_when_asked() {
    let (_folder, storage) = fresh();
    fs::create_dir_all(&storage.folder).unwrap();
    for (n, text) in [(9, "{\"n\":9}"), (10, "{\"n\":10}")] {
        fs::write(storage.folder.join(format!("job-{n:08}.json")), text).unwrap();
    }
    let texts = |start: AtStart| start.old.into_iter().map(|save| save.text).collect::<Vec<_>>();
    assert_eq!(texts(storage.start().unwrap()), ["{\"n\":9}", "{\"n\":10}"]);
    assert_eq!(texts(storage.start().unwrap()).len(), 2);
    storage.forget_old().unwrap();
    assert_eq!(texts(storage.start().unwrap()).len(), 0);
}

#[test]
fn the_device_keeps_its_name() {
    let (_folder, storage) = fresh();
    let first = storage.start().unwrap().device;
    assert!(is_id(&first));
    assert_eq!(storage.start().unwrap().device, first);
}

#[test]
fn a_refusing_disk_is_an_error_with_its_path() {
    let folder = tempfile::tempdir().unwrap();
    let in_the_way = folder.path().join("data");
    fs::write(&in_the_way, "a file where the folder should be").unwrap();
    let error = Storage::at(in_the_way.clone()).create(JOB, "{}", "{}").unwrap_err().to_string();
    assert!(error.contains(&in_the_way.display().to_string()), "{error}");
}

#[test]
fn appends_from_several_threads_all_land() {
    let (_folder, storage) = with_job();
    std::thread::scope(|scope| {
        for n in 1..=16 {
            let storage = storage.clone();
            scope.spawn(move || storage.append(JOB, &format!("{n} aa {{}}")).unwrap());
        }
    });
    assert_eq!(storage.read(JOB).unwrap().journal.len(), 16);
}
