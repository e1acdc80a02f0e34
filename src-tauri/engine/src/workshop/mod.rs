//! The workshop: what is bought, cut, turned and drilled between the plan and the standing mast.
//!
//! A folder a subject, each with its results beside its work; none of it is in the plan that follows a finger. Parts are called
//! by one spelling everywhere ([`key`]): where they are ticked off, where they are measured as made, on paper.
//!
//! What a part measures as made goes before what was planned ([`crate::job::Workshop::made_mm`]), so that the next part fits the one
//! that really lies on the bench.

/// What a part is called where it is ticked off and measured as made, such as `tube:0`.
pub fn key(kind: &str, which: usize) -> String {
    format!("{kind}:{which}")
}
