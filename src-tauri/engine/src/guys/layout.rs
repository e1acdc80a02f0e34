//! guys layout
