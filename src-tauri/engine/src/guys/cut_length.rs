//! guys cut_length
