//! `hosewright template`.

use crate::document::file;
use crate::export::{Paper, Template, template};
use crate::model::Routing;

use super::args::TemplateArgs;
use super::check::Checked;
use super::sheet::{info, pdf_target};
use super::{Exit, Refusal};

pub(super) fn run(args: &TemplateArgs) -> Result<Exit, Refusal> {
    pdf_target(&args.file, &args.out)?;
    let checked = Checked::load(&args.file, args.option.as_deref())?;
    let option = checked.option();
    let place = option.runs.iter().position(|run| run.id == args.run);
    let place = place.ok_or_else(|| no_such_run(option, &args.run))?;
    let run = &option.runs[place];
    let solved = checked.solution.run(place);
    let solved = solved.ok_or_else(|| format!("{}: could not be measured", run.shown_name()))?;
    let info = info(&args.file, args.date.clone());
    let made = Template::new(&checked.bay, option, run, solved, info);
    let paper = args.paper.map_or_else(|| Paper::usual_for(checked.bay.show_units), Paper::from);
    let bytes = template(&made, paper).map_err(|error| error.to_string())?;
    file::replace(&args.out, |file| file.write_all(&bytes)).map_err(|error| error.to_string())?;
    Ok(Exit::Fine)
}

fn no_such_run(option: &Routing, asked: &str) -> Refusal {
    let known: Vec<&str> = option.runs.iter().map(|run| run.id.as_str()).collect();
    if known.is_empty() {
        return format!("option {} has no hose", option.id);
    }
    format!("option {} has no hose {asked}; it has: {}", option.id, known.join(", "))
}
