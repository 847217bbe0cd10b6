//! The blocks of the report as one self-contained HTML page: no script, nothing fetched, good on A4 and Letter.

mod blocks;

use std::fmt::Write;

use crate::report::blocks::{Document, Section};
use crate::units::is_plain;

use super::ours::IN_HTML;

const STYLE: &str = include_str!("style.css");

/// The whole page.
pub(super) fn html(document: &Document) -> String {
    let mut out = String::with_capacity(64 << 10);
    // Writing to a String cannot fail, here and below.
    let _ = write!(
        out,
        "<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n\
         <meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n\
         {IN_HTML}\n\
         <title>{}</title>\n<style>\n{STYLE}</style>\n</head>\n<body>\n<main>\n",
        escape(&document.title)
    );
    let mut is_open = false;
    for section in &document.sections {
        if section.starts_page || !is_open {
            if is_open {
                out.push_str("</section>\n");
            }
            open(&mut out, document, section);
            is_open = true;
        }
        blocks::push(&mut out, &section.blocks);
    }
    if is_open {
        out.push_str("</section>\n");
    }
    out.push_str("</main>\n</body>\n</html>\n");
    out
}

/// A page and its running head.
fn open(out: &mut String, document: &Document, section: &Section) {
    let id = section.hose.map_or_else(String::new, |hose| format!(" id=\"hose-{hose}\""));
    let info = [&document.info.file_name, &document.info.date];
    let from: Vec<&str> = info.into_iter().flatten().map(String::as_str).collect();
    let _ = writeln!(
        out,
        "<section class=\"page\"{id}>\n<header><b>{}</b><span>{}</span><span>{}</span><b>{}</b></header>",
        escape(&document.bay),
        escape(&document.routing),
        escape(&from.join(" · ")),
        escape(&section.about)
    );
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
