//! Records of cautions.

use super::super::record::record;

record! {
    /// What could hurt somebody. It is due of a pipe that it is about, where one of the things that it hangs on is done; what
    /// hangs on nothing is always due.
    Caution, 6, {
        /// What people read, a phrase.
        short: u16 = 0,
        /// What is done to the pipe, a bit for each [`crate::joint::Act`], and in the highest bit whether it may be folded
        /// away where there are many.
        acts_and_fold: u8 = 2,
        /// What is to be done, a bit for each [`crate::joint::Task`].
        tasks: u8 = 3,
        /// The joint ends, an index into the sets; [`Caution::NO_ENDS`] for none.
        ends: u8 = 4,
        /// The pipe that it is about, a code of [`Touches`].
        pipe: u8 = 5,
    }
}

/// What pipe a caution is about.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Touches {
    /// Any.
    Any,
    /// What is made of a [`crate::image::Material`].
    Material(u8),
    /// What carries a [`crate::image::Carries`].
    Carries(u8),
    /// What is of an OD system, an index.
    System(u8),
    /// What is an [`crate::joint::Owner`]'s.
    Owner(u8),
}

impl Touches {
    /// The code: what is asked in the upper three bits, and below them the answer.
    #[must_use]
    pub const fn code(self) -> u8 {
        match self {
            Self::Any => 0,
            Self::Material(code) => 1 << 5 | code,
            Self::Carries(code) => 2 << 5 | code,
            Self::System(code) => 3 << 5 | code,
            Self::Owner(code) => 4 << 5 | code,
        }
    }

    /// What a code stands for; `None` for an unknown one.
    #[must_use]
    pub const fn from_code(code: u8) -> Option<Self> {
        let value = code & 31;
        Some(match code >> 5 {
            0 if value == 0 => Self::Any,
            1 => Self::Material(value),
            2 => Self::Carries(value),
            3 => Self::System(value),
            4 => Self::Owner(value),
            _ => return None,
        })
    }
}

impl Caution {
    /// Stands for no joint ends.
    pub const NO_ENDS: u8 = 255;
    /// The bit of what may be folded away.
    pub const FOLD: u8 = 1 << 7;

    /// What is done to the pipe, a bit for each [`crate::joint::Act`].
    #[must_use]
    pub const fn acts(&self) -> u8 {
        self.acts_and_fold & !Self::FOLD
    }

    /// Whether it may be folded away where there are many.
    #[must_use]
    pub const fn folds(&self) -> bool {
        self.acts_and_fold & Self::FOLD != 0
    }

    /// The pipe that it is about; `None` for a code that no checked image has.
    #[must_use]
    pub const fn touches(&self) -> Option<Touches> {
        Touches::from_code(self.pipe)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn codes_stand_for_one_thing_each() {
        for code in 0..=u8::MAX {
            if let Some(touches) = Touches::from_code(code) {
                assert_eq!(touches.code(), code);
            }
        }
        assert_eq!(Touches::from_code(1), None);
        assert_eq!(Touches::from_code(5 << 5), None);
    }

    #[test]
    fn fields_neither_overlap_nor_overrun() {
        let mut end = 0;
        for (name, from, to) in Caution::FIELDS {
            assert_eq!(*from, end, "{name}");
            end = *to;
        }
        assert_eq!(end, Caution::SIZE);
    }
}
