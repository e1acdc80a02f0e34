//! Cross-field checks.
