//! Paper in the browser: the operations that draw pages, and their PDF. A module of its own beside `mastwright-wasm`,
//! which a browser loads when somebody prints.

use wasm_bindgen::prelude::wasm_bindgen;

/// One operation on paper; what is wrong with the request comes back inside the answer.
#[wasm_bindgen]
pub fn call_on_paper(operation: &str, request_json: &str) -> String {
    mastwright_api::call_on_paper(operation, request_json)
}

/// The sheets of a job as the bytes of a PDF.
///
/// # Errors
/// The JSON answer that names what is wrong with the request.
#[wasm_bindgen]
pub fn sheets_pdf(request_json: &str) -> Result<Vec<u8>, String> {
    mastwright_paper::sheets_pdf(request_json)
}
