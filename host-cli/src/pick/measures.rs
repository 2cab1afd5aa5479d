//! Measures within the texts of the tables, in the unit of the setting: `{12 in}` is `12 in`, or `300 mm`.

use crate::parse::Unit;

/// A measure as people read it; `None` of a unit that is not one of these: in, ft, ft/s, lb, F.
pub(super) fn measured(value: f64, of: &str, unit: Unit) -> Option<String> {
    let metric = unit == Unit::Millimetre;
    let tidy = |value: f64, places: usize| {
        let text = format!("{value:.places$}");
        if text.contains('.') {
            let text = text.trim_end_matches('0').trim_end_matches('.');
            text.to_owned()
        } else {
            text
        }
    };
    Some(match of {
        "in" if metric => {
            let mm = value * 25.4;
            // As coarse as the figure that it is of.
            let step = if mm < 100.0 { 1.0 } else { 10.0 };
            format!("{} mm", tidy((mm / step).round() * step, 0))
        }
        "ft" if metric => format!("{} m", tidy(value * 0.3048, 1)),
        "ft/s" if metric => format!("{} m/s", tidy(value * 0.3048, 1)),
        "lb" if metric => format!("{} kg", tidy(value * 0.453_592_37, 0)),
        "F" if metric => format!("{} C", tidy((value - 32.0) / 1.8, 0)),
        "in" | "ft" | "ft/s" | "lb" | "F" => format!("{} {of}", tidy(value, 3)),
        _ => return None,
    })
}

/// A text with its measures in the unit of the setting; what stands between other braces is left as it is.
pub(super) fn filled(text: &str, unit: Unit) -> String {
    let mut out = String::new();
    let mut rest = text;
    while let Some((before, behind)) = rest.split_once('{') {
        out.push_str(before);
        let Some((inside, after)) = behind.split_once('}') else {
            out.push('{');
            rest = behind;
            continue;
        };
        let read = inside.split_once(' ').and_then(|(value, of)| {
            let value = value.parse::<f64>().ok()?;
            measured(value, of, unit)
        });
        match read {
            Some(read) => out.push_str(&read),
            None => out.extend(["{", inside, "}"]),
        }
        rest = after;
    }
    out.push_str(rest);
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn measures_follow_the_setting() {
        let text = "dig {12 in} under, {2 ft} back, {1 ft/s}, {50 lb}, {40 F}; {parts}, {x in}, {";
        assert_eq!(
            filled(text, Unit::Inch),
            "dig 12 in under, 2 ft back, 1 ft/s, 50 lb, 40 F; {parts}, {x in}, {"
        );
        assert_eq!(
            filled(text, Unit::Millimetre),
            "dig 300 mm under, 0.6 m back, 0.3 m/s, 23 kg, 4 C; {parts}, {x in}, {"
        );
        assert_eq!(measured(1.5, "ft", Unit::Inch).as_deref(), Some("1.5 ft"));
        assert_eq!(
            measured(2.0, "in", Unit::Millimetre).as_deref(),
            Some("51 mm")
        );
        assert_eq!(measured(2.0, "fathoms", Unit::Inch), None);
    }
}
