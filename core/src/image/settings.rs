//! The record of the model's constants.

use super::record::record;

record! {
    /// The constants of the model. Shares are Q32, lengths counts of 10 nm, temperatures hundredths of 1 °F.
    Settings, 172, {
        /// Temperature at which the tables' diameters hold.
        reference_temperature: i32 = 0,
        /// Mean wall temperature where none was told.
        unknown_mean: i32 = 4,
        /// Its standard deviation.
        unknown_sd: u16 = 8,
        /// Standard deviation of a temperature that was told.
        told_sd: u16 = 10,
        /// Share of pipes that carry a coat of paint, mud or scale.
        coat_share: u32 = 12,
        /// Mean of that coat on the diameter.
        coat_mean: u32 = 16,
        /// Its standard deviation.
        coat_sd: u32 = 20,
        /// Share of readings taken on a bell, coupling or sleeve.
        bell_share: u32 = 24,
        /// Smallest bell over the pipe's OD, Q16.
        bell_low: u32 = 28,
        /// Largest bell over the pipe's OD, Q16.
        bell_high: u32 = 32,
        /// Share of readings that are misread.
        misread_share: u32 = 36,
        /// Share of pipes that are in no table.
        unlisted_share: u32 = 40,
        /// Density of a log-uniform diameter, times the diameter: one over the log of its range, Q32.
        log_uniform: u32 = 44,
        /// Smallest diameter that can be misread or unlisted.
        outside_low: i32 = 48,
        /// Largest.
        outside_high: i32 = 52,
        /// Share of single diameters taken across the springline.
        springline_share: u32 = 56,
        /// Mean of the squash that a diameter near the springline sees, as a share of the whole, Q16.
        springline_mean: u32 = 60,
        /// Its variance, Q32.
        springline_variance: u32 = 64,
        /// The same for a diameter whose clock position was told: mean of its cosine, Q16.
        clock_mean: u32 = 68,
        /// Variance of that cosine, Q32.
        clock_cosine_variance: u32 = 72,
        /// Variance of the sine, Q32.
        clock_sine_variance: u32 = 76,
        /// Farthest that any row reaches beyond its band, as a share of its OD, Q32.
        reach_share: u32 = 80,
        /// The same, a length.
        reach: i32 = 84,
        /// The farthest that a squash moves a diameter, as a share, Q32.
        squash_reach: u32 = 88,
        /// Settled: all that is left has at most this share.
        settled_rest: u32 = 92,
        /// Outside: the outside mass has at least this share.
        outside_at_least: u32 = 96,
        /// Likely: the best answer has at least this share.
        likely: u32 = 100,
        /// A candidate below this is not shown.
        shown: u32 = 104,
        /// An answer below this is not counted among several.
        counted: u32 = 108,
        /// A warning of asbestos-cement from this share on.
        cement_warning: u32 = 112,
        /// The gas stop from this share on, when the colour or the print says gas.
        gas_warning: u32 = 116,
        /// Share of pipes whose disguised clues are those of any pipe.
        disguise_share: u32 = 120,
        /// Share of plans that name the right family.
        plans_family_right: u32 = 124,
        /// Share of plans that name the right size.
        plans_size_right: u32 = 128,
        /// A clue contradicts the others below this part of its largest likelihood.
        contradiction: u32 = 132,
        /// What a diameter crossing the first takes, hundredths of a minute.
        crossed_effort: u16 = 136,
        /// What a tape takes where both sides are dug.
        tape_dug_effort: u16 = 138,
        /// What it takes where they are not.
        tape_effort: u16 = 140,
        /// What the reading again takes, a foot along.
        along_effort: u16 = 142,
        /// What a bit less of doubt is worth beside certainty, Q32.
        doubt_share: u32 = 144,
        /// What the print line takes.
        print_effort: u16 = 148,
        /// What the wall at a cut end takes.
        wall_effort: u16 = 150,
        /// How far walls of plastic go beyond their minimum, a share of it, Q32.
        wall_over: u32 = 152,
        /// Standard deviation of walls of metal, a share of the nominal one, Q32.
        wall_sd: u32 = 156,
        /// Thinnest wall of a pipe whose walls no table has.
        wall_low: i32 = 160,
        /// Thickest.
        wall_high: i32 = 164,
        /// Density of such a wall, log-uniform, times the wall: one over the log of its range, Q32.
        wall_log_uniform: u32 = 168,
    }
}
