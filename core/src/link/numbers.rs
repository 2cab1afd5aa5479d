//! Numbers of a joint on a known pipe, on the wire: as numbers, by the places of [`crate::numbers::at`].

use serde::Deserialize;

use super::parts::{FigureRecords, NoPipe, PipeAsked, Records, Room, WireAsked, WirePage};
use crate::image::Image;
use crate::joint::refusal;
use crate::numbers::{About, NoNumbers, SiteTold, page};

/// Numbers are asked for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct NumbersAsked {
    /// The pipe.
    pub pipe: PipeAsked,
    /// What about.
    pub about: About,
    /// What is told of the site; the device's own settings are not looked at.
    pub site: SiteTold,
}

impl NumbersAsked {
    /// As for parts, nothing and what about; the site in one number follows.
    pub(super) fn wire(self) -> (WireAsked, u64) {
        let asked = (self.pipe.into(), None, self.about.code());
        (asked, self.site.packed())
    }

    #[inline]
    pub(super) fn read((pipe, _, about): WireAsked, site: u64) -> Option<Self> {
        Some(Self {
            pipe: pipe.read()?,
            about: About::from_code(about)?,
            site: SiteTold::unpacked(site)?,
        })
    }
}

/// A page of numbers.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize)]
pub struct NumbersSaid<'a> {
    /// Nothing is put on the pipe: the row of the matrix that says so. There are no numbers then.
    pub refused: Option<u16>,
    /// The figures by their places, in IEEE 754; what there is not is no number.
    #[serde(borrow)]
    pub figures: FigureRecords<'a>,
    /// Why there are none otherwise.
    pub why: Option<NoNumbers>,
}

impl<'a> NumbersSaid<'a> {
    pub(super) fn wire(&self) -> WirePage<'a> {
        let why = self.why.map(|why| why as u8);
        (self.refused, self.figures.0.as_flattened(), why)
    }

    /// The numbers that are asked for.
    ///
    /// # Errors
    ///
    /// A [`NoPipe`] where the tables have none such, or several.
    #[inline]
    pub fn of(image: &Image<'_>, asked: &NumbersAsked, room: &'a mut Room) -> Result<Self, NoPipe> {
        let pipe = asked.pipe.find(image)?;
        let mut said = Self {
            refused: refusal(image, &pipe).map(|sealing| sealing.row),
            figures: Records(&[]),
            why: None,
        };
        if said.refused.is_some() {
            return Ok(said);
        }
        match page(image, &pipe, asked.pipe.class, asked.about, &asked.site) {
            Err(why) => said.why = Some(why),
            Ok(figures) => {
                let all = figures.all();
                let (places, _) = room.bytes().as_chunks_mut();
                for (place, figure) in places.iter_mut().zip(all) {
                    *place = figure.to_le_bytes();
                }
                said.figures = Records(places.get(..all.len()).unwrap_or(&[]));
            }
        }
        Ok(said)
    }
}
