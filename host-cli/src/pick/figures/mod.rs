//! The numbers of a job that other verbs compute: what is bolted, held, cut, marked, dug, glued and pumped.
//!
//! `pick` asks them as their user would, with words ([`crate::share`]), so that both say the same. A [`Figure`] that hangs on
//! what nobody told says what to ask or to measure and has no number: a number that was made up is loaded, cut and buried.

mod amount;
mod bolts;
mod cure;
mod cut;
mod depth;
mod dig;
mod hold;

use anyhow::Result;
use springline_core::image::Grade;

pub(super) use cure::cure;

use super::built::Spot;
use super::line::Line;
use super::list::{Maker, numbers};
use super::site::Site;
use crate::cli::{OwnerArg, UnitsArg};
use crate::fits::tie::end::End;
use crate::site::pipe::{Pipe, PipeArgs};
use crate::site::report;

/// A number in words, or where to get it.
pub(super) struct Figure {
    /// What it is about, as in `host-cli/JSON.md`.
    pub(super) key: &'static str,
    /// What is printed.
    pub(super) text: String,
    /// The number is known; else the text says what to ask or measure.
    pub(super) known: bool,
    /// Keys of sources; `practice` and `memory` where nothing was read.
    pub(super) sources: Vec<String>,
    pub(super) grade: Grade,
    /// How many of it one joint takes, where joints are counted together.
    pub(super) each: u16,
}

impl Figure {
    /// A number, and what it stands on.
    fn new(key: &'static str, text: String, sources: Vec<String>, grade: Grade) -> Self {
        let sources = if sources.is_empty() {
            vec![grade.key().to_owned()]
        } else {
            sources
        };
        Self {
            key,
            text,
            known: true,
            sources,
            grade,
            each: 0,
        }
    }

    /// Where to get it.
    fn ask(key: &'static str, text: impl Into<String>) -> Self {
        let practice = vec![String::from("practice")];
        let mut figure = Self::new(key, text.into(), practice, Grade::Practice);
        figure.known = false;
        figure
    }

    /// A line of a report of another verb.
    fn reported(key: &'static str, line: &report::Line) -> Self {
        let (sources, grade) = line.from();
        let grade = grade.unwrap_or(Grade::Practice);
        let text = line.told_text().to_owned();
        let known = !text.contains("____");
        let mut figure = Self::new(key, text, sources.to_vec(), grade);
        figure.known = known;
        figure
    }

    /// It as a line about some joints, or about the whole job.
    fn line(self, joints: &[usize]) -> Line {
        let section = if self.known { "figure" } else { "measure" };
        let mut text = self.text;
        let count = usize::from(self.each) * joints.len();
        if joints.len() > 1 && count > 0 {
            text = format!("{text} {count} for these {} joints.", joints.len());
        }
        let mut line = Line::new(section, self.key, text).at(numbers(joints));
        self.grade.key().clone_into(&mut line.grade);
        line.sources = self.sources;
        line
    }
}

/// A pipe as other verbs are asked about it: its family, its size, its class.
fn words(end: &End, site: &Site) -> Vec<String> {
    let mut words = vec![end.known.family.clone(), end.known.nominal.clone()];
    if let Some(class) = &end.known.class {
        words.push(format!("--class={class}"));
    }
    words.push(units(site));
    words
}

/// The unit of the answer, as it is typed.
fn units(site: &Site) -> String {
    let units = match site.units {
        UnitsArg::In => "in",
        UnitsArg::Mm => "mm",
    };
    format!("--units={units}")
}

impl Maker<'_> {
    /// Figures of the whole job, in the order in which they are needed.
    pub(super) fn figures(&self, out: &mut Vec<Line>) -> Result<()> {
        let mut all: Vec<Figure> = Vec::new();
        if self.built.cuts > 0 {
            all.extend(self.hold()?);
        }
        all.extend(self.tapped());
        all.extend(self.hole()?);
        if self.built.cuts > 0 {
            all.push(self.gallons()?);
        }
        if !self.built.pieces.is_empty() {
            all.extend(self.cut()?);
        }
        out.extend(all.into_iter().map(|figure| figure.line(&[])));
        Ok(())
    }

    /// Figures of joints, each text once with its joints.
    pub(super) fn joint_figures(&self, out: &mut Vec<Line>) -> Result<()> {
        let mut all: Vec<(Figure, Vec<usize>)> = Vec::new();
        for at in 0..self.built.joints.len() {
            let mut own = self.bolts(at)?;
            own.extend(self.depth(at)?);
            for figure in own {
                let same = |(held, _): &&mut (Figure, Vec<usize>)| {
                    held.key == figure.key && held.text == figure.text
                };
                match all.iter_mut().find(same) {
                    Some((_, joints)) => joints.push(at),
                    None => all.push((figure, vec![at])),
                }
            }
        }
        // What is read together stands together.
        let order = ["bolts", "wrench", "torque", "order", "insertion"];
        all.sort_by_key(|(figure, _)| order.iter().position(|key| *key == figure.key));
        out.extend(all.into_iter().map(|(figure, joints)| figure.line(&joints)));
        Ok(())
    }

    /// The pipe that a joint is on.
    fn on(&self, at: usize) -> Option<&End> {
        self.pipes.at(self.built.joints.get(at)?.on?)
    }

    /// The pipe at a place, as the verbs of a site know it.
    fn pipe(&self, spot: Spot) -> Result<Option<Pipe<'_>>> {
        let Some(end) = self.pipes.at(spot) else {
            return Ok(None);
        };
        let args = PipeArgs {
            family: end.known.family.clone(),
            size: end.known.nominal.clone(),
            class: end.known.class.clone(),
            wall: None,
            owner: OwnerArg::Ours,
            why: false,
            json: false,
            units: self.site.units,
        };
        Pipe::find(self.image, self.notes, &args).map(Some)
    }

    /// The first pipe, likewise.
    fn first(&self) -> Result<Option<Pipe<'_>>> {
        self.pipe(Spot {
            pipe: 'A',
            piece: false,
        })
    }

    /// The key of a part.
    fn key(&self, part: usize) -> &str {
        let put = self.built.parts.get(part);
        let note = put.and_then(|put| self.notes.joints.parts.get(usize::from(put.part)));
        note.map_or("", |note| note.key.as_str())
    }

    /// The key of the end that a joint is made with.
    fn end_key(&self, at: usize) -> &str {
        let end = self.built.joints.get(at).map(|joint| joint.end);
        let key = end.and_then(|end| self.notes.joints.ends.get(usize::from(end)));
        key.map_or("", String::as_str)
    }
}
