//! What words of a line are about.

/// What a word is about.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
#[repr(u8)]
pub enum Thing {
    /// A standard; its value is an index into the image's standards.
    Standard = 0,
    /// The base of the OD; its value is an OD system.
    Base = 1,
    /// A material code; its value is an index into the image's codes.
    Material = 2,
    /// What the pipe carries; its value is a set of [`Contents`].
    Contents = 3,
    /// A size follows; its value is a [`Unit`].
    SizeBefore = 4,
    /// A size went before; its value is a [`Unit`].
    SizeAfter = 5,
    /// A class follows, a number or a letter; its value is a [`Scale`](super::Scale).
    Class = 6,
    /// A pressure follows; its value is a [`Unit`].
    PressureBefore = 7,
    /// A pressure went before; its value is a [`Unit`].
    PressureAfter = 8,
    /// Says nothing of the pipe.
    Plain = 9,
}

impl Thing {
    /// Every thing with its word in the files, in the order of the codes.
    pub const WORDS: [(&'static str, Self); 10] = [
        ("standard", Self::Standard),
        ("base", Self::Base),
        ("material", Self::Material),
        ("contents", Self::Contents),
        ("size-before", Self::SizeBefore),
        ("size-after", Self::SizeAfter),
        ("class", Self::Class),
        ("pressure-before", Self::PressureBefore),
        ("pressure-after", Self::PressureAfter),
        ("plain", Self::Plain),
    ];

    /// The thing of a code in the image; `None` for an unknown one.
    #[must_use]
    pub fn from_code(code: u8) -> Option<Self> {
        Self::WORDS.get(usize::from(code)).map(|(_, thing)| *thing)
    }

    /// Whether the word means something only with a number behind it.
    #[must_use]
    pub const fn is_before_number(self) -> bool {
        matches!(self, Self::SizeBefore | Self::Class | Self::PressureBefore)
    }

    /// Whether the word means something only with a number before or behind it.
    #[must_use]
    pub const fn has_number(self) -> bool {
        self.is_before_number() || matches!(self, Self::SizeAfter | Self::PressureAfter)
    }
}

/// What a number counts.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
#[repr(u8)]
pub enum Unit {
    /// Inches of nominal size.
    Inch = 0,
    /// A DN number; on plastic pipe the OD in millimetres.
    Dn = 1,
    /// Millimetres of OD, or of a DN.
    Millimetre = 2,
    /// Pounds per square inch.
    Psi = 3,
    /// Bar.
    Bar = 4,
}

impl Unit {
    /// Every unit with its word in the files, in the order of the codes.
    pub const WORDS: [(&'static str, Self); 5] = [
        ("inch", Self::Inch),
        ("dn", Self::Dn),
        ("mm", Self::Millimetre),
        ("psi", Self::Psi),
        ("bar", Self::Bar),
    ];

    /// The unit of a code in the image; `None` for an unknown one.
    #[must_use]
    pub fn from_code(code: u8) -> Option<Self> {
        Self::WORDS.get(usize::from(code)).map(|(_, unit)| *unit)
    }

    /// Whether it is one of pressure.
    #[must_use]
    pub const fn is_pressure(self) -> bool {
        matches!(self, Self::Psi | Self::Bar)
    }
}

/// What a pipe is said to carry, a bit each. The lowest four are those of [`Carries`](crate::image::Carries).
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub struct Contents(pub u8);

impl Contents {
    /// Water under pressure.
    pub const WATER: Self = Self(1);
    /// Sewage or drainage.
    pub const DRAIN: Self = Self(2);
    /// Fuel gas.
    pub const GAS: Self = Self(4);
    /// Wires.
    pub const WIRES: Self = Self(8);
    /// Water that is not to be drunk.
    pub const NON_POTABLE: Self = Self(16);
    /// Every one with its word in the files.
    pub const WORDS: [(&'static str, Self); 5] = [
        ("water", Self::WATER),
        ("drain", Self::DRAIN),
        ("gas", Self::GAS),
        ("wires", Self::WIRES),
        ("non-potable", Self::NON_POTABLE),
    ];

    /// What it carries, without how good the water is.
    #[must_use]
    pub const fn carried(self) -> u8 {
        self.0 & 15
    }

    /// Whether everything of another is in it.
    #[must_use]
    pub const fn has(self, other: Self) -> bool {
        self.0 & other.0 == other.0
    }

    /// Whether it may be that, and nothing else is said: wires or drain are not water.
    #[must_use]
    pub const fn is_not_water(self) -> bool {
        self.carried() != 0 && self.carried() & Self::WATER.0 == 0
    }
}
