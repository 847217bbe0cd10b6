//! The sheet as one self-contained HTML page: no script, nothing fetched, good on A4 and Letter.

mod hose;
mod summary;

use std::fmt::Write;

use crate::units::is_plain;

use super::ours::IN_HTML;
use crate::report::sheet::{Fact, FindingLine, Sheet};

pub(super) const STYLE: &str = include_str!("style.css");

/// The whole page.
pub(super) fn html(sheet: &Sheet) -> String {
    let mut out = String::with_capacity(64 << 10);
    let title = escape(&format!("{}: length sheet, {}", sheet.title, sheet.routing));
    // Writing to a String cannot fail, here and below.
    let _ = write!(
        out,
        "<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n\
         <meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n\
         {IN_HTML}\n\
         <title>{title}</title>\n<style>\n{STYLE}</style>\n</head>\n<body>\n<main>\n"
    );
    summary::push(&mut out, sheet);
    for one in &sheet.hoses {
        hose::push(&mut out, sheet, one);
    }
    out.push_str("</main>\n</body>\n</html>\n");
    out
}

/// Words from outside as HTML text or attribute value. Characters that HTML does not allow become
/// the replacement character.
pub(super) fn escape(words: &str) -> String {
    let mut out = String::with_capacity(words.len());
    for c in words.chars() {
        match c {
            '&' => out.push_str("&amp;"),
            '<' => out.push_str("&lt;"),
            '>' => out.push_str("&gt;"),
            '"' => out.push_str("&quot;"),
            '\'' => out.push_str("&#39;"),
            '\n' | '\t' => out.push(c),
            c if !is_plain(c) || is_noncharacter(c) => out.push('\u{fffd}'),
            c => out.push(c),
        }
    }
    out
}

/// Code points that are never characters (HTML, parse error "noncharacter").
fn is_noncharacter(c: char) -> bool {
    let code = u32::from(c);
    (0xfdd0..=0xfdef).contains(&code) || code & 0xfffe == 0xfffe
}

/// A running head: what the page is about.
pub(super) fn head(out: &mut String, left: &str, middle: &str, right: &str) {
    let _ = writeln!(
        out,
        "<header class=\"head\"><div class=\"rule\"><span>{}</span><span>{}</span><span>{}</span></div></header>",
        escape(left),
        escape(middle),
        escape(right)
    );
}

/// Facts as a two-column table with remarks.
fn facts(out: &mut String, class: &str, facts: &[Fact]) {
    let _ = writeln!(out, "<table class=\"{class}\">");
    for fact in facts {
        let _ = writeln!(
            out,
            "<tr><th scope=\"row\">{}</th><td><b>{}</b>{}</td></tr>",
            escape(&fact.label),
            escape(&fact.value),
            remark(&fact.remark)
        );
    }
    out.push_str("</table>\n");
}

fn remark(words: &str) -> String {
    if words.is_empty() {
        String::new()
    } else {
        format!(" <span class=\"soft\">{}</span>", escape(words))
    }
}

/// Findings as a list, each with its word.
fn findings(out: &mut String, lines: &[FindingLine]) {
    out.push_str("<ul class=\"findings\">\n");
    for line in lines {
        let place = if line.place.is_empty() {
            String::new()
        } else {
            format!(", {}", escape(&line.place))
        };
        let _ = writeln!(
            out,
            "<li class=\"{severity}\"><span class=\"word\">{severity}</span> <b>{}</b> {} \
             <span class=\"soft\">[{}{place}] {}</span></li>",
            escape(&line.message),
            escape(&line.hint),
            escape(line.rule),
            source(&line.source),
            severity = line.severity,
        );
    }
    out.push_str("</ul>\n");
}

fn source(words: &str) -> String {
    if words.is_empty() { String::new() } else { format!("Source: {}", escape(words)) }
}

pub(super) fn list(out: &mut String, class: &str, items: &[String]) {
    let _ = writeln!(out, "<ul class=\"{class}\">");
    for item in items {
        let _ = writeln!(out, "<li>{}</li>", escape(item));
    }
    out.push_str("</ul>\n");
}

#[cfg(test)]
mod tests {
    use super::escape;

    #[test]
    fn words_cannot_become_markup() {
        assert_eq!(escape("<b a='1'>&\"</b>"), "&lt;b a=&#39;1&#39;&gt;&amp;&quot;&lt;/b&gt;");
        assert_eq!(escape("a\u{0}b\u{7f}c\u{ffff}"), "a\u{fffd}b\u{fffd}c\u{fffd}");
        assert_eq!(escape("Öl → −6"), "Öl → −6");
    }
}
