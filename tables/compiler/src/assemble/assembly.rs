//! What devices carry of how joints are made up, in the image's form.

use springline_core::image::{Cure, Deflection, Flange, Mechanical, Socket};

use crate::assembly::{Assembly, CureNote, DeflectionNote, FlangeNote, MechanicalNote, SocketNote};
use crate::encode::DraftAssembly;
use crate::model::INCH;

/// The sections.
pub(super) fn assembly(of: &Assembly) -> DraftAssembly {
    // Fittings of schedule 80 have sockets of their own, which a desk shows.
    let ordinary = |socket: &&SocketNote| socket.schedule == "40";
    DraftAssembly {
        flanges: of.flanges.iter().map(flange).collect(),
        mechanical: of.mechanical.iter().map(mechanical).collect(),
        cures: of.cures.iter().map(cure).collect(),
        sockets: of.sockets.iter().filter(ordinary).map(socket).collect(),
        deflections: of.deflections.iter().map(deflection).collect(),
    }
}

/// So many parts of an inch, the nearest.
fn parts(counts: i64, of_an_inch: i64) -> i64 {
    (counts * of_an_inch * 2 + INCH) / (INCH * 2)
}

fn sixteenths(counts: i64) -> u8 {
    parts(counts, 16) as u8
}

fn flange(row: &FlangeNote) -> Flange {
    let length = row.thick_and_length.as_ref();
    let length_grade = length.map_or(row.cited.grade, |(_, _, cited)| cited.grade);
    Flange {
        size: row.size,
        drilling_and_grades: row.drilling | row.cited.grade << 1 | length_grade << 4,
        circle: parts(row.circle, 16) as u16,
        bolts: row.bolts,
        bolt: sixteenths(row.bolt),
        length: length.map_or(0, |(_, length, _)| sixteenths(*length)),
    }
}

fn mechanical(row: &MechanicalNote) -> Mechanical {
    // The worst grade of bolts and socket stands for both.
    let grade = row.cited.grade.max(row.socket.1.grade);
    Mechanical {
        size: row.size,
        bolts: row.bolts,
        bolt: sixteenths(row.bolt),
        length: sixteenths(row.length),
        socket: sixteenths(row.socket.0),
        torque_low: row.torque.0,
        torque_high: row.torque.1,
        minutes: row.minutes.as_ref().map_or(0, |(minutes, _)| *minutes),
        grades: grade | row.torque.2.grade << 4,
    }
}

fn cure(row: &CureNote) -> Cure {
    Cure {
        size: row.size,
        over: row.band.0,
        to: row.band.1,
        hours: row.hours.0,
        psi: row.hours.1,
        high_hours: row.high_hours.unwrap_or(0),
        set: row.set,
        wet: row.wet,
        grade: row.cited.grade,
    }
}

fn socket(row: &SocketNote) -> Socket {
    Socket {
        size: row.size,
        depth: parts(row.depth, 32) as u8,
        grade: row.cited.grade,
    }
}

fn deflection(row: &DeflectionNote) -> Deflection {
    Deflection {
        bell: row.bell,
        material: row.material,
        size: row.size,
        grade: row.cited.grade,
        minutes: row.minutes,
    }
}
