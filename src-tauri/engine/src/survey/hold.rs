//! survey hold
