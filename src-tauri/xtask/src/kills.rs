//! `cargo xtask kills`: programs killed at moments drawn by a seed, and what they had confirmed looked for.

use std::process::Command;

use crate::command::{cargo, run};
use crate::place::Place;
use crate::{serve, setup, ui};

/// The native store has many more: one of its kills takes thirty milliseconds, one of a browser three seconds.
const NATIVE: &str = "2000";
const BROWSER: &str = "200";

/// Options: `--native N`, `--browser N`, `--seed S`; `0` leaves that side out.
///
/// # Errors
/// Where something does not build, or an entry was lost.
pub fn kills(place: &Place, options: &[String]) -> Result<(), String> {
    let (mut native, mut browser, mut seed) = (NATIVE.to_owned(), BROWSER.to_owned(), "1".to_owned());
    for pair in options.chunks(2) {
        match pair {
            [name, number] if number.parse::<u64>().is_ok() => match name.as_str() {
                "--native" => native.clone_from(number),
                "--browser" => browser.clone_from(number),
                "--seed" => seed.clone_from(number),
                other => {
                    return Err(format!("`{other}` is no option; there are --native, --browser and --seed."));
                }
            },
            [name, given] => return Err(format!("{name}: given `{given}`; allowed: a whole number.")),
            _ => return Err("A number is missing after the last option.".to_owned()),
        }
    }
    if native != "0" {
        let test = "nothing_that_was_confirmed_is_lost_when_the_program_is_killed_at_any_moment";
        let mut command = cargo(&place.root, &["test", "-q", "-p", "mastwright-app", "--lib", test]);
        command.args(["--", "--nocapture"]);
        run(with(command, &native, &seed))?;
    }
    if browser != "0" {
        in_browser(place, &browser, &seed)?;
    }
    Ok(())
}

fn in_browser(place: &Place, rounds: &str, seed: &str) -> Result<(), String> {
    if !place.ui_dist().join("index.html").is_file() {
        return Err("The screens are not built: run `cargo xtask web` first.".to_owned());
    }
    let chromium = setup::chromium().ok_or("No Chromium was found; name one in $CHROMIUM.")?;
    ui::npm_packages(&place.browser_tests())?;
    let address = serve::serve_beside(&place.ui_dist(), 0)?;
    let mut command = Command::new("npx");
    command.current_dir(place.browser_tests()).args([
        "playwright",
        "test",
        "killed.spec.ts",
        "-g",
        "while entering",
    ]);
    command.env("CHROMIUM", chromium).env("MASTWRIGHT_URL", address);
    command.env("KILLS", rounds).env("KILLS_SEED", seed);
    run(command)
}

fn with(mut command: Command, rounds: &str, seed: &str) -> Command {
    command.env("MASTWRIGHT_KILLS", rounds).env("MASTWRIGHT_KILLS_SEED", seed);
    command
}
