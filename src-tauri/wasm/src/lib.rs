//! The engine in the browser: JSON in, JSON out, the same operations as every other face. Nothing runs before
//! the first call.

use std::cell::RefCell;

use mastwright_api::Session;
use wasm_bindgen::prelude::wasm_bindgen;

thread_local! {
    /// The job in hand of this worker.
    static SESSION: RefCell<Session> = RefCell::default();
}

/// One operation of the api; what is wrong with the request comes back inside the answer.
#[wasm_bindgen]
pub fn call(operation: &str, request_json: &str) -> String {
    SESSION.with_borrow_mut(|session| session.call(operation, request_json))
}

#[wasm_bindgen]
extern "C" {
    /// An object of the caller's with one method.
    pub type Watcher;

    /// Is told how far the operation is (JSON of `Progress`), and answers whether it goes on.
    #[wasm_bindgen(method)]
    fn progress(this: &Watcher, progress_json: &str) -> bool;
}

/// One operation that takes long enough to be watched. The thread that calls it is busy until the end: nothing can
/// reach it meanwhile but the watcher's own answers.
#[wasm_bindgen]
pub fn call_watched(operation: &str, request_json: &str, watcher: &Watcher) -> String {
    mastwright_api::call_watched(operation, request_json, &mut |progress| {
        // Numbers and JSON values: this can't fail to be written.
        let text = serde_json::to_string(progress).unwrap_or_default();
        watcher.progress(&text)
    })
}
