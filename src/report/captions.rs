//! Headings and captions that every printed form of the sheet has alike.

use super::sheet::Sheet;
use crate::checks::Severity;
use crate::units::LengthUnit;

pub(crate) const SHEET: &str = "length sheet";
pub(crate) const ALL_HOSES: &str = "All hoses";
pub(crate) const STOP: &str = "Do not cut yet";
pub(crate) const MORE_BELOW: &str = "more, below";
pub(crate) const MORE_LAST: &str = "more, see the last page";
pub(crate) const MORE_FIRST: &str = "more, see the first page";
pub(crate) const LOOK: &str = "Look first";
pub(crate) const FINE: &str = "no fault, no warning";
pub(crate) const FINE_TICK: &str = "✓ no fault";
pub(crate) const PRACTICE: &str = "What has no source is common practice.";
pub(crate) const STOPS: &str = "What stops";
pub(crate) const STOPS_NOTE: &str = "what to do about each stands with its hose";
pub(crate) const LEFT_OUT: &str = "Not on this sheet";
pub(crate) const ABOUT_BAY: &str = "About the bay";
pub(crate) const NOTES: &str = "Builder’s notes";
pub(crate) const NOT_MEASURED: &str = "Not measured: check these on your own parts";
pub(crate) const LIMITS: &str = "What this sheet does not claim";
pub(crate) const ROUNDED: &str =
    "Cut lengths are rounded up: to 1/16 in, to 1 mm. From end A to end B.";
pub(crate) const CUT: &str = "cut length, rounded up";
pub(crate) const TOLERANCE: &str = "when cutting";
pub(crate) const DRY_FIT: &str = "Dry fit";
pub(crate) const MARK: &str = "Mark, measuring from cut end A";
pub(crate) const SET_BACK: &str = "set-back";
/// Beside a set-back that is neither measured nor published.
pub(crate) const MEASURE_YOURS: &str = "NOT measured ";
pub(crate) const CLOCK: &str = "Clock angle";
pub(crate) const ROUTE: &str = "Route";
pub(crate) const ROUTE_NOTE: &str =
    "as drawn; obstacles hatched: hot, dashed: moving, dotted: sharp";
pub(crate) const BENCH: &str = "On the bench";
pub(crate) const BENCH_NOTE: &str =
    "the manufacturer’s instructions come first; (TM), (14315): sources, on the last page";
pub(crate) const TORQUE: &str = "Swivel nut on its port, at installation";
pub(crate) const TORQUE_NOTE: &str =
    "torque, lubricated, not for the nipple; the manufacturer’s figure rules";
pub(crate) const NO_TORQUE: &str = "No table lists this size: take the manufacturer’s figure.";
pub(crate) const TESTS: &str = "Tests";
pub(crate) const MADE: &str = "Made and tested";
pub(crate) const INSTALLED: &str = "Installed, calculated";
pub(crate) const FLOW: &str = "Flow, calculated";
pub(crate) const READ: &str = "How to read it:";
pub(crate) const READ_NOTE: &str = "centre-line radii and clearances stand before their minimum; overall: seat to seat, \
     laid straight. Acceptable cut lengths meet radius, clearance and reach in every position, shortened by pressure. Flow: \
     the hose alone, over its cut length.";
pub(crate) const OTHERS: &str = "Warnings and notes";
pub(crate) const POSITIONS: &str = "Positions:";
pub(crate) const RESULT: &str = "test result";
pub(crate) const WAIT: &str = "Hoses marked “do not cut yet” wait until that is done.";
pub(crate) const FOUND: &str = "Found on";
pub(crate) const FOUND_NOTE: &str = "fix the faults before cutting";
pub(crate) const APPENDIX: &str = "to look up";
pub(crate) const LENGTHS: &str = "As drawn";
pub(crate) const SOURCES: &str = "Sources";
pub(crate) const STEPS_SOURCE: &str =
    "Steps: TM is Army TM 1-1500-204-23-2, 14315 is NAVEDTRA 14315 (published).";
pub(crate) const DEFER: &str =
    "Local codes, manufacturers’ instructions and licensed technicians come first.";
pub(crate) const LABELS_NOTE: &str = "cut along the marks";
pub(crate) const BENCH_TAGS: &str = "Bench tags, for the cut pieces";
pub(crate) const FINISHED_LABELS: &str = "Labels for finished hoses";
pub(crate) const STOP_USE: &str = "Not to be used yet";
pub(crate) const LABEL_LOT: &str = "lot";
pub(crate) const LABEL_CUT_BY: &str = "cut by";
pub(crate) const LABEL_MADE_ON: &str = "made on";
pub(crate) const LABEL_REPLACE_BY: &str = "replace by";
pub(crate) const LABEL_TESTED: &str = "tested on";
pub(crate) const COMPARE: &str = "Routings side by side";
pub(crate) const COMPARE_RUNS: &str = "Hose by hose";
pub(crate) const COMPARE_READ: &str = "How to read it";
pub(crate) const TEMPLATE: &str = "full-size template";
pub(crate) const BEND_TABLE: &str = "Bend table for a wire";
pub(crate) const BEND_TABLE_NOTE: &str = "bend a stiff wire by it and try it in the bay";
pub(crate) const TEMPLATE_JOIN: &str =
    " Lay the pages over one another so that the crosses meet, and tape them.";

/// How a template is printed: `bar` is the length of the bars on it.
pub(crate) fn template_print(bar: &str) -> String {
    format!("Print at 100 %, no “fit to page”; both bars must measure {bar}: check them first.")
}

/// Routing, date, units, file.
pub(crate) fn about(sheet: &Sheet) -> String {
    let mut parts = vec![format!("routing {}", sheet.routing)];
    parts.extend(sheet.info.date.clone());
    parts.push(match sheet.unit {
        LengthUnit::Inch => "inches; lengths to cut and mark in millimetres too".to_owned(),
        LengthUnit::Mm => "millimetres; lengths to cut and mark in inches too".to_owned(),
    });
    parts.extend(sheet.info.file_name.clone());
    parts.join(" · ")
}

/// The word on paper.
pub(crate) fn severity(severity: Severity) -> &'static str {
    match severity {
        Severity::Fail => "fault",
        Severity::Warn => "warning",
        Severity::Note => "note",
    }
}
