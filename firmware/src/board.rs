//! What a board must offer, and the loop that runs the application on it.
//!
//! A board is clocks, pins and an implementation of [`Board`]; everything that can be wrong about a reading, a screen or a
//! message is in the application, where a host can test it.

use crate::frame::Frame;

/// The buttons.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Key {
    /// Page up.
    Up,
    /// Page down.
    Down,
    /// Back.
    Left,
    /// On to what follows.
    Right,
    /// Choose, answer, confirm.
    Set,
}

/// What a board must offer. Nothing here waits.
pub trait Board {
    /// Milliseconds since some start; wraps around.
    fn now(&mut self) -> u32;

    /// The next byte that the gauge sent, if one has come.
    fn gauge(&mut self) -> Option<u8>;

    /// The next byte that the host sent, if one has come.
    fn host(&mut self) -> Option<u8>;

    /// The next button that was pressed, bounces taken out.
    fn key(&mut self) -> Option<Key>;

    /// Sends a byte to the host; `false` when there is no room now.
    fn send(&mut self, byte: u8) -> bool;

    /// Shows a picture.
    fn show(&mut self, frame: &Frame);

    /// Says that the loop is alive. A board without a watchdog does nothing.
    fn alive(&mut self);
}
