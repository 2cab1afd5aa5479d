//! How deep an end goes in, and its mark, as `assemble` says it.

use anyhow::Result;
use springline_core::assembly::Nominal;
use springline_core::image::Grade;
use springline_core::joint::{Role, Run};

use super::{Figure, words};
use crate::assemble::brief::depth;
use crate::assemble::{AssembleArgs, MadeArg};
use crate::bolts::words::{distance, length, mark};
use crate::fits::sheet::keys;
use crate::pick::list::Maker;
use crate::share::typed;

impl Maker<'_> {
    /// The mark of a joint; none where nothing goes in.
    pub(super) fn depth(&self, at: usize) -> Result<Option<Figure>> {
        let Some(joint) = self.built.joints.get(at) else {
            return Ok(None);
        };
        let Some(pipe) = self.on(at) else {
            return Ok(None);
        };
        if joint.role == Role::Outlet || joint.role == Role::Connection {
            return Ok(None);
        }
        let unit = self.site.unit;
        let part = self.built.parts[joint.part].part;
        if self.image.part(part).run() == Some(Run::Slides) {
            return Ok(Some(match self.site.coupling {
                Some(coupling) => Figure::new(
                    "insertion",
                    format!(
                        "mark {} from the end of each pipe, half of the {} of the coupling in hand: it has no stop",
                        length(coupling / 2.0, unit),
                        length(coupling, unit)
                    ),
                    Vec::new(),
                    Grade::Practice,
                ),
                None => Figure::ask(
                    "insertion",
                    "mark half of the length of the coupling in hand: measure it (--coupling). It has no stop",
                ),
            }));
        }
        let key = self.end_key(at);
        let all = [MadeArg::Bell, MadeArg::PushOn, MadeArg::Mj];
        if let Some(made) = all.into_iter().find(|made| made.ends().contains(&key)) {
            let mut asked = words(pipe, self.site);
            asked.push(format!("--joint={}", made.key()));
            asked.extend(self.site.shared.words(&["bell"]));
            let found = depth(self.image, self.notes, &typed::<AssembleArgs>(&asked)?)?;
            if let Some(found) = found.filter(|_| made != MadeArg::Mj || self.is_nominal(at)) {
                if !found.known {
                    return Ok(Some(Figure::ask(
                        "insertion",
                        format!("depth mark: {}", found.text),
                    )));
                }
                let sources = found.why.iter().flat_map(|one| one.keys.clone()).collect();
                let grade = found.why.iter().map(|one| one.grade).max();
                let text = format!("depth mark: {}", found.text);
                let grade = grade.unwrap_or(Grade::Practice);
                return Ok(Some(Figure::new("insertion", text, sources, grade)));
            }
        }
        if let Some(schedule) = key.strip_prefix("solvent-") {
            let quarters = self.nominal(at).map(Nominal::in_quarters);
            let found = quarters.and_then(|size| self.notes.assembly.socket_depth(schedule, size));
            if let Some((counts, cited)) = found {
                let grade = cited.graded().unwrap_or(Grade::Memory);
                let text = format!(
                    "depth mark: Sch {schedule} socket {} deep{}: the pipe goes to its end; measure the one in hand",
                    length(distance(counts), unit),
                    mark(grade)
                );
                let sources = keys(self.notes, Some(cited));
                return Ok(Some(Figure::new("insertion", text, sources, grade)));
            }
        }
        Ok(Some(Figure::ask(
            "insertion",
            "depth mark: measure how deep this bell, socket or adapter takes the pipe",
        )))
    }

    /// The nominal size of the pipe of a joint, where it is one in inches.
    pub(super) fn nominal(&self, at: usize) -> Option<Nominal> {
        let known = &self.on(at)?.known;
        let metric = known.nominal.starts_with("DN") || known.nominal.ends_with("mm");
        let size = Nominal::of_measure(self.image.measure(known.pipe.row.size));
        size.filter(|_| !metric)
    }

    fn is_nominal(&self, at: usize) -> bool {
        self.nominal(at).is_some()
    }
}
