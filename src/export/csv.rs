//! The sheet as CSV (RFC 4180, UTF-8): a header line, then one line a hose.

use crate::units::escaped;

use crate::report::sheet::{FlowFigures, HoseSheet, MarkKind, Sheet};

/// The columns, each with its unit.
const COLUMNS: [&str; 44] = [
    "routing",
    "hose_id",
    "name",
    "from_port",
    "to_port",
    "hose",
    "dash",
    "cut_bench_mm",
    "cut_bench_in",
    "cut_bench_in_decimal",
    "tolerance_mm",
    "cut_length_exact_mm",
    "centre_line_mm",
    "slack_mm",
    "slack_pct",
    "set_back_a_mm",
    "set_back_b_mm",
    "overall_mm",
    "end_a",
    "end_a_deg",
    "end_b",
    "end_b_deg",
    "clock_between_deg",
    "min_radius_mm",
    "radius_limit_mm",
    "clearance_obstacle",
    "clearance_gap_mm",
    "clearance_min_clearance_mm",
    "clearance_at_mm",
    "clamps_from_a_mm",
    "dry_fit_mm",
    "fluid",
    "pressure_bar",
    "temperature_c",
    "state",
    "findings",
    "leak_test",
    "flow_lpm",
    "velocity_m_s",
    "reynolds",
    "flow_regime",
    "pressure_drop_bar",
    "least_pressure_drop_bar",
    "flow",
];

/// The whole file. Lines end in CR LF.
pub(super) fn csv(sheet: &Sheet) -> String {
    let mut out = header();
    for hose in &sheet.hoses {
        out.push_str(&line(&row(sheet, hose)));
    }
    out
}

/// The header line.
pub(super) fn header() -> String {
    line(&COLUMNS.map(str::to_owned))
}

fn row(sheet: &Sheet, hose: &HoseSheet) -> [String; 44] {
    let figures = &hose.figures;
    let [a, b] = &hose.ends;
    let clearance = figures.clearance.as_ref();
    let optional = |value: Option<f64>| value.map_or_else(String::new, number);
    let flowing =
        |told: fn(&FlowFigures) -> String| figures.flow.as_ref().map_or_else(String::new, told);
    [
        text(&sheet.routing_id),
        text(&hose.id),
        text(&hose.name),
        text(&hose.from),
        text(&hose.to),
        text(&hose.hose),
        hose.dash.to_string(),
        figures.bench_mm.to_string(),
        // With its unit, so that no spreadsheet takes a fraction for a date.
        format!("{} in", figures.bench_inch),
        number(figures.bench_inch_decimal),
        number(hose.tolerance.mm),
        number(figures.cut_length_mm),
        number(figures.centreline_mm),
        number(figures.slack_mm),
        number(figures.slack_pct),
        number(a.set_back.mm),
        number(b.set_back.mm),
        number(figures.overall_mm),
        text(&a.fitting),
        number(a.angle_deg),
        text(&b.fitting),
        number(b.angle_deg),
        optional(hose.clock.between_deg),
        optional(figures.min_radius_mm),
        number(figures.radius_limit_mm),
        clearance.map_or_else(String::new, |near| text(&near.obstacle)),
        optional(clearance.map(|near| near.gap_mm)),
        optional(clearance.map(|near| near.min_clearance_mm)),
        optional(clearance.map(|near| near.at_mm)),
        clamps(hose),
        optional(figures.dry_fit_mm),
        figures.fluid.as_deref().map_or_else(String::new, text),
        optional(figures.pressure_bar),
        optional(figures.temperature_c),
        text(&hose.state),
        text(&findings(hose)),
        text(&hose.test_key),
        optional(figures.flow_lpm),
        flowing(|flow| precise(flow.velocity_m_s)),
        flowing(|flow| precise(flow.reynolds)),
        flowing(|flow| flow.regime.to_owned()),
        flowing(|flow| precise(flow.pressure_drop_bar)),
        flowing(|flow| precise(flow.least_pressure_drop_bar)),
        text(&flow(hose)),
    ]
}

/// What is said of its flow.
fn flow(hose: &HoseSheet) -> String {
    let facts =
        hose.flow.iter().map(|fact| format!("{}; {}", fact.value, fact.remark_and_source()));
    facts.collect::<Vec<_>>().join(" | ")
}

fn clamps(hose: &HoseSheet) -> String {
    let clamps = hose.marks.iter().filter(|mark| mark.kind == MarkKind::Clamp);
    clamps.map(|mark| number(mark.from_a.mm)).collect::<Vec<_>>().join("; ")
}

fn findings(hose: &HoseSheet) -> String {
    let lines =
        hose.findings.iter().map(|f| format!("{} {}: {}", f.severity.word(), f.rule, f.message));
    lines.collect::<Vec<_>>().join(" | ")
}

/// To a thousandth, with a decimal point; the sign is the plain hyphen that every reader knows.
pub(super) fn number(value: f64) -> String {
    let thousandths = (value * 1000.0).round() + 0.0;
    format!("{}", thousandths / 1000.0)
}

/// Exact, with a decimal point: for figures of which a thousandth says nothing.
pub(super) fn precise(value: f64) -> String {
    format!("{value}")
}

/// Words from outside in one line. A leading sign that a spreadsheet would take for a formula is put
/// behind an apostrophe (common practice).
pub(super) fn text(words: &str) -> String {
    let words = escaped(words);
    let is_formula = words.trim_start().starts_with(['=', '+', '-', '@']);
    if is_formula { format!("'{words}") } else { words.into_owned() }
}

pub(super) fn line(fields: &[String]) -> String {
    let mut out = fields.iter().map(|field| quoted(field)).collect::<Vec<_>>().join(",");
    out.push_str("\r\n");
    out
}

/// RFC 4180 §2: quoted where it holds a comma, a quote or a line end; quotes are doubled.
fn quoted(field: &str) -> String {
    if field.contains([',', '"', '\r', '\n']) {
        format!("\"{}\"", field.replace('"', "\"\""))
    } else {
        field.to_owned()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn fields_are_quoted_where_they_must_be() {
        assert_eq!(quoted("plain"), "plain");
        assert_eq!(quoted("a, b"), "\"a, b\"");
        assert_eq!(quoted("5\" pipe"), "\"5\"\" pipe\"");
        assert_eq!(quoted("two\nlines"), "\"two\nlines\"");
    }

    #[test]
    fn words_never_become_formulas() {
        for words in ["=1+1", "+1", "-1", "@SUM(A1)", " =1"] {
            assert!(text(words).starts_with('\''), "{words}");
        }
        assert_eq!(text("Fuel feed"), "Fuel feed");
        assert_eq!(text("\t=1\u{1b}\u{202e}\n"), "\\u{9}=1\\u{1b}\\u{202e}\\u{a}");
        assert_eq!(number(-0.0), "0");
        assert_eq!(number(-25.0), "-25");
    }
}
