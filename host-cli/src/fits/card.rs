//! One part in full.

use springline_core::image::Grade;
use springline_core::joint::{Act, Stock, Verdict};

use super::phone;
use super::sheet::{PartRow, Sheet};
use crate::parse::Unit;
use crate::read::lines::wrap;

/// How a part is got.
pub(crate) const fn stock_words(stock: Stock) -> &'static str {
    match stock {
        Stock::Counter => "counter",
        Stock::Order => "by order, days",
        Stock::Shop => "shop-made, one to three weeks",
        Stock::Rare => "rare in this size: ask",
    }
}

/// A verdict in the words of the trade.
pub(super) fn verdict_words(row: &PartRow) -> String {
    let needs = row.needs.join("; ");
    let text = match row.verdict {
        Verdict::Fits => String::from("fits"),
        Verdict::FitsWith => format!("fits with {needs}"),
        Verdict::Adapter => format!("needs {needs}"),
        Verdict::Refer => format!("ASK: {}", row.reason),
        Verdict::No => format!("WON'T SEAL: {}", row.reason),
    };
    let class = if row.by_class {
        " (not every class: --class)"
    } else {
        ""
    };
    format!("{text}{class}.")
}

/// How much of a card is shown.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(super) struct Depth {
    /// Why, with source and grade.
    pub(super) why: bool,
    /// Everything, every end and tool.
    pub(super) full: bool,
}

/// Writes a part.
pub(super) fn card(sheet: &Sheet<'_>, row: &PartRow, depth: Depth, unit: Unit, out: &mut String) {
    let recalled = if row.grade == Grade::Memory {
        " (from memory)"
    } else {
        ""
    };
    let goes = row.verdict < Verdict::No;
    let stock = if goes {
        format!(", {}", stock_words(row.stock))
    } else {
        String::new()
    };
    wrap(out, "", &format!("{}{stock} [{}]", row.name, row.key));
    let said = verdict_words(row);
    wrap(out, "  ", &format!("{}: {said}{recalled}", row.end_name));
    if depth.why {
        if !row.reason.is_empty() && row.verdict < Verdict::Refer {
            wrap(out, "  WHY    ", &format!("{}.", row.reason));
        }
        let from = row.sources.join(", ");
        wrap(out, "  SOURCE ", &format!("{from}; {}.", row.grade.key()));
    }
    if depth.full && row.ends.len() > 1 {
        for end in row.ends.iter().filter(|end| end.name != row.end_name) {
            let why = match end.verdict {
                Verdict::Fits => String::from("fits"),
                Verdict::FitsWith => format!("fits with {}", end.need),
                Verdict::Adapter => format!("needs {}, because {}", end.need, end.reason),
                Verdict::Refer => format!("ASK: {}", end.reason),
                Verdict::No => format!("WON'T SEAL: {}", end.reason),
            };
            let from = end.sources.join(", ");
            let text = format!(
                "{} on this pipe: {why} [{from}; {}].",
                end.name,
                end.grade.key()
            );
            wrap(out, "  END    ", &text);
        }
    }
    if !goes {
        return;
    }
    if let Some(range) = &row.range {
        wrap(out, "  RANGE  ", &format!("must hold {range}."));
    }
    if !row.gasket.is_empty() && row.verdict <= Verdict::FitsWith {
        wrap(out, "  GASKET ", &format!("{}.", row.gasket));
    }
    if let Some((thread, sizes)) = &row.outlet {
        let most = row
            .outlet_rule
            .as_ref()
            .map_or(String::new(), |(rule, sources)| {
                let from = if depth.why {
                    format!(" [{}]", sources.join(", "))
                } else {
                    String::new()
                };
                format!(", {rule}{from}")
            });
        let text = format!(
            "{} in {}{most}.",
            phone::choice(sizes),
            phone::thread_words(*thread)
        );
        wrap(out, "  OUTLET ", &text);
    }
    if row.wants_holding() {
        held(row, depth.full, out);
    }
    if !row.comes.is_empty() {
        wrap(out, "  COMES  ", &format!("{}.", row.comes));
    }
    let mut less = phone::packs(row);
    if !row.less.is_empty() {
        if !less.is_empty() {
            less.push_str("; ");
        }
        less.push_str(&row.less);
    }
    if !less.is_empty() {
        wrap(out, "  LESS   ", &format!("{less}."));
    }
    if row.dry {
        wrap(out, "  DRY    ", "cannot be made up wet.");
    }
    if let Some(psi) = row.psi {
        wrap(out, "  LIMIT  ", &format!("{psi} psi."));
    }
    if !row.wont.is_empty() {
        wrap(out, "  WON'T  ", &format!("{}.", row.wont));
    }
    if depth.full {
        wrap(out, "  TOOLS  ", &format!("{}.", row.tools));
    }
    if row.verdict < Verdict::Refer {
        wrap(out, "  SAY    ", &phone::part(sheet.known, row, unit));
    }
}

/// What holds a joint, loudly where nothing does.
pub(super) fn held(row: &PartRow, full: bool, out: &mut String) {
    let names: Vec<String> = row
        .holds
        .iter()
        .map(|held| match held.remark.as_str() {
            remark if full && !remark.is_empty() => format!("{} ({remark})", held.name),
            _ => held.name.clone(),
        })
        .collect();
    let text = if !names.is_empty() {
        format!("{}.", names.join("; "))
    } else if row.act == Act::Bolt {
        return;
    } else {
        String::from("NOTHING: block or anchor the line on both sides of it, or tie across it.")
    };
    wrap(out, "  HOLDS  ", &text);
    if full {
        for held in &row.forbidden {
            let mark = if held.ask { "  ASK    " } else { "  NEVER  " };
            wrap(out, mark, &format!("{}: {}.", held.name, held.remark));
        }
    }
}
