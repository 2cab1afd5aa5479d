//! Numbers and pressures as every verb shows them.

use springline_core::unit::Pressure;

use crate::parse::Unit;

/// `207 psi` or `14.27 bar`.
pub(crate) fn pressure(pressure: Pressure, unit: Unit) -> String {
    match unit {
        Unit::Inch => format!("{} psi", whole(pressure.in_psi())),
        Unit::Millimetre => format!("{} bar", trimmed(pressure.in_bar(), 2)),
    }
}

/// What pipe is rated for: whole psi or hundredths of a bar, never rounded up.
pub(crate) fn rated(pressure: Pressure, unit: Unit) -> String {
    match unit {
        Unit::Inch => format!("{} psi", whole((pressure.in_psi() + 1e-9).floor())),
        Unit::Millimetre => {
            let hundredths = (pressure.in_bar() * 100.0 + 1e-9).floor() / 100.0;
            format!("{} bar", trimmed(hundredths, 2))
        }
    }
}

/// A number with at most so many decimals and no idle zeros.
pub(crate) fn trimmed(value: f64, places: usize) -> String {
    let text = format!("{value:.places$}");
    if text.contains('.') {
        text.trim_end_matches('0').trim_end_matches('.').to_owned()
    } else {
        text
    }
}

/// A number to three digits or to the whole, thousands apart.
pub(crate) fn plain(value: f64) -> String {
    let places = match value.abs() {
        size if size >= 99.95 => 0,
        size if size >= 9.995 => 1,
        size if size >= 0.095 => 2,
        _ => 3,
    };
    let text = format!("{value:.places$}");
    let text = if text.contains('.') {
        text.trim_end_matches('0').trim_end_matches('.')
    } else {
        &text
    };
    thousands(text)
}

/// A whole number, thousands apart.
pub(crate) fn whole(value: f64) -> String {
    // Not minus nothing.
    thousands(&format!("{:.0}", value.round() + 0.0))
}

/// Digits of a number, thousands apart.
pub(crate) fn thousands(text: &str) -> String {
    let (digits, part) = text.split_once('.').unwrap_or((text, ""));
    let (sign, digits) = match digits.strip_prefix('-') {
        Some(rest) => ("-", rest),
        None => ("", digits),
    };
    let mut out = String::from(sign);
    for (at, digit) in digits.char_indices() {
        if at > 0 && (digits.len() - at).is_multiple_of(3) {
            out.push(',');
        }
        out.push(digit);
    }
    if !part.is_empty() {
        out.push('.');
        out.push_str(part);
    }
    out
}
