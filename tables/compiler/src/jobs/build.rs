//! A way as it is written: pipes and parts in a line, as they lie in the ground.
//!
//! `A slip-ips|slip-ciod P slip-ips|slip-ciod B`: `A` and `B` are the ends that are there, `C` a branch, `K` the carrier in a
//! road sleeve, `P` a piece cut of pipe like `A`, `~` whatever leads from the pipe before it to the pipe behind it. A bar stands
//! between parts of which the first that goes is taken. `tee-mj=tee>C` is told as a tee and has `C` on its third end;
//! `@saddle-ips` goes around `A`.

use serde::{Deserialize, Serialize};

use crate::joints::{Reader, split};
use crate::report::Cell;

/// What stands at a place.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Seat {
    /// A pipe: `A`, `B`, `C`, `K`, or `P` for a piece.
    Pipe(char),
    /// A part.
    Part {
        /// Parts of which the first that goes is taken, indices.
        choice: Vec<u8>,
        /// What it is told as; may be empty.
        told: String,
        /// It has the branch on its third end.
        branch: bool,
    },
    /// Whatever leads from the pipe before it to the one behind it.
    Ways,
}

/// A chain.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct Build {
    /// A part goes around `A`, which stays whole.
    pub around: bool,
    /// In the order in which they lie.
    pub seats: Vec<Seat>,
}

/// Reads a chain; `None`, reported, where it is none.
pub(super) fn build(reader: &mut Reader<'_>, cell: &Cell<'_>) -> Option<Build> {
    let mut build = Build::default();
    let mut sound = true;
    for word in split(cell, ' ') {
        let text = word.text.as_str();
        let seat = match text {
            "~" => Some(Seat::Ways),
            "A" | "B" | "C" | "K" | "P" => text.chars().next().map(Seat::Pipe),
            _ => part(reader, &word, &mut build.around),
        };
        sound &= seat.is_some();
        build.seats.extend(seat);
    }
    // What goes around the first pipe has it on its only side.
    if build.around {
        build.seats.insert(0, Seat::Pipe('A'));
    }
    let starts = matches!(build.seats.first(), Some(Seat::Pipe('A')));
    let pipes = build
        .seats
        .windows(2)
        .any(|two| matches!(two, [Seat::Pipe(_), Seat::Pipe(_)]));
    let loose = build.seats.windows(3).any(|three| {
        matches!(three[1], Seat::Ways)
            && !matches!((&three[0], &three[2]), (Seat::Pipe(_), Seat::Pipe(_)))
    });
    let open = matches!(build.seats.last(), Some(Seat::Ways | Seat::Pipe('P')));
    if sound && (!starts || pipes || loose || open || build.seats.len() < 2) {
        reader.report.add(
            cell.place,
            "these do not lie in one line",
            "begin with A; a part or ~ between two pipes, and ~ between pipes alone; end with a pipe that is there or a part",
        );
        sound = false;
    }
    sound.then_some(build)
}

/// `@KEY|KEY=told>C`.
fn part(reader: &mut Reader<'_>, word: &Cell<'_>, around: &mut bool) -> Option<Seat> {
    let text = word.text.strip_prefix('@');
    *around |= text.is_some();
    let text = text.unwrap_or(&word.text);
    let (text, branch) = match text.strip_suffix(">C") {
        Some(text) => (text, true),
        None => (text, false),
    };
    let (keys, told) = text.split_once('=').unwrap_or((text, ""));
    let mut choice = Vec::new();
    for key in keys.split('|') {
        let parts = &reader.sources.joints.parts;
        let at = parts.iter().position(|part| part.key == key);
        let Some(at) = at.and_then(|at| u8::try_from(at).ok()) else {
            let named = Cell {
                text: key.to_owned(),
                place: word.place,
                lead: 0,
            };
            let known: Vec<&str> = reader
                .sources
                .joints
                .parts
                .iter()
                .map(|part| part.key.as_str())
                .collect();
            reader.unknown(&named, "part", known);
            return None;
        };
        choice.push(at);
    }
    Some(Seat::Part {
        choice,
        told: told.to_owned(),
        branch,
    })
}
