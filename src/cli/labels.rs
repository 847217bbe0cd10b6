//! `hosewright labels`.

use crate::document::file;
use crate::export::{Paper, labels};

use super::args::LabelsArgs;
use super::check::Checked;
use super::sheet::{info, pdf_target, sheet};
use super::{Exit, Refusal};

pub(super) fn run(args: &LabelsArgs) -> Result<Exit, Refusal> {
    pdf_target(&args.file, &args.out)?;
    let checked = Checked::load(&args.file, args.option.as_deref())?;
    let sheet = sheet(&checked, info(&args.file, None));
    let paper = args.paper.map_or_else(|| Paper::usual_for(sheet.unit), Paper::from);
    let bytes = labels(&sheet, paper).map_err(|error| error.to_string())?;
    file::replace(&args.out, |file| file.write_all(&bytes)).map_err(|error| error.to_string())?;
    Ok(Exit::Fine)
}
