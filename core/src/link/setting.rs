//! Settings of a device that a host may change. They are kept in RAM and gone when it is switched off.

use core::fmt;

use serde::{Deserialize, Serialize};

use super::counts::Counts;
use super::query::WireSite;
use crate::length::{Length, Unit};
use crate::numbers::SiteTold;
use crate::reading::Site;

/// A unit of length on the wire.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub(super) enum WireUnit {
    Inch,
    Millimetre,
}

impl From<Unit> for WireUnit {
    fn from(unit: Unit) -> Self {
        match unit {
            Unit::Inch => Self::Inch,
            Unit::Millimetre => Self::Millimetre,
        }
    }
}

impl From<WireUnit> for Unit {
    fn from(unit: WireUnit) -> Self {
        match unit {
            WireUnit::Inch => Self::Inch,
            WireUnit::Millimetre => Self::Millimetre,
        }
    }
}

/// A setting and its new value.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Setting {
    /// The unit in which lengths are shown.
    Unit(Unit),
    /// How deep the caliper's jaws are; `None` for deep enough.
    JawDepth(Option<Length>),
    /// Where the pipe lies.
    Site(Site),
    /// Whether the pipe is buried.
    Buried(bool),
    /// The unit of a gauge that names none.
    GaugeUnit(Unit),
    /// What is told of the trench, all of it at once.
    Told(SiteTold),
}

/// Why a setting was not changed.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[non_exhaustive]
pub enum NotSet {
    /// No device takes that value.
    OutOfRange,
    /// This device has no such setting.
    Absent,
    /// Not while the device does what it does.
    NotNow,
}

impl fmt::Display for NotSet {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::OutOfRange => "the value is out of range",
            Self::Absent => "the device has no such setting",
            Self::NotNow => "the device cannot change it now",
        })
    }
}

impl core::error::Error for NotSet {}

/// A setting on the wire; the order of variants is the protocol.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub(super) enum WireSetting {
    Unit(WireUnit),
    JawDepth(Option<Counts>),
    Site(WireSite),
    Buried(bool),
    GaugeUnit(WireUnit),
    /// The site in one number.
    Told(u64),
}

impl From<Setting> for WireSetting {
    fn from(setting: Setting) -> Self {
        match setting {
            Setting::Unit(unit) => Self::Unit(unit.into()),
            Setting::JawDepth(depth) => Self::JawDepth(depth.map(Counts::from)),
            Setting::Site(site) => Self::Site(site.into()),
            Setting::Buried(buried) => Self::Buried(buried),
            Setting::GaugeUnit(unit) => Self::GaugeUnit(unit.into()),
            Setting::Told(told) => Self::Told(told.packed()),
        }
    }
}

impl WireSetting {
    /// The setting; `None` where it means nothing.
    #[inline]
    pub(super) fn read(self) -> Option<Setting> {
        Some(match self {
            Self::Unit(unit) => Setting::Unit(unit.into()),
            Self::JawDepth(depth) => Setting::JawDepth(depth.map(Length::from)),
            Self::Site(site) => Setting::Site(site.into()),
            Self::Buried(buried) => Setting::Buried(buried),
            Self::GaugeUnit(unit) => Setting::GaugeUnit(unit.into()),
            Self::Told(told) => Setting::Told(SiteTold::unpacked(told)?),
        })
    }
}
