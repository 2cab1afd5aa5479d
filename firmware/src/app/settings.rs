//! What a user sets once a day. Kept in RAM for now.

use springline_core::joint::Owner;
use springline_core::link::{NotSet, Setting};
use springline_core::reading::Site;
use springline_core::{Length, Unit};

/// Jaw depths that the buttons step through, millimetres.
const JAWS: [i32; 7] = [30, 40, 50, 60, 75, 100, 150];

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
    };

    /// Takes a setting from a host.
    ///
    /// # Errors
    ///
    /// [`NotSet::OutOfRange`] for jaws that no caliper has.
    pub fn set(&mut self, setting: Setting) -> Result<(), NotSet> {
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
        }
        Ok(())
    }

    /// Rows of the settings screen.
    pub const ROWS: u8 = 5;

    /// Changes the setting of a row by a press to the right (`true`) or to the left.
    pub(crate) fn step(&mut self, row: u8, right: bool) {
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
            _ => self.owner = beside(Owner::ALL, self.owner, right),
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
            settings.step(1, true);
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
        settings.step(1, false);
        assert_eq!(shown(&settings), Some(150));
        for _ in 0..9 {
            settings.step(1, false);
        }
        assert_eq!(shown(&settings), Some(30));
    }

    #[test]
    fn a_host_sets_what_is_in_range() {
        let mut settings = Settings::START;
        let deep = Some(Length::from_counts(2000 * Length::MILLIMETRE));
        assert_eq!(
            settings.set(Setting::JawDepth(deep)),
            Err(NotSet::OutOfRange)
        );
        assert_eq!(settings, Settings::START);
        assert_eq!(settings.set(Setting::JawDepth(None)), Ok(()));
        assert_eq!(settings.jaws, None);
        settings.step(2, false);
        assert_eq!(settings.site, Site::Municipal);
        settings.step(3, true);
        assert!(!settings.buried);
        settings.step(4, false);
        assert_eq!(settings.owner, Owner::Purveyor);
        settings.step(4, true);
        assert_eq!(settings.owner, Owner::Unknown);
    }
}
