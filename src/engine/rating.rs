//! The working pressure of an assembly: the lower of hose's and ends' (SAE J517).

use super::{end_kind, leak_test::size_of};
use crate::model::{Bay, Run, Side};

/// The working pressure of one part of an assembly.
#[derive(Debug, Clone, PartialEq)]
pub struct PartRating {
    /// `the hose`, `end A`
    pub part: String,
    /// Its greatest working pressure; none where no figure is known.
    pub working_bar: Option<f64>,
}

/// The hose, then both ends.
pub fn ratings(bay: &Bay, run: &Run) -> Vec<PartRating> {
    let hose = size_of(bay, run).and_then(|size| size.max_pressure_bar);
    let hose = PartRating { part: "the hose".to_owned(), working_bar: hose };
    let ends = [Side::A, Side::B].into_iter().map(|side| {
        let end = run.end(side);
        let size =
            end.end.as_deref().and_then(|id| end_kind(bay, id)?.size(run.dash, end.angle_deg));
        PartRating {
            part: format!("end {}", side.letter()),
            working_bar: size.and_then(|size| size.max_pressure_bar),
        }
    });
    std::iter::once(hose).chain(ends).collect()
}

/// The part with the lowest working pressure, with it; of equals the first. None where no part has
/// a figure.
pub fn weakest(bay: &Bay, run: &Run) -> Option<(String, f64)> {
    ratings(bay, run)
        .into_iter()
        .filter_map(|rating| Some((rating.part, rating.working_bar?)))
        .min_by(|a, b| a.1.total_cmp(&b.1))
}
