//! How much lubricant, cement and primer the joints take.

use anyhow::Result;

use crate::assemble::MadeArg;
use crate::assemble::brief::{figure, makes};
use crate::pick::list::Maker;

impl Maker<'_> {
    /// What fills `{lubricant}`, `{cement}` or `{primer}`, with its sources.
    pub(in crate::pick) fn amount(&self, what: &str) -> Result<(String, Vec<String>)> {
        let blank = || (String::from("how much: by the can"), Vec::new());
        let (kinds, listed): (&[MadeArg], _) = match what {
            "lubricant" => (&[MadeArg::Bell, MadeArg::PushOn], "lubricant"),
            _ => (&[MadeArg::Solvent], "cement"),
        };
        let (mut joints, mut sum) = (0, 0.0);
        let mut sources: Vec<String> = Vec::new();
        let mut bells = false;
        for at in 0..self.built.joints.len() {
            let key = self.end_key(at);
            if !kinds.iter().any(|kind| kind.ends().contains(&key)) {
                continue;
            }
            bells |= MadeArg::Bell.ends().contains(&key);
            let found = self
                .nominal(at)
                .and_then(|size| makes(self.notes, listed, size));
            let Some((each, from)) = found else {
                return Ok(blank());
            };
            joints += 1;
            sum += 1.0 / each;
            for key in from.keys {
                if !sources.contains(&key) {
                    sources.push(key);
                }
            }
        }
        if joints == 0 {
            return Ok(blank());
        }
        let whole = |sum: f64| (sum - 1e-9).ceil();
        let s = if joints == 1 { "" } else { "s" };
        let text = match what {
            "lubricant" => {
                let mud = whole(sum * figure(self.notes, "mud")?);
                let iron = if bells { ", by iron's figure" } else { "" };
                format!(
                    "{} lb for {joints} joint{s}{iron}, {mud} lb in mud",
                    whole(sum)
                )
            }
            "primer" => {
                let times = figure(self.notes, "primer-joints")?;
                format!("{} qt for {joints} joint{s}", whole(sum / times))
            }
            _ => format!("{} qt for {joints} joint{s}", whole(sum)),
        };
        Ok((text, sources))
    }
}
