//! The table image with many more rows, to see that a longer table costs next to nothing.

use springline_core::image::layout::{CRC, ENVELOPE, section};
use springline_core::image::record::Header;
use springline_core::image::{Row, Section};

/// Where the added rows begin, in counts: beyond 118 in, far from every diameter that is swept.
const FAR: usize = 300_000_000;
/// From one added row to the next.
const STEP: usize = 10_000;
/// The width of an added band.
const WIDTH: usize = 1_000;

/// Writes an image with so many times the rows of another into a buffer, and returns how long it is. The added rows are copies,
/// moved away: the rows near a diameter stay what they are. `None` when the image is none or the buffer too short.
pub fn grow(image: &[u8], times: usize, into: &mut [u8]) -> Option<usize> {
    let header = Header::from_bytes(image.get(ENVELOPE..)?.first_chunk()?);
    let start = ENVELOPE + Header::SIZE;
    let directory_end = start + usize::from(header.sections) * Section::SIZE;
    let entries = || {
        let (entries, _) = image.get(start..directory_end)?.as_chunks();
        Some(entries.iter().map(Section::from_bytes))
    };
    into.get_mut(..directory_end)?
        .copy_from_slice(image.get(..directory_end)?);
    let (mut at, mut slot) = (directory_end, start);
    for entry in entries()? {
        let from = usize::try_from(entry.offset).ok()?;
        let count = usize::try_from(entry.count).ok()?;
        let bytes = image.get(from..from + count * usize::from(entry.record))?;
        let mut moved = Section {
            offset: u32::try_from(at).ok()?,
            ..entry
        };
        into.get_mut(at..at + bytes.len())?.copy_from_slice(bytes);
        let mut end = at + bytes.len();
        if entry.id == section::ROWS {
            end = add_rows(bytes, times, end, into)?;
            moved.count = u32::try_from(count * times).ok()?;
        }
        into.get_mut(slot..slot + Section::SIZE)?
            .copy_from_slice(&moved.to_bytes());
        slot += Section::SIZE;
        // The padding is of no section; it is checked with the rest all the same.
        let padded = end.next_multiple_of(4);
        into.get_mut(end..padded)?.fill(0);
        at = padded;
    }
    let crc = CRC.checksum(into.get(start..at)?);
    let grown = Header {
        length: u32::try_from(at - ENVELOPE).ok()?,
        crc,
        ..header
    };
    into.get_mut(ENVELOPE..start)?
        .copy_from_slice(&grown.to_bytes());
    Some(at)
}

/// Appends copies of rows, and returns where they end.
fn add_rows(rows: &[u8], times: usize, mut at: usize, into: &mut [u8]) -> Option<usize> {
    let (rows, _) = rows.as_chunks::<{ Row::SIZE }>();
    let copies = (1..times).flat_map(|_| rows);
    for (index, row) in copies.enumerate() {
        let low = FAR + index * STEP;
        let high = i32::try_from(low + WIDTH).ok()?;
        let row = Row {
            low: i32::try_from(low).ok()?,
            high,
            od: i32::try_from(low + WIDTH / 2).ok()?,
            reach: high,
            ..Row::from_bytes(row)
        };
        into.get_mut(at..at + Row::SIZE)?
            .copy_from_slice(&row.to_bytes());
        at += Row::SIZE;
    }
    Some(at)
}
