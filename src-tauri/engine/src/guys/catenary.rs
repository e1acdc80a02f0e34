//! guys catenary
