//! `hosewright template`.

use crate::export::{Template, template};
use crate::model::Routing;

use super::args::{TemplateArgs, paper};
use super::check::Checked;
use super::sheet::{info, pdf_target};
use super::{Exit, Refusal, output};

pub(super) fn run(args: &TemplateArgs) -> Result<Exit, Refusal> {
    pdf_target(&args.bay.file, &args.out)?;
    let checked = Checked::load(&args.bay)?;
    let option = checked.option();
    let place = option.runs.iter().position(|run| run.id == args.run);
    let place = place.ok_or_else(|| no_such_run(option, &args.run))?;
    let run = &option.runs[place];
    let solved = checked.solution.run(place);
    let solved = solved.ok_or_else(|| format!("{}: could not be measured", run.shown_name()))?;
    let info = info(&args.bay.file, args.date.clone());
    let made = Template::new(&checked.bay, option, run, solved, info);
    let paper = paper(args.paper, checked.bay.show_units);
    let bytes = template(&made, paper).map_err(|error| error.to_string())?;
    output::file(&args.out, &bytes)?;
    Ok(Exit::Fine)
}

fn no_such_run(option: &Routing, asked: &str) -> Refusal {
    let known: Vec<&str> = option.runs.iter().map(|run| run.id.as_str()).collect();
    if known.is_empty() {
        return format!("option {} has no hose", option.id);
    }
    format!("option {} has no hose {asked}; it has: {}", option.id, known.join(", "))
}
