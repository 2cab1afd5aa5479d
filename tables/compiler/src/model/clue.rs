//! What may be seen and felt of a pipe.

use springline_core::image::Grade;

/// What a caution hangs on.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Meaning {
    /// Plastic is confirmed.
    Plastic,
    /// It may be asbestos-cement.
    Cement,
    /// It may carry gas.
    Gas,
}

/// One answer of a clue.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ClueAnswer {
    /// The key in files, options and JSON.
    pub key: String,
    /// How it is told back.
    pub words: String,
    /// What cautions hang on it.
    pub means: Vec<Meaning>,
}

/// A clue: a question with a choice of answers.
#[derive(Clone, Debug, PartialEq)]
pub struct Clue {
    /// The key in files, options and JSON.
    pub key: String,
    /// How people are asked.
    pub question: String,
    /// What it takes to find out.
    pub minutes: f64,
    /// Whether paint, wrap or mud can hide it.
    pub disguised: bool,
    /// The answers, in the order of the file.
    pub answers: Vec<ClueAnswer>,
    /// The chance of each answer, by family and then by answer.
    pub likelihoods: Vec<Vec<f64>>,
    /// Of the minutes and the wording: indices into [`super::Sources::sources`].
    pub sources: Vec<usize>,
    /// How far they can be trusted.
    pub grade: Grade,
}
