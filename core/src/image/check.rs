//! The one gate between foreign bytes and the engine.

use super::layout::{CRC, ENVELOPE, FORMAT, MAGIC, MAX_CLUES, MAX_FAMILIES, MAX_SECTIONS, section};
use super::record::Header;
use super::{
    Carries, ClueAnswer, Component, Derating, Image, ImageError, Instrument, Law, ListedClass,
    Material, Row, Section, Settings, System, Text, assembly, joint, print, thrust,
};
use crate::reading::Tool;

/// Lengths that the engine's integers were sized for: below 10 m, and bands below 2 m.
const MAX_OD: i32 = 1_000_000_000;
const MAX_BAND: i32 = 200_000_000;

/// Checks everything that an accessor or the engine relies on.
pub(super) fn image(bytes: &[u8]) -> Result<Image<'_>, ImageError> {
    let body = bytes.get(ENVELOPE..).unwrap_or(&[]);
    let Some((header, rest)) = body.split_first_chunk::<{ Header::SIZE }>() else {
        return Err(ImageError::TooShort(bytes.len()));
    };
    let header = Header::from_bytes(header);
    if header.magic != MAGIC {
        return Err(ImageError::NotAnImage);
    }
    if header.format != FORMAT {
        return Err(ImageError::Format(header.format));
    }
    if usize::try_from(header.length) != Ok(body.len()) {
        return Err(ImageError::TooShort(bytes.len()));
    }
    if CRC.checksum(rest) != header.crc {
        return Err(ImageError::Damaged);
    }
    let count = usize::from(header.sections);
    let (directory, _) = rest.as_chunks::<{ Section::SIZE }>();
    let directory = match directory.get(..count) {
        Some(entries) if count <= MAX_SECTIONS => entries,
        _ => return Err(ImageError::TooShort(bytes.len())),
    };
    let sections = Sections { bytes, directory };
    let image = Image {
        text: plain(&sections, section::TEXT)?,
        settings: settings(&sections)?,
        instruments: sections.table(section::INSTRUMENTS)?,
        systems: sections.table(section::SYSTEMS)?,
        families: sections.table(section::FAMILIES)?,
        laws: sections.table(section::LAWS)?,
        sizes: sections.table(section::SIZES)?,
        labels: sections.table(section::LABELS)?,
        sources: sections.table(section::SOURCES)?,
        rows: sections.table(section::ROWS)?,
        classes: sections.table(section::CLASSES)?,
        class_lists: sections.table(section::CLASS_LISTS)?,
        walls: sections.table(section::WALLS)?,
        deratings: sections.table(section::DERATINGS)?,
        clues: sections.table(section::CLUES)?,
        answers: sections.table(section::ANSWERS)?,
        likelihoods: sections.table(section::LIKELIHOODS)?,
        joints: joint::check::tables(&sections)?,
        print: print::check::tables(&sections)?,
        thrust: thrust::tables(&sections)?,
        assembly: assembly::check::tables(&sections)?,
    };
    contents(&image)?;
    joint::check::contents(&image)?;
    print::check::contents(&image)?;
    thrust::contents(&image)?;
    assembly::check::contents(&image)?;
    Ok(image)
}

/// The sections of an image by their directory.
pub(super) struct Sections<'a, 'd> {
    bytes: &'a [u8],
    directory: &'d [[u8; Section::SIZE]],
}

impl<'a> Sections<'a, '_> {
    /// The bytes of a section, when there is exactly one of that number with records of that size.
    fn raw(&self, id: u16, record: usize) -> Result<&'a [u8], ImageError> {
        let entries = self.directory.iter().map(Section::from_bytes);
        let mut found = entries.filter(|entry| entry.id == id);
        let bad = ImageError::Section(id);
        let entry = found.next().ok_or(bad)?;
        if found.next().is_some() || usize::from(entry.record) != record {
            return Err(bad);
        }
        let start = usize::try_from(entry.offset).map_err(|_| bad)?;
        let length = usize::try_from(entry.count)
            .ok()
            .and_then(|count| count.checked_mul(record))
            .ok_or(bad)?;
        let end = start.checked_add(length).ok_or(bad)?;
        if start < ENVELOPE + Header::SIZE {
            return Err(bad);
        }
        self.bytes.get(start..end).ok_or(bad)
    }

    /// A section of bytes.
    pub(super) fn bytes(&self, id: u16) -> Result<&'a [u8], ImageError> {
        self.raw(id, 1)
    }

    /// A section of records of one size.
    pub(super) fn table<const N: usize>(&self, id: u16) -> Result<&'a [[u8; N]], ImageError> {
        Ok(self.raw(id, N)?.as_chunks().0)
    }
}

fn plain<'a>(sections: &Sections<'a, '_>, id: u16) -> Result<&'a [u8], ImageError> {
    let text = sections.bytes(id)?;
    if text.is_ascii() {
        Ok(text)
    } else {
        Err(ImageError::Section(id))
    }
}

fn settings(sections: &Sections<'_, '_>) -> Result<Settings, ImageError> {
    match sections.table(section::SETTINGS)? {
        [only] => Ok(Settings::from_bytes(only)),
        _ => Err(ImageError::Section(section::SETTINGS)),
    }
}

/// Fails with the first record that breaks a condition.
pub(super) fn each<T>(
    id: u16,
    records: impl Iterator<Item = T>,
    mut good: impl FnMut(&T) -> bool,
) -> Result<(), ImageError> {
    for (index, record) in records.enumerate() {
        if !good(&record) {
            return Err(ImageError::Record(id, index));
        }
    }
    Ok(())
}

fn contents(image: &Image<'_>) -> Result<(), ImageError> {
    let within =
        |text: Text| usize::from(text.offset) + usize::from(text.length) <= image.text.len();
    let packed = |packed: u32| within(Text::from_bytes(&packed.to_le_bytes()));
    let fits = |index: u8, table: usize| usize::from(index) < table;

    sane_settings(&image.settings)
        .then_some(())
        .ok_or(ImageError::Record(section::SETTINGS, 0))?;
    if image.instruments.len() < Tool::COUNT {
        return Err(ImageError::Section(section::INSTRUMENTS));
    }
    if image.families.is_empty() || image.families.len() > MAX_FAMILIES {
        return Err(ImageError::Section(section::FAMILIES));
    }
    for (id, texts) in [
        (section::SIZES, image.sizes),
        (section::LABELS, image.labels),
        (section::SOURCES, image.sources),
    ] {
        each(id, texts.iter().map(Text::from_bytes), |text| within(*text))?;
    }
    each(
        section::INSTRUMENTS,
        image.instruments.iter().map(Instrument::from_bytes),
        sane_instrument,
    )?;
    each(
        section::SYSTEMS,
        image.systems.iter().map(System::from_bytes),
        |system| packed(system.key) && packed(system.label),
    )?;
    each(
        section::LAWS,
        image.laws.iter().map(Law::from_bytes),
        |law| sane_mixture(&law.sight) && sane_mixture(&law.squash),
    )?;
    each(section::FAMILIES, image.families(), |family| {
        packed(family.key)
            && packed(family.name)
            && fits(family.system, image.systems.len())
            && Material::from_code(family.material).is_some()
            && Carries::from_code(family.carries).is_some()
            && fits(family.law, image.laws.len())
            && fits(family.source, image.sources.len())
            && (family.loose_share == 0 || family.loose_width > 0)
            && family.beyond < MAX_BAND.unsigned_abs()
            && family.heat < 1 << 30
            && family.squash < 1 << 30
    })?;
    if image.rows.len() > usize::from(u16::MAX) {
        return Err(ImageError::Section(section::ROWS));
    }
    let whole_list = |row: &Row| {
        let list = image.class_lists.get(usize::from(row.class_list));
        let listed = list.map(|start| usize::from(u16::from_le_bytes(*start)));
        let count = usize::from(row.classes);
        listed.is_some_and(|from| from + count <= image.classes.len())
            && usize::from(row.first_wall) + count <= image.walls.len()
    };
    let (mut low, mut reach) = (i32::MIN, i32::MIN);
    each(section::ROWS, image.rows_from(0), |row| {
        let ordered = row.low >= low && row.reach == reach.max(row.high);
        (low, reach) = (row.low, row.reach);
        ordered
            && row.low > 0
            && row.low < row.high
            && row.high < MAX_OD
            && row.high - row.low < MAX_BAND
            && row.od > 0
            && row.od < MAX_OD
            && fits(row.family, image.families.len())
            && fits(row.system, image.systems.len())
            && fits(row.size, image.sizes.len())
            && fits(row.variant, image.labels.len())
            && fits(row.source, image.sources.len())
            && (row.classes == 0 || whole_list(row))
    })?;
    each(
        section::CLASSES,
        image.classes.iter().map(ListedClass::from_bytes),
        |class| fits(class.label, image.labels.len()) && class.variant < 64,
    )?;
    let mut last: Option<Derating> = None;
    let deratings = image.deratings.iter().map(Derating::from_bytes);
    each(section::DERATINGS, deratings, |row| {
        let follows = last.is_none_or(|before| {
            (before.material, before.fahrenheit) < (row.material, row.fahrenheit)
                && (before.material != row.material || before.factor >= row.factor)
        });
        last = Some(*row);
        follows && Material::from_code(row.material).is_some() && row.factor <= 1 << 15
    })?;
    clues(image)
}

/// Answers belong to clues without gaps, so that the index of one tells whose it is.
fn clues(image: &Image<'_>) -> Result<(), ImageError> {
    let within =
        |text: Text| usize::from(text.offset) + usize::from(text.length) <= image.text.len();
    let packed = |packed: u32| within(Text::from_bytes(&packed.to_le_bytes()));
    if image.clues.len() > MAX_CLUES || image.answers.len() > usize::from(u8::MAX) {
        return Err(ImageError::Section(section::CLUES));
    }
    let mut next = 0;
    each(section::CLUES, image.clues(), |clue| {
        let follows = usize::from(clue.first) == next;
        next += usize::from(clue.answers);
        follows
            && clue.answers >= 2
            && clue.effort > 0
            && packed(clue.key)
            && packed(clue.question)
            && usize::from(clue.source) < image.sources.len()
    })?;
    if next != image.answers.len() {
        return Err(ImageError::Section(section::ANSWERS));
    }
    each(
        section::ANSWERS,
        image.answers.iter().map(ClueAnswer::from_bytes),
        |answer| packed(answer.key) && packed(answer.words),
    )?;
    if image.likelihoods.len() == image.answers.len() * image.families.len() {
        Ok(())
    } else {
        Err(ImageError::Section(section::LIKELIHOODS))
    }
}

/// Shares of a mixture sum to one.
fn sane_mixture(parts: &[Component]) -> bool {
    parts.iter().map(|part| u32::from(part.weight)).sum::<u32>() == 1 << 15
}

fn sane_settings(settings: &Settings) -> bool {
    let temperature = |t: i32| (-10_000..=30_000).contains(&t);
    temperature(settings.reference_temperature)
        && temperature(settings.unknown_mean)
        && settings.unknown_sd > 0
        && settings.told_sd > 0
        && settings.coat_mean < 20_000_000
        && settings.coat_sd < 20_000_000
        && settings.bell_low >= 1 << 16
        && settings.bell_low < settings.bell_high
        && settings.bell_high <= 4 << 16
        && settings.outside_low > 0
        && settings.outside_low < settings.outside_high
        && settings.outside_high < MAX_OD
        && [
            settings.bell_share,
            settings.misread_share,
            settings.unlisted_share,
        ]
        .iter()
        .all(|share| *share < 1 << 30)
        && [
            settings.disguise_share,
            u32::MAX - settings.plans_family_right,
            u32::MAX - settings.plans_size_right,
        ]
        .iter()
        .all(|share| *share < 3 << 30)
        && settings.crossed_effort > 0
        && settings.tape_dug_effort > 0
        && settings.tape_effort > 0
        && settings.along_effort > 0
        && settings.print_effort > 0
        && settings.wall_effort > 0
        && settings.wall_over < 1 << 31
        && settings.wall_sd < 1 << 30
        && settings.wall_low > 0
        && settings.wall_low < settings.wall_high
        && settings.wall_high < MAX_OD
        && settings.springline_mean <= 1 << 16
        && settings.clock_mean <= 1 << 16
        && settings.reach >= 0
        && settings.reach < MAX_BAND
        && settings.reach_share < 1 << 30
        && settings.squash_reach < 1 << 30
}

fn sane_instrument(instrument: &Instrument) -> bool {
    instrument.sigma < 100_000_000
        && instrument.sigma_share < 1 << 30
        && instrument.step < 100_000_000
        && (0..100_000_000).contains(&instrument.offset)
        && instrument.offset_sd < 100_000_000
        && instrument.stretch < 1 << 30
        && instrument.stretch_sd < 1 << 30
}
