//! Headings and captions that every printed form of the sheet has alike.

use super::sheet::Sheet;
use crate::units::LengthUnit;

pub(super) const STOP: &str = "Do not cut yet";
pub(super) const LEFT_OUT: &str = "Not on this sheet";
pub(super) const ABOUT_BAY: &str = "About the bay";
pub(super) const NOTES: &str = "Builder’s notes";
pub(super) const NOT_MEASURED: &str = "Not measured: check these on your own parts";
pub(super) const LIMITS: &str = "What this sheet does not claim";
pub(super) const ROUNDED: &str =
    "Cut lengths are rounded up: to 1/16 in, to 1 mm. From end A to end B.";
pub(super) const CUT: &str = "cut length, rounded up";
pub(super) const TOLERANCE: &str = "when cutting ±";
pub(super) const DRY_FIT: &str = "Dry fit";
pub(super) const MARK: &str = "Mark, measuring from cut end A";
pub(super) const BENDS: &str = "Middles of the bends, for information:";
pub(super) const ROUTE: &str = "Route";
pub(super) const ROUTE_NOTE: &str = "as drawn: circles are the seats, dark the sockets, frames the \
     clamps; obstacles lightly, hatched: hot, dashed: moving, dotted: sharp";
pub(super) const BENCH: &str = "On the bench";
pub(super) const BENCH_NOTE: &str = "the maker’s word goes first";
pub(super) const TORQUE: &str = "Swivel nut on its port, at installation";
pub(super) const TORQUE_NOTE: &str =
    "torque, threads lubricated; not for the nipple; the maker’s figure rules";
pub(super) const NO_TORQUE: &str = "No table lists this size: take the maker’s figure.";
pub(super) const LEAK_TEST: &str = "Leak test";
pub(super) const MADE: &str = "As it was made";
pub(super) const INSTALLED: &str = "Installed shape, calculated";
pub(super) const FLOW: &str = "Flow, calculated";
pub(super) const RESULT: &str = "result";
pub(super) const WAIT: &str = "Hoses marked “do not cut yet” wait until that is done.";
pub(super) const OPEN: &str = "Open findings, worst first";
pub(super) const OPEN_NOTE: &str = "what to do about each stands with its hose";
pub(super) const LABELS_NOTE: &str = "cut along the marks";
pub(super) const BENCH_TAGS: &str = "Bench tags, for the cut pieces";
pub(super) const FINISHED_LABELS: &str = "Labels for finished hoses";
pub(super) const STOP_USE: &str = "Not to be used yet";
pub(super) const LABEL_LOT: &str = "lot";
pub(super) const LABEL_CUT_BY: &str = "cut by";
pub(super) const LABEL_MADE_ON: &str = "made on";
pub(super) const LABEL_REPLACE_BY: &str = "replace by";
pub(super) const LABEL_TESTED: &str = "tested on";
pub(super) const COMPARE: &str = "Routings side by side";
pub(super) const COMPARE_RUNS: &str = "Hose by hose";
pub(super) const COMPARE_READ: &str = "How to read it";
pub(super) const TEMPLATE: &str = "full-size template";
pub(super) const BEND_TABLE: &str = "Bend table for a wire";
pub(super) const BEND_TABLE_NOTE: &str = "bend a stiff wire by it and try it in the bay";
pub(super) const TEMPLATE_BAR: &str = "100 mm";
pub(super) const TEMPLATE_PRINT: &str =
    "Print at 100 %, no “fit to page”; both bars must measure 100 mm: check them first.";
pub(super) const TEMPLATE_JOIN: &str =
    " Lay the pages over one another so that the crosses meet, and tape them.";

/// Routing, date, units, file.
pub(super) fn about(sheet: &Sheet) -> String {
    let mut parts = vec![format!("routing {}", sheet.routing)];
    parts.extend(sheet.info.date.clone());
    parts.push(match sheet.unit {
        LengthUnit::Inch => "inches, millimetres beside them".to_owned(),
        LengthUnit::Mm => "millimetres, inches beside them".to_owned(),
    });
    parts.extend(sheet.info.file_name.clone());
    parts.join(" · ")
}

/// What the strip shows, and in which unit.
pub(super) fn mark_note(sheet: &Sheet) -> String {
    format!("({}; length to scale, thickness not; bends for information)", sheet.unit.sign())
}
