//! `hosewright template`.

use crate::export::{ASK_ABOVE_PAGES, MOST_PAGES, Template, template, template_pages};
use crate::model::{Routing, Run};
use crate::units::quotable;

use super::args::{TemplateArgs, paper};
use super::check::Checked;
use super::sheet::info;
use super::{Exit, Refusal, output, target};

pub(super) fn run(args: &TemplateArgs) -> Result<Exit, Refusal> {
    target::pdf(&args.bay.file, &args.out)?;
    let checked = Checked::load(&args.bay)?;
    let routing = checked.routing();
    let place = run_called(routing, &args.run)?;
    let run = &routing.runs[place];
    let solved = checked.solution.run(place);
    let solved = solved.ok_or_else(|| format!("{}: could not be measured", run.shown_name()))?;
    let info = info(&args.bay.file, args.date.clone());
    let made = Template::new(&checked.bay, routing, run, solved, &checked.findings, info);
    let paper = paper(args.paper, checked.bay.show_units);
    let counted = template_pages(&made, paper).map_err(|error| error.to_string())?;
    if counted.pages > ASK_ABOVE_PAGES && counted.pages <= MOST_PAGES && !args.yes {
        return Err(format!("{counted}; give --yes to have them all"));
    }
    let bytes = template(&made, paper).map_err(|error| error.to_string())?;
    output::file(&args.out.out, &bytes)?;
    let views = match &made.views[..] {
        [_] => "flat",
        _ => "in plan, side and front view",
    };
    let stop = if made.stop.is_empty() {
        String::new()
    } else {
        format!("; do not cut yet: {}", made.stop)
    };
    output::wrote(
        &args.out.out,
        &format!("{} at full size, {views}, {}{stop}", made.name, checked.routing_words()),
    );
    Ok(Exit::Fine)
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
