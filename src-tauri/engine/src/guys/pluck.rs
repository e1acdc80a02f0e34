//! guys pluck
