//! What a browser loads first: the operations that show a job's map and follow a finger on it. The whole engine beside it,
//! `mastwright-wasm`, is loaded when anything else is asked for.

use std::cell::RefCell;

use mastwright_api::Session;
use wasm_bindgen::prelude::wasm_bindgen;

thread_local! {
    /// The job in hand of this worker.
    static SESSION: RefCell<Session> = RefCell::default();
}

/// One operation of those that are there from the beginning; none where it is not one of them.
#[wasm_bindgen]
pub fn call_at_first(operation: &str, request_json: &str) -> Option<String> {
    SESSION.with_borrow_mut(|session| session.call_at_first(operation, request_json))
}
