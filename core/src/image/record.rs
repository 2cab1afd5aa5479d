//! Fixed-size little-endian records, each laid out once for both the compiler and the reader.

/// Declares a record: its bytes, its fields with their offsets, and both directions of the conversion.
///
/// One list for both sides, because two that must agree are two that will not. Offsets are written out so that the
/// layout can be held against the specification at a glance; the tests check that fields neither overlap nor overrun.
macro_rules! record {
    ($(#[$doc:meta])* $name:ident, $size:literal, { $($(#[$field_doc:meta])* $field:ident: $type:ty = $at:literal,)* }) => {
        $(#[$doc])*
        #[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
        pub struct $name {
            $($(#[$field_doc])* pub $field: $type,)*
        }

        impl $name {
            /// Bytes of one record.
            pub const SIZE: usize = $size;

            /// Where each field starts and ends, for the checks of the layout.
            pub const FIELDS: &'static [(&'static str, usize, usize)] =
                &[$((stringify!($field), $at, $at + size_of::<$type>()),)*];

            /// Reads the record.
            #[must_use]
            #[inline]
            pub fn from_bytes(bytes: &[u8; $size]) -> Self {
                Self {
                    $($field: {
                        let mut field = [0; size_of::<$type>()];
                        field.copy_from_slice(&bytes[$at..$at + size_of::<$type>()]);
                        <$type>::from_le_bytes(field)
                    },)*
                }
            }

            /// Writes the record; bytes that no field covers are zero.
            #[must_use]
            pub fn to_bytes(&self) -> [u8; $size] {
                let mut bytes = [0; $size];
                $(bytes[$at..$at + size_of::<$type>()].copy_from_slice(&self.$field.to_le_bytes());)*
                bytes
            }
        }
    };
}

pub(super) use record;

record! {
    /// The header of the image proper, behind the place kept for the signed envelope.
    Header, 16, {
        /// [`super::layout::MAGIC`].
        magic: u32 = 0,
        /// [`super::layout::FORMAT`].
        format: u16 = 4,
        /// Entries in the directory that follows.
        sections: u16 = 6,
        /// Bytes from this header to the end of the image.
        length: u32 = 8,
        /// CRC-32/ISO-HDLC of everything behind this header.
        crc: u32 = 12,
    }
}

record! {
    /// One entry of the directory.
    Section, 12, {
        /// Which section, one of [`super::layout`]'s numbers; an unknown one is skipped.
        id: u16 = 0,
        /// Bytes of one record.
        record: u16 = 2,
        /// Start, counted from the first byte of the image's envelope.
        offset: u32 = 4,
        /// Records.
        count: u32 = 8,
    }
}

record! {
    /// A text: a stretch of the text section.
    Text, 4, {
        /// Start in the text section.
        offset: u16 = 0,
        /// Bytes.
        length: u16 = 2,
    }
}

record! {
    /// What is left of a pressure rating in a warm pipe. Between two temperatures of a material it is read along a line, below the
    /// first nothing is lost, above the last it is not rated.
    Derating, 4, {
        /// [`super::Material`].
        material: u8 = 0,
        /// Temperature of the pipe wall, °F.
        fahrenheit: u8 = 1,
        /// The part that is left, Q15.
        factor: u16 = 2,
    }
}

record! {
    /// How an instrument sees a diameter. Lengths are counts of 10 nm.
    Instrument, 32, {
        /// Standard deviation of a reading, the part that is always there.
        sigma: u32 = 0,
        /// The part that grows with the diameter, Q32.
        sigma_share: u32 = 4,
        /// Step to which it is read; its uniform error is added.
        step: u32 = 8,
        /// What the instrument adds to the diameter (a tape's own thickness).
        offset: i32 = 12,
        /// Standard deviation of that.
        offset_sd: u32 = 16,
        /// What it adds as a share of the diameter (a slanting tape), Q32.
        stretch: u32 = 20,
        /// Standard deviation of that, Q32.
        stretch_sd: u32 = 24,
    }
}

record! {
    /// A family of pipe.
    Family, 48, {
        /// Its key in files, options and JSON.
        key: u32 = 0,
        /// What people read.
        name: u32 = 4,
        /// Its OD system, an index.
        system: u8 = 8,
        /// What it is made of, a [`super::Material`].
        material: u8 = 9,
        /// What it carries, a [`super::Carries`].
        carries: u8 = 10,
        /// Its squash law, an index.
        law: u8 = 11,
        /// Thermal growth, 1e-7 per °F.
        thermal: u16 = 12,
        /// Standard deviation of wear or roughness on the diameter, counts.
        wear: u16 = 14,
        /// Share of pipes anywhere in a wider band, Q16.
        loose_share: u16 = 16,
        /// How many times wider that band is.
        loose_width: u8 = 18,
        /// Share among all pipes on an irrigation site, Q32.
        irrigation: u32 = 20,
        /// On a municipal site.
        municipal: u32 = 24,
        /// Where the site is not known.
        unknown: u32 = 28,
        /// The source of the model's figures, an index.
        source: u8 = 32,
        /// Their grade.
        grade: u8 = 33,
        /// How far coat and wear carry a pipe beyond its band, counts.
        beyond: u32 = 36,
        /// How far heat and cold do, a share of the OD, Q32.
        heat: u32 = 40,
        /// How far a squash carries one diameter, a share of the OD, Q32.
        squash: u32 = 44,
    }
}

record! {
    /// An OD system.
    System, 8, {
        /// Its key.
        key: u32 = 0,
        /// What people call it.
        label: u32 = 4,
    }
}

record! {
    /// One normal of a mixture, relative to the OD.
    Component, 6, {
        /// Share, Q15.
        weight: u16 = 0,
        /// Mean, Q18.
        mean: i16 = 2,
        /// Standard deviation, Q18.
        sd: u16 = 4,
    }
}

record! {
    /// A size of one family: every wall class of one OD.
    Row, 32, {
        /// Low edge of the average OD at the reference temperature, counts.
        low: i32 = 0,
        /// High edge.
        high: i32 = 4,
        /// The OD itself.
        od: i32 = 8,
        /// The largest high edge of this and all earlier rows.
        reach: i32 = 12,
        /// Share among the rows of its family, Q32.
        share: u32 = 16,
        /// One sigma of out-of-round, each component, as a share of the OD, Q20.
        oval: u16 = 20,
        /// Its family, an index.
        family: u8 = 22,
        /// Its nominal size, an index into the sizes.
        size: u8 = 23,
        /// Its variant, an index into the labels; the first is the empty one.
        variant: u8 = 24,
        /// Source of its OD, an index.
        source: u8 = 25,
        /// Grade of the OD (low nibble) and of the tolerance (high nibble, 15 where there is none).
        grades: u8 = 26,
        /// Wall classes.
        classes: u8 = 27,
        /// The first of their walls.
        first_wall: u16 = 28,
        /// Its OD system, an index.
        system: u8 = 30,
        /// The list of its classes, an index.
        class_list: u8 = 31,
    }
}

record! {
    /// A wall class, as one list of them or more has it: all but its wall.
    ListedClass, 5, {
        /// Working pressure at the reference temperature, psi, zero where it is not known: the low twelve bits; above
        /// them the grade of the wall, 15 where there is none.
        psi_and_grade: u16 = 0,
        /// What is printed, an index into the labels.
        label: u8 = 2,
        /// Share within its row: sixteenths of a power of two below one.
        share: u8 = 3,
        /// The pipe variant that it makes, as joints tell pipes apart.
        variant: u8 = 4,
    }
}

record! {
    /// A question about the pipe with a choice of answers.
    Clue, 16, {
        /// Its key in files, options and JSON.
        key: u32 = 0,
        /// How people are asked.
        question: u32 = 4,
        /// What it takes to find out, hundredths of a minute.
        effort: u16 = 8,
        /// The first of its answers.
        first: u8 = 10,
        /// How many they are.
        answers: u8 = 11,
        /// One where paint, wrap or mud can hide it.
        disguised: u8 = 12,
        /// Source of effort and wording, an index.
        source: u8 = 13,
        /// Their grade.
        grade: u8 = 14,
    }
}

record! {
    /// One answer of a clue.
    ClueAnswer, 12, {
        /// Its key in files, options and JSON.
        key: u32 = 0,
        /// How it is told back.
        words: u32 = 4,
        /// What cautions hang on it: [`ClueAnswer::PLASTIC`] and the others.
        means: u8 = 8,
    }
}

impl ClueAnswer {
    /// Plastic is confirmed.
    pub const PLASTIC: u8 = 1;
    /// It may be asbestos-cement.
    pub const CEMENT: u8 = 2;
    /// It may carry gas.
    pub const GAS: u8 = 4;
}

/// A chance in two bytes: twelve bits below the leading one, and above them how often it is halved from the range between a
/// half and one. Even the rarest answers keep four digits.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Likelihood(u16);

impl Likelihood {
    /// Bytes of one.
    pub const SIZE: usize = 2;

    /// The nearest to a mantissa of thirteen bits (4096 to 8191) times `2^-(13 + halvings)`.
    #[must_use]
    pub const fn of(mantissa: u16, halvings: u8) -> Self {
        Self(((halvings as u16 & 15) << 12) | (mantissa & 0x0fff))
    }

    /// Reads one.
    #[must_use]
    pub const fn from_bytes(bytes: [u8; 2]) -> Self {
        Self(u16::from_le_bytes(bytes))
    }

    /// Writes it.
    #[must_use]
    pub const fn to_bytes(self) -> [u8; 2] {
        self.0.to_le_bytes()
    }

    /// The mantissa (4096 to 8191) and the power of two that it is to be multiplied with.
    #[must_use]
    pub const fn parts(self) -> (u16, i32) {
        ((self.0 & 0x0fff) | 0x1000, -13 - (self.0 >> 12) as i32)
    }
}

/// The mixtures of one squash law: how a diameter of unknown direction departs from the average, and the squash itself.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Law {
    /// What a single diameter of unknown direction sees.
    pub sight: [Component; Law::SIGHT],
    /// The squash across the springline.
    pub squash: [Component; Law::SQUASH],
}

impl Law {
    /// Normals in the mixture of a single diameter.
    pub const SIGHT: usize = 4;
    /// Normals in the mixture of the squash.
    pub const SQUASH: usize = 3;
    /// Bytes of one record.
    pub const SIZE: usize = (Self::SIGHT + Self::SQUASH) * Component::SIZE;

    /// Reads the record.
    #[must_use]
    pub fn from_bytes(bytes: &[u8; Self::SIZE]) -> Self {
        let mut law = Self::default();
        let (parts, _) = bytes.as_chunks::<{ Component::SIZE }>();
        for (to, from) in law.sight.iter_mut().chain(&mut law.squash).zip(parts) {
            *to = Component::from_bytes(from);
        }
        law
    }

    /// Writes the record.
    #[must_use]
    pub fn to_bytes(&self) -> [u8; Self::SIZE] {
        let mut bytes = [0; Self::SIZE];
        let (parts, _) = bytes.as_chunks_mut::<{ Component::SIZE }>();
        for (to, from) in parts.iter_mut().zip(self.sight.iter().chain(&self.squash)) {
            *to = from.to_bytes();
        }
        bytes
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn fields_neither_overlap_nor_overrun() {
        for (size, fields) in [
            (Header::SIZE, Header::FIELDS),
            (Section::SIZE, Section::FIELDS),
            (Text::SIZE, Text::FIELDS),
            (super::super::Settings::SIZE, super::super::Settings::FIELDS),
            (Instrument::SIZE, Instrument::FIELDS),
            (Family::SIZE, Family::FIELDS),
            (System::SIZE, System::FIELDS),
            (Component::SIZE, Component::FIELDS),
            (Row::SIZE, Row::FIELDS),
            (ListedClass::SIZE, ListedClass::FIELDS),
            (Clue::SIZE, Clue::FIELDS),
            (ClueAnswer::SIZE, ClueAnswer::FIELDS),
        ] {
            let mut end = 0;
            for (name, from, to) in fields {
                assert!(*from >= end, "{name} overlaps");
                end = *to;
            }
            assert!(end <= size);
        }
    }

    #[test]
    fn a_likelihood_keeps_its_mantissa_and_power() {
        let rare = Likelihood::of(5000, 9);
        assert_eq!(rare.parts(), (5000, -22));
        assert_eq!(Likelihood::from_bytes(rare.to_bytes()), rare);
    }

    #[test]
    fn bytes_and_values_are_two_forms_of_one_thing() {
        let bytes: [u8; Row::SIZE] = core::array::from_fn(|i| i as u8);
        let row = Row::from_bytes(&bytes);
        assert_eq!(row.low, 0x0302_0100);
        assert_eq!(row.oval, 0x1514);
        assert_eq!(row.to_bytes(), bytes);
        let bytes: [u8; Law::SIZE] = core::array::from_fn(|i| i as u8);
        assert_eq!(Law::from_bytes(&bytes).to_bytes(), bytes);
    }
}
