//! survey wmm2025
