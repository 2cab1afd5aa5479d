//! An end as it is typed: `FAMILY:SIZE`, and in any order its class, its form, `free` or `fixed`.

use anyhow::{Result, anyhow, bail};
use clap::ValueEnum;
use springline_compiler::notes::Notes;
use springline_core::image::Image;
use springline_core::joint::tie::TieEnd;

use super::super::known::Known;
use super::super::sheet::form_words;
use crate::cli::{EndArg, FitsArgs, TieArgs};
use crate::format;
use crate::parse::Unit;

/// What may stand behind family and size.
const WORDS: &str = "a class as printed; plain-square, plain-bevelled, belled, grooved, threaded, flanged; free, fixed";

/// An end that the tables know.
pub(crate) struct End {
    pub(crate) known: Known,
    pub(crate) fixed: bool,
    /// Nobody said whether it can be moved.
    pub(crate) taken: bool,
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
        for word in words {
            let plain = word.to_ascii_lowercase();
            let shape = match plain.as_str() {
                "plain" | "square" => Some(EndArg::PlainSquare),
                "bevelled" => Some(EndArg::PlainBevelled),
                "bell" => Some(EndArg::Belled),
                "flange" => Some(EndArg::Flanged),
                _ => EndArg::from_str(&plain, false).ok(),
            };
            let twice = match (plain.as_str(), shape) {
                ("free", _) => fixed.replace(false).is_some(),
                ("fixed", _) => fixed.replace(true).is_some(),
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
            range: None,
            why: args.why,
            json: args.json,
            units: args.units,
        };
        let known = Known::find(image, notes, &asked).map_err(|error| {
            let said = error.to_string().replace("--class", ":CLASS behind the size");
            let more = if asked.class.is_some() && said.starts_with("no class") {
                "\n  or free, fixed, or how the end looks: plain-square, plain-bevelled, belled, grooved, threaded, flanged"
            } else {
                ""
            };
            anyhow!("{text}: {said}{more}")
        })?;
        Ok(Self {
            known,
            fixed: fixed.unwrap_or(true),
            taken: fixed.is_none(),
        })
    }

    /// What the core is asked.
    pub(crate) const fn tie(&self) -> TieEnd {
        TieEnd {
            pipe: self.known.pipe,
            fixed: self.fixed,
        }
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
        let system = if known.name.starts_with(&known.system) {
            String::new()
        } else {
            format!(", {}", known.system)
        };
        let moves = match (self.fixed, self.taken) {
            (true, true) => "taken as fixed",
            (true, false) => "fixed",
            (false, _) => "free to move along its line",
        };
        let print = known.print();
        format!(
            "{}{print}{system}, OD {}; {}; {moves}",
            self.name(),
            format::length(known.od(), unit),
            form_words(known.pipe.form)
        )
    }
}
