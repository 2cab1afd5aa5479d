//! Bolts of a joint, as `bolts` says them.

use anyhow::Result;
use springline_core::assembly::{Drilling, Nominal, flange};
use springline_core::image::{Grade, JointEnd, Material};

use super::{Figure, units};
use crate::bolts::BoltsArgs;
use crate::bolts::brief::{Brief, brief};
use crate::bolts::words;
use crate::pick::list::Maker;
use crate::share::typed;

/// Joint ends that are bolted as a mechanical joint is.
const MECHANICAL: [&str; 3] = ["mj", "mj-transition", "turning"];

impl Maker<'_> {
    /// Bolts, wrench, torque and order of a joint; nothing where it has no bolts of its own.
    pub(super) fn bolts(&self, at: usize) -> Result<Vec<Figure>> {
        let Some(joint) = self.built.joints.get(at) else {
            return Ok(Vec::new());
        };
        let end = self.end_key(at);
        let flanged = self.image.joint_end(joint.end).by == JointEnd::FLANGE;
        if !flanged && !MECHANICAL.contains(&end) {
            let packed = self.notes.joints.made.get(usize::from(joint.end));
            let packed = packed.is_some_and(|made| !made.pack.is_empty());
            let text = "those of its own pack, by its tag: count them at the counter.";
            return Ok(packed
                .then(|| Figure::ask("bolts", text))
                .into_iter()
                .collect());
        }
        let size = if let Some(pipe) = self.on(at) {
            pipe.known.nominal.clone()
        } else {
            let sizes = &self.built.parts[joint.part].sizes;
            let size = sizes.first().map_or("", String::as_str);
            size.trim_end_matches(" in").to_owned()
        };
        let mut asked = vec![String::new(), size, units(self.site)];
        let mut before = String::new();
        if flanged {
            asked[0] = String::from("flange");
            asked.extend(self.site.shared.words(&["gasket", "bolts"]));
            if end == "flange-250" {
                asked.push(String::from("--class=250"));
            }
            let Some([one, other]) = self.bodies(at) else {
                return Ok(vec![self.no_body(&asked[1])]);
            };
            asked.push(format!("--flanges={one},{other}"));
            before = format!("flanges taken as {one} on {other}: ");
        } else {
            asked[0] = String::from("mj");
            if self.brings_bolts(at) {
                asked.push(String::from("--restraint"));
            }
        }
        Ok(
            match brief(self.image, self.notes, &typed::<BoltsArgs>(&asked)?) {
                Ok(found) => figures(&found, &before),
                Err(none) => {
                    let why = none.to_string();
                    let why = why.split('\n').next().unwrap_or_default().to_owned();
                    vec![Figure::ask(
                        "bolts",
                        format!("{why}: count what is in the box, and measure."),
                    )]
                }
            },
        )
    }

    /// Whether the restraint on this joint is its gland or clamps behind it, so that the pack's bolts may be too short.
    fn brings_bolts(&self, at: usize) -> bool {
        let note = self.bought(at);
        note.is_some_and(|note| !note.across)
    }

    /// What the two flanges of a joint are made of, as `bolts` takes it; none where a part does not say.
    fn bodies(&self, at: usize) -> Option<[&'static str; 2]> {
        let joint = self.built.joints.get(at)?;
        let own = body(self.key(joint.part))?;
        let other = match (joint.with, self.on(at)) {
            (Some(with), _) => body(self.key(with))?,
            (None, Some(pipe)) => {
                let family = self.image.family(pipe.known.pipe.row.family);
                match Material::from_code(family.material)? {
                    Material::Iron => "iron",
                    Material::Steel => "steel",
                    Material::Pvc => "pvc",
                    Material::Pe => "hdpe",
                    _ => return None,
                }
            }
            (None, None) => return None,
        };
        Some([own, other])
    }

    /// Bolts of a flange of unknown material: how many and how thick, and no more.
    fn no_body(&self, size: &str) -> Figure {
        let set = springline_compiler::model::NominalSize::parse(size).and_then(|size| {
            let springline_compiler::model::NominalSize::Inch(parts) = size else {
                return None;
            };
            let size = Nominal::of_measure(u16::try_from(parts).ok()?)?;
            flange(self.image, size, Drilling::Class125)
        });
        let Some(set) = set else {
            return Figure::ask("bolts", "no such flange in the tables: count, and measure.");
        };
        Figure::ask(
            "bolts",
            format!(
                "{} bolts of {} (class 125/150). What the made-up flange is made of is not known here: ask; length by both flanges as they measure, torque by the weaker one's maker.",
                set.bolts,
                words::bought(set.bolt, self.site.unit)
            ),
        )
    }
}

/// What the flange of a part is made of; none where it is made up and may be of anything.
fn body(key: &str) -> Option<&'static str> {
    Some(match key {
        "flange-glued" | "flange-loose" => "pvc",
        "flange-fuse-ips" | "flange-fuse-dips" => "hdpe",
        "flange-weld" | "flange-thread" | "flange-groove" => "steel",
        "adapter-pip" | "spool-ff" => return None,
        _ => "iron",
    })
}

fn figures(found: &Brief, before: &str) -> Vec<Figure> {
    found
        .lines
        .iter()
        .map(|(key, text)| {
            let text = if *key == "bolts" {
                format!("{before}{text}")
            } else {
                text.clone()
            };
            // A wrench is recalled, whatever its bolts stand on.
            let (sources, grade) = match *key {
                "wrench" => (Vec::new(), Grade::Memory),
                _ => (found.sources.clone(), found.grade),
            };
            let mut figure = Figure::new(key, text, sources, grade);
            figure.known = *key != "torque" || found.known;
            figure.each = if *key == "bolts" { found.each } else { 0 };
            figure
        })
        .collect()
}
