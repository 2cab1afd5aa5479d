//! The pressure that a class is held to: one rule, whoever asks.

use super::{Image, Row};

/// The pressures that pipe of one class is printed with, psi at the temperature that it is rated at.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Rated {
    /// What pressures are held against: today's, or the older one that the print names.
    pub taken: u16,
    /// What is printed today: the most of all standards that have a class of this name.
    pub today: u16,
    /// The least that the same wall was printed with.
    pub least: u16,
}

impl Rated {
    /// The pressure is that of an older standard, since the print names it.
    #[must_use]
    pub const fn older(&self) -> bool {
        self.taken < self.today
    }
}

impl Image<'_> {
    /// What the class of this label is rated for, on the pipe of a row. `printed` is the pressure that the print names: where any
    /// standard has this wall with it, it counts, since whoever laid the line reckoned with it. `None` where the tables have no
    /// pressure of it.
    #[must_use]
    pub fn rated(&self, row: &Row, label: &str, printed: Option<u16>) -> Option<Rated> {
        let all = || {
            let classes = self.classes(row).filter(|class| class.psi > 0);
            let named = classes.filter(|class| self.label(class.label) == label);
            named.map(|class| class.psi)
        };
        let (least, today) = (all().min()?, all().max()?);
        let named = printed.filter(|psi| all().any(|one| one == *psi));
        Some(Rated {
            taken: named.unwrap_or(today),
            today,
            least,
        })
    }
}
