//! Every part on a known pipe, worked out once for people and for programs.

use anyhow::{Result, bail};
use springline_compiler::joints::Piece;
use springline_compiler::notes::{Cited, Notes};
use springline_core::image::{Grade, Image};
use springline_core::joint::{
    Act, Doing, Form, Kind, Owner, Role, Sealing, Stock, Task, Thread, Verdict, fits, refusal,
};

use super::caution::{Due, due};
use super::known::Known;
use super::make::Make;
use super::piece::Wanted;
use super::range::{Judged, judge};
use crate::cli::FitsArgs;

/// Something that holds a joint.
#[derive(Clone, PartialEq, Eq)]
pub(crate) struct Held {
    pub(crate) key: String,
    pub(crate) name: String,
    pub(crate) remark: String,
    /// Only by leave.
    pub(crate) ask: bool,
    /// Nothing to buy: the joint holds itself.
    pub(crate) itself: bool,
}

/// A verdict on one end of a part.
pub(crate) struct EndSaid {
    pub(crate) name: String,
    pub(crate) verdict: Verdict,
    pub(crate) need: String,
    pub(crate) reason: String,
    pub(crate) sources: Vec<String>,
    pub(crate) grade: Grade,
}

/// A part on the pipe.
#[expect(
    clippy::struct_excessive_bools,
    reason = "each says one thing of the part, and none hangs on another"
)]
pub(crate) struct PartRow {
    pub(crate) key: String,
    pub(crate) name: String,
    pub(crate) tasks: Vec<Task>,
    /// The end that goes on the pipe, its index and its name.
    pub(crate) end: u8,
    /// That end is made for this pipe only where it is joined to another.
    pub(crate) far: bool,
    pub(crate) end_name: String,
    pub(crate) role: Role,
    pub(crate) act: Act,
    pub(crate) verdict: Verdict,
    pub(crate) needs: Vec<String>,
    pub(crate) reason: String,
    pub(crate) kind: Option<Kind>,
    /// Some classes are otherwise.
    pub(crate) by_class: bool,
    pub(crate) sources: Vec<String>,
    pub(crate) grade: Grade,
    pub(crate) stock: Stock,
    pub(crate) gasket: String,
    /// What is ordered beside it, with how many of each.
    pub(crate) packs: Vec<(usize, String)>,
    pub(crate) comes: String,
    /// What it is made as, where a counter must be told which.
    pub(crate) pieces: Vec<Piece>,
    /// The same as it is told to a counter, with a blank for what was not told.
    pub(crate) piece: Option<String>,
    pub(crate) less: String,
    pub(crate) wont: String,
    pub(crate) tools: String,
    /// Outlets that may be taken off this main.
    pub(crate) outlet: Option<(Thread, Vec<&'static str>)>,
    /// Why those and no larger ones, and the sources of that.
    pub(crate) outlet_rule: Option<(String, Vec<String>)>,
    /// The range to ask for, where it is asked for by range.
    pub(crate) range: Option<String>,
    /// A limit of the end itself.
    pub(crate) psi: Option<u16>,
    /// Its verdict is the owner's to give.
    pub(crate) owners: bool,
    /// It cannot be made up wet.
    pub(crate) dry: bool,
    /// A range is stamped on such a part.
    pub(crate) ranged: bool,
    /// A stamped range was held against it.
    pub(crate) judged: bool,
    /// Something should hold its joint, if it goes on.
    pub(crate) opens: bool,
    pub(crate) holds: Vec<Held>,
    /// Every end of it on this pipe.
    pub(crate) ends: Vec<EndSaid>,
    /// What is done by it.
    pub(crate) doing: Doing,
    /// What must not be used to hold it, or not without asking.
    pub(crate) forbidden: Vec<Held>,
}

/// What is said of a pipe.
pub(crate) struct Sheet<'a> {
    pub(crate) known: &'a Known,
    pub(crate) owner: Owner,
    pub(crate) rows: Vec<PartRow>,
    /// Nothing is put on it: the verdict that says so, and its sources.
    pub(crate) refused: Option<(Sealing, String, Vec<String>)>,
    /// A stamped range, and what it is worth.
    pub(crate) range: Option<((i64, i64), Judged)>,
    /// What could hurt someone, the worst first.
    pub(crate) cautions: Vec<Due>,
    task: Option<Task>,
    wanted: Wanted,
    part: Option<String>,
}

impl<'a> Sheet<'a> {
    pub(crate) fn of(
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
        let wanted = Wanted::parse(image, known, args)?;
        let told = args.job.map(crate::cli::FitsJobArg::task);
        if let (Some(job), Some(task)) = (told, wanted.task())
            && job != Some(task)
        {
            bail!(
                "an outlet or an angle is not of this job\n  try: --job {}, or leave --job out",
                task.key()
            );
        }
        let task = told.flatten().or_else(|| wanted.task());
        let make = Make {
            task,
            wanted: &wanted,
            image,
            notes,
            known,
            unit: args.units.into(),
            range,
            owner,
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
            task,
            wanted: wanted.clone(),
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
        // A part that does not go on hurts nobody.
        let goes = sheet.asked().filter(|row| row.verdict < Verdict::No);
        let doing = goes.fold(Doing::default(), |held, row| held.or(row.doing));
        let cautions = due(image, notes, &[known.pipe.row], owner, doing);
        sheet.cautions = cautions;
        Ok(sheet)
    }

    /// The rows that were asked for.
    pub(crate) fn asked(&self) -> impl Iterator<Item = &PartRow> {
        self.rows
            .iter()
            .filter(|row| match (&self.part, self.task) {
                (Some(key), _) => row.key == *key,
                (None, Some(task)) => row.tasks.contains(&task) && self.wanted.is_of(row),
                (None, None) => true,
            })
    }
}

impl PartRow {
    /// Whether something should hold its joint.
    pub(crate) fn wants_holding(&self) -> bool {
        // A stamped range may have made its verdict worse.
        self.opens && self.verdict <= Verdict::FitsWith
    }
}

/// The keys of sources.
pub(crate) fn keys(notes: &Notes, cited: Option<&Cited>) -> Vec<String> {
    let all = cited.map_or(&[][..], |cited| &cited.sources);
    all.iter()
        .filter_map(|at| notes.sources.get(usize::from(*at)))
        .map(|source| source.key.clone())
        .collect()
}

/// How an end looks, as people read it.
pub(crate) const fn form_words(form: Form) -> &'static str {
    match form {
        Form::PlainBevelled => "plain, with the factory bevel",
        Form::PlainSquare => "cut square",
        Form::Belled => "a bell",
        Form::Grooved => "grooved",
        Form::Threaded => "threaded",
        Form::Flanged => "with a flange",
    }
}
