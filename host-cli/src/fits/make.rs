//! Rows made of what the core says and what the notes tell of it.

use springline_compiler::notes::{Notes, OutletNote};
use springline_core::image::{Grade, Image, JointEnd, Listing, Part};
use springline_core::joint::{
    Act, Decides, Doing, Fit, Kind, Owner, Role, Task, Thread, Use, Verdict, forbidden, holders,
    most_outlet, stock,
};

use super::known::Known;
use super::piece::Wanted;
use super::range::{Judged, told};
use super::sheet::{EndSaid, Held, PartRow, keys};
use crate::parse::Unit;

/// Outlets as they are written, in the order of [`Part::OUTLETS`].
const OUTLETS: [&str; 9] = ["1/2", "3/4", "1", "1-1/4", "1-1/2", "2", "2-1/2", "3", "4"];

/// What rows are made from.
pub(super) struct Make<'a> {
    pub(super) image: &'a Image<'a>,
    pub(super) notes: &'a Notes,
    pub(super) known: &'a Known,
    pub(super) unit: Unit,
    pub(super) range: Option<((i64, i64), Judged)>,
    pub(super) owner: Owner,
    pub(super) task: Option<Task>,
    pub(super) wanted: &'a Wanted,
}

impl Make<'_> {
    /// One row.
    pub(super) fn row(&self, fit: &Fit) -> PartRow {
        let (image, notes) = (self.image, self.notes);
        let part = image.part(fit.part);
        let end = image.joint_end(fit.end);
        let note = notes.joints.parts.get(usize::from(fit.part));
        let text = |of: fn(&springline_compiler::notes::PartNote) -> &String| {
            note.map_or(String::new(), |note| of(note).clone())
        };
        let made = notes.joints.made.get(usize::from(fit.end));
        let sealing = &fit.best.sealing;
        let (reason, sources, grade) = self.why(fit, &part);
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
        let act = Act::from_code(part.act_and_stock & 15).unwrap_or(Act::Crew);
        let mut row = PartRow {
            key: text(|note| &note.key),
            name: image.phrase(part.name).to_string(),
            tasks: Task::ALL
                .iter()
                .filter(|task| fit.does(image, **task))
                .copied()
                .collect(),
            end: fit.end,
            far: fit.far,
            end_name: image.phrase(end.name).to_string(),
            role,
            act,
            verdict: fit.verdict,
            needs: needs.into_iter().filter(|need| !need.is_empty()).collect(),
            reason,
            kind: fit.kind(),
            by_class: fit.best.by_class && fit.decides == Decides::Matrix,
            sources,
            grade,
            stock: stock(image, &part, self.known.pipe.row.size),
            gasket: made.map_or(String::new(), |made| made.gasket.clone()),
            packs: self.packs(&part, fit),
            comes: text(|note| &note.comes),
            pieces: note.map_or_else(Vec::new, |note| note.pieces.clone()),
            piece: None,
            less: text(|note| &note.less),
            wont: text(|note| &note.wont),
            tools: made.map_or(String::new(), |made| made.tools.clone()),
            outlet: self.outlet(&part, role),
            outlet_rule: (act == Act::Tap).then(|| self.most(&part)),
            range: (end.by == JointEnd::RANGE).then(|| told(self.known.band(), self.unit)),
            ranged,
            judged: false,
            owners: fit.decides == Decides::Owner,
            dry: end.is_dry(),
            psi: made.and_then(|made| made.psi),
            opens: fit.wants_holding(image),
            holds: self.holds(fit.end),
            ends: self.ends(&part),
            doing: Doing::of(image, fit),
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
        if row.verdict < Verdict::No {
            self.wanted.judge(image, &part, note, &mut row);
        }
        row.piece = self.wanted.said(self.known, &row, self.task);
        row
    }

    /// Why a part has its verdict, with sources and grade.
    fn why(&self, fit: &Fit, part: &Part) -> (String, Vec<String>, Grade) {
        let (image, notes) = (self.image, self.notes);
        let note = notes.joints.parts.get(usize::from(fit.part));
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
                Grade::from_code(part.grade()).unwrap_or(Grade::Practice),
            ),
            Decides::Owner => (
                "it is the purveyor's: no cut and no tap without their leave".to_owned(),
                None,
                Grade::Practice,
            ),
            Decides::Thread => (
                "the thread on the pipe is outside: it goes into a metal one of its size, into no outside and, from metal, into no \
                 plastic one"
                    .to_owned(),
                None,
                Grade::Practice,
            ),
            Decides::Crew => (
                "for a crew trained and equipped for it".to_owned(),
                note.map(|note| &note.cited),
                Grade::Practice,
            ),
        };
        let sources = match fit.decides {
            Decides::Owner | Decides::Thread => vec!["practice".to_owned()],
            _ => keys(notes, cited),
        };
        (reason, sources, grade)
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
        let most = match (role, self.rule()) {
            (Role::Outlet, Some(allowed)) => allowed.most,
            (Role::Outlet, None) => most_outlet(self.image, self.known.pipe.row.size),
            _ => u16::MAX,
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

    /// What the owner allows off this main.
    fn rule(&self) -> Option<&OutletNote> {
        let measure = self.image.measure(self.known.pipe.row.size);
        let of = |rule: &&OutletNote| {
            rule.owner == self.owner as u8 && (rule.mains.0..=rule.mains.1).contains(&measure)
        };
        self.notes.joints.outlets.iter().find(of)
    }

    /// What is said of the largest outlet of a saddle or a tap, and the sources of it.
    fn most(&self, part: &Part) -> (String, Vec<String>) {
        let practice = vec!["practice".to_owned()];
        let ips = self.known.family == "ips-pvc";
        match (self.rule(), self.owner) {
            (Some(rule), _) => {
                let text = format!(
                    "by a town's rule, and theirs may be another: ask; taps {} in apart, {} in from a bell",
                    rule.apart, rule.bell
                );
                (text, keys(self.notes, Some(&rule.cited)))
            }
            (None, Owner::Purveyor) => {
                let text = "half of the main at most, and what their own rule says: ask";
                (text.to_owned(), practice)
            }
            (None, _) if part.thread == Thread::CorpMale as u8 => {
                ("larger by a saddle".to_owned(), practice)
            }
            (None, _) if ips => (
                "half of the main at most, above that a tap tee".to_owned(),
                practice,
            ),
            (None, _) => {
                let text = "half of the main at most, above that a tee or a tapping sleeve";
                (text.to_owned(), practice)
            }
        }
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
            let both = [Some(own), image.joint_end(own).another()];
            for end in both.into_iter().flatten() {
                if !seen.contains(&end) {
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
