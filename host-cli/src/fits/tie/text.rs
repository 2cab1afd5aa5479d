//! The answer for people.

use springline_core::joint::tie::{Nothing, On};
use springline_core::joint::{Owner, Stock};

use super::super::card::stock_words;
use super::super::{caution, phone};
use super::piece::{PieceSaid, SideSaid};
use super::way::Way;
use super::{End, Tied};
use crate::cli::TieArgs;
use crate::parse::Unit;
use crate::read::lines::wrap;

/// Writes the answer.
pub(super) fn text(tied: &Tied, args: &TieArgs) -> String {
    let mut out = String::new();
    if let Some(refused) = &tied.refused {
        let known = &tied.ends[refused.end].known;
        out.push_str(&known.name);
        let stop = known.stop;
        out.push_str(if stop { "\nSTOP - ASK\n" } else { "\nASK\n" });
        wrap(
            &mut out,
            "",
            &format!("{}. No parts are given.", refused.reason),
        );
        if args.why {
            let from = refused.sources.join(", ");
            let text = format!("{from}; {}.", refused.sealing.grade.key());
            wrap(&mut out, "SOURCE ", &text);
        }
    } else {
        head(tied, args.units.into(), &mut out);
        if let Some(why) = tied.none {
            wrap(
                &mut out,
                "",
                &format!("None, because {}.", why_none(tied, why)),
            );
        }
        for (at, one) in tied.ways.iter().enumerate() {
            if at > 0 {
                out.push('\n');
            }
            way(tied, at + 1, one, args, &mut out);
        }
    }
    out.push('\n');
    for line in caution::lines(&tied.cautions, args.why) {
        wrap(&mut out, "! ", &line);
    }
    out
}

fn head(tied: &Tied, unit: Unit, out: &mut String) {
    let [first, second] = &tied.ends;
    wrap(out, "FROM   ", &format!("{}.", first.in_full(unit)));
    wrap(out, "TO     ", &format!("{}.", second.in_full(unit)));
    for doubt in tied.ends.iter().filter_map(|end| end.known.doubt()) {
        wrap(out, "", &doubt);
    }
    wrap(
        out,
        "",
        "Taken: both ends in line and on grade within an inch. Where they are not, nothing below serves: swing or dig first.",
    );
    if tied.both_fixed() {
        wrap(
            out,
            "",
            "Neither end moves, and gasketed pipe does not spring in: one piece closes, told last. If an end can be moved, say :free.",
        );
    }
    if tied.shrinks {
        wrap(
            out,
            "",
            "ASK: HDPE shrinks and pulls gasketed bells apart: hold the bells beyond, or a wall anchor by who designs it.",
        );
    }
    match tied.owner {
        Owner::Unknown => wrap(
            out,
            "",
            "Whose is it? Ahead of the meter it is the purveyor's: ask first (--owner).",
        ),
        Owner::Purveyor => wrap(
            out,
            "",
            "ASK OWNER: it is the purveyor's; no cut and no tap without their leave.",
        ),
        Owner::Ours => {}
    }
    out.push('\n');
}

/// Why there is none.
pub(super) fn why_none(tied: &Tied, why: Nothing) -> String {
    let [first, second] = &tied.ends;
    let (first, second) = (first.name(), second.name());
    match why {
        Nothing::Fixed => format!(
            "neither end moves and no sleeve, slip coupling or take-up piece of the tables leads from {first} to {second}; with one end :free there is a way"
        ),
        Nothing::Unheld => format!(
            "nothing is listed that holds both {first} and {second}, and HDPE pulls apart what is not held"
        ),
        Nothing::Sizes => {
            format!(
                "no chain of up to three parts is made from {first} to {second}: both sizes must exist in one"
            )
        }
        Nothing::Parts => {
            format!(
                "no chain of up to three parts of the tables seals on both {first} and {second}"
            )
        }
    }
}

fn way(tied: &Tied, number: usize, way: &Way, args: &TieArgs, out: &mut String) {
    let names: Vec<&str> = way.pieces.iter().map(|piece| piece.name.as_str()).collect();
    let parts = if names.is_empty() {
        String::from("flange to flange, one bolt set and gasket")
    } else {
        names.join(", ")
    };
    let wet = if way.dry {
        "CANNOT BE MADE WET"
    } else {
        "can be made wet"
    };
    let plural = if way.joints == 1 { "" } else { "s" };
    let head = format!(
        "{parts}: {} joint{plural}, {}, {wet}.",
        way.joints,
        stock_words(way.stock)
    );
    wrap(out, &format!("WAY {number}  "), &head);
    if let Some(over) = way.closing.as_ref().and_then(|one| one.over.as_deref()) {
        let last = names.last().copied().unwrap_or_default();
        let text = format!("slide the {last} fully onto {over}, before the other end is set.");
        wrap(out, "  FIRST  ", &text);
    }
    for cut in &way.cuts {
        let text = format!("a piece of {cut}, square, to the length between the parts.");
        wrap(out, "  CUT    ", &text);
    }
    for (at, one) in way.pieces.iter().enumerate() {
        piece(at + 1, one, args, out);
    }
    if let Some(closing) = &way.closing {
        let text = match &closing.over {
            Some(over) => format!(
                "it slides onto {over}. That side wants bare straight barrel for its whole length and 6 in, the other for half of it and 2 in: measure the part, and NO BELL, strap or coupling in the way."
            ),
            None => String::from(
                "it takes up what is short by its bolts: measure the gap, and the part, before the cut.",
            ),
        };
        wrap(out, "  CLOSES ", &text);
    }
    wrap(out, "  LAST   ", &format!("{}.", way.last));
    wrap(out, "  SAY    ", &say(tied, way, args.units.into()));
}

fn piece(number: usize, piece: &PieceSaid, args: &TieArgs, out: &mut String) {
    let text = format!(
        "{}, {} [{}]",
        piece.name,
        stock_words(piece.stock),
        piece.key
    );
    wrap(out, &format!("  {number}  "), &text);
    for one in &piece.sides {
        side(one, args, out);
    }
    if !piece.comes.is_empty() {
        wrap(out, "     COMES  ", &format!("{}.", piece.comes));
    }
    let mut less: Vec<String> = piece
        .packs
        .iter()
        .map(|(count, pack)| format!("{count} x {pack}"))
        .collect();
    less.extend((!piece.less.is_empty()).then(|| piece.less.clone()));
    if !less.is_empty() {
        wrap(out, "     LESS   ", &format!("{}.", less.join("; ")));
    }
    if !piece.wont.is_empty() {
        wrap(out, "     WON'T  ", &format!("{}.", piece.wont));
    }
}

fn side(side: &SideSaid, args: &TieArgs, out: &mut String) {
    if side.on == On::Part {
        let text = format!(
            "{}: {}, {}. Its bolts hold it, by the weaker of the two.",
            side.what, side.size, side.end_name
        );
        wrap(out, "     ON     ", &text);
        return;
    }
    let mut text = format!("{}: {}", side.what, side.end_name);
    if !side.need.is_empty() {
        text.extend(["; ", &side.need]);
    }
    if let Some(range) = &side.range {
        text.extend([", ", range]);
    }
    text.push('.');
    if !side.gasket.is_empty() {
        text.extend([" Gasket: ", &side.gasket, "."]);
    }
    wrap(out, "     ON     ", &text);
    let names: Vec<String> = side
        .holds
        .iter()
        .map(|held| match held.remark.as_str() {
            "" => held.name.clone(),
            remark => format!("{} ({remark})", held.name),
        })
        .collect();
    let held = if names.is_empty() {
        String::from("NOTHING: an anchor, a block or a harness across it, or it is pulled out.")
    } else {
        format!("{}.", names.join("; or "))
    };
    wrap(out, "     HOLDS  ", &held);
    if args.why {
        for held in &side.never {
            let mark = if held.ask {
                "     ASK    "
            } else {
                "     NEVER  "
            };
            wrap(out, mark, &format!("{}: {}.", held.name, held.remark));
        }
        let grade = side.grade.map_or("", springline_core::image::Grade::key);
        let why = format!("{}; {grade}.", side.sources.join(", "));
        wrap(out, "     SOURCE ", &why);
    }
}

/// What to say to a counter: every part with both of its sides, and what is ordered beside it.
pub(super) fn say(tied: &Tied, way: &Way, unit: Unit) -> String {
    let pipe = |end: &End| phone::pipe(&end.known, unit);
    let [first, second] = &tied.ends;
    let on = |side: &SideSaid| match side.on {
        On::First | On::CutOfFirst => pipe(first),
        On::Second | On::CutOfSecond => pipe(second),
        On::Part => format!("{} {}", side.size, side.end_name),
    };
    let mut told: Vec<String> = Vec::new();
    for piece in &way.pieces {
        let sides: Vec<String> = piece
            .sides
            .iter()
            .map(|side| match &side.range {
                Some(range) => format!("{}, range to hold {range}", on(side)),
                None => on(side),
            })
            .collect();
        let sides = match &sides[..] {
            [one, other] if one == other => format!("both sides for {one}"),
            sides => format!("one side for {}", sides.join("; the other for ")),
        };
        let mut text = format!("one {}: {sides}", piece.name);
        for (count, pack) in &piece.packs {
            let pack = pack.replace(phone::OWN, "");
            text.extend(["; ", &count.to_string(), " x ", &pack]);
        }
        for side in &piece.sides {
            let bought: Vec<&str> = side
                .holds
                .iter()
                .filter(|held| !held.itself)
                .map(|held| held.name.as_str())
                .collect();
            let holds = side.holds.iter().any(|held| held.itself);
            if !holds && !bought.is_empty() {
                text.extend(["; to hold ", &side.what, " ", &bought.join(" or ")]);
            }
        }
        told.push(text);
    }
    if told.is_empty() {
        told.push(format!(
            "one bolt set and full-face gasket for {}",
            pipe(first)
        ));
    }
    let mut said = told.join(". And ");
    if let Some(letter) = said.get(..1).map(str::to_uppercase) {
        said.replace_range(..1, &letter);
    }
    said.push_str(match way.stock {
        Stock::Counter => ".",
        Stock::Order => ". How many days?",
        Stock::Shop => ". Made up: how many weeks?",
        Stock::Rare => ". Is it made in this size?",
    });
    said
}
