//! The list of one way on one set of pipes.

use anyhow::Result;
use springline_compiler::jobs::{Count, Place, Seat, Section};
use springline_compiler::notes::{LineNote, Notes, WayNote};
use springline_core::image::{Image, JointEnd};
use springline_core::joint::Stock;

use super::built::{Built, Pipes, names};
use super::due::Case;
use super::line::Line;
use super::measures;
use super::site::{Site, far};
use crate::fits::range::told;

/// What heads every list. Common practice, no source.
pub(super) const HEAD: &str =
    "Both cut ends are measured, two readings a quarter turn apart, before parts are final.";

/// What a list is made from.
pub(super) struct Maker<'a> {
    pub(super) image: &'a Image<'a>,
    pub(super) notes: &'a Notes,
    pub(super) pipes: &'a Pipes,
    pub(super) built: &'a Built,
    pub(super) site: &'a Site,
    pub(super) way: &'a WayNote,
    pub(super) case: Case<'a>,
}

/// Where a part is pulled from.
pub(super) const fn place(stock: Stock) -> Place {
    match stock {
        Stock::Counter => Place::Counter,
        Stock::Order => Place::Order,
        Stock::Shop => Place::Shop,
        Stock::Rare => Place::Rare,
    }
}

/// Places from which nothing comes today.
pub(super) const fn takes_days(place: Place) -> bool {
    matches!(place, Place::Order | Place::Shop | Place::Rare)
}

impl Maker<'_> {
    /// The whole list, without cautions.
    pub(super) fn list(&self) -> Result<Vec<Line>> {
        let mut out = vec![Line::new("head", "measure", HEAD)];
        self.section(Section::Ask, &mut out)?;
        let mut way = self.way.name.clone();
        if self.way.build.seats.contains(&Seat::Ways) {
            way = names(self.image, self.built);
        }
        if !self.way.remark.is_empty() {
            way.extend([": ", &self.way.remark]);
        }
        out.push(Line::new("way", &self.way.key, way).cited(self.notes, &self.way.cited));
        self.clock(&mut out)?;
        self.parts(&mut out);
        self.section(Section::Part, &mut out)?;
        self.sticks(&mut out);
        for at in 0..self.built.joints.len() {
            self.joint(at, &mut out);
        }
        self.joint_figures(&mut out)?;
        for section in [
            Section::Accessory,
            Section::Consumable,
            Section::Tool,
            Section::Wire,
            Section::Spare,
        ] {
            self.section(section, &mut out)?;
        }
        self.lift(&mut out);
        self.figures(&mut out)?;
        self.section(Section::Shut, &mut out)?;
        self.section(Section::Dig, &mut out)?;
        self.deep(&mut out)?;
        self.section(Section::Mark, &mut out)?;
        self.section(Section::Work, &mut out)?;
        self.section(Section::Recharge, &mut out)?;
        Ok(out)
    }

    /// Lines of the tables of one section.
    fn section(&self, section: Section, out: &mut Vec<Line>) -> Result<()> {
        let lines = self.notes.jobs.lines.iter();
        for note in lines.filter(|note| note.section == section) {
            let Some(met) = self.case.met(&note.triggers) else {
                continue;
            };
            let names: Vec<String> = self
                .case
                .parts(&met)
                .iter()
                .map(|at| self.name(*at))
                .collect();
            let (text, more) = self.filled(note, &names)?;
            let mut line = Line::new(section.key(), &note.key, text).cited(self.notes, &note.cited);
            line.sources.extend(more);
            if let Some(quantity) = note.quantity {
                let count = self.case.count(quantity, &met);
                if count == 0 {
                    continue;
                }
                line = line.load(count, note.place.unwrap_or(Place::Truck));
                if matches!(quantity.1, Count::Joint) {
                    line = line.at(numbers(&met.joints));
                }
            }
            out.push(line);
        }
        Ok(())
    }

    /// The text of a line with what is known of this job in it, and the sources of that.
    fn filled(&self, note: &LineNote, names: &[String]) -> Result<(String, Vec<String>)> {
        let mut each: Vec<&str> = Vec::new();
        for name in names {
            if !each.contains(&name.as_str()) {
                each.push(name);
            }
        }
        let said = |text: Option<String>, blank: &str| text.unwrap_or_else(|| blank.to_owned());
        let outlet = self.site.outlet.as_ref().map(|size| format!("{size} in"));
        let valve = self.site.valve.map(|valve| far(valve, self.site.unit));
        let mut text = note
            .text
            .replace("{parts}", &each.join(" and "))
            .replace("{outlet}", &said(outlet, "size: say --outlet"))
            .replace("{valve}", &said(valve, "(how far?)"));
        let unit = self.site.unit;
        for (key, value, of, _) in &self.notes.jobs.rules {
            let blank = format!("{{{key}}}");
            if text.contains(&blank) {
                let figure = measures::measured(*value, of, unit);
                text = text.replace(&blank, &figure.unwrap_or_default());
            }
        }
        let mut sources: Vec<String> = Vec::new();
        for what in ["lubricant", "cement", "primer"] {
            let blank = format!("{{{what}}}");
            if text.contains(&blank) {
                let (amount, from) = self.amount(what)?;
                text = text.replace(&blank, &amount);
                sources.extend(from);
            }
        }
        Ok((measures::filled(&text, unit), sources))
    }

    /// A part as people call it here.
    pub(super) fn name(&self, at: usize) -> String {
        let Some(put) = self.built.parts.get(at) else {
            return String::new();
        };
        let name = self
            .image
            .phrase(self.image.part(put.part).name)
            .to_string();
        if put.told.is_empty() || name.to_lowercase().contains(&put.told) {
            name
        } else {
            format!("{name}, {}", put.told)
        }
    }

    /// `8 x 8 x 6 in`, or one size.
    pub(super) fn sizes(&self, at: usize) -> String {
        let sizes = &self.built.parts[at].sizes;
        let alike = sizes.windows(2).all(|two| two[0] == two[1]);
        match sizes.first() {
            Some(first) if alike => first.clone(),
            _ => sizes.join(" x "),
        }
    }

    fn parts(&self, out: &mut Vec<Line>) {
        for (at, put) in self.built.parts.iter().enumerate() {
            let note = self.notes.joints.parts.get(usize::from(put.part));
            let mut text = format!("{}, {}", self.name(at), self.sizes(at));
            for joint in self.built.joints.iter().filter(|joint| joint.part == at) {
                let record = self.image.joint_end(joint.end);
                let end = joint.on.and_then(|on| self.pipes.at(on));
                if let (Some(end), JointEnd::RANGE) = (end, record.by) {
                    let range = told(end.known.band(), self.site.unit);
                    let range = format!("; range to hold {range}");
                    if !text.contains(&range) {
                        text.push_str(&range);
                    }
                }
            }
            if self.image.part(put.part).outlets > 0
                && let Some(outlet) = &self.site.outlet
            {
                text.extend(["; outlet ", outlet, " in"]);
            }
            let key = note.map_or("", |note| note.key.as_str());
            let mut line = Line::new("part", key, text).load(1, place(put.stock));
            if let Some(note) = note {
                line = line.cited(self.notes, &note.cited);
            }
            let joints: Vec<usize> = (0..self.built.joints.len())
                .filter(|joint| self.built.joints[*joint].part == at)
                .collect();
            out.push(line.at(numbers(&joints)));
        }
        self.remarks(out);
    }

    /// What parts come with, what they are sold without, and what they will not do, each part once.
    fn remarks(&self, out: &mut Vec<Line>) {
        let mut done: Vec<u8> = Vec::new();
        for (at, put) in self.built.parts.iter().enumerate() {
            let note = self.notes.joints.parts.get(usize::from(put.part));
            let Some(note) = note.filter(|_| !done.contains(&put.part)) else {
                continue;
            };
            done.push(put.part);
            let mut said: Vec<String> = Vec::new();
            said.extend((!note.comes.is_empty()).then(|| note.comes.clone()));
            said.extend((!note.less.is_empty()).then(|| format!("sold less {}", note.less)));
            said.extend((!note.wont.is_empty()).then(|| note.wont.clone()));
            if !said.is_empty() {
                let text = format!("{}: {}", self.name(at), said.join("; "));
                out.push(Line::new("remark", &note.key, text).cited(self.notes, &note.cited));
            }
        }
    }
}

/// `J1, J3`.
pub(super) fn numbers(joints: &[usize]) -> String {
    let all: Vec<String> = joints.iter().map(|at| format!("J{}", at + 1)).collect();
    all.join(", ")
}
