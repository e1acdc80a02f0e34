//! The list of operations, and how one is run by its name.

use mastwright_engine::job::{FieldError, FieldErrors, Job};
use mastwright_engine::survey::hold::HoldState;
use serde::Serialize;
use serde::de::DeserializeOwned;

use crate::messages::*;
use crate::run;

macro_rules! operations {
    ($($(#[doc = $doc:literal])* $name:ident: $request:ty => $answer:ty;)*) => {
        /// The operations by name, each with what it does.
        pub const OPERATIONS: &[(&str, &str)] = &[$((stringify!($name), concat!($($doc),*)),)*];

        /// Runs an operation: `request` is its JSON request; the answer is `{"ok": …}` or
        /// `{"error": {"errors": […]}}`, always valid JSON.
        pub fn call(operation: &str, request: &str) -> String {
            match operation {
                $(stringify!($name) => answer::<$request, $answer>(request, run::$name),)*
                other => refused(unknown(other)),
            }
        }

        /// Shows every request and answer to the writer of the TypeScript types.
        #[cfg(feature = "typegen")]
        pub fn visit_messages(visitor: &mut impl ts_rs::TypeVisitor) {
            $(visitor.visit::<$request>(); visitor.visit::<$answer>();)*
        }

        /// The operations as TypeScript: an interface of request and answer by name.
        #[cfg(feature = "typegen")]
        pub fn typescript_interface(config: &ts_rs::Config) -> String {
            use ts_rs::TS;
            let mut text = String::from("/** What each operation is asked and what it answers. */\nexport interface Operations {\n");
            $(text.push_str(&format!(
                "  /** {} */\n  {}: {{ request: {}; answer: {} }};\n",
                concat!($($doc),*).trim(),
                stringify!($name),
                <$request as TS>::name(config),
                <$answer as TS>::name(config),
            ));)*
            text + "}\n"
        }
    };
}

operations! {
    /// The demo job, Lantern Green.
    demo: Nothing => Job;
    /// An empty job to fill in.
    blank: BlankRequest => Job;
    /// Everything wrong with a document.
    check: JobRequest => CheckAnswer;
    /// The plan with its pictures and words.
    plan: PlanRequest => PlanAnswer;
    /// Reads what was typed into a field.
    read_entry: EntryRequest => EntryAnswer;
    /// Whether a phone lies still, and the slope it reads.
    hold: HoldRequest => HoldState;
    /// The printed staking map.
    map_sheet: MapSheetRequest => SvgAnswer;
    /// The job as its readable document.
    job_text: JobRequest => TextAnswer;
    /// The published tables of tubes.
    tube_sizes: Nothing => TubeSizesAnswer;
}

fn answer<Q: DeserializeOwned, A: Serialize>(request: &str, run: fn(&Q) -> Result<A, FieldErrors>) -> String {
    let read = serde_json::from_str::<Q>(request).map_err(|error| not_understood(&error.to_string()));
    match read.and_then(|request| run(&request)) {
        Ok(answer) => granted(&answer),
        Err(errors) => refused(errors),
    }
}

#[derive(Serialize)]
struct Granted<'a, A> {
    ok: &'a A,
}

#[derive(Serialize)]
struct Refused {
    error: FieldErrors,
}

fn granted<A: Serialize>(answer: &A) -> String {
    serde_json::to_string(&Granted { ok: answer })
        .unwrap_or_else(|error| refused(not_understood(&format!("an answer that can't be written: {error}"))))
}

fn refused(error: FieldErrors) -> String {
    // Strings only: this can't fail to be written, and the literal keeps the answer valid JSON if it ever does.
    serde_json::to_string(&Refused { error }).unwrap_or_else(|_| r#"{"error":{"errors":[]}}"#.to_owned())
}

fn not_understood(what: &str) -> FieldErrors {
    FieldError::new("", what, "a request of this operation").into()
}

fn unknown(operation: &str) -> FieldErrors {
    let names: Vec<&str> = OPERATIONS.iter().map(|(name, _)| *name).collect();
    FieldError::new("", operation, names.join(", ")).into()
}
