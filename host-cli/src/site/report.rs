//! What a verb has to say: lines with the figures in them, for people and for programs.

use serde_json::{Map, Value, json};
use springline_compiler::notes::{Cited, FigureNote, SiteCaution, WhenNote};
use springline_core::image::{Grade, Set};
use springline_core::joint::{Act, Doing, Owner, Task};

use super::pipe::Pipe;
use crate::Said;
use crate::fits::caution::due;
use crate::fits::sheet::keys;
use crate::read::lines::wrap;

/// At most so many lines of cautions where there are more.
const LINES: usize = 5;

/// A number for programs, and what it stands on.
pub(crate) struct Figure {
    key: &'static str,
    value: Value,
}

/// A line.
pub(crate) struct Line {
    mark: &'static str,
    text: String,
    figures: Vec<Figure>,
    sources: Vec<String>,
    grade: Option<Grade>,
    /// The line says no.
    no: bool,
    /// Its words say already how far they can be trusted.
    quiet: bool,
}

impl Line {
    /// Behind a word in capitals.
    pub(crate) fn new(mark: &'static str, text: impl Into<String>) -> Self {
        Self {
            mark,
            text: text.into(),
            figures: Vec::new(),
            sources: Vec::new(),
            grade: None,
            no: false,
            quiet: false,
        }
    }

    /// With another text.
    pub(crate) fn text(mut self, text: String) -> Self {
        self.text = text;
        self
    }

    /// With a number for programs.
    pub(crate) fn with(mut self, key: &'static str, value: f64) -> Self {
        // Six digits are more than anybody measures.
        let short = format!("{value:.5e}").parse::<f64>().ok();
        self.figures.push(Figure {
            key,
            value: json!(short),
        });
        self
    }

    /// With anything for programs.
    pub(crate) fn told(mut self, key: &'static str, value: impl Into<Value>) -> Self {
        self.figures.push(Figure {
            key,
            value: value.into(),
        });
        self
    }

    /// Standing on a datum of the tables. Of several the weakest grade is told.
    pub(crate) fn on(mut self, pipe: &Pipe<'_>, cited: &Cited) -> Self {
        for key in keys(pipe.notes, Some(cited)) {
            if !self.sources.contains(&key) {
                self.sources.push(key);
            }
        }
        self.grade = self.grade.max(cited.graded());
        self
    }

    /// Standing on a figure.
    pub(crate) fn by(self, pipe: &Pipe<'_>, figure: &FigureNote) -> Self {
        self.on(pipe, &figure.cited)
    }

    /// Whose words say already how far they can be trusted.
    pub(crate) const fn quiet(mut self) -> Self {
        self.quiet = true;
        self
    }

    /// What is said, without the word in capitals.
    pub(crate) fn told_text(&self) -> &str {
        &self.text
    }

    /// Its word in capitals.
    pub(crate) const fn word(&self) -> &'static str {
        self.mark
    }

    /// Keys of sources, and the weakest grade of them.
    pub(crate) fn from(&self) -> (&[String], Option<Grade>) {
        (&self.sources, self.grade)
    }

    /// Saying no.
    pub(crate) const fn no(mut self, no: bool) -> Self {
        self.no = no;
        self
    }

    /// How far it can be trusted, where that must be seen.
    fn seen(&self) -> &'static str {
        match self.grade {
            _ if self.quiet => "",
            Some(Grade::Memory) => " [from memory]",
            Some(Grade::Practice) => " [practice]",
            _ => "",
        }
    }
}

/// What is done there, as far as cautions hang on it.
pub(crate) struct Doings<'a> {
    /// Fill, dig, cut or surge.
    pub(crate) site: &'a [WhenNote],
    /// How deep the hole is, feet.
    pub(crate) depth: f64,
    /// What is done to the pipe.
    pub(crate) acts: &'a [Act],
    /// Nothing is opened for it.
    pub(crate) at_a_desk: bool,
}

/// The cautions of a site that are due, without those of work on a pipe.
pub(crate) fn of_site<'a>(
    pipe: &Pipe<'a>,
    doings: &Doings<'_>,
) -> impl Iterator<Item = &'a SiteCaution> {
    let all = pipe.notes.site.cautions.iter();
    all.filter(|one| is_due(one, pipe, doings))
}

/// A caution that is due.
struct Due {
    key: String,
    fold: bool,
    short: String,
    full: String,
    sources: Vec<String>,
    grade: Option<Grade>,
}

/// All that is said.
pub(crate) struct Report {
    schema: &'static str,
    lines: Vec<Line>,
    taken: Vec<String>,
    cautions: Vec<Due>,
}

impl Report {
    /// Nothing yet.
    pub(crate) const fn new(schema: &'static str) -> Self {
        Self {
            schema,
            lines: Vec::new(),
            taken: Vec::new(),
            cautions: Vec::new(),
        }
    }

    /// Another line.
    pub(crate) fn add(&mut self, line: Line) {
        self.lines.push(line);
    }

    /// Every line so far.
    pub(crate) fn lines(&self) -> &[Line] {
        &self.lines
    }

    /// What was taken for granted.
    pub(crate) fn all_taken(&self) -> &[String] {
        &self.taken
    }

    /// Something that nobody said and that was taken for granted.
    pub(crate) fn taken(&mut self, what: impl Into<String>) {
        self.taken.push(what.into());
    }

    /// The cautions of what is done: those of the site first, then those of work on a pipe.
    pub(crate) fn caution(&mut self, pipe: &Pipe<'_>, doings: &Doings<'_>) {
        for one in of_site(pipe, doings) {
            self.cautions.push(Due {
                key: one.key.clone(),
                fold: one.fold,
                short: one.short.clone(),
                full: one.full.clone(),
                sources: keys(pipe.notes, Some(&one.cited)),
                grade: one.cited.graded(),
            });
        }
        // On what is refused nothing is done.
        let done = if pipe.refused.is_some() {
            &[]
        } else {
            doings.acts
        };
        let repair = |act: &Act| Doing::new(*act, Set(0), [Task::Repair]);
        let doing = done.iter().map(repair).fold(Doing::default(), Doing::or);
        let row = pipe.known.pipe.row;
        for one in due(pipe.image, pipe.notes, &[row], pipe.owner, doing) {
            // Who only reckons stands in no trench.
            if doings.at_a_desk && pipe.refused.is_none() && one.key == "trench" {
                continue;
            }
            self.cautions.push(Due {
                key: one.key,
                fold: one.fold,
                short: one.short,
                full: one.full,
                sources: one.sources,
                grade: one.grade,
            });
        }
        // What is never folded comes first, each kind in its order.
        self.cautions.sort_by_key(|one| one.fold);
    }

    /// Writes it.
    pub(crate) fn said(self, pipe: &Pipe<'_>) -> Said {
        let no = pipe.refused.is_some() || self.lines.iter().any(|line| line.no);
        let text = if pipe.json {
            self.json(pipe, no)
        } else {
            self.text(pipe)
        };
        Said { text, no }
    }

    fn text(&self, pipe: &Pipe<'_>) -> String {
        let mut out = String::new();
        if let Some(refused) = &pipe.refused {
            out.push_str(&pipe.known.name);
            out.push_str(if pipe.known.stop {
                "\nSTOP - ASK\n"
            } else {
                "\nASK\n"
            });
            wrap(
                &mut out,
                "",
                &format!("{}. No numbers are given.", refused.reason),
            );
        } else {
            wrap(&mut out, "", &pipe.head());
            // The worst first.
            let (bad, good): (Vec<&Line>, Vec<&Line>) = self.lines.iter().partition(|line| line.no);
            for line in bad.into_iter().chain(good) {
                let mark = format!("{:8}", line.mark);
                wrap(&mut out, &mark, &format!("{}{}", line.text, line.seen()));
                if pipe.why && !line.sources.is_empty() {
                    let grade = line.grade.map_or("", Grade::key);
                    let from = format!("from {}; {grade}.", line.sources.join(", "));
                    wrap(&mut out, "          ", &from);
                }
            }
            if !self.taken.is_empty() {
                wrap(&mut out, "Taken: ", &format!("{}.", self.taken.join("; ")));
            }
        }
        if pipe.owner == Owner::Unknown && pipe.refused.is_none() {
            let ask = "Whose is it? Ahead of the meter it is the purveyor's: ask first (--owner).";
            wrap(&mut out, "", ask);
        }
        if !self.cautions.is_empty() {
            out.push('\n');
        }
        for line in self.caution_lines(pipe.why) {
            wrap(&mut out, "! ", &line);
        }
        out
    }

    fn caution_lines(&self, full: bool) -> Vec<String> {
        if full {
            return self.cautions.iter().map(|one| one.full.clone()).collect();
        }
        let kept = self.cautions.iter().filter(|one| !one.fold).count();
        let shown = kept.max(LINES.min(self.cautions.len()));
        let mut lines: Vec<String> = self
            .cautions
            .iter()
            .take(shown)
            .map(|one| one.short.clone())
            .collect();
        if self.cautions.len() > shown {
            let more = self.cautions.len() - shown;
            lines.push(format!("and {more} more (--why, --json)."));
        }
        lines
    }

    fn json(&self, pipe: &Pipe<'_>, no: bool) -> String {
        let mut figures = Map::new();
        for line in &self.lines {
            for figure in &line.figures {
                let one = json!({
                    "value": figure.value, "source": line.sources,
                    "grade": line.grade.map(Grade::key),
                });
                figures.insert(figure.key.to_owned(), one);
            }
        }
        let known = &pipe.known;
        let lines: Vec<Value> = self
            .lines
            .iter()
            .map(|line| {
                json!({
                    "mark": line.mark, "text": line.text, "no": line.no,
                    "source": line.sources, "grade": line.grade.map(Grade::key),
                })
            })
            .collect();
        let mut value = json!({
            "schema": self.schema,
            "pipe": { "family": known.family, "nominal": known.nominal, "owner": Owner::key(pipe.owner) },
            "stop": known.stop && pipe.refused.is_some(),
            "no": no, "figures": figures, "lines": lines, "taken": self.taken,
            "cautions": self.cautions.iter().map(|one| json!({
                "caution": one.key, "short": one.short, "full": one.full, "source": one.sources,
                "grade": one.grade.map(Grade::key),
            })).collect::<Vec<_>>(),
        });
        if let Some(refused) = &pipe.refused {
            value["refused"] = json!({
                "reason": refused.reason, "source": refused.sources, "grade": refused.grade.key(),
            });
        } else {
            value["pipe"]["class"] = json!(known.class);
            value["pipe"]["od_in"] = json!(pipe.od.in_inches());
        }
        format!("{value:#}\n")
    }
}

fn is_due(one: &SiteCaution, pipe: &Pipe<'_>, doings: &Doings<'_>) -> bool {
    // Of pipe that nothing is done to the other cautions say what there is to say.
    pipe.refused.is_none()
        && one.when.iter().any(|all| {
            all.iter().all(|when| match *when {
                WhenNote::Material(code) => pipe.material_code() == code,
                WhenNote::Depth(feet) => doings.depth >= f64::from(feet),
                WhenNote::Beyond(feet) => doings.depth > f64::from(feet),
                other => doings.site.contains(&other),
            })
        })
}
