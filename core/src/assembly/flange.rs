//! Bolts of flanges.

use super::{Nominal, sixteenths};
use crate::image::{Flange, Grade, Image};
use crate::unit::{Angle, Distance};

/// How a flange is drilled. Two of one drilling bolt together; of two drillings never.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
#[repr(u8)]
pub enum Drilling {
    /// Class 125 iron, class 150 steel and bronze, and what is made to meet them.
    Class125 = 0,
    /// Class 250 iron and class 300 steel.
    Class250 = 1,
}

impl Drilling {
    /// Both.
    pub const ALL: [Self; 2] = [Self::Class125, Self::Class250];

    /// The drilling of a code in the image; `None` for an unknown one.
    #[must_use]
    pub const fn from_code(code: u8) -> Option<Self> {
        Some(match code {
            0 => Self::Class125,
            1 => Self::Class250,
            _ => return None,
        })
    }

    /// The word for it in files and JSON, and what people say: iron class first, steel class second.
    #[must_use]
    pub const fn key(self) -> &'static str {
        match self {
            Self::Class125 => "125/150",
            Self::Class250 => "250/300",
        }
    }
}

/// The bolts of a flange.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct FlangeSet {
    /// How many, a multiple of four.
    pub bolts: u8,
    /// Their diameter.
    pub bolt: Distance,
    /// Their length between two iron flanges with a thin gasket and nothing else; `None` where it is to be measured.
    pub length: Option<Distance>,
    /// The circle that they stand on.
    pub circle: Distance,
    /// How far count, diameter and circle can be trusted.
    pub grade: Grade,
    /// How far the length can be trusted.
    pub length_grade: Grade,
}

impl FlangeSet {
    #[inline]
    fn of(row: Flange) -> Option<Self> {
        Some(Self {
            bolts: row.bolts,
            bolt: sixteenths(u16::from(row.bolt)),
            length: (row.length > 0).then(|| sixteenths(u16::from(row.length))),
            circle: sixteenths(row.circle),
            grade: Grade::from_code(row.drilling_and_grades >> 1 & 7)?,
            length_grade: Grade::from_code(row.drilling_and_grades >> 4)?,
        })
    }

    /// From the centre of a bolt to that of the next: what a rule across two holes shows.
    #[must_use]
    pub fn spacing(&self) -> Distance {
        self.circle * Angle::degrees(180.0 / f64::from(self.bolts.max(1))).sin()
    }
}

/// The bolts of a flange of a size; `None` where the image has no such flange.
#[must_use]
#[inline]
pub fn flange(image: &Image<'_>, size: Nominal, drilling: Drilling) -> Option<FlangeSet> {
    let is = |row: &Flange| {
        row.size == size.in_quarters() && row.drilling_and_grades & 1 == drilling as u8
    };
    image.flanges().find(is).and_then(FlangeSet::of)
}

/// Across the flats of a hexagon for a bolt: heavy hex is 1 1/2 diameters and 1/8 in (ASME B18.2.2, from memory), plain hex
/// without the eighth.
#[must_use]
#[inline]
pub fn across_flats(bolt: Distance, heavy: bool) -> Distance {
    bolt * 1.5 + Distance::inches(if heavy { 0.125 } else { 0.0 })
}

/// What a bolt holds together.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Grip {
    /// How thick each flange is, with a raised face and with a loose ring behind it.
    pub flanges: [Distance; 2],
    /// Gaskets, and a body or a ring between the flanges.
    pub between: Distance,
    /// All washers of one bolt.
    pub washers: Distance,
}

impl Grip {
    /// How thick it is, all together.
    #[must_use]
    pub fn thickness(&self) -> Distance {
        let [one, other] = self.flanges;
        one + other + self.between + self.washers
    }

    /// The least length of a bolt with a head and one nut: a nut as high as the bolt is thick, and a third of that of thread beyond
    /// it.
    #[must_use]
    pub fn bolt(&self, diameter: Distance) -> Distance {
        self.thickness() + diameter * (4.0 / 3.0)
    }

    /// The least length of a stud with two nuts: 2 (d/3 + d + h) and what lies between, the public formula.
    #[must_use]
    pub fn stud(&self, diameter: Distance) -> Distance {
        self.thickness() + diameter * (8.0 / 3.0)
    }
}
