//! What the parts above the ground can safely carry: tubes, threads, ropes, timber.
//!
//! Each number names its publication and its factor. What the ground can hold stands in [`crate::anchor`].

pub mod aisc360;
pub mod collar;
pub mod condition;
pub mod en1993;
pub mod factors;
pub mod pin;
pub mod rope;
pub mod threaded;
pub mod timber;
pub mod tube;
pub mod unshown;
pub mod verdict;

pub use condition::{Condition, GroundClass};
pub use tube::{SteelTube, TubeCode, TubeStrength};
pub use unshown::{
    GroundUnshown, MastUnshown, NumberUnshown, RopeUnshown, TimberUnshown, TubeUnshown, Unshown,
};
pub use verdict::{Resistance, ShownResistance};
