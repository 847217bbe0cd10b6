//! `check` for people.

use std::collections::BTreeSet;
use std::fmt::Write;

use crate::checks::{Finding, Severity};
use crate::engine::flow::{LEFT_OUT, METHOD, RunFlow, flow_in_run};
use crate::engine::{RoutingSolution, RunSolution};
use crate::model::{Bay, Routing, Run, name_or};
use crate::report::check::worst_first;
use crate::report::flow::{cold_start_in_words, drop_in_words, pace_in_words, regime_caution};
use crate::units::{Flow, FlowUnit, Length, LengthUnit, quotable};

use super::output;
use super::table::{Align, shortened, table, wrap};

/// No line of ours is wider, but for words that cannot be broken.
const COLUMNS: usize = 108;
/// A hose's name in the table.
const NAME_COLUMNS: usize = 22;

/// Lengths, findings and a closing sentence.
pub(super) fn check(
    bay: &Bay,
    routing: &Routing,
    solution: &RoutingSolution,
    findings: &[Finding],
) -> String {
    let mut out = String::new();
    let title = name_or(&bay.title, "Untitled bay");
    let name = name_or(&routing.name, &routing.id);
    // Writing to a String cannot fail, here and below.
    let _ = writeln!(out, "{}", shortened(title, COLUMNS));
    let _ = writeln!(out, "{}\n", shortened(&format!("Routing {} ({name})", routing.id), COLUMNS));
    lengths(&mut out, bay, routing, solution, findings);
    flow(&mut out, bay, routing, solution);
    for finding in worst_first(findings) {
        out.push('\n');
        told(&mut out, routing, solution, finding, bay.show_units);
    }
    let _ = write!(out, "\n{}\n", closing(findings));
    output::plain(&out)
}

fn lengths(
    out: &mut String,
    bay: &Bay,
    routing: &Routing,
    solution: &RoutingSolution,
    findings: &[Finding],
) {
    let unit = bay.show_units;
    if routing.runs.is_empty() {
        out.push_str("No hoses in this routing.\n");
        return;
    }
    let rows: Vec<Vec<String>> = routing
        .runs
        .iter()
        .zip(&solution.runs)
        .filter_map(|(run, solved)| Some(row(run, solved.as_ref().ok()?, findings, unit)))
        .collect();
    let heading = [
        ("Hose", Align::Left),
        ("Size", Align::Right),
        ("Centre line", Align::Right),
        ("+ Slack", Align::Right),
        ("= Cut", Align::Right),
        ("Set-back A", Align::Right),
        ("B", Align::Right),
        ("Overall", Align::Right),
        ("Tightest of limit", Align::Right),
        ("Worst", Align::Left),
    ];
    out.push_str(&table(&heading, &rows));
    let (unit_name, step) = match unit {
        LengthUnit::Inch => ("inches", "1/16 in"),
        LengthUnit::Mm => ("millimetres", "1 mm"),
    };
    let note = format!(
        "In {unit_name}. Cut is rounded up to {step}; overall is cut and both set-backs, seat to seat along \
         the straight hose; bend radii are to the centre line."
    );
    let _ = writeln!(out, "\n{}", wrap(&note, COLUMNS, 0));
}

fn row(run: &Run, solved: &RunSolution, findings: &[Finding], unit: LengthUnit) -> Vec<String> {
    let number = |mm: f64| Length::from_mm(mm).number(unit);
    let cut = Length::from_mm(solved.cut_length_mm);
    let own = findings.iter().filter(|f| f.run.as_deref() == Some(run.id.as_str()));
    let worst = own.map(|finding| finding.severity).min();
    vec![
        shortened(run.shown_name(), NAME_COLUMNS),
        format!("\u{2212}{}", run.dash),
        number(solved.centreline_mm),
        number(solved.slack_mm),
        match unit {
            LengthUnit::Inch => cut.bench_inch(),
            LengthUnit::Mm => cut.bench_mm().to_string(),
        },
        number(solved.from.set_back_mm),
        number(solved.to.set_back_mm),
        number(solved.overall_mm),
        solved.min_radius_mm.map_or_else(
            || "nothing bends".to_owned(),
            |radius| format!("{} of {}", number(radius), number(solved.radius_limit_mm)),
        ),
        worst.map_or("", Severity::word).to_owned(),
    ]
}

/// What the flow takes in the hoses that a flow is given for; nothing where there is none.
fn flow(out: &mut String, bay: &Bay, routing: &Routing, solution: &RoutingSolution) {
    let given = routing.runs.iter().zip(&solution.runs).filter_map(|(run, solved)| {
        let lpm = run.service.flow_lpm?;
        Some((run, lpm, flow_in_run(bay, run, solved)))
    });
    let (mut rows, mut not_known, mut cautions) = (Vec::new(), Vec::new(), BTreeSet::new());
    for (run, lpm, found) in given {
        let name = shortened(run.shown_name(), NAME_COLUMNS);
        match found {
            Ok(flow) => {
                cautions.extend(regime_caution(flow.regime()));
                rows.push(flow_row(name, &flow, bay.show_units));
            }
            Err(why) => {
                let lpm = Flow::from_lpm(lpm).show(FlowUnit::Lpm);
                not_known.push(format!("{name}, {lpm}: pressure drop not known: {why}."));
            }
        }
    }
    if !rows.is_empty() {
        let heading = [
            ("Hose", Align::Left),
            ("Flow", Align::Right),
            ("Pressure drop", Align::Right),
            ("Velocity, Reynolds number", Align::Left),
            ("Cold start", Align::Left),
        ];
        let _ = write!(out, "\n{}", table(&heading, &rows));
        let limits: Vec<&str> = [LEFT_OUT].into_iter().chain(cautions).collect();
        let limits = limits.join("; ");
        let note = format!(
            "{METHOD}; {limits}. The sheet says of each hose which density and viscosity were taken; where the \
             fluid may be thin or thick the drop is told for both."
        );
        let _ = writeln!(out, "\n{}", wrap(&note, COLUMNS, 0));
    }
    for line in not_known {
        let _ = writeln!(out, "\n{}", wrap(&line, COLUMNS, 4));
    }
}

fn flow_row(name: String, flow: &RunFlow, unit: LengthUnit) -> Vec<String> {
    vec![
        name,
        Flow::from_lpm(flow.flow_lpm).show(FlowUnit::Lpm),
        drop_in_words(flow, unit),
        pace_in_words(flow),
        flow.cold_start.map_or_else(String::new, |cold| cold_start_in_words(&cold, unit)),
    ]
}

/// One finding: what and where, what to do, why.
fn told(
    out: &mut String,
    routing: &Routing,
    solution: &RoutingSolution,
    finding: &Finding,
    unit: LengthUnit,
) {
    const INDENT: usize = 6;
    let head = format!("{:<4}  {}", finding.severity.word().to_uppercase(), finding.rule);
    let place = place(routing, solution, finding, unit);
    let _ = writeln!(out, "{head}{}", if place.is_empty() { place } else { format!("  {place}") });
    let mut line = |label: &str, words: &str| {
        if !words.is_empty() {
            let indent = INDENT + label.chars().count();
            let words = wrap(words, COLUMNS.saturating_sub(indent), 0);
            let words = words.replace('\n', &format!("\n{}", " ".repeat(indent)));
            let _ = writeln!(out, "{}{label}{words}", " ".repeat(INDENT));
        }
    };
    line("", &finding.message);
    line("→ ", &finding.hint);
    line("Source: ", &finding.source);
}

fn place(
    routing: &Routing,
    solution: &RoutingSolution,
    finding: &Finding,
    unit: LengthUnit,
) -> String {
    let Some(id) = &finding.run else {
        return finding.other.as_deref().map(quotable).unwrap_or_default();
    };
    let index = routing.runs.iter().position(|run| run.id == *id);
    let name = index.map_or(id, |i| &routing.runs[i].name);
    let mut place = shortened(if name.is_empty() { id } else { name }, NAME_COLUMNS);
    let solved = index.and_then(|i| solution.run(i));
    if let Some((at_mm, run)) = finding.at_mm.zip(solved) {
        let from_a = Length::from_mm(run.on_bench_mm(at_mm)).show(unit);
        let _ = write!(place, ", {from_a} from cut end A");
    }
    place
}

fn closing(findings: &[Finding]) -> String {
    let count = |severity| findings.iter().filter(|f| f.severity == severity).count();
    let (fails, warns) = (count(Severity::Fail), count(Severity::Warn));
    let notes = count(Severity::Note);
    let many = |n: usize, one: &str, more: &str| format!("{n} {}", if n == 1 { one } else { more });
    let tail = format!("{}, {}", many(warns, "warning", "warnings"), many(notes, "note", "notes"));
    let verdict = if fails > 0 {
        format!("Do not cut yet: {} to fix first, {tail}.", many(fails, "fault", "faults"))
    } else if warns > 0 {
        format!("Nothing failed; look at the warnings before cutting: {tail}.")
    } else {
        format!("Nothing failed: {tail}.")
    };
    let limits = "Lengths are those of the bay as it is drawn; how hoses lie, and in which positions, is \
        calculated. Do a dry fit before cutting, and a leak test \
        before use; local codes, the makers’ instructions and licensed practice come first.";
    format!("{}\n{}", wrap(&verdict, COLUMNS, 0), wrap(limits, COLUMNS, 0))
}
