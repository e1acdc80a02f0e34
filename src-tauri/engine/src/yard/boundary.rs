//! yard boundary
