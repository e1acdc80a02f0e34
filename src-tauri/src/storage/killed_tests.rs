//! The program is killed at moments drawn by a seed, again and again on the same folder, and whatever it had confirmed is
//! looked for. `cargo xtask kills` does it 2,000 times.

use std::collections::BTreeMap;
use std::io::{BufRead, BufReader};
use std::process::{Child, Command, Stdio};
use std::time::Duration;

use super::*;

const JOB: &str = "k3f9x2a-1";
const FOLDER: &str = "MASTWRIGHT_KILLED_FOLDER";
const SEED: &str = "MASTWRIGHT_KILLS_SEED";
/// How often; more for a measurement than for every run.
const KILLS: &str = "MASTWRIGHT_KILLS";
const BY_HABIT: u64 = 60;
/// The longest time from the writer's first word to its end.
const LONGEST_US: u64 = 30_000;

/// SplitMix64 (Steele, Lea, Flood 2014, fig. 17): the same moments again for the same seed.
struct Chance(u64);

impl Chance {
    fn below(&mut self, end: u64) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        (z ^ (z >> 31)) % end
    }
}

fn number_in(name: &str) -> Option<u64> {
    std::env::var(name).ok()?.parse().ok()
}

/// Not a test of its own: the program that the next test kills. It tells what it will begin, and each thing once it is
/// kept.
#[test]
#[ignore = "runs only as the child of the test below"]
fn writer_to_be_killed() {
    let Some(folder) = std::env::var_os(FOLDER) else { return };
    let mut chance = Chance(number_in(SEED).unwrap());
    let storage = Storage::at(folder.into());
    storage.start().unwrap();
    storage.create(JOB, "{}", &version(0)).unwrap();
    assert!(storage.hold(JOB).unwrap());
    let mut n = last_whole(&storage.read(JOB).unwrap());
    println!("\nholds");
    loop {
        match chance.below(12) {
            0 => {
                let kept = storage.read(JOB).unwrap().versions;
                let previous = kept.last().map_or(0, |version| version.n);
                let drop: Vec<u64> = kept.iter().rev().skip(3).map(|version| version.n).collect();
                storage.snapshot(JOB, n, &version(n), &drop, previous).unwrap();
                println!("version {n}");
            }
            1 => {
                storage.put_card(JOB, &card(n)).unwrap();
                println!("card {n}");
            }
            2 => make_or_remove(&storage, chance.below(6)),
            _ => {
                n += 1;
                storage.append(JOB, &line(n)).unwrap();
                println!("kept {n}");
            }
        }
    }
}

/// Another job comes, or goes for good.
fn make_or_remove(storage: &Storage, which: u64) {
    let id = format!("other-{which}");
    println!("begins {id}");
    if storage.create(&id, &card(which), &version(which)).unwrap() {
        println!("made {id}");
        return;
    }
    assert!(storage.hold(&id).unwrap());
    storage.remove(&id).unwrap();
    println!("gone {id}");
}

fn version(n: u64) -> String {
    format!("{{\"n\":{n},\"text\":\"{}\"}}", "v".repeat((n % 17) as usize * 900))
}

fn card(n: u64) -> String {
    format!("{{\"card\":{n}}}")
}

fn line(n: u64) -> String {
    format!("{n} {{\"edit\":{n},\"text\":\"{}\"}} end", "x".repeat((n % 13) as usize * 400))
}

/// The last edit that can be reached from the newest version through whole lines without a gap.
fn last_whole(kept: &Kept) -> u64 {
    let mut n = kept.versions.last().map_or(0, |version| version.n);
    while kept.journal.contains(&line(n + 1)) {
        n += 1;
    }
    n
}

/// What the killed ones confirmed, and what the last one had begun.
#[derive(Default)]
struct Told {
    kept: u64,
    version: u64,
    card: Option<u64>,
    others: BTreeMap<String, bool>,
    begun: Option<String>,
}

impl Told {
    fn hear(&mut self, said: &str) {
        let Some((what, which)) = said.split_once(' ') else { return };
        let number = which.parse();
        match (what, number) {
            ("kept", Ok(n)) => self.kept = n,
            ("version", Ok(n)) => self.version = n,
            ("card", Ok(n)) => self.card = Some(n),
            ("begins", _) => self.begun = Some(which.to_owned()),
            ("made" | "gone", _) => {
                self.begun = None;
                self.others.insert(which.to_owned(), what == "made");
            }
            _ => {}
        }
    }

    /// Compares with what is there; what is missing or torn, in words.
    fn compared(&mut self, storage: &Storage) -> Vec<String> {
        let mut wrong = Vec::new();
        let kept = storage.read(JOB).unwrap();
        for found in &kept.versions {
            if storage.version(JOB, found.n).unwrap() != Some(version(found.n)) {
                wrong.push(format!("version {} is torn", found.n));
            }
        }
        if kept.versions.last().is_none_or(|newest| newest.n < self.version) {
            wrong.push(format!("version {} is gone", self.version));
        }
        let reached = last_whole(&kept);
        // One more may have got there before it could be confirmed.
        if reached < self.kept || reached > self.kept + 1 {
            wrong.push(format!("{} edits were confirmed, {reached} are there", self.kept));
        }
        let torn = |text: &&String| {
            let n = text.split(' ').next().and_then(|n| n.parse().ok());
            n.is_none_or(|n: u64| !line(n).starts_with(text.as_str()))
        };
        wrong.extend(kept.journal.iter().filter(torn).map(|text| format!("a line nobody wrote: {text:.40}")));
        wrong.extend(self.others_wrong(storage));
        wrong.extend(self.names_wrong(storage));
        // From here the next one goes on.
        self.kept = reached;
        wrong
    }

    fn others_wrong(&mut self, storage: &Storage) -> Vec<String> {
        let cards: BTreeMap<String, Option<String>> =
            storage.cards().unwrap().into_iter().map(|card| (card.id, card.text)).collect();
        let mut wrong = Vec::new();
        for which in 0..6 {
            let id = format!("other-{which}");
            let there = cards.contains_key(&id);
            let told = self.others.get(&id).copied().unwrap_or(false);
            if there && storage.version(&id, 0).unwrap() != Some(version(which)) {
                wrong.push(format!("{id} is there, but not whole"));
            }
            if there && cards[&id].as_deref() != Some(&card(which)) {
                wrong.push(format!("{id} has not its card"));
            }
            if there != told && self.begun.as_deref() != Some(&id) {
                wrong.push(format!("{id}: told {told}, there {there}"));
            }
            self.others.insert(id, there);
        }
        self.begun = None;
        let own = cards
            .get(JOB)
            .and_then(Option::as_deref)
            .and_then(|text| text.strip_prefix("{\"card\":")?.strip_suffix('}')?.parse::<u64>().ok());
        if self.card.is_some() && own < self.card {
            wrong.push(format!("card {:?} was told, {own:?} is there", self.card));
        }
        wrong
    }

    fn names_wrong(&self, storage: &Storage) -> Vec<String> {
        let jobs = storage.folder.join(JOBS);
        let mut names = names_in(&jobs).unwrap();
        let blank = |name: &String| is_id(name) && job_folder::is_blank(&jobs.join(name));
        let mut wrong: Vec<String> =
            names.iter().filter(|name| blank(name)).map(|name| format!("{name} is blank")).collect();
        names.extend(names_in(&storage.job_path(JOB).unwrap()).unwrap());
        let left = |name: &&String| name.ends_with(folder::PART) || name.ends_with(GONE);
        wrong.extend(names.iter().filter(left).map(|name| format!("{name} is left over")));
        wrong
    }
}

fn started(folder: &Path, seed: u64) -> Child {
    Command::new(std::env::current_exe().unwrap())
        .args(["--exact", "storage::killed_tests::writer_to_be_killed", "--ignored", "--nocapture"])
        .env(FOLDER, folder)
        .env(SEED, seed.to_string())
        .stdout(Stdio::piped())
        .stderr(Stdio::null())
        .spawn()
        .unwrap()
}

/// A killed program leaves all it wrote to the system, so this holds the order of writes and renames; that the
/// flush reaches the disk itself is the system's promise.
#[test]
fn nothing_that_was_confirmed_is_lost_when_the_program_is_killed_at_any_moment() {
    let folder = tempfile::tempdir().unwrap();
    let rounds = number_in(KILLS).unwrap_or(BY_HABIT);
    let seed = number_in(SEED).unwrap_or(1);
    let mut chance = Chance(seed);
    let mut told = Told::default();
    let (mut lost, mut confirmed, mut between) = (Vec::new(), 0_u64, 0_u64);
    for round in 0..rounds {
        let mut child = started(folder.path(), chance.below(u64::MAX));
        let mut lines = BufReader::new(child.stdout.take().unwrap()).lines().map_while(Result::ok);
        assert!(lines.by_ref().any(|line| line == "holds"), "round {round}: the writer came up");
        std::thread::sleep(Duration::from_micros(chance.below(LONGEST_US)));
        child.kill().unwrap();
        child.wait().unwrap();
        for line in lines {
            confirmed += u64::from(!line.starts_with("begins"));
            told.hear(&line);
        }
        between += u64::from(told.begun.is_some());
        let storage = Storage::at(folder.path().to_owned());
        storage.start().unwrap();
        let wrong = told.compared(&storage);
        lost.extend(wrong.into_iter().map(|what| format!("round {round}: {what}")));
    }
    println!(
        "{rounds} kills (seed {seed}), {confirmed} entries confirmed, {between} kills while a job was made or removed: {} lost",
        lost.len()
    );
    assert!(confirmed > rounds, "hardly anything was written: {confirmed}");
    assert!(lost.is_empty(), "seed {seed}:\n{}", lost.join("\n"));
}
