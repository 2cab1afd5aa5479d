//! The list of one way on one set of pipes.

use springline_compiler::jobs::{Count, Place, Seat, Section};
use springline_compiler::notes::{LineNote, Notes, WayNote};
use springline_core::image::{Image, JointEnd};
use springline_core::joint::{Run, Stock};

use super::built::{Built, Pipes, names};
use super::due::Case;
use super::figures::{self, Figure};
use super::line::Line;
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
    pub(super) fn list(&self) -> Vec<Line> {
        let mut out = vec![Line::new("head", "measure", HEAD)];
        self.section(Section::Ask, &mut out);
        let mut way = self.way.name.clone();
        if self.way.build.seats.contains(&Seat::Ways) {
            way = names(self.image, self.built);
        }
        if !self.way.remark.is_empty() {
            way.extend([": ", &self.way.remark]);
        }
        out.push(Line::new("way", &self.way.key, way).cited(self.notes, &self.way.cited));
        self.clock(&mut out);
        self.parts(&mut out);
        self.section(Section::Part, &mut out);
        self.sticks(&mut out);
        for at in 0..self.built.joints.len() {
            self.joint(at, &mut out);
        }
        self.joint_figures(&mut out);
        for section in [
            Section::Accessory,
            Section::Consumable,
            Section::Tool,
            Section::Wire,
            Section::Spare,
        ] {
            self.section(section, &mut out);
        }
        self.lift(&mut out);
        if self.built.cuts > 0 {
            let figure = figures::restrain(self.pipes, self.built, self.site);
            Self::figure("restrain", figure, &mut out);
        }
        self.section(Section::Shut, &mut out);
        self.section(Section::Dig, &mut out);
        let slides = |put: &super::built::Put| self.image.part(put.part).run() == Some(Run::Slides);
        if self.built.parts.iter().any(slides) {
            Self::figure("bare-barrel", figures::bare_barrel(self.built), &mut out);
        }
        Self::figure(
            "excavation",
            figures::excavation(self.pipes, self.built),
            &mut out,
        );
        if self.built.cuts > 0 {
            let figure = figures::gallons(self.pipes, self.site.valve);
            Self::figure("gallons", figure, &mut out);
        }
        if !self.built.pieces.is_empty() {
            Self::figure("cut-length", figures::cut_length(self.built), &mut out);
        }
        self.section(Section::Mark, &mut out);
        self.section(Section::Work, &mut out);
        self.section(Section::Recharge, &mut out);
        out
    }

    fn figure(key: &str, figure: Figure, out: &mut Vec<Line>) {
        let mut line = Line::new("figure", key, figure.text);
        (line.sources, line.grade) = (figure.sources, figure.grade);
        if !figure.known {
            line.grade = String::from("practice");
        }
        out.push(line);
    }

    /// Lines of the tables of one section.
    fn section(&self, section: Section, out: &mut Vec<Line>) {
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
            let text = self.filled(note, &names);
            let mut line = Line::new(section.key(), &note.key, text).cited(self.notes, &note.cited);
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
    }

    /// The text of a line with what is known of this job in it.
    fn filled(&self, note: &LineNote, names: &[String]) -> String {
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
        for (key, value, ..) in &self.notes.jobs.rules {
            text = text.replace(&format!("{{{key}}}"), &value.to_string());
        }
        text
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
