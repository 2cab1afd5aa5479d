//! Frames out of the edges of a clock.
//!
//! A frame is what lies between two silences of the clock. Its end is only known once the silence is there: a frame of
//! the right length with one clock more is a broken one, and must not have been shown by then.

use super::Trouble;

/// A clock that rests as long as this has ended its frame, microseconds. No gauge known rests half as long inside one.
pub(super) const SILENCE: u32 = 5_000;

/// No frame takes longer, microseconds: 30 ms by specification, 11 ms measured, and room for slow ones.
const LONGEST: u32 = 60_000;

/// Which of the two edges of a clock pulse finds the data settled.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Sampled {
    /// The edge away from where the clock rests.
    Leaving,
    /// The edge back to it.
    Returning,
}

/// How a format uses its clock.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Timing {
    /// A level of the clock shorter than this is no pulse, microseconds.
    pub(super) shortest: u32,
    /// Where data are read.
    pub(super) sampled: Sampled,
    /// Whether a clock that rests low is that of a wiring which inverts both lines; else it must rest high.
    pub(super) inverts: bool,
}

/// The bits between two silences, the first in the lowest place.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Frame {
    pub(super) bits: u64,
    /// How many there were, also beyond 64.
    pub(super) count: u8,
    /// Whether the data line was high at any edge of the clock, as it is at the gauge.
    pub(super) high: bool,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum State {
    /// Out of step, until a silence.
    Lost,
    /// In a silence.
    Still,
    /// In a frame that began then.
    Running { began: u32, rests_high: bool },
}

/// Gathers frames.
#[derive(Clone, Copy, Debug)]
pub(super) struct Edges {
    timing: Timing,
    state: State,
    /// When the clock last moved, or when watching began.
    since: u32,
    clock: bool,
    data: bool,
    frame: Frame,
}

impl Edges {
    /// Begins to watch: when, and the levels that the two lines have.
    pub(super) const fn new(timing: Timing, now: u32, clock: bool, data: bool) -> Self {
        Self {
            timing,
            state: State::Lost,
            since: now,
            clock,
            data,
            frame: NOTHING,
        }
    }

    /// Takes in that a line moved. One result at most: a frame that had ended, or that this one broke.
    pub(super) fn edge(
        &mut self,
        now: u32,
        clock: bool,
        data: bool,
    ) -> Option<Result<Frame, Trouble>> {
        let ended = self.elapse(now);
        let broken = self.moved(now, clock, data).err();
        if broken.is_some() {
            self.state = State::Lost;
        }
        // An edge that ends a frame is the first of the next: if it broke that one too, the next is merely lost.
        ended.or(broken.map(Err))
    }

    /// Takes in that time passed.
    pub(super) fn elapse(&mut self, now: u32) -> Option<Result<Frame, Trouble>> {
        if self.state == State::Still || elapsed(self.since, now) < SILENCE {
            return None;
        }
        let ended = self.state;
        self.state = State::Still;
        let State::Running { rests_high, .. } = ended else {
            return None;
        };
        Some(if self.clock == rests_high {
            Ok(self.frame)
        } else {
            Err(Trouble::MissedEdge)
        })
    }

    /// An edge inside a frame, or the first of one.
    fn moved(&mut self, now: u32, clock: bool, data: bool) -> Result<(), Trouble> {
        let data_moved = core::mem::replace(&mut self.data, data) != data;
        if core::mem::replace(&mut self.clock, clock) == clock {
            // The driver may report edges of the data line as well.
            if data_moved {
                return Ok(());
            }
            // The clock moved twice before anybody looked.
            self.since = now;
            return match self.state {
                State::Lost => Ok(()),
                State::Still | State::Running { .. } => Err(Trouble::MissedEdge),
            };
        }
        let lasted = elapsed(core::mem::replace(&mut self.since, now), now);
        let rests_high = match self.state {
            State::Lost => return Ok(()),
            State::Still => {
                let rests_high = !clock;
                if !rests_high && !self.timing.inverts {
                    return Err(Trouble::Idle);
                }
                self.state = State::Running {
                    began: now,
                    rests_high,
                };
                self.frame = NOTHING;
                rests_high
            }
            State::Running { began, rests_high } => {
                if lasted < self.timing.shortest {
                    return Err(Trouble::Glitch);
                }
                if elapsed(began, now) > LONGEST {
                    return Err(Trouble::Slow);
                }
                rests_high
            }
        };
        let returning = clock == rests_high;
        let high = data == rests_high;
        self.frame.high |= high;
        if returning == (self.timing.sampled == Sampled::Returning) {
            self.frame.bits |= u64::from(high)
                .checked_shl(u32::from(self.frame.count))
                .unwrap_or(0);
            self.frame.count = self.frame.count.saturating_add(1);
        }
        Ok(())
    }
}

/// Microseconds from one time to another. A driver may look at its clock, be interrupted by an edge, and only then say
/// how late it is: a time before the other is no time at all, and not an hour.
pub(super) fn elapsed(then: u32, now: u32) -> u32 {
    let elapsed = now.wrapping_sub(then);
    if elapsed > u32::MAX / 2 { 0 } else { elapsed }
}

const NOTHING: Frame = Frame {
    bits: 0,
    count: 0,
    high: false,
};
