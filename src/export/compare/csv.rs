//! The comparison as CSV (RFC 4180, UTF-8): a header line, then one line for each figure of each
//! routing, then one for the cut length of each hose.

use crate::export::csv::{line, number, precise, text};
use crate::report::compare::{Cell, Comparison, Row};

const COLUMNS: [&str; 11] = [
    "figure", "label", "routing", "run", "value", "limit", "unit", "known", "text", "detail",
    "better",
];

/// The whole file. Lines end in CR LF. A value that is not known is an empty field; of a sum that is
/// not known whole the value is what is known.
pub(super) fn csv(comparison: &Comparison) -> String {
    let mut out = header();
    for row in &comparison.rows {
        for (cell, routing) in row.cells.iter().zip(&comparison.routings) {
            out.push_str(&line(&figure(row, cell, &routing.id)));
        }
    }
    for run in &comparison.runs {
        for (cell, routing) in run.cells.iter().zip(&comparison.routings) {
            let Some(cell) = cell else { continue };
            out.push_str(&line(&[
                "cut_length".to_owned(),
                text(&run.name),
                text(&routing.id),
                text(&run.id),
                cell.cut_mm.map_or_else(String::new, number),
                String::new(),
                "mm".to_owned(),
                yes(cell.cut_mm.is_some()),
                text(&cell.cut),
                text(&run.differences.join("; ")),
                String::new(),
            ]));
        }
    }
    out
}

/// The header line.
pub(in crate::export) fn header() -> String {
    line(&COLUMNS.map(str::to_owned))
}

fn figure(row: &Row, cell: &Cell, routing: &str) -> [String; 11] {
    let written = if row.unit == "bar" { precise } else { number };
    let optional = |value: Option<f64>| value.map_or_else(String::new, written);
    [
        text(&row.id),
        text(&row.label),
        text(routing),
        cell.run.as_deref().map_or_else(String::new, text),
        optional(cell.value),
        optional(cell.limit),
        row.unit.to_owned(),
        yes(!cell.is_unknown),
        text(&cell.text),
        text(&cell.detail),
        cell.word.to_owned(),
    ]
}

fn yes(is: bool) -> String {
    if is { "yes" } else { "no" }.to_owned()
}
