//! What is told of a site, as a device keeps it.

use crate::unit::{Distance, Pressure, Temperature};

/// What is told of a site. What is not told is asked for, or the worst of it is taken; it is never guessed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct SiteTold {
    /// The highest pressure that a joint here will see, psi; 1 to [`SiteTold::MOST_PSI`].
    pub psi: Option<u16>,
    /// From grade to the top of the pipe, inches; 1 to [`SiteTold::MOST_INCHES`].
    pub cover: Option<u16>,
    /// The soil, a word of the image, an index. Where it is not told the worst row is taken that the pipe has.
    pub soil: Option<u8>,
    /// It lies below groundwater; what is glued is glued in the wet.
    pub wet: bool,
    /// The trench is open: no length holds yet.
    pub open: bool,
    /// How long the sticks are, inches; 12 to [`SiteTold::MOST_INCHES`]. Where it is not told bells are not counted.
    pub stick: Option<u16>,
    /// How warm the pipe is, °F; from [`SiteTold::COLDEST`] to [`SiteTold::HOTTEST`].
    pub fahrenheit: Option<i16>,
}

impl SiteTold {
    /// The highest pressure that a device takes.
    pub const MOST_PSI: u16 = 1000;
    /// The most cover, and the longest stick: 65 ft.
    pub const MOST_INCHES: u16 = 780;
    /// The coldest.
    pub const COLDEST: i16 = -40;
    /// The hottest.
    pub const HOTTEST: i16 = 150;

    /// Nothing is told: an open trench.
    pub const NOTHING: Self = Self {
        psi: None,
        cover: None,
        soil: None,
        wet: false,
        open: true,
        stick: None,
        fahrenheit: None,
    };

    /// In one number, from the lowest bit: pressure (14), groundwater (1), open trench (1), cover (16), stick (16), temperature less
    /// the coldest and one more (8), soil and one more (8); what is not told is zero.
    #[must_use]
    #[inline]
    pub fn packed(&self) -> u64 {
        let degrees = self.fahrenheit.map_or(0, |at| at - Self::COLDEST + 1);
        let soil = self.soil.map_or(0, |word| u64::from(word) + 1);
        u64::from(self.psi.unwrap_or(0))
            | u64::from(self.wet) << 14
            | u64::from(self.open) << 15
            | u64::from(self.cover.unwrap_or(0)) << 16
            | u64::from(self.stick.unwrap_or(0)) << 32
            | u64::from(degrees.unsigned_abs()) << 48
            | soil << 56
    }

    /// Out of such a number; `None` where no device takes such a site.
    #[must_use]
    #[inline]
    pub fn unpacked(packed: u64) -> Option<Self> {
        let [
            low,
            high,
            cover,
            cover_high,
            stick,
            stick_high,
            degrees,
            soil,
        ] = packed.to_le_bytes();
        let told = |value: u16, least: u16, most: u16| match value {
            0 => Some(None),
            value => (least..=most).contains(&value).then_some(Some(value)),
        };
        let inches =
            |low, high, least| told(u16::from_le_bytes([low, high]), least, Self::MOST_INCHES);
        let degrees = told(
            u16::from(degrees),
            1,
            Self::HOTTEST.abs_diff(Self::COLDEST) + 1,
        )?;
        Some(Self {
            psi: told(u16::from_le_bytes([low, high & 0x3f]), 1, Self::MOST_PSI)?,
            cover: inches(cover, cover_high, 1)?,
            soil: soil.checked_sub(1),
            wet: high & 0x40 != 0,
            open: high & 0x80 != 0,
            stick: inches(stick, stick_high, 12)?,
            fahrenheit: degrees.map(|above| Self::COLDEST.saturating_add_unsigned(above) - 1),
        })
    }

    /// The highest pressure.
    #[must_use]
    #[inline]
    pub fn pressure(&self) -> Option<Pressure> {
        self.psi.map(|psi| Pressure::psi(f64::from(psi)))
    }

    /// From grade to the top of the pipe.
    #[must_use]
    #[inline]
    pub fn cover(&self) -> Option<Distance> {
        self.cover.map(|inches| Distance::inches(f64::from(inches)))
    }

    /// How long the sticks are.
    #[must_use]
    #[inline]
    pub fn stick(&self) -> Option<Distance> {
        self.stick.map(|inches| Distance::inches(f64::from(inches)))
    }

    /// How warm the pipe is.
    #[must_use]
    #[inline]
    pub fn temperature(&self) -> Option<Temperature> {
        self.fahrenheit
            .map(|at| Temperature::fahrenheit(f64::from(at)))
    }
}
