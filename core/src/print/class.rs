//! Classes as they are printed: a dimension ratio, a schedule, a thickness class, a letter.

/// What the number or the letter of a class means.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
#[repr(u8)]
pub enum Scale {
    /// OD over wall: `DR 18`, `SDR 21`.
    Ratio = 1,
    /// `Sch 40`.
    Schedule = 2,
    /// A thickness class below 100, `Class 52`, or a letter, `Class B`. From 100 on it is a pressure.
    Class = 3,
    /// A letter: `Type L`.
    Type = 4,
    /// Pipe stiffness of sewer pipe: `PS 46`.
    Stiffness = 5,
    /// A weight that is a word: `STD`.
    Weight = 6,
    /// Pressures from one to another, in steps of 50 psi: `Class 100-250`. Only names of classes in the tables have it.
    Pressures = 7,
}

impl Scale {
    /// Every scale that words have, with its word in the files.
    pub const WORDS: [(&'static str, Self); 6] = [
        ("ratio", Self::Ratio),
        ("schedule", Self::Schedule),
        ("class", Self::Class),
        ("type", Self::Type),
        ("stiffness", Self::Stiffness),
        ("weight", Self::Weight),
    ];

    /// The scale of a code in the image; `None` for an unknown one.
    #[must_use]
    pub const fn from_code(code: u16) -> Option<Self> {
        Some(match code {
            1 => Self::Ratio,
            2 => Self::Schedule,
            3 => Self::Class,
            4 => Self::Type,
            5 => Self::Stiffness,
            6 => Self::Weight,
            7 => Self::Pressures,
            _ => return None,
        })
    }
}

/// A class as it is printed, in two bytes: a [`Scale`] in the upper four bits, below it the number in tenths, or a letter.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub struct PrintedClass(pub u16);

impl PrintedClass {
    /// None.
    pub const NONE: Self = Self(0);
    /// The steps of [`Scale::Pressures`], psi.
    pub const STEP: u16 = 50;

    /// A number on a scale, in tenths; `None` for one too large.
    #[must_use]
    pub fn number(scale: Scale, tenths: u32) -> Option<Self> {
        let tenths = u16::try_from(tenths).ok().filter(|tenths| *tenths < 4096)?;
        Some(Self((scale as u16) << 12 | tenths))
    }

    /// A letter on a scale.
    #[must_use]
    pub fn letter(scale: Scale, letter: u8) -> Self {
        // Numbers are in tenths, and no class of a scale that has letters lies between 6.5 and 9.
        Self((scale as u16) << 12 | u16::from(letter.to_ascii_uppercase()))
    }

    /// Pressures between two, tens of psi.
    #[must_use]
    pub fn pressures(low: u16, high: u16) -> Self {
        Self((Scale::Pressures as u16) << 12 | ((low / 10) & 63) << 6 | ((high / 10) & 63))
    }

    /// The scale; `None` where there is no class.
    #[must_use]
    pub const fn scale(self) -> Option<Scale> {
        Scale::from_code(self.0 >> 12)
    }

    /// The number in tenths, or the letter.
    #[must_use]
    pub const fn value(self) -> u16 {
        self.0 & 0x0fff
    }

    /// The pressures from one to another, psi.
    pub(super) fn steps(low: u16, high: u16) -> impl ExactSizeIterator<Item = u16> {
        let count = high.saturating_sub(low) / Self::STEP + 1;
        (0..count).map(move |step| low + step * Self::STEP)
    }

    /// The lowest and the highest pressure of a class that has several, psi.
    #[must_use]
    pub const fn span(self) -> Option<(u16, u16)> {
        match self.scale() {
            Some(Scale::Pressures) => Some(((self.0 >> 6 & 63) * 10, (self.0 & 63) * 10)),
            _ => None,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_class_is_two_bytes() {
        let ratio = PrintedClass::number(Scale::Ratio, 325).expect("small");
        assert_eq!((ratio.scale(), ratio.value()), (Some(Scale::Ratio), 325));
        assert_eq!(PrintedClass::number(Scale::Ratio, 4096), None);
        let letter = PrintedClass::letter(Scale::Type, b'k');
        assert_eq!(letter, PrintedClass::letter(Scale::Type, b'K'));
        assert_ne!(letter, PrintedClass::letter(Scale::Class, b'K'));
        assert_eq!(PrintedClass::pressures(100, 250).span(), Some((100, 250)));
        assert_eq!((ratio.span(), PrintedClass::NONE.scale()), (None, None));
    }
}
