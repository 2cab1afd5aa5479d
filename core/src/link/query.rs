//! A query on the wire. The order of variants and fields is the protocol; core's own types may become what they like.

use heapless::Vec;
use serde::{Deserialize, Serialize};

use super::counts::Counts;
use super::print::WireLine;
use crate::clue::{Plans, Told};
use crate::image::layout::MAX_CLUES;
use crate::joint::Job;
use crate::length::Length;
use crate::print::Line;
use crate::reading::{Clock, Query, Reading, Site};

/// The most readings of a query on the wire.
const READINGS: usize = 6;
/// The most clues of a query on the wire.
const TOLD: usize = 16;
const _: () = assert!(Query::CAPACITY <= READINGS && MAX_CLUES <= TOLD);

/// Values that no query holds.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Unusable {
    /// Neither one of the twelve half hours nor across.
    Clock,
    /// A clue that no image has, told twice, or out of order: each query has one spelling.
    Clue,
    /// More readings than a query holds.
    TooMany,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub(super) enum WireSite {
    Unknown,
    Irrigation,
    Municipal,
}

impl From<Site> for WireSite {
    fn from(site: Site) -> Self {
        match site {
            Site::Unknown => Self::Unknown,
            Site::Irrigation => Self::Irrigation,
            Site::Municipal => Self::Municipal,
        }
    }
}

impl From<WireSite> for Site {
    fn from(site: WireSite) -> Self {
        match site {
            WireSite::Unknown => Self::Unknown,
            WireSite::Irrigation => Self::Irrigation,
            WireSite::Municipal => Self::Municipal,
        }
    }
}

/// What is to be bought.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub(super) enum WireJob {
    None,
    Saddle,
    Coupling,
    Length,
    Restraint,
    Tap,
}

impl From<Job> for WireJob {
    fn from(job: Job) -> Self {
        match job {
            Job::None => Self::None,
            Job::Saddle => Self::Saddle,
            Job::Coupling => Self::Coupling,
            Job::Length => Self::Length,
            Job::Restraint => Self::Restraint,
            Job::Tap => Self::Tap,
        }
    }
}

impl From<WireJob> for Job {
    fn from(job: WireJob) -> Self {
        match job {
            WireJob::None => Self::None,
            WireJob::Saddle => Self::Saddle,
            WireJob::Coupling => Self::Coupling,
            WireJob::Length => Self::Length,
            WireJob::Restraint => Self::Restraint,
            WireJob::Tap => Self::Tap,
        }
    }
}

/// A reading; clocks in half hours, 12 for across the one before.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub(super) enum WireReading {
    Diameter {
        value: Counts,
        clock: Option<u8>,
        jaw: Option<Counts>,
        sigma: Option<Counts>,
    },
    DiameterTape {
        value: Counts,
        sigma: Option<Counts>,
    },
    Around {
        value: Counts,
        sigma: Option<Counts>,
    },
    String {
        value: Counts,
        sigma: Option<Counts>,
    },
    Chord {
        chord: Counts,
        rise: Counts,
        sigma: Option<Counts>,
    },
    Along {
        value: Counts,
        clock: Option<u8>,
        jaw: Option<Counts>,
        sigma: Option<Counts>,
    },
    Wall {
        value: Counts,
        sigma: Option<Counts>,
    },
}

impl From<&Reading> for WireReading {
    fn from(reading: &Reading) -> Self {
        match *reading {
            Reading::Diameter {
                value,
                clock,
                jaw,
                sigma,
            } => Self::Diameter {
                value: value.into(),
                clock: clock.map(Clock::count),
                jaw: jaw.map(Counts::from),
                sigma: sigma.map(Counts::from),
            },
            Reading::DiameterTape { value, sigma } => Self::DiameterTape {
                value: value.into(),
                sigma: sigma.map(Counts::from),
            },
            Reading::Around { value, sigma } => Self::Around {
                value: value.into(),
                sigma: sigma.map(Counts::from),
            },
            Reading::String { value, sigma } => Self::String {
                value: value.into(),
                sigma: sigma.map(Counts::from),
            },
            Reading::Chord { chord, rise, sigma } => Self::Chord {
                chord: chord.into(),
                rise: rise.into(),
                sigma: sigma.map(Counts::from),
            },
            Reading::Along {
                value,
                clock,
                jaw,
                sigma,
            } => Self::Along {
                value: value.into(),
                clock: clock.map(Clock::count),
                jaw: jaw.map(Counts::from),
                sigma: sigma.map(Counts::from),
            },
            Reading::Wall { value, sigma } => Self::Wall {
                value: value.into(),
                sigma: sigma.map(Counts::from),
            },
        }
    }
}

impl TryFrom<WireReading> for Reading {
    type Error = Unusable;

    fn try_from(reading: WireReading) -> Result<Self, Unusable> {
        Ok(match reading {
            WireReading::Diameter {
                value,
                clock,
                jaw,
                sigma,
            } => Self::Diameter {
                value: value.into(),
                clock: clock.map(held).transpose()?,
                jaw: jaw.map(Length::from),
                sigma: sigma.map(Length::from),
            },
            WireReading::DiameterTape { value, sigma } => Self::DiameterTape {
                value: value.into(),
                sigma: sigma.map(Length::from),
            },
            WireReading::Around { value, sigma } => Self::Around {
                value: value.into(),
                sigma: sigma.map(Length::from),
            },
            WireReading::String { value, sigma } => Self::String {
                value: value.into(),
                sigma: sigma.map(Length::from),
            },
            WireReading::Chord { chord, rise, sigma } => Self::Chord {
                chord: chord.into(),
                rise: rise.into(),
                sigma: sigma.map(Length::from),
            },
            WireReading::Along {
                value,
                clock,
                jaw,
                sigma,
            } => Self::Along {
                value: value.into(),
                clock: clock.map(held).transpose()?,
                jaw: jaw.map(Length::from),
                sigma: sigma.map(Length::from),
            },
            WireReading::Wall { value, sigma } => Self::Wall {
                value: value.into(),
                sigma: sigma.map(Length::from),
            },
        })
    }
}

/// Where a caliper was held.
fn held(clock: u8) -> Result<Clock, Unusable> {
    match clock {
        0..12 => Ok(Clock::half_hours(clock)),
        12 => Ok(Clock::ACROSS),
        _ => Err(Unusable::Clock),
    }
}

#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub(super) struct WireQuery {
    pub(super) readings: Vec<WireReading, READINGS>,
    pub(super) site: WireSite,
    pub(super) buried: bool,
    /// Hundredths of 1 °F.
    pub(super) temperature: Option<i32>,
    /// Clue and answer, by clue.
    pub(super) clues: Vec<(u8, u8), TOLD>,
    /// Family, and size where the plans name one.
    pub(super) plans: Option<(u8, Option<u8>)>,
    pub(super) job: WireJob,
    /// What is printed on it.
    pub(super) print: Option<WireLine>,
}

impl From<&Query> for WireQuery {
    fn from(query: &Query) -> Self {
        let mut new = Self {
            readings: Vec::new(),
            site: query.site.into(),
            buried: query.buried,
            temperature: query.temperature,
            clues: Vec::new(),
            plans: query.clues.plans.map(|plans| (plans.family, plans.size)),
            job: query.job.into(),
            print: query.clues.print.map(WireLine::from),
        };
        // Neither can be full: see the assertion above.
        for reading in query.readings() {
            let _ = new.readings.push(reading.into());
        }
        for told in query.clues.told() {
            let _ = new.clues.push((told.clue, told.answer));
        }
        new
    }
}

impl TryFrom<WireQuery> for Query {
    type Error = Unusable;

    fn try_from(wire: WireQuery) -> Result<Self, Unusable> {
        let mut query = Self::new();
        query.site = wire.site.into();
        query.buried = wire.buried;
        query.temperature = wire.temperature;
        query.job = wire.job.into();
        query.clues.print = wire.print.map(Line::from);
        query.clues.plans = wire.plans.map(|(family, size)| Plans { family, size });
        for reading in wire.readings {
            query
                .add(reading.try_into()?)
                .map_err(|_| Unusable::TooMany)?;
        }
        let mut least = 0;
        for (clue, answer) in wire.clues {
            if clue < least || usize::from(clue) >= MAX_CLUES {
                return Err(Unusable::Clue);
            }
            least = clue + 1;
            query.clues.tell(Told { clue, answer });
        }
        Ok(query)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn told(clues: &[(u8, u8)]) -> Result<Query, Unusable> {
        let mut wire = WireQuery::from(&Query::new());
        wire.clues = Vec::from_slice(clues).unwrap();
        wire.try_into()
    }

    #[test]
    fn values_that_no_query_holds_are_refused() {
        assert!(told(&[(0, 9), (3, 255), (15, 0)]).is_ok());
        for clues in [
            &[(16, 0)][..],
            &[(255, 0)],
            &[(3, 1), (3, 1)],
            &[(4, 1), (3, 1)],
        ] {
            assert_eq!(told(clues), Err(Unusable::Clue), "{clues:?}");
        }
        let clock = |clock| {
            Reading::try_from(WireReading::Diameter {
                value: Counts(i32::MIN),
                clock: Some(clock),
                jaw: Some(Counts(-1)),
                sigma: None,
            })
        };
        assert!(clock(11).is_ok());
        assert!(matches!(
            clock(12),
            Ok(Reading::Diameter {
                clock: Some(Clock::ACROSS),
                ..
            })
        ));
        assert_eq!(clock(13), Err(Unusable::Clock));
        assert_eq!(clock(255), Err(Unusable::Clock));
    }
}
