//! One part on the pipe; what holds it; cautions; and why there are no parts.

use heapless::Vec;
use springline_core::identify::MAX_CANDIDATES;
use springline_core::image::{Carries, Grade, Image, Listing, Material};
use springline_core::joint::{Act, Decides, Doing, Stock, Task, Use, is_due, is_stop};

use super::Pages;
use super::answer::sure;
use super::others::titled;
use super::pager::Pager;
use super::pen::Pen;
use crate::app::App;
use crate::app::open::{Open, Pipes, Said, Shared};
use crate::app::pipe::Pipe;

/// One part: what is said of it, what holds it, then cautions, each on a page of its own.
pub(super) fn part(
    app: &App<'_>,
    pipe: &Pipe,
    (task, at): (Task, u8),
    page: u8,
    pen: &mut Pen<'_>,
) -> Pages {
    let image = &app.image;
    let Open::Pipes(pipes) = Open::of(image, pipe) else {
        return Pages::ONE;
    };
    let owner = app.settings.owner;
    let listed = pipes.listed(image, task, owner);
    let found = listed.at(at);
    let Some(shared) = found.and_then(|part| pipes.part(image, part, owner)) else {
        return Pages::ONE;
    };
    let mut pager = Pager::new(pen, page);
    tell(image, &pipes, &shared, &mut pager);
    let own = pager.page_end();
    due(app, pipes.rows(), shared.doing, &mut pager);
    let count = pager.finish();
    let title = if page < own {
        Said::of(&shared).word()
    } else {
        "CAUTION"
    };
    titled(pen, title, page, count);
    Pages {
        count,
        cautions: own,
    }
}

/// What is said of a part, and what holds it.
fn tell(image: &Image<'_>, pipes: &Pipes, shared: &Shared, pager: &mut Pager<'_, '_>) {
    let fit = &shared.fit;
    let part = image.part(fit.part);
    let said = Said::of(shared);
    pager.item("");
    pager.phrase(image.phrase(part.name), "");
    if said == Said::NotKnown {
        pager.item("");
        return pager.text("It hangs on which pipe it is: SET asks what would part them.");
    }
    pager.item("- ");
    if shared.reasoned || said < Said::AskOwner {
        pager.phrase(image.phrase(image.joint_end(fit.end).name), "");
    }
    // The end is taken as it is behind a cut.
    pager.text("on a cut end :");
    let sealing = &fit.best.sealing;
    match said {
        Said::Fits => pager.text("fits"),
        Said::FitsWith => pager.text("fits with"),
        Said::Needs => pager.text("needs"),
        _ => why(image, shared, pager),
    }
    if matches!(said, Said::FitsWith | Said::Needs) {
        if fit.own != fit.end {
            pager.text("its own gasket ;");
        }
        pager.phrase(image.phrase(sealing.need), "");
    }
    if shared.by_class && fit.decides == Decides::Matrix {
        pager.text("(not every class)");
    }
    if sealing.grade == Grade::Memory {
        pager.text("(from memory)");
    }
    if matches!(said, Said::Fits | Said::FitsWith) {
        pager.item("- ");
        pager.text(match pipes.stock(image, fit.part) {
            Some(Stock::Counter) => "at the counter",
            Some(Stock::Order) => "by order, days",
            Some(Stock::Shop) => "shop-made, weeks",
            Some(Stock::Rare) | None => "rare in this size: ask",
        });
    }
    if fit.wants_holding(image) {
        let bolted = part.act_and_stock & 15 == Act::Bolt as u8;
        held(image, pipes, Some(fit.end), bolted, pager);
        for listing in pipes.forbidden(image, fit.end) {
            pager.item("! ");
            pager.text(if listing.of() == Some(Use::Refer) {
                "ASK"
            } else {
                "NEVER"
            });
            name(image, &listing, pager);
        }
    }
}

/// Why a part is asked about or does not go on.
fn why(image: &Image<'_>, shared: &Shared, pager: &mut Pager<'_, '_>) {
    if !shared.reasoned {
        return pager.text("so on each of these pipes");
    }
    match shared.fit.decides {
        Decides::Matrix => pager.phrase(image.phrase(shared.fit.best.sealing.reason), ""),
        Decides::Size => pager.text("not made in this size"),
        Decides::Owner => pager.text("the purveyor's: no cut and no tap without their leave"),
        Decides::Crew => pager.text("for a crew trained and equipped for it"),
        Decides::Thread => pager.text("its thread is none for the pipe's own"),
    }
}

/// A listing and its remark.
fn name(image: &Image<'_>, listing: &Listing, pager: &mut Pager<'_, '_>) {
    let remark = image.phrase(listing.remark);
    let colon = if remark.is_empty() { "" } else { ":" };
    pager.phrase(image.phrase(listing.name), colon);
    pager.phrase(remark, "");
}

/// What holds the joint of an end, or any joint; loudly where nothing does.
fn held(
    image: &Image<'_>,
    pipes: &Pipes,
    end: Option<u8>,
    bolted: bool,
    pager: &mut Pager<'_, '_>,
) {
    let (mut any, mut open) = (false, false);
    let mut begun = false;
    pipes.holders(image, end, &mut |listing| {
        if !core::mem::replace(&mut begun, true) && end.is_some() {
            pager.heading("HOLDS");
        }
        match listing {
            Some(listing) => {
                any = true;
                pager.item("- ");
                name(image, &listing, pager);
            }
            None => open = true,
        }
    });
    if bolted && !begun {
        return;
    }
    if !begun && end.is_some() {
        pager.heading("HOLDS");
    }
    pager.item("");
    pager.text(match (open, any, end) {
        (true, ..) => "More hangs on which pipe it is: not known yet.",
        (_, true, None) => "Couplings and clamps hold nothing.",
        (_, true, Some(_)) => "",
        (_, false, None) => "Nothing is listed for it: ask.",
        (_, false, Some(_)) => "NOTHING: block or anchor the line on both sides, or tie across.",
    });
}

/// What holds the joints of the pipe.
pub(super) fn holds(app: &App<'_>, pipe: &Pipe, page: u8, pen: &mut Pen<'_>) -> u8 {
    let Open::Pipes(pipes) = Open::of(&app.image, pipe) else {
        return 1;
    };
    let mut pager = Pager::new(pen, page);
    held(&app.image, &pipes, None, false, &mut pager);
    let count = pager.finish();
    titled(pen, "WHAT HOLDS IT", page, count);
    count
}

/// Cautions of everything that may be done, each on a page.
pub(super) fn warned(app: &App<'_>, pipe: &Pipe, page: u8, pen: &mut Pen<'_>) -> u8 {
    let image = &app.image;
    let Open::Pipes(pipes) = Open::of(image, pipe) else {
        return 1;
    };
    let mut pager = Pager::new(pen, page);
    suspected(app, pipe, &mut pager);
    let doing = pipes.doing(image, app.settings.owner);
    due(app, pipes.rows(), doing, &mut pager);
    let count = pager.finish();
    titled(pen, "CAUTION", page, count);
    count
}

/// Why no parts are shown, and cautions.
pub(super) fn nothing(app: &App<'_>, pipe: &Pipe, page: u8, pen: &mut Pen<'_>) -> u8 {
    let image = &app.image;
    let mut pager = Pager::new(pen, page);
    pager.item("");
    let stop = match Open::of(image, pipe) {
        Open::Stop => {
            pager.text("No parts while this is a stop.");
            true
        }
        Open::Refused(sealing) => {
            pager.text("No parts :");
            pager.phrase(image.phrase(sealing.reason), "");
            false
        }
        Open::TooMany | Open::Pipes(_) => {
            pager.text("Parts are not known yet: SET asks what would settle it.");
            false
        }
    };
    let own = pager.page_end();
    if !stop {
        suspected(app, pipe, &mut pager);
    }
    // Of a stop that of the pipe which it is about.
    let mut rows: Vec<u16, MAX_CANDIDATES> = Vec::new();
    for candidate in pipe.answer.candidates() {
        if is_stop(image, &image.row(candidate.row)) == stop {
            let _ = rows.push(candidate.row);
        }
    }
    due(app, &rows, Doing::default(), &mut pager);
    let count = pager.finish();
    let sure = sure(pipe);
    let title = match page < own {
        true if stop => "STOP - ASK",
        true => &sure,
        false => "CAUTION",
    };
    titled(pen, title, page, count);
    count
}

/// The cautions that are due of pipes, each on a page.
pub(super) fn due(app: &App<'_>, rows: &[u16], doing: Doing, pager: &mut Pager<'_, '_>) {
    let image = &app.image;
    for one in image.cautions() {
        let mut rows = rows.iter();
        if rows.any(|row| is_due(image, one, &image.row(*row), app.settings.owner, doing)) {
            let _ = pager.page_end();
            pager.item("");
            pager.phrase(image.phrase(one.short), "");
        }
    }
}

/// Cautions of what the pipe may yet be.
fn suspected(app: &App<'_>, pipe: &Pipe, pager: &mut Pager<'_, '_>) {
    let answer = &pipe.answer;
    if answer.hazards.cement.q30() >= app.image.settings().cement_warning >> 2 {
        let _ = pager.page_end();
        pager.item("");
        pager.text("Asbestos-cement can be this size: no cut, file or tap until ruled out.");
    }
    let dry = answer.candidates().iter().any(|candidate| {
        let family = app.image.family(app.image.row(candidate.row).family);
        family.carries != Carries::Water as u8 || family.material == Material::Steel as u8
    });
    if dry {
        let _ = pager.page_end();
        pager.item("");
        pager.text("Contents not proved: drain, gas or conduit can be this size.");
    }
}
