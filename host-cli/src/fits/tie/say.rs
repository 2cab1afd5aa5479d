//! What to say to a counter on the phone: every part with both of its sides, and what is ordered beside it.

use springline_core::joint::Stock;
use springline_core::joint::tie::{Direct, On};

use super::super::phone;
use super::piece::SideSaid;
use super::way::Way;
use super::{End, Tied};
use crate::parse::Unit;

/// What to say to a counter: every part with both of its sides, and what is ordered beside it.
pub(super) fn say(tied: &Tied, way: &Way, unit: Unit) -> String {
    let pipe = |end: &End| phone::pipe(&end.known, unit);
    let [first, second] = &tied.ends;
    let on = |side: &SideSaid| match side.on {
        // A flange is asked for by its drilling, not by what it is on.
        On::First | On::Second if side.is_flange => format!("{} {}", side.size, side.end_name),
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
        let turn = piece.turn.as_ref();
        let turn = turn.map_or(String::new(), |turn| format!(" {turn}"));
        let mut text = format!("one {}{turn}: {sides}", piece.name);
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
    if let Some((direct, sides)) = &way.direct {
        let mut text = match direct {
            Direct::Flanges if first.heavy => {
                format!("one bolt set and gasket for class 250, for {}", pipe(first))
            }
            Direct::Flanges => format!("one bolt set and full-face gasket for {}", pipe(first)),
            Direct::Bell(0, _) => format!(
                "one gasket for the bell of {}, if its own is not new",
                pipe(first)
            ),
            Direct::Bell(..) => format!(
                "one gasket for the bell of {}, if its own is not new",
                pipe(second)
            ),
            Direct::Fused(_) => format!(
                "a butt fusion machine and a trained hand for {}",
                pipe(first)
            ),
        };
        for side in sides {
            let bought: Vec<&str> = side
                .holds
                .iter()
                .filter(|held| !held.itself)
                .map(|held| held.name.as_str())
                .collect();
            if !bought.is_empty() {
                text.extend(["; to hold ", &side.what, " ", &bought.join(" or ")]);
            }
        }
        told.push(text);
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
