//! Records of the sections for whoever makes a joint up. Sizes are quarters of an inch of the nominal size, lengths sixteenths.

use super::super::record::record;

record! {
    /// How flanges of a size are drilled.
    Flange, 7, {
        /// Nominal size, quarters of an inch.
        size: u8 = 0,
        /// Its [`crate::assembly::Drilling`], above bit 1 the grade of the drilling, above bit 4 that of the length.
        drilling_and_grades: u8 = 1,
        /// Bolt circle, sixteenths of an inch.
        circle: u16 = 2,
        /// Bolts.
        bolts: u8 = 4,
        /// Their diameter, sixteenths.
        bolt: u8 = 5,
        /// Their length between two iron flanges with a thin gasket, sixteenths; zero where it is to be measured.
        length: u8 = 6,
    }
}

record! {
    /// A mechanical joint of a size.
    Mechanical, 10, {
        /// Nominal size, quarters of an inch.
        size: u8 = 0,
        /// T-bolts.
        bolts: u8 = 1,
        /// Their diameter, sixteenths.
        bolt: u8 = 2,
        /// Their length with a plain gland, sixteenths.
        length: u8 = 3,
        /// Depth of the socket, sixteenths.
        socket: u8 = 4,
        /// Torque, foot-pounds.
        torque_low: u8 = 5,
        /// Torque, foot-pounds.
        torque_high: u8 = 6,
        /// The most that bare iron with a plain gland may be turned, minutes of arc; zero where it is not known.
        minutes: u16 = 7,
        /// The grade of the bolts, and above bit 3 that of the torque.
        grades: u8 = 9,
    }
}

record! {
    /// How long solvent cement takes, of sizes up to one in a band of temperatures.
    Cure, 10, {
        /// The largest nominal size, quarters of an inch.
        size: u8 = 0,
        /// Above so many °F.
        over: u8 = 1,
        /// Up to so many.
        to: u8 = 2,
        /// Hours until it takes pressure up to `psi`.
        hours: u8 = 3,
        /// That pressure.
        psi: u8 = 4,
        /// Hours until it takes more; zero where it is not to.
        high_hours: u8 = 5,
        /// Minutes until it may be moved.
        set: u16 = 6,
        /// How many times as long when wet, tenths.
        wet: u8 = 8,
        /// Its grade.
        grade: u8 = 9,
    }
}

record! {
    /// How deep a solvent socket is.
    Socket, 3, {
        /// Nominal size, quarters of an inch.
        size: u8 = 0,
        /// Depth, thirty-seconds of an inch.
        depth: u8 = 1,
        /// Its grade.
        grade: u8 = 2,
    }
}

record! {
    /// How far a gasketed bell may be turned, of sizes up to one.
    Deflection, 6, {
        /// A [`crate::assembly::Bell`].
        bell: u8 = 0,
        /// The [`super::super::Material`] of the pipe in it.
        material: u8 = 1,
        /// The largest nominal size, quarters of an inch.
        size: u8 = 2,
        /// Its grade.
        grade: u8 = 3,
        /// Minutes of arc.
        minutes: u16 = 4,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn fields_neither_overlap_nor_overrun() {
        for (size, fields) in [
            (Flange::SIZE, Flange::FIELDS),
            (Mechanical::SIZE, Mechanical::FIELDS),
            (Cure::SIZE, Cure::FIELDS),
            (Socket::SIZE, Socket::FIELDS),
            (Deflection::SIZE, Deflection::FIELDS),
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
