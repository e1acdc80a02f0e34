//! `cargo xtask mutants`: how many small faults of the engine's ten rooms of numbers do the tests of meaning catch?
//!
//! `cargo mutants` lists every fault; a seed draws some of each room; all drawn ones are built at once, each behind a
//! switch; one pass writes down which tests reach which switch; then each is turned on and the tests that reach it run,
//! the quick ones first, until one fails.

mod draw;
mod interval;
mod list;
mod report;
mod runs;
mod switch;
mod tests_of_meaning;
mod tree;

use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Command, ExitCode};
use std::sync::Mutex;
use std::time::Instant;

use draw::Named;
use list::Mutant;
use report::{Results, Tried};
use runs::{Fate, Test};
use tree::Tree;

const HELP: &str = "\
cargo xtask mutants [options]
  --each N           mutants of each room by the first seed (40)
  --seed S           the first seed (1)
  --second-each N    mutants of each room by the second seed (10)
  --second-seed S    the second seed (2)
  --third-each N     mutants of each room by a third seed, whose survivors nobody has read yet (0: none)
  --third-seed S     the third seed (3)
  --rooms a,b        only these rooms (all ten)
  --again            only those that survived the last run; what was caught stays caught
  --no-alone         leave out those that must be built alone (constants; some two minutes each)
  --longest S        leave out tests that take longer than this alone, in seconds (10): what they would catch besides
                     is then not counted
  --minutes M        begin no further fault after so many minutes; the rooms are gone through side by side
  --as-built         take the copy and its build as the last run left them
  --workers N        tests side by side (2)
  --dry              do not write docs/validation.md";

struct Wishes {
    each: [usize; 3],
    seeds: [u64; 3],
    rooms: Vec<String>,
    again: bool,
    alone: bool,
    longest_s: f64,
    minutes: f64,
    as_built: bool,
    workers: usize,
    dry: bool,
}

impl Wishes {
    /// Every seed by which something is drawn, with how many of each room.
    fn draws(&self) -> impl Iterator<Item = (u64, usize)> + '_ {
        self.seeds.iter().copied().zip(self.each).filter(|(_, each)| *each > 0)
    }
}

/// A drawn mutant, by number.
struct Drawn {
    named: Named,
    module: &'static str,
    seeds: Vec<(u64, usize)>,
}

fn main() -> ExitCode {
    match wishes().and_then(|wishes| run(&wishes)) {
        Ok(()) => ExitCode::SUCCESS,
        Err(message) => {
            eprintln!("{message}");
            ExitCode::FAILURE
        }
    }
}

fn wishes() -> Result<Wishes, String> {
    let mut wishes = Wishes {
        each: [40, 10, 0],
        seeds: [1, 2, 3],
        rooms: list::MODULES.iter().map(|module| (*module).to_owned()).collect(),
        again: false,
        alone: true,
        longest_s: 10.0,
        minutes: f64::INFINITY,
        as_built: false,
        workers: 2,
        dry: false,
    };
    let mut words = std::env::args().skip(1);
    while let Some(word) = words.next() {
        let mut value = || words.next().ok_or_else(|| format!("`{word}` wants a value.\n\n{HELP}"));
        match word.as_str() {
            "--each" => wishes.each[0] = number(&value()?)?,
            "--second-each" => wishes.each[1] = number(&value()?)?,
            "--seed" => wishes.seeds[0] = number(&value()?)?,
            "--second-seed" => wishes.seeds[1] = number(&value()?)?,
            "--third-each" => wishes.each[2] = number(&value()?)?,
            "--third-seed" => wishes.seeds[2] = number(&value()?)?,
            "--rooms" => wishes.rooms = value()?.split(',').map(str::to_owned).collect(),
            "--longest" => wishes.longest_s = number(&value()?)?,
            "--minutes" => wishes.minutes = number(&value()?)?,
            "--as-built" => wishes.as_built = true,
            "--workers" => wishes.workers = number(&value()?)?,
            "--again" => wishes.again = true,
            "--no-alone" => wishes.alone = false,
            "--dry" => wishes.dry = true,
            _ => return Err(HELP.into()),
        }
    }
    Ok(wishes)
}

fn number<T: std::str::FromStr>(text: &str) -> Result<T, String> {
    text.parse().map_err(|_| format!("`{text}` is no number of the kind wanted.\n\n{HELP}"))
}

fn run(wishes: &Wishes) -> Result<(), String> {
    let started = Instant::now();
    let here = Path::new(env!("CARGO_MANIFEST_DIR"));
    let root = here.ancestors().nth(2).ok_or("no workspace")?.to_path_buf();
    let home = root.join("target/mutants");
    fs::create_dir_all(&home).map_err(|error| error.to_string())?;
    println!("Listing …");
    let (drawn, mut results) = drawn(&root, wishes)?;
    let last = last_fates(&home.join("results.json"));
    let known = |drawn: &Drawn| -> Option<Tried> {
        let tried = last.get(&drawn.named.key)?;
        (wishes.again && !matches!(tried.fate, Fate::Survived { .. })).then(|| tried.clone())
    };
    let mutants: Vec<(usize, &Mutant)> =
        drawn.iter().enumerate().map(|(id, d)| (id, &d.named.mutant)).collect();
    let place = root.join("target/mutants-tree");
    let (mut tree, refused) = if wishes.as_built {
        let tree = Tree::there(&root, &place);
        let refused = tree.refused(&mutants)?;
        (tree, refused)
    } else {
        println!("Copying and building {} mutants behind switches …", drawn.len());
        let mut tree = Tree::copy(&root, &place)?;
        let refused = tree.settle(&mutants)?;
        (tree, refused)
    };
    let chosen = chosen(&drawn, &refused.unviable, wishes);
    count(&drawn, &refused, &mut results);
    let binaries = if wishes.as_built {
        tree.tests_there()?
    } else {
        println!("Building the tests …");
        tree.tests()?
    };
    println!("Which tests reach which mutant …");
    let mut tests = runs::reach(&binaries, &home, wishes.workers)?;
    results.all_tests_s = tests.iter().map(|test| test.seconds).sum();
    results.slow =
        tests.iter().filter(|test| test.seconds > wishes.longest_s).map(|test| test.name.clone()).collect();
    tests.retain(|test| test.seconds <= wishes.longest_s);
    results.tests = tests.len();
    results.tests_s = tests.iter().map(|test| test.seconds).sum();
    println!("  {} tests, {:.0} s; left out: {}", tests.len(), results.tests_s, results.slow.join(", "));
    let finished = Mutex::new(BTreeMap::new());
    let mut open = Vec::new();
    for (id, seeds) in &chosen {
        match known(&drawn[*id]) {
            Some(tried) => drop(lock(&finished).insert(*id, Tried { seeds: seeds.clone(), ..tried })),
            None => open.push(*id),
        }
    }
    // The rooms side by side: a run that is stopped then has tried as many of each.
    open.sort_by_key(|id| (drawn[*id].seeds.iter().map(|(_, rank)| *rank).min(), *id));
    let switched: Vec<usize> = open.iter().copied().filter(|id| !refused.slow.contains(id)).collect();
    println!("Trying {} mutants …", switched.len());
    let progress = home.join("results.json");
    let kept = Mutex::new(results.clone());
    let note = |id: usize, fate: &Fate, built_alone: bool| {
        let drawn = &drawn[id];
        let tried = Tried {
            key: drawn.named.key.clone(),
            name: drawn.named.mutant.name.clone(),
            module: drawn.module.to_owned(),
            seeds: chosen[&id].clone(),
            fate: fate.clone(),
            built_alone,
        };
        let mut finished = lock(&finished);
        finished.insert(id, tried);
        // Every twentieth is written down, so that a run that is stopped has not been for nothing.
        if finished.len() % 20 == 0 {
            let mut kept = lock(&kept);
            kept.tried = finished.values().cloned().collect();
            let _ = serde_json::to_string_pretty(&*kept).map(|text| fs::write(&progress, text));
        }
        println!(
            "  {:4} {} (seed {}) — {}",
            finished.len(),
            drawn.named.mutant.name.trim_start_matches(list::ENGINE),
            chosen[&id].iter().map(u64::to_string).collect::<Vec<_>>().join(", "),
            shown(fate)
        );
    };
    let in_time = || started.elapsed().as_secs_f64() < 60.0 * wishes.minutes;
    runs::try_all(&switched, &tests, &binaries, wishes.workers, in_time, |id, fate| note(id, fate, false));
    save(&mut results, &finished, &home, started)?;
    if wishes.alone {
        for id in open.iter().copied().filter(|id| refused.slow.contains(id)) {
            note(id, &alone(&mut tree, &drawn[id].named.mutant, &tests, wishes.workers)?, true);
            save(&mut results, &finished, &home, started)?;
        }
    }
    let reasons = report::reasons(&root.join("src-tauri/mutants/reasons.txt"));
    println!("\n{}", report::appendix(&results, &reasons));
    if wishes.dry { Ok(()) } else { report::write(&results, &reasons, &root.join("docs/validation.md")) }
}

fn shown(fate: &Fate) -> String {
    match fate {
        Fate::Caught { by } => format!("caught by {by}"),
        Fate::TimedOut { .. } => "caught: never ends".into(),
        Fate::Survived { tests: 0 } => "SURVIVED: no test reaches it".into(),
        Fate::Survived { tests } => format!("SURVIVED {tests} tests"),
    }
}

/// Both draws, with some to spare for those that do not compile.
fn drawn(root: &Path, wishes: &Wishes) -> Result<(Vec<Drawn>, Results), String> {
    let mut by_module = list::all(root, &root.join("target/mutants-cargo"))?;
    by_module.retain(|module, _| wishes.rooms.iter().any(|room| room == module));
    let mut results = Results {
        commit: said(root, &["rev-parse", "--short", "HEAD"]),
        date: said(root, &["log", "-1", "--format=%cs"]),
        seeds: wishes.draws().map(|(seed, _)| seed).collect(),
        ..Results::default()
    };
    let texts: BTreeMap<String, Vec<String>> = by_module
        .values()
        .flatten()
        .map(|mutant| mutant.file.clone())
        .collect::<BTreeSet<_>>()
        .into_iter()
        .map(|file| {
            let text = fs::read_to_string(root.join(&file)).unwrap_or_default();
            (file, text.lines().map(|line| line.trim().to_owned()).collect())
        })
        .collect();
    let mut all: BTreeMap<String, Drawn> = BTreeMap::new();
    for (module, mutants) in by_module {
        results.listed.insert(module.to_owned(), mutants.len());
        let named = draw::named(mutants, |mutant| {
            texts[&mutant.file].get(mutant.span.start.line - 1).cloned().unwrap_or_default()
        });
        for (seed, each) in wishes.draws() {
            for (rank, drawn) in draw::draw(&named, each + each / 4 + 3, seed).into_iter().enumerate() {
                let entry = all.entry(drawn.key.clone());
                let new = || Drawn { named: drawn.clone(), module, seeds: Vec::new() };
                entry.or_insert_with(new).seeds.push((seed, rank));
            }
        }
    }
    Ok((all.into_values().collect(), results))
}

/// The first of each room and seed that compile.
fn chosen(drawn: &[Drawn], unviable: &BTreeSet<usize>, wishes: &Wishes) -> BTreeMap<usize, Vec<u64>> {
    let mut chosen: BTreeMap<usize, Vec<u64>> = BTreeMap::new();
    for room in &wishes.rooms {
        for (seed, each) in wishes.draws() {
            let rank = |id: usize| drawn[id].seeds.iter().find(|(of, _)| *of == seed).map(|(_, rank)| *rank);
            let mut here: Vec<(usize, usize)> = (0..drawn.len())
                .filter(|id| drawn[*id].module == room && !unviable.contains(id))
                .filter_map(|id| Some((rank(id)?, id)))
                .collect();
            here.sort_unstable();
            if here.len() < each {
                println!("  only {} of {room} by seed {seed} compile", here.len());
            }
            here.iter().take(each).for_each(|(_, id)| chosen.entry(*id).or_default().push(seed));
        }
    }
    chosen
}

fn count(drawn: &[Drawn], refused: &tree::Refused, results: &mut Results) {
    for id in &refused.unviable {
        *results.unviable.entry(drawn[*id].module.to_owned()).or_default() += 1;
    }
    for id in &refused.slow {
        *results.put_off.entry(drawn[*id].module.to_owned()).or_default() += 1;
    }
    println!("  {} do not compile, {} must be built alone", refused.unviable.len(), refused.slow.len());
}

/// One mutant built for good, and every test that reaches anything of its room (what a constant reaches is not known).
fn alone(tree: &mut Tree, mutant: &Mutant, tests: &[Test], workers: usize) -> Result<Fate, String> {
    let _ = workers;
    tree.switch(&[])?;
    tree.replace(mutant)?;
    let fate = match tree.tests() {
        Ok(binaries) => runs::try_one(None, &tests.iter().collect::<Vec<_>>(), &binaries),
        // A constant that is out of its range, an index past the end: the compiler catches it.
        Err(_) => Fate::Caught { by: "the compiler".into() },
    };
    Ok(fate)
}

fn save(
    results: &mut Results,
    finished: &Mutex<BTreeMap<usize, Tried>>,
    home: &Path,
    started: Instant,
) -> Result<(), String> {
    results.tried = lock(finished).values().cloned().collect();
    results.run_s = started.elapsed().as_secs_f64();
    let text = serde_json::to_string_pretty(results).map_err(|error| error.to_string())?;
    fs::write(home.join("results.json"), text).map_err(|error| error.to_string())
}

fn last_fates(path: &PathBuf) -> BTreeMap<String, Tried> {
    let text = fs::read_to_string(path).unwrap_or_default();
    let results: Results = serde_json::from_str(&text).unwrap_or_default();
    results.tried.into_iter().map(|tried| (tried.key.clone(), tried)).collect()
}

fn said(root: &Path, arguments: &[&str]) -> String {
    let output = Command::new("git").current_dir(root).args(arguments).output();
    output.map(|output| String::from_utf8_lossy(&output.stdout).trim().to_owned()).unwrap_or_default()
}

fn lock<T>(mutex: &Mutex<T>) -> std::sync::MutexGuard<'_, T> {
    mutex.lock().unwrap_or_else(std::sync::PoisonError::into_inner)
}
