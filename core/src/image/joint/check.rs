//! What the joint sections must hold.

use super::super::check::{Sections, each};
use super::super::layout::section;
use super::super::{Carries, Grade, Image, ImageError, Material};
use super::caution::{Caution, Touches};
use super::phrase::numbers;
use super::record::{Band, JointEnd, Listing, MatrixRow, Part, SamePurchase, WordRun};
use super::{Joints, codes};
use crate::joint::tie::MOST_RUNS;
use crate::joint::{Act, Form, Job, Kind, Owner, Role, Stock, Task, Thread, Verdict};

/// The joint sections, not yet checked.
pub(in super::super) fn tables<'a>(sections: &Sections<'a, '_>) -> Result<Joints<'a>, ImageError> {
    Ok(Joints {
        runs: sections.table(section::WORD_RUNS)?,
        phrases: sections.bytes(section::PHRASES)?,
        measures: sections.table(section::MEASURES)?,
        bands: sections.table(section::BANDS)?,
        sets: sections.table(section::SETS)?,
        variants: sections.bytes(section::VARIANTS)?,
        ends: sections.table(section::ENDS)?,
        matrix: sections.table(section::MATRIX)?,
        restraints: sections.table(section::RESTRAINTS)?,
        saddles: sections.table(section::SADDLES)?,
        same: sections.table(section::SAME)?,
        parts: sections.table(section::PARTS)?,
        cautions: sections.table(section::CAUTIONS)?,
    })
}

/// Checks everything that an accessor relies on.
pub(in super::super) fn contents(image: &Image<'_>) -> Result<(), ImageError> {
    let joints = &image.joints;
    let phrase = |start: u16| phrase(joints, start);
    let bad = ImageError::Section;
    if joints.measures.len() != image.sizes.len() {
        return Err(bad(section::MEASURES));
    }
    words(image)?;
    let fits = |index: u8, table: usize| usize::from(index) < table;
    let of_family = |family: &u8| fits(*family, image.families.len());
    if joints.variants.len() > 64 || joints.ends.len() > 64 {
        return Err(bad(section::SETS));
    }
    each(section::VARIANTS, joints.variants.iter(), |family| {
        of_family(family)
    })?;
    each(
        section::BANDS,
        joints.bands.iter().map(Band::from_bytes),
        |band| band.from <= band.to,
    )?;
    each(section::ENDS, image.joint_ends(), |end: &JointEnd| {
        phrase(end.name)
            && end.jobs >> Job::ALL.len() == 0
            && Role::from_code(end.role_and_grade & 15).is_some()
            && Grade::from_code(end.role_and_grade >> 4).is_some()
            && end.flags <= 15
            && (end.or == Part::NO_END || fits(end.or, joints.ends.len()))
            && (end.by >= JointEnd::RANGE || fits(end.by, image.systems.len()))
    })?;
    let sets = joints.sets.len();
    let bands = joints.bands.len();
    each(section::MATRIX, image.matrix(), |row: &MatrixRow| {
        let kind = row.verdict_and_kind >> 4;
        fits(row.variants, sets)
            && fits(row.ends, sets)
            && fits(row.band, bands)
            && row.forms >> Form::ALL.len() == 0
            && Verdict::from_code(row.verdict_and_kind & 15).is_some()
            && (kind == 15 || Kind::from_code(kind).is_some())
            && Grade::from_code(row.grade).is_some()
            && phrase(row.need)
            && phrase(row.reason)
    })?;
    for (id, listings) in [
        (section::RESTRAINTS, joints.restraints),
        (section::SADDLES, joints.saddles),
    ] {
        each(id, listings.iter().map(Listing::from_bytes), |listing| {
            phrase(listing.name)
                && phrase(listing.remark)
                && fits(listing.variants, sets)
                && fits(listing.ends, sets)
                && fits(listing.band, bands)
                && (listing.system == Listing::ANY || fits(listing.system, image.systems.len()))
                && (listing.material == Listing::ANY
                    || Material::from_code(listing.material).is_some())
                && Grade::from_code(listing.grade()).is_some()
                && listing.of().is_some()
        })?;
    }
    parts(image)?;
    cautions(image)?;
    let mut last = None;
    each(
        section::SAME,
        joints.same.iter().map(SamePurchase::from_bytes),
        |same| {
            let ordered = last.is_none_or(|last| last < same.row_and_job);
            last = Some(same.row_and_job);
            let (row, job) = (same.row_and_job & 0xffff, same.row_and_job >> 16);
            // The first row of a purchase stands for itself.
            ordered
                && usize::try_from(job).is_ok_and(|job| job < Job::ALL.len())
                && usize::try_from(row).is_ok_and(|row| row < image.rows.len())
                && u32::from(same.first) < row
        },
    )
}

/// Parts speak of ends, bands and words that there are.
fn parts(image: &Image<'_>) -> Result<(), ImageError> {
    let joints = &image.joints;
    let runs = image.parts().filter(|part| part.run().is_some()).count();
    if joints.parts.len() >= 255 || runs > MOST_RUNS {
        return Err(ImageError::Section(section::PARTS));
    }
    let among = |index: u8, table: usize| usize::from(index) < table;
    let some_band = |index: u8| index == 255 || among(index, joints.bands.len());
    let stock = |code: u8| Stock::from_code(code).is_some();
    each(section::PARTS, image.parts(), |part: &Part| {
        phrase(joints, part.name)
            && part.joint_ends().next().is_some()
            && part.joint_ends().all(|end| among(end, joints.ends.len()))
            && among(part.band, joints.bands.len())
            && part.bends() <= 3
            && Act::from_code(part.act_and_stock & 15).is_some()
            && stock(part.act_and_stock >> 4)
            && some_band(part.other)
            && some_band(part.more)
            && stock(part.others & 15)
            && stock(part.others >> 4)
            && usize::from(part.outlets) >> Part::OUTLETS.len() == 0
            && (part.thread == 255 || Thread::from_code(part.thread).is_some())
            && Grade::from_code(part.grade()).is_some()
            && (part.grade_and_run >> 4 == 0
                || part.run().is_some() && part.joint_ends().count() == 2)
    })
}

/// Cautions speak of acts, tasks, ends and pipe that there are.
fn cautions(image: &Image<'_>) -> Result<(), ImageError> {
    let joints = &image.joints;
    if joints.cautions.len() >= 255 {
        return Err(ImageError::Section(section::CAUTIONS));
    }
    let among = |index: u8, count: usize| usize::from(index) < count;
    each(section::CAUTIONS, image.cautions(), |one: &Caution| {
        phrase(joints, one.short)
            && one.acts() >> Act::ALL.len() == 0
            && one.tasks >> Task::ALL.len() == 0
            && (one.ends == Caution::NO_ENDS || among(one.ends, joints.sets.len()))
            && one.touches().is_some_and(|touches| match touches {
                Touches::Any => true,
                Touches::Material(code) => Material::from_code(code).is_some(),
                Touches::Carries(code) => Carries::from_code(code).is_some(),
                Touches::System(code) => among(code, image.systems.len()),
                Touches::Owner(code) => Owner::from_code(code).is_some(),
            })
    })
}

/// Whether a phrase starts at an offset.
fn phrase(joints: &Joints<'_>, start: u16) -> bool {
    let start = usize::from(start);
    let length = joints.phrases.get(start).map(|length| usize::from(*length));
    length.is_some_and(|length| start + length < joints.phrases.len())
}

/// Every phrase, one behind the other, speaks of words that there are.
fn words(image: &Image<'_>) -> Result<(), ImageError> {
    let joints = &image.joints;
    let (mut count, mut bytes) = (0, 0);
    each(
        section::WORD_RUNS,
        joints.runs.iter().map(WordRun::from_bytes),
        |run| {
            count += usize::from(run.count);
            bytes += usize::from(run.count) * usize::from(run.length);
            bytes <= image.text.len()
        },
    )?;
    let mut at = 0;
    while at < joints.phrases.len() {
        let start = u16::try_from(at).map_err(|_| ImageError::Section(section::PHRASES))?;
        let codes = codes(joints.phrases, start);
        if !numbers(codes).all(|number| usize::from(number) < count) {
            return Err(ImageError::Section(section::PHRASES));
        }
        at += 1 + joints
            .phrases
            .get(at)
            .map_or(0, |length| usize::from(*length));
    }
    Ok(())
}
