//! How long the closing piece is cut, as `cut` says it.

use anyhow::Result;
use springline_core::image::JointEnd;
use springline_core::joint::Run;

use super::Figure;
use crate::pick::built::Spot;
use crate::pick::list::Maker;
use crate::site::cut::MeetArg;
use crate::site::cut::closure::{Gap, Part, say};
use crate::site::cut::meeting::term;
use crate::site::report::Report;
use crate::site::unit::tape;

impl Maker<'_> {
    /// The piece, or its formula with blanks.
    pub(super) fn cut(&self) -> Result<Vec<Figure>> {
        let piece = Spot {
            pipe: 'A',
            piece: true,
        };
        let Some(pipe) = self.pipe(piece)? else {
            return Ok(Vec::new());
        };
        let unit = self.site.unit;
        if self.built.parts.iter().any(|put| put.told == "bend") {
            let gap = pipe.figure("gap")?;
            let gap = springline_core::unit::Distance::inches(gap.value.get());
            let gap = tape(self.site.gap.unwrap_or(gap), unit);
            return Ok(vec![Figure::ask(
                "cut-length",
                format!(
                    "____ each piece = from the cut end to the crossing of both centre lines, less centre to stop of the bend in hand, less {gap} before its stop and {gap} under the coupling. Both are measured on the bank and in the hole; no length is guessed."
                ),
            )]);
        }
        let mut terms = Vec::new();
        let mut names: Vec<String> = Vec::new();
        for (at, put) in self.built.parts.iter().enumerate() {
            let key = self.key(at);
            let slides = self.image.part(put.part).run() == Some(Run::Slides)
                || key.starts_with("coupling-")
                || put.told == "coupling";
            let joints = self.built.joints.iter();
            let own = joints
                .filter(|joint| joint.part == at && joint.on.is_some_and(|on| on.pipe != 'C'));
            let mut apart = 0;
            if slides {
                apart = 1;
            } else {
                for joint in own {
                    let end = self.image.joint_end(joint.end);
                    // What is glued, fused or screwed goes home.
                    apart += usize::from(!end.is_dry() && end.by != JointEnd::THREAD);
                }
                names.push(self.name(at));
            }
            for _ in 0..apart {
                terms.push(term(&pipe, self.site.gap, MeetArg::Plain, None)?);
            }
        }
        let bolted = names.len() > 1;
        let part = (!names.is_empty()).then(|| Part {
            name: names.join(", "),
            lay: self.site.lay,
            cited: None,
            how: String::from(match (self.site.lay.is_some(), bolted) {
                (true, _) => "as measured, from where one pipe stops in it to where the other does",
                (false, false) => {
                    "--lay, from where one pipe stops in it to where the other does"
                }
                (false, true) => {
                    "--lay, bolted up on the bank, from where one pipe stops in it to where the other does"
                }
            }),
            flanged: false,
        });
        let gap = Gap {
            opening: self.opening(),
            part,
            terms,
            both: self.built.pieces.len() > 1,
        };
        let mut report = Report::new("springline-cut/1");
        say(&pipe, &gap, &mut report)?;
        let mut all: Vec<Figure> = report
            .lines()
            .iter()
            .filter(|line| line.word() == "CUT")
            .map(|line| Figure::reported("cut-length", line))
            .collect();
        for figure in &mut all {
            if !figure.known {
                let bank = if names.is_empty() {
                    ""
                } else {
                    " and on the bank (--lay)"
                };
                figure.text.extend([
                    " What is blank is measured, in the hole (--opening)",
                    bank,
                    ". No length is guessed.",
                ]);
            } else if self.site.opening.is_none() {
                figure.text.push_str(
                    " That is by the damage that was told: the opening is measured when it is cut, and the piece cut by that.",
                );
            } else {
                figure.text.push_str(
                    " Two readings of the opening, a quarter turn apart, and both ends square.",
                );
            }
        }
        Ok(all)
    }
}
