//! `compare` for people.

use std::fmt::Write;

use crate::report::compare::{Cell, Comparison, RunCell};

use super::output;
use super::table::{Align, shortened, table, wrap};

/// No line of ours is wider, but for words that cannot be broken.
const COLUMNS: usize = 108;
/// What a figure is called.
const LABEL_COLUMNS: usize = 28;
/// A column is no narrower, however many routings there are.
const LEAST_COLUMNS: usize = 14;

/// The sentence, the figures, the differences hose by hose.
pub(super) fn compare(comparison: &Comparison) -> String {
    let mut out = String::new();
    // Writing to a String cannot fail, here and below.
    let _ = writeln!(out, "{}", shortened(&comparison.title, COLUMNS));
    for one in &comparison.routings {
        let named = format!("{}  {} ({})", one.letter, one.id, one.name);
        let _ = writeln!(out, "{}", shortened(&named, COLUMNS));
    }
    say(&mut out, &comparison.sentence);
    out.push('\n');
    figures(&mut out, comparison);
    runs(&mut out, comparison);
    for remark in &comparison.remarks {
        say(&mut out, remark);
    }
    output::plain(&out)
}

fn say(out: &mut String, words: &str) {
    let _ = write!(out, "\n{}\n", wrap(words, COLUMNS, 0));
}

/// How wide the column of one routing may be.
fn room(comparison: &Comparison) -> usize {
    let count = comparison.routings.len().max(1);
    ((COLUMNS - LABEL_COLUMNS) / count).saturating_sub(2).max(LEAST_COLUMNS)
}

fn heads(comparison: &Comparison) -> Vec<String> {
    let room = room(comparison);
    let head = |one: &crate::report::compare::Column| {
        shortened(&format!("{}  {}", one.letter, one.short), room)
    };
    comparison.routings.iter().map(head).collect()
}

fn lined(heads: &[String], rows: &[Vec<String>], first: &str) -> String {
    let mut heading = vec![(first, Align::Left)];
    heading.extend(heads.iter().map(|head| (head.as_str(), Align::Left)));
    table(&heading, rows)
}

fn figures(out: &mut String, comparison: &Comparison) {
    let room = room(comparison);
    let mut rows: Vec<Vec<String>> = Vec::new();
    for row in &comparison.rows {
        let set_in = if row.is_detail { "  " } else { "" };
        let mut told = vec![shortened(&format!("{set_in}{}", row.label), LABEL_COLUMNS)];
        told.extend(row.cells.iter().map(|cell| shortened(&words(cell), room)));
        rows.push(told);
        let details: Vec<Vec<String>> =
            row.cells.iter().map(|cell| lines(&cell.detail, room)).collect();
        for line in 0..details.iter().map(Vec::len).max().unwrap_or(0) {
            let mut places = vec![String::new()];
            places.extend(details.iter().map(|lines| lines.get(line).cloned().unwrap_or_default()));
            rows.push(places);
        }
    }
    out.push_str(&lined(&heads(comparison), &rows, ""));
}

/// At most two lines of a column; the page and the JSON have the rest.
fn lines(words: &str, room: usize) -> Vec<String> {
    let wrapped = wrap(words, room, 0);
    let mut lines = wrapped.lines();
    let first = lines.next().map(|line| shortened(line, room));
    let rest: Vec<&str> = lines.collect();
    let second = (!rest.is_empty()).then(|| shortened(&rest.join(" "), room));
    first.into_iter().chain(second).collect()
}

/// A figure and what is better about it.
fn words(cell: &Cell) -> String {
    if cell.word.is_empty() { cell.text.clone() } else { format!("{}  [{}]", cell.text, cell.word) }
}

fn runs(out: &mut String, comparison: &Comparison) {
    out.push_str("\nHose by hose, cut lengths\n\n");
    let room = room(comparison);
    let mut rows = Vec::new();
    for run in &comparison.runs {
        let mut told = vec![shortened(&run.name, LABEL_COLUMNS)];
        told.extend(run.cells.iter().map(|cell| {
            cell.as_ref()
                .map_or_else(|| "none".to_owned(), |cell| shortened(&run_words(cell), room))
        }));
        rows.push(told);
    }
    out.push_str(&lined(&heads(comparison), &rows, ""));
    out.push('\n');
    for run in &comparison.runs {
        let differences = run.differences_in_words();
        let _ = writeln!(out, "{}", wrap(&format!("{}: {differences}", run.name), COLUMNS, 4));
    }
}

fn run_words(cell: &RunCell) -> String {
    match cell.counts.faults {
        0 => cell.cut.clone(),
        1 => format!("{}, 1 fault", cell.cut),
        n => format!("{}, {n} faults", cell.cut),
    }
}
