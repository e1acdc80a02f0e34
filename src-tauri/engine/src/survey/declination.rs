//! survey declination
