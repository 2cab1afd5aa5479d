//! What the codes in records stand for.

/// What a family is made of, as far as the model cares.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
#[repr(u8)]
pub enum Material {
    /// Every kind of PVC, CTS plastic included.
    Pvc = 0,
    /// Ductile or grey iron.
    Iron = 1,
    /// Steel.
    Steel = 2,
    /// Polyethylene.
    Pe = 3,
    /// Copper.
    Copper = 4,
    /// Asbestos-cement.
    Cement = 5,
    /// Aluminum.
    Aluminum = 6,
}

impl Material {
    /// The material of a code in the image; `None` for an unknown one.
    #[must_use]
    pub const fn from_code(code: u8) -> Option<Self> {
        Some(match code {
            0 => Self::Pvc,
            1 => Self::Iron,
            2 => Self::Steel,
            3 => Self::Pe,
            4 => Self::Copper,
            5 => Self::Cement,
            6 => Self::Aluminum,
            _ => return None,
        })
    }
}

/// What a family carries.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
#[repr(u8)]
pub enum Carries {
    /// Water under pressure.
    Water = 0,
    /// Sewage or drainage by gravity.
    Drain = 1,
    /// Fuel gas.
    Gas = 2,
    /// Wires.
    Wires = 3,
}

impl Carries {
    /// The contents of a code in the image; `None` for an unknown one.
    #[must_use]
    pub const fn from_code(code: u8) -> Option<Self> {
        Some(match code {
            0 => Self::Water,
            1 => Self::Drain,
            2 => Self::Gas,
            3 => Self::Wires,
            _ => return None,
        })
    }
}

/// How far a datum can be trusted.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
#[repr(u8)]
pub enum Grade {
    /// Read in the standard itself.
    Standard = 0,
    /// Two transcriptions agree.
    TwoSources = 1,
    /// Read once.
    OneSource = 2,
    /// Common practice, no source.
    Practice = 3,
    /// Recalled, not seen.
    Memory = 4,
}

impl Grade {
    /// Every grade, best first.
    pub const ALL: [Self; 5] = [
        Self::Standard,
        Self::TwoSources,
        Self::OneSource,
        Self::Practice,
        Self::Memory,
    ];

    /// The grade of a code in the image; `None` where nothing is graded.
    #[must_use]
    pub const fn from_code(code: u8) -> Option<Self> {
        Some(match code {
            0 => Self::Standard,
            1 => Self::TwoSources,
            2 => Self::OneSource,
            3 => Self::Practice,
            4 => Self::Memory,
            _ => return None,
        })
    }

    /// The word for it in files and JSON.
    #[must_use]
    pub const fn key(self) -> &'static str {
        match self {
            Self::Standard => "standard",
            Self::TwoSources => "two-sources",
            Self::OneSource => "one-source",
            Self::Practice => "practice",
            Self::Memory => "memory",
        }
    }
}
