//! Joint by joint: on what, with which gasket and pack, held by what, and what comes with that.

use springline_compiler::jobs::Place;
use springline_compiler::notes::HolderNote;
use springline_core::image::{JointEnd, Listing};
use springline_core::joint::{Pipe, Role, Use, holders};

use super::built::{Joint, Spot};
use super::line::Line;
use super::list::{Maker, numbers, place};
use crate::fits::sheet::keys;
use crate::fits::tie::end::End;

impl Maker<'_> {
    /// Where a side of a joint is.
    fn side(&self, spot: Spot) -> String {
        let name = self.pipes.at(spot).map_or(String::new(), End::name);
        match (spot.pipe, spot.piece) {
            (_, true) => format!("the piece of {name}"),
            ('A', _) => format!("{name}, end A"),
            ('B', _) => format!("{name}, end B"),
            ('C', _) => format!("{name}, the branch"),
            _ => format!("{name}, the carrier"),
        }
    }

    pub(super) fn joint(&self, at: usize, out: &mut Vec<Line>) {
        let joint = &self.built.joints[at];
        let number = numbers(&[at]);
        let record = self.image.joint_end(joint.end);
        let made = self.notes.joints.made.get(usize::from(joint.end));
        let end = self.image.phrase(record.name).to_string();
        let key = self
            .notes
            .joints
            .ends
            .get(usize::from(joint.end))
            .map_or("", String::as_str);
        let on = match (joint.on, joint.with) {
            (Some(spot), _) => self.side(spot),
            (None, Some(with)) => self.name(with),
            (None, None) => String::from("the part beside it"),
        };
        let need = joint.sealing.map_or(String::new(), |sealing| {
            self.image.phrase(sealing.need).to_string()
        });
        let mut text = format!("{on} | {}: {end}", self.name(joint.part));
        if !need.is_empty() {
            text.extend(["; needs ", &need]);
        }
        let mut line = Line::new("joint", key, text).at(&*number);
        if let Some(sealing) = joint.sealing {
            let cited = self.notes.joints.matrix.get(usize::from(sealing.row));
            line.sources = keys(self.notes, cited);
            sealing.grade.key().clone_into(&mut line.grade);
        }
        out.push(line);

        let gasket = match made.map(|made| made.gasket.as_str()) {
            Some(gasket) if !gasket.is_empty() => gasket.to_owned(),
            _ if record.by == JointEnd::THREAD => String::from("no gasket: thread tape"),
            _ if record.is_dry() => String::from("no gasket: glued, fused, welded or soldered"),
            _ => String::from("no gasket of its own: see the part"),
        };
        out.push(Line::new("gasket", key, gasket).at(&*number));
        let size = self.built.parts[joint.part]
            .sizes
            .first()
            .map_or("", String::as_str);
        // Bolts and a sheet gasket are on a shelf even where what they hold is made up.
        let stock = match record.by {
            JointEnd::FLANGE => Place::Counter,
            _ => place(self.built.parts[joint.part].stock),
        };
        if let Some(pack) = made
            .map(|made| made.pack.as_str())
            .filter(|pack| !pack.is_empty())
        {
            let own = joint
                .on
                .and_then(|spot| self.pipes.at(spot))
                .map(|end| end.known.size());
            let size = own.as_deref().unwrap_or(size);
            let text = format!(
                "{}, {size}",
                pack.replace(" (a restraint may bring its own)", "")
            );
            out.push(
                Line::new("accessory", key, text)
                    .load(1, stock)
                    .at(&*number),
            );
        }
        if !need.is_empty() && need.contains("stiffener") {
            let pipe = joint.on.and_then(|spot| self.pipes.at(spot));
            let text = format!("stiffener for {}: by OD and DR", pipe.map_or(on, End::name));
            out.push(
                Line::new("accessory", "stiffener", text)
                    .load(1, Place::Order)
                    .at(&*number),
            );
        }
        self.holder(at, joint, &number, out);
    }

    /// What to know of a restraint that is loaded.
    fn note(&self, restraint: u8) -> Option<&HolderNote> {
        let all = self.notes.jobs.holders.iter();
        all.into_iter().find(|note| note.restraint == restraint)
    }

    /// What ties a joint, what is taken first, and whether a block may take its push.
    fn ties(&self, joint: &Joint, pipe: &Pipe) -> (Vec<(u8, Listing)>, bool) {
        let mut all: Vec<_> = holders(self.image, pipe.row, pipe.variants, joint.end).collect();
        // A block takes the push of a fitting and ties no straight run.
        let block = all.iter().any(|(_, one)| !one.ties());
        all.retain(|(_, one)| one.ties());
        // What is on a shelf first; a block cures for days and comes last.
        all.sort_by_key(|(restraint, one)| {
            let itself = one.of() == Some(Use::Itself);
            let place = self
                .note(*restraint)
                .map_or(Place::Truck, |note| note.place);
            (!itself, place)
        });
        (all, block)
    }

    /// The restraint that is loaded for a joint.
    pub(super) fn bought(&self, at: usize) -> Option<&HolderNote> {
        let joint = self.built.joints.get(at)?;
        if joint.role == Role::Outlet {
            return None;
        }
        let pipe = self.pipes.pipe(joint.on?)?;
        let (all, _) = self.ties(joint, &pipe);
        let (restraint, one) = all.first()?;
        let note = self.note(*restraint)?;
        (one.of() == Some(Use::Holds)).then_some(note)
    }

    /// What holds a joint, and what comes with it.
    fn holder(&self, at: usize, joint: &Joint, number: &str, out: &mut Vec<Line>) {
        let Some(spot) = joint.on else {
            let text = "its own bolts or thread hold it, by the weaker of the two parts";
            out.push(Line::new("holder", "itself", text).at(number));
            return;
        };
        if joint.role == Role::Outlet {
            let text = "its own straps, bolts or thread, by its tag; nothing pulls along the main";
            out.push(Line::new("holder", "itself", text).at(number));
            return;
        }
        let Some(pipe) = self.pipes.pipe(spot) else {
            return;
        };
        let size = self
            .pipes
            .at(spot)
            .map_or(String::new(), |end| end.known.size());
        let (all, block) = self.ties(joint, &pipe);
        let name = |restraint: u8, one: &springline_core::image::Listing| {
            let remark = self.image.phrase(one.remark).to_string();
            let name = self.image.phrase(one.name).to_string();
            let key = self.notes.joints.restraints.get(usize::from(restraint));
            (
                key.map_or(String::new(), |(key, _)| key.clone()),
                name,
                remark,
            )
        };
        let Some((restraint, one)) = all.first() else {
            let block = if block {
                "; a thrust block takes the push at a bend, a tee or an end, no more"
            } else {
                ""
            };
            let text = format!(
                "NOT HELD: nothing is listed that ties it. Anchor or tie across it by who designs it, or it is pulled out{block}"
            );
            out.push(Line::new("holder", "refer", text).at(number));
            return;
        };
        let (key, named, remark) = name(*restraint, one);
        let others: Vec<String> = all
            .iter()
            .skip(1)
            .map(|(at, one)| name(*at, one).1)
            .collect();
        let mut text = format!("{named}, {size}");
        if !remark.is_empty() {
            text.extend([" (", &remark, ")"]);
        }
        if !others.is_empty() {
            text.extend(["; or ", &others.join(", or ")]);
        }
        if block {
            text.push_str("; a thrust block only at a bend, a tee or an end");
        }
        let cited = self.notes.joints.restraints.get(usize::from(*restraint));
        let mut line = Line::new("holder", &key, text).at(number);
        if let Some((_, cited)) = cited {
            line = line.cited(self.notes, cited);
        }
        let note = self.note(*restraint);
        match note {
            Some(note) if one.of() == Some(Use::Holds) => {
                // One harness goes across a part; it is loaded with the first of its joints on such a pipe.
                let first = (0..at).all(|before| !self.is_across(before, at));
                let across = note.across && !first;
                if across {
                    line.text =
                        format!("{named}, {size}: the one across {}", self.name(joint.part));
                } else {
                    line = line.load(1, note.place);
                }
                out.push(line);
                if !across {
                    let text = &note.brings;
                    out.push(
                        Line::new("brings", &key, text.as_str())
                            .cited(self.notes, &note.cited)
                            .at(number),
                    );
                }
            }
            _ => out.push(line),
        }
    }

    /// Whether two joints are of one part, on pipe that one harness serves.
    fn is_across(&self, one: usize, other: usize) -> bool {
        let (one, other) = (&self.built.joints[one], &self.built.joints[other]);
        let slides = self
            .image
            .part(self.built.parts[one.part].part)
            .run()
            .is_some();
        let family = |joint: &Joint| {
            joint
                .on
                .and_then(|on| self.pipes.pipe(on))
                .map(|pipe| (pipe.row.family, pipe.row.size))
        };
        one.part == other.part && slides && family(one) == family(other)
    }
}
