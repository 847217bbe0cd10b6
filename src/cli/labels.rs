//! `hosewright labels`.

use crate::export::labels;

use super::args::{LabelsArgs, paper};
use super::check::Checked;
use super::sheet::{info, sheet};
use super::{Exit, Refusal, output, target};

pub(super) fn run(args: &LabelsArgs) -> Result<Exit, Refusal> {
    target::pdf(&args.bay.file, &args.out)?;
    let checked = Checked::load(&args.bay)?;
    let sheet = sheet(&checked, info(&args.bay.file, None));
    let paper = paper(args.paper, sheet.unit);
    let bytes = labels(&sheet, paper).map_err(|error| error.to_string())?;
    output::file(&args.out.out, &bytes)?;
    let labels = match sheet.hoses.len() {
        1 => "1 label".to_owned(),
        count => format!("{count} labels"),
    };
    output::wrote(&args.out.out, &format!("{labels} of {}", checked.routing_words()));
    Ok(Exit::Fine)
}
