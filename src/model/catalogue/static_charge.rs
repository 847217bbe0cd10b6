//! Static charge: fuel that flows through a liner that does not conduct charges it, until it
//! sparks through.

use crate::model::{Mark, Source};

/// Greatest surface resistance of a liner that counts as conductive, Ω per square ([`SOURCE`]).
pub const CONDUCTIVE_TO_OHM_PER_SQUARE: f64 = 1e6;

/// Where the limit comes from.
pub const SOURCE: Source =
    Source::fixed(Mark::Published, "SAE J1645, summary: liner to 1e6 Ω/sq, earthed");
