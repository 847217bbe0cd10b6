//! One hose: everything that is needed at the bench.

use std::fmt::Write;

use super::super::svg::svg;
use super::{escape, facts, findings, head, remark};
use crate::report::captions;
use crate::report::sheet::{EndSheet, HoseSheet, Sheet};

pub(super) fn push(out: &mut String, sheet: &Sheet, hose: &HoseSheet) {
    let id = format!(" id=\"hose-{}\"", hose.number);
    open_page(out, sheet, &id, &format!("{}, hose {}", hose.name, hose.number));
    name(out, hose);
    stop(out, hose);
    hero(out, hose);
    marks(out, hose, sheet);
    out.push_str("<div class=\"columns ends-and-clock\">\n");
    ends(out, &hose.ends);
    clock(out, hose);
    out.push_str("</div>\n");
    route(out, hose);
    out.push_str("</div>\n</section>\n");
    open_page(out, sheet, "", &format!("{}, bench, {}", hose.name, hose.number));
    bench(out, hose);
    torque(out, hose);
    cautions(out, hose);
    made(out, hose);
    blanks(out, hose);
    flow(out, hose);
    installed(out, hose);
    found(out, hose);
    out.push_str("</div>\n</section>\n");
}

/// The frame of a page and its head; `what` is on it, of all hoses.
fn open_page(out: &mut String, sheet: &Sheet, id: &str, what: &str) {
    let _ = writeln!(out, "<section class=\"page hose\"{id}>");
    let of = format!("{what} of {}", sheet.hose_count);
    head(out, &sheet.title, &format!("routing: {}", sheet.routing), &of);
    out.push_str("<div class=\"body\">\n");
}

fn name(out: &mut String, hose: &HoseSheet) {
    let _ = writeln!(
        out,
        "<div class=\"name\"><h2>{}</h2><p><b>A</b> {} → <b>B</b> {} · {} · {}</p></div>",
        escape(&hose.name),
        escape(&hose.from),
        escape(&hose.to),
        escape(&hose.size_and_kind),
        escape(&hose.service)
    );
}

fn stop(out: &mut String, hose: &HoseSheet) {
    if hose.stop.is_empty() {
        return;
    }
    let _ = writeln!(out, "<div class=\"stop\"><strong>{}</strong><ul>", captions::STOP);
    for reason in &hose.stop {
        let _ = writeln!(out, "<li>{}</li>", escape(reason));
    }
    out.push_str("</ul></div>\n");
}

fn hero(out: &mut String, hose: &HoseSheet) {
    let _ = writeln!(
        out,
        "<div class=\"columns hero\">\n<div class=\"cut\"><p class=\"what\">{}</p>\
         <p class=\"figure\">{} <span>{}</span></p>\
         <p class=\"tolerance\">{} {} <span class=\"soft\">{}</span></p>\n{}\
         <p class=\"dry\"><b>{}</b> {}</p></div>",
        captions::CUT,
        escape(&hose.cut.main),
        escape(&hose.cut.other),
        captions::TOLERANCE,
        escape(&hose.tolerance_words),
        escape(&hose.tolerance_source),
        svg(&hose.bar),
        captions::DRY_FIT,
        escape(&hose.dry_fit),
    );
    facts(out, "facts", &hose.breakdown);
    out.push_str("</div>\n");
}

fn installed(out: &mut String, hose: &HoseSheet) {
    if hose.installed.is_empty() {
        return;
    }
    let _ = writeln!(out, "<div class=\"lie\"><h3>{}</h3>", captions::INSTALLED);
    facts(out, "facts", &hose.installed);
    out.push_str("</div>\n");
}

fn flow(out: &mut String, hose: &HoseSheet) {
    if hose.flow.is_empty() {
        return;
    }
    let _ = writeln!(out, "<div class=\"lie\"><h3>{}</h3>", captions::FLOW);
    facts(out, "facts", &hose.flow);
    out.push_str("</div>\n");
}

fn marks(out: &mut String, hose: &HoseSheet, sheet: &Sheet) {
    let _ = writeln!(
        out,
        "<figure><figcaption><b>{}</b> {}</figcaption>\n{}</figure>",
        captions::MARK,
        escape(&captions::mark_note(sheet)),
        svg(&hose.strip)
    );
}

fn ends(out: &mut String, ends: &[EndSheet; 2]) {
    out.push_str("<table class=\"ends\">\n<thead><tr><th scope=\"col\">Ends</th>");
    for end in ends {
        let _ = write!(out, "<th scope=\"col\">{}: {}</th>", end.letter, escape(&end.port));
    }
    out.push_str("</tr></thead>\n<tbody>\n");
    ends_row(out, "fitting", ends, |end| {
        format!("{}, {}", escape(&end.fitting), escape(&end.angle))
    });
    ends_row(out, "attachment", ends, |end| escape(end.attachment));
    ends_row(out, "set-back used", ends, |end| {
        format!("<b>{}</b>{}", escape(&end.set_back.main), remark(&end.set_back_source))
    });
    ends_row(out, "socket grips", ends, |end| {
        format!("<b>{}</b>{}", escape(&end.socket.main), remark(&end.socket_source))
    });
    ends_row(out, "thread", ends, |end| escape(&end.thread));
    out.push_str("</tbody>\n</table>\n");
}

fn ends_row(
    out: &mut String,
    label: &str,
    ends: &[EndSheet; 2],
    cell: impl Fn(&EndSheet) -> String,
) {
    let [a, b] = ends.each_ref().map(cell);
    let _ = writeln!(out, "<tr><th scope=\"row\">{label}</th><td>{a}</td><td>{b}</td></tr>");
}

fn clock(out: &mut String, hose: &HoseSheet) {
    let clock = &hose.clock;
    out.push_str("<div class=\"clock\">\n");
    if let Some(dial) = &clock.dial {
        out.push_str(&svg(dial));
    }
    let _ = writeln!(
        out,
        "<div><h3>Clock angle {}</h3><p>{}</p><p class=\"soft\">{}</p></div>",
        escape(&clock.short),
        escape(&clock.words),
        escape(&clock.tolerance)
    );
    out.push_str("</div>\n");
}

fn route(out: &mut String, hose: &HoseSheet) {
    let _ = writeln!(
        out,
        "<figure><figcaption><b>{}</b> {}</figcaption>\n{}</figure>",
        captions::ROUTE,
        captions::ROUTE_NOTE,
        svg(&hose.route)
    );
}

/// The heading names the hose: it is printed again where the findings run on to another page.
fn found(out: &mut String, hose: &HoseSheet) {
    if !hose.findings.is_empty() {
        let name = escape(&hose.name);
        let _ =
            writeln!(out, "<div class=\"found\"><h3>Found on {name}, hose {}</h3>", hose.number);
        findings(out, &hose.findings);
        out.push_str("</div>\n");
    }
}

fn bench(out: &mut String, hose: &HoseSheet) {
    out.push_str("<div class=\"columns bench\">\n<div class=\"steps\">");
    h3(out, captions::BENCH, captions::BENCH_NOTE);
    out.push_str("<ol>\n");
    for step in &hose.steps {
        let _ = writeln!(out, "<li><span class=\"tick\"></span>{}</li>", escape(step));
    }
    let _ = writeln!(
        out,
        "</ol><p class=\"soft\">{}</p></div>\n<div class=\"test\">",
        escape(&hose.steps_source)
    );
    let _ = writeln!(out, "<h3>{}</h3>", captions::LEAK_TEST);
    facts(out, "facts", &hose.leak_test);
    let _ =
        writeln!(out, "<p class=\"blank\">{} <span></span></p></div>\n</div>", captions::RESULT);
}

/// Below the bench, for it belongs to the vehicle: a nipple is not tightened to it.
fn torque(out: &mut String, hose: &HoseSheet) {
    out.push_str("<div class=\"lie torque\">");
    h3(out, captions::TORQUE, captions::TORQUE_NOTE);
    if hose.torque.is_empty() {
        let _ = writeln!(out, "<p>{}</p>", captions::NO_TORQUE);
    } else {
        facts(out, "facts", &hose.torque);
    }
    out.push_str("</div>\n");
}

/// A heading with a word more.
fn h3(out: &mut String, heading: &str, note: &str) {
    let _ = writeln!(out, "<h3>{heading} <span class=\"soft\">{note}</span></h3>");
}

fn cautions(out: &mut String, hose: &HoseSheet) {
    out.push_str("<div class=\"cautions\">\n");
    for caution in &hose.cautions {
        let _ = writeln!(
            out,
            "<p><b>{}.</b> {}{}</p>",
            escape(&caution.label),
            escape(&caution.value),
            remark(HoseSheet::caution_source(caution))
        );
    }
    let _ = writeln!(out, "<p class=\"soft\">{}</p>\n</div>", escape(&hose.defer));
}

fn made(out: &mut String, hose: &HoseSheet) {
    if hose.made.is_empty() {
        return;
    }
    let _ = writeln!(out, "<div class=\"lie\"><h3>{}</h3>", captions::MADE);
    facts(out, "facts", &hose.made);
    out.push_str("</div>\n");
}

fn blanks(out: &mut String, hose: &HoseSheet) {
    out.push_str("<p class=\"blanks\">");
    for blank in &hose.blanks {
        let _ = write!(out, "<span class=\"blank\">{} <span></span></span> ", escape(blank));
    }
    out.push_str("</p>\n");
}
