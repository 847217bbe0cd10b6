//! The blocks of the report as one self-contained HTML page: no script, nothing fetched, good on A4 and Letter.

mod blocks;
pub(super) mod escape;

use std::fmt::Write;

use crate::report::blocks::{Document, Section};

use self::escape::escape;
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
