//! How two ends lie to each other, and what bends make of it.

use anyhow::{Result, anyhow, bail};
use springline_core::joint::tie::Lie;

use crate::cli::TieArgs;
use crate::format;
use crate::parse::{self, Limits, Unit};

/// Bends that are made, degrees, the largest first; the place of one less one is what the core calls it, but for the first.
const BENDS: [f64; 4] = [90.0, 45.0, 22.5, 11.25];
/// What is within an inch is in line.
const INCH: i64 = 2_540_000;
/// One bend is better than two that come nearer by so little, degrees.
const NEAR: f64 = 2.0;

/// How two ends lie.
#[derive(Clone, Debug, PartialEq)]
pub(super) enum Lying {
    /// In line and on grade within an inch.
    InLine,
    /// Parallel, and so far from each other's line, counts.
    Offset(i64),
    /// The second end points so many degrees away, made up of these bends and what is left.
    Angle {
        degrees: f64,
        bends: Vec<f64>,
        left: f64,
    },
}

impl Lying {
    /// As it was told.
    pub(super) fn parse(args: &TieArgs) -> Result<Self> {
        if let Some(text) = &args.offset {
            let offset = parse::length(text, args.units.into(), Limits::DIAMETER)?;
            return Ok(if offset <= INCH {
                Self::InLine
            } else {
                Self::Offset(offset)
            });
        }
        let Some(text) = &args.angle else {
            return Ok(Self::InLine);
        };
        let bare = text.trim().trim_end_matches("deg").trim_end();
        let (whole, part) = bare.split_once('-').unwrap_or((bare, "0/1"));
        let (over, under) = part.split_once('/').unwrap_or(("", ""));
        let number = |text: &str| text.trim().parse::<f64>().ok();
        let degrees = match (number(whole), number(over), number(under)) {
            (Some(whole), Some(over), Some(under)) if under > 0.0 => whole + over / under,
            _ => bail!("\"{text}\" is no angle\n  try: degrees, as 45 or 22-1/2"),
        };
        let most = BENDS[0] + BENDS[0];
        if !(degrees > 0.0 && degrees <= most) {
            return Err(anyhow!(
                "an angle of {degrees} degrees\n  try: how far the second end points away from the line of the first, above 0 and to 180"
            ));
        }
        Ok(Self::angle(degrees))
    }

    /// The bends that come nearest: none, one, or two.
    fn angle(degrees: f64) -> Self {
        let mut all: Vec<Vec<f64>> = vec![Vec::new()];
        all.extend(BENDS.map(|one| vec![one]));
        for (at, one) in BENDS.iter().enumerate() {
            all.extend(BENDS[at..].iter().map(|other| vec![*one, *other]));
        }
        let left = |bends: &[f64]| degrees - bends.iter().sum::<f64>();
        // Few bends come first, so that a longer list must be nearer by more than that.
        let mut best: Vec<f64> = Vec::new();
        for bends in all {
            let nearer = left(&best).abs() - left(&bends).abs();
            let more = bends.len() > best.len();
            if nearer > if more { NEAR } else { 0.0 } {
                best = bends;
            }
        }
        let left = left(&best);
        Self::Angle {
            degrees,
            bends: best,
            left,
        }
    }

    /// What the core is asked.
    pub(super) fn lie(&self) -> Lie {
        match self {
            Self::InLine => Lie::default(),
            Self::Offset(_) => Lie {
                bends: 2,
                least: 1,
                parallel: true,
            },
            Self::Angle { bends, .. } => {
                let level = |bend: &f64| BENDS.iter().take_while(|held| *held > bend).count();
                let least = bends.iter().map(level).max().unwrap_or(0).max(1);
                Lie {
                    bends: u8::try_from(bends.len()).unwrap_or(2),
                    least: u8::try_from(least).unwrap_or(3),
                    parallel: false,
                }
            }
        }
    }

    /// What is taken for granted, and what the bends come to.
    pub(super) fn words(&self, unit: Unit) -> Vec<String> {
        let far = "measure the parts: their own lengths come off the piece between";
        match self {
            Self::InLine => vec![String::from(
                "Taken: both ends in line and on grade within an inch. Where they are not, nothing below serves: say --offset or --angle.",
            )],
            Self::Offset(offset) => {
                let travel = |angle: f64| {
                    let radians = angle.to_radians();
                    let of = |by: f64| {
                        #[expect(clippy::cast_precision_loss, reason = "a length in a trench")]
                        let length = *offset as f64 / by;
                        #[expect(clippy::cast_possible_truncation, reason = "the same")]
                        let counts = length.round() as i64;
                        format::length(counts, unit)
                    };
                    format!(
                        "by {}s {} from centre to centre, {} of it along the line",
                        bend_words(angle),
                        of(radians.sin()),
                        of(radians.tan())
                    )
                };
                vec![
                    format!(
                        "Taken: both ends parallel, {} out of line, to the side or in grade. Two bends alike, turned against each other: {}; {far}.",
                        format::length(*offset, unit),
                        BENDS[1..]
                            .iter()
                            .map(|angle| travel(*angle))
                            .collect::<Vec<_>>()
                            .join("; ")
                    ),
                    // 20 ft times the tangent of a degree.
                    String::from(
                        "If the line can be opened further back, each 20 ft stick shifts 4.2 in for each degree that its maker allows at a bell: no bends then. Never more than that figure, and none in a fitting.",
                    ),
                ]
            }
            Self::Angle {
                degrees,
                bends,
                left,
            } => {
                let made: Vec<String> = bends.iter().map(|bend| bend_words(*bend)).collect();
                let bends = match &made[..] {
                    [] => String::from("no bend comes near"),
                    made => format!("bends of {}", made.join(" and ")),
                };
                let rest = if left.abs() < 0.5 {
                    String::new()
                } else {
                    format!(
                        ", {:.1} degrees {}. Bells of the line take that up as far as their maker allows: none in a fitting, at a transition gasket or in a restrained joint",
                        left.abs(),
                        if *left > 0.0 {
                            "short of it"
                        } else {
                            "too much"
                        }
                    )
                };
                vec![format!(
                    "Taken: the lines meet, and the second end points {degrees} degrees away from the first: {bends}{rest}; {far}."
                )]
            }
        }
    }

    /// What one piece that stands for both bends is asked for by.
    pub(super) fn offset(&self, unit: Unit) -> String {
        match self {
            Self::Offset(offset) => format!("for an offset of {}", format::length(*offset, unit)),
            _ => String::from("for the offset"),
        }
    }

    /// Which bend the piece is that stands for the nth, in words.
    pub(super) fn bend(&self, nth: usize) -> Option<String> {
        match self {
            Self::InLine => None,
            Self::Offset(_) => Some(bend_words(BENDS[1])),
            Self::Angle { bends, .. } => bends.get(nth).map(|bend| bend_words(*bend)),
        }
    }
}

/// `22-1/2`.
fn bend_words(angle: f64) -> String {
    let names = ["90", "45", "22-1/2", "11-1/4"];
    let at = BENDS.iter().position(|bend| (bend - angle).abs() < 1e-9);
    at.map_or_else(|| angle.to_string(), |at| names[at].to_owned())
}

/// Hours, as `4h`, `90min` or `2d`; a bare number is hours.
pub(super) fn hours(text: &str) -> Result<u16> {
    let text = text.trim().to_ascii_lowercase();
    let at = text.find(|c: char| c.is_alphabetic()).unwrap_or(text.len());
    let (number, unit) = text.split_at(at);
    let number = number.trim().parse::<f64>().ok();
    let hours = match unit {
        "" | "h" | "hr" | "hrs" | "hour" | "hours" => Some(1.0),
        "m" | "min" | "minutes" => Some(1.0 / 60.0),
        "d" | "day" | "days" => Some(24.0),
        _ => None,
    };
    let found = number.zip(hours).map(|(number, hours)| number * hours);
    match found {
        #[expect(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "within 0 and 8760"
        )]
        Some(hours) if hours > 0.0 && hours <= 8760.0 => Ok(hours.floor() as u16),
        _ => bail!("\"{text}\" is no time\n  try: hours or days, as 4h or 2d"),
    }
}

#[cfg(test)]
mod tests {
    use super::{Lying, hours};

    #[test]
    fn angles_are_made_of_few_bends() {
        for (degrees, made, rest) in [
            (45.0, vec![45.0], 0.0),
            (43.5, vec![45.0], -1.5),
            (56.25, vec![45.0, 11.25], 0.0),
            (67.5, vec![45.0, 22.5], 0.0),
            (30.0, vec![22.5, 11.25], -3.75),
            (4.0, vec![], 4.0),
            (11.25, vec![11.25], 0.0),
            (135.0, vec![90.0, 45.0], 0.0),
        ] {
            let Lying::Angle { bends, left, .. } = Lying::angle(degrees) else {
                panic!("an angle");
            };
            assert_eq!(bends, made, "{degrees}");
            assert!((left - rest).abs() < 1e-9, "{degrees}: {left}");
        }
    }

    #[test]
    fn times_are_read_as_people_say_them() {
        for (text, told) in [
            ("4h", 4),
            ("4", 4),
            ("2d", 48),
            ("90 min", 1),
            ("1.5 days", 36),
        ] {
            assert_eq!(hours(text).expect(text), told);
        }
        for text in ["", "soon", "-2h", "0", "4w"] {
            assert!(hours(text).is_err(), "{text}");
        }
    }
}
