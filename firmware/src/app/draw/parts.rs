//! What else it could be; what fits and what holds it.

use springline_core::identify::{Candidate, Outcome, Weight};
use springline_core::image::{Carries, Grade, Material, Row};
use springline_core::joint::{Form, Role, Verdict, best, restraints};

use super::answer::{is_inch, size_and_system, sure};
use super::pager::Pager;
use super::pen::Pen;
use crate::app::App;
use crate::app::pipe::Pipe;
use crate::app::text::{Line, add, number};

/// Purchases of an answer, that of the likeliest row first.
pub(super) fn groups(pipe: &Pipe) -> impl Iterator<Item = u16> {
    let bought = &pipe.bought;
    bought.iter().enumerate().filter_map(|(at, purchase)| {
        let before = bought.get(..at).unwrap_or(&[]);
        (!before.contains(purchase)).then_some(*purchase)
    })
}

/// The candidates of a purchase.
fn members(pipe: &Pipe, group: u16) -> impl Iterator<Item = &Candidate> {
    let all = pipe.answer.candidates().iter().zip(&pipe.bought);
    all.filter(move |(_, bought)| **bought == group)
        .map(|(candidate, _)| candidate)
}

/// Whether a purchase counts as one of several.
pub(super) fn counts(app: &App<'_>, pipe: &Pipe, group: u16) -> bool {
    let share = members(pipe, group).fold(Weight::ZERO, |sum, one| sum.plus(one.weight));
    share.q30() >= app.image.settings().counted >> 2
}

/// The rows of a purchase that are named: the first, and those that count.
fn rows<'a>(app: &'a App<'_>, pipe: &'a Pipe, group: u16) -> impl Iterator<Item = Row> + 'a {
    let counted = app.image.settings().counted >> 2;
    members(pipe, group)
        .enumerate()
        .filter(move |(at, candidate)| *at == 0 || candidate.weight.q30() >= counted)
        .map(|(_, candidate)| app.image.row(candidate.row))
}

/// The families of a purchase; the size too where it is not that of the first candidate.
pub(super) fn name_group(app: &App<'_>, pipe: &Pipe, group: u16, line: &mut Line) {
    let first = pipe
        .answer
        .candidates()
        .first()
        .map(|candidate| app.image.row(candidate.row));
    for (at, row) in rows(app, pipe, group).enumerate() {
        if at > 0 {
            add(line, " or ");
        }
        add(
            line,
            app.image.packed_text(app.image.family(row.family).name),
        );
        if first.is_none_or(|first| (first.size, first.system) != (row.size, row.system)) {
            let size = app.image.size(row.size);
            add(line, " ");
            add(line, size);
            // In a list the mark of the inch keeps a size in one word.
            add(line, if is_inch(size) { "\"" } else { "" });
        }
    }
}

/// What else it could be.
pub(super) fn others(app: &App<'_>, pipe: &Pipe, page: u8, pen: &mut Pen<'_>) -> u8 {
    let mut pager = Pager::new(pen, page);
    let mut less = false;
    for group in groups(pipe) {
        if !counts(app, pipe, group) && !less {
            less = true;
            pager.heading("less likely");
        }
        let mut name = Line::new();
        name_group(app, pipe, group, &mut name);
        pager.item("- ");
        pager.words(name.split_ascii_whitespace());
    }
    if pipe.answer.outside.q30() >= app.image.settings().counted >> 2 {
        pager.item("- ");
        pager.words("no bare barrel: bell, sleeve, wrap".split_ascii_whitespace());
    }
    let count = pager.finish();
    titled(pen, &sure(pipe), page, count);
    count
}

/// The bar above a list: what it is, and which page of how many.
fn titled(pen: &mut Pen<'_>, title: &str, page: u8, pages: u8) {
    let mut right = Line::new();
    number(&mut right, u32::from(page) + 1);
    add(&mut right, "/");
    number(&mut right, u32::from(pages));
    pen.bar(0, title, &right);
}

/// What fits, what holds it, and cautions: of the pipe that leads when it is settled or likely.
pub(super) fn parts(app: &App<'_>, pipe: &Pipe, page: u8, pen: &mut Pen<'_>) -> u8 {
    let answer = &pipe.answer;
    let first = answer
        .candidates()
        .first()
        .map(|candidate| app.image.row(candidate.row));
    let stop = answer.stop.cement || answer.stop.gas;
    let single =
        answer.outcome == Outcome::Settled || answer.likely && answer.outcome != Outcome::Outside;
    let title = first
        .as_ref()
        .map_or_else(Line::new, |row| size_and_system(app, row));
    let mut pager = Pager::new(pen, page);
    match first {
        Some(row) if single && !stop => {
            takes(app, &row, &mut pager);
            holds(app, &row, &mut pager);
        }
        _ if stop => {
            pager.item("");
            pager.words("No parts while this is a stop.".split_ascii_whitespace());
        }
        _ => {
            pager.item("");
            pager.words("Settle it first: SET asks what would part them.".split_ascii_whitespace());
        }
    }
    cautions(pipe, app, &mut pager);
    let count = pager.finish();
    let title = if title.len() <= 15 { &title } else { "PARTS" };
    titled(pen, title, page, count);
    count
}

const ROLES: [(Role, &str); 4] = [
    (Role::Fits, "TAKES"),
    (Role::Repair, "REPAIR"),
    (Role::Outlet, "OUTLET"),
    (Role::Connection, "CONNECT"),
];

/// Joint ends that go on the pipe, by what they are for, then what is to be asked.
fn takes(app: &App<'_>, row: &Row, pager: &mut Pager<'_, '_>) {
    let image = &app.image;
    let variants = image.variants_of(row);
    let ends = || (0u8..).zip(image.joint_ends());
    for (role, title) in ROLES {
        let mut told = false;
        for (index, end) in ends().filter(|(_, end)| end.role_and_grade & 15 == role as u8) {
            let Some(best) = best(image, row, variants, Form::PlainSquare, index) else {
                continue;
            };
            let sealing = best.sealing;
            if sealing.verdict >= Verdict::Refer {
                continue;
            }
            if !told {
                told = true;
                pager.heading(title);
            }
            pager.item("- ");
            pager.words(image.phrase(end.name).words());
            if sealing.grade == Grade::Memory {
                pager.words(["(from", "memory)"].into_iter());
            }
            if best.by_class {
                pager.words(["(not", "every", "class)"].into_iter());
            }
            let link = match sealing.verdict {
                Verdict::FitsWith => "with",
                Verdict::Adapter => "by",
                _ => continue,
            };
            pager.words([":", link].into_iter());
            pager.words(image.phrase(sealing.need).words());
        }
    }
    let mut told = false;
    for (index, end) in ends() {
        let Some(best) = best(image, row, variants, Form::PlainSquare, index) else {
            continue;
        };
        if best.sealing.verdict == Verdict::Refer {
            if !told {
                told = true;
                pager.heading("ASK");
            }
            pager.item("- ");
            pager.words(image.phrase(end.name).words());
            pager.words([":"].into_iter());
            pager.words(image.phrase(best.sealing.reason).words());
        }
    }
}

/// What holds the joints, and that couplings and clamps do not.
fn holds(app: &App<'_>, row: &Row, pager: &mut Pager<'_, '_>) {
    let image = &app.image;
    pager.heading("HOLDS");
    let mut any = false;
    for (_, listing) in restraints(image, *row, image.variants_of(row)) {
        any = true;
        pager.item("- ");
        pager.words(image.phrase(listing.name).words());
        pager.words([":"].into_iter());
        pager.words(image.phrase(listing.remark).words());
    }
    pager.item("");
    pager.words(
        if any {
            "Couplings and clamps hold nothing."
        } else {
            "Nothing is listed for it: ask."
        }
        .split_ascii_whitespace(),
    );
}

/// Cautions, the worst first.
fn cautions(pipe: &Pipe, app: &App<'_>, pager: &mut Pager<'_, '_>) {
    pager.heading("CAUTION");
    let answer = &pipe.answer;
    if answer.hazards.cement.q30() >= app.image.settings().cement_warning >> 2 {
        pager.item("! ");
        pager.words(
            "Asbestos-cement can be this size: no cut, file or tap until ruled out."
                .split_ascii_whitespace(),
        );
    }
    let dry = answer.candidates().iter().any(|candidate| {
        let family = app.image.family(app.image.row(candidate.row).family);
        family.carries != Carries::Water as u8 || family.material == Material::Steel as u8
    });
    if dry {
        pager.item("! ");
        pager.words(
            "Contents not proved: drain, gas or conduit can be this size.".split_ascii_whitespace(),
        );
    }
    pager.item("! ");
    pager.words(
        "Locate, private lines too. Prove it dead. Competent person and code decide."
            .split_ascii_whitespace(),
    );
}
