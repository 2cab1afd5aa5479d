//! A way of the tables laid on the pipes of a job: which part, which end of it on which pipe, and why not.

use springline_compiler::jobs::{Build, Seat};
use springline_core::image::{Image, JointEnd, Part};
use springline_core::joint::{Act, Pipe, Role, Sealing, Stock, Verdict, best, most_outlet, stock};

use super::built::{Built, Joint, Pipes, Put, Spot};
use crate::fits::known::size;

/// What is built on.
pub(super) struct Ground<'a> {
    pub(super) image: &'a Image<'a>,
    pub(super) pipes: &'a Pipes,
    /// An outlet that was asked for, sixty-fourths of an inch.
    pub(super) outlet: Option<u16>,
    /// An outlet that no thread is made for, as it is written: what is bolted behind a tapping sleeve has its size.
    pub(super) large: Option<String>,
    /// Glue and fusion may be offered.
    pub(super) dry: bool,
}

impl Ground<'_> {
    /// Lays a way; several where the tables are asked for what leads from one pipe to another.
    pub(super) fn lay(&self, build: &Build) -> Result<Vec<Built>, String> {
        let mut all = vec![Built::default()];
        let seats = &build.seats;
        for (at, seat) in seats.iter().enumerate() {
            match seat {
                Seat::Pipe('P') => {
                    for built in &mut all {
                        built.pieces.push(Spot {
                            pipe: 'A',
                            piece: true,
                        });
                    }
                }
                Seat::Pipe(_) => {}
                Seat::Part {
                    choice,
                    told,
                    branch,
                } => {
                    let pipe = |seat: Option<&Seat>| match seat {
                        Some(Seat::Pipe('P')) => Some(Spot {
                            pipe: 'A',
                            piece: true,
                        }),
                        Some(Seat::Pipe(name)) => Some(Spot {
                            pipe: *name,
                            piece: false,
                        }),
                        _ => None,
                    };
                    let before = at.checked_sub(1).and_then(|at| seats.get(at));
                    let behind = seats.get(at + 1);
                    let mut on: Vec<Spot> =
                        [pipe(before), pipe(behind)].into_iter().flatten().collect();
                    on.extend(branch.then_some(Spot {
                        pipe: 'C',
                        piece: false,
                    }));
                    let before = matches!(before, Some(Seat::Part { .. }));
                    let behind = matches!(behind, Some(Seat::Part { .. }));
                    for built in &mut all {
                        self.put(built, choice, told, &on, [before, behind])?;
                    }
                }
                Seat::Ways => {
                    let name = |seat: Option<&Seat>| match seat {
                        Some(Seat::Pipe(name)) => *name,
                        _ => 'A',
                    };
                    let two = [name(seats.get(at - 1)), name(seats.get(at + 1))];
                    let alone = seats.len() == 3;
                    let found = self.ways(two, if alone { 3 } else { 1 })?;
                    all = all
                        .iter()
                        .flat_map(|built| found.iter().map(|one| built.clone().and(one)))
                        .collect();
                }
            }
        }
        for built in &mut all {
            let there = |joint: &&Joint| joint.on.is_some_and(|on| !on.piece && on.pipe != 'K');
            let cut = |joint: &&Joint| {
                let act = built.parts.get(joint.part).map(|part| part.act);
                act == Some(Act::Cut)
            };
            let count = built.joints.iter().filter(there).filter(cut).count();
            built.cuts = u32::try_from(count).unwrap_or(0);
        }
        Ok(all)
    }

    /// The first part of a choice that goes; else why the first of them does not.
    fn put(
        &self,
        built: &mut Built,
        choice: &[u8],
        told: &str,
        on: &[Spot],
        parts: [bool; 2],
    ) -> Result<(), String> {
        let mut why: Option<(Verdict, String)> = None;
        for part in choice {
            match self.one(built, *part, told, on, parts) {
                Ok(()) => return Ok(()),
                // What comes nearest says it best.
                Err((verdict, reason)) => {
                    if why.as_ref().is_none_or(|(held, _)| verdict < *held) {
                        why = Some((verdict, reason));
                    }
                }
            }
        }
        Err(why.map_or(String::new(), |(_, reason)| reason))
    }

    fn one(
        &self,
        built: &mut Built,
        index: u8,
        told: &str,
        on: &[Spot],
        parts: [bool; 2],
    ) -> Result<(), (Verdict, String)> {
        let image = self.image;
        let part = image.part(index);
        let name = image.phrase(part.name);
        let act = Act::from_code(part.act_and_stock & 15).unwrap_or(Act::Crew);
        if act == Act::Crew {
            return Err((
                Verdict::Refer,
                format!("{name}: for a crew trained and equipped for it"),
            ));
        }
        let mut free: Vec<u8> = part.joint_ends().collect();
        let mut last = free.first().copied();
        let at = built.parts.len();
        let mut joints: Vec<Joint> = Vec::new();
        let mut sizes: Vec<String> = Vec::new();
        let mut slowest = Stock::Counter;
        for one in on {
            let Some(pipe) = self.pipes.pipe(*one) else {
                return Err((
                    Verdict::No,
                    String::from("there is no such pipe in this job"),
                ));
            };
            if !image.band(part.band).holds(image.measure(pipe.row.size)) {
                let size = size(image.size(pipe.row.size));
                return Err((Verdict::Refer, format!("no {size} {name} is made")));
            }
            slowest = slowest.max(stock(image, &part, pipe.row.size));
            sizes.push(size(image.size(pipe.row.size)));
            // A branch of a part that names two ends for its run has one like them.
            if free.is_empty() {
                free.extend(last);
            }
            let own = free.iter().enumerate().filter_map(|(slot, own)| {
                let (end, sealing) = self.end(&pipe, *own)?;
                Some((sealing.verdict, slot, end, sealing))
            });
            let best = own.min_by_key(|(verdict, slot, ..)| (*verdict, *slot));
            let Some((verdict, slot, end, sealing)) = best else {
                return Err((
                    Verdict::No,
                    format!("{name}: no end of it is for this pipe"),
                ));
            };
            if verdict > Verdict::FitsWith {
                let reason = image.phrase(sealing.reason);
                return Err((verdict, format!("{name}: {reason}")));
            }
            let role = Role::from_code(image.joint_end(end).role_and_grade & 15);
            last = Some(free.remove(slot));
            joints.push(Joint {
                part: at,
                end,
                on: Some(*one),
                with: None,
                sealing: Some(sealing),
                role: role.unwrap_or(Role::Fits),
            });
        }
        self.outlet(&part, joints.first(), act)
            .map_err(|reason| (Verdict::Refer, reason))?;
        if parts[0] {
            joints.push(self.between(built, &mut free, at).ok_or_else(|| {
                let reason = format!("{name} is bolted to nothing beside it");
                (Verdict::No, reason)
            })?);
        }
        if act == Act::Tap && part.outlets == 0 {
            sizes.extend(self.large.as_deref().map(size));
        }
        // A part that has no side on a pipe is bought in the size of what it is bolted to.
        if sizes.is_empty()
            && let Some(before) = built.parts.last()
        {
            sizes = before.sizes.last().cloned().into_iter().collect();
            slowest = self
                .size_of(&sizes)
                .map_or(slowest, |at| stock(image, &part, at));
        }
        built.parts.push(Put {
            part: index,
            told: told.to_owned(),
            act,
            stock: slowest,
            sizes,
        });
        built.joints.extend(joints);
        Ok(())
    }

    /// The size of the last of these names, an index.
    fn size_of(&self, sizes: &[String]) -> Option<u8> {
        let last = sizes.last()?;
        let mut rows = self.image.rows_from(0);
        rows.find(|row| size(self.image.size(row.size)) == *last)
            .map(|row| row.size)
    }

    /// How an end, with its own gasket or the other, seals on a pipe.
    fn end(&self, pipe: &Pipe, own: u8) -> Option<(u8, Sealing)> {
        // A spigot goes into a bell, and takes no pipe.
        if self.image.joint_end(own).bell().is_some() {
            return None;
        }
        let or = self.image.joint_end(own).another();
        let of = |end: u8| {
            let found = best(self.image, &pipe.row, pipe.variants, pipe.form, end)?;
            Some((end, found.sealing))
        };
        match (of(own), or.and_then(of)) {
            (Some(one), Some(other)) if other.1.verdict < one.1.verdict => Some(other),
            (one, other) => one.or(other),
        }
    }

    /// Whether a saddle, a tap tee or a corporation stop is made with the outlet that is asked for, and this main bears it.
    fn outlet(&self, part: &Part, joint: Option<&Joint>, act: Act) -> Result<(), String> {
        let Some(wanted) = self.outlet else {
            return Ok(());
        };
        let branches = part.tasks >> (springline_core::joint::Task::Outlet as u8) & 1 == 1;
        if !branches || part.outlets == 0 {
            return Ok(());
        }
        let name = self.image.phrase(part.name);
        let made = Part::OUTLETS.iter().enumerate();
        let made = made
            .into_iter()
            .any(|(at, size)| *size == wanted && part.outlets >> at & 1 == 1);
        if !made {
            return Err(format!("{name} is not made with that outlet"));
        }
        let pipe = joint.and_then(|joint| self.pipes.pipe(joint.on?));
        if let (Act::Tap, Some(pipe)) = (act, pipe)
            && wanted > most_outlet(self.image, pipe.row.size)
        {
            return Err(format!("{name}: an outlet is half of its main at most"));
        }
        Ok(())
    }

    /// The joint of a part with the one before it: two flanges, or two threads.
    fn between(&self, built: &Built, free: &mut Vec<u8>, at: usize) -> Option<Joint> {
        let before = built.parts.last()?;
        let part = self.image.part(before.part);
        let mut open: Vec<u8> = part.joint_ends().collect();
        for joint in built.joints.iter().filter(|joint| joint.part + 1 == at) {
            let made = |own: &u8| {
                *own == joint.end || self.image.joint_end(*own).another() == Some(joint.end)
            };
            if let Some(slot) = open.iter().position(made) {
                open.remove(slot);
            }
        }
        let bolted = |end: u8| {
            let by = self.image.joint_end(end).by;
            by == JointEnd::FLANGE || by == JointEnd::THREAD
        };
        let slot = free
            .iter()
            .position(|end| bolted(*end) && open.contains(end))?;
        let end = free.remove(slot);
        Some(Joint {
            part: at,
            end,
            on: None,
            with: at.checked_sub(1),
            sealing: None,
            role: Role::Connection,
        })
    }
}
