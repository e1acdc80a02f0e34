//! The one list of operations. Every face (the app's commands, the browser's worker, the command line) calls
//! these and nothing else; requests and answers are JSON, and the TypeScript types are generated from here.
//!
//! - [`messages`]: what is asked and answered
//! - [`operations`]: the list, and [`call`], which runs one by its name
//! - [`run`]: what each operation does
//! - `typegen`: the schema and the TypeScript types (feature `typegen`)

pub mod messages;
pub mod operations;
pub mod run;
#[cfg(feature = "typegen")]
pub mod typegen;

pub use operations::{OPERATIONS, call};
