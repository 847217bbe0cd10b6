//! `hosewright labels`.

use crate::export::{LabelKind, labels};
use crate::report::sheet::Sheet;

use super::args::{LabelsArgs, paper};
use super::sheet::info;
use super::{Exit, Refusal, check, output, target};

pub(super) fn run(args: &LabelsArgs) -> Result<Exit, Refusal> {
    target::pdf(&args.bay.file, &args.out)?;
    let answer = check::load(&args.bay)?;
    let sheet = Sheet::new(&answer, info(&args.bay.file, None).without_lengths());
    let kinds = args.kind.map_or(LabelKind::ALL.to_vec(), |kind| vec![kind.into()]);
    let paper = paper(args.paper, sheet.unit);
    let bytes = labels(&sheet, &kinds, paper).map_err(|error| error.to_string())?;
    output::file(&args.out.out, &bytes)?;
    let counted: Vec<String> = kinds.iter().map(|kind| count(*kind, sheet.hoses.len())).collect();
    let written = format!("{} of {}", counted.join(" and "), answer.routing_words());
    output::wrote(&args.out.out, &written);
    Ok(Exit::Fine)
}

fn count(kind: LabelKind, count: usize) -> String {
    let what = match kind {
        LabelKind::Bench => "bench tag",
        LabelKind::Finished => "label",
    };
    let plural = if count == 1 { "" } else { "s" };
    format!("{count} {what}{plural}")
}
