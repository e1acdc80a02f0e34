//! sheet
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Paper {
    A4,
    Letter,
}
pub fn map_sheet(_j: &crate::job::Job, _c: &crate::plan::Computed, _p: Paper) -> String {
    String::new()
}
