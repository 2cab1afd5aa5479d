//! Bare barrel, the hole, and the water that runs into it, as `dig` says them.

use anyhow::Result;
use springline_compiler::notes::WhenNote;
use springline_core::image::Grade;
use springline_core::joint::{Act, Run};
use springline_core::unit::Distance;

use super::Figure;
use crate::fits::sheet::keys;
use crate::pick::lift;
use crate::pick::line::Line;
use crate::pick::list::Maker;
use crate::site::dig::{DigJob, Dug, hole, water};
use crate::site::report::{Doings, Report, of_site};

impl Maker<'_> {
    /// What is cut out, end to end: as measured, or by the damage.
    pub(super) fn opening(&self) -> Option<Distance> {
        let back = Distance::inches(lift::rule(self.notes, "cut-back"));
        let damaged = self.site.damage.map(|damage| damage + back * 2.0);
        self.site.opening.or(damaged)
    }

    fn dug(&self) -> Dug {
        let parts = &self.built.parts;
        let slides = parts
            .iter()
            .filter(|put| self.image.part(put.part).run() == Some(Run::Slides))
            .count();
        let does = |act: Act| parts.iter().any(|put| put.act == act);
        let job = match slides {
            0 if does(Act::Tap) => DigJob::Tap,
            0 if does(Act::Around) => DigJob::Clamp,
            0 => DigJob::Joint,
            1 => DigJob::Sleeve,
            _ => DigJob::Piece,
        };
        Dug {
            job,
            cover: self.site.depth,
            coupling: self.site.coupling,
            opening: if self.built.pieces.is_empty() {
                Some(Distance::ZERO)
            } else {
                self.opening()
            },
            bare: None,
        }
    }

    /// Bare barrel, hole, sump and soil.
    pub(super) fn hole(&self) -> Result<Vec<Figure>> {
        let Some(pipe) = self.first()? else {
            return Ok(Vec::new());
        };
        let mut report = Report::new("springline-dig/1");
        hole(&pipe, &self.dug(), &mut report)?;
        let key = |word: &str| match word {
            "BARE" => "bare-barrel",
            "SUMP" => "sump",
            "SOIL" => "soil",
            _ => "excavation",
        };
        let lines = report.lines().iter();
        Ok(lines
            .map(|line| Figure::reported(key(line.word()), line))
            .collect())
    }

    /// What a hole of that depth asks for by the safety code.
    pub(in crate::pick) fn deep(&self, out: &mut Vec<Line>) -> Result<()> {
        let (Some(_), Some(pipe)) = (self.site.depth, self.first()?) else {
            return Ok(());
        };
        let mut report = Report::new("springline-dig/1");
        let depth = hole(&pipe, &self.dug(), &mut report)?;
        let doings = Doings {
            site: &[WhenNote::Dig],
            depth: depth.in_feet(),
            acts: &[],
            at_a_desk: false,
        };
        let deep = of_site(&pipe, &doings).filter(|one| {
            let by_depth =
                |when: &WhenNote| matches!(when, WhenNote::Depth(_) | WhenNote::Beyond(_));
            one.when.iter().flatten().any(by_depth)
        });
        for one in deep {
            let mut line = Line::new("dig", &one.key, one.short.as_str());
            line.sources = keys(self.notes, Some(&one.cited));
            let grade = one.cited.graded().unwrap_or(Grade::Practice);
            grade.key().clone_into(&mut line.grade);
            out.push(line);
        }
        Ok(())
    }

    /// What runs out of the line.
    pub(super) fn gallons(&self) -> Result<Figure> {
        let told = self.site.drains;
        let (Some(length), Some(pipe)) = (told.or(self.site.valve), self.first()?) else {
            return Ok(Figure::ask(
                "gallons",
                "How much water runs into the hole: how long is the line that drains to the cut, on both sides together (--drains 200ft)? Pump and hose go by it.",
            ));
        };
        let mut report = Report::new("springline-dig/1");
        water(&pipe, length, &mut report);
        let Some(line) = report.lines().first() else {
            return Ok(Figure::ask("gallons", "Water to pump out: not known."));
        };
        let mut figure = Figure::reported("gallons", line);
        if told.is_none() {
            figure.text.push_str(
                " That is the side of the shut valve alone; with the other side: --drains.",
            );
        }
        for taken in report.all_taken() {
            figure.text.extend([" Taken: ", taken, "."]);
        }
        Ok(figure)
    }
}
