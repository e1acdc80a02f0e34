//! Times too long for a benchmark's many rounds, printed on request and never asserted.

#[path = "../support/yardstick.rs"]
mod yardstick;

mod drawing;
mod ground;
mod rough;
#[path = "../support/rough.rs"]
mod rough_yard;
