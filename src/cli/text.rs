//! `check` for people.

use std::collections::BTreeSet;
use std::fmt::Write;

use crate::checks::Severity;
use crate::engine::RunSolution;
use crate::engine::flow::{LEFT_OUT, METHOD, RunFlow};
use crate::model::{Run, name_or};
use crate::report::answer::Answer;
use crate::report::flow::{
    cold_start_in_words, drop_in_words, given, pace_in_words, regime_caution, why_not_known,
};
use crate::report::verdict::Verdict;
use crate::units::{Length, LengthUnit};

use super::findings_text::{self, COLUMNS, NAME_COLUMNS, Unfolded};
use super::output;
use super::table::{Align, shortened, table, wrap};

/// Lengths, findings and a closing sentence.
pub(super) fn check(answer: &Answer, unfolded: Unfolded) -> String {
    let (bay, routing) = (answer.bay(), answer.routing());
    let mut out = String::new();
    let title = name_or(&bay.title, "Untitled bay");
    let name = name_or(&routing.name, &routing.id);
    // Writing to a String cannot fail, here and below.
    let _ = writeln!(out, "{}", shortened(title, COLUMNS));
    let _ = writeln!(out, "{}\n", shortened(&format!("Routing {} ({name})", routing.id), COLUMNS));
    lengths(&mut out, answer);
    flow(&mut out, answer);
    out.push_str(&findings_text::text(answer, unfolded));
    let _ = write!(out, "\n{}\n", closing(answer.told.verdict));
    output::plain(&out)
}

fn lengths(out: &mut String, answer: &Answer) {
    let (bay, routing) = (answer.bay(), answer.routing());
    let unit = bay.show_units;
    if routing.runs.is_empty() {
        out.push_str("No hoses in this routing.\n");
        return;
    }
    let rows: Vec<Vec<String>> = answer
        .runs()
        .map(|(place, run, solved)| {
            let worst = answer.verdict_on(place).worst();
            row(run, solved, worst.map_or("", Severity::noun), unit)
        })
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
        ("Tightest bend", Align::Right),
        ("Worst", Align::Left),
    ];
    out.push_str(&table(&heading, &rows));
    let (unit_name, step) = match unit {
        LengthUnit::Inch => ("inches", "1/16 in"),
        LengthUnit::Mm => ("millimetres", "1 mm"),
    };
    let note = format!(
        "In {unit_name}. Cut is rounded up to {step}. Overall: cut and both set-backs, seat to seat laid straight. \
         Tightest bend: radius of the minimum, centre line."
    );
    let _ = writeln!(out, "\n{}", wrap(&note, COLUMNS, 0));
}

fn row(run: &Run, solved: &RunSolution, worst: &str, unit: LengthUnit) -> Vec<String> {
    let number = |mm: f64| Length::from_mm(mm).number(unit);
    let cut = Length::from_mm(solved.cut_length_mm);
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
            || "no bend".to_owned(),
            |radius| format!("{} of {}", number(radius), number(solved.radius_limit_mm)),
        ),
        worst.to_owned(),
    ]
}

/// What the flow takes in the hoses that a flow is given for; nothing where there is none.
fn flow(out: &mut String, answer: &Answer) {
    let unit = answer.bay().show_units;
    let with_flow = answer
        .routing()
        .runs
        .iter()
        .enumerate()
        .filter_map(|(place, run)| Some((run, run.service.flow_lpm?, answer.flow(place)?)));
    let (mut rows, mut not_known, mut cautions) = (Vec::new(), Vec::new(), BTreeSet::new());
    for (run, lpm, found) in with_flow {
        let name = shortened(run.shown_name(), NAME_COLUMNS);
        match found {
            Ok(flow) => {
                cautions.extend(regime_caution(flow.regime()));
                rows.push(flow_row(name, flow, unit));
            }
            Err(why) => {
                let why = why_not_known(why, unit).unwrap_or_default();
                let flow = given(lpm, unit);
                not_known.push(format!("{name}, {flow}: pressure drop unknown: {why}."));
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
            "{METHOD}; {limits}. The sheet gives the density and viscosity used; where the fluid may be thin or \
             thick, both drops."
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
        given(flow.flow_lpm, unit),
        drop_in_words(flow, unit),
        pace_in_words(flow, unit),
        flow.cold_start.map_or_else(String::new, |cold| cold_start_in_words(&cold, unit)),
    ]
}

fn closing(verdict: Verdict) -> String {
    let limits = "Lengths are those of the bay as it is drawn; installed shapes and positions are calculated. Do a \
        dry fit before cutting, a proof test and a leak check before use. Local codes, the manufacturers’ instructions and \
        licensed technicians come first.";
    format!("{}\n{}", wrap(&verdict.in_full(), COLUMNS, 0), wrap(limits, COLUMNS, 0))
}
