//! What was seen and felt of a pipe beside its diameters.

use crate::image::layout::MAX_CLUES;
use crate::print::Line;

/// An answer to one of the image's clues; `Image::find_clue` makes it from their keys.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Told {
    /// The clue, an index.
    pub clue: u8,
    /// The answer, an index counted through the answers of all clues.
    pub answer: u8,
}

/// What plans or as-built records name.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Plans {
    /// A family, an index.
    pub family: u8,
    /// A nominal size, an index, where they name one.
    pub size: Option<u8>,
}

/// Which of the things told: one clue, the plans, or the print.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ClueName {
    /// A clue of the image, an index.
    Clue(u8),
    /// The plans.
    Plans,
    /// What is printed on it.
    Print,
}

/// Everything told of one pipe beside its readings.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Clues {
    /// The answer to each clue.
    answers: [Option<u8>; MAX_CLUES],
    /// What plans name.
    pub plans: Option<Plans>,
    /// What is printed on it, as far as it was read.
    pub print: Option<Line>,
}

impl Clues {
    /// Nothing told.
    #[must_use]
    pub const fn new() -> Self {
        Self {
            answers: [None; MAX_CLUES],
            plans: None,
            print: None,
        }
    }

    /// Takes in an answer; a later one to the same clue replaces it. A clue that no image has is left out.
    pub fn tell(&mut self, told: Told) {
        if let Some(slot) = self.answers.get_mut(usize::from(told.clue)) {
            *slot = Some(told.answer);
        }
    }

    /// These without one of them.
    #[must_use]
    pub fn without(mut self, name: ClueName) -> Self {
        match name {
            ClueName::Clue(clue) => {
                if let Some(slot) = self.answers.get_mut(usize::from(clue)) {
                    *slot = None;
                }
            }
            ClueName::Plans => self.plans = None,
            ClueName::Print => self.print = None,
        }
        self
    }

    /// The answer to a clue.
    #[must_use]
    pub fn answer(&self, clue: u8) -> Option<u8> {
        self.answers.get(usize::from(clue)).copied().flatten()
    }

    /// The answers, by clue.
    pub fn told(&self) -> impl Iterator<Item = Told> {
        (0u8..)
            .zip(&self.answers)
            .filter_map(|(clue, answer)| answer.map(|answer| Told { clue, answer }))
    }

    /// What was told, by name.
    pub fn names(&self) -> impl Iterator<Item = ClueName> {
        let plans = self.plans.map(|_| ClueName::Plans);
        self.told()
            .map(|told| ClueName::Clue(told.clue))
            .chain(plans)
            .chain(self.print.map(|_| ClueName::Print))
    }

    /// Whether nothing was told.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.names().next().is_none()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_later_answer_replaces_an_earlier_one_and_can_be_taken_back() {
        let mut clues = Clues::new();
        assert!(clues.is_empty());
        clues.tell(Told { clue: 3, answer: 9 });
        clues.tell(Told {
            clue: 3,
            answer: 10,
        });
        clues.tell(Told {
            clue: 200,
            answer: 1,
        });
        clues.plans = Some(Plans {
            family: 1,
            size: None,
        });
        let told: Vec<Told> = clues.told().collect();
        assert_eq!(
            told,
            [Told {
                clue: 3,
                answer: 10
            }]
        );
        let names: Vec<ClueName> = clues.names().collect();
        assert_eq!(names, [ClueName::Clue(3), ClueName::Plans]);
        let fewer = clues.without(ClueName::Plans).without(ClueName::Clue(3));
        assert!(fewer.is_empty());
    }
}
