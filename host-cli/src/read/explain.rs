//! The terms behind an answer, written for people.

use std::fmt::Write;

use springline_core::image::Grade;

use super::finding::{Finding, fraction, size};
use super::terms::{Datum, Origin, Terms};
use crate::format;
use crate::parse::Unit;

/// Writes the terms.
pub(super) fn explain(finding: &Finding<'_>, terms: &[Terms]) -> String {
    let mut out =
        String::from("\nTerms (lengths at the reference temperature of the tables unless said)\n");
    let _ = writeln!(
        out,
        "instrument: OD {} with a sigma of {}",
        finding.asked.show(finding.answer.od),
        finding.asked.show(finding.answer.sigma)
    );
    for one in terms {
        candidate(one, finding.asked.unit, &mut out);
    }
    let _ = writeln!(
        out,
        "in no table (bell, sleeve, wrap, misread, unlisted): weight {:.4}; not shown: {:.4}",
        finding.outside(),
        fraction(finding.answer.rest.q30())
    );
    out
}

/// A grade in words; a figure from memory is never printed as fact.
fn grade(grade: Option<Grade>) -> &'static str {
    match grade {
        Some(Grade::Standard) => "read in the standard",
        Some(Grade::TwoSources) => "two sources agree",
        Some(Grade::OneSource) => "one source",
        Some(Grade::Practice) => "common practice, no source",
        Some(Grade::Memory) => "from memory",
        None => "not known",
    }
}

fn candidate(terms: &Terms, unit: Unit, out: &mut String) {
    let length = |counts: f64| rounded(counts, unit);
    let variant = if terms.variant.is_empty() {
        String::new()
    } else {
        format!(" ({})", terms.variant)
    };
    let _ = writeln!(
        out,
        "{} {}{variant}: weight {:.4}",
        terms.name,
        size(&terms.nominal),
        terms.weight
    );
    let widened = match terms.tolerance_grade {
        None | Some(Grade::Memory) => ", so widened",
        Some(_) => "",
    };
    let _ = writeln!(
        out,
        "  band         {} to {}, OD {} ({}); tolerance {}{widened}",
        length(terms.band.0),
        length(terms.band.1),
        length(terms.od),
        grade(terms.od_grade),
        grade(terms.tolerance_grade),
    );
    for datum in &terms.data {
        source(datum, unit, out);
    }
    let _ = writeln!(
        out,
        "  temperature  {:.1e} per F: {} at {:.0} F{}",
        terms.thermal,
        length(terms.shift),
        terms.degrees,
        if terms.told { "" } else { ", not told" },
    );
    let _ = writeln!(out, "  out of round sigma {} as made", length(terms.oval));
    let _ = match terms.squash {
        Some((mean, sd)) => writeln!(
            out,
            "  squash       mean {}, sigma {} across the springline ({})",
            length(mean),
            length(sd),
            grade(terms.prior_grade)
        ),
        None => writeln!(out, "  squash       none"),
    };
    let _ = writeln!(
        out,
        "  prior        {:.4} of pipes here, {:.4} of those this size ({})",
        terms.prior.0,
        terms.prior.1,
        grade(terms.prior_grade)
    );
    for (words, chance, of) in &terms.clues {
        let _ = writeln!(
            out,
            "  clue         {words}: of such pipe {chance:.4} ({})",
            grade(*of)
        );
    }
}

/// One series: what its standard prints, and where each figure was found.
fn source(datum: &Datum, unit: Unit, out: &mut String) {
    let _ = write!(
        out,
        "    {} [{}]: OD {}, {}",
        datum.standard,
        datum.series,
        format::length(datum.od, unit),
        origin(&datum.od_from)
    );
    if let Some((plus, minus, from)) = &datum.tolerance {
        let _ = write!(
            out,
            "; tolerance +{} -{}, {}",
            format::length(*plus, unit),
            format::length(*minus, unit),
            origin(from)
        );
    }
    if let Some((allowance, from)) = &datum.out_of_round {
        let _ = write!(
            out,
            "; out of round +-{}, {}",
            format::length(*allowance, unit),
            origin(from)
        );
    }
    out.push('\n');
}

/// Source keys and grade. Memory and practice are sources of their own name, and said once.
fn origin(from: &Origin) -> String {
    match from.grade {
        Some(Grade::Memory | Grade::Practice) => grade(from.grade).to_owned(),
        other => format!("{} from {}", grade(other), from.sources.join(", ")),
    }
}

#[allow(
    clippy::cast_possible_truncation,
    reason = "lengths of pipe, in counts"
)]
fn rounded(counts: f64, unit: Unit) -> String {
    format::length(counts.round() as i64, unit)
}
