//! Times too long for a benchmark's many rounds, printed on request and never asserted.

mod drawing;
mod ground;
mod rough;
