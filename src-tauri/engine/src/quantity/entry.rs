//! Reads a length, an angle, a force or a voltage as a person writes it.
