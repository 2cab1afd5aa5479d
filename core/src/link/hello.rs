//! Who a device is and what it knows.

use serde::de::Error;
use serde::{Deserialize, Deserializer, Serialize};

/// A text of at most [`Text::MAX`] bytes.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize)]
pub struct Text<'a>(&'a str);

impl<'a> Text<'a> {
    /// The most bytes of a text.
    pub const MAX: usize = 32;

    /// A text; `None` when it is too long.
    #[must_use]
    pub const fn new(text: &'a str) -> Option<Self> {
        if text.len() > Self::MAX {
            return None;
        }
        Some(Self(text))
    }

    /// The text.
    #[must_use]
    pub const fn as_str(self) -> &'a str {
        self.0
    }
}

impl<'de: 'a, 'a> Deserialize<'de> for Text<'a> {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        let text = <&'de str>::deserialize(from)?;
        Self::new(text).ok_or_else(|| D::Error::custom("too long"))
    }
}

/// Who a device is and what it knows.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Hello<'a> {
    /// The version of the protocol that it speaks.
    pub protocol: u8,
    /// Its model.
    #[serde(borrow)]
    pub model: Text<'a>,
    /// Its serial number.
    pub serial: Text<'a>,
    /// The version of its firmware.
    pub firmware: Text<'a>,
    /// The name of its data set.
    pub data_set: Text<'a>,
    /// Which in the series of data sets; a later one is larger.
    pub counter: u32,
    /// SHA-256 of the data set's image.
    pub digest: [u8; 32],
}
