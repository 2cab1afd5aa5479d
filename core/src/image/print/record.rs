//! Records of the print sections.

use super::super::record::record;

record! {
    /// The constants of print lines. Shares are Q32.
    PrintSettings, 16, {
        /// Share of things that are read as another of the tables' values.
        misread: u32 = 0,
        /// Share of lines that belong to something else.
        foreign: u32 = 4,
        /// Share of pipes whose line can be read.
        legible: u32 = 8,
        /// Different classes in the tables, as they are printed.
        classes: u16 = 12,
        /// Different pressures in the tables.
        pressures: u16 = 14,
    }
}

record! {
    /// A standard or a material code: what a pipe is marked with, and which pipes are.
    Marking, 4, {
        /// Where its name starts in the text.
        name: u16 = 0,
        /// Bytes of the name.
        length: u8 = 2,
        /// The pipe variants, an index into the sets.
        variants: u8 = 3,
    }
}

record! {
    /// A word of print lines.
    PrintWord, 5, {
        /// Where it starts in the text.
        word: u16 = 0,
        /// Its bytes.
        length: u8 = 2,
        /// What it is about, a [`crate::print::Thing`], and above bit 3 its grade.
        thing_and_grade: u8 = 3,
        /// What it says of it.
        value: u8 = 4,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn fields_neither_overlap_nor_overrun() {
        for (size, fields) in [
            (PrintSettings::SIZE, PrintSettings::FIELDS),
            (Marking::SIZE, Marking::FIELDS),
            (PrintWord::SIZE, PrintWord::FIELDS),
        ] {
            let mut end = 0;
            for (name, from, to) in fields {
                assert_eq!(*from, end, "{name}");
                end = *to;
            }
            assert_eq!(end, size);
        }
    }
}
