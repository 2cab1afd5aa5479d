//! What holds a fitting of the pipe's own size.

use super::{Figures, Fixture, NoNumbers, SiteTold};
use crate::image::{Carries, Image, Material, Row, SoilWord};
use crate::length::Length;
use crate::thrust::{Procedure, Site, Soil, bells, bend, line_of, one_side, tee};
use crate::unit::Distance;

/// What holds a fitting on a pipe of the tables. Bare pipe, and neither a valve nor another dead end near: nothing else is told on
/// a device.
#[inline]
pub(super) fn hold(
    image: &Image<'_>,
    row: &Row,
    class: Option<u8>,
    fixture: Fixture,
    told: &SiteTold,
    to: &mut Figures,
) -> Result<(), NoNumbers> {
    let family = image.family(row.family);
    let material = Material::from_code(family.material);
    if family.carries != Carries::Water as u8 {
        return Err(NoNumbers::Drain);
    }
    if material == Some(Material::Pe) {
        return Err(NoNumbers::Fused);
    }
    let procedure = material
        .and_then(Procedure::of)
        .ok_or(NoNumbers::Material)?;
    // No word that the image does not have is kept; one that came all the same is as good as muck.
    let soil = told.soil.map(|word| {
        let word = image.soil_words().nth(usize::from(word));
        word.map_or(SoilWord::REFER, |word| match procedure {
            Procedure::Iron => word.iron,
            Procedure::Pvc => word.pvc,
        })
    });
    if soil == Some(SoilWord::REFER) {
        return Err(NoNumbers::Soil);
    }
    let pressure = told.pressure().ok_or(NoNumbers::Pressure)?;
    let cover = told.cover().ok_or(NoNumbers::Cover)?;
    let line = line_of(image, row, Length::from_counts(row.od).into(), |label| {
        class.is_none_or(|class| class == label)
    });
    let angle = fixture.angle();
    let force = match angle {
        Some(angle) => bend(pressure, line.area(), angle),
        None => tee(pressure, line.area()),
    };
    let mut site = Site {
        pressure,
        cover,
        soil: Soil::default(),
        wet: told.wet,
        wrapped: 1.0,
        safety: f64::from(image.thrust_constants().safety) / 100.0,
        stick: told.stick().unwrap_or_default(),
    };
    // The row that asks for the most, with its length; and the pressure of the row that grips bare pipe least.
    let mut most: Option<(u8, Distance)> = None;
    let mut until = pressure;
    for (index, row) in (0u8..).zip(image.soils()) {
        let own = image.trench(row.trench).procedure == procedure as u8;
        if !own || soil.is_some_and(|soil| soil != index) {
            continue;
        }
        let Some((soil, _)) = Soil::of(image, index, None) else {
            continue;
        };
        site.soil = soil;
        let (length, bare) = one_side(line, angle, &site);
        until = until.min(bare);
        if most.is_none_or(|(_, held)| length > held) {
            most = Some((index, length));
        }
    }
    // The gate lets no row through that does not grip.
    let (index, length) = most
        .filter(|(_, length)| length.is_finite())
        .ok_or(NoNumbers::NoPlan)?;
    to.put(force.in_lbf());
    to.put(until.in_psi());
    to.put(length.in_inches());
    to.put(f64::from(index));
    if let Some(stick) = told.stick() {
        to.put(f64::from(bells(length, stick)));
    }
    Ok(())
}
