//! swing ties
