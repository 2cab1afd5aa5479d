//! The pipe at hand: its readings and clues, the answer, and the check that would settle it.

use heapless::Vec;
use springline_core::Length;
use springline_core::clue::Told;
use springline_core::identify::{
    Answer, Cannot, Check, MAX_CANDIDATES, Proposal, Trench, identify, propose,
};
use springline_core::image::Image;
use springline_core::reading::{Clock, Query, Reading, ReadingError};

use super::screen::Second;
use super::settings::Settings;

/// Everything known of the pipe at hand.
#[derive(Clone, Debug)]
pub(crate) struct Pipe {
    pub(crate) query: Query,
    pub(crate) answer: Answer,
    /// What is bought for each candidate.
    pub(crate) bought: Vec<u16, MAX_CANDIDATES>,
    /// Checks that cannot be made.
    cannot: Cannot,
    /// The check to make next, once it was looked for.
    pub(crate) next: Option<Proposal>,
    /// Whether it is still to be looked for.
    pub(crate) looking: bool,
}

impl Pipe {
    /// A new pipe of which one diameter was read.
    ///
    /// # Errors
    ///
    /// A [`ReadingError`] for a reading that no pipe gives.
    pub(crate) fn read(
        image: &Image<'_>,
        settings: &Settings,
        value: Length,
    ) -> Result<Self, ReadingError> {
        let mut query = Query::new();
        query.site = settings.site;
        query.buried = settings.buried;
        query.add(diameter(settings, value))?;
        // Neither figures nor letters can be dialled in yet.
        let cannot = Cannot::none()
            .and(Check::Tape)
            .and(Check::Print)
            .and(Check::Wall);
        Self::of(image, query, cannot)
    }

    /// The same pipe read once more, across the first diameter or a foot along.
    ///
    /// # Errors
    ///
    /// A [`ReadingError`] for a reading that no pipe gives, or one too many; the pipe stays as it was.
    pub(crate) fn read_again(
        &self,
        image: &Image<'_>,
        settings: &Settings,
        second: Second,
        value: Length,
    ) -> Result<Self, ReadingError> {
        let mut query = self.query;
        query.add(match second {
            Second::Crossed => Reading::Diameter {
                value,
                clock: Some(Clock::ACROSS),
                jaw: settings.jaws,
                sigma: None,
            },
            Second::Along => Reading::Along {
                value,
                clock: None,
                jaw: settings.jaws,
                sigma: None,
            },
        })?;
        Self::of(image, query, self.cannot.and(second.check()))
    }

    /// The same pipe with a clue answered.
    ///
    /// # Errors
    ///
    /// None that its readings did not have before.
    pub(crate) fn told(&self, image: &Image<'_>, told: Told) -> Result<Self, ReadingError> {
        let mut query = self.query;
        query.clues.tell(told);
        Self::of(image, query, self.cannot)
    }

    /// The same pipe where a check cannot be made.
    pub(crate) fn cannot(&mut self, check: Check) {
        self.cannot = self.cannot.and(check);
        self.next = None;
        self.looking = true;
    }

    fn of(image: &Image<'_>, query: Query, cannot: Cannot) -> Result<Self, ReadingError> {
        let answer = identify(image, &query)?;
        let purchases = image.purchases(query.job);
        let mut bought = Vec::new();
        for candidate in answer.candidates() {
            // As many have room as an answer lists.
            let _ = bought.push(purchases.of(candidate.row));
        }
        Ok(Self {
            bought,
            answer,
            query,
            cannot,
            next: None,
            looking: true,
        })
    }

    /// Looks for the check to make next. The answer is on the panel before: this takes longer than all the rest.
    pub(crate) fn look(&mut self, image: &Image<'_>) {
        self.looking = false;
        self.next = propose(
            image,
            &self.query,
            &self.answer,
            Trench::default(),
            self.cannot,
        );
    }
}

fn diameter(settings: &Settings, value: Length) -> Reading {
    Reading::Diameter {
        value,
        clock: None,
        jaw: settings.jaws,
        sigma: None,
    }
}
