//! `hosewright sheet`.

use std::path::Path;

use crate::export::Format;
use crate::report::sheet::{Sheet, SheetInfo};
use crate::units::{first_lower, shown_path};

use super::args::{SheetArgs, paper};
use super::{Exit, Refusal, check, output, target};

pub(super) fn run(args: &SheetArgs) -> Result<Exit, Refusal> {
    let format = format(args)?;
    let answer = check::load(&args.bay)?;
    let info = format.asks(info(&args.bay.file, args.date.clone()));
    let answer = if info.with_lengths { answer.with_tried_hints() } else { answer };
    let sheet = Sheet::new(&answer, info);
    let paper = paper(args.paper, sheet.unit);
    let bytes = format.write(&sheet, paper).map_err(|error| error.to_string())?;
    output::file(&args.out.out, &bytes)?;
    let hoses = match sheet.hoses.len() {
        1 => "1 hose".to_owned(),
        count => format!("{count} hoses"),
    };
    let verdict = answer.told.verdict;
    let stop = if verdict.faults > 0 {
        format!("; but {}; see the sheet, or `hosewright check`", first_lower(&verdict.stop()))
    } else {
        String::new()
    };
    output::wrote(&args.out.out, &format!("{hoses} of {}{stop}", answer.routing_words()));
    Ok(Exit::Fine)
}

/// The day, today (UTC) where none was asked for, and the name of the bay file.
pub(super) fn info(bay: &Path, date: Option<String>) -> SheetInfo {
    SheetInfo::of(Some(bay), date.or_else(crate::clock::today))
}

/// The format, if the target can be written at all; asked before the long work.
fn format(args: &SheetArgs) -> Result<Format, Refusal> {
    let out = &args.out.out;
    target::writable(&args.bay.file, &args.out)?;
    Format::of(out).map_err(|error| format!("cannot write {}: {error}", shown_path(out)))
}
