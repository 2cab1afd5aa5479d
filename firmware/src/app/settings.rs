//! What a user sets once a day. Kept in RAM for now.

use springline_core::image::Image;
use springline_core::joint::Owner;
use springline_core::link::{NotSet, Setting};
use springline_core::numbers::SiteTold;
use springline_core::reading::Site;
use springline_core::{Length, Unit};

/// Jaw depths that the buttons step through, millimetres.
const JAWS: [i32; 7] = [30, 40, 50, 60, 75, 100, 150];
/// Lengths of sticks that they do, feet: those that pipe comes in (common practice, no source).
const STICKS: [u16; 8] = [10, 12, 18, 20, 21, 22, 40, 50];

/// The settings.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Settings {
    /// Unit in which lengths are shown.
    pub unit: Unit,
    /// Depth of the caliper's jaws; `None` where they reach the widest point of any pipe.
    pub jaws: Option<Length>,
    /// Where pipes lie.
    pub site: Site,
    /// Whether they are buried.
    pub buried: bool,
    /// Whose the pipes are.
    pub owner: Owner,
    /// Unit of a gauge that names none, once it was asked for.
    pub gauge_unit: Option<Unit>,
    /// What is told of the trench.
    pub told: SiteTold,
}

impl Settings {
    /// Jaws of 40 mm, which is what most pocket calipers have: what they do not reach must not pass for a diameter.
    pub const START: Self = Self {
        unit: Unit::Inch,
        jaws: Some(Length::from_counts(40 * Length::MILLIMETRE)),
        site: Site::Unknown,
        buried: true,
        owner: Owner::Unknown,
        gauge_unit: None,
        told: SiteTold::NOTHING,
    };

    /// Takes a setting from a host.
    ///
    /// # Errors
    ///
    /// [`NotSet::OutOfRange`] for jaws that no caliper has, and a trench that nobody digs.
    pub fn set(&mut self, image: &Image<'_>, setting: Setting) -> Result<(), NotSet> {
        match setting {
            Setting::Unit(unit) => self.unit = unit,
            Setting::JawDepth(Some(depth)) => {
                let limits = Length::MILLIMETRE..=500 * Length::MILLIMETRE;
                if !limits.contains(&depth.counts()) {
                    return Err(NotSet::OutOfRange);
                }
                self.jaws = Some(depth);
            }
            Setting::JawDepth(None) => self.jaws = None,
            Setting::Site(site) => self.site = site,
            Setting::Buried(buried) => self.buried = buried,
            Setting::GaugeUnit(unit) => self.gauge_unit = Some(unit),
            Setting::Told(told)
                if told
                    .soil
                    .is_some_and(|word| usize::from(word) >= image.soil_words().len()) =>
            {
                return Err(NotSet::OutOfRange);
            }
            Setting::Told(told) => self.told = told,
        }
        Ok(())
    }

    /// Rows of the settings screen.
    pub const ROWS: u8 = 12;
    /// The first of those that are about the trench.
    pub(crate) const TRENCH: u8 = 5;

    /// Changes the setting of a row by a press to the right (`true`) or to the left, where there are so many words for soil.
    pub(crate) fn step(&mut self, row: u8, right: bool, soils: usize) {
        let told = &mut self.told;
        match row {
            0 => {
                self.unit = match self.unit {
                    Unit::Inch => Unit::Millimetre,
                    Unit::Millimetre => Unit::Inch,
                }
            }
            1 => self.jaws = jaws(self.jaws, right),
            2 => {
                let sites = [Site::Unknown, Site::Irrigation, Site::Municipal];
                self.site = beside(&sites, self.site, right);
            }
            3 => self.buried = !self.buried,
            4 => self.owner = beside(Owner::ALL, self.owner, right),
            5 => told.psi = stepped(told.psi.map(i32::from), right, [40, 10, 300]),
            6 => told.cover = stepped(told.cover.map(i32::from), right, [12, 6, 240]),
            7 => {
                let last = i32::try_from(soils).unwrap_or(0) - 1;
                told.soil = stepped(told.soil.map(i32::from), right, [0, 1, last]);
            }
            8 => told.wet = !told.wet,
            9 => told.open = !told.open,
            10 => {
                let mut inches = STICKS.iter().map(|feet| feet * 12);
                told.stick = if right {
                    let longer = |stick: &u16| told.stick.is_none_or(|now| *stick > now);
                    inches.find(longer)
                } else {
                    let shorter = |stick: &u16| told.stick.is_none_or(|now| *stick < now);
                    inches.rev().find(shorter)
                };
            }
            _ => told.fahrenheit = stepped(told.fahrenheit.map(i32::from), right, [0, 10, 120]),
        }
    }
}

/// The next of a few, around the end, or the one before.
fn beside<T: Copy + PartialEq>(all: &[T], now: T, right: bool) -> T {
    let at = all.iter().position(|held| *held == now).unwrap_or(0);
    let next = if right {
        all.get(at + 1).or(all.first())
    } else {
        at.checked_sub(1)
            .map_or(all.last(), |before| all.get(before))
    };
    next.copied().unwrap_or(now)
}

/// The next number from one to another by steps, or the one before; that it is not told comes after the last and before the first.
fn stepped<T: TryFrom<i32>>(
    now: Option<i32>,
    right: bool,
    [first, step, last]: [i32; 3],
) -> Option<T> {
    let next = match (now, right) {
        (None, true) => first,
        (None, false) => last,
        (Some(now), true) => now + step,
        (Some(now), false) => now - step,
    };
    if (first..=last).contains(&next) {
        T::try_from(next).ok()
    } else {
        None
    }
}

/// The next jaw depth; jaws that reach everything come after the deepest.
fn jaws(now: Option<Length>, right: bool) -> Option<Length> {
    let depth = |mm: &i32| Length::from_counts(mm * Length::MILLIMETRE);
    let Some(now) = now else {
        return JAWS.last().filter(|_| !right).map(depth);
    };
    if right {
        JAWS.iter().map(depth).find(|depth| *depth > now)
    } else {
        let below = JAWS.iter().map(depth).rev().find(|depth| *depth < now);
        below.or(Some(now))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn jaws_step_up_to_those_that_reach_everything_and_back() {
        let mut settings = Settings::START;
        let shown =
            |settings: &Settings| settings.jaws.map(|jaws| jaws.counts() / Length::MILLIMETRE);
        let mut seen = std::vec::Vec::new();
        for _ in 0..7 {
            seen.push(shown(&settings));
            settings.step(1, true, 0);
        }
        assert_eq!(
            seen,
            [
                Some(40),
                Some(50),
                Some(60),
                Some(75),
                Some(100),
                Some(150),
                None
            ]
        );
        settings.step(1, false, 0);
        assert_eq!(shown(&settings), Some(150));
        for _ in 0..9 {
            settings.step(1, false, 0);
        }
        assert_eq!(shown(&settings), Some(30));
    }

    #[test]
    fn a_host_sets_what_is_in_range() {
        let image = Image::new(springline_tables::IMAGE).expect("the built-in image");
        let mut settings = Settings::START;
        let deep = Some(Length::from_counts(2000 * Length::MILLIMETRE));
        assert_eq!(
            settings.set(&image, Setting::JawDepth(deep)),
            Err(NotSet::OutOfRange)
        );
        assert_eq!(settings, Settings::START);
        assert_eq!(settings.set(&image, Setting::JawDepth(None)), Ok(()));
        assert_eq!(settings.jaws, None);
        settings.step(2, false, 0);
        assert_eq!(settings.site, Site::Municipal);
        settings.step(3, true, 0);
        assert!(!settings.buried);
        settings.step(4, false, 0);
        assert_eq!(settings.owner, Owner::Purveyor);
        settings.step(4, true, 0);
        assert_eq!(settings.owner, Owner::Unknown);
    }
    #[test]
    fn what_is_told_of_the_trench_goes_round_past_not_known() {
        let mut settings = Settings::START;
        for (row, count) in [(5, 28), (6, 40), (7, 11), (8, 2), (9, 2), (10, 9), (11, 14)] {
            let before = settings.told;
            let mut seen = std::vec![before];
            for _ in 1..count {
                settings.step(row, true, 10);
                assert!(!seen.contains(&settings.told), "{row}");
                seen.push(settings.told);
            }
            settings.step(row, true, 10);
            assert_eq!(settings.told, before, "{row}");
            for told in seen.iter().rev() {
                settings.step(row, false, 10);
                assert_eq!(settings.told, *told, "{row}");
            }
        }
    }

    #[test]
    fn a_host_tells_of_a_trench_that_can_be() {
        let image = Image::new(springline_tables::IMAGE).expect("the built-in image");
        let mut settings = Settings::START;
        let sane = SiteTold {
            psi: Some(1000),
            soil: Some(0),
            ..SiteTold::NOTHING
        };
        assert_eq!(settings.set(&image, Setting::Told(sane)), Ok(()));
        let absurd = SiteTold {
            soil: Some(200),
            ..sane
        };
        let refused = settings.set(&image, Setting::Told(absurd));
        assert_eq!(refused, Err(NotSet::OutOfRange));
        assert_eq!(settings.told, sane);
    }
}
