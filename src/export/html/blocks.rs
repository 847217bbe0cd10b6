//! Typed blocks as HTML: one way for each kind.

use std::fmt::Write;

use super::escape::escape;
use crate::drawing::Drawing;
use crate::export::svg::svg;
use crate::report::blocks::{Block, Cell, Fact, Finding, Row, RowKind, Table, Tone, Words};

pub(super) fn push(out: &mut String, blocks: &[Block]) {
    // A heading and what it heads stay together on paper, and the heading is printed again where that runs on.
    let mut rest = blocks;
    while let [first, after @ ..] = rest {
        rest = after;
        if let (Block::Heading { text, note }, [next, more @ ..]) = (first, after) {
            out.push_str("<div class=\"headed\">");
            out.push_str(&heading(text, note));
            one(out, next);
            out.push_str("</div>\n");
            rest = more;
        } else {
            one(out, first);
        }
    }
}

fn heading(text: &str, note: &str) -> String {
    format!("<h3>{}{}</h3>\n", escape(text), tagged("span", "soft", note))
}

fn one(out: &mut String, block: &Block) {
    // Writing to a String cannot fail, here and below.
    let _ = match block {
        Block::Title { text, lead } => {
            writeln!(out, "<h1>{}</h1>\n<p class=\"intro\">{}</p>", escape(text), words(lead))
        }
        Block::Name { text, lead } => {
            writeln!(out, "<h2>{}</h2>\n<p class=\"intro\">{}</p>", escape(text), words(lead))
        }
        Block::Heading { text, note } => write!(out, "{}", heading(text, note)),
        Block::Paragraph(told) => writeln!(out, "<p>{}</p>", words(told)),
        Block::Boxed { is_heavy, head, lines } => {
            let class = if *is_heavy { "boxed heavy" } else { "boxed" };
            let lines = each("p", lines);
            writeln!(
                out,
                "<div class=\"{class}\"><strong>{}</strong><div>{lines}</div></div>",
                escape(head)
            )
        }
        Block::Hero { caption, figure, other } => writeln!(
            out,
            "<p class=\"label\">{}</p>\n<p class=\"hero\"><b>{}</b> <span>{}</span></p>",
            escape(caption),
            escape(figure),
            escape(other)
        ),
        Block::Facts(told) => write!(out, "{}", facts(told)),
        Block::Table(told) => write!(out, "{}", table(told)),
        Block::Figure { caption, note, pictures } => {
            write!(out, "{}", figure(caption, note, pictures))
        }
        Block::Legend(lines) => {
            let lines = lines.iter().map(|(line, told)| {
                format!("<li>{} <span>{}</span></li>", svg(line).trim_end(), words(told))
            });
            writeln!(out, "<ul class=\"legend\">{}</ul>", lines.collect::<String>())
        }
        Block::Steps(steps) => {
            let steps = steps
                .iter()
                .map(|step| format!("<li><i class=\"tick\"></i>{}</li>\n", escape(step)));
            writeln!(out, "<ol class=\"steps\">\n{}</ol>", steps.collect::<String>())
        }
        Block::List(items) => writeln!(out, "<ul>{}</ul>", each("li", items)),
        Block::Columns(items) => writeln!(out, "<ul class=\"small\">{}</ul>", each("li", items)),
        Block::Cautions(cautions) => {
            let cautions = cautions.iter().map(|caution| {
                let source = tagged("span", "soft", &caution.source);
                format!(
                    "<p><b>{}.</b> {}{source}</p>\n",
                    escape(&caution.label),
                    escape(&caution.value)
                )
            });
            writeln!(out, "<div class=\"cautions\">\n{}</div>", cautions.collect::<String>())
        }
        Block::Findings(found) => {
            let found = found.iter().map(finding).collect::<String>();
            writeln!(out, "<ul class=\"findings\">\n{found}</ul>")
        }
        Block::Blanks(labels) => {
            let labels =
                labels.iter().map(|label| format!("<span>{}<i></i></span>", escape(label)));
            writeln!(out, "<p class=\"blanks\">{}</p>", labels.collect::<String>())
        }
        Block::Beside(columns) => {
            let shares: Vec<String> =
                columns.iter().map(|(share, _)| format!("minmax(0,{share}fr)")).collect();
            let _ = writeln!(
                out,
                "<div class=\"beside\" style=\"grid-template-columns:{}\">",
                shares.join(" ")
            );
            for (_, blocks) in columns {
                out.push_str("<div>\n");
                push(out, blocks);
                out.push_str("</div>\n");
            }
            writeln!(out, "</div>")
        }
    };
}

fn facts(facts: &[Fact]) -> String {
    let rows = facts.iter().map(|fact| {
        let remark = tagged("span", "soft", &fact.remark_and_source());
        let (label, value) = (escape(&fact.label), escape(&fact.value));
        format!("<tr><th scope=\"row\">{label}</th><td><b>{value}</b>{remark}</td></tr>\n")
    });
    format!("<table class=\"facts\">\n{}</table>\n", rows.collect::<String>())
}

/// The smallest picture: a page of paper has to hold it all.
fn figure(caption: &str, note: &str, pictures: &[Drawing]) -> String {
    let caption = if caption.is_empty() {
        String::new()
    } else {
        let note = tagged("span", "soft", note);
        format!("<figcaption><b>{}</b>{note}</figcaption>\n", escape(caption))
    };
    let picture = pictures.last().map(svg).unwrap_or_default();
    format!("<figure>\n{caption}{picture}</figure>\n")
}

fn finding(finding: &Finding) -> String {
    let follows = if finding.follows.is_empty() {
        String::new()
    } else {
        format!("<ul>{}</ul>", each("li", &finding.follows))
    };
    let mark = words(&vec![finding.mark.clone()]);
    format!(
        "<li><span class=\"mark\">{mark}</span><div>{}{follows}</div></li>\n",
        words(&finding.words)
    )
}

fn table(table: &Table) -> String {
    let class = if table.is_dense { "rows small" } else { "rows" };
    let whole: f64 = table.columns.iter().map(|column| column.share).sum();
    let columns = table
        .columns
        .iter()
        .map(|column| format!("<col style=\"width:{:.1}%\"/>", 100.0 * column.share / whole));
    let columns: String = columns.collect();
    let right: Vec<&str> = table
        .columns
        .iter()
        .map(|column| if column.is_right { " class=\"n\"" } else { "" })
        .collect();
    let heads = table
        .head
        .iter()
        .zip(&right)
        .map(|(head, right)| format!("<th scope=\"col\"{right}>{}</th>", words(head)));
    let heads: String = heads.collect();
    let head = if heads.is_empty() { heads } else { format!("<thead><tr>{heads}</tr></thead>\n") };
    let rows: String = table.rows.iter().map(|one| row(one, &right)).collect();
    format!(
        "<table class=\"{class}\">\n<colgroup>{columns}</colgroup>\n{head}<tbody>\n{rows}</tbody>\n</table>\n"
    )
}

fn row(row: &Row, right: &[&str]) -> String {
    let over = || row.cells.first().map(|first| cell(first, None)).unwrap_or_default();
    let count = right.len();
    match row.kind {
        RowKind::Group => format!(
            "<tr class=\"group\"><th colspan=\"{count}\" scope=\"rowgroup\">{}</th></tr>\n",
            over()
        ),
        RowKind::Below => format!(
            "<tr class=\"below\"><td></td><td colspan=\"{}\">{}</td></tr>\n",
            count.saturating_sub(1),
            over()
        ),
        RowKind::Plain | RowKind::Detail => {
            let class = if row.kind == RowKind::Detail { " class=\"detail\"" } else { "" };
            // The name of a hose leads to its page.
            let named = row.cells.iter().position(|cell| matches!(cell, Cell::Words(_)));
            let cells = row.cells.iter().zip(right).enumerate().map(|(place, (one, right))| {
                let link = row.hose.filter(|_| named == Some(place));
                format!("<td{right}>{}</td>", cell(one, link))
            });
            format!("<tr{class}>{}</tr>\n", cells.collect::<String>())
        }
    }
}

fn cell(cell: &Cell, link: Option<usize>) -> String {
    match cell {
        Cell::Tick => "<i class=\"tick\"></i>".to_owned(),
        Cell::Words(lines) => {
            let lines: Vec<String> = lines.iter().map(words).collect();
            match (link, &lines[..]) {
                (Some(hose), [first, rest @ ..]) => {
                    let first = format!("<a href=\"#hose-{hose}\">{first}</a>");
                    std::iter::once(first)
                        .chain(rest.iter().cloned())
                        .collect::<Vec<_>>()
                        .join("<br/>")
                }
                _ => lines.join("<br/>"),
            }
        }
    }
}

fn each(tag: &str, items: &[Words]) -> String {
    let items: Vec<String> =
        items.iter().map(|told| format!("<{tag}>{}</{tag}>", words(told))).collect();
    items.concat()
}

fn words(told: &Words) -> String {
    let span = |text: &str, tone: Tone| match tone {
        Tone::Plain => escape(text),
        Tone::Strong => format!("<b>{}</b>", escape(text)),
        Tone::Soft => format!("<span class=\"soft\">{}</span>", escape(text)),
        Tone::Label => format!("<span class=\"label\">{}</span>", escape(text)),
        Tone::Large => format!("<b class=\"large\">{}</b>", escape(text)),
        Tone::Framed => format!("<b class=\"framed\">{}</b>", escape(text)),
        Tone::Dark => format!("<b class=\"dark\">{}</b>", escape(text)),
    };
    told.iter().map(|part| span(&part.text, part.tone)).collect()
}

/// Words in a tag, with a gap before it; nothing where there are none.
fn tagged(tag: &str, class: &str, text: &str) -> String {
    if text.is_empty() {
        return String::new();
    }
    format!(" <{tag} class=\"{class}\">{}</{tag}>", escape(text))
}
