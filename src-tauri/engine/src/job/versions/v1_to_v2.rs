//! Version 2 counts its additions, so that a program knows fields that are newer than itself from fields that are
//! misspelt. All else of version 1, in every shape that landed under that number, reads as it is.

use serde_json::json;

use super::{MINOR, Members, VERSION};

pub(super) fn step(mut document: Members) -> Members {
    document.insert(VERSION.to_owned(), json!(2));
    document.insert(MINOR.to_owned(), json!(0));
    document
}
