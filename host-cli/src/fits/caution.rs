//! What could hurt someone who puts a part on.

/// Always last, because it is true of every trench.
pub(super) const ALWAYS: &str =
    "Locate (private lines too), prove it dead; competent person and code decide.";
