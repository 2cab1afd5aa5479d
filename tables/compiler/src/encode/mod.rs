//! Writes the image's bytes.

mod assembly;
mod joints;
mod phrases;
mod print;
mod thrust;

pub use assembly::DraftAssembly;
pub use joints::DraftJoints;
pub use print::DraftPrint;

use springline_core::image::layout::{CRC, ENVELOPE, FORMAT, MAGIC, section};
use springline_core::image::record::Header;
use springline_core::image::{
    Clue, ClueAnswer, Derating, Family, Instrument, Law, Likelihood, ListedClass, Row, Section,
    Settings, System, Text,
};
use springline_core::joint::Job;

use crate::thrust::Thrust;

/// Everything of an image, texts still apart.
#[derive(Clone, Debug, Default)]
pub struct Draft {
    /// The constants.
    pub settings: Settings,
    /// In the order of [`springline_core::reading::Tool`].
    pub instruments: Vec<Instrument>,
    /// Key and label of each OD system.
    pub systems: Vec<(String, String)>,
    /// Each family with its key and name.
    pub families: Vec<(Family, String, String)>,
    /// Squash laws, that of rigid pipe first.
    pub laws: Vec<Law>,
    /// Nominal sizes, each with how large it is in sixty-fourths of an inch.
    pub sizes: Vec<(String, u16)>,
    /// Variants and class names, the empty one first.
    pub labels: Vec<String>,
    /// Keys of sources.
    pub sources: Vec<String>,
    /// Rows, in any order; `reach` is worked out here.
    pub rows: Vec<Row>,
    /// The purchase groups of each row by [`Job`]; where there are none, each row is a purchase of its own.
    pub purchases: Vec<[u16; Job::ALL.len()]>,
    /// Classes, list by list.
    pub classes: Vec<ListedClass>,
    /// Where each list of classes begins.
    pub class_lists: Vec<u16>,
    /// Walls, as the rows point to them.
    pub walls: Vec<u16>,
    /// What is left of pressures in warm pipe.
    pub deratings: Vec<Derating>,
    /// Joints.
    pub joints: DraftJoints,
    /// Print lines.
    pub print: DraftPrint,
    /// Thrust.
    pub thrust: Thrust,
    /// How joints are made up.
    pub assembly: DraftAssembly,
    /// Clues.
    pub clues: Vec<DraftClue>,
}

/// A clue, its texts still apart.
#[derive(Clone, Debug)]
pub struct DraftClue {
    /// Everything but its texts.
    pub record: Clue,
    /// Its key.
    pub key: String,
    /// How people are asked.
    pub question: String,
    /// Each answer with its key and its words.
    pub answers: Vec<(ClueAnswer, String, String)>,
    /// By answer and then by family.
    pub likelihoods: Vec<Likelihood>,
}

/// Texts laid end to end, each kept once.
#[derive(Default)]
struct Texts(Vec<u8>);

impl Texts {
    /// Puts a text behind all others.
    fn append(&mut self, text: &str) {
        self.0.extend_from_slice(text.as_bytes());
    }

    /// Where a text lies; the whole pool must stay below 64 KiB, which the image's limit sees to.
    fn put(&mut self, text: &str) -> Text {
        let bytes = text.as_bytes();
        let found = self
            .0
            .windows(bytes.len().max(1))
            .position(|at| at == bytes);
        let offset = match (bytes.is_empty(), found) {
            (true, _) => 0,
            (false, Some(at)) => at,
            (false, None) => {
                self.0.extend_from_slice(bytes);
                self.0.len() - bytes.len()
            }
        };
        Text {
            offset: u16::try_from(offset).unwrap_or(u16::MAX),
            length: u16::try_from(bytes.len()).unwrap_or(u16::MAX),
        }
    }

    /// The same for a text of less than 256 bytes, as its start and its length.
    fn put_short(&mut self, text: &str) -> (u16, u8) {
        let at = self.put(text);
        (at.offset, u8::try_from(at.length).unwrap_or(u8::MAX))
    }

    /// The same for a text whose case does not matter.
    fn put_any_case(&mut self, text: &str) -> (u16, u8) {
        let bytes = text.as_bytes();
        let held = self.0.windows(bytes.len().max(1));
        match held
            .into_iter()
            .position(|at| at.eq_ignore_ascii_case(bytes))
        {
            Some(at) => (
                u16::try_from(at).unwrap_or(u16::MAX),
                u8::try_from(bytes.len()).unwrap_or(u8::MAX),
            ),
            None => self.put_short(text),
        }
    }

    fn packed(&mut self, text: &str) -> u32 {
        u32::from_le_bytes(self.put(text).to_bytes())
    }
}

/// The image of a draft, unsigned: its envelope is all zero.
#[must_use]
pub fn encode(draft: &Draft) -> Vec<u8> {
    let mut texts = Texts::default();
    let mut parts = Parts::default();
    // Words lie one behind the other, and so before everything else.
    draft.joints.encode(&mut texts, &mut parts);
    let list = |texts: &mut Texts, all: &[String]| -> Vec<[u8; Text::SIZE]> {
        all.iter().map(|text| texts.put(text).to_bytes()).collect()
    };
    let systems: Vec<_> = draft
        .systems
        .iter()
        .map(|(key, label)| {
            System {
                key: texts.packed(key),
                label: texts.packed(label),
            }
            .to_bytes()
        })
        .collect();
    let families: Vec<_> = draft
        .families
        .iter()
        .map(|(family, key, name)| {
            Family {
                key: texts.packed(key),
                name: texts.packed(name),
                ..*family
            }
            .to_bytes()
        })
        .collect();
    let clues: Vec<_> = draft
        .clues
        .iter()
        .map(|clue| {
            Clue {
                key: texts.packed(&clue.key),
                question: texts.packed(&clue.question),
                ..clue.record
            }
            .to_bytes()
        })
        .collect();
    let answers: Vec<_> = draft
        .clues
        .iter()
        .flat_map(|clue| &clue.answers)
        .map(|(answer, key, words)| {
            ClueAnswer {
                key: texts.packed(key),
                words: texts.packed(words),
                ..*answer
            }
            .to_bytes()
        })
        .collect();
    let likelihoods: Vec<_> = draft
        .clues
        .iter()
        .flat_map(|clue| &clue.likelihoods)
        .map(|likelihood| likelihood.to_bytes())
        .collect();
    let (sizes, measures): (Vec<_>, Vec<_>) = draft
        .sizes
        .iter()
        .map(|(size, measure)| (texts.put(size).to_bytes(), measure.to_le_bytes()))
        .unzip();
    let labels = list(&mut texts, &draft.labels);
    let sources = list(&mut texts, &draft.sources);
    let instruments: Vec<_> = draft.instruments.iter().map(Instrument::to_bytes).collect();
    let laws: Vec<_> = draft.laws.iter().map(Law::to_bytes).collect();
    let (rows, purchases) = ordered(draft);
    let rows: Vec<_> = rows.iter().map(Row::to_bytes).collect();
    let classes: Vec<_> = draft.classes.iter().map(ListedClass::to_bytes).collect();
    let numbers = |all: &[u16]| all.iter().map(|number| number.to_le_bytes()).collect();
    let (lists, walls): (Vec<_>, Vec<_>) = (numbers(&draft.class_lists), numbers(&draft.walls));

    parts.add(section::SETTINGS, &[draft.settings.to_bytes()]);
    parts.add(section::INSTRUMENTS, &instruments);
    parts.add(section::SYSTEMS, &systems);
    parts.add(section::FAMILIES, &families);
    parts.add(section::LAWS, &laws);
    parts.add(section::SIZES, &sizes);
    parts.add(section::LABELS, &labels);
    parts.add(section::SOURCES, &sources);
    parts.add(section::ROWS, &rows);
    parts.add(section::CLASSES, &classes);
    parts.add(section::CLUES, &clues);
    parts.add(section::ANSWERS, &answers);
    parts.add(section::LIKELIHOODS, &likelihoods);
    parts.add(section::CLASS_LISTS, &lists);
    parts.add(section::WALLS, &walls);
    parts.add(section::MEASURES, &measures);
    let deratings: Vec<_> = draft.deratings.iter().map(Derating::to_bytes).collect();
    parts.add(section::DERATINGS, &deratings);
    parts.add(section::SAME, &joints::same(&purchases));
    draft.print.encode(&mut texts, &mut parts);
    thrust::encode(&draft.thrust, &mut texts, &mut parts);
    draft.assembly.encode(&mut parts);
    parts.bytes(section::TEXT, &texts.0);
    parts.finish()
}

/// Rows by low edge, with the running maximum of the high edges that lets a search find where a window begins; and their
/// purchases.
fn ordered(draft: &Draft) -> (Vec<Row>, Vec<[u16; Job::ALL.len()]>) {
    let mut order: Vec<usize> = (0..draft.rows.len()).collect();
    order.sort_by_key(|at| {
        let row = &draft.rows[*at];
        (row.low, row.high, row.family, row.size, row.variant)
    });
    let mut reach = i32::MIN;
    let rows = order.iter().map(|at| {
        let row = draft.rows[*at];
        reach = reach.max(row.high);
        Row { reach, ..row }
    });
    let rows = rows.collect();
    let purchases = order
        .iter()
        .filter_map(|at| draft.purchases.get(*at).copied());
    (rows, purchases.collect())
}

#[derive(Default)]
struct Parts {
    sections: Vec<(u16, usize, usize, Vec<u8>)>,
}

impl Parts {
    fn add<const N: usize>(&mut self, id: u16, records: &[[u8; N]]) {
        self.sections.push((id, N, records.len(), records.concat()));
    }

    fn bytes(&mut self, id: u16, bytes: &[u8]) {
        self.sections.push((id, 1, bytes.len(), bytes.to_vec()));
    }

    fn finish(self) -> Vec<u8> {
        let number = |count: usize| u32::try_from(count).unwrap_or(u32::MAX);
        let short = |count: usize| u16::try_from(count).unwrap_or(u16::MAX);
        let mut offset = ENVELOPE + Header::SIZE + self.sections.len() * Section::SIZE;
        let mut directory = Vec::new();
        let mut body = Vec::new();
        for (id, record, count, bytes) in &self.sections {
            directory.extend_from_slice(
                &Section {
                    id: *id,
                    record: short(*record),
                    offset: number(offset),
                    count: number(*count),
                }
                .to_bytes(),
            );
            // Four-byte steps, so that a device may read words.
            let padded = bytes.len().next_multiple_of(4);
            body.extend_from_slice(bytes);
            body.resize(body.len() + padded - bytes.len(), 0);
            offset += padded;
        }
        let rest = [directory, body].concat();
        let header = Header {
            magic: MAGIC,
            format: FORMAT,
            sections: short(self.sections.len()),
            length: number(Header::SIZE + rest.len()),
            crc: CRC.checksum(&rest),
        };
        [&[0; ENVELOPE][..], &header.to_bytes(), &rest].concat()
    }
}
