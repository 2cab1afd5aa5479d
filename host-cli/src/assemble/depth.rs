//! How deep a pipe goes in, and its mark.

use anyhow::{Result, bail};
use springline_compiler::assembly::{MechanicalNote, SocketNote};
use springline_compiler::notes::Notes;
use springline_core::assembly::{Nominal, mark, mechanical};
use springline_core::image::Image;
use springline_core::unit::Distance;

use super::made::{Made, constant};
use super::{AssembleArgs, MadeArg};
use crate::bolts::words::{self, Sourced, distance};
use crate::parse::{self, Limits};

impl Made {
    /// How deep it goes in, and its mark.
    pub(super) fn depths(
        &mut self,
        image: &Image<'_>,
        notes: &Notes,
        size: Option<Nominal>,
        args: &AssembleArgs,
    ) -> Result<()> {
        let unit = self.unit;
        let told = args.bell.as_deref();
        let told = told
            .map(|text| parse::length(text, unit, Limits::DIAMETER))
            .transpose()?;
        match self.joint {
            MadeArg::Solvent => {
                let sockets = notes.assembly.sockets.iter();
                let is = |one: &&SocketNote| Some(one.size) == size.map(Nominal::in_quarters);
                for socket in sockets.filter(is) {
                    let from = Sourced::of(notes, "socket", &socket.cited);
                    self.depth.push(format!(
                        "Sch {} socket {} deep{}",
                        socket.schedule,
                        words::length(distance(socket.depth), unit),
                        words::mark(from.grade)
                    ));
                    self.why.push(from);
                }
                self.depth.push(String::from(
                    "mark the depth of the one in hand: the pipe goes to its end",
                ));
                self.mark = told.map(distance);
            }
            MadeArg::Mj => {
                if let Some(set) = size.and_then(|size| mechanical(image, size)) {
                    self.mark = Some(told.map_or(set.socket, distance));
                    let socket = words::length(set.socket, unit);
                    self.depth.push(format!(
                        "socket {socket} deep{}: measure it, and mark the pipe there",
                        words::mark(set.grade)
                    ));
                    let is =
                        |one: &&MechanicalNote| Some(one.size) == size.map(Nominal::in_quarters);
                    if let Some(note) = notes.assembly.mechanical.iter().find(is) {
                        self.why.push(Sourced::of(notes, "socket", &note.socket.1));
                        if let Some((_, cited)) = &note.minutes {
                            self.why.push(Sourced::of(notes, "turning", cited));
                        }
                    }
                } else {
                    self.depth.push(String::from(
                        "measure the socket, lip to stop, and mark the pipe there",
                    ));
                }
            }
            MadeArg::Bell | MadeArg::PushOn => {
                let short = constant(notes, "short-of-stop-in")?;
                let Some(bell) = told else {
                    self.depth.push(String::from(
                        "no standard has it, bells differ by maker: a rule from the lip to the stop of this one (--bell gives the mark)",
                    ));
                    return Ok(());
                };
                let (short_of, from) = (Distance::inches(short.0), short.1);
                let found = mark(distance(bell), short_of);
                let Some(found) = found else {
                    bail!(
                        "a bell of {} leaves nothing to go in\n  try: its depth from lip to stop",
                        words::length(distance(bell), unit)
                    );
                };
                self.mark = Some(found);
                self.depth.push(format!(
                    "bell {} deep as measured, {} short of its stop: the mark is {} from the end of the pipe",
                    words::length(distance(bell), unit),
                    words::length(short_of, unit),
                    words::length(found, unit)
                ));
                self.why.push(from);
            }
        }
        Ok(())
    }
}
