//! tube telescope
