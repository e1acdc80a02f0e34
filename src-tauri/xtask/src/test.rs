//! `cargo xtask test`: every test there is, from a fresh clone. `check` and `types` are parts of it.

use std::process::Command;

use crate::beside;
use crate::command::{cargo, npm, run};
use crate::place::Place;
use crate::serve;
use crate::setup;
use crate::step::{Step, run_all};
use crate::ui;
use crate::wasm;
use crate::window;

/// One set of features and one profile for lints, tests and the window, so that nothing is compiled twice: the screens
/// inside the program, the generator of the TypeScript types, and the engine optimized, because the tests keep it busy for
/// minutes: level 1 leaves even the steps of a loop as calls (docs/performance.md). A developer's own build stays without: there the
/// engine has to be compiled again after every line.
const FEATURES: &[&str] = &[
    "--config",
    "profile.dev.package.mastwright-engine.opt-level=2",
    // Where a test failed is said without.
    "--config",
    "profile.dev.debug=0",
    // Nothing of it is compiled a second time with one line changed; it would cost gigabytes and some time.
    "--config",
    "profile.dev.incremental=false",
    "--features",
    "mastwright-app/custom-protocol,mastwright-api/typegen",
];

const READ_ABOVE: &str = "read the message above; the lines before it say where.";

/// Sets everything up and runs everything; true where all passed.
pub fn test(place: &Place) -> bool {
    let mut steps = setup::everything();
    steps.push(FORMAT);
    steps.push(BESIDE);
    steps.extend(compiled());
    steps.push(JOINED);
    steps.extend(rust());
    steps.extend(faces());
    let passed = run_all(place, &steps);
    beside::stop();
    passed
}

/// The screens with the browser engine, built and checked; needs what `setup::everything` sets up.
pub fn screens() -> Vec<Step> {
    let mut steps = ui::build_steps();
    steps.extend(checks_of_screens());
    steps
}

const SCREENS: &str = "screens";

const BESIDE: Step = Step {
    title: "the screens are built and checked beside the next steps",
    remedy: READ_ABOVE,
    work: |place| beside::start(place, SCREENS),
};

const JOINED: Step = Step {
    title: "the screens, as they were built and checked beside",
    remedy: "`cargo xtask screens` does this alone.",
    work: beside::finish,
};

/// Format, lints and tests of the crates that build in seconds.
pub fn quick() -> Vec<Step> {
    vec![
        FORMAT,
        Step {
            title: "lints of the pure crates",
            remedy: READ_ABOVE,
            work: |place| run(cargo(&place.root, &["clippy", "--all-targets", "--", "-D", "warnings"])),
        },
        Step {
            title: "tests of the pure crates",
            remedy: READ_ABOVE,
            work: |place| {
                run(cargo(&place.root, &["test", "--quiet"]))?;
                run(cargo(&place.root, &["test", "--quiet", "-p", "mastwright-tests"]))
            },
        },
    ]
}

/// Writes the TypeScript types and the schema of the job anew.
///
/// # Errors
/// Where the generator fails.
pub fn write_types(place: &Place) -> Result<(), String> {
    run(cargo(&place.root, &["run", "-p", "mastwright-api", "--features", "typegen", "--bin", "typegen"]))
}

const FORMAT: Step = Step {
    title: "format of the Rust code",
    remedy: "run `cargo fmt`.",
    work: |place| run(cargo(&place.root, &["fmt", "--all", "--check"])),
};

/// The screens on their own.
fn checks_of_screens() -> Vec<Step> {
    vec![
        Step {
            title: "types of the screens",
            remedy: READ_ABOVE,
            work: |place| run(npm(&place.ui(), &["run", "check"])),
        },
        Step {
            title: "lints and format of the screens",
            remedy: "`npm run format` in ui mends the format; the rest is said above.",
            work: |place| run(npm(&place.ui(), &["run", "lint"])),
        },
        Step {
            title: "unit tests of the screens",
            remedy: READ_ABOVE,
            work: |place| run(npm(&place.ui(), &["test"])),
        },
        Step {
            title: "npm packages of the browser tests",
            remedy: "check the network, then start again.",
            work: |place| ui::npm_packages(&place.browser_tests()),
        },
    ]
}

/// The Rust code: everywhere it has to compile, and its lints. That it compiles for the browser the screens' engine shows.
fn compiled() -> Vec<Step> {
    vec![
        Step {
            title: "licences, sources and double versions of the libraries",
            remedy: "take another library or version, or write the reason into deny.toml.",
            work: crate::deny::libraries,
        },
        Step {
            title: "compiling all Rust code and its tests, with the lints",
            remedy: READ_ABOVE,
            // All targets in one go: the window's program then shares every dependency with the tests.
            work: |place| {
                run(linted(cargo(
                    &place.root,
                    &[&["build", "--workspace", "--all-targets"], FEATURES].concat(),
                )))
            },
        },
        Step {
            title: "the generated TypeScript types and schema are fresh",
            remedy: "run `cargo xtask types` and commit what changed.",
            work: |place| {
                let mut typegen = Command::new(place.program("debug", "typegen"));
                typegen.current_dir(&place.root).arg("--check");
                run(typegen)
            },
        },
        Step {
            title: "the app compiles for the phone (Android, without its SDK)",
            remedy: READ_ABOVE,
            work: |place| {
                run(cargo(
                    &place.root,
                    &["check", "-p", "mastwright-app", "--target", "aarch64-linux-android"],
                ))
            },
        },
    ]
}

/// What the Rust code does.
fn rust() -> Vec<Step> {
    vec![
        Step {
            title: "all Rust tests",
            remedy: "the failed test is named above; `cargo test NAME` runs it alone.",
            work: |place| {
                run(linted(cargo(&place.root, &[&["test", "--workspace", "--quiet"], FEATURES].concat())))
            },
        },
        Step {
            title: "the native and the browser engine give the same answers",
            remedy: "look for arithmetic that does not go through the engine's numerics::real.",
            work: agreement,
        },
    ]
}

/// The app as its user sees it.
fn faces() -> Vec<Step> {
    vec![
        Step {
            title: "the journey in a browser of a phone's size",
            remedy: "pictures of the failure are in tests/browser/out.",
            work: browser_journey,
        },
        Step {
            title: "the journey in the app's own window",
            remedy: "a picture of the last screen is in tests/window/out.",
            work: window::journey,
        },
    ]
}

/// Our own crates are compiled by the compiler that lints, too, and what it warns of is an error. `cargo clippy` would look at
/// every library once more on its own, five minutes of a clean clone. The words are those by which it hands its
/// arguments on.
fn linted(mut cargo: Command) -> Command {
    cargo.env("RUSTC_WORKSPACE_WRAPPER", "clippy-driver");
    cargo.env("CLIPPY_ARGS", "-D__CLIPPY_HACKERY__warnings__CLIPPY_HACKERY__");
    cargo
}

fn agreement(place: &Place) -> Result<(), String> {
    wasm::for_node(place)?;
    let only = ["--test", "agreement", "--", "--ignored"];
    let mut test =
        linted(cargo(&place.root, &[&["test", "--workspace", "--quiet"], FEATURES, &only].concat()));
    test.env("MASTWRIGHT_NODE_WASM", place.node_wasm());
    run(test)
}

fn browser_journey(place: &Place) -> Result<(), String> {
    let chromium = setup::chromium().ok_or("No Chromium was found; name one in $CHROMIUM.")?;
    let address = serve::serve_beside(&place.ui_dist(), 0)?;
    let mut journey = npm(&place.browser_tests(), &["test"]);
    journey.env("CHROMIUM", chromium).env("MASTWRIGHT_URL", address);
    journey.env("MASTWRIGHT_CLI", place.program("debug", "mastwright"));
    run(journey)
}
