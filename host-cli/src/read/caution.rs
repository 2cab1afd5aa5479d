//! What could hurt someone, as far as diameters alone can tell: the stop, and the cautions that travel with an answer.

use springline_core::image::{Carries, Material};

use super::finding::{Finding, fraction, q32};

/// Always last, because it is true of every trench.
const ALWAYS: &str = "Locate (private lines too), prove it dead; competent person and code decide.";

const GAS: &str = "GAS: this may be fuel gas pipe. Do not cut, tap or strike it; keep flame away and call the gas utility.";

const CEMENT: &str = "ASBESTOS-CEMENT can be this size: its turned end shares the C900/DI sizes. Do not cut, file, scratch or tap \
                      unless plastic or iron is confirmed; in doubt stop, and ask who is licensed for it.";

const CEMENT_STOP: &str = "ASBESTOS-CEMENT is not ruled out. Stop: no cutting, filing, scratching or tapping unless plastic or iron is \
                           confirmed. Ask the owner, and who is licensed for asbestos-cement.";

impl Finding<'_> {
    /// Sets the stop and the cautions, the worst first.
    pub(super) fn warn(&mut self) {
        let (gas, cement) = (self.answer.stop.gas, self.answer.stop.cement);
        self.stop = gas || cement;
        let mut cautions = Vec::new();
        if gas {
            cautions.push(GAS.to_owned());
        }
        if cement {
            cautions.push(CEMENT_STOP.to_owned());
        } else if self.may_be_cement() {
            cautions.push(CEMENT.to_owned());
        }
        cautions.extend(self.contents());
        cautions.push(ALWAYS.to_owned());
        self.cautions = cautions;
    }

    /// Whether asbestos-cement, all its sizes together, holds the share from which it is warned of.
    fn may_be_cement(&self) -> bool {
        fraction(self.answer.hazards.cement.q30()) >= q32(self.image.settings().cement_warning)
    }

    /// That an OD does not prove what is inside, where something other than water may be.
    fn contents(&self) -> Option<String> {
        let mut dry: Vec<&str> = Vec::new();
        for pipe in &self.pipes {
            if pipe.carries != Some(Carries::Water) && !dry.contains(&pipe.name) {
                dry.push(pipe.name);
            }
        }
        let steel = self
            .pipes
            .iter()
            .any(|pipe| pipe.material == Some(Material::Steel));
        let mut text = "CONTENTS NOT PROVED: an OD does not prove what is inside.".to_owned();
        match (dry.is_empty(), steel) {
            (true, false) => return None,
            (true, true) => text.push_str(" Steel carries gas and wires too."),
            (false, steel) => {
                text.push_str(" Not for water, and possible here: ");
                text.push_str(&dry.join(", "));
                text.push_str(if steel {
                    "; steel carries gas too."
                } else {
                    "."
                });
            }
        }
        Some(text)
    }
}
