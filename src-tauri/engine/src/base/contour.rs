//! base contour
