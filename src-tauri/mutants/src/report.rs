//! The appendix of `docs/validation.md`.

use std::collections::BTreeMap;
use std::fs;
use std::path::Path;

use serde::{Deserialize, Serialize};

use crate::interval::wilson_95;
use crate::list::MODULES;
use crate::runs::Fate;
use crate::tests_of_meaning::LEFT_OUT;

/// One drawn mutant and what became of it.
#[derive(Debug, Clone, Serialize, Deserialize)]
pub struct Tried {
    pub key: String,
    pub name: String,
    pub module: String,
    /// The seeds by which it was drawn.
    pub seeds: Vec<u64>,
    pub fate: Fate,
    /// It could not stand behind a switch and was built alone.
    pub built_alone: bool,
}

/// All of a run.
#[derive(Debug, Clone, Default, Serialize, Deserialize)]
pub struct Results {
    pub commit: String,
    pub date: String,
    pub listed: BTreeMap<String, usize>,
    pub unviable: BTreeMap<String, usize>,
    pub put_off: BTreeMap<String, usize>,
    pub seeds: Vec<u64>,
    pub tests: usize,
    pub tests_s: f64,
    /// With the slow ones that were left out.
    pub all_tests_s: f64,
    pub slow: Vec<String>,
    pub run_s: f64,
    pub tried: Vec<Tried>,
}

const BEGIN: &str = "<!-- written by cargo xtask mutants: begin -->";
const END: &str = "<!-- written by cargo xtask mutants: end -->";

/// The reasons that somebody gave for survivors, by key: stanzas of file, change, line and `= reason`.
pub fn reasons(path: &Path) -> BTreeMap<String, String> {
    let text = fs::read_to_string(path).unwrap_or_default();
    let stanzas =
        text.split("\n\n").map(str::trim).filter(|stanza| !stanza.is_empty() && !stanza.starts_with('#'));
    stanzas
        .filter_map(|stanza| {
            let (key, reason) = stanza.rsplit_once("\n= ")?;
            let key: Vec<&str> = key.lines().map(str::trim).collect();
            Some((key.join("\n"), reason.replace('\n', " ")))
        })
        .collect()
}

/// Writes the appendix between its marks.
///
/// # Errors
/// Where the page or its marks are missing.
pub fn write(results: &Results, reasons: &BTreeMap<String, String>, page: &Path) -> Result<(), String> {
    let text = fs::read_to_string(page).map_err(|error| format!("{}: {error}", page.display()))?;
    let (before, rest) =
        text.split_once(BEGIN).ok_or_else(|| format!("{}: no line `{BEGIN}`", page.display()))?;
    let (_, after) = rest.split_once(END).ok_or_else(|| format!("{}: no line `{END}`", page.display()))?;
    let new = format!("{before}{BEGIN}\n{}{END}{after}", appendix(results, reasons));
    fs::write(page, new).map_err(|error| format!("{}: {error}", page.display()))
}

pub fn appendix(results: &Results, reasons: &BTreeMap<String, String>) -> String {
    let mut out = format!(
        "Engine of commit {} ({}): {} tests of meaning, {:.0} s one after another with no fault in ({:.0} s with the slow ones, \
         which are left out); the run took {:.0} min.\n\n",
        results.commit,
        results.date,
        results.tests,
        results.tests_s,
        results.all_tests_s,
        results.run_s / 60.0
    );
    for seed in &results.seeds {
        out.push_str(&table(results, *seed));
    }
    out.push_str("Left out of the tests:\n\n");
    for (binary, begins, reason) in LEFT_OUT {
        out.push_str(&format!("- `{begins}` of {binary}: {reason}\n"));
    }
    if !results.slow.is_empty() {
        out.push_str(&format!("- too slow to be run for each fault: `{}`\n", results.slow.join("`, `")));
    }
    out.push_str("\n**Survivors:**\n\n| where | change | seed | why it lives |\n|---|---|---|---|\n");
    for tried in results.tried.iter().filter(|tried| survived(tried)) {
        let reason = reasons.get(&tried.key).map_or("no reason given yet", String::as_str);
        let seeds: Vec<String> = tried.seeds.iter().map(u64::to_string).collect();
        let (place, change) = tried.name.split_once(": ").unwrap_or(("", &tried.name));
        let place = place.trim_start_matches("src-tauri/engine/src/");
        out.push_str(&format!(
            "| `{place}` | {} | {} | {reason} |\n",
            change.replace('|', "\\|"),
            seeds.join(", ")
        ));
    }
    out.push('\n');
    out
}

fn survived(tried: &Tried) -> bool {
    matches!(tried.fate, Fate::Survived { .. })
}

fn table(results: &Results, seed: u64) -> String {
    let mut out = format!(
        "Seed {seed}:\n\n| room | on the list | tried | caught | of these without end | survived | share caught, 95 % interval (Wilson 1927) |\n\
         |---|---|---|---|---|---|---|\n"
    );
    let of_seed = |module: Option<&str>| -> Vec<&Tried> {
        let fits = |tried: &&Tried| {
            tried.seeds.contains(&seed) && module.is_none_or(|module| tried.module == module)
        };
        results.tried.iter().filter(fits).collect()
    };
    for module in MODULES.iter().filter(|module| results.listed.contains_key(**module)) {
        out.push_str(&row(module, results.listed[*module], &of_seed(Some(module))));
    }
    out.push_str(&row("all", results.listed.values().sum(), &of_seed(None)));
    out.push('\n');
    out
}

fn row(name: &str, listed: usize, tried: &[&Tried]) -> String {
    let lost = tried.iter().filter(|tried| survived(tried)).count();
    let endless = tried.iter().filter(|tried| matches!(tried.fate, Fate::TimedOut { .. })).count();
    let caught = tried.len() - lost;
    let (low, high) = wilson_95(caught, tried.len());
    format!(
        "| {name} | {listed} | {} | {caught} | {endless} | {lost} | {:.1} % ({:.1}–{:.1}) |\n",
        tried.len(),
        100.0 * caught as f64 / tried.len().max(1) as f64,
        100.0 * low,
        100.0 * high
    )
}
