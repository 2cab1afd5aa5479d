//! Which parts go on a pipe: the verdict of the matrix on their ends, the sizes that they are made in, and who may put them on.

use super::cautions::bit;
use super::{Act, Best, Form, Kind, Owner, Role, Sealing, Stock, Task, Thread, Verdict, best};
use crate::image::{Carries, Image, JointEnd, Material, Part, Row, Set};

/// A known pipe and how its end looks.
#[derive(Clone, Copy, Debug)]
pub struct Pipe {
    /// Its row of the tables.
    pub row: Row,
    /// The variants that it may be of: one where its class is known.
    pub variants: Set,
    /// How its end looks.
    pub form: Form,
}

/// What decided a verdict on a part.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Decides {
    /// The matrix.
    Matrix,
    /// It is not made in this size.
    Size,
    /// The pipe is the purveyor's, and the part asks for a cut or a tap.
    Owner,
    /// It is for a crew that is trained and equipped for it.
    Crew,
    /// Its thread is none that the pipe's own can be run into.
    Thread,
}

/// A part on a pipe.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Fit {
    /// The part, an index.
    pub part: u8,
    /// The end of it that goes on the pipe, an index: the one that goes best, the first of several.
    pub end: u8,
    /// That end as the part has it; another where the pipe takes another gasket in it.
    pub own: u8,
    /// It is not the first end of the part, which is made for another pipe: this one is what that is joined to.
    pub far: bool,
    /// The matrix on that end.
    pub best: Best,
    /// The verdict on the part.
    pub verdict: Verdict,
    /// What decided it.
    pub decides: Decides,
}

impl Fit {
    /// What the reason is about; always there unless it fits.
    #[must_use]
    pub const fn kind(&self) -> Option<Kind> {
        match self.decides {
            Decides::Matrix => self.best.sealing.kind,
            Decides::Size => Some(Kind::Range),
            Decides::Owner => Some(Kind::Contents),
            Decides::Crew => Some(Kind::Hazard),
            Decides::Thread => Some(Kind::Form),
        }
    }

    /// The joint ends of the part as they are made up on this pipe.
    #[must_use]
    pub fn ends(&self, image: &Image<'_>) -> Set {
        let as_made = |own| if own == self.own { self.end } else { own };
        let all = image.part(self.part).joint_ends().map(as_made);
        all.fold(Set::default(), Set::with)
    }

    /// What it is put on for, a bit for each [`Task`]: what is made for another pipe joins it to this one, and does nothing
    /// else here.
    #[must_use]
    pub(super) fn task_bits(&self, image: &Image<'_>) -> u8 {
        let tasks = image.part(self.part).tasks;
        if self.far {
            tasks & bit(Task::Join)
        } else {
            tasks
        }
    }

    /// Whether it is put on for a task.
    #[must_use]
    pub fn does(&self, image: &Image<'_>, task: Task) -> bool {
        self.task_bits(image) & bit(task) != 0
    }

    /// Whether something should hold its joint.
    #[must_use]
    pub fn wants_holding(&self, image: &Image<'_>) -> bool {
        let code = image.part(self.part).act_and_stock & 15;
        let outlet = image.joint_end(self.end).role_and_grade & 15 == Role::Outlet as u8;
        let opens = [Act::Cut as u8, Act::Bolt as u8].contains(&code);
        opens && !outlet && self.verdict <= Verdict::FitsWith
    }
}

/// The verdict on a part. `None` where there is no such pipe or part.
#[must_use]
#[inline(never)]
pub fn fit(image: &Image<'_>, pipe: &Pipe, index: u8, owner: Owner) -> Option<Fit> {
    if usize::from(index) >= image.parts().len() {
        return None;
    }
    let part = image.part(index);
    let mut held: Option<(u8, u8, Best)> = None;
    for own in part.joint_ends() {
        for end in [Some(own), image.joint_end(own).another()] {
            let Some(end) = end else {
                continue;
            };
            let Some(found) = best(image, &pipe.row, pipe.variants, pipe.form, end) else {
                continue;
            };
            // The first end is the one that is made for the pipe; another is another pipe's side, where this one may be put
            // in, but nobody puts an adapter on this pipe to get there.
            let far = held.is_some_and(|(first, ..)| first != own);
            let runs_in = !is_outside_thread(image, end) || takes(image, pipe, &part);
            if far && (found.sealing.verdict > Verdict::FitsWith || !runs_in) {
                continue;
            }
            if held.is_none_or(|(_, _, held)| found.sealing.verdict < held.sealing.verdict) {
                held = Some((own, end, found));
            }
        }
    }
    let (own, end, best) = held?;
    // Another gasket must be ordered.
    let sealing = match best.sealing.verdict {
        Verdict::Fits if own != end => Verdict::FitsWith,
        verdict => verdict,
    };
    // An adapter brings the thread that is wanted; what is screwed onto the pipe itself must go with its own.
    let bare = is_outside_thread(image, end) && sealing <= Verdict::FitsWith;
    let (verdict, decides) = if bare && !takes(image, pipe, &part) {
        (Verdict::No, Decides::Thread)
    } else {
        decide(image, pipe, &part, sealing, owner)
    };
    Some(Fit {
        part: index,
        end,
        own,
        far: part.joint_ends().next() != Some(own),
        best,
        verdict,
        decides,
    })
}

/// Whether an end is made for a thread on the outside of a pipe, and not for a hole that is tapped into it.
fn is_outside_thread(image: &Image<'_>, end: u8) -> bool {
    let end = image.joint_end(end);
    end.by == JointEnd::THREAD && end.role_and_grade & 15 == Role::Connection as u8
}

/// Whether the outside thread on the end of a pipe can be run into a part: the part's is inside, of the pipe's size, and of plastic
/// for plastic only. A part that names no outlet is threaded in the size that it is made in.
fn takes(image: &Image<'_>, pipe: &Pipe, part: &Part) -> bool {
    let plastic =
        [Material::Pvc as u8, Material::Pe as u8].contains(&image.family(pipe.row.family).material);
    let inside = match Thread::from_code(part.thread) {
        None => return true,
        Some(Thread::NptFemale) => true,
        Some(Thread::NptPlastic) => plastic,
        Some(Thread::NptMale | Thread::CorpFemale | Thread::CorpMale) => false,
    };
    let size = image.measure(pipe.row.size);
    let made = Part::OUTLETS.iter().enumerate();
    inside
        && made
            .into_iter()
            .any(|(at, outlet)| *outlet == size && part.outlets >> at & 1 == 1)
}

/// The verdicts on all parts, in the order of the image.
pub fn fits(image: &Image<'_>, pipe: &Pipe, owner: Owner) -> impl Iterator<Item = Fit> {
    let all = (0u8..).zip(image.parts());
    all.filter_map(move |(index, _)| fit(image, pipe, index, owner))
}

/// What seals is still not made in every size, nor for everybody to put on.
fn decide(
    image: &Image<'_>,
    pipe: &Pipe,
    part: &Part,
    sealing: Verdict,
    owner: Owner,
) -> (Verdict, Decides) {
    if sealing == Verdict::No {
        return (sealing, Decides::Matrix);
    }
    if !image.band(part.band).holds(image.measure(pipe.row.size)) {
        return (Verdict::No, Decides::Size);
    }
    let act = Act::from_code(part.act_and_stock & 15);
    if act == Some(Act::Crew) {
        return (Verdict::Refer, Decides::Crew);
    }
    // Around a pipe and onto a flange nothing is opened that the owner has not opened.
    let opens = matches!(act, Some(Act::Cut | Act::Tap)) || sealing == Verdict::Adapter;
    if owner == Owner::Purveyor && opens {
        return (Verdict::Refer, Decides::Owner);
    }
    (sealing, Decides::Matrix)
}

/// How a part is got in a size.
#[must_use]
pub fn stock(image: &Image<'_>, part: &Part, size: u8) -> Stock {
    let measure = image.measure(size);
    let among = |band: u8| band != 255 && image.band(band).holds(measure);
    let code = if among(part.other) {
        part.others & 15
    } else if among(part.more) {
        part.others >> 4
    } else {
        part.act_and_stock >> 4
    };
    // A checked image has no other codes.
    Stock::from_code(code).unwrap_or(Stock::Rare)
}

/// The largest outlet of a saddle on a main, sixty-fourths of an inch: half of the main, and never above 2 in. Common
/// practice; a purveyor's ordinance may allow less.
#[must_use]
pub fn most_outlet(image: &Image<'_>, size: u8) -> u16 {
    (image.measure(size) / 2).min(128)
}

/// Why nothing is put on a pipe: one row of the matrix speaks of every end of it, and none of them may be joined. Gas,
/// asbestos-cement, what is no pressure pipe.
#[must_use]
#[inline(never)]
pub fn refusal(image: &Image<'_>, pipe: &Pipe) -> Option<Sealing> {
    let of =
        |end: u8| best(image, &pipe.row, pipe.variants, pipe.form, end).map(|best| best.sealing);
    let first = of(0)?;
    let refused = first.verdict >= Verdict::Refer;
    let all = (0u8..).zip(image.joint_ends());
    let mut rest = all.filter_map(|(end, _)| of(end));
    (refused && rest.all(|one| one.row == first.row)).then_some(first)
}

/// Whether a refusal is a stop: somebody could be hurt by as much as a cut.
#[must_use]
pub fn is_stop(image: &Image<'_>, row: &Row) -> bool {
    let family = image.family(row.family);
    Material::from_code(family.material) == Some(Material::Cement)
        || Carries::from_code(family.carries) == Some(Carries::Gas)
}
