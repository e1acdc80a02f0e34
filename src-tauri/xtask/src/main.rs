//! The project's own commands, started as `cargo xtask NAME`. They do their own set-up, show each step with its
//! time, and say what to do when one fails.

mod bench;
mod beside;
mod command;
mod deny;
mod fuzz;
mod kills;
mod mutants;
mod place;
mod run;
mod serve;
mod setup;
mod step;
mod sweep;
mod test;
mod ui;
mod wasm;
mod window;

use std::process::ExitCode;

use place::Place;
use step::{Step, run_all};

const HELP: &str = "\
cargo xtask run [--web] [--port N]   set everything up and start Mastwright: a window where there is a display,
                                     otherwise (or with --web) in the browser on this machine
cargo xtask test                     set everything up and run every test
cargo xtask check                    quick: format, lints and tests of the crates that build in seconds
cargo xtask wasm                     build the engine for the browser into ui/src/wasm
cargo xtask types                    write the TypeScript types and the job's schema anew
cargo xtask web                      build the screens into ui/dist (with the browser engine)
cargo xtask screens                  build the screens as above and check them: types, lints, unit tests
cargo xtask serve [--port N]         serve the built screens on this machine
cargo xtask bench                    measure the engine, natively and in wasm
cargo xtask sweep-wind [--jobs N] [--seed S]
                                     gust limits of random jobs, turned and compared (500 of them take an hour or so)
cargo xtask kills [--native N] [--browser N] [--seed S]
                                     kill the native store 2,000 times and a browser 200 times while it keeps entries, and
                                     look for every entry that was confirmed (half an hour)
cargo xtask mutants [options]        how many small faults of the engine the tests of meaning catch; hours, not minutes
                                     (`cargo xtask mutants --help` lists the options)
cargo xtask fuzz [--target T] [--minutes N]
                                     look for bytes that break a promise (10 minutes a target; wants a nightly compiler)
cargo xtask help                     this text";

fn main() -> ExitCode {
    let arguments: Vec<String> = std::env::args().skip(1).collect();
    let place = Place::of_this_checkout();
    let (name, options) = match arguments.split_first() {
        Some((name, options)) => (name.as_str(), options),
        None => ("help", &[][..]),
    };
    let done = match name {
        "run" => run::run(&place, options),
        "test" => finish(test::test(&place)),
        "check" => finish(run_all(&place, &test::quick())),
        "wasm" => wasm::for_browser(&place),
        "types" => test::write_types(&place),
        "screens" => finish(run_all(&place, &test::screens())),
        "web" => finish(run_all(&place, &web_steps())),
        "serve" => serve::port_option(options).and_then(|port| serve::serve(&place.ui_dist(), port)),
        "bench" => bench::bench(&place),
        "sweep-wind" => sweep::wind(&place, options),
        "kills" => kills::kills(&place, options),
        "mutants" => mutants::mutants(&place, options),
        "fuzz" => fuzz::fuzz(&place, options),
        "help" | "--help" | "-h" => {
            println!("{HELP}");
            Ok(())
        }
        other => Err(format!("There is no command `{other}`.\n\n{HELP}")),
    };
    match done {
        Ok(()) => ExitCode::SUCCESS,
        Err(message) if message.is_empty() => ExitCode::FAILURE,
        Err(message) => {
            eprintln!("{message}");
            ExitCode::FAILURE
        }
    }
}

fn web_steps() -> Vec<Step> {
    let mut steps = setup::web();
    steps.extend(ui::build_steps());
    steps
}

/// `run_all` has already said what failed.
fn finish(all_passed: bool) -> Result<(), String> {
    if all_passed { Ok(()) } else { Err(String::new()) }
}
