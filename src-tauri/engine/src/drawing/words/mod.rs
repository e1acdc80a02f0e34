//! The sentences of pictures and sheets: what a picture shows, for those who can't see it, and what stands on paper beside the
//! figures. All others are made in `report::words`.

pub(crate) mod map;
pub(crate) mod pictures;
pub(crate) mod seen;
pub(crate) mod sheet;
pub(crate) mod workshop;
