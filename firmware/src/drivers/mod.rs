//! What speaks to parts outside the processor, over the traits of `embedded-hal`, so that a host can test it.

pub mod intake;
pub mod keys;
pub mod ssd0323;
pub mod ssd1306;
pub mod two_wire;
