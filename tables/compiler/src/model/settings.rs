//! `settings.toml`, field by field.

use serde::Deserialize;

/// The constants of the model. Lengths in inches, temperatures in degrees F.
#[derive(Clone, Debug, Default, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Settings {
    /// Which table set this is.
    pub set: Set,
    /// Temperature of the pipe wall.
    pub temperature: Temperature,
    /// What replaces a tolerance that is not known.
    pub tolerance: Tolerance,
    /// Paint, mud and scale.
    pub coat: Coat,
    /// Where on the circumference a single diameter is taken.
    pub sight: Sight,
    /// Readings that are of no listed pipe.
    pub outside: Outside,
    /// How thick walls are.
    pub wall: Wall,
    /// What an unknown site is made of.
    pub site: Site,
    /// Clues in general.
    pub clues: Clues,
    /// Checks that are readings, and what one is worth.
    pub checks: Checks,
    /// What is printed on pipes.
    pub print: PrintLines,
    /// Sizes without a weight.
    pub sizes: Sizes,
    /// Thresholds of the answer.
    pub answer: Answer,
    /// How instruments see a diameter.
    #[serde(rename = "instrument")]
    pub instruments: Instruments,
}

/// Which table set this is.
#[derive(Clone, Debug, Default, PartialEq, Eq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Set {
    /// Its name.
    pub name: String,
    /// Goes up with every release of the set.
    pub counter: u32,
}

/// Temperature of the pipe wall, degrees F.
#[derive(Clone, Copy, Debug, Default, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Temperature {
    /// At which the diameters of the standards hold.
    pub reference: f64,
    /// Mean where nobody measured it.
    pub mean: f64,
    /// Standard deviation where nobody measured it.
    pub sd: f64,
    /// Standard deviation of a temperature that was told.
    pub told_sd: f64,
}

/// What replaces a tolerance that is not known.
#[derive(Clone, Copy, Debug, Default, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Tolerance {
    /// Factor on a tolerance that stands on memory.
    pub memory_widening: f64,
    /// Share of the OD where no tolerance is known.
    pub blank_share: f64,
    /// The least of it, inches.
    pub blank: f64,
}

/// Paint, mud and scale.
#[derive(Clone, Copy, Debug, Default, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Coat {
    /// Share of pipes that carry any.
    pub share: f64,
    /// At most this on the diameter, inches.
    pub thickness: f64,
}

/// Where on the circumference a single diameter is taken.
#[derive(Clone, Copy, Debug, Default, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Sight {
    /// Share of single diameters taken across the springline.
    pub springline_share: f64,
    /// How far off those are, degrees.
    pub springline_half_angle: f64,
    /// How far off a told clock position may be, degrees.
    pub clock_half_angle: f64,
}

/// Readings that are of no listed pipe.
#[derive(Clone, Copy, Debug, Default, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Outside {
    /// Share of readings of a bell, coupling or sleeve.
    pub bell_share: f64,
    /// Least ratio of a bell to its pipe.
    pub bell_low: f64,
    /// Greatest ratio of a bell to its pipe.
    pub bell_high: f64,
    /// Share of misreadings.
    pub misread_share: f64,
    /// Share of pipes in no table.
    pub unlisted_share: f64,
    /// Least OD of an unlisted pipe, inches.
    pub low: f64,
    /// Greatest OD of an unlisted pipe, inches.
    pub high: f64,
}

/// How thick walls are beside what a standard prints.
#[derive(Clone, Copy, Debug, Default, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Wall {
    /// How far walls of plastic go beyond their minimum, a share of it.
    pub plastic_over: f64,
    /// Standard deviation of walls of metal, a share of the nominal one.
    pub metal_sd: f64,
    /// Thinnest wall of a pipe whose walls no table has, inches.
    pub low: f64,
    /// Thickest, inches.
    pub high: f64,
}

/// What an unknown site is made of.
#[derive(Clone, Copy, Debug, Default, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Site {
    /// Share of irrigation.
    pub unknown_irrigation: f64,
    /// Share of municipal.
    pub unknown_municipal: f64,
}

/// Checks that are readings, and what one is worth.
#[derive(Clone, Copy, Debug, Default, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Checks {
    /// A diameter crossing the first.
    pub crossed_minutes: f64,
    /// A tape where both sides are dug.
    pub tape_dug_minutes: f64,
    /// A tape where they are not.
    pub tape_minutes: f64,
    /// The reading again, a foot along.
    pub along_minutes: f64,
    /// The print line.
    pub print_minutes: f64,
    /// The wall at a cut end.
    pub wall_minutes: f64,
    /// What a bit less of doubt is worth beside certainty.
    pub doubt_share: f64,
}

/// What is printed on pipes.
#[derive(Clone, Copy, Debug, Default, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct PrintLines {
    /// Share of pipes whose line can be read.
    pub legible: f64,
    /// Share of things that are read as another of the tables' values.
    pub misread: f64,
    /// Share of lines that belong to something else.
    pub foreign: f64,
}

/// Clues in general.
#[derive(Clone, Copy, Debug, Default, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Clues {
    /// Share of pipes whose disguised clues are those of any pipe.
    pub disguise_share: f64,
    /// Share of plans that name the right family.
    pub plans_family_right: f64,
    /// Share of plans that name the right size.
    pub plans_size_right: f64,
    /// Part of a clue's largest likelihood below which it contradicts the rest.
    pub contradiction: f64,
}

/// Sizes without a weight.
#[derive(Clone, Copy, Debug, Default, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Sizes {
    /// Weight of a nominal size that `sizes.csv` does not list.
    pub other_weight: f64,
}

/// Thresholds of the answer.
#[derive(Clone, Copy, Debug, Default, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Answer {
    /// Settled when everything else has at most this.
    pub settled_rest: f64,
    /// Outside the tables from this on.
    pub outside_at_least: f64,
    /// Likely from this on.
    pub likely: f64,
    /// Shown from this on.
    pub shown: f64,
    /// Counted as a candidate from this on.
    pub counted: f64,
    /// Asbestos-cement is warned of from this on.
    pub cement_warning: f64,
    /// Gas is warned of from this on.
    pub gas_warning: f64,
}

/// How the instruments see a diameter.
#[derive(Clone, Copy, Debug, Default, PartialEq, Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub struct Instruments {
    /// Caliper.
    pub caliper: Instrument,
    /// Diameter tape.
    pub diameter_tape: Instrument,
    /// Steel tape around the pipe.
    pub steel_tape: Instrument,
    /// String around the pipe.
    pub string: Instrument,
    /// Chord template.
    pub chord: Instrument,
    /// Rise over a chord.
    pub rise: Instrument,
    /// Jaws with a scale.
    pub jaw: Instrument,
    /// A wall at a cut end.
    pub wall: Instrument,
}

impl Instruments {
    /// Every instrument with its key, in the order of the image.
    #[must_use]
    pub const fn in_order(&self) -> [(&'static str, Instrument); 8] {
        [
            ("caliper", self.caliper),
            ("diameter-tape", self.diameter_tape),
            ("steel-tape", self.steel_tape),
            ("string", self.string),
            ("chord", self.chord),
            ("rise", self.rise),
            ("jaw", self.jaw),
            ("wall", self.wall),
        ]
    }
}

/// How an instrument sees a diameter.
#[derive(Clone, Copy, Debug, Default, PartialEq, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub struct Instrument {
    /// Constant part of the standard deviation, inches.
    pub sigma: f64,
    /// Part of it that grows with the diameter, a share.
    pub sigma_share: f64,
    /// The step it is read to, inches.
    pub step: f64,
    /// What a tape's own thickness adds, inches.
    pub offset: f64,
    /// Standard deviation of that, inches.
    pub offset_sd: f64,
    /// Standard deviation of a tape's slant, degrees, half-normal.
    pub slant_sd: f64,
    /// Standard deviation of a tape's stretch, a share.
    pub stretch_sd: f64,
}
