//! How high the pressure rises where water is stopped.

use crate::unit::{Acceleration, Distance, Duration, Speed};

/// The rise of head where water that had a speed is stopped at once (Joukowsky): ΔH = a·ΔV/g.
#[must_use]
pub fn rise(wave: Speed, stopped: Speed, gravity: Acceleration) -> Distance {
    wave * (stopped / gravity)
}

/// How long a wave takes to the far end and back: T = 2L/a. A stop within it is a stop at once.
#[must_use]
pub fn critical_time(length: Distance, wave: Speed) -> Duration {
    length * 2.0 / wave
}

/// The rise of head where a valve closes evenly and in more than the critical time: ΔH = 2·L·ΔV/(g·t).
#[must_use]
pub fn slow(length: Distance, stopped: Speed, time: Duration, gravity: Acceleration) -> Distance {
    length * 2.0 * (stopped / gravity / time)
}

/// What a closure makes.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Closing {
    /// The rise of head.
    pub head: Distance,
    /// It is as much as if it were stopped at once.
    pub at_once: bool,
}

/// The rise of an even closure in some time: the whole rise within the critical time, less beyond it.
#[must_use]
pub fn closing(
    length: Distance,
    wave: Speed,
    stopped: Speed,
    time: Duration,
    gravity: Acceleration,
) -> Closing {
    let at_once = time <= critical_time(length, wave);
    Closing {
        head: if at_once {
            rise(wave, stopped, gravity)
        } else {
            slow(length, stopped, time, gravity)
        },
        at_once,
    }
}
