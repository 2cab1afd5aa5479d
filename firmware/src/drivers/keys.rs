//! Buttons without their bounces.
//!
//! Every button has a weight of milliseconds that rises while its line is away from rest and falls while it is not. It is
//! pressed when the weight is full, and released when none is left: contacts that chatter move it to and fro in between.
//!
//! A line is at rest at the level that it has at the start. A wrong guess does no harm: who holds a button while switching on
//! is answered when letting go. On the emulated board every line reads pressed until its first event, so that there, a
//! button answers when it is let go.

use embedded_hal::digital::InputPin;

use crate::board::Key;

/// Milliseconds away from rest that make a press; contacts of small buttons chatter for less (common practice, no source).
pub const SETTLE_MS: u8 = 12;
/// The most that one look counts, however long ago the last one was: a slow loop needs three looks, as a quick one does.
pub const LOOK_MS: u8 = 4;

/// The buttons and their lines.
#[derive(Debug)]
pub struct Keys<P, const N: usize> {
    buttons: [Button<P>; N],
    looked: u32,
}

#[derive(Debug)]
struct Button<P> {
    key: Key,
    line: P,
    /// The level at rest.
    rest: bool,
    weight: u8,
    down: bool,
    /// Pressed, and nobody was told.
    due: bool,
}

impl<P: InputPin, const N: usize> Keys<P, N> {
    /// Takes the level of each line now for its rest.
    pub fn new(lines: [(Key, P); N], now: u32) -> Self {
        Self {
            buttons: lines.map(|(key, mut line)| Button {
                key,
                // A line that cannot be read is taken for one that is pulled up.
                rest: line.is_high().unwrap_or(true),
                line,
                weight: 0,
                down: false,
                due: false,
            }),
            looked: now,
        }
    }

    /// The next button that was pressed, if one was. `now` counts milliseconds and may wrap around. Lines are looked at once in
    /// a millisecond at most, so that this may be asked as often as one likes.
    pub fn poll(&mut self, now: u32) -> Option<Key> {
        let passed = u8::try_from(now.wrapping_sub(self.looked)).unwrap_or(u8::MAX);
        if passed > 0 {
            self.looked = now;
            for button in &mut self.buttons {
                button.look(passed.min(LOOK_MS));
            }
        }
        let button = self.buttons.iter_mut().find(|button| button.due)?;
        button.due = false;
        Some(button.key)
    }
}

impl<P: InputPin> Button<P> {
    fn look(&mut self, passed: u8) {
        // A line that cannot be read now says nothing new.
        let Ok(level) = self.line.is_high() else {
            return;
        };
        if level == self.rest {
            self.weight = self.weight.saturating_sub(passed);
        } else {
            self.weight = self.weight.saturating_add(passed).min(SETTLE_MS);
        }
        if self.weight == SETTLE_MS && !self.down {
            self.down = true;
            self.due = true;
        } else if self.weight == 0 {
            self.down = false;
        }
    }
}

#[cfg(test)]
mod tests {
    use core::cell::Cell;
    use core::convert::Infallible;

    use embedded_hal::digital::ErrorType;

    use super::*;

    struct Line<'a>(&'a Cell<bool>);

    impl ErrorType for Line<'_> {
        type Error = Infallible;
    }

    impl InputPin for Line<'_> {
        fn is_high(&mut self) -> Result<bool, Infallible> {
            Ok(self.0.get())
        }
        fn is_low(&mut self) -> Result<bool, Infallible> {
            Ok(!self.0.get())
        }
    }

    /// How often a button is seen pressed while its line takes these levels, each for a look.
    fn presses(rest: bool, start: u32, apart: u32, levels: impl IntoIterator<Item = bool>) -> u32 {
        let line = Cell::new(rest);
        let mut keys = Keys::new([(Key::Set, Line(&line))], start);
        let mut now = start;
        let mut pressed = 0;
        for level in levels {
            line.set(level);
            now = now.wrapping_add(apart);
            while let Some(key) = keys.poll(now) {
                assert_eq!(key, Key::Set);
                pressed += 1;
            }
        }
        pressed
    }

    fn held(level: bool, looks: usize) -> impl Iterator<Item = bool> {
        core::iter::repeat_n(level, looks)
    }

    #[test]
    fn a_press_is_told_once_however_long_it_is_held() {
        assert_eq!(presses(true, 0, 1, held(false, 500)), 1);
        let twice = || {
            held(false, 30)
                .chain(held(true, 30))
                .chain(held(false, 30))
                .chain(held(true, 30))
        };
        assert_eq!(presses(true, 0, 1, twice()), 2);
        // Across the wrap of the clock.
        assert_eq!(presses(true, u32::MAX - 20, 1, twice()), 2);
    }

    #[test]
    fn a_spike_is_no_press() {
        let settle = usize::from(SETTLE_MS);
        assert_eq!(presses(true, 0, 1, held(false, settle - 1)), 0);
        assert_eq!(presses(true, 0, 1, held(false, settle)), 1);
        let spikes = (0..500).map(|look| look % 4 != 0);
        assert_eq!(presses(true, 0, 1, spikes), 0);
    }

    #[test]
    fn chatter_at_either_edge_is_one_press() {
        let chatter = || (0..9).map(|look| look % 2 == 0);
        let levels = chatter()
            .chain(held(false, 40))
            .chain(chatter())
            .chain(held(true, 40));
        assert_eq!(presses(true, 0, 1, levels), 1);
    }

    #[test]
    fn a_slow_loop_needs_three_looks() {
        assert_eq!(presses(true, 0, 1000, held(false, 2)), 0);
        assert_eq!(presses(true, 0, 1000, held(false, 3)), 1);
    }

    #[test]
    fn the_level_at_the_start_is_rest() {
        assert_eq!(presses(false, 0, 1, held(false, 500)), 0);
        // The emulated board: nothing moves at the first press; every time, letting go is seen.
        let levels = held(false, 100)
            .chain(held(true, 100))
            .chain(held(false, 100))
            .chain(held(true, 100));
        assert_eq!(presses(false, 0, 1, levels), 2);
    }

    #[test]
    fn buttons_at_once_are_told_one_after_the_other() {
        let lines = [Cell::new(true), Cell::new(true), Cell::new(true)];
        let [up, left, set] = &lines;
        let mut keys = Keys::new(
            [
                (Key::Up, Line(up)),
                (Key::Left, Line(left)),
                (Key::Set, Line(set)),
            ],
            0,
        );
        up.set(false);
        set.set(false);
        for now in 0..u32::from(SETTLE_MS) {
            assert_eq!(keys.poll(now), None);
        }
        let now = u32::from(SETTLE_MS);
        assert_eq!(keys.poll(now), Some(Key::Up));
        assert_eq!(keys.poll(now), Some(Key::Set));
        assert_eq!(keys.poll(now), None);
    }
}
