//! A job on every pipe that it may be: what is refused, which way is taken, one list of all of them.

use anyhow::{Result, bail};
use springline_compiler::notes::{JobNote, Notes};
use springline_core::image::{Image, Set};
use springline_core::joint::{Doing, Owner, Task, refusal};

use super::args::PickArgs;
use super::built::Built;
use super::due::sixty_fourths;
use super::line::{Line, merged};
use super::pipes::{self, Asked};
use super::site::Site;
use super::work::Work;
use crate::fits::caution::{Due, due};
use crate::fits::sheet::keys;
use crate::fits::tie::end::End;

/// Why nothing is listed.
pub(super) struct Refused {
    /// Somebody could be hurt.
    pub(super) stop: bool,
    /// The name of the pipe.
    pub(super) name: String,
    pub(super) because: String,
    pub(super) sources: Vec<String>,
    pub(super) grade: String,
}

/// A way that was considered.
pub(super) struct Other {
    pub(super) key: String,
    pub(super) name: String,
    /// Why it is not offered; it could be taken where this is empty.
    pub(super) why: String,
}

/// The pipes of one list.
pub(super) struct Alternative {
    /// Its name where pipes are not told apart yet.
    pub(super) name: String,
    /// In full, with OD, form and whether they move.
    pub(super) ends: Vec<String>,
    pub(super) way: Option<String>,
    pub(super) others: Vec<Other>,
    pub(super) refused: Option<Refused>,
}

/// The answer.
pub(super) struct Plan {
    pub(super) job: JobNote,
    pub(super) read: Option<String>,
    /// What was said of the site.
    pub(super) told: Vec<String>,
    pub(super) check: Option<String>,
    pub(super) alternatives: Vec<Alternative>,
    pub(super) lines: Vec<Line>,
    pub(super) cautions: Vec<Due>,
    pub(super) refused: Option<Refused>,
}

impl Plan {
    /// Works it out.
    pub(super) fn of(image: &Image<'_>, notes: &Notes, args: &PickArgs) -> Result<Self> {
        let site = Site::of(args)?;
        if let Some(outlet) = &site.outlet
            && sixty_fourths(outlet).is_none()
        {
            bail!("\"{outlet}\" is no outlet\n  try: 3/4, 1, 1-1/2 or 2");
        }
        let asked = pipes::asked(image, notes, args)?;
        let job = notes.jobs.jobs[asked.job].clone();
        let mut plan = Self {
            job,
            read: asked.read.clone(),
            told: site.told(args),
            check: asked.check.clone(),
            alternatives: Vec::new(),
            lines: Vec::new(),
            cautions: Vec::new(),
            refused: None,
        };
        let mut lists: Vec<Vec<Line>> = Vec::new();
        for (texts, name) in combinations(&asked) {
            let ends: Result<Vec<End>> = texts
                .iter()
                .map(|text| pipes::end(image, notes, text, args))
                .collect();
            let ends = ends?;
            if let Some(refused) = refused(image, notes, &ends) {
                // What could hurt somebody is never one line among others.
                if refused.stop || asked.places.iter().all(|place| place.ends.len() == 1) {
                    plan.refused = Some(refused);
                    plan.alternatives.clear();
                    plan.lines.clear();
                    plan.cautions = cautions(image, notes, &ends, None, &plan.job, &site);
                    return Ok(plan);
                }
                plan.alternatives.push(Alternative {
                    name: refused.name.clone(),
                    ends: Vec::new(),
                    way: None,
                    others: Vec::new(),
                    refused: Some(refused),
                });
                lists.push(Vec::new());
                continue;
            }
            if Owner::from(args.owner) == Owner::Purveyor {
                plan.refused = Some(Refused {
                    stop: false,
                    name: ends[0].name(),
                    because: String::from(
                        "it is the purveyor's pipe: no cut, no tap and no turn of a valve without their leave",
                    ),
                    sources: vec![String::from("practice")],
                    grade: String::from("practice"),
                });
                plan.cautions = cautions(image, notes, &ends, None, &plan.job, &site);
                return Ok(plan);
            }
            let one = Work {
                image,
                notes,
                site: &site,
                asked: &asked,
                args,
            };
            let (alternative, list, cautions) = one.done(&plan.job, &texts, name)?;
            plan.alternatives.push(alternative);
            lists.push(list);
            for caution in cautions {
                if !plan.cautions.iter().any(|held| held.key == caution.key) {
                    plan.cautions.push(caution);
                }
            }
        }
        let order = |key: &str| notes.joints.cautions.iter().position(|one| one.key == key);
        plan.cautions.sort_by_key(|one| order(&one.key));
        plan.lines = merged(lists);
        let listed = |at: &usize| plan.alternatives[*at].way.is_some();
        let all: Vec<usize> = (0..plan.alternatives.len()).filter(listed).collect();
        for caution in &plan.cautions {
            let mut line = Line::new("caution", &caution.key, &*caution.short);
            line.sources.clone_from(&caution.sources);
            line.grade = caution
                .grade
                .map_or(String::new(), |grade| grade.key().to_owned());
            line.only.clone_from(&all);
            plan.lines.push(line);
        }
        Ok(plan)
    }

    /// Whether the answer is "no".
    pub(super) fn is_no(&self) -> bool {
        self.refused.is_some() || self.alternatives.iter().all(|one| one.way.is_none())
    }

    /// Pipes are not told apart yet.
    pub(super) fn is_open(&self) -> bool {
        self.alternatives.len() > 1
    }
}

/// Every pipe that a job may be of, with a name where there are several.
fn combinations(asked: &Asked) -> Vec<(Vec<String>, String)> {
    let mut all: Vec<Vec<String>> = vec![Vec::new()];
    for place in &asked.places {
        all = all
            .iter()
            .flat_map(|held| {
                place.ends.iter().map(|end| {
                    let mut one = held.clone();
                    one.push(end.clone());
                    one
                })
            })
            .collect();
    }
    all.into_iter()
        .map(|texts| {
            let name = texts.join(" and ");
            (texts, name)
        })
        .collect()
}

fn refused(image: &Image<'_>, notes: &Notes, ends: &[End]) -> Option<Refused> {
    ends.iter().find_map(|end| {
        let sealing = refusal(image, &end.known.pipe)?;
        let cited = notes.joints.matrix.get(usize::from(sealing.row));
        Some(Refused {
            stop: end.known.stop,
            name: end.known.name.clone(),
            because: image.phrase(sealing.reason).to_string(),
            sources: keys(notes, cited),
            grade: sealing.grade.key().to_owned(),
        })
    })
}

pub(super) fn cautions(
    image: &Image<'_>,
    notes: &Notes,
    ends: &[End],
    built: Option<&Built>,
    job: &JobNote,
    site: &Site,
) -> Vec<Due> {
    let rows: Vec<_> = ends.iter().map(|end| end.known.pipe.row).collect();
    let task: Vec<Task> = Task::from_code(job.task).into_iter().collect();
    let mut doing = Doing::default();
    if let Some(built) = built {
        for (at, put) in built.parts.iter().enumerate() {
            let joints = built.joints.iter();
            let own = joints.filter(|joint| joint.part == at || joint.with == Some(at));
            let ends = own.map(|joint| joint.end).fold(Set::default(), Set::with);
            doing = doing.or(Doing::new(put.act, ends, task.iter().copied()));
        }
    }
    due(image, notes, &rows, Owner::from(site.owner), doing)
}
