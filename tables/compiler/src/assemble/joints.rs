//! The joints of the image: sets and bands each once, matrix rows and listings that point to them.

use springline_core::image::{
    Band as Measures, Caution as CautionRecord, JointEnd, Listing as Record, MatrixRow,
    Part as PartRecord, Set,
};
use springline_core::joint::{Job, Task};

use crate::encode::DraftJoints;
use crate::joints::{Band, Bits, By, Caution, End, EndForm, Joints, Listing, Part};
use crate::model::NominalSize;

/// How large a size is, in sixty-fourths of an inch.
pub(crate) fn measure(size: NominalSize) -> u16 {
    (size.inches() * 64.0).round() as u16
}

/// Sets and bands, each kept once.
#[derive(Default)]
struct Shared {
    bands: Vec<Measures>,
    sets: Vec<Set>,
}

impl Shared {
    fn band(&mut self, band: Band) -> u8 {
        let (from, to) = band.measures();
        index(&mut self.bands, Measures { from, to })
    }

    fn set(&mut self, set: Bits) -> u8 {
        index(&mut self.sets, Set(set.0))
    }

    fn listing(&mut self, listing: &Listing) -> (Record, String, String) {
        let record = Record {
            variants: self.set(listing.variants),
            ends: self.set(listing.ends),
            band: self.band(listing.band),
            system: listing.system.map_or(Record::ANY, |system| system as u8),
            material: listing
                .material
                .map_or(Record::ANY, |material| material as u8),
            grade_and_use: listing.grade as u8 | (listing.used as u8) << 4,
            ..Record::default()
        };
        (record, listing.name.clone(), listing.remark.clone())
    }
}

impl Shared {
    fn part(&mut self, part: &Part) -> (PartRecord, String) {
        let mut ends = [PartRecord::NO_END; 4];
        for (held, end) in ends.iter_mut().zip(&part.ends) {
            *held = *end as u8;
        }
        let other = |at: usize| part.others.get(at);
        let mut band = |at: usize| other(at).map_or(255, |(band, _)| self.band(*band));
        let (first, second) = (band(0), band(1));
        let code = |at: usize| other(at).map_or(0, |(_, stock)| *stock as u8);
        let record = PartRecord {
            name: 0,
            ends: u32::from_le_bytes(ends),
            band: self.band(part.band),
            tasks: part
                .tasks
                .iter()
                .fold(part.bends << Task::ALL.len(), |bits, task| {
                    bits | 1 << *task as u8
                }),
            act_and_stock: part.act as u8 | (part.stock as u8) << 4,
            other: first,
            more: second,
            others: code(0) | code(1) << 4,
            outlets: part.outlet.map_or(0, |(_, sizes)| sizes),
            thread: part.outlet.map_or(255, |(thread, _)| thread as u8),
            grade_and_run: part.grade as u8 | part.run.map_or(0, |run| run as u8 + 1) << 4,
        };
        (record, part.name.clone())
    }
}

impl Shared {
    fn caution(&mut self, caution: &Caution) -> (CautionRecord, String) {
        let trigger = &caution.trigger;
        let fold = if caution.fold { CautionRecord::FOLD } else { 0 };
        let bits = |all: Bits| all.0 as u8;
        let record = CautionRecord {
            short: 0,
            acts_and_fold: bits(trigger.acts) | fold,
            tasks: bits(trigger.tasks),
            ends: match trigger.ends {
                Bits(0) => CautionRecord::NO_ENDS,
                ends => self.set(ends),
            },
            pipe: trigger.pipe.code(),
        };
        (record, caution.short.clone())
    }
}

/// Where something is among others, or is put. What a byte cannot count, the check of the whole refuses.
pub(super) fn index<T: PartialEq>(held: &mut Vec<T>, new: T) -> u8 {
    let at = held
        .iter()
        .position(|held| *held == new)
        .unwrap_or_else(|| {
            held.push(new);
            held.len() - 1
        });
    u8::try_from(at).unwrap_or(u8::MAX)
}

/// The joints of checked sources.
pub(super) fn joints(joints: &Joints) -> DraftJoints {
    let mut shared = Shared::default();
    let matrix = joints
        .rows
        .iter()
        .map(|row| {
            let record = MatrixRow {
                variants: shared.set(row.variants),
                forms: row.forms.0 as u8,
                ends: shared.set(row.ends),
                band: shared.band(row.band),
                verdict_and_kind: row.verdict as u8 | row.kind.map_or(15, |kind| kind as u8) << 4,
                grade: row.grade as u8,
                ..MatrixRow::default()
            };
            (record, row.need.clone(), row.reason.clone())
        })
        .collect();
    let mut listings = |all: &[Listing]| all.iter().map(|one| shared.listing(one)).collect();
    let (restraints, saddles) = (listings(&joints.restraints), listings(&joints.saddles));
    let parts = joints.parts.iter().map(|part| shared.part(part)).collect();
    let cautions = joints.cautions.iter().map(|one| shared.caution(one));
    let cautions = cautions.collect();
    DraftJoints {
        parts,
        cautions,
        matrix,
        restraints,
        saddles,
        ends: joints.ends.iter().map(end).collect(),
        variants: joints
            .variants
            .iter()
            .map(|variant| variant.family as u8)
            .collect(),
        bands: shared.bands,
        sets: shared.sets,
    }
}

fn end(end: &End) -> (JointEnd, String) {
    let jobs = [
        (Job::Saddle, end.saddle),
        (Job::Coupling, end.coupling),
        (Job::Tap, end.tap),
    ];
    let bits = jobs.iter().filter(|(_, hangs)| *hangs);
    let record = JointEnd {
        name: 0,
        jobs: bits.fold(0, |bits, (job, _)| bits | 1 << *job as u8),
        role_and_grade: end.role as u8 | (end.grade as u8) << 4,
        by: match end.by {
            By::System(system) => system as u8,
            By::Range => JointEnd::RANGE,
            By::Flange => JointEnd::FLANGE,
            By::Thread => JointEnd::THREAD,
            By::Size => JointEnd::SIZE_ALONE,
        },
        flags: [
            (JointEnd::DRY, end.dry),
            (JointEnd::CURES, end.cures),
            (JointEnd::BELL, end.form == EndForm::Bell),
            (JointEnd::SPIGOT, end.form == EndForm::Spigot),
        ]
        .into_iter()
        .filter(|(_, is)| *is)
        .fold(0, |flags, (flag, _)| flags | flag),
        or: end.or.map_or(PartRecord::NO_END, |or| or as u8),
    };
    (record, end.name.clone())
}
