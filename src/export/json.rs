//! The sheet for machines: figures in the contract's units, with the words of the paper sheet
//! beside them. The `report` inside is that of `check --json`.
//!
//! `"sheet": "hosewright-sheet"`, `"version": 1`. Keys ending in `_mm` and `_deg` are exact; keys
//! without a unit are words as they are printed.

use std::fmt::Write;

use serde::Serialize;

use crate::report::captions;
use crate::report::check::Report;
use crate::report::sheet::{
    Clearance, EndSheet, Fact, FindingLine, FinishedHose, HoseSheet, Mark, Sheet,
};
use crate::units::is_plain;

#[derive(Serialize)]
struct SheetJson<'a> {
    sheet: &'static str,
    version: u32,
    title: &'a str,
    notes: &'a str,
    routing: &'a str,
    routing_name: &'a str,
    date: Option<&'a str>,
    file: Option<&'a str>,
    show_units: &'static str,
    verdict: String,
    leak_tests: &'a str,
    hoses: Vec<HoseJson<'a>>,
    left_out: &'a [String],
    bay_findings: Vec<FindingJson<'a>>,
    not_measured: &'a [String],
    limits: &'a [String],
    report: &'a Report,
}

#[derive(Serialize)]
struct HoseJson<'a> {
    id: &'a str,
    name: &'a str,
    from: &'a str,
    to: &'a str,
    hose: &'a str,
    dash: u32,
    service: &'a str,
    do_not_cut: bool,
    state: &'a str,
    cut_length_mm: f64,
    bench_mm: i64,
    bench_inch: &'a str,
    tolerance_mm: f64,
    tolerance_source: &'a str,
    centreline_mm: f64,
    slack_mm: f64,
    slack_pct: f64,
    overall_mm: f64,
    outside_mm: f64,
    min_radius_mm: Option<f64>,
    radius_limit_mm: f64,
    clearance: Option<ClearanceJson<'a>>,
    dry_fit_mm: Option<f64>,
    dry_fit: &'a str,
    marks: Vec<MarkJson<'a>>,
    ends: Vec<EndJson<'a>>,
    clock: ClockJson<'a>,
    breakdown: Vec<FactJson<'a>>,
    installed: Vec<FactJson<'a>>,
    flow: Vec<FactJson<'a>>,
    torque_of: &'static str,
    torque: Vec<FactJson<'a>>,
    cautions: Vec<FactJson<'a>>,
    steps: &'a [String],
    steps_source: &'a str,
    leak_test: Vec<FactJson<'a>>,
    leak_test_state: &'a str,
    made: Vec<FactJson<'a>>,
    finished: FinishedJson<'a>,
    findings: Vec<FindingJson<'a>>,
}

#[derive(Serialize)]
struct FinishedJson<'a> {
    overall_mm: f64,
    is_measured: bool,
    rating: &'a str,
    proof: &'a str,
    lot: &'a str,
    made_on: &'a str,
    replace_by: &'a str,
}

#[derive(Serialize)]
struct ClearanceJson<'a> {
    obstacle: &'a str,
    gap_mm: f64,
    min_clearance_mm: f64,
    at_mm: f64,
}

#[derive(Serialize)]
struct MarkJson<'a> {
    kind: &'static str,
    what: &'a str,
    from_a_mm: f64,
    from_a: &'a str,
}

#[derive(Serialize)]
struct EndJson<'a> {
    end: &'static str,
    port: &'a str,
    fitting: &'a str,
    angle_deg: f64,
    attachment: &'static str,
    set_back_mm: f64,
    set_back_source: &'a str,
    socket_mm: f64,
    socket_source: &'a str,
    thread: &'a str,
}

#[derive(Serialize)]
struct ClockJson<'a> {
    between_deg: Option<f64>,
    words: &'a str,
    tolerance: String,
}

#[derive(Clone, Serialize)]
struct FactJson<'a> {
    label: &'a str,
    value: &'a str,
    remark: String,
}

#[derive(Serialize)]
struct FindingJson<'a> {
    severity: &'static str,
    rule: &'static str,
    place: &'a str,
    message: &'a str,
    hint: &'a str,
    source: &'a str,
}

/// The whole file, with a line end.
pub(super) fn json(sheet: &Sheet) -> String {
    pretty(&SheetJson {
        sheet: "hosewright-sheet",
        version: 1,
        title: &sheet.title,
        notes: &sheet.notes,
        routing: &sheet.routing_id,
        routing_name: &sheet.routing,
        date: sheet.info.date.as_deref(),
        file: sheet.info.file_name.as_deref(),
        show_units: match sheet.unit {
            crate::units::LengthUnit::Inch => "inch",
            crate::units::LengthUnit::Mm => "mm",
        },
        verdict: sheet.verdict.in_short(),
        leak_tests: &sheet.leak_tests,
        hoses: sheet.hoses.iter().map(hose).collect(),
        left_out: &sheet.left_out,
        bay_findings: findings(&sheet.bay_findings),
        not_measured: &sheet.not_measured,
        limits: &sheet.limits,
        report: &sheet.report,
    })
}

/// What `check --json` prints: one JSON document, with a line end. A number that is not finite, which no
/// loaded bay leads to, would stand as null.
pub fn check_json(report: &Report) -> String {
    pretty(report)
}

/// Any document of ours as indented JSON with a line end. The types written here have no maps and
/// no keys but words, so that nothing can go wrong; were it to, the answer is empty.
pub(super) fn pretty(document: &impl Serialize) -> String {
    let text = serde_json::to_string_pretty(document).unwrap_or_default();
    let mut text = with_marks_escaped(&text);
    text.push('\n');
    text
}

/// JSON whose controls and text-direction marks are all escaped (RFC 8259 §7): the text means the same,
/// and steers no terminal that it is printed on. They stand in strings only.
fn with_marks_escaped(json: &str) -> String {
    let mut out = String::with_capacity(json.len());
    for c in json.chars() {
        if is_plain(c) || c == '\n' {
            out.push(c);
        } else {
            // All of them are in the first plane: one unit each.
            let _ = write!(out, "\\u{:04x}", u32::from(c));
        }
    }
    out
}

fn hose(hose: &HoseSheet) -> HoseJson<'_> {
    let figures = &hose.figures;
    HoseJson {
        id: &hose.id,
        name: &hose.name,
        from: &hose.from,
        to: &hose.to,
        hose: &hose.hose,
        dash: hose.dash,
        service: &hose.service,
        do_not_cut: !hose.stop.is_empty(),
        state: &hose.state,
        cut_length_mm: figures.cut_length_mm,
        bench_mm: figures.bench_mm,
        bench_inch: &figures.bench_inch,
        tolerance_mm: hose.tolerance.mm,
        tolerance_source: &hose.tolerance_source,
        centreline_mm: figures.centreline_mm,
        slack_mm: figures.slack_mm,
        slack_pct: figures.slack_pct,
        overall_mm: figures.overall_mm,
        outside_mm: figures.outside_mm,
        min_radius_mm: figures.min_radius_mm,
        radius_limit_mm: figures.radius_limit_mm,
        clearance: figures.clearance.as_ref().map(clearance),
        dry_fit_mm: figures.dry_fit_mm,
        dry_fit: &hose.dry_fit,
        marks: hose.marks.iter().map(mark).collect(),
        ends: hose.ends.iter().map(end).collect(),
        clock: ClockJson {
            between_deg: hose.clock.between_deg,
            words: &hose.clock.words,
            tolerance: hose.clock.tolerance(),
        },
        breakdown: facts(&hose.breakdown),
        installed: facts(&hose.installed),
        flow: facts(&hose.flow),
        torque_of: captions::TORQUE,
        torque: facts(&hose.torque),
        cautions: facts(&hose.cautions),
        steps: &hose.steps,
        steps_source: captions::STEPS_SOURCE,
        leak_test: [facts(&hose.leak_test), facts(&hose.stored)].concat(),
        leak_test_state: &hose.test_key,
        made: facts(&hose.record),
        finished: finished(&hose.finished),
        findings: findings(&hose.findings),
    }
}

fn finished(finished: &FinishedHose) -> FinishedJson<'_> {
    FinishedJson {
        overall_mm: finished.overall.mm,
        is_measured: finished.is_measured,
        rating: &finished.rating,
        proof: &finished.proof,
        lot: &finished.lot,
        made_on: &finished.made_on,
        replace_by: &finished.replace_by,
    }
}

fn clearance(clearance: &Clearance) -> ClearanceJson<'_> {
    ClearanceJson {
        obstacle: &clearance.obstacle,
        gap_mm: clearance.gap_mm,
        min_clearance_mm: clearance.min_clearance_mm,
        at_mm: clearance.at_mm,
    }
}

fn mark(mark: &Mark) -> MarkJson<'_> {
    MarkJson {
        kind: mark.kind.word(),
        what: &mark.word,
        from_a_mm: mark.from_a.mm,
        from_a: &mark.from_a.main,
    }
}

fn end(end: &EndSheet) -> EndJson<'_> {
    EndJson {
        end: end.letter,
        port: &end.port,
        fitting: &end.fitting,
        angle_deg: end.angle_deg,
        attachment: end.attachment,
        set_back_mm: end.set_back.mm,
        set_back_source: &end.set_back_source,
        socket_mm: end.socket.mm,
        socket_source: &end.socket_source,
        thread: &end.thread,
    }
}

fn facts(facts: &[Fact]) -> Vec<FactJson<'_>> {
    facts
        .iter()
        .map(|fact| FactJson {
            label: &fact.label,
            value: &fact.value,
            remark: fact.remark_and_source(),
        })
        .collect()
}

fn findings(lines: &[FindingLine]) -> Vec<FindingJson<'_>> {
    lines
        .iter()
        .map(|line| FindingJson {
            severity: line.severity.word(),
            rule: line.rule,
            place: &line.place,
            message: &line.message,
            hint: &line.hint,
            source: &line.source,
        })
        .collect()
}
