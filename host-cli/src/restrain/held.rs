//! What restrains each kind of joint that the answer names.

use springline_compiler::notes::Notes;
use springline_core::image::{Grade, Image, Listing, Material};
use springline_core::joint::{Form, Use, Verdict, best, forbidden, holders};

use super::args::JointsArg;
use crate::fits::known::Known;
use crate::fits::sheet::keys;

/// Something that restrains a joint, or must not.
pub(super) struct Holder {
    pub(super) key: String,
    pub(super) name: String,
    pub(super) remark: String,
    /// Only by leave.
    pub(super) ask: bool,
    /// The joint holds itself.
    pub(super) itself: bool,
    pub(super) sources: Vec<String>,
    pub(super) grade: Option<Grade>,
}

/// A kind of joint of the line.
pub(super) struct JointHeld {
    /// Index and key of the end.
    pub(super) end: u8,
    pub(super) key: String,
    /// `MJ transition gasket`.
    pub(super) name: String,
    /// It is what sticks are joined by, and not the fitting.
    pub(super) bell: bool,
    pub(super) holds: Vec<Holder>,
    pub(super) never: Vec<Holder>,
}

/// Whether an end is one that sticks of this pipe are joined by, or one that fittings have; `None` where neither.
fn place(key: &str, joints: JointsArg, material: Material) -> Option<bool> {
    let own = match joints {
        JointsArg::Solvent => key == "solvent-40" || key == "solvent-pip",
        JointsArg::Welded => key == "weld",
        JointsArg::Fused => key.starts_with("butt-"),
        JointsArg::Gasket => false,
    };
    // Where the joints hold themselves, the first that does not carries it all, and is told, too.
    match key {
        "mj" | "mj-transition" => Some(false),
        "push-ciod" if material == Material::Iron => Some(true),
        "grooved-ips" if material == Material::Steel => Some(true),
        "bell-ips" | "bell-ciod" | "bell-pip" if material == Material::Pvc => Some(true),
        _ => own.then_some(true),
    }
}

/// The joints of a pipe, those of the fitting first.
pub(super) fn joints(
    image: &Image<'_>,
    notes: &Notes,
    known: &Known,
    joints: JointsArg,
) -> Vec<JointHeld> {
    let pipe = &known.pipe;
    let material = Material::from_code(image.family(pipe.row.family).material);
    let Some(material) = material else {
        return Vec::new();
    };
    let holder = |(at, one): (u8, Listing)| {
        let note = notes.joints.restraints.get(usize::from(at));
        Holder {
            key: note.map_or(String::new(), |(key, _)| key.clone()),
            name: image.phrase(one.name).to_string(),
            remark: image.phrase(one.remark).to_string(),
            ask: one.of() == Some(Use::Refer),
            itself: one.of() == Some(Use::Itself),
            sources: keys(notes, note.map(|(_, cited)| cited)),
            grade: note.and_then(|(_, cited)| Grade::from_code(cited.grade)),
        }
    };
    let mut found: Vec<JointHeld> = Vec::new();
    for (end, key) in (0u8..).zip(&notes.joints.ends) {
        let Some(bell) = place(key, joints, material) else {
            continue;
        };
        let form = if bell {
            Form::PlainBevelled
        } else {
            Form::PlainSquare
        };
        let seals = best(image, &pipe.row, pipe.variants, form, end);
        if seals.is_none_or(|best| best.sealing.verdict > Verdict::FitsWith) {
            continue;
        }
        found.push(JointHeld {
            end,
            key: key.clone(),
            name: image.phrase(image.joint_end(end).name).to_string(),
            bell,
            holds: holders(image, pipe.row, pipe.variants, end)
                .map(holder)
                .collect(),
            never: forbidden(image, pipe.row, pipe.variants, end)
                .map(holder)
                .collect(),
        });
    }
    found.sort_by_key(|one| one.bell);
    found
}
