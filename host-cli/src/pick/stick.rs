//! Pipe in sticks, what is lifted, and the clock.

use anyhow::Result;
use springline_compiler::jobs::Place;
use springline_core::image::Grade;
use springline_core::joint::{Use, holders};
use springline_core::unit::Distance;

use super::built::{Joint, Spot};
use super::figures::cure;
use super::lift;
use super::line::Line;
use super::list::{Maker, place, takes_days};
use super::measures::measured;
use super::site::{far, long};

impl Maker<'_> {
    /// Pipe, in sticks.
    pub(super) fn sticks(&self, out: &mut Vec<Line>) {
        let mut done: Vec<Spot> = Vec::new();
        for spot in &self.built.pieces {
            if done.contains(spot) {
                continue;
            }
            done.push(*spot);
            let Some(end) = self.pipes.at(*spot) else {
                continue;
            };
            let pieces = self
                .built
                .pieces
                .iter()
                .filter(|held| *held == spot)
                .count();
            let stick = lift::stick(self.notes, end);
            let length = stick.map_or_else(
                || String::from("length: ask"),
                |stick| lift::lengths(stick, self.site.unit),
            );
            let mut need = 1;
            let mut why = format!(
                "for {pieces} piece{} to be cut to length",
                if pieces == 1 { "" } else { "s" }
            );
            let back = lift::rule(self.notes, "cut-back");
            if let (Some(damage), Some(stick)) = (self.site.damage, stick) {
                let feet = damage.in_feet() + 2.0 * back / 12.0;
                let (short, _) = lift::span(stick);
                let out_of = Distance::feet(feet);
                why = format!(
                    "the cut-out is {} or more: the damage, and {} beyond it on each side",
                    far(out_of, self.site.unit),
                    measured(back, "in", self.site.unit).unwrap_or_default()
                );
                #[expect(
                    clippy::cast_possible_truncation,
                    clippy::cast_sign_loss,
                    reason = "a few sticks"
                )]
                if short > 0.0 {
                    need = ((feet / short).ceil() as u32).max(1);
                }
                if need > 1 {
                    why.push_str("; longer than a stick, so the sticks are joined: a bell more, or a coupling, each");
                }
            }
            let place = lift::place(stick);
            let text = format!("{}, stick of {length}: {why}", end.name());
            let cite = |line: Line| match stick {
                Some(stick) => line.cited(self.notes, &stick.cited),
                None => line,
            };
            out.push(cite(Line::new("pipe", "stick", text).load(need, place)));
            let text = format!("{}, spare stick of {length}", end.name());
            out.push(cite(Line::new("spare", "stick", text).load(1, place)));
            if need > 1 {
                let text = format!(
                    "{} joints between sticks of the piece: depth mark, lubricant and a holder each",
                    need - 1
                );
                out.push(Line::new("figure", "piece-joints", text));
            }
        }
        self.carrier(out);
    }

    fn carrier(&self, out: &mut Vec<Line>) {
        let Some(end) = &self.pipes.k else {
            return;
        };
        let stick = lift::stick(self.notes, end);
        let length = stick.map_or_else(
            || String::from("length: ask"),
            |stick| lift::lengths(stick, self.site.unit),
        );
        let sticks = self.case.carrier_joints + 1;
        let counted = self.site.length.is_some();
        let mut text = format!(
            "{}, carrier, stick of {length}, every joint restrained",
            end.name()
        );
        if !counted {
            text.push_str("; HOW MANY: --length of the sleeve");
        }
        let mut line = Line::new("pipe", "carrier", text).load(sticks, lift::place(stick));
        if let Some(stick) = stick {
            line = line.cited(self.notes, &stick.cited);
        }
        out.push(line);
        let text = format!("{}, spare stick of the carrier, {length}", end.name());
        out.push(Line::new("spare", "carrier", text).load(1, lift::place(stick)));
        let bell = stick.and_then(|stick| stick.bell);
        let pipe = end.known.pipe;
        let held = bell.and_then(|bell| {
            holders(self.image, pipe.row, pipe.variants, bell)
                .find(|(_, one)| one.of() == Some(Use::Holds))
        });
        let text = match held {
            Some((_, one)) => format!(
                "{}, {}: one for each joint between sticks of the carrier; {}",
                self.image.phrase(one.name),
                end.known.size(),
                self.image.phrase(one.remark)
            ),
            None => String::from(
                "NOT HELD: no restraint is listed for joints of this carrier: fused or welded, or another carrier",
            ),
        };
        let mut line = Line::new("holder", "carrier", text);
        if held.is_some() && self.case.carrier_joints > 0 {
            line = line.load(self.case.carrier_joints, Place::Order);
        }
        out.push(line);
    }

    /// Whether a thrust block is among what may hold a joint.
    fn wants_block(&self) -> bool {
        self.built.joints.iter().any(|joint| {
            let pipe = joint.on.and_then(|spot| self.pipes.pipe(spot));
            pipe.is_some_and(|pipe| {
                holders(self.image, pipe.row, pipe.variants, joint.end)
                    .any(|(_, one)| one.of() == Some(Use::Blocks))
            })
        })
    }

    /// What has to be got, and what has to cure, before water is back.
    pub(super) fn clock(&self, out: &mut Vec<Line>) -> Result<()> {
        let Some(back) = self.site.back_in else {
            return Ok(());
        };
        let cures = |joint: &Joint| self.image.joint_end(joint.end).cures();
        let text = if self.built.joints.iter().any(cures) {
            let found = cure(self.image, self.pipes, self.built, self.site)?;
            match found {
                Ok(found) => {
                    let left = back - found.all;
                    format!(
                        "Water back in {}: the glue is {}. The last joint is glued within {} from now, digging and cutting in it, or it is not cured in time.",
                        long(back),
                        found.text,
                        long(left)
                    )
                }
                Err(why) => format!("Water back in {}: {why}.", long(back)),
            }
        } else if self.built.is_dry(self.image) {
            format!(
                "Water back in {}: what is fused, welded or soldered is cold by then, by the machine's program.",
                long(back)
            )
        } else {
            let block = if self.wants_block() {
                " A thrust block would: 3 to 7 days, fast mix 24 h; till then it holds nothing."
            } else {
                ""
            };
            format!(
                "Water back in {}: nothing in these joints has to cure.{block}",
                long(back)
            )
        };
        out.push(Line::new("clock", "cure", text));
        let slow: Vec<String> = self
            .built
            .parts
            .iter()
            .enumerate()
            .filter(|(_, put)| takes_days(place(put.stock)))
            .map(|(at, _)| self.name(at))
            .collect();
        if !slow.is_empty() && back.in_hours() < 48.0 {
            let mut each = slow;
            each.dedup();
            let text = format!(
                "NOT ON A SHELF: {} by order, days. Phone until somebody has it in hand, before anything is cut; else leave it shut.",
                each.join(" and ")
            );
            out.push(Line::new("clock", "stock", text));
        }
        Ok(())
    }

    pub(super) fn lift(&self, out: &mut Vec<Line>) {
        let band = lift::rule(self.notes, "lift-band");
        let hand = lift::rule(self.notes, "hand-lift");
        let (heaviest, unknown) = lift::heaviest(self.notes, self.pipes, self.built, |at| {
            format!("{} {}", self.sizes(at), self.name(at))
        });
        if let Some(weight) = heaviest {
            // To five pounds, as coarse as they are known; kilograms of these.
            let round = |pounds: f64| {
                let pounds = (pounds / 5.0).round() * 5.0;
                let text = measured(pounds, "lb", self.site.unit).unwrap_or_default();
                let (value, unit) = text.split_once(' ').unwrap_or((&text, ""));
                (value.to_owned(), unit.to_owned())
            };
            let by = if weight.pounds * (1.0 + band / 100.0) > hand {
                "a machine and slings, or as many as carry it"
            } else {
                "by hand"
            };
            let recalled = if weight.grade == Grade::Memory {
                ", from memory"
            } else {
                ""
            };
            let (about, unit) = round(weight.pounds);
            let text = format!(
                "Heaviest known: {}, about {about} {unit} ({} to {}{recalled}): {by}.",
                weight.what,
                round(weight.pounds * (1.0 - band / 100.0)).0,
                round(weight.pounds * (1.0 + band / 100.0)).0,
            );
            let mut line = Line::new("lift", "heaviest", text);
            weight.grade.key().clone_into(&mut line.grade);
            line.sources = vec![weight.grade.key().to_owned()];
            out.push(line);
        }
        if !unknown.is_empty() {
            let text = format!(
                "No weight is known of {}: read it on the piece or ask the counter, before anybody lifts.",
                unknown.join(", ")
            );
            out.push(Line::new("lift", "unknown", text));
        }
    }
}
