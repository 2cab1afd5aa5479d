//! What an answer means at the counter: which joint ends go on the pipe, what holds them, and what hangs on which pipe it is.

use springline_core::identify::variants_left;
use springline_core::image::{Grade, Image, Listing, Row, Set};
use springline_core::joint::{
    Best, Form, Job, Kind, Parted, Role, Sealing, Verdict, best, hangs_on, parted, restraints,
};
use springline_core::reading::Query;

use super::finding::Finding;

/// A joint end on pipe that takes or refuses it alike.
pub(super) struct End {
    /// Its index in the image.
    pub(super) index: u8,
    pub(super) name: String,
    pub(super) role: Role,
    pub(super) verdict: Verdict,
    pub(super) kind: Option<Kind>,
    pub(super) need: String,
    pub(super) reason: String,
    /// Some classes of the pipe are otherwise.
    pub(super) by_class: bool,
    pub(super) grade: Grade,
    /// The row of the matrix.
    pub(super) row: u16,
    /// The job looks at it.
    pub(super) asked: bool,
}

/// Something that holds joints.
pub(super) struct Held {
    pub(super) index: u8,
    pub(super) name: String,
    pub(super) remark: String,
    pub(super) grade: Option<Grade>,
    /// The joint ends that it holds.
    pub(super) ends: Set,
}

/// What some pipes buy, and where they part.
#[derive(Default)]
pub(super) struct Purchase {
    /// Ends with one verdict and one need on all of the pipes.
    pub(super) ends: Vec<End>,
    /// Restraints that hold all of them.
    pub(super) holds: Vec<Held>,
    /// Names of the pipes.
    pub(super) pipes: Vec<String>,
    /// What is otherwise on one of them than on another.
    pub(super) apart: Vec<Apart>,
    /// The jobs for which they do not all buy the same.
    pub(super) parted: Parted,
}

/// Something that is otherwise on one pipe than on another.
pub(super) struct Apart {
    pub(super) name: String,
    /// What goes, and the pipes for which it does.
    pub(super) by: Vec<(String, Vec<String>)>,
}

impl Apart {
    /// How it is on each of some pipes.
    fn new(name: &str, is: impl IntoIterator<Item = String>, pipes: &[String]) -> Self {
        let mut by: Vec<(String, Vec<String>)> = Vec::new();
        for (words, pipe) in is.into_iter().zip(pipes) {
            match by.iter_mut().find(|(held, _)| *held == words) {
                Some((_, pipes)) => pipes.push(pipe.clone()),
                None => by.push((words, vec![pipe.clone()])),
            }
        }
        Self {
            name: name.to_owned(),
            by,
        }
    }
}

impl Purchase {
    /// Of the answer: of what leads when it is settled or likely, else of all that counts.
    pub(super) fn of(finding: &Finding<'_>) -> Self {
        if finding.is_outside() {
            return Self::default();
        }
        let leads = finding.is_single();
        let groups = finding.counted().take(if leads { 1 } else { usize::MAX });
        let pipes: Vec<_> = groups.flat_map(|group| finding.named(group)).collect();
        let rows: Vec<(u16, &str)> = pipes
            .iter()
            .filter_map(|pipe| Some((pipe.indices.first().copied()?, pipe.name)))
            .collect();
        Self::of_rows(finding.image, &rows, &finding.asked.query)
    }

    /// Of some rows of the tables with their names, for a job.
    fn of_rows(image: &Image<'_>, named: &[(u16, &str)], query: &Query) -> Self {
        let job = query.job;
        let mut found = Self {
            parted: parted(image, &named.iter().map(|(row, _)| *row)),
            pipes: named.iter().map(|(_, name)| (*name).to_owned()).collect(),
            ..Self::default()
        };
        let rows: Vec<(Row, Set)> = named
            .iter()
            .map(|(row, _)| (image.row(*row), variants_left(image, query, *row)))
            .collect();
        for index in (0u8..).zip(image.joint_ends()).map(|(index, _)| index) {
            found.end(image, &rows, index, job);
        }
        let wants = |of: Job| job == Job::None || job == of;
        found.restraints(image, &rows, wants(Job::Restraint));
        if wants(Job::Length) && found.parted.has(Job::Length) {
            let own = found.pipes.clone();
            found
                .apart
                .push(Apart::new("a new length", own, &found.pipes));
        }
        found
    }

    /// Takes in a joint end: what it is on all of the pipes, or how it differs.
    fn end(&mut self, image: &Image<'_>, rows: &[(Row, Set)], index: u8, job: Job) {
        let of = |(row, left): &(Row, Set)| best(image, row, *left, Form::PlainSquare, index);
        let verdicts: Vec<Best> = rows.iter().filter_map(of).collect();
        let Some(Best { sealing, .. }) = verdicts.first().copied() else {
            return;
        };
        let end = image.joint_end(index);
        let name = image.phrase(end.name).to_string();
        // Without a job all ends are looked at.
        let role = Role::from_code(end.role_and_grade & 15).unwrap_or(Role::Fits);
        let asked = role != Role::Other && (job == Job::None || hangs_on(image, index, job));
        let same = |other: &Best| other.sealing.bought() == sealing.bought();
        if verdicts.iter().all(same) {
            self.ends.push(End {
                index,
                name,
                role,
                verdict: sealing.verdict,
                kind: sealing.kind,
                need: image.phrase(sealing.need).to_string(),
                reason: image.phrase(sealing.reason).to_string(),
                by_class: verdicts.iter().any(|other| other.by_class),
                grade: sealing.grade,
                row: sealing.row,
                asked,
            });
        } else if asked
            // Where none can be bought, a no and a referral are alike.
            && verdicts.iter().any(|one| one.sealing.verdict < Verdict::Refer)
        {
            let by = verdicts.iter().map(|best| words(image, &best.sealing));
            self.apart.push(Apart::new(&name, by, &self.pipes));
        }
    }

    /// Takes in what holds all of the pipes, and how they differ in it where that is looked at.
    fn restraints(&mut self, image: &Image<'_>, rows: &[(Row, Set)], asked: bool) {
        let of = |(row, left): &(Row, Set)| restraints(image, *row, *left).collect();
        let each: Vec<Vec<(u8, Listing)>> = rows.iter().map(of).collect();
        let holds_all = |(index, _): &&(u8, Listing)| {
            let held = |all: &Vec<(u8, Listing)>| all.iter().any(|(other, _)| other == index);
            each.iter().all(held)
        };
        let first = each.first().map_or(&[][..], Vec::as_slice);
        let held = first.iter().filter(holds_all).map(|(index, listing)| Held {
            index: *index,
            name: image.phrase(listing.name).to_string(),
            remark: image.phrase(listing.remark).to_string(),
            grade: Grade::from_code(listing.grade()),
            ends: image.set(listing.ends),
        });
        self.holds = held.collect();
        if asked && self.parted.has(Job::Restraint) {
            let by = each.iter().map(|all| {
                let all = all
                    .iter()
                    .map(|(_, one)| image.phrase(one.name).to_string());
                let all: Vec<String> = all.collect();
                if all.is_empty() {
                    "nothing listed".to_owned()
                } else {
                    all.join(", ")
                }
            });
            self.apart
                .push(Apart::new("what holds it", by, &self.pipes));
        }
    }

    /// Ends of a role that go on the pipe in some way.
    pub(super) fn taking(&self, role: Role) -> impl Iterator<Item = &End> {
        self.ends
            .iter()
            .filter(move |end| end.asked && end.role == role && end.verdict < Verdict::Refer)
    }

    /// Ends that somebody else decides on.
    pub(super) fn referred(&self) -> impl Iterator<Item = &End> {
        self.ends
            .iter()
            .filter(|end| end.asked && end.verdict == Verdict::Refer)
    }

    /// Why ends of fittings that look right are not, each reason once.
    pub(super) fn refusals(&self) -> Vec<&str> {
        let mut reasons: Vec<(&str, usize)> = Vec::new();
        let refused = self
            .ends
            .iter()
            .filter(|end| end.role == Role::Fits)
            .filter(|end| end.verdict == Verdict::No && end.kind == Some(Kind::Dimension));
        for end in refused {
            match reasons.iter_mut().find(|(held, _)| *held == end.reason) {
                Some((_, count)) => *count += 1,
                None => reasons.push((&end.reason, 1)),
            }
        }
        reasons.sort_by_key(|(_, count)| usize::MAX - count);
        reasons.into_iter().map(|(reason, _)| reason).collect()
    }

    /// Joints that seal and that nothing here holds.
    pub(super) fn unheld(&self) -> impl Iterator<Item = &End> {
        let seals = |end: &&End| {
            end.verdict <= Verdict::FitsWith && matches!(end.role, Role::Fits | Role::Repair)
        };
        let free = |end: &&End| !self.holds.iter().any(|held| held.ends.has(end.index));
        self.ends.iter().filter(seals).filter(free)
    }
}

/// A verdict in the words of the trade.
fn words(image: &Image<'_>, sealing: &Sealing) -> String {
    let (need, reason) = (image.phrase(sealing.need), image.phrase(sealing.reason));
    match sealing.verdict {
        Verdict::Fits => "fits".to_owned(),
        Verdict::FitsWith => format!("fits with {need}"),
        Verdict::Adapter => format!("needs {need}"),
        Verdict::Refer => format!("ASK, {reason}"),
        Verdict::No => format!("WON'T SEAL, {reason}"),
    }
}
