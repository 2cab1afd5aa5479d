//! Two ends that go together with no part between them: flange on flange, a spigot in the bell of the other, HDPE fused to HDPE.
//! One of them must be brought up to the other.

use super::chain::{Chain, Direct, On, TieEnd};
use super::cost::{ANCHOR, JOINT};
use super::rules::Rules;
use super::seat::{Seat, seat};
use crate::image::{Image, JointEnd, Material};
use crate::joint::{Form, Pipe, Verdict, best};

/// The cheapest such joint.
pub(super) fn direct(image: &Image<'_>, ends: &[TieEnd; 2], rules: Rules) -> Option<Chain> {
    let [first, second] = ends.map(|end| image.measure(end.pipe.row.size));
    if rules.closing || rules.site.lie.bends > 0 || first != second {
        return None;
    }
    let into = |at: u8, bell: On, spigot: On| {
        let end = own_bell(image, &bell.pipe(ends)?)?;
        let seat = seat(image, ends, spigot, end, rules)?;
        Some(made(seat, Direct::Bell(at, end)))
    };
    let all = [
        bolted(image, ends),
        into(0, On::First, On::Second),
        into(1, On::Second, On::First),
        fused(image, ends, rules),
    ];
    all.into_iter().flatten().min_by_key(|chain| chain.cost)
}

fn made(seat: Seat, direct: Direct) -> Chain {
    let anchor = if seat.loose { ANCHOR } else { 0 };
    Chain {
        cost: seat.cost + anchor,
        loose: u8::from(seat.loose),
        dry: u8::from(seat.dry),
        late: u8::from(seat.late),
        direct: Some(direct),
        ..Chain::default()
    }
}

/// Two flanges of one drilling.
fn bolted(image: &Image<'_>, ends: &[TieEnd; 2]) -> Option<Chain> {
    let [one, other] = ends;
    let takes = |end: &TieEnd| {
        let pipe = end.pipe;
        let found = best(image, &pipe.row, pipe.variants, pipe.form, end.flange);
        let flange = image.joint_end(end.flange).by == JointEnd::FLANGE;
        let seals = found.is_some_and(|best| best.sealing.verdict <= Verdict::FitsWith);
        pipe.form == Form::Flanged && flange && seals
    };
    let meet = one.flange == other.flange && takes(one) && takes(other);
    meet.then_some(Chain {
        cost: JOINT,
        direct: Some(Direct::Flanges),
        ..Chain::default()
    })
}

/// The bell that such pipe comes with, where its end is one: the first that it fits as it comes.
fn own_bell(image: &Image<'_>, pipe: &Pipe) -> Option<u8> {
    if pipe.form != Form::Belled {
        return None;
    }
    let mut all = (0u8..).zip(image.joint_ends());
    all.find_map(|(at, end)| {
        let form = Form::PlainBevelled;
        let found = best(image, &pipe.row, pipe.variants, form, at)?;
        (end.is_bell() && found.sealing.verdict == Verdict::Fits).then_some(at)
    })
}

/// Two pipes of PE of one row and one class, as far as that is known.
fn fused(image: &Image<'_>, ends: &[TieEnd; 2], rules: Rules) -> Option<Chain> {
    let [one, other] = ends;
    let material = Material::from_code(image.family(one.pipe.row.family).material);
    let unlike = one.class.zip(other.class).is_some_and(|(a, b)| a != b);
    if material != Some(Material::Pe) || one.pipe.row != other.pipe.row || unlike {
        return None;
    }
    // The first end that is fused and of its OD system: face to face.
    let mut all = (0u8..).zip(image.joint_ends());
    let (end, _) =
        all.find(|(_, end)| end.is_dry() && !end.cures() && end.by == one.pipe.row.system)?;
    let both = [On::First, On::Second].map(|on| seat(image, ends, on, end, rules));
    let [Some(near), Some(far)] = both else {
        return None;
    };
    let slowest = if near.cost < far.cost { far } else { near };
    Some(made(slowest, Direct::Fused(end)))
}
