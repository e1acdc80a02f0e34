//! ground profile
