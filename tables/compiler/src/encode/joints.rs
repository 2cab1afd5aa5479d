//! The joint sections of the image.

use springline_core::image::layout::section;
use springline_core::image::{
    Band, Caution, JointEnd, Listing, MatrixRow, Part, SamePurchase, Set, WordRun,
};
use springline_core::joint::Job;

use super::phrases::Phrases;
use super::{Parts, Texts};

/// The joints of an image, texts still apart.
#[derive(Clone, Debug, Default)]
pub struct DraftJoints {
    /// Bands of sizes.
    pub bands: Vec<Band>,
    /// Sets of variants and of joint ends.
    pub sets: Vec<Set>,
    /// The family of each variant.
    pub variants: Vec<u8>,
    /// Each joint end with its name.
    pub ends: Vec<(JointEnd, String)>,
    /// Each row of the matrix with its need and its reason.
    pub matrix: Vec<(MatrixRow, String, String)>,
    /// Each restraint with its name and its remark.
    pub restraints: Vec<(Listing, String, String)>,
    /// Each saddle with its name and its remark.
    pub saddles: Vec<(Listing, String, String)>,
    /// Each part with its name.
    pub parts: Vec<(Part, String)>,
    /// Each caution with its short text.
    pub cautions: Vec<(Caution, String)>,
}

impl DraftJoints {
    fn texts(&self) -> impl Iterator<Item = &str> {
        let ends = self.ends.iter().map(|(_, name)| name);
        let matrix = self
            .matrix
            .iter()
            .flat_map(|(_, need, reason)| [need, reason]);
        let listings = self.restraints.iter().chain(&self.saddles);
        let listings = listings.flat_map(|(_, name, remark)| [name, remark]);
        let parts = self.parts.iter().map(|(_, name)| name);
        let cautions = self.cautions.iter().map(|(_, short)| short);
        let texts = ends.chain(matrix).chain(listings).chain(parts);
        let texts = texts.chain(cautions);
        texts.map(String::as_str)
    }

    /// Writes all but the words, which come first in the text.
    pub(super) fn encode(&self, texts: &mut Texts, parts: &mut Parts) {
        let mut phrases = Phrases::of(self.texts());
        for word in &phrases.words {
            texts.append(word);
        }
        let runs: Vec<_> = phrases.runs().iter().map(WordRun::to_bytes).collect();
        let ends: Vec<_> = self
            .ends
            .iter()
            .map(|(end, name)| {
                let name = phrases.start(name);
                JointEnd { name, ..*end }.to_bytes()
            })
            .collect();
        let matrix: Vec<_> = self
            .matrix
            .iter()
            .map(|(row, need, reason)| {
                let (need, reason) = (phrases.start(need), phrases.start(reason));
                MatrixRow {
                    need,
                    reason,
                    ..*row
                }
                .to_bytes()
            })
            .collect();
        let mut listings = |all: &[(Listing, String, String)]| -> Vec<_> {
            let listing = |(listing, name, remark): &(Listing, String, String)| {
                let (name, remark) = (phrases.start(name), phrases.start(remark));
                Listing {
                    name,
                    remark,
                    ..*listing
                }
                .to_bytes()
            };
            all.iter().map(listing).collect()
        };
        let (restraints, saddles) = (listings(&self.restraints), listings(&self.saddles));
        let made: Vec<_> = self
            .parts
            .iter()
            .map(|(part, name)| {
                let name = phrases.start(name);
                Part { name, ..*part }.to_bytes()
            })
            .collect();
        let cautions: Vec<_> = self
            .cautions
            .iter()
            .map(|(caution, short)| {
                let short = phrases.start(short);
                Caution { short, ..*caution }.to_bytes()
            })
            .collect();
        let bands: Vec<_> = self.bands.iter().map(Band::to_bytes).collect();
        let sets: Vec<_> = self.sets.iter().map(|set| set.to_bytes()).collect();
        parts.add(section::WORD_RUNS, &runs);
        parts.bytes(section::PHRASES, &phrases.bytes);
        parts.add(section::BANDS, &bands);
        parts.add(section::SETS, &sets);
        parts.bytes(section::VARIANTS, &self.variants);
        parts.add(section::ENDS, &ends);
        parts.add(section::MATRIX, &matrix);
        parts.add(section::RESTRAINTS, &restraints);
        parts.add(section::SADDLES, &saddles);
        parts.add(section::PARTS, &made);
        parts.add(section::CAUTIONS, &cautions);
    }
}

/// The rows that buy what a row before them buys, from the purchase groups of each row in the order of the image.
pub(super) fn same(purchases: &[[u16; Job::ALL.len()]]) -> Vec<[u8; SamePurchase::SIZE]> {
    let number = |at: usize| u16::try_from(at).unwrap_or(u16::MAX);
    let key = |row: usize, job: usize| u32::from(number(row)) | u32::from(number(job)) << 16;
    let of = |job: usize| {
        purchases
            .iter()
            .enumerate()
            .filter_map(move |(row, groups)| {
                let first = purchases.iter().position(|held| held[job] == groups[job])?;
                let same = SamePurchase {
                    row_and_job: key(row, job),
                    first: number(first),
                };
                (first < row).then(|| same.to_bytes())
            })
    };
    (0..Job::ALL.len()).flat_map(of).collect()
}
