//! The one list of operations. Every face (the app's commands, the browser's worker, the command line) calls
//! these and nothing else; requests and answers are JSON, and the TypeScript types are generated from here.
//!
//! - [`archive`]: a job with its photos as one file
//! - [`capture`]: messages and work of the operations that read the phone's sensors
//! - [`codes`]: a job as pictures for another device's camera, and read from them
//! - [`disk`]: why a disk refused, in words
//! - [`kept`]: whether what was kept can be opened
//! - [`merge`]: two states of one job brought together
//! - [`messages`]: what is asked and answered
//! - [`operations`]: the list; [`call`], which runs one by its name; [`call_watched`], which runs a long one and tells
//!   how far it is; [`call_on_paper`], which runs one that draws pages
//! - [`run`]: what each operation does
//! - [`session`]: a job in hand, so that a drag pays only for what moved
//! - [`view`]: what is seen from a standpoint, kept so that the eyes may turn
//! - [`wind`]: messages and work of the operations about wind
//! - [`cards`]: messages and work of the operation of the step cards
//! - [`plumb`]: messages and work of the operations that plumb the mast live
//! - [`lighting`]: messages and work of the operation on the lights' current
//! - [`ringing`]: messages and work of the operations that read how tight the guys are
//! - [`season`]: messages and work of the operations of the season's diary
//! - [`workshop`]: messages and work of the operations of the workshop
//! - `typegen`: the schema and the TypeScript types (feature `typegen`)

pub mod archive;
pub mod capture;
pub mod cards;
pub mod codes;
pub mod disk;
pub mod kept;
pub mod lighting;
pub mod merge;
pub mod messages;
pub mod operations;
pub mod plumb;
pub mod ringing;
pub mod run;
pub mod season;
pub mod session;
#[cfg(feature = "typegen")]
pub mod typegen;
pub mod view;
pub mod wind;
pub mod workshop;

pub use operations::{OPERATIONS, asked, call, call_on_paper, call_watched};
pub use session::Session;
