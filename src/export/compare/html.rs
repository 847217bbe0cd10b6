//! The comparison as one self-contained HTML page, good on A4 and Letter, in black and white too.

use std::fmt::Write;

use crate::export::html::{STYLE, escape, head, list};
use crate::export::ours::IN_HTML;
use crate::export::svg::svg;
use crate::report::captions;
use crate::report::compare::{Cell, Comparison, Row, RunCell, RunRow};

const OWN_STYLE: &str = include_str!("compare.css");

/// The whole page.
pub(super) fn html(comparison: &Comparison) -> String {
    let mut out = String::with_capacity(64 << 10);
    let title = escape(&format!("{}: routings side by side", comparison.title));
    // Writing to a String cannot fail, here and below.
    let _ = write!(
        out,
        "<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n\
         <meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n\
         {IN_HTML}\n\
         <title>{title}</title>\n<style>\n{STYLE}{OWN_STYLE}</style>\n</head>\n<body>\n<main>\n\
         <section class=\"page compare\">\n"
    );
    let letters: Vec<String> =
        comparison.routings.iter().map(|one| one.letter.to_string()).collect();
    head(
        &mut out,
        &comparison.title,
        &about(comparison),
        &format!("routings {}", letters.join(", ")),
    );
    let _ = writeln!(out, "<h1>{}</h1>", captions::COMPARE);
    let _ = writeln!(out, "<p class=\"sentence\">{}</p>", escape(&comparison.sentence));
    views(&mut out, comparison);
    figures(&mut out, comparison);
    runs(&mut out, comparison);
    let _ = writeln!(out, "<h3>{}</h3>", captions::COMPARE_READ);
    list(&mut out, "plain limits", &comparison.remarks);
    out.push_str("</section>\n</main>\n</body>\n</html>\n");
    out
}

fn about(comparison: &Comparison) -> String {
    let info = &comparison.info;
    let parts: Vec<&str> =
        [info.date.as_deref(), info.file_name.as_deref()].into_iter().flatten().collect();
    parts.join(" · ")
}

fn views(out: &mut String, comparison: &Comparison) {
    out.push_str("<figure>\n<figcaption class=\"legend\">");
    for (one, line) in comparison.routings.iter().zip(&comparison.legend) {
        let _ = write!(
            out,
            "<span>{} <b>{}</b> {}, {}</span>",
            svg(line).trim_end(),
            one.letter,
            escape(&one.name),
            escape(&line.title)
        );
    }
    out.push_str("</figcaption>\n");
    out.push_str(&svg(&comparison.views));
    out.push_str("</figure>\n");
}

/// The heads of the columns.
fn columns(out: &mut String, first: &str, comparison: &Comparison) {
    let _ = write!(out, "<thead><tr><th scope=\"col\">{first}</th>");
    for one in &comparison.routings {
        let _ = write!(out, "<th scope=\"col\"><b>{}</b> {}</th>", one.letter, escape(&one.short));
    }
    out.push_str("</tr></thead>\n<tbody>\n");
}

fn figures(out: &mut String, comparison: &Comparison) {
    out.push_str("<table class=\"side\">\n");
    columns(out, "", comparison);
    for row in &comparison.rows {
        figure(out, row);
    }
    out.push_str("</tbody>\n</table>\n");
}

fn figure(out: &mut String, row: &Row) {
    let class = if row.label.starts_with(' ') { " class=\"part\"" } else { "" };
    let _ = write!(out, "<tr{class}><th scope=\"row\">{}</th>", escape(row.label.trim()));
    for cell in &row.cells {
        let _ = write!(out, "<td>{}</td>", cell_words(cell));
    }
    out.push_str("</tr>\n");
}

fn cell_words(cell: &Cell) -> String {
    let mut words = format!("<b>{}</b>", escape(&cell.text));
    if !cell.word.is_empty() {
        let class = if cell.word == crate::report::compare::SAME { "same" } else { "better" };
        let _ = write!(words, " <span class=\"{class}\">{}</span>", escape(cell.word));
    }
    if !cell.detail.is_empty() {
        let _ = write!(words, "<br><span class=\"soft\">{}</span>", escape(&cell.detail));
    }
    words
}

fn runs(out: &mut String, comparison: &Comparison) {
    let _ = writeln!(out, "<h2>{}</h2>\n<table class=\"side runs\">", captions::COMPARE_RUNS);
    columns(out, "", comparison);
    for (place, run) in comparison.runs.iter().enumerate() {
        run_row(out, place + 1, run);
    }
    out.push_str("</tbody>\n</table>\n");
}

fn run_row(out: &mut String, number: usize, run: &RunRow) {
    let differences = run.differences_in_words();
    let _ = write!(out, "<tr><th scope=\"row\"><b>{number} {}</b></th>", escape(&run.name));
    for cell in &run.cells {
        let words =
            cell.as_ref().map_or_else(|| "<span class=\"soft\">none</span>".to_owned(), run_words);
        let _ = write!(out, "<td>{words}</td>");
    }
    let _ = writeln!(
        out,
        "</tr>\n<tr class=\"differences\"><td colspan=\"{}\">{}</td></tr>",
        run.cells.len() + 1,
        escape(&differences)
    );
}

fn run_words(cell: &RunCell) -> String {
    let state = match cell.faults_in_words().as_str() {
        "" => String::new(),
        faults => format!(" <span class=\"faults\">{faults}</span>"),
    };
    format!(
        "<b>{}</b>{state}<br><span class=\"soft\">{}</span>",
        escape(&cell.cut),
        escape(&cell.details_in_words())
    )
}
