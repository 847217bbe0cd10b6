//! The working pressure of an assembly: the lower of hose's and ends' (SAE J517).

use super::context::{RunContext, SIDES};

/// The working pressure of one part of an assembly.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct PartRating {
    /// `the hose`, `end A`
    pub(super) part: String,
    /// Its greatest working pressure; none where no figure is known.
    pub(super) working_bar: Option<f64>,
}

/// The hose, then both ends.
pub(super) fn ratings(run: &RunContext<'_>) -> Vec<PartRating> {
    let hose = PartRating { part: "the hose".to_owned(), working_bar: run.size.max_pressure_bar };
    let ends = SIDES.into_iter().map(|side| PartRating {
        part: format!("end {}", side.letter()),
        working_bar: run.end_size(side).and_then(|size| size.max_pressure_bar),
    });
    std::iter::once(hose).chain(ends).collect()
}

/// The part with the lowest working pressure, with it; of equals the first. None where no part has
/// a figure.
pub(super) fn weakest(run: &RunContext<'_>) -> Option<(String, f64)> {
    ratings(run)
        .into_iter()
        .filter_map(|rating| Some((rating.part, rating.working_bar?)))
        .min_by(|a, b| a.1.total_cmp(&b.1))
}
