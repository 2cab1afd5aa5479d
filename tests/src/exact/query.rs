//! What is asked, and what is answered.

use std::collections::HashMap;

/// Kind of job the pipe was found on.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Site {
    /// Not told: six parts irrigation, four parts municipal.
    #[default]
    Unknown,
    /// An irrigation job.
    Irrigation,
    /// A municipal job.
    Municipal,
}

/// A reading of one pipe. All lengths in inches, as read.
#[derive(Debug, Clone, PartialEq)]
pub enum Reading {
    /// One to three diameters by caliper, each with the clock position it was
    /// taken at (12 vertical, 3 horizontal), or `None`. Clock positions of one
    /// pipe share one error; unknown directions are independent. Either all
    /// have a clock position, or none has and there are at most two.
    Diameters(Vec<(f64, Option<u8>)>),
    /// A diameter tape.
    DiameterTape(f64),
    /// A steel tape laid around, read to the sixteenth.
    SteelTape(f64),
    /// A string or cloth tape laid around, read to the eighth.
    String(f64),
    /// Chord and rise on the crown.
    ChordRise {
        /// Length of the chord.
        chord: f64,
        /// Rise of the crown above the chord.
        rise: f64,
    },
    /// A caliper whose jaws stop short of the widest point.
    ShortJaw {
        /// What the caliper reads.
        chord: f64,
        /// Depth of its jaws.
        depth: f64,
        /// Clock position of the direction measured across, if known.
        hour: Option<u8>,
    },
}

impl Reading {
    /// One diameter in an unknown direction, inches.
    #[must_use]
    pub fn caliper(diameter: f64) -> Self {
        Self::Diameters(vec![(diameter, None)])
    }
}

/// A reading with all that is known beside it.
#[derive(Debug, Clone)]
pub struct Query {
    /// The reading.
    pub reading: Reading,
    /// Standard deviation of the instrument in inches, in place of the
    /// model's: of each diameter, of a tape or string before rounding, of a
    /// chord read with short jaws, of the chord of a chord and rise.
    pub sigma: Option<f64>,
    /// The same for the rise of a chord and rise, inches.
    pub rise_sigma: Option<f64>,
    /// Whether the pipe is buried; unless told, it is.
    pub buried: bool,
    /// Temperature the user told, °F.
    pub temperature: Option<f64>,
    /// Kind of job.
    pub site: Site,
    /// Likelihood of all clues for each family; a family left out has one.
    pub clues: HashMap<String, f64>,
}

impl Query {
    /// A reading of buried pipe of which nothing else is known.
    #[must_use]
    pub fn new(reading: Reading) -> Self {
        Self {
            reading,
            sigma: None,
            rise_sigma: None,
            buried: true,
            temperature: None,
            site: Site::Unknown,
            clues: HashMap::new(),
        }
    }

    /// The same on this kind of site.
    #[must_use]
    pub fn on(mut self, site: Site) -> Self {
        self.site = site;
        self
    }

    /// The same with these likelihoods of the clues, by family.
    #[must_use]
    pub fn with_clues(mut self, clues: HashMap<String, f64>) -> Self {
        self.clues = clues;
        self
    }

    pub(super) fn clue(&self, family: &str) -> f64 {
        self.clues.get(family).copied().unwrap_or(1.0)
    }
}

/// The answer.
#[derive(Debug, Clone)]
pub struct Posterior {
    /// Family, nominal and weight, largest first; every pair once.
    pub weights: Vec<(&'static str, String, f64)>,
    /// Weight of everything that is no barrel of a listed pipe.
    pub outside: f64,
}

impl Posterior {
    /// Weight of a family and nominal; zero if there is no such row.
    #[must_use]
    pub fn weight(&self, family: &str, nominal: &str) -> f64 {
        self.weights
            .iter()
            .find(|w| w.0 == family && w.1 == nominal)
            .map_or(0.0, |w| w.2)
    }

    /// Weight of a family, all its sizes together.
    #[must_use]
    pub fn family(&self, family: &str) -> f64 {
        let own = self.weights.iter().filter(|w| w.0 == family);
        own.map(|w| w.2).sum()
    }
}
