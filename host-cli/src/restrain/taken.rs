//! What was taken for granted, each with how far it can be trusted: an engineer finds every assumption here.

use springline_compiler::notes::Cited;
use springline_core::image::{Grade, Material};
use springline_core::thrust::Trench;
use springline_core::unit::{Pressure, UnitWeight};

use super::answer::{Answer, Held};
use super::args::FittingArg;
use super::block::Concrete;
use super::site::{constant, stick_of};
use super::work::Work;
use crate::fits::sheet::keys;
use crate::rating::RATED_AT;

/// A thing that was taken for granted.
pub(super) struct Taken {
    pub(super) text: String,
    pub(super) sources: Vec<String>,
    pub(super) grade: Option<Grade>,
}

/// What was told and found.
pub(super) struct Told<'a> {
    pub(super) work: &'a Work<'a>,
    pub(super) answer: &'a Answer,
    pub(super) held: &'a Held,
    pub(super) soil_known: bool,
    pub(super) stick_known: bool,
}

impl Told<'_> {
    /// All of it.
    pub(super) fn all(&self, rows: &[u8]) -> Vec<Taken> {
        let mut all = Vec::new();
        for row in rows {
            all.extend(self.soil(*row));
        }
        all.push(self.constant(
            "safety",
            &format!("safety factor {} on every length", self.held.safety),
        ));
        if self.work.args.wrapped {
            let part = constant(self.work.notes, "wrapped");
            all.push(self.constant("wrapped", &format!("wrapped: {part} of the friction")));
        }
        let od = crate::format::length(self.answer.known.od(), self.answer.show.0);
        all.push(practice(&format!(
            "water pushes on the circle of the OD at the gasket, {od}: not on the nominal size, not on the bore"
        )));
        let row = &self.answer.known.pipe.row;
        let stuff = match Material::from_code(self.work.image.family(row.family).material) {
            Some(Material::Iron) => "iron",
            Some(Material::Steel) => "steel",
            _ => "pvc",
        };
        let full = self.answer.show.load(self.work.line.full);
        all.push(self.constant(
            stuff,
            &format!("pipe full of water weighs {full}, by the thinnest wall that it may have"),
        ));
        let length = self.answer.show.place(self.held.stick);
        let whole = "the first bell a whole stick from the fitting";
        all.push(if self.stick_known {
            practice(&format!("sticks of {length}, as told; {whole}"))
        } else {
            {
                let listed = stick_of(self.work.notes, &self.answer.known);
                let text = format!("sticks of {length}, not told; {whole}");
                self.cited(listed.map(|one| &one.cited), text)
            }
        });
        all.extend(self.rated());
        all.extend(self.concrete());
        all.push(self.form());
        all.push(practice(
            "velocity of the water left out, good below 10 ft/s (3 m/s)",
        ));
        all
    }

    /// What a block under or over an upright bend was reckoned with.
    fn concrete(&self) -> Vec<Taken> {
        let parts = "an upright bend with one leg level: P x A x sin(angle) up or down, P x A x (1 - cos(angle)) along";
        let parts = || Taken {
            text: parts.to_owned(),
            sources: vec![String::from("memory")],
            grade: Some(Grade::Memory),
        };
        match self.answer.block.as_ref().map(|block| &block.concrete) {
            Some(Concrete::Under(..)) => vec![parts()],
            Some(Concrete::Weight(..)) => {
                let weight = constant(self.work.notes, "concrete");
                let weight = self.answer.show.weight(UnitWeight::pcf(weight));
                let wet = if self.work.args.water {
                    ", less the water in its place"
                } else {
                    ""
                };
                let text = format!(
                    "concrete of {weight}{wet}, {} times what pushes up; nothing of the soil over it is counted",
                    self.held.safety
                );
                vec![parts(), self.constant("concrete", &text)]
            }
            _ => Vec::new(),
        }
    }

    /// The class that the pressure was held against, and at which temperature.
    fn rated(&self) -> Option<Taken> {
        let answer = self.answer;
        let show = |pressure| answer.show.rated(pressure);
        let mut text = match &answer.rated {
            Some(rating) => match rating.words(show) {
                Some(words) => words,
                None => format!("its class as printed, {}", show(rating.class)),
            },
            // What has no class, or one without a pressure, is told as such.
            None if answer.known.class.is_some() || answer.known.classes.is_empty() => return None,
            None => String::from(
                "its class not told (--class): the pressure is held against all that this size has",
            ),
        };
        let family = self.work.image.family(answer.known.pipe.row.family);
        let material = Material::from_code(family.material);
        // Metal keeps its rating in any water.
        let warms = matches!(material, Some(Material::Pvc | Material::Pe));
        let at = answer
            .temperature
            .map(|hundredths| f64::from(hundredths) / 100.0);
        let at = match at {
            None if !warms => String::new(),
            None => format!("; at {RATED_AT}, at which pipe is rated (--temp)"),
            Some(at) if answer.left < 1.0 => {
                let rating = answer.rated.as_ref();
                let now = rating.map(|rating| format!(", {}", show(rating.class * answer.left)));
                format!(
                    "; at {at} F {:.2} of it is left{}",
                    answer.left,
                    now.unwrap_or_default()
                )
            }
            Some(at) => format!("; all of it at {at} F"),
        };
        text.push_str(&at);
        Some(practice(&text))
    }

    fn constant(&self, key: &str, text: &str) -> Taken {
        let all = &self.work.notes.thrust.constants;
        let found = all.iter().find(|one| one.key == key);
        self.cited(found.map(|one| &one.cited), text.to_owned())
    }

    fn cited(&self, cited: Option<&Cited>, text: String) -> Taken {
        Taken {
            text,
            sources: keys(self.work.notes, cited),
            grade: cited.and_then(|cited| Grade::from_code(cited.grade)),
        }
    }

    /// A row of soil and the trench it is in.
    fn soil(&self, row: u8) -> [Taken; 2] {
        let (image, held, show) = (self.work.image, self.held, self.answer.show);
        let soil = image.soil(row);
        let hundredths = |value: u8| f64::from(value) / 100.0;
        let mut parts = vec![format!(
            "soil {} of the {} procedure",
            image.soil_name(row),
            held.procedure.key()
        )];
        if soil.friction > 0 {
            let grip = hundredths(soil.grip);
            parts.push(format!(
                "friction {}°, {grip} of it on the pipe",
                soil.friction
            ));
        }
        if soil.cohesion > 0 {
            let part = hundredths(soil.adhesion);
            let cohesion = show.stress(Pressure::psf(f64::from(soil.cohesion)));
            parts.push(format!("cohesion {cohesion}, {part} of it on the pipe"));
        }
        parts.push(show.weight(UnitWeight::pcf(f64::from(soil.weight))));
        let mut text = parts.join(", ");
        if !self.soil_known {
            text.push_str(
                "; the soil is not known: of all rows but muck the one that asks for the most at this depth",
            );
        }
        let soil_taken = self.cited(self.work.notes.thrust.soils.get(usize::from(row)), text);
        let trench = image.trench(soil.trench);
        let factors = [
            trench.light,
            trench.bedded,
            trench.granular,
            trench.compacted,
        ];
        let of = Trench::ALL.iter().zip(factors);
        let laid = match self.work.args.trench {
            Some(told) => Trench::from(told),
            None => of
                .clone()
                .find(|(_, factor)| *factor > 0)
                .map_or(Trench::Light, |(one, _)| *one),
        };
        let factor = of.into_iter().find(|(one, _)| **one == laid);
        let text = format!(
            "trench {} (type {}), bearing factor {}{}",
            laid.key(),
            laid as u8,
            factor.map_or(0.0, |(_, factor)| hundredths(factor)),
            if self.work.args.trench.is_none() {
                "; not told: the poorest of this soil"
            } else {
                ""
            }
        );
        let cited = self
            .work
            .notes
            .thrust
            .trenches
            .get(usize::from(soil.trench));
        [soil_taken, self.cited(cited, text)]
    }

    /// The form of the length.
    fn form(&self) -> Taken {
        let memory = |text: &str| Taken {
            text: text.to_owned(),
            sources: vec![String::from("memory"), String::from("city-pvc")],
            grade: Some(Grade::Memory),
        };
        match self.answer.fitting {
            FittingArg::Bend => Taken {
                text: String::from(
                    "length = factor x P x A x tan(angle/2) / (friction + bearing/2)",
                ),
                sources: vec![String::from("etl-446"), String::from("buried-pipe")],
                grade: Some(Grade::TwoSources),
            },
            FittingArg::BendUp => memory(
                "length = factor x P x A x tan(angle/2) / (friction + bearing/2), as of a level bend",
            ),
            FittingArg::BendDown => {
                memory("length = factor x P x A x tan(angle/2) / friction: nothing bears above it")
            }
            FittingArg::Offset => {
                memory("each bend by itself; the upper of a drop without bearing")
            }
            FittingArg::Tee => memory(
                "length = (factor x P x A of the branch - bearing x run held) / friction: the longer of two forms in use",
            ),
            FittingArg::Wye => memory("the branch as a dead end, with no help of the run"),
            FittingArg::EvenWye => memory(
                "each branch as a dead end; the run by what they do not push back, factor x P x (A - 2 x a x cos(between/2)) / friction: the sum of what pushes on the three mouths",
            ),
            FittingArg::Reducer => memory("length = factor x P x (A - a) / friction"),
            FittingArg::DeadEnd | FittingArg::Valve => memory("length = factor x P x A / friction"),
        }
    }
}

fn practice(text: &str) -> Taken {
    Taken {
        text: text.to_owned(),
        sources: vec![String::from("practice")],
        grade: Some(Grade::Practice),
    }
}
