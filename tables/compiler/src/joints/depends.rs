//! What still depends on the family when the purchase does not.

use std::fmt::Write;

use super::Joints;
use super::groups::{Groups, Pipe};
use crate::model::Sources;
use springline_core::joint::{Job, Verdict};

/// What depends.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Subject {
    /// A joint end: index into [`Joints::ends`].
    End(usize),
    /// What holds the joints.
    Restraint,
    /// A length of the pipe.
    Length,
}

/// One thing that depends on which family of a group a pipe is of.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Dependence {
    /// What depends.
    pub subject: Subject,
    /// What people read: the families by what goes for them.
    pub text: String,
}

/// What still depends on the family inside a group: ends that seal on one family and not, or otherwise, on another, then
/// restraint, then the pipe itself. Empty where one family is left.
#[must_use]
pub fn depends(
    joints: &Joints,
    sources: &Sources,
    groups: &Groups,
    job: Job,
    group: u16,
) -> Vec<Dependence> {
    let mut pipes: Vec<Pipe> = Vec::new();
    for (family, row) in groups.rows(job, group) {
        if !pipes.iter().any(|pipe| pipe.family == family) {
            pipes.push(Pipe::of(joints, sources, family, row));
        }
    }
    if pipes.len() < 2 {
        return Vec::new();
    }
    let name = |pipe: &Pipe| sources.families[pipe.family].name.clone();
    let mut found = Vec::new();
    for (index, end) in joints.ends.iter().enumerate() {
        let parted = part(&pipes, |pipe| pipe.best(joints, index));
        // Where none can be bought, a no and a referral are alike.
        let bought = parted
            .iter()
            .any(|((verdict, _), _)| *verdict < Verdict::Refer);
        let told_by_verdict = part(&pipes, |pipe| pipe.best(joints, index).0).len() == parted.len();
        if parted.len() > 1 && bought {
            let words = parted.iter().map(|((verdict, need), of)| {
                let by_verdict = told_by_verdict || need.is_empty();
                (if by_verdict { verdict.key() } else { need }, of)
            });
            found.push(Dependence {
                subject: Subject::End(index),
                text: sentence(&end.name, words, name),
            });
        }
    }
    let restraints = part(&pipes, |pipe| {
        let material = sources.families[pipe.family].material as u8;
        (material, pipe.restraints(joints))
    });
    if restraints.len() > 1 {
        let words = restraints.iter().map(|((_, kinds), of)| {
            let first = kinds
                .first()
                .map(|kind| joints.restraints[*kind].name.as_str());
            (first.unwrap_or("none"), of)
        });
        found.push(Dependence {
            subject: Subject::Restraint,
            text: sentence("restraint", words, name),
        });
    }
    let each = part(&pipes, |pipe| pipe.family);
    found.push(Dependence {
        subject: Subject::Length,
        text: sentence("pipe", each.iter().map(|(_, of)| ("", of)), name),
    });
    found
}

/// Pipes by what they have in common, in the order of the first of each.
fn part<K: PartialEq>(pipes: &[Pipe], key: impl Fn(&Pipe) -> K) -> Vec<(K, Vec<Pipe>)> {
    let mut parted: Vec<(K, Vec<Pipe>)> = Vec::new();
    for pipe in pipes {
        let key = key(pipe);
        match parted.iter_mut().find(|(held, _)| *held == key) {
            Some((_, of)) => of.push(*pipe),
            None => parted.push((key, vec![*pipe])),
        }
    }
    parted
}

/// `flange: fits on steel; no on copper tube`.
fn sentence<'p>(
    subject: &str,
    words: impl Iterator<Item = (&'p str, &'p Vec<Pipe>)>,
    name: impl Fn(&Pipe) -> String,
) -> String {
    let mut text = format!("{subject}:");
    for (index, (word, pipes)) in words.enumerate() {
        let names: Vec<String> = pipes.iter().map(&name).collect();
        let separator = if index == 0 { " " } else { "; " };
        let on = if word.is_empty() { "" } else { " on " };
        let _ = write!(text, "{separator}{word}{on}{}", names.join(", "));
    }
    text
}
