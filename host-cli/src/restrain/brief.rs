//! The answer in short, for the list of another verb: lines of text, each with what it stands on.

use anyhow::Result;
use springline_compiler::notes::Notes;
use springline_core::image::{Grade, Image};
use springline_core::thrust::Governs;
use springline_core::unit::{Distance, Pressure};

use super::answer::{Answer, Held};
use super::args::{JointsArg, RestrainArgs};
use super::held::JointHeld;
use super::site;
use super::text;

/// A line of it.
pub(crate) struct Line {
    /// What it says: `thrust`, `open`, `leg`, `count`, `with`, `look` or `ask`.
    pub(crate) key: &'static str,
    pub(crate) text: String,
    /// Keys of sources.
    pub(crate) sources: Vec<String>,
    /// The weakest grade that it stands on.
    pub(crate) grade: Grade,
}

/// The answer in short.
pub(crate) struct Brief {
    pub(crate) lines: Vec<Line>,
    /// The longest side, after backfill; none where the ground is not what holds it.
    pub(crate) longest: Option<Distance>,
    /// The same as it is written.
    pub(crate) reach: String,
}

/// The highest of the pressures that were told; none where none was.
pub(crate) fn highest(args: &RestrainArgs) -> Result<Pressure> {
    let all = site::pressures(args)?;
    Ok(all.highest().map_or(Pressure::ZERO, |(_, highest)| highest))
}

/// Answers it.
pub(crate) fn brief(image: &Image<'_>, notes: &Notes, args: &RestrainArgs) -> Result<Brief> {
    let answer = Answer::of(image, notes, args)?;
    let mut brief = Brief {
        lines: Vec::new(),
        longest: None,
        reach: String::new(),
    };
    if let Some(no) = &answer.none {
        let text = format!("{}. {}", no.because.trim_end_matches('.'), no.instead);
        brief.add("ask", text, no.sources.clone(), no.grade);
        return Ok(brief);
    }
    for warning in &answer.warnings {
        brief.practice("look", warning.clone());
    }
    let Some(held) = &answer.held else {
        brief.practice("with", String::from(text::FUSED));
        return Ok(brief);
    };
    brief.head(&answer, held, args);
    if answer.open {
        // The option is of `restrain` alone.
        let until = text::until(&answer, held).replace(" (--block)", "");
        let text = format!("TRENCH OPEN: NO LENGTH HOLDS. Until backfilled {until}");
        brief.cited("open", text, held);
    }
    let itself = answer.joints != JointsArg::Gasket;
    for leg in &held.legs {
        let side = leg.side.to_uppercase();
        let told = if itself {
            text::itself(&answer, leg)
        } else {
            format!("{}. Stops there: {}.", leg.joints.join(", "), leg.stops)
        };
        brief.cited("leg", format!("AFTER BACKFILL, {side}: {told}"), held);
        let reach = leg.leg.length.max(leg.leg.beyond);
        let held = brief.longest.unwrap_or(Distance::ZERO);
        brief.longest = Some(held.max(reach));
    }
    if !itself {
        brief.practice("count", String::from(text::COUNTED));
    }
    for kind in held.kinds.iter().filter(|kind| kind.bell) {
        brief.with(kind);
    }
    if let Some(longest) = brief.longest {
        brief.reach = answer.show.length(longest);
    }
    Ok(brief)
}

impl Brief {
    fn add(&mut self, key: &'static str, text: String, sources: Vec<String>, grade: Grade) {
        self.lines.push(Line {
            key,
            text,
            sources,
            grade,
        });
    }

    fn practice(&mut self, key: &'static str, text: String) {
        self.add(key, text, vec![String::from("practice")], Grade::Practice);
    }

    /// Standing on all that was taken for granted.
    fn cited(&mut self, key: &'static str, text: String, held: &Held) {
        let mut sources: Vec<String> = Vec::new();
        let mut grade = Grade::Practice;
        for one in &held.taken {
            grade = grade.max(one.grade.unwrap_or(Grade::Memory));
            for source in &one.sources {
                if !sources.contains(source) {
                    sources.push(source.clone());
                }
            }
        }
        self.add(key, text, sources, grade);
    }

    /// What is off balance, by what pressure, and in what ground.
    fn head(&mut self, answer: &Answer, held: &Held, args: &RestrainArgs) {
        let (Some((governs, pressure)), Some(force)) = (answer.governs, answer.thrust) else {
            return;
        };
        let show = answer.show;
        let soils = held.soils.join(" and ");
        let soil = if args.soil.trim().eq_ignore_ascii_case("unknown") {
            format!("soil not told, so the worst row: {soils}")
        } else {
            format!("soil {}, row {soils}", args.soil.trim())
        };
        let fall = matches!(governs, Governs::Shutoff | Governs::Static)
            && answer.pressures.below != Distance::ZERO;
        let fall = if fall { " with the fall to here" } else { "" };
        let mut what = answer.what.clone();
        if let Some(first) = what.get_mut(..1) {
            first.make_ascii_uppercase();
        }
        let text = format!(
            "{what}: {} ({}{fall}) makes {}, {}. By the {} procedure, cover {}, {soil}.",
            show.pressure(pressure),
            governs.key(),
            show.force(force),
            text::direction(answer.fitting, answer.back),
            held.procedure.key(),
            args.depth.trim(),
        );
        self.cited("thrust", text, held);
    }

    /// What holds the bells.
    fn with(&mut self, kind: &JointHeld) {
        // Along a straight line no block stands behind a bell.
        let text = text::with(kind, false);
        let mut sources: Vec<String> = Vec::new();
        let mut grade = Grade::Practice;
        for one in &kind.holds {
            grade = grade.max(one.grade.unwrap_or(Grade::Practice));
            sources.extend(one.sources.iter().cloned());
        }
        sources.dedup();
        if sources.is_empty() {
            sources.push(String::from("practice"));
        }
        self.add("with", text, sources, grade);
    }
}
