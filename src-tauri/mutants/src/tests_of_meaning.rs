//! Which tests are run: those that say what a number must be.

/// Tests left out, by the beginning of their name, with the reason.
pub const LEFT_OUT: &[(&str, &str, &str)] = &[
    ("mastwright_engine", "drawing::", "pictures: where words and lines stand on a page"),
    ("mastwright_engine", "report::", "words: what a number is called and how it is rounded"),
    ("mastwright_engine", "demo::", "the demo's own numbers"),
    ("properties", "floors::", "reads the source text, which the switches change"),
    ("properties", "sentences::", "reads the source text, which the switches change"),
    ("properties", "names::", "reads the source text, which the switches change"),
    ("properties", "one_system::", "reads every text of the project, no number"),
    ("properties", "pages::", "pictures: where blocks stand on a page"),
    ("properties", "cost::", "counts solves, no number of a plan"),
    ("properties", "printed_kinds::", "reads the list of tests, no number"),
    ("published", "references::", "reads the source text and the list of books, no number"),
    ("published", "job_schema::", "form of the document, no number"),
];

/// Whether a test is one of meaning.
pub fn is_meant(binary: &str, test: &str) -> bool {
    !LEFT_OUT.iter().any(|(in_binary, begins, _)| *in_binary == binary && test.starts_with(begins))
}
