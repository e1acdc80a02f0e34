//! Tests from outside: see the folders beside this file.
