//! An end as it is typed: `FAMILY:SIZE`, and in any order its class, its form, `free` or `fixed`.

use anyhow::{Result, anyhow, bail};
use clap::ValueEnum;
use springline_compiler::notes::Notes;
use springline_core::image::{Image, Part};
use springline_core::joint::Form;
use springline_core::joint::tie::TieEnd;

use super::super::known::Known;
use super::super::sheet::form_words;
use crate::cli::{EndArg, FitsArgs, TieArgs};
use crate::format;
use crate::parse::Unit;

/// What may stand behind family and size.
const WORDS: &str = "a class as printed; plain-square, plain-bevelled, belled, grooved, threaded, flanged, flanged-250; free, fixed; keep, for what is on it and stays";

/// An end that the tables know.
pub(crate) struct End {
    pub(crate) known: Known,
    pub(crate) fixed: bool,
    /// Nobody said whether it can be moved.
    pub(crate) taken: bool,
    /// Its flange is of class 250.
    pub(super) heavy: bool,
    tie: TieEnd,
}

impl End {
    /// Reads one.
    pub(crate) fn parse(
        image: &Image<'_>,
        notes: &Notes,
        text: &str,
        args: &TieArgs,
    ) -> Result<Self> {
        let mut words = text.split(':').map(str::trim);
        let (Some(family), Some(size)) = (words.next(), words.next()) else {
            bail!(
                "\"{text}\" is no pipe end\n  try: FAMILY:SIZE, as c900:8, and behind it {WORDS}"
            );
        };
        let (mut class, mut form, mut fixed) = (None, None, None);
        let (mut heavy, mut keep) = (false, false);
        for word in words {
            let plain = word.to_ascii_lowercase();
            let shape = match plain.as_str() {
                "plain" | "square" => Some(EndArg::PlainSquare),
                "bevelled" => Some(EndArg::PlainBevelled),
                "bell" => Some(EndArg::Belled),
                "flange" | "flanged-125" | "flange-125" => Some(EndArg::Flanged),
                "flanged-250" | "flange-250" => {
                    heavy = true;
                    Some(EndArg::Flanged)
                }
                _ => EndArg::from_str(&plain, false).ok(),
            };
            let twice = match (plain.as_str(), shape) {
                ("free", _) => fixed.replace(false).is_some(),
                ("fixed", _) => fixed.replace(true).is_some(),
                ("keep", _) => std::mem::replace(&mut keep, true),
                (_, Some(shape)) => form.replace(shape).is_some(),
                ("", None) => bail!("nothing between two colons of \"{text}\"\n  try: {WORDS}"),
                (_, None) => class.replace(word.to_owned()).is_some(),
            };
            if twice {
                bail!(
                    "\"{word}\" in \"{text}\" says for the second time what was said\n  try one of each: {WORDS}"
                );
            }
        }
        let asked = FitsArgs {
            family: family.to_owned(),
            size: size.to_owned(),
            class,
            end: form.unwrap_or(EndArg::PlainSquare),
            job: None,
            owner: args.owner,
            part: None,
            outlet: None,
            angle: None,
            range: None,
            why: args.why,
            json: args.json,
            units: args.units,
        };
        let known = Known::find(image, notes, &asked).map_err(|error| {
            let said = error.to_string().replace("--class", ":CLASS behind the size");
            let more = if asked.class.is_some() && said.starts_with("no class") {
                "\n  or free, fixed, or how the end looks: plain-square, plain-bevelled, belled, grooved, threaded, flanged, flanged-250; or keep"
            } else {
                ""
            };
            anyhow!("{text}: {said}{more}")
        })?;
        let key = if heavy { "flange-250" } else { "flange" };
        let flange = notes.joints.ends.iter().position(|end| end == key);
        let label = |class: &str| {
            let mut all = image.classes(&known.pipe.row);
            all.find(|one| image.label(one.label) == class)
        };
        let class = known.class.as_deref().and_then(label);
        Ok(Self {
            tie: TieEnd {
                pipe: known.pipe,
                fixed: fixed.unwrap_or(true),
                flange: flange
                    .and_then(|at| u8::try_from(at).ok())
                    .unwrap_or(Part::NO_END),
                // One of class 250 is on a valve or a pump.
                keep: keep || heavy,
                class: class.map(|class| class.label),
            },
            heavy,
            known,
            fixed: fixed.unwrap_or(true),
            taken: fixed.is_none(),
        })
    }

    /// What the core is asked.
    pub(crate) const fn tie(&self) -> TieEnd {
        self.tie
    }

    /// `8 in C900 PVC DR 18`.
    pub(crate) fn name(&self) -> String {
        let class = self.known.class.as_ref();
        let class = class.map_or(String::new(), |class| format!(" {class}"));
        format!("{} {}{class}", self.known.size(), self.known.name)
    }

    /// The same with OD, form and whether it moves.
    pub(crate) fn in_full(&self, unit: Unit) -> String {
        let known = &self.known;
        let system = known.system_beside();
        let moves = match (self.fixed, self.taken) {
            (true, true) => "taken as fixed",
            (true, false) => "fixed",
            (false, _) => "free to move along its line",
        };
        let print = known.print();
        let drilled = match (known.pipe.form, self.heavy) {
            (Form::Flanged, true) => ", class 250/300, which stays",
            (Form::Flanged, false) if self.tie.keep => ", class 125/150, which stays",
            (Form::Flanged, false) => ", class 125/150",
            (Form::Threaded | Form::Belled, _) if self.tie.keep => ", which stays",
            _ => "",
        };
        format!(
            "{}{print}{system}, OD {}; {}{drilled}; {moves}",
            self.name(),
            format::length(known.od(), unit),
            form_words(known.pipe.form)
        )
    }
}
