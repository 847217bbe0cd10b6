//! `hosewright template`.

use std::path::Path;

use crate::engine::bend_table::BendTable;
use crate::export::{
    ASK_ABOVE_PAGES, Format, MOST_PAGES, Template, bend_table_csv, template, template_pages,
};
use crate::model::{Routing, Run};
use crate::units::{quotable, shown_path};

use super::args::{OutArgs, TemplateArgs, paper};
use super::sheet::info;
use super::{Exit, Refusal, check, output, target};

pub(super) fn run(args: &TemplateArgs) -> Result<Exit, Refusal> {
    let format = format(&args.bay.file, &args.out)?;
    let answer = check::load(&args.bay)?;
    let routing = answer.routing();
    let place = run_called(routing, &args.run)?;
    let run = &routing.runs[place];
    let lost = || format!("{}: could not be measured", run.shown_name());
    if format == Format::Csv {
        let solved = answer.solution.run(place).ok_or_else(lost)?;
        let table = BendTable::new(&solved.centre_line, answer.bay().show_units);
        output::file(&args.out.out, bend_table_csv(&run.id, &table).as_bytes())?;
        let words = format!("bend table of {}, {}", run.shown_name(), answer.routing_words());
        output::wrote(&args.out.out, &words);
        return Ok(Exit::Fine);
    }
    let info = info(&args.bay.file, args.date.clone());
    let made = Template::new(&answer, place, info).ok_or_else(lost)?;
    let paper = paper(args.paper, answer.bay().show_units);
    let counted = template_pages(&made, paper).map_err(|error| error.to_string())?;
    if counted.pages > ASK_ABOVE_PAGES && counted.pages <= MOST_PAGES && !args.yes {
        return Err(format!("{counted}; give --yes to have them all"));
    }
    let bytes = template(&made, paper).map_err(|error| error.to_string())?;
    output::file(&args.out.out, &bytes)?;
    let what = match &made.wire {
        None => "at full size, flat",
        Some(_) => "as a bend table, with a strip at full size",
    };
    let stop = if made.stop.is_empty() {
        String::new()
    } else {
        format!("; do not cut yet: {}", made.stop)
    };
    let words = format!("{} {what}, {}{stop}", made.name, answer.routing_words());
    output::wrote(&args.out.out, &words);
    Ok(Exit::Fine)
}

/// A PDF of the template, or its bend table as CSV.
fn format(bay: &Path, args: &OutArgs) -> Result<Format, Refusal> {
    target::writable(bay, args)?;
    match Format::of(&args.out) {
        Ok(format @ (Format::Pdf | Format::Csv)) => Ok(format),
        _ => Err(format!(
            "cannot write {}: the name must end in .pdf, or in .csv for its bend table",
            shown_path(&args.out)
        )),
    }
}

/// The place of the hose of this id; else of the only one of this name.
fn run_called(routing: &Routing, asked: &str) -> Result<usize, Refusal> {
    let by_id = routing.runs.iter().position(|run| run.id == asked);
    let is_called = |run: &Run| run.shown_name().eq_ignore_ascii_case(asked);
    let mut by_name = (0..).zip(&routing.runs).filter(|(_, run)| is_called(run)).map(|(at, _)| at);
    match (by_id, by_name.next(), by_name.next()) {
        (Some(place), ..) | (None, Some(place), None) => Ok(place),
        (None, Some(_), Some(_)) => Err(format!(
            "routing {} has several hoses named {}: give the id",
            routing.id,
            quotable(asked)
        )),
        (None, None, _) => Err(no_such_run(routing, asked)),
    }
}

fn no_such_run(routing: &Routing, asked: &str) -> Refusal {
    if routing.runs.is_empty() {
        return format!("routing {} has no hose", routing.id);
    }
    let known = routing.runs.iter().map(|run| format!("{} ({})", run.id, run.shown_name()));
    let known: Vec<String> = known.collect();
    format!("routing {} has no hose {}; it has: {}", routing.id, quotable(asked), known.join(", "))
}
