//! `hosewright template`.

use crate::export::{Template, template};
use crate::model::{Routing, Run};

use super::args::{TemplateArgs, paper};
use super::check::Checked;
use super::sheet::{info, pdf_target};
use super::{Exit, Refusal, output};

pub(super) fn run(args: &TemplateArgs) -> Result<Exit, Refusal> {
    pdf_target(&args.bay.file, &args.out)?;
    let checked = Checked::load(&args.bay)?;
    let option = checked.option();
    let place = run_called(option, &args.run)?;
    let run = &option.runs[place];
    let solved = checked.solution.run(place);
    let solved = solved.ok_or_else(|| format!("{}: could not be measured", run.shown_name()))?;
    let info = info(&args.bay.file, args.date.clone());
    let made = Template::new(&checked.bay, option, run, solved, &checked.findings, info);
    let paper = paper(args.paper, checked.bay.show_units);
    let bytes = template(&made, paper).map_err(|error| error.to_string())?;
    output::file(&args.out, &bytes)?;
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
        &args.out,
        &format!("{} at full size, {views}, {}{stop}", made.name, checked.option_words()),
    );
    Ok(Exit::Fine)
}

/// The place of the hose of this id; else of the only one of this name.
fn run_called(option: &Routing, asked: &str) -> Result<usize, Refusal> {
    let by_id = option.runs.iter().position(|run| run.id == asked);
    let is_called = |run: &Run| run.shown_name().eq_ignore_ascii_case(asked);
    let mut by_name = (0..).zip(&option.runs).filter(|(_, run)| is_called(run)).map(|(at, _)| at);
    match (by_id, by_name.next(), by_name.next()) {
        (Some(place), ..) | (None, Some(place), None) => Ok(place),
        (None, Some(_), Some(_)) => {
            Err(format!("option {} has several hoses named {asked}: give the id", option.id))
        }
        (None, None, _) => Err(no_such_run(option, asked)),
    }
}

fn no_such_run(option: &Routing, asked: &str) -> Refusal {
    if option.runs.is_empty() {
        return format!("option {} has no hose", option.id);
    }
    let known = option.runs.iter().map(|run| format!("{} ({})", run.id, run.shown_name()));
    let known: Vec<String> = known.collect();
    format!("option {} has no hose {asked}; it has: {}", option.id, known.join(", "))
}
