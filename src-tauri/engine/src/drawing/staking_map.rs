//! drawing staking_map
