//! Sites and pipes drawn for numbers, and how far two pages of them are apart.

use springline_core::image::{Class, Image};
use springline_core::joint::{Form, Owner, Pipe};
use springline_core::link::PipeAsked;
use springline_core::numbers::{About, NoNumbers, SiteTold};

/// A page: the row that refuses the pipe, the figures, or why there are none.
pub type Page = (Option<u16>, Vec<f64>, Option<NoNumbers>);

/// Draws that are the same each time.
pub struct Draws(u64);

impl Draws {
    /// From a seed.
    #[must_use]
    pub const fn new(seed: u64) -> Self {
        Self(seed)
    }

    /// A number below another.
    pub fn below(&mut self, end: u64) -> u64 {
        // Constants of Knuth's MMIX generator; the high bits are the good ones.
        self.0 = self
            .0
            .wrapping_mul(6_364_136_223_846_793_005)
            .wrapping_add(1_442_695_040_888_963_407);
        (self.0 >> 33) % end
    }

    /// A number from one to another, or nothing one time in sixteen.
    fn maybe(&mut self, least: u16, most: u16) -> Option<u16> {
        let drawn = self.below(u64::from(most - least) + 1);
        let value = least + u16::try_from(drawn).ok()?;
        (self.below(16) > 0).then_some(value)
    }

    /// A site.
    ///
    /// # Panics
    ///
    /// Never.
    pub fn site(&mut self, image: &Image<'_>) -> SiteTold {
        let words = u64::try_from(image.soil_words().len()).expect("few words");
        // One in three times the soil is not known.
        let soil = self.below(words * 3 / 2);
        SiteTold {
            psi: self.maybe(1, SiteTold::MOST_PSI),
            cover: self.maybe(1, SiteTold::MOST_INCHES),
            soil: u8::try_from(soil).ok().filter(|_| soil < words),
            wet: self.below(2) == 0,
            open: self.below(2) == 0,
            stick: self.maybe(12, SiteTold::MOST_INCHES),
            fahrenheit: self
                .maybe(1, 191)
                .and_then(|above| i16::try_from(above).ok())
                .map(|above| above - 41),
        }
    }

    /// What to ask about: thrust most of the time.
    ///
    /// # Panics
    ///
    /// Never.
    pub fn about(&mut self) -> About {
        let code = if self.below(4) > 0 {
            self.below(6)
        } else {
            self.below(12)
        };
        About::from_code(u8::try_from(code).expect("small")).expect("twelve of them")
    }

    /// A pipe of the tables, half of them of a class: what is asked, and the pipe.
    ///
    /// # Panics
    ///
    /// When the tables have no rows.
    pub fn pipe(&mut self, image: &Image<'_>) -> (PipeAsked, Pipe) {
        loop {
            let at = self.below(u64::try_from(image.row_count()).expect("few rows"));
            let row = image.row(u16::try_from(at).expect("few rows"));
            let classes: Vec<Class> = image.classes(&row).collect();
            let count = u64::try_from(classes.len()).expect("few classes");
            let drawn = usize::try_from(self.below(count * 2 + 1)).expect("few classes");
            let asked = PipeAsked {
                family: row.family,
                size: row.size,
                class: classes.get(drawn).map(|class| class.label),
                form: Form::PlainSquare,
                owner: Owner::Unknown,
            };
            if let Ok(pipe) = asked.find(image) {
                return (asked, pipe);
            }
        }
    }
}

/// How far two pages are apart, of each figure as a share of it; `None` where they are not of one kind.
#[must_use]
pub fn apart(one: &Page, other: &Page) -> Option<f64> {
    if (one.0, one.2) != (other.0, other.2) || one.1.len() != other.1.len() {
        return None;
    }
    let mut most: f64 = 0.0;
    for (one, other) in one.1.iter().zip(&other.1) {
        if one.is_nan() != other.is_nan() {
            return None;
        }
        if one.to_bits() != other.to_bits() && !one.is_nan() {
            most = most.max(((one - other) / one).abs());
        }
    }
    Some(most)
}
