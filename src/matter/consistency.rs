//! How thick a filling stands, in the words of the bench.

use crate::units::choices;

choices! {
    /// How a filling behaves off the spoon, thinnest first.
    Consistency: "a consistency" {
        /// Levels at once.
        Pours "pours",
        /// Slumps slowly.
        Soft "soft",
        /// Holds a piped line.
        Pipes "pipes",
        /// Holds a peak.
        Stands "stands",
    }
}
