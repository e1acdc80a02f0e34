//! leg
pub fn leg_profile() {}
