//! yard obstacle
