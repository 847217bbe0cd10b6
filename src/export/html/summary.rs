//! The first page: the bay, all hoses, what was found, what is not claimed.

use std::fmt::Write;

use super::{escape, findings, head, list};
use crate::report::captions;
use crate::report::sheet::{HoseSheet, Sheet};

pub(super) fn push(out: &mut String, sheet: &Sheet) {
    out.push_str("<section class=\"page summary\">\n");
    head(out, &sheet.title, &format!("routing: {}", sheet.routing), "length sheet");
    out.push_str("<div class=\"body\">\n");
    let _ = writeln!(
        out,
        "<h1>{}</h1>\n<p class=\"lead\">{}</p>",
        escape(&sheet.title),
        escape(&captions::about(sheet))
    );
    let severity = if sheet.counts.fails > 0 { "fail" } else { "fine" };
    let _ = writeln!(
        out,
        "<p class=\"verdict {severity}\">Checked: {}.{}</p>",
        escape(&sheet.verdict),
        if sheet.counts.fails > 0 { format!(" {}", captions::WAIT) } else { String::new() }
    );
    hoses(out, sheet);
    if !sheet.left_out.is_empty() {
        h3(out, captions::LEFT_OUT);
        list(out, "plain", &sheet.left_out);
    }
    if !sheet.bay_findings.is_empty() {
        h3(out, captions::ABOUT_BAY);
        findings(out, &sheet.bay_findings);
    }
    if !sheet.notes.is_empty() {
        h3(out, captions::NOTES);
        let _ = writeln!(out, "<p class=\"notes\">{}</p>", escape(&sheet.notes));
    }
    if !sheet.not_measured.is_empty() {
        h3(out, captions::NOT_MEASURED);
        list(out, "plain", &sheet.not_measured);
    }
    h3(out, captions::LIMITS);
    list(out, "plain limits", &sheet.limits);
    out.push_str("</div>\n</section>\n");
}

fn h3(out: &mut String, heading: &str) {
    let _ = writeln!(out, "<h3>{}</h3>", escape(heading));
}

fn hoses(out: &mut String, sheet: &Sheet) {
    out.push_str(
        "<table class=\"hoses\">\n<thead><tr><th scope=\"col\">Hose</th><th scope=\"col\">From → to</th>\
         <th scope=\"col\">Size and kind</th><th scope=\"col\" class=\"n\">Cut</th>\
         <th scope=\"col\" class=\"n\"></th><th scope=\"col\">Between elbows</th>\
         <th scope=\"col\">State</th></tr></thead>\n<tbody>\n",
    );
    for hose in &sheet.hoses {
        row(out, hose);
    }
    out.push_str("</tbody>\n</table>\n");
    let _ = writeln!(out, "<p class=\"soft\">{}</p>", escape(captions::ROUNDED));
    let _ = writeln!(out, "<p>{}</p>", escape(&sheet.leak_tests));
}

fn row(out: &mut String, hose: &HoseSheet) {
    let stop = if hose.stop.is_empty() { "" } else { " class=\"fail\"" };
    let _ = writeln!(
        out,
        "<tr{stop}><th scope=\"row\"><a href=\"#hose-{number}\">{name}</a></th><td>{from} → {to}</td>\
         <td>{kind}</td><td class=\"n\"><b>{cut}</b></td><td class=\"n soft\">{other}</td>\
         <td>{clock}</td><td>{state}</td></tr>",
        number = hose.number,
        name = escape(&hose.name),
        from = escape(&hose.from),
        to = escape(&hose.to),
        kind = escape(&hose.size_and_kind),
        cut = escape(&hose.cut.main),
        other = escape(&hose.cut.other),
        clock = escape(&hose.clock.short),
        state = escape(&hose.state),
    );
}
