//! Every part on a known pipe, worked out once for people and for programs.

use anyhow::{Result, bail};
use springline_compiler::notes::{Cited, Notes};
use springline_core::image::{Grade, Image, JointEnd, Listing, Part};
use springline_core::joint::{
    Act, Decides, Fit, Form, Kind, Owner, Role, Sealing, Stock, Task, Thread, Use, Verdict, fits,
    forbidden, holders, most_outlet, refusal, stock,
};

use super::caution::{Due, due};
use super::known::Known;
use super::range::{Judged, judge, told};
use crate::cli::FitsArgs;
use crate::parse::Unit;

/// Something that holds a joint.
#[derive(Clone, PartialEq, Eq)]
pub(super) struct Held {
    pub(super) key: String,
    pub(super) name: String,
    pub(super) remark: String,
    /// Only by leave.
    pub(super) ask: bool,
    /// Nothing to buy: the joint holds itself.
    pub(super) itself: bool,
}

/// A verdict on one end of a part.
pub(super) struct EndSaid {
    pub(super) name: String,
    pub(super) verdict: Verdict,
    pub(super) need: String,
    pub(super) reason: String,
    pub(super) sources: Vec<String>,
    pub(super) grade: Grade,
}

/// A part on the pipe.
pub(super) struct PartRow {
    pub(super) key: String,
    pub(super) name: String,
    pub(super) tasks: Vec<Task>,
    /// The end that goes on the pipe, its index and its name.
    pub(super) end: u8,
    /// That end is made for this pipe only where it is joined to another.
    pub(super) far: bool,
    pub(super) end_name: String,
    pub(super) role: Role,
    pub(super) act: Act,
    pub(super) verdict: Verdict,
    pub(super) needs: Vec<String>,
    pub(super) reason: String,
    pub(super) kind: Option<Kind>,
    /// Some classes are otherwise.
    pub(super) by_class: bool,
    pub(super) sources: Vec<String>,
    pub(super) grade: Grade,
    pub(super) stock: Stock,
    pub(super) gasket: String,
    /// What is ordered beside it, with how many of each.
    pub(super) packs: Vec<(usize, String)>,
    pub(super) comes: String,
    pub(super) less: String,
    pub(super) wont: String,
    pub(super) tools: String,
    /// Outlets that may be taken off this main.
    pub(super) outlet: Option<(Thread, Vec<&'static str>)>,
    /// The range to ask for, where it is asked for by range.
    pub(super) range: Option<String>,
    /// A limit of the end itself.
    pub(super) psi: Option<u16>,
    /// Its verdict is the owner's to give.
    pub(super) owners: bool,
    /// It cannot be made up wet.
    pub(super) dry: bool,
    /// A range is stamped on such a part.
    pub(super) ranged: bool,
    /// A stamped range was held against it.
    pub(super) judged: bool,
    pub(super) holds: Vec<Held>,
    /// Every end of it on this pipe.
    pub(super) ends: Vec<EndSaid>,
    /// Indices of its ends as it is put on this pipe.
    pub(super) all_ends: Vec<u8>,
    /// What must not be used to hold it, or not without asking.
    pub(super) forbidden: Vec<Held>,
}

/// What is said of a pipe.
pub(super) struct Sheet<'a> {
    pub(super) known: &'a Known,
    pub(super) owner: Owner,
    pub(super) rows: Vec<PartRow>,
    /// Nothing is put on it: the verdict that says so, and its sources.
    pub(super) refused: Option<(Sealing, String, Vec<String>)>,
    /// A stamped range, and what it is worth.
    pub(super) range: Option<((i64, i64), Judged)>,
    /// What could hurt someone, the worst first.
    pub(super) cautions: Vec<Due>,
    task: Option<Task>,
    part: Option<String>,
}

/// Outlets as they are written, in the order of [`Part::OUTLETS`].
const OUTLETS: [&str; 9] = ["1/2", "3/4", "1", "1-1/4", "1-1/2", "2", "2-1/2", "3", "4"];

impl<'a> Sheet<'a> {
    pub(super) fn of(
        image: &Image<'_>,
        notes: &Notes,
        known: &'a Known,
        args: &FitsArgs,
        range: Option<(i64, i64)>,
    ) -> Result<Self> {
        if let Some(key) = &args.part
            && !notes.joints.parts.iter().any(|part| part.key == *key)
        {
            let all: Vec<&str> = notes
                .joints
                .parts
                .iter()
                .map(|part| part.key.as_str())
                .collect();
            bail!("no part \"{key}\"\n  try one of: {}", all.join(", "));
        }
        let owner = Owner::from(args.owner);
        let refused = refusal(image, &known.pipe).map(|sealing| {
            let cited = notes.joints.matrix.get(usize::from(sealing.row));
            (
                sealing,
                image.phrase(sealing.reason).to_string(),
                keys(notes, cited),
            )
        });
        let range = range.map(|range| (range, judge(range, known)));
        let make = Make {
            image,
            notes,
            known,
            unit: args.units.into(),
            range,
        };
        let rows = if refused.is_some() {
            Vec::new()
        } else {
            fits(image, &known.pipe, owner)
                .map(|fit| make.row(&fit))
                .collect()
        };
        let mut sheet = Self {
            cautions: Vec::new(),
            known,
            owner,
            rows,
            refused,
            range,
            task: args.job.and_then(crate::cli::FitsJobArg::task),
            part: args.part.clone(),
        };
        if let (Some(key), Some(_)) = (&args.part, range)
            && sheet.refused.is_none()
            && !sheet.asked().any(|row| row.ranged)
        {
            bail!(
                "\"{key}\" has no stamped range\n  try: --range with a coupling, a clamp, a tapping sleeve or a saddle"
            );
        }
        let asked: Vec<&PartRow> = sheet.asked().collect();
        sheet.cautions = due(image, notes, &known.pipe.row, owner, &asked);
        Ok(sheet)
    }

    /// The rows that were asked for.
    pub(super) fn asked(&self) -> impl Iterator<Item = &PartRow> {
        self.rows
            .iter()
            .filter(|row| match (&self.part, self.task) {
                (Some(key), _) => row.key == *key,
                (None, Some(task)) => row.tasks.contains(&task),
                (None, None) => true,
            })
    }
}

impl PartRow {
    /// Whether something should hold its joint.
    pub(super) fn wants_holding(&self) -> bool {
        self.role != Role::Outlet
            && matches!(self.act, Act::Cut | Act::Bolt)
            && self.verdict <= Verdict::FitsWith
    }
}

/// The keys of sources.
pub(super) fn keys(notes: &Notes, cited: Option<&Cited>) -> Vec<String> {
    let all = cited.map_or(&[][..], |cited| &cited.sources);
    all.iter()
        .filter_map(|at| notes.sources.get(usize::from(*at)))
        .map(|source| source.key.clone())
        .collect()
}

/// What rows are made from.
struct Make<'a> {
    image: &'a Image<'a>,
    notes: &'a Notes,
    known: &'a Known,
    unit: Unit,
    range: Option<((i64, i64), Judged)>,
}

impl Make<'_> {
    fn row(&self, fit: &Fit) -> PartRow {
        let (image, notes) = (self.image, self.notes);
        let part = image.part(fit.part);
        let end = image.joint_end(fit.end);
        let note = notes.joints.parts.get(usize::from(fit.part));
        let text = |of: fn(&springline_compiler::notes::PartNote) -> &String| {
            note.map_or(String::new(), |note| of(note).clone())
        };
        let made = notes.joints.made.get(usize::from(fit.end));
        let sealing = &fit.best.sealing;
        let (reason, cited, grade) = match fit.decides {
            Decides::Matrix => (
                image.phrase(sealing.reason).to_string(),
                notes.joints.matrix.get(usize::from(sealing.row)),
                sealing.grade,
            ),
            Decides::Size => (
                format!(
                    "made in {} only",
                    note.map_or("other sizes", |note| &note.sizes)
                ),
                note.map(|note| &note.cited),
                Grade::from_code(part.grade).unwrap_or(Grade::Practice),
            ),
            Decides::Owner => (
                "it is the purveyor's: no cut and no tap without their leave".to_owned(),
                None,
                Grade::Practice,
            ),
            Decides::Crew => (
                "for a crew trained and equipped for it".to_owned(),
                note.map(|note| &note.cited),
                Grade::Practice,
            ),
        };
        let mut needs = Vec::new();
        if fit.own != fit.end
            && let Some(made) = made
        {
            needs.push(format!(
                "{} gasket",
                made.gasket.split(',').next().unwrap_or_default()
            ));
        }
        if sealing.need != 0 && fit.verdict < Verdict::No {
            needs.push(image.phrase(sealing.need).to_string());
        }
        let role = Role::from_code(end.role_and_grade & 15).unwrap_or(Role::Fits);
        let barrel =
            role == Role::Outlet && end.by != JointEnd::THREAD && end.by != JointEnd::SIZE_ALONE;
        let ranged = end.by == JointEnd::RANGE || barrel;
        let mut row = PartRow {
            key: text(|note| &note.key),
            name: image.phrase(part.name).to_string(),
            tasks: Task::ALL
                .iter()
                .filter(|task| part.tasks >> (**task as u8) & 1 == 1)
                // What is made for another pipe joins it to this one, and does nothing else here.
                .filter(|task| !fit.far || **task == Task::Join)
                .copied()
                .collect(),
            end: fit.end,
            far: fit.far,
            end_name: image.phrase(end.name).to_string(),
            role,
            act: Act::from_code(part.act_and_stock & 15).unwrap_or(Act::Crew),
            verdict: fit.verdict,
            needs: needs.into_iter().filter(|need| !need.is_empty()).collect(),
            reason,
            kind: fit.kind(),
            by_class: fit.best.by_class && fit.decides == Decides::Matrix,
            sources: if fit.decides == Decides::Owner {
                vec!["practice".to_owned()]
            } else {
                keys(notes, cited)
            },
            grade,
            stock: stock(image, &part, self.known.pipe.row.size),
            gasket: made.map_or(String::new(), |made| made.gasket.clone()),
            packs: self.packs(&part, fit),
            comes: text(|note| &note.comes),
            less: text(|note| &note.less),
            wont: text(|note| &note.wont),
            tools: made.map_or(String::new(), |made| made.tools.clone()),
            outlet: self.outlet(&part, role),
            range: (end.by == JointEnd::RANGE).then(|| told(self.known.band(), self.unit)),
            ranged,
            judged: false,
            owners: fit.decides == Decides::Owner,
            dry: end.dry == 1,
            psi: made.and_then(|made| made.psi),
            holds: self.holds(fit.end),
            ends: self.ends(&part),
            all_ends: part
                .joint_ends()
                .map(|own| if own == fit.own { fit.end } else { own })
                .collect(),
            forbidden: forbidden(
                image,
                self.known.pipe.row,
                self.known.pipe.variants,
                fit.end,
            )
            .map(|(at, listing)| self.held(at, &listing))
            .collect(),
        };
        self.judge(&mut row);
        row
    }

    /// What is ordered beside each end: the same words once, with how often.
    fn packs(&self, part: &Part, fit: &Fit) -> Vec<(usize, String)> {
        let mut packs: Vec<(usize, String)> = Vec::new();
        for own in part.joint_ends() {
            let end = if own == fit.own { fit.end } else { own };
            let Some(made) = self.notes.joints.made.get(usize::from(end)) else {
                continue;
            };
            if made.pack.is_empty() {
                continue;
            }
            match packs.iter_mut().find(|(_, held)| *held == made.pack) {
                Some((count, _)) => *count += 1,
                None => packs.push((1, made.pack.clone())),
            }
        }
        packs
    }

    /// The outlets of a part; of a saddle those that this main may have taken off it.
    fn outlet(&self, part: &Part, role: Role) -> Option<(Thread, Vec<&'static str>)> {
        let thread = Thread::from_code(part.thread)?;
        let most = if role == Role::Outlet {
            most_outlet(self.image, self.known.pipe.row.size)
        } else {
            u16::MAX
        };
        let sizes = OUTLETS
            .iter()
            .enumerate()
            .filter(|(at, _)| part.outlets >> at & 1 == 1)
            .filter(|(at, _)| Part::OUTLETS.get(*at).is_some_and(|size| *size <= most))
            .map(|(_, size)| *size)
            .collect();
        Some((thread, sizes))
    }

    fn holds(&self, end: u8) -> Vec<Held> {
        let pipe = &self.known.pipe;
        holders(self.image, pipe.row, pipe.variants, end)
            .map(|(at, listing)| self.held(at, &listing))
            .collect()
    }

    fn held(&self, at: u8, listing: &Listing) -> Held {
        let note = self.notes.joints.restraints.get(usize::from(at));
        Held {
            key: note.map_or(String::new(), |(key, _)| key.clone()),
            name: self.image.phrase(listing.name).to_string(),
            remark: self.image.phrase(listing.remark).to_string(),
            ask: listing.of() == Some(Use::Refer),
            itself: listing.of() == Some(Use::Itself),
        }
    }

    /// Every end of a part, each once, and the same with another gasket.
    fn ends(&self, part: &Part) -> Vec<EndSaid> {
        let image = self.image;
        let pipe = &self.known.pipe;
        let mut seen: Vec<u8> = Vec::new();
        for own in part.joint_ends() {
            for end in [own, image.joint_end(own).or] {
                if end != Part::NO_END && !seen.contains(&end) {
                    seen.push(end);
                }
            }
        }
        seen.into_iter()
            .filter_map(|end| {
                let best =
                    springline_core::joint::best(image, &pipe.row, pipe.variants, pipe.form, end)?;
                let sealing = best.sealing;
                Some(EndSaid {
                    name: image.phrase(image.joint_end(end).name).to_string(),
                    verdict: sealing.verdict,
                    need: image.phrase(sealing.need).to_string(),
                    reason: image.phrase(sealing.reason).to_string(),
                    sources: keys(
                        self.notes,
                        self.notes.joints.matrix.get(usize::from(sealing.row)),
                    ),
                    grade: sealing.grade,
                })
            })
            .collect()
    }

    /// Holds a stamped range against the row.
    fn judge(&self, row: &mut PartRow) {
        let Some((range, judged)) = self.range else {
            return;
        };
        if !row.ranged || row.verdict >= Verdict::Refer {
            return;
        }
        row.judged = true;
        let stamped = told(range, self.unit);
        let band = told(self.known.band(), self.unit);
        match judged {
            Judged::Holds => row.needs.push(format!("stamped {stamped}: holds {band}")),
            Judged::Barely => row.needs.push(format!(
                "tape this pipe: stamped {stamped} does not hold all that its OD may be, {band}"
            )),
            Judged::No => {
                row.verdict = Verdict::No;
                row.kind = Some(Kind::Dimension);
                row.needs.clear();
                let od = crate::format::length(self.known.od(), self.unit);
                row.reason = format!("stamped {stamped} does not hold an OD of {od}");
                row.grade = Grade::Practice;
                row.sources = vec!["calc".to_owned()];
            }
        }
    }
}

/// How an end looks, as people read it.
pub(super) const fn form_words(form: Form) -> &'static str {
    match form {
        Form::PlainBevelled => "plain, with the factory bevel",
        Form::PlainSquare => "cut square",
        Form::Belled => "a bell",
        Form::Grooved => "grooved",
        Form::Threaded => "threaded",
        Form::Flanged => "with a flange",
    }
}
