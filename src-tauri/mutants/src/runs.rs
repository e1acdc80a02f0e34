//! Starting tests: which mutants each one passes, and which mutants it catches.

use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::path::Path;
use std::process::{Command, Stdio};
use std::sync::Mutex;
use std::sync::atomic::{AtomicUsize, Ordering};
use std::time::{Duration, Instant};

use serde::{Deserialize, Serialize};

use crate::tests_of_meaning::is_meant;
use crate::tree::TestBinary;

/// A test with what it costs and which mutants it passes.
#[derive(Debug, Clone, Serialize, Deserialize)]
pub struct Test {
    pub binary: usize,
    pub name: String,
    pub seconds: f64,
    pub reached: BTreeSet<usize>,
}

/// What became of a mutant.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub enum Fate {
    Caught {
        by: String,
    },
    /// It never came to an end.
    TimedOut {
        tests: String,
    },
    Survived {
        tests: usize,
    },
}

/// Runs every test of meaning alone, once, with all mutants off.
///
/// # Errors
/// Where one fails: then nothing that follows would mean anything.
pub fn reach(binaries: &[TestBinary], folder: &Path, workers: usize) -> Result<Vec<Test>, String> {
    let mut all = Vec::new();
    for (index, binary) in binaries.iter().enumerate() {
        let output = Command::new(&binary.path)
            .args(["--list", "--format", "terse"])
            .output()
            .map_err(|error| format!("{}: {error}", binary.name))?;
        let text = String::from_utf8_lossy(&output.stdout).into_owned();
        let names = text.lines().filter_map(|line| line.strip_suffix(": test"));
        all.extend(names.filter(|name| is_meant(&binary.name, name)).map(|name| (index, name.to_owned())));
    }
    let (done, failed) = (Mutex::new(Vec::new()), Mutex::new(Vec::new()));
    in_parallel(all.len(), workers, |number| {
        let (binary, name) = &all[number];
        let path = folder.join(format!("reached-{number}"));
        let started = Instant::now();
        let mut command = start(&binaries[*binary], &[name.as_str()]);
        command.env("MUTANTS_REACHED", &path);
        let passed = matches!(finish(command, Duration::from_secs(900)), Finished::Passed);
        let seconds = started.elapsed().as_secs_f64();
        let text = fs::read_to_string(&path).unwrap_or_default();
        let _ = fs::remove_file(&path);
        let reached = text.lines().filter_map(|line| line.parse().ok()).collect();
        if passed {
            lock(&done).push(Test { binary: *binary, name: name.clone(), seconds, reached });
        } else {
            lock(&failed).push(name.clone());
        }
    });
    let failed = failed.into_inner().unwrap_or_default();
    if !failed.is_empty() {
        return Err(format!("With all mutants off these tests fail: {}", failed.join(", ")));
    }
    let mut tests = done.into_inner().unwrap_or_default();
    tests.sort_by(|a, b| a.seconds.total_cmp(&b.seconds).then_with(|| a.name.cmp(&b.name)));
    Ok(tests)
}

/// Runs the tests that pass each mutant, the quick ones first, until one fails.
pub fn try_all(
    mutants: &[usize],
    tests: &[Test],
    binaries: &[TestBinary],
    workers: usize,
    in_time: impl Fn() -> bool + Sync,
    told: impl Fn(usize, &Fate) + Sync,
) -> BTreeMap<usize, Fate> {
    let fates = Mutex::new(BTreeMap::new());
    in_parallel(mutants.len(), workers, |number| {
        if !in_time() {
            return;
        }
        let id = mutants[number];
        let passing: Vec<&Test> = tests.iter().filter(|test| test.reached.contains(&id)).collect();
        let fate = try_one(Some(id), &passing, binaries);
        told(id, &fate);
        lock(&fates).insert(id, fate);
    });
    fates.into_inner().unwrap_or_default()
}

/// Runs the tests in bundles that grow, until one fails. `None`: the mutant is in the build for good.
pub fn try_one(mutant: Option<usize>, tests: &[&Test], binaries: &[TestBinary]) -> Fate {
    let mut rest = tests;
    let mut bundle_s = 1.0;
    while !rest.is_empty() {
        let mut sum_s = 0.0;
        let many = rest
            .iter()
            .take_while(|test| {
                sum_s += test.seconds;
                sum_s <= bundle_s
            })
            .count()
            .max(1);
        let (now, later) = rest.split_at(many);
        for (index, binary) in binaries.iter().enumerate() {
            let here: Vec<&Test> = now.iter().copied().filter(|test| test.binary == index).collect();
            if here.is_empty() {
                continue;
            }
            let names: Vec<&str> = here.iter().map(|test| test.name.as_str()).collect();
            let usual_s: f64 = here.iter().map(|test| test.seconds).sum();
            let mut command = start(binary, &names);
            if let Some(id) = mutant {
                command.env("MUTANT", id.to_string());
            }
            match finish(command, Duration::from_secs_f64(30.0 + 15.0 * usual_s)) {
                Finished::Passed => {}
                Finished::Failed(said) => return Fate::Caught { by: first_failure(&binary.name, &said) },
                Finished::TimedOut => {
                    return Fate::TimedOut { tests: format!("{}: {}", binary.name, names.join(" ")) };
                }
            }
        }
        rest = later;
        bundle_s *= 3.0;
    }
    Fate::Survived { tests: tests.len() }
}

/// The tests one after another, with the same cases as every run of ours and no more memory than a machine can spare.
fn start(binary: &TestBinary, names: &[&str]) -> Command {
    let mut command = if cfg!(unix) {
        let mut shell = Command::new("sh");
        shell.args(["-c", "ulimit -v 4000000; exec \"$0\" \"$@\""]).arg(&binary.path);
        shell
    } else {
        Command::new(&binary.path)
    };
    command.args(names).args(["--exact", "--test-threads", "1"]);
    command.current_dir(&binary.folder).env("PROPTEST_RNG_SEED", "2026").env("RUST_BACKTRACE", "0");
    // What fails under a mutant must not be kept for the next.
    command.env("PROPTEST_DISABLE_FAILURE_PERSISTENCE", "true").env("PROPTEST_MAX_SHRINK_ITERS", "0");
    command
}

enum Finished {
    Passed,
    Failed(String),
    TimedOut,
}

fn finish(mut command: Command, at_most: Duration) -> Finished {
    let Ok(mut child) = command.stdout(Stdio::piped()).stderr(Stdio::null()).spawn() else {
        return Finished::Failed("it could not be started".into());
    };
    let output = child.stdout.take();
    let reader = std::thread::spawn(move || {
        let mut text = Vec::new();
        let _ = output.map(|mut output| std::io::Read::read_to_end(&mut output, &mut text));
        String::from_utf8_lossy(&text).into_owned()
    });
    let started = Instant::now();
    loop {
        match child.try_wait() {
            Ok(Some(status)) if status.success() => return Finished::Passed,
            Ok(Some(_)) | Err(_) => return Finished::Failed(reader.join().unwrap_or_default()),
            Ok(None) if started.elapsed() > at_most => {
                let _ = child.kill();
                let _ = child.wait();
                return Finished::TimedOut;
            }
            Ok(None) => std::thread::sleep(Duration::from_millis(5)),
        }
    }
}

fn first_failure(binary: &str, said: &str) -> String {
    let failed = |line: &&str| line.starts_with("test ") && line.ends_with("FAILED");
    match said.lines().find(failed) {
        Some(line) => {
            format!("{binary}: {}", line.trim_start_matches("test ").trim_end_matches(" ... FAILED"))
        }
        // A stack or a memory that overflows ends the program before it can say so.
        None => format!("{binary}: ended by itself"),
    }
}

fn in_parallel(count: usize, workers: usize, work: impl Fn(usize) + Sync) {
    let next = AtomicUsize::new(0);
    std::thread::scope(|scope| {
        for _ in 0..workers.max(1) {
            scope.spawn(|| {
                loop {
                    let number = next.fetch_add(1, Ordering::Relaxed);
                    if number >= count {
                        return;
                    }
                    work(number);
                }
            });
        }
    });
}

fn lock<T>(mutex: &Mutex<T>) -> std::sync::MutexGuard<'_, T> {
    mutex.lock().unwrap_or_else(std::sync::PoisonError::into_inner)
}
