//! Frees a two-wire bus.
//!
//! A processor that is reset in the middle of a byte leaves the part at the other end waiting for clocks, perhaps with the
//! data line held low. Then nobody can start a transfer. Nine clocks bring it to the end of any byte, where it lets go:
//! UM10204, the specification of the bus, under "bus clear" (recalled, not seen).

use embedded_hal::delay::DelayNs;
use embedded_hal::digital::{InputPin, OutputPin};

/// A byte and its acknowledgement.
const CLOCKS: usize = 9;
/// Half of a clock at 100 kHz, which every part follows; microseconds.
const HALF: u32 = 5;

/// Clocks until nobody holds the data line, ends what was begun, and says whether the bus is free. A pin that is set high must
/// not drive its line but let it rise.
///
/// # Errors
///
/// Those of the pins.
pub fn free<D, C, E>(data: &mut D, clock: &mut C, delay: &mut impl DelayNs) -> Result<bool, E>
where
    D: InputPin<Error = E> + OutputPin,
    C: InputPin<Error = E> + OutputPin,
{
    data.set_high()?;
    clock.set_high()?;
    delay.delay_us(HALF);
    for _ in 0..CLOCKS {
        if data.is_high()? {
            break;
        }
        clock.set_low()?;
        delay.delay_us(HALF);
        clock.set_high()?;
        delay.delay_us(HALF);
    }
    // A start, and then a stop: whatever was begun is over.
    data.set_low()?;
    delay.delay_us(HALF);
    data.set_high()?;
    delay.delay_us(HALF);
    Ok(data.is_high()? && clock.is_high()?)
}

#[cfg(test)]
mod tests {
    use core::cell::{Cell, RefCell};
    use core::convert::Infallible;
    use std::rc::Rc;

    use embedded_hal::digital::ErrorType;

    use super::*;

    /// A bus with a part that is in the middle of a byte.
    #[derive(Default)]
    struct Bus {
        data_let_go: Cell<bool>,
        clock_let_go: Cell<bool>,
        /// Clocks until the part lets go of the data line; holds it until then.
        left: Cell<u32>,
        clocks: Cell<u32>,
        /// Who else holds the clock.
        clock_held: bool,
        stopped: Cell<bool>,
        waited: RefCell<u32>,
    }

    struct Data(Rc<Bus>);
    struct Clock(Rc<Bus>);
    struct Time(Rc<Bus>);

    impl ErrorType for Data {
        type Error = Infallible;
    }
    impl ErrorType for Clock {
        type Error = Infallible;
    }

    impl Bus {
        fn data(&self) -> bool {
            self.data_let_go.get() && self.left.get() == 0
        }
        fn clock(&self) -> bool {
            self.clock_let_go.get() && !self.clock_held
        }
    }

    impl OutputPin for Data {
        fn set_low(&mut self) -> Result<(), Infallible> {
            self.0.data_let_go.set(false);
            Ok(())
        }
        fn set_high(&mut self) -> Result<(), Infallible> {
            let before = self.0.data();
            self.0.data_let_go.set(true);
            // Data that rise while the clock is high are a stop.
            self.0
                .stopped
                .set(!before && self.0.data() && self.0.clock());
            Ok(())
        }
    }

    impl InputPin for Data {
        fn is_high(&mut self) -> Result<bool, Infallible> {
            Ok(self.0.data())
        }
        fn is_low(&mut self) -> Result<bool, Infallible> {
            Ok(!self.0.data())
        }
    }

    impl OutputPin for Clock {
        fn set_low(&mut self) -> Result<(), Infallible> {
            if self.0.clock() {
                self.0.clocks.set(self.0.clocks.get() + 1);
                self.0.left.set(self.0.left.get().saturating_sub(1));
            }
            self.0.clock_let_go.set(false);
            Ok(())
        }
        fn set_high(&mut self) -> Result<(), Infallible> {
            self.0.clock_let_go.set(true);
            Ok(())
        }
    }

    impl InputPin for Clock {
        fn is_high(&mut self) -> Result<bool, Infallible> {
            Ok(self.0.clock())
        }
        fn is_low(&mut self) -> Result<bool, Infallible> {
            Ok(!self.0.clock())
        }
    }

    impl DelayNs for Time {
        fn delay_ns(&mut self, nanoseconds: u32) {
            *self.0.waited.borrow_mut() += nanoseconds;
        }
    }

    fn freed(bus: Bus) -> (bool, Rc<Bus>) {
        let bus = Rc::new(bus);
        let (mut data, mut clock) = (Data(bus.clone()), Clock(bus.clone()));
        let Ok(free) = free(&mut data, &mut clock, &mut Time(bus.clone()));
        (free, bus)
    }

    #[test]
    fn a_part_anywhere_in_a_byte_lets_go() {
        for left in 0..=9 {
            let (free, bus) = freed(Bus {
                left: Cell::new(left),
                ..Bus::default()
            });
            assert!(free && bus.stopped.get(), "{left} clocks");
            // No more clocks than it needs: a part that is at rest takes them for nothing, but one that is not would go on.
            assert_eq!(bus.clocks.get(), left);
            // At 100 kHz or slower.
            assert!(*bus.waited.borrow() >= left * 10_000);
        }
    }

    #[test]
    fn a_line_that_is_stuck_is_told() {
        let (free, bus) = freed(Bus {
            left: Cell::new(u32::MAX),
            ..Bus::default()
        });
        assert!(!free);
        assert_eq!(bus.clocks.get(), 9);
        let (free, _) = freed(Bus {
            clock_held: true,
            ..Bus::default()
        });
        assert!(!free);
    }
}
