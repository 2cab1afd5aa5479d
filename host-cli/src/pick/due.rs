//! Which lines of the tables are due, and how often.

use springline_compiler::jobs::{Circumstance, Count};
use springline_compiler::notes::{ConditionNote, TriggerNote};
use springline_core::image::{Image, Material};

use super::built::{Built, Pipes};
use super::site::Site;

/// What lines are held against.
pub(super) struct Case<'a> {
    pub(super) image: &'a Image<'a>,
    pub(super) pipes: &'a Pipes,
    pub(super) built: &'a Built,
    pub(super) site: &'a Site,
    /// The job, an index.
    pub(super) job: u16,
    pub(super) cold_f: f64,
    /// How long a stick of the first pipe is, feet.
    pub(super) stick_ft: Option<f64>,
    /// Spacers and joints of a carrier.
    pub(super) spacers: u32,
    pub(super) carrier_joints: u32,
}

/// What a line was due for.
#[derive(Default)]
pub(super) struct Met {
    /// Joints that it hangs on; all where it hangs on none.
    pub(super) joints: Vec<usize>,
}

impl Case<'_> {
    /// Whether a line is due: the joints of every trigger that holds, each once.
    pub(super) fn met(&self, triggers: &[Vec<TriggerNote>]) -> Option<Met> {
        let mut met: Option<Met> = None;
        for all in triggers {
            let found: Vec<usize> = (0..self.built.joints.len())
                .filter(|joint| all.iter().all(|one| self.holds(one, *joint)))
                .collect();
            if found.is_empty() {
                continue;
            }
            let met = met.get_or_insert_default();
            for joint in found {
                if !met.joints.contains(&joint) {
                    met.joints.push(joint);
                }
            }
        }
        met
    }

    fn holds(&self, trigger: &TriggerNote, at: usize) -> bool {
        let Some(joint) = self.built.joints.get(at) else {
            return false;
        };
        let put = self.built.parts.get(joint.part);
        let row = joint
            .on
            .and_then(|on| self.pipes.pipe(on))
            .map(|pipe| pipe.row);
        match *trigger {
            TriggerNote::Joint(condition) => match condition {
                ConditionNote::Always => true,
                ConditionNote::Act(code) => put.is_some_and(|put| put.act as u8 == code),
                ConditionNote::Ends(ends) => ends >> (joint.end & 63) & 1 == 1,
                ConditionNote::Material(code) => {
                    row.is_some_and(|row| self.image.family(row.family).material == code)
                }
                ConditionNote::Carries(code) => {
                    row.is_some_and(|row| self.image.family(row.family).carries == code)
                }
                ConditionNote::System(code) => row.is_some_and(|row| row.system == code),
                ConditionNote::Task(code) => {
                    put.is_some_and(|put| self.image.part(put.part).tasks >> code & 1 == 1)
                }
                ConditionNote::Owner(code) => {
                    springline_core::joint::Owner::from(self.site.owner) as u8 == code
                }
            },
            TriggerNote::Family(family) => row.is_some_and(|row| row.family == family),
            TriggerNote::Part(part) => put.is_some_and(|put| put.part == part),
            TriggerNote::Run(run) => put.is_some_and(|put| {
                self.image
                    .part(put.part)
                    .run()
                    .is_some_and(|own| own as u8 == run)
            }),
            TriggerNote::Job(job) => job == self.job,
            TriggerNote::Said(said) => self.said(said),
        }
    }

    /// Whether it was said, or follows from pipes and parts.
    pub(super) fn said(&self, said: Circumstance) -> bool {
        if let Some(told) = self.site.said(said, self.cold_f) {
            return told;
        }
        let pipes = self.pipes;
        let material = |end: &crate::fits::tie::end::End| {
            self.image.family(end.known.pipe.row.family).material
        };
        let mut all = vec![&pipes.a, &pipes.b];
        all.extend(pipes.c.as_ref());
        all.extend(pipes.k.as_ref());
        match said {
            Circumstance::Shrinks => {
                let pe = |end: &&crate::fits::tie::end::End| {
                    Material::from_code(material(end)) == Some(Material::Pe)
                };
                let some = all.iter().any(pe);
                // Beyond the job there are bells in any line that is not fused from end to end.
                some && !all.iter().all(pe)
            }
            Circumstance::TwoOds => all
                .iter()
                .any(|end| end.known.pipe.row.od != pipes.a.known.pipe.row.od),
            Circumstance::TwoMaterials => all.iter().any(|end| material(end) != material(&pipes.a)),
            Circumstance::ClassUnknown => {
                pipes.a.known.class.is_none() && pipes.a.known.classes.len() > 1
            }
            Circumstance::Piece => !self.built.pieces.is_empty(),
            Circumstance::ValveNear => match (self.site.valve, self.stick_ft) {
                (Some(valve), Some(stick)) => valve.in_feet() < stick,
                _ => false,
            },
            Circumstance::Branch => pipes.c.is_some(),
            Circumstance::NoBranch => pipes.c.is_none(),
            Circumstance::LargeOutlet => is_large(self.site),
            Circumstance::SmallOutlet => !is_large(self.site),
            // The rest was said or was not.
            _ => false,
        }
    }

    /// How many of it.
    pub(super) fn count(&self, quantity: (u16, Count), met: &Met) -> u32 {
        let (times, of) = quantity;
        let whole = |count: usize| u32::try_from(count).unwrap_or(u32::MAX);
        let each = match of {
            Count::Job => 1,
            Count::Joint => whole(met.joints.len()),
            Count::Part => whole(self.parts(met).len()),
            Count::Cut => self.built.cuts,
            Count::Wire => self.site.wires.map_or(0, u32::from),
            Count::Valve => self.site.valves.map_or(1, u32::from),
            Count::Spacer => self.spacers,
            Count::CarrierJoint => self.carrier_joints,
        };
        u32::from(times).saturating_mul(each)
    }

    /// The parts that a line hangs on, each once.
    pub(super) fn parts(&self, met: &Met) -> Vec<usize> {
        let mut parts: Vec<usize> = Vec::new();
        for joint in met
            .joints
            .iter()
            .filter_map(|at| self.built.joints.get(*at))
        {
            if !parts.contains(&joint.part) {
                parts.push(joint.part);
            }
        }
        parts
    }
}

/// An outlet above 2 in has no thread that saddles or tap tees are made with.
pub(super) fn is_large(site: &Site) -> bool {
    let outlet = site.outlet.as_deref().and_then(sixty_fourths);
    outlet.is_some_and(|outlet| outlet > 160)
}

/// `1-1/2` as sixty-fourths of an inch.
pub(super) fn sixty_fourths(size: &str) -> Option<u16> {
    let (whole, part) = match size.split_once('-') {
        Some((whole, part)) => (whole.parse::<u16>().ok()?, part),
        None if size.contains('/') => (0, size),
        None => return size.parse::<u16>().ok()?.checked_mul(64),
    };
    let (top, bottom) = part.split_once('/')?;
    let (top, bottom) = (top.parse::<u16>().ok()?, bottom.parse::<u16>().ok()?);
    if bottom == 0 || 64 % bottom != 0 || top >= bottom {
        return None;
    }
    whole.checked_mul(64)?.checked_add(top * (64 / bottom))
}

#[cfg(test)]
mod tests {
    use super::sixty_fourths;

    #[test]
    fn outlets_in_sixty_fourths() {
        for (text, size) in [
            ("3/4", 48),
            ("1", 64),
            ("1-1/2", 96),
            ("2-1/2", 160),
            ("6", 384),
        ] {
            assert_eq!(sixty_fourths(text), Some(size), "{text}");
        }
        for text in ["", "x", "1/0", "1-", "1-3/2", "1/3", "-1", "99999"] {
            assert_eq!(sixty_fourths(text), None, "{text}");
        }
    }
}
