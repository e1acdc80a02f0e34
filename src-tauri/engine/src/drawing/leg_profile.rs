//! drawing leg_profile
