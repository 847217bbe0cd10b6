//! The frame of an end fitting in the bay.

use crate::geom::{self, EndFrame};
use crate::model::{Port, RunEnd};

use super::resolve::ResolvedEnd;
use super::solution::EndSolution;

/// The frame of the end fitting `end` of a run on `port`, with the dimensions in force.
pub fn end_frame(port: &Port, end: &RunEnd, resolved: &ResolvedEnd) -> EndFrame {
    geom::end_frame(
        port.at,
        port.toward,
        resolved.angle_deg,
        end.clock_deg,
        resolved.along_mm,
        resolved.across_mm,
    )
}

/// One end of a solved run.
pub(super) fn solved(
    end: ResolvedEnd,
    frame: EndFrame,
    straight_mm: f64,
    straight_is_found: bool,
    straight_at_wanted_mm: Option<f64>,
) -> EndSolution {
    let set_back_mm = end.set_back_mm();
    let mouth = frame.exit + end.socket_mm * frame.direction;
    EndSolution {
        end,
        frame,
        straight_mm,
        straight_is_found,
        set_back_mm,
        mouth,
        straight_at_wanted_mm,
    }
}
