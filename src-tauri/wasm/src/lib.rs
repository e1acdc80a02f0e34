//! The engine in the browser: JSON in, JSON out, the same operations as every other face. Nothing runs before
//! the first call.

use wasm_bindgen::prelude::wasm_bindgen;

/// One operation of the api; what is wrong with the request comes back inside the answer.
#[wasm_bindgen]
pub fn call(operation: &str, request_json: &str) -> String {
    mastwright_api::call(operation, request_json)
}
