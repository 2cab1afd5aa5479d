//! A draw: a pipe, what is read of it, and every answer that the technician would give.

use super::bench::Bench;
use super::instrument::{Instrument, Reader, Shown};
use super::nature::Nature;
use super::pipe::{Pipe, any};
use super::print;
use super::random::{Part, Stream};
use super::wall::Wall;
use springline_core::print::Line;

/// Plans that name a family right, and a size.
const PLANS: (f64, f64) = (0.90, 0.93);

/// What was told beside the readings.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Told {
    /// The answer to each clue, where it was given.
    pub clues: Vec<Option<usize>>,
    /// The family that plans name, and a row of the size that they name.
    pub plans: Option<(usize, Option<usize>)>,
    /// Temperature, °F.
    pub temperature: Option<f64>,
    /// Whether the site was told; which it is, is the pipe's.
    pub site: bool,
    /// What a wall at a cut end showed, inches.
    pub wall: Option<f64>,
    /// What of a print line was read.
    pub print: Option<Line>,
}

/// A print line that can be read is told so often with the first reading.
const PRINT_TOLD: f64 = 0.20;

/// A draw of a world.
#[derive(Clone, Debug)]
pub struct Draw {
    /// Its number.
    pub number: u64,
    /// The pipe.
    pub pipe: Pipe,
    /// What it was read with first.
    pub instrument: Instrument,
    /// What that showed.
    pub shown: Vec<Shown>,
    /// Whether any of it was misread.
    pub misread: bool,
    /// Where one diameter was taken, from the crown, radians.
    pub angle: f64,
    /// Whether a tape can be put around without digging.
    pub dug: bool,
    /// The answer to every clue, were it asked for.
    pub answers: Vec<usize>,
    /// What a cut end shows of the wall, inches, where there is one.
    pub wall: Option<f64>,
    /// What can be read of a print line, where there is one.
    pub line: Option<Line>,
    /// What is told at once.
    pub told: Told,
}

impl Draw {
    /// A draw as in the field, or with one instrument.
    #[must_use]
    pub fn new(
        bench: &Bench,
        nature: &Nature,
        (seed, number): (u64, u64),
        only: Option<Instrument>,
    ) -> Self {
        let stream = |part| Stream::new(seed, number, part);
        let pipe = Pipe::draw(bench, nature, seed, number);
        let mut own = stream(Part::Instrument);
        let picked = Instrument::pick(&mut own);
        let instrument = only.unwrap_or(picked);
        // Whoever puts a tape around has dug; on a chord only the crown is bare. Between them, half of the time.
        let half = own.happens(0.5);
        let dug = match instrument {
            Instrument::Caliper | Instrument::Two | Instrument::Three => half,
            Instrument::SteelTape | Instrument::DiameterTape | Instrument::String => true,
            Instrument::Chord => false,
        };
        let mut reader = Reader::new(&pipe, nature, stream(Part::Reading));
        let shown = reader.first(instrument);
        let (misread, angle) = (reader.misread, reader.angle);
        let answers = answers(bench, nature, &pipe, &mut stream(Part::Clues));
        let wall = Wall::draw(bench, &pipe, nature, &mut stream(Part::Wall));
        let mut printed = stream(Part::Print);
        let line = print::named(bench, &pipe, wall.class, nature, &mut printed)
            .map(|named| print::line(&named));
        let told = Told {
            wall: wall.shown,
            print: line.filter(|_| printed.happens(PRINT_TOLD)),
            ..told(bench, nature, &pipe, &answers, &mut stream(Part::Told))
        };
        Self {
            number,
            pipe,
            instrument,
            shown,
            misread,
            angle,
            dug,
            answers,
            wall: wall.shown,
            line,
            told,
        }
    }

    /// The purchase that is right, or that it is outside.
    #[must_use]
    pub fn truth(&self, bench: &Bench) -> usize {
        if self.pipe.barrel() && !self.misread {
            bench.groups[self.pipe.row]
        } else {
            bench.outside
        }
    }
}

fn answers(bench: &Bench, nature: &Nature, pipe: &Pipe, stream: &mut Stream) -> Vec<usize> {
    let one = |clue: &super::clues::Clue| {
        let shows = if clue.hidden {
            pipe.looks_like
        } else {
            pipe.row
        };
        let believed = &clue.chances[bench.model.rows[shows].family];
        stream.pick(nature.answers(believed, clue.looks).into_iter())
    };
    bench.clues.iter().map(one).collect()
}

fn told(
    bench: &Bench,
    nature: &Nature,
    pipe: &Pipe,
    answers: &[usize],
    stream: &mut Stream,
) -> Told {
    let clues = bench.clues.iter().zip(answers);
    let clues = clues
        .map(|(clue, answer)| stream.happens(clue.told).then_some(*answer))
        .collect();
    let temperature = {
        let told = stream.normal(pipe.temperature, 4.0);
        stream.happens(0.20).then_some(told)
    };
    let plans = stream.happens(0.10).then(|| {
        let wrong = |right: f64| (1.0 - right) * nature.wrong_facts;
        let named = |right: f64, stream: &mut Stream| {
            if stream.happens(wrong(right)) {
                any(bench, pipe.site, stream)
            } else {
                pipe.row
            }
        };
        let family = bench.model.rows[named(PLANS.0, stream)].family;
        // Every other plan names a size, too.
        let size = named(PLANS.1, stream);
        (family, stream.happens(0.5).then_some(size))
    });
    Told {
        clues,
        plans,
        temperature,
        site: true,
        ..Told::default()
    }
}
