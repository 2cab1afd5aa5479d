//! How joints are made up: bolts, depths, turns, cement.
//!
//! [`read_files`] takes the files of `assembly/`. The checks are of what no shop would want to find out in a trench: bolts that
//! touch or do not go through, a joint that cures faster when it is colder.

mod cells;
mod limits;
mod model;
mod rows;
#[cfg(test)]
mod tests;
mod texts;

use std::collections::BTreeMap;

pub use model::{
    Assembly, CONSTANTS, ConstantNote, CureNote, DeflectionNote, FlangeNote, MechanicalNote,
    QuantityNote, SocketNote, StepNote, StickNote, TorqueNote,
};

use crate::diagnostic::Diagnostic;
use crate::joints::Reader;
use crate::model::Sources;
use crate::read::table::Table;

/// The files of the folder.
pub(crate) const FILES: [&str; 10] = [
    "assembly/flanges.csv",
    "assembly/mechanical.csv",
    "assembly/cure.csv",
    "assembly/sockets.csv",
    "assembly/deflection.csv",
    "assembly/torque.csv",
    "assembly/quantities.csv",
    "assembly/sticks.csv",
    "assembly/steps.csv",
    "assembly/constants.csv",
];

/// Reads and checks the files of the folder. The rest was read before, clean.
///
/// # Errors
///
/// Every mistake in them, by file and line.
pub fn read_files(
    files: &BTreeMap<String, String>,
    sources: &Sources,
) -> Result<Assembly, Vec<Diagnostic>> {
    let mut reader = Reader::new(files, sources);
    let reader_ref = &mut reader;
    let [
        flanges,
        mechanical,
        cures,
        sockets,
        deflections,
        torques,
        quantities,
        sticks,
        steps,
        constants,
    ] = FILES;
    let mut read = |name, columns: &[&str]| reader_ref.table(files, name, columns);
    let flanges = read(flanges, rows::FLANGES);
    let mechanical = read(mechanical, rows::MECHANICAL);
    let cures = read(cures, limits::CURES);
    let sockets = read(sockets, limits::SOCKETS);
    let deflections = read(deflections, limits::DEFLECTIONS);
    let torques = read(torques, texts::TORQUES);
    let quantities = read(quantities, texts::QUANTITIES);
    let sticks = read(sticks, texts::STICKS);
    let steps = read(steps, texts::STEPS);
    let constants = read(constants, texts::CONSTANT_COLUMNS);
    let assembly = Assembly {
        flanges: of(&mut reader, flanges.as_ref(), rows::flanges),
        mechanical: of(&mut reader, mechanical.as_ref(), rows::mechanical),
        cures: of(&mut reader, cures.as_ref(), limits::cures),
        sockets: of(&mut reader, sockets.as_ref(), limits::sockets),
        deflections: of(&mut reader, deflections.as_ref(), limits::deflections),
        torques: of(&mut reader, torques.as_ref(), texts::torques),
        quantities: of(&mut reader, quantities.as_ref(), texts::quantities),
        sticks: of(&mut reader, sticks.as_ref(), texts::sticks),
        steps: of(&mut reader, steps.as_ref(), texts::steps),
        constants: of(&mut reader, constants.as_ref(), texts::constants),
    };
    let found = reader.finish();
    if found.is_empty() {
        Ok(assembly)
    } else {
        Err(found)
    }
}

/// The rows of a table, or none where there is no table.
fn of<'a, T>(
    reader: &mut Reader<'a>,
    table: Option<&Table<'a>>,
    rows: impl FnOnce(&mut Reader<'a>, &Table<'a>) -> Vec<T>,
) -> Vec<T> {
    table.map_or_else(Vec::new, |table| rows(reader, table))
}
