//! What must be held beyond the joints of the job, as `restrain` says it.

use anyhow::Result;
use springline_core::image::Material;
use springline_core::thrust::Procedure;

use super::{Figure, words};
use crate::fits::tie::end::End;
use crate::pick::list::{Maker, numbers};
use crate::pick::site::far;
use crate::restrain::args::RestrainArgs;
use crate::restrain::brief::{Brief, brief};
use crate::share::{PRESSURES, SITE, typed};

/// What is off balance in a job.
enum Pull<'a> {
    /// A fitting on a line, as `restrain` takes it behind the pipe.
    Fitting(&'a End, Vec<String>),
    /// A piece of the line, which pulls on nothing by itself.
    Straight,
}

impl Maker<'_> {
    /// What this job puts into the line, as far as thrust goes.
    fn pull(&self) -> Pull<'_> {
        let (a, b) = (&self.pipes.a, &self.pipes.b);
        let line = |end: &End| format!("{}:{}", end.known.family, end.known.nominal);
        let branched = self.built.joints.iter().any(|joint| {
            let on = joint.on.map(|on| on.pipe);
            on == Some('C')
        });
        if let (Some(branch), true) = (&self.pipes.c, branched) {
            let mut words = vec![String::from("tee"), format!("--branch={}", line(branch))];
            words.extend(self.site.shared.words(&[
                "run_restrained",
                "branch_valve",
                "branch_dead_end",
            ]));
            return Pull::Fitting(a, words);
        }
        let parts = 0..self.built.parts.len();
        let one = |word: &str| Pull::Fitting(a, vec![word.to_owned()]);
        if self.built.parts.iter().any(|put| put.told == "bend")
            || parts.clone().any(|at| self.key(at).starts_with("bend-"))
        {
            return one("bend");
        }
        if parts.clone().any(|at| self.key(at) == "blind-flange") {
            return one("dead-end");
        }
        if parts
            .clone()
            .any(|at| self.key(at).starts_with("valve-") && self.built.cuts > 1)
        {
            return one("valve");
        }
        let (of_a, of_b) = (a.known.od(), b.known.od());
        let steps = a.known.nominal != b.known.nominal && of_a != of_b;
        if steps && self.pipes.k.is_none() {
            let (large, small) = if of_a > of_b { (a, b) } else { (b, a) };
            let to = format!("--to={}", line(small));
            return Pull::Fitting(large, vec![String::from("reducer"), to]);
        }
        Pull::Straight
    }

    /// The lines of it.
    pub(super) fn hold(&self) -> Result<Vec<Figure>> {
        let pull = self.pull();
        let (a, b) = (&self.pipes.a, &self.pipes.b);
        let material_of = |end: &End| self.image.family(end.known.pipe.row.family).material;
        if let Pull::Fitting(line, words) = &pull {
            let mut all = self.held_on(line, words, &pull)?;
            let bend = words.first().is_some_and(|word| word == "bend");
            if bend && self.site.shared.get("angle").is_none() {
                all.push(Figure::ask(
                    "restrain",
                    "Which change of direction has the bend (--angle 45)? Nobody told, and 90° is reckoned, which asks for the most.",
                ));
            }
            let other = self
                .pipes
                .c
                .as_ref()
                .unwrap_or(if line.known.od() == a.known.od() {
                    b
                } else {
                    a
                });
            if material_of(other) != material_of(line) && all.iter().any(|figure| figure.known) {
                all.push(Figure::ask(
                    "restrain",
                    format!(
                        "{} is of another material, and its side is reckoned here as if it were {}: ask springline restrain for a dead end on it, and hold the longer of both.",
                        other.name(),
                        line.name()
                    ),
                ));
            }
            return Ok(all);
        }
        // What pulls is a valve where one is told, else the worst that there may be: a dead end.
        let word = if self.site.valve.is_some() {
            "valve"
        } else {
            "dead-end"
        };
        let words = [word.to_owned()];
        let mut all = self.held_on(a, &words, &pull)?;
        let unlike = a.known.od() != b.known.od() || material_of(a) != material_of(b);
        if unlike && all.iter().any(|figure| figure.known) {
            let second = self.held_on(b, &words, &pull)?;
            for figure in &mut all {
                figure.text = format!("ON {}: {}", a.name(), figure.text);
            }
            all.extend(second.into_iter().map(|mut figure| {
                figure.text = format!("ON {}: {}", b.name(), figure.text);
                figure
            }));
        }
        Ok(all)
    }

    /// What a branch out of a tapping sleeve does, whose own pipe nobody told.
    pub(super) fn tapped(&self) -> Option<Figure> {
        let taps = (0..self.built.parts.len()).any(|at| self.key(at) == "sleeve-tapping");
        let size = self.site.outlet.as_deref().unwrap_or("SIZE");
        taps.then(|| {
            let text = format!(
                "The branch is a dead end at its valve, and pulls off the main with all its push: springline restrain FAMILY {size} dead-end of the branch's own pipe, with the pressure and the cover, says how many of its joints are held. Whether the sleeve wants a block behind it is its maker's and the owner's to say. Unanswered, no water goes into the branch."
            );
            Figure::ask("restrain", text)
        })
    }

    /// The lines of what is off balance on a line.
    fn held_on(&self, line: &End, fitting: &[String], pull: &Pull<'_>) -> Result<Vec<Figure>> {
        let family = self.image.family(line.known.pipe.row.family);
        let material = Material::from_code(family.material);
        let shared = &self.site.shared;
        let mut asked = words(line, self.site);
        asked.extend(fitting.iter().cloned());
        if material.and_then(Procedure::of).is_none() {
            // No length hangs on pressure and depth then: any will do.
            asked.extend(["--pressure=1psi", "--depth=3ft"].map(String::from));
        } else if !shared.any(&PRESSURES) || shared.get("depth").is_none() {
            return Ok(vec![self.unasked()]);
        } else {
            asked.extend(shared.words(&SITE));
            if matches!(material, Some(Material::Iron | Material::Steel)) {
                asked.extend(shared.words(&["wrapped"]));
            }
            if self.site.groundwater {
                asked.push(String::from("--water"));
            }
            if matches!(pull, Pull::Fitting(..)) {
                asked.extend(shared.words(&["dead_end"]));
                asked.extend(
                    self.site
                        .valve_typed
                        .iter()
                        .map(|at| format!("--valve={at}")),
                );
            }
        }
        let told = typed::<RestrainArgs>(&asked)?;
        let larger = self
            .pipes
            .c
            .as_ref()
            .is_some_and(|c| c.known.od() > line.known.od());
        if larger && fitting.first().is_some_and(|word| word == "tee") {
            return Ok(vec![Figure::ask(
                "restrain",
                "The branch is larger than the line: of such a tee no length is reckoned here; its designer says what holds it. Unanswered, no water goes on.",
            )]);
        }
        let found = brief(self.image, self.notes, &told)?;
        Ok(match pull {
            Pull::Fitting(..) => found.lines.iter().map(said).collect(),
            Pull::Straight => self.straight(&found),
        })
    }

    /// That no length is known, and what it hangs on.
    fn unasked(&self) -> Figure {
        let shared = &self.site.shared;
        let mut hangs: Vec<&str> = Vec::new();
        if !shared.any(&PRESSURES) {
            hangs.push(
                "on the highest pressure here (--shutoff 130psi --below 40ft, --static, --failed-open, --working with --surge, --test, or --highest as it is known)",
            );
        }
        if shared.get("depth").is_none() {
            hangs.push("on the cover (--depth 3ft)");
        }
        let soil = if shared.get("soil").is_none() {
            " Of soil that nobody told (--soil sand) the worst is taken."
        } else {
            ""
        };
        let text = format!(
            "How far beyond these joints, on each side and at a branch, must bells be held? That hangs {}.{soil} No number till then; in an OPEN trench no length holds. Unanswered, no water goes on.",
            hangs.join(" and "),
        );
        Figure::ask("restrain", text)
    }

    /// A piece of straight line: what pulls is what lies nearest.
    fn straight(&self, found: &Brief) -> Vec<Figure> {
        let joints: Vec<usize> = (0..self.built.joints.len()).collect();
        let joints = numbers(&joints);
        let Some(longest) = found.longest else {
            return found.lines.iter().map(said).collect();
        };
        let pick = |key: &'static str| found.lines.iter().filter(move |line| line.key == key);
        let near = match (self.site.valve, self.site.dead_end) {
            (Some(valve), _) => Some((valve, "the shut valve")),
            (None, end) => end.map(|end| (end, "the dead end")),
        };
        let Some((near, what)) = near else {
            let mut all: Vec<Figure> = pick("look").chain(pick("open")).map(said).collect();
            if let Some(line) = pick("thrust").next() {
                let text = format!(
                    "A straight piece pulls on nothing by itself; what pulls is the nearest bend, tee, cap or shut valve. {} AFTER BACKFILL {} of pipe in one piece holds such an end: where one lies nearer to this job than that, {joints} and every bell up to it are held; say how far (--valve 60ft, --dead-end 60ft), or ask springline restrain for that fitting.",
                    line.text, found.reach,
                );
                let first = Figure::new("restrain", text, line.sources.clone(), line.grade);
                all.insert(0, first);
            }
            all.extend(pick("with").map(said));
            return all;
        };
        let at = far(near, self.site.unit);
        let text = if near <= longest {
            format!(
                "A straight piece pulls on nothing by itself: {what} {at} off does. This job lies within its {}: AFTER BACKFILL {joints} and every bell as far as that from it are held.",
                found.reach
            )
        } else {
            format!(
                "A straight piece pulls on nothing by itself: {what} {at} off does, and this job lies beyond the {} that hold it AFTER BACKFILL. {joints} are held all the same, as JOINTS says.",
                found.reach
            )
        };
        let mut all: Vec<Figure> = found.lines.iter().map(said).collect();
        if let Some(line) = pick("thrust").next() {
            let first = Figure::new("restrain", text, line.sources.clone(), line.grade);
            all.insert(0, first);
        }
        all
    }
}

/// A line of `restrain` as a figure.
fn said(line: &crate::restrain::brief::Line) -> Figure {
    let mut figure = Figure::new(
        "restrain",
        line.text.clone(),
        line.sources.clone(),
        line.grade,
    );
    figure.known = line.key != "ask";
    figure
}
