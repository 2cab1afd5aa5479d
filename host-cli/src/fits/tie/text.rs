//! The answer for people.

use springline_core::joint::Owner;
use springline_core::joint::tie::{Direct, Nothing, On};

use super::super::card::stock_words;
use super::super::caution;
use super::piece::{PieceSaid, SideSaid};
use super::way::Way;
use super::{Tied, say};
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
    for words in tied.lying.words(unit) {
        wrap(out, "", &words);
    }
    if tied.site.lie.bends > 0 {
        let text = "A bend is pushed outwards: hold every joint on both sides of it, or block it.";
        wrap(out, "", text);
    }
    match tied.site.dry {
        Some(false) => wrap(
            out,
            "",
            "It cannot be got dry: nothing is glued, fused or soldered.",
        ),
        Some(true) => wrap(
            out,
            "",
            "Taken as dry, and kept so until glue has cured or the melt is cold.",
        ),
        None => {}
    }
    if let Some(hours) = tied.site.hours {
        let text = format!(
            "Water back in {hours} h: what is by order is not here by then, and cement is given a day to cure; the maker's table, pipe and weather may say less or more. Filling, flushing and what the owner asks come on top."
        );
        wrap(out, "", &text);
    }
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
        Nothing::Wet => format!(
            "what leads from {first} to {second} is glued, fused or soldered, and that wants it dry"
        ),
        Nothing::Kept => format!(
            "nothing of the tables goes on what is on {first} or {second} and stays; cut off, there is a way"
        ),
        Nothing::Bends => format!(
            "no chain with such bends leads from {first} to {second}; in line there is one: bring the ends into line, or ask for shop-made bends"
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
    let parts = match &way.direct {
        Some((direct, _)) => direct_words(tied, *direct),
        None => names.join(", "),
    };
    let wet = if way.dry {
        "CANNOT BE MADE WET"
    } else {
        "can be made wet"
    };
    let late = match tied.site.hours {
        Some(hours) if way.late => format!(", NOT IN {hours} h"),
        _ => String::new(),
    };
    let plural = if way.joints == 1 { "" } else { "s" };
    let head = format!(
        "{parts}: {} joint{plural}, {}, {wet}{late}.",
        way.joints,
        stock_words(way.stock)
    );
    wrap(out, &format!("WAY {number}  "), &head);
    if let Some((direct, sides)) = &way.direct {
        if matches!(direct, Direct::Bell(..)) {
            let text = "the bell is taken as one with a gasket, clean and whole. One with no groove was glued or leaded: cut it off.";
            wrap(out, "  FIRST  ", text);
        }
        for one in sides {
            side(one, args, out);
        }
    }
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
    wrap(out, "  SAY    ", &say::say(tied, way, args.units.into()));
}

fn piece(number: usize, piece: &PieceSaid, args: &TieArgs, out: &mut String) {
    let turn = piece.turn.as_ref();
    let turn = turn.map_or(String::new(), |turn| format!(" {turn}"));
    let text = format!(
        "{}{turn}, {} [{}]",
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
            "{}: {}, {}. {}.",
            side.what, side.size, side.end_name, side.kept
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

/// Two ends that go together, in words.
fn direct_words(tied: &Tied, direct: Direct) -> String {
    let [first, second] = &tied.ends;
    match direct {
        Direct::Flanges => String::from("flange to flange, one bolt set and gasket"),
        Direct::Bell(0, _) => format!("{} into the bell of {}", second.name(), first.name()),
        Direct::Bell(..) => format!("{} into the bell of {}", first.name(), second.name()),
        Direct::Fused(_) => String::from("fused face to face, of one DR"),
    }
}
